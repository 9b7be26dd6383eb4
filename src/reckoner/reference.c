#include "reckoner/reference.h"

#include <string.h>

#include "library/quantity.h"
#include "reckoner/sum.h"

static const char head[] =
  "# The sums\n"
  "\n"
  "<!-- Made from the descriptions in src/reckoner/ by “./dev reference”: change those, not this. -->\n"
  "\n"
  "What the reckoner can work out, from its page or with `hingepin reckon SUM name=value …`.\n"
  "Values take any unit of their kind (`84mm`, `3.3in`); a bare number is in the unit that is\n"
  "named here. Several values are written with commas, or with semicolons by those who write\n"
  "1,5; pairs with a colon between the two. Every result comes with the numbers put in, so\n"
  "that it can be followed by hand.\n";

static void
add_bounds (GString *text, double least, double most, const char *unit)
{
  g_autofree char *low = pin_number_format (least, -1);
  g_autofree char *high = pin_number_format (most, -1);
  const char *symbol = pin_unit_find (unit)->symbol;

  g_string_append_printf (text, "%s to %s%s%s", low, high, *symbol ? " " : "", symbol);
}

static void
add_range (GString *text, const PinInput *input)
{
  if (input->kind == PIN_INPUT_CHOICE)
    {
      g_autofree char *choices = g_strjoinv (", ", (char **) input->choices);

      g_string_append_printf (text, "one of %s", choices);
      return;
    }
  if (input->kind == PIN_INPUT_ANY || input->kind == PIN_INPUT_UNIT)
    {
      g_string_append (text, input->kind == PIN_INPUT_ANY ? "a number with any unit" : "a unit");
      return;
    }
  add_bounds (text, input->least, input->most, input->unit);
  if (input->kind == PIN_INPUT_PAIRS)
    {
      g_string_append (text, " : ");
      add_bounds (text, input->second_least, input->second_most, input->second);
    }
  if (input->kind != PIN_INPUT_VALUE)
    g_string_append (text, ", several");
}

static void
add_input (GString *text, const PinInput *input)
{
  g_string_append_printf (text, "| `%s` | %s | ", input->id, input->title);
  add_range (text, input);
  if (input->preset == NULL)
    g_string_append (text, " | has to be given");
  else if (*input->preset == '\0')
    g_string_append (text, " | may be left out");
  else
    g_string_append_printf (text, " | %s", input->preset);
  g_string_append_printf (text, " | %s |\n", input->hint != NULL ? input->hint : "");
}

static void
add_output (GString *text, const PinOutput *output)
{
  const char *unit = output->unit != NULL ? pin_unit_find (output->unit)->symbol : "";

  g_string_append_printf (text, "- `%s`: %s%s%s", output->id, output->title, *unit ? ", " : "", unit);
  if (output->kind == PIN_OUTPUT_GATE)
    g_string_append (text, ": met, not met or not known");
  if (output->kind == PIN_OUTPUT_TABLE)
    {
      g_string_append (text, ", a table of");
      for (const PinColumn *column = output->columns; column->id != NULL; column++)
        {
          const char *symbol = column->unit != NULL ? pin_unit_find (column->unit)->symbol : "";

          g_string_append_printf (text, "%s %s%s%s%s", column == output->columns ? "" : ",", column->title,
                                  *symbol ? " (" : "", symbol, *symbol ? ")" : "");
        }
    }
  g_string_append_c (text, '\n');
}

static void
add_sum (GString *text, const PinSum *sum)
{
  g_string_append_printf (text, "\n### %s\n\n`hingepin reckon %s`. %s\n\n", sum->title, sum->id, sum->about);
  g_string_append (text, "| name | what | range | unless given | |\n|---|---|---|---|---|\n");
  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    add_input (text, input);
  g_string_append (text, "\nComes out:\n\n");
  for (const PinOutput *output = sum->outputs; output->id != NULL; output++)
    add_output (text, output);
  g_string_append (text, "\nWorked out:\n\n");
  for (int i = 0; sum->formulas[i] != NULL; i++)
    g_string_append_printf (text, "    %s\n", sum->formulas[i]);
  g_string_append_printf (text, "\nSource: %s\n\nHolds: %s\n", sum->source, sum->validity);
  if (sum->hazard != NULL)
    g_string_append_printf (text, "\n**%s**\n", sum->hazard);
}

char *
pin_sums_reference (void)
{
  GString *text = g_string_new (head);
  const char *group = "";

  for (const PinSum *const *sum = pin_sums (); *sum != NULL; sum++)
    {
      if (strcmp (group, (*sum)->group) != 0)
        g_string_append_printf (text, "\n## %s\n", (*sum)->group);
      group = (*sum)->group;
      add_sum (text, *sum);
    }
  return g_string_free (text, FALSE);
}
