/* What another pinion or larger tyres do to the gearing. */
#include <math.h>
#include <string.h>

#include "garage.h"

static void
set (Garage *garage, gint64 id, const char *code, const char *spec, const char *typed, const char *day)
{
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (GPtrArray) slots = garage_slots (car, code, NULL);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;

  pin_inventory_set_spec (done, garage->library, car, slots, spec, typed, day, &error);
  g_assert_no_error (error);
  garage_commit (garage, done);
}

static gint64
add_car (Garage *garage)
{
  PinNewVehicle what = PIN_NEW_VEHICLE_INIT;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;
  gint64 id;

  what.name = "Mule";
  what.chassis = "buggy-2wd-10";
  what.day = "2024-01-01";
  id = pin_inventory_add_vehicle (done, garage->library, &what, NULL, &error);
  g_assert_no_error (error);
  garage_commit (garage, done);
  return id;
}

/* Nothing was said of this car before: to say it gears nothing. */
static void
test_first_word (void)
{
  g_autoptr (Garage) garage = garage_new_shipped ();
  gint64 id = add_car (garage);
  g_autoptr (PinVehicleView) fresh = garage_view (garage, id);
  g_autoptr (PinVehicleView) told = NULL;

  g_assert_null (fresh->gearing);
  set (garage, id, "pinion", "teeth", "21", "2024-02-01");
  told = garage_view (garage, id);
  g_assert_null (told->gearing);
}

static void
test_pinion (void)
{
  g_autoptr (Garage) garage = garage_new_shipped ();
  gint64 id = add_car (garage);
  g_autoptr (PinVehicleView) view = NULL;

  set (garage, id, "pinion", "teeth", "21", "2024-02-01");
  set (garage, id, "pinion", "teeth", "22", "2024-03-08");
  view = garage_view (garage, id);
  g_assert_nonnull (view->gearing);
  g_assert_cmpfloat_with_epsilon (view->gearing->factor, 22.0 / 21, 1e-12);
  g_assert_cmpstr (view->gearing->text, ==, "Geared up 4.8 % on 8 Mar 2024: pinion 21 to 22.");
  g_assert_false (view->gearing->measured);
}

/* A larger spur gears down, larger tyres gear up; on one day both count. */
static void
test_together (void)
{
  g_autoptr (Garage) garage = garage_new_shipped ();
  gint64 id = add_car (garage);
  g_autoptr (PinVehicleView) view = NULL;

  set (garage, id, "spur", "teeth", "78", "2024-02-01");
  set (garage, id, "tyre.rear.left", "diameter", "84 mm", "2024-02-01");
  set (garage, id, "spur", "teeth", "81", "2024-03-08");
  set (garage, id, "tyre.rear.left", "diameter", "92 mm", "2024-03-08");
  view = garage_view (garage, id);
  g_assert_nonnull (view->gearing);
  g_assert_cmpfloat_with_epsilon (view->gearing->factor, 92.0 / 84 * 78 / 81, 1e-12);
  g_assert_nonnull (strstr (view->gearing->text, "spur 78 to 81, tyres 84.0 mm to 92.0 mm"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gearing-change/first-word", test_first_word);
  g_test_add_func ("/gearing-change/pinion", test_pinion);
  g_test_add_func ("/gearing-change/together", test_together);
  return g_test_run ();
}
