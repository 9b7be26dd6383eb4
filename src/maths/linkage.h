#pragma once

#include <stdbool.h>

#include "maths/status.h"

/* Steering linkages.  Lengths m; angles rad, anticlockwise from above unless said
 * otherwise.  The plan's origin is the middle of the line through the kingpins:
 * x to the right, y ahead, z up from the plane of the balls. */

typedef struct
{
  double x, y, z;
} PinPlace;

/* An arm that turns about an upright pivot, with a ball at its end. */
typedef struct
{
  double x, y;                /* of the pivot */
  double length;
  double angle;               /* of the arm as it stands for straight wheels */
} PinArm;

/* Servo horn – drag link – first body; from there, without bellcranks, a tie rod
 * from the left knuckle (the first body) to the right one; with them, a tie rod
 * from each of two bellcranks that turn alike to its knuckle. */
typedef struct
{
  PinPlace servo;             /* centre of the horn */
  bool lying;                 /* the horn swings across the car instead of level */
  double horn, horn_angle;    /* at the neutral pulse: level: as other angles; lying: from +x towards +z */
  PinArm drag;                /* of the left knuckle or the left bellcrank, to the drag link's ball */
  bool bellcranks;
  double crank, crank_angle;  /* the left bellcrank's other arm */
  double half;                /* half the distance between the kingpins */
  double arm, arm_angle;      /* the left knuckle's, to the tie rod; the right one is its mirror image */
  double link, tie;           /* lengths of the rods */
} PinLinkage;

typedef struct
{
  double left, right;         /* of the wheels, towards the right */
  double dead;                /* least angle between a rod and its arm, 0 at a dead point */
} PinSteer;

PinMathsStatus pin_linkage_four_bar   (double            crank,
                                       double            coupler,
                                       double            rocker,
                                       double            ground,
                                       double            angle,
                                       bool              crossed,
                                       double           *coupler_angle,
                                       double           *rocker_angle);
PinMathsStatus pin_linkage_straighten (PinLinkage       *self,
                                       bool              with_link);
PinMathsStatus pin_linkage_steer      (const PinLinkage *self,
                                       double            turned,
                                       PinSteer         *steer);
PinMathsStatus pin_linkage_reach      (const PinLinkage *self,
                                       double            most,
                                       double           *reach);
PinMathsStatus pin_linkage_stop       (const PinLinkage *self,
                                       double            most,
                                       double            inner,
                                       double            outer,
                                       double           *turned);
PinMathsStatus pin_linkage_ideal_outer (double           inner,
                                        double           kingpins,
                                        double           wheelbase,
                                        double          *outer);
PinMathsStatus pin_linkage_radius     (double            inner,
                                       double            kingpins,
                                       double            wheelbase,
                                       double           *radius);
