/* The order of a walk as it stands in a book, damaged or made by another program. */

#include <string.h>

#include "fuzz.h"
#include "inspection/walk-private.h"

static const char *const right[] = {
  "{\"what\": \"quarterly\", \"title\": \"The quarter\", \"procedures\": [\"0a1b\", \"2c3d\"], "
  "\"settlers\": [\"4e5f\"], \"order\": [\"free-roll/found\", \"off/motor\"], \"debts\": [\"mesh\"]}",
  "{\"what\":\"bearings\",\"title\":\"\",\"procedures\":[],\"settlers\":[],\"order\":[],\"debts\":[]}",
  "", "null", "[]", "{\"what\": \"\\ud800\", \"order\": [\"\\ud800\"]}",
  "{}", "{\"what\": null, \"order\": null}", "{\"order\": [1, null, [], {}, true, \"a\"]}",
};
static const char *const words[] = {
  "{", "}", "[", "]", "\"", ":", ",", "null", "true", "1", "-1e999", "[[", "{}", "[]", "\\u0000",
  "\\ud800", "\\", "\"what\":", "\"order\":", "\"procedures\":", "\"debts\":", "\xff", "\xc3", NULL,
};

/* There in a build with sanitisers. */
void __lsan_disable (void) __attribute__ ((weak));
void __lsan_enable (void) __attribute__ ((weak));

/* The JSON library leaves lying what it had read before it met an error or a
 * second text; that is not ours, so only what we wrote is watched for leaks. */
static PinPlanText *
parse_unwatched (const char *text)
{
  g_autoptr (GError) error = NULL;
  PinPlanText *plan;

  if (__lsan_disable != NULL)
    __lsan_disable ();
  plan = pin_plan_text_parse (text, &error);
  if (__lsan_enable != NULL)
    __lsan_enable ();
  g_assert_cmpint (plan != NULL, ==, error == NULL);
  return plan;
}

static void
attempt (const char *text, gsize length, gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *written = NULL;
  PinPlanText *plan = parse_unwatched (text), *again;

  if (plan == NULL)
    return;
  written = pin_plan_text_write (plan);
  again = pin_plan_text_parse (written, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (again->what, ==, plan->what);
  g_assert_cmpint (g_strv_length (again->order), ==, g_strv_length (plan->order));
  g_assert_cmpint (again->procedures->len, ==, plan->procedures->len);
  pin_plan_text_free (again);
  pin_plan_text_free (plan);
}

int
main (int argc, char **argv)
{
  FuzzFood food = { NULL, words };
  int status;

  for (gsize i = 0; i < G_N_ELEMENTS (right); i++)
    fuzz_add (&food, right[i]);
  status = fuzz_main (argc, argv, &food, 20000, attempt, NULL);
  fuzz_clear (&food);
  return status;
}
