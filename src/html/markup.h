/* Markup, and text of others made safe to stand in it. */
#ifndef HTML_MARKUP_H
#define HTML_MARKUP_H

#include "base/buffer.h"

/* Appends markup; each %s in it stands for a text, which is escaped. There are no other
 * conversions. */
void markup(struct buffer *out, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Text for an element or a quoted attribute: & < > " ' become references. */
void escape_text(struct buffer *out, const char *text);

/* A name as a relative link or behind its '#': every byte but ASCII letters, digits and
 * - . _ becomes %XX (RFC 3986), so that the result needs no escape_text(). */
void escape_link(struct buffer *out, const char *name);

/* Bytes as text (RFC 4648, section 4). */
void base64_add(struct buffer *out, const void *bytes, size_t length);

#endif
