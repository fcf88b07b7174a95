//! The chain from tow vehicle to tires and straps: a table of its links, or a line of the weakest.

use crate::fit::{Deciding, Link};
use crate::report::document::{Bar, Cell, Holds, Table, Text};
use crate::report::sections::Report;
use crate::report::words;

/// How many links the page names.
const NAMED: usize = 3;

impl Report<'_> {
    /// The weakest links in a line, where the rig has several.
    pub fn weakest_links(&mut self) {
        let links = self.findings().assessment.chain();
        let used = |link: &Link<'_>| {
            let nothing = || format!("{} nothing", words::agreeing(link.name, "holds", "hold"));
            Some(format!("{} {}", link.name, link.row?.used.map_or_else(nothing, words::used)))
        };
        let weakest: Vec<String> = links.iter().filter_map(used).take(NAMED).collect();
        if weakest.len() < NAMED || self.only.is_some() {
            return;
        }
        self.document.paragraph(format!("Weakest links: {}. All of them: --only chain.", weakest.join(", ")));
    }

    /// Every link, weakest first: its load, its rating, and how much of it is used, or what the file lacks.
    pub fn chain(&mut self) {
        let mut table = Table::new([
            (Holds::Name, "link"),
            (Holds::Numbers, "load"),
            (Holds::Numbers, "rating"),
            (Holds::Numbers, "used"),
            (Holds::Words, ""),
            (Holds::Words, "check"),
        ]);
        let links = self.findings().assessment.chain();
        for link in &links {
            table.rows.push(self.link_cells(link));
        }
        self.document.heading("The chain on the level, weakest link first");
        self.document.table(table);
        let lacking = links.iter().filter(|link| !link.missing.is_empty());
        let lacking = lacking.map(|link| {
            let keys: Vec<String> = link.missing.iter().map(ToString::to_string).collect();
            format!("{}: {}", link.name, keys.join(", "))
        });
        let lacking: Vec<String> = lacking.collect();
        if !lacking.is_empty() {
            self.document.heading("What the file lacks");
            self.document.list(lacking);
        }
    }

    fn link_cells(&self, link: &Link<'_>) -> Vec<Cell> {
        let Some(row) = link.row else {
            let lacks = if link.missing.is_empty() { "not evaluated" } else { "not known" };
            return vec![link.name.into(), "".into(), "".into(), "".into(), lacks.into(), "".into()];
        };
        let units = self.units();
        let show = |value| words::amount(value, units);
        let role = words::verdict_role(row.verdict);
        let Deciding { min, max, used, .. } = row.deciding();
        let limit = max.or(min);
        let bar = used.map_or_else(
            || Cell::from(""),
            |used| {
                use crate::quantity::Quantity;
                Bar::used(role, used.si()).into()
            },
        );
        vec![
            link.name.into(),
            row.load.map(show).unwrap_or_default().into(),
            limit.map(show).unwrap_or_default().into(),
            used.map(words::used).unwrap_or_default().into(),
            bar,
            Text::of(role, &row.id()).into(),
        ]
    }
}
