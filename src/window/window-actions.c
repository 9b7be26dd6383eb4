#include "window/window-private.h"

#include <glib/gi18n.h>

#include "window/long-job.h"
#include "window/sheet-job.h"

/* The window's actions, in one table.  Those that need a file come in two: one
 * asks for it, the other is given it (by the chooser, by a script, by a test). */

void
pin_window_enable (PinWindow *self, const char *action, gboolean enabled)
{
  GAction *found = g_action_map_lookup_action (G_ACTION_MAP (self), action);

  g_simple_action_set_enabled (G_SIMPLE_ACTION (found), enabled);
}

/* ---- choosing a file -------------------------------------------------- */

typedef struct
{
  PinWindow *window;
  const char *action;         /* that takes the path */
} Choice;

static void
chosen (GtkNativeDialog *dialog, int response, Choice *choice)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

      if (path != NULL)
        g_action_group_activate_action (G_ACTION_GROUP (choice->window), choice->action,
                                        g_variant_new_string (path));
    }
  g_free (choice);
  g_object_unref (dialog);
}

static void
choose (PinWindow *self, const char *title, const char *button, GtkFileChooserAction what,
        const char *name, const char *action)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (title, GTK_WINDOW (self), what,
                                                              button, NULL);
  Choice *choice = g_new0 (Choice, 1);

  choice->window = self;
  choice->action = action;
  if (name != NULL)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  if (what != GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER && !g_str_equal (action, "sheet-to"))
    {
      GtkFileFilter *filter = gtk_file_filter_new ();

      gtk_file_filter_set_name (filter, _("Service books"));
      gtk_file_filter_add_pattern (filter, "*.hingepin");
      gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
      g_object_unref (filter);
    }
  g_signal_connect (dialog, "response", G_CALLBACK (chosen), choice);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
new_book (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  choose (self, _("New book"), _("Create"), GTK_FILE_CHOOSER_ACTION_SAVE, "stable.hingepin",
          "open-file");
}

static void
open_book (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  choose (self, _("Open a book"), _("Open"), GTK_FILE_CHOOSER_ACTION_OPEN, NULL, "open-file");
}

static void
backup (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  choose (self, _("Back up to"), _("Back up"), GTK_FILE_CHOOSER_ACTION_SAVE,
          "stable-copy.hingepin", "backup-to");
}

static void
restore (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  choose (self, _("Restore a copy"), _("Restore"), GTK_FILE_CHOOSER_ACTION_OPEN, NULL,
          "restore-from");
}

static void
export_book (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  choose (self, _("Export into a folder"), _("Export"), GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, NULL,
          "export-to");
}

/* ---- with the file ---------------------------------------------------- */

static void
open_file (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  pin_window_open_book (self, g_variant_get_string (parameter, NULL));
}

static void
backup_to (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  pin_long_backup (self, g_variant_get_string (parameter, NULL));
}

static void
restore_from (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  pin_long_restore (self, g_variant_get_string (parameter, NULL));
}

static void
export_to (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  pin_long_export (self, g_variant_get_string (parameter, NULL));
}

static void
sheet (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinWindow *self = user_data;
  const char *name = self->vehicle_page != NULL ? pin_vehicle_page_name (self->vehicle_page) : NULL;
  g_autofree char *file = name != NULL ? g_strdup_printf ("%s.pdf", name) : NULL;

  if (file == NULL)
    return;
  g_strdelimit (file, "/\\:", '-');
  choose (self, _("Save the sheet"), _("Save"), GTK_FILE_CHOOSER_ACTION_SAVE, file, "sheet-to");
}

/* Of which the sheet is; 0: none. */
static gint64
shown_vehicle (PinWindow *self)
{
  return self->desk != NULL && self->vehicle_page != NULL
           ? pin_vehicle_page_vehicle (self->vehicle_page) : 0;
}

static void
sheet_to (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinWindow *self = user_data;

  if (shown_vehicle (self) != 0)
    pin_sheet_save (GTK_WIDGET (self), self->desk, shown_vehicle (self),
                    g_variant_get_string (parameter, NULL));
}

static void
print_sheet (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinWindow *self = user_data;

  if (shown_vehicle (self) != 0)
    pin_sheet_print (GTK_WIDGET (self), self->desk, shown_vehicle (self));
}

static void
photo_from (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinWindow *self = user_data;

  if (self->bench_page != NULL)
    pin_bench_page_take_photo (self->bench_page, g_variant_get_string (parameter, NULL));
}

static void
verify (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  pin_long_verify (self);
}

#ifdef PIN_HAVE_DEMO
static void
demo (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  pin_long_demo (self);
}
#endif

/* ---- moving about ----------------------------------------------------- */

static void
page (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinWindow *self = user_data;
  const char *name = g_variant_get_string (parameter, NULL);
  GtkWidget *child = gtk_stack_get_child_by_name (self->pages, name);

  if (child != NULL && gtk_stack_page_get_visible (gtk_stack_get_page (self->pages, child)))
    gtk_stack_set_visible_child (self->pages, child);
}

static gint64
id_of (GVariant *parameter)
{
  return g_ascii_strtoll (g_variant_get_string (parameter, NULL), NULL, 10);
}

static void
vehicle (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  if (id_of (parameter) > 0)
    pin_window_show_vehicle (self, id_of (parameter));
}

static void
record (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  if (id_of (parameter) > 0)
    pin_window_show_record (self, id_of (parameter));
}

/* The sums, filled in from that vehicle. */
static void
reckon (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  if (id_of (parameter) > 0)
    pin_window_show_reckoner (self, NULL, id_of (parameter));
}

static void
bench (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  if (id_of (parameter) > 0)
    pin_window_show_bench (self, id_of (parameter));
}

static void
add_vehicle (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinWindow *self = user_data;

  pin_window_show_stable (self);
  pin_stable_page_add (self->stable_page);
}

/* Made when it is asked for: GTK would make one that it finds by itself at each
 * start. */
static void
show_help (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  GtkApplicationWindow *self = user_data;

  if (gtk_application_window_get_help_overlay (self) == NULL)
    {
      g_autoptr (GtkBuilder) builder =
          gtk_builder_new_from_resource ("/page/hingepin/Hingepin/ui/help-overlay.ui");
      GObject *overlay = gtk_builder_get_object (builder, "help_overlay");

      gtk_application_window_set_help_overlay (self, GTK_SHORTCUTS_WINDOW (overlay));
    }
  gtk_window_present (GTK_WINDOW (gtk_application_window_get_help_overlay (self)));
}

static void
undo (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinWindow *self = user_data;
  PinUndo take_back = self->undo;
  gpointer data = g_steal_pointer (&self->undo_data);
  GDestroyNotify data_free = self->undo_free;

  self->undo = NULL;
  self->undo_free = NULL;
  pin_window_forget_undo (self);
  if (take_back != NULL)
    take_back (GTK_WIDGET (self), data);
  if (data_free != NULL)
    data_free (data);
}

static const GActionEntry entries[] = {
  { "new-book", new_book },
  { "open-book", open_book },
  { "backup", backup },
  { "restore", restore },
  { "export", export_book },
  { "open-file", open_file, "s" },
  { "backup-to", backup_to, "s" },
  { "restore-from", restore_from, "s" },
  { "export-to", export_to, "s" },
  { "sheet", sheet },
  { "sheet-to", sheet_to, "s" },
  { "print-sheet", print_sheet },
  { "photo-from", photo_from, "s" },
  { "verify", verify },
#ifdef PIN_HAVE_DEMO
  { "demo", demo },
#endif
  { "page", page, "s" },
  { "vehicle", vehicle, "s" },
  { "record", record, "s" },
  { "reckon", reckon, "s" },
  { "bench", bench, "s" },
  { "add-vehicle", add_vehicle },
  { "show-help-overlay", show_help },
  { "undo", undo },
};

/* Ctrl+Z stands in the window's bubble phase and not among the application's
 * accelerators, which would take it from text entries. */
static gboolean
undo_key (GtkWidget *widget, GVariant *arguments, gpointer user_data)
{
  PinWindow *self = PIN_WINDOW (widget);

  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->pages), "bench") == 0
      && pin_bench_page_undo (self->bench_page))
    return TRUE;
  if (self->undo == NULL)
    return FALSE;
  g_action_group_activate_action (G_ACTION_GROUP (self), "undo", NULL);
  return TRUE;
}

void
pin_window_actions_add (PinWindow *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  pin_window_enable (self, "undo", FALSE);
  gtk_shortcut_controller_set_scope (GTK_SHORTCUT_CONTROLLER (keys), GTK_SHORTCUT_SCOPE_LOCAL);
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
    gtk_shortcut_new (gtk_shortcut_trigger_parse_string ("<Control>z"),
                      gtk_callback_action_new (undo_key, NULL, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}
