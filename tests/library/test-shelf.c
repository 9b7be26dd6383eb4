#include <glib/gstdio.h>
#include <string.h>

#include "fixture.h"
#include "library/error.h"

static char *
own_folder (void)
{
  char *dir = g_dir_make_tmp ("hingepin-shelf-XXXXXX", NULL);
  g_autofree char *procedures = g_build_filename (dir, "procedures", NULL);
  g_autofree char *kinds = g_build_filename (dir, "kinds", NULL);

  g_assert_cmpint (g_mkdir (procedures, 0700), ==, 0);
  g_assert_cmpint (g_mkdir (kinds, 0700), ==, 0);
  return dir;
}

static void
put (const char *dir, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (dir, name, NULL);

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static char *
procedure (const char *id, const char *title, const char *step)
{
  return g_strdup_printf ("<procedure xmlns='urn:hingepin:procedure:1' id='%s' revision='9'><title>%s</title>"
                          "<purpose>P</purpose><minutes hands='1'/><stage id='s'>%s</stage></procedure>",
                          id, title, step);
}

static void
test_words (void)
{
  g_autoptr (PinLibrary) library = fixture_library (NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) all = pin_library_procedures (library);

  g_assert_cmpuint (all->len, ==, 2);
  g_assert_cmpstr (((PinProcedure *) all->pdata[0])->id, ==, "after-wet");
  g_assert_cmpint (pin_library_job (library, "after-wet")->within_minutes, ==, 90);
  g_assert_cmpint (pin_library_debt (library, "cure")->minutes, ==, 24 * 60);
  g_assert_cmpstr (pin_library_debt (library, "mesh")->step, ==, "set");
  g_assert_cmpint (pin_library_quantity (library, "coast-time")->better, ==, 1);
  g_assert_cmpstr (pin_library_quantity (library, "coast-time")->reset[1], ==, "greased");
  g_assert_null (pin_library_spec (library, "cap")->unit);
  g_assert_cmpstr (pin_library_condition (library, "pack")->title, ==, "pack in");
  g_assert_cmpstr (((PinGroup *) pin_library_groups (library)->pdata[0])->id, ==, "bearings");
  g_assert_null (pin_library_kind (library, "nothing"));
  g_assert_cmpuint (strlen (pin_library_kinds_sha (library)), ==, 64);
  g_assert_null (pin_library_procedure (library, "gear-mess", &error));
  g_assert_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_UNKNOWN);
  g_assert_cmpstr (error->message, ==, "“gear-mess” is no procedure known here, write “gear-mesh”");
  g_assert_cmpuint (pin_library_troubles (library)->len, ==, 0);
}

static void
test_own_replaces (void)
{
  g_autofree char *dir = own_folder ();
  g_autofree char *text = procedure ("gear-mesh", "My mesh", "<step id='set' settles='mesh'><do>Mine.</do></step>");
  g_autofree char *kinds = g_strdup ("<kinds xmlns='urn:hingepin:kinds:1'>"
                                     "<tool id='gloves'><title>my gloves</title></tool></kinds>");
  g_autoptr (PinLibrary) library = NULL;

  put (dir, "procedures/any-name.xml", text);
  put (dir, "kinds/mine.xml", kinds);
  library = fixture_library (dir);
  g_assert_cmpstr (pin_library_procedure (library, "gear-mesh", NULL)->title, ==, "My mesh");
  g_assert_cmpstr (pin_library_tool (library, "gloves")->title, ==, "my gloves");
  g_assert_nonnull (pin_library_procedure (library, "after-wet", NULL));
}

static void
assert_shipped_stays (const char *text, const char *says)
{
  g_autofree char *dir = own_folder ();
  g_autoptr (PinLibrary) library = NULL;
  const PinTrouble *trouble;

  put (dir, "procedures/mine.xml", text);
  library = fixture_library (dir);
  g_assert_cmpstr (pin_library_procedure (library, "gear-mesh", NULL)->title, ==, "Gear mesh");
  g_assert_cmpuint (pin_library_troubles (library)->len, >=, 1);
  trouble = pin_library_troubles (library)->pdata[0];
  g_assert_true (g_str_has_suffix (trouble->file, "mine.xml"));
  g_test_message ("%s", trouble->message);
  g_assert_nonnull (strstr (trouble->message, says));
}

static void
test_broken_own (void)
{
  g_autofree char *unknown = procedure ("gear-mesh", "T",
                                        "<step id='a'><do>x</do><deeds><deed id='oild'/></deeds></step>");
  g_autofree char *grammar = procedure ("gear-mesh", "T", "<stp/>");

  assert_shipped_stays ("<procedure", "cut short");
  assert_shipped_stays (grammar, "write <step>");
  assert_shipped_stays (unknown, "write “oiled”");
}

static void
test_two_of_one_id (void)
{
  g_autofree char *dir = own_folder ();
  g_autofree char *one = procedure ("twin", "One", "<step id='a'><do>x</do></step>");
  g_autofree char *two = procedure ("twin", "Two", "<step id='a'><do>x</do></step>");
  g_autoptr (PinLibrary) library = NULL;
  const PinTrouble *trouble;

  put (dir, "procedures/1.xml", one);
  put (dir, "procedures/2.xml", two);
  library = fixture_library (dir);
  g_assert_cmpstr (pin_library_procedure (library, "twin", NULL)->title, ==, "One");
  trouble = pin_library_troubles (library)->pdata[0];
  g_assert_nonnull (strstr (trouble->message, "2.xml:1: “twin” is also the id of 1.xml"));
}

static void
test_no_kinds (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (pin_library_new ("/nowhere/at/all", NULL, &error));
  g_assert_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_READ);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shelf/words", test_words);
  g_test_add_func ("/shelf/own-replaces", test_own_replaces);
  g_test_add_func ("/shelf/broken-own", test_broken_own);
  g_test_add_func ("/shelf/two-of-one-id", test_two_of_one_id);
  g_test_add_func ("/shelf/no-kinds", test_no_kinds);
  return g_test_run ();
}
