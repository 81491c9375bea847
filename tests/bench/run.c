/* run FILE WORDS...: runs a command and writes into FILE what it took: seconds of CPU, its own
 * and the kernel's for it, and KiB at its peak. A program of its own, because a process begins
 * with the peak of the one that starts it: from Python no program would seem to take less than
 * 15 MiB.
 */
#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

static double seconds(struct timeval time)
{
    return (double)time.tv_sec + (double)time.tv_usec * 1e-6;
}

int main(int count, char **words)
{
    int status;
    struct rusage used;
    if (count < 3)
        return 2;
    pid_t child = fork();
    if (child == 0) {
        execvp(words[2], words + 2);
        _exit(127);
    }
    if (child < 0 || wait4(child, &status, 0, &used) != child)
        return 3;
    FILE *out = fopen(words[1], "w");
    if (!out)
        return 3;
    fprintf(out, "%.6f %.6f %ld\n", seconds(used.ru_utime), seconds(used.ru_stime),
            used.ru_maxrss);
    fclose(out);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1;
}
