//! The frame as it bends: the tongue, and both rails as one beam between ball, springs and crossmembers.
//!
//! | symbol | meaning |
//! |---|---|
//! | `V`, `V'` | tongue weight, and what bars that distribute weight leave of it on the ball |
//! | `M_w`, `x̄` | moment of these bars; the trailer's axles behind the ball |
//! | `T`, `x_b`, `B` | pull of the bars' chains, where they hang, and what the coupler presses up with |
//! | `x_t` | from the ball to where the tongue is held, of two clamps to the forward one |
//! | `c` | between the two clamps |
//! | `x_k`, `P_k`, `C_k` | a place along the rails, the force there, up and at right angles to them, and the couple there |
//! | `w` | what the frame itself weighs, a length |
//! | `φ`, `a` | pitch, positive nose up; deceleration over `g` |
//! | `S_i`, `N_i`, `B_i` | force of an axle's springs, what the ground presses its wheels up with, and what its brakes hold at the ground |
//! | `x_i`, `X_i`, `Z_b` | station of an axle, its hub behind the ball along the ground, the ball above it |
//! | `s`, `h_e`, `ΔF_i` | length of a spring, height at which it is held against its brake, what the brake adds at its rear end |
//! | `M` | bending moment, positive where the rails sag |
//! | `S` | section modulus |
//!
//! # A trailer that slows down
//!
//! All forces are taken to the line of the rails, where what acts along it bends nothing. A weight `W` at a height `z` presses down
//! with `W (cos φ + a sin φ)` and turns the rails by `W z (sin φ − a cos φ)`: its inertia enters where the weight does. What the
//! ground does to a wheel, `N_i` up and `B_i` aft, is about the axle's station a couple `N_i (x_i cos φ − X_i) + B_i (x_i sin φ −
//! Z_b)`. The ends of a braked leaf spring take `B_i h_e` of it by `± ΔF_i = B_i h_e / s`; the rest, the thrust below the rails,
//! enters at the axle, since which end is located is not asked. The push goes through the ball.
//!
//! Stations run aft of the ball. Valid for members of one section all along, without the loads of a road: those
//! stand in a factor on the stress that is allowed.
//!
//! Source: statics.

use super::tow::Bars;
use crate::quantity::{Angle, Length, Moment, Pressure, Quantity, Share, Volume, Weight};

/// The tongue's bending moment where it is held, with bars that distribute weight or without.
///
/// The tongue from the ball to there as a free body: the bars' chains pull it down with `T` at `x_b`, `M_w = T x_b`, and the coupler
/// presses up with `B`. The hitch head carries both, so `B − T` is what is left on the ball, `V' = V − M_w/x̄`. Moments about the
/// place where it is held, aft of the chains: `B x_t − T (x_t − x_b) = V' x_t + M_w`. Held ahead of the chains it bears less.
pub fn tongue_moment(tongue_weight: Weight, held_from: Length, bars: Option<Bars>) -> Moment {
    let added = bars.map_or(0.0, |bars| bars.moment.si());
    // V' x_t + M_w, which is V x_t + M_w (1 − x_t/x̄)
    Moment::from_si(on_ball(tongue_weight, bars).si() * held_from.si() + added)
}

/// What the forward clamp of a tongue holds down and the rear one holds up: `V' + M/c` and `M/c`, `M` the [`tongue_moment`] at the
/// forward one; without bars `V (x_t + c)/c` and `V x_t/c`.
pub fn clamp_forces(
    tongue_weight: Weight,
    held_from: Length,
    apart: Length,
    bars: Option<Bars>,
) -> [Weight; 2] {
    let moment = tongue_moment(tongue_weight, held_from, bars);
    let rear = Weight::from_si(moment.si() / apart.si());
    [on_ball(tongue_weight, bars) + rear, rear]
}

/// `V' = V − M_w/x̄`.
fn on_ball(tongue_weight: Weight, bars: Option<Bars>) -> Weight {
    bars.map_or(tongue_weight, |bars| tongue_weight - bars.moved)
}

/// Stress of the extreme fibre: `|M| / S`.
pub fn bending_stress(moment: Moment, modulus: Volume) -> Pressure {
    Pressure::from_si(moment.si().abs() / modulus.si())
}

/// A force on the rails at one station, and a couple.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Force {
    /// Where.
    pub station: Length,
    /// At right angles to the rails, positive up.
    pub up: Weight,
    /// What turns the rails there, positive where they sag more aft of it.
    pub couple: Moment,
}

/// A weight spread evenly along the rails.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// All of it.
    pub weight: Weight,
    /// Where it begins.
    pub from: Length,
    /// Where it ends, aft of that.
    pub to: Length,
}

/// How the frame goes along: pitched, and slowing down or not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motion {
    /// Its pitch, positive nose up.
    pub pitch: Angle,
    /// Its deceleration over `g`; none at rest.
    pub deceleration: Share,
}

impl Motion {
    /// What a weight presses down with at right angles to the rails: `W (cos φ + a sin φ)`.
    pub fn presses(self, weight: Weight) -> Weight {
        let (sin, cos) = self.pitch.si().sin_cos();
        weight * (cos + self.deceleration.si() * sin)
    }

    /// What a weight turns the rails by, at a height above them: `W z (sin φ − a cos φ)`.
    pub fn turns(self, weight: Weight, height: Length) -> Moment {
        let (sin, cos) = self.pitch.si().sin_cos();
        Moment::from_si(weight.si() * height.si() * (sin - self.deceleration.si() * cos))
    }
}

/// How axles hang on the rails.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Hung {
    /// Torsion axles, each by its tube.
    AtTubes,
    /// Leaf springs, half of an axle's force at each end.
    OnLeaves {
        /// Between a spring's ends.
        length: Length,
        /// Whether neighbours share an equalizer, pinned to the rails midway between their axles.
        equalized: bool,
    },
}

/// One axle under the rails.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxleForce {
    /// Where it is.
    pub station: Length,
    /// How far its hub is behind the ball along the ground: the station where the rails are level.
    pub hub: Length,
    /// Force of its springs, at right angles to the rails.
    pub spring: Weight,
    /// What its brakes hold at the ground, aft.
    pub brake: Weight,
    /// The height above ground at which its springs are held against that; none where they take no couple.
    pub held_at: Length,
}

/// What springs and equalizers press on rails with, the ball at this height above ground.
pub fn axles_on_rails(axles: &[AxleForce], hung: Hung, pitch: Angle, ball_height: Length) -> Vec<Force> {
    let (sin, cos) = pitch.si().sin_cos();
    let mut forces = Vec::new();
    let mut ends = Vec::new();
    for axle in axles {
        let (x, brake) = (axle.station.si(), axle.brake.si());
        // N (x cos φ − X) + B (x sin φ − Z_b), N = S / cos φ
        let ground =
            axle.spring.si() / cos * (x * cos - axle.hub.si()) + brake * (x * sin - ball_height.si());
        let up = axle.spring + axle.brake * sin;
        let by_ends = match hung {
            Hung::AtTubes => {
                forces.push(Force { station: axle.station, up, couple: Moment::default() });
                0.0
            }
            Hung::OnLeaves { length, .. } => {
                let by_ends = brake * axle.held_at.si();
                // ΔF = B h_e / s
                let more = Weight::from_si(by_ends / length.si());
                ends.push([
                    (axle.station - length / 2.0, up / 2.0 - more),
                    (axle.station + length / 2.0, up / 2.0 + more),
                ]);
                by_ends
            }
        };
        let couple = Moment::from_si(ground + by_ends);
        forces.push(Force { station: axle.station, up: Weight::default(), couple });
    }
    let equalized = matches!(hung, Hung::OnLeaves { equalized: true, .. });
    let mut held: Option<(Length, Weight)> = None;
    for [front, rear] in ends {
        // The end before shares an equalizer with this one, or is held by itself.
        match held.take().filter(|_| equalized) {
            Some(before) => forces.push(pin(before, front)),
            None => forces.push(end(front)),
        }
        if equalized { held = Some(rear) } else { forces.push(end(rear)) }
    }
    forces.extend(held.map(end));
    forces
}

fn end((station, up): (Length, Weight)) -> Force {
    Force { station, up, couple: Moment::default() }
}

/// An equalizer's pin, midway between the ends that it joins: what these differ by turns the rails by that and half their distance.
fn pin((front, before): (Length, Weight), (rear, behind): (Length, Weight)) -> Force {
    let couple = (before - behind).si() * (rear - front).si() / 2.0;
    Force { station: (front + rear) / 2.0, up: before + behind, couple: Moment::from_si(couple) }
}

/// Rails under their loads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rails {
    /// The bending moment of greatest size; positive where they sag.
    pub moment: Moment,
    /// Where it is.
    pub station: Length,
    /// The moment left at the tail, none where the loads balance.
    pub left: Moment,
    /// The force left there, none where the loads balance.
    pub unbalanced: Weight,
}

/// What happens at one station.
#[derive(Clone, Copy)]
enum Event {
    Force {
        up: f64,
        couple: f64,
    },
    /// The spread load begins, or ends where it is negative.
    Load(f64),
}

/// The greatest bending moment of both rails together, from the first force to the last.
///
/// `M(x) = Σ P_k ⟨x − x_k⟩ + Σ C_k ⟨x − x_k⟩⁰ − w ⟨x − from⟩²/2 + w ⟨x − to⟩²/2`. Between two stations it is greatest at one of
/// them, or where the shear vanishes.
pub fn bend_rails(forces: &[Force], frame: Spread) -> Rails {
    let w = frame.weight.si() / (frame.to - frame.from).si();
    let on_rails = forces
        .iter()
        .map(|force| (force.station.si(), Event::Force { up: force.up.si(), couple: force.couple.si() }));
    let spread = [(frame.from.si(), Event::Load(w)), (frame.to.si(), Event::Load(-w))];
    let mut events: Vec<(f64, Event)> = on_rails.chain(spread).collect();
    events.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    let mut walk = Walk { x: events[0].0, shear: 0.0, moment: 0.0, load: 0.0, greatest: (0.0, events[0].0) };
    for (station, event) in events {
        walk.to(station);
        match event {
            Event::Force { up, couple } => {
                walk.shear += up;
                walk.moment += couple;
            }
            Event::Load(more) => walk.load += more,
        }
        walk.note(walk.moment, station);
    }
    let (moment, station) = walk.greatest;
    Rails {
        moment: Moment::from_si(moment),
        station: Length::from_si(station),
        left: Moment::from_si(walk.moment),
        unbalanced: Weight::from_si(walk.shear),
    }
}

/// A cut on its way along the rails.
struct Walk {
    x: f64,
    shear: f64,
    moment: f64,
    load: f64,
    /// The moment of greatest size so far, and where it is.
    greatest: (f64, f64),
}

impl Walk {
    fn note(&mut self, moment: f64, station: f64) {
        if moment.abs() > self.greatest.0.abs() {
            self.greatest = (moment, station);
        }
    }

    /// Goes on to a station: `M + V h − w h²/2`.
    fn to(&mut self, station: f64) {
        let h = station - self.x;
        let turns = self.shear / self.load;
        if turns > 0.0 && turns < h {
            // V − w h = 0: M + V²/2w
            self.note(self.moment + self.shear * turns / 2.0, self.x + turns);
        }
        self.moment += self.shear * h - self.load * h * h / 2.0;
        self.shear -= self.load * h;
        self.x = station;
        self.note(self.moment, station);
    }
}
