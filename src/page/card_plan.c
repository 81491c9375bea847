#include "page/card_plan.h"

#include "page/imprint.h"

#include <math.h>

static const double LARGEST_FIGURES = 48, SIZE_STEP = 0.5;
static const double LARGEST_BODY = 14;                       /* larger would only look loud */
static const double LEAST_ROW_PAD = 0.1, MOST_ROW_PAD = 0.3; /* shares of the figures */
static const double ROW_PAD_STEP = 0.05;
static const double LEAST_NOTE = 7.5, LEAST_INPUTS = 6.5;

/* The card lies on its side when its figures gain at least this much by it. */
static const double WORTH_TURNING = 1.1;

struct type_scale card_type(const struct card *card, const struct sizes *sizes)
{
    double body = sizes->body, least_body = card->paper->least_body;
    double note = fmax(LEAST_NOTE, fmin(body * 0.85, least_body));
    return (struct type_scale){
        .body = body,
        .leading = body * 1.28,
        .heading = {body * 1.5, body * 1.25, body * 1.1, body},
        .heading_leading = {body * 1.8, body * 1.5, body * 1.35, body * 1.28},
        .literal = body * 0.9,
        .note = note,
        .table_most = sizes->figures,
        .table_least = sizes->figures,
        .table_text = 0.5,
        .table_head = 0.35,
        .table_words_least = fmax(sizes->words, least_body),
        .table_caption_least = fmax(sizes->caption, least_body),
        .table_row_pad = sizes->row_pad};
}

struct flow card_flow(const struct card *card, struct arena *arena, struct print *print)
{
    struct flow flow = {.arena = arena,
                        .fonts = card->fonts,
                        .print = print,
                        .page = card->page,
                        .trial = true};
    layout_apply(&card->layout, &flow, false);
    flow_begin(&flow);
    return flow;
}

void card_put(struct flow *flow, const struct card *card, const struct side *side,
              const struct sizes *sizes, int document)
{
    int section = flow_tag(flow, TAG_SECTION, document);
    double inputs = fmax(LEAST_INPUTS, card->paper->least_body * 0.75);
    struct area area = {.width = flow->width};
    const struct node *behind = side->table ? side->table->next : side->first;
    if (side->table)
        blocks_put(flow, side->first, behind, area, section);
    card_key_put(flow, card, sizes->key, flow->type->body, section);
    blocks_put(flow, behind, side->end, area, section);
    if (side->back)
        card_facts_put(flow, card, section);
    imprint_foot_put(flow, card->imprint, inputs, true, section);
}

static bool fits(const struct card *card, const struct side *side, const struct sizes *sizes)
{
    struct arena *arena = arena_new();
    struct print print = {0};
    struct type_scale type = card_type(card, sizes);
    struct flow flow = card_flow(card, arena, &print);
    flow.type = &type;
    card_put(&flow, card, side, sizes, flow_tag(&flow, TAG_DOCUMENT, -1));
    bool fit = !flow.failed && flow_height(&flow, 0, flow.strip_count) <= flow.height;
    flow_end(&flow);
    arena_free(arena);
    return fit;
}

/* The largest figures beside text of the least size. False when nothing fits. */
static bool choose_figures(const struct card *card, const struct side *side,
                           struct sizes *sizes)
{
    double least = fmax(card->paper->least_body, sizes->words);
    sizes->body = card->paper->least_body;
    sizes->row_pad = LEAST_ROW_PAD;
    sizes->figures = side->table ? LARGEST_FIGURES : sizes->body;
    while (!fits(card, side, sizes)) {
        sizes->figures -= SIZE_STEP;
        if (sizes->figures < least)
            return false;
    }
    return true;
}

/* Size of type whose capitals have this height. */
static double size_of(const struct card *card, double height)
{
    return ceil(height / fonts_cap_height(card->fonts) * 10) / 10;
}

/* Words of the table as large as they can be up to what is preferred, but at least so
 * large; states, and their pulls, only where nothing else becomes smaller by it. */
static bool choose_words(const struct card *card, const struct side *side, double least,
                         struct sizes *sizes)
{
    double most = size_of(card, card->ask->preferred);
    *sizes = (struct sizes){.words = most, .caption = least};
    for (sizes->key = KEY_PULLS; sizes->key > KEY_NONE; sizes->key--)
        if (choose_figures(card, side, sizes))
            return true;
    for (sizes->words = most; sizes->words > least; sizes->words -= SIZE_STEP)
        if (choose_figures(card, side, sizes))
            return true;
    sizes->words = least;
    return choose_figures(card, side, sizes);
}

static bool choose_side(const struct card *card, const struct side *side, struct sizes *sizes)
{
    *sizes = (struct sizes){0};
    if (!side->table || side->back)
        return choose_figures(card, side, sizes);
    return choose_words(card, side, size_of(card, card->ask->least), sizes);
}

static bool choose_sides(const struct card *card, struct sizes sizes[2])
{
    bool fit = true;
    for (size_t i = 0; i < card->side_count; i++)
        fit &= choose_side(card, &card->sides[i], &sizes[i]);
    return fit;
}

static bool better_lying(const struct sizes *lying, const struct sizes *upright)
{
    if (lying->words != upright->words)
        return lying->words > upright->words;
    return lying->figures >= WORTH_TURNING * upright->figures;
}

/* Both sides stand the same way round: upright, unless lying is worth it. */
bool card_choose(struct card *card, struct sizes sizes[2])
{
    struct card lying = *card;
    struct sizes lying_sizes[2] = {0};
    lying.layout = layout_card_lying(card->paper, card->ask->hole);
    bool fit = choose_sides(card, sizes);
    bool lying_fit = choose_sides(&lying, lying_sizes);
    if (!lying_fit || (fit && !better_lying(&lying_sizes[0], &sizes[0])))
        return fit;
    *card = lying;
    for (size_t i = 0; i < card->side_count; i++)
        sizes[i] = lying_sizes[i];
    return true;
}

void card_choose_rest(const struct card *card, const struct side *side, struct sizes *sizes)
{
    double most = side->table ? fmin(LARGEST_BODY, sizes->figures * 0.7) : LARGEST_BODY;
    for (struct sizes next = *sizes; next.body + SIZE_STEP <= most;) {
        next.body += SIZE_STEP;
        if (!fits(card, side, &next))
            break;
        *sizes = next;
    }
    for (struct sizes next = *sizes; side->table && next.row_pad < MOST_ROW_PAD;) {
        next.row_pad += ROW_PAD_STEP;
        if (!fits(card, side, &next))
            break;
        *sizes = next;
    }
}

/* The largest words that fit on one of the ways to lay the card; 0: none. */
static double most_words(const struct card *card, const struct side *side)
{
    struct card lying = *card;
    struct sizes sizes = {0};
    double most = size_of(card, card->ask->least);
    lying.layout = layout_card_lying(card->paper, card->ask->hole);
    for (sizes.words = most; sizes.words >= card->paper->least_body; sizes.words -= SIZE_STEP) {
        sizes.caption = sizes.words;
        if (choose_figures(card, side, &sizes) || choose_figures(&lying, side, &sizes))
            return sizes.words;
    }
    return 0;
}

/* Names the card sizes on which the whole could be read. */
static void name_sizes(const struct card *card, struct buffer *names)
{
    buffer_text(names, "");
    for (int size = PAPER_A6; size < PAPER_SIZES; size++) {
        struct card other = *card;
        struct sizes sizes[2] = {0};
        other.paper = paper_of((enum paper_size)size);
        other.layout = layout_card(other.paper, card->ask->hole);
        if (card_choose(&other, sizes))
            buffer_print(names, "%s%s", names->length ? " or " : "", other.paper->name);
    }
}

/* Is there a way to lay the card on which this side fits? */
static bool fits_some_way(const struct card *card, const struct side *side)
{
    struct card lying = *card;
    struct sizes sizes;
    lying.layout = layout_card_lying(card->paper, card->ask->hole);
    return choose_side(card, side, &sizes) || choose_side(&lying, side, &sizes);
}

/* One side fits upright alone, the other lying alone. */
static void report_ways(const struct card *card, struct diags *diags)
{
    struct sizes sizes;
    bool upright = choose_side(card, &card->sides[0], &sizes);
    struct buffer names = {0};
    name_sizes(card, &names);
    fault(diags, card->page->root->at,
          "on %s the card's front fits only %s and its back only %s; shorten the one or the "
          "other%s%s%s",
          card->paper->name, upright ? "upright" : "on its side",
          upright ? "on its side" : "upright",
          card->ask->hole > 0 ? ", leave the hole out" : "",
          names.length ? ", or choose a card of " : "", names.bytes);
    buffer_free(&names);
}

/* The text does fit, but only in type that cannot be read from there. */
static void report_small(const struct card *card, double words, struct diags *diags)
{
    const struct card_ask *ask = card->ask;
    double height = words * fonts_cap_height(card->fonts), share = height / ask->least;
    double distance = floor(ask->distance_mm * share / 10) * 10;
    struct buffer names = {0};
    name_sizes(card, &names);
    fault(diags, ask->at,
          "the windows on a card of %s would be only %.1f mm high, too small to be read from "
          "%s; %s%s%shang it at %g mm or nearer (paper.reading-distance)",
          card->paper->name, height * 25.4 / 72, ask->distance,
          names.length ? "choose a card of " : "", names.bytes, names.length ? ", or " : "",
          distance);
    buffer_free(&names);
}

static void report_side(const struct card *card, const struct side *side, struct diags *diags)
{
    double words = side->table && !side->back ? most_words(card, side) : 0;
    if (words > 0)
        report_small(card, words, diags);
    else
        fault(diags, side->first ? side->first->at : card->page->root->at,
              "the card's %s does not fit on %s in type of %g points and more; shorten "
              "its text and tables, or choose a larger card",
              side->name, card->paper->name, card->paper->least_body);
}

void card_report(const struct card *card, struct diags *diags)
{
    bool each_fits = true;
    for (size_t i = 0; i < card->side_count; i++) {
        bool fit = fits_some_way(card, &card->sides[i]);
        if (!fit)
            report_side(card, &card->sides[i], diags);
        each_fits &= fit;
    }
    if (each_fits)
        report_ways(card, diags);
}
