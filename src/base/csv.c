/* One pass, byte by byte, with the place always known. */
#include "base/csv.h"

#include <stdbool.h>
#include <string.h>

static bool at_line_end(const struct csv_reader *reader)
{
    return *reader->at == '\n' || *reader->at == '\r' || *reader->at == '\0';
}

/* Moves on by one byte, keeping the place right: CR LF is one line end. */
static void step(struct csv_reader *reader)
{
    char c = *reader->at++;
    if (c == '\n' || (c == '\r' && *reader->at != '\n')) {
        reader->place.line++;
        reader->place.column = reader->left;
    } else if (c != '\r' && ((unsigned char)*reader->at & 0xC0) != 0x80) {
        reader->place.column++;
    }
}

static const char *read_bare(struct csv_reader *reader)
{
    const char *start = reader->at;
    bool told = false;
    while (*reader->at != ',' && !at_line_end(reader)) {
        if (*reader->at == '"' && !told)
            fault(reader->diags, reader->place,
                  "a quote stands inside a bare cell; put the whole cell in quotes and double "
                  "the quote");
        told |= *reader->at == '"';
        step(reader);
    }
    return arena_slice(reader->arena, start, (size_t)(reader->at - start));
}

/* A quote that was forgotten is closed by the one that opens a later cell. */
static void skip_junk(struct csv_reader *reader, struct place open)
{
    if (*reader->at == ',' || at_line_end(reader))
        return;
    if (open.line == reader->place.line)
        fault(reader->diags, reader->place,
              "text stands behind the closing quote; a comma or the line's end belongs there");
    else
        fault(reader->diags, open,
              "the quote opened here is closed on line %d, column %d, and text stands behind "
              "it; close it in its own cell",
              reader->place.line, reader->place.column - 1);
    while (*reader->at != ',' && !at_line_end(reader))
        step(reader);
}

static const char *read_quoted(struct csv_reader *reader)
{
    struct place open = reader->place;
    struct buffer text = {0};
    step(reader);
    while (*reader->at && !(reader->at[0] == '"' && reader->at[1] != '"')) {
        if (*reader->at == '"')
            step(reader);
        buffer_add(&text, reader->at, 1);
        step(reader);
    }
    reader->broken = *reader->at == '\0';
    if (reader->broken)
        fault(reader->diags, open, "the quote opened here is never closed; close it");
    else
        step(reader);
    skip_junk(reader, open);
    const char *cell = arena_slice(reader->arena, text.bytes, text.length);
    buffer_free(&text);
    return cell;
}

/* Room for one more cell of the row, which the next row will have again. */
static struct csv_cell *add_cell(struct csv_reader *reader)
{
    if (reader->length == reader->room) {
        const struct csv_cell *row = reader->row;
        reader->room = reader->room ? 2 * reader->room : 16;
        reader->row = arena_get(reader->arena, reader->room * sizeof *row);
        if (row)
            memcpy(reader->row, row, reader->length * sizeof *row);
    }
    return &reader->row[reader->length++];
}

static void read_row(struct csv_reader *reader)
{
    reader->length = 0;
    for (bool more = true; more;) {
        struct place at = reader->place;
        const char *text = *reader->at == '"' ? read_quoted(reader) : read_bare(reader);
        *add_cell(reader) = (struct csv_cell){.text = text, .at = at};
        more = *reader->at == ',';
        if (more)
            step(reader);
    }
}

/* Whether the row is whole and as long as the first, by which it is the first itself. */
static bool is_good(struct csv_reader *reader)
{
    if (reader->broken)
        return false;
    if (reader->column_count == 0) {
        reader->column_count = reader->length;
        for (size_t i = 0; i < reader->length; i++)
            if (reader->row[i].text[strspn(reader->row[i].text, " \t")] == '\0')
                fault(reader->diags, reader->row[i].at,
                      "head %zu of the first row is blank; name the column, or delete the "
                      "comma before it",
                      i + 1);
    } else if (reader->length != reader->column_count) {
        return fault(reader->diags, reader->row[0].at,
                     "this row has %zu cell%s, the first row has %zu; give every row as many",
                     reader->length, reader->length == 1 ? "" : "s", reader->column_count);
    }
    return true;
}

struct csv_reader csv_begin(struct arena *arena, struct diags *diags, const char *text,
                            struct place start)
{
    return (struct csv_reader){
        .arena = arena, .diags = diags, .at = text, .place = start, .left = start.column};
}

bool csv_next(struct csv_reader *reader)
{
    bool good = false;
    while (*reader->at && !good) {
        if (!at_line_end(reader)) {
            read_row(reader);
            good = is_good(reader);
        }
        if (reader->at[0] == '\r' && reader->at[1] == '\n')
            step(reader);
        if (*reader->at)
            step(reader);
    }
    return good;
}

void csv_read(struct arena *arena, struct diags *diags, const char *text, struct place start,
              struct csv *csv)
{
    struct csv_reader reader = csv_begin(arena, diags, text, start);
    *csv = (struct csv){0};
    for (size_t count = 0; csv_next(&reader); csv->row_count++)
        for (size_t i = 0; i < reader.length; i++)
            *ARENA_PUSH(arena, csv->cells, count) = reader.row[i];
    csv->column_count = reader.column_count;
}
