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
//! to a stop) every load is a smooth function of the position. Whatever the step:
//! events are found by halving and visited on both sides, so that no corner is stepped over, and where a load
//! turns between steps the top of its parabola is visited too.

use super::settle::{Doing, Stance, Undercarriage, Unsettled, settle};
use super::terrain::{Footing, GroundPoint, Terrain};
use super::{Body, FramePoint, MAX_AXLES, PerAxle};
use crate::numeric::root::Bracket;
use crate::quantity::{Angle, Length, Quantity, Rate, Weight};

/// An event is found this closely, in metres.
const EVENT_WITHIN: f64 = 1e-7;
/// More events than this within one step are no longer told apart.
const MOST_EVENTS: usize = 16;
/// A turn of a load by less than this share of the weight is not worth looking for.
const TURN_WORTH: f64 = 1e-7;
/// The ball has come to rest on its hitch when its height is within this, in metres.
const HITCH_WITHIN: f64 = 1e-9;
/// A bracket of the ball's height this narrow, in metres, holds a step of the tongue weight.
const HITCH_STEP_WITHIN: f64 = 1e-13;
/// Far more steps than halving any sinking of the ball to its tolerance takes.
const MOST_HITCH_STEPS: usize = 200;

/// Where loads turn: one place for each axle, and one for the tongue.
type Turns = arrayvec::ArrayVec<f64, { MAX_AXLES + 1 }>;

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

    /// The load of an axle, or after the last of them the tongue weight, in SI.
    fn load(&self, place: usize) -> f64 {
        self.stance.axle_loads.get(place).map_or(self.stance.tongue_weight, |load| *load).si()
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
        // With a higher ball the tongue grows heavier, or lighter by far less than any hitch gives: the miss
        // h − h0 + (V − V0)/c rises with h. Secant steps, and halving where they leave the bracket or stall.
        let miss = |h: f64, stance: &Stance| h - free + (stance.tongue_weight.si() - v0) / c;
        let (mut h, mut m, mut stance) = (free, miss(free, &stiff), stiff);
        let mut bracket = Bracket::new(f64::NEG_INFINITY, f64::INFINITY);
        let mut guess = h - m / 2.0;
        for _ in 0..MOST_HITCH_STEPS {
            bracket.look(h, m);
            if m.abs() <= HITCH_WITHIN || bracket.width() <= HITCH_STEP_WITHIN {
                return Ok((h, stance));
            }
            // The miss rises by about the height or more: a little more than the miss away lies the other side.
            let next = bracket.next(Some(guess)).unwrap_or(h - 1.5 * m);
            stance = settled(next, stance.pitch)?;
            let left = miss(next, &stance);
            guess = next - left * (next - h) / (left - m);
            (h, m) = (next, left);
        }
        Err(Unsettled::OutOfRange)
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
/// `visit` is called in order at every step of the tow vehicle's rear axle, on both sides of every event, and
/// where an axle load or the tongue weight turns between two steps.
///
/// # Errors
/// [`Stranded`] where the trailer does not rest on its wheels.
pub fn traverse(
    convoy: &Convoy<'_>,
    terrain: &Terrain,
    end: Length,
    step: Length,
    visit: impl FnMut(&Instant),
) -> Result<(), Stranded> {
    let mut position = Length::from_si(0.0);
    let at = |rear: f64, near: &Instant, position: Length| {
        let there = convoy.at(terrain, Length::from_si(rear), near.stance.pitch);
        there.map_err(|why| Stranded { position, why })
    };
    let Some(last) = convoy.wheels.axles.last() else { return Ok(()) };
    // Everything is still on the level when the rearmost wheel has a little to go.
    let reach = (convoy.tow.overhang + last.station + last.wheel_radius).si();
    let mut rear = terrain.first_bend().min(0.0) - reach - step.si();
    let first = convoy.at(terrain, Length::from_si(rear), Angle::from_si(0.0));
    let mut before = first.map_err(|why| Stranded { position, why })?;
    let mut told = Told { convoy, terrain, visit, older: None, newest: None };
    told.tell(before.clone())?;
    while before.position < end {
        let mut from = rear;
        rear += step.si();
        let mut after = at(rear, &before, position)?;
        if after.position > end {
            // The last step ends where the ramp does.
            let mut short = from;
            while rear - short > EVENT_WITHIN {
                let middle = f64::midpoint(short, rear);
                let there = at(middle, &before, position)?;
                if there.position < end {
                    short = middle;
                } else {
                    (rear, after) = (middle, there);
                }
            }
        }
        for _ in 0..MOST_EVENTS {
            if before.alike(&after) {
                break;
            }
            // The first place after `before` that is no longer like it.
            let (mut low, mut high) = (from, rear);
            let (mut just_before, mut just_after) = (None, None);
            while high - low > EVENT_WITHIN {
                let middle = f64::midpoint(low, high);
                let there = at(middle, &before, position)?;
                if before.alike(&there) {
                    (low, just_before) = (middle, Some(there));
                } else {
                    (high, just_after) = (middle, Some(there));
                }
            }
            if let Some(there) = just_before {
                told.tell(there)?;
            }
            let Some(there) = just_after else { break };
            told.tell(there.clone())?;
            (before, from) = (there, high);
        }
        told.tell(after.clone())?;
        position = after.position;
        before = after;
    }
    told.finish();
    Ok(())
}

/// Tells positions in order, with the turns of every load between them.
struct Told<'a, V> {
    convoy: &'a Convoy<'a>,
    terrain: &'a Terrain,
    visit: V,
    /// The last position that was visited.
    older: Option<Instant>,
    /// The one after it, not yet visited: a load may turn before it.
    newest: Option<Instant>,
}

impl<V: FnMut(&Instant)> Told<'_, V> {
    fn tell(&mut self, next: Instant) -> Result<(), Stranded> {
        if let Some(here) = self.newest.replace(next) {
            let turns = self.turns(&here);
            let (before, after): (Turns, Turns) =
                turns.into_iter().partition(|turn| *turn < here.rear.at.x.si());
            self.visit_turns(&before, &here)?;
            (self.visit)(&here);
            self.visit_turns(&after, &here)?;
            self.older = Some(here);
        }
        Ok(())
    }

    /// Where a load turns near a position, by the parabola through it and its neighbours.
    fn turns(&self, here: &Instant) -> Turns {
        let (Some(older), Some(next)) = (&self.older, &self.newest) else { return Turns::new() };
        if !(older.alike(here) && here.alike(next)) {
            return Turns::new();
        }
        let [s0, s1, s2] = [older, here, next].map(|instant| instant.rear.at.x.si());
        let worth = TURN_WORTH * self.convoy.body.weight.si();
        let mut turns: Turns = (0..=here.stance.axle_loads.len())
            .filter_map(|i| {
                let [v0, v1, v2] = [older, here, next].map(|instant| instant.load(i));
                let (rises, falls) = (v1 - v0, v1 - v2);
                if rises * falls <= 0.0 || rises.abs().max(falls.abs()) < worth {
                    return None;
                }
                // Newton's divided differences: the parabola is flat at (s0 + s1)/2 − f01 / 2 f012.
                let (f01, f12) = (rises / (s1 - s0), -falls / (s2 - s1));
                let f012 = (f12 - f01) / (s2 - s0);
                let turn = f64::midpoint(s0, s1) - f01 / (2.0 * f012);
                (turn > s0 && turn < s2).then_some(turn)
            })
            .collect();
        turns.sort_by(f64::total_cmp);
        turns
    }

    fn visit_turns(&mut self, turns: &Turns, near: &Instant) -> Result<(), Stranded> {
        for turn in turns {
            let there = self.convoy.at(self.terrain, Length::from_si(*turn), near.stance.pitch);
            let there = there.map_err(|why| Stranded { position: near.position, why })?;
            (self.visit)(&there);
        }
        Ok(())
    }

    fn finish(mut self) {
        if let Some(last) = self.newest.take() {
            (self.visit)(&last);
        }
    }
}
