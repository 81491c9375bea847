/* The program's own answers, as rows like those of the bench page. */
"use strict";
const {execFile} = require("node:child_process");
const {promisify} = require("node:util");
const run = promisify(execFile);

function Terminal(out, root, content) {
    const program = `${out}/bin/spindlebook`;
    const places = ["--content", content, "--templates", `${root}/templates`];

    /* {rows, faults}: rows of name, value, unit; faults: lines of standard error. */
    async function ask(verb, replaced, options, words) {
        const sets = replaced.flatMap(([key, text]) => ["--set", `${key}=${text}`]);
        const all = [verb, "--lines", ...places, ...sets, ...options, "--", ...words];
        let said;
        try {
            said = await run(program, all);
        } catch (error) {
            if (![1, 2].includes(error.code)) throw error;
            said = error;
        }
        const rows = said.stdout
            .split("\n")
            .filter(Boolean)
            .map(line => line.split("\t"))
            .filter(([name]) => !["notice", "program", "read-as"].includes(name)); // both stand elsewhere on the page
        return {rows, faults: said.stderr.split("\n").filter(Boolean)};
    }
    return {ask};
}

/* As the program prints for programs: plain signs. */
const plain = text => text.replace(/\u2212/g, "-").replace(/\u00b7/g, ".");

module.exports = {Terminal, plain};
