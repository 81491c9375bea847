/* How the numbers of a log come about. */
#include "chain.h"

#include "physics/physics.h"

static const double drum = 0.062, cord = 0.0008;              /* m */
static const double capacity = 50;                            /* of the gauge, N */
static const double allowed_skew = 5;                         /* degrees */
static const double latitude = 45;                            /* of the workshop, degrees */
static const double noise_of_weighing = 0.001;                /* share of the load */
static const double gauge_spread = 0.005, zero_spread = 0.05; /* share; N */

enum { TODAY = 3650, YEAR = 365, CHECKED_DAYS_AGO = 30, CHAIN_SESSIONS = 10 };

/* What is true in one trial. */
struct nature {
    double radius;      /* m */
    double scale, zero; /* the gauge shows zero + scale force */
    double branch;      /* share that hysteresis adds to a pull */
    double up, down;    /* and to a weighing */
    double gravity;     /* m/s2 */
    double scatter, correlation, between;
};

static double usual(double value, double otherwise)
{
    return value != 0 ? value : otherwise;
}

double chain_low(const struct chain *chain)
{
    return chain->no_low ? 0 : usual(chain->low, 0.45);
}

double chain_high(const struct chain *chain)
{
    return usual(chain->high, 0.70);
}

/* What is thought of scatter, correlation and windings before any series: as physics.h says. */
static const struct draw prior_scatter = {INVERSE_CHI, 2, 4};
static const struct draw prior_correlation = {SQUARED, 0.95, 0};
static const struct draw prior_between = {INVERSE_CHI, 0.7, 3};

static double drawn(struct random *random, struct draw draw, struct draw usually)
{
    struct draw from = draw.kind == USUAL ? usually : draw;
    double squares = 0;
    switch (from.kind) {
    case UNIFORM:
        return random_uniform(random, from.a, from.b);
    case INVERSE_CHI:
        for (int i = 0; i < (int)from.b; i++) {
            double z = random_normal(random);
            squares += z * z;
        }
        return from.a * sqrt(from.b / squares);
    case SQUARED:
        return from.a * (1 - cbrt(1 - random_share(random)));
    default:
        return from.a;
    }
}

static double within(struct random *random, double half_width)
{
    return random_uniform(random, -half_width, half_width);
}

static void draw_hysteresis(const struct chain *chain, struct random *random,
                            struct nature *nature)
{
    double half = chain->hysteresis / 200;
    switch (chain->hysteresis_kind) {
    case HYSTERESIS_READS_LOW:
        nature->up = nature->down = half;
        nature->branch = -half;
        break;
    case HYSTERESIS_READS_HIGH:
        nature->up = nature->down = -half;
        nature->branch = half;
        break;
    default:
        nature->up = -half;
        nature->down = half;
        nature->branch = within(random, half);
    }
}

static struct nature draw_nature(const struct chain *chain, struct random *random)
{
    struct nature nature = {0};
    double tolerance = usual(chain->tolerance, 0.05) / 1000;
    nature.radius = (drum + within(random, tolerance) + cord + within(random, tolerance)) / 2;
    nature.scale = 1 + chain->gauge_error / 100 + within(random, gauge_spread);
    nature.zero = chain->gauge_zero + within(random, zero_spread);
    draw_hysteresis(chain, random, &nature);
    nature.gravity = chain->gravity_unknown ? gravity_at(90 * random_share(random),
                                                         random_uniform(random, 0, 1000))
                                            : gravity_at(latitude, 0);
    nature.scatter = drawn(random, chain->scatter, prior_scatter) / 100;
    nature.correlation = drawn(random, chain->correlation, prior_correlation);
    nature.between = drawn(random, chain->between, prior_between) / 100;
    return nature;
}

/* ---- the gauge ---- */

static double shown(double reading, double step)
{
    return fmax(round(reading / step), 0) * step;
}

static const struct {
    double mass[10];
    int peak; /* from there on it goes down */
} loads[] = {
    [CHECK_USUAL] = {{1, 2, 3, 2, 1}, 2},
    [CHECK_TWICE] = {{1, 2, 3, 2, 1, 1, 2, 3, 2, 1}, 2},
    [CHECK_UP] = {{1, 2, 3}, 2},
    [CHECK_ONE] = {{2, 2, 2}, 2},
    [CHECK_TOO_LIGHT] = {{0.3, 0.6, 0.9, 0.6, 0.3}, 2},
    [CHECK_NONE] = {{0}, 0},
};

/* Errors of three masses, shares: marked with the least, twice and three times the least. */
struct masses {
    double error[3];
};

static struct masses draw_masses(const struct chain *chain, struct random *random)
{
    struct masses masses;
    double tolerance = usual(chain->mass_tolerance, 0.1);
    const struct draw within_it = {UNIFORM, -tolerance, tolerance};
    for (int i = 0; i < 3; i++)
        masses.error[i] = i > 0 && chain->mass_common
                              ? masses.error[0]
                              : drawn(random, chain->mass_error, within_it) / 100;
    return masses;
}

static void weigh(const struct chain *chain, const struct nature *nature,
                  const struct masses *masses, double scale, int day, struct random *random,
                  struct chain_data *data)
{
    const double *mass = loads[chain->check].mass;
    double zeroed = within(random, data->step / 2);
    for (int i = 0; i < 10 && mass[i] > 0; i++) {
        bool down = i % 5 > loads[chain->check].peak;
        int which = (int)lround(mass[i] / mass[0]) - 1;
        double force = weight_of(mass[i] * (1 + masses->error[which]), nature->gravity);
        double reading = nature->zero + zeroed +
                         scale * force *
                             (1 + (down ? nature->down : nature->up) +
                              noise_of_weighing * random_normal(random));
        data->weighings[data->weighing_count++] = (struct weighing_seen){
            day, down, mass[i], mass[i] * usual(chain->mass_tolerance, 0.1) / 100,
            shown(reading, data->step)};
    }
}

/* The scale at the last session is nature's; before it was dropped it was another. */
static void draw_checks(const struct chain *chain, const struct nature *nature,
                        struct random *random, struct chain_data *data)
{
    struct masses masses = draw_masses(chain, random);
    int sessions = chain->sessions ? chain->sessions : 1;
    double scale[CHAIN_SESSIONS] = {nature->scale}; /* the last session first */
    for (int i = 1; i < sessions; i++) {
        scale[i] = scale[i - 1] * (1 + within(random, chain->drift / 100));
        if (i == 1)
            scale[i] /= 1 + chain->dropped / 100;
    }
    for (int i = sessions; i-- > 0;)
        weigh(chain, nature, &masses, scale[i], TODAY - CHECKED_DAYS_AGO - YEAR * i, random,
              data);
    if (chain->check_after)
        weigh(chain, nature, &masses, nature->scale * 0.95, TODAY + YEAR, random, data);
}

/* ---- pulls ---- */

static void pull(const struct chain *chain, const struct nature *nature, double truth,
                 struct random *random, double step, struct series_seen *series)
{
    double skew =
        chain->skew_always ? chain->skew_always : random_uniform(random, 0, allowed_skew);
    double force = truth / (nature->radius * cos(radians(skew)));
    double winding = nature->between * random_normal(random), zeroed = within(random, step / 2);
    double rho = nature->correlation, error = random_normal(random);
    int odd = (int)(random_share(random) * series->count);
    for (int i = 0; i < series->count; i++) {
        double off = winding + nature->scatter * error +
                     chain->trend / 100 * (i - series->count + 1) +
                     (i == odd ? chain->outlier / 100 : 0);
        double reading =
            nature->zero + zeroed + nature->scale * force * (1 + off) * (1 + nature->branch);
        series->pulls[i] = shown(reading, step);
        error = rho * error + sqrt(1 - rho * rho) * random_normal(random);
    }
}

static void draw_history(const struct chain *chain, const struct nature *nature,
                         struct random *random, struct chain_data *data)
{
    double low = chain_low(chain), high = chain_high(chain);
    for (int setting = 0; setting < chain->settings; setting++) {
        double truth = random_uniform(random, fmax(low, high / 2), high);
        for (int winding = 0; winding < chain->windings; winding++) {
            struct series_seen *row = &data->history[data->history_count++];
            row->day = TODAY - CHECKED_DAYS_AGO + 1 + setting;
            row->setting = setting;
            row->count = chain->history_pulls;
            pull(chain, nature, truth, random, data->step, row);
        }
    }
}

void chain_draw(const struct chain *chain, double truth, int count, struct random *random,
                struct trial *trial)
{
    struct nature nature = draw_nature(chain, random);
    struct chain_data *data = &trial->data;
    double tolerance = usual(chain->tolerance, 0.05) / 1000;
    data->drum = drum;
    data->cord = cord;
    data->drum_tolerance = data->cord_tolerance = tolerance;
    data->step = usual(chain->step, 0.05);
    data->capacity = capacity;
    data->stated_error = 0.005 * capacity;
    data->latitude = chain->gravity_unknown ? NAN : latitude;
    data->gravity = chain->gravity_unknown ? standard_gravity : gravity_at(latitude, 0);
    data->skew = allowed_skew;
    data->weighing_count = data->history_count = 0;
    data->increase = chain->slack > 0;
    data->low = chain_low(chain);
    data->high = chain_high(chain);
    data->today = TODAY;
    draw_checks(chain, &nature, random, data);
    nature.scale *= 1 + within(random, chain->drift / 100);
    draw_history(chain, &nature, random, data);
    double slack = chain->slack * data->high;
    data->slack.day = data->series.day = TODAY;
    data->slack.setting = -1;
    data->slack.count = 0;
    if (data->increase) {
        data->slack.count = chain->slack_pulls ? chain->slack_pulls : count;
        pull(chain, &nature, slack, random, data->step, &data->slack);
    }
    data->series.setting = chain->settings;
    data->series.count = count;
    pull(chain, &nature, truth + slack, random, data->step, &data->series);
    trial->scatter = nature.scatter;
    trial->between = nature.between;
    trial->correlation = nature.correlation;
}

/* ---- the observer ---- */

/* The mean with the least variance for an AR(1) series: the ends count whole, what stands
 * between them less, for their neighbours say most of it. *share: its variance, of that of one
 * pull: (1 + rho) / (n - (n - 2) rho). */
static double best_mean(const struct series_seen *series, double correlation, double *share)
{
    double sum = 0, weights = 0;
    for (int i = 0; i < series->count; i++) {
        double weight = i == 0 || i == series->count - 1 ? 1 : 1 - correlation;
        sum += weight * series->pulls[i];
        weights += weight;
    }
    *share = series->count > 1 ? (1 + correlation) / weights : 1;
    return sum / weights;
}

/* A gauge's line with the covariance of its zero and scale. */
struct observed_line {
    double zero, scale, zero_variance, scale_variance, covariance;
};

/* By the last session up to today, with what a gauge can be taken for before it is weighed: a
 * scale within some 10 %, a zero within some 0.2 N. Where it never was, by its data sheet. */
static struct observed_line observe_line(const struct chain_data *data)
{
    double scale_before = data->weighing_count > 0 ? 0.1 : 0.005, zero_before = 0.2;
    int day = -1;
    for (int i = 0; i < data->weighing_count; i++)
        if (data->weighings[i].day <= data->today && data->weighings[i].day > day)
            day = data->weighings[i].day;
    double w00 = 1 / (zero_before * zero_before), w01 = 0,
           w11 = 1 / (scale_before * scale_before), r0 = 0, r1 = 0;
    for (int i = 0; i < data->weighing_count; i++) {
        const struct weighing_seen *seen = &data->weighings[i];
        if (seen->day != day)
            continue;
        double force = weight_of(seen->mass, data->gravity);
        double noise = noise_of_weighing * force;
        double variance = noise * noise + data->step * data->step / 12 +
                          pow(seen->mass_tolerance / seen->mass * force, 2) / 3;
        w00 += 1 / variance;
        w01 += force / variance;
        w11 += force * force / variance;
        r0 += (seen->reading - force) / variance;
        r1 += (seen->reading - force) * force / variance;
    }
    double determinant = w00 * w11 - w01 * w01;
    return (struct observed_line){.zero = (w11 * r0 - w01 * r1) / determinant,
                                  .scale = 1 + (w00 * r1 - w01 * r0) / determinant,
                                  .zero_variance = w11 / determinant,
                                  .scale_variance = w00 / determinant,
                                  .covariance = -w01 / determinant};
}

struct observed observe(const struct trial *trial)
{
    const struct chain_data *data = &trial->data;
    struct observed_line line = observe_line(data);
    double radius = drag_radius(data->drum, data->cord), rho = trial->correlation, share, other;
    double reading = best_mean(&data->series, rho, &share), lever = reading - line.zero;
    double one = data->step * data->step / 12; /* a zero, set anew */
    double scatter = trial->scatter * trial->scatter, between = trial->between * trial->between;
    double variance = lever * lever * (scatter * share + between) + one;
    double zero = line.zero;
    if (data->increase) {
        zero = best_mean(&data->slack, rho, &other);
        variance += zero * zero * (scatter * other + between) + one;
        variance += pow(reading - zero, 2) * line.scale_variance;
    } else {
        variance += one + line.zero_variance + 2 * lever * line.covariance +
                    lever * lever * line.scale_variance;
    }
    double of_drum = hypot(data->drum_tolerance, data->cord_tolerance) / 2 / sqrt(3) / radius;
    double drag = (reading - zero) / line.scale * radius;
    return (struct observed){drag, hypot(sqrt(variance) / line.scale * radius, drag * of_drum)};
}
