/* The command line: a table of verbs and one of options, from which reading, checking, --help,
 * the page of the manual and the completion of words follow; and what each verb makes and
 * prints. */
#include "base/fatal.h"
#include "base/file.h"
#include "base/ground.h"
#include "base/version.h"
#include "book/book.h"
#include "book/traces.h"
#include "cli/begin.h"
#include "cli/terminal.h"
#include "judge/results.h"
#include "report/record.h"
#include "report/remarks.h"
#include "shop/logs.h"
#include "shop/settings.h"
#include "shop/stored.h"
#include "shop/trace_text.h"

#include <cmark.h>
#include <ctype.h>
#include <ft2build.h>
#include <getopt.h>
#include <hpdf.h>
#include <limits.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <yaml.h>
#include <zlib.h>
#include FT_FREETYPE_H

/* What the command line asked for. */
struct request {
    struct arena *arena;
    struct book_paths paths;
    struct question question;
    bool lines, help, version;
    const char *help_as;             /* NULL: not asked for */
    const struct cli_option **given; /* the options that were given, in their order */
    size_t given_count;
    const char *twice;   /* an option of the question that was given more than once; or NULL */
    const char *no_part; /* --only with a name that no part has; or NULL */
};

/* ---- verbs ---- */

/* Remarks, and more in the end where there are no faults; then faults. */
static enum status finish(struct book *book, bool summary)
{
    struct rows remarks = {.arena = book->arena};
    size_t faults = diags_count(book->diags);
    if (!faults) {
        remark_on_all(&remarks, book->results);
        remarks_print(&remarks, "");
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
    book_confine(paths, TOUCHES_OUTPUTS);
    if (paths->each)
        return book_each(paths);
    book_make(&book, paths);
    return finish(&book, false);
}

/* The settings once more, every key with its remark; without any a file to be filled in. */
static enum status run_settings(const struct book_paths *paths)
{
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct buffer text = {0};
    struct shop shop;
    const char *file = arena_format(arena, "%s/%s", paths->content, SETTINGS_NAME);
    bool there = file_is_there(file);
    book_confine(paths, TOUCHES_SETTINGS);
    if (there)
        settings_read(arena, diags, file, paths->replacements, paths->replacement_count, &shop);
    settings_print(arena, &text, there ? &shop : NULL);
    enum status status = diags_count(diags) ? FAULTS : DONE;
    if (status == DONE)
        fputs(text.bytes, stdout);
    diags_print(diags, stderr);
    buffer_free(&text);
    arena_free(arena);
    return status;
}

static enum status run_check(const struct book_paths *paths)
{
    struct book book;
    book_confine(paths, TOUCHES_PAGES);
    if (paths->each)
        return check_each(paths);
    book_check(&book, paths);
    return finish(&book, true);
}

/* Before nothing but the settings may be opened any more. False after a fault. */
static bool read_trace(struct request *request, struct diags *diags)
{
    const char *name = request->question.words[0];
    struct file_text *text = arena_get(request->arena, sizeof *text);
    request->question.trace = text;
    return strcmp(name, "-") == 0
               ? file_read_input(request->arena, diags, TRACE_LARGEST, text)
               : file_read_long(request->arena, diags, name, TRACE_LARGEST, text);
}

/* Reads the settings alone, asks, prints. */
static enum status run_answer(struct request *request, answerer *answer)
{
    struct shop shop;
    struct arena *arena = request->arena;
    struct diags *diags = diags_new(arena);
    if (answer == terminal_trace && !read_trace(request, diags)) {
        diags_print(diags, stderr);
        return FAULTS;
    }
    const char *records = arena_format(arena, "%s/" RECORDS_NAME, request->paths.content);
    bool made = answer == terminal_record && mkdir(records, 0777) == 0;
    book_confine(&request->paths,
                 answer == terminal_record ? TOUCHES_RECORDS : TOUCHES_SETTINGS);
    settings_read(arena, diags,
                  arena_format(arena, "%s/%s", request->paths.content, SETTINGS_NAME),
                  request->paths.replacements, request->paths.replacement_count, &shop);
    request->question.diags = diags;
    request->question.job = request->paths.job;
    if (diags_count(diags) == 0)
        traces_read(arena, diags, &shop);
    if (diags_count(diags) == 0) {
        request->question.results = results_of(arena, &shop);
        terminal_answer(arena, &request->question, answer, request->lines);
    }
    if (made)
        rmdir(records); /* it stays where something was stored */
    diags_print(diags, stderr);
    return diags_count(diags) ? FAULTS : DONE;
}

/* Asks for a lathe's settings, then makes its card. */
static enum status run_begin(const struct book_paths *paths)
{
    struct arena *arena = arena_new();
    struct book_paths card = *paths;
    card.out = arena_format(arena, "%s/out", paths->content);
    card.parts = book_part_named("card");
    enum status status = begin_lathe(&card);
    if (status == DONE)
        status = run_book(&card);
    if (status == DONE)
        printf("\nThe card is in %s. Print card-sheet.pdf at 100 %%, and measure its bars.\n"
               "The whole booklet: spindlebook book --content %s --out %s\n",
               card.out, card.content, card.out);
    arena_free(arena);
    return status;
}

enum {
    BEGIN = 1 << 0,
    BOOK = 1 << 1,
    CHECK = 1 << 2,
    SETTINGS = 1 << 3,
    PULL = 1 << 4,
    WINDOW = 1 << 5,
    GAUGE = 1 << 6,
    NUT = 1 << 7,
    RECORD = 1 << 8,
    TRACE = 1 << 9,
    AT_THE_BENCH = PULL | WINDOW | GAUGE | NUT, /* what judges by a band */
    ANSWERS = AT_THE_BENCH | RECORD | TRACE     /* what answers with rows */
};
#define EVERY_VERB (2u * TRACE - 1)
/* A record is of the settings as they are written. */
#define WITH_OTHERS (EVERY_VERB & ~(unsigned)RECORD)

static const struct verb {
    unsigned bit;
    const char *name, *words, *meaning; /* words: what stands behind it in the usage */
    enum status (*make)(const struct book_paths *paths); /* either this */
    answerer *answer;                                    /* or this */
    size_t least_words, most_words;                      /* behind the verb */
} verbs[] = {
    {BEGIN, "begin", "[FOLDER]", "ask for the settings of your own lathe, and make its card",
     .make = run_begin, .most_words = 1},
    {BOOK, "book", "", "make the site, the booklet, the card and the tables", .make = run_book},
    {CHECK, "check", "", "read everything and report faults; write nothing", .make = run_check},
    {SETTINGS, "settings", "", "print the settings with a remark above every key",
     .make = run_settings},
    {PULL, "pull", "PULL...", "judge a series of pulls, as in: pull 18.2N 18.3N 18.1N",
     .answer = terminal_pull, .least_words = 1, .most_words = (size_t)2 * MOST_PULLS},
    {WINDOW, "window", "", "what the gauge may read", .answer = terminal_window},
    {GAUGE, "gauge", "", "what is known of the gauge at your pulls", .answer = terminal_gauge},
    {NUT, "nut", "",
     "how far to turn the nut next, by the log; or by two\n"
     "places and drags: nut 0deg 0.31N.m 3deg 0.42N.m",
     .answer = terminal_nut, .most_words = 8},
    {RECORD, "record", "", "store the record of a closed job, or print it as it was stored",
     .answer = terminal_record},
    {TRACE, "trace", "FILE",
     "one pull from what the gauge read while the cord ran; - is\n"
     "standard input",
     .answer = terminal_trace, .least_words = 1, .most_words = 1},
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

static const char *const help_forms[] = {"man", "bash", NULL};

/* In the order of the usage. */
static const struct cli_option {
    const char *name, *argument; /* argument: NULL for a switch */
    const char *meaning;
    enum value value;
    unsigned to;
    unsigned verbs;           /* with which it goes */
    const char *const *words; /* what it may be given, NULL-ended; NULL: any */
} options[] = {
#define AT(field) offsetof(struct request, field)
    {"set", "KEY=VALUE", "replace one setting for this run, as in drum.diameter=60mm", SETTING,
     0, WITH_OTHERS, NULL},
    {"drum", "DIAMETER", "the same as --set drum.diameter=DIAMETER", DRUM, 0, WITH_OTHERS,
     NULL},
    {"speed", "SPEED",
     "the band at this speed, not the one at top speed; of a trace how\n"
     "fast the spindle turned, 12r/min, or the cord ran, 40mm/s",
     ASKED, AT(question.speed), AT_THE_BENCH | TRACE, NULL},
    {"interval", "TIME", "the trace is one column of forces, so far apart: 0.05s", ASKED,
     AT(question.interval), TRACE, NULL},
    {"unit", "UNIT", "of the trace's readings; without it what the trace says, or the gauge's",
     ASKED, AT(question.unit), TRACE, NULL},
    {"lock", "WHEN",
     "the drag was measured before or after locking the nut, or with the nut unloaded", ASKED,
     AT(question.lock), PULL | NUT, pull_columns[PULL_LOCK].words},
    {"warmth", "HOW", "the spindle was cold or warm; without it as the limits ask", ASKED,
     AT(question.warmth), PULL | NUT, pull_columns[PULL_WARMTH].words},
    {"direction", "WAY", "it was turned the usual or the other way; without it the usual",
     ASKED, AT(question.direction), PULL | NUT, pull_columns[PULL_DIRECTION].words},
    {"lock-added", "DRAG", "what locking adds; without it the log's last, if it knows one",
     ASKED, AT(question.lock_added), PULL | NUT, NULL},
    {"budget", NULL, "how sure the drag is, source by source", SWITCH, AT(question.budget),
     PULL, NULL},
    {"lines", NULL, "name, value and unit with tabs between them, for programs", SWITCH,
     AT(lines), ANSWERS, NULL},
    {"job", "NAME", "the closed job whose record it is; book takes the last one without it",
     ASKED, AT(paths.job), RECORD | BOOK, NULL},
    {"issued", "DATE", "the day that the record's sheet is to bear", ASKED, AT(question.issued),
     RECORD, NULL},
    {"out", "FOLDER", "where the outputs go (out)", FILE_AT, AT(paths.out), BOOK, NULL},
    {"only", "PART",
     "make this alone: site, single, tables, booklet, fold, forms,\n"
     "card, aids, drum or record; may be given several times",
     PART, 0, BOOK, book_part_names},
    {"each", "FOLDER",
     "do it for every lathe: each has a folder in FOLDER with its\n"
     "settings.yaml and logs, or a file of settings such as bay-1.yaml,\n"
     "and gets a folder in that of --out",
     FILE_AT, AT(paths.each), BOOK | CHECK, NULL},
    {"content", "FOLDER", "settings.yaml, logs and pages (content)", FILE_AT, AT(paths.content),
     EVERY_VERB, NULL},
    {"templates", "FOLDER", "the frames and styles of the site (templates)", FILE_AT,
     AT(paths.templates), EVERY_VERB, NULL},
    {"bench", "FILE", "the engine of the bench page; without it no such page is made", FILE_AT,
     AT(paths.bench), BOOK, NULL},
    {"fonts", "FOLDER", "the DejaVu fonts (/usr/share/fonts/truetype/dejavu)", FILE_AT,
     AT(paths.fonts), EVERY_VERB, NULL},
    {"help", NULL, "this text", SWITCH, AT(help), EVERY_VERB, NULL},
    {"help-as", "FORM", "the same as a page of the manual (man) or completion of words (bash)",
     FILE_AT, AT(help_as), EVERY_VERB, help_forms},
    {"version", NULL, "the version of the program and of its libraries", SWITCH, AT(version),
     EVERY_VERB, NULL},
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

/* Says on standard error what is wrong with the command line. word may be NULL. */
static enum status wrong_usage(const char *what, const char *word)
{
    fprintf(stderr, "spindlebook: %s%s%s; see spindlebook --help\n", what, word ? " " : "",
            word ? word : "");
    return WRONG_USAGE;
}

/* ---- the usage, in three forms ---- */

static const char brief[] = "drag tables for setting a lathe's spindle bearings";

static const struct {
    enum status status;
    const char *meaning;
} statuses[] = {{DONE, "done"},
                {FAULTS, "faults in the input"},
                {WRONG_USAGE, "wrong usage"},
                {MACHINE_FAILED, "the machine failed"}};

enum { STATUSES = sizeof statuses / sizeof statuses[0] };

/* The verbs of these bits, as in "book, check or nut". */
static const char *verb_names(struct arena *arena, unsigned bits, const char *between,
                              const char *last)
{
    const char *text = "";
    for (size_t i = 0; i < VERBS; i++) {
        bool more = bits & ~(2 * verbs[i].bit - 1) & EVERY_VERB;
        if (bits & verbs[i].bit)
            text = arena_format(arena, "%s%s%s", text,
                                !text[0] ? ""
                                : more   ? between
                                         : last,
                                verbs[i].name);
    }
    return text;
}

/* What it means from a column on, line by line. */
static void print_entry(int column, const char *entry, const char *meaning)
{
    for (size_t length; *meaning; meaning += length + (meaning[length] == '\n')) {
        length = strcspn(meaning, "\n");
        printf("  %-*s%.*s\n", column, entry, (int)length, meaning);
        entry = "";
    }
}

static void print_help(struct arena *arena)
{
    printf("spindlebook: %s\n\n", brief);
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
    printf("\nExit status:");
    for (size_t i = 0; i < STATUSES; i++)
        printf("%s %d %s", i ? "," : "", statuses[i].status, statuses[i].meaning);
    printf(".\n");
}

/* One entry of a list in mdoc: its heading, with the word that it takes, then what it means. */
static void print_item(const char *heading, const char *word, const char *meaning)
{
    printf(".It %s%s%s\n%c%s.\n", heading, *word ? " Ar " : "", word, toupper(meaning[0]),
           meaning + 1);
}

static void print_manual(struct arena *arena)
{
    printf(".Dd " VERSION_DAY "\n.Dt SPINDLEBOOK 1\n.Os\n.Sh NAME\n.Nm spindlebook\n.Nd %s\n"
           ".Sh SYNOPSIS\n.Nm\n.Ar verb\n.Op Ar word ...\n.Op Ar option ...\n"
           ".Sh DESCRIPTION\nThis is version " VERSION ".\n"
           "Verb, words and options may stand in any order.\nThe verbs are:\n"
           ".Bl -tag -width Ds\n",
           brief);
    for (size_t i = 0; i < VERBS; i++)
        print_item(arena_format(arena, "Cm %s", verbs[i].name), verbs[i].words,
                   verbs[i].meaning);
    printf(".El\n.Pp\nThe options are:\n.Bl -tag -width Ds\n");
    for (size_t i = 0; i < OPTIONS; i++) {
        const struct cli_option *option = &options[i];
        print_item(arena_format(arena, "Fl Fl %s", option->name),
                   option->argument ? option->argument : "", option->meaning);
        if (option->verbs != EVERY_VERB)
            printf("It goes with %s.\n", verb_names(arena, option->verbs, ", ", " and "));
    }
    printf(".El\n.Sh EXIT STATUS\n.Bl -tag -width Ds\n");
    for (size_t i = 0; i < STATUSES; i++)
        print_item(arena_format(arena, "%d", statuses[i].status), "", statuses[i].meaning);
    printf(".El\n");
}

/* What may stand behind each option that takes a value: some words, a path, or anything. */
static void print_values(void)
{
    for (size_t i = 0; i < OPTIONS; i++) {
        const struct cli_option *option = &options[i];
        if (!option->argument)
            continue;
        printf("    --%s) words='", option->name);
        for (size_t k = 0; option->words && option->words[k]; k++)
            printf("%s%s", k ? " " : "", option->words[k]);
        printf("'");
        if (option->value == FILE_AT && !option->words)
            printf(" paths=-%c", strcmp(option->argument, "FOLDER") == 0 ? 'd' : 'f');
        printf(" ;;\n");
    }
}

/* What may stand anywhere else: the options that go with the verb; before there is one, verbs
 * and all options. */
static void print_choices(struct arena *arena)
{
    for (size_t v = 0; v <= VERBS; v++) {
        bool known = v < VERBS;
        printf("    %s) words='%s", known ? verbs[v].name : "*",
               known ? "" : verb_names(arena, EVERY_VERB, " ", " "));
        for (size_t i = 0; i < OPTIONS; i++)
            if (!known || options[i].verbs & verbs[v].bit)
                printf(" --%s", options[i].name);
        printf("' ;;\n");
    }
}

static void print_completion(struct arena *arena)
{
    printf(
        "# How bash completes the words of spindlebook; made by spindlebook --help-as bash.\n"
        "_spindlebook() {\n"
        "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}\n"
        "    local verb= words= paths= i\n"
        "    if [ \"$word\" = = ]; then\n"
        "        word=\n"
        "    elif [ \"$before\" = = ]; then\n"
        "        before=${COMP_WORDS[COMP_CWORD - 2]}\n"
        "    fi\n"
        "    for ((i = 1; i < COMP_CWORD; i++)); do\n"
        "        case ${COMP_WORDS[i]} in\n"
        "        %s) verb=${COMP_WORDS[i]} && break ;;\n"
        "        esac\n"
        "    done\n"
        "    case $verb in\n",
        verb_names(arena, EVERY_VERB, " | ", " | "));
    print_choices(arena);
    printf("    esac\n"
           "    case $before in\n");
    print_values();
    printf("    esac\n"
           "    if [ \"$paths\" ]; then\n"
           "        compopt -o filenames 2> /dev/null\n"
           "        mapfile -t COMPREPLY < <(compgen \"$paths\" -- \"$word\")\n"
           "    else\n"
           "        mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\")\n"
           "    fi\n"
           "}\n"
           "complete -F _spindlebook spindlebook\n");
}

static enum status print_usage(struct arena *arena, const char *form)
{
    static void (*const prints[])(struct arena *) = {print_manual, print_completion};
    for (size_t i = 0; help_forms[i]; i++)
        if (strcmp(help_forms[i], form) == 0) {
            prints[i](arena);
            return DONE;
        }
    return wrong_usage("--help-as knows no form", form);
}

static enum status print_version(void)
{
    FT_Library library;
    FT_Int major = 0, minor = 0, patch = 0;
    if (FT_Init_FreeType(&library) != 0)
        fatal("FreeType does not start");
    FT_Library_Version(library, &major, &minor, &patch);
    FT_Done_FreeType(library);
    printf("spindlebook " VERSION "%s\n", COMMIT);
    printf("with libharu %s, cmark %s, libyaml %s, FreeType %d.%d.%d, zlib %s\n",
           HPDF_GetVersion(), cmark_version_string(), yaml_get_version_string(), major, minor,
           patch, zlibVersion());
    printf("what it reads can open %s\n",
           ground_is_firm() ? "no other file" : "any file: this kernel does not confine it");
    return DONE;
}

/* ---- what is read where no option names it ---- */

/* PREFIX/share/spindlebook/NAME where the program is PREFIX/bin/spindlebook, as make install
 * lays them; NULL: it is not there. */
static const char *installed(struct arena *arena, const char *name)
{
    char place[PATH_MAX];
    if (!realpath("/proc/self/exe", place))
        return NULL;
    for (int i = 0; i < 2; i++) {
        char *slash = strrchr(place, '/');
        place[slash ? slash - place : 0] = '\0';
    }
    const char *path = arena_format(arena, "%s/share/spindlebook/%s", place, name);
    return file_is_there(path) ? path : NULL;
}

/* The user's own pages and templates before the installed ones; the settings and logs are the
 * user's own in any case. With the installed templates goes their engine. */
static void find_places(struct arena *arena, struct book_paths *paths, bool engine)
{
    const char **own = file_list(arena, paths->content, ".md");
    const char *pages = installed(arena, "content"), *templates = installed(arena, "templates");
    const char *shipped = pages ? pages : "content"; /* installed, or in the source tree */
    paths->pages = own && own[0] ? paths->content : shipped;
    if (paths->templates)
        return;
    bool use = templates && !file_is_there("templates/page.html");
    paths->templates = use ? templates : "templates";
    if (use && engine && !paths->bench)
        paths->bench = installed(arena, "bench.wasm");
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
    if (verb->answer)
        return run_answer(request, verb->answer);
    if (verb->bit == BEGIN)
        request->paths.content = question->word_count ? question->words[0] : "my-lathe";
    find_places(request->arena, &request->paths, verb->bit == BOOK);
    return verb->make(&request->paths);
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
    if (request->help) {
        print_help(request->arena);
        return DONE;
    }
    if (request->version)
        return print_version();
    if (request->help_as)
        return print_usage(request->arena, request->help_as);
    if (has_blank(request))
        return wrong_usage("the name of a file or a folder is blank", NULL);
    if (request->no_part)
        return wrong_usage("--only knows no part", request->no_part);
    if (!question->word_count)
        return wrong_usage("give a verb:",
                           verb_names(request->arena, EVERY_VERB, ", ", " or "));
    const char *name = *question->words++;
    question->word_count--;
    for (size_t i = 0; i < VERBS; i++)
        if (strcmp(verbs[i].name, name) == 0)
            return run_verb(&verbs[i], request);
    return wrong_usage("there is no verb", name);
}

int main(int count, char **words)
{
    ground_begin();
    struct request request = {.arena = arena_new(),
                              .paths = {.content = "content",
                                        .fonts = "/usr/share/fonts/truetype/dejavu",
                                        .out = "out"}};
    enum status status = run(count, words, &request);
    arena_free(request.arena);
    if (fflush(stdout) != 0 || ferror(stdout))
        fatal("the answer cannot be written; is the disk full?");
    return (int)status;
}
