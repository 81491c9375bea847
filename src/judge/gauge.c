/* Known weights give a straight line of reading against force; where they do not reach, it is
 * carried on, beside what the settings state. */
#include "judge/gauge.h"

#include "judge/results.h"
#include "number/unit.h"
#include "physics/physics.h"

#include <math.h>
#include <stdlib.h>

double shop_gravity(const struct shop *shop)
{
    if (!given(&shop->site.latitude))
        return standard_gravity;
    double height = given(&shop->site.height) ? shop->site.height.q.base : 0;
    return gravity_at(shop->site.latitude.q.base, height);
}

double weighing_force(const struct shop *shop, const struct weighing *weighing)
{
    if (weighing->load.unit->kind == KIND_FORCE)
        return weighing->load.base;
    return weight_of(weighing->load.base, shop_gravity(shop));
}

struct gauge_check gauge_check_of(const struct shop *shop)
{
    size_t count = shop->weighings.count;
    double *forces = heap_get((2 * count + 1) * sizeof *forces), *readings = forces + count;
    struct gauge_check check = {.least = INFINITY, .most = 0, .step = shop->gauge.step.q.base};
    for (size_t i = 0; i < count; i++) {
        forces[i] = weighing_force(shop, &shop->weighings.items[i]);
        readings[i] = shop->weighings.items[i].reading.base;
        check.least = fmin(check.least, forces[i]);
        check.most = fmax(check.most, forces[i]);
    }
    check.line = line_through(forces, readings, count);
    check.known = count > 2 && isfinite(check.line.slope);
    free(forces);
    return check;
}

double gauge_usual_pull(const struct shop *shop)
{
    return shop->gauge.capacity.q.base / 2;
}

double gauge_check_from(const struct gauge_check *check)
{
    return check->least / 2;
}

double gauge_check_to(const struct gauge_check *check)
{
    return check->most * 1.25;
}

bool gauge_check_covers(const struct gauge_check *check, double pull)
{
    return check->known && pull >= gauge_check_from(check) && pull <= gauge_check_to(check);
}

double gauge_check_error(const struct gauge_check *check, double pull)
{
    return line_at(&check->line, pull) - pull;
}

double gauge_carried_error(const struct gauge_check *check, double pull)
{
    double last = fmin(fmax(pull, gauge_check_from(check)), gauge_check_to(check));
    return fmax(fabs(gauge_check_error(check, pull)), fabs(gauge_check_error(check, last)));
}

double gauge_check_u(const struct gauge_check *check, double pull)
{
    double scatter = hypot(line_se_at(&check->line, pull), check->line.sd);
    return fmax(scatter, doubt_of_step(check->step));
}

double gauge_known_within(const struct gauge_check *check, double pull)
{
    double degrees_of_freedom = (double)check->line.count - 2;
    return student_factor(student_coverage, degrees_of_freedom) * gauge_check_u(check, pull);
}

double gauge_share(double part, double force)
{
    return force > 0 ? 100 * part / force : NAN;
}

/* A gauge is seldom a tenth wrong; a unit often is. */

static const double far = 0.1; /* off what it should be */

enum gauge_slope gauge_slope_of(const struct gauge_check *check)
{
    const double kg_of_lb = unit_to_base(1, unit_find("lb", 2));
    const struct {
        double ratio;
        enum gauge_slope slope;
    } likely[] = {{1, SLOPE_NEAR_ONE},
                  {kg_of_lb, SLOPE_LOADS_IN_LB},
                  {1 / kg_of_lb, SLOPE_LOADS_IN_KG},
                  {standard_gravity, SLOPE_READINGS_IN_N},
                  {1 / standard_gravity, SLOPE_READINGS_IN_KGF}};
    if (!check->known)
        return SLOPE_NEAR_ONE;
    for (size_t i = 0; i < sizeof likely / sizeof likely[0]; i++)
        if (fabs(check->line.slope / likely[i].ratio - 1) <= far)
            return likely[i].slope;
    return SLOPE_ODD;
}

/* ---- what is held of the gauge's error at a pull, and what that rests on ---- */

enum gauge_source gauge_source_at(const struct results *results, double pull)
{
    bool checked = given(&results->shop->gauge.checked_error);
    if (gauge_check_covers(&results->check, pull))
        return GAUGE_WEIGHED;
    if (results->check.known)
        return checked ? GAUGE_CHECKED_OR_CARRIED : GAUGE_SHEET_OR_CARRIED;
    return checked ? GAUGE_CHECKED : GAUGE_DATA_SHEET;
}

double gauge_stated_error(const struct shop *shop, double pull)
{
    const struct gauge *gauge = &shop->gauge;
    if (given(&gauge->checked_error))
        return gauge->checked_error.q.base;
    double error = 0;
    if (given(&gauge->full_scale_error))
        error += gauge->full_scale_error.q.base / 100 * gauge->capacity.q.base;
    if (given(&gauge->reading_error))
        error += gauge->reading_error.q.base / 100 * pull;
    return error;
}

double gauge_within_at(const struct results *results, double pull)
{
    const struct gauge_check *check = &results->check;
    double stated = gauge_stated_error(results->shop, pull);
    if (!check->known)
        return stated;
    double weighed = gauge_carried_error(check, pull) + gauge_known_within(check, pull);
    return gauge_check_covers(check, pull) ? weighed : fmax(weighed, stated);
}
