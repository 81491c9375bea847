/* A page of the site: the template's pieces, with its slots filled. */
#include "paint/html.h"

#include "paint/escape.h"
#include "paint/html_parts.h"
#include "paint/policy.h"

/* The page's title as it stands in the text; NULL where there is none. */
static const struct node *title_heading(const struct html_page *page)
{
    const struct node *first = page->site->pages[page->index]->root->first;
    return first && first->kind == NODE_HEADING && first->level == 1 ? first : NULL;
}

bool html_is_below_another(const struct html_page *page)
{
    return page->single && page->index > 0;
}

static void paint_extra_heading(struct html_page *page, const struct html_extra *extra)
{
    const char *tag = html_is_below_another(page) ? "h2" : "h1";
    buffer_print(page->out, "<%s>", tag);
    escape_text(page->out, extra->title);
    buffer_print(page->out, "</%s>\n", tag);
}

void html_paint_heading(struct html_page *page)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    const struct node *heading = extra ? NULL : title_heading(page);
    if (extra)
        paint_extra_heading(page, extra);
    else if (heading)
        html_paint_node(page, heading);
}

void html_paint_main(struct html_page *page)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    if (extra) {
        extra->paint(page->out, page->site, extra->with);
        return;
    }
    const struct node *heading = title_heading(page);
    const struct node *block =
        heading ? heading->next : page->site->pages[page->index]->root->first;
    for (; block; block = block->next)
        html_paint_node(page, block);
}

static void paint_notice(struct html_page *page)
{
    if (!page->site->notice)
        return;
    buffer_text(page->out, "<p class=\"notice\">");
    escape_text(page->out, page->site->notice);
    buffer_text(page->out, "</p>");
}

void html_fill_common_slot(struct html_page *page, enum slot slot)
{
    const struct html_site *site = page->site;
    switch (slot) {
    case SLOT_NOTICE:
        paint_notice(page);
        break;
    case SLOT_BOOK:
        escape_text(page->out, site->pages[0]->title);
        break;
    case SLOT_INPUTS:
        escape_text(page->out, site->inputs);
        break;
    case SLOT_FINGERPRINT:
        escape_text(page->out, site->fingerprint);
        break;
    case SLOT_SHORTCUTS:
        html_paint_shortcuts(page);
        break;
    case SLOT_NAVIGATION:
        html_paint_navigation(page);
        break;
    default:
        break;
    }
}

static void paint_style(struct html_page *page, const struct html_extra *extra)
{
    buffer_text(page->out, "<link rel=\"stylesheet\" href=\"style.css\">");
    if (extra && extra->style)
        buffer_print(page->out, "\n<link rel=\"stylesheet\" href=\"%s\">", extra->style_file);
}

static void paint_policy(struct html_page *page, const struct html_extra *extra)
{
    struct policy policy = {0};
    if (extra && extra->script)
        policy = (struct policy){
            .scripts = {extra->script}, .script_count = 1, .has_engine = extra->has_engine};
    policy_paint(page->out, &policy);
}

static void fill_slot(struct html_page *page, enum slot slot)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    switch (slot) {
    case SLOT_POLICY:
        paint_policy(page, extra);
        break;
    case SLOT_STYLE:
        paint_style(page, extra);
        break;
    case SLOT_SCRIPTS:
        if (extra && extra->script)
            script_paint(page->out, extra->script);
        break;
    case SLOT_TITLE:
        escape_text(page->out, html_title(page->site, page->index));
        break;
    case SLOT_SHEET:
        buffer_print(page->out, "%zu of %zu", page->index + 1, html_page_count(page->site));
        break;
    case SLOT_HEADING:
        html_paint_heading(page);
        break;
    case SLOT_CONTENTS:
        html_paint_contents(page);
        break;
    case SLOT_MAIN:
        html_paint_main(page);
        break;
    case SLOT_PREVIOUS:
        html_paint_previous(page);
        break;
    case SLOT_NEXT:
        html_paint_next(page);
        break;
    default:
        html_fill_common_slot(page, slot);
    }
}

void html_paint(struct buffer *out, const struct html_site *site, size_t page)
{
    struct html_page painted = {.out = out, .site = site, .index = page};
    const struct html_template *template = site->template;
    for (size_t i = 0; i < template->count; i++) {
        const struct template_piece *piece = &template->pieces[i];
        buffer_add(out, piece->bytes, piece->length);
        fill_slot(&painted, piece->slot);
    }
}
