#include "ui/ui-private.h"

#include <string.h>

/* "_New New" is a button with a mnemonic and a label; people read "New". */
char *
pin_ui_clean_name (const char *name)
{
  g_autofree char *plain = g_strdup (name ? name : "");
  char *to = plain;
  gsize half;

  for (const char *from = plain; *from; from++)
    if (*from != '_' || from[1] == '_')
      *to++ = *from;
  *to = '\0';
  g_strstrip (plain);
  half = strlen (plain) / 2;
  if (strlen (plain) % 2 == 1 && plain[half] == ' ' && !strncmp (plain, plain + half + 1, half))
    plain[half] = '\0';
  return g_steal_pointer (&plain);
}

/* The toolkit doubles a name whose label has a mnemonic, so the name is compared
 * as it is and cleaned. */
gboolean
pin_ui_matches (const char *pattern, const char *text)
{
  g_autofree char *clean = NULL;

  if (pattern == NULL)
    return TRUE;
  if (g_str_equal (pattern, text))
    return TRUE;
  clean = pin_ui_clean_name (text);
  return strpbrk (pattern, "*?") ? g_pattern_match_simple (pattern, clean)
                                 : g_str_equal (pattern, clean);
}

char *
pin_ui_name_of (PinThing *thing)
{
  char *name = atspi_accessible_get_name (thing, NULL);

  return name ? name : g_strdup ("");
}

/* What an entry or label holds, else the name; free with g_free(). */
char *
pin_ui_says (PinThing *thing)
{
  g_autoptr (PinText) text = atspi_accessible_get_text_iface (thing);
  char *says = NULL;

  if (text)
    says = atspi_text_get_text (text, 0, atspi_text_get_character_count (text, NULL), NULL);
  return says ? says : pin_ui_name_of (thing);
}

gboolean
pin_ui_has_state (PinThing *thing, AtspiStateType state)
{
  g_autoptr (PinStateSet) set = atspi_accessible_get_state_set (thing);

  return set && atspi_state_set_contains (set, state);
}

/* NULL if it went away meanwhile; free with g_object_unref(). */
PinThing *
pin_ui_child (PinThing *of, int i)
{
  return atspi_accessible_get_child_at_index (of, i, NULL);
}

static gboolean
is_it (PinThing *thing, AtspiRole role, const char *name)
{
  g_autofree char *its = NULL;

  if (role && atspi_accessible_get_role (thing, NULL) != role)
    return FALSE;
  if (name == NULL)
    return TRUE;
  its = pin_ui_name_of (thing);
  return pin_ui_matches (name, its);
}

static void
collect (PinThing *from, AtspiRole role, const char *name, guint most, GPtrArray *found)
{
  int n;

  if (is_it (from, role, name))
    g_ptr_array_add (found, g_object_ref (from));
  n = atspi_accessible_get_child_count (from, NULL);
  for (int i = 0; i < n && found->len < most; i++)
    {
      g_autoptr (PinThing) child = pin_ui_child (from, i);

      if (child)
        collect (child, role, name, most, found);
    }
}

PinThing *
pin_ui_look_in (PinThing *from, AtspiRole role, const char *name)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func (g_object_unref);

  collect (from, role, name, 1, found);
  return found->len ? g_object_ref (g_ptr_array_index (found, 0)) : NULL;
}

/* The node of our process on the accessibility bus; NULL while it has none.  One
 * that was killed may stay on the bus for a moment, hence by number. */
PinThing *
pin_ui_application (PinUi *ui)
{
  g_autoptr (PinThing) desktop = atspi_get_desktop (0);
  int n;

  atspi_accessible_clear_cache (desktop);
  n = atspi_accessible_get_child_count (desktop, NULL);
  for (int i = 0; i < n; i++)
    {
      g_autoptr (PinThing) app = pin_ui_child (desktop, i);

      if (app && (GPid) atspi_accessible_get_process_id (app, NULL) == ui->pid)
        return g_steal_pointer (&app);
    }
  return NULL;
}

/* Found once and kept: the way there leads past hundreds of others. */
PinThing *
pin_ui_place (PinUi *ui)
{
  g_autoptr (PinThing) app = NULL;

  if (ui->inside)
    {
      atspi_accessible_clear_cache (ui->inside);
      if (is_it (ui->inside, ui->inside_role, ui->inside_name))
        return g_object_ref (ui->inside);
      g_clear_object (&ui->inside);
    }
  app = pin_ui_application (ui);
  if (app == NULL || (ui->inside_role == 0 && ui->inside_name == NULL))
    return g_steal_pointer (&app);
  ui->inside = pin_ui_look_in (app, ui->inside_role, ui->inside_name);
  return ui->inside ? g_object_ref (ui->inside) : NULL;
}

void
pin_ui_inside (PinUi *ui, AtspiRole role, const char *name)
{
  g_clear_object (&ui->inside);
  ui->inside_role = role;
  g_free (ui->inside_name);
  ui->inside_name = g_strdup (name);
}

PinThing *
pin_ui_look (PinUi *ui, AtspiRole role, const char *name)
{
  g_autoptr (PinThing) place = pin_ui_place (ui);

  return place ? pin_ui_look_in (place, role, name) : NULL;
}

int
pin_ui_count (PinUi *ui, AtspiRole role, const char *name)
{
  g_autoptr (PinThing) place = pin_ui_place (ui);
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func (g_object_unref);

  if (place)
    collect (place, role, name, G_MAXUINT, found);
  return found->len;
}

static void
print_tree (PinThing *thing, int depth, GString *out)
{
  g_autofree char *role = atspi_accessible_get_role_name (thing, NULL);
  g_autofree char *name = pin_ui_name_of (thing);
  g_autofree char *says = pin_ui_says (thing);
  int n = atspi_accessible_get_child_count (thing, NULL);

  g_string_append_printf (out, "%*s[%s] “%s”", depth * 2, "", role ? role : "gone", name);
  if (!g_str_equal (says, name))
    g_string_append_printf (out, " says “%s”", says);
  if (pin_ui_has_state (thing, ATSPI_STATE_FOCUSED))
    g_string_append (out, " focused");
  if (!pin_ui_has_state (thing, ATSPI_STATE_SENSITIVE))
    g_string_append (out, " insensitive");
  if (pin_ui_has_state (thing, ATSPI_STATE_SELECTED))
    g_string_append (out, " selected");
  if (pin_ui_has_state (thing, ATSPI_STATE_CHECKED) ||
      pin_ui_has_state (thing, ATSPI_STATE_PRESSED))
    g_string_append (out, " on");
  g_string_append_c (out, '\n');
  for (int i = 0; i < n; i++)
    {
      g_autoptr (PinThing) child = pin_ui_child (thing, i);

      if (child)
        print_tree (child, depth + 1, out);
    }
}

char *
pin_ui_tree (PinUi *ui)
{
  g_autoptr (PinThing) place = pin_ui_place (ui);
  GString *out = g_string_new (NULL);

  if (place)
    print_tree (place, 0, out);
  return g_string_free (out, FALSE);
}

typedef struct
{
  AtspiRole role;
  const char *name;
  const char *text;
  AtspiStateType state;
  gboolean on;
  PinThing *found;
} Wanted;

static gboolean
is_there (PinUi *ui, gpointer data)
{
  Wanted *wanted = data;

  wanted->found = pin_ui_look (ui, wanted->role, wanted->name);
  return wanted->found != NULL;
}

static gboolean
is_gone (PinUi *ui, gpointer data)
{
  Wanted *wanted = data;
  g_autoptr (PinThing) thing = pin_ui_look (ui, wanted->role, wanted->name);

  return thing == NULL;
}

static gboolean
says_so (PinUi *ui, gpointer data)
{
  Wanted *wanted = data;
  g_autoptr (PinThing) thing = pin_ui_look (ui, wanted->role, wanted->name);
  g_autofree char *says = thing ? pin_ui_says (thing) : NULL;

  return says && pin_ui_matches (wanted->text, says);
}

static gboolean
has_come_to (PinUi *ui, gpointer data)
{
  Wanted *wanted = data;
  g_autoptr (PinThing) thing = pin_ui_look (ui, wanted->role, wanted->name);

  return thing && pin_ui_has_state (thing, wanted->state) == wanted->on;
}

static const char *
role_word (AtspiRole role)
{
  static char *word;

  g_free (word);
  word = role ? atspi_role_get_name (role) : g_strdup ("thing");
  return word;
}

PinThing *
pin_ui_find_at (const char *where, PinUi *ui, AtspiRole role, const char *name)
{
  Wanted wanted = { .role = role, .name = name };

  if (!pin_ui_poll (where, ui, is_there, &wanted))
    pin_ui_fail (where, ui, "no %s “%s” appeared", role_word (role), name ? name : "");
  return wanted.found;
}

void
pin_ui_wait_at (const char *where, PinUi *ui, AtspiRole role, const char *name)
{
  g_object_unref (pin_ui_find_at (where, ui, role, name));
}

void
pin_ui_wait_gone_at (const char *where, PinUi *ui, AtspiRole role, const char *name)
{
  Wanted wanted = { .role = role, .name = name };

  if (!pin_ui_poll (where, ui, is_gone, &wanted))
    pin_ui_fail (where, ui, "the %s “%s” is still there", role_word (role), name ? name : "");
}

void
pin_ui_wait_text_at (const char *where, PinUi *ui, AtspiRole role, const char *name,
                     const char *text)
{
  Wanted wanted = { .role = role, .name = name, .text = text };

  if (!pin_ui_poll (where, ui, says_so, &wanted))
    pin_ui_fail (where, ui, "the %s “%s” never said “%s”", role_word (role), name ? name : "",
                 text);
}

void
pin_ui_wait_state_at (const char *where, PinUi *ui, AtspiRole role, const char *name,
                      AtspiStateType state, gboolean on)
{
  Wanted wanted = { .role = role, .name = name, .state = state, .on = on };

  if (!pin_ui_poll (where, ui, has_come_to, &wanted))
    pin_ui_fail (where, ui, "the %s “%s” never came to have state %d %s", role_word (role),
                 name ? name : "", (int) state, on ? "on" : "off");
}
