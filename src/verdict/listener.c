#include "verdict/listener.h"

#include <stdarg.h>
#include <stdio.h>

struct speaker speaker_at(const struct listener *listener, struct place at, const char *date)
{
    struct speaker speaker = {.listener = listener};
    snprintf(speaker.before, sizeof speaker.before, "%.200s:%d: %s%s", at.file, at.line,
             date ? date : "", date ? ": " : "");
    return speaker;
}

void speaker_say(const struct speaker *speaker, const char *format, ...)
{
    char text[1000];
    int used = snprintf(text, sizeof text, "%s", speaker->before);
    va_list args;
    va_start(args, format);
    vsnprintf(text + used, sizeof text - (size_t)used, format, args);
    va_end(args);
    speaker->listener->hear(speaker->listener->to, text);
}
