#include "paint/escape.h"

#include <string.h>

static const char *reference_of(char sign)
{
    switch (sign) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    default:
        return "&#39;";
    }
}

void escape_text(struct buffer *out, const char *text)
{
    for (;;) {
        size_t plain = strcspn(text, "&<>\"'");
        buffer_add(out, text, plain);
        text += plain;
        if (!*text)
            return;
        buffer_text(out, reference_of(*text++));
    }
}

void escape_link(struct buffer *out, const char *name)
{
    static const char safe[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                               "0123456789-._";
    for (;;) {
        size_t plain = strspn(name, safe);
        buffer_add(out, name, plain);
        name += plain;
        if (!*name)
            return;
        buffer_print(out, "%%%02X", (unsigned)(unsigned char)*name++);
    }
}
