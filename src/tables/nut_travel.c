/* What a turn of the nut does: at its rim and along the spindle. */
#include "drag/nut.h"
#include "tables/common.h"
#include "verdict/nut_way.h"

static const double turns[] = {1, 2, 3, 5, 10, 15, 30, 45, 90};

enum { TURNS = sizeof turns / sizeof turns[0] };

static void put_places(const struct table_ask *ask, struct cell *cell, double value, int places)
{
    put_number(ask->arena, cell, value, show_places(value, places).text);
}

static void add_row(const struct table_ask *ask, struct table *table, double degrees)
{
    const struct nut *nut = &ask->shop->nut;
    double micrometres = 1e6 * nut_travel(nut_pitch_given(nut), degrees);
    struct cell *cell = table_row(table);
    put_text(cell++, arena_format(ask->arena, "%.0f°", degrees));
    if (given(&nut->outside_diameter)) {
        double rim = nut_rim(nut->outside_diameter.q.base, degrees);
        if (nut_rim_in_inches(nut))
            put_places(ask, cell++, rim / 0.0254, 3);
        else
            put_places(ask, cell++, 1000 * rim, 1);
    }
    bool inches = nut_thread_in_inches(nut);
    put_places(ask, cell + inches, micrometres, 1);
    put_places(ask, cell + !inches, micrometres / 25.4e3, 4);
}

/* The system of the thread comes first, the rim is in that of its diameter. */
static void add_rows(const struct table_ask *ask, struct table *table)
{
    const struct nut *nut = &ask->shop->nut;
    bool inches = nut_thread_in_inches(nut);
    table_column(table, COLUMN_TEXT, "turn", NULL);
    if (given(&nut->outside_diameter))
        table_column(table, COLUMN_NUMBER, "at the rim", nut_rim_in_inches(nut) ? "in" : "mm");
    table_column(table, COLUMN_NUMBER, "along the spindle", inches ? "in" : "µm");
    table_column(table, COLUMN_NUMBER, "along the spindle", inches ? "µm" : "in");
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
