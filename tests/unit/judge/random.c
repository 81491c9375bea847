/* The chance that the simulation draws from: its first bits, and the moments of its draws. */
#include "../../simulate/random.h"
#include "test.h"

enum { DRAWS = 1000000 };

/* The first words of both, by their published code. */
static void test_bits(void **state)
{
    (void)state;
    uint64_t seed = 1234567;
    /* Of splitmix64 from 1234567, as its tests elsewhere have them: from memory. */
    static const uint64_t mixed[] = {6457827717110365317u, 3203168211198807973u,
                                     9817491932198370423u, 4593380528125082431u,
                                     16408922859458223821u};
    for (size_t i = 0; i < sizeof mixed / sizeof mixed[0]; i++)
        assert_true(splitmix64(&seed) == mixed[i]);
    /* Of xoshiro256** from the state 1, 2, 3, 4: likewise. */
    struct random random = {.state = {1, 2, 3, 4}};
    static const uint64_t bits[] = {11520u, 0u, 1509978240u, 1215971899390074240u};
    for (size_t i = 0; i < sizeof bits / sizeof bits[0]; i++)
        assert_true(random_bits(&random) == bits[i]);
}

/* Mean, variance, and the third and fourth moment about the mean over powers of the standard
 * deviation, each within five standard errors of what it should be. */
static void assert_moments(const double *draws, double mean, double sd, double fourth,
                           double sixth, double eighth)
{
    double sums[5] = {0};
    for (size_t i = 0; i < DRAWS; i++) {
        double z = (draws[i] - mean) / sd, power = 1;
        for (int k = 1; k <= 4; k++)
            sums[k] += power *= z;
    }
    double expected[] = {1, 0, 1, 0, fourth};
    double variance[] = {0, 1, fourth - 1, sixth, eighth - fourth * fourth};
    for (int k = 1; k <= 4; k++)
        assert_true(fabs(sums[k] / DRAWS - expected[k]) <= 5 * sqrt(variance[k] / DRAWS));
}

static double draws[DRAWS];

static void test_moments(void **state)
{
    (void)state;
    struct random random = random_of(1);
    for (size_t i = 0; i < DRAWS; i++)
        draws[i] = random_uniform(&random, 2, 5);
    assert_moments(draws, 3.5, 3 / sqrt(12), 9.0 / 5, 27.0 / 7, 9);
    for (size_t i = 0; i < DRAWS; i++)
        draws[i] = random_triangular(&random, -1, 1);
    assert_moments(draws, 0, 1 / sqrt(6), 12.0 / 5, 54.0 / 7, 144.0 / 5);
    for (size_t i = 0; i < DRAWS; i++)
        draws[i] = random_normal(&random);
    assert_moments(draws, 0, 1, 3, 15, 105);
}

/* Neighbours have nothing to do with one another, nor have streams of neighbouring seeds. */
static void test_independence(void **state)
{
    (void)state;
    struct random random = random_of(1), other = random_of(2);
    double neighbours = 0, streams = 0, last = random_normal(&random);
    for (size_t i = 0; i < DRAWS; i++) {
        double next = random_normal(&random);
        neighbours += last * next;
        streams += next * random_normal(&other);
        last = next;
    }
    assert_true(fabs(neighbours / DRAWS) <= 5 / sqrt(DRAWS));
    assert_true(fabs(streams / DRAWS) <= 5 / sqrt(DRAWS));
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_bits),
    cmocka_unit_test(test_moments),
    cmocka_unit_test(test_independence),
};

GROUP(random, NULL, NULL)
