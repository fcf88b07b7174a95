//! What readings of a scale say of a rig: the boat's weight and centre of gravity, by least squares.
//!
//! Each reading is compared with what the rig itself bears in the state it was weighed in, so there is no second way
//! to compute a load. `Σ ((y − h(p))/σ)² + Σ ((p − p₀)/σ)²` is least, the second sum over what the file states with ±;
//! σ is half of a stated ± (common practice), and what is found has ± 2 σ.
//!
//! Each reading, and each input that is stated with ±, is left out in turn and compared with what all the rest gives. Of
//! many such comparisons some are far off by chance: the more are made, the farther off the farthest must be to be called
//! contradicted, so that no more than 5 % of the sets whose ± are honest are. Of those that are as far off, the one that
//! is farthest is named: one wrong reading drags what the others are compared with along, and stands out most itself.
//! Others are named with it where they explain the disagreement nearly as well.
//!
//! ```
//! use bunkline::{Rig, study::weigh::weigh};
//!
//! let rig = Rig::parse(&std::fs::read_to_string("demo-data/weighed-skiff.toml")?)?;
//! let found = weigh(&rig)?;
//! assert!(found.boat.weight.is_some_and(|weight| weight.bound.is_some()));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

use crate::fit::{CaseLoads, Known, Missing, Model, Needs, Unfit};
use crate::numeric::normal;
use crate::quantity::{Kind, Length, Quantity, Weight};
use crate::rig::inputs::{
    BOAT_CG_HEIGHT, BOAT_LENGTH, BOAT_WEIGHTS_HEIGHT, BOAT_WEIGHTS_STATION, BOAT_WEIGHTS_WEIGHT,
    HITCH_BALL_RATING, HITCH_RECEIVER_TONGUE_RATING, Handle, MEASURED_GROSS_TRAILER_WEIGHT,
    MEASURED_TONGUE_WEIGHT, TOW_FRONT_AXLE_LOAD, TOW_REAR_AXLE_LOAD, TOW_TOW_RATING, TRAILER_CG,
    TRAILER_CG_HEIGHT, TRAILER_COUPLER_RATING, TRAILER_COUPLER_TONGUE_RATING, TRAILER_GVWR,
    TRAILER_LEVEL_BALL_HEIGHT, TRAILER_TONGUE_WEIGHT, TRAILER_WEIGHT,
};
use crate::rig::{Fault, Key, OnScale, Problems, Rig, Setup, Variable};
use nalgebra::{DMatrix, DVector};

/// The share of sets with honest ± of which one is called contradicted, at most. Common practice, no source.
const FALSE_ALARMS: f64 = 0.05;
/// By how much the squares of two that are off may differ with nothing to decide between them. Leaving one out lowers the
/// sum of squares by its own square, so half the difference is the logarithm of the odds that it is the wrong one rather
/// than the other: 2 ln 20, odds of 20 to 1. Common practice, no source.
const UNDECIDED: f64 = 5.991_464_547_107_979;
/// An eigenvalue of the scaled normal matrix below this one leaves a direction open: ± 2 m, or 20 kN,
/// which is as good as not known (common practice, no source).
const LEAST_EIGENVALUE: f64 = 0.01;
/// A reading that has no more than this share of its slope along an open direction does not decide it: beyond the noise
/// of the differences, below any true dependence.
const NO_PART: f64 = 1e-4;
/// More steps than any rig takes: the responses are nearly linear.
const MOST_STEPS: usize = 60;
/// The least σ, in scaled units: beyond it the normal matrix has no digits left for what is known coarsely.
const FINEST: f64 = 1e-6;
/// The search ends at a step shorter than this, in scaled units: a millinewton, or 0.1 µm.
const FINE: f64 = 1e-6;
/// Where a longer step than this helps in no part of it, something else than the least stopped the search.
const NEAR: f64 = 1e-3;
/// Readings that pull by more than this along an open direction are off by ten σ where they can be: it leads on to where
/// no rig is.
const PULL: f64 = 1.0;

/// Why readings give no result.
#[derive(Debug, thiserror::Error)]
pub enum Unweighed {
    /// The file holds no readings.
    #[error("expected readings of a scale in [[weighings]], found none")]
    NoReadings,
    /// What a reading would be cannot be computed.
    #[error("expected {}, on which reading {reading} depends; found nothing there", list(.missing))]
    Lacks {
        /// Which reading, counted from 1.
        reading: usize,
        /// The keys to fill in.
        missing: Missing,
    },
    /// The rig cannot stand in the state of a reading.
    #[error(transparent)]
    Unfit(#[from] Unfit),
    /// A value breaks a rule of the file.
    #[error("{0}")]
    Problems(Box<Problems>),
    /// A key that cannot be varied.
    #[error(transparent)]
    Fault(#[from] Fault),
    /// The search for values that agree with the readings ends where a rule of the file stops it.
    #[error("expected readings that this rig can show, found that no boat on it comes near them")]
    Unsettled,
}

impl From<Problems> for Unweighed {
    fn from(problems: Problems) -> Self {
        Self::Problems(Box::new(problems))
    }
}

fn list(missing: &Missing) -> String {
    missing.0.iter().map(Key::to_string).collect::<Vec<_>>().join(", ")
}

/// A value in SI, and its ± where the readings decide it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The value.
    pub value: f64,
    /// ± 2 σ; `None` where no reading decides it.
    pub bound: Option<f64>,
    /// What the file gives, if anything.
    pub stated: Option<f64>,
}

/// What all the rest gives for a reading, or for an input that is stated with ±, were it left out; in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Others {
    /// The value.
    pub value: f64,
    /// Its ± 2 σ.
    pub bound: f64,
    /// How many σ of the difference what is shown or stated lies above it.
    pub off: f64,
}

impl Others {
    /// What the others give for one whose fitted value has this variance.
    ///
    /// With e = y − h and leverage l = variance/σ², leaving it out gives y − e/(1 − l), of variance σ² l/(1 − l); the
    /// difference is e/(σ √(1 − l)) of its own σ: exact where the responses are linear in what is found, which they all but
    /// are this near. `None` where nothing else decides it.
    fn of(shown: f64, fitted: f64, sigma: f64, variance: f64) -> Option<Self> {
        /// With less than this left, nothing else decides it.
        const LEAST_LEFT: f64 = 1e-6;
        let leverage = variance / sigma.powi(2);
        let (error, left) = (shown - fitted, 1.0 - leverage);
        (left > LEAST_LEFT).then(|| Self {
            value: shown - error / left,
            bound: 2.0 * sigma * (leverage / left).sqrt(),
            off: error / (sigma * left.sqrt()),
        })
    }
}

/// How many of its own σ the farthest of so many may lie from what the others give, and not be contradicted.
///
/// Each of them is normal with σ 1 where all ± are honest, and they are correlated, as each takes part in what the others are
/// compared with: [`normal::farthest_of`] holds for that.
fn most_off(compared: usize) -> f64 {
    normal::farthest_of(compared, FALSE_ALARMS)
}

/// Which of those that could be compared are named as contradicted: the one that is farthest off, if that is too far, and
/// those too far off of which nothing tells it apart.
fn named(off: &[Option<f64>]) -> Vec<bool> {
    let most = most_off(off.iter().flatten().count());
    let farthest = off.iter().flatten().map(|off| off.powi(2)).fold(0.0, f64::max);
    let is_named =
        |off: &Option<f64>| off.is_some_and(|off| off.abs() > most && farthest - off.powi(2) < UNDECIDED);
    off.iter().map(is_named).collect()
}

/// The state in which a reading is taken.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// What stands on the scale.
    pub what: OnScale,
    /// Coupled.
    pub coupled: bool,
    /// The case, by its place.
    pub case: usize,
    /// The ball's height; none is the file's.
    pub ball_height: Option<Length>,
    /// How far aft the boat is moved.
    pub boat: Length,
}

/// A reading, and what the rig that was found would show.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// In which state.
    pub state: State,
    /// What the scale showed.
    pub shown: Weight,
    /// Its ± as stated.
    pub bound: Weight,
    /// What the rig as found shows.
    pub fitted: Weight,
    /// What all the rest gives; `None` where that does not decide it.
    pub others: Option<Others>,
    /// Whether all the rest contradicts it, and nothing else is more likely to be wrong.
    pub is_contradicted: bool,
}

/// An input that was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Its key.
    pub key: Key,
    /// What it measures.
    pub kind: Kind,
    /// What the readings give.
    pub estimate: Estimate,
    /// The ± that the file states, in SI.
    pub stated_bound: Option<f64>,
    /// What all but that gives; `None` where the file states no ±.
    pub others: Option<Others>,
    /// Whether the readings contradict what the file states with ±, and nothing else is more likely to be wrong.
    pub is_contradicted: bool,
}

/// What no boat can have: a value that was found outside the boat or the trailer.
#[derive(Debug, Clone, PartialEq)]
pub struct Outside {
    /// What lies there.
    pub what: Part,
    /// The value, in metres, and its ± 2 σ.
    pub value: f64,
    /// The same.
    pub bound: f64,
    /// Between which values it must lie.
    pub within: [f64; 2],
}

impl Outside {
    /// Whether its ± reaches back to where it can be, so that no wrong figure need be the cause.
    pub fn is_within_bound(&self) -> bool {
        let [least, most] = self.within;
        self.value + self.bound >= least && self.value - self.bound <= most
    }
}

/// What has a place that can be found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The boat's centre of gravity, forward of the transom.
    BoatStation,
    /// The same above the keel line.
    BoatHeight,
    /// The empty trailer's centre of gravity, behind the ball.
    TrailerStation,
}

/// Inputs that no reading tells apart, or that none depends on.
#[derive(Debug, Clone, PartialEq)]
pub struct Open {
    /// Their keys.
    pub keys: Vec<Key>,
    /// The reading that would decide them, if any does.
    pub resolved_by: Option<State>,
    /// ± 2 σ that it leaves, in SI, of the first of them.
    pub leaves: Option<f64>,
}

/// The reading to take next.
#[derive(Debug, Clone, PartialEq)]
pub struct Next {
    /// In which state.
    pub state: State,
    /// How good it is taken to be: the ± of the finest reading of the same scale, by hand at the tongue or on the road.
    pub good_to: Weight,
    /// The ± of the tongue share that it leaves.
    pub leaves: f64,
}

/// The boat as it is in the first case.
#[derive(Debug, Clone, PartialEq)]
pub struct BoatFound {
    /// Its weight with all aboard.
    pub weight: Option<Estimate>,
    /// Its centre of gravity forward of the transom.
    pub station: Option<Estimate>,
    /// The same above the keel line.
    pub height: Option<Estimate>,
}

/// What readings say of a rig.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// The boat.
    pub boat: BoatFound,
    /// Boat and trailer.
    pub gross: Option<Estimate>,
    /// Tongue weight in the first case, nothing moved.
    pub tongue: Option<Estimate>,
    /// What all axles carry then.
    pub axles: Option<Estimate>,
    /// Tongue weight over gross weight.
    pub share: Option<Estimate>,
    /// The inputs found.
    pub found: Vec<Found>,
    /// The readings, in the file's order.
    pub readings: Vec<Reading>,
    /// What they leave open.
    pub open: Vec<Open>,
    /// What to weigh next; `None` where nothing narrows the tongue share.
    pub next: Option<Next>,
    /// What lies where it cannot.
    pub outside: Vec<Outside>,
    /// The ratings in the file that gross or tongue weight is past as weighed.
    pub past: Vec<Past>,
}

/// A rating that a weight found is past.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Past {
    /// The rating's key.
    pub key: Key,
    /// The rating.
    pub rating: Weight,
    /// How far past it the weight is.
    pub by: Weight,
}

/// The ratings of the file that a gross and a tongue weight are past.
fn past(setup: &Setup, gross: Option<Estimate>, tongue: Option<Estimate>) -> Vec<Past> {
    let of_gross = [TRAILER_GVWR, TRAILER_COUPLER_RATING, HITCH_BALL_RATING, TOW_TOW_RATING];
    let of_tongue = [TRAILER_COUPLER_TONGUE_RATING, HITCH_RECEIVER_TONGUE_RATING];
    let of = |keys: &[Handle<Weight>], weight: Option<Estimate>| {
        let weight =
            weight.filter(|weight| weight.bound.is_some()).map(|weight| Weight::from_si(weight.value));
        let rated = keys.iter().filter_map(|key| Some((key.key(), key.get(setup)?)));
        let past = rated.filter_map(|(key, rating)| Some(Past { key, rating, by: weight? - rating }));
        past.filter(|past| past.by.si() > 0.0).collect::<Vec<_>>()
    };
    [of(&of_gross, gross), of(&of_tongue, tongue)].concat()
}

impl Weighed {
    /// Whether there is an answer: the readings decide the tongue's share, nothing contradicts anything, and what was found
    /// can be, if only within its ±.
    pub fn answers(&self) -> bool {
        let is_decided = self.share.is_some_and(|share| share.bound.is_some());
        is_decided && !self.is_contradicted() && self.outside.iter().all(Outside::is_within_bound)
    }

    /// Whether what was found can be stated in a rig file: there is an answer, and every place that was found can be one.
    pub fn can_be_stated(&self) -> bool {
        self.answers() && self.outside.is_empty()
    }

    /// How many of its own σ the farthest may lie from what the others give, and not be contradicted.
    pub fn most_off(&self) -> f64 {
        let others = self.readings.iter().map(|reading| reading.others);
        most_off(others.chain(self.found.iter().map(|found| found.others)).flatten().count())
    }

    /// Whether a reading, or an input that the file states with ±, is contradicted.
    pub fn is_contradicted(&self) -> bool {
        let readings = self.readings.iter().map(|reading| reading.is_contradicted);
        readings.chain(self.found.iter().map(|found| found.is_contradicted)).any(|is| is)
    }
}

/// What the readings in the file say of the rig as it was measured.
///
/// # Errors
/// [`Unweighed`]: no readings, keys that are missing, or a rig that does not stand.
pub fn weigh(rig: &Rig) -> Result<Weighed, Unweighed> {
    let setup = rig.measured();
    if setup.weighings.is_empty() {
        return Err(Unweighed::NoReadings);
    }
    let rig = unmoved(rig)?;
    let taken = readings(&rig);
    let inputs = unknowns(&rig, &taken)?;
    Problem { rig, inputs, taken }.solve()
}

/// The rig where it was weighed: no proposed shift.
fn unmoved(rig: &Rig) -> Result<Rig, Unweighed> {
    let paths = ["shift.boat", "shift.axles", "shift.tongue", "shift.bunks", "shift.ashore"];
    let variables: Vec<Variable> = paths.iter().map(|path| rig.variable(path)).collect::<Result<_, _>>()?;
    let none: Vec<(&Variable, f64)> = variables.iter().map(|variable| (variable, 0.0)).collect();
    Ok(rig.changed_to(&none)?)
}

/// A reading with its σ.
#[derive(Debug, Clone)]
struct Taken {
    state: State,
    shown: f64,
    sigma: f64,
}

fn readings(rig: &Rig) -> Vec<Taken> {
    let setup = rig.measured();
    let case = |name: &Option<String>| {
        let named = |name| setup.cases.iter().position(|case| case.name.as_ref() == Some(name));
        name.as_ref().and_then(named).unwrap_or(0)
    };
    let taken = setup.weighings.iter().enumerate().filter_map(|(i, reading)| {
        let state = State {
            what: reading.what?,
            coupled: reading.coupled.unwrap_or(true),
            case: case(&reading.case),
            ball_height: reading.ball_height,
            boat: reading.boat.unwrap_or_default(),
        };
        let sigma = (rig.bound_of_reading(i) / 2.0).max(FINEST * Unknown::WEIGHT);
        Some(Taken { state, shown: reading.weight?.si(), sigma })
    });
    taken.collect()
}

/// An input to be found.
#[derive(Debug, Clone)]
struct Unknown {
    key: Key,
    variable: Variable,
    stated: Option<f64>,
    start: f64,
    /// σ of what the file states with ±.
    prior: Option<f64>,
    /// One unit of the search, in SI.
    scale: f64,
}

impl Unknown {
    /// How far it is moved to see what it does, in units of the search: far beyond the rounding of the loads, so near that
    /// a central difference is as good as the slope.
    const PROBE: f64 = 0.2;
    /// One unit of the search of weights, and of lengths, in SI.
    const WEIGHT: f64 = 1000.0;
    const LENGTH: f64 = 0.1;

    fn of(rig: &Rig, key: Key, guess: f64) -> Result<Self, Unweighed> {
        let variable = rig.variable(&key.to_string())?;
        let stated = key.input().and_then(|input| input.si(rig.measured(), key.at));
        let bound = rig.uncertain().iter().find(|(other, _)| *other == key).map(|(_, bound)| bound / 2.0);
        let scale = if variable.kind == Kind::Weight { Self::WEIGHT } else { Self::LENGTH };
        let prior = bound.filter(|sigma| *sigma > 0.0).map(|sigma| sigma.max(FINEST * scale));
        Ok(Self { key, variable, stated, start: stated.unwrap_or(guess), prior, scale })
    }
}

/// The hull, or what scales alone know of the boat; of the empty trailer what the file lacks or states with ±; and what the
/// tow vehicle weighed alone, where a reading or a ± says that this is to be found.
fn unknowns(rig: &Rig, taken: &[Taken]) -> Result<Vec<Unknown>, Unweighed> {
    let setup = rig.measured();
    let by_scales = setup.boat.weights.is_empty() || setup.goes_by_scales();
    let gross = likely_gross(setup, taken);
    let stated = |key: Key| key.input().is_some_and(|input| input.si(setup, key.at).is_some());
    let uncertain = |key: Key| rig.uncertain().iter().any(|(other, _)| *other == key);
    let mut keys = Vec::new();
    if by_scales {
        keys.push((MEASURED_GROSS_TRAILER_WEIGHT.key(), gross));
        keys.push((MEASURED_TONGUE_WEIGHT.key(), 0.1 * gross));
    } else {
        let hull = hull(setup);
        let length = setup.boat.length.or(setup.boat.bow_eye.station).map_or(6.0, Quantity::si);
        keys.push((BOAT_WEIGHTS_WEIGHT.of(hull), 0.6 * gross));
        keys.push((BOAT_WEIGHTS_STATION.of(hull), 0.4 * length));
    }
    if setup.boat.weights.is_empty() {
        keys.push((BOAT_CG_HEIGHT.key(), 0.8));
    } else {
        keys.push((BOAT_WEIGHTS_HEIGHT.of(hull(setup)), 0.8));
    }
    let trailer = [TRAILER_WEIGHT, TRAILER_TONGUE_WEIGHT].map(Handle::key);
    let lengths = [TRAILER_CG, TRAILER_CG_HEIGHT].map(Handle::key);
    keys.extend(trailer.into_iter().chain(lengths).filter(|key| uncertain(*key)).map(|key| (key, 0.0)));
    if !by_scales {
        if setup.trailer_weight().is_none() {
            keys.push((TRAILER_WEIGHT.key(), 0.25 * gross));
        }
        if !stated(TRAILER_TONGUE_WEIGHT.key()) && !stated(TRAILER_CG.key()) {
            let stations = setup.trailer.axles.iter().filter_map(|axle| axle.station.map(Quantity::si));
            let mean = stations.sum::<f64>() / setup.trailer.axles.len() as f64;
            keys.push((TRAILER_CG.key(), 0.9 * mean));
        }
    }
    for (what, key) in [(OnScale::TowFront, TOW_FRONT_AXLE_LOAD), (OnScale::TowRear, TOW_REAR_AXLE_LOAD)] {
        let alone = taken.iter().find(|reading| reading.state.what == what && !reading.state.coupled);
        if alone.is_some() || uncertain(key.key()) {
            keys.push((key.key(), alone.map_or(0.0, |reading| reading.shown)));
        }
    }
    keys.into_iter().map(|(key, guess)| Unknown::of(rig, key, guess)).collect()
}

/// Where the search for the weight of boat and trailer begins: above what any reading shows, and above the trailer alone.
fn likely_gross(setup: &Setup, taken: &[Taken]) -> f64 {
    let shows = taken.iter().map(|reading| match reading.state.what {
        OnScale::TowFront | OnScale::TowRear => 0.0,
        // A tenth of all is usual.
        OnScale::Tongue => 10.0 * reading.shown,
        _ => 1.1 * reading.shown,
    });
    let trailer = setup.trailer_weight().map_or(1000.0, Quantity::si);
    shows.fold(2.0 * trailer, f64::max)
}

/// The item that is called hull, else the heaviest.
fn hull(setup: &Setup) -> usize {
    let items = setup.boat.weights.iter().enumerate();
    let called = items.clone().find(|(_, item)| item.id.as_deref() == Some("hull")).map(|(i, _)| i);
    // An item without a weight is what is asked for.
    let weight = |weight: Option<Weight>| weight.map_or(f64::INFINITY, Quantity::si);
    let heaviest = items.max_by(|(_, a), (_, b)| weight(a.weight).total_cmp(&weight(b.weight)));
    called.or(heaviest.map(|(i, _)| i)).unwrap_or(0)
}

/// What the rig shows in a state, as found by its own loads.
fn shown(rig: &Rig, loads: &CaseLoads, state: &State) -> Known<f64> {
    let setup = rig.proposed();
    let stated = |key: Key| {
        let value = key.input().and_then(|input| input.si(setup, key.at));
        value.ok_or(Missing(vec![key]))
    };
    let axles = || loads.level.as_ref().map(|level| &level.stance.axle_loads).map_err(Clone::clone);
    match (state.what, state.coupled) {
        (OnScale::TowFront, false) => stated(TOW_FRONT_AXLE_LOAD.key()),
        (OnScale::TowRear, false) => stated(TOW_REAR_AXLE_LOAD.key()),
        (OnScale::TowFront, true) => loads.tow.clone().map(|tow| tow.front.si()),
        (OnScale::TowRear, true) => loads.tow.clone().map(|tow| tow.rear.si()),
        (OnScale::Tongue, _) => loads.tongue.clone().map(Quantity::si),
        (OnScale::Gross, _) => loads.gross.clone().map(Quantity::si),
        (what, _) => match (what.axle(), axles()) {
            (Some(axle), loads) => loads.map(|loads| loads.get(axle).map_or(0.0, |load| load.si())),
            (None, Ok(loads)) => Ok(loads.iter().map(|load| load.si()).sum()),
            // On level ground the axles carry what the tongue does not.
            (None, Err(_)) => {
                let gross = loads.gross.clone()?.si();
                loads.tongue.clone().map(|tongue| gross - tongue.si())
            }
        },
    }
}

/// The rig, what is to be found, and the readings.
struct Problem {
    rig: Rig,
    inputs: Vec<Unknown>,
    taken: Vec<Taken>,
}

/// The inverse of a normal matrix, and the directions that it leaves open.
struct Information {
    covariance: DMatrix<f64>,
    open: Vec<DVector<f64>>,
}

impl Information {
    fn of(normal: DMatrix<f64>) -> Self {
        let size = normal.nrows();
        let eigen = normal.symmetric_eigen();
        let mut covariance = DMatrix::zeros(size, size);
        let mut open = Vec::new();
        for (value, vector) in eigen.eigenvalues.iter().zip(eigen.eigenvectors.column_iter()) {
            if *value > LEAST_EIGENVALUE {
                covariance += vector * vector.transpose() / *value;
            } else {
                open.push(vector.into_owned());
            }
        }
        Self { covariance, open }
    }

    /// The variance of what has this slope, an open direction being good to no more than it takes to be open; `None`
    /// where most of the variance lies there.
    fn variance(&self, slope: &DVector<f64>) -> Option<f64> {
        let decided = slope.dot(&(&self.covariance * slope)).max(0.0);
        let open = self.open.iter().map(|open| open.dot(slope).powi(2) / LEAST_EIGENVALUE).sum::<f64>();
        (open <= decided).then_some(decided + open)
    }
}

/// What is shown of the rig as found, by its place.
const BOAT_WEIGHT: usize = 0;
const BOAT_STATION: usize = 1;
const BOAT_HEIGHT: usize = 2;
const GROSS: usize = 3;
const TONGUE: usize = 4;
const AXLES: usize = 5;
const SHARE: usize = 6;
const FIGURES: usize = 7;

impl Problem {
    /// The rig with these values, in a state.
    fn rig_at(&self, values: &DVector<f64>, state: &State) -> Result<Rig, Unweighed> {
        let corrected = self.inputs.iter().zip(values.iter());
        let corrected: Vec<(&Variable, f64)> =
            corrected.map(|(input, value)| (&input.variable, input.scale * value)).collect();
        let rig = self.rig.corrected_to(&corrected)?;
        let boat = rig.variable("shift.boat")?;
        let ball = rig.variable("tow.ball_height")?;
        let mut changes = Vec::new();
        if state.boat != Length::default() {
            changes.push((&boat, state.boat.si()));
        }
        if let Some(height) = state.ball_height {
            changes.push((&ball, height.si()));
        }
        Ok(if changes.is_empty() { rig } else { rig.changed_to(&changes)? })
    }

    /// What the rig with these values shows in a state, counted as a reading from 1.
    fn response(&self, values: &DVector<f64>, state: &State, reading: usize) -> Result<f64, Unweighed> {
        let rig = self.rig_at(values, state)?;
        let needs = Needs { case: Some(state.case), ..Needs::default() };
        let facts = Model::new(&rig).facts(needs)?;
        let lacks = |missing| Unweighed::Lacks { reading, missing };
        let [loads] = &facts.cases[..] else { return Err(lacks(Missing(Vec::new()))) };
        shown(&rig, loads, state).map_err(lacks)
    }

    /// Figures of the rig with these values as it stands in its first case.
    fn figures(&self, values: &DVector<f64>) -> Result<[f64; FIGURES], Unweighed> {
        Self::figures_of(&self.rig_at(values, &State::plain(OnScale::Gross))?)
    }

    /// Figures of a rig as it stands in its first case; what is unknown is not a number.
    fn figures_of(rig: &Rig) -> Result<[f64; FIGURES], Unweighed> {
        let model = Model::new(rig);
        let needs = Needs { case: Some(0), ..Needs::default() };
        let facts = model.facts(needs)?;
        let mut figures = [f64::NAN; FIGURES];
        let [loads] = &facts.cases[..] else { return Ok(figures) };
        let known = |value: &Known<Weight>| value.as_ref().map_or(f64::NAN, |value| value.si());
        figures[BOAT_WEIGHT] = known(&loads.boat);
        if let Some(point) = model.boat_point(&rig.proposed().cases[0]) {
            figures[BOAT_STATION] = point.station.si();
            figures[BOAT_HEIGHT] = point.height.si();
        }
        figures[GROSS] = known(&loads.gross);
        figures[TONGUE] = known(&loads.tongue);
        figures[AXLES] = figures[GROSS] - figures[TONGUE];
        figures[SHARE] = figures[TONGUE] / figures[GROSS];
        Ok(figures)
    }

    /// How something changes with each value: by central differences, or to one side where the other breaks a rule.
    fn slope<T>(
        values: &DVector<f64>,
        of: impl Fn(&DVector<f64>) -> Result<T, Unweighed>,
        mut put: impl FnMut(usize, &T, &T, f64),
    ) -> Result<(), Unweighed> {
        for i in 0..values.len() {
            let at = |by: f64| {
                let mut moved = values.clone();
                moved[i] += by;
                of(&moved)
            };
            match (at(-Unknown::PROBE), at(Unknown::PROBE)) {
                (Ok(before), Ok(after)) => put(i, &before, &after, 2.0 * Unknown::PROBE),
                (Err(_), Ok(after)) => put(i, &at(0.0)?, &after, Unknown::PROBE),
                (Ok(before), Err(_)) => put(i, &before, &at(0.0)?, Unknown::PROBE),
                (Err(error), Err(_)) => return Err(error),
            }
        }
        Ok(())
    }

    fn slope_of(
        &self,
        values: &DVector<f64>,
        state: &State,
        reading: usize,
    ) -> Result<DVector<f64>, Unweighed> {
        let mut slope = DVector::zeros(values.len());
        Self::slope(
            values,
            |at| self.response(at, state, reading),
            |i, before, after, apart| slope[i] = (after - before) / apart,
        )?;
        Ok(slope)
    }

    fn responses(&self, values: &DVector<f64>) -> Result<Vec<f64>, Unweighed> {
        let each = self.taken.iter().enumerate();
        each.map(|(i, reading)| self.response(values, &reading.state, i + 1)).collect()
    }

    /// Half of what is to be least, doubled.
    fn cost(&self, values: &DVector<f64>, responses: &[f64]) -> f64 {
        let readings = self.taken.iter().zip(responses);
        let readings =
            readings.map(|(reading, response)| ((reading.shown - response) / reading.sigma).powi(2));
        let priors =
            self.inputs.iter().zip(values.iter()).filter_map(|(input, value)| {
                Some(((input.scale * value - input.start) / input.prior?).powi(2))
            });
        readings.chain(priors).sum()
    }

    /// Slopes of all readings, and the normal matrix with what the file states with ±.
    fn normal(&self, values: &DVector<f64>) -> Result<(Vec<DVector<f64>>, DMatrix<f64>), Unweighed> {
        let size = values.len();
        let mut normal = DMatrix::zeros(size, size);
        let mut slopes = Vec::new();
        for (i, reading) in self.taken.iter().enumerate() {
            let slope = self.slope_of(values, &reading.state, i + 1)?;
            normal += &slope * slope.transpose() / reading.sigma.powi(2);
            slopes.push(slope);
        }
        for (i, input) in self.inputs.iter().enumerate() {
            normal[(i, i)] += input.prior.map_or(0.0, |sigma| (input.scale / sigma).powi(2));
        }
        Ok((slopes, normal))
    }

    /// The values at which the sum of squares is least: Gauss-Newton, a step halved until it helps.
    fn least(&self) -> Result<DVector<f64>, Unweighed> {
        let start = self.inputs.iter().map(|input| input.start / input.scale);
        let mut values = DVector::from_iterator(self.inputs.len(), start);
        let mut responses = self.responses(&values)?;
        for _ in 0..MOST_STEPS {
            let (slopes, normal) = self.normal(&values)?;
            let mut downhill = DVector::zeros(values.len());
            for ((reading, response), slope) in self.taken.iter().zip(&responses).zip(&slopes) {
                downhill += slope * ((reading.shown - response) / reading.sigma.powi(2));
            }
            for (i, input) in self.inputs.iter().enumerate() {
                let pull =
                    |sigma: f64| (input.start / input.scale - values[i]) * (input.scale / sigma).powi(2);
                downhill[i] += input.prior.map_or(0.0, pull);
            }
            let information = Information::of(normal);
            let pull = information.open.iter().map(|open| open.dot(&downhill).abs()).fold(0.0, f64::max);
            let mut step = information.covariance * downhill;
            let cost = self.cost(&values, &responses);
            let is_near = step.norm() < NEAR && pull < PULL;
            loop {
                if step.norm() < FINE {
                    return is_near.then_some(values).ok_or(Unweighed::Unsettled);
                }
                let next = &values + &step;
                if let Ok(there) = self.responses(&next)
                    && self.cost(&next, &there) < cost
                {
                    (values, responses) = (next, there);
                    break;
                }
                step /= 2.0;
            }
        }
        Err(Unweighed::Unsettled)
    }

    fn solve(self) -> Result<Weighed, Unweighed> {
        let level = TRAILER_LEVEL_BALL_HEIGHT;
        if self.rig.measured().trailer.level_ball_height.is_none()
            && let Some(reading) = self.taken.iter().position(|taken| taken.state.ball_height.is_some())
        {
            return Err(Unweighed::Lacks { reading: reading + 1, missing: Missing(vec![level.key()]) });
        }
        let values = self.least()?;
        let (slopes, normal) = self.normal(&values)?;
        let information = Information::of(normal.clone());
        let responses = self.responses(&values)?;
        let bound = |slope: &DVector<f64>| information.variance(slope).map(|variance| 2.0 * variance.sqrt());

        let figures = self.figures(&values)?;
        let mut by_figure = vec![DVector::zeros(values.len()); FIGURES];
        Self::slope(
            &values,
            |at| self.figures(at),
            |i, before, after, apart| {
                for (slope, (after, before)) in by_figure.iter_mut().zip(after.iter().zip(before)) {
                    slope[i] = (after - before) / apart;
                }
            },
        )?;
        let stated = Self::figures_of(&self.rig)?;
        let figure = |which: usize| {
            let value = figures[which];
            let stated = Some(stated[which]).filter(|stated| !stated.is_nan());
            (!value.is_nan()).then(|| Estimate { value, bound: bound(&by_figure[which]), stated })
        };
        let found = self.inputs.iter().enumerate().map(|(i, input)| {
            let mut slope = DVector::zeros(values.len());
            slope[i] = input.scale;
            let value = input.scale * values[i];
            let prior = input.prior.zip(information.variance(&slope));
            Found {
                key: input.key,
                kind: input.variable.kind,
                estimate: Estimate { value, bound: bound(&slope), stated: input.stated },
                stated_bound: input.prior.map(|sigma| 2.0 * sigma),
                others: prior.and_then(|(sigma, variance)| Others::of(input.start, value, sigma, variance)),
                is_contradicted: false,
            }
        });
        let readings = self.taken.iter().zip(&responses).zip(&slopes).map(|((reading, fitted), slope)| {
            let variance = information.variance(slope).unwrap_or_default();
            Reading {
                state: reading.state.clone(),
                shown: Weight::from_si(reading.shown),
                bound: Weight::from_si(2.0 * reading.sigma),
                fitted: Weight::from_si(*fitted),
                others: Others::of(reading.shown, *fitted, reading.sigma, variance),
                is_contradicted: false,
            }
        });
        let (mut found, mut readings): (Vec<Found>, Vec<Reading>) = (found.collect(), readings.collect());
        let others =
            readings.iter().map(|reading| reading.others).chain(found.iter().map(|found| found.others));
        let off: Vec<Option<f64>> = others.map(|others| others.map(|others| others.off)).collect();
        let named = named(&off);
        let marks = readings.iter_mut().map(|reading| &mut reading.is_contradicted);
        let marks = marks.chain(found.iter_mut().map(|found| &mut found.is_contradicted));
        for (mark, named) in marks.zip(named) {
            *mark = named;
        }
        let (station, height) = (figure(BOAT_STATION), figure(BOAT_HEIGHT));
        let candidates = self.candidates(&values);
        Ok(Weighed {
            boat: BoatFound { weight: figure(BOAT_WEIGHT), station, height },
            gross: figure(GROSS),
            tongue: figure(TONGUE),
            axles: figure(AXLES),
            share: figure(SHARE),
            outside: self.outside(station, height, &found),
            past: past(self.rig.measured(), figure(GROSS), figure(TONGUE)),
            found,
            readings,
            open: information.open.iter().map(|open| self.open(open, &candidates, &normal)).collect(),
            next: self.next(&candidates, &normal, &by_figure[SHARE]),
        })
    }

    /// What was found where it cannot be. The boat's centre of gravity lies between transom and bow, and between the keel line
    /// and her top; where the file does not say how far these are, where the farthest that is plausible lies. The trailer's
    /// lies between the ball and its aft end, or its last axle.
    fn outside(&self, station: Option<Estimate>, height: Option<Estimate>, found: &[Found]) -> Vec<Outside> {
        let setup = self.rig.measured();
        let farthest =
            |handle: Handle<Length>| handle.input().plausible.map_or(f64::INFINITY, |(_, most)| most);
        let bow = setup.boat.length.map_or_else(|| farthest(BOAT_LENGTH), Quantity::si);
        let top = setup.boat.top.map_or_else(|| farthest(BOAT_CG_HEIGHT), Quantity::si);
        let mut axles = setup.trailer.axles.iter().filter_map(|axle| axle.station);
        let tail = setup.trailer.length.or(axles.next_back()).map_or(f64::INFINITY, Quantity::si);
        let own = found.iter().find(|found| found.key == TRAILER_CG.key()).map(|found| found.estimate);
        let places = [
            (Part::BoatStation, station, bow),
            (Part::BoatHeight, height, top),
            (Part::TrailerStation, own, tail),
        ];
        let outside = places.into_iter().filter_map(|(what, estimate, most)| {
            let (value, bound) = estimate.and_then(|estimate| Some((estimate.value, estimate.bound?)))?;
            let within = [0.0, most];
            (!(0.0..=most).contains(&value)).then_some(Outside { what, value, bound, within })
        });
        outside.collect()
    }

    /// Each `what` in each case: as it stands, the boat a foot farther aft, the ball half a foot higher; with its slope. What
    /// cannot be computed, or would lift the tongue, is not recommended.
    fn candidates(&self, values: &DVector<f64>) -> Vec<(State, DVector<f64>)> {
        const FOOT: f64 = 0.3048;
        let setup = self.rig.measured();
        let axles =
            [OnScale::Axle1, OnScale::Axle2, OnScale::Axle3, OnScale::Axle4, OnScale::Axle5, OnScale::Axle6];
        let each_axle =
            axles.into_iter().take(setup.trailer.axles.len()).skip_while(|_| setup.trailer.axles.len() < 2);
        // The tow vehicle's axles say no more than is known of them without the trailer.
        let is_found = |key: Key| self.inputs.iter().any(|input| input.key == key);
        let front = is_found(TOW_FRONT_AXLE_LOAD.key()).then_some(OnScale::TowFront);
        let rear = is_found(TOW_REAR_AXLE_LOAD.key()).then_some(OnScale::TowRear);
        let on_scale = [OnScale::Tongue, OnScale::Gross, OnScale::Axles];
        let on_scale: Vec<OnScale> = on_scale.into_iter().chain(front).chain(rear).chain(each_axle).collect();
        let aft = setup.travel.boat.map_or(FOOT, |travel| travel.to.si().min(FOOT));
        let higher = setup.trailer.level_ball_height.and(setup.tow.ball_height);
        let states = (0..setup.cases.len()).flat_map(|case| {
            let plain = State { case, ..State::plain(OnScale::Tongue) };
            let aft = (aft > 0.0).then(|| State { boat: Length::from_si(aft), ..plain.clone() });
            let higher = higher.map(|height| height + Length::from_si(FOOT / 2.0));
            let higher = higher.map(|height| State { ball_height: Some(height), ..plain.clone() });
            [Some(plain), aft, higher].into_iter().flatten()
        });
        let stands = |state: &State| self.response(values, state, 0).is_ok_and(|tongue| tongue > 0.0);
        let states = states.filter(stands);
        let states =
            states.flat_map(|state| on_scale.iter().map(move |what| State { what: *what, ..state.clone() }));
        states.filter_map(|state| Some((state.clone(), self.slope_of(values, &state, 0).ok()?))).collect()
    }

    /// An open direction: the inputs that it moves, most first, and a reading that it moves by many of its σ.
    fn open(&self, open: &DVector<f64>, candidates: &[(State, DVector<f64>)], normal: &DMatrix<f64>) -> Open {
        /// A smaller part of an input in the direction is not worth a word.
        const PART: f64 = 0.1;
        let mut parts: Vec<(usize, f64)> = open.iter().map(|part| part.abs()).enumerate().collect();
        parts.retain(|(_, part)| *part > PART);
        parts.sort_by(|(_, one), (_, other)| other.total_cmp(one));
        let moved =
            candidates.iter().filter(|(_, slope)| open.dot(slope).abs() > NO_PART * slope.norm().max(1.0));
        let moved = moved.filter_map(|(state, slope)| Some((state, slope, self.finest(state.what)?)));
        let by = |(_, slope, sigma): &(&State, &DVector<f64>, f64)| open.dot(slope).abs() / sigma;
        // The first, with the least moved for it, that is at least half as good as the best.
        let moved: Vec<_> = moved.collect();
        let most = moved.iter().map(by).fold(0.0, f64::max);
        let most = moved.iter().find(|candidate| by(candidate) >= most / 2.0);
        let leaves = most.zip(parts.first()).and_then(|((_, slope, sigma), (first, _))| {
            let mut key = DVector::zeros(open.len());
            key[*first] = self.inputs[*first].scale;
            let information = Information::of(normal + *slope * slope.transpose() / sigma.powi(2));
            Some(2.0 * information.variance(&key)?.sqrt())
        });
        Open {
            keys: parts.iter().map(|(input, _)| self.inputs[*input].key).collect(),
            resolved_by: most.map(|(state, ..)| State::clone(state)),
            leaves,
        }
    }

    /// The reading that leaves the least ± of the tongue share.
    fn next(
        &self,
        candidates: &[(State, DVector<f64>)],
        normal: &DMatrix<f64>,
        share: &DVector<f64>,
    ) -> Option<Next> {
        let now = Information::of(normal.clone()).variance(share);
        let with = candidates.iter().filter_map(|(state, slope)| {
            let sigma = self.finest(state.what)?;
            let information = Information::of(normal + slope * slope.transpose() / sigma.powi(2));
            Some((state, sigma, information.variance(share)?))
        });
        let best = with.reduce(|best, next| if next.2 < best.2 { next } else { best });
        let (state, sigma, variance) = best.filter(|(.., variance)| now.is_none_or(|now| *variance < now))?;
        let good_to = Weight::from_si(2.0 * sigma);
        Some(Next { state: state.clone(), good_to, leaves: 2.0 * variance.sqrt() })
    }

    /// σ of the finest reading of the same scale: one for the tongue, one for wheels. Else of the finest there is.
    fn finest(&self, what: OnScale) -> Option<f64> {
        let is_same = |reading: &&Taken| (reading.state.what == OnScale::Tongue) == (what == OnScale::Tongue);
        let same = self.taken.iter().filter(is_same).map(|reading| reading.sigma).reduce(f64::min);
        same.or_else(|| self.taken.iter().map(|reading| reading.sigma).reduce(f64::min))
    }
}

impl State {
    /// Coupled, in the first case, nothing moved.
    fn plain(what: OnScale) -> Self {
        Self { what, coupled: true, case: 0, ball_height: None, boat: Length::default() }
    }
}
