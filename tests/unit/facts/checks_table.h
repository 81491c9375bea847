/* Runs a table of values known from outside: each row names a function and its
 * arguments, what it should give, and where that is from: seen, from memory, or worked
 * out apart. */
#ifndef TESTS_CHECKS_TABLE_H
#define TESTS_CHECKS_TABLE_H

#include "facts.h"
#include "test.h"

enum { ID, WHAT, FUNCTION, ARGUMENTS, EXPECTED, TOLERANCE, SOURCE, STANDING, COLUMNS };
enum { MOST_ARGUMENTS = 10, TEXT = 200 };

/* The arguments of a row, as words and as numbers. */
struct asked {
    char words[TEXT];
    const char *word[MOST_ARGUMENTS];
    double number[MOST_ARGUMENTS];
    size_t count;
};

typedef double number_of(const struct asked *asked);
typedef void text_of(const struct asked *asked, char *out);

struct function {
    const char *name;
    number_of *number; /* either this */
    text_of *text;     /* or this */
};

static inline struct asked asked_of(const char *arguments)
{
    static struct asked asked;
    asked = (struct asked){.count = 0};
    snprintf(asked.words, sizeof asked.words, "%s", arguments);
    for (char *word = strtok(asked.words, " "); word; word = strtok(NULL, " ")) {
        assert_true(asked.count < MOST_ARGUMENTS);
        asked.word[asked.count] = word;
        asked.number[asked.count++] = strtod(word, NULL);
    }
    return asked;
}

/* "printed": half of the last digit printed; "exact"; or a number, behind which "rel"
 * means a share of the value. */
static inline double tolerance_of(const struct facts *row, double expected)
{
    const char *tolerance = row->cells[TOLERANCE];
    if (strcmp(tolerance, "printed") == 0)
        return half_last_digit(row->cells[EXPECTED]);
    if (strcmp(tolerance, "exact") == 0)
        return 0;
    char *end;
    double value = strtod(tolerance, &end);
    assert_true(end != tolerance && value > 0);
    return strcmp(end, " rel") == 0 ? value * fabs(expected) : value;
}

static inline void run_row(const struct facts *row, const struct function *functions,
                           size_t count)
{
    const char *name = row->cells[FUNCTION], *wanted = row->cells[EXPECTED];
    struct asked asked = asked_of(row->cells[ARGUMENTS]);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(functions[i].name, name) != 0)
            continue;
        if (functions[i].text) {
            char got[TEXT];
            functions[i].text(&asked, got);
            if (strcmp(got, wanted) != 0)
                fail_msg("%s: %s, not %s", row->cells[ID], got, wanted);
            return;
        }
        double got = functions[i].number(&asked), expected = strtod(wanted, NULL);
        if (!(fabs(got - expected) <= tolerance_of(row, expected)))
            fail_msg("%s: %.15g, not %s", row->cells[ID], got, wanted);
        return;
    }
    fail_msg("%s: there is no function %s", row->cells[ID], name);
}

static inline void run_checks(const char *file, const struct function *functions, size_t count,
                              int least_rows)
{
    int seen = 0, memory = 0, apart = 0;
    struct facts facts = facts_open(file);
    while (facts_next(&facts)) {
        assert_int_equal(facts.count, COLUMNS);
        run_row(&facts, functions, count);
        seen += strcmp(facts.cells[STANDING], "seen") == 0;
        memory += strcmp(facts.cells[STANDING], "from memory") == 0;
        apart += strcmp(facts.cells[STANDING], "worked out apart") == 0;
    }
    print_message("%d checks: %d seen, %d from memory, %d worked out apart\n", facts.rows, seen,
                  memory, apart);
    assert_int_equal(seen + memory + apart, facts.rows);
    assert_true(facts.rows >= least_rows); /* rows must not go missing */
}

#endif
