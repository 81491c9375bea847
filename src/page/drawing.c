#include "page/drawing.h"

#include <math.h>
#include <string.h>

enum { CHORDS = 12 }; /* of a quarter: of 5 mm radius they stay within 0.02 mm of it */

static const double FOOT_SIZE = 6.5;

void drawing_tag(struct drawing *drawing, enum tag_kind kind)
{
    struct print *print = drawing->print;
    drawing->tag = (int)print->tag_count;
    *ARENA_PUSH(drawing->arena, print->tags, print->tag_count) =
        (struct tag){.kind = kind, .parent = drawing->tag == 0 ? -1 : 0};
    if (kind == TAG_HEADING)
        print->tags[drawing->tag].level = 1;
}

void drawing_sheet(struct drawing *drawing, double width, double height, const char *label)
{
    struct print *print = drawing->print;
    if (print->tag_count == 0)
        drawing_tag(drawing, TAG_DOCUMENT);
    drawing->sheet = ARENA_PUSH(drawing->arena, print->sheets, print->sheet_count);
    *drawing->sheet = (struct sheet){.width = width, .height = height, .label = label};
}

static void add_piece(struct drawing *drawing, struct piece piece)
{
    struct sheet *sheet = drawing->sheet;
    *ARENA_PUSH(drawing->arena, sheet->pieces, sheet->piece_count) = piece;
}

void drawing_line(struct drawing *drawing, double x, double y, double width, double height,
                  double line)
{
    add_piece(drawing, decoration(PIECE_LINE, x, y, width, height, line));
}

void drawing_box(struct drawing *drawing, double x, double y, double width, double height,
                 double line)
{
    add_piece(drawing, decoration(PIECE_BOX, x, y, width, height, line));
}

void drawing_text(struct drawing *drawing, double x, double y, enum align align,
                  const struct text_style *style, const char *text)
{
    double width = fonts_width(drawing->fonts, style->face, style->size, text);
    double share = align == ALIGN_LEFT ? 0 : align == ALIGN_MIDDLE ? 0.5 : 1;
    add_piece(drawing,
              text_piece(drawing->fonts, x - share * width, y, style, drawing->tag, text));
}

double drawing_words(struct drawing *drawing, struct area area, double y,
                     const struct text_style *style, const char *text)
{
    struct phrase phrase = {.fonts = drawing->fonts};
    struct lines lines = {0};
    double drop = (style->leading + fonts_cap_height(drawing->fonts) * style->size) / 2;
    phrase_begin(&phrase, style->size);
    phrase_add(&phrase, text, (struct pen){.face = style->face, .link = -1, .tag = -1});
    phrase_break(&phrase, area.width, &lines);
    for (size_t i = 0; i < lines.count; i++) {
        size_t end = lines.starts[i + 1];
        drawing_text(drawing, area.x, y + drop, ALIGN_LEFT, style,
                     phrase_text(&phrase, lines.starts[i], end, false, false, drawing->arena));
        if (end < phrase.count && phrase.bits[end].join >= JOIN_BLANK)
            drawing->sheet->pieces[drawing->sheet->piece_count - 1].blank_after = true;
        y += style->leading;
    }
    phrase_free(&phrase);
    lines_free(&lines);
    return y;
}

static void draw_path(struct drawing *drawing, const struct figure_path *path, double x,
                      double y)
{
    struct piece piece = {
        .kind = PIECE_PATH, .tag = drawing->tag, .x = x, .y = y, .path = path, .scale = 1};
    if (path->fill != FILL_NONE) {
        struct piece ground = piece;
        ground.filled = true;
        ground.grey = path->fill == FILL_PAPER ? 1 : 0;
        add_piece(drawing, ground);
    }
    piece.line = figure_line(path->stroke);
    if (path->stroke != STROKE_NONE)
        add_piece(drawing, piece);
}

void drawing_figure(struct drawing *drawing, const struct figure *figure, double x, double y)
{
    drawing_tag(drawing, TAG_FIGURE);
    drawing->print->tags[drawing->tag].alternative = figure->description;
    for (size_t i = 0; i < figure->path_count; i++)
        draw_path(drawing, &figure->paths[i], x, y);
    for (size_t i = 0; i < figure->text_count; i++) {
        const struct figure_text *text = &figure->texts[i];
        struct text_style style = {.face = text->bold ? FACE_BOLD : FACE_REGULAR,
                                   .size = text->size};
        drawing_text(drawing, x + figure_text_left(text), y + text->y, ALIGN_LEFT, &style,
                     text->text);
        drawing->sheet->pieces[drawing->sheet->piece_count - 1].blank_after = true;
    }
}

/* A quarter of a circle about (x, y), clockwise as seen, from an angle on. */
static void quarter(struct drawing *drawing, double x, double y, double radius, double from,
                    double line)
{
    for (int i = 0; i < CHORDS; i++) {
        double a = from + M_PI / 2 * i / CHORDS, b = from + M_PI / 2 * (i + 1) / CHORDS;
        drawing_line(drawing, x + radius * cos(a), y + radius * sin(a),
                     radius * (cos(b) - cos(a)), radius * (sin(b) - sin(a)), line);
    }
}

void drawing_rounded(struct drawing *drawing, double x, double y, double width, double height,
                     double radius, double line)
{
    double right = x + width, low = y + height;
    drawing_line(drawing, x + radius, y, width - 2 * radius, 0, line);
    quarter(drawing, right - radius, y + radius, radius, -M_PI / 2, line);
    drawing_line(drawing, right, y + radius, 0, height - 2 * radius, line);
    quarter(drawing, right - radius, low - radius, radius, 0, line);
    drawing_line(drawing, right - radius, low, 2 * radius - width, 0, line);
    quarter(drawing, x + radius, low - radius, radius, M_PI / 2, line);
    drawing_line(drawing, x, low - radius, 0, 2 * radius - height, line);
    quarter(drawing, x + radius, y + radius, radius, M_PI, line);
}

void drawing_foot(struct drawing *drawing, const struct imprint *imprint, double margin)
{
    struct text_style style = {.size = FOOT_SIZE, .leading = FOOT_SIZE * 1.25};
    struct area area = {.x = margin, .width = drawing->sheet->width - 2 * margin};
    const char *inputs =
        arena_format(drawing->arena, "%s. Settings %s.", imprint->inputs, imprint->fingerprint);
    double y = drawing->sheet->height - margin - 2 * style.leading;
    drawing_tag(drawing, TAG_PARAGRAPH);
    drawing_words(drawing, area, y, &style, inputs);
    if (!imprint->notice)
        return;
    style.face = FACE_BOLD;
    drawing_tag(drawing, TAG_PARAGRAPH);
    drawing_words(drawing, area, y - style.leading, &style, imprint->notice);
}
