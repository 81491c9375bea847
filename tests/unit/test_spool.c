/* Items come out of a spool in order, each once, whether all of them are held or most wait
 * in the file. */
#include "base/spool.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { MANY = 3000, LONGEST = 9000 };

static int by_text(const void *left, const void *right)
{
    return strcmp(left, right);
}

static int by_text_at(const void *left, const void *right)
{
    return strcmp(*(char *const *)left, *(char *const *)right);
}

/* A few are longer than what is read of the file at once. The same seed gives the same. */
static char *made_up(unsigned *seed)
{
    *seed = *seed * 1103515245 + 12345;
    size_t length = *seed >> 16 & 31;
    if (length == 31)
        length = LONGEST - (*seed >> 21 & 15);
    char *text = malloc(length + 1);
    memset(text, 'a' + (int)(*seed >> 24 & 3), length);
    text[length] = '\0';
    if (length)
        text[0] = (char)('a' + (*seed >> 26 & 15));
    return text;
}

static void check_order(struct spool *spool, char *const *sorted, size_t count)
{
    spool_start(spool);
    for (size_t i = 0; i < count; i++) {
        const char *item = spool_next(spool);
        assert_non_null(item);
        assert_int_equal((uintptr_t)item % _Alignof(max_align_t), 0);
        assert_string_equal(item, sorted[i]);
    }
    assert_null(spool_next(spool));
    assert_null(spool_next(spool));
}

static void check(size_t count, size_t most)
{
    unsigned seed = 20261125;
    char **texts = malloc((count + 1) * sizeof *texts);
    struct spool *spool = spool_new(by_text, most);
    for (size_t i = 0; i < count; i++) {
        texts[i] = made_up(&seed);
        spool_add(spool, texts[i], strlen(texts[i]) + 1);
    }
    qsort(texts, count, sizeof *texts, by_text_at);
    check_order(spool, texts, count);
    check_order(spool, texts, count);
    spool_free(spool);
    for (size_t i = 0; i < count; i++)
        free(texts[i]);
    free(texts);
}

static void test_all_held(void **state)
{
    (void)state;
    check(0, 1 << 20);
    check(1, 1 << 20);
    check(MANY, SIZE_MAX);
}

/* From one item a run to a few runs in all. */
static void test_most_in_the_file(void **state)
{
    (void)state;
    static const size_t most[] = {1, 100, 1000, 5000, 40000, 300000};
    for (size_t i = 0; i < sizeof most / sizeof most[0]; i++) {
        check(2, most[i]);
        check(17, most[i]);
        check(MANY, most[i]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_held),
        cmocka_unit_test(test_most_in_the_file),
    };
    return cmocka_run_group_tests_name("spool", tests, NULL, NULL);
}
