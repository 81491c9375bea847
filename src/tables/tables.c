#include "tables/tables.h"

#include "tables/common.h"

#include <string.h>

static const struct table_kind kinds[] = {
    {"pull-windows", {"show"}, make_pull_windows, "Drag, trend only"},
    {"sure-windows", {NULL}, make_sure_windows, "The good part of the pull windows"},
    {"reading-to-drag", {"speed"}, make_reading_to_drag, NULL},
    {"drum-windows", {NULL}, make_drum_windows, "Pull windows on common drums"},
    {"drum-choice", {"speed"}, make_drum_choice, "How sure each drum is at the aim"},
    {"drum-loads", {"speed"}, make_drum_loads, "What each drum asks of gauge and cord"},
    {"drum-making", {NULL}, make_drum_making, NULL},
    {"arm-equivalents", {"speed"}, make_arm_equivalents, NULL},
    {"cord-errors", {NULL}, make_cord_errors, NULL},
    {"gauge-check", {NULL}, make_gauge_check, NULL},
    {"gauge-correction", {NULL}, make_gauge_correction, NULL},
    {"pull-log", {NULL}, make_pull_log, NULL},
    {"certificate", {NULL}, make_certificate, NULL},
    {"certificate-facts", {NULL}, make_certificate_facts, NULL},
    {"history", {NULL}, make_history, NULL},
    {"lift-test", {NULL}, make_lift_test, NULL},
    {"nut-map", {NULL}, make_nut_map, NULL},
    {"nut-travel", {NULL}, make_nut_travel, NULL},
    {"run-in", {NULL}, make_run_in, NULL},
    {"temperatures", {NULL}, make_temperatures, NULL},
    {"pull-speed", {NULL}, make_pull_speed, NULL},
    {"chuck-left-on", {NULL}, make_chuck_left_on, NULL},
    {"oil-warmth", {NULL}, make_oil_warmth, NULL},
    {"spindle-growth", {NULL}, make_spindle_growth, NULL},
    {"drag-estimate", {NULL}, make_drag_estimate, NULL},
    {"torque-units", {NULL}, make_torque_units, NULL},
    {"force-units", {NULL}, make_force_units, NULL},
    {"length-units", {NULL}, make_length_units, NULL},
    {"trusted-values", {NULL}, make_trusted_values, NULL},
};

enum { KIND_TOTAL = sizeof kinds / sizeof kinds[0] };

const struct table_kind *tables_at(size_t index)
{
    return index < KIND_TOTAL ? &kinds[index] : NULL;
}

static bool takes_option(const struct table_kind *kind, const char *key)
{
    for (size_t i = 0; kind->option_keys[i]; i++)
        if (strcmp(kind->option_keys[i], key) == 0)
            return true;
    return false;
}

static bool check_options(const struct table_kind *kind, const struct table_ask *ask)
{
    bool good = true;
    for (size_t i = 0; i < ask->option_count; i++) {
        if (takes_option(kind, ask->options[i].key))
            continue;
        good = false;
        fault(ask->diags, ask->options[i].at, "the table %s has no option '%s'; %s%s",
              kind->name, ask->options[i].key,
              kind->option_keys[0] ? "it takes " : "it takes none",
              kind->option_keys[0] ? kind->option_keys[0] : "");
    }
    return good;
}

static void fault_unknown(const char *name, const struct table_ask *ask)
{
    struct buffer known = {0};
    for (size_t i = 0; i < KIND_TOTAL; i++)
        buffer_print(&known, "%s%s", i ? ", " : "", kinds[i].name);
    fault(ask->diags, ask->at, "there is no table '%s'; the tables are %s", name, known.bytes);
    buffer_free(&known);
}

/* In a shop without limits: the words for it where the numbers would stand. */
static struct table *without_limits(const struct table_kind *kind, const struct table_ask *ask)
{
    struct table *table = table_new(ask->arena, kind->name, kind->without_limits);
    table_column(table, COLUMN_TEXT, "limits", NULL);
    put_text(table_row(table), NO_LIMIT_ON_FILE);
    table_note(table, "No limit is made up here. See the page \"The manual is lost\".");
    note_inputs(table, ask->shop, true);
    return table;
}

const struct table_kind *tables_find(const char *name, const struct table_ask *ask)
{
    for (size_t i = 0; i < KIND_TOTAL; i++)
        if (strcmp(kinds[i].name, name) == 0)
            return check_options(&kinds[i], ask) ? &kinds[i] : NULL;
    fault_unknown(name, ask);
    return NULL;
}

struct table *tables_make(const char *name, const struct table_ask *ask)
{
    const struct table_kind *kind = tables_find(name, ask);
    if (!kind)
        return NULL;
    bool nothing = kind->without_limits && !shop_has_limits(ask->shop);
    struct table *table = nothing ? without_limits(kind, ask) : kind->make(ask);
    if (table) {
        table->at = ask->at;
        table->computed = true;
    }
    return table;
}
