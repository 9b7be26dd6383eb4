#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "fixture.h"
#include "library/error.h"

/* Files made to hurt whoever reads them.  Each is checked in a process of its
 * own, whose time and memory are measured; all it may say, on either stream,
 * is what is expected. */

#define HEAD "<procedure xmlns=\"urn:hingepin:procedure:1\" id=\"x\" revision=\"1\"><title>T</title>" \
             "<purpose>P</purpose><minutes hands=\"1\"/>"
#define MEGABYTE (1024 * 1024)

/* An instrumented build keeps shadows of its memory. */
#ifdef __SANITIZE_ADDRESS__
#define MOST_KB (900 * 1024)
#else
#define MOST_KB (150 * 1024)
#endif

static const char *checker;
static char *dir;

static char *
place (const char *name)
{
  return g_build_filename (dir, name, NULL);
}

static void
put (const char *name, const char *text, gssize length)
{
  g_autofree char *path = place (name);

  g_assert_true (g_file_set_contents (path, text, length, NULL));
}

static void
become_checker (const char *path, int out)
{
  g_autofree char *shelf = fixture_path ("shelf");
  struct rlimit time = { 20, 20 };

  setrlimit (RLIMIT_CPU, &time);
  dup2 (out, STDOUT_FILENO);
  dup2 (out, STDERR_FILENO);
  execl (checker, checker, shelf, path, NULL);
  _exit (127);
}

/* What checking the file says, within its bounds. */
static char *
said_of (const char *path)
{
  GString *text = g_string_new (NULL);
  struct rusage usage;
  char block[4096];
  int ends[2], status;
  gssize n;
  pid_t child;

  g_assert_cmpint (pipe (ends), ==, 0);
  child = fork ();
  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    become_checker (path, ends[1]);
  close (ends[1]);
  while ((n = read (ends[0], block, sizeof block)) > 0)
    g_string_append_len (text, block, n);
  close (ends[0]);
  g_assert_cmpint (wait4 (child, &status, 0, &usage), ==, child);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, 1);
  g_assert_cmpint (usage.ru_maxrss, <, MOST_KB);
  return g_string_free (text, FALSE);
}

/* One line, of that file, that says @what. */
static void
assert_one (const char *name, const char *what)
{
  g_autofree char *path = place (name);
  g_autofree char *said = said_of (path);
  g_autofree char *start = g_strconcat (path, ":", NULL);

  g_test_message ("%s", said);
  g_assert_true (g_str_has_prefix (said, start));
  g_assert_nonnull (strstr (said, what));
  g_assert_true (strchr (said, '\n') == said + strlen (said) - 1);
}

/* @head, then @unit as often as a file of nearly 1 MiB holds it, then @tail;
 * each %d in @unit is a running number. */
static void
put_full (const char *name, const char *head, const char *unit, const char *tail)
{
  GString *text = g_string_new (head);
  g_auto (GStrv) parts = g_strsplit (unit, "%d", -1);

  for (int i = 0; text->len + strlen (unit) + strlen (tail) + 64 < MEGABYTE; i++)
    for (int j = 0; parts[j] != NULL; j++)
      {
        g_string_append (text, parts[j]);
        if (parts[j + 1] != NULL)
          g_string_append_printf (text, "%d", i + (j == 2));
      }
  g_string_append (text, tail);
  put (name, text->str, text->len);
  g_string_free (text, TRUE);
}

/* ==== Outside the parser ==== */

static void
test_not_files (void)
{
  g_autofree char *pipe = place ("pipe.xml");
  g_autofree char *large = place ("large.xml");
  int fd;

  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
  assert_one ("pipe.xml", "no plain file");
  assert_one ("", "a folder");
  assert_one ("missing.xml", "check its name");
  fd = g_open (large, O_CREAT | O_WRONLY, 0600);
  g_assert_cmpint (ftruncate (fd, 100 * MEGABYTE), ==, 0);
  close (fd);
  assert_one ("large.xml", "larger than 1 MiB");
  put ("empty.xml", "", 0);
  assert_one ("empty.xml", "the file is empty");
  put ("mark.xml", "\357\273\277", 3);
  assert_one ("mark.xml", "needs a root element");
}

/* ==== Entities ==== */

static void
test_entities (void)
{
  g_autoptr (GString) laughs = g_string_new ("<?xml version=\"1.0\"?><!DOCTYPE a [<!ENTITY l0 \"ha\">");

  for (int i = 1; i < 30; i++)
    g_string_append_printf (laughs, "<!ENTITY l%d \"&l%d;&l%d;&l%d;&l%d;\">", i, i - 1, i - 1, i - 1, i - 1);
  g_string_append (laughs, "]><a>&l29;</a>");
  put ("laughs.xml", laughs->str, -1);
  assert_one ("laughs.xml", "a document type is refused");
  put ("external.xml", "<!DOCTYPE a [<!ENTITY e SYSTEM \"file:///etc/hostname\">]><a>&e;</a>", -1);
  assert_one ("external.xml", "a document type is refused");
  put ("network.xml", "<!DOCTYPE a SYSTEM \"http://192.0.2.1/a.dtd\"><a/>", -1);
  assert_one ("network.xml", "a document type is refused");
}

static void
assert_encoded (const char *encoding, const char *mark, gsize mark_length)
{
  static const char text[] = "<!DOCTYPE a [<!ENTITY e \"x\">]><a>&e;</a>";
  g_autoptr (GString) bytes = g_string_new_len (mark, mark_length);
  g_autofree char *wide = NULL;
  gsize length;

  wide = g_convert (text, -1, encoding, "UTF-8", NULL, &length, NULL);
  g_assert_nonnull (wide);
  g_string_append_len (bytes, wide, length);
  put ("encoded.xml", bytes->str, bytes->len);
  assert_one ("encoded.xml", "save the file as UTF-8");
}

static void
test_encodings (void)
{
  assert_encoded ("UTF-16LE", "\377\376", 2);
  assert_encoded ("UTF-16BE", "\376\377", 2);
  assert_encoded ("UTF-16LE", "", 0);
  assert_encoded ("UTF-16BE", "", 0);
  assert_encoded ("UTF-32LE", "\377\376\0\0", 4);
  assert_encoded ("UTF-32BE", "\0\0\376\377", 4);
  put ("koi.xml", "<?xml version='1.0' encoding='KOI8-R'?><a/>", -1);
  assert_one ("koi.xml", "KOI8-R");
}

/* ==== Bulk ==== */

static void
test_deep (void)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (int i = 0; i < 100000; i++)
    g_string_append (text, "<a>");
  put ("deep.xml", text->str, -1);
  assert_one ("deep.xml", "more than 64 levels");
  g_string_truncate (text, 64 * 3);
  put ("levels.xml", text->str, -1);
  assert_one ("levels.xml", "cut short");
}

static void
test_wide (void)
{
  put_full ("attributes.xml", "<a", " a%d=\"\"", "/>");
  assert_one ("attributes.xml", "more than 256 attributes");
  put_full ("again.xml", HEAD "<stage id=\"s\"><step id=\"z\"><do>x</do>"
            "<choose><grade id=\"g\" outcome=\"pass\">Good</grade></choose></step>",
            "<step id=\"b%d\" again=\"z\"/>", "</stage></procedure>");
  put_full ("branches.xml", HEAD "<stage id=\"s\"><step id=\"a\"><do>x</do><choose>"
            "<grade id=\"g\" outcome=\"pass\">Good</grade></choose>",
            "<if grade=\"g%d\" go=\"a\"/>", "</step></stage></procedure>");
  put_full ("asides.xml", HEAD "<stage id=\"s\"><step id=\"z\"><do>x</do><if outcome=\"fail\" go=\"a0\"/></step>",
            "<aside id=\"a%d\"><step id=\"b%d\"><do>x</do></step><go to=\"a%d\"/></aside>", "</stage></procedure>");
  put_full ("unknown.xml", HEAD, "<needs tool=\"tool-%d\"/>",
            "<stage id=\"s\"><step id=\"a\"><do>x</do></step></stage></procedure>");
  for (int i = 0; i < 4; i++)
    {
      static const char *const names[] = { "again.xml", "branches.xml", "asides.xml", "unknown.xml" };
      g_autofree char *path = place (names[i]);
      g_autofree char *said = said_of (path);

      g_assert_true (g_str_has_prefix (said, path));
    }
}

/* ==== Cut short ==== */

/* Each start of a good file is one clear error, and never a crash. */
static void
test_cut (void)
{
  g_autoptr (GBytes) whole = fixture_bytes ("good/shock-rebuild.xml");
  gsize length = g_bytes_get_size (whole);
  int refused = 0;

  for (gsize n = 0; n + 2 < length; n += 97)
    {
      g_autoptr (GBytes) start = g_bytes_new_from_bytes (whole, 0, n);
      g_autoptr (GError) error = NULL;
      g_autoptr (PinProcedure) procedure = pin_procedure_read (start, "cut.xml", &error);

      g_assert_null (procedure);
      g_assert_cmpint (error->domain, ==, PIN_LIBRARY_ERROR);
      g_assert_true (g_str_has_prefix (error->message, "cut.xml:"));
      g_assert_null (strchr (error->message, '\n'));
      refused++;
    }
  g_assert_cmpint (refused, >, 50);
}

/* ==== Threads ==== */

static gpointer
read_often (gpointer data)
{
  GBytes *xml = data;
  gsize good = 0;

  for (int i = 0; i < 20; i++)
    {
      g_autoptr (PinProcedure) procedure = pin_procedure_read (xml, "thread.xml", NULL);

      good += procedure != NULL;
    }
  return GSIZE_TO_POINTER (good);
}

static void
test_threads (void)
{
  g_autoptr (GBytes) xml = fixture_bytes ("good/bearings.xml");
  GThread *threads[8];

  for (size_t i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("reader", read_often, xml);
  for (size_t i = 0; i < G_N_ELEMENTS (threads); i++)
    g_assert_cmpuint (GPOINTER_TO_SIZE (g_thread_join (threads[i])), ==, 20);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 2);
  checker = argv[1];
  dir = g_dir_make_tmp ("hingepin-hostile-XXXXXX", NULL);
  g_test_add_func ("/hostile/not-files", test_not_files);
  g_test_add_func ("/hostile/entities", test_entities);
  g_test_add_func ("/hostile/encodings", test_encodings);
  g_test_add_func ("/hostile/deep", test_deep);
  g_test_add_func ("/hostile/wide", test_wide);
  g_test_add_func ("/hostile/cut", test_cut);
  g_test_add_func ("/hostile/threads", test_threads);
  return g_test_run ();
}
