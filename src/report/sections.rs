//! The sections that several reports share: what would fix it, the checks, what is missing, assumed and to be known.

use super::document::{Bar, Cell, Document, Holds, Item, Role, Table, Text};
pub(super) use super::words::some_of;
use super::{Subject, words};
use crate::fit::{Amount, Check, Cure, Deciding, Findings, Judge, Measure, Moved, Of, Room, Row, Verdict};
use crate::quantity::show::{UnitSystem, percent, whole};
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::{Key, Rig, Setup};

/// How many kinds of checks are named beside a key on a page.
const FAMILIES_NAMED: usize = 3;
/// A report in the making.
pub(super) struct Report<'a> {
    pub subject: Subject<'a>,
    /// The one subject that the report is about; none is all of them.
    pub only: Option<crate::fit::Subject>,
    /// The one check that it is about; none is all of them.
    check: Option<&'static Check>,
    pub document: Document,
}

impl<'a> Report<'a> {
    pub fn new(subject: &Subject<'a>, only: Option<crate::fit::Subject>) -> Self {
        Self { subject: *subject, only, check: None, document: Document::default() }
    }

    /// What follows a document about one check: how that stands.
    pub fn of_check(subject: &Subject<'a>, check: &'static Check, document: Document) -> Self {
        Self { check: Some(check), document, ..Self::new(subject, None) }
    }

    pub fn rig(&self) -> &'a Rig {
        self.subject.rig
    }

    pub fn findings(&self) -> &'a Findings {
        self.subject.findings
    }

    pub fn units(&self) -> UnitSystem {
        self.subject.units
    }

    /// The rows that the report is about.
    pub fn rows(&self) -> impl Iterator<Item = &'a Row> + use<'a> {
        let asked = (self.only, self.check);
        self.findings().assessment.rows.iter().filter(move |row| is_about(row, asked))
    }

    /// Whether a row belongs to what the report is about.
    pub fn is_about(&self, row: &Row) -> bool {
        is_about(row, (self.only, self.check))
    }

    /// The worst row that fails, is unsure or advises.
    pub fn worst_row(&self) -> Option<&'a Row> {
        let outside = self
            .rows()
            .filter(|row| matches!(row.verdict, Verdict::Fail | Verdict::Unsure | Verdict::Advise));
        outside.min_by(|a, b| worst_first(a, b))
    }

    /// The first line, which answers, and what the answer is about.
    pub fn answer(&mut self, verdict: Text, about: &str) {
        self.document.add_title(verdict);
        self.document.paragraph(about);
    }

    /// Which case and ramp a row is about, where there are several of them: ` [case 2]`.
    pub fn place(&self, case: Option<usize>, ramp: Option<usize>) -> String {
        let places = self.places(case, ramp).into_iter();
        places.map(|place| [" [", &place, "]"].concat()).collect()
    }

    /// The same without brackets, one after another.
    pub fn places(&self, case: Option<usize>, ramp: Option<usize>) -> Vec<String> {
        let setup = &self.rig().proposed();
        let case = case.filter(|_| setup.cases.len() > 1).map(|case| format!("case {}", case + 1));
        let ramp = ramp.filter(|_| setup.ramps.len() > 1);
        let ramp = ramp.map(|ramp| words::ramp(self.rig(), ramp).to_string());
        case.into_iter().chain(ramp).collect()
    }

    /// An amount of a row for a reader.
    pub fn amount(&self, row: &Row, amount: Amount) -> String {
        match amount {
            Amount::Length(size) if row.check.judge == Judge::Size => self.units().size(size),
            // What a settled rig clears is known no finer.
            Amount::Length(length) if row.check.crosses_ramps(self.rig().proposed()) => {
                self.units().rough_distance(length)
            }
            other => words::amount(other, self.units()),
        }
    }

    /// For each row outside its limits, what is wrong and what would fix it.
    pub fn cures(&mut self) {
        let findings = self.findings();
        let mut sorted: Vec<(&Row, &Vec<Cure>)> =
            findings.cures.iter().map(|(i, cures)| (&findings.assessment.rows[*i], cures)).collect();
        sorted.retain(|(row, _)| self.is_about(row));
        if sorted.is_empty() {
            return;
        }
        sorted.sort_by(|(a, _), (b, _)| worst_first(a, b));
        let fails = sorted.iter().any(|(row, _)| row.verdict == Verdict::Fail);
        self.document.heading(match (fails, self.check) {
            (true, None) => "What would fix each check, on its own",
            (true, Some(_)) => "What would fix it, on its own",
            (false, _) => "What is advised, and what would meet it",
        });
        let mut last: Option<(String, Vec<Text>)> = None;
        let items: Vec<Item> = sorted
            .iter()
            .map(|(row, cures)| {
                let advises = if row.verdict == Verdict::Advise { " (only advises)" } else { "" };
                let fault = words::fault(row, self.units());
                let place = self.place(row.case, row.ramp);
                let text = Text::of(Role::Key, &row.id()).then(&format!(": {fault}{place}{advises}"));
                let mut ways = alternatives(cures.iter().map(|cure| self.cure(row, cure)));
                if ways.is_empty() && self.check.is_some() {
                    ways.push("no single change that was tried fixes it: see Cures above, and the plan of `bunkline check`".into());
                }
                Item { text, below: unless_as_before(&mut last, row.id(), ways) }
            })
            .collect();
        self.document.list(items);
        if self.check.is_none() {
            self.document.paragraph(Text::from("More about a check: ").and(Role::Key, "bunkline explain ID"));
        }
    }

    fn cure(&self, row: &Row, cure: &Cure) -> String {
        let units = self.units();
        match cure {
            Cure::Rating(at_least) => {
                let part = match row.check.measure {
                    Measure::Weight => weight_at_least(row, at_least.si(), units),
                    _ => words::amount(*at_least, units),
                };
                format!("a rating of {part} or more")
            }
            Cure::Tires { rating, at } => {
                let part = weight_at_least(row, rating.si(), units);
                let at = at.map(|at| format!(", at {} as now", units.inflation(at))).unwrap_or_default();
                format!("tires rated {part} or more{at}")
            }
            Cure::RatingOfEach(at_least) => {
                let part = weight_at_least(row, at_least.si(), units);
                format!("a rating of {part} or more for each tire and wheel")
            }
            Cure::Size(size) => format!("a part that measures {}", self.amount(row, *size)),
            Cure::Shed(weight) => {
                let weight = weight_at_least(row, weight.si(), units);
                format!("take {weight} out of the boat, at its centre of gravity")
            }
            Cure::Inflate(pressure) => format!("pump the tires up to {}, cold", units.inflation(*pressure)),
            Cure::Raise(by) => {
                let way = if by.si() < 0.0 { "lower" } else { "higher" };
                format!("set it {} {way}", units.distance(by.abs()))
            }
            Cure::RaiseBoat(by) => {
                format!("raise the boat {} on its bunks, with spacers", units.distance_at_least(*by))
            }
            Cure::MoveBoat { by, room, breaks, worsens } => {
                let room = match room {
                    Room::Within => "within the travel in the file".to_string(),
                    Room::Beyond(reach) => {
                        format!("beyond the travel in the file, {}", words::reach(*reach, units))
                    }
                    Room::Unstated => "the file gives no travel.boat".to_string(),
                };
                let breaks = match breaks.len() {
                    0 => String::new(),
                    1..=3 => format!("; {} would then fail", breaks.join(", ")),
                    n => format!("; {} and {} more would then fail", breaks[..2].join(", "), n - 2),
                };
                let worse = match worsens.len() {
                    0 => String::new(),
                    1 => format!("; {} would get worse", worsens[0]),
                    n => format!("; {} and {} more would get worse", worsens[0], n - 1),
                };
                format!("move the boat {} ({room}{breaks}{worse})", move_at_least(*by, units))
            }
        }
    }

    pub fn checks(&mut self) {
        let mut rows: Vec<&Row> = self.rows().collect();
        rows.retain(|row| row.verdict != Verdict::NotChecked);
        if rows.is_empty() {
            return;
        }
        rows.sort_by(|a, b| worst_first(a, b));
        let mut table = Table::new([
            (Holds::Words, ""),
            (Holds::Name, "check"),
            (Holds::Numbers, "load"),
            (Holds::Words, "limit"),
            (Holds::Numbers, "margin"),
            (Holds::Numbers, "used"),
            (Holds::Numbers, "case"),
        ]);
        let mut at_worst = false;
        for row in &rows {
            table.rows.push(self.check_cells(row));
            if let Some(margin) = self.outside_at_worst(row) {
                at_worst = true;
                let mut cells = vec![Cell::default(); table.columns.len()];
                cells[3] = Text::of(Role::Muted, "at the worst:").into();
                cells[4] = margin.into();
                table.rows.push(cells);
            }
        }
        self.document.heading("Checks, worst first");
        self.document.table(table);
        if at_worst {
            self.document.paragraph("at the worst: the margin with every ± in the file, and what is assumed, at the end that is worse for the check, shown where that is outside the limits.");
        }
        if rows.iter().any(|row| row.verdict == Verdict::Thin) {
            let thin = percent(self.rig().proposed().policy.thin_margin.unwrap_or_default());
            self.document
                .paragraph(format!("thin: it passes, with less than {thin} of the rating or band left."));
        }
        let uneven = rows.iter().filter(|row| {
            row.verdict == Verdict::Thin && row.uneven.is_some_and(|uneven| uneven.margin.si() < 0.0)
        });
        let uneven: Vec<&Row> = uneven.copied().collect();
        if !uneven.is_empty() {
            self.document.paragraph(format!(
                "{}: equalized axles share to within 10 %; one that carries that much more is past its limit.",
                families(&uneven).join(", ")
            ));
        }
        for (moved, what) in [(Moved::Counts, "fails"), (Moved::Advises, "only advises")] {
            let ids: Vec<&Row> = rows.iter().filter(|row| row.moved == Some(moved)).copied().collect();
            if !ids.is_empty() {
                let ids = families(&ids).join(", ");
                self.document.paragraph(format!("The policy says that past its limit it {what}: {ids}."));
            }
        }
    }

    fn check_cells(&self, row: &Row) -> Vec<Cell> {
        let show = |value: Option<Amount>| value.map(|value| self.amount(row, value)).unwrap_or_default();
        let Deciding { min: least, max: most, margin, used } = row.deciding();
        let (min, max) = (show(least), show(most));
        let limit = match row.check.judge {
            Judge::Rating | Judge::Ceiling => format!("up to {max}"),
            Judge::FlooredRating if least.is_none() => format!("up to {max}"),
            Judge::SignedRating => format!("0 to {max}"),
            // Of a load that no pressure lets a tire carry, more is needed than is allowed.
            Judge::Between if least.zip(most).is_some_and(|(least, most)| least.si() > most.si()) => {
                format!("from {min}")
            }
            Judge::Band | Judge::Between | Judge::FlooredRating => format!("{min} to {max}"),
            Judge::Floor => format!("from {min}"),
            Judge::Size => max,
        };
        let role = words::verdict_role(row.verdict);
        let used = match (row.check.judge, used) {
            // The place inside a band is no share of a rating.
            (Judge::Band, _) | (_, None) => Cell::default(),
            (_, Some(used)) => Cell { text: words::used(used).into(), bar: Some(Bar::used(role, used.si())) },
        };
        let margin = if row.check.judge == Judge::Size { String::new() } else { show(margin) };
        let word = match row.verdict {
            Verdict::Fail => "FAIL",
            other => words::verdict(other),
        };
        let case = row.case.map(|case| (case + 1).to_string()).unwrap_or_default();
        vec![
            Text::of(role, word).into(),
            Text::of(Role::Key, &row.id()).into(),
            show(row.load).into(),
            limit.into(),
            margin.into(),
            used,
            case.into(),
        ]
    }

    pub fn not_checked(&mut self) {
        let not_checked = self.rows().filter(|row| row.verdict == Verdict::NotChecked);
        let restless: Vec<&Row> = not_checked.filter(|row| row.missing.is_empty()).collect();
        if !restless.is_empty() {
            self.document.heading("Not checked, although no key is missing");
            let ids: Vec<String> = restless.iter().map(|row| row.id()).collect();
            self.document.paragraph(format!("{}: a failing check or a caution says why.", ids.join(", ")));
        }
        let gaps = self.gaps();
        if gaps.is_empty() {
            return;
        }
        self.document.heading("Not checked: what to fill in");
        self.document.list(gaps.into_iter().map(|gap| Item {
            text: Text::of(Role::Key, &gap.key).then(": ").then(&gap.how),
            below: vec![format!("for {}", some_of(&gap.ids())).into()],
        }));
    }

    /// The keys that rows lack: first those without which there is no verdict, then those that a row lacks which can fail,
    /// then by how many rows lack them.
    pub fn gaps(&self) -> Vec<Gap<'a>> {
        let mut lacking: Vec<(Key, Vec<&'a Row>)> = Vec::new();
        for row in self.rows().filter(|row| row.verdict == Verdict::NotChecked) {
            for key in &row.missing {
                match lacking.iter_mut().find(|(known, _)| known == key) {
                    Some((_, rows)) => rows.push(row),
                    None => lacking.push((*key, vec![row])),
                }
            }
        }
        let mut gaps = same_on_all_axles(&lacking, self.rig().proposed().trailer.axles.len());
        let can_fail = |gap: &Gap<'_>| gap.rows.iter().any(|row| row.counts);
        gaps.sort_by_key(|gap| (!gap.is_needed(), !can_fail(gap), std::cmp::Reverse(gap.rows.len())));
        gaps
    }

    pub fn assumed(&mut self) {
        if self.rig().assumed().is_empty() {
            return;
        }
        self.document.heading("Assumed, because the file does not say");
        let units = self.units();
        self.document.list(self.rig().assumed().iter().map(|assumed| {
            let value = words::assumed(assumed.value, units);
            Text::of(Role::Key, &assumed.key).then(&format!(" = {value}: {}", assumed.why))
        }));
    }

    /// What the file states for information only, a row of the table of inputs a line.
    pub fn informational(&mut self) {
        let stated = self.rig().informational(self.units());
        if stated.is_empty() {
            return;
        }
        self.document.heading("Stated, but used by no check yet");
        let rows = stated.chunk_by(|(one, _), (other, _)| one.path == other.path);
        self.document.list(rows.map(|row| {
            let path = row[0].0.path;
            let listed = path.contains('*');
            let value = |(key, value): &(Key, String)| {
                if listed { format!("{}: {value}", key.at[0] + 1) } else { value.clone() }
            };
            let values: Vec<String> = row.iter().map(value).collect();
            Text::of(Role::Key, path).then(&format!(" = {}", values.join("; ")))
        }));
    }

    pub fn cautions(&mut self) {
        let (rig, units) = (self.rig(), self.units());
        self.document.heading("Cautions");
        let cautions = self.findings().cautions.iter();
        self.document.list(cautions.map(|caution| words::caution(caution, rig, units)));
    }
}

/// Whether a row belongs to the one subject and to the one check that are asked for, if any are.
fn is_about(row: &Row, (only, check): (Option<crate::fit::Subject>, Option<&Check>)) -> bool {
    only.is_none_or(|only| row.check.subject == only) && check.is_none_or(|check| row.check == check)
}

/// The title of a report: its verdict, and what it is about.
pub(super) fn verdict_title(role: Role, word: &str, name: &str) -> Text {
    Text::of(role, word).then("  ").then(name)
}

/// How many more checks are in some state, as a sentence to add.
pub(super) fn more_checks(count: usize, is: &str, are: &str) -> String {
    match count {
        0 => String::new(),
        1 => format!(" 1 more check {is}."),
        n => format!(" {n} more checks {are}."),
    }
}

/// How many checks were not evaluated, as a sentence to add.
pub(super) fn not_made(count: usize) -> String {
    match count {
        0 => String::new(),
        1 => " 1 check was not evaluated.".to_string(),
        n => format!(" {n} checks were not evaluated."),
    }
}

/// Ways of which any one is enough.
pub(super) fn alternatives(ways: impl Iterator<Item = String>) -> Vec<Text> {
    ways.enumerate().map(|(i, way)| if i == 0 { way.into() } else { format!("or {way}").into() }).collect()
}

/// What stands under a row: its ways, or, where those are the same as before, for which row they stand. Axles that
/// share alike are fixed alike.
pub(super) fn unless_as_before(
    last: &mut Option<(String, Vec<Text>)>,
    id: String,
    ways: Vec<Text>,
) -> Vec<Text> {
    if let Some((before, same)) = last
        && *same == ways
        && !ways.is_empty()
    {
        return vec![Text::from("the same as for ").and(Role::Key, before)];
    }
    *last = Some((id, ways.clone()));
    ways
}

/// The ids of rows, a check of which there are several by its pattern: `spring-*`.
pub(super) fn families(rows: &[&Row]) -> Vec<String> {
    let mut ids: Vec<String> = Vec::new();
    for row in rows {
        let alike = rows.iter().filter(|other| other.check == row.check).count();
        let id = if alike > 1 { row.check.id.to_string() } else { row.id() };
        if !ids.contains(&id) {
            ids.push(id);
        }
    }
    ids
}

/// A key that rows lack.
pub(super) struct Gap<'a> {
    /// The key; one that is missing on every axle is named once for all.
    pub key: String,
    /// What it means, and how to measure it.
    pub how: String,
    /// The rows that lack it.
    pub rows: Vec<&'a Row>,
}

impl Gap<'_> {
    /// The ids of the rows that lack it.
    pub fn ids(&self) -> Vec<String> {
        self.rows.iter().map(|row| row.id()).collect()
    }

    /// Those rows, or how many they are where they are many.
    pub fn what_for(&self) -> String {
        match families(&self.rows) {
            few if few.len() <= FAMILIES_NAMED => few.join(", "),
            _ => format!("{} checks", self.rows.len()),
        }
    }

    /// Whether a verdict needs one of them.
    pub fn is_needed(&self) -> bool {
        self.rows.iter().any(|row| row.core)
    }
}

/// Keys that are missing on every axle, named once for all.
fn same_on_all_axles<'a>(lacking: &[(Key, Vec<&'a Row>)], axles: usize) -> Vec<Gap<'a>> {
    let mut gaps: Vec<Gap<'a>> = Vec::new();
    for (key, rows) in lacking {
        let Some(input) = key.input() else { continue };
        let of_axles = key.path.starts_with("trailer.axles.*");
        let count = lacking.iter().filter(|(other, _)| other.path == key.path).count();
        let key = if of_axles && axles > 1 && count == axles {
            key.path.replace('*', "all")
        } else {
            key.to_string()
        };
        let at = gaps.iter().position(|known| known.key == key).unwrap_or_else(|| {
            let how = format!("{}. {}", input.meaning, input.how);
            gaps.push(Gap { key, how, rows: Vec::new() });
            gaps.len() - 1
        });
        let gap = &mut gaps[at];
        for row in rows {
            if gap.rows.iter().all(|known| known.id() != row.id()) {
                gap.rows.push(*row);
            }
        }
    }
    gaps
}

/// How far outside a row is: what has no rating outranks what has.
pub(super) fn severity(row: &Row) -> f64 {
    let used = row.deciding().used;
    used.map_or(f64::INFINITY, |used| if used.si() < 0.0 { f64::INFINITY } else { used.si() })
}

fn rank(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Fail => 0,
        Verdict::Unsure => 1,
        Verdict::Advise => 2,
        Verdict::Thin => 3,
        Verdict::Pass => 4,
        Verdict::NotChecked => 5,
    }
}

/// Failing rows first; within a verdict danger, then the most used.
pub(super) fn worst_first(a: &Row, b: &Row) -> std::cmp::Ordering {
    let used = |row: &Row| match row.verdict {
        // Sizes and floors that hold use nothing.
        Verdict::Fail | Verdict::Advise => severity(row),
        _ => row.used.map_or(f64::NEG_INFINITY, Quantity::si),
    };
    let danger = b.is_danger().cmp(&a.is_danger());
    rank(a.verdict).cmp(&rank(b.verdict)).then(danger).then(used(b).total_cmp(&used(a)))
}

/// A row's name in a sentence.
pub(super) fn the(row: &Row) -> String {
    let name = row.name();
    if matches!(row.of, Of::Axle(_)) && name.starts_with("axle") { name } else { format!("the {name}") }
}

/// Each rating that axles have, as a limit is named, those of one rating together.
pub(super) fn axle_ratings(setup: &Setup, units: UnitSystem) -> Vec<(String, Weight)> {
    let axles = &setup.trailer.axles;
    let mut ratings: Vec<(Vec<String>, Weight)> = Vec::new();
    for (axle, n) in axles.iter().zip(1..) {
        let Some(rating) = axle.rating else { continue };
        match ratings.iter_mut().find(|(_, known)| *known == rating) {
            Some((named, _)) => named.push(n.to_string()),
            None => ratings.push((vec![n.to_string()], rating)),
        }
    }
    let name = |(named, rating): (Vec<String>, Weight)| {
        let shown = units.weight(rating);
        let name = match named.len() {
            all if all == axles.len() => format!("rating {shown}"),
            1 => format!("axle {} rated {shown}", named[0]),
            _ => format!("axles {} rated {shown}", words::listed(&named)),
        };
        (name, rating)
    };
    ratings.into_iter().map(name).collect()
}

pub(super) fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

/// A weight rounded up to the next whole unit, or ten of them over a ramp, whose peaks are known no closer:
/// what is asked for must suffice.
fn weight_at_least(row: &Row, si: f64, units: UnitSystem) -> String {
    let step = if row.is_about_ramps() { 10.0 } else { 1.0 };
    let number = units.weight_number(Weight::from_si(si));
    // A whole number that arithmetic left a hair above itself stays.
    let steps = ((number - 1e-6) / step).ceil();
    format!("{} {}", whole(steps * step), units.weight_unit())
}

/// A move rounded away from zero to what a tape can set.
fn move_at_least(by: Length, units: UnitSystem) -> String {
    let step = match units {
        UnitSystem::Us => 0.0254 / 4.0,
        UnitSystem::Metric => 0.005,
    };
    let steps = (by.si().abs() / step - 1e-6).ceil();
    words::aft(Length::from_si(by.si().signum() * steps * step), units)
}
