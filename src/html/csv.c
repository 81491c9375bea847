#include "html/csv.h"

#include <string.h>

/* Where readers of other countries part a row; there a new cell begins for them. */
static const char other_commas[] = ";\t";

/* Blanks at an end are quoted too: some readers would trim them. */
static bool needs_quotes(const char *text)
{
    return *text && (*text == ' ' || text[strlen(text) - 1] == ' ' ||
                     strpbrk(text, "\",\r\n") || strpbrk(text, other_commas));
}

/* A spreadsheet takes a cell that begins so for a formula, unless it is a number. */
static bool looks_like_formula(const char *text)
{
    static const char digits[] = "0123456789";
    text += strspn(text, " \t\r\n");
    if (!*text || !strchr("=+-@", *text))
        return false;
    if (*text == '=' || *text == '@')
        return true;
    text++;
    size_t whole = strspn(text, digits), part = 0;
    text += whole;
    if (*text == '.')
        part = strspn(++text, digits);
    return whole + part == 0 || text[part] != '\0';
}

static void add_field(struct buffer *out, const char *text, size_t column)
{
    if (column > 0)
        buffer_text(out, ",");
    bool is_formula = looks_like_formula(text);
    if (!needs_quotes(text) && !is_formula) {
        buffer_text(out, text);
        return;
    }
    buffer_text(out, is_formula ? "\"'" : "\"");
    for (; *text; text++) {
        buffer_add(out, *text == '"' ? "\"\"" : text, *text == '"' ? 2 : 1);
        if (strchr(other_commas, *text) && looks_like_formula(text + 1))
            buffer_text(out, "'");
    }
    buffer_text(out, "\"");
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
