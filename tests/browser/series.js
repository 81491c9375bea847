/* A series outlives the page; its row goes back into the log; it works by keyboard. */
"use strict";
const fs = require("node:fs");
const {execFileSync} = require("node:child_process");
const {newPage, openBench} = require("./launch.js");
const {check, same} = require("./tally.js");

const pulls = ["17.20 N", "17 1/2 N", "4.05 lbf", "17.30 N"];

async function addPulls(page, some) {
    for (const pull of some) {
        await page.fill("#bench_pull", pull);
        await page.press("#bench_pull", "Enter");
    }
}

const taken = page => page.locator("#bench_pulls li").allTextContents();

async function checkKept(page) {
    await addPulls(page, pulls.concat(["<img src=x onerror=alert(1)>"]));
    check((await page.locator("#bench img").count()) === 0, "typed mark-up became an element");
    check(
        (await page.textContent("#bench_pull_fault")).length > 10,
        "a wrong pull is taken without a word"
    );
    same(await taken(page), pulls, "pulls as they were added");
    await page.fill("#bench_drum_diameter", "2 1/2 in");
    await page.press("#bench_drum_diameter", "Tab");
    const drag = await page.textContent("#bench_drag");
    await page.reload();
    await page.waitForSelector("#bench:not([hidden])");
    same(await taken(page), pulls, "pulls after a reload");
    same(await page.inputValue("#bench_drum_diameter"), "2 1/2 in", "a changed drum after a reload");
    same(await page.textContent("#bench_drag"), drag, "the drag after a reload");
    check(
        await page.isVisible("#bench_changed"),
        "the page does not say that its rig is another"
    );
    await page.click("#bench_restore");
    same(await page.inputValue("#bench_drum_diameter"), "62 mm", "the drum of the settings");
    check(!(await page.isVisible("#bench_changed")), "the page says that its rig is another");
    await page.click("#bench_undo");
    same(await taken(page), pulls.slice(0, -1), "pulls after one was undone");
}

/* From here to there by Tab alone, and pressed by Enter or the space bar. */
async function checkKeyboard(page) {
    await page.focus("#bench_pull");
    await page.keyboard.type("17.35");
    await page.keyboard.press("Tab");
    await page.selectOption("#bench_unit", "N");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Space");
    same((await taken(page)).pop(), "17.35 N", "a pull added by keyboard");
    same(
        await page.evaluate(() => document.activeElement.id),
        "bench_pull",
        "the focus after a pull"
    );
    for (const id of ["bench_unit", "", "bench_undo", "bench_clear", "bench_lock", "bench_direction", "bench_warmth", "bench_breakaway"]) {
        await page.keyboard.press("Tab");
        same(
            await page.evaluate(() => document.activeElement.id),
            id,
            "the next in order of Tab"
        );
    }
    same(
        await page.evaluate(() => document.getElementById("bench_verdict").tagName),
        "OUTPUT",
        "the verdict's element"
    );
}

/* Faults are told to who cannot see them. */
async function checkTold(page) {
    await page.fill("#bench_drum_diameter", "62");
    await page.press("#bench_drum_diameter", "Tab");
    const box = await page.evaluate(() => {
        const input = document.getElementById("bench_drum_diameter"),
            words = document.getElementById(input.getAttribute("aria-describedby"));
        return [
            input.getAttribute("aria-invalid"),
            words.getAttribute("aria-live"),
            words.textContent.length > 10
        ];
    });
    same(box, ["true", "polite", true], "a fault beside its input");
    check(
        !(await page.isVisible("#bench_answer")) && (await page.isVisible("#bench_mend")),
        "a drag stands there beside a faulty rig"
    );
    same(
        await page.locator("#bench_window .row, #bench_drums tr").count(),
        0,
        "windows beside a faulty rig"
    );
    await page.click("#bench_restore");
}

async function writeRow(page, {direction, warmth, some}) {
    await addPulls(page, some);
    await page.selectOption("#bench_direction", direction);
    await page.selectOption("#bench_warmth", warmth);
    await page.fill("#bench_note", 'a note, with a "comma"');
    const drag = [await page.textContent("#bench_drag"), await page.textContent("#bench_u")];
    await page.click("#bench_write");
    return drag;
}

/* What keeps a row from being written is said beside the button, and stands until it is
   mended; the first input that wants something is gone to. */
async function checkUnwritten(page) {
    const said = () => page.textContent("#bench_log_fault");
    await page.selectOption("#bench_lock", "after");
    await page.fill("#bench_place", "3 deg");
    await page.evaluate(() => document.getElementById("bench_write").click());
    await page.waitForTimeout(600); /* what was typed just before is worked out meanwhile */
    check(
        /Turned.*choose one of the list.*Spindle.*choose one/.test(await said()),
        `beside the button stands '${await said()}'`
    );
    for (const id of ["direction", "warmth"])
        check(
            (await page.textContent(`#bench_${id}_fault`)).includes("choose one of the list"),
            `what ${id} wants was said, and wiped away`
        );
    same(
        await page.evaluate(() => document.activeElement.id),
        "bench_direction",
        "the focus after a row that could not be written"
    );
    check(
        await page.evaluate(() => {
            const box = document.activeElement.getBoundingClientRect();
            return box.top >= 0 && box.bottom <= window.innerHeight;
        }),
        "the input that wants something is not in sight"
    );
    await page.selectOption("#bench_direction", "usual");
    same(await page.textContent("#bench_direction_fault"), "", "a direction that was chosen");
    check(/^Spindle/.test(await said()), `with one of two mended there stands '${await said()}'`);
    await page.selectOption("#bench_direction", "");
    await page.selectOption("#bench_lock", "");
    await page.fill("#bench_place", "");
}

async function checkLog(page, out, root, work) {
    await checkUnwritten(page);
    await page.click("#bench_write");
    check(
        (await page.textContent("#bench_direction_fault")).includes("choose one of the list"),
        "a row without a direction is written, or it is not said what to do"
    );
    same(await page.inputValue("#bench_log"), "", "the log after a fault");
    await page.click("#bench_clear");
    await page.fill("#bench_date", "2099-01-05");
    await page.fill("#bench_temperature", "18 degC");
    await page.fill("#bench_place", "3 deg");
    await page.selectOption("#bench_lock", "after");
    const drags = [
        await writeRow(page, {
            direction: "usual",
            warmth: "cold",
            some: ["17.20 N", "17 1/2 N", "17.35 N"]
        }),
        await writeRow(page, {
            direction: "other",
            warmth: "warm",
            some: ["18.20", "18.30", "18.25"]
        })
    ];
    same(await taken(page), [], "pulls after a row was written");
    const rows = (await page.inputValue("#bench_log")).split("\n");
    same(rows.length, 2, "rows written");
    await page.reload();
    await page.waitForSelector("#bench:not([hidden])");
    same((await page.inputValue("#bench_log")).split("\n"), rows, "rows after a reload");
    await page.click("#bench_copy_all");
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    checkReadBack(copied, rows, drags, out, root, work);
}

/* The program reads what the page wrote behind its own log, and finds the same drags. It has
   learned from the first row when it judges the second; the page has not. */
function checkReadBack(copied, rows, drags, out, root, work) {
    const [heads, ...others] = copied.trim().split("\n");
    same(others, rows, "rows on the clipboard");
    fs.cpSync(`${root}/content`, `${work}/content`, {recursive: true});
    const log = `${work}/content/readings.csv`;
    same(fs.readFileSync(log, "utf8").split(/\r?\n/)[0], heads, "heads on the clipboard");
    fs.appendFileSync(log, rows.join("\n") + "\n");
    execFileSync(
        `${out}/bin/spindlebook`,
        [
            "book",
            "--content",
            `${work}/content`,
            "--templates",
            `${root}/templates`,
            "--out",
            `${work}/made`
        ],
        {stdio: ["ignore", "ignore", "inherit"]}
    );
    const table = fs
        .readFileSync(`${work}/made/tables/pull-log.csv`, "utf8")
        .trim()
        .split("\r\n")
        .slice(-rows.length);
    for (const [i, drag] of drags.entries())
        for (const number of i ? drag.slice(0, 1) : drag)
            check(
                table[i].split(",").includes(number),
                `pull-log says ${table[i]}, the page ${drag}`
            );
}

/* What the page saves of the drum to make is what the program wrote; the 3MF is not packed. */
async function checkDrumFiles(page, out) {
    for (const name of ["drum.stl", "drum.3mf", "drum.dxf", "drum.svg"]) {
        const coming = page.waitForEvent("download");
        await page.click(`[data-file="${name}"]`);
        const download = await coming;
        same(download.suggestedFilename(), name, "the name of a saved file");
        const saved = fs.readFileSync(await download.path());
        const made = fs.readFileSync(`${out}/${name}`);
        if (name.endsWith(".3mf"))
            check(saved.subarray(0, 2).toString() === "PK", "the saved 3MF is no package");
        else check(saved.equals(made), `${name}: the page saves other bytes than out has`);
    }
}

/* Nothing else may be lost when the page cannot keep anything, or kept nonsense. */
async function checkBadStore(browser, out, noted) {
    for (const kept of [
        "nonsense",
        "null",
        "[]",
        '{"pulls":[1,null,"x","17 N"],"texts":5,"written":"a"}'
    ]) {
        const page = await newPage(browser, {}, noted);
        await page.addInitScript(text => (Storage.prototype.getItem = () => text), kept);
        await openBench(page, out);
        check(await page.isVisible("#bench_pull"), `kept '${kept}': the page is not there`);
        await page.context().close();
    }
}

async function checkSeries(browser, out, root, work, noted) {
    const page = await newPage(
        browser,
        {permissions: ["clipboard-read", "clipboard-write"]},
        noted
    );
    await openBench(page, out);
    await checkDrumFiles(page, out);
    await checkKept(page);
    await checkKeyboard(page);
    await checkTold(page);
    await checkLog(page, out, root, work);
    await page.context().close();
    await checkBadStore(browser, out, noted);
}

module.exports = {checkSeries};
