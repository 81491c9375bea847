/* The page of a card for one's own lathe, as a newcomer types it: made-up workshops from a seed,
 * and for each what the terminal says of the settings that the page saves. */
"use strict";
const {execFileSync} = require("node:child_process");
const fs = require("node:fs");
const {newPage} = require("./launch.js");
const {tally, check, same} = require("./tally.js");

const WORKSHOPS = 20;
const MOST_ENTRIES = 25;
const POINTS = 72 / 25.4; /* a millimetre */

/* A small generator, so that a seed gives the same workshops everywhere. */
function drawer(seed) {
    let state = seed >>> 0;
    return function (count) {
        state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
        return Math.floor((state / 4294967296) * count);
    };
}

/* One band of running drag; the answer to each question by its key. */
function workshop(draw, number) {
    const imperial = number % 3 === 1,
        kilograms = number % 3 === 2;
    const low = 20 + draw(60),
        high = low + 15 + draw(60);
    const drag = hundredths =>
        imperial
            ? `${((hundredths / 100) * 8.85).toFixed(1)} lbf.in`
            : `${(hundredths / 100).toFixed(2)} N.m`;
    const speed = `${1000 + 100 * draw(20)} r/min`;
    return {
        "lathe.name": `Lathe ${number}`,
        "limits.on-file": "yes",
        "limits.source": "Manual of the test",
        "limits.torque": "running",
        "limits.basis": "absolute",
        "limits.bearings": ["new", "used"][draw(2)],
        "limits.warmth": "cold",
        "lathe.top-speed": speed,
        "limits.bands.1.to": "",
        "limits.bands.1.low": drag(low),
        "limits.bands.1.high": drag(high),
        "limits.bands.1.page": "41",
        "limits.never-exceed": number % 4 ? "" : drag(high + 40),
        "drum.diameter": imperial ? `${2 + draw(3)} 7/16 in` : `${50 + draw(60)} mm`,
        "drum.tolerance": imperial ? "0.002 in" : "0.05 mm",
        "cord.diameter": `${5 + draw(8)}e-1`.replace(/(\d+)e-1/, (_, d) => `${(d / 10).toFixed(1)} mm`),
        "cord.tolerance": "0.05 mm",
        "gauge.name": number % 2 ? "" : "the test's gauge",
        "gauge.capacity": kilograms ? "5 kg" : imperial ? "12 lbf" : "50 N",
        "gauge.step": kilograms ? "0.005 kg" : imperial ? "0.01 lbf" : "0.05 N",
        "gauge.full-scale-error": "0.2 %",
        "paper.card": ["a6", "a5", "half-letter"][number % 3],
        "paper.booklet": "a5"
    };
}

async function openOwnCard(page, file) {
    await page.goto(`file://${file}`);
    await page.waitForSelector("#own_card:not([hidden])");
}

/* The key of the question in sight is the first that has no answer: the engine says it. */
const keyInSight = page =>
    page.evaluate(() => {
        const {ask, answers} = window.spindlebookOwnCard;
        const question = ask("next", answers()).find(row => row.name === "question");
        return question ? question.label : null;
    });

/* Types and clicks as one does; gives the number of entries. */
async function typeIn(page, answers) {
    let entries = 0;
    for (let key = await keyInSight(page); key; key = await keyInSight(page)) {
        check(key in answers, `asked for ${key}`);
        if (!(key in answers) || entries > 60) break;
        if (await page.isVisible("#own_card_text")) {
            await page.fill("#own_card_text", answers[key]);
            await page.press("#own_card_text", "Enter");
        } else {
            await page.click(`#own_card_choices button:text-is("${answers[key]}")`);
        }
        same(await page.textContent("#own_card_fault"), "", `${key}: ${answers[key]}`);
        entries++;
    }
    if (await page.isVisible("#own_card_yes")) {
        await page.click("#own_card_yes");
        entries++;
    }
    return entries;
}

async function saved(page) {
    const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.click("#own_card_save")
    ]);
    return fs.readFileSync(await download.path(), "utf8");
}

/* What the terminal says of the same settings: the verb that asks goes on from the page's file,
 * and has nothing left to ask but whether the limits are right. */
function atTerminal(out, folder, settings) {
    const program = `${out}/bin/spindlebook`;
    fs.mkdirSync(folder);
    fs.writeFileSync(`${folder}/settings.yaml`, settings);
    execFileSync(program, ["begin", folder], {input: "yes\n"});
    same(fs.readFileSync(`${folder}/settings.yaml`, "utf8"), settings, "begin writes the same file");
    const rows = execFileSync(program, ["window", "--lines", "--content", folder], {
        encoding: "utf8"
    });
    const card = execFileSync("pdftotext", ["-layout", `${folder}/out/card.pdf`, "-"], {
        encoding: "utf8"
    });
    return {
        ...Object.fromEntries(rows.split("\n").map(line => line.split("\t").slice(0, 2))),
        card: card.replace(/\s+/g, " ")
    };
}

const onCard = page =>
    page.evaluate(() => {
        const text = name => document.querySelector(name).textContent;
        const marks = Array.from(
            document.querySelectorAll("#own_card_front .card-mark"),
            mark => mark.textContent
        );
        return {
            low: marks[0],
            aim: marks[1],
            high: marks[2],
            good: text("#own_card_front .card-good"),
            front: text("#own_card_front"),
            back: text("#own_card_back")
        };
    });

/* ---- what is printed ---- */

/* Bars and the good pulls as the print has them: poppler gives boxes of words in points. */
async function checkPrint(page, work) {
    const file = `${work}/own-card.pdf`;
    await page.pdf({path: file, format: "A4", margin: {top: "10mm", left: "10mm", right: "10mm", bottom: "10mm"}});
    const info = execFileSync("pdfinfo", [file], {encoding: "utf8"});
    same(/Pages:\s+(\d+)/.exec(info)[1], "2", "sheets of the card");
    const words = execFileSync("pdftotext", ["-bbox", "-f", "1", "-l", "1", file, "-"], {
        encoding: "utf8"
    });
    const shown = await page.evaluate(() => ({
        good: document.querySelector(".card-good span").textContent.split(/\s/)[0],
        height: parseFloat(
            getComputedStyle(document.querySelector("#own_card_front")).getPropertyValue("--card-good")
        )
    }));
    const box = [...words.matchAll(/xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</g)]
        .map(found => ({height: found[4] - found[2], text: found[5]}))
        .filter(word => word.text === shown.good)
        .sort((a, b) => b.height - a.height)[0];
    check(box && box.height > shown.height * POINTS * 0.9 && box.height < shown.height * POINTS * 1.5,
        `good pulls ${box && box.height} points high, set at ${shown.height} mm`);
    check(shown.height > 8, `good pulls only ${shown.height} mm`);
    const pixels = 300;
    execFileSync("pdftoppm", ["-r", String(pixels), "-gray", "-f", "1", "-l", "1", file, `${work}/own-card`]);
    const name = fs.readdirSync(work).find(found => /^own-card-.*\.pgm$/.test(found));
    const bar = longestLine(fs.readFileSync(`${work}/${name}`)) / (pixels / 25.4);
    check(Math.abs(bar - 100) < 0.3, `the bar is ${bar.toFixed(2)} mm long`);
    check(!/Question|Take the last answer/.test(words), "more than the card is printed");
}

/* The longest dark run below a card of A6, in pixels of a grey picture (PGM) of A4. */
function longestLine(pgm) {
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(pgm.subarray(0, 40).toString("latin1"));
    const [width, height, start] = [Number(head[1]), Number(head[2]), head[0].length];
    let best = 0;
    for (let y = Math.floor(height * 0.545); y < height; y++)
        for (let x = 0, run = 0; x < width; x++) {
            run = pgm[start + y * width + x] < 128 ? run + 1 : 0;
            if (run > best) best = run;
        }
    return best;
}

/* ---- wrong answers, and what is kept ---- */

async function checkFaults(page) {
    await page.fill("#own_card_text", "");
    await page.press("#own_card_text", "Enter");
    check((await page.textContent("#own_card_fault")).includes("an answer is needed"), "a blank name");
    await page.fill("#own_card_text", "Lathe 0");
    await page.press("#own_card_text", "Enter");
    await page.click("#own_card_back_one");
    same(await page.textContent("#own_card_number"), "1", "taken back");
}

async function checkKept(page, file, answers) {
    await openOwnCard(page, file);
    same((await onCard(page)).front.includes(answers["lathe.name"]), true, "kept over a reload");
    const text = await saved(page);
    await page.click("#own_card_other");
    await page.fill("#own_card_text", answers["lathe.name"]);
    await page.press("#own_card_text", "Enter");
    check(await page.isVisible("#own_card_taken"), "a name that is taken");
    await page.setInputFiles("#own_card_load", {name: "a.yaml", mimeType: "text/yaml", buffer: Buffer.from("lathe:\n  name: x\n")});
    await page.waitForFunction(() => document.getElementById("own_card_load_fault").textContent);
    await page.setInputFiles("#own_card_load", {name: "a.yaml", mimeType: "text/yaml", buffer: Buffer.from(text.replace("62 mm", "62"))});
    await page.setInputFiles("#own_card_load", {name: "a.yaml", mimeType: "text/yaml", buffer: Buffer.from(text)});
    await page.waitForSelector("#own_card_yes", {state: "visible"});
    await page.click("#own_card_yes");
    same(await saved(page), text, "saved, opened and saved again");
}

async function checkOwnCard(browser, out, work, seed, noted) {
    const draw = drawer(seed);
    const file = `${out}/site/own-card.html`;
    for (let number = 0; number < WORKSHOPS; number++) {
        const answers = workshop(draw, number);
        const page = await newPage(browser, {viewport: {width: 390, height: 664}}, noted);
        await openOwnCard(page, file);
        if (number === 0) await checkFaults(page);
        const entries = await typeIn(page, answers);
        check(entries <= MOST_ENTRIES, `${entries} entries to the card`);
        const settings = await saved(page);
        const wanted = atTerminal(out, `${work}/own-${number}`, settings);
        const found = await onCard(page);
        for (const what of ["low", "aim", "high"])
            same(found[what], wanted[what], `${what} of workshop ${number}`);
        const good = found.good.replace(/\s+/g, " ");
        check(
            good === "no pull is good" || /\d – \d/.test(good),
            `good pulls of workshop ${number}: ${good}`
        );
        check(wanted.card.includes(good), `the printed card of workshop ${number} has no ${good}`);
        check(found.front.includes(answers["lathe.name"]) && !found.front.includes("{"), "the front's words");
        check(found.back.includes("STOP") && !found.back.includes("{"), "the back's words");
        if (number === 0) {
            await checkPrint(page, work);
            await checkKept(page, file, answers);
        }
        await page.context().close();
    }
    return tally.looked;
}

module.exports = {checkOwnCard};
