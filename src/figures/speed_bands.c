/* The maker's limits against turning speed, the shop's own band marked. */
#include "figures/axes.h"
#include "figures/figures.h"
#include "shop/words.h"

#include <math.h>

struct plot {
    const struct figure_ask *ask;
    struct canvas *canvas;
    struct axes axes;
    const struct unit *unit; /* of the first band's limits */
};

static double in_unit(const struct plot *plot, const struct measure *limit)
{
    return quantity_in(&limit->q, plot->unit);
}

static void set_axes(struct plot *plot)
{
    const struct limits *limits = &plot->ask->shop->limits;
    double most = 0, last = limits->bands[limits->band_count - 1].to.q.base;
    for (size_t i = 0; i < limits->band_count; i++)
        most = fmax(most, in_unit(plot, &limits->bands[i].high));
    if (given(&limits->never_exceed) && in_unit(plot, &limits->never_exceed) < 2 * most)
        most = in_unit(plot, &limits->never_exceed);
    plot->axes = (struct axes){.left = 30,
                               .top = 26,
                               .right = 296,
                               .bottom = 150,
                               .x_to = last,
                               .y_to = 1.06 * most,
                               .numbered = true};
}

/* "0.65 to 1.00", as the manual has them. */
static const char *limits_text(const struct plot *plot, const struct band *band)
{
    return arena_format(plot->ask->arena, "%s–%s", band->low.q.digits, band->high.q.digits);
}

static void draw_band(struct plot *plot, const struct band *band, bool own)
{
    struct canvas *c = plot->canvas;
    double left = axes_x(&plot->axes, band->from.q.base);
    double right = axes_x(&plot->axes, band->to.q.base);
    double top = axes_y(&plot->axes, in_unit(plot, &band->high));
    double bottom = axes_y(&plot->axes, in_unit(plot, &band->low));
    const char *text = limits_text(plot, band);
    canvas_box(c, left, top, right - left, bottom - top, own ? &ink_section : &ink_thin);
    if (canvas_width(c, false, text) + 6 < right - left && bottom - top > 12)
        canvas_sign(c, (left + right) / 2, (top + bottom) / 2 + FIGURE_DROP, ALIGN_MIDDLE,
                    text);
}

/* An edge belongs to the stricter of its two bands: a full dot there, a ring here. */
static void draw_edge(struct plot *plot, const struct band *band, double speed)
{
    double x = axes_x(&plot->axes, speed);
    bool holds = shop_band_at(plot->ask->shop, speed) == band;
    const struct measure *limits[] = {&band->low, &band->high};
    for (int i = 0; i < 2; i++) {
        double y = axes_y(&plot->axes, in_unit(plot, limits[i]));
        canvas_circle(plot->canvas, x, y, 2, holds ? &ink_solid : &ink_sheet);
    }
}

static void draw_bands(struct plot *plot)
{
    const struct shop *shop = plot->ask->shop;
    const struct limits *limits = &shop->limits;
    for (size_t i = 0; i < limits->band_count; i++)
        draw_band(plot, &limits->bands[i], &limits->bands[i] == shop_own_band(shop));
    for (size_t i = 0; i + 1 < limits->band_count; i++) {
        draw_edge(plot, &limits->bands[i], limits->bands[i].to.q.base);
        draw_edge(plot, &limits->bands[i + 1], limits->bands[i].to.q.base);
    }
}

static void name_edge(struct plot *plot, const char *digits, double speed, double *taken)
{
    double x = axes_x(&plot->axes, speed);
    axes_tick(plot->canvas, &plot->axes, x);
    axes_text_apart(plot->canvas, &plot->axes, x, digits, taken);
}

static void name_edges(struct plot *plot)
{
    const struct limits *limits = &plot->ask->shop->limits;
    double taken = 0;
    name_edge(plot, limits->bands[0].from.q.digits, limits->bands[0].from.q.base, &taken);
    for (size_t i = 0; i < limits->band_count; i++)
        name_edge(plot, limits->bands[i].to.q.digits, limits->bands[i].to.q.base, &taken);
}

static void draw_never(struct plot *plot)
{
    const struct measure *never = &plot->ask->shop->limits.never_exceed;
    if (!given(never) || in_unit(plot, never) > plot->axes.y_to)
        return;
    double y = axes_y(&plot->axes, in_unit(plot, never));
    axes_across(plot->canvas, &plot->axes, y, &ink_hidden);
    canvas_sign(plot->canvas, plot->axes.right - 4, y + FIGURE_DROP, ALIGN_RIGHT,
                arena_format(plot->ask->arena, "never exceed %s", never->q.digits));
}

/* The top speed, from its band down to the scale. */
static void draw_top_speed(struct plot *plot)
{
    const struct shop *shop = plot->ask->shop;
    double x = axes_x(&plot->axes, shop->lathe.top_speed.q.base);
    double y = axes_y(&plot->axes, in_unit(plot, &shop_own_band(shop)->low));
    const char *text = arena_format(plot->ask->arena, "your top speed, %s",
                                    quantity_text(plot->ask->arena, &shop->lathe.top_speed.q));
    double left = x - 8 - canvas_width(plot->canvas, false, text);
    canvas_line(plot->canvas, x, y, x, plot->axes.bottom, &ink_centre);
    if (left < plot->axes.left + 4)
        canvas_sign(plot->canvas, x + 8, plot->axes.bottom - 8, ALIGN_LEFT, text);
    else
        canvas_sign(plot->canvas, x - 8, plot->axes.bottom - 8, ALIGN_RIGHT, text);
}

static void describe(const struct plot *plot)
{
    const struct band *own = shop_own_band(plot->ask->shop);
    struct arena *arena = plot->ask->arena;
    plot->canvas->figure->caption =
        arena_format(arena,
                     "Drag limits against the top speed of the spindle. Your band, %s, is "
                     "hatched. A speed on an edge has the limits with the full dots, those of "
                     "the stricter band.",
                     band_text(arena, own));
    plot->canvas->figure->description = arena_format(
        arena,
        "A plot of drag in %s over turning speed. Each speed band is a box from "
        "its low to its high limit; faster bands lie lower. The own band, %s, "
        "from %s to %s, is hatched.",
        plot->unit->shown, band_text(arena, own), own->low.q.digits, own->high.q.digits);
}

void draw_speed_bands(const struct figure_ask *ask, struct canvas *canvas)
{
    struct plot plot = {
        .ask = ask, .canvas = canvas, .unit = ask->shop->limits.bands[0].high.q.unit};
    set_axes(&plot);
    axes_draw(canvas, &plot.axes, "top speed / r/min",
              axes_name(canvas, "drag", plot.unit->shown));
    axes_ticks_y(canvas, &plot.axes, axes_step(plot.axes.y_to, 6));
    draw_never(&plot);
    draw_bands(&plot);
    name_edges(&plot);
    draw_top_speed(&plot);
    describe(&plot);
}
