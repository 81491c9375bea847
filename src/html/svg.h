/* A figure as inline SVG. */
#ifndef HTML_SVG_H
#define HTML_SVG_H

#include "base/buffer.h"
#include "doc/tree.h"

/* Lines and texts take the colour of the text around (currentColor); paper takes the
 * class "paper", for the style sheet. Texts stay texts, each held to its measured
 * width, so that they fit whatever font the reader has. */
void svg_paint(struct buffer *out, const struct figure *figure);

#endif
