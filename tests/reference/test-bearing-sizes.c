/* Each bearing size that a chassis type names either exists as a bearing one can
 * buy, or stands in a list that says why not. */

#include <string.h>

#include <glib.h>

#include "library/chassis.h"

typedef struct
{
  char *designation;
  double bore, outside, open, shielded; /* mm */
  char *evidence;
} Bearing;

typedef struct
{
  char *size, *chassis;
  int count;
} Outside;

typedef struct
{
  GPtrArray *bearings; /* Bearing* */
  GPtrArray *outside;  /* Outside* */
} Reference;

static void
bearing_free (Bearing *bearing)
{
  g_free (bearing->designation);
  g_free (bearing->evidence);
  g_free (bearing);
}

static void
outside_free (Outside *outside)
{
  g_free (outside->size);
  g_free (outside->chassis);
  g_free (outside);
}

static double
number (const char *text)
{
  char *end = NULL;
  double value = g_ascii_strtod (text, &end);

  g_assert_true (end != text && *end == '\0');
  return value;
}

/* The rows of a table in tests/reference, without its comments: each a strv of
 * at least @n_columns. */
static GPtrArray *
table_rows (const char *name,
            guint n_columns)
{
  const char *root = g_getenv ("PIN_SOURCE_ROOT");
  g_autofree char *path = g_build_filename (root, "tests", "reference", name, NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) lines = NULL;
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_strfreev);

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i]; i++)
    if (lines[i][0] != '#' && lines[i][0] != '\0')
      {
        char **row = g_strsplit (lines[i], "\t", -1);

        g_assert_cmpuint (g_strv_length (row), ==, n_columns);
        g_ptr_array_add (rows, row);
      }
  return rows;
}

static GPtrArray *
read_bearings (void)
{
  g_autoptr (GPtrArray) rows = table_rows ("bearing-sizes.tsv", 8);
  GPtrArray *bearings = g_ptr_array_new_with_free_func ((GDestroyNotify) bearing_free);

  for (guint i = 0; i < rows->len; i++)
    {
      char **row = rows->pdata[i];
      Bearing *bearing = g_new0 (Bearing, 1);

      bearing->designation = g_strdup (row[0]);
      bearing->bore = number (row[1]);
      bearing->outside = number (row[2]);
      bearing->open = number (row[3]);
      bearing->shielded = number (row[4]);
      bearing->evidence = g_strdup (row[6]);
      g_ptr_array_add (bearings, bearing);
    }
  return bearings;
}

static GPtrArray *
read_outside (void)
{
  g_autoptr (GPtrArray) rows = table_rows ("bearing-sizes-outside.tsv", 4);
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify) outside_free);

  for (guint i = 0; i < rows->len; i++)
    {
      char **row = rows->pdata[i];
      Outside *outside = g_new0 (Outside, 1);

      outside->size = g_strdup (row[0]);
      outside->chassis = g_strdup (row[1]);
      outside->count = (int) number (row[2]);
      g_ptr_array_add (list, outside);
    }
  return list;
}

/* Cars run on closed bearings, so the width is that of the shielded one. */
static const Bearing *
find_bearing (const Reference *reference,
              const char *size)
{
  g_auto (GStrv) parts = g_strsplit (size, "x", -1);
  double value[3];

  if (g_strv_length (parts) != 3)
    return NULL;
  for (guint i = 0; i < 3; i++)
    {
      char *end = NULL;

      value[i] = g_ascii_strtod (parts[i], &end);
      if (end == parts[i] || *end != '\0')
        return NULL;
    }
  for (guint i = 0; i < reference->bearings->len; i++)
    {
      const Bearing *bearing = reference->bearings->pdata[i];

      if (bearing->bore == value[0] && bearing->outside == value[1] &&
          bearing->shielded == value[2])
        return bearing;
    }
  return NULL;
}

static const Outside *
find_outside (const Reference *reference,
              const char *size,
              const char *chassis)
{
  for (guint i = 0; i < reference->outside->len; i++)
    {
      const Outside *outside = reference->outside->pdata[i];

      if (g_str_equal (outside->size, size) && g_str_equal (outside->chassis, chassis))
        return outside;
    }
  return NULL;
}

static PinChassis *
read_chassis (const char *path)
{
  g_autofree char *text = NULL;
  gsize length;
  g_autoptr (GBytes) xml = NULL;
  g_autoptr (GError) error = NULL;
  PinChassis *chassis;

  g_file_get_contents (path, &text, &length, &error);
  g_assert_no_error (error);
  xml = g_bytes_new_take (g_steal_pointer (&text), length);
  chassis = pin_chassis_read (xml, path, &error);
  g_assert_no_error (error);
  return chassis;
}

static GPtrArray *
shipped_chassis (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("HINGEPIN_DATA_DIR"), "chassis", NULL);
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_chassis_unref);
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)))
    if (g_str_has_suffix (name, ".xml"))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);

        g_ptr_array_add (all, read_chassis (path));
      }
  return all;
}

/* How many bearings of each size a chassis type has: size -> count. */
static GHashTable *
count_sizes (const PinChassis *chassis)
{
  GHashTable *counts = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < chassis->positions->len; i++)
    {
      const PinPosition *position = chassis->positions->pdata[i];
      const char *size = position->size ? position->size : "none";
      int count = GPOINTER_TO_INT (g_hash_table_lookup (counts, size));

      if (g_str_equal (position->kind, "bearing"))
        g_hash_table_insert (counts, (char *) size, GINT_TO_POINTER (count + 1));
    }
  return counts;
}

static void
check_size (const Reference *reference,
            const PinChassis *chassis,
            const char *size,
            int count)
{
  const Bearing *bearing = find_bearing (reference, size);
  const Outside *outside = find_outside (reference, size, chassis->id);

  if (bearing)
    g_test_message ("%s: %d of %s (%s, %s)", chassis->id, count, size, bearing->designation,
                    bearing->evidence);
  else if (outside)
    g_test_message ("%s: %d of %s, outside the table", chassis->id, count, size);
  else
    g_error ("%s: no bearing of %s mm in tests/reference/bearing-sizes.tsv; "
             "correct the size, or list it in bearing-sizes-outside.tsv with the reason",
             chassis->path, size);
  /* a row in both would hide a mistake in either */
  g_assert_false (bearing && outside);
  if (outside)
    g_assert_cmpint (count, ==, outside->count);
}

static void
set_up (Reference *reference,
        gconstpointer data)
{
  reference->bearings = read_bearings ();
  reference->outside = read_outside ();
}

static void
tear_down (Reference *reference,
           gconstpointer data)
{
  g_ptr_array_unref (reference->bearings);
  g_ptr_array_unref (reference->outside);
}

static void
test_table (Reference *reference,
            gconstpointer data)
{
  static const char *const known_evidence[] = { "two-tables", "one-table", "memory", NULL };
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  g_assert_cmpuint (reference->bearings->len, ==, 34);
  for (guint i = 0; i < reference->bearings->len; i++)
    {
      const Bearing *bearing = reference->bearings->pdata[i];

      g_assert_true (g_hash_table_add (seen, bearing->designation));
      g_assert_cmpfloat (bearing->bore, <, bearing->outside);
      g_assert_cmpfloat (bearing->open, <=, bearing->shielded);
      /* a ring is never wider than it is high from bore to outside */
      g_assert_cmpfloat (bearing->shielded, <=, bearing->outside - bearing->bore);
      g_assert_true (g_strv_contains (known_evidence, bearing->evidence));
    }
}

/* The search must be able to say no. */
static void
test_strangers (Reference *reference,
                gconstpointer data)
{
  g_assert_nonnull (find_bearing (reference, "8x16x5"));
  g_assert_null (find_bearing (reference, "8x16x4")); /* that is the open one */
  g_assert_null (find_bearing (reference, "5x10x5"));
  g_assert_null (find_bearing (reference, "5x10"));
  g_assert_null (find_bearing (reference, "5x10x4 mm"));
  g_assert_null (find_bearing (reference, "1/8x3/8x5/32 in"));
  g_assert_null (find_outside (reference, "14x25.4x6", "touring-belt-10"));
}

static void
test_chassis (Reference *reference,
              gconstpointer data)
{
  g_autoptr (GPtrArray) all = shipped_chassis ();

  g_assert_cmpuint (all->len, >=, 6);
  for (guint i = 0; i < all->len; i++)
    {
      const PinChassis *chassis = all->pdata[i];
      g_autoptr (GHashTable) counts = count_sizes (chassis);
      GHashTableIter iter;
      gpointer size, count;

      g_assert_cmpuint (g_hash_table_size (counts), >, 0);
      g_hash_table_iter_init (&iter, counts);
      while (g_hash_table_iter_next (&iter, &size, &count))
        check_size (reference, chassis, size, GPOINTER_TO_INT (count));
    }
}

/* A row that nothing needs any more would excuse the next wrong size. */
static void
test_outside_is_needed (Reference *reference,
                        gconstpointer data)
{
  g_autoptr (GPtrArray) all = shipped_chassis ();

  for (guint i = 0; i < reference->outside->len; i++)
    {
      const Outside *outside = reference->outside->pdata[i];
      int found = 0;

      for (guint j = 0; j < all->len; j++)
        {
          const PinChassis *chassis = all->pdata[j];
          g_autoptr (GHashTable) counts = count_sizes (chassis);

          if (g_str_equal (chassis->id, outside->chassis))
            found = GPOINTER_TO_INT (g_hash_table_lookup (counts, outside->size));
        }
      g_assert_cmpint (found, ==, outside->count);
    }
}

/* Typical numbers of bearings, from memory: a position lost or doubled shows. */
static void
test_totals (Reference *reference,
             gconstpointer data)
{
  static const struct
  {
    const char *id;
    int bearings;
  } typical[] = {
    { "buggy-2wd-10", 20 },
    { "buggy-4wd-10", 24 },
    { "buggy-nitro-8", 26 },
    { "crawler-10", 24 },
    { "stadium-2wd-10", 20 },
    { "touring-belt-10", 24 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (typical); i++)
    {
      g_autofree char *name = g_strconcat (typical[i].id, ".xml", NULL);
      const char *data_dir = g_getenv ("HINGEPIN_DATA_DIR");
      g_autofree char *path = g_build_filename (data_dir, "chassis", name, NULL);
      g_autoptr (PinChassis) chassis = read_chassis (path);
      int n = 0;

      for (guint j = 0; j < chassis->positions->len; j++)
        n += g_str_equal (((const PinPosition *) chassis->positions->pdata[j])->kind, "bearing");
      g_test_message ("%s: %d bearings", typical[i].id, n);
      g_assert_cmpint (n, ==, typical[i].bearings);
    }
}

int
main (int argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) \
  g_test_add ("/reference/bearing-sizes/" name, Reference, NULL, set_up, function, tear_down)
  ADD ("table", test_table);
  ADD ("strangers", test_strangers);
  ADD ("chassis", test_chassis);
  ADD ("outside-is-needed", test_outside_is_needed);
  ADD ("totals", test_totals);
#undef ADD
  return g_test_run ();
}
