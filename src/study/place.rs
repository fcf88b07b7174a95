//! Where must a part of the rig sit? For every limit the shifts at which it holds, and where all hold together.
//!
//! The search looks at the range that `[travel]` states, else at [`ASSUMED_RANGE`] each way. All checks on the
//! level are made at least every half inch, and at 201 places or more; checks over ramps, which cost a
//! crossing each, at 61 places or more and at least every 50 mm ([`interval::holding`] says what can hide
//! between). Every end is found from the side where the limit holds, to a tenth of a micrometre on the level and
//! to a micrometre over ramps.

use super::interval::{self, Interval, apart, holding, meet};
use super::uncertainty::{self, is_sure, unsure};
use crate::fit::{
    Amount, Asked, Carried, CaseLoads, Crossed, Facts, Known, Limit, Model, Scope, Severity, Side, Standing,
    Unfit, behind_ball,
};
use crate::quantity::{Length, Quantity, Share, Weight};
use crate::rig::{Fault, Key, Problems, Reach, Rig, Setup, Variable, Varied};
use rayon::prelude::*;
use std::collections::{BTreeMap, HashMap};

/// How far each way is looked where the file states no travel, in metres: 5 ft. No boat moves farther.
pub const ASSUMED_RANGE: f64 = 1.524;
/// Ends this near each other, in metres, close a window together.
const SAME_END: f64 = 1e-6;
/// A gap that changes by less than this share of its load or limit does not depend on the shift.
const UNMOVED: f64 = 1e-9;
/// A sure spot is looked for at the ends of so many even parts of each window.
const CELLS_TRIED: u8 = 20;
/// Loads are kept at the ends of so many even parts of the range.
const PARTS_KEPT: u8 = 120;

/// How the samples of one kind of checks are spaced: at most so many metres, and so many cells at least and at
/// most; and how closely ends are found, in metres.
struct Grid {
    over_ramps: bool,
    spacing: f64,
    least: f64,
    most: f64,
    within: f64,
}

const ON_THE_LEVEL: Grid =
    Grid { over_ramps: false, spacing: 0.0127, least: 200.0, most: 20_000.0, within: 1e-7 };
const OVER_RAMPS: Grid = Grid { over_ramps: true, spacing: 0.05, least: 60.0, most: 600.0, within: 1e-6 };

/// What is moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Boat, bow stop and winch post, aft positive.
    Boat,
    /// The axles, aft positive.
    Axles,
    /// The tongue, drawn in positive.
    Tongue,
    /// The bunks, aft positive.
    Bunks,
}

impl Part {
    /// The key that moves it.
    pub fn path(self) -> &'static str {
        match self {
            Self::Boat => "shift.boat",
            Self::Axles => "shift.axles",
            Self::Tongue => "shift.tongue",
            Self::Bunks => "shift.bunks",
        }
    }

    /// Its shift as a setup proposes it.
    pub(super) fn now(self, setup: &Setup) -> Length {
        let shift = &setup.shift;
        let by = match self {
            Self::Boat => shift.boat,
            Self::Axles => shift.axles,
            Self::Tongue => shift.tongue,
            Self::Bunks => shift.bunks,
        };
        by.unwrap_or_default()
    }

    fn travel(self, setup: &Setup) -> Option<Reach> {
        let travel = &setup.travel;
        match self {
            Self::Boat => travel.boat,
            Self::Axles => travel.axles,
            Self::Tongue => travel.tongue,
            Self::Bunks => travel.bunks,
        }
    }
}

/// How a place is looked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Options {
    /// Whether ramps take part where the file has them: their checks can fail.
    pub ramps: bool,
    /// What a shift can be set to: the spot recommended is a multiple of the first of these that has one inside
    /// its window.
    pub grains: [Length; 2],
}

/// What is known of the place of one part.
#[derive(Debug, Clone, PartialEq)]
pub struct Placing {
    /// What is moved.
    pub part: Part,
    /// Its shift as the rig is proposed.
    pub now: Length,
    /// Where was looked.
    pub range: Interval,
    /// Whether the file states that range.
    pub stated: bool,
    /// Whether checks over ramps were searched.
    pub ramps: bool,
    /// Every limit that could be compared with a load wherever was looked, in the registry's order, then those that are
    /// not there at the range's lower end, and those over ramps.
    pub held: Vec<Held>,
    /// Every row that could not be made, in some case or at some place; what is known of its other cases is in `held`
    /// all the same.
    pub unknown: Vec<Unknown>,
    /// The keys for want of which a limit that counts could be compared at some places and not at others. Then there is
    /// no answer at all: neither window nor spot nor conflict may rest on what was not evaluated.
    pub lacks: Vec<Key>,
    /// Where every limit that counts and can be met holds, in order.
    pub windows: Vec<Window>,
    /// Why there is no window.
    pub conflict: Option<Conflict>,
    /// The place to choose; none without a window, and none where a check that nothing but a move can cure holds
    /// nowhere.
    pub spot: Option<Spot>,
    /// Loads on the level over the range, evenly apart.
    pub samples: Vec<Sample>,
}

/// Loads on the level at one shift: the greatest of all cases.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    /// The shift.
    pub shift: Length,
    /// The least and the greatest tongue share of all cases; `None` where one is unknown, or where the shift cannot be set.
    pub tongue_share: Option<[Share; 2]>,
    /// What each axle carries, front to rear; empty where that is unknown, or where the shift cannot be set.
    pub axle_loads: Vec<Weight>,
}

/// Where one limit holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// The limit.
    pub limit: Limit,
    /// Where it holds, in order.
    pub holds: Vec<Interval>,
    /// Whether the shift changes its load at all.
    pub moves: bool,
    /// Whether every limit of its row that means the same to be past holds somewhere. One that does not is left out of
    /// the windows with all of these: no move fixes it in some case.
    pub fixable: bool,
    /// The most that its load lies inside it at any place sampled; negative where it holds nowhere, and none
    /// where nothing ever holds.
    pub best: Option<Amount>,
    /// Where that is.
    pub best_at: Length,
}

impl Held {
    /// Whether it holds nowhere.
    pub fn never(&self) -> bool {
        self.holds.is_empty()
    }

    /// Whether it takes part in setting the windows.
    pub fn sets_windows(&self) -> bool {
        self.limit.fails() && self.fixable
    }

    /// Whether it must hold, nothing but a move can cure it, and no move does: then no place is worth choosing.
    /// What is about bunks can be cured by other bunks.
    pub fn leaves_no_choice(&self) -> bool {
        let check = self.limit.check;
        let by_moves_only =
            check.remedies.iter().all(|remedy| remedy.is_move()) && !check.remedies.is_empty();
        let by_moves_only = by_moves_only && !check.is_about_bunks();
        self.limit.fails() && self.never() && by_moves_only
    }

    /// Whether it holds all over a range.
    pub fn always(&self, range: Interval) -> bool {
        matches!(self.holds[..], [one] if one == range)
    }
}

/// A row that could not be made.
#[derive(Debug, Clone, PartialEq)]
pub struct Unknown {
    /// Its id.
    pub id: String,
    /// Whether it would have to hold.
    pub counts: bool,
    /// The keys to fill in; empty where the trailer is stranded on the ramp.
    pub missing: Vec<Key>,
}

/// A stretch in which every limit that counts and can be met holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// It.
    pub interval: Interval,
    /// What closes its forward end, and its aft end.
    pub closed_by: [Closer; 2],
    /// The widest part of it in which nothing advises either, of what the move can help.
    pub clear: Option<Interval>,
}

impl Window {
    /// The part of it in which a place is chosen.
    pub fn best(&self) -> Interval {
        self.clear.unwrap_or(self.interval)
    }
}

/// What closes an end of a window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Closer {
    /// A limit, by its place in the list.
    Limit(usize),
    /// The end of where was looked.
    Range,
    /// There the boat's bow stop stands at the ball.
    Ball,
    /// Beyond it the file's rules refuse the shift, or the trailer does not rest on its wheels.
    Refused,
}

/// Why no place suits every limit that can be met.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Conflict {
    /// These two hold nowhere together.
    Pair {
        /// Both, by their places in the list.
        limits: [usize; 2],
        /// Where the first still holds nearest to the other, and where the other does nearest to the first.
        ends: [Length; 2],
    },
    /// Any two hold somewhere together, but not all.
    Together,
}

/// The place to choose: the middle of the widest window, or of its part in which nothing advises, or where the tongue share is nearest to the one that
/// the policy prefers, rounded to what can be set. Where a check is unsure there, the middle of the longest run of
/// sure spots, or the sure spot nearest to that share.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// The shift to set.
    pub shift: Length,
    /// What that is before rounding.
    pub exact: Length,
    /// Its window.
    pub window: usize,
    /// The first grain was too coarse for the window.
    pub finer: bool,
    /// The tongue share that the policy prefers.
    pub preferred: Option<Share>,
    /// For each case the limit that counts and that the shift moves, that is used most there.
    pub most_used: Vec<Option<(Limit, Standing)>>,
    /// What the bounds of inputs leave of it, or `None` where no input has a bound.
    pub sureness: Option<Sureness>,
}

/// How sure a spot is.
#[derive(Debug, Clone, PartialEq)]
pub struct Sureness {
    /// The ids of the checks that are unsure at the spot: they hold as stated and must hold, but may not within the
    /// bounds.
    pub unsure: Vec<String>,
    /// What was looked for because the place that would be chosen otherwise is unsure.
    pub search: Option<SureSearch>,
}

/// A search for a sure spot.
#[derive(Debug, Clone, PartialEq)]
pub struct SureSearch {
    /// The place that would be chosen by the values as stated.
    pub as_stated: Length,
    /// The ids of the checks that are unsure there.
    pub unsure: Vec<String>,
    /// How many spots were tried.
    pub tried: usize,
    /// The first and the last spot of the run of sure ones that the chosen spot belongs to, or `None` where no spot is
    /// sure, and the place as stated is kept.
    pub run: Option<Interval>,
}

impl Sureness {
    /// Whether all that holds there as stated, and must hold, holds within the bounds.
    pub fn is_sure(&self) -> bool {
        self.unsure.is_empty()
    }
}

/// Why nothing could be looked for.
#[derive(Debug, thiserror::Error)]
pub enum Unplaced {
    /// No shift can be set.
    #[error("{0}")]
    Refused(Box<Problems>),
    /// The trailer nowhere rests on its wheels.
    #[error(transparent)]
    Unfit(#[from] Unfit),
    /// There is no such key.
    #[error("{0}")]
    NoKey(Fault),
}

impl Placing {
    /// Whether there is a place at which every limit that counts holds, of those that could be checked. Where
    /// nothing that the shift moves could be, or only at some places, there is none.
    pub fn answers(&self) -> bool {
        let mut counting = self.held.iter().filter(|held| held.limit.fails());
        self.depends() && !self.windows.is_empty() && counting.all(|held| held.fixable)
    }

    /// Whether the shift changes the load of any check that must hold; in a range of one place it may.
    pub fn depends(&self) -> bool {
        self.range.width().si() <= 0.0 || self.held.iter().any(|held| held.limit.fails() && held.moves)
    }

    /// The window to choose a place in.
    pub fn window(&self) -> Option<&Window> {
        self.windows.get(self.spot.as_ref()?.window)
    }

    /// Where several limits hold together.
    pub fn common_to(&self, limits: &[&Held]) -> Vec<Interval> {
        limits.iter().fold(vec![self.range], |together, held| meet(&together, &held.holds))
    }
}

/// Looks for the places at which a part of a rig suits every limit.
///
/// ```
/// use bunkline::quantity::Length;
/// use bunkline::study::place::{Options, Part, place};
///
/// let rig = bunkline::Rig::parse(&std::fs::read_to_string("demo-data/fishing-skiff.toml")?)?;
/// let sixteenth = Length::from_si(0.0254 / 16.0);
/// let options = Options { ramps: false, grains: [sixteenth, sixteenth / 1000.0] };
/// let placing = place(&rig, Part::Boat, &options)?;
/// let spot = placing.spot.as_ref().expect("there is a window");
/// assert!(placing.answers() && placing.windows[0].interval.holds(spot.shift));
/// # use bunkline::quantity::Quantity;
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`Unplaced`] when no shift but the present one can be set, or the trailer nowhere rests on its wheels.
pub fn place(rig: &Rig, part: Part, options: &Options) -> Result<Placing, Unplaced> {
    let setup = &rig.proposed();
    let variable = rig.variable(part.path()).map_err(Unplaced::NoKey)?;
    let mut search = Search::new(rig, variable);
    let travel = part.travel(setup);
    let mut range = travel.map_or(Interval::new(-ASSUMED_RANGE, ASSUMED_RANGE), |reach| Interval {
        from: reach.from,
        to: reach.to,
    });
    let at_ball = at_ball(setup, part);
    match (part, at_ball) {
        (Part::Boat, Some(at)) => range.from = range.from.max(at).min(range.to),
        (Part::Tongue, Some(at)) => range.to = range.to.min(at).max(range.from),
        _ => {}
    }
    let crosses = |asked: &Asked| asked.check.crosses_ramps(setup);
    let ramps = options.ramps && !Scope::of(setup, crosses).rows().is_empty();

    let mut level = search.look(range, &ON_THE_LEVEL)?;
    if ramps {
        let over_ramps = search.look(range, &OVER_RAMPS)?;
        level.held.extend(over_ramps.held);
        for unknown in over_ramps.unknown {
            note_unknown(&mut level.unknown, unknown);
        }
        add_missing(&mut level.lacks, &over_ramps.lacks);
    }
    let Looked { mut held, unknown, lacks, stretches } = level;
    leave_out_unfixable(&mut held);
    let is_whole = lacks.is_empty();

    let met = held.iter().filter(|held| held.sets_windows());
    let together = met.fold(stretches.clone(), |together, held| meet(&together, &held.holds));
    let together = together.iter().filter(|_| is_whole);
    let windows: Vec<Window> =
        together.map(|interval| closed(*interval, &held, range, at_ball, &stretches)).collect();
    let conflict = (is_whole && windows.is_empty()).then(|| conflict(&held));
    let mut placing = Placing {
        part,
        now: part.now(setup),
        range,
        stated: travel.is_some(),
        ramps,
        held,
        unknown,
        lacks,
        windows,
        conflict,
        spot: None,
        samples: search.mover.samples(range),
    };
    if is_whole && placing.depends() && !placing.held.iter().any(Held::leaves_no_choice) {
        let spot = search.spot(&placing, setup.policy.preferred_tongue_share, options)?;
        placing.spot = match spot {
            Some(spot) if uncertainty::is_any(rig) => Some(search.surely(rig, &placing, spot, options)?),
            spot => spot,
        };
    }
    Ok(placing)
}

/// The rig with a part at another shift.
///
/// # Errors
/// [`Unplaced`] when the shift cannot be set.
pub fn moved(rig: &Rig, part: Part, shift: Length) -> Result<Rig, Unplaced> {
    let variable = rig.variable(part.path()).map_err(Unplaced::NoKey)?;
    rig.changed(&variable, shift.si()).map_err(|problems| Unplaced::Refused(Box::new(problems)))
}

/// What a look at one kind of checks found.
struct Looked {
    held: Vec<Held>,
    unknown: Vec<Unknown>,
    /// What limits that count lack at some places and not at others.
    lacks: Vec<Key>,
    /// Where shifts can be set and the trailer rests on its wheels.
    stretches: Vec<Interval>,
}

/// Which limit on which load: the row's place in the scope, the end of its limits, what it means to be past it, the case
/// and the ramp.
type Which = (usize, Side, Severity, Option<usize>, Option<usize>);

/// How every load stands against every limit at one shift.
type Standings = Vec<(Which, Known<Standing>)>;

/// A rig whose part can be put at any shift, in the hands of one thread.
#[derive(Clone)]
struct Mover {
    varied: Varied,
    variable: Variable,
}

impl Mover {
    /// The rig with the part at a shift in metres.
    fn at(&mut self, shift: f64) -> Result<&Rig, Unplaced> {
        self.varied.with(&[(&self.variable, shift)]).map_err(|problems| Unplaced::Refused(Box::new(problems)))
    }

    /// The loads on the level over a range.
    fn samples(&mut self, range: Interval) -> Vec<Sample> {
        let even = |i: u8| range.from + range.width() * (f64::from(i) / f64::from(PARTS_KEPT));
        (0..=PARTS_KEPT).map(|i| self.sample(even(i))).collect()
    }

    fn sample(&mut self, shift: Length) -> Sample {
        let mut sample = Sample { shift, tongue_share: None, axle_loads: Vec::new() };
        let cases = self.at(shift.si()).ok().and_then(|rig| Model::new(rig).loads().ok()).unwrap_or_default();
        let shares: Known<Vec<Share>> = cases.iter().map(CaseLoads::tongue_share).collect();
        if let Ok([first, others @ ..]) = shares.as_deref() {
            let ends = |[least, most]: [Share; 2], share: &Share| [least.min(*share), most.max(*share)];
            sample.tongue_share = Some(others.iter().fold([*first; 2], ends));
        }
        let loads: Known<Vec<&Carried>> =
            cases.iter().map(|case| case.level.as_ref().map_err(Clone::clone)).collect();
        for carried in loads.unwrap_or_default() {
            let axles = carried.stance.axle_loads.iter();
            sample.axle_loads = match &sample.axle_loads[..] {
                [] => axles.copied().collect(),
                most => axles.zip(most).map(|(load, most)| load.max(*most)).collect(),
            };
        }
        sample
    }

    /// How every load stands at a shift; of two loads on one limit, as a tire's on either side, the one that leaves
    /// less.
    fn standings(&mut self, scope: &Scope, shift: f64) -> Result<Standings, Unplaced> {
        let rig = self.at(shift)?;
        let facts: Facts = scope.facts(rig, None)?;
        let mut standings: Standings = Vec::new();
        let mut row_from = (usize::MAX, 0);
        scope.compare(rig.proposed(), &facts, |row, comparison| {
            if row_from.0 != row {
                row_from = (row, standings.len());
            }
            let which = (row, comparison.side, comparison.severity, comparison.case, comparison.ramp);
            let of_row = standings[row_from.1..].iter_mut();
            match of_row.into_iter().find(|(other, _)| *other == which) {
                Some((_, Ok(kept))) => {
                    if let Ok(standing) = comparison.standing
                        && standing.margin < kept.margin
                    {
                        *kept = standing;
                    }
                }
                Some(_) => {}
                None => standings.push((which, comparison.standing)),
            }
        });
        Ok(standings)
    }
}

/// Reads, between the samples, how far inside its limits a load lies: on the level, or over one crossing.
struct Probe<'s> {
    search: &'s Search,
    mover: Mover,
    scope: Scope,
    /// What was found, by the bits of the shift: limits ask for the same places. It holds for this scope only.
    seen: HashMap<u64, Option<Vec<f64>>>,
}

impl Probe<'_> {
    /// How far inside one limit the load lies at a shift.
    fn margin(&mut self, limit: usize, shift: f64) -> f64 {
        let Self { search, mover, scope, seen } = self;
        let found = seen.entry(shift.to_bits()).or_insert_with(|| {
            mover.standings(scope, shift).ok().map(|standings| search.margins(&standings))
        });
        found.as_ref().and_then(|found| found.get(limit)).copied().unwrap_or(f64::NEG_INFINITY)
    }
}

struct Search {
    mover: Mover,
    /// The rows on the level, and those over ramps.
    scopes: [Scope; 2],
    /// Every limit that was met in the samples. Rows come and go with the shift: what is over a crossmember at
    /// one place is clear of it at another.
    limits: Vec<Tally>,
}

impl Search {
    fn new(rig: &Rig, variable: Variable) -> Self {
        let about = |ramps: bool| {
            Scope::of(rig.proposed(), |asked| asked.check.crosses_ramps(rig.proposed()) == ramps)
        };
        let scopes = [about(false), about(true)];
        Self { mover: Mover { varied: Varied::new(rig), variable }, scopes, limits: Vec::new() }
    }

    fn scope(&self, over_ramps: bool) -> &Scope {
        &self.scopes[usize::from(over_ramps)]
    }

    /// The limit that is meant.
    fn limit(&self, over_ramps: bool, (row, side, severity, case, ramp): Which) -> Limit {
        let Asked { check, of, .. } = &self.scopes[usize::from(over_ramps)].rows()[row];
        Limit { check, of: of.clone(), side, case, ramp, severity }
    }

    /// How every load stands at a shift.
    fn standings(&mut self, over_ramps: bool, shift: f64) -> Result<Standings, Unplaced> {
        let Self { mover, scopes, .. } = self;
        mover.standings(&scopes[usize::from(over_ramps)], shift)
    }

    /// How far the load lies inside every limit that was met: without end where the limit is not there, and
    /// what is not known does not hold.
    fn margins(&self, standings: &Standings) -> Vec<f64> {
        let mut margins = vec![f64::INFINITY; self.limits.len()];
        let mut next = 0;
        for (which, standing) in standings {
            if let Some(at) = position(&self.limits, *which, next) {
                margins[at] = standing.as_ref().map_or(f64::NEG_INFINITY, |standing| standing.margin);
                next = at + 1;
            }
        }
        margins
    }

    fn look(&mut self, range: Interval, grid: &Grid) -> Result<Looked, Unplaced> {
        self.limits.clear();
        let looks = self.looks(range, grid)?;
        let stretches: Vec<Interval> = looks.iter().filter_map(|look| stretch(look)).collect();
        let mut looked = Looked { held: Vec::new(), unknown: Vec::new(), lacks: Vec::new(), stretches };
        // What is read over one crossing costs that crossing only.
        let mut by_crossing: BTreeMap<Option<Crossed>, Vec<(usize, f64)>> = BTreeMap::new();
        for (i, Tally { which, size, unknown, missing }) in self.limits.iter().enumerate() {
            let limit = self.limit(grid.over_ramps, *which);
            if *unknown {
                let (id, counts, missing) = (limit.id(), limit.fails(), missing.clone());
                note_unknown(&mut looked.unknown, Unknown { id, counts, missing });
            }
            // What was never known holds nowhere: it is only named. So is what was known at some places only: of the others
            // nothing can be said. That the trailer is stranded lacks no key.
            let Some(size) = size else { continue };
            if !missing.is_empty() {
                if limit.fails() {
                    add_missing(&mut looked.lacks, missing);
                }
                continue;
            }
            let (.., case, ramp) = *which;
            let crossing = ramp.zip(case).map(|(ramp, case)| Crossed { ramp, case });
            by_crossing.entry(crossing).or_default().push((i, *size));
        }
        let of_crossing = |(crossing, limits): (Option<Crossed>, Vec<(usize, f64)>)| {
            let mut probe = self.probe(grid.over_ramps, crossing);
            let held = |(i, size)| (i, self.held(grid, i, size, &looks, &mut probe));
            limits.into_iter().map(held).collect::<Vec<_>>()
        };
        let by_crossing: Vec<_> = by_crossing.into_iter().collect();
        let mut held: Vec<(usize, Held)> = by_crossing.into_par_iter().flat_map_iter(of_crossing).collect();
        held.sort_by_key(|(i, _)| *i);
        looked.held = held.into_iter().map(|(_, held)| held).collect();
        Ok(looked)
    }

    fn probe(&self, over_ramps: bool, crossing: Option<Crossed>) -> Probe<'_> {
        let scope = self.scope(over_ramps).clone().over(crossing);
        Probe { search: self, mover: self.mover.clone(), scope, seen: HashMap::new() }
    }

    /// Looks all over a range; where shifts are refused in between, one list for each stretch without.
    fn looks(&mut self, range: Interval, grid: &Grid) -> Result<Vec<Vec<Look>>, Unplaced> {
        let scope = self.scope(grid.over_ramps);
        let seen: Vec<_> = places(range, grid)
            .into_par_iter()
            .map_init(|| self.mover.clone(), |mover, shift| (shift, mover.standings(scope, shift)))
            .collect();
        let mut looks: Vec<Vec<Look>> = vec![Vec::new()];
        let mut first_refusal = None;
        let mut before: Option<(f64, bool)> = None;
        for (shift, standings) in seen {
            let allowed = standings.is_ok();
            if let Some((last, last_allowed)) = before.filter(|(_, last_allowed)| *last_allowed != allowed) {
                let (good, bad) = if last_allowed { (last, shift) } else { (shift, last) };
                if !last_allowed {
                    looks.push(Vec::new());
                }
                let edge = self.edge(grid, good, bad);
                if edge != good
                    && let Ok(standings) = self.standings(grid.over_ramps, edge)
                    && let Some(look) = looks.last_mut()
                {
                    // An edge may be the first place of all: what it shows must be tallied before it is looked at.
                    tally(&mut self.limits, &standings);
                    look.push((edge, self.margins(&standings)));
                }
            }
            before = Some((shift, allowed));
            match standings {
                Ok(standings) => {
                    tally(&mut self.limits, &standings);
                    if let Some(look) = looks.last_mut() {
                        look.push((shift, self.margins(&standings)));
                    }
                }
                Err(refusal) => first_refusal = first_refusal.or(Some(refusal)),
            }
        }
        looks.retain(|look| !look.is_empty());
        match first_refusal {
            // The present place alone is no choice.
            Some(refusal) if looks.iter().map(|look| span(look)).sum::<f64>() <= SAME_END => Err(refusal),
            _ => Ok(looks),
        }
    }

    /// The last shift that can be set on the way from one that can to one that cannot.
    fn edge(&mut self, grid: &Grid, mut good: f64, mut bad: f64) -> f64 {
        // What a crossing finds refuses no shift: one of them is enough.
        let scope = self.scope(grid.over_ramps).clone().over(Some(Crossed { ramp: 0, case: 0 }));
        while (bad - good).abs() > grid.within {
            let middle = f64::midpoint(good, bad);
            if self.mover.standings(&scope, middle).is_ok() {
                good = middle;
            } else {
                bad = middle;
            }
        }
        good
    }

    /// Where a limit holds; `size` is that of its load or limit.
    fn held(&self, grid: &Grid, index: usize, size: f64, looks: &[Vec<Look>], probe: &mut Probe<'_>) -> Held {
        let limit = self.limit(grid.over_ramps, self.limits[index].which);
        // A limit first met later was not there before.
        let at = |(shift, gaps): &Look| (*shift, gaps.get(index).copied().unwrap_or(f64::INFINITY));
        let mut holds = Vec::new();
        for look in looks {
            let samples: Vec<interval::Sample> = look.iter().map(at).collect();
            holds.extend(holding(&samples, grid.within, &mut |shift| probe.margin(index, shift)));
        }
        let every = || looks.iter().flatten().map(at);
        let known = || every().filter(|(_, gap)| gap.is_finite());
        let best = known().reduce(|best, next| if next.1 > best.1 { next } else { best });
        let least = known().map(|(_, gap)| gap).fold(f64::INFINITY, f64::min);
        let change = best.map_or(0.0, |(_, best)| best - least);
        let jumps = best.is_some() && every().any(|(_, gap)| !gap.is_finite());
        Held {
            holds,
            moves: jumps || change > UNMOVED * size,
            fixable: true,
            best: best.map(|(_, gap)| Amount::from_si(limit.check.measure, gap)),
            best_at: Length::from_si(best.map_or(0.0, |(shift, _)| shift)),
            limit,
        }
    }

    /// The place to choose, if there is a window.
    fn spot(
        &mut self,
        placing: &Placing,
        preferred: Option<Share>,
        options: &Options,
    ) -> Result<Option<Spot>, Unplaced> {
        let windows = &placing.windows;
        let chosen = match preferred {
            Some(share) => self.nearest_share(windows, share.si())?,
            None => None,
        };
        let widest = || {
            // One in which nothing advises comes before any other.
            let width = |window: &Window| (window.clear.is_some(), window.best().width().si());
            let widest =
                windows.iter().enumerate().reduce(|a, b| if width(b.1) > width(a.1) { b } else { a })?;
            let Interval { from, to } = widest.1.best();
            Some((widest.0, f64::midpoint(from.si(), to.si())))
        };
        let Some((window, exact)) = chosen.or_else(widest) else { return Ok(None) };
        let [coarse, fine] = options.grains;
        let rounded = |grain| rounded_inside(exact, windows[window].best(), grain);
        let set = rounded(coarse);
        let shift = set.or_else(|| rounded(fine)).unwrap_or(exact);
        let most_used = self.most_used(placing, shift)?;
        Ok(Some(Spot {
            shift: Length::from_si(shift),
            exact: Length::from_si(exact),
            window,
            finer: set.is_none(),
            preferred: preferred.filter(|_| chosen.is_some()),
            most_used,
            sureness: None,
        }))
    }

    /// A spot with how sure it is, exchanged for one that is sure where it is not and one is found.
    fn surely(
        &mut self,
        rig: &Rig,
        placing: &Placing,
        mut spot: Spot,
        options: &Options,
    ) -> Result<Spot, Unplaced> {
        let unsure = unsure(&moved(rig, placing.part, spot.shift)?)?;
        if unsure.is_empty() {
            spot.sureness = Some(Sureness { unsure, search: None });
            return Ok(spot);
        }
        let mut search = SureSearch { as_stated: spot.shift, unsure: unsure.clone(), tried: 0, run: None };
        let mut runs: Vec<Vec<Tried>> = Vec::new();
        for (window, open) in placing.windows.iter().enumerate() {
            let spots = spots_to_try(open.best(), placing.now, &spot, options);
            search.tried += spots.len();
            let mut was_sure = false;
            for (shift, finer) in spots {
                let there = moved(rig, placing.part, Length::from_si(shift));
                let sure = there.is_ok_and(|rig| is_sure(&rig).unwrap_or(false));
                match runs.last_mut() {
                    Some(run) if sure && was_sure => run.push(Tried { shift, window, finer }),
                    _ if sure => runs.push(vec![Tried { shift, window, finer }]),
                    _ => {}
                }
                was_sure = sure;
            }
        }
        let chosen = match spot.preferred {
            Some(share) => self.nearest_share_of(&runs, share.si())?,
            None => middle_of_longest(&runs),
        };
        let Some((run, tried)) = chosen else {
            spot.sureness = Some(Sureness { unsure, search: Some(search) });
            return Ok(spot);
        };
        search.run = Some(run);
        let shift = Length::from_si(tried.shift);
        Ok(Spot {
            shift,
            exact: shift,
            window: tried.window,
            finer: tried.finer,
            preferred: spot.preferred,
            most_used: self.most_used(placing, tried.shift)?,
            sureness: Some(Sureness { unsure: Vec::new(), search: Some(search) }),
        })
    }

    /// Of sure spots the one at which the first case's tongue share is nearest to another, and its run.
    fn nearest_share_of(
        &mut self,
        runs: &[Vec<Tried>],
        share: f64,
    ) -> Result<Option<(Interval, Tried)>, Unplaced> {
        let mut best: Option<(Interval, Tried, f64)> = None;
        for run in runs {
            let Some(ends) = ends_of(run) else { continue };
            for tried in run {
                let Some(found) = self.share(tried.shift)? else { return Ok(None) };
                let off = (found - share).abs();
                if best.is_none_or(|(.., least)| off < least) {
                    best = Some((ends, *tried, off));
                }
            }
        }
        Ok(best.map(|(ends, tried, _)| (ends, tried)))
    }

    /// The window and the shift inside it at which the first case's tongue share is nearest to another, if it
    /// is known.
    fn nearest_share(&mut self, windows: &[Window], share: f64) -> Result<Option<(usize, f64)>, Unplaced> {
        let mut best: Option<(usize, f64, f64)> = None;
        for (i, window) in windows.iter().enumerate() {
            let mut samples = Vec::new();
            for shift in places(window.best(), &ON_THE_LEVEL) {
                let Some(found) = self.share(shift)? else { return Ok(None) };
                samples.push((shift, found - share));
            }
            // Where the share is met the difference changes its sign: there an interval ends.
            let above = holding(&samples, ON_THE_LEVEL.within, &mut |shift| {
                self.share(shift).ok().flatten().map_or(f64::NEG_INFINITY, |found| found - share)
            });
            let ends = above.iter().flat_map(|interval| [interval.from.si(), interval.to.si()]);
            let mut candidates: Vec<f64> = samples.iter().map(|(shift, _)| *shift).collect();
            candidates.extend(ends);
            for shift in candidates {
                let Some(found) = self.share(shift)? else { return Ok(None) };
                let off = (found - share).abs();
                if best.is_none_or(|(_, _, least)| off < least) {
                    best = Some((i, shift, off));
                }
            }
        }
        Ok(best.map(|(i, shift, _)| (i, shift)))
    }

    /// The first case's tongue share at a shift, if known.
    fn share(&mut self, shift: f64) -> Result<Option<f64>, Unplaced> {
        let cases = Model::new(self.mover.at(shift)?).loads()?;
        Ok(cases.first().and_then(|case| case.tongue_share().ok()).map(Quantity::si))
    }

    /// For each case the most used limit at a shift.
    fn most_used(
        &mut self,
        placing: &Placing,
        shift: f64,
    ) -> Result<Vec<Option<(Limit, Standing)>>, Unplaced> {
        let mut found: Vec<(Limit, Known<Standing>)> = Vec::new();
        for over_ramps in [false, true].into_iter().filter(|over_ramps| !over_ramps || placing.ramps) {
            let standings = self.standings(over_ramps, shift)?;
            found.extend(
                standings.into_iter().map(|(which, standing)| (self.limit(over_ramps, which), standing)),
            );
        }
        let moved = |limit: &Limit| {
            placing.held.iter().any(|held| held.limit == *limit && held.moves && held.sets_windows())
        };
        let counting: Vec<(Limit, Standing)> = found
            .into_iter()
            .filter(|(limit, _)| limit.fails() && moved(limit))
            .filter_map(|(limit, standing)| Some((limit, standing.ok()?)))
            .collect();
        let cases = self.mover.at(shift)?.proposed().cases.len();
        let used = |standing: &Standing| standing.used.unwrap_or(f64::NEG_INFINITY);
        let most_used = |case: usize| {
            let of_case = counting.iter().filter(|(limit, _)| limit.case == Some(case));
            // Of the two ends of a band the nearer is the tight one.
            of_case
                .reduce(|a, b| {
                    let nearer = used(&b.1) == used(&a.1) && b.1.margin < a.1.margin;
                    if used(&b.1) > used(&a.1) || nearer { b } else { a }
                })
                .cloned()
        };
        Ok((0..cases).map(most_used).collect())
    }
}

/// A spot that was tried: its shift in metres.
#[derive(Debug, Clone, Copy)]
struct Tried {
    shift: f64,
    window: usize,
    /// The first grain was too coarse for its window.
    finer: bool,
}

/// The spots of a window at which a sure one is looked for, in order: shifts in metres that can be set, each with
/// whether the first grain was too coarse for it.
fn spots_to_try(window: Interval, now: Length, spot: &Spot, options: &Options) -> Vec<(f64, bool)> {
    let even = |i: u8| window.from + window.width() * (f64::from(i) / f64::from(CELLS_TRIED));
    let wanted = (0..=CELLS_TRIED).map(even).chain([now, spot.shift]).filter(|shift| window.holds(*shift));
    let [coarse, fine] = options.grains;
    let settable = |shift: Length| {
        let rounded = |grain| rounded_inside(shift.si(), window, grain);
        let by_tape = rounded(coarse).map(|shift| (shift, false));
        by_tape.or_else(|| rounded(fine).map(|shift| (shift, true)))
    };
    let mut spots: Vec<(f64, bool)> = wanted.filter_map(settable).collect();
    spots.sort_by(|a, b| a.0.total_cmp(&b.0));
    spots.dedup_by(|a, b| (a.0 - b.0).abs() <= ROUNDING);
    spots
}

/// The first and the last spot of a run.
fn ends_of(run: &[Tried]) -> Option<Interval> {
    Some(Interval::new(run.first()?.shift, run.last()?.shift))
}

/// Of the longest run, the first of equals, the spot nearest to its middle.
fn middle_of_longest(runs: &[Vec<Tried>]) -> Option<(Interval, Tried)> {
    let with_ends = runs.iter().filter_map(|run| Some((ends_of(run)?, run)));
    let longer = |a: &Interval, b: &Interval| b.width().si() > a.width().si();
    let (ends, run) = with_ends.reduce(|a, b| if longer(&a.0, &b.0) { b } else { a })?;
    let middle = f64::midpoint(ends.from.si(), ends.to.si());
    let off = |tried: &Tried| (tried.shift - middle).abs();
    let nearest = run.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
    Some((ends, *nearest))
}

/// A shift in metres with how far inside every limit the load lies there.
type Look = (f64, Vec<f64>);

/// What is gathered of a limit while looking.
#[derive(Clone)]
struct Tally {
    which: Which,
    /// The greatest size of load or limit, or `None` where neither was ever known.
    size: Option<f64>,
    /// Whether it was unknown anywhere, and for want of what.
    unknown: bool,
    missing: Vec<Key>,
}

/// The place of a limit in a list, looked for first where it is expected.
fn position(limits: &[Tally], which: Which, expected: usize) -> Option<usize> {
    if limits.get(expected).is_some_and(|tally| tally.which == which) {
        return Some(expected);
    }
    limits.iter().position(|tally| tally.which == which)
}

fn tally(limits: &mut Vec<Tally>, standings: &Standings) {
    let mut next = 0;
    for (which, standing) in standings {
        let at = position(limits, *which, next).unwrap_or_else(|| {
            limits.push(Tally { which: *which, size: None, unknown: false, missing: Vec::new() });
            limits.len() - 1
        });
        next = at + 1;
        let tally = &mut limits[at];
        match standing {
            Ok(standing) => {
                let size = standing.value.unwrap_or(0.0).abs().max(standing.limit.abs());
                tally.size = Some(tally.size.map_or(size, |known| known.max(size)));
            }
            Err(missing) => {
                tally.unknown = true;
                add_missing(&mut tally.missing, &missing.0);
            }
        }
    }
}

fn add_missing(list: &mut Vec<Key>, keys: &[Key]) {
    for key in keys {
        if !list.contains(key) {
            list.push(*key);
        }
    }
}

fn stretch(look: &[Look]) -> Option<Interval> {
    Some(Interval::new(look.first()?.0, look.last()?.0))
}

fn span(look: &[Look]) -> f64 {
    stretch(look).map_or(0.0, |stretch| stretch.width().si())
}

/// The places at which a range is sampled, both ends among them.
fn places(range: Interval, grid: &Grid) -> Vec<f64> {
    let (from, width) = (range.from.si(), range.width().si());
    if width <= 0.0 {
        return vec![from];
    }
    let cells = (width / grid.spacing).ceil().clamp(grid.least, grid.most);
    // A whole number no greater than the most cells.
    let count = usize::try_from(cells as i64).unwrap_or(1);
    let mut places: Vec<f64> = (0..count).map(|i| from + width * (i as f64 / cells)).collect();
    places.push(range.to.si());
    places
}

/// Lists a row once, with every key that it lacks anywhere.
fn note_unknown(list: &mut Vec<Unknown>, unknown: Unknown) {
    match list.iter_mut().find(|known| known.id == unknown.id) {
        Some(known) => add_missing(&mut known.missing, &unknown.missing),
        None => list.push(unknown),
    }
}

/// Marks every limit of a row, of those that mean the same to be past, of which one holds nowhere in some case.
fn leave_out_unfixable(held: &mut [Held]) {
    let never: Vec<Limit> = held.iter().filter(|held| held.never()).map(|held| held.limit.clone()).collect();
    for held in held {
        let of_row = |limit: &Limit| {
            let same_row = limit.check == held.limit.check && limit.of == held.limit.of;
            same_row && limit.severity == held.limit.severity
        };
        held.fixable = !never.iter().any(of_row);
    }
}

/// The shift of a part at which the boat's bow stop stands at the ball, where it brings them together.
fn at_ball(setup: &Setup, part: Part) -> Option<Length> {
    let stop = behind_ball(setup)?;
    match part {
        Part::Boat => Some(part.now(setup) - stop),
        Part::Tongue => Some(part.now(setup) + stop),
        Part::Axles | Part::Bunks => None,
    }
}

/// A window with what closes it.
fn closed(
    interval: Interval,
    held: &[Held],
    range: Interval,
    at_ball: Option<Length>,
    stretches: &[Interval],
) -> Window {
    let closer = |at: Length, end: fn(&Interval) -> Length, range_end: Length| {
        if at == range_end {
            return if at_ball == Some(at) { Closer::Ball } else { Closer::Range };
        }
        let near = |interval: &Interval| (end(interval) - at).si().abs() <= SAME_END;
        if stretches.iter().any(|stretch| end(stretch) != range_end && near(stretch)) {
            return Closer::Refused;
        }
        let closes = |held: &Held| held.sets_windows() && held.holds.iter().any(near);
        let limit = held.iter().enumerate().find(|(_, held)| closes(held));
        limit.map_or(Closer::Range, |(i, _)| Closer::Limit(i))
    };
    let closed_by = [
        closer(interval.from, |interval| interval.from, range.from),
        closer(interval.to, |interval| interval.to, range.to),
    ];
    Window { interval, closed_by, clear: clear(interval, held) }
}

/// The widest part of a window in which every limit holds that only advises, holds somewhere and depends on the shift.
fn clear(interval: Interval, held: &[Held]) -> Option<Interval> {
    let advising = held.iter().filter(|held| !held.limit.fails() && held.fixable && held.moves);
    let parts = advising.fold(vec![interval], |parts, held| meet(&parts, &held.holds));
    parts.into_iter().reduce(|a, b| if b.width().si() > a.width().si() { b } else { a })
}

/// The two limits that are farthest from holding together.
fn conflict(held: &[Held]) -> Conflict {
    let met: Vec<(usize, &Held)> = held.iter().enumerate().filter(|(_, held)| held.sets_windows()).collect();
    let mut worst: Option<([usize; 2], (Length, Length))> = None;
    let length = |(from, to): (Length, Length)| (to - from).abs();
    for (n, (i, one)) in met.iter().enumerate() {
        for (j, other) in &met[n + 1..] {
            if let Some(ends) = apart(&one.holds, &other.holds)
                && worst.is_none_or(|(_, known)| length(ends) > length(known))
            {
                worst = Some(([*i, *j], ends));
            }
        }
    }
    worst.map_or(Conflict::Together, |(limits, (one, other))| Conflict::Pair { limits, ends: [one, other] })
}

/// A multiple of a grain this near an interval, in metres, lies inside it but for rounding.
const ROUNDING: f64 = 1e-12;

/// The multiple of a grain nearest to a place, inside an interval if there is one.
fn rounded_inside(at: f64, interval: Interval, grain: Length) -> Option<f64> {
    let grain = grain.si();
    let (from, to) = (interval.from.si(), interval.to.si());
    let inside = |steps: &f64| ((steps * grain).clamp(from, to) - steps * grain).abs() <= ROUNDING;
    let (below, above) = ((at / grain).floor(), (at / grain).ceil());
    let by_nearness = if at / grain - below <= above - at / grain { [below, above] } else { [above, below] };
    by_nearness.into_iter().find(inside).map(|steps| (steps * grain).clamp(from, to))
}
