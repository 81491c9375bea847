#include "number/unit_meant.h"

#include <string.h>

static const struct {
    const char *written, *meant;
} ways[] = {
    {"lb.in", "lbf.in"},  {"in.lb", "lbf.in"},  {"in.lbf", "lbf.in"}, {"in.lbs", "lbf.in"},
    {"lb-in", "lbf.in"},  {"in-lb", "lbf.in"},  {"in-lbs", "lbf.in"}, {"lb.ft", "lbf.ft"},
    {"ft.lb", "lbf.ft"},  {"ft.lbf", "lbf.ft"}, {"ft.lbs", "lbf.ft"}, {"lb-ft", "lbf.ft"},
    {"ft-lb", "lbf.ft"},  {"ft-lbs", "lbf.ft"}, {"oz.in", "ozf.in"},  {"in.oz", "ozf.in"},
    {"oz-in", "ozf.in"},  {"in-oz", "ozf.in"},  {"kg.m", "kgf.m"},    {"kg.cm", "kgf.cm"},
    {"kg-cm", "kgf.cm"},  {"cm.kg", "kgf.cm"},  {"Nm", "N.m"},        {"N-m", "N.m"},
    {"Ncm", "N.cm"},      {"Nmm", "N.mm"},      {"lbs", "lbf"},       {"kp", "kgf"},
    {"inch", "in"},       {"inches", "in"},     {"\"", "in"},         {"'", "ft"},
    {"C", "degC"},        {"F", "degF"},        {"degrees", "deg"},   {"1/min", "r/min"},
    {"rev/min", "r/min"}, {"percent", "%"},
};

const char *unit_meant(const char *text, size_t length)
{
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++)
        if (strlen(ways[i].written) == length &&
            strncasecmp(ways[i].written, text, length) == 0)
            return ways[i].meant;
    return NULL;
}
