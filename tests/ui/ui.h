#pragma once

#include <atspi/atspi.h>
#include <glib.h>

/* The program as a person meets it: a real window on a virtual screen, found by
 * role and name, pressed and read through the accessibility bus.  Run such tests
 * through tests/ui-run.sh.
 *
 * Every look-up waits until it succeeds, for some seconds; a press of a button
 * takes effect a quarter of a second later, so wait for its effect, never for a
 * time.  What cannot be done fails the test where it stands, with the tree of
 * what was on the screen.
 *
 * @role 0 is any role.  @name may hold * and ?; "_" of mnemonics and doubled
 * words ("_New New") are gone from the names that it is held against.  NULL is
 * any name.  Pages that are not shown are in the tree too: see pin_ui_inside(). */

typedef struct _PinUi PinUi;

/* A node of the tree; a name of our own, for g_autoptr. */
typedef AtspiAccessible PinThing;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinThing, g_object_unref)

/* A folder for one test, with home and everything in it; remove with
 * pin_ui_remove_home(). */
char       *pin_ui_new_home      (void);
void        pin_ui_remove_home   (char          *home);

/* Starts the program of the build with the arguments, NULL-terminated, and waits
 * for its window.  Its XDG folders are in @home, which outlives it, so that it
 * can be started again on what it left. */
PinUi      *pin_ui_start_at      (const char    *where,
                                  const char    *program,
                                  const char    *home,
                                  ...) G_GNUC_NULL_TERMINATED;
#define pin_ui_start(home, ...) \
  pin_ui_start_at (G_STRLOC, "src/hingepin", home, __VA_ARGS__)
/* Closes the window as a person does; the program must end by itself, with
 * status 0.  Frees @ui. */
void        pin_ui_close_at      (const char    *where,
                                  PinUi         *ui);
#define pin_ui_close(ui) pin_ui_close_at (G_STRLOC, ui)
/* It was closed in some other way: it must end by itself, with status 0.  Frees @ui. */
void        pin_ui_ended_at      (const char    *where,
                                  PinUi         *ui);
#define pin_ui_ended(ui) pin_ui_ended_at (G_STRLOC, ui)
/* As if the power were cut.  Frees @ui. */
void        pin_ui_kill          (PinUi         *ui);

/* From now on look only inside this one, which is found anew when it went away or
 * has another name; NULL name and role 0: look everywhere again. */
void        pin_ui_inside        (PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);

/* NULL if it is not there now.  Free with g_object_unref(). */
PinThing *pin_ui_look     (PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);
PinThing *pin_ui_find_at  (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);
#define pin_ui_find(ui, role, name) pin_ui_find_at (G_STRLOC, ui, role, name)
int         pin_ui_count         (PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);

/* Waiting. */
void        pin_ui_wait_at       (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);
#define pin_ui_wait(ui, role, name) pin_ui_wait_at (G_STRLOC, ui, role, name)
void        pin_ui_wait_gone_at  (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);
#define pin_ui_wait_gone(ui, role, name) pin_ui_wait_gone_at (G_STRLOC, ui, role, name)
/* Until what the thing says matches @text, which may hold * and ?. */
void        pin_ui_wait_text_at  (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name,
                                  const char    *text);
#define pin_ui_wait_text(ui, role, name, text) \
  pin_ui_wait_text_at (G_STRLOC, ui, role, name, text)
void        pin_ui_wait_state_at (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name,
                                  AtspiStateType state,
                                  gboolean       on);
#define pin_ui_wait_state(ui, role, name, state, on) \
  pin_ui_wait_state_at (G_STRLOC, ui, role, name, state, on)
/* For what is no widget, such as a file: polls @test until it is TRUE. */
void        pin_ui_wait_for_at   (const char    *where,
                                  PinUi         *ui,
                                  gboolean     (*test) (gpointer data),
                                  gpointer       data,
                                  const char    *what);
#define pin_ui_wait_for(ui, test, data, what) \
  pin_ui_wait_for_at (G_STRLOC, ui, test, data, what)

/* Reading.  Entries and labels tell their text, all others their name; free with
 * g_free(). */
char       *pin_ui_text_at       (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);
#define pin_ui_text(ui, role, name) pin_ui_text_at (G_STRLOC, ui, role, name)
double      pin_ui_value_at      (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);
#define pin_ui_value(ui, role, name) pin_ui_value_at (G_STRLOC, ui, role, name)

/* Doing. */
void        pin_ui_press_at      (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);
#define pin_ui_press(ui, role, name) pin_ui_press_at (G_STRLOC, ui, role, name)
/* With the pointer, in the middle: for check buttons, column headers and drawings,
 * which offer no action.  Not inside a popover. */
void        pin_ui_click_at      (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name);
#define pin_ui_click(ui, role, name) pin_ui_click_at (G_STRLOC, ui, role, name)
void        pin_ui_set_text_at   (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name,
                                  const char    *text);
#define pin_ui_set_text(ui, role, name, text) \
  pin_ui_set_text_at (G_STRLOC, ui, role, name, text)
void        pin_ui_set_value_at  (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name,
                                  double         value);
#define pin_ui_set_value(ui, role, name, value) \
  pin_ui_set_value_at (G_STRLOC, ui, role, name, value)
/* Selects the child of a list whose name, or one of whose labels, matches @row. */
void        pin_ui_select_at     (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name,
                                  const char    *row);
#define pin_ui_select(ui, role, name, row) pin_ui_select_at (G_STRLOC, ui, role, name, row)
/* Chooses an item of a drop-down. */
void        pin_ui_choose_at     (const char    *where,
                                  PinUi         *ui,
                                  AtspiRole      role,
                                  const char    *name,
                                  const char    *item);
#define pin_ui_choose(ui, role, name, item) pin_ui_choose_at (G_STRLOC, ui, role, name, item)
/* An action without parameter that the window's tree offers, "win.undo". */
void        pin_ui_action_at     (const char    *where,
                                  PinUi         *ui,
                                  const char    *action);
#define pin_ui_action(ui, action) pin_ui_action_at (G_STRLOC, ui, action)
/* An action of the first window or, with "app." before it, of the application,
 * over the session bus; @parameter may be NULL, and is consumed if floating. */
void        pin_ui_activate_at   (const char    *where,
                                  PinUi         *ui,
                                  const char    *action,
                                  GVariant      *parameter);
#define pin_ui_activate(ui, action, parameter) \
  pin_ui_activate_at (G_STRLOC, ui, action, parameter)
/* Keys as xdotool names them, "ctrl+z"; they go to whatever has the focus. */
void        pin_ui_key_at        (const char    *where,
                                  PinUi         *ui,
                                  const char    *keys);
#define pin_ui_key(ui, keys) pin_ui_key_at (G_STRLOC, ui, keys)
void        pin_ui_type_at       (const char    *where,
                                  PinUi         *ui,
                                  const char    *text);
#define pin_ui_type(ui, text) pin_ui_type_at (G_STRLOC, ui, text)
/* Presses Tab, or "shift+Tab", until that has the focus. */
void        pin_ui_tab_to_at     (const char    *where,
                                  PinUi         *ui,
                                  const char    *tab,
                                  AtspiRole      role,
                                  const char    *name);
#define pin_ui_tab_to(ui, tab, role, name) pin_ui_tab_to_at (G_STRLOC, ui, tab, role, name)
void        pin_ui_resize_at     (const char    *where,
                                  PinUi         *ui,
                                  int            width,
                                  int            height);
#define pin_ui_resize(ui, width, height) pin_ui_resize_at (G_STRLOC, ui, width, height)

/* The whole screen as PNG. */
void        pin_ui_screenshot_at (const char    *where,
                                  PinUi         *ui,
                                  const char    *file);
#define pin_ui_screenshot(ui, file) pin_ui_screenshot_at (G_STRLOC, ui, file)
/* Fails if something that can be used has no name, there where is being looked. */
void        pin_ui_all_named_at  (const char    *where,
                                  PinUi         *ui);
#define pin_ui_all_named(ui) pin_ui_all_named_at (G_STRLOC, ui)
/* The tree as text, a line each; free with g_free(). */
char       *pin_ui_tree          (PinUi         *ui);
/* The name as tests see it; free with g_free(). */
char       *pin_ui_clean_name    (const char    *name);
