/* Drives the site and the bench page in a browser. Usage: node run.js OUT ROOT WORK [SEED] */
"use strict";
const {launch} = require("./launch.js");
const {checkEqual} = require("./equal.js");
const {checkForms} = require("./forms.js");
const {checkOwnCard} = require("./own_card.js");
const {checkPlain} = require("./plain.js");
const {checkSeries} = require("./series.js");
const {checkSite} = require("./site.js");
const {checkTables} = require("./tables.js");
const {tally, same} = require("./tally.js");

async function main([out, root, work, seed]) {
    const noted = {requests: [], complaints: []};
    const browser = await launch();
    try {
        const equal = checkEqual(
            browser,
            out,
            root,
            `${root}/content`,
            Number(seed || 20261125),
            noted
        );
        const [pages, said] = await Promise.all([
            checkSite(browser, out, noted),
            equal,
            checkForms(browser, out, noted),
            checkOwnCard(browser, out, work, Number(seed || 20261201), noted),
            checkTables(browser, out, noted),
            checkPlain(browser, out, noted),
            checkSeries(browser, out, root, work, noted)
        ]);
        same(noted.requests, [], "asked from outside");
        same(noted.complaints, [], "complaints of the browser");
        console.log(said);
        console.log(
            `${tally.looked} assertions over ${pages} pages in a browser, ${tally.failed} failures`
        );
    } finally {
        await browser.close();
    }
    process.exit(tally.failed ? 1 : 0);
}

main(process.argv.slice(2)).catch(error => {
    console.log(`FAILED ${error.stack}`);
    process.exit(1);
});
