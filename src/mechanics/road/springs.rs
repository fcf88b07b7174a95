//! Springs, and how equalizers share a load between them.
//!
//! | symbol | meaning |
//! |---|---|
//! | `k_s`, `k_t` | rate of an axle's suspension, and of its tires together |
//! | `k` | rate of both in series, `1/k = 1/k_s + 1/k_t` |
//! | `d_i` | compression available at axle `i`: free length less the distance down to its hub |
//! | `q_j` | displacement of the equalizer behind axle `j`, at most `±q_max` |
//! | `m_i` | seat shift of spring `i`, `(q_i − q_{i−1}) / 2` |
//! | `c_i` | compression of spring `i`, `d_i − m_i` |
//! | `S_i` | force of spring `i` |
//! | `g_i` | lean of spring `i`: what it carries beyond the force common to its run |
//!
//! # How the forces are found
//!
//! Equalizers settle where the stored energy `Σ U_i(d_i − m_i)` is least, `|q_j| ≤ q_max`. Write the
//! running sums `C_j = c_1 + … + c_j` and `D_j = d_1 + … + d_j`. Because the seat shifts telescope,
//! `C_j = D_j − q_j / 2`: the energy is `Σ U_i(C_i − C_{i−1})`, and every equalizer only says that
//! `C_j` stays within `q_max / 2` of `D_j`. That is a string pulled taut through a tube of gates,
//! pinned at both ends. Between the gates it touches, all springs carry the same force; at an upper
//! gate the force may only rise, at a lower gate only drop. The string is followed from the front:
//! keep the least force that reaches any upper gate so far and the greatest that reaches any
//! lower one; where they cross, the string bends at the gate that set the limit.
//!
//! Something may lean on the equalizers, as brakes do: a spring then carries `S_i = s + g_i`, `s` being what its run has in
//! common, and the string is that of springs whose law is shifted by `g_i`.
//!
//! Springs only push. A run of springs whose common force would be negative hangs: treating it as
//! a pull while the string is followed, and as nothing afterwards, gives the same string, because
//! scaling the law for pulls changes neither the split within such a run nor the order of forces. Where springs lean, one
//! of a run may hang while its neighbours push; there a pull is all but slack.

use crate::mechanics::{MAX_AXLES, PerAxle};
use crate::numeric::root::Bracket;
use crate::quantity::{Length, Quantity, Rate, Weight};

/// Once bottomed, a suspension is this much stiffer.
const BUMP_STIFFENING: f64 = 10.0;
/// A spring that leans pulls this much more weakly than it pushes: slack, in numbers.
const SLACK: f64 = 1e-6;
/// Far more looks than halving any compression to its last digit takes.
const MOST_LOOKS: usize = 200;

/// One axle's suspension in series with its tires.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spring {
    rate: f64,
    bumped_rate: f64,
    bump_force: f64,
    pull_rate: f64,
    lean: f64,
}

impl Spring {
    /// The spring of a suspension that bottoms at `bump` of its own deflection, on tires that act together.
    ///
    /// All three must be positive. Past the bump the suspension is ten times as stiff, the tires
    /// still in series.
    pub fn new(suspension: Rate, tires: Rate, bump: Length) -> Self {
        let (ks, kt) = (suspension.si(), tires.si());
        // 1/k = 1/k_s + 1/k_t
        let in_series = |a: f64, b: f64| a * b / (a + b);
        let rate = in_series(ks, kt);
        Self {
            rate,
            bumped_rate: in_series(BUMP_STIFFENING * ks, kt),
            bump_force: ks * bump.si(),
            pull_rate: rate,
            lean: 0.0,
        }
    }

    /// The same spring where something leans on its equalizers so that it carries this much beyond what its run has in
    /// common.
    #[must_use]
    pub fn leaning(self, by: Weight) -> Self {
        Self { lean: by.si(), pull_rate: SLACK * self.rate, ..self }
    }

    /// The same spring, its suspension already pressed by so much more than its load: it bottoms that much sooner.
    #[must_use]
    pub fn pressed(self, by: Weight) -> Self {
        Self { bump_force: self.bump_force - by.si(), ..self }
    }

    /// The force at which the suspension bottoms.
    pub fn bump_force(&self) -> Weight {
        Weight::from_si(self.bump_force)
    }

    /// The rate short of the bump.
    pub fn rate(&self) -> Rate {
        Rate::from_si(self.rate)
    }

    /// The compression at a force common to its run; a negative force extends linearly (see the module's notes).
    fn compression(&self, common: f64) -> f64 {
        let force = common + self.lean;
        if force < 0.0 {
            force / self.pull_rate
        } else if force <= self.bump_force {
            force / self.rate
        } else {
            self.bump_force / self.rate + (force - self.bump_force) / self.bumped_rate
        }
    }

    /// How much the compression grows per force, at a force common to its run.
    fn compliance(&self, common: f64) -> f64 {
        let force = common + self.lean;
        if force < 0.0 {
            1.0 / self.pull_rate
        } else if force <= self.bump_force {
            1.0 / self.rate
        } else {
            1.0 / self.bumped_rate
        }
    }

    /// Whether its compression at a force common to its run lies off the straight line through its rate.
    fn is_bent(&self, common: f64) -> bool {
        let force = common + self.lean;
        force > self.bump_force || (force < 0.0 && self.pull_rate != self.rate)
    }
}

/// What the springs carry once the equalizers have settled.
#[derive(Debug, Clone)]
pub(super) struct Shared {
    /// Force of each spring, never negative.
    pub force: PerAxle<f64>,
    /// How each force changes when the compressions change so.
    pub growth: PerAxle<f64>,
    /// Displacement of the equalizer behind each axle; always zero behind the last.
    pub equalizer: PerAxle<f64>,
    /// Compression of each spring; negative where its wheel hangs, by how far.
    pub compression: PerAxle<f64>,
}

/// The forces of springs at the available compressions `d`, equalizers settled.
///
/// `d_growth` is how the compressions change with some parameter; `travel` is `q_max`. All three
/// slices have the same length, at most [`MAX_AXLES`].
pub(super) fn share(springs: &[Spring], d: &[f64], d_growth: &[f64], travel: f64) -> Shared {
    let n = springs.len();
    let mut shared = Shared {
        force: PerAxle::new(),
        growth: PerAxle::new(),
        equalizer: PerAxle::new(),
        compression: PerAxle::new(),
    };
    let mut front = 0;
    // C at the gate where the run begins, and D there.
    let (mut pinned, mut available) = (0.0, 0.0);
    while front < n {
        let run = taut_run(springs, d, front, Gate { pinned, available }, travel / 2.0);
        // Within a run all forces are equal, so its growth is that of all its compressions over
        // all its compliances.
        let members = front..run.end;
        let compliance: f64 = springs[members.clone()].iter().map(|s| s.compliance(run.force)).sum();
        let growth: f64 = d_growth[members.clone()].iter().sum::<f64>() / compliance;
        for i in members {
            let compression = springs[i].compression(run.force);
            available += d[i];
            pinned += compression;
            shared.compression.push(compression);
            let force = run.force + springs[i].lean;
            shared.force.push(force.max(0.0));
            shared.growth.push(if force > 0.0 { growth } else { 0.0 });
            // q_j = 2 (D_j − C_j)
            shared.equalizer.push((2.0 * (available - pinned)).clamp(-travel, travel));
        }
        pinned = run.reaches;
        front = run.end;
    }
    if let Some(last) = shared.equalizer.last_mut() {
        *last = 0.0;
    }
    shared
}

/// Where a run of the string begins.
#[derive(Clone, Copy)]
struct Gate {
    pinned: f64,
    available: f64,
}

/// A straight run of the string: one force from its front axle up to, not including, `end`.
#[derive(Clone, Copy)]
struct Run {
    force: f64,
    end: usize,
    /// C at its rear end.
    reaches: f64,
}

/// The first straight run of the string that starts at a gate before axle `front`.
fn taut_run(springs: &[Spring], d: &[f64], front: usize, start: Gate, half_travel: f64) -> Run {
    let n = springs.len();
    if let Some(whole) = straight_to_the_end(springs, d, front, start, half_travel) {
        return whole;
    }
    let mut upper = Run { force: f64::INFINITY, end: n, reaches: 0.0 };
    let mut lower = Run { force: f64::NEG_INFINITY, end: n, reaches: 0.0 };
    let (mut available, mut compliance, mut leaned) = (start.available, 0.0, 0.0);
    for end in front + 1..=n {
        available += d[end - 1];
        compliance += 1.0 / springs[end - 1].rate;
        leaned += springs[end - 1].lean / springs[end - 1].rate;
        let slack = if end == n { 0.0 } else { half_travel };
        let reach = |reaches: f64| Run {
            force: common_force(&springs[front..end], compliance, leaned, reaches - start.pinned),
            end,
            reaches,
        };
        let to_upper = reach(available + slack);
        let to_lower = if slack == 0.0 { to_upper } else { reach(available - slack) };
        if to_lower.force > upper.force {
            return upper;
        }
        if to_upper.force < lower.force {
            return lower;
        }
        if end == n {
            return to_upper;
        }
        if to_upper.force <= upper.force {
            upper = to_upper;
        }
        if to_lower.force >= lower.force {
            lower = to_lower;
        }
    }
    upper
}

/// The run to the last axle, where one straight run keeps within every gate on its way; most strings are so.
fn straight_to_the_end(
    springs: &[Spring],
    d: &[f64],
    front: usize,
    start: Gate,
    half_travel: f64,
) -> Option<Run> {
    let (springs, d) = (&springs[front..], &d[front..]);
    let (mut reaches, mut compliance, mut leaned) = (start.available, 0.0, 0.0);
    for (spring, d) in springs.iter().zip(d) {
        reaches += d;
        compliance += 1.0 / spring.rate;
        leaned += spring.lean / spring.rate;
    }
    let force = common_force(springs, compliance, leaned, reaches - start.pinned);
    let (mut available, mut pinned) = (start.available, start.pinned);
    let mut gates = springs.iter().zip(d).take(springs.len() - 1);
    let is_within = gates.all(|(spring, d)| {
        available += d;
        pinned += spring.compression(force);
        (available - pinned).abs() <= half_travel
    });
    is_within.then_some(Run { force, end: front + springs.len(), reaches })
}

/// The one force at which springs, short of their bumps of this compliance together and compressed by `leaned` at a
/// common force of zero, are compressed by `total`.
fn common_force(springs: &[Spring], compliance: f64, leaned: f64, total: f64) -> f64 {
    let mut force = (total - leaned) / compliance;
    // Past a bump or a slack pull the sum is concave and piecewise linear: Newton's steps rise to the root and
    // meet it exactly after at most two steps a spring.
    if springs.iter().any(|s| s.is_bent(force)) {
        for _ in 0..=2 * MAX_AXLES {
            let reached: f64 = springs.iter().map(|s| s.compression(force)).sum();
            let compliance: f64 = springs.iter().map(|s| s.compliance(force)).sum();
            let step = (total - reached) / compliance;
            force += step;
            if step.abs() <= f64::EPSILON * force.abs() {
                break;
            }
        }
    }
    force
}

/// The one compression, the same at every axle, at which `Σ weight_i S_i` is `target`.
///
/// With the weights 1 it finds the springs' total force, with the axle stations their moment about
/// the ball. None when the target is negative or there are no springs.
pub(super) fn common_compression(
    springs: &[Spring],
    travel: f64,
    weights: &[f64],
    target: f64,
) -> Option<f64> {
    if springs.is_empty() || target.is_nan() || target < 0.0 {
        return None;
    }
    let sum_at = |d: f64| {
        let compressions: PerAxle<f64> = springs.iter().map(|_| d).collect();
        let ones = [1.0; MAX_AXLES];
        let shared = share(springs, &compressions, &ones[..springs.len()], travel);
        let weigh = |values: &[f64]| values.iter().zip(weights).map(|(v, w)| v * w).sum::<f64>();
        (weigh(&shared.force), weigh(&shared.growth))
    };
    // The sum rises with d along straight pieces, so Newton's steps inside a bracket end on it.
    let mut bracket = Bracket::new(0.0, f64::INFINITY);
    let stiffness: f64 = springs.iter().zip(weights).map(|(s, w)| s.rate * w).sum();
    let mut d = target / stiffness;
    for _ in 0..MOST_LOOKS {
        let (sum, growth) = sum_at(d);
        let miss = sum - target;
        bracket.look(d, miss);
        let next = d - miss / growth;
        if miss.abs() <= 1e-15 * target || next == d || bracket.width() <= f64::EPSILON * bracket.low() {
            break;
        }
        // Until a place above is known the next is twice as far.
        d = bracket.next(Some(next)).unwrap_or(2.0 * d.max(f64::MIN_POSITIVE));
    }
    Some(d)
}
