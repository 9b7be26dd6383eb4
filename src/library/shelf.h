#pragma once

#include "library/library.h"

/* The texts of one folder, shipped and own, by the ids that stand in them. */

typedef enum
{
  PIN_TEXT_PROCEDURE,
  PIN_TEXT_TEARDOWN,
  PIN_TEXT_CHASSIS,
  PIN_N_TEXTS,
} PinTextType;

typedef struct
{
  PinTextType type;
  char *path;
  union
  {
    gpointer any;
    PinProcedure *procedure;
    PinTeardown *teardown;
    PinChassis *chassis;
  };
} PinText;

typedef struct
{
  GHashTable *texts[PIN_N_TEXTS];   /* char* id -> PinText* in force */
  GHashTable *covered[PIN_N_TEXTS]; /* shipped ones that an own one replaces */
  GPtrArray *troubles;              /* PinTrouble*, borrowed from the library */
} PinShelf;

PinShelf  *pin_shelf_new    (GPtrArray   *troubles);
void       pin_shelf_free   (PinShelf    *self);
void       pin_shelf_add    (PinShelf    *self,
                             const char  *dir,
                             gboolean     own);
void       pin_shelf_reject (PinShelf    *self,
                             PinText     *text);
GPtrArray *pin_shelf_list   (PinShelf    *self,
                             PinTextType  type);

/* Files of a folder. */
char     **pin_folder_files (const char  *dir,
                             gboolean     needed,
                             GError     **error);
void       pin_trouble_add  (GPtrArray   *troubles,
                             const char  *file,
                             const char  *message);
void       pin_trouble_free (PinTrouble  *self);
