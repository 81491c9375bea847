/* Places to write in, as a list of labels and what stands or will stand beside them. */
#include "paint/escape.h"
#include "paint/html_parts.h"

static void paint_choices(struct buffer *out, const struct form_field *field)
{
    for (size_t i = 0; i < field->choice_count; i++) {
        buffer_text(out, "<span class=\"tick\"><span class=\"tick-box\">\u25a1</span> ");
        escape_text(out, field->choices[i]);
        buffer_text(out, "</span> ");
    }
}

static void paint_field(struct buffer *out, const struct form_field *field)
{
    buffer_text(out, "<div");
    if (field->share > 1)
        buffer_print(out, " class=\"share-%d\"", field->share);
    buffer_text(out, "><dt>");
    escape_text(out, *field->label ? field->label : "\u00a0");
    buffer_text(out, "</dt><dd>");
    paint_choices(out, field);
    if (field->value)
        escape_text(out, field->value);
    if (field->unit) {
        buffer_text(out, "<span class=\"unit\">");
        escape_text(out, field->unit);
        buffer_text(out, "</span>");
    }
    buffer_text(out, "</dd></div>\n");
}

void html_paint_form(struct html_page *page, const struct form *form)
{
    buffer_print(page->out, "<div class=\"form %s\">\n", form->ruled ? "lines" : "boxes");
    for (size_t row = 0; row < form->count; row++) {
        buffer_text(page->out, "<dl>\n");
        for (size_t i = 0; i < form->rows[row].count; i++)
            paint_field(page->out, &form->rows[row].fields[i]);
        buffer_text(page->out, "</dl>\n");
    }
    buffer_text(page->out, "</div>\n");
}
