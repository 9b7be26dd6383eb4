#include "window/vehicle-page.h"

struct _PinVehiclePage
{
  GtkWidget parent_instance;

  PinDesk *desk;
};

G_DEFINE_FINAL_TYPE (PinVehiclePage, pin_vehicle_page, GTK_TYPE_WIDGET)

static void
pin_vehicle_page_dispose (GObject *object)
{
  g_clear_object (&PIN_VEHICLE_PAGE (object)->desk);
  G_OBJECT_CLASS (pin_vehicle_page_parent_class)->dispose (object);
}

static void
pin_vehicle_page_class_init (PinVehiclePageClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = pin_vehicle_page_dispose;
  gtk_widget_class_set_template_from_resource (GTK_WIDGET_CLASS (klass), "/page/hingepin/Hingepin/ui/vehicle-page.ui");
}

static void
pin_vehicle_page_init (PinVehiclePage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
pin_vehicle_page_set_desk (PinVehiclePage *self, PinDesk *desk)
{
  g_set_object (&self->desk, desk);
}

void
pin_vehicle_page_show (PinVehiclePage *self, gint64 vehicle)
{
}

const char *
pin_vehicle_page_name (PinVehiclePage *self)
{
  return NULL;
}
