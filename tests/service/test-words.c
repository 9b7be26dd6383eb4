#include <math.h>

#include "base/day.h"
#include "garage.h"
#include "service/finding-text.h"
#include "service/setup.h"
#include "service/usage.h"

#define ASSERT_TEXT(made, expected) do {      \
    g_autofree char *text = (made);           \
    g_assert_cmpstr (text, ==, expected);     \
  } while (0)

static void
test_usage (void)
{
  PinUsage known = { 148680, 60, 58, 34.2, 0, 0, 0 };
  PinUsage unknown = { 44640, 31, 1, 2.0, NAN, NAN, NAN };
  PinUsage told = { 3600, 1, 2, NAN, 7200, NAN, NAN };

  ASSERT_TEXT (pin_usage_text (&known, TRUE), "41.3 h, 58 outings, 34.2 l");
  ASSERT_TEXT (pin_usage_text (&known, FALSE), "41.3 h, 58 outings");
  ASSERT_TEXT (pin_usage_text (&unknown, TRUE), "12.4 h +, 1 outing, 2.0 l +");
  ASSERT_TEXT (pin_usage_hours (&told), "3.0 h");
  g_assert_cmpstr (pin_usage_since (&known), ==, "since new");
  g_assert_cmpstr (pin_usage_since (&unknown), ==,
                   "since it entered the book; before that not known");
}

static void
test_times (void)
{
  ASSERT_TEXT (pin_minutes_text (0), "0 min");
  ASSERT_TEXT (pin_minutes_text (59.6), "1 h");
  ASSERT_TEXT (pin_minutes_text (110), "1 h 50 min");
  ASSERT_TEXT (pin_hours_text (NAN), "not known");
}

static void
test_findings (void)
{
  g_autoptr (Garage) garage = garage_new ();
  PinFindingRow graded = { .step = (char *) "look/grade",
                           .detail = (char *) "dry",
                           .gravity = PIN_GRAVITY_WATCH };
  PinFindingRow counted = { .step = (char *) "look/screws",
                            .detail = (char *) "3/4",
                            .gravity = PIN_GRAVITY_FAIL };
  PinFindingRow plain = { .step = (char *) "look/horn", .gravity = PIN_GRAVITY_FAIL };
  PinFindingRow measured = { .step = (char *) "look/coast",
                             .detail = (char *) "1.4 s",
                             .gravity = PIN_GRAVITY_WATCH };
  PinFindingRow lost = { .step = (char *) "gone/odd-noise", .gravity = PIN_GRAVITY_WATCH };
  PinFindingRow noted = { .step = (char *) "look/grade",
                          .detail = (char *) "dry",
                          .note = (char *) "only cold",
                          .gravity = PIN_GRAVITY_WATCH };

  ASSERT_TEXT (pin_finding_what (garage->library, &graded), "coasts, hisses");
  ASSERT_TEXT (pin_finding_what (garage->library, &counted), "3 of 4 right");
  ASSERT_TEXT (pin_finding_what (garage->library, &plain), "looks right, fail");
  ASSERT_TEXT (pin_finding_what (garage->library, &measured), "coasting, 1.4 s");
  ASSERT_TEXT (pin_finding_what (garage->library, &lost), "odd noise, watch");
  ASSERT_TEXT (pin_finding_what (garage->library, &noted), "coasts, hisses (only cold)");
}

static void
test_answers (void)
{
  g_autoptr (Garage) garage = garage_new ();
  PinAnswer not_checked = { .outcome = PIN_OUTCOME_NOT_CHECKED, .detail = (char *) "no tool" };
  PinAnswer none = { .outcome = PIN_OUTCOME_NONE };
  PinAnswer graded = { .outcome = PIN_OUTCOME_PASS,
                       .step = (char *) "look/grade",
                       .detail = (char *) "free" };

  ASSERT_TEXT (pin_answer_text (garage->library, &not_checked), "not checked: no tool");
  ASSERT_TEXT (pin_answer_text (garage->library, &none), "not answered");
  ASSERT_TEXT (pin_answer_text (garage->library, &graded), "silent, coasts");
}

static void
test_titles (void)
{
  g_autoptr (Garage) garage = garage_new ();
  PinReading reading = { .quantity = (char *) "coast-time",
                         .value = 2.56,
                         .typed = (char *) "2.56 s" };
  PinTrait fluid = { .code = (char *) "fluid", .value = 0.007, .typed = (char *) "7000" };
  PinTrait size = { .code = (char *) "size", .value = NAN, .text = (char *) "5x10x4" };

  ASSERT_TEXT (pin_owed_title (garage->library, "wheel-nuts"), "tighten the wheel nuts");
  ASSERT_TEXT (pin_owed_title (garage->library, "job:after-wet"), "dry it and oil the bearings");
  ASSERT_TEXT (pin_owed_title (garage->library, "job:unheard-of"), "unheard-of");
  ASSERT_TEXT (pin_procedure_title (garage->library, "look"), "Look it over");
  ASSERT_TEXT (pin_procedure_title (garage->library, "free-roll"), "Free roll");
  ASSERT_TEXT (pin_deed_title (garage->library, "oiled"), "Oiled");
  ASSERT_TEXT (pin_plan_title ("{\"what\":\"look\",\"title\":\"Look it over\"}"), "Look it over");
  ASSERT_TEXT (pin_plan_what ("no plan"), "");
  ASSERT_TEXT (pin_setup_value_text (garage->library, &fluid), "7000 cSt");
  ASSERT_TEXT (pin_setup_value_text (garage->library, &size), "5x10x4");
  ASSERT_TEXT (pin_sentence_case ("über"), "Über");
  ASSERT_TEXT (pin_sentence_case (""), "");
  g_assert_nonnull (pin_library_quantity (garage->library, reading.quantity));
  ASSERT_TEXT (pin_reading_text (garage->library, &reading), "2.6 s");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/usage", test_usage);
  g_test_add_func ("/words/times", test_times);
  g_test_add_func ("/words/findings", test_findings);
  g_test_add_func ("/words/answers", test_answers);
  g_test_add_func ("/words/titles", test_titles);
  return g_test_run ();
}
