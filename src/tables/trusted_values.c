/* Values known from outside, beside what the program makes of the same inputs when
 * the book is made: the same functions that every other table uses. */
#include "drag/drag.h"
#include "drag/friction.h"
#include "drag/gravity.h"
#include "drag/growth.h"
#include "drag/line.h"
#include "drag/nut.h"
#include "drag/oil.h"
#include "drag/student.h"
#include "drag/uncertainty.h"
#include "tables/common.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char gnu_units[] = "GNU units 2.22", memory[] = "from memory";
static const char textbook[] = "textbook, rope brake";
static const char manual[] = "army manual, pull window";
static const char nist_line[] = "NIST StRD, NoInt2", nist_t[] = "NIST TN 1297, table B.1";
static const char wgs84[] = "GeographicLib 2.1.2, WGS 84", d341[] = "worked sheet of ASTM D341";
static const char ieee[] = "ANSI/IEEE 268, example";

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
    return base_of("ozf.in");
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
    return drag_radius_from_payout(127.627202 * 0.0254, 10) / 0.0254;
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

static double nut_18_tpi(void)
{
    return nut_travel(nut_pitch_of_threads(18), 10) / 0.0254;
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
    {"1 ozf·in", gnu_units, "0.007061552", "N·m", ozf_in},
    {"1 kgf·cm", gnu_units, "0.0980665", "N·m", kgf_cm},
    {"1 lbf", gnu_units, "4.448222", "N", lbf},
    {"1 ozf", gnu_units, "0.2780139", "N", ozf},
    {"drag, 98 kg on 0.9 m with 50 mm rope", textbook, "456.6555", "N·m", brake_of_net_load},
    {"drag, 350 N on 0.75 m with 50 mm rope", textbook, "140.0", "N·m", brake_of_350_newtons},
    {"drag, 70 kg less 150 N on 1 m with 50 mm rope", textbook, "281.7675", "N·m",
     brake_of_hung_mass},
    {"radius of 10 turns of 127.627 in", gnu_units, "2.03125", "in", radius_of_payout},
    {"15 lbf·ft at 8 5/16 in, low", manual, "22", "lbf", new_low},
    {"20 lbf·ft at 8 5/16 in, high", manual, "28", "lbf", new_high},
    {"6 lbf·ft at 8 5/16 in, low", manual, "9", "lbf", used_low},
    {"12 lbf·ft at 8 5/16 in, high", manual, "17", "lbf", used_high},
    {"limit of 10.7 mm, low, three places", ieee, "0.422", "in", low_length},
    {"limit of 11.3 mm, high, three places", ieee, "0.444", "in", high_length},
    {"t, 95 %, 3 degrees of freedom", nist_t, "3.18", "", factor_of_3},
    {"t, 99 %, 16 degrees of freedom", nist_t, "2.92", "", factor_of_16},
    {"combined doubt of an end gauge", "JCGM 100, from memory", "32", "nm", combined_doubt},
    {"slope through the origin", nist_line, "0.7272727", "", slope},
    {"its standard error", nist_line, "0.04208273", "", slope_error},
    {"gravity at 45°", wgs84, "9.8061978", "m/s²", gravity_45},
    {"gravity at the pole", wgs84, "9.8321849", "m/s²", gravity_pole},
    {"oil of 32 and 5.4 mm²/s at 40 and 100 °C, at 80 °C", d341, "8.5", "mm²/s", oil_at_80},
    {"drag of churning oil, f₀ 6, 32 mm²/s, 1000 r/min, 75 mm", "Palmgren, from memory",
     "255.1340", "N·mm", churning},
    {"nut of 18 tpi turned 10°", memory, "0.00154321", "in", nut_18_tpi},
    {"300 mm of steel, 20 °C warmer", "table, 12 millionths", "0.072", "mm", growth},
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
    table_column(table, COLUMN_NUMBER, "apart, in last digits", NULL);
    for (size_t i = 0; i < ROWS; i++)
        add_row(ask, table, &rows[i]);
    table_note(table,
               "Apart: the difference before rounding, counted in the last digit that the "
               "source prints. Up to 0.5 it is the source's own rounding.");
    table_note(
        table,
        "The army manual prints 21 where 22 stands: 21\u00a0lbf is below its own limit.");
    return table;
}
