/* What is printed of a book that was read without a fault. */
#include "book.h"
#include "book_aids.h"
#include "book_card.h"
#include "book_figures.h"

#include "base/outset.h"
#include "base/source_date.h"
#include "page/aids.h"
#include "page/compose.h"
#include "paint/pdf.h"
#include "tree/points.h"

/* "62 mm (turned drum, no. 1)", so that two of one size can be told apart. */
static const char *with_name(struct book *book, const char *size, const char *name)
{
    return name ? arena_format(book->arena, "%s (%s)", size, name) : size;
}

const char *book_inputs_text(struct book *book)
{
    const struct shop *shop = &book->shop;
    char drum[QUANTITY_TEXT], cord[QUANTITY_TEXT], capacity[QUANTITY_TEXT], step[QUANTITY_TEXT];
    quantity_show(&shop->drum.diameter.q, drum);
    quantity_show(&shop->cord.diameter.q, cord);
    quantity_show(&shop->gauge.capacity.q, capacity);
    quantity_show(&shop->gauge.step.q, step);
    return arena_format(
        book->arena, "%s%s%s: drum %s, cord %s, gauge %s in steps of %s; limits: %s",
        shop->lathe.name, shop->lathe.workshop ? ", " : "",
        shop->lathe.workshop ? shop->lathe.workshop : "",
        with_name(book, drum, shop->drum.name), with_name(book, cord, shop->cord.name),
        with_name(book, capacity, shop->gauge.name), step,
        shop_has_limits(shop) ? shop->limits.source : NO_LIMIT_ON_FILE);
}

static struct imprint imprint_of(struct book *book)
{
    return (struct imprint){.title = book->pages[0]->title,
                            .notice = book->shop.lathe.notice,
                            .fingerprint = book->shop.fingerprint,
                            .inputs = book->inputs};
}

static enum paper_size booklet_size(const struct book *book)
{
    static const enum paper_size sizes[] = {PAPER_A5, PAPER_HALF_LETTER};
    return sizes[book->shop.paper.booklet];
}

/* Paints a print into a file in reading order, one folded, or both; a name may be NULL. Only
 * where there is a set, and no fault so far: with one, the set is not put in its place. */
static void paint(struct book *book, struct outset *set, const struct print *print,
                  const char *reading, const char *folded)
{
    struct sink sinks[2] = {{0}};
    if (!set || diags_count(book->diags) > 0)
        return;
    if (reading)
        sinks[0] = outset_open(set, reading);
    if (folded)
        sinks[1] = outset_open(set, folded);
    pdf_paint(print, book->fonts, reading ? &sinks[0] : NULL, folded ? &sinks[1] : NULL);
    if (reading)
        outset_close(sinks[0]);
    if (folded)
        outset_close(sinks[1]);
}

static void make_booklet(struct book *book, struct outset *set)
{
    struct imprint imprint = imprint_of(book);
    struct print *print = compose_booklet(book->arena, book->pages, book->page_count, &imprint,
                                          book->fonts, booklet_size(book), book->diags);
    print->paper = points_of(shop_paper_thickness(&book->shop));
    print->gathering = shop_gathering(&book->shop);
    book->booklet = print;
    paint(book, set, print, book->parts & PART_BOOKLET ? "booklet.pdf" : NULL,
          book->parts & PART_FOLD ? "booklet-fold.pdf" : NULL);
}

/* Says of what sheets the booklet is. */
static void make_trial(struct book *book, struct outset *set)
{
    struct imprint imprint = imprint_of(book);
    struct fold fold = {book->booklet->sheet_count, book->booklet->gathering};
    book->trial = compose_trial(book->arena, &imprint, book->fonts, booklet_size(book), &fold);
    paint(book, set, book->trial, NULL, "booklet-trial.pdf");
}

/* The card, and the sheet that it is cut from. */
static void make_cards(struct book *book, struct outset *set)
{
    static const enum paper_size sizes[] = {PAPER_A6, PAPER_A5, PAPER_HALF_LETTER};
    struct imprint imprint = imprint_of(book);
    struct card_ask ask = book_card_ask(book);
    ask.size = sizes[book->shop.paper.card];
    ask.booklet = booklet_size(book);
    struct card_prints prints =
        compose_card(book->arena, book->card, &imprint, book->fonts, &ask, book->diags);
    book->card_note = book_card_note(book, prints.height);
    book->card_print = prints.card;
    book->card_sheet = prints.sheet;
    paint(book, set, prints.card, "card.pdf", NULL);
    paint(book, set, prints.sheet, "card-sheet.pdf", NULL);
}

/* What is printed to measure with. */
static void make_aids(struct book *book, struct outset *set)
{
    size_t count;
    struct imprint imprint = imprint_of(book);
    struct text_meter meter = book_meter(book);
    const struct aid *aids =
        book_aids(book->arena, &book->shop, &meter, booklet_size(book), &count);
    book->aids =
        compose_aids(book->arena, aids, count, &imprint, book->fonts, booklet_size(book));
    paint(book, set, book->aids, "aids.pdf", NULL);
}

/* A sheet that is kept for years also says when it was made. */
static void make_forms(struct book *book, struct outset *set)
{
    struct imprint imprint = imprint_of(book);
    const char *day = source_date_day(book->arena);
    if (day)
        imprint.inputs = arena_format(book->arena, "%s; made on %s", imprint.inputs, day);
    const struct print *forms =
        compose_forms(book->arena, book->pages, book->page_count, &imprint, book->fonts,
                      booklet_size(book), book->diags);
    book->forms = forms->sheet_count ? forms : NULL;
    if (book->forms)
        paint(book, set, book->forms, "forms.pdf", NULL);
}

void book_compose(struct book *book, struct outset *set)
{
    if (book->parts & (PART_BOOKLET | PART_FOLD))
        make_booklet(book, set);
    if (book->parts & PART_FOLD)
        make_trial(book, set);
    if (book->parts & PART_CARD)
        make_cards(book, set);
    if (book->parts & PART_AIDS)
        make_aids(book, set);
    if (book->parts & PART_FORMS)
        make_forms(book, set);
}
