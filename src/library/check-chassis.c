#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "library/check.h"
#include "library/suggest.h"

/* A bearing in a motor in a gearbox is about all there is. */
#define MOST_CARRIERS 8

/* Everything of one chassis type by its id, for files with many. */
typedef struct
{
  PinCheck *check;
  const PinChassis *chassis;
  GHashTable *positions;        /* id -> PinPosition* */
  GHashTable *assemblies;       /* id -> PinAssembly* */
  GHashTable *labels;           /* label -> PinPosition* */
} Car;

static void
remark (Car *car, int line, const char *what, const char *id, GHashTable *known, const char *kind)
{
  g_autofree char *right = pin_suggest_key (id, known);

  pin_remark (car->check->remarks, line, _("%s “%s” is no %s of this chassis, %s"), what, id, _(kind),
              right ? right : _("name one that it has"));
}

/* ==== Pairs and carriers ==== */

static gboolean
is_opposite (const PinPosition *a, const PinPosition *b)
{
  return a->side == NULL || b->side == NULL || !g_str_equal (a->side, b->side);
}

static void
check_pair (Car *car, const PinPosition *p)
{
  const PinPosition *other = p->pair ? g_hash_table_lookup (car->positions, p->pair) : NULL;

  if (p->pair == NULL)
    return;
  if (other == NULL)
    remark (car, p->line, "pair", p->pair, car->positions, N_("position"));
  else if (other == p)
    pin_remark (car->check->remarks, p->line, _("“%s” is its own pair, name the place on the other side"), p->id);
  else if (g_strcmp0 (other->pair, p->id) != 0)
    pin_remark (car->check->remarks, p->line, _("“%s” has “%s” as its pair, which does not have it: "
                "give that pair=\"%s\""),
                p->id, other->id, p->id);
  else if (!g_str_equal (other->kind, p->kind))
    pin_remark (car->check->remarks, p->line, _("“%s” is a %s and its pair a %s, pair parts of one kind"), p->id,
                p->kind, other->kind);
  else if (!is_opposite (p, other))
    pin_remark (car->check->remarks, p->line, _("“%s” and its pair are on the same side, "
                "give them side=\"left\" and \"right\""),
                p->id);
}

static void
check_carrier (Car *car, const PinPosition *p)
{
  const PinPosition *carrier = p;
  guint hops = 0;

  if (p->carrier != NULL && !g_hash_table_contains (car->positions, p->carrier))
    remark (car, p->line, "carrier", p->carrier, car->positions, N_("position"));
  do
    carrier = carrier->carrier ? g_hash_table_lookup (car->positions, carrier->carrier) : NULL;
  while (carrier != NULL && carrier != p && ++hops < MOST_CARRIERS);
  if (carrier == p)
    pin_remark (car->check->remarks, p->line, _("“%s” is carried by itself in the end, take a carrier out"), p->id);
  else if (carrier != NULL)
    pin_remark (car->check->remarks, p->line, _("“%s” has a carrier on a carrier without end, take some out"), p->id);
}

/* ==== Places ==== */

static void
check_side (Car *car, const PinPosition *p)
{
  const char *const *classes = (const char *const *) p->classes;
  gboolean left = g_strcmp0 (p->side, "left") == 0;

  if (p->side != NULL && g_strv_contains (classes, left ? "right" : "left"))
    pin_remark (car->check->remarks, p->line, _("“%s” is on the %s and its class says %s, make them agree"), p->id,
                p->side, left ? "right" : "left");
  if (p->side != NULL && (left ? p->y < 0 : p->y > 0))
    pin_remark (car->check->remarks, p->line, _("“%s” is on the %s and its y is on the other side: "
                "y is above 0 on the left"),
                p->id, p->side);
}

static void
remark_place (Car *car, const PinPosition *p, char axis, double at, double from, double to)
{
  g_autofree char *is = pin_number_format (at, 0);
  g_autofree char *least = pin_number_format (from, 0);
  g_autofree char *most = pin_number_format (to, 0);

  pin_remark (car->check->remarks, p->line,
              _("“%s” is outside the car: its %c is %s mm, and the car reaches from %s to %s mm"), p->id, axis,
              is, least, most);
}

/* A little is allowed for what stands out, such as a wing. */
static void
check_place (Car *car, const PinPosition *p)
{
  const PinChassis *c = car->chassis;
  double slack = 0.1 * c->wheelbase;

  if (p->x > c->wheelbase / 2 + c->front + slack || p->x < -c->wheelbase / 2 - c->rear - slack)
    remark_place (car, p, 'x', p->x, -c->wheelbase / 2 - c->rear, c->wheelbase / 2 + c->front);
  if (fabs (p->y) > c->track * 0.75)
    remark_place (car, p, 'y', p->y, -c->track / 2, c->track / 2);
}

/* ==== What it is ==== */

/* "5", "2.5", or "5/32" of an inch. */
static gboolean
read_measure (const char *text, double *number)
{
  g_auto (GStrv) halves = g_strsplit (text, "/", 2);
  double under = 1;

  if (halves[0] == NULL || !pin_number_parse (halves[0], number))
    return FALSE;
  if (halves[1] != NULL && (!pin_number_parse (halves[1], &under) || under <= 0))
    return FALSE;
  *number /= under;
  return *number > 0;
}

/* "8x16x5", or "1/8x3/8x5/32 in"; returns how many numbers, 0 for nonsense. */
static guint
read_size (const char *size, double *numbers, guint most)
{
  g_autofree char *bare = g_strndup (size, strlen (size) - (g_str_has_suffix (size, " in") ? 3 : 0));
  g_auto (GStrv) parts = g_strsplit (bare, "x", -1);
  guint n = g_strv_length (parts);

  for (guint i = 0; i < n; i++)
    if (i >= most || !read_measure (parts[i], &numbers[i]))
      return 0;
  return n;
}

static void
check_size (Car *car, const PinPosition *p)
{
  double n[3];

  if (p->size == NULL || !g_str_equal (p->kind, "bearing"))
    return;
  if (read_size (p->size, n, 3) != 3)
    pin_remark (car->check->remarks, p->line,
                _("“%s” is no size of a bearing, write bore, outside and width as 8x16x5"),
                p->size);
  else if (n[0] >= n[1])
    pin_remark (car->check->remarks, p->line, _("the bore of “%s” is not smaller than its outside, write bore first"),
                p->size);
}

static void
check_count (Car *car, const PinPosition *p)
{
  if (p->count > 1 && !g_str_equal (p->kind, "fasteners"))
    pin_remark (car->check->remarks, p->line, _("count is of screws, and “%s” is a %s: leave it out"), p->id, p->kind);
}

static void
check_spec (Car *car, const PinPosition *p, const PinSpecValue *value, const PinPartKind *kind)
{
  const PinSpec *spec = pin_check_word (car->check, PIN_WORD_SPEC, value->id);
  g_autoptr (GError) error = NULL;
  double canonical;

  if (kind != NULL && spec != NULL && !g_strv_contains ((const char *const *) kind->specs, value->id))
    {
      g_autofree char *right = pin_suggest_text (value->id, (const char *const *) kind->specs);

      pin_remark (car->check->remarks, p->line, _("“%s” is not noted of a %s, %s"), value->id, kind->title,
                  right ? right : _("add it to the specs of that kind"));
    }
  if (spec != NULL && spec->unit != NULL &&
      !pin_value_parse (value->typed, spec->unit, &canonical, NULL, &error))
    pin_remark (car->check->remarks, p->line, _("%s of “%s”: %s"), value->id, p->id, error->message);
}

static void
check_label (Car *car, const PinPosition *p)
{
  const PinPosition *other = g_hash_table_lookup (car->labels, p->label);

  if (other == NULL)
    g_hash_table_insert (car->labels, p->label, (gpointer) p);
  else if (g_str_equal (other->kind, p->kind))
    pin_remark (car->check->remarks, p->line,
                _("“%s” is also the label of “%s”, tell them apart"), p->label, other->id);
}

static void
check_position (Car *car, const PinPosition *p)
{
  const PinPartKind *kind = pin_check_word (car->check, PIN_WORD_KIND, p->kind);

  check_pair (car, p);
  check_carrier (car, p);
  if (p->assembly != NULL && !g_hash_table_contains (car->assemblies, p->assembly))
    remark (car, p->line, "assembly", p->assembly, car->assemblies, N_("assembly"));
  check_side (car, p);
  check_place (car, p);
  check_size (car, p);
  check_count (car, p);
  check_label (car, p);
  for (guint i = 0; i < p->specs->len; i++)
    check_spec (car, p, p->specs->pdata[i], kind);
}

/* ==== Assemblies ==== */

static const char *
assembly_id (gconstpointer assembly)
{
  return ((const PinAssembly *) assembly)->id;
}

static const char *const *
assembly_needs (gconstpointer assembly)
{
  return (const char *const *) ((const PinAssembly *) assembly)->needs;
}

static void
check_assemblies (Car *car)
{
  const PinAssembly *round = pin_check_circle (car->chassis->assemblies, assembly_id, assembly_needs);

  for (guint i = 0; i < car->chassis->assemblies->len; i++)
    {
      const PinAssembly *assembly = car->chassis->assemblies->pdata[i];

      for (int j = 0; assembly->needs[j] != NULL; j++)
        if (!g_hash_table_contains (car->assemblies, assembly->needs[j]))
          remark (car, assembly->line, "need", assembly->needs[j], car->assemblies, N_("assembly"));
    }
  if (round != NULL)
    pin_remark (car->check->remarks, round->line,
                _("“%s” needs itself off in the end, take one of the needs out"), round->id);
}

/* The template of a car is whole: what its parts name is there, and stands
 * where it can. */
void
pin_check_chassis (PinCheck *check, const PinChassis *chassis)
{
  g_autoptr (GHashTable) positions = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) assemblies = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) labels = g_hash_table_new (g_str_hash, g_str_equal);
  Car car = { check, chassis, positions, assemblies, labels };

  for (guint i = 0; i < chassis->positions->len; i++)
    g_hash_table_insert (positions, ((PinPosition *) chassis->positions->pdata[i])->id, chassis->positions->pdata[i]);
  for (guint i = 0; i < chassis->assemblies->len; i++)
    g_hash_table_insert (assemblies, ((PinAssembly *) chassis->assemblies->pdata[i])->id,
                         chassis->assemblies->pdata[i]);
  for (guint i = 0; i < chassis->positions->len; i++)
    check_position (&car, chassis->positions->pdata[i]);
  check_assemblies (&car);
}
