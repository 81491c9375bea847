/* Is there a shape for every character, in each face that it may be printed in? */
#include "base/utf8.h"
#include "layout/compose.h"

enum {
    REGULAR = 1 << FACE_REGULAR,
    BOLD = 1 << FACE_BOLD,
    OBLIQUE = 1 << FACE_OBLIQUE,
    MONO = 1 << FACE_MONO,
    LINES = 1 << FACE_COUNT,           /* no face: line ends may stand in the text */
    AS_WRITTEN = 1 << (FACE_COUNT + 1) /* nor this: each character has a place of its own */
};

struct checker {
    const struct fonts *fonts;
    struct diags *diags;
};

/* Hebrew, Arabic and the like: lines are set from left to right, and where such words
 * stand among figures a browser puts the figures in another order. */
static bool is_right_to_left(uint32_t point)
{
    return (point >= 0x0590 && point <= 0x08FF) || (point >= 0xFB1D && point <= 0xFDFF) ||
           (point >= 0xFE70 && point <= 0xFEFE) || (point >= 0x10800 && point <= 0x10FFF) ||
           (point >= 0x1E800 && point <= 0x1EFFF);
}

/* What keeps a character from being printed; NULL where nothing does. */
static const char *obstacle(const struct fonts *fonts, int faces, uint32_t point)
{
    if (utf8_is_hidden(point))
        return "is not seen, or hides or turns what is; delete it";
    if (is_right_to_left(point))
        return "is written from right to left, which is not printed rightly; write it in words";
    for (int face = 0; face < FACE_COUNT; face++)
        if (faces & 1 << face && !fonts_has(fonts, (enum face)face, point))
            return "is not in the printed font; write it in words";
    return NULL;
}

/* Reports the first character of the text that is missing: others come to light with it. Every
 * face has the printing ones of ASCII: fonts_load() takes no other files. */
static void check_text(const struct checker *checker, const char *text, int faces,
                       struct place at)
{
    const char *start = text;
    while (text && *text) {
        const char *character = text;
        if (*text >= ' ' && *text < 0x7F) {
            text++;
            continue;
        }
        uint32_t point = utf8_next(&text);
        if (point == '\n' && faces & LINES)
            continue;
        const char *words = obstacle(checker->fonts, faces, point);
        if (!words)
            continue;
        if (faces & AS_WRITTEN)
            at.column += (int)utf8_count(start, (size_t)(character - start));
        fault(checker->diags, at, "the character '%.*s' (U+%04X) %s", (int)(text - character),
              character, (unsigned)point, words);
        return;
    }
}

/* The face that an inline node is printed in; as lines_read() chooses it. Headings also
 * stand in the contents and in the foot. */
static int faces_of(const struct node *node)
{
    bool oblique = false, code = node->kind == NODE_CODE;
    for (const struct node *up = node->parent; up; up = up->parent) {
        if (up->kind == NODE_HEADING)
            return REGULAR | BOLD | (code ? MONO : 0);
        if (up->kind == NODE_STRONG && !code)
            return BOLD;
        oblique |= up->kind == NODE_EMPHASIS;
    }
    return code ? MONO : oblique ? OBLIQUE : REGULAR;
}

static void check_table(const struct checker *checker, const struct table *table,
                        struct place at)
{
    int faces = REGULAR | BOLD;
    check_text(checker, table->caption, faces, at);
    for (size_t i = 0; i < table->column_count; i++) {
        check_text(checker, table->columns[i].quantity, faces, at);
        check_text(checker, table->columns[i].unit, faces, at);
    }
    for (size_t i = 0; i < table->row_count * table->column_count; i++)
        check_text(checker, table->cells[i].shown, faces, at);
    for (size_t i = 0; i < table->note_count; i++)
        check_text(checker, table->notes[i], REGULAR, at);
}

/* Labels and values, in the faces that they are printed in. */
static void check_form(const struct checker *checker, const struct form *form)
{
    for (size_t row = 0; row < form->count; row++)
        for (size_t i = 0; i < form->rows[row].count; i++) {
            const struct form_field *field = &form->rows[row].fields[i];
            check_text(checker, field->label, REGULAR, form->rows[row].at);
            check_text(checker, field->unit, REGULAR, form->rows[row].at);
            check_text(checker, field->value, BOLD, form->rows[row].at);
            for (size_t k = 0; k < field->choice_count; k++)
                check_text(checker, field->choices[k], REGULAR, form->rows[row].at);
        }
}

static void check_node(const struct checker *checker, const struct node *node)
{
    const struct figure *figure = node->kind == NODE_FIGURE ? node->figure : NULL;
    switch (node->kind) {
    case NODE_TEXT:
    case NODE_CODE:
        check_text(checker, node->text, faces_of(node) | (node->as_written ? AS_WRITTEN : 0),
                   node->at);
        break;
    case NODE_LITERAL:
        check_text(checker, node->text, MONO | LINES, node->at);
        break;
    case NODE_CAUTION:
        check_text(checker, node->text, BOLD, node->at);
        break;
    case NODE_TABLE:
        if (node->table)
            check_table(checker, node->table, node->at);
        break;
    case NODE_FIGURE:
        check_text(checker, figure ? figure->caption : NULL, REGULAR, node->at);
        for (size_t i = 0; figure && i < figure->text_count; i++)
            check_text(checker, figure->texts[i].text, figure->texts[i].bold ? BOLD : REGULAR,
                       node->at);
        break;
    case NODE_FIELDS:
        check_form(checker, node->form);
        break;
    default:
        break;
    }
}

void compose_check(const struct page *page, const struct fonts *fonts, struct diags *diags)
{
    struct checker checker = {.fonts = fonts, .diags = diags};
    const struct node *root = page->root;
    for (const struct node *node = root; node; node = node_following(root, node))
        check_node(&checker, node);
}

void text_check(const char *text, const struct fonts *fonts, struct place at,
                struct diags *diags)
{
    struct checker checker = {.fonts = fonts, .diags = diags};
    check_text(&checker, text, REGULAR | BOLD, at);
}

void imprint_check(const struct imprint *imprint, const struct fonts *fonts, struct place at,
                   struct diags *diags)
{
    struct checker checker = {.fonts = fonts, .diags = diags};
    check_text(&checker, imprint->title, REGULAR | BOLD, at);
    check_text(&checker, imprint->notice, REGULAR | BOLD, at);
    check_text(&checker, imprint->inputs, REGULAR, at);
    check_text(&checker, imprint->fingerprint, REGULAR, at);
}
