/* The bench page: moves texts between the inputs and the engine, keeps them, and draws. No
   number, limit, state or word about them is made here. */
(function () {
    "use strict";

    const {make, find, joined, valueOf, faultsOf, startEngine, lathes} = engineParts;
    const byId = id => document.getElementById("bench_" + id);
    const page = document.getElementById("bench");
    const debounce = 350; /* ms of rest before what is typed is worked out */

    let ask = null; /* the engine */

    /* ---- what is kept ---- */

    const madeFor = Array.from(byId("settings").children, line => [
        line.dataset.key,
        line.textContent
    ]);
    let settings = madeFor, /* or those of a lathe that was typed in */
        stamp = "";
    let inputs = [],
        keptInputs = [], /* without the pull: half a pull is none */
        rigInputs = [];
    const field = key => inputs.find(input => input.dataset.field === key);
    const settingOf = key => (settings.find(pair => pair[0] === key) || [key, ""])[1];
    let pulls = [];
    let written = [];
    let judged = []; /* the rows that stand under 20 */
    let unwritten = new Map(); /* what kept the last row from being written, by input */

    function keep() {
        const texts = {};
        for (const input of keptInputs) texts[input.id] = input.value;
        const kept = {
            settings: stamp,
            pulls,
            written,
            texts,
            logLock: settingOf("log.lock-added"),
            unit: byId("unit").value
        };
        try {
            localStorage.setItem(storeName(), JSON.stringify(kept));
        } catch (error) {
            byId("not_kept").hidden = false;
        }
    }

    /* Pages of several lathes may come from one folder or server, and share its storage; a page
       of another lathe may take the place of this one. No lathe's pulls may stand in another's. */
    function storeName() {
        const from = settings === madeFor ? location.pathname : "own";
        return ["spindlebook.bench", from, settingOf("lathe.name")].join(" ");
    }

    function readKept() {
        try {
            return JSON.parse(localStorage.getItem(storeName())) || {};
        } catch (error) {
            return {};
        }
    }

    const textsOf = list =>
        Array.isArray(list) ? list.filter(text => typeof text === "string") : [];

    /* The lathe that was typed in, else the one that this page was made for. */
    function takeLathe() {
        const own = lathes.current(),
            typed = own && own.good;
        settings = typed ? own.answers.filter(([, text]) => text) : madeFor;
        stamp = typed ? JSON.stringify(settings) : byId("settings").dataset.fingerprint;
        byId("lathe").textContent = settingOf("lathe.name");
        byId("lathe_typed").hidden = !typed;
        byId("lathe_notice").textContent = settingOf("lathe.notice");
        byId("lathe_notice").hidden = !settingOf("lathe.notice");
    }

    /* Nothing of one lathe stays in sight for another. */
    function changeLathe() {
        takeLathe();
        pulls = [];
        written = [];
        unwritten.clear();
        keptInputs.forEach(input => {
            if (input.dataset.field) input.value = "";
        });
        byId("pull").value = "";
        byId("unit").value = gaugeUnit();
        byId("date").value = today();
        byId("kind").selectedIndex = 0;
        byId("nut_lock").selectedIndex = 0;
        fillFromSettings();
        restore();
        refresh();
    }

    /* An input for each key that the engine would have in the form of the rig. */
    function makeRig() {
        for (const {label: key, value: label, unit: range} of ask("form", [])) {
            const field = make("div", "", "field"),
                name = make("label", label),
                input = make("input", "");
            input.id = "bench_" + key.replace(/[.-]/g, "_");
            input.dataset.setting = key;
            Object.assign(input, {type: "text", maxLength: 60, spellcheck: false});
            Object.assign(input, {autocapitalize: "off", placeholder: range});
            name.htmlFor = input.id;
            field.append(name, input);
            byId("rig").append(field);
        }
        inputs = Array.from(page.querySelectorAll("[data-setting], [data-field]"));
        keptInputs = inputs.filter(input => input !== byId("pull"));
        rigInputs = inputs.filter(input => input.dataset.setting);
    }

    function fillFromSettings() {
        for (const input of rigInputs) input.value = settingOf(input.dataset.setting);
        byId("window_drum").value = settingOf("drum.diameter");
        byId("window_speed").value = settingOf("lathe.top-speed");
        byId("lock_added").value = settingOf("log.lock-added");
    }

    /* Pulls outlive a change of the settings; what was changed of the old ones does not. */
    function restore() {
        const kept = readKept(),
            texts = kept.texts || {};
        const same = kept.settings === stamp;
        const sameLog = kept.logLock === settingOf("log.lock-added");
        pulls = textsOf(kept.pulls);
        written = textsOf(kept.written);
        for (const input of keptInputs) {
            const follows =
                input.dataset.setting || input.closest(".op").contains(byId("window_drum"));
            if (input === byId("lock_added") && !sameLog) continue;
            if (typeof texts[input.id] === "string" && (same || !follows))
                input.value = texts[input.id];
        }
        if (kept.unit) byId("unit").value = kept.unit;
    }

    /* ---- small makers ---- */

    /* A box of rows; in an <output> only spans may stand. */
    function showRows(box, rows, [outer, label, value]) {
        box.replaceChildren(
            ...joined(rows).map(row => {
                const line = make(outer, "", "row row-" + row.name);
                if (row.label) line.append(make(label, row.label, "row-label"), " ");
                line.append(make(value, row.text, "row-value"));
                return line;
            })
        );
    }

    const asList = ["div", "dt", "dd"],
        asSpans = ["span", "span", "span"];

    /* ---- faults beside their inputs ---- */

    function faultBox(input) {
        let box = document.getElementById(input.id + "_fault");
        if (!box) {
            box = make("span", "", "fault");
            box.id = input.id + "_fault";
            box.setAttribute("aria-live", "polite");
            input.after(box);
        }
        return box;
    }

    function showFault(input, message) {
        const box = faultBox(input);
        if (box.textContent !== message) box.textContent = message;
        if (message) {
            input.setAttribute("aria-invalid", "true");
            input.setAttribute("aria-describedby", box.id);
        } else {
            input.removeAttribute("aria-invalid");
            input.removeAttribute("aria-describedby");
        }
    }

    const faultOf = (input, rows) =>
        (
            faultsOf(rows).find(
                row => row.label === (input.dataset.setting || input.dataset.field)
            ) || {unit: ""}
        ).unit;

    /* What kept a row from being written stands until its input is changed. */
    function showFaults(some, rows) {
        for (const input of some)
            showFault(input, faultOf(input, rows) || unwritten.get(input) || "");
    }

    /* Asks with the texts of some inputs and shows its faults beside them. */
    function askInputs(verb, asked) {
        const rows = ask(
            verb,
            asked.map(input => [input.dataset.field, input.value])
        );
        showFaults(asked, rows);
        return faultsOf(rows).length ? [] : rows;
    }

    /* ---- the rig ---- */

    /* Steady pulls, and a breakaway beside them; or starting ones alone. */
    function showPullsAsked(rows) {
        byId("pull_label").textContent = valueOf(rows, "pull-label");
        byId("pull_rule").textContent = valueOf(rows, "pull-rule");
        byId("pull_rule").hidden = !byId("pull_rule").textContent;
        byId("breakaway_label").textContent = valueOf(rows, "breakaway-label");
        byId("breakaway_field").hidden = !byId("breakaway_label").textContent;
        if (byId("breakaway_field").hidden) byId("breakaway").value = "";
    }

    function askRig() {
        const changed = new Map(rigInputs.map(input => [input.dataset.setting, input.value]));
        const all = settings.filter(([key]) => !changed.has(key));
        for (const pair of changed) if (pair[1].trim() || settingOf(pair[0])) all.push(pair);
        const rows = ask("settings", all);
        const faults = faultsOf(rows);
        showFaults(rigInputs, rows);
        showRows(
            byId("limits"),
            rows.filter(row => row.name === "limit"),
            asList
        );
        if (!faults.length) showPullsAsked(rows);
        /* what is wrong with a setting that has no input here stands with the remarks */
        const other = faults.filter(
            row => !rigInputs.some(input => input.dataset.setting === row.label)
        );
        byId("remarks").replaceChildren(
            ...other.map(row => make("li", row.unit, "fault")),
            ...rows.filter(row => row.name === "remark").map(row => make("li", row.value))
        );
        byId("mend").hidden = !faults.length;
        byId("changed").hidden = rigInputs.every(
            input => input.value === settingOf(input.dataset.setting)
        );
        byId("restore").disabled = byId("changed").hidden;
        return !faults.length;
    }

    /* ---- the series ---- */

    const pullFields = () => pulls.map(text => ["pull", text]);

    function addPull(event) {
        event.preventDefault();
        const input = byId("pull");
        const [row] = ask("pull", [
            ["pull", input.value],
            ["unit", byId("unit").value],
            ["taken", String(pulls.length)]
        ]);
        showFault(
            input,
            !row ? byId("mend").textContent : row.name === "fault" ? row.unit : ""
        );
        input.focus();
        if (!row || row.name === "fault") return;
        pulls.push(row.value);
        input.value = "";
        refresh();
    }

    function showPulls() {
        byId("pulls").replaceChildren(...pulls.map(text => make("li", text)));
        byId("pulls").hidden = !pulls.length;
        byId("count").textContent = String(pulls.length);
        byId("undo").disabled = byId("clear").disabled = byId("write").disabled = !pulls.length;
    }

    function showAlso(box, row) {
        box.hidden = !row;
        box.textContent = row ? row.label + ": " + row.value : "";
    }

    function showVerdict(rows) {
        const drag = find(rows, "drag"),
            state = find(rows, "state");
        byId("drag_label").textContent = drag.label;
        byId("drag").textContent = drag.value;
        byId("drag_unit").textContent = drag.unit;
        byId("u").textContent = valueOf(rows, "uncertainty");
        byId("state").textContent = state.value;
        byId("state").dataset.shape = state.value.split(" ")[0];
        showAlso(byId("not_locked"), find(rows, "lock"));
        showAlso(byId("never"), find(rows, "never-exceed"));
        showAlso(byId("high"), find(rows, "caution"));
        byId("next_label").textContent = find(rows, "next").label;
        byId("next").textContent = valueOf(rows, "next");
    }

    function judge(ready) {
        const beside = ["breakaway", "lock", "warmth", "direction", "lock-added"].map(field);
        const rows =
            ready && pulls.length
                ? ask(
                      "judge",
                      pullFields().concat(beside.map(input => [input.dataset.field, input.value]))
                  )
                : [];
        showFaults(beside, rows);
        byId("none_yet").hidden = pulls.length > 0 || !ready;
        byId("answer").hidden = byId("take").disabled = !find(rows, "drag");
        if (byId("answer").hidden) return;
        const large = ["drag", "state", "lock", "never-exceed", "caution", "next", "fault"];
        showVerdict(rows);
        showRows(
            byId("rows"),
            rows.filter(row => row.label && !large.includes(row.name)),
            asList
        );
        judged = rows;
        draw();
    }

    /* Without limits on file there is no line to draw. */
    function draw() {
        const drawn = judged.some(row => row.name === "draw-low");
        byId("line").hidden = byId("key").hidden = !drawn;
        if (drawn) drawWindowLine(byId("line"), judged);
    }

    /* ---- windows, drums, nut, units ---- */

    function askWindow(ready) {
        const rows = ready ? askInputs("window", [field("drum"), field("speed")]) : [];
        showRows(byId("window"), rows, asSpans);
        const drums = ready ? ask("drums", [["speed", field("speed").value]]) : [];
        showDrumTable(byId("drums"), faultsOf(drums).length ? [] : drums);
    }

    /* The engine's bytes, as a file that the browser saves. */
    function saveDrum(event) {
        const name = event.target.dataset.file;
        const rows = ask("files", []);
        const row = rows.find(found => found.name === "file" && found.label === name);
        const faults = faultsOf(rows).map(fault => fault.unit);
        const none = faults.length ? faults.join(" ") : byId("files").dataset.none;
        byId("files_said").textContent = row ? "" : none;
        if (!row) return;
        const from = Number(row.value);
        const bytes = ask.bytes(from, Number(row.unit));
        const link = make("a");
        link.href = URL.createObjectURL(new Blob([bytes]));
        link.download = name;
        link.click();
        setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    }

    function askNut(ready) {
        const places = ["angle-1", "drag-1", "angle-2", "drag-2"].map(field);
        const asked = places.concat(["nut-lock", "warmth", "direction", "lock-added"].map(field));
        const full = places.every(input => input.value.trim());
        if (!full) places.forEach(input => showFault(input, ""));
        showRows(byId("nut"), full && ready ? askInputs("nut", asked) : [], asSpans);
    }

    function askUnits() {
        const kind = byId("kind").selectedOptions[0];
        byId("example").textContent = kind.dataset.example;
        const empty = !byId("amount").value.trim();
        if (empty) showFault(byId("amount"), "");
        showRows(
            byId("units"),
            empty ? [] : askInputs("convert", [byId("kind"), byId("amount")]),
            asSpans
        );
    }

    /* ---- the log ---- */

    function write() {
        const asked = ["date", "nut", "lock", "direction", "warmth", "temperature", "note"].map(
            field
        );
        const fields = asked
            .concat(byId("breakaway"))
            .map(input => [input.dataset.field, input.value.trim()]);
        const rows = ask("log", fields.concat(pullFields()));
        const told = asked.concat(byId("breakaway"), byId("pull"));
        unwritten = new Map(
            told.map(input => [input, faultOf(input, rows)]).filter(([, fault]) => fault)
        );
        showFaults(told, rows);
        showUnwritten();
        if (faultsOf(rows).length) {
            goToUnwritten();
            return;
        }
        written.push(valueOf(rows, "row"));
        pulls = [];
        byId("breakaway").value = byId("note").value = "";
        refresh();
        byId("log").focus();
    }

    const labelOf = input => page.querySelector(`label[for="${input.id}"]`).textContent;

    /* Beside the button: the inputs may lie far off. */
    function showUnwritten() {
        byId("log_fault").replaceChildren(
            ...Array.from(unwritten, ([input, fault]) =>
                make("span", labelOf(input) + ": " + fault, "log-fault")
            )
        );
    }

    function goToUnwritten() {
        const [first] = inputs.filter(input => unwritten.has(input));
        first.focus({preventScroll: true});
        first.scrollIntoView({block: "center"});
    }

    function showLog() {
        byId("log").value = written.join("\n");
        byId("copy").disabled =
            byId("copy_all").disabled =
            byId("unwrite").disabled =
                !written.length;
    }

    async function copy(withHeads) {
        const said = byId("copied");
        byId("log").value = (withHeads ? [valueOf(ask("heads", []), "heads")] : [])
            .concat(written)
            .join("\n");
        try {
            await navigator.clipboard.writeText(byId("log").value + "\n");
            said.textContent = said.dataset.copied;
            showLog();
        } catch (error) {
            said.textContent = said.dataset.select;
            byId("log").select();
        }
    }

    /* ---- the whole ---- */

    function refresh() {
        page.classList.remove("stale");
        byId("failed").hidden = true;
        const ready = askRig();
        showPulls();
        judge(ready);
        askWindow(ready);
        askNut(ready);
        askUnits();
        showLog();
        keep();
    }

    let waiting = 0;

    /* What stands there is old from the first sign typed. */
    function later(event) {
        if (unwritten.delete(event.target)) {
            showFault(event.target, "");
            showUnwritten();
        }
        if (event.target.id === "bench_pull" || byId("log_fields").contains(event.target))
            return;
        page.classList.add("stale");
        clearTimeout(waiting);
        waiting = setTimeout(refresh, debounce);
    }

    /* As the engine calls the unit that was typed. */
    const gaugeUnit = () =>
        (
            ask("convert", [
                ["kind", "force"],
                ["amount", settingOf("gauge.step")]
            ]).find(row => row.label === "as typed") || {unit: ""}
        ).unit;

    function today() {
        return new Date(Date.now() - new Date().getTimezoneOffset() * 60000)
            .toISOString()
            .slice(0, 10);
    }

    function fillChoices() {
        for (const row of ask("convert", [
            ["kind", "force"],
            ["amount", "1 N"]
        ]))
            byId("unit").append(make("option", row.unit));
        for (const row of ask("kinds", [])) {
            const option = make("option", row.label);
            option.dataset.example = row.value;
            byId("kind").append(option);
        }
        byId("unit").value = gaugeUnit();
        byId("date").value = today();
    }

    function listen() {
        byId("pull_form").addEventListener("submit", addPull);
        byId("undo").addEventListener("click", () => {
            pulls.pop();
            refresh();
        });
        byId("clear").addEventListener("click", () => {
            pulls = [];
            unwritten.clear();
            showUnwritten();
            refresh();
        });
        byId("take").addEventListener("click", () => {
            const drag = find(judged, "drag");
            field("drag-2").value = drag.value + " " + drag.unit;
            refresh();
        });
        byId("write").addEventListener("click", write);
        byId("unwrite").addEventListener("click", () => {
            written.pop();
            refresh();
        });
        for (const button of byId("files").querySelectorAll("button"))
            button.addEventListener("click", saveDrum);
        byId("copy").addEventListener("click", () => copy(false));
        byId("copy_all").addEventListener("click", () => copy(true));
        byId("restore").addEventListener("click", () => {
            fillFromSettings();
            refresh();
        });
        page.addEventListener("input", later);
        page.addEventListener("change", refresh);
        window.addEventListener("resize", () => byId("answer").hidden || draw());
    }

    /* After a failure of the engine no old answer stays. */
    function failed() {
        page.classList.add("stale");
        byId("answer").hidden = true;
        byId("failed").hidden = false;
    }

    async function open() {
        ask = await startEngine(failed);
        byId("plain").hidden = true;
        page.hidden = false;
        makeRig();
        takeLathe();
        fillChoices();
        fillFromSettings();
        restore();
        listen();
        refresh();
        lathes.whenChanged(changeLathe);
        window.spindlebookBench = {ask, settings}; /* for tests: what the buttons use */
    }

    if (page && typeof WebAssembly === "object") open();
})();
