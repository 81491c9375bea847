#include "base/leftover.h"

#include "base/fatal.h"
#include "base/file.h"
#include "base/strangers.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

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
    struct strangers found;
    int outputs = open_outputs(folder);
    strangers_find(arena, handle, outputs, left, &found);
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
    if (!strangers_move(handle, outputs, &found))
        fatal("an interrupted run left files of yours in %s, and they cannot be put back into "
              "%s: %s; move them there yourself",
              left, folder, strerror(errno));
    strangers_leave(handle, &found);
    rmdir(left);
    if (outputs >= 0)
        close(outputs);
}

static void step_back(const char *folder, const char *left)
{
    if (rename(left, folder) != 0)
        fatal(
            "an interrupted run left the outputs in %s, and they cannot be put back to %s: %s",
            left, folder, strerror(errno));
}

static void look_at(struct arena *arena, const char *folder, const char *left, long pid)
{
    struct stat status;
    int handle = open(left, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (handle < 0)
        return;
    bool alive = is_alive(handle, pid);
    if (!alive && file_ends_in(left, LEFTOVER_ASIDE) && lstat(folder, &status) != 0)
        step_back(folder, left);
    else if (!alive)
        clear_one(arena, folder, left, handle);
    close(handle);
}

void leftovers_clear(struct arena *arena, const char *folder)
{
    const char *base = strrchr(folder, '/') + 1;
    const char *parent = arena_slice(arena, folder, (size_t)(base - folder));
    const char **names = NULL;
    size_t count = 0;
    DIR *entries = opendir(parent);
    if (!entries)
        return;
    for (struct dirent *entry; (entry = readdir(entries));)
        if (leftover_pid(entry->d_name, base)) {
            const char *name = arena_text(arena, entry->d_name);
            *ARENA_PUSH(arena, names, count) = name;
        }
    closedir(entries);
    for (int aside = 1; aside >= 0; aside--) /* what may step back comes first */
        for (size_t i = 0; i < count; i++)
            if (file_ends_in(names[i], LEFTOVER_ASIDE) == (aside == 1))
                look_at(arena, folder, arena_format(arena, "%s%s", parent, names[i]),
                        leftover_pid(names[i], base));
}
