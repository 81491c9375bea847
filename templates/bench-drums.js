/* The table of common drums on the bench page: the rows of the engine's answer "drums" as
   a table. Its heads and its caption stand in bench.html. */
const showDrumTable = (function () {
    "use strict";

    const {make, shown} = engineParts;

    function makeHead(text, scope, className) {
        const cell = make("th", text, className);
        cell.scope = scope;
        return cell;
    }

    /* Each drum's rows: "drum", and behind it "low" and "high" where it has a window. */
    function linesOf(rows) {
        const lines = [];
        for (const row of rows)
            if (row.name === "drum") lines.push({drum: row});
            else lines[lines.length - 1][row.name] = row;
        return lines;
    }

    function makeRow(line, words, remarks) {
        const row = make("tr", "", line.drum.unit ? "strong" : "");
        const size = line.drum.label + (line.drum.unit ? ", " + words.fitted : "");
        row.append(makeHead(size, "row"));
        for (const end of [line.low, line.high])
            row.append(make("td", end ? shown(end) : "–", "number"));
        if (remarks) row.append(make("td", line.drum.value));
        return row;
    }

    function makeHeads(words, remarks) {
        const head = make("thead");
        const row = make("tr");
        row.append(
            makeHead(words.drum, "col"),
            makeHead(words.low, "col", "number"),
            makeHead(words.high, "col", "number")
        );
        if (remarks) row.append(makeHead(words.remark, "col"));
        head.append(row);
        return head;
    }

    /* A wide table scrolls in a region of its own, which the keyboard must reach. */
    function makeRegion(words) {
        const region = make("div", "", "scroll");
        region.tabIndex = 0;
        region.setAttribute("role", "region");
        region.setAttribute("aria-label", words.caption);
        return region;
    }

    return function (box, rows) {
        const words = box.dataset;
        const lines = linesOf(rows);
        const remarks = lines.some(line => line.drum.value);
        const [table, caption, body] = ["table", "caption", "tbody"].map(name => make(name));
        const region = makeRegion(words);
        caption.append(make("span", words.caption));
        body.append(...lines.map(line => makeRow(line, words, remarks)));
        table.append(caption, makeHeads(words, remarks), body);
        region.append(table);
        box.replaceChildren(...(lines.length ? [region] : []));
    };
})();
