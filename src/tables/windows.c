/* What the gauge may read on this drum: the windows of every band, what doubt leaves of them,
 * what each reading means, and the same at other arms. */
#include "judge/drums.h"
#include "judge/gauge.h"
#include "physics/physics.h"
#include "report/values.h"
#include "report/words.h"
#include "tables/common.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Of a table with windows of all bands: the most of what is beyond the gauge, where some is. */
static void note_bands_beyond(const struct builder *b)
{
    const struct limits *limits = &b->shop->limits;
    struct most_pull most = {0};
    for (size_t i = 0; i < limits->band_count; i++) {
        struct most_pull next = most_pull_of(b->results, &b->results->windows[i].plain);
        if (next.force > most.force)
            most = next;
    }
    const char *words = most_pull_words(b->arena, b->shop, &most);
    if (most.beyond)
        table_note(b->table, "%c%s.", toupper(words[0]), words + 1);
}

/* ---- for each speed band: what the gauge may read, the maker's limits, the same in the other
 * system ---- */

/* The maker's own digits in the maker's unit; inward in any other. */
static void put_limit(struct builder *b, const char *head, const struct quantity *limit,
                      const struct unit *unit, enum limit_end side)
{
    double value = quantity_in(limit, unit);
    if (limit->unit == unit)
        put_number(b, head, unit->shown, value, limit->digits);
    else
        put_number(b, head, unit->shown, value, show_limit_in(limit, unit, side).text);
}

static void add_band(struct builder *b, const struct band *band)
{
    const struct pull_window window = results_window(b->results, band)->plain;
    const struct unit *maker = b->shop->limits.bands[0].high.q.unit;
    const struct unit *units[] = {maker, unit_other_system(maker)};
    next_row(b);
    put_text(b, "speed band", band_text(b->arena, band));
    bold_head(b, band == b->band);
    put_low(b, "low pull", &window)->strong = true;
    put_steps(b, "aim", window.closed ? NAN : window.aim, window.aim_steps);
    put_high(b, "high pull", &window)->strong = true;
    if (given(&b->shop->limits.never_exceed))
        put_steps(b, b->card ? "never above" : "never exceed", window.never,
                  window.never_steps);
    for (int i = 0; i < 2 && !b->card; i++) {
        put_limit(b, "low limit", &band->low.q, units[i], LIMIT_LOW);
        put_limit(b, "high limit", &band->high.q, units[i], LIMIT_HIGH);
    }
}

static void note_pages(const struct builder *b)
{
    struct buffer pages = {0};
    const struct limits *limits = &b->shop->limits;
    for (size_t i = 0; i < limits->band_count; i++)
        if (limits->bands[i].page)
            buffer_print(&pages, "%s%s: page %s", pages.length ? "; " : "",
                         band_text(b->arena, &limits->bands[i]), limits->bands[i].page);
    if (pages.length)
        table_note(b->table, "In the manual: %s.", pages.bytes);
    buffer_free(&pages);
}

static void note_lock(const struct builder *b)
{
    const char *stop = values_fill(b->arena, b->results, "{stop-before-lock}");
    const char *added = "";
    if (b->results->lock_added > 0)
        added = arena_format(b->arena, " It added %s the last time.",
                             quantity_text(b->arena, &b->results->lock_share));
    table_note(b->table, "For a locked nut. Locking adds drag: stop at %s before it.%s", stop,
               added);
}

void make_pull_windows(struct builder *b)
{
    const struct limits *limits = &b->shop->limits;
    const struct guarded_window *good = b->results->own;
    /* On the card the words about it say which pull, and on what; its window stands above. */
    if (b->card)
        b->table->caption = good->closed && !good->plain.closed
                                ? "NO PULL IS GOOD, " CANNOT_DECIDE
                                : "Every speed band";
    for (size_t i = 0; i < limits->band_count; i++)
        add_band(b, &limits->bands[i]);
    note_closed(b);
    note_bands_beyond(b);
    if (b->card)
        return;
    table_note(b->table,
               "Your band: %s, for a top speed of %s. A speed on a band's edge takes the "
               "stricter band.",
               band_text(b->arena, b->band),
               quantity_text(b->arena, &b->shop->lathe.top_speed.q));
    note_lock(b);
    note_inward(b);
    note_pages(b);
    note_inputs(b, true);
}

/* ---- for each speed band: how sure a drag is at the limits, and which mean pulls would be
 * called good ---- */

/* U as it decided; rounded up once more where the column has another unit. */
static void put_limit_uncertainty(struct builder *b, const char *head,
                                  const struct shown_uncertainty *u, const struct unit *of)
{
    const struct unit *unit = b->shop->limits.bands[0].high.q.unit;
    double base = decimal_to_double(&u->exact);
    struct shown_uncertainty other = uncertainty_shown_in(base, unit);
    put_uncertainty(b, head, unit->shown, unit_from_base(base, unit), of == unit ? u : &other);
}

static void note_sources(const struct builder *b)
{
    const struct shop *shop = b->shop;
    double aim = results_window(b->results, b->band)->plain.aim;
    const char *gauge =
        gauge_source_words(gauge_source_at(b->shop, b->results->known.gauge.check, aim));
    table_note(b->table,
               "U covers 95 cases in 100: %d pulls that scatter as your log has it (%s at "
               "first), what "
               "differs from series to series, the gauge's step, zero and place, its error "
               "from %s, the "
               "tolerances of drum and cord, a pull up to %s askew. Good: a chance of "
               "%s\u00a0%% at most "
               "of lying outside the limits.",
               shop->pulls.count.number, quantity_text(b->arena, &shop->pulls.scatter.q), gauge,
               quantity_text(b->arena, &shop->pulls.skew.q),
               show_places(100 * risk_taken, 1).text);
}

void make_sure_windows(struct builder *b)
{
    const struct shop *shop = b->shop;
    double least = INFINITY, most = 0; /* of the windows' pulls, N */
    double step = shop->gauge.step.q.base;
    bool any_closed = false;
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        const struct band *band = &shop->limits.bands[i];
        const struct guarded_window good = b->results->windows[i];
        next_row(b);
        put_text(b, "speed band", band_text(b->arena, band));
        bold_head(b, band == b->band);
        put_low(b, "low pull", &good.plain);
        put_steps(b, "good from", good.closed ? NAN : step * (double)good.low_steps,
                  good.low_steps)
            ->strong = true;
        put_steps(b, "good to", good.closed ? NAN : step * (double)good.high_steps,
                  good.high_steps)
            ->strong = true;
        put_high(b, "high pull", &good.plain);
        put_limit_uncertainty(b, "U at low", &good.low_u, band->low.q.unit);
        put_limit_uncertainty(b, "U at high", &good.high_u, band->high.q.unit);
        least = fmin(least, good.plain.low);
        most = fmax(most, good.plain.high);
        any_closed |= good.closed;
    }
    if (any_closed)
        table_note(b->table, NOTHING_GOOD ".");
    note_bands_beyond(b);
    note_sources(b);
    note_reach(b, least, most);
    note_inward(b);
    note_inputs(b, true);
}

/* ---- gauge readings against the drag they mean, on this drum and its neighbours, each with
 * its state ---- */

enum { MOST_ROWS = 36, MOST_MORE = 3 };

struct drags {
    const struct unit *unit;
    int places;
    const struct quantity *drums[3];
    const char *drag_heads[3], *state_heads[3];
    size_t drum_count, fitted;
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
static struct rows choose_rows(const struct shop *shop, const struct pull_window *window)
{
    double step = shop->gauge.step.q.base;
    double bottom = window ? window->low * 0.75 : 0;
    double top = window ? window->high * 1.25 : shop->gauge.capacity.q.base;
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
static int choose_places(const struct shop *shop, const struct drags *drags)
{
    double radius = effective_radius(drags->drums[0], &shop->cord.diameter.q);
    double step = drag_from_pull(shop->gauge.step.q.base, radius);
    double places = ceil(-log10(unit_from_base(step, drags->unit)));
    return places < 0 ? 0 : places > 6 ? 6 : (int)places;
}

/* Where a shown figure lies against the limits; one that reads as a limit lies on it. */
static int side_of_shown(const struct builder *b, const struct unit *unit, const char *text)
{
    double shown = strtod(text, NULL), hair = 1e-9 * shown;
    double low = unit_from_base(b->band->low.q.base, unit);
    double high = unit_from_base(b->band->high.q.base, unit);
    return shown < low - hair ? -1 : shown > high + hair ? 1 : 0;
}

/* With a digit more, or some, where rounding would put the figure on a limit's other side:
 * 4.99 is below a limit of 5, and 5.0 would not look so. */
static void put_drag_and_state(struct builder *b, const struct drags *drags, size_t i,
                               int64_t steps)
{
    /* A cell that began with + or = would be a formula to a spreadsheet. */
    static const char *const words[] = {"below −", "inside =", "above +"};
    static const enum mark marks[] = {MARK_BELOW, MARK_INSIDE, MARK_ABOVE};
    const struct shop *shop = b->shop;
    const struct quantity *drum = drags->drums[i], *cord = &shop->cord.diameter.q;
    double pull = (double)steps * shop->gauge.step.q.base;
    double radius = effective_radius(drum, cord);
    const struct known *known = &b->results->known;
    double drag = unit_from_base(drag_of_reading(known, radius, pull), drags->unit);
    int side = b->band ? reading_against_limits(known, b->band, radius, steps) : 0;
    struct shown shown = show_places(drag, drags->places);
    for (int more = 1;
         b->band && more <= MOST_MORE && side_of_shown(b, drags->unit, shown.text) != side;
         more++)
        shown = show_places(drag, drags->places + more);
    put_number(b, drags->drag_heads[i], drags->unit->shown, drag, shown.text)->strong =
        i == drags->fitted;
    if (b->band) {
        put_text(b, drags->state_heads[i], words[side + 1]);
        b->table->cells[b->cell_count - 1].mark = marks[side + 1];
    }
}

static void add_reading(struct builder *b, const struct drags *drags, int64_t steps, bool bold)
{
    next_row(b);
    put_steps(b, "pull", (double)steps * b->shop->gauge.step.q.base, steps);
    bold_head(b, bold);
    for (size_t i = 0; i < drags->drum_count; i++)
        put_drag_and_state(b, drags, i, steps);
}

/* The readings of the window itself stand among the round ones, in bold. */
static void add_readings(struct builder *b, const struct drags *drags)
{
    struct pull_window window = {.closed = true};
    if (b->band)
        window = results_window(b->results, b->band)->plain;
    struct rows rows = choose_rows(b->shop, b->band ? &window : NULL);
    const int64_t marks[] = {window.low_steps, window.aim_steps, window.high_steps};
    size_t next = window.closed ? 3 : 0;
    int64_t last_mark = -1;
    for (int64_t steps = rows.first; steps <= rows.last; steps += rows.stride) {
        for (; next < 3 && marks[next] <= steps; next++) {
            if (marks[next] != last_mark)
                add_reading(b, drags, marks[next], true);
            last_mark = marks[next];
        }
        if (steps != last_mark)
            add_reading(b, drags, steps, false);
    }
}

void make_reading_to_drag(struct builder *b)
{
    const struct shop *shop = b->shop;
    struct drags drags = {.unit = b->band ? b->band->high.q.unit : shop_drag_unit(shop)};
    drags.drum_count = drum_and_neighbours(shop, drags.drums, &drags.fitted);
    drags.places = choose_places(shop, &drags);
    for (size_t i = 0; i < drags.drum_count; i++) {
        const char *drum = drum_text(b->arena, drags.drums[i]);
        drags.drag_heads[i] = arena_format(b->arena, "drag, %s", drum);
        drags.state_heads[i] = arena_format(b->arena, "state, %s", drum);
    }
    add_readings(b, &drags);
    if (b->band)
        table_note(
            b->table,
            "− below the low limit, = inside the limits, + above the high limit of the band "
            "%s. The state is decided before the drag is rounded for print; where rounding "
            "would hide it, the drag has more digits. Heavy rows: the "
            "low pull, the aim and the high pull on your drum.",
            band_text(b->arena, b->band));
    note_inputs(b, true);
}

/* ---- for a manual that states a pull at a radius of its own: the same pull on this drum, and
 * the window at that arm ---- */

/* Round arms of both systems, for a shop that names none of its own. */
static const char *const common_arms[] = {"25 mm",  "1 in", "50 mm",  "2 in",
                                          "75 mm",  "3 in", "100 mm", "4 in",
                                          "150 mm", "6 in", "300 mm", "12 in"};

enum { COMMON_ARMS = sizeof common_arms / sizeof common_arms[0] };

/* Returns whether its window is beyond the gauge. */
static bool add_arm(struct builder *b, const struct quantity *arm, bool maker)
{
    const char *text = quantity_text(b->arena, arm);
    next_row(b);
    put_text(b, "arm", maker ? arena_format(b->arena, "%s, the maker's", text) : text);
    bold_head(b, maker);
    put_significant(b, "pull on this drum for a pull of 1 at the arm", NULL,
                    drag_pull_at_arm(1, arm->base, shop_radius(b->shop)), 4);
    if (!b->band)
        return false;
    struct pull_window window = pull_window_on(&b->results->known, b->band, arm->base);
    put_low(b, "low pull at the arm", &window);
    put_high(b, "high pull at the arm", &window);
    return most_pull_of(b->results, &window).beyond;
}

void make_arm_equivalents(struct builder *b)
{
    const struct shop *shop = b->shop;
    bool beyond = false;
    if (given(&shop->limits.maker_arm))
        beyond |= add_arm(b, &shop->limits.maker_arm.q, true);
    for (size_t i = 0; i < shop->arms.count; i++)
        beyond |= add_arm(b, &shop->arms.items[i].q, false);
    for (size_t i = 0; i < COMMON_ARMS && shop->arms.count == 0; i++) {
        struct quantity arm;
        struct quantity_fault ignored;
        if (!quantity_parse(common_arms[i], KIND_LENGTH, &arm, &ignored))
            abort(); /* the list above is wrong */
        beyond |= add_arm(b, &arm, false);
    }
    note_closed(b);
    if (beyond)
        table_note(b->table, "The shorter arms are beyond the gauge. %s",
                   beyond_rule_words(b->arena, b->shop));
    table_note(b->table,
               "An arm is a radius, from the middle of the spindle to the line of pull.");
    if (b->band)
        note_inward(b);
    note_inputs(b, true);
}
