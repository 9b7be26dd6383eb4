#pragma once

/* The sums as a page of the documentation, in Markdown: English, free with g_free(). */
char *pin_sums_reference (void);
