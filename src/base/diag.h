/* Faults found in what the user wrote: collected, put in order, printed.
 *
 * One line a fault:  file:line:column: what is wrong; what would be right */
#ifndef BASE_DIAG_H
#define BASE_DIAG_H

#include "base/memory.h"

#include <stdbool.h>
#include <stdio.h>

/* Where something stands in a user's file. Lines and columns count from 1, in
 * code points; 0 means that there is none to give. The name is not owned. */
struct place {
    const char *file;
    int line;
    int column;
};

struct diags;

struct diags *diags_new(struct arena *arena);

/* Records a fault, as one line whatever is put into it. The message says what is wrong, then
 * "; ", then the mend. Of one file the first thousand are kept, and the others counted. Always
 * false: what a reader gives that cannot go on. */
bool fault(struct diags *diags, struct place at, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* Gives a file its place in the order of what is printed, before there is a fault in it.
 * The name is not copied. */
void diags_name(struct diags *diags, const char *file);
size_t diags_count(const struct diags *diags);

/* Prints every fault in the order in which their files were first named, by diags_name() or
 * by a fault, then by line and column; and how many a file has beyond those. */
void diags_print(struct diags *diags, FILE *out);

#endif
