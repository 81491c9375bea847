/* The single file: every page of the site behind each other, style and scripts within.
 *
 * The frame is the same template. What in it, or in an extra page's own HTML, links to
 * a page's file becomes a link to that page's place; the extra page's headings go down
 * by one, as all pages' do. */
#include "base/utf8.h"
#include "html/html.h"
#include "html/policy.h"

#include <stdlib.h>
#include <string.h>

static const char href[] = "href=\"";

static int by_link(const void *left, const void *right)
{
    const struct file_link *a = left, *b = right;
    return strcmp(a->link, b->link);
}

static const struct file_link *list_files(struct arena *arena, const struct html_site *site)
{
    size_t count = html_page_count(site);
    struct file_link *files = arena_get(arena, count * sizeof *files);
    struct buffer link = {0};
    struct html_page as_file = {.out = &link, .site = site};
    for (size_t i = 0; i < count; i++) {
        link.length = 0;
        html_link_to(&as_file, i);
        files[i] = (struct file_link){arena_slice(arena, link.bytes, link.length), i};
    }
    buffer_free(&link);
    qsort(files, count, sizeof *files, by_link);
    return files;
}

static int link_against(const void *key, const void *item)
{
    return text_start_against(key, ((const struct file_link *)item)->link);
}

/* The page whose file a link names; the count of pages where it names none. */
static size_t page_linked(const struct html_page *page, const char *target, size_t length)
{
    const struct text_start start = {target, length};
    size_t count = html_page_count(page->site);
    const struct file_link *found =
        bsearch(&start, page->files, count, sizeof *page->files, link_against);
    return found ? found->index : count;
}

/* From behind href=" on; gives how much was read. */
static size_t add_link(struct html_page *page, const char *target, const char *end)
{
    const char *quote = memchr(target, '"', (size_t)(end - target));
    if (!quote)
        return 0;
    const char *hash = memchr(target, '#', (size_t)(quote - target));
    size_t file = (size_t)((hash ? hash : quote) - target);
    size_t index = file ? page_linked(page, target, file) : html_page_count(page->site);
    if (index == html_page_count(page->site))
        return 0;
    if (!hash) {
        html_link_to(page, index);
    } else {
        buffer_print(page->out, "#s%zu_", index + 1);
        buffer_add(page->out, hash + 1, (size_t)(quote - hash - 1));
    }
    return (size_t)(quote - target);
}

/* <h2 -> <h3 and </h2 -> </h3, for levels 2 to 4. */
static bool is_heading(const char *at, const char *end)
{
    at += at + 1 < end && at[1] == '/';
    return at + 2 < end && at[1] == 'h' && at[2] >= '2' && at[2] <= '4';
}

/* HTML of our own making, with its links and, where asked, its headings changed. */
static void add_html(struct html_page *page, const char *bytes, size_t length, bool lower)
{
    const char *end = bytes + length, *at = bytes;
    while (at < end) {
        const char *start = at;
        while (at < end && *at != '<' && strncmp(at, href, strlen(href)) != 0)
            at++;
        buffer_add(page->out, start, (size_t)(at - start));
        if (at == end)
            return;
        if (*at == 'h') {
            buffer_text(page->out, href);
            at += strlen(href);
            at += add_link(page, at, end);
        } else if (lower && is_heading(at, end)) {
            size_t before = at[1] == '/' ? 3 : 2;
            buffer_add(page->out, at, before);
            buffer_print(page->out, "%c", at[before] + 1);
            at += before + 1;
        } else {
            buffer_add(page->out, at++, 1);
        }
    }
}

static void add_extra(struct html_page *page, const struct html_extra *extra)
{
    struct buffer html = {0};
    extra->paint(&html, page->site, extra->with);
    add_html(page, html.bytes, html.length, true);
    buffer_free(&html);
}

static void paint_turn(struct html_page *page)
{
    buffer_text(page->out, "<nav class=\"turn\" aria-label=\"From ");
    escape_text(page->out, html_title(page->site, page->index));
    buffer_text(page->out, "\">\n");
    html_paint_previous(page);
    html_paint_next(page);
    buffer_text(page->out, "\n</nav>\n");
}

static void paint_page(struct html_page *page)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    page->caution_count = 0;
    buffer_print(page->out, "<section class=\"sheet\" id=\"s%zu\">\n", page->index + 1);
    html_paint_heading(page);
    html_paint_contents(page);
    buffer_text(page->out, "\n");
    if (extra)
        add_extra(page, extra);
    else
        html_paint_main(page);
    paint_turn(page);
    buffer_text(page->out, "</section>\n");
}

static void paint_pages(struct html_page *page)
{
    for (page->index = 0; page->index < html_page_count(page->site); page->index++)
        paint_page(page);
    page->index = 0;
}

/* Owned by the caller. */
static struct buffer whole_style(const struct html_site *site)
{
    struct buffer style = {0};
    buffer_text(&style, site->style);
    for (size_t i = 0; i < site->extra_count; i++)
        if (site->extras[i].style)
            buffer_text(&style, site->extras[i].style);
    return style;
}

static void paint_policy(struct html_page *page)
{
    struct buffer style = whole_style(page->site);
    struct policy policy = {.style = style.bytes};
    for (size_t i = 0; i < page->site->extra_count; i++) {
        const struct html_extra *extra = &page->site->extras[i];
        if (extra->script && policy.script_count < POLICY_SCRIPTS)
            policy.scripts[policy.script_count++] = extra->script;
        policy.has_engine = policy.has_engine || extra->has_engine;
    }
    policy_paint(page->out, &policy);
    buffer_free(&style);
}

static void paint_style(struct html_page *page)
{
    struct buffer style = whole_style(page->site);
    style_paint(page->out, style.bytes);
    buffer_free(&style);
}

static void paint_scripts(struct html_page *page)
{
    for (size_t i = 0; i < page->site->extra_count; i++)
        if (page->site->extras[i].script)
            script_paint(page->out, page->site->extras[i].script);
}

static void fill_slot(struct html_page *page, enum slot slot)
{
    switch (slot) {
    case SLOT_POLICY:
        paint_policy(page);
        break;
    case SLOT_STYLE:
        paint_style(page);
        break;
    case SLOT_SCRIPTS:
        paint_scripts(page);
        break;
    case SLOT_TITLE:
        escape_text(page->out, page->site->pages[0]->title);
        break;
    case SLOT_SHEET:
        buffer_print(page->out, "1 to %zu", html_page_count(page->site));
        break;
    case SLOT_MAIN:
        paint_pages(page);
        break;
    default: /* each page brings its own heading, contents and ways on */
        html_fill_common_slot(page, slot);
    }
}

void html_paint_single(struct buffer *out, const struct html_site *site)
{
    struct arena *arena = arena_new();
    struct html_page page = {
        .out = out, .site = site, .single = true, .files = list_files(arena, site)};
    const struct html_template *template = site->template;
    for (size_t i = 0; i < template->count; i++) {
        const struct template_piece *piece = &template->pieces[i];
        add_html(&page, piece->bytes, piece->length, false);
        fill_slot(&page, piece->slot);
    }
    arena_free(arena);
}
