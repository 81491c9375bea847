/* Torque units against each other. */
#include "tables/unit_tables.h"

struct table *make_torque_units(const struct table_ask *ask)
{
    static const char *const symbols[] = {"N.m",    "N.cm",   "kgf.cm", "lbf.in",
                                          "lbf.ft", "ozf.in", NULL};
    return unit_matrix(ask, "torque-units", "Units of torque", symbols);
}
