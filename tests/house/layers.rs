//! The house has layers: a module uses its own layer and lower ones, and neither modules nor files use each
//! other in a circle.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Each layer's modules; a new module is entered here first.
const LAYERS: [&[&str]; 9] = [
    &["random", "board", "game"],
    &["rules"],
    &["pgn", "reply"],
    &["question"],
    &["exercise"],
    &["learner"],
    &["voice"],
    &["report", "terminal"],
    &["cli"],
];

fn layer(module: &str) -> usize {
    LAYERS
        .iter()
        .position(|modules| modules.contains(&module))
        .unwrap_or_else(|| panic!("the module {module} stands in no layer"))
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

/// The names on the way to a module or an item, from the root of the crate on.
type Names = Vec<String>;

/// The files of the library by their module, each with the items that it names.
struct House {
    files: BTreeMap<Names, Vec<Named>>,
}

/// An item that a file names.
struct Named {
    item: Names,
    /// Whether it is handed on by `pub use`.
    is_handed_on: bool,
}

impl House {
    fn read() -> House {
        let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        let mut paths = Vec::new();
        rust_files(&src, &mut paths);
        let files = paths.iter().filter_map(|path| {
            let mut module: Names = path
                .strip_prefix(&src)
                .unwrap()
                .with_extension("")
                .iter()
                .map(|name| name.to_str().unwrap().to_owned())
                .collect();
            if module.last().is_some_and(|name| name == "mod") {
                module.pop();
            }
            let is_root = matches!(module[0].as_str(), "lib" | "main");
            if is_root || module.iter().any(|name| name == "tests") {
                return None;
            }
            let text = fs::read_to_string(path).unwrap();
            Some((module.clone(), named(&text, &module)))
        });
        House {
            files: files.collect(),
        }
    }

    /// The file that an item stands in, through all that only hand it on.
    fn home(&self, item: &[String]) -> Option<&Names> {
        let module = (1..=item.len())
            .rev()
            .find_map(|end| self.files.get_key_value(&item[..end]))?;
        let (module, named) = module;
        let from_elsewhere = named.iter().find(|named| {
            named.is_handed_on
                && named.item.last() == item.get(module.len())
                && !item.starts_with(&named.item)
        });
        match from_elsewhere {
            Some(named) => self.home(&named.item).or(Some(module)),
            None => Some(module),
        }
    }

    /// The files that each file uses. What a module only hands on of its own files is no use of them.
    fn uses(&self) -> BTreeMap<Names, BTreeSet<Names>> {
        let used = |(module, named): (&Names, &Vec<Named>)| {
            let used = named
                .iter()
                .filter(|named| !(named.is_handed_on && named.item.starts_with(module)))
                .filter_map(|named| self.home(&named.item))
                .filter(|home| *home != module)
                .cloned();
            (module.clone(), used.collect())
        };
        self.files.iter().map(used).collect()
    }
}

/// The items of the crate that a file's text names: in imports, and in paths within its code.
fn named(text: &str, module: &Names) -> Vec<Named> {
    let text = text.split("\n#[cfg(test)]\nmod tests {").next().unwrap();
    let code: Vec<&str> = text
        .lines()
        .map(|line| line.split("//").next().unwrap_or(""))
        .collect();
    let tokens = tokens(&code);
    let children: BTreeSet<&str> = tokens
        .windows(2)
        .filter(|pair| pair[0] == "mod")
        .map(|pair| pair[1])
        .collect();
    let mut found = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        let begins_inside = at > 0 && tokens[at - 1] == "::";
        let is_path = tokens.get(at + 1) == Some(&"::");
        let base = match tokens[at] {
            "crate" => Some(Vec::new()),
            "super" => Some(module[..module.len() - 1].to_vec()),
            "self" => Some(module.clone()),
            child if children.contains(child) => Some([&module[..], &[child.to_owned()]].concat()),
            _ => None,
        };
        let (Some(base), true, false) = (base, is_path, begins_inside) else {
            at += 1;
            continue;
        };
        let is_handed_on = at > 0
            && tokens[at - 1] == "use"
            && tokens[..at - 1]
                .iter()
                .rev()
                .take_while(|token| !matches!(**token, ";" | "}"))
                .any(|token| *token == "pub");
        let mut items = Vec::new();
        at = branches(&tokens, at + 2, &base, &mut items);
        found.extend(items.into_iter().map(|item| Named { item, is_handed_on }));
    }
    found
}

/// Words, `::` and single characters.
fn tokens<'a>(lines: &[&'a str]) -> Vec<&'a str> {
    let mut tokens = Vec::new();
    for line in lines {
        let mut rest = line.trim_start();
        while let Some(first) = rest.chars().next() {
            let is_word = |char: char| char.is_alphanumeric() || char == '_';
            let length = if is_word(first) {
                rest.find(|char| !is_word(char)).unwrap_or(rest.len())
            } else if rest.starts_with("::") {
                2
            } else {
                first.len_utf8()
            };
            let (token, behind) = rest.split_at(length);
            tokens.push(token);
            rest = behind.trim_start();
        }
    }
    tokens
}

/// Follows a path behind its first `::`, into each branch of an import; returns where it ends.
fn branches(tokens: &[&str], mut at: usize, base: &[String], items: &mut Vec<Names>) -> usize {
    let mut path = base.to_vec();
    loop {
        match tokens.get(at) {
            Some(&"{") => {
                at += 1;
                while tokens.get(at).is_some_and(|token| *token != "}") {
                    at = branches(tokens, at, &path, items);
                    if tokens.get(at) == Some(&"as") {
                        at += 2;
                    }
                    if tokens.get(at) == Some(&",") {
                        at += 1;
                    }
                }
                return at + 1;
            }
            Some(&"super") => {
                path.pop();
            }
            Some(&"self") => {}
            Some(name) => path.push((*name).to_owned()),
            None => return at,
        }
        at += 1;
        if tokens.get(at) != Some(&"::") {
            items.push(path);
            return at;
        }
        at += 1;
    }
}

/// All that uses itself, by way of others.
fn circle<T: Ord + Clone>(uses: &BTreeMap<T, BTreeSet<T>>) -> Vec<T> {
    let reached = |from: &T| {
        let mut reached = BTreeSet::new();
        let mut open: Vec<&T> = uses[from].iter().collect();
        while let Some(next) = open.pop() {
            if reached.insert(next) {
                open.extend(&uses[next]);
            }
        }
        reached
    };
    let around = uses.keys().filter(|user| reached(user).contains(user));
    around.cloned().collect()
}

/// The modules that each module of the crate uses.
fn modules() -> BTreeMap<String, BTreeSet<String>> {
    let mut modules: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (file, used) in House::read().uses() {
        let others = used.into_iter().map(|other| other[0].clone());
        let others = others.filter(|other| *other != file[0]);
        modules.entry(file[0].clone()).or_default().extend(others);
    }
    modules
}

#[test]
fn no_module_uses_a_higher_layer() {
    let modules = modules();
    assert!(
        modules["question"].contains("game"),
        "the imports are found at all"
    );
    for (module, used) in &modules {
        for other in used {
            assert!(
                layer(other) <= layer(module),
                "{module} (layer {}) uses {other} (layer {})",
                layer(module),
                layer(other)
            );
        }
    }
}

#[test]
fn no_module_and_no_file_goes_round_in_a_circle() {
    let none: [String; 0] = [];
    assert_eq!(
        circle(&modules()),
        none,
        "modules use each other in a circle"
    );
    let files = circle(&House::read().uses());
    let files = files.into_iter().map(|file| file.join("/"));
    assert_eq!(
        files.collect::<Vec<_>>(),
        none,
        "files use each other in a circle"
    );
}

#[test]
fn paths_are_found_in_imports_and_in_code() {
    let module = vec!["one".to_owned(), "two".to_owned()];
    let text = "mod child;\npub use child::Kept;\nuse crate::{a::B, c::{self, D as E}};\n\
                fn f() -> super::G { child::deep::g(crate::h::I::new()) } // crate::not\n";
    let found: Vec<(String, bool)> = named(text, &module)
        .into_iter()
        .map(|named| (named.item.join("::"), named.is_handed_on))
        .collect();
    let expected = [
        ("one::two::child::Kept", true),
        ("a::B", false),
        ("c", false),
        ("c::D", false),
        ("one::G", false),
        ("one::two::child::deep::g", false),
        ("h::I::new", false),
    ];
    assert_eq!(
        found,
        expected.map(|(item, handed)| (item.to_owned(), handed))
    );
    let uses = |pairs: &[(char, &str)]| {
        let used = pairs
            .iter()
            .map(|(user, used)| (*user, used.chars().collect()));
        circle(&used.collect())
    };
    assert!(uses(&[('a', "b"), ('b', "c"), ('c', "")]).is_empty());
    assert_eq!(uses(&[('a', "b"), ('b', "a"), ('c', "")]), ['a', 'b']);
}
