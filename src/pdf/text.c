#include "pdf/text.h"

#include "base/fatal.h"
#include "base/utf8.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static const double LARGEST = 32767; /* the largest real number of PDF 1.x readers */

static const char HEX[] = "0123456789ABCDEF";

long pdf_thousandths(double value)
{
    if (!isfinite(value) || fabs(value) > LARGEST)
        fatal("a number for the PDF is not finite or is off any paper (%g); "
              "this is a fault of the program",
              value);
    return lround(value * 1000);
}

/* Pages hold tens of thousands of numbers; printf would cost more than the rest. */
void pdf_put_thousandths(struct buffer *out, long value)
{
    char digits[16];
    char *end = digits + sizeof digits, *at = end;
    long rest = labs(value);
    int decimals = 3;
    for (; decimals > 0 && rest % 10 == 0; decimals--)
        rest /= 10;
    for (int place = 0; place <= decimals || rest > 0; place++) {
        if (place == decimals && decimals > 0)
            *--at = '.';
        *--at = (char)('0' + rest % 10);
        rest /= 10;
    }
    if (value < 0)
        *--at = '-';
    buffer_add(out, at, (size_t)(end - at));
}

void pdf_integer(struct buffer *out, long value)
{
    pdf_put_thousandths(out, value * 1000);
}

void pdf_number(struct buffer *out, double value)
{
    pdf_put_thousandths(out, pdf_thousandths(value));
}

static void put_unit(struct buffer *out, uint32_t unit)
{
    char hex[4] = {HEX[unit >> 12 & 15], HEX[unit >> 8 & 15], HEX[unit >> 4 & 15],
                   HEX[unit & 15]};
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

/* A byte as it stands in a literal string; gives how many bytes it took. */
static size_t escape_byte(char *at, uint32_t byte)
{
    size_t length = 0;
    if (byte == '(' || byte == ')' || byte == '\\' || byte == '\r')
        at[length++] = '\\';
    at[length++] = byte == '\r' ? 'r' : (char)byte;
    return length;
}

static void put_code(struct buffer *out, uint32_t point)
{
    char bytes[4];
    size_t length = escape_byte(bytes, point >> 8);
    length += escape_byte(bytes + length, point & 0xFF);
    buffer_add(out, bytes, length);
}

void pdf_codes(struct buffer *out, const char *text, bool blank_after)
{
    buffer_text(out, "(");
    for (uint32_t point; (point = utf8_next(&text)) != 0;) {
        if (point < ' ' || point >= 0xFFFF)
            fatal("a text for the PDF holds U+%04X, which no font here draws; "
                  "this is a fault of the program",
                  (unsigned)point);
        put_code(out, point);
    }
    if (blank_after)
        put_code(out, ' ');
    buffer_text(out, ")");
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
