/* Single sheets: the forms, each with rows as high as its sheet allows; and the record. */
#include "doc/canvas.h"
#include "layout/blocks.h"

#include <math.h>

static const struct type_scale form_type = {
    .body = 10,
    .leading = 12.5,
    .heading = {17, 12, 10.5, 10},
    .heading_leading = {21, 15, 13, 12.5},
    .literal = 8,
    .note = 8,
    .table_most = 9.5,
    .table_least = 7,
    .table_text = 1,
    .table_head = 1,
    .table_row_pad = 0.1,
    .writing_room = 9 * MM,
};

/* The record's is smaller: it has four tables. */
static const struct type_scale record_type = {
    .body = 8.5,
    .leading = 10.5,
    .heading = {15, 10.5, 9, 8.5},
    .heading_leading = {18, 13, 11, 10.5},
    .literal = 7.5,
    .note = 7,
    .table_most = 8,
    .table_least = 6.5,
    .table_text = 1,
    .table_head = 1,
    .table_row_pad = 0.1,
    .writing_room = 9 * MM,
};

/* Both sides bear a binder's holes and a thumb. */
static const double SIDE = 18 * MM, TOP = 9 * MM, BOTTOM = 8 * MM;

/* Rows higher than this would look empty. */
static const double MOST_ROOM = 13 * MM;

static const double FOOT_SIZE = 7.5;

/* Of the blank between blocks, this share may be taken where a form is too long. */
static const double MOST_SQUEEZE = 0.6;

static void begin_page(struct flow *flow, const struct page *page)
{
    flow->page = page;
    flow->chapter = page->title;
    flow->gap = 0;
    flow->cost = BREAK_FREE;
    flow->turn = TURN_UPRIGHT;
    flow->tag = flow_tag(flow, TAG_SECTION, DOCUMENT);
    flow_anchor(flow, "");
}

static void put_form(struct flow *flow, const struct page *page, const struct imprint *imprint)
{
    begin_page(flow, page);
    blocks_put(flow, page->root->first, NULL);
    imprint_foot_put(flow, imprint, FOOT_SIZE, true);
}

/* How high rows to write in may be, so that the form just fills its sheet; tried on
 * sheets that nobody keeps. */
static double choose_room(const struct flow *real, const struct page *page,
                          const struct imprint *imprint)
{
    struct print print = {0};
    struct flow flow = {.arena = real->arena,
                        .fonts = real->fonts,
                        .print = &print,
                        .type = &form_type,
                        .trial = true};
    flow_begin(&flow, real->layout);
    put_form(&flow, page, imprint);
    double left = flow.height - flow_height(&flow, 0, flow.strip_count);
    double more = flow.writing_rows ? left / (double)flow.writing_rows : 0;
    flow_end(&flow);
    return fmin(form_type.writing_room + fmax(more, 0), MOST_ROOM);
}

/* Takes out of the gaps what the strips that are not placed yet are too high, as far as may
 * be; gives what is still over, and where it is to be enough or nothing takes nothing then. A
 * longer name of a lathe is no reason to refuse a form. */
static double squeeze(struct flow *flow, bool enough_or_nothing)
{
    size_t first = flow->placed_count;
    double over = flow_height(flow, first, flow->strip_count) - flow->height, gaps = 0;
    for (size_t i = first + 1; i < flow->strip_count; i++)
        gaps += flow->strips[i].gap;
    double taken = fmin(fmax(over, 0), gaps * MOST_SQUEEZE);
    if (enough_or_nothing && taken < over)
        return over;
    for (size_t i = first + 1; i < flow->strip_count && taken > 0; i++)
        flow->strips[i].gap *= 1 - taken / gaps;
    return over - taken;
}

static void compose_form(struct flow *flow, const struct page *page,
                         const struct imprint *imprint)
{
    struct type_scale type = form_type;
    type.writing_room = choose_room(flow, page, imprint);
    flow->type = &type;
    put_form(flow, page, imprint);
    double over = squeeze(flow, false);
    if (over > 0.01)
        fault(flow->diags, (struct place){.file = page->file},
              "the form is %.0f mm too long for one sheet; take out rows or words, or make two "
              "forms of it",
              ceil(over / MM));
    flow_place(flow);
}

static struct layout sheet_of(enum paper_size booklet)
{
    const struct stock *stock = stock_of(booklet);
    return (struct layout){
        .width = stock->width, .height = stock->height, .margins = {TOP, BOTTOM, SIDE, SIDE}};
}

struct print *compose_forms(struct arena *arena, const struct page *const *pages, size_t count,
                            const struct imprint *imprint, const struct fonts *fonts,
                            enum paper_size booklet, struct diags *diags)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct layout layout = sheet_of(booklet);
    struct flow flow = {.arena = arena, .fonts = fonts, .diags = diags, .print = print};
    flow_begin(&flow, &layout);
    print->title = arena_format(arena, "%s: forms", imprint->title);
    for (size_t i = 0; i < count; i++)
        if (pages[i]->is_form)
            compose_form(&flow, pages[i], imprint);
    for (size_t i = 0; i < print->sheet_count; i++)
        print->sheets[i].label = arena_format(arena, "%zu", i + 1);
    flow_resolve(&flow, 1);
    flow_end(&flow);
    return print;
}

/* As compact as a form: most records fill one sheet. */
struct print *compose_record(struct arena *arena, const struct page *page,
                             const struct imprint *imprint, const struct fonts *fonts,
                             enum paper_size booklet, struct diags *diags)
{
    struct print *print = arena_get(arena, sizeof *print);
    struct layout layout = sheet_of(booklet);
    struct flow flow = {
        .arena = arena, .fonts = fonts, .diags = diags, .print = print, .type = &record_type};
    const struct node *heading = page->root->first, *table = heading;
    while (table && table->kind != NODE_TABLE)
        table = table->next;
    flow_begin(&flow, &layout);
    print->title = arena_format(arena, "%s: %s", imprint->title, page->title);
    begin_page(&flow, page);
    blocks_put(&flow, heading, heading ? heading->next : NULL);
    blocks_put(&flow, table, NULL);
    imprint_foot_put(&flow, imprint, FOOT_SIZE, true);
    squeeze(&flow, true);
    flow_place(&flow);
    for (size_t i = 0; i < print->sheet_count; i++)
        print->sheets[i].label = arena_format(arena, "%zu", i + 1);
    flow_resolve(&flow, 1);
    flow_end(&flow);
    return print;
}
