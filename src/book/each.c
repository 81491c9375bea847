#include "book/each.h"

#include "base/file.h"
#include "base/outset.h"
#include "shop/settings.h"

#include <errno.h>
#include <sha256.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

/* What a set of outputs was made from, as one number: so that a run over many lathes
 * makes again only what changed. No clock is asked. */

/* With its length, so that no two lists of texts run together alike. */
static void add_bytes(SHA256_CTX *sum, const void *bytes, size_t length)
{
    char text[32];
    snprintf(text, sizeof text, "%zu:", length);
    SHA256Update(sum, (const uint8_t *)text, strlen(text));
    SHA256Update(sum, bytes, length);
}

static void add_text(SHA256_CTX *sum, const char *text)
{
    add_bytes(sum, text ? text : "", text ? strlen(text) : 0);
}

/* A file that cannot be read counts with the reason. */
static void add_file(SHA256_CTX *sum, const char *path, const char *name)
{
    struct arena *arena = arena_new();
    struct file_text file;
    add_text(sum, name);
    if (file_read_bytes(arena, path, &file))
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
        add_file(sum, arena_format(arena, "%s/%s", folder, names[i]), names[i]);
    arena_free(arena);
}

static const char *end_sum(struct arena *arena, SHA256_CTX *sum)
{
    char digest[SHA256_DIGEST_STRING_LENGTH];
    SHA256End(sum, digest);
    return arena_text(arena, digest);
}

/* Over what all lathes of a run share: the program's own file, the pages, templates and
 * engine, the options, SOURCE_DATE_EPOCH. Owned by the arena. */
static const char *book_inputs_shared(struct arena *arena, const struct book_paths *paths)
{
    SHA256_CTX sum;
    SHA256Init(&sum);
    add_file(&sum, "/proc/self/exe", "exe");
    add_folder(&sum, paths->content, ".md");
    add_folder(&sum, paths->templates, "");
    if (paths->bench)
        add_file(&sum, paths->bench, paths->bench);
    for (size_t i = 0; i < paths->replacement_count; i++)
        add_text(&sum, paths->replacements[i]);
    add_bytes(&sum, &paths->parts, sizeof paths->parts);
    add_text(&sum, getenv("SOURCE_DATE_EPOCH"));
    return end_sum(arena, &sum);
}

/* The same with that file of settings and its logs. Owned by the arena. */
static const char *book_inputs_digest(struct arena *arena, const char *shared,
                                      const char *settings)
{
    SHA256_CTX sum;
    SHA256Init(&sum);
    add_text(&sum, shared);
    add_file(&sum, settings, "settings");
    add_file(&sum, settings_log(arena, settings, PULL_LOG_NAME), PULL_LOG_NAME);
    add_file(&sum, settings_log(arena, settings, GAUGE_LOG_NAME), GAUGE_LOG_NAME);
    return end_sum(arena, &sum);
}

/* Is every file there that the set's own list names? */
static bool is_whole(struct arena *arena, const char *out)
{
    struct file_text list;
    if (!file_read_bytes(arena, arena_format(arena, "%s/" LIST_NAME, out), &list))
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
static bool book_inputs_made(const char *out, const char *digest)
{
    struct arena *arena = arena_new();
    struct file_text found;
    bool same = file_read_bytes(arena, arena_format(arena, "%s/" MADE_FROM, out), &found) &&
                strcmp(found.bytes, digest) == 0 && is_whole(arena, out);
    arena_free(arena);
    return same;
}

/* One run for many lathes: a folder with a folder or a file of settings for each. */

struct tally {
    size_t made, kept, faulty;
};

/* ---- how far it is, for one who waits ---- */

struct progress {
    bool shown;
    size_t count;
    double start;
};

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* Spaces stand over what a longer line left. */
static void show(const struct progress *progress, size_t done)
{
    double passed = seconds() - progress->start, rate = (double)done / passed;
    if (!progress->shown || done == 0 || passed <= 0)
        return;
    fprintf(stderr, "\r%zu of %zu lathes, %.1f a second, %.0f s left   ", done, progress->count,
            rate, (double)(progress->count - done) / rate);
}

static void clear(const struct progress *progress)
{
    if (progress->shown)
        fprintf(stderr, "\r%60s\r", "");
}

/* ---- the lathes ---- */

struct lathe_found {
    const char *name, *settings;
};

struct lathes {
    struct arena *arena;
    struct diags *diags;
    struct lathe_found *items;
    size_t count;
};

static bool is_folder(const char *path)
{
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

/* As for a page or a log: a folder from elsewhere must not pull others in. */
static bool stays_here(struct lathes *lathes, const char *path)
{
    if (!file_leads_out(lathes->arena, path))
        return true;
    fault(lathes->diags, (struct place){.file = path},
          "this link leads out of its folder; put what it leads to here itself");
    return false;
}

static void book_each_add_folder(struct lathes *lathes, const char *path, const char *name)
{
    if (stays_here(lathes, path))
        *ARENA_PUSH(lathes->arena, lathes->items, lathes->count) = (struct lathe_found){
            name, arena_format(lathes->arena, "%s/%s", path, SETTINGS_NAME)};
}

/* A lathe may have a file of settings alone; not beside a folder of that name. */
static void book_each_add_file(struct lathes *lathes, const char *path, const char *file)
{
    size_t length = strlen(file) - strlen(".yaml");
    const char *folder = arena_slice(lathes->arena, path, strlen(path) - strlen(".yaml"));
    if (is_folder(folder))
        fault(
            lathes->diags, (struct place){.file = path},
            "there is a folder of this name too, and both would be made into one; rename one");
    else if (stays_here(lathes, path))
        *ARENA_PUSH(lathes->arena, lathes->items, lathes->count) =
            (struct lathe_found){arena_slice(lathes->arena, file, length), path};
}

/* In byte order of the names in the folder. */
static void find_lathes(struct lathes *lathes, const char *folder)
{
    const char **names = file_list(lathes->arena, folder, "");
    if (!names)
        fault(lathes->diags, (struct place){.file = folder},
              "the folder of lathes cannot be read (%s); give the right one with --each",
              strerror(errno));
    for (size_t i = 0; names && names[i]; i++) {
        const char *path = arena_format(lathes->arena, "%s/%s", folder, names[i]);
        if (is_folder(path))
            book_each_add_folder(lathes, path, names[i]);
        else if (file_ends_in(names[i], ".yaml"))
            book_each_add_file(lathes, path, names[i]);
    }
    if (names && lathes->count == 0 && diags_count(lathes->diags) == 0)
        fault(lathes->diags, (struct place){.file = folder},
              "there is no lathe here; make a folder for each with its settings.yaml in it, or "
              "a file of settings such as bay-1.yaml");
}

static void make(const struct book_paths *paths, const struct progress *progress,
                 struct tally *tally)
{
    struct book book;
    book_make(&book, paths);
    if (diags_count(book.diags) == 0)
        tally->made++;
    else
        tally->faulty++;
    if (diags_count(book.diags) > 0)
        clear(progress);
    diags_print(book.diags, stderr);
    book_free(&book);
}

static void make_lathe(const struct book_paths *shared, const char *digest,
                       const struct lathe_found *lathe, const struct progress *progress,
                       struct tally *tally)
{
    struct arena *arena = arena_new();
    struct book_paths paths = *shared;
    paths.settings = lathe->settings;
    paths.out = arena_format(arena, "%s/%s", shared->out, lathe->name);
    paths.made_from = book_inputs_digest(arena, digest, lathe->settings);
    if (book_inputs_made(paths.out, paths.made_from))
        tally->kept++;
    else
        make(&paths, progress, tally);
    arena_free(arena);
}

enum status book_each(const struct book_paths *paths)
{
    struct lathes lathes = {.arena = arena_new()};
    struct tally tally = {0};
    lathes.diags = diags_new(lathes.arena);
    find_lathes(&lathes, paths->each);
    struct progress progress = {
        .shown = isatty(STDERR_FILENO), .count = lathes.count, .start = seconds()};
    const char *shared = book_inputs_shared(lathes.arena, paths);
    for (size_t i = 0; i < lathes.count; i++) {
        make_lathe(paths, shared, &lathes.items[i], &progress, &tally);
        show(&progress, i + 1);
    }
    clear(&progress);
    diags_print(lathes.diags, stderr);
    bool faults = diags_count(lathes.diags) > 0 || tally.faulty > 0;
    if (lathes.count)
        printf("%zu made, %zu as they were, %zu with faults\n", tally.made, tally.kept,
               tally.faulty);
    arena_free(lathes.arena);
    return faults ? FAULTS : DONE;
}
