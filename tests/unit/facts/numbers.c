/* What must hold of every number on paper, whatever the amount: tens of thousands of
 * made-up limits, doubts and conversions from a fixed seed. */
#include "judge/measure.h"
#include "judge/window.h"
#include "properties.h"

/* A double as the decimal that its 16 significant digits write. */
static struct decimal decimal_of_double(double value)
{
    char text[64], digits[32];
    snprintf(text, sizeof text, "%.15e", value);
    char *exponent = strchr(text, 'e'), *point = strchr(text, '.');
    snprintf(digits, sizeof digits, "%.*s%.15s", (int)(point - text), text, point + 1);
    return decimal_of(strtoll(digits, NULL, 10), (int)strtol(exponent + 1, NULL, 10) - 15);
}

/* A limit as it is shown in a unit, read back exactly. */
static struct quantity shown_limit(const struct quantity *limit, const struct made_unit *unit,
                                   enum limit_end side)
{
    const struct unit *to = unit_find(unit->symbol, strlen(unit->symbol));
    char text[DECIMAL_TEXT + 16];
    snprintf(text, sizeof text, "%s %s", show_limit_in(limit, to, side).text, unit->symbol);
    return quantity_of(text, KIND_TORQUE);
}

/* No limit is shown outside the true one, nor two of them in another order, and none
 * is moved inward by more than a step of its fourth digit. */
static void check_shown_limits(void)
{
    const struct made_unit *unit = &torques[draw(5)];
    struct quantity a = made_quantity(&torques[draw(5)], 900000, KIND_TORQUE);
    struct quantity b = made_quantity(&torques[draw(5)], 900000, KIND_TORQUE);
    if (decimal_compare(&a.exact, &b.exact) > 0) {
        struct quantity other = a;
        a = b;
        b = other;
    }
    struct quantity low_a = shown_limit(&a, unit, LIMIT_LOW);
    struct quantity low_b = shown_limit(&b, unit, LIMIT_LOW);
    struct quantity high_a = shown_limit(&a, unit, LIMIT_HIGH);
    struct quantity high_b = shown_limit(&b, unit, LIMIT_HIGH);
    HOLDS(decimal_compare(&low_a.exact, &a.exact) >= 0);
    HOLDS(decimal_compare(&high_a.exact, &a.exact) <= 0);
    HOLDS(decimal_compare(&low_a.exact, &low_b.exact) <= 0);
    HOLDS(decimal_compare(&high_a.exact, &high_b.exact) <= 0);
    HOLDS(low_a.base - high_a.base <= 1.0001e-3 * low_a.base);
}

/* U is never shown below itself, nor above by a step of its second digit, and a larger
 * one never smaller. */
static void check_shown_u(void)
{
    const struct unit *unit = unit_find("lbf.in", 6);
    double u = between(1e-6, 1e4), more = u * (1 + 0.2 * share());
    struct shown_uncertainty shown = uncertainty_shown_in(u, unit),
                             larger = uncertainty_shown_in(more, unit);
    double typed = decimal_to_double(&shown.typed), amount = unit_from_base(u, unit);
    HOLDS(typed >= amount * (1 - 4e-16));
    HOLDS(typed < amount * 1.1);
    HOLDS(decimal_compare(&larger.typed, &shown.typed) >= 0);
    char digits[DECIMAL_TEXT];
    decimal_print(&shown.typed, shown.places, digits);
    HOLDS(fabs(strtod(digits, NULL) - typed) <= 1e-15 * typed);
    double up = strtod(show_up(amount, 4).text, NULL);
    HOLDS(up >= amount * (1 - 1e-11) - 1e-16 && up < amount + 1.0001e-4);
}

/* The units that amounts are made up in. */
static const struct made_kind {
    enum kind kind;
    const struct made_unit *units;
    uint64_t count;
} made_kinds[] = {
    {KIND_TORQUE, torques, 5}, {KIND_FORCE, forces, 5}, {KIND_LENGTH, lengths, 4}};

/* Any amount there and back again, through every unit of its kind. */
static void check_round_trip(void)
{
    double amount = between(1e-9, 1e9) * (draw(2) ? 1 : -1);
    for (size_t i = 0; unit_at(i); i++) {
        const struct unit *unit = unit_at(i);
        double back = unit_to_base(unit_from_base(amount, unit), unit);
        /* a temperature's zero takes the last digits of a small amount */
        HOLDS(fabs(back - amount) <= 1e-15 * (fabs(amount) + abs(unit->zero)));
    }
    const struct made_kind *of = &made_kinds[draw(3)];
    struct quantity quantity = made_quantity(&of->units[draw(of->count)], 900000, of->kind);
    char text[QUANTITY_TEXT];
    quantity_show(&quantity, text);
    struct quantity again = quantity_of(text, of->kind);
    HOLDS(decimal_compare(&again.exact, &quantity.exact) == 0);
    HOLDS(quantity_in(&quantity, quantity.unit) == decimal_to_double(&quantity.typed));
}

/* A typed quantity in another unit: that unit's exact factor times what is worked out
 * gives back the amount, but for the last digit of a double. */
static void check_conversion(void)
{
    const struct made_kind *of = &made_kinds[draw(3)];
    const struct made_unit *made = &of->units[draw(of->count)];
    const struct made_unit *other = &of->units[draw(of->count)];
    struct quantity quantity = made_quantity(made, 900000, of->kind);
    const struct unit *unit = unit_find(other->symbol, strlen(other->symbol));
    struct decimal there = decimal_of_double(quantity_in(&quantity, unit));
    struct decimal factor = unit_factor(unit), share = decimal_of(1, -15);
    struct decimal back = decimal_multiply(&there, &factor);
    struct decimal most = decimal_multiply(&quantity.exact, &share);
    HOLDS(apart_at_most(&back, &quantity.exact, &most));
}

/* Printed numbers keep the order of the numbers, and none is further off than its way
 * of rounding allows: half of the last place, a whole one away from zero. */
static void check_rounding(void)
{
    int places = (int)draw(5), digits = 1 + (int)draw(6), sign = draw(2) ? 1 : -1;
    int64_t count = (int64_t)draw(100000000), less = count - (int64_t)draw(draw(2) ? 9 : 99999);
    struct decimal exact = decimal_of(sign * count, -6), other = decimal_of(sign * less, -6);
    double value = decimal_to_double(&exact), smaller = decimal_to_double(&other);
    struct decimal shown[][2] = {
        {decimal_of_shown(show_places(smaller, places)),
         decimal_of_shown(show_places(value, places))},
        {decimal_of_shown(show_up(smaller, places)), decimal_of_shown(show_up(value, places))},
        {decimal_of_shown(show_significant(smaller, digits)),
         decimal_of_shown(show_significant(value, digits))}};
    for (int i = 0; i < 3; i++)
        HOLDS(decimal_compare(&shown[i][0], &shown[i][1]) * sign <= 0);
    struct decimal half = decimal_of(5, -places - 1), whole = decimal_of(1, -places);
    HOLDS(apart_at_most(&shown[0][1], &exact, &half));
    HOLDS(apart_at_most(&shown[1][1], &exact, &whole));
    HOLDS(decimal_compare(&shown[1][1], &exact) * sign >= 0);
    if (count > 0) {
        struct decimal place = step_of_digits(value, digits), five = decimal_of(5, -1);
        struct decimal most = decimal_multiply(&place, &five);
        HOLDS(apart_at_most(&shown[2][1], &exact, &most));
    }
}

static const struct property properties[] = {
    {check_shown_limits, 8000}, {check_shown_u, 10000},  {check_round_trip, 5000},
    {check_conversion, 10000},  {check_rounding, 10000},
};

static void test_properties(void **state)
{
    (void)state;
    try_properties(properties, sizeof properties / sizeof properties[0]);
    assert_true(cases >= 43000);
}

static const struct CMUnitTest tests[] = {cmocka_unit_test(test_properties)};

GROUP(numbers, NULL, NULL)
