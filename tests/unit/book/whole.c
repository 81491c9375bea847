/* The whole book as it is, from content/: properties that every sheet must have, whatever
 * stands on it. Runs from the top of the tree. */
#include "base/utf8.h"
#include "book/book.h"
#include "doc/canvas.h"
#include "page_sample.h"

#include <ftw.h>
#include <math.h>
#include <stdlib.h>

static struct book book;
static char folder[] = "/tmp/spindlebook-whole-XXXXXX";

static int read_book(void **state)
{
    (void)state;
    struct book_paths paths = {.out = mkdtemp(folder),
                               .content = "content",
                               .pages = "content",
                               .templates = "templates",
                               .fonts = FONT_FOLDER};
    assert_non_null(paths.out);
    book_make(&book, &paths);
    diags_print(book.diags, stderr);
    return diags_count(book.diags) == 0 ? 0 : -1;
}

static int remove_one(const char *path, const struct stat *status, int kind, struct FTW *place)
{
    (void)status;
    (void)kind;
    (void)place;
    return remove(path);
}

static int free_book(void **state)
{
    (void)state;
    book_free(&book);
    return nftw(folder, remove_one, 16, FTW_DEPTH | FTW_PHYS);
}

/* Every print, and how far its texts keep from the edges. */
static const struct print *print_at(size_t index, double *margin)
{
    const struct print *prints[] = {book.booklet, book.card_print, book.card_sheet,
                                    book.trial,   book.aids,       book.forms};
    static const double margins[] = {5, 6, 5, 1, 10, 7};
    if (index >= sizeof prints / sizeof prints[0])
        return NULL;
    *margin = margins[index] * MM;
    return prints[index];
}

typedef void look(const struct sheet *sheet, const struct piece *piece, double margin);

static void look_at_texts(look *at)
{
    const struct print *print;
    double margin;
    size_t texts = 0;
    for (size_t i = 0; (print = print_at(i, &margin)); i++)
        for (size_t s = 0; s < print->sheet_count; s++)
            for (size_t k = 0; k < print->sheets[s].piece_count; k++)
                if (is_text(&print->sheets[s].pieces[k])) {
                    at(&print->sheets[s], &print->sheets[s].pieces[k], margin);
                    texts++;
                }
    assert_true(texts > 2000);
}

static double top_of(const struct piece *piece)
{
    return piece->y - fonts_cap_height(book.fonts) * piece->size;
}

static void assert_within(const struct sheet *sheet, const struct piece *piece, double margin)
{
    if (piece->x < margin || piece->x + piece->width > sheet->width - margin ||
        top_of(piece) < margin || piece->y > sheet->height - margin)
        fail_msg("sheet %s: \"%s\" at (%g, %g) lies beyond the margin of %g", sheet->label,
                 piece->text, piece->x, piece->y, margin);
}

static void test_no_text_leaves_its_margin(void **state)
{
    (void)state;
    look_at_texts(assert_within);
}

static void assert_shapes(const struct sheet *sheet, const struct piece *piece, double margin)
{
    (void)margin;
    for (const char *text = piece->text; *text;) {
        uint32_t point = utf8_next(&text);
        if (!fonts_has(book.fonts, piece->face, point))
            fail_msg("sheet %s: \"%s\" has the sign U+%04X, for which there is no shape",
                     sheet->label, piece->text, (unsigned)point);
    }
}

static void test_every_sign_has_a_shape(void **state)
{
    (void)state;
    look_at_texts(assert_shapes);
}

/* A printer or copier that knows only black and white makes dots of grey. */
static void test_every_mark_is_black_or_white(void **state)
{
    (void)state;
    const struct print *print;
    double margin;
    for (size_t i = 0; (print = print_at(i, &margin)); i++)
        for (size_t s = 0; s < print->sheet_count; s++)
            for (size_t k = 0; k < print->sheets[s].piece_count; k++) {
                const struct piece *piece = &print->sheets[s].pieces[k];
                if (piece->grey != 0 && piece->grey != 1)
                    fail_msg("sheet %s: a mark at (%g, %g) is grey", print->sheets[s].label,
                             piece->x, piece->y);
            }
}

static bool on_each_other(const struct piece *a, const struct piece *b)
{
    return a->x + 0.01 < b->x + b->width && b->x + 0.01 < a->x + a->width && top_of(a) < b->y &&
           top_of(b) < a->y;
}

static void assert_alone(const struct sheet *sheet, const struct piece *piece, double margin)
{
    (void)margin;
    for (const struct piece *other = sheet->pieces; other < piece; other++)
        if (is_text(other) && on_each_other(piece, other))
            fail_msg("sheet %s: \"%s\" lies on \"%s\"", sheet->label, piece->text, other->text);
}

static void test_no_text_lies_on_another(void **state)
{
    (void)state;
    look_at_texts(assert_alone);
}

static bool is_running_text(enum tag_kind kind)
{
    return kind == TAG_PARAGRAPH || kind == TAG_NOTE || kind == TAG_CAPTION;
}

/* The paragraph, note or caption that a tag is part of, or -1. */
static int paragraph_of(const struct print *print, int tag)
{
    while (tag >= 0 && !is_running_text(print->tags[tag].kind))
        tag = print->tags[tag].parent;
    return tag;
}

/* A line of a paragraph: its texts joined. */
struct line {
    int paragraph;
    size_t sheet;
    double x, y, width;
    const char *text;
};

static struct line *lines_of(const struct print *print, size_t *count)
{
    struct line *lines = NULL;
    for (size_t s = 0; s < print->sheet_count; s++)
        for (size_t k = 0; k < print->sheets[s].piece_count; k++) {
            const struct piece *piece = &print->sheets[s].pieces[k];
            int paragraph = is_text(piece) ? paragraph_of(print, piece->tag) : -1;
            if (paragraph < 0)
                continue;
            struct line *last = *count ? &lines[*count - 1] : NULL;
            if (last && last->paragraph == paragraph && last->sheet == s &&
                last->y == piece->y) {
                last->text = arena_format(book.arena, "%s%s", last->text, piece->text);
                last->width = piece->x + piece->width - last->x;
            } else {
                *ARENA_PUSH(book.arena, lines, *count) =
                    (struct line){paragraph, s, piece->x, piece->y, piece->width, piece->text};
            }
        }
    return lines;
}

static int words_in(const char *text)
{
    int count = 0;
    bool inside = false;
    for (; *text; text++) {
        bool blank = *text == ' ' || (uint8_t)*text == 0xC2; /* no-break space, middle dot */
        count += !blank && !inside;
        inside = !blank;
    }
    return count;
}

/* From the line's left end to the right end of the column. */
static double measure_of(const struct line *line)
{
    return (line->sheet % 2 == 0 ? 148 - 16 : 148 - 13) * MM - line->x;
}

/* One word alone, or few that take less than a fifth of the measure. */
static bool is_scrap(const struct line *line)
{
    return words_in(line->text) < 2 || line->width < 0.2 * measure_of(line);
}

/* Where the words before are long there may be no better way; in the book as it is there is
 * always one. */
enum { MOST_SCRAPS = 2 };

static void test_no_paragraph_ends_with_a_scrap(void **state)
{
    (void)state;
    size_t count = 0, ends = 0, scraps = 0;
    const struct line *lines = lines_of(book.booklet, &count);
    for (size_t i = 1; i < count; i++) {
        bool last = i + 1 == count || lines[i + 1].paragraph != lines[i].paragraph;
        if (!last || lines[i - 1].paragraph != lines[i].paragraph)
            continue;
        ends++;
        scraps += is_scrap(&lines[i]);
        if (scraps > MOST_SCRAPS)
            fail_msg("sheet %zu: the paragraph's last line is \"%s\", after \"%s\"",
                     lines[i].sheet + 1, lines[i].text, lines[i - 1].text);
    }
    assert_true(ends > 300);
}

/* "pull of 18" / "N or so". */
static void test_no_line_parts_a_number_from_its_unit(void **state)
{
    (void)state;
    static const char *const units[] = {"mm",    "µm",     "N",  "kg", "g",
                                        "lbf",   "lb",     "°C", "%",  "N·m",
                                        "r/min", "lbf·in", "in", "ft", "minutes"};
    size_t count = 0;
    const struct line *lines = lines_of(book.booklet, &count);
    for (size_t i = 1; i < count; i++) {
        size_t length = strlen(lines[i - 1].text);
        bool number = length && strchr("0123456789", lines[i - 1].text[length - 1]);
        size_t word = strcspn(lines[i].text, " .,;:)");
        for (size_t u = 0; u < sizeof units / sizeof units[0]; u++)
            if (number && lines[i].paragraph == lines[i - 1].paragraph &&
                strlen(units[u]) == word && strncmp(units[u], lines[i].text, word) == 0)
                fail_msg("sheet %zu: \"%s\" / \"%s\"", lines[i].sheet + 1, lines[i - 1].text,
                         lines[i].text);
    }
    assert_true(count > 500);
}

/* The texts of a sheet that are read aloud: the foot is not. */
static bool is_read(const struct piece *piece)
{
    return is_text(piece) && piece->tag >= 0 && piece->text[0];
}

static bool is_heading(const struct print *print, const struct piece *piece)
{
    for (int tag = piece->tag; tag >= 0; tag = print->tags[tag].parent)
        if (print->tags[tag].kind == TAG_HEADING)
            return true;
    return false;
}

static const struct piece *lowest_of(const struct sheet *sheet)
{
    const struct piece *lowest = NULL;
    for (size_t k = 0; k < sheet->piece_count; k++)
        if (is_read(&sheet->pieces[k]) && (!lowest || sheet->pieces[k].y > lowest->y))
            lowest = &sheet->pieces[k];
    return lowest;
}

static void test_no_heading_ends_a_sheet(void **state)
{
    (void)state;
    for (size_t s = 1; s < book.booklet->sheet_count; s++) {
        const struct piece *lowest = lowest_of(&book.booklet->sheets[s]);
        if (lowest && is_heading(book.booklet, lowest))
            fail_msg("sheet %zu ends with the heading \"%s\"", s + 1, lowest->text);
    }
}

/* What ends with a colon leads to something, and is not the last of its sheet. */
static void test_no_sheet_ends_with_a_colon(void **state)
{
    (void)state;
    for (size_t s = 0; s < book.booklet->sheet_count; s++) {
        const struct piece *lowest = lowest_of(&book.booklet->sheets[s]);
        size_t length = lowest ? strlen(lowest->text) : 0;
        if (length && lowest->text[length - 1] == ':')
            fail_msg("sheet %zu ends with \"%s\"", s + 1, lowest->text);
    }
}

/* What is read keeps to its column: 13 mm from the fold, 16 mm from the thumb, above the
 * foot; on a turned sheet 16 mm from both sides. */
static void test_the_booklet_keeps_its_columns(void **state)
{
    (void)state;
    size_t texts = 0;
    for (size_t s = 0; s < book.booklet->sheet_count; s++) {
        const struct sheet *sheet = &book.booklet->sheets[s];
        bool turned = sheet->width > sheet->height, right_hand = s % 2 == 0;
        double left = (turned || !right_hand ? 16 : 13) * MM;
        double right = sheet->width - (turned || right_hand ? 16 : 13) * MM;
        for (size_t k = 0; k < sheet->piece_count; k++) {
            const struct piece *piece = &sheet->pieces[k];
            if (!is_read(piece))
                continue;
            texts++;
            if (piece->x < left - 0.01 || piece->x + piece->width > right + 0.01 ||
                top_of(piece) < 12.9 * MM || piece->y > sheet->height - 18 * MM)
                fail_msg("sheet %zu: \"%s\" at (%g, %g) leaves its column", s + 1, piece->text,
                         piece->x, piece->y);
        }
    }
    assert_true(texts > 2000);
}

/* Of a paragraph that goes over to the next sheet two lines at least stand on each. */
static void test_no_line_of_a_paragraph_stands_alone(void **state)
{
    (void)state;
    size_t count = 0, divided = 0;
    const struct line *lines = lines_of(book.booklet, &count);
    for (size_t i = 1; i < count; i++) {
        if (lines[i].paragraph != lines[i - 1].paragraph ||
            lines[i].sheet == lines[i - 1].sheet)
            continue;
        bool above = i >= 2 && lines[i - 2].paragraph == lines[i].paragraph &&
                     lines[i - 2].sheet == lines[i - 1].sheet;
        bool below = i + 1 < count && lines[i + 1].paragraph == lines[i].paragraph &&
                     lines[i + 1].sheet == lines[i].sheet;
        divided++;
        if (!above || !below)
            fail_msg("sheet %zu: \"%s\" / \"%s\"", lines[i].sheet + 1, lines[i - 1].text,
                     lines[i].text);
    }
    assert_true(divided < 100);
}

static bool is_in(const struct print *print, int tag, enum tag_kind kind)
{
    while (tag >= 0 && print->tags[tag].kind != kind)
        tag = print->tags[tag].parent;
    return tag >= 0;
}

/* What is read through is 9.5 pt; tables have 8 at least, notes 8, the foot 7.5, figures 7. */
static void test_no_type_is_too_small(void **state)
{
    (void)state;
    const struct print *print = book.booklet;
    for (size_t s = 0; s < print->sheet_count; s++)
        for (size_t k = 0; k < print->sheets[s].piece_count; k++) {
            const struct piece *piece = &print->sheets[s].pieces[k];
            if (!is_text(piece))
                continue;
            bool figure = is_in(print, piece->tag, TAG_FIGURE);
            bool typed = piece->face == FACE_MONO;
            double least = figure || typed ? 7 : piece->tag < 0 ? 7.5 : 8;
            if (piece->size < least)
                fail_msg("sheet %zu: \"%s\" is set in %g pt", s + 1, piece->text, piece->size);
        }
}

static bool is_notes_page(const struct print *print, const struct sheet *sheet)
{
    return sheet + 1 < print->sheets + print->sheet_count &&
           strcmp(lowest_of(sheet)->text, "Notes") == 0; /* to write on */
}

/* How much of a sheet's column is used. */
static double fill_of(const struct sheet *sheet)
{
    double top = 13 * MM, bottom = sheet->height - 18 * MM, last = top;
    for (size_t k = 0; k < sheet->piece_count; k++)
        if (is_read(&sheet->pieces[k]))
            last = fmax(last, sheet->pieces[k].y);
    return (last - top) / (bottom - top);
}

/* No sheet has a few lines alone, and together they are well used. The last one ends where
 * the book does. */
static void test_no_sheet_is_bare(void **state)
{
    (void)state;
    const struct print *print = book.booklet;
    double all = 0;
    for (size_t s = 0; s < print->sheet_count; s++) {
        const struct sheet *sheet = &print->sheets[s];
        double fill = is_notes_page(print, sheet) ? 1 : fill_of(sheet);
        all += fill;
        if (fill < 0.2 && s + 1 < print->sheet_count)
            fail_msg("sheet %zu is filled to %.0f %% only, with \"%s\"", s + 1, 100 * fill,
                     lowest_of(sheet)->text);
    }
    assert_true(all > 0.85 * (double)print->sheet_count);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_no_text_leaves_its_margin),
    cmocka_unit_test(test_every_sign_has_a_shape),
    cmocka_unit_test(test_no_text_lies_on_another),
    cmocka_unit_test(test_every_mark_is_black_or_white),
    cmocka_unit_test(test_no_paragraph_ends_with_a_scrap),
    cmocka_unit_test(test_no_line_parts_a_number_from_its_unit),
    cmocka_unit_test(test_no_heading_ends_a_sheet),
    cmocka_unit_test(test_no_line_of_a_paragraph_stands_alone),
    cmocka_unit_test(test_no_sheet_ends_with_a_colon),
    cmocka_unit_test(test_the_booklet_keeps_its_columns),
    cmocka_unit_test(test_no_type_is_too_small),
    cmocka_unit_test(test_no_sheet_is_bare),
};

GROUP(whole, read_book, free_book)
