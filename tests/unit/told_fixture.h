/* What was said to a test, one piece after another, and a plain shop to speak of. */
#ifndef TESTS_TOLD_FIXTURE_H
#define TESTS_TOLD_FIXTURE_H

#include "report/report.h"
#include "shop_fixture.h"
#include "test.h"

#include <string.h>

static struct rows rows_kept;

/* What was said before counts no more. */
static inline void forget(void)
{
    arena_free(rows_kept.arena);
    rows_kept = (struct rows){.arena = arena_new()};
}

/* All of it: "name=value unit|", and of a remark where it stands and its sentence. */
static inline const char *said(void)
{
    struct arena *arena = rows_kept.arena;
    const char *text = "";
    for (size_t i = 0; i < rows_kept.count; i++) {
        const struct row *row = &rows_kept.items[i];
        const char *where = "";
        if (row->unit[0] || (strcmp(row->name, "remark") && strcmp(row->name, "both-ways"))) {
            text = arena_format(arena, "%s%s=%s %s|", text, row->name, row->value, row->unit);
            continue;
        }
        if (row->at.file)
            where = arena_format(arena, "%s:%d: %s%s", row->at.file, row->at.line, row->label,
                                 row->label[0] ? ": " : "");
        else if (row->at.line)
            where = arena_format(arena, "%s, line %d of the log: ", row->label, row->at.line);
        text = arena_format(arena, "%s%s%s|", text, where, row->value);
    }
    return text;
}

static inline void assert_said(const char *part)
{
    if (!strstr(said(), part))
        fail_msg("'%s' is not in '%s'", part, said());
}

static inline void assert_not_said(const char *part)
{
    if (strstr(said(), part))
        fail_msg("'%s' is in '%s'", part, said());
}

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

/* Two places of the nut, degrees, with their drags, N.m; the older first. */
static inline void tell_places(const struct shop *shop, double older, double its_drag,
                               double newer, double drag, const struct pull_conditions *taken,
                               double lock_added)
{
    const double places[] = {older, newer}, found[] = {its_drag, drag};
    struct quantity angles[2], drags[2];
    char text[40];
    for (int i = 0; i < 2; i++) {
        snprintf(text, sizeof text, "%g deg", places[i]);
        angles[i] = quantity_of(text, KIND_ANGLE);
        snprintf(text, sizeof text, "%g N.m", found[i]);
        drags[i] = quantity_of(text, KIND_TORQUE);
    }
    forget();
    report_places(&rows_kept, results_for(shop), shop->limits.bands, angles, drags, taken,
                  lock_added);
}

#endif
