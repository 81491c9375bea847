#include "shop/oil_grade.h"

#include <stdlib.h>
#include <string.h>

const char *const oil_grade_words[] = {"not-known", "vg-10",  "vg-15", "vg-22",
                                       "vg-32",     "vg-46",  "vg-68", "vg-100",
                                       "vg-150",    "vg-220", NULL};

double oil_grade_viscosity(int grade)
{
    return grade ? strtod(oil_grade_words[grade] + strlen("vg-"), NULL) : 0;
}
