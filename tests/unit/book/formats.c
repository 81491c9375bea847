/* docs/formats.md and the remarks in content/settings.yaml say what the code does: every
 * key with its range and what stands in for it, every unit, block, table, option, figure,
 * column and slot, and nothing that is not there. */
#include "base/file.h"
#include "doc/blocks.h"
#include "figures/figures.h"
#include "html/html.h"
#include "number/unit.h"
#include "reader_fixture.h"
#include "report/values.h"
#include "shop/fields.h"
#include "shop/logs.h"
#include "tables/tables.h"

/* ---- the tables of the documentation ---- */

enum { DOC_CELLS = 6, DOC_ROWS = 120 };

struct doc_row {
    char *cells[DOC_CELLS];
    size_t count;
};

struct doc_table {
    struct doc_row rows[DOC_ROWS]; /* without the heads */
    size_t count;
};

static char *doc_text(const char *name)
{
    struct file_text text = {0};
    if (!file_read_text(arena, diags, name, &text))
        fail_msg("%s cannot be read; run the test from the top of the tree", name);
    return arena_text(arena, text.bytes);
}

/* Cuts a line "| a | b |" into its cells. */
static struct doc_row doc_row(char *line)
{
    struct doc_row row = {0};
    char *at = strchr(line, '|') + 1;
    for (char *end; (end = strchr(at, '|')) && row.count < DOC_CELLS; at = end + 1) {
        *end = '\0';
        char *last = end;
        while (last > at && last[-1] == ' ')
            *--last = '\0';
        row.cells[row.count++] = at + strspn(at, " ");
    }
    return row;
}

/* The table whose line of heads begins with these words, behind this heading. */
static struct doc_table doc_table(const char *file, const char *heading, const char *heads)
{
    struct doc_table table = {0};
    char *at = strstr(doc_text(file), heading);
    at = at ? strstr(at, heads) : NULL;
    if (!at)
        fail_msg("%s has no table '%s' under '%s'", file, heads, heading);
    strsep(&at, "\n");
    strsep(&at, "\n"); /* the rule */
    for (char *line; (line = strsep(&at, "\n")) && *line == '|';) {
        assert_true(table.count < DOC_ROWS);
        table.rows[table.count++] = doc_row(line);
    }
    return table;
}

/* The next text between two backticks, NULL behind the last. *at moves on. */
static const char *doc_code(const char **at)
{
    const char *open = strchr(*at, '`'), *close = open ? strchr(open + 1, '`') : NULL;
    if (!close)
        return NULL;
    *at = close + 1;
    return arena_slice(arena, open + 1, (size_t)(close - open - 1));
}

/* The row whose first cell names this in code, NULL where none does. */
static struct doc_row *doc_find(struct doc_table *table, const char *name)
{
    for (size_t i = 0; i < table->count; i++) {
        const char *at = table->rows[i].cells[0];
        for (const char *code; (code = doc_code(&at));)
            if (strcmp(code, name) == 0)
                return &table->rows[i];
    }
    return NULL;
}

/* How many names stand in code in the first cells. */
static size_t doc_names(const struct doc_table *table)
{
    size_t names = 0;
    for (size_t i = 0; i < table->count; i++)
        for (const char *at = table->rows[i].cells[0]; doc_code(&at);)
            names++;
    return names;
}

/* ---- what they say ---- */

static const char formats[] = "docs/formats.md", settings[] = "content/settings.yaml";

static void assert_same(const char *what, const char *part, const char *said, const char *want)
{
    if (strcmp(said, want) != 0)
        fail_msg("%s: %s: '%s', not '%s'", what, part, said, want);
}

/* "limits.bands.#.low" -> "limits.bands.N.low" */
static const char *doc_path(const struct field *field)
{
    char *path = arena_text(arena, field->path);
    char *hash = strchr(path, '#');
    if (hash)
        *hash = 'N';
    return path;
}

/* "1 to 100000 r/min", "2 mm to 2 m": the unit once where it is the same. */
static const char *span_text(const char *least, const char *most)
{
    const char *low = strrchr(least, ' '), *high = strrchr(most, ' ');
    if (low && high && strcmp(low, high) == 0)
        return arena_format(arena, "%.*s to %s", (int)(low - least), least, most);
    return arena_format(arena, "%s to %s", least, most);
}

static const char *choice_text(const struct field *field)
{
    const char *text = "";
    for (size_t i = 0; field->choices[i]; i++)
        text = arena_format(arena, "%s%s`%s`", text, i ? ", " : "", field->choices[i]);
    return text;
}

static const char *range_text(const struct field *field)
{
    if (field->type == FIELD_TEXT)
        return "text";
    if (field->type == FIELD_CHOICE)
        return choice_text(field);
    const char *span = span_text(field->least, field->most);
    return field->type == FIELD_LIST ? arena_format(arena, "%s each", span) : span;
}

/* What stands in for a key that is left out, as the code has it. */
static const struct {
    const char *path;
    double value;
    const char *unit;
} defaults[] = {
    {"drum.turns", DRUM_TURNS, ""},
    {"pulls.count", PULLS_COUNT, ""},
    {"pulls.scatter", PULLS_SCATTER, " %"},
    {"pulls.skew", PULLS_SKEW, " deg"},
    {"paper.thickness", PAPER_THICKNESS * 1000, " mm"},
    {"paper.gathering", PAPER_GATHERING, ""},
    {"paper.reading-distance", READING_DISTANCE * 1000, " mm"},
    {"run-in.room", (RUN_IN_ROOM - 32) / 1.8, " degC"},
    {"run-in.stop", (RUN_IN_STOP - 32) / 1.8, " degC"},
    {"run-in.rise", RUN_IN_RISE / 1.8, " degC"},
    {"run-in.stage-time", RUN_IN_STAGE / 60.0, " min"},
    {"run-in.top-time", RUN_IN_TOP / 60.0, " min"},
};

static const char *default_text(const char *path)
{
    if (strcmp(path, "limits.on-file") == 0)
        return "yes";
    for (size_t i = 0; i < sizeof defaults / sizeof defaults[0]; i++)
        if (strcmp(path, defaults[i].path) == 0)
            return arena_format(arena, "%g%s", defaults[i].value, defaults[i].unit);
    return NULL;
}

/* Required: "yes". Else "no", "no: what stands in", or a condition. */
static void check_need(const struct field *field, const char *said)
{
    const char *standing = default_text(field->path);
    if (field->required)
        assert_same(field->path, "needed", said, "yes");
    else if (standing)
        assert_same(field->path, "needed", said, arena_format(arena, "no: %s", standing));
    else if (strcmp(said, "yes") == 0 || strncmp(said, "no:", 3) == 0)
        fail_msg("%s: needed: '%s', but it may be left out and nothing stands in", field->path,
                 said);
}

static void test_every_key(void **state)
{
    (void)state;
    struct doc_table keys = doc_table(formats, "## content/settings.yaml", "| key |");
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        struct doc_row *row = doc_find(&keys, doc_path(field));
        if (!row)
            fail_msg("%s is not in %s", doc_path(field), formats);
        assert_same(field->path, "range", row->cells[3], range_text(field));
        check_need(field, row->cells[2]);
        if (strncmp(row->cells[1], field->meaning, strlen(field->meaning)) != 0)
            fail_msg("%s: '%s', not '%s'", field->path, row->cells[1], field->meaning);
    }
    assert_int_equal(keys.count, settings_field_count);
}

/* ---- the remarks above the keys of the demo's settings ---- */

struct remark {
    char *above;    /* the comment lines above the key, in one line */
    bool commented; /* the key itself is one */
    bool found;
};

/* A line without its blanks at the start and without its "#". */
static const char *bare(const char *line)
{
    line += strspn(line, " ");
    return *line == '#' ? line + 1 + strspn(line + 1, " ") : line;
}

static bool is_key(const char *line, const char *key)
{
    size_t length = strlen(key);
    line = bare(line);
    return strncmp(line, key, length) == 0 && line[length] == ':';
}

/* Is it the band's line that has this key among others? */
static bool holds_key(const char *line, const char *key)
{
    return strstr(line, "- {") && strstr(line, arena_format(arena, "%s: ", key));
}

static bool is_comment(const char *line)
{
    return line[strspn(line, " ")] == '#';
}

/* "  bands:": its rows' remark stands above it. */
static bool opens_rows(const char *line)
{
    return *line && line[strlen(line) - 1] == ':';
}

/* Reads the file line by line up to the section's key. */
static struct remark remark_of(const char *section, const char *key)
{
    struct remark remark = {.above = arena_text(arena, "")};
    bool inside = false;
    char *text = doc_text(settings);
    for (char *line = strsep(&text, "\n"); line; line = strsep(&text, "\n")) {
        if (line[0] != ' ' && is_key(line, section))
            inside = true;
        else if (inside && (is_key(line, key) || holds_key(line, key)))
            return (struct remark){remark.above, is_comment(line), true};
        if (is_comment(line) && !is_key(line, section))
            remark.above = arena_format(arena, "%s %s", remark.above, bare(line));
        else if (!is_key(line, section) && !opens_rows(line))
            remark.above[0] = '\0';
    }
    return remark;
}

/* "limits.bands.#.low" -> "limits" and "low" */
static struct remark remark_of_field(const struct field *field)
{
    const char *dot = strchr(field->path, '.');
    return remark_of(arena_slice(arena, field->path, (size_t)(dot - field->path)),
                     strrchr(field->path, '.') + 1);
}

static void require_words(const struct field *field, const struct remark *remark,
                          const char *words)
{
    if (!strstr(remark->above, words))
        fail_msg("%s: the remark above %s lacks '%s': %s", settings, field->path, words,
                 remark->above);
}

static void check_remark_range(const struct field *field, const struct remark *remark)
{
    if (field->type == FIELD_TEXT)
        return;
    if (field->type == FIELD_CHOICE) {
        for (size_t i = 0; field->choices[i]; i++)
            require_words(field, remark, field->choices[i]);
        return;
    }
    const char *up_to = arena_format(arena, "p to %s", field->most); /* Up to, up to */
    bool from_nothing = strtod(field->least, NULL) <= 0.00001 && field->least[0] != '-';
    if (!from_nothing || !strstr(remark->above, up_to))
        require_words(field, remark, range_text(field));
}

static void test_every_remark(void **state)
{
    (void)state;
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        struct remark remark = remark_of_field(field);
        if (!remark.found)
            fail_msg("%s is not in %s", field->path, settings);
        if (!remark.above[0])
            fail_msg("%s: nothing stands above %s", settings, field->path);
        check_remark_range(field, &remark);
        if (default_text(field->path))
            require_words(
                field, &remark,
                arena_format(arena, "May be left out: %s", default_text(field->path)));
        else if (!field->required && !strstr(remark.above, "Only when "))
            require_words(field, &remark, "ay be left out");
        if (field->required && remark.commented)
            fail_msg("%s: %s is needed and commented out", settings, field->path);
    }
}

/* ---- units ---- */

/* Every unit stands in code in the text from this word to that. */
static void check_units(const char *file, const char *from, const char *to,
                        const char *left_out)
{
    char *start = strstr(doc_text(file), from), *end = start ? strstr(start, to) : NULL;
    if (!end)
        fail_msg("%s: no text from '%s' to '%s'", file, from, to);
    *end = '\0';
    for (char *at = start; *at; at++)
        if (strchr("`\n,;#()", *at))
            *at = ' ';
    for (size_t i = 0; unit_at(i); i++) {
        const char *symbol = unit_at(i)->symbol;
        bool known = strstr(start, arena_format(arena, " %s ", symbol)) ||
                     strstr(start, arena_format(arena, " %s.", symbol));
        bool spared = strstr(left_out, arena_format(arena, " %s ", symbol));
        if (known == spared)
            fail_msg("%s: the unit %s is %s", file, symbol, known ? "named" : "missing");
    }
}

static void test_every_unit(void **state)
{
    (void)state;
    check_units(formats, "\nUnits: ", "\n\n", "");
    check_units(settings, "# Units: ", "\n#\n", " kg g lb oz "); /* of the logs */
}

/* ---- pages ---- */

static void test_every_table(void **state)
{
    (void)state;
    struct doc_table tables = doc_table(formats, "## content/*.md", "| table |");
    size_t count = 0;
    for (const struct table_kind *kind; (kind = tables_at(count)); count++) {
        struct doc_row *row = doc_find(&tables, kind->name);
        if (!row)
            fail_msg("the table %s is not in %s", kind->name, formats);
        size_t options = 0;
        for (const char *at = row->cells[1]; doc_code(&at); options++)
            ;
        if (kind->option && !strstr(row->cells[1], arena_format(arena, "`%s: ", kind->option)))
            fail_msg("%s: the option %s is missing", kind->name, kind->option);
        if (options != (kind->option != NULL))
            fail_msg("%s has no such options: %s", kind->name, row->cells[1]);
    }
    assert_int_equal(doc_names(&tables), count);
}

static void test_every_figure(void **state)
{
    (void)state;
    struct doc_table figures = doc_table(formats, "## content/*.md", "| figure |");
    size_t count = 0;
    for (const struct figure_kind *kind; (kind = figures_at(count)); count++)
        if (!doc_find(&figures, kind->name))
            fail_msg("the figure %s is not in %s", kind->name, formats);
    assert_int_equal(doc_names(&figures), count);
}

/* Counts the names of a list "a, b and c". */
static size_t list_length(const char *list)
{
    size_t count = 1;
    for (const char *at = list; *at; at++)
        count += *at == ',' || strncmp(at, " and ", 5) == 0;
    return count;
}

/* The blocks that the reader says it knows; and bare fences. */
static void test_every_block(void **state)
{
    (void)state;
    struct doc_table blocks = doc_table(formats, "## content/*.md", "| fence |");
    struct node node = {.at = {.file = "page.md"}};
    block_read(arena, diags, "nothing", "", &node);
    const char *list = strstr(faults(), "the blocks are ");
    list = arena_text(arena, list + strlen("the blocks are "));
    *strstr(list, ", and bare fences") = '\0';
    for (size_t i = 0; i < blocks.count; i++) {
        char *word = strstr(blocks.rows[i].cells[0], "```` ```") + strlen("```` ```");
        word[strcspn(word, " ")] = '\0'; /* "" for bare fences */
        if (!strstr(list, word))
            fail_msg("the block %s is not known: %s", word, list);
    }
    assert_int_equal(blocks.count, list_length(list) + 1);
}

/* Every value that a form may name, with its meaning. */
static void test_every_value(void **state)
{
    (void)state;
    struct doc_table values = doc_table(formats, "## content/form-*.md", "| value |");
    size_t count = 0;
    for (const struct form_value *value; (value = form_value_at(count)); count++) {
        struct doc_row *row = doc_find(&values, value->name);
        if (!row)
            fail_msg("the value %s is not in %s", value->name, formats);
        assert_same(value->name, "meaning", row->cells[1], value->meaning);
    }
    assert_int_equal(doc_names(&values), count);
}

/* Every condition at the head of a text, with its meaning. */
static void test_every_condition(void **state)
{
    (void)state;
    struct doc_table conditions = doc_table(formats, "## content/form-*.md", "| condition |");
    size_t count = 0;
    for (const struct condition *it; (it = condition_at(count)); count++) {
        struct doc_row *row = doc_find(&conditions, it->name);
        if (!row)
            fail_msg("the condition %s is not in %s", it->name, formats);
        assert_same(it->name, "meaning", row->cells[1], it->meaning);
    }
    assert_int_equal(doc_names(&conditions), count);
}

/* ---- logs ---- */

/* A log without a single good head: the faults name every column and the needed ones. */
static void check_columns(const char *heading, const char *said)
{
    struct doc_table columns = doc_table(formats, heading, "| column |");
    const char *list = strstr(said, "the columns are ");
    list = arena_format(arena, ", %s, ", list + strlen("the columns are "));
    *strchr(list, '\n') = ',';
    for (size_t i = 0; i < columns.count; i++) {
        const char *at = columns.rows[i].cells[0];
        for (const char *name; (name = doc_code(&at));) {
            if (!strstr(list, arena_format(arena, ", %s,", name)))
                fail_msg("%s: there is no column %s", heading, name);
            bool missed = strstr(said, arena_format(arena, "the column '%s' is missing", name));
            assert_same(name, "needed", columns.rows[i].cells[2], missed ? "yes" : "no");
        }
    }
    size_t commas = 0;
    for (const char *at = list; *at; at++)
        commas += *at == ',';
    assert_int_equal(doc_names(&columns), commas - 2);
}

static void test_every_column(void **state)
{
    (void)state;
    struct shop shop = {0};
    struct file_text text;
    char *file = file_of("x\n");
    gauge_log_read(arena, diags, file, &text, &shop);
    check_columns("## content/gauge-check.csv", faults());
    diags = diags_new(arena);
    pull_log_read(arena, diags, file, &shop);
    check_columns("## content/readings.csv", faults());
    unlink(file);
}

/* ---- templates ---- */

/* An empty template lacks every slot; what fills them stands in page.html's own words. */
static void test_every_slot(void **state)
{
    (void)state;
    struct doc_table slots = doc_table(formats, "## templates/", "| slot |");
    char *file = file_of("<p>\n");
    html_template_read(arena, diags, file);
    unlink(file);
    const char *said = faults(), *page = doc_text("templates/page.html");
    for (size_t i = 0; i < slots.count; i++) {
        const char *at = slots.rows[i].cells[0], *name = doc_code(&at);
        if (!strstr(said, arena_format(arena, "the slot '%s' is missing", name)))
            fail_msg("there is no slot %s", name);
        if (!strstr(page,
                    arena_format(arena, "\n    %-12s %s\n", name, slots.rows[i].cells[1])))
            fail_msg("templates/page.html says other words of the slot %s", name);
    }
    assert_int_equal(slots.count, diags_count(diags));
}

static const struct CMUnitTest tests[] = {
    TEST(test_every_key),       TEST(test_every_remark), TEST(test_every_unit),
    TEST(test_every_table),     TEST(test_every_figure), TEST(test_every_block),
    TEST(test_every_value),     TEST(test_every_column), TEST(test_every_slot),
    TEST(test_every_condition),
};

GROUP(formats, NULL, NULL)
