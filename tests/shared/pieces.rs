//! A rig file cut into several, of which the first includes the others.

use std::collections::BTreeMap;

/// A table's header with the comments above it, and its keys with theirs.
struct Block {
    /// The table's name; empty at the top of a file.
    name: String,
    header: String,
    items: Vec<String>,
}

/// The text in as many files as there are `parents`, and one more; each but the first is included by the one that its
/// parent, counted round, names. `choices`, used in turn, say which file gets what.
pub fn cut(text: &str, parents: &[usize], choices: &[usize]) -> BTreeMap<String, String> {
    let count = parents.len() + 1;
    let mut choices = choices.iter().copied().cycle();
    let mut choose = || choices.next().unwrap_or(0) % count;
    let mut tops = vec![String::new(); count];
    let mut tables = vec![String::new(); count];
    let mut list: Option<(String, usize)> = None;
    for block in blocks(text) {
        if block.name.is_empty() {
            block.items.iter().for_each(|item| tops[choose()].push_str(item));
            continue;
        }
        // A list stands in one file, with the tables of its elements.
        let in_list = |(list, _): &&(String, usize)| {
            block.name == *list
                || block.name.strip_prefix(list.as_str()).is_some_and(|rest| rest.starts_with('.'))
        };
        if let Some((_, at)) = list.as_ref().filter(in_list) {
            tables[*at].push_str(&(block.header + &block.items.concat()));
            continue;
        }
        let at = choose();
        if block.header.contains("[[") {
            list = Some((block.name, at));
            tables[at].push_str(&(block.header + &block.items.concat()));
            continue;
        }
        // The keys of any other table may stand apart.
        let mut parts: BTreeMap<usize, String> = BTreeMap::from([(at, block.header)]);
        for item in block.items {
            let to = if choose() == 0 { choose() } else { at };
            let header = format!("\n# More of it.\n[{}]\n", block.name);
            parts.entry(to).or_insert(header).push_str(&item);
        }
        for (to, part) in parts {
            tables[to].push_str(&part);
        }
    }
    let mut files = BTreeMap::new();
    for at in 0..count {
        let children = (1..count).filter(|child| parents[child - 1] % *child == at);
        let paths: Vec<String> = children.map(|child| format!("{:?}", from(at, child))).collect();
        let include =
            if paths.is_empty() { String::new() } else { format!("include = [{}]\n", paths.join(", ")) };
        files.insert(name(at), format!("{include}{}{}", tops[at], tables[at]));
    }
    files
}

/// What a file is called, from the folder of the first.
pub fn name(at: usize) -> String {
    match at {
        0 => "rig.toml".to_string(),
        at if at.is_multiple_of(2) => format!("deeper/piece-{at}.toml"),
        at => format!("piece-{at}.toml"),
    }
}

/// The path from one file to another.
fn from(at: usize, to: usize) -> String {
    let name = name(to);
    match (at > 0 && at.is_multiple_of(2), name.strip_prefix("deeper/")) {
        (true, Some(beside)) => beside.to_string(),
        (true, None) => format!("../{name}"),
        (false, _) => name,
    }
}

/// A text by its tables.
fn blocks(text: &str) -> Vec<Block> {
    let mut blocks = vec![Block { name: String::new(), header: String::new(), items: Vec::new() }];
    let mut item = String::new();
    for line in text.lines() {
        let whole = item.is_empty() || item.lines().all(|line| line.is_empty() || line.starts_with('#'));
        if whole && line.starts_with('[') {
            let name = line.split(']').next().unwrap_or_default().trim_start_matches('[').to_string();
            blocks.push(Block { name, header: std::mem::take(&mut item) + line + "\n", items: Vec::new() });
            continue;
        }
        item.push_str(line);
        item.push('\n');
        let is_key = item.lines().any(|line| !line.is_empty() && !line.starts_with('#'));
        // A value over several lines is no TOML before its last one.
        if is_key && item.parse::<toml_edit::DocumentMut>().is_ok() {
            blocks.last_mut().expect("there is one").items.push(std::mem::take(&mut item));
        }
    }
    blocks.last_mut().expect("there is one").items.push(item);
    blocks
}
