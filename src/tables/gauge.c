/* The gauge's check, a row for each load that was hung: errors in the manner of ISO
 * 7500-1, q of the reading, b of repeated readings, v between unloading and loading. */
#include "judge/gauge.h"
#include "judge/window.h"
#include "tables/common.h"

#include <math.h>

/* The readings of one load in one direction. */
struct readings {
    size_t count;
    double sum, least, most;
};

struct load {
    const struct quantity *typed;
    double force;
    struct readings up, down;
};

struct builder {
    const struct table_ask *ask;
    struct table *table;
    struct gauge_check check;
    struct load loads[MOST_WEIGHINGS];
    size_t count;
};

static struct load *load_of(struct builder *b, const struct weighing *weighing)
{
    for (size_t i = 0; i < b->count; i++)
        if (b->loads[i].typed->unit->kind == weighing->load.unit->kind &&
            decimal_compare(&b->loads[i].typed->exact, &weighing->load.exact) == 0)
            return &b->loads[i];
    struct load *load = &b->loads[b->count++];
    *load = (struct load){.typed = &weighing->load,
                          .force = weighing_force(b->ask->shop, weighing)};
    return load;
}

static void add_reading(struct readings *readings, double reading)
{
    readings->least = readings->count ? fmin(readings->least, reading) : reading;
    readings->most = readings->count ? fmax(readings->most, reading) : reading;
    readings->sum += reading;
    readings->count++;
}

static void gather(struct builder *b)
{
    const struct weighings *log = &b->ask->shop->weighings;
    for (size_t i = 0; i < log->count; i++) {
        struct load *load = load_of(b, &log->items[i]);
        add_reading(log->items[i].down ? &load->down : &load->up, log->items[i].reading.base);
    }
}

static void add_columns(const struct builder *b)
{
    const char *unit = b->ask->shop->gauge.step.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "load", NULL);
    table_column(b->table, COLUMN_NUMBER, "force", unit);
    table_column(b->table, COLUMN_NUMBER, "mean reading", unit);
    table_column(b->table, COLUMN_NUMBER, "error", unit)->strong = true;
    table_column(b->table, COLUMN_NUMBER, "error q", "%");
    table_column(b->table, COLUMN_NUMBER, "repeats b", "%");
    table_column(b->table, COLUMN_NUMBER, "down less up v", "%");
    table_column(b->table, COLUMN_NUMBER, "off the line", unit);
}

static void put_places(const struct builder *b, struct cell *cell, double value, int places)
{
    put_number(b->ask->arena, cell, value, show_places(value, places).text);
}

static double spread(const struct readings *readings)
{
    return readings->count > 1 ? readings->most - readings->least : NAN;
}

/* A share of the force; "none" where it has no meaning. */
static void put_share(const struct builder *b, struct cell *cell, double part, double force)
{
    double share = gauge_share(part, force);
    if (isfinite(share))
        put_places(b, cell, share, 2);
    else
        put_text(cell, "none");
}

static void add_row(const struct builder *b, const struct load *load)
{
    const struct quantity *step = &b->ask->shop->gauge.step.q;
    const struct unit *unit = step->unit;
    int places = decimal_places(&step->typed) + 1;
    double mean = (load->up.sum + load->down.sum) / (double)(load->up.count + load->down.count);
    double up = load->up.sum / (double)load->up.count;
    double down = load->down.sum / (double)load->down.count;
    struct cell *cell = table_row(b->table);
    put_text(cell, quantity_text(b->ask->arena, load->typed));
    put_places(b, cell + 1, unit_from_base(load->force, unit), places);
    put_places(b, cell + 2, unit_from_base(mean, unit), places);
    put_places(b, cell + 3, unit_from_base(mean - load->force, unit), places);
    put_share(b, cell + 4, mean - load->force, load->force);
    put_share(b, cell + 5, fmax(spread(&load->up), spread(&load->down)), load->force);
    put_share(b, cell + 6, down - up, load->force);
    put_places(b, cell + 7, unit_from_base(mean - line_at(&b->check.line, load->force), unit),
               places);
}

static void note_line(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    const struct unit *unit = shop->gauge.step.q.unit;
    const struct line *line = &b->check.line;
    table_note(b->table,
               "Line through all %zu readings: %s\u00a0%s at no load, %s of the force; scatter "
               "about it %s\u00a0%s.",
               line->count, show_significant(unit_from_base(line->intercept, unit), 3).text,
               unit->shown, show_significant(line->slope, 5).text,
               show_significant(unit_from_base(line->sd, unit), 2).text, unit->shown);
    table_note(b->table, "Weights pull with %s\u00a0m/s² (%s), less 0.015\u00a0%% for the air.",
               show_places(shop_gravity(shop), 4).text,
               given(&shop->site.latitude) ? "local, WGS 84"
                                           : "standard; the site is not given");
    table_note(b->table, "q, b and v in the manner of ISO 7500-1; none where there was one "
                         "reading, or one direction.");
}

struct table *make_gauge_check(const struct table_ask *ask)
{
    struct builder *b = arena_get(ask->arena, sizeof *b);
    b->ask = ask;
    b->check = gauge_check_of(ask->shop);
    b->table = table_new(ask->arena, "gauge-check", "Known weights on the gauge");
    if (!b->check.known) {
        table_column(b->table, COLUMN_TEXT, "load", NULL);
        put_text(table_row(b->table), "none");
        table_note(b->table,
                   "none: there is no log of known weights yet. Write gauge-check.csv "
                   "beside the settings.");
        return b->table;
    }
    gather(b);
    add_columns(b);
    for (size_t i = 0; i < b->count; i++)
        add_row(b, &b->loads[i]);
    note_line(b);
    return b->table;
}

/* What the known weights say at the pulls of your own band. */

static void gauge_correction_add_row(const struct table_ask *ask, struct table *table,
                                     const struct gauge_check *check, const char *name,
                                     double pull)
{
    const struct quantity *step = &ask->shop->gauge.step.q;
    const struct unit *unit = step->unit;
    int places = decimal_places(&step->typed) + 1;
    double error = unit_from_base(gauge_check_error(check, pull), unit);
    double within = unit_from_base(gauge_known_within(check, pull), unit);
    double shown_pull = unit_from_base(pull, unit);
    struct cell *cell = table_row(table);
    put_text(cell, name);
    put_number(ask->arena, cell + 1, shown_pull, show_places(shown_pull, places).text);
    put_number(ask->arena, cell + 2, error, show_places(error, places).text);
    put_number(ask->arena, cell + 3, -error, show_places(-error, places).text);
    put_number(ask->arena, cell + 4, within, show_up(within, places).text);
    put_text(cell + 5, gauge_check_covers(check, pull) ? "yes" : "no");
}

static void add_window(const struct table_ask *ask, struct table *table,
                       const struct gauge_check *check)
{
    const struct shop *shop = ask->shop;
    struct pull_window window = pull_window_of(shop, shop_own_band(shop));
    gauge_correction_add_row(ask, table, check, "low pull", window.low);
    gauge_correction_add_row(ask, table, check, "aim", window.aim);
    gauge_correction_add_row(ask, table, check, "high pull", window.high);
}

/* Without limits no pull is looked for: along the gauge then. */
static void add_shares(const struct table_ask *ask, struct table *table,
                       const struct gauge_check *check)
{
    double capacity = ask->shop->gauge.capacity.q.base;
    gauge_correction_add_row(ask, table, check, "a quarter of the capacity", capacity / 4);
    gauge_correction_add_row(ask, table, check, "half of it", capacity / 2);
    gauge_correction_add_row(ask, table, check, "three quarters of it", 3 * capacity / 4);
}

static void add_rows(const struct table_ask *ask, struct table *table,
                     const struct gauge_check *check)
{
    const struct shop *shop = ask->shop;
    const char *unit = shop->gauge.step.q.unit->shown;
    table_column(table, COLUMN_TEXT, "at", NULL);
    table_column(table, COLUMN_NUMBER, "pull", unit);
    table_column(table, COLUMN_NUMBER, "error", unit);
    table_column(table, COLUMN_NUMBER, "to add", unit)->strong = true;
    table_column(table, COLUMN_NUMBER, "known within", unit);
    table_column(table, COLUMN_TEXT, "checked there", NULL);
    if (shop_has_limits(shop))
        add_window(ask, table, check);
    else
        add_shares(ask, table, check);
    table_note(
        table,
        "To add to a reading to get the pull. Type what the gauge shows, never corrected "
        "pulls: U is wider by the whole of this error.");
    table_note(table,
               "Known within, either way: in 95 of 100 checks such as this one; the fewer "
               "the weights, the wider.");
    table_note(table,
               "Checked there: the weights reached from half the least to one and a quarter "
               "of the most that was hung (a rule of thumb of ours). Past that U takes the "
               "larger of the line carried on and what is stated of the gauge.");
}

struct table *make_gauge_correction(const struct table_ask *ask)
{
    struct gauge_check check = gauge_check_of(ask->shop);
    const struct band *own = shop_own_band(ask->shop);
    struct table *table =
        table_new(ask->arena, "gauge-correction",
                  own ? arena_format(ask->arena, "The gauge at the pulls of %s",
                                     band_text(ask->arena, own))
                      : "The gauge along its capacity");
    if (check.known) {
        add_rows(ask, table, &check);
    } else {
        table_column(table, COLUMN_TEXT, "at", NULL);
        put_text(table_row(table), "none");
        table_note(table, "none: there is no log of known weights yet.");
    }
    return table;
}
