#include "page/aids.h"

#include "page/bars.h"
#include "page/sizes.h"
#include "page/tapes.h"
#include "tree/points.h"

static const double MARGIN = 12 * MM;
static const double TITLE_SIZE = 16, TEXT_SIZE = 9.5, TEXT_LEADING = 12.5, TEXT_MOST = 560;

/* The sheets lie on their side: strips are as long as can be. */
static double tape_width(enum paper_size booklet)
{
    return stock_of(booklet)->height - 2 * MARGIN;
}

/* What title, a paragraph, bar and foot take of the sheet's height. */
static const double BESIDE_FIGURE = 34 + 30 + 48 + 28;

double aid_figure_width(enum paper_size booklet)
{
    return tape_width(booklet);
}

double aid_figure_height(enum paper_size booklet)
{
    return stock_of(booklet)->width - 2 * MARGIN - BESIDE_FIGURE;
}

double tape_most(enum paper_size booklet)
{
    return TAPE_PIECES * tape_width(booklet);
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

static double put_words(struct drawing *drawing, const char *const *words, size_t count,
                        double y)
{
    struct text_style style = {.size = TEXT_SIZE, .leading = TEXT_LEADING};
    for (size_t i = 0; i < count; i++) {
        drawing_tag(drawing, TAG_PARAGRAPH);
        y = drawing_words(drawing, (struct area){MARGIN, TEXT_MOST}, y, &style, words[i]) + 4;
    }
    return y;
}

static const char print_words[] =
    "Print at 100 %, also called \u201cactual size\u201d; never \u201cfit to page\u201d. Lay a "
    "steel rule or a caliper along each bar, from the middle of its first line to the middle "
    "of its "
    "last, and write down what you find.";
static const char factor_words[] =
    "99.5 to 100.5 mm, or 3.98 to 4.02 in, is good enough for everything here. Otherwise set "
    "the printer right and print again; or work with the factor, which is measured \u00f7 100 "
    "mm "
    "(or \u00f7 4 in): multiply by it every diameter that you read off a tape lying along that "
    "bar.";
static const char damp_words[] =
    "The two directions differ: the printer feeds the paper along one of them. Damp paper "
    "grows. Measure on the day on which you use the sheet.";

static void put_bar_sheet(struct drawing *drawing)
{
    double y = put_title(drawing, "Check bars: did the printer keep the scale?");
    const char *words[] = {print_words, factor_words, damp_words};
    y = put_words(drawing, words, sizeof words / sizeof words[0], y) + 24;
    double down = MARGIN + 6, across = MARGIN + 2 * BAR_STANDING + 60;
    bar_draw(drawing, down, y, BAR_MM, BAR_DOWN);
    bar_draw(drawing, down + BAR_STANDING + 14, y, BAR_INCH, BAR_DOWN);
    bar_draw(drawing, across, y + 40, BAR_MM, BAR_ACROSS);
    bar_draw(drawing, across, y + 110, BAR_INCH, BAR_ACROSS);
}

static void put_aid(struct drawing *drawing, const struct aid *aid)
{
    double y = put_title(drawing, aid->title);
    y = put_words(drawing, aid->words, aid->word_count, y);
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
    tape_draw(drawing, aid->tape, area, y + BAR_BELOW + 18);
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
        drawing_foot(&drawing, imprint, MARGIN);
    }
    return print;
}
