#pragma once

const char *pin_library_data_dir (void);
