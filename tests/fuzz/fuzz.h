#pragma once

#include <glib.h>

/* A small fuzzer: texts that are right are broken in many ways and given to
 * what reads them, the same ones in the same order each time.  A reader may
 * refuse; it may not crash, hang or say nonsense, and the sanitisers watch.
 *
 * PIN_FUZZ_SEED and PIN_FUZZ_ROUNDS go further than a test does;
 * PIN_FUZZ_ROUND=N runs that round alone.  Files named on the command line are
 * tried as they are. */

typedef void (*FuzzTry) (const char *text, gsize length, gpointer data);

typedef struct
{
  GPtrArray *corpus;          /* GBytes* */
  const char *const *words;   /* to put in, NULL-terminated */
} FuzzFood;

void  fuzz_add     (FuzzFood    *food,
                    const char  *text);
void  fuzz_add_dir (FuzzFood    *food,
                    const char  *folder);   /* its *.xml, from the source */
void  fuzz_clear   (FuzzFood    *food);
char *fuzz_break   (FuzzFood    *food,
                    GRand       *rand,
                    gsize       *length);   /* NUL behind it; g_free() */
void  fuzz_note    (guint        round,
                    const char  *text,
                    gsize        length);   /* to be told if this one kills */
guint fuzz_number  (const char  *variable,
                    guint        otherwise);
int   fuzz_main    (int          argc,
                    char       **argv,
                    FuzzFood    *food,
                    guint        rounds,
                    FuzzTry      attempt,
                    gpointer     data);
