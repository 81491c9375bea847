#include "base/utf8.h"

static bool is_tail(unsigned char byte)
{
    return (byte & 0xC0) == 0x80;
}

/* Length of the sequence that a lead byte opens; 0 for a byte that opens none. */
static size_t sequence_length(unsigned char lead)
{
    if (lead < 0x80)
        return 1;
    if (lead >= 0xC2 && lead <= 0xDF)
        return 2;
    if (lead >= 0xE0 && lead <= 0xEF)
        return 3;
    if (lead >= 0xF0 && lead <= 0xF4)
        return 4;
    return 0;
}

/* RFC 3629 section 4: the second byte is narrower after E0, ED, F0 and F4. */
static bool second_fits(unsigned char lead, unsigned char second)
{
    if (lead == 0xE0)
        return second >= 0xA0;
    if (lead == 0xED)
        return second <= 0x9F;
    if (lead == 0xF0)
        return second >= 0x90;
    if (lead == 0xF4)
        return second <= 0x8F;
    return true;
}

static size_t valid_sequence(const unsigned char *bytes, size_t length)
{
    size_t need = sequence_length(bytes[0]);
    if (need == 0 || need > length)
        return 0;
    for (size_t i = 1; i < need; i++)
        if (!is_tail(bytes[i]))
            return 0;
    if (need > 1 && !second_fits(bytes[0], bytes[1]))
        return 0;
    return need;
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
    size_t length = sequence_length(bytes[0]);
    uint32_t point = bytes[0] & lead_bits[length];
    for (size_t i = 1; i < length; i++)
        point = point << 6 | (bytes[i] & 0x3F);
    *at += length ? length : 1;
    return point;
}
