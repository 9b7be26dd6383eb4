#include "book/book.h"

static char *
in_data_dir (const char *name)
{
  return g_build_filename (g_get_user_data_dir (), "hingepin", name, NULL);
}

/* The user's own book; free with g_free(). */
char *
pin_book_default_path (void)
{
  return in_data_dir ("stable.hingepin");
}

/* The demo's book, beside it; free with g_free(). */
char *
pin_book_demo_path (void)
{
  return in_data_dir ("demo.hingepin");
}
