#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>
#include <stdlib.h>

#include "maths/bearings.h"
#include "reckoner/turning.h"

static const char *const reliabilities[] = { "90", "95", "96", "97", "98", "99", NULL };

static const PinInput inputs[] = {
  { .id = "rating", .title = N_("Dynamic load rating"), .unit = "N", .least = 10, .most = 200000,
    .hint = N_("C in the catalogue") },
  { .id = "load", .title = N_("Load"), .unit = "N", .least = 0.1, .most = 50000,
    .hint = N_("Of this bearing, driving: two to three times its share of the car's weight") },
  { .id = "reliability", .title = N_("Reliability, %"), .kind = PIN_INPUT_CHOICE, .choices = reliabilities,
    .preset = "90" },
  PIN_TURNING_INPUTS,
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "basic-life", .title = N_("Basic rating life, million turns"), .unit = "1", .decimals = 1 },
  { .id = "life", .title = N_("At this reliability, million turns"), .unit = "1", .decimals = 1 },
  { .id = "hours", .title = N_("Hours"), .unit = "h", .decimals = 0 },
  { .id = "turning", .title = N_("Speed of turning"), .unit = "rpm", .decimals = 0 },
  { 0 },
};

static const char *const formulas[] = {
  N_("basic rating life = (rating ÷ load)³ million turns"),
  N_("life = basic rating life × factor of the reliability"),
  N_("hours = life ÷ speed of turning"),
  NULL,
};

static void
draw (PinReckoning *self, double rating, double load, double factor)
{
  PinChart *chart = pin_chart_new (_("Life over load"), _("load, N"), _("life, million turns"));
  PinSeries *line = pin_chart_add_series (chart, "", PIN_SERIES_LINE, TRUE);

  for (int i = 10; i <= 40; i++)
    pin_series_add (line, load * i / 20, factor * pow (rating / (load * i / 20), 3));
  pin_chart_add_mark (chart, _("this load"), load, factor * pow (rating / load, 3), TRUE);
  pin_result_chart (self, chart);
}

static void
work (PinReckoning *self)
{
  double rating = pin_value (self, "rating"), load = pin_value (self, "load"), turns, factor;
  double speed = pin_turning_speed (self);

  if (!pin_ok (self, pin_bearing_life (rating, load, &turns), _("the life"))
      || !pin_ok (self, pin_bearing_reliability (atoi (pin_choice (self, "reliability")), &factor), _("the life")))
    return;
  pin_result_value (self, "basic-life", turns / 1e6);
  pin_result_value (self, "life", turns * factor / 1e6);
  pin_figures (self, 0, "(%s ÷ %s)³ = %.4g", pin_say (self, rating, "N", 0), pin_say (self, load, "N", 1),
               turns / 1e6);
  pin_figures (self, 1, "%.4g × %.2f = %.4g", turns / 1e6, factor, turns * factor / 1e6);
  pin_answer (self, _("%s in a hundred like it are rated for %.4g million turns."), pin_choice (self, "reliability"),
              turns * factor / 1e6);
  if (!isnan (speed))
    {
      double hours = turns * factor / speed;

      pin_result_value (self, "turning", speed);
      pin_result_value (self, "hours", hours);
      pin_figures (self, 2, "%.4g × 10⁶ ÷ %s = %s", turns * factor / 1e6, pin_say (self, speed, "rpm", 0),
                   pin_say (self, hours, "h", 0));
    }
  if (load > rating / 2)
    pin_warn (self, _("The formula does not hold for a load above half of the rating."));
  pin_warn (self, _("In a car dirt and water end a bearing long before this: feel it and clean it by the plan."));
  draw (self, rating, load, factor);
}

const PinSum pin_sum_bearing_life = {
  .id = "bearing-life",
  .title = N_("Bearing life"),
  .group = N_("Bearings"),
  .about = N_("Rated life of a ball bearing under a load."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("ISO 281. The factors of reliability are those of 2007, from memory: 0.64, 0.55, 0.47, 0.37 and 0.25 "
               "for 95 to 99 %."),
  .validity = N_("Fatigue of clean, greased, unworn ball bearings in a true housing; loads up to half of the rating."),
  .work = work,
};
