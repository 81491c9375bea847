#include "paint/pdf_tags.h"

#include "paint/pdf_text.h"

#include <stdlib.h>

/* Numbers of 32 bits: a long book has millions of marks. */
static const uint32_t NONE = UINT32_MAX;

/* A run of marked content, in the order drawn. */
struct mark {
    int tag;
    uint32_t sheet;
};

/* An annotation that belongs to a link tag. */
struct tie {
    int tag;
    uint32_t sheet, next; /* next: tie of the same tag, or NONE */
    pdf_ref annotation;
};

struct node {
    uint32_t earliest;       /* mark of its own or of any tag below it, or NONE */
    uint32_t child, sibling; /* tags, or NONE */
    uint32_t tie;            /* its first, or NONE */
};

struct pdf_tags {
    const struct print *print; /* of the last sheet */
    struct mark *marks;
    size_t mark_count;
    uint32_t *firsts;          /* by sheet: its first mark */
    size_t sheet_count, sheet; /* sheet: the last */
    struct tie *ties;
    size_t tie_count;
    /* Made for writing. */
    struct node *nodes;               /* one for each tag */
    uint32_t *own_marks, *own_firsts; /* marks in the order of tags; where each tag's begin */
    const struct pdf_file *file;
    pdf_ref root, parents, first_node; /* objects */
    uint32_t first;                    /* tag without a parent */
};

struct pdf_tags *pdf_tags_new(struct arena *arena)
{
    return arena_get(arena, sizeof(struct pdf_tags));
}

void pdf_tags_free(struct pdf_tags *tags)
{
    free(tags->marks);
    free(tags->firsts);
    free(tags->ties);
    free(tags->nodes);
    free(tags->own_marks);
    free(tags->own_firsts);
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
        pdf_integer(out, tag->level);
}

/* ---- while the sheets are drawn ---- */

/* A mark's number within its sheet. */
static long mark_id(const struct pdf_tags *tags, size_t mark)
{
    return (long)(mark - tags->firsts[tags->marks[mark].sheet]);
}

void pdf_tags_sheet(struct pdf_tags *tags, const struct print *print, size_t sheet)
{
    tags->print = print;
    tags->sheet = sheet;
    while (tags->sheet_count <= sheet)
        *HEAP_PUSH(tags->firsts, tags->sheet_count) = NONE;
    tags->firsts[sheet] = (uint32_t)tags->mark_count;
}

void pdf_tags_open(struct pdf_tags *tags, struct buffer *out, int tag)
{
    if (tag < 0) {
        buffer_text(out, "/Artifact BMC\n");
        return;
    }
    *HEAP_PUSH(tags->marks, tags->mark_count) =
        (struct mark){.tag = tag, .sheet = (uint32_t)tags->sheet};
    put_role(out, &tags->print->tags[tag]);
    buffer_text(out, " <</MCID ");
    pdf_integer(out, mark_id(tags, tags->mark_count - 1));
    buffer_text(out, ">> BDC\n");
}

/* ---- once all sheets are drawn ---- */

int pdf_tags_link(const struct pdf_tags *tags, int tag)
{
    while (tag >= 0 && tags->print->tags[tag].kind != TAG_LINK)
        tag = tags->print->tags[tag].parent;
    return tag;
}

void pdf_tags_tie(struct pdf_tags *tags, int tag, size_t sheet, pdf_ref annotation)
{
    int link = pdf_tags_link(tags, tag);
    if (link >= 0)
        *HEAP_PUSH(tags->ties, tags->tie_count) = (struct tie){
            .tag = link, .sheet = (uint32_t)sheet, .next = NONE, .annotation = annotation};
}

/* Marks of a sheet stand in a row; gives the first, and in *end the one behind the last. */
static size_t marks_of(const struct pdf_tags *tags, size_t sheet, size_t *end)
{
    size_t first = sheet < tags->sheet_count ? tags->firsts[sheet] : NONE;
    for (*end = first; *end < tags->mark_count && tags->marks[*end].sheet == sheet;)
        ++*end;
    return first;
}

void pdf_tags_put_page(const struct pdf_tags *tags, struct buffer *out, size_t sheet)
{
    size_t end;
    if (marks_of(tags, sheet, &end) == end)
        return;
    buffer_text(out, "/StructParents ");
    pdf_integer(out, (long)sheet);
    buffer_text(out, "/Tabs/S");
}

/* Strings the children of every tag together; gives the first tag without a parent.
 * Backwards: parents stand before children. */
static uint32_t grow_tree(struct pdf_tags *tags)
{
    const struct print *print = tags->print;
    uint32_t root = NONE;
    for (size_t i = print->tag_count; i-- > 0;) {
        int parent = print->tags[i].parent;
        uint32_t *first = parent < 0 ? &root : &tags->nodes[parent].child;
        tags->nodes[i].sibling = *first;
        *first = (uint32_t)i;
        if (parent >= 0 && tags->nodes[i].earliest < tags->nodes[parent].earliest)
            tags->nodes[parent].earliest = tags->nodes[i].earliest;
    }
    return root;
}

/* Gathers the marks of every tag, in the order drawn, and finds each tag's first. */
static void sort_marks(struct pdf_tags *tags)
{
    size_t tag_count = tags->print->tag_count;
    uint32_t *firsts = tags->own_firsts = heap_get((tag_count + 2) * sizeof *firsts);
    tags->own_marks = heap_get(tags->mark_count * sizeof *tags->own_marks);
    for (size_t i = 0; i < tags->mark_count; i++)
        firsts[tags->marks[i].tag + 2]++;
    for (size_t i = 2; i < tag_count + 2; i++)
        firsts[i] += firsts[i - 1];
    for (size_t i = 0; i < tags->mark_count; i++) {
        int tag = tags->marks[i].tag;
        if (tags->nodes[tag].earliest == NONE)
            tags->nodes[tag].earliest = (uint32_t)i;
        tags->own_marks[firsts[tag + 1]++] = (uint32_t)i;
    }
}

/* Backwards, so that each tag's ties are in their order. */
static void string_ties(struct pdf_tags *tags)
{
    for (size_t i = tags->tie_count; i-- > 0;) {
        uint32_t *first = &tags->nodes[tags->ties[i].tag].tie;
        tags->ties[i].next = *first;
        *first = (uint32_t)i;
    }
}

static void refer_to(const struct pdf_tags *tags, struct buffer *out, size_t tag)
{
    pdf_refer(out, tags->first_node + (pdf_ref)tag);
}

static void refer_to_page(const struct pdf_tags *tags, struct buffer *out, uint32_t sheet)
{
    pdf_refer(out, pdf_number_of(tags->file->pages[sheet]));
}

static void put_mark(const struct pdf_tags *tags, struct buffer *out, uint32_t mark,
                     uint32_t own_sheet)
{
    uint32_t sheet = tags->marks[mark].sheet;
    if (sheet == own_sheet) {
        pdf_integer(out, mark_id(tags, mark));
    } else {
        buffer_text(out, "<</Type/MCR/Pg ");
        refer_to_page(tags, out, sheet);
        buffer_text(out, "/MCID ");
        pdf_integer(out, mark_id(tags, mark));
        buffer_text(out, ">>");
    }
    buffer_text(out, " ");
}

static void put_ties(const struct pdf_tags *tags, struct buffer *out, size_t tag)
{
    for (uint32_t i = tags->nodes[tag].tie; i != NONE; i = tags->ties[i].next) {
        buffer_text(out, "<</Type/OBJR/Obj ");
        pdf_refer(out, tags->ties[i].annotation);
        buffer_text(out, "/Pg ");
        refer_to_page(tags, out, tags->ties[i].sheet);
        buffer_text(out, ">>");
    }
}

/* What a tag holds, in reading order: its children as listed, and between them its
 * own marks as drawn. */
static void put_kids(const struct pdf_tags *tags, struct buffer *out, size_t tag)
{
    const uint32_t *mark = tags->own_marks + tags->own_firsts[tag];
    const uint32_t *end = tags->own_marks + tags->own_firsts[tag + 1];
    uint32_t sheet = mark < end ? tags->marks[*mark].sheet : NONE;
    buffer_text(out, "/K[");
    for (uint32_t child = tags->nodes[tag].child; child != NONE;
         child = tags->nodes[child].sibling) {
        uint32_t before = tags->nodes[child].earliest;
        for (; before != NONE && mark < end && *mark < before; mark++)
            put_mark(tags, out, *mark, sheet);
        refer_to(tags, out, child);
        buffer_text(out, " ");
    }
    for (; mark < end; mark++)
        put_mark(tags, out, *mark, sheet);
    put_ties(tags, out, tag);
    buffer_text(out, "]");
}

static void write_element(void *with, size_t index, struct buffer *out)
{
    const struct pdf_tags *tags = with;
    const struct tag *tag = &tags->print->tags[index];
    buffer_text(out, "/S");
    put_role(out, tag);
    buffer_text(out, "/P ");
    if (tag->parent < 0)
        pdf_refer(out, tags->root);
    else
        refer_to(tags, out, (size_t)tag->parent);
    if (tags->own_firsts[index] < tags->own_firsts[index + 1]) {
        buffer_text(out, "/Pg ");
        refer_to_page(tags, out, tags->marks[tags->own_marks[tags->own_firsts[index]]].sheet);
    }
    if (tag->kind == TAG_HEAD_CELL)
        buffer_text(out,
                    tag->row_head ? "/A<</O/Table/Scope/Row>>" : "/A<</O/Table/Scope/Column>>");
    if (tag->alternative) {
        buffer_text(out, "/Alt");
        pdf_string(out, tag->alternative);
    }
    put_kids(tags, out, index);
}

static void put_parents_of(const struct pdf_tags *tags, struct buffer *out, size_t sheet)
{
    size_t end, mark = marks_of(tags, sheet, &end);
    if (mark == end)
        return;
    pdf_integer(out, (long)sheet);
    buffer_text(out, "[");
    for (; mark < end; mark++) {
        refer_to(tags, out, (size_t)tags->marks[mark].tag);
        buffer_text(out, " ");
    }
    buffer_text(out, "]");
}

/* From the marks of each sheet, and from each tied annotation, back to its tag. */
static void write_parents(void *with, size_t index, struct buffer *out)
{
    const struct pdf_tags *tags = with;
    (void)index;
    buffer_text(out, "/Nums[");
    for (size_t sheet = 0; sheet < tags->sheet_count; sheet++)
        put_parents_of(tags, out, sheet);
    for (size_t i = 0; i < tags->tie_count; i++) {
        pdf_integer(out, (long)(tags->print->sheet_count + i));
        buffer_text(out, " ");
        refer_to(tags, out, (size_t)tags->ties[i].tag);
        buffer_text(out, " ");
    }
    buffer_text(out, "]");
}

static void write_root(void *with, size_t index, struct buffer *out)
{
    const struct pdf_tags *tags = with;
    (void)index;
    buffer_text(out, "/Type/StructTreeRoot/K[");
    for (uint32_t tag = tags->first; tag != NONE; tag = tags->nodes[tag].sibling) {
        refer_to(tags, out, tag);
        buffer_text(out, " ");
    }
    buffer_text(out, "]/ParentTree ");
    pdf_refer(out, tags->parents);
    buffer_text(out, "/ParentTreeNextKey ");
    pdf_integer(out, (long)(tags->print->sheet_count + tags->tie_count));
}

void pdf_tags_run(struct pdf_tags *tags, struct pdf_file *file)
{
    size_t count = tags->print->tag_count;
    tags->nodes = heap_get(count * sizeof *tags->nodes);
    for (size_t i = 0; i < count; i++)
        tags->nodes[i] = (struct node){NONE, NONE, NONE, NONE};
    sort_marks(tags);
    string_ties(tags);
    tags->first = grow_tree(tags);
    tags->file = file;
    tags->root = pdf_run(file, 1, write_root, tags);
    tags->parents = pdf_run(file, 1, write_parents, tags);
    tags->first_node = pdf_run(file, count, write_element, tags);
    buffer_text(&file->catalog, "/StructTreeRoot ");
    pdf_refer(&file->catalog, tags->root);
    buffer_text(&file->catalog, "/MarkInfo<</Marked true>>");
}
