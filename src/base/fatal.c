#include "base/fatal.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

_Noreturn void fatal(const char *format, ...)
{
    va_list args;
    va_start(args, format);
    fputs("spindlebook: ", stderr);
    vfprintf(stderr, format, args);
    fputc('\n', stderr);
    va_end(args);
    exit(MACHINE_FAILED);
}

_Noreturn void fatal_no_memory(void)
{
    fatal("the machine has no memory left; close other programs and try again");
}
