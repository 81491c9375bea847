#include "verdict/gauge.h"

#include "drag/gravity.h"
#include "drag/student.h"
#include "drag/uncertainty.h"

#include <math.h>

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
    double forces[MOST_WEIGHINGS], readings[MOST_WEIGHINGS];
    size_t count = shop->weighings.count;
    struct gauge_check check = {.least = INFINITY, .most = 0, .step = shop->gauge.step.q.base};
    for (size_t i = 0; i < count; i++) {
        forces[i] = weighing_force(shop, &shop->weighings.items[i]);
        readings[i] = shop->weighings.items[i].reading.base;
        check.least = fmin(check.least, forces[i]);
        check.most = fmax(check.most, forces[i]);
    }
    check.line = line_through(forces, readings, count);
    check.known = isfinite(check.line.slope);
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
