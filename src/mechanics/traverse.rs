//! Traverse: the whole rig backed over a ramp, settled at every step and at every event.
//!
//! | symbol | meaning |
//! |---|---|
//! | `b` | tow vehicle's wheelbase |
//! | `o` | ball behind its rear axle, along the line of its contact points |
//! | `h` | ball above that line, normal to it |
//! | `V`, `V0` | tongue weight, and on the level |
//! | `c` | hitch rate: the ball sinks by `(V − V0) / c` |
//!
//! The tow vehicle is a rigid line on its two contact points. Where its rear axle stands sets the other
//! contact, the ball, and so the trailer.
//!
//! Between events (a wheel meets or leaves a break, lifts or lands, a suspension bottoms, an equalizer comes
//! to a stop) every load is a smooth function of the position. The steps are fine enough for smooth peaks;
//! events are found by halving and visited on both sides, so that no corner is stepped over.

use super::settle::{Doing, Stance, Undercarriage, Unsettled, settle};
use super::terrain::{Footing, GroundPoint, Terrain};
use super::{Body, FramePoint, PerAxle};
use crate::quantity::{Angle, Length, Quantity, Rate, Weight};

/// An event is found this closely, in metres.
const EVENT_WITHIN: f64 = 1e-7;
/// More events than this within one step are no longer told apart.
const MOST_EVENTS: usize = 16;
/// The ball has come to rest on its hitch when its height is within this, in metres.
const HITCH_WITHIN: f64 = 1e-9;

/// The tow vehicle's shape in its own plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TowShape {
    /// Between its axles.
    pub wheelbase: Length,
    /// From its rear axle back to the ball.
    pub overhang: Length,
    /// The ball above the line of its contact points.
    pub ball_height: Length,
}

/// How the hitch gives under the tongue.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HitchSpring {
    /// Tongue weight for each unit that the ball sinks.
    pub rate: Rate,
    /// The tongue weight at which the ball is at its height, on the level.
    pub level_tongue_weight: Weight,
}

/// A rig on its way over a ramp.
#[derive(Debug, Clone, Copy)]
pub struct Convoy<'a> {
    /// The tow vehicle.
    pub tow: TowShape,
    /// How its hitch gives; none for a stiff one.
    pub hitch: Option<HitchSpring>,
    /// All that ball and trailer wheels carry.
    pub body: Body,
    /// The trailer's axles.
    pub wheels: &'a Undercarriage,
}

/// One contact of the tow vehicle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// Where it stands.
    pub at: GroundPoint,
    /// The slope of the ground there, positive up going aft.
    pub slope: Angle,
}

/// The rig at one position.
#[derive(Debug, Clone, PartialEq)]
pub struct Instant {
    /// The trailer's rearmost hub past the first break.
    pub position: Length,
    /// The tow vehicle's front contact.
    pub front: Contact,
    /// The tow vehicle's rear contact.
    pub rear: Contact,
    /// The ball.
    pub ball: GroundPoint,
    /// The trailer.
    pub stance: Stance,
    doing: PerAxle<Doing>,
    breaks: (u16, u16),
}

/// A position at which the trailer does not rest on its wheels.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{why}")]
pub struct Stranded {
    /// The trailer's last known position.
    pub position: Length,
    /// What happens.
    pub why: Unsettled,
}

impl Instant {
    /// Where a point of the trailer frame lies, in ground axes.
    pub fn trailer_point(&self, point: FramePoint) -> GroundPoint {
        let (sin, cos) = self.stance.pitch.si().sin_cos();
        let (x, z) = (point.x.si(), point.z.si());
        GroundPoint {
            x: self.ball.x + Length::from_si(x * cos + z * sin),
            z: self.ball.z + Length::from_si(z * cos - x * sin),
        }
    }

    /// Where a point of the tow vehicle lies, in ground axes: `aft` of its rear axle and `up` from its contact line.
    pub fn tow_point(&self, aft: Length, up: Length) -> GroundPoint {
        let (tx, tz) = self.tow_axis();
        let (aft, up) = (aft.si(), up.si());
        GroundPoint {
            x: self.rear.at.x + Length::from_si(aft * tx - up * tz),
            z: self.rear.at.z + Length::from_si(aft * tz + up * tx),
        }
    }

    /// How far a point lies aft of the tow vehicle's rear axle, along its contact line.
    pub fn aft_of_rear_axle(&self, point: GroundPoint) -> Length {
        let (tx, tz) = self.tow_axis();
        (point.x - self.rear.at.x) * tx + (point.z - self.rear.at.z) * tz
    }

    /// The unit vector aft along the tow vehicle's contact line.
    fn tow_axis(&self) -> (f64, f64) {
        let (dx, dz) = (self.rear.at.x - self.front.at.x, self.rear.at.z - self.front.at.z);
        let length = dx.si().hypot(dz.si());
        (dx.si() / length, dz.si() / length)
    }

    fn alike(&self, other: &Self) -> bool {
        self.doing == other.doing && self.breaks == other.breaks
    }
}

impl Convoy<'_> {
    /// The rig with its tow vehicle's rear axle at a place, `near` a pitch of the trailer.
    ///
    /// # Errors
    /// [`Unsettled`] when the trailer does not rest on its wheels there.
    pub fn at(&self, terrain: &Terrain, rear_axle: Length, near: Angle) -> Result<Instant, Unsettled> {
        let rear = terrain.at(rear_axle.si());
        let front = terrain.ahead(rear, self.tow.wheelbase.si());
        let b = (rear.x - front.x).hypot(rear.z - front.z);
        let (tx, tz) = ((rear.x - front.x) / b, (rear.z - front.z) / b);
        let (o, h) = (self.tow.overhang.si(), self.tow.ball_height.si());
        // Aft along the line, up normal to it.
        let ball = |h: f64| GroundPoint {
            x: Length::from_si(rear.x + o * tx - h * tz),
            z: Length::from_si(rear.z + o * tz + h * tx),
        };
        let settled = |h: f64, near| settle(self.body, self.wheels, ball(h), terrain, near);
        let (h, stance) = self.on_the_hitch(h, settled(h, near)?, settled)?;
        let last = stance.hubs.len() - 1;
        let doing = stance.doing.clone();
        Ok(Instant {
            position: stance.hubs[last].x,
            front: contact(front),
            rear: contact(rear),
            ball: ball(h),
            stance,
            doing,
            breaks: (front.breaks_before, rear.breaks_before),
        })
    }

    /// Lets the ball sink on the hitch until the tongue weight fits: `h = h0 − (V − V0) / c`.
    fn on_the_hitch(
        &self,
        free: f64,
        stiff: Stance,
        settled: impl Fn(f64, Angle) -> Result<Stance, Unsettled>,
    ) -> Result<(f64, Stance), Unsettled> {
        let Some(hitch) = self.hitch else { return Ok((free, stiff)) };
        let (c, v0) = (hitch.rate.si(), hitch.level_tongue_weight.si());
        // A higher ball makes a heavier tongue, so the miss h − h0 + (V − V0)/c rises with h: secant steps.
        let miss = |h: f64, stance: &Stance| h - free + (stance.tongue_weight.si() - v0) / c;
        let (mut h0, mut m0, mut stance) = (free, miss(free, &stiff), stiff);
        let mut h1 = free - m0 / 2.0;
        for _ in 0..60 {
            if m0.abs() <= HITCH_WITHIN {
                break;
            }
            stance = settled(h1, stance.pitch)?;
            let m1 = miss(h1, &stance);
            let secant = if m1 == m0 { h1 } else { h1 - m1 * (h1 - h0) / (m1 - m0) };
            (h0, m0, h1) = (h1, m1, secant);
        }
        Ok((h0, stance))
    }
}

fn contact(footing: Footing) -> Contact {
    Contact {
        at: GroundPoint { x: Length::from_si(footing.x), z: Length::from_si(footing.z) },
        slope: Angle::from_si(footing.sin.atan2(footing.cos)),
    }
}

/// Backs a rig from the level before the ramp until its rearmost hub is `end` past the first break.
///
/// `visit` is called at every step of the tow vehicle's rear axle and on both sides of every event, in order.
///
/// # Errors
/// [`Stranded`] where the trailer does not rest on its wheels.
pub fn traverse(
    convoy: &Convoy<'_>,
    terrain: &Terrain,
    end: Length,
    step: Length,
    mut visit: impl FnMut(&Instant),
) -> Result<(), Stranded> {
    let mut position = Length::from_si(0.0);
    let at = |rear: f64, near: Angle, position: Length| {
        convoy.at(terrain, Length::from_si(rear), near).map_err(|why| Stranded { position, why })
    };
    let Some(last) = convoy.wheels.axles.last() else { return Ok(()) };
    // Everything is still on the level when the rearmost wheel has a little to go.
    let reach = (convoy.tow.overhang + last.station + last.wheel_radius).si();
    let mut rear = -reach - step.si();
    let mut before = at(rear, Angle::from_si(0.0), position)?;
    visit(&before);
    while before.position < end {
        rear += step.si();
        let after = at(rear, before.stance.pitch, position)?;
        let mut from = rear - step.si();
        for _ in 0..MOST_EVENTS {
            if before.alike(&after) {
                break;
            }
            // The first place after `before` that is no longer like it.
            let (mut low, mut high) = (from, rear);
            let (mut just_before, mut just_after) = (None, None);
            while high - low > EVENT_WITHIN {
                let middle = f64::midpoint(low, high);
                let there = at(middle, before.stance.pitch, position)?;
                if before.alike(&there) {
                    (low, just_before) = (middle, Some(there));
                } else {
                    (high, just_after) = (middle, Some(there));
                }
            }
            if let Some(there) = just_before {
                visit(&there);
            }
            let Some(there) = just_after else { break };
            visit(&there);
            (before, from) = (there, high);
        }
        visit(&after);
        position = after.position;
        before = after;
    }
    Ok(())
}
