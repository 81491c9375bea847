/* The sheets for folding: the order against published ones, the places of the pages
 * against what poppler's pdftotext finds on the paper. */
#include "paint/pdf_fold.h"
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
        for (size_t side = 0; side < fold_side_count(known[i].pages); side++) {
            struct fold_side pages = fold_side(known[i].pages, side);
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
    paint(pdf_paint_folded, "fold.pdf");
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

/* Sheets from the outside in: 0, 1, 2 thicknesses, front and back alike. */
static void test_fold_shifts(void **state)
{
    (void)state;
    static const double shifts[] = {0, 0, 0.1, 0.1, 0.2, 0.2, 0.3, 0.3};
    for (size_t side = 0; side < 8; side++)
        assert_true(fabs(fold_shift(side, 0.1) - shifts[side]) < 1e-12);
    assert_true(fold_shift(23, 0) == 0);
    /* ten sheets of 80 g/m2, some 0.1 mm thick: 0.9 mm at the innermost */
    assert_true(fabs(fold_shift(fold_side_count(40) - 1, 0.1) - 0.9) < 1e-12);
}

/* With paper of 10 pt, to be seen: pages of the inner sheet come 10 pt nearer to the
 * fold than they do without. */
static void test_inner_pages_move_toward_the_fold(void **state)
{
    (void)state;
    build_numbered(8, A5_WIDTH, A5_HEIGHT);
    print.paper = 10;
    paint(pdf_paint_folded, "fold.pdf");
    assert_string_equal(words_of("fold.pdf", 1), "page-8@41 page-1@460 ");
    assert_string_equal(words_of("fold.pdf", 2), "page-2@41 page-7@460 ");
    assert_string_equal(words_of("fold.pdf", 3), "page-6@51 page-3@450 ");
    assert_string_equal(words_of("fold.pdf", 4), "page-4@51 page-5@450 ");
}

static void test_half_letter_folds_from_letter(void **state)
{
    (void)state;
    build_numbered(4, 5.5 * 72, 8.5 * 72);
    paint(pdf_paint_folded, "fold.pdf");
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
    paint(pdf_paint_folded, "fold.pdf");
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fold_order),
        cmocka_unit_test(test_fold_shifts),
        cmocka_unit_test_setup(test_inner_pages_move_toward_the_fold, new_print),
        cmocka_unit_test_setup(test_folded_sheets_hold_the_right_pages, new_print),
        cmocka_unit_test_setup(test_half_letter_folds_from_letter, new_print),
        cmocka_unit_test_setup(test_a_page_on_its_side_is_turned, new_print),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
