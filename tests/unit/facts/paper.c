/* The rows of tests/data/checks_paper.tsv: sizes of paper and the order of pages in a
 * fold. */
#include "layout/paper.h"
#include "checks_table.h"
#include "layout/fold.h"

static enum paper_size size_of(const struct asked *a)
{
    return strcmp(a->word[0], "A6") == 0 ? PAPER_A6 : PAPER_A5;
}

static double paper_width(const struct asked *a)
{
    return paper_of(size_of(a))->width;
}

static double paper_height(const struct asked *a)
{
    return paper_of(size_of(a))->height;
}

static double paper_width_mm(const struct asked *a)
{
    return paper_width(a) / 72 * 25.4;
}

static double paper_height_mm(const struct asked *a)
{
    return paper_height(a) / 72 * 25.4;
}

static double stock_width(const struct asked *a)
{
    return stock_of(size_of(a))->width;
}

static double stock_height(const struct asked *a)
{
    return stock_of(size_of(a))->height;
}

static double stock_width_mm(const struct asked *a)
{
    return stock_width(a) / 72 * 25.4;
}

static double stock_height_mm(const struct asked *a)
{
    return stock_height(a) / 72 * 25.4;
}

/* A6 is 148 mm high. */
static double point_mm(const struct asked *a)
{
    (void)a;
    return 148 / paper_of(PAPER_A6)->height;
}

static void fold(const struct asked *a, char *out)
{
    size_t pages = (size_t)a->number[0], used = 0;
    struct fold fold = {.pages = pages};
    for (size_t side = 0; side < 2 * fold_sheets(&fold); side++) {
        struct fold_side both = fold_side(&fold, side);
        used += (size_t)snprintf(out + used, TEXT - used, "%s%zu,%zu", side ? " " : "",
                                 both.left, both.right);
    }
}

static const struct function functions[] = {
    {"paper_width", paper_width, NULL},
    {"paper_height", paper_height, NULL},
    {"paper_width_mm", paper_width_mm, NULL},
    {"paper_height_mm", paper_height_mm, NULL},
    {"stock_width", stock_width, NULL},
    {"stock_height", stock_height, NULL},
    {"stock_width_mm", stock_width_mm, NULL},
    {"stock_height_mm", stock_height_mm, NULL},
    {"point_mm", point_mm, NULL},
    {"fold", NULL, fold},
};

static void test_checks(void **state)
{
    (void)state;
    run_checks("checks_paper.tsv", functions, sizeof functions / sizeof functions[0], 19);
}

static const struct CMUnitTest tests[] = {cmocka_unit_test(test_checks)};

GROUP(paper, NULL, NULL)
