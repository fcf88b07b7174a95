//! The frame level: how the axles share a load, whatever the heights are.
//!
//! | symbol | meaning |
//! |---|---|
//! | `W`, `xc` | weight on ball and wheels, and its centre aft of the ball |
//! | `V` | tongue weight |
//! | `x_i`, `S_i` | station of axle `i`, and the force of its springs, which is its load |
//!
//! With the frame level every spring is pressed by the same amount, no force acts along the ground, and the height of
//! the centre of gravity has no lever. So what the axles carry depends on springs, weights and stations alone.

use super::settle::GroundForce;
use super::springs::{Shared, common_compression, share};
use crate::mechanics::{Body, PerAxle, Spring, Stance};
use crate::quantity::{Angle, Length, Quantity, Rate, Weight};

/// What decides how axles share a load while the frame is level.
#[derive(Debug, Clone, PartialEq)]
pub struct Sharing {
    /// Of each axle.
    pub springs: PerAxle<Spring>,
    /// End travel of every equalizer, each way; zero for axles sprung apart.
    pub equalizer_travel: Length,
}

impl Sharing {
    /// So many axles that all carry the same.
    pub fn even(axles: usize) -> Self {
        let unit = Rate::from_si(1.0);
        // Any spring does, as long as all are alike.
        let spring = Spring::new(unit, unit, Length::from_si(f64::INFINITY));
        Self { springs: (0..axles).map(|_| spring).collect(), equalizer_travel: Length::from_si(0.0) }
    }

    /// The trailer at rest with its frame level, by its weight and its tongue weight.
    ///
    /// None when the tongue weight exceeds the weight, or there is no axle.
    pub fn by_tongue(&self, weight: Weight, tongue_weight: Weight) -> Option<Stance> {
        // Σ S_i = W − V
        let ones: PerAxle<f64> = self.springs.iter().map(|_| 1.0).collect();
        let shared = self.shared(&ones, (weight - tongue_weight).si())?;
        Some(Stance { tongue_weight, ..level(weight, &shared) })
    }

    /// The trailer at rest with its frame level under this body.
    ///
    /// None when the body lies ahead of the ball, or there is no axle.
    pub fn under(&self, body: Body, stations: &PerAxle<Length>) -> Option<Stance> {
        // Σ S_i x_i = W xc
        let stations: PerAxle<f64> = stations.iter().map(|station| station.si()).collect();
        Some(level(body.weight, &self.shared(&stations, body.weight.si() * body.at.x.si())?))
    }

    /// Where the centre of gravity of a body lies, aft of the ball, from the tongue weight it gives on axles at these
    /// stations.
    ///
    /// With equal shares this is `x̄ (1 − V/W)`, `x̄` the mean axle station.
    ///
    /// None when the tongue weight exceeds the weight, or there is no axle.
    ///
    /// Source: statics. A published lever check of it stands in the tests.
    pub fn station_from_tongue_weight(
        &self,
        weight: Weight,
        tongue_weight: Weight,
        stations: &PerAxle<Length>,
    ) -> Option<Length> {
        let stance = self.by_tongue(weight, tongue_weight)?;
        // xc = Σ S_i x_i / W
        let forces = stance.spring_forces.iter().zip(stations);
        let moment: f64 = forces.map(|(force, station)| force.si() * station.si()).sum();
        Some(Length::from_si(moment / weight.si()))
    }

    /// The springs' forces at the one compression at which their sum, so weighted, is this.
    fn shared(&self, weights: &[f64], target: f64) -> Option<Shared> {
        let travel = self.equalizer_travel.si();
        let d = common_compression(&self.springs, travel, weights, target)?;
        let compressions: PerAxle<f64> = self.springs.iter().map(|_| d).collect();
        let ones: PerAxle<f64> = self.springs.iter().map(|_| 1.0).collect();
        Some(share(&self.springs, &compressions, &ones, travel))
    }
}

/// The trailer at rest with its frame level on these forces. Where its hubs are does not follow from them.
fn level(weight: Weight, shared: &Shared) -> Stance {
    let forces: PerAxle<Weight> = shared.force.iter().map(|force| Weight::from_si(*force)).collect();
    Stance {
        pitch: Angle::from_si(0.0),
        tongue_weight: weight - forces.iter().copied().sum(),
        pull: Weight::from_si(0.0),
        ground_forces: forces.iter().map(|up| GroundForce { aft: Weight::from_si(0.0), up: *up }).collect(),
        axle_loads: forces.clone(),
        hang: forces.iter().map(|_| Length::from_si(0.0)).collect(),
        spring_forces: forces,
        equalizers: shared.equalizer.iter().map(|q| Length::from_si(*q)).collect(),
        hubs: PerAxle::new(),
        doing: PerAxle::new(),
    }
}
