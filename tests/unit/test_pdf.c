/* The PDF painter, judged by programs from outside: qpdf reads the file's form,
 * poppler's pdfinfo and pdftotext read what a viewer and a listener get. */
#include "paint/pdf.h"
#include "paint/pdf_fold.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

static const double A5_WIDTH = 148 * 72 / 25.4, A5_HEIGHT = 210 * 72 / 25.4;
static const char SIGNS[] = "½ µ × ° − – ≤ ≥ ▲ ● ▼ N·m";

static struct arena *arena;
static struct fonts *fonts;
static char folder[] = "/tmp/test_pdf.XXXXXX";

/* A print under construction: pieces go on the last sheet, under the last tag. */
static struct print print;
static int tag;

static struct sheet *add_sheet(double width, double height, const char *label)
{
    struct sheet *sheet = ARENA_PUSH(arena, print.sheets, print.sheet_count);
    *sheet = (struct sheet){.width = width, .height = height, .label = label};
    return sheet;
}

static struct sheet *last_sheet(void)
{
    return &print.sheets[print.sheet_count - 1];
}

static int add_tag(enum tag_kind kind, int parent)
{
    *ARENA_PUSH(arena, print.tags, print.tag_count) =
        (struct tag){.kind = kind, .parent = parent};
    return tag = (int)print.tag_count - 1;
}

static struct piece *add_piece(struct piece piece)
{
    struct sheet *sheet = last_sheet();
    struct piece *added = ARENA_PUSH(arena, sheet->pieces, sheet->piece_count);
    *added = piece;
    return added;
}

static struct piece *add_text(double x, double y, const char *text)
{
    return add_piece((struct piece){.kind = PIECE_TEXT,
                                    .tag = tag,
                                    .x = x,
                                    .y = y,
                                    .size = 10,
                                    .height = 10,
                                    .width = fonts_width(fonts, FACE_REGULAR, 10, text),
                                    .text = text});
}

static void add_decoration(enum piece_kind kind, double x, double y, double width,
                           double height)
{
    add_piece((struct piece){.kind = kind,
                             .tag = -1,
                             .x = x,
                             .y = y,
                             .width = width,
                             .height = height,
                             .line = kind == PIECE_LINE ? 0.5 : 0,
                             .filled = kind == PIECE_BOX,
                             .grey = kind == PIECE_BOX ? 0.85 : 0});
}

static void add_area(struct hot_area area)
{
    struct sheet *sheet = last_sheet();
    *ARENA_PUSH(arena, sheet->areas, sheet->area_count) = area;
}

static void add_outline(const char *title, int level, size_t sheet, double y)
{
    *ARENA_PUSH(arena, print.outline, print.outline_count) =
        (struct outline_entry){.title = title, .level = level, .sheet = sheet, .y = y};
}

static int setup(void **state)
{
    (void)state;
    arena = arena_new();
    fonts = fonts_load(arena, diags_new(arena), "/usr/share/fonts/truetype/dejavu");
    return fonts && mkdtemp(folder) ? 0 : -1;
}

static int teardown(void **state)
{
    (void)state;
    char command[64];
    snprintf(command, sizeof command, "rm -r %s", folder);
    fonts_free(fonts);
    arena_free(arena);
    return system(command);
}

static int new_print(void **state)
{
    (void)state;
    print = (struct print){.title = "Root ½ µ – a spindle (its preload)"};
    tag = -1;
    unsetenv("SOURCE_DATE_EPOCH");
    return 0;
}

/* Runs a command in the folder of the test; its output and its complaints, both. */
static char *run(const char *command)
{
    char whole[512];
    snprintf(whole, sizeof whole, "cd %s && { %s; } 2>&1", folder, command);
    FILE *pipe = popen(whole, "r");
    assert_non_null(pipe);
    struct buffer out = {0};
    char part[4096];
    for (size_t length; (length = fread(part, 1, sizeof part, pipe)) > 0;)
        buffer_add(&out, part, length);
    int status = pclose(pipe);
    char *text = arena_text(arena, out.bytes ? out.bytes : "");
    buffer_free(&out);
    if (status != 0)
        fail_msg("\"%s\" ended with %d: %s", command, status, text);
    return text;
}

static void keep(const char *name, const struct buffer *pdf)
{
    char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(pdf->bytes, 1, pdf->length, file), pdf->length);
    assert_int_equal(fclose(file), 0);
}

typedef void painter(struct buffer *out, const struct print *print, const struct fonts *fonts);

static void paint(painter *with, const char *name)
{
    struct buffer pdf = {0};
    with(&pdf, &print, fonts);
    keep(name, &pdf);
    buffer_free(&pdf);
}

static void assert_has(const char *text, const char *part)
{
    if (!strstr(text, part))
        fail_msg("\"%s\" is not in:\n%s", part, text);
}

static void assert_has_not(const char *text, const char *part)
{
    if (strstr(text, part))
        fail_msg("\"%s\" is in:\n%s", part, text);
}

/* The parts have to stand in the text, each behind the one before. */
static void assert_in_order(const char *text, const char *const *parts)
{
    const char *at = text;
    for (; *parts; parts++) {
        const char *found = strstr(at, *parts);
        if (!found)
            fail_msg("\"%s\" is missing, or out of order, in:\n%s", *parts, text);
        at = found + strlen(*parts);
    }
}

/* A cover, contents in roman numbers, then a page with a list and a table, and a
 * paragraph that goes on overleaf. */
static void build_booklet(void)
{
    int document = add_tag(TAG_DOCUMENT, -1);
    add_sheet(A5_WIDTH, A5_HEIGHT, "");
    add_tag(TAG_HEADING, document);
    print.tags[tag].level = 1;
    add_text(50, 80, "Spindle booklet")->face = FACE_BOLD;
    add_sheet(A5_WIDTH, A5_HEIGHT, "i");
    int item = add_tag(TAG_CONTENTS_ITEM, add_tag(TAG_CONTENTS, document));
    add_tag(TAG_LINK, item);
    add_text(50, 60, "Measuring the drag");
    add_area((struct hot_area){
        .x = 50, .y = 50, .width = 200, .height = 12, .to_sheet = 3, .to_y = 100});
    add_sheet(A5_WIDTH, A5_HEIGHT, "ii");
    add_tag(TAG_PARAGRAPH, document);
    add_text(50, 60, SIGNS);
    add_text(50, 75, "two pieces of");
    add_text(120, 75, "one line");
}

static void build_table(int document)
{
    int table = add_tag(TAG_TABLE, document);
    add_tag(TAG_CAPTION, table);
    add_text(50, 130, "Windows of pull");
    int row = add_tag(TAG_ROW, table);
    add_tag(TAG_HEAD_CELL, row);
    add_text(50, 150, "band");
    add_tag(TAG_HEAD_CELL, row);
    print.tags[tag].row_head = true;
    add_text(150, 150, "low / N");
    add_decoration(PIECE_LINE, 50, 154, 200, 0);
    row = add_tag(TAG_ROW, table);
    add_tag(TAG_CELL, row);
    add_decoration(PIECE_BOX, 50, 156, 200, 14);
    add_text(50, 166, "slow");
    add_tag(TAG_CELL, row);
    add_text(150, 166, "7.25");
}

static void build_text_pages(int document)
{
    add_sheet(A5_WIDTH, A5_HEIGHT, "1");
    build_table(document);
    int paragraph = add_tag(TAG_PARAGRAPH, document);
    add_text(50, 200, "See ");
    add_tag(TAG_LINK, paragraph);
    add_text(69, 200, "the maker")->face = FACE_OBLIQUE;
    add_area((struct hot_area){
        .x = 69, .y = 190, .width = 50, .height = 12, .uri = "https://example.org/a(b)?q=½"});
    tag = paragraph;
    add_text(125, 200, "before you");
    add_sheet(A5_WIDTH, A5_HEIGHT, "2");
    add_text(50, 60, "turn the nut.");
    tag = -1;
    add_text(200, 570, "2");
    add_outline("Measuring ½", 1, 3, 100);
    add_outline("Windows", 2, 3, 120);
    add_outline("Deeper", 3, 3, 130);
    add_outline("The nut", 2, 4, 50);
    add_outline("Last", 1, 4, 70);
}

static void paint_booklet(void)
{
    build_booklet();
    build_text_pages(0);
    paint(pdf_paint, "book.pdf");
}

static void test_no_reader_complains(void **state)
{
    (void)state;
    paint_booklet();
    assert_has(run("qpdf --check book.pdf"), "No syntax or stream encoding errors found");
    assert_string_equal(run("qpdf --check book.pdf >/dev/null"), "");
    assert_string_equal(run("pdfinfo -struct-text book.pdf >/dev/null"), "");
    assert_string_equal(run("pdftotext book.pdf - >/dev/null"), "");
    assert_string_equal(run("pdffonts book.pdf >/dev/null"), "");
    assert_string_equal(run("pdftoppm -r 20 -gray book.pdf >/dev/null"), "");
}

/* ISO 216: A5 is 148 mm by 210 mm; 1 pt is 1/72 in. */
static void test_pages_and_their_size(void **state)
{
    (void)state;
    paint_booklet();
    const char *info = run("pdfinfo book.pdf");
    assert_has(info, "Pages:           5\n");
    assert_has(info, "Page size:       419.528 x 595.276 pts\n");
    assert_has(info, "Title:           Root ½ µ – a spindle (its preload)\n");
    assert_has(info, "Tagged:          yes\n");
    assert_has(info, "PDF version:     1.7\n");
    assert_has_not(info, "Date");
}

static void test_a_date_only_when_given(void **state)
{
    (void)state;
    add_sheet(200, 100, "1");
    setenv("SOURCE_DATE_EPOCH", "1700000000", 1); /* date -u -d @1700000000 */
    paint(pdf_paint, "dated.pdf");
    assert_has(run("pdfinfo -isodates dated.pdf"), "CreationDate:    2023-11-14T22:13:20Z\n");
}

static void test_text_comes_back_exactly(void **state)
{
    (void)state;
    paint_booklet();
    const char *text = run("pdftotext -f 3 -l 3 book.pdf -");
    assert_has(text, SIGNS);
    assert_has(text, "two pieces of one line\n");
}

/* Signs that share a glyph must not become each other when copied. */
static void test_signs_that_look_alike(void **state)
{
    (void)state;
    add_sheet(300, 100, "1");
    add_text(10, 40, "5 mm µ (micro) μ (mu) Ω (ohm) Ω (omega)");
    paint(pdf_paint, "alike.pdf");
    assert_string_equal(run("pdftotext alike.pdf - | head -n 1"),
                        "5 mm µ (micro) μ (mu) Ω (ohm) Ω (omega)\n");
}

static void test_fonts_are_embedded_subsets(void **state)
{
    (void)state;
    paint_booklet();
    const char *list =
        run("pdffonts book.pdf | tail -n +3 | awk '{print $1, $3, $4, $5, $6, $7}'");
    assert_has(list, "+DejaVuSansCondensed TrueType Identity-H yes yes yes\n");
    assert_has(list, "+DejaVuSansCondensed-Bold TrueType Identity-H yes yes yes\n");
    assert_has(list, "+DejaVuSansCondensed-Oblique TrueType Identity-H yes yes yes\n");
    print = (struct print){.title = "one face"};
    add_sheet(200, 100, "");
    add_text(10, 40, "plain");
    print.tag_count = 0;
    paint(pdf_paint, "plain.pdf");
    assert_string_equal(run("pdffonts plain.pdf | tail -n +3 | wc -l"), "1\n");
}

static void test_outline_is_nested(void **state)
{
    (void)state;
    paint_booklet();
    const char *outline = run("qpdf --json --json-key=outlines book.pdf | "
                              "grep -E '\"(title|destpageposfrom1|kids)\"' | tr -d ' \\n'");
    assert_string_equal(outline, "\"destpageposfrom1\":4,\"kids\":["
                                 "\"destpageposfrom1\":4,\"kids\":["
                                 "\"destpageposfrom1\":4,\"kids\":[],\"title\":\"Deeper\""
                                 "\"title\":\"Windows\""
                                 "\"destpageposfrom1\":5,\"kids\":[],\"title\":\"Thenut\""
                                 "\"title\":\"Measuring½\""
                                 "\"destpageposfrom1\":5,\"kids\":[],\"title\":\"Last\"");
    assert_has(run("qpdf --qdf book.pdf - | grep -a PageMode"), "/UseOutlines");
}

static void test_labels_roman_then_arabic(void **state)
{
    (void)state;
    paint_booklet();
    assert_string_equal(run("qpdf --json --json-key=pagelabels book.pdf | "
                            "sed -n '/\"pagelabels\"/,$p' | tr -d ' \\n'"),
                        "\"pagelabels\":[{\"index\":0,\"label\":{\"/St\":1}},"
                        "{\"index\":1,\"label\":{\"/S\":\"/r\",\"/St\":1}},"
                        "{\"index\":3,\"label\":{\"/S\":\"/D\",\"/St\":1}}]}");
}

static void test_links_within_and_without(void **state)
{
    (void)state;
    paint_booklet();
    assert_has(run("pdfinfo -url book.pdf"), "https://example.org/a(b)?q=%C2%BD\n");
    const char *form = run("qpdf --qdf --no-original-object-ids book.pdf - | "
                           "grep -a -B60 '/Type /Annot' | tr -s ' \\n' ' '");
    assert_has(form, "/S /GoTo");
    /* The place is 100 pt below the top of a sheet of 595.276 pt. */
    assert_has(form, "/XYZ null 495.276 null");
    assert_has(form, "/Border [ 0 0 0 ]");
    /* x, then the lower and upper edge from below: 595.276 - 62 and - 50. */
    assert_has(form, "/Rect [ 50 533.276 250 545.276 ]");
}

static void test_wishes_to_viewer_and_printer(void **state)
{
    (void)state;
    paint_booklet();
    paint(pdf_paint_folded, "fold.pdf");
    const char *form = run("qpdf --qdf book.pdf - | sed -n '/^%% Orig.* 1 0$/,/^endobj/p'");
    assert_has(form, "/Lang (en)");
    assert_has(form, "/DisplayDocTitle true");
    assert_has(form, "/PrintScaling /None");
    assert_has(form, "/Duplex /DuplexFlipLongEdge");
    form = run("qpdf --qdf fold.pdf - | sed -n '/^%% Orig.* 1 0$/,/^endobj/p'");
    assert_has(form, "/Lang (en)");
    assert_has(form, "/Duplex /DuplexFlipShortEdge");
}

static void test_a_listener_reads_it_in_order(void **state)
{
    (void)state;
    paint_booklet();
    const char *const parts[] = {"Document",
                                 "H1",
                                 "\"Spindle booklet ",
                                 "TOC",
                                 "TOCI",
                                 "Link",
                                 "\"Measuring the drag ",
                                 "P",
                                 "\"½ µ",
                                 "N·m two pieces of one line ",
                                 "Table",
                                 "Caption",
                                 "\"Windows of pull",
                                 "TR",
                                 "TH",
                                 "\"band",
                                 "TH",
                                 "\"low / N",
                                 "TR",
                                 "TD",
                                 "\"slow",
                                 "TD",
                                 "\"7.25",
                                 "P (block)",
                                 "\"See \"",
                                 "Link",
                                 "\"the maker ",
                                 "\"before you ",
                                 "\"turn the nut. ",
                                 NULL};
    assert_in_order(run("pdfinfo -struct-text book.pdf"), parts);
    /* The page number, the rule and the shading are decoration. */
    assert_has_not(run("pdfinfo -struct-text book.pdf"), "\"2\"");
    const char *tree = run("pdfinfo -struct book.pdf");
    assert_has(tree, "/Scope /Column");
    assert_has(tree, "/Scope /Row");
}

static void test_same_print_same_bytes(void **state)
{
    (void)state;
    paint_booklet();
    run("mv book.pdf first.pdf && sleep 1.1");
    paint(pdf_paint, "book.pdf");
    paint(pdf_paint_folded, "fold1.pdf");
    paint(pdf_paint_folded, "fold2.pdf");
    run("cmp book.pdf first.pdf && cmp fold1.pdf fold2.pdf");
}

/* What the program says and how it ends when it is given a broken print. */
static char *refused(void)
{
    char *words = arena_format(arena, "%s/words", folder);
    pid_t child = fork();
    if (child == 0) {
        struct buffer pdf = {0};
        if (!freopen(words, "w", stderr))
            _exit(9);
        pdf_paint(&pdf, &print, fonts);
        _exit(0);
    }
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 3);
    return run("cat words");
}

static void test_broken_prints_are_refused(void **state)
{
    (void)state;
    assert_has(refused(), "no sheets");
    struct sheet *sheet = add_sheet(200, 100, "1");
    struct piece *piece = add_text(10, 20, "x");
    for (double bad = NAN;; bad = INFINITY) {
        piece->x = bad;
        assert_has(refused(), "not finite");
        if (bad == INFINITY)
            break;
    }
    piece->x = 40000;
    assert_has(refused(), "off any paper");
    piece->x = 10;
    piece->text = "a\tb";
    assert_has(refused(), "U+0009");
    piece->text = "x";
    piece->tag = 0;
    assert_has(refused(), "tag");
    piece->tag = -1;
    sheet->width = NAN;
    assert_has(refused(), "size");
    sheet->width = 200;
    add_area((struct hot_area){.width = 1, .height = 1, .to_sheet = 1});
    assert_has(refused(), "leads nowhere");
    sheet->area_count = 0;
    setenv("SOURCE_DATE_EPOCH", "yesterday", 1);
    assert_has(refused(), "SOURCE_DATE_EPOCH is \"yesterday\"");
}

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

/* Words of a page from left to right, with the x of their left edge in points. */
static char *words_of(const char *file, int page)
{
    return run(arena_format(arena,
                            "pdftotext -bbox -f %d -l %d %s - | "
                            "sed -n 's/.*xMin=\"\\([0-9]*\\).*>\\(.*\\)<.word>/\\2@\\1/p' | "
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
    assert_string_equal(words_of("fold.pdf", 2), "page-2@41 Notes@460 ");
    assert_string_equal(words_of("fold.pdf", 3), "Notes@41 page-3@460 ");
    assert_string_equal(words_of("fold.pdf", 4), "page-4@41 page-5@460 ");
    assert_string_equal(run("qpdf --check fold.pdf >/dev/null; pdftotext fold.pdf /dev/null"),
                        "");
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
        cmocka_unit_test_setup(test_no_reader_complains, new_print),
        cmocka_unit_test_setup(test_pages_and_their_size, new_print),
        cmocka_unit_test_setup(test_a_date_only_when_given, new_print),
        cmocka_unit_test_setup(test_text_comes_back_exactly, new_print),
        cmocka_unit_test_setup(test_signs_that_look_alike, new_print),
        cmocka_unit_test_setup(test_fonts_are_embedded_subsets, new_print),
        cmocka_unit_test_setup(test_outline_is_nested, new_print),
        cmocka_unit_test_setup(test_labels_roman_then_arabic, new_print),
        cmocka_unit_test_setup(test_links_within_and_without, new_print),
        cmocka_unit_test_setup(test_wishes_to_viewer_and_printer, new_print),
        cmocka_unit_test_setup(test_a_listener_reads_it_in_order, new_print),
        cmocka_unit_test_setup(test_same_print_same_bytes, new_print),
        cmocka_unit_test_setup(test_broken_prints_are_refused, new_print),
        cmocka_unit_test(test_fold_order),
        cmocka_unit_test_setup(test_folded_sheets_hold_the_right_pages, new_print),
        cmocka_unit_test_setup(test_half_letter_folds_from_letter, new_print),
        cmocka_unit_test_setup(test_a_page_on_its_side_is_turned, new_print),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
