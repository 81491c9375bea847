#include "tables/series_cells.h"

#include <math.h>

const char *series_nut_text(struct arena *arena, const struct pull_series *series)
{
    const char *lock = series_lock_word(series->lock);
    if (!series->nut.unit)
        return lock;
    const char *angle = quantity_text(arena, &series->nut);
    return series->lock == LOCK_UNSAID ? angle : arena_format(arena, "%s, %s", angle, lock);
}

static const char *said(struct arena *arena, const struct quantity *quantity)
{
    return quantity->unit ? quantity_text(arena, quantity) : "not said";
}

const char *series_place_text(struct arena *arena, const struct pull_series *series)
{
    return said(arena, &series->nut);
}

const char *series_cap_text(struct arena *arena, const struct pull_series *series)
{
    return said(arena, &series->temperature);
}

const char *series_warmth_text(struct arena *arena, const struct pull_series *series)
{
    const char *warmth = series->warm ? "warm" : "cold";
    if (!series->temperature.unit)
        return warmth;
    return arena_format(arena, "%s, %s", warmth, quantity_text(arena, &series->temperature));
}

const char *series_spindle_text(struct arena *arena, const struct pull_series *series)
{
    return arena_format(arena, "%s%s", series_warmth_text(arena, series),
                        series->other_way ? ", other way" : "");
}

void put_series_mean(const struct table_ask *ask, struct cell *cell,
                     const struct judgement *judgement)
{
    const struct quantity *step = &ask->shop->gauge.step.q;
    double mean = unit_from_base(judgement->pulls.mean, step->unit);
    put_number(ask->arena, cell, mean,
               show_places(mean, decimal_places(&step->typed) + 1).text);
}

void put_series_drag(const struct table_ask *ask, struct cell *cell,
                     const struct judgement *judgement)
{
    const struct unit *unit = judgement->unit;
    double drag = unit_from_base(judgement->drag, unit);
    char digits[DECIMAL_TEXT];
    put_number(ask->arena, cell, drag, show_places(drag, judgement->sureness.places).text);
    decimal_print(&judgement->sureness.typed, judgement->sureness.places, digits);
    put_number(ask->arena, cell + 1, unit_from_base(judgement->uncertainty.expanded, unit),
               digits);
}

void put_state_words(const struct table_ask *ask, struct cell *cell, enum state state)
{
    char text[STATE_TEXT];
    state_text(state, text);
    put_text(cell, arena_text(ask->arena, text));
}

void note_log_reach(struct table *table, const struct shop *shop)
{
    double low = INFINITY, high = 0;
    for (size_t i = 0; i < shop->readings.count; i++) {
        const struct pull_series *series = &shop->readings.items[i];
        double mean = series_of_pulls(series->pulls, series->pull_count).mean;
        low = fmin(low, mean);
        high = fmax(high, mean);
    }
    note_reach(table, shop, low, high);
}
