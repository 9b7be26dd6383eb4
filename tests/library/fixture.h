#pragma once

#include "library/library.h"

/* Files beside these tests. */
static inline char *
fixture_path (const char *name)
{
  return g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "tests", "library", name, NULL);
}

static inline GBytes *
fixture_bytes (const char *name)
{
  g_autofree char *path = fixture_path (name);
  g_autoptr (GError) error = NULL;
  char *text = NULL;
  gsize length = 0;

  g_file_get_contents (path, &text, &length, &error);
  g_assert_no_error (error);
  return g_bytes_new_take (text, length);
}

static inline PinLibrary *
fixture_library (const char *own)
{
  g_autofree char *shelf = fixture_path ("shelf");
  g_autoptr (GError) error = NULL;
  PinLibrary *library = pin_library_new (shelf, own, &error);

  g_assert_no_error (error);
  return library;
}
