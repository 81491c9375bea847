/* What is said, as a list of rows: answers, remarks, facts and faults alike. Who finds or
 * decides something puts rows; the terminal, the bench page, the tables and the card print
 * them. */
#ifndef REPORT_ROWS_H
#define REPORT_ROWS_H

#include "base/diag.h"

struct row {
    const char *name;  /* for programs: "drag", "note", "remark" */
    const char *label; /* for people: "Drag"; of a remark on a log the day of its row */
    const char *value;
    const char *unit;
    struct place
        at; /* of a remark: the row of the settings or log that it is about; else {0} */
};

/* Starts as {arena}; every text is owned by that arena or lasts longer. What there is none of
 * is "". */
struct rows {
    struct arena *arena;
    struct row *items;
    size_t count;
};

/* The value is copied. */
void put_row(struct rows *rows, const char *name, const char *label, const char *value,
             const char *unit);

/* A note, unless nothing is left of it. */
void put_note(struct rows *rows, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
