//! Weight and centre of gravity.
//!
//! | symbol | meaning |
//! |---|---|
//! | `W` | weight of a body |
//! | `xc`, `zc`, `yc` | its centre of gravity in the trailer frame |
//! | `V` | tongue weight |
//! | `x̄` | mean axle station |

use crate::mechanics::FramePoint;
use crate::quantity::{Length, Quantity, Weight};

/// A weight and where its centre of gravity lies.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Body {
    /// Its weight.
    pub weight: Weight,
    /// Its centre of gravity in the trailer frame.
    pub at: FramePoint,
}

/// All the bodies as one; a body of no weight at the origin when they weigh nothing together.
pub fn together(bodies: impl IntoIterator<Item = Body>) -> Body {
    let (mut w, mut wx, mut wz, mut wy) = (0.0, 0.0, 0.0, 0.0);
    for body in bodies {
        let weight = body.weight.si();
        w += weight;
        wx += weight * body.at.x.si();
        wz += weight * body.at.z.si();
        wy += weight * body.at.y.si();
    }
    if w == 0.0 {
        return Body::default();
    }
    // xc = Σ W x / Σ W, and so for z and y
    let at =
        FramePoint { x: Length::from_si(wx / w), z: Length::from_si(wz / w), y: Length::from_si(wy / w) };
    Body { weight: Weight::from_si(w), at }
}

/// What is left of a body after a part of it is taken away; none when nothing is left.
pub fn remainder(whole: Body, part: Body) -> Option<Body> {
    let taken = Body { weight: -part.weight, ..part };
    (whole.weight > part.weight).then(|| together([whole, taken]))
}

/// The load on a jack that stands `jack` aft of the ball and takes the coupler's weight.
///
/// Lever about the mean axle station `x̄`: `V x̄ / (x̄ − x_jack)`. None when the jack does not stand
/// ahead of the axles.
pub fn jack_load(tongue_weight: Weight, mean_axle_station: Length, jack: Length) -> Option<Weight> {
    let arm = mean_axle_station - jack;
    (arm.si() > 0.0).then(|| tongue_weight * (mean_axle_station / arm))
}
