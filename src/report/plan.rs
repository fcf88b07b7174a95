//! The plan in words: what to do, in order, what becomes of the rig, and the other ways.

use super::document::{Document, Holds, Role, Table, Text};
use super::sections::worst_first;
use super::words::{self, listed};
use crate::fit::{Amount, Judge, RigVerdict, Row, Verdict};
use crate::quantity::show::UnitSystem;
use crate::quantity::{Length, Pressure, Quantity, Weight};
use crate::rig::inputs::{Handle, TRAILER_AXLES_TIRES_RATING, TRAILER_AXLES_WHEELS_RATING};
use crate::study::plan::{Action, After, Alternative, Conflict, Figure, Item, Plan, Room, Step};

/// How many ids stand in a sentence before the rest is a count.
const NAMED: usize = 4;
/// Nothing is set more closely than a window of an eighth of an inch, in metres. Common practice, no source.
const NARROW: f64 = 0.003_175;

/// The plan as part of a report: a numbered list, what becomes of the rig, what conflicts, and the alternatives.
///
/// Where nothing that may be changed helps, it says so; where values of the file are doubted, those come first.
pub fn section(plan: &Plan, doubted: &[String], units: UnitSystem) -> Document {
    let mut section = Section { units, document: Document::default() };
    section.steps(plan, doubted);
    if !plan.steps.is_empty() {
        section.after(&plan.after);
    }
    if let Some(sway) = &plan.sway {
        let sway = words::sway(sway, "now", units);
        section.document.paragraph(format!("Sway: it is then {sway}. {}", words::NO_VERDICT_ON_SWAY));
    }
    section.conflicts(&plan.conflicts);
    for alternative in &plan.alternatives {
        section.alternative(alternative);
    }
    section.document
}

/// The steps of a plan alone, each with what there is now and what is needed.
pub(super) fn work(plan: &Plan, units: UnitSystem) -> Document {
    let mut section = Section { units, document: Document::default() };
    section.document.heading("What to do");
    section.table(plan);
    section.document
}

/// What each step of a plan asks for, in a line.
pub(super) fn steps(plan: &Plan, units: UnitSystem) -> Vec<String> {
    let section = Section { units, document: Document::default() };
    plan.steps.iter().map(|step| section.what(step)).collect()
}

/// That a move of the boat was not looked at, where it was not, and what is missing for it.
fn lacking(plan: &Plan) -> Option<String> {
    let keys = words::keys(&plan.lacks);
    (!keys.is_empty()).then(|| {
        format!(
            "The file does not say enough to compute what a move of the boat does. To have it computed fill in {}.",
            listed(&keys)
        )
    })
}

struct Section {
    units: UnitSystem,
    document: Document,
}

impl Section {
    fn steps(&mut self, plan: &Plan, doubted: &[String]) {
        let outcome = match plan.after.fails.len() {
            0 if plan.after.verdict == RigVerdict::Unsure || !plan.after.unsure.is_empty() => {
                "after all of it nothing fails, but not all is sure".to_string()
            }
            0 if plan.after.verdict == RigVerdict::Incomplete => {
                "after all of it nothing fails, but not all is checked".to_string()
            }
            0 => "after all of it nothing fails".to_string(),
            1 => "after all of it one check still fails".to_string(),
            n => format!("after all of it {n} checks still fail"),
        };
        if plan.steps.is_empty() && !doubted.is_empty() {
            self.document.heading("What to do: correct the file first");
            let read =
                format!("Read {} again, digits and unit. Buy and move nothing before that.", listed(doubted));
            self.document.paragraph(read);
            return;
        }
        if plan.steps.is_empty() {
            self.document.heading("What to do");
            match lacking(plan) {
                Some(said) => self.document.paragraph(said),
                None => {
                    self.document.paragraph("Nothing that a plan may change makes fewer checks fail.");
                }
            }
            return;
        }
        if doubted.is_empty() {
            self.document.heading(format!("What to do: {outcome}"));
        } else {
            self.document.heading("What to do: correct the file first");
            let them = if doubted.len() == 1 { "it is" } else { "they are" };
            self.document.paragraph(format!(
                "Read {} again, digits and unit. Buy and move nothing before that. If {them} right, {outcome}:",
                listed(doubted)
            ));
        }
        self.table(plan);
        if !plan.enough.is_empty() {
            let parts: Vec<String> =
                plan.enough.iter().map(|(_, step)| lower_first(&self.what(step))).collect();
            let nothing = if plan.after.fails.is_empty() { "nothing" } else { "no more" };
            self.document.paragraph(format!(
                "For {nothing} to fail it is enough to {}; what is listed meets more of what only advises.",
                listed(&parts)
            ));
        }
        if let Some((_, step)) = &plan.surest {
            self.document.paragraph(format!("{} instead, and fewer checks are in doubt.", self.what(step)));
        }
        if let Some(said) = lacking(plan) {
            self.document.paragraph(said);
        }
    }

    /// The steps, a line each.
    fn table(&mut self, plan: &Plan) {
        let mut table = Table::new([(Holds::Name, ""), (Holds::Words, "")]);
        for (i, step) in plan.steps.iter().enumerate() {
            let what = format!("{}  {}", i + 1, self.what(step));
            table.rows.push(vec![what.into(), self.note(step).into()]);
        }
        self.document.table(table);
        let tires = plan.steps.iter().find_map(|step| match step.action {
            Action::Replace { item: Item::Tires, at_sidewall: Some(at_sidewall), .. } => Some(at_sidewall),
            _ => None,
        });
        if let Some(at_sidewall) = tires {
            self.document.paragraph(if at_sidewall {
                "Pump new tires to their own sidewall's pressure, put their size and pressures in the file and check again: their room is judged by the old ones."
            } else {
                "New tires are sized at the pressure in the file, by a sidewall that is assumed: read tires.pressure_max first."
            });
        }
    }

    /// What a step asks for.
    fn what(&self, step: &Step) -> String {
        match &step.action {
            Action::Move { part, from, to, .. } => {
                let by = *to - *from;
                let way = words::aft(by, self.units);
                match part.path() {
                    "shift.boat" => format!("Move the boat {way}"),
                    "shift.axles" => format!("Move the axles {way}"),
                    "shift.bunks" => format!("Move the bunks {way}"),
                    _ if by.si() < 0.0 => format!("Draw the tongue out {}", self.units.distance(-by)),
                    _ => format!("Draw the tongue in {}", self.units.distance(by)),
                }
            }
            Action::Level { to, .. } => format!("Set the ball at {}", self.units.distance(*to)),
            Action::Inflate { from, to, all, .. } => self.inflate(*from, to, *all),
            Action::Shorten { to, .. } => format!("Cut the winch's strap to {}", self.units.length(*to)),
            Action::Ashore { from, to } => format!("Leave {} ashore", self.units.weight(*to - *from)),
            Action::Board { to, .. } => format!("Cut new bunks of {to}"),
            Action::Crossmember { at, like } => {
                let [at, like] = [at, like].map(|station| self.units.length(*station));
                format!("Add a crossmember {at} behind the ball, like the one at {like}")
            }
            Action::Ends { to: [forward, aft], .. } => {
                let end = |end: &Option<Length>| end.map(|end| self.units.length(end)).unwrap_or_default();
                format!("Let the bunks reach from {} to {}", end(forward), end(aft))
            }
            Action::Raise { by } => format!("Raise the boat {} on its bunks", self.units.distance(*by)),
            Action::Replace { item, figures, load_index, outgrown, .. } => {
                let mut shown: Vec<String> = figures.iter().map(|figure| self.figure(figure)).collect();
                shown.dedup();
                let shown = shown.join(", ");
                match item {
                    Item::Axles => format!("Fit axles {shown} with their springs"),
                    // Tires of their size are not made for so much.
                    Item::Tires => {
                        let larger = if outgrown.is_some() { "larger " } else { "" };
                        format!("Fit {larger}{}", self.tires_and_wheels(figures, *load_index))
                    }
                    _ => format!("Fit {} {shown}", name(*item)),
                }
            }
        }
    }

    /// Tires that are pumped up, or let down, those of one pressure together.
    fn inflate(&self, from: Option<Pressure>, to: &[(usize, Pressure)], all: bool) -> String {
        let mut groups: Vec<(Pressure, Vec<String>)> = Vec::new();
        for (axle, pressure) in to {
            let axle = (axle + 1).to_string();
            match groups.iter_mut().find(|(known, _)| known == pressure) {
                Some((_, axles)) => axles.push(axle),
                None => groups.push((*pressure, vec![axle])),
            }
        }
        let of = |axles: &[String]| match axles.len() {
            _ if all && groups.len() == 1 => String::new(),
            1 => format!(" of axle {}", axles[0]),
            _ => format!(" of axles {}", listed(axles)),
        };
        let [(to, axles)] = &groups[..] else {
            let each = |(to, axles): &(Pressure, Vec<String>)| {
                format!("those{} {}", of(axles), self.units.inflation(*to))
            };
            let each: Vec<String> = groups.iter().map(each).collect();
            return format!("Give the tires their pressures: {}", listed(&each));
        };
        let way = if from.is_some_and(|from| from > *to) { "Let" } else { "Pump" };
        let end = if way == "Let" { "down" } else { "up" };
        format!("{way} the tires{} {end} to {}", of(axles), self.units.inflation(*to))
    }

    /// Tires, wheels or both, each by what it is rated for.
    fn tires_and_wheels(&self, figures: &[Figure], load_index: Option<u32>) -> String {
        let index = load_index.map(|index| format!(" (load index {index})")).unwrap_or_default();
        let rated = |key: Handle<Weight>| {
            let figure = figures.iter().find(|figure| figure.key.path == key.path());
            figure.map(|figure| self.amount_at_least(figure.to))
        };
        match (rated(TRAILER_AXLES_TIRES_RATING), rated(TRAILER_AXLES_WHEELS_RATING)) {
            (Some(tire), Some(wheel)) if tire == wheel => format!("tires and wheels of {tire} each{index}"),
            (Some(tire), Some(wheel)) => format!("tires of {tire} each{index} on wheels of {wheel}"),
            // No check compares a wheel with what its tire carries while the rear axle hangs.
            (Some(tire), None) => format!("tires of {tire} each{index}, on wheels rated for them"),
            (None, wheel) => format!("wheels of {} each", wheel.unwrap_or_default()),
        }
    }

    fn figure(&self, figure: &Figure) -> String {
        let amount = self.amount_at_least(figure.to);
        match figure.key.path.rsplit('.').next() {
            Some("tongue_rating") => format!("of {amount} on the tongue"),
            Some("bore") => format!("of {amount} bore"),
            Some("d_value") => format!("of D {amount}"),
            Some("dc_value") => format!("of Dc {amount}"),
            Some("v_value") => format!("of V {amount}"),
            _ => format!("of {amount}"),
        }
    }

    /// A rating to the whole pound or kilogram; what is needed rounds up.
    fn amount_at_least(&self, amount: Amount) -> String {
        match amount {
            Amount::Weight(weight) => {
                let unit = weight.si() / self.units.weight_number(weight);
                // A hair over a whole unit is rounding.
                let whole = (self.units.weight_number(weight) - 1e-6).ceil();
                self.units.weight(Weight::from_si(whole * unit))
            }
            Amount::Force(force) => {
                // A hair over a hundredth of a kilonewton is rounding.
                let newtons = ((force.si() / 10.0 - 1e-6).ceil()) * 10.0;
                self.units.force(Weight::from_si(newtons))
            }
            Amount::Length(size) => self.units.size(size),
            other => words::amount(other, self.units),
        }
    }

    /// What is good to know beside a step.
    fn note(&self, step: &Step) -> String {
        match &step.action {
            Action::Move { part, from, window, room, .. } => {
                let window = window.map(|window| {
                    let by = [window.from - *from, window.to - *from];
                    if window.width().si() < NARROW {
                        return "with no room either way".to_string();
                    }
                    format!("window {}", self.by(by))
                });
                let room = match room {
                    Room::Within => None,
                    Room::Beyond(_) => Some("beyond its travel".to_string()),
                    Room::Unstated => {
                        Some(format!("no {} in the file", part.path().replace("shift", "travel")))
                    }
                };
                window.into_iter().chain(room).collect::<Vec<_>>().join("; ")
            }
            Action::Level { from, .. } => {
                let now = from.map(|from| format!("now {}; ", self.units.distance(from)));
                format!("{}the frame then sits level", now.unwrap_or_default())
            }
            Action::Inflate { from, is_on_sidewall, .. } => {
                let now = from.map(|from| format!("now {}; ", self.units.inflation(from)));
                let most = if *is_on_sidewall { "" } else { ", and never above the sidewall's figure" };
                format!("{}cold{most}", now.unwrap_or_default())
            }
            Action::Shorten { from, .. } => {
                let now = from.map(|from| format!("now {}; ", self.units.length(from)));
                format!("{}it reaches the eye half a boat out", now.unwrap_or_default())
            }
            Action::Ashore { from, .. } if from.si() > 0.0 => {
                format!("beside {} that stays ashore already", self.units.weight(*from))
            }
            Action::Ashore { .. } => "at the boat's centre of gravity".to_string(),
            Action::Board { from, raises, .. } => {
                let raised = |by: Length| match by.si() {
                    0.0 => String::new(),
                    by if by < 0.0 => {
                        format!("the boat comes {} lower", self.units.distance(Length::from_si(-by)))
                    }
                    by => format!("the boat stands {} higher", self.units.distance(Length::from_si(by))),
                };
                let now = from.as_ref().map(|from| format!("now {from}"));
                let raised = raises.map(raised).filter(|raised| !raised.is_empty());
                now.into_iter().chain(raised).collect::<Vec<_>>().join("; ")
            }
            Action::Ends { from: [forward, aft], .. } => {
                let end = |end: &Option<Length>| end.map(|end| self.units.length(end)).unwrap_or_default();
                format!("now {} to {}", end(forward), end(aft))
            }
            Action::Crossmember { .. } => String::new(),
            Action::Raise { .. } => "with spacers".to_string(),
            Action::Replace { figures, .. } => {
                let needed = figures.iter().find(|figure| figure.needed.is_some()).or(figures.first());
                needed.map(|figure| self.now_and_needed(figure)).unwrap_or_default()
            }
        }
    }

    fn now_and_needed(&self, figure: &Figure) -> String {
        let now = figure.from.map(|now| match now {
            Amount::Length(size) => format!("now {}", self.units.size(size)),
            now => format!("now {}", words::amount(now, self.units)),
        });
        let needed = figure.needed.map(|needed| format!("needs {}", self.amount_at_least(needed)));
        now.into_iter().chain(needed).collect::<Vec<_>>().join("; ")
    }

    /// From one move to another, nearest first.
    fn by(&self, [one, other]: [Length; 2]) -> String {
        let (near, far) = if one.abs() <= other.abs() { (one, other) } else { (other, one) };
        if near.si() * far.si() < 0.0 {
            return format!("{} to {}", self.at_most(near), self.at_most(far));
        }
        format!("{} to {}", self.units.distance_at_least(near.abs()), self.at_most(far))
    }

    /// The end of a window, rounded into it.
    fn at_most(&self, by: Length) -> String {
        words::aft(self.units.within_tape(by), self.units)
    }

    fn after(&mut self, after: &After) {
        let mut said = Vec::new();
        let thin = few(worst_of_each_check(after.thin.iter()).into_iter().map(used));
        if !thin.is_empty() {
            said.push(format!("What becomes thin: {thin}."));
        }
        // Rows that are only thin were named before.
        let worse = after.worse.iter().filter(|row| row.verdict != Verdict::Thin);
        let worse = few(worst_of_each_check(worse).into_iter().map(|row| {
            let verdict = words::verdict(row.verdict).replace("not-checked", "not checked");
            let used = row.deciding().used.filter(|_| row.check.judge != Judge::Band);
            let used = used.map(|used| format!(", {}", words::used(used)));
            format!("{} ({verdict}{})", row.id(), used.unwrap_or_default())
        }));
        if !worse.is_empty() {
            said.push(format!("What gets worse: {worse}."));
        }
        let advises = most_used(&after.advises);
        if let [first, rest @ ..] = &advises[..] {
            let more = if rest.is_empty() { String::new() } else { format!(" and {} more", rest.len()) };
            said.push(format!("Still advised: {}{more}.", used(first)));
        }
        if !said.is_empty() {
            self.document.paragraph(said.join(" "));
        }
    }

    /// What still fails, and why.
    fn conflicts(&mut self, conflicts: &[Conflict]) {
        if conflicts.is_empty() {
            return;
        }
        self.document.paragraph("What still fails:");
        let shown = conflicts.iter().take(NAMED).map(|conflict| self.conflict(conflict));
        let more = conflicts.len().saturating_sub(NAMED);
        let more = (more > 0).then(|| Text::from(format!("and {more} more")));
        let items: Vec<Text> = shown.chain(more).collect();
        self.document.list(items);
    }

    fn conflict(&self, conflict: &Conflict) -> Text {
        let text = Text::of(Role::Key, &conflict.row.id()).then(": ");
        let text = text.then(&words::fault(&conflict.row, self.units));
        match &conflict.with {
            Some((other, apart)) => text
                .then("; where it would hold, ")
                .and(Role::Key, other)
                .then(&format!(" fails: {} lies between their places", self.units.distance_at_least(*apart))),
            None => text,
        }
    }

    fn alternative(&mut self, alternative: &Alternative) {
        let numbers: Vec<String> = alternative.instead_of.iter().map(|step| (step + 1).to_string()).collect();
        let ways: Vec<String> = alternative.steps.iter().map(|step| lower_first(&self.what(step))).collect();
        self.document.paragraph(format!("Instead of {}: {}.", listed(&numbers), listed(&ways)));
    }
}

/// Of the rows of one check the worst, the worst check first.
fn worst_of_each_check<'a>(rows: impl Iterator<Item = &'a Row>) -> Vec<&'a Row> {
    let mut rows: Vec<&Row> = rows.collect();
    rows.sort_by(|one, other| worst_first(one, other));
    let mut worst: Vec<&Row> = Vec::new();
    for row in rows {
        if worst.iter().all(|known| known.check != row.check) {
            worst.push(row);
        }
    }
    worst
}

/// Of the rows of one check the first, the one first that uses most of its limit.
fn most_used(rows: &[Row]) -> Vec<&Row> {
    let share = |row: &Row| row.deciding().used.map_or(0.0, Quantity::si);
    let mut rows: Vec<&Row> = rows.iter().collect();
    rows.sort_by(|one, other| share(other).total_cmp(&share(one)));
    let mut first: Vec<&Row> = Vec::new();
    for row in rows {
        if first.iter().all(|known| known.check != row.check) {
            first.push(row);
        }
    }
    first
}

/// A row with how much of its rating is used.
fn used(row: &Row) -> String {
    // The place inside a band is no share of a rating.
    match row.deciding().used.filter(|_| row.check.judge != Judge::Band) {
        Some(used) => format!("{} at {}", row.id(), words::used(used)),
        None => row.id(),
    }
}

/// The item with its article.
fn name(item: Item) -> &'static str {
    match item {
        Item::Axles => "axles",
        Item::Tires => "tires or wheels",
        Item::Coupler => "a coupler",
        Item::Receiver => "a receiver",
        Item::BallMount => "a ball mount",
        Item::Ball => "a ball",
        Item::Drawbar => "a drawbar",
        Item::Jack => "a tongue jack",
        Item::MasterCylinder => "a master cylinder",
    }
}

/// The first few, and how many more there are.
fn few(all: impl Iterator<Item = String>) -> String {
    let all: Vec<String> = all.collect();
    match all.len() {
        0..=NAMED => listed(&all),
        n => format!("{} and {} more", all[..NAMED - 1].join(", "), n - (NAMED - 1)),
    }
}

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
