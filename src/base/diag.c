#include "base/diag.h"

#include "base/buffer.h"
#include "base/utf8.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

struct record {
    struct place at;
    size_t file_order; /* when this file was first named */
    size_t order;      /* when this fault was found */
    const char *message;
};

struct diags {
    struct arena *arena;
    struct record *records;
    size_t count;
};

struct diags *diags_new(struct arena *arena)
{
    struct diags *diags = arena_get(arena, sizeof *diags);
    diags->arena = arena;
    return diags;
}

static size_t file_order(const struct diags *diags, const char *file)
{
    for (size_t i = diags->count; i > 0; i--) /* most often it is the last one's */
        if (strcmp(diags->records[i - 1].at.file, file) == 0)
            return diags->records[i - 1].file_order;
    return diags->count;
}

/* What a user's file or name holds must not move the terminal's cursor, nor hide or turn
 * words: each such sign, and each byte that is not UTF-8, becomes a question mark. */
static const char *printable(struct arena *arena, const char *text)
{
    struct buffer out = {0};
    const char *end = text + strlen(text);
    for (const char *at = text; at < end;) {
        const char *start = at;
        size_t left = (size_t)(end - at);
        bool valid = utf8_valid(at, left < 4 ? left : 4) > 0;
        bool shown = valid && !utf8_is_hidden(utf8_next(&at));
        at += !valid;
        buffer_add(&out, shown ? start : "?", shown ? (size_t)(at - start) : 1);
    }
    const char *copy = arena_slice(arena, out.bytes, out.length);
    buffer_free(&out);
    return copy;
}

void fault(struct diags *diags, struct place at, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    struct buffer message = {0};
    buffer_vprint(&message, format, args);
    va_end(args);
    at.file = printable(diags->arena, at.file);
    size_t order = file_order(diags, at.file);
    struct record *record = ARENA_PUSH(diags->arena, diags->records, diags->count);
    record->at = at;
    record->file_order = order;
    record->order = diags->count;
    record->message = printable(diags->arena, message.bytes);
    buffer_free(&message);
}

size_t diags_count(const struct diags *diags)
{
    return diags->count;
}

static int compare(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int by_place(const void *left, const void *right)
{
    const struct record *a = left, *b = right;
    if (a->file_order != b->file_order)
        return compare(a->file_order, b->file_order);
    if (a->at.line != b->at.line)
        return a->at.line < b->at.line ? -1 : 1;
    if (a->at.column != b->at.column)
        return a->at.column < b->at.column ? -1 : 1;
    return compare(a->order, b->order);
}

void diags_print(struct diags *diags, FILE *out)
{
    if (diags->count)
        qsort(diags->records, diags->count, sizeof *diags->records, by_place);
    for (size_t i = 0; i < diags->count; i++) {
        const struct record *record = &diags->records[i];
        fputs(record->at.file, out);
        if (record->at.line)
            fprintf(out, ":%d", record->at.line);
        if (record->at.line && record->at.column)
            fprintf(out, ":%d", record->at.column);
        fprintf(out, ": %s\n", record->message);
    }
}
