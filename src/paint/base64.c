#include "paint/base64.h"

#include <stdint.h>

void base64_add(struct buffer *out, const void *bytes, size_t length)
{
    static const char signs[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    const unsigned char *at = bytes;
    for (size_t i = 0; i < length; i += 3) {
        size_t here = length - i < 3 ? length - i : 3;
        uint32_t group = (uint32_t)at[i] << 16;
        group |= here > 1 ? (uint32_t)at[i + 1] << 8 : 0;
        group |= here > 2 ? (uint32_t)at[i + 2] : 0;
        char four[4] = {signs[group >> 18 & 63], signs[group >> 12 & 63],
                        here > 1 ? signs[group >> 6 & 63] : '=',
                        here > 2 ? signs[group & 63] : '='};
        buffer_add(out, four, sizeof four);
    }
}
