/* The outputs by name, so that a run may make some of them alone. */
#ifndef BOOK_PARTS_H
#define BOOK_PARTS_H

/* May be added up. */
enum book_part {
    PART_SITE = 1 << 0,    /* site/ */
    PART_SINGLE = 1 << 1,  /* spindlebook.html */
    PART_TABLES = 1 << 2,  /* tables/ */
    PART_BOOKLET = 1 << 3, /* booklet.pdf */
    PART_FOLD = 1 << 4,    /* booklet-fold.pdf, booklet-trial.pdf */
    PART_CARD = 1 << 5,    /* card.pdf, card-sheet.pdf */
    PART_AIDS = 1 << 6,    /* aids.pdf */
    PART_FORMS = 1 << 7    /* forms.pdf */
};

enum { PARTS_ALL = (1 << 8) - 1 };

/* The part of that name as --only takes it; 0 where there is none. */
unsigned book_part_named(const char *name);

#endif
