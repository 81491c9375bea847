#include "paint/csv.h"

#include <string.h>

/* Blanks at an end are quoted too: some readers would trim them. */
static bool needs_quotes(const char *text)
{
    size_t length = strlen(text);
    if (length == 0)
        return false;
    return text[0] == ' ' || text[length - 1] == ' ' || strpbrk(text, "\",\r\n");
}

static void add_quoted(struct buffer *out, const char *text)
{
    buffer_text(out, "\"");
    for (; *text; text++)
        buffer_add(out, *text == '"' ? "\"\"" : text, *text == '"' ? 2 : 1);
    buffer_text(out, "\"");
}

static void add_field(struct buffer *out, const char *text, size_t column)
{
    if (column > 0)
        buffer_text(out, ",");
    if (needs_quotes(text))
        add_quoted(out, text);
    else
        buffer_text(out, text);
}

void csv_paint(struct buffer *out, const struct table *table)
{
    for (size_t column = 0; column < table->column_count; column++)
        add_field(out, table_head(table->arena, &table->columns[column]), column);
    buffer_text(out, "\r\n");
    for (size_t row = 0; row < table->row_count; row++) {
        for (size_t column = 0; column < table->column_count; column++)
            add_field(out, table_cell(table, row, column)->shown, column);
        buffer_text(out, "\r\n");
    }
}
