/* Each form, printed from the site, is one sheet of A4 and one of letter. */
"use strict";
const fs = require("node:fs");
const {execFileSync} = require("node:child_process");
const {newPage} = require("./launch.js");
const {check, same} = require("./tally.js");

function pagesOf(pdf) {
    const said = execFileSync("pdfinfo", ["-"], {input: pdf, encoding: "utf8"});
    return Number(said.match(/^Pages: +(\d+)$/m)[1]);
}

/* Its places are not inputs, and none can be reached by the keyboard. */
async function checkPlaces(page, words) {
    const [inputs, places, heads] = await page.evaluate(() => [
        document.querySelectorAll("main input, main textarea, main [contenteditable]").length,
        document.querySelectorAll("main .form dl > div").length,
        document.querySelectorAll("main .grid th[scope]").length
    ]);
    same(inputs, 0, `${words}: inputs`);
    check(places > 2, `${words}: ${places} places to write in`);
    check(heads > 0 || words.includes("graphs"), `${words}: a grid without heads`);
}

async function checkForms(browser, out, noted) {
    const names = fs.readdirSync(`${out}/site`).filter(name => name.startsWith("form-"));
    check(names.length >= 10, `only ${names.length} forms on the site`);
    const page = await newPage(browser, {}, noted);
    for (const name of names) {
        await page.goto(`file://${out}/site/${name}`);
        await checkPlaces(page, name);
        for (const format of ["A4", "Letter"])
            same(
                pagesOf(await page.pdf({format, preferCSSPageSize: false})),
                1,
                `${name} on ${format}: sheets`
            );
    }
    await page.context().close();
}

module.exports = {checkForms};
