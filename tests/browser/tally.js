/* Counts what was looked at and tells what failed. */
"use strict";

const tally = {looked: 0, failed: 0};

function check(good, words) {
    tally.looked++;
    if (good) return;
    tally.failed++;
    if (tally.failed <= 40) console.log(`FAILED ${words}`);
}

function same(found, wanted, words) {
    const [a, b] = [JSON.stringify(found), JSON.stringify(wanted)];
    check(a === b, `${words}\n    found  ${a}\n    wanted ${b}`);
}

module.exports = {tally, check, same};
