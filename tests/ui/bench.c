#include "ui/bench.h"

#include <stdio.h>
#include <string.h>

#include "ui/ui-private.h"

enum { LOOK_US = 4000, MOST_READINGS = 6, MOST_ANSWERS = 400 };

/* ---- what stands there ------------------------------------------------------------ */

typedef struct
{
  PinThing *thing;            /* owned */
  AtspiRole role;
  char *name;
  gboolean in_outcomes, in_answers, in_reasons, in_deeds;
} Seen;

static void
seen_free (gpointer data)
{
  Seen *seen = data;

  g_object_unref (seen->thing);
  g_free (seen->name);
  g_free (seen);
}

static Seen *
see (PinThing *thing, const Seen *parent)
{
  Seen *seen = g_new0 (Seen, 1);
  g_autofree char *name = pin_ui_name_of (thing);

  seen->thing = g_object_ref (thing);
  seen->role = atspi_accessible_get_role (thing, NULL);
  seen->name = pin_ui_clean_name (name);
  if (parent)
    {
      seen->in_outcomes = parent->in_outcomes || g_str_equal (parent->name, "outcomes");
      seen->in_answers = parent->in_answers || g_str_equal (parent->name, "answers");
      seen->in_reasons = parent->in_reasons || g_str_equal (parent->name, "usual reasons");
      seen->in_deeds = parent->in_deeds || g_str_equal (parent->name, "Which work it was");
    }
  return seen;
}

/* Nothing in it is a control or a word of the question. */
static gboolean
is_leaf (const Seen *seen)
{
  switch (seen->role)
    {
    case ATSPI_ROLE_PUSH_BUTTON:
    case ATSPI_ROLE_TOGGLE_BUTTON:
    case ATSPI_ROLE_LABEL:
    case ATSPI_ROLE_TEXT:
    case ATSPI_ROLE_ENTRY:
    case ATSPI_ROLE_IMAGE:
    case ATSPI_ROLE_HEADING:
    case ATSPI_ROLE_SCROLL_BAR:
    case ATSPI_ROLE_LIST:
      return TRUE;
    default:
      return g_str_equal (seen->name, "hazards") || g_str_has_prefix (seen->name, "plan view");
    }
}

static void
look_round (PinThing *thing, const Seen *parent, GPtrArray *all)
{
  Seen *seen = see (thing, parent);
  int n;

  g_ptr_array_add (all, seen);
  if (is_leaf (seen))
    return;
  n = atspi_accessible_get_child_count (thing, NULL);
  for (int i = 0; i < n; i++)
    {
      g_autoptr (PinThing) child = pin_ui_child (thing, i);

      if (child)
        look_round (child, seen, all);
    }
}

/* Seen*, in the order of the page. */
static GPtrArray *
look (PinBench *self)
{
  GPtrArray *all = g_ptr_array_new_with_free_func (seen_free);

  atspi_accessible_clear_cache (self->page);
  look_round (self->page, NULL, all);
  return all;
}

static Seen *
first_of (GPtrArray *all, AtspiRole role, const char *pattern)
{
  for (guint i = 0; i < all->len; i++)
    {
      Seen *seen = g_ptr_array_index (all, i);

      if ((role == 0 || seen->role == role) && pin_ui_matches (pattern, seen->name))
        return seen;
    }
  return NULL;
}

static gboolean
is_button (const Seen *seen)
{
  return seen->role == ATSPI_ROLE_PUSH_BUTTON || seen->role == ATSPI_ROLE_TOGGLE_BUTTON;
}

/* ---- reading ------------------------------------------------------------------------ */

/* What holds the pages, the messages and the footer: a search from there that
 * passes by the pages is quick. */
static PinThing *
box_of_pages (PinThing *page)
{
  g_autoptr (PinThing) place = atspi_accessible_get_parent (page, NULL);
  g_autoptr (PinThing) tab = place ? atspi_accessible_get_parent (place, NULL) : NULL;
  g_autoptr (PinThing) stack = tab ? atspi_accessible_get_parent (tab, NULL) : NULL;

  return stack ? atspi_accessible_get_parent (stack, NULL) : NULL;
}

PinBench *
pin_bench_new_at (const char *where, PinUi *ui)
{
  PinBench *self = g_new0 (PinBench, 1);

  self->ui = ui;
  self->page = pin_ui_find_at (where, ui, ATSPI_ROLE_FILLER, "bench");
  self->box = box_of_pages (self->page);
  pin_bench_wait_key_at (where, self, "?*");
  return self;
}

void
pin_bench_free (PinBench *self)
{
  g_clear_object (&self->page);
  g_clear_object (&self->box);
  g_free (self);
}

char *
pin_bench_key (PinBench *self)
{
  char *key;

  atspi_accessible_clear_cache (self->page);
  key = atspi_accessible_get_description (self->page, NULL);
  return key ? key : g_strdup ("");
}

typedef struct
{
  PinBench *bench;
  const char *key;
  gboolean other;
} Awaited;

static gboolean
has_come (PinUi *ui, gpointer data)
{
  Awaited *awaited = data;
  g_autofree char *key = NULL;

  /* The poll of the harness is for slow things; this is asked hundreds of times. */
  for (int i = 0; i < 10; i++)
    {
      g_free (key);
      key = pin_bench_key (awaited->bench);
      if (awaited->other ? *key && !g_str_equal (key, awaited->key)
                         : g_pattern_match_simple (awaited->key, key))
        return TRUE;
      g_usleep (LOOK_US);
    }
  return FALSE;
}

void
pin_bench_wait_key_at (const char *where, PinBench *self, const char *key)
{
  Awaited awaited = { self, key, FALSE };

  if (!pin_ui_poll (where, self->ui, has_come, &awaited))
    {
      g_autofree char *now = pin_bench_key (self);

      pin_ui_fail (where, self->ui, "the question is “%s”, not “%s”", now, key);
    }
}

static void
wait_moved (const char *where, PinBench *self, const char *from)
{
  Awaited awaited = { self, from, TRUE };

  if (!pin_ui_poll (where, self->ui, has_come, &awaited))
    pin_ui_fail (where, self->ui, "the page did not move on from “%s”", from);
}

PinBenchView *
pin_bench_view (PinBench *self)
{
  PinBenchView *view = g_new0 (PinBenchView, 1);
  g_autoptr (GPtrArray) all = look (self);
  Seen *seen = first_of (all, ATSPI_ROLE_HEADING, "*");

  view->key = pin_bench_key (self);
  view->title = g_strdup (seen ? seen->name : "");
  seen = first_of (all, ATSPI_ROLE_LABEL, "*, step * of *");
  view->where = g_strdup (seen ? seen->name : "");
  view->offered = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < all->len; i++)
    {
      seen = g_ptr_array_index (all, i);
      if (is_button (seen) && (seen->in_answers || seen->in_outcomes) &&
          !g_str_equal (seen->name, "Back") && !g_str_equal (seen->name, "Next"))
        g_ptr_array_add (view->offered, g_strdup (seen->name));
      if (seen->role == ATSPI_ROLE_HEADING && i + 1 < all->len && view->place == NULL)
        {
          seen = g_ptr_array_index (all, i + 1);
          view->place = g_strdup (seen->role == ATSPI_ROLE_LABEL ? seen->name : "");
        }
    }
  seen = first_of (all, ATSPI_ROLE_IMAGE, "progress: *");
  if (seen == NULL || sscanf (seen->name, "progress: step %d of %d", &view->step, &view->of) != 2)
    view->step = view->of = 0;
  return view;
}

void
pin_bench_view_free (PinBenchView *view)
{
  g_free (view->key);
  g_free (view->title);
  g_free (view->place);
  g_free (view->where);
  g_ptr_array_unref (view->offered);
  g_free (view);
}

/* ---- answering ---------------------------------------------------------------------- */

typedef struct
{
  const char *where;
  PinBench *bench;
  GPtrArray *all;             /* Seen* */
  const PinBenchPlan *plan;   /* or NULL: as it comes */
} Giving;

static void
press (Giving *giving, Seen *seen)
{
  g_autoptr (PinAction) actions = atspi_accessible_get_action_iface (seen->thing);

  if (actions == NULL || !atspi_action_do_action (actions, 0, NULL))
    pin_ui_fail (giving->where, giving->bench->ui, "“%s” takes no press", seen->name);
}

static void
set_text (Giving *giving, Seen *seen, const char *text)
{
  g_autoptr (PinEditableText) editable = atspi_accessible_get_editable_text_iface (seen->thing);

  if (editable == NULL || !atspi_editable_text_set_text_contents (editable, text, NULL))
    pin_ui_fail (giving->where, giving->bench->ui, "“%s” takes no text", seen->name);
}

static void
key (Giving *giving, const char *keys)
{
  pin_ui_key_at (giving->where, giving->bench->ui, keys);
}

static Seen *
need (Giving *giving, AtspiRole role, const char *pattern)
{
  Seen *seen = first_of (giving->all, role, pattern);

  if (seen == NULL)
    pin_ui_fail (giving->where, giving->bench->ui, "the page offers no “%s”", pattern);
  return seen;
}

static void
look_again (Giving *giving)
{
  g_ptr_array_unref (giving->all);
  giving->all = look (giving->bench);
}

static const struct
{
  const char *word, *letter;
} outcome_keys[] = {
  { "Pass", "p" },        { "Watch", "w" },          { "Fail", "f" }, { "Unsafe", "u" },
  { "Not checked", "n" }, { "Does not apply", "a" }, { "Done", "d" },
};

static const char *
letter_of (const char *word)
{
  for (gsize i = 0; word && i < G_N_ELEMENTS (outcome_keys); i++)
    if (g_str_equal (outcome_keys[i].word, word))
      return outcome_keys[i].letter;
  return NULL;
}

/* An outcome, by its letter or its button, which must be offered. */
static void
give_outcome (Giving *giving, const char *word)
{
  g_autofree char *pattern = g_strdup_printf ("%s*", word);
  Seen *seen = need (giving, ATSPI_ROLE_PUSH_BUTTON, pattern);

  if (giving->bench->by_buttons)
    press (giving, seen);
  else
    key (giving, letter_of (word));
}

/* The focus, by Tab from where it is. */
static void
tab_to (Giving *giving, const char *name)
{
  pin_ui_tab_to_thing (giving->where, giving->bench->ui, "Tab", need (giving, 0, name)->thing);
}

/* Into an entry, and out of it so that letters are keys again. */
static void
type_into (Giving *giving, Seen *entry, const char *text)
{
  if (giving->bench->by_buttons)
    {
      set_text (giving, entry, text);
      return;
    }
  /* Not by its name, which its label has too. */
  pin_ui_tab_to_thing (giving->where, giving->bench->ui, "Tab", entry->thing);
  pin_ui_type_at (giving->where, giving->bench->ui, text);
  key (giving, "Escape");
}

static void
push (Giving *giving, Seen *button)
{
  if (giving->bench->by_buttons)
    {
      press (giving, button);
      return;
    }
  tab_to (giving, button->name);
  key (giving, "space");
}

static gboolean
gives_reason (PinUi *ui, gpointer data)
{
  Giving *giving = data;

  look_again (giving);
  return first_of (giving->all, 0, "Why it was not checked") != NULL;
}

/* Not checked, then why: one of the usual reasons or a word of one's own. */
static void
give_reason (Giving *giving)
{
  const char *reason = giving->plan->text ? giving->plan->text : "No time today";
  Seen *usual;

  give_outcome (giving, "Not checked");
  if (!pin_ui_poll (giving->where, giving->bench->ui, gives_reason, giving))
    pin_ui_fail (giving->where, giving->bench->ui, "the page does not ask why");
  usual = first_of (giving->all, ATSPI_ROLE_PUSH_BUTTON, reason);
  if (usual && giving->bench->by_buttons)
    {
      press (giving, usual);
      return;
    }
  tab_to (giving, usual ? usual->name : "Why it was not checked");
  if (usual == NULL)
    pin_ui_type_at (giving->where, giving->bench->ui, reason);
  key (giving, "Return");
}

/* A grade or a way; NULL pattern: the first that passes, else the first. */
static void
give_choice (Giving *giving, const char *pattern)
{
  Seen *chosen = NULL, *first = NULL;
  int nth = 0, chosen_nth = 0;
  g_autofree char *digit = NULL;

  for (guint i = 0; i < giving->all->len && chosen == NULL; i++)
    {
      Seen *seen = g_ptr_array_index (giving->all, i);

      if (!seen->in_answers || !is_button (seen))
        continue;
      nth++;
      first = first ? first : seen;
      if (pin_ui_matches (pattern ? pattern : "*: pass", seen->name))
        {
          chosen = seen;
          chosen_nth = nth;
        }
    }
  if (chosen == NULL && pattern)
    pin_ui_fail (giving->where, giving->bench->ui, "no choice reads “%s”", pattern);
  if (chosen == NULL)
    chosen = first, chosen_nth = 1;
  if (giving->bench->by_buttons || chosen_nth > 9)
    {
      press (giving, chosen);
      return;
    }
  digit = g_strdup_printf ("%d", chosen_nth);
  key (giving, digit);
}

static gboolean
wants_more (Giving *giving)
{
  return first_of (giving->all, ATSPI_ROLE_LABEL, "* more reading* asked for") != NULL;
}

typedef struct
{
  Giving *giving;
  char *lap;                  /* "Take out reading 2, *" */
} Reading;

static gboolean
is_taken (PinUi *ui, gpointer data)
{
  Reading *reading = data;

  look_again (reading->giving);
  return first_of (reading->giving->all, 0, reading->lap) != NULL;
}

/* Typed, and seen among the readings. */
static void
take_reading (Giving *giving, guint nth, const char *text)
{
  g_autofree char *lap = g_strdup_printf ("Take out reading %u, *", nth);
  Reading reading = { giving, lap };

  pin_ui_type_at (giving->where, giving->bench->ui, text);
  key (giving, "Return");
  if (!pin_ui_poll (giving->where, giving->bench->ui, is_taken, &reading))
    pin_ui_fail (giving->where, giving->bench->ui, "the reading “%s” was not taken", text);
}

/* As many readings as are asked for, then the judgement. */
static void
give_reading (Giving *giving)
{
  const char *text = giving->plan && giving->plan->text ? giving->plan->text : "1.1";
  g_auto (GStrv) readings = g_strsplit (text, ",", -1);
  guint n = g_strv_length (readings);

  for (guint i = 0; i < n || wants_more (giving); i++)
    {
      if (i > MOST_READINGS)
        pin_ui_fail (giving->where, giving->bench->ui, "the page never has readings enough");
      take_reading (giving, i + 1, g_strstrip (readings[MIN (i, n - 1)]));
    }
  if (giving->plan && g_strcmp0 (giving->plan->answer, "Enter") == 0)
    key (giving, "Return");
  else
    give_outcome (giving, giving->plan && giving->plan->answer ? giving->plan->answer : "Pass");
}

static gboolean
has_count (PinUi *ui, gpointer data)
{
  Giving *giving = data;
  Seen *entry;
  g_autofree char *says = NULL;

  look_again (giving);
  entry = first_of (giving->all, 0, "How many are right");
  says = entry ? pin_ui_says (entry->thing) : NULL;
  return says && *says != '\0';
}

/* "All 8": what the button stands for; free with g_free(). */
static char *
all_of_them (Giving *giving)
{
  return g_strdup (need (giving, ATSPI_ROLE_PUSH_BUTTON, "All *")->name + strlen ("All "));
}

/* All of them with the button or typed; Enter accepts what the count says. */
static void
give_count (Giving *giving)
{
  const char *answer = giving->plan && giving->plan->answer ? giving->plan->answer : "Pass";
  g_autofree char *text = giving->plan ? g_strdup (giving->plan->text) : NULL;

  if (text == NULL && g_str_equal (answer, "Pass") && giving->bench->by_buttons)
    press (giving, need (giving, ATSPI_ROLE_PUSH_BUTTON, "All *"));
  else
    {
      if (text == NULL)
        text = g_str_equal (answer, "Pass") ? all_of_them (giving) : g_strdup ("0");
      pin_ui_type_at (giving->where, giving->bench->ui, text);
    }
  if (!pin_ui_poll (giving->where, giving->bench->ui, has_count, giving))
    pin_ui_fail (giving->where, giving->bench->ui, "the count was not taken");
  if (g_str_equal (answer, "Enter"))
    key (giving, "Return");
  else
    {
      key (giving, "Escape");
      give_outcome (giving, answer);
    }
}

typedef struct
{
  PinThing *toggle;
} Toggle;

static gboolean
is_on (PinUi *ui, gpointer data)
{
  Toggle *toggle = data;

  atspi_accessible_clear_cache (toggle->toggle);
  return pin_ui_has_state (toggle->toggle, ATSPI_STATE_PRESSED) ||
         pin_ui_has_state (toggle->toggle, ATSPI_STATE_CHECKED);
}

static void
wait_on (Giving *giving, Seen *button)
{
  Toggle toggle = { button->thing };

  if (!pin_ui_poll (giving->where, giving->bench->ui, is_on, &toggle))
    pin_ui_fail (giving->where, giving->bench->ui, "“%s” does not go on", button->name);
}

/* The work that was meant, or the first of several; what is asked for. */
static Seen *
deed_of (Giving *giving, const char *pattern)
{
  for (guint i = 0; i < giving->all->len; i++)
    {
      Seen *seen = g_ptr_array_index (giving->all, i);

      if (is_button (seen) && seen->in_deeds && pin_ui_matches (pattern, seen->name))
        return seen;
    }
  return NULL;
}

/* An entry that is none of those that the page always has. */
static gboolean
is_ask (const Seen *seen)
{
  static const char *const others[] = { "Your initials", "Note to this answer",
                                        "Why it was not checked", "Initials of who signs", NULL };

  return (seen->role == ATSPI_ROLE_TEXT || seen->role == ATSPI_ROLE_ENTRY) &&
         !g_strv_contains (others, seen->name);
}

static void
fill_asks (Giving *giving, const char *text)
{
  for (guint i = 0; i < giving->all->len; i++)
    {
      Seen *seen = g_ptr_array_index (giving->all, i);

      if (is_ask (seen))
        type_into (giving, seen, text);
    }
}

static void
give_work (Giving *giving)
{
  const char *answer = giving->plan ? giving->plan->answer : NULL;
  gboolean is_outcome = answer && letter_of (answer);
  Seen *deed = deed_of (giving, is_outcome ? NULL : answer);

  if (giving->plan && giving->plan->text)
    fill_asks (giving, giving->plan->text);
  if (deed)
    {
      push (giving, deed);
      wait_on (giving, deed);
    }
  give_outcome (giving, is_outcome ? answer : "Done");
}

static gboolean
has_note_entry (PinUi *ui, gpointer data)
{
  Giving *giving = data;

  look_again (giving);
  return first_of (giving->all, 0, "Note to this answer") != NULL;
}

/* Written whole: while an entry comes onto the page the rest of it moves, and
 * what is seen then is not the whole of it. */
static gboolean
is_noted (PinUi *ui, gpointer data)
{
  Giving *giving = data;
  Seen *entry;
  g_autofree char *says = NULL;

  look_again (giving);
  entry = first_of (giving->all, 0, "Note to this answer");
  says = entry ? pin_ui_says (entry->thing) : NULL;
  return g_strcmp0 (says, giving->plan->note) == 0;
}

static void
give_note (Giving *giving)
{
  press (giving, need (giving, 0, "Note"));
  if (!pin_ui_poll (giving->where, giving->bench->ui, has_note_entry, giving))
    pin_ui_fail (giving->where, giving->bench->ui, "there is no room for a note");
  /* The page puts the focus there, and back on the question behind Return. */
  pin_ui_type_at (giving->where, giving->bench->ui, giving->plan->note);
  key (giving, "Return");
  if (!pin_ui_poll (giving->where, giving->bench->ui, is_noted, giving))
    pin_ui_fail (giving->where, giving->bench->ui, "the note was not taken");
}

static gboolean
any_choice (GPtrArray *all)
{
  for (guint i = 0; i < all->len; i++)
    if (((Seen *) g_ptr_array_index (all, i))->in_answers)
      return TRUE;
  return FALSE;
}

static void
give_by_kind (Giving *giving)
{
  const char *answer = giving->plan ? giving->plan->answer : NULL;

  if (g_strcmp0 (answer, "Not checked") == 0)
    give_reason (giving);
  else if (g_strcmp0 (answer, "Does not apply") == 0)
    give_outcome (giving, answer);
  else if (any_choice (giving->all))
    give_choice (giving, answer);
  else if (first_of (giving->all, 0, "Reading:*"))
    give_reading (giving);
  else if (first_of (giving->all, 0, "How many are right"))
    give_count (giving);
  else if (first_of (giving->all, ATSPI_ROLE_PUSH_BUTTON, "Done*"))
    give_work (giving);
  else
    give_outcome (giving, answer ? answer : "Pass");
}

static const PinBenchPlan *
plan_for (const PinBenchPlan *plan, const char *key)
{
  for (; plan && plan->key; plan++)
    if (g_pattern_match_simple (plan->key, key))
      return plan;
  return NULL;
}

void
pin_bench_give_at (const char *where, PinBench *self, const PinBenchPlan *plan)
{
  g_autofree char *at = pin_bench_key (self);
  Giving giving = { where, self, look (self), plan_for (plan, at) };

  if (giving.plan && giving.plan->note)
    give_note (&giving);
  give_by_kind (&giving);
  g_ptr_array_unref (giving.all);
}

void
pin_bench_answer_at (const char *where, PinBench *self, const PinBenchPlan *plan)
{
  g_autofree char *from = pin_bench_key (self);

  pin_bench_give_at (where, self, plan);
  wait_moved (where, self, from);
  self->kept++;
}

guint
pin_bench_walk_at (const char *where, PinBench *self, const PinBenchPlan *plan, const char *stop)
{
  for (guint n = 0; n < MOST_ANSWERS; n++)
    {
      g_autofree char *at = pin_bench_key (self);

      if (g_pattern_match_simple (stop, at))
        return n;
      if (g_str_equal (at, "sign-off"))
        pin_ui_fail (where, self->ui, "the walk ended without “%s”", stop);
      pin_bench_answer_at (where, self, plan);
    }
  pin_ui_fail (where, self->ui, "the walk does not end");
  return 0;
}

typedef struct
{
  PinBench *bench;
  const char *pattern;
} Message;

static gboolean
has_message (PinUi *ui, gpointer data)
{
  Message *message = data;
  PinThing *box = message->bench->box;
  int n;

  atspi_accessible_clear_cache (box);
  n = atspi_accessible_get_child_count (box, NULL);
  for (int i = 1; i < n; i++)
    {
      g_autoptr (PinThing) child = pin_ui_child (box, i);
      g_autoptr (PinThing) alert =
        child ? pin_ui_look_in (child, ATSPI_ROLE_ALERT, message->pattern) : NULL;

      if (alert)
        return TRUE;
    }
  return FALSE;
}

void
pin_bench_wait_message_at (const char *where, PinBench *self, const char *pattern)
{
  Message message = { self, pattern };

  if (!pin_ui_poll (where, self->ui, has_message, &message))
    pin_ui_fail (where, self->ui, "the window never said “%s”", pattern);
}

void
pin_bench_sign_at (const char *where, PinBench *self, const char *person)
{
  Giving giving = { where, self, NULL, NULL };
  Seen *initials;

  pin_bench_wait_key_at (where, self, "sign-off");
  giving.all = look (self);
  initials = need (&giving, 0, "Initials of who signs");
  if (self->by_buttons)
    {
      set_text (&giving, initials, person);
      press (&giving, need (&giving, ATSPI_ROLE_PUSH_BUTTON, "Sign off"));
    }
  else
    {
      tab_to (&giving, initials->name);
      key (&giving, "ctrl+a");
      pin_ui_type_at (where, self->ui, person);
      key (&giving, "Return");
    }
  g_ptr_array_unref (giving.all);
  pin_bench_wait_message_at (where, self, "Signed: *");
}

PinBench *
pin_bench_begin_at (const char *where, PinUi *ui, const char *title)
{
  pin_ui_press_at (where, ui, 0, "Start inspection");
  pin_ui_press_at (where, ui, ATSPI_ROLE_MENU_ITEM, title);
  return pin_bench_new_at (where, ui);
}
