/* The computed tables: a registry, and one file for each that builds it from the
 * shop by way of src/judge and src/physics. A new table is a file here, a line in
 * registry.c and a test. */
#ifndef TABLES_TABLES_H
#define TABLES_TABLES_H

#include "doc/tree.h"
#include "shop/shop.h"

/* What is asked for: which shop, where in a page, with which options. */
struct table_ask {
    struct arena *arena;
    struct diags *diags;
    const struct shop *shop;
    struct place at;
    const struct table_option *options;
    size_t option_count;
};

struct table_kind {
    const char *name;
    const char *option_keys[3]; /* NULL-ended */
    struct table *(*make)(const struct table_ask *ask);
    const char *without_limits; /* what the caption is without limits on file, where the table
                                 * then says nothing else; NULL: it is made all the same */
};

/* Every kind in turn from 0 on; NULL at the end. */
const struct table_kind *tables_at(size_t index);

/* The kind of that name. An unknown name or an unknown option is a fault; then NULL. */
const struct table_kind *tables_find(const char *name, const struct table_ask *ask);

/* Makes the table of that name. An unknown name, an unknown option or a value
 * that an option cannot have is a fault; then NULL. */
struct table *tables_make(const char *name, const struct table_ask *ask);

/* The makers. */
struct table *make_pull_windows(const struct table_ask *ask);
struct table *make_sure_windows(const struct table_ask *ask);
struct table *make_reading_to_drag(const struct table_ask *ask);
struct table *make_drum_windows(const struct table_ask *ask);
struct table *make_arm_equivalents(const struct table_ask *ask);
struct table *make_drum_choice(const struct table_ask *ask);
struct table *make_drum_loads(const struct table_ask *ask);
struct table *make_drum_making(const struct table_ask *ask);
struct table *make_gauge_check(const struct table_ask *ask);
struct table *make_gauge_correction(const struct table_ask *ask);
struct table *make_pull_log(const struct table_ask *ask);
struct table *make_certificate(const struct table_ask *ask);
struct table *make_certificate_facts(const struct table_ask *ask);
struct table *make_history(const struct table_ask *ask);
struct table *make_lift_test(const struct table_ask *ask);
struct table *make_nut_map(const struct table_ask *ask);
struct table *make_nut_travel(const struct table_ask *ask);
struct table *make_run_in(const struct table_ask *ask);
struct table *make_temperatures(const struct table_ask *ask);
struct table *make_pull_speed(const struct table_ask *ask);
struct table *make_chuck_left_on(const struct table_ask *ask);
struct table *make_oil_warmth(const struct table_ask *ask);
struct table *make_spindle_growth(const struct table_ask *ask);
struct table *make_drag_estimate(const struct table_ask *ask);
struct table *make_torque_units(const struct table_ask *ask);
struct table *make_force_units(const struct table_ask *ask);
struct table *make_length_units(const struct table_ask *ask);
struct table *make_cord_errors(const struct table_ask *ask);
struct table *make_trusted_values(const struct table_ask *ask);

#endif
