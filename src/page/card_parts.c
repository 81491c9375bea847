/* What the program itself adds to the card: the line of states, the facts. */
#include "page/card_plan.h"
#include "page/lines.h"

#include <math.h>

static const double LEAST_PAD = 0.4, CELL_HEIGHT = 1.8; /* shares of the type's size */
static const double CELL_LINE = 0.6, GOOD_LINE = 2;

static double key_width(const struct card *card, double size)
{
    double width = 0;
    for (size_t i = 0; i < card->ask->key_count; i++)
        width += fonts_width(card->fonts, FACE_REGULAR, size, card->ask->key[i]);
    return width;
}

/* One cell beside the other over the whole width, each as wide as its words want. */
static void put_cells(struct flow *flow, const struct card *card,
                      const struct text_style *style, int tag)
{
    size_t count = card->ask->key_count;
    double pad = (flow->width - key_width(card, style->size)) / (2 * (double)count), x = 0;
    double height = style->size * CELL_HEIGHT;
    double baseline = (height + fonts_cap_height(card->fonts) * style->size) / 2;
    for (size_t i = 0; i < count; i++) {
        const char *words = card->ask->key[i];
        double width = fonts_width(card->fonts, FACE_REGULAR, style->size, words) + 2 * pad;
        bool good = 2 * i + 1 == count; /* the middle one */
        double line = good ? GOOD_LINE : CELL_LINE, half = good ? GOOD_LINE / 2 : 0;
        flow_text(flow, x + pad, baseline, style, flow_tag(flow, TAG_PARAGRAPH, tag), words);
        flow_line(flow, x, half, width, 0, line);
        flow_line(flow, x, height - half, width, 0, line);
        flow_line(flow, x + half, 0, 0, height, line);
        flow_line(flow, x + width - half, 0, 0, height, line);
        x += width;
    }
}

void card_key_put(struct flow *flow, const struct card *card, double size, int tag)
{
    size_t count = card->ask->key_count;
    if (count == 0)
        return;
    double at_one = key_width(card, 1) + 2 * LEAST_PAD * (double)count;
    struct text_style style = {.size = fmin(size, flow->width / at_one)};
    if (style.size < card->paper->least_body)
        flow->failed = true;
    flow_gap(flow, flow->type->leading * 0.5);
    flow_strip(flow, style.size * CELL_HEIGHT);
    put_cells(flow, card, &style, tag);
    flow_gap(flow, flow->type->leading * 0.75);
}

void card_facts_put(struct flow *flow, const struct card *card, int tag)
{
    struct text_style style = {.size = card->paper->least_body};
    style.leading = style.size * 1.25;
    flow_gap(flow, flow->type->leading * 0.75);
    for (size_t i = 0; i < card->ask->fact_count; i++) {
        const struct fact *fact = &card->ask->facts[i];
        int paragraph = flow_tag(flow, TAG_PARAGRAPH, tag);
        style.face = FACE_BOLD;
        lines_read_plain(flow, fact->name, &style, paragraph);
        phrase_blank(&flow->phrase);
        phrase_add(&flow->phrase, fact->value, (struct pen){.link = -1, .tag = paragraph});
        lines_put(flow, (struct area){.width = flow->width}, &style);
    }
}
