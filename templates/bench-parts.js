/* What the scripts of the bench page share: elements made, rows of the engine's answer
   {name, label, value, unit} looked up and shown. */
const benchParts = (function () {
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

    return {make, find, joined, shown};
})();
