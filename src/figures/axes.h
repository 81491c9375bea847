/* Axes of a figure that plots one thing against another. */
#ifndef FIGURES_AXES_H
#define FIGURES_AXES_H

#include "tree/canvas.h"

/* The plot's box in points, and what its edges stand for. */
struct axes {
    double left, top, right, bottom;
    double x_from, x_to, y_from, y_to;
    bool numbered; /* numbers stand below the x axis, its name below them */
};

double axes_x(const struct axes *axes, double value);
double axes_y(const struct axes *axes, double value);

/* Two arrows from the lower left corner, with their names at their ends. */
void axes_draw(struct canvas *canvas, const struct axes *axes, const char *x_name,
               const char *y_name);

/* 1, 2 or 5 times a power of ten, so that `span` holds at most `most` of them. */
double axes_step(double span, int most);

/* A number of a scale with such steps, owned by the canvas's arena. */
const char *axes_number(struct canvas *canvas, double value, double step);

/* Ticks with their numbers along an axis; step: as axes_step() gives. */
void axes_ticks_x(struct canvas *canvas, const struct axes *axes, double step);
void axes_ticks_y(struct canvas *canvas, const struct axes *axes, double step);

/* Words in the middle of an empty plot: what is wanted. */
void axes_wanted(struct canvas *canvas, const struct axes *box, const char *words);

#endif
