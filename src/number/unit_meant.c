#include "number/unit_meant.h"

#include <stdbool.h>
#include <string.h>

/* A point stands for a hyphen and a blank too: "lb.in" for "lb-in" and "lb in". */
static const struct {
    const char *written, *meant;
} ways[] = {
    {"lb.in", "lbf.in"},
    {"lbs.in", "lbf.in"},
    {"lbf.in", "lbf.in"},
    {"in.lb", "lbf.in"},
    {"in.lbs", "lbf.in"},
    {"in.lbf", "lbf.in"},
    {"inch.pound", "lbf.in"},
    {"inch.pounds", "lbf.in"},
    {"pound.inches", "lbf.in"},
    {"lb.ft", "lbf.ft"},
    {"lbs.ft", "lbf.ft"},
    {"lbf.ft", "lbf.ft"},
    {"ft.lb", "lbf.ft"},
    {"ft.lbs", "lbf.ft"},
    {"ft.lbf", "lbf.ft"},
    {"foot.pound", "lbf.ft"},
    {"foot.pounds", "lbf.ft"},
    {"pound.feet", "lbf.ft"},
    {"oz.in", "ozf.in"},
    {"ozf.in", "ozf.in"},
    {"in.oz", "ozf.in"},
    {"inch.ounces", "ozf.in"},
    {"kg.m", "kgf.m"},
    {"kgf.m", "kgf.m"},
    {"kg.cm", "kgf.cm"},
    {"kgf.cm", "kgf.cm"},
    {"cm.kg", "kgf.cm"},
    {"Nm", "N.m"},
    {"N.m", "N.m"},
    {"Ncm", "N.cm"},
    {"Nmm", "N.mm"},
    {"lbs", "lbf"},
    {"pound", "lbf"},
    {"pounds", "lbf"},
    {"kp", "kgf"},
    {"inch", "in"},
    {"inches", "in"},
    {"\"", "in"},
    {"'", "ft"},
    {"C", "degC"},
    {"F", "degF"},
    {"degrees", "deg"},
    {"1/min", "r/min"},
    {"rev/min", "r/min"},
    {"percent", "%"},
};

static char small(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

static bool alike(const char *written, const char *text, size_t length)
{
    if (strlen(written) != length)
        return false;
    for (size_t i = 0; i < length; i++) {
        bool joint = written[i] == '.' && (text[i] == '-' || text[i] == ' ');
        if (!joint && small(written[i]) != small(text[i]))
            return false;
    }
    return true;
}

const char *unit_meant(const char *text, size_t length)
{
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++)
        if (alike(ways[i].written, text, length))
            return ways[i].meant;
    return NULL;
}
