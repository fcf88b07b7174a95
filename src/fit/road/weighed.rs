//! The loads of a rig as it was weighed, or listed, with its frame level: they ask for no more than they need.

use super::loads::{Carried, carried};
use crate::fit::bodies::{itemised, scales_boat_weight, trailer_weight, weighed};
use crate::fit::known::{Known, both, each, need};
use crate::fit::model::Model;
use crate::fit::placement::{Heights, Scaled, tank_weight, tanks_weight};
use crate::fit::wheels::{sharing, stations};
use crate::mechanics::road::level::Sharing;
use crate::mechanics::{Stance, Unsettled};
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::inputs::MEASURED_TONGUE_WEIGHT;
use crate::rig::{Case, LevelMeasured, Part, Setup};

impl Model<'_> {
    /// Whether what a case loads is what the first case loaded when the rig was measured, nothing moved.
    fn is_loaded_as_measured(&self, case: &Case) -> bool {
        let (measured, proposed) = (self.measured(), self.proposed());
        let first = &measured.cases[0];
        let load = |setup: &Setup| {
            let (shift, trailer) = (setup.shift, &setup.trailer);
            let moved = (shift.boat, shift.axles, shift.tongue, shift.ashore, setup.transom());
            (moved, setup.trailer_weight(), trailer.tongue_weight, trailer.cg)
        };
        load(measured) == load(proposed)
            && measured.boat.weights == proposed.boat.weights
            && measured.boat.tanks == proposed.boat.tanks
            && (&first.fill, &first.without) == (&case.fill, &case.without)
    }

    /// Whether the frame is level in a case: it was found so with this load, and the ball stands at that height.
    pub(super) fn is_level(&self, case: &Case) -> bool {
        let setup = self.proposed();
        setup.tow.ball_height == setup.trailer.level_ball_height
            && setup.trailer.level_measured != Some(LevelMeasured::Empty)
            && self.is_loaded_as_measured(case)
    }

    /// Whether the tongue weight of a case is what a scale says.
    pub(super) fn is_as_weighed(&self, case: &Case) -> bool {
        self.measured().goes_by_scales() && self.is_level(case)
    }

    /// Boat and trailer in a case in which the boat weighs so much.
    pub(super) fn gross(&self, case: &Case, boat: &Known<Weight>) -> Known<Weight> {
        let (measured, proposed) = (self.measured(), self.proposed());
        let weighed = weighed(measured);
        if measured.goes_by_scales() && weighed.is_ok() && self.is_loaded_as_measured(case) {
            return weighed;
        }
        if !measured.known_from_scales() {
            return both(boat.clone(), trailer_weight(proposed)).map(|(boat, trailer)| boat + trailer);
        }
        // What the tanks hold now and held then; another trailer's weight; what is left ashore.
        let tanks = both(tanks_weight(proposed, case), tanks_weight(measured, &measured.cases[0]));
        let trailers = proposed.trailer_weight().zip(measured.trailer_weight());
        let trailer = trailers.map_or(Weight::default(), |(now, then)| now - then);
        let ashore = proposed.shift.ashore.unwrap_or_default();
        both(weighed, tanks).map(|(weighed, (now, then))| weighed + (now - then) + trailer - ashore)
    }

    /// The trailer at rest with its frame level, loaded as it was measured.
    pub(super) fn with_frame_level(&self) -> Result<Known<Carried>, Unsettled> {
        let (measured, side) = (self.measured(), self.proposed().boat.cg_side.unwrap_or_default());
        let found = if measured.known_from_scales() {
            by_scales(measured, side)
        } else {
            by_items(measured, self.scaled())
        };
        let (stance, weight, side) = match found {
            Ok(found) => found,
            Err(missing) => return Ok(Err(missing)),
        };
        Ok(Ok(carried(self.proposed(), stance.ok_or(Unsettled::TipsOverBall)?, weight, side)))
    }
}

/// The trailer at rest, if it does; its weight, and how far that lies to starboard.
type AtRest = (Option<Stance>, Weight, Known<Length>);

/// What the tongue does not carry the axles do. Where they have been weighed apart nothing else says what each carries.
fn by_scales(measured: &Setup, side: Length) -> Known<AtRest> {
    let scales = both(weighed(measured), need(measured, MEASURED_TONGUE_WEIGHT));
    let sharing = match measured.measured.axles.len() {
        0 => sharing(measured),
        axles => Ok(Sharing::even(axles)),
    };
    let ((gross, tongue), sharing) = both(scales, sharing)?;
    Ok((sharing.by_tongue(gross, tongue), gross, side_by_scales(measured, side, gross)))
}

/// The axles balance all that is listed about the ball, at whatever heights.
fn by_items(measured: &Setup, scaled: &Scaled) -> Known<AtRest> {
    let wheels = both(stations(measured), sharing(measured));
    let (body, (stations, sharing)) = both(itemised(measured, Heights::Ignored, scaled), wheels)?;
    Ok((sharing.under(body, &stations), body.weight, Ok(body.at.y)))
}

/// How far to starboard the weight of a rig known from scales lies. While all of it lies on the centreline, what each
/// part weighs does not matter.
fn side_by_scales(measured: &Setup, side: Length, gross: Weight) -> Known<Length> {
    let first = &measured.cases[0];
    let tanks = measured.boat.tanks.iter().enumerate().filter(|(i, _)| first.carries(Part::Tank(*i)));
    let tanks: Vec<(usize, Length)> = tanks.map(|(i, tank)| (i, tank.side.unwrap_or_default())).collect();
    let centreline = Length::default();
    if side == centreline && tanks.iter().all(|(_, side)| *side == centreline) {
        return Ok(centreline);
    }
    // yc = Σ W y / W
    let moments = tanks
        .into_iter()
        .map(|(i, side)| tank_weight(measured, first, i).map(|weight| weight.si() * side.si()));
    let (boat, tanks) = both(scales_boat_weight(measured), each::<_, Vec<f64>>(moments))?;
    Ok(Length::from_si((boat.si() * side.si() + tanks.iter().sum::<f64>()) / gross.si()))
}
