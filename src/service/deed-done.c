#include "service/deed-done.h"

#include <math.h>

#include "base/day.h"

typedef enum
{
  FAMILY_TRAIT,
  FAMILY_FITTING,
  FAMILY_OUTING,
  FAMILY_READING,
  FAMILY_WORK,
  FAMILY_OWED,
  FAMILY_FINDING,
} Family;

/* A row as it was written; its strings live in the owner's chunk. */
typedef struct
{
  Family family;
  union
  {
    PinTrait trait;
    PinFitting fitting;
    PinOuting outing;
    PinReading reading;
    PinWork work;
    PinOwed owed;
    PinFinding finding;
  };
} Row;

struct _PinDeedDone
{
  PinBatch *batch;            /* until it is stolen */
  GArray *rows;               /* Row, in the order of writing */
  GStringChunk *strings;
  char *text, *person;
  gint64 vehicle;             /* made by this; 0: none */
};

PinDeedDone *
pin_deed_done_new (PinBook *book, const char *person)
{
  PinDeedDone *self = g_new0 (PinDeedDone, 1);

  self->batch = pin_batch_new (book);
  self->rows = g_array_new (FALSE, TRUE, sizeof (Row));
  self->strings = g_string_chunk_new (512);
  self->person = g_strdup (person);
  return self;
}

void
pin_deed_done_free (PinDeedDone *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->batch, pin_batch_free);
  g_array_unref (self->rows);
  g_string_chunk_free (self->strings);
  g_free (self->text);
  g_free (self->person);
  g_free (self);
}

const char *
pin_deed_done_person (const PinDeedDone *self)
{
  return self->person;
}

PinBatch *
pin_deed_done_batch (PinDeedDone *self)
{
  return self->batch;
}

PinBatch *
pin_deed_done_steal_batch (PinDeedDone *self)
{
  return g_steal_pointer (&self->batch);
}

const char *
pin_deed_done_text (const PinDeedDone *self)
{
  return self->text ? self->text : "";
}

guint
pin_deed_done_n (const PinDeedDone *self)
{
  return self->rows->len;
}

void
pin_deed_done_say (PinDeedDone *self, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_free (self->text);
  self->text = g_strdup_vprintf (format, args);
  va_end (args);
}

/* ---- Keeping what is written ---- */

static char *
keep (PinDeedDone *self, const char *text)
{
  return text ? g_string_chunk_insert (self->strings, text) : NULL;
}

#define KEEP(field) (row.field = keep (self, row.field))

gint64
pin_deed_done_trait (PinDeedDone *self, const PinTrait *what)
{
  PinTrait row = *what;

  if (row.person == NULL)
    row.person = self->person;
  row.id = pin_batch_trait (self->batch, &row);
  KEEP (code), KEEP (day), KEEP (text), KEEP (typed), KEEP (origin), KEEP (person);
  g_array_append_vals (self->rows, &(Row) { FAMILY_TRAIT, .trait = row }, 1);
  return row.id;
}

gint64
pin_deed_done_fitting (PinDeedDone *self, const PinFitting *what)
{
  PinFitting row = *what;

  if (row.person == NULL)
    row.person = self->person;
  row.id = pin_batch_fitting (self->batch, &row);
  KEEP (shelf), KEEP (day), KEEP (person);
  g_array_append_vals (self->rows, &(Row) { FAMILY_FITTING, .fitting = row }, 1);
  return row.id;
}

gint64
pin_deed_done_outing (PinDeedDone *self, const PinOuting *what)
{
  PinOuting row = *what;

  if (row.person == NULL)
    row.person = self->person;
  row.id = pin_batch_outing (self->batch, &row);
  KEEP (day), KEEP (surface), KEEP (dirt), KEEP (water);
  KEEP (origin), KEEP (note), KEEP (person);
  row.parts = NULL;
  g_array_append_vals (self->rows, &(Row) { FAMILY_OUTING, .outing = row }, 1);
  return row.id;
}

gint64
pin_deed_done_reading (PinDeedDone *self, const PinReading *what)
{
  PinReading row = *what;

  if (row.person == NULL)
    row.person = self->person;
  row.id = pin_batch_reading (self->batch, &row);
  KEEP (quantity), KEEP (typed), KEEP (method), KEEP (conditions), KEEP (day), KEEP (person);
  row.repeats = NULL;
  g_array_append_vals (self->rows, &(Row) { FAMILY_READING, .reading = row }, 1);
  return row.id;
}

gint64
pin_deed_done_work (PinDeedDone *self, const PinWork *what)
{
  PinWork row = *what;

  if (row.person == NULL)
    row.person = self->person;
  row.id = pin_batch_work (self->batch, &row);
  KEEP (deed), KEEP (sure), KEEP (note), KEEP (currency), KEEP (day), KEEP (person);
  g_array_append_vals (self->rows, &(Row) { FAMILY_WORK, .work = row }, 1);
  return row.id;
}

gint64
pin_deed_done_owed (PinDeedDone *self, const PinOwed *what)
{
  PinOwed row = *what;

  if (row.person == NULL)
    row.person = self->person;
  row.id = pin_batch_owed (self->batch, &row);
  KEEP (what), KEEP (day), KEEP (person);
  g_array_append_vals (self->rows, &(Row) { FAMILY_OWED, .owed = row }, 1);
  return row.id;
}

gint64
pin_deed_done_finding (PinDeedDone *self, const PinFinding *what)
{
  PinFinding row = *what;

  if (row.person == NULL)
    row.person = self->person;
  row.id = pin_batch_finding (self->batch, &row);
  KEEP (event), KEEP (note), KEEP (day), KEEP (person);
  g_array_append_vals (self->rows, &(Row) { FAMILY_FINDING, .finding = row }, 1);
  return row.id;
}

#undef KEEP

void
pin_deed_done_set_vehicle (PinDeedDone *self, gint64 vehicle)
{
  self->vehicle = vehicle;
}

/* ---- Taking it back ---- */

#define VOID(family) do {                                            \
    row.family.replaces = row.family.id;                             \
    row.family.id = 0;                                               \
    row.family.is_void = TRUE;                                       \
    pin_batch_##family (batch, &row.family);                         \
  } while (0)

static void
withdraw (PinBatch *batch, Row row)
{
  switch (row.family)
    {
    case FAMILY_TRAIT:
      VOID (trait);
      break;
    case FAMILY_FITTING:
      VOID (fitting);
      break;
    case FAMILY_OUTING:
      VOID (outing);
      break;
    case FAMILY_READING:
      VOID (reading);
      break;
    case FAMILY_WORK:
      VOID (work);
      break;
    case FAMILY_OWED:
      VOID (owed);
      break;
    case FAMILY_FINDING:
      VOID (finding);
      break;
    }
}

#undef VOID

PinBatch *
pin_deed_done_undo (const PinDeedDone *self, PinBook *book)
{
  PinBatch *batch = pin_batch_new (book);

  if (self->vehicle != 0)
    {
      g_autofree char *today = pin_today ();

      pin_batch_trait (batch, &(PinTrait) {
        .thing = self->vehicle, .code = (char *) "state", .day = today, .value = NAN,
        .text = (char *) "withdrawn", .origin = (char *) "owner", .person = self->person });
      return batch;
    }
  for (guint i = self->rows->len; i-- > 0;)
    withdraw (batch, g_array_index (self->rows, Row, i));
  return batch;
}
