/* Pictures of the site and of the bench page. Usage: node pictures.js OUT FOLDER */
"use strict";
const {launch, newPage, openBench} = require("./launch.js");

const looks = {
    light: {viewport: {width: 900, height: 640}, colorScheme: "light"},
    dark: {viewport: {width: 900, height: 640}, colorScheme: "dark"},
    phone: {viewport: {width: 360, height: 640}, colorScheme: "light"}
};

/* The pull windows, from their heading on. */
async function showSite(page, out) {
    await page.goto(`file://${out}/site/read-the-tables.html`);
    await page.locator("#pull-windows").evaluate(table => {
        table.scrollIntoView();
        window.scrollBy(0, -60);
    });
}

/* How three pulls were taken, and what is said of them. */
async function showBench(page, out) {
    await openBench(page, out);
    for (const pull of ["18.2", "18.3", "18.15"]) {
        await page.fill("#bench_pull", pull);
        await page.press("#bench_pull", "Enter");
    }
    const said = {lock: "after", direction: "usual", warmth: "cold"};
    for (const [name, value] of Object.entries(said)) {
        await page.selectOption(`#bench_${name}`, value);
    }
    await page.locator("#bench_direction").evaluate(choice => {
        choice.scrollIntoView();
        window.scrollBy(0, -40);
    });
}

async function main([out, folder]) {
    const noted = {requests: [], complaints: []};
    const browser = await launch();
    try {
        for (const [look, options] of Object.entries(looks)) {
            for (const [name, show] of [["site", showSite], ["bench", showBench]]) {
                const page = await newPage(browser, options, noted);
                await show(page, out);
                await page.screenshot({path: `${folder}/${name}-${look}.png`});
                await page.context().close();
            }
        }
    } finally {
        await browser.close();
    }
}

main(process.argv.slice(2)).catch(error => {
    console.log(`FAILED ${error.stack}`);
    process.exit(1);
});
