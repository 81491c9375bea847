/* Marks put straight onto a sheet, and the bars by which the scale is checked. */
#include "layout/drawing.h"

#include "doc/canvas.h"

void drawing_tag(struct drawing *drawing, enum tag_kind kind)
{
    struct print *print = drawing->print;
    drawing->tag = print_tag(drawing->arena, print, kind, print->tag_count ? 0 : -1);
    if (kind == TAG_HEADING)
        print->tags[drawing->tag].level = 1;
}

void drawing_sheet(struct drawing *drawing, double width, double height, const char *label)
{
    if (drawing->print->tag_count == 0)
        drawing_tag(drawing, TAG_DOCUMENT);
    drawing->sheet = print_sheet(drawing->arena, drawing->print, width, height, label);
}

void drawing_line(struct drawing *drawing, double x, double y, double width, double height,
                  double line)
{
    sheet_put(drawing->arena, drawing->sheet,
              decoration(PIECE_LINE, x, y, width, height, line));
}

void drawing_text(struct drawing *drawing, double x, double y, enum align align,
                  const struct text_style *style, const char *text)
{
    sheet_put(drawing->arena, drawing->sheet,
              text_piece(drawing->fonts, x, y, align, style, drawing->tag, text));
}

double drawing_words(struct drawing *drawing, struct area area, double y,
                     const struct text_style *style, const char *text)
{
    struct phrase phrase = {.fonts = drawing->fonts};
    struct lines lines = {0};
    double drop = (style->leading + fonts_cap_height(drawing->fonts) * style->size) / 2;
    phrase_begin(&phrase, style);
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

struct piece *figure_pieces(struct arena *arena, const struct fonts *fonts,
                            const struct figure *figure, double x, double y, double scale,
                            int tag, size_t *count)
{
    struct piece *pieces =
        arena_get(arena, (2 * figure->path_count + figure->text_count) * sizeof *pieces);
    struct piece *next = pieces;
    for (size_t i = 0; i < figure->path_count; i++) {
        const struct figure_path *path = &figure->paths[i];
        struct piece piece = {
            .kind = PIECE_PATH, .tag = tag, .x = x, .y = y, .scale = scale, .path = path};
        if (path->fill != FILL_NONE) {
            *next = piece;
            next->filled = true;
            next++->grey = path->fill == FILL_PAPER ? 1 : 0;
        }
        if (path->stroke != STROKE_NONE) {
            *next = piece;
            next++->line = scale * figure_line(path->stroke);
        }
    }
    for (size_t i = 0; i < figure->text_count; i++) {
        const struct figure_text *text = &figure->texts[i];
        struct text_style style = {.face = text->bold ? FACE_BOLD : FACE_REGULAR,
                                   .size = scale * text->size};
        *next = text_piece(fonts, x + scale * figure_text_left(text), y + scale * text->y,
                           ALIGN_LEFT, &style, tag, text->text);
        next++->blank_after = true; /* they are not one word */
    }
    *count = (size_t)(next - pieces);
    return pieces;
}

void drawing_figure(struct drawing *drawing, const struct figure *figure, double x, double y)
{
    size_t count;
    drawing_tag(drawing, TAG_FIGURE);
    drawing->print->tags[drawing->tag].alternative = figure->description;
    const struct piece *pieces =
        figure_pieces(drawing->arena, drawing->fonts, figure, x, y, 1, drawing->tag, &count);
    for (size_t i = 0; i < count; i++)
        sheet_put(drawing->arena, drawing->sheet, pieces[i]);
}

const char *imprint_inputs(struct arena *arena, const struct imprint *imprint)
{
    return arena_format(arena, "%s. Settings %s.", imprint->inputs, imprint->fingerprint);
}

/* ---- check bars ---- */

static const double LINE = 0.25, TICK = 5.5, END_TICK = 8.5, SIZE = 7;

static const double BOX_WIDTH = 38, BOX_HEIGHT = 18;

static const struct {
    double division;
    int count;
    const char *whole, *unit;
} bars[] = {
    [BAR_MM] = {10 * MM, 10, "100\u00a0mm", "mm"}, [BAR_INCH] = {36, 8, "4\u00a0in", "in"}};

double bar_length(enum bar_unit unit)
{
    return bars[unit].division * bars[unit].count;
}

/* For what was measured. */
static void draw_box(struct drawing *drawing, double x, double y, double width)
{
    sheet_put(drawing->arena, drawing->sheet,
              decoration(PIECE_BOX, x, y, width, BOX_HEIGHT, 0.5));
}

/* The words and the box beside a bar that lies end at its end, BAR_BESIDE to the right; those
 * of one that stands are at its right. */
void bar_draw(struct drawing *drawing, double x, double y, enum bar_unit unit, enum bar_way way)
{
    const struct text_style style = {.size = SIZE};
    double length = bar_length(unit);
    const char *whole = bars[unit].whole, *name = bars[unit].unit;
    drawing_tag(drawing, TAG_PARAGRAPH);
    for (int i = 0; i <= bars[unit].count; i++) {
        double at = i * bars[unit].division;
        double tick = i == 0 || i == bars[unit].count ? END_TICK : TICK;
        if (way == BAR_ACROSS)
            drawing_line(drawing, x + at, y - tick, 0, tick, LINE);
        else
            drawing_line(drawing, x, y + at, tick, 0, LINE);
    }
    if (way == BAR_ACROSS) {
        double end = x + length, box = end + BAR_BESIDE - 14 - BOX_WIDTH;
        drawing_line(drawing, x, y, length, 0, LINE);
        drawing_text(drawing, x, y + BAR_BELOW - 1, ALIGN_MIDDLE, &style, "0");
        drawing_text(drawing, end, y + BAR_BELOW - 1, ALIGN_MIDDLE, &style, whole);
        drawing_text(drawing, box - 4, y + 1, ALIGN_RIGHT, &style, "measured");
        draw_box(drawing, box, y - BOX_HEIGHT / 2 - 1.5, BOX_WIDTH);
        drawing_text(drawing, box + BOX_WIDTH + 3, y + 1, ALIGN_LEFT, &style, name);
    } else {
        double middle = y + length / 2, left = x + END_TICK + 1;
        drawing_line(drawing, x, y, 0, length, LINE);
        drawing_text(drawing, left + 1, y + 2.5, ALIGN_LEFT, &style, "0");
        drawing_text(drawing, left + 1, y + length + 2.5, ALIGN_LEFT, &style, whole);
        drawing_text(drawing, left, middle - BOX_HEIGHT / 2 - 3, ALIGN_LEFT, &style,
                     "measured");
        draw_box(drawing, left, middle - BOX_HEIGHT / 2, BOX_WIDTH - 2);
        drawing_text(drawing, left, middle + BOX_HEIGHT / 2 + SIZE + 1, ALIGN_LEFT, &style,
                     name);
    }
}
