/* The drum to make, dimension by dimension: the letters are those of its drawing. */
#include "drag/inch.h"
#include "tables/common.h"
#include "verdict/drum_make.h"

#include <math.h>

struct builder {
    struct arena *arena;
    struct table *table;
};

static void add_row(const struct builder *b, const char *letter, const char *name,
                    double length, const char *how)
{
    struct cell *cell = table_row(b->table);
    put_text(cell, letter);
    put_text(cell + 1, name);
    put_number(b->arena, cell + 2, 1000 * length, show_places(1000 * length, 2).text);
    put_number(b->arena, cell + 3, length / INCH, show_places(length / INCH, 3).text);
    put_text(cell + 4, how);
}

static void add_bore(const struct builder *b, double bore)
{
    if (isfinite(bore)) {
        add_row(b, "B", "bore", bore, "yours");
        return;
    }
    struct cell *cell = table_row(b->table);
    put_text(cell, "B");
    put_text(cell + 1, "bore");
    put_text(cell + 2, "yours");
    put_text(cell + 3, "yours");
    put_text(cell + 4, "to fit the nose");
}

static void add_rows(const struct builder *b, const struct drum_to_make *make)
{
    add_row(b, "R", "effective radius", make->radius, make->wanted ? "wanted" : "fitted drum");
    add_row(b, "D", "land, outside", make->land, "2 R less the cord");
    add_row(b, "W", "land, width", make->land_width,
            arena_format(b->arena, "peg and %d turns", make->turns));
    add_row(b, "F", "flange, outside", make->flange, "D and 2 H");
    add_row(b, "H", "flange, height", make->flange_height, "3 cords, 3 mm at least");
    add_row(b, "T", "flange, thickness", make->thickness, "our rule");
    add_row(b, "S", "slope of 45°", make->slope, "as H");
    add_row(b, "L", "whole width", make->width, "W, S and 2 T");
    add_row(b, "P", "peg, diameter", make->peg, "2 cords, 3 mm at least");
    add_row(b, "N", "notch, width", make->notch, "3 pegs");
    add_bore(b, make->bore);
    add_row(b, "C", "cord of a turn", make->turn, "2 π R");
}

struct table *make_drum_making(const struct table_ask *ask)
{
    struct drum_to_make make = drum_to_make(ask->shop);
    struct builder b = {.arena = ask->arena};
    b.table = table_new(ask->arena, "drum-making",
                        arena_format(ask->arena, "A drum to make, for a cord of %s",
                                     quantity_text(ask->arena, &ask->shop->cord.diameter.q)));
    table_column(b.table, COLUMN_TEXT, "letter", NULL);
    table_column(b.table, COLUMN_TEXT, "what", NULL);
    table_column(b.table, COLUMN_NUMBER, "size", "mm");
    table_column(b.table, COLUMN_NUMBER, "size", "in");
    table_column(b.table, COLUMN_TEXT, "from", NULL);
    add_rows(&b, &make);
    table_note(b.table,
               "%d whole turns side by side take %d widths of the cord and a tenth more. "
               "Heights, peg and notch are rules of ours.",
               make.turns, make.turns + 1);
    table_note(b.table, "Measure the drum when it is made, and write what you found into the "
                        "settings. Never run it under power.");
    return b.table;
}
