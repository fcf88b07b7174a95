//! The report of a weighing: what readings of scales say of the boat, what contradicts what, and what to weigh next.

use super::document::{Cell, Document, Holds, Role, Table, Text};
use super::sections::verdict_title;
use super::words;
use crate::quantity::parse::parse_si;
use crate::quantity::show::{UnitSystem, decimals, whole};
use crate::quantity::{Kind, Length, Quantity, Uncertain, Weight};
use crate::rig::inputs::{TRAILER_CG, TRAILER_CG_HEIGHT, TRAILER_TONGUE_WEIGHT, TRAILER_WEIGHT};
use crate::rig::{Key, OnScale, Rig, SuspensionKind};
use crate::study::weigh::{Estimate, Found, Open, Others, Outside, Part, Reading, State, Weighed};

/// What a rig file states of an input that was found: a text, and what it says in SI. What rounding takes from the value is
/// in the ±. `None` where no reading decides it.
pub fn to_write(found: &Found, units: UnitSystem) -> Option<(String, Uncertain<f64>)> {
    let Estimate { value, bound, .. } = found.estimate;
    let text = shown(value, found.kind, units);
    let rounded = parse_si(&text, found.kind).ok()?.value;
    let text = format!("{text} ± {}", at_least(bound? + (value - rounded).abs(), found.kind, units));
    let read = parse_si(&text, found.kind).ok()?;
    Some((text, read))
}

/// The report of a weighing.
pub fn report(path: &str, rig: &Rig, weighed: &Weighed, units: UnitSystem) -> Document {
    let mut report = Report { rig, weighed, units, document: Document::default() };
    report.answer(path);
    report.figures();
    report.readings();
    report.what_is_open();
    report.inputs();
    report.document.paragraph(words::SCREENING);
    report.document
}

struct Report<'a> {
    rig: &'a Rig,
    weighed: &'a Weighed,
    units: UnitSystem,
    document: Document,
}

/// In metres.
const INCH: f64 = 0.0254;

/// A weight or a length as a tape or a scale shows it.
fn shown(si: f64, kind: Kind, units: UnitSystem) -> String {
    match kind {
        Kind::Weight => units.weight(Weight::from_si(si)),
        _ => units.length(Length::from_si(si)),
    }
}

/// A ±, rounded up to a whole pound or kilogram, a sixteenth of an inch or a millimetre; a wide one of a length to a whole
/// inch, or to 10 mm.
fn at_least(si: f64, kind: Kind, units: UnitSystem) -> String {
    if kind == Kind::Weight {
        let number = units.weight_number(Weight::from_si(si));
        // A whole number that arithmetic left a hair above itself stays.
        return format!("{} {}", whole((number - 1e-6).ceil()), units.weight_unit());
    }
    let (wide, step) = match units {
        UnitSystem::Us => (3.0 * INCH, INCH),
        UnitSystem::Metric => (0.1, 0.01),
    };
    let si = if si > wide { (si / step - 1e-6).ceil() * step } else { si };
    units.distance_at_least(Length::from_si(si))
}

/// A share, no finer than a scale gives it.
fn share(si: f64) -> String {
    format!("{} %", decimals(100.0 * si, 2))
}

/// What stands on a scale, in which state: `tongue, boat 3 in aft`.
fn state(state: &State, rig: &Rig, units: UnitSystem) -> String {
    let what = match state.what {
        OnScale::TowFront => "tow vehicle's front axle".to_string(),
        OnScale::TowRear => "tow vehicle's rear axle".to_string(),
        OnScale::Axles => "all axles".to_string(),
        OnScale::Gross => "boat and trailer".to_string(),
        what => what.word().replace('-', " "),
    };
    let coupled = (!state.coupled).then(|| "uncoupled".to_string());
    let moved = state.boat != Length::default();
    let boat = moved.then(|| format!("boat {}", words::aft(state.boat, units)));
    let ball = state.ball_height.map(|height| format!("ball at {}", units.distance(height)));
    let case = (rig.measured().cases.len() > 1).then(|| format!("case {}", state.case + 1));
    let parts: Vec<String> = [Some(what), coupled, boat, ball, case].into_iter().flatten().collect();
    parts.join(", ")
}

impl Report<'_> {
    fn weight(&self, si: f64) -> String {
        shown(si, Kind::Weight, self.units)
    }

    /// A value with its ±.
    fn with_bound(&self, value: f64, bound: f64, kind: Kind) -> String {
        format!("{} ± {}", shown(value, kind, self.units), at_least(bound, kind, self.units))
    }

    fn answer(&mut self, path: &str) {
        let contradictions = self.contradictions();
        let impossible = self.weighed.outside.iter().find(|outside| !outside.is_within_bound());
        let (role, word, answer) = match (&contradictions[..], impossible, self.shares()) {
            ([first, ..], ..) => (Role::Fail, "CONTRADICTED", first.clone()),
            ([], Some(outside), _) => (Role::Fail, "IMPOSSIBLE", self.outside(outside)),
            ([], None, Some(shares)) => (Role::Pass, "WEIGHED", shares),
            ([], None, None) => {
                let open = "These readings do not decide what the tongue carries of the gross weight.";
                (Role::NotChecked, "NOT DECIDED", open.to_string())
            }
        };
        self.document.add_title(verdict_title(role, word, &answer));
        let name = self.rig.measured().title.as_deref().unwrap_or(path);
        self.document.paragraph(match self.rig.measured().cases.len() {
            1 => name.to_string(),
            _ => format!("{name}, in \"{}\"", words::case(self.rig, 0)),
        });
        if !self.weighed.past.is_empty() {
            let past = self.weighed.past.iter().map(|past| {
                let by = self.units.weight(past.by);
                format!("{by} over {} ({})", past.key, self.units.weight(past.rating))
            });
            let past: Vec<String> = past.collect();
            self.document.paragraph(format!("That is {}. Do not tow it so.", words::listed(&past)));
        }
        if !contradictions.is_empty() {
            let alone = contradictions.len() == 1;
            self.document.list(contradictions.into_iter().skip(1));
            let apart = self
                .weighed
                .readings
                .iter()
                .any(|reading| reading.is_contradicted && reading.state.what.axle().is_some());
            if apart && self.rig.measured().trailer.suspension.kind == Some(SuspensionKind::LeafEqualized) {
                self.document.paragraph("Equalized axles share to within some 10 %: state what all of them carry as one reading of the axles.");
            }
            let wrong = if alone {
                "It is the one that agrees least with all the rest, and most likely wrong"
            } else {
                "One of these is wrong, and nothing decides which"
            };
            self.document.paragraph(format!("{wrong}: weigh it again, take it out, or state the ± that it really has. Until then trust none of the figures below."));
        }
        for outside in &self.weighed.outside {
            let text = if outside.is_within_bound() {
                format!(
                    "{} Its ± reaches back to where it can be, but --write states no such boat.",
                    self.outside(outside)
                )
            } else {
                likely_cause(outside.what).to_string()
            };
            self.document.paragraph(text);
        }
    }

    /// Gross and tongue weight in a sentence, where the readings decide them.
    fn shares(&self) -> Option<String> {
        let of = |estimate: Option<Estimate>| estimate.and_then(|figure| Some((figure.value, figure.bound?)));
        let (gross, tongue) = (of(self.weighed.gross)?, of(self.weighed.tongue)?);
        let (part, bound) = of(self.weighed.share)?;
        Some(format!(
            "Boat and trailer weigh {}. The tongue carries {}, {} ± {} of that.",
            self.with_bound(gross.0, gross.1, Kind::Weight),
            self.with_bound(tongue.0, tongue.1, Kind::Weight),
            share(part),
            share(bound)
        ))
    }

    /// What is contradicted, the most contradicted first.
    fn contradictions(&self) -> Vec<String> {
        let numbered = self.weighed.readings.iter().enumerate();
        let readings = numbered.filter(|(_, reading)| reading.is_contradicted).filter_map(|(i, reading)| {
            let shows = self.with_bound(reading.shown.si(), reading.bound.si(), Kind::Weight);
            let name = format!("Reading {} ({}) shows {shows}", i + 1, self.state(&reading.state));
            Some((name, Kind::Weight, reading.others?))
        });
        let found = self.weighed.found.iter().filter(|found| found.is_contradicted).filter_map(|found| {
            let states = self.with_bound(found.estimate.stated?, found.stated_bound?, found.kind);
            Some((format!("In the file {} is {states}", found.key), found.kind, found.others?))
        });
        let mut all: Vec<(String, Kind, Others)> = readings.chain(found).collect();
        all.sort_by(|(.., one), (.., other)| other.off.abs().total_cmp(&one.off.abs()));
        let sentence = |(what, kind, others): (String, Kind, Others)| {
            let given = self.with_bound(others.value, others.bound, kind);
            format!("{what}; all the rest gives {given}.")
        };
        all.into_iter().map(sentence).collect()
    }

    /// What lies where it cannot, in a sentence.
    fn outside(&self, outside: &Outside) -> String {
        let Outside { what, value, bound, within: [least, most] } = outside;
        let is_short = value < least;
        let beyond = if is_short { least - value } else { value - most };
        let (name, end) = match (what, is_short) {
            (Part::BoatStation, true) => ("The boat's centre of gravity", "behind the transom"),
            (Part::BoatStation, false) => ("The boat's centre of gravity", "ahead of the bow"),
            (Part::BoatHeight, true) => ("The boat's centre of gravity", "below the keel line"),
            (Part::BoatHeight, false) => ("The boat's centre of gravity", "above the boat's top"),
            (Part::TrailerStation, true) => ("The empty trailer's centre of gravity", "ahead of the ball"),
            (Part::TrailerStation, false) => ("The empty trailer's centre of gravity", "behind its end"),
        };
        format!("{name} comes out {} {end}.", self.with_bound(beyond, *bound, Kind::Length))
    }

    fn state(&self, of: &State) -> String {
        state(of, self.rig, self.units)
    }

    /// What was found of the rig as it stands in its first case.
    fn figures(&mut self) {
        let mut table = Table::new([
            (Holds::Name, ""),
            (Holds::Numbers, "found"),
            (Holds::Words, "± 2 sigma"),
            (Holds::Numbers, "by the file"),
        ]);
        let Weighed { boat, gross, tongue, .. } = self.weighed;
        for (name, figure, kind) in [
            ("Boat, all aboard", boat.weight, Kind::Weight),
            ("CG forward of the transom", boat.station, Kind::Length),
            ("CG above the keel line", boat.height, Kind::Length),
            ("Boat and trailer", *gross, Kind::Weight),
            ("Tongue", *tongue, Kind::Weight),
        ] {
            let show = |si| shown(si, kind, self.units);
            let least = |bound| at_least(bound, kind, self.units);
            table.rows.extend(figure.and_then(|figure| row(name, figure, show, least)));
        }
        table.rows.extend(self.weighed.share.and_then(|figure| row("Tongue share", figure, share, share)));
        if !table.rows.is_empty() {
            self.document.table(table);
        }
    }

    fn readings(&mut self) {
        let mut table = Table::new([
            (Holds::Numbers, ""),
            (Holds::Name, "reading"),
            (Holds::Numbers, "shows"),
            (Holds::Words, "±"),
            (Holds::Numbers, "as found"),
            (Holds::Numbers, "off"),
            (Holds::Words, ""),
        ]);
        let numbered = self.weighed.readings.iter().enumerate();
        table.rows = numbered.map(|(i, reading)| self.reading(i, reading)).collect();
        self.document.table(table);
    }

    fn reading(&self, at: usize, reading: &Reading) -> Vec<Cell> {
        let off = self.weight((reading.shown - reading.fitted).si());
        let word = match reading.others {
            _ if reading.is_contradicted => Text::of(Role::Fail, "contradicted"),
            Some(_) => Text::default(),
            None => Text::of(Role::Muted, "unchecked"),
        };
        vec![
            (at + 1).to_string().into(),
            self.state(&reading.state).into(),
            self.weight(reading.shown.si()).into(),
            format!("± {}", at_least(reading.bound.si(), Kind::Weight, self.units)).into(),
            self.weight(reading.fitted.si()).into(),
            off.into(),
            word.into(),
        ]
    }

    /// What the readings leave open, and what to weigh next.
    fn what_is_open(&mut self) {
        for open in &self.weighed.open {
            self.document.fact("Not decided", self.open(open));
        }
        let unnarrowed = self.unnarrowed();
        if let Some(off) = boat_off(&unnarrowed) {
            let keys = words::keys(&unnarrowed).join(" and ");
            self.document.fact("Not narrowed", format!("{keys}. {off}"));
        }
        let next = match &self.weighed.next {
            Some(next) => {
                let now = self.weighed.share.and_then(|share| share.bound);
                let leaves = match now.map(share) {
                    Some(now) => format!("narrows the tongue share from ± {now} to"),
                    None => "gives the tongue share to".to_string(),
                };
                let is_taken = self.weighed.readings.iter().any(|reading| reading.state == next.state);
                let again = if is_taken { ", once more" } else { "" };
                format!(
                    "{}{again}. Good to ± {}, it {leaves} ± {}.",
                    self.state(&next.state),
                    at_least(next.good_to.si(), Kind::Weight, self.units),
                    share(next.leaves)
                )
            }
            None => "no single reading narrows the tongue share".to_string(),
        };
        self.document.fact("Weigh next", next);
    }

    fn open(&self, open: &Open) -> String {
        let keys = words::keys(&open.keys).join(" and ");
        let off = boat_off(&open.keys);
        match &open.resolved_by {
            Some(state) => {
                let kind = open.keys.first().and_then(|key| self.rig.kind(*key));
                let leaves = open.leaves.zip(kind).map(|(bound, kind)| at_least(bound, kind, self.units));
                let it = if open.keys.len() > 1 { "the first" } else { "it" };
                // A reading that moves all of them tells the trailer from the boat no better.
                let off = off.filter(|_| leaves.is_none()).map_or(String::new(), |off| format!(" {off}"));
                let leaves = leaves.map_or(String::new(), |bound| format!("; that gives {it} to ± {bound}"));
                format!("{keys}. Weigh: {}{leaves}.{off}", self.state(state))
            }
            None => match off {
                Some(off) => format!("{keys}. {off}"),
                None => format!("{keys}. No reading of this rig decides it."),
            },
        }
    }

    /// What the file states of the empty trailer with ±, and no reading narrows: the boat lies on the trailer in all of them.
    fn unnarrowed(&self) -> Vec<Key> {
        /// A ± that is left this much of what was stated is as good as it was.
        const MOST_OF_IT: f64 = 0.9;
        let is_left = |found: &&Found| {
            let bounds = found.estimate.bound.zip(found.stated_bound);
            bounds.is_some_and(|(bound, stated)| bound >= MOST_OF_IT * stated)
        };
        let found = self.weighed.found.iter().filter(|found| is_trailers(found.key)).filter(is_left);
        found.map(|found| found.key).collect()
    }

    /// The inputs as a rig file states them.
    fn inputs(&mut self) {
        let found = self.weighed.found.iter();
        let line = |found: &Found| Some(format!("{} = \"{}\"", found.key, to_write(found, self.units)?.0));
        let lines: Vec<String> = found.filter_map(line).collect();
        if self.weighed.can_be_stated() && !lines.is_empty() {
            self.document.fact("To keep", "--write NEW puts these into a new rig file, to check:");
            self.document.code(&lines);
        }
    }
}

/// Where to look for the mistake that puts a centre of gravity where it cannot be.
fn likely_cause(what: Part) -> &'static str {
    match what {
        Part::BoatStation => {
            "No boat is like that. Look for a wrong digit or unit in the tongue's reading, in trailer.bow_stop, in the stations of the axles and of what lies in the boat, and in the trailer's own weight and tongue weight; or for a reading taken in another state than the file says. --write states no such boat."
        }
        Part::BoatHeight => {
            "No boat is like that. Her height follows from how little the tongue's weight changes with the ball's height: look at the ball heights of these readings, and at trailer.level_ball_height, keel_height and cg_height. --write states no such boat."
        }
        Part::TrailerStation => {
            "No trailer is like that. Look for a wrong digit or unit in the readings without the boat or with the boat moved, and in the boat's own weight and station. --write states no such trailer."
        }
    }
}

/// Whether an input is the empty trailer's.
fn is_trailers(key: Key) -> bool {
    [TRAILER_WEIGHT.path(), TRAILER_TONGUE_WEIGHT.path(), TRAILER_CG.path(), TRAILER_CG_HEIGHT.path()]
        .contains(&key.path)
}

/// The weighing of the empty trailer that decides its part of these; none where none of them is the trailer's. A case that
/// leaves the boat out would be a reading of it, but few files have one.
fn boat_off(keys: &[Key]) -> Option<String> {
    let has = |handles: &[&str]| keys.iter().any(|key| handles.contains(&key.path));
    let weight = has(&[TRAILER_WEIGHT.path()]);
    let centre = has(&[TRAILER_TONGUE_WEIGHT.path(), TRAILER_CG.path()]);
    let tongue = "and state trailer.tongue_weight in place of trailer.cg";
    let what = match (weight, centre) {
        (true, true) => {
            format!("weigh the trailer and its tongue with the boat off, state trailer.weight, {tongue}")
        }
        (true, false) => "weigh the trailer with the boat off, and state trailer.weight".to_string(),
        (false, true) => format!("weigh the trailer's tongue with the boat off, {tongue}"),
        (false, false) if has(&[TRAILER_CG_HEIGHT.path()]) => {
            "weigh the trailer's tongue with the boat off at two heights of the ball".to_string()
        }
        (false, false) => return None,
    };
    Some(format!("For the trailer's own part {what}."))
}

/// A figure with its ± beside what the file gives; `None` of what is not decided.
fn row(
    name: &str,
    figure: Estimate,
    show: impl Fn(f64) -> String,
    least: impl Fn(f64) -> String,
) -> Option<Vec<Cell>> {
    let bound = format!("± {}", least(figure.bound?));
    let stated = figure.stated.map_or(String::new(), &show);
    Some(vec![name.into(), show(figure.value).into(), bound.into(), stated.into()])
}
