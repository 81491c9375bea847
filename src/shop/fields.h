/* Every key that the settings may hold: its kind, its range, where it goes. One line a key:
 * what reads a setting, asks for it or writes it back goes by that line. */
#ifndef SHOP_FIELDS_H
#define SHOP_FIELDS_H

#include "shop/setting_list.h"
#include "shop/shop.h"

enum field_type {
    FIELD_TEXT,     /* const char * */
    FIELD_QUANTITY, /* struct measure */
    FIELD_LIST,     /* struct measures: quantities with commas between them */
    FIELD_COUNT,    /* struct count: a bare whole number */
    FIELD_CHOICE    /* int: index of the word in choices */
};

struct field {
    const char *path; /* '#' stands for the number of a band's row */
    enum field_type type;
    bool required;
    size_t offset; /* in struct shop; for a band's field, in struct band */
    enum kind kind;
    const char *least, *most;   /* quantity, list, count: the range, with its ends */
    const char *const *choices; /* NULL-ended */
    const char *meaning;        /* a few words, for messages, docs and the page's form */
    const char *hint;           /* sentences: where to find it, what it does; or NULL */
    const char *fallback;       /* what stands in where it is left out, as typed; or NULL */
    const char *needed;         /* when it is, where that is not always or never; or NULL */
    bool on_page;               /* the bench page's form asks for it */
};

extern const struct field settings_fields[];
extern const size_t settings_field_count;

enum { MOST_BANDS = 40 };

/* The only key of the section that may stand where there is no limit on file. */
#define ON_FILE_KEY "limits.on-file"

/* The path that an old path of a key has now; NULL where it is none. */
const char *name_now(const char *old);

/* Whether a path speaks of a limit, and not of whether there is one. */
bool is_limit(const char *path);

/* The field that a path such as limits.bands.2.high means; NULL where there is none.
 * *row: the number of the band's row, from 1; 0 for a field of no band. */
const struct field *field_find(const char *path, int *row);

/* The number of the band row that a path speaks of; 0 for another path. *rest is
 * then what follows the number. */
int field_band_row(const char *path, const char **rest);

/* How often a shop has the field: once, or in every band's row. For each, counted from 1, its
 * whole path, and its value as it may be typed again; NULL where that was not given. Owned by
 * the arena, the shop or the table. */
size_t field_rows(const struct field *field, const struct shop *shop);
const char *field_path(struct arena *arena, const struct field *field, size_t row);
const char *field_text(struct arena *arena, const struct field *field, const struct shop *shop,
                       size_t row);

/* "a6, a5 or half-letter"; "2 mm to 2 m", "0 to 20 mm", the unit once where it is the same. */
const char *words_text(struct arena *arena, const char *const *words);
const char *range_text(struct arena *arena, const char *least, const char *most);

/* A text in double quotes, as it stands in a settings file. */
const char *text_quoted(struct arena *arena, const char *text);

/* What the key may hold: "2 mm to 2 m", "1 to 40", "a6, a5 or half-letter", "a few words". */
const char *field_range(struct arena *arena, const struct field *field);

/* The same with its kind before it: "a length, 2 mm to 2 m", "the word a5 or half-letter". */
const char *field_wanted(struct arena *arena, const struct field *field);

/* What settings are read with. Nothing is owned, and the shop will point into the list. */
struct settings_reader {
    struct arena *arena;
    struct diags *diags;
    const struct setting_list *list;
    struct shop *shop;
    bool beside_input; /* each value has an input of its own on a page: it may be empty, and
                        * a fault that stands beside it need not name it */
};

/* Makes the bands that the list has rows for: before any of its fields is read. */
void bands_make(const struct settings_reader *reader);

/* Reads one setting into its place, or finds a fault: then it is as if not given. */
void field_read(const struct settings_reader *reader, const struct field *field, int row,
                const struct setting *setting);

/* Puts in what stands for each value that was left out: once all fields are read. What had a
 * fault stays without a value. */
void fields_fill(struct arena *arena, struct shop *shop);

#endif
