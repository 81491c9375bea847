/* How a width is shared out among the columns of a table, so that its rows take the least
 * height. Knows widths and heights only, no text and no fonts; points. */
#ifndef LAYOUT_SHARE_H
#define LAYOUT_SHARE_H

#include <stdbool.h>
#include <stddef.h>

/* From this width of its column on a cell is so tall, and not as tall as before. */
struct share_step {
    double width, height, before;
    size_t row;
};

struct share_column {
    double least, most; /* between which its width may lie */
    double width;       /* what it gets */
    bool last;          /* gets more than it needs only when all others have their most */
    struct share_step *steps;
    size_t count; /* of its steps, */
    size_t taken; /* and how many of them the width has passed */
    double
        *heights; /* of its cells, by row, after so many steps; at first at the least width */
};

/* Sets the width of every column. room: what may be shared beside the least widths, not below
 * 0. rows: 0 where every column can have its most, so that nothing is to be weighed. The steps
 * are put in order; nothing of the columns is freed.
 *
 * Each two columns in turn share out in the best way what they have and what nobody has, round
 * after round, until nothing more is saved. What is left then is spread: narrow columns first,
 * and those that are last after all others. */
void share_width(struct share_column *columns, size_t count, size_t rows, double room);

#endif
