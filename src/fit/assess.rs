//! Makes every check of a rig and finds the rig's verdict.

use super::bunks::{self, BunkLoads};
use super::check::{Amount, Bounds, Check, Counts, Judged, Load, Of, Row, Rows, Verdict, judge};
use super::known::{Known, Missing, both};
use super::loads::{CaseLoads, Model, Unfit};
use super::needs::{Needs, Worked};
use super::ramp::{RampLoads, STEP, low_points};
use super::registry::CHECKS;
use crate::quantity::{Length, Quantity, Share};
use crate::rig::{Fenders, LowPoint, Rig, Setup, slug};

/// What became of a rig.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RigVerdict {
    /// Every core check was made, and every check that counts holds.
    Pass,
    /// A check that counts fails.
    Fail,
    /// Nothing that counts fails, but a core check could not be made.
    Incomplete,
    /// Every core check was made and none that counts fails, but one of them is unsure.
    Unsure,
}

/// A rig's loads and what they mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// The loads, case by case.
    pub cases: Vec<CaseLoads>,
    /// Every ramp crossed in every case.
    pub ramps: Vec<RampLoads>,
    /// What the bunks carry, case by case; empty where there are none.
    pub bunks: Vec<BunkLoads>,
    /// Every check, in the registry's order.
    pub rows: Vec<Row>,
    /// The rig's verdict.
    pub verdict: RigVerdict,
}

impl Assessment {
    /// Makes unsure every row that is in doubt, passes and must hold, and finds the rig's verdict anew.
    ///
    /// This is the one place where doubt turns into a verdict; rows without an entry are not in doubt.
    pub fn doubt(&mut self, in_doubt: &[bool]) {
        for (row, in_doubt) in self.rows.iter_mut().zip(in_doubt) {
            if *in_doubt && row.counts && matches!(row.verdict, Verdict::Pass | Verdict::Thin) {
                row.verdict = Verdict::Unsure;
            }
        }
        self.verdict = verdict(self.rows.iter().map(|row| (row.check, row.verdict)));
    }
}

/// Computes the loads of every case, crosses every ramp and makes every check.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels on level ground.
pub fn assess(rig: &Rig) -> Result<Assessment, Unfit> {
    assess_in_steps(rig, Length::from_si(STEP))
}

/// The same with the ramps crossed in other steps.
pub(super) fn assess_in_steps(rig: &Rig, step: Length) -> Result<Assessment, Unfit> {
    let setup = &rig.proposed;
    let worked = Model::new(rig).work(Needs::all(step))?;
    let loads = worked.loads(setup);
    let rows: Vec<Row> = subjects(setup).map(|(check, of)| loads.make(check, of)).collect();
    let verdict = verdict(rows.iter().map(|row| (row.check, row.verdict)));
    let Worked { cases, ramps, bunks } = worked;
    Ok(Assessment { cases, ramps, bunks, rows, verdict })
}

/// Every check about ramps, made of these crossings only.
pub fn ramp_rows(setup: &Setup, cases: &[CaseLoads], crossings: &[RampLoads]) -> Vec<Row> {
    let loads = Loads { setup, cases, ramps: crossings, bunks: &[] };
    let about_ramps = subjects(setup).filter(|(check, _)| check.is_about_ramps());
    about_ramps.map(|(check, of)| loads.make(check, of)).collect()
}

/// The most that one crossing uses of any rating; infinite where the tongue is lifted.
pub fn most_used(setup: &Setup, cases: &[CaseLoads], crossing: &RampLoads) -> f64 {
    let rows = ramp_rows(setup, cases, std::slice::from_ref(crossing));
    let used = rows.iter().filter_map(|row| row.used).map(Quantity::si);
    // A negative tongue weight is worse than any load.
    used.map(|used| if used < 0.0 { f64::INFINITY } else { used }).fold(0.0, f64::max)
}

/// The crossing of a ramp that uses most of any rating; the first of equals.
pub fn governing_crossing<'a>(setup: &Setup, found: &'a Assessment, ramp: usize) -> Option<&'a RampLoads> {
    let crossings = found.ramps.iter().filter(|crossing| crossing.ramp == ramp);
    let used = crossings.map(|crossing| (crossing, most_used(setup, &found.cases, crossing)));
    let worst = used.reduce(|worst, next| if next.1 > worst.1 { next } else { worst });
    worst.map(|(crossing, _)| crossing)
}

/// Every check of a setup with what it is about: one for each row of its assessment, in the same order.
pub fn subjects(setup: &Setup) -> impl Iterator<Item = (&'static Check, Of)> + use<'_> {
    CHECKS.iter().flat_map(|check| subjects_of(check, setup).map(move |of| (check, of)))
}

/// What a check is made for in a setup: each is one row.
pub(super) fn subjects_of(check: &Check, setup: &Setup) -> impl Iterator<Item = Of> + use<> {
    let axles = setup.trailer.axles.len();
    let ramp = !setup.ramps.is_empty();
    let (rig, axles) = match check.rows {
        Rows::Rig => (true, 0),
        Rows::SeveralAxles => (axles > 1, 0),
        Rows::Axles => (false, axles),
        Rows::AxlesButRear => (false, axles - 1),
        Rows::Ramp => (ramp, 0),
        Rows::RampAxles => (false, if ramp { axles } else { 0 }),
        Rows::Bunks => (setup.trailer.bunks.are_described(), 0),
        Rows::Fenders => (setup.trailer.fenders != Fenders::default(), 0),
        Rows::RampPoints | Rows::BunkCrossmembers | Rows::KeelCrossmembers | Rows::Gear => (false, 0),
    };
    let others = match check.rows {
        Rows::RampPoints if ramp => named(low_points(setup)),
        Rows::Gear if !setup.trailer.crossmembers.is_empty() => named(setup.boat.low_points.iter()),
        Rows::BunkCrossmembers | Rows::KeelCrossmembers => {
            let mut there = possible_subjects_of(check, setup);
            there.retain(|of| is_made_of(check, of, setup));
            there
        }
        _ => Vec::new(),
    };
    rig.then_some(Of::Rig).into_iter().chain((0..axles).map(Of::Axle)).chain(others)
}

/// Whether a check is made of a subject that it may be made of once things have moved.
pub(super) fn is_made_of(check: &Check, of: &Of, setup: &Setup) -> bool {
    match check.rows {
        Rows::BunkCrossmembers => bunks::is_reached(setup, of.element()),
        Rows::KeelCrossmembers => bunks::is_passed_over(setup, of.element()),
        _ => true,
    }
}

/// Everything that a check may be made for once things have moved.
pub(super) fn possible_subjects_of(check: &Check, setup: &Setup) -> Vec<Of> {
    match check.rows {
        Rows::BunkCrossmembers if !setup.trailer.bunks.are_described() => Vec::new(),
        Rows::BunkCrossmembers | Rows::KeelCrossmembers => {
            (0..setup.trailer.crossmembers.len()).map(Of::Crossmember).collect()
        }
        _ => subjects_of(check, setup).collect(),
    }
}

fn named<'a>(points: impl Iterator<Item = &'a LowPoint>) -> Vec<Of> {
    let name = |point: &LowPoint| slug(point.name.as_deref().unwrap_or_default());
    points.enumerate().map(|(i, point)| Of::Point(i, name(point))).collect()
}

/// All loads of a rig, for making checks of them.
#[derive(Debug, Clone, Copy)]
pub struct Loads<'a> {
    /// The rig as proposed.
    pub setup: &'a Setup,
    /// Its loads, case by case.
    pub cases: &'a [CaseLoads],
    /// Its crossings; a check about ramps is made of these.
    pub ramps: &'a [RampLoads],
    /// What the bunks carry, case by case; a check about them is made of these.
    pub bunks: &'a [BunkLoads],
}

/// How one load of a check stands against its limits, in SI: newtons, metres, or a plain fraction.
///
/// A check's margin is the least over its loads and has a kink where another load or limit takes over. What is
/// told here of one load is smooth on level ground, but for the springs' own kinks: a stop, a bump, a wheel that
/// hangs clear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The check's margin as far as this load goes; infinitely negative where what should hold is unloaded.
    pub margin: f64,
    /// How far the load lies above the lower limit.
    pub above: Option<f64>,
    /// How far the load lies below the upper limit.
    pub below: Option<f64>,
}

/// A load of a check, and where it occurs.
pub(super) struct Occurrence {
    pub case: Option<usize>,
    pub ramp: Option<usize>,
    /// None where what should hold is unloaded.
    pub load: Known<Option<f64>>,
}

/// The occurrence that decides a check.
pub(super) struct Governing {
    pub case: Option<usize>,
    pub ramp: Option<usize>,
    /// The load and how it is judged; none where what should hold is unloaded.
    pub judged: Option<(f64, Judged)>,
}

impl Governing {
    /// What becomes of the check.
    pub fn verdict(&self, counts: bool) -> Verdict {
        match self.judged {
            Some((_, judged)) => judged.verdict(counts),
            None if counts => Verdict::Fail,
            None => Verdict::Advise,
        }
    }
}

/// Whether a judged load is worse than another; one that holds nothing is worst.
fn is_worse(one: Option<(f64, Judged)>, other: Option<(f64, Judged)>) -> bool {
    match (one, other) {
        (Some((_, one)), Some((_, other))) => one.margin < other.margin,
        (one, other) => one.is_none() && other.is_some(),
    }
}

impl Loads<'_> {
    /// Makes one check.
    fn make(self, check: &'static Check, of: Of) -> Row {
        let counts = counts(check, &of, self.setup);
        let governing = self.governing(check, of.element());
        let (case, ramp) = governing.as_ref().map_or((None, None), |found| (found.case, found.ramp));
        // As far as known, also where the check cannot be made.
        let bounds = self.limits(check, of.element(), ramp).unwrap_or_default();
        let amount = |si: f64| Amount::from_si(check.measure, si);
        let mut row = Row {
            check,
            of,
            load: None,
            min: bounds.min.map(amount),
            max: bounds.max.map(amount),
            margin: None,
            used: None,
            verdict: Verdict::NotChecked,
            counts,
            case,
            ramp,
            missing: Vec::new(),
        };
        match governing {
            Ok(governing) => {
                row.verdict = governing.verdict(counts);
                if let Some((load, judged)) = governing.judged {
                    row.load = Some(amount(load));
                    row.margin = Some(amount(judged.margin));
                    row.used = judged.used.map(Share::from_si);
                }
            }
            Err(missing) => row.missing = missing.0,
        }
        row
    }

    /// How every load of a check stands, always in the same order: by case and side, or by crossing.
    ///
    /// None of it is known where keys are missing; where a trailer does not rest on a ramp there is no key to name.
    pub fn standings(self, check: &Check, of: &Of) -> Vec<Known<Standing>> {
        let stands = |Occurrence { ramp, load, .. }: Occurrence| {
            let (load, limits) = both(load, self.limits(check, of.element(), ramp))?;
            let Some(load) = load else {
                return Ok(Standing { margin: f64::NEG_INFINITY, above: None, below: None });
            };
            Ok(Standing {
                margin: judge(check.judge, load, limits, 0.0).margin,
                above: limits.min.map(|min| load - min),
                below: limits.max.map(|max| max - load),
            })
        };
        let mut standings = Vec::new();
        self.visit(check, of.element(), |one| standings.push(stands(one)));
        standings
    }

    /// A check's margin in SI: the least over its loads, infinitely negative where what should hold is unloaded.
    ///
    /// # Errors
    /// What is missing; nothing where a trailer does not rest on a ramp.
    pub fn margin(self, check: &Check, of: &Of) -> Known<f64> {
        let governing = self.governing(check, of.element())?;
        Ok(governing.judged.map_or(f64::NEG_INFINITY, |(_, judged)| judged.margin))
    }

    /// A check's limits; those of a row about ramps follow the ramp.
    pub(super) fn limits(self, check: &Check, element: usize, ramp: Option<usize>) -> Known<Bounds> {
        let element = if check.rows == Rows::Ramp { ramp.unwrap_or(0) } else { element };
        (check.limits)(self.setup, element)
    }

    /// The occurrence with the least margin; one that holds nothing is worst of all.
    pub(super) fn governing(self, check: &Check, element: usize) -> Known<Governing> {
        let thin = self.setup.policy.thin_margin.map_or(0.0, Quantity::si);
        if let Some(found) = self.governing_case(check, element, thin) {
            return Ok(found);
        }
        let mut worst: Option<Governing> = None;
        let mut missing = Missing::default();
        let mut stranded = false;
        let mut look =
            |Occurrence { case, ramp, load }: Occurrence, limits: &Known<Bounds>| match (load, limits) {
                (Ok(load), Ok(limits)) => {
                    let judged = load.map(|load| (load, judge(check.judge, load, *limits, thin)));
                    if worst.as_ref().is_none_or(|worst| is_worse(judged, worst.judged)) {
                        worst = Some(Governing { case, ramp, judged });
                    }
                }
                (load, limits) => {
                    let lacking =
                        both(load, limits.clone()).map_or_else(|lacking| lacking, |_| Missing::default());
                    stranded |= lacking.0.is_empty();
                    missing = std::mem::take(&mut missing).and(lacking);
                }
            };
        if check.rows == Rows::Ramp {
            // What is asked of a ramp as such differs from ramp to ramp.
            self.visit(check, element, |one| {
                let limits = self.limits(check, element, one.ramp);
                look(one, &limits);
            });
        } else {
            let limits = self.limits(check, element, None);
            self.visit(check, element, |one| look(one, &limits));
        }
        // What holds elsewhere says nothing of a crossing without loads; what fails fails anyhow.
        let fails = |worst: &Governing| worst.judged.is_none_or(|(_, judged)| judged.margin < 0.0);
        let worst = worst.filter(|worst| !stranded || fails(worst));
        if missing.0.is_empty() { worst.ok_or(missing) } else { Err(missing) }
    }

    /// The same for a check of the cases' loads where all is known and nothing has to be gathered: nearly every
    /// check of a rig that is swept a million times.
    fn governing_case(self, check: &Check, element: usize, thin: f64) -> Option<Governing> {
        let Load::InCase(load) = check.load else { return None };
        let limits = (check.limits)(self.setup, element).ok()?;
        let mut worst: Option<(usize, f64, Judged)> = None;
        for (i, case) in self.cases.iter().enumerate() {
            let load = load(self.setup, case, element).ok()?;
            let judged = judge(check.judge, load, limits, thin);
            if worst.is_none_or(|(_, _, worst)| judged.margin < worst.margin) {
                worst = Some((i, load, judged));
            }
        }
        worst.map(|(case, load, judged)| Governing {
            case: Some(case),
            ramp: None,
            judged: Some((load, judged)),
        })
    }

    /// Shows every load that a check looks at.
    pub(super) fn visit(self, check: &Check, element: usize, mut look: impl FnMut(Occurrence)) {
        match check.load {
            Load::Stated(load) => {
                look(Occurrence { case: None, ramp: None, load: load(self.setup, element).map(Some) });
            }
            Load::InCase(load) => {
                for (i, case) in self.cases.iter().enumerate() {
                    let load = load(self.setup, case, element).map(Some);
                    look(Occurrence { case: Some(i), ramp: None, load });
                }
            }
            Load::OnSides(load) => {
                for (i, case) in self.cases.iter().enumerate() {
                    let mut look = |load: Known<f64>| {
                        look(Occurrence { case: Some(i), ramp: None, load: load.map(Some) });
                    };
                    match load(self.setup, case, element) {
                        Ok([starboard, port]) => {
                            look(Ok(starboard));
                            look(Ok(port));
                        }
                        Err(missing) => look(Err(missing)),
                    }
                }
            }
            Load::OnRamp(load) => {
                for crossing in self.ramps {
                    let load = match &crossing.peaks {
                        Ok(Ok(peaks)) => load(peaks, element),
                        // Where the trailer does not rest, the caution says so; no load is known.
                        Ok(Err(_)) => Err(Missing::default()),
                        Err(missing) => Err(missing.clone()),
                    };
                    look(Occurrence { case: Some(crossing.case), ramp: Some(crossing.ramp), load });
                }
            }
            Load::OnBunks(load) => {
                for (i, on_bunks) in self.bunks.iter().enumerate() {
                    let load = load(self.setup, on_bunks, element);
                    look(Occurrence { case: Some(i), ramp: None, load });
                }
            }
        }
    }

    /// How far all loads lie inside a check's limits, in SI: the least distance, negative outside.
    ///
    /// Unlike a row's margin it knows both limits at once, so it has no jump for a search to stumble over.
    pub fn least_gap(self, check: &Check, element: usize) -> Option<f64> {
        let mut least = Some(f64::INFINITY);
        self.visit(check, element, |Occurrence { ramp, load, .. }| {
            let gap = || {
                let (load, limits) = (load.ok()??, self.limits(check, element, ramp).ok()?);
                let below = limits.max.map_or(f64::INFINITY, |max| max - load);
                let above = limits.min.map_or(f64::INFINITY, |min| load - min);
                Some(below.min(above))
            };
            least = least.and_then(|least| Some(least.min(gap()?)));
        });
        least.filter(|least| least.is_finite())
    }
}

impl Judged {
    fn verdict(self, counts: bool) -> Verdict {
        match (self.margin < 0.0, counts, self.thin) {
            (true, true, _) => Verdict::Fail,
            (true, false, _) => Verdict::Advise,
            (false, _, true) => Verdict::Thin,
            (false, _, false) => Verdict::Pass,
        }
    }
}

/// Whether a check must hold: the longest pattern of the policy that matches it decides, else its own rule.
pub(super) fn counts(check: &Check, of: &Of, setup: &Setup) -> bool {
    let policy = &setup.policy;
    if !policy.counts.is_empty() || !policy.advises.is_empty() {
        let id = of.fill(check.id);
        // Of two patterns the longer says more, the star not counted: an id outweighs every prefix of it.
        let says = |pattern: &String| (pattern.trim_end_matches('*').len(), !pattern.ends_with('*'));
        let longest =
            |patterns: &[String]| patterns.iter().filter(|pattern| matches(pattern, &id)).map(says).max();
        match (longest(&policy.counts), longest(&policy.advises)) {
            (None, None) => {}
            (must, may) => return must > may,
        }
    }
    match check.counts {
        Counts::Yes => true,
        Counts::No => false,
        Counts::FromThreeAxles => setup.trailer.axles.len() >= 3,
    }
}

fn matches(pattern: &str, id: &str) -> bool {
    match pattern.strip_suffix('*') {
        Some(prefix) => id.starts_with(prefix),
        None => pattern == id,
    }
}

/// What checks and their verdicts make of a rig.
pub(super) fn verdict<'a>(made: impl Iterator<Item = (&'a Check, Verdict)>) -> RigVerdict {
    let mut worst = RigVerdict::Pass;
    for (check, verdict) in made {
        match verdict {
            Verdict::Fail => return RigVerdict::Fail,
            Verdict::NotChecked if check.core => worst = RigVerdict::Incomplete,
            Verdict::Unsure if worst == RigVerdict::Pass => worst = RigVerdict::Unsure,
            _ => {}
        }
    }
    worst
}
