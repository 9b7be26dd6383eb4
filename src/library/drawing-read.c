#include "library/drawing-read.h"

#include <math.h>

#include "library/xml-node.h"

/* The words are those of the grammar, which lets no other pass. */

static const char *const primitive_words[] = {
  [PIN_PRIMITIVE_OUTLINE] = "outline", [PIN_PRIMITIVE_RECT] = "rect",
  [PIN_PRIMITIVE_CIRCLE] = "circle",   [PIN_PRIMITIVE_LINE] = "line",
  [PIN_PRIMITIVE_WHEEL] = "wheel",     [PIN_PRIMITIVE_ARM] = "arm",
  [PIN_PRIMITIVE_SHAFT] = "shaft",     [PIN_PRIMITIVE_DIFF] = "diff",
  [PIN_PRIMITIVE_CENTRE_DIFF] = "centre-diff", [PIN_PRIMITIVE_GEAR] = "gear",
  [PIN_PRIMITIVE_MOTOR] = "motor",     [PIN_PRIMITIVE_ENGINE] = "engine",
  [PIN_PRIMITIVE_SHOCK] = "shock",     [PIN_PRIMITIVE_SERVO] = "servo",
  [PIN_PRIMITIVE_LINK] = "link",       [PIN_PRIMITIVE_BOX] = "box",
  [PIN_PRIMITIVE_BAR] = "bar",         [PIN_PRIMITIVE_HUB] = "hub",
  [PIN_PRIMITIVE_BELT] = "belt",
};

static const char *const line_words[] = {
  [PIN_LINE_OUTLINE] = "outline", [PIN_LINE_PLATE] = "plate", [PIN_LINE_INNER] = "inner",
  [PIN_LINE_SURFACE] = "surface", [PIN_LINE_TREAD] = "tread", [PIN_LINE_BAR] = "bar",
  [PIN_LINE_PIPE] = "pipe",       [PIN_LINE_PHANTOM] = "phantom",
};

static const char *const number_words[PIN_N_NUMBERS] = {
  [PIN_NUMBER_X] = "x", [PIN_NUMBER_Y] = "y", [PIN_NUMBER_X1] = "x1", [PIN_NUMBER_Y1] = "y1",
  [PIN_NUMBER_X2] = "x2", [PIN_NUMBER_Y2] = "y2", [PIN_NUMBER_LENGTH] = "length",
  [PIN_NUMBER_WIDTH] = "width", [PIN_NUMBER_DIAMETER] = "diameter",
  [PIN_NUMBER_RADIUS] = "radius", [PIN_NUMBER_TURN] = "turn", [PIN_NUMBER_SIDE] = "side",
  [PIN_NUMBER_ROOT] = "root", [PIN_NUMBER_TIP] = "tip", [PIN_NUMBER_SHIFT] = "shift",
  [PIN_NUMBER_BARREL] = "barrel", [PIN_NUMBER_RING] = "ring", [PIN_NUMBER_SCREWS] = "screws",
  [PIN_NUMBER_DIRECTION] = "direction", [PIN_NUMBER_TABS] = "tabs", [PIN_NUMBER_HORN] = "horn",
  [PIN_NUMBER_INNER] = "inner", [PIN_NUMBER_FINS] = "fins", [PIN_NUMBER_CELLS] = "cells",
  [PIN_NUMBER_CAP_X] = "cap-x", [PIN_NUMBER_CAP_Y] = "cap-y", [PIN_NUMBER_CAP_R] = "cap-r",
  [PIN_NUMBER_FAN_X] = "fan-x", [PIN_NUMBER_FAN_Y] = "fan-y", [PIN_NUMBER_FAN_R] = "fan-r",
};

static void
primitive_free (PinPrimitive *self)
{
  g_free (self->tread);
  g_free (self->end1);
  g_free (self->end2);
  g_free (self->points);
  g_free (self);
}

static void
shape_free (PinShape *self)
{
  g_free (self->id);
  g_free (self->assembly);
  g_strfreev (self->positions);
  g_ptr_array_unref (self->primitives);
  g_free (self);
}

static int
index_of (const char *const *words, size_t n, const char *word)
{
  for (size_t i = 0; word != NULL && i < n; i++)
    if (g_str_equal (words[i], word))
      return (int) i;
  return 0;
}

static void
read_points (PinPrimitive *primitive, const xmlNode *node)
{
  g_auto (GStrv) words = pin_node_list (node, "points");

  primitive->n_points = g_strv_length (words);
  primitive->points = g_new0 (double, primitive->n_points + 1);
  for (guint i = 0; i < primitive->n_points; i++)
    primitive->points[i] = g_ascii_strtod (words[i], NULL);
}

static PinPrimitive *
read_primitive (const xmlNode *node)
{
  PinPrimitive *primitive = g_new0 (PinPrimitive, 1);
  g_autofree char *line = pin_node_attr (node, "line");
  g_autofree char *axis = pin_node_attr (node, "axis");

  primitive->kind = index_of (primitive_words, G_N_ELEMENTS (primitive_words),
                              (const char *) node->name);
  primitive->line = index_of (line_words, G_N_ELEMENTS (line_words), line);
  for (int i = 0; i < PIN_N_NUMBERS; i++)
    primitive->number[i] = pin_node_number (node, number_words[i]);
  primitive->tread = pin_node_attr (node, "tread");
  primitive->end1 = pin_node_attr (node, "end1");
  primitive->end2 = pin_node_attr (node, "end2");
  primitive->axis = axis != NULL ? *axis : 'x';
  primitive->open = pin_node_has (node, "open");
  primitive->detail = pin_node_has (node, "detail");
  read_points (primitive, node);
  return primitive;
}

static PinShape *
read_shape (const xmlNode *node)
{
  PinShape *shape = g_new0 (PinShape, 1);

  shape->id = pin_node_attr (node, "id");
  shape->assembly = pin_node_attr (node, "assembly");
  shape->positions = pin_node_list (node, "positions");
  shape->primitives = g_ptr_array_new_with_free_func ((GDestroyNotify) primitive_free);
  for (xmlNode *n = pin_node_first (node, NULL); n; n = pin_node_next (n, NULL))
    g_ptr_array_add (shape->primitives, read_primitive (n));
  return shape;
}

/* PinShape*, in drawing order. */
GPtrArray *
pin_drawing_read (const xmlNode *drawing)
{
  GPtrArray *shapes = g_ptr_array_new_with_free_func ((GDestroyNotify) shape_free);

  for (xmlNode *n = pin_node_first (drawing, "shape"); n; n = pin_node_next (n, "shape"))
    g_ptr_array_add (shapes, read_shape (n));
  return shapes;
}
