#include "terminal/output.h"

#include <glib/gi18n.h>
#include <math.h>
#include <stdarg.h>

PinTextTable *
pin_text_table_new (const char *const *heads, guint right)
{
  PinTextTable *self = g_new0 (PinTextTable, 1);
  g_autoptr (GStrvBuilder) names = g_strv_builder_new ();

  self->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_strfreev);
  self->right = right;
  for (const char *const *head = heads; *head; head++)
    g_strv_builder_add (names, **head ? _(*head) : "");
  g_ptr_array_add (self->rows, g_strv_builder_end (names));
  return self;
}

/* One text for each head. */
void
pin_text_table_add (PinTextTable *self, ...)
{
  GPtrArray *row = g_ptr_array_new ();
  const char *text;
  va_list args;

  va_start (args, self);
  while ((text = va_arg (args, const char *)))
    g_ptr_array_add (row, g_strdup (text));
  va_end (args);
  g_ptr_array_add (row, NULL);
  g_ptr_array_add (self->rows, g_ptr_array_free (row, FALSE));
}

static void
print_cell (const char *text, glong width, gboolean right, gboolean last)
{
  int gap = (int) MAX (0, width - g_utf8_strlen (text, -1));

  if (right)
    g_print ("%*s%s", gap, "", text);
  else
    g_print ("%s%*s", text, last ? 0 : gap, "");
  g_print ("%s", last ? "\n" : "  ");
}

void
pin_text_table_print (PinTextTable *self)
{
  guint n = g_strv_length (g_ptr_array_index (self->rows, 0));
  g_autofree glong *widths = g_new0 (glong, n);

  for (guint r = 0; r < self->rows->len; r++)
    for (guint c = 0; c < n; c++)
      widths[c] = MAX (widths[c], g_utf8_strlen (((char **) g_ptr_array_index (self->rows, r))[c], -1));
  for (guint r = 0; r < self->rows->len; r++)
    for (guint c = 0; c < n; c++)
      print_cell (((char **) g_ptr_array_index (self->rows, r))[c], widths[c],
                  (self->right >> c) & 1, c + 1 == n);
  g_ptr_array_unref (self->rows);
  g_free (self);
}

void
pin_json_text (JsonBuilder *builder, const char *name, const char *text)
{
  json_builder_set_member_name (builder, name);
  if (text)
    json_builder_add_string_value (builder, text);
  else
    json_builder_add_null_value (builder);
}

void
pin_json_id (JsonBuilder *builder, const char *name, gint64 id)
{
  g_autofree char *text = id ? g_strdup_printf ("%" G_GINT64_FORMAT, id) : NULL;

  pin_json_text (builder, name, text);
}

void
pin_json_value (JsonBuilder *builder, const char *name, double value, const char *unit)
{
  json_builder_set_member_name (builder, name);
  if (!isfinite (value))
    {
      json_builder_add_null_value (builder);
      return;
    }
  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "value");
  json_builder_add_double_value (builder, value);
  json_builder_set_member_name (builder, "unit");
  json_builder_add_string_value (builder, unit);
  json_builder_end_object (builder);
}

void
pin_json_int (JsonBuilder *builder, const char *name, gint64 value)
{
  json_builder_set_member_name (builder, name);
  json_builder_add_int_value (builder, value);
}

void
pin_json_bool (JsonBuilder *builder, const char *name, gboolean value)
{
  json_builder_set_member_name (builder, name);
  json_builder_add_boolean_value (builder, value);
}

JsonBuilder *
pin_json_begin (void)
{
  JsonBuilder *builder = json_builder_new ();

  json_builder_begin_object (builder);
  return builder;
}

void
pin_json_list (JsonBuilder *builder, const char *name)
{
  json_builder_set_member_name (builder, name);
  json_builder_begin_array (builder);
}

void
pin_json_list_end (JsonBuilder *builder)
{
  json_builder_end_array (builder);
}

void
pin_json_print (JsonBuilder *builder)
{
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *text = NULL;

  json_builder_end_object (builder);
  root = json_builder_get_root (builder);
  text = json_to_string (root, TRUE);
  g_print ("%s\n", text);
  g_object_unref (builder);
}
