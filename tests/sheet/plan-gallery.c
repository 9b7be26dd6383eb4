#include <math.h>
#include <string.h>

#include "sheet/plan-marks.h"
#include "sheet/plan-view.h"

/* Not a test: draws every chassis type in every manner to PNG files, to be
 * looked at.  Usage: plan-gallery FOLDER [CHASSIS-ID] */

static PinChassis *
read_chassis (const char *path)
{
  g_autofree char *text = NULL;
  gsize length;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) xml = NULL;
  PinChassis *chassis;

  if (!g_file_get_contents (path, &text, &length, &error))
    g_error ("%s", error->message);
  xml = g_bytes_new (text, length);
  chassis = pin_chassis_read (xml, path, &error);
  if (chassis == NULL)
    g_error ("%s", error->message);
  return chassis;
}

/* A mixture of marks that depends on nothing but the position's place in the file. */
static PinMark
sample_mark (guint i)
{
  static const PinMark marks[] = { PIN_MARK_PASS, PIN_MARK_PASS, PIN_MARK_PASS, PIN_MARK_WATCH, PIN_MARK_PASS,
                                   PIN_MARK_PASS, PIN_MARK_NOT_CHECKED, PIN_MARK_PASS, PIN_MARK_PASS,
                                   PIN_MARK_FAIL, PIN_MARK_PASS, PIN_MARK_DOES_NOT_APPLY, PIN_MARK_PASS,
                                   PIN_MARK_UNSAFE, PIN_MARK_PASS, PIN_MARK_OWED, PIN_MARK_PASS };

  return marks[i % G_N_ELEMENTS (marks)];
}

static PinMarkLayout *
sample_layout (const PinPlan *plan, gboolean all_unchecked)
{
  const GPtrArray *positions = plan->chassis->positions;
  g_autofree PinMarkPlace *places = g_new (PinMarkPlace, positions->len);
  PinPlanRect flag;
  gboolean flagged = pin_plan_here_flag (plan, &flag);

  for (guint i = 0; i < positions->len; i++)
    {
      const PinPosition *position = g_ptr_array_index (positions, i);

      places[i] = (PinMarkPlace) { i, position->x, position->y,
                                   all_unchecked ? PIN_MARK_NOT_CHECKED : sample_mark (i) };
    }
  return pin_mark_layout_new (plan, places, positions->len, flagged ? &flag : NULL);
}

typedef struct
{
  const char *name;
  int width, height;
  double scale;               /* 0: fit */
  gboolean marks, chosen, off, here, small, fresh, dark, print, turned;
} Sample;

static const Sample samples[] = {
  { "light", 760, 400, 0, .marks = TRUE, .chosen = TRUE },
  { "dark", 760, 400, 0, .marks = TRUE, .dark = TRUE },
  { "bench", 594, 330, 0, .off = TRUE, .here = TRUE },
  { "bench-dark", 594, 330, 0, .off = TRUE, .here = TRUE, .dark = TRUE },
  { "small", 142, 90, 0.25, .marks = TRUE, .small = TRUE },
  { "middle", 210, 130, 0, },
  { "fresh", 844, 540, 0, .marks = TRUE, .fresh = TRUE },
  { "turned", 400, 700, 0, .marks = TRUE, .turned = TRUE },
  { "print", 1116, 530, 0, .marks = TRUE, .print = TRUE },
};

static void
set_up (PinPlan *plan, const Sample *sample, const PinChassis *chassis)
{
  static const char *off[] = { "wheels", "shocks", "engine", "motor", "pack", "wing", "exhaust", NULL };

  *plan = (PinPlan) { .chassis = chassis };
  plan->palette = sample->dark ? pin_palette_dark () : sample->print ? pin_palette_print () : pin_palette_light ();
  plan->pen = sample->print ? 1.25 : 1;
  plan->turn = sample->turned ? 90 : 0;
  plan->dimensions = sample->marks && !sample->small;
  plan->centres = sample->here;
  plan->small = sample->small;
  plan->fresh = sample->fresh;
  plan->off = sample->off ? off : NULL;
  plan->here = sample->here && pin_chassis_position (chassis, "spur") != NULL ? "spur" : NULL;
  pin_plan_fit (plan, sample->width, sample->height, sample->small ? 2 : 14);
  if (sample->scale > 0)
    plan->scale = sample->scale;
}

static void
choose (const PinPlan *plan, gboolean *ringed)
{
  for (guint i = 0; i < plan->chassis->positions->len; i++)
    {
      const PinPosition *position = g_ptr_array_index (plan->chassis->positions, i);

      ringed[i] = g_str_has_prefix (position->id, "hub.rear");
    }
}

static void
draw_sample (cairo_t *cr, const Sample *sample, const PinChassis *chassis)
{
  PinPlan plan;
  g_autofree gboolean *ringed = g_new0 (gboolean, chassis->positions->len);

  set_up (&plan, sample, chassis);
  pin_plan_field (cr, plan.palette, 0, 0, sample->width, sample->height);
  pin_plan_draw (cr, &plan);
  if (sample->chosen)
    choose (&plan, ringed);
  if (sample->marks)
    {
      g_autoptr (PinMarkLayout) layout = sample_layout (&plan, sample->fresh);

      pin_marks_draw (cr, &plan, layout, ringed);
      if (!sample->small)
        pin_plan_scale_bar (cr, &plan, sample->width - 14, sample->height - 14);
    }
}

static void
write_sample (const char *folder, const Sample *sample, const PinChassis *chassis)
{
  g_autofree char *name = g_strdup_printf ("%s-%s.png", chassis->id, sample->name);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, sample->width, sample->height);
  cairo_t *cr = cairo_create (surface);
  gint64 began = g_get_monotonic_time ();

  draw_sample (cr, sample, chassis);
  g_print ("%-40s %6.2f ms\n", name, (g_get_monotonic_time () - began) / 1000.0);
  cairo_destroy (cr);
  if (cairo_surface_write_to_png (surface, path) != CAIRO_STATUS_SUCCESS)
    g_printerr ("%s: cannot be written\n", path);
  cairo_surface_destroy (surface);
}

static void
time_drawing (const PinChassis *chassis)
{
  PinPlan plan = { .chassis = chassis, .palette = pin_palette_light (), .dimensions = TRUE };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 720, 420);
  cairo_t *cr = cairo_create (surface);
  g_autoptr (PinMarkLayout) layout = NULL;
  gint64 began, drawn, laid;

  pin_plan_fit (&plan, 720, 420, 12);
  began = g_get_monotonic_time ();
  for (int i = 0; i < 50; i++)
    pin_plan_draw (cr, &plan);
  drawn = g_get_monotonic_time ();
  layout = sample_layout (&plan, FALSE);
  laid = g_get_monotonic_time ();
  g_print ("%s: %.2f px/mm, drawing %.2f ms, layout of marks %.2f ms\n", chassis->id, plan.scale,
           (drawn - began) / 50000.0, (laid - drawn) / 1000.0);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  const char *data = g_getenv ("HINGEPIN_DATA_DIR");
  g_autofree char *folder = NULL;
  g_autoptr (GDir) dir = NULL;
  const char *file;

  if (argc < 2 || data == NULL)
    {
      g_printerr ("HINGEPIN_DATA_DIR=data plan-gallery FOLDER [CHASSIS-ID]\n");
      return 2;
    }
  folder = g_build_filename (data, "chassis", NULL);
  dir = g_dir_open (folder, 0, NULL);
  while (dir != NULL && (file = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, file, NULL);
      g_autoptr (PinChassis) chassis = NULL;

      if (!g_str_has_suffix (file, ".xml") || (argc > 2 && !g_str_has_prefix (file, argv[2])))
        continue;
      chassis = read_chassis (path);
      for (guint i = 0; i < G_N_ELEMENTS (samples); i++)
        write_sample (argv[1], &samples[i], chassis);
      time_drawing (chassis);
    }
  return 0;
}
