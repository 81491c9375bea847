/* The pull window of the shop's own band on the gauge's scale: the limits, what U leaves
 * of them, and the five states. */
#include "figures/axes.h"
#include "figures/figures.h"
#include "shop/words.h"
#include "verdict/guard.h"
#include "verdict/state.h"

#include <math.h>

static const struct axes plot = {.left = 8, .top = 66, .right = 268, .bottom = 92};

struct line {
    const struct figure_ask *ask;
    struct canvas *canvas;
    struct axes axes;
    const struct unit *unit; /* of the gauge */
    struct guarded_window window;
    double edges[6]; /* of the five zones from left to right, in newtons */
    enum state states[5];
};

/* Where the mean begins to be clearly low, good, ...: limit and U, as pulls. Where both
 * limits lie within U, the middle zone is the undecided one. */
static void find_zones(struct line *line)
{
    static const enum state in_order[] = {STATE_CLEARLY_LOW, STATE_LOW_IN_DOUBT, STATE_GOOD,
                                          STATE_HIGH_IN_DOUBT, STATE_CLEARLY_HIGH};
    const struct guarded_window *w = &line->window;
    /* U as pulls: the guard bands of ISO 14253-1 */
    double low_guard = w->low - w->plain.low, high_guard = w->plain.high - w->high;
    double beyond = fmax(1.6 * fmax(low_guard, high_guard), (w->plain.high - w->plain.low) / 5);
    double *edges = line->edges;
    edges[0] = w->plain.low - low_guard - beyond;
    edges[1] = w->plain.low - low_guard;
    edges[2] = fmin(w->low, w->high);
    edges[3] = fmax(w->low, w->high);
    edges[4] = w->plain.high + high_guard;
    edges[5] = edges[4] + beyond;
    for (int i = 0; i < 6; i++) /* no pull is below zero, however large U */
        edges[i] = fmax(edges[i], i ? edges[i - 1] : 0);
    for (int i = 0; i < 5; i++)
        line->states[i] = in_order[i];
    if (w->low > w->high)
        line->states[2] = STATE_UNDECIDED;
    line->axes = plot;
    line->axes.x_from = unit_from_base(edges[0], line->unit);
    line->axes.x_to = unit_from_base(edges[5], line->unit);
}

static double x_of(const struct line *line, double pull)
{
    return axes_x(&line->axes, unit_from_base(pull, line->unit));
}

/* Clear states are hatched one way, doubtful ones the other, the good one is blank. */
static void draw_zones(struct line *line)
{
    static const struct ink *const inks[] = {&ink_hatch, &ink_hatch_back, NULL, &ink_hatch_back,
                                             &ink_hatch};
    for (int i = 0; i < 5; i++) {
        double left = x_of(line, line->edges[i]), right = x_of(line, line->edges[i + 1]);
        if (inks[i] && left < right)
            canvas_box(line->canvas, left, plot.top, right - left, plot.bottom - plot.top,
                       inks[i]);
        if (i > 0)
            canvas_line(line->canvas, left, plot.top, left, plot.bottom, &ink_thin);
    }
    double left = x_of(line, line->edges[2]), right = x_of(line, line->edges[3]);
    canvas_box(line->canvas, left, plot.top, right - left, plot.bottom - plot.top, &ink_thick);
}

/* Above: the states in columns of their own, each led to its zone. */
static void name_states(struct line *line)
{
    for (int i = 0; i < 5; i++) {
        if (line->edges[i] == line->edges[i + 1])
            continue;
        double x = 29 + 53.5 * i;
        double zone = (x_of(line, line->edges[i]) + x_of(line, line->edges[i + 1])) / 2;
        const char *words =
            line->states[i] == STATE_UNDECIDED ? "cannot decide" : state_words(line->states[i]);
        canvas_text(line->canvas, x, 12, ALIGN_MIDDLE, state_shape(line->states[i]));
        double last = canvas_words(line->canvas, x, 24, 48, ALIGN_MIDDLE, words);
        canvas_leader(line->canvas, x, last + 4, zone, plot.top + 6);
    }
}

/* Below: a number with its name, led to its place on the scale. */
static void name_pull(struct line *line, int column, const char *name, const char *number,
                      double x)
{
    double middle = 25 + 53 * column, y = 144, knee = 120;
    canvas_text(line->canvas, middle, y, ALIGN_MIDDLE, name);
    canvas_bold(line->canvas, middle, y + 11, ALIGN_MIDDLE, number);
    if (isfinite(x)) {
        canvas_line(line->canvas, x, plot.top - 4, x, knee, &ink_thin);
        canvas_line(line->canvas, x, knee, middle, y - 9, &ink_thin);
    }
}

static const char *steps(const struct line *line, int64_t count)
{
    const struct decimal *step = &line->ask->shop->gauge.step.q.typed;
    return arena_text(line->ask->arena, show_steps(count, step).text);
}

static double pull_of_steps(const struct line *line, int64_t count)
{
    return (double)count * line->ask->shop->gauge.step.q.base;
}

/* An end of the good part, or of the whole window; "none" where that is closed. */
static void name_step(struct line *line, int column, const char *name, bool closed,
                      int64_t count)
{
    name_pull(line, column, name, closed ? "none" : steps(line, count),
              closed ? NAN : x_of(line, pull_of_steps(line, count)));
}

static void name_pulls(struct line *line)
{
    const struct guarded_window *w = &line->window;
    name_step(line, 0, "low pull", w->plain.closed, w->plain.low_steps);
    name_step(line, 1, "good from", w->closed, w->low_steps);
    name_step(line, 2, "aim", w->plain.closed, w->plain.aim_steps);
    name_step(line, 3, "good to", w->closed, w->high_steps);
    name_step(line, 4, "high pull", w->plain.closed, w->plain.high_steps);
}

/* It may lie far off: behind a break of the scale. */
static void name_never(struct line *line)
{
    const double x = 290, y = plot.bottom;
    struct canvas *c = line->canvas;
    if (!given(&line->ask->shop->limits.never_exceed))
        return;
    canvas_line(c, 270, y + 4, 274, y - 4, &ink_thin);
    canvas_line(c, 274, y + 4, 278, y - 4, &ink_thin);
    canvas_line(c, 276, y, 312, y, &ink_thick);
    canvas_line(c, x, plot.top - 4, x, y, &ink_thick);
    canvas_box(c, x, plot.top, 22, y - plot.top, &ink_hatch);
    name_pull(line, 5, "never exceed", steps(line, line->window.plain.never_steps), x);
}

static void describe(const struct line *line)
{
    struct arena *arena = line->ask->arena;
    const struct guarded_window *w = &line->window;
    const char *unit = line->unit->shown;
    const struct band *band = shop_own_band(line->ask->shop);
    line->canvas->figure->caption = arena_format(
        arena,
        "Your band, %s: what the mean of your pulls says, on the scale of your gauge in %s. "
        "Between a limit and the good part lies U, the doubt that gauge, drum and pulls leave.",
        band_text(arena, band), unit);
    const char *good =
        w->closed ? "no pull is good with U off"
                  : arena_format(arena, "good with U off from %s to %s %s",
                                 steps(line, w->low_steps), steps(line, w->high_steps), unit);
    line->canvas->figure->description =
        w->plain.closed
            ? "A scale of pulls. No step of this gauge lies between the limits."
            : arena_format(
                  arena,
                  "A scale of pulls in %s. Low pull %s, high pull %s, aim %s; %s. From "
                  "left to right: clearly low, low or in doubt, good, high or in "
                  "doubt, clearly high.",
                  unit, steps(line, w->plain.low_steps), steps(line, w->plain.high_steps),
                  steps(line, w->plain.aim_steps), good);
}

void draw_window_line(const struct figure_ask *ask, struct canvas *canvas)
{
    struct rig rig = shop_rig(ask->shop);
    struct line line = {.ask = ask, .canvas = canvas, .unit = ask->shop->gauge.step.q.unit};
    line.window = guarded_window_on(ask->shop, shop_own_band(ask->shop), &rig);
    find_zones(&line);
    draw_zones(&line);
    name_states(&line);
    name_pulls(&line);
    name_never(&line);
    canvas_line(canvas, plot.left, plot.bottom, plot.right, plot.bottom, &ink_thick);
    axes_ticks_x(canvas, &line.axes, axes_step(line.axes.x_to - line.axes.x_from, 8));
    canvas_text(canvas, 312, plot.bottom + 11, ALIGN_RIGHT, line.unit->shown);
    describe(&line);
}
