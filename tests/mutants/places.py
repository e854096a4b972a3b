"""Where C text can be changed a little, and how.

Only tokens of code are changed: no comment, text, or #include. Operators are told apart by the
spaces that .clang-format sets around those with two sides.
"""
import re
from collections import namedtuple

# `old` at text[start:end] becomes `new`; `function` is "-" outside of any.
Place = namedtuple("Place", "path function start end new kind line")
Token = namedtuple("Token", "kind text start end")

TOKEN = re.compile(
    r"""(?P<comment>/\*.*?\*/|//[^\n]*)
      | (?P<text>"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')
      | (?P<define>^[ ]*\#define[ ]+\w+[ ](?=[-+(]*[\d.]))
      | (?P<directive>^[ ]*\#(?:\\\n|[^\n])*)
      | (?P<number>(?:0[xX][0-9a-fA-F]+|(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)[uUlLfF]*)
      | (?P<name>[A-Za-z_]\w*)
      | (?P<sign><<=|>>=|\.\.\.|->|\+\+|--|<<|>>|[-+*/%&|^=!<>]=|&&|\|\||[-+*/%&|^=!<>?:;,.(){}\[\]~])
    """, re.X | re.S | re.M)

TWO_SIDED = {
    "<": [("boundary", "<="), ("comparison", ">=")],
    "<=": [("boundary", "<"), ("comparison", ">")],
    ">": [("boundary", ">="), ("comparison", "<=")],
    ">=": [("boundary", ">"), ("comparison", "<")],
    "==": [("comparison", "!=")],
    "!=": [("comparison", "==")],
    "+": [("arithmetic", "-")],
    "-": [("arithmetic", "+")],
    "*": [("arithmetic", "/")],
    "/": [("arithmetic", "*")],
    "%": [("arithmetic", "/")],
    "+=": [("arithmetic", "-=")],
    "-=": [("arithmetic", "+=")],
    "*=": [("arithmetic", "/=")],
    "/=": [("arithmetic", "*=")],
    "&&": [("logic", "||")],
    "||": [("logic", "&&")],
}
NAMES = {
    "fmin": [("least and most", "fmax")],
    "fmax": [("least and most", "fmin")],
    "floor": [("least and most", "ceil")],
    "ceil": [("least and most", "floor")],
    "true": [("truth", "false")],
    "false": [("truth", "true")],
}
STATEMENT = re.compile(r"[ ]+(?!(?:return|case|default|else|for|if|do|while|const|static|struct|"
                       r"enum|goto|typedef)\b)(?!\w+ \**\w)[\w(*][^;{}]*;$")
KINDS = ("boundary", "comparison", "arithmetic", "logic", "least and most", "truth", "constant",
         "condition", "statement", "order")


def tokens_of(text):
    """The tokens of code; comments, texts and directives are left out, but a text keeps its place."""
    found = []
    for match in TOKEN.finditer(text):
        if match.lastgroup not in ("comment", "directive", "define"):
            found.append(Token(match.lastgroup, match.group(), match.start(), match.end()))
    return found


def functions_of(tokens):
    """(name, index of its opening brace, index of its closing brace) of each function."""
    found, depth, name, opened, parens = [], 0, None, 0, 0
    for i, token in enumerate(tokens):
        if token.text == "(":
            if depth == 0 and parens == 0 and i and tokens[i - 1].kind == "name":
                name = tokens[i - 1].text
            parens += 1
        elif token.text == ")":
            parens -= 1
        elif token.text == "{":
            if depth == 0:
                opened = i if i and tokens[i - 1].text == ")" else None
            depth += 1
        elif token.text == "}":
            depth -= 1
            if depth == 0 and opened is not None:
                found.append((name, opened, i))
    return found


def closing(tokens, at):
    """The index of the bracket that closes the one at `at`."""
    depth = 0
    for i in range(at, len(tokens)):
        if tokens[i].text in "([{":
            depth += 1
        elif tokens[i].text in ")]}":
            depth -= 1
            if depth == 0:
                return i
    return len(tokens) - 1


def constants(token):
    """A number one more and one less, or a tenth when it is large or has a point."""
    match = re.fullmatch(r"(0[xX][0-9a-fA-F]+|[\d.]+(?:[eE][-+]?\d+)?)([uUlLfF]*)", token.text)
    digits, suffix = match.groups()
    if digits[:2] in ("0x", "0X"):
        return [hex(int(digits, 16) ^ 1) + suffix]
    if re.search(r"[.eE]", digits):
        value = float(digits)
        changed = [value * 1.1, value * 0.9] if value else [0.1]
        return [repr(number) + suffix for number in changed]
    value = int(digits)
    changed = [value + 1] + ([value - 1] if value else [])
    if value > 20:
        changed = [round(value * 1.1), round(value * 0.9)]
    return [str(number) + suffix for number in changed]


def swaps(text, tokens, at):
    """Neighbours swapped in the initialiser that opens at `at`: (start, end, new)."""
    end, depth, starts, parts = closing(tokens, at), 0, at + 1, []
    for i in range(at + 1, end + 1):
        if depth == 0 and (i == end or tokens[i].text == ","):
            if i > starts:
                parts.append((tokens[starts].start, tokens[i - 1].end))
            starts = i + 1
        elif tokens[i].text in "([{":
            depth += 1
        elif tokens[i].text in ")]}":
            depth -= 1
    for one, two in zip(parts, parts[1:]):
        first, second = text[one[0]:one[1]], text[two[0]:two[1]]
        # rows, and members by name, mean mostly the same in any order
        rows = [re.match(r"[.\[{]|[A-Z_]+\(", part) for part in (first, second)]
        if first != second and not any(rows):
            yield one[0], two[1], second + text[one[1]:two[0]] + first


def token_changes(text, tokens, i):
    """(kind, start, end, new) for what can be changed at one token."""
    token = tokens[i]
    spaced = text[token.start - 1:token.start] in " \n" and text[token.end:token.end + 1] in " \n"
    if token.kind == "sign" and spaced:
        for kind, new in TWO_SIDED.get(token.text, []):
            yield kind, token.start, token.end, new
    if token.kind == "name":
        for kind, new in NAMES.get(token.text, []):
            yield kind, token.start, token.end, new
    if token.kind == "number":
        for new in constants(token):
            yield "constant", token.start, token.end, new
    if token.text == "if" and tokens[i + 1].text == "(":
        start, end = tokens[i + 1].end, tokens[closing(tokens, i + 1)].start
        yield "condition", start, end, "!(" + text[start:end] + ")"
    if token.text == "{" and i and tokens[i - 1].text in ("=", ",", "{", ")"):
        if tokens[i - 1].text != ")" or tokens[i - 1].end == token.start:
            for start, end, new in swaps(text, tokens, i):
                yield "order", start, end, new


def statements(text, tokens, function):
    """Whole statements on a line of their own that can be dropped."""
    before = {token.start: tokens[i - 1].text for i, token in enumerate(tokens) if i}
    at = tokens[function[1]].end
    for line in text[at:tokens[function[2]].start].split("\n"):
        start = at + len(line) - len(line.lstrip())
        if STATEMENT.match(line) and before.get(start) in (";", "{", "}", ")", "else", ":"):
            yield "statement", start, at + len(line), ";"
        at += len(line) + 1


def places_of(path, text):
    """Every change that can be made in one file, in the order of the text."""
    tokens = tokens_of(text)
    functions = functions_of(tokens)
    spans = [(tokens[first].start, tokens[last].end, name) for name, first, last in functions]

    def function_at(at):
        return next((name for start, end, name in spans if start <= at < end), "-")

    changes = [change for i in range(len(tokens)) for change in token_changes(text, tokens, i)]
    for function in functions:
        changes += statements(text, tokens, function)
    if path.endswith(".h"): # only the figures that stand there
        changes = [change for change in changes if change[0] == "constant"]
    # lists of keys are searched, in any order
    changes = [change for change in changes
               if change[0] != "order" or not function_at(change[1]).endswith("_keys")]
    return [Place(path, function_at(start), start, end, new, kind, text.count("\n", 0, start) + 1)
            for kind, start, end, new in sorted(changes, key=lambda change: change[1:])]


class Gone(Exception):
    """An entry of the list whose place is not there, or not one alone."""


def find_named(files, function, old, new):
    """The one place in `files` (path to text) where `old` stands in `function`."""
    wanted = re.compile(r"\s+".join(re.escape(word) for word in old.split()))
    found = []
    for path, text in files.items():
        if not wanted.search(text):
            continue
        tokens = tokens_of(text)
        spans = [(tokens[first].start, tokens[last].end)
                 for name, first, last in functions_of(tokens) if name == function]
        if function == "-":
            spans = [(0, len(text))]
        for start, end in spans:
            found += [(path, match) for match in wanted.finditer(text, start, end)]
    if len(found) != 1:
        raise Gone(f"'{old}' stands {len(found)} times in {function}, wanted once")
    path, match = found[0]
    line = files[path].count("\n", 0, match.start()) + 1
    return Place(path, function, match.start(), match.end(), new, "named", line)
