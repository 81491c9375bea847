#include "html/svg.h"

#include "html/markup.h"

#include <math.h>
#include <stdlib.h>

/* Two digits behind the point at most, and no more than needed. */
static void put_number(struct buffer *out, double value)
{
    long hundredths = lround(value * 100);
    buffer_print(out, "%s%ld", hundredths < 0 ? "-" : "", labs(hundredths) / 100);
    long rest = labs(hundredths) % 100;
    if (rest % 10)
        buffer_print(out, ".%02ld", rest);
    else if (rest)
        buffer_print(out, ".%ld", rest / 10);
}

static void put_pair(struct buffer *out, double x, double y)
{
    put_number(out, x);
    buffer_text(out, " ");
    put_number(out, y);
}

static void put_step(struct buffer *out, const struct path_step *step)
{
    static const char *const letters[] = {"M", "L", "C", "Z"};
    buffer_text(out, letters[step->kind]);
    if (step->kind == STEP_CLOSE)
        return;
    if (step->kind == STEP_CURVE) {
        put_pair(out, step->x1, step->y1);
        buffer_text(out, " ");
        put_pair(out, step->x2, step->y2);
        buffer_text(out, " ");
    }
    put_pair(out, step->x, step->y);
}

static void put_stroke(struct buffer *out, const struct figure_path *path)
{
    double dashes[MOST_DASHES];
    size_t count = figure_dashes(path->dash, dashes);
    if (path->stroke == STROKE_NONE)
        return;
    buffer_text(out, " stroke=\"currentColor\" stroke-width=\"");
    put_number(out, figure_line(path->stroke));
    for (size_t i = 0; i < count; i++) {
        buffer_text(out, i ? " " : "\" stroke-dasharray=\"");
        put_number(out, dashes[i]);
    }
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
    buffer_text(out, "<text x=\"");
    put_number(out, text->x);
    buffer_text(out, "\" y=\"");
    put_number(out, text->y);
    buffer_text(out, "\" font-size=\"");
    put_number(out, text->size);
    buffer_text(out, "\" textLength=\"");
    put_number(out, text->width);
    buffer_print(out, "\" lengthAdjust=\"spacingAndGlyphs\"%s%s>", anchors[text->align],
                 text->bold ? " font-weight=\"700\"" : "");
    escape_text(out, text->text);
    buffer_text(out, "</text>\n");
}

void svg_paint(struct buffer *out, const struct figure *figure)
{
    buffer_text(out, "<svg role=\"img\" fill=\"currentColor\" viewBox=\"0 0 ");
    put_pair(out, figure->width, figure->height);
    buffer_text(out, "\">\n<title>");
    escape_text(out, figure->title);
    buffer_text(out, "</title>\n<desc>");
    escape_text(out, figure->description);
    buffer_text(out, "</desc>\n");
    for (size_t i = 0; i < figure->path_count; i++)
        put_path(out, &figure->paths[i]);
    for (size_t i = 0; i < figure->text_count; i++)
        put_text(out, &figure->texts[i]);
    buffer_text(out, "</svg>\n");
}
