/* A browser that can reach nothing: what a page asks for beyond its own files is noted. */
"use strict";
const {chromium} = require("playwright-core");

const flags = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync"
];

/* The profile is a new empty folder each time. */
function launch() {
    return chromium.launch({
        executablePath: process.env.CHROMIUM || "/usr/bin/chromium",
        headless: true,
        args: flags
    });
}

const outside = url => !/^(file|data|blob|about):/.test(url);

/* A page in a context of its own; noted: {requests, complaints}. */
async function newPage(browser, options, noted) {
    const context = await browser.newContext({offline: true, ...options});
    context.setDefaultTimeout(120000); /* a busy machine may take long over the single file */
    const page = await context.newPage();
    context.on("request", request => {
        if (outside(request.url())) noted.requests.push(request.url());
    });
    page.on("pageerror", error => noted.complaints.push(`${page.url()}: ${error.message}`));
    page.on("console", line => {
        if (["error", "warning"].includes(line.type()))
            noted.complaints.push(`${page.url()}: ${line.text()}`);
    });
    return page;
}

/* Opens the bench page and waits for its engine. */
async function openBench(page, out) {
    await page.goto(`file://${out}/site/bench.html`);
    await page.waitForSelector("#bench:not([hidden])");
}

module.exports = {launch, newPage, openBench};
