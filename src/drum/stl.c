/* A solid as binary STL: 80 bytes of anything but "solid", the number of facets, then of each
 * the normal and three corners as floats, and two bytes of nothing; little-endian, without a
 * unit: millimetres, as is the custom. Source: the format as its readers and writers have it;
 * there is no standard. */
#include "drum/drum.h"

#include <math.h>
#include <string.h>

static void put_number(struct buffer *out, uint32_t number)
{
    for (int i = 0; i < 4; i++, number >>= 8) {
        unsigned char byte = number & 255;
        buffer_add(out, &byte, 1);
    }
}

static void put_float(struct buffer *out, double value)
{
    float number = (float)value;
    uint32_t bits;
    memcpy(&bits, &number, sizeof bits);
    put_number(out, bits);
}

/* Square to the facet, outward, one long. */
static void put_normal(struct buffer *out, const int64_t *a, const int64_t *b, const int64_t *c)
{
    double u[3], v[3], normal[3];
    for (int i = 0; i < 3; i++) {
        u[i] = (double)(b[i] - a[i]);
        v[i] = (double)(c[i] - a[i]);
    }
    for (int i = 0; i < 3; i++)
        normal[i] = u[(i + 1) % 3] * v[(i + 2) % 3] - u[(i + 2) % 3] * v[(i + 1) % 3];
    double length = sqrt(normal[0] * normal[0] + normal[1] * normal[1] + normal[2] * normal[2]);
    for (int i = 0; i < 3; i++)
        put_float(out, normal[i] / length + 0.0); /* no minus before zero */
}

void drum_write_stl(struct buffer *out, const struct mesh *mesh)
{
    char head[80] = "Drum, binary STL, millimetres";
    buffer_add(out, head, sizeof head);
    put_number(out, (uint32_t)mesh->triangle_count);
    for (size_t i = 0; i < mesh->triangle_count; i++) {
        const int64_t *corners[3];
        for (int k = 0; k < 3; k++)
            corners[k] = mesh->points[mesh->triangles[i].corner[k]].at;
        put_normal(out, corners[0], corners[1], corners[2]);
        for (int k = 0; k < 3; k++)
            for (int axis = 0; axis < 3; axis++)
                put_float(out, (double)corners[k][axis] * 1000 / LATTICE);
        buffer_add(out, "\0", 2);
    }
}
