/* A plot of one thing against another: its scales, ticks and names, alike in all figures that
 * plot. Values are handed in base units and stand in the unit of their axis. */
#ifndef FIGURES_PLOT_H
#define FIGURES_PLOT_H

#include "doc/canvas.h"
#include "number/unit.h"

/* Made with its box on a canvas; who plots sets scales and units. */
struct plot {
    struct canvas *canvas;
    double left, top, right, bottom;    /* the box of the plot, points */
    double x_from, x_to, y_from, y_to;  /* what its edges stand for, in the units */
    const struct unit *x_unit, *y_unit; /* NULL: values are numbers already */
    bool numbered; /* numbers stand below the x axis, its name below them */
};

/* Where a value stands, in points. */
double plot_x(const struct plot *plot, double value);
double plot_y(const struct plot *plot, double value);

/* The canvas's path, by values. */
void plot_to(const struct plot *plot, double x, double y);
void plot_curve(const struct plot *plot, double x1, double y1, double x2, double y2, double x,
                double y);
void plot_line(const struct plot *plot, double x1, double y1, double x2, double y2,
               const struct ink *ink);

/* Two arrows from the lower left corner, with their names at their ends. */
void plot_axes(const struct plot *plot, const char *x_name, const char *y_name);

/* "drag / N·m": the name of an axis, owned by the arena; unit: NULL for none. */
const char *axis_name(struct arena *arena, const char *quantity, const char *unit);

/* 1, 2 or 5 times a power of ten, so that `span` holds at most `most` of them. */
double axis_step(double span, int most);

/* A number of a scale with such steps, owned by the arena. */
const char *axis_number(struct arena *arena, double value, double step);

/* Ticks with their numbers along an axis, at most so many steps. */
void plot_ticks_x(const struct plot *plot, int most);
void plot_ticks_y(const struct plot *plot, int most);

/* One tick below the x axis, and a text below that, or left of the y axis; x, y: in points. */
void plot_tick(const struct plot *plot, double x);
void plot_text_below(const struct plot *plot, double x, const char *text);
void plot_text_left(const struct plot *plot, double y, const char *text);

/* A text below the x axis where it does not meet the one before it; *reached: how far to the
 * right texts reach, 0 to begin. */
void plot_text_apart(const struct plot *plot, double x, const char *text, double *reached);

/* A line over the whole width of the plot; y: in points. */
void plot_across(const struct plot *plot, double y, const struct ink *ink);

/* A name right of the plot, so far off, beside the place y or as low as it may stand; gives
 * how low the next one above it may stand. */
double plot_name_right(const struct plot *plot, double off, double y, double lowest,
                       const char *name);

/* A name in the key, the first row of the figure, from x on; gives where it ends. */
double plot_key(const struct plot *plot, double x, const char *name);
enum { KEY_MIDDLE = 8 }; /* y of its marks */

/* A plot without points: its axes, in its middle words that say what is wanted; and the
 * figure's caption. */
void plot_empty(const struct plot *plot, const char *x_name, const char *y_name,
                const char *wanted, const char *caption);

#endif
