#pragma once

#include <glib.h>

/* Lists for spreadsheets and scripts: RFC 4180, UTF-8, a header line, each line
 * ended by CR LF.  What is not known is an empty field.  Names are those of
 * the JSON, with the unit where there is one: they stay. */

typedef struct _PinCsv PinCsv;

PinCsv *pin_csv_new    (const char *const *names);
void    pin_csv_text   (PinCsv            *self,
                        const char        *text);   /* NULL: not known */
void    pin_csv_id     (PinCsv            *self,
                        gint64             id);     /* 0: none */
void    pin_csv_number (PinCsv            *self,
                        double             number); /* NAN: not known */
void    pin_csv_flag   (PinCsv            *self,
                        gboolean           flag);
void    pin_csv_print  (PinCsv            *self);   /* and free */
