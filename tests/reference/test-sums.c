/* The sums, held against figures from elsewhere: tests/reference/sums/ holds a row a check. */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "library/quantity.h"
#include "reckoner/reckoning.h"

enum { SUM, INPUTS, RESULT, EXPECTED, TOLERANCE, KIND, SOURCE, N_FIELDS };

static const char *const kinds[] = { "published", "computed", "derived", "practice", "memory", NULL };

/* Whose figure it is: ours alone, or somebody's outside this project. */
static gboolean
is_outside (const char *kind)
{
  return g_str_equal (kind, "published") || g_str_equal (kind, "computed");
}

typedef struct
{
  char **fields;
  char *place;                /* file:line */
} Row;

static void
row_free (gpointer data)
{
  Row *row = data;

  g_strfreev (row->fields);
  g_free (row->place);
  g_free (row);
}

static void
read_file (const char *folder, const char *name, GPtrArray *rows)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  lines = g_strsplit (text, "\n", -1);
  for (int i = 0; lines[i] != NULL; i++)
    {
      Row *row;

      if (*lines[i] == '\0' || *lines[i] == '#')
        continue;
      row = g_new0 (Row, 1);
      row->place = g_strdup_printf ("%s:%d", name, i + 1);
      row->fields = g_strsplit (lines[i], "\t", -1);
      g_ptr_array_add (rows, row);
      if (g_strv_length (row->fields) != N_FIELDS || !g_strv_contains (kinds, row->fields[KIND])
          || *row->fields[SOURCE] == '\0')
        g_error ("%s is no row of %d fields with a kind and a source", row->place, N_FIELDS);
    }
}

/* Row*, of all files. */
static GPtrArray *
read_rows (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "tests", "reference", "sums", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  GPtrArray *rows = g_ptr_array_new_with_free_func (row_free);
  const char *name;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".tsv"))
      read_file (folder, name, rows);
  return rows;
}

static GHashTable *
inputs_of (const Row *row)
{
  GHashTable *typed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_auto (GStrv) words = g_strsplit (row->fields[INPUTS], "; ", -1);

  for (int i = 0; words[i] != NULL; i++)
    {
      g_auto (GStrv) halves = g_strsplit (words[i], "=", 2);

      if (g_strv_length (halves) != 2)
        g_error ("%s: “%s” is no input", row->place, words[i]);
      g_hash_table_insert (typed, g_strdup (g_strstrip (halves[0])), g_strdup (g_strstrip (halves[1])));
    }
  return typed;
}

/* What a row names: "rollout", or "pairs/2/pinion" for a cell (rows from 1). */
typedef struct
{
  double value;
  const char *text;
  const char *unit;
} Found;

static Found
found_in (const Row *row, const PinReckoning *reckoning)
{
  g_auto (GStrv) path = g_strsplit (row->fields[RESULT], "/", 3);
  const PinResult *result = pin_reckoning_result (reckoning, path[0]);
  gint64 nth;

  if (result == NULL || !result->set)
    g_error ("%s: %s gives no “%s”", row->place, row->fields[SUM], row->fields[RESULT]);
  if (path[1] == NULL)
    {
      static const char *const gates[] = { "not known", "met", "not met" };

      return (Found) { result->value, result->output->kind == PIN_OUTPUT_GATE ? gates[result->gate] : result->text,
                       result->output->unit };
    }
  nth = g_ascii_strtoll (path[1], NULL, 10);
  if (nth < 1 || nth > result->rows->len)
    g_error ("%s: %s has %u rows", row->place, path[0], result->rows->len);
  for (int i = 0; result->output->columns[i].id != NULL; i++)
    if (g_strcmp0 (result->output->columns[i].id, path[2]) == 0)
      {
        const PinCell *cell = &g_array_index ((GArray *) g_ptr_array_index (result->rows, nth - 1), PinCell, i);

        return (Found) { cell->value, cell->text, result->output->columns[i].unit };
      }
  g_error ("%s: %s has no column %s", row->place, path[0], path[2]);
}

/* A tolerance is relative, or with "±" a value of its own. */
static gboolean
is_near (const Row *row, const Found *found)
{
  const PinUnit *unit = pin_unit_find (found->unit);
  const char *tolerance = row->fields[TOLERANCE];
  g_autoptr (GError) error = NULL;
  double expected, allowed, zero;

  pin_value_parse (row->fields[EXPECTED], unit, &expected, NULL, &error);
  if (error != NULL)
    g_error ("%s: %s", row->place, error->message);
  if (!g_str_has_prefix (tolerance, "±"))
    {
      g_assert_true (pin_number_parse (tolerance, &allowed) && allowed > 0 && allowed <= 0.1);
      return fabs (found->value - expected) <= allowed * fabs (expected);
    }
  pin_value_parse (tolerance + strlen ("±"), unit, &allowed, NULL, &error);
  if (error != NULL)
    g_error ("%s: %s", row->place, error->message);
  zero = pin_unit_from (unit, 0);
  return fabs (found->value - expected) <= fabs (allowed - zero);
}

static void
check_row (const Row *row)
{
  const PinSum *sum = pin_sum_find (row->fields[SUM]);
  g_autoptr (GHashTable) typed = inputs_of (row);
  g_autoptr (GError) error = NULL;
  g_autoptr (PinReckoning) reckoning = NULL;
  Found found;

  if (sum == NULL)
    g_error ("%s: there is no sum “%s”", row->place, row->fields[SUM]);
  reckoning = pin_reckon (sum, typed, &error);
  if (reckoning == NULL)
    g_error ("%s: %s", row->place, error->message);
  found = found_in (row, reckoning);
  if (found.unit == NULL ? g_strcmp0 (found.text, row->fields[EXPECTED]) != 0 : !is_near (row, &found))
    {
      g_test_message ("%s: %s is %.12g %s, not %s", row->place, row->fields[RESULT],
                      found.unit != NULL ? pin_unit_to (pin_unit_find (found.unit), found.value) : 0,
                      found.text != NULL ? found.text : found.unit, row->fields[EXPECTED]);
      g_test_fail ();
    }
}

static void
test_rows (void)
{
  g_autoptr (GPtrArray) rows = read_rows ();
  guint counts[G_N_ELEMENTS (kinds)] = { 0 };
  GString *told = g_string_new ("checks of the sums by kind of source:");

  for (guint i = 0; i < rows->len; i++)
    {
      const Row *row = g_ptr_array_index (rows, i);

      check_row (row);
      for (int kind = 0; kinds[kind] != NULL; kind++)
        counts[kind] += g_str_equal (kinds[kind], row->fields[KIND]);
    }
  for (int kind = 0; kinds[kind] != NULL; kind++)
    g_string_append_printf (told, " %s %u", kinds[kind], counts[kind]);
  g_print ("# %s\n", told->str);
  g_string_free (told, TRUE);
}

/* No sum rests on ourselves alone. */
static void
test_outside (void)
{
  g_autoptr (GPtrArray) rows = read_rows ();

  for (const PinSum *const *sum = pin_sums (); *sum != NULL; sum++)
    {
      gboolean outside = FALSE;

      for (guint i = 0; i < rows->len; i++)
        {
          const Row *row = g_ptr_array_index (rows, i);

          outside |= g_str_equal (row->fields[SUM], (*sum)->id) && is_outside (row->fields[KIND]);
        }
      if (!outside)
        {
          g_test_message ("%s has no row from outside", (*sum)->id);
          g_test_fail ();
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sums/rows", test_rows);
  g_test_add_func ("/sums/outside", test_outside);
  return g_test_run ();
}
