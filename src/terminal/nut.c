/* spindlebook nut: how far to turn the nut next, from two places and drags. */
#include "terminal/terminal.h"

#include "terminal/words.h"
#include "verdict/nut_place.h"
#include "verdict/told_parts.h"

#include <stdio.h>

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

/* ---- by the log ---- */

/* What may be turned by, and where it stands if the nut may not be turned by it. */
struct by_log {
    const struct pull_series *last, *before; /* before: NULL where there is no second place */
    struct judgement judgement;              /* of the last */
};

/* The series that may steer the nut; where there is none, the last of the log. */
static bool find_last(const struct question *question, struct diags *diags,
                      struct by_log *by_log)
{
    const struct pull_series_log *log = &question->shop->readings;
    by_log->last = nut_last_steering(question->shop);
    by_log->before = by_log->last ? nut_place_before(question->shop, by_log->last) : NULL;
    if (!by_log->last && log->count)
        by_log->last = &log->items[log->count - 1];
    if (!by_log->last)
        fault(diags, (struct place){.file = "nut"},
              "the log is empty; write two places of the nut and their drags behind the verb, "
              "the older first, as in 0deg 0.31N.m 3deg 0.42N.m");
    return by_log->last;
}

static bool lock_alone_is_said(const struct question *question, struct diags *diags)
{
    if (!question->warmth && !question->direction)
        return true;
    fault(diags, (struct place){.file = question->warmth ? "--warmth" : "--direction"},
          "the log says it of every series; mend its row, or write two places of the nut and "
          "their drags behind the verb");
    return false;
}

static bool may_be_tightened(const struct judgement *judgement)
{
    return judgement->state != STATE_GOOD && judgement->state != STATE_BACKED_OFF &&
           judgement->state != STATE_UNLOADED && judgement->side != STATE_CLEARLY_HIGH &&
           !judgement->over_never;
}

static void tell_no_second_place(const struct teller *teller)
{
    char text[240];
    snprintf(
        text, sizeof text,
        "how far to turn is not known: since the nut was last unloaded, the log holds no "
        "two places of it, at most %g degrees apart, that were taken alike. Where it is to "
        "be tightened: by 1 to 2 degrees, then measure",
        NUT_FAR_APART);
    tell(teller, "note", "Note", text, "");
}

/* What the log holds beside it. */
static void tell_rest(const struct teller *teller, const struct shop *shop,
                      const struct by_log *by_log)
{
    const struct pull_series *end = shop->readings.items + shop->readings.count;
    if (by_log->last + 1 < end)
        tell(teller, "note", "Note",
             "later rows of the log are left out: warm where the limits are for cold, or cold "
             "where for warm; turned the other way; or without the nut's place",
             "");
    if (!by_log->before && may_be_tightened(&by_log->judgement))
        tell_no_second_place(teller);
}

static bool answer_by_log(const struct question *question, struct diags *diags,
                          const struct band *band, double lock_added,
                          const struct teller *teller)
{
    struct by_log by_log;
    const struct shop *shop = question->shop;
    if (!find_last(question, diags, &by_log))
        return false;
    struct taken taken = series_taken(by_log.last);
    if (!lock_alone_is_said(question, diags) || !words_taken(question, diags, &taken))
        return false;
    by_log.judgement = judge_series_as(shop, band, &taken, by_log.last);
    if (by_log.before && state_turns_nut(by_log.judgement.state)) {
        const struct nut_point points[2] = {nut_point_of_series(shop, by_log.before),
                                            nut_point_of_series(shop, by_log.last)};
        tell_nut(teller, shop, band, points, &taken, lock_added);
    } else {
        tell_state(teller, shop, "The last in the log", &by_log.judgement, lock_added);
    }
    tell_rest(teller, shop, &by_log);
    return true;
}

bool terminal_nut(const struct question *question, struct diags *diags, struct answer *answer)
{
    struct nut_point points[2];
    const struct band *band;
    double lock_added;
    struct taken taken = {LOCK_UNSAID, SAID_NOTHING, false};
    struct teller teller = answer_teller(answer);
    bool band_known = words_band(question, diags, &band);
    bool lock_known = words_lock_added(question, diags, &lock_added);
    if (!question->word_count)
        return band_known && lock_known &&
               answer_by_log(question, diags, band, lock_added, &teller);
    bool taken_known = words_taken(question, diags, &taken);
    bool known = read_points(question, diags, points);
    if (!band_known || !lock_known || !taken_known || !known)
        return false;
    tell_nut(&teller, question->shop, band, points, &taken, lock_added);
    return true;
}
