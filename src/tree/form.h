/* What a printed form holds beside text: places to write in, and paper to plot on.
 *
 * A text may name a value of the settings in braces, as in "{aim}", until it is filled
 * in (src/values/known.h). */
#ifndef TREE_FORM_H
#define TREE_FORM_H

#include "base/diag.h"

#include <stdbool.h>
#include <stddef.h>

/* One place to write in. It has a label and then room, or a value that is known, or
 * words with boxes to tick. */
struct form_field {
    const char *label; /* "": a bare line */
    const char *unit;  /* behind the room; NULL where there is none */
    const char *value; /* stands in the room; NULL: room to write */
    const char **choices;
    size_t choice_count;
    int share; /* of its row's width, 1..9 */
};

struct form_row {
    struct place at;
    struct form_field *fields;
    size_t count;
};

struct form {
    bool ruled; /* lines to write on; else boxes */
    struct form_row *rows;
    size_t count;
};

/* One direction of a graph. Without numbers the scale is left to the pencil. */
struct graph_axis {
    const char *quantity, *unit; /* unit: NULL where there is none */
    bool numbered;
    double from, to; /* from < to */
};

struct graph {
    const char *name, *caption; /* as of a figure */
    struct place at;
    struct graph_axis across, up;
    int squares; /* how high it is, in squares */
    bool window; /* up is the drag, with the limits of the lathe's own band drawn in */
};

#endif
