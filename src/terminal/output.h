#pragma once

#include <json-glib/json-glib.h>

/* Lines and JSON on standard output. */

typedef struct
{
  GPtrArray *rows;            /* char** */
  guint right;                /* bit n: column n is aligned right */
} PinTextTable;

PinTextTable *pin_text_table_new   (const char   *const *heads,
                                    guint                right);
void          pin_text_table_add   (PinTextTable        *self,
                                    ...) G_GNUC_NULL_TERMINATED;
void          pin_text_table_print (PinTextTable        *self); /* and free */

void          pin_json_text        (JsonBuilder         *builder,
                                    const char          *name,
                                    const char          *text);   /* NULL: null */
void          pin_json_id          (JsonBuilder         *builder,
                                    const char          *name,
                                    gint64               id);     /* as a string; 0: null */
void          pin_json_value       (JsonBuilder         *builder,
                                    const char          *name,
                                    double               value,
                                    const char          *unit);   /* NAN: null */
void          pin_json_int         (JsonBuilder         *builder,
                                    const char          *name,
                                    gint64               value);
void          pin_json_bool        (JsonBuilder         *builder,
                                    const char          *name,
                                    gboolean             value);
JsonBuilder  *pin_json_begin       (void);
void          pin_json_list        (JsonBuilder         *builder,
                                    const char          *name);
void          pin_json_list_end    (JsonBuilder         *builder);
void          pin_json_print       (JsonBuilder         *builder); /* ends the object, prints, frees */
