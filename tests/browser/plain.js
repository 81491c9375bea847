/* Without script every word is there; the filter; the single file's places. */
"use strict";
const fs = require("node:fs");
const {newPage} = require("./launch.js");
const {check, same} = require("./tally.js");

async function checkWithoutScript(browser, out, noted) {
    const page = await newPage(browser, {javaScriptEnabled: false}, noted);
    for (const file of [`${out}/site/bench.html`, `${out}/spindlebook.html`]) {
        await page.goto(`file://${file}`);
        const words = await page.innerText("#bench_plain");
        check(
            words.includes("script") && words.includes("tables"),
            `${file}: does not say that it needs a script`
        );
        check(
            (await page.isVisible("#bench_plain")) && !(await page.isVisible("#bench")),
            `${file}: shows what cannot work`
        );
    }
    await page.goto(`file://${out}/site/bench.html`);
    await page.click("#bench_plain a");
    check(page.url().endsWith("/find.html"), `the way to the tables leads to ${page.url()}`);
    check(!(await page.isVisible("#find_box")), "the filter stands there without script");
    const [all, shown] = [
        await page.locator(".find-lines li").count(),
        await page.locator(".find-lines li:visible").count()
    ];
    check(all > 50 && all === shown, `index without script: ${shown} of ${all} lines`);
    await page.context().close();
}

async function checkFilter(browser, file, noted) {
    const page = await newPage(browser, {}, noted);
    await page.goto(`file://${file}`);
    const lines = page.locator(".find-lines li:visible"),
        all = await lines.count();
    for (const words of ["pull drum", "UNITS", "effective radius"]) {
        await page.fill("#find_typed", words);
        const texts = await lines.allTextContents();
        const wanted = await page.locator(".find-lines li").evaluateAll(
            (items, typed) =>
                items.filter(item =>
                    typed
                        .toLowerCase()
                        .split(" ")
                        .every(word => item.textContent.toLowerCase().includes(word))
                ).length,
            words
        );
        check(
            wanted > 0 && wanted < all && texts.length === wanted,
            `'${words}': ${texts.length} lines, not ${wanted}`
        );
        same(await page.textContent("#find_count"), String(wanted), `'${words}': the count`);
    }
    await page.fill("#find_typed", "no such word");
    same(await lines.count(), 0, "a word that is nowhere");
    await page.fill("#find_typed", "");
    same(await lines.count(), all, "the filter emptied");
    await page.fill("#find_typed", "words as");
    await lines.first().locator("a").click();
    check(
        await page.evaluate(() => document.querySelector(":target") !== null),
        `${page.url()} leads nowhere`
    );
    await page.context().close();
}

/* All ids differ, and every link within the file leads to one of them. */
async function checkSingle(browser, out, noted) {
    const page = await newPage(browser, {}, noted);
    await page.goto(`file://${out}/spindlebook.html`);
    const [ids, links] = await page.evaluate(() => [
        Array.from(document.querySelectorAll("[id]"), element => element.id),
        Array.from(document.querySelectorAll("a[href]"), link => link.getAttribute("href"))
    ]);
    same(
        ids.filter((id, i) => ids.indexOf(id) !== i),
        [],
        "ids that stand twice in the single file"
    );
    const known = new Set(ids),
        within = links.filter(link => link.startsWith("#"));
    same(
        within.filter(link => !known.has(decodeURIComponent(link.slice(1)))),
        [],
        "links to nowhere in the single file"
    );
    same(
        links.filter(link => !link.startsWith("#") && !/^https?:/.test(link)),
        [],
        "links to files in the single file"
    );
    check(within.length > 300, "too few links in the single file");
    const files = fs.readdirSync(`${out}/site`).filter(name => name.endsWith(".html"));
    same(await page.locator(".sheet").count(), files.length, "pages in the single file");
    await checkSameText(browser, page, out, files, noted);
    await page.context().close();
}

/* No page loses a word on its way into the single file. */
async function checkSameText(browser, single, out, files, noted) {
    const page = await newPage(browser, {javaScriptEnabled: false}, noted);
    const squeeze = text => text.replace(/\s+/g, " ").trim();
    const sheets = (await single.locator(".sheet").allTextContents()).map(squeeze);
    for (const file of files.filter(name => name !== "bench.html")) {
        await page.goto(`file://${out}/site/${file}`);
        const blocks = await page
            .locator("main p, main li, main td, main th, main figcaption")
            .allTextContents();
        const title = squeeze(await page.locator("h1").textContent());
        const sheet = sheets.find(text => text.startsWith(title));
        same(
            blocks.map(squeeze).filter(text => !sheet?.includes(text)),
            [],
            `${file} in the single file`
        );
    }
    await page.context().close();
}

async function checkPlain(browser, out, noted) {
    await checkWithoutScript(browser, out, noted);
    await checkFilter(browser, `${out}/site/find.html`, noted);
    await checkFilter(browser, `${out}/spindlebook.html`, noted);
    await checkSingle(browser, out, noted);
}

module.exports = {checkPlain};
