/* What the pages that work things out share: the engine, elements made, rows of the engine's
   answer {name, label, value, unit} looked up and shown, and the lathes that the browser keeps.
   The engine is the program's own C, made into WebAssembly; see src/bench/bench.c for what it
   is asked and how it answers. */
const engineParts = (function () {
    "use strict";

    function make(name, text, className) {
        const element = document.createElement(name);
        if (text) element.textContent = text;
        if (className) element.className = className;
        return element;
    }

    const find = (rows, name) => rows.find(row => row.name === name);

    /* As the terminal writes it: no blank before the sign of degrees. */
    function shown(row) {
        if (!row.unit) return row.value;
        return row.value + (row.unit === "°" ? "" : "\u00a0") + row.unit;
    }

    /* "from" and the "to" behind it are one line. */
    function joined(rows) {
        const lines = [];
        for (const row of rows)
            if (row.label === "to" && lines.length)
                lines[lines.length - 1].text += " " + row.label + " " + shown(row);
            else lines.push({name: row.name, label: row.label, text: shown(row)});
        return lines;
    }

    const valueOf = (rows, name) => (find(rows, name) || {value: ""}).value;
    const faultsOf = rows => rows.filter(row => row.name === "fault");

    /* ---- the engine ---- */

    function bytesOf(base64) {
        return Uint8Array.from(atob(base64.trim()), sign => sign.charCodeAt(0));
    }

    /* Nothing that the C library would ask of a system can be had here. */
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

    const clean = text => text.replace(/[\t\r\n\0]/g, " ");

    function rowsOf(engine, verb, fields) {
        const lines = [verb].concat(fields.map(([key, text]) => key + "\t" + clean(text)));
        const bytes = new TextEncoder().encode(lines.join("\n") + "\0");
        const room = engine.bench_room(bytes.length);
        new Uint8Array(engine.memory.buffer).set(bytes, room);
        const at = engine.bench_ask();
        const memory = new Uint8Array(engine.memory.buffer); /* it may have grown */
        const answer = new TextDecoder().decode(memory.subarray(at, memory.indexOf(0, at)));
        return answer
            .split("\n")
            .filter(Boolean)
            .map(line => {
                const [name, label, value, unit] = line.split("\t");
                return {name, label, value, unit};
            });
    }

    /* Gives ask(verb, fields), fields being pairs of a key and a text, and ask.bytes(). Each page has an engine of
       its own. Where it fails, `failed` is told, so that nothing old stays in sight, and a new one
       takes its place: it knows nothing of what the old one was told. */
    async function startEngine(failed) {
        const text = document.getElementById("engine").textContent;
        const module = await WebAssembly.compile(bytesOf(text));
        const anew = async () =>
            (await WebAssembly.instantiate(module, importsOf(module))).exports;
        let engine = await anew();
        const ask = function (verb, fields) {
            try {
                return rowsOf(engine, verb, fields);
            } catch (error) {
                failed();
                anew().then(made => {
                    engine = made;
                });
                throw error;
            }
        };
        /* Of a file that an answer names, until the next question. */
        ask.bytes = (from, length) => engine.memory.buffer.slice(from, from + length);
        return ask;
    }

    /* ---- the lathes that this browser keeps, a name each; files are the truth ---- */

    const current = "spindlebook.lathe",
        prefix = "spindlebook.lathe ",
        changed = "spindlebook-lathe";

    function readLathe(name) {
        try {
            const kept = JSON.parse(localStorage.getItem(prefix + name));
            return kept && Array.isArray(kept.answers) ? kept : null;
        } catch (error) {
            return null;
        }
    }

    const lathes = {
        read: readLathe,
        names() {
            try {
                return Object.keys(localStorage)
                    .filter(key => key.startsWith(prefix))
                    .map(key => key.slice(prefix.length))
                    .sort();
            } catch (error) {
                return [];
            }
        },
        /* The one at work, {answers, good}; good: all is answered, and its limits are read back. */
        current() {
            try {
                const name = localStorage.getItem(current);
                return name === null ? null : readLathe(name);
            } catch (error) {
                return null;
            }
        },
        /* Null: none is at work. False where the browser keeps nothing. */
        use(name) {
            try {
                if (name === null) localStorage.removeItem(current);
                else localStorage.setItem(current, name);
                window.dispatchEvent(new Event(changed));
                return true;
            } catch (error) {
                return false;
            }
        },
        keep(name, lathe) {
            try {
                localStorage.setItem(prefix + name, JSON.stringify(lathe));
                return lathes.use(name);
            } catch (error) {
                return false;
            }
        },
        forget(name) {
            try {
                localStorage.removeItem(prefix + name);
            } catch (error) {
                return;
            }
        },
        /* In this page or another of this browser. */
        whenChanged(then) {
            window.addEventListener(changed, then);
            window.addEventListener("storage", event => {
                if (event.key === null || event.key.startsWith(current)) then();
            });
        }
    };

    return {make, find, joined, shown, valueOf, faultsOf, startEngine, lathes};
})();
