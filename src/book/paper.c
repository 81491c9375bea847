/* What is printed of a book that was read without a fault: the card, the aids to measure with
 * and to work by, the booklet, the forms. Here it is asked what stands on them; src/layout
 * breaks it into sheets, src/pdf paints them. */
#include "book/stages.h"

#include "base/file.h"
#include "base/version.h"
#include "figures/figures.h"
#include "judge/nut.h"
#include "judge/results.h"
#include "judge/window.h"
#include "pdf/pdf.h"
#include "report/card.h"
#include "report/values.h"
#include "report/words.h"

#include <math.h>

const char *book_inputs_text(struct arena *arena, const struct results *results)
{
    const struct shop *shop = results->shop;
    return values_fill(
        arena, results,
        arena_format(
            arena, "{lathe}%s: drum {drum-named}, cord {cord-named}, gauge {gauge}; limits: %s",
            shop->lathe.workshop ? ", {workshop}" : "",
            shop_has_limits(shop) ? "{source}" : NO_LIMIT_ON_FILE));
}

/* ---- the card ---- */

static const char *distance_words(struct book *book)
{
    return quantity_text(book->arena, &book->shop.paper.reading_distance.q);
}

/* The window of the lathe's own band, in steps of its gauge, and the states about it. Without
 * a pull that is good there are none: the window says so. */
static void add_window(struct book *book, struct card_ask *ask)
{
    struct arena *arena = book->arena;
    struct card_facts facts = card_facts(arena, book->results);
    struct card_window *window = arena_get(arena, sizeof *window);
    struct state_cell *key = arena_get(arena, sizeof facts.states);
    *window = (struct card_window){.head = facts.head,
                                   .good = facts.good,
                                   .good_from = facts.decides ? (double)facts.good_from : NAN,
                                   .good_to = facts.decides ? (double)facts.good_to : NAN,
                                   .mark_count = facts.mark_count,
                                   .never = facts.never};
    for (size_t i = 0; i < facts.mark_count; i++)
        window->marks[i] = (struct scale_mark){(double)facts.marks[i].steps,
                                               facts.marks[i].number, facts.marks[i].name};
    for (size_t i = 0; i < CARD_STATES; i++)
        key[i] = (struct state_cell){facts.states[i].words, facts.states[i].pulls};
    ask->window = window;
    ask->key = key;
    ask->key_count = facts.decides ? CARD_STATES : 0;
}

static struct card_ask card_ask(struct book *book, enum paper_size size,
                                enum paper_size booklet)
{
    const struct shop *shop = &book->shop;
    const struct measure *typed = &shop->paper.reading_distance, *hole = &shop->paper.hole;
    double distance = shop->paper.reading_distance.q.base;
    struct card_ask ask = {
        .size = size,
        .booklet = booklet,
        .least = points_of(sight_height(distance, SIGHT_LEAST)),
        .least_good = points_of(sight_height(distance, SIGHT_PREFERRED)),
        .distance = distance_words(book),
        .distance_mm = distance * 1000,
        .hole = given(hole) ? points_of(hole->q.base) : 0,
        .at = is_typed(&typed->at) ? typed->at : (struct place){.file = book->card->file}};
    if (shop_has_limits(shop))
        add_window(book, &ask);
    return ask;
}

/* A sentence on the smallest character of the card's window. height: of it, points; 0: there
 * is none, and then NULL. Rounded down: nothing is called larger than it is. */
static const char *card_note(struct book *book, double height)
{
    double metres = height / (1000 * MM);
    double minutes = sight_minutes(metres, book->shop.paper.reading_distance.q.base);
    if (height == 0)
        return NULL;
    return arena_format(
        book->arena,
        "card: the smallest character of the window is %.2f mm high, %.1f minutes of arc at %s "
        "(%d needed)",
        floor(metres * 100000) / 100, floor(minutes * 10) / 10, distance_words(book),
        SIGHT_LEAST);
}

/* ---- the aids: the tape for the drum, the strip for the nut, a drum to make ---- */

/* Parts of a strip that bear no scale, m. */
static const double TAB = 0.010, CLEAR = 0.006, PLAIN = 0.010;

/* Lines nearer to each other than this run together in print; figures want more. m */
static const double LEAST_SPACE = 0.0011, LEAST_FIGURE_SPACE = 0.0055;

static const double LEAST_RIM = 0.020;

enum { VERNIER = 10 };

/* A scale of diameters. */
struct scale {
    double division; /* m */
    int half;        /* divisions shown below and above the drum's own */
    int figures;     /* every so many bear a figure, */
    double figure;   /* which is so much a division, */
    int places;      /* with so many digits behind the point */
    const char *unit;
    const char *whole, *parts; /* what is read at the index, and at the vernier */
};

static const struct scale metric = {0.001, 5, 5, 1, 0, "mm", "Whole millimetres", "Tenths"};
static const struct scale imperial = {
    0.05 * INCH, 4, 2, 0.05, 1, "in", "Steps of 0.05 in", "Steps of 0.005 in"};

/* One aid in the making. */
struct maker {
    struct arena *arena;
    const struct shop *shop;
    enum paper_size booklet;
    double paper; /* thickness, m */
    struct aid *aid;
};

/* One more paragraph of the aid's words. */
#define SAY(maker, ...)                                                                        \
    (*ARENA_PUSH((maker)->arena, (maker)->aid->words, (maker)->aid->word_count) =              \
         arena_format((maker)->arena, __VA_ARGS__))

static const char *millimetres(struct maker *maker, double metres, int places)
{
    return arena_format(maker->arena, "%s\u00a0mm", show_places(metres * 1000, places).text);
}

static void add_mark(struct maker *maker, struct tape *tape, double at, double reach,
                     const char *label)
{
    *ARENA_PUSH(maker->arena, tape->marks, tape->mark_count) =
        (struct tape_mark){.at = points_of(at), .reach = reach, .label = label};
}

/* One line for each division of the diameter, the taller ones with figures. */
static void add_scale(struct maker *maker, struct tape *tape, const struct scale *scale,
                      int first, int last)
{
    for (int i = first; i <= last; i++) {
        bool figure = i % scale->figures == 0;
        add_mark(maker, tape, tape_position(i * scale->division, maker->paper),
                 figure ? 0.55 : 0.4,
                 figure ? arena_text(maker->arena,
                                     show_places(i * scale->figure, scale->places).text)
                        : NULL);
    }
}

static void add_vernier(struct maker *maker, struct tape *tape, double division)
{
    double space = tape_vernier_space(division, VERNIER);
    for (int i = VERNIER; i >= 0; i--)
        *ARENA_PUSH(maker->arena, tape->vernier, tape->vernier_count) =
            (struct tape_mark){.at = points_of(-i * space),
                               .reach = i == 0 ? 0.55 : 0.4,
                               .label = arena_format(maker->arena, "%d", VERNIER - i)};
}

static void say_joints(struct maker *maker, const struct tape *tape)
{
    if (tape->end - tape->begin > aid_width(maker->booklet))
        SAY(maker, "Join the pieces edge to edge, letter to letter, with clear tape on the "
                   "outside only. The short marks on both sides of a joint must lie 20 mm "
                   "apart.");
}

static void say_tape(struct maker *maker, const struct tape *tape, const struct scale *scale)
{
    double radius = shop_radius(maker->shop);
    SAY(maker, "Cut along the lines. Wind the strip once around the drum where the cord runs, "
               "figures outward, snug but not stretched. Its end passes beside its beginning, "
               "never over it.");
    SAY(maker,
        "%s: the last line of the scale before the index line. %s: the number of "
        "the vernier line that runs straight into a line of the scale. Drawn for "
        "paper %s thick: the line for a diameter D stands at \u03c0 (D + "
        "thickness).",
        scale->whole, scale->parts, millimetres(maker, maker->paper, 2));
    say_joints(maker, tape);
    /* Rules of thumb of ours: 0.5 % of scale and damp together, 0.2 mm of cutting, winding
     * and reading. */
    SAY(maker,
        "How good it is (an estimate, not a measurement): a printer may be 0.3 %% "
        "off and damp paper 0.2 %%, together %s\u00a0mm on this drum. Corrected by "
        "the bar below, which lies the same way, it is good to about 0.2 mm: %s\u00a0%% "
        "of the drag. A caliper in three places is surer. To cross-check: let n "
        "whole turns of cord off; the effective radius is their length \u00f7 (2 "
        "\u03c0 n).",
        show_up(maker->shop->drum.diameter.q.base * 1000 * 0.005, 1).text,
        show_up(0.0001 / radius * 100, 1).text);
}

static void make_tape(struct maker *maker)
{
    const struct quantity *drum = &maker->shop->drum.diameter.q;
    const struct scale *scale = drum->unit->system == SYSTEM_IMPERIAL ? &imperial : &metric;
    int own = (int)floor(drum->base / scale->division + 0.5);
    int least = own - scale->half, most = own + scale->half;
    double begin = VERNIER * tape_vernier_space(scale->division, VERNIER) + TAB;
    double upper = tape_position((most - least) * scale->division, maker->paper) + CLEAR;
    double lower = tape_position(least * scale->division, maker->paper) - begin - CLEAR;
    double end = tape_position((most + 1) * scale->division, maker->paper) + CLEAR;
    struct tape *tape = arena_get(maker->arena, sizeof *tape);
    *tape = (struct tape){.begin = points_of(-begin),
                          .upper_from = points_of(upper),
                          .lower_to = points_of(lower),
                          .end = points_of(end),
                          .index = "\u25c0 index line"};
    maker->aid->title = arena_format(maker->arena, "Diameter tape for the %s drum",
                                     quantity_text(maker->arena, drum));
    if (!(lower > upper + PLAIN)) { /* the ends would lie on each other */
        SAY(maker, "This drum is too small for a paper tape: measure it with a caliper in "
                   "three places.");
        return;
    }
    if (tape->end - tape->begin > TAPE_PIECES * aid_width(maker->booklet)) {
        SAY(maker, "This drum is too large for a paper tape: measure it with a caliper, or let "
                   "n whole turns of cord off; the effective radius is their length \u00f7 (2 "
                   "\u03c0 n).");
        return;
    }
    add_scale(maker, tape, scale, least - VERNIER + 1, most + 1);
    add_vernier(maker, tape, scale->division);
    tape->name = arena_format(maker->arena, "%s to %s\u00a0%s, settings %s",
                              show_places(least * scale->figure, 2 * scale->places).text,
                              show_places(most * scale->figure, 2 * scale->places).text,
                              scale->unit, maker->shop->fingerprint);
    maker->aid->tape = tape;
    say_tape(maker, tape, scale);
}

/* The finest step of degrees whose lines keep this far apart; 0 when none does. */
static int step_of(const int *steps, double degree, double space)
{
    while (*steps && *steps * degree < space)
        steps++;
    return *steps;
}

static void add_degrees(struct maker *maker, struct tape *tape, double rim)
{
    static const int lines[] = {1, 2, 5, 10, 0}, figures[] = {10, 20, 30, 90, 0};
    double degree = tape_arc(rim, maker->paper, 1);
    int step = step_of(lines, degree, LEAST_SPACE);
    int figure = step_of(figures, degree, LEAST_FIGURE_SPACE);
    for (int i = 0; i <= 360; i += step) {
        bool with = i % figure == 0 && i < 360;
        add_mark(maker, tape, tape_arc(rim, maker->paper, i), i % 10 == 0 ? 0.4 : 0.25,
                 with ? arena_format(maker->arena, "%d", i) : NULL);
    }
}

static void say_degrees(struct maker *maker, double turn)
{
    const struct nut *nut = &maker->shop->nut;
    double way = nut_travel(nut_pitch_given(nut), 10);
    SAY(maker,
        "Cut it out and lay it around the rim of the nut, figures outward; glue "
        "the tab before 0 under the other end, so that 360 lies on 0. Scratch one "
        "mark on the headstock to read against. One turn is %s of strip, for paper "
        "%s thick.",
        millimetres(maker, turn, 1), millimetres(maker, maker->paper, 2));
    SAY(maker, "The log wants places that grow when the nut is tightened. Where the figure at "
               "the mark falls while you tighten, write 360 less the figure.");
    if (isfinite(way) && nut_thread_in_inches(nut))
        SAY(maker, "Turned by 10 degrees, the nut moves along by %s\u00a0in.",
            show_places(way / INCH, 4).text);
    else if (isfinite(way))
        SAY(maker, "Turned by 10 degrees, the nut moves along by %s.",
            millimetres(maker, way, 3));
}

static void make_rim_strip(struct maker *maker)
{
    const struct quantity *rim = &maker->shop->nut.outside_diameter.q;
    const char *size = quantity_text(maker->arena, rim);
    double turn = tape_arc(rim->base, maker->paper, 360);
    struct tape *tape = arena_get(maker->arena, sizeof *tape);
    maker->aid->title =
        arena_format(maker->arena, "Degree strip for the nut\u2019s rim, %s", size);
    tape->begin = tape->upper_from = points_of(-TAB);
    tape->end = tape->lower_to = points_of(turn);
    if (rim->base < LEAST_RIM ||
        tape->end - tape->begin > TAPE_PIECES * aid_width(maker->booklet)) {
        SAY(maker, "This rim is too small or too large for a strip of paper.");
        return;
    }
    tape->tab = "tab";
    tape->name =
        arena_format(maker->arena, "%s rim, settings %s", size, maker->shop->fingerprint);
    maker->aid->tape = tape;
    add_degrees(maker, tape, rim->base);
    say_degrees(maker, turn);
    say_joints(maker, tape);
}

const struct aid *book_aids(struct arena *arena, const struct shop *shop,
                            const struct text_meter *meter, enum paper_size booklet,
                            size_t *count)
{
    struct aid *aids = arena_get(arena, 3 * sizeof *aids), *aid = aids;
    struct maker maker = {arena, shop, booklet, shop->paper.thickness.q.base, aid++};
    make_tape(&maker);
    if (given(&shop->nut.outside_diameter)) {
        maker.aid = aid++;
        make_rim_strip(&maker);
    }
    maker.aid = aid++; /* at 1:1 where it fits */
    struct canvas canvas = canvas_new(arena, meter, 0);
    draw_drum_to_make(shop, &canvas, aid_width(booklet), aid_figure_height(booklet));
    maker.aid->title = "A drum to make";
    maker.aid->figure = canvas.figure;
    SAY(&maker, "%s", canvas.figure->caption);
    *count = (size_t)(aid - aids);
    return aids;
}

/* ---- the prints ---- */

static enum paper_size booklet_size(const struct book *book)
{
    static const enum paper_size sizes[] = {PAPER_A5, PAPER_HALF_LETTER};
    return sizes[book->shop.paper.booklet];
}

/* Paints a print into a file in reading order, one folded, or both; a name may be NULL. Only
 * where there is a set, and no fault so far: with one, the set is not put in its place. */
static void paint(struct book *book, const struct print *print, const char *reading,
                  const char *folded)
{
    struct sink sinks[2] = {{0}};
    if (!book->set || diags_count(book->diags) > 0)
        return;
    if (reading)
        sinks[0] = outset_open(book->set, reading);
    if (folded)
        sinks[1] = outset_open(book->set, folded);
    pdf_paint(print, book->fonts, reading ? &sinks[0] : NULL, folded ? &sinks[1] : NULL);
    if (reading)
        outset_close(sinks[0]);
    if (folded)
        outset_close(sinks[1]);
}

/* With the sheet on which its folding is tried, which says of what sheets the booklet is. */
static void make_booklet(struct book *book, const struct imprint *imprint)
{
    enum paper_size size = booklet_size(book);
    if (!book->set) {
        booklet_check(book->arena, book->pages, book->page_count, imprint, book->fonts, size,
                      book->diags);
        return;
    }
    struct print *print = compose_booklet(book->arena, book->pages, book->page_count, imprint,
                                          book->fonts, size, book->diags);
    print->paper = points_of(book->shop.paper.thickness.q.base);
    print->gathering = (size_t)book->shop.paper.gathering.number;
    book->booklet = print;
    paint(book, print, book->parts & PART_BOOKLET ? "booklet.pdf" : NULL,
          book->parts & PART_FOLD ? "booklet-fold.pdf" : NULL);
    if (!(book->parts & PART_FOLD))
        return;
    struct fold fold = {print->sheet_count, print->gathering};
    book->trial = compose_trial(book->arena, imprint, book->fonts, size, &fold);
    paint(book, book->trial, NULL, "booklet-trial.pdf");
}

/* A sheet that is kept for years also says when it was made. */
static struct imprint dated(struct book *book, struct imprint imprint)
{
    const char *day = source_date_day(book->arena);
    if (day)
        imprint.inputs = arena_format(book->arena, "%s; made on %s", imprint.inputs, day);
    return imprint;
}

/* The card, and the sheet that it is cut from. */
static void make_cards(struct book *book, struct imprint imprint)
{
    static const enum paper_size sizes[] = {PAPER_A5, PAPER_A6, PAPER_HALF_LETTER};
    struct card_ask ask = card_ask(book, sizes[book->shop.paper.card], booklet_size(book));
    imprint = dated(book, imprint);
    struct card_prints prints =
        compose_card(book->arena, book->card, &imprint, book->fonts, &ask, book->diags);
    book->card_note = card_note(book, prints.height);
    book->card_print = prints.card;
    book->card_sheet = prints.sheet;
    paint(book, prints.card, "card.pdf", NULL);
    paint(book, prints.sheet, "card-sheet.pdf", NULL);
}

static void make_aids(struct book *book, const struct imprint *imprint)
{
    size_t count;
    struct text_meter meter = book_meter(book);
    enum paper_size size = booklet_size(book);
    const struct aid *aids = book_aids(book->arena, &book->shop, &meter, size, &count);
    book->aids = compose_aids(book->arena, aids, count, imprint, book->fonts, size);
    paint(book, book->aids, "aids.pdf", NULL);
}

static void make_forms(struct book *book, struct imprint imprint)
{
    imprint = dated(book, imprint);
    const struct print *forms =
        compose_forms(book->arena, book->pages, book->page_count, &imprint, book->fonts,
                      booklet_size(book), book->diags);
    book->forms = forms->sheet_count ? forms : NULL;
    if (book->forms)
        paint(book, book->forms, "forms.pdf", NULL);
}

/* By the settings that were in force for the job. */
static void make_record(struct book *book, struct imprint imprint)
{
    const struct pull_series *left = book->results->last_job.left;
    if (!left || !book->record)
        return;
    const struct results *then =
        results_as_of(book->arena, book->results, results_row(book->results, left));
    imprint.inputs = book_inputs_text(book->arena, then);
    imprint.fingerprint =
        arena_format(book->arena, "%s, spindlebook " VERSION, then->shop->fingerprint);
    imprint = dated(book, imprint);
    book->record_print = compose_record(book->arena, book->record, &imprint, book->fonts,
                                        booklet_size(book), book->diags);
    paint(book, book->record_print, "record.pdf", NULL);
}

void book_compose(struct book *book)
{
    const struct imprint imprint = {.title = book->pages[0]->title,
                                    .notice = book->shop.lathe.notice,
                                    .fingerprint = book->stamp,
                                    .inputs = book->inputs};
    if (book->parts & (PART_BOOKLET | PART_FOLD))
        make_booklet(book, &imprint);
    if (book->parts & PART_CARD)
        make_cards(book, imprint);
    if (book->parts & PART_AIDS)
        make_aids(book, &imprint);
    if (book->parts & PART_FORMS)
        make_forms(book, imprint);
    if (book->parts & PART_RECORD)
        make_record(book, imprint);
}
