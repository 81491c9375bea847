/* Per speed band: the maker's limits, the same in the other system, and what the
 * gauge may read on this drum. */
#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/nut.h"
#include "judge/uncertainty.h"
#include "judge/window.h"
#include "physics/physics.h"
#include "tables/common.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct unit *maker, *other, *gauge;
    bool card; /* few columns, the gauge's unit only */
    bool any_closed;
};

static void add_columns(const struct builder *b)
{
    struct table *table = b->table;
    table_column(table, COLUMN_TEXT, "speed band", NULL);
    table_column(table, COLUMN_NUMBER, "low pull", b->gauge->shown)->strong = true;
    table_column(table, COLUMN_NUMBER, "aim", b->gauge->shown);
    table_column(table, COLUMN_NUMBER, "high pull", b->gauge->shown)->strong = true;
    if (given(&b->ask->shop->limits.never_exceed))
        table_column(table, COLUMN_NUMBER, b->card ? "never above" : "never exceed",
                     b->gauge->shown);
    if (b->card)
        return;
    table_column(table, COLUMN_NUMBER, "low limit", b->maker->shown);
    table_column(table, COLUMN_NUMBER, "high limit", b->maker->shown);
    table_column(table, COLUMN_NUMBER, "low limit", b->other->shown);
    table_column(table, COLUMN_NUMBER, "high limit", b->other->shown);
}

/* The maker's own digits in the maker's unit; inward in any other. */
static void put_limit(const struct builder *b, struct cell *cell, const struct quantity *limit,
                      const struct unit *unit, enum limit_end side)
{
    double value = quantity_in(limit, unit);
    if (limit->unit == unit)
        put_number(b->ask->arena, cell, value, limit->digits);
    else
        put_number(b->ask->arena, cell, value, show_limit_in(limit, unit, side).text);
}

static void put_limits(const struct builder *b, struct cell *cell, const struct band *band)
{
    put_limit(b, cell++, &band->low.q, b->maker, LIMIT_LOW);
    put_limit(b, cell++, &band->high.q, b->maker, LIMIT_HIGH);
    put_limit(b, cell++, &band->low.q, b->other, LIMIT_LOW);
    put_limit(b, cell, &band->high.q, b->other, LIMIT_HIGH);
}

/* Gives the cell behind the window. */
static struct cell *put_window(struct builder *b, struct cell *cell,
                               const struct pull_window *window)
{
    if (window->closed) {
        b->any_closed = true;
        for (int i = 0; i < 3; i++)
            put_text(cell++, "none");
    } else {
        put_steps(b->ask, cell++, window->low, window->low_steps);
        put_steps(b->ask, cell++, window->aim, window->aim_steps);
        put_steps(b->ask, cell++, window->high, window->high_steps);
    }
    if (given(&b->ask->shop->limits.never_exceed))
        put_steps(b->ask, cell++, window->never, window->never_steps);
    return cell;
}

static void add_row(struct builder *b, const struct band *band)
{
    const struct shop *shop = b->ask->shop;
    struct pull_window window = pull_window_of(shop, band);
    struct cell *row = table_row(b->table);
    put_text(row, band_text(b->ask->arena, band));
    row->strong = band == shop_own_band(shop);
    struct cell *limits = put_window(b, row + 1, &window);
    if (!b->card)
        put_limits(b, limits, band);
}

static void note_pages(const struct builder *b)
{
    struct buffer pages = {0};
    const struct limits *limits = &b->ask->shop->limits;
    for (size_t i = 0; i < limits->band_count; i++)
        if (limits->bands[i].page)
            buffer_print(&pages, "%s%s: page %s", pages.length ? "; " : "",
                         band_text(b->ask->arena, &limits->bands[i]), limits->bands[i].page);
    if (pages.length)
        table_note(b->table, "In the manual: %s.", pages.bytes);
    buffer_free(&pages);
}

static void note_own_band(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    table_note(b->table,
               "Your band: %s, for a top speed of %s. A speed on a band's edge takes the "
               "stricter band.",
               band_text(b->ask->arena, shop_own_band(shop)),
               quantity_text(b->ask->arena, &shop->lathe.top_speed.q));
}

/* The states below the table have no room on a small card. */
static void note_good(const struct builder *b)
{
    struct guarded_window good = guarded_window_own(b->ask->shop);
    const struct decimal *step = &b->ask->shop->gauge.step.q.typed;
    if (good.closed)
        return;
    struct shown from = show_steps(good.low_steps, step),
                 to = show_steps(good.high_steps, step);
    table_note(b->table, "Your band, bold: good from %s to %s\u00a0%s.", from.text, to.text,
               b->gauge->shown);
}

/* Which pull counts, and for what state of the spindle. */
static void note_kind(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    if (shop->limits.torque == TORQUE_RUNNING)
        table_note(b->table, "The steady pull counts, never the breakaway.");
    else
        table_note(b->table,
                   "The pull at which the spindle starts counts, not the steady pull.");
    table_note(b->table, "For %s, %s; the %s.%s", shop_bearings_word(shop),
               shop_warmth_word(shop), shop_basis_word(shop),
               shop->limits.basis == BASIS_INCREASE ? " The slack drag is in the pulls." : "");
}

/* The windows are those of a locked nut, and locking adds drag: where one stops before it
 * is lower, by what the log says that it added. */
static void note_lock(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct quantity added;
    double aim = lock_added_known(shop, &added) && added.base > 0
                     ? nut_aim_before_lock(shop, shop_own_band(shop), added.base)
                     : 0;
    if (aim > 0) {
        const struct quantity *step = &shop->gauge.step.q;
        int64_t steps = llround(aim / shop_radius(shop) / step->base);
        table_note(b->table,
                   "For a locked nut. Locking added %s the last time: stop at %s before it.",
                   quantity_text(b->ask->arena, &added),
                   arena_format(b->ask->arena, "%s\u00a0%s",
                                show_steps(steps, &step->typed).text, b->gauge->shown));
    } else {
        table_note(b->table,
                   "For a locked nut. Locking adds drag: stop lower before it, at ________.");
    }
}

static void add_notes(const struct builder *b)
{
    if (b->any_closed)
        note_closed(b->table);
    note_bands_beyond(b->table, b->ask->shop);
    if (b->card) {
        note_good(b);
        note_kind(b);
        return;
    }
    note_own_band(b);
    note_lock(b);
    note_inward(b->table, b->ask->shop);
    note_pages(b);
    note_inputs(b->table, b->ask->shop, true);
}

static bool read_show(const struct table_ask *ask, bool *card)
{
    struct place at;
    const char *show = option_value(ask, "show", &at);
    *card = show && strcmp(show, "card") == 0;
    if (show && !*card)
        fault(ask->diags, at, "show cannot be '%s'; write 'show: card', or leave the line out",
              show);
    return !show || *card;
}

/* A card is read from far, without its notes: it says by its caption when it is no use. */
static const char *caption(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct guarded_window good = guarded_window_own(shop);
    bool useless = b->card && good.closed && !good.plain.closed;
    bool running = shop->limits.torque == TORQUE_RUNNING;
    return arena_format(b->ask->arena, "%s pull on the %s with %s cord",
                        useless   ? "NO PULL IS GOOD, this gauge and drum cannot decide:"
                        : running ? "Steady"
                                  : "Starting",
                        drum_text(b->ask->arena, &shop->drum.diameter.q),
                        quantity_text(b->ask->arena, &shop->cord.diameter.q));
}

struct table *make_pull_windows(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct builder b = {.ask = ask,
                        .maker = shop->limits.bands[0].high.q.unit,
                        .gauge = shop->gauge.step.q.unit};
    b.other = unit_other_system(b.maker);
    if (!read_show(ask, &b.card))
        return NULL;
    b.table = table_new(ask->arena, "pull-windows", caption(&b));
    add_columns(&b);
    for (size_t i = 0; i < shop->limits.band_count; i++)
        add_row(&b, &shop->limits.bands[i]);
    add_notes(&b);
    return b.table;
}

/* Per speed band: how sure a drag is at the limits, and which mean pulls are good
 * for certain. */

struct sure_windows_builder {
    const struct table_ask *ask;
    struct table *table;
    bool any_closed;
    double least, most; /* of the windows' pulls, N */
};

static void sure_windows_add_columns(const struct sure_windows_builder *b)
{
    const struct shop *shop = b->ask->shop;
    const char *gauge = shop->gauge.step.q.unit->shown;
    const char *maker = shop->limits.bands[0].high.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "speed band", NULL);
    table_column(b->table, COLUMN_NUMBER, "low pull", gauge);
    table_column(b->table, COLUMN_NUMBER, "good from", gauge)->strong = true;
    table_column(b->table, COLUMN_NUMBER, "good to", gauge)->strong = true;
    table_column(b->table, COLUMN_NUMBER, "high pull", gauge);
    table_column(b->table, COLUMN_NUMBER, "U at low", maker);
    table_column(b->table, COLUMN_NUMBER, "U at high", maker);
}

/* U as it decided; rounded up once more where the column has another unit. */
static void put_sureness(const struct sure_windows_builder *b, struct cell *cell,
                         const struct shown_uncertainty *sureness, const struct unit *of)
{
    const struct unit *unit = b->ask->shop->limits.bands[0].high.q.unit;
    double base = decimal_to_double(&sureness->exact);
    struct shown_uncertainty shown = of == unit ? *sureness : uncertainty_shown_in(base, unit);
    char digits[DECIMAL_TEXT];
    decimal_print(&shown.typed, shown.places, digits);
    put_number(b->ask->arena, cell, unit_from_base(base, unit), digits);
}

static void put_good(struct sure_windows_builder *b, struct cell *cell,
                     const struct guarded_window *window)
{
    if (window->closed) {
        b->any_closed = true;
        put_text(cell, "none");
        put_text(cell + 1, "none");
        return;
    }
    put_steps(b->ask, cell, window->low, window->low_steps);
    put_steps(b->ask, cell + 1, window->high, window->high_steps);
}

static void put_plain(struct sure_windows_builder *b, struct cell *low, struct cell *high,
                      const struct pull_window *window)
{
    if (window->closed) {
        put_text(low, "none");
        put_text(high, "none");
        return;
    }
    put_steps(b->ask, low, window->low, window->low_steps);
    put_steps(b->ask, high, window->high, window->high_steps);
}

static void sure_windows_add_row(struct sure_windows_builder *b, const struct band *band)
{
    const struct shop *shop = b->ask->shop;
    struct drum_setup setup = shop_drum_setup(shop);
    struct guarded_window window = guarded_window_on(shop, band, &setup);
    struct cell *row = table_row(b->table);
    b->least = fmin(b->least, window.plain.low);
    b->most = fmax(b->most, window.plain.high);
    put_text(row, band_text(b->ask->arena, band));
    row->strong = band == shop_own_band(shop);
    put_plain(b, row + 1, row + 4, &window.plain);
    put_good(b, row + 2, &window);
    put_sureness(b, row + 5, &window.low_u, band->low.q.unit);
    put_sureness(b, row + 6, &window.high_u, band->high.q.unit);
}

static void note_sources(const struct sure_windows_builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct arena *arena = b->ask->arena;
    const struct band *own = shop_own_band(shop);
    double aim = pull_window_of(shop, own).aim;
    const char *gauge = gauge_source_words(gauge_source_at(shop, aim));
    const char *scatter = given(&shop->pulls.scatter)
                              ? quantity_text(arena, &shop->pulls.scatter.q)
                              : arena_format(arena, "%g\u00a0%%", PULLS_SCATTER);
    const char *skew = given(&shop->pulls.skew) ? quantity_text(arena, &shop->pulls.skew.q)
                                                : arena_format(arena, "%g°", PULLS_SKEW);
    table_note(
        b->table,
        "U covers 95 cases in 100: %d pulls that scatter by %s, the gauge's step and zero, its "
        "error from %s, the tolerances of drum and cord, a pull up to %s askew.",
        shop->pulls.count ? shop->pulls.count : PULLS_COUNT, scatter, gauge, skew);
}

struct table *make_sure_windows(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct sure_windows_builder b = {.ask = ask, .least = INFINITY};
    b.table =
        table_new(ask->arena, "sure-windows",
                  arena_format(ask->arena, "Mean pulls that are good with U taken off, %s",
                               drum_text(ask->arena, &shop->drum.diameter.q)));
    sure_windows_add_columns(&b);
    for (size_t i = 0; i < shop->limits.band_count; i++)
        sure_windows_add_row(&b, &shop->limits.bands[i]);
    if (b.any_closed)
        table_note(
            b.table,
            "none: this gauge and drum cannot decide. Check the gauge with weights, take a "
            "finer gauge, or a smaller drum, which asks for more pull.");
    note_bands_beyond(b.table, shop);
    note_sources(&b);
    note_reach(b.table, shop, b.least, b.most);
    note_inward(b.table, shop);
    note_inputs(b.table, shop, true);
    return b.table;
}

/* Gauge readings against the drag they mean, on this drum and its neighbours, each
 * with its state. */

enum { MOST_ROWS = 36, MOST_MORE = 3 };

struct reading_to_drag_builder {
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
static struct rows choose_rows(const struct reading_to_drag_builder *b)
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
static int choose_places(const struct reading_to_drag_builder *b)
{
    double radius = effective_radius(b->drums[0], &b->ask->shop->cord.diameter.q);
    double step = drag_from_pull(b->ask->shop->gauge.step.q.base, radius);
    double places = ceil(-log10(unit_from_base(step, b->drag_unit)));
    return places < 0 ? 0 : places > 6 ? 6 : (int)places;
}

static void reading_to_drag_add_columns(const struct reading_to_drag_builder *b)
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
static int side_of_shown(const struct reading_to_drag_builder *b, const char *text)
{
    const struct shop *shop = b->ask->shop;
    double shown = strtod(text, NULL), hair = 1e-9 * shown;
    double low = unit_from_base(pulled_limit_near(shop, &b->band->low), b->drag_unit);
    double high = unit_from_base(pulled_limit_near(shop, &b->band->high), b->drag_unit);
    return shown < low - hair ? -1 : shown > high + hair ? 1 : 0;
}

/* With a digit more, or some, where rounding would put the figure on a limit's other side:
 * 4.99 is below a limit of 5, and 5.0 would not look so. */
static struct shown show_drag(const struct reading_to_drag_builder *b, double drag, int side)
{
    struct shown shown = show_places(drag, b->places);
    for (int more = 1; b->band && more <= MOST_MORE && side_of_shown(b, shown.text) != side;
         more++)
        shown = show_places(drag, b->places + more);
    return shown;
}

static void reading_to_drag_add_row(const struct reading_to_drag_builder *b, int64_t steps)
{
    const struct shop *shop = b->ask->shop;
    const struct quantity *cord = &shop->cord.diameter.q;
    double pull = (double)steps * shop->gauge.step.q.base;
    struct cell *cell = table_row(b->table);
    put_steps(b->ask, cell++, pull, steps);
    for (size_t i = 0; i < b->drum_count; i++) {
        double drag = unit_from_base(drag_from_pull(pull, effective_radius(b->drums[i], cord)),
                                     b->drag_unit);
        int side =
            b->band ? reading_against_limits(shop, b->band, b->drums[i], cord, steps) : 0;
        put_number(b->ask->arena, cell++, drag, show_drag(b, drag, side).text);
        if (b->band)
            put_state(cell++, side);
    }
}

static void reading_to_drag_add_notes(const struct reading_to_drag_builder *b)
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

static struct marks window_marks(const struct reading_to_drag_builder *b)
{
    const struct shop *shop = b->ask->shop;
    if (!b->band)
        return (struct marks){.count = 0};
    struct pull_window window = pull_window_of(shop, b->band);
    if (window.closed)
        return (struct marks){.count = 0};
    return (struct marks){{window.low_steps, window.aim_steps, window.high_steps}, 3};
}

static void add_mark(const struct reading_to_drag_builder *b, int64_t steps)
{
    reading_to_drag_add_row(b, steps);
    b->table->cells[(b->table->row_count - 1) * b->table->column_count].strong = true;
}

static void add_rows(const struct reading_to_drag_builder *b)
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
            reading_to_drag_add_row(b, steps);
    }
}

struct table *make_reading_to_drag(const struct table_ask *ask)
{
    struct reading_to_drag_builder b = {.ask = ask};
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
    reading_to_drag_add_columns(&b);
    add_rows(&b);
    reading_to_drag_add_notes(&b);
    return b.table;
}

/* For a manual that states a pull at a radius of its own: the same pull on this
 * drum, and the window at that arm. */

/* Round arms of both systems, for a shop that names none of its own. */
static const char *const common_arms[] = {"25 mm",  "1 in", "50 mm",  "2 in",
                                          "75 mm",  "3 in", "100 mm", "4 in",
                                          "150 mm", "6 in", "300 mm", "12 in"};

enum { COMMON_ARMS = sizeof common_arms / sizeof common_arms[0] };

struct arm_equivalents_builder {
    const struct table_ask *ask;
    struct table *table;
    const struct band *band;
    bool any_closed, any_beyond;
};

static void arm_equivalents_add_columns(const struct arm_equivalents_builder *b)
{
    const char *unit = b->ask->shop->gauge.step.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "arm", NULL);
    table_column(b->table, COLUMN_NUMBER, "pull on this drum for a pull of 1 at the arm", NULL);
    if (!b->band)
        return;
    table_column(b->table, COLUMN_NUMBER, "low pull at the arm", unit);
    table_column(b->table, COLUMN_NUMBER, "high pull at the arm", unit);
}

static void arm_equivalents_put_window(struct arm_equivalents_builder *b, struct cell *cell,
                                       const struct quantity *arm)
{
    struct pull_window window = pull_window_at_arm(b->ask->shop, b->band, arm);
    if (!put_pulls(b->ask, cell, &window))
        b->any_closed = true;
    if (most_pull_of(b->ask->shop, &window).beyond)
        b->any_beyond = true;
}

static void arm_equivalents_add_row(struct arm_equivalents_builder *b,
                                    const struct quantity *arm, bool maker)
{
    const struct shop *shop = b->ask->shop;
    double radius = shop_radius(shop);
    double factor = drag_pull_at_arm(1, arm->base, radius);
    const char *text = quantity_text(b->ask->arena, arm);
    struct cell *cell = table_row(b->table);
    put_text(cell, maker ? arena_format(b->ask->arena, "%s, the maker's", text) : text);
    cell->strong = maker;
    put_number(b->ask->arena, cell + 1, factor, show_significant(factor, 4).text);
    if (b->band)
        arm_equivalents_put_window(b, cell + 2, arm);
}

static void add_common_rows(struct arm_equivalents_builder *b)
{
    for (size_t i = 0; i < COMMON_ARMS; i++) {
        struct quantity arm;
        struct quantity_fault ignored;
        if (!quantity_parse(common_arms[i], KIND_LENGTH, &arm, &ignored))
            abort(); /* the list above is wrong */
        arm_equivalents_add_row(b, &arm, false);
    }
}

struct table *make_arm_equivalents(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct arm_equivalents_builder b = {.ask = ask};
    if (!asked_band(ask, &b.band))
        return NULL;
    b.table = table_new(ask->arena, "arm-equivalents",
                        arena_format(ask->arena, "Pulls at other arms against the %s, %s",
                                     drum_text(ask->arena, &shop->drum.diameter.q),
                                     band_or_none(ask->arena, b.band)));
    arm_equivalents_add_columns(&b);
    if (given(&shop->limits.maker_arm))
        arm_equivalents_add_row(&b, &shop->limits.maker_arm.q, true);
    for (size_t i = 0; i < shop->arms.count; i++)
        arm_equivalents_add_row(&b, &shop->arms.items[i].q, false);
    if (shop->arms.count == 0)
        add_common_rows(&b);
    if (b.any_closed)
        note_closed(b.table);
    if (b.any_beyond)
        table_note(b.table, "The shorter arms are beyond the gauge. %s", BEYOND_THE_GAUGE_RULE);
    table_note(b.table,
               "An arm is a radius, from the middle of the spindle to the line of pull.");
    if (b.band)
        note_inward(b.table, shop);
    note_inputs(b.table, shop, true);
    return b.table;
}
