/* Trees made by hand, composed, and questions that the tests ask of the sheets. */
#ifndef TESTS_PAGE_SAMPLE_H
#define TESTS_PAGE_SAMPLE_H

#include "layout/compose.h"
#include "printed.h"
#include "test.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FONT_FOLDER "/usr/share/fonts/truetype/dejavu"

static struct arena *arena;
static struct diags *diags;
static struct fonts *fonts;

static const struct imprint imprint = {.title = "A book",
                                       .notice = "Invented example",
                                       .fingerprint = "0123abcd",
                                       .inputs = "An invented lathe: drum 50 mm"};

static inline int setup(void **state)
{
    (void)state;
    arena = arena_new();
    diags = diags_new(arena);
    fonts = fonts_load(arena, diags, FONT_FOLDER);
    return fonts ? 0 : -1;
}

static inline int teardown(void **state)
{
    (void)state;
    fonts_free(fonts);
    arena_free(arena);
    return 0;
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

/* For a struct text_meter, with the fonts. */
static inline double text_width(const void *with, bool bold, double size, const char *text)
{
    return fonts_width(with, bold ? FACE_BOLD : FACE_REGULAR, size, text);
}

static inline struct node *add(struct node *parent, enum node_kind kind)
{
    struct node *node =
        node_new(arena, kind, (struct place){.file = "sample.md", .line = 7, .column = 1});
    node_append(parent, node);
    return node;
}

static inline struct node *add_text(struct node *parent, const char *text)
{
    struct node *node = add(parent, NODE_TEXT);
    node->text = text;
    return node;
}

static inline struct node *add_heading(struct node *parent, int level, const char *text)
{
    struct node *heading = add(parent, NODE_HEADING);
    heading->level = level;
    heading->anchor = text;
    add_text(heading, text);
    return heading;
}

static inline struct node *add_paragraph(struct node *parent, const char *text)
{
    struct node *paragraph = add(parent, NODE_PARAGRAPH);
    add_text(paragraph, text);
    return paragraph;
}

/* "word word ... word": count of them. */
static inline const char *words(int count)
{
    struct buffer text = {0};
    for (int i = 0; i < count; i++)
        buffer_print(&text, "%s%s", i ? " " : "", i % 3 ? "spindle" : "of");
    char *kept = arena_slice(arena, text.bytes, text.length);
    buffer_free(&text);
    return kept;
}

static inline struct page *new_page(const char *file, const char *title)
{
    struct page *page = arena_get(arena, sizeof *page);
    page->file = page->name = file;
    page->title = title;
    page->in_booklet = true;
    page->root = node_new(arena, NODE_PAGE, (struct place){.file = file, .line = 1});
    add_heading(page->root, 1, title);
    return page;
}

/* A table of rows "row N" and numbers of 1 to 3 places. */
static inline struct table *add_table(struct node *parent, const char *name, size_t columns,
                                      size_t rows)
{
    static const char *const numbers[] = {"1", "20.5", "−3.25", "400.125", "none", "0.5"};
    struct table *table = table_new(arena, name, "Numbers of every kind");
    table->at = (struct place){.file = "sample.md", .line = 31, .column = 1};
    table_column(table, COLUMN_TEXT, "name", NULL);
    for (size_t i = 1; i < columns; i++)
        table_column(table, COLUMN_NUMBER, "low pull", "N")->strong = i == 1;
    for (size_t row = 0; row < rows; row++) {
        struct cell *cell = table_row(table);
        cell[0].shown = arena_format(arena, "row %zu", row + 1);
        cell[0].strong = row == 3;
        for (size_t i = 1; i < columns; i++)
            cell[i].shown = numbers[(row + i) % 6];
    }
    table_note(table, "A note below the table.");
    add(parent, NODE_TABLE)->table = table;
    return table;
}

static inline struct print *booklet_of(struct page *const *pages, size_t count)
{
    const struct page *all[8];
    for (size_t i = 0; i < count; i++)
        all[i] = pages[i];
    return compose_booklet(arena, all, count, &imprint, fonts, PAPER_A5, diags);
}

/* A booklet with an empty title page and this page. */
static inline struct print *booklet_with(struct page *page)
{
    struct page *pages[] = {new_page("start.md", "A book"), page};
    return booklet_of(pages, 2);
}

static inline char *said(void)
{
    return printed_faults(arena, diags);
}

static inline void assert_said(const char *part)
{
    if (!strstr(said(), part))
        fail_msg("\"%s\" was not said, but: %s", part, said());
}

static inline bool is_text(const struct piece *piece)
{
    return piece->kind == PIECE_TEXT && piece->text[0];
}

static inline int count_text(const struct sheet *sheet, const char *text)
{
    int count = 0;
    for (size_t i = 0; i < sheet->piece_count; i++)
        count += is_text(&sheet->pieces[i]) && strcmp(sheet->pieces[i].text, text) == 0;
    return count;
}

/* The first piece of text from sheet *sheet on that begins with this. */
static inline const struct piece *find_text(const struct print *print, const char *begin,
                                            size_t *sheet)
{
    for (; *sheet < print->sheet_count; ++*sheet)
        for (size_t i = 0; i < print->sheets[*sheet].piece_count; i++) {
            const struct piece *piece = &print->sheets[*sheet].pieces[i];
            if (is_text(piece) && strncmp(piece->text, begin, strlen(begin)) == 0)
                return piece;
        }
    return NULL;
}

/* The sheet of the chapters, which begin on the third, that has this text. */
static inline size_t sheet_with(const struct print *print, const char *begin)
{
    size_t sheet = 2;
    if (!find_text(print, begin, &sheet))
        fail_msg("\"%s\" is on no sheet", begin);
    return sheet;
}

static inline enum tag_kind kind_of(const struct print *print, const struct piece *piece)
{
    return print->tags[piece->tag].kind;
}

#endif
