/* Arguments and exit status only. */
#include "book.h"

#include "base/fatal.h"
#include "read/settings.h"
#include "terminal/terminal.h"
#include "verdict/remarks.h"

#include <getopt.h>
#include <string.h>

enum status { DONE = 0, FAULTS = 1, WRONG_USAGE = 2, MACHINE_FAILED = 3 };

static const char usage[] =
    "spindlebook: drag tables for setting a lathe's spindle bearings\n"
    "\n"
    "  spindlebook book    make the site, the booklet, the card and the tables\n"
    "  spindlebook check   read everything and report faults; write nothing\n"
    "  spindlebook pull PULL...    judge steady pulls, as in: pull 18.2N 18.3N 18.1N\n"
    "  spindlebook window          what the gauge may read\n"
    "  spindlebook gauge           what is known of the gauge at your pulls\n"
    "  spindlebook nut             how far to turn the nut next, by the log; or by two\n"
    "                              places and drags: nut 0deg 0.31N.m 3deg 0.42N.m\n"
    "\n"
    "  --set KEY=VALUE     replace one setting for this run, as in drum.diameter=60mm\n"
    "  --drum DIAMETER     the same as --set drum.diameter=DIAMETER\n"
    "  --speed SPEED       the band at this speed, not the one at top speed\n"
    "  --lines             name, value and unit with tabs between them, for programs\n"
    "  --out FOLDER        where the outputs go (out)\n"
    "  --content FOLDER    pages and settings.yaml (content)\n"
    "  --templates FOLDER  page.html, style.css and others (templates)\n"
    "  --bench FILE        the engine of the bench page; without it no such page is made\n"
    "  --fonts FOLDER      the DejaVu fonts (/usr/share/fonts/truetype/dejavu)\n"
    "  --help              this text\n"
    "\n"
    "Exit status: 0 done, 1 faults in the input, 2 wrong usage, 3 the machine failed.\n";

static enum status wrong_usage(const char *what, const char *word)
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
}

static enum status run_book(const struct book_paths *paths)
{
    struct book book;
    book_read(&book, paths);
    if (diags_count(book.diags) == 0)
        book_compose(&book);
    if (diags_count(book.diags) == 0)
        book_write(&book, paths->out);
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

/* What the command line asked for. */
struct request {
    struct book_paths paths;
    struct arena *arena;
    const char **replacements;
    const char *speed;
    bool lines, help;
    const char *const *words; /* behind the verb */
    size_t word_count;
};

typedef bool answerer(const struct question *question, struct diags *diags,
                      struct answer *answer);

/* Reads the settings alone, asks, prints. */
static enum status run_terminal(const struct request *request, answerer *ask)
{
    struct shop shop;
    struct arena *arena = request->arena;
    struct diags *diags = diags_new(arena);
    struct answer answer = {.arena = arena};
    settings_read(arena, diags, arena_format(arena, "%s/settings.yaml", request->paths.content),
                  request->paths.replacements, request->paths.replacement_count, &shop);
    struct question question = {.shop = &shop,
                                .speed = request->speed,
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

static enum status run_verb(const char *name, const struct request *request)
{
    for (size_t i = 0; i < sizeof verbs / sizeof verbs[0]; i++) {
        const struct verb *verb = &verbs[i];
        if (strcmp(verb->name, name) != 0)
            continue;
        if (request->word_count < verb->least_words)
            return wrong_usage("words are missing behind the verb", name);
        if (request->word_count > verb->most_words)
            return wrong_usage("this is one word too many:", request->words[verb->most_words]);
        return verb->answer ? run_terminal(request, verb->answer) : verb->make(&request->paths);
    }
    return wrong_usage("there is no verb", name);
}

/* Takes the options; false for one that is not known or lacks its value. */
static bool read_options(int count, char **words, struct request *request)
{
    static const struct option names[] = {
        {"set", required_argument, NULL, 's'},     {"out", required_argument, NULL, 'o'},
        {"content", required_argument, NULL, 'c'}, {"templates", required_argument, NULL, 't'},
        {"fonts", required_argument, NULL, 'f'},   {"drum", required_argument, NULL, 'd'},
        {"speed", required_argument, NULL, 'v'},   {"bench", required_argument, NULL, 'b'},
        {"lines", no_argument, NULL, 'l'},         {"help", no_argument, NULL, 'h'},
        {NULL, 0, NULL, 0}};
    struct book_paths *paths = &request->paths;
    for (int letter; (letter = getopt_long(count, words, "", names, NULL)) != -1;)
        switch (letter) {
        case 's':
            request->replacements[paths->replacement_count++] = optarg;
            break;
        case 'd':
            request->replacements[paths->replacement_count++] =
                arena_format(request->arena, "drum.diameter=%s", optarg);
            break;
        case 'v':
            request->speed = optarg;
            break;
        case 'l':
            request->lines = true;
            break;
        case 'o':
            paths->out = optarg;
            break;
        case 'c':
            paths->content = optarg;
            break;
        case 't':
            paths->templates = optarg;
            break;
        case 'f':
            paths->fonts = optarg;
            break;
        case 'b':
            paths->bench = optarg;
            break;
        case 'h':
            request->help = true;
            break;
        default:
            return false;
        }
    return true;
}

int main(int count, char **words)
{
    struct request request = {.paths = {.content = "content",
                                        .templates = "templates",
                                        .fonts = "/usr/share/fonts/truetype/dejavu",
                                        .out = "out"}};
    request.arena = arena_new();
    request.replacements =
        arena_get(request.arena, ((size_t)count + 1) * sizeof *request.replacements);
    request.paths.replacements = request.replacements;
    enum status status;
    if (!read_options(count, words, &request))
        status = wrong_usage("the options are wrong", NULL);
    else if (request.help)
        status = fputs(usage, stdout) < 0 ? MACHINE_FAILED : DONE;
    else if (optind >= count)
        status = wrong_usage("give a verb: book, check, pull, window, gauge or nut", NULL);
    else {
        request.words = (const char *const *)words + optind + 1;
        request.word_count = (size_t)(count - optind - 1);
        status = run_verb(words[optind], &request);
    }
    arena_free(request.arena);
    if (fflush(stdout) != 0 || ferror(stdout))
        fatal("the answer cannot be written; is the disk full?");
    return (int)status;
}
