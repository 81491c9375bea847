/* Chance from a seed: the same draws on every machine. xoshiro256** of Blackman and Vigna
 * (2018), whose state splitmix64 fills from the seed, as its authors advise. */
#ifndef SIMULATE_RANDOM_H
#define SIMULATE_RANDOM_H

#include <math.h>
#include <stdbool.h>
#include <stdint.h>

struct random {
    uint64_t state[4];
    double spare; /* the second of a pair of normal draws */
    bool has_spare;
};

static inline uint64_t splitmix64(uint64_t *at)
{
    uint64_t z = (*at += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

static inline struct random random_of(uint64_t seed)
{
    struct random random = {.has_spare = false};
    for (int i = 0; i < 4; i++)
        random.state[i] = splitmix64(&seed);
    return random;
}

static inline uint64_t rotated_left(uint64_t bits, int by)
{
    return (bits << by) | (bits >> (64 - by));
}

static inline uint64_t random_bits(struct random *random)
{
    uint64_t *s = random->state, bits = rotated_left(s[1] * 5, 7) * 9, t = s[1] << 17;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = rotated_left(s[3], 45);
    return bits;
}

/* 0 <= draw < 1, in steps of 2^-53. */
static inline double random_share(struct random *random)
{
    return (double)(random_bits(random) >> 11) * 0x1p-53;
}

static inline double random_uniform(struct random *random, double from, double to)
{
    return from + (to - from) * random_share(random);
}

/* Highest in the middle. */
static inline double random_triangular(struct random *random, double from, double to)
{
    return from + (to - from) * (random_share(random) + random_share(random)) / 2;
}

/* Mean 0, standard deviation 1: Marsaglia's polar way. */
static inline double random_normal(struct random *random)
{
    if (random->has_spare) {
        random->has_spare = false;
        return random->spare;
    }
    double x, y, square;
    do {
        x = random_uniform(random, -1, 1);
        y = random_uniform(random, -1, 1);
        square = x * x + y * y;
    } while (square >= 1 || square == 0);
    double factor = sqrt(-2 * log(square) / square);
    random->spare = y * factor;
    random->has_spare = true;
    return x * factor;
}

#endif
