#include "sheet/palette.h"

#include <math.h>

/* Outcome fills are from the colour-blind-safe set of Okabe and Ito (2008).
 * They miss a contrast of 4.5:1 on paper, so each has an edge of its own hue
 * that meets it; words in colour use the edge. */

#define INK(hex) { (((hex) >> 16) & 0xff) / 255.0, (((hex) >> 8) & 0xff) / 255.0, ((hex) & 0xff) / 255.0 }

static const PinPalette light = {
  .paper = INK (0xFBFAF6),
  .raised = INK (0xFFFFFF),
  .button = INK (0xFFFFFF),
  .ink = INK (0x1E2A33),
  .pencil = INK (0x5A6872),
  .rule = INK (0xC9CDCB),
  .hair = INK (0xE2E1DA),
  .accent = INK (0x1B5E8C),
  .on_accent = INK (0xFFFFFF),
  .chosen = INK (0xE6EEF3),
  .plate = INK (0xF4F2EA),
  .tyre = INK (0xECEAE2),
  .tread = INK (0xF8F7F2),
  .band = INK (0xF3F1EA),
  .pass = INK (0x009E73),
  .pass_edge = INK (0x006B4E),
  .watch = INK (0xE69F00),
  .watch_edge = INK (0x7A5400),
  .unsafe = INK (0xD55E00),
  .fail_edge = INK (0xA84600),
  .warning = INK (0xE69F00),
  .on_warning = INK (0x14191D),
  .danger = INK (0xA84600),
  .on_danger = INK (0xFFFFFF),
  .caution = INK (0xF0E442),
  .on_caution = INK (0x1E2A33),
};

static const PinPalette dark = {
  .paper = INK (0x1A1F24),
  .raised = INK (0x232A31),
  .button = INK (0x2A323A),
  .ink = INK (0xE7EDF1),
  .pencil = INK (0x9FB0BC),
  .rule = INK (0x4A5761),
  .hair = INK (0x333D45),
  .accent = INK (0x7DB7E0),
  .on_accent = INK (0x14191D),
  .chosen = INK (0x25384A),
  .plate = INK (0x20272D),
  .tyre = INK (0x2A323A),
  .tread = INK (0x222930),
  .band = INK (0x161B1F),
  .pass = INK (0x009E73),
  .pass_edge = INK (0x3FC79F),
  .watch = INK (0xE69F00),
  .watch_edge = INK (0xF2B84B),
  .unsafe = INK (0xD55E00),
  .fail_edge = INK (0xF08A4B),
  .warning = INK (0xE69F00),
  .on_warning = INK (0x14191D),
  .danger = INK (0xA84600),
  .on_danger = INK (0xFFFFFF),
  .caution = INK (0xF0E442),
  .on_caution = INK (0x1E2A33),
};

/* Paper itself is white and costs nothing; greys stay light enough that a
 * monochrome printer does not fill the drawing with dots. */
static const PinPalette print = {
  .paper = INK (0xFFFFFF),
  .raised = INK (0xFFFFFF),
  .button = INK (0xFFFFFF),
  .ink = INK (0x111417),
  .pencil = INK (0x4A555D),
  .rule = INK (0xB9BDBB),
  .hair = INK (0xDAD9D3),
  .accent = INK (0x1B5E8C),
  .on_accent = INK (0xFFFFFF),
  .chosen = INK (0xE6EEF3),
  .plate = INK (0xF7F6F2),
  .tyre = INK (0xF0EFEA),
  .tread = INK (0xFFFFFF),
  .band = INK (0xF3F1EA),
  .pass = INK (0x009E73),
  .pass_edge = INK (0x006B4E),
  .watch = INK (0xE69F00),
  .watch_edge = INK (0x7A5400),
  .unsafe = INK (0xD55E00),
  .fail_edge = INK (0xA84600),
  .warning = INK (0xE69F00),
  .on_warning = INK (0x14191D),
  .danger = INK (0xA84600),
  .on_danger = INK (0xFFFFFF),
  .caution = INK (0xF0E442),
  .on_caution = INK (0x1E2A33),
};

#define ENTRY(field) { #field, G_STRUCT_OFFSET (PinPalette, field) }

static const struct
{
  const char *name;
  gsize offset;
} entries[] = {
  ENTRY (paper),
  ENTRY (raised),
  ENTRY (button),
  ENTRY (ink),
  ENTRY (pencil),
  ENTRY (rule),
  ENTRY (hair),
  ENTRY (accent),
  ENTRY (on_accent),
  ENTRY (chosen),
  ENTRY (plate),
  ENTRY (tyre),
  ENTRY (tread),
  ENTRY (band),
  ENTRY (pass),
  ENTRY (pass_edge),
  ENTRY (watch),
  ENTRY (watch_edge),
  ENTRY (unsafe),
  ENTRY (fail_edge),
  ENTRY (warning),
  ENTRY (on_warning),
  ENTRY (danger),
  ENTRY (on_danger),
  ENTRY (caution),
  ENTRY (on_caution),
};

G_STATIC_ASSERT (G_N_ELEMENTS (entries) * sizeof (PinInk) == sizeof (PinPalette));

const PinPalette *
pin_palette_light (void)
{
  return &light;
}

const PinPalette *
pin_palette_dark (void)
{
  return &dark;
}

const PinPalette *
pin_palette_print (void)
{
  return &print;
}

/* How many colours a palette has. */
guint
pin_palette_size (void)
{
  return G_N_ELEMENTS (entries);
}

/* The colour's name, "pass_edge"; static. */
const char *
pin_palette_name (guint nth)
{
  g_return_val_if_fail (nth < G_N_ELEMENTS (entries), NULL);

  return entries[nth].name;
}

const PinInk *
pin_palette_nth (const PinPalette *self, guint nth)
{
  g_return_val_if_fail (nth < G_N_ELEMENTS (entries), NULL);

  return G_STRUCT_MEMBER_P (self, entries[nth].offset);
}

static guint
channel (double value)
{
  return (guint) lround (CLAMP (value, 0, 1) * 255);
}

/* The palette as lines "@define-color pin_paper #fbfaf6;" for the window's
 * style sheet.  Returns: (transfer full) */
char *
pin_palette_css (const PinPalette *self)
{
  GString *css = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      const PinInk *ink = pin_palette_nth (self, i);

      g_string_append_printf (css, "@define-color pin_%s #%02x%02x%02x;\n", entries[i].name,
                              channel (ink->r), channel (ink->g), channel (ink->b));
    }
  return g_string_free (css, FALSE);
}

static double
linear (double value)
{
  return value <= 0.04045 ? value / 12.92 : pow ((value + 0.055) / 1.055, 2.4);
}

static double
luminance (const PinInk *ink)
{
  return 0.2126 * linear (ink->r) + 0.7152 * linear (ink->g) + 0.0722 * linear (ink->b);
}

/* The contrast ratio of two colours, from 1 (the same) to 21 (black on white).
 * Source: Web Content Accessibility Guidelines 2.1 (W3C, 2018), definitions of
 * "contrast ratio" and "relative luminance"; the knee of the transfer curve is
 * that of IEC 61966-2-1 (sRGB), which for 8-bit values gives the same result. */
double
pin_ink_contrast (const PinInk *a, const PinInk *b)
{
  double la = luminance (a);
  double lb = luminance (b);

  return (MAX (la, lb) + 0.05) / (MIN (la, lb) + 0.05);
}
