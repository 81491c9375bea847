/* What the known weights say at the pulls of your own band. */
#include "tables/common.h"
#include "verdict/gauge.h"
#include "verdict/window.h"

static void add_row(const struct table_ask *ask, struct table *table,
                    const struct gauge_check *check, const char *name, double pull)
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
    add_row(ask, table, check, "low pull", window.low);
    add_row(ask, table, check, "aim", window.aim);
    add_row(ask, table, check, "high pull", window.high);
}

/* Without limits no pull is looked for: along the gauge then. */
static void add_shares(const struct table_ask *ask, struct table *table,
                       const struct gauge_check *check)
{
    double capacity = ask->shop->gauge.capacity.q.base;
    add_row(ask, table, check, "a quarter of the capacity", capacity / 4);
    add_row(ask, table, check, "half of it", capacity / 2);
    add_row(ask, table, check, "three quarters of it", 3 * capacity / 4);
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
