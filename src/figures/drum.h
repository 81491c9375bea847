/* A drum to make, drawn to a scale: section and view from the nose end, with dimensions. */
#ifndef FIGURES_DRUM_H
#define FIGURES_DRUM_H

#include "figures/figures.h"

/* Draws it on the canvas, no wider and no taller than this in points, at the largest of
 * the usual scales that fits, and sets the figure's size, caption and description. The
 * figure is `to_scale` at 1:1. It is FIGURE_WIDTH wide at least. */
void drum_drawing_put(const struct figure_ask *ask, struct canvas *canvas, double width,
                      double height);

#endif
