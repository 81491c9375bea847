/* Makes the machine fail on purpose: a library to be loaded before the program
 * (LD_PRELOAD).
 *
 *   INJECT=memory:17:once   the 17th allocation fails
 *   INJECT=disk:4:on        the 4th call that touches files fails, and all behind it
 *   INJECT=disk:4:kill      the program is killed just before that call
 *   INJECT=disk:4:once,then:6:kill   it fails, and the program is killed before the 6th
 *   INJECT=swap:1:on        no two folders can be exchanged in one step
 *   INJECT=move:1:on        nothing can be renamed with a promise that it replaces nothing
 *   INJECT=swap:1:on,disk:4:kill   both
 *   INJECT=disk:4:stop      the program stops just before that call, till it is told to go on
 *   INJECT=list:3:once      the 3rd name of a folder's listing cannot be had
 *   INJECT=tidy:3:once      the 3rd file or folder cannot be removed
 *   INJECT_PLAN=FILE        nothing fails; FILE gets one line "GROUP NUMBER DISK" for
 *                           every allocation from a place of its own in the code, and for
 *                           every call that touches files; DISK: how many of the latter
 *                           came before
 *
 * Only calls from the program and its libraries are met; those within the C library
 * go their own way. Reading INJECT costs no allocation. */
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <execinfo.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);
void *__libc_memalign(size_t align, size_t size);

enum group { MEMORY, DISK, SWAP, MOVE, THEN, LIST, TIDY, GROUPS };
enum mode { OFF, ONCE, ON, KILL, STOP };
enum { STACKS = 1 << 16, FRAMES = 14 };

static const char *const names[GROUPS] = {"memory", "disk", "swap", "move",
                                          "then",   "list", "tidy"};
static struct wish {
    enum mode mode;
    unsigned long at, count;
} wishes[GROUPS];
static bool planning;
static int plan = -1;
static bool inside; /* one of ours is at work: its own calls do not count */
static uint64_t stacks[STACKS];

static void read_wish(const char *words)
{
    char word[16] = "", how[16] = "";
    unsigned long at;
    if (sscanf(words, "%15[a-z]:%lu:%15[a-z]", word, &at, how) != 3)
        abort();
    for (int i = 0; i < GROUPS; i++)
        if (strcmp(names[i], word) == 0)
            wishes[i] = (struct wish){.at = at,
                                      .mode = strcmp(how, "once") == 0   ? ONCE
                                              : strcmp(how, "on") == 0   ? ON
                                              : strcmp(how, "stop") == 0 ? STOP
                                                                         : KILL};
}

__attribute__((constructor)) static void begin(void)
{
    const char *words = getenv("INJECT"), *file = getenv("INJECT_PLAN");
    inside = true;
    if (file) {
        void *warm[2];
        backtrace(warm, 2); /* loads what it needs now, not within malloc() */
        plan = (int)syscall(SYS_openat, AT_FDCWD, file, O_WRONLY | O_CREAT | O_TRUNC, 0666);
        planning = true;
    }
    for (; words && *words; words += words[0] == ',') {
        read_wish(words);
        words += strcspn(words, ",");
    }
    inside = false;
}

/* Has an allocation come from this very stack before? */
static bool is_new_stack(void)
{
    void *frames[FRAMES];
    int depth = backtrace(frames, FRAMES);
    uint64_t sum = UINT64_C(14695981039346656037);
    for (int i = 2; i < depth; i++)
        sum = (sum ^ (uint64_t)(uintptr_t)frames[i]) * UINT64_C(1099511628211);
    sum |= 1;
    size_t slot = sum % STACKS;
    for (int tries = 0; tries < 64 && stacks[slot]; tries++, slot = (slot + 1) % STACKS)
        if (stacks[slot] == sum)
            return false;
    stacks[slot] = sum;
    return true;
}

static void note(enum group group)
{
    char line[64];
    inside = true;
    if (group != MEMORY || is_new_stack()) {
        int length = snprintf(line, sizeof line, "%s %lu %lu\n", names[group],
                              wishes[group].count, wishes[DISK].count);
        if (syscall(SYS_write, plan, line, (size_t)length) < 0)
            abort();
    }
    inside = false;
}

/* Counts a call; true when it must fail. */
static bool fails(enum group group, int error)
{
    struct wish *wish = &wishes[group];
    if (inside)
        return false;
    unsigned long number = ++wish->count;
    if (planning)
        note(group);
    if (group == DISK && wishes[THEN].mode == KILL && number == wishes[THEN].at)
        kill(getpid(), SIGKILL);
    if (wish->mode == OFF || number < wish->at || (wish->mode != ON && number != wish->at))
        return false;
    if (wish->mode == KILL || wish->mode == STOP)
        kill(getpid(), wish->mode == KILL ? SIGKILL : SIGSTOP);
    errno = error;
    return wish->mode != STOP;
}

void *malloc(size_t size)
{
    return fails(MEMORY, ENOMEM) ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return fails(MEMORY, ENOMEM) ? NULL : __libc_calloc(count, size);
}

void *realloc(void *memory, size_t size)
{
    return fails(MEMORY, ENOMEM) ? NULL : __libc_realloc(memory, size);
}

void *aligned_alloc(size_t align, size_t size)
{
    return fails(MEMORY, ENOMEM) ? NULL : __libc_memalign(align, size);
}

int posix_memalign(void **memory, size_t align, size_t size)
{
    void *made = fails(MEMORY, ENOMEM) ? NULL : __libc_memalign(align, size);
    if (made)
        *memory = made;
    return made ? 0 : ENOMEM;
}

static int open_in(int folder, const char *path, int flags, va_list args)
{
    mode_t bits = (flags & O_CREAT) ? va_arg(args, mode_t) : 0;
    if (fails(DISK, (flags & O_CREAT) ? ENOSPC : EIO))
        return -1;
    return (int)syscall(SYS_openat, folder, path, flags, bits);
}

int openat(int folder, const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    int handle = open_in(folder, path, flags, args);
    va_end(args);
    return handle;
}

int open(const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    int handle = open_in(AT_FDCWD, path, flags, args);
    va_end(args);
    return handle;
}

ssize_t read(int handle, void *bytes, size_t length)
{
    return fails(DISK, EIO) ? -1 : syscall(SYS_read, handle, bytes, length);
}

ssize_t write(int handle, const void *bytes, size_t length)
{
    return fails(DISK, ENOSPC) ? -1 : syscall(SYS_write, handle, bytes, length);
}

/* Closed all the same: the failure is what came late of an earlier write. */
int close(int handle)
{
    bool bad = fails(DISK, EIO);
    int error = errno, status = (int)syscall(SYS_close, handle);
    if (bad)
        errno = error;
    return bad ? -1 : status;
}

int fsync(int handle)
{
    return fails(DISK, EIO) ? -1 : (int)syscall(SYS_fsync, handle);
}

int syncfs(int handle)
{
    return fails(DISK, EIO) ? -1 : (int)syscall(SYS_syncfs, handle);
}

int ftruncate(int handle, off_t length)
{
    return fails(DISK, EIO) ? -1 : (int)syscall(SYS_ftruncate, handle, length);
}

int mkdir(const char *path, mode_t bits)
{
    return fails(DISK, ENOSPC) ? -1 : (int)syscall(SYS_mkdirat, AT_FDCWD, path, bits);
}

int mkdirat(int folder, const char *path, mode_t bits)
{
    return fails(DISK, ENOSPC) ? -1 : (int)syscall(SYS_mkdirat, folder, path, bits);
}

int rename(const char *from, const char *to)
{
    return fails(DISK, EIO) ? -1 : (int)syscall(SYS_renameat, AT_FDCWD, from, AT_FDCWD, to);
}

int renameat(int from_folder, const char *from, int to_folder, const char *to)
{
    return fails(DISK, EIO) ? -1 : (int)syscall(SYS_renameat, from_folder, from, to_folder, to);
}

int renameat2(int from_folder, const char *from, int to_folder, const char *to, unsigned flags)
{
    if (fails(flags & RENAME_EXCHANGE ? SWAP : MOVE, EINVAL) || fails(DISK, EIO))
        return -1;
    return (int)syscall(SYS_renameat2, from_folder, from, to_folder, to, flags);
}

/* Among the disk's calls these count, as moments to be killed at, and never fail. */
int unlinkat(int folder, const char *path, int flags)
{
    fails(DISK, 0);
    if (fails(TIDY, EIO))
        return -1;
    return (int)syscall(SYS_unlinkat, folder, path, flags);
}

struct dirent *readdir(DIR *entries)
{
    static struct dirent *(*real)(DIR *);
    if (!real)
        *(void **)&real = dlsym(RTLD_NEXT, "readdir");
    return fails(LIST, EIO) ? NULL : real(entries);
}

int rmdir(const char *path)
{
    fails(DISK, 0);
    return (int)syscall(SYS_unlinkat, AT_FDCWD, path, AT_REMOVEDIR);
}
