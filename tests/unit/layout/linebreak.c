/* Where lines end, worked out by hand; and what a line never divides. */
#include "layout/text.h"
#include "page_sample.h"

#include <math.h>

static void check(const struct word *list, size_t count, double measure, const size_t *wanted,
                  size_t lines)
{
    struct lines search = {0};
    size_t starts[32];
    assert_int_equal(break_lines(&search, list, count, measure, starts), lines);
    for (size_t i = 0; i < lines; i++)
        assert_int_equal(starts[i], wanted[i]);
    lines_free(&search);
}

/* First fit would leave 0 + 4 of slack, squared 16; this has 3 and 1, squared 10. */
static void test_even_lines_rather_than_full_ones(void **state)
{
    (void)state;
    static const struct word list[] = {
        {3, 0, false}, {2, 1, false}, {2, 1, false}, {5, 1, false}};
    static const size_t starts[] = {0, 1, 3};
    check(list, 4, 6, starts, 3);
}

static void test_a_line_takes_what_fits_exactly(void **state)
{
    (void)state;
    static const struct word list[] = {{0.1, 0, false}, {0.1, 0.1, false}, {0.1, 0.1, false}};
    static const size_t one[] = {0};
    check(list, 3, 0.1 + 0.1 + 0.1 + 0.1 + 0.1, one, 1);
    check(list, 0, 10, NULL, 0);
}

/* A full first line costs nothing, but would leave a scrap for the last. */
static void test_no_scrap_on_the_last_line(void **state)
{
    (void)state;
    static const struct word list[] = {{12, 0, false}, {7, 1, false}, {2, 1, false}};
    static const size_t starts[] = {0, 1};
    check(list, 3, 20, starts, 2);
    /* a line end that is meant stays, short as the line may be */
    static const struct word meant[] = {{12, 0, false}, {7, 1, false}, {2, 1, true}};
    static const size_t meant_starts[] = {0, 2};
    check(meant, 3, 20, meant_starts, 2);
}

/* A full line of 20 and one of 5 cost 0.6 (1 - 0.25 / 0.34)^2 = 0.042; 17 and 8 cost
 * 0.15^2 = 0.0225. */
static void test_a_fair_last_line(void **state)
{
    (void)state;
    static const struct word list[] = {
        {8, 0, false}, {8, 1, false}, {2, 1, false}, {2, 1, false}, {2, 1, false}};
    static const size_t starts[] = {0, 2};
    check(list, 5, 20, starts, 2);
    /* from a longer word the first line would lose too much */
    static const struct word longer[] = {
        {7, 0, false}, {4, 1, false}, {7, 1, false}, {2, 1, false}, {2, 1, false}};
    static const size_t longer_starts[] = {0, 3};
    check(longer, 5, 20, longer_starts, 2);
}

/* 6 + 6 and 5 are the most even lines, but the last word is not left alone: 6, 12. */
static void test_no_lone_word_on_the_last_line(void **state)
{
    (void)state;
    static const struct word list[] = {{6, 0, false}, {5, 1, false}, {6, 1, false}};
    static const size_t starts[] = {0, 1};
    check(list, 3, 12, starts, 2);
    /* nor a short line of one word that is an end in the text */
    static const struct word meant[] = {
        {6, 0, false}, {5, 1, false}, {6, 1, false}, {4, 1, true}, {4, 1, false}};
    static const size_t meant_starts[] = {0, 1, 3};
    check(meant, 5, 12, meant_starts, 3);
    /* but where two do not fit on a line, one is */
    static const struct word wide[] = {{6, 0, false}, {5, 1, false}, {8, 1, false}};
    static const size_t wide_starts[] = {0, 2};
    check(wide, 3, 12, wide_starts, 2);
}

static void test_a_word_too_wide_stands_alone(void **state)
{
    (void)state;
    static const struct word list[] = {{2, 0, false}, {50, 1, false}, {2, 1, false}};
    static const size_t starts[] = {0, 1, 2};
    check(list, 3, 10, starts, 3);
}

/* Breaks a text and gives its lines, joined by "|". */
static const char *broken_in(enum face face, const char *text, double measure)
{
    struct phrase phrase = {.fonts = fonts};
    struct lines lines = {0};
    struct buffer out = {0};
    phrase_begin(&phrase, &(struct text_style){.size = 10});
    phrase_add(&phrase, text, (struct pen){.face = face, .link = -1, .tag = -1});
    phrase_break(&phrase, measure, &lines);
    for (size_t i = 0; i < lines.count; i++) {
        assert_true(phrase_width(&phrase, lines.starts[i], lines.starts[i + 1]) <=
                    measure + 1e-6);
        buffer_text(&out, i ? "|" : "");
        for (size_t k = lines.starts[i]; k < lines.starts[i + 1]; k++) {
            if (k > lines.starts[i] && phrase.bits[k].join == JOIN_BLANK)
                buffer_text(&out, " ");
            buffer_add(&out, phrase.bits[k].text, phrase.bits[k].length);
        }
    }
    const char *kept = arena_text(arena, out.bytes ? out.bytes : "");
    buffer_free(&out);
    phrase_free(&phrase);
    lines_free(&lines);
    return kept;
}

static const char *broken(const char *text, double measure)
{
    return broken_in(FACE_REGULAR, text, measure);
}

static double width(const char *text)
{
    return fonts_width(fonts, FACE_REGULAR, 10, text) + 0.01;
}

static void test_a_number_keeps_its_unit(void **state)
{
    (void)state;
    assert_string_equal(broken("pull of 31.8\u00a0N now", width("pull of 31.8\u00a0")),
                        "pull of|31.8\u00a0N now");
    assert_string_equal(broken("pull of 31.8 N now", width("pull of 31.8 ")),
                        "pull of|31.8 N now");
    assert_string_equal(broken("pull of 31.8 or so", width("pull of 31.8")),
                        "pull of 31.8|or so");
    assert_string_equal(broken("drum 50 mm, cord", width("drum 50")), "drum|50 mm,|cord");
    assert_string_equal(broken("limit 0.65 N·m of drag", width("limit 0.65 N")),
                        "limit|0.65 N·m|of drag");
    assert_string_equal(broken("now at 800 r/min", width("now at 800")), "now at|800 r/min");
}

static void test_a_word_keeps_its_number(void **state)
{
    (void)state;
    assert_string_equal(broken("hanging gauge, no. 1 here", width("hanging gauge, no.")),
                        "hanging gauge,|no. 1 here");
    assert_string_equal(broken("as here (source 7) so", width("as here (source")),
                        "as here|(source 7) so");
    assert_string_equal(broken("there is no 7 in it", width("there is no")),
                        "there is no|7 in it");
}

static void test_hyphens_and_dashes(void **state)
{
    (void)state;
    assert_string_equal(broken("a saddle-stitch", width("a saddle-")), "a saddle-|stitch");
    assert_string_equal(broken("so\u2014then", width("so\u2014th")), "so\u2014|then");
    assert_string_equal(broken("at 10-20 and", width("at 10-20")), "at 10-20|and");
    assert_string_equal(broken("type --lines here", width("type --li")), "type|--lines|here");
}

/* What is typed has no line end at a hyphen, an option has none anywhere, and a short piece
 * not even at its blanks. Drawn at 0.9 of the size: 0.9 x 10 x 0.602 = 5.42 a sign. */
static void test_what_is_typed_stays_whole(void **state)
{
    (void)state;
    assert_string_equal(broken("with --lock-added here", width("with --lock-add")),
                        "with|--lock-added|here");
    assert_string_equal(broken_in(FACE_MONO, "slack-drag", 10 * 5.42), "slack-drag");
    assert_string_equal(broken_in(FACE_MONO, "slack-drag", 8 * 5.42), "slack-dr|ag");
    assert_string_equal(broken_in(FACE_MONO, "torque: starting", 17 * 5.42),
                        "torque: starting");
    assert_string_equal(broken_in(FACE_MONO, "the number has no unit behind it", 20 * 5.42),
                        "the number has no|unit behind it");
}

/* Cut at the measure, between signs and not between their bytes. */
static void test_overlong_words_are_cut(void **state)
{
    (void)state;
    assert_string_equal(broken("°°°°°°°", width("°°°")), "°°°|°°°|°");
    assert_string_equal(broken("xxxxx", width("x")), "x|x|x|x|x");
    assert_string_equal(broken("", 100), "");
    assert_string_equal(broken("  a   b ", 100), "a b");
}

enum { MOST_WORDS = 12 };

/* The fewest lines, by every way to divide the words. */
static size_t fewest(const struct word *list, size_t count, double measure)
{
    size_t lines[MOST_WORDS + 1] = {0};
    for (size_t end = 1; end <= count; end++) {
        double width = list[end - 1].width;
        lines[end] = lines[end - 1] + 1;
        for (size_t first = end - 1; first > 0 && !list[first].breaks; first--) {
            width += list[first].blank + list[first - 1].width;
            if (width <= measure && lines[first - 1] + 1 < lines[end])
                lines[end] = lines[first - 1] + 1;
        }
    }
    return lines[count];
}

static void test_lines_that_suffice(void **state)
{
    (void)state;
    unsigned seed = 7;
    for (int made = 0; made < 2000; made++) {
        struct word list[MOST_WORDS];
        size_t starts[MOST_WORDS], count = (size_t)(made % (MOST_WORDS + 1));
        for (size_t i = 0; i < count; i++) {
            seed = seed * 1103515245 + 12345;
            list[i] = (struct word){seed >> 16 & 15, seed >> 20 & 1, (seed >> 21 & 15) == 0};
        }
        double measure = 15 + made % 30;
        size_t least = fewest(list, count, measure);
        struct lines search = {0};
        size_t broken_in = break_lines(&search, list, count, measure, starts);
        lines_free(&search);
        assert_true(broken_in >= least);
        assert_true(lines_suffice(list, count, measure, least));
        assert_true(lines_suffice(list, count, measure, broken_in));
        assert_true(least == 0 || !lines_suffice(list, count, measure, least - 1));
    }
}

static const struct CMUnitTest tests[] = {
    TEST(test_even_lines_rather_than_full_ones),
    TEST(test_a_line_takes_what_fits_exactly),
    TEST(test_no_scrap_on_the_last_line),
    TEST(test_a_fair_last_line),
    TEST(test_no_lone_word_on_the_last_line),
    TEST(test_a_word_too_wide_stands_alone),
    TEST(test_a_number_keeps_its_unit),
    TEST(test_a_word_keeps_its_number),
    TEST(test_hyphens_and_dashes),
    TEST(test_what_is_typed_stays_whole),
    TEST(test_overlong_words_are_cut),
    TEST(test_lines_that_suffice),
};

GROUP(linebreak, NULL, NULL)
