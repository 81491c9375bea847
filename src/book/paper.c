#include "book/paper.h"

#include "base/file.h"
#include "base/outset.h"
#include "book/book.h"
#include "book/resolve.h"
#include "doc/canvas.h"
#include "judge/gauge.h"
#include "judge/nut.h"
#include "judge/series.h"
#include "judge/uncertainty.h"
#include "judge/window.h"
#include "layout/aids.h"
#include "layout/compose.h"
#include "number/show.h"
#include "pdf/pdf.h"
#include "physics/physics.h"
#include "report/values.h"
#include "report/words.h"
#include "shop/shop.h"

#include <math.h>

/* What the card is asked for, and how well it can be read. Part of book_compose(). */

static const char *distance_words(struct book *book)
{
    const struct measure *distance = &book->shop.paper.reading_distance;
    if (!given(distance))
        return arena_format(book->arena, "%g\u00a0mm", READING_DISTANCE * 1000);
    return quantity_text(book->arena, &distance->q);
}

/* At which pulls a state stands in the lathe's own band, by the U of the usual pulls: "" where
 * no one number says it. */
static const char *state_pulls(struct book *book, const struct guarded_window *good,
                               enum state state)
{
    const struct decimal *step = &book->shop.gauge.step.q.typed;
    struct shown from = show_steps(good->low_steps, step),
                 to = show_steps(good->high_steps, step);
    switch (state) {
    case STATE_LOW_IN_DOUBT:
        return arena_format(book->arena, "below %s", from.text);
    case STATE_GOOD:
        return arena_format(book->arena, "%s to %s", from.text, to.text);
    case STATE_HIGH_IN_DOUBT:
        return arena_format(book->arena, "above %s", to.text);
    default:
        return "";
    }
}

/* "▼ clearly low", ...: the five in the order in which they lie about a window. None where no
 * pull is good: the table says so. */
static void add_key(struct book *book, struct card_ask *ask)
{
    static const enum state states[] = {STATE_CLEARLY_LOW, STATE_LOW_IN_DOUBT, STATE_GOOD,
                                        STATE_HIGH_IN_DOUBT, STATE_CLEARLY_HIGH};
    struct guarded_window good = guarded_window_own(&book->shop);
    struct state_cell *key = NULL;
    for (size_t i = 0; !good.closed && i < sizeof states / sizeof states[0]; i++)
        *ARENA_PUSH(book->arena, key, ask->key_count) =
            (struct state_cell){arena_format(book->arena, "%s\u00a0%s", state_shape(states[i]),
                                             state_words(states[i])),
                                state_pulls(book, &good, states[i])};
    ask->key = key;
}

static const char *rig_words(struct book *book)
{
    const struct shop *shop = &book->shop;
    const struct quantity *drum = &shop->drum.diameter.q, *cord = &shop->cord.diameter.q;
    return arena_format(
        book->arena, "%s (drum %s \u00b1 %s, cord %s \u00b1 %s)", radius_words(shop).text,
        quantity_text(book->arena, drum), quantity_text(book->arena, &shop->drum.tolerance.q),
        quantity_text(book->arena, cord), quantity_text(book->arena, &shop->cord.tolerance.q));
}

/* At the aim of the lathe's own band, in the gauge's unit; without limits at half of what
 * the gauge reads. */
static const char *gauge_words(struct book *book)
{
    const struct shop *shop = &book->shop;
    const struct unit *unit = shop->gauge.step.q.unit;
    const struct band *own = shop_own_band(shop);
    double pull = own ? pull_window_of(shop, own).aim : gauge_usual_pull(shop);
    double error = gauge_within_at(shop, pull);
    struct shown_uncertainty shown = uncertainty_shown_in(error, unit);
    return arena_format(book->arena,
                        "\u00b1\u00a0%s\u00a0%s at %s, from %s; readings are "
                        "not corrected",
                        show_up(unit_from_base(error, unit), shown.places).text, unit->shown,
                        own ? "the aim" : "half its capacity",
                        gauge_source_words(gauge_source_at(shop, pull)));
}

static void add_fact(struct book *book, struct card_ask *ask, struct fact **facts,
                     const char *name, const char *value)
{
    *ARENA_PUSH(book->arena, *facts, ask->fact_count) =
        (struct fact){.name = name, .value = value};
    ask->facts = *facts;
}

/* The settings' fingerprint stands at the foot. */
static const char *made_words(struct book *book)
{
    const char *day = source_date_day(book->arena);
    return day ? arena_format(book->arena, ". Made on %s", day) : "";
}

/* Words with values of the settings in them. */
static const char *with_values(struct book *book, const char *text)
{
    return form_values_fill(book->arena, book->diags, &book->shop, text, (struct place){0});
}

static void add_facts(struct book *book, struct card_ask *ask)
{
    struct fact *facts = NULL;
    add_fact(book, ask, &facts, "Effective radius:", rig_words(book));
    add_fact(book, ask, &facts, "Gauge error used:", gauge_words(book));
    const char *cap =
        arena_format(book->arena, "stop at {stop} in a room of {room}%s", made_words(book));
    if (shop_has_limits(&book->shop))
        add_fact(book, ask, &facts, "Good:",
                 with_values(book, arena_format(book->arena, "%s. Cap: %s",
                                                guarded_window_own(&book->shop).closed
                                                    ? state_words(STATE_UNDECIDED)
                                                    : "{good-from} to {good-to}",
                                                cap)));
    else {
        struct words last = last_alike_words(&book->shop, NULL);
        if (last.text[0])
            add_fact(book, ask, &facts,
                     "Last, locked and cold:", arena_text(book->arena, last.text));
        add_fact(book, ask, &facts, "Cap:", with_values(book, cap));
    }
}

/* All but the sizes of paper; owned by the book's arena. */
static struct card_ask book_card_ask(struct book *book)
{
    const struct shop *shop = &book->shop;
    double distance = shop_reading_distance(shop);
    struct card_ask ask = {.least = points_of(sight_height(distance, SIGHT_LEAST)),
                           .preferred = points_of(sight_height(distance, SIGHT_PREFERRED)),
                           .distance = distance_words(book),
                           .distance_mm = distance * 1000,
                           .at = shop->paper.reading_distance.at};
    if (!given(&shop->paper.reading_distance))
        ask.at = (struct place){.file = book->card->file};
    if (given(&shop->paper.hole))
        ask.hole = points_of(shop->paper.hole.q.base);
    if (shop_has_limits(shop))
        add_key(book, &ask);
    add_facts(book, &ask);
    return ask;
}

/* A sentence on the smallest sign of the card's windows; height in points, 0: none,
 * and then NULL. */
/* Rounded down: nothing is called larger than it is. */
static const char *book_card_note(struct book *book, double height)
{
    if (height == 0)
        return NULL;
    double metres = height / (1000 * MM);
    double minutes = sight_minutes(metres, shop_reading_distance(&book->shop));
    return arena_format(
        book->arena,
        "card: the smallest character of the windows is %.2f mm high, %.1f minutes "
        "of arc at %s (%d needed, %d better)",
        floor(metres * 100000) / 100, floor(minutes * 10) / 10, distance_words(book),
        SIGHT_LEAST, SIGHT_PREFERRED);
}

/* What is printed to measure with and to work by: the tape for the drum, the strip
 * for the nut, a drum to make. */

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

static const struct scale metric = {.division = 0.001,
                                    .half = 5,
                                    .figures = 5,
                                    .figure = 1,
                                    .unit = "mm",
                                    .whole = "Whole millimetres",
                                    .parts = "Tenths"};

static const struct scale imperial = {.division = 0.05 * INCH,
                                      .half = 4,
                                      .figures = 2,
                                      .figure = 0.05,
                                      .places = 1,
                                      .unit = "in",
                                      .whole = "Steps of 0.05 in",
                                      .parts = "Steps of 0.005 in"};

struct maker {
    struct arena *arena;
    const struct shop *shop;
    enum paper_size booklet;
    double paper; /* thickness, m */
};

static const char *millimetres(struct maker *maker, double metres, int places)
{
    return arena_format(maker->arena, "%s\u00a0mm", show_places(metres * 1000, places).text);
}

static const char *inches(struct maker *maker, double metres, int places)
{
    return arena_format(maker->arena, "%s\u00a0in", show_places(metres / INCH, places).text);
}

static void say(struct maker *maker, struct aid *aid, const char *words)
{
    *ARENA_PUSH(maker->arena, aid->words, aid->word_count) = words;
}

static void add_mark(struct maker *maker, struct tape *tape, double at, double reach,
                     const char *label)
{
    *ARENA_PUSH(maker->arena, tape->marks, tape->mark_count) =
        (struct tape_mark){.at = points_of(at), .reach = reach, .label = label};
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

/* Lays out the strip for diameters from `least` to `most` divisions. False when the
 * drum is so small that the ends would lie on each other. */
static bool make_tape(struct maker *maker, struct tape *tape, const struct scale *scale,
                      int least, int most)
{
    double vernier = VERNIER * tape_vernier_space(scale->division, VERNIER);
    double begin = vernier + TAB;
    double upper = tape_position((most - least) * scale->division, maker->paper) + CLEAR;
    double lower = tape_position(least * scale->division, maker->paper) - begin - CLEAR;
    if (!(lower > upper + PLAIN))
        return false;
    tape->begin = points_of(-begin);
    tape->upper_from = points_of(upper);
    tape->lower_to = points_of(lower);
    tape->end = points_of(tape_position((most + 1) * scale->division, maker->paper) + CLEAR);
    add_scale(maker, tape, scale, least - VERNIER + 1, most + 1);
    add_vernier(maker, tape, scale->division);
    tape->index = "\u25c0 index line";
    return true;
}

static void say_tape(struct maker *maker, struct aid *aid, const struct scale *scale)
{
    say(maker, aid,
        "Cut along the lines. Wind the strip once around the drum where the cord runs, "
        "figures outward, snug but not stretched. Its end passes beside its beginning, never "
        "over it.");
    say(maker, aid,
        arena_format(maker->arena,
                     "%s: the last line of the scale before the index line. %s: the number of "
                     "the vernier line that runs straight into a line of the scale. Drawn for "
                     "paper %s thick: the line for a diameter D stands at \u03c0 (D + "
                     "thickness).",
                     scale->whole, scale->parts, millimetres(maker, maker->paper, 2)));
}

static void say_joints(struct maker *maker, struct aid *aid)
{
    double width = tape_most(maker->booklet), length = aid->tape->end - aid->tape->begin;
    if (length <= width / TAPE_PIECES)
        return;
    say(maker, aid,
        "Join the pieces edge to edge, letter to letter, with clear tape on the outside only. "
        "The short marks on both sides of a joint must lie 20 mm apart.");
}

/* Rules of thumb of ours: 0.5 % of scale and damp together, 0.2 mm of cutting, winding
 * and reading. */
static void say_accuracy(struct maker *maker, struct aid *aid)
{
    const struct shop *shop = maker->shop;
    double drum = shop->drum.diameter.q.base;
    double radius = shop_radius(shop);
    say(maker, aid,
        arena_format(
            maker->arena,
            "How good it is (an estimate, not a measurement): a printer may be 0.3 %% "
            "off and damp paper 0.2 %%, together %s\u00a0mm on this drum. Corrected by "
            "the bar below, which lies the same way, it is good to about 0.2 mm: %s\u00a0%% "
            "of the drag. A caliper in three places is surer. To cross-check: let n "
            "whole turns of cord off; the effective radius is their length \u00f7 (2 "
            "\u03c0 n).",
            show_up(drum * 1000 * 0.005, 1).text, show_up(0.0001 / radius * 100, 1).text));
}

static const char *drum_words(struct maker *maker)
{
    return quantity_text(maker->arena, &maker->shop->drum.diameter.q);
}

static void tape_aid(struct maker *maker, struct aid *aid)
{
    const struct quantity *drum = &maker->shop->drum.diameter.q;
    const struct scale *scale = drum->unit->system == SYSTEM_IMPERIAL ? &imperial : &metric;
    int own = (int)floor(drum->base / scale->division + 0.5);
    int least = own - scale->half, most = own + scale->half;
    struct tape *tape = arena_get(maker->arena, sizeof *tape);
    aid->title = arena_format(maker->arena, "Diameter tape for the %s drum", drum_words(maker));
    if (!make_tape(maker, tape, scale, least, most)) {
        say(maker, aid,
            "This drum is too small for a paper tape: measure it with a caliper in three "
            "places.");
        return;
    }
    if (tape->end - tape->begin > tape_most(maker->booklet)) {
        say(maker, aid,
            "This drum is too large for a paper tape: measure it with a caliper, or let n "
            "whole turns of cord off; the effective radius is their length \u00f7 (2 \u03c0 "
            "n).");
        return;
    }
    tape->name = arena_format(maker->arena, "%s to %s\u00a0%s, settings %s",
                              show_places(least * scale->figure, 2 * scale->places).text,
                              show_places(most * scale->figure, 2 * scale->places).text,
                              scale->unit, maker->shop->fingerprint);
    aid->tape = tape;
    say_tape(maker, aid, scale);
    say_joints(maker, aid);
    say_accuracy(maker, aid);
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

static void say_degrees(struct maker *maker, struct aid *aid, double rim)
{
    const struct nut *nut = &maker->shop->nut;
    double way = nut_travel(nut_pitch_given(nut), 10);
    say(maker, aid,
        arena_format(
            maker->arena,
            "Cut it out and lay it around the rim of the nut, figures outward; glue "
            "the tab before 0 under the other end, so that 360 lies on 0. Scratch one "
            "mark on the headstock to read against. One turn is %s of strip, for paper "
            "%s thick.",
            millimetres(maker, tape_arc(rim, maker->paper, 360), 1),
            millimetres(maker, maker->paper, 2)));
    say(maker, aid,
        "The log wants places that grow when the nut is tightened. Where the figure at the "
        "mark "
        "falls while you tighten, write 360 less the figure.");
    if (isfinite(way))
        say(maker, aid,
            arena_format(maker->arena, "Turned by 10 degrees, the nut moves along by %s.",
                         nut_thread_in_inches(nut) ? inches(maker, way, 4)
                                                   : millimetres(maker, way, 3)));
}

static void rim_aid(struct maker *maker, struct aid *aid)
{
    const struct quantity *rim = &maker->shop->nut.outside_diameter.q;
    struct tape *tape = arena_get(maker->arena, sizeof *tape);
    aid->title = arena_format(maker->arena, "Degree strip for the nut\u2019s rim, %s",
                              quantity_text(maker->arena, rim));
    tape->begin = tape->upper_from = points_of(-TAB);
    tape->end = tape->lower_to = points_of(tape_arc(rim->base, maker->paper, 360));
    if (rim->base < LEAST_RIM || tape->end - tape->begin > tape_most(maker->booklet)) {
        say(maker, aid, "This rim is too small or too large for a strip of paper.");
        return;
    }
    tape->tab = "tab";
    tape->name = arena_format(maker->arena, "%s rim, settings %s",
                              quantity_text(maker->arena, rim), maker->shop->fingerprint);
    aid->tape = tape;
    add_degrees(maker, tape, rim->base);
    say_degrees(maker, aid, rim->base);
    say_joints(maker, aid);
}

const struct aid *book_aids(struct arena *arena, const struct shop *shop,
                            const struct text_meter *meter, enum paper_size booklet,
                            size_t *count)
{
    struct maker maker = {
        .arena = arena, .shop = shop, .booklet = booklet, .paper = shop_paper_thickness(shop)};
    struct aid *aids = arena_get(arena, 3 * sizeof *aids);
    *count = 1;
    tape_aid(&maker, &aids[0]);
    if (given(&shop->nut.outside_diameter))
        rim_aid(&maker, &aids[(*count)++]);
    aids[(*count)++] = book_drum_aid(arena, shop, meter, booklet);
    return aids;
}

/* What is printed of a book that was read without a fault. */

/* "62 mm (turned drum, no. 1)", so that two of one size can be told apart. */
static const char *with_name(struct book *book, const char *size, const char *name)
{
    return name ? arena_format(book->arena, "%s (%s)", size, name) : size;
}

const char *book_inputs_text(struct book *book)
{
    const struct shop *shop = &book->shop;
    char drum[QUANTITY_TEXT], cord[QUANTITY_TEXT], capacity[QUANTITY_TEXT], step[QUANTITY_TEXT];
    quantity_show(&shop->drum.diameter.q, drum);
    quantity_show(&shop->cord.diameter.q, cord);
    quantity_show(&shop->gauge.capacity.q, capacity);
    quantity_show(&shop->gauge.step.q, step);
    return arena_format(
        book->arena, "%s%s%s: drum %s, cord %s, gauge %s in steps of %s; limits: %s",
        shop->lathe.name, shop->lathe.workshop ? ", " : "",
        shop->lathe.workshop ? shop->lathe.workshop : "",
        with_name(book, drum, shop->drum.name), with_name(book, cord, shop->cord.name),
        with_name(book, capacity, shop->gauge.name), step,
        shop_has_limits(shop) ? shop->limits.source : NO_LIMIT_ON_FILE);
}

static struct imprint imprint_of(struct book *book)
{
    return (struct imprint){.title = book->pages[0]->title,
                            .notice = book->shop.lathe.notice,
                            .fingerprint = book->shop.fingerprint,
                            .inputs = book->inputs};
}

static enum paper_size booklet_size(const struct book *book)
{
    static const enum paper_size sizes[] = {PAPER_A5, PAPER_HALF_LETTER};
    return sizes[book->shop.paper.booklet];
}

/* Paints a print into a file in reading order, one folded, or both; a name may be NULL. Only
 * where there is a set, and no fault so far: with one, the set is not put in its place. */
static void paint(struct book *book, struct outset *set, const struct print *print,
                  const char *reading, const char *folded)
{
    struct sink sinks[2] = {{0}};
    if (!set || diags_count(book->diags) > 0)
        return;
    if (reading)
        sinks[0] = outset_open(set, reading);
    if (folded)
        sinks[1] = outset_open(set, folded);
    pdf_paint(print, book->fonts, reading ? &sinks[0] : NULL, folded ? &sinks[1] : NULL);
    if (reading)
        outset_close(sinks[0]);
    if (folded)
        outset_close(sinks[1]);
}

static void make_booklet(struct book *book, struct outset *set)
{
    struct imprint imprint = imprint_of(book);
    struct print *print = compose_booklet(book->arena, book->pages, book->page_count, &imprint,
                                          book->fonts, booklet_size(book), book->diags);
    print->paper = points_of(shop_paper_thickness(&book->shop));
    print->gathering = shop_gathering(&book->shop);
    book->booklet = print;
    paint(book, set, print, book->parts & PART_BOOKLET ? "booklet.pdf" : NULL,
          book->parts & PART_FOLD ? "booklet-fold.pdf" : NULL);
}

/* Says of what sheets the booklet is. */
static void make_trial(struct book *book, struct outset *set)
{
    struct imprint imprint = imprint_of(book);
    struct fold fold = {book->booklet->sheet_count, book->booklet->gathering};
    book->trial = compose_trial(book->arena, &imprint, book->fonts, booklet_size(book), &fold);
    paint(book, set, book->trial, NULL, "booklet-trial.pdf");
}

/* The card, and the sheet that it is cut from. */
static void make_cards(struct book *book, struct outset *set)
{
    static const enum paper_size sizes[] = {PAPER_A6, PAPER_A5, PAPER_HALF_LETTER};
    struct imprint imprint = imprint_of(book);
    struct card_ask ask = book_card_ask(book);
    ask.size = sizes[book->shop.paper.card];
    ask.booklet = booklet_size(book);
    struct card_prints prints =
        compose_card(book->arena, book->card, &imprint, book->fonts, &ask, book->diags);
    book->card_note = book_card_note(book, prints.height);
    book->card_print = prints.card;
    book->card_sheet = prints.sheet;
    paint(book, set, prints.card, "card.pdf", NULL);
    paint(book, set, prints.sheet, "card-sheet.pdf", NULL);
}

/* What is printed to measure with. */
static void make_aids(struct book *book, struct outset *set)
{
    size_t count;
    struct imprint imprint = imprint_of(book);
    struct text_meter meter = book_meter(book);
    const struct aid *aids =
        book_aids(book->arena, &book->shop, &meter, booklet_size(book), &count);
    book->aids =
        compose_aids(book->arena, aids, count, &imprint, book->fonts, booklet_size(book));
    paint(book, set, book->aids, "aids.pdf", NULL);
}

/* A sheet that is kept for years also says when it was made. */
static void make_forms(struct book *book, struct outset *set)
{
    struct imprint imprint = imprint_of(book);
    const char *day = source_date_day(book->arena);
    if (day)
        imprint.inputs = arena_format(book->arena, "%s; made on %s", imprint.inputs, day);
    const struct print *forms =
        compose_forms(book->arena, book->pages, book->page_count, &imprint, book->fonts,
                      booklet_size(book), book->diags);
    book->forms = forms->sheet_count ? forms : NULL;
    if (book->forms)
        paint(book, set, book->forms, "forms.pdf", NULL);
}

void book_compose(struct book *book, struct outset *set)
{
    if (book->parts & (PART_BOOKLET | PART_FOLD))
        make_booklet(book, set);
    if (book->parts & PART_FOLD)
        make_trial(book, set);
    if (book->parts & PART_CARD)
        make_cards(book, set);
    if (book->parts & PART_AIDS)
        make_aids(book, set);
    if (book->parts & PART_FORMS)
        make_forms(book, set);
}
