/* The card: each side in the largest type that fits. */
#include "page/card_plan.h"
#include "page/card_sheet.h"
#include "page/cut.h"
#include "page/imprint.h"

#include <math.h>

/* Spreads what is left over between the blocks, so that the side is filled evenly. */
static void spread_blank(struct flow *flow, size_t first)
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

static void compose_side(struct flow *flow, const struct card *card, size_t index,
                         struct sizes sizes, int document)
{
    const struct side *side = &card->sides[index];
    card_choose_rest(card, side, &sizes);
    struct type_scale type = card_type(card, &sizes);
    size_t first = flow->strip_count;
    flow->type = &type;
    card_put(flow, card, side, &sizes, document);
    spread_blank(flow, first);
    flow_place(flow, &card->layout, first, flow->strip_count);
}

static const struct node *find_table(const struct side *side)
{
    for (const struct node *node = side->first; node && node != side->end; node = node->next)
        if (node->kind == NODE_TABLE)
            return node;
    return NULL;
}

/* Front and back are parted by the first rule; a card without one has no back. */
static void find_sides(struct card *card)
{
    const struct node *rule = card->page->root->first;
    while (rule && rule->kind != NODE_RULE)
        rule = rule->next;
    card->sides[0] =
        (struct side){.name = "front", .first = card->page->root->first, .end = rule};
    card->sides[1] =
        (struct side){.name = "back", .first = rule ? rule->next : NULL, .back = true};
    card->side_count = rule ? 2 : 1;
    for (size_t i = 0; i < card->side_count; i++)
        card->sides[i].table = find_table(&card->sides[i]);
}

/* Height of the smallest sign in the table on the front; 0: there is none. */
static double smallest_height(const struct print *print, const struct fonts *fonts)
{
    double smallest = INFINITY;
    const struct sheet *front = &print->sheets[0];
    for (size_t i = 0; i < front->piece_count; i++) {
        const struct piece *piece = &front->pieces[i];
        if (piece->kind != PIECE_TEXT || piece->tag < 0)
            continue;
        enum tag_kind kind = print->tags[piece->tag].kind;
        if (kind == TAG_CELL || kind == TAG_HEAD_CELL)
            smallest = fmin(smallest, piece->size);
    }
    return isfinite(smallest) ? smallest * fonts_cap_height(fonts) : 0;
}

static void compose_sides(const struct card *card, struct arena *arena, struct print *print,
                          const struct sizes sizes[2])
{
    struct flow flow = card_flow(card, arena, print);
    int document = flow_tag(&flow, TAG_DOCUMENT, -1);
    for (size_t i = 0; i < card->side_count; i++)
        compose_side(&flow, card, i, sizes[i], document);
    flow_note_anchors(&flow, 0);
    flow_resolve_links(&flow);
    flow_end(&flow);
}

struct card_prints compose_card(struct arena *arena, const struct page *page,
                                const struct imprint *imprint, const struct fonts *fonts,
                                const struct card_ask *ask, struct diags *diags)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct card card = {.page = page,
                        .imprint = imprint,
                        .fonts = fonts,
                        .ask = ask,
                        .paper = paper_of(ask->size)};
    struct sizes sizes[2];
    print->title = imprint->title;
    card.layout = layout_card(card.paper, ask->hole);
    find_sides(&card);
    imprint_check(imprint, fonts, (struct place){.file = page->file}, diags);
    if (!card_choose(&card, sizes)) {
        card_report(&card, diags);
        return (struct card_prints){.card = print};
    }
    compose_sides(&card, arena, print, sizes);
    print->flip_short_edge = print->sheets[0].width > print->sheets[0].height;
    struct card_prints prints = {.card = print, .height = smallest_height(print, fonts)};
    card_hole_add(arena, print, ask->hole);
    prints.sheet = card_sheet_compose(arena, print, ask, fonts, imprint);
    card_edge_add(arena, print);
    return prints;
}
