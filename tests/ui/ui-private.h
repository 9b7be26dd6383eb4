#pragma once

#include "ui/ui.h"

typedef AtspiAction PinAction;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinAction, g_object_unref)
typedef AtspiComponent PinComponent;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinComponent, g_object_unref)
typedef AtspiEditableText PinEditableText;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinEditableText, g_object_unref)
typedef AtspiSelection PinSelection;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinSelection, g_object_unref)
typedef AtspiStateSet PinStateSet;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinStateSet, g_object_unref)
typedef AtspiText PinText;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinText, g_object_unref)
typedef AtspiValue PinValue;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinValue, g_object_unref)

struct _PinUi
{
  char *home;                 /* owned; the folder itself is the test's */
  GPid pid;
  gboolean ended;
  int status;                 /* of waitpid, once it has ended */
  AtspiRole inside_role;
  char *inside_name;          /* owned; NULL with role 0: everywhere */
  PinThing *inside;           /* owned; where that was found, or NULL */
};

typedef gboolean (*PinUiTest) (PinUi *ui, gpointer data);

gboolean         pin_ui_poll        (const char *where, PinUi *ui, PinUiTest test, gpointer data);
void             pin_ui_fail        (const char *where, PinUi *ui, const char *format, ...)
  G_GNUC_PRINTF (3, 4);
gboolean         pin_ui_has_ended   (PinUi *ui);
PinThing *pin_ui_application (PinUi *ui);
PinThing *pin_ui_place       (PinUi *ui);
PinThing *pin_ui_look_in     (PinThing *from, AtspiRole role, const char *name);
PinThing *pin_ui_child       (PinThing *of, int i);
char            *pin_ui_says        (PinThing *thing);
char            *pin_ui_name_of     (PinThing *thing);
gboolean         pin_ui_matches     (const char *pattern, const char *text);
gboolean         pin_ui_has_state   (PinThing *thing, AtspiStateType state);
void             pin_ui_wait_off_bus(GPid pid);
void             pin_ui_tab_to_thing(const char *where, PinUi *ui, const char *tab, PinThing *thing);
void             pin_ui_run_tool    (const char *where, PinUi *ui, char **output, ...)
  G_GNUC_NULL_TERMINATED;
