/* bearings */

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "service/bearing-sizes.h"
#include "terminal/session.h"

static gpointer
load_sizes (PinDb *db, gint64 unused, GError **error)
{
  return pin_bearing_sizes_load (db, error);
}

static void
json_sizes (const GPtrArray *sizes)
{
  JsonBuilder *builder = pin_json_begin ();

  pin_json_list (builder, "bearings");
  for (guint i = 0; i < sizes->len; i++)
    {
      const PinBearingSize *size = g_ptr_array_index (sizes, i);

      json_builder_begin_object (builder);
      pin_json_text (builder, "size", size->size);
      pin_json_text (builder, "designation", size->designation);
      pin_json_text (builder, "closure", size->closure);
      pin_json_value (builder, "bore", size->bore / 1000, "m");
      pin_json_value (builder, "outside", size->outside / 1000, "m");
      pin_json_value (builder, "width", size->width / 1000, "m");
      pin_json_int (builder, "fitted", size->fitted);
      pin_json_int (builder, "on-the-shelf", size->shelved);
      pin_json_list (builder, "cars");
      for (guint k = 0; k < size->cars->len; k++)
        json_builder_add_string_value (builder, g_ptr_array_index (size->cars, k));
      pin_json_list_end (builder);
      json_builder_end_object (builder);
    }
  pin_json_list_end (builder);
  pin_json_print (builder);
}

static char *
cars_text (const PinBearingSize *size)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < size->cars->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", (char *) g_ptr_array_index (size->cars, i));
  return g_string_free (text, FALSE);
}

static void
csv_sizes (const GPtrArray *sizes)
{
  static const char *const names[] = { "size", "designation", "closure", "fitted", "on-the-shelf", "cars", NULL };
  PinCsv *csv = pin_csv_new (names);

  for (guint i = 0; i < sizes->len; i++)
    {
      const PinBearingSize *size = g_ptr_array_index (sizes, i);
      g_autofree char *cars = cars_text (size);

      pin_csv_text (csv, size->size);
      pin_csv_text (csv, size->designation);
      pin_csv_text (csv, size->closure);
      pin_csv_number (csv, size->fitted);
      pin_csv_number (csv, size->shelved);
      pin_csv_text (csv, cars);
    }
  pin_csv_print (csv);
}

static void
print_sizes (const GPtrArray *sizes)
{
  static const char *const heads[] = { N_("Size"), N_("Designation"), N_("Fitted"), N_("On the shelf"), N_("Cars"),
                                       NULL };
  PinTextTable *table;

  if (sizes->len == 0)
    {
      g_print ("%s\n", _("No car of the stable has a bearing whose size is known."));
      return;
    }
  table = pin_text_table_new (heads, 1 << 2 | 1 << 3);
  for (guint i = 0; i < sizes->len; i++)
    {
      const PinBearingSize *size = g_ptr_array_index (sizes, i);
      g_autofree char *fitted = g_strdup_printf ("%u", size->fitted);
      g_autofree char *shelved = g_strdup_printf ("%u", size->shelved);
      g_autofree char *cars = cars_text (size);

      pin_text_table_add (table, size->size, size->designation != NULL ? size->designation : "-", fitted, shelved,
                          cars, NULL);
    }
  pin_text_table_print (table);
}

gboolean
pin_verb_bearings (PinSession *session, GError **error)
{
  g_autoptr (GPtrArray) sizes = NULL;

  if (session->options->args[0] != NULL)
    return pin_session_usage (error, _("“bearings” lists the whole stable, “%s” is one too many"),
                              session->options->args[0]);
  if (pin_session_book (session, FALSE, error) == NULL)
    return FALSE;
  sizes = pin_session_run (session, load_sizes, 0, error);
  if (sizes == NULL)
    return FALSE;
  if (session->options->json)
    json_sizes (sizes);
  else if (session->options->csv)
    csv_sizes (sizes);
  else
    print_sizes (sizes);
  return TRUE;
}
