#include "book_card.h"

#include "base/source_date.h"
#include "drag/sight.h"
#include "number/show.h"
#include "shop/words.h"
#include "tree/points.h"
#include "values/known.h"
#include "verdict/gauge.h"
#include "verdict/gauge_source.h"
#include "verdict/guard.h"
#include "verdict/last_alike.h"
#include "verdict/radius.h"
#include "verdict/state.h"
#include "verdict/sure.h"
#include "verdict/window.h"

#include <math.h>

static const char *distance_words(struct book *book)
{
    const struct measure *distance = &book->shop.paper.reading_distance;
    if (!given(distance))
        return arena_format(book->arena, "%g\u00a0mm", READING_DISTANCE * 1000);
    return quantity_text(book->arena, &distance->q);
}

/* At which pulls a state stands in the lathe's own band, by the U of the usual pulls: "" where
 * no one number says it. */
static const char *state_pulls(struct book *book, const struct guarded_window *good,
                               enum state state)
{
    const struct decimal *step = &book->shop.gauge.step.q.typed;
    struct shown from = show_steps(good->low_steps, step),
                 to = show_steps(good->high_steps, step);
    switch (state) {
    case STATE_LOW_IN_DOUBT:
        return arena_format(book->arena, "below %s", from.text);
    case STATE_GOOD:
        return arena_format(book->arena, "%s to %s", from.text, to.text);
    case STATE_HIGH_IN_DOUBT:
        return arena_format(book->arena, "above %s", to.text);
    default:
        return "";
    }
}

/* "▼ clearly low", ...: the five in the order in which they lie about a window. None where no
 * pull is good: the table says so. */
static void add_key(struct book *book, struct card_ask *ask)
{
    static const enum state states[] = {STATE_CLEARLY_LOW, STATE_LOW_IN_DOUBT, STATE_GOOD,
                                        STATE_HIGH_IN_DOUBT, STATE_CLEARLY_HIGH};
    struct guarded_window good = guarded_window_own(&book->shop);
    struct state_cell *key = NULL;
    for (size_t i = 0; !good.closed && i < sizeof states / sizeof states[0]; i++)
        *ARENA_PUSH(book->arena, key, ask->key_count) =
            (struct state_cell){arena_format(book->arena, "%s\u00a0%s", state_shape(states[i]),
                                             state_words(states[i])),
                                state_pulls(book, &good, states[i])};
    ask->key = key;
}

static const char *rig_words(struct book *book)
{
    const struct shop *shop = &book->shop;
    const struct quantity *drum = &shop->drum.diameter.q, *cord = &shop->cord.diameter.q;
    return arena_format(
        book->arena, "%s (drum %s \u00b1 %s, cord %s \u00b1 %s)", radius_words(shop).text,
        quantity_text(book->arena, drum), quantity_text(book->arena, &shop->drum.tolerance.q),
        quantity_text(book->arena, cord), quantity_text(book->arena, &shop->cord.tolerance.q));
}

/* At the aim of the lathe's own band, in the gauge's unit; without limits at half of what
 * the gauge reads. */
static const char *gauge_words(struct book *book)
{
    const struct shop *shop = &book->shop;
    const struct unit *unit = shop->gauge.step.q.unit;
    const struct band *own = shop_own_band(shop);
    double pull = own ? pull_window_of(shop, own).aim : gauge_usual_pull(shop);
    double error = gauge_within_at(shop, pull);
    struct sureness shown = sureness_in(error, unit);
    return arena_format(book->arena,
                        "\u00b1\u00a0%s\u00a0%s at %s, from %s; readings are "
                        "not corrected",
                        show_up(unit_from_base(error, unit), shown.places).text, unit->shown,
                        own ? "the aim" : "half its capacity",
                        gauge_source_words(gauge_source_at(shop, pull)));
}

static void add_fact(struct book *book, struct card_ask *ask, struct fact **facts,
                     const char *name, const char *value)
{
    *ARENA_PUSH(book->arena, *facts, ask->fact_count) =
        (struct fact){.name = name, .value = value};
    ask->facts = *facts;
}

/* The settings' fingerprint stands at the foot. */
static const char *made_words(struct book *book)
{
    const char *day = source_date_day(book->arena);
    return day ? arena_format(book->arena, ". Made on %s", day) : "";
}

/* Words with values of the settings in them. */
static const char *with_values(struct book *book, const char *text)
{
    return known_fill(book->arena, book->diags, &book->shop, text, (struct place){0});
}

static void add_facts(struct book *book, struct card_ask *ask)
{
    struct fact *facts = NULL;
    add_fact(book, ask, &facts, "Effective radius:", rig_words(book));
    add_fact(book, ask, &facts, "Gauge error used:", gauge_words(book));
    const char *cap =
        arena_format(book->arena, "stop at {stop} in a room of {room}%s", made_words(book));
    if (shop_has_limits(&book->shop))
        add_fact(book, ask, &facts, "Good:",
                 with_values(book, arena_format(book->arena, "%s. Cap: %s",
                                                guarded_window_own(&book->shop).closed
                                                    ? state_words(STATE_UNDECIDED)
                                                    : "{good-from} to {good-to}",
                                                cap)));
    else {
        char last[LAST_ALIKE_TEXT];
        if (last_alike_words(&book->shop, NULL, last))
            add_fact(book, ask, &facts,
                     "Last, locked and cold:", arena_text(book->arena, last));
        add_fact(book, ask, &facts, "Cap:", with_values(book, cap));
    }
}

struct card_ask book_card_ask(struct book *book)
{
    const struct shop *shop = &book->shop;
    double distance = shop_reading_distance(shop);
    struct card_ask ask = {.least = points_of(sight_height(distance, SIGHT_LEAST)),
                           .preferred = points_of(sight_height(distance, SIGHT_PREFERRED)),
                           .distance = distance_words(book),
                           .distance_mm = distance * 1000,
                           .at = shop->paper.reading_distance.at};
    if (!given(&shop->paper.reading_distance))
        ask.at = (struct place){.file = book->card->file};
    if (given(&shop->paper.hole))
        ask.hole = points_of(shop->paper.hole.q.base);
    if (shop_has_limits(shop))
        add_key(book, &ask);
    add_facts(book, &ask);
    return ask;
}

/* Rounded down: nothing is called larger than it is. */
const char *book_card_note(struct book *book, double height)
{
    if (height == 0)
        return NULL;
    double metres = height / (1000 * MM);
    double minutes = sight_minutes(metres, shop_reading_distance(&book->shop));
    return arena_format(
        book->arena,
        "card: the smallest character of the windows is %.2f mm high, %.1f minutes "
        "of arc at %s (%d needed, %d better)",
        floor(metres * 100000) / 100, floor(minutes * 10) / 10, distance_words(book),
        SIGHT_LEAST, SIGHT_PREFERRED);
}
