//! What to change so that a rig which fails holds: the one list that an owner can follow.
//!
//! A plan is found by search and proved by assessing the changed rig whole. The search (`search`) goes by what each set
//! of changes costs: fewest failing rows first, then fewest moves beyond a stated travel, least weight ashore, fewest
//! parts, fewest moves, fewest rows that advise or are unsure. Parts follow from the loads at a place (`sold` has what
//! is sold), so only places and weight are searched, along lines on which loads run nearly straight ([`line`]).

mod line;
mod result;
mod search;
mod sold;
mod trial;
mod wood;

pub(super) use sold::{at_least, greatest};

pub use result::{Action, After, Alternative, Conflict, Figure, Item, Plan, Room, Setting, Step};

use crate::fit::{self, Amount, Assessment, Recalled, Remedy, RigVerdict, Row, Unfit, Verdict};
use crate::quantity::show::{UnitSystem, exact};
use crate::quantity::{Kind, Length, Pressure, Quantity, Weight, parse};
use crate::rig::inputs::{
    TRAILER_AXLES_TIRES_LOAD_INDEX, TRAILER_AXLES_TIRES_PRESSURE_MAX, TRAILER_AXLES_TIRES_RATING,
    TRAILER_BUNKS_BOARD, TRAILER_BUNKS_DEPTH, TRAILER_BUNKS_TOP, TRAILER_BUNKS_WIDTH, TRAILER_KEEL_HEIGHT,
};
use crate::rig::tires::{index_for, pumped_up};
use crate::rig::{INPUTS, Input, Key, Rig, Tires};
use crate::study::interval::Interval;
use crate::study::place::Part;
use crate::study::sway::sway;
use crate::study::uncertainty;
use search::{Group, Search, Solution};
use sold::SOLD;
use std::rc::Rc;
use trial::{Knob, Trial};
use wood::Added;

/// How often parts are bought a size larger.
const MOST_LARGER: usize = 3;
/// A row that goes farther past its limits by this share of them has become worse.
const CLEARLY: f64 = 0.1;

/// What to change in a rig so that fewest of its checks fail; `None` where none fails.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels.
///
/// ```
/// use bunkline::fit::RigVerdict;
/// use bunkline::study::plan::plan;
///
/// let rig = bunkline::Rig::parse(&std::fs::read_to_string("demo-data/electric-day-launch.toml")?)?;
/// let plan = plan(&rig)?.expect("it fails: its tongue is too heavy");
/// assert_eq!(plan.after.verdict, RigVerdict::Pass);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn plan(rig: &Rig) -> Result<Option<Plan>, Unfit> {
    Ok(of(rig, &uncertainty::assess(rig)?, false))
}

/// The same for a rig that has been assessed: as stated, or with all that is uncertain.
pub fn of(rig: &Rig, now: &Assessment, as_stated: bool) -> Option<Plan> {
    if now.verdict != RigVerdict::Fail {
        return None;
    }
    let units = rig.measured().units.map_or(UnitSystem::Us, UnitSystem::from);
    let unbalanced = unbalanced_by_a_move(rig);
    let balances = unbalanced.is_none();
    let planner = Planner { rig, now, units, as_stated, balances, recalled: Rc::default() };
    let mut search = planner.search()?;
    let solution = search.solve()?;
    let after = planner.after(&search, &solution)?;
    let (solution, after) = planner.surer(&search, solution, after);
    let steps = planner.steps(&search, &solution);
    let conflicts = conflicts(&mut search, &solution, &after);
    let enough = planner.enough(&mut search, &solution, &steps, &after.outcome);
    let surest = planner.surest(&mut search, &solution, &steps, &after.outcome);
    let alternatives = planner.alternatives(&solution, &steps, &after.outcome);
    let moves_boat = steps.iter().any(|step| matches!(step.action, Action::Move { part: Part::Boat, .. }));
    let lacks =
        if moves_boat { Vec::new() } else { lacking_for_a_move(rig, now, unbalanced.unwrap_or_default()) };
    let moves =
        steps.iter().any(|step| matches!(&step.action, Action::Move { part, .. } if *part != Part::Bunks));
    let sway = moves.then(|| sway(rig, &after.rig)).flatten();
    Some(Plan {
        steps,
        after: after.outcome,
        conflicts,
        lacks,
        enough,
        surest,
        alternatives,
        sway,
        rig: after.rig,
    })
}

/// The keys without which nobody knows what a moved boat does to tongue and axles, where something of that is not known: no move is
/// proposed that may lift the tongue.
fn unbalanced_by_a_move(rig: &Rig) -> Option<Vec<Key>> {
    let moved = rig.with("shift.boat+=1in").ok().and_then(|rig| fit::assess_off_ramps(&rig).ok());
    let there = moved.or_else(|| fit::assess_off_ramps(rig).ok())?;
    let is_unknown = |row: &&Row| row.load.is_none() && matches!(row.check.id, "tongue-share" | "axle-*");
    let unknown: Vec<&Row> = there.rows.iter().filter(is_unknown).collect();
    let mut keys: Vec<Key> = Vec::new();
    for key in unknown.iter().flat_map(|row| &row.missing) {
        if !keys.contains(key) {
            keys.push(*key);
        }
    }
    (!unknown.is_empty()).then_some(keys)
}

/// These keys, and those that failing rows lack once the boat is moved, an inch say; none where a move cures no row that fails.
fn lacking_for_a_move(rig: &Rig, now: &Assessment, unbalanced: Vec<Key>) -> Vec<Key> {
    let failing = now.rows.iter().filter(|row| row.verdict == Verdict::Fail);
    let failing: Vec<&Row> = failing.filter(|row| row.check.remedies.contains(&Remedy::MoveBoat)).collect();
    if failing.is_empty() || !unbalanced.is_empty() {
        return if failing.is_empty() { Vec::new() } else { unbalanced };
    }
    let moved = rig.with("shift.boat+=1in").ok().and_then(|rig| fit::assess(&rig).ok());
    let mut keys = Vec::new();
    for row in moved.iter().flat_map(|moved| &moved.rows) {
        if failing.iter().any(|known| known.check == row.check && known.of == row.of) {
            keys.extend(row.missing.iter().filter(|key| !keys.contains(*key)).copied().collect::<Vec<_>>());
        }
    }
    keys
}

/// What a plan is made from.
struct Planner<'a> {
    rig: &'a Rig,
    now: &'a Assessment,
    units: UnitSystem,
    as_stated: bool,
    /// Whether tongue and axles can be computed wherever the boat lies.
    balances: bool,
    /// What any of its searches crossed.
    recalled: Rc<Recalled>,
}

/// What becomes of a rig, and its rows.
struct Assessed {
    rig: Rig,
    outcome: After,
    rows: Vec<Row>,
}

impl<'a> Planner<'a> {
    fn search(&self) -> Option<Search<'a>> {
        let boats = self.now.cases.iter().filter_map(|case| case.boat.as_ref().ok());
        let lightest = boats.copied().reduce(Weight::min);
        // Every path is a key of the format.
        let trial = Trial::new(self.rig, Rc::clone(&self.recalled)).ok()?;
        Some(Search::new(trial, self.rig, self.units, lightest, self.balances))
    }

    /// The rig with a set of changes, assessed whole.
    fn after(&self, search: &Search<'_>, solution: &Solution) -> Option<Assessed> {
        let mut rig = search.rig_of(&solution.design).clone();
        let trial = search.trial.on(&rig).ok()?;
        for (key, value) in solution.values.iter().flat_map(|(knob, value)| trial.keys(*knob, *value)) {
            rig = rig.changed(&rig.number(key)?, value).ok()?;
        }
        let assessment =
            if self.as_stated { fit::assess(&rig).ok()? } else { uncertainty::assess(&rig).ok()? };
        let Assessment { rows, verdict, .. } = assessment;
        let before = |row: &Row| self.now.rows.iter().find(|now| now.check == row.check && now.of == row.of);
        let verdict_before = |row: &Row| before(row).map(|before| before.verdict);
        let ids = |verdict: Verdict| {
            rows.iter().filter(|row| row.verdict == verdict && row.counts).map(Row::id).collect::<Vec<_>>()
        };
        let (fails, unsure) = (ids(Verdict::Fail), ids(Verdict::Unsure));
        let thin = |row: &&Row| row.verdict == Verdict::Thin && verdict_before(row) != Some(Verdict::Thin);
        let worse = |row: &&Row| {
            badness(row.verdict) > verdict_before(row).map_or(0, badness)
                || before(row).is_some_and(|before| farther_past(before, row))
        };
        let outcome = After {
            verdict,
            fails,
            unsure,
            thin: rows.iter().filter(thin).cloned().collect(),
            worse: rows.iter().filter(worse).cloned().collect(),
            advises: rows
                .iter()
                .filter(|row| row.verdict == Verdict::Advise && !worse(row))
                .cloned()
                .collect(),
        };
        Some(Assessed { rig, outcome, rows })
    }

    /// The same with the next larger parts, for as long as that leaves fewer checks in doubt: what a search takes the ± to come to
    /// is not all that they do.
    fn surer(&self, search: &Search<'_>, solution: Solution, after: Assessed) -> (Solution, Assessed) {
        let (mut solution, mut after) = (solution, after);
        for _ in 0..MOST_LARGER {
            let Some(larger) = search.larger(&solution, &after.outcome.unsure) else { break };
            let Some(there) = self.after(search, &larger) else { break };
            let (then, now) = (&there.outcome, &after.outcome);
            if then.unsure.len() >= now.unsure.len() || then.fails.len() > now.fails.len() {
                break;
            }
            (solution, after) = (larger, there);
        }
        (solution, after)
    }

    /// The parts that would do where only what fails asks for them.
    fn enough(
        &self,
        search: &mut Search<'_>,
        solution: &Solution,
        steps: &[Step],
        after: &After,
    ) -> Vec<(usize, Step)> {
        let buys = steps.iter().any(|step| matches!(step.action, Action::Replace { .. }));
        let Some(lesser) = buys.then(|| search.least_parts(solution)).flatten() else { return Vec::new() };
        let Some(there) = self.after(search, &lesser).map(|there| there.outcome) else { return Vec::new() };
        if there.fails.len() > after.fails.len() || there.unsure.len() > after.unsure.len() {
            return Vec::new();
        }
        let place = |step: &Step| {
            let Action::Replace { item, .. } = &step.action else { return None };
            let alike =
                |other: &Step| matches!(&other.action, Action::Replace { item: known, .. } if known == item);
            steps.iter().position(alike).filter(|place| steps[*place].settings != step.settings)
        };
        self.steps(search, &lesser).into_iter().filter_map(|step| Some((place(&step)?, step))).collect()
    }

    /// So much left ashore that fewer checks are in doubt: the least that what fails asks for may leave some.
    fn surest(
        &self,
        search: &mut Search<'_>,
        solution: &Solution,
        steps: &[Step],
        after: &After,
    ) -> Option<(usize, Step)> {
        if after.unsure.is_empty() {
            return None;
        }
        let more = search.more_ashore(solution)?;
        let there = self.after(search, &more)?.outcome;
        let is_surer = there.fails.len() <= after.fails.len() && there.unsure.len() < after.unsure.len();
        let is_ashore = |step: &Step| matches!(step.action, Action::Ashore { .. });
        let place = steps.iter().position(is_ashore)?;
        self.steps(search, &more).into_iter().find(is_ashore).filter(|_| is_surer).map(|step| (place, step))
    }

    fn steps(&self, search: &Search<'_>, solution: &Solution) -> Vec<Step> {
        let built = search.rig_of(&solution.design);
        let trial = search.trial.on(built).ok();
        let trial = trial.as_ref().unwrap_or(&search.trial);
        let step = |group: Group| {
            let cures = solution.cures.get(&group).cloned().unwrap_or_default();
            match (group, solution.design.board) {
                (Group::Board, Some(name)) => {
                    let (action, settings) = (self.board(name, built), self.board_settings(name, built));
                    return Step { action, settings, cures };
                }
                (Group::Crossmember(place), _) => {
                    let added = solution.design.added[place];
                    let settings = self.crossmember_settings(place, added, built);
                    return Step { action: self.crossmember(added), settings, cures };
                }
                _ => {}
            }
            let knobs = solution.values.iter().filter(|(knob, _)| Group::of(**knob) == group);
            let keys = knobs.flat_map(|(knob, value)| trial.keys(*knob, *value));
            let settings = keys.filter_map(|(key, value)| self.setting(key, value)).collect();
            Step { action: self.action(search, solution, group), settings, cures }
        };
        solution.groups().into_iter().map(step).collect()
    }

    /// That a key is set to another value, with its texts; `None` where it has that value.
    fn setting(&self, key: Key, value: f64) -> Option<Setting> {
        let Some(kind) = self.rig.kind(key) else { return self.load_index(key, value) };
        let from = self.stated(key);
        let shown = |si: f64| text(si, kind, self.units);
        (from != Some(value)).then(|| Setting { key, from: from.map(shown), to: shown(value) })
    }

    /// The same of a load index, the one number among them that is no quantity.
    fn load_index(&self, key: Key, index: f64) -> Option<Setting> {
        let from = TRAILER_AXLES_TIRES_LOAD_INDEX.get_of(self.rig.proposed(), key.at[0])?.to_string();
        let to = index.to_string();
        (from != to).then_some(Setting { key, from: Some(from), to })
    }

    fn board(&self, name: &'static str, built: &Rig) -> Action {
        let now = &self.rig.proposed().trailer;
        let keels = built.proposed().trailer.keel_height.zip(now.keel_height);
        let raises = keels.map(|(then, now)| then - now);
        Action::Board { from: now.bunks.board.clone(), to: name, raises }
    }

    /// The board, by its name or as it would be taped, and how high bunks and boat stand on it.
    fn board_settings(&self, name: &str, built: &Rig) -> Vec<Setting> {
        let named = self.rig.proposed().trailer.bunks.board.clone();
        let key = TRAILER_BUNKS_BOARD.key();
        let name = named.map(|from| Setting { key, from: Some(from), to: name.to_string() });
        let lengths = [TRAILER_BUNKS_WIDTH, TRAILER_BUNKS_DEPTH, TRAILER_KEEL_HEIGHT, TRAILER_BUNKS_TOP];
        let lengths = lengths.into_iter().filter_map(|length| {
            let value = length.get(built.proposed())?;
            self.setting(length.key(), value.si())
        });
        name.into_iter().chain(lengths).collect()
    }

    fn crossmember(&self, added: Added) -> Action {
        // The search adds none beside one whose place is not known.
        let like = self.rig.proposed().trailer.crossmembers[added.like].station.unwrap_or_default();
        Action::Crossmember { at: added.station, like }
    }

    /// All that a crossmember's table in a file would say, of one among those that are added: in its neighbour's words, where the file
    /// has these.
    fn crossmember_settings(&self, place: usize, added: Added, built: &Rig) -> Vec<Setting> {
        let member = self.rig.proposed().trailer.crossmembers.len() + place;
        let stated = self.rig.stated();
        let of_list = INPUTS.iter().filter(|input| input.path.starts_with("trailer.crossmembers.*."));
        let setting = |input: &&Input| {
            let key = Key::of(input.path, member);
            let (kind, value) = (input.kind()?, input.si(built.proposed(), key.at)?);
            let bound = built.uncertain().iter().find(|(other, _)| *other == key);
            let bound = bound.map_or(0.0, |(_, bound)| *bound);
            let says_it = |text: &String| {
                parse::parse_si(text, kind).is_ok_and(|read| (read.value, read.bound) == (value, bound))
            };
            let alike = stated.iter().find(|stated| stated.key == Key::of(input.path, added.like));
            let alike = alike.map(|stated| stated.text.clone()).filter(says_it);
            let with_bound = || match bound {
                0.0 => text(value, kind, self.units),
                _ => format!("{} ± {}", text(value, kind, self.units), text(bound, kind, self.units)),
            };
            Some(Setting { key, from: None, to: alike.unwrap_or_else(with_bound) })
        };
        of_list.filter_map(setting).collect()
    }

    /// What the rig states at a key as proposed, in SI.
    fn stated(&self, key: Key) -> Option<f64> {
        key.input()?.si(self.rig.proposed(), key.at)
    }

    fn action(&self, search: &Search<'_>, solution: &Solution, group: Group) -> Action {
        let setup = self.rig.proposed();
        let value = |knob: Knob| solution.values.get(&knob).copied().unwrap_or_default();
        let moved = |part: Part, knob: Knob, reach| {
            let to = Length::from_si(value(knob));
            let window =
                solution.window.filter(|(of, _)| *of == knob).map(|(_, (from, to))| Interval::new(from, to));
            Action::Move { part, from: part.now(setup), to, window, room: room(to, reach) }
        };
        match group {
            Group::Set(Knob::Ashore) => Action::Ashore {
                from: setup.shift.ashore.unwrap_or_default(),
                to: Weight::from_si(value(Knob::Ashore)),
            },
            Group::Set(Knob::Ball) => {
                Action::Level { from: setup.tow.ball_height, to: Length::from_si(value(Knob::Ball)) }
            }
            Group::Set(Knob::Pressure) => {
                let axles = 0..setup.trailer.axles.len();
                let most = Pressure::from_si(value(Knob::Pressure));
                let to = axles.clone().filter_map(|axle| Some((axle, trial::inflates(setup, axle, most)?)));
                let to: Vec<(usize, Pressure)> = to.collect();
                let pressure = |(axle, _): &(usize, Pressure)| setup.trailer.axles[*axle].tires.pressure;
                let from = to.iter().filter_map(pressure).reduce(Pressure::min);
                let all = to.len() == axles.len();
                let known = |axle| pumped_up(setup, axle).is_some_and(|(_, known)| known);
                let is_on_sidewall = axles.into_iter().all(known);
                Action::Inflate { from, to, all, is_on_sidewall }
            }
            Group::Set(Knob::Strap) => Action::Shorten {
                from: setup.trailer.winch.strap.length,
                to: Length::from_si(value(Knob::Strap)),
            },
            Group::Set(Knob::Axles) => moved(Part::Axles, Knob::Axles, setup.travel.axles),
            Group::Set(Knob::Tongue) => moved(Part::Tongue, Knob::Tongue, setup.travel.tongue),
            Group::Set(Knob::Bunks) => moved(Part::Bunks, Knob::Bunks, setup.travel.bunks),
            Group::Ends => {
                let to =
                    |knob: Knob, now| solution.values.get(&knob).map_or(now, |to| Some(Length::from_si(*to)));
                let now = [setup.trailer.bunks.forward_end, setup.trailer.bunks.aft_end];
                Action::Ends { from: now, to: [to(Knob::ForwardEnd, now[0]), to(Knob::AftEnd, now[1])] }
            }
            Group::Raise => Action::Raise { by: Length::from_si(value(Knob::Raise)) },
            Group::Set(_) | Group::Board | Group::Crossmember(_) => {
                moved(Part::Boat, Knob::Boat, setup.travel.boat)
            }
            Group::Item(item) => {
                let figures = self.figures(search, solution, item);
                let tires =
                    figures.iter().find(|figure| figure.key.path == TRAILER_AXLES_TIRES_RATING.path());
                let tires =
                    tires.and_then(|tires| if let Amount::Weight(to) = tires.to { Some(to) } else { None });
                let sidewalls =
                    || setup.trailer.axles.iter().map(|axle| &axle.tires).filter(|_| tires.is_some());
                let goes_by_index = sidewalls().any(|tires| tires.load_index.is_some());
                let load_index = tires.filter(|_| goes_by_index).and_then(index_for);
                let most = sidewalls().filter_map(Tires::greatest_of_size).reduce(Weight::min);
                let outgrown = most.zip(tires).filter(|(most, to)| most < to).map(|(most, _)| most);
                let axles =
                    setup.trailer.axles.iter().enumerate().filter(|(_, axle)| axle.tires.pressure.is_some());
                let is_known = |axle| !setup.is_assumed(TRAILER_AXLES_TIRES_PRESSURE_MAX.of(axle));
                let at_sidewall = axles.map(|(axle, _)| is_known(axle)).reduce(|one, other| one && other);
                let at_sidewall = at_sidewall.filter(|_| tires.is_some());
                Action::Replace { item, figures, load_index, at_sidewall, outgrown }
            }
        }
    }

    fn figures(&self, search: &Search<'_>, solution: &Solution, item: Item) -> Vec<Figure> {
        let places = (0..SOLD.len()).filter(|place| SOLD[*place].item == item);
        let figure = |place: usize| {
            let to = *solution.values.get(&Knob::Figure(place))?;
            let keys: Vec<Key> = search.keys(place);
            let setup = self.rig.proposed();
            let from = keys.iter().filter_map(|key| trial::figure(setup, place, key.at[0])).reduce(f64::min);
            let amount = |si: f64| match self.rig.kind(keys[0]) {
                Some(Kind::Length) => Amount::Length(Length::from_si(si)),
                Some(Kind::Force) => Amount::Force(Weight::from_si(si)),
                _ => Amount::Weight(Weight::from_si(si)),
            };
            let needed = solution.needed.get(&place).copied();
            Some(Figure {
                key: *keys.first()?,
                from: from.map(amount),
                to: amount(to),
                needed: needed.map(amount),
            })
        };
        places.filter_map(figure).collect()
    }

    /// Other ways to the same verdict: without a move, and without a part.
    fn alternatives(&self, solution: &Solution, steps: &[Step], after: &After) -> Vec<Alternative> {
        let moves =
            solution.groups().iter().any(|group| matches!(group, Group::Set(knob) if knob.is_moved()));
        let buys = solution.groups().iter().any(|group| matches!(group, Group::Item(_)));
        let ways = [(moves, (true, false)), (buys, (false, true))].into_iter().filter(|(there, _)| *there);
        ways.filter_map(|(_, (buys, moves))| self.alternative(buys, moves, steps, after)).collect()
    }

    fn alternative(&self, buys: bool, moves: bool, steps: &[Step], after: &After) -> Option<Alternative> {
        let mut search = self.search()?;
        (search.buys, search.moves) = (buys, moves);
        // Assessing a rig whole takes far longer than looking at what fails as stated.
        let solution = search.solve_within(after.fails.len())?;
        let there = self.after(&search, &solution)?.outcome;
        let is_as_good = there.verdict == after.verdict
            && there.fails.len() == after.fails.len()
            && there.unsure.len() <= after.unsure.len();
        if !is_as_good {
            return None;
        }
        let instead = self.steps(&search, &solution);
        let alike = |one: &Step, other: &Step| one.settings == other.settings;
        let kept = |step: &Step, among: &[Step]| among.iter().any(|other| alike(step, other));
        let instead_of = (0..steps.len()).filter(|place| !kept(&steps[*place], &instead)).collect();
        let steps: Vec<Step> = instead.into_iter().filter(|step| !kept(step, steps)).collect();
        Some(Alternative { instead_of, steps, after: there })
    }
}

/// Why each row that still fails does.
fn conflicts(search: &mut Search<'_>, solution: &Solution, after: &Assessed) -> Vec<Conflict> {
    let failing = after.rows.iter().filter(|row| row.verdict == Verdict::Fail);
    let conflict = |row: &Row| {
        let with = search.conflict(solution, &row.id());
        Conflict { row: row.clone(), with: with.map(|(id, apart)| (id, Length::from_si(apart))) }
    };
    failing.map(conflict).collect()
}

/// Whether a row that is past its limits before and after a plan is clearly farther past them after it.
fn farther_past(before: &Row, after: &Row) -> bool {
    let past = |row: &Row| Some(-row.margin?.si()).filter(|past| *past > 0.0 && past.is_finite());
    let (Some(was), Some(is)) = (past(before), past(after)) else { return false };
    let limit = after.max.or(after.min).map_or(0.0, |limit| limit.si().abs());
    badness(after.verdict) > badness(Verdict::Thin) && is - was > CLEARLY * limit.max(was)
}

/// How bad a verdict is, beside others.
fn badness(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Pass => 0,
        Verdict::Thin => 1,
        Verdict::Advise => 2,
        Verdict::NotChecked => 3,
        Verdict::Unsure => 4,
        Verdict::Fail => 5,
    }
}

fn room(to: Length, reach: Option<crate::rig::Reach>) -> Room {
    match reach {
        None => Room::Unstated,
        Some(reach) if to >= reach.from && to <= reach.to => Room::Within,
        Some(reach) => Room::Beyond(reach),
    }
}

/// A value as a rig file states it, to the last bit: a length as a tape shows it, where that says it all.
/// A weight is stated in the other system's unit where that says it in fewer letters, as of a load index.
fn text(si: f64, kind: Kind, units: UnitSystem) -> String {
    let length = Length::from_si(si);
    let taped = units.taped(length).filter(|_| kind == Kind::Length);
    let other = if units == UnitSystem::Us { UnitSystem::Metric } else { UnitSystem::Us };
    let exact_in = [units, other].into_iter().filter(|system| *system == units || kind == Kind::Weight);
    let exactly = || exact_in.filter_map(|system| exact(si, kind, system)).min_by_key(String::len);
    taped.or_else(exactly).unwrap_or_else(|| units.distance(length))
}
