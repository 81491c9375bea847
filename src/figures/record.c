/* What the logs say: how far each known weight lies off their line, the drag
 * at each place of the nut, and the drag over the years. */
#include "figures/figures.h"
#include "figures/plot.h"
#include "judge/nut.h"
#include "judge/window.h"
#include "number/show.h"
#include "report/words.h"

#include <math.h>

/* ---- known weights ---- */

static const struct ink ink_known = {.stroke = STROKE_THIN, .hatch = -45};

struct residuals {
    struct plot plot; /* both axes in the gauge's unit */
    const struct shop *shop;
    const struct gauge_check *check; /* in force; NULL: none */
    const struct band *band;         /* the lathe's own; NULL without limits on file */
    struct pull_window window;       /* of that band */
};

/* What a reading shows more than the line says, N. */
static double residual_of(const struct residuals *r, const struct weighing *weighing)
{
    double force = weighing_force(r->shop, weighing);
    return weighing->reading.base - gauge_line_reading(&r->check->line, force);
}

/* Both ways alike; at least a step of the gauge. */
static void fit_residuals(struct residuals *r)
{
    double most = r->shop->gauge.step.q.base;
    for (size_t i = 0; i < r->check->count; i++)
        most = fmax(most, fabs(residual_of(r, r->check->rows[i])));
    double from = gauge_check_from(r->check), to = gauge_check_to(r->check);
    most = fmax(most, gauge_known_within(r->check, from));
    most = fmax(most, gauge_known_within(r->check, to));
    r->plot.y_to = unit_from_base(1.1 * most, r->plot.y_unit);
    r->plot.y_from = -r->plot.y_to;
    r->plot.x_to =
        unit_from_base(1.04 * fmax(to, r->band ? r->window.high : 0), r->plot.x_unit);
}

/* How well the line is known, above and below it, hatched. */
static void draw_known_within(const struct residuals *r)
{
    enum { POINTS = 40 };
    double from = gauge_check_from(r->check), to = gauge_check_to(r->check);
    for (int sign = 1; sign >= -1; sign -= 2)
        for (int i = 0; i <= POINTS; i++) {
            double share = (double)(sign > 0 ? i : POINTS - i) / POINTS;
            double force = from + (to - from) * share;
            plot_to(&r->plot, force, sign * gauge_known_within(r->check, force));
        }
    canvas_close(r->plot.canvas);
    canvas_ink(r->plot.canvas, &ink_known);
}

/* Rings lie below dots and are wider: a dot within a ring is two readings. */
static void draw_reading(struct canvas *c, double x, double y, bool down)
{
    canvas_circle(c, x, y, down ? 3.6 : 2.7, &ink_paper);
    canvas_circle(c, x, y, down ? 3.6 : 1.9, down ? &ink_thick : &ink_solid);
}

static void draw_readings(const struct residuals *r)
{
    const struct gauge_check *check = r->check;
    for (int down = 1; down >= 0; down--)
        for (size_t i = 0; i < check->count; i++)
            if (check->rows[i]->down == down)
                draw_reading(r->plot.canvas,
                             plot_x(&r->plot, weighing_force(r->shop, check->rows[i])),
                             plot_y(&r->plot, residual_of(r, check->rows[i])), down);
}

static void draw_residuals_key(const struct residuals *r)
{
    struct canvas *c = r->plot.canvas;
    double x = 10;
    for (int down = 0; down < 2; down++) {
        draw_reading(c, x, KEY_MIDDLE, down);
        x = plot_key(&r->plot, x + 7, down ? "unloading" : "loading") + 17;
    }
    canvas_box(c, x - 4, KEY_MIDDLE - 4, 14, 8, &ink_known);
    x = plot_key(&r->plot, x + 14, "known within") + 18;
    if (!r->band)
        return;
    canvas_span(c, x - 4, KEY_MIDDLE, x + 14, KEY_MIDDLE);
    plot_key(&r->plot, x + 18, "your pull window");
}

static void describe_residuals(const struct residuals *r)
{
    const struct gauge_line *line = &r->check->line;
    struct figure *figure = r->plot.canvas->figure;
    struct arena *arena = r->plot.canvas->arena;
    const struct unit *unit = r->plot.x_unit;
    double pull = r->band ? r->window.aim : gauge_usual_pull(r->shop);
    double within = unit_from_base(gauge_known_within(r->check, pull), unit);
    const char *reach = !r->band ? "There is no limit on file, so no window stands here."
                        : gauge_check_covers(r->check, r->window.low) &&
                                gauge_check_covers(r->check, r->window.high)
                            ? "The weights reach over your whole window."
                            : "The weights do not reach over your whole window.";
    /* Readings that agree say no more than that they agree within the step. */
    const char *scatter =
        line->sd < r->shop->gauge.step.q.base / 10
            ? "less than a tenth of a step"
            : arena_format(arena, "%s\u00a0%s",
                           show_significant(unit_from_base(line->sd, unit), 2).text,
                           unit->shown);
    figure->caption = arena_format(
        arena,
        "The check of %s: how far each of its %zu readings lies off their line. Hatched: how "
        "well "
        "the force is known (95 of 100), as far as the weights speak. "
        "Points that wander, or rings all on one side of the dots, ask for a cause. %s",
        r->check->date, line->count, reach);
    figure->description = arena_format(
        arena,
        "A plot of reading less line in %s over the force. The line of the readings is %s\u00a0"
        "%s at no load and %s of the force; the readings scatter about it by %s. At a "
        "pull of %s\u00a0%s the gauge is known within %s\u00a0%s. %s",
        unit->shown, show_significant(unit_from_base(line->intercept, unit), 3).text,
        unit->shown, show_significant(line->slope, 5).text, scatter,
        show_significant(unit_from_base(pull, unit), 3).text, unit->shown,
        show_up(within, 3).text, unit->shown, reach);
}

void draw_gauge_residuals(const struct results *results, struct canvas *canvas)
{
    const struct shop *shop = results->shop;
    const struct unit *unit = shop->gauge.step.q.unit;
    struct residuals r = {.plot = {canvas, 40, 46, 264, 150, .numbered = true},
                          .shop = shop,
                          .check = results->known.gauge.check,
                          .band = results->band};
    r.plot.x_unit = r.plot.y_unit = unit;
    const char *x_name = axis_name(canvas->arena, "force", unit->shown);
    const char *y_name = axis_name(canvas->arena, "reading less line", unit->shown);
    if (r.band)
        r.window = results->own->plain;
    if (!r.check) {
        plot_empty(&r.plot, x_name, y_name,
                   "There is no line through known weights yet. Hang three different loads, "
                   "each going up and coming down, and write them into gauge-check.csv.",
                   "The gauge against known weights, once there are any.");
        return;
    }
    fit_residuals(&r);
    draw_known_within(&r);
    if (r.band) { /* where its pulls lie */
        double left = plot_x(&r.plot, r.window.low), right = plot_x(&r.plot, r.window.high);
        double y = r.plot.top - 4;
        canvas_line(canvas, left, y - 4, left, r.plot.bottom, &ink_hidden);
        canvas_line(canvas, right, y - 4, right, r.plot.bottom, &ink_hidden);
        canvas_span(canvas, left, y, right, y);
    }
    plot_across(&r.plot, plot_y(&r.plot, 0), &ink_centre);
    plot_axes(&r.plot, x_name, y_name);
    plot_ticks_x(&r.plot, 8);
    plot_ticks_y(&r.plot, 6);
    draw_readings(&r);
    draw_residuals_key(&r);
    describe_residuals(&r);
}

/* ---- plots of logged drags: the scale with the limits of the lathe's own band, and the series
 * with their U ---- */

/* A limit that lies further off than so many windows is not drawn. */
static const double NEAR = 1.5;

/* Half the ends of a bar: they stand out beside a mark that is taller than U. */
static const double CAP = 4.5;

struct drag_plot {
    struct plot plot; /* y: drag */
    const struct results *results;
    const struct shop *shop;
    const struct band *band; /* NULL without limits on file; then these are NAN: */
    double low, aim, high;   /* limits as they are pulled, N.m */
    double never;            /* also NAN where it is not given */
    const struct judged **shown;
    size_t count;
};

/* The series of the log that `is_shown` takes; y reaches from limit to limit. */
static struct drag_plot
new_drag_plot(const struct results *results, struct canvas *canvas, double top, double bottom,
              bool (*is_shown)(const struct shop *shop, const struct judged *row))
{
    const struct shop *shop = results->shop;
    struct drag_plot drags = {
        .plot = {canvas, 34, top, 252, bottom, .y_unit = shop_drag_unit(shop)},
        .results = results,
        .shop = shop,
        .band = results->band};
    drags.low = drags.aim = drags.high = drags.never = NAN;
    if (drags.band) {
        drags.low = whole_limit(&results->known, &drags.band->low);
        drags.high = whole_limit(&results->known, &drags.band->high);
        drags.aim = nut_aim(&results->known, drags.band);
        if (given(&shop->limits.never_exceed))
            drags.never = whole_limit(&results->known, &shop->limits.never_exceed);
    }
    drags.plot.y_from = unit_from_base(drags.low, drags.plot.y_unit);
    drags.plot.y_to = unit_from_base(drags.high, drags.plot.y_unit);
    for (size_t i = 0; i < results->row_count; i++)
        if (is_shown(shop, &results->rows[i]))
            *ARENA_PUSH(canvas->arena, drags.shown, drags.count) = &results->rows[i];
    return drags;
}

/* The drag of a series in the plot's unit. */
static double shown_drag(const struct drag_plot *drags, const struct judged *shown)
{
    return unit_from_base(shown->judgement.drag, drags->plot.y_unit);
}

/* Makes room on the y axis for a drag (N.m) with its U on both sides. */
static void reach_drag(struct plot *plot, double drag, double expanded)
{
    plot->y_from = fmin(plot->y_from, unit_from_base(drag - expanded, plot->y_unit));
    plot->y_to = fmax(plot->y_to, unit_from_base(drag + expanded, plot->y_unit));
}

/* A sixth of blank above and below, once all drags have been reached. */
static void fit_drags(struct drag_plot *drags)
{
    struct plot *plot = &drags->plot;
    double most = unit_from_base(drags->high + NEAR * (drags->high - drags->low), plot->y_unit);
    double never = unit_from_base(drags->never, plot->y_unit);
    if (never <= fmax(most, plot->y_to))
        plot->y_to = fmax(plot->y_to, never);
    double span = plot->y_to - plot->y_from;
    if (!(span > 0)) /* equal limits, and no drag beside them */
        span = plot->y_to;
    plot->y_from = fmax(0, plot->y_from - span / 6);
    plot->y_to += span / 6;
}

/* In the maker's own digits. Where the slack drag is added to it, no number stands here:
 * the table of pulls has it, rounded inward. */
static const char *limit_words(const struct drag_plot *drags, const char *name,
                               const struct measure *limit)
{
    if (drags->shop->limits.basis == BASIS_INCREASE || limit->q.unit != drags->plot.y_unit)
        return name;
    return arena_format(drags->plot.canvas->arena, "%s %s", name, limit->q.digits);
}

/* The window's edges, hatched along their outer sides, its aim, never-exceed where it is near,
 * with their names at the right, each above the one below it; nothing without limits. */
static void draw_limits(const struct drag_plot *drags)
{
    const struct plot *plot = &drags->plot;
    if (!drags->band)
        return;
    double low = plot_y(plot, drags->low), high = plot_y(plot, drags->high);
    double aim = plot_y(plot, drags->aim), width = plot->right - plot->left;
    double above = fmax(high - 5, plot->top), below = fmin(low + 5, plot->bottom);
    canvas_box(plot->canvas, plot->left, above, width, fabs(above - high), &ink_hatch);
    canvas_box(plot->canvas, plot->left, low, width, fabs(below - low), &ink_hatch);
    plot_across(plot, high, &ink_thick);
    plot_across(plot, low, &ink_thick);
    plot_across(plot, aim, &ink_centre);
    double next = plot_name_right(plot, 7, low, plot->bottom - 2,
                                  limit_words(drags, "low", &drags->band->low));
    next = plot_name_right(
        plot, 7, aim, next,
        arena_format(plot->canvas->arena, "aim %s",
                     show_significant(unit_from_base(drags->aim, plot->y_unit), 3).text));
    next = plot_name_right(plot, 7, high, next, limit_words(drags, "high", &drags->band->high));
    if (unit_from_base(drags->never, plot->y_unit) <= plot->y_to) {
        double never = plot_y(plot, drags->never);
        plot_across(plot, never, &ink_hidden);
        plot_name_right(plot, 7, never, next, "never exceed");
    }
}

static const char *window_words(const struct drag_plot *drags)
{
    return drags->band ? "Between the hatched edges lies your window."
                       : "There is no limit on file: compare the drags with each other.";
}

/* How a series was locked. */
static void draw_lock(struct canvas *c, double x, double y, enum lock lock)
{
    const double r = 2.6;
    if (lock == LOCK_UNSAID) {
        canvas_line(c, x - r, y - r, x + r, y + r, &ink_thick);
        canvas_line(c, x - r, y + r, x + r, y - r, &ink_thick);
    } else {
        canvas_circle(c, x, y, r, lock == LOCK_AFTER ? &ink_solid : &ink_sheet);
    }
}

/* A mark, and an upright bar from drag - U to drag + U with its ends. */
static void draw_series(const struct plot *plot, double x, const struct judged *shown)
{
    struct canvas *c = plot->canvas;
    double drag = shown->judgement.drag, u = shown->judgement.measured.drag.sureness.expanded;
    double top = plot_y(plot, drag + u), bottom = fmin(plot_y(plot, drag - u), plot->bottom);
    draw_lock(c, x, plot_y(plot, drag), shown->series->lock);
    canvas_line(c, x, top, x, bottom, &ink_thin);
    canvas_line(c, x - CAP, top, x + CAP, top, &ink_thin);
    canvas_line(c, x - CAP, bottom, x + CAP, bottom, &ink_thin);
}

/* ---- the drag at each place of the nut, the window, and the next move ---- */

struct nut_drag {
    struct drag_plot drags;
    const struct judged *last; /* of those that are shown */
    struct advice_given given; /* by the log */
    struct nut_point from;     /* where it turns, */
    struct nut_curve curve;    /* and by what */
};

static bool tells_place(const struct shop *shop, const struct judged *row)
{
    const struct pull_series *series = row->series;
    struct pull_conditions conditions = series_conditions(series);
    return series->nut.unit && conditions_suit_limits(shop, &conditions) && !series->unloaded;
}

/* As the terminal has it. */
static void find_move(struct nut_drag *nut)
{
    const struct results *results = nut->drags.results;
    const struct judged *row = results->latest;
    nut->given = advise_on_row(results, row);
    if (!nut->given.turns)
        return;
    struct nut_places places = nut_places_of_row(row, results->lock_added);
    nut->from = places.points[places.count - 1];
    nut->curve = nut_curve_of(
        &(struct nut_course){places.points, places.count, places.slack, places.slack_u});
}

/* Where the curve arrives. */
static struct nut_point point_after_move(const struct nut_drag *nut)
{
    double angle = nut->from.angle + nut->given.move.angle;
    return (struct nut_point){.angle = angle, .drag = nut_curve_drag(&nut->curve, angle)};
}

static void reach_point(struct plot *plot, struct nut_point point)
{
    plot->x_from = fmin(plot->x_from, point.angle);
    plot->x_to = fmax(plot->x_to, point.angle);
    reach_drag(plot, point.drag, point.expanded);
}

static void fit_places(struct nut_drag *nut)
{
    struct plot *plot = &nut->drags.plot;
    plot->x_from = plot->x_to = nut->last->series->nut.base;
    for (size_t i = 0; i < nut->drags.count; i++)
        reach_point(plot, nut_point_of_row(nut->drags.shown[i]));
    if (nut->given.turns)
        reach_point(plot, point_after_move(nut));
    double span = fmax(plot->x_to - plot->x_from, 5);
    plot->x_from -= span / 12;
    plot->x_to += span / 12;
    fit_drags(&nut->drags);
}

/* A line between two series one after the other: on the way up of the nut, taken alike;
 * or the same place before and after the lock. */
static void join(const struct drag_plot *drags, const struct judged *from,
                 const struct judged *to)
{
    const struct pull_series *a = from->series, *b = to->series;
    bool climbed = series_alike(a, b) && to->row_before && b->nut.base > a->nut.base;
    bool locked = a->lock == LOCK_BEFORE && b->lock == LOCK_AFTER && a->nut.base == b->nut.base;
    if (climbed || locked)
        plot_line(&drags->plot, a->nut.base, from->judgement.drag, b->nut.base,
                  to->judgement.drag, climbed ? &ink_thin : &ink_hidden);
}

static void draw_next(struct canvas *c, double x, double y)
{
    const double corners[] = {x, y - 4, x + 4, y, x, y + 4, x - 4, y};
    canvas_polygon(c, corners, 4, &ink_sheet);
}

static void draw_places(const struct nut_drag *nut)
{
    const struct drag_plot *drags = &nut->drags;
    const struct plot *plot = &drags->plot;
    for (size_t i = 1; i < drags->count; i++)
        join(drags, drags->shown[i - 1], drags->shown[i]);
    for (size_t i = 0; i < drags->count; i++)
        draw_series(plot, plot_x(plot, drags->shown[i]->series->nut.base), drags->shown[i]);
    if (!nut->given.turns)
        return;
    struct nut_point to = point_after_move(nut);
    plot_line(plot, nut->from.angle, nut->from.drag, to.angle, to.drag, &ink_hidden);
    draw_next(plot->canvas, plot_x(plot, to.angle), plot_y(plot, to.drag));
}

static const char *move_words(const struct nut_drag *nut)
{
    if (nut->given.turns)
        return arena_format(
            nut->drags.plot.canvas->arena, "Next: tighten by %s°%s, measure again",
            show_places(nut->given.move.angle, 1).text,
            nut->given.move.capped || nut->given.move.risky ? ", no more at once" : "");
    return arena_format(nut->drags.plot.canvas->arena, "Next: %s",
                        advice_in_brief(nut->given.advice));
}

/* What the marks are, in a row above; the words of the move below them. */
static void draw_nut_key(const struct nut_drag *nut)
{
    const struct plot *plot = &nut->drags.plot;
    double x = 10;
    for (int lock = LOCK_AFTER; lock >= LOCK_UNSAID; lock--) {
        draw_lock(plot->canvas, x, KEY_MIDDLE, (enum lock)lock);
        x = plot_key(plot, x + 6, series_lock_word((enum lock)lock)) + 16;
    }
    if (nut->given.turns) {
        draw_next(plot->canvas, x, KEY_MIDDLE);
        plot_key(plot, x + 8, "next, by the curve");
    }
    canvas_bold(plot->canvas, 7, 23, ALIGN_LEFT, move_words(nut));
}

static void describe_nut_drag(const struct nut_drag *nut)
{
    const struct unit *unit = nut->drags.plot.y_unit;
    struct arena *arena = nut->drags.plot.canvas->arena;
    struct figure *figure = nut->drags.plot.canvas->figure;
    const char *warmth = shop_warmth_word(nut->drags.shop);
    double added = unit_from_base(nut->drags.results->lock_added, unit);
    const char *room = "";
    if (nut->given.advice == ADVICE_TIGHTEN_UNLOCKED && nut->given.turns && added > 0)
        room = arena_format(
            arena,
            " The next move leaves room for the %s\u00a0%s that the lock added the last time.",
            show_significant(added, 2).text, unit->shown);
    figure->caption = arena_format(
        arena,
        "Your log: drag with its U over the place of the nut, %s series alone, turned the "
        "usual way. Full lines: one "
        "way up; broken ones: the lock, and the next move. %s The angles are those of this "
        "lathe and this mark alone.%s",
        warmth, window_words(&nut->drags), room);
    figure->description = arena_format(
        arena,
        "A plot of drag in %s over the nut's angle, %s series of the log. The last, of %s, at "
        "%s, lies at %s: %s. %s.",
        unit->shown, warmth, nut->last->series->date,
        quantity_text(arena, &nut->last->series->nut),
        show_significant(shown_drag(&nut->drags, nut->last), 3).text,
        state_words(nut->last->judgement.state), move_words(nut));
}

void draw_nut_drag(const struct results *results, struct canvas *canvas)
{
    struct nut_drag nut = {.drags = new_drag_plot(results, canvas, 46, 160, tells_place)};
    struct plot *plot = &nut.drags.plot;
    plot->numbered = true;
    const char *x_name = "place of the nut / °";
    const char *y_name = axis_name(canvas->arena, "drag", plot->y_unit->shown);
    if (nut.drags.count == 0) {
        plot_empty(plot, x_name, y_name,
                   "No row of the log that may be judged says where the nut stood. Write the "
                   "nut's angle beside each series of pulls in readings.csv, and draw this "
                   "again.",
                   "The drag over the nut's place, once the log tells both.");
        return;
    }
    nut.last = nut.drags.shown[nut.drags.count - 1];
    find_move(&nut);
    fit_places(&nut);
    draw_limits(&nut.drags);
    plot_axes(plot, x_name, y_name);
    plot_ticks_x(plot, 8);
    plot_ticks_y(plot, 6);
    draw_places(&nut);
    draw_nut_key(&nut);
    describe_nut_drag(&nut);
}

/* ---- the series that closed each job of the log, over the years ---- */

/* Below the axis each year stands between its Januaries, where there is room for it. */
static void draw_years(const struct plot *plot, int first, int last)
{
    double reached = 0;
    for (int year = first; year <= last + 1; year++) {
        double x = plot_x(plot, (double)date_year_days(year));
        double next = plot_x(plot, (double)date_year_days(year + 1));
        plot_tick(plot, x);
        if (year <= last)
            plot_text_apart(plot, (x + next) / 2, arena_format(plot->canvas->arena, "%d", year),
                            &reached);
    }
}

static const char *drag_words(const struct drag_plot *drags, const struct judged *shown)
{
    return arena_format(
        drags->plot.canvas->arena, "%s\u00a0%s on %s, %s",
        show_places(shown_drag(drags, shown), shown->judgement.shown_u.places).text,
        drags->plot.y_unit->shown, shown->series->date, state_words(shown->judgement.state));
}

static void describe_years(const struct drag_plot *drags)
{
    struct canvas *c = drags->plot.canvas;
    const struct judged *first = drags->shown[0];
    const struct judged *last = drags->shown[drags->count - 1];
    canvas_bold(c, 7, 10.6, ALIGN_LEFT,
                drags->count == 1
                    ? "One is no trend: measure again in a year, the same way"
                    : arena_format(c->arena, "The last: %s", drag_words(drags, last)));
    c->figure->caption = arena_format(
        c->arena,
        "The series that closed each job of the log, with its U, %s: the last one the usual "
        "way round and locked, before the log rests for %d days. %s",
        shop_warmth_word(drags->shop), CLOSING_REST_DAYS, window_words(drags));
    c->figure->description = arena_format(
        c->arena, "A plot of drag over the years, with the limits. First %s; last %s.",
        drag_words(drags, first), drag_words(drags, last));
}

static bool closes_job(const struct shop *shop, const struct judged *row)
{
    (void)shop;
    return row->closes;
}

void draw_years_of_drag(const struct results *results, struct canvas *canvas)
{
    struct drag_plot drags = new_drag_plot(results, canvas, 38, 150, closes_job);
    struct plot *plot = &drags.plot;
    const char *y_name = axis_name(canvas->arena, "drag", plot->y_unit->shown);
    if (drags.count == 0) {
        plot_empty(plot, "year", y_name,
                   "No series of the log closes a job yet. Write the locked series, the usual "
                   "way round, into readings.csv, and draw this again.",
                   "The drag over the years, once the log tells it.");
        return;
    }
    int first = date_year(drags.shown[0]->series->date);
    int last = date_year(drags.shown[drags.count - 1]->series->date);
    plot->x_from = (double)date_year_days(first);  /* January before the first ... */
    plot->x_to = (double)date_year_days(last + 1); /* ... to the one after the last */
    for (size_t i = 0; i < drags.count; i++)
        reach_drag(plot, drags.shown[i]->judgement.drag,
                   drags.shown[i]->judgement.measured.drag.sureness.expanded);
    fit_drags(&drags);
    draw_limits(&drags);
    plot_axes(plot, "", y_name);
    plot_ticks_y(plot, 6);
    draw_years(plot, first, last);
    for (size_t i = 0; i < drags.count; i++)
        draw_series(plot, plot_x(plot, (double)date_days(drags.shown[i]->series->date)),
                    drags.shown[i]);
    describe_years(&drags);
}
