/* The card: each side in the largest type that fits, then on paper to be cut out.
 *
 * Whether a side fits is found by laying it out on trial. The good pulls are tried from the
 * largest down, beside text of the least size, so that nothing but the card's size and its text
 * decides how large they are; then the other bands, rows and text grow into what is left. */
#include "base/fatal.h"
#include "doc/canvas.h"
#include "layout/blocks.h"
#include "layout/drawing.h"

#include <math.h>
#include <string.h>

struct side {
    const char *name;
    const struct node *first, *end;
    const struct node *table; /* of all bands; NULL: none */
    bool back;
};

struct card {
    const struct page *page;
    const struct imprint *imprint;
    const struct fonts *fonts;
    const struct card_ask *ask;
    const struct paper *paper;
    struct layout layouts[2]; /* upright, and on its side */
    struct side sides[2];
    size_t side_count;
};

/* What is chosen for one side: sizes of type in points. */
struct sizes {
    bool lying;     /* on layouts[1] */
    double good;    /* of the good pulls; 0: the side has none */
    double body;    /* of the text, */
    double figures; /* and of the table */
    double row_pad; /* share of the figures */
    bool bands;     /* the table of all bands stands below the good pulls */
};

/* ---- what the program itself adds: the window, the states ---- */

static const double WINDOW_WORDS = 0.36; /* share of the size of the good pulls */

static const double NEVER_SHARE = 1.3; /* of the words */

static const double SCALE_EDGE = 0.14; /* of the scale's width, on both sides of the limits */

static const double AXIS = 0.6, FRAME = 1.2;

static double words_size(const struct card *card, double good)
{
    return fmax(good * WINDOW_WORDS, card->paper->least_body);
}

static void put_middle(struct flow *flow, double x, double y, enum face face, double size,
                       const char *text)
{
    struct text_style style = {.face = face, .size = size};
    flow_text(flow, x, y, ALIGN_MIDDLE, &style, flow_tag(flow, TAG_PARAGRAPH, flow->tag), text);
}

/* Where a pull lies on a scale of this width. */
static double scale_x(double width, const struct card_window *window, double at)
{
    double low = window->marks[0].at, high = window->marks[2].at;
    double share = high > low ? (at - low) / (high - low) : 0.5;
    return width * (SCALE_EDGE + (1 - 2 * SCALE_EDGE) * share);
}

/* The limits as an open bar, the good pulls filled in, each mark with its number below. */
static void put_scale(struct flow *flow, const struct card_window *window, double width,
                      double words)
{
    double bar = words * 0.6, tick = words * 0.3, number = bar + tick + words * 0.95;
    double low = scale_x(width, window, window->marks[0].at);
    double high = scale_x(width, window, window->marks[2].at);
    flow_line(flow, 0, bar / 2, low, 0, AXIS);
    flow_line(flow, high, bar / 2, width - high, 0, AXIS);
    flow_box(flow, low, 0, high - low, bar, FRAME);
    if (window->good_from < window->good_to) {
        double from = scale_x(width, window, window->good_from);
        flow_box(flow, from, 0, scale_x(width, window, window->good_to) - from, bar, 0);
    }
    for (size_t i = 0; i < window->mark_count; i++) {
        const struct scale_mark *mark = &window->marks[i];
        double x = scale_x(width, window, mark->at);
        flow_line(flow, x, bar, 0, tick, FRAME);
        put_middle(flow, x, number, FACE_BOLD, words, mark->number);
        put_middle(flow, x, number + words * 1.15, FACE_REGULAR, words, mark->name);
    }
}

/* The number never to go above, framed, at the right; gives its width. */
static double put_never(struct flow *flow, const struct card_window *window, double words,
                        double height)
{
    static const char head[] = "never above";
    double size = words * NEVER_SHARE;
    double width = fmax(fonts_width(flow->fonts, FACE_REGULAR, words, head),
                        fonts_width(flow->fonts, FACE_BOLD, size, window->never)) +
                   words;
    double middle = flow->width - width / 2;
    flow_box(flow, flow->width - width, 0, width, height, FRAME);
    put_middle(flow, middle, words * 1.2, FACE_REGULAR, words, head);
    put_middle(flow, middle, words * 1.3 + size, FACE_BOLD, size, window->never);
    return width;
}

/* The good pulls in size `good`; in a flow on trial, fails where they are too wide. */
static void put_window(struct flow *flow, const struct card *card, double good)
{
    const struct card_window *window = card->ask->window;
    double words = words_size(card, good), scale = words * 3.2, width = flow->width;
    struct text_style head = {.face = FACE_BOLD, .size = words};
    struct text_style pulls = {.face = FACE_BOLD, .size = good};
    flow->failed |= fonts_width(flow->fonts, FACE_BOLD, good, window->good) > width ||
                    fonts_width(flow->fonts, FACE_BOLD, words, window->head) > width;
    flow_gap(flow, words * 0.5);
    flow_strip(flow, words * 1.25 + good);
    flow_text(flow, 0, words, ALIGN_LEFT, &head, flow_tag(flow, TAG_PARAGRAPH, flow->tag),
              window->head);
    flow_text(flow, 0, words * 1.25 + good * 0.82, ALIGN_LEFT, &pulls,
              flow_tag(flow, TAG_PARAGRAPH, flow->tag), window->good);
    if (!window->never && !window->mark_count)
        return;
    flow_strip(flow, scale);
    if (window->never)
        width -= put_never(flow, window, words, scale);
    if (window->mark_count)
        put_scale(flow, window, width, words);
}

static const double LEAST_PAD = 0.4, CELL_HEIGHT = 1.8,
                    NEXT_LINE = 1.2; /* of the type's size */

static const double CELL_LINE = 0.6, GOOD_LINE = 2;

enum { CELL_LINES = 3 };

/* The lines of a state's cell: its words, in two lines where they are parted, and its pulls. */
static size_t cell_lines(const struct flow *flow, const struct state_cell *cell, bool parted,
                         const char *lines[CELL_LINES])
{
    size_t count = 0, best = 0;
    double least = INFINITY;
    lines[count++] = cell->words;
    for (const char *blank = cell->words; parted && (blank = strchr(blank, ' ')); blank++) {
        size_t length = (size_t)(blank - cell->words);
        const char *first = arena_format(flow->arena, "%.*s", (int)length, cell->words);
        double width = fmax(fonts_width(flow->fonts, FACE_REGULAR, 1, first),
                            fonts_width(flow->fonts, FACE_REGULAR, 1, blank + 1));
        if (width < least)
            least = width, best = length;
    }
    if (best) {
        lines[0] = arena_format(flow->arena, "%.*s", (int)best, cell->words);
        lines[count++] = cell->words + best + 1;
    }
    if (cell->pulls[0])
        lines[count++] = cell->pulls;
    return count;
}

/* Of one cell at size 1, without the blank on both sides. */
static double cell_width(const struct flow *flow, const struct state_cell *cell, bool parted)
{
    const char *lines[CELL_LINES];
    double width = 0;
    for (size_t i = cell_lines(flow, cell, parted, lines); i-- > 0;)
        width = fmax(width, fonts_width(flow->fonts, FACE_REGULAR, 1, lines[i]));
    return width;
}

static void put_cell_frame(struct flow *flow, double x, double width, double height, bool good)
{
    double line = good ? GOOD_LINE : CELL_LINE, half = good ? GOOD_LINE / 2 : 0;
    flow_line(flow, x, half, width, 0, line);
    flow_line(flow, x, height - half, width, 0, line);
    flow_line(flow, x + half, 0, 0, height, line);
    flow_line(flow, x + width - half, 0, 0, height, line);
}

/* The size at which the cells fill the width. */
static double key_size(const struct flow *flow, const struct card_ask *ask, bool parted)
{
    double widths = 2 * LEAST_PAD * (double)ask->key_count;
    for (size_t i = 0; i < ask->key_count; i++)
        widths += cell_width(flow, &ask->key[i], parted);
    return flow->width / widths;
}

/* The states, one cell beside the other over the whole width, each as wide as its words want,
 * in type of up to the body's size: words in one line, or in two where that is too wide. */
static void put_key(struct flow *flow, const struct card *card)
{
    const struct card_ask *ask = card->ask;
    double least = card->paper->least_body, count = (double)ask->key_count, x = 0;
    if (ask->key_count == 0)
        return;
    bool parted = key_size(flow, ask, false) < least;
    double full = key_size(flow, ask, parted), size = fmin(flow->type->body, full);
    double height = size * (CELL_HEIGHT + NEXT_LINE * (parted ? 2 : 1));
    double more = flow->width * (1 - size / full) / count; /* to be as wide as all */
    double baseline = size * (CELL_HEIGHT + fonts_cap_height(flow->fonts)) / 2;
    struct text_style style = {.size = size};
    flow->failed |= size < least;
    flow_gap(flow, flow->type->leading * 0.5);
    flow_strip(flow, height);
    for (size_t i = 0; i < ask->key_count; i++) {
        const char *lines[CELL_LINES];
        size_t line_count = cell_lines(flow, &ask->key[i], parted, lines);
        double width = (cell_width(flow, &ask->key[i], parted) + 2 * LEAST_PAD) * size + more;
        for (size_t k = 0; k < line_count; k++)
            flow_text(flow, x + width / 2, baseline + (double)k * size * NEXT_LINE,
                      ALIGN_MIDDLE, &style, flow_tag(flow, TAG_PARAGRAPH, flow->tag), lines[k]);
        /* good is the middle one */
        put_cell_frame(flow, x, width, height, 2 * i + 1 == ask->key_count);
        x += width;
    }
    flow_gap(flow, flow->type->leading * 0.75);
}

/* ---- how large the type can be ---- */

static const double LARGEST_GOOD = 96, GOOD_STEP = 1;

static const double LARGEST_FIGURES = 48, SIZE_STEP = 0.5;

static const double LARGEST_BODY = 14; /* larger would only look loud */

static const double LEAST_ROW_PAD = 0.1, MOST_ROW_PAD = 0.3; /* shares of the figures */

static const double ROW_PAD_STEP = 0.05;

static const double LEAST_NOTE = 7.5, LEAST_INPUTS = 6.5;

/* The card lies on its side when its largest figures gain at least this much by it. */
static const double WORTH_TURNING = 1.1;

static struct type_scale card_type(const struct card *card, const struct sizes *sizes)
{
    double body = sizes->body, least_body = card->paper->least_body;
    double note = fmax(LEAST_NOTE, fmin(body * 0.85, least_body));
    return (struct type_scale){
        .body = body,
        .leading = body * 1.28,
        .heading = {body * 1.5, body * 1.25, body * 1.1, body},
        .heading_leading = {body * 1.8, body * 1.5, body * 1.35, body * 1.28},
        .literal = body * 0.9,
        .note = note,
        .table_most = sizes->figures,
        .table_least = sizes->figures,
        .table_text = 0.8,
        .table_head = 0.5,
        .table_words_least = least_body,
        .table_caption_least = least_body,
        .table_row_pad = sizes->row_pad};
}

static struct flow card_flow(const struct card *card, bool lying, struct arena *arena,
                             struct print *print)
{
    struct flow flow = {.arena = arena,
                        .fonts = card->fonts,
                        .print = print,
                        .page = card->page,
                        .trial = true};
    flow_begin(&flow, &card->layouts[lying]);
    return flow;
}

/* Does what is put so far leave the side? */
static bool is_over(const struct flow *flow)
{
    return flow->failed ||
           flow_height(flow, flow->placed_count, flow->strip_count) > flow->height;
}

/* The window stands where the table of all bands stands, which follows it. */
static void put_side(struct flow *flow, const struct card *card, const struct side *side,
                     const struct sizes *sizes)
{
    double inputs = fmax(LEAST_INPUTS, card->paper->least_body * 0.75);
    const struct node *rest = side->first;
    flow->tag = flow_tag(flow, TAG_SECTION, DOCUMENT);
    if (sizes->good > 0) {
        blocks_put(flow, side->first, side->table);
        put_window(flow, card, sizes->good);
        put_key(flow, card);
        rest = sizes->bands ? side->table : side->table->next;
    }
    if (is_over(flow)) /* most trials end here */
        return;
    blocks_put(flow, rest, side->end);
    imprint_foot_put(flow, card->imprint, inputs, true);
}

static bool fits(const struct card *card, const struct side *side, const struct sizes *sizes)
{
    struct arena *arena = arena_new();
    struct print print = {0};
    struct type_scale type = card_type(card, sizes);
    struct flow flow = card_flow(card, sizes->lying, arena, &print);
    flow.type = &type;
    put_side(&flow, card, side, sizes);
    bool fit = !is_over(&flow);
    flow_end(&flow);
    arena_free(arena);
    return fit;
}

static bool has_window(const struct card *card, const struct side *side)
{
    return card->ask->window && side->table && !side->back;
}

/* Height of the smallest capital at the window; 0: there is none. */
static double window_height(const struct card *card, const struct sizes *front)
{
    return front->good > 0 ? words_size(card, front->good) * fonts_cap_height(card->fonts) : 0;
}

/* The share of the distance from which the window can be read; 1 and more: it can. */
static double readable(const struct card *card, const struct sizes *front)
{
    const struct card_ask *ask = card->ask;
    if (front->good == 0)
        return INFINITY;
    return fmin(window_height(card, front) / ask->least,
                front->good * fonts_cap_height(card->fonts) / ask->least_good);
}

/* Lets one size shrink by steps until the side fits, found by halving: what fits, fits smaller
 * too. False when nothing fits down to the least. */
static bool shrink(const struct card *card, const struct side *side, struct sizes *sizes,
                   double *size, double step, double least)
{
    const double most = *size;
    int beyond = -1, within = (int)floor((most - least) / step); /* steps down from the most */
    *size = most - within * step;
    if (!fits(card, side, sizes))
        return false;
    while (within - beyond > 1) {
        int middle = (within + beyond) / 2;
        *size = most - middle * step;
        if (fits(card, side, sizes))
            within = middle;
        else
            beyond = middle;
    }
    *size = most - within * step;
    return true;
}

/* The largest good pulls, without them the largest figures of a table, beside text of the least
 * size. Where the window could not be read beside the other bands, these give way. False when
 * nothing fits. */
static bool choose_side(const struct card *card, const struct side *side, bool lying,
                        struct sizes *sizes)
{
    double least = card->paper->least_body;
    *sizes = (struct sizes){
        .lying = lying, .body = least, .figures = least, .row_pad = LEAST_ROW_PAD};
    if (!has_window(card, side)) {
        if (side->table)
            sizes->figures = LARGEST_FIGURES;
        return shrink(card, side, sizes, &sizes->figures, SIZE_STEP, least);
    }
    for (int bands = side->table->table->row_count > 1; bands >= 0; bands--) {
        sizes->bands = bands;
        sizes->good = LARGEST_GOOD;
        if (shrink(card, side, sizes, &sizes->good, GOOD_STEP, 2 * least) &&
            (readable(card, sizes) >= 1 || !bands))
            return true;
    }
    return false;
}

/* The size by which two ways to lay the card are compared. */
static double largest(const struct sizes *sizes)
{
    return fmax(sizes->good, sizes->figures);
}

/* Chooses the way the card lies and the sizes. Both sides stand the same way round: upright,
 * unless only lying has room for all bands, or its figures gain by it. False when some side
 * does not fit. */
static bool choose_card(const struct card *card, struct sizes sizes[2])
{
    struct sizes tried[2][2] = {0};
    bool fit[2] = {true, true};
    for (int lying = 0; lying < 2; lying++)
        for (size_t i = 0; i < card->side_count; i++)
            fit[lying] &= choose_side(card, &card->sides[i], lying, &tried[lying][i]);
    const struct sizes *upright = tried[0], *turned = tried[1];
    bool better = turned->bands != upright->bands
                      ? turned->bands
                      : largest(turned) >= WORTH_TURNING * largest(upright);
    bool lying = fit[1] && (!fit[0] || better);
    memcpy(sizes, tried[lying], sizeof tried[lying]);
    return fit[lying];
}

/* Lets one size grow to the most, as long as the side fits. */
static void grow(const struct card *card, const struct side *side, struct sizes *sizes,
                 double *size, double step, double most)
{
    while (*size + step <= most) {
        double before = *size;
        *size += step;
        if (!fits(card, side, sizes)) {
            *size = before;
            return;
        }
    }
}

/* Blank around the middle of a punched hole of 6 mm: film must grip paper there. */
static const double HOLE_BLANK = 10 * MM;

/* The card of this size, upright and on its side; around its hole it stays blank. */
static struct card card_on(const struct card *card, enum paper_size size)
{
    const struct paper *paper = paper_of(size);
    struct card other = *card;
    double edge = paper->card_edge, hole = card->ask->hole;
    struct margins margins = {hole > 0 ? hole + HOLE_BLANK : edge, edge, edge, edge};
    other.paper = paper;
    other.layouts[0] = (struct layout){paper->width, paper->height, .margins = margins};
    other.layouts[1] = (struct layout){paper->height, paper->width, .margins = margins};
    return other;
}

/* Names the card sizes on which the whole could be read. */
static void name_sizes(const struct card *card, struct buffer *names)
{
    buffer_text(names, "");
    for (int size = PAPER_A6; size < PAPER_SIZES; size++) {
        struct card other = card_on(card, (enum paper_size)size);
        struct sizes sizes[2] = {0};
        if (choose_card(&other, sizes) && readable(&other, sizes) >= 1)
            buffer_print(names, "%s%s", names->length ? " or " : "", other.paper->name);
    }
}

/* One side fits upright alone, the other lying alone. */
static void report_ways(const struct card *card, struct diags *diags)
{
    struct sizes sizes;
    bool upright = choose_side(card, &card->sides[0], false, &sizes);
    struct buffer names = {0};
    name_sizes(card, &names);
    fault(diags, card->page->root->at,
          "on %s the card's front fits only %s and its back only %s; shorten the one or the "
          "other%s%s%s",
          card->paper->name, upright ? "upright" : "on its side",
          upright ? "on its side" : "upright",
          card->ask->hole > 0 ? ", leave the hole out" : "",
          names.length ? ", or choose a card of " : "", names.bytes);
    buffer_free(&names);
}

/* The text does fit, but only in type that cannot be read from there. */
static void report_small(const struct card *card, const struct sizes *front,
                         struct diags *diags)
{
    const struct card_ask *ask = card->ask;
    double distance = floor(ask->distance_mm * readable(card, front) / 10) * 10;
    struct buffer names = {0};
    name_sizes(card, &names);
    fault(diags, ask->at,
          "the window on a card of %s would be only %.1f mm high, too small to be read from "
          "%s; %s%s%shang it at %g mm or nearer (paper.reading-distance)",
          card->paper->name, window_height(card, front) * 25.4 / 72, ask->distance,
          names.length ? "choose a card of " : "", names.bytes, names.length ? ", or " : "",
          distance);
    buffer_free(&names);
}

/* Says why a card does not fit, and what would do. */
static void report(const struct card *card, struct diags *diags)
{
    bool each_fits = true;
    for (size_t i = 0; i < card->side_count; i++) {
        const struct side *side = &card->sides[i];
        struct sizes sizes;
        if (choose_side(card, side, false, &sizes) || choose_side(card, side, true, &sizes))
            continue;
        each_fits = false;
        fault(diags, side->first ? side->first->at : card->page->root->at,
              "the card's %s does not fit on %s in type of %g points and more; shorten "
              "its text and tables, or choose a larger card",
              side->name, card->paper->name, card->paper->least_body);
    }
    if (each_fits)
        report_ways(card, diags);
}

/* ---- on paper as it is bought: crop marks, check bars, what to do ---- */

/* Film does not stab or peel where the corners are round. */
static const double RADIUS = 5 * MM, CUT = 0.25;

/* Radius of a punched hole. */
static const double HOLE = 3 * MM;

static const double MARK_OFF = 3 * MM, MARK = 5 * MM;

static const double BETWEEN = 11 * MM; /* two cards share the mark between them */

static const double SHEET_SIDE = 29 * MM, SHEET_HEAD = 28 * MM; /* for bars and words */

static const double MARGIN = 6 * MM;

enum { CHORDS = 12 }; /* of a quarter: of 5 mm radius they stay within 0.02 mm of it */

/* A quarter of a circle about (x, y), clockwise as seen, from an angle on. */
static void quarter(struct drawing *drawing, double x, double y, double radius, double from)
{
    for (int i = 0; i < CHORDS; i++) {
        double a = from + M_PI / 2 * i / CHORDS, b = from + M_PI / 2 * (i + 1) / CHORDS;
        drawing_line(drawing, x + radius * cos(a), y + radius * sin(a),
                     radius * (cos(b) - cos(a)), radius * (sin(b) - sin(a)), CUT);
    }
}

/* A rectangle with round corners to cut along, as chords too short to be told from arcs. */
static void draw_rounded(struct drawing *drawing, double x, double y, double width,
                         double height, double radius)
{
    double right = x + width, low = y + height;
    drawing_line(drawing, x + radius, y, width - 2 * radius, 0, CUT);
    quarter(drawing, right - radius, y + radius, radius, -M_PI / 2);
    drawing_line(drawing, right, y + radius, 0, height - 2 * radius, CUT);
    quarter(drawing, right - radius, low - radius, radius, 0);
    drawing_line(drawing, right - radius, low, 2 * radius - width, 0, CUT);
    quarter(drawing, x + radius, low - radius, radius, M_PI / 2);
    drawing_line(drawing, x, low - radius, 0, 2 * radius - height, CUT);
    quarter(drawing, x + radius, y + radius, radius, M_PI);
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

/* Two cards where two fit, the sheet upright or on its side; else one. */
static struct imposition choose_imposition(const struct sheet *card, const struct stock *stock)
{
    static const size_t ways[][2] = {{1, 2}, {2, 1}, {1, 1}}; /* cards across and down */
    for (size_t i = 0; i < 2 * sizeof ways / sizeof *ways; i++) {
        size_t across = ways[i / 2][0], down = ways[i / 2][1];
        double width = i % 2 ? stock->height : stock->width, pitch_x = card->width + BETWEEN;
        double height = i % 2 ? stock->width : stock->height, pitch_y = card->height + BETWEEN;
        double left = (width - ((double)across * pitch_x - BETWEEN)) / 2;
        double top = (height - ((double)down * pitch_y - BETWEEN)) / 2;
        if (left < SHEET_SIDE || top < SHEET_HEAD)
            continue;
        struct imposition chosen = {width, height, card->width, card->height, {{left, top}}, 1};
        if (across * down > 1) {
            chosen.spots[chosen.count].x = left + (across > 1 ? pitch_x : 0);
            chosen.spots[chosen.count++].y = top + (down > 1 ? pitch_y : 0);
        }
        return chosen;
    }
    fatal("a card of %g x %g points has no room on %s", card->width, card->height, stock->name);
}

/* One side of the card. Its tags come below the document of this print. */
static void put_card(struct drawing *drawing, const struct print *card, size_t side,
                     struct spot spot)
{
    struct print *print = drawing->print;
    int shift = (int)print->tag_count - 1;
    for (size_t i = 1; i < card->tag_count; i++) {
        struct tag *tag = ARENA_PUSH(drawing->arena, print->tags, print->tag_count);
        *tag = card->tags[i];
        tag->parent += tag->parent > 0 ? shift : 0;
    }
    const struct sheet *from = &card->sheets[side];
    for (size_t i = 0; i < from->piece_count; i++) {
        struct piece piece = from->pieces[i];
        piece.x += spot.x;
        piece.y += spot.y;
        piece.tag += piece.tag > 0 ? shift : 0;
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

static double put_words(struct drawing *drawing, double y, enum face face, const char *words)
{
    struct text_style style = {.face = face, .size = 8, .leading = 10};
    struct area area = {MARGIN, drawing->sheet->width - 2 * MARGIN};
    drawing_tag(drawing, TAG_PARAGRAPH);
    return drawing_words(drawing, area, y, &style, words);
}

static void put_front(struct drawing *drawing, const struct imposition *imposition,
                      const struct card_ask *ask, bool two_sides)
{
    double width = imposition->width, height = imposition->height;
    enum bar_unit unit = ask->booklet == PAPER_HALF_LETTER ? BAR_INCH : BAR_MM;
    double bar = height - (imposition->spots[0].y - MARK_OFF - MARK) + BAR_ABOVE + 4;
    const char *sides =
        arena_format(drawing->arena,
                     " Print on both sides, flip on the %s edge: turned like a page, the card "
                     "then stands upright on both.",
                     width > height ? "short" : "long");
    double y =
        put_words(drawing, MARGIN, FACE_BOLD,
                  "Print at 100 %, \u201cactual size\u201d, never \u201cfit to page\u201d; "
                  "then measure both bars.");
    put_words(
        drawing, y, FACE_REGULAR,
        arena_format(drawing->arena,
                     "Cut along the marks and round the corners, then laminate in %s, and "
                     "never cut into the paper afterwards.%s",
                     paper_of(ask->size)->pouch, two_sides ? sides : ""));
    bar_draw(drawing, MARGIN, (height - bar_length(unit)) / 2, unit, BAR_DOWN);
    bar_draw(drawing, (width - bar_length(unit) - BAR_BESIDE) / 2, bar, unit, BAR_ACROSS);
    for (size_t i = 0; i < imposition->count; i++) {
        struct spot spot = imposition->spots[i];
        put_crop_marks(drawing, imposition, spot);
        draw_rounded(drawing, spot.x, spot.y, imposition->card_width, imposition->card_height,
                     RADIUS);
    }
}

/* Fronts on the first sheet, backs on the second, two cards where two fit. The card's own
 * sheets are copied as they are now. */
static struct print *compose_sheet(struct arena *arena, const struct print *card,
                                   const struct card_ask *ask, const struct fonts *fonts,
                                   const struct imprint *imprint)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct drawing drawing = {.arena = arena, .fonts = fonts, .print = print};
    struct imposition imposition = choose_imposition(&card->sheets[0], stock_of(ask->booklet));
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

/* ---- the card ---- */

/* Spreads what is left over between the blocks, so that the side is filled evenly. */
static void spread_blank(struct flow *flow)
{
    size_t first = flow->placed_count;
    double least = flow->type->leading / 4, count = 0;
    double left = flow->height - flow_height(flow, first, flow->strip_count);
    for (size_t i = first + 1; i < flow->strip_count; i++)
        count += flow->strips[i].gap > least && flow->strips[i].inset == 0;
    double more = count > 0 ? fmin(left / count, flow->type->leading * 0.5) : 0;
    for (size_t i = first + 1; i < flow->strip_count; i++)
        if (flow->strips[i].gap > least && flow->strips[i].inset == 0)
            flow->strips[i].gap += more;
}

/* Other bands, text and rows grow beside the good pulls, as far as they can. */
static void compose_side(struct flow *flow, const struct card *card, const struct side *side,
                         struct sizes sizes)
{
    if (sizes.good > 0) /* at most half as large as those */
        grow(card, side, &sizes, &sizes.figures, SIZE_STEP, sizes.good / 2);
    if (side->table)
        grow(card, side, &sizes, &sizes.row_pad, ROW_PAD_STEP, MOST_ROW_PAD);
    grow(card, side, &sizes, &sizes.body, SIZE_STEP,
         side->table ? fmin(LARGEST_BODY, largest(&sizes) * 0.7) : LARGEST_BODY);
    struct type_scale type = card_type(card, &sizes);
    flow->type = &type;
    put_side(flow, card, side, &sizes);
    spread_blank(flow);
    flow_place(flow);
}

/* Front and back are parted by the first rule; a card without one has no back. The first table
 * of a side is that of all bands. */
static void find_sides(struct card *card)
{
    const struct node *first = card->page->root->first, *rule = first;
    while (rule && rule->kind != NODE_RULE)
        rule = rule->next;
    card->sides[0] = (struct side){.name = "front", .first = first, .end = rule};
    card->sides[1] =
        (struct side){.name = "back", .first = rule ? rule->next : NULL, .back = true};
    card->side_count = rule ? 2 : 1;
    for (size_t i = 0; i < card->side_count; i++) {
        struct side *side = &card->sides[i];
        const struct node *node = side->first;
        while (node && node != side->end && node->kind != NODE_TABLE)
            node = node->next;
        side->table = node != side->end ? node : NULL;
    }
}

struct card_prints compose_card(struct arena *arena, const struct page *page,
                                const struct imprint *imprint, const struct fonts *fonts,
                                const struct card_ask *ask, struct diags *diags)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct card paperless = {.page = page, .imprint = imprint, .fonts = fonts, .ask = ask};
    struct card card = card_on(&paperless, ask->size);
    struct sizes sizes[2];
    print->title = imprint->title;
    find_sides(&card);
    imprint_check(imprint, fonts, (struct place){.file = page->file}, diags);
    if (!choose_card(&card, sizes)) {
        report(&card, diags);
        return (struct card_prints){.card = print};
    }
    if (readable(&card, sizes) < 1) {
        report_small(&card, sizes, diags);
        return (struct card_prints){.card = print};
    }
    struct flow flow = card_flow(&card, sizes[0].lying, arena, print);
    for (size_t i = 0; i < card.side_count; i++)
        compose_side(&flow, &card, &card.sides[i], sizes[i]);
    flow_resolve(&flow, 0);
    flow_end(&flow);
    print->flip_short_edge = sizes[0].lying;
    struct card_prints prints = {.card = print, .height = window_height(&card, sizes)};
    struct drawing drawing = {.arena = arena, .fonts = fonts, .print = print, .tag = -1};
    for (size_t i = 0; i < print->sheet_count && ask->hole > 0; i++) { /* to punch */
        double x = print->sheets[i].width / 2;
        drawing.sheet = &print->sheets[i];
        draw_rounded(&drawing, x - HOLE, ask->hole - HOLE, 2 * HOLE, 2 * HOLE, HOLE);
        drawing_line(&drawing, x - HOLE, ask->hole, 2 * HOLE, 0, CUT);
        drawing_line(&drawing, x, ask->hole - HOLE, 0, 2 * HOLE, CUT);
    }
    prints.sheet = compose_sheet(arena, print, ask, fonts, imprint);
    for (size_t i = 0; i < print->sheet_count; i++) {
        drawing.sheet = &print->sheets[i];
        draw_rounded(&drawing, CUT / 2, CUT / 2, drawing.sheet->width - CUT,
                     drawing.sheet->height - CUT, RADIUS);
    }
    return prints;
}
