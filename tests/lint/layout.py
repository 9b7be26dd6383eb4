#!/usr/bin/env python3
"""Holds C files to the layout of .clang-format, as far as it understands them.

layout.py [--mend] FILE...

clang-format takes tables, ternaries over several lines and aligned parameters for
disorder.  So of what it would change only this counts: how far a statement is
indented, spaces within a line, and a brace that should stand on a line of its own.
"""
import re
import subprocess
import sys
import xml.etree.ElementTree as tree
from concurrent.futures import ThreadPoolExecutor

MACRO = re.compile(rb'^(#define|G_DEFINE_QUARK)')
TABLE = re.compile(rb'= *\{[^;]*$')
GETTEXT = re.compile(rb'\b(N?C?_)$')


def exempt_lines(text):
    """Macros, whose braces look like blocks, and initialisers laid out as tables."""
    exempt, macro, table = set(), False, False
    for number, line in enumerate(text.split(b'\n')):
        macro = macro or bool(MACRO.match(line))
        table = table or bool(TABLE.search(line))
        if macro or table or re.match(rb' *(static )?(enum|const struct|struct) *\{', line):
            exempt.add(number)
        macro = macro and line.endswith(b'\\')
        table = table and b';' not in line
    return exempt


def begins_statement(before):
    """Whether what follows the end of @before stands at the start of a statement."""
    code = re.sub(rb'/\*[^*]*\*/$', b'', before.rstrip()).rstrip()
    return code.endswith((b';', b'{', b'}'))


def counts(text, at, end, new):
    old, before, after = text[at:end], text[:at], text[end:end + 2]
    if b'\n' in old:
        if old.count(b'\n') != new.count(b'\n') or after.startswith((b'/*', b'.')):
            return False
        opens = after.startswith(b'{') and before.rstrip().endswith((b')', b'else', b'do'))
        return opens or begins_statement(before)
    if b'\n' in new:
        return after.startswith(b'{') and before.endswith((b')', b'else', b'do'))
    spaces_lost = old and not new
    if after.startswith((b'/*', b'{')) or before.endswith((b'{', b'*', b']')):
        return False
    if len(old) > 1 or len(new) > 1:
        return False
    if after.startswith(b'(') and (GETTEXT.search(before) or before.endswith(b'\\')):
        return False
    # It takes a product after a capital name for a pointer.
    return not (spaces_lost and re.search(rb'[*&]$', before + after[:1]))


def changes(path):
    with open(path, 'rb') as file:
        text = file.read()
    told = subprocess.run(['clang-format', '--output-replacements-xml', path],
                          check=True, capture_output=True).stdout
    exempt = exempt_lines(text)
    found = []
    for item in tree.fromstring(told).iter('replacement'):
        at, length = int(item.get('offset')), int(item.get('length'))
        new = (item.text or '').encode()
        line = text.count(b'\n', 0, at + length)
        if line not in exempt and counts(text, at, at + length, new):
            found.append((at, at + length, new, line + 1))
    return text, found


def mend(path, text, found):
    for at, end, new, _ in reversed(found):
        text = text[:at] + new + text[end:]
    with open(path, 'wb') as file:
        file.write(text)


def main(paths):
    mending = paths[:1] == ['--mend']
    paths = paths[mending:]
    bad = 0
    with ThreadPoolExecutor(4) as pool:
        for path, (text, found) in zip(paths, pool.map(changes, paths)):
            if found and mending:
                mend(path, text, found)
            elif found:
                lines = text.split(b'\n')
                for number in sorted({line for _, _, _, line in found}):
                    print(f"{path}:{number}: {lines[number - 1].decode().strip()}", file=sys.stderr)
                    bad = 1
    return bad


if __name__ == '__main__':
    sys.exit(main(sys.argv[1:]))
