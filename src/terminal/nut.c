/* spindlebook nut: how far to turn the nut next, from two places and drags. */
#include "terminal/terminal.h"

#include "terminal/words.h"
#include "verdict/nut_place.h"

#include <math.h>

static bool read_points(const struct question *question, struct diags *diags,
                        struct nut_point points[2])
{
    size_t at = 0;
    for (int i = 0; i < 2; i++) {
        struct quantity angle, drag;
        if (at + 2 > question->word_count) {
            fault(diags, (struct place){.file = "nut"},
                  "two places of the nut with their drags are needed, the older first; write "
                  "them as in 0deg 0.31N.m 3deg 0.42N.m");
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
        points[i] = nut_point_of_drag(question->shop, angle.base, drag.base);
    }
    if (at < question->word_count)
        fault(diags, (struct place){.file = question->words[at]},
              "this is one word too many; two places with their drags are enough");
    struct quantity_fault wrong;
    if (!nut_points_allowed(points, &wrong))
        fault(diags, (struct place){.file = "nut"}, "%s", wrong.message);
    return diags_count(diags) == 0;
}

static bool points_of_log(const struct shop *shop, const struct pull_series *last,
                          struct diags *diags, struct nut_point points[2])
{
    const struct pull_series *before = last ? nut_place_before(shop, last) : NULL;
    if (!before) {
        fault(diags, (struct place){.file = "nut"},
              "since the nut was last unloaded, the log holds no two places of it, at most "
              "90 degrees apart, that were taken alike; write them behind the verb, the older "
              "first, as in 0deg 0.31N.m 3deg 0.42N.m");
        return false;
    }
    points[0] = nut_point_of_series(shop, before);
    points[1] = nut_point_of_series(shop, last);
    return true;
}

/* What is good, and stays so, is left alone. */
static void tell_good(struct answer *answer)
{
    answer_add(
        answer, "state", "The last in the log",
        arena_format(answer->arena, "%s %s", state_shape(STATE_GOOD), state_words(STATE_GOOD)),
        "");
    answer_add(answer, "next", "Next", state_next(STATE_GOOD), "");
}

bool terminal_nut(const struct question *question, struct diags *diags, struct answer *answer)
{
    struct nut_point points[2];
    const struct band *band;
    struct lock_told lock;
    const struct shop *shop = question->shop;
    const struct pull_series *last = question->word_count ? NULL : nut_last_place(shop);
    struct teller teller = answer_teller(answer);
    bool band_known = words_band(question, diags, &band);
    bool lock_known = words_lock(question, diags, &lock);
    if (last && !question->lock)
        lock.lock = last->lock;
    bool good = last && band_known &&
                nut_stays_good(shop, band, last, lock.lock != LOCK_AFTER ? lock.added : NAN);
    bool known = good || (question->word_count ? read_points(question, diags, points)
                                               : points_of_log(shop, last, diags, points));
    if (!band_known || !lock_known || !known)
        return false;
    if (good)
        tell_good(answer);
    else
        tell_nut(&teller, shop, band, points, &lock);
    return true;
}
