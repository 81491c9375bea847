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
#include "shop/settings.h"
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

/* The text with the table whose heads these are, under this heading, made of the rows. */
static const char *with_table(const char *text, const char *heading, const char *heads,
                              const char *rows)
{
    const char *at = strstr(text, heading);
    at = at ? strstr(at, heads) : NULL;
    if (!at)
        fail_msg("%s has no table '%s' under '%s'", formats, heads, heading);
    const char *end = strstr(at, "\n\n");
    const char *rule = strchr(at, '\n') + 1;
    rule += strcspn(rule, "\n") + 1;
    return arena_format(arena, "%.*s%s%s", (int)(rule - text), text, rows, end + 1);
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

/* "yes"; or "no", with what stands in or when it is. */
static const char *doc_need(const struct field *field)
{
    if (field->required)
        return "yes";
    if (field->needed)
        return field->needed;
    const char *standing = field->type == FIELD_CHOICE ? field->choices[0] : field->fallback;
    return standing ? arena_format(arena, "no: %s", standing) : "no";
}

static const char *doc_meaning(const char *meaning, const char *hint)
{
    return hint ? arena_format(arena, "%s. %s", meaning, hint) : meaning;
}

static const char *key_rows(void)
{
    const char *rows = "";
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        rows = arena_format(arena, "%s| `%s` | %s | %s | %s |\n", rows, doc_path(field),
                            doc_meaning(field->meaning, field->hint), doc_need(field),
                            field_range(arena, field));
    }
    return rows;
}

static const char *column_rows(const struct record_column *columns, size_t count)
{
    const char *rows = "";
    for (size_t i = 0; i < count; i++)
        rows =
            arena_format(arena, "%s| `%s` | %s | %s | %s |\n", rows, columns[i].name,
                         doc_meaning(columns[i].meaning, columns[i].hint),
                         columns[i].required ? "yes" : "no", column_range(arena, &columns[i]));
    return rows;
}

/* The file holds this text; GOLDEN=update writes it anew. */
static void assert_kept(const char *name, const char *want)
{
    const char *wish = getenv("GOLDEN"), *said = doc_text(name);
    if (wish && strcmp(wish, "update") == 0) {
        FILE *file = fopen(name, "w");
        assert_non_null(file);
        assert_true(fputs(want, file) >= 0);
        assert_int_equal(fclose(file), 0);
        return;
    }
    size_t same = 0;
    while (said[same] == want[same] && want[same])
        same++;
    if (said[same] == want[same])
        return;
    while (same && said[same - 1] != '\n')
        same--;
    fail_msg("%s says\n%.*s\nand the code\n%.*s\nGOLDEN=update writes it anew", name,
             (int)strcspn(said + same, "\n"), said + same, (int)strcspn(want + same, "\n"),
             want + same);
}

/* Keys and columns, as the tables of the code have them. */
static void test_keys_and_columns(void **state)
{
    (void)state;
    const char *want = doc_text(formats);
    want = with_table(want, "\n## content/settings.yaml", "| key |", key_rows());
    want = with_table(want, "\n## content/gauge-check.csv", "| column |",
                      column_rows(check_columns, CHECK_COLUMNS));
    want = with_table(want, "\n## content/readings.csv", "| column |",
                      column_rows(pull_columns, PULL_COLUMNS));
    assert_kept(formats, want);
}

/* The demo's settings are what the program prints of them. */
static void test_remarks(void **state)
{
    (void)state;
    struct shop shop;
    struct buffer want = {0};
    settings_read(arena, diags, settings, NULL, 0, &shop);
    assert_string_equal(faults(), "");
    settings_print(arena, &want, &shop);
    assert_kept(settings, want.bytes);
    buffer_free(&want);
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
    TEST(test_keys_and_columns), TEST(test_remarks),      TEST(test_every_unit),
    TEST(test_every_table),      TEST(test_every_figure), TEST(test_every_block),
    TEST(test_every_value),      TEST(test_every_slot),   TEST(test_every_condition),
};

GROUP(formats, NULL, NULL)
