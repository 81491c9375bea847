/* Any text as a quantity of any kind: what is taken must mean the same when it is
 * read back from print. The first byte chooses the kind. */
#include "fuzz_file.h"
#include "number/quantity.h"

#include <math.h>
#include <string.h>

static void check_told(const struct quantity_fault *fault, size_t length)
{
    fuzz_must(fault->offset <= length, "a fault behind the end of the text");
    fuzz_must(fault->message[0] != '\0', "a fault without words");
}

static void check_shown(const struct quantity *quantity, enum kind kind)
{
    char shown[QUANTITY_TEXT];
    struct quantity again;
    struct quantity_fault fault;
    quantity_show(quantity, shown);
    fuzz_must(quantity_parse(shown, kind, &again, &fault), "what is shown cannot be read");
    fuzz_must(decimal_compare(&again.exact, &quantity->exact) == 0, "shown and typed differ");
    fuzz_must(isfinite(quantity->base), "a quantity that is not finite");
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (length == 0)
        return 0;
    enum kind kind = (enum kind)(bytes[0] % KIND_COUNT);
    char *text = calloc(1, length);
    fuzz_must(text != NULL, "no memory");
    memcpy(text, bytes + 1, length - 1);
    struct quantity quantity;
    struct quantity_fault fault = {0};
    if (quantity_parse(text, kind, &quantity, &fault))
        check_shown(&quantity, kind);
    else
        check_told(&fault, strlen(text));
    free(text);
    return 0;
}
