#include "library/check.h"

#include "library/open.h"
#include "library/reading.h"
#include "library/xml-reader.h"

/* What is known of that id: to the file itself, else to the library. */
gconstpointer
pin_check_word (PinCheck *check, PinWordType type, const char *id)
{
  gconstpointer word = check->here != NULL ? pin_kinds_table_find (check->here, type, id) : NULL;

  return word != NULL ? word : pin_kinds_table_find (check->library->kinds, type, id);
}

const PinProcedure *
pin_check_find_procedure (PinCheck *check, const char *id)
{
  PinText *text;

  if (check->procedure != NULL && g_str_equal (check->procedure->id, id))
    return check->procedure;
  text = g_hash_table_lookup (pin_library_shelf (check->library, PIN_TEXT_PROCEDURE)->texts[PIN_TEXT_PROCEDURE], id);
  return text != NULL ? text->procedure : NULL;
}

/* ==== Circles ==== */

enum { UNSEEN, OPEN, CLOSED };

typedef struct
{
  GHashTable *by_id;
  GHashTable *state;            /* thing -> UNSEEN, OPEN, CLOSED */
  PinNeedsFunc needs;
} Walk;

/* Depth first with a stack of its own, for a chain may be long. */
static gconstpointer
walk_from (Walk *walk, gconstpointer start)
{
  g_autoptr (GPtrArray) stack = g_ptr_array_new ();

  g_ptr_array_add (stack, (gpointer) start);
  while (stack->len > 0)
    {
      gpointer thing = stack->pdata[stack->len - 1];
      const char *const *needs = walk->needs (thing);

      if (GPOINTER_TO_INT (g_hash_table_lookup (walk->state, thing)) != UNSEEN)
        {
          g_hash_table_insert (walk->state, thing, GINT_TO_POINTER (CLOSED));
          g_ptr_array_set_size (stack, stack->len - 1);
          continue;
        }
      g_hash_table_insert (walk->state, thing, GINT_TO_POINTER (OPEN));
      for (int i = 0; needs != NULL && needs[i] != NULL; i++)
        {
          gpointer next = g_hash_table_lookup (walk->by_id, needs[i]);
          int state = next ? GPOINTER_TO_INT (g_hash_table_lookup (walk->state, next)) : CLOSED;

          if (state == OPEN)
            return next;
          if (state == UNSEEN)
            g_ptr_array_add (stack, next);
        }
    }
  return NULL;
}

/* The first of @things that needs itself in the end, or NULL. */
gconstpointer
pin_check_circle (const GPtrArray *things, PinIdFunc id, PinNeedsFunc needs)
{
  g_autoptr (GHashTable) by_id = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) state = g_hash_table_new (NULL, NULL);
  Walk walk = { by_id, state, needs };
  gconstpointer found = NULL;

  for (guint i = 0; i < things->len; i++)
    g_hash_table_insert (by_id, (gpointer) id (things->pdata[i]), things->pdata[i]);
  for (guint i = 0; i < things->len && found == NULL; i++)
    if (GPOINTER_TO_INT (g_hash_table_lookup (state, things->pdata[i])) == UNSEEN)
      found = walk_from (&walk, things->pdata[i]);
  return found;
}

/* ==== One file ==== */

static void
check_procedure (PinCheck *check, xmlDoc *doc, GBytes *xml)
{
  g_autoptr (PinProcedure) procedure = pin_procedure_from_doc (doc, xml, check->remarks);

  check->procedure = procedure;
  pin_check_procedure (check);
  check->procedure = NULL;
}

static void
check_teardown (PinCheck *check, xmlDoc *doc, GBytes *xml)
{
  g_autoptr (PinTeardown) teardown = pin_teardown_from_doc (doc, xml, check->remarks);

  pin_check_teardown (check, teardown);
}

static void
check_chassis (PinCheck *check, xmlDoc *doc, GBytes *xml)
{
  g_autoptr (PinChassis) chassis = pin_chassis_from_doc (doc, xml, check->remarks);

  pin_check_chassis (check, chassis);
  pin_check_drawing (check, chassis);
}

static void
check_meaning (PinCheck *check, xmlDoc *doc, GBytes *xml, PinFileType type)
{
  if (type == PIN_FILE_KINDS)
    {
      check->here = pin_kinds_table_new ();
      pin_kinds_table_add_doc (check->here, doc, check->remarks);
      pin_check_kinds (check);
    }
  pin_check_ids (check);
  pin_check_words (check);
  pin_check_hazards (check);
  if (type == PIN_FILE_PROCEDURE)
    check_procedure (check, doc, xml);
  else if (type == PIN_FILE_TEARDOWN)
    check_teardown (check, doc, xml);
  else if (type == PIN_FILE_CHASSIS)
    check_chassis (check, doc, xml);
  g_clear_pointer (&check->here, pin_kinds_table_free);
}

/* Reads and checks one file of any kind, by the namespace of its root: first
 * the safe parser, then its grammar, then its meaning.  Each is only asked when
 * the one before has found nothing.
 *
 * @messages: char*, appended to in the order of the file: "file:line: what is
 * wrong, what would be right".
 * Returns: TRUE if nothing is wrong. */
gboolean
pin_library_check (PinLibrary *self, const char *path, GPtrArray *messages)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) xml = pin_xml_load (path, &error);
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func (g_free);
  PinRemarks remarks = { path, found };
  PinFileType type;
  g_autoptr (xmlDoc) doc = xml != NULL ? pin_open (xml, path, &type, found, &error) : NULL;
  gboolean sound;

  if (doc == NULL && found->len == 0)
    g_ptr_array_add (found, g_strdup (error->message));
  if (doc != NULL)
    {
      PinCheck check = { self, &remarks, xmlDocGetRootElement (doc), NULL, NULL };

      check_meaning (&check, doc, xml, type);
      pin_remarks_sort (&remarks);
    }
  sound = found->len == 0;
  g_ptr_array_extend_and_steal (messages, g_steal_pointer (&found));
  return sound;
}
