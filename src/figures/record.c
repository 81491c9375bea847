/* How far each known weight lies off the line through all of them, and how well that line
 * is known. */
#include "figures/figures.h"
#include "figures/plot.h"
#include "judge/gauge.h"
#include "judge/nut.h"
#include "judge/series.h"
#include "judge/window.h"
#include "number/show.h"
#include "physics/physics.h"
#include "shop/shop.h"

#include <math.h>

enum { POINTS = 40 };

static const struct axes box = {
    .left = 40, .top = 46, .right = 264, .bottom = 150, .numbered = true};

static const char wanted[] =
    "There is no line through known weights yet. Hang at least three loads, not all alike, and "
    "write them into gauge-check.csv.";

struct plot {
    const struct figure_ask *ask;
    struct canvas *canvas;
    struct axes axes; /* both in the gauge's unit */
    const struct unit *unit;
    struct gauge_check check;
    const struct band *band;   /* the lathe's own; NULL without limits on file */
    struct pull_window window; /* of that band */
};

static double in_unit(const struct plot *plot, double force)
{
    return unit_from_base(force, plot->unit);
}

static double x_of(const struct plot *plot, double force)
{
    return axes_x(&plot->axes, in_unit(plot, force));
}

static double y_of(const struct plot *plot, double residual)
{
    return axes_y(&plot->axes, in_unit(plot, residual));
}

/* What a reading shows more than the line says, N. */
static double residual_of(const struct plot *plot, const struct weighing *weighing)
{
    double force = weighing_force(plot->ask->shop, weighing);
    return weighing->reading.base - line_at(&plot->check.line, force);
}

static const struct weighing *weighing_at(const struct plot *plot, size_t index)
{
    const struct weighings *log = &plot->ask->shop->weighings;
    return index < log->count ? &log->items[index] : NULL;
}

/* Both ways alike; at least a step of the gauge. */
static void set_axes(struct plot *plot)
{
    const struct weighing *weighing;
    double most = plot->ask->shop->gauge.step.q.base;
    for (size_t i = 0; (weighing = weighing_at(plot, i)); i++)
        most = fmax(most, fabs(residual_of(plot, weighing)));
    double from = gauge_check_from(&plot->check), to = gauge_check_to(&plot->check);
    most = fmax(most, gauge_known_within(&plot->check, from));
    most = fmax(most, gauge_known_within(&plot->check, to));
    plot->axes = box;
    plot->axes.y_to = in_unit(plot, 1.1 * most);
    plot->axes.y_from = -plot->axes.y_to;
    double most_pull = plot->band ? plot->window.high : 0;
    plot->axes.x_to = in_unit(plot, 1.04 * fmax(to, most_pull));
}

/* The line's doubt, above and below it, hatched. */
static void draw_doubt(const struct plot *plot)
{
    double from = gauge_check_from(&plot->check), to = gauge_check_to(&plot->check);
    for (int side = 1; side >= -1; side -= 2)
        for (int i = 0; i <= POINTS; i++) {
            double share = (double)(side > 0 ? i : POINTS - i) / POINTS;
            double force = from + (to - from) * share;
            canvas_to(plot->canvas, x_of(plot, force),
                      y_of(plot, side * gauge_known_within(&plot->check, force)));
        }
    canvas_close(plot->canvas);
    canvas_ink(plot->canvas, &(struct ink){.stroke = STROKE_THIN, .hatch = -45});
}

/* Rings lie below dots and are wider: a dot within a ring is two readings. */
static void draw_point(const struct plot *plot, double x, double y, bool down)
{
    canvas_circle(plot->canvas, x, y, down ? 3.6 : 2.7, &ink_paper);
    if (down)
        canvas_circle(plot->canvas, x, y, 3.6, &ink_thick);
    else
        canvas_circle(plot->canvas, x, y, 1.9, &ink_solid);
}

static void draw_points(const struct plot *plot)
{
    const struct weighing *weighing;
    for (int down = 1; down >= 0; down--)
        for (size_t i = 0; (weighing = weighing_at(plot, i)); i++)
            if (weighing->down == down)
                draw_point(plot, x_of(plot, weighing_force(plot->ask->shop, weighing)),
                           y_of(plot, residual_of(plot, weighing)), down);
}

/* Where the pulls of the own band lie. */
static void draw_window(const struct plot *plot)
{
    double left = x_of(plot, plot->window.low), right = x_of(plot, plot->window.high);
    double y = plot->axes.top - 4;
    canvas_line(plot->canvas, left, y - 4, left, plot->axes.bottom, &ink_hidden);
    canvas_line(plot->canvas, right, y - 4, right, plot->axes.bottom, &ink_hidden);
    canvas_span(plot->canvas, left, y, right, y);
}

static void draw_key(const struct plot *plot)
{
    static const char *const names[] = {"loading", "unloading"};
    double x = 10;
    for (int down = 0; down < 2; down++) {
        draw_point(plot, x, 8, down);
        canvas_text(plot->canvas, x + 7, 10.6, ALIGN_LEFT, names[down]);
        x += 24 + canvas_width(plot->canvas, false, names[down]);
    }
    canvas_box(plot->canvas, x - 4, 4, 14, 8,
               &(struct ink){.stroke = STROKE_THIN, .hatch = -45});
    canvas_text(plot->canvas, x + 14, 10.6, ALIGN_LEFT, "known within");
    if (!plot->band)
        return;
    x += 32 + canvas_width(plot->canvas, false, "known within");
    canvas_span(plot->canvas, x - 4, 8, x + 14, 8);
    canvas_text(plot->canvas, x + 18, 10.6, ALIGN_LEFT, "your pull window");
}

static const char *reach_words(const struct plot *plot)
{
    if (!plot->band)
        return "There is no limit on file, so no window stands here.";
    return gauge_check_covers(&plot->check, plot->window.low) &&
                   gauge_check_covers(&plot->check, plot->window.high)
               ? "The weights reach over your whole window."
               : "The weights do not reach over your whole window.";
}

/* Readings that agree say no more than that they agree within the step. */
static const char *scatter_words(const struct plot *plot)
{
    double sd = plot->check.line.sd;
    if (sd < plot->check.step / 10)
        return "less than a tenth of a step";
    return arena_format(plot->ask->arena, "%s\u00a0%s",
                        show_significant(in_unit(plot, sd), 2).text, plot->unit->shown);
}

static void describe(const struct plot *plot)
{
    const struct line *line = &plot->check.line;
    struct arena *arena = plot->ask->arena;
    const char *unit = plot->unit->shown;
    double pull = plot->band ? plot->window.aim : gauge_usual_pull(plot->ask->shop);
    double within = in_unit(plot, gauge_known_within(&plot->check, pull));
    plot->canvas->figure->caption = arena_format(
        arena,
        "Known weights: how far each reading lies off the line through all %zu. Hatched: what "
        "is known of the gauge (95 of 100), as far as the weights speak. "
        "Points that wander, or rings all on one side of the dots, ask for a cause. %s",
        line->count, reach_words(plot));
    plot->canvas->figure->description = arena_format(
        arena,
        "A plot of reading less line in %s over the force. The line of the readings is %s\u00a0"
        "%s at no load and %s of the force; the readings scatter about it by %s. At a "
        "pull of %s\u00a0%s the gauge is known within %s\u00a0%s. %s",
        unit, show_significant(in_unit(plot, line->intercept), 3).text, unit,
        show_significant(line->slope, 5).text, scatter_words(plot),
        show_significant(in_unit(plot, pull), 3).text, unit, show_up(within, 3).text, unit,
        reach_words(plot));
}

void draw_gauge_residuals(const struct figure_ask *ask, struct canvas *canvas)
{
    const struct shop *shop = ask->shop;
    struct plot plot = {
        .ask = ask, .canvas = canvas, .axes = box, .unit = shop->gauge.step.q.unit};
    const char *x_name = axes_name(canvas, "force", plot.unit->shown);
    const char *y_name = axes_name(canvas, "reading less line", plot.unit->shown);
    plot.check = gauge_check_of(shop);
    plot.band = shop_own_band(shop);
    if (plot.band)
        plot.window = pull_window_of(shop, plot.band);
    if (plot.check.known) {
        set_axes(&plot);
        draw_doubt(&plot);
        if (plot.band)
            draw_window(&plot);
        axes_across(canvas, &plot.axes, y_of(&plot, 0), &ink_centre);
    }
    axes_draw(canvas, &plot.axes, x_name, y_name);
    if (!plot.check.known) {
        axes_empty(canvas, &plot.axes, wanted,
                   "The gauge against known weights, once there are any.");
        return;
    }
    axes_ticks_x(canvas, &plot.axes, axes_step(plot.axes.x_to, 8));
    axes_ticks_y(canvas, &plot.axes, axes_step(2 * plot.axes.y_to, 6));
    draw_points(&plot);
    draw_key(&plot);
    describe(&plot);
}

/* The drag that the log found at each place of the nut, the window, and the next move. */

static const struct axes nut_drag_box = {
    .left = 34, .top = 46, .right = 252, .bottom = 160, .numbered = true};

static const char nut_drag_wanted[] =
    "No row of the log that may be judged says where the nut stood. Write the nut's angle "
    "beside each series of pulls in readings.csv, and draw this again.";

struct nut_drag_plot {
    struct drag_plot drags;
    const struct pull_series *last, *before; /* places of the nut; before may be NULL */
    bool moved;                              /* since the last: it may not be turned by */
    struct nut_point points[2];              /* of before and last */
    double lock_added;                       /* still to come; NAN: not known */
    enum state state;                        /* of the last one */
    bool few;                                /* good by too few pulls */
    struct nut_move move;                    /* where before is not NULL */
};

static bool is_shown(const struct shop *shop, const struct pull_series *series)
{
    struct pull_conditions taken = series_conditions(series);
    return series->nut.unit && conditions_suit_limits(shop, &taken) &&
           !series_unloaded(shop, series);
}

static const struct pull_series *next_shown(const struct shop *shop,
                                            const struct pull_series *series)
{
    const struct pull_series_log *log = &shop->readings;
    for (; log->count && series < log->items + log->count; series++)
        if (is_shown(shop, series))
            return series;
    return NULL;
}

static const struct pull_series *last_shown(const struct shop *shop)
{
    const struct pull_series *last = NULL;
    for (const struct pull_series *at = next_shown(shop, shop->readings.items); at;
         at = next_shown(shop, at + 1))
        last = at;
    return last;
}

/* As the terminal has it: what is good is left alone, what says nothing is taken again;
 * else two places tell the next. */
static void find_move(struct nut_drag_plot *nut_drag_plot, const struct shop *shop)
{
    nut_drag_plot->last = last_shown(shop);
    if (!nut_drag_plot->last)
        return;
    nut_drag_plot->moved = nut_last_steering(shop) != nut_drag_plot->last;
    nut_drag_plot->lock_added = nut_lock_to_come(shop, nut_drag_plot->last);
    struct judgement judgement = judge_series(shop, nut_drag_plot->last);
    nut_drag_plot->state = judgement.state;
    nut_drag_plot->few = good_by_few(&judgement);
    if (nut_drag_plot->drags.band && !nut_drag_plot->moved &&
        state_turns_nut(nut_drag_plot->state))
        nut_drag_plot->before = nut_place_before(shop, nut_drag_plot->last);
    if (!nut_drag_plot->before)
        return;
    nut_drag_plot->points[0] = nut_point_of_series(shop, nut_drag_plot->before);
    nut_drag_plot->points[1] = nut_point_of_series(shop, nut_drag_plot->last);
    nut_drag_plot->move = nut_move_toward_aim(shop, nut_drag_plot->drags.band,
                                              nut_drag_plot->points, nut_drag_plot->lock_added);
}

static bool says_turn(const struct nut_drag_plot *nut_drag_plot)
{
    return nut_drag_plot->before && nut_drag_plot->move.advice == NUT_TURN;
}

/* Where the line through the two places arrives. */
static struct nut_point point_after_move(const struct nut_drag_plot *nut_drag_plot)
{
    const struct nut_point *a = &nut_drag_plot->points[0], *b = &nut_drag_plot->points[1];
    double slope = (b->drag - a->drag) / (b->angle - a->angle);
    return (struct nut_point){.angle = b->angle + nut_drag_plot->move.angle,
                              .drag = b->drag + slope * nut_drag_plot->move.angle};
}

static void widen_axes(struct nut_drag_plot *nut_drag_plot, struct nut_point point)
{
    nut_drag_plot->drags.axes.x_from = fmin(nut_drag_plot->drags.axes.x_from, point.angle);
    nut_drag_plot->drags.axes.x_to = fmax(nut_drag_plot->drags.axes.x_to, point.angle);
    drag_plot_reach(&nut_drag_plot->drags, point.drag, point.expanded);
}

static void nut_drag_set_axes(struct nut_drag_plot *nut_drag_plot, const struct shop *shop)
{
    const struct pull_series *series = next_shown(shop, shop->readings.items);
    nut_drag_plot->drags.axes.x_from = nut_drag_plot->drags.axes.x_to =
        nut_drag_plot->last->nut.base;
    for (; series; series = next_shown(shop, series + 1))
        widen_axes(nut_drag_plot, nut_point_of_series(shop, series));
    if (says_turn(nut_drag_plot))
        widen_axes(nut_drag_plot, point_after_move(nut_drag_plot));
    double span = fmax(nut_drag_plot->drags.axes.x_to - nut_drag_plot->drags.axes.x_from, 5);
    nut_drag_plot->drags.axes.x_from -= span / 12;
    nut_drag_plot->drags.axes.x_to += span / 12;
    drag_plot_close(&nut_drag_plot->drags);
}

static double nut_drag_x_of(const struct nut_drag_plot *nut_drag_plot, double angle)
{
    return axes_x(&nut_drag_plot->drags.axes, angle);
}

/* A line between two series one after the other: on the way up of the nut, taken alike;
 * or the same place before and after the lock. */
static void draw_way(const struct nut_drag_plot *nut_drag_plot, const struct pull_series *a,
                     const struct pull_series *b)
{
    const struct shop *shop = nut_drag_plot->drags.ask->shop;
    bool climbed = series_alike(a, b) && nut_row_before(shop, b) && b->nut.base > a->nut.base;
    bool locked = a->lock == LOCK_BEFORE && b->lock == LOCK_AFTER && a->nut.base == b->nut.base;
    if (!climbed && !locked)
        return;
    canvas_line(nut_drag_plot->drags.canvas, nut_drag_x_of(nut_drag_plot, a->nut.base),
                drag_plot_y(&nut_drag_plot->drags, judge_series(shop, a).drag),
                nut_drag_x_of(nut_drag_plot, b->nut.base),
                drag_plot_y(&nut_drag_plot->drags, judge_series(shop, b).drag),
                climbed ? &ink_thin : &ink_hidden);
}

static void draw_places(const struct nut_drag_plot *nut_drag_plot)
{
    const struct shop *shop = nut_drag_plot->drags.ask->shop;
    const struct pull_series *first = next_shown(shop, shop->readings.items), *next;
    for (const struct pull_series *at = first; at; at = next) {
        next = next_shown(shop, at + 1);
        if (next)
            draw_way(nut_drag_plot, at, next);
    }
    for (const struct pull_series *at = first; at; at = next_shown(shop, at + 1)) {
        struct judgement judgement = judge_series(shop, at);
        double x = nut_drag_x_of(nut_drag_plot, at->nut.base);
        drag_plot_mark(nut_drag_plot->drags.canvas, x,
                       drag_plot_y(&nut_drag_plot->drags, judgement.drag), at->lock);
        drag_plot_bar(&nut_drag_plot->drags, x, &judgement);
    }
}

static void draw_move(const struct nut_drag_plot *nut_drag_plot)
{
    struct canvas *c = nut_drag_plot->drags.canvas;
    struct nut_point to = point_after_move(nut_drag_plot);
    double x = nut_drag_x_of(nut_drag_plot, to.angle),
           y = drag_plot_y(&nut_drag_plot->drags, to.drag);
    double from = nut_drag_x_of(nut_drag_plot, nut_drag_plot->points[1].angle);
    canvas_line(c, from, drag_plot_y(&nut_drag_plot->drags, nut_drag_plot->points[1].drag), x,
                y, &ink_hidden);
    const double corners[] = {x, y - 4, x + 4, y, x, y + 4, x - 4, y};
    canvas_polygon(c, corners, 4, &ink_sheet);
}

static const char *move_words(const struct nut_drag_plot *nut_drag_plot)
{
    static const char *const words[] = {
        [NUT_GOOD] = "Next: at the aim: lock, and measure again",
        [NUT_UNLOAD] = "Next: over the aim: unload, begin again from the loose side",
        [NUT_BACKED] = "Next: turned back: unload, begin again from the loose side",
        [NUT_NO_SLOPE] = "Next: no rise with the nut: seat the rollers, measure again"};
    if (!nut_drag_plot->drags.band)
        return NO_LIMIT_ON_FILE;
    if (nut_drag_plot->moved)
        return "Next: not known: the nut has been moved since, and not measured alike";
    if (nut_drag_plot->state == STATE_BACKED_OFF)
        return words[NUT_BACKED];
    if (nut_drag_plot->few)
        return "Next: good, but by too few pulls: take more";
    if (!state_turns_nut(nut_drag_plot->state))
        return nut_drag_plot->state == STATE_GOOD
                   ? "The last in the log is good: leave it"
                   : "Next: take the last series again: it says nothing";
    if (!nut_drag_plot->before)
        return "Next: not known: two places on one way up are wanted";
    if (nut_drag_plot->move.advice != NUT_TURN)
        return words[nut_drag_plot->move.advice];
    return arena_format(nut_drag_plot->drags.ask->arena,
                        "Next: tighten by %s°%s, measure again",
                        show_places(nut_drag_plot->move.angle, 1).text,
                        nut_drag_plot->move.capped ? ", no more at once" : "");
}

/* What the marks are, in a row above; the words of the move below them. */
static void nut_drag_draw_key(const struct nut_drag_plot *nut_drag_plot)
{
    struct canvas *c = nut_drag_plot->drags.canvas;
    double x = 10;
    for (int lock = LOCK_AFTER; lock >= LOCK_UNSAID; lock--) {
        const char *name = series_lock_word((enum lock)lock);
        drag_plot_mark(c, x, 8, (enum lock)lock);
        canvas_text(c, x + 6, 10.6, ALIGN_LEFT, name);
        x += 22 + canvas_width(c, false, name);
    }
    if (says_turn(nut_drag_plot)) {
        const double corners[] = {x, 4, x + 4, 8, x, 12, x - 4, 8};
        canvas_polygon(c, corners, 4, &ink_sheet);
        canvas_text(c, x + 8, 10.6, ALIGN_LEFT, "next, by the line");
    }
    canvas_bold(c, 7, 23, ALIGN_LEFT, move_words(nut_drag_plot));
}

static const char *room_words(const struct nut_drag_plot *nut_drag_plot)
{
    double added = unit_from_base(nut_drag_plot->lock_added, nut_drag_plot->drags.unit);
    return nut_drag_plot->before && added > 0
               ? arena_format(nut_drag_plot->drags.ask->arena,
                              " The next move leaves room for the %s\u00a0%s that the lock "
                              "added the last time.",
                              show_significant(added, 2).text, nut_drag_plot->drags.unit->shown)
               : "";
}

static void nut_drag_describe(const struct nut_drag_plot *nut_drag_plot)
{
    const struct figure_ask *ask = nut_drag_plot->drags.ask;
    const char *warmth = shop_warmth_word(ask->shop);
    struct judgement last = judge_series(ask->shop, nut_drag_plot->last);
    nut_drag_plot->drags.canvas->figure->caption = arena_format(
        ask->arena,
        "Your log: drag with its U over the place of the nut, %s series alone, turned the "
        "usual way. Full lines: one "
        "way up; broken ones: the lock, and the next move. %s The angles are those of this "
        "lathe and this mark alone.%s",
        warmth, drag_plot_window_words(&nut_drag_plot->drags), room_words(nut_drag_plot));
    nut_drag_plot->drags.canvas->figure->description = arena_format(
        ask->arena,
        "A plot of drag in %s over the nut's angle, %s series of the log. The last, of %s, at "
        "%s, lies at %s: %s. %s.",
        nut_drag_plot->drags.unit->shown, warmth, nut_drag_plot->last->date,
        quantity_text(ask->arena, &nut_drag_plot->last->nut),
        show_significant(unit_from_base(last.drag, nut_drag_plot->drags.unit), 3).text,
        state_words(last.state), move_words(nut_drag_plot));
}

void draw_nut_drag(const struct figure_ask *ask, struct canvas *canvas)
{
    struct nut_drag_plot nut_drag_plot = {.drags = drag_plot_new(ask, canvas, nut_drag_box)};
    struct drag_plot *drags = &nut_drag_plot.drags;
    const char *y_name = axes_name(canvas, "drag", drags->unit->shown);
    find_move(&nut_drag_plot, ask->shop);
    if (!nut_drag_plot.last) {
        axes_draw(canvas, &drags->axes, "place of the nut / °", y_name);
        axes_empty(canvas, &drags->axes, nut_drag_wanted,
                   "The drag over the nut's place, once the log tells both.");
        return;
    }
    nut_drag_set_axes(&nut_drag_plot, ask->shop);
    drag_plot_limits(drags);
    axes_draw(canvas, &drags->axes, "place of the nut / °", y_name);
    axes_ticks_x(canvas, &drags->axes, axes_step(drags->axes.x_to - drags->axes.x_from, 8));
    axes_ticks_y(canvas, &drags->axes, axes_step(drags->axes.y_to - drags->axes.y_from, 6));
    draw_places(&nut_drag_plot);
    if (says_turn(&nut_drag_plot))
        draw_move(&nut_drag_plot);
    nut_drag_draw_key(&nut_drag_plot);
    nut_drag_describe(&nut_drag_plot);
}

/* The series that closed each job of the log, over the years, against the limits. */

static const struct axes years_box = {.left = 34, .top = 38, .right = 252, .bottom = 150};

static const char years_wanted[] =
    "No series of the log closes a job yet. Write the locked series, the usual way round, into "
    "readings.csv, and draw this again.";

struct years_plot {
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
static void years_set_axes(struct years_plot *years_plot, const struct shop *shop)
{
    const struct pull_series *at = next_closing(shop, shop->readings.items);
    years_plot->first = at;
    for (; at; at = next_closing(shop, at + 1)) {
        struct judgement judgement = judge_series(shop, at);
        drag_plot_reach(&years_plot->drags, judgement.drag, judgement.uncertainty.expanded);
        years_plot->last = at;
        years_plot->count++;
    }
    if (years_plot->first) {
        years_plot->drags.axes.x_from =
            (double)date_year_days(date_year(years_plot->first->date));
        years_plot->drags.axes.x_to =
            (double)date_year_days(date_year(years_plot->last->date) + 1);
    }
    drag_plot_close(&years_plot->drags);
}

/* Below the axis each year stands between its Januaries, where there is room for it. */
static void draw_years(const struct years_plot *years_plot)
{
    const struct axes *axes = &years_plot->drags.axes;
    struct canvas *c = years_plot->drags.canvas;
    int from = date_year(years_plot->first->date), to = date_year(years_plot->last->date) + 1;
    double taken = 0;
    for (int year = from; year <= to; year++) {
        double x = axes_x(axes, (double)date_year_days(year));
        double next = axes_x(axes, (double)date_year_days(year + 1));
        axes_tick(c, axes, x);
        if (year < to)
            axes_text_apart(c, axes, (x + next) / 2,
                            arena_format(years_plot->drags.ask->arena, "%d", year), &taken);
    }
}

static void draw_series(const struct years_plot *years_plot)
{
    const struct shop *shop = years_plot->drags.ask->shop;
    struct canvas *c = years_plot->drags.canvas;
    for (const struct pull_series *at = years_plot->first; at;
         at = next_closing(shop, at + 1)) {
        struct judgement judgement = judge_series(shop, at);
        double x = axes_x(&years_plot->drags.axes, (double)date_days(at->date));
        drag_plot_mark(c, x, drag_plot_y(&years_plot->drags, judgement.drag), at->lock);
        drag_plot_bar(&years_plot->drags, x, &judgement);
    }
}

static const char *drag_words(const struct years_plot *years_plot,
                              const struct pull_series *series)
{
    struct judgement judgement = judge_series(years_plot->drags.ask->shop, series);
    double drag = unit_from_base(judgement.drag, years_plot->drags.unit);
    return arena_format(years_plot->drags.ask->arena, "%s\u00a0%s on %s, %s",
                        show_places(drag, judgement.shown_u.places).text,
                        years_plot->drags.unit->shown, series->date,
                        state_words(judgement.state));
}

static const char *last_words(const struct years_plot *years_plot)
{
    if (years_plot->count == 1)
        return "One is no trend: measure again in a year, the same way";
    return arena_format(years_plot->drags.ask->arena, "The last: %s",
                        drag_words(years_plot, years_plot->last));
}

static void years_describe(const struct years_plot *years_plot)
{
    struct arena *arena = years_plot->drags.ask->arena;
    canvas_bold(years_plot->drags.canvas, 7, 10.6, ALIGN_LEFT, last_words(years_plot));
    years_plot->drags.canvas->figure->caption = arena_format(
        arena,
        "The series that closed each job of the log, with its U, %s: the last one the usual "
        "way round and locked, before the log rests for %d days. %s",
        shop_warmth_word(years_plot->drags.ask->shop), CLOSING_REST_DAYS,
        drag_plot_window_words(&years_plot->drags));
    years_plot->drags.canvas->figure->description = arena_format(
        arena, "A plot of drag over the years, with the limits. First %s; last %s.",
        drag_words(years_plot, years_plot->first), drag_words(years_plot, years_plot->last));
}

void draw_years_of_drag(const struct figure_ask *ask, struct canvas *canvas)
{
    struct years_plot years_plot = {.drags = drag_plot_new(ask, canvas, years_box)};
    struct drag_plot *drags = &years_plot.drags;
    years_set_axes(&years_plot, ask->shop);
    if (years_plot.first)
        drag_plot_limits(drags);
    axes_draw(canvas, &drags->axes, years_plot.first ? "" : "year",
              axes_name(canvas, "drag", drags->unit->shown));
    if (!years_plot.first) {
        axes_empty(canvas, &drags->axes, years_wanted,
                   "The drag over the years, once the log tells it.");
        return;
    }
    axes_ticks_y(canvas, &drags->axes, axes_step(drags->axes.y_to - drags->axes.y_from, 6));
    draw_years(&years_plot);
    draw_series(&years_plot);
    years_describe(&years_plot);
}
