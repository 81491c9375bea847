"""Makes mutants of a C file: the file with one small thing changed, as a slip would change it.

A mutant has no line: it is told by its function and by what is changed with a neighbour on
each side, so that it stays the same when code moves. variants() puts all mutants of a file
into one text that compiles once: every function holds its own body and those of its mutants,
and `mutant_chosen` says which one runs (tests/mutants/choose.c). A constant is changed in memory, before the program begins.
"""
import re

TOKEN = re.compile(r"""[A-Za-z_]\w*|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\w*|"[^"]*"|'[^']*'
                       |->|\+\+|--|<<=?|>>=?|[<>=!]=|&&|\|\||[-+*/%&|^]=|\.\.\.|\S""", re.X)
RELATIONS = {"<": ("<=", ">"), "<=": ("<", ">"), ">": (">=", "<"), ">=": (">", "<"),
             "==": ("!=",), "!=": ("==",)}
SUMS = {"+": "-", "-": "+", "*": "/", "/": "*", "%": "*"}
STEPS = {"+=": "-=", "-=": "+=", "*=": "/=", "/=": "*=", "++": "--", "--": "++"}
TWINS = [("true", "false"), ("fmin", "fmax"), ("floor", "ceil"), ("sin", "cos"), ("low", "high"),
         ("LIMIT_LOW", "LIMIT_HIGH"), ("least", "most"), ("low_steps", "high_steps"), ("break", "continue"),
         ("decimal_steps_not_below", "decimal_steps_not_above"), ("drum", "cord"),
         ("steps_not_below", "steps_not_above"), ("drag_to_pull", "drag_from_pull"), ("first", "last"),
         ("decimal_add", "decimal_subtract"), ("before", "after"), ("slope", "intercept")]
TWIN = {a: b for pair in TWINS for a, b in (pair, pair[::-1])}
SAME = {"strncmp", "memcmp", "strcmp", "decimal_add", "decimal_multiply", "fmin", "fmax", "hypot"}  # either order of arguments will do
BARE = {"fabs", "floor", "ceil", "round", "sqrt", "llround", "log1p"}  # f(x) becomes (x)
NO_STATEMENT = set("if for while do switch return case default else const static struct enum union int "
                   "double char bool size_t void unsigned signed long int64_t uint64_t goto assert".split())
ENDS = {",", ";", "{", "}", "?", ":", "=", "+=", "-=", "*=", "/=", "|=", "&=", "return"}


class Mutant:
    """Of the text, what stands from start to end becomes `new`. `home` is the function or the
    constant that it is in."""

    def __init__(self, home, operator, start, end, new, told):
        self.home, self.operator, self.start, self.end, self.new, self.told = home, operator, start, end, new, told


class Home:
    """A function's body or a constant's initialiser: the text from start to end. `opens` is
    where the declaration begins."""

    def __init__(self, name, opens, start, end, is_function, is_void):
        self.name, self.opens, self.start, self.end = name, opens, start, end
        self.is_function, self.is_void = is_function, is_void


def masked(text):
    """The text, its comments, directives and what stands in quotes made blank."""
    def blank(match):
        words = match.group(0)
        inner = re.sub(r"[^\n]", " ", words[1:-1] if words[0] in "\"'" else words)
        return words[0] + inner + words[-1] if words[0] in "\"'" else inner
    form = r'/\*.*?\*/|//[^\n]*|"(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)*\'|^[ \t]*#(?:[^\n\\]|\\.|\\\n)*'
    return re.sub(form, blank, text, flags=re.S | re.M)


def homes(mask):
    """Every function with a body, and every constant or variable of the file with a value."""
    found, depth, opens, start, equals = [], 0, 0, 0, None
    for match in re.finditer(r"[{}();=]", mask):
        sign, at = match.group(0), match.start()
        if sign == "{" and depth == 0:
            start = at
        if sign in "{(":
            depth += 1
        elif sign in "})":
            depth -= 1
            if sign == "}" and depth == 0 and equals is None:
                head = mask[opens:start].rstrip()
                name = re.search(r"(\w+)\s*\(", head)
                if head.endswith(")") and name:
                    void = re.search(r"\bvoid\s*$", head[:name.start()]) is not None
                    found.append(Home(name.group(1), opens, start, at + 1, True, void))
                    opens = at + 1
        elif depth == 0 and sign == "=" and equals is None:
            equals = at
        elif depth == 0 and sign == ";":
            if equals is not None:
                found.append(Home(None, opens, equals, at, False, False))
            opens, equals = at + 1, None
    return found


class Tokens:
    """The tokens of a stretch, and where their brackets close."""

    def __init__(self, mask, start, end):
        self.at = [(match.group(0), match.start(), match.end())
                   for match in TOKEN.finditer(mask, start, end)]
        self.partner, stack = {}, []
        for i, (word, _, _) in enumerate(self.at):
            if word in ("(", "[", "{"):
                stack.append(i)
            elif word in (")", "]", "}") and stack:
                j = stack.pop()
                self.partner[i], self.partner[j] = j, i

    def word(self, i):
        return self.at[i][0] if 0 <= i < len(self.at) else ""

    def left(self, i, stops):
        """The first token of the operand that ends before token i."""
        i -= 1
        while i >= 0 and self.word(i) not in stops:
            if self.word(i) in ("(", "["):
                break
            i = self.partner.get(i, i) - 1
        return i + 1

    def right(self, i, stops):
        """The last token of the operand that begins behind token i."""
        i += 1
        while i < len(self.at) and self.word(i) not in stops and self.word(i) not in (")", "]"):
            i = (self.partner.get(i, i) if self.word(i) in ("(", "[", "{") else i) + 1
        return i - 1

    def binary(self, i):
        before = self.word(i - 1)
        return before in (")", "]") or re.match(r"[\w.]", before) and before not in NO_STATEMENT


def of_number(word):
    """What a literal becomes."""
    digits = word.rstrip("uUlLfF")
    if not re.fullmatch(r"\d+", digits):
        return [f"(1.001 * {word})"] if not digits.startswith("0x") else []
    value = int(digits)
    return {0: ["1"], 1: ["0", "2"]}.get(value, [str(value + 1), str(value - 1)])


def changes(text, tokens, counts, is_function):
    """(operator, start, end, new) of every mutant of a stretch. counts: names that stand for
    a number."""
    def span(i, j):
        return tokens.at[i][1], tokens.at[j][2]

    for i, (word, start, end) in enumerate(tokens.at):
        spaced = text[start - 1:start].isspace() and text[end:end + 1].isspace()
        if re.match(r"\d|\.\d", word):
            for new in of_number(word):
                yield "constant", start, end, new
        if word in ("true", "false"):
            yield "twin", start, end, TWIN[word]
        if not is_function:
            continue
        if word in RELATIONS and spaced:
            for new in RELATIONS[word]:
                yield "relation", start, end, new
        elif word in SUMS and spaced and tokens.binary(i):
            yield "arithmetic", start, end, SUMS[word]
        elif word == "-" and not spaced and not tokens.binary(i):
            yield "sign", start, end, ""
        elif word in STEPS:
            yield "step", start, end, STEPS[word]
        elif word in ("&&", "||"):
            yield "logic", start, end, "||" if word == "&&" else "&&"
            stops = ENDS | ({"&&", "||"} if word == "&&" else {"||"})
            yield "operand", tokens.at[tokens.left(i, stops)][1], tokens.at[i + 1][1], ""
            yield "operand", tokens.at[i - 1][2], tokens.at[tokens.right(i, stops)][2], ""
        elif word == "!":
            yield "not", start, end, ""
        elif word in ("if", "while") and i + 1 in tokens.partner:
            a, b = span(i + 1, tokens.partner[i + 1])
            if tokens.word(i + 2) != "!" or re.search(r"&&|\|\|", text[a:b]):
                yield "condition", a, b, f"(!{text[a:b]})"
        elif word == "?":
            a, b = span(tokens.left(i, ENDS), i - 1)
            yield "condition", a, b, f"!({text[a:b]})"
        elif word in counts or word in ("M_PI", "DBL_EPSILON"):
            yield "constant", start, end, f"({word} + 1)" if word in counts else f"(1.001 * {word})"
        elif word in BARE and tokens.word(i + 1) == "(":
            yield "call", start, end, ""
        elif word in TWIN and tokens.word(i - 1) not in ("struct", "enum"):
            yield "twin", start, end, TWIN[word]
        if re.match(r"[A-Za-z_]", word) and tokens.word(i + 1) == "(" and word not in NO_STATEMENT | SAME | {"sizeof"}:
            yield from swapped(text, tokens, i + 1)
        if word == "." and tokens.word(i - 1) in ("{", ",") and tokens.word(i + 2) == "=":
            last = tokens.right(i + 2, {",", "}"})
            comma = tokens.word(last + 1) == ","
            yield "field", start, tokens.at[last + comma][2], ""
        if begins_statement(tokens, i):
            last = tokens.right(i - 1, {";", "}"})
            if tokens.word(last + 1) == ";":
                yield "statement", start, tokens.at[last][2], ""


def swapped(text, tokens, opening):
    """Two neighbouring arguments change places."""
    closing, i, parts = tokens.partner.get(opening, opening), opening, []
    while i < closing:
        last = tokens.right(i, {","})
        if last <= i:
            return
        parts.append((tokens.at[i + 1][1], tokens.at[last][2]))
        i = last + 1
    for (a, b), (c, d) in zip(parts, parts[1:]):
        if text[a:b] != text[c:d]:
            yield "arguments", a, d, text[c:d] + text[b:c] + text[a:b]


def begins_statement(tokens, i):
    word, before = tokens.word(i), tokens.word(i - 1)
    if not re.match(r"[A-Za-z_]", word) and word not in ("*", "++", "--") or word in NO_STATEMENT:
        return False
    if before == ")":
        opening = tokens.partner.get(i - 1, 0)
        return tokens.word(opening - 1) in ("if", "for", "while")
    if before == ":":
        first = tokens.left(i - 1, {";", "{", "}"})
        return tokens.word(first) in ("case", "default")
    if before not in (";", "{", "}", "else"):
        return False
    if tokens.word(tokens.left(i, {"{", "}"}) - 1) == "(":  # within the brackets of a for
        return False
    after = tokens.word(i + 1)  # a declaration has a name, or a star and a name, behind its type
    return not (re.match(r"[A-Za-z_]", after) or after == "*" and tokens.word(i + 3) in ("=", ";", ",", "["))


def told_of(text, mask, start, end, new):
    """The change in words, with the neighbours."""
    before = [match.group(0) for match in TOKEN.finditer(mask, max(0, start - 80), start)][-1:]
    after = TOKEN.match(mask, end + len(mask[end:]) - len(mask[end:].lstrip())) if mask[end:].strip() else None
    sides = (before[0] if before else "", after.group(0) if after else "")
    return " => ".join(" ".join(f"{sides[0]} {words} {sides[1]}".split()) for words in (text[start:end], new))


def mutants_of(text):
    """All mutants of a C file's text, in their order."""
    mask = masked(text)
    counts = set(re.findall(r"\b([A-Z][A-Z0-9_]+) = \d+", mask))
    found, seen, told_before = [], set(), {}
    for home in homes(mask):
        tokens = Tokens(mask, home.start, home.end)
        for operator, start, end, new in changes(text, tokens, counts, home.is_function):
            result = (home.start, "".join((text[home.start:start] + new + text[end:home.end]).split()))
            if result in seen:
                continue
            seen.add(result)
            place = home
            if not home.is_function:
                names = re.findall(r"(\w+)\s*(?:\[[^\]]*\]\s*)*=[^=]", top_level(mask[home.opens:start + 1]))
                if not names or re.search(r"\b(?:enum|typedef)\b", mask[home.opens:home.start].split("=")[0]):
                    continue
                place = Home(names[-1], home.opens, home.start, home.end, False, False)
            told = told_of(text, mask, start, end, new)
            again = told_before[place.name, told] = told_before.get((place.name, told), 0) + 1
            found.append(Mutant(place, operator, start, end, new, told + (f" #{again}" if again > 1 else "")))
    return found


def top_level(words):
    """What stands in no brace, with what was left open."""
    while True:
        less = re.sub(r"\{[^{}]*\}", "", words)
        if less == words:
            return words.replace("{", " ")
        words = less


def unfolded(words):
    """The compiler would put the value of a constant where it is used."""
    return re.sub(r"\bstatic const ((?:struct )?\w+)(?= \w+ =)", r"static \1", words, count=1)


def variants(text, mutants, functions):
    """The file's text with all its mutants, {number: Mutant}. functions: {home's start: its
    number}. A fault of the compiler in mutant 7 is one of the "file" mutant-7."""
    mask, out, done = masked(text), [], 0
    out.append("extern int mutant_chosen;\nextern unsigned char *mutant_reached;\n"
               "void mutant_poke(const void *there, const void *other, unsigned long size);\n#line 1 \"original\"\n")
    pokes = []
    for home in homes(mask):
        own = [(number, mutant) for number, mutant in mutants.items() if mutant.home.start == home.start]
        if home.is_function:
            out.append(text[done:home.start])
            done = home.start
            if home.start in functions:
                out.append(f"{{ mutant_reached[{functions[home.start]}] = 1; switch (mutant_chosen) {{\n")
                end = "return;" if home.is_void else "__builtin_trap();"
                for number, mutant in own:
                    body = text[home.start:mutant.start] + mutant.new + text[mutant.end:home.end]
                    out.append(f"case {number}:\n#line 1 \"mutant-{number}\"\n{body}\n{end}\n")
                out.append("#line 1 \"original\"\ndefault: ; }\n")
            out.append(text[done:home.end] + ("}" if home.start in functions else ""))
            done = home.end
        elif own:
            out.append(text[done:home.opens] + unfolded(text[home.opens:home.end + 1]))
            done = home.end + 1
            for number, mutant in own:
                changed = text[home.opens:mutant.start] + mutant.new + text[mutant.end:home.end + 1]
                if not re.search(r"\bstatic\b", mask[home.opens:home.start]):
                    changed = "static " + changed.lstrip()
                name = mutant.home.name
                out.append(f"\nstatic void mutant_poke_{number}(void) {{ const void *there = &{name};\n{{\n"
                           f"#line 1 \"mutant-{number}\"\n{changed}\nmutant_poke(there, &{name}, sizeof {name}); }} }}\n"
                           "#line 1 \"original\"\n")
                pokes.append(number)
    out.append(text[done:])
    out += [f"\nvoid (*const mutant_data_{number})(void) = mutant_poke_{number};\n" for number in pokes]
    return "".join(out)
