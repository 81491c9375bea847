/* The page template, cut at its slots: pieces of HTML with a slot behind each. */
#ifndef PAINT_TEMPLATE_H
#define PAINT_TEMPLATE_H

#include "paint/html.h"

enum slot {
    SLOT_POLICY,
    SLOT_STYLE,
    SLOT_SCRIPTS,
    SLOT_TITLE,
    SLOT_BOOK,
    SLOT_SHEET,
    SLOT_NOTICE,
    SLOT_SHORTCUTS,
    SLOT_HEADING,
    SLOT_CONTENTS,
    SLOT_MAIN,
    SLOT_PREVIOUS,
    SLOT_NEXT,
    SLOT_NAVIGATION,
    SLOT_INPUTS,
    SLOT_FINGERPRINT,
    SLOT_COUNT,
    SLOT_NONE = SLOT_COUNT
};

/* HTML to copy as it is, then the slot to fill; SLOT_NONE where nothing follows. */
struct template_piece {
    const char *bytes;
    size_t length;
    enum slot slot;
};

struct html_template {
    struct template_piece *pieces; /* owned by the arena */
    size_t count;
};

#endif
