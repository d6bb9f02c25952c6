"""Holds every package that is compiled in against the licenses that go together with this one's, and every direct
dependency against its line in DEVELOPERS.md. It needs no network; what is known of weak places in packages does, and is
not looked up."""

import json
import re
import subprocess

# All of them may be part of a work under the GNU General Public License, version 3 or later.
FIT = {
    "0BSD", "Apache-2.0", "Apache-2.0 WITH LLVM-exception", "BSD-2-Clause", "BSD-3-Clause", "BSL-1.0", "CC0-1.0",
    "GPL-3.0", "GPL-3.0+", "GPL-3.0-or-later", "ISC", "MIT", "MIT-0", "MPL-2.0", "Unicode-3.0", "Unlicense", "Zlib", "bzip2-1.0.6",
}


def fits(expression):
    """Reads an SPDX expression, in which OR leaves a choice and AND none."""
    tokens = re.split(r"([()]|\bAND\b|\bOR\b|/)", expression)
    words = {"(": "(", ")": ")", "AND": "and", "OR": "or", "/": "or", "": ""}
    tokens = (token.strip() for token in tokens)
    return eval(" ".join(words.get(token, str(token in FIT)) for token in tokens))


command = ["cargo", "metadata", "--format-version", "1", "--locked", "--offline"]
metadata = json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)
packages = {package["id"]: package for package in metadata["packages"]}
nodes = {node["id"]: node for node in metadata["resolve"]["nodes"]}
root = metadata["resolve"]["root"]
linked, open_ones = set(), [root]
while open_ones:
    for dependency in nodes[open_ones.pop()]["deps"]:
        is_linked = any(kind["kind"] != "dev" for kind in dependency["dep_kinds"])
        if is_linked and dependency["pkg"] not in linked:
            linked.add(dependency["pkg"])
            open_ones.append(dependency["pkg"])
unfit = [f"{one['name']}: {one['license']}" for one in packages.values() if not fits(one["license"] or "none")]
assert not unfit, unfit
direct = {one["name"] for one in packages[root]["dependencies"]}
with open("DEVELOPERS.md") as guide:
    told = guide.read()
untold = sorted(name for name in direct if not re.search(rf"\b{re.escape(name)}\b", told))
assert not untold, f"not defended in DEVELOPERS.md: {untold}"
own = [one for one in packages[root]["dependencies"] if one["kind"] is None]
print(f"{len(own)} direct dependencies, {len(linked)} packages for all systems; every license fits")
