//! A rig over its ramps: the worst moments of each crossing, and how much they depend on springs, tires and hitch.

use super::rates::at_rates;
use crate::fit::{self, Findings, Model, Moment, Peaks, RampLoads, Unfit, governing_crossing};
use crate::mechanics::ramp::Stranded;
use crate::quantity::{Length, Weight};
use crate::rig::Rig;
use rayon::prelude::*;

/// Which ramps and cases are asked for, counted from 0; none is every one.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Choice {
    /// One ramp alone.
    pub ramp: Option<usize>,
    /// One case alone.
    pub case: Option<usize>,
}

impl Choice {
    /// The ramps asked for.
    pub(super) fn ramps(self, rig: &Rig) -> Vec<usize> {
        self.ramp.map_or_else(|| (0..rig.proposed().ramps.len()).collect(), |ramp| vec![ramp])
    }

    /// The rig with what is asked for alone.
    pub(super) fn of(self, rig: &Rig) -> Rig {
        rig.narrowed(self.ramp, self.case)
    }
}

/// What is found of a rig over its ramps.
#[derive(Debug, Clone)]
pub struct Crossings {
    /// The rig with the ramps and cases asked for alone; what follows counts in its lists.
    pub rig: Rig,
    /// All that is found of it.
    pub findings: Findings,
    /// Each ramp crossed in the case whose ratings stand worst.
    pub crossed: Vec<Crossed>,
}

/// A ramp crossed in one case.
#[derive(Debug, Clone)]
pub struct Crossed {
    /// Its worst moments.
    pub loads: RampLoads,
    /// The same with all springs and tires half as stiff.
    pub softer: Option<RampLoads>,
    /// The same with all of them twice as stiff.
    pub stiffer: Option<RampLoads>,
    /// The same ramp in the other cases asked for: a moment may be worse there.
    pub others: Vec<RampLoads>,
    /// Axle loads by position.
    pub samples: Vec<Sample>,
}

/// Axle loads at one position.
#[derive(Debug, Clone)]
pub struct Sample {
    /// The rearmost hub past the first break.
    pub position: Length,
    /// The axles' loads, front to rear.
    pub axle_loads: Vec<Weight>,
}

/// Crosses the ramps asked for; samples are taken a step apart, at every event and every worst moment.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels on level ground.
pub fn crossings(rig: &Rig, choice: Choice, step: Length) -> Result<Crossings, Unfit> {
    let narrowed = choice.of(rig);
    let findings = fit::examine(&narrowed)?;
    // Springs and tires are rarely known well: how much do the peaks depend on them?
    let [softer, stiffer] = [0.5, 2.0].map(|times| Some(choice.of(&at_rates(rig, times).ok()?)));
    let cross = |ramp| {
        let crossings = || findings.assessment.ramps.iter().filter(|crossing| crossing.ramp == ramp);
        let case = governing_crossing(narrowed.proposed(), crossings())?.case;
        let others = crossings().filter(|crossing| crossing.case != case).cloned().collect();
        let mut samples = Vec::new();
        let visit = &mut |moment: &Moment<'_>| {
            let axle_loads = moment.instant.stance.axle_loads.to_vec();
            samples.push(Sample { position: moment.instant.position, axle_loads });
        };
        let at = |rig: &Option<Rig>| {
            let peaks = Model::new(rig.as_ref()?).peaks(ramp, case);
            Some(RampLoads { ramp, case, peaks })
        };
        let (peaks, (softer, stiffer)) = rayon::join(
            || Model::new(&narrowed).cross(ramp, case, step, visit),
            || (at(&softer), at(&stiffer)),
        );
        Some(Crossed { loads: RampLoads { ramp, case, peaks }, softer, stiffer, others, samples })
    };
    let ramps = 0..narrowed.proposed().ramps.len();
    let crossed = ramps.into_par_iter().map(cross).collect::<Vec<_>>().into_iter().flatten().collect();
    Ok(Crossings { crossed, findings, rig: narrowed })
}

/// Shows every position of one crossing: of those asked for the one whose ratings stand worst. None where there is no
/// ramp.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels on level ground.
pub fn positions(
    rig: &Rig,
    choice: Choice,
    step: Length,
    visit: &mut dyn FnMut(&Moment<'_>),
) -> Result<Option<fit::Known<Result<Peaks, Stranded>>>, Unfit> {
    let narrowed = choice.of(rig);
    let found = fit::assess(&narrowed)?;
    let worst = governing_crossing(narrowed.proposed(), found.ramps.iter());
    Ok(worst.map(|worst| Model::new(&narrowed).cross(worst.ramp, worst.case, step, visit)))
}
