#include "drum/strokes.h"

#include <ctype.h>
#include <string.h>

/* A letter, then its strokes with blanks between them; of each point x and y, where a, b, c
 * are 10, 11, 12. Drawn by hand. */
static const char *const letters[] = {
    "0 20 02 0a 2c|60 82 8a 6c|45 47",
    "1 1a 4c 40",
    "2 0a 2c 6c 8a 88 02 00 80",
    "3 0a 2c 6c 8a 88 66 84 82 60 20 02",
    "4 1c 15 55|8c 80",
    "5 8c 0c 07 67 85 82 60 20 02",
    "6 7c 2c 0a 02 20 60 82 84 66 36",
    "7 0c 8c 8a 40",
    "8 30 20 02 04 26 66 84 82 60|08 0a 2c 6c 8a 88",
    "9 10 60 82 8a 6c 2c 0a 08 26 56",
    "A 00 0a 2c 6c 8a 80|35 55",
    "B 0c 00|3c 6c 8a 88 66 84 82 60 30",
    "C 8a 6c 2c 0a 02 20 60 82",
    "D 0c 00|3c 6c 8a 82 60 30",
    "E 8c 0c 00 80|36 66",
    "F 8c 0c 00|36 66",
    "G 8a 6c 2c 0a 02 20 60 82 86 56",
    "H 0c 00|8c 80|36 56",
    "I 4c 40",
    "J 8c 82 60 20 02",
    "K 0c 00|8c 36 80",
    "L 0c 00 80",
    "M 00 0a 2c 4a 6c 8a 80",
    "N 0c 00|8c 80|3a 52",
    "O 20 02 0a 2c|60 82 8a 6c",
    "P 00 0c 6c 8a 87 65 35",
    "Q 20 02 0a 2c|60 82 8a 6c|36 53",
    "R 00 0c 6c 8a 88 66 36|63 80",
    "S 8a 6c 2c 0a 08 26 66 84 82 60 20 02",
    "T 0c 8c|49 40",
    "U 0c 02 20 60 82 8c",
    "V 0c 04 40 84 8c",
    "W 0c 02 20 42 60 82 8c",
    "X 0c 26 00|8c 66 80",
    "Y 0c 46 8c|43 40",
    "Z 0c 8c 8a 02 00 80",
    "- 26 66",
    ". 40 41",
    "/ 00 8c",
    "+ 16 76|4a 48|44 42",
    ": 43 44|48 49",
    ", 41 30",
    "( 6c 4a 42 60",
    ") 2c 4a 42 20",
    "= 28 68|24 64",
    "[ 8c 4c 40 80",
    "] 0c 4c 40 00",
    "  ",
};

static const char *letter_of(char sign)
{
    for (size_t i = 0; i < sizeof letters / sizeof letters[0]; i++)
        if (letters[i][0] == toupper((unsigned char)sign))
            return letters[i] + 2;
    return NULL;
}

static double step_of(char sign)
{
    return sign <= '9' ? sign - '0' : sign - 'a' + 10;
}

/* The strokes of a letter from this one on; NULL where it has no more. */
static const char *part_of(const char *strokes, size_t part)
{
    for (; part > 0 && strokes; part--) {
        strokes = strchr(strokes, '|');
        if (strokes)
            strokes++;
    }
    return strokes && *strokes ? strokes : NULL;
}

bool stroke_next(const char **text, size_t *part, size_t *letter, struct stroke *stroke)
{
    for (; **text; ++*text, ++*letter, *part = 0) {
        const char *strokes = letter_of(**text);
        const char *from = strokes ? part_of(strokes, *part) : NULL;
        if (!from)
            continue;
        stroke->count = 0;
        for (; *from && *from != '|'; from += from[2] == ' ' ? 3 : 2) {
            stroke->points[stroke->count].x = step_of(from[0]);
            stroke->points[stroke->count++].y = step_of(from[1]);
        }
        ++*part;
        return true;
    }
    return false;
}

const char *stroke_unknown(const char *text)
{
    for (; *text; text++)
        if (!letter_of(*text) || strchr("+:,()=[]", *text))
            return text;
    return NULL;
}
