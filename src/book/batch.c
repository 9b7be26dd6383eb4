#include "book/batch.h"

#include <glib/gi18n.h>

#include "base/day.h"
#include "book/book.h"
#include "book/derive.h"
#include "book/rows.h"

typedef struct
{
  const PinTable *table;
  gpointer row;
} Op;

struct _PinBatch
{
  PinBook *book;
  GArray *ops; /* Op, in the order they were asked for */
  char *wrong; /* what makes the batch unwritable, or NULL */
};

static void
op_clear (gpointer data)
{
  Op *op = data;

  pin_row_free (op->table, op->row);
}

PinBatch *
pin_batch_new (PinBook *book)
{
  PinBatch *self = g_new0 (PinBatch, 1);

  self->book = book;
  self->ops = g_array_new (FALSE, FALSE, sizeof (Op));
  g_array_set_clear_func (self->ops, op_clear);
  return self;
}

void
pin_batch_free (PinBatch *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->ops);
  g_free (self->wrong);
  g_free (self);
}

gboolean
pin_batch_is_empty (PinBatch *self)
{
  return self->ops->len == 0;
}

static gpointer
add (PinBatch *self, const PinTable *table, gconstpointer row)
{
  Op op = { table, pin_row_copy (table, row) };

  g_array_append_val (self->ops, op);
  return op.row;
}

static gint64
id_for (PinBatch *self, gint64 id)
{
  return id != 0 ? id : pin_book_next_id (self->book);
}

/* A row that tells no day happened on the day of its instant, else today. */
static char *
day_for (const char *day, gint64 at)
{
  if (day != NULL)
    return g_strdup (day);
  return at != 0 ? pin_day_of (at) : pin_today ();
}

/* --- things ----------------------------------------------------------------- */

gint64
pin_batch_vehicle (PinBatch *self, gint64 id, const char *chassis_sha)
{
  PinVehicleFact row = { id_for (self, id), (char *) chassis_sha };

  add (self, &pin_table_vehicle, &row);
  return row.id;
}

gint64
pin_batch_place (PinBatch *self, gint64 id, gint64 vehicle, const char *code, const char *kind,
                 gint64 carrier)
{
  PinPlaceFact row = { id_for (self, id), vehicle, (char *) code, (char *) kind, carrier };

  add (self, &pin_table_place, &row);
  return row.id;
}

gint64
pin_batch_part (PinBatch *self, gint64 id, const char *kind, gint64 made_from)
{
  PinPartFact row = { id_for (self, id), (char *) kind, made_from };

  add (self, &pin_table_part, &row);
  return row.id;
}

gint64
pin_batch_supply (PinBatch *self, gint64 id, const char *kind, const char *size, const char *name,
                  const char *unit)
{
  PinSupplyFact row = { id_for (self, id), (char *) kind, (char *) size, (char *) name,
                        (char *) unit };

  add (self, &pin_table_supply, &row);
  return row.id;
}

/* @sha is the SHA-256 of @xml in hex; NULL: it is reckoned here. A text that
 * the book has already is not written twice. */
void
pin_batch_source (PinBatch *self, const char *room, const char *code, const char *sha, GBytes *xml)
{
  g_autofree char *true_sha = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, xml);
  PinSourceFact row = { true_sha, (char *) room, (char *) code, xml };

  if (sha != NULL && g_ascii_strcasecmp (sha, true_sha) != 0 && self->wrong == NULL)
    self->wrong = g_strdup_printf (_ ("the text of “%s” is not the one its checksum names"), code);
  add (self, &pin_table_source, &row);
}

/* --- facts ------------------------------------------------------------------ */

/* The common shape: a copy of the row, with an id and a day. */
#define FACT(name, S, instant)                                     \
  gint64                                                           \
  pin_batch_##name (PinBatch *self, const S *row)                  \
  {                                                                \
    g_autofree char *day = day_for (row->day, instant);            \
    S copy = *row;                                                 \
                                                                   \
    copy.id = id_for (self, row->id);                              \
    copy.day = day;                                                \
    add (self, &pin_table_##name, &copy);                          \
    return copy.id;                                                \
  }

FACT (trait, PinTrait, row->at)
FACT (fitting, PinFitting, row->at)
FACT (inspection, PinInspection, 0)
FACT (sign_off, PinSignOff, 0)
FACT (reading, PinReading, row->at)
FACT (work, PinWork, row->at)
FACT (owed, PinOwed, 0)
FACT (finding, PinFinding, 0)
FACT (own_rule, PinOwnRule, 0)
FACT (own_limit, PinOwnLimit, 0)
FACT (stock, PinStock, 0)

gint64
pin_batch_answer (PinBatch *self, const PinAnswer *row)
{
  PinAnswer copy = *row;

  copy.id = id_for (self, row->id);
  add (self, &pin_table_answer, &copy);
  return copy.id;
}

gint64
pin_batch_outing (PinBatch *self, const PinOuting *row)
{
  g_autofree char *day = day_for (row->day, row->at);
  PinOuting copy = *row;

  copy.id = id_for (self, row->id);
  copy.day = day;
  copy.parts = NULL; /* rows of their own */
  add (self, &pin_table_outing, &copy);
  for (guint i = 0; row->parts != NULL && i < row->parts->len; i++)
    {
      const PinOutingPart *part = &g_array_index (row->parts, PinOutingPart, i);
      PinOutingPartFact used = { copy.id, part->part, part->runs, part->seconds };

      add (self, &pin_table_outing_part, &used);
    }
  return copy.id;
}

gint64
pin_batch_walk_plan (PinBatch *self, gint64 inspection, const char *plan)
{
  PinWalkPlanFact row = { pin_book_next_id (self->book), inspection, (char *) plan };

  add (self, &pin_table_walk_plan, &row);
  return row.id;
}

/* A picture is stored once, however many photos show it. */
gint64
pin_batch_photo (PinBatch *self, const PinPhoto *row)
{
  g_autofree char *day = day_for (row->day, 0);
  g_autofree char *sha = NULL;
  PinPhotoFact photo = { id_for (self, row->id), row->of, NULL, row->caption, day, row->person,
                         row->replaces, row->is_void };
  PinImageFact image;

  if (row->jpeg == NULL)
    {
      g_free (self->wrong);
      self->wrong = g_strdup (_ ("a photo has no picture"));
      return photo.id;
    }
  sha = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, row->jpeg);
  photo.sha = image.sha = sha;
  image.jpeg = row->jpeg;
  add (self, &pin_table_image, &image);
  add (self, &pin_table_photo, &photo);
  return photo.id;
}

/* Laps and typed text of a walk until they are answered; @state NULL forgets
 * them. */
void
pin_batch_draft (PinBatch *self, gint64 inspection, const char *state)
{
  PinDraftFact row = { inspection, (char *) state };

  add (self, &pin_table_draft, &row);
}

/* --- writing ---------------------------------------------------------------- */

static gboolean
forget_draft (PinDb *db, gint64 inspection, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, "DELETE FROM draft WHERE inspection = ?1", error);

  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, inspection);
  return pin_stmt_run (stmt, error);
}

static gboolean
write_op (PinDb *db, const Op *op, GError **error)
{
  if (op->table == &pin_table_draft && ((const PinDraftFact *) op->row)->state == NULL)
    return forget_draft (db, ((const PinDraftFact *) op->row)->inspection, error);
  return pin_row_insert (db, op->table, op->row, error);
}

static gboolean
write_all (PinBatch *self, PinDb *db, GError **error)
{
  g_autoptr (PinDerive) derive = pin_derive_new (db);

  for (guint i = 0; i < self->ops->len; i++)
    {
      const Op *op = &g_array_index (self->ops, Op, i);

      if (!write_op (db, op, error))
        return FALSE;
    }
  for (guint i = 0; i < self->ops->len; i++)
    {
      const Op *op = &g_array_index (self->ops, Op, i);

      if (!pin_derive_note (derive, op->table, op->row, error))
        return FALSE;
    }
  return pin_derive_apply (derive, error);
}

/* Everything in one transaction, or nothing. */
gboolean
pin_batch_write (PinBatch *self, PinDb *db, GError **error)
{
  if (self->wrong != NULL)
    {
      g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW,
                   _ ("The service book “%s”: %s. Nothing was written"), db->path, self->wrong);
      return FALSE;
    }
  if (self->ops->len == 0)
    return TRUE;
  if (!pin_db_begin (db, error))
    return FALSE;
  if (write_all (self, db, error))
    return pin_db_commit (db, error);
  pin_db_rollback (db);
  return FALSE;
}
