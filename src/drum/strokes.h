/* Letters and digits as strokes, to be cut: no two strokes of one touch each other. */
#ifndef DRUM_STROKES_H
#define DRUM_STROKES_H

#include <stdbool.h>
#include <stddef.h>

/* A letter stands on a grid of twelve steps to its height, and is eight steps wide. */
enum { LETTER_HEIGHT = 12, LETTER_ADVANCE = 11, STROKE_POINTS = 16 };

/* Half the width of a stroke that is cut, in steps: between two there are three steps. */
#define STROKE_HALF 0.85

struct stroke {
    struct {
        double x, y; /* steps, from the lower left */
    } points[STROKE_POINTS];
    size_t count;
};

/* The strokes of a text one by one: the next of the letter that *text points to, or of the
 * first behind it that has one more, then so many letters on; false at the end. *part starts at
 * 0. Small letters are cut as great ones. */
bool stroke_next(const char **text, size_t *part, size_t *letter, struct stroke *stroke);

/* The first character that a mark cannot have; NULL where it can have all. */
const char *stroke_unknown(const char *text);

#endif
