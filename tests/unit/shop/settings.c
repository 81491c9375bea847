/* Settings from their file to the shop: what YAML may say here, and each kind of
 * field. What the whole program says of a bad file stands in tests/faults. */
#include "shop/settings.h"
#include "reader_fixture.h"
#include "shop/fields.h"
#include "shop/setting_list.h"

static const char whole[] =
    "lathe: {name: L, top-speed: 1600 r/min}\n"
    "limits:\n"
    "  {source: m, torque: running, basis: absolute, bearings: used, warmth: cold,\n"
    "   bands: [{from: 0 r/min, to: 2000 r/min, low: 0.5 N.m, high: 0.8 N.m}]}\n"
    "drum: {diameter: 62 mm, tolerance: 0.1 mm}\n"
    "cord: {diameter: 0.8 mm, tolerance: 0.1 mm}\n"
    "gauge: {capacity: 50 N, step: 0.05 N, full-scale-error: 0.5 %}\n"
    "tables: {drum-sizes: '40 mm, 50 mm'}\n"
    "paper: {booklet: a5, card: a6}\n";

/* The shop of the whole settings with one of them replaced, if any. */
static struct shop shop_with(const char *replacement)
{
    struct shop shop;
    const char *name = file_of(whole);
    settings_read(arena, diags, name, &replacement, replacement != NULL, &shop);
    unlink(name);
    return shop;
}

static struct setting_list read_settings(const char *text)
{
    struct setting_list list;
    struct file_text file = {.name = "s.yaml", .bytes = text, .length = strlen(text)};
    setting_list_read(arena, diags, &file, &list);
    return list;
}

static void test_whole(void **state)
{
    (void)state;
    struct shop shop = shop_with(NULL);
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(shop.limits.band_count, 1);
    assert_int_equal(shop.drum_sizes.count, 2);
    assert_string_equal(shop.drum.diameter.q.digits, "62");
    assert_int_equal(shop.drum.diameter.at.line, 5);
    assert_int_equal(strlen(shop.fingerprint), 8);
}

/* In the folder where the program runs the name has no slash. */
static void test_file_beside(void **state)
{
    (void)state;
    char *name = file_of(whole), before[4096];
    struct shop shop;
    assert_non_null(getcwd(before, sizeof before));
    assert_int_equal(chdir("/tmp"), 0);
    settings_read(arena, diags, strrchr(name, '/') + 1, NULL, 0, &shop);
    assert_int_equal(chdir(before), 0);
    unlink(name);
    assert_int_equal(diags_count(diags), 0);
}

/* Things that YAML allows and settings do not, each where it stands. */
static void test_yaml_that_is_not_used(void **state)
{
    (void)state;
    static const char *const rows[][3] = {
        {"hello\n", "s.yaml:1:1: ", "a lone value stands here"},
        {"a: \"x\\0y\"\n", "s.yaml:1:5: ", "the value holds a NUL"},
        {"? {a: b}\n: c\n", "s.yaml:1:3: ", "a key is a single word"},
        {"? [a]\n: c\n", "s.yaml:1:3: ", "a key is a single word"},
        {"a: [[[[[[[[b]]]]]]]]\n", "s.yaml:1:11: ", "too deep in each other"},
        {"a: *b\n", "s.yaml:1:4: ", "anchors"},
        {"a: &b c\n", "s.yaml:1:4: ", "anchors"},
        {"a: !b c\n", "s.yaml:1:4: ", "anchors"},
        {"a: &b {c: d}\n", "s.yaml:1:4: ", "anchors"},
        {"a: !b {c: d}\n", "s.yaml:1:4: ", "anchors"},
        {"a: &b [c]\n", "s.yaml:1:4: ", "anchors"},
        {"a: !b [c]\n", "s.yaml:1:4: ", "anchors"},
        {"a: b\n---\nc: d\n", "s.yaml:2:1: ", "a second document begins"},
        {"a: b: c\n", "s.yaml:1:5: ", "cannot be read from here on (mapping values"},
        {"a: 'b\n",
         "s.yaml:1:4: ", "cannot be read: on line 2, column 1, found unexpected end"},
        {"a: b\na: c\n", "s.yaml:2:4: ", "a is given twice, first on line 1"},
        {"a: [b, {c: d, c: e}]\n", "s.yaml:1:18: ", "a.2.c is given twice"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        read_settings(rows[i][0]);
        assert_fault(rows[i][1], rows[i][2]);
        teardown(NULL);
        setup(NULL);
    }
}

/* A remark behind a value, and where there is none. */
static void test_remarks_behind(void **state)
{
    (void)state;
    static const char text[] = "a:\n  b: ply drum #2\n  c: ply drum#2\n  d: 'ply #2' # ply\n"
                               "  e: \xC3\xA4\xC3\xB6\xC3\xBC   # x\n  f: {g: h # i\n  }\n"
                               "j: k l\r\nm: n\t# o\np: q";
    static const bool cut[] = {true, false, true, true, true, false, true, false};
    struct setting_list list;
    struct file_text file = {.name = "s.yaml", .bytes = text, .length = strlen(text)};
    setting_list_read(arena, diags, &file, &list);
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(list.count, sizeof cut / sizeof cut[0]);
    assert_string_equal(list.items[0].value, "ply drum");
    for (size_t i = 0; i < list.count; i++)
        assert_int_equal(list.items[i].cut, cut[i]);
}

/* Line ends that are not all counted alike: nothing is read behind the text. */
static void test_remarks_behind_odd_line_ends(void **state)
{
    (void)state;
    static const char text[] = "a: b\rc: d\re: f\rg: h\ri: j # k";
    struct setting_list list;
    struct file_text file = {.name = "s.yaml", .bytes = text, .length = strlen(text)};
    setting_list_read(arena, diags, &file, &list);
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(list.count, 5);
}

/* They would end a remark where no editor shows it: the rest would be read. */
static void test_unseen_line_ends(void **state)
{
    (void)state;
    static const char *const ends[] = {"\xC2\x85", "\xE2\x80\xA8", "\xE2\x80\xA9"};
    for (size_t i = 0; i < 3; i++) {
        struct setting_list list;
        size_t before = diags_count(diags);
        const char *text = arena_format(arena, "a: b\n# c%sd: e\n", ends[i]);
        struct file_text file = {.name = "s.yaml", .bytes = text, .length = strlen(text)};
        setting_list_read(arena, diags, &file, &list);
        assert_int_equal(diags_count(diags), before + 1);
        assert_int_equal(list.count, 0);
    }
    assert_non_null(
        strstr(faults(), "s.yaml:2:4: a line ends here that no editor shows (U+0085)"));
}

/* Fields of each type that cannot be what they say, set on the command line, where
 * there is no column to give. */
static void test_replaced_by_nonsense(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"drum.diameter=62 stone", "'stone' is not a unit"},
        {"drum.diameter=3 m", "must lie between 2 mm and 2 m, not 3 m"},
        {"drum.diameter=", "has no value"},
        {"pulls.count=1", "cannot be '1'; write a whole number from 2 to 20"},
        {"pulls.count=21", "cannot be '21'"},
        {"pulls.count=five", "cannot be 'five'"},
        {"pulls.count=5 N", "cannot be '5 N'"},
        {"paper.card=a4", "cannot be 'a4'; write the word a5, a6"},
        {"lathe.name=a\nb", "holds a line end"},
        {"lathe.name=a\x7F", "holds a line end or another control character"},
        {"lathe.nickname=a", "there is no setting 'lathe.nickname'; the keys in that section"},
        {"lathes.name=a",
         "there is no setting 'lathes.name'; write lathe if that is meant; the"},
        {"limits.bands.1.mid=1 N", "the keys in that section are from, to, low, high, page"},
        {"limits.bands.0.low=1 N", "limits.bands is a list with a row for each speed band"},
        {"limits.bands.41.low=1 N", "limits.bands has more than 40 rows"},
        {"limits.bands.x.low=1 N", "limits.bands is a list with a row for each speed band"},
        {"limits.bands.1=1 N", "row 1 of limits.bands has no keys"},
        {"limits.bands.01.low=1 N.m", "limits.bands is a list with a row for each speed band"},
        {"limits.bands.+1.low=1 N.m", "limits.bands is a list with a row for each speed band"},
        {"tables.drum-sizes=40 mm, 5 N", "N is a unit of force"},
        {"no-equals", "is not a key, '=' and a value"},
        {"drum.name=\xFF", "is not UTF-8; write it in plain text"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        shop_with(rows[i][0]);
        assert_fault("--set", rows[i][1]);
        teardown(NULL);
        setup(NULL);
    }
}

static void test_replaced_well(void **state)
{
    (void)state;
    assert_int_equal(shop_with("pulls.count=7").pulls.count.number, 7);
    assert_int_equal(shop_with("paper.card=half-letter").paper.card, 2);
    assert_string_equal(shop_with("lathe.workshop=Mill \xC3\xA9").lathe.workshop,
                        "Mill \xC3\xA9");
    assert_int_equal(diags_count(diags), 0);
}

/* Every value that a shop has, as settings of a page. */
static struct setting_list written(const struct shop *shop)
{
    struct setting_list list = {0};
    for (size_t i = 0; i < settings_field_count; i++)
        for (size_t row = 1; row <= field_rows(&settings_fields[i], shop); row++) {
            const char *text = field_text(arena, &settings_fields[i], shop, row);
            const char *path = field_path(arena, &settings_fields[i], row);
            if (text)
                *ARENA_PUSH(arena, list.items, list.count) =
                    (struct setting){.path = path, .value = text, .at = {.file = path}};
        }
    return list;
}

static struct shop shop_from(const struct setting_list *list)
{
    struct shop shop = {0};
    struct settings_reader reader = {arena, diags, list, &shop, true};
    bands_make(&reader);
    for (size_t i = 0; i < list->count; i++) {
        int row;
        const struct field *field = field_find(list->items[i].path, &row);
        assert_non_null(field);
        field_read(&reader, field, row, &list->items[i]);
    }
    return shop;
}

/* What the page is given is what it gives back: each text, of every type and of the bands. */
static void test_written_as_read(void **state)
{
    (void)state;
    static const char *const added[] = {"lathe.speeds=45 r/min, 1000 r/min", "pulls.count=7",
                                        "spindle.arrangement=face-to-face",
                                        "limits.bands.1.page=p. 7", "site.latitude=-33.5 deg"};
    struct shop shop;
    const char *name = file_of(whole);
    settings_read(arena, diags, name, added, sizeof added / sizeof added[0], &shop);
    unlink(name);
    assert_string_equal(faults(), "");
    struct setting_list first = written(&shop);
    shop = shop_from(&first);
    struct setting_list second = written(&shop);
    assert_string_equal(faults(), "");
    assert_true(first.count >= 25);
    assert_int_equal(first.count, second.count);
    for (size_t i = 0; i < first.count; i++) {
        assert_string_equal(first.items[i].path, second.items[i].path);
        assert_string_equal(first.items[i].value, second.items[i].value);
    }
    assert_string_equal(setting_list_find(&first, "pulls.count")->value, "7");
    assert_string_equal(setting_list_find(&first, "limits.bands.1.page")->value, "p. 7");
}

/* An input may be left empty where its key may be left out; what is told need not name it. */
static void test_beside_its_input(void **state)
{
    (void)state;
    struct setting items[] = {
        {.path = "pulls.skew", .value = "", .at = {.file = "pulls.skew"}},
        {.path = "drum.bore", .value = "8 stone", .at = {.file = "drum.bore"}}};
    struct setting_list list = {.items = items, .count = 2};
    struct shop shop = shop_from(&list);
    assert_false(given(&shop.pulls.skew) || given(&shop.drum.bore));
    assert_fault("drum.bore: 'stone'", "is not a unit");
    items[1] =
        (struct setting){.path = "drum.diameter", .value = "", .at = {.file = "drum.diameter"}};
    shop = shop_from(&list);
    assert_int_equal(diags_count(diags), 2);
}

/* What holds nothing is no reason to go without a limit, and a name that is none is told
 * beside the one that it is like. */
static void test_empty_and_unknown(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"never-exceed: []",
         ":2:17: limits.never-exceed (the drag that no spindle of this kind "
         "may have) has no value; write a torque, 0.00001 to 1000 N.m, or delete the line"},
        {"never-exceed: {}", ":2:17: limits.never-exceed (the drag"},
        {"never-exceed: [[]]", ":2:18: limits.never-exceed is one value, not several"},
        {"never-exceeded: {}", ":2:19: there is no setting 'limits.never-exceeded'; write "
                               "never-exceed if that is meant; the keys in that section are"},
        {"never-exceeded:",
         "there is no setting 'limits.never-exceeded'; write never-exceed if"},
        {"{}", "'limits' is a section"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct shop shop;
        char *name = file_of(arena_format(arena, "limits:\n  %s\n", rows[i][0]));
        settings_read(arena, diags, name, NULL, 0, &shop);
        unlink(name);
        if (!strstr(faults(), rows[i][1]))
            fail_msg("no '%s' in %s", rows[i][1], faults());
        teardown(NULL);
        setup(NULL);
    }
}

static void test_empty_sections(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"gage: {}", ":1:7: there is no setting 'gage'; write gauge if that is meant; the "
                     "sections are lathe, limits,"},
        {"gage: []", ":1:7: there is no setting 'gage'; write gauge if that is meant"},
        {"gage: {capacity: 5 N}", ":1:18: there is no setting 'gage.capacity'; write gauge if"},
        {"anchor: {}", ":1:9: there is no setting 'anchor'; the sections are"},
        {"gauge: {}", ":1:8: 'gauge' is a section; write its keys"},
        {"limits: {bands: []}", ":1:17: limits.bands is a list with a row for each speed band"},
        {"limits: {bands: [{}]}", ":1:18: row 1 of limits.bands has no keys"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct shop shop;
        char *name = file_of(rows[i][0]);
        settings_read(arena, diags, name, NULL, 0, &shop);
        unlink(name);
        if (!strstr(faults(), rows[i][1]))
            fail_msg("no '%s' in %s", rows[i][1], faults());
        teardown(NULL);
        setup(NULL);
    }
}

/* Where a value in quotes goes over several lines, or holds escapes, a fault stands at its very
 * sign all the same. */
static void test_places_in_quotes(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"'40 mm, 5 N, 50 mm'", ":2:25: "},
        {"'40 mm,\n    50 mm, 5 N'", ":3:14: "},
        {"'40 mm,   \n\n   50 mm,\n  5 N'", ":5:5: "},
        {"\"40 mm,\\\n    50 mm,\\\n  \\x35 N\"", ":4:8: "},
        {"\"40 mm, \\u0035\\x30 \\\n    mm, 5 N\"", ":3:11: "},
        {"40 mm,\r\n    50 mm, 5 N", ":3:14: "},
        {"'40 mm, 50 mm,\n    ''5 mm'", ":3:5: "},
        {"'40 mm, 5\u00a0N'", ":2:25: "},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct shop shop;
        char *name = file_of(arena_format(arena, "tables:\n  drum-sizes: %s\n", rows[i][0]));
        settings_read(arena, diags, name, NULL, 0, &shop);
        unlink(name);
        if (!strstr(faults(), arena_format(arena, "%s%stables.drum-sizes: ", name, rows[i][1])))
            fail_msg("%zu: not at %s: %s", i, rows[i][1], faults());
        teardown(NULL);
        setup(NULL);
    }
}

/* Sixty sizes are enough. */
static void test_long_lists(void **state)
{
    (void)state;
    struct buffer sizes = {0};
    buffer_print(&sizes, "tables.drum-sizes=10 mm");
    for (int i = 1; i < 60; i++)
        buffer_print(&sizes, ", %d mm", 10 + i);
    assert_int_equal(shop_with(sizes.bytes).drum_sizes.count, 60);
    assert_int_equal(diags_count(diags), 0);
    buffer_print(&sizes, ", 99 mm");
    shop_with(sizes.bytes);
    assert_fault("--set", "has more than 60 entries");
    buffer_free(&sizes);
}

/* A file without end is left off, at the value that is one too many. */
static void test_more_values_than_there_can_be(void **state)
{
    (void)state;
    struct buffer text = {0};
    buffer_print(&text, "a:\n");
    for (int i = 0; i < 2010; i++)
        buffer_print(&text, "  k%d: 1\n", i);
    read_settings(text.bytes);
    assert_fault("s.yaml:2002:10: ", "more than 2000 values stand here");
    buffer_free(&text);
}

/* A replacement has no line: its section's place is that of what stands in the file. */
static void test_missing_beside_a_replacement(void **state)
{
    (void)state;
    static const char *const replacements[] = {"cord.name=silk", "drum.name=brass"};
    struct shop shop;
    const char *name = file_of("drum: {tolerance: 0.1 mm}\n");
    settings_read(arena, diags, name, replacements, 2, &shop);
    const char *at_drum = arena_format(arena, "%s:1:7: drum.diameter (", name);
    const char *at_file = arena_format(arena, "%s: cord.diameter (", name);
    unlink(name);
    assert_non_null(strstr(faults(), at_drum));
    assert_non_null(strstr(faults(), at_file));
}

/* The settings as the program prints them of a file. */
static const char *printed(const char *text, const char *replacement)
{
    struct shop shop;
    struct buffer out = {0};
    char *name = text ? file_of(text) : NULL;
    if (name) {
        settings_read(arena, diags, name, &replacement, replacement != NULL, &shop);
        unlink(name);
    }
    settings_print(arena, &out, name ? &shop : NULL);
    const char *made = arena_text(arena, out.bytes);
    buffer_free(&out);
    return made;
}

/* Printed, read and printed again they say the same; what was typed stands there. */
static void test_printed(void **state)
{
    (void)state;
    static const char *const typed[][2] = {
        {"lathe.name=Mill \\ 5\" \xC3\xA9 # 2: x",
         "  name: \"Mill \\\\ 5\\\" \xC3\xA9 # 2: x\"\n"},
        {"pulls.count=5", "  count: 5\n"},
        {"run-in.rise=9 degF", "  rise: 9 degF\n"},
        {"site.latitude=-33.5 deg", "\nsite:\n"},
        {"oil.grade=vg-32", "  grade: vg-32\n"},
        {"limits.bands.1.page=p. 7, 8", "high: 0.8 N.m, page: \"p. 7, 8\"}\n"},
        {NULL, "  # rise: 35 degC\n"},
        {NULL, "\n# site:\n"},
        {NULL, "  # grade: not-known\n"},
    };
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        const char *once = printed(whole, typed[i][0]), *again = printed(once, NULL);
        assert_string_equal(faults(), "");
        assert_string_equal(once, again);
        if (!strstr(once, typed[i][1]))
            fail_msg("no '%s' in %s", typed[i][1], once);
    }
}

/* Without limits no key of theirs is printed as if it stood there. */
static void test_printed_without_limits(void **state)
{
    (void)state;
    char *text = arena_text(arena, whole), *from = strstr(text, "  {source"),
         *to = strstr(text, "drum:");
    const char *without =
        arena_format(arena, "%.*s  {on-file: none}\n%s", (int)(from - text), text, to);
    const char *once = printed(without, NULL);
    assert_string_equal(once, printed(once, NULL));
    assert_string_equal(faults(), "");
    assert_non_null(strstr(once, "\n  on-file: none\n"));
    assert_non_null(strstr(once, "\n  # torque:\n"));
}

/* The file to be filled in wants every needed key, and says so; nothing in it is unknown. */
static void test_printed_blank(void **state)
{
    (void)state;
    struct shop shop;
    char *name = file_of(printed(NULL, NULL));
    settings_read(arena, diags, name, NULL, 0, &shop);
    unlink(name);
    size_t needed = 0;
    for (size_t i = 0; i < settings_field_count; i++)
        needed += settings_fields[i].required;
    assert_int_equal(diags_count(diags), needed + 1); /* and the gauge's error */
    assert_null(strstr(faults(), "there is no setting"));
    assert_null(strstr(faults(), "is missing"));
}

/* Old names are read, and it is noted how; a value under both is one too many. */
static void test_old_names(void **state)
{
    (void)state;
    struct shop shop;
    char *text = arena_text(arena, whole), *at = strstr(text, ", warmth: cold");
    const char *old = arena_format(arena, "%.*s, temperature: warm%s", (int)(at - text), text,
                                   at + strlen(", warmth: cold"));
    char *name = file_of(old);
    settings_read(arena, diags, name, NULL, 0, &shop);
    unlink(name);
    assert_string_equal(faults(), "");
    assert_int_equal(shop.limits.warmth, WARMTH_WARM);
    assert_int_equal(shop.read_as_count, 1);
    assert_string_equal(shop.read_as[0].words,
                        "limits.temperature is called limits.warmth now");
    assert_int_equal(shop.read_as[0].at.line, 3);
    shop_with("limits.temperature=cold");
    assert_non_null(
        strstr(faults(), "limits.temperature is the old name of limits.warmth, which"));
}

/* Understood, and noted how. */
static void test_other_ways_to_write(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"gauge.capacity=5 kg", "gauge.capacity is read as 5 kgf"},
        {"gauge.step=0,05 N", "gauge.step is read as 0.05 N"},
        {"limits.bands.1.high=8 in-lb", "limits.bands.1.high is read as 8 lbf.in"},
        {"limits.never-exceed=1.2 Nm", "limits.never-exceed is read as 1.2 N.m"},
        {"limits.never-exceed=170 oz.in", "limits.never-exceed is read as 170 ozf.in"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct shop shop = shop_with(rows[i][0]);
        assert_string_equal(faults(), "");
        assert_int_equal(shop.read_as_count, 1);
        assert_string_equal(shop.read_as[0].words, rows[i][1]);
    }
    shop_with("gauge.step=1,234 N");
    assert_fault("--set",
                 "the comma may be a decimal sign or part the thousands; write 1.234 or "
                 "1234");
}

/* What is missing is told at its section, or at the file where there is none. */
static void test_missing(void **state)
{
    (void)state;
    struct shop shop;
    const char *name = file_of("drum: {tolerance: 0.1 mm}\n"
                               "limits:\n  bands:\n    - {from: 0 r/min}\n");
    settings_read(arena, diags, name, NULL, 0, &shop);
    unlink(name);
    const char *said = faults();
    static const char *const parts[] = {
        ":1:7: drum.diameter (diameter where the cord runs) is missing",
        ":4:7: limits.bands.1.high (",
        ": lathe.name (what you call the lathe) is missing; add a line 'name:' with a few "
        "words",
        "gauge.step (the least step that the gauge shows) is missing; add a line 'step:' with "
        "a "
        "force",
    };
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (!strstr(said, parts[i]))
            fail_msg("no '%s' in %s", parts[i], said);
}

/* Every setting has its share in the fingerprint: each one changed, added or taken
 * away gives another. */
static void test_fingerprint_of_every_setting(void **state)
{
    (void)state;
    enum { SETTINGS = 40 };
    struct setting items[SETTINGS];
    struct setting_list list = {.items = items};
    struct file_text none = {.bytes = ""}, log = {.bytes = "x", .length = 1};
    char seen[3 * SETTINGS + 3][9];
    size_t count = 0;
    setting_list_fingerprint(&list, &none, seen[count++], FINGERPRINT_TEXT);
    assert_string_equal(seen[0], "e3b0c442"); /* SHA-256 of nothing, FIPS 180-4 */
    for (list.count = 0; list.count < SETTINGS; list.count++)
        items[list.count] = (struct setting){
            .path = arena_format(arena, "s%zu.k%zu", list.count % 5, list.count),
            .value = arena_format(arena, "%zu mm", list.count)};
    setting_list_fingerprint(&list, &none, seen[count++], FINGERPRINT_TEXT);
    setting_list_fingerprint(&list, &log, seen[count++], FINGERPRINT_TEXT);
    for (int i = 0; i < SETTINGS; i++) {
        struct setting kept = items[i];
        items[i].value = arena_format(arena, "%s ", kept.value);
        setting_list_fingerprint(&list, &none, seen[count++], FINGERPRINT_TEXT);
        items[i] = (struct setting){.path = arena_format(arena, "%sx", kept.path),
                                    .value = kept.value};
        setting_list_fingerprint(&list, &none, seen[count++], FINGERPRINT_TEXT);
        items[i] = kept;
        list.count = (size_t)i;
        setting_list_fingerprint(&list, &log, seen[count++], FINGERPRINT_TEXT);
        list.count = SETTINGS;
    }
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < i; j++)
            assert_string_not_equal(seen[i], seen[j]);
}

/* ---- the list ---- */

static void test_settings_paths_and_places(void **state)
{
    (void)state;
    struct setting_list list =
        read_settings("a:\n  b: 1 x\n  c:\n    - {d: 'e f'}\n    - {d: g}\n");
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(list.count, 3);
    assert_string_equal(list.items[1].path, "a.c.1.d");
    assert_string_equal(list.items[1].value, "e f");
    assert_int_equal(list.items[1].at.line, 4);
    assert_int_equal(list.items[1].at.column, 12);
    assert_string_equal(setting_list_find(&list, "a.c.2.d")->value, "g");
}

/* A section is where its first key stands, or its brace, bracket or dash. */
static void test_settings_sections(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        int line, column;
    } wanted[] = {{"a", 2, 3}, {"a.c", 4, 5}, {"a.c.1", 4, 7}, {"a.c.2", 5, 7}, {"b", 6, 4}};
    struct setting_list list =
        read_settings("a:\n  b: 1 x\n  c:\n    - {d: 'e f'}\n    - d: g\nb: []\n");
    assert_int_equal(list.section_count, sizeof wanted / sizeof wanted[0]);
    for (size_t i = 0; i < list.section_count; i++) {
        assert_string_equal(list.sections[i].path, wanted[i].path);
        assert_int_equal(list.sections[i].at.line, wanted[i].line);
        assert_int_equal(list.sections[i].at.column, wanted[i].column);
    }
}

static void test_settings_replaced(void **state)
{
    (void)state;
    struct setting_list list = read_settings("a:\n  b: 1\n");
    assert_true(setting_list_replace(arena, &list, "a.b=2 = 3"));
    assert_true(setting_list_replace(arena, &list, "a.c="));
    assert_false(setting_list_replace(arena, &list, "a.c"));
    assert_false(setting_list_replace(arena, &list, "=x"));
    assert_string_equal(setting_list_find(&list, "a.b")->value, "2 = 3");
    assert_int_equal(list.count, 2);
}

/* The sum of the entries in order of path, as the program sha256sum gives it. */
static void test_settings_fingerprint(void **state)
{
    (void)state;
    char one[9], other[9];
    struct setting_list list = read_settings("c:\n  d: 2\na:\n  b: 1 # said\n");
    struct file_text log = {.bytes = "x,y\n", .length = 4};
    setting_list_fingerprint(&list, &log, one, FINGERPRINT_TEXT);
    FILE *pipe = popen("printf 'a.b=1\\nc.d=2\\nx,y\\n' | sha256sum | cut -c1-8", "r");
    assert_non_null(fgets(other, sizeof other, pipe));
    pclose(pipe);
    assert_string_equal(one, other);
}

static const struct CMUnitTest tests[] = {
    TEST(test_whole),
    TEST(test_file_beside),
    TEST(test_yaml_that_is_not_used),
    TEST(test_replaced_by_nonsense),
    TEST(test_remarks_behind),
    TEST(test_remarks_behind_odd_line_ends),
    TEST(test_unseen_line_ends),
    TEST(test_replaced_well),
    TEST(test_written_as_read),
    TEST(test_beside_its_input),
    TEST(test_empty_and_unknown),
    TEST(test_empty_sections),
    TEST(test_places_in_quotes),
    TEST(test_long_lists),
    TEST(test_more_values_than_there_can_be),
    TEST(test_missing_beside_a_replacement),
    TEST(test_printed),
    TEST(test_printed_without_limits),
    TEST(test_printed_blank),
    TEST(test_old_names),
    TEST(test_other_ways_to_write),
    TEST(test_missing),
    TEST(test_fingerprint_of_every_setting),
    TEST(test_settings_paths_and_places),
    TEST(test_settings_sections),
    TEST(test_settings_replaced),
    TEST(test_settings_fingerprint),
};

GROUP(settings, NULL, NULL)
