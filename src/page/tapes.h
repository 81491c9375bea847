/* Strips to cut out, divided where the sheet ends. */
#ifndef PAGE_TAPES_H
#define PAGE_TAPES_H

#include "page/aids.h"
#include "page/drawing.h"

#define TAPE_HEIGHT 45.0 /* points: 16 mm */
#define TAPE_PITCH  70.0 /* from one piece to the next below it */

/* Draws the pieces below each other from y on. Gives the y below the last. */
double tape_draw(struct drawing *drawing, const struct tape *tape, struct area area, double y);

#endif
