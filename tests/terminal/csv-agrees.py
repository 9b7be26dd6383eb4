#!/usr/bin/env python3
"""Lists printed as CSV, read with a parser of others and held against the JSON."""

import csv
import io
import json
import os
import subprocess
import sys
import tempfile

PROGRAM = os.path.join(os.environ["PIN_BUILD_ROOT"], "src", "hingepin")
NAMES = ["=1+1", "+44", "-3", "@home", '"Mule", the old one', "Plain", " spaced ", "a,b", "Sk\u00f6ll"]
FORMULA = tuple("=+-@\t\r")


def run(folder, *words):
    env = dict(os.environ, HOME=folder, XDG_DATA_HOME=folder)
    done = subprocess.run([PROGRAM, "--today", "2026-11-25", *words], cwd=folder, env=env,
                          capture_output=True)
    if done.returncode != 0:
        sys.exit(f"{words}: exit status {done.returncode}: {done.stderr.decode()}")
    return done.stdout


def rows_of(data):
    """By RFC 4180: every line ends with CR LF, and every line has all fields."""
    assert data.endswith(b"\r\n"), data[-20:]
    text = data.decode("utf-8")
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert rows and all(len(row) == len(rows[0]) for row in rows), rows[:3]
    again = io.StringIO(newline="")
    csv.writer(again).writerows(rows)
    assert list(csv.reader(io.StringIO(again.getvalue(), newline=""))) == rows
    return [dict(zip(rows[0], row)) for row in rows[1:]]


def plain(value):
    """A value of the JSON as the CSV writes it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return value["value"]
    if isinstance(value, list):
        return ", ".join(value)
    if isinstance(value, str) and value.startswith(FORMULA):
        return "'" + value
    return value


def agree(name, field, value):
    if isinstance(value, float) or isinstance(value, int) and not isinstance(value, bool):
        return abs(float(field) - value) < 1e-9 * max(1, abs(value))
    return field == value


def compare(folder, book, member, *words):
    table = rows_of(run(folder, "--book", book, *words, "--csv"))
    things = json.loads(run(folder, "--book", book, *words, "--json"))[member]
    assert len(table) == len(things), (words, len(table), len(things))
    for row, thing in zip(table, things):
        for name, field in row.items():
            key = name.removesuffix("-s").removesuffix("-l") if name not in thing else name
            if name == "reasons":  # one text for all, with the first in it
                assert not thing["reasons"] or thing["reasons"][0]["text"] in field, row
                continue
            value = plain(thing.get(key))
            assert agree(name, field, value), (words, name, field, value)
            assert name in ("id", "open-walk") or not isinstance(value, str) or not field.startswith(FORMULA)
    return table


def own_book(folder):
    """Names that a spreadsheet or a reader of CSV could take for something else."""
    for name in NAMES:
        run(folder, "--book", "own.hingepin", "add-vehicle", "--chassis", "crawler-10", "--hours", "1.5",
            "--", name)
    table = compare(folder, "own.hingepin", "vehicles", "vehicles")
    told = sorted(row["name"] for row in table)
    assert len(told) == len(NAMES), told
    assert "'=1+1" in told and '"Mule", the old one' in told, told
    assert {row["time-before-s"] for row in table} == {"5400"}, table[0]


def demo_book(folder):
    run(folder, "--book", "demo.hingepin", "demo")
    lines = 0
    lines += len(compare(folder, "demo.hingepin", "vehicles", "vehicles"))
    lines += len(compare(folder, "demo.hingepin", "findings", "findings"))
    lines += len(compare(folder, "demo.hingepin", "findings", "findings", "--all"))
    lines += len(compare(folder, "demo.hingepin", "facts", "setup", "Plum", "--all"))
    sizes = compare(folder, "demo.hingepin", "bearings", "bearings")
    lines += len(sizes)
    assert sum(int(size["fitted"]) for size in sizes) > 100, sizes
    assert ["688"] == [size["designation"] for size in sizes if size["size"] == "8 × 16 × 5 mm"], sizes
    parts = compare(folder, "demo.hingepin", "parts", "parts", "Gravel Ann")
    for part in parts[:5]:
        lines += len(compare(folder, "demo.hingepin", "events", "history", part["id"]))
    assert lines > 100, lines


def main():
    cases = [("awkward names", own_book), ("every list of the demo stable", demo_book)]
    failed = 0
    print(f"1..{len(cases)}")
    for nth, (title, case) in enumerate(cases, 1):
        try:
            with tempfile.TemporaryDirectory(prefix="csv-") as folder:
                case(folder)
            print(f"ok {nth} - {title}")
        except AssertionError as trouble:
            failed += 1
            print(f"not ok {nth} - {title}")
            print(f"# {trouble}")
    return 1 if failed else 0


sys.exit(main())
