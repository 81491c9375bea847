/* Texts of the user's that may be printed, from the settings and from the logs. */
#ifndef SHOP_LOGS_H
#define SHOP_LOGS_H

#include "base/csv.h"
#include "base/diag.h"
#include "base/file.h"
#include "number/quantity.h"
#include "shop/shop.h"

/* Notes a text of one line and fitting length in the shop, with its place: whether every
 * sign can be printed is only known later. Else false, with a fault that calls it by the
 * given name. */
bool text_keep(struct arena *arena, struct diags *diags, struct shop *shop, const char *name,
               struct typed_text typed);

/* Rows of a log with a fixed set of named columns. */

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

/* The cell as a date, YYYY-MM-DD (ISO 8601) of the years 1900 to 2199. */
bool records_date(struct diags *diags, const struct csv_cell *cell);

/* content/gauge-check.csv: known weights hung on the gauge, and what it read.
 *
 *   date,direction,load,reading,by,note
 *
 * direction: up or down; load: a mass or a force; by and note may be left out. */

/* Fills shop->weighings. The file need not be there; then *text is empty. */
void gauge_log_read(struct arena *arena, struct diags *diags, const char *file,
                    struct file_text *text, struct shop *shop);

/* content/readings.csv: the log of pulls, kept by the user, one series a row.
 *
 *   date,drum,cord,nut,lock,direction,warmth,temperature,breakaway,pulls,note
 *
 * Needed: date, direction (usual or other), warmth (cold or warm), pulls (with blanks
 * between them, each with its unit, or one unit behind the last). */

/* Fills shop->readings, in order of date. The file need not be there. No row is passed
 * over: what cannot be read is a fault. The shop's settings may have faults: a drum or a
 * cord that they lack is then lacking in the series too. */
void pull_log_read(struct arena *arena, struct diags *diags, const char *file,
                   struct shop *shop);

#endif
