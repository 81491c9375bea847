/* The lift test: a bar in the nose, pulled up with F and then with 2 F, an indicator on
 * the nose. What gives by spring alone gives twice as much for twice the pull; clearance
 * is taken up by the first pull and is not there for the second. Own reasoning: of a
 * needle at k F + c and at 2 k F + c the clearance c is 2 first - second. */
#ifndef DRAG_LIFT_H
#define DRAG_LIFT_H

/* The clearance that two needle readings mean, in their unit; below zero where the
 * second pull moved the nose more than the first. Both: not below zero; else NaN. */
double lift_clearance(double first, double second);

/* How far that may be off, either way, where each reading is good to half a division:
 * one division for twice the first, half a one for the second. */
double lift_doubt(double division);

#endif
