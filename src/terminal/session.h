#pragma once

#include "book/book.h"
#include "library/library.h"
#include "service/stable.h"
#include "terminal/csv.h"
#include "terminal/options.h"
#include "terminal/output.h"

/* What one verb works with; opened when first asked for, closed at the end. */
typedef struct
{
  const PinOptions *options;
  PinLibrary *library;
  PinBook *book;
  PinStable *stable;
} PinSession;

typedef enum { PIN_TERMINAL_ERROR_USAGE, PIN_TERMINAL_ERROR_FOUND } PinTerminalError;
#define PIN_TERMINAL_ERROR (pin_terminal_error_quark ())
GQuark pin_terminal_error_quark (void);

PinLibrary       *pin_session_library (PinSession    *self,
                                       GError       **error);
PinBook          *pin_session_book    (PinSession    *self,
                                       gboolean       make,
                                       GError       **error);
PinStable        *pin_session_stable  (PinSession    *self,
                                       GError       **error);
PinStableVehicle *pin_session_vehicle (PinSession    *self,
                                       GError       **error); /* named by the first argument */
PinCar           *pin_session_car     (PinSession    *self,
                                       gint64         vehicle,
                                       GError       **error);
void              pin_session_clear   (PinSession    *self);
gboolean          pin_session_usage   (GError       **error,
                                       const char    *format,
                                       ...) G_GNUC_PRINTF (2, 3);
gpointer          pin_session_run     (PinSession    *self,
                                       gpointer     (*load) (PinDb *, gint64, GError **),
                                       gint64         id,
                                       GError       **error);

/* The verbs; FALSE with an error. */
typedef gboolean (*PinVerb) (PinSession *session, GError **error);

gboolean pin_verb_demo        (PinSession *session, GError **error);
gboolean pin_verb_vehicles    (PinSession *session, GError **error);
gboolean pin_verb_add_vehicle (PinSession *session, GError **error);
gboolean pin_verb_parts       (PinSession *session, GError **error);
gboolean pin_verb_history     (PinSession *session, GError **error);
gboolean pin_verb_setup       (PinSession *session, GError **error);
gboolean pin_verb_inspect     (PinSession *session, GError **error);
gboolean pin_verb_findings    (PinSession *session, GError **error);
gboolean pin_verb_sheet       (PinSession *session, GError **error);
gboolean pin_verb_check       (PinSession *session, GError **error);
gboolean pin_verb_backup      (PinSession *session, GError **error);
gboolean pin_verb_bearings    (PinSession *session, GError **error);
gboolean pin_verb_restore     (PinSession *session, GError **error);
gboolean pin_verb_verify      (PinSession *session, GError **error);
gboolean pin_verb_export      (PinSession *session, GError **error);
gboolean pin_verb_reckon      (PinSession *session, GError **error);
