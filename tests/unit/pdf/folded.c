/* The sheets for folding: the order against published ones, the places of the pages
 * against what poppler's pdftotext finds on the paper. */
#include "layout/fold.h"
#include "pdf_sample.h"

#include <math.h>

/* The published orders for saddle stitching; "a,b" are the two pages of a side. */
static void test_fold_order(void **state)
{
    (void)state;
    static const struct {
        size_t pages;
        const char *order;
    } known[] = {{4, "4,1 2,3 "}, {8, "8,1 2,7 6,3 4,5 "}, {12, "12,1 2,11 10,3 4,9 8,5 6,7 "},
                 {1, "4,1 2,3 "}, {5, "8,1 2,7 6,3 4,5 "}, {0, ""}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        struct buffer order = {0};
        buffer_text(&order, "");
        struct fold fold = {.pages = known[i].pages};
        for (size_t side = 0; side < 2 * fold_sheets(&fold); side++) {
            struct fold_side pages = fold_side(&fold, side);
            buffer_print(&order, "%zu,%zu ", pages.left, pages.right);
        }
        assert_string_equal(order.bytes, known[i].order);
        buffer_free(&order);
    }
}

static void build_numbered(size_t count, double width, double height)
{
    for (size_t i = 0; i < count; i++) {
        add_sheet(width, height, "");
        add_text(40, 50, arena_format(arena, "page-%zu", i + 1));
    }
}

/* The pages on a side from left to right, with the x of their words in points. */
static char *words_of(const char *file, int page)
{
    return run(arena_format(
        arena,
        "pdftotext -bbox -f %d -l %d %s - | "
        "sed -n 's/.*xMin=\"\\([0-9]*\\).*>\\(Notes\\|page-.*\\)<.word>/\\2@\\1/p' | "
        "sort -t@ -k2n | tr '\\n' ' '",
        page, page, file));
}

/* Five pages: blanks fill up to eight. A4 on its side is 297 mm wide, its fold at
 * 420.945 pt; the left page begins 420.945 - 419.528 = 1.417 pt from the edge. */
static void test_folded_sheets_hold_the_right_pages(void **state)
{
    (void)state;
    build_numbered(5, A5_WIDTH, A5_HEIGHT);
    paint_folded("fold.pdf");
    const char *info = run("pdfinfo fold.pdf");
    assert_has(info, "Pages:           4\n");
    assert_has(info, "Page size:       841.89 x 595.276 pts (A4)");
    assert_string_equal(words_of("fold.pdf", 1), "Notes@41 page-1@460 ");
    assert_has(run("pdftotext -f 1 -l 1 fold.pdf -"), "both sides, flip on the short edge");
    assert_string_equal(words_of("fold.pdf", 2), "page-2@41 Notes@460 ");
    assert_string_equal(words_of("fold.pdf", 3), "Notes@41 page-3@460 ");
    assert_string_equal(words_of("fold.pdf", 4), "page-4@41 page-5@460 ");
    assert_string_equal(run("qpdf --check fold.pdf >/dev/null; pdftotext fold.pdf /dev/null"),
                        "");
}

/* What a reader finds who leafs through gatherings that lie on each other: of each the right
 * halves of the fronts and the left halves of the backs from the outer sheet to the inner,
 * then back outward the right halves of the backs and the left halves of the fronts. */
static size_t leaf_through(const struct fold *fold, size_t *pages)
{
    size_t count = 0;
    for (size_t g = 0, first = 0; g < fold_gatherings(fold); g++) {
        size_t sheets = fold_sheets_of(fold, g);
        for (size_t i = 0; i < sheets; i++) {
            pages[count++] = fold_side(fold, 2 * (first + i)).right;
            pages[count++] = fold_side(fold, 2 * (first + i) + 1).left;
        }
        for (size_t i = sheets; i-- > 0;) {
            pages[count++] = fold_side(fold, 2 * (first + i) + 1).right;
            pages[count++] = fold_side(fold, 2 * (first + i)).left;
        }
        first += sheets;
    }
    return count;
}

static void assert_leafs_in_order(const struct fold *fold)
{
    size_t pages[400], count = leaf_through(fold, pages);
    assert_int_equal(count, 4 * fold_sheets(fold));
    for (size_t i = 0; i < count; i++)
        assert_int_equal(pages[i], i + 1);
}

/* Every page once and in its place, blanks behind the last page only; gatherings as few as
 * may be, none larger than asked for, none two sheets larger than another. */
static void test_gatherings_of_every_size(void **state)
{
    (void)state;
    for (size_t pages = 1; pages <= 200; pages++)
        for (size_t most = 0; most <= 14; most++) {
            struct fold fold = {pages, most};
            size_t sheets = fold_sheets(&fold), count = fold_gatherings(&fold), all = 0;
            assert_true(4 * sheets >= pages && 4 * sheets < pages + 4);
            assert_leafs_in_order(&fold);
            for (size_t g = 0; g < count; g++) {
                all += fold_sheets_of(&fold, g);
                assert_true(most == 0 || fold_sheets_of(&fold, g) <= most);
                assert_true(fold_sheets_of(&fold, 0) - fold_sheets_of(&fold, g) <= 1);
            }
            assert_int_equal(all, sheets);
            assert_true(most == 0 ? count == 1 : (count - 1) * most < sheets);
        }
}

/* Sheets from the outside in: 0, 1, 2 around them, front and back alike, and from 0 again in
 * the next gathering. */
static void test_sheets_around(void **state)
{
    (void)state;
    static const size_t around[] = {0, 0, 1, 1, 2, 2, 0, 0, 1, 1, 0, 0, 1, 1};
    struct fold fold = {27, 3};
    assert_int_equal(fold_gatherings(&fold), 3);
    for (size_t i = 0; i < 14; i++) {
        struct fold_side side = fold_side(&fold, i);
        assert_int_equal(side.around, around[i]);
        assert_int_equal(side.gathering, i < 6 ? 0 : i < 10 ? 1 : 2);
        assert_int_equal(fold_is_marked(&fold, i), i == 0 || i == 6 || i == 10);
    }
    struct fold ten = {40, 0};
    assert_int_equal(fold_side(&ten, 19).around, 9);
    assert_false(fold_is_marked(&ten, 0));
}

static void test_gatherings_in_words(void **state)
{
    (void)state;
    static const struct {
        struct fold fold;
        const char *words;
    } known[] = {{{4, 10}, "1 sheet"},
                 {{40, 10}, "10 sheets"},
                 {{77, 10}, "20 sheets in 2 gatherings of 10"},
                 {{88, 10}, "22 sheets in 3 gatherings of 8, 7 and 7"},
                 {{92, 0}, "23 sheets"}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        assert_string_equal(fold_words(arena, &known[i].fold), known[i].words);
}

/* With paper of 10 pt, to be seen: pages of the inner sheet come 10 pt nearer to the
 * fold than they do without. */
static void test_inner_pages_move_toward_the_fold(void **state)
{
    (void)state;
    build_numbered(8, A5_WIDTH, A5_HEIGHT);
    print.paper = 10;
    paint_folded("fold.pdf");
    assert_string_equal(words_of("fold.pdf", 1), "page-8@41 page-1@460 ");
    assert_string_equal(words_of("fold.pdf", 2), "page-2@41 page-7@460 ");
    assert_string_equal(words_of("fold.pdf", 3), "page-6@51 page-3@450 ");
    assert_string_equal(words_of("fold.pdf", 4), "page-4@51 page-5@450 ");
}

/* Nine pages in gatherings of two sheets at most: of two and of one. The second begins with
 * page 9 and blanks; at the middle of A4, 420.9 pt, stand the numbers, the second lower. */
static void test_gatherings_on_paper(void **state)
{
    (void)state;
    build_numbered(9, A5_WIDTH, A5_HEIGHT);
    print.paper = 10;
    print.gathering = 2;
    paint_folded("fold.pdf");
    assert_has(run("pdfinfo fold.pdf"), "Pages:           6\n");
    assert_string_equal(words_of("fold.pdf", 1), "page-8@41 page-1@460 ");
    assert_string_equal(words_of("fold.pdf", 3), "page-6@51 page-3@450 ");
    assert_string_equal(words_of("fold.pdf", 4), "page-4@51 page-5@450 ");
    assert_string_equal(words_of("fold.pdf", 5), "Notes@41 page-9@460 ");
    assert_string_equal(words_of("fold.pdf", 6), "Notes@41 Notes@460 ");
    double y[2];
    for (int i = 0; i < 2; i++) {
        const char *box =
            run(arena_format(arena, "pdftotext -bbox -f %d -l %d fold.pdf - | grep '>of<'",
                             4 * i + 1, 4 * i + 1));
        double x = 0;
        assert_int_equal(sscanf(box, " <word xMin=\"%lf\" yMin=\"%lf\"", &x, &y[i]), 2);
        assert_true(x > 421 && x < 421 + 36);
    }
    assert_true(y[1] > y[0] + 20);
    assert_string_equal(run("for i in 2 3 4 6; do pdftotext -f $i -l $i fold.pdf - | "
                            "grep -w of; done; true"),
                        "");
}

static void test_half_letter_folds_from_letter(void **state)
{
    (void)state;
    build_numbered(4, 5.5 * 72, 8.5 * 72);
    paint_folded("fold.pdf");
    assert_has(run("pdfinfo fold.pdf"), "Page size:       792 x 612 pts (letter)");
    assert_string_equal(words_of("fold.pdf", 1), "page-4@40 page-1@436 ");
}

/* A page on its side is turned: text that runs right on it runs up the sheet. */
static void test_a_page_on_its_side_is_turned(void **state)
{
    (void)state;
    build_numbered(4, A5_WIDTH, A5_HEIGHT);
    print.sheets[1].width = A5_HEIGHT;
    print.sheets[1].height = A5_WIDTH;
    paint_folded("fold.pdf");
    assert_has(run("pdfinfo fold.pdf"), "Page size:       841.89 x 595.276 pts (A4)");
    const char *box = run("pdftotext -bbox -f 2 -l 2 fold.pdf - | grep page-2");
    double x_low = 0, y_low = 0, x_high = 0, y_high = 0;
    assert_int_equal(sscanf(box, " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"",
                            &x_low, &y_low, &x_high, &y_high),
                     4);
    assert_true(y_high - y_low > x_high - x_low);
    /* 40 pt from its left, now the foot; its baseline 50 pt from its head, now left. */
    assert_true(fabs(y_high - (A5_HEIGHT - 40)) < 0.1);
    assert_true(x_low < 1.417 + 50 && x_high > 1.417 + 50);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_fold_order),
    cmocka_unit_test(test_gatherings_of_every_size),
    cmocka_unit_test(test_sheets_around),
    cmocka_unit_test(test_gatherings_in_words),
    cmocka_unit_test_setup(test_gatherings_on_paper, new_print),
    cmocka_unit_test_setup(test_inner_pages_move_toward_the_fold, new_print),
    cmocka_unit_test_setup(test_folded_sheets_hold_the_right_pages, new_print),
    cmocka_unit_test_setup(test_half_letter_folds_from_letter, new_print),
    cmocka_unit_test_setup(test_a_page_on_its_side_is_turned, new_print),
};

GROUP(folded, setup, teardown)
