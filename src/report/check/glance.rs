//! At a glance: a line for each group of checks, with the row that stands for it.

use crate::fit::{Amount, Deciding, Group, Judge, RigVerdict, Row, Subject, Verdict};
use crate::quantity::Quantity;
use crate::report::document::{Bar, Cell, Holds, Table, Text};
use crate::report::sections::{Report, capital};
use crate::report::words;

/// The letters of a label that have room beside its figures.
const LABEL: usize = 23;

impl Report<'_> {
    /// How each group of checks stands, by its governing row.
    pub fn glance(&mut self) {
        let found = &self.findings().assessment;
        let groups = Group::all().filter(|group| self.only.is_none_or(|only| only == group.subject()));
        let mut table = Table::new([
            (Holds::Name, ""),
            (Holds::Numbers, ""),
            (Holds::Numbers, ""),
            (Holds::Numbers, ""),
            (Holds::Words, ""),
            (Holds::Words, ""),
        ]);
        let mut silent = Vec::new();
        for group in groups {
            let outside = |row: &&Row| !matches!(row.verdict, Verdict::Pass | Verdict::Thin);
            let covered = !found.not_covered.contains(&group.subject());
            match found.governing(group).filter(|row| covered || outside(row)) {
                // The screen of a rig that passes has no room for rails that hold.
                Some(row) if group == Group::Rails && row.verdict == Verdict::Pass => {}
                Some(row) => table.rows.push(self.glance_cells(group, row)),
                // A file need not describe rails, as most do not.
                None if group == Group::Rails => {}
                // One axle is never lifted alone.
                None if group == Group::Lifted && self.rig().proposed().trailer.axles.len() < 2 => {}
                None => silent.push(named(group).to_lowercase()),
            }
        }
        self.document.heading("At a glance: load, limit, and how much of it is used");
        if !table.rows.is_empty() {
            self.document.table(table);
        }
        // The first lines of a pass name them.
        if found.verdict != RigVerdict::Pass && !silent.is_empty() {
            self.document.paragraph(format!("Not in the file: {}.", silent.join(", ")));
        }
    }

    fn glance_cells(&self, group: Group, row: &Row) -> Vec<Cell> {
        let role = words::verdict_role(row.verdict);
        let word = match row.verdict {
            Verdict::Pass => "",
            Verdict::Fail => "FAIL",
            other => words::verdict(other),
        };
        let [load, limit, used] = self.figures(row);
        let bar = match (row.check.judge, row.deciding().used) {
            (Judge::Band, _) | (_, None) => Cell::from(inside(row)),
            (_, Some(used)) => Bar::used(role, used.si()).into(),
        };
        vec![
            label(group, row).into(),
            load.into(),
            limit.into(),
            used.into(),
            bar,
            Text::of(role, word).into(),
        ]
    }

    /// A row's load, its limit, and how much of it is used.
    fn figures(&self, row: &Row) -> [String; 3] {
        let show = |value| self.amount(row, value);
        let load = row.load.map(show).unwrap_or_default();
        let Deciding { min, max, used, .. } = row.deciding();
        let limit = match (min, max) {
            (Some(min), Some(max)) if row.check.judge == Judge::Band => band(&show(min), &show(max)),
            (_, Some(max)) => show(max),
            (Some(min), None) => format!("from {}", show(min)),
            (None, None) => String::new(),
        };
        // Of the tongue's share the weight is shown beside it.
        let cases = &self.findings().assessment.cases;
        let tongue = row.case.and_then(|case| cases.get(case)?.tongue.as_ref().ok());
        if let Some(tongue) = tongue.filter(|_| row.check.id == "tongue-share") {
            return [self.units().weight(*tongue), limit, load];
        }
        let used = used.filter(|_| row.check.judge != Judge::Band);
        [load, limit, used.map(words::used).unwrap_or_default()]
    }
}

/// How a row without a share of a rating stands, in words.
fn inside(row: &Row) -> &'static str {
    let si = |amount: Option<Amount>| amount.map(Amount::si);
    let load = row.load.map(Amount::si);
    let Deciding { min, max, .. } = row.deciding();
    let past = |limit: Option<f64>, sign: f64| {
        limit.zip(load).is_some_and(|(limit, load)| sign * (load - limit) > 0.0)
    };
    match row.check.judge {
        _ if load.is_none() && row.verdict == Verdict::Advise => "no hold",
        _ if load.is_none() => "nothing asked",
        Judge::Size => "",
        _ if past(si(min), -1.0) => "too little",
        Judge::Ceiling if past(si(max), 1.0) => "past its limit",
        _ if past(si(max), 1.0) => "too much",
        Judge::Band => "in the band",
        _ => "",
    }
}

/// A band without what says nothing: `7 to 12 %`.
fn band(min: &str, max: &str) -> String {
    let [min, max] = [min, max].map(|end| end.replace(".0 ", " "));
    let unit = max.rsplit_once(' ').map_or("", |(_, unit)| unit);
    format!("{} to {max}", min.strip_suffix(unit).unwrap_or(&min).trim_end())
}

/// A group's name.
pub fn named(group: Group) -> &'static str {
    match group {
        Group::Weight => "Gross weight",
        Group::Tongue => "Tongue",
        Group::Axles => "Axles and tires",
        Group::Lifted => "Rear axle lifted",
        Group::Rails => "Frame rails",
        Group::Of(Subject::Road) => "Road",
        Group::Of(Subject::Hitch) => "Hitch",
        Group::Of(Subject::Tow) => "Tow vehicle",
        Group::Of(Subject::Ramp) => "Ramp",
        Group::Of(Subject::Bunks) => "Bunks",
        Group::Of(Subject::Brakes) => "Brakes",
        Group::Of(Subject::Winch) => "Winch",
        Group::Of(Subject::TieDowns) => "Tie-downs",
        Group::Of(Subject::Launch) => "Launch",
    }
}

/// A group's name with what governs it; where there is no room for both, what governs it.
fn label(group: Group, row: &Row) -> String {
    let name = match group {
        Group::Weight | Group::Tongue | Group::Rails => return named(group).to_string(),
        Group::Axles => "Axles, tires",
        Group::Lifted => "Rear lifted",
        Group::Of(_) => named(group),
    };
    let governs = within(group, row);
    let alone = match group {
        Group::Lifted => format!("Lifted: {governs}"),
        _ => capital(&governs),
    };
    let fits = |label: &String| label.chars().count() <= LABEL;
    [format!("{name}: {governs}"), alone.clone()].into_iter().find(fits).unwrap_or_else(|| cut(&alone))
}

/// As many whole words of a label as there is room for.
fn cut(label: &str) -> String {
    let room: String = label.chars().take(LABEL + 1).collect();
    room.rsplit_once(' ').map_or_else(|| room.chars().take(LABEL).collect(), |(words, _)| words.to_string())
}

/// What a row of a group is called beside the group's name.
pub fn within(group: Group, row: &Row) -> String {
    let id = row.id();
    let prefix = match group {
        Group::Lifted => "lifted-",
        Group::Of(Subject::Tow) => "tow-",
        Group::Of(Subject::Ramp) => "ramp-",
        Group::Of(Subject::Bunks) => "bunk-",
        Group::Of(Subject::Brakes) => "brake-",
        Group::Of(Subject::Winch) => "winch-",
        Group::Of(Subject::TieDowns) => "tie-down-",
        Group::Of(Subject::Launch) => "launch-",
        _ => "",
    };
    let of = id.strip_prefix(prefix).unwrap_or(&id).replace('-', " ");
    of.replace("gvwr", "GVWR").replace("gcwr", "GCWR").replace("breaking", "break")
}
