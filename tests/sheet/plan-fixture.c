#include "plan-fixture.h"

static PinChassis *
read_chassis (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) xml = NULL;
  char *text = NULL;
  gsize length;
  PinChassis *chassis;

  g_file_get_contents (path, &text, &length, &error);
  g_assert_no_error (error);
  xml = g_bytes_new_take (text, length);
  chassis = pin_chassis_read (xml, path, &error);
  g_assert_no_error (error);
  return chassis;
}

/* Every shipped chassis type.  Returns: (transfer full) */
GPtrArray *
plan_fixture_chassis (void)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_chassis_unref);
  g_autofree char *folder = g_build_filename (g_getenv ("HINGEPIN_DATA_DIR"), "chassis", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  const char *file;

  g_assert_no_error (error);
  while ((file = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, file, NULL);

      if (g_str_has_suffix (file, ".xml"))
        g_ptr_array_add (all, read_chassis (path));
    }
  g_assert_cmpuint (all->len, >=, 6);
  return all;
}

/* A mark for each position, by its place in the file.  Returns: (transfer full) */
PinMarkPlace *
plan_fixture_places (const PinChassis *chassis, gboolean all_unchecked)
{
  static const PinMark marks[] = { PIN_MARK_PASS, PIN_MARK_PASS, PIN_MARK_WATCH, PIN_MARK_PASS, PIN_MARK_NOT_CHECKED,
                                   PIN_MARK_FAIL, PIN_MARK_PASS, PIN_MARK_DOES_NOT_APPLY, PIN_MARK_UNSAFE };
  PinMarkPlace *places = g_new (PinMarkPlace, chassis->positions->len);

  for (guint i = 0; i < chassis->positions->len; i++)
    {
      const PinPosition *position = g_ptr_array_index (chassis->positions, i);
      PinMark mark = all_unchecked ? PIN_MARK_NOT_CHECKED : marks[i % G_N_ELEMENTS (marks)];

      places[i] = (PinMarkPlace) { i, position->x, position->y, mark };
    }
  return places;
}
