/* A drawing as DXF of release 12: a header that says so, and the entities; a line of a number
 * that says what follows, then a line of that. Arcs go counter-clockwise. The format has no
 * unit: it stands in a text. Source: DXF Reference, AutoCAD release 12; group codes from
 * memory. */
#include "drum/drum.h"

#include <math.h>

static void put_number(struct buffer *out, int code, double value)
{
    double places = nearbyint(value * 1e6) / 1e6;
    buffer_print(out, "%d\n%.6f\n", code, places + 0.0); /* no minus before zero */
}

static void put_point(struct buffer *out, int code, const double *point)
{
    put_number(out, code, point[0]);
    put_number(out, code + 10, point[1]);
}

static double degrees_to(const double *centre, const double *point)
{
    double angle = atan2(point[1] - centre[1], point[0] - centre[0]) * 180 / M_PI;
    return angle < -1e-9 ? angle + 360 : angle;
}

static void put_item(struct buffer *out, const struct drawn *item)
{
    static const char *const kinds[] = {
        [DRAWN_LINE] = "LINE", [DRAWN_ARC] = "ARC", [DRAWN_TEXT] = "TEXT"};
    buffer_print(out, "0\n%s\n8\n%s\n", kinds[item->kind], drawn_layer_names[item->layer]);
    if (item->kind == DRAWN_ARC) {
        const double *from = item->clockwise ? item->b : item->a;
        const double *to = item->clockwise ? item->a : item->b;
        put_point(out, 10, item->c);
        put_number(out, 40, hypot(from[0] - item->c[0], from[1] - item->c[1]));
        put_number(out, 50, degrees_to(item->c, from));
        put_number(out, 51, degrees_to(item->c, to));
        return;
    }
    put_point(out, 10, item->a);
    if (item->kind == DRAWN_LINE) {
        put_point(out, 11, item->b);
        return;
    }
    put_number(out, 40, item->height);
    buffer_print(out, "1\n%s\n", item->text);
}

void drum_write_dxf(struct buffer *out, const struct drawing *drawing)
{
    buffer_text(out, "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n0\nENDSEC\n"
                     "0\nSECTION\n2\nENTITIES\n");
    for (size_t i = 0; i < drawing->count; i++)
        put_item(out, &drawing->items[i]);
    buffer_text(out, "0\nENDSEC\n0\nEOF\n");
}
