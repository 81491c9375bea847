#include "tree/figure.h"

double figure_line(enum stroke stroke)
{
    static const double widths[] = {
        [STROKE_NONE] = 0, [STROKE_THIN] = FIGURE_THIN, [STROKE_THICK] = FIGURE_THICK};
    return widths[stroke];
}

size_t figure_dashes(enum dash dash, double lengths[MOST_DASHES])
{
    static const double patterns[][MOST_DASHES] = {
        [DASH_SOLID] = {0}, [DASH_HIDDEN] = {3, 2}, [DASH_CENTRE] = {8, 2, 1.5, 2}};
    size_t count = 0;
    for (; count < MOST_DASHES && patterns[dash][count] > 0; count++)
        lengths[count] = patterns[dash][count];
    return count;
}

double figure_text_left(const struct figure_text *text)
{
    static const double shares[] = {[ALIGN_LEFT] = 0, [ALIGN_MIDDLE] = 0.5, [ALIGN_RIGHT] = 1};
    return text->x - shares[text->align] * text->width;
}

double figure_tenth(double value)
{
    return value > -0.05 && value < 0.05 ? 0 : value;
}

static void dump_path(struct buffer *out, const struct figure_path *path)
{
    static const char *const strokes[] = {"none", "thin", "thick"};
    static const char *const dashes[] = {"", " hidden", " centre"};
    static const char *const fills[] = {"", " paper", " ink"};
    static const char letters[] = "MLCZ";
    buffer_print(out, "path %s%s%s:", strokes[path->stroke], dashes[path->dash],
                 fills[path->fill]);
    for (size_t i = 0; i < path->step_count; i++) {
        const struct path_step *step = &path->steps[i];
        buffer_print(out, " %c", letters[step->kind]);
        if (step->kind == STEP_CURVE)
            buffer_print(out, " %.1f %.1f %.1f %.1f", figure_tenth(step->x1),
                         figure_tenth(step->y1), figure_tenth(step->x2),
                         figure_tenth(step->y2));
        if (step->kind != STEP_CLOSE)
            buffer_print(out, " %.1f %.1f", figure_tenth(step->x), figure_tenth(step->y));
    }
    buffer_text(out, "\n");
}

void figure_dump(struct buffer *out, const struct figure *figure)
{
    buffer_print(out, "figure %s %.1f x %.1f%s\n", figure->name, figure->width, figure->height,
                 figure->to_scale ? " to scale" : "");
    for (size_t i = 0; i < figure->path_count; i++)
        dump_path(out, &figure->paths[i]);
    for (size_t i = 0; i < figure->text_count; i++) {
        const struct figure_text *text = &figure->texts[i];
        buffer_print(out, "text %.1f %.1f %.1f size %.1f%s \"%s\"\n",
                     figure_tenth(figure_text_left(text)), figure_tenth(text->y), text->width,
                     text->size, text->bold ? " bold" : "", text->text);
    }
}
