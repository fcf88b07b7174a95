//! The rooms of the house and the one way that data flows through them, read off the sources.
//!
//! Text of a rig file → rig → mechanics → fit → study → report → terminal. What a room may know is listed here; a
//! room that is not listed has no place yet.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Each room, and the rooms that it may know.
const ROOMS: &[(&str, &[&str])] = &[
    ("quantity", &[]),
    ("numeric", &[]),
    ("rig", &["quantity", "numeric"]),
    ("mechanics", &["quantity", "numeric"]),
    ("fit", &["quantity", "numeric", "rig", "mechanics"]),
    ("study", &["quantity", "numeric", "rig", "mechanics", "fit"]),
    ("report", &["quantity", "numeric", "rig", "fit", "study"]),
    ("cli", &["quantity", "numeric", "rig", "fit", "study", "report"]),
];

fn src() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// Every Rust file under a folder, with its code: no comments, so no examples of documentation either.
fn code_under(folder: &Path) -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("a readable folder") {
        let path = entry.expect("a readable entry").path();
        if path.is_dir() {
            found.extend(code_under(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            let text = fs::read_to_string(&path).expect("a readable file");
            let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
            found.push((path.clone(), code.collect::<Vec<_>>().join("\n")));
        }
    }
    assert!(!found.is_empty(), "no Rust file under {}", folder.display());
    found
}

/// The names of the crate's own modules that follow `crate::`, braces opened.
fn known_rooms(code: &str) -> BTreeSet<String> {
    let mut rooms = BTreeSet::new();
    for (at, _) in code.match_indices("crate::") {
        let rest = code[at + "crate::".len()..].trim_start();
        let names = match rest.strip_prefix('{') {
            // Each part of a group begins with a room; what is nested deeper does not matter here.
            Some(group) => parts(group),
            None => vec![rest],
        };
        for name in names {
            let name = name.trim_start();
            let end = name.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(name.len());
            rooms.insert(name[..end].to_string());
        }
    }
    rooms
}

/// The parts of a group of imports, up to its closing brace.
fn parts(group: &str) -> Vec<&str> {
    let (mut parts, mut from, mut depth) = (Vec::new(), 0, 0);
    for (at, c) in group.char_indices() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => {
                parts.push(&group[from..at]);
                return parts;
            }
            '}' => depth -= 1,
            ',' if depth == 0 => {
                parts.push(&group[from..at]);
                from = at + 1;
            }
            _ => {}
        }
    }
    parts
}

#[test]
fn grouped_imports_are_seen() {
    let seen = known_rooms("use crate::{rig::{Rig, Setup}, quantity};\nlet x = crate::fit::find(id);");
    assert_eq!(seen.iter().map(String::as_str).collect::<Vec<_>>(), ["fit", "quantity", "rig"]);
}

#[test]
fn every_room_has_its_place() {
    for entry in fs::read_dir(src()).expect("sources") {
        let path = entry.expect("a readable entry").path();
        if path.is_dir() {
            let name = path.file_name().and_then(|name| name.to_str()).expect("a plain name");
            assert!(ROOMS.iter().any(|(room, _)| *room == name), "{name} is not in the table of rooms");
        }
    }
}

#[test]
fn dependencies_point_one_way() {
    for (room, may_know) in ROOMS {
        for (path, code) in code_under(&src().join(room)) {
            for known in known_rooms(&code) {
                // The crate's root offers the rig under its own name.
                let known = if known == "Rig" { "rig".to_string() } else { known };
                let fine = known == *room || may_know.contains(&known.as_str());
                assert!(fine, "{} knows {known}, which {room} may not", path.display());
            }
            // No way around `crate::`: two steps up leave the room, and so does one from its own root.
            assert!(!code.contains("super::super"), "{} climbs out of its room", path.display());
            let is_root = path == src().join(room).join("mod.rs");
            assert!(!is_root || !code.contains("super::"), "{} climbs out of its room", path.display());
        }
    }
}

#[test]
fn no_room_knows_one_that_knows_it() {
    let place = |name: &str| ROOMS.iter().position(|(room, _)| *room == name);
    for (at, (room, may_know)) in ROOMS.iter().enumerate() {
        // Neither may it by the table, nor does it in its code: whatever the way round, one step would lead back.
        let code = code_under(&src().join(room)).into_iter().map(|(_, code)| code);
        let does_know = code.flat_map(|code| known_rooms(&code)).filter(|known| known != room);
        for known in may_know.iter().map(ToString::to_string).chain(does_know) {
            let known = if known == "Rig" { "rig".to_string() } else { known };
            assert!(
                place(&known).is_some_and(|known| known < at),
                "{room} knows {known}, which stands after it"
            );
        }
    }
}

#[test]
fn mechanics_know_no_files_no_texts_and_no_formats() {
    let foreign = ["serde", "toml", "std::fs", "std::io", "std::env", "clap", "String", "format!", "Verdict"];
    for (path, code) in code_under(&src().join("mechanics")) {
        for word in foreign {
            assert!(!code.contains(word), "{} knows {word}", path.display());
        }
    }
}

#[test]
fn only_the_reader_knows_toml_and_only_the_report_knows_json() {
    for (path, code) in code_under(&src()) {
        let in_room = |room: &str| path.starts_with(src().join(room));
        assert!(!code.contains("toml::") || in_room("rig"), "{} knows TOML", path.display());
        let serde = code.contains("serde::") || code.contains("serde_json::");
        assert!(!serde || in_room("report"), "{} knows JSON", path.display());
    }
}

#[test]
fn only_the_command_line_reads_files_and_prints() {
    let macros = ["println!", "eprintln!", "print!(", "eprint!(", "dbg!("];
    let streams =
        ["std::io", "std::fs", "stdout()", "stderr()", "stdin()", "std::process", "anstream", "clap::"];
    for (path, code) in code_under(&src()) {
        if path == src().join("main.rs") {
            continue;
        }
        for word in macros {
            assert!(!code.contains(word), "{} has {word}", path.display());
        }
        if !path.starts_with(src().join("cli")) {
            for word in streams {
                assert!(!code.contains(word), "{} knows {word}", path.display());
            }
        }
    }
}

/// Whether a path that begins after `fit::` or `study::` ends in types, constants or the list of all checks only,
/// whatever modules it goes through: `Row`, `uncertainty::{Corner, Uncertainty}`, `{Check, checks}`.
fn names_types_only(path: &str) -> bool {
    let path = path.trim_start();
    if let Some(group) = path.strip_prefix('{') {
        // A comma may end a group.
        return parts(group).into_iter().filter(|part| !part.trim().is_empty()).all(names_types_only);
    }
    let end = path.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(path.len());
    match path[end..].strip_prefix("::") {
        Some(rest) if path.starts_with(char::is_lowercase) => names_types_only(rest),
        _ => path.starts_with(char::is_uppercase) || &path[..end] == "checks",
    }
}

#[test]
fn paths_to_types_are_told_from_paths_to_functions() {
    for types in [
        "Row;",
        "{Check, checks};",
        "{\n    Row,\n    check::{Amount, Judge},\n}",
        "place::Placing,",
        "Verdict::Pass",
    ] {
        assert!(names_types_only(types), "{types}");
    }
    for others in
        ["assess(rig)", "{self, Row};", "{Row, examine};", "place::{Placing, moved}", "samples::samples"]
    {
        assert!(!names_types_only(others), "{others}");
    }
}

#[test]
fn a_report_names_types_of_findings_and_calls_nothing_that_finds() {
    for (path, code) in code_under(&src().join("report")) {
        for room in ["fit::", "study::"] {
            for (at, _) in code.match_indices(room) {
                let (before, after) = (&code[..at], &code[at + room.len()..]);
                let is_whole = !before.ends_with(|c: char| c.is_alphanumeric() || c == '_');
                let word: String = after.chars().take(40).collect();
                assert!(!is_whole || names_types_only(after), "{} calls {room}{word}", path.display());
            }
        }
        // Nor does a whole room come in under its own name.
        for import in ["use crate::fit;", "use crate::study;", "use crate::{"] {
            assert!(!code.contains(import), "{} has {import}", path.display());
        }
    }
}

#[test]
fn a_report_computes_no_load() {
    // What settles, balances or assesses belongs to mechanics and fit.
    let foreign = ["mechanics", "settle(", "assess(", "examine(", "coupled(", "together("];
    for (path, code) in code_under(&src().join("report")) {
        for word in foreign {
            assert!(!code.contains(word), "{} has {word}", path.display());
        }
    }
}
