#include "window/plan-paint.h"

struct _PinPlanPaint
{
  PinPlan plan;               /* what it points to belongs to this */
  PinChassis *chassis;
  char **off;
  char *here, *here_label;
  char *chosen;               /* the only one that is, or NULL */
  gboolean framed;
  int width, height;          /* px of the widget */
  int factor;                 /* device px in one of those */
};

static char *
only_of (GHashTable *set)
{
  GHashTableIter iter;
  gpointer code;

  if (set == NULL)
    return NULL;
  g_hash_table_iter_init (&iter, set);
  return g_hash_table_iter_next (&iter, &code, NULL) ? g_strdup (code) : NULL;
}

/* Copies what @plan points to; of what is chosen, the one. */
PinPlanPaint *
pin_plan_paint_new (PinChassis *chassis, const PinPlan *plan, gboolean framed, int width, int height,
                    int factor)
{
  PinPlanPaint *self = g_atomic_rc_box_new0 (PinPlanPaint);

  self->plan = *plan;
  self->plan.chassis = self->chassis = pin_chassis_ref (chassis);
  self->plan.off = (const char *const *) (self->off = g_strdupv ((char **) plan->off));
  self->plan.here = self->here = g_strdup (plan->here);
  self->plan.here_label = self->here_label = g_strdup (plan->here_label);
  self->plan.chosen = NULL;
  self->chosen = only_of (plan->chosen);
  self->framed = framed;
  self->width = width;
  self->height = height;
  self->factor = factor;
  return self;
}

PinPlanPaint *
pin_plan_paint_ref (PinPlanPaint *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
clear (gpointer data)
{
  PinPlanPaint *self = data;

  pin_chassis_unref (self->chassis);
  g_strfreev (self->off);
  g_free (self->here);
  g_free (self->here_label);
  g_free (self->chosen);
}

void
pin_plan_paint_unref (PinPlanPaint *self)
{
  g_atomic_rc_box_release_full (self, clear);
}

/* The same car the same way round, though perhaps at another size. */
gboolean
pin_plan_paint_alike (const PinPlanPaint *a, const PinPlanPaint *b)
{
  return a->chassis == b->chassis && a->plan.turn == b->plan.turn
         && a->plan.palette == b->plan.palette;
}

static gboolean
same_strings (char **a, char **b)
{
  if (a == NULL || b == NULL)
    return a == b;
  return g_strv_equal ((const char *const *) a, (const char *const *) b);
}

/* Would both be painted alike? */
gboolean
pin_plan_paint_equal (const PinPlanPaint *a, const PinPlanPaint *b)
{
  return pin_plan_paint_alike (a, b) && a->width == b->width && a->height == b->height
         && a->factor == b->factor && a->framed == b->framed && a->plan.scale == b->plan.scale
         && a->plan.x == b->plan.x && a->plan.y == b->plan.y && a->plan.small == b->plan.small
         && a->plan.dimensions == b->plan.dimensions && a->plan.fresh == b->plan.fresh
         && same_strings (a->off, b->off) && g_strcmp0 (a->here, b->here) == 0
         && g_strcmp0 (a->here_label, b->here_label) == 0 && g_strcmp0 (a->chosen, b->chosen) == 0;
}

/* ---- on the painting thread --------------------------------------------------- */

static cairo_surface_t *
paint (const PinPlanPaint *self)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, self->width * self->factor,
                                                         self->height * self->factor);
  g_autoptr (GHashTable) chosen = g_hash_table_new (g_str_hash, g_str_equal);
  PinPlan plan = self->plan;
  cairo_t *cr;

  cairo_surface_set_device_scale (surface, self->factor, self->factor);
  cr = cairo_create (surface);
  if (self->chosen != NULL)
    {
      g_hash_table_add (chosen, self->chosen);
      plan.chosen = chosen;
    }
  if (self->framed)
    pin_plan_field (cr, plan.palette, 0, 0, self->width, self->height);
  pin_plan_draw (cr, &plan);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static void
work (gpointer data, gpointer user_data)
{
  GTask *task = data;

  if (!g_task_return_error_if_cancelled (task))
    g_task_return_pointer (task, paint (g_task_get_task_data (task)),
                           (GDestroyNotify) cairo_surface_destroy);
  /* The main loop lets go of it, and with it of the widget: see the end. */
}

/* ---- for the main loop ----------------------------------------------------------- */

/* One thread, which keeps its fonts. */
static GThreadPool *
painter (void)
{
  static GThreadPool *pool;

  if (pool == NULL)
    pool = g_thread_pool_new (work, NULL, 1, TRUE, NULL);
  return pool;
}

/* @source, a widget, is held until @callback has been called; that has to finish. */
void
pin_plan_paint_start (PinPlanPaint *self, gpointer source, GCancellable *cancellable,
                      GAsyncReadyCallback callback)
{
  GTask *task = g_task_new (source, cancellable, callback, NULL);

  g_task_set_task_data (task, pin_plan_paint_ref (self), (GDestroyNotify) pin_plan_paint_unref);
  g_thread_pool_push (painter (), task, NULL);
}

/* @wanted: what was painted, until the callback returns.
 * Returns: (transfer full) (nullable): NULL when it was no longer wanted */
GdkTexture *
pin_plan_paint_finish (GAsyncResult *result, PinPlanPaint **wanted)
{
  cairo_surface_t *surface = g_task_propagate_pointer (G_TASK (result), NULL);
  g_autoptr (GBytes) bytes = NULL;
  int width, height, stride;

  *wanted = g_task_get_task_data (G_TASK (result));
  /* The painter's hold; whoever called back has one more. */
  g_object_unref (result);
  if (surface == NULL)
    return NULL;
  width = cairo_image_surface_get_width (surface);
  height = cairo_image_surface_get_height (surface);
  stride = cairo_image_surface_get_stride (surface);
  bytes = g_bytes_new_with_free_func (cairo_image_surface_get_data (surface),
                                      (gsize) stride * (gsize) height,
                                      (GDestroyNotify) cairo_surface_destroy, surface);
  return gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, (gsize) stride);
}
