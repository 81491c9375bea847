/* The bench page's answers equal the terminal's, in every shown digit and word. */
"use strict";
const {makeCases} = require("./cases.js");
const {newPage, openBench} = require("./launch.js");
const {check, same} = require("./tally.js");
const {Terminal, plain} = require("./terminal.js");

const CASES = 600,
    TYPED = 30,
    AT_ONCE = 4;

/* ---- many cases, through the function that the buttons use ---- */

/* In the page. Gives for each case the rows that the page would get. */
function askAll(cases) {
    const {ask, settings} = window.spindlebookBench;
    return cases.map(({replaced, pulls, nut, drum, speed, breakaway, lock, warmth, direction, added}) => {
        const changed = new Map(replaced);
        const all = settings.filter(([key]) => !changed.has(key)).concat(replaced);
        return {
            settings: ask("settings", all),
            judge: ask(
                "judge",
                pulls
                    .map(pull => ["pull", pull])
                    .concat([
                        ["breakaway", breakaway],
                        ["lock", lock],
                        ["warmth", warmth],
                        ["direction", direction],
                        ["lock-added", added]
                    ])
            ),
            window: ask("window", [
                ["drum", drum],
                ["speed", speed]
            ]),
            nut: ask(
                "nut",
                ["angle-1", "drag-1", "angle-2", "drag-2"]
                    .map((key, i) => [key, nut[i]])
                    .concat([
                        ["nut-lock", lock === "after" ? "after" : "before"],
                        ["warmth", warmth],
                        ["direction", direction],
                        ["lock-added", added]
                    ])
            )
        };
    });
}

const none = {rows: [], faults: []};

/* settings: the lines about what --set gave; then nothing else is answered. */
/* The page leaves empty what is not known; at the terminal the log stands in for it, and
   so it is always said. */
const takenOptions = ({warmth, direction, added}, lock) =>
    [
        ["--lock", lock],
        ["--warmth", warmth],
        ["--direction", direction],
        ["--lock-added", added]
    ].flatMap(([option, text]) => (text ? [option, text] : []));

async function askTerminal(terminal, one) {
    const {replaced, pulls, nut, drum, speed, lock} = one;
    const withDrum = replaced
        .filter(([key]) => key !== "drum.diameter")
        .concat([["drum.diameter", drum]]);
    const judge = await terminal.ask("pull", replaced, takenOptions(one, lock), pulls);
    if (judge.faults.some(line => /^(--set|[^ ]*settings\.yaml:)/.test(line)))
        return {settings: judge.faults, judge: none, window: none, nut: none};
    return {
        settings: [],
        judge,
        window: await terminal.ask("window", withDrum, ["--speed", speed], []),
        nut: await terminal.ask("nut", replaced, takenOptions(one, lock === "after" ? "after" : "before"), nut)
    };
}

const faultsOf = (rows, but) =>
    rows.filter(row => row.name === "fault" && row.label !== but).map(row => row.unit);
const told = rows => rows.map(row => [row.name, plain(row.value), plain(row.unit)]);

/* What only the page asks for stands beside what both say. */
const ofTerminal = (rows, asked) => {
    const only = ["good", "good-from", "good-to", "breakaway-ratio"];
    return asked === "judge"
        ? rows.filter(
              row =>
                  !only.includes(row.name) &&
                  row.label !== "breakaway" &&
                  !row.name.startsWith("draw-")
          )
        : rows;
};

/* The lines of the terminal that end in no fault of the page. The terminal stops at the
   first word that it cannot read; the page tells of every input. */
const onlyTerminal = (faults, lines) =>
    lines.filter(line => !faults.some(fault => line.endsWith(": " + fault)));

/* A breakaway is asked for on the page alone. */
function compareVerb(asked, page, terminal, words) {
    const faults = faultsOf(page, "breakaway");
    if (terminal.faults.length === 0) same(told(ofTerminal(page, asked)), terminal.rows, words);
    else
        check(
            page.every(row => row.name === "fault"),
            `${words}: answers beside ${JSON.stringify(terminal.faults)}`
        );
    same(
        onlyTerminal(faults, terminal.faults),
        [],
        `${words}: only the terminal says so; the page: ${JSON.stringify(faults)}`
    );
    check(
        terminal.faults.length > 0 || faults.length === 0,
        `${words}: only the page says ${JSON.stringify(faults)}`
    );
}

const newtons = text => Number(text.match(/^([0-9.]+)\s*N$/)?.[1]);

/* The breakaway ratio once more; what is good lies within the limits. */
function checkAlone(rows, one, words) {
    const value = name => Number(rows.find(row => row.name === name)?.value);
    const ratio =
        newtons(one.breakaway) /
        (one.pulls.map(newtons).reduce((a, b) => a + b) / one.pulls.length);
    if (Number.isFinite(ratio) && faultsOf(rows).length === 0)
        check(
            Math.abs(value("breakaway-ratio") - ratio) <= 0.005001,
            `${words}: breakaway ratio`
        );
    if (!rows.find(row => row.name === "good-from")) return;
    const [low, high, drag, from, to] = ["low", "high", "drag", "good-low", "good-high"].map(
        name => value("draw-" + name)
    );
    const good = rows.find(row => row.name === "state").value.endsWith("good");
    check(low <= from && from <= to && to <= high, `${words}: good beyond the limits`);
    check(!good || (from <= drag && drag <= to), `${words}: good outside of what is good`);
    check(value("good-from") <= value("good-to"), `${words}: good from above good to`);
}

function compareCase(one, page, terminal, number) {
    const words = verb => `case ${number}, ${verb}, ${JSON.stringify(one)}`;
    if (faultsOf(page.settings).length || terminal.settings.length) {
        same(onlyTerminal(faultsOf(page.settings), terminal.settings), [], words("settings"));
        same(faultsOf(page.settings).length, terminal.settings.length, words("settings"));
        check(
            page.judge.length === 0 && page.nut.length === 0,
            `${words("settings")}: answers in spite of a fault`
        );
        return;
    }
    compareVerb("judge", page.judge, terminal.judge, words("pull"));
    compareVerb("window", page.window, terminal.window, words("window"));
    compareVerb("nut", page.nut, terminal.nut, words("nut"));
    checkAlone(page.judge, one, words("alone"));
}

async function compareMany(page, terminal, seed) {
    const cases = makeCases(seed, CASES);
    const answers = await page.evaluate(askAll, cases);
    let next = 0;
    const kinds = {settings: 0, faults: 0, good: 0};
    const work = async () => {
        while (next < cases.length) {
            const number = next++,
                answer = answers[number];
            compareCase(
                cases[number],
                answer,
                await askTerminal(terminal, cases[number]),
                number
            );
            kinds[
                faultsOf(answer.settings).length
                    ? "settings"
                    : faultsOf(answer.judge, "breakaway").length
                      ? "faults"
                      : "good"
            ]++;
        }
    };
    await Promise.all(Array.from({length: AT_ONCE}, work));
    check(
        Object.values(kinds).every(count => count >= 20),
        `too few of one kind: ${JSON.stringify(kinds)}`
    );
    return kinds;
}

/* ---- fewer, typed and clicked ---- */

async function typeCase(page, one) {
    if (await page.isEnabled("#bench_clear")) await page.click("#bench_clear");
    if (await page.isEnabled("#bench_restore")) await page.click("#bench_restore");
    for (const [key, text] of one.replaced) await page.fill(`[data-setting="${key}"]`, text);
    await page.fill("#bench_window_drum", one.drum);
    await page.fill("#bench_window_speed", one.speed);
    for (const [i, id] of ["angle_1", "drag_1", "angle_2", "drag_2"].entries())
        await page.fill(`#bench_${id}`, one.nut[i]);
    await page.fill("#bench_breakaway", one.breakaway);
    await page.selectOption("#bench_lock", one.lock);
    await page.selectOption("#bench_warmth", one.warmth);
    await page.selectOption("#bench_direction", one.direction);
    await page.selectOption("#bench_nut_lock", one.lock === "after" ? "after" : "before");
    await page.fill("#bench_lock_added", one.added);
    await page.focus("#bench_pull");
    for (const [i, pull] of one.pulls.entries()) {
        await page.fill("#bench_pull", "");
        await page.keyboard.type(pull);
        await (i % 2 ? page.keyboard.press("Enter") : page.click("#bench_pull_form button"));
    }
}

/* In the page: what a reader sees. */
function seen() {
    const text = id => document.getElementById("bench_" + id).innerText.trim();
    const rows = id =>
        Array.from(document.querySelectorAll(`#bench_${id} .row`), row =>
            row.innerText.replace(/\s+/g, " ").trim()
        );
    const faults = Array.from(
        document.querySelectorAll("#bench .fault:not(#bench_breakaway_fault, [hidden])"),
        box => box.textContent
    ).filter(Boolean);
    const visible = !document.getElementById("bench_answer").hidden;
    return {
        visible,
        faults,
        drag: text("drag"),
        u: text("u"),
        unit: text("drag_unit"),
        state: text("state"),
        next: text("next"),
        never: text("never"),
        high: text("high"),
        lock: text("not_locked"),
        rows: rows("rows"),
        window: rows("window"),
        nut: rows("nut")
    };
}

const valueOf = (answer, name) => answer.rows.find(row => row[0] === name)?.[1];

function compareSeen(page, terminal, words) {
    check(page.visible, `${words}: nothing is shown`);
    same(page.drag, valueOf(terminal.judge, "drag"), words);
    same(plain(page.unit), terminal.judge.rows.find(row => row[0] === "drag")[2], words);
    same(page.u, valueOf(terminal.judge, "uncertainty"), words);
    same(page.state, valueOf(terminal.judge, "state"), words);
    same(page.next, valueOf(terminal.judge, "next"), words);
    const never = valueOf(terminal.judge, "never-exceed");
    check(
        never ? page.never.endsWith(": " + never) : page.never === "",
        `${words}: never exceed: '${page.never}'`
    );
    const caution = valueOf(terminal.judge, "caution");
    check(
        caution ? page.high.endsWith(": " + caution) : page.high === "",
        `${words}: caution: '${page.high}'`
    );
    const all = page.rows.concat(page.lock, page.window, page.nut).map(plain).join("\n");
    for (const verb of ["judge", "window", "nut"])
        for (const [name, value] of terminal[verb].rows)
            check(
                (["drag", "state", "next", "never-exceed", "caution"].includes(name) &&
                    verb === "judge") ||
                    all.includes(value),
                `${words}: ${verb} ${name} ${value} is not on the page`
            );
}

/* The input begins with what the log knows, and with it the page moves the nut as the
   terminal does without a word of what it added. */
async function compareFilled(page, terminal) {
    const added = await page.inputValue("#bench_lock_added");
    check(/^-?[0-9.]+ N\.m$/.test(added), `locking added is filled in with '${added}'`);
    const one = {replaced: [], pulls: ["5 N"], drum: "50 mm", speed: "400 r/min"};
    const nut = ["0 deg", "0.1 N.m", "3 deg", "0.2 N.m"];
    const [answer] = await page.evaluate(askAll, [
        {...one, nut, breakaway: "", lock: "before", warmth: "", direction: "", added}
    ]);
    const said = await terminal.ask("nut", [], ["--lock", "before"], nut);
    same(told(answer.nut), said.rows, "the nut with what the log knows of the lock");
    check(
        said.rows.some(row => row[0] === "lock-added"),
        "the log's lock is not taken off"
    );
}

async function compareTyped(page, terminal, seed) {
    const cases = makeCases(seed, 400).filter(
        one =>
            one.pulls.length <= 5 &&
            one.breakaway !== "" &&
            one.pulls.every(pull => !/^[0-9./-]*$/.test(pull))
    );
    let good = 0,
        bad = 0;
    for (const one of cases) {
        if (good + bad >= TYPED) break;
        const answer = await askTerminal(terminal, one);
        const words = `typed ${JSON.stringify(one)}`;
        await typeCase(page, one);
        const shown = await page.evaluate(seen);
        const faults = answer.settings.concat(
            answer.judge.faults,
            answer.window.faults,
            answer.nut.faults
        );
        if (faults.length === 0) {
            good++;
            same(shown.faults, [], words);
            compareSeen(shown, answer, words);
        } else {
            bad++;
            check(
                shown.faults.length > 0,
                `${words}: no fault is shown, the terminal says ${JSON.stringify(faults)}`
            );
            const wanted = answer.settings.length ? answer.settings : faults;
            same(
                onlyTerminal(shown.faults, wanted),
                [],
                `${words}: the page says ${JSON.stringify(shown.faults)}`
            );
            check(
                !answer.settings.length || !shown.visible,
                `${words}: a drag is shown in spite of a faulty rig`
            );
        }
    }
    check(good >= 5 && bad >= 5, `typed: ${good} good and ${bad} bad cases are too few`);
    return good + bad;
}

async function checkEqual(browser, out, root, content, seed, noted) {
    const page = await newPage(browser, {viewport: {width: 1000, height: 900}}, noted);
    const terminal = Terminal(out, root, content);
    await openBench(page, out);
    await compareFilled(page, terminal);
    const kinds = await compareMany(page, terminal, seed);
    await page.reload();
    await page.waitForSelector("#bench:not([hidden])");
    const typed = await compareTyped(page, terminal, seed + 1);
    await page.context().close();
    return `${CASES} cases of seed ${seed} (${kinds.good} good, ${kinds.faults} with bad pulls, ${kinds.settings} with bad settings) and ${typed} typed ones equal the terminal`;
}

module.exports = {checkEqual};
