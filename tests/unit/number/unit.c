/* The unit table against GNU units, which must be installed, and against the
 * facts of tests/data/conversions.tsv. */
#include "facts.h"
#include "physics/physics.h"
#include "shop_fixture.h"
#include "test.h"

/* How GNU units writes each line of our table. It knows no ozf and no gf, and its
 * rad is another thing. */
static const struct {
    const char *symbol, *theirs;
} names[] = {
    {"mm", "mm"},
    {"cm", "cm"},
    {"m", "m"},
    {"um", "um"},
    {"in", "inch"},
    {"ft", "ft"},
    {"N", "N"},
    {"mN", "mN"},
    {"kN", "kN"},
    {"kgf", "kgf"},
    {"gf", "gram force"},
    {"lbf", "lbf"},
    {"ozf", "ounce force"},
    {"N.m", "N m"},
    {"N.cm", "N cm"},
    {"N.mm", "N mm"},
    {"mN.m", "mN m"},
    {"kgf.m", "kgf m"},
    {"kgf.cm", "kgf cm"},
    {"gf.cm", "gram force cm"},
    {"lbf.in", "lbf inch"},
    {"lbf.ft", "lbf ft"},
    {"ozf.in", "ounce force inch"},
    {"r/min", "revolution/minute"},
    {"rpm", "rpm"},
    {"deg", "degree"},
    {"%", "percent"},
    {"tpi", "1/inch"},
    {"kg", "kg"},
    {"g", "g"},
    {"lb", "lb"},
    {"oz", "oz"},
    {"degC", "tempC"},
    {"degF", "tempF"},
    {"min", "minute"},
    {"s", "second"},
    {"h", "hour"},
    {"mm2/s", "mm^2/s"},
    {"cSt", "cSt"},
};

/* Where one symbol stands in two kinds: a difference of temperatures is no reading. */
static const struct {
    const char *symbol, *theirs;
} rises[] = {{"degC", "degC"}, {"degF", "degF"}};

static const char *const bases[KIND_COUNT] = {
    [KIND_LENGTH] = "m",          [KIND_FORCE] = "N",
    [KIND_TORQUE] = "N m",        [KIND_SPEED] = "revolution/minute",
    [KIND_ANGLE] = "degree",      [KIND_RATIO] = "percent",
    [KIND_THREADS] = "1/inch",    [KIND_MASS] = "kg",
    [KIND_TEMPERATURE] = "tempF", [KIND_RISE] = "degF",
    [KIND_TIME] = "second",       [KIND_VISCOSITY] = "mm^2/s",
};

static const char *their_name(const struct unit *unit)
{
    for (size_t i = 0; unit->kind == KIND_RISE && i < sizeof rises / sizeof rises[0]; i++)
        if (strcmp(rises[i].symbol, unit->symbol) == 0)
            return rises[i].theirs;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strcmp(names[i].symbol, unit->symbol) == 0)
            return names[i].theirs;
    fail_msg("'%s' has no line in this test", unit->symbol);
    return NULL;
}

static double ask_units(const char *from, const char *to)
{
    char command[200], answer[100] = "", *end;
    snprintf(command, sizeof command, "units -t -o '%%.15g' '1 %s' '%s' 2>&1", from, to);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    if (!fgets(answer, sizeof answer, pipe))
        answer[0] = '\0';
    assert_int_equal(pclose(pipe), 0);
    double value = strtod(answer, &end);
    if (end == answer || *end != '\n')
        fail_msg("'%s' answers: %s", command, answer);
    return value;
}

static void assert_agrees(const struct unit *unit, double got, double want)
{
    if (!(fabs(got / want - 1) <= 1e-14))
        fail_msg("%s: %.17g, but GNU units says %.17g", unit->symbol, got, want);
}

static void test_every_unit_against_gnu_units(void **state)
{
    (void)state;
    size_t count = 0;
    for (const struct unit *unit; (unit = unit_at(count)); count++) {
        if (unit->kind == KIND_TEMPERATURE)
            continue; /* it has a zero of its own: see below */
        const char *theirs = their_name(unit), *base = bases[unit->kind];
        struct decimal factor = unit_factor(unit);
        double want = ask_units(theirs, base);
        assert_agrees(unit, decimal_to_double(&factor), want);
        assert_agrees(unit, unit_to_base(1, unit), want);
        assert_agrees(unit, unit_from_base(1, unit), ask_units(base, theirs));
    }
    assert_int_equal(count, sizeof names / sizeof names[0] + sizeof rises / sizeof rises[0]);
}

/* GNU units: tempC(60) is 140 degrees Fahrenheit, and so on (rows U45 to U48 of a
 * collection of checks; run here). */
static void test_temperatures(void **state)
{
    (void)state;
    static const char *const rows[][3] = {
        {"60 degC", "tempC(60)", "tempF"},     {"-40 degC", "tempC(-40)", "tempF"},
        {"21.5 degC", "tempC(21.5)", "tempF"}, {"212 degF", "tempF(212)", "tempC"},
        {"68 degF", "tempF(68)", "tempC"},     {"-40 degF", "tempF(-40)", "tempC"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char command[100], answer[60] = "";
        snprintf(command, sizeof command, "units -t -o '%%.15g' '%s' '%s'", rows[i][1],
                 rows[i][2]);
        FILE *pipe = popen(command, "r");
        assert_non_null(fgets(answer, sizeof answer, pipe));
        assert_int_equal(pclose(pipe), 0);
        struct quantity quantity = quantity_of(rows[i][0], KIND_TEMPERATURE);
        const char *other = strcmp(rows[i][2], "tempF") == 0 ? "degF" : "degC";
        const struct unit *unit = unit_find(other, 4);
        assert_within(quantity_in(&quantity, unit), strtod(answer, NULL), 1e-12);
        assert_within(unit_to_base(quantity_in(&quantity, unit), unit), quantity.base, 1e-12);
        assert_within(decimal_to_double(&quantity.exact), quantity.base, 0);
    }
}

static enum kind kind_of(const char *symbol)
{
    const struct unit *unit = unit_find(symbol, strlen(symbol));
    if (!unit)
        fail_msg("'%s' is no unit of ours", symbol);
    return unit->kind;
}

/* "exact" is decided in decimals: both sides are the same number. */
static bool row_holds(const struct facts *row, double *got)
{
    const char *to = row->cells[2], *expected = row->cells[3], *tolerance = row->cells[4];
    char text[100];
    struct quantity quantity = quantity_of(row->cells[1], kind_of(to));
    *got = quantity_in(&quantity, unit_find(to, strlen(to)));
    if (strcmp(tolerance, "exact") != 0)
        return fabs(*got / strtod(expected, NULL) - 1) <= strtod(tolerance, NULL);
    snprintf(text, sizeof text, "%s %s", expected, to);
    struct quantity want = quantity_of(text, kind_of(to));
    return decimal_compare(&quantity.exact, &want.exact) == 0 &&
           fabs(*got / strtod(expected, NULL) - 1) <= 3e-16;
}

static void test_facts(void **state)
{
    (void)state;
    struct facts row = facts_open("conversions.tsv");
    int failed = 0;
    while (facts_next(&row)) {
        double got = 0;
        assert_int_equal(row.count, 7);
        if (!row_holds(&row, &got)) {
            print_error("%s: %s = %.17g %s, not %s (%s; %s; tolerance %s)\n", row.cells[0],
                        row.cells[1], got, row.cells[2], row.cells[3], row.cells[5],
                        row.cells[6], row.cells[4]);
            failed++;
        }
    }
    print_message("%d rows of conversions.tsv\n", row.rows);
    assert_int_equal(failed, 0);
    assert_int_equal(row.rows, 65);
}

/* Beyond the 15 digits of GNU units: a torque's factor is, digit by digit, its
 * force's times its length's. */
/* The mathematics, which knows no unit, has the same inch. */
static void test_inch(void **state)
{
    (void)state;
    assert_true(unit_to_base(1, unit_find("in", 2)) == INCH);
}

static void test_torques_are_products(void **state)
{
    (void)state;
    size_t count = 0;
    for (const struct unit *unit, *force, *length; (unit = unit_at(count)); count++) {
        const char *point = strchr(unit->symbol, '.');
        if (unit->kind != KIND_TORQUE)
            continue;
        assert_non_null(point);
        force = unit_find(unit->symbol, (size_t)(point - unit->symbol));
        length = unit_find(point + 1, strlen(point + 1));
        assert_true(force && length && force->kind == KIND_FORCE);
        struct decimal f = unit_factor(force), l = unit_factor(length), t = unit_factor(unit);
        f = decimal_multiply(&f, &l);
        if (decimal_compare(&f, &t) != 0)
            fail_msg("%s is not %s times %s", unit->symbol, force->symbol, length->symbol);
    }
}

/* International yard and pound agreement (1959), 3rd CGPM (1901). */
static void test_pound_force(void **state)
{
    (void)state;
    struct decimal pound = decimal_of(45359237, -8), gravity = decimal_of(980665, -5);
    struct decimal lbf = unit_factor(unit_find("lbf", 3));
    pound = decimal_multiply(&pound, &gravity);
    assert_int_equal(decimal_compare(&pound, &lbf), 0);
}

static const char *found(const char *symbol)
{
    const struct unit *unit = unit_find(symbol, strlen(symbol));
    return unit ? unit->symbol : "none";
}

static void test_find(void **state)
{
    (void)state;
    for (size_t i = 0; unit_at(i); i++)
        assert_string_equal(found(unit_at(i)->symbol), unit_at(i)->symbol);
    static const char *const rows[][2] = {
        {"lbf·in", "lbf.in"}, {"N·m", "N.m"},       {"kgf·cm", "kgf.cm"}, {"µm", "um"},
        {"°", "deg"},         {"", "none"},         {"lbf in", "none"},   {"lbf..in", "none"},
        {"lbf.", "none"},     {"lbf.inch", "none"}, {"lbs", "none"},      {"LBF", "none"},
        {"mn", "none"},       {"nm", "none"},       {"Nm", "none"},       {"·", "none"},
        {"lbf\xC2", "none"},  {"inch", "none"},     {"\"", "none"},       {"stone", "none"},
        {"mm ", "none"},      {" mm", "none"},      {"N·", "none"},       {"RPM", "none"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(found(rows[i][0]), rows[i][1]) != 0)
            fail_msg("'%s' is found as %s", rows[i][0], found(rows[i][0]));
    assert_string_equal(unit_find("mm and more", 2)->symbol, "mm"); /* the length counts */
    assert_null(unit_find("lbf.in", 5));
}

static void test_other_system(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"mm", "in"},      {"um", "in"},        {"in", "mm"},       {"ft", "mm"},
        {"N", "lbf"},      {"kgf", "lbf"},      {"lbf", "N"},       {"ozf", "N"},
        {"N.m", "lbf.in"}, {"gf.cm", "lbf.in"}, {"lbf.ft", "N.m"},  {"ozf.in", "N.m"},
        {"%", "%"},        {"deg", "deg"},      {"r/min", "r/min"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct unit *unit = unit_find(rows[i][0], strlen(rows[i][0]));
        assert_string_equal(unit_other_system(unit)->symbol, rows[i][1]);
    }
}

/* What a message tells the user to write must be read. */
static void test_examples_are_read(void **state)
{
    (void)state;
    for (int kind = 0; kind < KIND_COUNT; kind++) {
        char text[100];
        snprintf(text, sizeof text, "%s", kind_example((enum kind)kind));
        char *second = strstr(text, " or ");
        if (second) {
            *second = '\0';
            quantity_of(second + 4, (enum kind)kind);
        }
        quantity_of(text, (enum kind)kind);
        assert_true(strlen(kind_name((enum kind)kind)) > 0);
    }
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_every_unit_against_gnu_units),
    cmocka_unit_test(test_facts),
    cmocka_unit_test(test_temperatures),
    cmocka_unit_test(test_inch),
    cmocka_unit_test(test_torques_are_products),
    cmocka_unit_test(test_pound_force),
    cmocka_unit_test(test_find),
    cmocka_unit_test(test_other_system),
    cmocka_unit_test(test_examples_are_read),
};

GROUP(unit, NULL, NULL)
