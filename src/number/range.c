#include "number/range.h"

#include <assert.h>

static struct decimal bound(const char *text, enum kind kind)
{
    struct quantity quantity;
    struct quantity_fault ignored;
    bool parsed = quantity_parse(text, kind, &quantity, &ignored);
    assert(parsed); /* else the program's own table is wrong */
    (void)parsed;
    return quantity.exact;
}

bool quantity_between(const struct quantity *quantity, const char *least, const char *most)
{
    struct decimal low = bound(least, quantity->unit->kind);
    struct decimal high = bound(most, quantity->unit->kind);
    return decimal_compare(&quantity->exact, &low) >= 0 &&
           decimal_compare(&quantity->exact, &high) <= 0;
}
