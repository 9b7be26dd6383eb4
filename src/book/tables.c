#include "book/rows.h"

#include "book/queries.h"

/* The descriptions.  A table that lives ends with void, and live follows. */

#define COLUMN(S, f, t) { #f, PIN_COLUMN_##t, G_STRUCT_OFFSET (S, f) }
#define ENDING(S) \
  COLUMN (S, replaces, ID), { "void", PIN_COLUMN_FLAG, G_STRUCT_OFFSET (S, is_void) }
#define TABLE(n, S, lives, conflict) \
  const PinTable pin_table_##n = { #n,    sizeof (S), n##_columns, G_N_ELEMENTS (n##_columns), \
                                   lives, conflict }

static const PinColumn trait_columns[] = {
  COLUMN (PinTrait, id, ID), COLUMN (PinTrait, thing, ID), COLUMN (PinTrait, code, TEXT),
  COLUMN (PinTrait, day, DAY), COLUMN (PinTrait, at, ID), COLUMN (PinTrait, value, REAL),
  COLUMN (PinTrait, text, TEXT), COLUMN (PinTrait, typed, TEXT), COLUMN (PinTrait, origin, TEXT),
  COLUMN (PinTrait, answer, ID), COLUMN (PinTrait, person, TEXT), ENDING (PinTrait),
};
TABLE (trait, PinTrait, TRUE, NULL);

static const PinColumn fitting_columns[] = {
  COLUMN (PinFitting, id, ID), COLUMN (PinFitting, part, ID), COLUMN (PinFitting, place, ID),
  COLUMN (PinFitting, shelf, TEXT), COLUMN (PinFitting, inside, ID), COLUMN (PinFitting, day, DAY),
  COLUMN (PinFitting, at, ID), COLUMN (PinFitting, answer, ID), COLUMN (PinFitting, person, TEXT),
  ENDING (PinFitting),
};
TABLE (fitting, PinFitting, TRUE, NULL);

static const PinColumn outing_columns[] = {
  COLUMN (PinOuting, id, ID),
  COLUMN (PinOuting, vehicle, ID),
  COLUMN (PinOuting, day, DAY),
  COLUMN (PinOuting, at, ID),
  COLUMN (PinOuting, seconds, REAL),
  COLUMN (PinOuting, runs, REAL),
  COLUMN (PinOuting, litres, REAL),
  COLUMN (PinOuting, surface, TEXT),
  COLUMN (PinOuting, dirt, TEXT),
  COLUMN (PinOuting, water, TEXT),
  COLUMN (PinOuting, salt, COUNT),
  COLUMN (PinOuting, knocks, COUNT),
  COLUMN (PinOuting, ambient, REAL),
  COLUMN (PinOuting, origin, TEXT),
  COLUMN (PinOuting, note, TEXT),
  COLUMN (PinOuting, person, TEXT),
  ENDING (PinOuting),
};
TABLE (outing, PinOuting, TRUE, NULL);

static const PinColumn outing_part_columns[] = {
  COLUMN (PinOutingPartFact, outing, ID), COLUMN (PinOutingPartFact, part, ID),
  COLUMN (PinOutingPartFact, runs, REAL), COLUMN (PinOutingPartFact, seconds, REAL),
};
TABLE (outing_part, PinOutingPartFact, FALSE, NULL);

static const PinColumn inspection_columns[] = {
  COLUMN (PinInspection, id, ID),     COLUMN (PinInspection, vehicle, ID),
  COLUMN (PinInspection, plan, TEXT), COLUMN (PinInspection, lang, TEXT),
  COLUMN (PinInspection, day, DAY),   COLUMN (PinInspection, person, TEXT),
};
TABLE (inspection, PinInspection, FALSE, NULL);

static const PinColumn walk_plan_columns[] = {
  COLUMN (PinWalkPlanFact, id, ID), COLUMN (PinWalkPlanFact, inspection, ID),
  COLUMN (PinWalkPlanFact, plan, TEXT),
};
TABLE (walk_plan, PinWalkPlanFact, FALSE, NULL);

static const PinColumn draft_columns[] = {
  COLUMN (PinDraftFact, inspection, ID), COLUMN (PinDraftFact, state, TEXT),
};
TABLE (draft, PinDraftFact, FALSE,
       " ON CONFLICT (inspection) DO UPDATE SET state = excluded.state");

static const PinColumn sign_off_columns[] = {
  COLUMN (PinSignOff, id, ID),        COLUMN (PinSignOff, inspection, ID),
  COLUMN (PinSignOff, verdict, TEXT), COLUMN (PinSignOff, day, DAY),
  COLUMN (PinSignOff, person, TEXT),
};
TABLE (sign_off, PinSignOff, FALSE, NULL);

static const PinColumn answer_columns[] = {
  COLUMN (PinAnswer, id, ID),           COLUMN (PinAnswer, inspection, ID),
  COLUMN (PinAnswer, step, TEXT),       COLUMN (PinAnswer, place, ID),
  COLUMN (PinAnswer, part, ID),         COLUMN (PinAnswer, phase, PHASE),
  COLUMN (PinAnswer, outcome, OUTCOME), COLUMN (PinAnswer, unsafe, FLAG),
  COLUMN (PinAnswer, detail, TEXT),     COLUMN (PinAnswer, note, TEXT),
  COLUMN (PinAnswer, person, TEXT),     ENDING (PinAnswer),
};
TABLE (answer, PinAnswer, TRUE, NULL);

static const PinColumn reading_columns[] = {
  COLUMN (PinReading, id, ID),
  COLUMN (PinReading, thing, ID),
  COLUMN (PinReading, place, ID),
  COLUMN (PinReading, quantity, TEXT),
  COLUMN (PinReading, value, REAL),
  COLUMN (PinReading, typed, TEXT),
  COLUMN (PinReading, repeats, REALS),
  COLUMN (PinReading, method, TEXT),
  COLUMN (PinReading, conditions, TEXT),
  COLUMN (PinReading, phase, PHASE_OR_NULL),
  COLUMN (PinReading, answer, ID),
  COLUMN (PinReading, outing, ID),
  COLUMN (PinReading, work, ID),
  COLUMN (PinReading, day, DAY),
  COLUMN (PinReading, at, ID),
  COLUMN (PinReading, person, TEXT),
  ENDING (PinReading),
};
TABLE (reading, PinReading, TRUE, NULL);

static const PinColumn work_columns[] = {
  COLUMN (PinWork, id, ID), COLUMN (PinWork, thing, ID), COLUMN (PinWork, place, ID),
  COLUMN (PinWork, deed, TEXT), COLUMN (PinWork, answer, ID), COLUMN (PinWork, told, FLAG),
  COLUMN (PinWork, sure, TEXT), COLUMN (PinWork, note, TEXT), COLUMN (PinWork, cost, MONEY),
  COLUMN (PinWork, currency, TEXT), COLUMN (PinWork, day, DAY), COLUMN (PinWork, at, ID),
  COLUMN (PinWork, person, TEXT), ENDING (PinWork),
};
TABLE (work, PinWork, TRUE, NULL);

static const PinColumn owed_columns[] = {
  COLUMN (PinOwed, id, ID), COLUMN (PinOwed, vehicle, ID), COLUMN (PinOwed, place, ID),
  COLUMN (PinOwed, what, TEXT), COLUMN (PinOwed, ready_at, ID), COLUMN (PinOwed, due_at, ID),
  COLUMN (PinOwed, cause, ID), COLUMN (PinOwed, settles, ID), COLUMN (PinOwed, day, DAY),
  COLUMN (PinOwed, person, TEXT), ENDING (PinOwed),
};
TABLE (owed, PinOwed, TRUE, NULL);

static const PinColumn finding_columns[] = {
  COLUMN (PinFinding, id, ID),           COLUMN (PinFinding, opens, ID),
  COLUMN (PinFinding, event, TEXT),      COLUMN (PinFinding, vehicle, ID),
  COLUMN (PinFinding, place, ID),        COLUMN (PinFinding, part, ID),
  COLUMN (PinFinding, gravity, GRAVITY), COLUMN (PinFinding, cause, ID),
  COLUMN (PinFinding, note, TEXT),       COLUMN (PinFinding, day, DAY),
  COLUMN (PinFinding, person, TEXT),     ENDING (PinFinding),
};
TABLE (finding, PinFinding, TRUE, NULL);

static const PinColumn own_rule_columns[] = {
  COLUMN (PinOwnRule, id, ID),
  COLUMN (PinOwnRule, rule, TEXT),
  COLUMN (PinOwnRule, thing, ID),
  COLUMN (PinOwnRule, clock, TEXT),
  COLUMN (PinOwnRule, every, REAL),
  COLUMN (PinOwnRule, origin, TEXT),
  COLUMN (PinOwnRule, day, DAY),
  COLUMN (PinOwnRule, person, TEXT),
  ENDING (PinOwnRule),
};
TABLE (own_rule, PinOwnRule, TRUE, NULL);

static const PinColumn own_limit_columns[] = {
  COLUMN (PinOwnLimit, id, ID),       COLUMN (PinOwnLimit, step, TEXT),
  COLUMN (PinOwnLimit, thing, ID),    COLUMN (PinOwnLimit, band, TEXT),
  COLUMN (PinOwnLimit, origin, TEXT), COLUMN (PinOwnLimit, day, DAY),
  COLUMN (PinOwnLimit, person, TEXT), ENDING (PinOwnLimit),
};
TABLE (own_limit, PinOwnLimit, TRUE, NULL);

static const PinColumn stock_columns[] = {
  COLUMN (PinStock, id, ID), COLUMN (PinStock, supply, ID), COLUMN (PinStock, amount, REAL),
  COLUMN (PinStock, cause, ID), COLUMN (PinStock, cost, MONEY), COLUMN (PinStock, currency, TEXT),
  COLUMN (PinStock, day, DAY), COLUMN (PinStock, person, TEXT), ENDING (PinStock),
};
TABLE (stock, PinStock, TRUE, NULL);

static const PinColumn photo_columns[] = {
  COLUMN (PinPhotoFact, id, ID),   COLUMN (PinPhotoFact, of, ID),
  COLUMN (PinPhotoFact, sha, SHA), COLUMN (PinPhotoFact, caption, TEXT),
  COLUMN (PinPhotoFact, day, DAY), COLUMN (PinPhotoFact, person, TEXT),
  ENDING (PinPhotoFact),
};
TABLE (photo, PinPhotoFact, TRUE, NULL);

static const PinColumn image_columns[] = {
  COLUMN (PinImageFact, sha, SHA), COLUMN (PinImageFact, jpeg, BYTES),
};
TABLE (image, PinImageFact, FALSE, " ON CONFLICT (sha) DO NOTHING");

static const PinColumn source_columns[] = {
  COLUMN (PinSourceFact, sha, SHA),
  COLUMN (PinSourceFact, room, TEXT),
  COLUMN (PinSourceFact, code, TEXT),
  COLUMN (PinSourceFact, xml, BYTES),
};
TABLE (source, PinSourceFact, FALSE, " ON CONFLICT (sha) DO NOTHING");

static const PinColumn vehicle_columns[] = {
  COLUMN (PinVehicleFact, id, ID), COLUMN (PinVehicleFact, chassis, SHA),
};
TABLE (vehicle, PinVehicleFact, FALSE, NULL);

static const PinColumn place_columns[] = {
  COLUMN (PinPlaceFact, id, ID),      COLUMN (PinPlaceFact, vehicle, ID),
  COLUMN (PinPlaceFact, code, TEXT),  COLUMN (PinPlaceFact, kind, TEXT),
  COLUMN (PinPlaceFact, carrier, ID),
};
TABLE (place, PinPlaceFact, FALSE, NULL);

static const PinColumn part_columns[] = {
  COLUMN (PinPartFact, id, ID),
  COLUMN (PinPartFact, kind, TEXT),
  COLUMN (PinPartFact, made_from, ID),
};
TABLE (part, PinPartFact, FALSE, NULL);

static const PinColumn supply_columns[] = {
  COLUMN (PinSupplyFact, id, ID),     COLUMN (PinSupplyFact, kind, TEXT),
  COLUMN (PinSupplyFact, size, TEXT), COLUMN (PinSupplyFact, name, TEXT),
  COLUMN (PinSupplyFact, unit, TEXT),
};
TABLE (supply, PinSupplyFact, FALSE, NULL);

#define FREE(name, S) \
  void pin_##name##_free (S *row) { pin_row_free (&pin_table_##name, row); }

FREE (trait, PinTrait)
FREE (fitting, PinFitting)
FREE (inspection, PinInspection)
FREE (answer, PinAnswer)
FREE (reading, PinReading)
FREE (work, PinWork)
FREE (owed, PinOwed)
FREE (finding, PinFinding)

void
pin_outing_free (PinOuting *row)
{
  if (row == NULL)
    return;
  g_clear_pointer (&row->parts, g_array_unref);
  pin_row_free (&pin_table_outing, row);
}

void
pin_photo_free (PinPhoto *row)
{
  if (row == NULL)
    return;
  g_clear_pointer (&row->jpeg, g_bytes_unref);
  g_free (row->caption);
  g_free (row->day);
  g_free (row->person);
  g_free (row);
}
