/* Rows of a log with a fixed set of named columns. */
#ifndef READ_RECORDS_H
#define READ_RECORDS_H

#include "number/quantity.h"
#include "read/csv.h"

enum { MOST_RECORD_COLUMNS = 24, MOST_RECORD_ROWS = 1000 };

/* One column that a log may have. */
struct record_column {
    const char *name;
    bool required;
    enum kind kind;           /* of a column of quantities; */
    const char *least, *most; /* their range, ends belonging to it; else NULL */
};

/* A column of words. */
#define RECORD_WORDS(name, required)                                                           \
    {                                                                                          \
        (name), (required), KIND_NONE, NULL, NULL                                              \
    }

/* A log whose heads are known. */
struct records {
    struct csv csv;
    int where[MOST_RECORD_COLUMNS]; /* index in the file, or -1 */
    size_t row_count;               /* without the heads */
};

/* Reads a CSV log. Unknown, doubled and missing heads are faults that name the known
 * ones; so are more than MOST_RECORD_ROWS rows. False when a head is missing; the good
 * rows can be read else. */
bool records_read(struct arena *arena, struct diags *diags, const struct file_text *text,
                  const struct record_column *columns, size_t count, struct records *records);

/* The cell of a row, from 0 on below the heads, and of a column by its place in the list of
 * columns; NULL for an optional column that the file does not have. */
const struct csv_cell *records_cell(const struct records *records, size_t row, size_t column);

/* The cell as a quantity of its column; a fault at the very sign, and false, where it
 * is none or out of range. */
bool records_quantity(struct diags *diags, const struct csv_cell *cell,
                      const struct record_column *column, struct quantity *quantity);

/* Whether a quantity keeps to its column's range; else a fault at the place. */
bool records_in_range(struct diags *diags, struct place at, const struct record_column *column,
                      const struct quantity *quantity);

/* The cell as a date, YYYY-MM-DD (ISO 8601) of the years 1900 to 2199. */
bool records_date(struct diags *diags, const struct csv_cell *cell);

#endif
