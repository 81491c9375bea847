/* A wave of known period with harmonics, fitted to readings at any times; and the period that
 * explains them best. */
#include "physics/physics.h"

#include <string.h>

enum { COLUMNS = WAVE_TERMS + 1 }; /* the terms', then the value's */

int wave_terms(const struct wave_model *model)
{
    return 1 + 2 * model->harmonics + model->drift;
}

/* What each term is multiplied by at a time. */
static void columns_at(const struct wave_model *model, double time, double *columns)
{
    double t = time - model->middle, angle = 2 * M_PI * t / model->turn;
    double c = cos(angle), s = sin(angle);
    columns[0] = 1;
    for (int k = 1; k <= model->harmonics; k++) { /* cos and sin of k angles from k - 1 */
        double before = k > 1 ? columns[2 * k - 3] : 1;
        double beside = k > 1 ? columns[2 * k - 2] : 0;
        columns[2 * k - 1] = before * c - beside * s;
        columns[2 * k] = beside * c + before * s;
    }
    if (model->drift)
        columns[2 * model->harmonics + 1] = t / model->half;
}

double wave_at(const struct wave *wave, double time)
{
    double columns[COLUMNS], value = 0;
    columns_at(&wave->model, time, columns);
    for (int i = 0; i < wave_terms(&wave->model); i++)
        value += wave->terms[i] * columns[i];
    return value;
}

/* ---- normal equations, the value's column behind the terms' ---- */

struct normal {
    int terms;
    double sums[COLUMNS][COLUMNS]; /* the lower half */
};

static void add_point(struct normal *normal, const double *columns, double weight)
{
    for (int i = 0; i <= normal->terms; i++)
        for (int j = 0; j <= i; j++)
            normal->sums[i][j] += weight * columns[i] * columns[j];
}

/* Cholesky's factor in place; false where the terms cannot be told apart. The square of the
 * last pivot is what is left of the values' squares. */
static bool factorise(struct normal *normal)
{
    for (int i = 0; i <= normal->terms; i++) {
        double *row = normal->sums[i], whole = row[i];
        for (int j = 0; j <= i; j++) {
            for (int k = 0; k < j; k++)
                row[j] -= row[k] * normal->sums[j][k];
            if (j < i)
                row[j] /= normal->sums[j][j];
        }
        if (i < normal->terms && !(row[i] > 1e-10 * whole))
            return false;
        row[i] = sqrt(fmax(row[i], 0));
    }
    return true;
}

/* The terms, and the diagonal of the inverse: a term's variance in units of the noise's. */
static void solve(const struct normal *normal, double *terms, double *inverse)
{
    int n = normal->terms;
    for (int i = n - 1; i >= 0; i--) {
        terms[i] = normal->sums[n][i];
        for (int j = i + 1; j < n; j++)
            terms[i] -= normal->sums[j][i] * terms[j];
        terms[i] /= normal->sums[i][i];
    }
    for (int one = 0; one < n; one++) { /* of a unit vector, forward alone */
        double solved[COLUMNS];
        inverse[one] = 0;
        for (int i = one; i < n; i++) {
            solved[i] = i == one;
            for (int k = one; k < i; k++)
                solved[i] -= normal->sums[i][k] * solved[k];
            solved[i] /= normal->sums[i][i];
            inverse[one] += solved[i] * solved[i];
        }
    }
}

static struct wave no_wave(const struct wave_model *model)
{
    struct wave wave = {.model = *model, .nu = 0, .squares = NAN};
    for (int i = 0; i < WAVE_TERMS; i++)
        wave.terms[i] = wave.u[i] = NAN;
    return wave;
}

struct wave wave_fit(const struct wave_points *points, const struct wave_model *model)
{
    struct normal normal = {.terms = wave_terms(model)};
    int terms = normal.terms;
    double columns[COLUMNS], inverse[COLUMNS];
    for (size_t i = 0; i < points->count; i++) {
        columns_at(model, points->times[i], columns);
        columns[terms] = points->values[i];
        add_point(&normal, columns, points->weights ? points->weights[i] : 1);
    }
    struct wave wave = {.model = *model, .nu = (double)points->count - terms};
    if (!(wave.nu >= 1) || !factorise(&normal))
        return no_wave(model);
    solve(&normal, wave.terms, inverse);
    wave.squares = normal.sums[terms][terms] * normal.sums[terms][terms];
    for (int i = 0; i < terms; i++)
        wave.u[i] = sqrt(wave.squares / wave.nu * inverse[i]);
    return wave;
}

/* ---- noise with a memory ---- */

/* The grid: time constants as multiples of the mean distance of the points, the longer the less
 * likely, and the memory's share of the variance. Rules of ours. */
static const double memories[] = {0.7, 1.5, 3, 6, 12};
static const double shares[] = {0.25, 0.5, 0.75, 1};

enum {
    MEMORIES = sizeof memories / sizeof memories[0],
    SHARES = sizeof shares / sizeof shares[0],
    NOISES = 1 + MEMORIES * SHARES /* the first has none */
};

/* Takes from every column what the ones before let expect of it, point by point, so that what
 * is left has no memory. Gives the logarithm of the determinant. */
static double whiten(const struct wave_points *points, const struct wave_model *model,
                     double memory, double share, double mean_weight, struct normal *normal)
{
    double expected[COLUMNS] = {0}, columns[COLUMNS], spread = share, log_det = 0;
    int terms = wave_terms(model);
    *normal = (struct normal){.terms = terms};
    for (size_t i = 0; i < points->count; i++) {
        double kept =
            i && share > 0 ? exp((points->times[i - 1] - points->times[i]) / memory) : 0;
        double alone = (1 - share) * mean_weight / (points->weights ? points->weights[i] : 1);
        spread = kept * kept * spread + (1 - kept * kept) * share;
        double variance = spread + alone, gain = spread / variance;
        columns_at(model, points->times[i], columns);
        columns[terms] = points->values[i];
        for (int j = 0; j <= terms; j++) {
            expected[j] *= kept;
            columns[j] -= expected[j];
            expected[j] += gain * columns[j];
        }
        spread *= 1 - gain;
        add_point(normal, columns, 1 / variance);
        log_det += log(variance);
    }
    return log_det;
}

/* One noise of the grid: what the wave is by it, and how well it explains the points. */
struct explained {
    double evidence, memory, variance[WAVE_TERMS], terms[WAVE_TERMS], squares;
};

static bool explain(const struct wave_points *points, const struct wave_model *model,
                    double memory, double share, double mean_weight, double least,
                    struct explained *by)
{
    struct normal normal;
    double inverse[COLUMNS], terms = wave_terms(model), nu = (double)points->count - terms;
    by->memory = memory * share;
    by->evidence -= whiten(points, model, memory, share, mean_weight, &normal) / 2;
    if (!factorise(&normal))
        return false;
    solve(&normal, by->terms, inverse);
    double pivot = normal.sums[normal.terms][normal.terms];
    by->squares = pivot * pivot + least;
    for (int i = 0; i < normal.terms; i++) {
        by->evidence -= log(normal.sums[i][i]);
        by->variance[i] = by->squares / nu * inverse[i];
    }
    by->evidence -= nu / 2 * log(by->squares);
    return true;
}

struct wave wave_fit_correlated(const struct wave_points *points,
                                const struct wave_model *model)
{
    struct wave wave = wave_fit(points, model);
    struct explained by[NOISES];
    int terms = wave_terms(model), known = 0;
    double best = -INFINITY, sum = 0, weight = 0, least = 0;
    if (!(wave.nu >= 1))
        return wave;
    double apart =
        (points->times[points->count - 1] - points->times[0]) / (double)(points->count - 1);
    for (size_t i = 0; i < points->count; i++) {
        weight += points->weights ? points->weights[i] / (double)points->count : 1;
        least += points->values[i] * points->values[i] * 1e-24; /* what doubles may have lost */
    }
    weight = points->weights ? weight : 1;
    for (int i = 0; i < NOISES; i++) {
        double many = i ? memories[(i - 1) / SHARES] : 1;
        /* before the points are seen */
        by[known].evidence = i ? -log(many) / 2 - log(SHARES) : 0;
        known += explain(points, model, apart * many, i ? shares[(i - 1) % SHARES] : 0, weight,
                         least, &by[known]);
    }
    for (int i = 0; i < known; i++)
        best = fmax(best, by[i].evidence);
    memset(wave.terms, 0, sizeof wave.terms);
    double variances[WAVE_TERMS] = {0};
    for (int i = 0; i < known; i++)
        sum += by[i].evidence = exp(by[i].evidence - best);
    for (int i = 0; i < known; i++) {
        wave.memory += by[i].evidence / sum * by[i].memory;
        for (int j = 0; j < terms; j++)
            wave.terms[j] += by[i].evidence / sum * by[i].terms[j];
    }
    for (int i = 0; i < known; i++)
        for (int j = 0; j < terms; j++) {
            double off = by[i].terms[j] - wave.terms[j];
            variances[j] += by[i].evidence / sum * (by[i].variance[j] + off * off);
        }
    for (int j = 0; j < terms; j++)
        wave.u[j] = sqrt(variances[j]);
    return known ? wave : no_wave(model);
}

/* ---- the turn ---- */

static double explained_at(const struct wave_points *points, struct wave_model *model,
                           double turn, double left_flat)
{
    struct wave_model at = *model;
    at.turn = turn;
    struct wave wave = wave_fit(points, &at);
    double ratio = (left_flat - wave.squares) / (2 * at.harmonics) /
                   (fmax(wave.squares, 1e-12 * left_flat) / wave.nu);
    return isfinite(ratio) ? ratio : 0;
}

enum { OVER_EACH = 8 }; /* trials for each turn that fits into the readings */

/* Two or three turns explain what one does by their harmonics: of those that explain nearly as
 * much the shortest is the turn. */
static const double nearly = 0.85;

double wave_find_turn(const struct wave_points *points, struct wave_model model, double least,
                      double most, double *ratio)
{
    struct wave_model flat = model;
    flat.harmonics = 0;
    flat.turn = 1; /* any */
    double left = wave_fit(points, &flat).squares, best = NAN;
    double length = points->times[points->count - 1] - points->times[0];
    double step = 1 / (OVER_EACH * length), at = 1 / most;
    *ratio = 0;
    for (double f = at; f <= 1 / least * (1 + 1e-9); f += step) {
        double here = explained_at(points, &model, 1 / f, left);
        if (here > *ratio) {
            *ratio = here;
            best = f;
        }
    }
    for (int part = 3; part > 1 && best > 0; part--) {
        double here = best * part <= 1 / least
                          ? explained_at(points, &model, 1 / (best * part), left)
                          : 0;
        if (here > nearly * *ratio) {
            *ratio = here;
            best *= part;
        }
    }
    for (int halved = 0; halved < 12 && best > 0; halved++) { /* between the trials */
        step /= 2;
        for (int side = -1; side <= 1; side += 2) {
            double f = fmin(fmax(best + side * step, 1 / most), 1 / least);
            double here = explained_at(points, &model, 1 / f, left);
            if (here > *ratio) {
                *ratio = here;
                best = f;
            }
        }
    }
    return 1 / best;
}
