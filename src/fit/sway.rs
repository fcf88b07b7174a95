//! What a rig brings to sway: weights and places from its file, and what nobody knows of tires and inertia as ends of ranges.

use super::known::{Known, both, known, need};
use super::model::{Model, axle_shift};
use super::road::CaseLoads;
use super::wheels::stations;
use crate::mechanics::PerAxle;
use crate::mechanics::sway::{Cornering, Towed, Towing};
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::inputs::{
    BOAT_LENGTH, TOW_BALL_OVERHANG, TOW_FRONT_AXLE_LOAD, TOW_REAR_AXLE_LOAD, TOW_WHEELBASE, TRAILER_LENGTH,
};
use crate::rig::{Construction, Rig};

/// What is known of a rig that sways, in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct Swaying {
    /// The tow vehicle's axles, alone and coupled.
    alone: [Weight; 2],
    coupled: [Weight; 2],
    wheelbase: Length,
    overhang: Length,
    /// The trailer with its boat, and its centre of gravity behind the ball.
    gross: Weight,
    station: Length,
    /// Its axles behind the ball, with their loads.
    axles: Vec<(Length, Weight)>,
    /// Σ W ((x − xc)² + y²) over all its parts, without what each has about itself.
    spread: f64,
    /// The hull, and the trailer alone: their weights and lengths.
    hull: (Weight, Length),
    bare: (Weight, Length),
    bias: bool,
}

/// Cornering stiffness as a share of the load a degree: of the tow vehicle's tires, of its rear tires beside its front
/// ones, of radial and of bias tires of a trailer. Source: Gillespie for car tires (read on a page that quotes it), less near
/// the rated load (from memory).
const OF_TOW: [f64; 2] = [0.11, 0.19];
const REAR_TO_FRONT: [f64; 2] = [0.9, 1.1];
const RADIAL: [f64; 2] = [0.09, 0.19];
const BIAS: [f64; 2] = [0.08, 0.18];
/// Yaw inertia of the tow vehicle, as a share of `m a b`. Source: two measured tractors, 1.05 and 1.07 (quoted).
const TOW_INERTIA: [f64; 2] = [0.9, 1.1];
/// Radii of gyration of hull and bare trailer, as shares of their lengths. Common practice; ships 0.25 (from memory).
const HULL: [f64; 2] = [0.22, 0.28];
const BARE: [f64; 2] = [0.20, 0.30];

/// The end that a corner takes of a range: a bit each.
fn end(corner: usize, range: usize, [low, high]: [f64; 2]) -> f64 {
    if corner >> range & 1 == 0 { low } else { high }
}

impl Swaying {
    /// The corners of what nobody knows: six ranges with two ends each.
    pub const CORNERS: usize = 1 << 6;

    /// What a rig brings to sway in its first case.
    ///
    /// # Errors
    /// The keys that are missing.
    pub fn of(rig: &Rig, case: &CaseLoads) -> Known<Self> {
        let setup = rig.proposed();
        let model = Model::new(rig);
        let alone = both(need(setup, TOW_FRONT_AXLE_LOAD), need(setup, TOW_REAR_AXLE_LOAD));
        let tow = both(
            both(alone, case.tow.clone()),
            both(need(setup, TOW_WHEELBASE), need(setup, TOW_BALL_OVERHANG)),
        );
        let lengths = both(need(setup, BOAT_LENGTH), need(setup, TRAILER_LENGTH));
        let whole = both(case.body.clone(), case.level.clone());
        let parts = both(both(model.parts(0), model.trailer().clone()), stations(setup));
        let ((((front, rear), coupled), (wheelbase, overhang)), lengths) = both(tow, lengths)?;
        let ((body, level), ((mut parts, trailer), stations)) = both(whole, parts)?;
        // The heaviest part of the boat is its hull.
        let hull = parts.iter().map(|part| part.weight).fold(Weight::default(), Weight::max);
        parts.push(trailer);
        let spread = parts.iter().map(|part| {
            let (x, y) = ((part.at.x - body.at.x).si(), part.at.y.si());
            part.weight.si() * (x * x + y * y)
        });
        let moved = axle_shift(setup);
        let stations: PerAxle<Length> = stations.iter().map(|station| *station + moved).collect();
        let axles = stations.into_iter().zip(level.stance.axle_loads.iter().copied()).collect();
        let bias = setup.trailer.axles.iter().any(|axle| axle.tires.construction == Some(Construction::Bias));
        known(
            (wheelbase.si() > 0.0 && body.at.x.si() > 0.0).then(|| Self {
                alone: [front, rear],
                coupled: [coupled.front, coupled.rear],
                wheelbase,
                overhang,
                gross: body.weight,
                station: body.at.x,
                axles,
                spread: spread.sum(),
                hull: (hull, lengths.0),
                bare: (trailer.weight, lengths.1),
                bias,
            }),
            TOW_WHEELBASE.key(),
        )
    }

    /// Tow vehicle and trailer with what nobody knows of them at one of the corners.
    pub fn at(&self, corner: usize) -> (Towing, Towed) {
        let [front, rear] = self.alone;
        let per_radian = 180.0 / std::f64::consts::PI;
        let of_tow = end(corner, 0, OF_TOW) * per_radian;
        let weight = front + rear;
        // a = R0 ℓ / (F0 + R0)
        let ahead = self.wheelbase * (rear / weight).si();
        let behind = self.wheelbase - ahead;
        let towing = Towing {
            weight,
            // I1 = m a b
            gyration: Length::from_si((end(corner, 1, TOW_INERTIA) * ahead.si() * behind.si()).sqrt()),
            front: Cornering { distance: ahead, stiffness: self.coupled[0] * of_tow },
            rear: Cornering {
                distance: behind,
                stiffness: self.coupled[1] * of_tow * end(corner, 2, REAR_TO_FRONT),
            },
            overhang: self.overhang,
        };
        let of_trailer = end(corner, 3, if self.bias { BIAS } else { RADIAL }) * per_radian;
        let own =
            |(weight, length): (Weight, Length), share: f64| weight.si() * (share * length.si()).powi(2);
        let inertia =
            self.spread + own(self.hull, end(corner, 4, HULL)) + own(self.bare, end(corner, 5, BARE));
        let axle = |(station, load): &(Length, Weight)| Cornering {
            distance: *station,
            stiffness: *load * of_trailer,
        };
        let towed = Towed {
            weight: self.gross,
            gyration: Length::from_si((inertia / self.gross.si()).sqrt()),
            station: self.station,
            axles: self.axles.iter().map(axle).collect(),
        };
        (towing, towed)
    }
}
