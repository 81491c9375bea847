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
#include <sys/xattr.h>
#include <time.h>
#include <unistd.h>

/* .NAME.spindlebook-PID-N: a set in the making. No lathe and no page is called so: their names
 * do not begin with a dot. */
#define LEFTOVER_MARK  ".spindlebook-"
#define LEFTOVER_ASIDE ".old" /* behind it: a set that stepped aside */

/* ---- Paths within an open folder ----
 *
 * They are walked step by step, each folder opened in the one before. A link on the way is an
 * error (ENOTDIR), whenever and by whomever it was put there. */

/* The folder that was reached last is kept: most paths that follow lie in the same. */
struct way {
    int root;
    int folder;       /* open; 0: none yet */
    const char *path; /* of the folder, from the root */
    size_t length;
};

static int open_folder(int in, const char *name)
{
    return openat(in, name, O_PATH | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
}

static void end_way(struct way *way)
{
    if (way->folder > 0)
        close(way->folder);
    way->folder = 0;
}

/* Opens the folder that a path names, and makes what is not there of it where `make` is set;
 * -1, with errno set, on failure. Asks for no memory. */
static int open_path(int root, const char *path, size_t length, bool make)
{
    int folder = root;
    for (const char *at = path, *end = path + length; at < end;) {
        char name[NAME_MAX + 1];
        size_t step = strcspn(at, "/");
        if (step > NAME_MAX) {
            errno = ENAMETOOLONG;
            step = 0;
        }
        memcpy(name, at, step);
        name[step] = '\0';
        int next = step ? open_folder(folder, name) : -1;
        if (next < 0 && step && errno == ENOENT && make &&
            (mkdirat(folder, name, 0777) == 0 || errno == EEXIST))
            next = open_folder(folder, name);
        int error = errno;
        if (folder != root)
            close(folder);
        errno = error;
        if (next < 0)
            return -1;
        folder = next;
        at += step + (at[step] == '/');
    }
    return folder;
}

/* The folder in which the last step of a path is to be taken, and that step; -1, with errno
 * set, on failure. The path outlives the way. Asks for no memory. */
static int go(struct way *way, const char *path, bool make, const char **name)
{
    const char *slash = strrchr(path, '/');
    size_t length = slash ? (size_t)(slash - path) : 0;
    *name = slash ? slash + 1 : path;
    if (!slash)
        return way->root;
    if (way->folder > 0 && way->length == length && memcmp(way->path, path, length) == 0)
        return way->folder;
    end_way(way);
    int folder = open_path(way->root, path, length, make);
    if (folder >= 0)
        *way = (struct way){way->root, folder, path, length};
    return folder;
}

/* Removes a file or an empty folder. Asks for no memory. */
static bool remove_one(struct way *way, const char *path)
{
    const char *name;
    int folder = go(way, path, false, &name);
    return folder >= 0 && (unlinkat(folder, name, 0) == 0 ||
                           (errno == EISDIR && unlinkat(folder, name, AT_REMOVEDIR) == 0));
}

/* Removes the folders in which a path lies, as far as they are empty. Asks for no memory. */
static void remove_parents(int root, const char *path)
{
    char parent[PATH_MAX];
    if (strlen(path) >= sizeof parent)
        return;
    strcpy(parent, path);
    for (char *slash; (slash = strrchr(parent, '/'));) {
        struct way way = {.root = root};
        *slash = '\0';
        remove_one(&way, parent);
        end_way(&way);
    }
}

/* ---- Whose is what in a folder of outputs ----
 *
 * Its list names the files of the set; all other things are the user's own. The list's paths
 * only count where a walk of the folder meets them. */

/* Something that this process may neither move nor remove. */
struct hindrance {
    const char *path;  /* "." for the folder itself */
    const char *words; /* why, and what the user can do */
};

/* What was found in a folder of outputs; paths from there. */
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
    const char *folder;  /* for messages */
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

static void read_list(struct search *search, int from)
{
    struct file_text text;
    if (!file_read_in(search->arena, from, LIST_NAME, LIST_LARGEST, &text)) {
        if (errno != ENOENT)
            fail_to_see(search, LIST_NAME);
        return;
    }
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

/* Why the system will not have the thing of that name moved out of its folder, or removed; NULL
 * where it will. access: what must be allowed in it where it is a folder itself, else 0. The
 * rules are those of rename(2), unlink(2) and chattr(1). */
static const char *hindrance(const struct search *search, int from, const char *name,
                             const struct statx *here, const struct statx *parent, int access)
{
    uid_t me = geteuid();
    bool sticky =
        (parent->stx_mode & S_ISVTX) && me != 0 && me != here->stx_uid && me != parent->stx_uid;
    if (here->stx_attributes & STATX_ATTR_MOUNT_ROOT)
        return strcmp(name, ".") == 0
                   ? "something is mounted here; give --out a folder further in"
                   : "something is mounted here; unmount it" OR_ELSEWHERE;
    if (here->stx_attributes & (STATX_ATTR_IMMUTABLE | STATX_ATTR_APPEND))
        return "this is marked as not to be changed; take the mark off with chattr "
               "-ia" OR_ELSEWHERE;
    if (!sticky && (!access || faccessat(from, name, access, AT_EACCESS) == 0))
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

static bool note_hindrance(struct search *search, const char *path, const char *words)
{
    struct survey *found = search->found;
    if (words && !search->shut)
        *ARENA_PUSH(search->arena, found->stuck, found->stuck_count) =
            (struct hindrance){path, words};
    return words && !search->shut;
}

enum { TO_WALK = R_OK | W_OK | X_OK, TO_MOVE = W_OK };

static void walk(struct search *search, int from, int to, const char *path,
                 const struct statx *here);

static void walk_within(struct search *search, int from, int to, const char *path,
                        const char *name, const struct statx *here)
{
    int folder = open_folder(from, name), other = open_folder(to, name);
    if (folder < 0)
        fail_to_see(search, path);
    else
        walk(search, folder, other, path, here);
    if (folder >= 0)
        close(folder);
    if (other >= 0)
        close(other);
}

static void sort_entry(struct search *search, int from, int to, const char *path,
                       const char *name, const struct statx *parent)
{
    struct survey *found = search->found;
    struct statx here, there;
    if (!look(from, name, &here)) {
        if (errno != ENOENT)
            fail_to_see(search, path);
        return;
    }
    bool taken = look(to, name, &there), folder = S_ISDIR(here.stx_mode);
    bool walked = folder && (taken ? S_ISDIR(there.stx_mode) : holds_listed(search, path));
    bool stuck = note_hindrance(search, path,
                                hindrance(search, from, name, &here, parent,
                                          walked   ? TO_WALK
                                          : folder ? TO_MOVE
                                                   : 0));
    if (walked) {
        search->shut |= stuck;
        walk_within(search, from, to, path, name, &here);
        search->shut &= !stuck;
    }
    if (walked || (!folder && is_listed(search, path)))
        *ARENA_PUSH(search->arena, found->own, found->own_count) = path;
    else if (taken)
        *ARENA_PUSH(search->arena, found->taken, found->taken_count) = path;
    else
        *ARENA_PUSH(search->arena, found->moves, found->move_count) = path;
}

/* Only as deep as the set's own folders, or as far as two folders are alike. */
static void walk(struct search *search, int from, int to, const char *path,
                 const struct statx *here)
{
    const char **names = file_names(search->arena, from);
    if (!names)
        fail_to_see(search, path);
    for (size_t i = 0; names && names[i]; i++)
        sort_entry(search, from, to,
                   strcmp(path, ".") == 0
                       ? names[i]
                       : arena_format(search->arena, "%s/%s", path, names[i]),
                   names[i], here);
}

/* Looks through the open folder `from`, whose path is given for messages; `to` (or -1)
 * is where the user's files are to go. What cannot be looked at ends the program. */
static void look_through(struct arena *arena, int from, int to, const char *path,
                         struct survey *found)
{
    struct search search = {.arena = arena, .folder = path, .found = found};
    struct statx here, parent;
    *found = (struct survey){0};
    if (!look(from, "", &here))
        fail_to_see(&search, ".");
    if (!look(from, "..", &parent))
        parent = here;
    search.shut =
        note_hindrance(&search, ".", hindrance(&search, from, ".", &here, &parent, TO_WALK));
    read_list(&search, from);
    walk(&search, from, to, ".", &here);
}

/* The path of a hindrance behind that of its folder. */
static const char *hindrance_path(struct arena *arena, const char *folder,
                                  const struct hindrance *hindrance)
{
    return strcmp(hindrance->path, ".") == 0
               ? folder
               : arena_format(arena, "%s/%s", folder, hindrance->path);
}

/* Never onto anything: it was looked for, and most file systems promise it. */
static bool move(struct way *from, struct way *to, const char *path)
{
    const char *name;
    int old = go(from, path, false, &name), new = go(to, path, true, &name);
    return old >= 0 && new >= 0 &&
           (renameat2(old, name, new, name, RENAME_NOREPLACE) == 0 ||
            (errno == EINVAL && renameat(old, name, new, name) == 0));
}

/* Moves the user's files, one after the other; false, with errno set, at the first that cannot
 * be moved. Asks for no memory. */
static bool move_users(int old, int new, struct survey *found)
{
    struct way from = {.root = old}, to = {.root = new};
    while (found->moved < found->move_count && move(&from, &to, found->moves[found->moved]))
        found->moved++;
    int error = errno;
    end_way(&from);
    end_way(&to);
    errno = error;
    return found->moved == found->move_count;
}

/* Moves back those that were moved, and removes folders that were made for them; false where
 * one cannot be. Asks for no memory. */
static bool move_users_back(int old, int new, struct survey *found)
{
    struct way from = {.root = old}, to = {.root = new};
    while (found->moved > 0 && move(&to, &from, found->moves[found->moved - 1]))
        found->moved--;
    end_way(&from);
    end_way(&to);
    for (size_t i = 0; i < found->move_count && found->moved == 0; i++)
        remove_parents(new, found->moves[i]);
    return found->moved == 0;
}

/* Removes what belongs to the set, and nothing else: its list as the last. Into one of its
 * folders something may have come meanwhile: that stays. False, with errno set, where a file
 * cannot be removed. Asks for no memory. */
static bool remove_own(int folder, const struct survey *found)
{
    struct way way = {.root = folder};
    int error = 0;
    for (size_t i = 0; i < found->own_count; i++)
        if (strcmp(found->own[i], LIST_NAME) != 0 && !remove_one(&way, found->own[i]) &&
            errno != ENOENT && errno != ENOTEMPTY && errno != EEXIST)
            error = errno;
    if (!error && !remove_one(&way, LIST_NAME) && errno != ENOENT)
        error = errno;
    end_way(&way);
    errno = error;
    return error == 0;
}

/* ---- The set, and folders that runs left beside the outputs when they were killed ---- */

struct outset {
    struct arena *arena;
    struct diags *diags;
    const char *asked;  /* the folder as the user named it */
    const char *folder; /* the same without links and dots, for messages ... */
    const char *above;  /* ... and all of it before the last step, which is ... */
    const char *name;
    const char *fresh; /* the name, beside it, of the folder in which the set is written */
    int parent;        /* of both; locked in turn, where it can be read */
    int handle;        /* of the fresh folder; locked, as a sign that this run is alive */
    int list;          /* of the list of files */
    struct way way;    /* to the files that are being written */
    const char **written;
    size_t count;
    const char **made; /* folders above the set's that were not there, outermost first */
    size_t made_count;
};

/* Does a name in the parent stand for what is open there? */
static bool stands_at(const struct outset *set, const char *name, int handle)
{
    struct statx there, here;
    return look(set->parent, name, &there) && look(handle, "", &here) &&
           there.stx_ino == here.stx_ino && there.stx_dev_major == here.stx_dev_major &&
           there.stx_dev_minor == here.stx_dev_minor;
}

/* Is this the name of a folder that a run left beside the outputs? Then the number
 * of its process, else 0. */
static long leftover_pid(const char *name, const char *base)
{
    size_t length = strlen(base), mark = strlen(LEFTOVER_MARK);
    if (name[0] != '.' || strncmp(name + 1, base, length) != 0 ||
        strncmp(name + 1 + length, LEFTOVER_MARK, mark) != 0)
        return 0;
    char *end;
    long pid = strtol(name + 1 + length + mark, &end, 10);
    end += *end == '-' ? 1 + strspn(end + 1, "0123456789") : 0;
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

/* Anybody may lay a folder of such a name in a parent that many share, and a list in it: what
 * is done with it is done for its owner alone. The superuser's is looked at, to say so. */
static bool is_trusted(int handle)
{
    struct statx folder, list;
    uid_t me = geteuid();
    return look(handle, "", &folder) && look(handle, LIST_NAME, &list) &&
           S_ISREG(list.stx_mode) && folder.stx_uid == list.stx_uid &&
           (folder.stx_uid == me || folder.stx_uid == 0);
}

static void clear_one(const struct outset *set, const char *left, int handle)
{
    struct survey found;
    struct arena *arena = set->arena;
    int outputs = open_folder(set->parent, set->name);
    const char *path = arena_format(arena, "%s%s", set->above, left);
    look_through(arena, handle, outputs, path, &found);
    if (found.stuck_count && (found.move_count || found.unseen))
        fatal("an interrupted run left files of yours that belong into %s: %s: %s", set->folder,
              hindrance_path(arena, path, &found.stuck[0]), found.stuck[0].words);
    if (found.taken_count)
        fatal(
            "an interrupted run left %s/%s, and there is another in %s%s; keep one of the two",
            path, found.taken[0], set->folder,
            found.taken_count == 1
                ? ""
                : arena_format(arena, ", and so with %zu more", found.taken_count - 1));
    if (found.move_count && outputs < 0 && mkdirat(set->parent, set->name, 0777) == 0)
        outputs = open_folder(set->parent, set->name);
    if (!move_users(handle, outputs, &found))
        fatal("an interrupted run left files of yours in %s, and they cannot be put back into "
              "%s: %s; move them there yourself",
              path, set->folder, strerror(errno));
    if (found.stuck_count)
        tell("%s: %s; nothing in it is yours", path, found.stuck[0].words);
    else if (!remove_own(handle, &found) || unlinkat(set->parent, left, AT_REMOVEDIR) != 0)
        fatal("an interrupted run left %s, and it cannot be removed: %s; move what is yours "
              "out of it, and remove it",
              path, strerror(errno));
    if (outputs >= 0)
        close(outputs);
}

/* An old set that stepped aside, of whatever list, belongs to the new set beside it. */
static bool is_trusted_aside(const struct outset *set, const char *left)
{
    size_t length = strlen(left) - strlen(LEFTOVER_ASIDE);
    int handle = open_folder(set->parent, arena_slice(set->arena, left, length));
    bool trusted = handle >= 0 && is_trusted(handle);
    if (handle >= 0)
        close(handle);
    return trusted;
}

static void look_at(const struct outset *set, const char *left, long pid)
{
    struct statx status;
    int handle = openat(set->parent, left, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (handle < 0)
        return;
    bool aside = file_ends_in(left, LEFTOVER_ASIDE);
    if (is_alive(handle, pid)) {
        /* it sees to itself */
    } else if (!is_trusted(handle) && !(aside && is_trusted_aside(set, left))) {
        if (unlinkat(set->parent, left, AT_REMOVEDIR) != 0)
            tell("%s%s was not left by a run of yours, or lacks its list, and is not touched; "
                 "if it holds files of yours, move them yourself",
                 set->above, left);
    } else if (!aside || look(set->parent, set->name, &status)) {
        clear_one(set, left, handle);
    } else if (renameat(set->parent, left, set->parent, set->name) != 0) {
        fatal("an interrupted run left the outputs in %s%s, and they cannot be put back to "
              "%s: %s",
              set->above, left, set->folder, strerror(errno));
    }
    close(handle);
}

/* Puts the user's files in such folders back into the folder of outputs, and
 * removes the rest; folders of runs that are still alive are left alone. Where an
 * old set stepped aside and no new one came, it steps back. Call in turn. */
static void leftovers_clear(const struct outset *set)
{
    const char **names = file_names(set->arena, set->parent);
    if (!names && errno != EACCES)
        fatal("%s cannot be read: %s; nothing was changed", set->above, strerror(errno));
    for (int aside = 1; aside >= 0; aside--) /* what may step back comes first */
        for (size_t i = 0; names && names[i]; i++) {
            long pid = leftover_pid(names[i], set->name);
            if (pid && file_ends_in(names[i], LEFTOVER_ASIDE) == (aside == 1))
                look_at(set, names[i], pid);
        }
}

/* ---- The set in the making ---- */

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
    struct outset *set = unfinished;
    if (!set)
        return;
    unfinished = NULL;
    end_way(&set->way);
    bool stays = false; /* something of it could not be removed */
    for (size_t i = 0; set->handle >= 0 && i < set->count; i++)
        stays |= !remove_one(&set->way, set->written[i]) && errno != ENOENT;
    end_way(&set->way);
    for (size_t i = 0; set->handle >= 0 && i < set->count; i++)
        remove_parents(set->handle, set->written[i]);
    if (set->handle >= 0 && !stays)
        unlinkat(set->handle, LIST_NAME, 0);
    if (set->fresh && unlinkat(set->parent, set->fresh, AT_REMOVEDIR) != 0)
        tell("%s%s cannot be removed: %s; the next run tries again", set->above, set->fresh,
             strerror(errno));
    for (size_t i = set->made_count; i-- > 0;)
        rmdir(set->made[i]);
}

_Noreturn static void fail_to_write(const struct outset *set, const char *path)
{
    fatal("%s%s/%s cannot be written: %s; nothing was changed", set->above, set->fresh, path,
          strerror(errno));
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

/* By the path that was settled, in which there is no link any more. */
static int open_parent(const struct outset *set)
{
    int root = open("/", O_PATH | O_DIRECTORY | O_CLOEXEC), parent = -1, readable = -1;
    size_t length = strlen(set->above);
    if (root >= 0)
        parent = length > 1 ? open_path(root, set->above + 1, length - 2, false) : root;
    if (parent < 0)
        fatal("the folder %s cannot be used: %s", set->above, strerror(errno));
    readable = openat(parent, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (root != parent)
        close(root);
    if (readable >= 0)
        close(parent);
    return readable >= 0 ? readable : parent;
}

/* Turns are short: what is written meanwhile is written without one. Where there are no locks,
 * or the parent cannot be read, nobody waits. */
static void take_turn(const struct outset *set)
{
    enum { A_SECOND = 20, A_MINUTE = 60 * A_SECOND };
    const struct timespec pause = {.tv_nsec = 1000000000 / A_SECOND};
    for (int waited = 0; flock(set->parent, LOCK_EX | LOCK_NB) != 0; waited++) {
        if (errno != EWOULDBLOCK && errno != EINTR)
            return;
        if (waited == A_SECOND)
            tell("another run is putting its outputs into %s; waiting for it", set->above);
        if (waited == A_MINUTE)
            fatal("another program holds the lock of %s since a minute; nothing was changed; "
                  "end that program and try again",
                  set->above);
        nanosleep(&pause, NULL);
    }
}

/* Does its group have other rights than everybody, or give itself to what is made in it? */
static bool group_counts(mode_t mode)
{
    return (mode & S_ISGID) || (mode >> 3 & 7) != (mode & 7);
}

/* Gives the fresh folder the group, the access lists and the mode of the old one, so that files
 * made in it inherit as there; false, with errno set, where it cannot have them. */
static bool take_rights(const struct outset *set, int old, mode_t more)
{
    static const char *const lists[] = {"system.posix_acl_access", "system.posix_acl_default"};
    struct stat there, here;
    char list[4096];
    if (fstat(old, &there) != 0 || fstat(set->handle, &here) != 0 ||
        (there.st_gid != here.st_gid && fchown(set->handle, (uid_t)-1, there.st_gid) != 0 &&
         group_counts(there.st_mode)))
        return false;
    int readable = openat(old, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    bool same = true;
    for (size_t i = 0; readable >= 0 && i < sizeof lists / sizeof lists[0]; i++) {
        ssize_t length = fgetxattr(readable, lists[i], list, sizeof list);
        if (length >= 0)
            same &= fsetxattr(set->handle, lists[i], list, (size_t)length, 0) == 0;
        else if (errno == ENODATA || errno == ENOTSUP)
            fremovexattr(set->handle, lists[i]); /* that of the parent */
        else
            same = false;
    }
    int error = errno;
    if (readable >= 0)
        close(readable);
    errno = error;
    return same && fchmod(set->handle, (there.st_mode & 07777) | more) == 0;
}

/* Under a name that nobody has: runs in two containers may both be process 1. */
static void open_fresh(struct outset *set)
{
    int made = -1;
    for (int i = 1; made != 0 && (i == 1 || errno == EEXIST); i++) {
        set->fresh = arena_format(set->arena, ".%s" LEFTOVER_MARK "%ld-%d", set->name,
                                  (long)getpid(), i);
        made = mkdirat(set->parent, set->fresh, 0777);
    }
    if (made != 0) {
        const char *name = set->fresh;
        set->fresh = NULL;
        fatal("the folder %s%s cannot be made: %s", set->above, name, strerror(errno));
    }
    set->handle =
        openat(set->parent, set->fresh, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (set->handle < 0)
        fatal("the folder %s%s cannot be used: %s", set->above, set->fresh, strerror(errno));
    set->way.root = set->handle;
    flock(set->handle, LOCK_EX | LOCK_NB);
    int old = open_folder(set->parent, set->name);
    if (old >= 0) {
        take_rights(set, old, S_IRWXU);
        close(old);
    }
    set->list = openat(set->handle, LIST_NAME, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (set->list < 0)
        fail_to_write(set, LIST_NAME);
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
    static bool registered;
    struct outset *set = arena_get(arena, sizeof *set);
    *set = (struct outset){
        .arena = arena, .diags = diags, .asked = folder, .parent = -1, .handle = -1};
    if (outset_refuses(diags, folder))
        return NULL;
    if (!registered && atexit(remove_unfinished) != 0)
        fatal_no_memory();
    registered = true;
    unfinished = set;
    set->folder = settle_path(set, folder);
    set->name = strrchr(set->folder, '/') + 1;
    set->above = arena_slice(arena, set->folder, (size_t)(set->name - set->folder));
    set->parent = open_parent(set);
    take_turn(set);
    leftovers_clear(set);
    open_fresh(set);
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
            fail_to_write(set, path);
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

static void take_bytes(void *with, const void *bytes, size_t length)
{
    const struct outset_file *file = with;
    write_all(file->handle, file->set, file->path, bytes, length);
}

struct sink outset_open(struct outset *set, const char *path)
{
    const char *name;
    struct outset_file *file = heap_get(sizeof *file);
    *file = (struct outset_file){.set = set, .path = note_file(set, path), .handle = -1};
    int folder = go(&set->way, file->path, true, &name);
    if (folder >= 0)
        file->handle = openat(folder, name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file->handle < 0)
        fail_to_write(set, path);
    return (struct sink){take_bytes, file};
}

void outset_close(struct sink sink)
{
    struct outset_file *file = sink.with;
    if (close(file->handle) != 0)
        fail_to_write(file->set, file->path);
    free(file);
}

void outset_write(struct outset *set, const char *path, const void *bytes, size_t length)
{
    struct sink sink = outset_open(set, path);
    sink.take(sink.with, bytes, length);
    outset_close(sink);
}

/* ---- The exchange ---- */

/* What stands in the outputs' place is no longer what was looked through. */
enum { CHANGED = ESTALE };

static const char *reason(int error)
{
    return error == CHANGED ? "somebody put something else there meanwhile" : strerror(error);
}

static const char *hint(int error)
{
    return error == EBUSY || error == EXDEV ? "; give --out a folder further in" : "";
}

_Noreturn static void fail_to_put(const struct outset *set, int error)
{
    fatal("the new outputs cannot be put at %s: %s; nothing was changed%s", set->folder,
          reason(error), hint(error));
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
        fatal("the new outputs cannot be put at %s: %s; some of your own files are now in "
              "%s%s: the next run puts them back",
              set->folder, reason(error), set->above, set->fresh);
    }
    if (stuck)
        fatal("%s/%s cannot be moved into the new outputs: %s; nothing was changed%s",
              set->folder, stuck, strerror(error), hint(error));
    fail_to_put(set, error);
}

/* Puts the new set in the old one's place; gives the name that the old one has then, or NULL
 * with errno set. Whether it was the old one that gave way is seen only afterwards: if not,
 * that goes back. Where the file system cannot exchange two folders, the old one steps aside
 * first; there is then a moment without outputs, but never a mix. */
static const char *swap(const struct outset *set, int old, const char *aside)
{
    int in = set->parent, error = CHANGED;
    const char *fresh = set->fresh, *name = set->name;
    if (renameat2(in, fresh, in, name, RENAME_EXCHANGE) == 0) {
        if (stands_at(set, fresh, old))
            return fresh;
        if (renameat2(in, fresh, in, name, RENAME_EXCHANGE) != 0)
            error = errno;
        errno = error;
        return NULL;
    }
    if (renameat(in, name, in, aside) != 0)
        return NULL;
    if (stands_at(set, aside, old)) {
        if (renameat(in, fresh, in, name) == 0)
            return aside;
        error = errno;
    }
    if (renameat(in, aside, in, name) != 0) {
        unfinished = NULL;
        fatal("the new outputs cannot be put at %s: %s; the next run puts back the old ones, "
              "which are now in %s%s",
              set->folder, reason(error), set->above, aside);
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

static bool refuse_rights(const struct outset *set, int old)
{
    struct stat status;
    if (take_rights(set, old, S_IRWXU) || fstat(old, &status) != 0)
        return false;
    fault(set->diags, (struct place){.file = set->asked},
          "new outputs cannot have the group %u and the access list of this folder (%s); give "
          "it a group of yours with chgrp" OR_ELSEWHERE,
          (unsigned)status.st_gid, strerror(errno));
    return true;
}

/* Everything that may want memory is done before the first move. */
static void replace(const struct outset *set, int old)
{
    struct survey found;
    const char *aside = arena_format(set->arena, "%s" LEFTOVER_ASIDE, set->fresh);
    look_through(set->arena, old, set->handle, set->folder, &found);
    bool stuck = refuse_stuck(set, &found), taken = refuse_taken(set, &found);
    if (stuck || taken || refuse_rights(set, old)) {
        remove_unfinished();
        return;
    }
    if (!move_users(old, set->handle, &found))
        undo(set, old, &found);
    take_rights(set, old, 0);
    const char *where = swap(set, old, aside);
    if (!where)
        undo(set, old, &found);
    unfinished = NULL;
    if (!remove_own(old, &found) ||
        (unlinkat(set->parent, where, AT_REMOVEDIR) != 0 && errno != ENOTEMPTY))
        fatal("the new outputs are at %s, but the old ones cannot be removed from %s%s: %s; "
              "the next run tries again",
              set->folder, set->above, where, strerror(errno));
    if (stands_at(set, where, old)) /* something came into it meanwhile */
        clear_one(set, where, old);
}

static void close_handles(struct outset *set)
{
    end_way(&set->way);
    close(set->handle);
    close(set->parent);
}

void outset_commit(struct outset *set)
{
    if (close(set->list) != 0)
        fail_to_write(set, LIST_NAME);
    /* All of it is on the disk before it takes the old set's place: a power cut leaves one or
     * the other. One call for the file system takes a tenth of the time of one for each file.
     */
    if (syncfs(set->handle) != 0 && errno != ENOSYS)
        fatal("the new outputs cannot be brought onto the disk: %s; nothing was changed",
              strerror(errno));
    take_turn(set);
    int old = open_folder(set->parent, set->name);
    if (old >= 0) {
        replace(set, old);
        close(old);
    } else if (errno == ENOENT &&
               renameat(set->parent, set->fresh, set->parent, set->name) == 0) {
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
}
