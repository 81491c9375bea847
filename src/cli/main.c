/* Arguments and exit status only. */
#include "base/fatal.h"
#include "cli/verbs.h"

#include <getopt.h>
#include <stdio.h>
#include <string.h>

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
    "  --lock WHEN         the drag was measured before or after locking the nut\n"
    "  --warmth HOW        the spindle was cold or warm; without it as the limits ask\n"
    "  --direction WAY     it was turned the usual or the other way; without it the usual\n"
    "  --lock-added DRAG   what locking adds; without it the log's last, if it knows one\n"
    "  --lines             name, value and unit with tabs between them, for programs\n"
    "  --out FOLDER        where the outputs go (out)\n"
    "  --only PART         make this alone: site, single, tables, booklet, fold, forms,\n"
    "                      card or aids; may be given several times\n"
    "  --each FOLDER       make it for every lathe: each has a folder in FOLDER with its\n"
    "                      settings.yaml and logs, or a file of settings such as bay-1.yaml,\n"
    "                      and gets a folder in that of --out\n"
    "  --content FOLDER    pages and settings.yaml (content)\n"
    "  --templates FOLDER  page.html, style.css and others (templates)\n"
    "  --bench FILE        the engine of the bench page; without it no such page is made\n"
    "  --fonts FOLDER      the DejaVu fonts (/usr/share/fonts/truetype/dejavu)\n"
    "  --help              this text\n"
    "\n"
    "Exit status: 0 done, 1 faults in the input, 2 wrong usage, 3 the machine failed.\n";

/* A number below zero is no option: its sign becomes the one that is printed. What stands
 * behind an option is its value. */
static void mark_numbers(struct arena *arena, int count, char **words)
{
    for (int i = 1; i < count; i++)
        if (words[i][0] == '-' && words[i][1] && strchr(".0123456789", words[i][1]) &&
            strncmp(words[i - 1], "--", 2) != 0)
            words[i] = arena_format(arena, "\u2212%s", words[i] + 1);
}

/* What is asked: speed, lock, warmth, direction, lock-added. Of a folder that is named twice
 * the later one counts. */
static bool is_of_the_question(int letter)
{
    return strchr("vkwia", letter);
}

static void note_option(struct request *request, int letter, const char *name)
{
    for (size_t i = 0; i < request->option_count && is_of_the_question(letter); i++)
        if (request->options[i] == name)
            request->twice = name;
    request->options[request->option_count++] = name;
}

/* Takes the options; false for one that is not known or lacks its value. */
static bool read_options(int count, char **words, struct request *request)
{
    static const struct option names[] = {{"set", required_argument, NULL, 's'},
                                          {"out", required_argument, NULL, 'o'},
                                          {"content", required_argument, NULL, 'c'},
                                          {"templates", required_argument, NULL, 't'},
                                          {"fonts", required_argument, NULL, 'f'},
                                          {"drum", required_argument, NULL, 'd'},
                                          {"speed", required_argument, NULL, 'v'},
                                          {"lock", required_argument, NULL, 'k'},
                                          {"warmth", required_argument, NULL, 'w'},
                                          {"direction", required_argument, NULL, 'i'},
                                          {"lock-added", required_argument, NULL, 'a'},
                                          {"bench", required_argument, NULL, 'b'},
                                          {"only", required_argument, NULL, 'p'},
                                          {"each", required_argument, NULL, 'e'},
                                          {"lines", no_argument, NULL, 'l'},
                                          {"help", no_argument, NULL, 'h'},
                                          {NULL, 0, NULL, 0}};
    struct book_paths *paths = &request->paths;
    int which = 0;
    for (int letter; (letter = getopt_long(count, words, "", names, &which)) != -1;) {
        if (letter != '?')
            note_option(request, letter, names[which].name);
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
        case 'k':
            request->lock = optarg;
            break;
        case 'w':
            request->warmth = optarg;
            break;
        case 'i':
            request->direction = optarg;
            break;
        case 'a':
            request->lock_added = optarg;
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
        case 'p':
            paths->parts |= book_part_named(optarg);
            if (!book_part_named(optarg))
                request->no_part = optarg;
            break;
        case 'e':
            paths->each = optarg;
            break;
        case 'h':
            request->help = true;
            break;
        default:
            return false;
        }
    }
    return true;
}

static bool has_blank(const struct book_paths *paths)
{
    return !paths->content[0] || !paths->templates[0] || !paths->fonts[0] || !paths->out[0] ||
           (paths->bench && !paths->bench[0]) || (paths->each && !paths->each[0]);
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
    request.options = arena_get(request.arena, ((size_t)count + 1) * sizeof *request.options);
    enum status status;
    mark_numbers(request.arena, count, words);
    if (!read_options(count, words, &request))
        status = verb_wrong_usage("the options are wrong", NULL);
    else if (request.twice)
        status = verb_wrong_usage(
            arena_format(request.arena, "--%s is given twice", request.twice), NULL);
    else if (request.help)
        status = fputs(usage, stdout) < 0 ? MACHINE_FAILED : DONE;
    else if (has_blank(&request.paths))
        status = verb_wrong_usage("the name of a file or a folder is blank", NULL);
    else if (request.no_part)
        status = verb_wrong_usage("--only knows no part", request.no_part);
    else if (optind >= count)
        status = verb_wrong_usage("give a verb: book, check, pull, window, gauge or nut", NULL);
    else {
        request.words = (const char *const *)words + optind + 1;
        request.word_count = (size_t)(count - optind - 1);
        status = verb_run(words[optind], &request);
    }
    arena_free(request.arena);
    if (fflush(stdout) != 0 || ferror(stdout))
        fatal("the answer cannot be written; is the disk full?");
    return (int)status;
}
