/* Axes of a figure that plots one thing against another: scales, ticks, and what stands beside
 * them. What is drawn here is drawn alike in all plots. */
#ifndef FIGURES_PLOT_H
#define FIGURES_PLOT_H

#include "doc/canvas.h"
#include "figures/figures.h"
#include "judge/series.h"

/* The plot's box in points, and what its edges stand for. */
struct axes {
    double left, top, right, bottom;
    double x_from, x_to, y_from, y_to;
    bool numbered; /* numbers stand below the x axis, its name below them */
};

/* Where a value stands, in points. */
double axes_x(const struct axes *axes, double value);
double axes_y(const struct axes *axes, double value);

/* Two arrows from the lower left corner, with their names at their ends. */
void axes_draw(struct canvas *canvas, const struct axes *axes, const char *x_name,
               const char *y_name);

/* "drag / N·m": the name of an axis, owned by the canvas's arena; unit: NULL for none. */
const char *axes_name(struct canvas *canvas, const char *quantity, const char *unit);

/* 1, 2 or 5 times a power of ten, so that `span` holds at most `most` of them. */
double axes_step(double span, int most);

/* A number of a scale with such steps, owned by the canvas's arena. */
const char *axes_number(struct canvas *canvas, double value, double step);

/* Ticks with their numbers along an axis; step: as axes_step() gives. */
void axes_ticks_x(struct canvas *canvas, const struct axes *axes, double step);
void axes_ticks_y(struct canvas *canvas, const struct axes *axes, double step);

/* One tick below the x axis, and a text below that, or left of the y axis; x, y: in points. */
void axes_tick(struct canvas *canvas, const struct axes *axes, double x);
void axes_text_below(struct canvas *canvas, const struct axes *axes, double x,
                     const char *text);
void axes_text_left(struct canvas *canvas, const struct axes *axes, double y, const char *text);

/* A text below the x axis where it does not meet the one before it; taken: up to where texts
 * reach, 0 to begin. */
void axes_text_apart(struct canvas *canvas, const struct axes *axes, double x, const char *text,
                     double *taken);

/* A line over the whole width of the plot; y: in points. */
void axes_across(struct canvas *canvas, const struct axes *axes, double y,
                 const struct ink *ink);

/* A name right of the plot, so far off, beside the place y or as low as it may stand; gives
 * how low the next one above it may stand. */
double axes_name_right(struct canvas *canvas, const struct axes *axes, double off, double y,
                       double lowest, const char *name);

/* A plot without points: in its middle words that say what is wanted, and the caption. */
void axes_empty(struct canvas *canvas, const struct axes *axes, const char *wanted,
                const char *caption);

/* What the plots of logged drags share: the scale of drag with the limits of the lathe's
 * own band, and the marks for a judged series. */

struct drag_plot {
    const struct figure_ask *ask;
    struct canvas *canvas;
    struct axes axes;        /* y: drag in the unit */
    const struct band *band; /* NULL without limits on file; then these are NAN: */
    double low, aim, high;   /* limits as they are pulled, N.m */
    double never;            /* also NAN where it is not given */
    const struct unit *unit; /* in which drags are shown */
};

/* Axes for the shop's own band; y reaches from limit to limit. */
struct drag_plot drag_plot_new(const struct figure_ask *ask, struct canvas *canvas,
                               struct axes box);

/* Makes room on the y axis for a drag (N.m) with its U on both sides. */
void drag_plot_reach(struct drag_plot *plot, double drag, double expanded);

/* A sixth of blank above and below; to be called when all drags have been reached. */
void drag_plot_close(struct drag_plot *plot);

/* The hatched edges of the window, its aim, never-exceed where it is near, with their
 * names at the right; nothing without limits on file. */
void drag_plot_limits(struct drag_plot *plot);

/* A sentence for the caption: where the window lies. */
const char *drag_plot_window_words(const struct drag_plot *plot);
double drag_plot_y(const struct drag_plot *plot, double drag);

/* Marks: how a series was locked. */
void drag_plot_mark(struct canvas *canvas, double x, double y, enum lock lock);

/* An upright bar from drag - U to drag + U, with its ends. */
void drag_plot_bar(const struct drag_plot *plot, double x, const struct judgement *judgement);

#endif
