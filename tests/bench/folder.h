#pragma once

/* A folder on a disk, beside the build: what is timed has to reach one. */
char *bench_folder_new  (void);
/* With the files in it; not the string. */
void  bench_folder_free (const char *folder);
