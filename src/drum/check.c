/* Whether the drum can be made, and what is cut into its face. */
#include "drum/drum.h"
#include "drum/strokes.h"
#include "number/show.h"
#include "physics/physics.h"

#include <math.h>
#include <string.h>

/* ---- what is cut into the face ---- */

static const double MARGIN = 0.001; /* beside what is cut, m */
static const double LARGEST_LETTER = 0.006, SMALLEST_LETTER = 0.0025, LETTER_STEP = 0.00025;

/* The nominal diameter, in millimetres or, for a drum that is measured so, inches. */
static const char *diameter_text(struct arena *arena, const struct shop *shop,
                                 const struct drum_to_make *drum)
{
    bool inches = shop->drum.diameter.q.unit->system == SYSTEM_IMPERIAL;
    struct shown size =
        inches ? show_places(drum->land / INCH, 3) : show_places(1000 * drum->land, 2);
    return arena_format(arena, "D%s%s", size.text, inches ? "IN" : "MM");
}

/* The widest ring of the face that the opening, the holes and the rim leave. */
static void find_band(const struct drum_to_make *drum, double *from, double *to)
{
    double inner =
        drum->opening > 0 && !(drum->closed > 0) ? drum->opening / 2 + drum->edge : 0;
    double outer = drum->flange / 2 - drum->edge;
    double first = (drum->hole_circle - drum->hole) / 2;
    double last = (drum->hole_circle + drum->hole) / 2;
    bool inside = drum->holes && first - inner > outer - last;
    *from = (drum->holes && !inside ? last : inner) + MARGIN;
    *to = (inside ? first : outer) - MARGIN;
}

/* The largest letters at which the text has room on its ring; 0 where there are none. A text
 * that stands further out has more room along the ring: it stands as far out as it can. */
static double letter_height(const struct drum_to_make *drum, const char *text, double from,
                            double to)
{
    double around = 2 * M_PI - 2 * drum_rim_angle(drum);
    for (double height = LARGEST_LETTER; height >= SMALLEST_LETTER; height -= LETTER_STEP) {
        double step = height / LETTER_HEIGHT, line = to - height - STROKE_HALF * step;
        double along = step * (LETTER_ADVANCE * (double)strlen(text) + 2 * STROKE_HALF);
        if (line - STROKE_HALF * step >= from && line > height &&
            along + 2 * MARGIN <= around * line)
            return height;
    }
    return 0;
}

struct engraving drum_engraving(struct arena *arena, const struct shop *shop,
                                const struct drum_to_make *drum)
{
    const char *mark = shop->drum.mark, *size = diameter_text(arena, shop, drum);
    const char *head = arena_format(arena, "%s%s%s", mark ? mark : "", mark ? " " : "", size);
    const char *const texts[] = {arena_format(arena, "%s [       ]", head), head};
    struct engraving engraving = {.text = head};
    double from, to;
    find_band(drum, &from, &to);
    for (int i = 0; i < 2 && !(engraving.height > 0); i++) {
        engraving.text = texts[i];
        engraving.height = letter_height(drum, texts[i], from, to);
    }
    double step = engraving.height / LETTER_HEIGHT;
    engraving.half = STROKE_HALF * step;
    engraving.radius = to - engraving.height - engraving.half;
    engraving.begin =
        M_PI - step * LETTER_ADVANCE * (double)strlen(engraving.text) / 2 / engraving.radius;
    return engraving;
}

const char *drum_title(struct arena *arena, const struct engraving *engraving)
{
    return arena_format(arena, "Drum %.*s", (int)strcspn(engraving->text, "["),
                        engraving->text);
}

/* ---- faults: each at the key to blame, and where that was not typed a drum that cannot be
 * made, which is none ---- */

#define TYPED(measure) (measure)->q.digits, (measure)->q.unit->symbol

struct checker {
    const struct shop *shop;
    struct diags *diags;
    struct arena *arena; /* for words */
    struct drum_to_make drum;
    bool good;
};

/* "3 mm" */
static const char *mm(const struct checker *c, double length)
{
    return arena_format(c->arena, "%.4g mm", 1000 * length);
}

/* Found at a key; nothing where that stands nowhere. */
#define BLAME(checker, place, ...)                                                             \
    do {                                                                                       \
        (checker)->good = false;                                                               \
        if (is_typed(place))                                                                   \
            fault((checker)->diags, *(place), __VA_ARGS__);                                    \
    } while (0)

static void check_size(struct checker *c)
{
    const struct drum_to_make *drum = &c->drum;
    const struct drum *typed = &c->shop->drum;
    const struct place *at =
        is_typed(&typed->peg.at) ? &typed->peg.at : &typed->wanted_radius.at;
    if (!(drum->notch / drum->land <= MOST_OF_NOTCH))
        BLAME(c, at,
              "the notch for the peg, %s wide, has no room on a land of %s; make the drum "
              "larger, or take a thinner cord or peg",
              mm(c, drum->notch), mm(c, drum->land));
    if (drum->peg < drum->peg_height * (1 - 1e-9))
        BLAME(c, &typed->peg.at,
              "drum.peg (%s %s) is narrower than the peg is high, %s; make it as wide at least",
              TYPED(&typed->peg), mm(c, drum->peg_height));
    if (drum->peg_height > drum->flange_height * (1 + 1e-9))
        BLAME(c, &typed->flange.at,
              "the peg, %s high, stands out beyond the flange of %s %s and would catch; make "
              "the flange as high at least",
              mm(c, drum->peg_height), TYPED(&typed->flange));
    if (given(&typed->most_width) && drum->width > typed->most_width.q.base * (1 + 1e-9))
        BLAME(c, &typed->most_width.at,
              "%d turns of cord do not fit: with them the drum is %s wide, more than "
              "drum.most-width; let there be fewer in drum.turns, or more room",
              drum->turns, mm(c, drum->width));
}

/* What is between the opening and the land. */
static void check_wall(struct checker *c)
{
    const struct drum_to_make *drum = &c->drum;
    const struct drum *typed = &c->shop->drum;
    double wall = (drum->land - drum->opening) / 2;
    if (given(&typed->bore) && wall < LEAST_DRUM_WALL * (1 - 1e-9))
        BLAME(c, &typed->bore.at,
              "drum.bore (%s %s) leaves a wall of %s below the cord; leave %s at least",
              TYPED(&typed->bore), mm(c, wall), mm(c, LEAST_DRUM_WALL));
    if (!given(&typed->bore) && wall < LEAST_DRUM_WALL)
        c->good = false;
}

/* One of the two is given without the other, or both. */
static bool check_pair(struct checker *c, const struct measure *one, const char *one_key,
                       const struct measure *two, const char *two_key)
{
    if (given(one) && absent(two))
        BLAME(c, &one->at, "%s stands without %s; write both, or neither", one_key, two_key);
    if (given(two) && absent(one))
        BLAME(c, &two->at, "%s stands without %s; write both, or neither", two_key, one_key);
    return given(one) && given(two);
}

static void check_plug(struct checker *c)
{
    const struct drum *typed = &c->shop->drum;
    const struct drum_to_make *drum = &c->drum;
    bool plug = check_pair(c, &typed->plug_diameter, "drum.plug-diameter", &typed->plug_length,
                           "drum.plug-length");
    if (plug && given(&typed->cap_depth))
        BLAME(c, &typed->cap_depth.at,
              "a drum is a plug or a cap, not both; delete drum.cap-depth or the plug");
    if (plug && drum->post > drum->flange - 4 * drum->edge)
        BLAME(c, &typed->plug_diameter.at,
              "the plug is not smaller than the flange of %s; make it smaller, or the drum "
              "larger",
              mm(c, drum->flange));
    if (plug && drum->opening > 0 &&
        drum->post - drum->opening < 2 * LEAST_DRUM_WALL * (1 - 1e-9))
        BLAME(c, &typed->plug_diameter.at,
              "the bore leaves a wall of %s in the plug; leave %s at least",
              mm(c, (drum->post - drum->opening) / 2), mm(c, LEAST_DRUM_WALL));
    if (given(&typed->cap_depth) && absent(&typed->bore))
        BLAME(c, &typed->cap_depth.at,
              "drum.cap-depth stands without drum.bore; write the thread's outside diameter "
              "and its play there");
}

static void check_holes(struct checker *c)
{
    const struct drum *typed = &c->shop->drum;
    const struct drum_to_make *drum = &c->drum;
    double inner = fmax(drum->opening, drum->post) / 2 + drum->edge;
    bool sizes = check_pair(c, &typed->hole_circle, "drum.hole-circle", &typed->hole_diameter,
                            "drum.hole-diameter");
    if (sizes && !drum->holes)
        BLAME(c, &typed->hole_circle.at,
              "drum.hole-circle stands without drum.holes; write how many there are");
    if (drum->holes && absent(&typed->hole_circle))
        BLAME(c, &typed->holes.at,
              "drum.holes stands without drum.hole-circle and drum.hole-diameter; write both");
    if (!sizes || !drum->holes)
        return;
    double first = (drum->hole_circle - drum->hole) / 2;
    double last = (drum->hole_circle + drum->hole) / 2;
    double apart = drum->hole_circle * sin(M_PI / drum->holes) - drum->hole;
    if (first - inner < LEAST_DRUM_WALL || drum->land / 2 - last < LEAST_DRUM_WALL)
        BLAME(c, &typed->hole_circle.at,
              "holes of %s %s on this circle do not lie %s within the land of %s and outside "
              "of bore or plug; change the circle or the drum",
              TYPED(&typed->hole_diameter), mm(c, LEAST_DRUM_WALL), mm(c, drum->land));
    else if (apart < LEAST_DRUM_WALL)
        BLAME(c, &typed->holes.at, "the holes lie %s apart; leave %s at least",
              mm(c, fmax(0, apart)), mm(c, LEAST_DRUM_WALL));
}

static void check_mark(struct checker *c)
{
    const char *mark = c->shop->drum.mark, *unknown = mark ? stroke_unknown(mark) : NULL;
    struct place at = shop_place_of_text(c->shop, mark);
    if (unknown)
        BLAME(c, &at,
              "drum.mark: '%s' cannot be cut from '%s' on; take letters A to Z, digits, blanks "
              "and - . /",
              mark, unknown);
    else if (c->good && mark && !(drum_engraving(c->arena, c->shop, &c->drum).height > 0))
        BLAME(c, &at,
              "drum.mark has no room on the face, beside the diameter; write a shorter one");
}

bool drum_check(const struct shop *shop, struct diags *diags)
{
    struct checker c = {shop, diags, arena_new(), drum_to_make(shop), true};
    if (c.drum.land > 0) {
        check_size(&c);
        check_wall(&c);
        check_plug(&c);
        check_holes(&c);
        check_mark(&c);
    }
    arena_free(c.arena);
    return c.good && c.drum.land > 0;
}
