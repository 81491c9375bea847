/* Values known from outside, beside what the program makes of the same inputs when
 * the book is made: the same functions that every other table uses. */
#include "judge/gauge.h"
#include "judge/series.h"
#include "physics/physics.h"
#include "tables/common.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char gnu_units[] = "GNU units 2.22";

static const char textbook[] = "textbook brake";

static const char manual[] = "army manual";

static const char nist_line[] = "NIST StRD, NoInt2", nist_sets[] = "NIST StRD, NumAcc1",
                  nist_t[] = "NIST TN 1297";

static const char wgs84[] = "GeographicLib 2.1.2", d341[] = "sheet on ASTM D341";

static const char ieee[] = "ANSI/IEEE 268", same_rule[] = "the same rule, by hand";

static const char guard[] = "ISO 14253-1, by hand";

static const char h1[] = "JCGM 100 H.1, from memory", h3[] = "JCGM 100 H.3, from memory";

/* One unit in the base unit of its kind. */
static double base_of(const char *symbol)
{
    return unit_to_base(1, unit_find(symbol, strlen(symbol)));
}

static double lbf_in(void)
{
    return base_of("lbf.in");
}

static double lbf_ft(void)
{
    return base_of("lbf.ft");
}

static double ozf_in(void)
{
    return 1000 * base_of("ozf.in");
}

static double kgf_cm(void)
{
    return base_of("kgf.cm");
}

static double lbf(void)
{
    return base_of("lbf");
}

static double ozf(void)
{
    return base_of("ozf");
}

static double brake_of_net_load(void)
{
    return drag_from_pull(98 * 9.81, drag_radius(0.9, 0.05));
}

static double brake_of_350_newtons(void)
{
    return drag_from_pull(350, drag_radius(0.75, 0.05));
}

static double brake_of_hung_mass(void)
{
    return drag_from_pull(70 * 9.81 - 150, drag_radius(1, 0.05));
}

static double radius_of_payout(void)
{
    return drag_radius_from_payout(127.627202 * INCH, 10) / INCH;
}

/* A torque limit as a pull at a radius, rounded inward to whole steps. */
static double inward(const char *limit, const char *radius, const char *step, int side)
{
    struct quantity torque, arm, force;
    struct quantity_fault ignored;
    if (!quantity_parse(limit, KIND_TORQUE, &torque, &ignored) ||
        !quantity_parse(radius, KIND_LENGTH, &arm, &ignored) ||
        !quantity_parse(step, KIND_FORCE, &force, &ignored))
        abort(); /* a row below is wrong */
    struct decimal part = decimal_multiply(&arm.exact, &force.exact);
    return (double)(side > 0 ? decimal_steps_not_below(&torque.exact, &part)
                             : decimal_steps_not_above(&torque.exact, &part));
}

static double new_low(void)
{
    return inward("15 lbf.ft", "8 5/16 in", "1 lbf", 1);
}

static double new_high(void)
{
    return inward("20 lbf.ft", "8 5/16 in", "1 lbf", -1);
}

static double used_low(void)
{
    return inward("6 lbf.ft", "8 5/16 in", "1 lbf", 1);
}

static double used_high(void)
{
    return inward("12 lbf.ft", "8 5/16 in", "1 lbf", -1);
}

/* 10.7 mm and 11.3 mm as limits in inches to three places. */
static double length_limit(int64_t tenths, int side)
{
    struct decimal length = decimal_of(tenths, -4), step = decimal_of(254, -7);
    int64_t steps = side > 0 ? decimal_steps_not_below(&length, &step)
                             : decimal_steps_not_above(&length, &step);
    return (double)steps / 1000;
}

static double low_length(void)
{
    return length_limit(107, 1);
}

static double high_length(void)
{
    return length_limit(113, -1);
}

/* A limit of so many tenths in another unit, inward to so many places. */
static double limit_in(int64_t tenths, const char *from, const char *to, int places, int side)
{
    struct decimal limit = decimal_of(tenths, -1), step = decimal_of(1, -places);
    struct decimal factor = unit_factor(unit_find(from, strlen(from)));
    struct decimal wanted = unit_factor(unit_find(to, strlen(to)));
    limit = decimal_multiply(&limit, &factor);
    step = decimal_multiply(&step, &wanted);
    int64_t steps = side > 0 ? decimal_steps_not_below(&limit, &step)
                             : decimal_steps_not_above(&limit, &step);
    return (double)steps / pow(10, places);
}

static double low_in_newtons(void)
{
    return limit_in(50, "lbf.in", "N.m", 2, 1);
}

static double high_in_newtons(void)
{
    return limit_in(200, "lbf.in", "N.m", 2, -1);
}

static double low_in_pounds(void)
{
    return limit_in(6, "N.m", "lbf.in", 1, 1);
}

static double high_in_pounds(void)
{
    return limit_in(22, "N.m", "lbf.in", 1, -1);
}

/* Hundredths of the first drag from `at` on, `by` at a time, that is good for 0.60 to
 * 2.20 with U = 0.10. */
static double first_good(int64_t at, int64_t by)
{
    struct decimal low = decimal_of(60, -2), high = decimal_of(220, -2),
                   expanded = decimal_of(10, -2);
    for (; at >= 0 && at <= 300; at += by) {
        struct decimal drag = decimal_of(at, -2);
        if (state_of(&drag, &low, &high, &expanded) == STATE_GOOD)
            return (double)at / 100;
    }
    return NAN;
}

static double least_good(void)
{
    return first_good(0, 1);
}

static double most_good(void)
{
    return first_good(300, -1);
}

static double factor_of_3(void)
{
    return student_factor(0.95, 3);
}

static double factor_of_16(void)
{
    return student_factor(0.99, 16);
}

static double combined_doubt(void)
{
    const struct doubt doubts[] = {{25, 18}, {9.7, 25.6}, {2.9, 50}, {16.6, 2}};
    return uncertainty_of(doubts, 4).standard;
}

static double expanded_doubt(void)
{
    return 32 * student_factor(0.99, 16);
}

static double four_normals(void)
{
    static const struct doubt one = {1, INFINITY};
    const struct doubt four[] = {one, one, one, one};
    return uncertainty_of(four, 4).standard * student_factor(0.95, INFINITY);
}

/* The thermometer of JCGM 100 H.3: corrections by temperature over 20 degrees. */
static struct line line_of_thermometer(void)
{
    enum { POINTS = 11 };
    static const double celsius[POINTS] = {21.521, 22.012, 22.512, 23.003, 23.507, 23.999,
                                           24.513, 25.002, 25.503, 26.010, 26.511};
    static const double corrections[POINTS] = {-0.171, -0.169, -0.166, -0.159, -0.164, -0.165,
                                               -0.156, -0.157, -0.159, -0.161, -0.160};
    double x[POINTS];
    for (int i = 0; i < POINTS; i++)
        x[i] = celsius[i] - 20;
    return line_through(x, corrections, POINTS);
}

static double correction_slope(void)
{
    return line_of_thermometer().slope;
}

static double correction_doubt(void)
{
    struct line line = line_of_thermometer();
    return line_se_at(&line, 10);
}

static double sd_of_three(void)
{
    return series_of((const double[]){10000001, 10000003, 10000002}, 3).sd;
}

static double relative_error(void)
{
    return gauge_share(50.5 - 50.0, 50.0);
}

static double height_of_sign(void)
{
    return 1000 * sight_height(1, SIGHT_LEAST);
}

static struct line line_of_three(void)
{
    static const double x[] = {4, 5, 6}, y[] = {3, 4, 4};
    return line_through_origin(x, y, 3);
}

static double slope(void)
{
    return line_of_three().slope;
}

static double slope_error(void)
{
    return line_of_three().slope_se;
}

static double gravity_45(void)
{
    return gravity_at(45, 0);
}

static double gravity_pole(void)
{
    return gravity_at(90, 0);
}

static double oil_at_80(void)
{
    return oil_viscosity(oil_from_points(40, 32, 100, 5.4), 80);
}

static double churning(void)
{
    return 1000 * friction_of_oil(6, 32, 1000, 0.075);
}

static double growth(void)
{
    return 1000 * growth_of_length(12e-6, 0.3, 20);
}

/* expected: with the digits that the source prints. */
static const struct known {
    const char *quantity, *source, *expected, *unit;
    double (*ours)(void);
} rows[] = {
    {"1 lbf·in", gnu_units, "0.1129848", "N·m", lbf_in},
    {"1 lbf·ft", gnu_units, "1.355818", "N·m", lbf_ft},
    {"1 ozf·in", gnu_units, "7.061552", "mN·m", ozf_in},
    {"1 kgf·cm", gnu_units, "0.0980665", "N·m", kgf_cm},
    {"1 lbf", gnu_units, "4.448222", "N", lbf},
    {"1 ozf", gnu_units, "0.2780139", "N", ozf},
    {"98 kg, 0.9 m, rope 50\u00a0mm", textbook, "456.6555", "N·m", brake_of_net_load},
    {"350 N, 0.75 m, rope 50\u00a0mm", textbook, "140.0", "N·m", brake_of_350_newtons},
    {"70 kg less 150 N, 1 m, rope 50\u00a0mm", textbook, "281.7675", "N·m", brake_of_hung_mass},
    {"radius, 127.627\u00a0in in 10 turns", gnu_units, "2.03125", "in", radius_of_payout},
    {"15 lbf·ft at 8\u00a05/16\u00a0in, low", manual, "22", "lbf", new_low},
    {"20 lbf·ft at 8\u00a05/16\u00a0in, high", manual, "28", "lbf", new_high},
    {"6 lbf·ft at 8\u00a05/16\u00a0in, low", manual, "9", "lbf", used_low},
    {"12 lbf·ft at 8\u00a05/16\u00a0in, high", manual, "17", "lbf", used_high},
    {"10.7 mm, low, three places", ieee, "0.422", "in", low_length},
    {"11.3 mm, high, three places", ieee, "0.444", "in", high_length},
    {"5 lbf·in, low, two places", same_rule, "0.57", "N·m", low_in_newtons},
    {"20 lbf·in, high, two places", same_rule, "2.25", "N·m", high_in_newtons},
    {"0.6 N·m, low, one place", same_rule, "5.4", "lbf·in", low_in_pounds},
    {"2.2 N·m, high, one place", same_rule, "19.4", "lbf·in", high_in_pounds},
    {"0.60 to 2.20 N·m, U 0.10: good from", guard, "0.70", "N·m", least_good},
    {"the same: good to", guard, "2.10", "N·m", most_good},
    {"t, 95 %, 3 degrees", nist_t, "3.18", "", factor_of_3},
    {"t, 99 %, 16 degrees", nist_t, "2.92", "", factor_of_16},
    {"doubt of an end gauge", h1, "32", "nm", combined_doubt},
    {"32 nm at 99 %, 16 degrees", h1, "93", "nm", expanded_doubt},
    {"four doubts of 1, 95 %", "JCGM 101, from memory", "3.92", "", four_normals},
    {"slope, a thermometer", h3, "0.00218", "", correction_slope},
    {"its doubt at 30 °C", h3, "0.0041", "°C", correction_doubt},
    {"scatter of 10000001, …3, …2", nist_sets, "1.0", "", sd_of_three},
    {"50.5 N read at 50 N, error q", "ISO 7500-1, by hand", "1.0", "%", relative_error},
    {"slope through the origin", nist_line, "0.7272727", "", slope},
    {"its standard error", nist_line, "0.0420827", "", slope_error},
    {"gravity at 45°, WGS 84", wgs84, "9.8061978", "m/s²", gravity_45},
    {"the same, at the pole", wgs84, "9.8321849", "m/s²", gravity_pole},
    {"oil, 32 and 5.4\u00a0mm²/s at 40 and 100\u00a0°C, at 80\u00a0°C", d341, "8.5", "mm²/s",
     oil_at_80},
    {"churning, f₀\u00a06, 32\u00a0mm²/s, 1000\u00a0r/min, 75\u00a0mm", "Palmgren, from memory",
     "255.1340", "N·mm", churning},
    {"300 mm of steel, 20 °C warmer", "table, 12 millionths", "0.072", "mm", growth},
    {"15 minutes of arc at 1 m", "NUREG-0700, by hand", "4.363", "mm", height_of_sign},
};

enum { ROWS = sizeof rows / sizeof rows[0] };

static int places_of(const char *digits)
{
    const char *point = strchr(digits, '.');
    return point ? (int)strlen(point + 1) : 0;
}

static void add_row(const struct table_ask *ask, struct table *table, const struct known *known)
{
    double ours = known->ours(), expected = strtod(known->expected, NULL);
    int places = places_of(known->expected);
    double last = fabs(ours - expected) * pow(10, places);
    struct cell *cell = table_row(table);
    put_text(cell, known->quantity);
    put_text(cell + 1, known->source);
    put_text(cell + 2, arena_format(ask->arena, "%s%s%s", known->expected,
                                    known->unit[0] ? "\u00a0" : "", known->unit));
    put_number(ask->arena, cell + 3, ours, show_places(ours, places).text);
    put_number(ask->arena, cell + 4, last, show_places(last, 2).text);
}

struct table *make_trusted_values(const struct table_ask *ask)
{
    struct table *table = table_new(ask->arena, "trusted-values",
                                    "Values from outside against ours, worked out just now");
    table_column(table, COLUMN_TEXT, "quantity", NULL);
    table_column(table, COLUMN_TEXT, "source", NULL);
    table_column(table, COLUMN_TEXT, "published", NULL);
    table_column(table, COLUMN_NUMBER, "ours", NULL);
    table_column(table, COLUMN_NUMBER, "apart", NULL);
    for (size_t i = 0; i < ROWS; i++)
        add_row(ask, table, &rows[i]);
    table_note(table,
               "Apart: the difference before rounding, counted in the last digit that the "
               "source prints. Up to 0.5 it is the source's own rounding.");
    table_note(table,
               "Brake: weight, drum and rope of a worked example. Degrees: of freedom. By "
               "hand: the source gives the rule, not the number. From memory: the "
               "source was not at hand.");
    table_note(
        table,
        "The army manual prints 21 where 22 stands: 21\u00a0lbf is below its own limit.");
    return table;
}
