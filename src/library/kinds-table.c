#include "library/kinds-table.h"

#include <glib/gi18n.h>

#include "library/reading.h"
#include "library/xml-node.h"

static const char *const elements[PIN_N_WORDS] = {
  [PIN_WORD_GROUP] = "group",         [PIN_WORD_KIND] = "kind",
  [PIN_WORD_DEED] = "deed",           [PIN_WORD_SPEC] = "spec",
  [PIN_WORD_CONDITION] = "condition", [PIN_WORD_QUANTITY] = "quantity",
  [PIN_WORD_DEBT] = "debt",           [PIN_WORD_JOB] = "job",
  [PIN_WORD_TOOL] = "tool",           [PIN_WORD_SUPPLY] = "supply",
};

/* The element that names such a thing. */
const char *
pin_word_element (PinWordType type)
{
  return elements[type];
}

/* ==== Freeing ==== */

/* Every struct begins with its id and its title. */
typedef struct
{
  char *id;
  char *title;
} Word;

G_STATIC_ASSERT (G_STRUCT_OFFSET (PinGroup, title) == G_STRUCT_OFFSET (Word, title));
G_STATIC_ASSERT (G_STRUCT_OFFSET (PinPartKind, title) == G_STRUCT_OFFSET (Word, title));
G_STATIC_ASSERT (G_STRUCT_OFFSET (PinDeed, title) == G_STRUCT_OFFSET (Word, title));
G_STATIC_ASSERT (G_STRUCT_OFFSET (PinSpec, title) == G_STRUCT_OFFSET (Word, title));
G_STATIC_ASSERT (G_STRUCT_OFFSET (PinCondition, title) == G_STRUCT_OFFSET (Word, title));
G_STATIC_ASSERT (G_STRUCT_OFFSET (PinQuantity, title) == G_STRUCT_OFFSET (Word, title));
G_STATIC_ASSERT (G_STRUCT_OFFSET (PinDebt, title) == G_STRUCT_OFFSET (Word, title));
G_STATIC_ASSERT (G_STRUCT_OFFSET (PinJob, title) == G_STRUCT_OFFSET (Word, title));
G_STATIC_ASSERT (G_STRUCT_OFFSET (PinSupply, title) == G_STRUCT_OFFSET (Word, title));

static void
word_free (Word *self)
{
  g_free (self->id);
  g_free (self->title);
  g_free (self);
}

static void
kind_free (PinPartKind *self)
{
  g_free (self->plural);
  g_free (self->group);
  g_strfreev (self->deeds);
  g_strfreev (self->specs);
  word_free ((Word *) self);
}

static void
quantity_free (PinQuantity *self)
{
  g_strfreev (self->reset);
  g_strfreev (self->exactly);
  g_strfreev (self->nearly);
  word_free ((Word *) self);
}

static void
debt_free (PinDebt *self)
{
  g_free (self->procedure);
  g_free (self->step);
  word_free ((Word *) self);
}

static void
job_free (PinJob *self)
{
  g_free (self->procedure);
  word_free ((Word *) self);
}

static void
supply_free (PinSupply *self)
{
  g_free (self->unit);
  word_free ((Word *) self);
}

static const GDestroyNotify frees[PIN_N_WORDS] = {
  [PIN_WORD_GROUP] = (GDestroyNotify) word_free,
  [PIN_WORD_KIND] = (GDestroyNotify) kind_free,
  [PIN_WORD_DEED] = (GDestroyNotify) word_free,
  [PIN_WORD_SPEC] = (GDestroyNotify) word_free,
  [PIN_WORD_CONDITION] = (GDestroyNotify) word_free,
  [PIN_WORD_QUANTITY] = (GDestroyNotify) quantity_free,
  [PIN_WORD_DEBT] = (GDestroyNotify) debt_free,
  [PIN_WORD_JOB] = (GDestroyNotify) job_free,
  [PIN_WORD_TOOL] = (GDestroyNotify) supply_free,
  [PIN_WORD_SUPPLY] = (GDestroyNotify) supply_free,
};

/* ==== Reading ==== */

static Word *
read_plain (gsize size, const xmlNode *node)
{
  Word *word = g_malloc0 (size);

  word->id = pin_node_attr (node, "id");
  word->title = pin_node_child (node, "title");
  return word;
}

static gpointer
read_kind (const xmlNode *node)
{
  PinPartKind *kind = (PinPartKind *) read_plain (sizeof *kind, node);

  kind->plural = pin_node_child (node, "plural");
  kind->group = pin_node_attr (node, "group");
  kind->deeds = pin_node_list (node, "deeds");
  kind->specs = pin_node_list (node, "specs");
  return kind;
}

static gpointer
read_quantity (const xmlNode *node, PinRemarks *remarks)
{
  PinQuantity *quantity = (PinQuantity *) read_plain (sizeof *quantity, node);
  g_autofree char *better = pin_node_attr (node, "better");

  quantity->unit = pin_unit_read (node, "unit", remarks);
  if (quantity->unit == NULL)
    quantity->unit = pin_unit_find ("1");
  quantity->decimals = MIN (pin_node_integer (node, "decimals", 0), 9);
  quantity->better = g_str_equal (better, "more") ? 1 : g_str_equal (better, "less") ? -1 : 0;
  quantity->reset = pin_node_list (node, "reset");
  quantity->exactly = pin_node_list (node, "exactly");
  quantity->nearly = pin_node_list (node, "nearly");
  return quantity;
}

static gpointer
read_spec (const xmlNode *node, PinRemarks *remarks)
{
  PinSpec *spec = (PinSpec *) read_plain (sizeof *spec, node);

  spec->unit = pin_unit_read (node, "unit", remarks);
  return spec;
}

/* A time in whole minutes, 0 if the attribute is missing or wrong. */
static int
read_minutes (const xmlNode *node, const char *attribute, PinRemarks *remarks)
{
  g_autofree char *text = pin_node_attr (node, attribute);
  g_autoptr (GError) error = NULL;
  double seconds = 0;

  if (text != NULL &&
      !pin_value_parse (text, pin_unit_find ("min"), &seconds, NULL, &error))
    pin_remark (remarks, pin_node_line (node, attribute), _("%s of <%s>: %s"), attribute,
                (const char *) node->name, error->message);
  else if (text != NULL && (seconds <= 0 || seconds > 366.0 * 24 * 3600))
    pin_remark (remarks, pin_node_line (node, attribute),
                _("“%s” is no time to wait, write one such as 20 min"), text);
  else
    return (int) (seconds / 60 + 0.5);
  return 0;
}

static gpointer
read_debt (const xmlNode *node, PinRemarks *remarks)
{
  PinDebt *debt = (PinDebt *) read_plain (sizeof *debt, node);
  g_autofree char *payable = pin_node_attr (node, "payable");
  g_autofree char *step = pin_node_attr (node, "step");

  debt->payable = g_str_equal (payable, "now")    ? PIN_PAYABLE_NOW
                  : g_str_equal (payable, "time") ? PIN_PAYABLE_TIME
                  : g_str_equal (payable, "use")  ? PIN_PAYABLE_USE
                                                  : PIN_PAYABLE_BEFORE_USE;
  debt->minutes = read_minutes (node, "wait", remarks);
  if (step != NULL)
    {
      g_auto (GStrv) halves = g_strsplit (step, "/", 2);

      debt->procedure = g_strdup (halves[0]);
      debt->step = g_strdup (halves[1]);
    }
  return debt;
}

static gpointer
read_job (const xmlNode *node, PinRemarks *remarks)
{
  PinJob *job = (PinJob *) read_plain (sizeof *job, node);

  job->procedure = pin_node_attr (node, "procedure");
  job->within_minutes = read_minutes (node, "within", remarks);
  return job;
}

static gpointer
read_supply (const xmlNode *node)
{
  PinSupply *supply = (PinSupply *) read_plain (sizeof *supply, node);

  supply->unit = pin_node_attr (node, "unit");
  return supply;
}

static gpointer
read_word (PinWordType type, const xmlNode *node, PinRemarks *remarks)
{
  switch (type)
    {
    case PIN_WORD_KIND: return read_kind (node);
    case PIN_WORD_QUANTITY: return read_quantity (node, remarks);
    case PIN_WORD_SPEC: return read_spec (node, remarks);
    case PIN_WORD_DEBT: return read_debt (node, remarks);
    case PIN_WORD_JOB: return read_job (node, remarks);
    case PIN_WORD_TOOL:
    case PIN_WORD_SUPPLY: return read_supply (node);
    case PIN_WORD_GROUP:
    case PIN_WORD_DEED:
    case PIN_WORD_CONDITION:
    case PIN_N_WORDS: break;
    }
  return read_plain (sizeof (Word), node);
}

/* ==== The table ==== */

PinKindsTable *
pin_kinds_table_new (void)
{
  PinKindsTable *self = g_new0 (PinKindsTable, 1);

  for (int i = 0; i < PIN_N_WORDS; i++)
    {
      self->by_id[i] = g_hash_table_new (g_str_hash, g_str_equal);
      self->all[i] = g_ptr_array_new_with_free_func (frees[i]);
    }
  return self;
}

void
pin_kinds_table_free (PinKindsTable *self)
{
  for (int i = 0; i < PIN_N_WORDS; i++)
    {
      g_hash_table_unref (self->by_id[i]);
      g_ptr_array_unref (self->all[i]);
    }
  g_free (self);
}

/* A later word takes the place of an earlier one of its type and id. */
static void
add (PinKindsTable *self, PinWordType type, Word *word)
{
  Word *old = g_hash_table_lookup (self->by_id[type], word->id);
  guint place;

  if (old != NULL)
    g_hash_table_remove (self->by_id[type], word->id);
  if (old != NULL && g_ptr_array_find (self->all[type], old, &place))
    {
      frees[type] (old);
      self->all[type]->pdata[place] = word;
    }
  else
    g_ptr_array_add (self->all[type], word);
  g_hash_table_insert (self->by_id[type], word->id, word);
}

/* Adds what a file of kinds names; it has passed the gate. */
void
pin_kinds_table_add_doc (PinKindsTable *self, xmlDoc *doc, PinRemarks *remarks)
{
  xmlNode *root = xmlDocGetRootElement (doc);

  for (xmlNode *n = pin_node_first (root, NULL); n; n = pin_node_next (n, NULL))
    for (int type = 0; type < PIN_N_WORDS; type++)
      if (pin_node_is (n, elements[type]))
        add (self, type, read_word (type, n, remarks));
}

/* NULL if there is none. */
gconstpointer
pin_kinds_table_find (PinKindsTable *self, PinWordType type, const char *id)
{
  return id != NULL ? g_hash_table_lookup (self->by_id[type], id) : NULL;
}
