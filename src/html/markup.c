#include "html/markup.h"

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

static const char *reference_of(char c)
{
    switch (c) {
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

void markup(struct buffer *out, const char *format, ...)
{
    va_list texts;
    va_start(texts, format);
    for (const char *text; (text = strstr(format, "%s")); format = text + strlen("%s")) {
        buffer_add(out, format, (size_t)(text - format));
        escape_text(out, va_arg(texts, const char *));
    }
    va_end(texts);
    buffer_text(out, format);
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

void base64_add(struct buffer *out, const void *bytes, size_t length)
{
    static const char digits[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    const unsigned char *at = bytes;
    for (size_t i = 0; i < length; i += 3) {
        size_t here = length - i < 3 ? length - i : 3;
        uint32_t group = (uint32_t)at[i] << 16;
        group |= here > 1 ? (uint32_t)at[i + 1] << 8 : 0;
        group |= here > 2 ? (uint32_t)at[i + 2] : 0;
        char four[4] = {digits[group >> 18 & 63], digits[group >> 12 & 63],
                        here > 1 ? digits[group >> 6 & 63] : '=',
                        here > 2 ? digits[group & 63] : '='};
        buffer_add(out, four, sizeof four);
    }
}
