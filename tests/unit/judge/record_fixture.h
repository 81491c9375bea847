/* A shop with a log that tests write row by row, and what is noted of it. */
#ifndef TESTS_RECORD_FIXTURE_H
#define TESTS_RECORD_FIXTURE_H

#include "report/remarks.h"
#include "told_fixture.h"

enum { MOST_ROWS = 12 };

static struct pull_series rows[MOST_ROWS];
static struct band band;

/* The plain shop with used bearings, and without a row. */
static inline struct shop shop_with_log(void)
{
    struct shop shop = plain_shop(&band);
    shop.limits.bearings = BEARINGS_USED;
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
                                .cord = shop->cord.diameter.q,
                                .pulls = room_for_pulls()};
    if (nut[0])
        row->nut = quantity_of(nut, KIND_ANGLE);
    for (int i = -1; i <= 1; i++) {
        snprintf(text, sizeof text, "%.1f N", mean + 0.1 * i);
        row->pulls[row->pull_count++] = quantity_of(text, KIND_FORCE);
    }
    return row;
}

/* The same row, once the nut has been followed through the log. */
static inline const struct pull_series *followed(const struct shop *shop,
                                                 const struct pull_series *row)
{
    pull_log_follow_nut(&shop->readings);
    return row;
}

static inline void note_on(const struct shop *shop)
{
    pull_log_follow_nut(&shop->readings);
    forget();
    remark_on_pulls(&rows_kept, results_for(shop));
}

#endif
