/* The settings file, and what of it was replaced for this run -> the workshop; and the workshop
 * as such a file, with a remark above every key. */
#ifndef SHOP_SETTINGS_H
#define SHOP_SETTINGS_H

#include "base/buffer.h"
#include "shop/setting_list.h"
#include "shop/shop.h"

/* The names of a lathe's files where they have a folder to themselves. */
#define SETTINGS_NAME  "settings.yaml"
#define PULL_LOG_NAME  "readings.csv"
#define GAUGE_LOG_NAME "gauge-check.csv"

/* Behind the name of a file of settings, less its ending: the day on which they were replaced
 * follows, as in settings-before-2026-03-09.yaml. */
#define EARLIER_SETTINGS "-before-"

/* The files of earlier settings beside a file of settings, in the order of their days; NULL or
 * NULL-ended. Owned by the arena. */
const char **settings_earlier(struct arena *arena, const char *file);

/* What several lathes share stands once, under an id: a file, beside the settings or in the
 * folder above, in which every id has the keys of a section. Ends with a section NULL. */
struct settings_register {
    const char *section, *file;
};

extern const struct settings_register settings_registers[];

/* Where a log of those settings lies: beside them; and where they have a name of their own,
 * behind that, as in bay-1-readings.csv for bay-1.yaml. Owned by the arena. */
const char *settings_log(struct arena *arena, const char *file, const char *log);

/* Reads, fills and checks the shop, the earlier settings and the logs beside the file.
 * replacements: "path=value", count of them. Every fault goes to diags; the shop may be used
 * only when there is none. */
void settings_read(struct arena *arena, struct diags *diags, const char *file,
                   const char *const *replacements, size_t count, struct shop *shop);

/* The shop of settings that were kept elsewhere, without logs. False where this version cannot
 * read them. */
bool settings_take(struct arena *arena, struct setting_list *list, struct shop *shop);

/* The shop as a settings file: every key there is, above it what it means, what it may hold and
 * what stands in for it; those that were not given as remarks. NULL: a file to be filled in. */
void settings_print(struct arena *arena, struct buffer *out, const struct shop *shop);

#endif
