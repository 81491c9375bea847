/* The oil: one way of saying how thick it is, and thinner where it is hotter. */
#include "shop/check_parts.h"

static struct decimal exact_or(const struct measure *temperature, int fahrenheit)
{
    return given(temperature) ? temperature->q.exact : decimal_of(fahrenheit, 0);
}

/* At those of a data sheet where the settings give no temperature. */
static void check_points(const struct oil_typed *oil, struct diags *diags)
{
    struct decimal first = exact_or(&oil->first_temperature, FAHRENHEIT(OIL_WARM_CELSIUS)),
                   second = exact_or(&oil->second_temperature, FAHRENHEIT(OIL_HOT_CELSIUS));
    int hotter = decimal_compare(&second, &first);
    int thicker =
        decimal_compare(&oil->second_viscosity.q.exact, &oil->first_viscosity.q.exact);
    if (hotter == 0)
        fault(diags, oil->second_viscosity.at,
              "both viscosities of the oil are for one temperature; write a second one from "
              "the data sheet");
    else if (hotter * thicker >= 0)
        fault(diags, oil->second_viscosity.at,
              "the oil is not thinner where it is hotter; exchange the two viscosities, or "
              "correct their temperatures");
}

void shop_check_oil(const struct shop *shop, struct diags *diags)
{
    const struct oil_typed *oil = &shop->oil;
    bool first = given(&oil->first_viscosity), second = given(&oil->second_viscosity);
    const struct measure *one = first ? &oil->first_viscosity : &oil->second_viscosity;
    if (oil->grade && (first || second))
        fault(diags, one->at,
              "the oil has both a grade and a viscosity; keep the two viscosities if its data "
              "sheet gives both");
    else if (first != second)
        fault(diags, one->at,
              "the oil has one viscosity alone; write the other one of its data sheet too, or "
              "its grade instead");
    else if (first)
        check_points(oil, diags);
}
