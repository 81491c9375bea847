#include "verdict/most_pull.h"

#include "number/show.h"
#include "verdict/drum_make.h"

#include <stdio.h>

/* What doubles may round: a pull that is just the capacity is not beyond it. */
static const double rounding = 1e-12;

struct most_pull most_pull_of(const struct shop *shop, const struct pull_window *window)
{
    bool logged;
    struct most_pull most = {.force = window->high * breakaway_ratio(shop, &logged)};
    if (window->never > most.force) { /* not where it is NAN */
        most.force = window->never;
        most.never = true;
    }
    double capacity = shop->gauge.capacity.q.base * (1 + rounding);
    most.beyond = !(most.force <= capacity);
    return most;
}

void most_pull_words(const struct shop *shop, const struct most_pull *most,
                     char text[MOST_PULL_TEXT])
{
    const struct quantity *step = &shop->gauge.step.q, *capacity = &shop->gauge.capacity.q;
    snprintf(
        text, MOST_PULL_TEXT,
        BEYOND_THE_GAUGE ", which ends at %s %s: %s %s %s; take a larger drum or a larger "
                         "gauge",
        capacity->digits, capacity->unit->shown,
        most->never ? "never-exceed is a pull of" : "the breakaway at the high limit may be",
        show_up(unit_from_base(most->force, step->unit), decimal_places(&step->typed)).text,
        step->unit->shown);
}
