/* Bytes as text (RFC 4648, section 4). */
#ifndef PAINT_BASE64_H
#define PAINT_BASE64_H

#include "base/buffer.h"

void base64_add(struct buffer *out, const void *bytes, size_t length);

#endif
