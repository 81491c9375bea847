/* Any bytes as a page of Markdown and as the card, or, where a block of forms stands in
 * them, as a form: read, checked, laid out, painted. */
#include "base/utf8.h"
#include "book/stages.h"
#include "doc/markdown.h"
#include "fuzz_file.h"
#include "judge/results.h"
#include "layout/compose.h"
#include "pdf/pdf.h"
#include "shop/settings.h"

#include <string.h>

static const char start_text[] = "# Start\n\nWords.\n";
static struct fuzz_file start_file, page_file;

/* What every run shares: the shop, the fonts, the template. */
static struct book made_once;

static void make_once(void)
{
    struct book *book = &made_once;
    book->parts = PARTS_ALL;
    book->arena = arena_new();
    book->diags = diags_new(book->arena);
    settings_read(book->arena, book->diags, "tests/faults/base/settings.yaml", NULL, 0,
                  &book->shop);
    book->fonts = fonts_load(book->arena, book->diags, "/usr/share/fonts/truetype/dejavu");
    fuzz_file(&start_file, (const uint8_t *)start_text, strlen(start_text));
    book->site.template = html_template_read(book->arena, book->diags, "templates/page.html");
    diags_print(book->diags, stderr);
    fuzz_must(diags_count(book->diags) == 0, "the fixed parts have faults");
    book->results = results_of(book->arena, &book->shop);
    book->inputs = book_inputs_text(book->arena, book->results);
}

enum part { BOOKLET, FORM, CARD };
enum { PAGES = 3 };

static void add_page(struct book *book, const char *file, const char *name, enum part part)
{
    struct page *page = markdown_read(book->arena, book->diags, file);
    if (!page)
        return;
    page->arena = book->arena;
    page->name = name;
    page->file = file;
    page->number = book->page_count;
    page->in_booklet = part == BOOKLET;
    page->is_form = part == FORM;
    book->pages[book->page_count++] = page;
    if (part == CARD)
        book->card = page;
}

static bool holds_form(const uint8_t *bytes, size_t length)
{
    static const char *const blocks[] = {"```boxes", "```lines", "```grid", "```graph"};
    for (size_t i = 0; i < sizeof blocks / sizeof blocks[0]; i++)
        if (memmem(bytes, length, blocks[i], strlen(blocks[i])))
            return true;
    return false;
}

static size_t count_scripts(const char *html)
{
    size_t count = 0;
    while ((html = strcasestr(html, "<script")) != NULL) {
        html++;
        count++;
    }
    return count;
}

/* The first page is a fixed one: others can have no more scripts than that. */
static void paint_site(const struct book *book)
{
    struct html_site site = {.template = book->site.template,
                             .pages = book->pages,
                             .page_count = book->page_count,
                             .fingerprint = book->shop.fingerprint,
                             .inputs = book->inputs};
    size_t scripts = 0;
    for (size_t i = 0; i < book->page_count; i++) {
        struct buffer html = {0};
        html_paint(&html, &site, i);
        fuzz_must(utf8_valid(html.bytes, html.length) == html.length, "a page is not UTF-8");
        if (i == 0)
            scripts = count_scripts(html.bytes);
        fuzz_must(count_scripts(html.bytes) == scripts, "a script in a page");
        buffer_free(&html);
    }
}

/* One text in sixteen: for what is slow. */
static bool is_chosen(const uint8_t *bytes, size_t length)
{
    unsigned sum = 0;
    for (size_t i = 0; i < length; i++)
        sum = sum * 31 + bytes[i];
    return sum % 16 == 0;
}

/* Which a book that is not written only checks. */
static const struct print *booklet_of(const struct book *book)
{
    const struct imprint imprint = {.title = book->pages[0]->title,
                                    .fingerprint = book->shop.fingerprint,
                                    .inputs = book->inputs};
    struct print *print = compose_booklet(book->arena, book->pages, book->page_count, &imprint,
                                          book->fonts, PAPER_A5, book->diags);
    print->gathering = (size_t)book->shop.paper.gathering.number;
    return print;
}

/* Slow, as the fonts are embedded. */
static void paint_pdf(const struct book *book)
{
    const struct print *booklet = booklet_of(book);
    struct buffer pdf = {0};
    struct sink sink = sink_of_buffer(&pdf);
    fuzz_must(diags_count(book->diags) == 0, "a checked booklet has faults");
    pdf_paint(book->forms ? book->forms : booklet, book->fonts, &sink, NULL);
    buffer_free(&pdf);
    if (!book->forms)
        pdf_paint(booklet, book->fonts, NULL, &sink);
    buffer_free(&pdf);
}

static void make_book(struct book *book, bool is_painted)
{
    book->shop_is_good = diags_count(book->diags) == 0;
    for (size_t i = 0; i < book->page_count; i++)
        book_resolve_page(book, book->pages[i]);
    book_resolve_rest(book);
    if (diags_count(book->diags) > 0)
        return;
    book_compose(book);
    paint_site(book);
    if (is_painted && diags_count(book->diags) == 0)
        paint_pdf(book);
}

/* A card is laid out hundreds of times till its type is as large as can be. */
enum { SHORT_CARD = 300 };

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (!made_once.arena)
        make_once();
    struct book book = made_once;
    const char *file = fuzz_file(&page_file, bytes, length);
    book.arena = arena_new();
    book.diags = diags_new(book.arena);
    book.pages = arena_get(book.arena, PAGES * sizeof(struct page *));
    book.anchors = arena_get(book.arena, PAGES * sizeof *book.anchors);
    bool is_form = holds_form(bytes, length), chosen = is_chosen(bytes, length);
    bool is_card = !is_form && (chosen || length <= SHORT_CARD);
    add_page(&book, start_file.name, "start", BOOKLET);
    add_page(&book, file, "page", is_form ? FORM : BOOKLET);
    add_page(&book, is_card ? file : start_file.name, "card", CARD);
    if (book.page_count == PAGES)
        make_book(&book, chosen);
    arena_free(book.arena);
    return 0;
}
