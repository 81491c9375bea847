#include "book_parts.h"

#include <stddef.h>
#include <string.h>

unsigned book_part_named(const char *name)
{
    static const struct {
        const char *name;
        unsigned part;
    } parts[] = {{"site", PART_SITE},       {"single", PART_SINGLE}, {"tables", PART_TABLES},
                 {"booklet", PART_BOOKLET}, {"fold", PART_FOLD},     {"card", PART_CARD},
                 {"aids", PART_AIDS},       {"forms", PART_FORMS}};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (strcmp(parts[i].name, name) == 0)
            return parts[i].part;
    return 0;
}
