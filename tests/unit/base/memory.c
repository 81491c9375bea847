/* Arrays and texts that grow: where they are while nothing stands behind them, elsewhere
 * when something does, and printed once or twice. */
#include "base/memory.h"
#include "base/buffer.h"
#include "test.h"

#include <stdlib.h>
#include <string.h>

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

struct taken {
    struct buffer all;
    size_t times, longest;
};

static void take(void *with, const void *bytes, size_t length)
{
    struct taken *taken = with;
    buffer_add(&taken->all, bytes, length);
    taken->times++;
    taken->longest = length > taken->longest ? length : taken->longest;
}

/* What comes out is what was put in, and no more is held than a page or so. */
static void test_drained_buffer(void **state)
{
    (void)state;
    struct taken taken = {0};
    const struct sink sink = {take, &taken};
    struct buffer buffer = {0}, want = {0};
    for (int round = 0; round < 3; round++) {
        buffer_drain(&buffer, &sink);
        for (int i = 0; i < 100000; i++) {
            buffer_print(&buffer, "%d,", i);
            buffer_print(&want, "%d,", i);
        }
        buffer_end_drain(&buffer);
        assert_int_equal(buffer.length, 0);
    }
    assert_int_equal(taken.all.length, want.length);
    assert_memory_equal(taken.all.bytes, want.bytes, want.length);
    assert_true(buffer.room < 200000 && taken.longest < 200000 && taken.times > 8);
    buffer_text(&buffer, "no longer drained");
    assert_int_equal(taken.all.length, want.length);
    buffer_free(&buffer);
    buffer_free(&want);
    buffer_free(&taken.all);
}

/* One thing that is longer than the room goes through whole. */
static void test_drained_buffer_takes_long_things(void **state)
{
    (void)state;
    enum { LONG = 500000 };
    struct taken taken = {0};
    const struct sink sink = {take, &taken};
    struct buffer buffer = {0};
    char *text = calloc(1, LONG);
    memset(text, 'y', LONG - 1);
    buffer_drain(&buffer, &sink);
    buffer_text(&buffer, "a");
    buffer_text(&buffer, text);
    buffer_print(&buffer, "%s", text);
    buffer_text(&buffer, "b");
    buffer_end_drain(&buffer);
    assert_int_equal(taken.all.length, 2 * LONG);
    assert_int_equal(taken.all.bytes[0], 'a');
    assert_int_equal(taken.all.bytes[2 * LONG - 1], 'b');
    assert_memory_equal(taken.all.bytes + 1, text, LONG - 1);
    assert_memory_equal(taken.all.bytes + LONG, text, LONG - 1);
    free(text);
    buffer_free(&buffer);
    buffer_free(&taken.all);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_alone_an_array_stays_where_it_is),
    cmocka_unit_test(test_beside_others_nothing_is_written_over),
    cmocka_unit_test(test_longer_than_a_block),
    cmocka_unit_test(test_prints_of_every_length),
    cmocka_unit_test(test_drained_buffer),
    cmocka_unit_test(test_drained_buffer_takes_long_things),
};

GROUP(memory, NULL, NULL)
