#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>
#include <stdlib.h>

#include "maths/coasting.h"
#include "maths/drag.h"
#include "reckoner/work.h"

static const char *const forms[] = { "A+Cv2", "A+Bv+Cv2", NULL };

#define SPEEDS .kind = PIN_INPUT_PAIRS, .unit = "s", .least = 0, .most = 600, .second = "m/s", .second_least = 0.05, \
               .second_most = 80, .fewest = 4, .at_most = 100, .preset = ""
#define WAYS .kind = PIN_INPUT_PAIRS, .unit = "s", .least = 0, .most = 600, .second = "m", .second_least = 0, \
             .second_most = 5000, .fewest = 5, .at_most = 100, .preset = ""

static const PinInput inputs[] = {
  { .id = "speeds", .title = N_("Speeds at times"), SPEEDS, .hint = N_("0 s:15 m/s, 1 s:13.8 m/s and so on") },
  { .id = "speeds-back", .title = N_("The same, the other way"), SPEEDS },
  { .id = "distances", .title = N_("Ways at times"), WAYS, .hint = N_("In place of speeds: 0 s:0 m, 1.2 s:5 m") },
  { .id = "distances-back", .title = N_("The same, the other way"), WAYS },
  { .id = "mass", .title = N_("Mass, ready to run"), .unit = "g", .least = 20, .most = 50000 },
  { .id = "rotating", .title = N_("Rotating share of the mass"), .unit = "%", .least = 0, .most = 50,
    .preset = "4 %" },
  { .id = "form", .title = N_("Form of the road load"), .kind = PIN_INPUT_CHOICE, .choices = forms,
    .preset = "A+Cv2" },
  { .id = "density", .title = N_("Density of the air"), .unit = "kg/m3", .least = 0.6, .most = 1.6,
    .preset = "1.204 kg/m3", .hint = N_("1.204 at 20 °C and sea level") },
  { 0 },
};

static const PinColumn force_columns[] = {
  { "speed", N_("Speed, m/s"), "m/s", 2 },
  { "force", N_("Force, N"), "N", 3 },
  { "fitted", N_("Fitted, N"), "N", 3 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "constant", .title = N_("A, at any speed"), .unit = "N", .decimals = 3 },
  { .id = "linear", .title = N_("B, by the speed"), .unit = "N.s/m", .decimals = 4 },
  { .id = "square", .title = N_("C, by its square"), .unit = "N.s2/m2", .decimals = 5 },
  { .id = "rolling", .title = N_("Rolling resistance coefficient"), .unit = "1", .decimals = 4 },
  { .id = "drag-area", .title = N_("Drag area"), .unit = "cm2", .decimals = 1 },
  { .id = "fast-force", .title = N_("Road load at the greatest speed"), .unit = "N", .decimals = 2 },
  { .id = "fast-power", .title = N_("Power for the greatest speed"), .unit = "W", .decimals = 1 },
  { .id = "forces", .title = N_("Forces between readings"), .kind = PIN_OUTPUT_TABLE, .columns = force_columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("mass × (1 + rotating share) × dv/dt = −(A + B v + C v²)"),
  N_("force between readings = mass × (1 + rotating share) × loss of speed ÷ time"),
  N_("rolling resistance coefficient = A ÷ (mass × g)"),
  N_("drag area = 2 × C ÷ density of the air"),
  NULL,
};

typedef struct
{
  double time, value;
} Reading;

static int
by_time (gconstpointer a, gconstpointer b)
{
  const Reading *first = a, *second = b;

  return (first->time > second->time) - (first->time < second->time);
}

/* Reading, in the order of time, whatever they were typed in. */
static GArray *
readings (const PinReckoning *self, const char *id)
{
  const GArray *times = pin_list (self, id), *values = pin_list_second (self, id);
  GArray *sorted = g_array_new (FALSE, FALSE, sizeof (Reading));

  for (guint i = 0; i < times->len; i++)
    {
      Reading it = { g_array_index (times, double, i), g_array_index (values, double, i) };

      g_array_append_val (sorted, it);
    }
  g_array_sort (sorted, by_time);
  return sorted;
}

static gboolean
fit (PinReckoning *self, const char *id, gboolean distances, PinCoast *coast)
{
  g_autoptr (GArray) sorted = readings (self, id);
  g_autofree double *times = g_new (double, sorted->len);
  g_autofree double *values = g_new (double, sorted->len);
  gboolean linear = g_str_equal (pin_choice (self, "form"), "A+Bv+Cv2");
  PinCoastForm form = { .distances = distances, .linear = linear, .square = TRUE, .signed_linear = TRUE };
  PinMathsStatus status;

  for (guint i = 0; i < sorted->len; i++)
    {
      times[i] = g_array_index (sorted, Reading, i).time;
      values[i] = g_array_index (sorted, Reading, i).value;
    }
  status = pin_coast_fit (times, values, sorted->len, form, coast);
  if (status == PIN_MATHS_RANGE)
    pin_refuse (self, _("“%s” needs times that differ, and ways that grow with them"), id);
  else if (status == PIN_MATHS_DEGENERATE)
    pin_refuse (self, _("the readings of “%s” show no slowing that can be fitted"), id);
  else
    pin_ok (self, status, _("the road load"));
  return status == PIN_MATHS_OK;
}

/* The mean of both ways, by force: a slope and a steady wind along it drop out. */
static void
average (PinCoast *coast, const PinCoast *back)
{
  for (int i = 0; i < PIN_COAST_TERMS; i++)
    {
      if (i != PIN_COAST_START)
        coast->value[i] = (coast->value[i] + back->value[i]) / 2;
      coast->fitted[i] = coast->fitted[i] || back->fitted[i];
      for (int j = 0; j < PIN_COAST_TERMS; j++)
        coast->covariance[i][j] = (coast->covariance[i][j] + back->covariance[i][j]) / 4;
    }
}

static void
tell_term (PinReckoning *self, const char *id, const PinCoast *coast, int term, double mass)
{
  double error = coast->fitted[term] ? mass * sqrt (coast->covariance[term][term]) : NAN;

  pin_result_estimate (self, id, mass * coast->value[term], error);
}

static void
tell_shares (PinReckoning *self, const PinCoast *coast, double mass)
{
  double still = pin_value (self, "mass"), density = pin_value (self, "density");
  double constant = mass * coast->value[PIN_COAST_A], square = mass * coast->value[PIN_COAST_C];
  double rolling = 0, area = 0;

  if (!pin_ok (self, pin_drag_rolling (constant, still, &rolling), _("the rolling resistance"))
      || !pin_ok (self, pin_drag_air (square, density, &area), _("the drag area")))
    return;
  tell_term (self, "constant", coast, PIN_COAST_A, mass);
  if (g_str_equal (pin_choice (self, "form"), "A+Bv+Cv2"))
    tell_term (self, "linear", coast, PIN_COAST_B, mass);
  tell_term (self, "square", coast, PIN_COAST_C, mass);
  pin_result_value (self, "rolling", rolling);
  pin_result_value (self, "drag-area", area);
  pin_figures (self, 0, "%s × (1 + %s): %s, %s, %s", pin_say (self, still, "g", 0),
               pin_say (self, pin_value (self, "rotating"), "%", 0), pin_say (self, constant, "N", 3),
               pin_say (self, mass * coast->value[PIN_COAST_B], "N.s/m", 4), pin_say (self, square, "N.s2/m2", 5));
  pin_figures (self, 2, "%s ÷ (%s × 9.807) = %s", pin_say (self, constant, "N", 3), pin_say (self, still, "g", 0),
               pin_say (self, rolling, "1", 4));
  pin_figures (self, 3, "2 × %s ÷ %s = %s", pin_say (self, square, "N.s2/m2", 5),
               pin_say (self, density, "kg/m3", 3), pin_say (self, area, "cm2", 1));
  pin_answer (self, _("Rolling takes %s of the weight, and the drag area is %s."), pin_say (self, rolling, "%", 2),
              pin_say (self, area, "cm2", 0));
}

static void
tell_interval (PinReckoning *self, const PinCoast *coast, double mass, Reading first, Reading second, PinSeries *points)
{
  double middle = (first.value + second.value) / 2, force, fitted, error;

  if (pin_drag_interval (mass, first.value - second.value, second.time - first.time, &force) != PIN_MATHS_OK
      || pin_coast_slowing (coast, middle, &fitted, &error) != PIN_MATHS_OK)
    return;
  pin_result_row (self, "forces", middle, force, mass * fitted);
  pin_series_add (points, middle, force);
  pin_figures (self, 1, "%s × %s ÷ %s = %s", pin_say (self, mass, "g", 0),
               pin_say (self, first.value - second.value, "m/s", 2), pin_say (self, second.time - first.time, "s", 3),
               pin_say (self, force, "N", 3));
}

/* Readings of speed as forces; of distances, the fit alone. */
static void
tell_forces (PinReckoning *self, const PinCoast *coast, double mass, double fastest)
{
  g_autoptr (GArray) sorted = readings (self, "speeds");
  PinChart *chart = pin_chart_new (_("Road load"), _("speed, m/s"), _("force, N"));
  PinSeries *points = pin_chart_add_series (chart, _("between readings"), PIN_SERIES_POINTS, FALSE);
  PinSeries *line = pin_chart_add_series (chart, _("fit"), PIN_SERIES_LINE, TRUE);

  for (guint i = 1; i < sorted->len; i++)
    tell_interval (self, coast, mass, g_array_index (sorted, Reading, i - 1), g_array_index (sorted, Reading, i),
                   points);
  for (int i = 0; i <= 40; i++)
    {
      double slowing, error;

      if (pin_coast_slowing (coast, fastest * i / 40, &slowing, &error) == PIN_MATHS_OK)
        pin_series_add (line, fastest * i / 40, mass * slowing);
    }
  pin_result_chart (self, chart);
}

static gboolean
fit_all (PinReckoning *self, PinCoast *coast)
{
  gboolean distances = !pin_given (self, "speeds");
  const char *back_id = distances ? "distances-back" : "speeds-back";
  PinCoast back;

  if (distances && !pin_given (self, "distances"))
    {
      pin_refuse (self, _("give “speeds” or “distances”"));
      return FALSE;
    }
  if (!fit (self, distances ? "distances" : "speeds", distances, coast))
    return FALSE;
  if (!pin_given (self, back_id))
    {
      pin_warn (self, _("One way only: a slope of 0.1 %% or a breath of wind counts as drag. Run it both ways."));
      return TRUE;
    }
  if (!fit (self, back_id, distances, &back))
    return FALSE;
  average (coast, &back);
  return TRUE;
}

static void
work (PinReckoning *self)
{
  double mass = pin_value (self, "mass") * (1 + pin_value (self, "rotating"));
  PinCoast coast;
  double fastest, slowing, error;

  if (!fit_all (self, &coast))
    return;
  fastest = coast.value[PIN_COAST_START];
  tell_shares (self, &coast, mass);
  if (pin_coast_slowing (&coast, fastest, &slowing, &error) == PIN_MATHS_OK)
    {
      pin_result_estimate (self, "fast-force", mass * slowing, mass * error);
      pin_result_value (self, "fast-power", mass * slowing * fastest);
    }
  tell_forces (self, &coast, mass, fastest);
  if (!coast.fitted[PIN_COAST_A] || !coast.fitted[PIN_COAST_C])
    pin_warn (self, _("The readings cannot tell rolling from air: one of them comes out as none. Start faster, or "
                      "take more readings."));
}

const PinSum pin_sum_coast_down = {
  .id = "coast-down",
  .title = N_("Coast-down"),
  .group = N_("Drag"),
  .about = N_("Road load from a coast-down: rolling resistance and drag area."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Equation of motion with the road load in the form A + B v + C v² that road tests of cars use, fitted "
               "by Levenberg and Marquardt's least squares; ways and back are averaged by force. That what rotates "
               "counts as 3 to 5 % of the mass is common practice."),
  .validity = N_("Straight, level, no wind, motor out or its drag included. B is left out unless asked for: few "
                 "readings cannot tell three terms apart."),
  .hazard = N_("Warning: a car at speed injures; a closed course, nobody in its line, and somebody watching."),
  .work = work,
};
