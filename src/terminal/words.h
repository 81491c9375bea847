/* Quantities and bands from the words of a command line. */
#ifndef TERMINAL_WORDS_H
#define TERMINAL_WORDS_H

#include "terminal/terminal.h"
#include "verdict/lock.h"
#include "verdict/taken.h"
#include "verdict/told.h"

/* The next quantity from words[*at] on, in one word ("4.31N") or in two ("4.31 N");
 * *at moves behind it. False after a fault. */
bool words_quantity(const struct question *question, size_t *at, enum kind kind,
                    struct diags *diags, struct quantity *quantity);

/* The band at the asked speed ("900", "900r/min", "900 r/min"), else the lathe's
 * own; *band is NULL without limits on file. False after a fault. */
bool words_band(const struct question *question, struct diags *diags, const struct band **band);

/* How the drag was measured; what was not said stays as it is. False after a fault. */
bool words_taken(const struct question *question, struct diags *diags, struct taken *taken);

/* What locking added, N.m: as asked, else by the log; NAN: not known. False after a fault. */
bool words_lock_added(const struct question *question, struct diags *diags, double *added);

/* Adds whatever is told as rows of the answer. */
struct teller answer_teller(struct answer *answer);

#endif
