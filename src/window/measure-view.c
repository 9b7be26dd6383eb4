#include "window/measure-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "base/day.h"
#include "window/condition-list.h"
#include "window/fields.h"
#include "window/gauge.h"
#include "window/value-entry.h"

struct _PinMeasureView
{
  GtkBox parent_instance;

  const PinWalk *walk;        /* borrowed until cleared */
  const PinQuestion *question;
  const PinMeasure *measure;
  const PinUnit *unit;
  PinDraft *draft;
  PinReferences references;
  PinProposal proposal;
  GArray *repeats;            /* double, canonical */
  int decimals;
  gint64 started;             /* monotonic µs; 0: the watch stands */
  guint tick;

  GtkBox *watch;              /* template */
  GtkLabel *clock, *toggle_label;
  GtkButton *toggle;
  PinValueEntry *entry;
  GtkLabel *trouble;
  GtkBox *laps;
  GtkLabel *take, *result, *reference;
  PinGauge *gauge;
  PinConditionList *conditions;
};

G_DEFINE_FINAL_TYPE (PinMeasureView, pin_measure_view, GTK_TYPE_BOX)

static guint changed, entered_blank, enough;

static void show_repeats (PinMeasureView *self);

/* ---- words ------------------------------------------------------------------------ */

static const char *
take_word (const PinMeasure *measure, guint n)
{
  if (n < 2)
    return _("Reading");
  switch (measure->take)
    {
    case PIN_TAKE_MEAN:
      return _("Mean");
    case PIN_TAKE_MIN:
      return _("Least");
    case PIN_TAKE_MAX:
      return _("Most");
    case PIN_TAKE_MEDIAN:
    default:
      return _("Median");
    }
}

static char *
against_text (PinMeasureView *self, double value)
{
  const char *what = NULL;
  g_autofree char *reference = pin_value_format (self->proposal.reference, self->unit, self->decimals);
  g_autofree char *day = NULL;

  switch (self->proposal.against)
    {
    case PIN_AGAINST_BASELINE:
      what = _("baseline");
      if (*self->references.baseline_day != '\0')
        day = pin_day_short (self->references.baseline_day);
      break;
    case PIN_AGAINST_NEW:
      what = _("the best it had");
      break;
    case PIN_AGAINST_PARTNER:
      what = _("the other side");
      break;
    case PIN_AGAINST_LAST_FILL:
      what = _("its last filling");
      break;
    case PIN_AGAINST_PLAIN:
    default:
      return g_strdup (self->proposal.own ? _("held against your own limit") : _("held against fixed limits"));
    }
  if (self->proposal.limits->pass.relative && self->proposal.reference != 0)
    return g_strdup_printf (_("%.0f %% of %s, %s%s%s"), 100 * value / self->proposal.reference, what,
                            reference, day != NULL ? ", " : "", day != NULL ? day : "");
  return g_strdup_printf (_("%s was %s%s%s"), what, reference, day != NULL ? ", " : "",
                          day != NULL ? day : "");
}

static char *
reference_text (PinMeasureView *self, double value)
{
  int missing = self->measure->repeat - (int) self->repeats->len;

  if (self->repeats->len == 0)
    return g_strdup (self->measure->repeat > 1 ? "" : _("nothing read yet"));
  if (missing > 0)
    return g_strdup_printf (ngettext ("%d more reading is asked for", "%d more readings are asked for",
                                      missing), missing);
  if (self->proposal.limits == NULL)
    return g_strdup (_("Nothing to hold it against yet. You judge; this one may become the "
                       "baseline."));
  return against_text (self, value);
}

/* ---- repeats ------------------------------------------------------------------------ */

static gboolean
is_enough (PinMeasureView *self)
{
  return (int) self->repeats->len >= self->measure->repeat;
}

static void
judge (PinMeasureView *self)
{
  double value = NAN;
  g_autofree char *result = NULL;
  g_autofree char *reference = NULL;

  if (self->repeats->len > 0)
    value = pin_judge_take (self->measure, (double *) self->repeats->data, self->repeats->len);
  self->proposal = pin_judge (self->measure, value, &self->references);
  result = isnan (value) ? g_strdup ("–") : pin_value_format (value, self->unit, self->decimals);
  reference = reference_text (self, value);
  gtk_label_set_label (self->take, take_word (self->measure, self->repeats->len));
  gtk_label_set_label (self->result, result);
  gtk_label_set_label (self->reference, reference);
  pin_gauge_set (self->gauge, &self->proposal, self->unit, self->decimals, value,
                 (double *) self->repeats->data, self->repeats->len);
}

static void
on_drop (GtkButton *button, PinMeasureView *self)
{
  guint i = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "pin-nth"));

  if (i < self->draft->laps->len)
    g_ptr_array_remove_index (self->draft->laps, i);
  show_repeats (self);
  g_signal_emit (self, changed, 0);
}

static GtkWidget *
lap_row (PinMeasureView *self, guint i, const char *text)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  g_autofree char *nth = g_strdup_printf ("%u", i + 1);
  GtkWidget *number = gtk_label_new (nth);
  GtkWidget *value = gtk_label_new (text);
  GtkWidget *drop = gtk_button_new_from_icon_name ("window-close-symbolic");
  g_autofree char *name = g_strdup_printf (_("Take out reading %u, %s"), i + 1, text);

  gtk_widget_add_css_class (number, "secondary");
  gtk_widget_add_css_class (value, "lap");
  gtk_widget_add_css_class (value, "numeric");
  gtk_widget_set_hexpand (value, TRUE);
  gtk_widget_add_css_class (drop, "quiet");
  gtk_widget_set_tooltip_text (drop, name);
  pin_field_name (drop, name);
  g_object_set_data (G_OBJECT (drop), "pin-nth", GUINT_TO_POINTER (i));
  g_signal_connect (drop, "clicked", G_CALLBACK (on_drop), self);
  gtk_box_append (GTK_BOX (row), number);
  gtk_box_append (GTK_BOX (row), value);
  gtk_box_append (GTK_BOX (row), drop);
  return row;
}

static void
show_repeats (PinMeasureView *self)
{
  guint shown = 0;

  pin_field_clear (GTK_WIDGET (self->laps));
  g_array_set_size (self->repeats, 0);
  for (guint i = 0; i < self->draft->laps->len; i++)
    {
      const char *text = g_ptr_array_index (self->draft->laps, i);
      double value;

      if (pin_value_parse (text, self->unit, &value, NULL, NULL))
        {
          g_autofree char *words = pin_value_format (value, self->unit, self->decimals);

          g_array_append_val (self->repeats, value);
          gtk_box_append (self->laps, lap_row (self, i, words));
          shown++;
        }
    }
  for (; (int) shown < self->measure->repeat && self->measure->repeat > 1; shown++)
    {
      g_autofree char *text = g_strdup_printf ("%u  –", shown + 1);
      GtkWidget *row = gtk_label_new (text);

      gtk_label_set_xalign (GTK_LABEL (row), 0);
      gtk_widget_add_css_class (row, "secondary");
      gtk_widget_add_css_class (row, "lap-missing");
      gtk_box_append (self->laps, row);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->laps), shown > 0);
  judge (self);
}

static void
add_lap (PinMeasureView *self, const char *text)
{
  g_ptr_array_add (self->draft->laps, g_strdup (text));
  show_repeats (self);
  g_signal_emit (self, changed, 0);
}

static void
show_trouble (PinMeasureView *self, const char *text)
{
  gtk_label_set_label (self->trouble, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), text != NULL);
}

/* Takes what stands in the entry as a reading, or several by commas. */
gboolean
pin_measure_view_take (PinMeasureView *self, GError **error)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) words = NULL;
  double value;

  if (self->measure == NULL)
    return TRUE;
  text = g_strstrip (g_strdup (pin_value_entry_text (self->entry)));
  if (*text == '\0')
    return TRUE;
  words = g_strsplit (text, ",", -1);
  for (guint i = 0; words[i] != NULL; i++)
    if (!pin_value_parse (g_strstrip (words[i]), self->unit, &value, NULL, error))
      return FALSE;
  pin_value_entry_set_text (self->entry, "");
  for (guint i = 0; words[i] != NULL; i++)
    add_lap (self, words[i]);
  return TRUE;
}

static void
on_entered (PinMeasureView *self)
{
  g_autoptr (GError) error = NULL;
  gboolean blank = *pin_value_entry_text (self->entry) == '\0';

  if (blank)
    g_signal_emit (self, entered_blank, 0);
  else if (!pin_measure_view_take (self, &error))
    show_trouble (self, error->message);
  else if (is_enough (self))
    g_signal_emit (self, enough, 0);
}

static void
on_typed (PinMeasureView *self)
{
  show_trouble (self, NULL);
  if (self->draft == NULL || g_str_equal (self->draft->typed, pin_value_entry_text (self->entry)))
    return;
  g_free (self->draft->typed);
  self->draft->typed = g_strdup (pin_value_entry_text (self->entry));
  g_signal_emit (self, changed, 0);
}

/* ---- stopwatch ------------------------------------------------------------------------ */

static double
elapsed (PinMeasureView *self)
{
  return (g_get_monotonic_time () - self->started) / 1e6;
}

static gboolean
on_tick (gpointer data)
{
  PinMeasureView *self = data;
  g_autofree char *text = pin_number_format (elapsed (self), 1);

  gtk_label_set_label (self->clock, text);
  return G_SOURCE_CONTINUE;
}

static void
stand_still (PinMeasureView *self)
{
  g_clear_handle_id (&self->tick, g_source_remove);
  self->started = 0;
  gtk_label_set_label (self->toggle_label, _("Start"));
}

/* Starts the watch, or stops it and keeps the time as a reading. */
void
pin_measure_view_toggle (PinMeasureView *self)
{
  if (!pin_measure_view_has_watch (self))
    return;
  if (self->started == 0)
    {
      self->started = g_get_monotonic_time ();
      self->tick = g_timeout_add (50, on_tick, self);
      gtk_label_set_label (self->toggle_label, _("Stop"));
    }
  else
    {
      double seconds = elapsed (self);
      g_autofree char *number = pin_number_format (seconds, 1);
      g_autofree char *text = g_strdup_printf ("%s s", number);

      stand_still (self);
      gtk_label_set_label (self->clock, number);
      self->draft->timed = TRUE;
      add_lap (self, text);
    }
}

static void
on_toggle (PinMeasureView *self)
{
  pin_measure_view_toggle (self);
}

/* ---- conditions -------------------------------------------------------------------------- */

static void
on_condition (PinMeasureView *self)
{
  g_signal_emit (self, changed, 0);
}

/* ---- class --------------------------------------------------------------------------------- */

static void
pin_measure_view_dispose (GObject *object)
{
  PinMeasureView *self = PIN_MEASURE_VIEW (object);

  g_clear_handle_id (&self->tick, g_source_remove);
  G_OBJECT_CLASS (pin_measure_view_parent_class)->dispose (object);
}

static void
pin_measure_view_finalize (GObject *object)
{
  g_array_unref (PIN_MEASURE_VIEW (object)->repeats);
  G_OBJECT_CLASS (pin_measure_view_parent_class)->finalize (object);
}

static void
pin_measure_view_class_init (PinMeasureViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_measure_view_dispose;
  G_OBJECT_CLASS (klass)->finalize = pin_measure_view_finalize;
  g_type_ensure (PIN_TYPE_VALUE_ENTRY);
  g_type_ensure (PIN_TYPE_GAUGE);
  g_type_ensure (PIN_TYPE_CONDITION_LIST);
  changed = g_signal_new ("changed", PIN_TYPE_MEASURE_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                          G_TYPE_NONE, 0);
  entered_blank = g_signal_new ("entered-blank", PIN_TYPE_MEASURE_VIEW, G_SIGNAL_RUN_LAST, 0, NULL,
                                NULL, NULL, G_TYPE_NONE, 0);
  /* All readings are there: the letters are keys again. */
  enough = g_signal_new ("enough", PIN_TYPE_MEASURE_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                         G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/measure-view.ui");
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, watch);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, clock);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, toggle_label);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, toggle);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, entry);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, trouble);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, laps);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, take);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, result);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, reference);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, gauge);
  gtk_widget_class_bind_template_child (widget_class, PinMeasureView, conditions);
  gtk_widget_class_bind_template_callback (widget_class, on_toggle);
  gtk_widget_class_bind_template_callback (widget_class, on_typed);
  gtk_widget_class_bind_template_callback (widget_class, on_entered);
  gtk_widget_class_bind_template_callback (widget_class, on_condition);
}

static void
pin_measure_view_init (PinMeasureView *self)
{
  self->repeats = g_array_new (FALSE, FALSE, sizeof (double));
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* All are borrowed until the next call or pin_measure_view_clear(). */
void
pin_measure_view_set (PinMeasureView *self, PinLibrary *library, const PinWalk *walk,
                      const PinQuestion *question, PinDraft *draft)
{
  const PinQuantity *quantity;
  g_autofree char *label = NULL;

  stand_still (self);
  self->walk = walk;
  self->question = question;
  self->measure = question->step->measure;
  self->unit = self->measure->unit != NULL ? self->measure->unit : pin_unit_find ("1");
  self->draft = draft;
  self->references = pin_walk_references (walk, question);
  quantity = pin_library_quantity (library, self->measure->quantity);
  self->decimals = quantity != NULL ? quantity->decimals : 2;
  label = g_strdup_printf (_("Reading: %s"), quantity != NULL ? quantity->title
                                                              : self->measure->quantity);
  g_object_set (self->entry, "unit", self->unit->symbol, "label", label, NULL);
  pin_value_entry_set_text (self->entry, draft->typed);
  gtk_label_set_label (self->clock, "0.0");
  gtk_widget_set_visible (GTK_WIDGET (self->watch), pin_measure_view_has_watch (self));
  pin_condition_list_set (self->conditions, library, walk, self->measure, draft);
  show_repeats (self);
}

/* Before the walk that was set goes away. */
void
pin_measure_view_clear (PinMeasureView *self)
{
  stand_still (self);
  pin_condition_list_clear (self->conditions);
  self->walk = NULL;
  self->question = NULL;
  self->measure = NULL;
  self->draft = NULL;
}

gboolean
pin_measure_view_has_watch (PinMeasureView *self)
{
  return self->measure != NULL && self->unit->dimension == PIN_DIMENSION_TIME;
}

/* A digit that was pressed elsewhere begins a reading. */
void
pin_measure_view_type (PinMeasureView *self, const char *digit)
{
  GtkWidget *entry = pin_value_entry_entry (self->entry);
  int at = (int) g_utf8_strlen (gtk_editable_get_text (GTK_EDITABLE (entry)), -1);

  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (entry));
  gtk_editable_insert_text (GTK_EDITABLE (entry), digit, -1, &at);
  gtk_editable_set_position (GTK_EDITABLE (entry), -1);
}

/* NONE while readings are missing or nothing can be said. */
PinOutcome
pin_measure_view_proposal (PinMeasureView *self)
{
  return self->measure != NULL && is_enough (self) ? self->proposal.outcome : PIN_OUTCOME_NONE;
}

const GArray *
pin_measure_view_repeats (PinMeasureView *self)
{
  return self->repeats;
}

/* The watch's button beside it, on a low page. */
void
pin_measure_view_set_tight (PinMeasureView *self, gboolean tight)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->watch),
                                  tight ? GTK_ORIENTATION_HORIZONTAL : GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (self->watch, tight ? 18 : 6);
}
