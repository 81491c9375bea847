/* What is printed, one line a piece, rounded to 0.1 pt. */
#ifndef TESTS_PRINT_DUMP_H
#define TESTS_PRINT_DUMP_H

#include "base/buffer.h"
#include "layout/print.h"
#include "tenth.h"

static const char *const face_names[] = {[FACE_REGULAR] = "regular",
                                         [FACE_BOLD] = "bold",
                                         [FACE_OBLIQUE] = "oblique",
                                         [FACE_MONO] = "mono"};

/* Its first point says where it is; the figure's own dump tells the rest. */
static inline void dump_path(struct buffer *out, const struct piece *piece)
{
    const struct path_step *first = piece->path->steps;
    buffer_print(out, "  path %.1f %.1f of %zu stroke %.1f grey %.2f%s tag %d\n",
                 tenth(piece->x + piece->scale * first->x),
                 tenth(piece->y + piece->scale * first->y), piece->path->step_count,
                 piece->line, piece->grey, piece->filled ? " filled" : "", piece->tag);
}

static inline void dump_piece(struct buffer *out, const struct piece *piece)
{
    double x = tenth(piece->x), y = tenth(piece->y), width = tenth(piece->width);
    switch (piece->kind) {
    case PIECE_TEXT:
        buffer_print(out, "  text %.1f %.1f %.1f %s %.1f grey %.2f tag %d \"%s\"\n", x, y,
                     width, face_names[piece->face], piece->size, piece->grey, piece->tag,
                     piece->text);
        break;
    case PIECE_LINE:
        buffer_print(out, "  line %.1f %.1f %.1f %.1f stroke %.1f grey %.2f\n", x, y, width,
                     tenth(piece->height), piece->line, piece->grey);
        break;
    case PIECE_BOX:
        buffer_print(out, "  box %.1f %.1f %.1f %.1f stroke %.1f grey %.2f%s\n", x, y, width,
                     tenth(piece->height), piece->line, piece->grey,
                     piece->filled ? " filled" : "");
        break;
    case PIECE_PATH:
        dump_path(out, piece);
        break;
    }
}

static inline void dump_area(struct buffer *out, const struct hot_area *area)
{
    buffer_print(out, "  area %.1f %.1f %.1f %.1f -> ", tenth(area->x), tenth(area->y),
                 tenth(area->width), tenth(area->height));
    if (area->uri)
        buffer_print(out, "%s\n", area->uri);
    else
        buffer_print(out, "sheet %zu at %.1f\n", area->to_sheet + 1, tenth(area->to_y));
}

static inline void print_dump(struct buffer *out, const struct print *print)
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

#endif
