/* Begins a lathe: one question at a time, in the order of the table below, each answer checked
 * at once by what reads the settings file. The answers are that file, one key a line, so that
 * what was answered is there whatever happens next. */
#include "cli/begin.h"

#include "base/file.h"
#include "base/utf8.h"
#include "judge/results.h"
#include "number/show.h"
#include "report/values.h"
#include "shop/fields.h"
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
    size_t asked; /* questions so far */
};

/* ---- what is asked ---- */

enum when { ALWAYS, WITH_LIMITS, OF_EACH_BAND, OF_AN_INCREASE, WITHOUT_GAUGE_ERROR };

/* In this order. A blank answer is taken where a key may be left out, but not where it must be
 * answered here. */
static const struct {
    const char *path;
    enum when when;
    bool must; /* though the settings file may leave it out */
} order[] = {
    {"lathe.name", ALWAYS, true},
    {ON_FILE_KEY, ALWAYS, true},
    {"limits.source", WITH_LIMITS, true},
    {"limits.torque", WITH_LIMITS, true},
    {"limits.basis", WITH_LIMITS, true},
    {"limits.bearings", WITH_LIMITS, true},
    {"limits.warmth", WITH_LIMITS, true},
    {"lathe.top-speed", ALWAYS, true},
    {"limits.bands.#.to", OF_EACH_BAND, false},
    {"limits.bands.#.low", OF_EACH_BAND, true},
    {"limits.bands.#.high", OF_EACH_BAND, true},
    {"limits.bands.#.page", OF_EACH_BAND, true},
    {"limits.never-exceed", WITH_LIMITS, false},
    {"limits.slack-drag", OF_AN_INCREASE, true},
    {"drum.diameter", ALWAYS, true},
    {"drum.tolerance", ALWAYS, true},
    {"cord.diameter", ALWAYS, true},
    {"cord.tolerance", ALWAYS, true},
    {"gauge.name", ALWAYS, false},
    {"gauge.capacity", ALWAYS, true},
    {"gauge.step", ALWAYS, true},
    {"gauge.full-scale-error", WITHOUT_GAUGE_ERROR, false},
    {"gauge.reading-error", WITHOUT_GAUGE_ERROR, false},
    {"gauge.checked-error", WITHOUT_GAUGE_ERROR, true},
    {"paper.card", ALWAYS, false},
    {"paper.booklet", ALWAYS, false},
};

enum { QUESTIONS = sizeof order / sizeof order[0] };

struct ask {
    const struct field *field;
    const char *path;
    const char *blank; /* what a blank answer stands for, as typed; NULL: it is not taken; "":
                        * the key is left out */
};

static const char *answer_to(const struct begin *begin, const char *path)
{
    const struct setting *setting = setting_list_find(&begin->answers, path);
    return setting ? setting->value : NULL;
}

static bool answered(const struct begin *begin, const char *path, const char *value)
{
    const char *answer = answer_to(begin, path);
    return answer && strcmp(answer, value) == 0;
}

static const char *band_path(const struct begin *begin, const char *path, size_t row)
{
    const char *mark = strchr(path, '#');
    return arena_format(begin->arena, "%.*s%zu%s", (int)(mark - path), path, row, mark + 1);
}

/* The answers so far as a shop; what is missing is no fault. */
static void read_answers(const struct begin *begin, struct diags *diags, struct shop *shop)
{
    settings_read_some(begin->arena, diags, &begin->answers, shop);
}

/* Does a band reach as far as the spindle runs? */
static bool reaches_top(const struct begin *begin, size_t row)
{
    struct shop shop;
    struct diags *diags = diags_new(begin->arena);
    read_answers(begin, diags, &shop);
    return row <= shop.limits.band_count && given(&shop.limits.bands[row - 1].to) &&
           shop.limits.bands[row - 1].to.q.base >= shop.lathe.top_speed.q.base;
}

static bool is_asked(const struct begin *begin, enum when when)
{
    bool limits = !answered(begin, ON_FILE_KEY, "none");
    switch (when) {
    case ALWAYS:
        return true;
    case WITH_LIMITS:
    case OF_EACH_BAND:
        return limits;
    case OF_AN_INCREASE:
        return limits && answered(begin, "limits.basis", "increase");
    case WITHOUT_GAUGE_ERROR:
        for (size_t i = 0; i < QUESTIONS; i++) {
            const char *answer = order[i].when == when ? answer_to(begin, order[i].path) : NULL;
            if (answer && *answer)
                return false;
        }
        return true;
    }
    return false;
}

static struct ask ask_for(const struct begin *begin, size_t question, const char *path)
{
    int row;
    const struct field *field = field_find(path, &row);
    const char *blank = order[question].must ? NULL : "";
    if (field->fallback)
        blank = field->fallback;
    else if (field->type == FIELD_CHOICE && !field->required)
        blank = order[question].must ? NULL : field->choices[0];
    else if (order[question].when == OF_EACH_BAND && blank)
        blank = answer_to(begin, "lathe.top-speed");
    return (struct ask){field, path, blank};
}

/* The next question; false: all is answered. */
static bool next_question(const struct begin *begin, struct ask *ask)
{
    size_t row = 1;
    for (size_t i = 0; i < QUESTIONS; i++) {
        const char *path = order[i].path;
        bool last_of_band = i + 1 == QUESTIONS || order[i + 1].when != OF_EACH_BAND;
        if (!is_asked(begin, order[i].when))
            continue;
        if (order[i].when == OF_EACH_BAND)
            path = band_path(begin, path, row);
        if (!answer_to(begin, path)) {
            *ask = ask_for(begin, i, path);
            return true;
        }
        if (order[i].when == OF_EACH_BAND && last_of_band && !reaches_top(begin, row)) {
            row++; /* from the first question of a band again */
            while (i > 0 && order[i - 1].when == OF_EACH_BAND)
                i--;
            i--;
        }
    }
    return false;
}

/* ---- the file of answers ---- */

/* A file that begins so was written here, and may be written again. */
static const char head[] = "# Answers to spindlebook begin: a key and its value a line. Change "
                           "them as you like.\n";

static const char *quoted(struct arena *arena, const char *text)
{
    struct buffer quoted = {0};
    for (; *text; text++)
        buffer_print(&quoted, strchr("\"\\", *text) ? "\\%c" : "%c", *text);
    text = arena_format(arena, "\"%s\"", quoted.bytes ? quoted.bytes : "");
    buffer_free(&quoted);
    return text;
}

/* Whole or not at all: beside it first, then in its place. */
static void write_whole(const char *file, const char *bytes, size_t length)
{
    char beside[PATH_MAX];
    if (snprintf(beside, sizeof beside, "%s.new", file) >= (int)sizeof beside)
        fatal("%s: the name is too long", file);
    int to = open(beside, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
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

/* A blank answer stands as a remark. */
static void write_answers(const struct begin *begin)
{
    struct buffer text = {0};
    buffer_text(&text, head);
    for (size_t i = 0; i < begin->answers.count; i++) {
        const struct setting *answer = &begin->answers.items[i];
        int row;
        const struct field *field = field_find(answer->path, &row);
        bool words = field->type == FIELD_TEXT && *answer->value;
        buffer_print(&text, "\n# %s\n%s%s: %s\n", field->meaning, *answer->value ? "" : "# ",
                     answer->path, words ? quoted(begin->arena, answer->value) : answer->value);
    }
    write_whole(begin->file, text.bytes, text.length);
    buffer_free(&text);
}

static void add_answer(struct begin *begin, const char *path, const char *value)
{
    struct place at = {.file = path};
    *ARENA_PUSH(begin->arena, begin->answers.items, begin->answers.count) =
        (struct setting){.path = path, .value = value, .at = at};
}

/* A band begins where the one below it ends. */
static void add_start_of_band(struct begin *begin, const char *to)
{
    const char *rest;
    int row = field_band_row(to, &rest);
    if (!row || !file_ends_in(to, ".to"))
        return;
    const char *start = "0 r/min";
    if (row > 1)
        start = answer_to(begin, band_path(begin, "limits.bands.#.to", (size_t)row - 1));
    add_answer(begin, band_path(begin, "limits.bands.#.from", (size_t)row), start);
}

/* Answers of an earlier call. False: settings that were written otherwise are there. */
static bool go_on(struct begin *begin)
{
    struct file_text text;
    struct diags *diags = diags_new(begin->arena);
    if (!file_is_there(begin->file))
        return true;
    if (file_read_text(begin->arena, diags, begin->file, &text) &&
        strncmp(text.bytes, head, sizeof head - 1) == 0)
        setting_list_read(begin->arena, diags, &text, &begin->answers);
    else
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
static void print_question(const struct begin *begin, const struct ask *ask)
{
    const struct field *field = ask->field;
    char *meaning = arena_text(begin->arena, field->meaning);
    if (meaning[0] >= 'a' && meaning[0] <= 'z')
        meaning[0] += 'A' - 'a';
    printf("\n%zu. %s (%s)\n", begin->asked, meaning, ask->path);
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

/* A word may be told by its beginning, where no other begins so. */
static const char *whole_word(const struct field *field, const char *answer)
{
    const char *found = NULL;
    for (size_t i = 0; field->type == FIELD_CHOICE && field->choices[i]; i++)
        if (*answer && strncmp(field->choices[i], answer, strlen(answer)) == 0) {
            if (found)
                return answer;
            found = field->choices[i];
        }
    return found ? found : answer;
}

/* Takes an answer, or says what is wrong with it. */
static bool take_answer(struct begin *begin, const struct ask *ask, const char *answer)
{
    struct diags *diags = diags_new(begin->arena);
    struct shop shop;
    size_t count = begin->answers.count;
    answer = whole_word(ask->field, answer);
    if (!*answer && ask->blank)
        answer = ask->blank;
    add_start_of_band(begin, ask->path);
    add_answer(begin, ask->path, answer);
    if (!*answer && !ask->blank)
        fault(diags, (struct place){.file = ask->path}, "an answer is needed here; type %s",
              field_wanted(begin->arena, ask->field));
    else if (utf8_valid(answer, strlen(answer)) != strlen(answer))
        fault(diags, (struct place){.file = ask->path},
              "this is not UTF-8; type it in plain letters");
    else
        read_answers(begin, diags, &shop);
    if (diags_count(diags)) {
        fflush(stdout);
        diags_print(diags, stderr);
        begin->answers.count = count;
        return false;
    }
    for (size_t i = 0; i < shop.read_as_count; i++)
        if (strcmp(shop.read_as[i].at.file, ask->path) == 0)
            printf("   %s\n", shop.read_as[i].words);
    return true;
}

/* Takes the last answer back, with the start of a band that goes with it. */
static void take_back(struct begin *begin)
{
    size_t ends_in_from = 0;
    if (begin->answers.count)
        begin->answers.count--;
    if (begin->answers.count) {
        const char *path = begin->answers.items[begin->answers.count - 1].path;
        ends_in_from = file_ends_in(path, ".from");
    }
    begin->answers.count -= ends_in_from;
    begin->asked -= begin->asked > 0;
}

/* Asks until all is answered; false where the input ends before. */
static bool ask_all(struct begin *begin)
{
    struct ask ask;
    while (next_question(begin, &ask)) {
        begin->asked++;
        print_question(begin, &ask);
        const char *answer = read_line(begin->arena);
        if (!answer)
            return false;
        if (strcmp(answer, "back") == 0) {
            take_back(begin);
            begin->asked -= begin->asked > 0;
        } else if (!take_answer(begin, &ask, answer))
            begin->asked--;
        write_answers(begin);
    }
    return true;
}

/* ---- reading back, and the logs ---- */

/* "about 1.5 kg": what hangs on a cord with such a pull. */
static const char *as_mass(struct arena *arena, const struct shop *shop, double pull)
{
    bool imperial = shop->gauge.step.q.unit->system == SYSTEM_IMPERIAL;
    const struct unit *unit = imperial ? unit_find("lbf", 3) : unit_find("kgf", 3);
    return arena_format(arena, "%s\u00a0%s",
                        show_significant(unit_from_base(pull, unit), 2).text,
                        imperial ? "lb" : "kg");
}

/* The limits as the hand will feel them. True where the user says that they are right. */
static bool read_back(const struct begin *begin)
{
    struct shop shop;
    struct diags *diags = diags_new(begin->arena);
    read_answers(begin, diags, &shop);
    if (diags_count(diags) || !shop_has_limits(&shop))
        return true;
    fields_fill(begin->arena, &shop);
    const struct results *results = results_of(begin->arena, &shop);
    const struct pull_window *window = &results->own->plain;
    if (window->closed)
        printf("\nThis gauge shows no step between the limits on this drum: no pull can be "
               "good.\n");
    else
        printf("\n%s\nThat is as if %s to %s hung on the cord.\n",
               values_fill(begin->arena, results,
                           "Limits of {limits} on this drum are pulls of {low-pull} to "
                           "{high-pull}."),
               as_mass(begin->arena, &shop, window->low),
               as_mass(begin->arena, &shop, window->high));
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

/* What was answered of the bands is asked again. */
static void forget_bands(struct begin *begin)
{
    size_t kept = 0;
    const char *rest;
    for (size_t i = 0; i < begin->answers.count; i++)
        if (!field_band_row(begin->answers.items[i].path, &rest))
            begin->answers.items[kept++] = begin->answers.items[i];
    begin->answers.count = kept;
    write_answers(begin);
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

enum status begin_lathe(const char *folder)
{
    struct arena *arena = arena_new();
    struct begin begin = {.arena = arena,
                          .file = arena_format(arena, "%s/%s", folder, SETTINGS_NAME)};
    enum status status = FAULTS;
    begin.answers.file = begin.file;
    if (go_on(&begin)) {
        if (mkdir(folder, 0777) != 0 && errno != EEXIST)
            fatal("%s cannot be made: %s", folder, strerror(errno));
        print_beginning(&begin);
        bool whole = ask_all(&begin);
        while (whole && !read_back(&begin)) {
            forget_bands(&begin);
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
