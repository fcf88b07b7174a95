//! Which loads checks need, and those loads worked out: the level, ramps and bunks together.

use super::assess::Loads;
use super::bunks::BunkLoads;
use super::check::Check;
use super::loads::{CaseLoads, Model, Unfit};
use super::ramp::{RampLoads, STEP};
use crate::quantity::{Length, Quantity};
use crate::rig::Setup;

/// Which loads are worked out; those on level ground always are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Needs {
    /// One case alone; none is every case.
    pub case: Option<usize>,
    /// With the rear axle lifted too.
    pub lifted: bool,
    /// Over the ramps, crossed in such steps; none is not at all. It takes a thousand times as long as the level does.
    pub ramps: Option<Length>,
    /// On the bunks.
    pub bunks: bool,
}

impl Needs {
    /// Everything, in every case, the ramps crossed in such steps.
    pub fn all(step: Length) -> Self {
        Self { case: None, lifted: true, ramps: Some(step), bunks: true }
    }

    /// What these checks look at, in every case, the ramps crossed in [`STEP`]s.
    pub fn of<'a>(checks: impl Iterator<Item = &'a Check>) -> Self {
        let mut needs = Self { case: None, lifted: false, ramps: None, bunks: false };
        for check in checks {
            needs.lifted |= check.is_about_lifting();
            needs.bunks |= check.is_about_bunks();
            if check.is_about_ramps() {
                needs.ramps = Some(Length::from_si(STEP));
            }
        }
        needs
    }

    /// The same with ramps, if any are crossed, in other steps.
    #[must_use]
    pub fn in_steps_of(self, step: Length) -> Self {
        Self { ramps: self.ramps.map(|_| step), ..self }
    }
}

/// The loads that were needed.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// On level ground, by case.
    pub cases: Vec<CaseLoads>,
    /// Over the ramps, by ramp and case; the cases are counted among these.
    pub ramps: Vec<RampLoads>,
    /// On the bunks, by case.
    pub bunks: Vec<BunkLoads>,
}

impl Worked {
    /// The same for making checks of a setup, whose loads they are.
    pub fn loads<'a>(&'a self, setup: &'a Setup) -> Loads<'a> {
        Loads { setup, cases: &self.cases, ramps: &self.ramps, bunks: &self.bunks }
    }
}

impl Model<'_> {
    /// The loads that are needed.
    ///
    /// # Errors
    /// [`Unfit`] when the trailer does not rest on its wheels on level ground.
    pub fn work(&self, needs: Needs) -> Result<Worked, Unfit> {
        let setup = self.proposed();
        let asked: Vec<usize> = match needs.case {
            Some(case) => vec![case],
            None => (0..setup.cases.len()).collect(),
        };
        let level = |case: &usize| self.case_loads(&setup.cases[*case], needs.lifted);
        let cases = asked.iter().map(level).collect::<Result<_, _>>()?;
        let mut ramps = Vec::new();
        if let Some(step) = needs.ramps {
            for ramp in 0..setup.ramps.len() {
                let peaks = |case: &usize| self.cross(ramp, *case, step, &mut |_| {});
                let crossed = asked.iter().map(peaks).enumerate();
                ramps.extend(crossed.map(|(case, peaks)| RampLoads { ramp, case, peaks }));
            }
        }
        let lies = needs.bunks && setup.trailer.bunks.are_described();
        let on_bunks = |case: &usize| self.on_bunks(*case);
        let bunks = if lies { asked.iter().map(on_bunks).collect() } else { Vec::new() };
        Ok(Worked { cases, ramps, bunks })
    }
}
