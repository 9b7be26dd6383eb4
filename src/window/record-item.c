#include "window/record-item.h"

#include <glib/gi18n.h>

struct _PinRecordItem
{
  GObject parent_instance;

  int outcome;
  gint64 answer;              /* the last one; 0: none */
  gboolean unsafe, marked;     /* no mark: a heading */
  char *texts[8];             /* by property, from PROP_HEADING on */
};

G_DEFINE_FINAL_TYPE (PinRecordItem, pin_record_item, G_TYPE_OBJECT)

enum
{
  PROP_0,
  PROP_OUTCOME,
  PROP_UNSAFE,
  PROP_MARKED,
  PROP_IS_HEADING,
  PROP_PLACED,
  PROP_HEADING,
  PROP_STATE,
  PROP_TITLE,
  PROP_PLACE,
  PROP_FOUND,
  PROP_LEFT,
  PROP_LIMIT,
  PROP_REMARKS,
  N_PROPS,
};

static void
pin_record_item_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  PinRecordItem *self = PIN_RECORD_ITEM (object);

  if (id == PROP_OUTCOME)
    g_value_set_int (value, self->outcome);
  else if (id == PROP_UNSAFE)
    g_value_set_boolean (value, self->unsafe);
  else if (id == PROP_MARKED)
    g_value_set_boolean (value, self->marked);
  else if (id == PROP_IS_HEADING)
    g_value_set_boolean (value, !self->marked);
  else if (id == PROP_PLACED)
    g_value_set_boolean (value, *self->texts[PROP_PLACE - PROP_HEADING] != '\0');
  else if (id >= PROP_HEADING && id < N_PROPS)
    g_value_set_string (value, self->texts[id - PROP_HEADING]);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
pin_record_item_finalize (GObject *object)
{
  PinRecordItem *self = PIN_RECORD_ITEM (object);

  for (guint i = 0; i < G_N_ELEMENTS (self->texts); i++)
    g_free (self->texts[i]);
  G_OBJECT_CLASS (pin_record_item_parent_class)->finalize (object);
}

static void
pin_record_item_class_init (PinRecordItemClass *klass)
{
  static const char *const names[] = { "heading", "state", "title", "place", "found", "left",
                                       "limit", "remarks" };
  GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;
  GParamSpec *props[N_PROPS] = { NULL };

  G_OBJECT_CLASS (klass)->get_property = pin_record_item_get_property;
  G_OBJECT_CLASS (klass)->finalize = pin_record_item_finalize;
  props[PROP_OUTCOME] = g_param_spec_int ("outcome", NULL, NULL, 0, PIN_OUTCOME_DONE, 0, flags);
  props[PROP_UNSAFE] = g_param_spec_boolean ("unsafe", NULL, NULL, FALSE, flags);
  props[PROP_MARKED] = g_param_spec_boolean ("marked", NULL, NULL, FALSE, flags);
  props[PROP_IS_HEADING] = g_param_spec_boolean ("is-heading", NULL, NULL, FALSE, flags);
  props[PROP_PLACED] = g_param_spec_boolean ("placed", NULL, NULL, FALSE, flags);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    props[PROP_HEADING + i] = g_param_spec_string (names[i], NULL, NULL, NULL, flags);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
}

static void
pin_record_item_init (PinRecordItem *self)
{
}

static void
set (PinRecordItem *self, guint property, const char *text)
{
  self->texts[property - PROP_HEADING] = g_strdup (text != NULL ? text : "");
}

PinRecordItem *
pin_record_item_new_heading (const char *title)
{
  PinRecordItem *self = g_object_new (PIN_TYPE_RECORD_ITEM, NULL);

  set (self, PROP_HEADING, title);
  for (guint i = PROP_STATE; i < N_PROPS; i++)
    set (self, i, "");
  return self;
}

static const char *
state_word (const PinRecordLine *line)
{
  if (line->unsafe)
    return _("unsafe");
  if (line->outcome == PIN_OUTCOME_NONE)
    return _("not answered");
  return pin_outcome_title (line->outcome);
}

/* What the mark says already is not said again. */
static const char *
answer_text (const PinRecordLine *line, const char *text)
{
  return g_str_equal (text, state_word (line)) ? "" : text;
}

/* Work done, why it was not checked, the note, and what was corrected. */
static char *
remarks (const PinRecordLine *line)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new ();
  g_autofree char *deeds = NULL;

  if (line->deeds->len > 0)
    {
      g_autoptr (GPtrArray) names = g_ptr_array_copy (line->deeds, NULL, NULL);

      g_ptr_array_set_free_func (names, NULL);
      g_ptr_array_add (names, NULL);
      deeds = g_strjoinv (", ", (char **) names->pdata);
      g_ptr_array_add (parts, deeds);
    }
  if (*line->reason != '\0')
    g_ptr_array_add (parts, line->reason);
  if (*line->note != '\0')
    g_ptr_array_add (parts, line->note);
  for (guint i = 0; i < line->corrected->len; i++)
    g_ptr_array_add (parts, g_ptr_array_index (line->corrected, i));
  g_ptr_array_add (parts, NULL);
  return g_strjoinv ("; ", (char **) parts->pdata);
}

gint64
pin_record_item_answer (PinRecordItem *self)
{
  return self->answer;
}

char *
pin_record_item_name (PinRecordItem *self)
{
  const char *title = self->texts[PROP_TITLE - PROP_HEADING];
  const char *place = self->texts[PROP_PLACE - PROP_HEADING];

  return *place != '\0' ? g_strdup_printf ("%s, %s", title, place) : g_strdup (title);
}

PinRecordItem *
pin_record_item_new (const PinRecordLine *line)
{
  PinRecordItem *self = g_object_new (PIN_TYPE_RECORD_ITEM, NULL);
  g_autofree char *said = remarks (line);
  g_autofree char *limit = *line->limit != '\0' && *line->unit != '\0'
                             ? g_strdup_printf ("%s%s%s", line->limit, g_str_equal (line->unit, "°") ? "" : " ",
                                                line->unit)
                             : g_strdup (line->limit);

  self->outcome = line->outcome;
  self->unsafe = line->unsafe;
  self->marked = TRUE;
  self->answer = line->left != NULL ? line->left->id : line->found != NULL ? line->found->id : 0;
  set (self, PROP_HEADING, "");
  set (self, PROP_STATE, state_word (line));
  set (self, PROP_TITLE, line->title);
  set (self, PROP_PLACE, line->place);
  set (self, PROP_FOUND, line->left == NULL ? answer_text (line, line->found_text)
                                            : line->found_text);
  set (self, PROP_LEFT, line->left_text);
  set (self, PROP_LIMIT, limit);
  set (self, PROP_REMARKS, said);
  return self;
}
