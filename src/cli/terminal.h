/* The verbs that answer at the bench: judged pulls, windows, moves of the nut. */
#ifndef CLI_TERMINAL_H
#define CLI_TERMINAL_H

#include "base/file.h"
#include "report/report.h"
#include "shop/shop.h"

#include <stdbool.h>

/* What was asked, and where the answer goes. */
struct question {
    const struct results *results;
    const char *speed;                                  /* NULL: the lathe's own top speed */
    const char *lock, *warmth, *direction, *lock_added; /* NULL: not said */
    bool budget;                                        /* of pull: it is asked for too */
    const char *job, *issued;                           /* the same */
    const char *interval, *unit;                        /* of a trace; NULL: not said */
    const struct file_text *trace;
    const char *const *words; /* behind the verb */
    size_t word_count;
    struct diags *diags;
    struct rows *rows;
};

/* Reads its words, asks src/judge, and gives rows. False after a fault in the words. */
typedef bool answerer(const struct question *question);

answerer terminal_pull;   /* what a series of pulls says of the drag */
answerer terminal_window; /* what the gauge may read on this drum */
answerer terminal_gauge;  /* what is known of the gauge at the pulls of the band */
answerer terminal_nut;    /* how far to turn the nut next */
answerer terminal_record; /* what is stored of a closed job; stores it first where it is not */
answerer terminal_trace;  /* the pull that a trace shows */

/* Asks, and prints the rows unless there was a fault. For people: "label  value unit" in
 * columns. As lines, for programs: name, value and unit with tabs between them; a minus is
 * then '-' and a middle dot '.', other characters stay. */
void terminal_answer(struct arena *arena, const struct question *question, answerer *answer,
                     bool lines);

#endif
