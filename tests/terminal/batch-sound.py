#!/usr/bin/env python3
"""A thousand inputs of any kind for each sum, through reckon --batch: every line is
answered, and no answer is a number that is none."""

import json
import math
import os
import random
import subprocess
import sys

PROGRAM = os.path.join(os.environ["PIN_BUILD_ROOT"], "src", "hingepin")
LINES = 1000
ODD = ["", "0", "-1", "nan", "inf", "1e308", "1e-308", "abc", "1,5", "12 C", "3 parsec", ":", ",", "-0", "0x10"]
LENGTHS = ["mm", "in", "m", "ft", "um"]


def run(words, text=""):
    done = subprocess.run([PROGRAM, "reckon", *words], input=text.encode(), capture_output=True)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def number(chance, least, most):
    """Within the range, often at its ends, now and then outside it."""
    kind = chance.randrange(8)
    if kind == 0:
        return least
    if kind == 1:
        return most
    if kind == 2:
        return chance.choice([least - 1, most * 2 + 1, 0, -most])
    if least > 0 and most > 100 * least:
        return least * (most / least) ** chance.random()
    return chance.uniform(least, most)


def value(chance, bounds):
    digits = 0 if bounds.get("whole") and chance.random() < 0.95 else chance.choice([0, 1, 3, 9])
    text = repr(round(number(chance, bounds["least"], bounds["most"]), digits))
    unit = bounds["unit"]
    return text if unit in ("1", None) or chance.random() < 0.5 else f"{text} {unit}"


def pairs(chance, described):
    """In half of the cases as they are measured: the first rises, the second falls or
    rises with it."""
    firsts, seconds = described, described["second"]
    if chance.random() < 0.5:
        count = chance.randrange(1, 9)
        return ", ".join(value(chance, firsts) + ":" + value(chance, seconds) for _ in range(count))
    count = chance.randrange(5, 13)
    ones = sorted(chance.uniform(firsts["least"], firsts["most"]) for _ in range(count))
    others = sorted((chance.uniform(seconds["least"], seconds["most"]) for _ in range(count)),
                    reverse=chance.random() < 0.7)
    return ", ".join(f"{one!r}:{other!r}" for one, other in zip(ones, others))


def typed(chance, described):
    if chance.random() < 0.02:
        return chance.choice(ODD)
    if described["kind"] == "choice":
        return chance.choice(described["choices"])
    if described["kind"] == "unit":
        return chance.choice(LENGTHS)
    if described["kind"] == "any":
        return repr(round(chance.uniform(-1e3, 1e6), 3)) + " " + chance.choice(LENGTHS + ["C", "N"])
    if described["kind"] == "pairs":
        return pairs(chance, described)
    count = 1 if described["kind"] == "value" else chance.randrange(1, 9)
    return ", ".join(value(chance, described) for _ in range(count))


def line(chance, described):
    words = [described["sum"]]
    often = chance.choice([0.15, 0.5])
    for one in described["inputs"]:
        if one["needed"] or chance.random() < often:
            words.append("{}='{}'".format(one["name"], typed(chance, one)))
    return " ".join(words)


def sound(thing):
    if isinstance(thing, float):
        return math.isfinite(thing)
    if isinstance(thing, dict):
        return all(sound(inner) for inner in thing.values())
    if isinstance(thing, list):
        return all(sound(inner) for inner in thing)
    if isinstance(thing, str):
        return not any(word in thing.lower().replace(",", " ").split() for word in ("nan", "inf", "-nan", "-inf"))
    return True


def refused_constant(name):
    raise ValueError(f"{name} is no JSON")


def check(described, seed):
    """What is wrong with this sum, or None."""
    chance = random.Random(f"{seed} {described['sum']}")
    lines = [line(chance, described) for _ in range(LINES)]
    status, out, err = run(["--batch", "--json"], "\n".join(lines) + "\n")
    if status not in (0, 1):
        return f"exit status {status}: {err[-300:]}"
    answers = [json.loads(text, parse_constant=refused_constant) for text in out.splitlines()]
    if len(answers) != LINES:
        return f"{len(answers)} answers to {LINES} lines"
    worked = 0
    for nth, answer in enumerate(answers):
        if "error" in answer:
            continue
        worked += 1
        if not sound(answer):
            return f"{lines[nth]} gives {answer}"
    return None if worked >= LINES // 50 else f"only {worked} of {LINES} lines could be worked out"


def main():
    seed = os.environ.get("PIN_SEED") or str(random.randrange(10 ** 9))
    status, out, err = run(["--json"])
    sums = json.loads(out)["sums"] if status == 0 else []
    print(f"1..{len(sums)}")
    print(f"# PIN_SEED={seed}")
    failed = not sums
    for nth, described in enumerate(sums, 1):
        wrong = check(described, seed)
        failed |= wrong is not None
        print(f"{'not ok' if wrong else 'ok'} {nth} - {described['sum']}")
        if wrong:
            print(f"# {wrong}")
    return 1 if failed else 0


sys.exit(main())
