/* The lift test as a look-up: what the needle must show at twice the pull if the nose only
 * springs, for each reading at the first pull. In divisions of the indicator. */
#include "drag/lift.h"
#include "tables/common.h"

static const double readings[] = {2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30};

enum { READINGS = sizeof readings / sizeof readings[0] };

/* Two fifths of what the gauge reads, in whole steps: twice that leaves it a fifth. */
static const char *pull_text(const struct table_ask *ask, int times)
{
    const struct gauge *gauge = &ask->shop->gauge;
    struct decimal two = decimal_of(2, 0), five = decimal_of(5, 0);
    struct decimal twice = decimal_multiply(&gauge->capacity.q.exact, &two);
    struct decimal five_steps = decimal_multiply(&gauge->step.q.exact, &five);
    int64_t steps = decimal_steps_not_above(&twice, &five_steps);
    return arena_format(ask->arena, "%s\u00a0%s",
                        show_steps(times * steps, &gauge->step.q.typed).text,
                        gauge->step.q.unit->shown);
}

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

static void add_notes(const struct table_ask *ask, struct table *table)
{
    const struct gauge *gauge = &ask->shop->gauge;
    table_note(
        table,
        "Less at the second pull than springing allows: clearance. It is twice the first "
        "reading less the second, sure within one and a half divisions. More: something "
        "slipped or stuck, do it again. Each reading counts as good to half a division "
        "(our own reasoning, no source).");
    table_note(table,
               "Let go: the needle must come back to where it stood, within half a division. A "
               "first reading below 2 divisions tells nothing: take a finer indicator or a "
               "larger gauge.");
    table_note(table,
               "The pulls are two and four fifths of what the gauge reads, in whole steps: "
               "%s%s%s.",
               quantity_text(ask->arena, &gauge->capacity.q), gauge->name ? ", " : "",
               gauge->name ? gauge->name : "");
}

struct table *make_lift_test(const struct table_ask *ask)
{
    struct arena *arena = ask->arena;
    const char *once = pull_text(ask, 1), *twice = pull_text(ask, 2);
    struct table *table =
        table_new(arena, "lift-test",
                  arena_format(arena, "Lift test: the needle at %s and at %s", once, twice));
    table_column(table, COLUMN_NUMBER, arena_format(arena, "needle at %s", once), "divisions");
    table_column(table, COLUMN_NUMBER, arena_format(arena, "springs only: at %s from", twice),
                 "divisions");
    table_column(table, COLUMN_NUMBER, "to", "divisions");
    table_column(table, COLUMN_NUMBER, "clearance, if it stays there", "divisions");
    for (size_t i = 0; i < READINGS; i++)
        add_row(ask, table, readings[i]);
    add_notes(ask, table);
    return table;
}
