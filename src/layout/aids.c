/* Sheets to measure with. A strip longer than the sheet is divided into pieces of one length,
 * with marks across each joint to check the gluing by. */
#include "layout/aids.h"

#include "doc/canvas.h"
#include "layout/drawing.h"
#include "layout/paper.h"

#include <math.h>

/* ---- strips ---- */

static const double TAPE_HEIGHT = 45; /* 16 mm */

static const double TAPE_PITCH = 70; /* from one piece to the next below it */

static const double NAME_ROOM = 34; /* beside a joint and its marks */

static const double CUT = 0.25, MARK = 0.25, NOISE = 1e-6;

static const struct text_style strip_style = {.size = 6.5};

/* Marks left and right of a joint, so far from it that a rule finds them 20 mm apart. */
static const double JOINT_CHECK = 10 * MM;

/* A piece of a strip. `at` is a place along the whole strip, y below the piece's upper edge. */
struct strip_piece {
    struct drawing *drawing;
    const struct tape *tape;
    bool plain;      /* without a vernier */
    double from, to; /* of the strip, in its own points */
    double x, y;     /* of the piece's upper left corner */
};

static double x_of(const struct strip_piece *piece, double at)
{
    return piece->x + at - piece->from;
}

/* A line of the outline from a to b along the strip, as far as it lies in the piece. */
static void line_along(const struct strip_piece *piece, double a, double b, double y)
{
    double from = fmax(a, piece->from), to = fmin(b, piece->to);
    if (to > from)
        drawing_line(piece->drawing, x_of(piece, from), piece->y + y, to - from, 0, CUT);
}

static bool is_in_piece(const struct strip_piece *piece, double at)
{
    return at >= piece->from - NOISE && at <= piece->to + NOISE;
}

static void line_across(const struct strip_piece *piece, double at, double y, double height)
{
    if (is_in_piece(piece, at))
        drawing_line(piece->drawing, x_of(piece, at), piece->y + y, 0, height, CUT);
}

static void put_text(const struct strip_piece *piece, double x, double y, enum align align,
                     const char *text)
{
    drawing_text(piece->drawing, x, piece->y + y, align, &strip_style, text);
}

/* The line to cut along. */
static void draw_outline(const struct strip_piece *piece)
{
    const struct tape *tape = piece->tape;
    double half = TAPE_HEIGHT / 2;
    line_along(piece, tape->upper_from, tape->end, 0);
    line_along(piece, tape->begin, tape->lower_to, TAPE_HEIGHT);
    if (piece->plain) {
        line_across(piece, tape->begin, 0, TAPE_HEIGHT);
        line_across(piece, tape->end, 0, TAPE_HEIGHT);
        return;
    }
    line_along(piece, tape->begin, tape->upper_from, half);
    line_along(piece, tape->lower_to, tape->end, half);
    line_across(piece, tape->begin, half, half);
    line_across(piece, tape->upper_from, 0, half);
    line_across(piece, tape->lower_to, half, half);
    line_across(piece, tape->end, 0, half);
}

/* Marks stand on the edge that is read, and have as much room above as below it: up (way -1)
 * or down from it (way 1). */
static void draw_marks(const struct strip_piece *piece, const struct tape_mark *marks,
                       size_t count, int way)
{
    double edge = piece->plain ? TAPE_HEIGHT : TAPE_HEIGHT / 2;
    double cap = fonts_cap_height(piece->drawing->fonts) * strip_style.size;
    for (size_t i = 0; i < count; i++) {
        if (!is_in_piece(piece, marks[i].at))
            continue;
        double x = x_of(piece, marks[i].at), reach = way * marks[i].reach * edge;
        drawing_line(piece->drawing, x, piece->y + edge, 0, reach, MARK);
        if (marks[i].label)
            put_text(piece, x, edge + reach + (way < 0 ? -1.5 : 1.5 + cap), ALIGN_MIDDLE,
                     marks[i].label);
    }
}

/* Both sides of a joint bear its letter, and marks to measure across it, on the edge that
 * bears no scale. */
static void draw_joint(const struct strip_piece *piece, double at, char letter,
                       enum align align)
{
    double check = TAPE_HEIGHT / 4, top = piece->plain ? 0 : TAPE_HEIGHT - check;
    line_across(piece, at, 0, TAPE_HEIGHT);
    line_across(piece, at - JOINT_CHECK, top, check);
    line_across(piece, at + JOINT_CHECK, top, check);
    put_text(piece, x_of(piece, at) + (align == ALIGN_LEFT ? 3 : -3), 10, align,
             arena_format(piece->drawing->arena, "joint %c", letter));
}

/* The name stands where the upper half is free of marks on this piece, if there is room. */
static void draw_words(const struct strip_piece *piece)
{
    const struct tape *tape = piece->tape;
    double size = strip_style.size;
    double from = fmax(piece->from, fmax(tape->upper_from, tape->begin)) + NAME_ROOM;
    double to = fmin(piece->to, piece->plain ? tape->end : tape->lower_to) - NAME_ROOM;
    if (fonts_width(piece->drawing->fonts, FACE_REGULAR, size, tape->name) <= to - from)
        put_text(piece, x_of(piece, from), size + 3, ALIGN_LEFT, tape->name);
    if (tape->tab && is_in_piece(piece, tape->begin))
        put_text(piece, piece->x + 4, size + 3, ALIGN_LEFT, tape->tab);
    if (tape->index && is_in_piece(piece, 0))
        put_text(piece, x_of(piece, 0) + 8, TAPE_HEIGHT * 0.75, ALIGN_LEFT, tape->index);
}

/* Draws the pieces below each other from y on. */
static void draw_tape(struct drawing *drawing, const struct tape *tape, struct area area,
                      double y)
{
    double length = tape->end - tape->begin;
    int count = (int)ceil(length / area.width - NOISE);
    for (int i = 0; i < count; i++, y += TAPE_PITCH) {
        struct strip_piece piece = {.drawing = drawing,
                                    .tape = tape,
                                    .plain = tape->vernier_count == 0,
                                    .from = tape->begin + length * i / count,
                                    .to = tape->begin + length * (i + 1) / count,
                                    .x = area.x,
                                    .y = y};
        draw_outline(&piece);
        draw_marks(&piece, tape->marks, tape->mark_count, -1);
        draw_marks(&piece, tape->vernier, tape->vernier_count, 1);
        if (i > 0)
            draw_joint(&piece, piece.from, (char)('A' + i - 1), ALIGN_LEFT);
        if (i + 1 < count)
            draw_joint(&piece, piece.to, (char)('A' + i), ALIGN_RIGHT);
        draw_words(&piece);
    }
}

/* ---- sheets ---- */

static const double MARGIN = 12 * MM;

static const double TITLE_SIZE = 16, TEXT_SIZE = 9.5, TEXT_LEADING = 12.5, TEXT_MOST = 560;

static const double FOOT_SIZE = 6.5;

/* The sheets lie on their side: strips are as long as can be. */
double aid_width(enum paper_size booklet)
{
    return stock_of(booklet)->height - 2 * MARGIN;
}

/* What title, a paragraph, bar and foot take of the sheet's height. */
static const double BESIDE_FIGURE = 34 + 30 + 48 + 28;

double aid_figure_height(enum paper_size booklet)
{
    return stock_of(booklet)->width - 2 * MARGIN - BESIDE_FIGURE;
}

static double put_title(struct drawing *drawing, const char *title)
{
    struct text_style style = {
        .face = FACE_BOLD, .size = TITLE_SIZE, .leading = TITLE_SIZE * 1.25};
    double width = drawing->sheet->width - 2 * MARGIN;
    drawing_tag(drawing, TAG_HEADING);
    double y = drawing_words(drawing, (struct area){MARGIN, width}, MARGIN, &style, title) + 4;
    drawing_line(drawing, MARGIN, y, width, 0, 1);
    return y + 8;
}

/* Paragraphs with a gap behind each. Gives the y below the last. */
static double put_words(struct drawing *drawing, struct area area, double y,
                        const struct text_style *style, double gap, const char *const *words,
                        size_t count)
{
    for (size_t i = 0; i < count; i++) {
        drawing_tag(drawing, TAG_PARAGRAPH);
        y = drawing_words(drawing, area, y, style, words[i]) + gap;
    }
    return y;
}

static double explain(struct drawing *drawing, const char *const *words, size_t count, double y)
{
    struct text_style style = {.size = TEXT_SIZE, .leading = TEXT_LEADING};
    return put_words(drawing, (struct area){MARGIN, TEXT_MOST}, y, &style, 4, words, count);
}

/* The book's notice, inputs and fingerprint. */
static void put_foot(struct drawing *drawing, const struct imprint *imprint)
{
    struct text_style style = {.size = FOOT_SIZE, .leading = FOOT_SIZE * 1.25};
    struct area area = {.x = MARGIN, .width = drawing->sheet->width - 2 * MARGIN};
    double y = drawing->sheet->height - MARGIN - 2 * style.leading;
    drawing_tag(drawing, TAG_PARAGRAPH);
    drawing_words(drawing, area, y, &style, imprint_inputs(drawing->arena, imprint));
    if (!imprint->notice)
        return;
    style.face = FACE_BOLD;
    drawing_tag(drawing, TAG_PARAGRAPH);
    drawing_words(drawing, area, y - style.leading, &style, imprint->notice);
}

static const char *const bar_words[] = {
    "Print at 100 %, also called \u201cactual size\u201d; never \u201cfit to page\u201d. Lay a "
    "steel rule or a caliper along each bar, from the middle of its first line to the middle "
    "of its last, and write down what you find.",
    "99.5 to 100.5 mm, or 3.98 to 4.02 in, is good enough for everything here. Otherwise set "
    "the printer right and print again; or work with the factor, which is measured \u00f7 100 "
    "mm (or \u00f7 4 in): multiply by it every diameter that you read off a tape lying along "
    "that bar.",
    ("The two directions differ: the printer feeds the paper along one of them. Damp paper "
     "grows. Measure on the day on which you use the sheet.")};

static void put_bar_sheet(struct drawing *drawing)
{
    double y = put_title(drawing, "Check bars: did the printer keep the scale?");
    y = explain(drawing, bar_words, sizeof bar_words / sizeof *bar_words, y) + 24;
    double down = MARGIN + 6, across = MARGIN + 2 * BAR_STANDING + 60;
    bar_draw(drawing, down, y, BAR_MM, BAR_DOWN);
    bar_draw(drawing, down + BAR_STANDING + 14, y, BAR_INCH, BAR_DOWN);
    bar_draw(drawing, across, y + 40, BAR_MM, BAR_ACROSS);
    bar_draw(drawing, across, y + 110, BAR_INCH, BAR_ACROSS);
}

static void put_aid(struct drawing *drawing, const struct aid *aid)
{
    double y = put_title(drawing, aid->title);
    y = explain(drawing, aid->words, aid->word_count, y);
    if (!aid->tape && !aid->figure)
        return;
    y += 14 + BAR_ABOVE;
    bar_draw(drawing, MARGIN + 6, y, BAR_MM, BAR_ACROSS);
    if (aid->figure) {
        drawing_figure(drawing, aid->figure, MARGIN, y + BAR_BELOW + 10);
        return;
    }
    struct area area = {MARGIN, drawing->sheet->width - 2 * MARGIN};
    drawing->tag = -1; /* the figures on a strip are part of a drawing */
    draw_tape(drawing, aid->tape, area, y + BAR_BELOW + 18);
}

struct print *compose_aids(struct arena *arena, const struct aid *aids, size_t count,
                           const struct imprint *imprint, const struct fonts *fonts,
                           enum paper_size booklet)
{
    const struct stock *stock = stock_of(booklet);
    struct print *print = arena_get(arena, sizeof *print);
    struct drawing drawing = {.arena = arena, .fonts = fonts, .print = print};
    print->title = arena_format(arena, "%s: check bars and strips", imprint->title);
    for (size_t i = 0; i <= count; i++) {
        drawing_sheet(&drawing, stock->height, stock->width, arena_format(arena, "%zu", i + 1));
        if (i == 0)
            put_bar_sheet(&drawing);
        else
            put_aid(&drawing, &aids[i - 1]);
        put_foot(&drawing, imprint);
    }
    return print;
}

/* ---- a sheet to try ---- */

static const double EDGE = 15 * MM, NUMBER_SIZE = 90, FOLD_LINE = 5 * MM;

static const struct text_style title_style = {.face = FACE_BOLD, .size = 13, .leading = 17};

static const char *const trial_words[] = {
    "Print this sheet alone: at 100 %, on both sides, flip on the short edge. Fold it with "
    "this page outside.",
    "Right: all four arrows point up, and the pages follow as 1, 2, 3, 4. Print the booklet in "
    "the same way.",
    "Inside upside-down: take the other flip (long edge), and try again.",
    "A printer that prints one side only: print this sheet\u2019s front, put the sheet back, "
    "print its back, until you know which way round the stack goes in.",
    "Measure the bar on page 2."};

/* What is done with the printed sheets. */
static const char *binding_words(struct arena *arena, const struct fold *fold)
{
    const char *sheets = fold_words(arena, fold);
    if (fold_gatherings(fold) < 2)
        return arena_format(arena,
                            "Your booklet is %s. Fold them all into one another and staple "
                            "twice through the fold.",
                            sheets);
    return arena_format(
        arena,
        "Your booklet is %s. They come one after the other; the first sheet of each has its "
        "number at the fold. Fold each gathering by itself and staple it twice through the "
        "fold. Lay them on each other by their numbers: the black bars on their backs make a "
        "stair. Glue cloth tape over the backs, or sew them together through the folds with "
        "strong thread.",
        sheets);
}

/* An arrow up the page with its head a finger wide, and short dashes at both ends of the fold,
 * which is at the left of odd pages. */
static void put_trial_page(struct drawing *drawing, const struct paper *paper, int number)
{
    static const char *const places[] = {"page 1: front, outside", "page 2: inside, left",
                                         "page 3: inside, right", "page 4: back, outside"};
    const struct text_style large = {.face = FACE_BOLD, .size = NUMBER_SIZE},
                            small = {.size = 6.5};
    const double head = 6 * MM, top = EDGE + 8 * MM, height = 25 * MM, dash = FOLD_LINE / 5;
    bool left = number % 2 != 0;
    double fold = left ? 0 : paper->width, arrow = paper->width - EDGE - 12 * MM;
    const char *label = arena_format(drawing->arena, "%d", number);
    drawing_sheet(drawing, paper->width, paper->height, label);
    drawing_tag(drawing, TAG_PARAGRAPH);
    for (int i = 0; i < 5; i += 2) {
        drawing_line(drawing, fold, i * dash, 0, dash, 0.5);
        drawing_line(drawing, fold, paper->height - (i + 1) * dash, 0, dash, 0.5);
    }
    if (left)
        drawing_text(drawing, fold + 3, FOLD_LINE + 4, ALIGN_LEFT, &small, "fold");
    drawing_text(drawing, EDGE, EDGE + 12, ALIGN_LEFT, &title_style, places[number - 1]);
    drawing_text(drawing, EDGE, EDGE + 12 + NUMBER_SIZE, ALIGN_LEFT, &large, label);
    drawing_line(drawing, arrow, top, 0, height, 2);
    drawing_line(drawing, arrow, top, head, head, 2);
    drawing_line(drawing, arrow, top, -head, head, 2);
    drawing_text(drawing, arrow, top + height + 16, ALIGN_MIDDLE, &title_style, "up");
}

struct print *compose_trial(struct arena *arena, const struct imprint *imprint,
                            const struct fonts *fonts, enum paper_size booklet,
                            const struct fold *fold)
{
    const struct text_style style = {.size = 10, .leading = 13.5};
    const struct paper *paper = paper_of(booklet);
    struct area area = {EDGE, paper->width - 2 * EDGE};
    struct print *print = arena_get(arena, sizeof *print);
    struct drawing drawing = {.arena = arena, .fonts = fonts, .print = print};
    const char *binding = binding_words(arena, fold);
    double y = EDGE + 60 * MM;
    print->title = arena_format(arena, "%s: trial sheet", imprint->title);
    put_trial_page(&drawing, paper, 1);
    y = put_words(&drawing, area, y, &style, 5, trial_words,
                  sizeof trial_words / sizeof *trial_words);
    put_words(&drawing, area, y, &style, 0, &binding, 1);
    put_trial_page(&drawing, paper, 2);
    bar_draw(&drawing, EDGE, EDGE + 60 * MM, BAR_MM, BAR_DOWN);
    put_trial_page(&drawing, paper, 3);
    put_trial_page(&drawing, paper, 4);
    return print;
}
