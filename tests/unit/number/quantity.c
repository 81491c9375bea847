/* Every spelling of a quantity, good and bad; where it goes wrong and what is said. */
#include "number/quantity.h"
#include "facts.h"
#include "test.h"

#define NBSP  "\xC2\xA0"
#define MINUS "\xE2\x88\x92"
#define DOT   "\xC2\xB7"

static void test_good(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum kind kind;
        int64_t integer; /* integer * 10^exponent of the unit */
        int exponent;
        const char *symbol, *shown;
    } rows[] = {
        {"60mm", KIND_LENGTH, 60, 0, "mm", "60" NBSP "mm"},
        {"60 mm", KIND_LENGTH, 60, 0, "mm", "60" NBSP "mm"},
        {"  60\t mm\t ", KIND_LENGTH, 60, 0, "mm", "60" NBSP "mm"},
        {NBSP "60" NBSP "mm" NBSP, KIND_LENGTH, 60, 0, "mm", "60" NBSP "mm"},
        {"2.50 in", KIND_LENGTH, 25, -1, "in", "2.50" NBSP "in"},
        {".5in", KIND_LENGTH, 5, -1, "in", ".5" NBSP "in"},
        {"007 mm", KIND_LENGTH, 7, 0, "mm", "007" NBSP "mm"},
        {"2 9/16 in", KIND_LENGTH, 25625, -4, "in", "2" NBSP "9/16" NBSP "in"},
        {"2 9/16in", KIND_LENGTH, 25625, -4, "in", "2" NBSP "9/16" NBSP "in"},
        {"2" NBSP "9/16 in", KIND_LENGTH, 25625, -4, "in", "2" NBSP "9/16" NBSP "in"},
        {"2 \t 9/16 in", KIND_LENGTH, 25625, -4, "in", "2" NBSP "9/16" NBSP "in"},
        {"9/16 in", KIND_LENGTH, 5625, -4, "in", "9/16" NBSP "in"},
        {"0 1/2 in", KIND_LENGTH, 5, -1, "in", "0" NBSP "1/2" NBSP "in"},
        {"127/128 in", KIND_LENGTH, 9921875, -7, "in", "127/128" NBSP "in"},
        {"3 2/4 in", KIND_LENGTH, 35, -1, "in", "3" NBSP "2/4" NBSP "in"},
        {"1 1/8 lbf", KIND_FORCE, 1125, -3, "lbf", "1" NBSP "1/8" NBSP "lbf"},
        {"12 lbf.in", KIND_TORQUE, 12, 0, "lbf.in", "12" NBSP "lbf" DOT "in"},
        {"12 lbf" DOT "in", KIND_TORQUE, 12, 0, "lbf.in", "12" NBSP "lbf" DOT "in"},
        {"0.25N" DOT "m", KIND_TORQUE, 25, -2, "N.m", "0.25" NBSP "N" DOT "m"},
        {"800 rpm", KIND_SPEED, 800, 0, "rpm", "800" NBSP "r/min"},
        {"800r/min", KIND_SPEED, 800, 0, "r/min", "800" NBSP "r/min"},
        {"5 deg", KIND_ANGLE, 5, 0, "deg", "5\xC2\xB0"},
        {"5\xC2\xB0", KIND_ANGLE, 5, 0, "deg", "5\xC2\xB0"},
        {"0.5%", KIND_RATIO, 5, -1, "%", "0.5" NBSP "%"},
        {"18 tpi", KIND_THREADS, 18, 0, "tpi", "18" NBSP "tpi"},
        {"10 \xC2\xB5m", KIND_LENGTH, 10, 0, "um", "10" NBSP "\xC2\xB5m"},
        {"10 \xCE\xBCm", KIND_LENGTH, 10, 0, "um", "10" NBSP "\xC2\xB5m"}, /* U+03BC */
        {"60\xE2\x80\x89mm\xE2\x80\xAF", KIND_LENGTH, 60, 0, "mm", "60" NBSP "mm"},
        {"-5 mm", KIND_LENGTH, -5, 0, "mm", MINUS "5" NBSP "mm"},
        {MINUS "5 mm", KIND_LENGTH, -5, 0, "mm", MINUS "5" NBSP "mm"},
        {"-2 1/2 in", KIND_LENGTH, -25, -1, "in", MINUS "2" NBSP "1/2" NBSP "in"},
        {"0 mm", KIND_LENGTH, 0, 0, "mm", "0" NBSP "mm"},
        {"-0.0 mm", KIND_LENGTH, 0, 0, "mm", MINUS "0.0" NBSP "mm"},
        {"0.000000000000001 mm", KIND_LENGTH, 1, -15, "mm", "0.000000000000001" NBSP "mm"},
        {"9999999999999999 mm", KIND_LENGTH, 9999999999999999, 0, "mm",
         "9999999999999999" NBSP "mm"},
        {"0.000000000000000 mm", KIND_LENGTH, 0, 0, "mm", "0.000000000000000" NBSP "mm"},
        {"1.234567890123456 mm", KIND_LENGTH, 1234567890123456, -15, "mm",
         "1.234567890123456" NBSP "mm"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct quantity quantity;
        struct quantity_fault wrong;
        char shown[QUANTITY_TEXT];
        if (!quantity_parse(rows[i].text, rows[i].kind, &quantity, &wrong))
            fail_msg("'%s': %s", rows[i].text, wrong.message);
        struct decimal want = decimal_of(rows[i].integer, rows[i].exponent);
        struct decimal factor = unit_factor(quantity.unit);
        assert_string_equal(quantity.unit->symbol, rows[i].symbol);
        if (decimal_compare(&quantity.typed, &want) != 0)
            fail_msg("'%s' is read as another number", rows[i].text);
        want = decimal_multiply(&want, &factor);
        assert_int_equal(decimal_compare(&quantity.exact, &want), 0);
        assert_true(quantity.base == decimal_to_double(&want));
        assert_false(quantity.typed.negative && quantity.typed.limbs == 0);
        quantity_show(&quantity, shown);
        assert_string_equal(shown, rows[i].shown);
    }
}

struct bad {
    const char *text;
    enum kind kind;
    size_t offset;
    const char *part; /* of the message */
};

static void assert_bad(const struct bad *bad)
{
    struct quantity quantity;
    struct quantity_fault wrong = {0};
    if (quantity_parse(bad->text, bad->kind, &quantity, &wrong))
        fail_msg("'%s' is read", bad->text);
    if (wrong.offset != bad->offset || !strstr(wrong.message, bad->part))
        fail_msg("'%s': at %zu: %s; not at %zu: %s", bad->text, wrong.offset, wrong.message,
                 bad->offset, bad->part);
    if (!strchr(wrong.message, ';') || strlen(wrong.message) >= sizeof wrong.message - 1)
        fail_msg("'%s': no mend, or cut off: %s", bad->text, wrong.message);
}

static void test_bad_numbers(void **state)
{
    (void)state;
    static const struct bad rows[] = {
        {"", KIND_LENGTH, 0, "no number here; write a length such as"},
        {"   ", KIND_LENGTH, 3, "no number here"},
        {"mm", KIND_LENGTH, 0, "no number here"},
        {"nan mm", KIND_LENGTH, 0, "no number here"},
        {"inf N", KIND_FORCE, 0, "no number here; write a force"},
        {"-inf N", KIND_FORCE, 0, "no number here"},
        {"Infinity N", KIND_FORCE, 0, "no number here"},
        {"+5 mm", KIND_LENGTH, 0, "a plus sign stands before the number"},
        {" \xC2\xBD in", KIND_LENGTH, 1, "a fraction stands here as one character"},
        {"2\xC2\xBC in", KIND_LENGTH, 1, "a fraction stands here as one character"},
        {"2 \xE2\x85\x9B in", KIND_LENGTH, 2, "a fraction stands here as one character"},
        {"-\xC2\xBE in", KIND_LENGTH, 1, "a fraction stands here as one character"},
        {"2.5 \xC2\xBE in", KIND_LENGTH, 4, "a fraction stands here as one character"},
        {"\xC2\xBF", KIND_LENGTH, 0, "no number here"}, /* signs beside those of fractions */
        {"\xC2\xBB", KIND_LENGTH, 0, "no number here"},
        {"\xE2\x84\x96", KIND_LENGTH, 0, "no number here"},
        {"\xE2\x85\x8F", KIND_LENGTH, 0, "no number here"},
        {"\xE2\x85\x9F", KIND_LENGTH, 0, "no number here"},
        {"--5 mm", KIND_LENGTH, 0, "no number here"},
        {"- 5 mm", KIND_LENGTH, 0, "no number here"},
        {" -mm", KIND_LENGTH, 1, "no number here"},
        {"\xE2\x80\x93"
         "5 mm",
         KIND_LENGTH, 0, "no number here"}, /* an en dash */
        {". mm", KIND_LENGTH, 0, "no number here"},
        {"x", KIND_ANGLE, 0, "write an angle such as 5 deg"},
        {"1e999 N", KIND_FORCE, 1, "powers of ten are not read"},
        {"1E3 N", KIND_FORCE, 1, "powers of ten"},
        {"1e-3 N", KIND_FORCE, 1, "powers of ten"},
        {"1.5e+3 N", KIND_FORCE, 3, "powers of ten"},
        {"10000000000000000 mm", KIND_LENGTH, 0, "too many digits"}, /* seventeen */
        {"5e", KIND_FORCE, 1, "'e' is not a unit"},
        {"5em", KIND_FORCE, 1, "'em' is not a unit"},
        {"5E/N", KIND_FORCE, 1, "'E/N' is not a unit"},
        {"1,500 mm", KIND_LENGTH, 1, "thousands; write 1.500 or 1500"},
        {"12,345 mm", KIND_LENGTH, 2, "thousands; write 12.345 or 12345"},
        {"1,5,5 mm", KIND_LENGTH, 1, "a comma stands in the number"},
        {"1,5.5 mm", KIND_LENGTH, 1, "a comma stands in the number"},
        {"1, 5 mm", KIND_LENGTH, 1, "a comma stands in the number"},
        {"1,2345 mm", KIND_LENGTH, 1, "a comma stands in the number"},
        {"1,000.5 mm", KIND_LENGTH, 1, "a comma stands"},
        {"5. mm", KIND_LENGTH, 1, "a point stands where none belongs"},
        {"1.2.3 mm", KIND_LENGTH, 3, "a point stands where none belongs"},
        {"1..2 mm", KIND_LENGTH, 1, "a point stands where none belongs"},
        {"1 2 mm", KIND_LENGTH, 2, "two numbers stand side by side"},
        {"1 000 mm", KIND_LENGTH, 2, "two numbers stand side by side"},
        {"1" NBSP "000 mm", KIND_LENGTH, 3, "two numbers stand side by side"},
        {"3.1 3.4 3.2 lbf", KIND_FORCE, 4, "each with its unit: 3.1lbf 3.4lbf"},
        {"3 4 lbf", KIND_FORCE, 2, "each with its unit: 3.1lbf 3.4lbf"},
        {"3.1 3.4 mm", KIND_LENGTH, 4, "'3.4 mm' is not a unit"},
        {"3-1/2 in", KIND_LENGTH, 1, "write a blank for it, as in 3 1/2 in"},
        {"3- 1/2 in", KIND_LENGTH, 1, "'- 1/2 in' is not a unit"},
        {"0x10 mm", KIND_LENGTH, 1, "'x10 mm' is not a unit"},
        {"12345678901234567 mm", KIND_LENGTH, 0, "too many digits; write at most 16"},
        {" 123456789012345678901234567890 mm", KIND_LENGTH, 1, "too many digits"},
        {"1.2345678901234567 mm", KIND_LENGTH, 2, "too many digits"},
        {"90000000000000001 mm", KIND_LENGTH, 0, "too many digits"},
        {" 0.0000000000000001 mm", KIND_LENGTH, 1, "too many digits behind the point"},
        {"0000000000000000000000000000000000000000000000000000001 mm", KIND_LENGTH, 0,
         "the number is too long"},
        {"1                                                       1/2 in and more", KIND_LENGTH,
         60, "is not a unit"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_bad(&rows[i]);
}

static void test_bad_fractions(void **state)
{
    (void)state;
    static const struct bad rows[] = {
        {"1/3 in", KIND_LENGTH, 2, "the lower number of a fraction must be 2, 4, 8"},
        {"1/1 in", KIND_LENGTH, 2, "the lower number"},
        {"1/0 in", KIND_LENGTH, 2, "the lower number"},
        {"1/256 in", KIND_LENGTH, 2, "the lower number"},
        {"1/ in", KIND_LENGTH, 2, "the lower number"},
        {"1/-2 in", KIND_LENGTH, 2, "the lower number"},
        {"2 9/10 in", KIND_LENGTH, 4, "the lower number"},
        {"0/2 in", KIND_LENGTH, 2, "not between 0 and 1"},
        {"2/2 in", KIND_LENGTH, 2, "not between 0 and 1"},
        {"17/16 in", KIND_LENGTH, 3, "not between 0 and 1"},
        {"1 17/16 in", KIND_LENGTH, 5, "not between 0 and 1"},
        {"1/2/4 in", KIND_LENGTH, 3, "not a unit"},
        {"1/2 3/4 in", KIND_LENGTH, 4, "not a unit"},
        {"1.5 1/2 in", KIND_LENGTH, 4, "not a unit"},
        {"1 1.5/2 in", KIND_LENGTH, 2, "two numbers stand side by side"},
        {"1/2.5 in", KIND_LENGTH, 3, "a point stands where none belongs"},
        {"1/2,5 in", KIND_LENGTH, 3, "a comma stands"},
        {"1/ 2 in", KIND_LENGTH, 2, "the lower number"},
        {"1 /2 in", KIND_LENGTH, 2, "not a unit"},
        {"/2 in", KIND_LENGTH, 0, "no number here"},
        {"1/99999999999999999999 in", KIND_LENGTH, 2, "too many digits"},
        {"99999999999999999999/2 in", KIND_LENGTH, 0, "too many digits"},
        {"1 99999999999999999999/2 in", KIND_LENGTH, 2, "too many digits"},
        {"1234567890 1/2 in", KIND_LENGTH, 10, "before a fraction has too many digits"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_bad(&rows[i]);
}

static void test_bad_units(void **state)
{
    (void)state;
    static const struct bad rows[] = {
        {"5", KIND_LENGTH, 1, "no unit; write one of mm, cm, m, um, in, ft behind it"},
        {" 5 \t", KIND_TORQUE, 4, "no unit; write one of N.m, "},
        {"5" NBSP, KIND_LENGTH, 3, "no unit"},
        {"5 lb", KIND_TORQUE, 2, "lb is a unit of mass; a torque is needed, in one of N.m"},
        {"5 N", KIND_MASS, 2, "N is a unit of force; a mass is needed"},
        {"5 nm", KIND_LENGTH, 2, "'nm' is not a unit known here; write one of mm, cm"},
        {"5 lbf_in", KIND_TORQUE, 2, "write one of N.m, "},
        {"5 lbf.inn", KIND_TORQUE, 2, "write one of N.m, "},
        {"5 MM", KIND_LENGTH, 2, "'MM' is not a unit"},
        {"5 mm of cord", KIND_LENGTH, 2, "'mm of cord' is not a unit"},
        {"3 mm 4 mm", KIND_LENGTH, 2, "'mm 4 mm' is not a unit"},
        {"12 lbf.ft", KIND_FORCE, 3,
         "lbf.ft is a unit of torque; a force is needed, in one of N,"},
        {"12 lbf", KIND_TORQUE, 3, "lbf is a unit of force; a torque is needed, in one of N.m"},
        {"12 %", KIND_LENGTH, 3, "% is a unit of percentage; a length is needed"},
        {"12 mm", KIND_ANGLE, 3, "mm is a unit of length; an angle is needed, in one of deg"},
        {"12 mm", KIND_THREADS, 3, "a number of threads per inch is needed, in one of tpi"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_bad(&rows[i]);
}

/* Other ways to write what can be meant alone: read, and noted as such. */
static void test_other_ways(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum kind kind;
        const char *digits, *unit;
    } rows[] = {
        {"50 lb", KIND_FORCE, "50", "lbf"},
        {"5 kg", KIND_FORCE, "5", "kgf"},
        {"5 oz", KIND_FORCE, "5", "ozf"},
        {"12 oz.in", KIND_TORQUE, "12", "ozf.in"},
        {"1,5 mm", KIND_LENGTH, "1.5", "mm"},
        {"-0,25 deg", KIND_ANGLE, "-0.25", "deg"},
        {"5 Nm", KIND_TORQUE, "5", "N.m"},
        {"5 in-lb", KIND_TORQUE, "5", "lbf.in"},
        {"5 LB.FT", KIND_TORQUE, "5", "lbf.ft"},
        {"5 lbf-in", KIND_TORQUE, "5", "lbf.in"},
        {"5 lbf in", KIND_TORQUE, "5", "lbf.in"},
        {"5 inch-pounds", KIND_TORQUE, "5", "lbf.in"},
        {"5 Foot Pounds", KIND_TORQUE, "5", "lbf.ft"},
        {"5 pounds", KIND_FORCE, "5", "lbf"},
        {"5\"", KIND_LENGTH, "5", "in"},
        {"20 C", KIND_TEMPERATURE, "20", "degC"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct quantity quantity;
        struct quantity_fault wrong;
        if (!quantity_parse(rows[i].text, rows[i].kind, &quantity, &wrong))
            fail_msg("'%s' is not read: %s", rows[i].text, wrong.message);
        assert_true(quantity.reworded);
        assert_string_equal(quantity.digits, rows[i].digits);
        assert_string_equal(quantity.unit->symbol, rows[i].unit);
        assert_int_equal(quantity.unit->kind, rows[i].kind);
    }
    struct quantity plain;
    struct quantity_fault ignored;
    assert_true(quantity_parse("5 kg", KIND_MASS, &plain, &ignored) && !plain.reworded);
    assert_true(quantity_parse("1.5 N\u00b7m", KIND_TORQUE, &plain, &ignored) &&
                !plain.reworded);
}

/* A long unit is cut in the message, but never within a code point. */
static void test_message_stays_utf8(void **state)
{
    (void)state;
    for (int blanks = 0; blanks < 3; blanks++) {
        char text[100] = "5 ";
        struct quantity quantity;
        struct quantity_fault wrong;
        memset(text + 2, 'x', (size_t)blanks);
        for (int i = 0; i < 20; i++)
            strcat(text, "\xE2\x82\xAC");
        assert_false(quantity_parse(text, KIND_LENGTH, &quantity, &wrong));
        const char *quote = strrchr(wrong.message, '\'');
        assert_non_null(quote);
        assert_int_equal((quote - wrong.message - 1 - blanks) % 3, 0);
    }
}

/* Bytes that begin no code point, as a command line may hold: none is repeated. */
static void test_message_of_stray_bytes(void **state)
{
    (void)state;
    char text[64] = "5 ";
    struct quantity quantity;
    struct quantity_fault wrong;
    memset(text + 2, 0x80, 50);
    assert_false(quantity_parse(text, KIND_LENGTH, &quantity, &wrong));
    assert_memory_equal(wrong.message, "'' is not a unit", 16);
}

static void test_in_other_units(void **state)
{
    (void)state;
    struct quantity quantity;
    struct quantity_fault wrong;
    assert_true(quantity_parse("2 9/16 in", KIND_LENGTH, &quantity, &wrong));
    assert_true(quantity_in(&quantity, unit_find("in", 2)) == 2.5625); /* as typed */
    assert_within(quantity_in(&quantity, unit_find("mm", 2)), 65.0875, 1e-14);
    assert_within(quantity.base, 0.0650875, 1e-17);
    assert_true(quantity_parse("1 lbf.ft", KIND_TORQUE, &quantity, &wrong));
    assert_within(quantity_in(&quantity, unit_find("lbf.in", 6)), 12, 1e-14);
}

/* What is shown is what was read: shown text, read again, is the same number. */
static void test_shown_is_read_back(void **state)
{
    (void)state;
    static const char *const texts[] = {"2 \t 9/16 in",
                                        "-9999999999999999 mm",
                                        "1                       1/2 in",
                                        "00000000000000000000007.5 mm",
                                        "999999999 127/128 in",
                                        MINUS "0.000000000000001 um"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct quantity first, again;
        struct quantity_fault wrong;
        char shown[QUANTITY_TEXT];
        assert_true(quantity_parse(texts[i], KIND_LENGTH, &first, &wrong));
        quantity_show(&first, shown);
        if (!quantity_parse(shown, KIND_LENGTH, &again, &wrong))
            fail_msg("%s: %s", shown, wrong.message);
        assert_int_equal(decimal_compare(&first.exact, &again.exact), 0);
    }
}

/* Both ends belong to the range; one step of the last digit beyond does not. */
static void test_between(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        bool lies;
    } rows[] = {{"2 mm", true},
                {"2 m", true},
                {"1.9999999999999 mm", false},
                {"2.000000000000001 m", false},
                {"0.0787 in", false},
                {"0.0788 in", true}, /* 2 mm = 0.07874 in */
                {"-60 mm", false},
                {"60 mm", true}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct quantity quantity;
        struct quantity_fault wrong;
        assert_true(quantity_parse(rows[i].text, KIND_LENGTH, &quantity, &wrong));
        if (quantity_between(&quantity, "2 mm", "2 m") != rows[i].lies)
            fail_msg("%s", rows[i].text);
    }
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_good),
    cmocka_unit_test(test_bad_numbers),
    cmocka_unit_test(test_bad_fractions),
    cmocka_unit_test(test_bad_units),
    cmocka_unit_test(test_other_ways),
    cmocka_unit_test(test_message_stays_utf8),
    cmocka_unit_test(test_message_of_stray_bytes),
    cmocka_unit_test(test_in_other_units),
    cmocka_unit_test(test_shown_is_read_back),
    cmocka_unit_test(test_between),
};

GROUP(quantity, NULL, NULL)
