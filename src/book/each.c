/* One run for many lathes: a folder with a folder or a file of settings for each. What a set of
 * outputs was made from stands in it as one number, so that a further run makes again only what
 * changed. No clock is asked. */
#include "book/book.h"

#include "base/file.h"
#include "base/outset.h"
#include "base/utf8.h"
#include "judge/results.h"
#include "report/remarks.h"
#include "report/words.h"
#include "shop/logs.h"
#include "shop/settings.h"
#include "shop/stored.h"

#include <errno.h>
#include <sha256.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

/* ---- what a set was made from ---- */

/* With its length, so that no two lists of texts run together alike. */
static void add_bytes(SHA256_CTX *sum, const void *bytes, size_t length)
{
    char text[32]; /* a size_t has at most 20 digits */
    snprintf(text, sizeof text, "%zu:", length);
    SHA256Update(sum, (const uint8_t *)text, strlen(text));
    SHA256Update(sum, bytes, length);
}

static void add_text(SHA256_CTX *sum, const char *text)
{
    add_bytes(sum, text ? text : "", text ? strlen(text) : 0);
}

/* A file that cannot be read counts with the reason. */
static void add_file(SHA256_CTX *sum, const char *path, const char *name, size_t most)
{
    struct arena *arena = arena_new();
    struct file_text file;
    add_text(sum, name);
    if (file_read_bytes(arena, path, most, &file))
        add_bytes(sum, file.bytes, file.length);
    else
        add_text(sum, strerror(errno));
    arena_free(arena);
}

static void add_folder(SHA256_CTX *sum, const char *folder, const char *suffix)
{
    struct arena *arena = arena_new();
    const char **names = file_list(arena, folder, suffix);
    for (size_t i = 0; names && names[i]; i++)
        add_file(sum, arena_format(arena, "%s/%s", folder, names[i]), names[i], FILE_LARGEST);
    arena_free(arena);
}

static const char *end_sum(struct arena *arena, SHA256_CTX *sum)
{
    char digest[SHA256_DIGEST_STRING_LENGTH];
    SHA256End(sum, digest);
    return arena_text(arena, digest);
}

/* Over what all lathes of a run share: the program's own file, the pages, templates and
 * engine, the options, SOURCE_DATE_EPOCH. */
static const char *digest_of_shared(struct arena *arena, const struct book_paths *paths)
{
    SHA256_CTX sum;
    SHA256Init(&sum);
    add_file(&sum, "/proc/self/exe", "exe", SIZE_MAX);
    add_folder(&sum, paths->pages, ".md");
    add_folder(&sum, paths->templates, "");
    if (paths->bench)
        add_file(&sum, paths->bench, paths->bench, FILE_LARGEST);
    for (size_t i = 0; i < paths->replacement_count; i++)
        add_text(&sum, paths->replacements[i]);
    add_bytes(&sum, &paths->parts, sizeof paths->parts);
    add_text(&sum, getenv("SOURCE_DATE_EPOCH"));
    return end_sum(arena, &sum);
}

/* The same with that file of settings and its logs. */
static const char *digest_of_lathe(struct arena *arena, const char *shared,
                                   const char *settings)
{
    SHA256_CTX sum;
    SHA256Init(&sum);
    add_text(&sum, shared);
    const char *const logs[] = {PULL_LOG_NAME, GAUGE_LOG_NAME};
    add_file(&sum, settings, "settings", FILE_LARGEST);
    for (const char **name = settings_earlier(arena, settings); name && *name; name++)
        add_file(&sum, *name, *name, FILE_LARGEST);
    for (const struct settings_register *one = settings_registers; one->section; one++) {
        const char *slash = strrchr(settings, '/');
        int folder = slash ? (int)(slash - settings + 1) : 0;
        for (int above = 0; above < 2; above++)
            add_file(&sum,
                     arena_format(arena, "%.*s%s%s", folder, settings, above ? "../" : "",
                                  one->file),
                     one->file, FILE_LARGEST);
    }
    for (size_t i = 0; i < sizeof logs / sizeof logs[0]; i++)
        add_file(&sum, settings_log(arena, settings, logs[i]), logs[i], LOG_LARGEST);
    add_folder(&sum, settings_log(arena, settings, RECORDS_NAME), ".yaml");
    return end_sum(arena, &sum);
}

/* Is every file there that the set's own list names? */
static bool is_whole(struct arena *arena, const char *out)
{
    struct file_text list;
    if (!file_read_bytes(arena, arena_format(arena, "%s/" LIST_NAME, out), LIST_LARGEST, &list))
        return false;
    for (const char *line = list.bytes; *line;) {
        size_t length = strcspn(line, "\n");
        if (access(arena_format(arena, "%s/%.*s", out, (int)length, line), F_OK) != 0)
            return false;
        line += length + (line[length] == '\n');
    }
    return true;
}

/* Were the outputs in that folder made from these inputs, and are they all there? */
static bool is_made(struct arena *arena, const char *out, const char *digest)
{
    struct file_text found;
    return file_read_bytes(arena, arena_format(arena, "%s/" MADE_FROM, out), FILE_LARGEST,
                           &found) &&
           strcmp(found.bytes, digest) == 0 && is_whole(arena, out);
}

/* ---- the lathes ---- */

struct lathe_files {
    const char *name, *settings;
};

struct run {
    struct arena *arena;
    struct diags *diags; /* of the folder of lathes; each book has its own */
    struct lathe_files *lathes;
    size_t count;
    size_t made, kept, faulty;
    bool shown; /* how far it is, for one who waits */
    double start;
};

static bool is_folder(const char *path)
{
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

/* What lathes share, and settings of before, are no lathes. */
static bool is_lathe_file(const char *name)
{
    for (const struct settings_register *one = settings_registers; one->section; one++)
        if (strcmp(one->file, name) == 0)
            return false;
    return file_ends_in(name, ".yaml") && !strstr(name, EARLIER_SETTINGS);
}

/* A folder with settings in it, or a file of settings alone, but not both of one name. A link
 * is looked at as for a page or a log: a folder from elsewhere must not pull others in. */
static void add_lathe(struct run *run, const char *path, const char *name)
{
    const char *wrong = NULL, *settings = path;
    enum { LONGEST_NAME = 200 }; /* bytes: the folder in the making has a longer one */
    if (is_folder(path) && file_ends_in(name, "-" RECORDS_NAME)) {
        return; /* of the lathe whose settings are a file beside it */
    } else if (is_folder(path)) {
        settings = arena_format(run->arena, "%s/%s", path, SETTINGS_NAME);
    } else if (is_lathe_file(name)) {
        name = arena_slice(run->arena, name, strlen(name) - strlen(".yaml"));
        if (is_folder(arena_slice(run->arena, path, strlen(path) - strlen(".yaml"))))
            wrong = "there is a folder of this name too, and both would be made into one; "
                    "rename one";
    } else {
        return;
    }
    if (strlen(name) > LONGEST_NAME)
        wrong =
            "this name is too long for a folder of outputs; give it a shorter one, as bay-1";
    if (!wrong && file_leads_out(run->arena, path))
        wrong = "this link leads out of its folder; put what it leads to here itself";
    if (wrong)
        fault(run->diags, (struct place){.file = path}, "%s", wrong);
    else
        *ARENA_PUSH(run->arena, run->lathes, run->count) = (struct lathe_files){name, settings};
}

/* In byte order of the names in the folder. */
static void find_lathes(struct run *run, const char *folder)
{
    struct place at = {.file = folder};
    const char **names = file_list(run->arena, folder, "");
    if (!names)
        fault(run->diags, at,
              "the folder of lathes cannot be read (%s); give the right one with --each",
              strerror(errno));
    for (size_t i = 0; names && names[i]; i++)
        add_lathe(run, arena_format(run->arena, "%s/%s", folder, names[i]), names[i]);
    if (names && run->count == 0 && diags_count(run->diags) == 0)
        fault(run->diags, at,
              "there is no lathe here; make a folder for each with its settings.yaml in it, or "
              "a file of settings such as bay-1.yaml");
}

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* Spaces stand over what a longer line left. */
static void show(const struct run *run, size_t done)
{
    double passed = seconds() - run->start, rate = (double)done / passed;
    if (run->shown && passed > 0)
        fprintf(stderr, "\r%zu of %zu lathes, %.1f a second, %.0f s left   ", done, run->count,
                rate, (double)(run->count - done) / rate);
}

static void clear(const struct run *run)
{
    if (run->shown)
        fprintf(stderr, "\r%60s\r", "");
}

static void make_lathe(struct run *run, const struct book_paths *shared, const char *digest,
                       const struct lathe_files *lathe)
{
    struct book book;
    struct arena *arena = arena_new();
    struct book_paths paths = *shared;
    paths.settings = lathe->settings;
    paths.out = arena_format(arena, "%s/%s", shared->out, lathe->name);
    paths.made_from = digest_of_lathe(arena, digest, lathe->settings);
    if (is_made(arena, paths.out, paths.made_from)) {
        run->kept++;
    } else {
        book_make(&book, &paths);
        if (diags_count(book.diags) == 0) {
            run->made++;
        } else {
            run->faulty++;
            clear(run);
        }
        if (diags_count(book.diags) == 0) {
            struct rows remarks = {.arena = book.arena};
            remark_on_all(&remarks, book.results);
            clear(run);
            remarks_print(&remarks, arena_format(arena, "%s: ", lathe->name));
        }
        diags_print(book.diags, stderr);
        book_free(&book);
    }
    arena_free(arena);
}

enum status book_each(const struct book_paths *paths)
{
    struct run run = {.arena = arena_new(), .shown = isatty(STDERR_FILENO), .start = seconds()};
    run.diags = diags_new(run.arena);
    find_lathes(&run, paths->each);
    const char *digest = digest_of_shared(run.arena, paths);
    for (size_t i = 0; i < run.count; i++) {
        make_lathe(&run, paths, digest, &run.lathes[i]);
        show(&run, i + 1);
    }
    clear(&run);
    diags_print(run.diags, stderr);
    bool faults = diags_count(run.diags) > 0 || run.faulty > 0;
    if (run.count)
        printf("%zu made, %zu as they were, %zu with faults\n", run.made, run.kept, run.faulty);
    arena_free(run.arena);
    return faults ? FAULTS : DONE;
}

/* ---- all lathes at a glance ---- */

/* A line of the overview, its texts owned by the run's arena. */
enum { OVERVIEW = 7 };

static const char *const overview_heads[OVERVIEW] = {
    "lathe", "settings", "verdict", "last job", "next check", "gauge checked", "remarks"};

struct overview {
    const char *cells[OVERVIEW];
};

static void fill_overview(struct arena *arena, const struct results *results, size_t remarks,
                          struct overview *line)
{
    const struct shop *shop = results->shop;
    const struct job *job = &results->last_job;
    const struct pull_series *last = job->since ? job->since : job->left;
    const struct weighing *weighed = shop_last_weighing(shop);
    line->cells[1] = arena_text(arena, shop->fingerprint);
    line->cells[2] =
        last ? state_text(results_row(results, last)->judgement.state) : "no job is closed";
    line->cells[3] = arena_text(arena, last ? last->date : "none");
    line->cells[4] = next_check_words(arena, results);
    line->cells[5] = arena_text(arena, weighed ? weighed->date : "never");
    line->cells[6] = arena_format(arena, "%zu", remarks);
}

static void check_lathe(struct run *run, const struct book_paths *paths,
                        const struct lathe_files *lathe, struct overview *line)
{
    struct shop shop;
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    *line = (struct overview){{lathe->name, "", "faults: see above", "", "", "", ""}};
    settings_read(arena, diags, lathe->settings, paths->replacements, paths->replacement_count,
                  &shop);
    if (diags_count(diags) == 0) {
        struct rows rows = {.arena = arena};
        const struct results *results = results_of(arena, &shop);
        remark_on_all(&rows, results);
        size_t remarks = 0;
        for (size_t i = 0; i < rows.count; i++)
            remarks += strcmp(rows.items[i].name, "remark") == 0;
        remarks_print(&rows, arena_format(arena, "%s: ", lathe->name));
        fill_overview(run->arena, results, remarks, line);
    } else {
        run->faulty++;
    }
    diags_print(diags, stderr);
    arena_free(arena);
}

static void print_overview(const struct overview *lines, size_t count)
{
    size_t widths[OVERVIEW];
    for (size_t column = 0; column < OVERVIEW; column++) {
        widths[column] = strlen(overview_heads[column]);
        for (size_t i = 0; i < count; i++) {
            const char *text = lines[i].cells[column];
            size_t width = utf8_count(text, strlen(text));
            widths[column] = width > widths[column] ? width : widths[column];
        }
    }
    for (size_t i = 0; i <= count; i++)
        for (size_t column = 0; column < OVERVIEW; column++) {
            const char *text = i ? lines[i - 1].cells[column] : overview_heads[column];
            size_t blank = widths[column] - utf8_count(text, strlen(text)) + 2;
            bool last = column + 1 == OVERVIEW;
            printf("%s%*s%s", text, last ? 0 : (int)blank, "", last ? "\n" : "");
        }
}

enum status check_each(const struct book_paths *paths)
{
    struct run run = {.arena = arena_new()};
    run.diags = diags_new(run.arena);
    find_lathes(&run, paths->each);
    struct overview *lines = arena_get(run.arena, (run.count + 1) * sizeof *lines);
    for (size_t i = 0; i < run.count; i++)
        check_lathe(&run, paths, &run.lathes[i], &lines[i]);
    if (run.count)
        print_overview(lines, run.count);
    diags_print(run.diags, stderr);
    bool faults = diags_count(run.diags) > 0 || run.faulty > 0;
    arena_free(run.arena);
    return faults ? FAULTS : DONE;
}
