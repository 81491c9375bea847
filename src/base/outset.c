#include "base/outset.h"

#include "base/fatal.h"
#include "base/tree_remove.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct outset {
    struct arena *arena;
    const char *folder; /* where the set is to appear */
    const char *fresh;  /* where it is being written */
};

/* The folder to remove when the program ends before the set is whole. */
static char unfinished[PATH_MAX];

static void remove_unfinished(void)
{
    if (unfinished[0])
        tree_remove(unfinished);
    unfinished[0] = '\0';
}

static void make_folder(const char *path)
{
    if (mkdir(path, 0777) != 0 && errno != EEXIST)
        fatal("the folder %s cannot be made: %s", path, strerror(errno));
}

static void make_parents(struct arena *arena, const char *path)
{
    char *copy = arena_text(arena, path);
    for (char *slash = strchr(copy + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        make_folder(copy);
        *slash = '/';
    }
}

/* Moves what is no part of the new set from one folder to the other. */
static void move_strangers(struct arena *arena, const char *from, const char *to)
{
    DIR *entries = opendir(from);
    if (!entries)
        return;
    for (struct dirent *entry; (entry = readdir(entries));) {
        const char *name = entry->d_name;
        if (strcmp(name, ".") == 0 || strcmp(name, "..") == 0)
            continue;
        const char *target = arena_format(arena, "%s/%s", to, name);
        struct stat status;
        if (lstat(target, &status) != 0)
            rename(arena_format(arena, "%s/%s", from, name), target);
    }
    closedir(entries);
}

/* The path without links or dots, so that a folder beside it can be named. */
static const char *settle_path(struct arena *arena, const char *folder)
{
    char real[PATH_MAX];
    make_parents(arena, folder);
    make_folder(folder);
    if (!realpath(folder, real))
        fatal("the folder %s cannot be used: %s", folder, strerror(errno));
    return arena_text(arena, real);
}

struct outset *outset_begin(struct arena *arena, const char *folder)
{
    static int registered;
    struct outset *set = arena_get(arena, sizeof *set);
    set->arena = arena;
    set->folder = settle_path(arena, folder);
    set->fresh = arena_format(arena, "%s.part-%ld", set->folder, (long)getpid());
    if (strlen(set->fresh) >= sizeof unfinished)
        fatal("the path %s is too long", set->folder);
    tree_remove(set->fresh);
    make_folder(set->fresh);
    strcpy(unfinished, set->fresh);
    if (!registered && atexit(remove_unfinished) == 0)
        registered = 1;
    return set;
}

static void write_all(int handle, const char *path, const char *bytes, size_t length)
{
    while (length > 0) {
        ssize_t done = write(handle, bytes, length);
        if (done < 0 && errno == EINTR)
            continue;
        if (done < 0)
            fatal("%s cannot be written: %s; nothing was changed", path, strerror(errno));
        bytes += done;
        length -= (size_t)done;
    }
}

void outset_write(struct outset *set, const char *path, const void *bytes, size_t length)
{
    const char *full = arena_format(set->arena, "%s/%s", set->fresh, path);
    make_parents(set->arena, full);
    int handle = open(full, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    if (handle < 0)
        fatal("%s cannot be written: %s; nothing was changed", full, strerror(errno));
    write_all(handle, full, bytes, length);
    if (close(handle) != 0)
        fatal("%s cannot be written: %s; nothing was changed", full, strerror(errno));
}

/* Where the file system cannot exchange two folders, the old one steps aside
 * first; there is then a moment without outputs, but never a mix. */
static void step_aside(struct outset *set, const char *old)
{
    if (rename(set->folder, old) != 0 || rename(set->fresh, set->folder) != 0)
        fatal("the new outputs cannot be put at %s: %s", set->folder, strerror(errno));
}

void outset_commit(struct outset *set)
{
    const char *old = set->fresh;
    if (renameat2(AT_FDCWD, set->fresh, AT_FDCWD, set->folder, RENAME_EXCHANGE) != 0) {
        old = arena_format(set->arena, "%s.old-%ld", set->folder, (long)getpid());
        step_aside(set, old);
    }
    unfinished[0] = '\0';
    move_strangers(set->arena, old, set->folder);
    tree_remove(old);
}
