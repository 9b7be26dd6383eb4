/* A small window with one of each thing that tests of windows touch, to prove
 * the harness against. */
#include <gtk/gtk.h>

static GtkWidget *status;
static gboolean with_a_nameless_button;

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

static void
on_answer (GtkDialog *dialog, int response, gpointer data)
{
  tell (response == GTK_RESPONSE_YES ? "yes" : "no");
  gtk_window_destroy (GTK_WINDOW (dialog));
}

static void
on_ask (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkWidget *dialog = gtk_message_dialog_new (data, GTK_DIALOG_MODAL, GTK_MESSAGE_QUESTION,
                                              GTK_BUTTONS_YES_NO, "Bin the spring?");

  g_signal_connect (dialog, "response", G_CALLBACK (on_answer), NULL);
  gtk_window_present (GTK_WINDOW (dialog));
}

static GtkWidget *
make_header (void)
{
  GtkWidget *header = gtk_header_bar_new ();
  GtkWidget *button = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = g_menu_new ();

  g_menu_append (menu, "Undo", "win.undo");
  g_menu_append (menu, "Bin…", "win.ask");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  name_it (button, "Main menu");
  gtk_header_bar_pack_end (GTK_HEADER_BAR (header), button);
  if (with_a_nameless_button)
    gtk_header_bar_pack_end (GTK_HEADER_BAR (header), gtk_button_new ());
  return header;
}

static GtkWidget *
make_pages (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *stack = gtk_stack_new ();
  GtkWidget *switcher = gtk_stack_switcher_new ();

  gtk_stack_switcher_set_stack (GTK_STACK_SWITCHER (switcher), GTK_STACK (stack));
  gtk_stack_add_titled (GTK_STACK (stack), gtk_label_new ("all of them"), "stable", "Stable");
  gtk_stack_add_titled (GTK_STACK (stack), gtk_label_new ("what is due"), "due", "Due");
  gtk_box_append (GTK_BOX (box), switcher);
  gtk_box_append (GTK_BOX (box), stack);
  return box;
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
  gtk_box_append (GTK_BOX (box), make_pages ());
  return box;
}

static void
on_activate (GtkApplication *app, gpointer data)
{
  static const GActionEntry entries[] = { { "page", on_page, "s" },
                                          { "undo", on_undo },
                                          { "ask", on_ask } };
  GtkWidget *window = gtk_application_window_new (app);

  gtk_window_set_titlebar (GTK_WINDOW (window), make_header ());
  gtk_window_set_title (GTK_WINDOW (window), "Sample");
  gtk_window_set_default_size (GTK_WINDOW (window), 500, 400);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries),
                                   window);
  gtk_application_set_accels_for_action (app, "win.undo", (const char *[]){ "<Control>z", NULL });
  gtk_window_set_child (GTK_WINDOW (window), make_controls ());
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char *argv[])
{
  g_autoptr (GtkApplication) app = NULL;

  app = gtk_application_new ("page.hingepin.Sample", G_APPLICATION_DEFAULT_FLAGS);
  with_a_nameless_button = argc > 1 && g_str_equal (argv[1], "--nameless");
  g_signal_connect (app, "activate", G_CALLBACK (on_activate), NULL);
  return g_application_run (G_APPLICATION (app), 1, argv);
}
