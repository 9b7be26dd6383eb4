#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/fluids.h"
#include "reckoner/labels.h"

static const char *const rules[] = { "log", "walther", NULL };

static const PinInput inputs[] = {
  { .id = "first", .title = N_("First fluid"), .unit = "cSt", .least = 2, .most = 2e6, .preset = "" },
  PIN_LABEL_INPUTS,
  { .id = "second", .title = N_("Second fluid"), .unit = "cSt", .least = 2, .most = 2e6 },
  { .id = "target", .title = N_("Wanted"), .unit = "cSt", .least = 2, .most = 2e6, .preset = "" },
  { .id = "share", .title = N_("Share of the second"), .unit = "%", .least = 0, .most = 100, .preset = "50 %",
    .hint = N_("By volume; not used with a wanted viscosity") },
  { .id = "amount", .title = N_("Amount of the mixture"), .unit = "ml", .least = 0.5, .most = 1000, .preset = "" },
  { .id = "rule", .title = N_("Rule"), .kind = PIN_INPUT_CHOICE, .choices = rules, .preset = "log" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "viscosity", .title = N_("The mixture"), .unit = "cSt", .decimals = 0 },
  { .id = "share-of-second", .title = N_("Share of the second"), .unit = "%", .decimals = 1 },
  { .id = "other-rule", .title = N_("The mixture by the other rule"), .unit = "cSt", .decimals = 0 },
  { .id = "first-amount", .title = N_("Of the first"), .unit = "ml", .decimals = 1 },
  { .id = "second-amount", .title = N_("Of the second"), .unit = "ml", .decimals = 1 },
  { 0 },
};

static const char *const formulas[] = {
  N_("log: log mixture = (1 − share) × log first + share × log second"),
  N_("walther: the same with log log (cSt + 0.7) in place of log"),
  NULL,
};

static void
add_line (PinChart *chart, PinBlendRule rule, const char *title, gboolean accent, double first, double second)
{
  PinSeries *series = pin_chart_add_series (chart, title, PIN_SERIES_LINE, accent);

  for (int i = 0; i <= 20; i++)
    {
      double viscosity;

      if (pin_fluid_blend (rule, first, second, i / 20.0, &viscosity) == PIN_MATHS_OK)
        pin_series_add (series, 5 * i, viscosity * 1e6);
    }
}

static void
draw (PinReckoning *self, PinBlendRule rule, double first, double second, double share, double viscosity)
{
  PinChart *chart = pin_chart_new (_("Mixture"), _("share of the second, %"), _("cSt"));

  add_line (chart, PIN_BLEND_LOG, _("log"), rule == PIN_BLEND_LOG, first, second);
  add_line (chart, PIN_BLEND_WALTHER, _("walther"), rule == PIN_BLEND_WALTHER, first, second);
  pin_chart_add_mark (chart, _("mixture"), share * 100, viscosity * 1e6, TRUE);
  pin_result_chart (self, chart);
}

static void
tell (PinReckoning *self, PinBlendRule rule, double first, double second, double share, double mixed)
{
  double amount = pin_value (self, "amount");

  pin_figures (self, rule == PIN_BLEND_LOG ? 0 : 1, "%s, %s, %s: %s", pin_say (self, 1 - share, "%", 1),
               pin_say (self, first, "cSt", 0), pin_say (self, second, "cSt", 0), pin_say (self, mixed, "cSt", 0));
  if (!isnan (amount))
    {
      pin_result_value (self, "first-amount", amount * (1 - share));
      pin_result_value (self, "second-amount", amount * share);
    }
  pin_answer (self, _("%s of the first and %s of the second, by volume, make about %s."),
              pin_say (self, 1 - share, "%", 0), pin_say (self, share, "%", 0), pin_say (self, mixed, "cSt", 0));
}

static void
work (PinReckoning *self)
{
  PinBlendRule rule = g_str_equal (pin_choice (self, "rule"), "log") ? PIN_BLEND_LOG : PIN_BLEND_WALTHER;
  double second = pin_value (self, "second"), share = pin_value (self, "share"), first, mixed, other;

  if (!pin_labelled_viscosity (self, "first", &first))
    return;
  if (pin_given (self, "target")
      && !pin_ok (self, pin_fluid_blend_share (rule, first, second, pin_value (self, "target"), &share),
                  _("the share for the wanted viscosity")))
    return;
  if (!pin_ok (self, pin_fluid_blend (rule, first, second, share, &mixed), _("the mixture"))
      || !pin_ok (self, pin_fluid_blend (rule == PIN_BLEND_LOG ? PIN_BLEND_WALTHER : PIN_BLEND_LOG, first, second,
                                         share, &other), _("the mixture")))
    return;
  pin_result_value (self, "viscosity", mixed);
  pin_result_value (self, "share-of-second", share);
  pin_result_value (self, "other-rule", other);
  if (fabs (other / mixed - 1) > 0.05)
    pin_warn (self, _("The two rules differ by %s: fluids closer to each other are safer to mix."),
              pin_say (self, fabs (other / mixed - 1), "%", 0));
  draw (self, rule, first, second, share, mixed);
  tell (self, rule, first, second, share, mixed);
}

const PinSum pin_sum_blend = {
  .id = "blend",
  .title = N_("Fluid blend"),
  .group = N_("Fluids and shocks"),
  .about = N_("How thick two fluids are together, or how much of each makes what is wanted."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Walther's scale: ASTM D7152, published for petroleum. The plain logarithm is common practice for "
               "silicone."),
  .validity = N_("An estimate for silicone, for two fluids of one kind and told at one temperature. Never mix "
                 "silicone with mineral oil. Let it stand until it is clear of bubbles."),
  .work = work,
};
