//! Launching with what a tape does not give stood in for, and between which depths each mark may lie.
//!
//! Springs' ratings, the trailer's weight and its tongue weight move the marks little: where the file lacks them, the launch is
//! worked out at both ends of what trailers commonly have. The stand-ins are values that the file could have, and live here
//! alone: no check sees them. Nothing stands in for what the boat weighs and where that lies, which moves the marks most.
//!
//! A mark's band comes from the stand-ins, from the ranges of what is assumed and from all that is stated with ±: each is tried
//! alone at either end, then for each mark all together at the ends that make it come sooner, and at those that make it come
//! later.

use crate::fit::{Event, Findings, Home, Launch, LaunchLoads, Model, Spot};
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::inputs::{TRAILER_AXLES_RATING, TRAILER_TONGUE_WEIGHT, TRAILER_WEIGHT};
use crate::rig::{Key, Rig, Variable, Varied};
use crate::study::ramp::Choice;
use crate::study::ranges;
use rayon::prelude::*;

/// The trailer's weight as a share of the boat's: small trailers weigh half of what they carry, large ones a fifth. Common
/// practice, no source.
const TRAILER: [f64; 2] = [0.2, 0.5];
/// Tongue weight of the empty trailer as a share of its weight. Common practice, no source.
const TONGUE: [f64; 2] = [0.05, 0.2];
/// What the axles' springs are rated for together as a share of the loaded boat and its trailer. Common practice, no source:
/// axles overloaded by a third still stand off their stops, and few trailers have axles for twice their load.
const SPRINGS: [f64; 2] = [0.75, 1.75];

/// What is not in the file and has a stand-in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Silent {
    /// The trailer's weight.
    Trailer,
    /// The empty trailer's tongue weight.
    Tongue,
    /// What each axle's springs are rated for.
    Springs,
}

/// The order in which one stand-in follows from another.
const SILENT: [Silent; 3] = [Silent::Trailer, Silent::Tongue, Silent::Springs];

/// A value that the file lacks, and between which the launch is worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct StandIn {
    /// What it is.
    pub silent: Silent,
    /// The keys that would give it.
    pub keys: Vec<Key>,
    /// Its ends, with all else in the middle.
    pub between: [Weight; 2],
}

/// Launching on every ramp with water in every case, and how far its marks may lie apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Launching {
    /// What the launch was worked out with where the file is silent, in its middle.
    pub stand_ins: Vec<StandIn>,
    /// What happens, in the order of the assessment's; with the stand-ins where there are any.
    pub launches: Vec<LaunchLoads>,
    /// For each of these: the launch at the ends of what is uncertain. `None` where nothing is, where there is no launch,
    /// and in cases that are not the [hardest](Self::hardest).
    pub marks: Vec<Option<Marks>>,
}

/// A launch at the ends of what is uncertain.
#[derive(Debug, Clone, PartialEq)]
pub struct Marks {
    /// The launch in the middle, then at the ends.
    pub tried: Vec<Launch>,
    /// Whether there is no launch at one of the ends.
    pub may_fail: bool,
    /// The keys of what alone moves most where the stern lifts and she comes off; none where nothing does.
    pub first: Vec<Key>,
}

/// Something that is uncertain.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Uncertain {
    Silent(Silent),
    /// By its place among what is assumed.
    Assumed(usize),
    Stated(Key, f64),
}

/// All that is uncertain of a rig.
struct Doubts<'a> {
    rig: &'a Rig,
    stand_ins: &'a [StandIn],
    /// What the file leaves to be assumed: values that go to their ends together.
    assumed: Vec<Vec<(Variable, [f64; 2])>>,
}

/// Ends of what is uncertain, −1 the lower and 1 the upper.
type Ends = Vec<(Uncertain, f64)>;

impl Marks {
    /// The soonest and the latest of a mark, by the depth over the rear wheels; `None` where it comes at none of the ends.
    pub fn between<'a>(&'a self, mark: impl Fn(&'a Launch) -> Option<&'a Spot>) -> Option<[&'a Spot; 2]> {
        let mut spots: Vec<&Spot> = self.tried.iter().filter_map(mark).collect();
        spots.sort_by(|one, other| one.wheel_depth.si().total_cmp(&other.wheel_depth.si()));
        Some([*spots.first()?, *spots.last()?])
    }

    /// How much of the guide posts stands dry at a mark, at most and at least; `None` where that is not known.
    pub fn posts_between<'a>(&'a self, mark: impl Fn(&'a Launch) -> Option<&'a Spot>) -> Option<[Length; 2]> {
        let dry = self.tried.iter().filter_map(mark).map(|spot| spot.guides.as_ref().ok().copied());
        let dry: Vec<Length> = dry.collect::<Option<_>>()?;
        let most = dry.iter().copied().reduce(Length::max)?;
        Some([most, dry.into_iter().fold(most, Length::min)])
    }

    /// The depths for coming home that hold at all ends, of those that hold in the middle.
    #[must_use]
    pub fn worst_home(&self, middle: &Home) -> Home {
        let homes = || self.tried.iter().filter_map(|launch| launch.home.as_ref().ok());
        let later = |one: &Home, other: &Home| match (&one.from, &other.from) {
            (Some(one), Some(other)) => other.wheel_depth > one.wheel_depth,
            (one, _) => one.is_some(),
        };
        let from = homes().fold(middle, |latest, next| if later(latest, next) { next } else { latest });
        let sooner = |one: &Home, other: &Home| other.to.1.wheel_depth < one.to.1.wheel_depth;
        let to = homes().fold(middle, |soonest, next| if sooner(soonest, next) { next } else { soonest });
        Home { from: from.from.clone(), to: to.to.clone() }
    }

    /// Whether the boat is off in the middle, but at one of the ends not before the launch has to stop.
    pub fn may_stop_too_soon(&self) -> bool {
        let is_off = self.tried.first().is_some_and(|middle| !middle.stops_too_soon());
        is_off && (self.may_fail || self.tried.iter().any(Launch::stops_too_soon))
    }
}

impl Launching {
    /// Whether something that the file lacks was stood in for.
    pub fn is_estimate(&self) -> bool {
        !self.stand_ins.is_empty()
    }

    /// Of each ramp the place in [`Self::launches`] of the case in which the boat comes off farthest down; the first of equals.
    pub fn hardest(&self) -> Vec<usize> {
        hardest(&self.launches)
    }
}

fn hardest(launches: &[LaunchLoads]) -> Vec<usize> {
    let down = |at: usize| {
        let off = launches[at].found().ok().and_then(Launch::comes_off).map(|spot| spot.along.si());
        off.unwrap_or(f64::INFINITY)
    };
    let mut ramps: Vec<usize> = launches.iter().map(|loads| loads.ramp).collect();
    ramps.dedup();
    let of_ramp = |ramp: usize| (0..launches.len()).filter(move |at| launches[*at].ramp == ramp);
    let worst = |ramp| of_ramp(ramp).reduce(|most, next| if down(next) > down(most) { next } else { most });
    ramps.into_iter().filter_map(worst).collect()
}

/// Launches a rig that was assessed with these ramps and cases alone.
pub fn launching(rig: &Rig, choice: Choice, findings: &Findings) -> Launching {
    let stand_ins = stand_ins(rig);
    let mut launches = findings.assessment.launches.clone();
    let doubts = Doubts::of(rig, &stand_ins);
    if !stand_ins.is_empty() {
        let middle = choice.of(&doubts.at(&Vec::new()).unwrap_or_else(|| rig.clone()));
        let model = Model::new(&middle);
        for loads in launches.iter_mut().filter(|loads| loads.launch.is_err()) {
            loads.launch = model.launching(loads.ramp, loads.case);
        }
    }
    let uncertain = doubts.all();
    let mut marks = vec![None; launches.len()];
    for at in hardest(&launches) {
        let loads = &launches[at];
        let launch = |ends: &Ends| {
            let there = choice.of(&doubts.at(ends)?);
            Model::new(&there).launching(loads.ramp, loads.case).ok()?.ok()
        };
        if let (Ok(middle), false) = (loads.found(), uncertain.is_empty()) {
            marks[at] = Some(tried(middle, &uncertain, &doubts, &launch));
        }
    }
    Launching { stand_ins, launches, marks }
}

/// What is followed from end to end.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Followed {
    Lifts,
    ComesOff,
    /// How much ramp is left as she is off.
    Left,
    HomeFrom,
    HomeTo,
    At(Event),
}

impl Followed {
    /// All that can be followed of a launch.
    fn all(launch: &Launch) -> Vec<Self> {
        let events = launch.events.iter().map(|(event, _)| Self::At(*event));
        let marks = [Self::Lifts, Self::ComesOff, Self::Left, Self::HomeFrom, Self::HomeTo];
        marks.into_iter().chain(events).collect()
    }

    /// Its depth over the rear wheels, or the ramp that is left, in metres.
    fn of(self, launch: &Launch) -> Option<f64> {
        let home = || launch.home.as_ref().ok();
        let spot = match self {
            Self::Lifts => launch.lifts(),
            Self::ComesOff => launch.comes_off(),
            Self::Left => {
                return Some((launch.must_stop()?.1.position - launch.comes_off()?.position).si());
            }
            Self::HomeFrom => home()?.from.as_ref(),
            Self::HomeTo => home().map(|home| &home.to.1),
            Self::At(event) => launch.at(event),
        };
        Some(spot?.wheel_depth.si())
    }
}

/// A launch at the ends of all that is uncertain.
fn tried(
    middle: &Launch,
    uncertain: &[Uncertain],
    doubts: &Doubts<'_>,
    launch: &(dyn Fn(&Ends) -> Option<Launch> + Sync),
) -> Marks {
    let look = |points: &[Ends]| -> Vec<Option<Launch>> { points.par_iter().map(launch).collect() };
    let alone: Vec<Ends> =
        uncertain.iter().flat_map(|one| [-1.0, 1.0].map(|end| vec![(*one, end)])).collect();
    let mut found = look(&alone);
    let followed = Followed::all(middle);
    let moved = |mark: Followed, at: usize| {
        let there = found[at].as_ref().and_then(|there| mark.of(there));
        there.zip(mark.of(middle)).map_or(0.0, |(there, middle)| there - middle)
    };
    let corner = |mark: Followed, way: f64| -> Ends {
        let ends = (0..uncertain.len()).filter_map(|i| {
            let [lower, upper] = [2 * i, 2 * i + 1].map(|at| way * moved(mark, at));
            let at = if upper > lower { 2 * i + 1 } else { 2 * i };
            (upper.max(lower) > 0.0).then(|| alone[at][0])
        });
        ends.collect()
    };
    let corners = followed.iter().flat_map(|mark| [-1.0, 1.0].map(|way| corner(*mark, way)));
    // One end alone has been tried.
    let corners = corners.filter(|ends| ends.len() > 1);
    let corners = corners.fold(Vec::new(), |mut all: Vec<Ends>, ends| {
        if !all.contains(&ends) {
            all.push(ends);
        }
        all
    });
    let width = |i: usize| {
        let spread = |mark| (moved(mark, 2 * i) - moved(mark, 2 * i + 1)).abs();
        [Followed::Lifts, Followed::ComesOff].map(spread).into_iter().fold(0.0, f64::max)
    };
    let first = (0..uncertain.len()).reduce(|most, next| if width(next) > width(most) { next } else { most });
    let first = first.filter(|i| width(*i) > 0.0).map(|i| doubts.keys(uncertain[i])).unwrap_or_default();
    found.extend(look(&corners));
    let may_fail = found.iter().any(Option::is_none);
    Marks {
        tried: std::iter::once(middle.clone()).chain(found.into_iter().flatten()).collect(),
        may_fail,
        first,
    }
}

impl<'a> Doubts<'a> {
    fn of(rig: &'a Rig, stand_ins: &'a [StandIn]) -> Self {
        let mut doubts = Self { rig, stand_ins, assumed: Vec::new() };
        doubts.assumed =
            doubts.at(&Vec::new()).map(|middle| ranges::of_launching(&middle)).unwrap_or_default();
        doubts
    }

    fn all(&self) -> Vec<Uncertain> {
        let silent = self.stand_ins.iter().map(|stand_in| Uncertain::Silent(stand_in.silent));
        let assumed = (0..self.assumed.len()).map(Uncertain::Assumed);
        let stated = self.rig.uncertain().iter().map(|(key, bound)| Uncertain::Stated(*key, *bound));
        silent.chain(assumed).chain(stated).collect()
    }

    fn keys(&self, uncertain: Uncertain) -> Vec<Key> {
        match uncertain {
            Uncertain::Stated(key, _) => vec![key],
            Uncertain::Assumed(at) => {
                self.assumed[at].iter().flat_map(|(variable, _)| variable.keys()).collect()
            }
            Uncertain::Silent(silent) => {
                let stand_in = self.stand_ins.iter().find(|stand_in| stand_in.silent == silent);
                stand_in.map(|stand_in| stand_in.keys.clone()).unwrap_or_default()
            }
        }
    }

    /// The rig with stand-ins for what its file lacks, with what is assumed and what is stated with ±, at these ends; all else
    /// in the middle or as assumed. `None` where such a rig breaks a rule of the file.
    fn at(&self, ends: &Ends) -> Option<Rig> {
        let mut rig = self.rig.clone();
        for silent in SILENT {
            let is_it = |(one, _): &&(Uncertain, f64)| *one == Uncertain::Silent(silent);
            rig = filled_in(rig, silent, ends.iter().find(is_it).map_or(0.0, |(_, end)| *end))?;
        }
        let assumed = |(one, end): &(Uncertain, f64)| match one {
            Uncertain::Assumed(at) => Some((&self.assumed[*at], usize::from(*end > 0.0))),
            Uncertain::Silent(_) | Uncertain::Stated(..) => None,
        };
        let assumed = ends.iter().filter_map(assumed);
        let values: Vec<(&Variable, f64)> = assumed
            .flat_map(|(values, end)| values.iter().map(move |(variable, ends)| (variable, ends[end])))
            .collect();
        if !values.is_empty() {
            rig = rig.changed_to(&values).ok()?;
        }
        let stated = |(one, end): &(Uncertain, f64)| match one {
            Uncertain::Stated(key, bound) => Some((*key, end * bound)),
            Uncertain::Silent(_) | Uncertain::Assumed(_) => None,
        };
        let errors: Vec<(Key, f64)> = ends.iter().filter_map(stated).collect();
        if errors.is_empty() {
            return Some(rig);
        }
        Varied::new(&rig).with_errors_drawn_back(&errors).ok().map(|(rig, _)| rig.clone())
    }
}

/// Every stand-in that a rig needs.
fn stand_ins(rig: &Rig) -> Vec<StandIn> {
    let mut rig = rig.clone();
    let mut all = Vec::new();
    for silent in SILENT {
        if let [Some((keys, low)), Some((_, high))] = [-1.0, 1.0].map(|end| stand_in(&rig, silent, end)) {
            all.push(StandIn { silent, keys, between: [low, high] });
        }
        let Some(next) = filled_in(rig, silent, 0.0) else { return Vec::new() };
        rig = next;
    }
    all
}

/// The rig with one stand-in at an end, if it needs it.
fn filled_in(rig: Rig, silent: Silent, end: f64) -> Option<Rig> {
    let Some((keys, value)) = stand_in(&rig, silent, end) else { return Some(rig) };
    let variables: Vec<Variable> = keys.into_iter().filter_map(|key| rig.number(key)).collect();
    let values: Vec<(&Variable, f64)> = variables.iter().map(|variable| (variable, value.si())).collect();
    rig.corrected_to(&values).ok()
}

/// The stand-in for what the file of a rig lacks, at an end from −1 to 1, and its keys; `None` where it lacks nothing, or too
/// much for a stand-in.
fn stand_in(rig: &Rig, silent: Silent, end: f64) -> Option<(Vec<Key>, Weight)> {
    let setup = rig.measured();
    let trailer = &setup.trailer;
    let boat = || Model::new(rig).boat_weight(setup.cases.first()?).ok();
    let (keys, of, [low, high]) = match silent {
        Silent::Trailer if setup.trailer_weight().is_none() => (vec![TRAILER_WEIGHT.key()], boat()?, TRAILER),
        Silent::Tongue if trailer.tongue_weight.is_none() && trailer.cg.is_none() => {
            (vec![TRAILER_TONGUE_WEIGHT.key()], setup.trailer_weight()?, TONGUE)
        }
        Silent::Springs => {
            let lacks = |i: &usize| trailer.axles[*i].spring_rating.or(trailer.axles[*i].rating).is_none();
            let axles = (0..trailer.axles.len()).filter(lacks);
            let keys: Vec<Key> = axles.map(|i| TRAILER_AXLES_RATING.of(i)).collect();
            let each = (boat()? + setup.trailer_weight()?) * (1.0 / trailer.axles.len().max(1) as f64);
            (keys, each, SPRINGS)
        }
        Silent::Trailer | Silent::Tongue => return None,
    };
    let share = f64::midpoint(low, high) + end * (high - low) / 2.0;
    (!keys.is_empty()).then(|| (keys, of * share))
}
