/* Who takes what is found, one sentence after another. */
#ifndef VERDICT_LISTENER_H
#define VERDICT_LISTENER_H

#include "shop/shop.h"

/* The text lasts only for the call. */
struct listener {
    void (*hear)(void *to, const char *remark);
    void *to;
};

/* Who tells a listener, and what stands before each of his sentences: nothing, or a place. */
struct speaker {
    const struct listener *listener;
    char before[256];
};

/* "file:line: date: " before each; without the date where that is NULL. */
struct speaker speaker_at(const struct listener *listener, struct place at, const char *date);

/* A sentence; what is over a thousand bytes is cut off. */
void speaker_say(const struct speaker *speaker, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

#endif
