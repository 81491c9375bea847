/* A series by a check, its budget source by source. */
#include "judge/budget.h"
#include "judge/results.h"
#include "shop_fixture.h"
#include "test.h"

#include <math.h>

static const struct budget_line *line_of(const struct budget_line *lines, size_t count,
                                         enum budget_row source)
{
    for (size_t i = 0; i < count; i++)
        if (lines[i].source == source)
            return &lines[i];
    fail();
    return NULL;
}

static void test_each_source_comes_to_its_share(void **state)
{
    (void)state;
    struct budget_line lines[BUDGET_ROWS];
    struct shop shop = shop_of("62 mm", "0.8 mm", "0.05 N");
    struct band band = band_of("0.45 N.m", "0.70 N.m");
    struct drum_setup setup = shop_drum_setup(&shop);
    struct quantity pulls[3];
    struct weighing hung[3];
    static const char *const loads[] = {"10 N", "20 N", "30 N"};
    static const char *const readings[] = {"8 N", "16 N", "24 N"}; /* 0.8 of each load */
    shop.drum.tolerance = measure_of("0.3 mm", KIND_LENGTH);
    shop.cord.tolerance = measure_of("0 mm", KIND_LENGTH);
    for (int i = 0; i < 3; i++) {
        pulls[i] = quantity_of("16 N", KIND_FORCE);
        hung[i] = (struct weighing){.date = "2026-03-01",
                                    .by = "",
                                    .load = quantity_of(loads[i], KIND_FORCE),
                                    .reading = quantity_of(readings[i], KIND_FORCE),
                                    .tolerance = quantity_of("0.2 %", KIND_RATIO)};
    }
    shop.weighings = (struct weighings){hung, 3};
    struct judgement found = judge_pulls(known_for(&shop), &band, &setup, &as_limits, pulls, 3);
    size_t count = budget_lines(&found, lines);
    double squares = 0, shares = 0;
    for (size_t i = 0; i < count; i++) {
        assert_true(lines[i].u > 0 && lines[i].source != BUDGET_CORD);
        assert_true(fabs(lines[i].u * lines[i].sensitivity / lines[i].doubt.u - 1) < 1e-9);
        squares += lines[i].doubt.u * lines[i].doubt.u;
        shares += lines[i].share;
    }
    double u = found.measured.drag.sureness.standard;
    assert_true(fabs(shares - 100) < 1e-9 && fabs(squares / (u * u) - 1) < 1e-9);
    const struct budget_line *drum = line_of(lines, count, BUDGET_DRUM);
    assert_true(fabs(drum->u - 0.0003 / sqrt(3)) < 1e-12); /* m */
    assert_true(fabs(drum->sensitivity - 10) < 1e-9);      /* 20 N on half the diameter */
    const struct budget_line *zero = line_of(lines, count, BUDGET_ZERO);
    assert_true(fabs(zero->u - 0.05 / sqrt(3)) < 1e-12);         /* N as read */
    assert_true(fabs(zero->sensitivity - 0.0314 / 0.8) < 1e-12); /* m */
    assert_true(!zero->sample && line_of(lines, count, BUDGET_SCATTER)->sample);
    const struct budget_line *masses = line_of(lines, count, BUDGET_MASSES);
    assert_true(fabs(masses->u - 0.2 / sqrt(3)) < 1e-12);         /* % */
    assert_true(fabs(masses->sensitivity - 0.628 / 100) < 1e-12); /* N.m for 1 % */
    assert_false(line_of(lines, count, BUDGET_GAUGE)->stated);
    shop.weighings.count = 0;
    shop.gauge.checked_error = measure_of("0.1 N", KIND_FORCE);
    found = judge_pulls(known_for(&shop), &band, &setup, &as_limits, pulls, 3);
    count = budget_lines(&found, lines);
    assert_true(line_of(lines, count, BUDGET_GAUGE)->stated);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_each_source_comes_to_its_share),
};

GROUP(budget, NULL, NULL)
