#include <gtk/gtk.h>

#include "window/answer-view.h"
#include "window/appearance.h"
#include "window/back-fill.h"
#include "window/bench-page.h"
#include "window/correct-part.h"
#include "window/hazard-bar.h"
#include "window/key-row.h"
#include "window/line-item.h"
#include "window/log-outing.h"
#include "window/mark-image.h"
#include "window/mark-key.h"
#include "window/measure-view.h"
#include "window/outcome-keys.h"
#include "window/part-panel.h"
#include "window/parts-table.h"
#include "window/plan-area.h"
#include "window/progress-strip.h"
#include "window/record-work.h"
#include "window/replace-part.h"
#include "window/restack.h"
#include "window/signoff-view.h"
#include "window/stable-page.h"
#include "window/stable-row.h"
#include "window/start-page.h"
#include "window/strip.h"
#include "window/tray-view.h"
#include "window/value-entry.h"
#include "window/vehicle-form.h"
#include "window/vehicle-page.h"
#include "window/window.h"

/* Widgets in the test's own process: every template is complete, everything
 * that can be used has a name, the layouts keep what they promise. */

static GType (*const types[]) (void) = {
  pin_answer_view_get_type, pin_back_fill_get_type, pin_bench_page_get_type,
  pin_correct_part_get_type, pin_hazard_bar_get_type, pin_line_row_get_type,
  pin_log_outing_get_type, pin_mark_image_get_type, pin_mark_key_get_type,
  pin_measure_view_get_type, pin_outcome_keys_get_type, pin_part_panel_get_type,
  pin_parts_table_get_type, pin_plan_area_get_type, pin_progress_strip_get_type,
  pin_record_work_get_type, pin_replace_part_get_type, pin_signoff_view_get_type,
  pin_stable_page_get_type, pin_stable_row_get_type, pin_start_page_get_type,
  pin_strip_get_type, pin_tray_view_get_type, pin_value_entry_get_type,
  pin_vehicle_form_get_type, pin_vehicle_page_get_type, pin_window_get_type,
};

static GtkWidget *
make (GType type)
{
  GtkWidget *widget = g_object_new (type, NULL);

  /* A window belongs to itself, all others to who holds them. */
  if (GTK_IS_WINDOW (widget))
    return widget;
  return g_object_ref_sink (widget);
}

static void
unmake (GtkWidget *widget)
{
  if (GTK_IS_WINDOW (widget))
    gtk_window_destroy (GTK_WINDOW (widget));
  else
    g_object_unref (widget);
}

static void
test_templates (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (types); i++)
    {
      GtkWidget *widget = make (types[i] ());
      gpointer weak = widget;

      g_object_add_weak_pointer (G_OBJECT (widget), &weak);
      unmake (widget);
      if (weak != NULL)
        g_error ("%s outlives its last holder", g_type_name (types[i] ()));
    }
}

/* ---- names --------------------------------------------------------------------- */

static gboolean
has_to_be_named (GtkWidget *widget)
{
  GtkWidget *parent = gtk_widget_get_parent (widget);

  /* A menu button and a drop-down hand their name to a button inside. */
  if (parent != NULL && (GTK_IS_MENU_BUTTON (parent) || gtk_widget_get_ancestor (parent, GTK_TYPE_DROP_DOWN)))
    return FALSE;
  return GTK_IS_DROP_DOWN (widget) || GTK_IS_BUTTON (widget) || GTK_IS_ENTRY (widget) || GTK_IS_LIST_VIEW (widget)
         || GTK_IS_COLUMN_VIEW (widget) || GTK_IS_LIST_BOX (widget) || GTK_IS_FLOW_BOX (widget);
}

static gboolean
is_named (GtkWidget *widget)
{
  return gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL)
         || gtk_test_accessible_has_relation (GTK_ACCESSIBLE (widget),
                                              GTK_ACCESSIBLE_RELATION_LABELLED_BY);
}

static guint
check_names (GtkWidget *widget, GType of)
{
  guint n = 0;

  if (has_to_be_named (widget))
    {
      if (!is_named (widget) && !(GTK_IS_LIST_VIEW (widget) && GTK_IS_COLUMN_VIEW (gtk_widget_get_parent (widget)))
          && !GTK_IS_FLOW_BOX (widget))
        g_error ("in %s: a %s without a name", g_type_name (of), G_OBJECT_TYPE_NAME (widget));
      n++;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += check_names (child, of);
  return n;
}

static void
test_names (void)
{
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (types); i++)
    {
      GtkWidget *widget = make (types[i] ());

      /* Whoever uses a value entry names it. */
      if (PIN_IS_VALUE_ENTRY (widget))
        g_object_set (widget, "label", "Value", NULL);
      n += check_names (widget, types[i] ());
      unmake (widget);
    }
  g_assert_cmpuint (n, >, 80);
}

/* ---- layouts ---------------------------------------------------------------------- */

static GtkWidget *
block (int width, int height)
{
  GtkWidget *widget = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_set_size_request (widget, width, height);
  return widget;
}

static int
height_for (GtkWidget *widget, int width)
{
  int minimum;

  gtk_widget_measure (widget, GTK_ORIENTATION_VERTICAL, width, &minimum, NULL, NULL, NULL);
  return minimum;
}

static void
test_restack (void)
{
  GtkWidget *box = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0));
  GtkLayoutManager *layout = g_object_new (PIN_TYPE_RESTACK, "share", 0.5, "spacing", 10,
                                           "narrow", 300, NULL);

  gtk_widget_set_layout_manager (box, layout);
  gtk_box_append (GTK_BOX (box), block (100, 40));
  gtk_box_append (GTK_BOX (box), block (150, 60));
  g_assert_cmpint (height_for (box, 400), ==, 60);
  g_assert_cmpint (height_for (box, 299), ==, 110);
  g_object_set (layout, "narrow", 0, NULL);
  g_assert_cmpint (height_for (box, 260), ==, 60);
  g_assert_cmpint (height_for (box, 259), ==, 110);
  g_object_unref (box);
}

static void
test_key_row (void)
{
  GtkWidget *box = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0));
  int minimum;

  gtk_widget_set_layout_manager (box, pin_key_row_new (10));
  for (int i = 0; i < 5; i++)
    gtk_box_append (GTK_BOX (box), block (100, 50));
  gtk_widget_measure (box, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, NULL, NULL, NULL);
  g_assert_cmpint (minimum, ==, 320);
  /* In one row only with room for the letter of each, 16 px. */
  g_assert_cmpint (height_for (box, 620), ==, 50);
  g_assert_cmpint (height_for (box, 619), ==, 110);
  g_assert_cmpint (height_for (box, minimum), ==, 110);
  g_object_unref (box);
}

/* ---- strips ------------------------------------------------------------------------- */

static void
count (gpointer data)
{
  (*(int *) data)++;
}

static GtkWidget *
find_button (GtkWidget *widget, const char *label)
{
  GtkWidget *found = NULL;

  if (GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_label (GTK_LABEL (widget)), label) == 0)
    return gtk_widget_get_ancestor (widget, GTK_TYPE_BUTTON);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_button (child, label);
  return found;
}

static void
test_strip (void)
{
  GtkWidget *box = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));
  PinStrip *strip = pin_strip_new (PIN_STRIP_DONE, "Logged:", "22 min & <wet> grass");
  int pressed = 0;

  gtk_box_append (GTK_BOX (box), GTK_WIDGET (strip));
  pin_strip_add_button (strip, "Undo", "Ctrl Z", count, &pressed, NULL);
  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (strip), GTK_ACCESSIBLE_ROLE_ALERT);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (strip), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       "Logged: 22 min & <wet> grass");
  g_signal_emit_by_name (find_button (GTK_WIDGET (strip), "Undo"), "clicked");
  g_assert_cmpint (pressed, ==, 1);
  g_assert_null (gtk_widget_get_first_child (box));
  g_object_unref (box);
}

/* ---- keys ----------------------------------------------------------------------------- */

/* Back, Next and, in their box, the outcomes. */
static int
shown_keys (GtkWidget *keys)
{
  int n = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (keys); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += GTK_IS_BUTTON (child) ? gtk_widget_get_visible (child) : shown_keys (child);
  return n;
}

/* Nothing is ever marked before there is a reading or an answer. */
static void
test_outcome_keys (void)
{
  GtkWidget *keys = make (PIN_TYPE_OUTCOME_KEYS);
  GtkWidget *pass;

  pin_outcome_keys_set (PIN_OUTCOME_KEYS (keys), PIN_KEY_PASS | PIN_KEY_FAIL, PIN_OUTCOME_NONE, FALSE);
  g_assert_cmpint (shown_keys (keys), ==, 4);
  pass = find_button (keys, "Pass");
  g_assert_false (gtk_widget_has_css_class (pass, "proposed"));
  g_assert_false (gtk_widget_has_css_class (pass, "given"));
  pin_outcome_keys_propose (PIN_OUTCOME_KEYS (keys), PIN_OUTCOME_PASS);
  g_assert_true (gtk_widget_has_css_class (pass, "proposed"));
  g_assert_false (gtk_widget_has_css_class (pass, "given"));
  pin_outcome_keys_set (PIN_OUTCOME_KEYS (keys), PIN_KEY_PASS | PIN_KEY_FAIL, PIN_OUTCOME_PASS, FALSE);
  g_assert_true (gtk_widget_has_css_class (pass, "given"));
  g_assert_false (gtk_widget_has_css_class (pass, "proposed"));
  unmake (keys);
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  gtk_test_init (&argc, &argv, NULL);
  pin_appearance_start (gdk_display_get_default ());
  g_test_add_func ("/window/widgets/templates", test_templates);
  g_test_add_func ("/window/widgets/names", test_names);
  g_test_add_func ("/window/widgets/restack", test_restack);
  g_test_add_func ("/window/widgets/key-row", test_key_row);
  g_test_add_func ("/window/widgets/strip", test_strip);
  g_test_add_func ("/window/widgets/outcome-keys", test_outcome_keys);
  return g_test_run ();
}
