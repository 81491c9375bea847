/* Force units against each other. */
#include "tables/unit_tables.h"

struct table *make_force_units(const struct table_ask *ask)
{
    static const char *const symbols[] = {"N", "kgf", "gf", "lbf", "ozf", NULL};
    return unit_matrix(ask, "force-units", "Units of force", symbols);
}
