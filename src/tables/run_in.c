/* Stages of running in, at speeds that the lathe has, with the temperature at which to
 * stop. */
#include "verdict/run_in.h"
#include "tables/common.h"
#include "tables/warmth.h"

#include <math.h>

struct builder {
    const struct table_ask *ask;
    struct table *table;
    struct run_in_stage stages[RUN_IN_STAGES];
    size_t count;
};

static void add_columns(struct table *table)
{
    table_column(table, COLUMN_NUMBER, "stage", NULL);
    table_column(table, COLUMN_TEXT, "tenths of top speed", NULL);
    table_column(table, COLUMN_NUMBER, "speed", "r/min")->strong = true;
    table_column(table, COLUMN_NUMBER, "of top speed", "%");
    table_column(table, COLUMN_NUMBER, "at least", "min");
    table_column(table, COLUMN_NUMBER, "look closer from", "°C");
    table_column(table, COLUMN_NUMBER, "look closer from", "°F");
    table_column(table, COLUMN_NUMBER, "stop at", "°C");
    table_column(table, COLUMN_NUMBER, "stop at", "°F");
    table_column(table, COLUMN_TEXT, "done", NULL);
}

static const char *tenths_text(struct arena *arena, const struct run_in_stage *stage)
{
    return stage->first == stage->last
               ? arena_format(arena, "%d", stage->first)
               : arena_format(arena, "%d to %d", stage->first, stage->last);
}

static void add_row(const struct builder *b, size_t index)
{
    const struct table_ask *ask = b->ask;
    const struct shop *shop = ask->shop;
    const struct run_in_stage *stage = &b->stages[index];
    double speed = decimal_to_double(&stage->speed);
    double share = 100 * speed / shop->lathe.top_speed.q.base;
    struct decimal room = shop_room(shop), stop = run_in_stop(shop, &room);
    struct decimal look = run_in_look(shop, &room);
    struct cell *cell = table_row(b->table);
    put_number(ask->arena, cell++, (double)(index + 1), show_places((double)index + 1, 0).text);
    put_text(cell++, tenths_text(ask->arena, stage));
    put_number(ask->arena, cell++, speed, run_in_speed(shop, stage).text);
    put_number(ask->arena, cell++, share, show_places(share, 0).text);
    double minutes = run_in_minutes(shop, index + 1 == b->count);
    put_number(ask->arena, cell++, minutes, show_up(minutes, 0).text);
    put_celsius_down(ask->arena, cell++, &look);
    put_fahrenheit_down(ask->arena, cell++, &look);
    put_celsius_down(ask->arena, cell++, &stop);
    put_fahrenheit_down(ask->arena, cell++, &stop);
    put_text(cell, "□");
}

static void note_speeds(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    const char *top = quantity_text(b->ask->arena, &shop->lathe.top_speed.q);
    if (!shop->lathe.speeds.count) {
        table_note(b->table,
                   "These are the exact tenths of the top speed of %s, since the settings give "
                   "no lathe.speeds. Take the next speed that the lathe has, never one above.",
                   top);
        return;
    }
    table_note(b->table,
               "Each tenth of the top speed of %s takes the fastest speed of the lathe that is "
               "not above it. Tenths with the same speed are one stage.",
               top);
    if (b->stages[0].first > 1)
        table_note(b->table,
                   "The slowest speed is above the first tenth: begin with short spells, and "
                   "let the spindle stand between them (our rule).");
}

/* What note_times() says. */
_Static_assert(RUN_IN_STAGE == 10 * 60 && RUN_IN_TOP == 20 * 60, "ten minutes, and twenty");

static void note_times(const struct builder *b)
{
    const struct run_in *run_in = &b->ask->shop->run_in;
    bool both = given(&run_in->stage_time) && given(&run_in->top_time);
    table_note(b->table,
               "At least: %s. Go on only when the cap has changed by less than 1\u00a0°C "
               "(1.8\u00a0°F) in ten minutes (practice).",
               both ? "as the settings say"
                    : "where the settings give no time, the ten minutes over which the cap is "
                      "watched, and twice that at the last stage (our rule)");
}

struct table *make_run_in(const struct table_ask *ask)
{
    struct builder b = {.ask = ask};
    b.count = run_in_stages(ask->shop, b.stages);
    b.table = table_new(ask->arena, "run-in", "Stages of running in");
    add_columns(b.table);
    for (size_t i = 0; i < b.count; i++)
        add_row(&b, i);
    table_note(b.table, "The manual comes first: where it gives speeds, times or temperatures, "
                        "those hold.");
    note_speeds(&b);
    note_times(&b);
    note_stop(b.table, ask->shop);
    table_note(b.table,
               "The room is taken at %s. For another room, see the table of temperatures.",
               room_text(ask->arena, ask->shop));
    note_fingerprint(b.table, ask->shop);
    return b.table;
}
