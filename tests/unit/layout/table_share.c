/* How a table's width is shared, against the best of all ways, tried one after the other. */
#include "layout/flow.h"
#include "layout/table.h"
#include "page_sample.h"

#include <math.h>

enum { COLUMNS = 3, ROWS = 7, GRID = 40 };

static const struct type_scale type = {.table_text = 1,
                                       .table_head = 1,
                                       .table_words_least = 7,
                                       .table_row_pad = 0,
                                       .table_most = 9,
                                       .table_least = 9};
static struct flow flow;

static void begin(void)
{
    flow = (struct flow){.arena = arena, .fonts = fonts, .diags = diags, .type = &type};
    flow.print = arena_get(arena, sizeof *flow.print);
    static const struct layout layout = {.width = 300, .height = 2000};
    flow_begin(&flow, &layout);
}

/* The same numbers everywhere, from a seed. */
static unsigned seed;

static unsigned draw(unsigned most)
{
    seed = seed * 1103515245u + 12345u;
    return (seed >> 16) % most;
}

static const char *some_words(void)
{
    static const char *const all[] = {"cord",      "drum", "headstock", "a",       "of",
                                      "breakaway", "18.2", "lock",      "spindle", "the"};
    const char *text = all[draw(10)];
    for (unsigned more = draw(3) ? draw(4) : draw(14); more; more--)
        text = arena_format(arena, "%s %s", text, all[draw(10)]);
    return text;
}

static const struct table *made_table(void)
{
    static const char *const heads[] = {"what", "how it was found", "remark"};
    struct table *table = table_new(arena, "made", "Made up");
    for (size_t i = 0; i < COLUMNS; i++)
        table_column(table, COLUMN_TEXT, heads[i], NULL);
    for (size_t row = 0; row < ROWS; row++) {
        struct cell *cell = table_row(table);
        for (size_t i = 0; i < COLUMNS; i++)
            cell[i].shown = some_words();
    }
    return table;
}

static double lines_of(const char *text, const struct text_style *style, double width)
{
    lines_read_plain(&flow, text, style, -1);
    phrase_break(&flow.phrase, width + 1e-6, &flow.lines);
    return (double)flow.lines.count;
}

/* Lines of all rows, the heads with them, at these widths. */
static double total(const struct table_plan *plan, const double *widths)
{
    const struct table *table = plan->table;
    struct text_style bold = table_head_style(plan);
    double sum = 0;
    for (size_t row = 0; row <= ROWS; row++) {
        double most = 0;
        for (size_t i = 0; i < COLUMNS; i++) {
            struct text_style style = row ? table_cell_style(plan, row - 1, i) : bold;
            const char *text =
                row ? table_cell(table, row - 1, i)->shown : table->columns[i].quantity;
            most = fmax(most, lines_of(text, &style, widths[i]));
        }
        sum += most;
    }
    return sum;
}

/* The least of all ways on a grid. */
static double best_of_all(const struct table_plan *plan, double room)
{
    double least = INFINITY, widths[COLUMNS];
    for (int a = 0; a <= GRID; a++)
        for (int b = 0; a + b <= GRID; b++) {
            const double shares[] = {a, b, GRID - a - b};
            for (size_t i = 0; i < COLUMNS; i++)
                widths[i] = plan->columns[i].least + room * shares[i] / GRID;
            least = fmin(least, total(plan, widths));
        }
    return least;
}

static double even(const struct table_plan *plan, double room)
{
    double widths[COLUMNS];
    for (size_t i = 0; i < COLUMNS; i++)
        widths[i] = plan->columns[i].least + room / COLUMNS;
    return total(plan, widths);
}

static void test_few_lines_as_by_trying_all_ways(void **state)
{
    (void)state;
    double ours = 0, best = 0, evenly = 0;
    int cases = 0;
    begin();
    for (seed = 1; cases < 25; seed++) {
        struct table_plan plan;
        const struct table *table = made_table();
        double widths[COLUMNS], room = 300;
        if (!table_plan_make(&flow, &plan, table, 9, (struct area){.width = 300}, 2000))
            continue;
        for (size_t i = 0; i < COLUMNS; i++) {
            widths[i] = plan.columns[i].width;
            room -= plan.columns[i].least + 2 * plan.margin;
            assert_true(widths[i] >= plan.columns[i].least - 1e-6);
            assert_true(widths[i] <= plan.columns[i].most + 1e-6);
        }
        assert_true(plan.width <= 300 + 1e-6);
        double least = best_of_all(&plan, room), got = total(&plan, widths);
        if (got > least * 1.15 + 1)
            fail_msg("seed %u: %g lines, and %g would do", seed, got, least);
        ours += got;
        best += least;
        evenly += even(&plan, room);
        cases++;
    }
    if (ours > best * 1.03)
        fail_msg("%g lines in all, and %g would do", ours, best);
    assert_true(evenly > ours * 1.1); /* it is worth the trouble */
    flow_end(&flow);
}

/* What has room for all that it wants is as wide as that, and no wider. */
static void test_a_table_with_room_does_not_wrap(void **state)
{
    (void)state;
    struct table_plan plan;
    begin();
    seed = 5;
    assert_true(
        table_plan_make(&flow, &plan, made_table(), 9, (struct area){.width = 5000}, 2000));
    for (size_t i = 0; i < COLUMNS; i++)
        assert_true(fabs(plan.columns[i].width - plan.columns[i].most) < 1e-6);
    assert_false(
        table_plan_make(&flow, &plan, made_table(), 9, (struct area){.width = 60}, 2000));
    flow_end(&flow);
}

/* "▲ clearly high" may be parted behind "clearly", not behind the shape. */
static void test_a_shape_stays_with_its_word(void **state)
{
    (void)state;
    struct text_style style = {.size = 9, .leading = 11};
    begin();
    lines_read_plain(&flow, "▲ clearly high", &style, -1);
    assert_int_equal(flow.phrase.count, 2);
    assert_int_equal(flow.phrase.bits[0].length, strlen("▲ clearly"));
    lines_read_plain(&flow, "▲ or ▲ high", &style, -1);
    assert_int_equal(flow.phrase.count, 2);
    lines_read_plain(&flow, "½ inch", &style, -1);
    assert_int_equal(flow.phrase.count, 2);
    flow_end(&flow);
}

static const struct CMUnitTest tests[] = {
    TEST(test_few_lines_as_by_trying_all_ways),
    TEST(test_a_table_with_room_does_not_wrap),
    TEST(test_a_shape_stays_with_its_word),
};

GROUP(table_share, NULL, NULL)
