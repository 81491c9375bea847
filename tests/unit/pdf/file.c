/* The PDF painter, judged by programs from outside: qpdf reads the file's form,
 * poppler's pdfinfo and pdftotext read what a viewer and a listener get. */
#include "pdf_sample.h"

#include <math.h>
#include <sys/wait.h>

static const char SIGNS[] = "½ µ × ° − – ≤ ≥ ▲ ● ▼ N·m";

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
    add_sheet(A5_WIDTH, A5_HEIGHT, "i")->roman = 1;
    int item = add_tag(TAG_CONTENTS_ITEM, add_tag(TAG_CONTENTS, document));
    add_tag(TAG_LINK, item);
    add_text(50, 60, "Measuring the drag");
    add_area((struct hot_area){
        .x = 50, .y = 50, .width = 200, .height = 12, .to_sheet = 3, .to_y = 100});
    add_sheet(A5_WIDTH, A5_HEIGHT, "ii")->roman = 2;
    add_tag(TAG_PARAGRAPH, document);
    add_text(50, 60, SIGNS);
    add_text(50, 75, "a line ends")->blank_after = true;
    add_text(50, 90, "half-")->blank_after = false;
    add_text(50, 105, "way");
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
    add_text(69, 200, "the maker ")->face = FACE_OBLIQUE;
    add_area((struct hot_area){
        .x = 69, .y = 190, .width = 50, .height = 12, .uri = "https://example.org/a(b)?q=½"});
    tag = paragraph;
    add_text(125, 200, "before you")->blank_after = true;
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
    paint("book.pdf");
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
    paint("dated.pdf");
    assert_has(run("pdfinfo -isodates dated.pdf"), "CreationDate:    2023-11-14T22:13:20Z\n");
}

static void test_text_comes_back_exactly(void **state)
{
    (void)state;
    paint_booklet();
    const char *text = run("pdftotext -f 3 -l 3 book.pdf -");
    assert_has(text, SIGNS);
    assert_has(text, "a line ends\nhalfway\n");
}

/* Signs that share a glyph must not become each other when copied. */
static void test_signs_that_look_alike(void **state)
{
    (void)state;
    add_sheet(300, 100, "1");
    add_text(10, 40, "5 mm µ (micro) μ (mu) Ω (ohm) Ω (omega)");
    paint("alike.pdf");
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
    paint("plain.pdf");
    assert_string_equal(run("pdffonts plain.pdf | tail -n +3 | wc -l"), "1\n");
}

/* The bold s with caron is an s and a caron that is itself put together; without
 * the caron it would look like the s. */
static void test_parts_of_parts_are_drawn(void **state)
{
    (void)state;
    add_sheet(40, 40, "1");
    struct piece *piece = add_text(10, 30, "s");
    piece->face = FACE_BOLD;
    piece->size = 24;
    paint("plain.pdf");
    piece->text = "š";
    paint("caron.pdf");
    run("pdftoppm -r 72 -mono plain.pdf > plain.pbm; pdftoppm -r 72 -mono caron.pdf > "
        "caron.pbm");
    assert_string_equal(run("cmp -s plain.pbm caron.pbm && echo same || echo differ"),
                        "differ\n");
}

/* One sign a page, and last a code point that the font lacks: it shows as a box.
 * No two pages may look the same, so that no sign is a box or another sign. */
static void test_signs_are_drawn(void **state)
{
    (void)state;
    static const char *const signs[] = {"½", "µ", "×", "°", "−", "–", "≤",
                                        "≥", "▲", "●", "▼", "·", " ", "\uE0FF"};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        add_sheet(40, 40, "1");
        add_text(10, 30, signs[i])->size = 24;
    }
    assert_false(fonts_has(fonts, FACE_REGULAR, 0xE0FF));
    paint("signs.pdf");
    assert_string_equal(run("pdftoppm -r 72 -gray signs.pdf sign; cksum sign-*.pgm | "
                            "cut -d' ' -f1 | sort -u | wc -l"),
                        "14\n");
}

static void test_a_file_is_small(void **state)
{
    (void)state;
    add_sheet(A5_WIDTH, A5_HEIGHT, "1");
    add_text(10, 30, "The quick brown fox jumps over the lazy dog 0123456789");
    paint("small.pdf");
    assert_true(atol(run("wc -c < small.pdf")) < 12000);
}

/* More pages than libharu takes flat; the tags' page numbers have to hold.
 */
static void test_many_pages(void **state)
{
    (void)state;
    add_tag(TAG_DOCUMENT, -1);
    for (int i = 1; i <= 2500; i++) {
        add_sheet(100, 100, arena_format(arena, "%d", i));
        add_tag(TAG_PARAGRAPH, 0);
        add_text(10, 20, arena_format(arena, "n%d", i));
    }
    paint("many.pdf");
    assert_has(run("pdfinfo many.pdf"), "Pages:           2500\n");
    assert_string_equal(run("qpdf --check many.pdf >/dev/null"), "");
    const char *const parts[] = {"\"n1\"", "\"n1001\"", "\"n2500\"", NULL};
    assert_in_order(run("pdfinfo -struct-text many.pdf"), parts);
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

static void test_labels_that_jump(void **state)
{
    (void)state;
    const char *const labels[] = {"1", "2", "5", "A-1", "A-1", "iix", "xiv", "xv", "0"};
    static const size_t romans[] = {[6] = 14, 15, 0};
    for (size_t i = 0; i < sizeof labels / sizeof *labels; i++)
        add_sheet(100, 100, labels[i])->roman = romans[i];
    paint("jump.pdf");
    assert_string_equal(run("qpdf --json --json-key=pagelabels jump.pdf | "
                            "sed -n '/\"pagelabels\"/,$p' | tr -d ' \\n'"),
                        "\"pagelabels\":[{\"index\":0,\"label\":{\"/S\":\"/D\",\"/St\":1}},"
                        "{\"index\":2,\"label\":{\"/S\":\"/D\",\"/St\":5}},"
                        "{\"index\":3,\"label\":{\"/P\":\"u:A-1\",\"/St\":1}},"
                        "{\"index\":4,\"label\":{\"/P\":\"u:A-1\",\"/St\":1}},"
                        "{\"index\":5,\"label\":{\"/P\":\"u:iix\",\"/St\":1}},"
                        "{\"index\":6,\"label\":{\"/S\":\"/r\",\"/St\":14}},"
                        "{\"index\":8,\"label\":{\"/P\":\"u:0\",\"/St\":1}}]}");
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
    assert_has(form, "/StructParent 5"); /* the first number behind those of 5 pages */
    /* x, then the lower and upper edge from below: 595.276 - 62 and - 50. */
    assert_has(form, "/Rect [ 50 533.276 250 545.276 ]");
}

static void test_wishes_to_viewer_and_printer(void **state)
{
    (void)state;
    paint_booklet();
    paint_folded("fold.pdf");
    const char *form = run("qpdf --qdf --object-streams=disable book.pdf - | sed -n '/^%% "
                           "Orig.* 1 0$/,/^endobj/p'");
    assert_has(form, "/Lang (en)");
    assert_has(form, "/DisplayDocTitle true");
    assert_has(form, "/PrintScaling /None");
    assert_has(form, "/Duplex /DuplexFlipLongEdge");
    form = run("qpdf --qdf --object-streams=disable fold.pdf - | sed -n '/^%% Orig.* 1 "
               "0$/,/^endobj/p'");
    assert_has(form, "/Lang (en)");
    assert_has(form, "/Duplex /DuplexFlipShortEdge");
}

static void test_a_listener_reads_it_in_order(void **state)
{
    (void)state;
    paint_booklet();
    const char *const parts[] = {"Document",
                                 "H1",
                                 "\"Spindle booklet\"",
                                 "TOC",
                                 "TOCI",
                                 "Link",
                                 "\"Measuring the drag\"",
                                 "P",
                                 "\"½ µ",
                                 "N·ma line ends half-way\"",
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
                                 "Object ",
                                 "\"before you ",
                                 "\"turn the nut.\"",
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
    paint("book.pdf");
    paint_folded("fold1.pdf");
    paint_folded("fold2.pdf");
    run("cmp book.pdf first.pdf && cmp fold1.pdf fold2.pdf");
}

/* What the program says and how it ends when it is given a broken print. */
static char *refused(void)
{
    char *words = arena_format(arena, "%s/words", folder);
    pid_t child = fork();
    if (child == 0) {
        struct buffer pdf = {0};
        struct sink sink = sink_of_buffer(&pdf);
        if (!freopen(words, "w", stderr))
            _exit(9);
        pdf_paint(&print, fonts, &sink, NULL);
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
        assert_has(refused(), "sheet 1 of a print has a mark with a number that is not finite");
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
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup(test_no_reader_complains, new_print),
    cmocka_unit_test_setup(test_pages_and_their_size, new_print),
    cmocka_unit_test_setup(test_a_date_only_when_given, new_print),
    cmocka_unit_test_setup(test_text_comes_back_exactly, new_print),
    cmocka_unit_test_setup(test_signs_that_look_alike, new_print),
    cmocka_unit_test_setup(test_fonts_are_embedded_subsets, new_print),
    cmocka_unit_test_setup(test_parts_of_parts_are_drawn, new_print),
    cmocka_unit_test_setup(test_signs_are_drawn, new_print),
    cmocka_unit_test_setup(test_a_file_is_small, new_print),
    cmocka_unit_test_setup(test_many_pages, new_print),
    cmocka_unit_test_setup(test_outline_is_nested, new_print),
    cmocka_unit_test_setup(test_labels_roman_then_arabic, new_print),
    cmocka_unit_test_setup(test_labels_that_jump, new_print),
    cmocka_unit_test_setup(test_links_within_and_without, new_print),
    cmocka_unit_test_setup(test_wishes_to_viewer_and_printer, new_print),
    cmocka_unit_test_setup(test_a_listener_reads_it_in_order, new_print),
    cmocka_unit_test_setup(test_same_print_same_bytes, new_print),
    cmocka_unit_test_setup(test_broken_prints_are_refused, new_print),
};

GROUP(file, setup, teardown)
