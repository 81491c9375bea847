/* The card: what can be read from where it hangs, what stays off its edge, and the sheet
 * that it is cut from. */
#include "doc/canvas.h"
#include "page_sample.h"

#include <math.h>

static const struct state_cell key[] = {{"▼ clearly low", ""},
                                        {"▽ low or in doubt", "below 15"},
                                        {"● good", "15 to 22 N"},
                                        {"△ high or in doubt", "above 22"},
                                        {"▲ clearly high", ""}};
static const struct card_window window = {
    .head = "● good, at 500–1200 r/min",
    .good = "15.05 – 21.95 N",
    .good_from = 301,
    .good_to = 439,
    .marks = {{288, "14.40", "low pull"}, {368, "18.40", "aim"}, {447, "22.35", "high pull"}},
    .mark_count = 3,
    .never = "38.35 N"};

/* Capitals of 15 and 20 minutes of arc at 700 mm: 3.05 and 4.07 mm. */
static struct card_ask ask_for(enum paper_size size)
{
    return (struct card_ask){.size = size,
                             .booklet = PAPER_A5,
                             .least = 3.05 * MM,
                             .least_good = 4.07 * MM,
                             .distance = "700 mm",
                             .distance_mm = 700,
                             .at = {.file = "settings", .line = 3, .column = 4},
                             .window = &window,
                             .key = key,
                             .key_count = 5};
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

static const struct piece *piece_of(const struct print *print, const char *text)
{
    size_t sheet = 0;
    const struct piece *piece = find_text(print, text, &sheet);
    return sheet == 0 ? piece : NULL;
}

/* Height of the capitals of a text on the front, mm. */
static double capitals_mm(const struct print *print, const char *text)
{
    return piece_of(print, text)->size * fonts_cap_height(fonts) / MM;
}

/* The good pulls, then what stands at them, are larger than all else; other bands are at most
 * half as large. */
static void test_the_good_pulls_are_largest(void **state)
{
    (void)state;
    for (int size = PAPER_A6; size <= PAPER_HALF_LETTER; size++) {
        struct print *print = card_on((enum paper_size)size, 0).card;
        double good = piece_of(print, window.good)->size, least = size == PAPER_A6 ? 8 : 10;
        assert_int_equal(print->sheet_count, 2);
        for (size_t k = 0; k < print->sheets[0].piece_count; k++) {
            const struct piece *piece = &print->sheets[0].pieces[k];
            if (is_text(piece) && piece->tag >= 0 && kind_of(print, piece) == TAG_CELL)
                assert_true(piece->size <= good / 2 + 0.01);
            if (is_text(piece) && strcmp(piece->text, window.good) != 0)
                assert_true(piece->size < good);
            if (is_text(piece) && strncmp(piece->text, "of spindle", 10) == 0)
                assert_true(piece->size >= least);
        }
        size_t back = 1;
        assert_non_null(find_text(print, "CAUTION", &back));
    }
    assert_int_equal(diags_count(diags), 0);
}

/* 15 minutes of arc at least, 20 for the good pulls: NUREG-0700, 11.4.1.5-1. */
static void test_the_window_can_be_read(void **state)
{
    (void)state;
    for (int size = PAPER_A6; size <= PAPER_HALF_LETTER; size++) {
        struct card_prints prints = card_on((enum paper_size)size, 0);
        double least = INFINITY;
        const char *texts[] = {window.head, "14.40", "aim", "22.35", "never above", "38.35 N"};
        for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
            least = fmin(least, capitals_mm(prints.card, texts[i]));
        assert_true(fabs(prints.height / MM - least) < 1e-9);
        assert_true(least >= 3.05);
        assert_true(capitals_mm(prints.card, window.good) >= 4.07);
    }
}

/* From further away nothing becomes smaller; the other bands give way first. */
static void test_a_larger_distance_never_gives_smaller_numbers(void **state)
{
    (void)state;
    double before = 0;
    bool bands = false, without = false;
    for (double distance = 300; distance <= 1500; distance += 50) {
        struct card_ask ask = ask_for(PAPER_A6);
        ask.distance_mm = distance;
        ask.least *= distance / 700, ask.least_good *= distance / 700;
        struct print *print = card_of(card_page(8), &ask).card;
        if (diags_count(diags))
            break;
        size_t sheet = 0;
        double good = capitals_mm(print, window.good);
        assert_true(good >= before);
        before = good;
        if (find_text(print, "Numbers of every kind", &sheet)) {
            assert_false(without);
            bands = true;
        } else
            without = true;
    }
    assert_true(bands && without && diags_count(diags) == 1);
}

/* The open bar reaches from the low to the high limit, the filled one over the good pulls. */
static void test_the_scale_is_true(void **state)
{
    (void)state;
    struct print *print = card_on(PAPER_A5, 0).card;
    const struct sheet *front = &print->sheets[0];
    const struct piece *low = piece_of(print, "14.40"), *high = piece_of(print, "22.35");
    double from = low->x + low->width / 2, to = high->x + high->width / 2;
    double step = (to - from) / (447 - 288);
    const struct piece *aim = piece_of(print, "18.40");
    assert_true(fabs(aim->x + aim->width / 2 - from - step * (368 - 288)) < 0.1);
    int filled = 0, open = 0;
    for (size_t i = 0; i < front->piece_count; i++) {
        const struct piece *piece = &front->pieces[i];
        if (piece->kind != PIECE_BOX || piece->y > low->y || piece->y < low->y - 40)
            continue;
        filled += piece->line == 0 && fabs(piece->x - from - step * (301 - 288)) < 0.1 &&
                  fabs(piece->width - step * (439 - 301)) < 0.1;
        open += piece->line > 0 && fabs(piece->x - from) < 0.1 &&
                fabs(piece->width - (to - from)) < 0.1;
    }
    assert_int_equal(filled, 1);
    assert_int_equal(open, 1);
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

/* The states stand on every card: in one line, on a narrow one in two, with their pulls below.
 */
static void test_the_states_are_always_there(void **state)
{
    (void)state;
    static const char *const parted[] = {"▼ clearly", "▽ low or", "● good", "△ high or",
                                         "▲ clearly"};
    for (int size = PAPER_A6; size <= PAPER_A5; size++)
        for (int extra = 0; extra < 60; extra += 20) {
            struct print *print = card_on((enum paper_size)size, extra).card;
            size_t sheet = 0;
            bool whole = find_text(print, key[1].words, &sheet);
            double x = 0;
            for (size_t i = 0; i < 5; i++) {
                const struct piece *piece = piece_of(print, whole ? key[i].words : parted[i]);
                assert_non_null(piece);
                assert_true(piece->x > x && piece->size >= (size == PAPER_A6 ? 8 : 10));
                assert_below(print, piece, key[i].pulls);
                x = piece->x + piece->width;
            }
        }
    assert_int_equal(diags_count(diags), 0);
}

/* Where no card can be read, the fault says what would do; and that does do. */
static void test_a_card_that_cannot_be_read_is_a_fault(void **state)
{
    (void)state;
    struct card_ask ask = ask_for(PAPER_A6);
    ask.least = 6 * MM, ask.least_good = 8 * MM;
    ask.distance = "1380 mm", ask.distance_mm = 1380;
    card_of(card_page(60), &ask);
    assert_int_equal(diags_count(diags), 1);
    assert_said("settings:3:4: the window on a card of A6 would be only ");
    assert_said("too small to be read from 1380 mm; choose a card of A5 or half letter, or "
                "hang it at ");
    int distance = atoi(strstr(said(), "hang it at ") + strlen("hang it at "));
    assert_true(distance > 500 && distance < 1380);
    ask.least *= distance / ask.distance_mm;
    ask.least_good *= distance / ask.distance_mm;
    assert_true(card_of(card_page(60), &ask).height >= ask.least);
    ask = ask_for(PAPER_A5);
    ask.least = 6 * MM, ask.least_good = 8 * MM;
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
    add_table(page->root, "windows", 9, 3);
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
    ask.window = NULL;
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
    ask.window = NULL;
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
    TEST(test_the_good_pulls_are_largest),
    TEST(test_the_window_can_be_read),
    TEST(test_a_larger_distance_never_gives_smaller_numbers),
    TEST(test_the_scale_is_true),
    TEST(test_the_states_are_always_there),
    TEST(test_a_card_that_cannot_be_read_is_a_fault),
    TEST(test_the_card_stays_off_its_edge),
    TEST(test_too_much_for_a_card_is_a_fault),
    TEST(test_two_small_cards_share_a_sheet),
    TEST(test_one_large_card_to_a_sheet),
    TEST(test_a_hole_keeps_its_room),
    TEST(test_sides_that_fit_different_ways_are_a_fault),
};

GROUP(card, NULL, NULL)
