/* Records of closed jobs, as they were stored: content/records/JOB.yaml, flat YAML of a key and
 * a value a line. Each has the settings, the gauge's check and the rows that it rests on, and
 * what was said of them. None is ever changed. */
#ifndef SHOP_STORED_H
#define SHOP_STORED_H

#include "shop/setting_list.h"
#include "shop/shop.h"

/* Where they lie, beside the settings. */
#define RECORDS_NAME "records"

enum { RECORD_FINGERPRINT_TEXT = 17 };

struct stored_record {
    const char *file, *job;
    struct setting_list entries;
    bool whole;        /* its fingerprint is that of its entries: nobody changed it since */
    struct shop *shop; /* the settings that it has; NULL: this version cannot read them */
};

/* Before the keys of the settings that a record holds. */
#define STORED_SETTING "setting."

/* Adds an entry. Key and value are kept as they are. */
void stored_add(struct arena *arena, struct setting_list *entries, const char *key,
                const char *value);

/* What an entry says; NULL where there is none. */
const char *stored_value(const struct setting_list *entries, const char *key);

/* The first sixteen hex digits of the SHA-256 of all entries but the fingerprint itself: line
 * ends, quotes and the order of lines are not in it. RECORD_FINGERPRINT_TEXT bytes. */
void stored_fingerprint(struct arena *arena, const struct setting_list *entries, char *out);

/* The entries as the text of a file, its fingerprint last. */
void stored_print(struct arena *arena, struct buffer *out, struct setting_list entries);

/* Fills shop->stored from a folder, which need not be there, in order of their jobs. A file
 * that is no record is a fault; one that was changed is not. */
void stored_read(struct arena *arena, struct diags *diags, const char *folder,
                 struct shop *shop);

#endif
