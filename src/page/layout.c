#include "page/layout.h"

#include "tree/points.h"

static const double NOISE = 1e-6;

/* Of the blank between paragraphs. */
static const double GIVE = 0.4;

struct layout layout_booklet(const struct paper *paper)
{
    return (struct layout){.width = paper->width,
                           .height = paper->height,
                           .margins = paper->booklet,
                           .give = GIVE};
}

/* Blank around the middle of a punched hole of 6 mm: film must grip paper there. */
static const double HOLE_BLANK = 10 * MM;

struct layout layout_card(const struct paper *paper, double hole)
{
    double edge = paper->card_edge;
    return (struct layout){.width = paper->width,
                           .height = paper->height,
                           .margins = {hole > 0 ? hole + HOLE_BLANK : edge, edge, edge, edge}};
}

struct layout layout_card_lying(const struct paper *paper, double hole)
{
    struct layout layout = layout_card(paper, hole);
    layout.width = paper->height;
    layout.height = paper->width;
    return layout;
}

/* A turned sheet may have any of its upright edges at the fold: its own top and
 * bottom are blank as far as the inner margin is. */
void layout_apply(const struct layout *layout, struct flow *flow, bool turning)
{
    const struct margins *margins = &layout->margins;
    flow->width = layout->width - margins->inner - margins->outer;
    flow->height = layout->height - margins->top - margins->bottom;
    flow->sideways_width = turning ? layout->height - 2 * margins->outer : 0;
    flow->sideways_height = turning ? layout->width - margins->inner - margins->bottom : 0;
}

double layout_left(const struct layout *layout, size_t sheet, bool sideways)
{
    if (sideways)
        return layout->margins.outer;
    return sheet % 2 == 0 ? layout->margins.inner : layout->margins.outer;
}

bool sheet_is_sideways(const struct layout *layout, const struct sheet *sheet)
{
    return sheet->width > layout->width + NOISE;
}
