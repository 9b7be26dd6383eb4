#include "ui/shed.h"

#include <string.h>

PinShed *
pin_shed_new (const char *chassis)
{
  PinShed *self = g_new0 (PinShed, 1);

  self->home = pin_ui_new_home ();
  self->book = g_build_filename (self->home, "mule.hingepin", NULL);
  if (chassis)
    g_free (pin_shed_verb (self, "add-vehicle", "Mule", "--chassis", chassis, "--hours", "12.5", NULL));
  return self;
}

void
pin_shed_free (PinShed *self)
{
  g_clear_pointer (&self->bench, pin_bench_free);
  if (self->ui)
    pin_ui_close (self->ui);
  pin_ui_remove_home (self->home);
  g_free (self->book);
  g_free (self);
}

char *
pin_shed_verb (PinShed *self, ...)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;
  char *out = NULL;
  g_autofree char *err = NULL;
  int status = 0;
  va_list args;

  g_assert_null (self->ui);
  g_ptr_array_add (argv, g_build_filename (g_getenv ("PIN_BUILD_ROOT"), "src", "hingepin", NULL));
  g_ptr_array_add (argv, g_strdup ("--book"));
  g_ptr_array_add (argv, g_strdup (self->book));
  va_start (args, self);
  for (char *word = va_arg (args, char *); word; word = va_arg (args, char *))
    g_ptr_array_add (argv, g_strdup (word));
  va_end (args);
  g_ptr_array_add (argv, NULL);
  g_spawn_sync (self->home, (char **) argv->pdata, NULL, 0, NULL, NULL, &out, &err, &status, &error);
  g_assert_no_error (error);
  g_spawn_check_wait_status (status, &error);
  if (error)
    g_test_message ("%s: %s", (char *) argv->pdata[3], err);
  g_assert_no_error (error);
  return out;
}

void
pin_shed_open (PinShed *self)
{
  g_assert_null (self->ui);
  self->ui = pin_ui_start (self->home, "--book", self->book, NULL);
}

void
pin_shed_close (PinShed *self)
{
  g_clear_pointer (&self->bench, pin_bench_free);
  pin_ui_close (g_steal_pointer (&self->ui));
}

void
pin_shed_resume (PinShed *self)
{
  g_clear_pointer (&self->bench, pin_bench_free);
  if (self->ui == NULL)
    pin_shed_open (self);
  pin_ui_press (self->ui, ATSPI_ROLE_PUSH_BUTTON, "Go on with *");
  self->bench = pin_bench_new (self->ui);
}

/* An answers file without an answer begins the walk, or finds the one that is
 * open, and tells what is next. */
char *
pin_shed_next (PinShed *self, const char *what)
{
  g_autofree char *out = pin_shed_verb (self, "--json", "inspect", "Mule", what, "--answers",
                                        "/dev/null", "--by", "AB", NULL);
  const char *next = strstr (out, "\"next\"");
  const char *open = next ? strchr (next + 6, '"') : NULL;
  const char *end = open ? strchr (open + 1, '"') : NULL;

  return end ? g_strndup (open + 1, end - open - 1) : NULL;
}

void
pin_shed_begin (PinShed *self, const char *what)
{
  g_autofree char *next = pin_shed_next (self, what);

  g_assert_nonnull (next);
  pin_shed_resume (self);
}
