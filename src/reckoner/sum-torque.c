#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <string.h>

#include "maths/fasteners.h"
#include "reckoner/work.h"

#define SMALL_HEAD 0.7        /* of the torque, for countersunk, button and grub: common practice */

static const char *const sizes[] = { "M2", "M2.5", "M3", "M4", "M5", "M6", NULL };
static const char *const classes[] = { "8.8", "10.9", "12.9", "stainless-50", "stainless-70", "stainless-80", NULL };
static const char *const heads[] = { "cap", "hex", "button", "countersunk", "grub", NULL };
static const char *const seats[] = { "steel", "aluminium", "plastic", NULL };
static const char *const lockers[] = { "no", "yes", NULL };

static const PinInput inputs[] = {
  { .id = "size", .title = N_("Size"), .kind = PIN_INPUT_CHOICE, .choices = sizes, .preset = "M3" },
  { .id = "class", .title = N_("Property class"), .kind = PIN_INPUT_CHOICE, .choices = classes, .preset = "8.8",
    .hint = N_("On the head, or on the packet") },
  { .id = "head", .title = N_("Head"), .kind = PIN_INPUT_CHOICE, .choices = heads, .preset = "cap" },
  { .id = "into", .title = N_("Screwed into"), .kind = PIN_INPUT_CHOICE, .choices = seats, .preset = "steel" },
  { .id = "friction", .title = N_("Friction"), .unit = "1", .least = 0.04, .most = 0.4, .preset = "0.12",
    .hint = N_("0.10 oiled, 0.12 as bought, 0.14 dry; stainless seizes above 0.2") },
  { .id = "seat-friction", .title = N_("Friction under the head"), .unit = "1", .least = 0.04, .most = 0.4,
    .preset = "", .hint = N_("If it differs from the thread's") },
  { .id = "seat", .title = N_("Mean diameter under the head"), .unit = "mm", .least = 2, .most = 20, .preset = "",
    .hint = N_("If it is no usual head: a flange or a washer") },
  { .id = "share", .title = N_("Share of the yield stress"), .unit = "%", .least = 20, .most = 100,
    .preset = "90 %" },
  { .id = "thread-lock", .title = N_("Thread-locker"), .kind = PIN_INPUT_CHOICE, .choices = lockers,
    .preset = "no" },
  { 0 },
};

static const PinColumn columns[] = {
  { .id = "friction", .title = N_("Friction"), .unit = "1", .decimals = 2 },
  { .id = "preload", .title = N_("Preload"), .unit = "N", .decimals = 0 },
  { .id = "torque", .title = N_("Torque"), .unit = "N.m", .decimals = 2 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "stress-area", .title = N_("Stress area"), .unit = "mm2", .decimals = 2 },
  { .id = "proof-load", .title = N_("Proof load"), .unit = "N", .decimals = 0 },
  { .id = "preload", .title = N_("Preload"), .unit = "N", .decimals = 0 },
  { .id = "full-torque", .title = N_("Torque, steel into steel"), .unit = "N.m", .decimals = 2 },
  { .id = "torque", .title = N_("Torque here"), .unit = "N.m", .decimals = 2 },
  { .id = "keys", .title = N_("Keys: cap / button or countersunk / grub, mm"), .kind = PIN_OUTPUT_TEXT },
  { .id = "by-friction", .title = N_("By friction, steel into steel"), .kind = PIN_OUTPUT_TABLE,
    .columns = columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("stress area = π ÷ 4 × ((flank + root diameter) ÷ 2)²"),
  N_("preload = share × stress area × yield ÷ √(1 + 3 × twist²)"),
  N_("torque = preload × (0.16 × pitch + 0.58 × flank diameter × friction + friction × seat ÷ 2)"),
  N_("torque here = the smaller of that and what the material bears, by 0.7 for a small head"),
  NULL,
};

static gboolean
is (PinReckoning *self, const char *input, const char *choice)
{
  return g_str_equal (pin_choice (self, input), choice);
}

static double
seat_of (PinReckoning *self, const PinThread *thread)
{
  if (is (self, "head", "grub"))
    return 0;
  return pin_given (self, "seat") ? pin_value (self, "seat") : (thread->face + thread->hole) / 2;
}

static PinMathsStatus
torque_at (PinReckoning *self, const PinThread *thread, const PinScrewClass *grade, double friction,
           double seat_friction, double *preload, double *torque)
{
  PinMathsStatus status = pin_thread_preload (thread, grade->yield, pin_value (self, "share"), friction, preload);

  if (status != PIN_MATHS_OK)
    return status;
  return pin_thread_torque (thread, *preload, friction, seat_friction, seat_of (self, thread), torque);
}

static void
over_friction (PinReckoning *self, const PinThread *thread, const PinScrewClass *grade)
{
  PinChart *chart = pin_chart_new (_("Torque over friction"), _("friction"), _("torque, N·m"));
  PinSeries *line = pin_chart_add_series (chart, thread->name, PIN_SERIES_BOTH, TRUE);

  for (int i = 8; i <= 20; i += 2)
    {
      double preload, torque;

      if (torque_at (self, thread, grade, i / 100.0, i / 100.0, &preload, &torque) != PIN_MATHS_OK)
        continue;
      pin_result_row (self, "by-friction", i / 100.0, preload, torque);
      pin_series_add (line, i / 100.0, torque);
    }
  pin_result_chart (self, chart);
}

/* 0: nobody has a figure. */
static double
borne (PinReckoning *self, const PinThread *thread, double full)
{
  if (is (self, "into", "plastic"))
    return thread->plastic > 0 ? MIN (full, thread->plastic) : 0;
  if (is (self, "into", "aluminium") && thread->aluminium > 0)
    return MIN (full, thread->aluminium);
  return full;
}

static void
warn (PinReckoning *self, const PinThread *thread)
{
  gboolean plastic = is (self, "into", "plastic");

  if (plastic && is (self, "thread-lock", "yes"))
    pin_warn (self, _("No thread-locker on plastic: it cracks. Metal into metal only."));
  else if (is (self, "thread-lock", "yes"))
    pin_warn (self, _("Thread-locker wets the thread: reckon with the friction of an oiled one, clean first, one drop, "
                      "24 h to full strength. Keep it off bearings and nylon lock nuts."));
  if (plastic)
    pin_warn (self, _("In plastic turn backwards until the thread drops in, then forwards: snug, and an eighth of a "
                      "turn."));
  if (is (self, "into", "aluminium") && thread->aluminium == 0)
    pin_warn (self, _("No usual figure for aluminium in this size: the thread has to be engaged for twice the screw's "
                      "diameter, or it strips before the screw yields."));
  if (thread->diameter < 3e-3 && strstr (pin_choice (self, "class"), "stainless") == NULL)
    pin_warn (self, _("The tables of proof loads begin with M3: smaller sizes are reckoned by the same formula."));
}

static void
advise (PinReckoning *self, const PinThread *thread, double full)
{
  gboolean small = is (self, "head", "button") || is (self, "head", "countersunk") || is (self, "head", "grub");
  double here = borne (self, thread, full);

  warn (self, thread);
  if (here == 0)
    {
      pin_answer (self, _("There is no usual figure for %s in plastic: snug, and an eighth of a turn."), thread->name);
      return;
    }
  /* A grub screw has no seat, so its full torque is already small. */
  if (small)
    here *= SMALL_HEAD;
  pin_result_value (self, "torque", here);
  pin_figures (self, 3, "%s%s = %s", pin_say (self, borne (self, thread, full), "N.m", 2), small ? " × 0.7" : "",
               pin_say (self, here, "N.m", 2));
  pin_answer (self, _("Tighten to %s: the maker's own figure comes first."), pin_say (self, here, "N.m", 2));
}

static void
work (PinReckoning *self)
{
  const PinThread *thread = pin_thread_find (pin_choice (self, "size"));
  const PinScrewClass *grade = pin_screw_class_find (pin_choice (self, "class"));
  double friction = pin_value (self, "friction"), seat_friction = friction, area, preload, full;

  if (pin_given (self, "seat-friction"))
    seat_friction = pin_value (self, "seat-friction");
  if (!pin_ok (self, pin_thread_area (thread, &area), _("the stress area"))
      || !pin_ok (self, torque_at (self, thread, grade, friction, seat_friction, &preload, &full), _("the torque")))
    return;
  pin_result_value (self, "stress-area", area);
  if (grade->proof > 0)
    pin_result_value (self, "proof-load", area * grade->proof);
  pin_result_value (self, "preload", preload);
  pin_result_value (self, "full-torque", full);
  pin_result_text (self, "keys", "%s", thread->keys);
  pin_figures (self, 0, "%s: %s", thread->name, pin_say (self, area, "mm2", 2));
  pin_figures (self, 1, "%s × %s × %s: %s", pin_say (self, pin_value (self, "share"), "%", 0),
               pin_say (self, area, "mm2", 2), pin_say (self, grade->yield, "MPa", 0),
               pin_say (self, preload, "N", 0));
  pin_figures (self, 2, "%s × (0.16 × %s + …): %s", pin_say (self, preload, "N", 0),
               pin_say (self, thread->pitch, "mm", 2), pin_say (self, full, "N.m", 2));
  over_friction (self, thread, grade);
  advise (self, thread, full);
}

const PinSum pin_sum_torque = {
  .id = "torque",
  .title = N_("Fastener torque"),
  .group = N_("Fasteners"),
  .about = N_("Preload and tightening torque of a screw from M2 to M6."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Thread: ISO 68-1 and ISO 724. Strength: ISO 898-1; stainless: ISO 3506-1, from memory. Preload and "
               "torque: VDI 2230. M3 into aluminium 1.25 N·m and into plastic 0.32 N·m are common practice, other "
               "sizes from memory; so is 70 % for countersunk, button and grub screws."),
  .validity = N_("Published tables differ by up to 10 %, and a torque wrench scatters the preload by a quarter: "
                 "friction decides. Coarse thread, full engagement, first use."),
  .hazard = N_("Caution: Screw heads snap and fly: wear glasses, and keep the free hand out of the key's way."),
  .work = work,
};
