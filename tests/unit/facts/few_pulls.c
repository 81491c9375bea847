/* How often U covers the truth where only a few pulls were taken: a Monte Carlo run in
 * the manner of JCGM 101, through the shop's own rules. */
#include "shop_fixture.h"
#include "test.h"
#include "verdict/sure.h"

#include <math.h>

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

enum { SHOPS = 20000, MOST = 8 };

static const double truth = 20, scatter = 0.02; /* N; share of the pull */

/* The error of the reading (N) as the shop's own figures allow it: two half steps, the
 * gauge either way. Drum and cord are taken for exact. */
static double draw_error(gsl_rng *rng, const struct shop *shop)
{
    double step = shop->gauge.step.q.base, gauge = shop->gauge.checked_error.q.base;
    return gsl_ran_flat(rng, -step / 2, step / 2) + gsl_ran_flat(rng, -step / 2, step / 2) +
           gsl_ran_flat(rng, -gauge, gauge);
}

/* The share of many shops whose U, after so many pulls, covers the true drag. */
static double cover(const struct shop *shop, size_t count)
{
    struct rig rig = shop_rig(shop);
    double radius = (rig.drum->base + rig.cord->base) / 2;
    int within = 0;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(rng, 20261125 + count);
    for (int i = 0; i < SHOPS; i++) {
        double pulls[MOST], error = draw_error(rng, shop);
        for (size_t j = 0; j < count; j++)
            pulls[j] = truth + error + gsl_ran_gaussian(rng, scatter * truth);
        struct series series = series_of(pulls, count);
        double u = sure_of_pull(shop, &rig, series.mean, &series, NULL).expanded;
        within += fabs(series.mean - truth) * radius <= u;
    }
    gsl_rng_free(rng);
    return (double)within / SHOPS;
}

/* From a gauge that leaves the scatter all the doubt to one that leaves it a small part. */
static void test_cover(void **state)
{
    (void)state;
    static const char *const errors[] = {"0.01 N", "0.2 N", "0.4 N", "0.8 N", "2 N"};
    struct shop shop = shop_of("100 mm", "2 mm", "0.05 N");
    shop.drum.tolerance = shop.cord.tolerance = measure_of("0 mm", KIND_LENGTH);
    shop.pulls.skew = measure_of("0 deg", KIND_ANGLE);
    for (size_t i = 0; i < sizeof errors / sizeof errors[0]; i++)
        for (size_t count = 1; count <= 6; count++) {
            shop.gauge.checked_error = measure_of(errors[i], KIND_FORCE);
            double found = cover(&shop, count);
            if (found < 0.94)
                fail_msg("gauge %s, %zu pulls: covered %.4f", errors[i], count, found);
        }
}

static const struct CMUnitTest tests[] = {cmocka_unit_test(test_cover)};

GROUP(few_pulls, NULL, NULL)
