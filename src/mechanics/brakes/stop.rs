//! A rig that slows down: the push at the coupler, each axle's brake force and load, and what the tow vehicle has to do.
//!
//! | symbol | meaning |
//! |---|---|
//! | `a` | deceleration over `g`; down a slope `θ`, `a + sin θ` |
//! | `W`, `xc`, `zc` | the trailer's weight, and where its centre lies behind and above the ball |
//! | `F` | push at the coupler |
//! | `B_i`, `N_i`, `V` | brake force and load of axle `i`; tongue weight |
//! | `h_e`, `s` | height of the spring's located end above ground, or of a single radius rod; length of a spring between its ends |
//! | `ΔF_i` | what a braked axle's couple adds at the rear end of its spring and takes from the front end |
//! | `T_j` | thrust that enters at equalizer `j`: that of the axle behind it |
//! | `c_q`, `e_q` | how far the pin that takes it lies below the equalizer's pivot, and the equalizer's arm |
//! | `a_h`, `h_p` | a torsion arm's length on plan, and its pivot's height above ground |
//!
//! # Leaf springs with equalizers
//!
//! Axle and spring are one free body. `B_i` acts aft at the ground and is held forward at `h_e`: the couple turns the spring
//! as the wheel turns, so that its rear end presses harder by `ΔF_i = B_i h_e / s` and its front end less, whichever end is
//! located. An equalizer inside its travel has alike pushes at its ends: `S_{j+1} − S_j = 2 (ΔF_j + ΔF_{j+1} − T_j c_q/e_q)`:
//! the front axle loses and the rear one gains. At its stop the frame takes the rest. Derived; that braking moves load
//! between axles through the equalizer is SAE 852344 (1985), its abstract read.
//!
//! A pair of radius rods, one above the other, takes the couple: `ΔF = 0`.
//!
//! # Torsion axles
//!
//! Arm, hub and brake turn about the pivot as one body: `N_i a_h + B_i h_p` is the rubber's torque, so the axle carries less
//! by what presses its suspension further: `J_i = B_i h_p / a_h`. Derived.
//!
//! # What is found together
//!
//! The push makes the pressure, the pressure the brake forces, these the loads; a wheel brakes with no more than 0.7 of its
//! load, and what then is missing pushes more: `F + Σ min(B_i, 0.7 N_i) = W a`.

use super::SLIDES_AT;
use crate::mechanics::road::settle::{Pushed, Stance, settle_pushed};
use crate::mechanics::{Body, GroundPoint, PerAxle, Terrain, Undercarriage, Unsettled};
use crate::numeric::root::Bracket;
use crate::quantity::{Angle, Length, Quantity, Rate, Share, Weight};

/// What works the brakes.
#[derive(Debug, Clone, PartialEq)]
pub enum Actuation {
    /// The push at the coupler.
    Push {
        /// What the coupler's spring and friction hold back.
        preload: Weight,
        /// The push at which the pressure rises no more, where there is such a one.
        greatest: Option<Weight>,
        /// By axle: brake force for each newton of push beyond the preload, both wheels together.
        gains: PerAxle<f64>,
    },
    /// Current, whatever the push: the brake force of each axle, both wheels together.
    Current(PerAxle<Weight>),
}

impl Actuation {
    /// What each axle's brakes would make of a push on wheels that never slide.
    fn asked(&self, push: f64) -> PerAxle<f64> {
        match self {
            Self::Push { preload, greatest, gains } => {
                let most = greatest.map_or(f64::INFINITY, Quantity::si);
                let beyond = (push.min(most) - preload.si()).max(0.0);
                gains.iter().map(|gain| gain * beyond).collect()
            }
            Self::Current(forces) => forces.iter().copied().map(Quantity::si).collect(),
        }
    }

    /// The push at which it and the brakes together hold a force, the brakes of each axle never more than its limit:
    /// `F + Σ min(B_i(F), limit_i) = force`.
    fn push(&self, force: f64, limits: &[f64]) -> f64 {
        let held = |push: f64| {
            let asked = self.asked(push);
            push + asked.iter().zip(limits).map(|(asked, limit)| asked.min(*limit)).sum::<f64>()
        };
        // It rises at least as fast as the push: from what all brakes could hold to all of the force.
        let Self::Push { .. } = self else { return force - (held(0.0)) };
        let mut bracket = Bracket::new(0.0, force.max(0.0));
        let mut push = force.max(0.0);
        // Along straight pieces, which a secant through the last two places meets exactly.
        let (mut before, mut last): (Option<(f64, f64)>, f64) = (None, f64::INFINITY);
        for _ in 0..MOST_LOOKS {
            let miss = held(push) - force;
            if miss == 0.0 || bracket.width() <= f64::EPSILON * push.abs() || push == last {
                break;
            }
            bracket.look(push, miss);
            let secant = before.map(|(x, y)| push - miss * (push - x) / (miss - y));
            before = Some((push, miss));
            last = push;
            push = bracket.next(secant).unwrap_or(push);
        }
        push
    }
}

/// Far more looks than halving a push to its last digit takes.
const MOST_LOOKS: usize = 200;

/// How a braked axle's couple reaches the frame.
#[derive(Debug, Clone, PartialEq)]
pub enum Couple {
    /// Nowhere but by the frame: leaf springs each for itself, or a pair of radius rods on each side.
    IntoFrame,
    /// Through the ends of springs that equalizers join.
    Equalized {
        /// `s`.
        spring_length: Length,
        /// `h_e`.
        eye_height: Length,
        /// `c_q / e_q`, of either sign; zero where the frame holds every axle.
        pin_lever: f64,
    },
    /// Through trailing arms in rubber.
    Torsion {
        /// `a_h`.
        arm: Length,
        /// `h_p`.
        pivot_height: Length,
        /// `k_s` of one axle's suspension, front to rear.
        rates: PerAxle<Rate>,
    },
}

/// A trailer that slows down.
#[derive(Debug, Clone, PartialEq)]
pub struct Slowing {
    /// The push at the coupler; negative where the brakes hold more than is asked.
    pub push: Weight,
    /// What each axle's brakes do at the ground.
    pub brakes: PerAxle<Weight>,
    /// What they would do on wheels that never slide.
    pub asked: PerAxle<Weight>,
    /// How it stands on its wheels then, and what axles and ball carry.
    pub stance: Stance,
}

impl Slowing {
    /// All axles' brakes together.
    pub fn braked(&self) -> Weight {
        self.brakes.iter().copied().sum()
    }

    /// The grip that an axle's brakes ask for, as a share of what it carries; `None` where it carries nothing.
    pub fn grip(&self, axle: usize) -> Option<Share> {
        let (asked, load) = (self.asked[axle], self.stance.axle_loads[axle]);
        (load.si() > 0.0).then(|| asked / load)
    }
}

/// The axles' loads are found to this share of the trailer's weight.
const WITHIN: f64 = 1e-10;
/// Far more rounds than a trailer takes that comes to rest: each closes more than half of what is left.
const MOST_ROUNDS: usize = 400;
/// Secants are tried in so many rounds; where they do not meet by then, wheels begin or cease to slide on the way.
const MOST_SECANTS: usize = 16;

/// A trailer that is slowed by so much of `g`, on level ground, its ball held.
///
/// `slope` is that of a hill down which it goes: the weight acts normal to it, and its part along it is to be held as well.
///
/// # Errors
/// [`Unsettled`] where it does not come to rest on its wheels, or what its wheels hold keeps swinging.
pub fn slow(
    body: Body,
    wheels: &Undercarriage,
    ball: GroundPoint,
    deceleration: Share,
    slope: Angle,
    (actuation, couple): (&Actuation, &Couple),
) -> Result<Slowing, Unsettled> {
    let (sin, cos) = slope.si().sin_cos();
    // W a, with a + sin θ for a down a slope
    let force = body.weight.si() * (deceleration.si() + sin);
    let body = Body { weight: body.weight * cos, ..body };
    let mut limits: PerAxle<f64> = wheels.axles.iter().map(|_| f64::INFINITY).collect();
    let mut near = Angle::from_si(0.0);
    let mut last: Option<(PerAxle<f64>, PerAxle<f64>)> = None;
    for round in 0..MOST_ROUNDS {
        let push = actuation.push(force, &limits);
        let asked = actuation.asked(push);
        let brakes: PerAxle<f64> =
            asked.iter().zip(&limits).map(|(asked, limit)| asked.min(*limit)).collect();
        let braked: f64 = brakes.iter().sum();
        let pushed = Pushed { forward: Weight::from_si(force), aft_on_ground: Weight::from_si(braked) };
        let wheels = leaning(wheels, couple, &brakes);
        let stance = settle_pushed(body, &wheels, ball, &Terrain::level(), near, pushed)?;
        near = stance.pitch;
        let slides: PerAxle<f64> = stance.axle_loads.iter().map(|load| SLIDES_AT * load.si()).collect();
        let next = if limits.iter().all(|limit| limit.is_finite()) {
            let next = toward(&limits, &slides, last.as_ref().filter(|_| round < MOST_SECANTS));
            last = Some((limits.clone(), slides.clone()));
            next
        } else {
            slides.clone()
        };
        let is_binding = |i: usize| asked[i] > next[i].min(slides[i]) || asked[i] > limits[i];
        let moved = (0..next.len()).filter(|i| is_binding(*i)).map(|i| (slides[i] - limits[i]).abs());
        let moved = moved.fold(0.0, f64::max);
        let weights = |values: &[f64]| values.iter().copied().map(Weight::from_si).collect();
        if moved <= WITHIN * body.weight.si() {
            return Ok(Slowing {
                push: Weight::from_si(push),
                brakes: weights(&brakes),
                asked: weights(&asked),
                stance,
            });
        }
        limits = next;
    }
    Err(Unsettled::OutOfRange)
}

/// Limits nearer to what slides under them. What slides and what it moves swing about each other: half of the way at a time
/// closes in whatever they do. What the round before had, limits and what slid under them, tells how one follows the other;
/// where that is straight, a secant goes all the way.
fn toward(limits: &[f64], slides: &[f64], before: Option<&(PerAxle<f64>, PerAxle<f64>)>) -> PerAxle<f64> {
    let halved = limits.iter().zip(slides).map(|(limit, slides)| f64::midpoint(*limit, *slides));
    let Some((limits_before, slides_before)) = before else { return halved.collect() };
    // r = slides − limits and how it has changed since
    let miss = |i: usize| slides[i] - limits[i];
    let change = |i: usize| miss(i) - (slides_before[i] - limits_before[i]);
    let sum = |of: &dyn Fn(usize) -> f64| (0..limits.len()).map(of).sum::<f64>();
    let share = sum(&|i| miss(i) * change(i)) / sum(&|i| change(i).powi(2));
    let step = |(i, halved): (usize, f64)| {
        let since = f64::midpoint(limits[i] - limits_before[i], slides[i] - slides_before[i]);
        let secant = halved - share * since;
        if secant.is_finite() { secant.max(0.0) } else { halved }
    };
    halved.enumerate().map(step).collect()
}

/// The wheels with their springs as the brakes' couples press them.
fn leaning(wheels: &Undercarriage, couple: &Couple, brakes: &[f64]) -> Undercarriage {
    let mut leaning = wheels.clone();
    match couple {
        Couple::IntoFrame => {}
        Couple::Equalized { spring_length, eye_height, pin_lever } => {
            // ΔF_i = B_i h_e / s
            let lever = eye_height.si() / spring_length.si();
            let mut lean = 0.0;
            for (i, axle) in leaning.axles.iter_mut().enumerate() {
                if i > 0 {
                    // S_{j+1} − S_j = 2 (ΔF_j + ΔF_{j+1} − T_j c_q/e_q), T_j = B_{j+1}
                    lean += 2.0 * ((brakes[i - 1] + brakes[i]) * lever - brakes[i] * pin_lever);
                }
                axle.spring = axle.spring.leaning(Weight::from_si(lean));
            }
        }
        Couple::Torsion { arm, pivot_height, rates } => {
            for ((axle, brake), rate) in leaning.axles.iter_mut().zip(brakes).zip(rates) {
                // N = k (d − J/k_s), J = B h_p / a_h
                let pressed = brake * pivot_height.si() / arm.si();
                axle.free_length -= Length::from_si(pressed / rate.si());
                axle.spring = axle.spring.pressed(Weight::from_si(pressed));
            }
        }
    }
    leaning
}
