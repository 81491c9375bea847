/* Which column gets the width that is left when every column has its least. */
#ifndef PAGE_TABLE_SHARE_H
#define PAGE_TABLE_SHARE_H

#include "page/table_plan.h"

/* Sets the width of every column of the plan; its columns know their least and most.
 * room: what may be shared beside the least widths, not below 0.
 *
 * The height of all rows is to be least. To that end each two columns in turn share out
 * in the best way what they have and what nobody has, round after round, until nothing
 * more is saved. What is left then is spread: over columns of words, narrow ones first,
 * before columns of figures.
 */
void table_share(struct flow *flow, struct table_plan *plan, double room);

/* The least width of a column for the text in flow->phrase: its longest word stays whole, and
 * its lines are no higher than this. More than the room where they need more. */
double table_least(struct flow *flow, double leading, double room, double height);

#endif
