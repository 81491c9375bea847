/* Words for a key that is not known and for one that is missing: what the writer may
 * have meant. */
#ifndef READ_SETTING_FAULTS_H
#define READ_SETTING_FAULTS_H

#include "read/setting_list.h"
#include "shop/fields.h"

struct setting_faults {
    struct arena *arena;
    struct diags *diags;
    const struct setting_list *list;
};

/* The entry at index is no field. Of several entries that come from one mistake, only
 * the first is told of. */
void setting_fault_unknown(const struct setting_faults *faults, size_t index);

/* Tells of a required field that the list lacks; path: the field's, with its row. */
void setting_require(const struct setting_faults *faults, const struct field *field,
                     const char *path);

#endif
