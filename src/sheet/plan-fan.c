#include "sheet/plan-marks.h"

#include <math.h>

/* Fanning out: two marks nearer than half the sum of their diameters and a gap
 * form a crowd.  A crowd's marks stand in a row along the car, at the first free
 * spot outwards from the centre line.  Single marks never move.
 *
 * A small plan has no room for that: there the weightiest mark of a crowd stands
 * for those round it, at its own place.
 *
 * All of it happens in the car's directions at the target's scale (u px forward,
 * v px left), so that turning the plan turns the layout with it. */

#define GAP 3.0               /* px that two marks keep between them */
#define ANCHOR 3.0            /* px round a part's own place that stays free */
#define LONGEST_ROW 6
#define COLLISION 400.0       /* what covering a mark costs, in px of distance */
#define HIDING 100.0          /* what covering the place of a crowded part costs */
#define CROSSING 14.0         /* what a leader over a mark costs */

typedef struct
{
  double u, v, r;
} Disc;

typedef struct
{
  double u1, v1, u2, v2;
} Leader;

typedef struct
{
  guint spot;
  double u, v, diameter;
  guint group;
} Member;

typedef struct
{
  const PinPlan *plan;
  double pitch;               /* px from mark to mark in a row */
  double u0, v0, u1, v1;      /* the field; u0 > u1 if it is open */
  gboolean avoiding;
  double a_u0, a_v0, a_u1, a_v1;
  GArray *members;            /* Member */
  GArray *taken;              /* Disc */
  GArray *leaders;            /* Leader */
  PinMarkLayout *layout;
} Fan;

typedef struct
{
  Member **member;            /* in order along the car */
  guint n;
  guint per_row;
  double u, v;                /* the middle, where the dot stays */
  int outward;                /* 1: to the left, -1: to the right */
} Crowd;

typedef struct
{
  double u, v;                /* first mark of the first row */
  double cost;
} Stand;

static void
to_car (const PinPlan *plan, double px, double py, double *u, double *v)
{
  double x, y;

  pin_plan_unpoint (plan, px, py, &x, &y);
  *u = x * plan->scale;
  *v = y * plan->scale;
}

static void
to_target (const PinPlan *plan, double u, double v, double *px, double *py)
{
  pin_plan_point (plan, u / plan->scale, v / plan->scale, px, py);
}

static void
car_rect (const PinPlan *plan, const PinPlanRect *rect, double *u0, double *v0, double *u1, double *v1)
{
  double ua, va, ub, vb;

  to_car (plan, rect->x, rect->y, &ua, &va);
  to_car (plan, rect->x + rect->width, rect->y + rect->height, &ub, &vb);
  *u0 = MIN (ua, ub);
  *v0 = MIN (va, vb);
  *u1 = MAX (ua, ub);
  *v1 = MAX (va, vb);
}

static void
take (Fan *fan, double u, double v, double r)
{
  Disc disc = { u, v, r };

  g_array_append_val (fan->taken, disc);
}

static PinMarkSpot *
spot_of (Fan *fan, const Member *member)
{
  return &g_array_index (fan->layout->spots, PinMarkSpot, member->spot);
}

static int
weight_of (PinMark mark)
{
  static const int weights[] = {
    [PIN_MARK_NONE] = 0,
    [PIN_MARK_DOES_NOT_APPLY] = 1,
    [PIN_MARK_PASS] = 2,
    [PIN_MARK_NOT_CHECKED] = 3,
    [PIN_MARK_WATCH] = 4,
    [PIN_MARK_OWED] = 5,
    [PIN_MARK_FAIL] = 6,
    [PIN_MARK_UNSAFE] = 7,
  };

  return weights[mark];
}

/* Weightiest first, then from the rear to the front. */
static int
compare_weights (gconstpointer a, gconstpointer b)
{
  const PinMarkPlace *one = *(const PinMarkPlace *const *) a, *other = *(const PinMarkPlace *const *) b;

  if (weight_of (one->mark) != weight_of (other->mark))
    return weight_of (other->mark) - weight_of (one->mark);
  if (one->x != other->x)
    return one->x < other->x ? -1 : 1;
  if (one->y != other->y)
    return one->y < other->y ? -1 : 1;
  return one < other ? -1 : 1;
}

static gboolean
has_room (const Fan *fan, const GPtrArray *kept, const PinMarkPlace *place)
{
  double diameter = pin_mark_diameter (place->mark, PIN_PLAN_SMALL);

  for (guint i = 0; i < kept->len; i++)
    {
      const PinMarkPlace *other = g_ptr_array_index (kept, i);
      double apart = (diameter + pin_mark_diameter (other->mark, PIN_PLAN_SMALL)) / 2 + GAP;

      if (hypot (place->x - other->x, place->y - other->y) * fan->plan->scale < apart)
        return FALSE;
    }
  return TRUE;
}

/* For a small plan: the places whose marks are shown, none in another's way. */
static GPtrArray *
keep_weightiest (const Fan *fan, const PinMarkPlace *places, guint n_places)
{
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();
  GPtrArray *kept = g_ptr_array_new ();

  for (guint i = 0; i < n_places; i++)
    if (pin_mark_diameter (places[i].mark, PIN_PLAN_SMALL) > 0)
      g_ptr_array_add (sorted, (gpointer) &places[i]);
  g_ptr_array_sort (sorted, compare_weights);
  for (guint i = 0; i < sorted->len; i++)
    if (has_room (fan, kept, g_ptr_array_index (sorted, i)))
      g_ptr_array_add (kept, g_ptr_array_index (sorted, i));
  return kept;
}

/* Makes a spot at each shown mark's own place, and the member that may move it. */
static void
collect (Fan *fan, const PinMarkPlace *places, guint n_places)
{
  PinPlanSize size = pin_plan_size (fan->plan);
  g_autoptr (GPtrArray) kept = size == PIN_PLAN_SMALL ? keep_weightiest (fan, places, n_places) : NULL;

  for (guint i = 0; i < n_places; i++)
    {
      PinMarkSpot spot = { .index = places[i].index, .mark = places[i].mark, .crowd = -1,
                           .diameter = pin_mark_diameter (places[i].mark, size) };
      Member member = { fan->layout->spots->len, places[i].x * fan->plan->scale, places[i].y * fan->plan->scale,
                        spot.diameter, fan->members->len };

      if (spot.diameter <= 0 || (kept != NULL && !g_ptr_array_find (kept, &places[i], NULL)))
        continue;
      pin_plan_point (fan->plan, places[i].x, places[i].y, &spot.ax, &spot.ay);
      spot.px = spot.ax;
      spot.py = spot.ay;
      g_array_append_val (fan->layout->spots, spot);
      g_array_append_val (fan->members, member);
    }
}

static guint
root_of (Member *members, guint i)
{
  while (members[i].group != i)
    i = members[i].group = members[members[i].group].group;
  return i;
}

/* Joins marks that are too near each other, and marks that those are too near. */
static void
join_neighbours (GArray *array)
{
  Member *members = (Member *) array->data;

  for (guint i = 0; i < array->len; i++)
    for (guint k = 0; k < i; k++)
      {
        double distance = hypot (members[i].u - members[k].u, members[i].v - members[k].v);

        if (distance < (members[i].diameter + members[k].diameter) / 2 + GAP)
          members[root_of (members, i)].group = root_of (members, k);
      }
  for (guint i = 0; i < array->len; i++)
    members[i].group = root_of (members, i);
}

static int
along_the_car (const Member *a, const Member *b)
{
  if (a->u != b->u)
    return a->u < b->u ? -1 : 1;
  if (a->v != b->v)
    return a->v < b->v ? -1 : 1;
  return (a->spot > b->spot) - (a->spot < b->spot);
}

static int
compare_members (gconstpointer a, gconstpointer b)
{
  return along_the_car (*(Member *const *) a, *(Member *const *) b);
}

static int
compare_crowds (gconstpointer a, gconstpointer b)
{
  const Crowd *one = *(Crowd *const *) a, *other = *(Crowd *const *) b;

  return along_the_car (one->member[0], other->member[0]);
}

static Crowd *
crowd_new (Fan *fan, guint group)
{
  Member *members = (Member *) fan->members->data;
  g_autoptr (GPtrArray) of_group = g_ptr_array_new ();
  Crowd *crowd = g_new0 (Crowd, 1);

  for (guint i = 0; i < fan->members->len; i++)
    if (members[i].group == group)
      {
        g_ptr_array_add (of_group, &members[i]);
        crowd->u += members[i].u;
        crowd->v += members[i].v;
      }
  g_ptr_array_sort (of_group, compare_members);
  crowd->n = of_group->len;
  crowd->u /= crowd->n;
  crowd->v /= crowd->n;
  crowd->outward = crowd->v >= 0 ? 1 : -1;
  crowd->per_row = crowd->n <= LONGEST_ROW ? crowd->n : (crowd->n + 1) / 2;
  crowd->per_row = MIN (crowd->per_row, LONGEST_ROW);
  crowd->member = (Member **) g_ptr_array_free (g_steal_pointer (&of_group), FALSE);
  return crowd;
}

static void
crowd_free (gpointer data)
{
  Crowd *crowd = data;

  g_free (crowd->member);
  g_free (crowd);
}

/* The crowds from the rear of the car to the front; takes the place of what
 * stands alone. */
static GPtrArray *
find_crowds (Fan *fan)
{
  GPtrArray *crowds = g_ptr_array_new_with_free_func (crowd_free);
  Member *members = (Member *) fan->members->data;

  for (guint i = 0; i < fan->members->len; i++)
    {
      Crowd *crowd;

      if (members[i].group != i)
        continue;
      crowd = crowd_new (fan, i);
      if (crowd->n > 1)
        g_ptr_array_add (crowds, crowd);
      else
        {
          take (fan, members[i].u, members[i].v, members[i].diameter / 2 + GAP);
          crowd_free (crowd);
        }
    }
  g_ptr_array_sort (crowds, compare_crowds);
  return crowds;
}

/* Where the k-th mark of a crowd stands if its row begins at u, v. */
static void
row_place (const Fan *fan, const Crowd *crowd, double u, double v, guint k, double *mu, double *mv)
{
  *mu = u + (k % crowd->per_row) * fan->pitch;
  *mv = v + crowd->outward * (double) (k / crowd->per_row) * fan->pitch;
}

static double
row_length (const Fan *fan, const Crowd *crowd)
{
  return (crowd->per_row - 1) * fan->pitch;
}

static double
distance_to_line (const Leader *line, double u, double v)
{
  double du = line->u2 - line->u1, dv = line->v2 - line->v1;
  double square = du * du + dv * dv;
  double t = square > 0 ? ((u - line->u1) * du + (v - line->v1) * dv) / square : 0;

  t = CLAMP (t, 0, 1);
  return hypot (line->u1 + t * du - u, line->v1 + t * dv - v);
}

static gboolean
outside (const Fan *fan, double u, double v, double r)
{
  return fan->u0 <= fan->u1
         && (u - r < fan->u0 || u + r > fan->u1 || v - r < fan->v0 || v + r > fan->v1);
}

static gboolean
avoided (const Fan *fan, double u, double v, double r)
{
  return fan->avoiding
         && u + r > fan->a_u0 && u - r < fan->a_u1 && v + r > fan->a_v0 && v - r < fan->a_v1;
}

/* What a mark of this size at u, v would cover, as a cost. */
static double
cost_of_mark (const Fan *fan, double u, double v, double diameter)
{
  double cost = 0;

  if (outside (fan, u, v, diameter / 2 + 2))
    cost += 2 * COLLISION;
  if (avoided (fan, u, v, diameter / 2 + 2))
    cost += COLLISION;
  for (guint i = 0; i < fan->taken->len; i++)
    {
      const Disc *disc = &g_array_index (fan->taken, Disc, i);

      if (hypot (disc->u - u, disc->v - v) < disc->r + diameter / 2 + 1)
        cost += disc->r > ANCHOR ? COLLISION : HIDING;
    }
  for (guint i = 0; i < fan->leaders->len; i++)
    if (distance_to_line (&g_array_index (fan->leaders, Leader, i), u, v) < diameter / 2)
      cost += CROSSING;
  return cost;
}

/* The line from a crowd's dot to the nearest point of the row that begins at u, v. */
static Leader
leader_to (const Fan *fan, const Crowd *crowd, double u, double v)
{
  return (Leader) { crowd->u, crowd->v, CLAMP (crowd->u, u, u + row_length (fan, crowd)), v };
}

static double
cost_of_leader (const Fan *fan, const Crowd *crowd, const Leader *leader)
{
  double cost = 0;

  for (guint i = 0; i < fan->taken->len; i++)
    {
      const Disc *disc = &g_array_index (fan->taken, Disc, i);

      if (disc->r > ANCHOR && distance_to_line (leader, disc->u, disc->v) < disc->r - 1)
        cost += CROSSING;
    }
  return cost;
}

static double
cost_of_row (const Fan *fan, const Crowd *crowd, double u, double v, double enough)
{
  Leader leader = leader_to (fan, crowd, u, v);
  double cost = cost_of_leader (fan, crowd, &leader);

  for (guint k = 0; k < crowd->n && cost < enough; k++)
    {
      double mu, mv;

      row_place (fan, crowd, u, v, k, &mu, &mv);
      cost += cost_of_mark (fan, mu, mv, crowd->member[k]->diameter);
    }
  return cost;
}

static void
try_row (const Fan *fan, const Crowd *crowd, double u, double v, double bias, Stand *best)
{
  double cost = bias;

  if (cost >= best->cost)
    return;
  cost += cost_of_row (fan, crowd, u, v, best->cost - bias);
  if (cost < best->cost)
    *best = (Stand) { u, v, cost };
}

/* Spots at these distances, straight out first, then aslant, then across the
 * centre line. */
static Stand
near_stand (const Fan *fan, const Crowd *crowd)
{
  static const double distances[] = { 18, 24, 30, 38, 46, 56, 68 };
  static const double degrees[] = { 90, 60, 120, 35, 145, 10, 170, -30, -150, -90 };
  Stand best = { 0, 0, G_MAXDOUBLE };

  for (guint i = 0; i < G_N_ELEMENTS (distances); i++)
    for (guint k = 0; k < G_N_ELEMENTS (degrees); k++)
      {
        double c = cos (degrees[k] * G_PI / 180);
        double u = crowd->u + distances[i] * c;
        double v = crowd->v + crowd->outward * distances[i] * sin (degrees[k] * G_PI / 180);
        double length = row_length (fan, crowd);
        double start = fabs (c) > 0.8 ? (c > 0 ? u : u - length) : u - length / 2;

        try_row (fan, crowd, start, v, distances[i] + fabs (degrees[k] - 90) * 0.12, &best);
      }
  return best;
}

/* Every spot of a grid round the crowd, for when nothing near is free. */
static Stand
far_stand (const Fan *fan, const Crowd *crowd, Stand best)
{
  const int step = 8, steps = 40;
  double length = row_length (fan, crowd);

  for (int i = -steps; i <= steps; i++)
    for (int k = -steps; k <= steps; k++)
      {
        double u = crowd->u + i * step - length / 2;
        double v = crowd->v + crowd->outward * k * step;

        try_row (fan, crowd, u, v, hypot (i * step, k * step) + (k < 0 ? 12 : 0), &best);
      }
  return best;
}

static void
note_crowd (Fan *fan, const Crowd *crowd, const Stand *stand)
{
  PinMarkCrowd out;
  Leader leader = leader_to (fan, crowd, stand->u, stand->v);
  Leader row = { stand->u, stand->v, stand->u + row_length (fan, crowd), stand->v };

  to_target (fan->plan, crowd->u, crowd->v, &out.x, &out.y);
  to_target (fan->plan, leader.u2, leader.v2, &out.to_x, &out.to_y);
  to_target (fan->plan, row.u1, row.v1, &out.row_x1, &out.row_y1);
  to_target (fan->plan, row.u2, row.v2, &out.row_x2, &out.row_y2);
  g_array_append_val (fan->layout->crowds, out);
  g_array_append_val (fan->leaders, leader);
}

/* A free spot for the crowd's row; where none is wide enough, for shorter rows
 * behind one another, which crowd->per_row then says. */
static Stand
find_stand (const Fan *fan, Crowd *crowd)
{
  Stand best = near_stand (fan, crowd);
  guint best_row = crowd->per_row;

  if (best.cost >= HIDING)
    best = far_stand (fan, crowd, best);
  while (best.cost >= COLLISION && crowd->per_row > 1)
    {
      Stand shorter;

      crowd->per_row = (crowd->per_row + 1) / 2;
      shorter = far_stand (fan, crowd, (Stand) { 0, 0, best.cost });
      if (shorter.cost < best.cost)
        {
          best = shorter;
          best_row = crowd->per_row;
        }
    }
  crowd->per_row = best_row;
  return best;
}

static void
place_crowd (Fan *fan, Crowd *crowd)
{
  Stand stand = find_stand (fan, crowd);

  for (guint k = 0; k < crowd->n; k++)
    {
      PinMarkSpot *spot = spot_of (fan, crowd->member[k]);
      double u, v;

      row_place (fan, crowd, stand.u, stand.v, k, &u, &v);
      take (fan, u, v, spot->diameter / 2 + 1);
      to_target (fan->plan, u, v, &spot->px, &spot->py);
      spot->crowd = (int) fan->layout->crowds->len;
    }
  note_crowd (fan, crowd, &stand);
}

static void
set_field (Fan *fan, const PinPlanRect *avoid)
{
  PinPlanRect field = { 0, 0, fan->plan->width, fan->plan->height };

  if (field.width > 0 && field.height > 0)
    car_rect (fan->plan, &field, &fan->u0, &fan->v0, &fan->u1, &fan->v1);
  else
    fan->u0 = 1;
  fan->avoiding = avoid != NULL;
  if (avoid != NULL)
    car_rect (fan->plan, avoid, &fan->a_u0, &fan->a_v0, &fan->a_u1, &fan->a_v1);
}

/* Finds a place for each mark that the plan shows at its size; on a small plan
 * marks that have no room are left out.  The same input
 * gives the same layout.
 * avoid: (nullable): px, a rectangle to keep clear, such as the flag's
 * Returns: (transfer full) */
PinMarkLayout *
pin_mark_layout_new (const PinPlan *plan, const PinMarkPlace *places, guint n_places, const PinPlanRect *avoid)
{
  Fan fan = { .plan = plan, .pitch = 17 };
  g_autoptr (GArray) members = g_array_new (FALSE, FALSE, sizeof (Member));
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (Disc));
  g_autoptr (GArray) leaders = g_array_new (FALSE, FALSE, sizeof (Leader));
  g_autoptr (GPtrArray) crowds = NULL;

  fan.members = members;
  fan.taken = taken;
  fan.leaders = leaders;
  fan.layout = g_new0 (PinMarkLayout, 1);
  fan.layout->spots = g_array_new (FALSE, FALSE, sizeof (PinMarkSpot));
  fan.layout->crowds = g_array_new (FALSE, FALSE, sizeof (PinMarkCrowd));
  set_field (&fan, avoid);
  collect (&fan, places, n_places);
  join_neighbours (members);
  crowds = find_crowds (&fan);
  for (guint i = 0; i < crowds->len; i++)
    {
      const Crowd *crowd = g_ptr_array_index (crowds, i);

      for (guint k = 0; k < crowd->n; k++)
        take (&fan, crowd->member[k]->u, crowd->member[k]->v, ANCHOR);
    }
  for (guint i = 0; i < crowds->len; i++)
    place_crowd (&fan, g_ptr_array_index (crowds, i));
  return fan.layout;
}

void
pin_mark_layout_free (PinMarkLayout *self)
{
  g_array_unref (self->spots);
  g_array_unref (self->crowds);
  g_free (self);
}

/* The mark whose middle is nearest to px, py and not farther than within.
 * Returns: (transfer none) (nullable) */
const PinMarkSpot *
pin_mark_layout_near (const PinMarkLayout *self, double px, double py, double within)
{
  const PinMarkSpot *nearest = NULL;
  double reach = within;

  for (guint i = 0; i < self->spots->len; i++)
    {
      const PinMarkSpot *spot = &g_array_index (self->spots, PinMarkSpot, i);
      double distance = hypot (spot->px - px, spot->py - py);

      if (distance <= reach)
        {
          reach = distance;
          nearest = spot;
        }
    }
  return nearest;
}
