#include "verdict/told_lock.h"

#include "verdict/told_parts.h"
#include "verdict/unloaded.h"
#include "verdict/window.h"

#include <math.h>
#include <stdio.h>

/* A drag once locked is the sum and difference of three series of about one U each. */
static const double series_in_it = 3;

/* Judged as it is shown. */
struct expected expected_once_locked(const struct shop *shop, const struct judgement *judgement,
                                     double added)
{
    const struct unit *unit = judgement->unit;
    struct expected expected = {.drag = judgement->drag + fmax(added, 0)};
    expected.sureness = sureness_in(sqrt(series_in_it) * judgement->uncertainty.expanded, unit);
    int places = expected.sureness.places;
    double shown = unit_from_base(expected.drag, unit) * pow(10, places);
    struct decimal drag = decimal_of(llround(shown), -places), factor = unit_factor(unit);
    drag = decimal_multiply(&drag, &factor);
    struct decimal low = pulled_limit(shop, &judgement->band->low);
    struct decimal high = pulled_limit(shop, &judgement->band->high);
    expected.state = state_of(&drag, &low, &high, &expected.sureness.exact);
    return expected;
}

void tell_lock_added(const struct teller *teller, const struct unit *unit, double added)
{
    tell(teller, "lock-added", "Locking added",
         show_significant(unit_from_base(added, unit), 3).text, unit->shown);
    if (added < 0)
        tell(teller, "note", "Note",
             "a lock that eased the nut is not counted on: the aim stays where it is", "");
}

static void tell_expected(const struct teller *teller, const struct expected *expected,
                          const struct unit *unit)
{
    char state[STATE_TEXT], text[2 * STATE_TEXT];
    tell(teller, "expected-drag", "Expected once locked",
         show_places(unit_from_base(expected->drag, unit), expected->sureness.places).text,
         unit->shown);
    state_text(expected->state, state);
    snprintf(text, sizeof text, "%s: expected, not measured", state);
    tell(teller, "expected-state", "State then", text, "");
}

static const char *known_next(enum state state)
{
    switch (state) {
    case STATE_CLEARLY_LOW:
    case STATE_LOW_IN_DOUBT:
        return "Do not lock yet. Tighten by a small step from the loose side. Turn the spindle "
               "ten times each way, measure again before locking.";
    case STATE_GOOD:
        return "Lock, and measure again: only the drag of the locked nut is judged.";
    case STATE_HIGH_IN_DOUBT:
    case STATE_CLEARLY_HIGH:
        return "Do not lock: too much is to be expected. Instead " UNLOAD_BY_A_PUSH
               ". Then come again from the loose side to a lower drag.";
    default: /* both limits lie within the doubt */
        return state_next(state);
    }
}

static const char *unknown_next(enum state state)
{
    return state == STATE_GOOD
               ? "What the lock adds is not known: lock, and measure again. If it is then "
                 "too high, unload and aim lower."
               : known_next(state);
}

const char *tell_before_lock(const struct teller *teller, const struct shop *shop,
                             const struct judgement *judgement, double added)
{
    tell(teller, "lock", "Lock",
         "not locked yet, so no verdict: the limits hold for the locked nut, measured again",
         "");
    if (isnan(added)) {
        tell(teller, "lock-added", "Locking added", "not known", "");
        return unknown_next(judgement->side);
    }
    struct expected expected = expected_once_locked(shop, judgement, added);
    tell_lock_added(teller, judgement->unit, added);
    tell_expected(teller, &expected, judgement->unit);
    return known_next(expected.state);
}
