#include "cli/verbs.h"

#include "book/each.h"
#include "cli/terminal.h"
#include "judge/series.h"
#include "report/remarks.h"
#include "shop/settings.h"

#include <stdio.h>
#include <string.h>

enum status verb_wrong_usage(const char *what, const char *word)
{
    fprintf(stderr, "spindlebook: %s%s%s; see spindlebook --help\n", what, word ? " " : "",
            word ? word : "");
    return WRONG_USAGE;
}

static enum status finish(struct book *book, enum status status)
{
    diags_print(book->diags, stderr);
    size_t faults = diags_count(book->diags);
    book_free(book);
    return faults ? FAULTS : status;
}

static void print_remark(void *to, const char *remark)
{
    fprintf(to, "remark: %s\n", remark);
}

static void print_remarks(const struct book *book)
{
    struct remark_sink listener = {print_remark, stdout};
    remark_on_settings(&book->shop, &listener);
    remark_on_logs(&book->shop, &listener);
}

static enum status run_book(const struct book_paths *paths)
{
    struct book book;
    if (paths->each)
        return book_each(paths);
    book_make(&book, paths);
    if (diags_count(book.diags) == 0)
        print_remarks(&book);
    return finish(&book, DONE);
}

static void report_no_faults(const struct book *book)
{
    print_remarks(book);
    printf("%zu pages and %zu computed tables, no faults; settings %s\n", book->page_count,
           book->table_count, book->shop.fingerprint);
    if (book->card_note)
        printf("%s\n", book->card_note);
}

static enum status run_check(const struct book_paths *paths)
{
    struct book book;
    book_read(&book, paths);
    if (diags_count(book.diags) == 0)
        book_compose(&book, NULL);
    if (diags_count(book.diags) == 0)
        report_no_faults(&book);
    return finish(&book, DONE);
}

typedef bool answerer(const struct question *question, struct diags *diags,
                      struct answer *answer);

/* Reads the settings alone, asks, prints. */
static enum status run_terminal(const struct request *request, answerer *ask)
{
    struct shop shop;
    struct arena *arena = request->arena;
    struct diags *diags = diags_new(arena);
    struct answer answer = {.arena = arena};
    settings_read(arena, diags,
                  arena_format(arena, "%s/%s", request->paths.content, SETTINGS_NAME),
                  request->paths.replacements, request->paths.replacement_count, &shop);
    struct question question = {.shop = &shop,
                                .speed = request->speed,
                                .lock = request->lock,
                                .warmth = request->warmth,
                                .direction = request->direction,
                                .lock_added = request->lock_added,
                                .words = request->words,
                                .word_count = request->word_count};
    if (diags_count(diags) == 0 && ask(&question, diags, &answer))
        answer_print(&answer, request->lines, stdout);
    diags_print(diags, stderr);
    return diags_count(diags) ? FAULTS : DONE;
}

static const struct verb {
    const char *name;
    enum status (*make)(const struct book_paths *paths); /* either this */
    answerer *answer;                                    /* or this */
    size_t least_words, most_words;                      /* behind the verb */
    const char *options;                                 /* beside those of every verb */
} verbs[] = {
    {"book", run_book, NULL, 0, 0, "out only each bench"},
    {"check", run_check, NULL, 0, 0, ""},
    {"pull", NULL, terminal_pull, 1, (size_t)2 * MOST_PULLS,
     "lines speed lock warmth direction lock-added"},
    {"window", NULL, terminal_window, 0, 0, "lines speed"},
    {"gauge", NULL, terminal_gauge, 0, 0, "lines speed"},
    {"nut", NULL, terminal_nut, 0, 8, "lines speed lock warmth direction lock-added"},
};

/* Every verb reads the settings, and may be told where they and the rest lie. */
static const char of_every_verb[] = "set drum content templates fonts";

static bool holds_word(const char *words, const char *word)
{
    size_t length = strlen(word);
    for (; *words; words += strspn(words, " ")) {
        size_t here = strcspn(words, " ");
        if (here == length && strncmp(words, word, length) == 0)
            return true;
        words += here;
    }
    return false;
}

/* The first option that was given and does not go with the verb; NULL: all go. */
static const char *stray_option(const struct verb *verb, const struct request *request)
{
    for (size_t i = 0; i < request->option_count; i++)
        if (!holds_word(verb->options, request->options[i]) &&
            !holds_word(of_every_verb, request->options[i]))
            return request->options[i];
    return NULL;
}

enum status verb_run(const char *name, const struct request *request)
{
    for (size_t i = 0; i < sizeof verbs / sizeof verbs[0]; i++) {
        const struct verb *verb = &verbs[i];
        if (strcmp(verb->name, name) != 0)
            continue;
        if (request->word_count < verb->least_words)
            return verb_wrong_usage("words are missing behind the verb", name);
        if (request->word_count > verb->most_words)
            return verb_wrong_usage("this is one word too many:",
                                    request->words[verb->most_words]);
        const char *stray = stray_option(verb, request);
        if (stray)
            return verb_wrong_usage(arena_format(request->arena,
                                                 "--%s: this option does not go with the verb",
                                                 stray),
                                    name);
        return verb->answer ? run_terminal(request, verb->answer) : verb->make(&request->paths);
    }
    return verb_wrong_usage("there is no verb", name);
}
