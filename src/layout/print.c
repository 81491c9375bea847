/* Sheets of marks: how they are made, and how sheets are numbered. */
#include "layout/print.h"

#include <string.h>

int print_tag(struct arena *arena, struct print *print, enum tag_kind kind, int parent)
{
    *ARENA_PUSH(arena, print->tags, print->tag_count) =
        (struct tag){.kind = kind, .parent = parent};
    return (int)print->tag_count - 1;
}

struct sheet *print_sheet(struct arena *arena, struct print *print, double width, double height,
                          const char *label)
{
    struct sheet *sheet = ARENA_PUSH(arena, print->sheets, print->sheet_count);
    *sheet = (struct sheet){.width = width, .height = height, .label = label};
    return sheet;
}

void sheet_put(struct arena *arena, struct sheet *sheet, struct piece piece)
{
    *ARENA_PUSH(arena, sheet->pieces, sheet->piece_count) = piece;
}

/* ---- numbers of sheets ---- */

enum { MOST = 3999 };

void roman_write(struct buffer *out, long number)
{
    static const struct {
        long worth;
        const char *figures;
    } steps[] = {{1000, "m"}, {900, "cm"}, {500, "d"}, {400, "cd"}, {100, "c"},
                 {90, "xc"},  {50, "l"},   {40, "xl"}, {10, "x"},   {9, "ix"},
                 {5, "v"},    {4, "iv"},   {1, "i"}};
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
        for (; number >= steps[i].worth; number -= steps[i].worth)
            buffer_text(out, steps[i].figures);
}

long roman_read(const char *text)
{
    long found = 0;
    struct buffer roman = {0};
    if (strspn(text, "ivxlcdm") != strlen(text))
        return 0;
    for (long number = 1; number <= MOST && !found; number++) {
        roman.length = 0;
        roman_write(&roman, number);
        if (strcmp(roman.bytes, text) == 0)
            found = number;
    }
    buffer_free(&roman);
    return found;
}
