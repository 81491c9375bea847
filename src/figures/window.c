/* The window: the pulls of the shop's own band on the gauge's scale, the limits against the
 * turning speed, and the whole job on one page. */
#include "figures/figures.h"
#include "figures/plot.h"
#include "judge/results.h"
#include "judge/series.h"
#include "report/words.h"

#include <math.h>

/* ---- the pull window: the limits, what doubt leaves of them, and the five states ---- */

struct window_line {
    struct plot plot; /* x: pulls, in the gauge's unit */
    const struct shop *shop;
    struct guarded_window window;
    double edges[6]; /* of the five zones from left to right, in newtons */
    enum state states[5];
};

/* Where the mean begins to be clearly low, good, ...: limit and U, as pulls. Where both
 * limits are in doubt, the middle zone is the undecided one. */
static void find_zones(struct window_line *line)
{
    static const enum state in_order[] = {STATE_CLEARLY_LOW, STATE_LOW_IN_DOUBT, STATE_GOOD,
                                          STATE_HIGH_IN_DOUBT, STATE_CLEARLY_HIGH};
    const struct guarded_window *w = &line->window;
    /* what doubt takes off, as pulls */
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
    if (w->none)
        line->states[2] = STATE_UNDECIDED;
    line->plot.x_from = unit_from_base(edges[0], line->plot.x_unit);
    line->plot.x_to = unit_from_base(edges[5], line->plot.x_unit);
}

/* Clear states are hatched one way, doubtful ones the other, the good one is blank. */
static void draw_zones(const struct window_line *line)
{
    static const struct ink *const inks[] = {&ink_hatch, &ink_hatch_back, NULL, &ink_hatch_back,
                                             &ink_hatch};
    const struct plot *plot = &line->plot;
    double height = plot->bottom - plot->top, x[6];
    for (int i = 0; i < 6; i++)
        x[i] = plot_x(plot, line->edges[i]);
    for (int i = 0; i < 5; i++) {
        if (inks[i] && x[i] < x[i + 1])
            canvas_box(plot->canvas, x[i], plot->top, x[i + 1] - x[i], height, inks[i]);
        if (i > 0)
            canvas_line(plot->canvas, x[i], plot->top, x[i], plot->bottom, &ink_thin);
    }
    canvas_box(plot->canvas, x[2], plot->top, x[3] - x[2], height, &ink_thick);
}

/* Above: the states in columns of their own, each led to its zone. */
static void name_states(const struct window_line *line)
{
    struct canvas *c = line->plot.canvas;
    for (int i = 0; i < 5; i++) {
        enum state state = line->states[i];
        double x = 29 + 53.5 * i, left = line->edges[i], right = line->edges[i + 1];
        if (left == right)
            continue;
        canvas_text(c, x, 12, ALIGN_MIDDLE, state_shape(state));
        double last =
            canvas_words(c, x, 24, 48, ALIGN_MIDDLE,
                         state == STATE_UNDECIDED ? "cannot decide" : state_words(state));
        canvas_leader(c, x, last + 4,
                      (plot_x(&line->plot, left) + plot_x(&line->plot, right)) / 2,
                      line->plot.top + 6);
    }
}

static const char *steps(const struct window_line *line, int64_t count)
{
    const struct decimal *step = &line->shop->gauge.step.q.typed;
    return arena_text(line->plot.canvas->arena, show_steps(count, step).text);
}

/* Below: a number with its name, led to its place on the scale; x NAN: it has none. */
static void name_pull(const struct window_line *line, int column, const char *name,
                      const char *number, double x)
{
    struct canvas *c = line->plot.canvas;
    double middle = 25 + 53 * column, y = 144, knee = 120;
    canvas_text(c, middle, y, ALIGN_MIDDLE, name);
    canvas_bold(c, middle, y + 11, ALIGN_MIDDLE, number);
    if (isfinite(x)) {
        canvas_line(c, x, line->plot.top - 4, x, knee, &ink_thin);
        canvas_line(c, x, knee, middle, y - 9, &ink_thin);
    }
}

/* The ends of the good part and of the whole window; "none" where that is closed. */
static void name_pulls(const struct window_line *line)
{
    const struct guarded_window *w = &line->window;
    const struct {
        const char *name;
        bool closed;
        int64_t steps;
    } pulls[] = {{"low pull", w->plain.closed, w->plain.low_steps},
                 {"good from", w->closed, w->low_steps},
                 {"aim", w->plain.closed, w->plain.aim_steps},
                 {"good to", w->closed, w->high_steps},
                 {"high pull", w->plain.closed, w->plain.high_steps}};
    for (int i = 0; i < 5; i++) {
        double pull = (double)pulls[i].steps * line->shop->gauge.step.q.base;
        name_pull(line, i, pulls[i].name,
                  pulls[i].closed ? "none" : steps(line, pulls[i].steps),
                  pulls[i].closed ? NAN : plot_x(&line->plot, pull));
    }
}

/* It may lie far off: behind a break of the scale. */
static void name_never(const struct window_line *line)
{
    const double x = 290, y = line->plot.bottom, top = line->plot.top;
    struct canvas *c = line->plot.canvas;
    if (!given(&line->shop->limits.never_exceed))
        return;
    canvas_line(c, 270, y + 4, 274, y - 4, &ink_thin);
    canvas_line(c, 274, y + 4, 278, y - 4, &ink_thin);
    canvas_line(c, 276, y, 312, y, &ink_thick);
    canvas_line(c, x, top - 4, x, y, &ink_thick);
    canvas_box(c, x, top, 22, y - top, &ink_hatch);
    name_pull(line, 5, "never exceed", steps(line, line->window.plain.never_steps), x);
}

static void describe_window(const struct window_line *line)
{
    struct arena *arena = line->plot.canvas->arena;
    struct figure *figure = line->plot.canvas->figure;
    const struct guarded_window *w = &line->window;
    const char *unit = line->plot.x_unit->shown;
    figure->caption = arena_format(
        arena,
        "Your band, %s: what the mean of your pulls says, on the scale of your gauge in %s. "
        "Between a limit and the good part lies the doubt that gauge, drum and pulls leave.",
        band_text(arena, shop_own_band(line->shop)), unit);
    figure->description = "A scale of pulls. No step of this gauge lies between the limits.";
    if (w->plain.closed)
        return;
    const char *good =
        w->closed ? "no pull is good"
                  : arena_format(arena, "good from %s to %s %s", steps(line, w->low_steps),
                                 steps(line, w->high_steps), unit);
    figure->description = arena_format(
        arena,
        "A scale of pulls in %s. Low pull %s, high pull %s, aim %s; %s. From left to right: "
        "clearly low, low or in doubt, good, high or in doubt, clearly high.",
        unit, steps(line, w->plain.low_steps), steps(line, w->plain.high_steps),
        steps(line, w->plain.aim_steps), good);
}

void draw_window_line(const struct results *results, struct canvas *canvas)
{
    const struct shop *shop = results->shop;
    struct window_line line = {
        .plot = {canvas, 8, 66, 268, 92, .x_unit = shop->gauge.step.q.unit},
        .shop = shop,
        .window = *results->own};
    struct plot *plot = &line.plot;
    find_zones(&line);
    draw_zones(&line);
    name_states(&line);
    name_pulls(&line);
    name_never(&line);
    plot_across(plot, plot->bottom, &ink_thick);
    plot_ticks_x(plot, 8);
    canvas_text(canvas, 312, plot->bottom + 11, ALIGN_RIGHT, plot->x_unit->shown);
    describe_window(&line);
}

/* ---- the maker's limits against turning speed, the shop's own band marked ---- */

/* The never-exceed limit has its line where it is less than twice the highest limit. */
static struct plot speed_plot(const struct limits *limits, struct canvas *canvas)
{
    const struct unit *unit = limits->bands[0].high.q.unit;
    const struct measure *never = &limits->never_exceed;
    double most = 0;
    for (size_t i = 0; i < limits->band_count; i++)
        most = fmax(most, quantity_in(&limits->bands[i].high.q, unit));
    if (given(never) && quantity_in(&never->q, unit) < 2 * most)
        most = quantity_in(&never->q, unit);
    struct plot plot = {canvas, 30, 26, 296, 150, .y_unit = unit, .numbered = true};
    plot.x_to = limits->bands[limits->band_count - 1].to.q.base;
    plot.y_to = 1.06 * most;
    return plot;
}

/* A box, with the limits in it as the manual has them: "0.65–1.00". */
static void draw_band(const struct plot *plot, const struct band *band, bool own)
{
    struct canvas *c = plot->canvas;
    double left = plot_x(plot, band->from.q.base), right = plot_x(plot, band->to.q.base);
    double top = plot_y(plot, band->high.q.base), bottom = plot_y(plot, band->low.q.base);
    const char *text = arena_format(c->arena, "%s–%s", band->low.q.digits, band->high.q.digits);
    canvas_box(c, left, top, right - left, bottom - top, own ? &ink_section : &ink_thin);
    if (canvas_width(c, false, text) + 6 < right - left && bottom - top > 12)
        canvas_label(c, (left + right) / 2, (top + bottom) / 2 + FIGURE_DROP, ALIGN_MIDDLE,
                     text);
}

/* An edge belongs to the stricter of its two bands: full dots there, rings here. */
static void draw_edge(const struct plot *plot, const struct shop *shop, const struct band *band,
                      double speed)
{
    const struct ink *ink = shop_band_at(shop, speed) == band ? &ink_solid : &ink_sheet;
    double x = plot_x(plot, speed);
    canvas_circle(plot->canvas, x, plot_y(plot, band->low.q.base), 2, ink);
    canvas_circle(plot->canvas, x, plot_y(plot, band->high.q.base), 2, ink);
}

static void draw_bands(const struct plot *plot, const struct shop *shop)
{
    const struct band *bands = shop->limits.bands, *own = shop_own_band(shop);
    size_t count = shop->limits.band_count;
    for (size_t i = 0; i < count; i++)
        draw_band(plot, &bands[i], &bands[i] == own);
    for (size_t i = 0; i + 1 < count; i++) {
        draw_edge(plot, shop, &bands[i], bands[i].to.q.base);
        draw_edge(plot, shop, &bands[i + 1], bands[i].to.q.base);
    }
    double reached = 0;
    for (size_t i = 0; i <= count; i++) {
        const struct quantity *edge = i ? &bands[i - 1].to.q : &bands[0].from.q;
        plot_tick(plot, plot_x(plot, edge->base));
        plot_text_apart(plot, plot_x(plot, edge->base), edge->digits, &reached);
    }
}

/* The top speed, from its band down to the scale. */
static void draw_top_speed(const struct plot *plot, const struct shop *shop)
{
    struct canvas *c = plot->canvas;
    double x = plot_x(plot, shop->lathe.top_speed.q.base);
    double y = plot_y(plot, shop_own_band(shop)->low.q.base);
    const char *text = arena_format(c->arena, "your top speed, %s",
                                    quantity_text(c->arena, &shop->lathe.top_speed.q));
    bool fits_left = x - 8 - canvas_width(c, false, text) >= plot->left + 4;
    canvas_line(c, x, y, x, plot->bottom, &ink_centre);
    canvas_label(c, fits_left ? x - 8 : x + 8, plot->bottom - 8,
                 fits_left ? ALIGN_RIGHT : ALIGN_LEFT, text);
}

void draw_speed_bands(const struct results *results, struct canvas *canvas)
{
    const struct shop *shop = results->shop;
    struct plot plot = speed_plot(&shop->limits, canvas);
    struct arena *arena = canvas->arena;
    const struct measure *never = &shop->limits.never_exceed;
    const struct band *own = shop_own_band(shop);
    plot_axes(&plot, "top speed / r/min", axis_name(arena, "drag", plot.y_unit->shown));
    plot_ticks_y(&plot, 6);
    if (given(never) && quantity_in(&never->q, plot.y_unit) <= plot.y_to) {
        double y = plot_y(&plot, never->q.base);
        plot_across(&plot, y, &ink_hidden);
        canvas_label(canvas, plot.right - 4, y + FIGURE_DROP, ALIGN_RIGHT,
                     arena_format(arena, "never exceed %s", never->q.digits));
    }
    draw_bands(&plot, shop);
    draw_top_speed(&plot, shop);
    canvas->figure->caption =
        arena_format(arena,
                     "Drag limits against the top speed of the spindle. Your band, %s, is "
                     "hatched. A speed on an edge has the limits with the full dots, those of "
                     "the stricter band.",
                     band_text(arena, own));
    canvas->figure->description = arena_format(
        arena,
        "A plot of drag in %s over turning speed. Each speed band is a box from "
        "its low to its high limit; faster bands lie lower. The own band, %s, "
        "from %s to %s, is hatched.",
        plot.y_unit->shown, band_text(arena, own), own->low.q.digits, own->high.q.digits);
}

/* ---- the whole job on one page: what is done, what is asked, where the answers lead ---- */

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

/* What a mean can say other than good. */
static void answers(struct canvas *c, const struct box *question, double y)
{
    const char *const words[] = {
        "▽ △ in doubt: more pulls, or a surer gauge; else as below",
        arena_format(c->arena, "▼ low: %s", advice_in_brief(ADVICE_TIGHTEN)),
        arena_format(c->arena, "▲ high: %s", advice_in_brief(ADVICE_UNLOAD))};
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

void draw_decision(const struct results *results, struct canvas *c)
{
    (void)results;
    struct box wind = prepare(c);
    struct box even = follow(
        c, &wind, GAP, QUESTION,
        "Do the five scatter no more than yours do, or than two steps of the gauge?", NULL);
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
