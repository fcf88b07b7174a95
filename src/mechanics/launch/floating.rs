//! How a boat lies in the water: alone, or on a trailer that is under water with it.
//!
//! | symbol | meaning |
//! |---|---|
//! | `W`, `s_G`, `z_G` | weight of the boat, station and height of its centre |
//! | `w` | weight of a unit volume of water |
//! | `Vol`, `s_b`, `z_b` | volume under water and its centre |
//! | `d`, `t` | draft at the transom normal to the keel line; tangent of the trim |
//! | `q`, `h`, `D` | station and height of the support that the boat turns on, and its depth |
//! | `M_q` | moment about it that turns the boat bow down |
//! | `P` | what the trailer still carries |
//!
//! In the boat's axes upward is `(t, 1)` but for its length, so a vertical force at `(s, z)` turns about the support with the
//! lever `(s − q) − t (z − h)`, and a boat afloat has `s_b − t z_b = s_G − t z_G`.

use super::hull::{Displacement, HullLines, Immersed, Surface, Waterline};
use super::{ProfilePoint, newton};
use crate::quantity::{Density, Length, Quantity, STANDARD_GRAVITY, Weight};

/// A boat is looked for afloat up to this tangent of its trim.
const STEEPEST_TRIM: f64 = 1.0;
/// Weight and buoyancy agree when they differ by this share.
const BALANCED: f64 = 1e-12;

/// A boat and the water that it is launched into.
#[derive(Debug, Clone, PartialEq)]
pub struct FloatingBoat {
    /// Its hull.
    pub hull: HullLines,
    /// Its weight.
    pub weight: Weight,
    /// Its centre of gravity.
    pub centre: ProfilePoint,
    /// Density of the water.
    pub water: Density,
}

/// Why a boat does not float.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Sinks {
    /// It weighs more than it can displace.
    #[error(
        "expected a boat that weighs less than its hull displaces up to the sheer, found one that weighs more"
    )]
    TooHeavy,
    /// The water comes over its sheer before its trim balances.
    #[error("expected a boat that floats with its sheer above water, found one that trims under")]
    TrimsUnder,
}

/// Where the trailer holds the boat, in the boat's axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Supports {
    /// The aft end of the contact.
    pub aft: ProfilePoint,
    /// The forward end of what truly bears: on the keel line, or the bow eye where a taut strap holds it.
    pub forward: ProfilePoint,
}

/// How a boat floats by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Afloat {
    /// How it lies in the water.
    pub waterline: Waterline,
    /// What it displaces.
    pub displaced: Displacement,
}

/// What a boat does on a trailer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rests {
    /// It lies along its supports.
    Seated,
    /// Its stern has lifted: it turns on the forward support.
    SternLifted,
    /// Its bow has lifted: it turns on the aft support.
    BowLifted,
    /// It floats free.
    Afloat,
}

/// A boat on a trailer in the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Launched {
    /// What it does.
    pub rests: Rests,
    /// How it lies in the water; seated as the trailer, afloat as it floats by itself.
    pub waterline: Waterline,
    /// What it displaces; `None` while it is dry.
    pub displaced: Option<Displacement>,
    /// What the trailer still carries; zero afloat.
    pub carried: Weight,
    /// Where the trailer carries it; the forward support where it carries nothing.
    pub carried_at: ProfilePoint,
}

/// A boat that cannot lie on its supports: its weight hangs over an end of them with no water to hold it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error(
    "expected a boat whose weight lies between the ends of its supports, found one that tips over an end"
)]
pub struct TipsOver;

impl FloatingBoat {
    /// How the boat floats by itself.
    ///
    /// # Errors
    /// [`Sinks::TooHeavy`] when it weighs more than the hull displaces up to its sheer, and [`Sinks::TrimsUnder`] when it
    /// floats at no trim within 45° of level with its sheer above water.
    pub fn afloat(&self) -> Result<Afloat, Sinks> {
        let needed = self.weight.si() / self.unit_weight();
        let [_, submerged] = self.hull.drafts(0.0);
        let whole = self.hull.immersed(Surface { d: submerged, t: 0.0 }).volume;
        if !(needed > 0.0 && needed < whole) {
            return Err(Sinks::TooHeavy);
        }
        let (sg, zg) = (self.centre.station.si(), self.centre.height.si());
        let enough = BALANCED * self.hull.last_station();
        let range = [-STEEPEST_TRIM, STEEPEST_TRIM];
        // (s_G − t z_G) − (s_b − t z_b) rises with the trim.
        let t = newton(0.0, range, enough, |t| {
            let below = self.hull.immersed(Surface { d: self.draft(needed, t), t });
            let volume = below.volume;
            let turns = (sg - t * zg) - (below.along - t * below.up) / volume;
            // Trimmed about the waterplane's centre: Vol ds_b/dt = −I_L, Vol dz_b/dt = t I_L.
            let [a0, a1, a2] = below.plane;
            let lengthwise = a2 - a1 * a1 / a0;
            (turns, below.up / volume - zg + lengthwise / volume * (1.0 + t * t))
        });
        let t = t.ok_or(Sinks::TrimsUnder)?;
        let surface = Surface { d: self.draft(needed, t), t };
        let displaced = self.hull.immersed(surface).displacement();
        let displaced = displaced.filter(|_| self.hull.has_freeboard(surface)).ok_or(Sinks::TrimsUnder)?;
        Ok(Afloat { waterline: surface.waterline(), displaced })
    }

    /// The draft at which the hull displaces a volume, at a trim's tangent.
    fn draft(&self, volume: f64, t: f64) -> f64 {
        let [dry, submerged] = self.hull.drafts(t);
        let misses = |d: f64| {
            let below = self.hull.immersed(Surface { d, t });
            (below.volume / volume - 1.0, below.plane[0] / volume)
        };
        newton(f64::midpoint(dry, submerged), [dry, submerged], BALANCED, misses).unwrap_or(submerged)
    }

    /// `w`
    fn unit_weight(&self) -> f64 {
        self.water.si() * STANDARD_GRAVITY
    }

    /// How the boat lies on a trailer whose keel line lies so in the water; `afloat` is how the boat floats by itself.
    ///
    /// # Errors
    /// [`TipsOver`] when no trim within 45° of level balances it on the support that it turns on.
    pub fn on_trailer(
        &self,
        supports: Supports,
        afloat: Afloat,
        trailer: Waterline,
    ) -> Result<Launched, TipsOver> {
        self.on_trailer_near(supports, afloat, trailer, None)
    }

    /// The same of a boat whose trim, if she turns, is about so in radians: a good guess saves steps and changes nothing else.
    pub(super) fn on_trailer_near(
        &self,
        supports: Supports,
        afloat: Afloat,
        trailer: Waterline,
        near: Option<f64>,
    ) -> Result<Launched, TipsOver> {
        let (free, trailer) = (Surface::of(afloat.waterline), Surface::of(trailer));
        let [aft, forward] = [supports.aft, supports.forward].map(Pivot::of);
        if clears(free, trailer, supports) >= 0.0 {
            return Ok(Launched {
                rests: Rests::Afloat,
                waterline: afloat.waterline,
                displaced: Some(afloat.displaced),
                carried: Weight::default(),
                carried_at: supports.forward,
            });
        }
        let below = self.hull.immersed(trailer);
        let turns = |pivot: Pivot| self.bow_down(pivot, trailer.t, &below);
        let (stern_lifts, bow_lifts) = (turns(forward) > 0.0, turns(aft) < 0.0);
        if !stern_lifts && !bow_lifts {
            let carried = self.carried(&below);
            // Where the moment about it vanishes: M_q = (W − w Vol) (s − q)
            let at = turns(Pivot::default()) / carried;
            let [least, most] = [aft.below(trailer.t), forward.below(trailer.t)];
            let at = if carried > 0.0 { at.clamp(least, most.max(least)) } else { most };
            return Ok(self.launched(Rests::Seated, trailer, Pivot { s: at, z: 0.0 }, &below));
        }
        // Lifted at both ends it would be afloat by now but for the end that it still touches: the lower one as it floats.
        let turns_on_forward = if stern_lifts && bow_lifts { trailer.t > free.t } else { stern_lifts };
        let (rests, pivot, trims) = if turns_on_forward {
            (Rests::SternLifted, forward, [-STEEPEST_TRIM, trailer.t])
        } else {
            (Rests::BowLifted, aft, [trailer.t, STEEPEST_TRIM])
        };
        // The trim goes from the trailer's to that of the boat afloat as the support takes less.
        let near = near.map_or(f64::midpoint(trailer.t, free.t), f64::tan);
        let turned = self.turned_on(pivot, trailer.depth(pivot.s, pivot.z), trims, near);
        let (surface, below) = turned.ok_or(TipsOver)?;
        Ok(self.launched(rests, surface, pivot, &below))
    }

    /// How the boat lies in the water when it is balanced on a support that lies so deep, at a trim in a range.
    fn turned_on(&self, pivot: Pivot, depth: f64, trims: [f64; 2], near: f64) -> Option<(Surface, Immersed)> {
        let Pivot { s: q, z: h } = pivot;
        let w = self.unit_weight();
        let weight = self.weight.si();
        let enough = BALANCED * weight * self.hull.last_station();
        let mut found = None;
        let turns = |t: f64| {
            let surface = Surface::over([q, h], depth, t);
            let below = self.hull.immersed(surface);
            found = Some((surface, below));
            // dh/dt = e − s, e = D sin τ + q
            let e = depth * t / t.hypot(1.0) + q;
            let [a0, a1, a2] = below.plane;
            // With every height taken from that of the support, y that of the surface:
            // dM/dt = −W z_G − w ∫ b (s − q) (e − s) ds + w ∫ A z ds + w t ∫ b y (e − s) ds
            let lengthwise = a2 - (e + q) * a1 + q * e * a0;
            let d = surface.d - h;
            let with_height = d * e * a0 - (d + t * e) * a1 + t * a2;
            let up = below.up - h * below.volume;
            let slope = -weight * (self.centre.height.si() - h) + w * (lengthwise + up + t * with_height);
            (self.bow_down(pivot, t, &below), slope)
        };
        newton(near, trims, enough, turns)?;
        found
    }

    /// `M_q`, the moment about a support that turns the boat bow down, but for a factor `cos τ`.
    fn bow_down(&self, pivot: Pivot, t: f64, below: &Immersed) -> f64 {
        let (sg, zg, q) = (self.centre.station.si(), self.centre.height.si(), pivot.below(t));
        // M_q = W (s_G − t z_G − (q − t h)) − w Vol (s_b − t z_b − (q − t h))
        self.weight.si() * (sg - t * zg - q)
            - self.unit_weight() * (below.along - t * below.up - q * below.volume)
    }

    /// `P = W − w Vol`
    fn carried(&self, below: &Immersed) -> f64 {
        self.weight.si() - self.unit_weight() * below.volume
    }

    fn launched(&self, rests: Rests, surface: Surface, at: Pivot, below: &Immersed) -> Launched {
        let carried = self.carried(below).max(0.0);
        Launched {
            rests,
            waterline: surface.waterline(),
            displaced: below.displacement(),
            carried: Weight::from_si(carried),
            carried_at: ProfilePoint { station: Length::from_si(at.s), height: Length::from_si(at.z) },
        }
    }
}

/// A support that the boat turns on, in plain numbers.
#[derive(Debug, Clone, Copy, Default)]
struct Pivot {
    s: f64,
    z: f64,
}

impl Pivot {
    fn of(support: ProfilePoint) -> Self {
        Self { s: support.station.si(), z: support.height.si() }
    }

    /// The station at which the keel line lies straight below or above it, at a trim's tangent.
    fn below(self, t: f64) -> f64 {
        // q − t h
        self.s - t * self.z
    }
}

/// As [`clearance`], in plain numbers.
fn clears(free: Surface, trailer: Surface, supports: Supports) -> f64 {
    let clear = |pivot: Pivot| trailer.depth(pivot.s, pivot.z) - free.depth(pivot.s, pivot.z);
    clear(Pivot::of(supports.aft)).min(clear(Pivot::of(supports.forward)))
}

/// How far a boat as it floats by itself lies clear of its supports on a trailer; negative while it touches one.
pub fn clearance(afloat: Afloat, trailer: Waterline, supports: Supports) -> Length {
    Length::from_si(clears(Surface::of(afloat.waterline), Surface::of(trailer), supports))
}
