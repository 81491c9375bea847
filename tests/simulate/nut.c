/* Moving the nut, simulated: along a true curve that stiffens, by the program's own advice,
 * from the slack nut until it is good. What happens on the way is counted: how often a move or
 * a lock takes the true drag past the high limit or never-exceed, and how many moves it takes.
 */
#include "nut.h"

#include "judge/advice.h"
#include "judge/results.h"
#include "random.h"
#include "shop/fields.h"

#include <stdio.h>
#include <string.h>

/* What is true of a lathe; drags in N.m, angles in degrees. */
struct true_lathe {
    double slack, aim, begins, reaches, exponent; /* reaches: degrees from there to the aim */
    double lock, lock_varies;       /* what a lock adds; share by which it varies */
    double scatter, between, scale; /* shares of the pull; of the gauge and drum */
};

enum { ROWS = 80, PULLS = 5, MOST_AGAIN = 4 };

struct true_job {
    const struct nut_case *of;
    struct true_lathe lathe;
    struct random *random;
    struct shop shop;
    struct band band;
    struct pull_series rows[ROWS];
    struct quantity pulls[ROWS][PULLS];
    size_t count;
    double angle, read; /* true, and as read once it has been turned there */
    double lock;        /* what the lock adds now; 0 while it is free */
};

static const double read_to = 0.25, turn_to = 0.25; /* degrees, either way */

const struct nut_case nut_cases[] = {
    {.name = "plain"},
    {.name = "slack drag not logged", .no_slack = true},
    {.name = "lock share known", .lock_known = true},
    {.name = "stiff: the aim after 2 to 6 degrees", .stiff = true},
    {.name = "stiff, slack drag not logged", .stiff = true, .no_slack = true},
    {.name = "never-exceed at 0.85 N.m", .never = "0.85 N.m"},
    {.name = NULL},
};

/* ---- the shop ---- */

static struct quantity quantity_of(enum kind kind, const char *text)
{
    struct quantity quantity;
    struct quantity_fault ignored;
    quantity_parse(text, kind, &quantity, &ignored);
    return quantity;
}

static struct measure measure_of(enum kind kind, const char *text)
{
    return (struct measure){.q = quantity_of(kind, text)};
}

static void build_shop(struct arena *arena, struct true_job *job)
{
    struct shop *shop = &job->shop;
    shop->drum.diameter = measure_of(KIND_LENGTH, "62 mm");
    shop->drum.tolerance = shop->cord.tolerance = measure_of(KIND_LENGTH, "0.05 mm");
    shop->cord.diameter = measure_of(KIND_LENGTH, "0.8 mm");
    shop->gauge.capacity = measure_of(KIND_FORCE, "50 N");
    shop->gauge.step = measure_of(KIND_FORCE, "0.05 N");
    shop->gauge.full_scale_error = measure_of(KIND_RATIO, "0.3 %");
    job->band = (struct band){.from = measure_of(KIND_SPEED, "0 r/min"),
                              .to = measure_of(KIND_SPEED, "1000 r/min"),
                              .low = measure_of(KIND_TORQUE, "0.45 N.m"),
                              .high = measure_of(KIND_TORQUE, "0.70 N.m")};
    shop->limits.bands = &job->band;
    shop->limits.band_count = 1;
    shop->limits.never_exceed =
        measure_of(KIND_TORQUE, job->of->never ? job->of->never : "1.2 N.m");
    shop->lathe.top_speed = job->band.to;
    fields_fill(arena, shop);
}

static double spread(struct random *random, double scale, int nu)
{
    double squares = 0;
    for (int i = 0; i < nu; i++) {
        double z = random_normal(random);
        squares += z * z;
    }
    return scale * sqrt(nu / squares);
}

static struct true_lathe draw_lathe(const struct nut_case *of, struct random *random)
{
    return (struct true_lathe){.slack = random_uniform(random, 0.05, 0.15),
                               .aim = 0.575,
                               .begins = 0,
                               .reaches = of->stiff ? random_uniform(random, 2, 6)
                                                    : random_uniform(random, 5, 20),
                               .exponent = random_uniform(random, 1, 2),
                               .lock = random_uniform(random, 0, 0.22),
                               .lock_varies = 0.15,
                               .scatter = spread(random, 0.02, 4),
                               .between = spread(random, 0.007, 3),
                               .scale = 1 + random_uniform(random, -0.005, 0.005)};
}

/* ---- the truth ---- */

static double true_drag(const struct true_job *job)
{
    const struct true_lathe *lathe = &job->lathe;
    double way = fmax(job->angle - lathe->begins, 0) / lathe->reaches;
    return lathe->slack + (lathe->aim - lathe->slack) * pow(way, lathe->exponent) + job->lock;
}

static void measure(struct true_job *job, enum lock lock)
{
    struct pull_series *row = &job->rows[job->count];
    char text[40];
    double radius = shop_radius(&job->shop);
    double drag = lock == LOCK_UNLOADED ? job->lathe.slack : true_drag(job);
    double pull = drag / radius * job->lathe.scale *
                  (1 + job->lathe.between * random_normal(job->random));
    snprintf(text, sizeof text, "%.1f deg", lock == LOCK_UNLOADED ? -90 : job->read);
    *row = (struct pull_series){.date = "2026-03-01",
                                .note = "",
                                .lock = lock,
                                .nut = quantity_of(KIND_ANGLE, text),
                                .drum = job->shop.drum.diameter.q,
                                .cord = job->shop.cord.diameter.q,
                                .pulls = job->pulls[job->count],
                                .pull_count = PULLS};
    for (int i = 0; i < PULLS; i++) {
        double one = pull * (1 + job->lathe.scatter * random_normal(job->random));
        snprintf(text, sizeof text, "%.2f N", fmax(round(one / 0.05), 0) * 0.05);
        row->pulls[i] = quantity_of(KIND_FORCE, text);
    }
    job->count++;
    job->shop.readings = (struct pull_series_log){job->rows, job->count};
    pull_log_follow_nut(&job->shop.readings);
}

/* ---- the work ---- */

static void look(struct true_job *job, struct nut_tally *tally)
{
    double drag = true_drag(job);
    tally->steps++;
    tally->past_high += drag > job->band.high.q.base;
    tally->past_never += drag > job->shop.limits.never_exceed.q.base;
}

static void begin_again(struct true_job *job)
{
    job->lock = 0;
    job->angle = job->lathe.begins - random_uniform(job->random, 0, 4);
    job->read = job->angle + random_uniform(job->random, -read_to, read_to);
    if (!job->of->no_slack || job->count)
        measure(job, LOCK_UNLOADED);
    measure(job, LOCK_BEFORE);
}

static void turn(struct true_job *job, const struct advice_given *given,
                 struct nut_tally *tally)
{
    double by = given->turns ? given->move.angle : random_uniform(job->random, 1, 2);
    job->angle += fmax(by + random_uniform(job->random, -turn_to, turn_to), 0);
    job->read = fmax(job->read, job->angle + random_uniform(job->random, -read_to, read_to));
    tally->moves++;
}

static void make_fast(struct true_job *job, struct nut_tally *tally)
{
    const struct true_lathe *lathe = &job->lathe;
    job->lock = lathe->lock * fmax(1 + lathe->lock_varies * random_normal(job->random), 0);
    tally->locks++;
    look(job, tally);
    measure(job, LOCK_AFTER);
}

/* Whether the job goes on. */
static bool follow(struct true_job *job, const struct advice_given *given,
                   struct nut_tally *tally, int *again)
{
    bool locked = job->lock > 0 || job->rows[job->count - 1].lock == LOCK_AFTER;
    switch (given->advice) {
    case ADVICE_LEAVE:
    case ADVICE_LEAVE_ABOVE_AIM:
        tally->good++;
        tally->wrong +=
            true_drag(job) > job->band.high.q.base || true_drag(job) < job->band.low.q.base;
        return false;
    case ADVICE_TIGHTEN_UNLOCKED:
    case ADVICE_TIGHTEN:
    case ADVICE_MEASURE_LOW:
        job->lock = 0;
        turn(job, given, tally);
        look(job, tally);
        if (locked)
            make_fast(job, tally);
        else
            measure(job, LOCK_BEFORE);
        return true;
    case ADVICE_LOCK:
    case ADVICE_LOCK_TO_LEARN:
        make_fast(job, tally);
        return true;
    case ADVICE_UNLOAD:
    case ADVICE_UNLOAD_UNLOCKED:
    case ADVICE_UNLOAD_FOR_LOCK:
    case ADVICE_UNLOAD_TO_LEARN:
    case ADVICE_UNLOAD_BACKED_OFF:
        tally->unloaded++;
        begin_again(job);
        return true;
    default: /* more pulls, seat the rollers, a surer gauge: measured again, and not for ever */
        if ((*again)++ == MOST_AGAIN)
            return false;
        measure(job, job->rows[job->count - 1].lock);
        return true;
    }
}

static void work(const struct nut_case *of, struct random *random, struct nut_tally *tally)
{
    static struct true_job job;
    int again = 0;
    bool goes_on = true;
    struct nut_tally before = *tally;
    job = (struct true_job){.of = of, .lathe = draw_lathe(of, random), .random = random};
    struct arena *kept = arena_new();
    build_shop(kept, &job);
    begin_again(&job);
    while (goes_on && job.count + 3 < ROWS) {
        struct arena *arena = arena_new();
        const struct results *results = results_of(arena, &job.shop);
        struct results with = *results;
        if (of->lock_known && isnan(with.lock_added))
            with.lock_added = job.lathe.lock;
        struct advice_given given = advise_on_row(&with, results->latest);
        goes_on = follow(&job, &given, tally, &again);
        arena_free(arena);
    }
    arena_free(kept);
    tally->jobs++;
    tally->jobs_past_high += tally->past_high > before.past_high;
    tally->jobs_past_never += tally->past_never > before.past_never;
}

struct nut_tally simulate_nut(const struct nut_case *of, long jobs, uint64_t seed)
{
    struct nut_tally tally = {0};
    struct random random = random_of(seed + ((uint64_t)(of - nut_cases) << 48));
    while (tally.jobs < jobs)
        work(of, &random, &tally);
    return tally;
}
