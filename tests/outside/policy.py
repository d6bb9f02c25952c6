"""Holds the policy of every page against Python's hashlib: it allows the style that stands on the page.

Usage: policy.py BINARY FOLDER

A browser compares base64(SHA-256) of the style element's text with the policy (W3C, Content Security Policy
Level 3, "Does element match source list for type and source?"). Where they differ the page stands bare.
"""

import base64
import hashlib
import os
import pathlib
import re
import subprocess
import sys


def main():
    binary, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    place = dict(os.environ, SANSVOIR_DATA=str(folder / "pages"))
    pages = {name: folder / f"{name}.html" for name in ("sheet", "learner", "group")}

    def run(*words, said=""):
        subprocess.run([binary, *map(str, words)], env=place, input=said, text=True, check=True, stdout=subprocess.DEVNULL)

    run("sheet", "--out", pages["sheet"], "drill", "name")
    for learner in ("ana", "bo"):
        run("drill", "color", "--count", "3", "--learner", learner, said="light\n" * 3)
    run("progress", "--learner", "ana", "--format", "html", "--out", pages["learner"])
    run("progress", "all", "--format", "html", "--out", pages["group"])
    for name, page in pages.items():
        text = page.read_text(encoding="utf-8")
        (style,) = re.findall(r"<style>(.*?)</style>", text, re.DOTALL)
        digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
        if f"style-src 'sha256-{digest}'" not in text:
            sys.exit(f"{name}: the policy must name 'sha256-{digest}': write it beside the style sheet")
    print(f"{len(pages)} pages allow their own style")


main()
