#!/usr/bin/env python3
"""A comma for decimals changes no number, and every sentence can be translated.

A locale with a decimal comma is made for this test alone, and a translation
that puts each sentence between guillemets: what is said without them cannot be
translated."""

import json
import os
import re
import subprocess
import sys
import tempfile

SOURCE = os.environ["PIN_SOURCE_ROOT"]
PROGRAM = os.path.join(os.environ["PIN_BUILD_ROOT"], "src", "hingepin")
TODAY = "2026-11-25"
PLAIN = {"LC_ALL": "C.UTF-8"}


# ---- What is made for it -----------------------------------------------------

def make_locale(folder):
    """de_DE: 1.234,5.  Its definitions come with the C library."""
    subprocess.run(["localedef", "--no-archive", "-i", "de_DE", "-f", "UTF-8",
                    os.path.join(folder, "de_DE.UTF-8")], check=True, capture_output=True)
    comma = {"LOCPATH": folder, "LC_ALL": "de_DE.UTF-8"}
    shown = subprocess.run(["locale", "decimal_point"], env={**os.environ, **comma},
                           check=True, capture_output=True, text=True).stdout
    assert "," in shown, shown
    return comma


def with_words():
    with open(os.path.join(SOURCE, "po", "POTFILES"), encoding="utf-8") as names:
        return [name.strip() for name in names if name.startswith("src/")]


def quoted(text):
    """msgid or msgstr "…" of however many lines, as one text."""
    return "".join(re.findall(r'"((?:\\.|[^"\\])*)"', text))


def between_marks(text):
    start, inner, end = re.fullmatch(r"((?:\\n)*)(.*?)((?:\\n)*)", text, re.S).groups()
    return f"{start}«{inner}»{end}"


def pseudo(template):
    """The template with «msgid» for each translation."""
    entries = []
    for entry in template.split("\n\n")[1:]:
        lines = "\n".join(line for line in entry.split("\n") if not line.startswith("#"))
        parts = dict(re.findall(r'^(msgctxt|msgid_plural|msgid) ((?:".*"\n?)+)', lines, re.M))
        if "msgid" not in parts:
            continue
        said = [f'{name} "{quoted(parts[name])}"' for name in ("msgctxt", "msgid", "msgid_plural")
                if name in parts]
        if "msgid_plural" in parts:
            said += [f'msgstr[0] "{between_marks(quoted(parts["msgid"]))}"',
                     f'msgstr[1] "{between_marks(quoted(parts["msgid_plural"]))}"']
        else:
            said.append(f'msgstr "{between_marks(quoted(parts["msgid"]))}"')
        entries.append("\n".join(said))
    head = ('msgid ""\nmsgstr "Content-Type: text/plain; charset=UTF-8\\n'
            'Plural-Forms: nplurals=2; plural=n != 1;\\n"')
    return "\n\n".join([head, *entries]) + "\n"


def make_translation(folder):
    pot = os.path.join(folder, "hingepin.pot")
    po = os.path.join(folder, "xx.po")
    messages = os.path.join(folder, "xx", "LC_MESSAGES")
    subprocess.run(["xgettext", "--from-code=UTF-8", "--language=C", "--directory", SOURCE, "-k_", "-kN_",
                    "-kC_:1c,2", "-kngettext:1,2", "-o", pot, *with_words()], check=True, capture_output=True)
    with open(pot, encoding="utf-8") as file:
        text = pseudo(file.read())
    with open(po, "w", encoding="utf-8") as file:
        file.write(text)
    os.makedirs(messages)
    subprocess.run(["msgfmt", "-o", os.path.join(messages, "hingepin.mo"), po], check=True)
    return {"LANGUAGE": "xx", "HINGEPIN_LOCALE_DIR": folder}


# ---- Running -----------------------------------------------------------------

class Shed:
    """The program in a home of its own, in one locale or another."""

    def __init__(self, folder, comma, marked):
        self.folder = folder
        # Days and months go by the locale, and are left out where numbers are compared.
        numbers = {"LOCPATH": comma["LOCPATH"], "LC_ALL": "", "LANG": comma["LC_ALL"], "LC_TIME": "C.UTF-8"}
        self.locales = {"plain": PLAIN, "comma": comma, "numbers": numbers,
                        "marked": {**comma, **marked}, "words": {**numbers, **marked}}

    def path(self, name):
        return os.path.join(self.folder, name)

    def write(self, name, text):
        with open(self.path(name), "w", encoding="utf-8") as file:
            file.write(text)
        return self.path(name)

    def run(self, locale, *words, wanted=0):
        env = dict(os.environ, HOME=self.folder, XDG_DATA_HOME=self.folder)
        env.pop("LANGUAGE", None)
        env.update(self.locales[locale])
        done = subprocess.run([PROGRAM, "--today", TODAY, *words], cwd=self.folder, env=env,
                              capture_output=True, text=True, encoding="utf-8")
        assert done.returncode == wanted, (words, done.returncode, done.stdout, done.stderr)
        return done.stdout if wanted == 0 else done.stdout + done.stderr

    def on_book(self, locale, *words, book="demo", wanted=0):
        return self.run(locale, "--book", self.path(book + ".hingepin"), *words, wanted=wanted)


LISTS = [("vehicles",), ("parts", "Number Seven"), ("setup", "Number Seven"), ("findings",), ("findings", "--all"),
         ("setup", "Tin Kettle", "--on", "2026-03-01")]
PAGES = [*LISTS, ("inspect", "Plum", "bearings", "--list"), ("verify",), ("reckon",), ("reckon", "gearing")]


def a_part(shed):
    parts = json.loads(shed.on_book("plain", "parts", "Plum", "--json"))["parts"]
    return next(part["id"] for part in parts if part["id"])


# ---- Numbers -----------------------------------------------------------------

def test_text_is_the_same(shed):
    for words in [*PAGES, ("history", a_part(shed))]:
        assert shed.on_book("numbers", *words) == shed.on_book("plain", *words), words


def test_lists_for_programs_are_the_same(shed):
    for words in [*LISTS, ("history", a_part(shed))]:
        for form in ("--json", "--csv"):
            plain = shed.on_book("plain", *words, form)
            assert shed.on_book("comma", *words, form) == plain, (words, form)
            assert shed.on_book("marked", *words, form) == plain, (words, form)


def files_in(folder):
    found = {}
    for where, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(where, name)
            with open(path, "rb") as file:
                found[os.path.relpath(path, folder)] = file.read()
    return found


def test_exported_files_are_the_same(shed):
    for locale in ("plain", "comma", "marked"):
        shed.on_book(locale, "export", shed.path("export-" + locale))
    plain, comma, marked = (files_in(shed.path("export-" + locale)) for locale in ("plain", "comma", "marked"))
    assert len(plain) > 20
    assert comma == plain and marked == plain


SAID = ["SELECT step, outcome, detail, note FROM answer ORDER BY id",
        "SELECT quantity, value, typed, repeats, conditions, method FROM reading ORDER BY id",
        "SELECT code, value, text, typed, origin FROM trait ORDER BY id",
        "SELECT deed, note, cost, day FROM work ORDER BY id", "SELECT event, gravity, note FROM finding ORDER BY id",
        "SELECT band FROM own_limit", "SELECT what, day FROM owed ORDER BY id",
        "SELECT day, seconds, litres, surface, note FROM outing ORDER BY id"]


def test_book_is_the_same(shed):
    """Made by one who reads another language, and holding nothing of that."""
    shed.on_book("marked", "demo", book="marked")
    for sql in SAID:
        plain, marked = (subprocess.run(["sqlite3", shed.path(book + ".hingepin"), sql], check=True,
                                        capture_output=True, text=True).stdout for book in ("demo", "marked"))
        assert plain and plain == marked, sql


# ---- What is typed -------------------------------------------------------------

def test_typed_comma_and_point(shed):
    for locale in ("plain", "comma"):
        said = [shed.run(locale, "reckon", "gearing", "spur=90", "pinion=20", "tyre=80", f"gearbox={ratio}")
                for ratio in ("2,6", "2.6")]
        assert said[0].replace("2,6", "2.6") == said[1].replace("2,6", "2.6"), said
        assert "11.7" in said[1], said[1]
        shed.run(locale, "reckon", "gearing", "spur=90", "pinion=20", "tyre=80", "gearbox=1,600", wanted=2)


def passing(blank, until):
    """Lines that answer everything up to @until in the first way that is offered."""
    lines = []
    for line in blank.splitlines():
        if line.startswith("#"):
            continue
        key, expects = line.split("\t")[:2]
        if key == until:
            return lines
        first = expects.split(";")[0].split("|")[0]
        lines.append(f"{key}\t10\toutcome=pass" if first.startswith("value") else f"{key}\t{first}")
    raise AssertionError(f"{until} is not asked")


def test_answers_with_commas(shed):
    """A comma stands between readings; one that may be a decimal is refused."""
    for locale in ("plain", "comma"):
        shed.on_book(locale, "add-vehicle", "Comma", "--chassis", "buggy-2wd-10", book=locale)
        blank = shed.on_book(locale, "inspect", "Comma", "free-roll", "--list", book=locale)
        shed.on_book(locale, "inspect", "Comma", "free-roll", "--answers",
                     shed.write("before.txt", "\n".join(passing(blank, "free-roll/coast"))), book=locale)
        refused = shed.on_book(locale, "inspect", "Comma", "free-roll", "--answers",
                               shed.write("doubtful.txt", "free-roll/coast\t2,5\toutcome=pass\n"),
                               book=locale, wanted=1)
        assert "one reading or several" in refused, refused
        shed.on_book(locale, "inspect", "Comma", "free-roll", "--answers",
                     shed.write("clear.txt", "free-roll/coast\t2.5 s, 2.7, 2.6\toutcome=pass\n"), book=locale)
        kept = subprocess.run(["sqlite3", shed.path(locale + ".hingepin"),
                               "SELECT value, json_array_length (repeats) FROM reading WHERE quantity = 'coast-time'"],
                              check=True, capture_output=True, text=True).stdout
        assert kept == "2.6|3\n", kept


# ---- Words -----------------------------------------------------------------------

def outside_marks(text):
    """What no translation has touched."""
    inner = re.compile(r"«[^«»]*»")
    while inner.search(text):
        text = inner.sub("", text)
    assert "«" not in text and "»" not in text, text
    return text


def assert_marked(said, *untouched):
    """Beside @untouched, which may stand as it is, no word is left."""
    rest = outside_marks(said)
    for word in untouched:
        rest = re.sub(word, "", rest)
    assert not re.search(r"[A-Za-z]{2}", rest), (said, rest)


def test_remarks_on_files(shed):
    """Each broken text of the library's own tests."""
    bad = os.path.join(SOURCE, "tests", "library", "bad")
    files = sorted(name for name in os.listdir(bad) if name.endswith(".xml"))
    assert files
    for name in files:
        said = shed.run("marked", "check", os.path.join(bad, name), wanted=1)
        for line in said.strip().splitlines():
            assert_marked(line, r"^.*?\.xml:\d+: ", r"^hingepin: ")


def test_errors_of_the_book(shed):
    shed.write("list.hingepin", "bearings, grease, and so on and so forth\n")
    said = shed.run("marked", "--book", shed.path("list.hingepin"), "vehicles", wanted=1)
    assert_marked(said, "^hingepin: ")
    said = shed.run("marked", "--book", shed.path("demo.hingepin"), "backup", "/no/such/folder/x.hingepin", wanted=1)
    assert "«" in said, said


def test_refusals_of_a_walk(shed):
    shed.on_book("plain", "add-vehicle", "Refused", "--chassis", "buggy-2wd-10", book="refused")
    blank = shed.on_book("plain", "inspect", "Refused", "bearings", "--list", book="refused")
    first = next(line.split("\t")[0] for line in blank.splitlines() if not line.startswith("#"))
    grade = next(line.split("\t")[0] for line in blank.splitlines() if line.startswith("bearings/grade@"))
    lines = ["nonsense\tpass", first, f"{first}\tsilly", f"{first}\tnot-checked", f"{first}\tpass\tx",
             f"{first}\tpass\tx=y", f"{grade}\tdry", "sign-off\tAB", f"{first}\tpass\tdeed=glued",
             f"{first}\tpass\task.size=3"]
    for line in lines:
        said = shed.on_book("marked", "inspect", "Refused", "bearings", "--answers",
                            shed.write("refused.txt", line + "\n"), book="refused", wanted=1)
        assert "«" in said, (line, said)
        assert_marked(said, r"^hingepin: ", r"\S*refused\.txt:\d+: ")


def test_pages(shed):
    """Words of the texts stand as they are in the files; the program's are marked."""
    for words in PAGES:
        said = shed.on_book("words", *words)
        assert "«" in said or words[0] == "inspect", words
        plain = shed.on_book("plain", *words)
        assert re.sub("[«»]", "", said).lower().split() == plain.lower().split(), words
    help_text = shed.run("marked", "--help")
    assert help_text.count("«") > 20, help_text
    assert "«" in shed.run("marked", "no-such-verb", wanted=2)
    assert "«" in shed.run("marked", "vehicles", "--csv", "--json", wanted=2)


TESTS = [test_text_is_the_same, test_lists_for_programs_are_the_same, test_exported_files_are_the_same,
         test_book_is_the_same, test_typed_comma_and_point, test_answers_with_commas, test_remarks_on_files,
         test_errors_of_the_book, test_refusals_of_a_walk, test_pages]


def main():
    failed = 0
    with tempfile.TemporaryDirectory(dir="/dev/shm" if os.path.isdir("/dev/shm") else None) as folder:
        shed = Shed(folder, make_locale(folder), make_translation(folder))
        shed.on_book("plain", "demo")
        print(f"1..{len(TESTS)}")
        for n, test in enumerate(TESTS, 1):
            name = test.__name__.removeprefix("test_").replace("_", "-")
            try:
                test(shed)
                print(f"ok {n} {name}", flush=True)
            except Exception as fault:
                print(f"not ok {n} {name}\n# " + repr(fault).replace("\n", "\n# "), flush=True)
                failed += 1
    return 1 if failed else 0


sys.exit(main())
