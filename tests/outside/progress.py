"""Holds `sansvoir progress --format json` against Python's own json and statistics modules.

Usage: progress.py BINARY FOLDER SEED

Draws a journal of 5,000 answers at random, in the order of their times but for a tenth, and compares what the
program makes of it: counts and medians exactly, some answers without a known time, and what came again in a
drill left out.
"""

import collections
import datetime
import json
import pathlib
import random
import statistics
import subprocess
import sys

SQUARES = [file + rank for rank in "12345678" for file in "abcdefgh"]
KINDS = ("name", "color", "attacks")


def answer(dice, n):
    kind = dice.choice(KINDS)
    time = datetime.datetime(2026, 1, 1) + datetime.timedelta(minutes=13 * n)
    verdict = dice.choices(("right", "part", "wrong", "pass"), (7, 1, 2, 1))[0]
    if kind == "color" and verdict == "part":
        verdict = "wrong"
    subject = {"square": dice.choice(SQUARES)}
    row = {
        "v": 1,
        "type": "answer",
        "time": time.strftime("%Y-%m-%dT%H:%M:%SZ"),
        "session": f"s{n // 20}",
        "exercise": "replay" if kind == "attacks" else "drill",
        "kind": kind,
    }
    if kind == "name":
        subject["view"] = dice.choice(("white", "black"))
    if kind == "attacks":
        row |= {"start": "?", "moves": [], "position": "?"}
        row["hardness"] = {"plies": dice.randint(1, 60), "men": 32, "captures": 0, "moved": None, "opened": 0, "closed": 0}
    row |= {"subject": subject, "expected": {"squares": []}, "reply": dice.choice(SQUARES), "verdict": verdict}
    row |= {
        "score": float(verdict == "right"),
        "millis": int(dice.lognormvariate(8, 0.7)) + 60 if dice.random() < 0.9 else None,
    }
    if row["exercise"] == "drill":
        row["think"] = dice.choice((3000, 5000))
    row["late"] = row["millis"] is not None and row["millis"] > row.get("think", row["millis"])
    row["looks"] = 0
    if row["exercise"] == "drill" and dice.random() < 0.2:
        row["repeat"] = True
    return row


def main():
    binary, folder, seed = sys.argv[1:]
    dice = random.Random(int(seed))
    rows = [answer(dice, n) for n in range(5000)]
    rows = rows[500:] + rows[:500]
    data = pathlib.Path(folder) / "progress"
    data.mkdir()
    text = "".join(json.dumps(row, separators=(",", ":")) + "\n" for row in rows)
    (data / "learner.jsonl").write_text(text)
    command = [binary, "progress", "--data", str(data), "--format", "json"]
    found = json.loads(subprocess.run(command, capture_output=True, check=True).stdout)
    rows = [row for row in rows if "repeat" not in row]
    wrong = []

    def same(what, ours, theirs):
        if ours != theirs:
            wrong.append(f"{what}: ours {ours}, Python's {theirs}")

    def close(what, ours, theirs):
        if abs(ours - theirs) > 1e-9:
            wrong.append(f"{what}: ours {ours}, Python's {theirs}")

    same("answers", found["answers"], len(rows))
    same("first", found["first"], min(row["time"] for row in rows))
    same("last", found["last"], max(row["time"] for row in rows))
    by_kind = {kind["kind"]: kind["all"] for kind in found["kinds"]}
    for kind in KINDS:
        of_kind = [row for row in rows if row["kind"] == kind]
        counts = collections.Counter(row["verdict"] for row in of_kind)
        ours = by_kind[kind]
        same(kind, [ours[name] for name in ("right", "part", "wrong", "passed")],
             [counts[name] for name in ("right", "part", "wrong", "pass")])
        same(f"{kind}, late", ours["late"], sum(row["late"] for row in of_kind))
        times = [row["millis"] for row in of_kind if row["verdict"] == "right" and row["millis"] is not None]
        same(f"{kind}, median", ours["median"], int(statistics.median(times)))
        close(f"{kind}, share", ours["share"], statistics.fmean(row["verdict"] == "right" for row in of_kind))
    for view in ("white", "black"):
        for square in SQUARES:
            there = [
                row for row in rows
                if row["kind"] == "name" and row["subject"] == {"square": square, "view": view}
            ]
            ours = found["squares"][view].get(square)
            same(f"{square} from {view}", ours and ours["right"],
                 sum(row["verdict"] == "right" for row in there) if there else None)
    recall = collections.defaultdict(list)
    for row in rows:
        if row["kind"] == "attacks":
            recall[row["hardness"]["plies"]].append(row["verdict"] == "right")
    same("recall", [[one["plies"], one["answers"], one["right"]] for one in found["recall"]],
         [[plies, len(right), sum(right)] for plies, right in sorted(recall.items())])
    # The last thirty by time, at the step of square colors, which counts as many.
    colors = sorted((row for row in rows if row["kind"] == "color"), key=lambda row: row["time"])[-30:]
    step = next(step for step in found["steps"] if step["step"] == "colors")
    if step["right"] is not None:
        same("the last thirty", [step["right"], step["of"]],
             [sum(row["verdict"] == "right" for row in colors), 30])
    for line in wrong:
        print("DIFFERENCE:", line)
    print(f"progress over {len(rows)} answers: {len(wrong)} differences from Python's statistics")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
