/* UTF-8 (RFC 3629): one code point at a time, and where a text goes wrong. */
#ifndef BASE_UTF8_H
#define BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

/* Reads the code point at *at and moves *at behind it. The text must be valid
 * and NUL-terminated; at its end this returns 0 and does not move. */
uint32_t utf8_next(const char **at);

/* Is this a control character, or one that is not seen, or that turns the writing's
 * direction? Line ends and tabs are controls; blanks, of whatever width, are none. */
bool utf8_is_hidden(uint32_t point);

/* Bytes of valid UTF-8 at the start of the given bytes; equal to length when
 * all of it is valid. Overlong forms and surrogates are not valid. */
size_t utf8_valid(const char *bytes, size_t length);

/* Code points in the first length bytes of valid UTF-8. */
size_t utf8_count(const char *bytes, size_t length);

/* The first bytes of a text, to look for a whole text that is just that. */

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

/* How many bytes must be changed, put in or left out to make one name of the other: for
 * messages that ask whether another one was meant. Long names, over 63 bytes, are far from all.
 */
size_t name_distance(const char *a, size_t a_length, const char *b, size_t b_length);

/* Whether another name is so near to one of this length that it was probably meant. */
bool name_is_near(size_t distance, size_t length);

#endif
