/* Any bytes as both logs, of pulls and of the gauge; what is taken must give the tables. */
#include "fuzz_file.h"
#include "judge/results.h"
#include "shop/logs.h"
#include "shop/settings.h"
#include "tables/tables.h"

static void make_tables(struct arena *arena, const struct shop *shop)
{
    struct diags *diags = diags_new(arena);
    struct table_ask ask = {.arena = arena, .diags = diags, .results = results_of(arena, shop)};
    for (size_t i = 0; tables_at(i); i++)
        fuzz_must(tables_make(tables_at(i)->name, &ask) && diags_count(diags) == 0,
                  "a good log lacks a table");
}

static void read_log(const struct shop *good, const char *file, bool of_pulls)
{
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct shop shop = *good;
    struct file_text text;
    if (of_pulls)
        pull_log_read(arena, diags, file, &shop);
    else
        gauge_log_read(arena, diags, file, &text, &shop);
    if (diags_count(diags) == 0)
        make_tables(arena, &shop);
    arena_free(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static struct fuzz_file file;
    static struct arena *arena;
    static struct shop shop;
    if (!arena) {
        arena = arena_new();
        struct diags *diags = diags_new(arena);
        settings_read(arena, diags, "tests/faults/base/settings.yaml", NULL, 0, &shop);
        fuzz_must(diags_count(diags) == 0, "the fixed settings have faults");
    }
    const char *name = fuzz_file(&file, bytes, length);
    read_log(&shop, name, true);
    read_log(&shop, name, false);
    return 0;
}
