#include "page/foot.h"

#include "base/utf8.h"

#include <string.h>

static const double SIZE = 7.5, NUMBER_SIZE = 10, RULE = 0.4;

/* Above the sheet's lower edge, in points. */
static const double RULE_ABOVE = 38, LINE_ABOVE = 28, NOTICE_ABOVE = 19;

static void add_text(struct flow *flow, struct sheet *sheet, double x, double y, enum face face,
                     double size, const char *text)
{
    *ARENA_PUSH(flow->marks, sheet->pieces, sheet->piece_count) =
        (struct piece){.kind = PIECE_TEXT,
                       .tag = -1,
                       .x = x,
                       .y = y,
                       .width = fonts_width(flow->fonts, face, size, text),
                       .height = size,
                       .face = face,
                       .size = size,
                       .text = text};
}

static void add_rule(struct flow *flow, struct sheet *sheet, double x, double y, double width)
{
    *ARENA_PUSH(flow->marks, sheet->pieces, sheet->piece_count) =
        decoration(PIECE_LINE, x, y, width, 0, RULE);
}

/* As much of the text as fits, with an ellipsis where some is left out. */
static const char *shorten(struct flow *flow, const char *text, enum face face, double room)
{
    if (fonts_width(flow->fonts, face, SIZE, text) <= room)
        return text;
    double width = fonts_width(flow->fonts, face, SIZE, "…");
    const char *at = text, *end = text;
    while (*at) {
        const char *before = at;
        utf8_next(&at);
        width += fonts_width_of(flow->fonts, face, SIZE, before, (size_t)(at - before));
        if (width > room)
            break;
        end = at;
    }
    while (end > text && end[-1] == ' ')
        end--;
    return arena_format(flow->marks, "%.*s…", (int)(end - text), text);
}

/* The number stands at the outer edge, the settings at the fold. */
static void put_line(struct flow *flow, struct sheet *sheet, const struct imprint *imprint,
                     const char *chapter, double left, double width, bool right_hand)
{
    double y = sheet->height - LINE_ABOVE, right = left + width, gap = 2 * SIZE;
    const char *settings = arena_format(flow->marks, "settings %s", imprint->fingerprint);
    double number = fonts_width(flow->fonts, FACE_BOLD, NUMBER_SIZE, sheet->label);
    double beside = fonts_width(flow->fonts, FACE_REGULAR, SIZE, settings);
    chapter = shorten(flow, chapter, FACE_REGULAR, width - number - beside - 2 * gap);
    double middle = fonts_width(flow->fonts, FACE_REGULAR, SIZE, chapter);
    add_text(flow, sheet, right_hand ? right - number : left, y, FACE_BOLD, NUMBER_SIZE,
             sheet->label);
    add_text(flow, sheet, right_hand ? right - number - gap - middle : left + number + gap, y,
             FACE_REGULAR, SIZE, chapter);
    add_text(flow, sheet, right_hand ? left : right - beside, y, FACE_REGULAR, SIZE, settings);
}

void foot_put(struct flow *flow, const struct layout *layout, size_t index,
              const struct imprint *imprint, const char *chapter)
{
    struct sheet *sheet = &flow->print->sheets[index];
    bool sideways = sheet_is_sideways(layout, sheet);
    double left = layout_left(layout, index, sideways);
    double width = sideways ? flow->sideways_width : flow->width;
    add_rule(flow, sheet, left, sheet->height - RULE_ABOVE, width);
    put_line(flow, sheet, imprint, chapter, left, width, index % 2 == 0);
    if (!imprint->notice)
        return;
    const char *notice = shorten(flow, imprint->notice, FACE_BOLD, width);
    double taken = fonts_width(flow->fonts, FACE_BOLD, SIZE, notice);
    add_text(flow, sheet, left + (width - taken) / 2, sheet->height - NOTICE_ABOVE, FACE_BOLD,
             SIZE, notice);
}
