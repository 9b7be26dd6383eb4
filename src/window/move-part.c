#include "window/move-part.h"

#include <glib/gi18n.h>

#include "service/finding-text.h"
#include "window/change.h"
#include "window/fields.h"
#include "window/tell.h"

struct _PinMovePart
{
  GtkBox parent_instance;

  const PinChoice *choice;    /* borrowed */
  GPtrArray *cars;            /* PinCar*, with such a place; NULL until read */
  GPtrArray *places;          /* PinSlot*, of the chosen car */
  GCancellable *reading;

  GtkStack *states;           /* template */
  GtkDropDown *car, *place;
  GtkLabel *displaced;
  GtkEntry *day;
};

G_DEFINE_FINAL_TYPE (PinMovePart, pin_move_part, GTK_TYPE_BOX)

static PinSlot *
slot_of (PinMovePart *self)
{
  return g_ptr_array_index (self->choice->slots, 0);
}

static gpointer
chosen (GtkDropDown *list, GPtrArray *things)
{
  guint i = gtk_drop_down_get_selected (list);

  return things != NULL && i < things->len ? g_ptr_array_index (things, i) : NULL;
}

/* ---- where to ----------------------------------------------------------------- */

static void
show_displaced (PinMovePart *self)
{
  const PinSlot *place = chosen (self->place, self->places);

  gtk_label_set_label (self->displaced,
                       place != NULL && place->part != 0
                         ? _("What is there now goes to the shelf. What the part carries goes along.")
                         : _("Nothing is fitted there. What the part carries goes along."));
}

static void
on_place (PinMovePart *self)
{
  show_displaced (self);
}

static char *
place_words (const PinSlot *place)
{
  g_autofree char *size = pin_size_text (place->size);

  if (place->part == 0)
    return g_strdup_printf (_("%s (empty)"), place->label);
  return *size != '\0' ? g_strdup_printf ("%s (%s)", place->label, size)
                             : g_strdup (place->label);
}

static GPtrArray *
places_in (const PinCar *car, const char *kind)
{
  GPtrArray *places = g_ptr_array_new ();

  for (guint i = 0; i < car->slots->len; i++)
    {
      PinSlot *slot = g_ptr_array_index (car->slots, i);

      if (g_strcmp0 (slot->kind, kind) == 0)
        g_ptr_array_add (places, slot);
    }
  return places;
}

/* Places whose part is as large as the one that comes stand before the others. */
static void
same_size_first (GPtrArray *places, const char *size)
{
  guint same = 0;

  for (guint i = 0; i < places->len; i++)
    if (g_strcmp0 (((PinSlot *) g_ptr_array_index (places, i))->size, size) == 0)
      g_ptr_array_insert (places, same++, g_ptr_array_steal_index (places, i));
}

static void
on_car (PinMovePart *self)
{
  PinCar *car = chosen (self->car, self->cars);
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);

  g_clear_pointer (&self->places, g_ptr_array_unref);
  if (car == NULL || self->choice == NULL)
    return;
  self->places = places_in (car, slot_of (self)->kind);
  same_size_first (self->places, slot_of (self)->size);
  for (guint i = 0; i < self->places->len; i++)
    gtk_string_list_take (words, place_words (g_ptr_array_index (self->places, i)));
  gtk_drop_down_set_model (self->place, G_LIST_MODEL (words));
  show_displaced (self);
}

static void
show_cars (PinMovePart *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < self->cars->len; i++)
    gtk_string_list_append (names, ((PinCar *) g_ptr_array_index (self->cars, i))->name);
  gtk_drop_down_set_model (self->car, G_LIST_MODEL (names));
  gtk_stack_set_visible_child_name (self->states, self->cars->len > 0 ? "cars" : "none");
  on_car (self);
}

/* ---- reading the other cars ------------------------------------------------------ */

typedef struct
{
  gint64 vehicle;             /* not this one */
  char *kind;
  PinLibrary *library;
} Wanted;

static void
wanted_free (gpointer data)
{
  Wanted *wanted = data;

  g_free (wanted->kind);
  g_free (wanted);
}

/* FALSE: it could not be read.  A car without such a place is left out. */
static gboolean
add_car (PinDb *db, gint64 vehicle, const Wanted *wanted, GPtrArray *cars, GError **error)
{
  PinCarRows *rows = pin_car_rows_load (db, vehicle, error);
  g_autoptr (PinCar) car = rows != NULL ? pin_car_new (rows, wanted->library, error) : NULL;
  g_autoptr (GPtrArray) places = car != NULL ? places_in (car, wanted->kind) : NULL;

  if (car == NULL)
    return FALSE;
  if (places->len > 0)
    g_ptr_array_add (cars, g_steal_pointer (&car));
  return TRUE;
}

static gpointer
load_cars (PinDb *db, gpointer data, GError **error)
{
  const Wanted *wanted = data;
  g_autoptr (GPtrArray) rows = pin_query_vehicles (db, error);
  g_autoptr (GPtrArray) cars = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_car_free);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const PinVehicleRow *row = g_ptr_array_index (rows, i);

      if (row->id != wanted->vehicle && !add_car (db, row->id, wanted, cars, error))
        return NULL;
    }
  return rows != NULL ? g_steal_pointer (&cars) : NULL;
}

static void
cars_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinMovePart) self = user_data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) cars = pin_desk_read_finish (PIN_DESK (source), result, &error);

  if (cars == NULL)
    {
      pin_tell_error (GTK_WIDGET (self), _("The other vehicles could not be read:"), error);
      return;
    }
  if (self->choice == NULL)
    return;
  self->cars = g_steal_pointer (&cars);
  show_cars (self);
}

/* Only when somebody looks at the form. */
static void
read_cars (PinMovePart *self)
{
  Wanted *wanted;

  if (self->choice == NULL || self->reading != NULL)
    return;
  wanted = g_new0 (Wanted, 1);
  wanted->vehicle = self->choice->view->car->id;
  wanted->kind = g_strdup (slot_of (self)->kind);
  wanted->library = pin_desk_library (self->choice->desk);
  self->reading = g_cancellable_new ();
  pin_desk_read (self->choice->desk, load_cars, wanted, wanted_free,
                 (GDestroyNotify) g_ptr_array_unref, self->reading, cars_loaded,
                 g_object_ref (self));
}

static void
forget (PinMovePart *self)
{
  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  g_clear_pointer (&self->places, g_ptr_array_unref);
  g_clear_pointer (&self->cars, g_ptr_array_unref);
}

/* ---- moving -------------------------------------------------------------------- */

static void
on_move (PinMovePart *self)
{
  PinCar *car = chosen (self->car, self->cars);
  PinSlot *place = chosen (self->place, self->places);
  g_autoptr (GError) error = NULL;
  g_autofree char *day = NULL;
  PinDeedDone *done;
  PinDesk *desk;

  if (self->choice == NULL || car == NULL || place == NULL)
    return;
  desk = self->choice->desk;
  done = pin_deed_done_new (pin_desk_book (desk), pin_desk_person (desk));
  day = pin_field_day (GTK_EDITABLE (self->day), &error);
  if (day != NULL && pin_inventory_move (done, self->choice->view->car, slot_of (self), car, place,
                                         day, &error))
    {
      pin_change_write (GTK_WIDGET (self), desk, done, self->choice->view->car->id, 0, NULL);
      return;
    }
  pin_tell_error (GTK_WIDGET (self), _("Nothing was changed:"), error);
  pin_deed_done_free (done);
}

/* ---- class ---------------------------------------------------------------------- */

static void
pin_move_part_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pin_move_part_parent_class)->map (widget);
  read_cars (PIN_MOVE_PART (widget));
}

static void
pin_move_part_dispose (GObject *object)
{
  PinMovePart *self = PIN_MOVE_PART (object);

  self->choice = NULL;
  forget (self);
  G_OBJECT_CLASS (pin_move_part_parent_class)->dispose (object);
}

static void
pin_move_part_class_init (PinMovePartClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_move_part_dispose;
  widget_class->map = pin_move_part_map;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/move-part.ui");
  gtk_widget_class_bind_template_child (widget_class, PinMovePart, states);
  gtk_widget_class_bind_template_child (widget_class, PinMovePart, car);
  gtk_widget_class_bind_template_child (widget_class, PinMovePart, place);
  gtk_widget_class_bind_template_child (widget_class, PinMovePart, displaced);
  gtk_widget_class_bind_template_child (widget_class, PinMovePart, day);
  gtk_widget_class_bind_template_callback (widget_class, on_car);
  gtk_widget_class_bind_template_callback (widget_class, on_place);
  gtk_widget_class_bind_template_callback (widget_class, on_move);
}

static void
pin_move_part_init (PinMovePart *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* NULL: nothing is chosen, or several, or a place with nothing in it. */
void
pin_move_part_set_choice (PinMovePart *self, const PinChoice *choice)
{
  forget (self);
  self->choice = choice;
  gtk_stack_set_visible_child_name (self->states, "reading");
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    read_cars (self);
}
