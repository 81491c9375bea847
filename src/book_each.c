#include "book_each.h"
#include "book_inputs.h"

#include "base/file.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

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

static bool is_folder(const char *path)
{
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

/* As for a page or a log: a folder from elsewhere must not pull others in. */
static bool stays_here(struct arena *arena, struct diags *diags, const char *path)
{
    if (!file_leads_out(arena, path))
        return true;
    fault(diags, (struct place){.file = path},
          "this link leads out of its folder; put the lathe's folder itself here");
    return false;
}

/* The names of the folders in a folder, in byte order; *count of them. */
static const char **find_lathes(struct arena *arena, struct diags *diags, const char *folder,
                                size_t *count)
{
    const char **names = file_list(arena, folder, ""), **lathes = NULL;
    if (!names)
        fault(diags, (struct place){.file = folder},
              "the folder of lathes cannot be read (%s); give the right one with --each",
              strerror(errno));
    for (size_t i = 0; names && names[i]; i++)
        if (is_folder(arena_format(arena, "%s/%s", folder, names[i])) &&
            stays_here(arena, diags, arena_format(arena, "%s/%s", folder, names[i])))
            *ARENA_PUSH(arena, lathes, *count) = names[i];
    if (names && *count == 0 && diags_count(diags) == 0)
        fault(diags, (struct place){.file = folder},
              "there is no lathe here; make a folder for each, and its settings.yaml in it");
    return lathes;
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

static void make_lathe(const struct book_paths *shared, const char *digest, const char *name,
                       const struct progress *progress, struct tally *tally)
{
    struct arena *arena = arena_new();
    struct book_paths paths = *shared;
    const char *folder = arena_format(arena, "%s/%s", shared->each, name);
    paths.settings = arena_format(arena, "%s/settings.yaml", folder);
    paths.out = arena_format(arena, "%s/%s", shared->out, name);
    paths.made_from = book_inputs_digest(arena, digest, folder);
    if (book_inputs_made(paths.out, paths.made_from))
        tally->kept++;
    else
        make(&paths, progress, tally);
    arena_free(arena);
}

enum status book_each(const struct book_paths *paths)
{
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct tally tally = {0};
    struct progress progress = {.shown = isatty(STDERR_FILENO), .start = seconds()};
    const char **lathes = find_lathes(arena, diags, paths->each, &progress.count);
    const char *shared = book_inputs_shared(arena, paths);
    for (size_t i = 0; i < progress.count; i++) {
        make_lathe(paths, shared, lathes[i], &progress, &tally);
        show(&progress, i + 1);
    }
    clear(&progress);
    diags_print(diags, stderr);
    bool faults = diags_count(diags) > 0 || tally.faulty > 0;
    if (diags_count(diags) == 0)
        printf("%zu made, %zu as they were, %zu with faults\n", tally.made, tally.kept,
               tally.faulty);
    arena_free(arena);
    return faults ? FAULTS : DONE;
}
