#include "base/outset.h"

#include "base/fatal.h"
#include "base/leftover.h"
#include "base/strangers.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

struct outset {
    struct arena *arena;
    struct diags *diags;
    const char *asked;  /* the folder as the user named it */
    const char *folder; /* the same without links and dots */
    const char *fresh;  /* where the set is being written */
    int parent;         /* open, to take turns by its lock; -1 where it cannot be read */
    int handle;         /* of the fresh folder; locked, as a sign that this run is alive */
    int list;           /* of the list of files */
    const char **written;
    size_t count;
    const char **made; /* folders above the set's that were not there, outermost first */
    size_t made_count;
};

struct outset_file {
    struct outset *set;
    const char *path;
    int handle;
};

/* The set to remove when the program ends before it is whole. */
static struct outset *unfinished;

/* Makes use of no new memory: that may be what failed. */
static void remove_unfinished(void)
{
    if (!unfinished)
        return;
    for (size_t i = 0; i < unfinished->count; i++)
        strangers_unlink(unfinished->handle, unfinished->written[i]);
    unlinkat(unfinished->handle, LIST_NAME, 0);
    rmdir(unfinished->fresh);
    unfinished = NULL;
}

_Noreturn static void fail_to_write(const char *folder, const char *path)
{
    fatal("%s/%s cannot be written: %s; nothing was changed", folder, path, strerror(errno));
}

static void make_parents(struct outset *set, const char *path)
{
    for (const char *slash = strchr(path + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        const char *parent = arena_slice(set->arena, path, (size_t)(slash - path));
        if (mkdir(parent, 0777) == 0)
            *ARENA_PUSH(set->arena, set->made, set->made_count) = parent;
        else if (errno != EEXIST)
            fatal("the folder %s cannot be made: %s", parent, strerror(errno));
    }
}

/* The path without links or dots, so that a folder beside it can be named. The
 * folder itself need not be there. */
static const char *settle_path(struct outset *set, const char *asked)
{
    struct arena *arena = set->arena;
    char real[PATH_MAX];
    if (realpath(asked, real))
        return arena_text(arena, real);
    char *folder = arena_text(arena, asked);
    for (size_t end = strlen(folder); end > 1 && folder[end - 1] == '/'; end--)
        folder[end - 1] = '\0';
    make_parents(set, folder);
    char *slash = strrchr(folder, '/');
    const char *name = slash ? slash + 1 : folder;
    const char *parent = slash ? arena_slice(arena, folder, (size_t)(slash - folder) + 1) : ".";
    struct stat status;
    if (!realpath(parent, real) || !*name || lstat(folder, &status) == 0)
        fatal("the folder %s cannot be used: %s", asked, strerror(errno));
    return arena_format(arena, "%s/%s", strcmp(real, "/") == 0 ? "" : real, name);
}

static void take_turn(const struct outset *set)
{
    while (set->parent >= 0 && flock(set->parent, LOCK_EX) != 0 && errno == EINTR)
        ;
}

static void end_turn(const struct outset *set)
{
    if (set->parent >= 0)
        flock(set->parent, LOCK_UN);
}

static void open_fresh(struct outset *set)
{
    static bool registered;
    if (!registered && atexit(remove_unfinished) != 0)
        fatal_no_memory();
    registered = true;
    signal(SIGXFSZ, SIG_IGN); /* a file that may grow no further is a write that fails */
    if (mkdir(set->fresh, 0777) != 0)
        fatal("the folder %s cannot be made: %s", set->fresh, strerror(errno));
    set->handle = open(set->fresh, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    unfinished = set;
    if (set->handle < 0)
        fatal("the folder %s cannot be used: %s", set->fresh, strerror(errno));
    flock(set->handle, LOCK_EX | LOCK_NB);
    set->list = openat(set->handle, LIST_NAME, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (set->list < 0)
        fail_to_write(set->fresh, LIST_NAME);
}

bool outset_refuses(struct diags *diags, const char *folder)
{
    struct stat status;
    const char *wrong = NULL;
    if (stat(folder, &status) == 0)
        wrong = S_ISDIR(status.st_mode) ? NULL : "this is a file";
    else if (lstat(folder, &status) == 0)
        wrong = "this link leads to nothing";
    if (wrong)
        fault(diags, (struct place){.file = folder},
              "%s; give the folder for the outputs with --out", wrong);
    return wrong;
}

struct outset *outset_begin(struct arena *arena, struct diags *diags, const char *folder)
{
    struct outset *set = arena_get(arena, sizeof *set);
    *set = (struct outset){.arena = arena, .diags = diags, .asked = folder};
    if (outset_refuses(diags, folder))
        return NULL;
    set->folder = settle_path(set, folder);
    set->fresh = arena_format(arena, "%s%s%ld", set->folder, LEFTOVER_MARK, (long)getpid());
    const char *parent =
        arena_slice(arena, set->folder, (size_t)(strrchr(set->folder, '/') - set->folder) + 1);
    set->parent = open(parent, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    take_turn(set);
    leftovers_clear(arena, set->folder);
    open_fresh(set);
    end_turn(set);
    return set;
}

static void write_all(int handle, const struct outset *set, const char *path, const char *bytes,
                      size_t length)
{
    while (length > 0) {
        ssize_t done = write(handle, bytes, length);
        if (done < 0 && errno == EINTR)
            continue;
        if (done < 0)
            fail_to_write(set->fresh, path);
        bytes += done;
        length -= (size_t)done;
    }
}

/* The list names a file before the file is there, so that nothing is ever without
 * an owner. */
static const char *note_file(struct outset *set, const char *path)
{
    char *line = arena_format(set->arena, "%s\n", path);
    size_t length = strlen(line);
    write_all(set->list, set, LIST_NAME, line, length);
    line[length - 1] = '\0';
    *ARENA_PUSH(set->arena, set->written, set->count) = line;
    return line;
}

/* The folders of most files are there already. */
static int make_file(const struct outset *set, const char *path)
{
    const int flags = O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC;
    int handle = openat(set->handle, path, flags, 0666);
    if (handle < 0 && errno == ENOENT && strangers_make_parents(set->handle, path))
        handle = openat(set->handle, path, flags, 0666);
    if (handle < 0)
        fail_to_write(set->fresh, path);
    return handle;
}

static void take_bytes(void *with, const void *bytes, size_t length)
{
    const struct outset_file *file = with;
    write_all(file->handle, file->set, file->path, bytes, length);
}

struct sink outset_open(struct outset *set, const char *path)
{
    struct outset_file *file = heap_get(sizeof *file);
    *file = (struct outset_file){.set = set, .path = note_file(set, path)};
    file->handle = make_file(set, path);
    return (struct sink){take_bytes, file};
}

void outset_close(struct sink sink)
{
    struct outset_file *file = sink.with;
    if (close(file->handle) != 0)
        fail_to_write(file->set->fresh, file->path);
    free(file);
}

void outset_write(struct outset *set, const char *path, const void *bytes, size_t length)
{
    struct sink sink = outset_open(set, path);
    sink.take(sink.with, bytes, length);
    outset_close(sink);
}

static const char *hint(int error)
{
    return error == EBUSY || error == EXDEV ? "; give --out a folder further in" : "";
}

_Noreturn static void fail_to_put(const struct outset *set, int error)
{
    fatal("the new outputs cannot be put at %s: %s; nothing was changed%s", set->folder,
          strerror(error), hint(error));
}

/* All is made as before. Where that fails too the fresh folder stays for the next run, which
 * knows it by its list. */
_Noreturn static void undo(const struct outset *set, int old, struct strangers *found)
{
    int error = errno;
    const char *stuck = found->moved < found->move_count ? found->moves[found->moved] : NULL;
    fchmod(set->handle, S_IRWXU); /* the old one's rights may be less */
    if (!strangers_move_back(old, set->handle, found)) {
        unfinished = NULL;
        fatal("the new outputs cannot be put at %s: %s; some of your own files are now in %s: "
              "the next run puts them back",
              set->folder, strerror(error), set->fresh);
    }
    if (stuck)
        fatal("%s/%s cannot be moved into the new outputs: %s; nothing was changed%s",
              set->folder, stuck, strerror(error), hint(error));
    fail_to_put(set, error);
}

/* Puts the new set in the old one's place; gives where the old one is then, or NULL with
 * errno set. Where the file system cannot exchange two folders, the old one steps aside
 * first; there is then a moment without outputs, but never a mix. */
static const char *swap(const struct outset *set, const char *aside)
{
    if (renameat2(AT_FDCWD, set->fresh, AT_FDCWD, set->folder, RENAME_EXCHANGE) == 0)
        return set->fresh;
    if (rename(set->folder, aside) != 0)
        return NULL;
    if (rename(set->fresh, set->folder) == 0)
        return aside;
    int error = errno;
    if (rename(aside, set->folder) != 0) {
        unfinished = NULL;
        fatal("the new outputs cannot be put at %s: %s; the next run puts back the old ones, "
              "which are now in %s",
              set->folder, strerror(error), aside);
    }
    errno = error;
    return NULL;
}

static bool refuse_taken(const struct outset *set, const struct strangers *found)
{
    size_t others = found->taken_count - 1;
    if (found->taken_count == 0 || found->unseen)
        return false;
    struct place at = {.file = arena_format(set->arena, "%s/%s", set->asked, found->taken[0])};
    if (others)
        fault(set->diags, at,
              "this and %zu other%s here were not made by an earlier run, and would be lost; "
              "move them away, or give another folder with --out",
              others, others == 1 ? "" : "s");
    else
        fault(set->diags, at,
              "this was not made by an earlier run, and would be lost; move it away, or give "
              "another folder with --out");
    return true;
}

static bool refuse_stuck(const struct outset *set, const struct strangers *found)
{
    for (size_t i = 0; i < found->stuck_count; i++) {
        const char *path = hindrance_path(set->arena, set->asked, &found->stuck[i]);
        fault(set->diags, (struct place){.file = path}, "%s", found->stuck[i].words);
    }
    return found->stuck_count;
}

/* Everything that may want memory is done before the first move. */
static void replace(const struct outset *set, int old)
{
    struct stat status;
    struct strangers found;
    const char *aside = arena_format(set->arena, "%s%s", set->fresh, LEFTOVER_ASIDE);
    strangers_find(set->arena, old, set->handle, set->folder, &found);
    if (refuse_stuck(set, &found) | refuse_taken(set, &found)) {
        remove_unfinished();
        return;
    }
    if (!strangers_move(old, set->handle, &found))
        undo(set, old, &found);
    if (fstat(old, &status) == 0)
        fchmod(set->handle, status.st_mode & 07777);
    const char *where = swap(set, aside);
    if (!where)
        undo(set, old, &found);
    unfinished = NULL;
    strangers_leave(old, &found);
    if (rmdir(where) != 0) /* something came into it meanwhile */
        leftovers_clear(set->arena, set->folder);
}

/* All of it is on the disk before it takes the old set's place: a power cut leaves one or
 * the other. One call for the file system takes a tenth of the time of one for each file. */
static void settle_on_disk(const struct outset *set)
{
    if (syncfs(set->handle) != 0 && errno != ENOSYS)
        fatal("the new outputs cannot be brought onto the disk: %s; nothing was changed",
              strerror(errno));
}

static void close_handles(const struct outset *set)
{
    close(set->handle);
    if (set->parent >= 0)
        close(set->parent);
}

void outset_commit(struct outset *set)
{
    if (close(set->list) != 0)
        fail_to_write(set->fresh, LIST_NAME);
    settle_on_disk(set);
    take_turn(set);
    int old = open(set->folder, O_PATH | O_DIRECTORY | O_CLOEXEC);
    if (old >= 0) {
        replace(set, old);
        close(old);
    } else if (errno == ENOENT && rename(set->fresh, set->folder) == 0) {
        unfinished = NULL;
    } else {
        fail_to_put(set, errno);
    }
    end_turn(set);
    close_handles(set);
}

void outset_abandon(struct outset *set)
{
    remove_unfinished();
    close(set->list);
    close_handles(set);
    for (size_t i = set->made_count; i-- > 0;)
        rmdir(set->made[i]);
}
