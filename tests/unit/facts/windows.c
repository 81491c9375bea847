/* Tens of thousands of made-up windows and limits, decided again in whole numbers of
 * 128 bits, by division, which the program does not use. */
#include "properties.h"
#include "window_sample.h"

/* From a few to a thousand gauge steps of drag, in some unit. */
static struct made make_drag(wide most)
{
    const struct made_unit *unit = &torques[draw(5)];
    wide one = (wide)unit->factor * power(unit->exponent), count = most / one;
    if (count < 2 || count > 900000000)
        return make(&torques[1], 1 + draw(20000));
    return make(unit, 1 + draw((uint64_t)count));
}

/* A drag that is exactly so many steps, where metric units can write it. */
static bool make_exact(wide twice, struct made *made)
{
    for (size_t i = 0; i < 5; i++) {
        wide one = (wide)torques[i].factor * power(torques[i].exponent) * 2;
        if (twice % one == 0 && twice / one < 900000000 && twice > 0) {
            *made = make(&torques[i], (uint64_t)(twice / one));
            return true;
        }
    }
    return false;
}

static wide round_up(wide a, wide b)
{
    return (a + b - 1) / b;
}

struct made_window {
    struct made drum, cord, step, low, high, slack;
    bool increase;
};

static struct made_window make_window(void)
{
    struct made_window made = {.increase = draw(4) == 0};
    static const int sizes[] = {200000, 20000, 8000, 600}; /* 200 mm, 20 cm, 8 in, 0.6 ft */
    int kind = (int)draw(4), round_kind = (int)draw(3);
    made.drum = draw(4) ? make(&lengths[kind], 100 + draw((uint64_t)sizes[kind]))
                        : make_fraction(65 + 2 * draw(250));
    if (round_kind == 0) /* round numbers, on which limits fall exactly */
        made.drum = make(&lengths[draw(3)], 1000 * (1 + draw(9)));
    made.cord = make(&lengths[draw(3)], round_kind == 0 ? 0 : draw(150));
    made.step = make(&forces[draw(5)], draw(2) ? 1 + draw(500) : 10 * (1 + draw(10)));
    wide twice_step = made.step.value * (made.drum.value + made.cord.value);
    wide most = twice_step * (wide)(2 + draw(draw(8) ? 1000 : 4));
    made.low = make_drag(most / 2);
    made.high = make_drag(most);
    made.slack = make_drag(most / 4);
    if (draw(2))
        make_exact(twice_step * (wide)(1 + draw(200)), &made.slack);
    if (draw(2))
        make_exact(twice_step * (wide)(1 + draw(500)), &made.low);
    if (draw(2))
        make_exact(twice_step * (wide)(1 + draw(500)), &made.high);
    if (made.low.value > made.high.value) {
        struct made other = made.low;
        made.low = made.high;
        made.high = other;
    }
    return made;
}

struct tally {
    int on_step, closed, increases;
};

/* The program's window against whole-number division. */
static void check_window(const struct made_window *made, struct tally *tally)
{
    struct shop shop = shop_of(made->drum.text, made->cord.text, made->step.text);
    struct band band = band_of(made->low.text, made->high.text);
    shop.limits.slack_drag = measure_of(made->slack.text, KIND_TORQUE);
    shop.limits.never_exceed = band.high;
    shop.limits.basis = made->increase ? BASIS_INCREASE : BASIS_ABSOLUTE;
    struct pull_window window = window_of(&shop, &band);
    wide step = made->step.value * (made->drum.value + made->cord.value);
    wide slack = made->increase ? made->slack.value : 0;
    wide low = 2 * (made->low.value + slack), high = 2 * (made->high.value + slack);
    if (window.low_steps != round_up(low, step) || window.high_steps != high / step ||
        window.never_steps != high / step ||
        window.closed != (round_up(low, step) > high / step))
        fail_msg("D %s, d %s, step %s, %s to %s, slack %s: %lld to %lld", made->drum.text,
                 made->cord.text, made->step.text, made->low.text, made->high.text,
                 made->increase ? made->slack.text : "none", (long long)window.low_steps,
                 (long long)window.high_steps);
    if (!window.closed) {
        assert_true(window.aim_steps >= window.low_steps);
        assert_true(window.aim_steps <= window.high_steps);
        assert_sides(&shop, &band, window.low_steps, window.high_steps);
    }
    tally->on_step += (low % step == 0) + (high % step == 0);
    tally->closed += window.closed;
    tally->increases += made->increase;
}

static void test_made_up_windows(void **state)
{
    (void)state;
    enum { WINDOWS = 40000 };
    struct tally tally = {0};
    for (int i = 0; i < WINDOWS; i++) {
        struct made_window made = make_window();
        check_window(&made, &tally);
    }
    print_message("%d windows: %d limits on a step, %d closed, %d increases\n", WINDOWS,
                  tally.on_step, tally.closed, tally.increases);
    assert_true(tally.on_step > 4000 && tally.closed > 500 && tally.increases > 5000);
}

/* "12.50" as the whole number 1250 and how many of its digits stand behind the
 * point. */
static wide read_shown(const char *text, int *places)
{
    wide value = 0;
    const char *point = strchr(text, '.');
    *places = point ? (int)strlen(point + 1) : 0;
    for (; *text; text++)
        if (*text != '.')
            value = value * 10 + (*text - '0');
    return value;
}

static void check_limit(const struct made *limit, const struct made_unit *to,
                        enum limit_end limit_side)
{
    int places;
    struct quantity quantity = quantity_of(limit->text, KIND_TORQUE);
    const struct unit *unit = unit_find(to->symbol, strlen(to->symbol));
    struct shown shown = show_limit_in(&quantity, unit, limit_side);
    wide digits = read_shown(shown.text, &places);
    if (digits < 1000 || places > to->exponent + 3)
        fail_msg("%s: %s %s has too few or too many digits", limit->text, shown.text,
                 to->symbol);
    wide one = (wide)to->factor * power(to->exponent + 3 - places), last = one;
    if (places == 0) /* of 12340 the last digit is no fourth one */
        last *= digits > 99999 ? 100 : digits > 9999 ? 10 : 1;
    wide inward =
        limit_side == LIMIT_LOW ? digits * one - limit->value : limit->value - digits * one;
    if (inward < 0 || inward >= last)
        fail_msg("%s: %s %s", limit->text, shown.text, to->symbol);
}

/* No shown limit lies outside the true one, and one more in its fourth digit does. */
static void test_made_up_limits(void **state)
{
    (void)state;
    for (int i = 0; i < 20000; i++) {
        struct made limit = make(&torques[draw(5)], 50 + draw(90000));
        check_limit(&limit, &torques[draw(5)], draw(2) ? LIMIT_LOW : LIMIT_HIGH);
    }
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_made_up_windows),
    cmocka_unit_test(test_made_up_limits),
};

GROUP(windows, NULL, NULL)
