/* User text made safe to stand in an HTML page or in a link. */
#ifndef PAINT_ESCAPE_H
#define PAINT_ESCAPE_H

#include "base/buffer.h"

/* Text for an element or a quoted attribute: & < > " ' become references. */
void escape_text(struct buffer *out, const char *text);

/* A file's name as a relative link: every byte but ASCII letters, digits and
 * - . _ becomes %XX (RFC 3986), so that the result needs no escape_text(). */
void escape_link(struct buffer *out, const char *name);

#endif
