#include <string.h>

#include "sheet/palette.h"

/* Text is told from its ground at 4.5:1 or more: Web Content Accessibility
 * Guidelines 2.1, success criterion 1.4.3. */
#define ENOUGH 4.5

static void
assert_told_apart (const char *theme, const char *what, const PinInk *text, const PinInk *ground)
{
  double contrast = pin_ink_contrast (text, ground);

  if (contrast < ENOUGH)
    g_error ("%s: %s has a contrast of %.2f only", theme, what, contrast);
}

static void
check_theme (const char *theme, const PinPalette *p)
{
  const struct
  {
    const char *name;
    const PinInk *ink;
  } texts[] = {
    { "ink", &p->ink },
    { "pencil", &p->pencil },
    { "accent", &p->accent },
    { "pass edge", &p->pass_edge },
    { "watch edge", &p->watch_edge },
    { "fail edge", &p->fail_edge },
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      assert_told_apart (theme, texts[i].name, texts[i].ink, &p->paper);
      assert_told_apart (theme, texts[i].name, texts[i].ink, &p->raised);
      assert_told_apart (theme, texts[i].name, texts[i].ink, &p->button);
    }
  assert_told_apart (theme, "ink on chosen", &p->ink, &p->chosen);
  assert_told_apart (theme, "pencil on chosen", &p->pencil, &p->chosen);
  assert_told_apart (theme, "text on accent", &p->on_accent, &p->accent);
  assert_told_apart (theme, "text on warning", &p->on_warning, &p->warning);
  assert_told_apart (theme, "text on danger", &p->on_danger, &p->danger);
  assert_told_apart (theme, "text on caution", &p->on_caution, &p->caution);
}

static void
test_contrast (void)
{
  check_theme ("light", pin_palette_light ());
  check_theme ("dark", pin_palette_dark ());
  check_theme ("print", pin_palette_print ());
}

/* Known values: black on white is 21, a colour on itself 1, and #767676 is the
 * lightest grey that still reaches 4.5 on white. */
static void
test_formula (void)
{
  const PinInk white = { 1, 1, 1 }, black = { 0, 0, 0 };
  const PinInk grey = { 0x76 / 255.0, 0x76 / 255.0, 0x76 / 255.0 };
  const PinInk lighter = { 0x77 / 255.0, 0x77 / 255.0, 0x77 / 255.0 };

  g_assert_cmpfloat_with_epsilon (pin_ink_contrast (&black, &white), 21, 1e-9);
  g_assert_cmpfloat_with_epsilon (pin_ink_contrast (&white, &black), 21, 1e-9);
  g_assert_cmpfloat_with_epsilon (pin_ink_contrast (&grey, &grey), 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (pin_ink_contrast (&grey, &white), 4.54, 0.005);
  g_assert_cmpfloat (pin_ink_contrast (&lighter, &white), <, ENOUGH);
}

/* The style sheet names every colour once, with the value that drawings use. */
static void
test_css (void)
{
  g_autofree char *css = pin_palette_css (pin_palette_light ());
  g_auto (GStrv) lines = g_strsplit (css, "\n", -1);

  g_assert_cmpuint (g_strv_length (lines), ==, pin_palette_size () + 1);
  for (guint i = 0; i < pin_palette_size (); i++)
    {
      const PinInk *ink = pin_palette_nth (pin_palette_light (), i);
      g_auto (GStrv) words = g_strsplit (lines[i], " ", -1);
      guint64 value;

      g_assert_cmpuint (g_strv_length (words), ==, 3);
      g_assert_cmpstr (words[0], ==, "@define-color");
      g_assert_true (g_str_has_prefix (words[1], "pin_"));
      g_assert_cmpstr (words[1] + 4, ==, pin_palette_name (i));
      g_assert_cmpuint (strlen (words[2]), ==, strlen ("#rrggbb;"));
      value = g_ascii_strtoull (words[2] + 1, NULL, 16);
      g_assert_cmpfloat_with_epsilon ((value >> 16) / 255.0, ink->r, 1e-9);
      g_assert_cmpfloat_with_epsilon (((value >> 8) & 0xff) / 255.0, ink->g, 1e-9);
      g_assert_cmpfloat_with_epsilon ((value & 0xff) / 255.0, ink->b, 1e-9);
    }
  g_assert_nonnull (strstr (css, "@define-color pin_accent #1b5e8c;\n"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/palette/formula", test_formula);
  g_test_add_func ("/palette/contrast", test_contrast);
  g_test_add_func ("/palette/css", test_css);
  return g_test_run ();
}
