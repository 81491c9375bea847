/* Faults are kept as they are found, each with the number of its file's tally, and sorted only
 * when they are printed: the first thousand of a file, the rest as a number. */
#include "base/diag.h"

#include "base/buffer.h"
#include "base/fatal.h"
#include "base/names.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

/* Of one file: nobody reads more, and a file of nothing else would take all memory. */
enum { MOST_TOLD = 1000 };

struct record {
    struct place at;
    size_t tally;      /* of its file */
    size_t file_order; /* when this file was first named; known when all are printed */
    size_t order;      /* when this fault was found */
    const char *message;
};

/* How many faults a file has. */
struct tally {
    const char *file;
    size_t count;
};

struct diags {
    struct arena *arena;
    struct record *records;
    size_t record_count;
    size_t count; /* of faults, told or not */
    struct tally *tallies;
    size_t tally_count;
    struct names tally_at; /* by the file as it was given */
    const char **files;    /* in the order of being named, some of them more than once */
    size_t file_count;
};

struct diags *diags_new(struct arena *arena)
{
    struct diags *diags = arena_get(arena, sizeof *diags);
    diags->arena = arena;
    return diags;
}

void diags_name(struct diags *diags, const char *file)
{
    *ARENA_PUSH(diags->arena, diags->files, diags->file_count) = file;
}

/* Which one is the file's. */
static size_t tally_of(struct diags *diags, const char *named)
{
    const size_t *known = names_find(&diags->tally_at, named);
    if (known)
        return *known;
    const char *file = arena_text(diags->arena, named);
    diags_name(diags, file);
    names_add(diags->arena, &diags->tally_at, file, diags->tally_count);
    *ARENA_PUSH(diags->arena, diags->tallies, diags->tally_count) =
        (struct tally){.file = file};
    return diags->tally_count - 1;
}

bool fault(struct diags *diags, struct place at, const char *format, ...)
{
    size_t tally = tally_of(diags, at.file);
    diags->count++;
    if (++diags->tallies[tally].count > MOST_TOLD)
        return false;
    va_list args;
    va_start(args, format);
    struct buffer message = {0};
    buffer_vprint(&message, format, args);
    va_end(args);
    at.file = diags->tallies[tally].file;
    size_t order = diags->record_count;
    *ARENA_PUSH(diags->arena, diags->records, diags->record_count) =
        (struct record){.at = at,
                        .tally = tally,
                        .order = order,
                        .message = arena_slice(diags->arena, message.bytes, message.length)};
    buffer_free(&message);
    return false;
}

size_t diags_count(const struct diags *diags)
{
    return diags->count;
}

/* Finds when the file of each fault was first named. */
static void order_files(struct diags *diags)
{
    struct names orders = {0};
    for (size_t i = 0; i < diags->file_count; i++) {
        if (!names_find(&orders, diags->files[i]))
            names_add(diags->arena, &orders, diags->files[i], i);
    }
    for (size_t i = 0; i < diags->record_count; i++) {
        struct record *record = &diags->records[i];
        record->file_order =
            *names_find(&orders, record->at.file); /* NOLINT: fault() named it */
    }
}

static int by_place(const void *left, const void *right)
{
    const struct record *a = left, *b = right;
    if (a->file_order != b->file_order)
        return a->file_order < b->file_order ? -1 : 1;
    if (a->at.line != b->at.line)
        return a->at.line < b->at.line ? -1 : 1;
    if (a->at.column != b->at.column)
        return a->at.column < b->at.column ? -1 : 1;
    return a->order < b->order ? -1 : 1;
}

static void print_record(const struct record *record, FILE *out)
{
    print_plainly(out, record->at.file);
    if (record->at.line)
        fprintf(out, ":%d", record->at.line);
    if (record->at.line && record->at.column)
        fprintf(out, ":%d", record->at.column);
    fputs(": ", out);
    print_plainly(out, record->message);
    fputc('\n', out);
}

void diags_print(struct diags *diags, FILE *out)
{
    if (diags->count == 0)
        return;
    order_files(diags);
    qsort(diags->records, diags->record_count, sizeof *diags->records, by_place);
    for (size_t i = 0; i < diags->record_count; i++) {
        const struct record *record = &diags->records[i];
        const struct tally *tally = &diags->tallies[record->tally];
        bool is_last = i + 1 == diags->record_count || record[1].tally != record->tally;
        print_record(record, out);
        if (is_last && tally->count > MOST_TOLD) {
            print_plainly(out, tally->file);
            fprintf(out, ": %zu more faults were found in this file; mend these first\n",
                    tally->count - MOST_TOLD);
        }
    }
}
