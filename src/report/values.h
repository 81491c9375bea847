/* When a text is printed: on forms and on the card it may begin with a condition in braces,
 * as in "{with-limits}State". */
#ifndef REPORT_VALUES_H
#define REPORT_VALUES_H

#include "judge/results.h"

struct condition {
    const char *name;
    const char *meaning; /* for docs/formats.md, which lists them all */
    bool (*holds)(const struct shop *shop);
};

/* Every condition in turn from 0 on; NULL at the end. */
const struct condition *condition_at(size_t index);

/* The text without the condition at its head, or NULL where that does not hold; a text
 * without one as it is. Where the shop is NULL every condition holds. */
const char *condition_take(const struct shop *shop, const char *text);

/* Values that a form carries already when it is printed: each has a name, to be written
 * in braces. All come from the records of the shop by way of src/judge and src/physics. */

struct form_value {
    const char *name;
    const char *meaning; /* for docs/formats.md, which lists them all */
    bool of_limits;      /* asked for only where there are limits; else the words say so */
};

/* Every value in turn from 0 on; NULL at the end. */
const struct form_value *form_value_at(size_t index);

/* The text with every "{name}" in it replaced, by nothing where there are no results (NULL). A
 * name that is not known, or a brace that is not closed, is a fault at the place; then the text
 * is given back as it is. */
const char *form_values_fill(struct arena *arena, struct diags *diags,
                             const struct results *results, const char *text, struct place at);

/* The same with a text of the program's own: what is known of lathe, limits, drum, cord and
 * gauge has its words here, and every note, fact of the card or row of a record asks for it by
 * its name. */
const char *values_fill(struct arena *arena, const struct results *results, const char *text);

/* The limits as the hand will feel them: as pulls on the drum, and as what would hang on the
 * cord. Only where there are limits. */
const char *limits_read_back_words(struct arena *arena, const struct results *results);

#endif
