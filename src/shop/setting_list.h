/* A settings file flattened: one entry a value, named by its whole path, such as
 * limits.bands.2.high (rows count from 1), with the place where it stands. */
#ifndef SHOP_SETTING_LIST_H
#define SHOP_SETTING_LIST_H

#include "base/file.h"

#include <stdbool.h>

struct setting {
    const char *path;
    const char *value;  /* "" too for a list or a section that holds nothing */
    struct place at;    /* of the value */
    bool cut;           /* a remark, "# ...", stands behind it on its line */
    const char *source; /* the value in the file's own text; NULL where it has none */
    char quote;         /* that it stands in; NUL where it is bare */
};

/* What holds other entries, such as limits.bands.2, and where it begins. */
struct setting_section {
    const char *path;
    struct place at;
};

struct setting_list {
    const char *file;
    struct setting *items;
    size_t count;
    struct setting_section *sections;
    size_t section_count;
};

enum { SETTINGS_MOST = 2000 }; /* values of a file */

/* Reads YAML 1.1 through libyaml: mappings, sequences and plain or quoted values;
 * no anchors, tags or second document. Faults go to diags. What could be read is
 * in the list even then. Only setting_list.c includes yaml.h. */
void setting_list_read(struct arena *arena, struct diags *diags, const struct file_text *text,
                       struct setting_list *list);

/* The entry with this path, or NULL. */
struct setting *setting_list_find(const struct setting_list *list, const char *path);

/* Replaces or adds one value, as "path=value" on the command line asks. Without
 * a "=" or a path: false. */
bool setting_list_replace(struct arena *arena, struct setting_list *list,
                          const char *assignment);

/* The first hex digits of the SHA-256 of all entries in order of path, and of the text of the
 * gauge's check behind them: as many as fill out, which has so many bytes. */
void setting_list_fingerprint(const struct setting_list *list, const struct file_text *check,
                              char *out, size_t bytes);

#endif
