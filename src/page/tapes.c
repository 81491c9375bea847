#include "page/tapes.h"
#include "tree/points.h"

#include <math.h>

static const double NAME_ROOM = 34; /* beside a joint and its marks */
static const double CUT = 0.25, MARK = 0.25, SIZE = 6.5, NOISE = 1e-6;

/* Marks left and right of a joint, so far from it that a rule finds them 20 mm apart. */
static const double JOINT_CHECK = 10 * MM;

struct piece_of {
    const struct tape *tape;
    double from, to; /* of the strip, in its own points */
    double x, y;     /* of the piece's upper left corner */
};

/* A line of the outline from a to b along the strip, as far as it lies in the piece. */
static void line_along(struct drawing *drawing, const struct piece_of *piece, double a,
                       double b, double y)
{
    double from = fmax(a, piece->from), to = fmin(b, piece->to);
    if (to > from)
        drawing_line(drawing, piece->x + from - piece->from, piece->y + y, to - from, 0, CUT);
}

static bool is_in_piece(const struct piece_of *piece, double at)
{
    return at >= piece->from - NOISE && at <= piece->to + NOISE;
}

static void line_across(struct drawing *drawing, const struct piece_of *piece, double at,
                        double y, double height)
{
    if (is_in_piece(piece, at))
        drawing_line(drawing, piece->x + at - piece->from, piece->y + y, 0, height, CUT);
}

/* The line to cut along. */
static void draw_outline(struct drawing *drawing, const struct piece_of *piece)
{
    const struct tape *tape = piece->tape;
    double half = TAPE_HEIGHT / 2;
    line_along(drawing, piece, tape->upper_from, tape->end, 0);
    line_along(drawing, piece, tape->begin, tape->lower_to, TAPE_HEIGHT);
    if (tape->vernier_count == 0) {
        line_across(drawing, piece, tape->begin, 0, TAPE_HEIGHT);
        line_across(drawing, piece, tape->end, 0, TAPE_HEIGHT);
        return;
    }
    line_along(drawing, piece, tape->begin, tape->upper_from, half);
    line_along(drawing, piece, tape->lower_to, tape->end, half);
    line_across(drawing, piece, tape->begin, half, half);
    line_across(drawing, piece, tape->upper_from, 0, half);
    line_across(drawing, piece, tape->lower_to, half, half);
    line_across(drawing, piece, tape->end, 0, half);
}

/* Marks stand on the edge that is read: up (way -1) or down from it (way 1). */
static void draw_marks(struct drawing *drawing, const struct piece_of *piece,
                       const struct tape_mark *marks, size_t count, double edge, double room,
                       int way)
{
    struct text_style style = {.size = SIZE};
    double cap = fonts_cap_height(drawing->fonts) * SIZE;
    for (size_t i = 0; i < count; i++) {
        if (!is_in_piece(piece, marks[i].at))
            continue;
        double x = piece->x + marks[i].at - piece->from;
        double reach = way * marks[i].reach * room;
        drawing_line(drawing, x, piece->y + edge, 0, reach, MARK);
        if (marks[i].label)
            drawing_text(drawing, x, piece->y + edge + reach + (way < 0 ? -1.5 : 1.5 + cap),
                         ALIGN_MIDDLE, &style, marks[i].label);
    }
}

/* On the edge that bears no scale. */
static void draw_joint_check(struct drawing *drawing, const struct piece_of *piece, double at)
{
    double height = TAPE_HEIGHT / 4;
    line_across(drawing, piece, at, piece->tape->vernier_count ? TAPE_HEIGHT - height : 0,
                height);
}

/* Both sides of a joint bear its letter, and a mark to measure across it. */
static void draw_joint(struct drawing *drawing, const struct piece_of *piece, double at,
                       char letter, enum align align)
{
    struct text_style style = {.size = SIZE};
    double x = piece->x + at - piece->from;
    line_across(drawing, piece, at, 0, TAPE_HEIGHT);
    draw_joint_check(drawing, piece, at - JOINT_CHECK);
    draw_joint_check(drawing, piece, at + JOINT_CHECK);
    drawing_text(drawing, x + (align == ALIGN_LEFT ? 3 : -3), piece->y + 10, align, &style,
                 arena_format(drawing->arena, "joint %c", letter));
}

/* Where the upper half is free of marks on this piece, if there is room for it. */
static void draw_name(struct drawing *drawing, const struct piece_of *piece)
{
    const struct tape *tape = piece->tape;
    struct text_style style = {.size = SIZE};
    bool plain = tape->vernier_count == 0;
    double from = fmax(piece->from, fmax(tape->upper_from, tape->begin)) + NAME_ROOM;
    double to = fmin(piece->to, plain ? tape->end : tape->lower_to) - NAME_ROOM;
    if (fonts_width(drawing->fonts, style.face, SIZE, tape->name) <= to - from)
        drawing_text(drawing, piece->x + from - piece->from, piece->y + SIZE + 3, ALIGN_LEFT,
                     &style, tape->name);
}

static void draw_words(struct drawing *drawing, const struct piece_of *piece)
{
    const struct tape *tape = piece->tape;
    struct text_style style = {.size = SIZE};
    draw_name(drawing, piece);
    if (tape->tab && is_in_piece(piece, tape->begin))
        drawing_text(drawing, piece->x + 4, piece->y + SIZE + 3, ALIGN_LEFT, &style, tape->tab);
    if (tape->index && is_in_piece(piece, 0))
        drawing_text(drawing, piece->x - piece->from + 8, piece->y + TAPE_HEIGHT * 0.75,
                     ALIGN_LEFT, &style, tape->index);
}

static void draw_piece(struct drawing *drawing, const struct piece_of *piece, int index,
                       int count)
{
    const struct tape *tape = piece->tape;
    bool plain = tape->vernier_count == 0;
    double edge = plain ? TAPE_HEIGHT : TAPE_HEIGHT / 2;
    double room = plain ? TAPE_HEIGHT : TAPE_HEIGHT / 2;
    draw_outline(drawing, piece);
    draw_marks(drawing, piece, tape->marks, tape->mark_count, edge, room, -1);
    draw_marks(drawing, piece, tape->vernier, tape->vernier_count, edge, room, 1);
    if (index > 0)
        draw_joint(drawing, piece, piece->from, (char)('A' + index - 1), ALIGN_LEFT);
    if (index + 1 < count)
        draw_joint(drawing, piece, piece->to, (char)('A' + index), ALIGN_RIGHT);
    draw_words(drawing, piece);
}

double tape_draw(struct drawing *drawing, const struct tape *tape, struct area area, double y)
{
    double length = tape->end - tape->begin;
    int count = (int)ceil(length / area.width - NOISE);
    for (int i = 0; i < count; i++) {
        struct piece_of piece = {.tape = tape,
                                 .from = tape->begin + length * i / count,
                                 .to = tape->begin + length * (i + 1) / count,
                                 .x = area.x,
                                 .y = y};
        draw_piece(drawing, &piece, i, count);
        y += TAPE_PITCH;
    }
    return y;
}
