#!/usr/bin/env python3
"""A number and its unit stay on one line: in the texts of the data files a
no-break space stands between them.  Names each place that has another space.
With --mend puts it right.  Attributes are read by the program, not by people,
and comments by us: both are left alone."""

import re
import sys

UNIT = r"(?:mm|cm|km/h|km|m|g|kg|ml|l|s|min|h|bar|°C|%|N·m|DP|V|A|mAh|cSt|µs)"
SPACED = re.compile(r"(\d) (" + UNIT + r")(?![\w/])")
OUTSIDE = re.compile(r"(<!--.*?-->|<\?.*?\?>|<[^>]*>)", re.DOTALL)


def mended(text):
    pieces = OUTSIDE.split(text)
    return "".join(piece if piece.startswith("<") else SPACED.sub("\\1\u00a0\\2", piece) for piece in pieces)


def main(arguments):
    mend = arguments[:1] == ["--mend"]
    bad = False
    for name in arguments[1:] if mend else arguments:
        with open(name, encoding="utf-8") as file:
            text = file.read()
        right = mended(text)
        if right == text:
            continue
        if mend:
            with open(name, "w", encoding="utf-8") as file:
                file.write(right)
            continue
        bad = True
        for number, (is_line, should) in enumerate(zip(text.split("\n"), right.split("\n")), 1):
            if is_line != should:
                print(f"{name}:{number}: no no-break space between number and unit: {is_line.strip()}", file=sys.stderr)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
