#include "config.h"

#include "window/application.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "base/day.h"
#include "window/appearance.h"
#include "window/stalls.h"
#include "window/texts.h"
#include "window/settings.h"
#include "window/window.h"

struct _PinApplication
{
  GtkApplication parent_instance;

  PinTexts *texts;            /* owned; being read from the start */
};

G_DEFINE_FINAL_TYPE (PinApplication, pin_application, GTK_TYPE_APPLICATION)

static void
about (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  gtk_show_about_dialog (gtk_application_get_active_window (user_data),
                         "program-name", "Hingepin",
                         "version", PIN_VERSION,
                         "logo-icon-name", PIN_APP_ID,
                         "license-type", GTK_LICENSE_GPL_3_0,
                         "comments", _("The service book and guided inspections of a stable of "
                                       "radio-controlled vehicles. The maker's instructions come "
                                       "first."),
                         NULL);
}

static void
quit (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  GtkWindow *window;

  while ((window = gtk_application_get_active_window (user_data)) != NULL)
    gtk_window_destroy (window);
}

static void
appearance (GSimpleAction *action, GVariant *state, gpointer user_data)
{
  pin_appearance_choose (g_variant_get_string (state, NULL));
  g_simple_action_set_state (action, state);
}

static const GActionEntry entries[] = {
  { "about", about },
  { "quit", quit },
};

static void
add_appearance (PinApplication *self)
{
  g_autofree char *choice = pin_appearance_choice ();
  GSimpleAction *action = g_simple_action_new_stateful ("appearance", G_VARIANT_TYPE_STRING,
                                                        g_variant_new_string (choice));

  g_signal_connect (action, "change-state", G_CALLBACK (appearance), self);
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (action));
  g_object_unref (action);
}

static void
set_keys (GtkApplication *app, const char *action, const char *key)
{
  gtk_application_set_accels_for_action (app, action, (const char *[]) { key, NULL });
}

static void
pin_application_startup (GApplication *application)
{
  PinApplication *self = PIN_APPLICATION (application);
  GtkApplication *app = GTK_APPLICATION (application);

  self->texts = pin_texts_read ();
  G_APPLICATION_CLASS (pin_application_parent_class)->startup (application);
  gtk_window_set_default_icon_name (PIN_APP_ID);
  pin_appearance_start (gdk_display_get_default ());
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  add_appearance (self);
  set_keys (app, "app.quit", "<Control>q");
  set_keys (app, "win.open-book", "<Control>o");
  set_keys (app, "win.add-vehicle", "<Control>n");
  gtk_application_set_accels_for_action (app, "win.show-help-overlay",
                                         (const char *[]) { "<Control>F1", "<Control>question", NULL });
  set_keys (app, "win.page::stable", "<Alt>1");
  set_keys (app, "win.page::vehicle", "<Alt>2");
  set_keys (app, "win.page::bench", "<Alt>3");
  set_keys (app, "win.page::reckoner", "<Alt>4");
}

static void
open_window (PinApplication *self, const char *path)
{
  PinWindow *window = pin_window_new (GTK_APPLICATION (self), self->texts);

  pin_window_open_book (window, path);
  gtk_window_present (GTK_WINDOW (window));
}

static int
pin_application_command_line (GApplication *application, GApplicationCommandLine *line)
{
  GVariantDict *options = g_application_command_line_get_options_dict (line);
  g_autofree char *path = NULL;
  g_autofree char *book = NULL;
  const char *today = NULL;
  g_autoptr (GError) error = NULL;

  if (g_variant_dict_lookup (options, "today", "&s", &today) && !pin_set_today (today, &error))
    {
      g_application_command_line_printerr (line, "hingepin: %s\n", error->message);
      return 2;
    }
  if (g_variant_dict_lookup (options, "book", "^ay", &path))
    {
      g_autoptr (GFile) file = g_application_command_line_create_file_for_arg (line, path);

      book = g_file_get_path (file);
    }
  if (book == NULL)
    book = pin_book_default_path ();
  open_window (PIN_APPLICATION (application), book);
  return 0;
}

static int
pin_application_handle_local_options (GApplication *application, GVariantDict *options)
{
  if (g_variant_dict_contains (options, "version"))
    {
      g_print ("hingepin %s\n", PIN_VERSION);
      return 0;
    }
  return -1;
}

static void
pin_application_shutdown (GApplication *application)
{
  G_APPLICATION_CLASS (pin_application_parent_class)->shutdown (application);
  pin_settings_flush ();
}

static void
pin_application_finalize (GObject *object)
{
  PinApplication *self = PIN_APPLICATION (object);

  g_clear_pointer (&self->texts, pin_texts_unref);
  G_OBJECT_CLASS (pin_application_parent_class)->finalize (object);
}

static void
pin_application_class_init (PinApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = pin_application_finalize;
  application_class->startup = pin_application_startup;
  application_class->shutdown = pin_application_shutdown;
  application_class->command_line = pin_application_command_line;
  application_class->handle_local_options = pin_application_handle_local_options;
}

static const GOptionEntry options[] = {
  { "book", 0, 0, G_OPTION_ARG_FILENAME, NULL, N_("Use this service book"), N_("FILE") },
  { "today", 0, 0, G_OPTION_ARG_STRING, NULL, N_("Take this day as today"), N_("DATE") },
  { "version", 0, 0, G_OPTION_ARG_NONE, NULL, N_("Print the version"), NULL },
  { NULL }
};

static void
pin_application_init (PinApplication *self)
{
  g_application_add_main_option_entries (G_APPLICATION (self), options);
}

PinApplication *
pin_application_new (void)
{
  return g_object_new (PIN_TYPE_APPLICATION,
                       "application-id", PIN_APP_ID,
                       "resource-base-path", "/page/hingepin/Hingepin",
                       "flags", G_APPLICATION_HANDLES_COMMAND_LINE,
                       NULL);
}

/* Runs the program with a window; the exit status. */
int
pin_window_run (int argc, char **argv)
{
  g_autoptr (PinApplication) application = NULL;

  pin_stalls_watch ();
  g_set_application_name ("Hingepin");
  application = pin_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
