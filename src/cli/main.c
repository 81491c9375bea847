/* The command line: a table of verbs and one of options, from which reading, checking and
 * --help follow; and what each verb makes and prints. */
#include "base/fatal.h"
#include "book/book.h"
#include "cli/terminal.h"
#include "judge/series.h"
#include "report/remarks.h"
#include "shop/settings.h"

#include <getopt.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

/* What the command line asked for. */
struct request {
    struct arena *arena;
    struct book_paths paths;
    struct question question;
    bool lines, help;
    const struct cli_option **given; /* the options that were given, in their order */
    size_t given_count;
    const char *twice;   /* an option of the question that was given more than once; or NULL */
    const char *no_part; /* --only with a name that no part has; or NULL */
};

/* ---- verbs ---- */

static void print_remark(void *to, const char *remark)
{
    fprintf(to, "remark: %s\n", remark);
}

/* Remarks, and more in the end where there are no faults; then faults. */
static enum status finish(struct book *book, bool summary)
{
    struct remark_sink remarks = {print_remark, stdout};
    size_t faults = diags_count(book->diags);
    if (!faults) {
        remark_on_settings(&book->shop, &remarks);
        remark_on_logs(&book->shop, &remarks);
    }
    if (!faults && summary)
        printf("%zu pages and %zu computed tables, no faults; settings %s\n", book->page_count,
               book->table_count, book->shop.fingerprint);
    if (!faults && summary && book->card_note)
        printf("%s\n", book->card_note);
    diags_print(book->diags, stderr);
    book_free(book);
    return faults ? FAULTS : DONE;
}

static enum status run_book(const struct book_paths *paths)
{
    struct book book;
    if (paths->each)
        return book_each(paths);
    book_make(&book, paths);
    return finish(&book, false);
}

static enum status run_check(const struct book_paths *paths)
{
    struct book book;
    book_check(&book, paths);
    return finish(&book, true);
}

/* Reads the settings alone, asks, prints. */
static enum status run_answer(struct request *request, answerer *answer)
{
    struct shop shop;
    struct arena *arena = request->arena;
    struct diags *diags = diags_new(arena);
    settings_read(arena, diags,
                  arena_format(arena, "%s/%s", request->paths.content, SETTINGS_NAME),
                  request->paths.replacements, request->paths.replacement_count, &shop);
    request->question.shop = &shop;
    request->question.diags = diags;
    if (diags_count(diags) == 0)
        terminal_answer(arena, &request->question, answer, request->lines);
    diags_print(diags, stderr);
    return diags_count(diags) ? FAULTS : DONE;
}

enum {
    BOOK = 1 << 0,
    CHECK = 1 << 1,
    PULL = 1 << 2,
    WINDOW = 1 << 3,
    GAUGE = 1 << 4,
    NUT = 1 << 5,
    AT_THE_BENCH = PULL | WINDOW | GAUGE | NUT /* what answers with rows */
};
#define EVERY_VERB ~0u

static const struct verb {
    unsigned bit;
    const char *name, *words, *meaning; /* words: what stands behind it in the usage */
    enum status (*make)(const struct book_paths *paths); /* either this */
    answerer *answer;                                    /* or this */
    size_t least_words, most_words;                      /* behind the verb */
} verbs[] = {
    {BOOK, "book", "", "make the site, the booklet, the card and the tables", .make = run_book},
    {CHECK, "check", "", "read everything and report faults; write nothing", .make = run_check},
    {PULL, "pull", "PULL...", "judge steady pulls, as in: pull 18.2N 18.3N 18.1N",
     .answer = terminal_pull, .least_words = 1, .most_words = (size_t)2 * MOST_PULLS},
    {WINDOW, "window", "", "what the gauge may read", .answer = terminal_window},
    {GAUGE, "gauge", "", "what is known of the gauge at your pulls", .answer = terminal_gauge},
    {NUT, "nut", "",
     "how far to turn the nut next, by the log; or by two\n"
     "places and drags: nut 0deg 0.31N.m 3deg 0.42N.m",
     .answer = terminal_nut, .most_words = 8},
};

enum { VERBS = sizeof verbs / sizeof verbs[0] };

/* ---- options ---- */

/* What becomes of an option's value. */
enum value {
    FILE_AT, /* stands at `to` in the request: a file or a folder, the later one counts */
    ASKED,   /* the same: part of the question, so given once at most */
    SWITCH,  /* none: true at `to` */
    SETTING, /* one more replacement */
    DRUM,    /* the same, of drum.diameter */
    PART     /* one more part to make */
};

/* In the order of the usage. */
static const struct cli_option {
    const char *name, *argument; /* argument: NULL for a switch */
    const char *meaning;
    enum value value;
    size_t to;
    unsigned verbs; /* with which it goes */
} options[] = {
#define AT(field) offsetof(struct request, field)
    {"set", "KEY=VALUE", "replace one setting for this run, as in drum.diameter=60mm", SETTING,
     0, EVERY_VERB},
    {"drum", "DIAMETER", "the same as --set drum.diameter=DIAMETER", DRUM, 0, EVERY_VERB},
    {"speed", "SPEED", "the band at this speed, not the one at top speed", ASKED,
     AT(question.speed), AT_THE_BENCH},
    {"lock", "WHEN", "the drag was measured before or after locking the nut", ASKED,
     AT(question.lock), PULL | NUT},
    {"warmth", "HOW", "the spindle was cold or warm; without it as the limits ask", ASKED,
     AT(question.warmth), PULL | NUT},
    {"direction", "WAY", "it was turned the usual or the other way; without it the usual",
     ASKED, AT(question.direction), PULL | NUT},
    {"lock-added", "DRAG", "what locking adds; without it the log's last, if it knows one",
     ASKED, AT(question.lock_added), PULL | NUT},
    {"lines", NULL, "name, value and unit with tabs between them, for programs", SWITCH,
     AT(lines), AT_THE_BENCH},
    {"out", "FOLDER", "where the outputs go (out)", FILE_AT, AT(paths.out), BOOK},
    {"only", "PART",
     "make this alone: site, single, tables, booklet, fold, forms,\n"
     "card or aids; may be given several times",
     PART, 0, BOOK},
    {"each", "FOLDER",
     "make it for every lathe: each has a folder in FOLDER with its\n"
     "settings.yaml and logs, or a file of settings such as bay-1.yaml,\n"
     "and gets a folder in that of --out",
     FILE_AT, AT(paths.each), BOOK},
    {"content", "FOLDER", "pages and settings.yaml (content)", FILE_AT, AT(paths.content),
     EVERY_VERB},
    {"templates", "FOLDER", "page.html, style.css and others (templates)", FILE_AT,
     AT(paths.templates), EVERY_VERB},
    {"bench", "FILE", "the engine of the bench page; without it no such page is made", FILE_AT,
     AT(paths.bench), BOOK},
    {"fonts", "FOLDER", "the DejaVu fonts (/usr/share/fonts/truetype/dejavu)", FILE_AT,
     AT(paths.fonts), EVERY_VERB},
    {"help", NULL, "this text", SWITCH, AT(help), EVERY_VERB},
#undef AT
};

enum { OPTIONS = sizeof options / sizeof options[0] };

/* A number below zero is no option: its sign becomes the one that is printed. What stands
 * behind an option is its value. */
static void mark_numbers(struct arena *arena, int count, char **words)
{
    for (int i = 1; i < count; i++)
        if (words[i][0] == '-' && words[i][1] && strchr(".0123456789", words[i][1]) &&
            strncmp(words[i - 1], "--", 2) != 0)
            words[i] = arena_format(arena, "\u2212%s", words[i] + 1);
}

static void take(struct request *request, const struct cli_option *option, const char *text)
{
    struct book_paths *paths = &request->paths;
    void *to = (char *)request + option->to;
    for (size_t i = 0; i < request->given_count; i++)
        if (option->value == ASKED && request->given[i] == option)
            request->twice = option->name;
    *ARENA_PUSH(request->arena, request->given, request->given_count) = option;
    switch (option->value) {
    case FILE_AT:
    case ASKED:
        *(const char **)to = text;
        break;
    case SWITCH:
        *(bool *)to = true;
        break;
    case DRUM:
        text = arena_format(request->arena, "drum.diameter=%s", text);
        /* fall through */
    case SETTING:
        *ARENA_PUSH(request->arena, paths->replacements, paths->replacement_count) = text;
        break;
    case PART:
        paths->parts |= book_part_named(text);
        if (!book_part_named(text))
            request->no_part = text;
        break;
    }
}

enum { FIRST_OPTION = 256 }; /* above every character that getopt_long() may give */

/* False for an option that is not known or lacks its value. */
static bool read_options(int count, char **words, struct request *request)
{
    struct option names[OPTIONS + 1] = {{0}};
    int found;
    for (int i = 0; i < OPTIONS; i++)
        names[i] = (struct option){options[i].name,
                                   options[i].argument ? required_argument : no_argument, NULL,
                                   FIRST_OPTION + i};
    while ((found = getopt_long(count, words, "", names, NULL)) >= FIRST_OPTION)
        take(request, &options[found - FIRST_OPTION], optarg);
    request->question.words = (const char *const *)words + optind;
    request->question.word_count = (size_t)(count - optind);
    return found == -1;
}

static bool has_blank(const struct request *request)
{
    for (size_t i = 0; i < OPTIONS; i++) {
        const char *const *text = (const void *)((const char *)request + options[i].to);
        if (options[i].value == FILE_AT && *text && !**text)
            return true;
    }
    return false;
}

/* ---- the usage ---- */

/* What it means from a column on, line by line. */
static void print_entry(int column, const char *entry, const char *meaning)
{
    for (size_t length; *meaning; meaning += length + (meaning[length] == '\n')) {
        length = strcspn(meaning, "\n");
        printf("  %-*s%.*s\n", column, entry, (int)length, meaning);
        entry = "";
    }
}

static enum status print_usage(struct arena *arena)
{
    printf("spindlebook: drag tables for setting a lathe's spindle bearings\n\n");
    for (size_t i = 0; i < VERBS; i++)
        print_entry(verbs[i].answer ? 28 : 20,
                    arena_format(arena, "spindlebook %s %s", verbs[i].name, verbs[i].words),
                    verbs[i].meaning);
    printf("\n");
    for (size_t i = 0; i < OPTIONS; i++)
        print_entry(20,
                    arena_format(arena, "--%s %s", options[i].name,
                                 options[i].argument ? options[i].argument : ""),
                    options[i].meaning);
    printf("\nExit status: 0 done, 1 faults in the input, 2 wrong usage, 3 the machine "
           "failed.\n");
    return DONE;
}

/* Says on standard error what is wrong with the command line. word may be NULL. */
static enum status wrong_usage(const char *what, const char *word)
{
    fprintf(stderr, "spindlebook: %s%s%s; see spindlebook --help\n", what, word ? " " : "",
            word ? word : "");
    return WRONG_USAGE;
}

/* ---- the run ---- */

static enum status run_verb(const struct verb *verb, struct request *request)
{
    const struct question *question = &request->question;
    if (question->word_count < verb->least_words)
        return wrong_usage("words are missing behind the verb", verb->name);
    if (question->word_count > verb->most_words)
        return wrong_usage("this is one word too many:", question->words[verb->most_words]);
    for (size_t i = 0; i < request->given_count; i++)
        if (!(request->given[i]->verbs & verb->bit))
            return wrong_usage(arena_format(request->arena,
                                            "--%s: this option does not go with the verb",
                                            request->given[i]->name),
                               verb->name);
    return verb->answer ? run_answer(request, verb->answer) : verb->make(&request->paths);
}

static enum status no_verb(struct arena *arena)
{
    const char *text = "give a verb: ";
    for (size_t i = 0; i < VERBS; i++)
        text = arena_format(arena, "%s%s%s", text,
                            i == 0          ? ""
                            : i + 1 < VERBS ? ", "
                                            : " or ",
                            verbs[i].name);
    return wrong_usage(text, NULL);
}

static enum status run(int count, char **words, struct request *request)
{
    struct question *question = &request->question;
    mark_numbers(request->arena, count, words);
    if (!read_options(count, words, request))
        return wrong_usage("the options are wrong", NULL);
    if (request->twice)
        return wrong_usage(arena_format(request->arena, "--%s is given twice", request->twice),
                           NULL);
    if (request->help)
        return print_usage(request->arena);
    if (has_blank(request))
        return wrong_usage("the name of a file or a folder is blank", NULL);
    if (request->no_part)
        return wrong_usage("--only knows no part", request->no_part);
    if (!question->word_count)
        return no_verb(request->arena);
    const char *name = *question->words++;
    question->word_count--;
    for (size_t i = 0; i < VERBS; i++)
        if (strcmp(verbs[i].name, name) == 0)
            return run_verb(&verbs[i], request);
    return wrong_usage("there is no verb", name);
}

int main(int count, char **words)
{
    struct request request = {.arena = arena_new(),
                              .paths = {.content = "content",
                                        .templates = "templates",
                                        .fonts = "/usr/share/fonts/truetype/dejavu",
                                        .out = "out"}};
    enum status status = run(count, words, &request);
    arena_free(request.arena);
    if (fflush(stdout) != 0 || ferror(stdout))
        fatal("the answer cannot be written; is the disk full?");
    return (int)status;
}
