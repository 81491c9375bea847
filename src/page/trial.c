#include "page/trial.h"

#include "page/bars.h"
#include "page/fold_marks.h"
#include "page/sizes.h"
#include "tree/points.h"

static const double MARGIN = 15 * MM, NUMBER_SIZE = 90, FOLD_LINE = 5 * MM;
static const struct text_style title_style = {.face = FACE_BOLD, .size = 13, .leading = 17};
static const struct text_style words_style = {.size = 10, .leading = 13.5};

static const char *const words[] = {
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

/* Up the page, with its head a finger wide. */
static void put_arrow(struct drawing *drawing, double x, double top, double height)
{
    const double head = 6 * MM;
    drawing_line(drawing, x, top, 0, height, 2);
    drawing_line(drawing, x, top, head, head, 2);
    drawing_line(drawing, x, top, -head, head, 2);
    drawing_text(drawing, x, top + height + 16, ALIGN_MIDDLE, &title_style, "up");
}

/* Short dashes at both ends of the fold, which lies at this edge of the page. */
static void put_fold(struct drawing *drawing, double x, bool left)
{
    double dash = FOLD_LINE / 5;
    struct text_style style = {.size = 6.5};
    for (int i = 0; i < 5; i += 2) {
        drawing_line(drawing, x, i * dash, 0, dash, 0.5);
        drawing_line(drawing, x, drawing->sheet->height - (i + 1) * dash, 0, dash, 0.5);
    }
    if (left)
        drawing_text(drawing, x + 3, FOLD_LINE + 4, ALIGN_LEFT, &style, "fold");
}

static void put_page(struct drawing *drawing, const struct paper *paper, int number)
{
    static const char *const places[] = {"page 1: front, outside", "page 2: inside, left",
                                         "page 3: inside, right", "page 4: back, outside"};
    struct text_style large = {.face = FACE_BOLD, .size = NUMBER_SIZE};
    bool left = number % 2 != 0; /* the fold is at the left of odd pages */
    const char *label = arena_format(drawing->arena, "%d", number);
    drawing_sheet(drawing, paper->width, paper->height, label);
    drawing_tag(drawing, TAG_PARAGRAPH);
    put_fold(drawing, left ? 0 : paper->width, left);
    drawing_text(drawing, MARGIN, MARGIN + 12, ALIGN_LEFT, &title_style, places[number - 1]);
    drawing_text(drawing, MARGIN, MARGIN + 12 + NUMBER_SIZE, ALIGN_LEFT, &large, label);
    put_arrow(drawing, paper->width - MARGIN - 12 * MM, MARGIN + 8 * MM, 25 * MM);
}

static void put_words(struct drawing *drawing, const struct fold *fold)
{

    struct area area = {MARGIN, drawing->sheet->width - 2 * MARGIN};
    double y = MARGIN + 60 * MM;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        drawing_tag(drawing, TAG_PARAGRAPH);
        y = drawing_words(drawing, area, y, &words_style, words[i]) + 5;
    }
    drawing_tag(drawing, TAG_PARAGRAPH);
    drawing_words(drawing, area, y, &words_style, binding_words(drawing->arena, fold));
}

struct print *compose_trial(struct arena *arena, const struct imprint *imprint,
                            const struct fonts *fonts, enum paper_size booklet,
                            const struct fold *fold)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct drawing drawing = {.arena = arena, .fonts = fonts, .print = print};
    print->title = arena_format(arena, "%s: trial sheet", imprint->title);
    for (int number = 1; number <= 4; number++) {
        put_page(&drawing, paper_of(booklet), number);
        if (number == 1)
            put_words(&drawing, fold);
        if (number == 2)
            bar_draw(&drawing, MARGIN, MARGIN + 60 * MM, BAR_MM, BAR_DOWN);
    }
    return print;
}
