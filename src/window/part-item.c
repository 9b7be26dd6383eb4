#include "window/part-item.h"

struct _PinPartItem
{
  GObject parent_instance;

  char *code, *group;
  int outcome;
  gboolean unsafe;
  char *texts[6];             /* by property, from PROP_STATE on */
};

G_DEFINE_FINAL_TYPE (PinPartItem, pin_part_item, G_TYPE_OBJECT)

enum
{
  PROP_0,
  PROP_OUTCOME,
  PROP_UNSAFE,
  PROP_STATE,
  PROP_LABEL,
  PROP_KIND,
  PROP_SINCE_NEW,
  PROP_LAST_WORK,
  PROP_FINDING,
  N_PROPS,
};

static GParamSpec *props[N_PROPS];

static void
pin_part_item_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  PinPartItem *self = PIN_PART_ITEM (object);

  switch (id)
    {
    case PROP_OUTCOME:
      g_value_set_int (value, self->outcome);
      break;
    case PROP_UNSAFE:
      g_value_set_boolean (value, self->unsafe);
      break;
    case PROP_STATE:
    case PROP_LABEL:
    case PROP_KIND:
    case PROP_SINCE_NEW:
    case PROP_LAST_WORK:
    case PROP_FINDING:
      g_value_set_string (value, self->texts[id - PROP_STATE]);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
pin_part_item_finalize (GObject *object)
{
  PinPartItem *self = PIN_PART_ITEM (object);

  g_free (self->code);
  g_free (self->group);
  for (guint i = 0; i < G_N_ELEMENTS (self->texts); i++)
    g_free (self->texts[i]);
  G_OBJECT_CLASS (pin_part_item_parent_class)->finalize (object);
}

static void
pin_part_item_class_init (PinPartItemClass *klass)
{
  static const char *const names[] = { "state", "label", "kind", "since-new", "last-work", "finding" };
  GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;

  G_OBJECT_CLASS (klass)->get_property = pin_part_item_get_property;
  G_OBJECT_CLASS (klass)->finalize = pin_part_item_finalize;
  props[PROP_OUTCOME] = g_param_spec_int ("outcome", NULL, NULL, 0, PIN_OUTCOME_DONE, 0, flags);
  props[PROP_UNSAFE] = g_param_spec_boolean ("unsafe", NULL, NULL, FALSE, flags);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    props[PROP_STATE + i] = g_param_spec_string (names[i], NULL, NULL, NULL, flags);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
}

static void
pin_part_item_init (PinPartItem *self)
{
}

PinPartItem *
pin_part_item_new (const PinPartLine *line)
{
  PinPartItem *self = g_object_new (PIN_TYPE_PART_ITEM, NULL);
  gboolean has_size = line->size != NULL && *line->size != '\0';

  self->code = g_strdup (line->slot->code);
  self->group = g_strdup (line->group);
  self->outcome = line->mark.outcome;
  self->unsafe = line->mark.unsafe;
  self->texts[0] = g_strdup (line->state);
  self->texts[1] = g_strdup (line->label);
  self->texts[2] = has_size ? g_strdup_printf ("%s, %s", line->kind, line->size)
                            : g_strdup (line->kind);
  self->texts[3] = g_strdup (line->since_new);
  self->texts[4] = g_strdup (*line->last_work != '\0' ? line->last_work : "–");
  self->texts[5] = g_strdup (line->finding);
  return self;
}

/* The position's id. */
const char *
pin_part_item_code (PinPartItem *self)
{
  return self->code;
}

/* The layer that it is on. */
const char *
pin_part_item_group (PinPartItem *self)
{
  return self->group;
}

/* Would a row show the same? */
gboolean
pin_part_item_equal (PinPartItem *a, PinPartItem *b)
{
  gboolean same = g_str_equal (a->code, b->code) && g_strcmp0 (a->group, b->group) == 0 &&
                  a->outcome == b->outcome && a->unsafe == b->unsafe;

  for (guint i = 0; same && i < G_N_ELEMENTS (a->texts); i++)
    same = g_strcmp0 (a->texts[i], b->texts[i]) == 0;
  return same;
}
