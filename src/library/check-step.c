#include <glib/gi18n.h>
#include <string.h>

#include "library/check.h"
#include "library/suggest.h"

/* ==== What it is asked of ==== */

static void
check_scope (PinCheck *check, const PinStep *step, gboolean in_aside)
{
  if (step->pair && step->each == NULL)
    pin_remark (check->remarks, step->line,
                _("pair compares two parts and “%s” is asked of none, give it each=\"…\""), step->id);
  if (*step->where != NULL && step->each == NULL)
    pin_remark (check->remarks, step->line,
                _("where chooses among parts and “%s” is asked of none, give it each=\"…\""), step->id);
  if (g_strcmp0 (step->count_of, "fasteners") == 0 && g_strcmp0 (step->each, "fasteners") != 0 &&
      !(in_aside && step->each == NULL))
    pin_remark (check->remarks, step->line,
                _("“%s” counts the fasteners of a group and is asked of none, give it each=\"fasteners\""),
                step->id);
  if (step->most > 0 && step->again == NULL)
    pin_remark (check->remarks, step->line,
                _("most bounds how often a step asks again and “%s” asks once, put it on its <if>"), step->id);
}

static gboolean
says_nothing (const PinStep *step)
{
  return step->title == NULL && step->do_text == NULL && step->look_for == NULL &&
         step->asks->len == 0 && step->again == NULL;
}

/* ==== Debts ==== */

static gboolean
is_settled (PinCheck *check, const PinDebt *debt)
{
  const PinProcedure *procedure;

  if (debt->procedure == NULL)
    return debt->payable == PIN_PAYABLE_BEFORE_USE ||
           (debt->payable == PIN_PAYABLE_TIME && debt->minutes > 0);
  procedure = pin_check_find_procedure (check, debt->procedure);
  return procedure != NULL && pin_procedure_step (procedure, debt->step, NULL) != NULL;
}

static void
check_debts (PinCheck *check, const PinStep *step)
{
  const PinDebt *debt = step->owes ? pin_check_word (check, PIN_WORD_DEBT, step->owes) : NULL;

  if (step->owed_before_use && step->owes == NULL)
    pin_remark (check->remarks, step->line,
                _("“%s” owes nothing until the next use, add owes=\"…\" or leave owed-until out"), step->id);
  if (debt != NULL && !is_settled (check, debt))
    pin_remark (check->remarks, step->line,
                _("“%s” is owed here and never settled, let the step of its debt in the kinds exist"),
                step->owes);
}

/* ==== Answers ==== */

static void
check_unsafe (PinCheck *check, const PinStep *step)
{
  for (guint i = 0; i < step->grades->len; i++)
    {
      const PinGrade *grade = step->grades->pdata[i];

      if (grade->unsafe && grade->outcome != PIN_OUTCOME_FAIL)
        pin_remark (check->remarks, step->line,
                    _("grade “%s” of “%s” is unsafe and does not fail, give it outcome=\"fail\""), grade->id,
                    step->id);
    }
}

static gboolean
against_partner (const PinMeasure *measure)
{
  for (guint i = 0; i < measure->limits->len; i++)
    if (((PinLimits *) measure->limits->pdata[i])->against == PIN_AGAINST_PARTNER)
      return TRUE;
  return FALSE;
}

static void
check_measure (PinCheck *check, const PinStep *step)
{
  const PinMeasure *measure = step->measure;
  const PinQuantity *quantity = pin_check_word (check, PIN_WORD_QUANTITY, measure->quantity);

  if (quantity != NULL && quantity->unit->dimension != measure->unit->dimension)
    pin_remark (check->remarks, step->line, _("“%s” is measured as %s and “%s” is %s, use %s"),
                step->id, pin_dimension_word (measure->unit->dimension), quantity->id,
                pin_dimension_word (quantity->unit->dimension), quantity->unit->id);
  if (against_partner (measure) && !step->pair)
    pin_remark (check->remarks, step->line,
                _("“%s” is held against its partner and has none, give it pair=\"yes\""), step->id);
  pin_check_limits (check, measure);
}

/* ==== Work ==== */

static void
check_deeds (PinCheck *check, const PinStep *step, const PinPartKind *kind)
{
  for (int i = 0; step->deeds[i] != NULL; i++)
    {
      g_autofree char *right = NULL;

      if (pin_check_word (check, PIN_WORD_DEED, step->deeds[i]) == NULL ||
          g_strv_contains ((const char *const *) kind->deeds, step->deeds[i]))
        continue;
      right = pin_suggest_text (step->deeds[i], (const char *const *) kind->deeds);
      pin_remark (check->remarks, step->line, _("“%s” is not done to a %s, %s"), step->deeds[i],
                  kind->title, right ? right : _("add it to the deeds of that kind"));
    }
}

static void
check_ask (PinCheck *check, const PinStep *step, const PinAsk *ask, const PinPartKind *kind)
{
  const PinSpec *spec = pin_check_word (check, PIN_WORD_SPEC, ask->spec);

  if (spec == NULL)
    return;
  if (kind != NULL && !g_strv_contains ((const char *const *) kind->specs, ask->spec))
    {
      g_autofree char *right = pin_suggest_text (ask->spec, (const char *const *) kind->specs);

      pin_remark (check->remarks, step->line, _("“%s” is not noted of a %s, %s"), ask->spec, kind->title,
                  right ? right : _("add it to the specs of that kind"));
    }
  if (ask->unit != NULL && spec->unit == NULL)
    pin_remark (check->remarks, step->line, _("“%s” is noted in words, leave unit out"), ask->spec);
  else if (ask->unit != NULL && spec->unit->dimension != ask->unit->dimension)
    pin_remark (check->remarks, step->line, _("“%s” is %s and is asked for in %s, use %s"), ask->spec,
                pin_dimension_word (spec->unit->dimension), ask->unit->id, spec->unit->id);
}

static void
check_uses (PinCheck *check, const PinStep *step, const PinUses *uses)
{
  const PinSupply *supply = uses->supply ? pin_check_word (check, PIN_WORD_SUPPLY, uses->supply) : NULL;
  const PinUnit *unit = pin_unit_find (uses->unit);
  const PinUnit *stocked;

  if (supply == NULL || g_strcmp0 (uses->unit, supply->unit) == 0)
    return;
  stocked = pin_unit_find (supply->unit);
  if (stocked == NULL && *uses->unit == '\0')
    return;
  if (stocked == NULL)
    pin_remark (check->remarks, step->line, _("“%s” is counted by the %s, write the number alone"),
                supply->id, supply->unit);
  else if (unit == NULL || unit->dimension != stocked->dimension)
    pin_remark (check->remarks, step->line, _("“%s” is stocked in %s, write its amount in that"), supply->id,
                stocked->id);
}

/* ==== All of it ==== */

/* One step by itself; what its branches lead to is pin_check_flow(). */
void
pin_check_step (PinCheck *check, const PinStep *step, gboolean in_aside)
{
  const PinPartKind *kind = step->each ? pin_check_word (check, PIN_WORD_KIND, step->each) : NULL;

  check_scope (check, step, in_aside);
  check_debts (check, step);
  if (says_nothing (step))
    pin_remark (check->remarks, step->line, _("“%s” says nothing, give it a <do> or a <look-for>"), step->id);
  if (kind != NULL)
    check_deeds (check, step, kind);
  for (guint i = 0; i < step->asks->len; i++)
    check_ask (check, step, step->asks->pdata[i], kind);
  for (guint i = 0; i < step->uses->len; i++)
    check_uses (check, step, step->uses->pdata[i]);
  check_unsafe (check, step);
  if (step->measure != NULL)
    check_measure (check, step);
}
