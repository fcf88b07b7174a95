//! The winch that draws the boat home: the pull it must give, the strap on its drum, its post, and what turns it.
//!
//! | symbol | meaning |
//! |---|---|
//! | `W` | weight that is dragged |
//! | `θ` | slope of the bunks |
//! | `μ`, `β`, `μ'` | friction, deadrise, and the friction that a vee wedged between two bunks makes of it |
//! | `γ` | angle of the line above the bunks' slope, the drum above the eye |
//! | `T` | pull needed |
//! | `P` | rated pull on the first layer |
//! | `r0`, `τ` | radius of the bare drum, thickness of the strap |
//! | `s`, `r` | strap that is wound up, and the radius of its outside |
//! | `M`, `h`, `x` | moment at the foot of the post; the drum above and aft of it |
//! | `f`, `ℓ`, `n`, `η` | force on the handle, its radius, turns of it to one of the drum, efficiency |
//! | `q`, `I`, `v`, `L`, `Q` | share of the rated torque, current, speed of the line, length of the strap, charge |
//!
//! A strap lies turn upon turn, so what is wound is a spiral: exact at whole turns, and on the safe side within one.

use crate::quantity::{Angle, Charge, Current, Length, Moment, Quantity, Share, Slope, Speed, Weight};
use std::f64::consts::PI;

/// The friction that holds a vee bottom between two bunks, for each unit of its weight.
pub fn wedged(friction: Share, deadrise: Angle) -> Share {
    // μ' = μ / cos β
    Share::from_si(friction.si() / deadrise.si().cos())
}

/// The pull that drags a weight up bunks at a slope, or `None` where no pull does, as a line that leads down only presses it on.
///
/// `friction` is [`wedged`]; `line` is the line's angle above the bunks. What slides by itself needs none.
pub fn pull_needed(weight: Weight, slope: Slope, friction: Share, line: Angle) -> Option<Weight> {
    let (w, theta, mu) = (weight.si(), slope.si().atan(), friction.si());
    // W (sin θ + μ' cos θ)
    let resists = (w * (theta.sin() + mu * theta.cos())).max(0.0);
    // T = W (sin θ + μ' cos θ) / (cos γ + μ' sin γ)
    let pull = resists / leads(friction, line)?;
    pull.is_finite().then(|| Weight::from_si(pull))
}

/// The share of a line's pull that moves the boat, friction by its lift counted, or `None` where none does.
pub fn leads(friction: Share, line: Angle) -> Option<f64> {
    // cos γ + μ' sin γ
    let leads = line.si().cos() + friction.si() * line.si().sin();
    (leads > 0.0).then_some(leads)
}

/// A drum and the strap that is wound on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drum {
    /// Diameter of the bare drum.
    pub core: Length,
    /// Thickness of the strap.
    pub thickness: Length,
}

impl Drum {
    /// Diameter of the drum with so much strap wound on it.
    pub fn diameter(self, wound: Length) -> Length {
        Length::from_si(2.0 * self.radius(wound.si()))
    }

    /// How far from the axis a strap pulls with so much of it wound: at the middle of its layer.
    pub fn lever(self, wound: Length) -> Length {
        // r + τ/2
        Length::from_si(self.radius(wound.si()) + self.thickness.si() / 2.0)
    }

    /// The share of the first layer's pull that is left with so much strap wound.
    pub fn share(self, wound: Length) -> Share {
        // (r0 + τ/2) / (r + τ/2)
        self.lever(Length::default()) / self.lever(wound)
    }

    /// The most strap that can be wound while a winch of this rating still pulls so much; `None` where it does not even on
    /// the bare drum, or where nothing has to be pulled.
    pub fn longest(self, rating: Weight, pull: Weight) -> Option<Length> {
        let (r0, half) = (self.core.si() / 2.0, self.thickness.si() / 2.0);
        // r = (r0 + τ/2) P / T − τ/2
        let r = (r0 + half) * (rating.si() / pull.si()) - half;
        (r >= r0 && r.is_finite()).then(|| self.to_radius(r))
    }

    /// The most strap that lies within a flange of this diameter.
    pub fn within(self, flange: Length) -> Length {
        self.to_radius(flange.si() / 2.0)
    }

    fn radius(self, wound: f64) -> f64 {
        let r0 = self.core.si() / 2.0;
        // r = √(r0² + τ s / π)
        (r0 * r0 + self.thickness.si() * wound / PI).sqrt()
    }

    fn to_radius(self, r: f64) -> Length {
        let r0 = self.core.si() / 2.0;
        // s = π (r² − r0²) / τ
        Length::from_si(PI * (r * r - r0 * r0) / self.thickness.si())
    }
}

/// The moment at the foot of a post under a pull: `above` and `aft` are the drum's place from the foot.
pub fn post_moment(pull: Weight, line: Angle, above: Length, aft: Length) -> Moment {
    let (t, gamma) = (pull.si(), line.si());
    // M = T cos γ h + T sin γ x
    Moment::from_si((t * gamma.cos() * above.si() + t * gamma.sin() * aft.si()).abs())
}

/// What turns a drum by hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Handle {
    /// From its axis to the grip.
    pub radius: Length,
    /// Turns of it to one of the drum.
    pub gear: f64,
    /// What the gear leaves of the work.
    pub efficiency: Share,
}

impl Handle {
    /// The force on the grip for a pull at this distance from the drum's axis.
    pub fn force(self, pull: Weight, lever: Length) -> Weight {
        // f = T (r + τ/2) / (ℓ n η)
        pull * lever / (self.radius * self.gear * self.efficiency)
    }
}

/// What turns a drum by a motor: its label without load and at the rated pull, on the first layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motor {
    /// Current without load.
    pub no_load_current: Current,
    /// Current at the rated pull.
    pub rated_current: Current,
    /// Speed of the line without load.
    pub no_load_speed: Speed,
    /// Speed of the line at the rated pull.
    pub rated_speed: Speed,
}

/// How a motor runs under a load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Running {
    /// The share of its rated torque.
    pub torque: Share,
    /// What it draws.
    pub current: Current,
    /// The speed of the line.
    pub speed: Speed,
    /// How long it takes for the whole strap, in seconds.
    pub seconds: f64,
    /// What it takes out of the battery for the whole strap.
    pub charge: Charge,
}

impl Motor {
    /// How it winds up a strap against a pull, by its state with half of the strap wound; `None` where it stalls.
    pub fn winds(self, rating: Weight, drum: Drum, strap: Length, pull: Weight) -> Option<Running> {
        let share = drum.share(strap / 2.0).si();
        // q = T (r + τ/2) / (P (r0 + τ/2))
        let q = pull.si() / (rating.si() * share);
        let between = |without: f64, rated: f64| without + q * (rated - without);
        // I, and v on the first layer, straight from no load to the rated one; v grows with the layer.
        let current = between(self.no_load_current.si(), self.rated_current.si());
        let speed = between(self.no_load_speed.si(), self.rated_speed.si()) / share;
        // Q = I L / v
        let seconds = strap.si() / speed;
        let charge = current * seconds;
        (speed > 0.0 && charge.is_finite()).then(|| Running {
            torque: Share::from_si(q),
            current: Current::from_si(current),
            speed: Speed::from_si(speed),
            seconds,
            charge: Charge::from_si(charge),
        })
    }
}
