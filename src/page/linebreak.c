#include "page/linebreak.h"

#include "base/memory.h"

#include <math.h>
#include <stdlib.h>

/* Sums of widths carry a little noise; a word that fits exactly must fit. */
static const double NOISE = 1e-6;

/* A last line shorter than this share of the measure looks like a mistake: two short
 * words, say. One word alone is worse than any ragged line before it. */
static const double SHORT_LINE = 0.2, SHORT_LINE_COST = 0.75, LONE_WORD_COST = 2;

/* And one a little longer is still better the longer it is, up to this share. */
static const double FAIR_LINE = 0.34, FAIR_LINE_COST = 0.6;

static void make_room(struct line_search *search, size_t count)
{
    if (search->room >= count)
        return;
    search->room = 2 * count;
    search->cost = heap_resize(search->cost, search->room, sizeof *search->cost);
    search->from = heap_resize(search->from, search->room, sizeof *search->from);
}

void line_search_free(struct line_search *search)
{
    free(search->cost);
    free(search->from);
    *search = (struct line_search){0};
}

static double last_line_cost(size_t words, double width, double measure)
{
    if (words == 1)
        return LONE_WORD_COST;
    double share = width / measure;
    double want = share < FAIR_LINE ? 1 - share / FAIR_LINE : 0;
    return FAIR_LINE_COST * want * want + (share < SHORT_LINE ? SHORT_LINE_COST : 0);
}

/* What a line of this width costs; the words from first to before end. */
static double line_cost(const struct word *words, size_t count, size_t first, size_t end,
                        double width, double measure)
{
    bool ends = end == count || words[end].breaks;
    bool begins = first == 0 || words[first].breaks;
    if (ends)
        return begins ? 0 : last_line_cost(end - first, width, measure);
    double slack = width < measure ? (measure - width) / measure : 0;
    return slack * slack;
}

/* Finds the cheapest first word for the line that ends before `end`. */
static void find_line(struct line_search *search, const struct word *words, size_t count,
                      size_t end, double measure)
{
    double width = 0, best = -1;
    for (size_t first = end; first-- > 0;) {
        width += words[first].width;
        if (width > measure + NOISE && first + 1 < end)
            break;
        double cost = search->cost[first] + line_cost(words, count, first, end, width, measure);
        if (best < 0 || cost < best) {
            best = cost;
            search->from[end] = first;
        }
        if (words[first].breaks)
            break;
        width += words[first].blank;
    }
    search->cost[end] = best;
}

size_t break_lines(struct line_search *search, const struct word *words, size_t count,
                   double measure, size_t *starts)
{
    make_room(search, count + 1);
    search->cost[0] = 0;
    for (size_t end = 1; end <= count; end++)
        find_line(search, words, count, end, measure);
    size_t lines = 0;
    for (size_t end = count; end > 0; end = search->from[end])
        lines++;
    size_t line = lines;
    for (size_t end = count; end > 0; end = search->from[end])
        starts[--line] = search->from[end];
    return lines;
}

bool lines_suffice(const struct word *words, size_t count, double measure, size_t lines)
{
    double width = INFINITY; /* no line is begun yet */
    for (size_t i = 0; i < count; i++) {
        width += words[i].blank + words[i].width;
        if (width <= measure + NOISE && !words[i].breaks)
            continue;
        if (lines-- == 0)
            return false;
        width = words[i].width;
    }
    return true;
}
