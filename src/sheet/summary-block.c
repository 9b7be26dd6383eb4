#include "sheet/summary-private.h"

PinSheetBlock *
pin_sheet_block_new (const char *title, PinSheetForm form)
{
  PinSheetBlock *block = g_new0 (PinSheetBlock, 1);

  block->title = g_strdup (title);
  block->form = form;
  block->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_sheet_row_free);
  return block;
}

/* The texts are copied; NULL is an empty cell. */
PinSheetRow *
pin_sheet_block_add (PinSheetBlock *block, PinMark mark, const char *first, const char *second,
                     const char *third, const char *fourth)
{
  PinSheetRow *row = g_new0 (PinSheetRow, 1);
  const char *const texts[PIN_SHEET_CELLS] = { first, second, third, fourth };

  row->mark = mark;
  for (int i = 0; i < PIN_SHEET_CELLS; i++)
    row->cell[i] = g_strdup (texts[i] ? texts[i] : "");
  g_ptr_array_add (block->rows, row);
  return row;
}

void
pin_sheet_block_free (PinSheetBlock *block)
{
  if (block == NULL)
    return;
  g_free (block->title);
  g_free (block->note);
  g_ptr_array_unref (block->rows);
  g_free (block);
}

void
pin_sheet_row_free (PinSheetRow *row)
{
  for (int i = 0; i < PIN_SHEET_CELLS; i++)
    g_free (row->cell[i]);
  g_free (row);
}
