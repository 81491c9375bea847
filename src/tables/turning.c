/* How fast to pull, and what a heavy body on the spindle adds to the pull while its speed
 * changes. */
#include "physics/physics.h"
#include "tables/common.h"

#include <math.h>

static bool in_inches(const struct shop *shop)
{
    return shop->drum.diameter.q.unit->system == SYSTEM_IMPERIAL;
}

/* ---- whole turns in so many seconds, and the speed of the cord ---- */

/* Seconds for one whole turn. */
static const int turns[] = {15, 12, 10, 8, 6, 5, 4, 3, 2, 1};

enum { TURNS = sizeof turns / sizeof turns[0], USUAL = 5 };

void make_pull_speed(struct builder *b)
{
    double radius = shop_radius(b->shop);
    double turn = turning_cord_speed(radius, turning_speed(1));
    double pull = 1.5 * turn; /* half to start, a whole one to read */
    bool starting = shop_reads_starting(b->shop);
    for (int i = 0; i < TURNS; i++) {
        double speed = turning_speed(turns[i]);
        double cord = turning_cord_speed(radius, speed);
        next_row(b);
        put_places(b, "one turn in", "s", turns[i], 0);
        bold_head(b, turns[i] == USUAL && !starting);
        put_places(b, "spindle", "r/min", speed, 1);
        if (in_inches(b->shop)) /* the system of the drum comes first */
            put_significant(b, "cord", "in/s", cord / INCH, 3);
        put_significant(b, "cord", "mm/s", 1000 * cord, 3);
        if (!in_inches(b->shop))
            put_significant(b, "cord", "in/s", cord / INCH, 3);
    }
    if (!starting)
        table_note(b->table,
                   "The heavy row is our rule. A speed that the manual gives comes first.");
    /* to mark on the bed, or along a rule */
    table_note(
        b->table, "One whole turn pays out %s\u00a0mm (%s\u00a0in) of cord%s.",
        show_places(1000 * turn, 1).text, show_places(turn / INCH, 2).text,
        starting
            ? ""
            : arena_format(b->arena, "; a pull of one and a half turns %s\u00a0mm (%s\u00a0in)",
                           show_places(1000 * pull, 0).text, show_places(pull / INCH, 1).text));
    note_drum_and_cord(b);
    note_fingerprint(b);
}

/* ---- a chuck that was left on: the pull that goes into speeding it up ---- */

/* From memory: carbon steel. Cast iron is a tenth lighter. */
static const double steel = 7850; /* kg/m3 */

/* Examples of ours, as solid cylinders: diameter and length in mm, or in 1/8 in. */
struct body {
    const char *text;
    double diameter, length;
};

static const struct body metric[] = {{"spindle, 60\u00a0×\u00a0500\u00a0mm", 60, 500},
                                     {"large gear, 200\u00a0×\u00a025\u00a0mm", 200, 25},
                                     {"chuck, 125\u00a0×\u00a055\u00a0mm", 125, 55},
                                     {"chuck, 160\u00a0×\u00a065\u00a0mm", 160, 65},
                                     {"chuck, 200\u00a0×\u00a080\u00a0mm", 200, 80},
                                     {"faceplate, 250\u00a0×\u00a020\u00a0mm", 250, 20}};

static const struct body inch[] = {{"spindle, 2\u00a01/2\u00a0×\u00a020\u00a0in", 20, 160},
                                   {"large gear, 8\u00a0×\u00a01\u00a0in", 64, 8},
                                   {"chuck, 5\u00a0×\u00a02\u00a01/4\u00a0in", 40, 18},
                                   {"chuck, 6\u00a0×\u00a02\u00a01/2\u00a0in", 48, 20},
                                   {"chuck, 8\u00a0×\u00a03\u00a01/4\u00a0in", 64, 26},
                                   {"faceplate, 10\u00a0×\u00a03/4\u00a0in", 80, 6}};

enum { BODIES = sizeof metric / sizeof metric[0] };

/* The pull that a change of speed (r/min) within a second takes, and its share of the
 * window. */
static void put_change(struct builder *b, const char *head, const char *share_head,
                       double inertia, double change)
{
    const struct unit *gauge = b->shop->gauge.step.q.unit;
    double drag = turning_drag_of_change(inertia, change, 1);
    double pull = unit_from_base(drag_to_pull(drag, shop_radius(b->shop)), gauge);
    double span = b->band ? b->band->high.q.base - b->band->low.q.base : NAN;
    put_up(b, head, gauge->shown, pull, finer_than_step(b->shop));
    put_up(b, share_head, "%", 100 * drag / span, 1);
}

void make_chuck_left_on(struct builder *b)
{
    bool inches = in_inches(b->shop);
    double unit = inches ? INCH / 8 : 0.001;
    for (int i = 0; i < BODIES; i++) {
        const struct body *body = inches ? &inch[i] : &metric[i];
        double diameter = body->diameter * unit, length = body->length * unit;
        double inertia = turning_inertia(steel, diameter, length);
        next_row(b);
        put_text(b, "left on", body->text);
        put_places(b, "mass", "kg", turning_mass(steel, diameter, length), 1);
        put_places(b, "inertia", "kg·m²", inertia, 3);
        /* from rest to the usual turn in five seconds, and by a tenth of that */
        put_change(b, "extra at start", "of window, start", inertia, 12);
        put_change(b, "extra when uneven", "of window, uneven", inertia, 1.2);
    }
    table_note(b->table, "The sizes are examples of ours, worked out as solid steel cylinders "
                         "of 7850\u00a0kg/m³ (from memory). A real chuck is hollow, and has "
                         "somewhat less.");
    table_note(b->table,
               "Starting: from rest to a turn in five seconds, within one second. Uneven: a "
               "tenth of that speed more within one second. So much the gauge shows too much; "
               "as much too little while slowing down. Rounded up.");
    table_note(b->table,
               "Of the window: of the whole way from the low to the high pull of your "
               "band. none: there is no window, or no way between its limits.");
    note_inputs(b, true);
}
