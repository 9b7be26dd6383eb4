#pragma once

void pin_language_start (void);
