#include "verbs.h"
#include "book_each.h"

#include "read/settings.h"
#include "terminal/terminal.h"
#include "verdict/log_remarks.h"

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
    struct listener listener = {print_remark, stdout};
    remarks_tell(&book->shop, &listener);
    log_remarks_tell(&book->shop, &listener);
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
        book_compose(&book);
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
} verbs[] = {
    {"book", run_book, NULL, 0, 0},        {"check", run_check, NULL, 0, 0},
    {"pull", NULL, terminal_pull, 1, 999}, {"window", NULL, terminal_window, 0, 0},
    {"gauge", NULL, terminal_gauge, 0, 0}, {"nut", NULL, terminal_nut, 0, 8},
};

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
        if (request->paths.each && verb->make != run_book)
            return verb_wrong_usage("--each goes with the verb book, not with", name);
        return verb->answer ? run_terminal(request, verb->answer) : verb->make(&request->paths);
    }
    return verb_wrong_usage("there is no verb", name);
}
