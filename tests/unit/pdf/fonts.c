/* The font of a PDF, read by FreeType: every glyph taken has the outline and the advance
 * that it has in the whole font, and no other glyph is there. */
#include "pdf/subset.h"
#include "test.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

static const char font_file[] = "/usr/share/fonts/truetype/dejavu/DejaVuSansCondensed.ttf";

/* Letters, one put together, one whose parts are put together, a space, a sign. */
static const FT_ULong points[] = {'A', 'g', 0xC5, 0x1FA, ' ', 0x25B2, 0x149};
enum { POINTS = sizeof points / sizeof points[0] };

struct fixture {
    struct arena *arena;
    FT_Library library;
    FT_Face whole, made;
    unsigned numbers[POINTS];
    struct buffer font;
};

static struct font_bytes read_font(struct arena *arena)
{
    FILE *file = fopen(font_file, "rb");
    assert_non_null(file);
    unsigned char *bytes = arena_get(arena, 1 << 20);
    size_t length = fread(bytes, 1, 1 << 20, file);
    assert_true(length > 500000);
    fclose(file);
    return (struct font_bytes){bytes, length};
}

static void open_face(struct fixture *f, const void *bytes, size_t length, FT_Face *face)
{
    assert_int_equal(FT_New_Memory_Face(f->library, bytes, (FT_Long)length, 0, face), 0);
}

static int set_up(void **state)
{
    struct fixture *f = calloc(1, sizeof *f);
    f->arena = arena_new();
    assert_int_equal(FT_Init_FreeType(&f->library), 0);
    struct font_bytes font = read_font(f->arena);
    open_face(f, font.bytes, font.length, &f->whole);
    struct subset *subset = subset_new(f->arena, font);
    for (size_t i = 0; i < POINTS; i++)
        f->numbers[i] = subset_take(subset, FT_Get_Char_Index(f->whole, points[i]));
    subset_write(subset, &f->font);
    open_face(f, f->font.bytes, f->font.length, &f->made);
    *state = f;
    return 0;
}

static int tear_down(void **state)
{
    struct fixture *f = *state;
    FT_Done_FreeType(f->library); /* and its faces */
    buffer_free(&f->font);
    arena_free(f->arena);
    free(f);
    return 0;
}

/* Flat, with the parts put in place. */
static FT_Outline outline(FT_Face face, unsigned glyph)
{
    assert_int_equal(FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE), 0);
    return face->glyph->outline;
}

static void outlines_and_advances_are_the_fonts_own(void **state)
{
    struct fixture *f = *state;
    for (size_t i = 0; i < POINTS; i++) {
        FT_Outline a = outline(f->whole, FT_Get_Char_Index(f->whole, points[i]));
        FT_Outline b = outline(f->made, f->numbers[i]);
        assert_int_equal(a.n_points, b.n_points);
        assert_int_equal(a.n_contours, b.n_contours);
        if (a.n_points)
            assert_memory_equal(a.points, b.points, (size_t)a.n_points * sizeof *a.points);
        assert_int_equal(f->whole->glyph->metrics.horiAdvance,
                         f->made->glyph->metrics.horiAdvance);
        assert_int_equal(f->whole->glyph->metrics.horiBearingX,
                         f->made->glyph->metrics.horiBearingX);
    }
    assert_true(outline(f->made, f->numbers[3]).n_points > 20);
}

static void no_more_glyphs_than_the_signs_need(void **state)
{
    struct fixture *f = *state;
    /* glyph 0, seven signs, and the parts of three of them: ring, acute, apostrophe, n */
    assert_in_range(f->made->num_glyphs, POINTS + 1, POINTS + 7);
    assert_true(f->font.length < 12000);
}

static void a_glyph_taken_twice_is_there_once(void **state)
{
    struct fixture *f = *state;
    struct subset *subset = subset_new(f->arena, read_font(f->arena));
    assert_int_equal(subset_take(subset, 36), 1);
    assert_int_equal(subset_take(subset, 40), 2);
    assert_int_equal(subset_take(subset, 36), 1);
    assert_int_equal(subset_take(subset, 0), 0);
}

/* The sum of all words of the file is a constant of the specification. */
static void the_checksum_is_right(void **state)
{
    struct fixture *f = *state;
    uint32_t sum = 0;
    assert_int_equal(f->font.length % 4, 0);
    for (size_t i = 0; i < f->font.length; i++)
        sum += (uint32_t)(unsigned char)f->font.bytes[i] << (24 - 8 * (i % 4));
    assert_int_equal(sum, 0xB1B0AFBAu);
}

static void take_from_half(struct fixture *f)
{
    struct buffer out = {0};
    struct font_bytes font = read_font(f->arena);
    font.length /= 2;
    struct subset *subset = subset_new(f->arena, font);
    subset_take(subset, 36);
    subset_write(subset, &out);
}

static void half_a_font_ends_the_program(void **state)
{
    int status;
    pid_t child = fork();
    if (child == 0) {
        fclose(stderr);
        take_from_half(*state);
        _exit(0);
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 3);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(outlines_and_advances_are_the_fonts_own),
    cmocka_unit_test(no_more_glyphs_than_the_signs_need),
    cmocka_unit_test(a_glyph_taken_twice_is_there_once),
    cmocka_unit_test(the_checksum_is_right),
    cmocka_unit_test(half_a_font_ends_the_program),
};

GROUP(fonts, set_up, tear_down)
