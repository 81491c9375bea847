/* The form of a sequence is known from its lead; everything else follows from one table. */
#include "base/utf8.h"

static bool is_tail(unsigned char byte)
{
    return (byte & 0xC0) == 0x80;
}

/* What may lead a sequence, its length, and the bytes that may stand second: RFC 3629,
 * section 4. */
static const struct lead {
    unsigned char first, last, length, low, high;
} leads[] = {
    {0x00, 0x7F, 1, 0x00, 0x00}, {0xC2, 0xDF, 2, 0x80, 0xBF}, {0xE0, 0xE0, 3, 0xA0, 0xBF},
    {0xE1, 0xEC, 3, 0x80, 0xBF}, {0xED, 0xED, 3, 0x80, 0x9F}, {0xEE, 0xEF, 3, 0x80, 0xBF},
    {0xF0, 0xF0, 4, 0x90, 0xBF}, {0xF1, 0xF3, 4, 0x80, 0xBF}, {0xF4, 0xF4, 4, 0x80, 0x8F},
};

enum { LEADS = sizeof leads / sizeof leads[0] };

/* NULL for a byte that leads none. */
static const struct lead *lead_of(unsigned char byte)
{
    for (size_t i = 0; i < LEADS && byte >= leads[i].first; i++)
        if (byte <= leads[i].last)
            return &leads[i];
    return NULL;
}

/* Length of the valid sequence that stands first; 0 where none does. */
static size_t valid_sequence(const unsigned char *bytes, size_t length)
{
    const struct lead *lead = lead_of(bytes[0]);
    if (!lead || lead->length > length)
        return 0;
    if (lead->length > 1 && (bytes[1] < lead->low || bytes[1] > lead->high))
        return 0;
    for (size_t i = 2; i < lead->length; i++)
        if (!is_tail(bytes[i]))
            return 0;
    return lead->length;
}

size_t utf8_valid(const char *bytes, size_t length)
{
    size_t at = 0;
    while (at < length) {
        size_t step = valid_sequence((const unsigned char *)bytes + at, length - at);
        if (step == 0)
            break;
        at += step;
    }
    return at;
}

/* The Unicode Standard 15.0, general categories Cc, Cf, Zl and Zp; U+00AD is seen. */
bool utf8_is_hidden(uint32_t point)
{
    static const struct {
        uint32_t first, last;
    } hidden[] = {{0x0000, 0x001F},   {0x007F, 0x009F},  {0x0600, 0x0605}, {0x061C, 0x061C},
                  {0x06DD, 0x06DD},   {0x070F, 0x070F},  {0x180E, 0x180E}, {0x200B, 0x200F},
                  {0x2028, 0x202E},   {0x2060, 0x206F},  {0xFEFF, 0xFEFF}, {0xFFF9, 0xFFFB},
                  {0x1D173, 0x1D17A}, {0xE0000, 0xE007F}};
    for (size_t i = 0; i < sizeof hidden / sizeof hidden[0]; i++)
        if (point >= hidden[i].first && point <= hidden[i].last)
            return true;
    return false;
}

size_t utf8_count(const char *bytes, size_t length)
{
    size_t count = 0;
    for (size_t i = 0; i < length; i++)
        count += !is_tail((unsigned char)bytes[i]);
    return count;
}

uint32_t utf8_next(const char **at)
{
    static const unsigned char lead_bits[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    const unsigned char *bytes = (const unsigned char *)*at;
    if (bytes[0] == 0)
        return 0;
    const struct lead *lead = lead_of(bytes[0]);
    size_t length = lead ? lead->length : 0;
    uint32_t point = bytes[0] & lead_bits[length];
    for (size_t i = 1; i < length; i++)
        point = point << 6 | (bytes[i] & 0x3F);
    *at += length ? length : 1;
    return point;
}

/* ---- names ---- */

enum { LONGEST_NAME = 63 };

/* Row by row: best[j] is the distance of the first bytes of a to the first j of b. */
size_t name_distance(const char *a, size_t a_length, const char *b, size_t b_length)
{
    size_t best[LONGEST_NAME + 1];
    if (a_length > LONGEST_NAME || b_length > LONGEST_NAME)
        return SIZE_MAX;
    for (size_t j = 0; j <= b_length; j++)
        best[j] = j;
    for (size_t i = 0; i < a_length; i++) {
        size_t diagonal = best[0]++;
        for (size_t j = 0; j < b_length; j++) {
            size_t changed = diagonal + (a[i] != b[j]);
            diagonal = best[j + 1];
            size_t added = (best[j] < diagonal ? best[j] : diagonal) + 1;
            best[j + 1] = changed < added ? changed : added;
        }
    }
    return best[b_length];
}

bool name_is_near(size_t distance, size_t length)
{
    return distance > 0 && distance <= 1 + length / 5;
}
