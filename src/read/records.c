#include "read/records.h"

#include "base/utf8.h"
#include "number/range.h"
#include "shop/date.h"

#include <string.h>

static void list_names(struct buffer *out, const struct record_column *columns, size_t count)
{
    for (size_t i = 0; i < count; i++)
        buffer_print(out, "%s%s", i ? ", " : "", columns[i].name);
}

static void find_heads(struct diags *diags, const struct record_column *columns, size_t count,
                       struct records *records, const char *names)
{
    for (size_t at = 0; at < records->csv.column_count; at++) {
        const struct csv_cell *head = &records->csv.cells[at];
        size_t column = 0;
        while (column < count && strcmp(columns[column].name, head->text) != 0)
            column++;
        if (head->text[strspn(head->text, " \t")] == '\0')
            continue; /* csv_read() has told of it */
        if (column == count)
            fault(diags, head->at, "there is no column '%s'; the columns are %s", head->text,
                  names);
        else if (records->where[column] >= 0)
            fault(diags, head->at, "the column '%s' stands here a second time; delete one",
                  head->text);
        else
            records->where[column] = (int)at;
    }
}

static bool has_heads(struct diags *diags, struct place at, const struct record_column *columns,
                      size_t count, const struct records *records)
{
    bool all = true;
    for (size_t i = 0; i < count; i++)
        if (columns[i].required && records->where[i] < 0) {
            all = false;
            fault(diags, at, "the column '%s' is missing; add it to the first line",
                  columns[i].name);
        }
    return all;
}

/* More would take long to set, and no one reads them. */
static void limit_rows(struct diags *diags, struct records *records)
{
    if (records->row_count <= MOST_RECORD_ROWS)
        return;
    fault(diags, records->csv.cells[(MOST_RECORD_ROWS + 1) * records->csv.column_count].at,
          "the log has more than %d rows; begin a new one and keep the old one elsewhere",
          MOST_RECORD_ROWS);
    records->row_count = MOST_RECORD_ROWS;
}

/* As a spreadsheet writes it where the decimal sign is a comma. One fault, not one for each
 * column that is then missing. */
static bool parted_by_commas(struct diags *diags, const struct file_text *text)
{
    size_t length = strcspn(text->bytes, "\r\n"), at = strcspn(text->bytes, ",;\t");
    if (at >= length || text->bytes[at] == ',')
        return true;
    fault(diags, (struct place){text->name, 1, 1 + (int)utf8_count(text->bytes, at)},
          "cells are parted by commas, not by %s; save the file as CSV with commas",
          text->bytes[at] == ';' ? "';'" : "tabs");
    return false;
}

bool records_read(struct arena *arena, struct diags *diags, const struct file_text *text,
                  const struct record_column *columns, size_t count, struct records *records)
{
    struct place start = {.file = text->name, .line = 1, .column = 1};
    struct buffer names = {0};
    *records = (struct records){0};
    for (size_t i = 0; i < count; i++)
        records->where[i] = -1;
    if (!parted_by_commas(diags, text))
        return false;
    size_t before = diags_count(diags);
    csv_read(arena, diags, text->bytes, start, &records->csv);
    if (records->csv.row_count == 0 && diags_count(diags) > before)
        return false; /* the heads themselves could not be read */
    list_names(&names, columns, count);
    find_heads(diags, columns, count, records, names.bytes);
    buffer_free(&names);
    records->row_count = records->csv.row_count ? records->csv.row_count - 1 : 0;
    limit_rows(diags, records);
    return has_heads(diags, start, columns, count, records);
}

const struct csv_cell *records_cell(const struct records *records, size_t row, size_t column)
{
    if (records->where[column] < 0)
        return NULL;
    size_t at = (row + 1) * records->csv.column_count + (size_t)records->where[column];
    return &records->csv.cells[at];
}

bool records_in_range(struct diags *diags, struct place at, const struct record_column *column,
                      const struct quantity *quantity)
{
    if (quantity_between(quantity, column->least, column->most))
        return true;
    fault(diags, at, "%s must lie between %s and %s, not %s %s", column->name, column->least,
          column->most, quantity->digits, quantity->unit->symbol);
    return false;
}

bool records_quantity(struct diags *diags, const struct csv_cell *cell,
                      const struct record_column *column, struct quantity *quantity)
{
    struct quantity_fault wrong;
    if (quantity_parse(cell->text, column->kind, quantity, &wrong))
        return records_in_range(diags, cell->at, column, quantity);
    struct place at = cell->at;
    at.column += (int)utf8_count(cell->text, wrong.offset);
    fault(diags, at, "%s", wrong.message);
    return false;
}

bool records_date(struct diags *diags, const struct csv_cell *cell)
{
    if (date_is_good(cell->text))
        return true;
    fault(diags, cell->at, "'%.40s' is no date; write year, month and day as in 2026-03-09",
          cell->text);
    return false;
}
