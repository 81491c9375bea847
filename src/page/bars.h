/* Bars of known length, to find out whether the printer kept the scale. */
#ifndef PAGE_BARS_H
#define PAGE_BARS_H

#include "page/drawing.h"

enum bar_unit { BAR_MM, BAR_INCH }; /* 100 mm, 4 in */
enum bar_way { BAR_ACROSS, BAR_DOWN };

/* How long the bar itself is. */
double bar_length(enum bar_unit unit);

/* Draws the bar from (x, y) on, to the right or downward, with its ends named and a
 * box for what was measured. It takes BAR_ABOVE over it and BAR_BELOW under it when
 * it lies, and its length plus BAR_BESIDE to the right; when it stands, its length
 * and BAR_STANDING to the right. */
void bar_draw(struct drawing *drawing, double x, double y, enum bar_unit unit,
              enum bar_way way);

#define BAR_ABOVE    12.0
#define BAR_BELOW    9.0
#define BAR_BESIDE   122.0
#define BAR_STANDING 46.0

#endif
