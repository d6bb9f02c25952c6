"""Builds a Debian package, target/debian/*.deb, from what Cargo.toml says under [package.metadata.deb].

`cargo deb` reads the same rows; here dpkg alone is needed, and no other tool has to be built first. The manual pages and completions are those that the program itself writes.
"""

import glob
import gzip
import json
import os
import re
import shutil
import subprocess

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
MADE = "target/debian/made"  # what the program writes for the package
TREE = "target/debian/tree"  # the package's files as they will lie


def said_by(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def write_what_comes_along(program):
    shutil.rmtree(MADE, ignore_errors=True)
    subprocess.run([program, "setup", "manual", MADE], check=True, stdout=subprocess.DEVNULL)
    for shell in ["bash", "zsh", "fish"]:
        with open(f"{MADE}/{shell}", "w") as script:
            script.write(said_by(program, "setup", "completions", shell))
    for page in glob.glob(f"{MADE}/*.[17]"):
        with open(page, "rb") as text, gzip.GzipFile(page + ".gz", "wb", 9, mtime=0) as packed:
            shutil.copyfileobj(text, packed)


def lay(assets):
    shutil.rmtree(TREE, ignore_errors=True)
    for source, to, mode in assets:
        found = sorted(glob.glob(source))
        assert found, f"nothing is {source}"
        for file in found:
            path = os.path.join(TREE, to, os.path.basename(file) if to.endswith("/") else "")
            path = path.rstrip("/")
            os.makedirs(os.path.dirname(path), exist_ok=True)
            shutil.copyfile(file, path)
            os.chmod(path, int(mode, 8))


def newest_library(program):
    """The newest version of the C library that any function is asked for by."""
    with open(program, "rb") as file:
        versions = re.findall(rb"GLIBC_(\d+)\.(\d+)", file.read())
    return "%d.%d" % max((int(major), int(minor)) for major, minor in versions)


def main():
    os.chdir(ROOT)
    metadata = json.loads(said_by("cargo", "metadata", "--no-deps", "--format-version", "1"))
    package = metadata["packages"][0]
    deb = package["metadata"]["deb"]
    subprocess.run(["cargo", "build", "--release", "--locked", "--quiet"], check=True)
    program = "target/release/sansvoir"
    write_what_comes_along(program)
    lay(deb["assets"])
    size = sum(os.path.getsize(os.path.join(at, name)) for at, _, names in os.walk(TREE) for name in names)
    architecture = said_by("dpkg", "--print-architecture").strip()
    version = f"{package['version']}-1"
    description = deb["extended-description"].strip().split("\n")
    os.makedirs(f"{TREE}/DEBIAN")
    with open(f"{TREE}/DEBIAN/control", "w") as control:
        control.write(
            f"Package: {package['name']}\nVersion: {version}\nArchitecture: {architecture}\n"
            f"Maintainer: {deb['maintainer']}\nSection: {deb['section']}\nPriority: {deb['priority']}\n"
            f"Depends: libc6 (>= {newest_library(program)}), libgcc-s1\nInstalled-Size: {size // 1024 + 1}\n"
            f"Description: {package['description']}\n" + "".join(f" {line}\n" for line in description)
        )
    target = f"target/debian/{package['name']}_{version}_{architecture}.deb"
    subprocess.run(["dpkg-deb", "--build", "--root-owner-group", TREE, target], check=True, stdout=subprocess.DEVNULL)
    print(target)


main()
