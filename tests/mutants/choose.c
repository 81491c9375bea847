/* Linked into a program whose files hold their mutants side by side (tests/mutator.py).
 *
 * Before main() it forks: a first child runs the program as it is, and notes which functions
 * are reached; then one child for each mutant of those. A mutant is noticed when its child
 * ends otherwise than the first did, or takes five times its time, or, where the words are
 * compared, prints other words. The program itself then ends as the first child did, with its
 * words.
 *
 * MUTANTS   file of the numbers to try, a line each
 * NOTICED   file to which those noticed are added; those in it already are not tried again
 * COMPARE   set: the words printed are compared
 * EACH_IN   each child works in this folder's folder of its number, "0" for the program as
 *           it is
 * JOBS      children at a time
 * MUTANT    without MUTANTS: this mutant runs, and nothing is forked
 */
#include <fcntl.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <unistd.h>

enum { MOST_JOBS = 16, PAGE = 4096, MOST_MEMORY = 1 << 30 };

/* Written by check_mutants.py: for each number the function that it is in, -1 for none, and
 * what a mutant of a constant puts in its place. */
extern const int mutant_count, mutant_functions, mutant_function[];
extern void (*const *const mutant_data[])(void);

static unsigned char reached_alone[PAGE];
int mutant_chosen;
unsigned char *mutant_reached = reached_alone;

void mutant_poke(const void *there, const void *other, unsigned long size);
void mutant_poke(const void *there, const void *other, unsigned long size)
{
    char *page = (char *)((unsigned long)there & ~(unsigned long)(PAGE - 1));
    mprotect(page, (size_t)((const char *)there + size - page), PROT_READ | PROT_WRITE);
    memcpy((void *)(unsigned long)there, other, size);
}

struct child {
    pid_t id;
    int number, words; /* words: what it prints */
};

static struct child children[MOST_JOBS];
static int whole_status, whole_words, noticed_file;
static double whole_seconds;
static bool compared;

static void choose(int number)
{
    mutant_chosen = number;
    if (number > 0 && mutant_data[number])
        (*mutant_data[number])();
}

static void limit(double seconds)
{
    struct itimerval timer = {.it_value = {(time_t)seconds, (long)(seconds * 1e6) % 1000000}};
    struct rlimit memory = {MOST_MEMORY, MOST_MEMORY}, core = {0, 0};
    setitimer(ITIMER_PROF, &timer, NULL);
    setrlimit(RLIMIT_AS, &memory);
    setrlimit(RLIMIT_CORE, &core);
}

/* True in the child. */
static bool started(struct child *child, int number)
{
    child->number = number;
    child->words = memfd_create("words", MFD_CLOEXEC);
    child->id = fork();
    if (child->id)
        return false;
    dup2(child->words, STDOUT_FILENO);
    dup2(child->words, STDERR_FILENO);
    const char *folder = getenv("EACH_IN");
    char place[PAGE];
    if (folder) {
        snprintf(place, sizeof place, "%s/%d", folder, number);
        mkdir(place, 0777);
        if (chdir(place))
            _exit(99);
    }
    if (number)
        limit(5 * whole_seconds + 0.2);
    choose(number);
    return true;
}

static bool same_words(int file, int other)
{
    struct stat stat, other_stat;
    if (fstat(file, &stat) || fstat(other, &other_stat) || stat.st_size != other_stat.st_size)
        return false;
    size_t size = (size_t)stat.st_size;
    if (size == 0)
        return true;
    void *a = mmap(NULL, size, PROT_READ, MAP_SHARED, file, 0);
    void *b = mmap(NULL, size, PROT_READ, MAP_SHARED, other, 0);
    bool same = memcmp(a, b, size) == 0;
    munmap(a, size);
    munmap(b, size);
    return same;
}

/* Waits for a child; its place is free then. */
static void await_one(void)
{
    int status;
    pid_t id = wait(&status);
    for (int i = 0; i < MOST_JOBS; i++) {
        struct child *child = &children[i];
        if (child->id != id)
            continue;
        if (status != whole_status || (compared && !same_words(child->words, whole_words)))
            dprintf(noticed_file, "%d\n", child->number);
        close(child->words);
        child->id = 0;
        return;
    }
}

/* Copies to standard output what the program as it is has printed, and ends as it did. */
static void end_as_whole(void)
{
    char block[PAGE];
    lseek(whole_words, 0, SEEK_SET);
    for (ssize_t got; (got = read(whole_words, block, sizeof block)) > 0;)
        if (write(STDOUT_FILENO, block, (size_t)got) < got)
            _exit(99);
    if (WIFSIGNALED(whole_status))
        raise(WTERMSIG(whole_status));
    _exit(WEXITSTATUS(whole_status));
}

/* True in a child. */
static bool whole_started(void)
{
    struct child whole;
    struct rusage used;
    if (started(&whole, 0))
        return true;
    wait4(whole.id, &whole_status, 0, &used);
    whole_words = whole.words;
    whole_seconds = (double)used.ru_utime.tv_sec + (double)used.ru_utime.tv_usec / 1e6 +
                    (double)used.ru_stime.tv_sec + (double)used.ru_stime.tv_usec / 1e6;
    return false;
}

static void read_numbers(const char *name, char *known, char mark)
{
    FILE *file = fopen(name, "r");
    int number;
    while (file && fscanf(file, "%d", &number) == 1)
        if (number > 0 && number < mutant_count)
            known[number] = mark;
    if (file)
        fclose(file);
}

__attribute__((constructor)) static void begin(void)
{
    const char *alone = getenv("MUTANT"), *list = getenv("MUTANTS");
    const char *noticed = getenv("NOTICED"), *jobs = getenv("JOBS");
    if (alone)
        choose(atoi(alone));
    if (!list || !noticed)
        return;
    char *tried = calloc((size_t)mutant_count, 1);
    read_numbers(list, tried, 1);
    read_numbers(noticed, tried, 0);
    compared = getenv("COMPARE") != NULL;
    noticed_file = open(noticed, O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC, 0666);
    unsetenv("MUTANTS"); /* for what the program starts */
    mutant_reached = mmap(NULL, (size_t)mutant_functions, PROT_READ | PROT_WRITE,
                          MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (whole_started())
        return;
    int most = jobs ? atoi(jobs) : 1, running = 0;
    most = most < 1 ? 1 : most > MOST_JOBS ? MOST_JOBS : most;
    for (int number = 1; number < mutant_count; number++) {
        int function = mutant_function[number];
        if (!tried[number] || (function >= 0 && !mutant_reached[function]))
            continue;
        if (running == most)
            await_one();
        else
            running++;
        struct child *child = children;
        while (child->id)
            child++;
        if (started(child, number))
            return;
    }
    while (running--)
        await_one();
    end_as_whole();
}
