#include "window/vehicle-page-private.h"

#include <glib/gi18n.h>

#include "base/day.h"
#include "window/line-item.h"
#include "window/list-fill.h"

/* The lists under the plan, and the number of lines in the name of each. */

static PinListFill *
fill_of (PinVehiclePage *self, GListStore *store)
{
  PinListFill *fill;

  for (guint i = 0; i < self->fills->len; i++)
    if (pin_list_fill_store (g_ptr_array_index (self->fills, i)) == store)
      return g_ptr_array_index (self->fills, i);
  fill = pin_list_fill_new (GTK_WIDGET (self), store, pin_line_item_equal);
  g_ptr_array_add (self->fills, fill);
  return fill;
}

/* Only the list that is seen gets its rows: a list makes hundreds of them. */
static void
fill (PinVehiclePage *self, GtkStackPage *page, GListStore *store, GPtrArray *items)
{
  gboolean seen = gtk_stack_page_get_child (page) == gtk_stack_get_visible_child (self->lists);

  pin_list_fill_with (fill_of (self, store), seen ? g_ptr_array_ref (items) : g_ptr_array_new (),
                      FALSE);
}

static void
name_page (GtkStackPage *page, const char *title, guint n)
{
  g_autofree char *text = g_strdup_printf ("%s %u", title, n);

  gtk_stack_page_set_title (page, n > 0 ? text : title);
}

static void
add_mark (PinLineItem *item, PinGravity gravity)
{
  pin_line_item_set_mark (item, gravity == PIN_GRAVITY_WATCH ? PIN_OUTCOME_WATCH : PIN_OUTCOME_FAIL,
                          gravity == PIN_GRAVITY_UNSAFE);
}

static void
show_findings (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  guint open = 0;

  for (guint i = 0; i < self->view->findings->len; i++)
    {
      const PinFindingLine *line = g_ptr_array_index (self->view->findings, i);
      PinLineItem *item = pin_line_item_new (line->text, line->state, line->closes, NULL);

      if (!line->row->closed)
        {
          add_mark (item, line->gravity);
          open++;
        }
      if (line->may_accept)
        pin_line_item_add_button (item, &(PinLineButton) { _("Accept"), NULL, "vehicle.accept", line->row->id });
      if (line->may_close)
        pin_line_item_add_button (item, &(PinLineButton) { _("Close"), NULL, "vehicle.close", line->row->id });
      g_ptr_array_add (items, item);
    }
  fill (self, self->findings_page, self->findings, items);
  gtk_widget_set_visible (GTK_WIDGET (self->findings_none), items->len == 0);
  gtk_widget_set_visible (GTK_WIDGET (self->finding_note), open > 0);
  name_page (self->findings_page, _("Findings"), open);
}

static void
show_owed (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < self->view->owed->len; i++)
    {
      const PinOwedLine *line = g_ptr_array_index (self->view->owed, i);
      PinLineItem *item = pin_line_item_new (line->text, line->settles, NULL, NULL);

      pin_line_item_set_owed (item);
      if (line->may_settle)
        pin_line_item_add_button (item, &(PinLineButton) { _("Settled"), NULL, "vehicle.settle", line->id });
      g_ptr_array_add (items, item);
    }
  fill (self, self->owed_page, self->owed, items);
  name_page (self->owed_page, _("Owed"), items->len);
  gtk_stack_page_set_visible (self->owed_page, items->len > 0);
}

static const char *
verdict_word (const char *verdict)
{
  if (g_strcmp0 (verdict, "signed") == 0)
    return _("signed");
  if (g_strcmp0 (verdict, "abandoned") == 0)
    return _("abandoned");
  return _("open");
}

static void
show_inspections (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < self->view->inspections->len; i++)
    {
      const PinInspectionLine *line = g_ptr_array_index (self->view->inspections, i);
      g_autofree char *text = line->person != NULL && *line->person != '\0'
                                ? g_strdup_printf ("%s, %s", verdict_word (line->verdict), line->person)
                                : g_strdup (verdict_word (line->verdict));
      g_autofree char *name = g_strdup_printf (_("Record: %s, %s"), line->title, line->day);
      PinLineItem *item = pin_line_item_new (line->title, text, NULL, line->day);

      if (g_strcmp0 (line->verdict, "open") == 0)
        pin_line_item_add_button (item, &(PinLineButton) { _("Go on"), NULL, "win.bench", line->id });
      pin_line_item_add_button (item, &(PinLineButton) { _("Record"), name, "win.record", line->id });
      g_ptr_array_add (items, item);
    }
  fill (self, self->inspections_page, self->inspections, items);
  gtk_widget_set_visible (GTK_WIDGET (self->inspections_none), items->len == 0);
  name_page (self->inspections_page, _("Inspections"), items->len);
}

static void
show_outings (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < self->view->outings->len; i++)
    {
      const PinOutingLine *line = g_ptr_array_index (self->view->outings, i);

      g_ptr_array_add (items, pin_line_item_new (line->text, line->conditions, line->outing->note,
                                                 line->day));
    }
  fill (self, self->outings_page, self->outings, items);
  name_page (self->outings_page, _("Outings"), items->len);
  gtk_stack_page_set_visible (self->outings_page, items->len > 0);
}

static const char *
origin_word (const char *origin)
{
  if (g_strcmp0 (origin, "measured") == 0)
    return _("measured");
  if (g_strcmp0 (origin, "maker") == 0)
    return _("from the maker");
  if (g_strcmp0 (origin, "owner") == 0)
    return _("told by the owner");
  return _("usual for the type");
}

static void
show_setup (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < self->view->setup->len; i++)
    {
      const PinSetupGroup *group = g_ptr_array_index (self->view->setup, i);

      for (guint k = 0; k < group->facts->len; k++)
        {
          const PinSetupFact *fact = g_ptr_array_index (group->facts, k);
          gboolean placed = fact->label != NULL && *fact->label != '\0';
          g_autofree char *title = placed ? g_strdup_printf ("%s, %s", fact->label, fact->title)
                                          : g_strdup (fact->title);
          g_autofree char *day = fact->day != NULL ? pin_day_short (fact->day) : NULL;
          g_autofree char *line = g_strdup_printf ("%s: %s", title, fact->text);

          g_ptr_array_add (items, pin_line_item_new (line, origin_word (fact->origin), NULL, day));
        }
    }
  fill (self, self->setup_page, self->setup, items);
}

void
pin_vehicle_page_show_lists (PinVehiclePage *self)
{
  name_page (self->parts_page, _("Parts"), self->view->parts->len);
  show_findings (self);
  show_owed (self);
  show_inspections (self);
  show_outings (self);
  show_setup (self);
}
