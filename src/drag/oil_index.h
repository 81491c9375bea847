/* Oil of which only the grade is known: how thick it is when hot. */
#ifndef DRAG_OIL_INDEX_H
#define DRAG_OIL_INDEX_H

/* Viscosity (mm2/s) at 40 degrees Celsius that an oil of a viscosity index of 0 and of
 * 100 has, for a viscosity (mm2/s) of 2 to 22 at 100 degrees; NaN outside.
 * Source: the quadratic forms of ASTM D2270, from memory; the first was seen in a public
 * text. They meet within 0.2 % where one ends and the next begins. */
double oil_index_zero(double hot);
double oil_index_hundred(double hot);

/* Viscosity at 100 degrees of an oil with this viscosity at 40 degrees and this index, 0
 * to 100: zero - index / 100 (zero - hundred) = warm, by halving. NaN where none fits. */
double oil_hot_of_index(double warm, double index);

#endif
