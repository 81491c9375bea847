/* Work that is done side by side, each in a process of its own, where this process may use
 * more than one processor. What such work writes into files is there afterwards; what it
 * leaves in memory is not. */
#ifndef BASE_SIDE_H
#define BASE_SIDE_H

#include "base/memory.h"

struct side;

enum { SIDE_MOST = 100 }; /* the largest answer */

/* Gives an answer, 0 to SIDE_MOST. */
typedef int side_work(void *with);

/* Starts the work. With one processor, or where no process can be had, it is done by
 * side_end() in this one: then what it leaves in memory is there. */
struct side *side_begin(struct arena *arena, side_work *work, void *with);

/* Waits for its end; gives the answer. Where the machine failed (base/fatal.h) its words are
 * told and this program ends like it, with status 3. A program that ends before takes its
 * processes with it. */
int side_end(struct side *side);

/* Ends all that is under way: nothing is written any more. Runs when the program ends, too. */
void side_stop_all(void);

#endif
