#include "base/fatal.h"

#include "base/utf8.h"

#include <limits.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void print_plainly(FILE *out, const char *text)
{
    while (*text) {
        const char *start = text;
        size_t length = utf8_valid(text, strnlen(text, 4));
        bool shown = length > 0 && !utf8_is_hidden(utf8_next(&text));
        text += length == 0;
        if (shown)
            fwrite(start, 1, (size_t)(text - start), out);
        else
            fputc('?', out);
    }
}

/* Memory may be what failed: two paths and the words have room here. */
static void print(const char *format, va_list args)
{
    static char message[3 * PATH_MAX];
    vsnprintf(message, sizeof message, format, args);
    fputs("spindlebook: ", stderr);
    print_plainly(stderr, message);
    fputc('\n', stderr);
}

void tell(const char *format, ...)
{
    va_list args;
    va_start(args, format);
    print(format, args);
    va_end(args);
}

_Noreturn void fatal(const char *format, ...)
{
    va_list args;
    va_start(args, format);
    print(format, args);
    va_end(args);
    exit(MACHINE_FAILED);
}

_Noreturn void fatal_no_memory(void)
{
    fatal("the machine has no memory left; close other programs and try again");
}
