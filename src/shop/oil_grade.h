/* The grades of oil that the settings may name. */
#ifndef SHOP_OIL_GRADE_H
#define SHOP_OIL_GRADE_H

/* The words of oil.grade, NULL-ended. The first one: the grade is not known. */
extern const char *const oil_grade_words[];

/* Viscosity (mm2/s) in the middle of a grade at 40 degC: its number, by ISO 3448. grade:
 * index of its word; 0 for the first. */
double oil_grade_viscosity(int grade);

#endif
