/* What is said of the next move of the nut. */
#include "verdict/nut_place.h"
#include "verdict/nut_way.h"
#include "verdict/taken.h"
#include "verdict/told_lock.h"
#include "verdict/told_parts.h"
#include "verdict/unloaded.h"
#include "verdict/window.h"

#include <math.h>
#include <stdio.h>

static void tell_way(const struct teller *teller, const char *name, const char *label,
                     const struct nut_way *way, int more)
{
    if (isfinite(way->value))
        tell(teller, name, label, show_way(way, more).text, way->unit);
}

/* A move is small: of an inch the hundredth of a thousandth is told, and micrometres too. */
static void tell_turn(const struct teller *teller, const struct nut *nut, double angle)
{
    struct nut_way rim = nut_rim_way(nut, angle), travel = nut_travel_way(nut, angle);
    struct nut_way other = nut_travel_other(nut, angle);
    tell_number(teller, "turn", "Tighten by", angle, 1, "°");
    tell_way(teller, "rim", "at the nut's rim", &rim, 0);
    tell_way(teller, "travel", "axial travel", &travel, travel.inches ? 1 : 0);
    if (travel.inches)
        tell_way(teller, "travel-metric", "which is", &other, 0);
}

static const char *turn_words(bool capped, bool locked)
{
    if (locked)
        return capped
                   ? "free the lock first; turn no further at once, whatever the line through "
                     "the two places says; lock, then measure again"
                   : "free the lock first, turn, ten turns of the spindle each way, lock, "
                     "measure again";
    return capped ? "turn no further at once, whatever the line through the two places says; "
                    "then measure again"
                  : "turn, ten turns of the spindle each way, lock, measure again";
}

/* locked: both drags were. */
static const char *advice_words(const struct nut_move *move, bool locked)
{
    switch (move->advice) {
    case NUT_GOOD:
        return locked ? "the drag is at the aim: leave the nut alone and write it down"
                      : "the drag is at the aim: lock, and measure again after locking";
    case NUT_UNLOAD:
        return "the drag is over the aim: " UNLOAD_BY_A_PUSH
               "; then start again from the loose side; never stop on a backing-off";
    case NUT_BACKED:
        return "the newer place is the looser, and a nut turned back does not unload the "
               "bearings: " UNLOAD_BY_A_PUSH "; then start again from the loose side";
    case NUT_NO_SLOPE:
        return "the drag did not rise with the nut by more than its doubt: turn the spindle "
               "ten times each way, and measure both places again";
    default:
        return turn_words(move->capped, locked);
    }
}

static bool over_never(const struct shop *shop, const struct nut_point *point)
{
    return given(&shop->limits.never_exceed) &&
           point->drag + point->expanded + point->bias >
               pulled_limit_near(shop, &shop->limits.never_exceed);
}

/* And what the nut is to reach before it is locked. */
static void tell_aim(const struct teller *teller, const struct shop *shop,
                     const struct band *band, double lock_added)
{
    const struct unit *unit = band->high.q.unit;
    double aim = nut_aim(shop, band), wanted = nut_aim_before_lock(shop, band, lock_added);
    tell(teller, "aim", "Aim", show_significant(unit_from_base(aim, unit), 3).text,
         unit->shown);
    if (isnan(lock_added))
        return;
    tell_lock_added(teller, unit, lock_added);
    tell(teller, "aim-before-lock", "Aim before locking",
         show_significant(unit_from_base(wanted, unit), 3).text, unit->shown);
}

/* Without an aim there is no move to give, only what a degree did. */
static void tell_slope(const struct teller *teller, const struct shop *shop,
                       const struct nut_point points[2])
{
    const struct unit *unit = shop_drag_unit(shop);
    double turn = points[1].angle - points[0].angle;
    double rise = unit_from_base(points[1].drag - points[0].drag, unit);
    tell(teller, "aim", "Aim", NO_LIMIT_ON_FILE, "");
    if (turn > 0) {
        char per_degree[80];
        snprintf(per_degree, sizeof per_degree, "%s/°", unit->shown);
        tell(teller, "slope", "More for a degree", show_significant(rise / turn, 2).text,
             per_degree);
    }
    tell(teller, "next", "Next",
         "set the nut by end play and temperature, as the page \"The manual is lost\" says: "
         "no drag is known to be right",
         "");
}

/* Drags that the limits are not for move no nut. */
static void tell_not_judged(const struct teller *teller, const struct shop *shop,
                            const struct nut_point points[2], const struct taken *taken)
{
    char text[STATE_TEXT];
    enum state state = state_as_taken(shop, taken, STATE_GOOD);
    state_text(state, text);
    tell(teller, "state", "State", text, "");
    if (over_never(shop, &points[1]))
        tell_over_never(teller);
    tell(teller, "next", "Next",
         over_never(shop, &points[1]) ? next_when_high(taken->lock) : state_next(state), "");
}

void tell_nut(const struct teller *teller, const struct shop *shop, const struct band *band,
              const struct nut_point points[2], const struct taken *taken, double lock_added)
{
    bool to_come = taken->lock != LOCK_AFTER;
    if (!to_come)
        lock_added = NAN;
    if (!band) {
        tell_slope(teller, shop, points);
        return;
    }
    if (!taken_as_limits(shop, taken)) {
        tell_not_judged(teller, shop, points, taken);
        return;
    }
    struct nut_move move = nut_move_toward_aim(shop, band, points, lock_added);
    tell_aim(teller, shop, band, lock_added);
    if (over_never(shop, &points[1])) {
        tell_over_never(teller);
        tell(teller, "next", "Next", next_when_high(taken->lock), "");
        return;
    }
    if (move.advice == NUT_TURN)
        tell_turn(teller, &shop->nut, move.angle);
    tell(teller, "next", "Next", advice_words(&move, !to_come), "");
    if (to_come && isnan(lock_added))
        tell(teller, "note", "Note", "the lock's share is not taken off: aim lower", "");
}
