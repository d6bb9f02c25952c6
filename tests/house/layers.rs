//! The house has floors: a module uses its own floor and lower ones, and never goes round in a circle.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Each floor's modules; a new module is entered here first.
const FLOORS: [&[&str]; 8] = [
    &["random", "board", "game"],
    &["rules", "pgn", "reply", "question"],
    &["exercise"],
    &["learner"],
    &["voice"],
    &["report"],
    &["terminal"],
    &["cli"],
];

fn floor(module: &str) -> usize {
    FLOORS
        .iter()
        .position(|modules| modules.contains(&module))
        .unwrap_or_else(|| panic!("the module {module} stands on no floor"))
}

pub(crate) fn rust_files(folder: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            rust_files(&path, files);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            files.push(path);
        }
    }
}

/// The modules that each module names by `crate::`, comments left out.
fn uses() -> BTreeMap<String, BTreeSet<String>> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    rust_files(&src, &mut files);
    let mut uses: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for file in files {
        let first = file
            .strip_prefix(&src)
            .unwrap()
            .components()
            .next()
            .unwrap();
        let module = first
            .as_os_str()
            .to_str()
            .unwrap()
            .trim_end_matches(".rs")
            .to_owned();
        if matches!(module.as_str(), "lib" | "main") {
            continue;
        }
        let text = fs::read_to_string(&file).unwrap();
        let code = text
            .lines()
            .map(|line| line.split("//").next().unwrap_or(""));
        let named = uses.entry(module).or_default();
        for line in code {
            for after in line.split("crate::").skip(1) {
                let end = after.find(|c: char| !c.is_alphanumeric() && c != '_');
                named.insert(after[..end.unwrap_or(after.len())].to_owned());
            }
        }
    }
    uses
}

#[test]
fn no_module_uses_a_higher_floor() {
    let uses = uses();
    assert!(
        uses["question"].contains("game"),
        "the imports are found at all"
    );
    for (module, used) in &uses {
        for other in used {
            assert!(
                floor(other) <= floor(module),
                "{module} (floor {}) uses {other} (floor {})",
                floor(module),
                floor(other)
            );
        }
    }
}

#[test]
fn no_module_goes_round_in_a_circle() {
    let uses = uses();
    let mut below: BTreeSet<&str> = BTreeSet::new();
    let mut left: Vec<&String> = uses.keys().collect();
    while !left.is_empty() {
        let rests_on_placed = |module: &&String| {
            uses[*module]
                .iter()
                .all(|other| other == *module || below.contains(other.as_str()))
        };
        let (placed, others): (Vec<&String>, Vec<&String>) =
            left.iter().copied().partition(rests_on_placed);
        assert!(
            !placed.is_empty(),
            "these modules use each other in a circle: {others:?}"
        );
        below.extend(placed.iter().map(|module| module.as_str()));
        left = others;
    }
}
