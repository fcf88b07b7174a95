//! What bunks press on their brackets with, and pull on their feet with.

use super::hull::steepest;
use super::layout::ends;
use super::loads::Bunk;
use super::timber::{breadth, timber};
use crate::fit::known::{Known, Missing, both, known, need};
use crate::mechanics::bunks::wood::bearing_area_factor;
use crate::mechanics::bunks::{foot_pull, side_thrust};
use crate::quantity::{Length, Pressure, Quantity, Weight};
use crate::rig::Setup;
use crate::rig::inputs::{
    TRAILER_BUNKS_BRACKETS_BEARING_LENGTH, TRAILER_BUNKS_BRACKETS_FOOT, TRAILER_BUNKS_TOP,
    TRAILER_CROSSMEMBERS_TOP,
};

/// A bunk where it lies on a bracket.
pub(super) struct Seat {
    /// Across the grain.
    pub stress: Pressure,
    /// What the wood bears there.
    pub allowed: Pressure,
}

/// The bracket at which the wood is used most: `R / (b l_b)` against `Fc⊥' Cb`.
pub(super) fn seat(setup: &Setup, bunk: &Bunk) -> Known<Seat> {
    let size = both(breadth(setup), need(setup, TRAILER_BUNKS_BRACKETS_BEARING_LENGTH));
    let bearing = timber(setup).bearing.map(|allowable| allowable.value);
    let ((breadth, length), (bearing, ends)) = both(size, both(bearing, ends(setup)))?;
    let seats = bunk.supports.iter().map(|(station, reaction)| {
        let from_end = (*station - ends.forward).min(ends.aft - *station) - length / 2.0;
        // A bunk that is pulled up presses on nothing.
        let down = reaction.max(Weight::default());
        Seat {
            stress: Pressure::from_si(down.si() / (breadth.si() * length.si())),
            allowed: bearing * bearing_area_factor(length, from_end),
        }
    });
    let used = |seat: &Seat| seat.stress / seat.allowed;
    seats
        .reduce(|most, next| if used(&next) > used(&most) { next } else { most })
        .ok_or_else(Missing::default)
}

/// The greatest pull on the inner bolts of a foot, where friction holds none of the vee's side thrust.
pub(super) fn pull_on_feet(setup: &Setup, bunk: &Bunk) -> Known<Weight> {
    let shape = both(need(setup, TRAILER_BUNKS_BRACKETS_FOOT), need(setup, TRAILER_BUNKS_TOP));
    let mut greatest = Ok(Weight::default());
    for (member, reaction) in bunk.reactions.iter().enumerate() {
        let Some(reaction) = reaction else { continue };
        let under = known(setup.trailer.crossmembers[member].top, TRAILER_CROSSMEMBERS_TOP.of(member));
        let pull =
            both(both(shape.clone(), under), steepest(setup)).map(|(((foot, top), under), steepest)| {
                let height = (top - under).max(Length::default());
                foot_pull(*reaction, side_thrust(*reaction, steepest), height, foot)
            });
        greatest = both(greatest, pull).map(|(greatest, pull)| greatest.max(pull));
    }
    greatest
}
