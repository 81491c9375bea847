/* What the program itself adds to the card: the line of states, the facts. */
#include "page/card_plan.h"
#include "page/lines.h"

#include <math.h>

static const double LEAST_PAD = 0.4, CELL_HEIGHT = 1.8; /* shares of the type's size */
static const double SECOND_LINE = 1.2;
static const double CELL_LINE = 0.6, GOOD_LINE = 2;

static double words_width(const struct card *card, double size, const char *words)
{
    return fonts_width(card->fonts, FACE_REGULAR, size, words);
}

/* Without the blank on both sides. */
static double cell_width(const struct card *card, enum card_key key, double size,
                         const struct state_cell *cell)
{
    double second = key == KEY_PULLS ? words_width(card, size, cell->pulls) : 0;
    return fmax(words_width(card, size, cell->words), second);
}

static double key_width(const struct card *card, enum card_key key, double size)
{
    double width = 0;
    for (size_t i = 0; i < card->ask->key_count; i++)
        width += cell_width(card, key, size, &card->ask->key[i]);
    return width;
}

static double key_height(enum card_key key, double size)
{
    return size * (key == KEY_PULLS ? CELL_HEIGHT + SECOND_LINE : CELL_HEIGHT);
}

/* In the middle of a cell from x on. */
static void put_line(struct flow *flow, const struct card *card, const struct text_style *style,
                     const char *words, double x, double width, double baseline, int tag)
{
    double left = x + (width - words_width(card, style->size, words)) / 2;
    if (words[0])
        flow_text(flow, left, baseline, style, flow_tag(flow, TAG_PARAGRAPH, tag), words);
}

static void put_frame(struct flow *flow, double x, double width, double height, bool good)
{
    double line = good ? GOOD_LINE : CELL_LINE, half = good ? GOOD_LINE / 2 : 0;
    flow_line(flow, x, half, width, 0, line);
    flow_line(flow, x, height - half, width, 0, line);
    flow_line(flow, x + half, 0, 0, height, line);
    flow_line(flow, x + width - half, 0, 0, height, line);
}

/* One cell beside the other over the whole width, each as wide as its words want. */
static void put_cells(struct flow *flow, const struct card *card, enum card_key key,
                      const struct text_style *style, int tag)
{
    size_t count = card->ask->key_count;
    double size = style->size, height = key_height(key, size), x = 0;
    double pad = (flow->width - key_width(card, key, size)) / (2 * (double)count);
    double baseline = size * (CELL_HEIGHT + fonts_cap_height(card->fonts)) / 2;
    for (size_t i = 0; i < count; i++) {
        const struct state_cell *cell = &card->ask->key[i];
        double width = cell_width(card, key, size, cell) + 2 * pad;
        put_line(flow, card, style, cell->words, x, width, baseline, tag);
        if (key == KEY_PULLS)
            put_line(flow, card, style, cell->pulls, x, width, baseline + size * SECOND_LINE,
                     tag);
        put_frame(flow, x, width, height, 2 * i + 1 == count); /* good is the middle one */
        x += width;
    }
}

void card_key_put(struct flow *flow, const struct card *card, enum card_key key, double size,
                  int tag)
{
    size_t count = card->ask->key_count;
    if (count == 0 || key == KEY_NONE)
        return;
    double at_one = key_width(card, key, 1) + 2 * LEAST_PAD * (double)count;
    struct text_style style = {.size = fmin(size, flow->width / at_one)};
    if (style.size < card->paper->least_body)
        flow->failed = true;
    flow_gap(flow, flow->type->leading * 0.5);
    flow_strip(flow, key_height(key, style.size));
    put_cells(flow, card, key, &style, tag);
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
