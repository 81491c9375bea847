/* Any text as CSV: good rows, written with every cell in quotes, read back as the
 * same cells. */
#include "base/csv.h"
#include "fuzz_file.h"

#include <string.h>

static const struct place start = {.file = "fuzz.csv", .line = 1, .column = 1};

static void quote(struct buffer *out, const char *text)
{
    buffer_text(out, "\"");
    for (; *text; text++) {
        buffer_add(out, text, 1);
        if (*text == '"')
            buffer_text(out, "\"");
    }
    buffer_text(out, "\"");
}

static void write_again(struct buffer *out, const struct csv *csv)
{
    for (size_t i = 0; i < csv->row_count * csv->column_count; i++) {
        quote(out, csv->cells[i].text);
        buffer_text(out, (i + 1) % csv->column_count ? "," : "\r\n");
    }
}

static void check_again(struct arena *arena, const struct csv *csv)
{
    struct buffer text = {0};
    struct csv again;
    struct diags *diags = diags_new(arena);
    write_again(&text, csv);
    csv_read(arena, diags, text.bytes ? text.bytes : "", start, &again);
    fuzz_must(diags_count(diags) == 0, "rows written with care are refused");
    fuzz_must(again.row_count == csv->row_count, "another number of rows");
    for (size_t i = 0; i < csv->row_count * csv->column_count; i++)
        fuzz_must(strcmp(again.cells[i].text, csv->cells[i].text) == 0, "another cell");
    buffer_free(&text);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct csv csv;
    csv_read(arena, diags, arena_slice(arena, (const char *)bytes, length), start, &csv);
    if (diags_count(diags) == 0)
        check_again(arena, &csv);
    arena_free(arena);
    return 0;
}
