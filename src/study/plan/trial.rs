//! A rig on trial: looked at again and again with other values of what a plan may change.

use super::line::Look;
use super::result::Item;
use super::sold::{self, SOLD};
use crate::fit::{
    Asked, Comparison, Judge, Measure, Of, Recalled, Remedy, Scope, Severity, Side, Subject, ahead_of_ball,
    tire_allowed, tire_rating,
};
use crate::quantity::show::UnitSystem;
use crate::quantity::unit::INCH;
use crate::quantity::{Pressure, Quantity, Weight};
use crate::rig::inputs::{
    SHIFT_ASHORE, SHIFT_AXLES, SHIFT_BOAT, SHIFT_BUNKS, SHIFT_TONGUE, TOW_BALL_HEIGHT,
    TRAILER_AXLES_TIRES_LOAD_INDEX, TRAILER_AXLES_TIRES_PRESSURE, TRAILER_AXLES_TIRES_PRESSURE_MAX,
    TRAILER_AXLES_TIRES_RATING, TRAILER_AXLES_WHEELS_RATING, TRAILER_BUNKS_AFT_END,
    TRAILER_BUNKS_FORWARD_END, TRAILER_BUNKS_SPACER, TRAILER_BUNKS_TOP, TRAILER_KEEL_HEIGHT,
    TRAILER_WINCH_STRAP_LENGTH,
};
use crate::rig::tires::{LAST_INDEX, index_for, pumped_up};
use crate::rig::{Fault, Key, Rig, Setup, Variable, Varied};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// What may be changed by a number: the shifts, the ball's height, the tires' pressure and the winch's strap, then each figure of [`SOLD`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Knob {
    Boat,
    Axles,
    Tongue,
    Bunks,
    Ball,
    /// The tires' pressure, of all axles.
    Pressure,
    /// The length of the winch's strap.
    Strap,
    Ashore,
    /// The bunks' ends.
    AftEnd,
    ForwardEnd,
    /// Spacers under the bunks, and the boat with them: by how much.
    Raise,
    Figure(usize),
}

impl Knob {
    /// Whether it moves something: it neither leaves weight ashore nor buys a part.
    pub fn is_moved(self) -> bool {
        use Knob::{Axles, Ball, Boat, Bunks, Pressure, Strap, Tongue};
        matches!(self, Boat | Axles | Tongue | Bunks | Ball | Pressure | Strap)
    }

    /// The paths that it sets.
    fn paths(self) -> Vec<String> {
        let paths = match self {
            Self::Boat => vec![SHIFT_BOAT.path()],
            Self::Axles => vec![SHIFT_AXLES.path()],
            Self::Tongue => vec![SHIFT_TONGUE.path()],
            Self::Bunks => vec![SHIFT_BUNKS.path()],
            Self::Ball => vec![TOW_BALL_HEIGHT.path()],
            // Of each axle, to what its own sidewalls say.
            Self::Pressure => Vec::new(),
            Self::Strap => vec![TRAILER_WINCH_STRAP_LENGTH.path()],
            Self::Ashore => vec![SHIFT_ASHORE.path()],
            Self::AftEnd => vec![TRAILER_BUNKS_AFT_END.path()],
            Self::ForwardEnd => vec![TRAILER_BUNKS_FORWARD_END.path()],
            // A file that states spacers does not say by itself that bunks and boat went up with them.
            Self::Raise => {
                vec![TRAILER_BUNKS_SPACER.path(), TRAILER_BUNKS_TOP.path(), TRAILER_KEEL_HEIGHT.path()]
            }
            Self::Figure(place) => vec![SOLD[place].path],
        };
        paths.into_iter().map(|path| path.replace('*', "all")).collect()
    }

    fn all() -> impl Iterator<Item = Self> {
        let moves =
            [Self::Boat, Self::Axles, Self::Tongue, Self::Bunks, Self::Ball, Self::Pressure, Self::Strap];
        let wood = [Self::Ashore, Self::AftEnd, Self::ForwardEnd, Self::Raise];
        moves.into_iter().chain(wood).chain((0..SOLD.len()).map(Self::Figure))
    }

    /// What it sets in a rig, and each to what at one of its values.
    fn targets(self, rig: &Rig) -> Result<Vec<(Variable, Sets)>, Fault> {
        let mut targets = Vec::new();
        for path in self.paths() {
            let variable = rig.variable(&path)?;
            match rig.value(&variable) {
                _ if self != Self::Raise => targets.push((variable, Sets::Value)),
                Some(stands) => targets.push((variable, Sets::Above(stands))),
                // What is not known where it stands is not raised.
                None => {}
            }
        }
        if self == Self::Pressure {
            for axle in 0..rig.proposed().trailer.axles.len() {
                let own = sidewall_pressure(rig.proposed(), axle);
                let sets = own.map_or(Sets::Value, |own| Sets::Pressure(own.si()));
                targets.push((rig.variable(&TRAILER_AXLES_TIRES_PRESSURE.of(axle).to_string())?, sets));
            }
        }
        if self.paths() == [TRAILER_AXLES_TIRES_RATING.path().replace('*', "all")] {
            let axles = rig.proposed().trailer.axles.iter().enumerate();
            let indexed = axles.filter(|(_, axle)| axle.tires.load_index.is_some());
            let indices = indexed.filter_map(|(i, _)| rig.number(TRAILER_AXLES_TIRES_LOAD_INDEX.of(i)));
            targets.extend(indices.map(|index| (index, Sets::LoadIndex)));
            for axle in 0..rig.proposed().trailer.axles.len() {
                let to_sidewall = full_pressure(rig.proposed(), axle).map(|full| Sets::Pressure(full.si()));
                targets.extend(rig.number(TRAILER_AXLES_TIRES_PRESSURE.of(axle)).zip(to_sidewall));
            }
        }
        Ok(targets)
    }
}

/// What is set at one value of a knob.
#[derive(Debug, Clone, Copy)]
enum Sets {
    /// The value itself.
    Value,
    /// So much more than this.
    Above(f64),
    /// The load index that stands for it: other tires have another.
    LoadIndex,
    /// The pressure on the sidewall: new tires are pumped up to it.
    Pressure(f64),
}

/// The pressure that the sidewalls of an axle's tires state, where that is not assumed.
fn sidewall_pressure(setup: &Setup, axle: usize) -> Option<Pressure> {
    pumped_up(setup, axle).filter(|(_, is_on_sidewall)| *is_on_sidewall).map(|(own, _)| own)
}

/// To what pressure the tires of an axle go where all are pumped up, or let down, to their own sidewalls, and those of which that is
/// not known to this; `None` where they are there.
pub(super) fn inflates(setup: &Setup, axle: usize, else_to: Pressure) -> Option<Pressure> {
    let to = sidewall_pressure(setup, axle).unwrap_or(else_to);
    setup.trailer.axles[axle].tires.pressure.filter(|pressure| *pressure != to).map(|_| to)
}

/// The pressure that the sidewalls of an axle's tires state, where the file has it and they stand at less.
pub(super) fn full_pressure(setup: &Setup, axle: usize) -> Option<Pressure> {
    let tires = &setup.trailer.axles[axle].tires;
    let is_stated = !setup.is_assumed(TRAILER_AXLES_TIRES_PRESSURE_MAX.of(axle));
    let full = tires.pressure_max.filter(|full| is_stated && is_plausible_on_a_sidewall(*full))?;
    (!setup.is_assumed(TRAILER_AXLES_TIRES_PRESSURE.of(axle)) && tires.pressure? < full).then_some(full)
}

/// Whether a sidewall may state a pressure. One that was read wrongly pumps no tire up and lets none down.
pub(super) fn is_plausible_on_a_sidewall(pressure: Pressure) -> bool {
    let plausible = TRAILER_AXLES_TIRES_PRESSURE_MAX.input().plausible;
    plausible.is_none_or(|(least, greatest)| (least..=greatest).contains(&pressure.si()))
}

/// Values in SI, by what they change.
pub(super) type Values = BTreeMap<Knob, f64>;

/// One load against one limit.
#[derive(Debug, Clone)]
pub(super) struct Stand {
    /// Which limit, by its place in [`Trial::limits`].
    pub limit: usize,
    /// How far inside it the load lies.
    pub margin: f64,
    /// The load, if something holds.
    pub value: Option<f64>,
    /// What the figures that set the limit must be at least; empty where the load is inside whatever the ±, or no part
    /// cures it.
    pub needs: Vec<Need>,
}

/// What a figure that is bought must be at least.
#[derive(Debug, Clone, Copy)]
pub(super) struct Need {
    /// The figure, by its place in [`SOLD`].
    pub place: usize,
    /// By the load as stated.
    pub stated: f64,
    /// By the load at the worst of the ±.
    pub sure: f64,
}

/// A limit of a row, on the loads of one case or crossing.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Limit {
    /// The row, by its place in [`Trial::rows`].
    pub row: usize,
    side: Side,
    /// Past it the rig fails; else the owner is advised.
    pub fails: bool,
    case: Option<usize>,
    ramp: Option<usize>,
}

/// A row that is looked at.
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub id: String,
    /// Whether ramps are crossed for it.
    pub over_ramps: bool,
    pub remedies: &'static [Remedy],
    /// Whether it compares weights.
    pub is_weight: bool,
    judge: Judge,
    of: Of,
    /// The places in [`SOLD`] of the figures that set its limit.
    pub figures: Vec<usize>,
}

impl Row {
    fn of(asked: &Asked, over_ramps: bool) -> Self {
        let path = |path: &str| sold::place(path);
        let figures = asked.check.remedies.iter().flat_map(|remedy| match remedy {
            Remedy::Buy(key) => vec![path(key.path())],
            Remedy::Plates(keys) => keys.iter().map(|key| path(key.path())).collect(),
            Remedy::Size(key) => vec![path(key.path())],
            Remedy::Tires => vec![path(TRAILER_AXLES_TIRES_RATING.path())],
            Remedy::TiresTogether => {
                vec![path(TRAILER_AXLES_TIRES_RATING.path()), path(TRAILER_AXLES_WHEELS_RATING.path())]
            }
            _ => Vec::new(),
        });
        Self {
            id: asked.id.clone(),
            over_ramps,
            remedies: asked.check.remedies,
            is_weight: asked.check.measure == Measure::Weight,
            judge: asked.check.judge,
            of: asked.of.clone(),
            figures: figures.flatten().collect(),
        }
    }
}

/// [`Values`] to the last bit.
type Bits = Vec<(Knob, u64)>;

/// The rig on trial.
pub(super) struct Trial {
    varied: Varied,
    /// What was crossed in this search and in those beside it.
    recalled: Rc<Recalled>,
    variables: BTreeMap<Knob, Vec<(Variable, Sets)>>,
    /// The rows on the level and on the bunks, and those over ramps.
    scopes: [Scope; 2],
    /// Whether ramps are crossed.
    pub with_ramps: bool,
    /// Every row, also those that only a rig built otherwise has: a row keeps its place from rig to rig.
    pub rows: Vec<Row>,
    /// By scope: the places among these of its rows.
    places: [Vec<usize>; 2],
    /// Every limit met so far.
    pub limits: Vec<Limit>,
    /// Those that the rig as it stands meets.
    stated: BTreeSet<usize>,
    /// By limit: how much of its margin the stated ± may take, each input for itself.
    swings: Vec<f64>,
    /// The row of the tongue share.
    pub share: Option<usize>,
    units: UnitSystem,
    /// How far the bow stop stands ahead of the ball as it is, in metres: no value may put it farther.
    ahead_now: f64,
    /// How every load stood with values that were looked at, over the ramps or not: a search comes back to many of them.
    seen: BTreeMap<(bool, Bits), Option<Rc<[Stand]>>>,
}

impl Trial {
    pub fn new(rig: &Rig, recalled: Rc<Recalled>) -> Result<Self, Fault> {
        let mut trial = Self::with(rig, false, Vec::new(), recalled)?;
        trial.swings = trial.swings(rig);
        // What parts need goes by the swings.
        trial.seen.clear();
        Ok(trial)
    }

    /// Crosses the rig's ramps from now on.
    pub fn cross_ramps(&mut self) {
        self.with_ramps = true;
        // What was met on the level alone counts as lost from now on where it no longer is.
        self.seen.clear();
        self.note_stated();
    }

    /// Notes which limits the rig as it stands meets, and how its loads stand.
    fn note_stated(&mut self) -> Option<Rc<[Stand]>> {
        let stands = self.stands(&Values::new())?;
        self.stated = stands.iter().map(|stand| stand.limit).collect();
        Some(stands)
    }

    /// The rig on trial after others, whose rows are known.
    fn with(rig: &Rig, with_ramps: bool, mut rows: Vec<Row>, recalled: Rc<Recalled>) -> Result<Self, Fault> {
        let setup = rig.proposed();
        // Nothing that a plan may change cures a row of launching; the plan's last assessment has these too.
        let of = |ramps: bool| {
            let is_ours = |asked: &Asked| asked.check.subject != Subject::Launch;
            Scope::of(setup, |asked| is_ours(asked) && asked.check.crosses_ramps(setup) == ramps)
        };
        let scopes = [of(false), of(true)];
        let places = [false, true].map(|over_ramps| {
            let asked = scopes[usize::from(over_ramps)].rows().iter();
            asked.map(|asked| place_of_row(&mut rows, asked, over_ramps)).collect()
        });
        let variables = variables(rig)?;
        let share = rows.iter().position(|row| row.id == "tongue-share");
        let varied = Varied::new(rig);
        let (limits, stated, swings) = (Vec::new(), BTreeSet::new(), Vec::new());
        let units = rig.measured().units.map_or(UnitSystem::Us, UnitSystem::from);
        Ok(Self {
            varied,
            recalled,
            variables,
            scopes,
            with_ramps,
            rows,
            places,
            limits,
            stated,
            swings,
            share,
            units,
            ahead_now: ahead_of_ball(setup).map_or(0.0, Quantity::si),
            seen: BTreeMap::new(),
        })
    }

    /// Whether the rig has ramps to cross.
    pub fn has_ramps(&self) -> bool {
        !self.scopes[1].rows().is_empty()
    }

    /// Whether a row is about ramps.
    pub fn is_over_ramps(&self, row: usize) -> bool {
        self.rows[row].over_ramps
    }

    /// The same for a rig that is built otherwise: its rows and limits keep their places, further ones stand at the end.
    pub fn on(&self, rig: &Rig) -> Result<Self, Fault> {
        let mut trial = Self::with(rig, self.with_ramps, self.rows.clone(), Rc::clone(&self.recalled))?;
        (trial.limits, trial.stated) = (self.limits.clone(), self.stated.clone());
        trial.swings.clone_from(&self.swings);
        Ok(trial)
    }

    /// The keys that a knob sets, and their values in SI at one of its own.
    pub fn keys(&self, knob: Knob, value: f64) -> impl Iterator<Item = (Key, f64)> {
        let set = at(&self.variables[&knob], value, self.units);
        set.flat_map(|(variable, value)| variable.keys().map(move |key| (key, value)).collect::<Vec<_>>())
    }

    /// By limit: how much of its margin the ± of a rig may take.
    fn swings(&mut self, rig: &Rig) -> Vec<f64> {
        let Some(stated) = self.note_stated() else { return Vec::new() };
        let mut swings = vec![0.0; self.limits.len()];
        for (key, bound) in rig.uncertain() {
            let mut worst: Vec<f64> = vec![0.0; self.limits.len()];
            for end in [-*bound, *bound] {
                for (place, margin) in self.with_error(*key, end) {
                    let before = stated.iter().find(|stand| stand.limit == place);
                    if let Some(before) = before.filter(|before| before.margin.is_finite())
                        && let Some(worst) = worst.get_mut(place)
                    {
                        *worst = worst.max(before.margin - margin);
                    }
                }
            }
            for (swing, worst) in swings.iter_mut().zip(worst) {
                *swing += worst;
            }
        }
        swings
    }

    /// By limit: the margins with one input off by an error.
    fn with_error(&mut self, key: Key, error: f64) -> Vec<(usize, f64)> {
        let Self { varied, scopes, places, limits, .. } = self;
        let Ok(rig) = varied.with_errors(&[(key, error)]) else { return Vec::new() };
        let Ok(facts) = scopes[0].facts(rig, None) else { return Vec::new() };
        let mut found = Vec::new();
        scopes[0].compare(rig.proposed(), &facts, |row, comparison| {
            if let Ok(standing) = &comparison.standing {
                let limit = limit_of(places[0][row], &comparison);
                if let Some(place) = limits.iter().position(|known| *known == limit)
                    && standing.margin.is_finite()
                {
                    found.push((place, standing.margin));
                }
            }
        });
        found
    }

    /// How every load stands with these values; `None` where there is no such rig, or it does not rest on its wheels.
    pub fn stands(&mut self, values: &Values) -> Option<Rc<[Stand]>> {
        let set = values.iter().map(|(knob, value)| (*knob, value.to_bits())).collect();
        let key = (self.with_ramps, set);
        if let Some(known) = self.seen.get(&key) {
            return known.clone();
        }
        let found: Option<Rc<[Stand]>> = self.worked(values).map(Rc::from);
        self.seen.insert(key, found.clone());
        found
    }

    fn worked(&mut self, values: &Values) -> Option<Vec<Stand>> {
        let Self {
            varied,
            recalled,
            variables,
            scopes,
            places,
            with_ramps,
            rows,
            limits,
            stated,
            swings,
            units,
            ahead_now,
            ..
        } = self;
        let values: Vec<(&Variable, f64)> =
            values.iter().flat_map(|(knob, value)| at(&variables[knob], *value, *units)).collect();
        let rig = varied.with(&values).ok()?;
        let setup = rig.proposed();
        let ahead = |setup: &Setup| ahead_of_ball(setup).map_or(0.0, Quantity::si);
        if ahead(setup) > *ahead_now {
            return None;
        }
        let mut found: Vec<Stand> = Vec::new();
        let mut unknown: BTreeSet<usize> = BTreeSet::new();
        for (scope, places) in scopes.iter().zip(places).take(if *with_ramps { 2 } else { 1 }) {
            let facts = scope.facts_recalling(rig, recalled).ok()?;
            let mut next = 0;
            scope.compare(setup, &facts, |row, comparison| {
                let limit = limit_of(places[row], &comparison);
                let place = place_of(limits, limit, next);
                next = place + 1;
                let Ok(standing) = comparison.standing else {
                    unknown.insert(place);
                    return;
                };
                let row = &rows[places[row]];
                let swing = swings.get(place).copied().unwrap_or(0.0);
                let bought = comparison.side == Side::Max || row.judge == Judge::Size;
                let load =
                    standing.value.filter(|_| bought && standing.margin < swing && standing.limit > 0.0);
                let needs = load.map(|load| needs(row, setup, load, swing, standing.limit));
                let stand = Stand {
                    limit: place,
                    margin: standing.margin,
                    value: standing.value,
                    needs: needs.unwrap_or_default(),
                };
                // Of a tire's loads on either side the one that leaves less.
                match found.iter_mut().rev().take(4).find(|known| known.limit == place) {
                    Some(known) if known.margin <= stand.margin => {}
                    Some(known) => *known = stand,
                    None => found.push(stand),
                }
            });
        }
        // What is evaluated as the rig stands and cannot be here proves nothing: it is past its limit. Where only the limit
        // is gone, as what is assumed of other tires fails no rig, there is nothing to be past.
        let met: BTreeSet<usize> = found.iter().map(|stand| stand.limit).collect();
        let at = |place: &usize| (limits[*place].row, limits[*place].case, limits[*place].ramp);
        let evaluated: BTreeSet<_> = met.iter().map(at).collect();
        let is_looked_at = |row: usize| *with_ramps || !rows[row].over_ramps;
        let is_lost = |place: &&usize| {
            is_looked_at(limits[**place].row) && (unknown.contains(*place) || !evaluated.contains(&at(place)))
        };
        let lost = stated.difference(&met).filter(is_lost);
        found.extend(lost.map(|limit| Stand {
            limit: *limit,
            margin: f64::NEG_INFINITY,
            value: None,
            needs: Vec::new(),
        }));
        Some(found)
    }

    /// The margins at a place: by limit twice, as stated and at the worst of the ±.
    pub fn look(&mut self, at: f64, values: &Values) -> Look {
        let Some(stands) = self.stands(values) else {
            // No limit is met by what cannot be.
            return Look { at, margins: vec![f64::NEG_INFINITY; 2 * self.limits.len()], share: None };
        };
        let mut margins = vec![f64::INFINITY; 2 * self.limits.len()];
        for stand in stands.iter() {
            margins[2 * stand.limit] = stand.margin;
            margins[2 * stand.limit + 1] = stand.margin - self.swing(stand.limit);
        }
        let share = stands.iter().find(|stand| Some(self.limits[stand.limit].row) == self.share);
        Look { at, margins, share: share.and_then(|stand| stand.value) }
    }

    /// How much of a limit's margin the ± may take.
    pub fn swing(&self, limit: usize) -> f64 {
        self.swings.get(limit).copied().unwrap_or(0.0)
    }

    /// Whether a part of a higher rating, or of another size, cures a load past a limit.
    pub fn is_bought(&self, limit: &Limit) -> bool {
        let row = &self.rows[limit.row];
        !row.figures.is_empty() && (limit.side == Side::Max || row.judge == Judge::Size)
    }

    /// The parts whose figures set a row's limit.
    pub fn items(&self, row: usize) -> impl Iterator<Item = Item> {
        self.rows[row].figures.iter().map(|place| SOLD[*place].item)
    }
}

fn variables(rig: &Rig) -> Result<BTreeMap<Knob, Vec<(Variable, Sets)>>, Fault> {
    Knob::all().map(|knob| Ok((knob, knob.targets(rig)?))).collect()
}

/// A height without what arithmetic leaves beside it: to a ten-thousandth of an inch, or of a millimetre.
pub(super) fn as_taped(height: f64, units: UnitSystem) -> f64 {
    let unit = match units {
        UnitSystem::Us => INCH,
        UnitSystem::Metric => 0.001,
    };
    (height / unit * 1e4).round() / 1e4 * unit
}

/// What a knob sets at one of its values.
fn at(targets: &[(Variable, Sets)], value: f64, units: UnitSystem) -> impl Iterator<Item = (&Variable, f64)> {
    let set = move |sets: Sets| match sets {
        Sets::Value => value,
        Sets::Above(stands) => as_taped(stands + value, units),
        // No tire is sold beyond the last.
        Sets::LoadIndex => f64::from(index_for(Weight::from_si(value)).unwrap_or(LAST_INDEX)),
        Sets::Pressure(full) => full,
    };
    targets.iter().map(move |(variable, sets)| (variable, set(*sets)))
}

fn limit_of(row: usize, comparison: &Comparison<'_>) -> Limit {
    let Comparison { side, severity, case, ramp, .. } = *comparison;
    Limit { row, side, fails: severity == Severity::Fails, case, ramp }
}

/// The place of a row among those known, where it is new at their end.
fn place_of_row(rows: &mut Vec<Row>, asked: &Asked, over_ramps: bool) -> usize {
    rows.iter().position(|known| known.id == asked.id).unwrap_or_else(|| {
        rows.push(Row::of(asked, over_ramps));
        rows.len() - 1
    })
}

/// The place of a limit among those met, where it is new at their end; it is first looked for at `next`.
fn place_of(limits: &mut Vec<Limit>, limit: Limit, next: usize) -> usize {
    if limits.get(next) == Some(&limit) {
        return next;
    }
    limits.iter().position(|known| *known == limit).unwrap_or_else(|| {
        limits.push(limit);
        limits.len() - 1
    })
}

/// What the figures that set a row's limit must be at least so that it holds a load, and the load with what the ± adds.
fn needs(row: &Row, setup: &Setup, load: f64, swing: f64, limit: f64) -> Vec<Need> {
    if row.judge == Judge::Size {
        let need = |place: &usize| Need { place: *place, stated: limit, sure: limit };
        return row.figures.iter().map(need).collect();
    }
    // The limit is in proportion to the least of the figures, and what is bought stands at its full pressure.
    let limit = limit * gained_by_new_tires(row, setup);
    let stated = |place: usize| figure(setup, place, row.of.element());
    let Some(least) = row.figures.iter().filter_map(|place| stated(*place)).reduce(f64::min) else {
        return Vec::new();
    };
    let (stated, sure) = (least * load / limit, least * (load + swing) / limit);
    // What the file does not state, or states in plenty, stays.
    let falls_short = |place: &&usize| figure(setup, **place, row.of.element()).is_some_and(|has| has < sure);
    row.figures.iter().filter(falls_short).map(|place| Need { place: *place, stated, sure }).collect()
}

/// What share of its limit a row of tires gains where new ones come at the pressure of their sidewall.
fn gained_by_new_tires(row: &Row, setup: &Setup) -> f64 {
    let axle = row.of.element();
    if !row.remedies.contains(&Remedy::Inflate) || full_pressure(setup, axle).is_none() {
        return 1.0;
    }
    let gained = tire_rating(setup, axle).ok().zip(tire_allowed(setup, axle).ok());
    gained.map_or(1.0, |(full, now)| full.si() / now.si()).max(1.0)
}

/// What a setup states of a figure, of one axle where it is an axle's; of tires by their whole sidewall.
pub(super) fn figure(setup: &Setup, place: usize, axle: usize) -> Option<f64> {
    if SOLD[place].path == TRAILER_AXLES_TIRES_RATING.path() {
        return setup.trailer.axles.get(axle)?.tires.sidewall().map(Quantity::si);
    }
    let key = Key::of(SOLD[place].path, axle);
    key.input()?.si(setup, key.at)
}
