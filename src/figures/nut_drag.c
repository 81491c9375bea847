/* The drag that the log found at each place of the nut, the window, and the next move. */
#include "figures/drag_plot.h"
#include "number/show.h"
#include "shop/words.h"
#include "verdict/nut_place.h"
#include "verdict/taken.h"
#include "verdict/unloaded.h"

#include <math.h>

static const struct axes box = {
    .left = 34, .top = 46, .right = 252, .bottom = 160, .numbered = true};

static const char wanted[] =
    "No row of the log that may be judged says where the nut stood. Write the nut's angle "
    "beside each series of pulls in readings.csv, and draw this again.";

struct plot {
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
    struct taken taken = series_taken(series);
    return series->nut.unit && taken_as_limits(shop, &taken) && !series_unloaded(shop, series);
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
static void find_move(struct plot *plot, const struct shop *shop)
{
    plot->last = last_shown(shop);
    if (!plot->last)
        return;
    plot->moved = nut_last_steering(shop) != plot->last;
    plot->lock_added = nut_lock_to_come(shop, plot->last);
    struct judgement judgement = judge_series(shop, plot->last);
    plot->state = judgement.state;
    plot->few = good_by_few(&judgement);
    if (plot->drags.band && !plot->moved && state_turns_nut(plot->state))
        plot->before = nut_place_before(shop, plot->last);
    if (!plot->before)
        return;
    plot->points[0] = nut_point_of_series(shop, plot->before);
    plot->points[1] = nut_point_of_series(shop, plot->last);
    plot->move = nut_move_toward_aim(shop, plot->drags.band, plot->points, plot->lock_added);
}

static bool says_turn(const struct plot *plot)
{
    return plot->before && plot->move.advice == NUT_TURN;
}

/* Where the line through the two places arrives. */
static struct nut_point point_after_move(const struct plot *plot)
{
    const struct nut_point *a = &plot->points[0], *b = &plot->points[1];
    double slope = (b->drag - a->drag) / (b->angle - a->angle);
    return (struct nut_point){.angle = b->angle + plot->move.angle,
                              .drag = b->drag + slope * plot->move.angle};
}

static void widen_axes(struct plot *plot, struct nut_point point)
{
    plot->drags.axes.x_from = fmin(plot->drags.axes.x_from, point.angle);
    plot->drags.axes.x_to = fmax(plot->drags.axes.x_to, point.angle);
    drag_plot_reach(&plot->drags, point.drag, point.expanded);
}

static void set_axes(struct plot *plot, const struct shop *shop)
{
    const struct pull_series *series = next_shown(shop, shop->readings.items);
    plot->drags.axes.x_from = plot->drags.axes.x_to = plot->last->nut.base;
    for (; series; series = next_shown(shop, series + 1))
        widen_axes(plot, nut_point_of_series(shop, series));
    if (says_turn(plot))
        widen_axes(plot, point_after_move(plot));
    double span = fmax(plot->drags.axes.x_to - plot->drags.axes.x_from, 5);
    plot->drags.axes.x_from -= span / 12;
    plot->drags.axes.x_to += span / 12;
    drag_plot_close(&plot->drags);
}

static double x_of(const struct plot *plot, double angle)
{
    return axes_x(&plot->drags.axes, angle);
}

/* A line between two series one after the other: on the way up of the nut, taken alike;
 * or the same place before and after the lock. */
static void draw_way(const struct plot *plot, const struct pull_series *a,
                     const struct pull_series *b)
{
    const struct shop *shop = plot->drags.ask->shop;
    bool climbed = series_alike(a, b) && nut_row_before(shop, b) && b->nut.base > a->nut.base;
    bool locked = a->lock == LOCK_BEFORE && b->lock == LOCK_AFTER && a->nut.base == b->nut.base;
    if (!climbed && !locked)
        return;
    canvas_line(plot->drags.canvas, x_of(plot, a->nut.base),
                drag_plot_y(&plot->drags, judge_series(shop, a).drag), x_of(plot, b->nut.base),
                drag_plot_y(&plot->drags, judge_series(shop, b).drag),
                climbed ? &ink_thin : &ink_hidden);
}

static void draw_places(const struct plot *plot)
{
    const struct shop *shop = plot->drags.ask->shop;
    const struct pull_series *first = next_shown(shop, shop->readings.items), *next;
    for (const struct pull_series *at = first; at; at = next) {
        next = next_shown(shop, at + 1);
        if (next)
            draw_way(plot, at, next);
    }
    for (const struct pull_series *at = first; at; at = next_shown(shop, at + 1)) {
        struct judgement judgement = judge_series(shop, at);
        double x = x_of(plot, at->nut.base);
        drag_plot_mark(plot->drags.canvas, x, drag_plot_y(&plot->drags, judgement.drag),
                       at->lock);
        drag_plot_bar(&plot->drags, x, &judgement);
    }
}

static void draw_move(const struct plot *plot)
{
    struct canvas *c = plot->drags.canvas;
    struct nut_point to = point_after_move(plot);
    double x = x_of(plot, to.angle), y = drag_plot_y(&plot->drags, to.drag);
    double from = x_of(plot, plot->points[1].angle);
    canvas_line(c, from, drag_plot_y(&plot->drags, plot->points[1].drag), x, y, &ink_hidden);
    const double corners[] = {x, y - 4, x + 4, y, x, y + 4, x - 4, y};
    canvas_polygon(c, corners, 4, &ink_sheet);
}

static const char *move_words(const struct plot *plot)
{
    static const char *const words[] = {
        [NUT_GOOD] = "Next: at the aim: lock, and measure again",
        [NUT_UNLOAD] = "Next: over the aim: unload, begin again from the loose side",
        [NUT_BACKED] = "Next: turned back: unload, begin again from the loose side",
        [NUT_NO_SLOPE] = "Next: no rise with the nut: seat the rollers, measure again"};
    if (!plot->drags.band)
        return NO_LIMIT_ON_FILE;
    if (plot->moved)
        return "Next: not known: the nut has been moved since, and not measured alike";
    if (plot->state == STATE_BACKED_OFF)
        return words[NUT_BACKED];
    if (plot->few)
        return "Next: good, but by too few pulls: take more";
    if (!state_turns_nut(plot->state))
        return plot->state == STATE_GOOD ? "The last in the log is good: leave it"
                                         : "Next: take the last series again: it says nothing";
    if (!plot->before)
        return "Next: not known: two places on one way up are wanted";
    if (plot->move.advice != NUT_TURN)
        return words[plot->move.advice];
    return arena_format(plot->drags.ask->arena, "Next: tighten by %s°%s, measure again",
                        show_places(plot->move.angle, 1).text,
                        plot->move.capped ? ", no more at once" : "");
}

/* What the marks are, in a row above; the words of the move below them. */
static void draw_key(const struct plot *plot)
{
    struct canvas *c = plot->drags.canvas;
    double x = 10;
    for (int lock = LOCK_AFTER; lock >= LOCK_UNSAID; lock--) {
        const char *name = series_lock_word((enum lock)lock);
        drag_plot_mark(c, x, 8, (enum lock)lock);
        canvas_text(c, x + 6, 10.6, ALIGN_LEFT, name);
        x += 22 + canvas_width(c, false, name);
    }
    if (says_turn(plot)) {
        const double corners[] = {x, 4, x + 4, 8, x, 12, x - 4, 8};
        canvas_polygon(c, corners, 4, &ink_sheet);
        canvas_text(c, x + 8, 10.6, ALIGN_LEFT, "next, by the line");
    }
    canvas_bold(c, 7, 23, ALIGN_LEFT, move_words(plot));
}

static const char *room_words(const struct plot *plot)
{
    double added = unit_from_base(plot->lock_added, plot->drags.unit);
    return plot->before && added > 0
               ? arena_format(plot->drags.ask->arena,
                              " The next move leaves room for the %s\u00a0%s that the lock "
                              "added the last time.",
                              show_significant(added, 2).text, plot->drags.unit->shown)
               : "";
}

static void describe(const struct plot *plot)
{
    const struct figure_ask *ask = plot->drags.ask;
    const char *warmth = shop_warmth_word(ask->shop);
    struct judgement last = judge_series(ask->shop, plot->last);
    plot->drags.canvas->figure->caption = arena_format(
        ask->arena,
        "Your log: drag with its U over the place of the nut, %s series alone, turned the "
        "usual way. Full lines: one "
        "way up; broken ones: the lock, and the next move. %s The angles are those of this "
        "lathe and this mark alone.%s",
        warmth, drag_plot_window_words(&plot->drags), room_words(plot));
    plot->drags.canvas->figure->description = arena_format(
        ask->arena,
        "A plot of drag in %s over the nut's angle, %s series of the log. The last, of %s, at "
        "%s, lies at %s: %s. %s.",
        plot->drags.unit->shown, warmth, plot->last->date,
        quantity_text(ask->arena, &plot->last->nut),
        show_significant(unit_from_base(last.drag, plot->drags.unit), 3).text,
        state_words(last.state), move_words(plot));
}

void draw_nut_drag(const struct figure_ask *ask, struct canvas *canvas)
{
    struct plot plot = {.drags = drag_plot_new(ask, canvas, box)};
    struct drag_plot *drags = &plot.drags;
    const char *y_name = axes_name(canvas, "drag", drags->unit->shown);
    find_move(&plot, ask->shop);
    if (!plot.last) {
        axes_draw(canvas, &drags->axes, "place of the nut / °", y_name);
        axes_empty(canvas, &drags->axes, wanted,
                   "The drag over the nut's place, once the log tells both.");
        return;
    }
    set_axes(&plot, ask->shop);
    drag_plot_limits(drags);
    axes_draw(canvas, &drags->axes, "place of the nut / °", y_name);
    axes_ticks_x(canvas, &drags->axes, axes_step(drags->axes.x_to - drags->axes.x_from, 8));
    axes_ticks_y(canvas, &drags->axes, axes_step(drags->axes.y_to - drags->axes.y_from, 6));
    draw_places(&plot);
    if (says_turn(&plot))
        draw_move(&plot);
    draw_key(&plot);
    describe(&plot);
}
