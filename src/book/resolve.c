/* What a page names is put into its tree: tables, figures and values, in one walk over its
 * nodes; and what it may not hold is looked for. Its links are followed behind the walk, when
 * all names on it are known; those to later pages, when all pages are read. */
#include "book/stages.h"

#include "base/utf8.h"
#include "figures/figures.h"
#include "report/values.h"
#include "tables/tables.h"

#include <stdlib.h>
#include <string.h>

enum { LONGEST_AXIS = 50 }; /* characters */

/* One name on a page that a link may lead to. */
struct name {
    const char *anchor;
    const struct node *node;
    size_t order; /* in reading order */
};

/* A page while it is walked. Its own arena holds what goes with it. */
struct walk {
    struct book *book;
    const struct page *page;
    struct arena *arena;
    const struct shop *shop; /* NULL where it is not good */
    struct text_meter meter;
    struct name *names; /* in the end by name, then by order */
    size_t name_count;
    struct node **links;
    size_t link_count;
};

static double text_width(const void *with, bool bold, double size, const char *text)
{
    const struct fonts *fonts = with;
    return fonts_width(fonts, bold ? FACE_BOLD : FACE_REGULAR, size, text);
}

struct text_meter book_meter(const struct book *book)
{
    return (struct text_meter){.width = text_width, .with = book->fonts};
}

static const char *base_name(const char *file)
{
    const char *slash = strrchr(file, '/');
    return slash ? slash + 1 : file;
}

/* A table or a figure stands once, so that its name is one place to link to. */
static void refuse_second(const struct walk *walk, const struct node *node, const char *what,
                          const char *name, struct place earlier)
{
    fault(walk->book->diags, node->at,
          "the %s %s already stands at %s:%d; link to it as in (%s#%s)", what, name,
          earlier.file, earlier.line, base_name(earlier.file), name);
}

/* Is the page in anything that is made? Else what it computes need not be worked out. */
static bool is_shown(const struct book *book, const struct page *page)
{
    unsigned paper = page->is_form        ? PART_FORMS
                     : page == book->card ? PART_CARD
                                          : PART_BOOKLET | PART_FOLD;
    if (page == book->record)
        paper |= PART_RECORD;
    return book->parts & (PART_SITE | PART_SINGLE | PART_TABLES | paper);
}

/* ---- tables ---- */

static const struct table *table_named(const struct book *book, const char *name)
{
    for (size_t i = 0; i < book->table_count; i++)
        if (book->tables[i] && strcmp(book->tables[i]->name, name) == 0)
            return book->tables[i];
    return NULL;
}

static void place_computed(const struct walk *walk, struct node *node)
{
    struct book *book = walk->book;
    struct table_ask ask = {/* a table of the booklet is kept for its CSV */
                            .arena = walk->page->in_booklet ? book->arena : walk->arena,
                            .diags = book->diags,
                            .results = book->results,
                            .at = node->at,
                            .options = node->options,
                            .option_count = node->option_count,
                            .unseen = !is_shown(book, walk->page)};
    if (!walk->shop) {
        tables_find(node->table_name, &ask);
        return;
    }
    node->table = tables_make(node->table_name, &ask);
    if (!node->table || !walk->page->in_booklet)
        return;
    const struct table *earlier = table_named(book, node->table_name);
    if (earlier)
        refuse_second(walk, node, "table", node->table_name, earlier->at);
    else
        *ARENA_PUSH(book->arena, book->tables, book->table_count) = node->table;
}

/* A table written by hand must not pass for a computed one. */
static void check_written(const struct walk *walk, const struct node *node)
{
    for (size_t i = 0; node->table && tables_at(i); i++)
        if (strcmp(tables_at(i)->name, node->table->name) == 0)
            fault(walk->book->diags, node->at,
                  "the name '%s' is that of a computed table; choose another",
                  node->table->name);
}

/* ---- figures ---- */

static void place_figure(const struct walk *walk, struct node *node)
{
    struct book *book = walk->book;
    struct figure_ask ask = {.arena = walk->arena,
                             .diags = book->diags,
                             .results = book->results,
                             .meter = &walk->meter,
                             .at = node->at,
                             .unseen = !is_shown(book, walk->page)};
    if (!walk->shop || !book->fonts) {
        figures_find(node->figure_name, &ask);
        return;
    }
    for (size_t i = 0; i < book->figure_count; i++)
        if (strcmp(book->figures[i].name, node->figure_name) == 0) {
            refuse_second(walk, node, "figure", node->figure_name, book->figures[i].at);
            return;
        }
    node->figure = figures_make(node->figure_name, &ask);
    if (node->figure)
        *ARENA_PUSH(book->arena, book->figures, book->figure_count) = (struct placed_figure){
            node->figure->name, {walk->page->file, node->at.line, node->at.column}};
}

/* ---- forms: values are filled in, blank graphs drawn ---- */

/* Without a shop names are looked at, and nothing is filled in. */
static const char *fill(const struct walk *walk, const char *text, struct place at)
{
    return text ? form_values_fill(walk->arena, walk->book->diags,
                                   walk->shop ? walk->book->results : NULL, text, at)
                : NULL;
}

/* As above, but what the settings do not say is left to the pencil. */
static const char *fill_or_leave(const struct walk *walk, const char *text, struct place at)
{
    const char *filled = fill(walk, text, at);
    return filled && *filled ? filled : NULL;
}

static void fill_row(const struct walk *walk, struct form_row *row)
{
    for (size_t i = 0; i < row->count; i++) {
        struct form_field *field = &row->fields[i];
        field->label = fill(walk, field->label, row->at);
        field->unit = fill_or_leave(walk, field->unit, row->at);
        field->value = fill_or_leave(walk, field->value, row->at);
        for (size_t k = 0; k < field->choice_count; k++)
            field->choices[k] = fill(walk, field->choices[k], row->at);
    }
}

static void fill_grid(const struct walk *walk, struct table *table)
{
    table->caption = fill(walk, table->caption, table->at);
    for (size_t i = 0; i < table->column_count; i++) {
        struct column *column = &table->columns[i];
        column->quantity = fill(walk, column->quantity, table->at);
        column->unit = fill_or_leave(walk, column->unit, table->at);
    }
    for (size_t i = 0; i < table->row_count * table->column_count; i++)
        table->cells[i].shown = fill(walk, table->cells[i].shown, table->at);
}

static size_t characters_in(const char *text)
{
    return text ? utf8_count(text, strlen(text)) : 0;
}

static void fill_axis(const struct walk *walk, struct graph_axis *axis, struct place at)
{
    axis->quantity = fill(walk, axis->quantity, at);
    axis->unit = fill_or_leave(walk, axis->unit, at);
    size_t length = characters_in(axis->quantity) + characters_in(axis->unit);
    if (length > LONGEST_AXIS)
        fault(walk->book->diags, at,
              "the words of an axis have %zu characters and would leave the sheet; %d are the "
              "most",
              length, LONGEST_AXIS);
}

static void fill_graph(const struct walk *walk, struct node *node)
{
    struct graph *graph = node->graph;
    graph->caption = fill(walk, graph->caption, graph->at);
    fill_axis(walk, &graph->across, graph->at);
    fill_axis(walk, &graph->up, graph->at);
    if (walk->shop && walk->book->fonts)
        node->figure = draw_blank_graph(walk->arena, walk->shop, graph, &walk->meter);
}

/* ---- what does not hold for this shop is left out ---- */

/* The condition stands at the head of an item's or a paragraph's text. */
static bool keep_block(const struct shop *shop, struct node *block)
{
    struct node *head = block;
    while (head && head->kind != NODE_TEXT)
        head = head->first;
    const char *kept = head ? condition_take(shop, head->text) : "";
    if (head && kept && kept != head->text) {
        head->text = kept;
        head->as_written = false;
    }
    return kept;
}

/* False where no row is left. */
static bool keep_rows(const struct shop *shop, struct form *form)
{
    size_t row_count = 0;
    for (size_t i = 0; i < form->count; i++) {
        struct form_row *row = &form->rows[i];
        size_t count = 0;
        for (size_t k = 0; k < row->count; k++) {
            const char *kept = condition_take(shop, row->fields[k].label);
            if (kept) {
                row->fields[count] = row->fields[k];
                row->fields[count++].label = kept;
            }
        }
        row->count = count;
        if (count)
            form->rows[row_count++] = *row;
    }
    form->count = row_count;
    return row_count > 0;
}

static void remove_column(struct table *table, size_t column)
{
    size_t columns = table->column_count, kept = 0;
    for (size_t i = 0; i < table->row_count * columns; i++)
        if (i % columns != column)
            table->cells[kept++] = table->cells[i];
    memmove(&table->columns[column], &table->columns[column + 1],
            (columns - column - 1) * sizeof *table->columns);
    table->column_count--;
}

/* False where the whole grid goes. */
static bool keep_columns(const struct shop *shop, struct table *table)
{
    const char *caption = condition_take(shop, table->caption);
    if (!caption)
        return false;
    table->caption = caption;
    for (size_t i = table->column_count; i-- > 0;) {
        const char *kept = condition_take(shop, table->columns[i].quantity);
        if (kept)
            table->columns[i].quantity = kept;
        else
            remove_column(table, i);
    }
    return table->column_count > 0;
}

/* ---- the walk ---- */

static bool is_grid(const struct node *node)
{
    return node->kind == NODE_TABLE && node->table && node->table->blank;
}

static bool is_graph(const struct node *node)
{
    return node->kind == NODE_FIGURE && node->graph;
}

/* What stands on forms only. */
static void check_place(const struct walk *walk, const struct node *node)
{
    if (node->kind == NODE_FIELDS || is_grid(node) || is_graph(node))
        fault(walk->book->diags, node->at,
              "boxes, lines, grids and graphs stand on forms only; put this into a "
              "page named as in form-01-manual.md");
}

static void place(const struct walk *walk, struct node *node)
{
    if (node->kind == NODE_TABLE && node->table_name)
        place_computed(walk, node);
    else if (node->kind == NODE_TABLE)
        check_written(walk, node);
    else if (node->kind == NODE_FIGURE && node->figure_name && !node->graph)
        place_figure(walk, node);
}

/* False where the node goes, with all below it. */
static bool keep(const struct walk *walk, struct node *node)
{
    if (node->kind == NODE_FIELDS)
        return keep_rows(walk->shop, node->form);
    if (node->kind == NODE_ITEM || node->kind == NODE_PARAGRAPH)
        return keep_block(walk->shop, node);
    return !is_grid(node) || keep_columns(walk->shop, node->table);
}

static void fill_node(const struct walk *walk, struct node *node)
{
    if (node->kind == NODE_FIELDS)
        for (size_t i = 0; i < node->form->count; i++)
            fill_row(walk, &node->form->rows[i]);
    else if (is_grid(node))
        fill_grid(walk, node->table);
    else if (is_graph(node))
        fill_graph(walk, node);
}

/* On the card any text may name values. */
static void fill_text(const struct walk *walk, struct node *node)
{
    const char *filled = fill(walk, node->text, node->at);
    node->as_written &= strcmp(filled, node->text) == 0;
    node->text = filled;
}

static const char *anchor_of(const struct node *node)
{
    if (node->kind == NODE_TABLE)
        return node->table ? node->table->name : node->table_name;
    if (node->kind == NODE_FIGURE)
        return node->figure_name;
    return node->kind == NODE_HEADING ? node->anchor : NULL;
}

/* Names and links. */
static void collect(struct walk *walk, struct node *node)
{
    const char *anchor = anchor_of(node);
    if (node->kind == NODE_LINK && node->target[0])
        *ARENA_PUSH(walk->arena, walk->links, walk->link_count) = node;
    if (anchor) {
        size_t order = walk->name_count;
        *ARENA_PUSH(walk->arena, walk->names, walk->name_count) =
            (struct name){.anchor = anchor, .node = node, .order = order};
    }
}

/* What is left out is looked at as well, so that its faults are told: in every shop the same.
 */
static void walk_page(struct walk *walk)
{
    const struct page *page = walk->page;
    struct node *out = NULL; /* what is left out, while below it */
    for (struct node *node = page->root, *next; node; node = next) {
        if (!page->is_form)
            check_place(walk, node);
        place(walk, node);
        if (!out && !keep(walk, node))
            out = node;
        if (!out && page->is_form)
            fill_node(walk, node);
        if (!out && page == walk->book->card && node->kind == NODE_TEXT)
            fill_text(walk, node);
        if (!out)
            collect(walk, node);
        next = node_following(page->root, node);
        if (out && next == node_after(page->root, out)) {
            node_remove(out);
            out = NULL;
        }
    }
}

/* ---- names and links ---- */

static int by_anchor(const void *left, const void *right)
{
    const struct name *a = left, *b = right;
    int difference = strcmp(a->anchor, b->anchor);
    return difference ? difference : (a->order > b->order) - (a->order < b->order);
}

/* Two tables or two figures of one name are a fault of another kind. */
static bool both_computed(const struct node *node, const struct node *other)
{
    if (node->kind != other->kind)
        return false;
    if (node->kind == NODE_TABLE)
        return node->table_name && other->table_name;
    return node->kind == NODE_FIGURE && !node->graph && !other->graph;
}

/* Headings, tables and figures of one page share one set of names, which outlives it. */
static void keep_names(struct walk *walk)
{
    struct book *book = walk->book;
    struct anchors *anchors = &book->anchors[walk->page->number];
    if (walk->name_count)
        qsort(walk->names, walk->name_count, sizeof *walk->names, by_anchor);
    anchors->texts = arena_get(book->arena, walk->name_count * sizeof(char *));
    for (size_t i = 0, first = 0; i < walk->name_count; i++) {
        const struct name *name = &walk->names[i];
        anchors->texts[anchors->count++] = arena_text(book->arena, name->anchor);
        if (strcmp(name->anchor, walk->names[first].anchor) != 0)
            first = i;
        else if (i > first && !both_computed(name->node, walk->names[first].node))
            fault(book->diags, name->node->at,
                  "the name '%s' is already taken on line %d of this page; choose another",
                  name->anchor, walk->names[first].node->at.line);
    }
}

static int text_against(const void *key, const void *item)
{
    return strcmp(key, *(const char *const *)item);
}

/* A page that could not be read has faults enough. */
static void check_anchor(struct book *book, const struct far_link *link)
{
    const struct anchors *anchors = &book->anchors[link->to->number];
    if (!link->to->title ||
        bsearch(link->anchor, anchors->texts, anchors->count, sizeof(char *), text_against))
        return;
    fault(book->diags, link->at,
          "the link leads to '#%s', but %s has no such heading, table or figure; a heading's "
          "name is its words in lower case with hyphens",
          link->anchor, link->to->file);
}

static int file_against(const void *key, const void *item)
{
    return text_start_against(key, base_name((*(const struct page *const *)item)->file));
}

static void follow(const struct walk *walk, struct node *link)
{
    struct book *book = walk->book;
    const char *target = link->target, *hash = strchr(target, '#');
    const struct text_start file = {target, hash ? (size_t)(hash - target) : strlen(target)};
    const struct page *const *to = &book->pages[walk->page->number];
    if (file.length && target[strcspn(target, ":/")] == ':')
        return;      /* outside the book */
    if (file.length) /* the pages are in the order of their files' names */
        to = bsearch(&file, book->pages, book->page_count, sizeof(struct page *), file_against);
    if (!to) {
        fault(book->diags, link->at,
              "the link leads to '%.*s', but there is no such page; name a file of the same "
              "folder",
              (int)file.length, target);
        return;
    }
    link->to_page = *to;
    link->to_anchor = hash ? hash + 1 : NULL;
    if (!hash)
        return;
    struct far_link far = {
        {walk->page->file, link->at.line, link->at.column}, *to, link->to_anchor};
    if ((*to)->number <= walk->page->number) {
        check_anchor(book, &far);
        return;
    }
    far.anchor = arena_text(book->arena, link->to_anchor);
    *ARENA_PUSH(book->arena, book->far_links, book->far_link_count) = far;
}

void book_resolve_page(struct book *book, const struct page *page)
{
    struct walk walk = {.book = book,
                        .page = page,
                        .arena = page->arena,
                        .shop = book->shop_is_good ? &book->shop : NULL,
                        .meter = book_meter(book)};
    walk_page(&walk);
    keep_names(&walk);
    for (size_t i = 0; i < walk.link_count; i++)
        follow(&walk, walk.links[i]);
    if (book->fonts)
        compose_check(page, book->fonts, book->diags);
}

void book_resolve_rest(struct book *book)
{
    const struct table_ask ask = {.arena = book->arena,
                                  .diags = book->diags,
                                  .results = book->results,
                                  .unseen = !(book->parts & PART_TABLES)};
    for (size_t i = 0; book->shop_is_good && tables_at(i); i++)
        if (!table_named(book, tables_at(i)->name))
            *ARENA_PUSH(book->arena, book->tables, book->table_count) =
                tables_make(tables_at(i)->name, &ask);
    for (size_t i = 0; i < book->far_link_count; i++)
        check_anchor(book, &book->far_links[i]);
}
