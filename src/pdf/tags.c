/* Marks are noted as they are drawn, sheet after sheet; then each element of the tree, one for
 * each tag, gets a chain of its own marks, of its children and of its links, and is written
 * from them. Chains are made from their ends, each put before what is there: so they are in
 * order. */
#include "pdf/tags.h"

#include "pdf/text.h"

/* Numbers of 32 bits: a long book has millions of marks. */
static const uint32_t NONE = UINT32_MAX;

/* A run of marked content, in the order drawn. */
struct marked_run {
    int tag;
    uint32_t sheet, next; /* next: mark of the same tag, or NONE */
};

/* An annotation that belongs to a link tag. */
struct tie {
    int tag;
    uint32_t sheet, next; /* next: tie of the same tag, or NONE */
    pdf_ref annotation;
};

struct element {
    uint32_t mark, tie;      /* its first, or NONE */
    uint32_t earliest;       /* mark of its own or of any tag below it, or NONE */
    uint32_t child, sibling; /* tags, or NONE */
};

struct pdf_tags {
    const struct print *print;
    struct arena *arena;
    struct marked_run *marks;
    size_t mark_count;
    size_t *firsts;     /* by sheet: its first mark; and behind the last sheet all marks */
    size_t sheet_count; /* of those that were begun */
    struct tie *ties;
    size_t tie_count;
    /* Made for writing. */
    struct element *elements; /* one for each tag */
    const pdf_ref *pages;
    pdf_ref root, parents, first; /* first: the object of the element of tag 0 */
};

struct pdf_tags *pdf_tags_new(struct arena *arena, const struct print *print)
{
    struct pdf_tags *tags = arena_get(arena, sizeof *tags);
    *tags = (struct pdf_tags){.print = print, .arena = arena};
    tags->firsts = arena_get(arena, (print->sheet_count + 1) * sizeof *tags->firsts);
    return tags;
}

static void put_role(struct buffer *out, const struct tag *tag)
{
    static const char *const names[] = {
        [TAG_DOCUMENT] = "/Document", [TAG_SECTION] = "/Sect",    [TAG_HEADING] = "/H",
        [TAG_PARAGRAPH] = "/P",       [TAG_LIST] = "/L",          [TAG_ITEM] = "/LI",
        [TAG_ITEM_LABEL] = "/Lbl",    [TAG_ITEM_BODY] = "/LBody", [TAG_TABLE] = "/Table",
        [TAG_CAPTION] = "/Caption",   [TAG_ROW] = "/TR",          [TAG_HEAD_CELL] = "/TH",
        [TAG_CELL] = "/TD",           [TAG_NOTE] = "/Note",       [TAG_LINK] = "/Link",
        [TAG_LITERAL] = "/Code",      [TAG_CONTENTS] = "/TOC",    [TAG_CONTENTS_ITEM] = "/TOCI",
        [TAG_FIGURE] = "/Figure",
    };
    buffer_text(out, names[tag->kind]);
    if (tag->kind == TAG_HEADING)
        pdf_print(out, "%d", tag->level);
}

/* ---- while the sheets are drawn ---- */

void pdf_tags_next_sheet(struct pdf_tags *tags)
{
    tags->firsts[++tags->sheet_count] = tags->mark_count;
}

void pdf_tags_open(struct pdf_tags *tags, struct buffer *out, int tag)
{
    if (tag < 0) {
        buffer_text(out, "/Artifact BMC\n");
        return;
    }
    *ARENA_PUSH(tags->arena, tags->marks, tags->mark_count) =
        (struct marked_run){.tag = tag, .sheet = (uint32_t)tags->sheet_count - 1};
    tags->firsts[tags->sheet_count] = tags->mark_count;
    put_role(out, &tags->print->tags[tag]);
    pdf_print(out, " <</MCID %zu>> BDC\n",
              tags->mark_count - 1 - tags->firsts[tags->sheet_count - 1]);
}

/* ---- once all sheets are drawn ---- */

long pdf_tags_tie(struct pdf_tags *tags, int tag, size_t sheet, pdf_ref annotation)
{
    while (tag >= 0 && tags->print->tags[tag].kind != TAG_LINK)
        tag = tags->print->tags[tag].parent;
    if (tag < 0)
        return -1;
    *ARENA_PUSH(tags->arena, tags->ties, tags->tie_count) =
        (struct tie){.tag = tag, .sheet = (uint32_t)sheet, .annotation = annotation};
    return (long)(tags->print->sheet_count + tags->tie_count - 1);
}

void pdf_tags_put_page(const struct pdf_tags *tags, struct buffer *out, size_t sheet)
{
    if (tags->firsts[sheet] < tags->firsts[sheet + 1])
        pdf_print(out, "/StructParents %zu/Tabs/S", sheet);
}

static void chain(struct pdf_tags *tags)
{
    const struct print *print = tags->print;
    struct element *elements = arena_get(tags->arena, print->tag_count * sizeof *elements);
    tags->elements = elements;
    for (size_t i = 0; i < print->tag_count; i++)
        elements[i] = (struct element){NONE, NONE, NONE, NONE, NONE};
    for (size_t i = tags->mark_count; i-- > 0;) {
        struct element *element = &elements[tags->marks[i].tag];
        tags->marks[i].next = element->mark;
        element->mark = element->earliest = (uint32_t)i;
    }
    for (size_t i = tags->tie_count; i-- > 0;) {
        struct element *element = &elements[tags->ties[i].tag];
        tags->ties[i].next = element->tie;
        element->tie = (uint32_t)i;
    }
    for (size_t i = print->tag_count; i-- > 0;) { /* parents stand before children */
        if (print->tags[i].parent < 0)
            continue;
        struct element *parent = &elements[print->tags[i].parent];
        elements[i].sibling = parent->child;
        parent->child = (uint32_t)i;
        if (elements[i].earliest < parent->earliest)
            parent->earliest = elements[i].earliest;
    }
}

static pdf_ref object_of(const struct pdf_tags *tags, size_t tag)
{
    return tags->first + (pdf_ref)tag;
}

static void put_mark(const struct pdf_tags *tags, struct buffer *out, uint32_t mark,
                     uint32_t own_sheet)
{
    uint32_t sheet = tags->marks[mark].sheet;
    size_t id = mark - tags->firsts[sheet];
    if (sheet == own_sheet)
        pdf_print(out, "%zu ", id);
    else
        pdf_print(out, "<</Type/MCR/Pg %u 0 R/MCID %zu>> ", tags->pages[sheet], id);
}

/* What a tag holds, in reading order: its children as listed, and between them its
 * own marks as drawn. */
static void put_kids(const struct pdf_tags *tags, struct buffer *out,
                     const struct element *element)
{
    uint32_t mark = element->mark, sheet = mark != NONE ? tags->marks[mark].sheet : NONE;
    buffer_text(out, "/K[");
    for (uint32_t child = element->child; child != NONE;
         child = tags->elements[child].sibling) {
        uint32_t before = tags->elements[child].earliest;
        for (; before != NONE && mark < before; mark = tags->marks[mark].next)
            put_mark(tags, out, mark, sheet);
        pdf_print(out, "%u 0 R ", object_of(tags, child));
    }
    for (; mark != NONE; mark = tags->marks[mark].next)
        put_mark(tags, out, mark, sheet);
    for (uint32_t tie = element->tie; tie != NONE; tie = tags->ties[tie].next)
        pdf_print(out, "<</Type/OBJR/Obj %u 0 R/Pg %u 0 R>>", tags->ties[tie].annotation,
                  tags->pages[tags->ties[tie].sheet]);
    buffer_text(out, "]");
}

static void put_element(const struct pdf_tags *tags, struct buffer *out, size_t index)
{
    const struct tag *tag = &tags->print->tags[index];
    const struct element *element = &tags->elements[index];
    buffer_text(out, "/S");
    put_role(out, tag);
    pdf_print(out, "/P %u 0 R",
              tag->parent < 0 ? tags->root : object_of(tags, (size_t)tag->parent));
    if (element->mark != NONE)
        pdf_print(out, "/Pg %u 0 R", tags->pages[tags->marks[element->mark].sheet]);
    if (tag->kind == TAG_HEAD_CELL)
        pdf_print(out, "/A<</O/Table/Scope/%s>>", tag->row_head ? "Row" : "Column");
    if (tag->alternative) {
        buffer_text(out, "/Alt");
        pdf_string(out, tag->alternative);
    }
    put_kids(tags, out, element);
}

/* From the marks of each sheet, and from each tied annotation, back to its tag. */
static void put_parents(const struct pdf_tags *tags, struct buffer *out)
{
    buffer_text(out, "/Nums[");
    for (size_t sheet = 0, mark = 0; sheet < tags->sheet_count; sheet++) {
        if (mark == tags->firsts[sheet + 1])
            continue;
        pdf_print(out, "%zu[", sheet);
        for (; mark < tags->firsts[sheet + 1]; mark++)
            pdf_print(out, "%u 0 R ", object_of(tags, (size_t)tags->marks[mark].tag));
        buffer_text(out, "]");
    }
    for (size_t i = 0; i < tags->tie_count; i++)
        pdf_print(out, "%zu %u 0 R ", tags->print->sheet_count + i,
                  object_of(tags, (size_t)tags->ties[i].tag));
    buffer_text(out, "]");
}

static void put_root(const struct pdf_tags *tags, struct buffer *out)
{
    buffer_text(out, "/Type/StructTreeRoot/K[");
    for (size_t i = 0; i < tags->print->tag_count; i++)
        if (tags->print->tags[i].parent < 0)
            pdf_print(out, "%u 0 R ", object_of(tags, i));
    pdf_print(out, "]/ParentTree %u 0 R/ParentTreeNextKey %zu", tags->parents,
              tags->print->sheet_count + tags->tie_count);
}

void pdf_tags_write(struct pdf_tags *tags, struct pdf_file *file, const pdf_ref *pages,
                    struct buffer *catalog)
{
    size_t count = tags->print->tag_count;
    struct buffer text = {0};
    chain(tags);
    tags->pages = pages;
    tags->root = pdf_objects(file, count + 2);
    tags->parents = tags->root + 1;
    tags->first = tags->root + 2;
    put_root(tags, &text);
    pdf_object_set(file, tags->root, &text);
    put_parents(tags, &text);
    pdf_object_set(file, tags->parents, &text);
    for (size_t i = 0; i < count; i++) {
        put_element(tags, &text, i);
        pdf_object_set(file, object_of(tags, i), &text);
    }
    buffer_free(&text);
    pdf_print(catalog, "/StructTreeRoot %u 0 R/MarkInfo<</Marked true>>", tags->root);
}
