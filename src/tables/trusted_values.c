/* Values known from outside, beside what the program makes of the same inputs when
 * the book is made: the same functions that every other table uses. */
#include "judge/gauge.h"
#include "physics/physics.h"
#include "tables/common.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* published: with the digits that the source prints. */
static void add_value(struct builder *b, const char *quantity, const char *source,
                      const char *published, const char *unit, double ours)
{
    const char *point = strchr(published, '.');
    int places = point ? (int)strlen(point + 1) : 0;
    double last = fabs(ours - strtod(published, NULL)) * pow(10, places);
    next_row(b);
    put_text(b, "quantity", quantity);
    put_text(b, "source", source);
    put_text(b, "published",
             arena_format(b->arena, "%s%s%s", published, unit[0] ? "\u00a0" : "", unit));
    put_places(b, "ours", NULL, ours, places);
    put_places(b, "apart", NULL, last, 2);
}

/* One unit in the base unit of its kind. */
static double base_of(const char *symbol)
{
    return unit_to_base(1, unit_find(symbol, strlen(symbol)));
}

static void add_units_and_brakes(struct builder *b)
{
    static const char units[] = "GNU units 2.22", brake[] = "textbook brake";
    add_value(b, "1 lbf·in", units, "0.1129848", "N·m", base_of("lbf.in"));
    add_value(b, "1 lbf·ft", units, "1.355818", "N·m", base_of("lbf.ft"));
    add_value(b, "1 ozf·in", units, "7.061552", "mN·m", 1000 * base_of("ozf.in"));
    add_value(b, "1 kgf·cm", units, "0.0980665", "N·m", base_of("kgf.cm"));
    add_value(b, "1 lbf", units, "4.448222", "N", base_of("lbf"));
    add_value(b, "1 ozf", units, "0.2780139", "N", base_of("ozf"));
    add_value(b, "98 kg, 0.9 m, rope 50\u00a0mm", brake, "456.6555", "N·m",
              drag_from_pull(98 * 9.81, drag_radius(0.9, 0.05)));
    add_value(b, "350 N, 0.75 m, rope 50\u00a0mm", brake, "140.0", "N·m",
              drag_from_pull(350, drag_radius(0.75, 0.05)));
    add_value(b, "70 kg less 150 N, 1 m, rope 50\u00a0mm", brake, "281.7675", "N·m",
              drag_from_pull(70 * 9.81 - 150, drag_radius(1, 0.05)));
    add_value(b, "radius, 127.627\u00a0in in 10 turns", units, "2.03125", "in",
              drag_radius_from_payout(127.627202 * INCH, 10) / INCH);
}

/* ---- limits, rounded inward ---- */

static int64_t inward(const struct decimal *limit, const struct decimal *step,
                      enum limit_end side)
{
    return side == LIMIT_LOW ? decimal_steps_not_below(limit, step)
                             : decimal_steps_not_above(limit, step);
}

/* A torque as a pull at 8 5/16 in, to whole lbf. */
static double pull_limit(const char *torque, enum limit_end side)
{
    struct quantity limit, arm, step;
    struct quantity_fault ignored;
    if (!quantity_parse(torque, KIND_TORQUE, &limit, &ignored) ||
        !quantity_parse("8 5/16 in", KIND_LENGTH, &arm, &ignored) ||
        !quantity_parse("1 lbf", KIND_FORCE, &step, &ignored))
        abort(); /* a row below is wrong */
    struct decimal part = decimal_multiply(&arm.exact, &step.exact);
    return (double)inward(&limit.exact, &part, side);
}

/* So many tenths of a millimetre in inches, to three places. */
static double length_limit(int64_t tenths, enum limit_end side)
{
    struct decimal length = decimal_of(tenths, -4), step = decimal_of(254, -7);
    return (double)inward(&length, &step, side) / 1000;
}

/* So many tenths of a unit in another one, to so many places. */
static double limit_in(int64_t tenths, const char *from, const char *to, int places,
                       enum limit_end side)
{
    struct decimal limit = decimal_of(tenths, -1), step = decimal_of(1, -places);
    struct decimal factor = unit_factor(unit_find(from, strlen(from)));
    struct decimal wanted = unit_factor(unit_find(to, strlen(to)));
    limit = decimal_multiply(&limit, &factor);
    step = decimal_multiply(&step, &wanted);
    return (double)inward(&limit, &step, side) / pow(10, places);
}

/* Hundredths of the first drag from `at` on, `by` at a time, that is good for 0.60 to
 * 2.20 with u = 0.05. */
static double first_good(int64_t at, int64_t by)
{
    struct measured measured = {.drag.sureness = {.standard = 0.05, .nu = INFINITY}};
    for (; at >= 0 && at <= 300; at += by) {
        measured.drag.drag = (double)at / 100;
        if (decide(&measured, 0.6, 2.2).verdict == VERDICT_GOOD)
            return measured.drag.drag;
    }
    return NAN;
}

static void add_limits(struct builder *b)
{
    static const char manual[] = "army manual", ieee[] = "ANSI/IEEE 268",
                      same[] = "the same rule, by hand", guard[] = "1.96 u, by hand";
    add_value(b, "15 lbf·ft at 8\u00a05/16\u00a0in, low", manual, "22", "lbf",
              pull_limit("15 lbf.ft", LIMIT_LOW));
    add_value(b, "20 lbf·ft at 8\u00a05/16\u00a0in, high", manual, "28", "lbf",
              pull_limit("20 lbf.ft", LIMIT_HIGH));
    add_value(b, "6 lbf·ft at 8\u00a05/16\u00a0in, low", manual, "9", "lbf",
              pull_limit("6 lbf.ft", LIMIT_LOW));
    add_value(b, "12 lbf·ft at 8\u00a05/16\u00a0in, high", manual, "17", "lbf",
              pull_limit("12 lbf.ft", LIMIT_HIGH));
    add_value(b, "10.7 mm, low, three places", ieee, "0.422", "in",
              length_limit(107, LIMIT_LOW));
    add_value(b, "11.3 mm, high, three places", ieee, "0.444", "in",
              length_limit(113, LIMIT_HIGH));
    add_value(b, "5 lbf·in, low, two places", same, "0.57", "N·m",
              limit_in(50, "lbf.in", "N.m", 2, LIMIT_LOW));
    add_value(b, "20 lbf·in, high, two places", same, "2.25", "N·m",
              limit_in(200, "lbf.in", "N.m", 2, LIMIT_HIGH));
    add_value(b, "0.6 N·m, low, one place", same, "5.4", "lbf·in",
              limit_in(6, "N.m", "lbf.in", 1, LIMIT_LOW));
    add_value(b, "2.2 N·m, high, one place", same, "19.4", "lbf·in",
              limit_in(22, "N.m", "lbf.in", 1, LIMIT_HIGH));
    add_value(b, "0.60 to 2.20 N·m, u 0.05, risk 2.5 %: good from", guard, "0.70", "N·m",
              first_good(0, 1));
    add_value(b, "the same: good to", guard, "2.10", "N·m", first_good(300, -1));
}

/* ---- uncertainty, lines, physics ---- */

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

static void add_uncertainties(struct builder *b)
{
    static const char nist_t[] = "NIST TN 1297", h1[] = "JCGM 100 H.1, from memory",
                      h3[] = "JCGM 100 H.3, from memory", nist_line[] = "NIST StRD, NoInt2";
    static const struct doubt gauge[] = {{25, 18}, {9.7, 25.6}, {2.9, 50}, {16.6, 2}},
                              one = {1, INFINITY};
    const struct doubt four[] = {one, one, one, one};
    struct line thermometer = line_of_thermometer();
    struct line line =
        line_through_origin((const double[]){4, 5, 6}, (const double[]){3, 4, 4}, 3);
    add_value(b, "t, 95 %, 3 degrees", nist_t, "3.18", "", student_factor(0.95, 3));
    add_value(b, "t, 99 %, 16 degrees", nist_t, "2.92", "", student_factor(0.99, 16));
    add_value(b, "doubt of an end gauge", h1, "32", "nm", uncertainty_of(gauge, 4).standard);
    add_value(b, "32 nm at 99 %, 16 degrees", h1, "93", "nm", 32 * student_factor(0.99, 16));
    add_value(b, "four doubts of 1, 95 %", "JCGM 101, from memory", "3.92", "",
              uncertainty_of(four, 4).standard * student_factor(0.95, INFINITY));
    add_value(b, "slope, a thermometer", h3, "0.00218", "", thermometer.slope);
    add_value(b, "its doubt at 30 °C", h3, "0.0041", "°C", line_se_at(&thermometer, 10));
    add_value(b, "scatter of 10000001, …3, …2", "NIST StRD, NumAcc1", "1.0", "",
              series_of((const double[]){10000001, 10000003, 10000002}, 3).sd);
    add_value(b, "50.5 N read at 50 N, error q", "ISO 7500-1, by hand", "1.0", "%",
              gauge_share(50.5 - 50.0, 50.0));
    add_value(b, "slope through the origin", nist_line, "0.7272727", "", line.slope);
    add_value(b, "its standard error", nist_line, "0.0420827", "", line.slope_se);
}

static void add_physics(struct builder *b)
{
    static const char wgs84[] = "GeographicLib 2.1.2";
    add_value(b, "gravity at 45°, WGS 84", wgs84, "9.8061978", "m/s²", gravity_at(45, 0));
    add_value(b, "the same, at the pole", wgs84, "9.8321849", "m/s²", gravity_at(90, 0));
    add_value(b, "oil, 32 and 5.4\u00a0mm²/s at 40 and 100\u00a0°C, at 80\u00a0°C",
              "sheet on ASTM D341", "8.5", "mm²/s",
              oil_viscosity(oil_from_points(40, 32, 100, 5.4), 80));
    add_value(b, "churning, f₀\u00a06, 32\u00a0mm²/s, 1000\u00a0r/min, 75\u00a0mm",
              "Palmgren, from memory", "255.1340", "N·mm",
              1000 * friction_of_oil(6, 32, 1000, 0.075));
    add_value(b, "300 mm of steel, 20 °C warmer", "table, 12 millionths", "0.072", "mm",
              1000 * growth_of_length(12e-6, 0.3, 20));
    add_value(b, "15 minutes of arc at 1 m", "NUREG-0700, by hand", "4.363", "mm",
              1000 * sight_height(1, SIGHT_LEAST));
}

void make_trusted_values(struct builder *b)
{
    add_units_and_brakes(b);
    add_limits(b);
    add_uncertainties(b);
    add_physics(b);
    table_note(b->table,
               "Apart: the difference before rounding, counted in the last digit that the "
               "source prints. Up to 0.5 it is the source's own rounding.");
    table_note(b->table,
               "Brake: weight, drum and rope of a worked example. Degrees: of freedom. By "
               "hand: the source gives the rule, not the number. From memory: the "
               "source was not at hand.");
    table_note(
        b->table,
        "The army manual prints 21 where 22 stands: 21\u00a0lbf is below its own limit.");
}
