#include <glib/gi18n.h>

#include "library/check.h"
#include "library/suggest.h"
#include "library/xml-node.h"

static void
check_step (PinCheck *check, const xmlNode *node, const PinDebt *debt)
{
  int line = pin_node_line (node, "step");
  const PinProcedure *procedure = pin_check_find_procedure (check, debt->procedure);
  const PinStep *step = procedure ? pin_procedure_step (procedure, debt->step, NULL) : NULL;

  if (procedure == NULL)
    pin_remark (check->remarks, line, _("there is no procedure “%s” to settle “%s”, name one that there is"),
                debt->procedure, debt->id);
  else if (step == NULL)
    pin_remark (check->remarks, line, _("procedure “%s” has no step “%s” to settle “%s”, name one that it has"),
                debt->procedure, debt->step, debt->id);
  else if (g_strcmp0 (step->settles, debt->id) != 0)
    pin_remark (check->remarks, line, _("the step “%s” does not settle “%s”, give it settles=\"%s\""),
                debt->step, debt->id, debt->id);
}

static void
check_debt (PinCheck *check, const xmlNode *node)
{
  g_autofree char *id = pin_node_attr (node, "id");
  const PinDebt *debt = pin_kinds_table_find (check->here, PIN_WORD_DEBT, id);
  int line = pin_node_line (node, NULL);

  if (debt->payable == PIN_PAYABLE_TIME && !pin_node_has (node, "wait"))
    pin_remark (check->remarks, line, _("“%s” waits for time and does not say how long, add wait=\"…\""), id);
  if (debt->payable != PIN_PAYABLE_TIME && pin_node_has (node, "wait"))
    pin_remark (check->remarks, pin_node_line (node, "wait"),
                _("“%s” does not wait for time, leave wait out or make it payable=\"time\""), id);
  if (debt->procedure != NULL)
    check_step (check, node, debt);
  else if (debt->payable == PIN_PAYABLE_NOW || debt->payable == PIN_PAYABLE_USE)
    pin_remark (check->remarks, line, _("nothing ever settles “%s”, add step=\"procedure/step\""), id);
}

static void
check_job (PinCheck *check, const xmlNode *node)
{
  g_autofree char *id = pin_node_attr (node, "procedure");

  if (pin_check_find_procedure (check, id) == NULL)
    {
      GHashTable *all = pin_library_shelf (check->library, PIN_TEXT_PROCEDURE)->texts[PIN_TEXT_PROCEDURE];
      g_autofree char *right = pin_suggest_key (id, all);

      pin_remark (check->remarks, pin_node_line (node, "procedure"), _("there is no procedure “%s” for this job, %s"),
                  id, right ? right : _("name one that there is"));
    }
}

/* Debts can be settled and jobs done. */
void
pin_check_kinds (PinCheck *check)
{
  for (xmlNode *n = pin_node_first (check->root, NULL); n; n = pin_node_next (n, NULL))
    if (pin_node_is (n, "debt"))
      check_debt (check, n);
    else if (pin_node_is (n, "job"))
      check_job (check, n);
}
