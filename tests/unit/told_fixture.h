/* What was said to a test, one piece after another, and a plain shop to speak of. */
#ifndef TESTS_TOLD_FIXTURE_H
#define TESTS_TOLD_FIXTURE_H

#include "report/report.h"
#include "shop_fixture.h"
#include "test.h"

#include <string.h>

static char said[4000];

/* Hears a remark: for struct remark_sink. */
static inline void keep_remark(void *to, const char *remark)
{
    (void)to;
    size_t used = strlen(said);
    snprintf(said + used, sizeof said - used, "%s|", remark);
}

static inline void assert_said(const char *part)
{
    if (!strstr(said, part))
        fail_msg("'%s' is not in '%s'", part, said);
}

static inline void assert_not_said(const char *part)
{
    if (strstr(said, part))
        fail_msg("'%s' is in '%s'", part, said);
}

static inline void keep_row(void *to, const char *name, const char *label, const char *value,
                            const char *unit)
{
    (void)to;
    (void)label;
    size_t used = strlen(said);
    snprintf(said + used, sizeof said - used, "%s=%s %s|", name, value, unit);
}

static const struct row_sink rows_kept = {.row = keep_row};

/* A drum of 50 mm without a cord: 1 N is 0.025 N.m. */
static inline struct shop plain_shop(struct band *band)
{
    struct shop shop = shop_of("50 mm", "0 mm", "0.1 N");
    *band = band_of("0.50 N.m", "0.70 N.m");
    shop.limits.bands = band;
    shop.limits.band_count = 1;
    shop.lathe.top_speed = measure_of("800 r/min", KIND_SPEED);
    shop.drum.tolerance = shop.cord.tolerance = measure_of("0 mm", KIND_LENGTH);
    shop.gauge.capacity = measure_of("50 N", KIND_FORCE);
    shop.gauge.checked_error = measure_of("0.1 N", KIND_FORCE);
    return shop;
}

#endif
