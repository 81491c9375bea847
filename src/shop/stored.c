/* A record is a list of entries in both directions: written from them, and read as settings
 * are. */
#include "shop/stored.h"

#include "shop/settings.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

static const char fingerprint_key[] = "fingerprint";

void stored_add(struct arena *arena, struct setting_list *entries, const char *key,
                const char *value)
{
    *ARENA_PUSH(arena, entries->items, entries->count) =
        (struct setting){.path = key, .value = value};
}

const char *stored_value(const struct setting_list *entries, const char *key)
{
    const struct setting *found = setting_list_find(entries, key);
    return found ? found->value : NULL;
}

void stored_fingerprint(struct arena *arena, const struct setting_list *entries, char *out)
{
    const struct file_text nothing = {.bytes = ""};
    struct setting_list others = {0};
    for (size_t i = 0; i < entries->count; i++)
        if (strcmp(entries->items[i].path, fingerprint_key) != 0)
            stored_add(arena, &others, entries->items[i].path, entries->items[i].value);
    setting_list_fingerprint(&others, &nothing, out, RECORD_FINGERPRINT_TEXT);
}

static void print_entry(struct buffer *out, const char *key, const char *value)
{
    buffer_print(out, "%s: \"", key);
    for (; *value; value++)
        buffer_print(out, strchr("\"\\", *value) ? "\\%c" : "%c", *value);
    buffer_text(out, "\"\n");
}

void stored_print(struct arena *arena, struct buffer *out, struct setting_list entries)
{
    char fingerprint[RECORD_FINGERPRINT_TEXT];
    stored_fingerprint(arena, &entries, fingerprint);
    buffer_text(out,
                "# The record of a setting. Do not change it: its fingerprint would tell.\n");
    for (size_t i = 0; i < entries.count; i++)
        print_entry(out, entries.items[i].path, entries.items[i].value);
    print_entry(out, fingerprint_key, fingerprint);
}

/* The settings that a record holds, as this version reads them; NULL: it cannot. */
static struct shop *settings_of(struct arena *arena, const struct stored_record *record)
{
    static const char before[] = STORED_SETTING;
    struct setting_list settings = {.file = record->file};
    struct shop *shop = arena_get(arena, sizeof *shop);
    for (size_t i = 0; i < record->entries.count; i++) {
        struct setting entry = record->entries.items[i];
        if (strncmp(entry.path, before, strlen(before)) != 0)
            continue;
        entry.path += strlen(before);
        *ARENA_PUSH(arena, settings.items, settings.count) = entry;
    }
    if (!settings_take(arena, &settings, shop))
        return NULL;
    const char *fingerprint = stored_value(&record->entries, "settings");
    if (fingerprint && strlen(fingerprint) < FINGERPRINT_TEXT)
        strcpy(shop->fingerprint, fingerprint);
    return shop;
}

static void read_one(struct arena *arena, struct diags *diags, const char *file,
                     struct shop *shop)
{
    struct file_text text;
    struct stored_record record = {.file = file};
    char fingerprint[RECORD_FINGERPRINT_TEXT];
    size_t before = diags_count(diags);
    if (file_read_text(arena, diags, file, &text))
        setting_list_read(arena, diags, &text, &record.entries);
    record.job = stored_value(&record.entries, "record");
    if (diags_count(diags) == before && !record.job)
        fault(diags, (struct place){.file = file, .line = 1},
              "this is no record of a setting: it has no key 'record'; move it elsewhere, or "
              "fetch it from a copy");
    if (diags_count(diags) > before)
        return;
    const char *own = stored_value(&record.entries, fingerprint_key);
    stored_fingerprint(arena, &record.entries, fingerprint);
    record.whole = own && strcmp(own, fingerprint) == 0;
    record.shop = settings_of(arena, &record);
    *ARENA_PUSH(arena, shop->stored, shop->stored_count) = record;
}

/* Of two of one job that first whose settings can be read. */
static int by_job(const void *a, const void *b)
{
    const struct stored_record *left = a, *right = b;
    int order = strcmp(left->job, right->job);
    order = order ? order : !left->shop - !right->shop;
    return order ? order : strcmp(left->file, right->file);
}

void stored_read(struct arena *arena, struct diags *diags, const char *folder,
                 struct shop *shop)
{
    if (!file_is_there(folder))
        return;
    const char **names = file_list(arena, folder, ".yaml");
    if (!names)
        fault(diags, (struct place){.file = folder},
              "the folder of records cannot be read (%s); it must be a folder",
              strerror(errno));
    for (; names && *names; names++)
        read_one(arena, diags, arena_format(arena, "%s/%s", folder, *names), shop);
    if (shop->stored_count)
        qsort(shop->stored, shop->stored_count, sizeof *shop->stored, by_job);
}
