"""Holds what `sansvoir progress` tells of a class against figures counted here from the journals alone.

Usage: class.py BINARY FOLDER SEED [FILE]

Draws the journals of thirty pupils over sixty days: drills, calculations, and a lesson of three parts that most of
them held, some twice, some not to its end, one part until it was passed. Then it counts, with Python's own csv, json
and datetime: the rows of the class (as csv and as data), the lesson's results (as csv and as data), all answers (as
csv), and the figures of the reports for parents. With FILE, pages are left in FOLDER for a browser.
"""

import collections
import csv
import datetime
import html
import io
import json
import pathlib
import random
import re
import subprocess
import sys

PUPILS, DAYS, LATELY = 30, 60, 28
UTC = datetime.timezone.utc
KINDS = ("color", "name", "attacks", "legality")
MARKS = (6, None, 4)
OPTIONS = ({"kinds": ["color"]}, {}, {"kinds": ["name"]})
HEADINGS = ("Light or dark?", "A, few \"pieces\"", "Names")
TITLE = "Friday's group"
LESSON = f"""title = "{TITLE}"
[[part]]
heading = "{HEADINGS[0]}"
exercise = "drill"
kinds = ["color"]
count = 8
pass = {MARKS[0]}
[[part]]
heading = 'A, few "pieces"'
exercise = "ahead"
[[part]]
heading = "{HEADINGS[2]}"
exercise = "drill"
kinds = ["name"]
count = 6
pass = {MARKS[2]}
until_passed = true
"""
ASKED = {"color": 5, "name": 6, "attacks": 4, "legality": 4}


def stamp(time):
    return time.strftime("%Y-%m-%dT%H:%M:%SZ")


def answer(dice, time, session, kind, skill, number):
    square = "abcdefgh"[number % 8] + str(1 + number // 8 % 8)
    verdict = "right" if dice.random() < skill else dice.choice(("wrong", "part", "pass"))
    if verdict == "part" and kind in ("color", "legality"):
        verdict = "wrong"
    row = {"v": 1, "type": "answer", "time": stamp(time), "session": session}
    line = kind in ("attacks", "legality")
    row |= {"exercise": "ahead" if line else "drill", "kind": kind}
    if line:
        row |= {"start": "8/8/8/8/8/8/8/8 w - - 0 1", "moves": []}
        row["position"] = f"8/8/8/8/8/8/8/8 {dice.choice('wb')} - - 0 {1 + number % 30}"
    row["subject"] = {"move": square + "a1"} if kind == "legality" else {"square": square}
    if kind == "name":
        row["subject"]["view"] = "white"
    row |= {"expected": {"squares": [square]}, "reply": dice.choice(("e4", "=1+1", 'a, "b"', "")), "verdict": verdict}
    row |= {"score": float(verdict == "right"), "millis": dice.choice((None, dice.randrange(500, 20000)))}
    row |= {"late": False, "looks": 0}
    if not line and dice.random() < 0.1:
        row["repeat"] = True
    elif dice.random() < 0.05:
        row["helped"] = True
    if line:
        row["hardness"] = {"plies": dice.randint(1, 9), "men": 32, "captures": 0, "moved": None, "opened": 0, "closed": 0}
    return row


class Pupil:
    def __init__(self, dice, number, today):
        self.name, self.shown = f"Pupil {number}", f"P. {number} <&> Ö"
        self.dice, self.rows, self.held = dice, [], []
        self.skill, self.sessions = dice.uniform(0.3, 0.95), 0
        if number == PUPILS:
            return
        for back in range(DAYS, -1, -1):
            if dice.random() < 0.4:
                at = datetime.datetime.combine(today, datetime.time(), UTC) - datetime.timedelta(days=back)
                self.drill(at + datetime.timedelta(seconds=dice.randrange(1 if back == 0 else 80000)))
        for _ in range(dice.choice((0, 1, 1, 1, 2))):
            back = dice.randint(1, 50)
            at = datetime.datetime.combine(today, datetime.time(9), UTC) - datetime.timedelta(days=back)
            self.lesson(at)
        # Merged journals are not in the order of their times.
        self.held.sort(key=lambda held: held["time"])

    def session(self):
        self.sessions += 1
        return f"{self.dice.getrandbits(64):016x}"

    def start(self, time, session, exercise, plan):
        row = {"v": 1, "type": "start", "time": stamp(time), "session": session, "learner": self.name}
        self.rows.append(row | {"exercise": exercise, "seed": 1, "plan": plan})

    def end(self, time, session, finished):
        row = {"v": 1, "type": "end", "time": stamp(time), "session": session}
        self.rows.append(row | {"finished": finished, "plies": 0, "looks": 0})

    def drill(self, time):
        session = self.session()
        self.start(time, session, "drill", {})
        for _ in range(self.dice.randint(5, 40)):
            kind = self.dice.choice(KINDS)
            self.rows.append(answer(self.dice, time, session, kind, self.skill, self.dice.randrange(64)))
            time += datetime.timedelta(milliseconds=10)
        self.end(time, session, True)

    def lesson(self, time):
        session = self.session()
        exercises = ("drill", "ahead", "drill")
        parts = [
            {"heading": heading, "request": {"exercise": exercise, "options": options}, "pass": mark}
            for heading, exercise, options, mark in zip(HEADINGS, exercises, OPTIONS, MARKS)
        ]
        self.start(time, session, "lesson", {"title": TITLE, "parts": parts})
        held = {"time": time, "finished": self.dice.random() < 0.8, "parts": []}
        held["times"] = 1
        begun = 3 if held["finished"] else self.dice.randint(0, 2)
        for number, (kind, count) in enumerate((("color", 8), ("attacks", 5), ("name", 6))):
            result = None
            for again in range(1, 4 if number == 2 else 2):
                if number >= begun:
                    break
                name = f"{session}-{number + 1}" + (f"-{again}" if again > 1 else "")
                self.start(time, name, exercises[number], {})
                rows = [answer(self.dice, time, name, kind, self.skill, 9 * at % 64) for at in range(count)]
                self.rows.extend(rows)
                self.end(time, name, True)
                first = [row for row in rows if not row.get("repeat") and not row.get("helped")]
                right = sum(row["verdict"] == "right" for row in first)
                mark = MARKS[number]
                repeated = sum(row.get("repeat", False) and row["exercise"] == "drill" for row in rows)
                questions = len(first) + repeated
                enough = mark is not None and questions >= mark and len(first) - right <= questions - mark
                passed = None if mark is None else enough
                result = (right, len(first), passed, first)
                if passed:
                    break
            held["parts"].append(result)
        self.end(time, session, held["finished"])
        self.held.append(held)

    def first_tries(self):
        rows = (row for row in self.rows if row["type"] == "answer")
        return [row for row in rows if not row.get("repeat") and not row.get("helped")]


def day(row):
    return datetime.date.fromisoformat(row["time"][:10])


def same(what, found, wanted):
    if found != wanted:
        sys.exit(f"{what}: found {found!r}, counted {wanted!r}")


def main():
    binary, folder, seed = sys.argv[1:4]
    dice = random.Random(int(seed))
    now = datetime.datetime.now(UTC)
    today = now.date()
    folder = pathlib.Path(folder) / "class"
    folder.mkdir(parents=True)
    pupils = [Pupil(dice, number, today) for number in range(1, PUPILS + 1)]
    lines = ["title = 'Group <1>'"]
    for pupil in pupils:
        lines.append(f'[[pupil]]\nname = "{pupil.name}"\nshown = "{pupil.shown}"')
        if pupil.rows:
            text = "".join(json.dumps(row, separators=(",", ":")) + "\n" for row in pupil.rows)
            (folder / f"{pupil.name.lower()}.jsonl").write_text(text)
    (folder / "class.toml").write_text("\n".join(lines))
    (folder / "lesson.toml").write_text(LESSON)

    def told(*words):
        command = [binary, "progress", "--data", folder, "--class", folder / "class.toml", *words]
        return subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout

    table = lambda text: list(csv.DictReader(io.StringIO(text, newline="")))
    by_name = {pupil.shown: pupil for pupil in pupils}
    rows = table(told("--format", "csv"))
    same("pupils", sorted(row["learner"] for row in rows), sorted(by_name))
    # The weeks of the kinds are whole ones, counted from the epoch.
    week = lambda date: (date - datetime.date(1970, 1, 1)).days // 7
    lately = [json.loads(line) for line in told("--format", "json").splitlines()]
    same("order", [one["learner"] for one in lately], [row["learner"] for row in rows])
    for row, data in zip(rows, lately):
        tries = by_name[row["learner"]].first_tries()
        recent = [one for one in tries if day(one) > today - datetime.timedelta(days=LATELY)]
        days = {day(one) for one in recent}
        same("answers", (row["answers"], row["days"]), (str(len(recent)), str(len(days))))
        same("lately", data["lately"], {"answers": len(recent), "days": len(days)})
        last = max((one["time"] for one in tries), default="")
        same("last", row["last"], last)
        counts = collections.defaultdict(lambda: [0, 0])
        for one in tries:
            if week(day(one)) > week(today) - 4:
                counts[one["kind"]][0] += one["verdict"] == "right"
                counts[one["kind"]][1] += 1
        enough = {kind: of for kind, of in counts.items() if of[1] >= 10}
        least = min((of[0] / of[1] for of in enough.values()), default=None)
        if least is None:
            same("weakest", row["weakest"], "")
        else:
            right, of = int(row["weakest_right"]), int(row["weakest_of"])
            same("weakest", [right, of], enough[row["weakest"]])
            same("weakest share", right / of, least)

    lesson = ("--lesson", folder / "lesson.toml")
    rows = table(told(*lesson, "--format", "csv"))
    same("rows", len(rows), 3 * PUPILS)
    data = [json.loads(line) for line in told(*lesson, "--format", "json").splitlines()]
    text = lambda value: "" if value is None else str(value).lower() if isinstance(value, bool) else str(value)
    asked = [collections.defaultdict(list) for _ in MARKS]
    for at, row in enumerate(rows):
        pupil, number = by_name[row["learner"]], int(row["part"]) - 1
        held = pupil.held[-1] if pupil.held else None
        of = held["parts"][number] if held else None
        same("part", (at % 3, row["heading"]), (number, HEADINGS[number]))
        same("held", row["held"], stamp(held["time"]) if held else "")
        same("times", (row["times"], row["finished"]), (str(len(pupil.held)), text(bool(held and held["finished"]))))
        right, first, passed, answers = of or ("", "", None, [])
        wanted = (text(right), text(first), text(MARKS[number]), text(passed))
        same("result", (row["right"], row["of"], row["pass"], row["passed"]), wanted)
        same("data", {name: text(value) for name, value in data[at].items()}, row)
        for one in answers:
            key = (one["kind"], json.dumps(one["subject"]), one.get("position"))
            asked[number][key].append(one["verdict"] == "right")
    said = told(*lesson).split("What most got wrong:\n")[1].splitlines()
    for number, questions in enumerate(asked):
        missed = [(sum(not right for right in of), len(of)) for of in questions.values()]
        missed = sorted((m for m in missed if m[1] > 1 and 2 * m[0] >= m[1]), key=lambda m: (-m[0] / m[1], -m[0]))
        line = next(line for line in said if line.startswith(f"{number + 1}. "))
        found = [tuple(map(int, found)) for found in re.findall(r"missed by (\d+) of (\d+) pupils?", line)]
        same("missed", found, missed[:3])

    words = [word for pupil in pupils for word in ("--learner", pupil.name)]
    command = [binary, "progress", "--data", folder, *words, "--format", "csv"]
    rows = table(subprocess.run(command, check=True, capture_output=True).stdout.decode())
    wanted = [(pupil, one) for pupil in pupils for one in pupil.rows if one["type"] == "answer"]
    same("all answers", len(rows), len(wanted))
    for row, (pupil, one) in zip(rows, wanted):
        reply = "'" + one["reply"] if one["reply"].startswith("=") else one["reply"]
        same("reply", (row["learner"], row["reply"]), (pupil.name, reply))
        same("subject", json.loads(row["subject"]), one["subject"])
        same("answer", (row["time"], row["verdict"], row["millis"]), (one["time"], one["verdict"], text(one["millis"])))

    report = told("--format", "report")
    sheets = report.split('<section class="sheet">')[1:]
    same("sheets", len(sheets), PUPILS)
    for sheet in sheets:
        pupil = by_name[html.unescape(re.search("<h1[^>]*>(.*?): chess", sheet)[1])]
        tries = pupil.first_tries()
        if not tries:
            continue
        same("pictures", sheet.count("<svg"), 2)
        weeks = re.findall(r'<th scope="row">(\d+ [A-Z][a-z]+)</th>' + r'<td class="figure">(\d+)</td>' * 3, sheet)
        same("weeks", len(weeks), 8)
        for ago, found in zip(range(7, -1, -1), weeks):
            first = today - datetime.timedelta(days=7 * ago + 6)
            of_week = [one for one in tries if first <= day(one) < first + datetime.timedelta(days=7)]
            right = sum(one["verdict"] == "right" for one in of_week)
            wanted = (f"{first.day} {first:%B}", len({day(one) for one in of_week}), len(of_week), right)
            same("week", found, tuple(map(str, wanted)))
    if len(sys.argv) > 4:
        for name, words in (("report", ()), ("html", ()), ("html", lesson)):
            kind = "lesson" if words else name
            (folder / f"{kind}.html").write_text(told(*words, "--format", name))
    answers = sum(len(pupil.first_tries()) for pupil in pupils)
    held = sum(len(pupil.held) for pupil in pupils)
    print(f"{PUPILS} pupils, {answers} answers, {held} lessons held: every figure agrees")


main()
