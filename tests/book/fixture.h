#pragma once

#include "book/book.h"
#include "book/keeping.h"
#include "book/queries.h"

/* A throw-away folder with a book in it, and short ways to write facts. */

typedef struct
{
  char *folder, *path;
  PinBook *book;
  gint64 vehicle, place, part;
} Fixture;

void      fixture_set_up    (Fixture       *self,
                             gconstpointer  data);
void      fixture_tear_down (Fixture       *self,
                             gconstpointer  data);
char     *temp_folder       (void);
void      remove_folder     (const char    *folder);
void      commit            (PinBook       *book,
                             PinBatch      *batch);
gint64    add_vehicle       (PinBook       *book,
                             const char    *name);
gint64    add_place         (PinBook       *book,
                             gint64         vehicle,
                             const char    *code);
gint64    add_part          (PinBook       *book,
                             const char    *kind);
gint64    fit               (PinBook       *book,
                             gint64         part,
                             gint64         place,
                             const char    *day,
                             gint64         at);
gint64    shelve            (PinBook       *book,
                             gint64         part,
                             const char    *day,
                             gint64         at);
gint64    drive             (PinBook       *book,
                             gint64         vehicle,
                             const char    *day,
                             gint64         at,
                             double         seconds);
gint64    do_work           (PinBook       *book,
                             gint64         thing,
                             const char    *deed,
                             const char    *day,
                             gint64         at);
PinOuting an_outing         (gint64         vehicle,
                             const char    *day);
gpointer  ask               (PinBook       *book,
                             GPtrArray   *(*query) (PinDb *, gint64, GError **),
                             gint64         id);
PinPartRow *the_part        (PinBook       *book,
                             gint64         part);
PinVehicleRow *the_vehicle  (PinBook       *book,
                             gint64         vehicle);
void      assert_sound      (PinBook       *book);
char     *contents          (const char    *path,
                             gsize         *size);
