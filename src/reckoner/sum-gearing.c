#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/gearing.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "pinion", .title = N_("Pinion"), .unit = "teeth", .least = 6, .most = 80, .whole = TRUE,
    .hint = N_("On the motor") },
  { .id = "spur", .title = N_("Spur"), .unit = "teeth", .least = 20, .most = 200, .whole = TRUE },
  { .id = "gearbox", .title = N_("Gearbox ratio"), .unit = "1", .least = 0.5, .most = 20, .preset = "1",
    .hint = N_("Turns of the spur for one of the wheel") },
  { .id = "tyre", .title = N_("Tyre diameter"), .unit = "mm", .least = 15, .most = 300,
    .hint = N_("Standing on its wheel, with the car's weight on it") },
  { .id = "kv", .title = N_("Motor speed constant"), .unit = "rpm/V", .least = 50, .most = 30000,
    .preset = "" },
  { .id = "supply", .title = N_("Supply"), .unit = "V", .least = 0.5, .most = 60, .preset = "",
    .hint = N_("Of the pack under load: cells by 3.7 V") },
  { .id = "share", .title = N_("Speed kept under load"), .unit = "%", .least = 30, .most = 100,
    .preset = "87 %" },
  { .id = "rollout-before", .title = N_("Rollout before"), .unit = "mm", .least = 1, .most = 500, .preset = "",
    .hint = N_("Of the set-up that this one is compared with") },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "final-drive", .title = N_("Final drive"), .unit = "1", .decimals = 2 },
  { .id = "rollout", .title = N_("Rollout"), .unit = "mm", .decimals = 1 },
  { .id = "speed", .title = N_("Top speed"), .unit = "km/h", .decimals = 1 },
  { .id = "motor-speed", .title = N_("Motor speed"), .unit = "rpm", .decimals = 0 },
  { .id = "load-change", .title = N_("Load against before"), .unit = "%", .decimals = 1 },
  { 0 },
};

static const char *const formulas[] = {
  N_("final drive = spur ÷ pinion × gearbox ratio"),
  N_("rollout = π × tyre diameter ÷ final drive"),
  N_("top speed = rollout × speed constant × supply × speed kept under load"),
  N_("load against before = rollout ÷ rollout before − 1"),
  NULL,
};

static void
work_speed (PinReckoning *self, double rollout)
{
  double turns, speed;

  if (!pin_given (self, "kv") || !pin_given (self, "supply"))
    return;
  if (!pin_ok (self, pin_gearing_motor_speed (pin_value (self, "kv"), pin_value (self, "supply"),
                                              pin_value (self, "share"), &turns), _("the motor's speed"))
      || !pin_ok (self, pin_gearing_road_speed (rollout, turns, &speed), _("the top speed")))
    return;
  pin_result_value (self, "motor-speed", turns);
  pin_result_value (self, "speed", speed);
  pin_figures (self, 2, "%s × %s × %s × %s = %s", pin_say (self, rollout, "mm", 1),
               pin_say (self, pin_value (self, "kv"), "rpm/V", 0), pin_say (self, pin_value (self, "supply"), "V", 1),
               pin_say (self, pin_value (self, "share"), "%", 0), pin_say (self, speed, "km/h", 1));
}

static void
work_load (PinReckoning *self, double rollout)
{
  double before = pin_value (self, "rollout-before");
  double change = rollout / before - 1;

  if (!pin_given (self, "rollout-before"))
    return;
  pin_result_value (self, "load-change", change);
  pin_figures (self, 3, "%s ÷ %s − 1 = %s", pin_say (self, rollout, "mm", 1), pin_say (self, before, "mm", 1),
               pin_say (self, change, "%", 1));
  if (change > 0.08)
    pin_warn (self, _("Geared up by more than 8 %% in one step: go there in smaller ones, and measure the motor "
                      "after two minutes and after five."));
}

static void
work (PinReckoning *self)
{
  double pinion = pin_value (self, "pinion"), spur = pin_value (self, "spur");
  double gearbox = pin_value (self, "gearbox"), tyre = pin_value (self, "tyre");
  double ratio, rollout;

  if (!pin_ok (self, pin_gearing_final_drive (pinion, spur, gearbox, &ratio), _("the final drive"))
      || !pin_ok (self, pin_gearing_rollout (tyre, ratio, &rollout), _("the rollout")))
    return;
  pin_result_value (self, "final-drive", ratio);
  pin_result_value (self, "rollout", rollout);
  pin_figures (self, 0, "%s ÷ %s × %s = %s", pin_say (self, spur, "1", -1), pin_say (self, pinion, "1", -1),
               pin_say (self, gearbox, "1", -1), pin_say (self, ratio, "1", 2));
  pin_figures (self, 1, "π × %s ÷ %s = %s", pin_say (self, tyre, "mm", 1), pin_say (self, ratio, "1", 2),
               pin_say (self, rollout, "mm", 1));
  pin_answer (self, _("The car rolls %s for each turn of the motor."), pin_say (self, rollout, "mm", 1));
  work_speed (self, rollout);
  work_load (self, rollout);
}

const PinSum pin_sum_gearing = {
  .id = "gearing",
  .title = N_("Gearing"),
  .group = N_("Gearing"),
  .about = N_("Final drive, rollout and top speed of one set of gears and tyres."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Definition of a gear ratio (ISO 1122-1) and the geometry of a rolling wheel. The share of the "
               "speed kept under load, 85 to 90 %, is common practice."),
  .validity = N_("Without slip; rubber tyres grow at speed and are smaller under weight. The speed is an estimate, "
                 "the rollout is not."),
  .work = work,
};
