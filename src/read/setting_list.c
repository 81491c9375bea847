#include "read/setting_list.h"

#include "base/memory.h"

#include <sha256.h>
#include <stdlib.h>
#include <string.h>

struct setting *setting_list_find(const struct setting_list *list, const char *path)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->items[i].path, path) == 0)
            return &list->items[i];
    return NULL;
}

bool setting_list_replace(struct arena *arena, struct setting_list *list,
                          const char *assignment)
{
    const char *equals = strchr(assignment, '=');
    if (!equals || equals == assignment)
        return false;
    const char *path = arena_slice(arena, assignment, (size_t)(equals - assignment));
    struct setting *setting = setting_list_find(list, path);
    if (!setting)
        setting = ARENA_PUSH(arena, list->items, list->count);
    *setting = (struct setting){.path = path,
                                .value = arena_text(arena, equals + 1),
                                .at = {.file = arena_format(arena, "--set %s", path)}};
    return true;
}

static int by_path(const void *a, const void *b)
{
    const struct setting *const *left = a, *const *right = b;
    return strcmp((*left)->path, (*right)->path);
}

void setting_list_fingerprint(const struct setting_list *list, const struct file_text *check,
                              char *out)
{
    const struct setting **sorted = heap_get(list->count * sizeof *sorted);
    for (size_t i = 0; i < list->count; i++)
        sorted[i] = &list->items[i];
    qsort(sorted, list->count, sizeof *sorted, by_path);
    struct buffer text = {0};
    for (size_t i = 0; i < list->count; i++)
        buffer_print(&text, "%s=%s\n", sorted[i]->path, sorted[i]->value);
    buffer_add(&text, check->bytes, check->length);
    char digest[SHA256_DIGEST_STRING_LENGTH];
    SHA256Data((const uint8_t *)text.bytes, text.length, digest);
    memcpy(out, digest, 8);
    out[8] = '\0';
    buffer_free(&text);
    free(sorted);
}
