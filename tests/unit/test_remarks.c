/* What looks unwise in the settings, each remark from the first setting on that earns it. */
#include "verdict/remarks.h"

#include "verdict/told.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "told_fixture.h"

static void remark_on(const struct shop *shop)
{
    said[0] = '\0';
    remarks_tell(shop, &(struct listener){.hear = keep_remark});
}

/* The top speed is 800 r/min. Told without limits too. */
static void test_speeds_without_the_top_speed(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct measure speeds[] = {measure_of("70 r/min", KIND_SPEED),
                               measure_of("800.0 r/min", KIND_SPEED)};
    shop.lathe.speeds = (struct measures){speeds, 2};
    remark_on(&shop);
    assert_string_equal(said, "");
    shop.lathe.speeds.count = 1;
    remark_on(&shop);
    assert_string_equal(said, "no speed of lathe.speeds is lathe.top-speed, 800 r/min; the "
                              "fastest is 70 r/min. Is one missing?|");
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    remark_on(&shop);
    assert_said("Is one missing?|no limit on file");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_speeds_without_the_top_speed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
