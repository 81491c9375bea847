/* Lines and columns of a text as an editor counts them: in characters, not in bytes. */
#ifndef READ_SOURCE_H
#define READ_SOURCE_H

#include <stdbool.h>
#include <stddef.h>

/* Where it was looked last: most looks go a little further from there. */
struct source {
    const char *text;
    const char *line;  /* in the text ... */
    int number;        /* ... and which it is, from 1 */
    size_t counted;    /* bytes of the line ... */
    size_t characters; /* ... and how many characters they are */
    size_t lead;       /* bytes of blanks and quote signs at its start */
};

void source_begin(struct source *source, const char *text);

/* Bytes of blanks and quote signs at the start of a line. */
size_t source_lead(struct source *source, int number);

/* Whether the text goes on so from the place whose column was asked for last. */
bool source_goes_on(const struct source *source, const char *text);

/* Of the character that begins at a byte of that line, both from 1. */
int source_column(struct source *source, int number, int byte);

#endif
