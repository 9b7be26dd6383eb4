#pragma once

#include "book/db.h"
#include "book/facts.h"

/* What the rooms above read.  Every function runs on the book's thread (inside
 * a PinBookJob), returns rows newly allocated in a GPtrArray that frees them,
 * and NULL with an error set.  Only live rows, unless said otherwise. */

typedef struct
{
  gint64 id;
  char *chassis_sha, *chassis_code;
  char *name;                 /* trait "name" */
  char *state;                /* trait "state": in-use, laid-up, for-sale, sold; NULL: in-use */
  double seconds, runs, outings, litres;       /* meter: logged in this book */
  double before_seconds, before_runs, before_litres; /* traits used.seconds …; NAN: not known */
  char *first_day, *last_day; /* of outings; NULL: none */
} PinVehicleRow;

typedef struct
{
  gint64 id, vehicle, carrier;
  char *code, *kind;
} PinPlaceRow;

typedef struct
{
  gint64 id;
  char *kind;
  gint64 vehicle, place;      /* 0: on the shelf, in the bin … */
  gint64 inside;              /* still in this part, off the car */
  char *shelf;
  double seconds, runs, outings, litres;       /* its clocks now, logged in this book */
  char *size;                 /* trait "size", or NULL */
  char *since;                /* day of its last fitting */
} PinPartRow;

typedef struct
{
  gint64 id, vehicle;
  char *plan, *lang, *day, *person;
  char *verdict;              /* NULL: still walking */
  char *signed_day, *signed_person;
  gint64 sign_off;
} PinInspectionRow;

typedef struct
{
  gint64 id;                  /* of the opening row */
  gint64 vehicle, place, part;
  PinGravity gravity;         /* now */
  gboolean closed;            /* closed or withdrawn */
  gboolean withdrawn, accepted, worked;
  char *step;                 /* of the answer that opened it; NULL: by hand */
  PinPhase phase;
  char *detail;               /* its grade, or the reading as typed */
  char *note;                 /* of the opening row, else of the last that has one */
  char *day;                  /* opened */
  char *last_day;             /* of its last event */
  gint64 last;                /* id of its last event */
  gint64 cause;               /* answer that last graded it */
} PinFindingRow;

typedef struct
{
  gint64 part;
  char *deed, *day;
  double seconds, runs, outings, litres; /* the part's clock then */
} PinMarkRow;

typedef struct
{
  gint64 id;
  char *kind, *size, *name, *unit;
  double amount;              /* left, in unit */
} PinSupplyRow;

void pin_vehicle_row_free    (PinVehicleRow    *row);
void pin_place_row_free      (PinPlaceRow      *row);
void pin_part_row_free       (PinPartRow       *row);
void pin_inspection_row_free (PinInspectionRow *row);
void pin_finding_row_free    (PinFindingRow    *row);
void pin_mark_row_free       (PinMarkRow       *row);
void pin_supply_row_free     (PinSupplyRow     *row);

/* vehicle 0 or part 0: all of the stable. */
GPtrArray *pin_query_vehicles    (PinDb *db, GError **error);              /* PinVehicleRow, by id */
PinVehicleRow *pin_query_vehicle (PinDb *db, gint64 vehicle, GError **error);
GPtrArray *pin_query_places      (PinDb *db, gint64 vehicle, GError **error); /* PinPlaceRow */
GPtrArray *pin_query_places_of_part (PinDb *db, gint64 part, GError **error); /* PinPlaceRow: where it ever sat */
GPtrArray *pin_query_parts_on    (PinDb *db, gint64 vehicle, GError **error); /* PinPartRow, now on it */
GPtrArray *pin_query_parts_off   (PinDb *db, GError **error);              /* PinPartRow on the shelf */
PinPartRow *pin_query_part       (PinDb *db, gint64 part, GError **error);
GPtrArray *pin_query_traits      (PinDb *db, gint64 thing, const char *on_day, GError **error); /* newest live of each code, on or before day (NULL: now) */
GPtrArray *pin_query_traits_of_vehicle (PinDb *db, gint64 vehicle, const char *on_day, GError **error); /* of the vehicle and the parts on it now */
GPtrArray *pin_query_trait_history (PinDb *db, gint64 thing, const char *code, GError **error);
GPtrArray *pin_query_fittings    (PinDb *db, gint64 part, GError **error); /* PinFitting, in order */
GPtrArray *pin_query_outings     (PinDb *db, gint64 vehicle, int most, GError **error); /* PinOuting, newest first; most 0: all */
GPtrArray *pin_query_inspections (PinDb *db, gint64 vehicle, GError **error); /* PinInspectionRow, newest first */
PinInspectionRow *pin_query_open_walk (PinDb *db, gint64 vehicle, GError **error); /* NULL without error: none */
GPtrArray *pin_query_open_walks  (PinDb *db, gint64 vehicle, GError **error); /* PinInspectionRow */
GPtrArray *pin_query_signed      (PinDb *db, gint64 vehicle, int most, GError **error); /* PinInspectionRow, newest begun first */
GPtrArray *pin_query_inspections_of_part (PinDb *db, gint64 part, GError **error); /* PinInspectionRow */
GPtrArray *pin_query_answers     (PinDb *db, gint64 inspection, GError **error); /* PinAnswer, live, by id */
GPtrArray *pin_query_tray_answers (PinDb *db, gint64 vehicle, GError **error); /* live off/… and on/… of all its walks, by id */
GPtrArray *pin_query_tray        (PinDb *db, gint64 vehicle, gint64 inspection, GError **error); /* PinAnswer: last moves, now and before that walk */
GPtrArray *pin_query_part_answers (PinDb *db, gint64 part, GError **error); /* live, by id */
GPtrArray *pin_query_readings    (PinDb *db, gint64 vehicle, GError **error); /* PinReading of it and of the parts now on it, by day, id */
GPtrArray *pin_query_readings_of (PinDb *db, gint64 thing, const char *quantity, GError **error); /* quantity NULL: all */
GPtrArray *pin_query_readings_of_walk (PinDb *db, gint64 inspection, GError **error);
GPtrArray *pin_query_readings_ever_of_walk (PinDb *db, gint64 inspection, GError **error); /* of corrected answers too */
GPtrArray *pin_query_works       (PinDb *db, gint64 vehicle, GError **error); /* PinWork on it, its places or the parts now on it */
GPtrArray *pin_query_works_of    (PinDb *db, gint64 thing, GError **error);
GPtrArray *pin_query_works_of_walk (PinDb *db, gint64 inspection, GError **error);
GPtrArray *pin_query_owed        (PinDb *db, gint64 vehicle, GError **error); /* PinOwed, open debts only */
GPtrArray *pin_query_findings    (PinDb *db, gint64 vehicle, gboolean closed_too, GError **error); /* PinFindingRow */
GPtrArray *pin_query_findings_of_part (PinDb *db, gint64 part, GError **error); /* all */
GPtrArray *pin_query_marks       (PinDb *db, gint64 vehicle, GError **error); /* PinMarkRow of it and of the parts on it: part is the thing */
GPtrArray *pin_query_photos      (PinDb *db, gint64 of, GError **error);   /* PinPhoto with jpeg */
GPtrArray *pin_query_stock       (PinDb *db, GError **error);
char      *pin_query_draft       (PinDb *db, gint64 inspection, GError **error); /* NULL without error: none */
GBytes    *pin_query_source      (PinDb *db, const char *sha, GError **error);
char      *pin_query_last_id_text (PinDb *db, GError **error);
/* Latest signed walk of a vehicle; NULL without error: none. */
PinInspectionRow *pin_query_last_signed (PinDb *db, gint64 vehicle, GError **error);

/* More of the same. */
GPtrArray *pin_query_fittings_at (PinDb *db, gint64 place, GError **error); /* PinFitting: every part that sat there */
GPtrArray *pin_query_marks_of    (PinDb *db, gint64 thing, GError **error); /* PinMarkRow of one part or vehicle */
GPtrArray *pin_query_supplies    (PinDb *db, GError **error);              /* PinSupplyRow */
PinInspectionRow *pin_query_inspection (PinDb *db, gint64 inspection, GError **error);
GPtrArray *pin_query_answers_all (PinDb *db, gint64 inspection, GError **error); /* corrected and withdrawn ones too */
GPtrArray *pin_query_traits_of_walk (PinDb *db, gint64 inspection, GError **error); /* PinTrait */
GPtrArray *pin_query_outings_of_part (PinDb *db, gint64 part, GError **error); /* PinOuting that name a pack or tyre set, newest first */
int        pin_query_origin_known (PinDb *db, const char *origin, GError **error); /* 1: imported already; -1 on error */
GPtrArray *pin_query_owed_all    (PinDb *db, gint64 vehicle, GError **error); /* PinOwed: debts and what settled them */
GPtrArray *pin_query_finding_life (PinDb *db, gint64 finding, GError **error); /* PinFinding, opening row first */
GPtrArray *pin_query_own_rules   (PinDb *db, GError **error);              /* PinOwnRule */
GPtrArray *pin_query_own_limits  (PinDb *db, GError **error);              /* PinOwnLimit */
GPtrArray *pin_query_own_limits_ever (PinDb *db, GError **error);          /* PinOwnLimit */
char      *pin_query_uuid        (PinDb *db, GError **error);              /* of the stable */
