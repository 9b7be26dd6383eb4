#include "window/appearance.h"

#include "window/settings.h"

#define PORTAL "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_SETTINGS "org.freedesktop.portal.Settings"
#define PORTAL_GROUP "org.freedesktop.appearance"

static GtkCssProvider *palette_provider;
static gboolean desktop_dark;
static char *chosen;

static gboolean
is_dark (void)
{
  gboolean dark = FALSE;

  if (gtk_settings_get_default () != NULL)
    g_object_get (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", &dark, NULL);
  return dark;
}

const PinPalette *
pin_appearance_palette (void)
{
  return is_dark () ? pin_palette_dark () : pin_palette_light ();
}

static void
load_palette (void)
{
  g_autofree char *css = pin_palette_css (pin_appearance_palette ());

  gtk_css_provider_load_from_data (palette_provider, css, -1);
}

static void
apply (void)
{
  gboolean dark = desktop_dark;

  if (g_strcmp0 (chosen, "dark") == 0)
    dark = TRUE;
  else if (g_strcmp0 (chosen, "light") == 0)
    dark = FALSE;
  g_object_set (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", dark, NULL);
}

static void
take_scheme (GVariant *value)
{
  g_autoptr (GVariant) inner = g_variant_ref (value);

  /* The answer comes as a variant in a variant, the signal as one. */
  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT))
    {
      GVariant *next = g_variant_get_variant (inner);

      g_variant_unref (inner);
      inner = next;
    }
  if (!g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32))
    return;
  desktop_dark = g_variant_get_uint32 (inner) == 1;
  apply ();
}

static void
scheme_changed (GDBusConnection *bus, const char *sender, const char *path, const char *interface,
                const char *signal, GVariant *parameters, gpointer user_data)
{
  const char *group, *key;
  g_autoptr (GVariant) value = NULL;

  g_variant_get (parameters, "(&s&sv)", &group, &key, &value);
  if (g_str_equal (group, PORTAL_GROUP) && g_str_equal (key, "color-scheme"))
    take_scheme (value);
}

static void
scheme_read (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GVariant) answer = g_dbus_connection_call_finish (G_DBUS_CONNECTION (source), result,
                                                               NULL);
  g_autoptr (GVariant) value = NULL;

  /* No portal is no fault: the desktop then has no say. */
  if (answer == NULL)
    return;
  g_variant_get (answer, "(v)", &value);
  take_scheme (value);
}

static void
bus_found (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GDBusConnection) bus = g_bus_get_finish (result, NULL);

  if (bus == NULL)
    return;
  g_dbus_connection_signal_subscribe (bus, PORTAL, PORTAL_SETTINGS, "SettingChanged", PORTAL_PATH,
                                      NULL, G_DBUS_SIGNAL_FLAGS_NONE, scheme_changed, NULL, NULL);
  g_dbus_connection_call (bus, PORTAL, PORTAL_PATH, PORTAL_SETTINGS, "Read",
                          g_variant_new ("(ss)", PORTAL_GROUP, "color-scheme"),
                          G_VARIANT_TYPE ("(v)"), G_DBUS_CALL_FLAGS_NONE, 2000, NULL, scheme_read,
                          NULL);
}

static void
add_provider (GdkDisplay *display, GtkCssProvider *provider)
{
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

void
pin_appearance_start (GdkDisplay *display)
{
  g_autoptr (GtkCssProvider) sheet = gtk_css_provider_new ();

  if (palette_provider != NULL)
    return;
  palette_provider = gtk_css_provider_new ();
  chosen = pin_settings_get ("appearance");
  desktop_dark = is_dark ();
  if (chosen != NULL)
    apply ();
  load_palette ();
  add_provider (display, palette_provider);
  gtk_css_provider_load_from_resource (sheet, "/page/hingepin/Hingepin/app.css");
  add_provider (display, sheet);
  g_signal_connect (gtk_settings_get_default (), "notify::gtk-application-prefer-dark-theme",
                    G_CALLBACK (load_palette), NULL);
  g_bus_get (G_BUS_TYPE_SESSION, NULL, bus_found, NULL);
}

void
pin_appearance_choose (const char *choice)
{
  g_free (chosen);
  chosen = g_strdup (choice);
  pin_settings_set ("appearance", choice);
  apply ();
}

/* Returns: (transfer full) "system", "light" or "dark" */
char *
pin_appearance_choice (void)
{
  if (g_strcmp0 (chosen, "light") == 0 || g_strcmp0 (chosen, "dark") == 0)
    return g_strdup (chosen);
  return g_strdup ("system");
}
