#include "made_trace.h"

#include <math.h>
#include <stdlib.h>

/* ---- chance: splitmix64 (Steele, Lea, Flood 2014), normal by Box and Muller ---- */

static double drawn(uint64_t *state)
{
    uint64_t z = (*state += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return ((double)((z ^ (z >> 31)) >> 11) + 0.5) / 9007199254740992.0;
}

static double normal(uint64_t *state)
{
    double u = drawn(state);
    return sqrt(-2 * log(u)) * cos(2 * M_PI * drawn(state));
}

static double between(uint64_t *state, double least, double most)
{
    return least + (most - least) * drawn(state);
}

/* ---- what the spindle does ---- */

struct spindle {
    const struct making *m;
    double begins, peak, runs, ends, stops; /* times */
    double force, phases[6], wobble_phase, slip_phase;
};

/* The angle in turns: the speed goes up and down by the wobble, once in 2.3 turns. */
static double angle_at(const struct spindle *s, double t)
{
    double rate = 2 * M_PI / (2.3 * s->m->turn);
    return (t + s->m->wobble / rate * sin(rate * t + s->wobble_phase)) / s->m->turn;
}

static double running_at(const struct spindle *s, double t)
{
    const struct making *m = s->m;
    double share = 1, middle = (s->runs + s->ends) / 2;
    for (int k = 0; k < 6; k++)
        share += m->waves[k] * cos(2 * M_PI * (k + 1) * angle_at(s, t) + s->phases[k]);
    share += m->drift * (t - middle) / (s->ends - s->runs);
    if (m->slip > 0) {
        double saw = m->slip_rate * t + s->slip_phase;
        share += m->slip * (saw - floor(saw) - 0.5);
    }
    if (m->starts > 0)
        share += 0.1 * fmax(0, 1 - (t - s->peak) / m->starts);
    if (m->slows > 0)
        share -= 0.1 * fmax(0, (t - s->ends) / m->slows);
    return s->force * share;
}

static double force_at(const struct spindle *s, double t)
{
    const struct making *m = s->m;
    double peak = s->force * (m->breakaway > 0 ? m->breakaway : 1);
    if (t < s->begins || t >= s->stops)
        return 0;
    if (t < s->peak) {
        double part = (t - s->begins) / (s->peak - s->begins);
        if (m->hesitates > 0) /* up to there in a quarter, held for a half, then on */
            part = part < 0.25   ? m->hesitates * part * 4
                   : part < 0.75 ? m->hesitates
                                 : m->hesitates + (1 - m->hesitates) * (part - 0.75) * 4;
        return peak * part;
    }
    double running = running_at(s, t), over = peak - running_at(s, s->peak);
    running += m->breakaway > 0 ? over * exp(-(t - s->peak) / m->settle) : 0;
    double lets_go = s->stops - 0.15;
    return t > lets_go ? running * (s->stops - t) / 0.15 : running;
}

/* ---- what the gauge shows ---- */

static double rounded(double value, double step)
{
    return step > 0 ? step * round(value / step) : value;
}

static void show(const struct making *m, struct made_trace *made, uint64_t *chance)
{
    double shown = 0, next = 0, most = 0, *raw = malloc(made->count * sizeof *raw);
    size_t from = 0;
    double sum = 0;
    (void)chance;
    for (size_t i = 0; i < made->count; i++)
        raw[i] = made->forces[i];
    for (size_t i = 0; i < made->count; i++) {
        double value = raw[i];
        if (m->averaged > 0) {
            sum += raw[i];
            while (made->times[i] - made->times[from] > m->averaged)
                sum -= raw[from++];
            value = sum / (double)(i + 1 - from);
        }
        if (m->held > 0) {
            if (made->times[i] >= next) {
                shown = value;
                next += m->held;
            }
            value = shown;
        }
        most = fmax(most, value);
        if (m->peak_held)
            value = most;
        made->forces[i] = rounded(fmin(value, made->capacity), made->step);
    }
    free(raw);
}

struct made_trace make_trace(const struct making *m, uint64_t seed)
{
    uint64_t chance = seed * 7919 + 12345;
    struct spindle s = {.m = m, .force = m->force * between(&chance, 0.7, 1.4)};
    double before = fabs(m->before) * between(&chance, 0.8, 1.2);
    double behind = fabs(m->behind) * between(&chance, 0.8, 1.2);
    s.begins = before;
    s.peak = s.begins + (m->rise > 0 ? m->rise : 0.3) * between(&chance, 0.7, 1.3);
    s.runs = s.peak + (m->breakaway > 0 ? 5 * m->settle : 0) + m->starts;
    s.ends = s.runs + m->turn * (m->turns + between(&chance, 0.1, 0.9));
    s.stops = s.ends + m->slows + 0.2;
    for (int k = 0; k < 6; k++)
        s.phases[k] = between(&chance, 0, 2 * M_PI);
    s.wobble_phase = between(&chance, 0, 2 * M_PI);
    s.slip_phase = drawn(&chance);
    double last = s.stops + behind, first = 0, apart = 1 / m->rate;
    if (m->before < 0)
        first = s.runs - m->turn * 0.05;
    if (m->behind < 0)
        last = s.ends;
    struct made_trace made = {.mean = s.force,
                              .breakaway = m->before > 0 ? m->breakaway * s.force : 0,
                              .wave = m->waves[0] * s.force,
                              .turn = m->turn,
                              .said = m->said > 0 ? m->said * m->turn : NAN,
                              .step = m->step * m->force,
                              .capacity = m->capacity > 0 ? m->capacity * s.force : INFINITY};
    size_t room = (size_t)((last - first) * m->rate) + 8;
    made.times = malloc(room * sizeof *made.times);
    made.forces = malloc(room * sizeof *made.forces);
    double walk = normal(&chance), pressed = s.begins * 0.6, knock = first;
    double kept = m->memory > 0 ? exp(-apart / m->memory) : 0;
    for (size_t k = 0;; k++) {
        double t = first + (double)k * apart + apart * m->jitter * (drawn(&chance) - 0.5);
        if (t > last || made.count + 1 == room)
            break;
        walk = kept * walk + sqrt(1 - kept * kept) * normal(&chance);
        double zero = m->zero + (t < pressed ? m->late_zero : 0) +
                      (t > s.runs ? m->zeroed : 0) +
                      m->zero_moves * (t - first) / (last - first);
        double noise = normal(&chance);
        if (m->tailed && drawn(&chance) < 0.05)
            noise *= 5;
        double pulls = t > s.begins && t < s.stops ? 1 : 0.2; /* at rest it is quieter */
        double force = force_at(&s, t) + m->force * zero +
                       s.force * pulls * (m->noise * noise + m->memory_noise * walk);
        if (m->knocks > 0 && t > knock) {
            force += t > s.begins && t < s.stops ? s.force / 5 : 0;
            knock = t + m->turn / m->knocks * between(&chance, 0.5, 1.5);
        }
        double of_turn = t / m->turn - floor(t / m->turn);
        if (drawn(&chance) < m->dropped || of_turn * m->turn < m->bursts)
            continue;
        made.times[made.count] = t;
        made.forces[made.count++] = force;
    }
    show(m, &made, &chance);
    return made;
}

void free_made_trace(struct made_trace *made)
{
    free(made->times);
    free(made->forces);
}
