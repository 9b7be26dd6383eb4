#pragma once

#include "book/keeping.h"
#include "inspection/answers-file.h"
#include "service/inventory.h"

/* A shed for tests: a fresh book in a temporary folder, the shipped shelf, and
 * one car. */
typedef struct
{
  char *folder, *path;
  PinLibrary *library;
  PinBook *book;
  gint64 vehicle;
  PinWalk *walk;              /* the one under way */
} Shed;

Shed    *shed_new     (const char *chassis);
void     shed_free    (Shed *shed);
void     shed_reopen  (Shed *shed);
/* Other texts on the shelf: kinds/@name and the like; NULL takes them away. */
void     shed_shelve  (Shed *shed, const char *name, const char *xml);
PinCar  *shed_car     (Shed *shed);
void     shed_begin   (Shed *shed, const char *what);
void     shed_reload  (Shed *shed);
void     shed_answer  (Shed *shed, const char *line);         /* must fit */
void     shed_refuse  (Shed *shed, const char *line, const char *message_has);
void     shed_undo    (Shed *shed);
void     shed_sign    (Shed *shed);
void     shed_abandon (Shed *shed);
void     shed_until   (Shed *shed, const char *key_has);      /* passes everything up to that question */
void     shed_finish  (Shed *shed);                           /* passes everything that is left */
char    *shed_pass    (Shed *shed, const PinQuestion *question); /* a line that passes it */
const char *shed_next (Shed *shed);                           /* key, or "sign-off" */
GPtrArray *shed_findings (Shed *shed, gboolean closed_too);
guint    shed_n_findings (Shed *shed);                        /* open ones */
void     shed_outing  (Shed *shed, const char *day);
