"""Draws packaging/demo.svg: a replay as it really runs in a terminal, screen by screen.

Usage: demo.py PROGRAM. It needs tmux, in which the program runs with a journal of nobody's.
"""

import html
import os
import subprocess
import sys
import tempfile
import time

COLUMNS, ROWS = 84, 20
FONT, LINE, CHARACTER = 15, 20, 9.03  # of the drawing, in pixels
SHOWN = 2.2  # how long a screen stands, in seconds
COMMAND = "replay games-demo/club-evening.pgn --seed 47"
# What is typed, in its order: the Enters that read on and the replies.
TYPED = ["", "", "", "", "", "gone", "c3 d2 f2 g3 c5 g5", "", "", "no", "", ""]


def tmux(*words):
    command = ["tmux", "-L", f"demo{os.getpid()}", *words]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def screen():
    """What stands there, once nothing changes any more."""
    before = None
    while True:
        time.sleep(0.4)
        now = tmux("capture-pane", "-p")
        if now == before and now.strip():
            return now.rstrip("\n").split("\n")
        before = now


def screens(program):
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        run = f"SANSVOIR_DATA={folder} SANSVOIR_CONFIG= {program} {COMMAND}"
        tmux("-f", "/dev/null", "new-session", "-d", "-x", str(COLUMNS), "-y", str(ROWS), run)
        yield [f"$ sansvoir {COMMAND}"]
        yield screen()
        for reply in TYPED:
            if reply:
                tmux("send-keys", "-l", reply)
                yield screen()
            tmux("send-keys", "Enter")
            yield screen()
        tmux("kill-server")


def drawn(screens):
    width, height = COLUMNS * CHARACTER + 30, ROWS * LINE + 30
    whole = len(screens) * SHOWN
    share = 100 / len(screens)
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {height}" width="{width:.0f}" '
        f'height="{height}" role="img" aria-label="A replay in a terminal">\n<style>\n'
        f"text {{ font: {FONT}px monospace; white-space: pre; fill: #e4e4e4 }}\n"
        f"g {{ opacity: 0; animation: shown {whole:.1f}s step-end infinite }}\n"
        f"@keyframes shown {{ 0% {{ opacity: 1 }} {share:.3f}% {{ opacity: 0 }} 100% {{ opacity: 0 }} }}\n"
        f'</style>\n<rect width="100%" height="100%" rx="8" fill="#1c1f24"/>\n'
    )
    for number, lines in enumerate(screens):
        yield f'<g style="animation-delay: {number * SHOWN:.1f}s">\n'
        for row, line in enumerate(lines):
            if line.strip():
                y = 15 + FONT + row * LINE
                yield f'<text x="15" y="{y}">{html.escape(line.rstrip())}</text>\n'
        yield "</g>\n"
    yield "</svg>\n"


here = os.path.dirname(os.path.abspath(__file__))
program = os.path.abspath(sys.argv[1])
os.chdir(os.path.dirname(here))
with open(os.path.join(here, "demo.svg"), "w") as svg:
    svg.writelines(drawn(list(screens(program))))
