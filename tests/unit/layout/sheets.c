/* Sheets: nothing outside, nothing on top of another, nothing parted that belongs
 * together. */
#include "doc/canvas.h"
#include "page_sample.h"

#include <math.h>

/* Something of everything, long enough for a dozen sheets. */
static struct page *stress_page(void)
{
    struct page *page = new_page("stress.md", "A chapter under stress");
    struct node *root = page->root;
    for (int i = 0; i < 14; i++) {
        add_heading(root, 2 + i % 3, arena_format(arena, "Heading %d", i));
        struct node *paragraph = add_paragraph(root, words(17 + 13 * i));
        add_text(add(paragraph, NODE_STRONG), " bold words and");
        add(paragraph, NODE_CODE)->text = "some code";
        add(paragraph, NODE_BREAK);
        add_text(add(paragraph, NODE_EMPHASIS), "Oblique words, ");
        add_text(paragraph, arena_format(arena, "%0*d", 40 * i, 7));
        struct node *list = root;
        for (int depth = 0; depth < i; depth++) {
            list = add(list, NODE_LIST);
            list->level = depth % 2 * 99;
            list = add(list, NODE_ITEM);
            add_paragraph(list, words(12));
        }
        add(root, NODE_LITERAL)->text = arena_format(arena, "short\n\n    %0*d", 60 * i, 7);
        struct node *caution = add(add(root, NODE_QUOTE), NODE_CAUTION);
        caution->text = words(i);
        add_paragraph(caution, words(20 * i));
        add_table(root, arena_format(arena, "table-%d", i), (size_t)(i < 11 ? 2 + i : 13),
                  (size_t)(7 * i));
    }
    struct node *caution = add(root, NODE_CAUTION);
    for (int i = 0; i < 12; i++)
        add_paragraph(caution, words(80));
    struct buffer lines = {0};
    for (int i = 0; i < 90; i++)
        buffer_print(&lines, "line %d\n", i);
    add(caution, NODE_LITERAL)->text = arena_text(arena, lines.bytes);
    buffer_free(&lines);
    return page;
}

static void assert_inside(const struct piece *piece, const struct sheet *sheet, double left,
                          double right, double bottom)
{
    bool text = piece->kind == PIECE_TEXT;
    double top = text ? piece->y - fonts_cap_height(fonts) * piece->size : piece->y;
    double low = text ? piece->y : piece->y + piece->height;
    if (piece->x < left - 0.01 || piece->x + piece->width > sheet->width - right + 0.01 ||
        top < 12 * MM || low > sheet->height - bottom)
        fail_msg("sheet %s: (%g, %g) +%g: \"%s\" lies outside", sheet->label, piece->x,
                 piece->y, piece->width, text ? piece->text : "");
}

/* Only the running foot stands below the column. */
static double foot_of(const struct piece *piece)
{
    return piece->kind == PIECE_BOX || piece->tag >= 0 ? 18 * MM - 0.01 : 5 * MM;
}

/* Thumbs lie on the outer edge, the fold takes from the inner one. */
static void test_nothing_outside_the_margins(void **state)
{
    (void)state;
    struct print *print = booklet_with(stress_page());
    assert_int_equal(diags_count(diags), 0);
    assert_true(print->sheet_count > 20);
    for (size_t i = 0; i < print->sheet_count; i++) {
        const struct sheet *sheet = &print->sheets[i];
        bool turned = sheet->width > sheet->height, right_hand = i % 2 == 0;
        double left = right_hand && !turned ? 12 * MM : 15 * MM;
        double right = right_hand || turned ? 15 * MM : 12 * MM;
        for (size_t k = 0; k < sheet->piece_count; k++)
            assert_inside(&sheet->pieces[k], sheet, left, right, foot_of(&sheet->pieces[k]));
    }
}

static bool overlap(const struct piece *a, const struct piece *b)
{
    double cap = fonts_cap_height(fonts);
    return a->x + 0.01 < b->x + b->width && b->x + 0.01 < a->x + a->width &&
           a->y - cap * a->size < b->y && b->y - cap * b->size < a->y;
}

static void test_no_text_on_other_text(void **state)
{
    (void)state;
    struct print *print = booklet_with(stress_page());
    for (size_t i = 0; i < print->sheet_count; i++) {
        const struct sheet *sheet = &print->sheets[i];
        for (size_t a = 0; a < sheet->piece_count; a++)
            for (size_t b = 0; b < a; b++)
                if (is_text(&sheet->pieces[a]) && is_text(&sheet->pieces[b]) &&
                    overlap(&sheet->pieces[a], &sheet->pieces[b]))
                    fail_msg("sheet %s: \"%s\" on \"%s\"", sheet->label, sheet->pieces[a].text,
                             sheet->pieces[b].text);
    }
}

/* Parents come first, and what is drawn follows the order of the tags. */
static void test_tags_are_a_tree_in_reading_order(void **state)
{
    (void)state;
    struct print *print = booklet_with(stress_page());
    int last = 0;
    assert_int_equal(print->tags[0].parent, -1);
    for (size_t i = 1; i < print->tag_count; i++)
        assert_in_range(print->tags[i].parent, 0, i - 1);
    for (size_t i = 0; i < print->sheet_count; i++)
        for (size_t k = 0; k < print->sheets[i].piece_count; k++) {
            const struct piece *piece = &print->sheets[i].pieces[k];
            if (piece->tag < 0)
                continue;
            assert_true(piece->tag < (int)print->tag_count);
            if (piece->tag < last) /* a paragraph goes on behind a link in it */
                assert_int_equal(print->tags[last].parent, piece->tag);
            last = piece->tag;
        }
    assert_true(last > 100);
}

/* The lowest tagged text of a sheet. */
static const struct piece *lowest(const struct sheet *sheet)
{
    const struct piece *low = NULL;
    for (size_t i = 0; i < sheet->piece_count; i++)
        if (is_text(&sheet->pieces[i]) && sheet->pieces[i].tag >= 0 &&
            (!low || sheet->pieces[i].y >= low->y))
            low = &sheet->pieces[i];
    return low;
}

/* Lines of a paragraph's tag on one sheet. */
static int lines_on(const struct sheet *sheet, int tag)
{
    int lines = 0;
    double y = -1;
    for (size_t i = 0; i < sheet->piece_count; i++)
        if (sheet->pieces[i].tag == tag && fabs(sheet->pieces[i].y - y) > 0.01) {
            y = sheet->pieces[i].y;
            lines++;
        }
    return lines;
}

/* A paragraph, a heading and a longer paragraph, moved down line by line. */
static struct print *moved_down(int lines, bool colon)
{
    struct page *page = new_page("moved.md", "Moved");
    for (int i = 0; i < lines; i++)
        add_paragraph(page->root, "A line.");
    add_heading(page->root, 2, "The heading");
    add_paragraph(page->root, colon ? "What follows:" : words(45));
    struct node *list = add(page->root, NODE_LIST);
    add_paragraph(add(list, NODE_ITEM), "An item.");
    for (int i = 0; i < 12; i++)
        add_paragraph(page->root, "Goes on.");
    return booklet_with(page);
}

static void test_headings_never_end_a_sheet(void **state)
{
    (void)state;
    for (int lines = 1; lines < 60; lines++) {
        struct print *print = moved_down(lines, false);
        for (size_t i = 2; i < print->sheet_count; i++)
            assert_int_not_equal(kind_of(print, lowest(&print->sheets[i])), TAG_HEADING);
    }
}

static void test_no_line_of_a_paragraph_alone(void **state)
{
    (void)state;
    int divided = 0;
    for (int lines = 1; lines < 60; lines++) {
        struct print *print = moved_down(lines, false);
        size_t sheet = sheet_with(print, "of spindle");
        int tag = find_text(print, "of spindle", &sheet)->tag;
        if (sheet + 1 == print->sheet_count || lines_on(&print->sheets[sheet + 1], tag) == 0)
            continue;
        divided++;
        assert_true(lines_on(&print->sheets[sheet], tag) >= 2);
        assert_true(lines_on(&print->sheets[sheet + 1], tag) >= 2);
    }
    assert_true(divided > 0);
}

static void test_colon_stays_with_its_list(void **state)
{
    (void)state;
    for (int lines = 1; lines < 60; lines++) {
        struct print *print = moved_down(lines, true);
        assert_int_equal(sheet_with(print, "What follows:"), sheet_with(print, "An item."));
        assert_int_equal(sheet_with(print, "The heading"), sheet_with(print, "What follows:"));
    }
}

/* The last step of a list leads to what stands behind the list; few literal lines stay on one
 * sheet. */
static void test_last_step_stays_with_its_lines(void **state)
{
    (void)state;
    for (int lines = 1; lines < 60; lines++) {
        struct page *page = new_page("steps.md", "Steps");
        for (int i = 0; i < lines; i++)
            add_paragraph(page->root, "A line.");
        struct node *list = add(page->root, NODE_LIST);
        add_paragraph(add(list, NODE_ITEM), "A step.");
        add_paragraph(add(list, NODE_ITEM), "Write this:");
        add(page->root, NODE_LITERAL)->text = "one\ntwo\nthree\nfour\nfive\n";
        for (int i = 0; i < 40; i++)
            add_paragraph(page->root, "Goes on.");
        struct print *print = booklet_with(page);
        size_t sheet = sheet_with(print, "Write this:");
        assert_int_equal(sheet_with(print, "one"), sheet);
        assert_int_equal(sheet_with(print, "three"), sheet);
        assert_int_equal(sheet_with(print, "five"), sheet);
    }
}

/* A heading, one paragraph and a table of half a sheet belong together, wherever they come
 * to stand. */
static void test_a_lead_in_stays_with_its_table(void **state)
{
    (void)state;
    size_t began_a_sheet = 0;
    for (int lines = 1; lines < 60; lines++) {
        struct page *page = new_page("table.md", "Led");
        for (int i = 0; i < lines; i++)
            add_paragraph(page->root, "A line.");
        add_heading(page->root, 2, "The heading");
        add_paragraph(page->root, "Leads in.");
        add_table(page->root, "numbers", 2, 18);
        struct print *print = booklet_with(page);
        size_t sheet = sheet_with(print, "row 1");
        assert_int_equal(sheet_with(print, "The heading"), sheet);
        assert_int_equal(sheet_with(print, "Leads in."), sheet);
        assert_int_equal(sheet_with(print, "row 18"), sheet);
        assert_int_equal(sheet_with(print, "A note below"), sheet);
        size_t first = sheet_with(print, "A line.");
        began_a_sheet += first != sheet;
    }
    assert_true(began_a_sheet > 5);
}

/* Two chapters, the first of so many paragraphs of a line each. */
static struct print *two_chapters(int lines)
{
    struct page *one = new_page("one.md", "One"), *two = new_page("two.md", "Two");
    struct page *pages[] = {new_page("start.md", "A book"), one, two};
    for (int i = 0; i < lines; i++)
        add_paragraph(one->root, i + 1 < lines ? "A line." : "The last line.");
    for (int i = 0; i < 12; i++)
        add_paragraph(two->root, "Of the second.");
    return booklet_of(pages, 3);
}

/* The gaps give what a line or two want: a chapter that is a little longer than a sheet
 * does not take a second. No two of its lines come nearer than lines of a paragraph. */
static void test_a_chapter_is_squeezed_onto_its_sheet(void **state)
{
    (void)state;
    int squeezed = 0;
    double gap = 0;
    for (int lines = 10; lines < 40; lines++) {
        struct print *print = two_chapters(lines);
        size_t sheet = 2;
        if (sheet_with(print, "The last line.") != 2)
            continue;
        const struct piece *last = find_text(print, "The last line.", &sheet), *before = last;
        while (strcmp(before->text, "A line.") != 0)
            before--;
        if (gap == 0)
            gap = last->y - before->y;
        squeezed += last->y - before->y < gap - 0.01;
        assert_true(last->y - before->y >= 13 + 3);
    }
    assert_in_range(squeezed, 1, 3);
}

/* The chapter that the running foot names: beside the number, above the notice. */
static const char *foot_chapter(const struct sheet *sheet)
{
    const struct piece *piece = &sheet->pieces[sheet->piece_count - 1];
    while (!is_text(piece) || strncmp(piece->text, "settings ", 9) != 0)
        piece--;
    return piece[-1].text;
}

/* Below a short end of the one before, the second chapter begins on the same sheet, whose
 * foot names it; below a long one it begins the next. */
static void test_a_chapter_begins_below_a_short_end(void **state)
{
    (void)state;
    struct print *print = two_chapters(34);
    size_t sheet = 2;
    assert_non_null(find_text(print, "Two", &sheet));
    assert_int_equal(sheet, 3);
    assert_int_equal(sheet_with(print, "The last line."), 3);
    assert_int_equal(print->sheet_count, 4);
    assert_string_equal(foot_chapter(&print->sheets[2]), "One");
    assert_string_equal(foot_chapter(&print->sheets[3]), "Two");
    assert_string_equal(print->outline[3].title, "Two");
    assert_int_equal(print->outline[3].sheet, 3);
    for (int lines = 18; lines < 24; lines++) {
        print = two_chapters(lines);
        sheet = 2;
        assert_true(find_text(print, "Two", &sheet)->y < 80);
        assert_int_equal(sheet, 3);
    }
}

static void test_cautions_are_not_divided(void **state)
{
    (void)state;
    for (int lines = 1; lines < 30; lines++) {
        struct page *page = new_page("caution.md", "Careful");
        for (int i = 0; i < lines; i++)
            add_paragraph(page->root, "A line.");
        struct node *caution = add(page->root, NODE_CAUTION);
        caution->text = "Power";
        add_paragraph(caution, words(40));
        add_paragraph(caution, "The last words of it.");
        struct print *print = booklet_with(page);
        assert_int_equal(sheet_with(print, "CAUTION: Power"),
                         sheet_with(print, "The last words"));
    }
}

/* A number in the contents, the label of the sheet, the outline: all agree. */
static void test_contents_lead_to_their_headings(void **state)
{
    (void)state;
    struct page *pages[] = {new_page("start.md", "A book"), new_page("one.md", "One"),
                            new_page("two.md", "Two")};
    add_paragraph(pages[1]->root, words(900));
    add_heading(pages[1]->root, 2, "Deeper");
    struct print *print = booklet_of(pages, 3);
    const struct sheet *contents = &print->sheets[1];
    static const char *const titles[] = {"One", "Deeper", "Two"};
    assert_int_equal(contents->area_count, 3);
    assert_string_equal(contents->label, "ii");
    for (size_t i = 0; i < 3; i++) {
        const struct hot_area *area = &contents->areas[i];
        const struct outline_entry *entry = &print->outline[i + 2];
        const struct sheet *to = &print->sheets[area->to_sheet];
        size_t sheet = area->to_sheet;
        assert_string_equal(entry->title, titles[i]);
        assert_int_equal(entry->sheet, area->to_sheet);
        const struct piece *heading = find_text(print, titles[i], &sheet);
        assert_int_equal(sheet, area->to_sheet);
        assert_true(heading->y > area->to_y && heading->y < area->to_y + 40);
        bool numbered = false;
        for (size_t k = 0; k < contents->piece_count; k++)
            numbered |= is_text(&contents->pieces[k]) && contents->pieces[k].y > area->y &&
                        contents->pieces[k].y < area->y + area->height &&
                        strcmp(contents->pieces[k].text, to->label) == 0;
        assert_true(numbered);
    }
    assert_string_equal(print->sheets[2].label, "1");
}

static void test_links_within_and_outside(void **state)
{
    (void)state;
    struct page *one = new_page("one.md", "One"), *two = new_page("two.md", "Two");
    struct page *pages[] = {new_page("start.md", "A book"), one, two};
    struct node *paragraph = add_paragraph(one->root, "See ");
    struct node *link = add(paragraph, NODE_LINK);
    link->to_page = two;
    link->to_anchor = "Below";
    add_text(link, "what stands below");
    link = add(paragraph, NODE_LINK);
    link->target = "https://example.org/";
    add_text(link, " or elsewhere");
    add_paragraph(two->root, words(700));
    add_heading(two->root, 2, "Below");
    struct print *print = booklet_of(pages, 3);
    const struct sheet *sheet = &print->sheets[2];
    assert_int_equal(sheet->area_count, 3); /* the words, the number of the page, the other */
    size_t to = 3, from = 2;
    assert_true(find_text(print, "Below", &to)->y > sheet->areas[0].to_y);
    assert_int_equal(sheet->areas[0].to_sheet, to);
    assert_int_equal(sheet->areas[1].to_sheet, to);
    assert_string_equal(sheet->areas[2].uri, "https://example.org/");
    assert_int_equal(print->tags[sheet->areas[0].tag].kind, TAG_LINK);
    const struct piece *number =
        find_text(print, arena_format(arena, " (p.\u00a0%s)", print->sheets[to].label), &from);
    assert_non_null(number);
    assert_int_equal(from, 2);
    double blank = sheet->areas[2].x - number->x - number->width;
    assert_true(blank > 1 && blank < 5); /* what is behind it has moved to it */
}

/* A link to what stands on its own page needs no number. */
static void test_a_link_to_its_own_page(void **state)
{
    (void)state;
    struct page *one = new_page("one.md", "One");
    struct node *paragraph = add_paragraph(one->root, "See ");
    struct node *link = add(paragraph, NODE_LINK);
    size_t sheet = 2;
    link->to_page = one;
    link->to_anchor = "Below";
    add_text(link, "what stands below");
    add_text(paragraph, ". And on.");
    add_heading(one->root, 2, "Below");
    struct print *print = booklet_with(one);
    const struct piece *words = find_text(print, "what stands below", &sheet);
    const struct piece *behind = find_text(print, ". And on.", &sheet);
    assert_int_equal(print->sheets[sheet].area_count, 1);
    assert_true(fabs(behind->x - words->x - words->width) < 0.01);
}

/* The front matter ends on a left-hand page, so that chapters begin on a right. */
static void test_chapters_begin_on_a_right_hand_page(void **state)
{
    (void)state;
    struct page *page = new_page("one.md", "One");
    for (int i = 0; i < 60; i++)
        add_heading(page->root, 2, arena_format(arena, "Part %d", i));
    struct print *print = booklet_with(page);
    assert_string_equal(print->sheets[2].label, "iii");
    assert_string_equal(print->sheets[4].label, "1");
    size_t sheet = 3;
    assert_non_null(find_text(print, "Notes", &sheet));
    assert_int_equal(sheet, 3);
}

static void test_signs_without_a_shape_are_faults(void **state)
{
    (void)state;
    struct page *page = new_page("one.md", "One");
    add_paragraph(page->root, "all is well: ≤ ± ° ▲ ●");
    const struct page *pages[] = {page};
    compose_check(pages[0], fonts, diags);
    assert_int_equal(diags_count(diags), 0);
    add_paragraph(page->root, "a spanner 🔧 and 漢");
    add_text(add(page->root, NODE_EMPHASIS), "only upright: ⊕ ⍻ ꙮ");
    add_table(page->root, "a-table", 3, 5)->cells[4].shown = "漢";
    compose_check(pages[0], fonts, diags);
    assert_said("sample.md:7:1: the character '🔧' (U+1F527) is not in the printed font");
    assert_said("the character '漢' (U+6F22)");
    assert_true(diags_count(diags) >= 3);
}

static void test_missing_and_strange_fonts_are_faults(void **state)
{
    (void)state;
    assert_null(fonts_load(arena, diags, "/nowhere"));
    assert_int_equal(diags_count(diags), 4);
    assert_said("/nowhere/DejaVuSansMono.ttf: the font cannot be read");
    assert_said("/nowhere/DejaVuSansCondensed-Bold.ttf: the font cannot be read");
    assert_said("fonts-dejavu-extra");
    char folder[] = "/tmp/test_page.XXXXXX";
    assert_non_null(mkdtemp(folder));
    char *name = arena_format(arena, "%s/DejaVuSansCondensed.ttf", folder);
    FILE *file = fopen(name, "w");
    fputs("no font", file);
    fclose(file);
    assert_null(fonts_load(arena, diags, folder));
    assert_said("DejaVuSansCondensed.ttf: this is not the font file that was tested");
    assert_int_equal(remove(name) | remove(folder), 0);
}

/* Advances read by hand from the font's table: 0 is 1172/2048 em, which is 572. */
static void test_widths_are_those_of_the_pdf_library(void **state)
{
    (void)state;
    assert_true(fabs(fonts_width(fonts, FACE_REGULAR, 10, "00") - 11.44) < 1e-9);
    assert_true(fabs(fonts_width(fonts, FACE_BOLD, 1000, "0") - 625) < 1e-9);
    assert_true(fabs(fonts_width(fonts, FACE_REGULAR, 1000, ".−") - (285 + 753)) < 1e-9);
    assert_false(fonts_has(fonts, FACE_REGULAR, 0x6F22));
    assert_false(fonts_has(fonts, FACE_REGULAR, 0x1F527));
    assert_true(fonts_has(fonts, FACE_OBLIQUE, 'x'));
}

static const struct CMUnitTest tests[] = {
    TEST(test_nothing_outside_the_margins),
    TEST(test_no_text_on_other_text),
    TEST(test_tags_are_a_tree_in_reading_order),
    TEST(test_headings_never_end_a_sheet),
    TEST(test_no_line_of_a_paragraph_alone),
    TEST(test_colon_stays_with_its_list),
    TEST(test_last_step_stays_with_its_lines),
    TEST(test_a_lead_in_stays_with_its_table),
    TEST(test_a_chapter_is_squeezed_onto_its_sheet),
    TEST(test_a_chapter_begins_below_a_short_end),
    TEST(test_cautions_are_not_divided),
    TEST(test_contents_lead_to_their_headings),
    TEST(test_links_within_and_outside),
    TEST(test_a_link_to_its_own_page),
    TEST(test_chapters_begin_on_a_right_hand_page),
    TEST(test_signs_without_a_shape_are_faults),
    TEST(test_missing_and_strange_fonts_are_faults),
    TEST(test_widths_are_those_of_the_pdf_library),
};

GROUP(sheets, NULL, NULL)
