#!/usr/bin/env python3
"""What meson's records of a test run come to.

pick SUITE [NAME...]         tests of `meson introspect --tests` (standard input)
count STATUS LOG...          how many subtests passed and failed, as one line
bench LOG                    what the benchmarks measured, as a table
"""
import json
import os
import re
import sys

RESULT = re.compile(r'^(not )?ok\b(?:\s+\d+)?\s*(?:-\s*)?([^#]*)(#\s*\w.*)?', re.I)
PLAN = re.compile(r'^1\.\.(\d+)')


def records(path):
    if os.path.exists(path):
        with open(path, encoding='utf-8', errors='replace') as log:
            for line in log:
                yield json.loads(line)


def pick(suite, names):
    """Meson writes a colon in a test's name as an underscore; people need not."""
    names = [name.replace(':', '_') for name in names]
    for test in json.load(sys.stdin):
        suites = [s.split(':')[-1] for s in test['suite']]
        if suite != 'all' and suite not in suites:
            continue
        if names and not any(name in test['name'] for name in names):
            continue
        project = test['suite'][0].split(':')[0]
        print(f"{project}:{test['name']}")


def judge(record):
    """Passed subtests, and why each of the others counts as failed."""
    passed, failures, planned = 0, [], None
    for line in record.get('stdout', '').splitlines():
        plan = PLAN.match(line)
        if plan:
            planned = int(plan.group(1))
            continue
        result = RESULT.match(line)
        if not result:
            continue
        name = result.group(2).strip()
        if result.group(3):
            failures.append(f'{name} was skipped; a test that cannot run is a failed test')
        elif result.group(1):
            failures.append(name)
        else:
            passed += 1
    seen = passed + len(failures)
    if record['result'] != 'OK' and not failures:
        failures.append(f"ended with {record['result']}, status {record.get('returncode')}")
    elif planned is None or seen == 0:
        failures.append('ran no test')
    elif seen < planned and not failures:
        failures.append(f'ran {seen} of {planned} tests')
    return passed, failures


def count(status, logs):
    passed = failed = 0
    for log in logs:
        build = log.split('/')[1]
        for record in records(log):
            good, failures = judge(record)
            passed += good
            failed += len(failures)
            for why in failures:
                print(f"failed in {build}: {record['name']}: {why}")
    if failed == 0 and (status or passed == 0):
        print('failed: no test ran' if not status else
              'failed: meson stopped with an error, see above')
        failed = 1
    print(f'{passed} passed, {failed} failed')
    return 1 if failed else 0


def bench(log):
    """Benchmarks print lines: bench, name, measured, unit, yardstick, what that is, by tabs."""
    rows = [('benchmark', 'measured', 'yardstick', 'times', 'the yardstick')]
    for record in records(log):
        for line in record.get('stdout', '').splitlines():
            if not line.startswith('bench\t'):
                continue
            name, measured, unit, yardstick, what = line.split('\t')[1:6]
            times = float(measured) / float(yardstick) if float(yardstick) else float('inf')
            rows.append((name, f'{float(measured):.1f} {unit}', f'{float(yardstick):.1f} {unit}',
                         f'{times:.1f}', what))
    widths = [max(len(row[i]) for row in rows) for i in range(4)]
    for row in rows:
        print(f'{row[0]:<{widths[0]}}  {row[1]:>{widths[1]}}  {row[2]:>{widths[2]}}  '
              f'{row[3]:>{widths[3]}}  {row[4]}')
    return 1 if len(rows) == 1 else 0


def main(args):
    if args[:1] == ['pick'] and len(args) >= 2:
        return pick(args[1], args[2:])
    if args[:1] == ['count'] and len(args) >= 3:
        return count(int(args[1]), args[2:])
    if args[:1] == ['bench'] and len(args) == 2:
        return bench(args[1])
    print(__doc__, file=sys.stderr)
    return 2


if __name__ == '__main__':
    sys.exit(main(sys.argv[1:]))
