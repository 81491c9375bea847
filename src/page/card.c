/* The card: each side in the largest type that fits. */
#include "page/blocks.h"
#include "page/imprint.h"
#include "page/place.h"

#include <math.h>

static const double LARGEST_FIGURES = 48, SIZE_STEP = 0.5;
static const double LARGEST_BODY = 14;                       /* larger would only look loud */
static const double LEAST_ROW_PAD = 0.1, MOST_ROW_PAD = 0.3; /* shares of the figures */
static const double ROW_PAD_STEP = 0.05;
static const double LEAST_NOTE = 7.5, LEAST_INPUTS = 6.5, EDGE = 0.25;

/* The card lies on its side when its figures gain at least this much by it. */
static const double WORTH_TURNING = 1.1;

struct side {
    const char *name;
    const struct node *first, *end;
    bool has_table;
};

struct card {
    const struct page *page;
    const struct imprint *imprint;
    const struct fonts *fonts;
    const struct paper *paper;
    struct layout layout;
    struct side sides[2];
    size_t side_count;
};

/* What is chosen for one side. */
struct sizes {
    double body, figures, row_pad;
};

static struct type_scale card_type(const struct sizes *sizes, double least_body)
{
    double body = sizes->body;
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
        .table_words_least = least_body,
        .table_row_pad = sizes->row_pad};
}

static struct flow make_flow(const struct card *card, struct arena *arena, struct print *print)
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

static void put_side(struct flow *flow, const struct card *card, const struct side *side,
                     int document)
{
    int section = flow_tag(flow, TAG_SECTION, document);
    double inputs = fmax(LEAST_INPUTS, card->paper->least_body * 0.75);
    blocks_put(flow, side->first, side->end, (struct area){.width = flow->width}, section);
    imprint_foot_put(flow, card->imprint, inputs, true, section);
}

static bool fits(const struct card *card, const struct side *side, struct sizes sizes)
{
    struct arena *arena = arena_new();
    struct print print = {0};
    struct type_scale type = card_type(&sizes, card->paper->least_body);
    struct flow flow = make_flow(card, arena, &print);
    flow.type = &type;
    put_side(&flow, card, side, flow_tag(&flow, TAG_DOCUMENT, -1));
    bool fit = !flow.failed && flow_height(&flow, 0, flow.strip_count) <= flow.height;
    flow_end(&flow);
    arena_free(arena);
    return fit;
}

/* The figures first, beside text of the least size. False when nothing fits. */
static bool choose_figures(const struct card *card, const struct side *side,
                           struct sizes *sizes)
{
    *sizes = (struct sizes){.body = card->paper->least_body, .row_pad = LEAST_ROW_PAD};
    sizes->figures = side->has_table ? LARGEST_FIGURES : sizes->body;
    while (!fits(card, side, *sizes)) {
        sizes->figures -= SIZE_STEP;
        if (sizes->figures < card->paper->least_body)
            return false;
    }
    return true;
}

/* Then the text and the rows of the table, as far as they can grow beside them. */
static void choose_the_rest(const struct card *card, const struct side *side,
                            struct sizes *sizes)
{
    double most = side->has_table ? fmin(LARGEST_BODY, sizes->figures * 0.7) : LARGEST_BODY;
    for (struct sizes next = *sizes; next.body + SIZE_STEP <= most;) {
        next.body += SIZE_STEP;
        if (!fits(card, side, next))
            break;
        *sizes = next;
    }
    for (struct sizes next = *sizes; side->has_table && next.row_pad < MOST_ROW_PAD;) {
        next.row_pad += ROW_PAD_STEP;
        if (!fits(card, side, next))
            break;
        *sizes = next;
    }
}

static bool choose_all_figures(const struct card *card, struct sizes sizes[2])
{
    bool fit = true;
    for (size_t i = 0; i < card->side_count; i++)
        fit &= choose_figures(card, &card->sides[i], &sizes[i]);
    return fit;
}

/* Both sides stand the same way round: upright, unless lying is worth it. */
static bool choose_layout(struct card *card, struct sizes sizes[2])
{
    struct card lying = *card;
    struct sizes lying_sizes[2];
    lying.layout = layout_card_lying(card->paper);
    bool fit = choose_all_figures(card, sizes);
    bool lying_fit = choose_all_figures(&lying, lying_sizes);
    if (!lying_fit || (fit && lying_sizes[0].figures < WORTH_TURNING * sizes[0].figures))
        return fit;
    *card = lying;
    for (size_t i = 0; i < card->side_count; i++)
        sizes[i] = lying_sizes[i];
    return true;
}

/* Spreads what is left over between the blocks, so that the side is filled evenly. */
static void spread(struct flow *flow, size_t first)
{
    double least = flow->type->leading / 4, count = 0;
    double left = flow->height - flow_height(flow, first, flow->strip_count);
    for (size_t i = first + 1; i < flow->strip_count; i++)
        count += flow->strips[i].gap > least && flow->strips[i].inset == 0;
    double more = count > 0 ? fmin(left / count, flow->type->leading * 0.5) : 0;
    for (size_t i = first + 1; i < flow->strip_count; i++)
        if (flow->strips[i].gap > least && flow->strips[i].inset == 0)
            flow->strips[i].gap += more;
}

static void add_edge(struct flow *flow)
{
    struct sheet *sheet = &flow->print->sheets[flow->print->sheet_count - 1];
    *ARENA_PUSH(flow->arena, sheet->pieces, sheet->piece_count) =
        (struct piece){.kind = PIECE_BOX,
                       .tag = -1,
                       .x = EDGE / 2,
                       .y = EDGE / 2,
                       .width = sheet->width - EDGE,
                       .height = sheet->height - EDGE,
                       .line = EDGE};
}

static void compose_side(struct flow *flow, const struct card *card, size_t index,
                         struct sizes sizes, int document)
{
    const struct side *side = &card->sides[index];
    choose_the_rest(card, side, &sizes);
    struct type_scale type = card_type(&sizes, card->paper->least_body);
    size_t first = flow->strip_count;
    flow->type = &type;
    put_side(flow, card, side, document);
    spread(flow, first);
    flow_place(flow, &card->layout, first, flow->strip_count);
    add_edge(flow);
}

static void report(const struct card *card, struct diags *diags)
{
    for (size_t i = 0; i < card->side_count; i++) {
        const struct side *side = &card->sides[i];
        struct sizes sizes;
        if (choose_figures(card, side, &sizes))
            continue;
        fault(
            diags, side->first ? side->first->at : card->page->root->at,
            "the card's %s does not fit on %s in type of %g points and more; shorten its text "
            "and tables, or choose a larger card",
            side->name, card->paper->name, card->paper->least_body);
    }
}

static bool has_table(const struct side *side)
{
    for (const struct node *node = side->first; node && node != side->end; node = node->next)
        if (node->kind == NODE_TABLE)
            return true;
    return false;
}

/* Front and back are parted by the first rule; a card without one has no back. */
static void find_sides(struct card *card)
{
    const struct node *rule = card->page->root->first;
    while (rule && rule->kind != NODE_RULE)
        rule = rule->next;
    card->sides[0] =
        (struct side){.name = "front", .first = card->page->root->first, .end = rule};
    card->sides[1] = (struct side){.name = "back", .first = rule ? rule->next : NULL};
    card->side_count = rule ? 2 : 1;
    for (size_t i = 0; i < card->side_count; i++)
        card->sides[i].has_table = has_table(&card->sides[i]);
}

struct print *compose_card(struct arena *arena, const struct page *page,
                           const struct imprint *imprint, const struct fonts *fonts,
                           enum paper_size size, struct diags *diags)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct card card = {
        .page = page, .imprint = imprint, .fonts = fonts, .paper = paper_of(size)};
    struct sizes sizes[2];
    print->title = imprint->title;
    card.layout = layout_card(card.paper);
    find_sides(&card);
    imprint_check(imprint, fonts, (struct place){.file = page->file}, diags);
    if (!choose_layout(&card, sizes)) {
        report(&card, diags);
        return print;
    }
    struct flow flow = make_flow(&card, arena, print);
    int document = flow_tag(&flow, TAG_DOCUMENT, -1);
    for (size_t i = 0; i < card.side_count; i++)
        compose_side(&flow, &card, i, sizes[i], document);
    links_resolve(&flow);
    flow_end(&flow);
    return print;
}
