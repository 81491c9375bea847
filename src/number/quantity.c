/* One pass from left to right: minus, digits with a point or a fraction, unit. What stands
 * where something else belongs is told with its mend, and nothing is guessed. */
#include "number/quantity.h"

#include "number/unit.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* The least number with QUANTITY_DIGITS digits: no digit may follow it. */
#define LEAST_TOO_LONG INT64_C(1000000000000000)

/* A fraction needs seven digits of its own behind these. */
#define MOST_BEFORE_FRACTION 999999999

enum { MOST_PLACES = 15 };

/* The text being read, how far it is read, and where to tell of a fault. */
struct scan {
    const char *text;
    const char *at;
    enum kind kind; /* that is wanted */
    struct quantity_fault *fault;
};

static void add_message(struct quantity_fault *fault, size_t used, const char *format,
                        va_list args)
{
    size_t room = sizeof fault->message - used;
    int length = vsnprintf(fault->message + used, room, format, args);
    assert(length >= 0 && (size_t)length < room); /* the words are few, quotations short */
}

bool quantity_wrong(struct quantity_fault *fault, size_t offset, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    fault->offset = offset;
    add_message(fault, 0, format, args);
    va_end(args);
    return false;
}

void quantity_wrong_too(struct quantity_fault *fault, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    add_message(fault, strlen(fault->message), format, args);
    va_end(args);
}

__attribute__((format(printf, 3, 4))) static bool
wrong(const struct scan *scan, const char *from, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    scan->fault->offset = (size_t)(from - scan->text);
    add_message(scan->fault, 0, format, args);
    va_end(args);
    return false;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static size_t blank_length(const char *at)
{
    if (*at == ' ' || *at == '\t')
        return 1;
    if (strncmp(at, "\xE2\x80\x89", 3) == 0 || strncmp(at, "\xE2\x80\xAF", 3) == 0)
        return 3;                                   /* thin space, narrow no-break space */
    return strncmp(at, "\xC2\xA0", 2) == 0 ? 2 : 0; /* no-break space */
}

/* The end of a text without the blanks at its end. */
static const char *trimmed_end(const char *start)
{
    const char *end = start;
    for (const char *at = start; *at;) {
        size_t blank = blank_length(at);
        at += blank ? blank : 1;
        end = blank ? end : at;
    }
    return end;
}

static void skip_blanks(struct scan *scan)
{
    for (size_t length; (length = blank_length(scan->at));)
        scan->at += length;
}

size_t quantity_minus(const char *text)
{
    return *text == '-' ? 1 : strncmp(text, "\xE2\x88\x92", 3) == 0 ? 3 : 0;
}

/* Digits from here on; false, with a fault, when there are more than a decimal
 * of ours is meant to hold. Leading zeros do not count. */
static bool read_digits(struct scan *scan, int64_t *value, int *length)
{
    const char *start = scan->at;
    for (; is_digit(*scan->at); scan->at++) {
        if (*value >= LEAST_TOO_LONG)
            return wrong(scan, start, "the number has too many digits; write at most %d",
                         QUANTITY_DIGITS);
        *value = *value * 10 + (*scan->at - '0');
        ++*length;
    }
    return true;
}

/* top/bottom, with the slash next, to be added to whole. */
static bool read_fraction(struct scan *scan, int64_t whole, int64_t top, struct decimal *value)
{
    const char *start = ++scan->at;
    int64_t bottom = 0;
    int length = 0;
    if (!read_digits(scan, &bottom, &length))
        return false;
    if (bottom < 2 || bottom > 128 || 128 % bottom != 0)
        return wrong(scan, start,
                     "the lower number of a fraction must be 2, 4, 8, 16, 32, 64 or "
                     "128; write other numbers with a decimal point");
    if (top <= 0 || top >= bottom)
        return wrong(scan, start, "the fraction is not between 0 and 1; write it as in 2 9/16");
    int64_t scale = 128 / bottom; /* n/128 in = n * 0.0078125 in */
    *value = decimal_of(whole, 0);
    struct decimal part = decimal_of(top * scale * 78125, -7);
    *value = decimal_add(value, &part);
    return true;
}

static bool side_by_side(struct scan *scan, const char *at)
{
    if (scan->kind == KIND_FORCE)
        return wrong(
            scan, at,
            "several numbers stand side by side; write one and its unit, or, as pulls, "
            "each with its unit: 3.1lbf 3.4lbf");
    return wrong(scan, at, "two numbers stand side by side; write one number and a unit");
}

/* Behind a whole number: " 9/16", if that is what stands there. */
static bool read_more_fraction(struct scan *scan, int64_t whole, struct decimal *value)
{
    struct scan ahead = *scan;
    skip_blanks(&ahead);
    int64_t top = 0;
    int length = 0;
    const char *second = ahead.at;
    if (second == scan->at || !is_digit(*second))
        return true;
    if (!read_digits(&ahead, &top, &length))
        return false;
    if (*ahead.at != '/')
        return side_by_side(scan, second);
    if (whole > MOST_BEFORE_FRACTION)
        return wrong(scan, scan->at,
                     "the number before a fraction has too many digits; write at most 9");
    scan->at = ahead.at;
    return read_fraction(scan, whole, top, value);
}

/* A comma is the decimal sign where one or two digits follow and then no more of a number. */
static bool is_decimal_comma(const char *comma)
{
    size_t digits = strspn(comma + 1, "0123456789");
    char next = comma[1 + digits];
    return (digits == 1 || digits == 2) && (!next || !strchr(",./", next));
}

/* Before three digits it may as well part the thousands. */
static bool wrong_comma(struct scan *scan, const char *start)
{
    int before = (int)(scan->at - start);
    const char *after = scan->at + 1;
    if (before > 0 && strspn(after, "0123456789") == 3 &&
        (!after[3] || !strchr(",./", after[3])))
        return wrong(
            scan, scan->at,
            "the comma may be a decimal sign or part the thousands; write %.*s.%.3s or "
            "%.*s%.3s",
            before, start, after, before, start, after);
    return wrong(scan, scan->at, "a comma stands in the number; the decimal sign is a point");
}

static bool read_plain(struct scan *scan, struct decimal *value)
{
    const char *start = scan->at;
    int64_t integer = 0;
    int before = 0, after = 0;
    if (!read_digits(scan, &integer, &before))
        return false;
    if (*scan->at == '/')
        return read_fraction(scan, 0, integer, value);
    bool point = *scan->at == '.' && is_digit(scan->at[1]);
    if (*scan->at == ',' && !(point = is_decimal_comma(scan->at)))
        return wrong_comma(scan, start);
    if (point) {
        scan->at++;
        if (!read_digits(scan, &integer, &after))
            return false;
    }
    if (after > MOST_PLACES)
        return wrong(scan, start, "too many digits behind the point; write at most %d",
                     MOST_PLACES);
    *value = decimal_of(integer, -after);
    return point || read_more_fraction(scan, integer, value);
}

/* A quarter, a half, eighths ... as one sign: U+00BC to U+00BE, U+2150 to U+215E. */
static bool is_fraction_sign(const char *at)
{
    const unsigned char *sign = (const unsigned char *)at;
    return (sign[0] == 0xC2 && sign[1] >= 0xBC && sign[1] <= 0xBE) ||
           (sign[0] == 0xE2 && sign[1] == 0x85 && sign[2] >= 0x90 && sign[2] <= 0x9E);
}

static bool read_number(struct scan *scan, struct decimal *value)
{
    const char *start = scan->at;
    size_t minus = quantity_minus(start);
    scan->at += minus;
    bool digit_next = is_digit(*scan->at) || (*scan->at == '.' && is_digit(scan->at[1]));
    if (!digit_next && *start == '+')
        return wrong(scan, start, "a plus sign stands before the number; leave it out");
    if (!digit_next && !is_fraction_sign(scan->at))
        return wrong(scan, start, "there is no number here; write %s %s such as %s",
                     kind_article(scan->kind), kind_name(scan->kind), kind_example(scan->kind));
    if (digit_next && !read_plain(scan, value))
        return false;
    struct scan ahead = *scan;
    skip_blanks(&ahead);
    if (is_fraction_sign(ahead.at))
        return wrong(scan, ahead.at,
                     "a fraction stands here as one character; write it as in 2 1/2");
    value->negative = minus && value->limbs > 0;
    if (*scan->at == '-' && is_digit(scan->at[1]))
        return wrong(scan, scan->at,
                     "a hyphen stands in the number; write a blank for it, as in 3 1/2 in");
    if (*scan->at == ',')
        return wrong_comma(scan, scan->at);
    if (*scan->at == '.')
        return wrong(scan, scan->at,
                     "a point stands where none belongs; write one point with "
                     "digits behind it");
    if ((*scan->at == 'e' || *scan->at == 'E') &&
        (is_digit(scan->at[1]) || strchr("+-", scan->at[1] ? scan->at[1] : ' ')))
        return wrong(scan, scan->at,
                     "powers of ten are not read; write the number out in digits");
    return true;
}

static void list_units(enum kind kind, char *out, size_t room)
{
    size_t used = 0;
    out[0] = '\0';
    for (size_t i = 0; unit_at(i); i++)
        if (unit_at(i)->kind == kind)
            used += (size_t)snprintf(out + used, room - used, "%s%s", used ? ", " : "",
                                     unit_at(i)->symbol);
    assert(used < room); /* the units are few */
}

/* How many bytes of a wrong unit are repeated: not too many, and no part of a code
 * point. */
static int told_length(const char *start, const char *end)
{
    if (end - start <= QUOTED)
        return (int)(end - start);
    int length = QUOTED;
    while (length > 0 && ((unsigned char)start[length] & 0xC0) == 0x80)
        length--;
    return length;
}

/* What is wrong with a unit that stands where one of another kind, or none, is known. found:
 * the unit of that name, NULL where there is none. */
static bool wrong_unit(struct scan *scan, const char *end, const struct unit *found)
{
    enum kind kind = scan->kind;
    const char *start = scan->at;
    char known[120];
    list_units(kind, known, sizeof known);
    if (start == end)
        return wrong(scan, start, "the number has no unit; write %s%s behind it",
                     strchr(known, ',') ? "one of " : "", known);
    if (is_digit(*start) && kind == KIND_FORCE)
        return side_by_side(scan, start);
    if (!found)
        return wrong(scan, start, "'%.*s' is not a unit known here; write one of %s",
                     told_length(start, end), start, known);
    return wrong(scan, start, "%s is a unit of %s; %s %s is needed, in one of %s",
                 found->symbol, kind_name(found->kind), kind_article(kind), kind_name(kind),
                 known);
}

/* NULL after a fault. */
static const struct unit *read_unit(struct scan *scan, bool *reworded)
{
    const char *end = trimmed_end(scan->at);
    size_t length = (size_t)(end - scan->at);
    const struct unit *unit = unit_of_kind(scan->at, length, scan->kind);
    if (!unit)
        wrong_unit(scan, end, unit_find(scan->at, length));
    *reworded |= unit != unit_find_as(scan->at, length, scan->kind);
    return unit;
}

/* Keeps the number as typed, with a point for a comma and one space for any run of blanks
 * within. It is
 * shown to the user, so it is kept whole or not at all. */
static bool keep_digits(struct scan *scan, const char *start, char *digits)
{
    size_t used = 0;
    for (const char *at = start; at < scan->at && used < QUANTITY_KEPT;) {
        size_t blank = blank_length(at);
        digits[used++] = blank ? ' ' : *at == ',' ? '.' : *at;
        at += blank ? blank : 1;
        while ((blank = blank_length(at)) && digits[used - 1] == ' ')
            at += blank;
    }
    digits[used] = '\0';
    if (used == QUANTITY_KEPT)
        return wrong(scan, start, "the number is too long; leave off needless zeros");
    return true;
}

bool quantity_parse(const char *text, enum kind kind, struct quantity *quantity,
                    struct quantity_fault *fault)
{
    struct scan scan = {.text = text, .at = text, .kind = kind, .fault = fault};
    *quantity = (struct quantity){0};
    skip_blanks(&scan);
    const char *start = scan.at;
    if (!read_number(&scan, &quantity->typed) || !keep_digits(&scan, start, quantity->digits))
        return false;
    quantity->reworded = memchr(start, ',', (size_t)(scan.at - start));
    skip_blanks(&scan);
    quantity->unit = read_unit(&scan, &quantity->reworded);
    if (!quantity->unit)
        return false;
    struct decimal factor = unit_factor(quantity->unit);
    struct decimal zero = decimal_of(quantity->unit->zero, 0);
    quantity->exact = decimal_multiply(&quantity->typed, &factor);
    quantity->exact = decimal_add(&quantity->exact, &zero);
    quantity->base = decimal_to_double(&quantity->exact);
    return true;
}

double quantity_in(const struct quantity *quantity, const struct unit *unit)
{
    return unit == quantity->unit ? decimal_to_double(&quantity->typed)
                                  : unit_from_base(quantity->base, unit);
}

void quantity_show(const struct quantity *quantity, char *out)
{
    size_t used = 0;
    for (const char *at = quantity->digits; *at; at++)
        if (*at == ' ')
            used += (size_t)sprintf(out + used, "\xC2\xA0");
        else if (*at == '-')
            used += (size_t)sprintf(out + used, "\xE2\x88\x92");
        else
            out[used++] = *at;
    used += (size_t)snprintf(out + used, QUANTITY_TEXT - used, "%s%s",
                             quantity->unit->kind == KIND_ANGLE ? "" : "\xC2\xA0",
                             quantity->unit->shown);
    assert(used < QUANTITY_TEXT); /* QUANTITY_KEPT, and no unit is long */
}

struct decimal quantity_bound(const char *text, enum kind kind)
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
    struct decimal low = quantity_bound(least, quantity->unit->kind);
    struct decimal high = quantity_bound(most, quantity->unit->kind);
    return decimal_compare(&quantity->exact, &low) >= 0 &&
           decimal_compare(&quantity->exact, &high) <= 0;
}
