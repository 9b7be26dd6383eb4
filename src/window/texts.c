#include "window/texts.h"

struct _PinTexts
{
  GMutex lock;
  GCond is_read;
  PinLibrary *library;        /* owned */
  GError *error;              /* or why there is none */
};

static void
texts_clear (PinTexts *self)
{
  g_clear_pointer (&self->library, pin_library_free);
  g_clear_error (&self->error);
  g_cond_clear (&self->is_read);
  g_mutex_clear (&self->lock);
}

static gpointer
read_texts (gpointer data)
{
  g_autoptr (PinTexts) self = data;
  g_autoptr (GError) error = NULL;
  PinLibrary *library = pin_library_new_default (&error);

  if (library != NULL)
    pin_library_fill (library);
  g_mutex_lock (&self->lock);
  self->library = library;
  self->error = g_steal_pointer (&error);
  g_cond_broadcast (&self->is_read);
  g_mutex_unlock (&self->lock);
  return NULL;
}

/* Begins to read; does not wait. */
PinTexts *
pin_texts_read (void)
{
  PinTexts *self = g_atomic_rc_box_new0 (PinTexts);

  g_mutex_init (&self->lock);
  g_cond_init (&self->is_read);
  g_thread_unref (g_thread_new ("texts", read_texts, pin_texts_ref (self)));
  return self;
}

PinTexts *
pin_texts_ref (PinTexts *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
pin_texts_unref (PinTexts *self)
{
  g_atomic_rc_box_release_full (self, (GDestroyNotify) texts_clear);
}

/* Waits until they are read: for worker threads, not for the main loop.
 * Returns: (transfer none): lives as long as @self; NULL with @error. */
PinLibrary *
pin_texts_wait (PinTexts *self, GError **error)
{
  g_mutex_lock (&self->lock);
  while (self->library == NULL && self->error == NULL)
    g_cond_wait (&self->is_read, &self->lock);
  if (self->error != NULL && error != NULL)
    *error = g_error_copy (self->error);
  g_mutex_unlock (&self->lock);
  return self->library;
}
