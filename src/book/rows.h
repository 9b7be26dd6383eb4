#pragma once

#include "book/db-private.h"
#include "book/facts.h"

/* How a plain struct and a row of the book correspond, written once for each:
 * inserting, reading, copying and freeing all follow the same description. */

typedef enum
{
  PIN_COLUMN_ID,              /* gint64; 0 is NULL */
  PIN_COLUMN_TEXT,            /* char * */
  PIN_COLUMN_DAY,             /* char *, a civil date */
  PIN_COLUMN_REAL,            /* double; NAN is NULL */
  PIN_COLUMN_FLAG,            /* gboolean */
  PIN_COLUMN_COUNT,           /* int; -1 is NULL */
  PIN_COLUMN_MONEY,           /* gint64; -1 is NULL */
  PIN_COLUMN_PHASE,           /* PinPhase */
  PIN_COLUMN_PHASE_OR_NULL,   /* PinPhase; ONLY is NULL */
  PIN_COLUMN_OUTCOME,         /* PinOutcome */
  PIN_COLUMN_GRAVITY,         /* PinGravity; NONE is NULL */
  PIN_COLUMN_REALS,           /* GArray of double as a JSON array */
  PIN_COLUMN_SHA,             /* char *, hex; 32 bytes in the book */
  PIN_COLUMN_BYTES,           /* GBytes * */
} PinColumnType;

typedef struct
{
  const char *name;
  PinColumnType type;
  gsize offset;
} PinColumn;

typedef struct
{
  const char *name;           /* of the table */
  gsize size;                 /* of the struct */
  const PinColumn *columns;
  int n_columns;
  gboolean lives;             /* has void and live */
  const char *conflict;       /* " ON CONFLICT …", or NULL */
} PinTable;

extern const PinTable pin_table_trait, pin_table_fitting, pin_table_outing, pin_table_inspection,
  pin_table_sign_off, pin_table_answer, pin_table_reading, pin_table_work, pin_table_owed,
  pin_table_finding, pin_table_own_rule, pin_table_own_limit, pin_table_stock, pin_table_photo,
  pin_table_vehicle, pin_table_place, pin_table_part, pin_table_supply, pin_table_source,
  pin_table_image, pin_table_walk_plan, pin_table_draft, pin_table_outing_part;

/* Structs for rows that facts.h gives to the batch as arguments. */
typedef struct { gint64 id; char *chassis; } PinVehicleFact;
typedef struct { gint64 id, vehicle; char *code, *kind; gint64 carrier; } PinPlaceFact;
typedef struct { gint64 id; char *kind; gint64 made_from; } PinPartFact;
typedef struct { gint64 id; char *kind, *size, *name, *unit; } PinSupplyFact;
typedef struct { char *sha, *room, *code; GBytes *xml; } PinSourceFact;
typedef struct { char *sha; GBytes *jpeg; } PinImageFact;
typedef struct { gint64 id, inspection; char *plan; } PinWalkPlanFact;
typedef struct { gint64 inspection; char *state; } PinDraftFact;
typedef struct { gint64 outing, part; double runs, seconds; } PinOutingPartFact;
typedef struct
{
  gint64 id, of;
  char *sha, *caption, *day, *person;
  gint64 replaces;
  gboolean is_void;
} PinPhotoFact;

gpointer    pin_row_copy    (const PinTable  *table,
                             gconstpointer    row);
void        pin_row_free    (const PinTable  *table,
                             gpointer         row);
gboolean    pin_row_insert  (PinDb           *db,
                             const PinTable  *table,
                             gconstpointer    row,
                             GError         **error);
gpointer    pin_row_read    (const PinTable  *table,
                             PinStmt         *stmt);
char       *pin_row_columns (const PinTable  *table,
                             const char      *alias);
GPtrArray  *pin_rows_read   (const PinTable  *table,
                             PinStmt         *stmt,
                             GDestroyNotify   free_row,
                             GError         **error);
PinStmt    *pin_rows_select (PinDb           *db,
                             const PinTable  *table,
                             const char      *rest,
                             GError         **error);
char       *pin_sha_text    (const void      *data,
                             gsize            size);
gboolean    pin_sha_bytes   (const char      *text,
                             guint8           bytes[32]);
