/* Marks put straight onto a sheet, where no text flows: cutting lines, check bars, strips, the
 * words beside them, the foot of a page. Points; x to the right, y downward. */
#ifndef LAYOUT_DRAWING_H
#define LAYOUT_DRAWING_H

#include "layout/compose.h"
#include "layout/text.h"

struct drawing {
    struct arena *arena; /* which then owns the marks */
    const struct fonts *fonts;
    struct print *print;
    struct sheet *sheet; /* which is drawn on */
    int tag;             /* of the words, or -1; lines are decoration */
};

/* Adds a sheet and draws on it from now on. Under the document's tag, which is made
 * with the first sheet. */
void drawing_sheet(struct drawing *drawing, double width, double height, const char *label);

/* What is written from now on is of this kind, a child of the document. */
void drawing_tag(struct drawing *drawing, enum tag_kind kind);
void drawing_line(struct drawing *drawing, double x, double y, double width, double height,
                  double line);

/* One line of text, its baseline at y, its left end, middle or right end at x. */
void drawing_text(struct drawing *drawing, double x, double y, enum align align,
                  const struct text_style *style, const char *text);

/* Text in as many lines as it takes in the area; y: the top of the first. Gives the
 * y below the last. */
double drawing_words(struct drawing *drawing, struct area area, double y,
                     const struct text_style *style, const char *text);

/* A figure at its own size, its upper left corner at (x, y). */
void drawing_figure(struct drawing *drawing, const struct figure *figure, double x, double y);

/* The marks of a figure that is drawn so many times its own size, in the order in which they
 * are put. The arena's. */
struct piece *figure_pieces(struct arena *arena, const struct fonts *fonts,
                            const struct figure *figure, double x, double y, double scale,
                            int tag, size_t *count);

/* What a single sheet says of itself at its foot: inputs and fingerprint. The arena's. */
const char *imprint_inputs(struct arena *arena, const struct imprint *imprint);

/* Bars of known length, to find out whether the printer kept the scale. */
enum bar_unit { BAR_MM, BAR_INCH }; /* 100 mm, 4 in */

enum bar_way { BAR_ACROSS, BAR_DOWN };

/* How long the bar itself is. */
double bar_length(enum bar_unit unit);

/* Draws the bar from (x, y) on, to the right or downward, with its ends named and a
 * box for what was measured. It takes BAR_ABOVE over it and BAR_BELOW under it when
 * it lies, and its length plus BAR_BESIDE to the right; when it stands, its length
 * and BAR_STANDING to the right. */
void bar_draw(struct drawing *drawing, double x, double y, enum bar_unit unit,
              enum bar_way way);
#define BAR_ABOVE    12.0
#define BAR_BELOW    9.0
#define BAR_BESIDE   122.0
#define BAR_STANDING 46.0

#endif
