#include <math.h>

#include "base/day.h"
#include "garage.h"
#include "service/walk-record.h"

static const char *const walked[] = {
  "look/coast\t2.4, 2.6, 2.5 s",
  "look/screws@fasteners.nuts\t3/4",
  "off/wheels\tdone",
  "look/grade@hub.front.left.outer\tdry",
  "look/grade@hub.front.right.outer\tfree",
  "look/grade@hub.front.left.inner\tnot-checked\treason=no tool",
  "look/grade@hub.front.right.inner\tfree",
  "look/oil-it@hub.front.left.outer\tdone",
  "look/grade@hub.front.left.outer!left\tfree",
  "on/wheels\tdone",
  "look/nuts!left\tdone",
  "look/horn\tpass\tnote=a scratch",
  NULL
};

/* ---- Marks and the parts table ---- */

static void
test_marks (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinVehicleView) view = NULL;

  garage_walk (garage, id, walked, TRUE);
  view = garage_view (garage, id);
#define MARK(code) ((PinSlotMark *) g_hash_table_lookup (view->marks, code))
  g_assert_cmpint (MARK ("hub.front.left.outer")->outcome, ==, PIN_OUTCOME_PASS);
  g_assert_cmpint (MARK ("hub.front.left.inner")->outcome, ==, PIN_OUTCOME_NOT_CHECKED);
  g_assert_cmpint (MARK ("fasteners.nuts")->outcome, ==, PIN_OUTCOME_FAIL);
  g_assert_cmpint (MARK ("fasteners.nuts")->finding, !=, 0);
  g_assert_cmpint (MARK ("diff")->outcome, ==, PIN_OUTCOME_NONE);
  g_assert_null (MARK ("diff")->day);
  g_assert_nonnull (MARK ("hub.front.left.outer")->day);
#undef MARK
}

static void
test_parts_worst_first (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinVehicleView) view = NULL;
  const PinPartLine *first, *second;
  g_autofree char *oiled = NULL, *today = pin_today (), *shown = pin_day_short (today);

  garage_run (garage, id, "2020-02-01", 90);
  garage_walk (garage, id, walked, TRUE);
  view = garage_view (garage, id);
  first = view->parts->pdata[0];
  second = view->parts->pdata[1];
  g_assert_cmpuint (view->parts->len, ==, 12);
  g_assert_cmpstr (first->label, ==, "wheel nuts");
  g_assert_cmpstr (first->state, ==, "fail");
  g_assert_cmpstr (first->finding, ==, "3 of 4 right");
  g_assert_cmpstr (second->label, ==, "front left hub, inner");
  g_assert_cmpstr (second->state, ==, "not checked");
  g_assert_cmpstr (second->size, ==, "5 × 10 × 4 mm");
  g_assert_cmpstr (second->since_new, ==, "1.5 h");
  oiled = g_strdup_printf ("Oiled %s, 0.0 h ago", shown);
  g_assert_cmpstr (
      pin_vehicle_view_part (view, pin_car_slot (view->car, "hub.front.left.outer")->place)
          ->last_work,
      ==, oiled);
}

static void
test_layers (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinVehicleView) view = garage_view (garage, id);
  int n = 0;

  g_assert_cmpstr (((PinLayer *) view->layers->pdata[0])->title, ==, "Everything");
  g_assert_cmpint (((PinLayer *) view->layers->pdata[0])->n, ==, 12);
  for (guint i = 1; i < view->layers->len; i++)
    n += ((PinLayer *) view->layers->pdata[i])->n;
  g_assert_cmpint (n, ==, 12);
  g_assert_cmpstr (((PinLayer *) view->layers->pdata[1])->id, ==, "bearings");
  g_assert_cmpint (((PinLayer *) view->layers->pdata[1])->n, ==, 6);
}

static void
test_lists (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "engine-cart", NAN);
  g_autoptr (PinVehicleView) view = NULL;
  const PinFindingLine *finding;

  garage_run (garage, id, "2020-02-01", 90);
  garage_run (garage, id, "2020-02-09", 20);
  garage_walk (garage, id, walked, TRUE);
  view = garage_view (garage, id);
  g_assert_cmpstr (view->usage_text, ==, "1.8 h +, 2 outings, 0.0 l +");
  g_assert_cmpstr (view->since, ==, "since it entered the book; before that not known");
  g_assert_cmpuint (view->outings->len, ==, 2);
  g_assert_cmpstr (((PinOutingLine *) view->outings->pdata[0])->day, ==, "9 Feb 2020");
  g_assert_cmpstr (((PinOutingLine *) view->outings->pdata[0])->text, ==, "20 min, 1 run");
  g_assert_cmpstr (((PinOutingLine *) view->outings->pdata[0])->conditions, ==, "");
  g_assert_cmpuint (view->inspections->len, ==, 1);
  g_assert_cmpstr (((PinInspectionLine *) view->inspections->pdata[0])->verdict, ==, "signed");
  g_assert_cmpstr (((PinInspectionLine *) view->inspections->pdata[0])->title, ==,
                   "Look it over");
  g_assert_cmpuint (view->findings->len, ==, 1);
  finding = view->findings->pdata[0];
  g_assert_cmpstr (finding->text, ==, "wheel nuts: 3 of 4 right");
  g_assert_true (finding->may_close);
  g_assert_false (finding->may_accept);
  g_assert_cmpstr (
      finding->closes, ==,
      "Work on it, then a pass in “Look it over”; or a note that it was found sound");
}

/* ---- History ---- */

static gpointer
load_history (PinDb *db, gpointer data, GError **error)
{
  return pin_history_rows_load (db, data, error);
}

static GPtrArray *
history_of (Garage *garage, const PinCar *car, const char *one, const char *two)
{
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GError) error = NULL;
  g_autoptr (PinHistoryRows) rows = NULL;

  g_array_append_val (parts, pin_car_slot (car, one)->part);
  if (two != NULL)
    g_array_append_val (parts, pin_car_slot (car, two)->part);
  rows = pin_book_run (garage->book, load_history, parts, &error);
  g_assert_no_error (error);
  return pin_history_new (rows, garage->library, car);
}

static gboolean
tells (GPtrArray *events, const char *text)
{
  for (guint i = 0; i < events->len; i++)
    if (g_str_equal (((PinEvent *) events->pdata[i])->text, text))
      return TRUE;
  for (guint i = 0; i < events->len; i++)
    g_test_message ("%s %s", ((PinEvent *) events->pdata[i])->day,
                    ((PinEvent *) events->pdata[i])->text);
  return FALSE;
}

static void
test_history (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = NULL;
  g_autoptr (GPtrArray) one = NULL;
  g_autoptr (GPtrArray) two = NULL;

  garage_walk (garage, id, walked, TRUE);
  car = garage_car (garage, id);
  one = history_of (garage, car, "hub.front.left.outer", NULL);
  g_assert_true (tells (one, "Oiled"));
  g_assert_true (tells (one, "As found: coasts, hisses"));
  g_assert_true (tells (one, "As left: silent, coasts"));
  g_assert_true (tells (one, "Fitted: Plum, front left hub, outer"));
  g_assert_cmpstr (((PinEvent *) one->pdata[one->len - 1])->day, ==, "2020-01-01");
  two = history_of (garage, car, "hub.front.left.outer", "hub.front.right.outer");
  g_assert_true (tells (two, "Oiled (front left hub, outer)"));
}

static void
test_history_of_several (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (GPtrArray) slots =
      garage_slots (car, "hub.front.left.outer", "hub.front.right.outer", NULL);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GPtrArray) events = NULL;
  const char *deeds[] = { "oiled", NULL };
  PinWorkDone work = PIN_WORK_DONE_INIT;

  work.deeds = deeds;
  work.note = "after mud";
  work.day = "2020-05-01";
  g_assert_true (pin_inventory_work (done, garage->library, car, slots, &work, NULL));
  garage_commit (garage, done);
  events = history_of (garage, car, "hub.front.left.outer", "hub.front.right.outer");
  g_assert_cmpstr (((PinEvent *) events->pdata[0])->text, ==, "Oiled: after mud, all 2");
  g_assert_cmpuint (((PinEvent *) events->pdata[0])->n, ==, 2);
  g_assert_cmpint (((PinEvent *) events->pdata[0])->kind, ==, PIN_EVENT_WORK);
}

/* ---- Set-up ---- */

typedef struct
{
  gint64 vehicle;
  const char *day;
} SetupOf;

static gpointer
load_setup (PinDb *db, gpointer data, GError **error)
{
  const SetupOf *of = data;

  return pin_setup_rows_load (db, of->vehicle, of->day, error);
}

static char *
fluid_on (Garage *garage, gint64 vehicle, const char *day)
{
  g_autoptr (PinCar) car = garage_car (garage, vehicle);
  SetupOf of = { vehicle, day };
  g_autoptr (GError) error = NULL;
  g_autoptr (PinSetupRows) rows = pin_book_run (garage->book, load_setup, &of, &error);
  g_autoptr (GPtrArray) groups = pin_setup_new (rows, garage->library, car, FALSE);

  for (guint i = 0; i < groups->len; i++)
    {
      PinSetupGroup *group = groups->pdata[i];

      for (guint j = 0; j < group->facts->len; j++)
        if (g_str_equal (((PinSetupFact *) group->facts->pdata[j])->spec, "fluid"))
          return g_strdup (((PinSetupFact *) group->facts->pdata[j])->text);
    }
  return NULL;
}

static void
test_setup_on_a_day (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (GPtrArray) diff = garage_slots (car, "diff", NULL);
  g_autoptr (PinDeedDone) filled = garage_begin (garage);
  g_autoptr (PinDeedDone) replaced = garage_begin (garage);
  PinReplacement how = PIN_REPLACEMENT_INIT;
  g_autofree char *before = NULL, *between = NULL, *after = NULL, *now = NULL, *early = NULL;

  g_assert_true (pin_inventory_set_spec (filled, garage->library, car, diff, "fluid", "7000",
                                         "2020-03-01", NULL));
  garage_commit (garage, filled);
  how.day = "2020-06-01";
  g_assert_cmpint (pin_inventory_replace (replaced, garage->library, car,
                                          pin_car_slot (car, "diff"), &how, NULL),
                   !=, 0);
  garage_commit (garage, replaced);
  early = fluid_on (garage, id, "2019-12-31");
  before = fluid_on (garage, id, "2020-02-01");
  between = fluid_on (garage, id, "2020-04-01");
  after = fluid_on (garage, id, "2020-07-01");
  now = fluid_on (garage, id, NULL);
  g_assert_null (early);
  g_assert_cmpstr (before, ==, "5000 cSt");
  g_assert_cmpstr (between, ==, "7000 cSt");
  g_assert_null (after);
  g_assert_null (now);
}

/* ---- One inspection as a record ---- */

static const PinRecordLine *
line_at (const PinWalkRecord *record, const char *step, const char *code)
{
  for (guint i = 0; i < record->groups->len; i++)
    {
      PinRecordGroup *group = record->groups->pdata[i];

      for (guint j = 0; j < group->lines->len; j++)
        {
          const PinRecordLine *line = group->lines->pdata[j];

          if (g_str_equal (line->step, step) && g_strcmp0 (line->code, code) == 0)
            return line;
        }
    }
  g_assert_not_reached ();
}

static void
test_record (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  gint64 walk = garage_walk (garage, id, walked, TRUE);
  g_autoptr (GError) error = NULL;
  g_autoptr (PinWalkRecord) record =
      pin_walk_record_new (garage_walk_rows (garage, walk), garage->library, &error);
  const PinRecordLine *line;

  g_assert_no_error (error);
  g_assert_cmpstr (record->title, ==, "Look it over");
  g_assert_cmpstr (record->verdict, ==, "signed");
  g_assert_cmpstr (record->person, ==, "AB");
  line = line_at (record, "look/grade", "hub.front.left.outer");
  g_assert_cmpstr (line->found_text, ==, "coasts, hisses");
  g_assert_cmpstr (line->left_text, ==, "silent, coasts");
  g_assert_cmpint (line->outcome, ==, PIN_OUTCOME_PASS);
  line = line_at (record, "look/coast", NULL);
  g_assert_cmpstr (line->found_text, ==, "2.5 s");
  g_assert_cmpstr (line->limit, ==, "≥ 2.0");
  g_assert_cmpstr (line->quantity, ==, "coasting time");
  line = line_at (record, "look/grade", "hub.front.left.inner");
  g_assert_cmpstr (line->found_text, ==, "not checked");
  g_assert_cmpstr (line->reason, ==, "no tool");
  g_assert_cmpstr (line_at (record, "look/screws", "fasteners.nuts")->found_text, ==, "3/4");
  g_assert_cmpstr (line_at (record, "look/horn", NULL)->note, ==, "a scratch");
  g_assert_cmpstr (line_at (record, "look/oil-it", "hub.front.left.outer")->deeds->pdata[0], ==,
                   "Oiled");
  g_assert_cmpint (record->passed, ==, 5);
  g_assert_cmpint (record->failed, ==, 1);
  g_assert_cmpint (record->n_not_checked, ==, 1);
  g_assert_cmpuint (record->wrong->len, ==, 1);
  g_assert_cmpuint (record->not_checked->len, ==, 1);
}

static void
test_record_half_way (void)
{
  static const char *const begun[] = { "look/coast\t2.4, 2.6, 2.5 s", NULL };
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  gint64 walk = garage_walk (garage, id, begun, FALSE);
  g_autoptr (PinWalkRecord) record =
      pin_walk_record_new (garage_walk_rows (garage, walk), garage->library, NULL);

  g_assert_cmpstr (record->verdict, ==, "open");
  g_assert_cmpint (record->passed, ==, 1);
  g_assert_cmpint (record->n_not_checked, >=, 1); /* what is not answered is not checked */
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/views/marks", test_marks);
  g_test_add_func ("/views/parts-worst-first", test_parts_worst_first);
  g_test_add_func ("/views/layers", test_layers);
  g_test_add_func ("/views/lists", test_lists);
  g_test_add_func ("/history/one", test_history);
  g_test_add_func ("/history/several", test_history_of_several);
  g_test_add_func ("/setup/on-a-day", test_setup_on_a_day);
  g_test_add_func ("/record/signed", test_record);
  g_test_add_func ("/record/half-way", test_record_half_way);
  return g_test_run ();
}
