/* What is printed of a book that was read without a fault. */
#include "book.h"
#include "book_aids.h"
#include "book_card.h"
#include "book_figures.h"

#include "base/source_date.h"
#include "page/compose.h"
#include "page/trial.h"
#include "tree/points.h"

/* "62 mm (turned drum, no. 1)", so that two of one size can be told apart. */
static const char *named(struct book *book, const char *size, const char *name)
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
        shop->lathe.workshop ? shop->lathe.workshop : "", named(book, drum, shop->drum.name),
        named(book, cord, shop->cord.name), named(book, capacity, shop->gauge.name), step,
        shop_has_limits(shop) ? shop->limits.source : NO_LIMIT_ON_FILE);
}

static struct imprint imprint_of(struct book *book)
{
    return (struct imprint){.title = book->pages[0]->title,
                            .notice = book->shop.lathe.notice,
                            .fingerprint = book->shop.fingerprint,
                            .inputs = book->inputs};
}

/* The card, and the sheet that it is cut from. */
static void compose_cards(struct book *book, const struct imprint *imprint,
                          enum paper_size booklet)
{
    static const enum paper_size sizes[] = {PAPER_A6, PAPER_A5, PAPER_HALF_LETTER};
    struct card_ask ask = book_card_ask(book);
    ask.size = sizes[book->shop.paper.card];
    ask.booklet = booklet;
    struct card_prints prints =
        compose_card(book->arena, book->card, imprint, book->fonts, &ask, book->diags);
    book->card_print = prints.card;
    book->card_sheet = prints.sheet;
    book->card_note = book_card_note(book, prints.height);
}

/* What is printed to measure with. */
static void compose_measures(struct book *book, const struct imprint *imprint,
                             enum paper_size booklet)
{
    size_t count;
    struct text_meter meter = book_meter(book);
    const struct aid *aids = book_aids(book->arena, &book->shop, &meter, booklet, &count);
    book->aids = compose_aids(book->arena, aids, count, imprint, book->fonts, booklet);
}

/* A sheet that is kept for years also says when it was made. */
static void compose_the_forms(struct book *book, enum paper_size booklet)
{
    struct imprint imprint = imprint_of(book);
    struct tm utc;
    if (source_date(&utc))
        imprint.inputs = arena_format(book->arena, "%s; made on %04d-%02d-%02d", imprint.inputs,
                                      utc.tm_year + 1900, utc.tm_mon + 1, utc.tm_mday);
    struct print *forms = compose_forms(book->arena, book->pages, book->page_count, &imprint,
                                        book->fonts, booklet, book->diags);
    book->forms = forms->sheet_count ? forms : NULL;
}

void book_compose(struct book *book)
{
    static const enum paper_size sizes[] = {PAPER_A5, PAPER_HALF_LETTER};
    enum paper_size booklet = sizes[book->shop.paper.booklet];
    struct imprint imprint = imprint_of(book);
    if (book->parts & (PART_BOOKLET | PART_FOLD)) {
        book->booklet = compose_booklet(book->arena, book->pages, book->page_count, &imprint,
                                        book->fonts, booklet, book->diags);
        book->booklet->paper = points_of(shop_paper_thickness(&book->shop));
        book->booklet->gathering = shop_gathering(&book->shop);
    }
    if (book->parts & PART_FOLD) {
        struct fold fold = {book->booklet->sheet_count, book->booklet->gathering};
        book->trial = compose_trial(book->arena, &imprint, book->fonts, booklet, &fold);
    }
    if (book->parts & PART_CARD)
        compose_cards(book, &imprint, booklet);
    if (book->parts & PART_AIDS)
        compose_measures(book, &imprint, booklet);
    if (book->parts & PART_FORMS)
        compose_the_forms(book, booklet);
}
