/* spindlebook nut: how far to turn the nut next, from two places and drags. */
#include "terminal/terminal.h"

#include "drag/nut.h"
#include "terminal/words.h"
#include "verdict/window.h"

static bool read_points(const struct question *question, struct diags *diags,
                        struct nut_point points[2])
{
    size_t at = 0;
    for (int i = 0; i < 2; i++) {
        struct quantity angle, drag;
        if (at + 2 > question->word_count) {
            fault(diags, (struct place){.file = "nut"},
                  "two places of the nut with their drags are needed, the older first; write "
                  "them "
                  "as in 0deg 0.31N.m 3deg 0.42N.m");
            return false;
        }
        if (!words_quantity(question, &at, KIND_ANGLE, diags, &angle))
            return false;
        if (at == question->word_count ||
            !words_quantity(question, &at, KIND_TORQUE, diags, &drag)) {
            if (at == question->word_count && !diags_count(diags))
                fault(diags, (struct place){.file = question->words[at - 1]},
                      "a drag belongs behind the nut's angle; write it as in 3deg 0.42N.m");
            return false;
        }
        points[i] = (struct nut_point){angle.base, drag.base};
    }
    if (at < question->word_count)
        fault(diags, (struct place){.file = question->words[at]},
              "this is one word too many; two places with their drags are enough");
    return at == question->word_count;
}

static double pitch_of(const struct nut *nut)
{
    if (given(&nut->pitch))
        return nut->pitch.q.base;
    return given(&nut->threads) ? nut_pitch_of_threads(nut->threads.q.base) : 0;
}

static void answer_turn(struct answer *answer, const struct shop *shop, double angle)
{
    double pitch = pitch_of(&shop->nut);
    answer_decimal(answer, "turn", "Tighten by", angle, 1, "°");
    if (given(&shop->nut.outside_diameter))
        answer_decimal(answer, "rim", "at the nut's rim",
                       1000 * nut_rim(shop->nut.outside_diameter.q.base, angle), 1, "mm");
    if (pitch > 0)
        answer_decimal(answer, "travel", "axial travel", 1e6 * nut_travel(pitch, angle), 1,
                       "µm");
}

static const char *advice_words(const struct nut_move *move)
{
    switch (move->advice) {
    case NUT_GOOD:
        return "the drag is at the aim: lock, and measure again after locking";
    case NUT_UNLOAD:
        return "the drag is over the aim: unload until there is end play and start again from "
               "the "
               "loose side; never stop on a backing-off";
    case NUT_NO_SLOPE:
        return "the drag did not rise with the nut: turn the spindle ten times each way, tap, "
               "and "
               "measure both places again";
    default:
        return move->capped ? "turn no further than twice the last move, then measure again"
                            : "turn, ten turns of the spindle each way, lock, measure again";
    }
}

/* Within a tenth of the window of its middle counts as there. */
bool terminal_nut(const struct question *question, struct diags *diags, struct answer *answer)
{
    struct nut_point points[2];
    const struct band *band = words_band(question, diags);
    if (!read_points(question, diags, points) || !band)
        return false;
    struct decimal low = pulled_limit(question->shop, &band->low);
    struct decimal high = pulled_limit(question->shop, &band->high);
    double least = decimal_to_double(&low), most = decimal_to_double(&high);
    double aim = least + (most - least) / 2;
    struct nut_move move = nut_next(points[0], points[1], aim, (most - least) / 10);
    const struct unit *unit = band->high.q.unit;
    answer_add(answer, "aim", "Aim", show_significant(unit_from_base(aim, unit), 3).text,
               unit->shown);
    if (move.advice == NUT_TURN)
        answer_turn(answer, question->shop, move.angle);
    answer_add(answer, "next", "Next", advice_words(&move), "");
    return true;
}
