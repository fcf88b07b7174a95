//! The house itself: no file needs another that needs it, the command line comes in by few doors, and a subject stands
//! in files of its own.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

fn src() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// Every source file by its module's path, with its code before its own tests, no comments.
fn modules() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let mut folders = vec![src()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).expect("a readable folder") {
            let path = entry.expect("a readable entry").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                let text = fs::read_to_string(&path).expect("a readable file");
                let text = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
                let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
                let within = path.strip_prefix(src()).expect("a source").with_extension("");
                let names: Vec<&str> = within.iter().filter_map(|name| name.to_str()).collect();
                found.insert(names.join("::"), code.collect::<Vec<_>>().join("\n"));
            }
        }
    }
    found
}

/// The single paths of a `use`: `a::{b, c::{d, e}}` is a::b, a::c::d and a::c::e.
fn paths(prefix: &str, tree: &str, out: &mut Vec<String>) {
    let tree = tree.trim();
    let Some((head, group)) = tree.split_once('{') else {
        let name = tree.split(" as ").next().unwrap_or(tree).trim();
        out.push(format!("{prefix}{name}"));
        return;
    };
    let group = group.trim_end().strip_suffix('}').unwrap_or(group);
    let (mut depth, mut from) = (0, 0);
    for (at, c) in group.char_indices().chain([(group.len(), ',')]) {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                let part = group[from..at].trim();
                if !part.is_empty() {
                    paths(&format!("{prefix}{head}"), part, out);
                }
                from = at + 1;
            }
            _ => {}
        }
    }
}

/// Every path that a file imports, from the root of the crate.
fn imports(module: &str, code: &str) -> Vec<String> {
    let mut out = Vec::new();
    // `super` is the folder; of a folder's own root it is the folder's.
    let own = module.strip_suffix("::mod").unwrap_or(module);
    let folder = own.rsplit_once("::").map_or("", |(folder, _)| folder);
    for statement in code.split(';') {
        let Some(at) = statement.rfind("use ").filter(|at| {
            statement[..*at]
                .lines()
                .last()
                .is_none_or(|line| line.trim().is_empty() || line.trim_start().starts_with("pub"))
        }) else {
            continue;
        };
        let mut found = Vec::new();
        paths("", &statement[at + 4..], &mut found);
        for path in found {
            let whole = match path.split_once("::") {
                Some(("crate", rest)) => rest.to_string(),
                Some(("super", rest)) if folder.is_empty() => rest.to_string(),
                Some(("super", rest)) => format!("{folder}::{rest}"),
                Some(("self", rest)) => format!("{own}::{rest}"),
                // A folder's root names its own files plainly.
                Some(_) if module.ends_with("::mod") => format!("{own}::{path}"),
                _ => continue,
            };
            out.push(whole);
        }
    }
    out
}

/// The file that a path leads to: through what the roots of folders hand on.
fn leads_to(path: &str, modules: &BTreeMap<String, String>) -> Option<String> {
    let mut path = path.to_string();
    for _ in 0..8 {
        let steps: Vec<&str> = path.split("::").collect();
        // The longest beginning that is a file.
        let file = (1..=steps.len()).rev().find_map(|n| {
            let begin = steps[..n].join("::");
            let root = format!("{begin}::mod");
            modules
                .contains_key(&begin)
                .then_some((begin, n))
                .or_else(|| modules.contains_key(&root).then_some((root, n)))
        });
        let (file, used) = file?;
        if !file.ends_with("::mod") || used == steps.len() {
            return Some(file);
        }
        let name = steps[used];
        let handed =
            imports(&file, &modules[&file]).into_iter().find(|handed| handed.ends_with(&format!("::{name}")));
        match handed.filter(|handed| *handed != path) {
            Some(handed) => path = handed,
            None => return Some(file),
        }
    }
    None
}

/// The files that each file needs. What a folder's root hands on is no need of its own.
fn needs() -> BTreeMap<String, BTreeSet<String>> {
    let modules = modules();
    let of = |(module, code): (&String, &String)| {
        let needed = imports(module, code).into_iter().filter_map(|path| leads_to(&path, &modules));
        (module.clone(), needed.filter(|needed| needed != module).collect())
    };
    modules.iter().filter(|(module, _)| !module.ends_with("::mod")).map(of).collect()
}

#[test]
fn imports_lead_to_files() {
    let needs = needs();
    assert!(needs["fit::scope"].contains("fit::facts") && needs["fit::scope"].contains("fit::model"));
    // Through the root of a folder.
    assert!(needs["fit::facts"].contains("fit::road::loads"), "{:?}", needs["fit::facts"]);
    assert!(needs["fit::road::loads"].contains("mechanics::road::settle"), "{:?}", needs["fit::road::loads"]);
    let mut found = Vec::new();
    paths("", "a::{b, c::{d, e as f}, g}", &mut found);
    assert_eq!(found, ["a::b", "a::c::d", "a::c::e", "a::g"]);
}

#[test]
fn no_file_needs_one_that_needs_it() {
    let needs = needs();
    for start in needs.keys() {
        let mut reached = BTreeSet::new();
        let mut open: Vec<&String> = needs[start].iter().collect();
        while let Some(next) = open.pop() {
            assert_ne!(next, start, "{start} needs itself, by way of {reached:?}");
            if reached.insert(next) {
                open.extend(needs.get(next).into_iter().flatten());
            }
        }
    }
}

/// What the command line may call of fit and study: a question each.
const DOORS: &[&str] = &[
    "fit::assess",
    "fit::checks",
    "fit::examine",
    "fit::find",
    "fit::titled",
    "fit::unknown_patterns",
    "study::changes::changes",
    "study::compare::compare",
    "study::head::heads",
    "study::head::steepest",
    "study::launch::launching",
    "study::place::moved",
    "study::place::place",
    "study::plan::of",
    "study::ramp::crossings",
    "study::ramp::positions",
    "study::spec::spec",
    "study::sweep::columns_for_a_page",
    "study::uncertainty::brief",
    "study::uncertainty::centre",
    "study::uncertainty::examine",
    "study::uncertainty::examine_for",
    "study::uncertainty::sample",
    "study::uses::uses",
    "study::weigh::weigh",
];

#[test]
fn the_command_line_asks_whole_questions() {
    let modules = modules();
    for (module, code) in modules.iter().filter(|(module, _)| module.starts_with("cli::")) {
        let mut called: BTreeSet<String> = imports(module, code).into_iter().collect();
        for room in ["fit::", "uncertainty::"] {
            for (at, _) in code.match_indices(room) {
                let name: String = code[at + room.len()..]
                    .chars()
                    .take_while(|c| c.is_alphanumeric() || *c == '_')
                    .collect();
                let whole = if room == "fit::" {
                    format!("fit::{name}")
                } else {
                    format!("study::uncertainty::{name}")
                };
                called.insert(whole);
            }
        }
        for path in called.iter().filter(|path| path.starts_with("fit::") || path.starts_with("study::")) {
            let last = path.rsplit("::").next().unwrap_or_default();
            let is_type = last.chars().next().is_none_or(char::is_uppercase);
            let is_module = last == "self" || modules.contains_key(path.as_str());
            assert!(is_type || is_module || DOORS.contains(&path.as_str()), "{module} calls {path}");
        }
        assert!(!code.contains("mechanics::"), "{module} knows mechanics");
    }
}

/// Each subject's checks stand in a file of its folder, and no other subject's file knows them.
#[test]
fn a_subject_stands_in_files_of_its_own() {
    let modules = modules();
    let subjects = ["road", "hitch", "tow", "ramp", "bunks", "brakes", "winch", "tie_downs", "launch"];
    let registry = &modules["fit::registry"];
    for subject in subjects {
        assert!(
            modules.contains_key(&format!("fit::{subject}::checks")),
            "{subject} has no checks of its own"
        );
        assert!(registry.contains(&format!("{subject}::CHECKS")), "{subject} is not in the registry");
        for (module, code) in &modules {
            let names_it =
                imports(module, code).iter().any(|path| path.starts_with(&format!("fit::{subject}::checks")));
            let own = module.starts_with(&format!("fit::{subject}::"));
            assert!(own || !names_it, "{module} knows the checks of {subject}");
        }
    }
}
