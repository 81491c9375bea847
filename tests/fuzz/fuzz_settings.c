/* Any bytes as a settings file; a shop without a fault must give every table. */
#include "fuzz_file.h"
#include "html/csv.h"
#include "judge/results.h"
#include "shop/settings.h"
#include "tables/tables.h"

#include <string.h>

static void make_tables(struct arena *arena, const struct shop *shop)
{
    struct diags *diags = diags_new(arena);
    struct table_ask ask = {.arena = arena, .diags = diags, .results = results_of(arena, shop)};
    for (size_t i = 0; tables_at(i); i++) {
        const struct table *table = tables_make(tables_at(i)->name, &ask);
        fuzz_must(table && diags_count(diags) == 0, "a good shop lacks a table");
        struct buffer csv = {0};
        csv_paint(&csv, table);
        fuzz_must(strlen(csv.bytes) == csv.length, "a NUL in a table");
        buffer_free(&csv);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static struct fuzz_file file;
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct shop shop;
    settings_read(arena, diags, fuzz_file(&file, bytes, length), NULL, 0, &shop);
    if (diags_count(diags) == 0)
        make_tables(arena, &shop);
    arena_free(arena);
    return 0;
}
