/* Who takes what is found, one sentence after another. */
#ifndef VERDICT_LISTENER_H
#define VERDICT_LISTENER_H

#include <stdarg.h>

/* The text lasts only for the call. */
struct listener {
    void (*hear)(void *to, const char *remark);
    void *to;
};

/* Tells it `before` and the sentence; what is over a thousand bytes is cut off. */
void listener_tell(const struct listener *listener, const char *before, const char *format,
                   va_list args);

#endif
