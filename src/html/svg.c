#include "html/svg.h"

#include "html/markup.h"

#include <math.h>

/* To be printed with %g: two digits behind the point at most, no more than needed, and no
 * minus sign before zero. */
static double rounded(double value)
{
    return (double)lround(value * 100) / 100;
}

static void put_step(struct buffer *out, const struct path_step *step)
{
    static const char *const letters[] = {"M", "L", "C", "Z"};
    buffer_text(out, letters[step->kind]);
    if (step->kind == STEP_CURVE)
        buffer_print(out, "%g %g %g %g ", rounded(step->x1), rounded(step->y1),
                     rounded(step->x2), rounded(step->y2));
    if (step->kind != STEP_CLOSE)
        buffer_print(out, "%g %g", rounded(step->x), rounded(step->y));
}

static void put_stroke(struct buffer *out, const struct figure_path *path)
{
    double dashes[MOST_DASHES];
    size_t count = figure_dashes(path->dash, dashes);
    if (path->stroke == STROKE_NONE)
        return;
    buffer_print(out, " stroke=\"currentColor\" stroke-width=\"%g",
                 rounded(figure_line(path->stroke)));
    for (size_t i = 0; i < count; i++)
        buffer_print(out, i ? " %g" : "\" stroke-dasharray=\"%g", rounded(dashes[i]));
    buffer_text(out, "\"");
}

static void put_path(struct buffer *out, const struct figure_path *path)
{
    static const char *const fills[] = {[FILL_NONE] = " fill=\"none\"",
                                        [FILL_PAPER] = " class=\"paper\"",
                                        [FILL_INK] = " fill=\"currentColor\""};
    buffer_print(out, "<path%s", fills[path->fill]);
    put_stroke(out, path);
    buffer_text(out, " d=\"");
    for (size_t i = 0; i < path->step_count; i++)
        put_step(out, &path->steps[i]);
    buffer_text(out, "\"/>\n");
}

static void put_text(struct buffer *out, const struct figure_text *text)
{
    static const char *const anchors[] = {[ALIGN_LEFT] = "",
                                          [ALIGN_MIDDLE] = " text-anchor=\"middle\"",
                                          [ALIGN_RIGHT] = " text-anchor=\"end\""};
    buffer_print(out, "<text x=\"%g\" y=\"%g\" font-size=\"%g\" textLength=\"%g\"",
                 rounded(text->x), rounded(text->y), rounded(text->size), rounded(text->width));
    buffer_print(out, " lengthAdjust=\"spacingAndGlyphs\"%s%s>", anchors[text->align],
                 text->bold ? " font-weight=\"700\"" : "");
    markup(out, "%s</text>\n", text->text);
}

void svg_paint(struct buffer *out, const struct figure *figure)
{
    buffer_print(out, "<svg role=\"img\" fill=\"currentColor\" viewBox=\"0 0 %g %g\">\n",
                 rounded(figure->width), rounded(figure->height));
    markup(out, "<title>%s</title>\n<desc>%s</desc>\n", figure->title, figure->description);
    for (size_t i = 0; i < figure->path_count; i++)
        put_path(out, &figure->paths[i]);
    for (size_t i = 0; i < figure->text_count; i++)
        put_text(out, &figure->texts[i]);
    buffer_text(out, "</svg>\n");
}
