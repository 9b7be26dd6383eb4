#include <math.h>
#include <string.h>

#include "fixture.h"
#include "library/error.h"

static PinProcedure *
read_good (const char *name)
{
  g_autoptr (GBytes) xml = fixture_bytes (name);
  g_autoptr (GError) error = NULL;
  PinProcedure *procedure = pin_procedure_read (xml, name, &error);

  g_assert_no_error (error);
  return procedure;
}

static void
test_head (void)
{
  g_autoptr (PinProcedure) p = read_good ("good/nitro-after-run.xml");
  g_autoptr (GBytes) xml = fixture_bytes ("good/nitro-after-run.xml");
  g_autofree char *sha = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, xml);
  const PinHazard *hazard = p->hazards->pdata[0];
  const PinFits *fits = p->fits->pdata[0];

  g_assert_cmpstr (p->id, ==, "nitro-after-run");
  g_assert_cmpint (p->revision, ==, 1);
  g_assert_cmpstr (p->begin_within, ==, "30 min");
  g_assert_cmpfloat (p->hands_minutes, ==, 12);
  g_assert_cmpfloat (p->wait_minutes, ==, 0);
  g_assert_cmpuint (g_strv_length (p->needs), ==, 4);
  g_assert_cmpint (hazard->level, ==, PIN_HAZARD_DANGER);
  g_assert_cmpstr (hazard->about, ==, "carbon-monoxide");
  g_assert_cmpstr (fits->power[0], ==, "nitro");
  g_assert_null (fits->drive);
  g_assert_cmpstr (p->sha, ==, sha);
  g_assert_true (g_bytes_equal (p->xml, xml));
}

static void
test_asides (void)
{
  g_autoptr (PinProcedure) p = read_good ("good/bearings.xml");
  const PinStage *hubs = pin_procedure_stage (p, "hubs");
  const PinAside *clean = pin_stage_aside (hubs, "clean");
  const PinItem *wait = clean->items->pdata[1];
  const PinBranch *branch;
  const PinStage *where = NULL;
  const PinStep *grade = pin_procedure_step (p, "grade", &where);

  g_assert_true (where == hubs);
  g_assert_cmpuint (hubs->items->len, ==, 1);
  g_assert_cmpuint (hubs->asides->len, ==, 3);
  g_assert_cmpstr (hubs->off[1], ==, "hubs");
  g_assert_cmpstr (clean->go, ==, "oil");
  g_assert_cmpint (wait->kind, ==, PIN_ITEM_WAIT);
  g_assert_cmpfloat (wait->wait->minutes, ==, 10);
  g_assert_cmpint (grade->line, ==, 22);
  branch = grade->branches->pdata[0];
  g_assert_cmpstr (branch->grades[1], ==, "seized");
  g_assert_cmpstr (branch->go, ==, "replace");
  g_assert_null (pin_procedure_step (p, "none", NULL));
  g_assert_null (pin_procedure_stage (p, "none"));
}

static void
test_again (void)
{
  g_autoptr (PinProcedure) p = read_good ("good/bearings.xml");
  const PinStep *left = pin_procedure_step (p, "grade-left", NULL);
  const PinStep *oil = pin_procedure_step (p, "oil-it", NULL);
  const PinStep *clean = pin_procedure_step (p, "clean-it", NULL);

  g_assert_cmpstr (left->again, ==, "grade");
  g_assert_cmpint (left->phase, ==, PIN_PHASE_LEFT);
  g_assert_cmpint (left->most, ==, 2);
  g_assert_cmpint (left->answer, ==, PIN_ANSWER_CHOOSE);
  g_assert_cmpuint (left->grades->len, ==, 5);
  g_assert_true (((PinGrade *) left->grades->pdata[4])->unsafe);
  g_assert_cmpuint (left->branches->len, ==, 3);
  g_assert_cmpstr (left->each, ==, "bearing");
  g_assert_cmpstr (left->where[0], ==, "hub");
  g_assert_cmpint (oil->answer, ==, PIN_ANSWER_WORK);
  g_assert_cmpuint (g_strv_length (oil->deeds), ==, 2);
  g_assert_cmpstr (((PinUses *) clean->uses->pdata[0])->unit, ==, "ml");
  g_assert_cmpfloat (((PinUses *) clean->uses->pdata[0])->amount, ==, 3);
}

static void
test_limits (void)
{
  g_autoptr (PinProcedure) p = read_good ("good/shock-rebuild.xml");
  const PinStep *length = pin_procedure_step (p, "length-left", NULL);
  const PinStep *rebound = pin_procedure_step (p, "rebound", NULL);
  const PinLimits *limits = length->measure->limits->pdata[0];
  const PinStep *height = pin_procedure_step (p, "height", NULL);
  const PinStep *vented = pin_procedure_step (p, "close-vented", NULL);

  g_assert_true (length->pair);
  g_assert_cmpint (limits->against, ==, PIN_AGAINST_PARTNER);
  g_assert_cmpfloat_with_epsilon (limits->pass.within, 0.0003, 1e-18);
  g_assert_false (limits->pass.within_share);
  g_assert_true (isnan (limits->pass.min));
  g_assert_true (limits->has_watch);
  g_assert_cmpint (rebound->measure->repeat, ==, 3);
  limits = rebound->measure->limits->pdata[0];
  g_assert_true (limits->pass.within_share);
  g_assert_cmpfloat_with_epsilon (limits->pass.within, 0.1, 1e-15);
  limits = height->measure->limits->pdata[0];
  g_assert_cmpstr (limits->scale, ==, "1/10");
  g_assert_cmpstr (limits->surface, ==, "on-road");
  g_assert_cmpstr (height->measure->conditions[1], ==, "body");
  g_assert_nonnull (vented);
}

static void
test_relative (void)
{
  static const char text[] =
    "<procedure xmlns='urn:hingepin:procedure:1' id='x' revision='1'><title>T</title><purpose>P</purpose>"
    "<minutes hands='1.5'/><stage id='s'><step id='a'><do> two\n   words </do>"
    "<measure quantity='coast-time' unit='s'><limits evidence='memory'>"
    "<pass min='75 %' of='baseline'/><watch min='50 %' of='baseline'/></limits>"
    "<limits evidence='memory'><pass min='1 min' max='90'/></limits></measure></step></stage></procedure>";
  g_autoptr (GBytes) xml = g_bytes_new_static (text, strlen (text));
  g_autoptr (GError) error = NULL;
  g_autoptr (PinProcedure) p = pin_procedure_read (xml, NULL, &error);
  const PinStep *step;
  const PinLimits *limits;

  g_assert_no_error (error);
  step = pin_procedure_step (p, "a", NULL);
  g_assert_cmpstr (step->do_text, ==, "two words");
  g_assert_cmpfloat (p->hands_minutes, ==, 1.5);
  limits = step->measure->limits->pdata[0];
  g_assert_true (limits->pass.relative);
  g_assert_cmpfloat_with_epsilon (limits->watch.min, 0.5, 1e-15);
  limits = step->measure->limits->pdata[1];
  g_assert_false (limits->pass.relative);
  g_assert_false (limits->has_watch);
  g_assert_cmpfloat (limits->pass.min, ==, 60);
  g_assert_cmpfloat (limits->pass.max, ==, 90);
}

static void
test_chassis (void)
{
  g_autoptr (GBytes) xml = fixture_bytes ("shelf/chassis/plain.xml");
  g_autoptr (GError) error = NULL;
  g_autoptr (PinChassis) c = pin_chassis_read (xml, "plain.xml", &error);
  const PinPosition *hub;
  const PinShape *motor;
  const PinPrimitive *shaft;

  g_assert_no_error (error);
  hub = pin_chassis_position (c, "hub.left");
  g_assert_cmpstr (hub->pair, ==, "hub.right");
  g_assert_cmpfloat (hub->y, ==, 98.5);
  g_assert_true (pin_position_is (hub, (const char *const[]) { "hub", "left", NULL }));
  g_assert_false (pin_position_is (hub, (const char *const[]) { "hub", "right", NULL }));
  g_assert_cmpint (pin_chassis_position (c, "screws")->count, ==, 12);
  g_assert_false (pin_chassis_position (c, "spare-wheel")->fitted);
  g_assert_cmpfloat (c->internal_ratio, ==, 2.6);
  g_assert_cmpfloat (pin_chassis_assembly (c, "wheels")->on_minutes, ==, 2.5);
  g_assert_cmpstr (pin_chassis_assembly (c, "motor")->owes[1], ==, "cure");
  g_assert_null (pin_chassis_assembly (c, "engine"));
  motor = c->shapes->pdata[1];
  shaft = motor->primitives->pdata[2];
  g_assert_cmpint (shaft->kind, ==, PIN_PRIMITIVE_SHAFT);
  g_assert_cmpstr (shaft->end2, ==, "bone");
  g_assert_cmpfloat (shaft->number[PIN_NUMBER_Y2], ==, 90);
  g_assert_true (isnan (shaft->number[PIN_NUMBER_LENGTH]));
  g_assert_cmpuint (((PinPrimitive *) ((PinShape *) c->shapes->pdata[0])->primitives->pdata[0])->n_points, ==, 8);
}

static void
test_wrong_type (void)
{
  g_autoptr (GBytes) xml = fixture_bytes ("shelf/procedures/quick.xml");
  g_autoptr (GError) error = NULL;
  g_autoptr (PinTeardown) teardown = pin_teardown_read (xml, "quick.xml", NULL);

  g_assert_cmpstr (teardown->takes[1], ==, "after-wet");
  g_assert_cmpstr (teardown->order[2], ==, "after-wet/dry");
  g_assert_null (pin_procedure_read (xml, "quick.xml", &error));
  g_assert_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_SCHEMA);
  g_assert_cmpstr (error->message, ==, "quick.xml:2: this is a teardown, and a procedure is wanted");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reading/head", test_head);
  g_test_add_func ("/reading/asides", test_asides);
  g_test_add_func ("/reading/again", test_again);
  g_test_add_func ("/reading/limits", test_limits);
  g_test_add_func ("/reading/relative", test_relative);
  g_test_add_func ("/reading/chassis", test_chassis);
  g_test_add_func ("/reading/wrong-type", test_wrong_type);
  return g_test_run ();
}
