#!/usr/bin/env python3
"""The files of the drum to make, read by readers of their own.

Usage: check_drum.py OUT

Of drums with every fitting: the STL is closed and oriented, by admesh too; nothing in it hangs
over by more than 45 degrees; its sizes are those that were typed, with the shrinkage; the 3MF has
the same triangles; the profile of the DXF and of the SVG is that of the STL where it can be
touched; the SVG is drawn at 1:1; two runs make the same bytes; what cannot be made is named at
its key. Chromium, where there is one, measures the SVG as it is seen.

Sources: STL: the binary format as its readers have it (no standard; marked from memory). 3MF: 3MF
Core Specification 1.4, chapters 2 to 4 and 7; OPC: ECMA-376 part 2. DXF: DXF Reference of release
12, group codes from memory. SVG: SVG 1.1, 7.2 and 8.3.
"""
import base64
import html
import io
import json
import math
import os
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml
import zipfile
import zlib

import tally
from tally import check

OUT = os.path.abspath(sys.argv[1])
PROGRAM = os.path.join(OUT, "bin", "spindlebook")
CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"

DRUMS = [
    {},
    {"bore": "38 mm", "mark": "A-12"},
    {"bore": "1 1/2 in", "wanted-radius": "2 in", "turns": "6", "shrinkage": "0.8 %", "layer": "0.2 mm"},
    {"plug-diameter": "18 mm", "plug-length": "25 mm", "mark": "7"},
    {"plug-diameter": "40 mm", "plug-length": "12 mm", "bore": "8 mm"},
    {"bore": "20 mm", "holes": "3", "hole-circle": "40 mm", "hole-diameter": "6.5 mm"},
    {"bore": "39.5 mm", "cap-depth": "30 mm", "flange": "5 mm"},
    {"bore": "30 mm", "cap-depth": "10 mm", "material": "steel", "peg": "4 mm"},
    {"wanted-radius": "12 mm", "bore": "6 mm"},
    {"wanted-radius": "400 mm", "bore": "120 mm", "mark": "No. 99/X"},
]


def millimetres(text):
    number, unit = text.rsplit(" ", 1)
    value = sum(float(part.split("/")[0]) / float((part.split("/") + ["1"])[1]) for part in number.split())
    return value * {"mm": 1, "in": 25.4}[unit]


def book(folder, drum):
    run = subprocess.run([PROGRAM, "book", "--only", "drum", "--out", folder] +
                         [f"--set=drum.{key}={value}" for key, value in drum.items()],
                         capture_output=True, text=True)
    return run.returncode, run.stderr


# ---- STL ----

def read_stl(path):
    with open(path, "rb") as file:
        data = file.read()
    count, = struct.unpack_from("<I", data, 80)
    check(len(data) == 84 + 50 * count and not data.startswith(b"solid"), f"{path}: length or head")
    facets = [struct.unpack_from("<12fH", data, 84 + 50 * i) for i in range(count)]
    return [(facet[:3], (facet[3:6], facet[6:9], facet[9:12])) for facet in facets]


def cross(a, b, c):
    u, v = [b[i] - a[i] for i in range(3)], [c[i] - a[i] for i in range(3)]
    return [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]


def check_stl(name, facets):
    edges, worst, lean, volume, twice = set(), 0, 0, 0, 0
    for normal, corners in facets:
        square = cross(*corners)
        length = math.sqrt(sum(value * value for value in square))
        if length > 1e-4:
            lean = max(lean, max(abs(square[i] / length - normal[i]) for i in range(3)))
        volume += sum(corners[0][i] * square[i] for i in range(3)) / 6
        on_bed = all(corner[2] == 0 for corner in corners)
        if -normal[2] > worst and not on_bed:
            thin = length / max(math.dist(corners[i], corners[i - 1]) for i in range(3)) < 0.01
            worst = worst if thin else -normal[2]
        for i in range(3):
            edge = corners[i], corners[(i + 1) % 3]
            twice += edge in edges
            edges.add(edge)
    check(not twice, f"{name}: {twice} edges twice in one direction")
    check(all((b, a) in edges for a, b in edges), f"{name}: an edge of one facet alone")
    check(worst < math.sin(math.radians(45.2)), f"{name}: hangs over by {math.degrees(math.asin(worst)):.2f} degrees")
    check(lean < 0.01, f"{name}: a normal is not square to its facet: {lean}")
    return volume


def check_admesh(name, path, volume):
    said = subprocess.run(["admesh", path], capture_output=True, text=True).stdout
    numbers = dict(re.findall(r"([A-Z][a-z ]+\w)\s*:\s*(-?[\d.]+)", said))
    for what in ("Edges fixed", "Facets removed", "Facets added", "Facets reversed", "Backwards edges",
                 "Normals fixed", "Degenerate facets", "Total disconnected facets"):
        check(numbers.get(what) == "0", f"{name}: admesh: {what}: {numbers.get(what)}")
    check(numbers.get("Number of parts") == "1", f"{name}: admesh: {numbers.get('Number of parts')} parts")
    check(abs(float(numbers["Volume"]) / volume - 1) < 1e-4, f"{name}: admesh: volume {numbers['Volume']}, not {volume}")


# ---- 3MF ----

def read_3mf(name, path):
    with zipfile.ZipFile(path) as package:
        check(package.testzip() is None, f"{name}: a part of the 3MF is damaged")
        check(all(part.date_time == (1980, 1, 1, 0, 0, 0) for part in package.infolist()), f"{name}: the 3MF has a time")
        types = xml.fromstring(package.read("[Content_Types].xml"))
        kinds = {item.get("Extension"): item.get("ContentType") for item in types}
        check(kinds.get("model") == "application/vnd.ms-package.3dmanufacturing-3dmodel+xml", f"{name}: no type of the model")
        check(kinds.get("rels") == "application/vnd.openxmlformats-package.relationships+xml", f"{name}: no type of rels")
        start = [item.get("Target") for item in xml.fromstring(package.read("_rels/.rels"))
                 if item.get("Type") == "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"]
        check(len(start) == 1, f"{name}: {len(start)} models")
        model = xml.fromstring(package.read(start[0].lstrip("/")))
    check(model.tag == CORE + "model" and model.get("unit") == "millimeter", f"{name}: no model in millimetres")
    objects = {item.get("id"): item for item in model.iter(CORE + "object")}
    built = [objects[item.get("objectid")] for item in model.find(CORE + "build")]
    check(len(built) == 1 and built[0].get("name"), f"{name}: not one object with a name")
    points = [tuple(float(vertex.get(axis)) for axis in "xyz") for vertex in built[0].iter(CORE + "vertex")]
    triangles = [tuple(int(item.get(key)) for key in ("v1", "v2", "v3")) for item in built[0].iter(CORE + "triangle")]
    check(len(set(points)) == len(points), f"{name}: a point twice")
    check(all(len(set(corners)) == 3 for corners in triangles), f"{name}: a triangle with a corner twice")
    return [tuple(points[i] for i in corners) for corners in triangles], built[0].get("name")


def check_3mf(name, path, facets):
    single = lambda value: struct.unpack("<f", struct.pack("<f", value))[0]
    triangles, title = read_3mf(name, path)
    as_stl = [tuple(tuple(single(value) for value in point) for point in corners) for corners in triangles]
    check(as_stl == [corners for _, corners in facets], f"{name}: STL and 3MF have other triangles")
    return title


# ---- DXF and SVG: as pieces ("line", a, b) and ("arc", a, b, centre) ----

def read_dxf(path):
    with open(path, encoding="ascii") as file:
        lines = file.read().split("\n")
    pairs = [(int(code), value) for code, value in zip(lines[:-1:2], lines[1::2])]
    check(pairs[-1] == (0, "EOF") and (1, "AC1009") in pairs, f"{path}: no end, or no release")
    start = pairs.index((2, "ENTITIES"))
    entities, layers = [], {}
    for code, value in pairs[start + 1:]:
        if code == 0:
            entities.append((value, {}))
        else:
            check(code not in entities[-1][1], f"{path}: code {code} twice")
            entities[-1][1][code] = value
    check([kind for kind, _ in entities[-2:]] == ["ENDSEC", "EOF"], f"{path}: does not end")
    for kind, codes in entities[:-2]:
        at = lambda code: (float(codes[code]), float(codes[code + 10]))
        if kind == "LINE":
            piece = "line", at(10), at(11)
        elif kind == "ARC":
            centre, radius = at(10), float(codes[40])
            ends = [(centre[0] + radius * math.cos(math.radians(float(codes[code]))),
                     centre[1] + radius * math.sin(math.radians(float(codes[code])))) for code in (50, 51)]
            piece = "arc", *ends, centre
        else:
            check(kind == "TEXT", f"{path}: {kind}")
            piece = "text", at(10), codes[1]
        layers.setdefault(codes[8], []).append(piece)
    return layers


def read_svg(path):
    root = xml.parse(path).getroot()
    size = [float(root.get(key).removesuffix("mm")) for key in ("width", "height")]
    box = [float(value) for value in root.get("viewBox").split()]
    check(root.get("width").endswith("mm") and box == [0, 0, *size], f"{path}: not at 1:1")
    layers = {}
    for path_ in root.iter("{http://www.w3.org/2000/svg}path"):
        words = re.findall(r"[MLAV]|-?[\d.]+(?:e-?\d+)?", path_.get("d"))
        pieces, here, i = [], None, 0
        while i < len(words) and path_.get("id"):
            letter, take = words[i], {"M": 2, "L": 2, "A": 7}[words[i]]
            values = [float(word) for word in words[i + 1:i + 1 + take]]
            if letter != "M":
                pieces.append(("line" if letter == "L" else "arc", here, tuple(values[-2:])))
            here, i = tuple(values[-2:]), i + 1 + take
        layers[path_.get("id")] = pieces
    return layers


def check_profile(name, pieces):
    """Closed, each piece begins where the one before ends; corners as a set of (z, r)."""
    ends = [{piece[1], piece[2]} for piece in pieces]
    near = lambda a, b: math.dist(a, b) < 2e-5
    for one, other in zip(ends, ends[1:] + ends[:1]):
        check(any(near(a, b) for a in one for b in other), f"{name}: the profile is open at {one}")
    return sorted({(round(z, 3), round(r, 3)) for end in ends for z, r in end})


def check_against_stl(name, profile, facets, shrinkage):
    """Each corner of the profile is a height and a radius of the STL, away from notch and peg."""
    there = {}
    for _, corners in facets:
        for x, y, z in corners:
            if x < 0:
                there.setdefault(round(z * shrinkage, 3), set()).add(round(math.hypot(x, y) * shrinkage, 3))
    for z, r in profile:
        fits = [radius for height, radii in there.items() if abs(height - z) < 0.003 for radius in radii
                if abs(radius - r) < 0.003 + 1e-4 * r]
        check(r == 0 or fits, f"{name}: the solid has nothing at z {z}, r {r}")


# ---- sizes ----

def check_sizes(name, drum, facets, shrinkage):
    cord, printed = 0.8, drum.get("material", "printed") == "printed"
    land = 2 * millimetres(drum.get("wanted-radius", "32 mm")) - cord
    height = millimetres(drum.get("flange", "3 mm"))
    points = {corner for _, corners in facets for corner in corners}
    radius = lambda keep: max(math.hypot(x, y) for x, y, z in points if keep(z)) * shrinkage
    top = max(z for _, _, z in points) * shrinkage
    check(abs(radius(lambda z: True) - land / 2 - height) < 0.001, f"{name}: flange {radius(lambda z: True)}")
    peg = millimetres(drum.get("peg", "6 mm" if printed else "3 mm"))
    layer = millimetres(drum.get("layer", "0.0001 mm"))
    whole = lambda length: math.ceil(length / layer - 1e-6) * layer
    width = 2 * whole(3) + whole(height) + whole(peg + (int(drum.get("turns", 4)) + 1) * cord * 1.1)
    if "plug-length" in drum:
        width += whole(millimetres(drum["plug-length"]))
    if "cap-depth" in drum:
        width = max(width, 3 + millimetres(drum["cap-depth"]))
    check(abs(top - width) < 0.01, f"{name}: {top} wide, not {width}")
    where = [(math.hypot(x, y) * shrinkage, z * shrinkage) for x, y, z in points]
    if "bore" in drum:
        bore = min(r for r, z in where if abs(z - top) < 2)
        check(abs(bore - millimetres(drum["bore"]) / 2) < 0.001 + 1e-4 * bore, f"{name}: bore {2 * bore}")
    if "cap-depth" in drum:
        floor = top - millimetres(drum["cap-depth"])
        check(any(abs(z - floor) < 0.001 for r, z in where), f"{name}: no floor at {floor}")
    return land


# ---- the SVG as it is seen ----

def grey_rows(png):
    """The rows of a PNG of 8 bits a channel, as darkness (PNG specification, 9.2; filters 0 to 4)."""
    width, height, _, kind = struct.unpack_from(">IIBB", png, 16)
    step, data, at = {2: 3, 6: 4}[kind], b"", 8
    while at < len(png):
        length, name = struct.unpack_from(">I4s", png, at)
        data += png[at + 8:at + 8 + length] if name == b"IDAT" else b""
        at += 12 + length
    raw, rows, last = zlib.decompress(data), [], bytearray(width * step)
    for y in range(height):
        mode, row = raw[y * (width * step + 1)], bytearray(raw[y * (width * step + 1) + 1:(y + 1) * (width * step + 1)])
        for i in range(len(row)):
            a, b, c = row[i - step] if i >= step else 0, last[i], last[i - step] if i >= step else 0
            p = a + b - c
            row[i] = row[i] + (0, a, b, (a + b) // 2,
                               min((abs(p - a), 0, a), (abs(p - b), 1, b), (abs(p - c), 2, c))[2])[mode] & 255
        rows.append([255 - row[i] for i in range(0, len(row), step)])
        last = row
    return rows


def check_seen(path, flange):
    """At 96 pixels an inch, four to each: the outermost lines of the section lie apart by F."""
    browser = shutil.which("chromium")
    if not browser:
        return
    with tempfile.TemporaryDirectory() as folder:
        picture = os.path.join(folder, "seen.png")
        subprocess.run([browser, "--headless", "--no-sandbox", "--disable-gpu", "--force-device-scale-factor=4",
                        f"--user-data-dir={folder}/profile", f"--screenshot={picture}", "--window-size=400,500",
                        "file://" + os.path.abspath(path)], capture_output=True, timeout=120)
        with open(picture, "rb") as file:
            rows = grey_rows(file.read())
    profile = read_svg(path)["PROFILE"]
    x = round(sum(profile[2][k][0] for k in (1, 2)) / 2 * 4 * 96 / 25.4)  # in the rim of the first flange
    dark = [y for y, row in enumerate(rows) if row[x] > 128]
    runs = [y for y in dark if y - 1 not in dark], [y for y in dark if y + 1 not in dark]
    lines = [(a + b) / 2 for a, b in zip(*runs) if b - a >= 5]  # thick ones: 0.5 mm are 7.6 pixels
    seen = (max(lines[:-1] or lines) - min(lines)) * 25.4 / 96 / 4
    tall = max((abs(a - b) * 25.4 / 96 / 4 for a in lines for b in lines), key=lambda value: -abs(value - flange))
    check(abs(tall - flange) < 0.1, f"the flange is seen {tall:.2f} mm across, not {flange:.2f} ({seen:.2f})")


# ---- what cannot be made ----

FAULTS = [
    ({"bore": "70 mm"}, "drum.bore (70 mm) is not smaller than the drum"),
    ({"bore": "60 mm"}, "drum.bore (60 mm) leaves a wall of 1.6 mm"),
    ({"flange": "2 mm"}, "the peg, 3 mm high, stands out beyond the flange of 2 mm"),
    ({"turns": "9", "most-width": "18 mm"}, "9 turns of cord do not fit"),
    ({"peg": "2 mm"}, "drum.peg (2 mm) is narrower than the peg is high"),
    ({"peg": "50 mm"}, "the notch for the peg, 56 mm wide, has no room"),
    ({"plug-diameter": "20 mm"}, "drum.plug-diameter stands without drum.plug-length"),
    ({"plug-diameter": "68 mm", "plug-length": "9 mm"}, "the plug is not smaller than the flange"),
    ({"holes": "3"}, "drum.holes stands without drum.hole-circle"),
    ({"bore": "20 mm", "holes": "3", "hole-circle": "25 mm", "hole-diameter": "5 mm"}, "holes of 5 mm on this circle"),
    ({"bore": "10 mm", "holes": "12", "hole-circle": "30 mm", "hole-diameter": "6 mm"}, "the holes lie 1.765 mm apart"),
    ({"cap-depth": "12 mm"}, "drum.cap-depth stands without drum.bore"),
    ({"mark": "A\u00e4"}, "drum.mark: 'A\u00e4' cannot be cut from '\u00e4' on"),
    ({"mark": "A" * 90}, "drum.mark has no room on the face"),
]


def check_faults(folder):
    for drum, words in FAULTS:
        status, said = book(os.path.join(folder, "none"), drum)
        check(status == 1 and words in said and "--set" in said, f"{drum}: status {status}: {said}")


# ---- the engine of the bench page ----

def check_engine(folder):
    """Its files are the program's, byte for byte; of the 3MF, which it does not pack, the parts."""
    engine = os.path.join(OUT, "build", "bench.wasm")
    if not os.path.exists(engine) or not shutil.which("node"):
        return
    base = subprocess.run([PROGRAM, "book", "--only", "site", "--bench", engine, "--out", folder + "/site"] +
                          ["--set=drum.mark=B-7"], capture_output=True, text=True)
    check(base.returncode == 0, base.stderr)
    with open(folder + "/site/site/bench.html", encoding="utf-8") as file:
        page = file.read()
    pairs = [[key, html.unescape(text)] for key, text in re.findall(r'<li data-key="([^"]+)">(.*?)</li>', page)]
    asked = json.dumps([["settings", pairs], ["files", []]]) + "\n"
    said = subprocess.run(["node", os.path.join(os.path.dirname(__file__), "ask_engine.js"), engine],
                          input=asked, capture_output=True, text=True)
    files = {row[1]: base64.b64decode(row[4]) for row in json.loads(said.stdout)[1] if row[0] == "file"}
    book(os.path.join(folder, "page"), {"mark": "B-7"})
    check(sorted(files) == ["drum.3mf", "drum.dxf", "drum.stl", "drum.svg"], f"the engine makes {sorted(files)}")
    for name, data in files.items():
        with open(os.path.join(folder, "page", name), "rb") as file:
            wanted = file.read()
        if name == "drum.3mf":
            with zipfile.ZipFile(io.BytesIO(data)) as one, zipfile.ZipFile(io.BytesIO(wanted)) as other:
                check(one.testzip() is None, "the engine's 3MF is damaged")
                data, wanted = ([(part, package.read(part)) for part in package.namelist()] for package in (one, other))
        check(data == wanted, f"the engine's {name} is another than the program's")


def main():
    with tempfile.TemporaryDirectory() as folder:
        for number, drum in enumerate(DRUMS):
            name, made = f"drum {number}", os.path.join(folder, str(number))
            status, said = book(made, drum)
            check(status == 0, f"{name}: {said}")
            path = lambda ext: os.path.join(made, "drum." + ext)
            facets = read_stl(path("stl"))
            shrinkage = 1 - float(drum.get("shrinkage", "0 %").split()[0]) / 100
            volume = check_stl(name, facets)
            check_admesh(name, path("stl"), volume)
            title = check_3mf(name, path("3mf"), facets)
            check(drum.get("mark", "").upper() in title.upper(), f"{name}: called {title}")
            land = check_sizes(name, drum, facets, shrinkage)
            dxf, svg = read_dxf(path("dxf")), read_svg(path("svg"))
            profile = check_profile(name, dxf["PROFILE"])
            check_against_stl(name, profile, facets, shrinkage)
            seen = check_profile(name, svg["PROFILE"])
            left, axis = seen[0][0] - profile[0][0], max(r for _, r in seen)
            check(len(seen) == len(profile), f"{name}: DXF and SVG have other profiles")
            drawn = sorted((round(z - left, 3), round(axis - r, 3)) for z, r in seen)
            lift = min(r for _, r in profile)
            check(all(min(math.dist((z, r + lift), other) for other in profile) < 0.01 for z, r in drawn),
                  f"{name}: the profile of the SVG is another")
            texts = " ".join(piece[2] for piece in dxf["TEXT"])
            check(f"{land:.2f}" in texts and "illimetres" in texts and "under power" in texts, f"{name}: texts: {texts}")
            again = os.path.join(folder, "again")
            book(again, drum)
            for ext in ("stl", "3mf", "dxf", "svg"):
                with open(path(ext), "rb") as one, open(os.path.join(again, "drum." + ext), "rb") as other:
                    check(one.read() == other.read(), f"{name}: drum.{ext} has other bytes in the next run")
            if number == 1:
                check_seen(path("svg"), 69.2)
        check_faults(folder)
        check_engine(folder)
    return tally.end(f"{tally.looked} things about {len(DRUMS)} drums and {len(FAULTS)} that cannot be made")


if __name__ == "__main__":
    sys.exit(main())
