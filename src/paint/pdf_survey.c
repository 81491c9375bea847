#include "paint/pdf_survey.h"

#include "base/fatal.h"
#include "base/utf8.h"

#include <math.h>

const uint32_t *pdf_signs_list(struct arena *arena, const struct pdf_signs *signs,
                               enum face face, size_t *count)
{
    const uint8_t *bits = signs->bits[face];
    uint32_t *list = NULL;
    *count = 0;
    for (uint32_t byte = 0; byte < sizeof signs->bits[face]; byte++)
        for (uint32_t rest = bits[byte]; rest; rest &= rest - 1)
            *ARENA_PUSH(arena, list, *count) = byte * 8 + (uint32_t)__builtin_ctz(rest);
    return list;
}

static void add_sign(struct pdf_signs *signs, enum face face, uint32_t point)
{
    signs->bits[face][point / 8] |= (uint8_t)(1u << point % 8);
}

static void add_text(struct pdf_signs *signs, enum face face, const char *text)
{
    signs->used[face] = true;
    add_sign(signs, face, ' '); /* drawn where a blank follows a text */
    for (uint32_t point; (point = utf8_next(&text)) != 0;)
        if (point < 0xFFFF)
            add_sign(signs, face, point);
}

void pdf_survey_signs(struct pdf_signs *signs, const struct sheet *sheet)
{
    for (size_t i = 0; i < sheet->piece_count; i++)
        if (sheet->pieces[i].kind == PIECE_TEXT)
            add_text(signs, sheet->pieces[i].face, sheet->pieces[i].text);
}

_Noreturn static void refuse(size_t sheet, const char *what)
{
    fatal("sheet %zu of a print has %s; this is a fault of the program", sheet + 1, what);
}

static bool is_sound(const struct figure_path *path)
{
    if (path->step_count == 0 || path->steps[0].kind != STEP_MOVE)
        return false;
    for (size_t i = 0; i < path->step_count; i++) {
        const struct path_step *step = &path->steps[i];
        if (!isfinite(step->x + step->y + step->x1 + step->y1 + step->x2 + step->y2))
            return false;
    }
    return true;
}

static void check_piece(const struct print *print, const struct piece *piece, size_t sheet)
{
    const double numbers[] = {piece->x,    piece->y,    piece->width, piece->height,
                              piece->line, piece->grey, piece->size,  piece->scale};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        if (!isfinite(numbers[i]))
            refuse(sheet, "a mark with a number that is not finite");
    if (piece->grey < 0 || piece->grey > 1 || piece->line < 0)
        refuse(sheet, "a mark with a grey or a line width out of range");
    if (piece->tag >= 0 && (size_t)piece->tag >= print->tag_count)
        refuse(sheet, "a mark with a tag that is not there");
    if (piece->kind == PIECE_TEXT &&
        (!piece->text || piece->size <= 0 || (unsigned)piece->face >= FACE_COUNT))
        refuse(sheet, "a text without words, size or face");
    if (piece->kind == PIECE_PATH && (!piece->path || !is_sound(piece->path)))
        refuse(sheet, "a path that begins nowhere or has a number that is not finite");
}

static void check_area(const struct print *print, const struct hot_area *area, size_t sheet)
{
    if (!isfinite(area->x) || !isfinite(area->y) || !isfinite(area->width) ||
        !isfinite(area->height))
        refuse(sheet, "a link with a number that is not finite");
    if (!area->uri && (area->to_sheet >= print->sheet_count || !isfinite(area->to_y)))
        refuse(sheet, "a link that leads nowhere");
}

void pdf_survey_sheet(const struct print *print, size_t index)
{
    const struct sheet *sheet = &print->sheets[index];
    /* PDF 1.7 annex C: a page measures 3 to 14400 units. */
    if (!(sheet->width >= 3 && sheet->width <= 14400 && sheet->height >= 3 &&
          sheet->height <= 14400))
        refuse(index, "a size that no page can have");
    for (size_t i = 0; i < sheet->piece_count; i++)
        check_piece(print, &sheet->pieces[i], index);
}

void pdf_survey_whole(const struct print *print)
{
    if (print->sheet_count == 0)
        fatal("a print has no sheets; this is a fault of the program");
    for (size_t i = 0; i < print->sheet_count; i++)
        for (size_t k = 0; k < print->sheets[i].area_count; k++)
            check_area(print, &print->sheets[i].areas[k], i);
    for (size_t i = 0; i < print->outline_count; i++)
        if (print->outline[i].sheet >= print->sheet_count || !isfinite(print->outline[i].y))
            fatal("the outline of a print leads nowhere; this is a fault of the program");
    for (size_t i = 0; i < print->tag_count; i++)
        if (print->tags[i].parent >= (int)i)
            fatal("a tag of a print stands before its parent; this is a fault of the program");
}
