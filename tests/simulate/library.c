/* The one place where the simulation meets the library: what a log would hold becomes a shop in
 * memory, and the library's own judgement of today's series a answer. */
#include "chain.h"
#include "judge/results.h"
#include "shop/fields.h"

#include <stdio.h>

enum { DAYS = 8192 };

static struct shop shop;
static struct band band;
static struct weighing weighings[CHAIN_WEIGHINGS];
static struct pull_series history[CHAIN_HISTORY + 1];
static struct quantity pulled[CHAIN_HISTORY + 1][CHAIN_PULLS];

/* ---- quantities without a text ---- */

/* Of thousandths or the like of a unit, exactly. */
static struct quantity quantity_of(int64_t count, int places, const char *symbol, size_t length)
{
    static const double tens[] = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7};
    struct quantity quantity = {.unit = unit_find(symbol, length),
                                .typed = decimal_of(count, -places)};
    quantity.exact = quantity.typed;
    quantity.base = (double)count / tens[places];
    return quantity;
}

static struct quantity force_of(double newtons)
{
    static const struct unit *unit;
    if (!unit)
        unit = unit_find("N", 1);
    int64_t count = llround(newtons * 1000);
    return (struct quantity){.unit = unit,
                             .typed = decimal_of(count, -3),
                             .exact = decimal_of(count, -3),
                             .base = (double)count / 1000};
}

static struct quantity torque_of(double newton_metres)
{
    return quantity_of(llround(newton_metres * 1e5), 5, "N.m", 3);
}

static struct quantity length_of(double metres)
{
    return quantity_of(llround(metres * 1e7), 7, "m", 1);
}

static struct quantity mass_of(double kilograms)
{
    return quantity_of(llround(kilograms * 1e6), 6, "kg", 2);
}

/* "2028-01-31" of a day counted from 1 January 2018. */
static const char *date_of(int day)
{
    static char dates[DAYS][sizeof "2018-01-01"];
    static const unsigned lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (dates[day][0])
        return dates[day];
    unsigned year = 2018, month = 0, left = (unsigned)day;
    for (;;) {
        unsigned length = lengths[month] + (month == 1 && year % 4 == 0);
        if (left < length)
            break;
        left -= length;
        year += month == 11;
        month = (month + 1) % 12;
    }
    snprintf(dates[day], sizeof dates[day], "%04u-%02u-%02u", year % 10000, month + 1,
             (left + 1) % 100);
    return dates[day];
}

/* ---- the shop ---- */

static void build_settings(const struct chain_data *data)
{
    shop.drum.diameter.q = length_of(data->drum);
    shop.drum.tolerance.q = length_of(data->drum_tolerance);
    shop.cord.diameter.q = length_of(data->cord);
    shop.cord.tolerance.q = length_of(data->cord_tolerance);
    shop.gauge.capacity.q = force_of(data->capacity);
    shop.gauge.step.q = force_of(data->step);
    shop.gauge.full_scale_error.q =
        quantity_of(llround(data->stated_error / data->capacity * 1e5), 3, "%", 1);
    shop.pulls.skew.q = quantity_of(llround(data->skew), 0, "deg", 3);
    shop.site.latitude.q = isnan(data->latitude)
                               ? (struct quantity){.unit = NULL}
                               : quantity_of(llround(data->latitude), 0, "deg", 3);
    band.from.q = quantity_of(0, 0, "r/min", 5);
    band.to.q = quantity_of(1000, 0, "r/min", 5);
    band.low.q = torque_of(data->low);
    band.high.q = torque_of(data->high);
    shop.limits.slack_drag.q = torque_of(0); /* it is logged */
    shop.limits.basis = data->increase ? BASIS_INCREASE : BASIS_ABSOLUTE;
    shop.limits.bands = &band; /* not counted: windows are not asked for, and take long */
    shop.lathe.top_speed = band.to;
    if (shop.pulls.count.number == 0)
        fields_fill(arena_new(), &shop); /* once, and kept */
}

static void add_check(const struct chain_data *data)
{
    for (int i = 0; i < data->weighing_count; i++) {
        const struct weighing_seen *seen = &data->weighings[i];
        weighings[i] = (struct weighing){.date = date_of(seen->day),
                                         .by = "",
                                         .note = "",
                                         .down = seen->down,
                                         .load = mass_of(seen->mass),
                                         .reading = force_of(seen->reading)};
    }
    shop.weighings = (struct weighings){weighings, (size_t)data->weighing_count};
}

static void fill_series(const struct series_seen *seen, enum lock lock, struct pull_series *row)
{
    row->date = date_of(seen->day);
    row->note = "";
    row->drum = shop.drum.diameter.q;
    row->cord = shop.cord.diameter.q;
    row->lock = lock;
    row->nut = lock == LOCK_UNLOADED ? (struct quantity){.unit = NULL}
                                     : quantity_of(seen->setting, 0, "deg", 3);
    row->pulls = pulled[row - history];
    row->pull_count = (size_t)seen->count;
    for (int i = 0; i < seen->count; i++)
        row->pulls[i] = force_of(seen->pulls[i]);
}

static void add_history(const struct chain_data *data)
{
    size_t count = 0;
    for (int i = 0; i < data->history_count; i++)
        fill_series(&data->history[i], LOCK_AFTER, &history[count++]);
    if (data->increase)
        fill_series(&data->slack, LOCK_UNLOADED, &history[count++]);
    shop.readings = (struct pull_series_log){history, count};
    pull_log_follow_nut(&shop.readings);
}

/* ---- the verdict ---- */

static enum called called_of(enum state state)
{
    switch (state) {
    case STATE_CLEARLY_LOW:
        return CALLED_LOW;
    case STATE_LOW_IN_DOUBT:
        return CALLED_LOW_IN_DOUBT;
    case STATE_GOOD:
        return CALLED_GOOD;
    case STATE_HIGH_IN_DOUBT:
        return CALLED_HIGH_IN_DOUBT;
    case STATE_CLEARLY_HIGH:
        return CALLED_HIGH;
    case STATE_UNDECIDED:
    case STATE_SCATTERED:
        return CALLED_UNDECIDED;
    default:
        return CALLED_REJECTED;
    }
}

static struct judgement judge(const struct known *known, const struct band *against,
                              const struct series_seen *series, enum lock lock)
{
    struct quantity pulls[CHAIN_PULLS];
    for (int i = 0; i < series->count; i++)
        pulls[i] = force_of(series->pulls[i]);
    struct pull_conditions conditions = {lock, SAID_COLD, false};
    struct drum_setup setup = shop_drum_setup(&shop);
    return judge_pulls(known, against, &setup, &conditions, pulls, (size_t)series->count);
}

/* What is known today, after the log; an increase counts from the slack series of today. */
static struct known known_today(struct arena *arena, const struct chain_data *data)
{
    const struct results *results = results_of(arena, &shop);
    struct known known = results->known;
    struct series slack = series_of(data->slack.pulls, (size_t)data->slack.count);
    struct pull_mean pulls = {.count = slack.count,
                              .reading = slack.mean,
                              .range = slack.most - slack.least};
    known_on_day(&known, &results->checks, date_days(date_of(data->today)),
                 data->increase ? &pulls : NULL, shop_radius(&shop));
    return known;
}

void judge_by_library(const struct chain_data *data, struct answer *answer)
{
    build_settings(data);
    add_check(data);
    add_history(data);
    struct arena *arena = arena_new();
    struct known known = known_today(arena, data);
    struct judgement judgement = judge(&known, &band, &data->series, LOCK_AFTER);
    answer->state = called_of(judgement.state);
    answer->drag = judgement.measured.drag.drag;
    answer->expanded = decimal_to_double(&judgement.shown_u.exact);
    arena_free(arena);
}
