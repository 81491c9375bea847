/* Gauge readings against the drag they mean, on this drum and its neighbours, each
 * with its state. */
#include "drag/drag.h"
#include "tables/common.h"
#include "verdict/radius.h"
#include "verdict/window.h"

#include <math.h>
#include <stdlib.h>

enum { MOST_ROWS = 36, MOST_MORE = 3 };

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct band *band;
    const struct unit *drag_unit;
    const struct quantity *drums[3];
    size_t drum_count, fitted;
    int places; /* of the drag */
};

/* Rows from `first` to `last` gauge steps, `stride` steps apart. */
struct rows {
    int64_t first, last, stride;
};

/* The least of 1, 2, 5, 10, 20, ... that leaves few enough rows. */
static int64_t choose_stride(int64_t span)
{
    static const int64_t tens[] = {1, 2, 5};
    for (int64_t power = 1;; power *= 10)
        for (int i = 0; i < 3; i++)
            if (span / (tens[i] * power) < MOST_ROWS)
                return tens[i] * power;
}

/* From a quarter below the window on the fitted drum to a quarter above it; without
 * limits all that the gauge reads. */
static struct rows choose_rows(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    double step = shop->gauge.step.q.base, bottom = 0, top = shop->gauge.capacity.q.base;
    if (b->band) {
        struct pull_window window = pull_window_of(shop, b->band);
        bottom = window.low * 0.75;
        top = window.high * 1.25;
    }
    struct rows rows = {.first = (int64_t)(bottom / step), .last = (int64_t)ceil(top / step)};
    rows.stride = choose_stride(rows.last - rows.first);
    rows.first -= rows.first % rows.stride;
    if (rows.first == 0)
        rows.first = rows.stride;
    rows.last += rows.stride - 1 - (rows.last - 1) % rows.stride;
    int64_t most =
        decimal_steps_not_above(&shop->gauge.capacity.q.exact, &shop->gauge.step.q.exact);
    if (rows.last > most && most > rows.first)
        rows.last = most; /* beyond it there is nothing to read */
    return rows;
}

/* Digits enough to tell one gauge step from the next on the smallest drum. */
static int choose_places(const struct builder *b)
{
    double radius = effective_radius(b->drums[0], &b->ask->shop->cord.diameter.q);
    double step = drag_from_pull(b->ask->shop->gauge.step.q.base, radius);
    double places = ceil(-log10(unit_from_base(step, b->drag_unit)));
    return places < 0 ? 0 : places > 6 ? 6 : (int)places;
}

static void add_columns(const struct builder *b)
{
    struct arena *arena = b->ask->arena;
    table_column(b->table, COLUMN_NUMBER, "pull", b->ask->shop->gauge.step.q.unit->shown);
    for (size_t i = 0; i < b->drum_count; i++) {
        const char *drum = drum_text(arena, b->drums[i]);
        struct column *column =
            table_column(b->table, COLUMN_NUMBER, arena_format(arena, "drag, %s", drum),
                         b->drag_unit->shown);
        column->strong = i == b->fitted;
        if (b->band)
            table_column(b->table, COLUMN_TEXT, arena_format(arena, "state, %s", drum), NULL);
    }
}

static void put_state(struct cell *cell, int side)
{
    /* A cell that began with + or = would be a formula to a spreadsheet. */
    static const char *const words[] = {"below −", "inside =", "above +"};
    static const enum mark marks[] = {MARK_BELOW, MARK_INSIDE, MARK_ABOVE};
    cell->mark = marks[side + 1];
    put_text(cell, words[side + 1]);
}

/* Where a shown figure lies against the limits; one that reads as a limit lies on it. */
static int side_of_shown(const struct builder *b, const char *text)
{
    const struct shop *shop = b->ask->shop;
    double shown = strtod(text, NULL), hair = 1e-9 * shown;
    double low = unit_from_base(pulled_limit_near(shop, &b->band->low), b->drag_unit);
    double high = unit_from_base(pulled_limit_near(shop, &b->band->high), b->drag_unit);
    return shown < low - hair ? -1 : shown > high + hair ? 1 : 0;
}

/* With a digit more, or some, where rounding would put the figure on a limit's other side:
 * 4.99 is below a limit of 5, and 5.0 would not look so. */
static struct shown show_drag(const struct builder *b, double drag, int side)
{
    struct shown shown = show_places(drag, b->places);
    for (int more = 1; b->band && more <= MOST_MORE && side_of_shown(b, shown.text) != side;
         more++)
        shown = show_places(drag, b->places + more);
    return shown;
}

static void add_row(const struct builder *b, int64_t steps)
{
    const struct shop *shop = b->ask->shop;
    const struct quantity *cord = &shop->cord.diameter.q;
    double pull = (double)steps * shop->gauge.step.q.base;
    struct cell *cell = table_row(b->table);
    put_steps(b->ask, cell++, pull, steps);
    for (size_t i = 0; i < b->drum_count; i++) {
        double drag = unit_from_base(drag_from_pull(pull, effective_radius(b->drums[i], cord)),
                                     b->drag_unit);
        int side = b->band ? side_of_reading(shop, b->band, b->drums[i], cord, steps) : 0;
        put_number(b->ask->arena, cell++, drag, show_drag(b, drag, side).text);
        if (b->band)
            put_state(cell++, side);
    }
}

static void add_notes(const struct builder *b)
{
    if (b->band)
        table_note(
            b->table,
            "− below the low limit, = inside the limits, + above the high limit of the band "
            "%s. The state is decided before the drag is rounded for print; where rounding "
            "would hide it, the drag has more digits. Heavy rows: the "
            "low pull, the aim and the high pull on your drum.",
            band_text(b->ask->arena, b->band));
    note_inputs(b->table, b->ask->shop, true);
}

/* The readings of the window itself stand among the round ones. */
struct marks {
    int64_t steps[3];
    size_t count;
};

static struct marks window_marks(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    if (!b->band)
        return (struct marks){.count = 0};
    struct pull_window window = pull_window_of(shop, b->band);
    if (window.closed)
        return (struct marks){.count = 0};
    return (struct marks){{window.low_steps, window.aim_steps, window.high_steps}, 3};
}

static void add_mark(const struct builder *b, int64_t steps)
{
    add_row(b, steps);
    b->table->cells[(b->table->row_count - 1) * b->table->column_count].strong = true;
}

static void add_rows(const struct builder *b)
{
    struct rows rows = choose_rows(b);
    struct marks marks = window_marks(b);
    size_t next = 0;
    int64_t last_mark = -1;
    for (int64_t steps = rows.first; steps <= rows.last; steps += rows.stride) {
        for (; next < marks.count && marks.steps[next] <= steps; next++) {
            if (marks.steps[next] != last_mark)
                add_mark(b, marks.steps[next]);
            last_mark = marks.steps[next];
        }
        if (steps != last_mark)
            add_row(b, steps);
    }
}

struct table *make_reading_to_drag(const struct table_ask *ask)
{
    struct builder b = {.ask = ask};
    if (!asked_band(ask, &b.band))
        return NULL;
    b.drag_unit = b.band ? b.band->high.q.unit : shop_drag_unit(ask->shop);
    b.drum_count = drum_and_neighbours(ask->shop, b.drums, &b.fitted);
    b.places = choose_places(&b);
    b.table = table_new(ask->arena, "reading-to-drag",
                        arena_format(ask->arena, "From the gauge's %s to the drag, %s",
                                     ask->shop->limits.torque == TORQUE_RUNNING
                                         ? "steady reading"
                                         : "highest reading at the start",
                                     band_or_none(ask->arena, b.band)));
    add_columns(&b);
    add_rows(&b);
    add_notes(&b);
    return b.table;
}
