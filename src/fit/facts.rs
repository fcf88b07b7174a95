//! The loads of a rig that the rows asked for need: what every comparison reads.

use super::brakes::BrakeLoads;
use super::bunks::BunkLoads;
use super::frame::FrameLoads;
use super::known::{Known, Missing};
use super::launch::{Launch, LaunchLoads, NoLaunch};
use super::model::{Model, Unfit};
use super::ramp::{Peaks, RampLoads, bow_on_level, clearance_on_level, no_low_points};
use super::recalled::Recalled;
use super::road::{Carried, CaseLoads};
use super::winch::{self, WinchLoads};
use crate::mechanics::ramp::Stranded;
use crate::quantity::Length;
use crate::rig::Setup;
use crate::rig::inputs::{RAMPS_PROFILE_LENGTH, TRAILER_BRAKES_KIND};
use rayon::iter::{IntoParallelIterator, ParallelIterator};

/// What a row's load is read from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Facet {
    /// The description alone.
    Description,
    /// The rig on level ground, in each case.
    Level,
    /// The same with the rear axle lifted.
    Lifted,
    /// Each ramp crossed in each case, until the ball is past its last break.
    Ramp,
    /// The same until the whole tow vehicle is past it.
    Traction,
    /// Each ramp crossed in each case; where there is none, the level road.
    Clearance,
    /// The bunks, in each case.
    Bunks,
    /// The rig as it brakes, in each case.
    Braking,
    /// The winch on each ramp in each case, no ramp crossed; where there is no ramp, in each case.
    Winch,
    /// What bends tongue and rails, in each case.
    Frame,
    /// Launching on each ramp with water in each case.
    Launch,
}

/// Which crossing is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Crossed {
    /// The ramp.
    pub ramp: usize,
    /// The case, counted among those asked for.
    pub case: usize,
}

/// Which loads are worked out; those on level ground and on the winch always are.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[expect(clippy::struct_excessive_bools, reason = "each is a kind of load that may be asked for by itself")]
pub struct Needs {
    /// One case alone; none is every case.
    pub case: Option<usize>,
    /// With the rear axle lifted too.
    pub lifted: bool,
    /// Over the ramps, which takes a thousand times as long as the level does.
    pub ramps: bool,
    /// Over one ramp in one case alone; none is every ramp in every case asked for.
    pub crossing: Option<Crossed>,
    /// On the bunks.
    pub bunks: bool,
    /// As it brakes.
    pub braking: bool,
    /// What bends tongue and rails.
    pub frame: bool,
    /// Launching, which takes as long as crossing a ramp.
    pub launch: bool,
}

impl Needs {
    /// What is read from these facets, in every case.
    pub(super) fn of(facets: impl Iterator<Item = Facet>) -> Self {
        let mut needs = Self::default();
        for facet in facets {
            match facet {
                Facet::Description | Facet::Level | Facet::Winch => {}
                Facet::Lifted => needs.lifted = true,
                Facet::Ramp | Facet::Traction | Facet::Clearance => needs.ramps = true,
                Facet::Bunks => needs.bunks = true,
                Facet::Braking => needs.braking = true,
                Facet::Frame => needs.frame = true,
                Facet::Launch => needs.launch = true,
            }
        }
        needs
    }
}

/// The loads that were needed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Facts {
    /// On level ground, by case.
    pub cases: Vec<CaseLoads>,
    /// Over the ramps, by ramp and case; the cases are counted among these.
    pub ramps: Vec<RampLoads>,
    /// On the bunks, by case; empty where there are none.
    pub bunks: Vec<BunkLoads>,
    /// As it brakes, by case; empty where the file says nothing of brakes.
    pub brakes: Vec<BrakeLoads>,
    /// On the winch, by ramp and case; the cases are counted among these. Empty where there is none.
    pub winch: Vec<WinchLoads>,
    /// What bends tongue and rails, by case; empty where the file says nothing of either. No check reads what a stop does to them:
    /// that is there only where the brakes were asked for as well.
    pub frames: Vec<FrameLoads>,
    /// Launching, by ramp and case; the cases are counted among these. Empty where the file does not describe it.
    pub launches: Vec<LaunchLoads>,
}

/// One place to read a load: the description, one case, or one crossing.
pub(super) struct View<'a> {
    pub setup: &'a Setup,
    facts: &'a Facts,
    at: usize,
}

impl<'a> View<'a> {
    /// The case's loads.
    pub fn case(&self) -> &'a CaseLoads {
        &self.facts.cases[self.at]
    }

    /// The loads of the first of the cases.
    pub fn first_case(&self) -> &'a CaseLoads {
        &self.facts.cases[0]
    }

    /// The trailer on level ground.
    pub fn level(&self) -> Known<&'a Carried> {
        self.case().level.as_ref().map_err(Clone::clone)
    }

    /// The trailer with its rear axle lifted.
    pub fn lifted(&self) -> Known<&'a Carried> {
        // Asked for on several axles only.
        self.case().lifted.as_ref().ok_or_else(Missing::default)?.as_ref().map_err(Clone::clone)
    }

    /// The worst moments of the crossing. Where the trailer does not rest on the ramp nothing is known, and no key
    /// is missing.
    pub fn peaks(&self) -> Known<&'a Peaks> {
        match &self.facts.ramps[self.at].peaks {
            Ok(Ok(peaks)) => Ok(peaks),
            Ok(Err(_)) => Err(Missing::default()),
            Err(missing) => Err(missing.clone()),
        }
    }

    /// Whether the trailer rests on its wheels all over the ramp.
    pub fn rests(&self) -> Known<bool> {
        self.facts.ramps[self.at].peaks.as_ref().map(Result::is_ok).map_err(Clone::clone)
    }

    /// The least clearance of a point of [`ramp_points`].
    pub fn clearance(&self, point: usize) -> Known<Length> {
        if self.setup.ramps.is_empty() {
            return clearance_on_level(self.setup, self.level(), point);
        }
        self.peaks()?.clearances.get(point).cloned().unwrap_or_else(no_low_points).map(|peak| peak.value)
    }

    /// The least distance between bow and tow vehicle's body.
    pub fn bow(&self) -> Known<Length> {
        if self.setup.ramps.is_empty() {
            return bow_on_level(self.setup, self.level());
        }
        let peaks = self.peaks()?;
        let least = peaks.bow.clone()?.value;
        Ok(peaks.bow_in_turn.map_or(least, |turn| turn.min(least)))
    }

    /// Whether what holds here holds all over the ramp: the profile goes on until the ball, or for traction the whole
    /// tow vehicle, is past every break.
    ///
    /// # Errors
    /// The length of the profile's last run, which is too short.
    pub fn is_whole(&self, facet: Facet) -> Known<()> {
        let crossed = match facet {
            Facet::Ramp | Facet::Traction | Facet::Clearance => self.facts.ramps.get(self.at),
            _ => None,
        };
        let Some((ramp, Ok(Ok(peaks)))) = crossed.map(|crossed| (crossed.ramp, &crossed.peaks)) else {
            return Ok(());
        };
        let whole = if facet == Facet::Traction { peaks.lacks.is_none() } else { peaks.ball_is_past };
        let last = self.setup.ramps[ramp].profile.len().saturating_sub(1);
        if whole { Ok(()) } else { Err(Missing::key(RAMPS_PROFILE_LENGTH.at([ramp, last]))) }
    }

    /// What the brakes do.
    pub fn braking(&self) -> &'a BrakeLoads {
        &self.facts.brakes[self.at]
    }

    /// What bends tongue and rails.
    pub fn frame(&self) -> &'a FrameLoads {
        &self.facts.frames[self.at]
    }

    /// Launching.
    pub fn launch(&self) -> &'a LaunchLoads {
        &self.facts.launches[self.at]
    }

    /// What the bunks carry.
    pub fn on_bunks(&self) -> &'a BunkLoads {
        &self.facts.bunks[self.at]
    }

    /// What the winch pulls.
    pub fn winch(&self) -> &'a WinchLoads {
        &self.facts.winch[self.at]
    }
}

impl Facts {
    /// Every view of a facet, with its case and its ramp where they matter.
    pub(super) fn views<'a>(
        &'a self,
        setup: &'a Setup,
        facet: Facet,
    ) -> impl Iterator<Item = (Option<usize>, Option<usize>, View<'a>)> {
        let facet = if facet == Facet::Clearance && setup.ramps.is_empty() { Facet::Level } else { facet };
        let count = match facet {
            Facet::Description => 1,
            Facet::Level | Facet::Lifted => self.cases.len(),
            Facet::Ramp | Facet::Traction | Facet::Clearance => self.ramps.len(),
            Facet::Bunks => self.bunks.len(),
            Facet::Braking => self.brakes.len(),
            Facet::Winch => self.winch.len(),
            Facet::Frame => self.frames.len(),
            Facet::Launch => self.launches.len(),
        };
        (0..count).map(move |at| {
            let (case, ramp) = match facet {
                Facet::Description => (None, None),
                Facet::Ramp | Facet::Traction | Facet::Clearance => {
                    (Some(self.ramps[at].case), Some(self.ramps[at].ramp))
                }
                Facet::Winch => (Some(self.winch[at].case), self.winch[at].ramp),
                Facet::Launch => (Some(self.launches[at].case), Some(self.launches[at].ramp)),
                _ => (Some(at), None),
            };
            (case, ramp, View { setup, facts: self, at })
        })
    }
}

impl Model<'_> {
    /// The loads that are needed.
    ///
    /// # Errors
    /// [`Unfit`] when the trailer does not rest on its wheels on level ground.
    pub fn facts(&self, needs: Needs) -> Result<Facts, Unfit> {
        self.facts_by(needs, |ramp, case| self.peaks(ramp, case), |ramp, case| self.launching(ramp, case))
    }

    /// The same; what crosses a ramp, or is launched, as another rig was before is not worked out again.
    ///
    /// # Errors
    /// As [`Model::facts`].
    pub fn facts_recalling(&self, needs: Needs, recalled: &Recalled) -> Result<Facts, Unfit> {
        let peaks = |ramp, case| recalled.peaks(self, ramp, case);
        self.facts_by(needs, peaks, |ramp, case| recalled.launching(self, ramp, case))
    }

    fn facts_by(
        &self,
        needs: Needs,
        peaks: impl Fn(usize, usize) -> Known<Result<Peaks, Stranded>> + Sync,
        launching: impl Fn(usize, usize) -> Known<Result<Launch, NoLaunch>> + Sync,
    ) -> Result<Facts, Unfit> {
        let setup = self.proposed();
        let asked: Vec<usize> = match needs.case {
            Some(case) => vec![case],
            None => (0..setup.cases.len()).collect(),
        };
        // A collected `Result` does not know how long it gets, and loads are long.
        let mut cases = Vec::with_capacity(asked.len());
        for case in &asked {
            cases.push(self.case_loads(&setup.cases[*case], needs.lifted)?);
        }
        let every = (0..setup.ramps.len()).flat_map(|ramp| (0..asked.len()).map(move |case| (ramp, case)));
        let wanted =
            |at: &(usize, usize)| needs.ramps && needs.crossing.is_none_or(|one| *at == (one.ramp, one.case));
        let wanted: Vec<(usize, usize)> = every.filter(wanted).collect();
        // A crossing takes milliseconds: worth another core.
        let cross = |(ramp, case)| RampLoads { ramp, case, peaks: peaks(ramp, asked[case]) };
        let ramps = wanted.into_par_iter().map(cross).collect();
        let lies = needs.bunks && setup.trailer.bunks.are_described();
        let on_bunks = |case: &usize| self.on_bunks(*case);
        let bunks = if lies { asked.iter().map(on_bunks).collect() } else { Vec::new() };
        let brakes = match setup.trailer.brakes.kind {
            Some(_) if needs.braking => cases.iter().map(|case| self.braking(case)).collect(),
            _ => Vec::new(),
        };
        let winds = setup.trailer.winch.is_described();
        let winch = if winds { winch::loads(setup, &cases) } else { Vec::new() };
        let tongue = setup.trailer.tongue;
        let bends = tongue.bends() || tongue.is_clamped() || setup.trailer.rails.are_described();
        // The rails carry what the bunks do.
        let of_bunks = |i: usize| bunks.get(i).cloned().unwrap_or_else(|| self.on_bunks(asked[i]));
        let frame = |(i, case): (usize, &CaseLoads)| {
            let stop = brakes.get(i).map_or_else(
                || Err(Missing::key(TRAILER_BRAKES_KIND.key())),
                |brakes: &BrakeLoads| brakes.stop.as_ref().map_err(Clone::clone),
            );
            self.frame(case, || of_bunks(i), stop)
        };
        let frames =
            if needs.frame && bends { cases.iter().enumerate().map(frame).collect() } else { Vec::new() };
        let slips = (0..setup.ramps.len()).filter(|ramp| setup.ramps[*ramp].has_water());
        let slips = slips.flat_map(|ramp| (0..asked.len()).map(move |case| (ramp, case)));
        let of_it = |at: &(usize, usize)| needs.crossing.is_none_or(|one| *at == (one.ramp, one.case));
        let slips = slips.filter(|at| needs.launch && setup.launches() && of_it(at));
        let slips: Vec<(usize, usize)> = slips.collect();
        let launch = |(ramp, case)| LaunchLoads::of(setup, ramp, case, launching(ramp, asked[case]));
        let launches = slips.into_par_iter().map(launch).collect();
        Ok(Facts { cases, ramps, bunks, brakes, winch, frames, launches })
    }
}
