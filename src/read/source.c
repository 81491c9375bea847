#include "read/source.h"

#include "base/utf8.h"

#include <string.h>

static void stand_at(struct source *source, const char *line, int number)
{
    source->line = line;
    source->number = number;
    source->counted = source->characters = 0;
    source->lead = strspn(line, " \t>");
}

void source_begin(struct source *source, const char *text)
{
    source->text = text;
    stand_at(source, text, 1);
}

/* CR LF is one line end. */
static bool go_down(struct source *source)
{
    const char *end = source->line + strcspn(source->line, "\r\n");
    if (!*end)
        return false;
    stand_at(source, end + (end[0] == '\r' && end[1] == '\n' ? 2 : 1), source->number + 1);
    return true;
}

static void go_up(struct source *source)
{
    const char *at = source->line - 1;
    if (at > source->text && at[0] == '\n' && at[-1] == '\r')
        at--;
    while (at > source->text && at[-1] != '\n' && at[-1] != '\r')
        at--;
    stand_at(source, at, source->number - 1);
}

/* The last line where there are fewer. */
static void go_to(struct source *source, int number)
{
    while (source->number > number && source->number > 1)
        go_up(source);
    while (source->number < number && go_down(source))
        ;
}

size_t source_lead(struct source *source, int number)
{
    go_to(source, number);
    return source->lead;
}

int source_column(struct source *source, int number, int byte)
{
    go_to(source, number);
    size_t before = byte > 1 ? (size_t)byte - 1 : 0;
    if (before < source->counted)
        source->counted = source->characters = 0;
    const char *next = source->line + source->counted;
    size_t length = strnlen(next, before - source->counted);
    source->characters += utf8_count(next, length);
    source->counted += length;
    return (int)source->characters + 1;
}

bool source_goes_on(const struct source *source, const char *text)
{
    return strncmp(source->line + source->counted, text, strlen(text)) == 0;
}
