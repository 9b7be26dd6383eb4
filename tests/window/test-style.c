#include <gtk/gtk.h>

#include "sheet/palette.h"

/* The style sheet parses, and every colour that it names is one of the palette's:
 * GTK says nothing of a name that is not defined. */

static char *
read_sheet (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "data", "css", "app.css", NULL);
  char *text = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static void
on_error (GtkCssProvider *provider, GtkCssSection *section, const GError *error, int *n)
{
  g_autofree char *where = gtk_css_section_to_string (section);

  g_test_message ("%s: %s", where, error->message);
  (*n)++;
}

static int
errors_of (const char *css)
{
  g_autoptr (GtkCssProvider) provider = gtk_css_provider_new ();
  int n = 0;

  g_signal_connect (provider, "parsing-error", G_CALLBACK (on_error), &n);
  gtk_css_provider_load_from_data (provider, css, -1);
  return n;
}

static void
test_parses (void)
{
  g_autofree char *sheet = read_sheet ();

  g_assert_cmpint (errors_of (sheet), ==, 0);
  g_assert_cmpint (errors_of (".x { width: 3px; }"), ==, 1);
}

static void
test_palettes_parse (void)
{
  g_autofree char *light = pin_palette_css (pin_palette_light ());
  g_autofree char *dark = pin_palette_css (pin_palette_dark ());

  g_assert_cmpint (errors_of (light), ==, 0);
  g_assert_cmpint (errors_of (dark), ==, 0);
  g_assert_cmpstr (light, !=, dark);
}

static gboolean
is_defined (const char *name)
{
  for (guint i = 0; i < pin_palette_size (); i++)
    if (g_strcmp0 (pin_palette_name (i), name) == 0)
      return TRUE;
  return FALSE;
}

static void
test_names (void)
{
  g_autofree char *sheet = read_sheet ();
  g_autoptr (GRegex) regex = g_regex_new ("@([a-z_]+)\\b", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  guint n = 0;

  for (g_regex_match (regex, sheet, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL))
    {
      g_autofree char *name = g_match_info_fetch (match, 1);

      if (!g_str_has_prefix (name, "pin_") || !is_defined (name + strlen ("pin_")))
        g_error ("app.css names @%s, which the palette lacks", name);
      n++;
    }
  g_assert_cmpuint (n, >, 50);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/style/parses", test_parses);
  g_test_add_func ("/window/style/palettes-parse", test_palettes_parse);
  g_test_add_func ("/window/style/names", test_names);
  return g_test_run ();
}
