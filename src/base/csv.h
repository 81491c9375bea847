/* Comma-separated values (RFC 4180), each cell with its place. Blank lines are
 * passed over; lines end in LF, CR LF or CR. */
#ifndef BASE_CSV_H
#define BASE_CSV_H

#include "base/file.h"

struct csv_cell {
    const char *text;
    struct place at;
};

struct csv {
    struct csv_cell *cells; /* row after row */
    size_t column_count;    /* as many as the first row has */
    size_t row_count;       /* the first row of heads among them */
};

/* Reads text that begins at the given place (1:1 for a whole file). Faults - a
 * quote left open, text behind a closing quote, a row of another length, a blank
 * head - go to diags; the result holds the good rows. */
void csv_read(struct arena *arena, struct diags *diags, const char *text, struct place start,
              struct csv *csv);

#endif
