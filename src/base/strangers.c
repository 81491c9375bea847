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
};

static void read_list(struct search *search)
{
    struct file_text text;
    const char *name = arena_format(search->arena, "%s/%s", search->folder, LIST_NAME);
    struct stat status;
    if (fstatat(search->from, LIST_NAME, &status, AT_SYMLINK_NOFOLLOW) != 0)
        return;
    if (!file_read_bytes(search->arena, name, &text))
        fatal("%s cannot be read: %s", name, strerror(errno));
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
    size_t length = strlen(path);
    for (size_t i = 0; i < search->listed_count; i++)
        if (strncmp(search->listed[i], path, length) == 0 && search->listed[i][length] == '/')
            return true;
    return false;
}

enum there { NOTHING, FOLDER, OTHER };

static enum there look(int folder, const char *path)
{
    struct stat status;
    if (folder < 0 || fstatat(folder, path, &status, AT_SYMLINK_NOFOLLOW) != 0)
        return NOTHING;
    return S_ISDIR(status.st_mode) ? FOLDER : OTHER;
}

static void walk(struct search *search, const char *path);

static void sort_entry(struct search *search, const char *path)
{
    struct strangers *found = search->found;
    enum there here = look(search->from, path), there = look(search->to, path);
    bool both = here == FOLDER && there == FOLDER;
    if (here == FOLDER && there != OTHER && (both || holds_listed(search, path))) {
        walk(search, path);
        *ARENA_PUSH(search->arena, found->own, found->own_count) = path;
    } else if (here == OTHER && is_listed(search, path)) {
        *ARENA_PUSH(search->arena, found->own, found->own_count) = path;
    } else if (there != NOTHING) {
        *ARENA_PUSH(search->arena, found->taken, found->taken_count) = path;
    } else if (here != NOTHING) {
        *ARENA_PUSH(search->arena, found->moves, found->move_count) = path;
    }
}

/* The names in a folder, so that no more than one is open at a time. */
static const char **names_in(struct search *search, const char *path)
{
    const char **names = NULL;
    size_t count = 0;
    int handle = openat(search->from, path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    DIR *entries = handle < 0 ? NULL : fdopendir(handle);
    if (!entries)
        fatal("the folder %s/%s cannot be read: %s; nothing was changed", search->folder, path,
              strerror(errno));
    for (struct dirent *entry; (entry = readdir(entries));)
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0) {
            const char *name = arena_text(search->arena, entry->d_name);
            *ARENA_PUSH(search->arena, names, count) = name;
        }
    closedir(entries);
    if (count)
        qsort(names, count, sizeof *names, file_order);
    *ARENA_PUSH(search->arena, names, count) = NULL;
    return names;
}

/* Only as deep as the set's own folders, or as far as two folders are alike. */
static void walk(struct search *search, const char *path)
{
    const char **names = names_in(search, path);
    for (size_t i = 0; names[i]; i++)
        sort_entry(search, strcmp(path, ".") == 0
                               ? names[i]
                               : arena_format(search->arena, "%s/%s", path, names[i]));
}

void strangers_find(struct arena *arena, int from, int to, const char *path,
                    struct strangers *found)
{
    struct search search = {
        .arena = arena, .folder = path, .from = from, .to = to, .found = found};
    *found = (struct strangers){0};
    read_list(&search);
    walk(&search, ".");
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

bool strangers_move(int from, int to, const struct strangers *found)
{
    int error = 0;
    for (size_t i = 0; i < found->move_count; i++)
        if (!strangers_make_parents(to, found->moves[i]) ||
            renameat2(from, found->moves[i], to, found->moves[i], RENAME_NOREPLACE) != 0)
            error = errno;
    errno = error;
    return error == 0;
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
    char copy[PATH_MAX];
    if (strlen(path) >= sizeof copy)
        return;
    strcpy(copy, path);
    unlinkat(folder, copy, 0);
    for (char *slash; (slash = strrchr(copy, '/'));) {
        *slash = '\0';
        unlinkat(folder, copy, AT_REMOVEDIR);
    }
}
