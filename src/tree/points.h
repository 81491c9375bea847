/* Lengths on paper and in figures are in points, of which an inch has 72. */
#ifndef TREE_POINTS_H
#define TREE_POINTS_H

/* Points in a millimetre. */
#define MM (72 / 25.4)

static inline double points_of(double metres)
{
    return metres * 1000 * MM;
}

#endif
