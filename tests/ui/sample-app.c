/* A small window with one of each thing that tests of windows touch, to prove
 * the harness against. */
#include <gtk/gtk.h>

static GtkWidget *status;

static void
tell (const char *format, ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  gtk_label_set_text (GTK_LABEL (status), text);
}

static void
name_it (GtkWidget *widget, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
on_new (GtkButton *button, GtkWidget *box)
{
  GtkWidget *made = gtk_label_new ("made one");

  gtk_box_append (GTK_BOX (box), made);
  gtk_widget_set_sensitive (GTK_WIDGET (button), FALSE);
}

static void
on_entry (GtkEditable *entry, gpointer data)
{
  tell ("typed %s", gtk_editable_get_text (entry));
}

static void
on_spin (GtkSpinButton *spin, gpointer data)
{
  tell ("minutes %d", gtk_spin_button_get_value_as_int (spin));
}

static void
on_check (GtkCheckButton *check, gpointer data)
{
  tell ("wet %s", gtk_check_button_get_active (check) ? "yes" : "no");
}

static void
on_row (GtkListBox *list, GtkListBoxRow *row, gpointer data)
{
  if (row)
    tell ("row %d", gtk_list_box_row_get_index (row));
}

static void
on_choice (GtkDropDown *drop_down, GParamSpec *spec, gpointer data)
{
  tell ("choice %u", gtk_drop_down_get_selected (drop_down));
}

static void
on_page (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tell ("page %s", g_variant_get_string (parameter, NULL));
}

static void
on_undo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tell ("undone");
}

static GtkWidget *
make_list (void)
{
  GtkWidget *list = gtk_list_box_new ();

  name_it (list, "Cars");
  for (int i = 0; i < 3; i++)
    {
      const char *const names[] = { "Alder", "Beech", "Cedar" };
      gtk_list_box_append (GTK_LIST_BOX (list), gtk_label_new (names[i]));
      name_it (GTK_WIDGET (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), i)), names[i]);
    }
  g_signal_connect (list, "row-selected", G_CALLBACK (on_row), NULL);
  return list;
}

static GtkWidget *
make_controls (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *button = gtk_button_new_with_mnemonic ("_New");
  GtkWidget *entry = gtk_entry_new ();
  GtkWidget *spin = gtk_spin_button_new_with_range (0, 90, 1);
  GtkWidget *check = gtk_check_button_new_with_label ("Wet");
  const char *const surfaces[] = { "dry", "damp", "wet", NULL };
  GtkWidget *drop_down = gtk_drop_down_new_from_strings (surfaces);

  status = gtk_label_new ("nothing yet");
  name_it (entry, "Name");
  name_it (spin, "Minutes");
  name_it (drop_down, "Surface");
  g_signal_connect (button, "clicked", G_CALLBACK (on_new), box);
  g_signal_connect (entry, "changed", G_CALLBACK (on_entry), NULL);
  g_signal_connect (spin, "value-changed", G_CALLBACK (on_spin), NULL);
  g_signal_connect (check, "toggled", G_CALLBACK (on_check), NULL);
  g_signal_connect (drop_down, "notify::selected", G_CALLBACK (on_choice), NULL);
  gtk_box_append (GTK_BOX (box), status);
  gtk_box_append (GTK_BOX (box), button);
  gtk_box_append (GTK_BOX (box), entry);
  gtk_box_append (GTK_BOX (box), spin);
  gtk_box_append (GTK_BOX (box), check);
  gtk_box_append (GTK_BOX (box), drop_down);
  gtk_box_append (GTK_BOX (box), make_list ());
  return box;
}

static void
on_activate (GtkApplication *app, gpointer data)
{
  static const GActionEntry entries[] = { { "page", on_page, "s" }, { "undo", on_undo } };
  GtkWidget *window = gtk_application_window_new (app);

  gtk_window_set_titlebar (GTK_WINDOW (window), gtk_header_bar_new ());
  gtk_window_set_title (GTK_WINDOW (window), "Sample");
  gtk_window_set_default_size (GTK_WINDOW (window), 500, 400);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), NULL);
  gtk_application_set_accels_for_action (app, "win.undo", (const char *[]){ "<Control>z", NULL });
  gtk_window_set_child (GTK_WINDOW (window), make_controls ());
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char *argv[])
{
  g_autoptr (GtkApplication) app = NULL;

  app = gtk_application_new ("page.hingepin.Sample", G_APPLICATION_DEFAULT_FLAGS);
  g_signal_connect (app, "activate", G_CALLBACK (on_activate), NULL);
  return g_application_run (G_APPLICATION (app), argc, argv);
}
