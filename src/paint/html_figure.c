/* A figure: its drawing, which scrolls where the screen is narrow, and its caption. */
#include "paint/escape.h"
#include "paint/html_parts.h"
#include "paint/svg.h"
#include "tree/canvas.h"

static void add_name(struct html_page *page, const char *attribute, const char *name)
{
    buffer_print(page->out, " %s=\"", attribute);
    html_name(page, page->index, name);
    buffer_text(page->out, "\"");
}

void html_paint_figure(struct html_page *page, const struct figure *figure)
{
    struct buffer caption = {0};
    buffer_print(&caption, "%s_caption", figure->name);
    buffer_text(page->out, figure->width > FIGURE_WIDTH ? "<figure class=\"wide\"" : "<figure");
    add_name(page, "id", figure->name);
    buffer_text(page->out, ">\n<div class=\"scroll\" role=\"region\" tabindex=\"0\"");
    add_name(page, "aria-labelledby", caption.bytes);
    buffer_text(page->out, ">\n");
    svg_paint(page->out, figure);
    buffer_text(page->out, "</div>\n<figcaption");
    add_name(page, "id", caption.bytes);
    buffer_text(page->out, ">");
    escape_text(page->out, figure->caption);
    buffer_text(page->out, "</figcaption>\n</figure>\n");
    buffer_free(&caption);
}
