#include "verdict/listener.h"

#include <stdio.h>

void listener_tell(const struct listener *listener, const char *before, const char *format,
                   va_list args)
{
    char text[1000];
    int used = snprintf(text, sizeof text, "%.300s", before);
    vsnprintf(text + used, sizeof text - (size_t)used, format, args);
    listener->hear(listener->to, text);
}
