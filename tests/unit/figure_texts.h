/* What the texts of a figure say. */
#ifndef TESTS_FIGURE_TEXTS_H
#define TESTS_FIGURE_TEXTS_H

#include "doc/tree.h"
#include "test.h"

#include <string.h>

static inline bool shows(const struct figure *figure, const char *text)
{
    for (size_t i = 0; i < figure->text_count; i++)
        if (strcmp(figure->texts[i].text, text) == 0)
            return true;
    return false;
}

static inline bool shows_part(const struct figure *figure, const char *part)
{
    for (size_t i = 0; i < figure->text_count; i++)
        if (strstr(figure->texts[i].text, part))
            return true;
    return false;
}

static inline void assert_shows(const struct figure *figure, const char *part)
{
    if (!shows_part(figure, part))
        fail_msg("%s does not show '%s'", figure->name, part);
}

#endif
