#include "figures/figures.h"

#include <string.h>

static const struct figure_kind kinds[] = {
    {"set-up", "The set-up seen whole", 214, .draw = draw_set_up,
     .description =
         "Two views. From the front: the headstock with the spindle's axis lying level, the "
         "drum on the spindle nose, the cord hanging from it straight down at a right angle "
         "to the axis, and the gauge at its end, pulled downward. From the nose end: the cord "
         "leaves the round drum along a tangent, and the pull turns drum and spindle."},
    {"drum-section", "Section through drum and cord", 176, .draw = draw_drum_section},
    {"winding", "Winding the cord, right and wrong", 180, .draw = draw_winding,
     .caption =
         "Seen from the front, the drum between its flanges. Only the first winding gives the "
         "drag that you work out. Not to scale.",
     .description =
         "Three drums seen from the side. Right: six turns beside each other in one layer, "
         "the cord leaving at a right angle to the spindle. Wrong: a turn that has climbed "
         "onto the others and lies on a larger radius. Wrong: the cord leaving at an angle to "
         "the plane square to the spindle."},
    {"force-time", "The reading of one pull against time", 162, .draw = draw_force_time,
     .caption =
         "A sketch, not data: one pull from rest. The breakaway stands higher than the steady "
         "pull; the wave of a drum that is a little out of true comes once a turn.",
     .description =
         "A curve of the reading over time. It climbs to a peak, the breakaway, falls, "
         "settles, then waves a little about a level, the steady pull, over two whole turns, "
         "which are hatched as the part to read, and falls to nothing as the spindle slows "
         "down."},
    {"window-line", "The pull window and the five states", 160, .draw = draw_window_line,
     .of_limits = true},
    {"speed-bands", "Drag limits by speed band", 176, .draw = draw_speed_bands,
     .of_limits = true},
    {"bearings", "Opposed taper roller bearings in both arrangements", 250,
     .draw = draw_bearings,
     .caption =
         "Upper halves in section, simplified. The force of the preload goes round in a ring: "
         "through one bearing, along the headstock, through the other, and back along the "
         "spindle. Which arrangement a lathe has, its manual says.",
     .description =
         "Two sections above the spindle's axis. Back to back: the rollers' large ends look "
         "outward, a nut on the spindle presses the rear cone; the force runs through rollers "
         "and cup, the headstock's shoulder, the front bearing, a collar of the spindle and "
         "back in the spindle. Face to face: the large ends look inward, a threaded ring in "
         "the headstock presses the rear cup; the force runs through the bearing, the "
         "spindle, the front bearing and back in the headstock. A lock keeps nut or ring from "
         "turning."},
    {"release-peg", "The cord's end on its peg", 192, .draw = draw_release_peg,
     .caption =
         "Seen from the nose end. The loop lies over a smooth peg from which it falls by "
         "itself. It is never tied.",
     .description =
         "Three drums seen from the end. First: a loop lies over a peg that stands out from "
         "the rim, the cord runs round the drum and is pulled down. Second: the peg points "
         "along the pull and the loop has slipped off. Third, wrong: the cord is tied; the "
         "drum runs on and winds the cord up on the other side, lifting what hangs on it."},
    {"drum-error", "Doubt of the drag against the drum's size", 178, .draw = draw_drum_error,
     .of_limits = true},
    {"drum-drawing", "A drum to make", 420, .draw = draw_drum_drawing},
    {"nut-rim", "What a turn is at the nut's rim", 106, .draw = draw_nut_rim},
    {"gauge-residuals", "Known weights against the line through them", 176,
     .draw = draw_gauge_residuals},
    {"nut-drag", "The drag at each place of the nut", 186, .draw = draw_nut_drag},
    {"years", "The drag over the years", 166, .draw = draw_years_of_drag},
    {"where-to-feel", "Where to measure the temperature", 164, .draw = draw_where_to_feel,
     .caption =
         "The headstock from the front, not to scale. Use a thermometer, and the same marked "
         "spot each time.",
     .description =
         "A headstock with its spindle. Place 1 is on the front cap over the front bearing, "
         "where the temperature is read. Place 2 is on the rear cap. Place 3 is the air of "
         "the room, in the shade. The belt and its pulley at the rear are no place to "
         "measure."},
    {"run-in-good-bad", "The cap's temperature while running in", 162, .draw = draw_run_in,
     .caption =
         "A sketch, not data. Left: each stage of speed ends when the temperature has "
         "settled. Right: it does not settle, and goes on ever faster: stop before the line "
         "is reached. Where the settings do not say otherwise, 60 °C is practice; 20 and 35 "
         "°C over the room are from source 7, for precision spindles.",
     .description =
         "Two curves of temperature over time with lines for the room, for looking closer at "
         "20 degrees above the room and for stopping. Good: in four steps, each settling, "
         "below the line for looking closer. Bad: the curve bends upward and crosses the line "
         "for stopping."},
    {"decision", "The whole job on one page", 425, .draw = draw_decision,
     .caption = "The whole job. Boxes with cut corners ask; the others say what to do.",
     .description =
         "A flow from top to bottom. Does the manual give a drag of a known kind? If not: "
         "trend only. Lock off and prove dead. Does the spindle turn freely? If not: find the "
         "fault. Mark the nut and write down what was found. Check the gauge with known "
         "weights, wind one layer and take five pulls each way. Do they scatter no "
         "more than yours do, or than two steps of the gauge? If not: throw them "
         "away, look for the cause and measure again. What does the mean say? In doubt: more "
         "pulls or a surer gauge. Low: free the lock, tighten by one or two degrees, ten "
         "turns each way, lock, measure again. High: free the lock, unload until there is end "
         "play, come again from the loose side, lock, measure again. Good and locked: verify "
         "by push and pull, lift test and run-out. Cord, drum, spanner and indicator off and "
         "counted, guards on, then power. Run in by stages. If the cap does not settle: stop, "
         "let it cool, lock off, unload, measure again. Else measure warm, then cold, and "
         "write it down."},
};

enum { KIND_TOTAL = sizeof kinds / sizeof kinds[0], BLANK_HEIGHT = 40 };

const struct figure_kind *figures_at(size_t index)
{
    return index < KIND_TOTAL ? &kinds[index] : NULL;
}

const struct figure_kind *figures_find(const char *name, const struct figure_ask *ask)
{
    struct buffer known = {0};
    for (size_t i = 0; i < KIND_TOTAL; i++) {
        if (strcmp(kinds[i].name, name) == 0) {
            buffer_free(&known);
            return &kinds[i];
        }
        buffer_print(&known, "%s%s", i ? ", " : "", kinds[i].name);
    }
    fault(ask->diags, ask->at, "there is no figure '%s'; the figures are %s", name,
          known.bytes);
    buffer_free(&known);
    return NULL;
}

struct figure *figures_make(const char *name, const struct figure_ask *ask)
{
    const struct figure_kind *kind = figures_find(name, ask);
    if (!kind)
        return NULL;
    bool blank = kind->of_limits && !shop_has_limits(ask->results->shop);
    struct canvas canvas =
        canvas_new(ask->arena, ask->meter, blank ? BLANK_HEIGHT : kind->height);
    struct figure *figure = canvas.figure;
    figure->name = kind->name;
    figure->title = kind->title;
    figure->caption = kind->caption;
    figure->description = kind->description;
    figure->at = ask->at;
    if (blank) { /* the words for it where the limits would be drawn */
        canvas_text(&canvas, FIGURE_WIDTH / 2, BLANK_HEIGHT / 2.0 + 3, ALIGN_MIDDLE,
                    NO_LIMIT_ON_FILE);
        figure->caption = "Nothing is drawn without a maker's limits.";
        figure->description = "A blank with the words: " NO_LIMIT_ON_FILE ".";
    } else if (!ask->unseen) {
        kind->draw(ask->results, &canvas);
    }
    return figure;
}
