/* Arrays and texts that grow: where they are while nothing stands behind them, elsewhere
 * when something does, and printed once or twice. */
#include "base/buffer.h"
#include "base/memory.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

enum { MANY = 1000 };

static void test_alone_an_array_stays_where_it_is(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    int *items = NULL, *start = NULL;
    size_t count = 0;
    for (int i = 0; i < MANY; i++) {
        int *item = ARENA_PUSH(arena, items, count);
        assert_int_equal(*item, 0);
        *item = i + 1;
        start = i == 0 ? items : start;
    }
    assert_ptr_equal(items, start);
    arena_free(arena);
}

static void test_beside_others_nothing_is_written_over(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    int *up = NULL, *down = NULL;
    size_t up_count = 0, down_count = 0;
    for (int i = 0; i < MANY; i++) {
        *ARENA_PUSH(arena, up, up_count) = i + 1;
        *ARENA_PUSH(arena, down, down_count) = -i - 1;
        char *between = arena_get(arena, 5);
        assert_memory_equal(between, "\0\0\0\0\0", 5);
        memset(between, 'x', 5);
    }
    for (int i = 0; i < MANY; i++) {
        assert_int_equal(up[i], i + 1);
        assert_int_equal(down[i], -i - 1);
    }
    arena_free(arena);
}

/* More than a block of memory has: the array moves to a larger one. */
static void test_longer_than_a_block(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct large {
        size_t number;
        char rest[3000];
    } *items = NULL;
    size_t count = 0;
    for (size_t i = 0; i < 100; i++) {
        struct large *item = ARENA_PUSH(arena, items, count);
        assert_int_equal(item->number, 0);
        item->number = i + 1;
        memset(item->rest, 'x', sizeof item->rest);
    }
    for (size_t i = 0; i < 100; i++)
        assert_int_equal(items[i].number, i + 1);
    arena_free(arena);
}

/* Around the lengths at which a text does not fit at the first try. */
static void test_prints_of_every_length(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    for (int length = 1; length < 600; length++) {
        struct buffer buffer = {0};
        buffer_print(&buffer, "%*d", length, 7);
        buffer_print(&buffer, "%*d", length, 8);
        assert_int_equal(buffer.length, 2 * length);
        assert_int_equal(strlen(buffer.bytes), 2 * length);
        assert_int_equal(buffer.bytes[length - 1], '7');
        assert_int_equal(buffer.bytes[2 * length - 1], '8');
        const char *text = arena_format(arena, "%*d%*d", length, 7, length, 8);
        assert_string_equal(text, buffer.bytes);
        buffer_free(&buffer);
    }
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_alone_an_array_stays_where_it_is),
        cmocka_unit_test(test_beside_others_nothing_is_written_over),
        cmocka_unit_test(test_longer_than_a_block),
        cmocka_unit_test(test_prints_of_every_length),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
