//! What holds the boat down on its trailer: lines from boat to frame, against motion forward, aft, to a side and up.
//!
//! | symbol | meaning |
//! |---|---|
//! | `u` | direction of a line from its end on the boat to its end on the trailer: aft, to starboard, down |
//! | `e` | direction opposite to a motion |
//! | `c` | `u · e`: how far a line leads against the motion |
//! | `l` | length of a line |
//! | `L`, `ε` | what it may carry, and by what share of its length it stretches then |
//! | `δ` | how far the boat has moved when the first line carries all it may |

use super::{FramePoint, Line};
use crate::quantity::{Length, Quantity, Share, Weight};

/// A direction: aft, to starboard, down.
pub type Direction = [f64; 3];

/// Against motion forward.
pub const AFT: Direction = [1.0, 0.0, 0.0];
/// Against motion aft.
pub const FORWARD: Direction = [-1.0, 0.0, 0.0];
/// Against motion to port.
pub const STARBOARD: Direction = [0.0, 1.0, 0.0];
/// Against motion to starboard.
pub const PORT: Direction = [0.0, -1.0, 0.0];
/// Against motion up.
pub const DOWN: Direction = [0.0, 0.0, 1.0];

/// A line that leads by less than this against a motion does not act against it.
const SQUARE: f64 = 1e-9;

/// One line between boat and trailer, and what it may carry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lashing {
    /// From boat to trailer.
    pub direction: Direction,
    /// From end to end.
    pub length: Length,
    /// What it may carry.
    pub limit: Weight,
    /// By what share of its length it stretches then.
    pub stretch: Share,
}

/// Ends nearer to each other than this, a millimetre, are in one place.
const APART: f64 = 1e-3;

/// Where a line leads, and its length; `None` where both ends are in one place.
pub fn lead(boat: FramePoint, trailer: FramePoint) -> Option<(Direction, Length)> {
    let line = Line::between(boat, trailer);
    (line.length().si() >= APART).then(|| (line.direction(), line.length()))
}

impl Lashing {
    /// The same line on the other side.
    #[must_use]
    pub fn mirrored(self) -> Self {
        let [aft, starboard, down] = self.direction;
        Self { direction: [aft, -starboard, down], ..self }
    }

    /// How far it leads against a motion; nothing where it goes slack.
    fn against(&self, e: Direction) -> f64 {
        let c = self.direction.iter().zip(e).map(|(u, e)| u * e).sum::<f64>();
        if c < SQUARE { 0.0 } else { c }
    }

    /// How much longer it is when it carries all it may: `ε l`.
    fn give(&self) -> f64 {
        self.stretch.si() * self.length.si()
    }
}

/// What lines hold together against a motion, none past its limit: each acts in proportion to its stiffness, `L / (ε l)`, and
/// to how far it leads against the motion. Lines that are alike each carry all they may.
pub fn hold(lines: &[Lashing], against: Direction) -> Weight {
    let acting = || lines.iter().map(|line| (line, line.against(against))).filter(|(_, c)| *c > 0.0);
    // δ = min ε l / c
    let Some(moved) = acting().map(|(line, c)| line.give() / c).reduce(f64::min) else {
        return Weight::default();
    };
    // Σ L / (ε l) c² δ
    acting().map(|(line, c)| line.limit * (c * c * moved / line.give())).sum()
}

/// What lines pull down with, each at its limit; what leads up does not.
pub fn hold_down(lines: &[Lashing]) -> Weight {
    // Σ L u_z
    lines.iter().map(|line| line.limit * line.against(DOWN)).sum()
}
