/* Begins a lathe: asks at the terminal what shop/asked.c has to ask. The answers are the
 * settings file, one key a line, so that what was answered is there whatever happens next. */
#include "cli/begin.h"

#include "base/file.h"
#include "base/utf8.h"
#include "judge/results.h"
#include "report/values.h"
#include "shop/asked.h"
#include "shop/logs.h"
#include "shop/settings.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct begin {
    struct arena *arena;
    const char *file; /* of the settings */
    struct setting_list answers;
};

/* ---- the file of answers ---- */

/* Whole or not at all: beside it first, then in its place. What an earlier run left there goes,
 * and a link is not written through. */
static void write_whole(const char *file, const char *bytes, size_t length)
{
    char beside[PATH_MAX];
    if (snprintf(beside, sizeof beside, "%s.new", file) >= (int)sizeof beside)
        fatal("%s: the name is too long", file);
    unlink(beside);
    int to = open(beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (to < 0)
        fatal("%s cannot be written: %s", beside, strerror(errno));
    for (size_t done = 0; done < length;) {
        ssize_t more = write(to, bytes + done, length - done);
        if (more < 0 && errno != EINTR)
            fatal("%s cannot be written: %s", beside, strerror(errno));
        done += more > 0 ? (size_t)more : 0;
    }
    if (fsync(to) != 0 || close(to) != 0 || rename(beside, file) != 0)
        fatal("%s cannot be written: %s", file, strerror(errno));
}

static void write_answers(const struct begin *begin)
{
    struct buffer text = {0};
    answers_print(begin->arena, &text, &begin->answers);
    write_whole(begin->file, text.bytes, text.length);
    buffer_free(&text);
}

/* Answers of an earlier call. False: settings that were written otherwise are there. */
static bool go_on(struct begin *begin)
{
    struct file_text text;
    struct diags *diags = diags_new(begin->arena);
    if (!file_is_there(begin->file))
        return true;
    if (file_read_text(begin->arena, diags, begin->file, &text) && answers_are(text.bytes))
        answers_read(begin->arena, diags, begin->file, text.bytes, &begin->answers);
    else if (diags_count(diags) == 0)
        fault(diags, (struct place){.file = begin->file},
              "these settings were not begun here, and stay as they are; give another folder, "
              "as in spindlebook begin my-lathe");
    diags_print(diags, stderr);
    return diags_count(diags) == 0;
}

/* ---- asking ---- */

enum { LINE_END = 84 }; /* columns */

/* Words in lines, behind three blanks. */
static void print_words(const char *words)
{
    size_t used = 0;
    for (size_t length; *words; words += length + (words[length] == ' ')) {
        length = strcspn(words, " ");
        size_t width = utf8_count(words, length);
        bool next = !used || used + 1 + width > LINE_END;
        printf("%s%.*s", !next ? " " : used ? "\n   " : "   ", (int)length, words);
        used = (next ? 3 : used + 1) + width;
    }
    printf("\n");
}

/* "The drag that the manual means (limits.torque)", what is to be known, what it may be. */
static void print_question(const struct begin *begin, const struct question *ask)
{
    const struct field *field = ask->field;
    printf("\n%zu. %s (%s)\n", question_number(&begin->answers),
           question_words(begin->arena, ask), ask->path);
    if (field->hint)
        print_words(field->hint);
    const char *blank = ask->blank ? "; Enter where there is none" : "";
    if (ask->blank && *ask->blank)
        blank = arena_format(begin->arena, "; Enter for %s", ask->blank);
    print_words(
        arena_format(begin->arena, "Type %s%s.", field_wanted(begin->arena, field), blank));
    printf("   > ");
    fflush(stdout);
}

/* A line without its end and outer blanks; NULL at the end of the input. */
static const char *read_line(struct arena *arena)
{
    struct buffer line = {0};
    int c = getchar();
    if (c == EOF)
        return NULL;
    for (; c != '\n' && c != EOF; c = getchar())
        buffer_print(&line, "%c", c);
    const char *text = line.bytes ? line.bytes : "";
    text += strspn(text, " \t\r");
    size_t length = strlen(text);
    while (length && strchr(" \t\r", text[length - 1]))
        length--;
    text = arena_slice(arena, text, length);
    buffer_free(&line);
    return text;
}

/* Takes an answer, or says what is wrong with it. */
static void take_answer(struct begin *begin, const struct question *ask, const char *answer)
{
    struct diags *diags = diags_new(begin->arena);
    struct shop shop;
    if (!answer_take(begin->arena, diags, &begin->answers, ask, answer, &shop)) {
        fflush(stdout);
        diags_print(diags, stderr);
    } else if (answer_read_as(&shop, ask->path))
        printf("   %s\n", answer_read_as(&shop, ask->path));
}

/* Asks until all is answered; false where the input ends before. */
static bool ask_all(struct begin *begin)
{
    struct question ask;
    while (question_next(begin->arena, &begin->answers, &ask)) {
        print_question(begin, &ask);
        const char *answer = read_line(begin->arena);
        if (!answer)
            return false;
        if (strcmp(answer, "back") == 0)
            answer_take_back(&begin->answers);
        else
            take_answer(begin, &ask, answer);
        write_answers(begin);
    }
    return true;
}

/* ---- reading back, and the logs ---- */

/* The limits as the hand will feel them. True where the user says that they are right. */
static bool read_back(const struct begin *begin)
{
    struct shop shop;
    struct diags *diags = diags_new(begin->arena);
    answers_shop(begin->arena, diags, &begin->answers, &shop);
    if (diags_count(diags) || !shop_has_limits(&shop))
        return true;
    fields_fill(begin->arena, &shop);
    printf("\n%s\n", limits_read_back_words(begin->arena, results_of(begin->arena, &shop)));
    printf("Are these the limits of the manual, in its unit? yes or no\n   > ");
    fflush(stdout);
    const char *answer = read_line(begin->arena);
    return !answer || *answer != 'n';
}

/* The heads of a log, where there is none yet. */
static void write_heads(const struct begin *begin, const char *name,
                        const struct record_column *columns, size_t count)
{
    struct buffer text = {0};
    const char *file = settings_log(begin->arena, begin->file, name);
    if (file_is_there(file))
        return;
    for (size_t i = 0; i < count; i++)
        buffer_print(&text, "%s%s", i ? "," : "", columns[i].name);
    buffer_text(&text, "\n");
    write_whole(file, text.bytes, text.length);
    buffer_free(&text);
}

static void print_beginning(const struct begin *begin)
{
    printf("Have these at hand: the lathe's manual, open at the table of spindle drag; your "
           "drum, its cord, a\ncaliper, and the data sheet of your gauge.\n\n"
           "CAUTION: wrong limits ruin bearings. Take them from your lathe's manual alone, and "
           "where it says\notherwise than these questions it is right. Before you touch the "
           "spindle lock the power off, and\nprove it dead.\n\n"
           "Type each number with its unit. \"back\" takes the last answer back. What you have "
           "answered stands\nin %s.\n",
           begin->file);
}

enum status begin_lathe(const struct book_paths *paths)
{
    const char *folder = paths->content;
    struct arena *arena = arena_new();
    struct begin begin = {.arena = arena,
                          .file = arena_format(arena, "%s/%s", folder, SETTINGS_NAME)};
    enum status status = FAULTS;
    begin.answers.file = begin.file;
    if (go_on(&begin)) {
        if (mkdir(folder, 0777) != 0 && errno != EEXIST)
            fatal("%s cannot be made: %s", folder, strerror(errno));
        book_confine(paths, TOUCHES_BEGUN);
        print_beginning(&begin);
        bool whole = ask_all(&begin);
        while (whole && !read_back(&begin)) {
            answers_forget_bands(&begin.answers);
            write_answers(&begin);
            whole = ask_all(&begin);
        }
        if (whole) {
            write_heads(&begin, PULL_LOG_NAME, pull_columns, PULL_COLUMNS);
            write_heads(&begin, GAUGE_LOG_NAME, check_columns, CHECK_COLUMNS);
            status = DONE;
        } else
            printf("\nNot all is answered. To go on: spindlebook begin %s\n", folder);
    }
    arena_free(arena);
    return status;
}
