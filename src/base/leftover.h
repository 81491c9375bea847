/* Folders that runs left beside the outputs when they were killed. */
#ifndef BASE_LEFTOVER_H
#define BASE_LEFTOVER_H

#include "base/memory.h"

#define LEFTOVER_MARK  ".spindlebook-" /* NAME.spindlebook-PID: a set in the making */
#define LEFTOVER_ASIDE ".old"          /* behind it: a set that stepped aside */

/* Puts the user's files in such folders back into the folder of outputs, and
 * removes the rest; folders of runs that are still alive are left alone. Where an
 * old set stepped aside and no new one came, it steps back. Call in turn. */
void leftovers_clear(struct arena *arena, const char *folder);

#endif
