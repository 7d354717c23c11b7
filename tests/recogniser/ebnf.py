"""A second reader of the language: interprets docs/staging.ebnf as a parsing expression grammar, and knows nothing else."""

import re
import unicodedata

TOKEN = re.compile(r"""\(\*.*?\*\)|\s+|(?P<word>'[^']+')|(?P<bytes>"(?:\\.|[^"\\])*")|(?P<name>[A-Za-z_][A-Za-z_0-9]*)|"""
                   r"(?P<sign>:=|\.\.|[=;|?*+&!()])", re.S)
BLANKS = " \t\u3000"
FAIL = -1


def tokens_of(text):
    at = 0
    while at < len(text):
        found = TOKEN.match(text, at)
        if found is None:
            raise ValueError(f"cannot read the grammar at {text[at:at + 40]!r}")
        at = found.end()
        if found.lastgroup:
            yield found.lastgroup, found.group(found.lastgroup)
    yield "sign", ""


class Grammar:
    """Rules as functions from (text, position) to the position after them, or FAIL."""

    def __init__(self, text):
        self.tokens = list(tokens_of(text))
        self.at = 0
        self.rules = {}
        self.words = set()
        self.memo = {}
        self.text = ""
        while self.tokens[self.at][1]:
            self.rule()
        missing = self.names_used - set(self.rules) - {"any", "eof", "wide"}
        if missing:
            raise ValueError(f"rules without a definition: {sorted(missing)}")

    names_used = frozenset()

    def reads(self, rule, text):
        """Whether the rule reads from the start of the text; a rule that ends with eof reads all of it."""
        self.memo = {}
        self.text = text
        return self.rules[rule](0) != FAIL

    # ---- reading the grammar -----------------------------------------------------------------------------------------

    def next(self):
        self.at += 1
        return self.tokens[self.at - 1][1]

    def peek(self):
        return self.tokens[self.at][1]

    def rule(self):
        name = self.next()
        self.spaced = self.next() == "="
        body = self.choice()
        if self.next() != ";":
            raise ValueError(f"rule {name} does not end with `;`")
        self.rules[name] = self.remembered(name, body)

    def remembered(self, name, body):
        def match(at):
            key = (name, at)
            if key not in self.memo:
                self.memo[key] = body(at)
            return self.memo[key]
        return match

    def choice(self):
        options = [self.sequence()]
        while self.peek() == "|":
            self.next()
            options.append(self.sequence())
        if len(options) == 1:
            return options[0]

        def match(at):
            for option in options:
                after = option(at)
                if after != FAIL:
                    return after
            return FAIL
        return match

    def sequence(self):
        items = []
        while self.peek() not in ("|", ";", ")", ""):
            items.append(self.item())
        if len(items) == 1:
            return items[0]

        def match(at):
            for item in items:
                at = item(at)
                if at == FAIL:
                    return FAIL
            return at
        return match

    def item(self):
        if self.peek() in ("&", "!"):
            wanted = self.next() == "&"
            ahead = self.item()
            return lambda at: at if (ahead(at) != FAIL) == wanted else FAIL
        part = self.element()
        while self.peek() in ("?", "*", "+"):
            part = self.repeated(part, self.next())
        return part

    @staticmethod
    def repeated(part, sign):
        def match(at):
            count = 0
            while True:
                after = part(at)
                if after == FAIL or after == at:
                    return at if count or after == at or sign != "+" else FAIL
                at = after
                count += 1
                if sign == "?":
                    return at
        return match

    def element(self):
        kind, token = self.tokens[self.at]
        self.next()
        if token == "(":
            inner = self.choice()
            self.next()
            return inner
        if kind == "word":
            return self.blanks_before(self.word(token[1:-1]))
        if kind == "bytes":
            first = token[1:-1].replace('\\"', '"').replace("\\\\", "\\")
            if self.peek() == "..":
                self.next()
                last = self.next()[1:-1]
                return self.blanks_before(self.one(lambda c: first <= c <= last))
            return self.blanks_before(self.bytes(first))
        if token == "any":
            return self.blanks_before(self.one(lambda c: True))
        if token == "wide":
            return self.blanks_before(self.one(lambda c: c >= "\u00a1" and unicodedata.category(c)[0] in "LMN"))
        if token == "eof":
            return self.blanks_before(lambda at: at if at == len(self.text) else FAIL)
        self.names_used = self.names_used | {token}
        return self.blanks_before(lambda at: self.rules[token](at))

    def blanks_before(self, part):
        if not self.spaced:
            return part

        def match(at):
            while at < len(self.text) and self.text[at] in BLANKS:
                at += 1
            return part(at)
        return match

    def bytes(self, wanted):
        return lambda at: at + len(wanted) if self.text.startswith(wanted, at) else FAIL

    def word(self, wanted):
        self.words.add(wanted)

        def match(at):
            if not self.text.startswith(wanted, at):
                return FAIL
            after = at + len(wanted)
            return FAIL if self.rules["word_more"](after) != FAIL else after
        return match

    def one(self, fits):
        return lambda at: at + 1 if at < len(self.text) and fits(self.text[at]) else FAIL
