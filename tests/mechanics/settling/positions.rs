//! Random trailers over random ground.

use crate::settling::statics::{Held, reactions_sharing};
use crate::settling::trailers::{Position, any_ground, any_trailer};
use proptest::prelude::*;
use proptest::sample::Index;

/// A rest chosen beforehand.
#[derive(Debug, Clone, Copy)]
pub struct Rest {
    pub pitch: f64,
    /// The share of the wheel in the sag on its rear foot.
    pub share: f64,
}

/// Wheels on and about every break, one in five positions with a wheel in a sag.
pub fn any_position() -> impl Strategy<Value = Position> {
    prop_oneof![
        4 => any_position_somewhere(),
        1 => any_position_in_a_sag().prop_map(|(position, _)| position),
    ]
}

/// The ball within a hand of its level height over the ground.
fn any_position_somewhere() -> impl Strategy<Value = Position> {
    (any_trailer(), any_ground(), -9.0..1.0, -0.15..0.15).prop_map(|(trailer, ground, x, raised)| {
        let z = ground.height(x) + trailer.ball_height + raised;
        Position { trailer, ground, ball: (x, z) }
    })
}

/// A wheel in a sag, leaning on both feet, with the rest that makes it so.
///
/// A wheel stays in a sag only while the ball moves some hundredths of a millimetre: random positions
/// never meet it. So the rest comes first, and the weight is moved to where it balances.
pub fn any_position_in_a_sag() -> impl Strategy<Value = (Position, Rest)> {
    let chosen = (any::<Index>(), any::<Index>(), 0.05..0.95, 0.02..0.1);
    (any_trailer(), any_ground(), chosen).prop_filter_map(
        "a sag that holds a wheel of a trailer in balance",
        |(mut trailer, ground, (sag, axle, share, compression)): (_, _, (Index, Index, f64, f64))| {
            let axle = axle.index(trailer.axles.len());
            let (station, radius) = (trailer.axles[axle].station, trailer.axles[axle].radius);
            let sags = ground.sags(radius);
            let hub = *sags.get(sag.index(sags.len().max(1)))?;
            let free_lengths = trailer.free_lengths();
            let distance = free_lengths[axle] - compression;
            // About the pitch at which the ball is at its level height over the ground.
            let ball_z = ground.height(hub.0 - station) + trailer.ball_height;
            let pitch = f64::asin((ball_z - hub.1 - distance) / station);
            let (sin, cos) = pitch.sin_cos();
            let ball = (hub.0 - station * cos + distance * sin, hub.1 + station * sin + distance * cos);
            let position = Position { trailer: trailer.clone(), ground, ball };
            let held = Held::at(&position, &free_lengths, pitch, vec![0.0; trailer.axles.len() - 1]);
            // Moving the weight aft by this takes up the moment that is left.
            let left =
                reactions_sharing(&trailer, &held.hubs, pitch, &held.forces(&trailer), share).moment_left;
            trailer.xc *= 1.0 + left / cos;
            let last = trailer.axles[trailer.axles.len() - 1].station;
            let rest = Rest { pitch, share };
            // Where the hub is as high as the ball the ball slides it out of the sag at once.
            let in_balance = (1.0..last).contains(&trailer.xc) && distance.abs() > 0.1;
            in_balance.then_some((Position { trailer, ..position }, rest))
        },
    )
}
