#include "base/strangers.h"

#include "base/fatal.h"
#include "base/file.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct search {
    struct arena *arena;
    const char *folder; /* for messages */
    int from, to;
    const char **listed; /* in byte order */
    size_t listed_count;
    struct strangers *found;
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

static bool holds_listed(const struct search *search, const char *path)
{
    const char *within = arena_format(search->arena, "%s/", path);
    size_t first = 0, end = search->listed_count; /* of what does not come before it */
    while (first < end) {
        size_t middle = first + (end - first) / 2;
        if (strcmp(search->listed[middle], within) < 0)
            first = middle + 1;
        else
            end = middle;
    }
    return first < search->listed_count &&
           strncmp(search->listed[first], within, strlen(within)) == 0;
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
    struct strangers *found = search->found;
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
    struct strangers *found = search->found;
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

/* The names in a folder, so that no more than one is open at a time. */
static const char **names_in(struct search *search, const char *path)
{
    const char **names = NULL;
    size_t count = 0;
    int handle = openat(search->from, path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    DIR *entries = handle < 0 ? NULL : fdopendir(handle);
    errno = entries ? 0 : errno;
    for (struct dirent *entry; entries && (entry = readdir(entries)); errno = 0)
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0) {
            const char *name = arena_text(search->arena, entry->d_name);
            *ARENA_PUSH(search->arena, names, count) = name;
        }
    if (errno)
        fail_to_see(search, path);
    if (entries)
        closedir(entries);
    if (count)
        qsort(names, count, sizeof *names, file_order);
    *ARENA_PUSH(search->arena, names, count) = NULL;
    return names;
}

/* Only as deep as the set's own folders, or as far as two folders are alike. */
static void walk(struct search *search, const char *path, const struct statx *here)
{
    const char **names = names_in(search, path);
    for (size_t i = 0; names[i]; i++)
        sort_entry(search,
                   strcmp(path, ".") == 0
                       ? names[i]
                       : arena_format(search->arena, "%s/%s", path, names[i]),
                   here);
}

void strangers_find(struct arena *arena, int from, int to, const char *path,
                    struct strangers *found)
{
    struct search search = {
        .arena = arena, .folder = path, .from = from, .to = to, .found = found};
    struct statx here, parent;
    *found = (struct strangers){0};
    if (!look(from, "", &here))
        fail_to_see(&search, ".");
    if (!look(from, "..", &parent))
        parent = here;
    search.shut = note_hindrance(&search, ".", &here, &parent, TO_WALK);
    read_list(&search);
    walk(&search, ".", &here);
}

const char *hindrance_path(struct arena *arena, const char *folder,
                           const struct hindrance *hindrance)
{
    return strcmp(hindrance->path, ".") == 0
               ? folder
               : arena_format(arena, "%s/%s", folder, hindrance->path);
}

bool strangers_make_parents(int folder, const char *path)
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
    if (!strangers_make_parents(to, path))
        return false;
    return renameat2(from, path, to, path, RENAME_NOREPLACE) == 0 ||
           (errno == EINVAL && renameat(from, path, to, path) == 0);
}

bool strangers_move(int from, int to, struct strangers *found)
{
    for (; found->moved < found->move_count; found->moved++)
        if (!move(from, to, found->moves[found->moved]))
            return false;
    return true;
}

bool strangers_move_back(int from, int to, struct strangers *found)
{
    for (; found->moved > 0; found->moved--)
        if (!move(to, from, found->moves[found->moved - 1]))
            return false;
    for (size_t i = 0; i < found->move_count; i++)
        remove_parents(to, found->moves[i]);
    return true;
}

void strangers_leave(int from, const struct strangers *found)
{
    for (size_t i = 0; i < found->own_count; i++)
        if (strcmp(found->own[i], LIST_NAME) != 0 && unlinkat(from, found->own[i], 0) != 0)
            unlinkat(from, found->own[i], AT_REMOVEDIR);
    unlinkat(from, LIST_NAME, 0);
}

void strangers_unlink(int folder, const char *path)
{
    unlinkat(folder, path, 0);
    remove_parents(folder, path);
}
