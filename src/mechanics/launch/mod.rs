//! Launching: a boat on its trailer, backed down a ramp until it floats off.
//!
//! [`hull`] gives what a hull displaces under any water surface, [`floating`] how the boat lies in it, alone or on the
//! trailer, and [`backing`] the whole rig on the ramp and the places where something happens.
//!
//! Boat points are a station forward of the transom and a height above the keel line, which lies parallel to the trailer's
//! frame while the boat is seated. Trim is positive bow up. Nothing heels. Left out: the trailer's own buoyancy, waves,
//! momentum, suction, and how frame and hull give.

pub mod backing;
pub mod floating;
pub mod hull;

use crate::numeric::root::Bracket;
use crate::quantity::Length;

/// A point of the boat's profile.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ProfilePoint {
    /// Forward of the transom along the keel line.
    pub station: Length,
    /// Above the keel line.
    pub height: Length,
}

/// Far more steps than halving any of the brackets here to its last digit takes.
const MOST_STEPS: usize = 200;

/// The root of a rising function between two places, by Newton's steps within a bracket; `None` where the function does
/// not become as small as `enough` between them.
///
/// `function` returns its value and its slope; the slope only guides the steps.
fn newton(
    start: f64,
    [low, high]: [f64; 2],
    enough: f64,
    mut function: impl FnMut(f64) -> (f64, f64),
) -> Option<f64> {
    // Of places that are none or in the wrong order there is nothing between.
    if low > high || low.is_nan() || high.is_nan() {
        return None;
    }
    let mut bracket = Bracket::new(low, high);
    let mut x = start.clamp(low, high);
    for _ in 0..MOST_STEPS {
        let (value, slope) = function(x);
        if value.abs() <= enough {
            return Some(x);
        }
        bracket.look(x, value);
        x = bracket.next(Some(x - value / slope))?;
    }
    // The last digits of the root may leave more than enough where the function is steep.
    let is_inside = bracket.low() > low && bracket.high() < high;
    is_inside.then_some(x)
}
