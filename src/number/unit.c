/* Two tables say all that is known of a unit and of a kind; a third, how else they are
 * written. */
#include "number/unit.h"

#include <stdbool.h>
#include <string.h>

#define M SYSTEM_METRIC
#define I SYSTEM_IMPERIAL
#define E SYSTEM_EITHER

/* One line a unit; what else a new one wants says DEVELOPERS.md. The first metric and the first
 * imperial unit of a kind are the ones shown beside the other system's. */
static const struct unit units[] = {
    {"mm", "mm", KIND_LENGTH, M, 1, -3, 0},
    {"cm", "cm", KIND_LENGTH, M, 1, -2, 0},
    {"m", "m", KIND_LENGTH, M, 1, 0, 0},
    {"um", "µm", KIND_LENGTH, M, 1, -6, 0},
    {"in", "in", KIND_LENGTH, I, 254, -4, 0},
    {"ft", "ft", KIND_LENGTH, I, 3048, -4, 0},
    {"N", "N", KIND_FORCE, M, 1, 0, 0},
    {"mN", "mN", KIND_FORCE, M, 1, -3, 0},
    {"kN", "kN", KIND_FORCE, M, 1, 3, 0},
    {"kgf", "kgf", KIND_FORCE, M, 980665, -5, 0},
    {"gf", "gf", KIND_FORCE, M, 980665, -8, 0},
    {"lbf", "lbf", KIND_FORCE, I, 44482216152605, -13, 0},
    {"ozf", "ozf", KIND_FORCE, I, 27801385095378125, -17, 0},
    {"N.m", "N·m", KIND_TORQUE, M, 1, 0, 0},
    {"N.cm", "N·cm", KIND_TORQUE, M, 1, -2, 0},
    {"N.mm", "N·mm", KIND_TORQUE, M, 1, -3, 0},
    {"mN.m", "mN·m", KIND_TORQUE, M, 1, -3, 0},
    {"kgf.m", "kgf·m", KIND_TORQUE, M, 980665, -5, 0},
    {"kgf.cm", "kgf·cm", KIND_TORQUE, M, 980665, -7, 0},
    {"gf.cm", "gf·cm", KIND_TORQUE, M, 980665, -10, 0},
    {"lbf.in", "lbf·in", KIND_TORQUE, I, 1129848290276167, -16, 0},
    {"lbf.ft", "lbf·ft", KIND_TORQUE, I, 13558179483314004, -16, 0},
    {"ozf.in", "ozf·in", KIND_TORQUE, I, 706155181422604375, -20, 0},
    {"r/min", "r/min", KIND_SPEED, E, 1, 0, 0},
    {"rpm", "r/min", KIND_SPEED, E, 1, 0, 0},
    {"deg", "°", KIND_ANGLE, E, 1, 0, 0},
    {"%", "%", KIND_RATIO, E, 1, 0, 0},
    {"tpi", "tpi", KIND_THREADS, I, 1, 0, 0},
    {"kg", "kg", KIND_MASS, M, 1, 0, 0},
    {"g", "g", KIND_MASS, M, 1, -3, 0},
    {"lb", "lb", KIND_MASS, I, 45359237, -8, 0},
    {"oz", "oz", KIND_MASS, I, 28349523125, -12, 0},
    {"degC", "°C", KIND_TEMPERATURE, M, 18, -1, 32},
    {"degF", "°F", KIND_TEMPERATURE, I, 1, 0, 0},
    {"degC", "°C", KIND_RISE, M, 18, -1, 0},
    {"degF", "°F", KIND_RISE, I, 1, 0, 0},
    {"min", "min", KIND_TIME, E, 60, 0, 0},
    {"s", "s", KIND_TIME, E, 1, 0, 0},
    {"h", "h", KIND_TIME, E, 3600, 0, 0},
    {"mm2/s", "mm²/s", KIND_VISCOSITY, E, 1, 0, 0},
    {"cSt", "cSt", KIND_VISCOSITY, E, 1, 0, 0},
};

#undef M
#undef I
#undef E

enum { UNIT_COUNT = sizeof units / sizeof units[0] };

static const struct {
    const char *name, *example;
} kinds[KIND_COUNT] = {
    [KIND_LENGTH] = {"length", "60 mm or 2 1/2 in"},
    [KIND_FORCE] = {"force", "50 N or 2.5 lbf"},
    [KIND_TORQUE] = {"torque", "0.25 N.m or 12 lbf.in"},
    [KIND_SPEED] = {"turning speed", "800 r/min"},
    [KIND_ANGLE] = {"angle", "5 deg"},
    [KIND_RATIO] = {"percentage", "0.5 %"},
    [KIND_THREADS] = {"number of threads per inch", "18 tpi"},
    [KIND_MASS] = {"mass", "1.5 kg or 2 lb"},
    [KIND_TEMPERATURE] = {"temperature", "21 degC or 70 degF"},
    [KIND_RISE] = {"rise of temperature", "35 degC or 63 degF"},
    [KIND_TIME] = {"time", "10 min"},
    [KIND_VISCOSITY] = {"viscosity", "32 mm2/s or 32 cSt"},
};

/* Whether a typed symbol is a listed one. A middle dot counts as a point, and the Greek letter
 * as the micro sign, which some programs turn into it. */
static bool is_same(const char *listed, const char *typed, size_t length)
{
    const char *end = typed + length;
    while (*listed) {
        if (*listed == '.' && end - typed >= 2 && memcmp(typed, "·", 2) == 0) {
            listed++;
            typed += 2;
        } else if (end - typed >= 2 && memcmp(typed, "\xCE\xBC", 2) == 0 &&
                   strncmp(listed, "\xC2\xB5", 2) == 0) {
            listed += 2;
            typed += 2;
        } else if (typed == end || *typed++ != *listed++) {
            return false;
        }
    }
    return typed == end;
}

static bool has_symbol(const struct unit *unit, const char *symbol, size_t length)
{
    return is_same(unit->symbol, symbol, length) || is_same(unit->shown, symbol, length);
}

const struct unit *unit_find_as(const char *symbol, size_t length, enum kind kind)
{
    for (size_t i = 0; i < UNIT_COUNT; i++) /* few are of one kind */
        if (units[i].kind == kind && has_symbol(&units[i], symbol, length))
            return &units[i];
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if (has_symbol(&units[i], symbol, length))
            return &units[i];
    return NULL;
}

const struct unit *unit_find(const char *symbol, size_t length)
{
    return unit_find_as(symbol, length, KIND_NONE);
}

const struct unit *unit_at(size_t index)
{
    return index < UNIT_COUNT ? &units[index] : NULL;
}

struct decimal unit_factor(const struct unit *unit)
{
    return decimal_of(unit->factor, unit->exponent);
}

/* Dividing by an exact power of ten, rather than multiplying by a rounded one,
 * keeps the result the double nearest to the true value in all but rare cases. */
static double power_of_ten(int exponent)
{
    double power = 1;
    for (; exponent > 0; exponent--)
        power *= 10;
    return power;
}

double unit_to_base(double value, const struct unit *unit)
{
    double scaled = value * (double)unit->factor;
    scaled = unit->exponent < 0 ? scaled / power_of_ten(-unit->exponent)
                                : scaled * power_of_ten(unit->exponent);
    return scaled + unit->zero;
}

double unit_from_base(double base, const struct unit *unit)
{
    base -= unit->zero;
    double scaled = unit->exponent < 0 ? base * power_of_ten(-unit->exponent)
                                       : base / power_of_ten(unit->exponent);
    return scaled / (double)unit->factor;
}

const char *kind_name(enum kind kind)
{
    return kinds[kind].name;
}

const char *kind_article(enum kind kind)
{
    return kind == KIND_ANGLE ? "an" : "a";
}

const char *kind_example(enum kind kind)
{
    return kinds[kind].example;
}

const struct unit *unit_other_system(const struct unit *unit)
{
    enum system wanted = unit->system == SYSTEM_METRIC ? SYSTEM_IMPERIAL : SYSTEM_METRIC;
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if (units[i].kind == unit->kind && units[i].system == wanted)
            return &units[i];
    return unit;
}

/* Other ways to write a unit, with a blank between. A point in one stands for a hyphen and a
 * blank too: "lb.in" for "lb-in" and "lb in". None stands for two units of one kind; of another
 * kind it may: a gauge's kg is a force, a weight's a mass. */
static const struct {
    const char *meant, *written;
} other_ways[] = {
    {"lbf.in", "lb.in lbs.in lbf.in in.lb in.lbs in.lbf inch.pound inch.pounds pound.inches"},
    {"lbf.ft", "lb.ft lbs.ft lbf.ft ft.lb ft.lbs ft.lbf foot.pound foot.pounds pound.feet"},
    {"ozf.in", "oz.in ozf.in in.oz inch.ounces"},
    {"kgf.m", "kg.m kgf.m"},
    {"kgf.cm", "kg.cm kgf.cm cm.kg"},
    {"gf.cm", "g.cm"},
    {"N.m", "Nm N.m"},
    {"N.cm", "Ncm"},
    {"N.mm", "Nmm"},
    {"lbf", "lb lbs pound pounds"},
    {"ozf", "oz"},
    {"kgf", "kg kp"},
    {"gf", "g"},
    {"lb", "lbs pound pounds"},
    {"in", "inch inches \""},
    {"ft", "'"},
    {"degC", "C"},
    {"degF", "F"},
    {"deg", "degrees"},
    {"r/min", "1/min rev/min"},
    {"%", "percent"},
};

static char small(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

static bool is_alike(const char *written, const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        bool joint = written[i] == '.' && (text[i] == '-' || text[i] == ' ');
        if (!joint && small(written[i]) != small(text[i]))
            return false;
    }
    return true;
}

const struct unit *unit_of_kind(const char *text, size_t length, enum kind kind)
{
    const struct unit *unit = unit_find_as(text, length, kind);
    if (unit && unit->kind == kind)
        return unit;
    for (size_t i = 0; i < sizeof other_ways / sizeof other_ways[0]; i++) {
        const char *meant = other_ways[i].meant;
        for (const char *way = other_ways[i].written; *way; way += *way == ' ') {
            size_t letters = strcspn(way, " ");
            if (letters == length && is_alike(way, text, length) &&
                (unit = unit_find_as(meant, strlen(meant), kind))->kind == kind)
                return unit;
            way += letters;
        }
    }
    return NULL;
}
