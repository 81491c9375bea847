/* A drawing as SVG at 1:1: its unit is the millimetre. Its letters are strokes, so that it
 * looks the same everywhere. */
#include "drum/drum.h"
#include "drum/strokes.h"

#include <math.h>
#include <stdlib.h>

static const double MARGIN = 5; /* mm */

struct writer {
    struct buffer *out;
    const struct drawing *drawing;
    double last[2]; /* where the path ends */
    bool begun;
};

static void put_point(struct writer *w, char letter, double x, double y)
{
    buffer_print(w->out, "%c%g %g", letter,
                 nearbyint((x - w->drawing->low[0] + MARGIN) * 1e4) / 1e4,
                 nearbyint((w->drawing->high[1] + MARGIN - y) * 1e4) / 1e4);
}

/* Goes on with the path where that ended here. */
static void go_to(struct writer *w, const double *point)
{
    if (!w->begun || hypot(point[0] - w->last[0], point[1] - w->last[1]) > 1e-9)
        put_point(w, 'M', point[0], point[1]);
    w->begun = true;
}

static void put_text(struct writer *w, const struct drawn *item)
{
    double step = item->height / LETTER_HEIGHT;
    const char *text = item->text;
    size_t part = 0, letter = 0;
    struct stroke stroke;
    while (stroke_next(&text, &part, &letter, &stroke))
        for (size_t i = 0; i < stroke.count; i++)
            put_point(w, i ? 'L' : 'M',
                      item->a[0] +
                          step * ((double)letter * LETTER_ADVANCE + stroke.points[i].x),
                      item->a[1] + step * stroke.points[i].y);
    w->begun = false;
}

static void put_item(struct writer *w, const struct drawn *item)
{
    if (item->kind == DRAWN_TEXT) {
        put_text(w, item);
        return;
    }
    go_to(w, item->a);
    if (item->kind == DRAWN_ARC) {
        const double *a = item->a, *b = item->b, *c = item->c;
        double radius = hypot(a[0] - c[0], a[1] - c[1]);
        double cross = (a[0] - c[0]) * (b[1] - c[1]) - (a[1] - c[1]) * (b[0] - c[0]);
        bool large = item->clockwise ? cross > 1e-9 : cross < -1e-9; /* more than half a turn */
        buffer_print(w->out, "A%g %g 0 %d %d ", nearbyint(radius * 1e4) / 1e4,
                     nearbyint(radius * 1e4) / 1e4, large, item->clockwise);
        put_point(w, ' ', b[0], b[1]);
    } else
        put_point(w, 'L', item->b[0], item->b[1]);
    w->last[0] = item->b[0];
    w->last[1] = item->b[1];
}

/* A layer as one path. */
static void put_layer(struct writer *w, enum drawn_layer layer)
{
    static const char *const looks[DRAWN_LAYERS] = {
        [LAYER_PROFILE] = "fill=\"url(#hatch)\" stroke-width=\"0.5\"",
        [LAYER_SECTION] = "fill=\"url(#hatch)\" stroke-width=\"0.5\"",
        [LAYER_FACE] = "stroke-width=\"0.5\"",
        [LAYER_HIDDEN] = "stroke-width=\"0.25\" stroke-dasharray=\"3 1.5\"",
        [LAYER_CENTRE] = "stroke-width=\"0.18\" stroke-dasharray=\"8 1 1 1\"",
        [LAYER_ENGRAVING] = "stroke-width=\"0.25\"",
        [LAYER_SIZES] = "stroke-width=\"0.18\"",
        [LAYER_TEXT] = "stroke-width=\"0.25\"",
    };
    buffer_print(w->out, "<path id=\"%s\" %s d=\"", drawn_layer_names[layer], looks[layer]);
    w->begun = false;
    for (size_t i = 0; i < w->drawing->count; i++)
        if (w->drawing->items[i].layer == layer)
            put_item(w, &w->drawing->items[i]);
    buffer_text(w->out, "\"/>\n");
}

void drum_write_svg(struct buffer *out, const struct drawing *drawing)
{
    struct writer writer = {.out = out, .drawing = drawing};
    double width = drawing->high[0] - drawing->low[0] + 2 * MARGIN;
    double height = drawing->high[1] - drawing->low[1] + 2 * MARGIN;
    buffer_print(out,
                 "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%gmm\" height=\"%gmm\" "
                 "viewBox=\"0 0 %g %g\" fill=\"none\" stroke=\"#000\" stroke-linecap=\"round\" "
                 "stroke-linejoin=\"round\">\n"
                 "<title>A drum to make, scale 1:1</title>\n"
                 "<defs><pattern id=\"hatch\" width=\"1.8\" height=\"1.8\" "
                 "patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\">"
                 "<path d=\"M0 0V1.8\" stroke-width=\"0.25\"/></pattern></defs>\n"
                 "<rect width=\"%g\" height=\"%g\" fill=\"#fff\" stroke=\"none\"/>\n",
                 width, height, width, height, width, height);
    for (enum drawn_layer layer = 0; layer < DRAWN_LAYERS; layer++)
        put_layer(&writer, layer);
    buffer_text(out, "</svg>\n");
}
