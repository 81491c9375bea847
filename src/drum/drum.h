/* The drum to make as files: a solid to print, a drawing to turn it by; and whether it can be
 * made at all. Lengths in metres; the free face lies in the plane z = 0, the peg at y = 0. */
#ifndef DRUM_DRUM_H
#define DRUM_DRUM_H

#include "base/buffer.h"
#include "drum/mesh.h"
#include "judge/drums.h"

/* A circle is made of so many sides. Its corners lie on the circle; in the middle of a side the
 * radius is less by 1 - cos(180/240 degrees), 0.0000857 of it: less than DRUM_CHORD. Holes have
 * the middles of their sides on the circle. */
enum { DRUM_SIDES = 240 };

/* What is cut into the free face. */
struct engraving {
    const char *text;
    double height; /* of letters; 0: nothing is cut */
    double half;   /* half the width of a stroke at the face; its sides slope by 45 degrees, so
                      that this is also its depth */
    double radius; /* of the line on which the letters stand, tops outward */
    double begin;  /* radians, from the peg; letters follow counter-clockwise, which is
                      clockwise to who looks at the face */
};

/* Mark, nominal diameter and room to scratch the measured one, as large as there is room. */
struct engraving drum_engraving(struct arena *arena, const struct shop *shop,
                                const struct drum_to_make *drum);

/* Where a point of a letter (steps, see drum/strokes.h) lies in the face: x, y. */
void drum_place_letter(const struct engraving *engraving, size_t letter, double x, double y,
                       double *at);

/* Half the angle of the notch at the land, radians; at the rim's rounded corners, where the rim
 * begins. */
double drum_notch_angle(const struct drum_to_make *drum);
double drum_rim_angle(const struct drum_to_make *drum);

/* Finds what keeps the drum from being made, at the key that is to blame, where one was typed.
 * False where no drum can be made. */
bool drum_check(const struct shop *shop, struct diags *diags);

/* The solid, of a drum that can be made; closed by construction. */
struct mesh drum_solid(struct arena *arena, const struct drum_to_make *drum,
                       const struct engraving *engraving);

/* The files. Same drum, same bytes. */

void drum_write_stl(struct buffer *out, const struct mesh *mesh);

/* Packs bytes as raw deflate (RFC 1951) behind what is in the buffer. */
typedef void drum_pack(struct buffer *out, const void *bytes, size_t length);

/* By zlib. */
drum_pack drum_deflate;

/* name: what the drum is called in the file, as drum_title() says it; pack: NULL: the file is
 * stored as it is. */
const char *drum_title(struct arena *arena, const struct engraving *engraving);
void drum_write_3mf(struct buffer *out, const struct mesh *mesh, const char *name,
                    drum_pack *pack);

/* The drawing: the section, the view of the free face with the peg up, the sizes. */

enum drawn_layer {
    LAYER_PROFILE, /* the upper half of the section: what is turned */
    LAYER_SECTION, /* its lower half */
    LAYER_FACE,    /* the free face, and what is seen behind the section */
    LAYER_HIDDEN,
    LAYER_CENTRE,
    LAYER_ENGRAVING,
    LAYER_SIZES,
    LAYER_TEXT,
    DRAWN_LAYERS
};

extern const char *const drawn_layer_names[DRAWN_LAYERS];

enum drawn_kind { DRAWN_LINE, DRAWN_ARC, DRAWN_TEXT };

/* Millimetres at 1:1, x to the right and y upward. A line goes from a to b, and so does an arc
 * about c; the lower left of a text is at a. */
struct drawn {
    enum drawn_kind kind;
    enum drawn_layer layer;
    double a[2], b[2], c[2];
    bool clockwise;   /* the arc */
    const char *text; /* ASCII */
    double height;    /* of its letters */
};

struct drawing {
    struct arena *arena;
    struct drawn *items;
    size_t count;
    double low[2], high[2]; /* what it fills */
};

struct drawing drum_drawing(struct arena *arena, const struct results *results,
                            const struct drum_to_make *drum, const struct engraving *engraving);
void drum_write_dxf(struct buffer *out, const struct drawing *drawing);
void drum_write_svg(struct buffer *out, const struct drawing *drawing);

#endif
