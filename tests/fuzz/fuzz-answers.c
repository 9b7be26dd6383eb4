/* Lines of an answers file, broken, in walks that go on with every line that is
 * taken: what a walk takes, the book must take, and still be sound at the end. */

#include <string.h>

#include "fuzz.h"
#include "shed.h"

static const char *const words[] = {
  "\t", "@", "!left", "/", "=", ",", ";", " ", "#", "pass", "watch", "fail", "unsafe", "not-checked",
  "does-not-apply", "done", "outcome=pass", "outcome=unsafe", "note=", "reason=", "deed=oiled",
  "ask.lube=", "ask.", "condition.ambient=21", "condition.", "by=", "off/motor", "on/wheels",
  "way/stop", "wait/", "sign-off", "1e999", "-1", "99/1", "nan", "0", "mm", "\xff", "\xc2\xa0",
  "hub.front.left.outer", "\r", "=+1", NULL,
};
static const char *const procedures[] = { "free-roll", "bearings", "fastener-check", "gear-mesh" };

#define LINES_A_WALK 90

/* The right line for what is asked next, and now and then for something else. */
static void
feed (Shed *shed, FuzzFood *food, GRand *rand)
{
  const GPtrArray *questions = pin_walk_questions (shed->walk);
  int next = pin_walk_next (shed->walk);
  int at = next < 0 || g_rand_int_range (rand, 0, 8) == 0
               ? g_rand_int_range (rand, 0, (gint32) questions->len) : next;
  g_autofree char *line = shed_pass (shed, questions->pdata[at]);

  fuzz_clear (food);
  fuzz_add (food, line);
}

static char *
right_line (FuzzFood *food)
{
  gsize length;
  const char *line = g_bytes_get_data (food->corpus->pdata[0], &length);

  return g_strndup (line, length);
}

/* TRUE if the line was taken. */
static gboolean
try_line (Shed *shed, const char *line)
{
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);
  g_autoptr (GError) error = NULL;
  g_autofree char *sign_by = NULL;
  gboolean is_nothing;

  if (!pin_answers_line (shed->walk, line, "AB", batch, &is_nothing, &sign_by, &error))
    {
      g_assert_nonnull (error);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_true (pin_batch_is_empty (batch));
      return FALSE;
    }
  g_assert_no_error (error);
  if (is_nothing || sign_by)
    return FALSE;
  pin_book_commit (shed->book, batch, &error);
  g_assert_no_error (error);
  shed_reload (shed);
  return TRUE;
}

static void
one_walk (Shed *shed, const char *procedure, GRand *rand, guint *taken, guint *refused)
{
  FuzzFood food = { NULL, words };

  shed_begin (shed, procedure);
  for (guint i = 0; i < LINES_A_WALK; i++)
    {
      g_autofree char *line = NULL;
      gsize length;

      feed (shed, &food, rand);
      line = g_rand_int_range (rand, 0, 4) == 0
                 ? right_line (&food)
                 : fuzz_break (&food, rand, &length);
      fuzz_note (i, line, strlen (line));
      if (try_line (shed, line))
        ++*taken;
      else
        ++*refused;
      fuzz_note (i, NULL, 0);
    }
  shed_abandon (shed);
  fuzz_clear (&food);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) problems = NULL;
  GRand *rand = g_rand_new_with_seed (fuzz_number ("PIN_FUZZ_SEED", 20261125));
  guint rounds = fuzz_number ("PIN_FUZZ_ROUNDS", 1), taken = 0, refused = 0;
  Shed *shed = shed_new ("buggy-2wd-10");

  g_print ("1..1\n");
  for (guint i = 0; i < rounds; i++)
    for (gsize p = 0; p < G_N_ELEMENTS (procedures); p++)
      one_walk (shed, procedures[p], rand, &taken, &refused);
  problems = pin_book_verify (shed->book, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < problems->len; i++)
    g_printerr ("%s\n", (char *) problems->pdata[i]);
  g_assert_cmpuint (problems->len, ==, 0);
  g_assert_cmpuint (taken, >, 30);
  g_assert_cmpuint (refused, >, 30);
  g_print ("ok 1 %u lines taken, %u refused\n", taken, refused);
  g_rand_free (rand);
  shed_free (shed);
  return 0;
}
