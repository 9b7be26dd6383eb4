#pragma once

#include "ui/bench.h"

/* A book with one car, "Mule", for the window's tests: the book is looked into by
 * the program's own verbs, which open no window, while the window is closed. */

typedef struct
{
  char *home;
  char *book;                 /* file */
  PinUi *ui;                  /* NULL: the window is closed */
  PinBench *bench;            /* NULL: not at the bench */
} PinShed;

PinShed *pin_shed_new      (const char *chassis);
void     pin_shed_free     (PinShed    *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinShed, pin_shed_free)

/* Runs "hingepin --book … VERB", NULL-terminated; it must succeed.  What it
 * printed; free with g_free(). */
char    *pin_shed_verb     (PinShed    *self,
                            ...) G_GNUC_NULL_TERMINATED;
void     pin_shed_open     (PinShed    *self);
void     pin_shed_close    (PinShed    *self);
/* Begins the inspection in the closed book and opens the window on it. */
void     pin_shed_begin    (PinShed    *self,
                            const char *what);
/* Goes on with the walk that is open, from the stable. */
void     pin_shed_resume   (PinShed    *self);
/* The key of the next question, as the book says; free with g_free(). */
char    *pin_shed_next     (PinShed    *self,
                            const char *what);
