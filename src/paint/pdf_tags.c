#include "paint/pdf_tags.h"

#include "paint/pdf_text.h"

#include <stdint.h>

static const size_t NONE = SIZE_MAX;

/* A run of marked content, in the order drawn. */
struct mark {
    int tag;
    size_t sheet;
    long id;     /* within the sheet */
    size_t next; /* mark of the same tag, or NONE */
};

/* An annotation that belongs to a link tag. */
struct tie {
    size_t sheet;
    int tag;
    HPDF_Dict annotation;
    size_t next; /* tie of the same tag, or NONE */
};

struct node {
    size_t first_mark, last_mark; /* of its own, or NONE */
    size_t earliest;              /* mark of its own or of any tag below it, or NONE */
    size_t child, sibling;        /* tags, or NONE */
    size_t tie;                   /* its first, or NONE */
    HPDF_Dict object;
};

struct pdf_tags {
    struct arena *arena;
    const struct print *print;
    struct node *nodes; /* one for each tag */
    struct mark *marks;
    size_t mark_count;
    struct tie *ties;
    size_t tie_count;
};

struct pdf_tags *pdf_tags_new(struct arena *arena, const struct print *print)
{
    if (print->tag_count == 0)
        return NULL;
    struct pdf_tags *tags = arena_get(arena, sizeof *tags);
    tags->arena = arena;
    tags->print = print;
    tags->nodes = arena_get(arena, print->tag_count * sizeof *tags->nodes);
    for (size_t i = 0; i < print->tag_count; i++)
        tags->nodes[i] = (struct node){NONE, NONE, NONE, NONE, NONE, NONE, NULL};
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
        pdf_integer(out, tag->level);
}

static void remember(struct pdf_tags *tags, int tag, size_t sheet)
{
    size_t index = tags->mark_count;
    struct mark *mark = ARENA_PUSH(tags->arena, tags->marks, tags->mark_count);
    bool same_sheet = index > 0 && mark[-1].sheet == sheet;
    *mark = (struct mark){tag, sheet, same_sheet ? mark[-1].id + 1 : 0, NONE};
    struct node *node = &tags->nodes[tag];
    if (node->first_mark == NONE)
        node->first_mark = node->earliest = index;
    else
        tags->marks[node->last_mark].next = index;
    node->last_mark = index;
}

void pdf_tags_open(struct pdf_tags *tags, struct buffer *out, int tag, size_t sheet)
{
    if (tag < 0) {
        buffer_text(out, "/Artifact BMC\n");
        return;
    }
    remember(tags, tag, sheet);
    put_role(out, &tags->print->tags[tag]);
    buffer_text(out, " <</MCID ");
    pdf_integer(out, tags->marks[tags->mark_count - 1].id);
    buffer_text(out, ">> BDC\n");
}

int pdf_tags_tie(struct pdf_tags *tags, int tag, size_t sheet, HPDF_Dict annotation)
{
    while (tag >= 0 && tags->print->tags[tag].kind != TAG_LINK)
        tag = tags->print->tags[tag].parent;
    if (tag < 0)
        return -1;
    size_t index = tags->tie_count;
    *ARENA_PUSH(tags->arena, tags->ties, tags->tie_count) =
        (struct tie){sheet, tag, annotation, NONE};
    size_t *at = &tags->nodes[tag].tie;
    while (*at != NONE) /* a link has as many as lines: few */
        at = &tags->ties[*at].next;
    *at = index;
    return (int)(tags->print->sheet_count + index);
}

/* Strings the children of every tag together and finds each tag's first mark;
 * gives the first tag without a parent. Backwards: parents stand before children. */
static size_t grow_tree(struct pdf_tags *tags)
{
    size_t root = NONE;
    for (size_t i = tags->print->tag_count; i-- > 0;) {
        int parent = tags->print->tags[i].parent;
        size_t *first = parent < 0 ? &root : &tags->nodes[parent].child;
        tags->nodes[i].sibling = *first;
        *first = i;
        if (parent >= 0 && tags->nodes[i].earliest < tags->nodes[parent].earliest)
            tags->nodes[parent].earliest = tags->nodes[i].earliest;
    }
    return root;
}

static void put_mark(struct buffer *out, const struct mark *mark, size_t own_sheet,
                     const HPDF_Page *pages)
{
    if (mark->sheet == own_sheet) {
        pdf_integer(out, mark->id);
    } else {
        buffer_text(out, "<</Type/MCR/Pg ");
        pdf_refer(out, pages[mark->sheet]);
        buffer_text(out, "/MCID ");
        pdf_integer(out, mark->id);
        buffer_text(out, ">>");
    }
    buffer_text(out, " ");
}

static void put_ties(const struct pdf_tags *tags, struct buffer *out, size_t tag,
                     const HPDF_Page *pages)
{
    for (size_t i = tags->nodes[tag].tie; i != NONE; i = tags->ties[i].next) {
        buffer_text(out, "<</Type/OBJR/Obj ");
        pdf_refer(out, tags->ties[i].annotation);
        buffer_text(out, "/Pg ");
        pdf_refer(out, pages[tags->ties[i].sheet]);
        buffer_text(out, ">>");
    }
}

/* What a tag holds, in reading order: its children as listed, and between them its
 * own marks as drawn. */
static void put_kids(const struct pdf_tags *tags, struct buffer *out, size_t tag,
                     const HPDF_Page *pages)
{
    const struct node *node = &tags->nodes[tag];
    size_t mark = node->first_mark;
    size_t sheet = mark == NONE ? NONE : tags->marks[mark].sheet;
    buffer_text(out, "/K[");
    for (size_t child = node->child; child != NONE; child = tags->nodes[child].sibling) {
        size_t before = tags->nodes[child].earliest;
        for (; before != NONE && mark < before; mark = tags->marks[mark].next)
            put_mark(out, &tags->marks[mark], sheet, pages);
        pdf_refer(out, tags->nodes[child].object);
        buffer_text(out, " ");
    }
    for (; mark != NONE; mark = tags->marks[mark].next)
        put_mark(out, &tags->marks[mark], sheet, pages);
    put_ties(tags, out, tag, pages);
    buffer_text(out, "]");
}

static void put_element(const struct pdf_tags *tags, struct buffer *out, size_t index,
                        HPDF_Dict root, const HPDF_Page *pages)
{
    const struct tag *tag = &tags->print->tags[index];
    const struct node *node = &tags->nodes[index];
    buffer_text(out, "/S");
    put_role(out, tag);
    buffer_text(out, "/P ");
    pdf_refer(out, tag->parent < 0 ? root : tags->nodes[tag->parent].object);
    if (node->first_mark != NONE) {
        buffer_text(out, "/Pg ");
        pdf_refer(out, pages[tags->marks[node->first_mark].sheet]);
    }
    if (tag->kind == TAG_HEAD_CELL)
        buffer_text(out,
                    tag->row_head ? "/A<</O/Table/Scope/Row>>" : "/A<</O/Table/Scope/Column>>");
    if (tag->alternative) {
        buffer_text(out, "/Alt");
        pdf_string(out, tag->alternative);
    }
    put_kids(tags, out, index, pages);
}

/* From the marks of each sheet, and from each tied annotation, back to its tag. */
static void put_parents(const struct pdf_tags *tags, struct buffer *out)
{
    size_t mark = 0;
    buffer_text(out, "/Nums[");
    while (mark < tags->mark_count) {
        size_t sheet = tags->marks[mark].sheet;
        pdf_integer(out, (long)sheet);
        buffer_text(out, "[");
        for (; mark < tags->mark_count && tags->marks[mark].sheet == sheet; mark++) {
            pdf_refer(out, tags->nodes[tags->marks[mark].tag].object);
            buffer_text(out, " ");
        }
        buffer_text(out, "]");
    }
    for (size_t i = 0; i < tags->tie_count; i++) {
        pdf_integer(out, (long)(tags->print->sheet_count + i));
        buffer_text(out, " ");
        pdf_refer(out, tags->nodes[tags->ties[i].tag].object);
        buffer_text(out, " ");
    }
    buffer_text(out, "]");
}

static void put_root(const struct pdf_tags *tags, struct buffer *out, size_t first,
                     HPDF_Dict parents)
{
    buffer_text(out, "/Type/StructTreeRoot/K[");
    for (; first != NONE; first = tags->nodes[first].sibling) {
        pdf_refer(out, tags->nodes[first].object);
        buffer_text(out, " ");
    }
    buffer_text(out, "]/ParentTree ");
    pdf_refer(out, parents);
    buffer_text(out, "/ParentTreeNextKey ");
    pdf_integer(out, (long)(tags->print->sheet_count + tags->tie_count));
}

static void number_pages(const struct pdf_tags *tags, const HPDF_Page *pages)
{
    for (size_t i = 0; i < tags->mark_count; i++) {
        const struct mark *mark = &tags->marks[i];
        if (mark->id > 0)
            continue;
        HPDF_Dict_AddNumber(pages[mark->sheet], "StructParents", (HPDF_INT32)mark->sheet);
        HPDF_Dict_AddName(pages[mark->sheet], "Tabs", "S");
    }
}

void pdf_tags_write(struct pdf_tags *tags, struct pdf_file *file, const HPDF_Page *pages)
{
    if (!tags)
        return;
    struct buffer text = {0};
    file->doing = "writing the tags";
    size_t first = grow_tree(tags);
    HPDF_Dict root = pdf_object(file), parents = pdf_object(file);
    for (size_t i = 0; i < tags->print->tag_count; i++)
        tags->nodes[i].object = pdf_object(file);
    for (size_t i = 0; i < tags->print->tag_count; i++) {
        put_element(tags, &text, i, root, pages);
        pdf_object_set(file, tags->nodes[i].object, &text);
    }
    put_parents(tags, &text);
    pdf_object_set(file, parents, &text);
    put_root(tags, &text, first, parents);
    pdf_object_set(file, root, &text);
    buffer_free(&text);
    number_pages(tags, pages);
    HPDF_Dict_Add(file->doc->catalog, "StructTreeRoot", root);
    pdf_add_dict(file, file->doc->catalog, "MarkInfo", "/Marked true");
    pdf_file_check(file);
}
