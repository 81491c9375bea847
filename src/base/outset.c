#include "base/outset.h"

#include "base/fatal.h"
#include "base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define LEFTOVER_MARK  ".spindlebook-" /* NAME.spindlebook-PID: a set in the making */
#define LEFTOVER_ASIDE ".old"          /* behind it: a set that stepped aside */

/* ---- Whose is what in a folder of outputs ----
 *
 * Its list names the files of the set; all other things are the user's own. Folders are given
 * as open handles, paths relative to them. Links are never followed, and the list's paths only
 * count where a walk of the folder meets them. */

/* Something that this process may neither move nor remove. */
struct hindrance {
    const char *path;  /* "." for the folder itself */
    const char *words; /* why, and what the user can do */
};

/* What was found in a folder of outputs. */
struct survey {
    const char **own;   /* files and folders of the set that are there, innermost first */
    const char **moves; /* the user's: files, or whole folders without anything of the set */
    const char **taken; /* the user's, in whose place the other folder has something else */
    struct hindrance *stuck; /* of them all; of what is in a folder that is stuck, nothing */
    size_t own_count, move_count, taken_count, stuck_count;
    size_t moved; /* how many of the moves are done */
    bool unseen;  /* a folder that is stuck could not be looked into */
};

struct search {
    struct arena *arena;
    const char *folder; /* for messages */
    int from, to;
    const char **listed; /* in byte order */
    size_t listed_count;
    struct survey *found;
    bool shut; /* the folder that is walked through is stuck, or one around it */
};

static bool look(int folder, const char *path, struct statx *status)
{
    const int flags = AT_SYMLINK_NOFOLLOW | AT_NO_AUTOMOUNT | AT_EMPTY_PATH;
    return statx(folder, path, flags, STATX_BASIC_STATS, status) == 0;
}

/* What a stuck folder does not show is no failure: that it is stuck is told. */
static void fail_to_see(struct search *search, const char *path)
{
    if (!search->shut)
        fatal("%s/%s cannot be read: %s; nothing was changed", search->folder, path,
              strerror(errno));
    search->found->unseen = true;
}

static void read_list(struct search *search)
{
    struct file_text text;
    struct statx status;
    const char *name = arena_format(search->arena, "%s/%s", search->folder, LIST_NAME);
    if (!look(search->from, LIST_NAME, &status) && errno == ENOENT)
        return;
    if (!file_read_bytes(search->arena, name, &text))
        return fail_to_see(search, LIST_NAME);
    for (const char *line = text.bytes; *line;) {
        size_t length = strcspn(line, "\n");
        *ARENA_PUSH(search->arena, search->listed, search->listed_count) =
            arena_slice(search->arena, line, length);
        line += length + (line[length] == '\n');
    }
    if (search->listed_count)
        qsort(search->listed, search->listed_count, sizeof *search->listed, file_order);
}

static bool is_listed(const struct search *search, const char *path)
{
    return strcmp(path, LIST_NAME) == 0 ||
           (search->listed_count &&
            bsearch(&path, search->listed, search->listed_count, sizeof path, file_order));
}

/* The order of the start of a path and of a whole one. */
static int by_start(const void *start, const void *listed)
{
    return strncmp(start, *(const char *const *)listed, strlen(start));
}

static bool holds_listed(const struct search *search, const char *path)
{
    const char *within = arena_format(search->arena, "%s/", path);
    return search->listed_count && bsearch(within, search->listed, search->listed_count,
                                           sizeof *search->listed, by_start);
}

#define OR_ELSEWHERE ", or give another folder with --out"

/* Why the system will not have a thing moved out of its folder, or removed; NULL where it
 * will. access: what must be allowed in it where it is a folder itself, else 0. The rules are
 * those of rename(2), unlink(2) and chattr(1). */
static const char *hindrance(const struct search *search, const char *path,
                             const struct statx *here, const struct statx *parent, int access)
{
    uid_t me = geteuid();
    bool sticky =
        (parent->stx_mode & S_ISVTX) && me != 0 && me != here->stx_uid && me != parent->stx_uid;
    if (here->stx_attributes & STATX_ATTR_MOUNT_ROOT)
        return strcmp(path, ".") == 0
                   ? "something is mounted here; give --out a folder further in"
                   : "something is mounted here; unmount it" OR_ELSEWHERE;
    if (here->stx_attributes & (STATX_ATTR_IMMUTABLE | STATX_ATTR_APPEND))
        return "this is marked as not to be changed; take the mark off with chattr "
               "-ia" OR_ELSEWHERE;
    if (!sticky && (!access || faccessat(search->from, path, access, AT_EACCESS) == 0))
        return NULL;
    if (!sticky && errno != EACCES)
        return arena_format(search->arena, "%s; give another folder with --out",
                            strerror(errno));
    if (here->stx_uid == me)
        return "you may not write in this folder; allow it with chmod u+rwx" OR_ELSEWHERE;
    return arena_format(
        search->arena,
        "this belongs to %s, and you may not change it; make it yours with chown "
        "-R" OR_ELSEWHERE,
        here->stx_uid == 0 ? "root"
                           : arena_format(search->arena, "user %u", (unsigned)here->stx_uid));
}

static bool note_hindrance(struct search *search, const char *path, const struct statx *here,
                           const struct statx *parent, int access)
{
    struct survey *found = search->found;
    const char *words = search->shut ? NULL : hindrance(search, path, here, parent, access);
    if (words)
        *ARENA_PUSH(search->arena, found->stuck, found->stuck_count) =
            (struct hindrance){path, words};
    return words;
}

enum { TO_WALK = R_OK | W_OK | X_OK, TO_MOVE = W_OK };

static void walk(struct search *search, const char *path, const struct statx *here);

static void sort_entry(struct search *search, const char *path, const struct statx *parent)
{
    struct survey *found = search->found;
    struct statx here, there;
    if (!look(search->from, path, &here)) {
        if (errno != ENOENT)
            fail_to_see(search, path);
        return;
    }
    bool taken = look(search->to, path, &there), folder = S_ISDIR(here.stx_mode);
    if (folder && (taken ? S_ISDIR(there.stx_mode) : holds_listed(search, path))) {
        bool stuck = note_hindrance(search, path, &here, parent, TO_WALK);
        search->shut |= stuck;
        walk(search, path, &here);
        search->shut &= !stuck;
        *ARENA_PUSH(search->arena, found->own, found->own_count) = path;
        return;
    }
    if (!folder && is_listed(search, path))
        *ARENA_PUSH(search->arena, found->own, found->own_count) = path;
    else if (taken)
        *ARENA_PUSH(search->arena, found->taken, found->taken_count) = path;
    else
        *ARENA_PUSH(search->arena, found->moves, found->move_count) = path;
    note_hindrance(search, path, &here, parent, folder ? TO_MOVE : 0);
}

/* Only as deep as the set's own folders, or as far as two folders are alike. */
static void walk(struct search *search, const char *path, const struct statx *here)
{
    const char **names =
        file_names(search->arena,
                   openat(search->from, path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
    if (!names)
        fail_to_see(search, path);
    for (size_t i = 0; names && names[i]; i++)
        sort_entry(search,
                   strcmp(path, ".") == 0
                       ? names[i]
                       : arena_format(search->arena, "%s/%s", path, names[i]),
                   here);
}

/* Looks through the folder `from`, whose path is given for messages; `to` (or -1)
 * is where the user's files are to go. What cannot be looked at ends the program. */
static void look_through(struct arena *arena, int from, int to, const char *path,
                         struct survey *found)
{
    struct search search = {
        .arena = arena, .folder = path, .from = from, .to = to, .found = found};
    struct statx here, parent;
    *found = (struct survey){0};
    if (!look(from, "", &here))
        fail_to_see(&search, ".");
    if (!look(from, "..", &parent))
        parent = here;
    search.shut = note_hindrance(&search, ".", &here, &parent, TO_WALK);
    read_list(&search);
    walk(&search, ".", &here);
}

/* The path of a hindrance behind that of its folder. */
static const char *hindrance_path(struct arena *arena, const char *folder,
                                  const struct hindrance *hindrance)
{
    return strcmp(hindrance->path, ".") == 0
               ? folder
               : arena_format(arena, "%s/%s", folder, hindrance->path);
}

/* Makes the folders before the last slash; false, with errno set, on failure. */
static bool make_parents_of(int folder, const char *path)
{
    char copy[PATH_MAX];
    if (strlen(path) >= sizeof copy) {
        errno = ENAMETOOLONG;
        return false;
    }
    strcpy(copy, path);
    for (char *slash = strchr(copy, '/'); slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        if (mkdirat(folder, copy, 0777) != 0 && errno != EEXIST)
            return false;
        *slash = '/';
    }
    return true;
}

/* As far as they are empty. */
static void remove_parents(int folder, const char *path)
{
    char copy[PATH_MAX];
    if (strlen(path) >= sizeof copy)
        return;
    strcpy(copy, path);
    for (char *slash; (slash = strrchr(copy, '/'));) {
        *slash = '\0';
        unlinkat(folder, copy, AT_REMOVEDIR);
    }
}

/* Never onto anything: it was looked for, and most file systems promise it. */
static bool move(int from, int to, const char *path)
{
    if (!make_parents_of(to, path))
        return false;
    return renameat2(from, path, to, path, RENAME_NOREPLACE) == 0 ||
           (errno == EINVAL && renameat(from, path, to, path) == 0);
}

/* Moves the user's files, one after the other; false, with errno set, at the first that cannot
 * be moved. Asks for no memory. */
static bool move_users(int from, int to, struct survey *found)
{
    for (; found->moved < found->move_count; found->moved++)
        if (!move(from, to, found->moves[found->moved]))
            return false;
    return true;
}

/* Moves back those that were moved, and removes folders that were made for them; false where
 * one cannot be. Asks for no memory. */
static bool move_users_back(int from, int to, struct survey *found)
{
    for (; found->moved > 0; found->moved--)
        if (!move(to, from, found->moves[found->moved - 1]))
            return false;
    for (size_t i = 0; i < found->move_count; i++)
        remove_parents(to, found->moves[i]);
    return true;
}

/* Removes what belongs to the set, and nothing else. Asks for no memory. */
static void remove_own(int from, const struct survey *found)
{
    for (size_t i = 0; i < found->own_count; i++)
        if (strcmp(found->own[i], LIST_NAME) != 0 && unlinkat(from, found->own[i], 0) != 0)
            unlinkat(from, found->own[i], AT_REMOVEDIR);
    unlinkat(from, LIST_NAME, 0);
}

/* ---- Folders that runs left beside the outputs when they were killed ---- */

/* Is this the name of a folder that a run left beside the outputs? Then the number
 * of its process, else 0. */
static long leftover_pid(const char *name, const char *base)
{
    size_t length = strlen(base), mark = strlen(LEFTOVER_MARK);
    if (strncmp(name, base, length) != 0 || strncmp(name + length, LEFTOVER_MARK, mark) != 0)
        return 0;
    char *end;
    long pid = strtol(name + length + mark, &end, 10);
    return pid > 0 && (*end == '\0' || strcmp(end, LEFTOVER_ASIDE) == 0) ? pid : 0;
}

/* A living run holds a lock on its folder. Where there are no locks, a process of
 * that number counts as living. */
static bool is_alive(int handle, long pid)
{
    if (flock(handle, LOCK_EX | LOCK_NB) == 0)
        return false;
    return errno == EWOULDBLOCK || kill((pid_t)pid, 0) == 0 || errno != ESRCH;
}

/* Opened as a place alone: whether it may be written in shows when that is wanted. */
static int open_outputs(const char *folder)
{
    return open(folder, O_PATH | O_DIRECTORY | O_CLOEXEC);
}

static void clear_one(struct arena *arena, const char *folder, const char *left, int handle)
{
    struct survey found;
    int outputs = open_outputs(folder);
    look_through(arena, handle, outputs, left, &found);
    if (found.stuck_count && (found.move_count || found.unseen))
        fatal("an interrupted run left files of yours that belong into %s: %s: %s", folder,
              hindrance_path(arena, left, &found.stuck[0]), found.stuck[0].words);
    if (found.taken_count)
        fatal(
            "an interrupted run left %s/%s, and there is another in %s%s; keep one of the two",
            left, found.taken[0], folder,
            found.taken_count == 1
                ? ""
                : arena_format(arena, ", and so with %zu more", found.taken_count - 1));
    if (found.move_count && outputs < 0 && mkdir(folder, 0777) == 0)
        outputs = open_outputs(folder);
    if (!move_users(handle, outputs, &found))
        fatal("an interrupted run left files of yours in %s, and they cannot be put back into "
              "%s: %s; move them there yourself",
              left, folder, strerror(errno));
    remove_own(handle, &found);
    rmdir(left);
    if (outputs >= 0)
        close(outputs);
}

static void look_at(struct arena *arena, const char *folder, const char *left, long pid)
{
    struct stat status;
    int handle = open(left, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (handle < 0)
        return;
    bool alive = is_alive(handle, pid);
    bool back = !alive && file_ends_in(left, LEFTOVER_ASIDE) && lstat(folder, &status) != 0;
    if (back && rename(left, folder) != 0)
        fatal(
            "an interrupted run left the outputs in %s, and they cannot be put back to %s: %s",
            left, folder, strerror(errno));
    if (!alive && !back)
        clear_one(arena, folder, left, handle);
    close(handle);
}

/* Puts the user's files in such folders back into the folder of outputs, and
 * removes the rest; folders of runs that are still alive are left alone. Where an
 * old set stepped aside and no new one came, it steps back. Call in turn. */
static void leftovers_clear(struct arena *arena, const char *folder)
{
    const char *base = strrchr(folder, '/') + 1;
    const char *parent = arena_slice(arena, folder, (size_t)(base - folder));
    const char **names = file_names(arena, open(parent, O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    for (int aside = 1; aside >= 0; aside--) /* what may step back comes first */
        for (size_t i = 0; names && names[i]; i++) {
            long pid = leftover_pid(names[i], base);
            if (pid && file_ends_in(names[i], LEFTOVER_ASIDE) == (aside == 1))
                look_at(arena, folder, arena_format(arena, "%s%s", parent, names[i]), pid);
        }
}

/* ---- The set ---- */

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
    for (size_t i = 0; i < unfinished->count; i++) {
        unlinkat(unfinished->handle, unfinished->written[i], 0);
        remove_parents(unfinished->handle, unfinished->written[i]);
    }
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
    if (set->parent >= 0)
        flock(set->parent, LOCK_UN);
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
    if (handle < 0 && errno == ENOENT && make_parents_of(set->handle, path))
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
_Noreturn static void undo(const struct outset *set, int old, struct survey *found)
{
    int error = errno;
    const char *stuck = found->moved < found->move_count ? found->moves[found->moved] : NULL;
    fchmod(set->handle, S_IRWXU); /* the old one's rights may be less */
    if (!move_users_back(old, set->handle, found)) {
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

static bool refuse_taken(const struct outset *set, const struct survey *found)
{
    size_t others = found->taken_count - 1;
    if (found->taken_count == 0 || found->unseen)
        return false;
    struct place at = {.file = arena_format(set->arena, "%s/%s", set->asked, found->taken[0])};
    const char *with =
        arena_format(set->arena, " and %zu other%s here were", others, others == 1 ? "" : "s");
    fault(set->diags, at,
          "this%s not made by an earlier run, and would be lost; move %s away, or give "
          "another folder with --out",
          others ? with : " was", others ? "them" : "it");
    return true;
}

static bool refuse_stuck(const struct outset *set, const struct survey *found)
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
    struct survey found;
    const char *aside = arena_format(set->arena, "%s%s", set->fresh, LEFTOVER_ASIDE);
    look_through(set->arena, old, set->handle, set->folder, &found);
    if (refuse_stuck(set, &found) | refuse_taken(set, &found)) {
        remove_unfinished();
        return;
    }
    if (!move_users(old, set->handle, &found))
        undo(set, old, &found);
    if (fstat(old, &status) == 0)
        fchmod(set->handle, status.st_mode & 07777);
    const char *where = swap(set, aside);
    if (!where)
        undo(set, old, &found);
    unfinished = NULL;
    remove_own(old, &found);
    if (rmdir(where) != 0) /* something came into it meanwhile */
        leftovers_clear(set->arena, set->folder);
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
    /* All of it is on the disk before it takes the old set's place: a power cut leaves one or
     * the other. One call for the file system takes a tenth of the time of one for each file.
     */
    if (syncfs(set->handle) != 0 && errno != ENOSYS)
        fatal("the new outputs cannot be brought onto the disk: %s; nothing was changed",
              strerror(errno));
    take_turn(set);
    int old = open_outputs(set->folder);
    if (old >= 0) {
        replace(set, old);
        close(old);
    } else if (errno == ENOENT && rename(set->fresh, set->folder) == 0) {
        unfinished = NULL;
    } else {
        fail_to_put(set, errno);
    }
    close_handles(set); /* and the turn is over */
}

void outset_abandon(struct outset *set)
{
    remove_unfinished();
    close(set->list);
    close_handles(set);
    for (size_t i = set->made_count; i-- > 0;)
        rmdir(set->made[i]);
}
