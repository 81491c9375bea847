/* A page is the template's pieces with its slots filled. So is the single file: there the
 * main slot holds all pages behind each other, style and scripts are within, and what in the
 * template, or in an extra page's own HTML, links to a page's file becomes a link to that
 * page's place. */
#include "html/html.h"

#include "base/utf8.h"
#include "html/markup.h"
#include "html/page.h"
#include "html/policy.h"

#include <stdlib.h>
#include <string.h>

/* ---- HTML of our own making, as the single file has it ---- */

/* The page of the site that a link to a file means. */
struct file_link {
    const char *link; /* as html_put_link() writes it */
    size_t index;
};

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
        html_put_link(&as_file, i, NULL);
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

/* From behind href=" on; gives how much was read: nothing of a link to elsewhere. */
static size_t add_link(struct html_page *page, const char *target, const char *end)
{
    const char *quote = memchr(target, '"', (size_t)(end - target));
    if (!quote)
        return 0;
    const char *hash = memchr(target, '#', (size_t)(quote - target));
    const struct text_start start = {target, (size_t)((hash ? hash : quote) - target)};
    const struct file_link *found = bsearch(&start, page->files, html_page_count(page->site),
                                            sizeof *page->files, link_against);
    if (!found)
        return 0;
    html_put_link(page, found->index, hash ? "" : NULL);
    if (hash)
        buffer_add(page->out, hash + 1, (size_t)(quote - hash - 1));
    return (size_t)(quote - target);
}

/* Bytes up to the level in <h2 or </h2, of levels 2 to 4; 0 where there is none. */
static size_t before_level(const char *at, const char *end)
{
    size_t length = at + 1 < end && at[1] == '/' ? 3 : 2;
    bool is_heading =
        at + length < end && at[length - 1] == 'h' && at[length] >= '2' && at[length] <= '4';
    return is_heading ? length : 0;
}

/* With its links changed and, where asked, its headings a level lower. */
static void add_html(struct html_page *page, const char *bytes, size_t length, bool lower)
{
    static const char href[] = "href=\"";
    const char *end = bytes + length, *at = bytes;
    while (at < end) {
        const char *start = at;
        while (at < end && *at != '<' && strncmp(at, href, strlen(href)) != 0)
            at++;
        buffer_add(page->out, start, (size_t)(at - start));
        if (at == end)
            return;
        size_t before = lower && *at == '<' ? before_level(at, end) : 0;
        if (*at == 'h') {
            buffer_text(page->out, href);
            at += strlen(href);
            at += add_link(page, at, end);
        } else if (before) {
            buffer_add(page->out, at, before);
            buffer_print(page->out, "%c", at[before] + 1);
            at += before + 1;
        } else {
            buffer_add(page->out, at++, 1);
        }
    }
}

/* ---- the page itself ---- */

static void paint_heading(struct html_page *page)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    const struct node *heading = extra ? NULL : html_title_heading(page);
    if (extra)
        markup(page->out, html_lowered(page) ? "<h2>%s</h2>\n" : "<h1>%s</h1>\n", extra->title);
    else if (heading)
        html_paint_node(page, heading);
}

/* Links to the page's second-level headings; nothing where there is none. */
static void paint_contents(struct html_page *page)
{
    const struct node *root =
        html_extra_at(page->site, page->index) ? NULL : page->site->pages[page->index]->root;
    bool any = false;
    for (const struct node *node = root; node; node = node_following(root, node)) {
        if (node->kind != NODE_HEADING || node->level != 2)
            continue;
        if (!any) {
            buffer_text(page->out, "<nav class=\"contents\"");
            html_put_label(page, "_contents", "");
            buffer_text(page->out, ">\n<p id=\"");
            html_put_name(page, "_contents", "");
            buffer_text(page->out, "\">On this page</p>\n<ul>\n");
        }
        any = true;
        buffer_text(page->out, "<li><a href=\"#");
        if (page->single)
            buffer_print(page->out, "s%zu_", page->index + 1);
        escape_link(page->out, node->anchor);
        buffer_text(page->out, "\">");
        html_paint_plain(page->out, node);
        buffer_text(page->out, "</a></li>\n");
    }
    if (any)
        buffer_text(page->out, "</ul>\n</nav>");
}

static void paint_main(struct html_page *page)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    if (extra && page->single) {
        struct buffer html = {0};
        extra->paint(&html, page->site, extra->with);
        add_html(page, html.bytes, html.length, true);
        buffer_free(&html);
    } else if (extra) {
        extra->paint(page->out, page->site, extra->with);
    } else {
        const struct node *heading = html_title_heading(page);
        const struct node *block =
            heading ? heading->next : page->site->pages[page->index]->root->first;
        for (; block; block = block->next)
            html_paint_node(page, block);
    }
}

/* ---- ways through the site ---- */

/* In a long book no one looks through the list of all pages, and on every page it would
 * grow with the square of their number: it is whole on the first page alone, and short
 * on the others: the first page, those around, and those that the program makes. */
enum { SHORT = 100, AROUND = 5 };

static bool is_list_short(const struct html_site *site, size_t index)
{
    return site->page_count > SHORT && index > 0;
}

size_t html_last_title(const struct html_site *site, size_t index)
{
    size_t last = site->page_count - 1;
    return is_list_short(site, index) && index + AROUND < last ? index + AROUND : last;
}

static void open_way(struct html_page *page, const char *before, size_t index)
{
    bool here = index == page->index && !page->single;
    buffer_text(page->out, before);
    html_put_link(page, index, NULL);
    buffer_text(page->out, here ? "\" aria-current=\"page\">" : "\">");
}

static void paint_lines(struct html_page *page, size_t from, size_t to)
{
    for (size_t i = from; i < to; i++) {
        open_way(page, "<li><a href=\"", i);
        markup(page->out, "%s</a></li>\n", html_title(page->site, i));
    }
}

static void paint_navigation(struct html_page *page)
{
    const struct html_site *site = page->site;
    size_t count = site->page_count, from = 0;
    if (is_list_short(site, page->index)) {
        size_t middle = page->index < count ? page->index : count;
        from = middle > AROUND ? middle - AROUND : 0;
    }
    buffer_text(page->out, "<ol>\n");
    if (from > 0)
        paint_lines(page, 0, 1);
    paint_lines(page, from, html_last_title(site, page->index) + 1);
    paint_lines(page, count, html_page_count(site));
    buffer_text(page->out, "</ol>");
}

/* The pages that answer, from the top of every page: hands are greasy, the list is long. */
static void paint_shortcuts(struct html_page *page)
{
    const struct html_site *site = page->site;
    for (size_t i = 0; i < site->extra_count; i++) {
        open_way(page, "<a href=\"", site->page_count + i);
        markup(page->out, "%s</a>\n", site->extras[i].brief);
    }
}

/* The link to the page before or behind; nothing where there is none. */
static void paint_turn(struct html_page *page, bool forward)
{
    if (forward ? page->index + 1 == html_page_count(page->site) : page->index == 0)
        return;
    size_t to = forward ? page->index + 1 : page->index - 1;
    markup(page->out, "<a rel=\"%s\" href=\"", forward ? "next" : "prev");
    html_put_link(page, to, NULL);
    markup(page->out, "\"><span>%s</span> %s</a>", forward ? "Next" : "Previous",
           html_title(page->site, to));
}

/* ---- style, scripts, and what may be loaded ---- */

/* The extra pages whose style and scripts a file has. */
static const struct html_extra *extras_in(const struct html_page *page, size_t *count)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    *count = page->single ? page->site->extra_count : extra != NULL;
    return page->single ? page->site->extras : extra;
}

static void paint_policy(struct html_page *page)
{
    size_t count;
    const struct html_extra *extras = extras_in(page, &count);
    policy_paint(page->out, page->site, extras, count, page->style);
}

static void paint_style(struct html_page *page)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    if (page->single) {
        style_paint(page->out, page->style);
        return;
    }
    buffer_text(page->out, "<link rel=\"stylesheet\" href=\"style.css\">");
    if (extra && extra->style)
        markup(page->out, "\n<link rel=\"stylesheet\" href=\"%s.css\">", extra->name);
}

static void paint_scripts(struct html_page *page)
{
    size_t count;
    const struct html_extra *extras = extras_in(page, &count);
    const struct html_engine *engine = html_engine_of(page->site, extras, count);
    if (engine) { /* a script element of a type that no browser runs: a block of data */
        buffer_text(page->out, "<script type=\"text/plain\" id=\"engine\">");
        base64_add(page->out, engine->bytes, engine->length);
        buffer_text(page->out, "</script>\n");
        script_paint(page->out, engine->script);
    }
    for (size_t i = 0; i < count; i++)
        if (extras[i].script)
            script_paint(page->out, extras[i].script);
}

/* ---- slots ---- */

/* In the single file each page brings its own heading, contents and ways on. */
static void paint_all_pages(struct html_page *page)
{
    for (page->index = 0; page->index < html_page_count(page->site); page->index++) {
        page->caution_count = 0;
        buffer_print(page->out, "<section class=\"sheet\" id=\"s%zu\">\n", page->index + 1);
        paint_heading(page);
        paint_contents(page);
        buffer_text(page->out, "\n");
        paint_main(page);
        markup(page->out, "<nav class=\"turn\" aria-label=\"From %s\">\n",
               html_title(page->site, page->index));
        paint_turn(page, false);
        paint_turn(page, true);
        buffer_text(page->out, "\n</nav>\n</section>\n");
    }
    page->index = 0;
}

static void fill_slot(struct html_page *page, enum slot slot)
{
    const struct html_site *site = page->site;
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
        escape_text(page->out, html_title(site, page->index));
        break;
    case SLOT_BOOK:
        escape_text(page->out, site->pages[0]->title);
        break;
    case SLOT_SHEET:
        buffer_print(page->out, page->single ? "%zu to %zu" : "%zu of %zu", page->index + 1,
                     html_page_count(site));
        break;
    case SLOT_NOTICE:
        if (site->notice)
            markup(page->out, "<p class=\"notice\">%s</p>", site->notice);
        break;
    case SLOT_SHORTCUTS:
        paint_shortcuts(page);
        break;
    case SLOT_HEADING:
        if (!page->single)
            paint_heading(page);
        break;
    case SLOT_CONTENTS:
        if (!page->single)
            paint_contents(page);
        break;
    case SLOT_MAIN:
        if (page->single)
            paint_all_pages(page);
        else
            paint_main(page);
        break;
    case SLOT_PREVIOUS:
        if (!page->single)
            paint_turn(page, false);
        break;
    case SLOT_NEXT:
        if (!page->single)
            paint_turn(page, true);
        break;
    case SLOT_NAVIGATION:
        paint_navigation(page);
        break;
    case SLOT_INPUTS:
        escape_text(page->out, site->inputs);
        break;
    case SLOT_FINGERPRINT:
        escape_text(page->out, site->fingerprint);
        break;
    case SLOT_NONE:
        break;
    }
}

static void fill_template(struct html_page *page)
{
    const struct html_template *template = page->site->template;
    for (size_t i = 0; i < template->count; i++) {
        const struct template_piece *piece = &template->pieces[i];
        if (page->single)
            add_html(page, piece->bytes, piece->length, false);
        else
            buffer_add(page->out, piece->bytes, piece->length);
        fill_slot(page, piece->slot);
    }
}

void html_paint(struct buffer *out, const struct html_site *site, size_t index)
{
    fill_template(&(struct html_page){.out = out, .site = site, .index = index});
}

void html_paint_single(struct buffer *out, const struct html_site *site)
{
    struct arena *arena = arena_new();
    struct buffer style = {0};
    buffer_text(&style, site->style);
    for (size_t i = 0; i < site->extra_count; i++)
        if (site->extras[i].style)
            buffer_text(&style, site->extras[i].style);
    fill_template(&(struct html_page){.out = out,
                                      .site = site,
                                      .single = true,
                                      .style = style.bytes,
                                      .files = list_files(arena, site)});
    buffer_free(&style);
    arena_free(arena);
}

/* ---- the bench page: templates/bench.html with the settings and the engine behind it ---- */

/* Comments speak to who edits the template. */
static void add_without_comments(struct buffer *out, const char *html)
{
    for (const char *open; (open = strstr(html, "<!--"));) {
        const char *close = strstr(open, "-->");
        if (!close)
            break;
        buffer_add(out, html, (size_t)(open - html));
        html = close + strlen("-->");
        html += *html == '\n';
    }
    buffer_text(out, html);
}

void bench_page_paint(struct buffer *out, const struct html_site *site, const void *with)
{
    const struct bench_parts *parts = with;
    (void)site;
    add_without_comments(out, parts->html);
    markup(out, "<ul hidden id=\"bench_settings\" data-fingerprint=\"%s\">\n",
           parts->fingerprint);
    for (size_t i = 0; i < parts->setting_count; i++)
        markup(out, "<li data-key=\"%s\">%s</li>\n", parts->settings[i].key,
               parts->settings[i].text);
    buffer_text(out, "</ul>\n");
}

/* ---- a card for one's own lathe: templates/own-card.html, and the card to be filled in ----
 */

/* What asks the table of bands to be made stands for the window. */
static void paint_blank_card(struct buffer *out, const struct html_site *site,
                             const struct page *card)
{
    struct html_page page = {.out = out, .site = site};
    buffer_text(out, "<template id=\"own_card_texts\">\n<div>\n");
    for (const struct node *node = card->root->first; node; node = node->next)
        if (node->kind == NODE_TABLE)
            buffer_text(out, "<div class=\"card-window\"></div>\n");
        else if (node->kind == NODE_RULE)
            buffer_text(out, "</div>\n<div>\n");
        else
            html_paint_node(&page, node);
    buffer_text(out, "</div>\n</template>\n");
}

void own_card_page_paint(struct buffer *out, const struct html_site *site, const void *with)
{
    const struct own_card_parts *parts = with;
    add_without_comments(out, parts->html);
    if (parts->card)
        paint_blank_card(out, site, parts->card);
}
