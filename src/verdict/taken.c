#include "verdict/taken.h"

#include <stdio.h>
#include <string.h>

struct taken series_taken(const struct pull_series *series)
{
    return (struct taken){.lock = series->lock,
                          .warmth = series->warm ? SAID_WARM : SAID_COLD,
                          .other_way = series->other_way};
}

/* ---- what is typed ---- */

/* The place of the text in a list of two or three, from 1 on; 0 where it is empty, below where
 * it is none of them. */
static int choose(const char *text, const char *const words[3], const char *what,
                  struct quantity_fault *fault)
{
    if (!text[0])
        return 0;
    for (int i = 0; i < 3 && words[i]; i++)
        if (strcmp(text, words[i]) == 0)
            return i + 1;
    fault->offset = 0;
    snprintf(fault->message, sizeof fault->message,
             "'%.40s' cannot stand here; write %s%s%s or %s: %s", text, words[0],
             words[2] ? ", " : "", words[2] ? words[1] : "", words[2] ? words[2] : words[1],
             what);
    return -1;
}

bool taken_lock_read(const char *text, struct taken *taken, struct quantity_fault *fault)
{
    static const char *const words[3] = {"before", "after", "unloaded"};
    static const enum lock locks[] = {LOCK_UNSAID, LOCK_BEFORE, LOCK_AFTER, LOCK_UNLOADED};
    int chosen = choose(text, words, "how the nut stood when pulled", fault);
    taken->lock = locks[chosen > 0 ? chosen : 0];
    return chosen >= 0;
}

bool taken_warmth_read(const char *text, struct taken *taken, struct quantity_fault *fault)
{
    static const char *const words[3] = {"cold", "warm"};
    int chosen = choose(text, words, "how the spindle was when pulled", fault);
    taken->warmth = chosen == 1 ? SAID_COLD : chosen == 2 ? SAID_WARM : SAID_NOTHING;
    return chosen >= 0;
}

bool taken_direction_read(const char *text, struct taken *taken, struct quantity_fault *fault)
{
    static const char *const words[3] = {"usual", "other"};
    int chosen = choose(text, words, "which way round the spindle was turned", fault);
    taken->other_way = chosen == 2;
    return chosen >= 0;
}

/* ---- what the limits are for ---- */

static bool of_other_warmth(const struct shop *shop, const struct taken *taken)
{
    return taken->warmth == (shop->limits.warmth == WARMTH_WARM ? SAID_COLD : SAID_WARM);
}

bool taken_as_limits(const struct shop *shop, const struct taken *taken)
{
    return !taken->other_way && taken->lock != LOCK_UNLOADED && !of_other_warmth(shop, taken);
}

bool taken_to_judge(const struct shop *shop, const struct taken *taken)
{
    return taken_as_limits(shop, taken) && taken->lock == LOCK_AFTER;
}

enum state state_as_taken(const struct shop *shop, const struct taken *taken, enum state side)
{
    if (side == STATE_REJECTED || side == STATE_NO_PULL || side == STATE_NO_LIMIT)
        return side;
    if (of_other_warmth(shop, taken))
        return taken->warmth == SAID_WARM ? STATE_FOR_COLD : STATE_FOR_WARM;
    if (taken->other_way)
        return STATE_OTHER_WAY;
    if (taken->lock == LOCK_UNLOADED)
        return STATE_UNLOADED;
    if (taken->lock == LOCK_AFTER)
        return side;
    return taken->lock == LOCK_BEFORE ? STATE_NOT_LOCKED : STATE_LOCK_UNSAID;
}
