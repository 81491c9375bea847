/* The figures, drawn on the canvas from the shop by way of src/judge and src/physics; and the
 * registry of those that a page may ask for by name. */
#ifndef FIGURES_FIGURES_H
#define FIGURES_FIGURES_H

#include "doc/canvas.h"
#include "judge/results.h"

/* What is asked for: which shop, where in a page. */
struct figure_ask {
    struct arena *arena;
    struct diags *diags;
    const struct results *results;
    const struct text_meter *meter;
    struct place at;
    bool unseen; /* nothing that is made shows it: it is left blank */
};

/* Draws on a canvas of the height that its kind has. */
typedef void draw_figure(const struct results *results, struct canvas *canvas);

struct figure_kind {
    const char *name, *title;
    double height; /* points */
    draw_figure *draw;
    const char *caption, *description; /* unless the figure writes its own */
    bool of_limits;                    /* without limits on file it is a blank that says so */
};

/* Every kind in turn from 0 on; NULL at the end. */
const struct figure_kind *figures_at(size_t index);

/* The kind of that name. An unknown name is a fault; then NULL. */
const struct figure_kind *figures_find(const char *name, const struct figure_ask *ask);

/* Draws the figure of that name. An unknown name is a fault; then NULL. */
struct figure *figures_make(const char *name, const struct figure_ask *ask);

/* Squared paper for a pencil, as it was asked for, its texts filled in; squares in points.
 * Where it asks for the window, the limits of the lathe's own band are drawn in, as the
 * manual gives them. */
#define GRAPH_SQUARE (5 * MM)

struct figure *draw_blank_graph(struct arena *arena, const struct shop *shop,
                                const struct graph *graph, const struct text_meter *meter);

/* A drum to make, section and view from the nose end with dimensions: no wider and no taller
 * than this in points, at the largest of the usual scales that fits. Sets the figure's size,
 * caption and description. It is `to_scale` at 1:1, and FIGURE_WIDTH wide at least. */
void draw_drum_to_make(const struct shop *shop, struct canvas *canvas, double width,
                       double height);

/* The figures of the registry. */
draw_figure draw_set_up, draw_drum_section, draw_winding, draw_force_time, draw_window_line,
    draw_speed_bands, draw_bearings, draw_release_peg, draw_drum_error, draw_drum_drawing,
    draw_nut_rim, draw_where_to_feel, draw_run_in, draw_gauge_residuals, draw_nut_drag,
    draw_years_of_drag, draw_decision;

#endif
