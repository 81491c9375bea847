/* What carelessness with the cord costs: left out, wound over itself, pulled
 * askew. Each as what must be added to the drag that was worked out. */
#include "drag/drag.h"
#include "tables/common.h"

enum { PLACES = 2 };

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct quantity *drums[3];
    size_t drum_count;
};

typedef double correction(const struct quantity *drum, const struct quantity *cord,
                          double angle);

static double cord_left_out(const struct quantity *drum, const struct quantity *cord,
                            double angle)
{
    (void)angle;
    return drag_correction_for_radius(drag_radius(drum->base, cord->base),
                                      drag_radius(drum->base, 0));
}

static double second_layer(const struct quantity *drum, const struct quantity *cord,
                           double angle)
{
    (void)angle;
    return drag_correction_for_radius(drag_radius_on_layer(drum->base, cord->base, 2),
                                      drag_radius(drum->base, cord->base));
}

static double askew(const struct quantity *drum, const struct quantity *cord, double angle)
{
    (void)drum;
    (void)cord;
    return drag_correction_for_skew(angle);
}

static void add_columns(const struct builder *b)
{
    table_column(b->table, COLUMN_TEXT, "what went wrong", NULL);
    for (size_t i = 0; i < b->drum_count; i++)
        table_column(
            b->table, COLUMN_NUMBER,
            arena_format(b->ask->arena, "add, %s", drum_text(b->ask->arena, b->drums[i])), "%");
    table_column(b->table, COLUMN_TEXT, "the true drag is", NULL);
}

static void add_row(const struct builder *b, const char *what, correction *of, double angle)
{
    const struct quantity *cord = &b->ask->shop->cord.diameter.q;
    struct cell *cell = table_row(b->table);
    double add = 0;
    put_text(cell++, what);
    for (size_t i = 0; i < b->drum_count; i++) {
        add = 100 * of(b->drums[i], cord, angle);
        put_number(b->ask->arena, cell++, add, show_up(add, PLACES).text);
    }
    put_text(cell, add > 0   ? "higher than worked out"
                   : add < 0 ? "lower than worked out"
                             : "the same");
}

struct table *make_cord_errors(const struct table_ask *ask)
{
    static const double angles[] = {5, 8, 10, 15, 20, 30};
    size_t fitted;
    struct builder b = {.ask = ask};
    b.drum_count = drum_and_neighbours(ask->shop, b.drums, &fitted);
    b.table = table_new(ask->arena, "cord-errors",
                        arena_format(ask->arena, "What the cord can do to the drag, %s cord",
                                     quantity_text(ask->arena, &ask->shop->cord.diameter.q)));
    add_columns(&b);
    add_row(&b, "cord's thickness left out", cord_left_out, 0);
    add_row(&b, "cord wound over itself", second_layer, 0);
    for (size_t i = 0; i < sizeof angles / sizeof angles[0]; i++)
        add_row(&b, arena_format(ask->arena, "pulled %.0f° askew", angles[i]), askew,
                angles[i]);
    table_note(b.table,
               "Percent of the drag worked out as pull times effective radius, rounded "
               "away from zero.");
    note_inputs(b.table, ask->shop, true);
    return b.table;
}
