/* From pulls read on a gauge to a drag, how sure it is, and with what chance it lies beyond a
 * limit.
 *
 * The scatter of pulls is learned. Before any series its variance is that of a stated prior;
 * each series adds its squares and its degrees of freedom, so that what is known grows surely
 * and slowly, and two pulls that look alike by luck move it little. The same sums are kept for
 * every correlation between neighbouring pulls that is thought possible; how well each one
 * explains the series is its weight.
 *
 * The gauge's reading is taken back through the line of its check to the force. What is known
 * of each input goes into a budget (JCGM 100); of the drag so measured Student's distribution
 * says the chance of lying beyond a limit (JCGM 106). */
#include "physics/physics.h"

/* ---- the scatter of pulls ---- */

/* What the prior is worth: a sample variance of as many degrees of freedom. A rule of ours:
 * 95 in 100 lathes then lie between 0.6 and 2.9 times the stated scatter. */
static const double prior_df = 4;

/* Older series fade, so that no more is known than so many degrees of freedom: hands, cords
 * and gauges change. A rule of ours. */
static const double most_df = 80;

/* The correlations that are thought possible, each the middle of an eighth of 0 to this; the
 * nearer to none the likelier, falling to nothing. A rule of ours. */
static const double most_correlation = 0.95;

static double correlation_at(int i)
{
    return most_correlation * (i + 0.5) / CORRELATIONS;
}

struct scatter scatter_before_any(double sd)
{
    struct scatter scatter = {.df = prior_df};
    for (int i = 0; i < CORRELATIONS; i++) {
        scatter.squares[i] = prior_df * sd * sd;
        scatter.evidence[i] = 2 * log(1 - correlation_at(i) / most_correlation);
    }
    return scatter;
}

/* Sums over the deviations d of a series from its mean, of which the squares under every
 * correlation are made. */
struct deviations {
    double count;
    double all;        /* d^2 */
    double inner;      /* d^2 but for the first and the last */
    double neighbours; /* d times the one before it */
    double ends;       /* the first and the last d added */
};

static struct deviations deviations_of(const double *pulls, size_t count, double mean)
{
    struct deviations sums = {.count = (double)count,
                              .ends = (pulls[0] + pulls[count - 1]) / mean - 2};
    for (size_t i = 0; i < count; i++) {
        double d = pulls[i] / mean - 1;
        sums.all += d * d;
        if (i > 0 && i < count - 1)
            sums.inner += d * d;
        if (i > 0)
            sums.neighbours += d * (pulls[i - 1] / mean - 1);
    }
    return sums;
}

/* Of a series whose pulls follow each other with correlation r^k over k places the inverse of
 * the correlation matrix has three diagonals. With it: the weighted square sum about the
 * weighted mean; the sum of all its elements (one); its determinant is (1 - r^2)^(1 - n).
 * Source: autoregression of first order, textbooks of time series. */
static double weighted_squares(const struct deviations *d, double r, double *one)
{
    double squares = (d->all + r * r * d->inner - 2 * r * d->neighbours) / (1 - r * r);
    double sum = r * d->ends / (1 + r);
    *one = (d->count - (d->count - 2) * r) / (1 + r);
    return fmax(squares - sum * sum / *one, 0);
}

void scatter_learn(struct scatter *scatter, const double *pulls, size_t count, double step)
{
    double mean = series_of(pulls, count).mean;
    if (count < 2 || !(mean > 0))
        return;
    struct deviations sums = deviations_of(pulls, count, mean);
    double of_steps = (sums.count - 1) * step * step / 12 / (mean * mean);
    for (int i = 0; i < CORRELATIONS; i++) {
        double r = correlation_at(i), one;
        double squares = weighted_squares(&sums, r, &one);
        scatter->squares[i] += fmax(squares - of_steps, 0);
        scatter->evidence[i] -= ((sums.count - 1) * log(1 - r * r) + log(one)) / 2;
    }
    scatter->df += sums.count - 1;
    double kept = fmin(1, most_df / scatter->df);
    scatter->df *= kept;
    for (int i = 0; i < CORRELATIONS; i++) {
        scatter->squares[i] *= kept;
        scatter->evidence[i] *= kept;
    }
}

/* n^2 times the variance of a mean of n pulls, in variances of one of them: the sum of the
 * correlations of all pairs, over n. 1 without correlation. */
static double correlated(double r, double count)
{
    double sum = 1, power = 1;
    for (double k = 1; k < count; k++)
        sum += 2 * (count - k) / count * (power *= r);
    return sum;
}

struct scatter_of_mean scatter_of_mean(const struct scatter *scatter, size_t count)
{
    struct scatter_of_mean known = {.nu = scatter->df};
    double weights[CORRELATIONS], best = -INFINITY, sum = 0, variance = 0, one = 0;
    for (int i = 0; i < CORRELATIONS; i++) {
        weights[i] = scatter->evidence[i] - scatter->df / 2 * log(scatter->squares[i]);
        best = fmax(best, weights[i]);
    }
    for (int i = 0; i < CORRELATIONS; i++)
        sum += weights[i] = exp(weights[i] - best);
    for (int i = 0; i < CORRELATIONS; i++) {
        double share = weights[i] / sum, r = correlation_at(i);
        double of_one = scatter->squares[i] / scatter->df;
        one += share * of_one;
        variance += share * of_one * correlated(r, (double)count) / (double)count;
        known.correlation += share * r;
    }
    known.sd = sqrt(one);
    known.u = sqrt(variance);
    return known;
}

/* ---- what is odd about a series ---- */

static const double odd_chance = 0.002; /* of calling odd what is all right */

/* Two steps of the gauge, and a hair that doubles may have rounded: what moves no more is not
 * called odd. */
static double most_steps(double step)
{
    return 2 * step * 1.000001;
}

static bool wider_than_known(const struct scatter_of_mean *known, const struct series *series,
                             double step)
{
    double share = series->sd / series->mean, of_step = step / series->mean;
    double expected = known->sd * known->sd + of_step * of_step / 12;
    return fisher_above(share * share / expected, (double)series->count - 1, known->nu) <
           odd_chance / 2;
}

/* A line of the pulls against their order, and Student's test of its slope. Pulls that are
 * correlated drift by chance: the slope's doubt grows as that of a mean does. */
static bool rises_or_falls(const struct scatter_of_mean *known, const double *pulls,
                           size_t count, double step)
{
    double order[count]; /* a handful */
    for (size_t i = 0; i < count; i++)
        order[i] = (double)i;
    struct line line = line_through(order, pulls, count);
    if (!(fabs(line.slope) * (double)(count - 1) > most_steps(step)))
        return false;
    double grown = known->u / known->sd * sqrt((double)count);
    double doubt = grown * line.slope_se + step / sqrt(12) / sqrt((double)count);
    return 2 * student_above(fabs(line.slope) / doubt, (double)count - 2) < odd_chance;
}

/* The largest deviation over the standard deviation, G, is
 * (n - 1) / sqrt(n) * sqrt(t^2 / (n - 2 + t^2)) with the t of Student's distribution that is
 * exceeded by a chance of odd_chance / (2 n) where all is right. Solved here for the t of this
 * G. Source: Grubbs, Technometrics 11, 1969, from memory. */
static int furthest_out(const double *pulls, const struct series *series, double step)
{
    int at = 0;
    double n = (double)series->count;
    for (size_t i = 1; i < series->count; i++)
        if (fabs(pulls[i] - series->mean) > fabs(pulls[at] - series->mean))
            at = (int)i;
    double off = fabs(pulls[at] - series->mean), g = off / series->sd;
    if (!(off > most_steps(step)))
        return -1;
    double square = n * g * g, left = (n - 1) * (n - 1) - square; /* none: as far as can be */
    double t = left > 0 ? sqrt((n - 2) * square / left) : INFINITY;
    return student_above(t, n - 2) < odd_chance / (2 * n) ? at : -1;
}

struct oddities series_oddities(const struct scatter *before, const double *pulls, size_t count,
                                double step)
{
    struct oddities odd = {.outlier = -1};
    struct series series = series_of(pulls, count);
    double range = series.most - series.least;
    if (count < 2 || !(series.mean > 0))
        return odd;
    struct scatter_of_mean known = scatter_of_mean(before, count);
    odd.scattered = range > most_steps(step) && wider_than_known(&known, &series, step);
    odd.trend = count >= 3 && rises_or_falls(&known, pulls, count, step);
    if (count >= 4)
        odd.outlier = furthest_out(pulls, &series, step);
    odd.stuck = count >= 4 && !(range > 0) && known.sd * series.mean > step;
    return odd;
}

/* ---- what taking the whole set-up anew does ---- */

/* The cord is wound anew, the drum is put on anew: what all pulls of one series share and
 * another series does not. A rule of ours. */
static const double usual_between = 0.007, between_df = 3;

struct between between_before_any(void)
{
    return (struct between){between_df, between_df * usual_between * usual_between};
}

void between_learn(struct between *between, double difference, double variance, size_t count)
{
    if (!isfinite(difference) || !isfinite(variance))
        return;
    between->df += 1;
    between->squares += fmax(difference * difference - variance, 0) / (1 + 1 / (double)count);
    double kept = fmin(1, most_df / between->df);
    between->df *= kept;
    between->squares *= kept;
}

/* ---- a gauge's line, read from the reading to the force ---- */

/* What the readings of a check are thought to scatter about its line before they are seen is
 * worth as many degrees of freedom as the prior of the pulls. */
struct gauge_line gauge_line_through(const double *forces, const double *readings, size_t count,
                                     double step)
{
    struct gauge_line line = {.slope = NAN, .count = count};
    struct line fitted = line_through(forces, readings, count);
    if (!(fitted.slope > 0))
        return line;
    line.intercept = fitted.intercept;
    line.slope = fitted.slope;
    line.middle = series_of(forces, count).mean;
    for (size_t i = 0; i < count; i++)
        line.sxx += (forces[i] - line.middle) * (forces[i] - line.middle);
    double usual = doubt_of_step(step);
    line.nu = prior_df + (double)count - 2;
    line.sd = sqrt((prior_df * usual * usual + fitted.squares) / line.nu);
    return line;
}

double gauge_line_force(const struct gauge_line *line, double reading)
{
    return (reading - line->intercept) / line->slope;
}

double gauge_line_reading(const struct gauge_line *line, double force)
{
    return line->intercept + line->slope * force;
}

double gauge_line_u(const struct gauge_line *line, double force)
{
    double away = force - line->middle;
    return line->sd / line->slope * sqrt(1 / (double)line->count + away * away / line->sxx);
}

/* ---- the budget of a drag ---- */

static struct doubt range(double half_width)
{
    return (struct doubt){doubt_rectangular(half_width), INFINITY};
}

/* All that is read lies within one step: the rounding of every pull is then the same, and no
 * number of them makes it less. Else it differs from pull to pull. */
static double u_of_steps(const struct pull_mean *pulls, double step)
{
    bool together = pulls->range <= step * 1.000001;
    return doubt_of_step(step) / (together ? 1 : sqrt((double)pulls->count));
}

/* What a mean of pulls has alone, in newtons of force: its scatter, its set-up, its steps.
 * more: of another series, the slack one; or NULL. */
static void add_of_pulls(const struct measuring *m, const struct pull_mean *pulls,
                         struct doubt *budget)
{
    double slope = m->check ? m->check->slope : 1;
    struct scatter_of_mean scatter = scatter_of_mean(&m->scatter, pulls->count);
    double force = pulls->reading / slope;
    double u[] = {scatter.u * force, sqrt(m->between.squares / m->between.df) * force,
                  u_of_steps(pulls, m->step) / slope, pulls->traces / slope};
    static const enum budget_row sources[] = {BUDGET_SCATTER, BUDGET_BETWEEN, BUDGET_STEP,
                                              BUDGET_TRACES};
    for (int i = 0; i < 4; i++)
        budget[sources[i]].u = hypot(budget[sources[i]].u, u[i]);
    budget[BUDGET_SCATTER].nu = scatter.nu;
    budget[BUDGET_BETWEEN].nu = m->between.df;
}

static double force_of(const struct measuring *m, double reading)
{
    return m->check ? gauge_line_force(m->check, reading) : reading;
}

/* What the gauge's check leaves open of a force, or of a difference of two; N. */
static struct doubt of_line(const struct measuring *m, double force, double slack)
{
    const struct gauge_line *line = m->check;
    struct doubt doubt = {.nu = line->nu};
    if (m->slack.count)
        doubt.u = line->sd / line->slope * fabs(force - slack) / sqrt(line->sxx);
    else
        doubt.u = gauge_line_u(line, force);
    return doubt;
}

/* Without a factor yet. */
static struct uncertainty combined(const struct doubt *doubts, size_t count)
{
    double squares = 0, of_few = 0;
    for (size_t i = 0; i < count; i++) {
        double square = doubts[i].u * doubts[i].u;
        squares += square;
        of_few += square / doubts[i].nu;
    }
    double standard = sqrt(squares);
    return (struct uncertainty){.standard = standard,
                                .nu = of_few > 0 ? standard * standard / of_few : INFINITY};
}

static void expand(struct uncertainty *sum)
{
    sum->factor = student_factor(student_coverage, sum->nu);
    sum->expanded = sum->factor * sum->standard;
}

struct uncertainty sureness_of(const struct doubt *doubts, size_t count)
{
    struct uncertainty sum = combined(doubts, count);
    expand(&sum);
    return sum;
}

/* Most of the doubt is a share of the drag: were the drag at the limit, it would be larger
 * there than here in proportion. Else a drag that is read too low by chance would be taken for
 * the surer one. */
static double chance_of(double beyond, const struct drag_measured *drag, double limit)
{
    double grown = fmax(limit - drag->drag, 0) + drag->whole, u = drag->sureness.standard;
    u = sqrt(u * u + drag->share * drag->share * (grown * grown - drag->whole * drag->whole));
    return u > 0 ? student_above(-beyond / u, drag->sureness.nu) : beyond > 0;
}

struct chance chance_above(const struct drag_measured *drag, double limit)
{
    double beyond = drag->drag - limit;
    return (struct chance){chance_of(beyond - drag->askew, drag, limit),
                           chance_of(beyond + drag->askew, drag, limit)};
}

struct chance chance_below(const struct drag_measured *drag, double limit)
{
    double beyond = limit - drag->drag;
    return (struct chance){chance_of(beyond - drag->askew, drag, limit),
                           chance_of(beyond + drag->askew, drag, limit)};
}

/* The part of the budget that is in proportion to the drag, as a share of it. */
static double share_of(const struct doubt *budget, double drag)
{
    static const enum budget_row rows[] = {BUDGET_SCATTER, BUDGET_BETWEEN, BUDGET_MASSES,
                                           BUDGET_GRAVITY, BUDGET_DRIFT,   BUDGET_DRUM,
                                           BUDGET_CORD};
    double squares = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        squares += budget[rows[i]].u * budget[rows[i]].u;
    return drag > 0 ? sqrt(squares) / drag : 0;
}

/* Both series have it, each for itself. */
static struct doubt twice_if(bool both, struct doubt doubt)
{
    return both ? (struct doubt){doubt.u * sqrt(2), doubt.nu} : doubt;
}

/* All doubts in newtons of force, or of the difference of two; then in newton-metres. */
struct drag_measured measure_drag(const struct measuring *m, struct doubt *budget)
{
    bool increase = m->slack.count > 0;
    double slope = m->check ? m->check->slope : 1;
    double force = force_of(m, m->pulls.reading);
    double slack = increase ? force_of(m, m->slack.reading) : 0, net = force - slack;
    double lost = -drag_correction_for_skew(m->skew); /* the most; the middle is taken off */
    double radius = drag_radius(m->drum, m->cord), arm = radius * (1 - lost / 2);
    for (int i = 0; i < BUDGET_ROWS; i++)
        budget[i] = (struct doubt){0, INFINITY};
    add_of_pulls(m, &m->pulls, budget);
    if (increase)
        add_of_pulls(m, &m->slack, budget);
    budget[BUDGET_ZERO] = twice_if(increase, range(m->zero / slope));
    struct doubt stated = range(m->stated);
    if (m->check) {
        budget[BUDGET_GAUGE] = of_line(m, force, slack);
        budget[BUDGET_MASSES] = range(m->masses * net);
        budget[BUDGET_GRAVITY] = range(m->gravity * net);
        budget[BUDGET_DRIFT] = range(m->drift * net);
        budget[BUDGET_HYSTERESIS] = range(m->hysteresis / slope);
        budget[BUDGET_ORIENTATION] = range(increase ? 0 : m->orientation / slope);
    }
    if (!m->check || stated.u > budget[BUDGET_GAUGE].u)
        budget[BUDGET_GAUGE] = stated;
    budget[BUDGET_DRUM] = range(net * m->drum_tolerance / (m->drum + m->cord));
    budget[BUDGET_CORD] = range(net * m->cord_tolerance / (m->drum + m->cord));
    for (int i = 0; i < BUDGET_ROWS; i++)
        budget[i].u *= arm;
    struct drag_measured drag = {.drag = net * arm,
                                 .whole = force * arm,
                                 .askew = fabs(net) * radius * lost / 2,
                                 .per_newton = arm / slope,
                                 .per_metre = net * (1 - lost / 2) / 2};
    drag.share = share_of(budget, drag.whole);
    drag.sureness = combined(budget, BUDGET_ROWS);
    return drag;
}

void drag_expand(struct drag_measured *drag)
{
    expand(&drag->sureness);
    drag->sureness.expanded += drag->askew;
}
