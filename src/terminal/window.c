/* spindlebook window: what the gauge may read on this drum. */
#include "terminal/terminal.h"

#include "terminal/words.h"
#include "verdict/window.h"

#include <math.h>

static void answer_steps(struct answer *answer, const char *name, const char *label,
                         const struct shop *shop, int64_t steps)
{
    const struct quantity *step = &shop->gauge.step.q;
    answer_add(answer, name, label, show_steps(steps, &step->typed).text, step->unit->shown);
}

static void answer_rig(struct answer *answer, const struct shop *shop)
{
    const struct quantity *drum = &shop->drum.diameter.q, *cord = &shop->cord.diameter.q;
    double radius = unit_from_base(effective_radius(drum, cord), drum->unit);
    answer_add(answer, "drum", "Drum", drum->digits, drum->unit->shown);
    answer_add(answer, "cord", "Cord", cord->digits, cord->unit->shown);
    answer_add(answer, "radius", "Effective radius", show_significant(radius, 5).text,
               drum->unit->shown);
}

bool terminal_window(const struct question *question, struct diags *diags,
                     struct answer *answer)
{
    const struct shop *shop = question->shop;
    if (question->word_count) {
        fault(diags, (struct place){.file = question->words[0]},
              "window takes no words; give a drum with --drum and a speed with --speed");
        return false;
    }
    const struct band *band = words_band(question, diags);
    if (!band)
        return false;
    struct pull_window window =
        pull_window_on(shop, band, &shop->drum.diameter.q, &shop->cord.diameter.q);
    answer_rig(answer, shop);
    answer_band(answer, band);
    if (window.closed) {
        answer_add(
            answer, "window", "Window",
            "none: no step of this gauge lies between the limits; take a finer gauge or a "
            "smaller drum",
            "");
    } else {
        answer_steps(answer, "low", "Low pull", shop, window.low_steps);
        answer_steps(answer, "aim", "Aim", shop, window.aim_steps);
        answer_steps(answer, "high", "High pull", shop, window.high_steps);
    }
    if (!isnan(window.never))
        answer_steps(answer, "never-exceed", "Never exceed", shop, window.never_steps);
    return true;
}
