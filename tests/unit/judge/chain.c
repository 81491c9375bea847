/* The simulated chain itself: that what it draws has the scatter, the correlation and the gauge
 * that were asked for, and that an observer who knows them is right as often as he thinks. */
#include "../../simulate/chain.c"
#include "test.h"

enum { TRIALS = 20000 };

static struct trial trial;

/* Nothing but the scatter: fine steps, so that differences of neighbours tell it. */
static const struct chain fine = {
    .scatter = {FIXED, 2}, .correlation = {FIXED, 0.6}, .between = {FIXED, 0}, .step = 0.001};

static void test_pulls(void **state)
{
    (void)state;
    struct random random = random_of(3);
    double mean = 0, one = 0, two = 0;
    for (int i = 0; i < TRIALS; i++) {
        chain_draw(&fine, 0.6, 3, &random, &trial);
        const double *pulls = trial.data.series.pulls;
        mean += pulls[0] / TRIALS;
        one += pow(pulls[0] - pulls[1], 2) / TRIALS;
        two += pow(pulls[0] - pulls[2], 2) / TRIALS;
    }
    double skewed = 0.6 / 0.0314 * (1 + pow(radians(5), 2) / 6);
    assert_true(fabs(mean / skewed - 1) < 0.001);
    /* Variances 2 s^2 (1 - r) and 2 s^2 (1 - r^2), each to five times 1 / sqrt(TRIALS / 2). */
    assert_true(fabs(one / (mean * mean) / (2 * 0.0004 * 0.4) - 1) < 5 / sqrt(TRIALS / 2));
    assert_true(fabs(two / (mean * mean) / (2 * 0.0004 * 0.64) - 1) < 5 / sqrt(TRIALS / 2));
}

/* What all pulls of one winding share, and what the gauge makes of it. */
static void test_windings_and_gauge(void **state)
{
    (void)state;
    static const struct chain chain = {.scatter = {FIXED, 0},
                                       .correlation = {FIXED, 0},
                                       .between = {FIXED, 3},
                                       .step = 0.001,
                                       .gauge_error = -10,
                                       .settings = 1,
                                       .windings = 2,
                                       .history_pulls = 2};
    struct random random = random_of(4);
    double squares = 0, ratio = 0;
    for (int i = 0; i < TRIALS; i++) {
        chain_draw(&chain, 0.6, 2, &random, &trial);
        const struct series_seen *rows = trial.data.history;
        assert_true(fabs(rows[0].pulls[0] - rows[0].pulls[1]) < 0.0011);
        squares += pow(log(rows[0].pulls[0] / rows[1].pulls[0]), 2) / TRIALS;
        ratio += trial.data.weighings[2].reading / weight_of(3, trial.data.gravity) / TRIALS;
    }
    assert_int_equal(trial.data.history_count, 2);
    assert_int_equal(trial.data.weighing_count, 5);
    assert_true(fabs(ratio - 0.9) < 0.0005);
    assert_true(fabs(sqrt(squares / 2) / 0.03 - 1) < 0.05); /* skew adds a little */
}

static void test_observer(void **state)
{
    (void)state;
    static const struct chain chains[] = {
        {.name = "plain"},
        {.name = "steps", .step = 0.5},
        {.name = "correlated", .correlation = {FIXED, 0.9}, .gauge_error = -10},
        {.name = "increase", .low = 0.22, .high = 0.35, .slack = 1},
    };
    for (size_t i = 0; i < sizeof chains / sizeof chains[0]; i++) {
        struct random random = random_of(5);
        int covered = 0;
        for (int j = 0; j < TRIALS; j++) {
            double truth = chain_high(&chains[i]);
            chain_draw(&chains[i], truth, 5, &random, &trial);
            struct observed seen = observe(&trial);
            covered += fabs(seen.drag - truth) < 1.96 * seen.u;
        }
        assert_true(fabs((double)covered / TRIALS - 0.95) < 0.01);
    }
}

/* The same seed draws the same. */
static void test_seed(void **state)
{
    (void)state;
    struct random one = random_of(6), other = random_of(6);
    chain_draw(&fine, 0.6, 5, &one, &trial);
    double first = trial.data.series.pulls[4];
    chain_draw(&fine, 0.6, 5, &other, &trial);
    assert_true(first == trial.data.series.pulls[4]);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_pulls),
    cmocka_unit_test(test_windings_and_gauge),
    cmocka_unit_test(test_observer),
    cmocka_unit_test(test_seed),
};

GROUP(chain, NULL, NULL)
