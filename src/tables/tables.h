/* The computed tables: a registry with a row for each, and a function for each that makes it
 * from the results by way of src/judge and src/physics. */
#ifndef TABLES_TABLES_H
#define TABLES_TABLES_H

#include "doc/tree.h"
#include "judge/results.h"

struct builder; /* tables/common.h */

/* What is asked for: of which results, where in a page, with which options. */
struct table_ask {
    struct arena *arena;
    struct diags *diags;
    const struct results *results;
    struct place at;
    const struct table_option *options;
    size_t option_count;
    bool unseen; /* nothing that is made shows it: its faults are looked for, without rows */
};

struct table_kind {
    const char *name;
    /* Named in braces: the {band} that the table is for, the {drum}, the diameter of the
     * {cord}, and which {reading} and {pull} the limits are for. */
    const char *caption;
    void (*make)(struct builder *);
    const char *without_limits; /* the caption where no limit is on file; NULL: the same */
    bool needs_limits;          /* without them it says no more than that there are none */
    const char *option;         /* the key that it takes; or NULL */
};

/* Every kind in turn from 0 on; NULL at the end. */
const struct table_kind *tables_at(size_t index);

/* The kind of that name. An unknown name or an unknown option is a fault; then NULL. */
const struct table_kind *tables_find(const char *name, const struct table_ask *ask);

/* Makes the table of that name, owned by the arena. An unknown name, an unknown option or a
 * value that an option cannot have is a fault; then NULL. */
struct table *tables_make(const char *name, const struct table_ask *ask);

#endif
