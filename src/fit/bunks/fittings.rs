//! Bow bunks and side guides.

use super::hull::contact;
use super::layout::frame_shift;
use super::loads::BunkLoads;
use crate::fit::known::{Known, both, need};
use crate::mechanics::bunks::{Bearing, Stretch, press_on};
use crate::quantity::{Angle, Length, LineLoad, Quantity, Weight};
use crate::rig::Setup;
use crate::rig::inputs::{
    BOAT_HULL_CHINE_HEIGHT, TRAILER_BOW_BUNKS_AFT_END, TRAILER_BOW_BUNKS_AFT_TOP,
    TRAILER_BOW_BUNKS_FORWARD_END, TRAILER_BOW_BUNKS_FORWARD_TOP, TRAILER_GUIDES_HEIGHT, TRAILER_GUIDES_SIZE,
    TRAILER_KEEL_HEIGHT,
};

/// The bow bunks against the main ones.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BowBunkFit {
    /// Along their slope.
    pub length: Length,
    /// From their aft end to the main bunks' forward end; negative where they overlap.
    pub gap: Option<Length>,
    /// How steeply they rise forward.
    pub incline: Angle,
}

/// The bow bunks' length, gap and incline.
///
/// # Errors
/// The keys that are missing.
pub fn bow_bunks(setup: &Setup) -> Known<BowBunkFit> {
    let forward = need(setup, TRAILER_BOW_BUNKS_FORWARD_END);
    let aft = need(setup, TRAILER_BOW_BUNKS_AFT_END);
    let forward_top = need(setup, TRAILER_BOW_BUNKS_FORWARD_TOP);
    let aft_top = need(setup, TRAILER_BOW_BUNKS_AFT_TOP);
    let ((forward, aft), (forward_top, aft_top)) = both(both(forward, aft), both(forward_top, aft_top))?;
    let (run, rise) = ((aft - forward).si(), (forward_top - aft_top).si());
    // A proposal moves them with the frame, and the main bunks besides.
    let moved = setup.shift.bunks.unwrap_or_default();
    let gap = setup.trailer.bunks.forward_end.map(|main| main + moved - aft);
    Ok(BowBunkFit { length: Length::from_si(run.hypot(rise)), gap, incline: Angle::from_si(rise.atan2(run)) })
}

/// What a boat that lies on its bow bunks too presses on them and on the main ones with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BowBunksBear {
    /// What both bow bunks carry.
    pub bow: Weight,
    /// The load of both main bunks at the contact's forward and aft end.
    pub main: [LineLoad; 2],
}

/// What bow bunks carry that bear as the main ones do: each an even, springy bed of the same stiffness under a rigid boat.
/// `None` where the file says that they do not bear, or where the boat would tip.
///
/// # Errors
/// The keys that are missing.
pub(super) fn bow_bunks_bear(setup: &Setup, on_bunks: &BunkLoads) -> Known<Option<BowBunksBear>> {
    let ends = both(need(setup, TRAILER_BOW_BUNKS_FORWARD_END), need(setup, TRAILER_BOW_BUNKS_AFT_END));
    let ((forward, aft), (contact, boat)) = both(ends, both(contact(setup), on_bunks.boat.clone()))?;
    let Some(contact) = contact.filter(|_| setup.trailer.bow_bunks.bears != Some(false)) else {
        return Ok(None);
    };
    let moved = frame_shift(setup);
    let bow = Stretch { forward: forward + moved, aft: aft + moved };
    let bearings = [bow, contact].map(|stretch| Bearing { stretch, stiffness: 1.0 });
    let Some(loads) = press_on(boat.weight, boat.at.x, &bearings) else { return Ok(None) };
    let bow = Weight::from_si((loads[0][0] + loads[0][1]).si() / 2.0 * bow.length().si());
    Ok(Some(BowBunksBear { bow, main: loads[1] }))
}

/// A side guide's pad against the hull's side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GuideFit {
    /// The pad's lower edge above the chine; negative where it would press on the bottom.
    pub lower_edge_above_chine: Length,
    /// The pad's middle above the keel line: where it touches the hull's side.
    pub touches_above_keel: Length,
    /// From the pad's face to the chine.
    pub gap_at_chine: Option<Length>,
    /// From the pad's face to the widest part of the hull; negative where the hull would not go between.
    pub gap_at_beam: Option<Length>,
}

/// Where the side guides touch the hull.
///
/// # Errors
/// The keys that are missing.
pub fn guides(setup: &Setup) -> Known<GuideFit> {
    let guides = setup.trailer.guides;
    let height = need(setup, TRAILER_GUIDES_HEIGHT);
    let size = need(setup, TRAILER_GUIDES_SIZE);
    let keel = need(setup, TRAILER_KEEL_HEIGHT);
    let chine = need(setup, BOAT_HULL_CHINE_HEIGHT);
    let ((height, size), (keel, chine)) = both(both(height, size), both(keel, chine))?;
    let gap = |hull: Option<Length>| Some(guides.half_spacing? - hull?);
    Ok(GuideFit {
        lower_edge_above_chine: height - size / 2.0 - keel - chine,
        touches_above_keel: height - keel,
        gap_at_chine: gap(setup.boat.hull.chine.half_breadth),
        gap_at_beam: gap(setup.boat.beam.map(|beam| beam / 2.0)),
    })
}
