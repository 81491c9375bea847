/* The series that closed each job of the log, over the years, against the limits. */
#include "figures/drag_plot.h"
#include "number/show.h"
#include "shop/date.h"
#include "verdict/closing.h"

#include <math.h>

static const struct axes box = {.left = 34, .top = 38, .right = 252, .bottom = 150};

static const char wanted[] =
    "No series of the log closes a job yet. Write the locked series, the usual way round, into "
    "readings.csv, and draw this again.";

struct plot {
    struct drag_plot drags;
    const struct pull_series *first, *last; /* that close a job; NULL: none */
    size_t count;
};

static const struct pull_series *next_closing(const struct shop *shop,
                                              const struct pull_series *series)
{
    const struct pull_series_log *log = &shop->readings;
    for (; log->count && series < log->items + log->count; series++)
        if (closes_job(shop, series))
            return series;
    return NULL;
}

/* From the January before the first to the one after the last. */
static void set_axes(struct plot *plot, const struct shop *shop)
{
    const struct pull_series *at = next_closing(shop, shop->readings.items);
    plot->first = at;
    for (; at; at = next_closing(shop, at + 1)) {
        struct judgement judgement = judge_series(shop, at);
        drag_plot_reach(&plot->drags, judgement.drag, judgement.uncertainty.expanded);
        plot->last = at;
        plot->count++;
    }
    if (plot->first) {
        plot->drags.axes.x_from = (double)date_year_days(date_year(plot->first->date));
        plot->drags.axes.x_to = (double)date_year_days(date_year(plot->last->date) + 1);
    }
    drag_plot_close(&plot->drags);
}

/* Below the axis each year stands between its Januaries, where there is room for it. */
static void draw_years(const struct plot *plot)
{
    const struct axes *axes = &plot->drags.axes;
    struct canvas *c = plot->drags.canvas;
    int from = date_year(plot->first->date), to = date_year(plot->last->date) + 1;
    double taken = 0;
    for (int year = from; year <= to; year++) {
        double x = axes_x(axes, (double)date_year_days(year));
        double next = axes_x(axes, (double)date_year_days(year + 1));
        axes_tick(c, axes, x);
        if (year < to)
            axes_text_apart(c, axes, (x + next) / 2,
                            arena_format(plot->drags.ask->arena, "%d", year), &taken);
    }
}

static void draw_series(const struct plot *plot)
{
    const struct shop *shop = plot->drags.ask->shop;
    struct canvas *c = plot->drags.canvas;
    for (const struct pull_series *at = plot->first; at; at = next_closing(shop, at + 1)) {
        struct judgement judgement = judge_series(shop, at);
        double x = axes_x(&plot->drags.axes, (double)date_days(at->date));
        drag_plot_mark(c, x, drag_plot_y(&plot->drags, judgement.drag), at->lock);
        drag_plot_bar(&plot->drags, x, &judgement);
    }
}

static const char *drag_words(const struct plot *plot, const struct pull_series *series)
{
    struct judgement judgement = judge_series(plot->drags.ask->shop, series);
    double drag = unit_from_base(judgement.drag, plot->drags.unit);
    return arena_format(plot->drags.ask->arena, "%s\u00a0%s on %s, %s",
                        show_places(drag, judgement.sureness.places).text,
                        plot->drags.unit->shown, series->date, state_words(judgement.state));
}

static const char *last_words(const struct plot *plot)
{
    if (plot->count == 1)
        return "One is no trend: measure again in a year, the same way";
    return arena_format(plot->drags.ask->arena, "The last: %s", drag_words(plot, plot->last));
}

static void describe(const struct plot *plot)
{
    struct arena *arena = plot->drags.ask->arena;
    canvas_bold(plot->drags.canvas, 7, 10.6, ALIGN_LEFT, last_words(plot));
    plot->drags.canvas->figure->caption = arena_format(
        arena,
        "The series that closed each job of the log, with its U, %s: the last one the usual "
        "way round and locked, before the log rests for %d days. %s",
        shop_warmth_word(plot->drags.ask->shop), CLOSING_REST_DAYS,
        drag_plot_window_words(&plot->drags));
    plot->drags.canvas->figure->description = arena_format(
        arena, "A plot of drag over the years, with the limits. First %s; last %s.",
        drag_words(plot, plot->first), drag_words(plot, plot->last));
}

void draw_years_of_drag(const struct figure_ask *ask, struct canvas *canvas)
{
    struct plot plot = {.drags = drag_plot_new(ask, canvas, box)};
    struct drag_plot *drags = &plot.drags;
    set_axes(&plot, ask->shop);
    if (plot.first)
        drag_plot_limits(drags);
    axes_draw(canvas, &drags->axes, plot.first ? "" : "year",
              axes_name(canvas, "drag", drags->unit->shown));
    if (!plot.first) {
        axes_empty(canvas, &drags->axes, wanted,
                   "The drag over the years, once the log tells it.");
        return;
    }
    axes_ticks_y(canvas, &drags->axes, axes_step(drags->axes.y_to - drags->axes.y_from, 6));
    draw_years(&plot);
    draw_series(&plot);
    describe(&plot);
}
