/* The pull window of the shop's own band on the gauge's scale: the limits, what U leaves
 * of them, and the five states. */
#include "figures/figures.h"
#include "figures/plot.h"
#include "judge/series.h"
#include "judge/uncertainty.h"
#include "shop/shop.h"

#include <math.h>

static const struct axes plot = {.left = 8, .top = 66, .right = 268, .bottom = 92};

struct window_line {
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
static void find_zones(struct window_line *window_line)
{
    static const enum state in_order[] = {STATE_CLEARLY_LOW, STATE_LOW_IN_DOUBT, STATE_GOOD,
                                          STATE_HIGH_IN_DOUBT, STATE_CLEARLY_HIGH};
    const struct guarded_window *w = &window_line->window;
    /* U as pulls: the guard bands of ISO 14253-1 */
    double low_guard = w->low - w->plain.low, high_guard = w->plain.high - w->high;
    double beyond = fmax(1.6 * fmax(low_guard, high_guard), (w->plain.high - w->plain.low) / 5);
    double *edges = window_line->edges;
    edges[0] = w->plain.low - low_guard - beyond;
    edges[1] = w->plain.low - low_guard;
    edges[2] = fmin(w->low, w->high);
    edges[3] = fmax(w->low, w->high);
    edges[4] = w->plain.high + high_guard;
    edges[5] = edges[4] + beyond;
    for (int i = 0; i < 6; i++) /* no pull is below zero, however large U */
        edges[i] = fmax(edges[i], i ? edges[i - 1] : 0);
    for (int i = 0; i < 5; i++)
        window_line->states[i] = in_order[i];
    if (w->low > w->high)
        window_line->states[2] = STATE_UNDECIDED;
    window_line->axes = plot;
    window_line->axes.x_from = unit_from_base(edges[0], window_line->unit);
    window_line->axes.x_to = unit_from_base(edges[5], window_line->unit);
}

static double x_of(const struct window_line *window_line, double pull)
{
    return axes_x(&window_line->axes, unit_from_base(pull, window_line->unit));
}

/* Clear states are hatched one way, doubtful ones the other, the good one is blank. */
static void draw_zones(struct window_line *window_line)
{
    static const struct ink *const inks[] = {&ink_hatch, &ink_hatch_back, NULL, &ink_hatch_back,
                                             &ink_hatch};
    for (int i = 0; i < 5; i++) {
        double left = x_of(window_line, window_line->edges[i]),
               right = x_of(window_line, window_line->edges[i + 1]);
        if (inks[i] && left < right)
            canvas_box(window_line->canvas, left, plot.top, right - left,
                       plot.bottom - plot.top, inks[i]);
        if (i > 0)
            canvas_line(window_line->canvas, left, plot.top, left, plot.bottom, &ink_thin);
    }
    double left = x_of(window_line, window_line->edges[2]),
           right = x_of(window_line, window_line->edges[3]);
    canvas_box(window_line->canvas, left, plot.top, right - left, plot.bottom - plot.top,
               &ink_thick);
}

/* Above: the states in columns of their own, each led to its zone. */
static void name_states(struct window_line *window_line)
{
    for (int i = 0; i < 5; i++) {
        if (window_line->edges[i] == window_line->edges[i + 1])
            continue;
        double x = 29 + 53.5 * i;
        double zone = (x_of(window_line, window_line->edges[i]) +
                       x_of(window_line, window_line->edges[i + 1])) /
                      2;
        const char *words = window_line->states[i] == STATE_UNDECIDED
                                ? "cannot decide"
                                : state_words(window_line->states[i]);
        canvas_text(window_line->canvas, x, 12, ALIGN_MIDDLE,
                    state_shape(window_line->states[i]));
        double last = canvas_words(window_line->canvas, x, 24, 48, ALIGN_MIDDLE, words);
        canvas_leader(window_line->canvas, x, last + 4, zone, plot.top + 6);
    }
}

/* Below: a number with its name, led to its place on the scale. */
static void name_pull(struct window_line *window_line, int column, const char *name,
                      const char *number, double x)
{
    double middle = 25 + 53 * column, y = 144, knee = 120;
    canvas_text(window_line->canvas, middle, y, ALIGN_MIDDLE, name);
    canvas_bold(window_line->canvas, middle, y + 11, ALIGN_MIDDLE, number);
    if (isfinite(x)) {
        canvas_line(window_line->canvas, x, plot.top - 4, x, knee, &ink_thin);
        canvas_line(window_line->canvas, x, knee, middle, y - 9, &ink_thin);
    }
}

static const char *steps(const struct window_line *window_line, int64_t count)
{
    const struct decimal *step = &window_line->ask->shop->gauge.step.q.typed;
    return arena_text(window_line->ask->arena, show_steps(count, step).text);
}

static double pull_of_steps(const struct window_line *window_line, int64_t count)
{
    return (double)count * window_line->ask->shop->gauge.step.q.base;
}

/* An end of the good part, or of the whole window; "none" where that is closed. */
static void name_step(struct window_line *window_line, int column, const char *name,
                      bool closed, int64_t count)
{
    name_pull(window_line, column, name, closed ? "none" : steps(window_line, count),
              closed ? NAN : x_of(window_line, pull_of_steps(window_line, count)));
}

static void name_pulls(struct window_line *window_line)
{
    const struct guarded_window *w = &window_line->window;
    name_step(window_line, 0, "low pull", w->plain.closed, w->plain.low_steps);
    name_step(window_line, 1, "good from", w->closed, w->low_steps);
    name_step(window_line, 2, "aim", w->plain.closed, w->plain.aim_steps);
    name_step(window_line, 3, "good to", w->closed, w->high_steps);
    name_step(window_line, 4, "high pull", w->plain.closed, w->plain.high_steps);
}

/* It may lie far off: behind a break of the scale. */
static void name_never(struct window_line *window_line)
{
    const double x = 290, y = plot.bottom;
    struct canvas *c = window_line->canvas;
    if (!given(&window_line->ask->shop->limits.never_exceed))
        return;
    canvas_line(c, 270, y + 4, 274, y - 4, &ink_thin);
    canvas_line(c, 274, y + 4, 278, y - 4, &ink_thin);
    canvas_line(c, 276, y, 312, y, &ink_thick);
    canvas_line(c, x, plot.top - 4, x, y, &ink_thick);
    canvas_box(c, x, plot.top, 22, y - plot.top, &ink_hatch);
    name_pull(window_line, 5, "never exceed",
              steps(window_line, window_line->window.plain.never_steps), x);
}

static void describe(const struct window_line *window_line)
{
    struct arena *arena = window_line->ask->arena;
    const struct guarded_window *w = &window_line->window;
    const char *unit = window_line->unit->shown;
    const struct band *band = shop_own_band(window_line->ask->shop);
    window_line->canvas->figure->caption = arena_format(
        arena,
        "Your band, %s: what the mean of your pulls says, on the scale of your gauge in %s. "
        "Between a limit and the good part lies U, the doubt that gauge, drum and pulls leave.",
        band_text(arena, band), unit);
    const char *good = w->closed ? "no pull is good with U off"
                                 : arena_format(arena, "good with U off from %s to %s %s",
                                                steps(window_line, w->low_steps),
                                                steps(window_line, w->high_steps), unit);
    window_line->canvas->figure->description =
        w->plain.closed
            ? "A scale of pulls. No step of this gauge lies between the limits."
            : arena_format(
                  arena,
                  "A scale of pulls in %s. Low pull %s, high pull %s, aim %s; %s. From "
                  "left to right: clearly low, low or in doubt, good, high or in "
                  "doubt, clearly high.",
                  unit, steps(window_line, w->plain.low_steps),
                  steps(window_line, w->plain.high_steps),
                  steps(window_line, w->plain.aim_steps), good);
}

void draw_window_line(const struct figure_ask *ask, struct canvas *canvas)
{
    struct drum_setup setup = shop_drum_setup(ask->shop);
    struct window_line window_line = {
        .ask = ask, .canvas = canvas, .unit = ask->shop->gauge.step.q.unit};
    window_line.window = guarded_window_on(ask->shop, shop_own_band(ask->shop), &setup);
    find_zones(&window_line);
    draw_zones(&window_line);
    name_states(&window_line);
    name_pulls(&window_line);
    name_never(&window_line);
    canvas_line(canvas, plot.left, plot.bottom, plot.right, plot.bottom, &ink_thick);
    axes_ticks_x(canvas, &window_line.axes,
                 axes_step(window_line.axes.x_to - window_line.axes.x_from, 8));
    canvas_text(canvas, 312, plot.bottom + 11, ALIGN_RIGHT, window_line.unit->shown);
    describe(&window_line);
}

/* The maker's limits against turning speed, the shop's own band marked. */

struct speed_bands_plot {
    const struct figure_ask *ask;
    struct canvas *canvas;
    struct axes axes;
    const struct unit *unit; /* of the first band's limits */
};

static double in_unit(const struct speed_bands_plot *speed_bands_plot,
                      const struct measure *limit)
{
    return quantity_in(&limit->q, speed_bands_plot->unit);
}

static void set_axes(struct speed_bands_plot *speed_bands_plot)
{
    const struct limits *limits = &speed_bands_plot->ask->shop->limits;
    double most = 0, last = limits->bands[limits->band_count - 1].to.q.base;
    for (size_t i = 0; i < limits->band_count; i++)
        most = fmax(most, in_unit(speed_bands_plot, &limits->bands[i].high));
    if (given(&limits->never_exceed) &&
        in_unit(speed_bands_plot, &limits->never_exceed) < 2 * most)
        most = in_unit(speed_bands_plot, &limits->never_exceed);
    speed_bands_plot->axes = (struct axes){.left = 30,
                                           .top = 26,
                                           .right = 296,
                                           .bottom = 150,
                                           .x_to = last,
                                           .y_to = 1.06 * most,
                                           .numbered = true};
}

/* "0.65 to 1.00", as the manual has them. */
static const char *limits_text(const struct speed_bands_plot *speed_bands_plot,
                               const struct band *band)
{
    return arena_format(speed_bands_plot->ask->arena, "%s–%s", band->low.q.digits,
                        band->high.q.digits);
}

static void draw_band(struct speed_bands_plot *speed_bands_plot, const struct band *band,
                      bool own)
{
    struct canvas *c = speed_bands_plot->canvas;
    double left = axes_x(&speed_bands_plot->axes, band->from.q.base);
    double right = axes_x(&speed_bands_plot->axes, band->to.q.base);
    double top = axes_y(&speed_bands_plot->axes, in_unit(speed_bands_plot, &band->high));
    double bottom = axes_y(&speed_bands_plot->axes, in_unit(speed_bands_plot, &band->low));
    const char *text = limits_text(speed_bands_plot, band);
    canvas_box(c, left, top, right - left, bottom - top, own ? &ink_section : &ink_thin);
    if (canvas_width(c, false, text) + 6 < right - left && bottom - top > 12)
        canvas_sign(c, (left + right) / 2, (top + bottom) / 2 + FIGURE_DROP, ALIGN_MIDDLE,
                    text);
}

/* An edge belongs to the stricter of its two bands: a full dot there, a ring here. */
static void draw_edge(struct speed_bands_plot *speed_bands_plot, const struct band *band,
                      double speed)
{
    double x = axes_x(&speed_bands_plot->axes, speed);
    bool holds = shop_band_at(speed_bands_plot->ask->shop, speed) == band;
    const struct measure *limits[] = {&band->low, &band->high};
    for (int i = 0; i < 2; i++) {
        double y = axes_y(&speed_bands_plot->axes, in_unit(speed_bands_plot, limits[i]));
        canvas_circle(speed_bands_plot->canvas, x, y, 2, holds ? &ink_solid : &ink_sheet);
    }
}

static void draw_bands(struct speed_bands_plot *speed_bands_plot)
{
    const struct shop *shop = speed_bands_plot->ask->shop;
    const struct limits *limits = &shop->limits;
    for (size_t i = 0; i < limits->band_count; i++)
        draw_band(speed_bands_plot, &limits->bands[i],
                  &limits->bands[i] == shop_own_band(shop));
    for (size_t i = 0; i + 1 < limits->band_count; i++) {
        draw_edge(speed_bands_plot, &limits->bands[i], limits->bands[i].to.q.base);
        draw_edge(speed_bands_plot, &limits->bands[i + 1], limits->bands[i].to.q.base);
    }
}

static void name_edge(struct speed_bands_plot *speed_bands_plot, const char *digits,
                      double speed, double *taken)
{
    double x = axes_x(&speed_bands_plot->axes, speed);
    axes_tick(speed_bands_plot->canvas, &speed_bands_plot->axes, x);
    axes_text_apart(speed_bands_plot->canvas, &speed_bands_plot->axes, x, digits, taken);
}

static void name_edges(struct speed_bands_plot *speed_bands_plot)
{
    const struct limits *limits = &speed_bands_plot->ask->shop->limits;
    double taken = 0;
    name_edge(speed_bands_plot, limits->bands[0].from.q.digits, limits->bands[0].from.q.base,
              &taken);
    for (size_t i = 0; i < limits->band_count; i++)
        name_edge(speed_bands_plot, limits->bands[i].to.q.digits, limits->bands[i].to.q.base,
                  &taken);
}

static void draw_never(struct speed_bands_plot *speed_bands_plot)
{
    const struct measure *never = &speed_bands_plot->ask->shop->limits.never_exceed;
    if (!given(never) || in_unit(speed_bands_plot, never) > speed_bands_plot->axes.y_to)
        return;
    double y = axes_y(&speed_bands_plot->axes, in_unit(speed_bands_plot, never));
    axes_across(speed_bands_plot->canvas, &speed_bands_plot->axes, y, &ink_hidden);
    canvas_sign(speed_bands_plot->canvas, speed_bands_plot->axes.right - 4, y + FIGURE_DROP,
                ALIGN_RIGHT,
                arena_format(speed_bands_plot->ask->arena, "never exceed %s", never->q.digits));
}

/* The top speed, from its band down to the scale. */
static void draw_top_speed(struct speed_bands_plot *speed_bands_plot)
{
    const struct shop *shop = speed_bands_plot->ask->shop;
    double x = axes_x(&speed_bands_plot->axes, shop->lathe.top_speed.q.base);
    double y =
        axes_y(&speed_bands_plot->axes, in_unit(speed_bands_plot, &shop_own_band(shop)->low));
    const char *text =
        arena_format(speed_bands_plot->ask->arena, "your top speed, %s",
                     quantity_text(speed_bands_plot->ask->arena, &shop->lathe.top_speed.q));
    double left = x - 8 - canvas_width(speed_bands_plot->canvas, false, text);
    canvas_line(speed_bands_plot->canvas, x, y, x, speed_bands_plot->axes.bottom, &ink_centre);
    if (left < speed_bands_plot->axes.left + 4)
        canvas_sign(speed_bands_plot->canvas, x + 8, speed_bands_plot->axes.bottom - 8,
                    ALIGN_LEFT, text);
    else
        canvas_sign(speed_bands_plot->canvas, x - 8, speed_bands_plot->axes.bottom - 8,
                    ALIGN_RIGHT, text);
}

static void speed_bands_describe(const struct speed_bands_plot *speed_bands_plot)
{
    const struct band *own = shop_own_band(speed_bands_plot->ask->shop);
    struct arena *arena = speed_bands_plot->ask->arena;
    speed_bands_plot->canvas->figure->caption =
        arena_format(arena,
                     "Drag limits against the top speed of the spindle. Your band, %s, is "
                     "hatched. A speed on an edge has the limits with the full dots, those of "
                     "the stricter band.",
                     band_text(arena, own));
    speed_bands_plot->canvas->figure->description =
        arena_format(arena,
                     "A plot of drag in %s over turning speed. Each speed band is a box from "
                     "its low to its high limit; faster bands lie lower. The own band, %s, "
                     "from %s to %s, is hatched.",
                     speed_bands_plot->unit->shown, band_text(arena, own), own->low.q.digits,
                     own->high.q.digits);
}

void draw_speed_bands(const struct figure_ask *ask, struct canvas *canvas)
{
    struct speed_bands_plot speed_bands_plot = {
        .ask = ask, .canvas = canvas, .unit = ask->shop->limits.bands[0].high.q.unit};
    set_axes(&speed_bands_plot);
    axes_draw(canvas, &speed_bands_plot.axes, "top speed / r/min",
              axes_name(canvas, "drag", speed_bands_plot.unit->shown));
    axes_ticks_y(canvas, &speed_bands_plot.axes, axes_step(speed_bands_plot.axes.y_to, 6));
    draw_never(&speed_bands_plot);
    draw_bands(&speed_bands_plot);
    name_edges(&speed_bands_plot);
    draw_top_speed(&speed_bands_plot);
    speed_bands_describe(&speed_bands_plot);
}

/* The whole job on one page: what is done, what is asked, where the answers lead. */

static const double LEFT = 4, WIDE = 168, RIGHT = 194, NARROW = 114; /* two columns */

static const double BUS = 313; /* the way back, at the right edge */

static const double PAD = 5, GAP = 10.5;

struct box {
    double x, y, width, height; /* its upper left corner */
};

enum shape { STEP, QUESTION }; /* square corners, or cut ones */

static struct box put(struct canvas *c, double x, double y, double width, enum shape shape,
                      const char *words)
{
    double last =
        canvas_words(c, x + width / 2, y + PAD + 5.8, width - 2 * PAD, ALIGN_MIDDLE, words);
    struct box box = {x, y, width, last + PAD + 1.2 - y};
    double right = x + width, bottom = y + box.height, cut = shape == QUESTION ? 7 : 0;
    const double points[] = {
        x + cut,     y,      right - cut, y,      right, y + cut,      right, bottom - cut,
        right - cut, bottom, x + cut,     bottom, x,     bottom - cut, x,     y + cut};
    canvas_polygon(c, points, 8, &ink_thick);
    return box;
}

static double below(const struct box *box)
{
    return box->y + box->height;
}

static double half_way(const struct box *box)
{
    return box->y + box->height / 2;
}

/* The next box of the left column, with the arrow to it and the answer beside that. */
static struct box follow(struct canvas *c, const struct box *from, double gap, enum shape shape,
                         const char *words, const char *answer)
{
    double x = LEFT + WIDE / 2, y = below(from) + gap;
    canvas_arrow(c, x, below(from), x, y);
    if (answer)
        canvas_text(c, x + 5, (below(from) + y) / 2 + 2, ALIGN_LEFT, answer);
    return put(c, LEFT, y, WIDE, shape, words);
}

/* A box of the right column beside a question, for the answer no. */
static struct box aside(struct canvas *c, const struct box *from, const char *words)
{
    struct box box = put(c, RIGHT, from->y, NARROW, STEP, words);
    double y = half_way(&box);
    canvas_arrow(c, LEFT + WIDE, y, RIGHT, y);
    canvas_text(c, (LEFT + WIDE + RIGHT) / 2 - 2, y - 3, ALIGN_MIDDLE, "no");
    return box;
}

static void go_back(struct canvas *c, const struct box *from)
{
    canvas_line(c, RIGHT + NARROW, half_way(from), BUS, half_way(from), &ink_thin);
}

/* What a mean can say other than good; gives the y below. */
static double answers(struct canvas *c, const struct box *question, double y)
{
    static const char *const words[] = {
        "▽ △ in doubt: more pulls, or a surer gauge; else as below",
        "▼ low: free the lock, tighten by 1 or 2 degrees, ten turns each way, lock",
        ("▲ high: free the lock, unload until there is end play, come again from the loose "
         "side, lock")};
    const double fork = (LEFT + WIDE + RIGHT) / 2;
    double first = 0, last = 0;
    for (int i = 0; i < 3; i++) {
        struct box box = put(c, RIGHT, y, NARROW, STEP, words[i]);
        last = half_way(&box);
        first = i ? first : last;
        canvas_arrow(c, fork, last, RIGHT, last);
        go_back(c, &box);
        y = below(&box) + 6;
    }
    canvas_line(c, fork, first, fork, last, &ink_thin);
    canvas_line(c, LEFT + WIDE, half_way(question), fork, half_way(question), &ink_thin);
    return y;
}

/* From locking off to the first pull; gives the step to which all comes back. */
static struct box prepare(struct canvas *c)
{
    struct box box = put(c, LEFT, 4, WIDE, QUESTION,
                         "Does the manual give a drag, and do you know of which kind?");
    aside(c, &box, "No limit known: trend only. Set nothing by it.");
    box = follow(c, &box, GAP, STEP, "Lock off, prove dead. Chuck off, gears out.", "yes");
    box = follow(c, &box, GAP, QUESTION,
                 "Does the spindle turn freely, without a catch or a rumble?", NULL);
    aside(c, &box, "Find the fault: preload cures none.");
    box = follow(c, &box, GAP, STEP,
                 "Mark the nut. Write down end play, temperature and drag as found.", "yes");
    return follow(c, &box, GAP, STEP,
                  "Check the gauge with known weights. Wind one layer. Five pulls each way, "
                  "read as the manual means it.",
                  NULL);
}

/* From a good mean to the record. */
static struct box finish(struct canvas *c, const struct box *good)
{
    struct box box = follow(c, good, GAP + 46, STEP,
                            "Verify: push and pull, lift test, run-out. Cord, drum, spanner "
                            "and indicator off, and counted. Guards on. Only then power.",
                            "● good, and locked");
    box = follow(c, &box, GAP, QUESTION,
                 "Run in by stages: does the cap settle, well below the stop?", NULL);
    struct box stop = aside(c, &box, "Stop, let it cool, lock off, unload.");
    go_back(c, &stop);
    follow(c, &box, GAP, STEP,
           "Measure warm, then cold. Write it down, with the date of the next check.", "yes");
    return stop;
}

void draw_decision(const struct figure_ask *ask, struct canvas *canvas)
{
    (void)ask;
    struct canvas *c = canvas;
    struct box wind = prepare(c);
    struct box even = follow(
        c, &wind, GAP, QUESTION,
        "Do the five differ by no more than a tenth of their mean, or two steps of the gauge?",
        NULL);
    struct box again = aside(c, &even, "Throw all five away, look for the cause.");
    go_back(c, &again);
    struct box mean = follow(c, &even, GAP + 12, QUESTION, "What does the mean say?", "yes");
    answers(c, &mean, below(&again) + 8);
    struct box stop = finish(c, &mean);
    double y = half_way(&wind);
    canvas_line(c, BUS, half_way(&stop), BUS, y, &ink_thin);
    canvas_arrow(c, BUS, y, LEFT + WIDE, y);
    canvas_text(c, RIGHT + NARROW / 2, y - 3, ALIGN_MIDDLE, "measure again");
}
