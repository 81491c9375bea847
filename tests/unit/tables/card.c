/* The card's table of all bands, and when no pull is good. */
#include "reader_fixture.h"
#include "shop/settings.h"
#include "shop_fixture.h"
#include "tables/tables.h"

static const struct table *card_table(const char *step, bool card)
{
    struct shop shop;
    const char *const set[] = {arena_format(arena, "gauge.step=%s", step)};
    struct table_option show = {.key = "show", .value = "card"};
    struct table_ask ask = {
        .arena = arena, .diags = diags, .options = &show, .option_count = card};
    settings_read(arena, diags, "tests/faults/base/settings.yaml", set, 1, &shop);
    assert_int_equal(diags_count(diags), 0);
    ask.results = results_for(&shop);
    return tables_make("pull-windows", &ask);
}

static const char cannot[] = "NO PULL IS GOOD, this gauge and drum cannot decide";

/* The window is 18.10 to 24.67 N. Of steps of 20 N one lies inside, and none is good. */
static void test_a_card_says_that_its_gauge_cannot_decide(void **state)
{
    (void)state;
    const struct table *table = card_table("20 N", true);
    assert_string_equal(table->caption, cannot);
    assert_string_equal(table_cell(table, table->row_count - 1, 1)->shown, "20");
    assert_string_not_equal(card_table("20 N", false)->caption, cannot);
    assert_string_equal(card_table("0.05 N", true)->caption, "Every speed band");
}

/* The window says the rest: no notes, and a head that is no stop at 25 N. */
static void test_the_table_on_the_card(void **state)
{
    (void)state;
    const struct table *table = card_table("0.05 N", true);
    assert_int_equal(table->note_count, 0);
    assert_string_equal(table->columns[4].quantity, "never above");
}

static const struct CMUnitTest tests[] = {
    TEST(test_a_card_says_that_its_gauge_cannot_decide),
    TEST(test_the_table_on_the_card),
};

GROUP(card, NULL, NULL)
