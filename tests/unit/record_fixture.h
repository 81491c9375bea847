/* A shop with a log that tests write row by row, and what is noted of it. */
#ifndef TESTS_RECORD_FIXTURE_H
#define TESTS_RECORD_FIXTURE_H

#include "said.h"
#include "shop_fixture.h"
#include "verdict/log_notes.h"

enum { MOST_ROWS = 12 };

static struct pull_series rows[MOST_ROWS];
static struct band band;

/* A drum of 50 mm without a cord: 1 N is 0.025 N.m; limits 0.5 to 0.7 N.m, cold. */
static inline struct shop shop_with_log(void)
{
    struct shop shop = shop_of("50 mm", "0 mm", "0.1 N");
    band = band_of("0.50 N.m", "0.70 N.m");
    shop.limits.bands = &band;
    shop.limits.band_count = 1;
    shop.limits.bearings = BEARINGS_USED;
    shop.lathe.top_speed = measure_of("800 r/min", KIND_SPEED);
    shop.drum.tolerance = shop.cord.tolerance = measure_of("0 mm", KIND_LENGTH);
    shop.gauge.capacity = measure_of("50 N", KIND_FORCE);
    shop.gauge.checked_error = measure_of("0.1 N", KIND_FORCE);
    shop.readings.items = rows;
    memset(rows, 0, sizeof rows);
    return shop;
}

/* A row: place of the nut ("" where not said), lock, and pulls about a mean. */
static inline struct pull_series *add(struct shop *shop, const char *date, const char *nut,
                                      enum lock lock, double mean)
{
    struct pull_series *row = &rows[shop->readings.count++];
    char text[40];
    *row = (struct pull_series){.date = date,
                                .at.line = (int)shop->readings.count + 1,
                                .lock = lock,
                                .drum = shop->drum.diameter.q,
                                .cord = shop->cord.diameter.q};
    if (nut[0])
        row->nut = quantity_of(nut, KIND_ANGLE);
    for (int i = -1; i <= 1; i++) {
        snprintf(text, sizeof text, "%.1f N", mean + 0.1 * i);
        row->pulls[row->pull_count++] = quantity_of(text, KIND_FORCE);
    }
    return row;
}

static inline void note_on(const struct shop *shop)
{
    said[0] = '\0';
    log_notes_tell(shop, &(struct listener){.hear = keep_remark});
}

#endif
