#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/gears.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "pinion", .title = N_("Pinion"), .unit = "teeth", .least = 6, .most = 80, .whole = TRUE },
  { .id = "spur", .title = N_("Spur"), .unit = "teeth", .least = 20, .most = 200, .whole = TRUE },
  { .id = "pitch", .title = N_("Pitch"), .unit = "mod", .least = 0.2, .most = 2.5,
    .hint = N_("As on the gear: 48 dp, or 0.6 mod") },
  { .id = "other-pitch", .title = N_("Pitch of the other gear"), .unit = "mod", .least = 0.2, .most = 2.5,
    .preset = "", .hint = N_("Where it may be another") },
  { .id = "angle", .title = N_("Pressure angle"), .unit = "deg", .least = 14, .most = 30, .preset = "20 deg" },
  { .id = "paper", .title = N_("Paper strip"), .unit = "mm", .least = 0.02, .most = 0.5, .preset = "0.1 mm",
    .hint = N_("Thickness; office paper is 0.1 mm") },
  { .id = "rock", .title = N_("Rock at the tooth"), .unit = "mm", .least = 0, .most = 1, .preset = "",
    .hint = N_("Measured, pinion held") },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "module", .title = N_("Module"), .unit = "mod", .decimals = 4 },
  { .id = "diametral-pitch", .title = N_("Diametral pitch"), .unit = "dp", .decimals = 2 },
  { .id = "centre", .title = N_("Shafts apart, without play"), .unit = "mm", .decimals = 3 },
  { .id = "centre-step", .title = N_("Motor moves for each tooth"), .unit = "mm", .decimals = 3 },
  { .id = "tooth-depth", .title = N_("Depth of a tooth"), .unit = "mm", .decimals = 2 },
  { .id = "backlash", .title = N_("Backlash from the paper"), .unit = "mm", .decimals = 3 },
  { .id = "working-angle", .title = N_("Pressure angle that comes of it"), .unit = "deg", .decimals = 2 },
  { .id = "opened", .title = N_("Opened, by the rock"), .unit = "mm", .decimals = 3 },
  { .id = "contact-ratio", .title = N_("Pairs of teeth at work"), .unit = "1", .decimals = 2 },
  { .id = "mixing-share", .title = N_("Other teeth larger by"), .unit = "%", .decimals = 2 },
  { .id = "mixing-step", .title = N_("Other teeth out of step by, each"), .unit = "mm", .decimals = 3 },
  { .id = "pitches-fit", .title = N_("Pitches belong together"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("module = 25.4 mm ÷ diametral pitch"),
  N_("shafts apart = module × (pinion + spur) ÷ 2"),
  N_("backlash = 2 × (shafts apart + paper) × (inv working angle − inv pressure angle)"),
  N_("cos working angle = shafts apart × cos pressure angle ÷ (shafts apart + paper)"),
  N_("out of step = π × (other module − module)"),
  NULL,
};

static void
work_mixing (PinReckoning *self)
{
  double pitch = pin_value (self, "pitch"), other = pin_value (self, "other-pitch"), share, step;

  if (!pin_given (self, "other-pitch"))
    {
      pin_result_gate (self, "pitches-fit", PIN_GATE_UNKNOWN, _("the pitch of one gear only is given"));
      return;
    }
  if (!pin_ok (self, pin_gears_mixing (pitch, other, &share, &step), _("the mixing error")))
    return;
  pin_result_value (self, "mixing-share", share);
  pin_result_value (self, "mixing-step", step);
  pin_figures (self, 4, "π × (%s − %s) = %s", pin_say (self, other, "mm", 4), pin_say (self, pitch, "mm", 4),
               pin_say (self, step, "mm", 3));
  pin_result_gate (self, "pitches-fit", fabs (share) < 1e-6 ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   _("%s against %s, %s apart"), pin_say (self, pitch, "mod", 4), pin_say (self, other, "mod", 4),
                   pin_say (self, fabs (share), "%", 2));
  if (fabs (share) >= 1e-6)
    pin_warn (self, _("Never mix pitches: the teeth miss each other by %s more with each one. They whine, run hot and "
                      "strip, however they are meshed."), pin_say (self, fabs (step), "mm", 3));
}

/* What a mesh is set to, by pitch, from many keepers; nothing is said of larger teeth. */
static void
judge (PinReckoning *self, double play)
{
  double pitch = pin_value (self, "pitch");
  double least = pitch < 0.7e-3 ? 0.05e-3 : 0.10e-3;
  double most = pitch < 0.7e-3 ? 0.10e-3 : 0.20e-3;

  if (pitch > 1.1e-3 || (play >= least - 1e-9 && play <= most + 1e-9))
    return;
  pin_warn (self, _("%s of play is %s for this pitch: %s to %s is usual."), pin_say (self, play, "mm", 2),
            play < least ? _("tight") : _("loose"), pin_say (self, least, "mm", 2), pin_say (self, most, "mm", 2));
}

static void
work_play (PinReckoning *self, double centre)
{
  double paper = pin_value (self, "paper"), angle = pin_value (self, "angle"), backlash, working, opened;

  if (!pin_ok (self, pin_gears_backlash (centre, paper, angle, &backlash), _("the backlash"))
      || !pin_ok (self, pin_gears_working_angle (centre, paper, angle, &working), _("the working angle")))
    return;
  pin_result_value (self, "backlash", backlash);
  pin_result_value (self, "working-angle", working);
  pin_figures (self, 2, "2 × (%s + %s) × (inv %s − inv %s) = %s", pin_say (self, centre, "mm", 3),
               pin_say (self, paper, "mm", 3), pin_say (self, working, "deg", 4), pin_say (self, angle, "deg", 2),
               pin_say (self, backlash, "mm", 3));
  pin_figures (self, 3, "arccos (%s × cos %s ÷ %s) = %s", pin_say (self, centre, "mm", 3),
               pin_say (self, angle, "deg", 2), pin_say (self, centre + paper, "mm", 3),
               pin_say (self, working, "deg", 4));
  pin_answer (self, _("The shafts stand %s apart without play; a paper strip of %s leaves %s of backlash."),
              pin_say (self, centre, "mm", 2), pin_say (self, paper, "mm", 2), pin_say (self, backlash, "mm", 2));
  judge (self, pin_given (self, "rock") ? pin_value (self, "rock") : backlash);
  if (pin_given (self, "rock")
      && pin_ok (self, pin_gears_opened_by (centre, pin_value (self, "rock"), angle, &opened), _("the opening")))
    pin_result_value (self, "opened", opened);
}

static void
work (PinReckoning *self)
{
  double pinion = pin_value (self, "pinion"), spur = pin_value (self, "spur"), pitch = pin_value (self, "pitch");
  double angle = pin_value (self, "angle"), centre, contact;

  if (!pin_ok (self, pin_gears_centre (pitch, pinion, spur, &centre), _("the shafts"))
      || !pin_ok (self, pin_gears_contact_ratio (pinion, spur, angle, &contact), _("the contact")))
    return;
  pin_result_value (self, "module", pitch);
  pin_result_value (self, "diametral-pitch", pitch);
  pin_result_value (self, "centre", centre);
  pin_result_value (self, "centre-step", pitch / 2);
  pin_result_value (self, "tooth-depth", 2.25 * pitch);
  pin_result_value (self, "contact-ratio", contact);
  pin_figures (self, 0, "25.4 mm ÷ %s = %s", pin_say (self, pitch, "dp", 2), pin_say (self, pitch, "mm", 4));
  pin_figures (self, 1, "%s × (%g + %g) ÷ 2 = %s", pin_say (self, pitch, "mm", 4), pinion, spur,
               pin_say (self, centre, "mm", 3));
  work_play (self, centre);
  work_mixing (self);
}

const PinSum pin_sum_mesh = {
  .id = "mesh",
  .title = N_("Mesh"),
  .group = N_("Gearing"),
  .about = N_("How far apart the shafts stand, what a strip of paper leaves as backlash, and what mixed pitches do."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Definition of the module and geometry of the involute (ISO 21771); 1 in = 25.4 mm. The ranges of play, "
               "and that a paper strip opens the shafts by its thickness, are common practice."),
  .validity = N_("Standard teeth, not shifted, one module high, 2.25 deep. Small pinions (below 17 teeth at 20°) are "
                 "undercut or shifted, and their contact is less than said here. Paper gives way: rock the spur and "
                 "judge at the tightest place."),
  .hazard = N_("Warning: a pinion under power takes fingers. Unplug the pack before working at the mesh, and never "
               "test with it in."),
  .work = work,
};
