#include "page/foot.h"

#include "page/drawing.h"

#include <string.h>

static const double SIZE = 7.5, NUMBER_SIZE = 10, RULE = 0.4;

/* Above the sheet's lower edge, in points. */
static const double RULE_ABOVE = 38, LINE_ABOVE = 28, NOTICE_ABOVE = 19;

/* As much of the text as fits, with an ellipsis where some is left out. */
static const char *shorten(struct flow *flow, const char *text, enum face face, double room)
{
    if (fonts_width(flow->fonts, face, SIZE, text) <= room)
        return text;
    room -= fonts_width(flow->fonts, face, SIZE, "…");
    size_t fits = text_fitting(flow->fonts, face, SIZE, text, strlen(text), room);
    while (fits && text[fits - 1] == ' ')
        fits--;
    return arena_format(flow->arena, "%.*s…", (int)fits, text);
}

void foot_put(struct flow *flow, const struct layout *layout, size_t index,
              const struct imprint *imprint, const char *chapter)
{
    struct sheet *sheet = &flow->print->sheets[index];
    struct drawing drawing = {.arena = flow->arena,
                              .fonts = flow->fonts,
                              .print = flow->print,
                              .sheet = sheet,
                              .tag = -1};
    bool sideways = sheet_is_sideways(layout, sheet), right_hand = index % 2 == 0;
    double left = layout_left(layout, index, sideways);
    double width = sideways ? flow->sideways_width : flow->width, right = left + width;
    double y = sheet->height - LINE_ABOVE, gap = 2 * SIZE;
    struct text_style style = {.size = SIZE}, bold = {.face = FACE_BOLD, .size = SIZE};
    struct text_style large = {.face = FACE_BOLD, .size = NUMBER_SIZE};
    const char *settings = arena_format(flow->arena, "settings %s", imprint->fingerprint);
    double number = fonts_width(flow->fonts, FACE_BOLD, NUMBER_SIZE, sheet->label);
    double beside = fonts_width(flow->fonts, FACE_REGULAR, SIZE, settings);
    enum align outer = right_hand ? ALIGN_RIGHT : ALIGN_LEFT;
    chapter = shorten(flow, chapter, FACE_REGULAR, width - number - beside - 2 * gap);
    drawing_line(&drawing, left, sheet->height - RULE_ABOVE, width, 0, RULE);
    drawing_text(&drawing, right_hand ? right : left, y, outer, &large, sheet->label);
    drawing_text(&drawing, right_hand ? right - number - gap : left + number + gap, y, outer,
                 &style, chapter);
    drawing_text(&drawing, right_hand ? left : right, y, right_hand ? ALIGN_LEFT : ALIGN_RIGHT,
                 &style, settings);
    if (imprint->notice)
        drawing_text(&drawing, left + width / 2, sheet->height - NOTICE_ABOVE, ALIGN_MIDDLE,
                     &bold, shorten(flow, imprint->notice, FACE_BOLD, width));
}
