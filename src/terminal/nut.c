/* spindlebook nut: how far to turn the nut next, from two places and drags. */
#include "terminal/terminal.h"

#include "terminal/words.h"

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

/* The last place of the nut in the log, and the one before it that was taken alike. */
static bool points_of_log(const struct shop *shop, struct diags *diags,
                          struct nut_point points[2])
{
    const struct pull_series *found[2] = {NULL, NULL};
    for (size_t i = shop->readings.count; i > 0 && !found[0]; i--) {
        const struct pull_series *series = &shop->readings.items[i - 1];
        if (!series->nut.unit)
            continue;
        if (!found[1])
            found[1] = series;
        else if (series_alike(series, found[1]))
            found[0] = series;
    }
    if (!found[0]) {
        fault(diags, (struct place){.file = "nut"},
              "the log holds no two places of the nut that were taken alike; write them behind "
              "the verb, the older first, as in 0deg 0.31N.m 3deg 0.42N.m");
        return false;
    }
    for (int i = 0; i < 2; i++)
        points[i] = (struct nut_point){found[i]->nut.base, judge_series(shop, found[i]).drag};
    return true;
}

bool terminal_nut(const struct question *question, struct diags *diags, struct answer *answer)
{
    struct nut_point points[2];
    const struct band *band = words_band(question, diags);
    struct teller teller = answer_teller(answer);
    bool known = question->word_count ? read_points(question, diags, points)
                                      : points_of_log(question->shop, diags, points);
    if (!known || !band)
        return false;
    tell_nut(&teller, question->shop, band, points);
    return true;
}
