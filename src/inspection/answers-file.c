#include "inspection/answers-file.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "inspection/error.h"
#include "inspection/walk-private.h"

/* One line taken apart; the strings point into @fields. */
typedef struct
{
  char **fields;
  const char *key, *answer;
  const char *note, *reason, *by, *outcome;
  GPtrArray *deeds;           /* const char*, NULL-terminated when used */
  GArray *specs;              /* PinSpecValue */
  GHashTable *conditions;
  GArray *repeats;            /* double */
} Line;

#define REFUSE(error, ...) \
  (g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_ANSWER, __VA_ARGS__), FALSE)

static void
line_clear (Line *line)
{
  g_strfreev (line->fields);
  g_clear_pointer (&line->deeds, g_ptr_array_unref);
  g_clear_pointer (&line->specs, g_array_unref);
  g_clear_pointer (&line->conditions, g_hash_table_unref);
  g_clear_pointer (&line->repeats, g_array_unref);
}

static gboolean
take_field (Line *line, char *field, GError **error)
{
  char *equals = strchr (field, '=');

  if (*field == '\0')
    return TRUE;
  if (equals == NULL)
    return REFUSE (error, _("“%s” is no field: write name=value "
                          "(deed, note, reason, by, outcome, ask.SPEC, condition.NAME)"), field);
  *equals++ = '\0';
  if (g_str_equal (field, "note"))
    line->note = equals;
  else if (g_str_equal (field, "reason"))
    line->reason = equals;
  else if (g_str_equal (field, "by"))
    line->by = equals;
  else if (g_str_equal (field, "outcome"))
    line->outcome = equals;
  else if (g_str_equal (field, "deed"))
    g_ptr_array_add (line->deeds, equals);
  else if (g_str_has_prefix (field, "ask."))
    g_array_append_val (line->specs, ((PinSpecValue){ field + strlen ("ask."), equals }));
  else if (g_str_has_prefix (field, "condition."))
    g_hash_table_insert (line->conditions, field + strlen ("condition."), equals);
  else
    return REFUSE (error, _("“%s” is no field: deed, note, reason, by, outcome, ask.SPEC or condition.NAME"), field);
  return TRUE;
}

static gboolean
take_apart (Line *line, const char *text, GError **error)
{
  line->fields = g_strsplit (text, "\t", -1);
  line->deeds = g_ptr_array_new ();
  line->specs = g_array_new (FALSE, FALSE, sizeof (PinSpecValue));
  line->conditions = g_hash_table_new (g_str_hash, g_str_equal);
  line->repeats = g_array_new (FALSE, FALSE, sizeof (double));
  line->key = g_strstrip (line->fields[0]);
  if (line->fields[1] == NULL)
    return REFUSE (error, _("“%s” has no answer: put a tab and the answer behind it"), line->key);
  line->answer = g_strstrip (line->fields[1]);
  for (guint i = 2; line->fields[i]; i++)
    if (!take_field (line, line->fields[i], error))
      return FALSE;
  return TRUE;
}

/* "2,5" is two readings to one and one to another. */
static gboolean
has_doubtful_comma (const char *text)
{
  for (const char *comma = strchr (text, ','); comma; comma = strchr (comma + 1, ','))
    if (comma > text && g_ascii_isdigit (comma[-1]) && g_ascii_isdigit (comma[1]))
      return TRUE;
  return FALSE;
}

static gboolean
parse_repeats (Line *line, const PinMeasure *measure, GError **error)
{
  g_auto (GStrv) words = g_strsplit (line->answer, ",", -1);

  if (has_doubtful_comma (line->answer))
    return REFUSE (error, _("%s: “%s” may be one reading or several: put a space after each comma between readings, "
                            "and write decimals with a point"),
                   line->key, line->answer);
  for (guint i = 0; words[i]; i++)
    {
      double value;

      if (!pin_value_parse (g_strstrip (words[i]), measure->unit, &value, NULL, error))
        {
          g_prefix_error (error, "%s: ", line->key);
          return FALSE;
        }
      g_array_append_val (line->repeats, value);
    }
  return TRUE;
}

static gboolean
parse_count (Line *line, PinReply *reply, GError **error)
{
  g_auto (GStrv) words = g_strsplit (line->answer, "/", 2);
  double n, of = 0;

  if (words[0] == NULL || !pin_number_parse (words[0], &n) || (words[1] && !pin_number_parse (words[1], &of)) ||
      n < 0 || n > 10000 || of < 0 || of > 10000 || n != floor (n) || of != floor (of))
    return REFUSE (error, _("%s: “%s” is no count: write it as 11/12"), line->key, line->answer);
  reply->counted = (int) n;
  reply->of = (int) of;
  return TRUE;
}

static gboolean
outcome_word (const char *word, PinReply *reply)
{
  if (g_strcmp0 (word, "unsafe") == 0)
    {
      reply->outcome = PIN_OUTCOME_FAIL;
      reply->unsafe = TRUE;
      return TRUE;
    }
  return pin_outcome_parse (word, &reply->outcome);
}

static void
propose (const PinWalk *walk, const PinQuestion *question, PinReply *reply)
{
  PinReferences references = pin_walk_references (walk, question);
  double value = pin_judge_take (question->step->measure, reply->repeats, reply->n_repeats);

  reply->outcome = pin_judge (question->step->measure, value, &references).outcome;
}

static gboolean
parse_answer (const PinWalk *walk, const PinQuestion *question, Line *line, PinReply *reply, GError **error)
{
  PinAnswerKind kind = pin_question_kind (question);
  gboolean is_word = outcome_word (line->answer, reply);
  gboolean none = is_word && (reply->outcome == PIN_OUTCOME_NOT_CHECKED ||
                              reply->outcome == PIN_OUTCOME_DOES_NOT_APPLY);

  if (none)
    return TRUE;
  if (question->kind == PIN_QUESTION_WAY)
    {
      reply->way = line->answer;
      reply->outcome = PIN_OUTCOME_DONE;
      return TRUE;
    }
  if (kind == PIN_ANSWER_CHOOSE)
    {
      reply->grade = line->answer;
      reply->outcome = PIN_OUTCOME_NONE;
      reply->unsafe = g_strcmp0 (line->outcome, "unsafe") == 0;
      return TRUE;
    }
  if (kind == PIN_ANSWER_COUNT)
    {
      reply->outcome = PIN_OUTCOME_NONE;
      return parse_count (line, reply, error) &&
             (line->outcome == NULL || outcome_word (line->outcome, reply) ||
              REFUSE (error, _("%s: “%s” is no outcome"), line->key, line->outcome));
    }
  if (kind == PIN_ANSWER_MEASURE)
    {
      if (!parse_repeats (line, question->step->measure, error))
        return FALSE;
      reply->repeats = (const double *) line->repeats->data;
      reply->n_repeats = line->repeats->len;
      reply->typed = line->answer;
      reply->outcome = PIN_OUTCOME_NONE;
      if (line->outcome && !outcome_word (line->outcome, reply))
        return REFUSE (error, _("%s: “%s” is no outcome"), line->key, line->outcome);
      if (line->outcome == NULL)
        propose (walk, question, reply);
      return TRUE;
    }
  return is_word || REFUSE (error, _("%s: “%s” is no outcome"), line->key, line->answer);
}

static gboolean
apply (const PinWalk *walk, Line *line, const char *person, PinBatch *batch, GError **error)
{
  int at = pin_walk_find (walk, line->key);
  const PinQuestion *question = at >= 0 ? g_ptr_array_index (walk->questions, at) : NULL;
  PinReply reply = { .counted = -1 };

  if (question == NULL)
    {
      const PinQuestion *next = walk->next >= 0 ? g_ptr_array_index (walk->questions, walk->next) : NULL;

      g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_NO_QUESTION,
                   _("“%s” is not asked in this walk; next is %s"), line->key, next ? next->key : _("the sign-off"));
      return FALSE;
    }
  if (!parse_answer (walk, question, line, &reply, error))
    return FALSE;
  g_ptr_array_add (line->deeds, NULL);
  reply.deeds = (const char *const *) line->deeds->pdata;
  reply.specs = (const PinSpecValue *) line->specs->data;
  reply.n_specs = line->specs->len;
  reply.conditions = line->conditions;
  reply.note = line->note;
  reply.reason = line->reason;
  reply.person = line->by ? line->by : person;
  return pin_walk_answer (walk, question, &reply, batch, error);
}

gboolean
pin_answers_line (const PinWalk *walk, const char *text, const char *person, PinBatch *batch,
                  gboolean *is_nothing, char **sign_by, GError **error)
{
  g_autofree char *trimmed = g_strchomp (g_strdup (text));
  Line line = { NULL };
  gboolean ok;

  *is_nothing = FALSE;
  *sign_by = NULL;
  if (*trimmed == '\0' || *trimmed == '#')
    {
      *is_nothing = TRUE;
      return TRUE;
    }
  if (!g_utf8_validate (trimmed, -1, NULL))
    return REFUSE (error, _("the line is not UTF-8 text"));
  ok = take_apart (&line, trimmed, error);
  if (ok && g_str_equal (line.key, "sign-off"))
    *sign_by = g_strdup (line.answer);
  else
    ok = ok && apply (walk, &line, person, batch, error);
  line_clear (&line);
  return ok;
}

/* Every question of the walk, a line each, with what it expects; what is
 * answered already stands as a comment.  Free with g_free(). */
char *
pin_answers_blank (const PinWalk *walk)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "# %s, %s\n", pin_walk_title (walk), walk->car->name);
  for (guint i = 0; i < walk->questions->len; i++)
    {
      const PinQuestion *question = g_ptr_array_index (walk->questions, i);
      g_autofree char *expects = pin_question_expects (walk, question);

      if (i == 0 || question->group != ((PinQuestion *) g_ptr_array_index (walk->questions, i - 1))->group)
        g_string_append_printf (text, "# -- %s\n",
                                ((PinWalkGroup *) g_ptr_array_index (walk->groups, question->group))->title);
      if (question->given)
        g_string_append_printf (text, "# answered: %s\t%s\n", question->key,
                                pin_outcome_word (question->given->outcome));
      else
        g_string_append_printf (text, "%s\t%s\n", question->key, expects);
    }
  g_string_append (text, "sign-off\tinitials\n");
  return g_string_free (text, FALSE);
}
