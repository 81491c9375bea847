/* The foot of every booklet sheet: number, chapter, settings, notice. */
#ifndef PAGE_FOOT_H
#define PAGE_FOOT_H

#include "page/flow.h"
#include "page/paper.h"

/* Puts the foot under the sheet of that index; chapter: what it is part of. */
void foot_put(struct flow *flow, const struct layout *layout, size_t index,
              const struct imprint *imprint, const char *chapter);

#endif
