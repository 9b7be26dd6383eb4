/* Putting an answer of a signed inspection right: the record shows what stands
 * and what stood, and nothing that came with the answer is lost. */
#include <math.h>

#include "base/day.h"
#include "garage.h"
#include "service/error.h"
#include "service/walk-correct.h"
#include "service/walk-record.h"

#define DAY (24 * G_GINT64_CONSTANT (3600000))

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

typedef struct
{
  Garage *garage;
  gint64 vehicle, walk;
} Shed;

/* A signed inspection of ten days ago. */
static Shed
shed_new (gboolean sign)
{
  Shed self = { garage_new () };

  pin_pretend_now (g_get_real_time () / 1000 - 10 * DAY);
  self.vehicle = garage_add (self.garage, "Plum", "cart", 0);
  self.walk = garage_walk (self.garage, self.vehicle, walked, sign);
  pin_pretend_now (g_get_real_time () / 1000);
  return self;
}

static gpointer
load_record (PinDb *db, gpointer data, GError **error)
{
  Shed *self = data;
  PinWalkRows *rows = pin_walk_rows_load (db, self->walk, error);
  PinWalkRecord *record = pin_walk_record_new (rows, self->garage->library, error);

  g_assert_true (pin_walk_record_read_corrected (record, db, self->garage->library, error));
  return record;
}

static PinWalkRecord *
record_of (Shed *self)
{
  g_autoptr (GError) error = NULL;
  PinWalkRecord *record = pin_book_run (self->garage->book, load_record, self, &error);

  g_assert_no_error (error);
  return record;
}

static const PinRecordLine *
line_at (const PinWalkRecord *record, const char *step, const char *code)
{
  for (guint i = 0; i < record->groups->len; i++)
    {
      const PinRecordGroup *group = record->groups->pdata[i];

      for (guint j = 0; j < group->lines->len; j++)
        {
          const PinRecordLine *line = group->lines->pdata[j];

          if (g_str_equal (line->step, step) && g_strcmp0 (line->code, code) == 0)
            return line;
        }
    }
  g_assert_not_reached ();
}

static gboolean
correct (Shed *self, const char *step, const char *code, const PinCorrection *correction, GError **error)
{
  g_autoptr (PinWalkRecord) record = record_of (self);
  const PinRecordLine *line = line_at (record, step, code);
  const PinAnswer *answer = line->left != NULL ? line->left : line->found;
  g_autoptr (PinBatch) batch = pin_batch_new (self->garage->book);

  if (!pin_walk_correct (record->walk, pin_walk_question_of (record->walk, answer->id), correction, batch, error))
    return FALSE;
  return pin_book_commit (self->garage->book, batch, error);
}

static void
correct_well (Shed *self, const char *step, const char *code, PinCorrection correction)
{
  g_autoptr (GError) error = NULL;

  correction.why = "misread";
  correction.person = "CD";
  correct (self, step, code, &correction, &error);
  g_assert_no_error (error);
}

static void
refused (Shed *self, const char *step, const char *code, PinCorrection correction, int code_of_error)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (correct (self, step, code, &correction, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, code_of_error);
}

/* A withdrawn one is still told of, as withdrawn. */
static int
open_findings (Shed *self)
{
  g_autoptr (PinVehicleView) view = garage_view (self->garage, self->vehicle);
  int n = 0;

  for (guint i = 0; i < view->findings->len; i++)
    n += !((PinFindingLine *) view->findings->pdata[i])->row->closed;
  return n;
}

/* ---- One sort of question after the other ---- */

static void
test_reading (void)
{
  Shed self = shed_new (TRUE);
  g_autofree char *then = pin_day_of (g_get_real_time () / 1000 - 10 * DAY);
  g_autofree char *now = pin_today ();
  g_autofree char *shown = pin_day_short (now);
  g_autofree char *said = g_strdup_printf ("corrected by CD, %s; was 2.5 s, pass (AB)", shown);
  g_autoptr (PinWalkRecord) record = NULL;
  const PinRecordLine *line;

  correct_well (&self, "look/coast", NULL, (PinCorrection) { .typed = "1.4, 1.6 s, 1.5" });
  record = record_of (&self);
  line = line_at (record, "look/coast", NULL);
  g_assert_cmpstr (line->found_text, ==, "1.5 s");
  g_assert_cmpint (line->outcome, ==, PIN_OUTCOME_WATCH);
  g_assert_cmpstr (line->note, ==, "corrected: misread");
  g_assert_cmpuint (line->corrected->len, ==, 1);
  g_assert_cmpstr (line->corrected->pdata[0], ==, said);
  /* read then, corrected now; with what was on the car then */
  g_assert_cmpstr (line->found_reading->day, ==, then);
  g_assert_cmpstr (line->found_reading->conditions, ==, "wheels=on");
  g_assert_cmpstr (record->verdict, ==, "signed");
  garage_free (self.garage);
}

static void
test_grade_twice (void)
{
  Shed self = shed_new (TRUE);
  g_autoptr (PinWalkRecord) record = NULL;
  const PinRecordLine *line;

  correct_well (&self, "look/grade", "hub.front.right.inner", (PinCorrection) { .grade = "dry" });
  correct_well (&self, "look/grade", "hub.front.right.inner", (PinCorrection) { .grade = "notchy" });
  record = record_of (&self);
  line = line_at (record, "look/grade", "hub.front.right.inner");
  g_assert_cmpint (line->outcome, ==, PIN_OUTCOME_FAIL);
  g_assert_cmpuint (line->corrected->len, ==, 2);
  g_assert_nonnull (g_strstr_len (line->corrected->pdata[0], -1, "was coasts, hisses (CD)"));
  g_assert_nonnull (g_strstr_len (line->corrected->pdata[1], -1, "was silent, coasts (AB)"));
  g_assert_cmpint (open_findings (&self), ==, 2); /* three of four nuts, and this one */
  garage_free (self.garage);
}

static void
test_count_and_words (void)
{
  Shed self = shed_new (TRUE);
  g_autoptr (PinWalkRecord) record = NULL;

  correct_well (&self, "look/screws", "fasteners.nuts", (PinCorrection) { .typed = "4" });
  correct_well (&self, "look/horn", NULL,
                (PinCorrection) { .outcome = PIN_OUTCOME_NOT_CHECKED, .reason = "forgot" });
  record = record_of (&self);
  g_assert_cmpstr (line_at (record, "look/screws", "fasteners.nuts")->found_text, ==, "4/4");
  g_assert_cmpstr (line_at (record, "look/horn", NULL)->reason, ==, "forgot");
  g_assert_cmpstr (line_at (record, "look/horn", NULL)->note, ==, "a scratch; corrected: misread");
  g_assert_cmpint (open_findings (&self), ==, 0);
  garage_free (self.garage);
}

/* An oiling that is corrected stays an oiling of that day. */
static void
test_work_stays (void)
{
  Shed self = shed_new (TRUE);
  g_autofree char *then = pin_day_of (g_get_real_time () / 1000 - 10 * DAY);
  g_autoptr (PinWalkRecord) record = NULL;
  const PinRecordLine *line;
  const GPtrArray *works;
  int n = 0;

  correct_well (&self, "look/oil-it", "hub.front.left.outer", (PinCorrection) { .outcome = PIN_OUTCOME_DONE });
  record = record_of (&self);
  line = line_at (record, "look/oil-it", "hub.front.left.outer");
  works = pin_walk_rows (record->walk)->works;
  g_assert_cmpuint (line->deeds->len, ==, 1);
  for (guint i = 0; i < works->len; i++)
    {
      const PinWork *work = works->pdata[i];

      if (work->answer != line->found->id)
        continue;
      g_assert_cmpstr (work->day, ==, then);
      n++;
    }
  g_assert_cmpint (n, ==, 1);
  garage_free (self.garage);
}

/* ---- What is refused ---- */

static void
test_refused (void)
{
  Shed self = shed_new (TRUE);
  Shed open = shed_new (FALSE);
  PinCorrection whole = { .typed = "1.5 s", .why = "misread", .person = "CD" };
  PinCorrection changed = whole;
  g_autoptr (PinWalkRecord) record = NULL;

  changed.why = "";
  refused (&self, "look/coast", NULL, changed, PIN_SERVICE_ERROR_VALUE);
  changed = whole;
  changed.person = NULL;
  refused (&self, "look/coast", NULL, changed, PIN_SERVICE_ERROR_NAME);
  changed = whole;
  changed.typed = "5";
  refused (&self, "look/screws", "fasteners.nuts", changed, PIN_SERVICE_ERROR_VALUE);
  refused (&open, "look/coast", NULL, whole, PIN_SERVICE_ERROR_NOT_YET);
  record = record_of (&self);
  g_assert_cmpstr (line_at (record, "look/coast", NULL)->found_text, ==, "2.5 s");
  g_assert_cmpuint (line_at (record, "look/coast", NULL)->corrected->len, ==, 0);
  garage_free (open.garage);
  garage_free (self.garage);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/correct/reading", test_reading);
  g_test_add_func ("/correct/grade-twice", test_grade_twice);
  g_test_add_func ("/correct/count-and-words", test_count_and_words);
  g_test_add_func ("/correct/work-stays", test_work_stays);
  g_test_add_func ("/correct/refused", test_refused);
  return g_test_run ();
}
