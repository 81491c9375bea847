/* The window line of the bench page: the limits, what is good for certain between them,
   the drag with its doubt. Where things lie comes from the rows "draw-..." of the engine's
   answer; this only turns them into places on the screen. */
const drawWindowLine = (function () {
    "use strict";

    const {find, shown} = engineParts;
    const svgName = "http://www.w3.org/2000/svg";
    const top = 46,
        bottom = 76; /* of the window's box, in pixels as all here */
    const closest = 130; /* limits nearer than this have their labels outward */
    const margin = 0.3; /* beside the limits, as a share of what is between */
    const end = 60; /* room for the line never to be passed */
    const letter = 4.6; /* half the width of one */

    function shape(parent, name, attributes, text) {
        const element = document.createElementNS(svgName, name);
        for (const key of Object.keys(attributes)) element.setAttribute(key, attributes[key]);
        if (text) element.textContent = text;
        parent.append(element);
        return element;
    }

    /* From a drag to a place. What may never be exceeded can lie far off: then it stands
       at the end, behind a break in the line. */
    function scaleOf(at, width) {
        const least = Math.min(at.low, at.drag - at.u),
            most = Math.max(at.high, at.drag + at.u);
        const pad = (most - least) * margin || most || 1;
        const room = Number.isFinite(at.never) ? width - end : width;
        return value => ((value - least + pad) / (most - least + 2 * pad)) * room;
    }

    function drawWindow(svg, at, x) {
        const box = (from, to, className) =>
            to > from &&
            shape(svg, "rect", {
                x: x(from),
                y: top,
                width: x(to) - x(from),
                height: bottom - top,
                class: className
            });
        if (at["good-low"] > at["good-high"]) {
            box(at.low, at.high, "doubt");
        } else {
            box(at.low, at["good-low"], "doubt");
            box(at["good-low"], at["good-high"], "good");
            box(at["good-high"], at.high, "doubt");
        }
        for (const limit of [at.low, at.high])
            shape(svg, "line", {
                x1: x(limit),
                x2: x(limit),
                y1: top - 9,
                y2: bottom + 9,
                class: "limit"
            });
    }

    function drawDrag(svg, at, x) {
        const middle = (top + bottom) / 2,
            from = x(at.drag - at.u),
            to = x(at.drag + at.u);
        const ends = `M${from} ${middle - 9}v18M${to} ${middle - 9}v18`;
        shape(svg, "path", {class: "u", d: `${ends}M${from} ${middle}H${to}`});
        shape(svg, "path", {
            class: "mean",
            d: `M${x(at.drag)} ${bottom}V${top - 8}l-8 -13h16l-8 13`
        });
    }

    /* Kept within the drawing, whatever it marks. */
    function label(svg, width, anchor, place, y, text, className) {
        const half = letter * text.length;
        const room = {start: [0, 2 * half], end: [2 * half, 0], middle: [half, half]}[anchor];
        const x = Math.min(Math.max(place, room[0]), width - room[1]);
        shape(svg, "text", {x, y, "text-anchor": anchor, class: className}, text);
    }

    function drawLabels(svg, rows, at, x, width) {
        const near = x(at.high) - x(at.low) < closest;
        label(svg, width, "middle", x(at.drag), 18, shown(find(rows, "drag")), "label-drag");
        label(
            svg,
            width,
            near ? "end" : "middle",
            x(at.low),
            bottom + 30,
            shown(find(rows, "low")),
            "label"
        );
        label(
            svg,
            width,
            near ? "start" : "middle",
            x(at.high),
            bottom + 30,
            shown(find(rows, "high")),
            "label"
        );
    }

    function drawNever(svg, at, x, width, words) {
        const place = Math.min(x(at.never), width - end / 2),
            broken = place < x(at.never);
        const line = offset => `M${place + offset} 30V${bottom + 34}`;
        if (broken)
            shape(svg, "path", {
                class: "break",
                d: `M${width - end} ${bottom + 8}l8 -16M${width - end + 7} ${bottom + 8}l8 -16`
            });
        shape(svg, "path", {class: "never", d: line(-3) + line(3)});
        label(svg, width, "middle", place, bottom + 52, words, "label");
    }

    function addHatch(svg) {
        const pattern = shape(shape(svg, "defs", {}), "pattern", {
            id: "bench_hatch",
            width: 8,
            height: 8,
            patternUnits: "userSpaceOnUse",
            patternTransform: "rotate(45)"
        });
        shape(pattern, "line", {x1: 0, x2: 0, y1: 0, y2: 8, class: "hatch"});
    }

    function newDrawing(box, rows, width, height) {
        const svg = shape(document.createDocumentFragment(), "svg", {
            viewBox: `0 0 ${width} ${height}`,
            width,
            height,
            role: "img",
            "aria-labelledby": "bench_line_title bench_line_words"
        });
        const words = ["drag", "uncertainty", "low", "high", "state"].map(name =>
            find(rows, name)
        );
        shape(svg, "title", {id: "bench_line_title"}, box.dataset.title);
        shape(
            svg,
            "desc",
            {id: "bench_line_words"},
            words.map(row => row.label + " " + shown(row)).join("; ")
        );
        return svg;
    }

    return function (box, rows) {
        const at = {},
            width = Math.max(box.clientWidth, 200);
        for (const row of rows.filter(row => row.name.startsWith("draw-")))
            at[row.name.slice("draw-".length)] = Number(row.value);
        const hasNever = Number.isFinite(at.never);
        const svg = newDrawing(box, rows, width, bottom + (hasNever ? 60 : 40));
        const x = scaleOf(at, width);
        addHatch(svg);
        shape(svg, "line", {x1: 0, x2: width, y1: bottom, y2: bottom, class: "base"});
        drawWindow(svg, at, x);
        drawDrag(svg, at, x);
        drawLabels(svg, rows, at, x, width);
        if (hasNever) drawNever(svg, at, x, width, box.dataset.never);
        box.replaceChildren(svg);
    };
})();
