/* The program's own answers, as rows like those of the bench page. */
"use strict";
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const {execFile} = require("node:child_process");
const {promisify} = require("node:util");
const run = promisify(execFile);

function Terminal(out, root, content) {
    const program = `${out}/bin/spindlebook`;
    const places = ["--content", content, "--templates", `${root}/templates`];

    /* The settings with some of them replaced, as the page has them: --set would leave the rows
       of the log to those of the file. Where they have a fault, the words that tell it. */
    async function placesWith(replaced) {
        const sets = replaced.flatMap(([key, text]) => ["--set", `${key}=${text}`]);
        if (!replaced.length) return places;
        try {
            const said = await run(program, ["settings", ...places, ...sets]);
            const folder = fs.mkdtempSync(path.join(os.tmpdir(), "settings-"));
            fs.writeFileSync(`${folder}/settings.yaml`, said.stdout);
            for (const name of ["readings.csv", "gauge-check.csv"])
                if (fs.existsSync(`${content}/${name}`))
                    fs.copyFileSync(`${content}/${name}`, `${folder}/${name}`);
            return ["--content", folder, ...places.slice(2)];
        } catch {
            return [...places, ...sets];
        }
    }

    /* {rows, faults}: rows of name, value, unit; faults: lines of standard error. */
    async function ask(verb, replaced, options, words) {
        const where = await placesWith(replaced);
        const all = [verb, "--lines", ...where, ...options, "--", ...words];
        let said;
        try {
            said = await run(program, all);
        } catch (error) {
            if (![1, 2].includes(error.code)) throw error;
            said = error;
        }
        if (where[1] !== content) fs.rmSync(where[1], {recursive: true});
        const rows = said.stdout
            .split("\n")
            .filter(Boolean)
            .map(line => line.split("\t"))
            /* these stand elsewhere on the page */
            .filter(([name]) => !["notice", "program", "read-as"].includes(name));
        return {rows, faults: said.stderr.split("\n").filter(Boolean)};
    }
    return {ask};
}

/* As the program prints for programs: plain signs. */
const plain = text => text.replace(/\u2212/g, "-").replace(/\u00b7/g, ".");

module.exports = {Terminal, plain};
