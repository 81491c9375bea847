/* The figures: a registry, and one file for each that draws it from the shop by way
 * of src/judge and src/physics. A new figure is a file here, a line below, one in
 * registry.c and one in docs/formats.md. */
#ifndef FIGURES_FIGURES_H
#define FIGURES_FIGURES_H

#include "doc/canvas.h"
#include "shop/shop.h"

/* What is asked for: which shop, where in a page. */
struct figure_ask {
    struct arena *arena;
    struct diags *diags;
    const struct shop *shop;
    const struct text_meter *meter;
    struct place at;
};

/* Without limits on file some figures have nothing to draw. */
enum figure_needs { NEEDS_NOTHING, NEEDS_LIMITS };

struct figure_kind {
    const char *name, *title;
    double height; /* points */
    enum figure_needs needs;
    void (*draw)(const struct figure_ask *ask, struct canvas *canvas);
    const char *caption, *description; /* unless the figure writes its own */
};

/* Every kind in turn from 0 on; NULL at the end. */
const struct figure_kind *figures_at(size_t index);

/* The kind of that name. An unknown name is a fault; then NULL. */
const struct figure_kind *figures_find(const char *name, const struct figure_ask *ask);

/* Draws the figure of that name. An unknown name is a fault; then NULL. */
struct figure *figures_make(const char *name, const struct figure_ask *ask);

/* The figures. */
void draw_set_up(const struct figure_ask *ask, struct canvas *canvas);
void draw_drum_section(const struct figure_ask *ask, struct canvas *canvas);
void draw_winding(const struct figure_ask *ask, struct canvas *canvas);
void draw_force_time(const struct figure_ask *ask, struct canvas *canvas);
void draw_window_line(const struct figure_ask *ask, struct canvas *canvas);
void draw_speed_bands(const struct figure_ask *ask, struct canvas *canvas);
void draw_bearings(const struct figure_ask *ask, struct canvas *canvas);
void draw_release_peg(const struct figure_ask *ask, struct canvas *canvas);
void draw_drum_error(const struct figure_ask *ask, struct canvas *canvas);
void draw_drum_drawing(const struct figure_ask *ask, struct canvas *canvas);
void draw_nut_rim(const struct figure_ask *ask, struct canvas *canvas);
void draw_where_to_feel(const struct figure_ask *ask, struct canvas *canvas);
void draw_run_in(const struct figure_ask *ask, struct canvas *canvas);
void draw_gauge_residuals(const struct figure_ask *ask, struct canvas *canvas);
void draw_nut_drag(const struct figure_ask *ask, struct canvas *canvas);
void draw_years_of_drag(const struct figure_ask *ask, struct canvas *canvas);
void draw_decision(const struct figure_ask *ask, struct canvas *canvas);

#endif
