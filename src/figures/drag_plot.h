/* What the plots of logged drags share: the scale of drag with the limits of the lathe's
 * own band, and the marks for a judged series. */
#ifndef FIGURES_DRAG_PLOT_H
#define FIGURES_DRAG_PLOT_H

#include "figures/axes.h"
#include "figures/figures.h"
#include "verdict/state.h"

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
