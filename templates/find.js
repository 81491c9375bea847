/* The filter over the index of tables and words: hides the lines that lack a typed word.
   Without it every line stands there to be read. */
(function () {
    "use strict";
    const box = document.getElementById("find_box");
    const typed = document.getElementById("find_typed");
    const count = document.getElementById("find_count");
    if (!box) return;
    const groups = Array.from(document.querySelectorAll(".find-group"));
    const lines = groups.flatMap(group => Array.from(group.querySelectorAll("li")));

    function filter() {
        const words = typed.value.toLowerCase().split(/\s+/).filter(Boolean);
        for (const line of lines) {
            const text = line.textContent.toLowerCase();
            line.hidden = !words.every(word => text.includes(word));
        }
        for (const group of groups) group.hidden = !group.querySelector("li:not([hidden])");
        count.textContent = String(lines.filter(line => !line.hidden).length);
    }

    typed.addEventListener("input", filter);
    box.hidden = false;
    filter(); /* a browser may have kept what was typed */
})();
