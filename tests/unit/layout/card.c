/* The card: what can be read from where it hangs, what stays off its edge, and the sheet
 * that it is cut from. */
#include "doc/canvas.h"
#include "page_sample.h"

#include <math.h>

static const struct state_cell key[] = {{"▼ clearly low", ""},
                                        {"▽ low or in doubt", "below 15"},
                                        {"● good", "15 to 22 N"},
                                        {"△ high or in doubt", "above 22"},
                                        {"▲ clearly high", ""}};
static const struct fact facts[] = {{"Effective radius:", "31.4 mm"}, {"Made:", "by hand"}};

/* Figures of 15 and 20 minutes of arc at 700 mm: 3.05 and 4.07 mm. */
static struct card_ask ask_for(enum paper_size size)
{
    return (struct card_ask){.size = size,
                             .booklet = PAPER_A5,
                             .least = 3.05 * MM,
                             .preferred = 4.07 * MM,
                             .distance = "700 mm",
                             .distance_mm = 700,
                             .at = {.file = "settings", .line = 3, .column = 4},
                             .key = key,
                             .key_count = 5,
                             .facts = facts,
                             .fact_count = 2};
}

static struct page *card_page(int extra)
{
    struct page *page = new_page("card.md", "Pull windows");
    page->in_booklet = false;
    add_table(page->root, "windows", 3, 4);
    add_paragraph(page->root, words(8 + extra));
    add(page->root, NODE_RULE);
    struct node *caution = add(page->root, NODE_CAUTION);
    add_paragraph(caution, "Lock off.");
    return page;
}

static struct card_prints card_of(struct page *page, const struct card_ask *ask)
{
    return compose_card(arena, page, &imprint, fonts, ask, diags);
}

static struct card_prints card_on(enum paper_size size, int extra)
{
    struct card_ask ask = ask_for(size);
    return card_of(card_page(extra), &ask);
}

static bool in_table(const struct print *print, const struct piece *piece)
{
    return is_text(piece) && piece->tag >= 0 &&
           (kind_of(print, piece) == TAG_CELL || kind_of(print, piece) == TAG_HEAD_CELL);
}

/* Height of the smallest capital of the window table, in mm, from the pieces. */
static double smallest_mm(const struct print *print)
{
    double smallest = INFINITY;
    for (size_t i = 0; i < print->sheets[0].piece_count; i++) {
        const struct piece *piece = &print->sheets[0].pieces[i];
        if (in_table(print, piece))
            smallest = fmin(smallest, piece->size * fonts_cap_height(fonts) / MM);
    }
    return smallest;
}

static void test_the_figures_are_largest(void **state)
{
    (void)state;
    static const enum paper_size papers[] = {PAPER_A6, PAPER_A5, PAPER_HALF_LETTER};
    for (size_t i = 0; i < 3; i++) {
        struct print *print = card_on(papers[i], 0).card;
        assert_int_equal(print->sheet_count, 2);
        double figures = 0, most = 0, least_body = papers[i] == PAPER_A6 ? 8 : 10;
        for (size_t k = 0; k < print->sheets[0].piece_count; k++) {
            const struct piece *piece = &print->sheets[0].pieces[k];
            if (is_text(piece) && kind_of(print, piece) == TAG_CELL)
                figures = piece->size;
            else if (is_text(piece))
                most = fmax(most, piece->size);
            if (is_text(piece) && strncmp(piece->text, "of spindle", 10) == 0)
                assert_true(piece->size >= least_body);
        }
        assert_true(figures >= 20 && figures > most);
        size_t back = 1;
        assert_non_null(find_text(print, "CAUTION", &back));
        assert_int_equal(count_text(&print->sheets[1], "31.4 mm"), 1);
    }
    assert_int_equal(diags_count(diags), 0);
}

/* 15 minutes of arc at least, 20 where they fit: NUREG-0700, 11.4.1.5-1. */
static void test_the_window_can_be_read(void **state)
{
    (void)state;
    for (int size = PAPER_A6; size <= PAPER_HALF_LETTER; size++) {
        struct card_prints prints = card_on((enum paper_size)size, 0);
        assert_true(fabs(prints.height / MM - smallest_mm(prints.card)) < 1e-9);
        assert_true(prints.height / MM >= 4.07);
    }
    int between = 0;
    for (int extra = 60; diags_count(diags) == 0; extra += 5) {
        double height = card_on(PAPER_A6, extra).height / MM;
        between += height >= 3.05 && height < 4.07;
        assert_true(height >= 3.05 || diags_count(diags) == 1);
    }
    assert_true(between > 0);
}

/* The pulls of a state stand in the middle below its words. */
static void assert_below(const struct print *print, const struct piece *words,
                         const char *pulls)
{
    size_t sheet = 0;
    const struct piece *piece = pulls[0] ? find_text(print, pulls, &sheet) : NULL;
    if (!pulls[0])
        return;
    assert_non_null(piece);
    assert_true(piece->y > words->y + words->size);
    assert_true(fabs(piece->x + piece->width / 2 - words->x - words->width / 2) < 1e-6);
}

static bool has(const struct print *print, const char *text)
{
    size_t sheet = 0;
    return find_text(print, text, &sheet) != NULL;
}

/* As the text grows the pulls give way first, then the states. */
static void test_the_pulls_of_the_states(void **state)
{
    (void)state;
    struct print *print = card_on(PAPER_A5, 0).card;
    for (size_t i = 0; i < 5; i++) {
        size_t sheet = 0;
        assert_below(print, find_text(print, key[i].words, &sheet), key[i].pulls);
    }
    int states_alone = 0, extra = 0;
    for (; has(print, key[2].words); extra += 5) {
        states_alone += !has(print, key[2].pulls);
        print = card_on(PAPER_A5, extra).card;
    }
    assert_true(states_alone > 0 && !has(print, key[2].pulls));
}

/* The line of states gives way before anything in the table grows smaller for it. */
static void test_the_line_of_states(void **state)
{
    (void)state;
    struct print *print = card_on(PAPER_A5, 0).card;
    double x = 0;
    for (size_t i = 0; i < 5; i++) {
        size_t sheet = 0;
        const struct piece *piece = find_text(print, key[i].words, &sheet);
        assert_non_null(piece);
        assert_int_equal(sheet, 0);
        assert_true(piece->x > x && piece->size >= 10);
        x = piece->x + piece->width;
    }
    for (int extra = 60; diags_count(diags) == 0; extra += 5) {
        struct card_prints prints = card_on(PAPER_A6, extra);
        size_t sheet = 0;
        if (prints.height > 0 && prints.height / MM < 4.07)
            assert_null(find_text(prints.card, key[0].words, &sheet));
    }
}

/* Where no card can be read, the fault says what would do; and that does do. */
static void test_a_card_that_cannot_be_read_is_a_fault(void **state)
{
    (void)state;
    struct card_ask ask = ask_for(PAPER_A6);
    ask.least = 6 * MM, ask.preferred = 6.2 * MM;
    ask.distance = "1380 mm", ask.distance_mm = 1380;
    card_of(card_page(60), &ask);
    assert_int_equal(diags_count(diags), 1);
    assert_said("settings:3:4: the windows on a card of A6 would be only ");
    assert_said("too small to be read from 1380 mm; choose a card of A5 or half letter, or "
                "hang it at ");
    int distance = atoi(strstr(said(), "hang it at ") + strlen("hang it at "));
    assert_true(distance > 500 && distance < 1380);
    ask.least *= distance / ask.distance_mm;
    ask.preferred = ask.least;
    assert_true(card_of(card_page(60), &ask).height >= ask.least);
    ask = ask_for(PAPER_A5);
    ask.least = 6 * MM, ask.preferred = 6.2 * MM;
    assert_true(card_of(card_page(60), &ask).height >= 6 * MM);
    assert_int_equal(diags_count(diags), 1);
}

/* Film needs 6 mm of blank paper; the thin cutting edge alone is nearer. */
static void test_the_card_stays_off_its_edge(void **state)
{
    (void)state;
    const double edge = 6 * MM - 0.01;
    struct print *print = card_on(PAPER_A6, 40).card;
    for (size_t i = 0; i < print->sheet_count; i++) {
        const struct sheet *sheet = &print->sheets[i];
        assert_int_equal(count_text(sheet, "Invented example"), 1);
        for (size_t k = 0; k < sheet->piece_count; k++) {
            const struct piece *piece = &sheet->pieces[k];
            if (!is_text(piece))
                continue;
            assert_true(piece->x >= edge && piece->x + piece->width <= sheet->width - edge);
            assert_true(piece->y - piece->size * fonts_cap_height(fonts) >= edge);
            assert_true(piece->y <= sheet->height - edge);
        }
    }
}

static void test_too_much_for_a_card_is_a_fault(void **state)
{
    (void)state;
    card_on(PAPER_A6, 2000);
    assert_int_equal(diags_count(diags), 1);
    assert_said("sample.md:7:1: the card's front does not fit on A6");
}

/* A wide table in front, many lines behind. */
static struct page *page_of_two_ways(int lines)
{
    struct page *page = new_page("card.md", "Pull windows");
    page->in_booklet = false;
    add_table(page->root, "windows", 7, 3);
    add(page->root, NODE_RULE);
    for (int i = 0; i < lines; i++)
        add_paragraph(page->root, "A line of its own.");
    return page;
}

/* Sides that each fit, but not the same way round: the fault says so, and what it names
 * does do. */
static void test_sides_that_fit_different_ways_are_a_fault(void **state)
{
    (void)state;
    struct card_ask ask = ask_for(PAPER_A6);
    int lines = 1;
    while (lines < 60 && !strstr(said(), "only upright")) {
        diags = diags_new(arena);
        card_of(page_of_two_ways(lines++), &ask);
    }
    assert_said("on A6 the card's front fits only on its side and its back only upright; "
                "shorten the one or the other, or choose a card of A5 or half letter");
    assert_int_equal(diags_count(diags), 1);
    diags = diags_new(arena);
    ask.size = PAPER_A5;
    card_of(page_of_two_ways(lines - 1), &ask);
    assert_int_equal(diags_count(diags), 0);
}

static bool is_line(const struct piece *piece, double x, double y, double width, double height)
{
    return piece->kind == PIECE_LINE && fabs(piece->line - 0.25) < 1e-9 &&
           fabs(piece->x - x) < 1e-6 && fabs(piece->y - y) < 1e-6 &&
           fabs(piece->width - width) < 1e-6 && fabs(piece->height - height) < 1e-6;
}

static int count_lines(const struct sheet *sheet, double x, double y, double width,
                       double height)
{
    int count = 0;
    for (size_t i = 0; i < sheet->piece_count; i++)
        count += is_line(&sheet->pieces[i], x, y, width, height);
    return count;
}

/* A6 on its side, 148 x 105 mm, two of them in the middle of upright A4 with 11 mm
 * between: x from 31 mm, y from 38 and from 154 mm. */
static void test_two_small_cards_share_a_sheet(void **state)
{
    (void)state;
    struct page *page = card_page(0);
    struct card_ask ask = ask_for(PAPER_A6);
    add_table(page->root, "on-the-back", 3, 3);
    page->root->first->next->table = table_new(arena, "windows", "A wide table");
    struct table *table = page->root->first->next->table;
    for (int i = 0; i < 5; i++)
        table_column(table, COLUMN_NUMBER, "pull", "N");
    table_row(table);
    for (int i = 0; i < 5; i++)
        table->cells[i].shown = "100.25";
    struct print *print = card_of(page, &ask).sheet;
    assert_int_equal(print->sheet_count, 2);
    const struct sheet *front = &print->sheets[0], *back = &print->sheets[1];
    assert_true(fabs(front->width - 210 * MM) < 1e-6 && front->height > front->width);
    assert_false(print->flip_short_edge);
    assert_int_equal(count_text(front, "100.25"), 10);
    assert_int_equal(count_text(back, "Lock off."), 2);
    assert_int_equal(count_lines(front, 31 * MM, 30 * MM, 0, 5 * MM), 1);
    assert_int_equal(count_lines(front, 23 * MM, 38 * MM, 5 * MM, 0), 1);
    assert_int_equal(count_lines(front, 182 * MM, 259 * MM, 5 * MM, 0), 1);
    assert_int_equal(count_lines(front, 31 * MM, 146 * MM, 0, 5 * MM), 2); /* shared */
    assert_int_equal(count_lines(back, 31 * MM, 30 * MM, 0, 5 * MM), 0);
}

/* One A5 or half letter to a sheet, in the middle; turned about the edge that lets the
 * back stand upright. */
static void test_one_large_card_to_a_sheet(void **state)
{
    (void)state;
    for (int size = PAPER_A5; size <= PAPER_HALF_LETTER; size++)
        for (int booklet = PAPER_A5; booklet <= PAPER_HALF_LETTER; booklet++) {
            struct card_ask ask = ask_for((enum paper_size)size);
            ask.booklet = (enum paper_size)booklet;
            struct card_prints prints = card_of(card_page(0), &ask);
            const struct sheet *front = &prints.sheet->sheets[0];
            const struct sheet *card = &prints.card->sheets[0];
            size_t sheet = 0, at = 0;
            const struct piece *there = find_text(prints.sheet, "Pull windows", &sheet);
            const struct piece *here = find_text(prints.card, "Pull windows", &at);
            double left = (front->width - card->width) / 2;
            assert_true(fabs(there->x - here->x - left) < 1e-6);
            assert_int_equal(count_text(front, "Invented example"), 1);
            assert_int_equal(prints.sheet->flip_short_edge, front->width > front->height);
            assert_true(fabs(fmax(front->width, front->height) -
                             (booklet == PAPER_A5 ? 297 * MM : 792)) < 1e-6);
        }
}

/* The hole is marked in the middle of both sides, and nothing else comes near it. */
static void test_a_hole_keeps_its_room(void **state)
{
    (void)state;
    const double holes[] = {12 * MM, 20 * MM};
    for (int i = 0; i < 4; i++) {
        struct card_ask ask = ask_for(i % 2 ? PAPER_A6 : PAPER_A5);
        ask.hole = holes[i / 2];
        struct print *card = card_of(card_page(4), &ask).card;
        assert_int_equal(card->sheet_count, 2);
        for (size_t s = 0; s < 2; s++) {
            const struct sheet *sheet = &card->sheets[s];
            double x = sheet->width / 2;
            int marks = 0;
            for (size_t k = 0; k < sheet->piece_count; k++) {
                const struct piece *piece = &sheet->pieces[k];
                double right = piece->x + piece->width;
                double near_x = fmax(fmin(piece->x, right), fmin(x, fmax(piece->x, right)));
                double cap = fonts_cap_height(fonts) * piece->size;
                double top = piece->y - (is_text(piece) ? cap : 0);
                double low = piece->y + (is_text(piece) ? 0 : piece->height);
                double near_y = fmax(fmin(top, low), fmin(ask.hole, fmax(top, low)));
                double off = hypot(near_x - x, near_y - ask.hole);
                marks += off < 0.01 && piece->kind == PIECE_LINE;
                if (off > 3.1 * MM && off < 9.9 * MM && piece->y > 0.5)
                    fail_msg("side %zu: something %g mm off the hole", s, off / MM);
            }
            assert_int_equal(marks, 2);
        }
    }
    struct print *plain = card_on(PAPER_A5, 4).card;
    assert_true(plain->sheets[0].pieces[1].y < 22 * MM); /* without one, no room is kept */
}

static const struct CMUnitTest tests[] = {
    TEST(test_the_figures_are_largest),
    TEST(test_the_window_can_be_read),
    TEST(test_the_line_of_states),
    TEST(test_the_pulls_of_the_states),
    TEST(test_a_card_that_cannot_be_read_is_a_fault),
    TEST(test_the_card_stays_off_its_edge),
    TEST(test_too_much_for_a_card_is_a_fault),
    TEST(test_two_small_cards_share_a_sheet),
    TEST(test_one_large_card_to_a_sheet),
    TEST(test_a_hole_keeps_its_room),
    TEST(test_sides_that_fit_different_ways_are_a_fault),
};

GROUP(card, NULL, NULL)
