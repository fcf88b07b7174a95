//! All that is found of the bunks beside what the checks compare: for whoever builds, moves or packs them.

use super::clearances::{BesideFender, beside_fender};
use super::cut_sheet::{CutSheet, WantedEnds, cut_sheet, idle, outward, wanted_ends};
use super::fittings::{BowBunkFit, BowBunksBear, GuideFit, bow_bunks, bow_bunks_bear, guides};
use super::hull::{Landing, contact, deadrise, landings, standoff, steepest, straight_run};
use super::layout::{crossmember_station, ends};
use super::loads::BunkLoads;
use super::lowest::{Lowest, lowest};
use super::timber::{Timber, packing, timber};
use crate::fit::assess::Assessment;
use crate::fit::known::Known;
use crate::mechanics::bunks::Stretch;
use crate::quantity::{Angle, Length, Quantity, Weight};
use crate::rig::Setup;

/// How the bunks fit boat and trailer.
#[derive(Debug, Clone, PartialEq)]
pub struct BunkFit {
    /// The case in which the boat is heaviest, counted from 0; the first of equals.
    pub heaviest: usize,
    /// The stretch of the boat's bottom that can bear.
    pub straight_run: Known<Stretch>,
    /// The bunks' ends.
    pub ends: Known<Stretch>,
    /// How much of a bunk bears nothing in the heaviest case.
    pub idle: Known<Length>,
    /// How far the bunks stand off a bottom that twists, at the contact's forward and aft end; none without a contact.
    pub gaps: Option<[Length; 2]>,
    /// The ends that would suit every case, or `None` where there are none.
    pub wanted_ends: Known<Option<WantedEnds>>,
    /// The deadrise to which the bunks are cut.
    pub deadrise: Known<Angle>,
    /// Where the bunks' outer edges lie, to port and to starboard.
    pub landings: Known<[Landing; 2]>,
    /// Every crossmember, from forward aft.
    pub crossmembers: Vec<CrossmemberFit>,
    /// What the wood may bear.
    pub timber: Timber,
    /// The hull beside the fenders.
    pub fender: Known<BesideFender>,
    /// The lowest boat that clears everything, or `None` where nothing decides it.
    pub lowest: Known<Option<Lowest>>,
    /// The cut sheet, or `None` where the bevel cuts away the board's whole inner edge.
    pub sheet: Known<Option<CutSheet>>,
    /// The bow bunks against the main ones.
    pub bow_bunks: Known<BowBunkFit>,
    /// What the bow bunks carry if they bear, in the heaviest case; `None` where they do not.
    pub bow_bunks_bear: Known<Option<BowBunksBear>>,
    /// The side guides against the hull.
    pub guides: Known<GuideFit>,
}

/// A crossmember under one bunk, the more heavily loaded one, in the heaviest case.
#[derive(Debug, Clone, PartialEq)]
pub struct CrossmemberFit {
    /// Behind the ball.
    pub station: Known<Length>,
    /// What it carries, or `None` where the bunk does not reach it.
    pub reaction: Option<Weight>,
    /// The vee's side thrust on its bracket, or `None` where no deadrise is known.
    pub thrust: Option<Weight>,
    /// Each bolt's share of the thrust, where it is known how many there are.
    pub thrust_a_bolt: Option<Weight>,
    /// What stands between it and the bunk.
    pub packing: Known<Length>,
    /// How far the bunk stands off the bottom over it, or `None` where they do not touch there.
    pub gap: Option<Length>,
}

fn gaps(setup: &Setup) -> Option<[Length; 2]> {
    let contact = contact(setup).ok()??;
    let at = |station| standoff(setup, station).ok()?;
    Some([at(contact.forward)?, at(contact.aft)?])
}

/// How the bunks fit, where there are any.
pub(in crate::fit) fn bunk_fit(setup: &Setup, assessment: &Assessment) -> Option<BunkFit> {
    let weight = |on_bunks: &BunkLoads| on_bunks.boat.as_ref().map_or(0.0, |boat| boat.weight.si());
    let cases = assessment.bunks.iter().enumerate();
    let (heaviest, on_bunks) =
        cases.reduce(|most, next| if weight(next.1) > weight(most.1) { next } else { most })?;
    Some(BunkFit {
        heaviest,
        straight_run: straight_run(setup),
        ends: ends(setup),
        idle: idle(setup, on_bunks),
        gaps: gaps(setup),
        wanted_ends: wanted_ends(setup, &assessment.bunks),
        deadrise: deadrise(setup),
        landings: landings(setup),
        crossmembers: crossmembers(setup, on_bunks),
        timber: timber(setup),
        fender: beside_fender(setup),
        lowest: lowest(setup),
        sheet: cut_sheet(setup),
        bow_bunks: bow_bunks(setup),
        bow_bunks_bear: bow_bunks_bear(setup, on_bunks),
        guides: guides(setup),
    })
}

fn crossmembers(setup: &Setup, on_bunks: &BunkLoads) -> Vec<CrossmemberFit> {
    let Ok(Some(bunk)) = &on_bunks.bunk else { return Vec::new() };
    let steepest = steepest(setup).ok();
    let fit = |(i, reaction): (usize, &Option<Weight>)| {
        let thrust = steepest.map(|steepest| outward(reaction.unwrap_or_default(), steepest));
        let bolts = setup.trailer.bunks.brackets.bolts;
        CrossmemberFit {
            station: crossmember_station(setup, i),
            reaction: *reaction,
            thrust,
            thrust_a_bolt: thrust.zip(bolts).map(|(thrust, bolts)| thrust / f64::from(bolts)),
            packing: packing(setup, i),
            gap: crossmember_station(setup, i).and_then(|station| standoff(setup, station)).ok().flatten(),
        }
    };
    bunk.reactions.iter().enumerate().map(fit).collect()
}
