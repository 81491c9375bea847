/* The tables of temperatures: the room of the settings stands in both with one stop; and what
 * the tables of a warm spindle say that they lack. */
#include "form_sample.h"
#include "shop_fixture.h"
#include "tables/tables.h"

static const struct table *made(const char *name, const char *const *set, size_t count)
{
    struct shop *shop = arena_get(arena, sizeof *shop);
    *shop = shop_with(set, count);
    struct table_ask ask = {.arena = arena, .diags = diags, .results = results_for(shop)};
    return tables_make(name, &ask);
}

/* The row in bold; there is one. */
static size_t strong_row(const struct table *table)
{
    size_t found = 0, count = 0;
    for (size_t row = 0; row < table->row_count; row++)
        if (table_cell(table, row, 0)->strong) {
            found = row;
            count++;
        }
    assert_int_equal(count, 1);
    return found;
}

static void assert_room(const char *setting, size_t row, const char *celsius,
                        const char *fahrenheit)
{
    const struct table *rooms = made("temperatures", &setting, 1);
    const struct table *stages = made("run-in", &setting, 1);
    assert_int_equal(strong_row(rooms), row);
    assert_string_equal(table_cell(rooms, row, 0)->shown, celsius);
    assert_string_equal(table_cell(rooms, row, 1)->shown, fahrenheit);
    for (size_t i = 0; i < 4; i++) /* look closer from, stop at: each in both scales */
        assert_string_equal(table_cell(rooms, row, 2 + i)->shown,
                            table_cell(stages, 0, 5 + i)->shown);
    for (size_t i = 1; i < rooms->row_count; i++)
        assert_true(table_cell(rooms, i - 1, 1)->value < table_cell(rooms, i, 1)->value);
}

/* By 2.5 degrees Celsius from 5, or by 5 degrees Fahrenheit from 40: a room between, below,
 * above, and on a row. */
static void test_the_room_has_a_row(void **state)
{
    (void)state;
    assert_room("run-in.room=18 degC", 6, "18.0", "64.4");
    assert_room("run-in.room=62 degF", 5, "16.7", "62.0");
    assert_room("run-in.room=3 degC", 0, "3.0", "37.4");
    assert_room("run-in.room=40 degC", 13, "40.0", "104.0");
    assert_room("run-in.room=20 degC", 6, "20.0", "68.0");
    assert_room("run-in.room=65 degF", 5, "18.3", "65.0");
    assert_room("nut.pitch=1 mm", 6, "20.0", "68.0");
}

/* 62 degF and 63: 125; and 36: 98. */
static void test_a_room_worked_by_hand(void **state)
{
    (void)state;
    static const char *const room = "run-in.room=62 degF";
    const struct table *rooms = made("temperatures", &room, 1);
    assert_string_equal(table_cell(rooms, 5, 3)->shown, "98");
    assert_string_equal(table_cell(rooms, 5, 5)->shown, "125");
    assert_string_equal(table_cell(rooms, 0, 1)->shown, "40.0");
    assert_string_equal(table_cell(rooms, rooms->row_count - 1, 1)->shown, "95.0");
}

static void assert_last_note(const struct table *table, const char *words)
{
    if (!strstr(table->notes[table->note_count - 1], words))
        fail_msg("'%s' does not stand in: %s", words, table->notes[table->note_count - 1]);
}

static void test_only_what_is_wanting_is_named(void **state)
{
    (void)state;
    static const char *const all[] = {"spindle.pitch-diameter=75 mm", "spindle.span=220 mm"};
    assert_last_note(made("spindle-growth", NULL, 0),
                     "Wanted: spindle.span, spindle.pitch-diameter and spindle.contact-angle.");
    assert_last_note(made("spindle-growth", all, 1),
                     "Wanted: spindle.span and spindle.contact-angle.");
    assert_last_note(made("spindle-growth", all, 2), "Wanted: spindle.contact-angle.");
    assert_last_note(made("drag-estimate", NULL, 0),
                     "Wanted: spindle.pitch-diameter and spindle.contact-angle. It");
    assert_last_note(made("drag-estimate", all, 1), "Wanted: spindle.contact-angle. It");
}

static const struct CMUnitTest tests[] = {
    TEST(test_the_room_has_a_row),
    TEST(test_a_room_worked_by_hand),
    TEST(test_only_what_is_wanting_is_named),
};

GROUP(temperatures, NULL, NULL)
