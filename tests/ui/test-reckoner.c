/* The page of the sums: filled in from a car, worked out as one types, kept on it. */
#include <string.h>

#include "ui/shed.h"

static void
open_reckoner (PinShed *shed)
{
  pin_shed_open (shed);
  pin_ui_activate (shed->ui, "page", g_variant_new_string ("reckoner"));
  pin_ui_inside (shed->ui, 0, "reckoner");
}

/* Pairs of input and text; NULL-terminated. */
static void
put_in (PinShed *shed, const char *const *pairs)
{
  for (int i = 0; pairs[i] != NULL; i += 2)
    pin_ui_set_text (shed->ui, ATSPI_ROLE_TEXT, pairs[i], pairs[i + 1]);
}

typedef struct
{
  const char *name, *title;
  const char *inputs[20];
  const char *results[8];     /* patterns of what has to be read */
} Sum;

static const Sum sums[] = {
  { "gearing", "Gearing",
    { "Pinion", "21", "Spur", "81", "Gearbox ratio", "2.5", "Tyre diameter", "3.3 in" },
    { "The car rolls 27.3 mm *", "Final drive: 9.64", "Rollout: 27.3 mm" } },
  { "heat", "Heat", { "Temperature", "71", "Air", "20" },
    { "71 °C is watch for this part*", "As in air of 25 °C: 76 °C" } },
  { "end-points", "End points", { "End point left", "95", "End point right", "110" },
    { "95 % and 110 %: the throw is well used.", "Servo's throw left: 42.8°" } },
  { "blend", "Fluid blend", { "First fluid", "500", "Second fluid", "1000", "Share of the second", "25" },
    { "*make about 595 cSt.", "The mixture: 595 cSt" } },
};

static void
test_sum (gconstpointer data)
{
  const Sum *sum = data;
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  open_reckoner (shed);
  pin_ui_select (shed->ui, 0, "sums", sum->title);
  pin_ui_wait (shed->ui, ATSPI_ROLE_HEADING, sum->title);
  put_in (shed, sum->inputs);
  for (int i = 0; sum->results[i] != NULL; i++)
    pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, sum->results[i]);
  pin_ui_all_named (shed->ui);
  pin_shed_close (shed);
}

/* What is wrong is said at once, and what is right comes back. */
static void
test_wrong (void)
{
  static const char *const right[] = { "Pinion", "21", "Spur", "81", "Tyre diameter", "84", NULL };
  static const char *const wrong[] = { "Tyre diameter", "84 C", NULL };
  static const char *const mended[] = { "Tyre diameter", "84", NULL };
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  open_reckoner (shed);
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "Still to be put in: Pinion, Spur, Tyre diameter.");
  put_in (shed, right);
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "The car rolls *");
  put_in (shed, wrong);
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "Tyre diameter: *a length is wanted*");
  put_in (shed, mended);
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "The car rolls *");
  pin_shed_close (shed);
}

/* The set-up of the car goes in; another pinion goes back onto it. */
static void
test_keep (void)
{
  static const char *const other[] = { "Pinion", "20", NULL };
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  g_autofree char *setup = NULL;

  open_reckoner (shed);
  pin_ui_choose (shed->ui, ATSPI_ROLE_COMBO_BOX, "Filled in from", "Mule");
  pin_ui_wait_text (shed->ui, ATSPI_ROLE_TEXT, "Spur", "78");
  put_in (shed, other);
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "pinion, teeth: 20 (was 22)");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Keep on the vehicle");
  pin_ui_wait_gone (shed->ui, ATSPI_ROLE_LABEL, "pinion, teeth: 20 (was 22)");
  pin_ui_inside (shed->ui, 0, NULL);
  pin_ui_wait (shed->ui, ATSPI_ROLE_ALERT, "Kept: pinion, teeth: 20*");
  pin_shed_close (shed);
  setup = pin_shed_verb (shed, "setup", "Mule", NULL);
  g_assert_true (g_regex_match_simple ("pinion, teeth +20 +owner", setup, 0, 0));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (sums); i++)
    {
      g_autofree char *path = g_strconcat ("/reckoner/sum/", sums[i].name, NULL);

      g_test_add_data_func (path, &sums[i], test_sum);
    }
  g_test_add_func ("/reckoner/wrong", test_wrong);
  g_test_add_func ("/reckoner/keep", test_keep);
  return g_test_run ();
}
