/* The power goes at any moment: what the window had shown as kept is in the book,
 * and the window goes on with the first question that is not answered. */
#include <string.h>

#include "ui/shed.h"

enum { ROUNDS = 22, SEED = 20260417, LONGEST_MS = 1300, LOOK_US = 2000 };

/* A key as the book has it: no "as left", no "time 2". */
static char *
stored (const char *key)
{
  char *plain = g_strdup (key);

  plain[strcspn (plain, "!#")] = '\0';
  return plain;
}

/* What is answered, in order: "bearings/grade@hub.front.left.outer" */
static char **
answered (PinShed *shed)
{
  g_autofree char *out = NULL;
  const char *argv[] = { "sqlite3", shed->book,
                         "SELECT step || coalesce ('@' || code, '') FROM answer "
                         "LEFT JOIN place ON place.id = answer.place WHERE live ORDER BY answer.id",
                         NULL };

  g_assert_true (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out,
                               NULL, NULL, NULL));
  return g_strsplit (g_strstrip (out), "\n", -1);
}

typedef struct
{
  PinShed *shed;
  GPtrArray *kept;            /* char*: keys whose answer was shown as kept, in order */
  char *asked;                /* the question that was being answered, or NULL */
  gint64 end;                 /* when the power goes */
} Round;

/* TRUE: the page moved on.  FALSE: the power went. */
static gboolean
moved_in_time (Round *round)
{
  while (g_get_monotonic_time () < round->end)
    {
      g_autofree char *key = pin_bench_key (round->shed->bench);

      if (*key && !g_str_equal (key, round->asked))
        return TRUE;
      g_usleep (LOOK_US);
    }
  return FALSE;
}

static void
answer_until_the_power_goes (Round *round)
{
  while (g_get_monotonic_time () < round->end)
    {
      round->asked = pin_bench_key (round->shed->bench);
      if (g_str_equal (round->asked, "sign-off"))
        break;
      pin_bench_give (round->shed->bench, NULL);
      if (!moved_in_time (round))
        break;
      g_ptr_array_add (round->kept, stored (round->asked));
      g_clear_pointer (&round->asked, g_free);
    }
  g_clear_pointer (&round->shed->bench, pin_bench_free);
  pin_ui_kill (g_steal_pointer (&round->shed->ui));
}

/* All that was shown as kept, and at most the one that was on its way. */
static void
look_into_the_book (Round *round)
{
  g_auto (GStrv) in_book = answered (round->shed);
  guint n = *in_book[0] ? g_strv_length (in_book) : 0;

  g_assert_cmpuint (n, >=, round->kept->len);
  g_assert_cmpuint (n, <=, round->kept->len + (round->asked ? 1 : 0));
  for (guint i = 0; i < round->kept->len; i++)
    g_assert_cmpstr (in_book[i], ==, g_ptr_array_index (round->kept, i));
  if (n > round->kept->len)
    {
      g_autofree char *last = stored (round->asked);

      g_assert_cmpstr (in_book[n - 1], ==, last);
      g_ptr_array_add (round->kept, g_steal_pointer (&last));
    }
  g_clear_pointer (&round->asked, g_free);
}

static void
test_power (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("stadium-2wd-10");
  g_autoptr (GRand) dice = g_rand_new_with_seed (SEED);
  g_autoptr (GPtrArray) kept = g_ptr_array_new_with_free_func (g_free);
  Round round = { shed, kept, NULL, 0 };

  for (int i = 0; i < ROUNDS; i++)
    {
      g_autofree char *next = pin_shed_next (shed, "quarterly");
      g_autofree char *shown = NULL;

      pin_shed_resume (shed);
      shown = pin_bench_key (shed->bench);
      g_assert_cmpstr (next, !=, NULL);
      g_assert_true (g_str_has_prefix (shown, next));
      round.end = g_get_monotonic_time () + g_rand_int_range (dice, 1, LONGEST_MS) * 1000;
      answer_until_the_power_goes (&round);
      look_into_the_book (&round);
    }
  g_test_message ("%u answers over %d power cuts", kept->len, ROUNDS);
  g_assert_cmpuint (kept->len, >, ROUNDS / 4);
  g_free (pin_shed_verb (shed, "verify", NULL));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/kill/power", test_power);
  return g_test_run ();
}
