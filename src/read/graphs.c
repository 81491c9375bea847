#include "read/graphs.h"

#include "read/blocks.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LEAST_SQUARES = 4, SQUARES = 10, MOST_SQUARES = 40 };

static const double MOST_NUMBER = 1e6, LEAST_SPAN = 1e-3, LEAST_SHARE = 1e-4;

static const char how[] = "write it as in 'across: time / min' or 'across: year, 1 to 20'";

/* Between these a number on the scale has few enough signs to find room. */
static bool can_be_scale(double from, double to)
{
    double largest = fmax(fabs(from), fabs(to)), span = to - from;
    return largest < MOST_NUMBER && span >= LEAST_SPAN && span >= largest * LEAST_SHARE;
}

/* ", 1 to 20" at the end of an axis; false where it is wrong. */
static bool read_numbers(struct graph_axis *axis, const char *text)
{
    char *end;
    axis->from = strtod(text, &end);
    if (end == text || strncmp(end, " to ", 4) != 0)
        return false;
    const char *second = end + 4;
    axis->to = strtod(second, &end);
    axis->numbered = end > second && *end == '\0' && can_be_scale(axis->from, axis->to);
    return axis->numbered;
}

/* "quantity / unit, FROM to TO"; unit and numbers may be left out. */
static void read_axis(struct arena *arena, struct diags *diags,
                      const struct table_option *option, struct graph_axis *axis)
{
    const char *comma = strrchr(option->value, ',');
    size_t length = comma ? (size_t)(comma - option->value) : strlen(option->value);
    char *text = arena_slice(arena, option->value, length), *slash = strstr(text, " / ");
    bool good = !comma || read_numbers(axis, comma + 1 + strspn(comma + 1, " "));
    if (slash) {
        *slash = '\0';
        axis->unit = slash + 3;
    }
    axis->quantity = text;
    if (!good || !*text)
        fault(diags, option->at, "'%s' is no axis; %s", option->value, how);
}

static void read_option(struct arena *arena, struct diags *diags,
                        const struct table_option *option, struct graph *graph)
{
    if (strcmp(option->key, "across") == 0) {
        read_axis(arena, diags, option, &graph->across);
    } else if (strcmp(option->key, "up") == 0) {
        read_axis(arena, diags, option, &graph->up);
    } else if (strcmp(option->key, "squares") == 0) {
        char *end;
        long squares = strtol(option->value, &end, 10);
        if (*end == '\0' && squares >= LEAST_SQUARES && squares <= MOST_SQUARES)
            graph->squares = (int)squares;
        else
            fault(diags, option->at, "squares must be a whole number from %d to %d, not '%s'",
                  LEAST_SQUARES, MOST_SQUARES, option->value);
    } else if (strcmp(option->key, "window") == 0 && strcmp(option->value, "yes") == 0) {
        graph->window = true;
    } else {
        fault(diags, option->at,
              "'%s: %s' is no option of a graph; the options are across, up, squares and "
              "window: yes",
              option->key, option->value);
    }
}

void graph_read(struct arena *arena, struct diags *diags, const char *rest, const char *body,
                struct node *node)
{
    struct graph *graph = arena_get(arena, sizeof *graph);
    node->kind = NODE_FIGURE;
    node->graph = graph;
    if (block_read_title(arena, diags, "graph", rest, node, &graph->name, &graph->caption))
        node->figure_name = graph->name;
    graph->at = node->at;
    graph->across.quantity = graph->up.quantity = "";
    graph->squares = SQUARES;
    block_read_options(arena, diags, node, body);
    for (size_t i = 0; i < node->option_count; i++)
        read_option(arena, diags, &node->options[i], graph);
    if (!*graph->across.quantity || !(*graph->up.quantity || graph->window))
        fault(diags, node->at, "the graph lacks an axis; %s, and the same with 'up:'", how);
}
