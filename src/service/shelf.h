#pragma once

#include "service/part-shelf.h"

/* The former names of service/part-shelf.h. */
#define PinShelf      PinPartShelf
#define pin_shelf_load pin_part_shelf_load
#define pin_shelf_free pin_part_shelf_free
#define pin_shelf_part pin_part_shelf_part
#define pin_shelf_of   pin_part_shelf_of
