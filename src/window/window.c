#include "window/window-private.h"

#include <glib/gi18n.h>

#include "base/day.h"
#include "book/keeping.h"
#include "library/error.h"
#include "window/fields.h"
#include "window/footer-layout.h"
#include "window/settings.h"

G_DEFINE_FINAL_TYPE (PinWindow, pin_window, GTK_TYPE_APPLICATION_WINDOW)

#define MOST_STRIPS 3

static GtkWidget *
footer_cell (const char *markup)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_markup (GTK_LABEL (label), markup);
  if (*markup != '\0')
    pin_field_tooltip (label, gtk_label_get_text (GTK_LABEL (label)));
  gtk_label_set_max_width_chars (GTK_LABEL (label), 44);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "footer-cell");
  return label;
}

static char *
kept_text (PinWindow *self)
{
  gint64 kept = pin_book_kept_at (pin_desk_book (self->desk));
  g_autofree char *instant = NULL;
  g_autofree char *day = NULL;
  g_autofree char *short_day = NULL;
  g_autoptr (GDateTime) at = NULL;
  g_autofree char *time = NULL;

  if (kept == 0)
    return g_strdup (_("Nothing changed yet"));
  at = g_date_time_new_from_unix_local (kept / 1000);
  time = g_date_time_format (at, "%H:%M:%S");
  day = pin_day_of (kept);
  short_day = pin_day_short (day);
  return g_markup_printf_escaped (_("Kept <b>%s, %s</b>"), short_day, time);
}

static GStrv
stable_footer (PinWindow *self, const char *kept)
{
  g_autoptr (GStrvBuilder) cells = g_strv_builder_new ();
  g_autofree char *name = g_path_get_basename (pin_book_path (pin_desk_book (self->desk)));
  g_autofree char *book = g_markup_printf_escaped (_("Book <b>%s</b>"), name);
  g_autofree char *copy = self->last_copy != NULL
                            ? g_markup_printf_escaped (_("Last copy <b>%s</b>"), self->last_copy)
                            : g_strdup (_("No copy made yet"));

  g_strv_builder_add (cells, book);
  if (pin_book_read_only (pin_desk_book (self->desk)))
    g_strv_builder_add (cells, _("<b>Read only</b>"));
  g_strv_builder_add (cells, kept);
  g_strv_builder_add (cells, copy);
  g_strv_builder_add (cells, "");
  g_strv_builder_add (cells, _("Units <b>mm · °C · km/h</b>"));
  return g_strv_builder_end (cells);
}

/* What is on the bench now, for when the program is opened again: the book and
 * the inspection, or nothing. */
void
pin_window_remember_page (PinWindow *self)
{
  gint64 inspection;
  g_autofree char *bench = NULL;

  if (self->desk == NULL)
    return;
  inspection = pin_window_bench_is_shown (self) ? pin_bench_page_inspection (self->bench_page) : 0;
  bench = inspection != 0 ? g_strdup_printf ("%" G_GINT64_FORMAT " %s", inspection,
                                             pin_book_path (pin_desk_book (self->desk)))
                          : g_strdup ("");
  pin_settings_set ("bench", bench);
}

static void
reopen_bench (PinWindow *self)
{
  g_autofree char *bench = pin_settings_get ("bench");
  char *path = NULL;
  gint64 inspection = bench != NULL ? g_ascii_strtoll (bench, &path, 10) : 0;

  if (inspection > 0 && *path == ' '
      && g_str_equal (path + 1, pin_book_path (pin_desk_book (self->desk))))
    pin_window_show_bench (self, inspection);
}

static void
on_page (PinWindow *self)
{
  pin_window_pages_need (self);
  pin_window_update_footer (self);
  if (!self->settling)
    pin_window_remember_page (self);
}

/* What was kept stays longest; of the others the first ones. */
static int
footer_weight (char **cells, guint i, const char *kept)
{
  return g_str_equal (cells[i], kept) ? G_MAXINT : -(int) i;
}

/* An empty cell takes the room between left and right. */
void
pin_window_update_footer (PinWindow *self)
{
  g_autofree char *kept = NULL;
  g_auto (GStrv) cells = NULL;
  GtkWidget *child;

  if (self->footer == NULL)
    return;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->footer))) != NULL)
    gtk_box_remove (self->footer, child);
  if (self->desk == NULL)
    return;
  gtk_widget_remove_css_class (GTK_WIDGET (self->footer), "bench");
  kept = kept_text (self);
  if (pin_window_bench_is_shown (self))
    {
      cells = pin_bench_page_footer (self->bench_page, kept);
      gtk_widget_add_css_class (GTK_WIDGET (self->footer), "bench");
    }
  else
    {
      cells = stable_footer (self, kept);
    }
  for (guint i = 0; cells[i] != NULL; i++)
    {
      GtkWidget *cell = footer_cell (cells[i]);

      gtk_widget_set_hexpand (cell, *cells[i] == '\0');
      pin_footer_set_weight (cell, footer_weight (cells, i, kept));
      gtk_box_append (self->footer, cell);
    }
}

static void
desk_changed (PinDesk *desk, gint64 vehicle, PinWindow *self)
{
  pin_window_update_footer (self);
}

static void
last_copy_read (GObject *source, GAsyncResult *result, gpointer user_data)
{
  PinWindow *self = PIN_WINDOW (source);
  g_autofree char *text = g_task_propagate_pointer (G_TASK (result), NULL);
  g_autoptr (GDateTime) at = NULL;

  g_clear_pointer (&self->last_copy, g_free);
  at = text != NULL ? g_date_time_new_from_iso8601 (text, NULL) : NULL;
  if (at != NULL)
    {
      g_autofree char *day = pin_day_of (g_date_time_to_unix (at) * 1000);

      self->last_copy = pin_day_short (day);
    }
  else
    {
      self->last_copy = g_steal_pointer (&text);
    }
  pin_window_update_footer (self);
}

static void
last_copy_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  PinDesk *desk = data;

  g_task_return_pointer (task, pin_book_last_copy (pin_desk_book (desk)), g_free);
}

void
pin_window_read_last_copy (PinWindow *self)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, last_copy_read, NULL);

  g_task_set_task_data (task, g_object_ref (self->desk), g_object_unref);
  g_task_run_in_thread (task, last_copy_thread);
}

/* Texts of the person's own that cannot be read: said once, with the first. */
static void
tell_troubles (PinWindow *self)
{
  const GPtrArray *troubles = pin_library_troubles (pin_desk_library (self->desk));
  g_autoptr (GError) error = NULL;
  const PinTrouble *first;

  if (self->troubles_told || troubles->len == 0)
    return;
  self->troubles_told = TRUE;
  first = g_ptr_array_index (troubles, 0);
  error = g_error_new (PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_MEANING,
                       ngettext ("%s. The shipped text serves instead.",
                                 "%s. The shipped texts serve instead; “hingepin check” lists all %u.",
                                 troubles->len), first->message, troubles->len);
  pin_tell_error (GTK_WIDGET (self), _("A text of your own was left out:"), error);
}

/* Takes @desk; the old book is closed when nothing uses it any more. */
void
pin_window_set_desk (PinWindow *self, PinDesk *desk)
{
  g_autofree char *person = pin_settings_get ("person");

  pin_window_forget_undo (self);
  if (self->desk != NULL)
    g_signal_handlers_disconnect_by_data (self->desk, self);
  g_set_object (&self->desk, desk);
  g_object_unref (desk);
  pin_desk_set_person (desk, person);
  g_signal_connect (desk, "changed", G_CALLBACK (desk_changed), self);
  self->settling = TRUE;
  gtk_stack_page_set_visible (self->vehicle_tab, FALSE);
  gtk_stack_page_set_visible (self->record_tab, FALSE);
  gtk_stack_page_set_visible (self->bench_tab, FALSE);
  pin_window_pages_set_desk (self);
  pin_window_show_stable (self);
  self->settling = FALSE;
  reopen_bench (self);
  pin_window_read_last_copy (self);
  tell_troubles (self);
  pin_window_pages_warm (self);
}

typedef struct
{
  char *path;
  PinTexts *texts;
} Opening;

static void
opening_free (gpointer data)
{
  Opening *opening = data;

  g_free (opening->path);
  pin_texts_unref (opening->texts);
  g_free (opening);
}

static void
open_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Opening *opening = data;
  GError *error = NULL;
  PinBook *book;

  book = pin_book_open_or_create (opening->path, &error);
  /* A book that cannot be written can still be read. */
  if (book == NULL && g_error_matches (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_READ_ONLY))
    {
      g_clear_error (&error);
      book = pin_book_open (opening->path, TRUE, &error);
    }
  if (book != NULL && pin_texts_wait (opening->texts, &error) == NULL)
    g_clear_pointer (&book, pin_book_close);
  if (book == NULL)
    g_task_return_error (task, error);
  else
    g_task_return_pointer (task, book, (GDestroyNotify) pin_book_close);
}

static void
opened (GObject *source, GAsyncResult *result, gpointer user_data)
{
  PinWindow *self = PIN_WINDOW (source);
  g_autoptr (GError) error = NULL;
  PinBook *book = g_task_propagate_pointer (G_TASK (result), &error);

  if (book == NULL)
    {
      pin_tell_error (GTK_WIDGET (self), _("The book was not opened:"), error);
      if (self->desk == NULL)
        pin_stable_page_show_none (self->stable_page);
      return;
    }
  pin_window_set_desk (self, pin_desk_new (book, self->texts));
}

void
pin_window_open_book (PinWindow *self, const char *path)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, opened, NULL);
  Opening *opening = g_new0 (Opening, 1);

  opening->path = g_strdup (path);
  opening->texts = pin_texts_ref (self->texts);
  g_task_set_task_data (task, opening, opening_free);
  g_task_run_in_thread (task, open_thread);
}

PinDesk *
pin_window_desk (PinWindow *self)
{
  return self->desk;
}

void
pin_window_add_strip (PinWindow *self, PinStrip *strip)
{
  GtkWidget *first;
  guint n = 0;

  for (first = gtk_widget_get_first_child (GTK_WIDGET (self->strips)); first != NULL;
       first = gtk_widget_get_next_sibling (first))
    n++;
  first = gtk_widget_get_first_child (GTK_WIDGET (self->strips));
  if (n >= MOST_STRIPS && first != NULL && pin_strip_kind (PIN_STRIP (first)) != PIN_STRIP_WORKING)
    pin_strip_close (PIN_STRIP (first));
  gtk_box_append (self->strips, GTK_WIDGET (strip));
}

void
pin_window_close_errors (PinWindow *self)
{
  GtkWidget *strip = gtk_widget_get_first_child (GTK_WIDGET (self->strips));

  while (strip != NULL)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (strip);

      if (pin_strip_kind (PIN_STRIP (strip)) == PIN_STRIP_ERROR)
        pin_strip_close (PIN_STRIP (strip));
      strip = next;
    }
}

void
pin_window_forget_undo (PinWindow *self)
{
  if (self->undo_free != NULL)
    self->undo_free (self->undo_data);
  self->undo = NULL;
  self->undo_data = NULL;
  self->undo_free = NULL;
  if (self->undo_strip != NULL)
    {
      g_autoptr (PinStrip) strip = g_steal_pointer (&self->undo_strip);

      g_signal_handlers_disconnect_by_data (strip, self);
      pin_strip_close (strip);
    }
  pin_window_enable (self, "undo", FALSE);
}

/* What is no longer told cannot be taken back by a key pressed blindly. */
static void
undo_strip_closed (PinWindow *self)
{
  g_clear_object (&self->undo_strip);
  pin_window_forget_undo (self);
}

static void
undo_pressed (gpointer data)
{
  gtk_widget_activate_action (data, "win.undo", NULL);
}

void
pin_window_offer_undo (PinWindow      *self,
                       const char     *title,
                       const char     *text,
                       PinUndo         undo,
                       gpointer        data,
                       GDestroyNotify  data_free)
{
  pin_window_forget_undo (self);
  self->undo = undo;
  self->undo_data = data;
  self->undo_free = data_free;
  self->undo_strip = g_object_ref_sink (pin_strip_new (PIN_STRIP_DONE, title, text));
  g_signal_connect_swapped (self->undo_strip, "closed", G_CALLBACK (undo_strip_closed), self);
  pin_strip_add_button (self->undo_strip, _("Undo"), "Ctrl Z", undo_pressed, self, NULL);
  pin_window_add_strip (self, self->undo_strip);
  pin_window_enable (self, "undo", TRUE);
}

static void
pin_window_dispose (GObject *object)
{
  PinWindow *self = PIN_WINDOW (object);

  g_clear_handle_id (&self->warming, g_source_remove);
  if (self->desk != NULL)
    g_signal_handlers_disconnect_by_data (self->desk, self);
  if (self->undo_free != NULL)
    g_clear_pointer (&self->undo_data, self->undo_free);
  self->undo_free = NULL;
  if (self->undo_strip != NULL)
    g_signal_handlers_disconnect_by_data (self->undo_strip, self);
  g_clear_object (&self->undo_strip);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->texts, pin_texts_unref);
  g_clear_pointer (&self->last_copy, g_free);
  self->footer = NULL;
  G_OBJECT_CLASS (pin_window_parent_class)->dispose (object);
}

static void
pin_window_class_init (PinWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_window_dispose;
  g_type_ensure (PIN_TYPE_STABLE_PAGE);
  gtk_widget_class_set_template_from_resource (widget_class, "/page/hingepin/Hingepin/ui/window.ui");
  gtk_widget_class_bind_template_child (widget_class, PinWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, tabs);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, vehicle_tab);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, record_tab);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, bench_tab);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, stable_page);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, reckoner_place);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, vehicle_place);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, record_place);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, bench_place);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, strips);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, footer);
  gtk_widget_class_bind_template_child (widget_class, PinWindow, menu);
  gtk_widget_class_bind_template_callback (widget_class, on_page);
}

static void
pin_window_init (PinWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (GTK_WIDGET (self->footer), g_object_new (PIN_TYPE_FOOTER_LAYOUT, NULL));
  pin_field_own_widths (self->tabs);
  pin_window_actions_add (self);
}

PinWindow *
pin_window_new (GtkApplication *application, PinTexts *texts)
{
  PinWindow *self = g_object_new (PIN_TYPE_WINDOW, "application", application, NULL);

  self->texts = pin_texts_ref (texts);
  return self;
}
