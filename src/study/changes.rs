//! What differs between two rigs, and what that does to each check.

use super::uses::near;
use crate::fit::{Amount, Assessment, Row, Verdict};
use crate::rig::{Key, Rig};

/// What differs between two rigs.
#[derive(Debug, Clone, PartialEq)]
pub struct Changes {
    /// The keys that state something else, in the order of the table of inputs.
    pub keys: Vec<KeyChange>,
    /// The rows that stand otherwise, in the registry's order, then those that are gone.
    pub rows: Vec<RowChange>,
}

/// A key that states something else.
#[derive(Debug, Clone, PartialEq)]
pub struct KeyChange {
    /// The key, as the newer rig has it where it has it.
    pub key: Key,
    /// Its path, an element of a list by its id or name.
    pub name: String,
    /// What the older file says; `None` where it is silent.
    pub old: Option<String>,
    /// What the newer file says.
    pub new: Option<String>,
    /// The included file that states it, which other rigs may share; `None` where the rig file itself does.
    pub included: Option<String>,
}

/// A row that stands otherwise, by another verdict, load or limit.
#[derive(Debug, Clone, PartialEq)]
pub struct RowChange {
    /// The row before; `None` where it is new.
    pub old: Option<Row>,
    /// The row now; `None` where it is gone.
    pub new: Option<Row>,
}

impl RowChange {
    /// Its id.
    pub fn id(&self) -> String {
        self.new.as_ref().or(self.old.as_ref()).map(Row::id).unwrap_or_default()
    }

    /// Its verdict before and now.
    pub fn verdicts(&self) -> [Option<Verdict>; 2] {
        [&self.old, &self.new].map(|row| row.as_ref().map(|row| row.verdict))
    }
}

/// What differs between two rigs, each with its assessment.
///
/// Keys are compared by what they mean, whatever the unit and the order, and elements of lists by their ids and names
/// where they have them.
///
/// ```
/// use bunkline::{Rig, fit, study::changes::changes};
///
/// let text = std::fs::read_to_string("demo-data/fishing-skiff.toml")?;
/// let (old, new) = (Rig::parse(&text)?, Rig::parse(&text.replace("gvwr = \"3600 lb\"", "gvwr = \"3000 lb\""))?);
/// let found = changes((&old, &fit::assess(&old)?), (&new, &fit::assess(&new)?));
/// assert_eq!(found.keys.len(), 1);
/// assert_eq!(found.keys[0].new.as_deref(), Some("3000 lb"));
/// assert!(found.rows.iter().any(|row| row.id() == "trailer-gvwr"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn changes(old: (&Rig, &Assessment), new: (&Rig, &Assessment)) -> Changes {
    Changes { keys: keys(old.0, new.0), rows: rows(&old.1.rows, &new.1.rows) }
}

fn keys(old: &Rig, new: &Rig) -> Vec<KeyChange> {
    let (mut old, new) = (old.stated(), new.stated());
    let mut keys = Vec::new();
    for new in new {
        let before = old.iter().position(|old| old.name == new.name).map(|i| old.remove(i));
        if before.as_ref().is_none_or(|before| !before.means(&new)) {
            let old = before.map(|before| before.text);
            let (new_text, included) = (Some(new.text), new.included);
            keys.push(KeyChange { key: new.key, name: new.name, old, new: new_text, included });
        }
    }
    keys.extend(old.into_iter().map(|old| KeyChange {
        key: old.key,
        name: old.name,
        old: Some(old.text),
        new: None,
        included: old.included,
    }));
    keys
}

fn rows(old: &[Row], new: &[Row]) -> Vec<RowChange> {
    let mut gone: Vec<(String, &Row)> = old.iter().map(|row| (row.id(), row)).collect();
    let mut rows = Vec::new();
    for new in new {
        let id = new.id();
        let old = gone.iter().position(|(other, _)| *other == id).map(|i| gone.remove(i).1);
        if old.is_none_or(|old| !stands_alike(old, new)) {
            rows.push(RowChange { old: old.cloned(), new: Some(new.clone()) });
        }
    }
    rows.extend(gone.into_iter().map(|(_, old)| RowChange { old: Some(old.clone()), new: None }));
    rows
}

fn stands_alike(old: &Row, new: &Row) -> bool {
    let amounts = |row: &Row| [row.load, row.min, row.max, row.fails_below, row.fails_above];
    let alike = |(old, new): (Option<Amount>, Option<Amount>)| match (old, new) {
        (Some(old), Some(new)) => near(old.si(), new.si()),
        (old, new) => old.is_none() && new.is_none(),
    };
    old.verdict == new.verdict && amounts(old).into_iter().zip(amounts(new)).all(alike)
}
