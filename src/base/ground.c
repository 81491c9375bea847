/* Landlock tells apart by place, seccomp by call: the one lets files be written below a folder,
 * the other none that is there already. */
#include "base/ground.h"

#include "base/memory.h"

#include <errno.h>
#include <fcntl.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/landlock.h>
#include <linux/seccomp.h>
#include <signal.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <sys/ioctl.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

void ground_begin(void)
{
    static const int instead[] = {O_WRONLY, O_RDONLY, O_WRONLY};
    for (int handle = 0; handle < 3; handle++)
        if (fcntl(handle, F_GETFD) == -1 && errno == EBADF)
            open("/dev/null", instead[handle]); /* takes the lowest number that is free */
    signal(SIGXFSZ, SIG_IGN);
}

#if defined __x86_64__
#define THIS_MACHINE AUDIT_ARCH_X86_64
#elif defined __aarch64__
#define THIS_MACHINE AUDIT_ARCH_AARCH64
#else
#define THIS_MACHINE 0 /* its calls are not listed below */
#endif

/* ---- by place ---- */

#define RIGHTS_OF_FILES                                                                        \
    (LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_EXECUTE | LANDLOCK_ACCESS_FS_WRITE_FILE)
#define RIGHTS_TO_READ (LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_READ_DIR)
#define ALL_RIGHTS     (2 * (uint64_t)LANDLOCK_ACCESS_FS_REFER - 1)
#define RIGHTS_TO_MAKE (ALL_RIGHTS & ~(uint64_t)LANDLOCK_ACCESS_FS_EXECUTE)

enum { FIRST_WITH_MOVES = 2 }; /* the version that lets files be moved between folders */

struct ground {
    int rules;
    bool lacks; /* something that is there could not be named: nothing is given up then */
};

bool ground_is_firm(void)
{
    return THIS_MACHINE && !getenv("SPINDLEBOOK_UNCONFINED") &&
           syscall(SYS_landlock_create_ruleset, NULL, 0, LANDLOCK_CREATE_RULESET_VERSION) >=
               FIRST_WITH_MOVES;
}

struct ground *ground_open(void)
{
    const struct landlock_ruleset_attr all = {.handled_access_fs = ALL_RIGHTS};
    int rules =
        ground_is_firm() ? (int)syscall(SYS_landlock_create_ruleset, &all, sizeof all, 0) : -1;
    if (rules < 0)
        return NULL;
    struct ground *ground = heap_get(sizeof *ground);
    ground->rules = rules;
    return ground;
}

void ground_allow(struct ground *ground, const char *path, enum ground_may may)
{
    static const uint64_t rights[] = {[MAY_READ] = RIGHTS_TO_READ,
                                      [MAY_TIDY] =
                                          RIGHTS_TO_READ | LANDLOCK_ACCESS_FS_REMOVE_DIR,
                                      [MAY_MAKE] = RIGHTS_TO_MAKE};
    struct stat status;
    int at = open(path, O_PATH | O_CLOEXEC);
    if (at < 0 || fstat(at, &status) != 0) {
        ground->lacks |= errno != ENOENT && errno != ENOTDIR;
    } else {
        struct landlock_path_beneath_attr below = {.allowed_access = rights[may],
                                                   .parent_fd = at};
        if (!S_ISDIR(status.st_mode))
            below.allowed_access &= RIGHTS_OF_FILES;
        ground->lacks |= syscall(SYS_landlock_add_rule, ground->rules,
                                 LANDLOCK_RULE_PATH_BENEATH, &below, 0) != 0;
    }
    if (at >= 0)
        close(at);
}

/* ---- by call ---- */

/* What the program and the C library call, of this version or another; some only exist on one
 * machine. What is not here fails as if the kernel did not know it. */
/* clang-format off */
static const int calls[] = {
#ifdef __x86_64__
    SYS_stat, SYS_lstat, SYS_access, SYS_readlink, SYS_mkdir, SYS_rmdir, SYS_unlink, SYS_rename,
    SYS_time,
#endif
    SYS_read, SYS_pread64, SYS_readv, SYS_write, SYS_writev, SYS_lseek, SYS_close, SYS_dup,
    SYS_fcntl, SYS_flock, SYS_syncfs, SYS_fsync, SYS_fstat, SYS_newfstatat, SYS_statx,
    SYS_getdents64, SYS_faccessat, SYS_faccessat2, SYS_readlinkat, SYS_getcwd, SYS_fadvise64,
    SYS_mkdirat, SYS_unlinkat, SYS_renameat, SYS_renameat2, SYS_fchmod, SYS_fchown,
    SYS_fgetxattr, SYS_fsetxattr, SYS_fremovexattr, SYS_mmap, SYS_munmap, SYS_mprotect,
    SYS_mremap, SYS_madvise, SYS_brk, SYS_rt_sigaction, SYS_rt_sigprocmask, SYS_rt_sigreturn,
    SYS_kill, SYS_tgkill, SYS_futex, SYS_getpid, SYS_gettid, SYS_getuid, SYS_geteuid,
    SYS_getgid, SYS_getegid, SYS_clock_gettime, SYS_gettimeofday, SYS_clock_nanosleep,
    SYS_nanosleep, SYS_restart_syscall, SYS_getrandom, SYS_sysinfo, SYS_uname, SYS_prlimit64,
    SYS_sched_getaffinity, SYS_exit, SYS_exit_group
};
/* clang-format on */

enum { CALLS = sizeof calls / sizeof calls[0] };

#define ABSOLUTE               (BPF_LD | BPF_W | BPF_ABS)
#define LOAD(field)            BPF_STMT(ABSOLUTE, offsetof(struct seccomp_data, field))
#define UNLESS(value, skipped) BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (value), 0, (skipped))
#define ANSWER(value)          BPF_STMT(BPF_RET | BPF_K, (value))
#define ALLOWED                ANSWER(SECCOMP_RET_ALLOW)
#define FAILS(error)           ANSWER(SECCOMP_RET_ERRNO | (error))

/* Both machines are little-endian: the low half of an argument comes first. */
static bool close_calls(void)
{
    static const struct sock_filter head[] = {
        LOAD(arch),
        UNLESS(THIS_MACHINE, 11),
        LOAD(nr),
        UNLESS(SYS_openat, 5), /* to be written: a file that is not there alone */
        LOAD(args[2]),
        BPF_STMT(BPF_ALU | BPF_AND | BPF_K, O_ACCMODE | O_CREAT | O_EXCL | O_TRUNC),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, O_RDONLY, 1, 0),
        UNLESS(O_WRONLY | O_CREAT | O_EXCL, 5),
        ALLOWED,
        UNLESS(SYS_ioctl, 4), /* of a terminal: whether it is one */
        LOAD(args[1]),
        UNLESS(TCGETS, 1),
        ALLOWED,
        FAILS(EACCES),
    };
    enum { HEAD = sizeof head / sizeof head[0] };
    struct sock_filter filter[HEAD + 2 * CALLS + 1];
    size_t length = 0;
    for (; length < HEAD; length++)
        filter[length] = head[length];
    for (size_t i = 0; i < CALLS; i++) {
        filter[length++] = (struct sock_filter)UNLESS((unsigned)calls[i], 1);
        filter[length++] = (struct sock_filter)ALLOWED;
    }
    filter[length++] = (struct sock_filter)FAILS(ENOSYS);
    const struct sock_fprog program = {.len = (unsigned short)length, .filter = filter};
    return syscall(SYS_seccomp, SECCOMP_SET_MODE_FILTER, 0, &program) == 0;
}

void ground_close(struct ground *ground)
{
    if (!ground)
        return;
    if (!ground->lacks && prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
        syscall(SYS_landlock_restrict_self, ground->rules, 0) == 0)
        close_calls();
    close(ground->rules);
    free(ground);
}
