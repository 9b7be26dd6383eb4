#include "ui/ui-private.h"

#include <string.h>

/* What a person can use must have a name that a screen reader can say. */
static gboolean
needs_name (PinThing *thing)
{
  switch (atspi_accessible_get_role (thing, NULL))
    {
    case ATSPI_ROLE_PUSH_BUTTON:
    case ATSPI_ROLE_TOGGLE_BUTTON:
    case ATSPI_ROLE_CHECK_BOX:
    case ATSPI_ROLE_RADIO_BUTTON:
    case ATSPI_ROLE_ENTRY:
    case ATSPI_ROLE_TEXT:
    case ATSPI_ROLE_SPIN_BUTTON:
    case ATSPI_ROLE_SLIDER:
    case ATSPI_ROLE_COMBO_BOX:
    case ATSPI_ROLE_MENU_ITEM:
    case ATSPI_ROLE_CHECK_MENU_ITEM:
    case ATSPI_ROLE_PAGE_TAB:
    case ATSPI_ROLE_LIST_ITEM:
    case ATSPI_ROLE_IMAGE:
      return TRUE;
    default:
      return FALSE;
    }
}

/* The toolkit's own parts, named by the whole that they belong to. */
static gboolean
is_whole (PinThing *thing)
{
  switch (atspi_accessible_get_role (thing, NULL))
    {
    case ATSPI_ROLE_SPIN_BUTTON:
    case ATSPI_ROLE_COMBO_BOX:
    case ATSPI_ROLE_ENTRY:
    case ATSPI_ROLE_PUSH_BUTTON:
    case ATSPI_ROLE_TOGGLE_BUTTON:
    case ATSPI_ROLE_PAGE_TAB:
      return TRUE;
    default:
      return FALSE;
    }
}

/* The toolkit falls back to the name of the type, "GtkButton". */
static gboolean
is_name (const char *name)
{
  gboolean of_type = g_str_has_prefix (name, "Gtk") || g_str_has_prefix (name, "Pin");

  return *name && !(of_type && g_ascii_isupper (name[3]) && strchr (name, ' ') == NULL);
}

/* A menu button is a frame round the button that takes the focus. */
static gboolean
is_frame_of_button (PinThing *thing)
{
  g_autoptr (PinThing) inner = NULL;

  if (pin_ui_has_state (thing, ATSPI_STATE_FOCUSABLE) ||
      atspi_accessible_get_role (thing, NULL) != ATSPI_ROLE_PUSH_BUTTON)
    return FALSE;
  inner = pin_ui_child (thing, 0);
  return inner && atspi_accessible_get_role (inner, NULL) == ATSPI_ROLE_PUSH_BUTTON;
}

static void
collect_nameless (PinThing *thing, const char *path, GPtrArray *nameless)
{
  g_autofree char *role = atspi_accessible_get_role_name (thing, NULL);
  g_autofree char *name = pin_ui_name_of (thing);
  g_autofree char *here = g_strdup_printf ("%s / %s “%s”", path, role ? role : "gone", name);
  gboolean is_frame = is_frame_of_button (thing);
  int n = atspi_accessible_get_child_count (thing, NULL);

  if (!is_frame && needs_name (thing) && !is_name (name))
    {
      g_autofree char *description = atspi_accessible_get_description (thing, NULL);

      if (description == NULL || *description == '\0')
        g_ptr_array_add (nameless, g_strdup (here));
    }
  if (is_whole (thing) && !is_frame)
    return;
  for (int i = 0; i < n; i++)
    {
      g_autoptr (PinThing) child = pin_ui_child (thing, i);

      if (child)
        collect_nameless (child, here, nameless);
    }
}

void
pin_ui_all_named_at (const char *where, PinUi *ui)
{
  g_autoptr (PinThing) place = pin_ui_place (ui);
  g_autoptr (GPtrArray) nameless = g_ptr_array_new_with_free_func (g_free);

  if (place == NULL)
    pin_ui_fail (where, ui, "the program is not on the accessibility bus");
  collect_nameless (place, "", nameless);
  for (guint i = 0; i < nameless->len; i++)
    g_test_message ("without a name:%s", (char *) nameless->pdata[i]);
  if (nameless->len)
    pin_ui_fail (where, ui, "%u things that can be used have no name", nameless->len);
}
