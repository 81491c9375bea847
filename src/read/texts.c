#include "read/texts.h"

#include "base/utf8.h"

#include <string.h>

enum { LONGEST_TEXT = 300 };

static bool has_control(const char *text)
{
    for (; *text; text++)
        if ((unsigned char)*text < 0x20 || *text == 0x7F)
            return true;
    return false;
}

bool text_keep(struct arena *arena, struct diags *diags, struct shop *shop, const char *name,
               struct typed_text typed)
{
    bool control = has_control(typed.text);
    bool fits = utf8_count(typed.text, strlen(typed.text)) <= LONGEST_TEXT;
    if (control)
        fault(diags, typed.at,
              "%s holds a line end or another control character; write it on one line", name);
    else if (!fits)
        fault(diags, typed.at, "%s is longer than %d characters; shorten it", name,
              LONGEST_TEXT);
    else
        *ARENA_PUSH(arena, shop->texts, shop->text_count) = typed;
    return fits && !control;
}
