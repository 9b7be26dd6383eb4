#include "ui/ui-private.h"

#include <gio/gio.h>
#include <stdio.h>
#include <string.h>

static int
action_index (PinThing *thing, const char *const *names)
{
  g_autoptr (PinAction) actions = atspi_accessible_get_action_iface (thing);
  int n = actions ? atspi_action_get_n_actions (actions, NULL) : 0;

  for (int i = 0; i < n; i++)
    {
      g_autofree char *name = atspi_action_get_action_name (actions, i, NULL);

      if (name && g_strv_contains (names, name))
        return i;
    }
  return -1;
}

static gboolean
do_action (PinThing *thing, int i)
{
  g_autoptr (PinAction) actions = atspi_accessible_get_action_iface (thing);

  return atspi_action_do_action (actions, i, NULL);
}

/* Ready to be used: an insensitive button takes no press. */
static PinThing *
find_ready (const char *where, PinUi *ui, AtspiRole role, const char *name)
{
  pin_ui_wait_state_at (where, ui, role, name, ATSPI_STATE_SENSITIVE, TRUE);
  return pin_ui_find_at (where, ui, role, name);
}

/* The real button of a menu button or drop-down is inside it. */
static PinThing *
inner_button (PinThing *thing)
{
  int n = atspi_accessible_get_child_count (thing, NULL);

  for (int i = 0; i < n; i++)
    {
      g_autoptr (PinThing) child = pin_ui_child (thing, i);
      PinThing *button = child ? pin_ui_look_in (child, ATSPI_ROLE_PUSH_BUTTON, NULL) : NULL;

      if (child && button == NULL)
        button = pin_ui_look_in (child, ATSPI_ROLE_TOGGLE_BUTTON, NULL);
      if (button)
        return button;
    }
  return NULL;
}

void
pin_ui_press_at (const char *where, PinUi *ui, AtspiRole role, const char *name)
{
  static const char *const words[] = { "click", "toggle", "activate", "press", NULL };
  g_autoptr (PinThing) thing = find_ready (where, ui, role, name);
  int i = action_index (thing, words);

  if (i < 0)
    {
      g_autoptr (PinThing) inner = inner_button (thing);

      i = inner ? action_index (inner, words) : -1;
      if (i < 0)
        pin_ui_fail (where, ui, "“%s” cannot be pressed; try pin_ui_click()", name ? name : "");
      g_set_object (&thing, inner);
    }
  if (!do_action (thing, i))
    pin_ui_fail (where, ui, "pressing “%s” was refused", name ? name : "");
}

/* Where on the screen the window with the focus begins. */
static void
window_origin (const char *where, PinUi *ui, int *x, int *y)
{
  g_autofree char *id = NULL;
  g_autofree char *info = NULL;
  const char *left, *top;

  pin_ui_run_tool (where, ui, &id, "xdotool", "getactivewindow", NULL);
  pin_ui_run_tool (where, ui, &info, "xwininfo", "-id", id, NULL);
  left = strstr (info, "Absolute upper-left X:");
  top = strstr (info, "Absolute upper-left Y:");
  if (left == NULL || top == NULL || sscanf (left, "Absolute upper-left X: %d", x) != 1 ||
      sscanf (top, "Absolute upper-left Y: %d", y) != 1)
    pin_ui_fail (where, ui, "xwininfo did not tell where the window is");
}

/* The window's own coordinates: asked for those of the screen, the toolkit warns. */
void
pin_ui_click_at (const char *where, PinUi *ui, AtspiRole role, const char *name)
{
  g_autoptr (PinThing) thing = find_ready (where, ui, role, name);
  g_autoptr (PinComponent) component = atspi_accessible_get_component_iface (thing);
  g_autofree AtspiRect *extents = NULL;
  g_autofree char *x = NULL;
  g_autofree char *y = NULL;
  int left = 0, top = 0;

  if (component)
    extents = atspi_component_get_extents (component, ATSPI_COORD_TYPE_WINDOW, NULL);
  if (extents == NULL || extents->width <= 0)
    pin_ui_fail (where, ui, "“%s” is nowhere on the screen", name ? name : "");
  window_origin (where, ui, &left, &top);
  x = g_strdup_printf ("%d", left + extents->x + extents->width / 2);
  y = g_strdup_printf ("%d", top + extents->y + extents->height / 2);
  pin_ui_run_tool (where, ui, NULL, "xdotool", "mousemove", "--sync", x, y, "click", "1", NULL);
}

char *
pin_ui_text_at (const char *where, PinUi *ui, AtspiRole role, const char *name)
{
  g_autoptr (PinThing) thing = pin_ui_find_at (where, ui, role, name);

  return pin_ui_says (thing);
}

double
pin_ui_value_at (const char *where, PinUi *ui, AtspiRole role, const char *name)
{
  g_autoptr (PinThing) thing = pin_ui_find_at (where, ui, role, name);
  g_autoptr (PinValue) value = atspi_accessible_get_value_iface (thing);

  if (value == NULL)
    pin_ui_fail (where, ui, "“%s” has no value", name ? name : "");
  return atspi_value_get_current_value (value, NULL);
}

void
pin_ui_set_text_at (const char *where, PinUi *ui, AtspiRole role, const char *name,
                    const char *text)
{
  g_autoptr (PinThing) thing = find_ready (where, ui, role, name);
  g_autoptr (PinEditableText) editable = atspi_accessible_get_editable_text_iface (thing);

  if (editable == NULL || !atspi_editable_text_set_text_contents (editable, text, NULL))
    pin_ui_fail (where, ui, "“%s” takes no text", name ? name : "");
}

void
pin_ui_set_value_at (const char *where, PinUi *ui, AtspiRole role, const char *name, double value)
{
  g_autoptr (PinThing) thing = find_ready (where, ui, role, name);
  g_autoptr (PinValue) holder = atspi_accessible_get_value_iface (thing);

  if (holder == NULL || !atspi_value_set_current_value (holder, value, NULL))
    pin_ui_fail (where, ui, "“%s” takes no value", name ? name : "");
}

static gboolean
row_matches (PinThing *row, const char *pattern)
{
  g_autofree char *name = pin_ui_name_of (row);
  g_autoptr (PinThing) label = NULL;

  if (pin_ui_matches (pattern, name))
    return TRUE;
  label = pin_ui_look_in (row, ATSPI_ROLE_LABEL, pattern);
  return label != NULL;
}

typedef struct
{
  AtspiRole role;
  const char *name;
  const char *row;
} Row;

static int
row_index (PinThing *list, const char *pattern)
{
  int n = atspi_accessible_get_child_count (list, NULL);

  for (int i = 0; i < n; i++)
    {
      g_autoptr (PinThing) row = pin_ui_child (list, i);

      if (row && row_matches (row, pattern))
        return i;
    }
  return -1;
}

static gboolean
select_in (PinThing *list, const char *pattern)
{
  g_autoptr (PinSelection) selection = atspi_accessible_get_selection_iface (list);
  int i = selection ? row_index (list, pattern) : -1;

  return i >= 0 && atspi_selection_select_child (selection, i, NULL);
}

static gboolean
select_row (PinUi *ui, gpointer data)
{
  Row *wanted = data;
  g_autoptr (PinThing) list = pin_ui_look (ui, wanted->role, wanted->name);

  return list && select_in (list, wanted->row);
}

void
pin_ui_select_at (const char *where, PinUi *ui, AtspiRole role, const char *name, const char *row)
{
  Row wanted = { role, name, row };

  if (!pin_ui_poll (where, ui, select_row, &wanted))
    pin_ui_fail (where, ui, "no row “%s” could be selected in “%s”", row, name ? name : "");
}

static gboolean
select_in_popup (PinUi *ui, gpointer data)
{
  Row *wanted = data;
  g_autoptr (PinThing) drop_down = pin_ui_look (ui, wanted->role, wanted->name);
  g_autoptr (PinThing) list = NULL;

  if (drop_down)
    list = pin_ui_look_in (drop_down, ATSPI_ROLE_LIST_BOX, NULL);
  if (drop_down && list == NULL)
    list = pin_ui_look_in (drop_down, ATSPI_ROLE_LIST, NULL);
  return list && select_in (list, wanted->row);
}

/* Selecting in the popup only moves the focus there: Return chooses. */
void
pin_ui_choose_at (const char *where, PinUi *ui, AtspiRole role, const char *name, const char *item)
{
  Row wanted = { role, name, item };

  pin_ui_press_at (where, ui, role, name);
  if (!pin_ui_poll (where, ui, select_in_popup, &wanted))
    pin_ui_fail (where, ui, "“%s” does not offer “%s”", name ? name : "", item);
  pin_ui_key_at (where, ui, "Return");
}

static gboolean
call_action (PinUi *ui, gpointer action)
{
  const char *words[] = { action, NULL };
  g_autoptr (PinThing) app = pin_ui_application (ui);
  g_autoptr (PinThing) frame = app ? pin_ui_look_in (app, ATSPI_ROLE_FRAME, NULL) : NULL;
  int i = frame ? action_index (frame, words) : -1;

  if (i < 0)
    return FALSE;
  if (do_action (frame, i))
    return TRUE;
  /* One that ends the program may take its answer with it. */
  for (int waited = 0; waited < 40 && !pin_ui_has_ended (ui); waited++)
    g_usleep (50000);
  return pin_ui_has_ended (ui);
}

void
pin_ui_action_at (const char *where, PinUi *ui, const char *action)
{
  if (!pin_ui_poll (where, ui, call_action, (gpointer) action))
    pin_ui_fail (where, ui, "the window offers no action “%s”", action);
}

/* One question to the bus itself; NULL if it has no answer. */
static GVariant *
ask_bus (GDBusConnection *bus, const char *question, GVariant *about, const char *type)
{
  return g_dbus_connection_call_sync (bus, "org.freedesktop.DBus", "/org/freedesktop/DBus",
                                      "org.freedesktop.DBus", question, about,
                                      G_VARIANT_TYPE (type), G_DBUS_CALL_FLAGS_NONE, -1, NULL,
                                      NULL);
}

/* The name that our process owns on the session bus; free with g_free(). */
static char *
bus_name (GDBusConnection *bus, GPid pid)
{
  g_autoptr (GVariant) reply = ask_bus (bus, "ListNames", NULL, "(as)");
  g_autofree const char **names = NULL;

  g_variant_get (reply, "(^a&s)", &names);
  for (int i = 0; names[i]; i++)
    {
      g_autoptr (GVariant) owner = NULL;
      guint32 number = 0;

      if (names[i][0] == ':' || g_str_has_prefix (names[i], "org.freedesktop.") ||
          g_str_has_prefix (names[i], "org.a11y."))
        continue;
      owner = ask_bus (bus, "GetConnectionUnixProcessID", g_variant_new ("(s)", names[i]), "(u)");
      if (owner)
        g_variant_get (owner, "(u)", &number);
      if ((GPid) number == pid)
        return g_strdup (names[i]);
    }
  return NULL;
}

/* The bus learns of the end of a process a little later than we; whoever starts
 * meanwhile would hand over to one that is gone. */
void
pin_ui_wait_off_bus (GPid pid)
{
  g_autoptr (GDBusConnection) bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);

  for (int i = 0; i < 500; i++)
    {
      g_autofree char *name = bus_name (bus, pid);

      if (name == NULL)
        return;
      g_usleep (10000);
    }
}

void
pin_ui_activate_at (const char *where, PinUi *ui, const char *action, GVariant *parameter)
{
  g_autoptr (GDBusConnection) bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  g_autofree char *name = bus_name (bus, ui->pid);
  g_autofree char *path = NULL;
  g_autoptr (GVariant) reply = NULL;
  g_autoptr (GError) error = NULL;
  GVariantBuilder parameters;
  GVariant *arguments;
  gboolean of_app = g_str_has_prefix (action, "app.");

  if (name == NULL)
    pin_ui_fail (where, ui, "the program owns no name on the session bus");
  path = g_strdup_printf ("/%s%s", name, of_app ? "" : "/window/1");
  g_strdelimit (path, ".", '/');
  g_strdelimit (path, "-", '_');
  g_variant_builder_init (&parameters, G_VARIANT_TYPE ("av"));
  if (parameter)
    g_variant_builder_add (&parameters, "v", parameter);
  arguments = g_variant_new ("(sava{sv})", of_app ? action + 4 : action, &parameters, NULL);
  reply = g_dbus_connection_call_sync (bus, name, path, "org.gtk.Actions", "Activate", arguments,
                                       NULL, G_DBUS_CALL_FLAGS_NONE, -1, NULL, &error);
  if (reply == NULL)
    pin_ui_fail (where, ui, "the action “%s”: %s", action, error->message);
}

void
pin_ui_key_at (const char *where, PinUi *ui, const char *keys)
{
  pin_ui_run_tool (where, ui, NULL, "xdotool", "key", "--clearmodifiers", keys, NULL);
}

void
pin_ui_type_at (const char *where, PinUi *ui, const char *text)
{
  pin_ui_run_tool (where, ui, NULL, "xdotool", "type", "--delay", "30", text, NULL);
}

enum { MOST_TABS = 160, TAB_US = 120000 };

/* A menu button or drop-down keeps the focus in the button inside it. */
static gboolean
has_focus (PinThing *thing)
{
  g_autoptr (PinThing) inner = NULL;

  atspi_accessible_clear_cache (thing);
  if (pin_ui_has_state (thing, ATSPI_STATE_FOCUSED))
    return TRUE;
  inner = inner_button (thing);
  return inner && pin_ui_has_state (inner, ATSPI_STATE_FOCUSED);
}

static gboolean
gets_focus (PinThing *thing)
{
  gint64 last = g_get_monotonic_time () + TAB_US;

  do
    {
      if (has_focus (thing))
        return TRUE;
      g_usleep (4000);
    }
  while (g_get_monotonic_time () < last);
  return FALSE;
}

void
pin_ui_tab_to_thing (const char *where, PinUi *ui, const char *tab, PinThing *thing)
{
  g_autofree char *name = NULL;

  for (int i = 0; i < MOST_TABS; i++)
    {
      if (gets_focus (thing))
        return;
      pin_ui_key_at (where, ui, tab);
    }
  name = pin_ui_name_of (thing);
  pin_ui_fail (where, ui, "%s does not lead to “%s”", tab, name);
}

void
pin_ui_tab_to_at (const char *where, PinUi *ui, const char *tab, AtspiRole role, const char *name)
{
  g_autoptr (PinThing) thing = pin_ui_find_at (where, ui, role, name);

  pin_ui_tab_to_thing (where, ui, tab, thing);
}

void
pin_ui_resize_at (const char *where, PinUi *ui, int width, int height)
{
  g_autofree char *id = NULL;
  g_autofree char *w = g_strdup_printf ("%d", width);
  g_autofree char *h = g_strdup_printf ("%d", height);

  pin_ui_run_tool (where, ui, &id, "xdotool", "getactivewindow", NULL);
  pin_ui_run_tool (where, ui, NULL, "xdotool", "windowsize", id, w, h, NULL);
}

void
pin_ui_screenshot_at (const char *where, PinUi *ui, const char *file)
{
  pin_ui_run_tool (where, ui, NULL, "import", "-window", "root", file, NULL);
}
