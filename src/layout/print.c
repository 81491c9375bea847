#include "layout/print.h"

#include <string.h>

/* Sheets of marks: how they are made, how sheets are numbered, and how the whole is written
 * down for tests. */

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

/* ---- for tests ---- */

static const char *const face_names[] = {[FACE_REGULAR] = "regular",
                                         [FACE_BOLD] = "bold",
                                         [FACE_OBLIQUE] = "oblique",
                                         [FACE_MONO] = "mono"};

/* Its first point says where it is; the figure's own dump tells the rest. */
static void dump_path(struct buffer *out, const struct piece *piece)
{
    const struct path_step *first = piece->path->steps;
    buffer_print(out, "  path %.1f %.1f of %zu stroke %.1f grey %.2f%s tag %d\n",
                 figure_tenth(piece->x + piece->scale * first->x),
                 figure_tenth(piece->y + piece->scale * first->y), piece->path->step_count,
                 piece->line, piece->grey, piece->filled ? " filled" : "", piece->tag);
}

static void dump_piece(struct buffer *out, const struct piece *piece)
{
    double x = figure_tenth(piece->x), y = figure_tenth(piece->y),
           width = figure_tenth(piece->width);
    switch (piece->kind) {
    case PIECE_TEXT:
        buffer_print(out, "  text %.1f %.1f %.1f %s %.1f grey %.2f tag %d \"%s\"\n", x, y,
                     width, face_names[piece->face], piece->size, piece->grey, piece->tag,
                     piece->text);
        break;
    case PIECE_LINE:
        buffer_print(out, "  line %.1f %.1f %.1f %.1f stroke %.1f grey %.2f\n", x, y, width,
                     figure_tenth(piece->height), piece->line, piece->grey);
        break;
    case PIECE_BOX:
        buffer_print(out, "  box %.1f %.1f %.1f %.1f stroke %.1f grey %.2f%s\n", x, y, width,
                     figure_tenth(piece->height), piece->line, piece->grey,
                     piece->filled ? " filled" : "");
        break;
    case PIECE_PATH:
        dump_path(out, piece);
        break;
    }
}

static void dump_area(struct buffer *out, const struct hot_area *area)
{
    buffer_print(out, "  area %.1f %.1f %.1f %.1f -> ", figure_tenth(area->x),
                 figure_tenth(area->y), figure_tenth(area->width), figure_tenth(area->height));
    if (area->uri)
        buffer_print(out, "%s\n", area->uri);
    else
        buffer_print(out, "sheet %zu at %.1f\n", area->to_sheet + 1, figure_tenth(area->to_y));
}

void print_dump(struct buffer *out, const struct print *print)
{
    for (size_t i = 0; i < print->sheet_count; i++) {
        const struct sheet *sheet = &print->sheets[i];
        buffer_print(out, "sheet %zu \"%s\" %.1f x %.1f\n", i + 1, sheet->label, sheet->width,
                     sheet->height);
        for (size_t k = 0; k < sheet->piece_count; k++)
            dump_piece(out, &sheet->pieces[k]);
        for (size_t k = 0; k < sheet->area_count; k++)
            dump_area(out, &sheet->areas[k]);
    }
    for (size_t i = 0; i < print->outline_count; i++)
        buffer_print(out, "outline %d sheet %zu \"%s\"\n", print->outline[i].level,
                     print->outline[i].sheet + 1, print->outline[i].title);
}
