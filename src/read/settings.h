/* The settings file, and what of it was replaced for this run -> the workshop. */
#ifndef READ_SETTINGS_H
#define READ_SETTINGS_H

#include "base/file.h"
#include "shop/shop.h"

/* Reads, fills and checks the shop. replacements: "path=value", count of them.
 * Every fault goes to diags; the shop may be used only when there is none. */
void settings_read(struct arena *arena, struct diags *diags, const char *file,
                   const char *const *replacements, size_t count, struct shop *shop);

#endif
