/* Pulls as traces: made-up ones of known truth in many kinds, how often the stated doubts hold
 * and how few that can be read are refused; those that cannot be read; and the fits beneath
 * against GSL and published values. */
#include "made_trace.h"
#include "physics/physics.h"
#include "test.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_multifit.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define USUAL                                                                                  \
    .rate = 50, .turn = 5, .turns = 3, .force = 10, .noise = 0.01, .waves = {0.03}, .said = 1, \
    .before = 2, .behind = 1.5, .breakaway = 1.4, .settle = 0.15, .step = 0.001

/* What a kind says again stands for what is usual. */
#pragma GCC diagnostic ignored "-Woverride-init"

static const struct making kinds[] = {
    {USUAL, .name = "usual"},
    {USUAL, .name = "little noise", .noise = 0.001},
    {USUAL, .name = "much noise", .noise = 0.05},
    {USUAL, .name = "memory 0.05 s", .memory_noise = 0.02, .memory = 0.05},
    {USUAL, .name = "memory 0.2 s", .memory_noise = 0.02, .memory = 0.2},
    {USUAL, .name = "memory 0.5 s", .memory_noise = 0.015, .memory = 0.5},
    {USUAL, .name = "memory alone", .noise = 0, .memory_noise = 0.02, .memory = 0.3},
    {USUAL, .name = "wave of 15 %", .waves = {0.15}},
    {USUAL, .name = "no wave", .waves = {0}},
    {USUAL, .name = "twice a turn", .waves = {0.02, 0.05}},
    {USUAL, .name = "many harmonics", .waves = {0.05, 0.03, 0.02, 0.01, 0.01, 0.01}},
    {USUAL, .name = "drift up 3 %", .drift = 0.03},
    {USUAL, .name = "drift down 8 %", .drift = -0.08},
    {USUAL, .name = "slips 4 a second", .slip = 0.15, .slip_rate = 4.03},
    {USUAL, .name = "slips 1.5 a second", .slip = 0.2, .slip_rate = 1.47},
    {USUAL, .name = "step of 2 %", .step = 0.02, .noise = 0.005},
    {USUAL, .name = "step of 5 %, quiet", .step = 0.05, .noise = 0.0005},
    {USUAL, .name = "a third lost", .dropped = 0.3},
    {USUAL, .name = "lost in bursts", .bursts = 0.5},
    {USUAL, .name = "uneven times", .jitter = 0.9},
    {USUAL, .name = "zero pressed late", .late_zero = 0.08},
    {USUAL, .name = "zero pressed late, below", .late_zero = -0.08},
    {USUAL, .name = "zero off", .zero = 0.05},
    {USUAL, .name = "zero off, below", .zero = -0.05},
    {USUAL, .name = "zero creeps", .zero_moves = 0.004},
    {USUAL, .name = "starts running", .before = -1},
    {USUAL, .name = "ends running", .behind = -1},
    {USUAL, .name = "never at rest", .before = -1, .behind = -1},
    {USUAL, .name = "zeroed under load", .before = -1, .zero = -1},
    {USUAL, .name = "10 a second", .rate = 10, .settle = 0.3},
    {USUAL, .name = "2 a second", .rate = 2, .settle = 0.5, .before = 6, .behind = 4},
    {USUAL, .name = "1 a second", .rate = 1, .turn = 8, .before = 12, .behind = 8,
     .settle = 0.5},
    {USUAL, .name = "1000 a second", .rate = 1000},
    {USUAL, .name = "display holds", .held = 0.4, .noise = 0.02},
    {USUAL, .name = "display averages", .averaged = 0.5, .noise = 0.03},
    {USUAL, .name = "one turn", .turns = 1},
    {USUAL, .name = "one turn, memory", .turns = 1, .memory_noise = 0.02, .memory = 0.2},
    {USUAL, .name = "twenty turns", .turns = 20},
    {USUAL, .name = "speed wobbles", .wobble = 0.08, .waves = {0.05}},
    {USUAL, .name = "speed said 8 % off", .said = 1.08, .waves = {0.06}},
    {USUAL, .name = "turn by the wave", .said = 0, .waves = {0.06}},
    {USUAL, .name = "turn by a double wave", .said = 0, .waves = {0.03, 0.06}},
    {USUAL, .name = "long rest", .before = 60, .behind = 40},
    {USUAL, .name = "no breakaway", .breakaway = 0, .rise = 0.8},
    {USUAL, .name = "held before it breaks away", .hesitates = 0.4, .rise = 3},
    {USUAL, .name = "starts and slows", .starts = 1.5, .slows = 1.5},
    {USUAL, .name = "starts and slows, wave", .starts = 4, .slows = 4, .waves = {0.15}},
    {USUAL, .name = "coarse, never at rest", .step = 0.05, .noise = 0.0005, .waves = {0},
     .before = -1, .behind = -1},
    {USUAL, .name = "zero jumps by 2 %", .zeroed = 0.02},
    {USUAL, .name = "breakaway beyond the gauge", .capacity = 1.25},
    {USUAL, .name = "knocks", .knocks = 2},
    {USUAL, .name = "long tails", .tailed = true},
    {USUAL, .name = "fast turn", .turn = 1.5, .turns = 6},
    {USUAL, .name = "slow turn", .turn = 20, .turns = 2, .rate = 20},
    {USUAL, .name = "small force", .force = 0.5, .step = 0.02, .noise = 0.02},
};

enum { KINDS = sizeof kinds / sizeof kinds[0] };

static struct trace read_made(const struct made_trace *made)
{
    return trace_of(&(struct trace_given){made->times, made->forces, made->count, made->said,
                                          made->step, made->capacity});
}

/* How often what is said holds. */
struct tally {
    int made, read, mean, breakaway, breakaways, wave, broke, slips, smooth, holds;
    double u; /* U over the mean, added up */
};

static struct tally tally_of(const struct making *kind, int count, int first)
{
    struct tally tally = {.made = count};
    for (int i = 0; i < count; i++) {
        struct made_trace made = make_trace(kind, (uint64_t)(first + i));
        struct trace trace = read_made(&made);
        if (trace.fault == TRACE_READ) {
            tally.read++;
            tally.u += trace.sureness.expanded / trace.mean;
            assert_true(made.times[trace.steady[1] - 1] - made.times[trace.steady[0]] >
                        trace.turn * trace.turns * 0.96 - 2.5 / kind->rate - kind->bursts);
            tally.mean += fabs(trace.mean - made.mean) <= trace.sureness.expanded;
            bool shown = made.breakaway > 0 && kind->held == 0 && kind->averaged == 0 &&
                         made.breakaway < made.capacity;
            tally.breakaways += shown && trace.broke_away;
            tally.breakaway += shown && trace.broke_away &&
                               fabs(trace.breakaway - made.breakaway) <= trace.breakaway_u;
            tally.broke += trace.broke_away;
            tally.wave += fabs(trace.once - made.wave) <= trace.once_u;
            tally.slips += trace.slips > 0;
            tally.smooth += trace.smooth > 0;
            tally.holds += trace.holds > 0;
        } else if (getenv("TRACE_TABLE")) {
            printf("%s %d: fault %d at %zu of %zu\n", kind->name, first + i, trace.fault,
                   trace.at, made.count);
        }
        free_made_trace(&made);
    }
    return tally;
}

static double share(int part, int of)
{
    return of ? 100.0 * part / of : 100;
}

static void print_tally(const char *name, const struct tally *t)
{
    printf("%-26s read %5.1f mean %5.1f U %5.2f breakaway %5.1f of %d wave %5.1f said: breaks "
           "away %d slips %d smooth %d holds %d\n",
           name, share(t->read, t->made), share(t->mean, t->read), 100 * t->u / t->read,
           share(t->breakaway, t->breakaways), t->breakaways, share(t->wave, t->read), t->broke,
           t->slips, t->smooth, t->holds);
}

/* So many of so many may fail by chance where one in a share does: three standard deviations.
 */
static int allowed(double share, int of)
{
    return (int)floor(share * of + 3 * sqrt(share * (1 - share) * of));
}

static const double may_miss = 0.055, may_refuse = 0.05;

static void hold_kind(const char *name, const struct tally *t)
{
    if (t->made - t->read > allowed(may_refuse, t->made))
        fail_msg("%s: %d of %d refused", name, t->made - t->read, t->made);
    if (t->read - t->mean > allowed(may_miss, t->read))
        fail_msg("%s: the mean lies within U in %d of %d", name, t->mean, t->read);
    if (t->breakaways - t->breakaway > allowed(may_miss, t->breakaways))
        fail_msg("%s: the breakaway in %d of %d", name, t->breakaway, t->breakaways);
    if (t->read - t->wave > allowed(may_miss, t->read))
        fail_msg("%s: the wave in %d of %d", name, t->wave, t->read);
}

static void add_up(struct tally *sum, const struct tally *one)
{
    sum->made += one->made;
    sum->read += one->read;
    sum->mean += one->mean;
    sum->breakaways += one->breakaways;
    sum->breakaway += one->breakaway;
    sum->wave += one->wave;
}

/* What is said beside the numbers is said where it is so, and seldom elsewhere. */
static void hold_words(const struct making *kind, const struct tally *t)
{
    assert_true(kind->slip > 0 ? t->slips >= t->read * 9 / 10 : t->slips <= t->read / 20);
    assert_true(kind->held > 0 ? t->holds >= t->read * 9 / 10 : t->holds <= t->read / 20);
    if (kind->averaged > 0)
        assert_true(t->smooth >= t->read * 9 / 10);
    if (kind->breakaway == 0 || kind->before < 0)
        assert_true(t->broke <= t->read / 20);
    else if (kind->rate >= 2)
        assert_true(t->broke >= t->read * 3 / 4);
}

/* TRACES=1000: so many of each kind; TRACE_TABLE=1: what comes of each is printed. */
static void test_kinds(void **state)
{
    (void)state;
    const char *more = getenv("TRACES");
    int count = more ? atoi(more) : 30;
    struct tally sum = {0};
    for (int k = 0; k < KINDS; k++) {
        struct tally t = tally_of(&kinds[k], count, 1000000 * k);
        if (getenv("TRACE_TABLE"))
            print_tally(kinds[k].name, &t);
        hold_kind(kinds[k].name, &t);
        hold_words(&kinds[k], &t);
        add_up(&sum, &t);
    }
    if (getenv("TRACE_TABLE"))
        print_tally("all", &sum);
    assert_true(sum.read >= sum.made * 0.95);
    assert_true(sum.mean >= sum.read * 0.945);
    assert_true(sum.breakaway >= sum.breakaways * 0.945);
    assert_true(sum.wave >= sum.read * 0.945);
}

/* ---- what cannot be read ---- */

struct refused {
    struct making making;
    enum trace_fault fault;
};

static const struct refused unreadable[] = {
    {{USUAL, .name = "half a turn", .turns = 0, .turn = 12}, TRACE_SHORT},
    {{USUAL, .name = "drifts by half", .drift = -0.5}, TRACE_UNSTEADY},
    {{USUAL, .name = "falls away", .drift = -0.9}, TRACE_UNSTEADY},
    {{USUAL, .name = "clipped", .capacity = 1.01}, TRACE_CLIPPED},
    {{USUAL, .name = "a gap each turn", .bursts = 1}, TRACE_GAP},
    {{USUAL, .name = "peak held", .peak_held = true, .noise = 0.002}, TRACE_PEAK_HELD},
    {{USUAL, .name = "zeroed during the pull", .zeroed = -0.2}, TRACE_ZEROED},
    {{USUAL, .name = "turn not known", .said = 0, .waves = {0}}, TRACE_NO_TURN},
    {{USUAL, .name = "three a turn", .turns = 6, .rate = 0.62, .before = 9, .behind = 9},
     TRACE_SLOW},
};

static void test_unreadable(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof unreadable / sizeof unreadable[0]; k++) {
        int other = 0, read = 0;
        for (int i = 0; i < 40; i++) {
            struct made_trace made = make_trace(&unreadable[k].making, (uint64_t)i + 77);
            struct trace trace = read_made(&made);
            read += trace.fault == TRACE_READ;
            other += trace.fault != unreadable[k].fault;
            if (getenv("TRACE_TABLE") && trace.fault != unreadable[k].fault)
                printf("%s: %d\n", unreadable[k].making.name, trace.fault);
            free_made_trace(&made);
        }
        if (read > 2 || other > 8)
            fail_msg("%s: %d of 40 read, %d not refused as they should be",
                     unreadable[k].making.name, read, other);
    }
}

static void test_bad_numbers(void **state)
{
    (void)state;
    struct made_trace made = make_trace(&kinds[0], 1);
    double time = made.times[300];
    made.times[300] = made.times[299];
    struct trace trace = read_made(&made);
    assert_int_equal(trace.fault, TRACE_TIME_BACK);
    assert_int_equal(trace.at, 300);
    made.times[300] = time;
    assert_int_equal(read_made(&made).fault, TRACE_READ);
    made.forces[200] = NAN;
    trace = read_made(&made);
    assert_int_equal(trace.fault, TRACE_NOT_A_NUMBER);
    assert_int_equal(trace.at, 200);
    made.count = 9;
    assert_int_equal(read_made(&made).fault, TRACE_TOO_FEW);
    made.count = 60; /* at rest alone */
    assert_int_not_equal(read_made(&made).fault, TRACE_READ);
    free_made_trace(&made);
}

/* ---- the fits ---- */

static void assert_near(double got, double want, double relative)
{
    if (!(fabs(got - want) <= relative * fabs(want)))
        fail_msg("%.17g, not %.17g", got, want);
}

enum { POINTS = 1001 };

/* The periodogram with a floating mean of a sine at 1001 times, from the tests of the package
 * LombScargle.jl (Giordano; MIT licence): the share of the squares that a constant and a sine
 * explain. The least of them are 1e-6 of the squares, so that rounding leaves fewer digits. */
static void test_published_periodogram(void **state)
{
    (void)state;
    static const double frequencies[] = {0.2, 0.4, 0.6, 0.8, 1};
    static const double powers[] = {0.029886871262325, 5.456198989410e-4, 1.912507742056e-5,
                                    4.542584095312e-6, 1.0238342782431e-5};
    double times[POINTS], values[POINTS], weights[POINTS];
    for (int i = 0; i < POINTS; i++) {
        times[i] = 0.01 + (10 * M_PI - 0.01) * i / (POINTS - 1);
        values[i] = sin(times[i]);
        weights[i] = 1 / pow(0.5 + 1.0 * i / (POINTS - 1), 2);
    }
    struct wave_points points = {times, values, NULL, POINTS};
    for (int i = 0; i < 5; i++) {
        struct wave_model model = {.turn = 1 / frequencies[i], .middle = 3, .harmonics = 1};
        struct wave_model flat = {.turn = 1};
        double left = wave_fit(&points, &model).squares, all = wave_fit(&points, &flat).squares;
        assert_near(1 - left / all, powers[i], 1e-9);
    }
    static const double weighted[] = {0.066596838488187, 0.092309591663176, 0.006625919314669};
    points.weights = weights;
    for (int i = 0; i < 3; i++) {
        struct wave_model model = {.turn = 10.0 / (i + 1), .harmonics = 1}, flat = {.turn = 1};
        double left = wave_fit(&points, &model).squares, all = wave_fit(&points, &flat).squares;
        assert_near(1 - left / all, weighted[i], 1e-9);
    }
}

/* Unevenly spaced readings with drift and three harmonics: terms, their doubts and what is left
 * are those of GSL's weighted least squares. */
static void test_against_gsl(void **state)
{
    (void)state;
    struct made_trace made = make_trace(&kinds[17], 5); /* a third lost */
    enum { FROM = 200, COUNT = 400 };
    double weights[COUNT];
    struct wave_model model = {4.7, 6.1, 3.3, 3, true};
    gsl_matrix *x = gsl_matrix_alloc(COUNT, 8), *covariance = gsl_matrix_alloc(8, 8);
    gsl_vector *y = gsl_vector_alloc(COUNT), *w = gsl_vector_alloc(COUNT);
    gsl_vector *terms = gsl_vector_alloc(8);
    for (size_t i = 0; i < COUNT; i++) {
        double t = made.times[FROM + i] - 6.1;
        gsl_matrix_set(x, i, 0, 1);
        for (size_t k = 1; k <= 3; k++) {
            gsl_matrix_set(x, i, 2 * k - 1, cos(2 * M_PI * (double)k * t / 4.7));
            gsl_matrix_set(x, i, 2 * k, sin(2 * M_PI * (double)k * t / 4.7));
        }
        gsl_matrix_set(x, i, 7, t / 3.3);
        weights[i] = 1 + (double)(i % 7);
        gsl_vector_set(y, i, made.forces[FROM + i]);
        gsl_vector_set(w, i, weights[i]);
    }
    double squares;
    gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(COUNT, 8);
    gsl_multifit_wlinear(x, w, y, terms, covariance, &squares, work);
    struct wave_points points = {made.times + FROM, made.forces + FROM, weights, COUNT};
    struct wave wave = wave_fit(&points, &model);
    assert_near(wave.squares, squares, 1e-9);
    for (size_t i = 0; i < 8; i++) {
        assert_near(wave.terms[i], gsl_vector_get(terms, i), 1e-9);
        assert_near(wave.u[i], sqrt(gsl_matrix_get(covariance, i, i) * squares / (COUNT - 8)),
                    1e-9);
    }
    gsl_multifit_linear_free(work);
    gsl_matrix_free(x);
    gsl_matrix_free(covariance);
    gsl_vector_free(y);
    gsl_vector_free(w);
    gsl_vector_free(terms);
    free_made_trace(&made);
}

enum { NOISES = 21, FEW = 40 };

/* What one noise of the grid makes of the points, by the whole covariance matrix: the terms and
 * their variances by generalised least squares; gives the logarithm of its weight. */
static double whole_matrix(const struct wave_points *points, double memory, double share,
                           double prior, double terms[4], double variances[4])
{
    gsl_matrix *v = gsl_matrix_alloc(FEW, FEW), *x = gsl_matrix_alloc(FEW, 4);
    gsl_matrix *covariance = gsl_matrix_alloc(4, 4);
    gsl_vector *y = gsl_vector_alloc(FEW), *c = gsl_vector_alloc(4);
    double weight = 0, log_det = 0, squares, turn = 11;
    for (size_t i = 0; i < FEW; i++)
        weight += points->weights[i] / FEW;
    for (size_t i = 0; i < FEW; i++) {
        double t = points->times[i] - 15;
        for (size_t j = 0; j < FEW; j++)
            gsl_matrix_set(v, i, j,
                           share * exp(-fabs(points->times[i] - points->times[j]) / memory) +
                               (i == j) * (1 - share) * weight / points->weights[i]);
        double row[] = {1, cos(2 * M_PI * t / turn), sin(2 * M_PI * t / turn), t / 12};
        for (size_t k = 0; k < 4; k++)
            gsl_matrix_set(x, i, k, row[k]);
        gsl_vector_set(y, i, points->values[i]);
    }
    gsl_linalg_cholesky_decomp1(v);
    for (size_t i = 0; i < FEW; i++)
        log_det += 2 * log(gsl_matrix_get(v, i, i));
    gsl_blas_dtrsm(CblasLeft, CblasLower, CblasNoTrans, CblasNonUnit, 1, v, x);
    gsl_blas_dtrsv(CblasLower, CblasNoTrans, CblasNonUnit, v, y);
    gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(FEW, 4);
    gsl_multifit_linear(x, y, c, covariance, &squares, work);
    for (size_t k = 0; k < 4; k++) {
        terms[k] = gsl_vector_get(c, k);
        variances[k] = gsl_matrix_get(covariance, k, k);
    }
    gsl_matrix_scale(covariance, (FEW - 4) / squares); /* that of unit noise */
    gsl_linalg_cholesky_decomp1(covariance);
    double evidence = prior - log_det / 2 - (FEW - 4) / 2.0 * log(squares);
    for (size_t k = 0; k < 4; k++)
        evidence += log(gsl_matrix_get(covariance, k, k));
    gsl_multifit_linear_free(work);
    gsl_matrix_free(v);
    gsl_matrix_free(x);
    gsl_matrix_free(covariance);
    gsl_vector_free(y);
    gsl_vector_free(c);
    return evidence;
}

/* The filter gives, point by point, what whole covariance matrices give by GSL, over all noises
 * of docs/mathematics.md. */
static void test_memory_against_gsl(void **state)
{
    (void)state;
    static const double memories[] = {0.7, 1.5, 3, 6, 12};
    double times[FEW], values[FEW], weights[FEW], terms[NOISES][4], variances[NOISES][4];
    double evidence[NOISES], best = -INFINITY, sum = 0;
    for (int i = 0; i < FEW; i++) {
        times[i] = i + 0.3 * sin(7.0 * i);
        weights[i] = 1 + i % 4;
        values[i] = 3 + cos(times[i]) + 0.3 * cos(0.4 * times[i]) + 0.5 * sin(11.0 * i * i);
    }
    struct wave_points points = {times, values, weights, FEW};
    struct wave_model model = {11, 15, 12, 1, true};
    struct wave wave = wave_fit_correlated(&points, &model);
    double apart = (times[FEW - 1] - times[0]) / (FEW - 1);
    for (int n = 0; n < NOISES; n++) {
        double many = n ? memories[(n - 1) / 4] : 1;
        evidence[n] = whole_matrix(&points, apart * many, n ? ((n - 1) % 4 + 1) / 4.0 : 0,
                                   n ? -log(many) / 2 - log(4) : 0, terms[n], variances[n]);
        best = fmax(best, evidence[n]);
    }
    for (int n = 0; n < NOISES; n++)
        sum += evidence[n] = exp(evidence[n] - best);
    for (int k = 0; k < 4; k++) {
        double mean = 0, variance = 0;
        for (int n = 0; n < NOISES; n++)
            mean += evidence[n] / sum * terms[n][k];
        for (int n = 0; n < NOISES; n++)
            variance += evidence[n] / sum *
                        (variances[n][k] + (terms[n][k] - mean) * (terms[n][k] - mean));
        assert_near(wave.terms[k], mean, 1e-8);
        assert_near(wave.u[k], sqrt(variance), 1e-8);
    }
}

/* The variance of a mean of correlated readings: of an autoregression of first order with
 * correlation 0.5 100 readings are worth 33.78 (exact; 33.33 by the usual approximation). */
static void test_effective_readings(void **state)
{
    (void)state;
    enum { COUNT = 1000, TIMES = 60 };
    static const double correlations[] = {0, 0.5, 0.9};
    for (int c = 0; c < 3; c++) {
        double r = correlations[c], ratio = 0, times[COUNT], values[COUNT];
        double exact = 1; /* n^2 times the variance of the mean, over n */
        for (int k = 1; k < COUNT; k++)
            exact += 2 * (COUNT - k) / (double)COUNT * pow(r, k);
        uint64_t state_of_chance = 1;
        for (int i = 0; i < TIMES; i++) {
            double walk = 0;
            for (int j = -100; j < COUNT; j++) {
                double sum = 0; /* of twelve even draws: nearly normal */
                for (int d = 0; d < 12; d++) {
                    state_of_chance =
                        state_of_chance * 6364136223846793005u + 1442695040888963407u;
                    sum += (double)(state_of_chance >> 11) / 9007199254740992.0;
                }
                walk = r * walk + sqrt(1 - r * r) * (sum - 6);
                if (j >= 0) {
                    times[j] = j;
                    values[j] = walk;
                }
            }
            struct wave_points points = {times, values, NULL, COUNT};
            struct wave_model model = {.turn = 1};
            struct wave wave = wave_fit_correlated(&points, &model);
            ratio += wave.u[0] * wave.u[0] * COUNT / exact / TIMES;
        }
        if (!(ratio > 0.85 && ratio < 1.6))
            fail_msg("correlation %g: %g of the exact variance", r, ratio);
    }
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_kinds),
    cmocka_unit_test(test_unreadable),
    cmocka_unit_test(test_bad_numbers),
    cmocka_unit_test(test_published_periodogram),
    cmocka_unit_test(test_against_gsl),
    cmocka_unit_test(test_memory_against_gsl),
    cmocka_unit_test(test_effective_readings),
};

GROUP(trace, NULL, NULL)
