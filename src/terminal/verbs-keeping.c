/* check, backup, restore, verify, export */

#include "config.h"

#include <glib/gi18n.h>

#include "book/keeping.h"
#include "terminal/session.h"

static gboolean
found_wrong (GError **error)
{
  g_set_error_literal (error, PIN_TERMINAL_ERROR, PIN_TERMINAL_ERROR_FOUND, "");
  return FALSE;
}

gboolean
pin_verb_check (PinSession *session, GError **error)
{
  g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);
  JsonBuilder *builder;
  guint n = g_strv_length (session->options->args);

  if (n == 0)
    return pin_session_usage (error, _("check needs at least one file"));
  if (!pin_session_library (session, error))
    return FALSE;
  for (guint i = 0; i < n; i++)
    pin_library_check (session->library, session->options->args[i], messages);
  if (session->options->json)
    {
      builder = pin_json_begin ();
      pin_json_int (builder, "files", n);
      pin_json_list (builder, "messages");
      for (guint i = 0; i < messages->len; i++)
        json_builder_add_string_value (builder, g_ptr_array_index (messages, i));
      pin_json_list_end (builder);
      pin_json_print (builder);
    }
  else
    {
      for (guint i = 0; i < messages->len; i++)
        g_printerr ("%s\n", (char *) g_ptr_array_index (messages, i));
      if (messages->len == 0)
        g_print (g_dngettext (GETTEXT_PACKAGE, "%u file checked: nothing wrong\n",
                              "%u files checked: nothing wrong\n", n), n);
    }
  return messages->len == 0 || found_wrong (error);
}

/* What was done, for scripts: pairs of name and text, NULL-terminated. */
static void
print_done (const char *name, ...)
{
  JsonBuilder *builder = pin_json_begin ();
  va_list args;

  va_start (args, name);
  for (; name != NULL; name = va_arg (args, const char *))
    pin_json_text (builder, name, va_arg (args, const char *));
  va_end (args);
  pin_json_print (builder);
}

gboolean
pin_verb_backup (PinSession *session, GError **error)
{
  const char *to = session->options->args[0];

  if (to == NULL)
    return pin_session_usage (error, _("backup needs the file to write"));
  if (!pin_session_book (session, FALSE, error) ||
      !pin_book_backup (session->book, to, NULL, NULL, NULL, error))
    return FALSE;
  if (session->options->json)
    print_done ("book", pin_book_path (session->book), "copy", to, NULL);
  else
    g_print (_("A checked copy of %s is in %s\n"), pin_book_path (session->book), to);
  return TRUE;
}

gboolean
pin_verb_restore (PinSession *session, GError **error)
{
  const char *from = session->options->args[0];
  g_autofree char *path = session->options->book ? g_strdup (session->options->book) : pin_book_default_path ();
  g_autofree char *kept = NULL;

  if (from == NULL)
    return pin_session_usage (error, _("restore needs the copy to restore from"));
  if (!pin_book_restore (from, path, &kept, error))
    return FALSE;
  if (session->options->json)
    {
      print_done ("book", path, "copy", from, "kept", kept, NULL);
      return TRUE;
    }
  g_print (_("%s is now the copy %s\n"), path, from);
  if (kept)
    g_print (_("What stood there is kept as %s\n"), kept);
  return TRUE;
}

gboolean
pin_verb_verify (PinSession *session, GError **error)
{
  g_autoptr (GPtrArray) problems = NULL;
  JsonBuilder *builder;

  if (!pin_session_book (session, FALSE, error) || !(problems = pin_book_verify (session->book, error)))
    return FALSE;
  if (session->options->json)
    {
      builder = pin_json_begin ();
      pin_json_text (builder, "book", pin_book_path (session->book));
      pin_json_list (builder, "problems");
      for (guint i = 0; i < problems->len; i++)
        json_builder_add_string_value (builder, g_ptr_array_index (problems, i));
      pin_json_list_end (builder);
      pin_json_print (builder);
    }
  else
    {
      for (guint i = 0; i < problems->len; i++)
        g_printerr ("%s\n", (char *) g_ptr_array_index (problems, i));
      if (problems->len == 0)
        g_print (_("%s is sound\n"), pin_book_path (session->book));
    }
  return problems->len == 0 || found_wrong (error);
}

gboolean
pin_verb_export (PinSession *session, GError **error)
{
  const char *folder = session->options->args[0];

  if (folder == NULL)
    return pin_session_usage (error, _("export needs the folder to write into"));
  if (!pin_session_book (session, FALSE, error) ||
      !pin_book_export (session->book, folder, NULL, NULL, NULL, error))
    return FALSE;
  if (session->options->json)
    print_done ("book", pin_book_path (session->book), "folder", folder, NULL);
  else
    g_print (_("Everything in %s is in %s\n"), pin_book_path (session->book), folder);
  return TRUE;
}
