#pragma once

#include "inspection/car.h"

/* Findings, answers and debts in words, from the texts of the library; where
 * the library lacks the text, in the words that the book kept.  All strings
 * are the caller's; free with g_free(). */

char *pin_finding_text  (PinLibrary          *library,
                         const PinCar        *car,
                         const PinFindingRow *finding); /* "front left hub, outer: sandy" */
char *pin_finding_what  (PinLibrary          *library,
                         const PinFindingRow *finding); /* "sandy all round" */
char *pin_finding_closes(PinLibrary          *library,
                         const PinFindingRow *finding); /* "Work on it, then …" */
char *pin_answer_text   (PinLibrary          *library,
                         const PinAnswer     *answer);  /* "sandy", "not checked: no tool" */
char *pin_step_title    (PinLibrary          *library,
                         const char          *stored);  /* "bearings/grade" → its title */
char *pin_procedure_title (PinLibrary        *library,
                         const char          *id);      /* of procedure or teardown; else the id */
char *pin_owed_title    (PinLibrary          *library,
                         const char          *what);    /* "mesh" → "set the mesh" */
char *pin_owed_text     (PinLibrary          *library,
                         const PinCar        *car,
                         const PinOwed       *owed);    /* "cure, until Mon 30 Nov, 16:10" */
char *pin_deed_title    (PinLibrary          *library,
                         const char          *deed);
char *pin_reading_text  (PinLibrary          *library,
                         const PinReading    *reading); /* "2.6 s" */
char *pin_place_text    (const PinCar        *car,
                         gint64               place,
                         gint64               part);    /* label, or "" for the whole vehicle */
/* What an inspection walks, from its plan: id of procedure or teardown. */
char *pin_plan_what     (const char          *plan);
char *pin_plan_title    (const char          *plan);    /* as shown when it was walked */
/* Upper-cases the first letter. */
char *pin_sentence_case (const char          *text);
char *pin_size_text     (const char          *size);
