/* Every key that the settings may hold: its kind, its range, where it goes. One
 * line a key. */
#ifndef SHOP_FIELDS_H
#define SHOP_FIELDS_H

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
    const char *least, *most;   /* quantity, list, count: the range, with its ends */
    const char *const *choices; /* NULL-ended */
    const char *meaning;        /* a few words, for messages and docs */
};

extern const struct field settings_fields[];
extern const size_t settings_field_count;

enum { MOST_BANDS = 40, RANGE_TEXT = 300 };

/* The field that a path such as limits.bands.2.high means; NULL where there is none.
 * *row: the number of the band's row, from 1; 0 for a field of no band. */
const struct field *field_find(const char *path, int *row);

/* The number of the band row that a path speaks of; 0 for another path. *rest is
 * then what follows the number. */
int field_band_row(const char *path, const char **rest);

/* Whether a quantity keeps to its field's range; if not, message (RANGE_TEXT bytes)
 * says so. path: the field's, with the row's number in it. */
bool field_allows(const struct field *field, const char *path, const struct quantity *quantity,
                  char *message);

#endif
