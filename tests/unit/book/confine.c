/* What the verbs can still do once they have given the rest up. */
#include "base/file.h"
#include "base/ground.h"
#include "book/book.h"
#include "test.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static char work[] = "/tmp/spindlebook-confine-XXXXXX";

static const char *path_of(const char *name)
{
    static char path[128];
    snprintf(path, sizeof path, "%s/%s", work, name);
    return path;
}

static void lay(void)
{
    static const char *const folders[] = {"content", "content/records", "content/empty",
                                          "pages"};
    static const char *const files[] = {"content/settings.yaml", "pages/10-page.md", "else"};
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++)
        mkdir(path_of(folders[i]), 0777);
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
        close(open(path_of(files[i]), O_WRONLY | O_CREAT, 0666));
}

static int begin(void **state)
{
    (void)state;
    if (!mkdtemp(work))
        return 1;
    lay();
    return 0;
}

static int clear(void **state)
{
    static const char *const names[] = {
        "content/records/new",   "content/new",      "content/out", "pages/new",
        "content/settings.yaml", "pages/10-page.md", "else",        "content/records",
        "content/empty",         "content",          "pages",       ""};
    (void)state;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        remove(path_of(names[i]));
    return 0;
}

static bool opens(const char *name, int flags)
{
    int handle = open(path_of(name), flags, 0666);
    if (handle >= 0)
        close(handle);
    return handle >= 0;
}

/* What can be done, a bit each. */
enum {
    READS_SETTINGS = 1 << 0,
    READS_PAGES = 1 << 1,
    READS_ELSE = 1 << 2,
    MAKES_RECORDS = 1 << 3,
    MAKES_SETTINGS = 1 << 4,
    MAKES_PAGES = 1 << 5,
    CLEARS_FOLDERS = 1 << 6,
    MAKES_OUTPUTS = 1 << 7
};

static int done_under(enum touches touches)
{
    const int fresh = O_WRONLY | O_CREAT | O_EXCL;
    char content[128], pages[128], out[128];
    snprintf(content, sizeof content, "%s/content", work);
    snprintf(pages, sizeof pages, "%s/pages", work);
    snprintf(out, sizeof out, "%s/content/out", work);
    const struct book_paths paths = {
        .content = content, .pages = pages, .templates = pages, .fonts = pages, .out = out};
    book_confine(&paths, touches);
    int done = opens("content/settings.yaml", O_RDONLY) ? READS_SETTINGS : 0;
    done |= opens("pages/10-page.md", O_RDONLY) ? READS_PAGES : 0;
    done |= opens("else", O_RDONLY) ? READS_ELSE : 0;
    done |= opens("content/records/new", fresh) ? MAKES_RECORDS : 0;
    done |= opens("content/new", fresh) ? MAKES_SETTINGS : 0;
    done |= opens("pages/new", fresh) ? MAKES_PAGES : 0;
    done |= rmdir(path_of("content/empty")) == 0 ? CLEARS_FOLDERS : 0;
    done |= mkdir(out, 0777) == 0 ? MAKES_OUTPUTS : 0;
    return done;
}

/* In a process of its own, which is never the same again. */
static int done_by_child(enum touches touches)
{
    int status = 0;
    clear(NULL);
    mkdir(work, 0777);
    lay();
    pid_t child = fork();
    if (child == 0)
        _exit(done_under(touches));
    waitpid(child, &status, 0);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static void test_each_verb_keeps_to_its_own(void **state)
{
    (void)state;
    if (!ground_is_firm())
        skip();
    assert_int_equal(done_by_child(TOUCHES_SETTINGS), READS_SETTINGS);
    assert_int_equal(done_by_child(TOUCHES_RECORDS),
                     READS_SETTINGS | MAKES_RECORDS | CLEARS_FOLDERS);
    assert_int_equal(done_by_child(TOUCHES_PAGES), READS_SETTINGS | READS_PAGES);
    assert_int_equal(done_by_child(TOUCHES_BEGUN), READS_SETTINGS | READS_PAGES |
                                                       MAKES_RECORDS | MAKES_SETTINGS |
                                                       CLEARS_FOLDERS | MAKES_OUTPUTS);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_each_verb_keeps_to_its_own),
};

GROUP(confine, begin, clear)
