/* Every page: nothing asked from outside, no accessibility finding, no sideways scroll. */
"use strict";
const fs = require("node:fs");
const axe = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const {newPage} = require("./launch.js");
const {check, same} = require("./tally.js");

const WIDTHS = [320, 360, 1280],
    SCHEMES = ["light", "dark"];
const TARGET = 44; /* px, WCAG 2.2 2.5.5 */

const pagesOf = out =>
    fs
        .readdirSync(`${out}/site`)
        .filter(name => name.endsWith(".html"))
        .map(name => `${out}/site/${name}`)
        .concat([`${out}/spindlebook.html`]);

/* The two schemes differ in colours alone: in the dark one only those are looked at. */
async function checkAxe(page, scheme, words) {
    const options = {
        resultTypes: ["violations"],
        preload: false,
        selectors: false,
        ...(scheme === "dark" && {runOnly: ["cat.color"]})
    };
    if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe);
    const found = await page.evaluate(some => window.axe.run(document, some), options);
    same(
        found.violations.map(one => `${one.id}: ${one.nodes[0].html.slice(0, 120)}`),
        [],
        words
    );
    check(
        found.passes.length > (scheme === "dark" ? 0 : 10),
        `${words}: axe looked at too little`
    );
}

async function checkWidth(page, words) {
    const [content, window] = await page.evaluate(() => [
        document.documentElement.scrollWidth,
        document.documentElement.clientWidth
    ]);
    check(content <= window, `${words}: scrolls sideways, ${content} px`);
}

/* On a telephone the heads that a pull is read by stand side by side, none hidden. */
async function checkWindowHeads(page, words) {
    const hidden = await page.evaluate(() =>
        Array.from(document.querySelectorAll("table[id$=pull-windows]"), table =>
            Array.from(table.querySelectorAll("thead th"))
                .slice(0, 4)
                .filter(head => {
                    const box = head.getBoundingClientRect(),
                        view = table.parentElement.getBoundingClientRect();
                    return box.left < view.left - 1 || box.right > view.right + 1;
                })
                .map(head => head.textContent)
        ).flat()
    );
    same(hidden, [], `${words}: heads of the pull windows out of sight`);
}

/* WCAG 1.4.12: nothing is lost when a reader spaces the text. */
function spaceText() {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(
        "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }"
    );
    document.adoptedStyleSheets = [sheet];
}

async function fillBench(page) {
    await page.waitForSelector("#bench:not([hidden])");
    for (const pull of ["17.2", "17.3 N", "17,4", "17.25"]) {
        await page.fill("#bench_pull", pull);
        await page.press("#bench_pull", "Enter");
    }
    for (const [id, text] of [
        ["angle_1", "0 deg"],
        ["drag_1", "0.3 N.m"],
        ["angle_2", "3 deg"],
        ["drag_2", "0.4"],
        ["amount", "12 mm"],
        ["breakaway", "25 N"]
    ])
        await page.fill(`#bench_${id}`, text);
    await page.press("#bench_breakaway", "Tab");
    await page.click("#bench_write");
    await page.waitForFunction(
        () => !document.getElementById("bench").classList.contains("stale")
    );
}

async function checkTargets(page, words) {
    const small = await page.evaluate(
        least =>
            Array.from(
                document.querySelectorAll(
                    "#bench button, #bench input, #bench select, #bench textarea"
                )
            )
                .filter(element => element.getClientRects().length)
                .map(element => [element.id, element.getBoundingClientRect()])
                .filter(([, box]) => box.width < least || box.height < least)
                .map(([id]) => id),
        TARGET
    );
    same(small, [], `${words}: targets`);
}

async function checkPage(page, file, scheme) {
    const name = file.split("/").pop(),
        hasBench = ["bench.html", "spindlebook.html"].includes(name);
    await page.goto(`file://${file}`);
    if (hasBench) await fillBench(page);
    for (const width of WIDTHS) {
        const words = `${name}, ${scheme}, ${width} px`;
        await page.setViewportSize({width, height: 800});
        await page.waitForTimeout(30); /* the drawing follows the width */
        await checkAxe(page, scheme, words);
        await checkWidth(page, words);
        if (width === 360) await checkWindowHeads(page, words);
        if (hasBench) await checkTargets(page, words);
    }
    await page.setViewportSize({width: 320, height: 800});
    await page.evaluate(spaceText);
    await checkWidth(page, `${name}, spaced`);
}

async function checkSite(browser, out, noted) {
    const files = pagesOf(out);
    check(
        files.some(file => file.endsWith("/bench.html")),
        "there is no bench page"
    );
    const waiting = files.reverse().flatMap(file => SCHEMES.map(scheme => [file, scheme]));
    const work = async () => {
        for (let next; (next = waiting.shift());) {
            const page = await newPage(browser, {colorScheme: next[1]}, noted);
            await checkPage(page, ...next);
            await page.context().close();
        }
    };
    await Promise.all([work(), work()]);
    return files.length;
}

module.exports = {checkSite};
