//! The trailer to look for, from a boat and what is to tow it: the least that each part must be good for, and where the boat
//! would sit.
//!
//! A candidate trailer is written as a rig file and assessed whole with the boat; its parts are sized from the loads that
//! this finds, rounded up to what is sold, until they no longer change. They hold at the worst of every ± of the boat, with the
//! reserve left free, at each place of the axles that the sheet lists, and for a light trailer as for a heavy one. What is assumed of a trailer that nobody has seen
//! yet is common practice: its own weight (`OWN`), what of that rests on the tongue, axle spacing, wheel size, and how high
//! the boat stands.

mod candidate;

use super::plan::{at_least, greatest};
use super::uncertainty::{self, Uncertainty};
use crate::fit::{self, Assessment, RigVerdict, Row, Unfit, Verdict};
use crate::quantity::show::UnitSystem;
use crate::quantity::unit::{INCH, POUND};
use crate::quantity::{Length, Quantity, STANDARD_GRAVITY, Share, Volume, Weight};
use crate::rig::inputs::{
    BOAT_BOW_EYE_STATION, TOW_BALL_HEIGHT, TRAILER_AXLES_RATING, TRAILER_AXLES_TIRES_RATING,
    TRAILER_COUPLER_RATING, TRAILER_COUPLER_TONGUE_RATING, TRAILER_JACK_RATING,
};
use crate::rig::{Implausible, IncludeFault, Key, Problems, Rig, Setup, Sources, Span, include, tires};
use candidate::Candidate;
use std::collections::BTreeMap;

/// A trailer's own weight as a share of its boat's: a light, a usual and a heavy one. Common practice, no source.
pub const OWN: [f64; 3] = [0.20, 0.30, 0.40];
/// No axle is asked to be good for more where another axle would share the load. Common practice, no source.
const MOST_ON_AN_AXLE: f64 = 7000.0 * POUND;
/// The most axles that are tried.
pub const MOST_AXLES: usize = 3;
/// What messages would call the text of a candidate.
const CANDIDATE: &str = "the trailer to look for";
/// How often parts are sized again.
const SIZINGS: usize = 8;
/// From the ball to the bow stop: where the sheet has it, and where else the boat might sit. Common practice, no source.
const BOW_STOP: f64 = 5.0;
const BOW_STOPS: [f64; 6] = [4.0, 4.5, 5.0, 5.5, 6.0, 6.5];
/// A tongue's section modulus to begin with, in cubic metres.
const MODULUS: f64 = 50e-6;
/// A winch's line is asked for so many times the pull, to break the boat loose. Common practice, no source.
const BREAKS_LOOSE: f64 = 1.3;
/// A bunk's outer edge from the centreline, as a share of the beam. Common practice, no source.
const BUNK_AT: f64 = 0.25;

/// What a trailer's part is bought by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Figure {
    /// The gross rating.
    Gross,
    /// The rating of each axle, with its springs.
    Axle,
    /// The rating of each tire and each wheel.
    Tire,
    /// The coupler.
    Coupler,
    /// The coupler on the tongue.
    CouplerTongue,
    /// The breaking strength of each safety chain.
    Chain,
    /// The tongue jack.
    Jack,
    /// The winch, on the layer that is wound.
    Winch,
    /// The working limit of its strap.
    Strap,
    /// The tongue's section modulus.
    Tongue,
}

/// The least that a figure must be, and which row asks for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// The figure.
    pub figure: Figure,
    /// The least, rounded up to what is sold.
    pub least: Least,
    /// The load that asks for it, before the reserve.
    pub load: Option<Least>,
    /// The row that asks for it.
    pub by: String,
}

/// An amount that is asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Least {
    /// A weight.
    Weight(Weight),
    /// A section modulus.
    Modulus(Volume),
}

/// Where the boat would sit on a trailer whose axles stand at some place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// The middle of the axles behind the ball.
    pub axles: Length,
    /// The bow stop behind the ball.
    pub bow_stop: Length,
    /// The transom behind the ball.
    pub transom: Length,
    /// How far forward (negative) and aft of there the tongue share still holds, in every case and on a light, a usual and a
    /// heavy trailer, all figures as stated.
    pub window: [Length; 2],
}

/// What another number of axles asks for.
#[derive(Debug, Clone, PartialEq)]
pub struct Axles {
    /// How many.
    pub count: usize,
    /// The rating of each.
    pub rating: Weight,
    /// The rating of each tire.
    pub tire: Weight,
    /// What the most loaded axle carries on the level.
    pub load: Weight,
    /// What its most loaded tire carries there.
    pub on_tire: Weight,
    /// The least load index of a tire that has the rating; none past the last index.
    pub tire_index: Option<u32>,
    /// The same with the rear axle lifted; none of a single axle.
    pub lifted: Option<Weight>,
    /// The keys for want of which that is not known: lifted, the others may need more than is asked for.
    pub lifted_lacks: Vec<Key>,
}

/// The bunks that suit the boat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WantedBunks {
    /// How long they are, from the transom forward.
    pub length: Length,
    /// From outer edge to outer edge.
    pub spacing: Length,
}

/// The trailer to look for.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The boat at its heaviest, as stated.
    pub boat: Weight,
    /// The same with each ± at its end.
    pub boat_at_most: Weight,
    /// The share of each rating that is left free.
    pub reserve: Share,
    /// How many axles it has, and what each number of axles asks for.
    pub axles: usize,
    /// One to three axles.
    pub choices: Vec<Axles>,
    /// A light, a usual and a heavy trailer's own weight.
    pub own: [Weight; 3],
    /// The gross rating that each of them needs.
    pub gross: [Weight; 3],
    /// What is left of it for the boat, at least.
    pub capacity: Weight,
    /// What each part must be good for.
    pub asks: Vec<Ask>,
    /// The ball that fits its coupler; none where the file tows by none.
    pub ball: Option<Length>,
    /// The ball height at which it sits level.
    pub level_at: Option<Length>,
    /// The bunks that suit the boat; none where the file says too little of the hull.
    pub bunks: Option<WantedBunks>,
    /// Where the boat would sit.
    pub spots: Vec<Spot>,
    /// What of the boat and what tows it no such rig has: a digit or a unit is more likely wrong than right.
    pub implausible: Vec<Implausible>,
    /// The figures of which more is asked for than is usually sold.
    pub beyond_sold: Vec<Figure>,
    /// What still fails, is unsure or could not be checked, though a verdict needs it, on a trailer of the usual own weight.
    pub unmet: Vec<Row>,
    /// Where something fails on that one: the most that a trailer may weigh with which nothing does, of those that are
    /// asked for; none where the lightest fails too, or where it is not weight that fails.
    pub own_at_most: Option<Weight>,
    /// A trailer built to the sheet, as the text of a rig file.
    pub trailer: String,
    /// The boat on it.
    pub rig: Rig,
    /// That rig, assessed whole.
    pub found: Assessment,
}

impl Sheet {
    /// Whether a figure in the file is more likely wrong than right, so that the sheet must not be taken for a fact.
    pub fn is_doubtful(&self) -> bool {
        !self.implausible.is_empty() || !self.beyond_sold.is_empty()
    }

    /// Whether the check asks for brakes on a trailer of the usual own weight.
    pub fn asks_for_brakes(&self) -> bool {
        self.found.check("brakes-required").is_some_and(|row| row.min.is_some())
    }
}

/// Why there is no sheet.
#[derive(Debug, thiserror::Error)]
pub enum NoSheet {
    /// The file has mistakes.
    #[error("{0}")]
    Problems(Box<Problems>),
    /// No trailer can be written for this boat: what is wrong would stand in a text that its owner never saw.
    #[error("expected a boat for which a trailer can be found, but on one that would suit it: {0}")]
    NoTrailer(String),
    /// The boat does not rest on its trailer.
    #[error(transparent)]
    Unfit(#[from] Unfit),
    /// The same where figures in the file are more likely wrong than right.
    #[error("is a digit or a unit wrong in {}? As it stands: {why}", list(.keys))]
    Misread {
        /// The keys of these.
        keys: Vec<Key>,
        /// What does not work as they stand.
        why: Box<NoSheet>,
    },
    /// The file says too little of the boat.
    #[error("expected a boat whose weight and place are known, found nothing in {}{}", list(.0), help(.0))]
    Lacks(Vec<Key>),
}

fn list(keys: &[Key]) -> String {
    keys.iter().map(Key::to_string).collect::<Vec<_>>().join(", ")
}

/// What a key has to do with the boat's place, where that is not plain.
fn help(keys: &[Key]) -> &'static str {
    if keys.contains(&BOAT_BOW_EYE_STATION.key()) {
        "\nhelp: the bow eye ties the boat to the trailer: fill in boat.bow_eye.station"
    } else {
        ""
    }
}

impl From<Problems> for NoSheet {
    /// Mistakes as the owner's file has them: none is shown in the text of a candidate.
    fn from(mut problems: Problems) -> Self {
        let sources = problems.sources.clone();
        let is_candidates = |span: &Option<Span>| {
            span.as_ref().is_some_and(|span| sources.get(span.source).name == CANDIDATE)
        };
        let first = problems.list.first().map(|problem| problem.fault.to_string()).unwrap_or_default();
        for problem in &mut problems.list {
            if is_candidates(&problem.at) {
                std::mem::swap(&mut problem.at, &mut problem.other);
            }
            if is_candidates(&problem.other) {
                problem.other = None;
            }
        }
        problems.list.retain(|problem| !is_candidates(&problem.at));
        if problems.list.is_empty() { Self::NoTrailer(first) } else { Self::Problems(Box::new(problems)) }
    }
}

/// What is asked of a sheet.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    /// The share of each rating that is left free; else the policy's thin margin.
    pub reserve: Option<Share>,
    /// How many axles; else as few as carry the load.
    pub axles: Option<usize>,
    /// The units in which parts are bought; else the file's.
    pub units: Option<UnitSystem>,
}

/// The trailer to look for, for the boat of these texts. A trailer in them is not read.
///
/// # Errors
/// [`NoSheet`]: the texts have mistakes, or say too little of the boat.
pub fn spec(boat: &Sources, changes: &[String], wanted: &Wanted) -> Result<Sheet, NoSheet> {
    let bench = Bench::of(boat, changes, wanted);
    let rig = bench.rig(&bench.first())?;
    let made = bench.given(&rig, wanted).and_then(|bench| bench.made(wanted));
    // What a wrong digit breaks is no answer.
    let keys: Vec<Key> = implausible(&rig).into_iter().map(|value| value.key).collect();
    made.map_err(|why| match why {
        NoSheet::Unfit(_) | NoSheet::NoTrailer(_) if !keys.is_empty() => {
            NoSheet::Misread { keys, why: Box::new(why) }
        }
        why => why,
    })
}

/// What of the boat and what tows it no such rig has. What there is of a trailer the candidate states.
fn implausible(rig: &Rig) -> Vec<Implausible> {
    let found = rig.proposed().implausible().into_iter();
    found.filter(|value| !value.key.path.starts_with("trailer.")).collect()
}

/// What of boat and tow vehicle a candidate must suit.
#[derive(Debug, Clone, Default)]
pub(crate) struct Given {
    /// Its own ball, if it has one.
    ball: Option<f64>,
    /// Whether it tows by a ball at all.
    hangs_on_ball: bool,
    ball_height: Option<f64>,
    /// The bow eye forward of the transom.
    bow_eye: f64,
    has_ramps: bool,
    /// The boat's centre of gravity, and its straight bottom, forward of the transom; its beam.
    centre: f64,
    straight_run: Option<f64>,
    beam: Option<f64>,
}

/// Where bunks lie behind the ball.
struct Bunks {
    forward: f64,
    aft: f64,
    half_spacing: f64,
}

impl Given {
    fn of(setup: &Setup) -> Self {
        let si = |length: Option<Length>| length.map(Quantity::si);
        Self {
            ball: si(setup.hitch.ball.diameter),
            hangs_on_ball: setup.hitch.ball.absent.is_none(),
            ball_height: si(setup.tow.ball_height.filter(|_| !setup.is_assumed(TOW_BALL_HEIGHT.key()))),
            bow_eye: si(setup.boat.bow_eye.station).unwrap_or_default(),
            has_ramps: !setup.ramps.is_empty(),
            centre: 0.0,
            straight_run: si(setup.boat.hull.straight_run),
            beam: si(setup.boat.beam),
        }
    }

    /// The ball that is there; else the usual one for what hangs on it. Common practice, no source.
    fn ball_size(&self, coupler: Option<f64>, units: UnitSystem) -> f64 {
        let usual = |coupler: f64| match (units, coupler / POUND) {
            (UnitSystem::Metric, _) => 0.05,
            (_, ..=2000.0) => 1.875 * INCH,
            (_, ..=8000.0) => 2.0 * INCH,
            _ => 2.3125 * INCH,
        };
        self.ball.unwrap_or_else(|| usual(coupler.unwrap_or_default()))
    }

    /// Bunks from the transom forward: twice as long as the boat's centre of gravity lies ahead of it, so that it lies in
    /// their middle, but no longer than the bottom is straight.
    fn bunks(&self, candidate: &Candidate) -> Option<Bunks> {
        let length = self.straight_run?.min(2.0 * self.centre);
        let aft = candidate.transom(self).si();
        let half_spacing = candidate.tape(self.beam? * BUNK_AT);
        let forward = candidate.tape(aft - length);
        (length > 0.0 && self.centre > 0.0 && forward > 0.0).then_some(Bunks { forward, aft, half_spacing })
    }
}

/// A candidate with what asks for each of its figures.
#[derive(Debug, Clone)]
struct Sized {
    candidate: Candidate,
    /// The row, and its load.
    asked: BTreeMap<Figure, (String, f64)>,
}

impl Sized {
    fn figure(&self, figure: Figure) -> f64 {
        self.candidate.figures.get(&figure).copied().unwrap_or_default()
    }
}

/// What asks of which figure: the figure, the row, its load, and the least that the figure must be.
type Need = (Figure, String, f64, f64);

/// The most that is asked of each figure: by which row, its load, and the least that the figure must be.
type Needed = BTreeMap<Figure, (String, f64, f64)>;

/// Takes in what is needed where it is more.
fn grow(needed: &mut Needed, needs: Vec<Need>) {
    for (figure, by, load, least) in needs {
        let entry = needed.entry(figure).or_insert_with(|| (by.clone(), load, least));
        if least > entry.2 {
            *entry = (by, load, least);
        }
    }
}

/// The least margin of a row within every ±.
fn corner(uncertainty: Option<&Uncertainty>, at: usize) -> Option<fit::Amount> {
    uncertainty?.corners[at].as_ref()?.margin
}

/// The most that a row's load comes to: as stated, within the ranges of what is assumed, and where its margin is this one.
fn most(row: &Row, margin: Option<fit::Amount>) -> Option<f64> {
    let load = row.load?.si();
    let ranged = row.range.as_ref().map_or(load, |range| range.high.si().max(load));
    let at_corner = row.max.zip(margin).map(|(max, margin)| max.si() - margin.si());
    Some(at_corner.map_or(ranged, |at_corner| at_corner.max(ranged)))
}

/// Where candidates are tried.
struct Bench<'a> {
    boat: &'a Sources,
    changes: &'a [String],
    given: Given,
    units: UnitSystem,
    reserve: f64,
    /// The boat at its heaviest, as stated and with each ± at its end.
    weight: f64,
    heaviest: f64,
    /// The tongue share that the policy asks for, and what is aimed at within it.
    band: [f64; 2],
    target: f64,
}

impl<'a> Bench<'a> {
    /// A bench on which nothing of the boat is known yet.
    fn of(boat: &'a Sources, changes: &'a [String], wanted: &Wanted) -> Self {
        Self {
            boat,
            changes,
            given: Given::default(),
            units: wanted.units.unwrap_or(UnitSystem::Us),
            reserve: 0.0,
            weight: 0.0,
            heaviest: 0.0,
            band: [0.0, 1.0],
            target: 0.0,
        }
    }

    /// A bench for the boat of this rig, which is on the first candidate.
    fn given(self, rig: &Rig, wanted: &Wanted) -> Result<Self, NoSheet> {
        let mut bench = self;
        let first = bench.first();
        let setup = rig.proposed();
        bench.units = wanted.units.unwrap_or(setup.units.map_or(UnitSystem::Us, UnitSystem::from));
        bench.given = Given::of(setup);
        let si = |share: Option<Share>, usual: f64| share.map_or(usual, Quantity::si);
        let reserve = wanted.reserve.or(setup.policy.thin_margin);
        bench.reserve = si(reserve, 0.1);
        bench.band = [si(setup.policy.tongue_share.min, 0.07), si(setup.policy.tongue_share.max, 0.12)];
        bench.target = si(setup.policy.preferred_tongue_share, f64::midpoint(bench.band[0], bench.band[1]));
        let (found, uncertainty) = uncertainty::brief_off_ramps(rig)?;
        let share = found.check("tongue-share").filter(|row| row.load.is_none());
        if let Some(row) = share {
            return Err(NoSheet::Lacks(row.missing.clone()));
        }
        let boats = found.cases.iter().filter_map(|case| case.boat.as_ref().ok());
        bench.weight = boats.copied().fold(0.0, |most, boat| f64::max(most, boat.si()));
        let gross = found.rows.iter().position(|row| row.check.id == "trailer-gvwr");
        let gross = gross.and_then(|at| most(&found.rows[at], corner(uncertainty.as_ref(), at)));
        bench.heaviest = gross.map_or(bench.weight, |gross| f64::max(bench.weight, gross - first.own));
        if let Some(case) = found.cases.first() {
            bench.given.centre = bench.centre(&first, case);
        }
        Ok(bench)
    }

    /// The sheet.
    fn made(&self, wanted: &Wanted) -> Result<Sheet, NoSheet> {
        let mut choices = (1..=MOST_AXLES).map(|axles| self.sized(axles)).collect::<Result<Vec<_>, _>>()?;
        for sized in &mut choices {
            // A heavy trailer asks most of its axles.
            self.raised(sized, &[2], &[BOW_STOP])?;
        }
        let fewest = choices.iter().find(|sized| sized.figure(Figure::Axle) <= MOST_ON_AN_AXLE);
        let count = fewest.map_or(MOST_AXLES, |sized| sized.candidate.axles);
        let chosen = wanted.axles.unwrap_or(count).clamp(1, MOST_AXLES) - 1;
        let found = self.proven(&mut choices[chosen])?;
        let axles = choices.iter().map(|sized| self.axles(sized)).collect::<Result<_, _>>()?;
        self.sheet(&choices[chosen], found, axles)
    }

    /// The boat's centre of gravity forward of its transom: what is left of the rig's moment without the trailer.
    fn centre(&self, candidate: &Candidate, case: &fit::CaseLoads) -> f64 {
        let (Ok(body), Ok(boat)) = (&case.body, &case.boat) else { return 0.0 };
        let own = candidate.own * candidate.tape(candidate.centre * (1.0 - candidate::OWN_TONGUE));
        let behind = (body.weight.si() * body.at.x.si() - own) / boat.si();
        candidate.bow_stop + self.given.bow_eye - behind
    }

    /// A candidate to begin with, of about any size.
    fn first(&self) -> Candidate {
        let mut candidate = Candidate {
            units: self.units,
            axles: 1,
            own: self.whole(1000.0 * POUND),
            centre: 0.0,
            bow_stop: self.bow_stop(BOW_STOP),
            figures: BTreeMap::new(),
        };
        let weight = self.whole(5000.0 * POUND);
        for figure in FIGURES {
            candidate.figures.insert(figure, weight);
        }
        candidate.figures.insert(Figure::Tongue, MODULUS);
        candidate.centre = candidate.tape(5.0);
        candidate
    }

    /// A bow stop so many feet behind the ball, or the same in steps of 150 mm.
    fn bow_stop(&self, feet: f64) -> f64 {
        match self.units {
            UnitSystem::Us => feet * 12.0 * INCH,
            UnitSystem::Metric => feet * 0.3,
        }
    }

    /// A weight in whole pounds or kilograms, no less than this.
    fn whole(&self, si: f64) -> f64 {
        self.up_to(si, [1.0, 1.0])
    }

    fn up_to(&self, si: f64, [pounds, kilograms]: [f64; 2]) -> f64 {
        let step = match self.units {
            UnitSystem::Us => pounds * POUND,
            UnitSystem::Metric => kilograms * STANDARD_GRAVITY,
        };
        (si / step - 1e-6).ceil() * step
    }

    /// The boat on a candidate.
    fn rig(&self, candidate: &Candidate) -> Result<Rig, Problems> {
        let text = candidate.text(&self.given);
        let trailer = include(CANDIDATE, &text, (), |(), _| Err(IncludeFault::NoFolder))?;
        Rig::from_sources(self.boat.on_trailer(&trailer), self.changes)
    }

    /// What is sold that is at least this.
    fn sold(&self, figure: Figure, needed: f64) -> f64 {
        if let Some(path) = table(figure) {
            return at_least(path, needed, self.units);
        }
        match figure {
            Figure::Gross => self.up_to(needed, [50.0, 25.0]),
            Figure::Winch | Figure::Strap => self.up_to(needed, [100.0, 50.0]),
            // A chain below a class counts for the class below it.
            Figure::Chain => {
                let class = [2000.0, 3500.0, 5000.0].into_iter().find(|class| class * POUND >= needed);
                self.up_to(class.map_or(needed, |class| class * POUND), [100.0, 50.0])
            }
            // A tenth of a cubic inch, or a cubic centimetre.
            Figure::Tongue => {
                let (unit, parts) = match self.units {
                    UnitSystem::Us => (INCH.powi(3), 10.0),
                    UnitSystem::Metric => (1e-6, 1.0),
                };
                (needed / unit * parts).ceil() / parts * unit
            }
            // The others have their tables.
            _ => needed,
        }
    }

    /// A trailer of so many axles, sized for its heavy own weight as for its light one.
    fn sized(&self, axles: usize) -> Result<Sized, NoSheet> {
        let mut sized = Sized { candidate: Candidate { axles, ..self.first() }, asked: BTreeMap::new() };
        for round in 0..SIZINGS {
            let before = sized.candidate.figures.clone();
            let mut needed = Needed::new();
            for own in OWN {
                sized.candidate.own = self.whole(self.weight * own);
                self.balance(&mut sized.candidate)?;
                let found = fit::assess_off_ramps(&self.rig(&sized.candidate)?)?;
                grow(&mut needed, self.needs(&sized.candidate, &found, None));
            }
            for (figure, (by, load, least)) in needed {
                let least = self.sold(figure, least);
                let slot = sized.candidate.figures.entry(figure).or_default();
                // Springs follow their ratings, so that sizes might take turns: later they only grow.
                *slot = if round < SIZINGS / 2 { least } else { slot.max(least) };
                sized.asked.insert(figure, (by, load));
            }
            if sized.candidate.figures == before {
                break;
            }
        }
        Ok(sized)
    }

    /// Gives a trailer one of the own weights that are assumed, with the gross rating that it needs then, and the place for
    /// its axles.
    fn own(&self, sized: &mut Sized, at: usize) -> Result<(), NoSheet> {
        sized.candidate.own = self.whole(self.weight * OWN[at]);
        let gross = self.gross(at);
        sized.candidate.figures.insert(Figure::Gross, gross);
        self.balance(&mut sized.candidate)
    }

    /// The gross rating that a trailer of one of these own weights needs.
    fn gross(&self, at: usize) -> f64 {
        self.gross_with(self.whole(self.weight * OWN[at]))
    }

    fn gross_with(&self, own: f64) -> f64 {
        self.sold(Figure::Gross, (self.heaviest + own) / (1.0 - self.reserve))
    }

    /// Raises each figure to what the worst of every ± and of what is assumed asks for, on trailers of these own weights with
    /// these bow stops.
    fn raised(&self, sized: &mut Sized, own: &[usize], bow_stops: &[f64]) -> Result<(), NoSheet> {
        for _ in 0..SIZINGS {
            let mut needed = Needed::new();
            for at in own {
                for feet in bow_stops {
                    let there = sized.candidate.stopped_at(self.bow_stop(*feet));
                    let mut there = Sized { candidate: there, ..sized.clone() };
                    self.own(&mut there, *at)?;
                    let (found, uncertainty) = uncertainty::brief_off_ramps(&self.rig(&there.candidate)?)?;
                    grow(&mut needed, self.needs(&there.candidate, &found, uncertainty.as_ref()));
                }
            }
            if !self.raise(sized, needed) {
                break;
            }
        }
        Ok(())
    }

    /// Raises figures to what is needed; whether any was too small.
    fn raise(&self, sized: &mut Sized, mut needed: Needed) -> bool {
        // The gross rating follows the trailer's own weight.
        needed.remove(&Figure::Gross);
        // A hair over a rating is rounding.
        needed.retain(|figure, (.., least)| *least > sized.figure(*figure) * (1.0 + 1e-9));
        for (figure, (by, load, least)) in &needed {
            sized.candidate.figures.insert(*figure, self.sold(*figure, *least));
            sized.asked.insert(*figure, (by.clone(), *load));
        }
        !needed.is_empty()
    }

    /// Raises the figures to what every listed place of the axles asks for, then over the ramps of the file to what is needed
    /// there, and what still fails or is unsure by a step; and what was found then of a trailer of the usual own weight.
    fn proven(&self, sized: &mut Sized) -> Result<Assessment, NoSheet> {
        let mut round = 0;
        loop {
            self.raised(sized, &[0, 1, 2], &BOW_STOPS)?;
            let mut needed = Needed::new();
            let mut usual = None;
            for own in [0, 2, 1] {
                self.own(sized, own)?;
                let (found, uncertainty) = uncertainty::brief(&self.rig(&sized.candidate)?)?;
                grow(&mut needed, self.needs(&sized.candidate, &found, uncertainty.as_ref()));
                let doubtful =
                    found.rows.iter().filter(|row| matches!(row.verdict, Verdict::Fail | Verdict::Unsure));
                let step = |row: &Row| {
                    let figure = figure_of(row)?;
                    let load = sized.asked.get(&figure).map_or(0.0, |(_, load)| *load);
                    Some((figure, row.id(), load, sized.figure(figure) * 1.01))
                };
                grow(&mut needed, doubtful.filter_map(step).collect());
                usual = Some(found);
            }
            round += 1;
            let is_short = self.raise(sized, needed);
            if let Some(found) = usual.filter(|_| !is_short || round > SIZINGS) {
                return Ok(found);
            }
        }
    }

    /// Puts the axles where the tongue share is the one that is aimed at, in the middle of all cases.
    fn balance(&self, candidate: &mut Candidate) -> Result<(), NoSheet> {
        for _ in 0..4 {
            let found = fit::assess_off_ramps(&self.rig(candidate)?)?;
            let shares = found.cases.iter().filter_map(|case| case.tongue_share().ok()).map(Quantity::si);
            let (least, most) =
                shares.fold((f64::MAX, f64::MIN), |(least, most), share| (least.min(share), most.max(share)));
            let gross = found.cases.first().and_then(|case| case.gross.as_ref().ok().copied());
            let Some(gross) = gross.map(Quantity::si) else { return Ok(()) };
            let own = candidate.own * (1.0 - candidate::OWN_TONGUE);
            // W (1 − t) x̄ = M + Wt (1 − t_t) x̄, M the boat's moment about the ball.
            let moment = (gross * (1.0 - f64::midpoint(least, most)) - own) * candidate.centre;
            let centre = candidate.tape(moment / (gross * (1.0 - self.target) - own));
            let settled = (centre - candidate.centre).abs() < 1e-6;
            candidate.centre = centre;
            if settled {
                break;
            }
        }
        Ok(())
    }

    /// What each row asks of which figure: the figure, the row, its load, and the least that the figure must be. Without an
    /// uncertainty each load is the one as stated.
    fn needs(
        &self,
        candidate: &Candidate,
        found: &Assessment,
        uncertainty: Option<&Uncertainty>,
    ) -> Vec<Need> {
        let kept = 1.0 - self.reserve;
        // Where the tongue may lift, the least margin of what is also to be pressed down is that one.
        let lifts = found.rows.iter().enumerate().any(|(at, row)| {
            row.check.id == "tongue-uplift" && corner(uncertainty, at).is_some_and(|margin| margin.si() < 0.0)
        });
        let mut needs = Vec::new();
        for (at, row) in found.rows.iter().enumerate() {
            let margin = corner(uncertainty, at).filter(|_| !(lifts && row.min.is_some()));
            let (Some(figure), Some(load)) = (figure_of(row), most(row, margin)) else { continue };
            let max = row.max.map_or(f64::INFINITY, fit::Amount::si);
            let least = match row.check.id {
                "axle-tires-*" => load / 2.0 / kept,
                // Each is for its class; together they fail far past that.
                "safety-chains" => load / kept,
                "tongue-bending" => candidate.figures[&Figure::Tongue] * load / max / kept,
                _ => {
                    // Past a rating some rows only advise; what fails asks.
                    let share = row.fails_above.map_or(1.0, |fails| max / fails.si());
                    load * share / kept
                }
            };
            let load = if figure == Figure::Tongue { least } else { load };
            needs.push((figure, row.id(), load, least));
        }
        let pulls = found.winch.iter().filter_map(|winch| winch.far_out.needed.clone().ok().flatten());
        if let Some(pull) = pulls.map(Quantity::si).reduce(f64::max) {
            // The pull is in proportion to the boat's weight.
            let pull = pull * self.heaviest / self.weight;
            needs.push((Figure::Winch, "winch-pull".to_string(), pull, pull * BREAKS_LOOSE / kept));
            needs.push((Figure::Strap, "winch-strap".to_string(), pull, pull / kept));
        }
        needs
    }

    fn axles(&self, sized: &Sized) -> Result<Axles, NoSheet> {
        let mut heavy = sized.clone();
        self.own(&mut heavy, 2)?;
        let found = fit::assess_off_ramps(&self.rig(&heavy.candidate)?)?;
        let most = |id: &str| {
            let rows = found.rows.iter().filter(|row| row.check.id == id);
            rows.filter_map(|row| row.load).map(fit::Amount::si).reduce(f64::max).map(Weight::from_si)
        };
        let lifted = found.rows.iter().filter(|row| row.check.id == "lifted-axle-*");
        let mut lifted_lacks: Vec<Key> = lifted.flat_map(|row| row.missing.iter().copied()).collect();
        lifted_lacks.dedup();
        Ok(Axles {
            count: sized.candidate.axles,
            rating: Weight::from_si(sized.figure(Figure::Axle)),
            tire: Weight::from_si(sized.figure(Figure::Tire)),
            load: most("axle-*").unwrap_or_default(),
            on_tire: most("tire-*").unwrap_or_default(),
            tire_index: tires::index_of_rating(Weight::from_si(sized.figure(Figure::Tire)), self.units),
            lifted: most("lifted-axle-*"),
            lifted_lacks,
        })
    }

    /// What is left of a gross rating that holds the heaviest trailer under the boat, with the reserve free of both: of a lighter
    /// one less would do.
    fn capacity(&self) -> f64 {
        let own = self.weight * OWN[2];
        (self.heaviest + own) / (1.0 - self.reserve) - own
    }

    /// Where the boat would sit: for each bow stop the axles, and how far the boat may be off.
    fn spots(&self, candidate: &Candidate) -> Result<Vec<Spot>, NoSheet> {
        let mut spots = Vec::new();
        for feet in BOW_STOPS {
            let mut there = Candidate { bow_stop: self.bow_stop(feet), ..candidate.clone() };
            self.balance(&mut there)?;
            let (mut forward, mut aft) = (f64::NEG_INFINITY, f64::INFINITY);
            // Whatever the trailer weighs of what is asked for, its axles stand where the sheet says.
            for own in OWN {
                let with = Candidate { own: self.whole(self.weight * own), ..there.clone() };
                for case in &fit::assess_off_ramps(&self.rig(&with)?)?.cases {
                    let (Ok(share), Ok(boat), Ok(gross)) = (case.tongue_share(), &case.boat, &case.gross)
                    else {
                        continue;
                    };
                    // The boat a farther aft: t − a Wb / (W x̄).
                    let per_share = gross.si() * there.centre / boat.si();
                    forward = forward.max((share.si() - self.band[1]) * per_share);
                    aft = aft.min((share.si() - self.band[0]) * per_share);
                }
            }
            spots.push(Spot {
                axles: Length::from_si(there.centre),
                bow_stop: Length::from_si(there.bow_stop),
                transom: there.transom(&self.given),
                window: [forward, aft].map(Length::from_si),
            });
        }
        Ok(spots)
    }

    /// The most that a trailer may weigh with which nothing fails, where it is weight that fails with the usual one: lighter by
    /// what the farthest row is past its limit, and then assessed.
    fn own_at_most(&self, chosen: &Sized, found: &Assessment) -> Result<Option<Weight>, NoSheet> {
        let fails = |found: &Assessment| found.rows.iter().any(|row| row.verdict == Verdict::Fail);
        let failing = found.rows.iter().filter(|row| row.verdict == Verdict::Fail);
        let past = failing.filter_map(|row| match (row.load?, row.fails_above.or(row.max)?) {
            (fit::Amount::Weight(load), fit::Amount::Weight(most)) => Some((load - most).si()),
            _ => None,
        });
        let Some(past) = past.reduce(f64::max) else { return Ok(None) };
        let step = self.whole(POUND / 2.0);
        let usual = self.whole(self.weight * OWN[1]);
        // A hair less than a whole unit is rounding.
        let own = ((usual - past) / step + 1e-6).floor() * step;
        if own < self.whole(self.weight * OWN[0]) {
            return Ok(None);
        }
        let mut light = chosen.candidate.clone();
        light.own = own;
        light.figures.insert(Figure::Gross, self.gross_with(own));
        self.balance(&mut light)?;
        let (found, _) = uncertainty::brief(&self.rig(&light)?)?;
        Ok((!fails(&found)).then(|| Weight::from_si(own)))
    }

    fn sheet(&self, chosen: &Sized, found: Assessment, choices: Vec<Axles>) -> Result<Sheet, NoSheet> {
        let candidate = &chosen.candidate;
        let rig = self.rig(candidate)?;
        let own_at_most = self.own_at_most(chosen, &found)?;
        let is_unmet = |row: &&Row| match row.verdict {
            Verdict::Fail | Verdict::Unsure => true,
            Verdict::NotChecked => row.core && found.verdict == RigVerdict::Incomplete,
            _ => false,
        };
        let least = |figure: Figure, si: f64| match figure {
            Figure::Tongue => Least::Modulus(Volume::from_si(si)),
            _ => Least::Weight(Weight::from_si(si)),
        };
        let asks = chosen.asked.iter().map(|(figure, (by, load))| Ask {
            figure: *figure,
            least: least(*figure, chosen.figure(*figure)),
            load: (*figure != Figure::Tongue).then(|| least(*figure, *load)),
            by: by.clone(),
        });
        let bunks = self.given.bunks(candidate).map(|bunks| WantedBunks {
            length: Length::from_si(bunks.aft - bunks.forward),
            spacing: Length::from_si(2.0 * bunks.half_spacing),
        });
        Ok(Sheet {
            boat: Weight::from_si(self.weight),
            boat_at_most: Weight::from_si(self.heaviest),
            reserve: Share::from_si(self.reserve),
            axles: candidate.axles,
            choices,
            own: OWN.map(|own| Weight::from_si(self.whole(self.weight * own))),
            gross: [0, 1, 2].map(|own| Weight::from_si(self.gross(own))),
            capacity: Weight::from_si(self.sold(Figure::Gross, self.capacity())),
            asks: asks.collect(),
            ball: self.given.hangs_on_ball.then(|| {
                Length::from_si(self.given.ball_size(Some(chosen.figure(Figure::Coupler)), self.units))
            }),
            level_at: self.given.ball_height.map(Length::from_si),
            bunks,
            spots: self.spots(candidate)?,
            implausible: implausible(&rig),
            beyond_sold: FIGURES.into_iter().filter(|figure| is_beyond_sold(chosen, *figure)).collect(),
            unmet: found.rows.iter().filter(is_unmet).cloned().collect(),
            own_at_most,
            trailer: candidate.text(&self.given),
            rig,
            found,
        })
    }
}

/// Whether more is asked of a figure than is usually sold, and more axles would not share it.
fn is_beyond_sold(sized: &Sized, figure: Figure) -> bool {
    if matches!(figure, Figure::Axle | Figure::Tire) && sized.candidate.axles < MOST_AXLES {
        return false;
    }
    let most = table(figure).and_then(greatest);
    // A hair over a rating is rounding.
    most.is_some_and(|most| sized.figure(figure) > most * (1.0 + 1e-9))
}

/// The key of whose table of what is sold a figure is.
fn table(figure: Figure) -> Option<&'static str> {
    Some(match figure {
        Figure::Axle => TRAILER_AXLES_RATING.path(),
        Figure::Tire => TRAILER_AXLES_TIRES_RATING.path(),
        Figure::Coupler => TRAILER_COUPLER_RATING.path(),
        Figure::CouplerTongue => TRAILER_COUPLER_TONGUE_RATING.path(),
        Figure::Jack => TRAILER_JACK_RATING.path(),
        Figure::Gross | Figure::Winch | Figure::Strap | Figure::Chain | Figure::Tongue => return None,
    })
}

/// Every figure that a sheet asks for.
const FIGURES: [Figure; 10] = [
    Figure::Gross,
    Figure::Axle,
    Figure::Tire,
    Figure::Coupler,
    Figure::CouplerTongue,
    Figure::Chain,
    Figure::Jack,
    Figure::Winch,
    Figure::Strap,
    Figure::Tongue,
];

/// The figure that a row compares a load with.
fn figure_of(row: &Row) -> Option<Figure> {
    Some(match row.check.id {
        "trailer-gvwr" => Figure::Gross,
        "axle-*" | "spring-*" | "lifted-axle-*" | "ramp-axle-*" => Figure::Axle,
        "tire-*" | "wheel-*" | "axle-tires-*" | "lifted-tire-*" | "ramp-tire-*" => Figure::Tire,
        "coupler" => Figure::Coupler,
        "coupler-tongue" => Figure::CouplerTongue,
        "safety-chains" => Figure::Chain,
        "jack" => Figure::Jack,
        "tongue-bending" => Figure::Tongue,
        "winch-strap" => Figure::Strap,
        _ => return None,
    })
}
