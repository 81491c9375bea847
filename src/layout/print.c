/* Sheets of marks: how they are made. */
#include "layout/print.h"

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
