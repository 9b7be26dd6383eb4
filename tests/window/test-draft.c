#include "window/draft.h"

/* What is typed and not answered survives being written and read again; what
 * cannot be read is no draft and no crash. */

static void
test_round (void)
{
  g_autoptr (PinDraft) draft = pin_draft_new ("free-roll/spin");
  g_autoptr (PinDraft) again = NULL;
  g_autofree char *text = NULL;

  g_assert_true (pin_draft_is_blank (draft));
  g_ptr_array_add (draft->laps, g_strdup ("1.9 s"));
  g_ptr_array_add (draft->laps, g_strdup ("1.7 s"));
  g_free (draft->typed);
  draft->typed = g_strdup ("2,0");
  g_free (draft->note);
  draft->note = g_strdup ("“tight” once a turn\n");
  draft->counted = 11;
  draft->timed = TRUE;
  g_hash_table_add (draft->deeds, g_strdup ("oiled"));
  g_hash_table_insert (draft->specs, g_strdup ("lube"), g_strdup ("thin oil"));
  g_hash_table_insert (draft->conditions, g_strdup ("ambient"), g_strdup ("18"));
  g_assert_false (pin_draft_is_blank (draft));
  text = pin_draft_to_text (draft);
  again = pin_draft_from_text (text);
  g_assert_nonnull (again);
  g_assert_cmpstr (again->key, ==, "free-roll/spin");
  g_assert_cmpuint (again->laps->len, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (again->laps, 1), ==, "1.7 s");
  g_assert_cmpstr (again->typed, ==, "2,0");
  g_assert_cmpstr (again->note, ==, "“tight” once a turn\n");
  g_assert_cmpint (again->counted, ==, 11);
  g_assert_true (again->timed);
  g_assert_true (g_hash_table_contains (again->deeds, "oiled"));
  g_assert_cmpstr (g_hash_table_lookup (again->specs, "lube"), ==, "thin oil");
  g_assert_cmpstr (g_hash_table_lookup (again->conditions, "ambient"), ==, "18");
}

static void
test_unreadable (void)
{
  static const char *const texts[] = { "", "{", "[]", "7", "\"x\"", "null" };

  g_assert_null (pin_draft_from_text (NULL));
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_assert_null (pin_draft_from_text (texts[i]));
}

static void
test_strange (void)
{
  g_autoptr (PinDraft) draft = pin_draft_from_text ("{\"key\":\"a\",\"laps\":[1,\"2 s\",{}],\"deeds\":{},\"specs\":[],"
                                                    "\"typed\":\"x\"}");

  g_assert_nonnull (draft);
  g_assert_cmpuint (draft->laps->len, ==, 1);
  g_assert_cmpuint (g_hash_table_size (draft->deeds), ==, 0);
  g_assert_cmpint (draft->counted, ==, -1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/draft/round", test_round);
  g_test_add_func ("/window/draft/unreadable", test_unreadable);
  g_test_add_func ("/window/draft/strange", test_strange);
  return g_test_run ();
}
