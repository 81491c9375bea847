/* The first bytes of a text, to look for a whole text that is just that. */
#ifndef BASE_TEXT_START_H
#define BASE_TEXT_START_H

#include <string.h>

struct text_start {
    const char *bytes; /* not owned; a NUL may follow later */
    size_t length;
};

/* As strcmp() of the start alone and a whole text. */
static inline int text_start_against(const struct text_start *start, const char *whole)
{
    int difference = strncmp(start->bytes, whole, start->length);
    return difference ? difference : -(whole[start->length] != '\0');
}

#endif
