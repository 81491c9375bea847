#include "book/resolve.h"

#include "base/utf8.h"
#include "book/book.h"
#include "book/paper.h"
#include "figures/figures.h"
#include "report/values.h"
#include "tables/tables.h"

#include <stdlib.h>
#include <string.h>

/* Fills the places of computed tables, and makes those that no page shows, so that
 * every table has its CSV. */

/* A table of the booklet is kept for its CSV. */
static struct table_ask ask_for(const struct book *book, const struct page *page,
                                const struct node *node)
{
    return (struct table_ask){.arena = page->in_booklet ? book->arena : page->arena,
                              .diags = book->diags,
                              .shop = &book->shop,
                              .at = node->at,
                              .options = node->options,
                              .option_count = node->option_count};
}

static struct table **slot_of(struct book *book, const char *name)
{
    for (size_t i = 0; i < book->table_count; i++)
        if (book->tables[i] && strcmp(book->tables[i]->name, name) == 0)
            return &book->tables[i];
    return NULL;
}

static void place_table(struct book *book, const struct page *page, struct node *node)
{
    struct table_ask ask = ask_for(book, page, node);
    node->table = tables_make(node->table_name, &ask);
    if (!node->table || !page->in_booklet)
        return;
    struct table **earlier = slot_of(book, node->table_name);
    if (earlier)
        fault(book->diags, node->at,
              "the table %s already stands at %s:%d; link to it as in (%s#%s)",
              node->table_name, (*earlier)->at.file, (*earlier)->at.line,
              strrchr((*earlier)->at.file, '/') + 1, node->table_name);
    else
        *ARENA_PUSH(book->arena, book->tables, book->table_count) = node->table;
}

/* A table written by hand must not pass for a computed one. */
static void check_written(struct book *book, const struct node *node)
{
    for (size_t i = 0; node->table && tables_at(i); i++)
        if (strcmp(tables_at(i)->name, node->table->name) == 0)
            fault(book->diags, node->at,
                  "the name '%s' is that of a computed table; choose another",
                  node->table->name);
}

static void place(struct book *book, const struct page *page, struct node *node)
{
    struct table_ask ask = ask_for(book, page, node);
    if (!node->table_name)
        check_written(book, node);
    else if (book->shop_is_good)
        place_table(book, page, node);
    else
        tables_find(node->table_name, &ask);
}

void book_place_tables(struct book *book, const struct page *page)
{
    for (struct node *node = page->root; node; node = node_following(page->root, node))
        if (node->kind == NODE_TABLE)
            place(book, page, node);
}

void book_make_other_tables(struct book *book)
{
    const struct table_ask ask = {
        .arena = book->arena, .diags = book->diags, .shop = &book->shop};
    for (size_t i = 0; book->shop_is_good && tables_at(i); i++)
        if (!slot_of(book, tables_at(i)->name))
            *ARENA_PUSH(book->arena, book->tables, book->table_count) =
                tables_make(tables_at(i)->name, &ask);
}

/* What figures are drawn with: the fonts measure their texts. */

static double text_width(const void *with, bool bold, double size, const char *text)
{
    const struct fonts *fonts = with;
    return fonts_width(fonts, bold ? FACE_BOLD : FACE_REGULAR, size, text);
}

struct text_meter book_meter(const struct book *book)
{
    return (struct text_meter){.width = text_width, .with = book->fonts};
}

/* The figure of that name that already stands in the book, or NULL. */
static const struct placed_figure *earlier(const struct book *book, const char *name)
{
    for (size_t i = 0; i < book->figure_count; i++)
        if (strcmp(book->figures[i].name, name) == 0)
            return &book->figures[i];
    return NULL;
}

static void make(struct book *book, const struct page *page, struct node *node,
                 const struct figure_ask *ask)
{
    node->figure = figures_make(node->figure_name, ask);
    if (node->figure)
        *ARENA_PUSH(book->arena, book->figures, book->figure_count) = (struct placed_figure){
            node->figure->name, {page->file, node->at.line, node->at.column}};
}

/* A figure stands once, so that its name is one place to link to. */
static void place_figure(struct book *book, const struct page *page, struct node *node)
{
    const struct placed_figure *other = earlier(book, node->figure_name);
    struct text_meter meter = book_meter(book);
    struct figure_ask ask = {.arena = page->arena,
                             .diags = book->diags,
                             .shop = &book->shop,
                             .meter = &meter,
                             .at = node->at};
    if (!book->shop_is_good || !book->fonts)
        figures_find(node->figure_name, &ask);
    else if (other)
        fault(book->diags, node->at,
              "the figure %s already stands at %s:%d; link to it as in "
              "(%s#%s)",
              node->figure_name, other->at.file, other->at.line,
              strrchr(other->at.file, '/') + 1, node->figure_name);
    else
        make(book, page, node, &ask);
}

void book_place_figures(struct book *book, const struct page *page)
{
    for (struct node *node = page->root; node; node = node_following(page->root, node))
        if (node->kind == NODE_FIGURE && node->figure_name && !node->graph)
            place_figure(book, page, node);
}

/* Fills the values that forms carry into their places, and draws their blank graphs. */

enum { LONGEST_AXIS = 50 };

static const char form_prefix[] = "form-";

bool book_is_form(const char *file)
{
    return strncmp(file, form_prefix, sizeof form_prefix - 1) == 0;
}

/* shop NULL: names are looked at, and nothing is filled in. */
struct filler {
    struct book *book;
    struct arena *arena;
    const struct shop *shop;
};

static const char *fill(const struct filler *filler, const char *text, struct place at)
{
    return text ? form_values_fill(filler->arena, filler->book->diags, filler->shop, text, at)
                : NULL;
}

/* As above, but what the settings do not say is left to the pencil. */
static const char *fill_or_leave(const struct filler *filler, const char *text, struct place at)
{
    const char *filled = fill(filler, text, at);
    return filled && *filled ? filled : NULL;
}

static void fill_row(const struct filler *filler, struct form_row *row)
{
    for (size_t i = 0; i < row->count; i++) {
        struct form_field *field = &row->fields[i];
        field->label = fill(filler, field->label, row->at);
        field->unit = fill_or_leave(filler, field->unit, row->at);
        field->value = fill_or_leave(filler, field->value, row->at);
        for (size_t k = 0; k < field->choice_count; k++)
            field->choices[k] = fill(filler, field->choices[k], row->at);
    }
}

static void fill_grid(const struct filler *filler, struct table *table)
{
    table->caption = fill(filler, table->caption, table->at);
    for (size_t i = 0; i < table->column_count; i++) {
        table->columns[i].quantity = fill(filler, table->columns[i].quantity, table->at);
        table->columns[i].unit = fill_or_leave(filler, table->columns[i].unit, table->at);
    }
    for (size_t i = 0; i < table->row_count * table->column_count; i++)
        table->cells[i].shown = fill(filler, table->cells[i].shown, table->at);
}

static size_t signs_of(const char *text)
{
    return text ? utf8_count(text, strlen(text)) : 0;
}

static void fill_axis(const struct filler *filler, struct graph_axis *axis, struct place at)
{
    axis->quantity = fill(filler, axis->quantity, at);
    axis->unit = fill_or_leave(filler, axis->unit, at);
    size_t signs = signs_of(axis->quantity) + signs_of(axis->unit);
    if (signs > LONGEST_AXIS)
        fault(filler->book->diags, at,
              "the words of an axis have %zu characters and would leave the sheet; %d are the "
              "most",
              signs, LONGEST_AXIS);
}

static void fill_graph(const struct filler *filler, struct node *node)
{
    struct graph *graph = node->graph;
    graph->caption = fill(filler, graph->caption, graph->at);
    fill_axis(filler, &graph->across, graph->at);
    fill_axis(filler, &graph->up, graph->at);
    struct text_meter meter = book_meter(filler->book);
    if (filler->shop && meter.with)
        node->figure = draw_blank_graph(filler->arena, filler->shop, graph, &meter);
}

static bool is_blank_grid(const struct node *node)
{
    return node->kind == NODE_TABLE && node->table && node->table->blank;
}

static bool is_blank_graph(const struct node *node)
{
    return node->kind == NODE_FIGURE && node->graph;
}

static void fill_node(const struct filler *filler, struct node *node)
{
    if (node->kind == NODE_FIELDS)
        for (size_t i = 0; i < node->form->count; i++)
            fill_row(filler, &node->form->rows[i]);
    else if (is_blank_grid(node))
        fill_grid(filler, node->table);
    else if (is_blank_graph(node))
        fill_graph(filler, node);
}

void book_check_forms(struct book *book, const struct page *page)
{
    const struct node *root = page->is_form ? NULL : page->root;
    for (const struct node *node = root; node; node = node_following(root, node))
        if (node->kind == NODE_FIELDS || is_blank_grid(node) || is_blank_graph(node))
            fault(book->diags, node->at,
                  "boxes, lines, grids and graphs stand on forms only; put this into a "
                  "page named as in form-01-manual.md");
}

void book_fill_forms(struct book *book, const struct page *page, const struct shop *shop)
{
    struct filler filler = {book, page->arena, shop};
    struct node *root = page->is_form ? page->root : NULL;
    for (struct node *node = root; node; node = node_following(root, node))
        fill_node(&filler, node);
}

/* Leaves out of forms and card what does not hold for this shop. */

/* The text at the head of a block; NULL where something else stands there. */
static struct node *head_text(struct node *block)
{
    struct node *node = block;
    while (node && node->kind != NODE_TEXT)
        node = node->first;
    return node;
}

static bool keep_block(const struct shop *shop, struct node *node)
{
    if (node->kind != NODE_ITEM && node->kind != NODE_PARAGRAPH)
        return true;
    struct node *head = head_text(node);
    const char *kept = head ? condition_take(shop, head->text) : "";
    if (head && kept && kept != head->text) {
        head->text = kept;
        head->as_written = false;
    }
    return kept != NULL;
}

static void keep_fields(const struct shop *shop, struct form_row *row)
{
    size_t count = 0;
    for (size_t i = 0; i < row->count; i++) {
        const char *kept = condition_take(shop, row->fields[i].label);
        if (!kept)
            continue;
        row->fields[count] = row->fields[i];
        row->fields[count++].label = kept;
    }
    row->count = count;
}

/* False where no row is left. */
static bool keep_rows(const struct shop *shop, struct form *form)
{
    size_t count = 0;
    for (size_t i = 0; i < form->count; i++) {
        keep_fields(shop, &form->rows[i]);
        if (form->rows[i].count)
            form->rows[count++] = form->rows[i];
    }
    form->count = count;
    return count > 0;
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

static bool keep(const struct shop *shop, struct node *node)
{
    if (node->kind == NODE_FIELDS)
        return keep_rows(shop, node->form);
    if (node->kind == NODE_TABLE && node->table && node->table->blank)
        return keep_columns(shop, node->table);
    return keep_block(shop, node);
}

void book_keep_what_holds(struct book *book, const struct page *page, const struct shop *shop)
{
    if (!page->is_form && page != book->card)
        return;
    for (struct node *node = page->root, *next; node; node = next) {
        bool kept = keep(shop, node);
        next = kept ? node_following(page->root, node) : node_after(page->root, node);
        if (!kept)
            node_remove(node);
    }
}

/* Finds the page and the heading, table or figure that each link within the book means. A
 * page is known from the list of pages; what stands on it, once it is read: a link to a
 * later page is looked at again in the end. */

static const char *base_name(const char *file)
{
    const char *slash = strrchr(file, '/');
    return slash ? slash + 1 : file;
}

static int file_against(const void *key, const void *item)
{
    return text_start_against(key, base_name((*(const struct page *const *)item)->file));
}

/* The number of the page in that file; page_count where there is none. The pages are in
 * the order of their files' names. */
static size_t find_page(const struct book *book, const char *file, size_t length)
{
    const struct text_start name = {file, length};
    const struct page *const *found =
        bsearch(&name, book->pages, book->page_count, sizeof *book->pages, file_against);
    return found ? (*found)->number : book->page_count;
}

static const char *anchor_of(const struct node *node)
{
    if (node->kind == NODE_TABLE)
        return node->table ? node->table->name : node->table_name;
    if (node->kind == NODE_FIGURE)
        return node->figure_name;
    return node->kind == NODE_HEADING ? node->anchor : NULL;
}

/* One name on a page that a link may lead to. */
struct name {
    const char *anchor;
    const struct node *node;
    size_t order; /* in reading order */
};

static int by_anchor(const void *left, const void *right)
{
    const struct name *a = left, *b = right;
    int difference = strcmp(a->anchor, b->anchor);
    return difference ? difference : (a->order > b->order) - (a->order < b->order);
}

/* A page's names and links, found on one way through it. */
struct found {
    struct name *names; /* by name, then by order */
    size_t name_count;
    struct node **links;
    size_t link_count;
};

static struct found look_through(const struct page *page)
{
    struct found found = {0};
    for (struct node *node = page->root; node; node = node_following(page->root, node)) {
        if (node->kind == NODE_LINK && node->target[0])
            *ARENA_PUSH(page->arena, found.links, found.link_count) = node;
        if (anchor_of(node)) {
            size_t order = found.name_count;
            *ARENA_PUSH(page->arena, found.names, found.name_count) =
                (struct name){.anchor = anchor_of(node), .node = node, .order = order};
        }
    }
    if (found.name_count)
        qsort(found.names, found.name_count, sizeof *found.names, by_anchor);
    return found;
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

/* Headings, tables and figures of one page share one set of names. */
static void check_names(struct book *book, const struct found *found)
{
    for (size_t i = 1, first = 0; i < found->name_count; i++) {
        const struct name *name = &found->names[i];
        if (strcmp(name->anchor, found->names[first].anchor) != 0)
            first = i;
        else if (!both_computed(name->node, found->names[first].node))
            fault(book->diags, name->node->at,
                  "the name '%s' is already taken on line %d of this page; choose another",
                  name->anchor, found->names[first].node->at.line);
    }
}

static void keep_anchors(struct book *book, const struct page *page, const struct found *found)
{
    struct anchors *anchors = &book->anchors[page->number];
    anchors->texts = arena_get(book->arena, found->name_count * sizeof(char *));
    for (size_t i = 0; i < found->name_count; i++)
        anchors->texts[anchors->count++] = arena_text(book->arena, found->names[i].anchor);
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

static void follow_anchor(struct book *book, const struct page *page, const struct node *link)
{
    struct far_link far = {
        {page->file, link->at.line, link->at.column}, link->to_page, link->to_anchor};
    if (link->to_page->number <= page->number) {
        check_anchor(book, &far);
        return;
    }
    far.anchor = arena_text(book->arena, link->to_anchor);
    *ARENA_PUSH(book->arena, book->far_links, book->far_link_count) = far;
}

static void follow(struct book *book, const struct page *page, struct node *link)
{
    const char *target = link->target, *hash = strchr(target, '#');
    size_t length = hash ? (size_t)(hash - target) : strlen(target);
    if (length && target[strcspn(target, ":/")] == ':')
        return; /* outside the book */
    size_t to = length ? find_page(book, target, length) : page->number;
    if (to == book->page_count) {
        fault(book->diags, link->at,
              "the link leads to '%.*s', but there is no such page; name a file of the same "
              "folder",
              (int)length, target);
        return;
    }
    link->to_page = book->pages[to];
    link->to_anchor = hash ? hash + 1 : NULL;
    if (hash)
        follow_anchor(book, page, link);
}

void book_find_links(struct book *book, const struct page *page)
{
    struct found found = look_through(page);
    check_names(book, &found);
    keep_anchors(book, page, &found);
    for (size_t i = 0; i < found.link_count; i++)
        follow(book, page, found.links[i]);
}

void book_check_links(struct book *book)
{
    for (size_t i = 0; i < book->far_link_count; i++)
        check_anchor(book, &book->far_links[i]);
}

/* The sheet with a drum to make. */

struct aid book_drum_aid(struct arena *arena, const struct shop *shop,
                         const struct text_meter *meter, enum paper_size booklet)
{
    struct aid aid = {.title = "A drum to make"};
    struct canvas canvas = canvas_new(arena, meter, 0);
    draw_drum_to_make(shop, &canvas, aid_figure_width(booklet), aid_figure_height(booklet));
    *ARENA_PUSH(arena, aid.words, aid.word_count) = canvas.figure->caption;
    aid.figure = canvas.figure;
    return aid;
}
