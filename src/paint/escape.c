#include "paint/escape.h"

#include <stdbool.h>
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

static bool is_safe(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           c == '-' || c == '.' || c == '_';
}

void escape_link(struct buffer *out, const char *name)
{
    for (;;) {
        size_t plain = 0;
        while (is_safe(name[plain]))
            plain++;
        buffer_add(out, name, plain);
        name += plain;
        if (!*name)
            return;
        buffer_print(out, "%%%02X", (unsigned)(unsigned char)*name++);
    }
}
