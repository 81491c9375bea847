/* What the terminal answers: rows of a name, a value and a unit, as plain lines
 * for people or tab-separated ones for programs. */
#ifndef CLI_TERMINAL_H
#define CLI_TERMINAL_H

#include "base/memory.h"
#include "judge/nut.h"
#include "judge/series.h"
#include "number/show.h"
#include "number/unit.h"
#include "report/report.h"
#include "shop/shop.h"

#include <stdbool.h>
#include <stdio.h>

struct answer {
    struct arena *arena;
    struct answer_row {
        const char *name;  /* one word with hyphens: the first field of --lines */
        const char *label; /* for people */
        const char *value, *unit;
    } * rows;
    size_t count;
};

/* People: "label  value unit" in columns. Programs: name, value and unit with tabs
 * between them; a minus is then '-' and a middle dot '.', other signs stay. */
void answer_print(const struct answer *answer, bool lines, FILE *out);

/* The verbs that answer at the bench: judged pulls, windows, nut moves. Each reads
 * its words, asks src/judge and src/physics, and adds rows to an answer. */

/* What was asked. speed: NULL for the lathe's own top speed. */
struct question {
    const struct shop *shop;
    const char *speed;
    const char *lock, *warmth, *direction, *lock_added; /* NULL: not said */
    const char *const *words;
    size_t word_count;
};

/* Each gives false after a fault in the words, told to diags. */
bool terminal_pull(const struct question *question, struct diags *diags, struct answer *answer);
bool terminal_window(const struct question *question, struct diags *diags,
                     struct answer *answer);
bool terminal_gauge(const struct question *question, struct diags *diags,
                    struct answer *answer);
bool terminal_nut(const struct question *question, struct diags *diags, struct answer *answer);

/* Quantities and bands from the words of a command line. */

#endif
