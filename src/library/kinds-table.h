#pragma once

#include <libxml/tree.h>

#include "library/kinds.h"
#include "library/remarks.h"

/* The kinds of thing that a file of kinds names. */
typedef enum
{
  PIN_WORD_GROUP,
  PIN_WORD_KIND,
  PIN_WORD_DEED,
  PIN_WORD_SPEC,
  PIN_WORD_CONDITION,
  PIN_WORD_QUANTITY,
  PIN_WORD_DEBT,
  PIN_WORD_JOB,
  PIN_WORD_TOOL,
  PIN_WORD_SUPPLY,
  PIN_N_WORDS,
} PinWordType;

/* All of them, from all files: by id, and in the order they came in. */
typedef struct
{
  GHashTable *by_id[PIN_N_WORDS];   /* char* -> the struct, borrowed */
  GPtrArray *all[PIN_N_WORDS];      /* the structs, owned */
} PinKindsTable;

PinKindsTable *pin_kinds_table_new      (void);
void           pin_kinds_table_free     (PinKindsTable *self);
void           pin_kinds_table_add_doc  (PinKindsTable *self,
                                         xmlDoc        *doc,
                                         PinRemarks    *remarks);
gconstpointer  pin_kinds_table_find     (PinKindsTable *self,
                                         PinWordType    type,
                                         const char    *id);
const char    *pin_word_element         (PinWordType    type);
