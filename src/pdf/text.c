#include "pdf/text.h"

#include "base/fatal.h"
#include "base/utf8.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static const double LARGEST = 32767; /* the largest real number of PDF 1.x readers */

long pdf_thousandths(double value)
{
    if (!isfinite(value) || fabs(value) > LARGEST)
        fatal("a number for the PDF is not finite or is off any paper (%g); "
              "this is a fault of the program",
              value);
    return lround(value * 1000);
}

/* Pages hold tens of thousands of numbers; printf would cost more than the rest. The last
 * digits are behind the point. */
static void put_digits(struct buffer *out, bool negative, unsigned long rest, int decimals)
{
    char digits[24];
    char *end = digits + sizeof digits, *at = end;
    for (; decimals > 0 && rest % 10 == 0; decimals--)
        rest /= 10;
    for (int place = 0; place <= decimals || rest > 0; place++) {
        if (place == decimals && decimals > 0)
            *--at = '.';
        *--at = (char)('0' + rest % 10);
        rest /= 10;
    }
    if (negative)
        *--at = '-';
    buffer_add(out, at, (size_t)(end - at));
}

static void put_thousandths(struct buffer *out, long value)
{
    put_digits(out, value < 0, (unsigned long)labs(value), 3);
}

void pdf_print(struct buffer *out, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    for (const char *at; (at = strchr(format, '%')); format = at + 1) {
        buffer_add(out, format, (size_t)(at - format));
        if (*++at == 'f') {
            put_thousandths(out, pdf_thousandths(va_arg(values, double)));
        } else if (*at == 's') {
            buffer_text(out, va_arg(values, const char *));
        } else if (*at == 'd') {
            int value = va_arg(values, int);
            put_digits(out, value < 0, (unsigned long)labs(value), 0);
        } else if (*at == 'u') {
            put_digits(out, false, va_arg(values, unsigned), 0);
        } else {
            at++; /* the u of zu */
            put_digits(out, false, va_arg(values, size_t), 0);
        }
    }
    va_end(values);
    buffer_text(out, format);
}

static void put_unit(struct buffer *out, uint32_t unit)
{
    static const char digits[] = "0123456789ABCDEF";
    char hex[4] = {digits[unit >> 12 & 15], digits[unit >> 8 & 15], digits[unit >> 4 & 15],
                   digits[unit & 15]};
    buffer_add(out, hex, sizeof hex);
}

void pdf_string(struct buffer *out, const char *text)
{
    buffer_text(out, "<FEFF");
    for (uint32_t point; (point = utf8_next(&text)) != 0;) {
        if (point > 0xFFFF) {
            put_unit(out, 0xD800 + ((point - 0x10000) >> 10));
            point = 0xDC00 + (point & 0x3FF);
        }
        put_unit(out, point);
    }
    buffer_text(out, ">");
}

/* A byte as it stands in a literal string; gives what is behind it. */
static char *put_byte(char *at, uint32_t byte)
{
    if (byte == '(' || byte == ')' || byte == '\\' || byte == '\r')
        *at++ = '\\';
    *at++ = byte == '\r' ? 'r' : (char)byte;
    return at;
}

static char *put_code(char *at, uint32_t point)
{
    return put_byte(put_byte(at, point >> 8), point & 0xFF);
}

void pdf_codes(struct buffer *out, const char *text, bool blank_after)
{
    enum { MOST = 4 }; /* bytes of a code */
    buffer_reserve(out, MOST * (strlen(text) + 1) + 2);
    char *start = out->bytes + out->length, *at = start;
    *at++ = '(';
    for (uint32_t point; (point = utf8_next(&text)) != 0;) {
        if (point < ' ' || point >= 0xFFFF)
            fatal("a text for the PDF holds U+%04X, which no font here draws; "
                  "this is a fault of the program",
                  (unsigned)point);
        at = put_code(at, point);
    }
    if (blank_after)
        at = put_code(at, ' ');
    *at++ = ')';
    buffer_added(out, (size_t)(at - start));
}

void pdf_uri(struct buffer *out, const char *uri)
{
    buffer_text(out, "(");
    for (; *uri; uri++) {
        unsigned char byte = (unsigned char)*uri;
        if (byte <= ' ' || byte >= 0x7F)
            buffer_print(out, "%%%02X", byte);
        else if (strchr("()\\", byte))
            buffer_print(out, "\\%c", byte);
        else
            buffer_add(out, uri, 1);
    }
    buffer_text(out, ")");
}
