#include "tree/tree.h"

struct node *node_new(struct arena *arena, enum node_kind kind, struct place at)
{
    struct node *node = arena_get(arena, sizeof *node);
    node->kind = kind;
    node->at = at;
    return node;
}

void node_append(struct node *parent, struct node *child)
{
    child->parent = parent;
    if (parent->last)
        parent->last->next = child;
    else
        parent->first = child;
    parent->last = child;
}

void node_remove(struct node *node)
{
    struct node *parent = node->parent, *before = NULL;
    for (struct node *at = parent->first; at != node; at = at->next)
        before = at;
    *(before ? &before->next : &parent->first) = node->next;
    if (parent->last == node)
        parent->last = before;
}

struct node *node_after(const struct node *root, const struct node *node)
{
    for (; node && node != root; node = node->parent)
        if (node->next)
            return node->next;
    return NULL;
}

struct node *node_following(const struct node *root, const struct node *node)
{
    return node->first ? node->first : node_after(root, node);
}

bool node_is_inline(const struct node *node)
{
    return node->kind >= NODE_TEXT;
}

char *node_plain_text(struct arena *arena, const struct node *node)
{
    struct buffer text = {0};
    for (const struct node *at = node; at; at = node_following(node, at)) {
        if (at->kind == NODE_TEXT || at->kind == NODE_CODE)
            buffer_text(&text, at->text);
        else if (at->kind == NODE_SPACE || at->kind == NODE_BREAK)
            buffer_text(&text, " ");
    }
    char *plain = arena_slice(arena, text.bytes, text.length);
    buffer_free(&text);
    return plain;
}
