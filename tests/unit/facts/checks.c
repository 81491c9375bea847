/* The rows of tests/data/checks.tsv: units, drag, nut, oil, growth, gravity, doubt,
 * lines, states and the gauge's check. */
#include "checks_table.h"
#include "judge/measure.h"
#include "judge/warmth.h"
#include "number/show.h"
#include "physics/physics.h"
#include "shop/fields.h"
#include "shop/shop.h"
#include "shop_fixture.h"
#include "tables/tables.h"

#include <stdbool.h>

/* ---- units and rounding ---- */

static const struct unit *unit_of(const char *symbol)
{
    const struct unit *unit = unit_find(symbol, strlen(symbol));
    if (!unit)
        fail_msg("no unit %s", symbol);
    return unit;
}

static struct quantity quantity_of_words(const char *number, const char *symbol)
{
    char text[QUANTITY_TEXT];
    snprintf(text, sizeof text, "%s %s", number, symbol);
    return quantity_of(text, unit_of(symbol)->kind);
}

static double convert(const struct asked *a)
{
    struct quantity quantity = quantity_of_words(a->word[0], a->word[1]);
    return quantity_in(&quantity, unit_of(a->word[2]));
}

/* So many degrees of one scale in those of another, as a difference. */
static double temperature_step(const struct asked *a)
{
    const struct unit *from = unit_of(a->word[1]), *to = unit_of(a->word[2]);
    return unit_from_base(unit_to_base(a->number[0], from), to) -
           unit_from_base(unit_to_base(0, from), to);
}

static double fraction(const struct asked *a)
{
    struct quantity quantity = quantity_of_words(a->word[0], "in");
    return quantity_in(&quantity, unit_of(a->word[1]));
}

/* A limit in another unit, inward at so many places. */
static void inward(const struct asked *a, bool low, char *out)
{
    struct quantity limit = quantity_of_words(a->word[0], a->word[1]);
    struct decimal place = decimal_of(1, -(int)a->number[3]);
    struct decimal factor = unit_factor(unit_of(a->word[2]));
    struct decimal step = decimal_multiply(&place, &factor);
    int64_t steps = low ? decimal_steps_not_below(&limit.exact, &step)
                        : decimal_steps_not_above(&limit.exact, &step);
    strcpy(out, show_steps(steps, &place).text);
}

static void inward_low(const struct asked *a, char *out)
{
    inward(a, true, out);
}

static void inward_high(const struct asked *a, char *out)
{
    inward(a, false, out);
}

static void places(const struct asked *a, char *out)
{
    strcpy(out, show_places(a->number[0], (int)a->number[1]).text);
}

static void significant(const struct asked *a, char *out)
{
    strcpy(out, show_significant(a->number[0], (int)a->number[1]).text);
}

/* ---- drag, nut, oil, growth, gravity ---- */

static double drag(const struct asked *a)
{
    struct quantity pull = quantity_of_words(a->word[0], a->word[1]);
    struct quantity arm = quantity_of_words(a->word[2], a->word[3]);
    return unit_from_base(drag_from_pull(pull.base, arm.base), unit_of(a->word[4]));
}

static double brake(const struct asked *a)
{
    return drag_from_pull(a->number[2], drag_radius(a->number[0], a->number[1]));
}

static double brake_power(const struct asked *a)
{
    return brake(a) * 2 * M_PI * a->number[3] / 60;
}

static double wheel_ratio(const struct asked *a)
{
    double rope = a->number[3], wheel = drag_radius(a->number[0], rope);
    return 2 * wheel / (drag_radius(a->number[1], rope) - drag_radius(a->number[2], rope));
}

static double payout(const struct asked *a)
{
    return drag_radius_from_payout(a->number[0], a->number[1]);
}

static double payout_feet(const struct asked *a)
{
    return drag_radius_from_payout(12 * a->number[0], a->number[1]);
}

/* A diameter and a speed, the cord's own thickness left out. */
static double cord_speed(const struct asked *a)
{
    struct quantity diameter = quantity_of_words(a->word[0], a->word[1]);
    return turning_cord_speed(diameter.base / 2, a->number[2]);
}

static double cord_speed_minute(const struct asked *a)
{
    return 60 * cord_speed(a);
}

static double cord_speed_feet(const struct asked *a)
{
    return cord_speed_minute(a) / 0.3048;
}

/* Mass and radius; of a disc 1 m thick, of the density that it then has. */
static double disc(const struct asked *a)
{
    double diameter = 2 * a->number[1];
    double density = a->number[0] / turning_mass(1, diameter, 1);
    return turning_inertia(density, diameter, 1);
}

static double nut_mm(const struct asked *a)
{
    return 1000 * nut_travel(a->number[0] / 1000, a->number[1]);
}

static double nut_in(const struct asked *a)
{
    return nut_travel(nut_pitch_of_threads(a->number[0]), a->number[1]) / 0.0254;
}

static struct oil oil_of(const struct asked *a)
{
    return oil_from_points(a->number[0], a->number[1], a->number[2], a->number[3]);
}

static double oil_a(const struct asked *a)
{
    return oil_of(a).a;
}

static double oil_b(const struct asked *a)
{
    return oil_of(a).b;
}

static double oil(const struct asked *a)
{
    return oil_viscosity(oil_of(a), a->number[4]);
}

/* What the settings' word for a grade means. */
static double grade(const struct asked *a)
{
    int row, index = 0;
    const struct field *field = field_find("oil.grade", &row);
    while (field->choices[index] && strcmp(field->choices[index], a->word[0]) != 0)
        index++;
    return field->choices[index] ? oil_grade_viscosity(index) : NAN;
}

/* Two tapered rollers alike, of 75 mm and 15 degrees. */
static struct shop shop_of_rollers(void)
{
    struct shop shop = shop_of("60 mm", "0 mm", "0.1 N");
    shop.spindle.pitch_diameter = measure_of("75 mm", KIND_LENGTH);
    shop.spindle.contact_angle = measure_of("15 deg", KIND_ANGLE);
    return shop;
}

/* The coefficient that our drags are worked out with. */
static double churning(const struct asked *a)
{
    (void)a;
    struct shop shop = shop_of_rollers();
    return churning_drag(&shop, 32, 1000) / (2 * friction_of_oil(1, 32, 1000, 0.075));
}

static double loading(const struct asked *a)
{
    (void)a;
    struct shop shop = shop_of_rollers();
    double load = friction_bearing_load(300, 15);
    return preload_drag(&shop, 300) / (2 * friction_of_load(1, load, 0.075));
}

static double steel(const struct asked *a)
{
    (void)a;
    return STEEL_EXPANSION;
}

static double cast_iron(const struct asked *a)
{
    (void)a;
    return CAST_IRON_EXPANSION;
}

static double growth(const struct asked *a)
{
    return 1000 * growth_of_length(a->number[0], a->number[1], a->number[2]);
}

static double difference(const struct asked *a)
{
    return 1000 * growth_difference(a->number[0], a->number[1], a->number[2], a->number[3],
                                    a->number[4]);
}

static double gravity_off(const struct asked *a)
{
    return 100 * (gravity_at(a->number[0], 0) / standard_gravity - 1);
}

static double weight(const struct asked *a)
{
    return weight_of(a->number[0], a->number[1]);
}

static double sight(const struct asked *a)
{
    return sight_height(a->number[0], a->number[1]);
}

/* ---- doubt ---- */

static double student(const struct asked *a)
{
    return student_factor(a->number[0], a->number[1]);
}

/* One-sided: a share p lies below z, so 2 p - 1 within -z..z. */
static double quantile(const struct asked *a)
{
    return student_factor(2 * a->number[0] - 1, INFINITY);
}

/* The chance that a value lies above a limit, and between two, by its standard uncertainty. */
static double above(const struct asked *a)
{
    return student_above((a->number[2] - a->number[0]) / a->number[1], INFINITY);
}

static double conforms(const struct asked *a)
{
    double low = (a->number[2] - a->number[0]) / a->number[1];
    double high = (a->number[3] - a->number[0]) / a->number[1];
    return student_above(low, INFINITY) - student_above(high, INFINITY);
}

static double share_below_two(const struct asked *a)
{
    (void)a;
    return (1 + student_coverage) / 2;
}

static double rectangular(const struct asked *a)
{
    return doubt_rectangular(a->number[0]);
}

static double step(const struct asked *a)
{
    return doubt_of_step(a->number[0]);
}

/* Arguments in pairs: a doubt and its degrees of freedom. */
static struct uncertainty sum_of(const struct asked *a)
{
    struct doubt doubts[MOST_ARGUMENTS];
    for (size_t i = 0; i + 1 < a->count; i += 2)
        doubts[i / 2] = (struct doubt){a->number[i], a->number[i + 1]};
    return uncertainty_of(doubts, a->count / 2);
}

static double combined(const struct asked *a)
{
    return sum_of(a).standard;
}

static double freedom(const struct asked *a)
{
    return sum_of(a).nu;
}

static double freedom_cut(const struct asked *a)
{
    return floor(sum_of(a).nu);
}

static double expanded(const struct asked *a)
{
    return a->number[0] * student_factor(a->number[1], a->number[2]);
}

static double four_normals(const struct asked *a)
{
    (void)a;
    static const struct doubt one = {1, INFINITY};
    struct doubt four[] = {one, one, one, one};
    struct uncertainty sum = uncertainty_of(four, 4);
    return sum.standard * student_factor(0.95, sum.nu);
}

static double four_rectangulars(const struct asked *a)
{
    (void)a;
    const struct doubt one = {doubt_rectangular(sqrt(3)), INFINITY};
    struct doubt four[] = {one, one, one, one};
    struct uncertainty sum = uncertainty_of(four, 4);
    return sum.standard * student_factor(0.95, sum.nu);
}

/* A value, two limits and U: twice a standard uncertainty of a normal distribution. */
static void state_word(const struct asked *a, char *out)
{
    static const char *const words[] = {"clearly-low", "low",          "good",
                                        "high",        "clearly-high", "none"};
    struct measured measured = {
        .drag = {.drag = a->number[0],
                 .sureness = {.standard = a->number[3] / 2, .nu = INFINITY}}};
    strcpy(out, words[decide(&measured, a->number[1], a->number[2]).verdict]);
}

/* ---- the gauge ---- */

/* Force, readings of it in N: its row of the gauge's check, which stands behind those of two
 * lesser weights, which a line needs. */
static void gauge_cell(const struct asked *a, size_t column, char *out)
{
    struct weighing items[MOST_ARGUMENTS + 1];
    struct shop shop = shop_of("60 mm", "0 mm", "0.1 N");
    for (size_t i = 1; i < a->count; i++)
        items[i - 1] = (struct weighing){.date = "2026-01-01",
                                         .by = "",
                                         .load = quantity_of_words(a->word[0], "N"),
                                         .reading = quantity_of_words(a->word[i], "N")};
    for (size_t i = 0; i < 2; i++)
        items[a->count - 1 + i] =
            (struct weighing){.date = "2026-01-01",
                              .by = "",
                              .load = quantity_of(i ? "30 N" : "20 N", KIND_FORCE),
                              .reading = quantity_of(i ? "30 N" : "20 N", KIND_FORCE)};
    shop.weighings = (struct weighings){items, a->count + 1};
    struct arena *arena = arena_new();
    struct table_ask ask = {.arena = arena, .results = results_for(&shop)};
    snprintf(out, TEXT, "%s", table_cell(tables_make("gauge-check", &ask), 2, column)->shown);
    arena_free(arena);
}

static void gauge_q(const struct asked *a, char *out)
{
    gauge_cell(a, 4, out);
}

static void gauge_b(const struct asked *a, char *out)
{
    gauge_cell(a, 5, out);
}

/* ---- straight lines, means and standard deviations ---- */

enum { MOST_VALUES = 2000 };

/* Arguments: a file of points, and what is taken off x. */
static struct line line_of(const struct asked *a)
{
    double x[MOST_VALUES], y[MOST_VALUES];
    return line_through(x, y, facts_points(a->word[0], a->number[1], x, y));
}

static struct line origin_of(const struct asked *a)
{
    double x[MOST_VALUES], y[MOST_VALUES];
    return line_through_origin(x, y, facts_points(a->word[0], a->number[1], x, y));
}

#define PART_OF_LINE(name, line_maker, part)                                                   \
    static double name(const struct asked *a)                                                  \
    {                                                                                          \
        return line_maker(a).part;                                                             \
    }

PART_OF_LINE(line_intercept, line_of, intercept)
PART_OF_LINE(line_slope, line_of, slope)
PART_OF_LINE(line_intercept_se, line_of, intercept_se)
PART_OF_LINE(line_slope_se, line_of, slope_se)
PART_OF_LINE(line_covariance, line_of, covariance)
PART_OF_LINE(line_squares, line_of, squares)
PART_OF_LINE(line_sd, line_of, sd)
PART_OF_LINE(origin_slope, origin_of, slope)
PART_OF_LINE(origin_slope_se, origin_of, slope_se)
PART_OF_LINE(origin_squares, origin_of, squares)
PART_OF_LINE(origin_sd, origin_of, sd)

static double line_correlation(const struct asked *a)
{
    struct line line = line_of(a);
    return line.covariance / line.intercept_se / line.slope_se;
}

/* What the slope explains, by its own doubt: t^2 / (t^2 + n - 2). */
static double line_r_squared(const struct asked *a)
{
    double x[MOST_VALUES], y[MOST_VALUES];
    size_t count = facts_points(a->word[0], a->number[1], x, y);
    struct line line = line_through(x, y, count);
    double t = line.slope / line.slope_se;
    return t * t / (t * t + (double)count - 2);
}

static double at(const struct asked *a)
{
    struct line line = line_of(a);
    return line_at(&line, a->number[2]);
}

static double se_at(const struct asked *a)
{
    struct line line = line_of(a);
    return line_se_at(&line, a->number[2]);
}

/* numacc2 to 4: a value, then 500 times a tenth below and a tenth above it. */
static size_t numacc(int set, double *values)
{
    static const double bases[][3] = {{1.2, 1.1, 1.3},
                                      {1000000.2, 1000000.1, 1000000.3},
                                      {10000000.2, 10000000.1, 10000000.3}};
    if (set == 1) {
        memcpy(values, (double[]){10000001, 10000003, 10000002}, 3 * sizeof *values);
        return 3;
    }
    for (int i = 0; i <= 1000; i++)
        values[i] = bases[set - 2][i == 0 ? 0 : 2 - i % 2];
    return 1001;
}

static struct series series_of_words(const struct asked *a)
{
    double values[MOST_VALUES];
    bool made = strncmp(a->word[0], "numacc", 6) == 0;
    size_t count =
        made ? numacc(a->word[0][6] - '0', values) : facts_numbers(a->word[0], values);
    return series_of(values, count);
}

static double mean(const struct asked *a)
{
    return series_of_words(a).mean;
}

static double sd(const struct asked *a)
{
    return series_of_words(a).sd;
}

/* ---- the table ---- */

static const struct function functions[] = {
    {"convert", convert, NULL},
    {"temperature_step", temperature_step, NULL},
    {"fraction", fraction, NULL},
    {"inward_low", NULL, inward_low},
    {"inward_high", NULL, inward_high},
    {"show_places", NULL, places},
    {"show_significant", NULL, significant},
    {"drag", drag, NULL},
    {"brake", brake, NULL},
    {"brake_power", brake_power, NULL},
    {"wheel_ratio", wheel_ratio, NULL},
    {"payout", payout, NULL},
    {"payout_feet", payout_feet, NULL},
    {"cord_speed", cord_speed, NULL},
    {"cord_speed_minute", cord_speed_minute, NULL},
    {"cord_speed_feet", cord_speed_feet, NULL},
    {"disc", disc, NULL},
    {"nut_mm", nut_mm, NULL},
    {"nut_in", nut_in, NULL},
    {"oil_a", oil_a, NULL},
    {"oil_b", oil_b, NULL},
    {"oil", oil, NULL},
    {"grade", grade, NULL},
    {"churning", churning, NULL},
    {"loading", loading, NULL},
    {"steel", steel, NULL},
    {"cast_iron", cast_iron, NULL},
    {"growth", growth, NULL},
    {"growth_difference", difference, NULL},
    {"gravity_off", gravity_off, NULL},
    {"weight", weight, NULL},
    {"sight_height", sight, NULL},
    {"student", student, NULL},
    {"quantile", quantile, NULL},
    {"above", above, NULL},
    {"conforms", conforms, NULL},
    {"share_below_two", share_below_two, NULL},
    {"rectangular", rectangular, NULL},
    {"step", step, NULL},
    {"combined", combined, NULL},
    {"freedom", freedom, NULL},
    {"freedom_cut", freedom_cut, NULL},
    {"expanded", expanded, NULL},
    {"four_normals", four_normals, NULL},
    {"four_rectangulars", four_rectangulars, NULL},
    {"state", NULL, state_word},
    {"line_intercept", line_intercept, NULL},
    {"line_slope", line_slope, NULL},
    {"line_intercept_se", line_intercept_se, NULL},
    {"line_slope_se", line_slope_se, NULL},
    {"line_covariance", line_covariance, NULL},
    {"line_squares", line_squares, NULL},
    {"line_sd", line_sd, NULL},
    {"line_correlation", line_correlation, NULL},
    {"line_r_squared", line_r_squared, NULL},
    {"line_at", at, NULL},
    {"line_se_at", se_at, NULL},
    {"origin_slope", origin_slope, NULL},
    {"origin_slope_se", origin_slope_se, NULL},
    {"origin_squares", origin_squares, NULL},
    {"origin_sd", origin_sd, NULL},
    {"mean", mean, NULL},
    {"sd", sd, NULL},
    {"gauge_q", NULL, gauge_q},
    {"gauge_b", NULL, gauge_b},
};

static void test_checks(void **state)
{
    (void)state;
    run_checks("checks.tsv", functions, sizeof functions / sizeof functions[0], 180);
}

static const struct CMUnitTest tests[] = {cmocka_unit_test(test_checks)};

GROUP(checks, NULL, NULL)
