/* What the terminal answers: rows of a name, a value and a unit, as plain lines
 * for people or tab-separated ones for programs. */
#ifndef TERMINAL_ANSWER_H
#define TERMINAL_ANSWER_H

#include "base/memory.h"
#include "number/show.h"
#include "number/unit.h"

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

/* Texts are copied. unit: "" where there is none. */
void answer_add(struct answer *answer, const char *name, const char *label, const char *value,
                const char *unit);

/* People: "label  value unit" in columns. Programs: name, value and unit with tabs
 * between them; a minus is then '-' and a middle dot '.', other signs stay. */
void answer_print(const struct answer *answer, bool lines, FILE *out);

#endif
