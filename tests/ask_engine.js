/* Asks the bench page's engine outside a browser. Usage: node ask_engine.js ENGINE
 * Each line of standard input is a list of questions, each a verb and a list of pairs of a key
 * and a text, in JSON; each line of standard output the answers, each a list of rows. */
"use strict";
const fs = require("node:fs");
const readline = require("node:readline");

function importsOf(module) {
    const imports = {};
    for (const {module: from, name} of WebAssembly.Module.imports(module)) {
        imports[from] = imports[from] || {};
        imports[from][name] = () => {
            throw new Error(name);
        };
    }
    return imports;
}

/* A file that an answer names, in base64: a fifth field. */
function bytesOf(memory, [, , at, length]) {
    return Buffer.from(memory.subarray(Number(at), Number(at) + Number(length))).toString("base64");
}

function ask(engine, [verb, pairs]) {
    const lines = [verb].concat(pairs.map(([key, text]) => `${key}\t${text}`));
    const bytes = Buffer.from(lines.join("\n") + "\0");
    const room = engine.bench_room(bytes.length);
    new Uint8Array(engine.memory.buffer).set(bytes, room);
    const at = engine.bench_ask();
    const memory = new Uint8Array(engine.memory.buffer);
    return Buffer.from(memory.subarray(at, memory.indexOf(0, at)))
        .toString()
        .split("\n")
        .filter(Boolean)
        .map(line => line.split("\t"))
        .map(row => (row[0] === "file" ? row.concat(bytesOf(memory, row)) : row));
}

const module_ = new WebAssembly.Module(fs.readFileSync(process.argv[2]));
const engine = new WebAssembly.Instance(module_, importsOf(module_)).exports;
readline
    .createInterface({input: process.stdin})
    .on("line", line =>
        console.log(JSON.stringify(JSON.parse(line).map(question => ask(engine, question))))
    );
