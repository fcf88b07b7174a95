//! The trailer to look for, from a boat and what is to tow it: the least that each part must be good for, and where the boat
//! would sit.
//!
//! A candidate trailer is written as a rig file and assessed whole with the boat; its parts are sized from the loads that
//! this finds, rounded up to what is sold, until they no longer change. What is assumed of a trailer that nobody has seen
//! yet is common practice: its own weight (`OWN`), what of that rests on the tongue, axle spacing, wheel size, and how high
//! the boat stands.

mod candidate;

use super::plan::at_least;
use super::uncertainty;
use crate::fit::{self, Assessment, RigVerdict, Row, Unfit, Verdict};
use crate::quantity::show::UnitSystem;
use crate::quantity::unit::{INCH, POUND};
use crate::quantity::{Length, Quantity, STANDARD_GRAVITY, Share, Volume, Weight};
use crate::rig::inputs::{
    TRAILER_AXLES_RATING, TRAILER_AXLES_TIRES_RATING, TRAILER_COUPLER_RATING, TRAILER_COUPLER_TONGUE_RATING,
    TRAILER_JACK_RATING,
};
use crate::rig::{IncludeFault, Key, Problems, Rig, Setup, Sources, include};
use candidate::Candidate;
use std::collections::BTreeMap;

/// A trailer's own weight as a share of its boat's: a light, a usual and a heavy one. Common practice, no source.
pub const OWN: [f64; 3] = [0.20, 0.30, 0.40];
/// No axle is asked to be good for more where another axle would share the load. Common practice, no source.
const MOST_ON_AN_AXLE: f64 = 7000.0 * POUND;
/// The most axles that are tried.
pub const MOST_AXLES: usize = 3;
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
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axles {
    /// How many.
    pub count: usize,
    /// The rating of each.
    pub rating: Weight,
    /// The rating of each tire.
    pub tire: Weight,
    /// What the most loaded axle carries on the level.
    pub load: Weight,
    /// The same with the rear axle lifted; none of a single axle.
    pub lifted: Option<Weight>,
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
    /// The boat at its heaviest.
    pub boat: Weight,
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
    /// The ball that fits its coupler.
    pub ball: Length,
    /// The ball height at which it sits level.
    pub level_at: Option<Length>,
    /// The bunks that suit the boat; none where the file says too little of the hull.
    pub bunks: Option<WantedBunks>,
    /// Where the boat would sit.
    pub spots: Vec<Spot>,
    /// What still fails, is unsure or could not be checked, though a verdict needs it.
    pub unmet: Vec<Row>,
    /// A trailer built to the sheet, as the text of a rig file.
    pub trailer: String,
    /// The boat on it.
    pub rig: Rig,
    /// That rig, assessed whole.
    pub found: Assessment,
}

impl Sheet {
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
    /// The boat does not rest on its trailer.
    #[error(transparent)]
    Unfit(#[from] Unfit),
    /// The file says too little of the boat.
    #[error("expected a boat whose weight and place are known, found nothing in {}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "))]
    Lacks(Vec<Key>),
}

impl From<Problems> for NoSheet {
    fn from(problems: Problems) -> Self {
        Self::Problems(Box::new(problems))
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
    let bench = Bench::new(boat, changes, wanted)?;
    let mut choices = (1..=MOST_AXLES).map(|axles| bench.sized(axles)).collect::<Result<Vec<_>, _>>()?;
    let fewest = choices.iter().find(|sized| sized.figure(Figure::Axle) <= MOST_ON_AN_AXLE);
    let count = fewest.map_or(MOST_AXLES, |sized| sized.candidate.axles);
    let chosen = wanted.axles.unwrap_or(count).clamp(1, MOST_AXLES) - 1;
    let found = bench.proven(&mut choices[chosen])?;
    let axles = choices.iter().map(|sized| bench.axles(sized)).collect::<Result<_, _>>()?;
    bench.sheet(&choices[chosen], found, axles)
}

/// What of boat and tow vehicle a candidate must suit.
#[derive(Debug, Clone, Default)]
pub(crate) struct Given {
    /// Its own ball, if it has one.
    ball: Option<f64>,
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
            ball_height: si(setup.tow.ball_height),
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

/// Where candidates are tried.
struct Bench<'a> {
    boat: &'a Sources,
    changes: &'a [String],
    given: Given,
    units: UnitSystem,
    reserve: f64,
    /// The boat at its heaviest.
    weight: f64,
    /// The tongue share that the policy asks for, and what is aimed at within it.
    band: [f64; 2],
    target: f64,
}

impl<'a> Bench<'a> {
    fn new(boat: &'a Sources, changes: &'a [String], wanted: &Wanted) -> Result<Self, NoSheet> {
        let mut bench = Self {
            boat,
            changes,
            given: Given::default(),
            units: wanted.units.unwrap_or(UnitSystem::Us),
            reserve: 0.0,
            weight: 0.0,
            band: [0.0, 1.0],
            target: 0.0,
        };
        let first = bench.first();
        let rig = bench.rig(&first)?;
        let setup = rig.proposed();
        bench.units = wanted.units.unwrap_or(setup.units.map_or(UnitSystem::Us, UnitSystem::from));
        bench.given = Given::of(setup);
        let si = |share: Option<Share>, usual: f64| share.map_or(usual, Quantity::si);
        let reserve = wanted.reserve.or(setup.policy.thin_margin);
        bench.reserve = si(reserve, 0.1);
        bench.band = [si(setup.policy.tongue_share.min, 0.07), si(setup.policy.tongue_share.max, 0.12)];
        bench.target = si(setup.policy.preferred_tongue_share, f64::midpoint(bench.band[0], bench.band[1]));
        let found = fit::assess_off_ramps(&rig)?;
        let share = found.check("tongue-share").filter(|row| row.load.is_none());
        if let Some(row) = share {
            return Err(NoSheet::Lacks(row.missing.clone()));
        }
        let boats = found.cases.iter().filter_map(|case| case.boat.as_ref().ok());
        bench.weight = boats.copied().fold(0.0, |most, boat| f64::max(most, boat.si()));
        if let Some(case) = found.cases.first() {
            bench.given.centre = bench.centre(&first, case);
        }
        Ok(bench)
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
        let trailer = include("the trailer to look for", &text, (), |(), _| Err(IncludeFault::NoFolder))?;
        Rig::from_sources(self.boat.on_trailer(&trailer), self.changes)
    }

    /// What is sold that is at least this.
    fn sold(&self, figure: Figure, needed: f64) -> f64 {
        let path = match figure {
            Figure::Axle => TRAILER_AXLES_RATING.path(),
            Figure::Tire => TRAILER_AXLES_TIRES_RATING.path(),
            Figure::Coupler => TRAILER_COUPLER_RATING.path(),
            Figure::CouplerTongue => TRAILER_COUPLER_TONGUE_RATING.path(),
            Figure::Jack => TRAILER_JACK_RATING.path(),
            Figure::Gross => return self.up_to(needed, [50.0, 25.0]),
            Figure::Winch | Figure::Strap => return self.up_to(needed, [100.0, 50.0]),
            // A chain below a class counts for the class below it.
            Figure::Chain => {
                let class = [2000.0, 3500.0, 5000.0].into_iter().find(|class| class * POUND >= needed);
                return self.up_to(class.map_or(needed, |class| class * POUND), [100.0, 50.0]);
            }
            // A tenth of a cubic inch, or a cubic centimetre.
            Figure::Tongue => {
                let (unit, parts) = match self.units {
                    UnitSystem::Us => (INCH.powi(3), 10.0),
                    UnitSystem::Metric => (1e-6, 1.0),
                };
                return (needed / unit * parts).ceil() / parts * unit;
            }
        };
        at_least(path, needed, self.units)
    }

    /// A trailer of so many axles, sized for its heavy own weight as for its light one.
    fn sized(&self, axles: usize) -> Result<Sized, NoSheet> {
        let mut sized = Sized { candidate: Candidate { axles, ..self.first() }, asked: BTreeMap::new() };
        for round in 0..SIZINGS {
            let before = sized.candidate.figures.clone();
            let mut needed: BTreeMap<Figure, (String, f64, f64)> = BTreeMap::new();
            for own in OWN {
                sized.candidate.own = self.whole(self.weight * own);
                self.balance(&mut sized.candidate)?;
                let found = fit::assess_off_ramps(&self.rig(&sized.candidate)?)?;
                for (figure, by, load, least) in self.needs(&sized.candidate, &found) {
                    let entry = needed.entry(figure).or_insert_with(|| (by.clone(), load, least));
                    if least > entry.2 {
                        *entry = (by, load, least);
                    }
                }
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
        let load = self.weight + self.whole(self.weight * OWN[at]);
        self.sold(Figure::Gross, load / (1.0 - self.reserve))
    }

    /// Raises what is still unsure, or fails, by a step, whatever the trailer weighs; and what was found then of one of the
    /// usual own weight.
    fn proven(&self, sized: &mut Sized) -> Result<Assessment, NoSheet> {
        let mut round = 0;
        loop {
            let mut short: BTreeMap<Figure, String> = BTreeMap::new();
            let mut usual = None;
            for own in [0, 2, 1] {
                self.own(sized, own)?;
                let found = uncertainty::assess(&self.rig(&sized.candidate)?)?;
                let doubtful =
                    found.rows.iter().filter(|row| matches!(row.verdict, Verdict::Fail | Verdict::Unsure));
                short.extend(doubtful.filter_map(|row| Some((figure_of(row)?, row.id()))));
                usual = Some(found);
            }
            // The gross rating follows the trailer's own weight.
            short.remove(&Figure::Gross);
            if let Some(found) = usual.filter(|_| short.is_empty() || round == SIZINGS) {
                return Ok(found);
            }
            round += 1;
            for (figure, id) in short {
                let now = sized.figure(figure);
                let load = sized.asked.get(&figure).map_or(now, |(_, load)| *load);
                sized.candidate.figures.insert(figure, self.sold(figure, now * 1.01));
                sized.asked.insert(figure, (id, load));
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

    /// What each row asks of which figure: the figure, the row, its load, and the least that the figure must be.
    fn needs(&self, candidate: &Candidate, found: &Assessment) -> Vec<(Figure, String, f64, f64)> {
        let kept = 1.0 - self.reserve;
        let mut needs = Vec::new();
        for row in &found.rows {
            let (Some(figure), Some(load)) = (figure_of(row), row.load) else { continue };
            let load = row.range.as_ref().map_or(load.si(), |range| range.high.si().max(load.si()));
            let max = row.max.map_or(f64::INFINITY, fit::Amount::si);
            let least = match row.check.id {
                // An axle's tires are for its rating, which has its reserve.
                "axle-tires-*" => load / 2.0,
                "safety-chains" => load,
                // Metal has its reserve in its limit.
                "tongue-bending" => candidate.figures[&Figure::Tongue] * load / max,
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
        Ok(Axles {
            count: sized.candidate.axles,
            rating: Weight::from_si(sized.figure(Figure::Axle)),
            tire: Weight::from_si(sized.figure(Figure::Tire)),
            load: most("axle-*").unwrap_or_default(),
            lifted: most("lifted-axle-*"),
        })
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

    fn sheet(&self, chosen: &Sized, found: Assessment, choices: Vec<Axles>) -> Result<Sheet, NoSheet> {
        let candidate = &chosen.candidate;
        let rig = self.rig(candidate)?;
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
            reserve: Share::from_si(self.reserve),
            axles: candidate.axles,
            choices,
            own: OWN.map(|own| Weight::from_si(self.whole(self.weight * own))),
            gross: [0, 1, 2].map(|own| Weight::from_si(self.gross(own))),
            capacity: Weight::from_si(self.sold(Figure::Gross, self.weight / (1.0 - self.reserve))),
            asks: asks.collect(),
            ball: Length::from_si(self.given.ball_size(Some(chosen.figure(Figure::Coupler)), self.units)),
            level_at: self.given.ball_height.map(Length::from_si),
            bunks,
            spots: self.spots(candidate)?,
            unmet: found.rows.iter().filter(is_unmet).cloned().collect(),
            trailer: candidate.text(&self.given),
            rig,
            found,
        })
    }
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
        _ => return None,
    })
}
