/* UTF-8 after RFC 3629, memory, buffers, files that cannot be read, the date that
 * outputs may bear. */
#include "base/buffer.h"
#include "base/diag.h"
#include "base/fatal.h"
#include "base/file.h"
#include "base/memory.h"
#include "base/utf8.h"
#include "facts.h"
#include "printed.h"
#include "test.h"

#include <errno.h>
#include <ftw.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* RFC 3629: first and last of every length, and beside the gap of the surrogates. */
static void test_utf8_points(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        uint32_t point;
    } rows[] = {
        {"\x01", 1},
        {"A", 0x41},
        {"\x7F", 0x7F},
        {"\xC2\x80", 0x80},
        {"\xDF\xBF", 0x7FF},
        {"\xE0\xA0\x80", 0x800},
        {"\xE2\x89\xA2", 0x2262}, /* section 7 */
        {"\xED\x95\x9C", 0xD55C},
        {"\xE6\x97\xA5", 0x65E5},
        {"\xED\x9F\xBF", 0xD7FF},
        {"\xEE\x80\x80", 0xE000},
        {"\xEF\xBB\xBF", 0xFEFF},
        {"\xEF\xBF\xBF", 0xFFFF},
        {"\xF0\x90\x80\x80", 0x10000},
        {"\xF0\xA3\x8E\xB4", 0x233B4}, /* section 7 */
        {"\xF4\x8F\xBF\xBF", 0x10FFFF},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *at = rows[i].bytes;
        size_t length = strlen(at);
        assert_int_equal(utf8_valid(at, length), length);
        assert_int_equal(utf8_count(at, length), 1);
        assert_int_equal(utf8_next(&at), rows[i].point);
        assert_ptr_equal(at, rows[i].bytes + length);
        assert_int_equal(utf8_next(&at), 0); /* the end is not passed */
        assert_ptr_equal(at, rows[i].bytes + length);
        for (size_t cut = 1; cut < length; cut++)
            assert_int_equal(utf8_valid(rows[i].bytes, cut), 0);
    }
}

static void test_utf8_invalid(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t valid;
    } rows[] = {
        {"\x80", 0},
        {"\xBF", 0},
        {"ab\xBF", 2},
        {"\xC0\x80", 0}, /* section 10: NUL written too long */
        {"\xC1\xBF", 0},
        {"\xE0\x80\x80", 0},
        {"\xE0\x9F\xBF", 0},
        {"\xF0\x80\x80\x80", 0},
        {"\xF0\x8F\xBF\xBF", 0},
        {"\xED\xA0\x80", 0}, /* surrogates */
        {"\xED\xBF\xBF", 0},
        {"\xED\xA1\x8C\xED\xBE\xB4", 0},
        {"\xF4\x90\x80\x80", 0}, /* above 10FFFF */
        {"\xF5\x80\x80\x80", 0},
        {"\xF8\x88\x80\x80\x80", 0},
        {"\xFE", 0},
        {"\xFF", 0},
        {"\xC2", 0},
        {"\xC2"
         "A",
         0},
        {"\xE2\x82", 0},
        {"\xE2\x82"
         "A",
         0},
        {"\xE2\x28\xA1", 0},
        {"\xF0\x9F\x98", 0},
        {"\xF0\x9F\x98"
         "A",
         0},
        {"caf\xC3\xA9 \xE9t\xE9", 6},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (utf8_valid(rows[i].bytes, strlen(rows[i].bytes)) != rows[i].valid)
            fail_msg("row %zu: %zu bytes are valid", i,
                     utf8_valid(rows[i].bytes, strlen(rows[i].bytes)));
    assert_int_equal(utf8_valid("", 0), 0);
    assert_int_equal(utf8_valid("a\0b", 3), 3);
}

/* All code points that there are, and no three bytes more. */
static void test_utf8_all(void **state)
{
    (void)state;
    unsigned long valid[5] = {0};
    for (unsigned long i = 0; i < 1ul << 24; i++) {
        unsigned char three[3] = {(unsigned char)(i >> 16), (unsigned char)(i >> 8),
                                  (unsigned char)i};
        if (three[0] >= 0xE0 && three[0] < 0xF0)
            valid[3] += utf8_valid((char *)three, 3) == 3;
        if (i < 1ul << 16 && three[1] >= 0x80 && three[1] < 0xE0)
            valid[2] += utf8_valid((char *)three + 1, 2) == 2;
        if (three[0] >= 0xF0) { /* the last byte, as any before it, is a tail */
            unsigned char four[4] = {three[0], three[1], three[2], 0x80};
            valid[4] += 64ul * (utf8_valid((char *)four, 4) == 4);
        }
    }
    assert_int_equal(valid[2], 0x800 - 0x80);
    assert_int_equal(valid[3], 0x10000 - 0x800 - 0x800);
    assert_int_equal(valid[4], 0x110000 - 0x10000);
}

static void test_arena(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    static const size_t sizes[] = {1, 7, 0, 100, 65536, 65537, 3, 1000000, 16};
    unsigned char *got[9];
    for (int i = 0; i < 9; i++) {
        got[i] = arena_get(arena, sizes[i]);
        assert_int_equal((uintptr_t)got[i] % _Alignof(max_align_t), 0);
        for (size_t j = 0; j < sizes[i]; j++)
            assert_int_equal(got[i][j], 0);
        memset(got[i], i + 1, sizes[i]);
    }
    for (int i = 0; i < 9; i++)
        for (size_t j = 0; j < sizes[i]; j++)
            assert_int_equal(got[i][j], i + 1); /* no two overlap */
    assert_string_equal(arena_text(arena, ""), "");
    assert_string_equal(arena_slice(arena, "abcdef", 3), "abc");
    assert_memory_equal(arena_slice(arena, "a\0b", 3), "a\0b", 4);
    assert_string_equal(arena_slice(arena, NULL, 0), "");
    assert_string_equal(arena_format(arena, "%d-%s", 42, "x"), "42-x");
    arena_free(arena);
    arena_free(NULL);
}

static void test_arena_push(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct item {
        size_t number, more;
    } *items = NULL;
    size_t count = 0;
    for (size_t i = 0; i < 1000; i++) {
        struct item *item = ARENA_PUSH(arena, items, count);
        assert_true(item->number == 0 && item->more == 0);
        item->number = item->more = i + 1;
    }
    assert_int_equal(count, 1000);
    for (size_t i = 0; i < 1000; i++)
        assert_int_equal(items[i].number, i + 1);
    arena_free(arena);
}

static void test_buffer(void **state)
{
    (void)state;
    struct buffer buffer = {0};
    buffer_add(&buffer, "", 0);
    assert_string_equal(buffer.bytes, "");
    for (int i = 0; i < 1000; i++) {
        buffer_text(&buffer, "ab");
        buffer_print(&buffer, "%03d", i);
        buffer_add(&buffer, "\0", 1);
        assert_int_equal(buffer.bytes[buffer.length], 0);
    }
    assert_int_equal(buffer.length, 6000);
    for (int i = 0; i < 1000; i++) {
        char want[20];
        snprintf(want, sizeof want, "ab%03d", i);
        assert_string_equal(buffer.bytes + 6 * i, want);
    }
    for (size_t length = 200; length < 300; length++) { /* about the first room */
        struct buffer one = {0};
        buffer_print(&one, "%*s", (int)length, "x");
        assert_int_equal(one.length, length);
        assert_int_equal(strlen(one.bytes), length);
        buffer_free(&one);
    }
    buffer_free(&buffer);
    assert_true(!buffer.bytes && buffer.length == 0 && buffer.room == 0);
}

/* One sign at each end of what The Unicode Standard calls Cc, Cf, Zl and Zp, and
 * neighbours that are seen. */
static void test_utf8_hidden(void **state)
{
    (void)state;
    static const uint32_t hidden[] = {0x00,   0x1F,   0x7F,   0x9F,   0x61C,  0x200B, 0x200F,
                                      0x2028, 0x202E, 0x2060, 0x206F, 0xFEFF, 0xFFF9, 0xE0001};
    static const uint32_t seen[] = {0x20,   0x7E,   0xA0,   0xAD,   0x2007, 0x200A,
                                    0x2010, 0x2027, 0x202F, 0x2030, 0x2212, 0xFFFD};
    for (size_t i = 0; i < sizeof hidden / sizeof hidden[0]; i++)
        assert_true(utf8_is_hidden(hidden[i]));
    for (size_t i = 0; i < sizeof seen / sizeof seen[0]; i++)
        assert_false(utf8_is_hidden(seen[i]));
}

/* ---- files */

static char folder[] = "/tmp/spindlebook-test-XXXXXX";

static int make_folder(void **state)
{
    (void)state;
    return mkdtemp(folder) ? 0 : -1;
}

static int remove_one(const char *path, const struct stat *status, int type, struct FTW *where)
{
    (void)status, (void)type, (void)where;
    return remove(path);
}

static int remove_folder(void **state)
{
    (void)state;
    return nftw(folder, remove_one, 16, FTW_DEPTH | FTW_PHYS);
}

static const char *path_of(const char *name)
{
    static char path[200];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

static void write_file(const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
}

/* Reads a path; want is what is said of it behind its name, or NULL for its text. */
static void assert_read(const char *path, const char *want, const char *bytes)
{
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct file_text text;
    int ok = file_read_text(arena, diags, path, &text);
    assert_string_equal(text.name, path);
    assert_int_equal(ok, want == NULL);
    if (want)
        assert_printed(diags, arena_format(arena, "%s%s\n", path, want));
    else
        assert_string_equal(text.bytes, bytes);
    assert_int_equal(diags_count(diags), want != NULL);
    arena_free(arena);
}

static void test_unreadable(void **state)
{
    (void)state;
    assert_read(path_of("none"), ": there is no such file; make it, or give the right name",
                "");
    assert_read(folder, ": this is a folder; a file belongs here", "");
    const char *pipe = path_of("pipe");
    assert_int_equal(mkfifo(pipe, 0600), 0);
    assert_read(
        pipe, /* and does not wait for a writer */
        ": the file cannot be read (Invalid argument); it must be a plain file that you "
        "may read",
        "");
    unlink(pipe);
    assert_read("tests/data/conversions.tsv/x",
                ": the file cannot be read (Not a directory); it must be a plain file that you "
                "may read",
                "");
}

static void test_file_contents(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t length;
        const char *want; /* fault, or NULL */
        size_t skipped;   /* of the bytes, where it is read */
    } rows[] = {
        {"", 0, NULL, 0},
        {"one\ntwo\r\n\tthree", 15, NULL, 0},
        {"\xEF\xBB\xBF"
         "a",
         4, NULL, 3},
        {"\xEF\xBB\xBF", 3, NULL, 3},
        {"a\xEF\xBB\xBF", 4, NULL, 0}, /* within the text it is a character */
        {"\xEF\xBB", 2, ":1:1: byte 0xEF is not UTF-8; save the file as UTF-8 text", 0},
        {"a\0b", 3, ":1:2: a NUL byte stands here; delete it: the file must be plain text", 0},
        {"a\n\0", 3, ":2:1: a NUL byte stands here; delete it: the file must be plain text", 0},
        {"a\nbc\x1B", 5, ":2:3: control character 0x1B stands here; delete it", 0},
        {"\x7F", 1, ":1:1: control character 0x7F stands here; delete it", 0},
        {"\x0C", 1, ":1:1: control character 0x0C stands here; delete it", 0},
        {"\xC3\xA9\xC3\xA9 \xE9", 6,
         ":1:4: byte 0xE9 is not UTF-8; save the file as UTF-8 text", 0},
        {"\xEF\xBB\xBF"
         "ab\xFF",
         6, ":1:3: byte 0xFF is not UTF-8; save the file as UTF-8 text", 0},
        {"1\n2\n3\xE2\x82", 7, ":3:2: byte 0xE2 is not UTF-8; save the file as UTF-8 text", 0},
        {"\x01\xFF", 2, ":1:1: control character 0x01 stands here; delete it", 0},
        {"\xFF\x01", 2, ":1:1: byte 0xFF is not UTF-8; save the file as UTF-8 text", 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *path = path_of("text");
        write_file(path, rows[i].bytes, rows[i].length);
        assert_read(path, rows[i].want, rows[i].bytes + rows[i].skipped);
        unlink(path);
    }
}

static void test_too_large(void **state)
{
    (void)state;
    const char *path = path_of("large");
    write_file(path, "a", 1);
    assert_int_equal(truncate(path, (off_t)FILE_LARGEST + 1), 0); /* takes no room */
    assert_read(path, ": the file is larger than 4 MiB; a page or a log is far smaller", "");
    struct arena *arena = arena_new();
    struct file_text text;
    assert_int_equal(truncate(path, FILE_LARGEST), 0);
    assert_true(file_read_bytes(arena, path, FILE_LARGEST, &text));
    assert_int_equal(text.length, FILE_LARGEST);
    arena_free(arena);
    unlink(path);
}

static void test_list(void **state)
{
    (void)state;
    static const char *const names[] = {"b.md", "a.md",  "B.md", ".c.md",      "a.mdx",
                                        ".md",  "10.md", "9.md", "\xC3\xA9.md"};
    static const char *const want[] = {"10.md", "9.md", "B.md", "a.md", "b.md", "\xC3\xA9.md"};
    struct arena *arena = arena_new();
    for (size_t i = 0; i < 9; i++)
        write_file(path_of(names[i]), "", 0);
    const char **found = file_list(arena, folder, ".md");
    assert_non_null(found);
    for (size_t i = 0; i < 6; i++)
        assert_string_equal(found[i], want[i]);
    assert_null(found[6]);
    found = file_list(arena, folder, ".none");
    assert_true(found && !found[0]);
    assert_null(file_list(arena, path_of("b.md"), ".md"));
    assert_int_equal(errno, ENOTDIR);
    for (size_t i = 0; i < 9; i++)
        unlink(path_of(names[i]));
    arena_free(arena);
}

/* fatal() is met in another process: its words, its status. */
static void test_fatal(void **state)
{
    (void)state;
    int ends[2], status;
    char said[100] = "";
    assert_int_equal(pipe(ends), 0);
    pid_t child = fork();
    if (child == 0) {
        dup2(ends[1], STDERR_FILENO);
        fatal("%s is full", "the disk");
    }
    close(ends[1]);
    FILE *words = fdopen(ends[0], "r");
    assert_non_null(words);
    assert_true(fread(said, 1, sizeof said - 1, words) > 0);
    fclose(words);
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 3);
    assert_string_equal(said, "spindlebook: the disk is full\n");
}

/* ---- the date that outputs may bear ---- */

/* The day of a date that is let through; "" for one that is a fault. */
static const char *day_of(struct arena *arena, const char *text)
{
    struct diags *diags = diags_new(arena);
    setenv("SOURCE_DATE_EPOCH", text, 1);
    source_date_check(diags);
    const char *day = source_date_day(arena);
    unsetenv("SOURCE_DATE_EPOCH");
    assert_int_equal(day != NULL, diags_count(diags) == 0);
    return day ? day : "";
}

/* Days by `date -u -d @SECONDS +%F` of GNU coreutils. */
static void test_source_date(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"0", "1970-01-01"},
        {"86399", "1970-01-01"},
        {"951782400", "2000-02-29"},
        {"253402300799", "9999-12-31"},
        {"253402300800", ""},
        {"99999999999999999999999", ""},
        {"-1", ""},
        {"+1", ""},
        {" 1", ""},
        {"1 ", ""},
        {"1.5", ""},
        {"1e9", ""},
        {"0x10", ""},
        {"yesterday", ""},
        {"nan", ""},
        {"", ""},
    };
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct tm utc;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_string_equal(day_of(arena, rows[i][0]), rows[i][1]);
    unsetenv("SOURCE_DATE_EPOCH");
    source_date_check(diags);
    assert_int_equal(diags_count(diags), 0);
    assert_false(source_date(&utc));
    arena_free(arena);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_utf8_points),   cmocka_unit_test(test_utf8_invalid),
    cmocka_unit_test(test_utf8_all),      cmocka_unit_test(test_arena),
    cmocka_unit_test(test_arena_push),    cmocka_unit_test(test_buffer),
    cmocka_unit_test(test_utf8_hidden),   cmocka_unit_test(test_unreadable),
    cmocka_unit_test(test_file_contents), cmocka_unit_test(test_too_large),
    cmocka_unit_test(test_list),          cmocka_unit_test(test_fatal),
    cmocka_unit_test(test_source_date),
};

GROUP(base, make_folder, remove_folder)
