/* Work in processes of its own: answers, words and failures come back. */
#include "base/fatal.h"
#include "base/side.h"

#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

static int answer(void *with)
{
    return *(const int *)with;
}

static int lack(void *with)
{
    fatal("%s", (const char *)with);
}

static int die(void *with)
{
    (void)with;
    abort();
}

static void test_answers(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    int one = 1, most = SIDE_MOST;
    struct side *first = side_begin(arena, answer, &one);
    struct side *second = side_begin(arena, answer, &most);
    assert_int_equal(side_end(second), SIDE_MOST);
    assert_int_equal(side_end(first), 1);
    arena_free(arena);
}

/* How a program ends whose work is this, and what it says. */
static int ends_with(side_work *work, void *with, char *said, size_t room)
{
    /* A program that fails frees nothing: no leak. Volatile, or nobody would keep it. */
    static struct arena *volatile kept;
    int ends[2], status = 0;
    assert_int_equal(pipe(ends), 0);
    fflush(NULL);
    pid_t program = fork();
    if (program == 0) {
        dup2(ends[1], STDERR_FILENO);
        signal(SIGABRT, SIG_DFL);
        kept = arena_new();
        side_end(side_begin(kept, work, with));
        _exit(0);
    }
    close(ends[1]);
    size_t length = 0;
    for (ssize_t more; (more = read(ends[0], said + length, room - 1 - length)) > 0;)
        length += (size_t)more;
    said[length] = '\0';
    close(ends[0]);
    assert_int_equal(waitpid(program, &status, 0), program);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static void test_a_failure_ends_the_program(void **state)
{
    (void)state;
    char said[256];
    assert_int_equal(ends_with(lack, "no paper", said, sizeof said), 3);
    assert_string_equal(said, "spindlebook: no paper\n");
}

/* With one processor there is no process, and the program itself is ended. */
static void test_a_signal_ends_the_program(void **state)
{
    (void)state;
    char said[256];
    int status = ends_with(die, NULL, said, sizeof said);
    if (status != -1)
        assert_int_equal(status, 3);
    if (status != -1)
        assert_non_null(strstr(said, "was ended by signal 6"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_answers),
        cmocka_unit_test(test_a_failure_ends_the_program),
        cmocka_unit_test(test_a_signal_ends_the_program),
    };
    return cmocka_run_group_tests_name("side", tests, NULL, NULL);
}
