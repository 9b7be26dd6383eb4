#include "book/db-private.h"

#include <string.h>

/* The law of the book as code: facts are inserted and never changed, but for
 * `live`, which the schema's own triggers turn off; the schema changes only
 * while a book is made or migrated. */

static const char *const facts[] = {
  "source", "vehicle", "place", "part", "supply", "trait", "fitting", "outing",
  "outing_part", "inspection", "walk_plan", "sign_off", "answer", "reading",
  "work", "owed", "finding", "own_rule", "own_limit", "stock", "photo", "image",
  NULL,
};

/* Rebuilt from facts, or no facts: these may change freely. */
static const char *const loose[] = { "meter", "standing", "mark", "draft", "kept", NULL };

/* Pragmas that only ask, or bear on one transaction. */
static const char *const asking[] = {
  "integrity_check", "quick_check", "foreign_key_check", "defer_foreign_keys", "data_version",
  "page_count", "page_size", "freelist_count", "busy_timeout", NULL,
};
static const char *const readable[] = {
  "application_id", "user_version", "journal_mode", "synchronous", "foreign_keys",
  "recursive_triggers", "trusted_schema", "cell_size_check", "table_info", "encoding", NULL,
};

/* Tables of facts, NULL-terminated. */
const char *const *
pin_law_facts (void)
{
  return facts;
}

static int
ruling (gboolean allowed)
{
  return allowed ? SQLITE_OK : SQLITE_DENY;
}

static gboolean
may_update (const char *table, const char *column, const char *trigger)
{
  g_autofree char *retiring = NULL;

  if (g_strv_contains (loose, table))
    return TRUE;
  if (g_str_equal (table, "book"))
    return g_str_equal (column, "generation");
  if (!g_strv_contains (facts, table) || !g_str_equal (column, "live") || trigger == NULL)
    return FALSE;
  retiring = g_strconcat (table, "_live", NULL);
  return g_str_equal (trigger, retiring);
}

static gboolean
may_pragma (const char *name, const char *value)
{
  return g_strv_contains (asking, name) ||
         (g_strv_contains (readable, name) &&
          (value == NULL || g_str_equal (name, "table_info")));
}

static gboolean
may_draw (int action, const char *a, const char *schema)
{
  if (g_strcmp0 (schema, "temp") != 0)
    return FALSE;
  switch (action)
    {
    case SQLITE_CREATE_TEMP_TABLE:
      return g_strv_contains (loose, a) || g_str_has_suffix (a, "_then");
    case SQLITE_CREATE_TEMP_VIEW:
      return g_strv_contains (facts, a) || g_str_equal (a, "draft");
    case SQLITE_CREATE_TEMP_INDEX:
    case SQLITE_REINDEX:
    case SQLITE_INSERT:
    case SQLITE_UPDATE:
    case SQLITE_DELETE:
      return TRUE;
    default:
      return FALSE;
    }
}

/* What a connection that shows a past state may do beyond reading: draw that
 * state in its temporary tables, and then nothing. */
static int
judge_known (const PinDb *db, int action, const char *a, const char *b, const char *schema)
{
  if (action == SQLITE_PRAGMA)
    return ruling (may_pragma (a, b) || (db->drawing && g_str_equal (a, "temp_store")));
  return ruling (db->drawing && may_draw (action, a, schema));
}

/* What a connection that keeps the book may do beyond reading. */
static int
judge_keeping (int action, const char *a, const char *b, const char *trigger)
{
  switch (action)
    {
    case SQLITE_INSERT:
      return ruling (g_strv_contains (facts, a) || g_strv_contains (loose, a));
    case SQLITE_UPDATE:
      return ruling (may_update (a, b, trigger));
    case SQLITE_DELETE:
      return ruling (g_strv_contains (loose, a));
    case SQLITE_PRAGMA:
      return ruling (may_pragma (a, b));
    default: /* creating, dropping, altering, attaching, analysing … */
      return SQLITE_DENY;
    }
}

static int
judge (void *data, int action, const char *a, const char *b, const char *schema,
       const char *trigger)
{
  const PinDb *db = data;

  if (db->making)
    return SQLITE_OK;
  switch (action)
    {
    case SQLITE_SELECT:
    case SQLITE_READ:
    case SQLITE_RECURSIVE:
    case SQLITE_TRANSACTION:
    case SQLITE_SAVEPOINT:
      return SQLITE_OK;
    case SQLITE_FUNCTION:
      return ruling (g_ascii_strcasecmp (b, "load_extension") != 0);
    default:
      return db->known ? judge_known (db, action, a, b, schema)
                       : judge_keeping (action, a, b, trigger);
    }
}

void
pin_law_install (PinDb *self)
{
  sqlite3_set_authorizer (self->sqlite, judge, self);
}
