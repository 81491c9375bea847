/* Every key that the settings may hold: its kind, its range, where it goes. One
 * line a key. */
#ifndef READ_SETTINGS_SCHEMA_H
#define READ_SETTINGS_SCHEMA_H

#include "shop/shop.h"

enum field_type {
    FIELD_TEXT,     /* const char * */
    FIELD_QUANTITY, /* struct measure */
    FIELD_LIST,     /* struct measures: quantities with commas between them */
    FIELD_COUNT,    /* int, a bare whole number */
    FIELD_CHOICE    /* int: index of the word in choices */
};

struct field {
    const char *path; /* '#' stands for the number of a row */
    enum field_type type;
    bool required;
    size_t offset; /* in struct shop; for a band's field, in struct band */
    enum kind kind;
    const char *least, *most;   /* quantity: the range, ends belonging to it */
    const char *const *choices; /* NULL-ended */
    const char *meaning;        /* a few words, for messages and docs */
};

extern const struct field settings_fields[];
extern const size_t settings_field_count;

#endif
