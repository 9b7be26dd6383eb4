#pragma once

#include "service/inventory.h"
#include "service/vehicle-view.h"
#include "window/desk.h"

/* What is chosen on the page of a vehicle; the page owns it all. */
typedef struct
{
  PinDesk *desk;
  const PinVehicleView *view;
  GPtrArray *slots;           /* PinSlot*, borrowed from the view's car */
  const PinPartShelf *shelf;      /* NULL until it has been read */
} PinChoice;
