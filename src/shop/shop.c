#include "shop/shop.h"

#include <stdio.h>
#include <string.h>

/* Of two bands that share a speed, does the first leave less room above? */
static bool stricter(const struct band *a, const struct band *b)
{
    int high = decimal_compare(&a->high.q.exact, &b->high.q.exact);
    return high ? high < 0 : decimal_compare(&a->low.q.exact, &b->low.q.exact) > 0;
}

const struct band *shop_band_at(const struct shop *shop, double speed)
{
    const struct band *found = NULL;
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        const struct band *band = &shop->limits.bands[i];
        bool within = band->from.q.base <= speed && speed <= band->to.q.base;
        if (within && (!found || stricter(band, found)))
            found = band;
    }
    return found;
}

const struct band *shop_own_band(const struct shop *shop)
{
    return shop_band_at(shop, shop->lathe.top_speed.q.base);
}

bool shop_drum_fitted(const struct shop *shop, const struct quantity *drum)
{
    return decimal_compare(&drum->exact, &shop->drum.diameter.q.exact) == 0;
}

size_t shop_drums(const struct shop *shop, const struct quantity *drums[MOST_DRUMS])
{
    const struct quantity *own = &shop->drum.diameter.q;
    size_t count = 0;
    bool placed = false;
    for (size_t i = 0; i < shop->drum_sizes.count; i++) {
        const struct quantity *size = &shop->drum_sizes.items[i].q;
        int order = decimal_compare(&size->exact, &own->exact);
        if (order > 0 && !placed)
            drums[count++] = own;
        placed = placed || order >= 0;
        drums[count++] = size;
    }
    if (!placed)
        drums[count++] = own;
    return count;
}

bool series_alike_but_lock(const struct pull_series *a, const struct pull_series *b)
{
    return a->warm == b->warm && a->other_way == b->other_way &&
           decimal_compare(&a->drum.exact, &b->drum.exact) == 0 &&
           decimal_compare(&a->cord.exact, &b->cord.exact) == 0;
}

bool series_alike(const struct pull_series *a, const struct pull_series *b)
{
    return a->lock == b->lock && series_alike_but_lock(a, b);
}

bool series_nut_moved(const struct pull_series *a, const struct pull_series *b)
{
    if ((a->lock == LOCK_UNLOADED) != (b->lock == LOCK_UNLOADED))
        return true;
    return a->nut.unit && b->nut.unit && decimal_compare(&a->nut.exact, &b->nut.exact) != 0;
}

bool shop_has_limits(const struct shop *shop)
{
    return shop->limits.on_file == ON_FILE_YES;
}

const struct unit *shop_drag_unit(const struct shop *shop)
{
    const struct band *own = shop_own_band(shop);
    if (own)
        return own->high.q.unit;
    bool imperial = shop->gauge.step.q.unit->system == SYSTEM_IMPERIAL;
    return imperial ? unit_find("lbf.in", 6) : unit_find("N.m", 3);
}

const struct weighing *shop_last_weighing(const struct shop *shop)
{
    const struct weighing *last = NULL, *items = shop->weighings.items;
    for (size_t i = 0; i < shop->weighings.count; i++)
        if (!last || strcmp(items[i].date, last->date) >= 0)
            last = &items[i];
    return last;
}

double shop_paper_thickness(const struct shop *shop)
{
    const struct measure *thickness = &shop->paper.thickness;
    return given(thickness) ? thickness->q.base : PAPER_THICKNESS;
}

size_t shop_gathering(const struct shop *shop)
{
    return (size_t)(shop->paper.gathering ? shop->paper.gathering : PAPER_GATHERING);
}

double shop_reading_distance(const struct shop *shop)
{
    const struct measure *distance = &shop->paper.reading_distance;
    return given(distance) ? distance->q.base : READING_DISTANCE;
}

static struct decimal exact_or(const struct measure *measure, int otherwise)
{
    return given(measure) ? measure->q.exact : decimal_of(otherwise, 0);
}

struct decimal shop_room(const struct shop *shop)
{
    return exact_or(&shop->run_in.room, RUN_IN_ROOM);
}

struct decimal shop_stop(const struct shop *shop)
{
    return exact_or(&shop->run_in.stop, RUN_IN_STOP);
}

struct decimal shop_rise(const struct shop *shop)
{
    return exact_or(&shop->run_in.rise, RUN_IN_RISE);
}

const char *shop_torque_word(const struct shop *shop)
{
    return shop->limits.torque == TORQUE_RUNNING ? "running" : "starting";
}

const char *shop_basis_word(const struct shop *shop)
{
    return shop->limits.basis == BASIS_ABSOLUTE ? "whole drag" : "increase over the slack drag";
}

const char *shop_bearings_word(const struct shop *shop)
{
    return shop->limits.bearings == BEARINGS_NEW ? "new bearings" : "used bearings";
}

const char *shop_warmth_word(const struct shop *shop)
{
    return shop->limits.warmth == WARMTH_COLD ? "cold" : "warm";
}

const char *series_lock_word(enum lock lock)
{
    static const char *const words[] = {[LOCK_UNSAID] = "not said",
                                        [LOCK_BEFORE] = "before lock",
                                        [LOCK_AFTER] = "locked",
                                        [LOCK_UNLOADED] = "unloaded"};
    return words[lock];
}

void shop_limit_kind(const struct shop *shop, char text[LIMIT_KIND_TEXT])
{
    snprintf(text, LIMIT_KIND_TEXT, "%s drag, %s, %s, %s", shop_torque_word(shop),
             shop_basis_word(shop), shop_bearings_word(shop), shop_warmth_word(shop));
}

bool shop_in_fahrenheit(const struct shop *shop)
{
    const struct measure *room = &shop->run_in.room;
    return given(room) && room->q.unit->system == SYSTEM_IMPERIAL;
}
