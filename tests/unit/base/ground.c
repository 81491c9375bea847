/* What a process can still do once it has given the rest up. */
#include "base/ground.h"
#include "test.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static char work[] = "/tmp/spindlebook-ground-XXXXXX";

static const char *path_of(const char *name)
{
    static char path[128];
    snprintf(path, sizeof path, "%s/%s", work, name);
    return path;
}

static int lay(void **state)
{
    static const char *const folders[] = {"read", "make", "else"};
    (void)state;
    if (!mkdtemp(work))
        return 1;
    for (int i = 0; i < 3; i++) {
        char path[128];
        snprintf(path, sizeof path, "%s/%s", work, folders[i]);
        mkdir(path, 0777);
        snprintf(path, sizeof path, "%s/%s/there", work, folders[i]);
        close(open(path, O_WRONLY | O_CREAT, 0666));
    }
    return 0;
}

static int clear(void **state)
{
    static const char *const names[] = {
        "read/there", "make/there", "make/moved", "make/new", "else/there",
        "else/new",   "read",       "make",       "else",     ""};
    (void)state;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        remove(path_of(names[i]));
    return 0;
}

/* What opening it so gives: 0, or the error. */
static int opened(const char *name, int flags)
{
    int handle = open(path_of(name), flags, 0666), error = errno;
    if (handle < 0)
        return error;
    close(handle);
    return 0;
}

/* The number of the first thing that is not as it should be, 0 when all is; in a process of its
 * own, which is never the same again. */
static int first_wrong(void)
{
    const int fresh = O_WRONLY | O_CREAT | O_EXCL;
    char to[128];
    struct ground *ground = ground_open();
    ground_allow(ground, path_of("read"), MAY_READ);
    ground_allow(ground, path_of("make"), MAY_MAKE);
    ground_close(ground);
    snprintf(to, sizeof to, "%s", path_of("make/moved"));
    const bool good[] = {
        opened("read/there", O_RDONLY) == 0,   opened("make/there", O_RDONLY) == 0,
        opened("make/new", fresh) == 0,        rename(path_of("make/there"), to) == 0,
        unlink(path_of("make/moved")) == 0,    opened("else/there", O_RDONLY) == EACCES,
        opened("else/new", fresh) == EACCES,   opened("make/new", O_WRONLY) == EACCES,
        opened("make/new", O_RDWR) == EACCES,  opened("make/x", O_WRONLY | O_CREAT) == EACCES,
        opened("read/new", fresh) == EACCES,   unlink(path_of("read/there")) != 0,
        execl("/bin/true", "true", NULL) != 0, socket(AF_INET, SOCK_STREAM, 0) < 0,
        truncate(path_of("make/new"), 0) != 0, opened("../../etc/passwd", O_RDONLY) == EACCES,
    };
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        if (!good[i])
            return (int)i + 1;
    return 0;
}

static void test_ground_is_firm(void **state)
{
    (void)state;
    if (!ground_is_firm())
        skip();
    pid_t child = fork();
    if (child == 0)
        _exit(first_wrong());
    int status = 0;
    waitpid(child, &status, 0);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
}

/* The next file that is opened must not stand for standard error. */
static void test_ground_holds_the_standard_handles(void **state)
{
    (void)state;
    pid_t child = fork();
    if (child == 0) {
        for (int handle = 0; handle < 3; handle++)
            close(handle);
        ground_begin();
        bool good =
            open("/dev/null", O_RDONLY) == 3 && write(1, "x", 1) < 0 && write(2, "x", 1) == 1;
        _exit(good ? 0 : 1);
    }
    int status = 0;
    waitpid(child, &status, 0);
    assert_int_equal(status, 0);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_ground_is_firm),
    cmocka_unit_test(test_ground_holds_the_standard_handles),
};

GROUP(ground, lay, clear)
