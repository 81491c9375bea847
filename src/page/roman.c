#include "page/roman.h"

#include <string.h>

enum { MOST = 3999 };

void roman_write(struct buffer *out, long number)
{
    static const struct {
        long worth;
        const char *figures;
    } steps[] = {{1000, "m"}, {900, "cm"}, {500, "d"}, {400, "cd"}, {100, "c"},
                 {90, "xc"},  {50, "l"},   {40, "xl"}, {10, "x"},   {9, "ix"},
                 {5, "v"},    {4, "iv"},   {1, "i"}};
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
        for (; number >= steps[i].worth; number -= steps[i].worth)
            buffer_text(out, steps[i].figures);
}

long roman_read(const char *text)
{
    long found = 0;
    struct buffer roman = {0};
    if (strspn(text, "ivxlcdm") != strlen(text))
        return 0;
    for (long number = 1; number <= MOST && !found; number++) {
        roman.length = 0;
        roman_write(&roman, number);
        if (strcmp(roman.bytes, text) == 0)
            found = number;
    }
    buffer_free(&roman);
    return found;
}
