#include "base/side.h"

#include "base/buffer.h"
#include "base/fatal.h"

#include <errno.h>
#include <sched.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

/* What a process ends with: an answer, behind what others end with. */
enum { ANSWERS = 100 };

struct side {
    side_work *work;
    void *with;
    pid_t process;     /* 0: none */
    int words;         /* read here what the process says on standard error */
    struct side *next; /* another that is under way */
};

static struct side *under_way;

void side_stop_all(void)
{
    for (struct side *side = under_way; side; side = side->next) {
        kill(side->process, SIGKILL);
        while (waitpid(side->process, NULL, 0) < 0 && errno == EINTR)
            ;
    }
    under_way = NULL;
}

static bool several_processors(void)
{
    cpu_set_t allowed;
    return sched_getaffinity(0, sizeof allowed, &allowed) == 0 && CPU_COUNT(&allowed) > 1;
}

/* Its words go to the one who waits, so that of several that fail one is heard. */
_Noreturn static void be_the_process(const struct side *side, pid_t parent, int words)
{
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (getppid() != parent)
        _exit(FATAL_STATUS);
    under_way = NULL;
    dup2(words, STDERR_FILENO);
    close(words);
    exit(ANSWERS + side->work(side->with));
}

static void start(struct side *side)
{
    static bool registered;
    int ends[2];
    pid_t parent = getpid();
    if (!registered && atexit(side_stop_all) != 0)
        return;
    registered = true;
    if (pipe(ends) != 0)
        return;
    fflush(NULL); /* what waits to be written would be written twice */
    side->process = fork();
    if (side->process == 0) {
        close(ends[0]);
        be_the_process(side, parent, ends[1]);
    }
    close(ends[1]);
    side->words = ends[0];
    if (side->process < 0)
        close(ends[0]);
}

struct side *side_begin(struct arena *arena, side_work *work, void *with)
{
    struct side *side = arena_get(arena, sizeof *side);
    *side = (struct side){.work = work, .with = with};
    if (several_processors())
        start(side);
    if (side->process > 0) {
        side->next = under_way;
        under_way = side;
    }
    return side;
}

/* All that it says, until it ends. */
static void hear(const struct side *side, struct buffer *said)
{
    char part[4096];
    ssize_t length;
    while ((length = read(side->words, part, sizeof part)) != 0)
        if (length > 0)
            buffer_add(said, part, (size_t)length);
        else if (errno != EINTR)
            break;
    close(side->words);
}

static int wait_for(struct side *side)
{
    int status = 0;
    while (waitpid(side->process, &status, 0) < 0 && errno == EINTR)
        ;
    struct side **at = &under_way;
    while (*at != side)
        at = &(*at)->next;
    *at = side->next;
    return status;
}

int side_end(struct side *side)
{
    struct buffer said = {0};
    if (side->process <= 0)
        return side->work(side->with);
    hear(side, &said);
    int status = wait_for(side);
    if (said.length)
        fwrite(said.bytes, 1, said.length, stderr);
    buffer_free(&said);
    if (WIFSIGNALED(status))
        fatal("a process of this run was ended by signal %d (%s); nothing was changed",
              WTERMSIG(status), strsignal(WTERMSIG(status)));
    if (WEXITSTATUS(status) < ANSWERS)
        exit(FATAL_STATUS);
    return WEXITSTATUS(status) - ANSWERS;
}
