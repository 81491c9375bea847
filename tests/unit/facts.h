/* Reads the tables of facts under tests/data: tab-separated, one row of heads.
 * Tests run from the top of the tree. */
#ifndef TESTS_FACTS_H
#define TESTS_FACTS_H

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FACT_COLUMNS = 12, FACT_LINE = 512 };

struct facts {
    FILE *file;
    char line[FACT_LINE];
    char *cells[FACT_COLUMNS];
    int count; /* cells of this row */
    int rows;  /* read so far, without the heads */
};

static inline struct facts facts_open(const char *name)
{
    struct facts facts = {0};
    char path[256];
    snprintf(path, sizeof path, "tests/data/%s", name);
    facts.file = fopen(path, "r");
    if (!facts.file || !fgets(facts.line, sizeof facts.line, facts.file)) {
        fprintf(stderr, "%s cannot be read; run the test from the top of the tree\n", path);
        exit(1);
    }
    return facts;
}

/* The next row; closes the file behind the last. */
static inline int facts_next(struct facts *facts)
{
    if (!fgets(facts->line, sizeof facts->line, facts->file)) {
        fclose(facts->file);
        return 0;
    }
    facts->line[strcspn(facts->line, "\r\n")] = '\0';
    facts->count = 0;
    for (char *at = facts->line; at && facts->count < FACT_COLUMNS;) {
        facts->cells[facts->count++] = at;
        at = strchr(at, '\t');
        if (at)
            *at++ = '\0';
    }
    facts->rows++;
    return 1;
}

static inline double fact(const struct facts *facts, int column)
{
    return strtod(facts->cells[column], NULL);
}

/* Points from a file of x and y, with something taken off every x; how many. */
static inline size_t facts_points(const char *name, double off, double *x, double *y)
{
    struct facts facts = facts_open(name);
    while (facts_next(&facts)) {
        x[facts.rows - 1] = fact(&facts, 0) - off;
        y[facts.rows - 1] = fact(&facts, 1);
    }
    return (size_t)facts.rows;
}

/* A file of bare numbers has no heads: the first line counts too. */
static inline size_t facts_numbers(const char *name, double *values)
{
    struct facts facts = facts_open(name);
    values[0] = strtod(facts.line, NULL);
    while (facts_next(&facts))
        values[facts.rows] = fact(&facts, 0);
    return (size_t)facts.rows + 1;
}

/* How far a printed number may be off: half of its last digit, and a hair. */
static inline double half_last_digit(const char *printed)
{
    const char *point = strchr(printed, '.');
    double half = 0.5;
    for (size_t i = point ? strspn(point + 1, "0123456789") : 0; i > 0; i--)
        half /= 10;
    return half * 1.000001;
}

/* cmocka compares in single precision; this does not. */
#define assert_within(got, want, tolerance)                                                    \
    do {                                                                                       \
        double got_ = (got), want_ = (want);                                                   \
        if (!(fabs(got_ - want_) <= (tolerance)))                                              \
            fail_msg("%.15g, not %.15g", got_, want_);                                         \
    } while (0)

/* To twelve digits; of less than one, to twelve places. */
#define assert_number(got, want) assert_within(got, want, 1e-12 * fmax(1, fabs(want)))

#endif
