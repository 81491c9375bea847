/* The card's window table: what it says of good pulls, and when no pull is good. */
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

static const char cannot[] = "NO PULL IS GOOD, this gauge and drum cannot decide: pull on";

/* The window is 18.10 to 24.67 N. Of steps of 20 N one lies inside, and none is good. */
static void test_a_card_says_that_its_gauge_cannot_decide(void **state)
{
    (void)state;
    const struct table *table = card_table("20 N", true);
    assert_int_equal(strncmp(table->caption, cannot, strlen(cannot)), 0);
    assert_string_equal(table_cell(table, table->row_count - 1, 1)->shown, "20");
    assert_null(strstr(table->notes[0], "good from"));
    assert_int_not_equal(strncmp(card_table("20 N", false)->caption, cannot, 10), 0);
    assert_int_not_equal(strncmp(card_table("0.05 N", true)->caption, cannot, 10), 0);
}

/* The good part as sure-windows has it, and a head that is no stop at 25 N. */
static void test_the_good_part_on_the_card(void **state)
{
    (void)state;
    struct shop shop;
    const struct table *table = card_table("0.05 N", true);
    struct table_ask ask = {.arena = arena, .diags = diags};
    const char *const set[] = {"gauge.step=0.05 N"};
    settings_read(arena, diags, "tests/faults/base/settings.yaml", set, 1, &shop);
    ask.results = results_for(&shop);
    const struct table *sure = tables_make("sure-windows", &ask);
    size_t own = sure->row_count - 1; /* that of the top speed */
    assert_string_equal(table->notes[0],
                        arena_format(arena, "Your band, bold: good from %s to %s\u00a0N.",
                                     table_cell(sure, own, 2)->shown,
                                     table_cell(sure, own, 3)->shown));
    assert_string_equal(table->columns[4].quantity, "never above");
}

static const struct CMUnitTest tests[] = {
    TEST(test_a_card_says_that_its_gauge_cannot_decide),
    TEST(test_the_good_part_on_the_card),
};

GROUP(card, NULL, NULL)
