/* The verbs: what each reads, makes and prints, and the status it ends with. */
#ifndef CLI_VERBS_H
#define CLI_VERBS_H

#include "base/fatal.h"
#include "book/book.h"

/* What the command line asked for. */
struct request {
    struct book_paths paths;
    struct arena *arena;
    const char **replacements;
    const char *speed;
    const char *lock, *warmth, *direction, *lock_added;
    const char *no_part; /* --only with a name that no part has; or NULL */
    const char *twice;   /* an option that was given more than once; or NULL */
    bool lines, help;
    const char **options; /* the names of all that were given, without "--" */
    size_t option_count;
    const char *const *words; /* behind the verb */
    size_t word_count;
};

/* Runs the verb of that name. Faults of the input go to standard error. */
enum status verb_run(const char *name, const struct request *request);

/* Says on standard error what is wrong with the command line. word may be NULL. */
enum status verb_wrong_usage(const char *what, const char *word);

#endif
