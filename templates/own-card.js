/* The page of a card for one's own lathe: asks the engine which question is next, hands it the
   answers, keeps them, and lays out the card that it gives. No number, limit, state, question or
   check is made here. */
(function () {
    "use strict";

    const {make, find, valueOf, faultsOf, startEngine, lathes} = engineParts;
    const byId = id => document.getElementById("own_card_" + id);
    const page = document.getElementById("own_card");
    const svgName = "http://www.w3.org/2000/svg";

    let ask = null; /* the engine */
    let answers = []; /* pairs of a key and a text, as the engine gives them */
    let good = false; /* all is answered, and the limits were read back */

    const nameOf = some => (some.find(pair => pair[0] === "lathe.name") || ["", ""])[1];
    const answersOf = rows =>
        rows.filter(row => row.name === "answer").map(row => [row.label, row.value]);

    /* ---- what is kept ---- */

    function keep() {
        const name = nameOf(answers);
        if (name) byId("not_kept").hidden = lathes.keep(name, {answers, good});
        else lathes.use(null);
    }

    function openLathe(name) {
        const kept = lathes.read(name);
        if (!kept) return;
        answers = kept.answers;
        good = kept.good === true;
        lathes.use(name);
        refresh();
    }

    function leave() {
        answers = [];
        good = false;
        lathes.use(null);
        refresh();
    }

    /* ---- questions and answers ---- */

    function answer(text) {
        const rows = ask("answer", answers.concat([["typed", text]]));
        const [fault] = faultsOf(rows);
        const name = nameOf(answersOf(rows));
        const taken = !answers.length && lathes.names().includes(name);
        byId("fault").textContent = fault ? fault.unit : "";
        byId("taken").hidden = !taken;
        byId("text").toggleAttribute("aria-invalid", Boolean(fault));
        if (fault || taken) {
            byId("text").select();
            return;
        }
        answers = answersOf(rows);
        keep();
        refresh();
        byId("read_as").textContent = valueOf(rows, "read-as");
        byId("read_as").hidden = !byId("read_as").textContent;
        goOn();
    }

    function goOn() {
        const next = byId("typed").hidden ? byId("choices").firstChild : byId("text");
        if (!byId("form").hidden && next) next.focus();
        else if (!byId("confirm").hidden) byId("yes").focus();
    }

    function again(verb) {
        const name = nameOf(answers);
        answers = answersOf(ask(verb, answers));
        good = false;
        if (name && !nameOf(answers)) lathes.forget(name);
        keep();
        refresh();
        goOn();
    }

    function showQuestion(rows) {
        const question = find(rows, "question"),
            blank = find(rows, "blank"),
            choices = rows.filter(row => row.name === "choice");
        byId("form").hidden = !question;
        if (!question) return;
        byId("label").textContent = question.value;
        byId("number").textContent = question.unit;
        byId("hint").textContent = valueOf(rows, "hint");
        byId("wanted").textContent = valueOf(rows, "wanted");
        byId("typed").hidden = choices.length > 0;
        byId("choices").replaceChildren(
            ...choices.map(row => {
                const button = make("button", row.value);
                button.type = "button";
                button.addEventListener("click", () => answer(row.value));
                return button;
            })
        );
        byId("blank").hidden = !blank || choices.length > 0;
        if (blank)
            byId("blank").textContent = blank.value
                ? byId("blank").dataset.value + " " + blank.value + "."
                : byId("blank").dataset.none;
        byId("text").value = "";
        byId("text").removeAttribute("aria-invalid");
        byId("fault").textContent = "";
        byId("read_as").hidden = true;
    }

    function showAnswers() {
        byId("answers").replaceChildren(
            ...answers.map(([key, text]) => {
                const row = make("div");
                row.append(make("dt", key), make("dd", text || "–"));
                return row;
            })
        );
        byId("back_one").disabled = !answers.length;
        byId("other").disabled = byId("away").disabled = !answers.length;
        byId("kept").replaceChildren(
            ...lathes
                .names()
                .filter(name => name !== nameOf(answers))
                .map(name => {
                    const button = make("button", byId("kept").dataset.open + " " + name);
                    button.type = "button";
                    button.addEventListener("click", () => openLathe(name));
                    return button;
                })
        );
    }

    /* ---- the card ---- */

    function shape(parent, name, attributes, text) {
        const element = document.createElementNS(svgName, name);
        for (const key of Object.keys(attributes)) element.setAttribute(key, attributes[key]);
        if (text) element.textContent = text;
        parent.append(element);
        return element;
    }

    /* The limits as an open bar, the good pulls filled in, each mark with its number below. All
       in hundredths of the width of the bar's limits. */
    function drawScale(rows) {
        const marks = rows.filter(row => row.name === "mark");
        const svg = document.createElementNS(svgName, "svg");
        svg.setAttribute("viewBox", "-20 0 140 38");
        svg.setAttribute("aria-hidden", "true");
        const low = Number(marks[0].unit),
            high = Number(marks[2].unit);
        const x = text => (high > low ? ((Number(text) - low) / (high - low)) * 100 : 50);
        const from = valueOf(rows, "draw-good-from"),
            to = valueOf(rows, "draw-good-to");
        shape(svg, "line", {x1: -20, x2: 0, y1: 6, y2: 6});
        shape(svg, "line", {x1: 100, x2: 120, y1: 6, y2: 6});
        shape(svg, "rect", {x: 0, y: 1, width: 100, height: 10});
        if (from)
            shape(svg, "rect", {
                x: x(from),
                y: 1,
                width: x(to) - x(from),
                height: 10,
                class: "card-good-part"
            });
        for (const mark of marks) {
            const at = x(mark.unit);
            shape(svg, "line", {x1: at, x2: at, y1: 11, y2: 16});
            shape(svg, "text", {x: at, y: 26, class: "card-mark"}, mark.value);
            shape(svg, "text", {x: at, y: 36}, mark.label);
        }
        return svg;
    }

    function windowOf(rows) {
        const box = make("div", "", "card-window");
        if (!find(rows, "head")) return box;
        box.append(make("p", valueOf(rows, "head"), "card-head"));
        const pulls = make("p", "", "card-good");
        pulls.append(make("span", valueOf(rows, "good")));
        box.append(pulls);
        const scale = make("div", "", "card-scale");
        if (find(rows, "mark")) scale.append(drawScale(rows));
        if (find(rows, "never")) {
            const never = make("p", "", "card-never");
            never.append(make("span", "never above"), make("strong", valueOf(rows, "never")));
            scale.append(never);
        }
        box.append(scale);
        const states = make("ul", "", "card-states");
        for (const row of rows.filter(row => row.name === "state")) {
            const cell = make("li", row.label);
            if (row.value) cell.append(make("span", row.value));
            states.append(cell);
        }
        if (states.firstChild) box.append(states);
        const bands = rows.filter(row => row.name === "band");
        if (bands.length) {
            const list = make("dl", "", "card-bands");
            for (const row of bands) {
                const line = make("div");
                line.append(make("dt", row.label), make("dd", row.value + "\u00a0" + row.unit));
                list.append(line);
            }
            box.append(list);
        }
        return box;
    }

    function textsIn(element) {
        const walk = document.createTreeWalker(element, NodeFilter.SHOW_TEXT),
            texts = [];
        while (walk.nextNode())
            if (walk.currentNode.data.trim()) texts.push(walk.currentNode);
        return texts;
    }

    /* Fills in every text; where the condition at its head does not hold, its block goes. */
    function fill(element) {
        const texts = textsIn(element);
        const rows = ask(
            "fill",
            texts.map(text => ["text", text.data])
        );
        texts.forEach((text, i) => {
            if (rows[i] && rows[i].name === "text") text.data = rows[i].value;
            else (text.parentElement.closest("p, li") || text).remove();
        });
        for (const named of element.querySelectorAll("[id]")) named.removeAttribute("id");
        for (const labelled of element.querySelectorAll("[aria-labelledby]"))
            labelled.removeAttribute("aria-labelledby");
        return element;
    }

    /* The largest size of type, in hundredths of a millimetre, at which a side holds its words. */
    function fit(card) {
        for (let size = 420; size >= 180; size -= 5) {
            card.style.setProperty("--card-type", size / 100 + "mm");
            if (card.scrollHeight <= card.clientHeight) break;
        }
        const pulls = card.querySelector(".card-good");
        if (!pulls) return;
        const least = parseFloat(card.style.getPropertyValue("--card-type")) * 100;
        for (let size = 3000; size >= least; size -= 20) {
            card.style.setProperty("--card-good", size / 100 + "mm");
            if (
                pulls.firstChild.offsetWidth <= pulls.clientWidth &&
                card.scrollHeight <= card.clientHeight
            )
                break;
        }
    }

    function drawBar() {
        const old = byId("bar").querySelector("svg");
        if (old) return;
        const svg = document.createElementNS(svgName, "svg");
        svg.setAttribute("viewBox", "0 0 100 5");
        svg.setAttribute("role", "img");
        svg.setAttribute("aria-label", "100 mm");
        for (let i = 0; i <= 10; i++)
            shape(svg, "line", {x1: i * 10, x2: i * 10, y1: i % 5 ? 2.5 : 0, y2: 5});
        shape(svg, "line", {x1: 0, x2: 100, y1: 5, y2: 5});
        byId("bar").prepend(svg);
    }

    /* The page of the site prints its card alone; the single file does when it is asked for. */
    function printsCard(asked) {
        document.documentElement.classList.toggle(
            "prints-card",
            !byId("done").hidden && (asked || !page.closest(".sheet"))
        );
    }

    function showCard() {
        const rows = ask("card", []);
        const sides = document.getElementById("own_card_texts").content.cloneNode(true).children;
        const [front, back] = [sides[0], sides[1]];
        for (const [card, side] of [
            [byId("front"), front],
            [byId("back"), back]
        ]) {
            card.dataset.size = valueOf(rows, "size");
            card.replaceChildren();
            if (side) card.append(...fill(side).childNodes);
        }
        byId("front").querySelector(".card-window").replaceWith(windowOf(rows));
        for (const id of ["foot", "foot_limits"]) {
            const foot = byId(id).cloneNode(true);
            foot.hidden = false;
            byId("front").append(fill(foot));
            foot.removeAttribute("id");
        }
        drawBar();
        fit(byId("front"));
        fit(byId("back"));
    }

    /* ---- files ---- */

    function save() {
        const text = ask("file", answers)
            .map(row => row.value + "\n")
            .join("");
        const link = make("a", "");
        link.href = URL.createObjectURL(new Blob([text], {type: "text/yaml"}));
        link.download = "settings.yaml";
        link.click();
        setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    }

    async function load() {
        const [file] = byId("load").files;
        if (!file) return;
        const lines = (await file.text()).split("\n");
        const rows = ask(
            "load",
            lines.map(line => ["line", line])
        );
        byId("load_fault").textContent = faultsOf(rows)
            .map(row => row.label + ": " + row.unit)
            .join(" ");
        byId("load").value = "";
        if (faultsOf(rows).length) return;
        answers = answersOf(rows);
        good = false; /* the limits are read back once more */
        keep();
        refresh();
        goOn();
    }

    /* ---- the whole ---- */

    /* Is there a shop to be asked of? Its faults stand where the question would. */
    function takeSettings() {
        const rows = ask(
            "settings",
            answers.filter(([, text]) => text)
        );
        byId("remarks").replaceChildren(
            ...faultsOf(rows).map(row => make("li", row.label + ": " + row.unit, "fault")),
            ...rows.filter(row => row.name === "remark").map(row => make("li", row.value))
        );
        return !faultsOf(rows).length;
    }

    function refresh() {
        const rows = ask("next", answers);
        const asked = Boolean(find(rows, "question"));
        const sound = !asked && takeSettings();
        const readBack = sound ? valueOf(ask("read-back", []), "read-back") : "";
        if (sound && !readBack && !good) {
            good = true; /* without limits there is nothing to read back */
            keep();
        }
        showQuestion(rows);
        byId("confirm").hidden = asked || !readBack || good;
        byId("read_back").textContent = readBack;
        byId("done").hidden = asked || (sound && !good);
        byId("print").disabled = byId("save").disabled = !sound;
        byId("sheets").hidden = !sound;
        byId("none").hidden = good;
        showAnswers();
        if (good && sound) showCard();
        printsCard(false);
    }

    function failed() {
        byId("failed").hidden = false;
        byId("done").hidden = byId("confirm").hidden = byId("form").hidden = true;
    }

    function listen() {
        byId("form").addEventListener("submit", event => {
            event.preventDefault();
            answer(byId("text").value);
        });
        byId("yes").addEventListener("click", () => {
            good = true;
            keep();
            refresh();
            byId("print").focus();
        });
        byId("no").addEventListener("click", () => again("bands-again"));
        byId("back_one").addEventListener("click", () => again("back"));
        byId("other").addEventListener("click", () => {
            leave();
            goOn();
        });
        byId("away").addEventListener("click", leave);
        byId("print").addEventListener("click", () => {
            printsCard(true);
            window.print();
        });
        byId("save").addEventListener("click", save);
        byId("load").addEventListener("change", load);
        window.addEventListener("afterprint", () => printsCard(false));
    }

    async function open() {
        ask = await startEngine(failed);
        const kept = lathes.current();
        if (kept) {
            answers = kept.answers;
            good = kept.good === true;
        }
        byId("plain").hidden = true;
        byId("foot").hidden = byId("foot_limits").hidden = true;
        page.hidden = false;
        listen();
        refresh();
        window.spindlebookOwnCard = {ask, answers: () => answers}; /* for tests */
    }

    if (page && typeof WebAssembly === "object") open();
})();
