"""Replies by mouth, from the sound to the answer in the journal: flite speaks, pocketsphinx 5.1.1 with its own English
model hears with our grammars, by the script of the handbook's page by-ear, and the program grades.

  hearing.py PROGRAM PAGE [REPLIES [SEED]]    the program, src/voice/handbook/by-ear.md, how many replies (300)

Each reply is spoken by one of three voices at one of two speeds, in turn, so that every form is by each of them.

Needs flite, and from PyPI pocketsphinx, numpy and pyjsgf, which reads the grammars independently of us. What
is measured is printed form by form; the bounds below say what must hold.
"""

import importlib.util
import io
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import threading
import time
import wave
from pathlib import Path

import jsgf
import numpy

PROGRAM, PAGE = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
REPLIES = int(sys.argv[3]) if len(sys.argv) > 3 else 300
SEED = int(sys.argv[4]) if len(sys.argv) > 4 else 2026
VOICES = ["slt", "rms", "awb"]
SPEEDS = [1.0, 0.8]
RATE = 16000
LOUD = 3276.8  # -20 dBFS

# The least share of replies understood, and the greatest of what is no reply and is said back all the same.
# Nothing of the latter is graded: that takes a yes.
QUIET, NOISY, SENTENCES, NOISES = 0.94, 0.85, 0.02, 0.20

folder = Path(tempfile.mkdtemp())
dice = random.Random(SEED)
noise = numpy.random.default_rng(SEED)


def run(*words):
    return subprocess.run([PROGRAM, *words], check=True, capture_output=True, text=True).stdout


# The script of the handbook, as it stands there.
script = folder / "hears.py"
script.write_text(re.search(r"```python\n(.*?)```", PAGE.read_text(), re.S).group(1))
words = folder / "words"
words.write_text(run("setup", "words"))
sys.argv = [str(script), str(words)]
spec = importlib.util.spec_from_file_location("hears", script)
ears = importlib.util.module_from_spec(spec)
spec.loader.exec_module(ears)

FILES = "anna bella cesar david eva felix gustav hector".split()
NUMBERS = "one two three four five six seven eight".split()
PIECES = "king queen rook bishop knight".split()


def square():
    return f"{dice.choice(FILES)} {dice.choice(NUMBERS)}"


def squares(most):
    return " ".join(square() for _ in range(dice.randint(1, most)))


def move():
    return dice.choice(
        [
            lambda: f"{dice.choice(PIECES)} {square()}",
            lambda: f"{dice.choice(PIECES)} takes {square()}",
            lambda: f"{dice.choice(['rook', 'knight'])} {dice.choice(FILES)} {square()}",
            square,
            lambda: f"{dice.choice(FILES)} takes {square()}",
            lambda: f"{square()} to {square()}",
            lambda: f"{dice.choice(FILES)} eight queen",
            lambda: f"castles {dice.choice(['short', 'long'])}",
        ]
    )()


def number():
    return dice.choice("zero one two three four five six seven eight nine ten eleven twelve".split())


def taken():
    return " ".join(
        dice.choice([lambda: dice.choice(["queen", "rook", "pawn"]), lambda: f"{dice.choice(NUMBERS[1:4])} pawns"])()
        for _ in range(dice.randint(1, 2))
    )


SAID = {
    "square": square,
    "square-or-gone": lambda: dice.choice([square, square, lambda: "gone"])(),
    "squares": lambda: squares(4),
    "route": lambda: squares(3),
    "move": move,
    "move-or-none": lambda: dice.choice([move, move, lambda: "none"])(),
    "moves": lambda: " and ".join(move() for _ in range(dice.randint(1, 2))),
    "piece": lambda: dice.choice(["white ", "black ", ""]) + dice.choice(PIECES + ["pawn"]),
    "taken": taken,
    "placement": lambda: f"{dice.choice(['white', 'black'])} king {square()} pawn {square()}",
    "points": lambda: dice.choice(["minus ", "plus ", ""]) + number(),
    "distance": number,
    "place": lambda: f"{dice.choice(NUMBERS)} {dice.choice(NUMBERS)}",
    "legal": lambda: dice.choice(["legal", "illegal", "yes", "no"]),
    "color": lambda: dice.choice(["light", "dark"]),
    "line": lambda: dice.choice(["file", "rank", "diagonal", "none"]),
    "wings": lambda: dice.choice(["short", "long", "both", "none"]),
    "prompt": lambda: dice.choice("again question look pass back why help stop yes no wrong next".split() + ["go on"]),
}
SENTENCES_SAID = """please close the window it is cold in here. I would like a cup of tea with milk. what time does the train
leave tomorrow. my brother lives in a small town near the sea. did you see the news last night. turn the music
down a little. we should go shopping this afternoon. that is a very good idea. where did I put my glasses.
come here for a moment. the weather will be fine on Sunday. I am going to call you later. she has bought a new
bicycle. there is somebody at the door. how much did you pay for it. the dog wants to go out. I have not
finished my homework. dinner will be ready in ten minutes. who is coming with us. let us meet at the station.
he never answers the telephone. the children are playing in the garden. can you help me carry this. I forgot
the name of the street. it has been raining all day. give me the newspaper please. they moved to another city.
do you remember the old teacher. the shop is closed on Mondays. we had soup and bread for lunch. my shoes are
still wet. the bus was late again. I think I will go to bed now. what a beautiful picture. somebody has taken
my umbrella. the water is too hot. her sister works at the hospital. we are almost there. this coffee tastes
strange. put the keys on the table. I will be back in an hour. the lamp in the kitchen is broken. have you
ever been to Norway. nobody knows what happened. the film was much too long. she plays the piano every
evening. open the box carefully. our neighbors have a red car. it does not matter at all. see you next week""".replace("\n", " ").split(". ")


def spoken(text, voice, speed=1.0):
    """Lets flite speak a text, at the same loudness: that of its 20 ms that are no more than 30 dB below the loudest."""
    path = folder / "one.wav"
    stretch = f"duration_stretch={speed}"
    subprocess.run(["flite", "-voice", voice, "--setf", stretch, "-t", text, "-o", path], check=True)
    with wave.open(str(path)) as sound:
        assert sound.getframerate() == RATE
        samples = numpy.frombuffer(sound.readframes(sound.getnframes()), dtype=numpy.int16).astype(float)
    powers = numpy.mean(samples[: len(samples) // 320 * 320].reshape(-1, 320) ** 2, axis=1)
    return samples * (LOUD / numpy.sqrt(numpy.mean(powers[powers > powers.max() / 1000])))


def pink(length):
    """Pink noise as loud as speech: its power falls with the frequency."""
    spectrum = numpy.fft.rfft(noise.standard_normal(length))
    spectrum[1:] /= numpy.sqrt(numpy.arange(1, len(spectrum)))
    spectrum[0] = 0
    samples = numpy.fft.irfft(spectrum, length)
    return samples * (LOUD / numpy.sqrt(numpy.mean(samples**2)))


def sound(samples, decibels):
    """Speech between two pauses of a second, so many decibels above pink noise."""
    pause = numpy.zeros(RATE)
    samples = numpy.concatenate([pause, samples, pause])
    mixed = samples + pink(len(samples)) * 10 ** (-decibels / 20)
    return numpy.clip(mixed, -32768, 32767).astype(numpy.int16).tobytes()


grammars = {}
for form in SAID:
    path = folder / f"{form}.jsgf"
    path.write_text(run("setup", "grammar", form))
    grammars[form] = path


def heard(form, samples):
    """What the program would take of a sound: utterance by utterance, without those that are no reply."""
    ears.wanted[0] = ["listen", form, str(grammars[form])]
    lines = [ears.hears(utterance) for utterance in ears.utterances(io.BytesIO(samples))]
    return " ".join(line for line in lines if not {"garbage", "neversaid"} & set(line.split()))


# The reader of replies passes these over where they stand in the grammar, and "captures" means "takes".
SAYS_NOTHING = "a and becomes check checkmate from mate moves on promotes then to".split()


def meaning(text):
    words = text.replace("captures", "takes").split()
    return [word for word in words if word not in SAYS_NOTHING]


failures = []


def must(holds, what):
    print(("" if holds else "NOT MET: ") + what)
    if not holds:
        failures.append(what)


def grammars_are_jsgf():
    """An independent reader takes every grammar, and most of what is said here; it does not try all ways of a move."""
    matched = []
    for form, say in SAID.items():
        grammar = jsgf.parse_grammar_string(grammars[form].read_text())
        said = [say() for _ in range(5)]
        found = all(grammar.find_matching_rules(text) for text in said)
        assert found or form.startswith("move"), f"{form}: {said}"
        matched += [form] * found
    print(f"{len(SAID)} grammars are JSGF for pyjsgf, and have all that is said in {len(matched)} of them")


def replies():
    forms = list(SAID)
    all_said = []
    for at in range(REPLIES):
        form = forms[at % len(forms)]
        turn = at // len(forms)
        voice, speed = VOICES[turn % 3], SPEEDS[turn // 3 % 2]
        text = SAID[form]()
        all_said.append((form, text, spoken(text, voice, speed)))
    for name, decibels, least in [("quiet", 50, QUIET), ("pink noise at 20 dB", 20, NOISY)]:
        # One who begins says something first, and the recognizer gets used to the room.
        for form, _, samples in all_said[:5]:
            heard(form, sound(samples, decibels))
        right, counted, wrong = {}, {}, []
        for form, text, samples in all_said:
            found = heard(form, sound(samples, decibels))
            is_right = meaning(found) == meaning(text)
            counted[form] = counted.get(form, 0) + 1
            right[form] = right.get(form, 0) + is_right
            if not is_right:
                wrong.append(f"{text} > {found or '(no reply)'}")
        print("; ".join(f"{form} {right[form]}/{counted[form]}" for form in counted))
        print("  for example: " + "; ".join(wrong[:6]))
        share = sum(right.values()) / len(all_said)
        unheard = sum(line.endswith("(no reply)") for line in wrong)
        must(share >= least, f"{name}: {sum(right.values())} of {len(all_said)} understood ({share:.1%}; {unheard} "
             f"passed over as no reply, {len(wrong) - unheard} said back wrong; at least {least:.0%} wanted)")


def burst(length, begins, ends):
    """Noise that swells and falls, as a cough does."""
    shape = numpy.interp(numpy.arange(length), [0, begins, length], [0, 1, ends])
    return noise.standard_normal(length) * LOUD * 2 * shape


def no_replies():
    forms = list(SAID)
    said = [(forms[at % len(forms)], spoken(text, VOICES[at % 3])) for at, text in enumerate(SENTENCES_SAID)]
    coughs = [(form, burst(RATE * length // 10, RATE // 50, 0)) for form in forms for length in (2, 3, 4)]
    keys = []
    for form in forms:
        samples = numpy.zeros(RATE)
        for at in dice.sample(range(0, RATE - 400, 400), 5):
            samples[at : at + 160] += burst(160, 8, 0)
        keys.append((form, samples))
    silence = [(form, numpy.zeros(2 * RATE)) for form in SAID]
    for name, sounds, most in [
        ("sentences that are no reply", said, SENTENCES),
        ("silence", silence, 0.0),
        ("coughs and keys", coughs + keys, NOISES),
    ]:
        back = [text for form, samples in sounds if (text := heard(form, sound(samples, 40)))]
        must(len(back) <= most * len(sounds), f"{name}: {len(back)} of {len(sounds)} said back (at most {most:.0%} "
             f"wanted): {'; '.join(back[:5])}")


EAR = """
import sys, threading
sys.path.insert(0, {folder!r})
import hears
threading.Thread(target=hears.orders, daemon=True).start()
for sound in hears.utterances(open({sound!r}, "rb")):
    print(hears.hears(sound), flush=True)
"""

# What is said, and the same as it is typed.
TALK = {
    "color": ("light", "light"),
    "distance": ("three", "3"),
    "name": ("eva four", "e4"),
    "aligned": ("diagonal", "diagonal"),
}
DRILL = ["drill", ",".join(TALK), "--count", "8", "--seed", "5", "--think", "1000", "--plain"]


def kind_of(question):
    if "light or dark" in question:
        return "color"
    if "line" in question:
        return "aligned"
    return "distance" if "few moves" in question else "name"


def journal(data):
    lines = map(json.loads, (data / "learner.jsonl").read_text().splitlines())
    answers = [line for line in lines if line["type"] == "answer"]
    was_heard = [answer.pop("heard", False) for answer in answers]
    for answer in answers:
        for name in ("time", "session", "millis", "taken_back"):
            answer.pop(name, None)
    return answers, was_heard


def whole_session():
    """A script speaks, the recognizer hears, the program answers aloud into a log."""
    microphone, log, ear = folder / "microphone", folder / "log", folder / "ear.py"
    os.mkfifo(microphone)
    ear.write_text(EAR.format(folder=str(folder), sound=str(microphone)))
    config = folder / "config.toml"
    config.write_text(
        f"hearing = {json.dumps([sys.executable, str(ear), 'WORDS'])}\n"
        f"speech = {json.dumps(['sh', '-c', f'cat >> {log}'])}\n"
    )
    environment = {**os.environ, "SANSVOIR_CONFIG": str(config)}
    by_mouth, typed = folder / "by-mouth", folder / "typed"
    program = subprocess.Popen(
        [PROGRAM, *DRILL, "--hear", "--speak", "--data", by_mouth],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=environment,
    )
    said = []
    reader = threading.Thread(target=lambda: [said.append(line) for line in program.stdout], daemon=True)
    reader.start()
    air = open(microphone, "wb", buffering=0)
    voices = {}

    def utter(text, voice=VOICES[0]):
        time.sleep(1.2)
        samples = voices.setdefault((text, voice), spoken(text, voice))
        air.write(sound(samples, 45))

    def awaits(found, at, seconds=8):
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            for line in said[at:]:
                if found in line:
                    return line
            time.sleep(0.02)
        return None

    written, misheard, at = [], 0, 0
    for number in range(1, 9):
        question = awaits(f"Question {number} of", at, 30)
        assert question, said
        spoken_text, typed_text = TALK[kind_of(question)]
        written.append(typed_text)
        # Where something else was understood it is taken back; then, and where nothing was, another voice says it.
        for tried in range(6):
            at = len(said)
            utter(spoken_text, VOICES[tried % 3])
            back = awaits("?", at)
            if back and back.strip() == f"{typed_text}?":
                break
            misheard += 1
            if back:
                at = len(said)
                utter("no")
                awaits("Taken back", at)
        at = len(said)
        for tried in range(6):
            utter("yes", VOICES[tried % 3])
            if awaits("ight", at):
                break
    program.stdin.close()
    program.wait(timeout=60)
    replies_typed = "\n".join(written) + "\n"
    subprocess.run([PROGRAM, *DRILL, "--data", typed], input=replies_typed, text=True, check=True, capture_output=True)
    (heard_answers, was_heard), (typed_answers, _) = journal(by_mouth), journal(typed)
    must(heard_answers == typed_answers and all(was_heard), f"a whole session by mouth: {len(heard_answers)} answers, "
         f"the journal of the same session typed; {misheard} utterances misheard")
    aloud = log.read_text().splitlines()
    must(any(line.startswith("Question 8 of 8") for line in aloud), f"{len(aloud)} sentences were spoken into the log")


begun = time.monotonic()
for check in (grammars_are_jsgf, replies, no_replies, whole_session):
    check()
    print(f"[{time.monotonic() - begun:.0f} s]", flush=True)
sys.exit(1 if failures else 0)
