#include "service/finding-text.h"

#include <glib/gi18n.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

#include "base/day.h"

/* ---- Small things of words ---- */

static char *
change_first (const char *text, gunichar (*how) (gunichar))
{
  g_autoptr (GString) out = g_string_new (NULL);

  if (text == NULL || *text == '\0')
    return g_strdup ("");
  g_string_append_unichar (out, how (g_utf8_get_char (text)));
  g_string_append (out, g_utf8_next_char (text));
  return g_string_free (g_steal_pointer (&out), FALSE);
}

char *
pin_sentence_case (const char *text)
{
  return change_first (text, g_unichar_toupper);
}

/* "Sandy all round" → "sandy all round"; abbreviations stay as they are. */
static char *
within_sentence (const char *text)
{
  g_autofree char *trimmed = g_strchomp (g_strdup (text ? text : ""));
  gsize n = strlen (trimmed);

  if (n > 0 && trimmed[n - 1] == '.')
    trimmed[n - 1] = '\0';
  if (n > 1 && !g_unichar_islower (g_utf8_get_char (g_utf8_next_char (trimmed))) &&
      g_unichar_isalpha (g_utf8_get_char (g_utf8_next_char (trimmed))))
    return g_steal_pointer (&trimmed);
  return change_first (trimmed, g_unichar_tolower);
}

static char *
words_of_id (const char *id)
{
  g_autofree char *words = g_strdelimit (g_strdup (id), "-_", ' ');

  return pin_sentence_case (words);
}

/* ---- Steps ---- */

/* The step of the newest text that @stored ("bearings/grade") names. */
static const PinStep *
find_step (PinLibrary *library, const char *stored)
{
  g_auto (GStrv) parts = stored ? g_strsplit (stored, "/", 2) : NULL;
  PinProcedure *procedure;

  if (parts == NULL || parts[0] == NULL || parts[1] == NULL)
    return NULL;
  procedure = pin_library_procedure (library, parts[0], NULL);
  return procedure ? pin_procedure_step (procedure, parts[1], NULL) : NULL;
}

char *
pin_step_title (PinLibrary *library, const char *stored)
{
  const PinStep *step = find_step (library, stored);
  const char *slash = stored ? strchr (stored, '/') : NULL;

  if (step != NULL && step->title != NULL)
    return g_strdup (step->title);
  if (stored == NULL)
    return g_strdup ("");
  return words_of_id (slash ? slash + 1 : stored);
}

static const char *
grade_text (const PinStep *step, const char *grade)
{
  for (guint i = 0; step != NULL && step->grades != NULL && i < step->grades->len; i++)
    {
      const PinGrade *known = step->grades->pdata[i];

      if (g_strcmp0 (known->id, grade) == 0)
        return known->text;
    }
  return NULL;
}

static gboolean
is_count (const char *detail)
{
  return detail != NULL && strspn (detail, "0123456789/") == strlen (detail) &&
         strchr (detail, '/') != NULL;
}

static char *
count_text (const char *detail)
{
  g_auto (GStrv) parts = g_strsplit (detail, "/", 2);

  return g_strdup_printf (_("%s of %s right"), parts[0], parts[1]);
}

/* What a step's answer says, from its grade, count or reading. */
static char *
detail_text (PinLibrary *library, const char *stored, const char *detail, const char *word)
{
  const PinStep *step = find_step (library, stored);
  const char *grade = grade_text (step, detail);
  g_autofree char *title = NULL, *lower = NULL;

  if (grade != NULL)
    return within_sentence (grade);
  if (is_count (detail))
    return count_text (detail);
  title = pin_step_title (library, stored);
  lower = within_sentence (title);
  if (detail == NULL || *detail == '\0')
    return *lower ? g_strdup_printf ("%s, %s", lower, word) : g_strdup (word);
  return *lower ? g_strdup_printf ("%s, %s", lower, detail) : g_strdup (detail);
}

char *
pin_answer_text (PinLibrary *library, const PinAnswer *answer)
{
  switch (answer->outcome)
    {
    case PIN_OUTCOME_NONE:
      return g_strdup (_("not answered"));
    case PIN_OUTCOME_NOT_CHECKED:
      if (answer->detail == NULL || *answer->detail == '\0')
        return g_strdup (_("not checked"));
      return g_strdup_printf (_("not checked: %s"), answer->detail);
    case PIN_OUTCOME_DOES_NOT_APPLY:
      return g_strdup (_("does not apply"));
    case PIN_OUTCOME_DONE:
      return g_strdup (_("done"));
    case PIN_OUTCOME_PASS:
    case PIN_OUTCOME_WATCH:
    case PIN_OUTCOME_FAIL:
      break;
    }
  return detail_text (library, answer->step, answer->detail, pin_outcome_title (answer->outcome));
}

/* ---- Findings ---- */

/* What the program itself notes is kept in English, and read in any language. */
static const char *
note_text (const char *note)
{
  static const char *const own[] = { N_("part replaced"), N_("part gone"), N_("found sound") };

  for (gsize i = 0; i < G_N_ELEMENTS (own); i++)
    if (g_str_equal (note, own[i]))
      return _(own[i]);
  return note;
}

/* A note of the person says more than the grade: "a ball cup (pops off)". */
char *
pin_finding_what (PinLibrary *library, const PinFindingRow *finding)
{
  const char *word = pin_gravity_title (finding->gravity);
  g_autofree char *what = NULL;

  if (finding->step == NULL)
    return within_sentence (finding->note ? note_text (finding->note) : word);
  what = detail_text (library, finding->step, finding->detail, word);
  if (finding->note == NULL || *finding->note == '\0')
    return g_steal_pointer (&what);
  return g_strdup_printf ("%s (%s)", what, note_text (finding->note));
}

char *
pin_place_text (const PinCar *car, gint64 place, gint64 part)
{
  const PinSlot *slot = place ? g_hash_table_lookup (car->by_place, &place) : NULL;

  if (slot == NULL && part != 0)
    slot = pin_car_slot_of_part (car, part);
  return g_strdup (slot ? slot->label : "");
}

/* Of the car as a whole: the step says what it is about. */
static char *
whole_text (PinLibrary *library, const PinFindingRow *finding, const char *what)
{
  g_autofree char *title = pin_step_title (library, finding->step);
  g_autofree char *lower = within_sentence (title);

  if (*lower == '\0' || g_str_has_prefix (what, lower))
    return g_strdup (what);
  return g_strdup_printf ("%s: %s", lower, what);
}

char *
pin_finding_text (PinLibrary *library, const PinCar *car, const PinFindingRow *finding)
{
  g_autofree char *what = pin_finding_what (library, finding);
  g_autofree char *where = pin_place_text (car, finding->place, finding->part);

  if (*where)
    return g_strdup_printf ("%s: %s", where, what);
  return whole_text (library, finding, what);
}

char *
pin_finding_closes (PinLibrary *library, const PinFindingRow *finding)
{
  g_auto (GStrv) parts = finding->step ? g_strsplit (finding->step, "/", 2) : NULL;
  g_autofree char *title = NULL;

  if (parts == NULL || parts[0] == NULL)
    return g_strdup (_("Work on it, or a note that it was found sound"));
  title = pin_procedure_title (library, parts[0]);
  if (finding->worked)
    return g_strdup_printf (_("Worked on: “%s” once more, and a pass, closes it"), title);
  return g_strdup_printf (
      _("Work on it, then a pass in “%s”; or a note that it was found sound"), title);
}

/* ---- Procedures, debts, deeds ---- */

char *
pin_procedure_title (PinLibrary *library, const char *id)
{
  PinTeardown *teardown = id ? pin_library_teardown (library, id, NULL) : NULL;
  PinProcedure *procedure = id && !teardown ? pin_library_procedure (library, id, NULL) : NULL;

  if (teardown != NULL)
    return g_strdup (teardown->title);
  if (procedure != NULL)
    return g_strdup (procedure->title);
  return id ? words_of_id (id) : g_strdup ("");
}

static char *
plan_member (const char *plan, const char *name)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonNode *root;

  if (plan == NULL || !json_parser_load_from_data (parser, plan, -1, NULL))
    return NULL;
  root = json_parser_get_root (parser);
  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root))
    return NULL;
  return g_strdup (
      json_object_get_string_member_with_default (json_node_get_object (root), name, NULL));
}

char *
pin_plan_what (const char *plan)
{
  char *what = plan_member (plan, "what");

  return what ? what : g_strdup ("");
}

char *
pin_plan_title (const char *plan)
{
  char *title = plan_member (plan, "title");

  return title ? title : g_strdup ("");
}

char *
pin_owed_title (PinLibrary *library, const char *what)
{
  const PinDebt *debt = pin_library_debt (library, what);
  const PinJob *job =
      g_str_has_prefix (what, "job:") ? pin_library_job (library, what + 4) : NULL;

  if (debt != NULL)
    return g_strdup (debt->title);
  if (job != NULL)
    return g_strdup (job->title);
  return g_strdup (g_str_has_prefix (what, "job:") ? what + 4 : what);
}

char *
pin_owed_text (PinLibrary *library, const PinCar *car, const PinOwed *owed)
{
  g_autofree char *title = pin_owed_title (library, owed->what);
  g_autofree char *when = NULL;

  if (owed->ready_at > 0)
    {
      when = pin_instant_text (owed->ready_at);
      return g_strdup_printf (_("%s, until %s"), title, when);
    }
  if (owed->due_at > 0)
    {
      when = pin_instant_text (owed->due_at);
      return g_strdup_printf (_("%s, by %s"), title, when);
    }
  return g_steal_pointer (&title);
}

char *
pin_deed_title (PinLibrary *library, const char *deed)
{
  const PinDeed *known = pin_library_deed (library, deed);

  return known ? g_strdup (known->title) : words_of_id (deed);
}

char *
pin_reading_text (PinLibrary *library, const PinReading *reading)
{
  const PinQuantity *quantity = pin_library_quantity (library, reading->quantity);

  if (quantity == NULL || quantity->unit == NULL)
    return g_strdup (reading->typed ? reading->typed : "");
  return pin_value_format (reading->value, quantity->unit, quantity->decimals);
}

/* "8x16x5" → "8 × 16 × 5 mm"; sizes in other words stay as they are, NULL is "".
 * Free with g_free(). */
char *
pin_size_text (const char *size)
{
  g_autofree char *spaced = NULL;
  g_auto (GStrv) parts = NULL;

  if (size == NULL || *size == '\0')
    return g_strdup ("");
  parts = g_strsplit (size, "x", -1);
  if (g_strv_length (parts) < 2 || !g_ascii_isdigit (size[0]))
    return g_strdup (size);
  spaced = g_strjoinv (" × ", parts);
  if (strspn (size, "0123456789.x") == strlen (size))
    return g_strdup_printf ("%s mm", spaced);
  return g_steal_pointer (&spaced);
}
