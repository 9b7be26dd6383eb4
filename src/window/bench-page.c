#include "window/bench-page.h"

struct _PinBenchPage
{
  GtkWidget parent_instance;

  PinDesk *desk;
};

G_DEFINE_FINAL_TYPE (PinBenchPage, pin_bench_page, GTK_TYPE_WIDGET)

static void
pin_bench_page_dispose (GObject *object)
{
  g_clear_object (&PIN_BENCH_PAGE (object)->desk);
  G_OBJECT_CLASS (pin_bench_page_parent_class)->dispose (object);
}

static void
pin_bench_page_class_init (PinBenchPageClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = pin_bench_page_dispose;
  gtk_widget_class_set_template_from_resource (GTK_WIDGET_CLASS (klass), "/page/hingepin/Hingepin/ui/bench-page.ui");
}

static void
pin_bench_page_init (PinBenchPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
pin_bench_page_set_desk (PinBenchPage *self, PinDesk *desk)
{
  g_set_object (&self->desk, desk);
}

void
pin_bench_page_show (PinBenchPage *self, gint64 inspection)
{
}

GStrv
pin_bench_page_footer (PinBenchPage *self, const char *kept)
{
  return g_strdupv ((char *[]) { (char *) kept, NULL });
}

gboolean
pin_bench_page_undo (PinBenchPage *self)
{
  return FALSE;
}
