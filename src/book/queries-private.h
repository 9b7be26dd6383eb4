#pragma once

#include "book/queries.h"
#include "book/rows.h"

/* What the queries-*.c files share: the common shape of a query is a statement,
 * one or two bound values, and rows read by their description. */

GPtrArray *pin_query_rows  (PinDb           *db,
                            const PinTable  *table,
                            GDestroyNotify   free_row,
                            const char      *rest,
                            gint64           id,
                            const char      *text,
                            GError         **error);
GPtrArray *pin_query_sql   (PinDb           *db,
                            const PinTable  *table,
                            GDestroyNotify   free_row,
                            const char      *sql,
                            gint64           id,
                            const char      *text,
                            GError         **error);
gpointer   pin_query_first (GPtrArray       *rows);
gboolean   pin_query_greatest_id (PinDb     *db,
                                  gint64    *greatest,
                                  GError   **error);
