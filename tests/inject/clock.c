/* Another clock: a library to be loaded before the program (LD_PRELOAD). It is then
 * the year 2049. */
#include <stdbool.h>
#include <sys/time.h>
#include <time.h>

static const time_t then = 2500000000;

time_t time(time_t *seconds)
{
    if (seconds)
        *seconds = then;
    return then;
}

int clock_gettime(clockid_t clock, struct timespec *at)
{
    (void)clock;
    *at = (struct timespec){.tv_sec = then, .tv_nsec = 123456789};
    return 0;
}

int gettimeofday(struct timeval *restrict at, void *restrict zone)
{
    (void)zone;
    *at = (struct timeval){.tv_sec = then, .tv_usec = 123456};
    return 0;
}
