/* A tree in lines that a test can compare: one a node, indented. */
#ifndef TESTS_TREE_DUMP_H
#define TESTS_TREE_DUMP_H

#include "base/buffer.h"
#include "doc/tree.h"

static const char *const node_names[] = {
    [NODE_PAGE] = "page",       [NODE_HEADING] = "heading",   [NODE_PARAGRAPH] = "paragraph",
    [NODE_LIST] = "list",       [NODE_ITEM] = "item",         [NODE_QUOTE] = "quote",
    [NODE_CAUTION] = "caution", [NODE_TABLE] = "table",       [NODE_LITERAL] = "literal",
    [NODE_FIGURE] = "figure",   [NODE_FIELDS] = "fields",     [NODE_RULE] = "rule",
    [NODE_TEXT] = "text",       [NODE_EMPHASIS] = "emphasis", [NODE_STRONG] = "strong",
    [NODE_CODE] = "code",       [NODE_LINK] = "link",         [NODE_SPACE] = "space",
    [NODE_BREAK] = "break",
};

static inline int depth_of(const struct node *root, const struct node *node)
{
    int depth = 0;
    for (; node != root; node = node->parent)
        depth++;
    return depth;
}

static inline void dump_table(struct buffer *out, const struct table *table, int indent)
{
    buffer_print(out, "%*scaption %s\n", indent, "", table->caption);
    for (size_t row = 0; row < table->row_count; row++) {
        buffer_print(out, "%*srow", indent, "");
        for (size_t column = 0; column < table->column_count; column++)
            buffer_print(out, " | %s", table_cell(table, row, column)->shown);
        buffer_text(out, "\n");
    }
}

static inline void dump_field(struct buffer *out, const struct form_field *field)
{
    buffer_print(out, " | %s", field->label);
    if (field->unit)
        buffer_print(out, " / %s", field->unit);
    if (field->value)
        buffer_print(out, " = %s", field->value);
    for (size_t i = 0; i < field->choice_count; i++)
        buffer_print(out, " \u25a1 %s", field->choices[i]);
    if (field->share > 1)
        buffer_print(out, " *%d", field->share);
}

static inline void dump_form(struct buffer *out, const struct form *form, int indent)
{
    for (size_t row = 0; row < form->count; row++) {
        buffer_print(out, "%*s%s", indent, "", form->ruled ? "lines" : "boxes");
        for (size_t i = 0; i < form->rows[row].count; i++)
            dump_field(out, &form->rows[row].fields[i]);
        buffer_text(out, "\n");
    }
}

static inline void dump_text(struct buffer *out, const char *before, const char *text)
{
    if (text)
        buffer_print(out, " %s%s", before, text);
}

static inline void dump_asked(struct buffer *out, const struct node *node, const char *name)
{
    dump_text(out, "", name);
    for (size_t i = 0; i < node->option_count; i++)
        buffer_print(out, " %s=%s", node->options[i].key, node->options[i].value);
}

/* What only this kind of node has. */
static inline void dump_of_kind(struct buffer *out, const struct node *node)
{
    if (node->kind == NODE_HEADING || node->kind == NODE_LIST)
        buffer_print(out, " level %d", node->level);
    if (node->kind == NODE_HEADING)
        dump_text(out, "#", node->anchor);
    if (node->kind == NODE_LINK)
        dump_text(out, "-> ", node->target);
    if (node->kind == NODE_TABLE)
        dump_asked(out, node, node->table_name);
    if (node->kind == NODE_FIGURE)
        dump_asked(out, node, node->figure_name);
}

static inline void dump_node(struct buffer *out, const struct node *node, int indent)
{
    buffer_print(out, "%*s%s %d:%d", indent, "", node_names[node->kind], node->at.line,
                 node->at.column);
    dump_of_kind(out, node);
    if (node->text)
        buffer_print(out, " \"%s\"", node->text);
    buffer_text(out, "\n");
    if (node->kind == NODE_TABLE && node->table)
        dump_table(out, node->table, indent + 2);
    if (node->kind == NODE_FIELDS)
        dump_form(out, node->form, indent + 2);
}

static inline void tree_dump(struct buffer *out, const struct node *root)
{
    for (const struct node *node = root; node; node = node_following(root, node))
        dump_node(out, node, 2 * depth_of(root, node));
}

#endif
