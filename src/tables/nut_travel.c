/* What a turn of the nut does: at its rim and along the spindle. */
#include "tables/common.h"
#include "verdict/nut_way.h"

static const double turns[] = {1, 2, 3, 5, 10, 15, 30, 45, 90};

enum { TURNS = sizeof turns / sizeof turns[0] };

static void put_way(const struct table_ask *ask, struct cell *cell, struct nut_way way)
{
    put_number(ask->arena, cell, way.value, show_way(&way, 0).text);
}

static void add_row(const struct table_ask *ask, struct table *table, double degrees)
{
    const struct nut *nut = &ask->shop->nut;
    struct cell *cell = table_row(table);
    put_text(cell++, arena_format(ask->arena, "%.0f°", degrees));
    if (given(&nut->outside_diameter))
        put_way(ask, cell++, nut_rim_way(nut, degrees));
    put_way(ask, cell, nut_travel_way(nut, degrees));
    put_way(ask, cell + 1, nut_travel_other(nut, degrees));
}

/* The system of the thread comes first, the rim is in that of its diameter. */
static void add_rows(const struct table_ask *ask, struct table *table)
{
    const struct nut *nut = &ask->shop->nut;
    table_column(table, COLUMN_TEXT, "turn", NULL);
    if (given(&nut->outside_diameter))
        table_column(table, COLUMN_NUMBER, "at the rim", nut_rim_way(nut, 0).unit);
    table_column(table, COLUMN_NUMBER, "along the spindle", nut_travel_way(nut, 0).unit);
    table_column(table, COLUMN_NUMBER, "along the spindle", nut_travel_other(nut, 0).unit);
    for (size_t i = 0; i < TURNS; i++)
        add_row(ask, table, turns[i]);
}

static const char *thread_text(const struct table_ask *ask)
{
    const struct nut *nut = &ask->shop->nut;
    if (given(&nut->pitch))
        return arena_format(ask->arena, "%s pitch", quantity_text(ask->arena, &nut->pitch.q));
    return quantity_text(ask->arena, &nut->threads.q);
}

struct table *make_nut_travel(const struct table_ask *ask)
{
    const struct nut *nut = &ask->shop->nut;
    bool known = given(&nut->pitch) || given(&nut->threads);
    struct table *table = table_new(
        ask->arena, "nut-travel",
        known ? arena_format(ask->arena, "What a turn of the nut does, %s", thread_text(ask))
              : "What a turn of the nut does");
    if (known) {
        add_rows(ask, table);
        if (given(&nut->outside_diameter))
            table_note(table, "Rim of %s.",
                       quantity_text(ask->arena, &nut->outside_diameter.q));
        table_note(table, "For one thread start. An angle is never right for another lathe.");
        return table;
    }
    table_column(table, COLUMN_TEXT, "turn", NULL);
    put_text(table_row(table), "none");
    table_note(table, "none: the settings give neither nut.pitch nor nut.threads.");
    return table;
}
