#include "figures/figures.h"

#include <string.h>

static const struct figure_kind kinds[] = {
    {"set-up", "The set-up seen whole", 214, draw_set_up,
     "The cord hangs from a single layer on the drum, square to the spindle's axis, and the "
     "gauge is pulled slowly and evenly. Not to scale.",
     "Two views. From the front: the headstock with the spindle's axis lying level, the drum "
     "on the spindle nose, the cord hanging from it straight down at a right angle to the "
     "axis, and the gauge at its end, pulled downward. From the nose end: the cord leaves the "
     "round drum along a tangent, and the pull turns drum and spindle."},
    {"drum-section", "Section through drum and cord", 176, draw_drum_section, NULL, NULL},
};

enum { KIND_TOTAL = sizeof kinds / sizeof kinds[0] };

const struct figure_kind *figures_at(size_t index)
{
    return index < KIND_TOTAL ? &kinds[index] : NULL;
}

static void fault_unknown(const char *name, const struct figure_ask *ask)
{
    struct buffer known = {0};
    for (size_t i = 0; i < KIND_TOTAL; i++)
        buffer_print(&known, "%s%s", i ? ", " : "", kinds[i].name);
    fault(ask->diags, ask->at, "there is no figure '%s'; the figures are %s", name,
          known.bytes);
    buffer_free(&known);
}

static struct figure *make(const struct figure_kind *kind, const struct figure_ask *ask)
{
    struct canvas canvas = canvas_new(ask->arena, ask->meter, kind->height);
    struct figure *figure = canvas.figure;
    figure->name = kind->name;
    figure->title = kind->title;
    figure->caption = kind->caption;
    figure->description = kind->description;
    figure->at = ask->at;
    kind->draw(ask, &canvas);
    return figure;
}

struct figure *figures_make(const char *name, const struct figure_ask *ask)
{
    for (size_t i = 0; i < KIND_TOTAL; i++)
        if (strcmp(kinds[i].name, name) == 0)
            return make(&kinds[i], ask);
    fault_unknown(name, ask);
    return NULL;
}
