/* Arguments and exit status only. */
#include "book.h"

#include "base/fatal.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>

enum status { DONE = 0, FAULTS = 1, WRONG_USAGE = 2, MACHINE_FAILED = 3 };

static const char usage[] =
    "spindlebook: drag tables for setting a lathe's spindle bearings\n"
    "\n"
    "  spindlebook book    make the site, the booklet, the card and the tables\n"
    "  spindlebook check   read everything and report faults; write nothing\n"
    "\n"
    "  --set KEY=VALUE     replace one setting for this run, as in drum.diameter=60mm\n"
    "  --out FOLDER        where the outputs go (out)\n"
    "  --content FOLDER    pages and settings.yaml (content)\n"
    "  --templates FOLDER  page.html and style.css (templates)\n"
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

static enum status run_book(const struct book_paths *paths)
{
    struct book book;
    book_read(&book, paths);
    if (diags_count(book.diags) == 0)
        book_compose(&book);
    if (diags_count(book.diags) == 0)
        book_write(&book, paths->out);
    return finish(&book, DONE);
}

static enum status run_check(const struct book_paths *paths)
{
    struct book book;
    book_read(&book, paths);
    if (diags_count(book.diags) == 0)
        book_compose(&book);
    if (diags_count(book.diags) == 0)
        printf("%zu pages and %zu computed tables, no faults; settings %s\n", book.page_count,
               book.table_count, book.shop.fingerprint);
    return finish(&book, DONE);
}

static const struct verb {
    const char *name;
    enum status (*run)(const struct book_paths *paths);
} verbs[] = {{"book", run_book}, {"check", run_check}};

static enum status run_verb(const char *name, const struct book_paths *paths)
{
    for (size_t i = 0; i < sizeof verbs / sizeof verbs[0]; i++)
        if (strcmp(verbs[i].name, name) == 0)
            return verbs[i].run(paths);
    return wrong_usage("there is no verb", name);
}

/* Takes the options; false for one that is not known or lacks its value. */
static bool read_options(int count, char **words, struct book_paths *paths,
                         const char **replacements, bool *help)
{
    static const struct option names[] = {{"set", required_argument, NULL, 's'},
                                          {"out", required_argument, NULL, 'o'},
                                          {"content", required_argument, NULL, 'c'},
                                          {"templates", required_argument, NULL, 't'},
                                          {"fonts", required_argument, NULL, 'f'},
                                          {"help", no_argument, NULL, 'h'},
                                          {NULL, 0, NULL, 0}};
    for (int letter; (letter = getopt_long(count, words, "", names, NULL)) != -1;)
        switch (letter) {
        case 's':
            replacements[paths->replacement_count++] = optarg;
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
        case 'h':
            *help = true;
            break;
        default:
            return false;
        }
    return true;
}

int main(int count, char **words)
{
    struct book_paths paths = {.content = "content",
                               .templates = "templates",
                               .fonts = "/usr/share/fonts/truetype/dejavu",
                               .out = "out"};
    bool help = false;
    const char **replacements = calloc((size_t)count + 1, sizeof *replacements);
    if (!replacements)
        fatal("the machine has no memory left; close other programs and try again");
    paths.replacements = replacements;
    enum status status = WRONG_USAGE;
    if (!read_options(count, words, &paths, replacements, &help))
        status = wrong_usage("the options are wrong", NULL);
    else if (help)
        status = fputs(usage, stdout) < 0 ? MACHINE_FAILED : DONE;
    else if (optind + 1 != count)
        status = wrong_usage("give one verb: book or check", NULL);
    else
        status = run_verb(words[optind], &paths);
    free(replacements);
    return status;
}
