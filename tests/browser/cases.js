/* Made-up shops, pulls and questions, good and bad, drawn from a seed. */
"use strict";

/* mulberry32: small, and the same everywhere. */
function drawer(seed) {
    let state = seed >>> 0;
    const draw = () => {
        state = (state + 0x6d2b79f5) >>> 0;
        let t = Math.imul(state ^ (state >>> 15), state | 1);
        t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
        return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
    };
    const pick = list => list[Math.floor(draw() * list.length)];
    const between = (low, high) => low + (high - low) * draw();
    return {draw, pick, between, chance: share => draw() < share};
}

const newtons = {
    N: 1,
    kgf: 9.80665,
    gf: 0.00980665,
    lbf: 4.4482216152605,
    ozf: 0.27801385095378125
};

/* So many newtons, roughly, as a person would write them in the unit. */
function force(random, base, unit) {
    const value = base / newtons[unit];
    const places = Math.max(0, 2 - Math.floor(Math.log10(value || 1)));
    return value.toFixed(Math.min(places, 6)) + random.pick(["", " ", "\u00a0"]) + unit;
}

const lengthOf = random =>
    random.pick([
        () => random.between(20, 160).toFixed(random.pick([0, 1, 2])) + "mm",
        () => random.between(1, 6).toFixed(3) + " in",
        () =>
            `${Math.floor(random.between(1, 6))} ${random.pick(["1/2", "3/4", "9/16", "37/64", "127/128"])} in`,
        () => random.between(2, 16).toFixed(2) + " cm"
    ])();

/* Settings to replace: [key, text] pairs. */
function rig(random) {
    const unit = random.pick(["N", "N", "gf", "lbf", "ozf", "kgf"]);
    const replaced = [];
    const maybe = (share, key, text) => random.chance(share) && replaced.push([key, text()]);
    maybe(0.8, "drum.diameter", () => lengthOf(random));
    maybe(0.4, "drum.tolerance", () => random.pick(["0 mm", "0.02mm", "0.003 in", "0.5 mm"]));
    maybe(0.5, "cord.diameter", () => random.pick(["0.4 mm", "1/32 in", "1.2mm", "0.06in"]));
    maybe(0.3, "cord.tolerance", () => random.pick(["0 mm", "0.01 mm", "0.002 in"]));
    if (random.chance(0.6)) {
        replaced.push([
            "gauge.step",
            random.pick(["0.01", "0.05", "0.1", "0.2", "0.5", "1", "2"]) + unit
        ]);
        replaced.push(["gauge.capacity", force(random, random.between(30, 120), unit)]);
    }
    maybe(0.3, "gauge.reading-error", () => random.pick(["0.5 %", "1%", "3 %"]));
    maybe(0.3, "gauge.checked-error", () => random.pick(["0.2 N", "20gf", "0 N", "0.05 lbf"]));
    maybe(
        0.3,
        "lathe.top-speed",
        () => random.pick(["400", "450", "900.5", "1120", "1800"]) + " r/min"
    );
    maybe(0.3, "pulls.scatter", () => random.pick(["1 %", "5 %", "0 %"]));
    maybe(0.3, "pulls.skew", () => random.pick(["0 deg", "10 deg", "22.5 deg"]));
    return {replaced, unit};
}

const nonsense = [
    "12",
    "12 mm",
    "1,5 N",
    "12 newton",
    "N",
    "1.2.3 N",
    "3 4 N",
    "1/3 N",
    "9/8 N",
    "1e3 N",
    "-4 N",
    "\u22124 N",
    "0x10 N",
    "12345678901234567 N",
    "0.1234567890123456 N",
    "<b>1</b> N",
    "5 N N",
    ".5 N",
    "5. N",
    "1 1/2 lbf",
    "7\u00b0",
    "999999 N",
    "\u00bd N",
    "0 N",
    "00000000000000000000001 N",
    "4 \u03a9",
    "5\u00a0N\u00a0",
    "17 N.m"
];

const bare = /^[0-9./-]*$/;

/* Around the window of the shop's own drum, now and then far off. */
function pulls(random, unit) {
    const middle = random.chance(0.7) ? random.between(8, 30) : random.between(0.5, 60);
    const scatter = random.pick([0, 0.002, 0.01, 0.05, 0.2]);
    const count = random.pick([1, 2, 3, 5, 5, 5, 8, 20, 100]);
    const made = [];
    for (let i = 0; i < count; i++)
        made.push(force(random, middle * (1 + scatter * random.between(-1, 1)), unit));
    if (!random.chance(0.15)) return made;
    const bad = random.pick(nonsense);
    if (bare.test(bad)) /* the terminal would take the next word as its unit */ return [bad];
    made[Math.floor(random.draw() * count)] = bad;
    return made;
}

const badSettings = [
    ["drum.diameter", "1 mm"],
    ["drum.diameter", "50"],
    ["cord.diameter", "30 mm"],
    ["gauge.step", "3 kN"],
    ["gauge.step", "60 N"],
    ["cord.tolerance", "3 mm"],
    ["drum.tolerance", "19 mm"],
    ["lathe.top-speed", "5000 r/min"],
    ["lathe.top-speed", "0 r/min"],
    ["gauge.capacity", "0.05 N"],
    ["cord.diameter", "a bit"],
    ["drum.diameter", "50N"],
    ["nut.threads", "16 tpi"],
    ["pulls.skew", "50 deg"],
    ["gauge.reading-error", "60 %"],
    ["drum.diameter", "2 9/15 in"]
];

function nut(random) {
    const angle = () =>
        random.between(-20, 40).toFixed(1) + random.pick([" deg", "\u00b0", "deg"]);
    const drag = () =>
        random.chance(0.05)
            ? random.pick(nonsense.filter(text => !bare.test(text)))
            : random.pick([
                  random.between(0.1, 0.8).toFixed(3) + " N.m",
                  random.between(1, 8).toFixed(2) + "lbf.in",
                  random.between(1000, 8000).toFixed(0) + " gf.cm",
                  random.between(0.1, 0.8).toFixed(3) + " N\u00b7m"
              ]);
    return [angle(), drag(), angle(), drag()];
}

function lockOf(random) {
    const added = ["0.05 N.m", "0.2N.m", "1.2 lbf.in", "-0.03 N.m", "900 gf.cm"];
    return {
        lock: random.pick(["", "before", "unloaded", "after", "after", "after"]),
        warmth: random.pick(["", "cold", "cold", "warm"]),
        direction: random.pick(["", "usual", "usual", "other"]),
        added: random.pick(added)
    };
}

function makeCase(random) {
    const made = rig(random);
    if (random.chance(0.12)) made.replaced.push(random.pick(badSettings));
    const unique = [...new Map(made.replaced)];
    return {
        replaced: unique,
        pulls: pulls(random, made.unit),
        nut: nut(random),
        breakaway: random.chance(0.5) ? force(random, random.between(10, 50), "N") : "",
        drum: random.chance(0.1)
            ? random.pick(["0 mm", "60", "3 m", "six in"])
            : lengthOf(random),
        speed: random.pick([
            "100 r/min",
            "450 r/min",
            "1120r/min",
            "1800 rpm",
            "9000 r/min",
            "800 N"
        ])
    };
}

function makeCases(seed, count) {
    const random = drawer(seed),
        locks = drawer(seed + 1000);
    return Array.from({length: count}, () => ({...makeCase(random), ...lockOf(locks)}));
}

module.exports = {makeCases};
