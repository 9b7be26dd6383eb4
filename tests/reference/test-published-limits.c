/* Limits that the shipped texts name, one row a check, held against figures from
 * elsewhere; and no text anywhere that names a number against them. */

#include <stdlib.h>
#include <string.h>

#include <glib.h>

typedef struct
{
  char *id, *file, *what, *unit, *source, *kind;
  double lowest, highest; /* in @unit */
} Limit;

/* A number with a unit that may not be above or below what is published, wherever
 * the words stand in the same sentence. */
typedef struct
{
  const char *what;     /* first group: the number */
  const char *near;     /* words of the same sentence; NULL: any sentence */
  double lowest, highest;
  const char *source;
} Ban;

/* 30 psi is 206.8427 kPa: 29 CFR 1910.242(b). */
static const Ban bans[] = {
  { "(-?\\d+(?:\\.\\d+)?) ?bar\\b", NULL, 0, 2.068427, "29 CFR 1910.242(b)" },
  { "(-?\\d+(?:\\.\\d+)?) ?psi\\b", NULL, 0, 30, "29 CFR 1910.242(b)" },
  { "(-?\\d+(?:\\.\\d+)?)(?: (?:to|and) \\d+)? ?°C", "\\b[Cc]harg(?:e|ed|ing)\\b", 0, 40,
    "U.S. Fire Administration, battery fire safety" },
  { "(-?\\d+(?:\\.\\d+)?) ?°C", "\\b[Cc]harg(?:e|ed|ing)\\b", 0, 40,
    "U.S. Fire Administration, battery fire safety" },
  { "(-?\\d+(?:\\.\\d+)?) ?°C", "\\b(?:[Bb]urns?|[Tt]ouch)\\b", 43, 65, "ISO 13732-1, MIL-HDBK-454" },
  { "(-?\\d+(?:\\.\\d+)?) ?V\\b", "\\b(?:[Ss]torage|[Ss]tored?)\\b", 3.7, 4.0, "storage, each cell: common practice" },
  { "(-?\\d+(?:\\.\\d+)?) ?V\\b", "\\b[Ee]ach cell\\b", 2.5, 4.2, "lithium cell: common practice" },
};

static void
limit_free (Limit *limit)
{
  g_free (limit->id);
  g_free (limit->file);
  g_free (limit->what);
  g_free (limit->unit);
  g_free (limit->source);
  g_free (limit->kind);
  g_free (limit);
}

static double
number (const char *text)
{
  char *end = NULL;
  double value = g_ascii_strtod (text, &end);

  g_assert_true (end != text && *end == '\0');
  return value;
}

static Limit *
limit_from_row (const char *line)
{
  g_auto (GStrv) row = g_strsplit (line, "\t", -1);
  Limit *limit = g_new0 (Limit, 1);

  if (g_strv_length (row) != 8)
    g_error ("published-limits.tsv: eight columns, not: %s", line);
  limit->id = g_strdup (row[0]);
  limit->file = g_strdup (row[1]);
  limit->what = g_strdup (row[2]);
  limit->lowest = number (row[3]);
  limit->highest = number (row[4]);
  limit->unit = g_strdup (row[5]);
  limit->source = g_strdup (row[6]);
  limit->kind = g_strdup (row[7]);
  return limit;
}

static GPtrArray *
read_limits (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "tests", "reference",
                                            "published-limits.tsv", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) lines = NULL;
  GPtrArray *limits = g_ptr_array_new_with_free_func ((GDestroyNotify) limit_free);

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i]; i++)
    if (lines[i][0] != '#' && lines[i][0] != '\0')
      g_ptr_array_add (limits, limit_from_row (lines[i]));
  return limits;
}

static char *
replaced (char *text, const char *pattern, const char *with)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GRegex) regex = g_regex_new (pattern, G_REGEX_DOTALL, 0, &error);
  g_autofree char *old = text;
  char *out;

  g_assert_no_error (error);
  out = g_regex_replace_literal (regex, old, -1, 0, with, 0, &error);
  g_assert_no_error (error);
  return out;
}

/* The file as it is read by a person: no comments, one space for any white
 * space, also for what keeps a number and its unit together. */
static char *
read_shipped (const char *file)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "data", file, NULL);
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  text = replaced (text, "<!--.*?-->", " ");
  return replaced (text, "(?:\\s|\302\240)+", " ");
}

/* Each place has to agree, not only the first. */
static guint
check_limit (const Limit *limit)
{
  g_autofree char *text = read_shipped (limit->file);
  g_autoptr (GError) error = NULL;
  g_autoptr (GRegex) regex = g_regex_new (limit->what, 0, 0, &error);
  g_autoptr (GMatchInfo) match = NULL;
  guint places = 0;

  g_assert_no_error (error);
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL), places++)
    {
      g_autofree char *found = g_match_info_fetch (match, 1);
      double value = number (found);

      if (!(value >= limit->lowest && value <= limit->highest))
        g_error ("%s: %s says %s %s, not %g to %g: %s", limit->id, limit->file, found, limit->unit,
                 limit->lowest, limit->highest, limit->source);
    }
  if (places == 0)
    g_error ("%s: %s says nothing like “%s”", limit->id, limit->file, limit->what);
  return places;
}

static void
test_rows (void)
{
  static const char *const kinds[] = { "published", "common-practice", "derived", "memory" };
  g_autoptr (GPtrArray) limits = read_limits ();
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  guint known = 0;

  for (gsize k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      guint rows = 0, places = 0;

      for (guint i = 0; i < limits->len; i++)
        {
          const Limit *limit = limits->pdata[i];

          if (g_strcmp0 (limit->kind, kinds[k]) != 0)
            continue;
          g_assert_true (g_hash_table_add (ids, limit->id));
          places += check_limit (limit);
          rows++;
        }
      g_test_message ("%s: %u checks at %u places", kinds[k], rows, places);
      g_assert_cmpuint (rows, >, 0);
      known += rows;
    }
  g_assert_cmpuint (known, ==, limits->len);
}

/* ---- No text against them ---- */

static gboolean
sentence_is_near (const char *sentence, const char *near)
{
  return near == NULL || g_regex_match_simple (near, sentence, 0, 0);
}

/* How many numbers of @sentence the ban is about; those against it go to @faults. */
static guint
hold_against (const Ban *ban, const char *file, const char *sentence, GPtrArray *faults)
{
  g_autoptr (GRegex) regex = g_regex_new (ban->what, 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  guint seen = 0;

  g_assert_nonnull (regex);
  if (!sentence_is_near (sentence, ban->near))
    return 0;
  for (g_regex_match (regex, sentence, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL), seen++)
    {
      g_autofree char *found = g_match_info_fetch (match, 1);
      double value = number (found);

      if (value < ban->lowest || value > ban->highest)
        g_ptr_array_add (faults, g_strdup_printf ("%s: “%s” against %s", file, sentence, ban->source));
    }
  return seen;
}

/* Sentences end with a full stop before white space, or with their element. */
static guint
scan_text (const char *file, const char *text, GPtrArray *faults)
{
  g_auto (GStrv) sentences = g_regex_split_simple ("[<>]|(?<=[.;])\\s", text, 0, 0);
  guint seen = 0;

  for (guint i = 0; sentences[i]; i++)
    for (gsize b = 0; b < G_N_ELEMENTS (bans); b++)
      seen += hold_against (&bans[b], file, sentences[i], faults);
  return seen;
}

static guint
scan_folder (const char *folder, GPtrArray *faults)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "data", folder, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (path, 0, &error);
  const char *name;
  guint seen = 0;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (folder, name, NULL);
      g_autofree char *text = NULL;

      if (!g_str_has_suffix (name, ".xml"))
        continue;
      text = read_shipped (file);
      seen += scan_text (file, text, faults);
    }
  return seen;
}

static void
test_nothing_against (void)
{
  static const char *const folders[] = { "procedures", "chassis", "kinds" };
  g_autoptr (GPtrArray) faults = g_ptr_array_new_with_free_func (g_free);
  guint seen = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    seen += scan_folder (folders[i], faults);
  for (guint i = 0; i < faults->len; i++)
    g_test_message ("%s", (const char *) faults->pdata[i]);
  g_test_message ("%u numbers near the words", seen);
  g_assert_cmpuint (seen, >=, 6);
  g_assert_cmpuint (faults->len, ==, 0);
}

/* The scan does see what it is there to see. */
static void
test_scan_sees (void)
{
  static const char *const wrong[] = {
    "<do>Blow it out at 6 bar.</do>",
    "<do>Air at 90 psi, goggles on.</do>",
    "<do>Charge it up to 60 °C.</do>",
    "<do>Charging from -10 to 40 °C is fine.</do>",
    "<do>Metal burns from 90 °C on.</do>",
    "<do>For storage bring it to 4.2 V.</do>",
    "<do>Charge each cell to 4.35 V.</do>",
  };
  static const char *const right[] = {
    "<do>Blow it out at 1.5 bar.</do>",
    "<do>Charge it from 0 to 40 °C.</do>",
    "<do>Metal burns from 60 °C on. Dry it, and let it stand at 30 °C.</do>",
    "<do>For storage bring it to 3.8 V.</do>",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autoptr (GPtrArray) faults = g_ptr_array_new_with_free_func (g_free);

      scan_text ("wrong", wrong[i], faults);
      if (faults->len == 0)
        g_error ("not seen: %s", wrong[i]);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (right); i++)
    {
      g_autoptr (GPtrArray) faults = g_ptr_array_new_with_free_func (g_free);

      g_assert_cmpuint (scan_text ("right", right[i], faults), >, 0);
      if (faults->len > 0)
        g_error ("taken for wrong: %s", right[i]);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reference/published-limits/rows", test_rows);
  g_test_add_func ("/reference/published-limits/nothing-against", test_nothing_against);
  g_test_add_func ("/reference/published-limits/scan-sees", test_scan_sees);
  return g_test_run ();
}
