/* The logs: CSV files of named columns, kept by the user. What a column may hold stands in
 * one table for each log; who reads a row, writes one or asks for the same words goes by it. */
#ifndef SHOP_LOGS_H
#define SHOP_LOGS_H

#include "base/csv.h"
#include "base/diag.h"
#include "base/file.h"
#include "number/quantity.h"
#include "shop/shop.h"

/* One column that a log may have: quantities, one of some words, or any text. */
struct record_column {
    const char *name;
    bool required;
    enum kind kind;           /* of a column of quantities; */
    const char *least, *most; /* their range, ends belonging to it; else NULL */
    const char *words[16];    /* NULL-ended, "" among them where it may be blank */
    const char *meaning;      /* a few words, for messages and docs */
    const char *hint;         /* what is to be known beside, sentences; or NULL */
};

/* content/readings.csv: the log of pulls, a row for each series and for each step of a job.
 *
 * Needed: date and, of a series, direction, warmth, pulls (with blanks between them, each with
 * its unit, or one unit behind the last). The numbers of the words are those of enum step, of
 * enum lock and, for direction and warmth, false and true of struct pull_series. */
enum pull_column {
    PULL_DATE,
    PULL_JOB,
    PULL_STEP,
    PULL_BY,
    PULL_DRUM,
    PULL_CORD,
    PULL_NUT,
    PULL_LOCK,
    PULL_DIRECTION,
    PULL_WARMTH,
    PULL_TEMPERATURE,
    PULL_ROOM,
    PULL_BREAKAWAY,
    PULL_PULLS,
    PULL_SPEED,
    PULL_MINUTES,
    PULL_ID,
    PULL_CORRECTS,
    PULL_NOTE,
    PULL_COLUMNS
};

extern const struct record_column pull_columns[PULL_COLUMNS];

/* content/gauge-check.csv: known weights hung on the gauge, one weighing a row. */
enum check_column {
    CHECK_DATE,
    CHECK_DIRECTION,
    CHECK_LOAD,
    CHECK_READING,
    CHECK_BY,
    CHECK_MASSES,
    CHECK_TOLERANCE,
    CHECK_CERTIFICATE,
    CHECK_NOTE,
    CHECK_COLUMNS
};

extern const struct record_column check_columns[CHECK_COLUMNS];

/* What a cell may hold: "2 mm to 2 m", "before, after or unloaded", "text". */
const char *column_range(struct arena *arena, const struct record_column *column);

/* The number of a text among the column's words, from 0; -1 where it is none of them, and
 * *fault says so. */
int column_word(const struct record_column *column, const char *text,
                struct quantity_fault *fault);

enum { MOST_RECORD_COLUMNS = 24 };

/* A log whose heads are known. */
struct records {
    const struct record_column *columns;
    size_t column_count;
    struct csv_reader csv;
    int where[MOST_RECORD_COLUMNS]; /* index in the file, or -1 */
    struct decimal least[MOST_RECORD_COLUMNS], most[MOST_RECORD_COLUMNS]; /* of their ranges */
    size_t row; /* that was read last: its number, from 1 below the heads */
};

/* Begins to read a CSV log. Unknown, doubled and missing heads are faults that name the known
 * ones. False when a head is missing; the rows can be read else. */
bool records_read(struct arena *arena, struct diags *diags, const struct file_text *text,
                  const struct record_column *columns, size_t count, struct records *records);

/* The next row that can be told from the others; false: there is none. */
bool records_next(struct records *records);

/* The cell of the row, by its place in the list of columns; NULL for an optional column that
 * the file does not have. */
const struct csv_cell *records_cell(const struct records *records, size_t column);

/* The cell as a date, YYYY-MM-DD (ISO 8601) of the years 1900 to 2199. */
bool records_date(struct diags *diags, const struct csv_cell *cell);

/* Bytes: a larger log is a fault. A million rows are some 100 MB. */
enum { LOG_LARGEST = 128 * 1024 * 1024 };

/* A row of a log in one way, whatever its file's own: "date 2026-03-07; job 2026-1; step
 * begun", without what was not said. */
const char *pull_row_text(struct arena *arena, const struct pull_series *row);
const char *weighing_text(struct arena *arena, const struct weighing *weighing);

/* Fills shop->weighings. The file need not be there; then *text is empty. */
void gauge_log_read(struct arena *arena, struct diags *diags, const char *file,
                    struct file_text *text, struct shop *shop);

/* Of a breakaway beside pulls that are starting ones themselves: they may be steady ones. */
extern const char breakaway_refused[];

/* Fills shop->readings and shop->steps, in order of date, a correction in the place of the row
 * that it corrects. The file need not be there. No row is passed
 * over: what cannot be read is a fault. The shop's settings may have faults: a drum or a
 * cord that they lack is then lacking in the series too. */
void pull_log_read(struct arena *arena, struct diags *diags, const char *file,
                   struct shop *shop);

#endif
