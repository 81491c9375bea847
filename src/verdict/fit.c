#include "verdict/fit.h"

#include "verdict/sure.h"

static const struct {
    double from;
    const char *word, *words;
} fits[] = {
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

const char *fit_words(enum fit fit)
{
    return fits[fit].words;
}

double fit_ratio(const struct shop *shop, const struct band *band, double pull)
{
    struct rig rig = shop_rig(shop);
    return (band->high.q.base - band->low.q.base) / 2 /
           sure_of_pull(shop, &rig, pull, NULL, NULL).expanded;
}
