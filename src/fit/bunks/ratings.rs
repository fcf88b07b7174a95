//! What crossmembers and brackets may carry.

use super::hull::steepest;
use super::layout::{bunks, half_spacings};
use super::timber::breadth;
use crate::fit::known::{Known, Missing, both, known, need};
use crate::mechanics::bunks::{Standing, crossmember_moment, side_thrust};
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::inputs::{
    TRAILER_BUNKS_BRACKETS_BOLT_RATING, TRAILER_BUNKS_BRACKETS_BOLTS, TRAILER_BUNKS_BRACKETS_RATING,
    TRAILER_BUNKS_TOP, TRAILER_CROSSMEMBERS_SECTION_MODULUS, TRAILER_CROSSMEMBERS_TOP,
    TRAILER_CROSSMEMBERS_YIELD, TRAILER_RAIL_HALF_SPACING,
};
use crate::rig::{Crossmember, Setup};

/// Of a steel beam's yield stress this share is allowed in bending: 1 / 1.67.
///
/// Source: AISC 360, allowable strength design, safety factor for flexure; from memory.
const OF_YIELD: f64 = 1.0 / 1.67;

/// What a crossmember may carry from each bunk: the lesser of its rating and what its section bears.
///
/// # Errors
/// The keys that are missing.
pub fn crossmember_rating(setup: &Setup, member: usize) -> Known<Weight> {
    let stated = setup.trailer.crossmembers[member];
    let by_section = section_rating(setup, member, stated);
    match (stated.rating, by_section) {
        (Some(rating), Ok(by_section)) => Ok(rating.min(by_section)),
        (Some(rating), Err(_)) => Ok(rating),
        (None, by_section) => by_section,
    }
}

/// The load from each bunk that bends a crossmember to its allowable stress.
fn section_rating(setup: &Setup, member: usize, stated: Crossmember) -> Known<Weight> {
    let modulus = known(stated.section_modulus, TRAILER_CROSSMEMBERS_SECTION_MODULUS.of(member));
    let yields = known(stated.yield_stress, TRAILER_CROSSMEMBERS_YIELD.of(member));
    let top = known(stated.top, TRAILER_CROSSMEMBERS_TOP.of(member));
    let rail = need(setup, TRAILER_RAIL_HALF_SPACING);
    let bunk_top = need(setup, TRAILER_BUNKS_TOP);
    let steel = both(modulus, yields);
    let shape = both(both(half_spacings(setup), breadth(setup)), steepest(setup));
    let ((modulus, yields), (((spacings, breadth), steepest), ((rail, top), bunk_top))) =
        both(steel, both(shape, both(both(rail, top), bunk_top)))?;
    let standings = spacings.map(|outer| Standing {
        bunk: outer - breadth / 2.0,
        rail,
        height: (bunk_top - top).max(Length::default()),
        // Straight, where the file does not say otherwise.
        drop: stated.centre.map_or(Length::default(), |centre| (top - centre).max(Length::default())),
    });
    // The moment grows as the load does: that of one newton gives all others.
    let unit = Weight::from_si(1.0);
    let worst = standings.map(|standing| crossmember_moment(unit, side_thrust(unit, steepest), standing));
    let a_newton = worst[0].max(worst[1]).value;
    let allowed = modulus.si() * yields.si() * OF_YIELD;
    // Over a rail nothing bends: the rating is then the rail's, which is not asked for.
    Ok(Weight::from_si((allowed / a_newton.max(1e-9)).min(1e9)))
}

/// What one bracket may hold sideways: the lesser of its rating and its bolts'.
pub(in crate::fit) fn bracket_rating(setup: &Setup) -> Known<Weight> {
    let brackets = bunks(setup).brackets;
    let bolts = both(
        known(brackets.bolts, TRAILER_BUNKS_BRACKETS_BOLTS.key()),
        known(brackets.bolt_rating, TRAILER_BUNKS_BRACKETS_BOLT_RATING.key()),
    )
    .map(|(bolts, each)| each * f64::from(bolts));
    match (brackets.rating, bolts) {
        (Some(rating), Ok(bolts)) => Ok(rating.min(bolts)),
        (Some(rating), Err(_)) => Ok(rating),
        (None, Ok(bolts)) => Ok(bolts),
        (None, Err(_)) if brackets.bolts.is_none() && brackets.bolt_rating.is_none() => {
            Err(Missing::key(TRAILER_BUNKS_BRACKETS_RATING.key()))
        }
        (None, Err(missing)) => Err(missing),
    }
}
