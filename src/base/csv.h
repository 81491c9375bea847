/* Comma-separated values (RFC 4180), each cell with its place. Blank lines are
 * passed over; lines end in LF, CR LF or CR. */
#ifndef BASE_CSV_H
#define BASE_CSV_H

#include "base/file.h"

struct csv_cell {
    const char *text;
    struct place at;
};

/* Row by row: of a long file only the cells' texts are kept. */
struct csv_reader {
    struct arena *arena;
    struct diags *diags;
    struct csv_cell *row;        /* the one that was read last: of */
    size_t length, column_count; /* so many cells, as many as the first row has */
    size_t room;
    const char *at;
    struct place place; /* of *at */
    int left;           /* column in which lines begin */
    bool broken;        /* the row cannot be told from the rest of the text */
};

/* Of text that begins at the given place (1:1 for a whole file). */
struct csv_reader csv_begin(struct arena *arena, struct diags *diags, const char *text,
                            struct place start);

/* The next good row; false: there is none. Faults - a quote left open, text behind a closing
 * quote, a row of another length, a blank head - go to diags. */
bool csv_next(struct csv_reader *reader);

/* All of it. */
struct csv {
    struct csv_cell *cells; /* row after row */
    size_t column_count;    /* as many as the first row has */
    size_t row_count;       /* the first row of heads among them */
};

void csv_read(struct arena *arena, struct diags *diags, const char *text, struct place start,
              struct csv *csv);

#endif
