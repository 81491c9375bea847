/* The lift test as a look-up: what the needle must show at twice the pull if the nose only
 * springs, for each reading at the first pull. In divisions of the indicator. */
#include "drag/lift.h"
#include "tables/common.h"

static const double readings[] = {2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30};

enum { READINGS = sizeof readings / sizeof readings[0] };

static void put_places(const struct table_ask *ask, struct cell *cell, double value)
{
    put_number(ask->arena, cell, value, show_places(value, 1).text);
}

static void add_row(const struct table_ask *ask, struct table *table, double first)
{
    double doubt = lift_doubt(1);
    double elastic = 2 * first; /* there lift_clearance() is 0 */
    struct cell *cell = table_row(table);
    put_places(ask, cell, first);
    put_places(ask, cell + 1, elastic - doubt);
    put_places(ask, cell + 2, elastic + doubt);
    put_places(ask, cell + 3, lift_clearance(first, first));
}

/* A quarter of what the gauge for drags reads, in whole steps: twice the weight is F, and
 * twice F must be on it. */
static const char *quarter_text(const struct table_ask *ask)
{
    const struct gauge *gauge = &ask->shop->gauge;
    struct decimal four = decimal_of(4, 0);
    struct decimal four_steps = decimal_multiply(&gauge->step.q.exact, &four);
    int64_t steps = decimal_steps_not_above(&gauge->capacity.q.exact, &four_steps);
    return arena_format(ask->arena, "%s\u00a0%s", show_steps(steps, &gauge->step.q.typed).text,
                        gauge->step.q.unit->shown);
}

static void add_notes(const struct table_ask *ask, struct table *table)
{
    table_note(table,
               "F is at least twice the weight of the spindle and of all that sits on it, 2F "
               "twice that. The gauge for drags reads %s and would do for a weight of up to "
               "%s: for more take a larger scale, or pull through a lever, the same for both "
               "pulls.",
               quantity_text(ask->arena, &ask->shop->gauge.capacity.q), quarter_text(ask));
    table_note(
        table,
        "Less at the second pull than springing allows: clearance. It is twice the first "
        "reading less the second, sure within one and a half divisions. More: something "
        "slipped or stuck, do it again. Each reading counts as good to half a division "
        "(our own reasoning, no source).");
    table_note(
        table,
        "Divisions are those of your indicator. Take one of 2\u00a0µm (0.0001\u00a0in) a "
        "division or finer: with one of 0.01\u00a0mm (0.0005\u00a0in) a clearance below "
        "0.015\u00a0mm (0.00075\u00a0in) stays hidden.");
    table_note(table,
               "Let go: the needle must come back to where it stood, within half a division. A "
               "first reading below 2 divisions tells nothing: take a finer indicator, or pull "
               "harder.");
}

struct table *make_lift_test(const struct table_ask *ask)
{
    struct table *table =
        table_new(ask->arena, "lift-test", "Lift test: the needle at F and at 2F");
    table_column(table, COLUMN_NUMBER, "needle at F", "divisions");
    table_column(table, COLUMN_NUMBER, "springs only: at 2F from", "divisions");
    table_column(table, COLUMN_NUMBER, "to", "divisions");
    table_column(table, COLUMN_NUMBER, "clearance, if it stays there", "divisions");
    for (size_t i = 0; i < READINGS; i++)
        add_row(ask, table, readings[i]);
    add_notes(ask, table);
    return table;
}
