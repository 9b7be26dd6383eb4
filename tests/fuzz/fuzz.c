#include "fuzz.h"

#include <signal.h>
#include <string.h>
#include <unistd.h>

#define MOST_BREAKS 6
#define LONGEST (256 * 1024)

/* --- what is to be told of a death ------------------------------------------ */

static guint current_round;
static const char *current_text;
static gsize current_length;

/* There in a build with sanitisers. */
void __sanitizer_set_death_callback (void (*callback) (void)) __attribute__ ((weak));

static void
tell (void)
{
  char line[80];
  int n = g_snprintf (line, sizeof line, "\nround %u, %u bytes:\n", current_round,
                      (guint) current_length);

  if (write (STDERR_FILENO, line, n) > 0 && current_text != NULL)
    n = write (STDERR_FILENO, current_text, MIN (current_length, 4096));
  n = write (STDERR_FILENO, "\n", 1);
}

static void
die (int number)
{
  signal (number, SIG_DFL);
  tell ();
  raise (number);
}

static void
watch (void)
{
  signal (SIGABRT, die);
  signal (SIGTRAP, die);
  if (__sanitizer_set_death_callback != NULL)
    __sanitizer_set_death_callback (tell);
  else
    signal (SIGSEGV, die);
}

void
fuzz_note (guint round, const char *text, gsize length)
{
  static gboolean watched;

  if (!watched)
    watch ();
  watched = TRUE;
  current_round = round;
  current_text = text;
  current_length = length;
}

/* --- breaking a text -------------------------------------------------------- */

static gsize
somewhere (GRand *rand, gsize length)
{
  return length > 0 ? (gsize) g_rand_int_range (rand, 0, (gint32) length) : 0;
}

/* Short pieces much more often than long ones. */
static gsize
some_length (GRand *rand, gsize most)
{
  gsize limit = (gsize) 1 << g_rand_int_range (rand, 0, 12);
  gsize length = 1 + somewhere (rand, limit);

  return MIN (most, length);
}

static void
change_byte (GString *text, GRand *rand)
{
  char *at = &text->str[somewhere (rand, text->len)];

  if (text->len == 0)
    return;
  if (g_rand_int_range (rand, 0, 3) > 0)
    *at = (char) g_rand_int_range (rand, ' ', 0x7f);
  else
    *at ^= (char) (1 << g_rand_int_range (rand, 0, 8));
}

static void
take_out (GString *text, GRand *rand)
{
  gsize at = somewhere (rand, text->len);

  g_string_erase (text, at, some_length (rand, text->len - at));
}

static void
repeat (GString *text, GRand *rand)
{
  gsize at = somewhere (rand, text->len);
  g_autofree char *piece = g_strndup (text->str + at, some_length (rand, text->len - at));

  for (int n = 1 << g_rand_int_range (rand, 0, 6); n > 0 && text->len < LONGEST; n--)
    g_string_insert (text, at, piece);
}

static void
put_word (GString *text, GRand *rand, const char *const *words)
{
  const char *word = words[somewhere (rand, g_strv_length ((char **) words))];
  gsize at = somewhere (rand, text->len + 1);

  if (g_rand_boolean (rand))
    g_string_erase (text, at, some_length (rand, text->len - at));
  g_string_insert (text, at, word);
}

static void
graft (GString *text, GRand *rand, GBytes *other)
{
  gsize length;
  const char *data = g_bytes_get_data (other, &length);
  gsize from = somewhere (rand, length);

  g_string_insert_len (text, somewhere (rand, text->len + 1), data + from,
                       some_length (rand, length - from));
}

/* A number for another: where limits and sizes are. */
static void
change_number (GString *text, GRand *rand)
{
  static const char *const numbers[] = { "0", "-1", "1e999", "nan", "99999999999999999999",
                                         "2147483648", "0.0000001", "1e-320", ".", "" };
  gsize at = somewhere (rand, text->len), end;

  while (at < text->len && !g_ascii_isdigit (text->str[at]))
    at++;
  for (end = at; end < text->len && g_ascii_isdigit (text->str[end]);)
    end++;
  g_string_erase (text, at, end - at);
  g_string_insert (text, at, numbers[somewhere (rand, G_N_ELEMENTS (numbers))]);
}

/* Where a text in quotes begins and how long it is; FALSE: none from there on. */
static gboolean
find_quoted (GString *text, GRand *rand, gsize *at, gsize *length)
{
  const char *from = strchr (text->str + somewhere (rand, text->len), '"');
  const char *end = from ? strchr (from + 1, '"') : NULL;

  if (end == NULL)
    return FALSE;
  *at = from + 1 - text->str;
  *length = end - from - 1;
  return TRUE;
}

/* One for another: the form stays right and the meaning goes. */
static void
exchange_quoted (GString *text, GRand *rand)
{
  g_autofree char *other = NULL;
  gsize at, length;

  if (!find_quoted (text, rand, &at, &length))
    return;
  other = g_strndup (text->str + at, length);
  if (!find_quoted (text, rand, &at, &length))
    return;
  g_string_erase (text, at, length);
  g_string_insert (text, at, other);
}

static void
break_once (FuzzFood *food, GString *text, GRand *rand)
{
  switch (g_rand_int_range (rand, 0, 9))
    {
    case 0:
      change_byte (text, rand);
      break;
    case 1:
      take_out (text, rand);
      break;
    case 2:
      repeat (text, rand);
      break;
    case 3:
      graft (text, rand, food->corpus->pdata[somewhere (rand, food->corpus->len)]);
      break;
    case 4:
      change_number (text, rand);
      break;
    case 5:
    case 6:
      exchange_quoted (text, rand);
      break;
    default:
      put_word (text, rand, food->words);
      break;
    }
}

char *
fuzz_break (FuzzFood *food, GRand *rand, gsize *length)
{
  gsize size;
  gconstpointer data =
      g_bytes_get_data (food->corpus->pdata[somewhere (rand, food->corpus->len)], &size);
  g_autoptr (GString) text = g_string_new_len (data, size);
  int n = 0;

  do
    break_once (food, text, rand);
  while (g_rand_boolean (rand) && ++n < MOST_BREAKS);
  *length = MIN (text->len, LONGEST);
  text->str[*length] = '\0';
  /* Not a byte longer than it says, for the sanitiser to see one read too far. */
  return g_memdup2 (text->str, *length + 1);
}

/* --- the rounds ------------------------------------------------------------- */

void
fuzz_add (FuzzFood *food, const char *text)
{
  if (food->corpus == NULL)
    food->corpus = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  g_ptr_array_add (food->corpus, g_bytes_new (text, strlen (text)));
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(char *const *) a, *(char *const *) b);
}

void
fuzz_add_dir (FuzzFood *food, const char *folder)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), folder, NULL);
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".xml"))
      g_ptr_array_add (names, g_build_filename (path, name, NULL));
  g_ptr_array_sort (names, by_name);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *text = NULL;

      g_assert_true (g_file_get_contents (names->pdata[i], &text, NULL, NULL));
      fuzz_add (food, text);
    }
}

void
fuzz_clear (FuzzFood *food)
{
  g_clear_pointer (&food->corpus, g_ptr_array_unref);
}

guint
fuzz_number (const char *variable, guint otherwise)
{
  const char *value = g_getenv (variable);

  return value ? (guint) g_ascii_strtoull (value, NULL, 10) : otherwise;
}

static void
one_round (FuzzFood *food, guint32 seed, guint round, FuzzTry attempt, gpointer data)
{
  guint32 seeds[] = { seed, round };
  GRand *rand = g_rand_new_with_seed_array (seeds, G_N_ELEMENTS (seeds));
  g_autofree char *text = NULL;
  gsize length;

  text = fuzz_break (food, rand, &length);
  fuzz_note (round, text, length);
  attempt (text, length, data);
  fuzz_note (round, NULL, 0);
  g_rand_free (rand);
}

/* As they are, first. */
static void
try_whole (FuzzFood *food, FuzzTry attempt, gpointer data)
{
  for (guint i = 0; i < food->corpus->len; i++)
    {
      gsize length;
      const char *whole = g_bytes_get_data (food->corpus->pdata[i], &length);
      g_autofree char *text = g_strndup (whole ? whole : "", length);

      fuzz_note (0, text, length);
      attempt (text, length, data);
      fuzz_note (0, NULL, 0);
    }
}

static int
try_files (char **paths, FuzzTry attempt, gpointer data)
{
  for (guint i = 0; paths[i] != NULL; i++)
    {
      g_autofree char *text = NULL;
      gsize length;

      if (!g_file_get_contents (paths[i], &text, &length, NULL))
        return 2;
      fuzz_note (i, text, length);
      attempt (text, length, data);
      fuzz_note (i, NULL, 0);
    }
  return 0;
}

int
fuzz_main (int argc, char **argv, FuzzFood *food, guint rounds, FuzzTry attempt, gpointer data)
{
  guint32 seed = fuzz_number ("PIN_FUZZ_SEED", 20261125);
  guint only = fuzz_number ("PIN_FUZZ_ROUND", 0);

  if (argc > 1)
    return try_files (argv + 1, attempt, data);
  rounds = fuzz_number ("PIN_FUZZ_ROUNDS", rounds);
  g_print ("1..1\n");
  if (only > 0)
    one_round (food, seed, only, attempt, data);
  else
    try_whole (food, attempt, data);
  for (guint i = 1; only == 0 && i <= rounds; i++)
    one_round (food, seed, i, attempt, data);
  g_print ("ok 1 %u rounds\n", only > 0 ? 1 : rounds);
  return 0;
}
