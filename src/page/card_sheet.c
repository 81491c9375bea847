#include "page/card_sheet.h"

#include "base/fatal.h"
#include "page/drawing.h"
#include "page/paper.h"
#include "tree/points.h"

#include <math.h>

/* Film does not stab or peel where the corners are round. */
static const double RADIUS = 5 * MM, CUT = 0.25;

/* Radius of a punched hole. */
static const double HOLE = 3 * MM;

static const double MARK_OFF = 3 * MM, MARK = 5 * MM;
static const double BETWEEN = 11 * MM;              /* two cards share the mark between them */
static const double SIDE = 29 * MM, HEAD = 28 * MM; /* for bars and words */
static const double MARGIN = 6 * MM;

enum { CHORDS = 12 }; /* of a quarter: of 5 mm radius they stay within 0.02 mm of it */

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

/* A rectangle with round corners, as chords too short to be told from arcs. */
static void draw_rounded(struct drawing *drawing, double x, double y, double width,
                         double height, double radius, double line)
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

struct spot {
    double x, y;
};

/* Where the cards lie. Their places are the same seen from behind, because the whole
 * lies in the middle of the sheet. */
struct imposition {
    double width, height; /* of the sheet */
    double card_width, card_height;
    struct spot spots[2];
    size_t count;
};

/* So many cards across and down in the middle of the sheet; false: no room. */
static bool arrange(struct imposition *imposition, size_t across, size_t down)
{
    double width = (double)across * (imposition->card_width + BETWEEN) - BETWEEN;
    double height = (double)down * (imposition->card_height + BETWEEN) - BETWEEN;
    double left = (imposition->width - width) / 2, top = (imposition->height - height) / 2;
    if (left < SIDE || top < HEAD)
        return false;
    imposition->count = across * down;
    for (size_t i = 0; i < imposition->count; i++) {
        size_t column = i % across, row = i / across;
        imposition->spots[i] =
            (struct spot){left + (double)column * (imposition->card_width + BETWEEN),
                          top + (double)row * (imposition->card_height + BETWEEN)};
    }
    return true;
}

/* Two cards where two fit, the sheet upright or on its side; else one. */
static struct imposition choose(const struct sheet *card, const struct stock *stock)
{
    static const size_t ways[][2] = {{1, 2}, {2, 1}, {1, 1}};
    struct imposition chosen = {.card_width = card->width, .card_height = card->height};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++)
        for (int lying = 0; lying < 2; lying++) {
            chosen.width = lying ? stock->height : stock->width;
            chosen.height = lying ? stock->width : stock->height;
            if (arrange(&chosen, ways[i][0], ways[i][1]))
                return chosen;
        }
    fatal("a card of %g x %g points has no room on %s", card->width, card->height, stock->name);
}

/* Copies the tags of the card below the document of this print. Gives what to add to
 * a tag of the card. */
static int copy_tags(struct drawing *drawing, const struct print *card)
{
    struct print *print = drawing->print;
    int shift = (int)print->tag_count - 1;
    for (size_t i = 1; i < card->tag_count; i++) {
        struct tag tag = card->tags[i];
        tag.parent = tag.parent > 0 ? tag.parent + shift : 0;
        *ARENA_PUSH(drawing->arena, print->tags, print->tag_count) = tag;
    }
    return shift;
}

static void put_card(struct drawing *drawing, const struct print *card, size_t side,
                     struct spot spot)
{
    const struct sheet *from = &card->sheets[side];
    int shift = copy_tags(drawing, card);
    for (size_t i = 0; i < from->piece_count; i++) {
        struct piece piece = from->pieces[i];
        piece.x += spot.x;
        piece.y += spot.y;
        if (piece.tag >= 0)
            piece.tag = piece.tag > 0 ? piece.tag + shift : 0;
        sheet_put(drawing->arena, drawing->sheet, piece);
    }
}

/* Two marks at each corner, in line with the edges that meet there. */
static void put_crop_marks(struct drawing *drawing, const struct imposition *imposition,
                           struct spot spot)
{
    for (int right = 0; right < 2; right++)
        for (int low = 0; low < 2; low++) {
            double x = spot.x + right * imposition->card_width;
            double y = spot.y + low * imposition->card_height;
            double out = MARK_OFF + MARK;
            drawing_line(drawing, right ? x + MARK_OFF : x - out, y, MARK, 0, CUT);
            drawing_line(drawing, x, low ? y + MARK_OFF : y - out, 0, MARK, CUT);
        }
}

static double put_line(struct drawing *drawing, double y, enum face face, const char *words)
{
    struct text_style style = {.face = face, .size = 8, .leading = 10};
    struct area area = {MARGIN, drawing->sheet->width - 2 * MARGIN};
    drawing_tag(drawing, TAG_PARAGRAPH);
    return drawing_words(drawing, area, y, &style, words);
}

static void put_words(struct drawing *drawing, const struct paper *paper, bool two_sides)
{
    bool lying = drawing->sheet->width > drawing->sheet->height;
    const char *sides =
        !two_sides ? ""
        : lying    ? " Print on both sides, flip on the short edge: turned like a page, the "
                     "card then stands upright on both."
                : " Print on both sides, flip on the long edge: turned like a page, the card "
                  "then stands upright on both.";
    double y =
        put_line(drawing, MARGIN, FACE_BOLD,
                 "Print at 100 %, \u201cactual size\u201d, never \u201cfit to page\u201d; "
                 "then measure both bars.");
    put_line(drawing, y, FACE_REGULAR,
             arena_format(drawing->arena,
                          "Cut along the marks and round the corners, then laminate in %s, and "
                          "never cut into the paper afterwards.%s",
                          paper->pouch, sides));
}

static void put_front(struct drawing *drawing, const struct imposition *imposition,
                      const struct card_ask *ask, bool two_sides)
{
    enum bar_unit unit = ask->booklet == PAPER_HALF_LETTER ? BAR_INCH : BAR_MM;
    double head = imposition->spots[0].y - MARK_OFF - MARK;
    double bar = imposition->height - head + BAR_ABOVE + 4;
    put_words(drawing, paper_of(ask->size), two_sides);
    bar_draw(drawing, MARGIN, (imposition->height - bar_length(unit)) / 2, unit, BAR_DOWN);
    bar_draw(drawing, (imposition->width - bar_length(unit) - BAR_BESIDE) / 2, bar, unit,
             BAR_ACROSS);
    for (size_t i = 0; i < imposition->count; i++) {
        put_crop_marks(drawing, imposition, imposition->spots[i]);
        draw_rounded(drawing, imposition->spots[i].x, imposition->spots[i].y,
                     imposition->card_width, imposition->card_height, RADIUS, CUT);
    }
}

struct print *card_sheet_compose(struct arena *arena, const struct print *card,
                                 const struct card_ask *ask, const struct fonts *fonts,
                                 const struct imprint *imprint)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct drawing drawing = {.arena = arena, .fonts = fonts, .print = print};
    struct imposition imposition = choose(&card->sheets[0], stock_of(ask->booklet));
    print->title = arena_format(arena, "%s: card to cut out", imprint->title);
    print->flip_short_edge = imposition.width > imposition.height;
    for (size_t side = 0; side < card->sheet_count; side++) {
        drawing_sheet(&drawing, imposition.width, imposition.height,
                      side == 0 ? "front" : "back");
        if (side == 0)
            put_front(&drawing, &imposition, ask, card->sheet_count > 1);
        for (size_t i = 0; i < imposition.count; i++)
            put_card(&drawing, card, side, imposition.spots[i]);
    }
    return print;
}

void card_hole_add(struct arena *arena, struct print *card, double hole)
{
    for (size_t i = 0; hole > 0 && i < card->sheet_count; i++) {
        struct sheet *sheet = &card->sheets[i];
        struct drawing drawing = {.arena = arena, .print = card, .sheet = sheet};
        double x = sheet->width / 2;
        draw_rounded(&drawing, x - HOLE, hole - HOLE, 2 * HOLE, 2 * HOLE, HOLE, CUT);
        drawing_line(&drawing, x - HOLE, hole, 2 * HOLE, 0, CUT);
        drawing_line(&drawing, x, hole - HOLE, 0, 2 * HOLE, CUT);
    }
}

void card_edge_add(struct arena *arena, struct print *card)
{
    for (size_t i = 0; i < card->sheet_count; i++) {
        struct sheet *sheet = &card->sheets[i];
        struct drawing drawing = {.arena = arena, .print = card, .sheet = sheet};
        draw_rounded(&drawing, CUT / 2, CUT / 2, sheet->width - CUT, sheet->height - CUT,
                     RADIUS, CUT);
    }
}
