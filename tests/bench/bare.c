/* libharu alone: bare TEXT FONT OUT draws the lines of TEXT, pages divided by form feeds,
 * with one embedded font on pages of A5, and saves them. No measuring, no breaking of
 * lines or pages, no links, tags or outline. */
#include <hpdf.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void on_error(HPDF_STATUS error, HPDF_STATUS detail, void *user)
{
    (void)user;
    fprintf(stderr, "libharu: %04lX %lu\n", error, detail);
    exit(1);
}

static void draw_page(HPDF_Doc doc, HPDF_Font font, char *text)
{
    HPDF_Page page = HPDF_AddPage(doc);
    HPDF_Page_SetWidth(page, 420);
    HPDF_Page_SetHeight(page, 595);
    HPDF_Page_BeginText(page);
    HPDF_Page_SetFontAndSize(page, font, 9);
    HPDF_Page_SetTextLeading(page, 11);
    HPDF_Page_MoveTextPos(page, 30, 560);
    for (char *line = text, *end; line; line = end ? end + 1 : NULL) {
        end = strchr(line, '\n');
        if (end)
            *end = '\0';
        HPDF_Page_ShowTextNextLine(page, line);
    }
    HPDF_Page_EndText(page);
}

int main(int count, char **words)
{
    FILE *file = count == 4 ? fopen(words[1], "rb") : NULL;
    if (!file)
        return 2;
    static char text[64 << 20];
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    HPDF_Doc doc = HPDF_New(on_error, NULL);
    HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
    HPDF_UseUTFEncodings(doc);
    const char *name = HPDF_LoadTTFontFromFile(doc, words[2], HPDF_TRUE);
    HPDF_Font font = HPDF_GetFont(doc, name, "UTF-8");
    for (char *page = text, *end; page && *page; page = end ? end + 1 : NULL) {
        end = strchr(page, '\f');
        if (end)
            *end = '\0';
        draw_page(doc, font, page);
    }
    HPDF_SaveToFile(doc, words[3]);
    HPDF_Free(doc);
    return 0;
}
