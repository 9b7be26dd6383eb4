#include "inspection/order.h"

#include <glib/gi18n.h>
#include <string.h>

#include "inspection/error.h"

static void
stage_ref_free (PinStageRef *ref)
{
  pin_procedure_unref (ref->procedure);
  g_free (ref);
}

static void
add (GPtrArray *order, PinProcedure *procedure, const PinStage *stage)
{
  PinStageRef *ref = g_new0 (PinStageRef, 1);

  ref->procedure = pin_procedure_ref (procedure);
  ref->stage = stage;
  g_ptr_array_add (order, ref);
}

static gboolean
add_named (GPtrArray *order, GPtrArray *procedures, const char *name, GError **error)
{
  const char *slash = strchr (name, '/');

  for (guint i = 0; slash && i < procedures->len; i++)
    {
      PinProcedure *procedure = g_ptr_array_index (procedures, i);
      const PinStage *stage = NULL;

      if (strlen (procedure->id) == (gsize) (slash - name) && g_str_has_prefix (name, procedure->id))
        stage = pin_procedure_stage (procedure, slash + 1);
      if (stage)
        {
          add (order, procedure, stage);
          return TRUE;
        }
    }
  g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_PLAN,
               _("the order names the stage “%s”, which none of its procedures has: check that teardown’s file"), name);
  return FALSE;
}

/* Stages and procedures that are not meant for the car are left out here, so
 * that a teardown's file can name what only some cars have. */
GPtrArray *
pin_order_stages (GPtrArray *procedures, const char *const *order, const PinCar *car, GError **error)
{
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func ((GDestroyNotify) stage_ref_free);

  for (guint i = 0; order == NULL && i < procedures->len; i++)
    {
      PinProcedure *procedure = g_ptr_array_index (procedures, i);

      for (guint j = 0; j < procedure->stages->len; j++)
        add (all, procedure, g_ptr_array_index (procedure->stages, j));
    }
  for (guint i = 0; order && order[i]; i++)
    if (!add_named (all, procedures, order[i], error))
      return NULL;
  for (guint i = all->len; i > 0; i--)
    {
      const PinStageRef *ref = g_ptr_array_index (all, i - 1);

      if (!pin_procedure_fits (ref->procedure, car) || !pin_fits_car (ref->stage->fits, car))
        g_ptr_array_remove_index (all, i - 1);
    }
  return g_steal_pointer (&all);
}
