#include "tables/common.h"

#include <string.h>

static const struct table_kind kinds[] = {
    {"pull-windows", {"show"}, make_pull_windows},
    {"sure-windows", {NULL}, make_sure_windows},
    {"reading-to-drag", {"speed"}, make_reading_to_drag},
    {"drum-windows", {NULL}, make_drum_windows},
    {"drum-choice", {"speed"}, make_drum_choice},
    {"drum-loads", {"speed"}, make_drum_loads},
    {"drum-making", {NULL}, make_drum_making},
    {"arm-equivalents", {"speed"}, make_arm_equivalents},
    {"cord-errors", {NULL}, make_cord_errors},
    {"gauge-check", {NULL}, make_gauge_check},
    {"gauge-correction", {NULL}, make_gauge_correction},
    {"pull-log", {NULL}, make_pull_log},
    {"certificate", {NULL}, make_certificate},
    {"certificate-facts", {NULL}, make_certificate_facts},
    {"history", {NULL}, make_history},
    {"lift-test", {NULL}, make_lift_test},
    {"run-out-limits", {NULL}, make_run_out_limits},
    {"nut-map", {NULL}, make_nut_map},
    {"nut-travel", {NULL}, make_nut_travel},
    {"run-in", {NULL}, make_run_in},
    {"temperatures", {NULL}, make_temperatures},
    {"pull-speed", {NULL}, make_pull_speed},
    {"chuck-left-on", {NULL}, make_chuck_left_on},
    {"oil-warmth", {NULL}, make_oil_warmth},
    {"spindle-growth", {NULL}, make_spindle_growth},
    {"drag-estimate", {NULL}, make_drag_estimate},
    {"torque-units", {NULL}, make_torque_units},
    {"force-units", {NULL}, make_force_units},
    {"length-units", {NULL}, make_length_units},
    {"trusted-values", {NULL}, make_trusted_values},
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

/* The tables that are nothing without limits, and what their captions are then. */
static const struct {
    const char *name, *caption;
} of_limits[] = {
    {"pull-windows", "Pull windows"},
    {"sure-windows", "The good part of the pull windows"},
    {"drum-windows", "Pull windows on common drums"},
    {"drum-choice", "How sure each drum is at the aim"},
    {"drum-loads", "What each drum asks of gauge and cord"},
};

/* NULL where the table says something without limits. */
static const char *limits_caption(const char *name)
{
    for (size_t i = 0; i < sizeof of_limits / sizeof of_limits[0]; i++)
        if (strcmp(of_limits[i].name, name) == 0)
            return of_limits[i].caption;
    return NULL;
}

/* In a shop without limits: the words for it where the numbers would stand. */
static struct table *without_limits(const struct table_kind *kind, const struct table_ask *ask)
{
    struct table *table = table_new(ask->arena, kind->name, limits_caption(kind->name));
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
    bool nothing = limits_caption(name) && !shop_has_limits(ask->shop);
    struct table *table = nothing ? without_limits(kind, ask) : kind->make(ask);
    if (table) {
        table->at = ask->at;
        table->computed = true;
    }
    return table;
}
