#include "library/suggest.h"

#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#define LONGEST 64

/* Edits between two words, a swap of neighbours counted as one; G_MAXINT for
 * words too long to be a slip of the hand. */
static int
distance (const char *a, const char *b)
{
  int rows[3][LONGEST + 1];
  int n = strlen (a);
  int m = strlen (b);

  if (n > LONGEST || m > LONGEST)
    return G_MAXINT;
  for (int j = 0; j <= m; j++)
    rows[0][j] = j;
  for (int i = 1; i <= n; i++)
    {
      int *row = rows[i % 3];
      const int *last = rows[(i + 2) % 3];
      const int *before = rows[(i + 1) % 3];

      row[0] = i;
      for (int j = 1; j <= m; j++)
        {
          row[j] = MIN (MIN (last[j], row[j - 1]) + 1, last[j - 1] + (a[i - 1] != b[j - 1]));
          if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
            row[j] = MIN (row[j], before[j - 2] + 1);
        }
    }
  return rows[n % 3][m];
}

/* The one of @known (NULL-terminated) that @word was probably meant to be, or
 * NULL if none is near. */
const char *
pin_suggest (const char *word, const char *const *known)
{
  int length = strlen (word);
  /* In the shortest words one letter is all there is to tell them by. */
  int most = length < 3 ? 0 : MAX (1, length / 3);
  const char *nearest = NULL;

  for (int i = 0; known[i] != NULL; i++)
    {
      int edits = distance (word, known[i]);

      if (edits <= most)
        {
          nearest = known[i];
          most = edits - 1;
        }
    }
  return nearest;
}

/* The end of a message: the nearest word, or all of them if they are few, or
 * NULL.  Free with g_free(). */
char *
pin_suggest_text (const char *word, const char *const *known)
{
  const char *nearest = pin_suggest (word, known);

  if (nearest != NULL)
    return g_strdup_printf (_("write “%s”"), nearest);
  if (known[0] != NULL && g_strv_length ((char **) known) <= 12)
    {
      g_autofree char *all = g_strjoinv (", ", (char **) known);

      return known[1] ? g_strdup_printf (_("use one of %s"), all) : g_strdup_printf (_("use %s"), all);
    }
  return NULL;
}

static int
by_word (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char **) a, *(const char **) b);
}

/* The same for the keys of a table, which come in no order of their own. */
char *
pin_suggest_key (const char *word, GHashTable *known)
{
  guint n;
  g_autofree const char **keys = (const char **) g_hash_table_get_keys_as_array (known, &n);

  qsort (keys, n, sizeof *keys, by_word);
  return pin_suggest_text (word, keys);
}
