/* Simulates the whole chain from drum to verdict, case by case, and says how often what is said
 * is true. Usage:
 *   simulate [--trials N] [--seed N] [--case WORDS] [--pulls N] [--share I/N] [--candidate]
 *            [--check] [--nut]
 * A line for each case and number of pulls, tabs between:
 *   covers  of the series about which something is said, those whose drag +- U holds the true
 *           drag: the least of the three places, %
 *   high    called good though the drag lies just above the high limit, %
 *   low     the same below the low limit
 *   good    called good at 78 % of the window, %
 *   could   what an observer would call good there who knows scatter, correlation and the noise
 *           of the weighings, and errs as often as is allowed, %
 *   alarms  called high at the high limit, or low at the low one, or either at 78 %: the most,
 * % refused nothing is said, at 78 %, %
 * --share: the I-th of N shares of the cases, from 0. --check: what is promised must hold; each
 * line that fails says so, and the status is 1. --nut: the nut is moved in so many jobs, case
 * by case (nut.h). */
#include "chain.h"
#include "nut.h"

#include <getopt.h>
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* How much chance may do. About 2,500 promises are looked at in a run, so that each may fail
 * by chance at 1 in 2,500,000 for a run to fail less than once in a thousand. For a program
 * that covers 95 % and errs 2.5 % of the time, 47,000 trials make the chance of seeing less
 * than 94.5 % or more than 3.0 % so small (4.9 standard deviations). With fewer trials the
 * limits lie further out, where the binomial distribution has that share left. */
enum { TRIALS = 47000, MOST_TRIALS = 10000000 };

static const double by_chance = 1e-3 / 2500;

static const double may_miss = 0.05, misses_at_most = 0.055; /* of drag +- U */
static const double may_err = 0.025, errs_at_most = 0.03;    /* at a limit */
static const double asked_power = 0.80, possible = 0.99;
static const double just_outside = 1e-4; /* of a limit */
static const double inside = 0.78;       /* of the window, from the low limit */

enum position { AT_LOW, AT_HIGH, INSIDE, POSITIONS };

static const int pulls[] = {2, 3, 5, 10, 20};

struct options {
    long trials;
    uint64_t seed;
    const char *words;
    int pulls, share, shares;
    decider *decide;
    bool check;
};

/* What was said in so many trials. */
struct tally {
    long trials, said, covered, good, high, low;
};

struct result {
    struct tally at[POSITIONS];
    double could; /* share */
};

static double truth_at(const struct chain *chain, enum position position)
{
    double low = chain_low(chain), high = chain_high(chain);
    if (position == AT_LOW)
        return low * (1 - just_outside);
    return position == AT_HIGH ? high * (1 + just_outside) : low + inside * (high - low);
}

static struct tally tally_of(const struct options *options, const struct chain *chain,
                             int count, enum position position, struct observed *observed)
{
    struct tally tally = {.trials = options->trials};
    double truth = truth_at(chain, position);
    uint64_t stream = (uint64_t)((chain - cases) * 1000 + count * 10 + position);
    struct random random = random_of(options->seed + (stream << 32));
    static struct trial trial;
    for (long i = 0; i < tally.trials; i++) {
        struct answer answer;
        chain_draw(chain, truth, count, &random, &trial);
        observed[i] = observe(&trial);
        options->decide(&trial.data, &answer);
        bool said = answer.state != CALLED_REJECTED;
        tally.said += said;
        tally.covered += said && fabs(answer.drag - truth) <= answer.expanded;
        tally.good += answer.state == CALLED_GOOD;
        tally.high += answer.state == CALLED_HIGH;
        tally.low += answer.state == CALLED_LOW;
    }
    return tally;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* How many standard uncertainties towards the inside the observer must see a drag lie from a
 * limit, so that of those that lie just outside it he calls good what he may. */
static double guard_of(const struct observed *observed, long trials, double limit, int inward)
{
    double *far = malloc((size_t)trials * sizeof *far);
    if (!far)
        exit(3);
    for (long i = 0; i < trials; i++)
        far[i] = inward * (observed[i].drag - limit) / observed[i].u;
    qsort(far, (size_t)trials, sizeof *far, by_size);
    double guard = far[trials - 1 - (long)(may_err * (double)trials)];
    free(far);
    return guard;
}

static double could_be_good(const struct chain *chain, struct observed *at[POSITIONS],
                            long trials)
{
    double low = chain_low(chain), high = chain_high(chain);
    double low_guard = chain->no_low ? -INFINITY : guard_of(at[AT_LOW], trials, low, 1);
    double high_guard = guard_of(at[AT_HIGH], trials, high, -1);
    long good = 0;
    for (long i = 0; i < trials; i++) {
        const struct observed *seen = &at[INSIDE][i];
        good += (seen->drag - low) / seen->u > low_guard &&
                (high - seen->drag) / seen->u > high_guard;
    }
    return (double)good / (double)trials;
}

static struct result result_of(const struct options *options, const struct chain *chain,
                               int count)
{
    struct result result = {.could = 0};
    struct observed *observed[POSITIONS];
    for (int i = 0; i < POSITIONS; i++) {
        observed[i] = malloc((size_t)options->trials * sizeof *observed[i]);
        if (!observed[i])
            exit(3);
        if (i != AT_LOW || !chain->no_low)
            result.at[i] = tally_of(options, chain, count, (enum position)i, observed[i]);
    }
    result.could = could_be_good(chain, observed, options->trials);
    for (int i = 0; i < POSITIONS; i++)
        free(observed[i]);
    return result;
}

/* ---- what is promised ---- */

/* Whether something happened more often than chance explains where it may happen with this
 * share; never where it happened with a share of at most `most`. */
static bool too_often(long times, long trials, double share, double most)
{
    return (double)times > most * (double)trials &&
           gsl_cdf_binomial_Q((unsigned)(times - 1), share, (unsigned)trials) < by_chance;
}

static bool failed(bool fails, const char *what)
{
    if (fails)
        printf("\tFAILED: %s", what);
    return fails;
}

/* How many fail, each told. */
static int broken_promises(const struct chain *chain, int count, const struct result *result)
{
    const struct tally *at = result->at;
    int broken = 0;
    for (int i = 0; i < POSITIONS; i++) {
        bool misses =
            too_often(at[i].said - at[i].covered, at[i].said, may_miss, misses_at_most);
        broken += failed(misses, "covers too little");
        bool high = too_often(at[i].high, at[i].trials, may_err, errs_at_most);
        broken += failed(high && i != AT_LOW && !chain->disputed, "false alarm, high");
        bool low = too_often(at[i].low, at[i].trials, may_err, errs_at_most);
        broken += failed(low && i != AT_HIGH && !chain->disputed, "false alarm, low");
        bool good = too_often(at[i].good, at[i].trials, may_err, errs_at_most);
        broken += failed(good && i == AT_HIGH, "good above the high limit");
        broken += failed(good && i == AT_LOW, "good below the low limit");
    }
    bool asked =
        !chain->withheld && result->could >= possible && (count >= 10 || chain->settings > 0);
    long wanted = at[INSIDE].trials - at[INSIDE].good;
    broken +=
        failed(asked && too_often(wanted, at[INSIDE].trials, 1 - asked_power, 1 - asked_power),
               "seldom good where it could be");
    return broken;
}

static double percent(long part, long whole)
{
    return whole > 0 ? 100.0 * (double)part / (double)whole : NAN;
}

static void print_result(const struct chain *chain, int count, const struct result *result)
{
    const struct tally *at = result->at;
    double covers = INFINITY, alarms = 0;
    for (int i = 0; i < POSITIONS; i++) {
        covers = fmin(covers, percent(at[i].covered, at[i].said));
        if (i != AT_LOW)
            alarms = fmax(alarms, percent(at[i].high, at[i].trials));
        if (i != AT_HIGH)
            alarms = fmax(alarms, percent(at[i].low, at[i].trials));
    }
    printf("%-36s\t%2d\t%5.1f\t%4.1f\t%4.1f\t%5.1f\t%5.1f\t%4.1f\t%5.1f", chain->name, count,
           isfinite(covers) ? covers : NAN, percent(at[AT_HIGH].good, at[AT_HIGH].trials),
           percent(at[AT_LOW].good, at[AT_LOW].trials),
           percent(at[INSIDE].good, at[INSIDE].trials), 100 * result->could, alarms,
           100 - percent(at[INSIDE].said, at[INSIDE].trials));
    if (chain->cheat)
        printf("\tnature can cheat: %s", chain->cheat);
}

/* A log is drawn anew for each trial and takes long to learn from: two numbers of pulls do. */
static bool looked_at(const struct chain *chain, int count)
{
    return chain->settings == 0 || count == 3 || count == 10;
}

static int simulate(const struct options *options)
{
    int broken = 0, share = 0;
    printf("%-36s\t n\tcovers\thigh\tlow\tgood\tcould\talarms\trefused\n", "case");
    for (const struct chain *chain = cases; chain->name; chain++)
        for (size_t i = 0; i < sizeof pulls / sizeof pulls[0]; i++) {
            if (!strstr(chain->name, options->words) || !looked_at(chain, pulls[i]) ||
                (options->pulls && options->pulls != pulls[i]) ||
                share++ % options->shares != options->share)
                continue;
            struct result result = result_of(options, chain, pulls[i]);
            print_result(chain, pulls[i], &result);
            if (options->check && !chain->cheat)
                broken += broken_promises(chain, pulls[i], &result);
            putchar('\n');
            fflush(stdout);
        }
    return broken;
}

/* ---- moving the nut ---- */

/* Of a move or a lock, as the program promises it. */
static const double may_pass_high = 0.1, may_pass_never = 0.025;

static int move_nuts(const struct options *options)
{
    int broken = 0;
    printf("%-36s\tgood\twrong\tmoves\tlocks\tagain\thigh\tnever\tstep high\tstep never\n",
           "case");
    for (const struct nut_case *of = nut_cases; of->name; of++) {
        if (!strstr(of->name, options->words))
            continue;
        struct nut_tally t = simulate_nut(of, options->trials, options->seed);
        double jobs = (double)t.jobs;
        printf("%-36s\t%.1f\t%.2f\t%.1f\t%.1f\t%.2f\t%.1f\t%.2f\t%.2f\t%.3f", of->name,
               percent(t.good, t.jobs), percent(t.wrong, t.good), (double)t.moves / jobs,
               (double)t.locks / jobs, (double)t.unloaded / jobs,
               percent(t.jobs_past_high, t.jobs), percent(t.jobs_past_never, t.jobs),
               percent(t.past_high, t.steps), percent(t.past_never, t.steps));
        if (options->check) {
            broken += failed(too_often(t.past_high, t.steps, may_pass_high, may_pass_high),
                             "passes the high limit");
            broken += failed(too_often(t.past_never, t.steps, may_pass_never, may_pass_never),
                             "passes never-exceed");
            broken += failed(too_often(t.wrong, t.good, may_err, errs_at_most),
                             "good outside the limits");
            broken += failed(t.good < t.jobs * 8 / 10, "seldom comes to good");
        }
        putchar('\n');
        fflush(stdout);
    }
    return broken;
}

static long number(const char *text, long most)
{
    char *end;
    long value = strtol(text, &end, 10);
    if (end == text || *end || value < 0 || value > most) {
        fprintf(stderr, "simulate: %s: a whole number, 0 to %ld, is wanted\n", text, most);
        exit(2);
    }
    return value;
}

int main(int count, char **words)
{
    static const struct option known[] = {{"trials", required_argument, NULL, 't'},
                                          {"seed", required_argument, NULL, 's'},
                                          {"case", required_argument, NULL, 'c'},
                                          {"pulls", required_argument, NULL, 'p'},
                                          {"share", required_argument, NULL, 'h'},
                                          {"candidate", no_argument, NULL, 'd'},
                                          {"check", no_argument, NULL, 'k'},
                                          {"nut", no_argument, NULL, 'n'},
                                          {NULL, 0, NULL, 0}};
    bool nut = false;
    struct options options = {
        .trials = TRIALS, .seed = 1, .words = "", .shares = 1, .decide = judge_by_library};
    for (int option; (option = getopt_long(count, words, "", known, NULL)) != -1;)
        switch (option) {
        case 't':
            options.trials = number(optarg, MOST_TRIALS);
            break;
        case 's':
            options.seed = (uint64_t)number(optarg, INT32_MAX);
            break;
        case 'c':
            options.words = optarg;
            break;
        case 'p':
            options.pulls = (int)number(optarg, CHAIN_PULLS);
            break;
        case 'h':
            options.share = atoi(optarg);
            options.shares =
                strchr(optarg, '/') ? (int)number(strchr(optarg, '/') + 1, 1000) : 1;
            break;
        case 'd':
            options.decide = candidate;
            break;
        case 'k':
            options.check = true;
            break;
        case 'n':
            nut = true;
            break;
        default:
            return 2;
        }
    return (nut ? move_nuts : simulate)(&options) > 0;
}
