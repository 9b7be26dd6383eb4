#include "window/reckoner-page.h"

#include <glib/gi18n.h>
#include <string.h>

#include "book/queries.h"
#include "library/procedure.h"
#include "library/reading.h"
#include "reckoner/reckoning.h"
#include "service/finding-text.h"
#include "service/reckon-fill.h"
#include "window/change.h"
#include "window/chart-area.h"
#include "window/fields.h"
#include "window/hazard-bar.h"
#include "window/read-vehicle.h"
#include "window/reckoner-form.h"
#include "window/reckoner-results.h"
#include "window/restack.h"
#include "window/tab-stop.h"
#include "window/tell.h"

struct _PinReckonerPage
{
  GtkWidget parent_instance;

  PinDesk *desk;              /* owned, or NULL */
  const PinSum *sum;
  PinReckoning *reckoning;    /* owned; NULL while something is missing or wrong */
  GHashTable *left;           /* sum id → GHashTable: as it was left */
  GArray *ids;                /* gint64: the vehicles of the list, 0 first */
  PinVehicleView *view;       /* owned; of the chosen vehicle, or NULL */
  gint64 wanted;              /* vehicle to choose once the list is read */
  gboolean refill;            /* it was chosen anew: what it says goes into the sums */
  gboolean settling;          /* widgets are being set, not used */
  GCancellable *reading;

  GtkLabel *title, *answer, *about; /* template */
  PinHazardBar *hazard;
  GtkDropDown *car;
  GtkStringList *cars;
  GtkListBox *list;
  PinReckonerForm *form;
  GtkGrid *values;
  GtkBox *warnings, *working, *gates, *tables, *keep_box;
  GtkLabel *keep_text;
  GtkButton *keep;
  PinChartArea *chart;
};

G_DEFINE_FINAL_TYPE (PinReckonerPage, pin_reckoner_page, GTK_TYPE_WIDGET)

/* ---- working it out ------------------------------------------------------------------- */

/* The title of an input that has to be given and is not; NULL: none is missing. */
static char *
missing_text (const PinSum *sum, GHashTable *typed)
{
  g_autoptr (GPtrArray) titles = g_ptr_array_new ();

  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    if (input->preset == NULL && !g_hash_table_contains (typed, input->id))
      g_ptr_array_add (titles, (gpointer) _(input->title));
  if (titles->len == 0)
    return NULL;
  g_ptr_array_add (titles, NULL);
  return g_strjoinv (", ", (char **) titles->pdata);
}

/* The input that a message begins with, "pinion: …"; NULL: none. */
static const PinInput *
input_of (const PinSum *sum, const char *message)
{
  const char *colon = strchr (message, ':');
  g_autofree char *id = colon != NULL ? g_strndup (message, colon - message) : NULL;

  return id != NULL ? pin_sum_input (sum, id) : NULL;
}

static void
show_answer (PinReckonerPage *self, const char *text, gboolean wrong)
{
  gtk_label_set_label (self->answer, text);
  if (wrong)
    gtk_widget_add_css_class (GTK_WIDGET (self->answer), "fail-word");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->answer), "fail-word");
}

/* Good values that together have no answer, or too few of them: the message begins
 * with the sum, which stands beside it already. */
static void
show_no_answer (PinReckonerPage *self, const char *message)
{
  const char *colon = strstr (message, ": ");
  g_autofree char *text = pin_sentence_case (colon != NULL ? colon + strlen (": ") : message);

  show_answer (self, text, FALSE);
}

static void
show_error (PinReckonerPage *self, const GError *error)
{
  const PinInput *input = input_of (self->sum, error->message);
  const char *colon = strchr (error->message, ':');
  g_autofree char *text = input != NULL ? g_strconcat (_(input->title), colon, NULL)
                                        : g_strdup (error->message);

  pin_reckoner_form_mark (self->form, input != NULL ? input->id : NULL);
  show_answer (self, text, TRUE);
}

static void show_keeps (PinReckonerPage *self);

static void
show_results (PinReckonerPage *self)
{
  const PinReckoning *reckoning = self->reckoning;

  pin_results_show_values (self->values, reckoning);
  gtk_widget_set_visible (GTK_WIDGET (self->values), reckoning != NULL);
  pin_results_show_warnings (self->warnings, reckoning);
  pin_results_show_working (self->working, self->sum, reckoning);
  pin_results_show_gates (self->gates, reckoning);
  pin_results_show_tables (self->tables, reckoning);
  pin_chart_area_set (self->chart, reckoning != NULL ? reckoning->chart : NULL);
  show_keeps (self);
}

/* ---- keeping what is news of the vehicle ------------------------------------------------ */

static GPtrArray *
keeps_of (PinReckonerPage *self)
{
  g_autoptr (GHashTable) typed = pin_reckoner_form_typed (self->form);

  if (self->view == NULL || self->reckoning == NULL)
    return g_ptr_array_new ();
  return pin_reckon_keeps (self->sum, pin_desk_library (self->desk), self->view, typed);
}

static void
show_keeps (PinReckonerPage *self)
{
  g_autoptr (GPtrArray) keeps = keeps_of (self);
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < keeps->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "", ((PinKeep *) g_ptr_array_index (keeps, i))->says);
  gtk_label_set_label (self->keep_text, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->keep_box), keeps->len > 0);
}

static void
kept (GtkWidget *from, gboolean written, gint64 id)
{
  gtk_widget_set_sensitive (GTK_WIDGET (PIN_RECKONER_PAGE (from)->keep), TRUE);
}

static void
on_keep (PinReckonerPage *self)
{
  g_autoptr (GPtrArray) keeps = keeps_of (self);
  g_autoptr (PinDeedDone) done = NULL;
  g_autoptr (GError) error = NULL;

  if (keeps->len == 0 || !gtk_widget_get_sensitive (GTK_WIDGET (self->keep)))
    return;
  done = pin_deed_done_new (pin_desk_book (self->desk), pin_desk_person (self->desk));
  if (!pin_reckon_keep (done, pin_desk_library (self->desk), self->view, keeps, &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("Nothing was kept:"), error);
      return;
    }
  gtk_widget_set_sensitive (GTK_WIDGET (self->keep), FALSE);
  pin_change_write (GTK_WIDGET (self), self->desk, g_steal_pointer (&done), self->view->car->id, 0, kept);
}

/* ---- the sum ------------------------------------------------------------------------------- */

static void
work_out (PinReckonerPage *self)
{
  g_autoptr (GHashTable) typed = pin_reckoner_form_typed (self->form);
  g_autofree char *missing = missing_text (self->sum, typed);
  g_autoptr (GError) error = NULL;

  pin_chart_area_set (self->chart, NULL);
  g_clear_pointer (&self->reckoning, pin_reckoning_free);
  pin_reckoner_form_mark (self->form, NULL);
  if (missing != NULL)
    {
      g_autofree char *text = g_strdup_printf (_("Still to be put in: %s."), missing);

      show_answer (self, text, FALSE);
    }
  else
    {
      self->reckoning = pin_reckon (self->sum, typed, &error);
      if (self->reckoning != NULL)
        show_answer (self, self->reckoning->answer, FALSE);
      else if (g_error_matches (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_NO_ANSWER))
        show_no_answer (self, error->message);
      else
        show_error (self, error);
    }
  show_results (self);
}

/* ---- choosing a sum ---------------------------------------------------------------------- */

static void
leave_sum (PinReckonerPage *self)
{
  if (self->sum != NULL)
    g_hash_table_insert (self->left, (gpointer) self->sum->id, pin_reckoner_form_typed (self->form));
}

static void
fill_in (PinReckonerPage *self)
{
  g_autoptr (GPtrArray) fills = NULL;

  if (self->view == NULL)
    return;
  fills = pin_reckon_fill (self->sum, self->view);
  for (guint i = 0; i < fills->len; i++)
    {
      const PinFill *fill = g_ptr_array_index (fills, i);

      pin_reckoner_form_fill (self->form, fill->input, fill->typed, fill->origin);
    }
}

/* "Warning: …": the signal word is the level's. */
static void
show_hazard (PinReckonerPage *self, const PinSum *sum)
{
  g_autoptr (GPtrArray) hazards = g_ptr_array_new ();
  g_autofree char *word = NULL;
  g_autofree char *sentence = NULL;
  const char *text = sum->hazard != NULL ? strstr (_(sum->hazard), ": ") : NULL;
  PinHazard hazard = { PIN_HAZARD_NOTICE, NULL, NULL };

  if (text != NULL)
    {
      word = g_ascii_strdown (sum->hazard, strcspn (sum->hazard, ":"));
      hazard.level = pin_hazard_level_parse (word);
      sentence = pin_sentence_case (text + strlen (": "));
      hazard.text = sentence;
      g_ptr_array_add (hazards, &hazard);
    }
  pin_hazard_bar_set (self->hazard, hazards);
  gtk_widget_set_visible (GTK_WIDGET (self->hazard), hazards->len > 0);
}

static void
show_sum (PinReckonerPage *self, const PinSum *sum)
{
  GHashTable *left;

  if (sum == self->sum)
    return;
  leave_sum (self);
  self->sum = sum;
  left = g_hash_table_lookup (self->left, sum->id);
  gtk_label_set_label (self->title, _(sum->title));
  gtk_label_set_label (self->about, _(sum->about));
  show_hazard (self, sum);
  pin_reckoner_form_set_sum (self->form, sum, left);
  if (left == NULL)
    fill_in (self);
  work_out (self);
}

static void
on_row (PinReckonerPage *self, GtkListBoxRow *row)
{
  if (row != NULL)
    show_sum (self, g_object_get_data (G_OBJECT (row), "pin-sum"));
}

static void
on_changed (PinReckonerPage *self)
{
  work_out (self);
}

static void
add_group (GtkListBoxRow *row, GtkListBoxRow *before, gpointer user_data)
{
  const PinSum *sum = g_object_get_data (G_OBJECT (row), "pin-sum");
  const PinSum *last = before != NULL ? g_object_get_data (G_OBJECT (before), "pin-sum") : NULL;
  GtkWidget *head;

  if (last != NULL && g_str_equal (last->group, sum->group))
    {
      gtk_list_box_row_set_header (row, NULL);
      return;
    }
  head = gtk_label_new (_(sum->group));
  gtk_label_set_xalign (GTK_LABEL (head), 0);
  gtk_widget_add_css_class (head, "caption");
  gtk_widget_add_css_class (head, "sums-group");
  gtk_list_box_row_set_header (row, head);
}

static void
fill_list (PinReckonerPage *self)
{
  for (const PinSum *const *sum = pin_sums (); *sum != NULL; sum++)
    {
      GtkWidget *row = gtk_list_box_row_new ();
      GtkWidget *label = gtk_label_new (_((*sum)->title));

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
      g_object_set_data (G_OBJECT (row), "pin-sum", (gpointer) *sum);
      pin_field_name (row, _((*sum)->title));
      gtk_list_box_append (self->list, row);
    }
  gtk_list_box_set_header_func (self->list, add_group, NULL, NULL);
}

/* ---- the vehicle --------------------------------------------------------------------------- */

static void
view_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinReckonerPage) self = user_data;
  g_autoptr (GError) error = NULL;
  PinVehicleView *view = pin_desk_read_finish (PIN_DESK (source), result, &error);

  if (view == NULL)
    {
      if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
        pin_tell_error (GTK_WIDGET (self), _("Nothing was filled in:"), error);
      return;
    }
  g_clear_pointer (&self->view, pin_vehicle_view_free);
  self->view = view;
  if (self->refill)
    {
      /* What was typed for other sums was not of this car. */
      g_hash_table_remove_all (self->left);
      pin_reckoner_form_set_sum (self->form, self->sum, NULL);
      fill_in (self);
    }
  self->refill = FALSE;
  work_out (self);
}

static void
read_view (PinReckonerPage *self, gint64 vehicle)
{
  pin_read_vehicle (self->desk, vehicle, &self->reading, view_loaded, g_object_ref (self));
}

/* Nothing chosen leaves what stands there. */
static void
on_car (PinReckonerPage *self)
{
  guint at = gtk_drop_down_get_selected (self->car);
  gint64 vehicle = at < self->ids->len ? g_array_index (self->ids, gint64, at) : 0;

  if (self->settling || self->desk == NULL)
    return;
  self->wanted = vehicle;
  self->refill = TRUE;
  if (vehicle != 0)
    read_view (self, vehicle);
  else
    g_clear_pointer (&self->view, pin_vehicle_view_free);
}

static gpointer
load_cars (PinDb *db, gpointer data, GError **error)
{
  return pin_query_vehicles (db, error);
}

static void
show_cars (PinReckonerPage *self, GPtrArray *cars)
{
  guint chosen = 0;
  gint64 none = 0;

  self->settling = TRUE;
  gtk_string_list_splice (self->cars, 0, g_list_model_get_n_items (G_LIST_MODEL (self->cars)), NULL);
  g_array_set_size (self->ids, 0);
  gtk_string_list_append (self->cars, _("no vehicle"));
  g_array_append_val (self->ids, none);
  for (guint i = 0; cars != NULL && i < cars->len; i++)
    {
      const PinVehicleRow *row = g_ptr_array_index (cars, i);

      gtk_string_list_append (self->cars, row->name);
      g_array_append_val (self->ids, row->id);
      if (row->id == self->wanted)
        chosen = i + 1;
    }
  gtk_drop_down_set_selected (self->car, chosen);
  self->settling = FALSE;
}

static void
cars_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinReckonerPage) self = user_data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) cars = pin_desk_read_finish (PIN_DESK (source), result, &error);

  if (self->desk != PIN_DESK (source))
    return;
  if (cars == NULL)
    pin_tell_error (GTK_WIDGET (self), _("The vehicles could not be listed:"), error);
  show_cars (self, cars);
}

static void
read_cars (PinReckonerPage *self)
{
  pin_desk_read (self->desk, load_cars, NULL, NULL, (GDestroyNotify) g_ptr_array_unref, NULL, cars_loaded,
                 g_object_ref (self));
}

/* What is known of the car may be news; what was typed stays. */
static void
desk_changed (PinDesk *desk, gint64 vehicle, PinReckonerPage *self)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  read_cars (self);
  if (self->wanted != 0 && (vehicle == 0 || vehicle == self->wanted))
    read_view (self, self->wanted);
}

/* ---- class ------------------------------------------------------------------------------------ */

static void
drop_desk (PinReckonerPage *self)
{
  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  if (self->desk != NULL)
    g_signal_handlers_disconnect_by_func (self->desk, desk_changed, self);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->view, pin_vehicle_view_free);
}

static void
pin_reckoner_page_dispose (GObject *object)
{
  PinReckonerPage *self = PIN_RECKONER_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  self->settling = TRUE;
  drop_desk (self);
  if (child != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (pin_reckoner_page_parent_class)->dispose (object);
}

static void
pin_reckoner_page_finalize (GObject *object)
{
  PinReckonerPage *self = PIN_RECKONER_PAGE (object);

  g_clear_pointer (&self->reckoning, pin_reckoning_free);
  g_hash_table_unref (self->left);
  g_array_unref (self->ids);
  G_OBJECT_CLASS (pin_reckoner_page_parent_class)->finalize (object);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PinReckonerPage, name)

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class, "/page/hingepin/Hingepin/ui/reckoner-page.ui");
  BIND (title);
  BIND (answer);
  BIND (about);
  BIND (hazard);
  BIND (car);
  BIND (cars);
  BIND (list);
  BIND (form);
  BIND (values);
  BIND (warnings);
  BIND (working);
  BIND (gates);
  BIND (tables);
  BIND (chart);
  BIND (keep_box);
  BIND (keep_text);
  BIND (keep);
  gtk_widget_class_bind_template_callback (widget_class, on_row);
  gtk_widget_class_bind_template_callback (widget_class, on_car);
  gtk_widget_class_bind_template_callback (widget_class, on_changed);
  gtk_widget_class_bind_template_callback (widget_class, on_keep);
}

static void
pin_reckoner_page_class_init (PinReckonerPageClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = pin_reckoner_page_dispose;
  G_OBJECT_CLASS (klass)->finalize = pin_reckoner_page_finalize;
  g_type_ensure (PIN_TYPE_CHART_AREA);
  g_type_ensure (PIN_TYPE_HAZARD_BAR);
  g_type_ensure (PIN_TYPE_RECKONER_FORM);
  g_type_ensure (PIN_TYPE_RESTACK);
  g_type_ensure (PIN_TYPE_TAB_STOP);
  bind_template (GTK_WIDGET_CLASS (klass));
}

static void
pin_reckoner_page_init (PinReckonerPage *self)
{
  self->left = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) g_hash_table_unref);
  self->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  gtk_widget_init_template (GTK_WIDGET (self));
  pin_field_name (self, _("reckoner"));
  show_cars (self, NULL);
  fill_list (self);
  gtk_list_box_select_row (self->list, gtk_list_box_get_row_at_index (self->list, 0));
}

/* NULL: no book is open; the sums work all the same. */
void
pin_reckoner_page_set_desk (PinReckonerPage *self, PinDesk *desk)
{
  drop_desk (self);
  self->wanted = 0;
  show_cars (self, NULL);
  if (desk == NULL)
    return;
  self->desk = g_object_ref (desk);
  g_signal_connect (desk, "changed", G_CALLBACK (desk_changed), self);
}

static void
choose_sum (PinReckonerPage *self, const char *id)
{
  for (int i = 0;; i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, i);
      const PinSum *sum = row != NULL ? g_object_get_data (G_OBJECT (row), "pin-sum") : NULL;

      if (sum == NULL)
        return;
      if (g_str_equal (sum->id, id))
        {
          gtk_list_box_select_row (self->list, row);
          return;
        }
    }
}

void
pin_reckoner_page_show (PinReckonerPage *self, const char *sum, gint64 vehicle)
{
  if (sum != NULL)
    choose_sum (self, sum);
  if (vehicle != 0 && vehicle != self->wanted && self->desk != NULL)
    {
      self->wanted = vehicle;
      self->refill = TRUE;
      read_view (self, vehicle);
    }
  if (self->desk != NULL)
    read_cars (self);
}
