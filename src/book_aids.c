#include "book_aids.h"

#include "drag/inch.h"
#include "drag/nut.h"
#include "drag/tape.h"
#include "number/show.h"
#include "shop/words.h"
#include "tree/points.h"
#include "verdict/nut_way.h"
#include "verdict/radius.h"

#include <math.h>

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
