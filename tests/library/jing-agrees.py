#!/usr/bin/env python3
"""Compares our gate with jing, another RELAX NG validator, on every file.

jing-agrees.py GATE-VERDICTS: of the shipped data and of the files of these
tests, those that are well-formed, have no document type and a namespace of
ours must be accepted or refused by both.
"""
import glob
import os
import subprocess
import sys
import xml.etree.ElementTree as tree

ROOT = os.environ["PIN_SOURCE_ROOT"]
SCHEMAS = {
    "urn:hingepin:procedure:1": "procedure-1.rng",
    "urn:hingepin:kinds:1": "kinds-1.rng",
    "urn:hingepin:chassis:1": "chassis-1.rng",
}


def schema_of(path):
    """The schema a file is held to, or None if it never gets that far."""
    data = open(path, "rb").read()
    if b"<!DOCTYPE" in data:
        return None
    try:
        data.decode("utf-8")
        root = tree.fromstring(data)
    except (UnicodeDecodeError, tree.ParseError, ValueError):
        return None
    return SCHEMAS.get(root.tag[1:].split("}")[0])


def files():
    for pattern in ("data/kinds/*.xml", "data/procedures/*.xml", "data/chassis/*.xml",
                    "tests/library/good/*.xml", "tests/library/bad/*.xml",
                    "tests/library/shelf/*/*.xml"):
        yield from sorted(glob.glob(os.path.join(ROOT, pattern)))


def refused_by_jing(schema, paths):
    """jing says FILE:LINE:COLUMN: error: … or fatal: … of each file that it refuses."""
    path = os.path.join(ROOT, "data/schemas", schema)
    run = subprocess.run(["jing", path, *paths], capture_output=True, text=True)
    lines = (run.stdout + run.stderr).splitlines()
    return {p for p in paths if any(l.startswith(p + ":") and (": error:" in l or ": fatal:" in l) for l in lines)}


def main():
    groups = {}
    for path in files():
        schema = schema_of(path)
        if schema:
            groups.setdefault(schema, []).append(path)
    differ = 0
    count = {True: 0, False: 0}
    for schema, paths in groups.items():
        theirs = refused_by_jing(schema, paths)
        run = subprocess.run([sys.argv[1], *paths], capture_output=True, text=True, check=True)
        ours = {l[len("refuses "):] for l in run.stdout.splitlines() if l.startswith("refuses ")}
        for path in paths:
            count[path in theirs] += 1
            if (path in ours) != (path in theirs):
                differ += 1
                print(f"# {path}: jing {'refuses' if path in theirs else 'accepts'} it, the gate does not")
    enough = count[True] >= 8 and count[False] >= 25 and len(groups) == 3
    print("1..2")
    print("ok 1 - both kinds of verdict occur" if enough else f"not ok 1 - too few files: {count}")
    print("ok 2 - verdicts agree" if differ == 0 else f"not ok 2 - {differ} verdicts differ")
    return 0 if enough and differ == 0 else 1


sys.exit(main())
