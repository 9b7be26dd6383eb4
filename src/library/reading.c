#include "library/reading.h"

#include <glib/gi18n.h>

#include "library/suggest.h"
#include "library/xml-node.h"

/* Words that have passed the grammar. */
PinHazardLevel
pin_hazard_level_parse (const char *word)
{
  if (g_str_equal (word, "danger"))
    return PIN_HAZARD_DANGER;
  if (g_str_equal (word, "warning"))
    return PIN_HAZARD_WARNING;
  return g_str_equal (word, "caution") ? PIN_HAZARD_CAUTION : PIN_HAZARD_NOTICE;
}

void
pin_hazard_free (PinHazard *self)
{
  g_free (self->about);
  g_free (self->text);
  g_free (self);
}

static PinHazard *
read_hazard (const xmlNode *node)
{
  PinHazard *hazard = g_new0 (PinHazard, 1);
  g_autofree char *level = pin_node_attr (node, "level");

  hazard->level = pin_hazard_level_parse (level);
  hazard->about = pin_node_attr (node, "about");
  hazard->text = pin_node_text (node);
  return hazard;
}

GPtrArray *
pin_hazards_read (const xmlNode *parent)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_hazard_free);

  for (xmlNode *n = pin_node_first (parent, "hazard"); n; n = pin_node_next (n, "hazard"))
    g_ptr_array_add (all, read_hazard (n));
  return all;
}

void
pin_fits_free (PinFits *self)
{
  g_strfreev (self->power);
  g_strfreev (self->drive);
  g_strfreev (self->scale);
  g_strfreev (self->surface);
  g_strfreev (self->part);
  g_free (self->filled);
  g_free (self);
}

static char **
list_or_null (const xmlNode *node, const char *attribute)
{
  return pin_node_has (node, attribute) ? pin_node_list (node, attribute) : NULL;
}

PinFits *
pin_fits_read (const xmlNode *node)
{
  PinFits *fits = g_new0 (PinFits, 1);

  fits->power = list_or_null (node, "power");
  fits->drive = list_or_null (node, "drive");
  fits->scale = list_or_null (node, "scale");
  fits->surface = list_or_null (node, "surface");
  fits->part = list_or_null (node, "part");
  fits->filled = pin_node_attr (node, "filled");
  return fits;
}

GPtrArray *
pin_fits_read_all (const xmlNode *parent)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_fits_free);

  for (xmlNode *n = pin_node_first (parent, "fits"); n; n = pin_node_next (n, "fits"))
    g_ptr_array_add (all, pin_fits_read (n));
  return all;
}

/* NULL without such an attribute, and after a remark for an unknown unit. */
const PinUnit *
pin_unit_read (const xmlNode *node, const char *attribute, PinRemarks *remarks)
{
  g_autofree char *id = pin_node_attr (node, attribute);
  g_autofree const char **known = NULL;
  g_autofree char *right = NULL;
  const PinUnit *unit;

  if (id == NULL)
    return NULL;
  unit = pin_unit_find (id);
  if (unit != NULL)
    return unit;
  known = pin_unit_ids ();
  right = pin_suggest_text (id, known);
  pin_remark (remarks, pin_node_line (node, attribute), _("“%s” is no unit, %s"), id,
              right ? right : _("use one such as mm, g, s or degC"));
  return NULL;
}

char *
pin_bytes_sha (GBytes *bytes)
{
  return g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
}
