#include "library/stage-read.h"

#include "library/xml-node.h"

/* ==== Freeing ==== */

static void
wait_free (PinWait *self)
{
  g_free (self->id);
  g_free (self->text);
  g_free (self);
}

static void
way_free (PinWay *self)
{
  g_free (self->id);
  g_free (self->title);
  g_free (self->because);
  g_ptr_array_unref (self->steps);
  g_free (self);
}

static void
ways_free (PinWays *self)
{
  g_free (self->id);
  g_free (self->by);
  g_ptr_array_unref (self->ways);
  g_free (self);
}

static void
item_free (PinItem *self)
{
  switch (self->kind)
    {
    case PIN_ITEM_STEP:
      pin_step_free (self->step);
      break;
    case PIN_ITEM_WAIT:
      wait_free (self->wait);
      break;
    case PIN_ITEM_WAYS:
      ways_free (self->ways);
      break;
    }
  g_free (self);
}

static void
aside_free (PinAside *self)
{
  g_free (self->id);
  g_strfreev (self->off);
  g_strfreev (self->on);
  g_ptr_array_unref (self->items);
  g_free (self->go);
  g_free (self);
}

void
pin_stage_free (PinStage *self)
{
  g_free (self->id);
  g_free (self->title);
  g_strfreev (self->off);
  g_strfreev (self->on);
  g_strfreev (self->intact);
  g_strfreev (self->after);
  g_clear_pointer (&self->fits, pin_fits_free);
  g_ptr_array_unref (self->items);
  g_ptr_array_unref (self->asides);
  g_free (self);
}

/* ==== Reading ==== */

static PinWait *
read_wait (const xmlNode *node)
{
  PinWait *wait = g_new0 (PinWait, 1);

  wait->id = pin_node_attr (node, "id");
  wait->minutes = pin_node_number (node, "minutes");
  wait->text = pin_node_text (node);
  return wait;
}

static PinWay *
read_way (const xmlNode *node, PinSteps *steps)
{
  PinWay *way = g_new0 (PinWay, 1);

  way->id = pin_node_attr (node, "id");
  way->title = pin_node_child (node, "title");
  way->because = pin_node_child (node, "because");
  way->steps = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_step_free);
  for (xmlNode *n = pin_node_first (node, "step"); n; n = pin_node_next (n, "step"))
    g_ptr_array_add (way->steps, pin_step_read (n, steps));
  return way;
}

static PinWays *
read_ways (const xmlNode *node, PinSteps *steps)
{
  PinWays *ways = g_new0 (PinWays, 1);

  ways->id = pin_node_attr (node, "id");
  ways->by = pin_node_attr (node, "by");
  ways->ways = g_ptr_array_new_with_free_func ((GDestroyNotify) way_free);
  for (xmlNode *n = pin_node_first (node, "way"); n; n = pin_node_next (n, "way"))
    g_ptr_array_add (ways->ways, read_way (n, steps));
  return ways;
}

/* The steps, waits and ways that stand in @parent, in order. */
static GPtrArray *
read_items (const xmlNode *parent, PinSteps *steps)
{
  GPtrArray *items = g_ptr_array_new_with_free_func ((GDestroyNotify) item_free);

  for (xmlNode *n = pin_node_first (parent, NULL); n; n = pin_node_next (n, NULL))
    {
      PinItem item = { 0 };

      if (pin_node_is (n, "step"))
        item = (PinItem) { PIN_ITEM_STEP, .step = pin_step_read (n, steps) };
      else if (pin_node_is (n, "wait"))
        item = (PinItem) { PIN_ITEM_WAIT, .wait = read_wait (n) };
      else if (pin_node_is (n, "ways"))
        item = (PinItem) { PIN_ITEM_WAYS, .ways = read_ways (n, steps) };
      else
        continue;
      g_ptr_array_add (items, g_memdup2 (&item, sizeof item));
    }
  return items;
}

static PinAside *
read_aside (const xmlNode *node, PinSteps *steps)
{
  PinAside *aside = g_new0 (PinAside, 1);
  const xmlNode *go = pin_node_first (node, "go");

  aside->id = pin_node_attr (node, "id");
  aside->off = pin_node_list (node, "off");
  aside->on = pin_node_list (node, "on");
  aside->items = read_items (node, steps);
  aside->go = go != NULL ? pin_node_attr (go, "to") : NULL;
  aside->line = pin_node_line (node, NULL);
  return aside;
}

PinStage *
pin_stage_read (const xmlNode *node, PinSteps *steps)
{
  PinStage *stage = g_new0 (PinStage, 1);
  const xmlNode *fits = pin_node_first (node, "fits");

  stage->id = pin_node_attr (node, "id");
  stage->title = pin_node_child (node, "title");
  stage->off = pin_node_list (node, "off");
  stage->on = pin_node_list (node, "on");
  stage->intact = pin_node_list (node, "intact");
  stage->after = pin_node_list (node, "after");
  stage->fits = fits ? pin_fits_read (fits) : NULL;
  stage->items = read_items (node, steps);
  stage->asides = g_ptr_array_new_with_free_func ((GDestroyNotify) aside_free);
  for (xmlNode *n = pin_node_first (node, "aside"); n; n = pin_node_next (n, "aside"))
    g_ptr_array_add (stage->asides, read_aside (n, steps));
  stage->line = pin_node_line (node, NULL);
  return stage;
}
