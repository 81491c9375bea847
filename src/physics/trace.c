/* From what a gauge read while the cord ran to one steady pull: where it rested, where the
 * spindle broke away, which part was steady over whole turns, its mean and how sure that is.
 * Every pass over the readings is in proportion to their number; what takes more works on the
 * means of at most some hundred stretches. */
#include "physics/physics.h"

#include <stdlib.h>
#include <string.h>

/* Means of stretches of readings. */
enum { MOST_BINS = 600, CELLS = 256 };

struct bins {
    double times[MOST_BINS], values[MOST_BINS], weights[MOST_BINS];
    size_t first[MOST_BINS + 1]; /* index of the first reading of each; of the end */
    size_t count;
};

/* What is known of a trace while it is read. */
struct reading {
    const struct trace_given *given;
    struct trace *trace;
    double step;      /* least change of the reading, or the gauge's step, N */
    double rest, run; /* middle of the low and of the high readings, N */
    double apart;     /* mean distance of readings in the pull, s */
    double noise;     /* standard deviation from reading to reading, N */
    struct bins bins;
};

static bool refuse(struct reading *r, enum trace_fault fault, size_t at)
{
    r->trace->fault = fault;
    r->trace->at = at;
    return false;
}

/* ---- as given ---- */

enum { LEAST_READINGS = 10 };

static bool is_in_order(struct reading *r)
{
    const struct trace_given *g = r->given;
    double least = INFINITY;
    if (g->count < LEAST_READINGS)
        return refuse(r, TRACE_TOO_FEW, 0);
    for (size_t i = 0; i < g->count; i++) {
        if (!isfinite(g->times[i]) || !isfinite(g->forces[i]))
            return refuse(r, TRACE_NOT_A_NUMBER, i);
        if (i && !(g->times[i] > g->times[i - 1]))
            return refuse(r, TRACE_TIME_BACK, i);
        double change = i ? fabs(g->forces[i] - g->forces[i - 1]) : 0;
        if (change > 0 && change < least)
            least = change;
    }
    r->step = isfinite(least) ? least : g->step;
    return true;
}

/* Standard deviation of a reading about the middle of its neighbours, for noise that differs
 * from reading to reading; N. */
static double noise_between(const struct trace_given *g, size_t from, size_t to)
{
    double sum = 0;
    for (size_t i = from + 1; i + 1 < to; i++)
        sum += fabs(g->forces[i] - (g->forces[i - 1] + g->forces[i + 1]) / 2);
    /* the mean of what normal noise deviates is sqrt(2 / pi) of it */
    return to > from + 2 ? sum / (double)(to - from - 2) / sqrt(2 / M_PI) / sqrt(1.5) : 0;
}

static double mean_between(const struct trace_given *g, size_t from, size_t to)
{
    double sum = 0;
    for (size_t i = from; i < to; i++)
        sum += g->forces[i];
    return sum / (double)(to - from);
}

static void fill_bins(const struct trace_given *g, size_t from, size_t to, size_t most,
                      struct bins *bins)
{
    bins->count = to - from < most ? to - from : most;
    for (size_t b = 0; b <= bins->count; b++)
        bins->first[b] = from + (size_t)((double)(to - from) * (double)b / (double)bins->count);
    for (size_t b = 0; b < bins->count; b++) {
        double time = 0, value = 0, count = (double)(bins->first[b + 1] - bins->first[b]);
        for (size_t i = bins->first[b]; i < bins->first[b + 1]; i++) {
            time += g->times[i];
            value += g->forces[i];
        }
        bins->times[b] = time / count;
        bins->values[b] = value / count;
        bins->weights[b] = count;
    }
}

/* ---- the pull: above half of the way from rest to running ---- */

/* The middles of the low and of the high readings: where two groups of them lie furthest apart
 * for their number. Source: Otsu, IEEE Trans. Syst. Man Cybern. 9, 1979, from memory. */
static void find_levels(struct reading *r)
{
    const struct trace_given *g = r->given;
    double least = INFINITY, most = -INFINITY, counts[CELLS] = {0}, sums[CELLS] = {0};
    for (size_t i = 0; i < g->count; i++) {
        least = fmin(least, g->forces[i]);
        most = fmax(most, g->forces[i]);
    }
    double span = most > least ? most - least : 1, total = 0, best = -1;
    for (size_t i = 0; i < g->count; i++) {
        int cell = (int)((g->forces[i] - least) / span * (CELLS - 1e-6));
        counts[cell]++;
        sums[cell] += g->forces[i];
        total += g->forces[i];
    }
    double low = 0, low_sum = 0, all = (double)g->count;
    r->rest = r->run = total / all;
    for (int cell = 0; cell < CELLS - 1; cell++) {
        low += counts[cell];
        low_sum += sums[cell];
        if (low == 0 || low == all)
            continue;
        double rest = low_sum / low, run = (total - low_sum) / (all - low);
        double between = low * (all - low) * (run - rest) * (run - rest);
        if (between > best) {
            best = between;
            r->rest = rest;
            r->run = run;
        }
    }
}

/* A dip below is bridged if it is no longer than this. */
static const double longest_dip = 0.15; /* s */

/* The longest stretch above a reading. */
static void find_pull(struct reading *r, double above)
{
    const struct trace_given *g = r->given;
    size_t from = 0, last = 0, *pull = r->trace->pull;
    bool in = false;
    pull[0] = pull[1] = 0;
    for (size_t i = 0; i < g->count; i++) {
        bool high = g->forces[i] > above;
        if (in && (!high || i + 1 == g->count)) {
            bool over = i - last > 2 && g->times[i] - g->times[last] > longest_dip;
            if (high)
                last = i;
            if ((over || i + 1 == g->count) && last + 1 - from > pull[1] - pull[0]) {
                pull[0] = from;
                pull[1] = last + 1;
            }
            in = !over;
        }
        if (high && !in) {
            from = i;
            in = true;
        }
        if (high)
            last = i;
    }
}

static bool find_parts(struct reading *r)
{
    const struct trace_given *g = r->given;
    struct trace *t = r->trace;
    find_levels(r);
    t->rested = r->run - r->rest > fmax(fabs(r->run), fabs(r->rest)) / 2;
    if (t->rested) {
        find_pull(r, (r->rest + r->run) / 2);
    } else { /* the cord runs from the first reading to the last */
        t->pull[0] = 0;
        t->pull[1] = g->count;
    }
    size_t count = t->pull[1] - t->pull[0];
    if (count < LEAST_READINGS)
        return refuse(r, TRACE_TOO_FEW, 0);
    r->apart = (g->times[t->pull[1] - 1] - g->times[t->pull[0]]) / (double)(count - 1);
    r->noise = noise_between(g, t->pull[0], t->pull[1]);
    return true;
}

/* A gauge that holds its peak never falls. */
static bool peak_is_held(const struct reading *r)
{
    const struct trace_given *g = r->given;
    size_t same = 0;
    for (size_t i = 1; i < g->count; i++) {
        if (g->forces[i] < g->forces[i - 1])
            return false;
        same += g->forces[i] == g->forces[i - 1];
    }
    return r->trace->rested && same > g->count / 2;
}

/* ---- where the gauge rests ---- */

/* How far a stretch may depart from the one before it and still be the same rest. */
static double rest_tolerance(const struct reading *r, double readings, double noise)
{
    return fmax(fmax(r->step * 1.01, 4 * noise / sqrt(readings)), (r->run - r->rest) / 100);
}

/* A stretch of bins that is flat: from the one given, as far as it goes. */
static size_t flat_until(const struct bins *bins, size_t from, double tolerance, double *level)
{
    double sum = bins->values[from];
    size_t to = from + 1;
    while (to < bins->count && fabs(bins->values[to] - sum / (double)(to - from)) <= tolerance)
        sum += bins->values[to++];
    *level = sum / (double)(to - from);
    return to;
}

static double halves_differ(const struct bins *bins, size_t from, size_t to)
{
    double sums[2] = {0};
    size_t half = (to - from) / 2;
    for (size_t i = 0; i < half; i++) {
        sums[0] += bins->values[from + i];
        sums[1] += bins->values[to - 1 - i];
    }
    return half ? fabs(sums[1] - sums[0]) / (double)half : INFINITY;
}

enum { REST_BINS = 300, REST_READINGS = 4 };

static const double shortest_rest = 0.2; /* s */

/* A stretch at rest: where it lies, and what is known of it. */
struct rest {
    size_t from, to; /* readings */
    double level, u; /* N */
};

/* The doubt of a level: what means of eighths of the stretch scatter, so that noise with a
 * memory counts, and the step. */
static double doubt_of_rest(const struct reading *r, size_t from, size_t to)
{
    double means[8];
    size_t count = to - from < 8 ? to - from : 8;
    for (size_t i = 0; i < count; i++)
        means[i] = mean_between(r->given, from + i * (to - from) / count,
                                from + (i + 1) * (to - from) / count);
    struct series series = series_of(means, count);
    double scatter = count > 1 ? series.sd / sqrt((double)count) : 0;
    return hypot(scatter, doubt_of_step(r->step));
}

/* The flat stretch from one reading up to another that lies next to the display's zero: what a
 * hand holds before the spindle breaks away is further from it, and so is what was read before
 * the gauge was zeroed. */
static bool find_rest(struct reading *r, size_t from, size_t to, struct rest *rest)
{
    const struct trace_given *g = r->given;
    struct bins *bins = &r->bins;
    if (to < from + REST_READINGS)
        return false;
    fill_bins(g, from, to, REST_BINS, bins);
    double noise = fmin(noise_between(g, from, to), r->noise);
    double tolerance = rest_tolerance(r, bins->weights[0], noise);
    bool found = false;
    for (size_t b = 0, end; b < bins->count; b = end) {
        double level;
        end = flat_until(bins, b, tolerance, &level);
        size_t first = bins->first[b], behind = bins->first[end];
        bool lasts = behind - first >= REST_READINGS &&
                     g->times[behind - 1] - g->times[first] >= shortest_rest;
        if (!lasts || halves_differ(bins, b, end) > tolerance * 3 / 4 ||
            level > r->rest + (r->run - r->rest) / 4)
            continue;
        if (found && fabs(level) > fabs(rest->level))
            continue;
        found = true;
        if (end - b > 4) { /* the first of the rise and the last of the fall are not rest */
            first = bins->first[b + 1];
            behind = bins->first[end - 1];
        }
        *rest = (struct rest){first, behind, mean_between(g, first, behind), 0};
    }
    if (found)
        rest->u = doubt_of_rest(r, rest->from, rest->to);
    return found;
}

/* Of the way from rest to running: what the zero may move down and not be pressed under load;
 * and what it may creep: more than that the gauge was laid down. */
static const double zeroed = 0.1, crept = 0.05;

static bool find_zero(struct reading *r)
{
    struct trace *t = r->trace;
    struct rest before, behind;
    t->zero_moved = NAN;
    if (!t->rested)
        return true;
    bool seen = find_rest(r, 0, t->pull[0], &before);
    bool seen_behind = find_rest(r, t->pull[1], r->given->count, &behind);
    if (seen && seen_behind) {
        t->zero_moved = behind.level - before.level;
        if (t->zero_moved < -zeroed * (r->run - before.level) && -t->zero_moved > 3 * r->step)
            return refuse(r, TRACE_ZEROED, 0);
    }
    t->rested = seen || seen_behind;
    if (t->rested) {
        const struct rest *rest = seen ? &before : &behind;
        t->zero = rest->level;
        t->zero_u = rest->u;
    }
    if (fabs(t->zero_moved) <= crept * (r->run - t->zero)) { /* halfway, and by how much */
        t->zero += t->zero_moved / 2;
        t->zero_u = hypot(t->zero_u, doubt_rectangular(t->zero_moved / 2));
    }
    return true;
}

/* ---- the breakaway: the first peak, from which the reading falls ---- */

/* The peak is left once the reading has fallen by so much of the pull, and it falls within so
 * much of the time in which it is looked for. Rules of ours. */
static const double fallen = 0.03, falls_within = 1.0 / 8;

static void find_breakaway(struct reading *r, double longest)
{
    const struct trace_given *g = r->given;
    struct trace *t = r->trace;
    size_t peak = t->pull[0], at = peak;
    double enough = fmax(fmax(7 * r->noise, 2.01 * r->step), fallen * (r->run - r->rest));
    t->peak = peak;
    if (!t->rested || t->pull[0] == 0)
        return;
    for (; at < t->pull[1] && g->times[at] - g->times[t->pull[0]] <= longest; at++) {
        if (g->forces[at] > g->forces[peak])
            peak = at;
        if (g->forces[peak] - g->forces[at] > enough)
            break;
    }
    if (at == t->pull[1] || g->forces[peak] - g->forces[at] <= enough ||
        g->times[at] - g->times[peak] > fmax(longest * falls_within, 2 * r->apart))
        return;
    t->broke_away = true;
    t->peak = peak;
    t->breakaway = g->forces[peak] - t->zero;
    t->peak_clipped = g->forces[peak] >= g->capacity - r->step / 2;
}

/* What the reading may still have risen between the highest and the one on a side of it, by how
 * fast it moves on either side. */
static double risen_beside(const struct trace_given *g, size_t peak)
{
    double off = 0, wait = 0;
    for (int side = -1; side <= 1; side += 2) {
        size_t beside = peak + (size_t)side;
        if (beside < g->count)
            wait = fmax(wait, fabs(g->times[beside] - g->times[peak]));
    }
    for (int side = -1; side <= 1; side += 2) {
        size_t beside = peak + (size_t)side;
        if (beside < g->count)
            off = fmax(off, (g->forces[peak] - g->forces[beside]) * wait /
                                fabs(g->times[beside] - g->times[peak]));
    }
    return off;
}

static void doubt_breakaway(struct reading *r)
{
    struct trace *t = r->trace;
    double off = risen_beside(r->given, t->peak);
    double u = hypot(hypot(fmax(r->noise, t->noise), doubt_of_step(r->step)), t->zero_u);
    t->breakaway_u = 2 * hypot(u, doubt_rectangular(off));
}

/* ---- the turn and the steady part ---- */

static int compare(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Where the middle of the pull runs: between which readings all but a twentieth at each end
 * lie. */
static void find_run(const struct bins *bins, double *low, double *high)
{
    double sorted[MOST_BINS];
    size_t from = bins->count * 3 / 10, count = bins->count * 85 / 100 - from;
    memcpy(sorted, bins->values + from, count * sizeof *sorted);
    qsort(sorted, count, sizeof *sorted, compare);
    *low = sorted[count / 20];
    *high = sorted[count - 1 - count / 20];
}

/* The bins from the one in which it first runs to the one in which it last does. */
static bool find_running(struct reading *r, size_t *from, size_t *to)
{
    const struct trace *t = r->trace;
    const struct bins *bins = &r->bins;
    double low, high;
    fill_bins(r->given, t->pull[0], t->pull[1], MOST_BINS, &r->bins);
    find_run(bins, &low, &high);
    double more = fmax((high - low) / 5, r->step);
    *from = 0;
    while (t->broke_away && *from < bins->count && bins->first[*from + 1] <= t->peak)
        ++*from;
    while (*from < bins->count &&
           (bins->values[*from] > high + more || bins->values[*from] < low - more))
        ++*from;
    *to = bins->count;
    while (*to > *from &&
           (bins->values[*to - 1] < low - more || bins->values[*to - 1] > high + more))
        --*to;
    return *to > *from + LEAST_READINGS || refuse(r, TRACE_UNSTEADY, 0);
}

static struct wave_points points_of(const struct bins *bins, size_t from, size_t to)
{
    return (struct wave_points){bins->times + from, bins->values + from, bins->weights + from,
                                to - from};
}

static struct wave_model model_over(double from, double to, double turn, int harmonics)
{
    return (struct wave_model){turn, (from + to) / 2, (to - from) / 2, harmonics, true};
}

/* What is asked of a wave before a turn is taken from it. Rules of ours. */
static const double clear_ratio = 12, shortest_turn = 1; /* s */
static const double turns_to_see = 1.8, off_at_most = 0.2;

/* The turn: in the wave where that is clear, and near what was said where that was said. */
static bool find_turn(struct reading *r, size_t from, size_t to)
{
    struct trace *t = r->trace;
    struct wave_points points = points_of(&r->bins, from, to);
    double length = points.times[points.count - 1] - points.times[0], said = r->given->turn;
    double least = shortest_turn, most = length / turns_to_see, ratio = 0;
    t->turn = said;
    if (said > 0) {
        if (length < 2.5 * said)
            return true;
        least = said * (1 - off_at_most);
        most = said * (1 + off_at_most);
    }
    least = fmax(least, 5 * length / (double)(points.count - 1));
    double found = NAN;
    if (most > least) {
        struct wave_model model =
            model_over(points.times[0], points.times[points.count - 1], 1, 2);
        found = wave_find_turn(&points, model, least, most, &ratio);
    }
    t->turn_seen = ratio > clear_ratio;
    if (t->turn_seen)
        t->turn = found;
    return t->turn > 0 || refuse(r, TRACE_NO_TURN, 0);
}

enum { STRETCHES = 12, FINE = 24 }; /* of a turn */

/* A reading alone that departs from both of its neighbours by so many times what is usual, and
 * by so much of the pull, is a knock and no drag. Rules of ours. */
static const double knock_of_noise = 12, knock_of_pull = 0.05;

static bool is_knock(const struct reading *r, size_t at)
{
    const double *f = r->given->forces;
    if (at == 0 || at + 1 == r->given->count)
        return false;
    double off = fabs(f[at] - (f[at - 1] + f[at + 1]) / 2);
    return off > knock_of_noise * r->noise && off > knock_of_pull * (r->run - r->rest) &&
           fabs(f[at - 1] - f[at + 1]) < off / 4;
}

/* Means of equal times from one time up to another; empty ones are left out. */
static void fill_stretches(struct reading *r, size_t from, size_t to, double wide)
{
    const struct trace_given *g = r->given;
    struct bins *bins = &r->bins;
    double start = g->times[from], end = start + wide;
    size_t i = from;
    bins->count = 0;
    bins->first[0] = from;
    while (i < to && bins->count < MOST_BINS) {
        double time = 0, value = 0;
        size_t first = i, knocks = 0;
        for (; i < to && g->times[i] < end; i++) {
            if (is_knock(r, i)) {
                knocks++;
                continue;
            }
            time += g->times[i];
            value += g->forces[i];
        }
        if (i > first + knocks) {
            double count = (double)(i - first - knocks);
            bins->times[bins->count] = time / count;
            bins->values[bins->count] = value / count;
            bins->weights[bins->count] = count;
            bins->first[++bins->count] = i;
        }
        end += wide * (i < to ? fmax(1, ceil((g->times[i] - end) / wide)) : 1);
    }
}

static double middle_of(double *values, size_t count)
{
    qsort(values, count, sizeof *values, compare);
    return count % 2 ? values[count / 2] : (values[count / 2 - 1] + values[count / 2]) / 2;
}

/* Harmonics that so many readings a turn can carry. */
static int harmonics_for(const struct reading *r)
{
    double a_turn = r->trace->turn / r->apart;
    return a_turn >= 16 ? 3 : a_turn >= 10 ? 2 : 1;
}

/* What lies further off than noise does, at the ends. A rule of ours. */
static const double far_off = 3.5;

/* Cuts from both ends what departs from drift and wave of the rest by more than what lies
 * between scatters; *from and *to are stretches. */
static void cut_ends(const struct reading *r, size_t *from, size_t *to)
{
    const struct bins *bins = &r->bins;
    double off[MOST_BINS], sorted[MOST_BINS];
    for (int round = 0; round < 40; round++) {
        size_t count = *to - *from, first = *from, last = *to;
        struct wave_points points = points_of(bins, first, last);
        struct wave_model model = model_over(bins->times[first], bins->times[last - 1],
                                             r->trace->turn, harmonics_for(r));
        if (count < (size_t)wave_terms(&model) + 4)
            return;
        struct wave wave = wave_fit(&points, &model);
        for (size_t i = 0; i < count; i++)
            sorted[i] = fabs(off[i] = points.values[i] - wave_at(&wave, points.times[i]));
        double usual = middle_of(sorted, count) / 0.6745; /* of normal noise */
        usual = fmax(usual, r->step / sqrt(12));
        if (fabs(off[0]) > far_off * usual)
            ++*from;
        if (fabs(off[count - 1]) > far_off * usual)
            --*to;
        if (*from == first && *to == last)
            return;
    }
}

/* Whole turns in the middle of what is left. */
static bool take_turns(struct reading *r, size_t from, size_t to)
{
    const struct trace_given *g = r->given;
    struct trace *t = r->trace;
    double start = g->times[from], length = g->times[to - 1] - start + r->apart;
    t->turns = (int)(length / t->turn + 0.02);
    if (t->turns < 1)
        return false;
    double spare = fmax(length - t->turns * t->turn, 0);
    for (; g->times[from] < start + spare / 2; from++)
        ;
    start = g->times[from];
    t->steady[0] = from;
    while (to > from && g->times[to - 1] >= start + t->turns * t->turn - r->apart / 2)
        to--;
    t->steady[1] = to;
    return true;
}

enum { LEAST_A_TURN = 5 };

static const double widest_gap = 1.0 / 8; /* of a turn */

static bool is_whole(struct reading *r)
{
    const struct trace_given *g = r->given;
    const struct trace *t = r->trace;
    if ((double)(t->steady[1] - t->steady[0]) < LEAST_A_TURN * t->turns)
        return refuse(r, TRACE_SLOW, 0);
    for (size_t i = t->steady[0]; i < t->steady[1]; i++) {
        if (g->forces[i] >= g->capacity - r->step / 2)
            return refuse(r, TRACE_CLIPPED, i);
        double gap = i > t->steady[0] ? g->times[i] - g->times[i - 1] : 0;
        if (gap > t->turn * widest_gap && gap > 3 * r->apart)
            return refuse(r, TRACE_GAP, i);
    }
    return true;
}

static bool find_steady(struct reading *r)
{
    const struct trace_given *g = r->given;
    struct trace *t = r->trace;
    size_t from, to;
    if (!find_running(r, &from, &to) || !find_turn(r, from, to))
        return false;
    size_t first = r->bins.first[from], last = r->bins.first[to];
    double ran = g->times[last - 1] - g->times[first] + r->apart;
    if (ran < t->turn * 0.98)
        return refuse(r, TRACE_SHORT, 0);
    double wide = fmax(t->turn / STRETCHES, ran / (MOST_BINS - 1));
    fill_stretches(r, first, last, wide);
    from = 0;
    to = r->bins.count;
    cut_ends(r, &from, &to);
    if (to <= from || !take_turns(r, r->bins.first[from], r->bins.first[to]))
        return refuse(r, ran < 1.5 * t->turn ? TRACE_SHORT : TRACE_UNSTEADY, 0);
    return is_whole(r);
}

/* ---- the mean ---- */

/* So much of the mean, as drift or as U, and it is not steady. Rules of ours. */
static const double most_drift = 0.2, most_u = 0.25;

/* How much of a step is left in a mean: readings that move over more steps tell more. */
static double doubt_left_of_step(const struct reading *r)
{
    const struct trace_given *g = r->given;
    double least = INFINITY, most = -INFINITY;
    for (size_t i = r->trace->steady[0]; i < r->trace->steady[1]; i++) {
        least = fmin(least, g->forces[i]);
        most = fmax(most, g->forces[i]);
    }
    return r->step > 0 ? doubt_of_step(r->step) / sqrt((most - least) / r->step + 1) : 0;
}

/* The once a turn of a display that goes one step up and down: 2 / pi of the step. */
static const double square_wave = 2 / M_PI;

/* A wave is two terms: within a circle of so many standard uncertainties lie 95.45 in 100.
 * Fisher's ratio with 2 and nu degrees of freedom, in closed form. */
static double circle_factor(double nu)
{
    return sqrt(nu * (pow(1 - student_coverage, -2 / nu) - 1));
}

static void measure_wave(const struct reading *r)
{
    struct trace *t = r->trace;
    const double *terms = t->wave.terms, *u = t->wave.u;
    int drift = 2 * t->wave.model.harmonics + 1;
    t->once = hypot(terms[1], terms[2]);
    t->once_u = hypot(fmax(u[1], u[2]) * circle_factor(t->wave.nu),
                      square_wave * sqrt(12) * doubt_left_of_step(r));
    t->twice = t->wave.model.harmonics > 1 ? hypot(terms[3], terms[4]) : 0;
    t->thrice = t->wave.model.harmonics > 2 ? hypot(terms[5], terms[6]) : 0;
    t->drift = 2 * terms[drift];
    t->drift_u = 2 * u[drift] * student_factor(student_coverage, t->wave.nu);
}

static bool measure_mean(struct reading *r)
{
    const struct trace_given *g = r->given;
    struct trace *t = r->trace;
    size_t from = t->steady[0], to = t->steady[1];
    double length = g->times[to - 1] - g->times[from] + r->apart;
    double wide = fmax(t->turn / FINE, length / (MOST_BINS - 1));
    fill_stretches(r, from, to, wide);
    struct wave_points points = points_of(&r->bins, 0, r->bins.count);
    struct wave_model model =
        model_over(g->times[from], g->times[to - 1], t->turn, harmonics_for(r));
    while (model.harmonics > 1 && (double)points.count < wave_terms(&model) + 6)
        model.harmonics--;
    t->wave = wave_fit_correlated(&points, &model);
    if (!(t->wave.nu >= 1))
        return refuse(r, TRACE_SLOW, 0);
    measure_wave(r);
    t->mean = t->wave.terms[0] - t->zero;
    if (!(t->mean > 0))
        return refuse(r, TRACE_NO_PULL, 0);
    t->budget[TRACE_NOISE] = (struct doubt){t->wave.u[0], t->wave.nu};
    t->budget[TRACE_STEP] = (struct doubt){doubt_left_of_step(r), INFINITY};
    t->budget[TRACE_ZERO] = (struct doubt){t->zero_u, INFINITY};
    double drifts = fabs(t->drift) > t->drift_u ? fabs(t->drift) : 0;
    t->budget[TRACE_DRIFT] = (struct doubt){doubt_rectangular(drifts / 2), INFINITY};
    t->sureness = sureness_of(t->budget, TRACE_DOUBTS);
    if (drifts > most_drift * t->mean || t->sureness.expanded > most_u * t->mean)
        return refuse(r, TRACE_UNSTEADY, 0);
    return true;
}

/* ---- what else the readings show ---- */

/* Readings that stay for some, and then move by far more than a step. */
static void find_holds(struct reading *r)
{
    const struct trace_given *g = r->given;
    struct trace *t = r->trace;
    double moved = 0, changes = 0;
    size_t from = t->steady[0], to = t->steady[1];
    for (size_t i = from + 1; i < to; i++) {
        moved += fabs(g->forces[i] - g->forces[i - 1]);
        changes += g->forces[i] != g->forces[i - 1];
    }
    double each = changes > 0 ? (double)(to - from) / changes : 0;
    if (each >= 2.5 && moved / changes > 3 * r->step)
        t->holds = each * r->apart;
}

static const double follows = 0.1; /* of what independent readings differ by, squared */

static void find_noise(struct reading *r)
{
    const struct trace_given *g = r->given;
    struct trace *t = r->trace;
    double squares = 0, between = 0, last = 0;
    size_t from = t->steady[0], to = t->steady[1];
    for (size_t i = from; i < to; i++) {
        double off = g->forces[i] - wave_at(&t->wave, g->times[i]);
        squares += off * off;
        if (i > from)
            between += (off - last) * (off - last);
        last = off;
    }
    double variance = squares / (double)(to - from), u = t->wave.u[0];
    t->noise = sqrt(variance);
    t->effective = u > 0 ? fmin(variance / (u * u), (double)(to - from)) : (double)(to - from);
    double ratio = squares > 0 ? between / 2 / squares : 1;
    if (ratio < follows && variance > r->step * r->step / 4 && t->holds == 0)
        t->smooth = r->apart / ratio;
}

enum { SLIP_PARTS = 200 }; /* of a turn: a slip takes no longer than two */

/* Falls that are sudden and have no rises like them. */
static void find_slips(struct reading *r)
{
    const struct trace_given *g = r->given;
    struct trace *t = r->trace;
    size_t from = t->steady[0], to = t->steady[1];
    size_t part = (size_t)fmax(1, t->turn / SLIP_PARTS / r->apart), falls = 0, rises = 0;
    double enough =
        fmax(fmax(6 * r->noise / sqrt((double)part), 2.01 * r->step), 0.04 * t->mean);
    double before = 0, last = 0;
    size_t known = 0, quiet = 0;
    for (size_t i = from; i + part <= to; i += part, known++) {
        double here = mean_between(g, i, i + part);
        if (known >= 2 && known >= quiet && fabs(here - before) > enough) {
            falls += here < before;
            rises += here > before;
            quiet = known + 2;
        }
        before = last;
        last = here;
    }
    if (falls >= 3 * (size_t)t->turns && falls >= 3 * rises)
        t->slips = (double)falls / (t->turns * t->turn);
}

struct trace trace_of(const struct trace_given *given)
{
    struct trace trace = {.fault = TRACE_READ, .zero_moved = NAN};
    struct reading r = {.given = given, .trace = &trace};
    if (!is_in_order(&r) || !find_parts(&r))
        return trace;
    if (peak_is_held(&r)) {
        refuse(&r, TRACE_PEAK_HELD, 0);
        return trace;
    }
    if (!find_zero(&r))
        return trace;
    double pulled = given->times[trace.pull[1] - 1] - given->times[trace.pull[0]];
    find_breakaway(&r, given->turn > 0 ? fmin(given->turn, pulled / 3) : pulled / 3);
    if (!find_steady(&r) || !measure_mean(&r))
        return trace;
    find_holds(&r);
    find_noise(&r);
    find_slips(&r);
    if (trace.broke_away)
        doubt_breakaway(&r);
    return trace;
}
