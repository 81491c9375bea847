#include "verdict/fit.h"

#include "verdict/sure.h"

#include <stdio.h>

static const struct {
    double from;
    const char *word, *words;
} fits[] = {
    [FIT_BEYOND] = {0, BEYOND_THE_GAUGE, NULL}, /* its words have numbers in them */
    [FIT_NONE] = {0, "cannot decide",
                  "none: this gauge and drum cannot decide; check the gauge with weights, take "
                  "a finer gauge or a smaller drum"},
    [FIT_BARELY] = {1, "barely", "barely: most of the window is in doubt"},
    [FIT_USABLE] = {2, "usable", "usable: keep to the good part of the window"},
    [FIT_SURE] = {4, "sure", "sure: U is a small part of the window"},
};

enum fit fit_of(double ratio)
{
    enum fit fit = FIT_SURE;
    while (fit > FIT_NONE && !(ratio >= fits[fit].from))
        fit--;
    return fit;
}

const char *fit_word(enum fit fit)
{
    return fits[fit].word;
}

void fitness_words(const struct shop *shop, const struct fitness *fitness,
                   char text[MOST_PULL_TEXT])
{
    if (fitness->fit == FIT_BEYOND)
        most_pull_words(shop, &fitness->most, text);
    else
        snprintf(text, MOST_PULL_TEXT, "%s", fits[fitness->fit].words);
}

struct fitness fitness_on(const struct shop *shop, const struct band *band,
                          const struct quantity *drum)
{
    struct rig rig = shop_rig(shop);
    rig.drum = drum;
    struct pull_window window = pull_window_on(shop, band, drum, rig.cord);
    struct fitness fitness = {.most = most_pull_of(shop, &window)};
    double half = (band->high.q.base - band->low.q.base) / 2;
    fitness.ratio = half / sure_of_pull(shop, &rig, window.aim, NULL, NULL).expanded;
    fitness.fit = fitness.most.beyond ? FIT_BEYOND : fit_of(fitness.ratio);
    return fitness;
}
