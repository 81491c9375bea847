/* Units and drums on the bench page equal the cells of the computed tables. */
"use strict";
const fs = require("node:fs");
const {newPage, openBench} = require("./launch.js");
const {check, same} = require("./tally.js");

/* A cell with a comma stands in quotes; none here holds a quote. */
function cells(out, name) {
    return fs
        .readFileSync(`${out}/tables/${name}.csv`, "utf8")
        .trim()
        .split("\r\n")
        .map(line => line.match(/"[^"]*"|[^,]+/g).map(cell => cell.replace(/"/g, "")));
}

const convert = (page, kind, amount) =>
    page.evaluate(
        ([of, text]) =>
            window.spindlebookBench.ask("convert", [
                ["kind", of],
                ["amount", text]
            ]),
        [kind, amount]
    );

/* "1 N" against "is / lbf", and so on: each cell of a unit table. */
async function checkUnits(page, out, kind) {
    const [heads, ...rows] = cells(out, `${kind}-units`);
    for (const [amount, ...values] of rows) {
        const found = await convert(page, kind, amount);
        for (const [i, value] of values.entries()) {
            const unit = heads[i + 1].split(" / ")[1];
            same(found.find(row => row.unit === unit)?.value, value, `${amount} in ${unit}`);
        }
    }
}

async function checkOtherKinds(page) {
    const value = async (kind, amount, unit) =>
        (await convert(page, kind, amount)).find(row => row.unit === unit)?.value;
    same(await value("length", "2 9/16 in", "mm"), "65.0875", "2 9/16 in"); /* 41/16 of 25.4 */
    same(await value("temperature", "-40 degC", "\u00b0F"), "\u221240.0000", "-40 degC");
    same(await value("temperature", "100 degC", "\u00b0F"), "212.000", "100 degC");
    same(await value("mass", "1 lb", "g"), "453.592", "1 lb");
    same(await value("number of threads per inch", "16 tpi", "mm"), "1.58750", "16 tpi");
    same(await value("turning speed", "800 rpm", "r/min"), "800", "800 rpm");
    same(await value("angle", "5 deg", "\u00b0"), "5", "5 deg");
    same(await value("percentage", "0.5 %", "%"), "0.5", "0.5 %");
    const kinds = await page.evaluate(() =>
        window.spindlebookBench.ask("kinds", []).map(row => [row.label, row.value])
    );
    for (const [kind, example] of kinds)
        check(
            (await convert(page, kind, example.split(" or ")[0])).some(
                row => row.name === "amount"
            ),
            `the example of ${kind}`
        );
    check(kinds.length >= 9, "too few kinds");
}

/* Columns "0-450 r/min low / N", ...: two a band. */
async function checkDrums(page, out) {
    const [heads, ...rows] = cells(out, "drum-windows");
    for (let column = 1; column < heads.length; column += 2) {
        const speeds = heads[column].match(/(\d+)\u2013(\d+)/);
        const speed = (Number(speeds[1]) + Number(speeds[2])) / 2 + " r/min";
        const found = await page.evaluate(
            text => window.spindlebookBench.ask("drums", [["speed", text]]),
            speed
        );
        const lines = [];
        for (const row of found)
            if (row.name === "drum")
                lines.push([row.label + (row.unit ? ", " + row.unit : ""), "none", "none"]);
            else lines[lines.length - 1][row.name === "low" ? 1 : 2] = row.value;
        same(
            lines,
            rows.map(row => [row[0], row[column], row[column + 1]]),
            `drums at ${speed}`
        );
    }
}

async function checkTables(browser, out, noted) {
    const page = await newPage(browser, {}, noted);
    await openBench(page, out);
    for (const kind of ["torque", "force"]) await checkUnits(page, out, kind);
    await checkOtherKinds(page);
    await checkDrums(page, out);
    await page.context().close();
}

module.exports = {checkTables};
