//! What bends tongue and rails in a case.

use super::bunks::BunkLoads;
use super::known::{Known, Missing, both, known, need};
use super::model::{Model, axle_shift};
use super::road::{Carried, CaseLoads};
use super::wheels::stations;
use crate::mechanics::frame::{Force, Spread, bend_rails, bending_stress, clamp_forces, tongue_moment};
use crate::mechanics::{Body, PerAxle};
use crate::quantity::{Length, Moment, Pressure, Quantity, Weight};
use crate::rig::inputs::{
    TRAILER_LENGTH, TRAILER_RAILS_SECTION_MODULUS, TRAILER_SUSPENSION_KIND, TRAILER_SUSPENSION_SPRING_LENGTH,
    TRAILER_TONGUE_CLAMPS, TRAILER_TONGUE_HELD_FROM, TRAILER_TONGUE_SECTION_MODULUS,
};
use crate::rig::{Setup, SuspensionKind};

/// Loads balance where no more than this share of `W x̄` is left at the tail.
const BALANCED: f64 = 1e-9;

/// What bends the frame in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct FrameLoads {
    /// The tongue.
    pub tongue: TongueLoads,
    /// Both rails.
    pub rails: Known<RailLoads>,
}

/// What bends the tongue, at rest.
#[derive(Debug, Clone, PartialEq)]
pub struct TongueLoads {
    /// Its bending moment where it is held.
    pub moment: Known<Moment>,
    /// Its bending stress there.
    pub stress: Known<Pressure>,
    /// What the forward clamp holds down, and the rear one up.
    pub clamps: Known<[Weight; 2]>,
}

/// What bends the rails, at rest.
#[derive(Debug, Clone, PartialEq)]
pub struct RailLoads {
    /// The greatest bending moment of both together; positive where they sag.
    pub moment: Moment,
    /// Where, behind the ball.
    pub station: Length,
    /// The share of it that the rail on the heavier side takes.
    pub share: Known<f64>,
    /// The bending stress of that rail.
    pub stress: Known<Pressure>,
    /// The moment that the loads leave at the tail.
    pub left: Moment,
}

impl Model<'_> {
    /// What bends the frame in a case; what the bunks carry is asked for only where the file describes rails.
    pub(super) fn frame(&self, case: &CaseLoads, on_bunks: impl FnOnce() -> BunkLoads) -> FrameLoads {
        let setup = self.proposed();
        let rails = if setup.trailer.rails.are_described() {
            self.rails(case, &on_bunks())
        } else {
            Err(Missing::key(TRAILER_RAILS_SECTION_MODULUS.key()))
        };
        FrameLoads { tongue: tongue(setup, case), rails }
    }

    /// Both rails as one beam, and the rail on the heavier side.
    fn rails(&self, case: &CaseLoads, on_bunks: &BunkLoads) -> Known<RailLoads> {
        let setup = self.proposed();
        let boat = boat_on_rails(on_bunks);
        let level = case.level.as_ref().map_err(Clone::clone);
        let sprung = both(level.clone(), stations(setup)).and_then(|(level, stations)| {
            let moved = axle_shift(setup);
            let stations: PerAxle<Length> = stations.iter().map(|station| *station + moved).collect();
            on_springs(setup, level, &stations).map(|forces| (forces, stations))
        });
        let frame = both(self.trailer().clone(), need(setup, TRAILER_LENGTH));
        let ((boat, (springs, stations)), (trailer, length)) = both(both(boat, sprung), frame)?;
        let level = level?;
        let pitch = level.stance.pitch.si();
        let ball = Force {
            station: Length::default(),
            up: level.stance.tongue_weight * pitch.cos(),
            couple: Moment::default(),
        };
        let tail = length - setup.shift.tongue.unwrap_or_default();
        // Evenly about its centre of gravity, from the nearer of ball and tail.
        let reach = trailer.at.x.min(tail - trailer.at.x);
        if reach.si() <= 0.0 {
            return Err(Missing::default());
        }
        let own = Spread {
            weight: trailer.weight * pitch.cos(),
            from: trailer.at.x - reach,
            to: trailer.at.x + reach,
        };
        let leaning = Force { station: trailer.at.x, up: Weight::default(), couple: leaning(trailer, pitch) };
        let boat = boat.iter().map(|load| load.on_rails(pitch));
        let forces: Vec<Force> = [ball, leaning].into_iter().chain(springs).chain(boat).collect();
        let bent = bend_rails(&forces, own);
        let mean = stations.iter().copied().sum::<Length>() / stations.len() as f64;
        let weight = case.gross.clone()?.si();
        let balances = bent.left.si().abs() <= BALANCED * weight * mean.si().abs()
            && bent.unbalanced.si().abs() <= BALANCED * weight;
        if !balances {
            // No key would change that.
            return Err(Missing::default());
        }
        let share = level.heavier_side.clone().map(Quantity::si);
        let modulus = need(setup, TRAILER_RAILS_SECTION_MODULUS);
        let stress =
            both(share.clone(), modulus).map(|(share, modulus)| bending_stress(bent.moment * share, modulus));
        Ok(RailLoads { moment: bent.moment, station: bent.station, share, stress, left: bent.left })
    }
}

fn tongue(setup: &Setup, case: &CaseLoads) -> TongueLoads {
    // A tongue that is drawn in is held nearer the ball.
    let drawn_in = setup.shift.tongue.unwrap_or_default();
    let held_from = need(setup, TRAILER_TONGUE_HELD_FROM).map(|held_from| held_from - drawn_in);
    let held = both(both(case.tongue.clone(), case.bars.clone()), held_from);
    let moment = held.clone().map(|((weight, bars), held_from)| tongue_moment(weight, held_from, bars));
    let modulus = need(setup, TRAILER_TONGUE_SECTION_MODULUS);
    let stress = both(moment.clone(), modulus).map(|(moment, modulus)| bending_stress(moment, modulus));
    let clamps = both(held, need(setup, TRAILER_TONGUE_CLAMPS))
        .map(|(((weight, bars), held_from), apart)| clamp_forces(weight, held_from, apart, bars));
    TongueLoads { moment, stress, clamps }
}

/// What leans on the rails as they pitch: the part of a weight along them, at its height: `W z sin φ`.
fn leaning(body: Body, pitch: f64) -> Moment {
    Moment::from_si(body.weight.si() * body.at.z.si() * pitch.sin())
}

/// What a crossmember brings to the rails of the boat.
struct Loaded {
    station: Length,
    /// Of both bunks.
    down: Weight,
    /// How high above the frame line the boat's weight lies.
    height: Length,
}

impl Loaded {
    /// At right angles to rails that pitch; the boat's weight along them enters by its crossmembers, as they carry it.
    fn on_rails(&self, pitch: f64) -> Force {
        let couple = self.down.si() * self.height.si() * pitch.sin();
        Force { station: self.station, up: -self.down * pitch.cos(), couple: Moment::from_si(couple) }
    }
}

/// The boat on its crossmembers, both bunks together: they are alike, so each carries its share of the same.
fn boat_on_rails(on_bunks: &BunkLoads) -> Known<Vec<Loaded>> {
    let ((boat, share), bunk) =
        both(both(on_bunks.boat.clone(), on_bunks.share.clone()), on_bunks.bunk.clone())?;
    // A boat that would tip off its bunks bends no rails.
    let bunk = bunk.ok_or_else(Missing::default)?;
    let loaded = bunk.supports.iter().map(|(station, reaction)| Loaded {
        station: *station,
        down: *reaction / share,
        height: boat.at.z,
    });
    Ok(loaded.collect())
}

/// What springs and equalizers press on the rails with: a torsion axle at its tube, a leaf spring half at each end, an
/// equalizer at its pin, midway between its axles.
fn on_springs(setup: &Setup, level: &Carried, stations: &PerAxle<Length>) -> Known<Vec<Force>> {
    let kind = known(setup.trailer.suspension.kind, TRAILER_SUSPENSION_KIND.key())?;
    let half_length = match kind {
        SuspensionKind::Torsion => Length::default(),
        _ => need(setup, TRAILER_SUSPENSION_SPRING_LENGTH)? / 2.0,
    };
    let at = |station: Length, up: Weight| Force { station, up, couple: Moment::default() };
    let mut forces = Vec::new();
    let last = stations.len() - 1;
    for (i, (station, force)) in stations.iter().zip(&level.by_rates).enumerate() {
        let equalized = kind == SuspensionKind::LeafEqualized;
        if i == 0 || !equalized {
            forces.push(at(*station - half_length, *force / 2.0));
        }
        if i == last || !equalized {
            forces.push(at(*station + half_length, *force / 2.0));
        } else {
            forces.push(pin(&stations[i..=i + 1], &level.by_rates[i..=i + 1], half_length));
        }
        forces.push(Force { station: *station, up: Weight::default(), couple: dragged(level, i, *station) });
    }
    Ok(forces)
}

/// An equalizer: half of each neighbour's force at its pin. At its stop they differ, and it turns the rails by
/// `(S_j − S_{j+1}) g/2`, `g` from the pin to a spring's end.
fn pin(stations: &[Length], forces: &[Weight], half_length: Length) -> Force {
    let middle = (stations[0] + stations[1]) / 2.0;
    let reach = (stations[1] - stations[0]) / 2.0 - half_length;
    let couple = (forces[0] - forces[1]).si() / 2.0 * reach.si();
    Force { station: middle, up: (forces[0] + forces[1]) / 2.0, couple: Moment::from_si(couple) }
}

/// What the ground's force, plumb under rails that pitch, turns them by at its hub: `N ℓ sin φ`, `ℓ` the hub below the frame
/// line.
fn dragged(level: &Carried, axle: usize, station: Length) -> Moment {
    let stance = &level.stance;
    // Where only the loads are known the frame is level.
    let Some(hub) = stance.hubs.get(axle) else { return Moment::default() };
    let cos = stance.pitch.si().cos();
    // N = S / cos φ; ℓ sin φ = x cos φ − X, the ball at X = 0
    Moment::from_si(level.by_rates[axle].si() / cos * (station.si() * cos - hub.x.si()))
}
