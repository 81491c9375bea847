/* One pass, byte by byte, with the place always known; a row is kept when it is whole and as
 * long as the first. */
#include "base/csv.h"

#include <stdbool.h>
#include <string.h>

struct reader {
    struct arena *arena;
    struct diags *diags;
    const char *at;
    struct place place; /* of *at */
    int left;           /* column in which lines begin */
    struct csv_cell *row;
    size_t length;
    bool broken; /* the row cannot be told from the rest of the text */
};

static bool at_line_end(const struct reader *reader)
{
    return *reader->at == '\n' || *reader->at == '\r' || *reader->at == '\0';
}

/* Moves on by one byte, keeping the place right: CR LF is one line end. */
static void step(struct reader *reader)
{
    char c = *reader->at++;
    if (c == '\n' || (c == '\r' && *reader->at != '\n')) {
        reader->place.line++;
        reader->place.column = reader->left;
    } else if (c != '\r' && ((unsigned char)*reader->at & 0xC0) != 0x80) {
        reader->place.column++;
    }
}

static const char *read_bare(struct reader *reader)
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
static void skip_junk(struct reader *reader, struct place open)
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

static const char *read_quoted(struct reader *reader)
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

static void read_row(struct reader *reader)
{
    reader->row = NULL;
    reader->length = 0;
    for (bool more = true; more;) {
        struct place at = reader->place;
        const char *text = *reader->at == '"' ? read_quoted(reader) : read_bare(reader);
        *ARENA_PUSH(reader->arena, reader->row, reader->length) =
            (struct csv_cell){.text = text, .at = at};
        more = *reader->at == ',';
        if (more)
            step(reader);
    }
}

static void keep_row(struct reader *reader, struct csv *csv)
{
    if (reader->broken)
        return;
    if (csv->row_count == 0) {
        csv->column_count = reader->length;
        for (size_t i = 0; i < reader->length; i++)
            if (reader->row[i].text[strspn(reader->row[i].text, " \t")] == '\0')
                fault(reader->diags, reader->row[i].at,
                      "head %zu of the first row is blank; name the column, or delete the "
                      "comma before it",
                      i + 1);
    } else if (reader->length != csv->column_count) {
        fault(reader->diags, reader->row[0].at,
              "this row has %zu cell%s, the first row has %zu; give every row as many",
              reader->length, reader->length == 1 ? "" : "s", csv->column_count);
        return;
    }
    for (size_t i = 0; i < reader->length; i++) {
        size_t count = csv->row_count * csv->column_count + i;
        *ARENA_PUSH(reader->arena, csv->cells, count) = reader->row[i];
    }
    csv->row_count++;
}

void csv_read(struct arena *arena, struct diags *diags, const char *text, struct place start,
              struct csv *csv)
{
    struct reader reader = {
        .arena = arena, .diags = diags, .at = text, .place = start, .left = start.column};
    *csv = (struct csv){0};
    while (*reader.at) {
        if (!at_line_end(&reader)) {
            read_row(&reader);
            keep_row(&reader, csv);
        }
        if (reader.at[0] == '\r' && reader.at[1] == '\n')
            step(&reader);
        if (*reader.at)
            step(&reader);
    }
}
