//! What bends tongue and rails in a case.

use super::brakes::{STOP, Stop};
use super::bunks::BunkLoads;
use super::known::{Known, Missing, both, known, need};
use super::model::{Model, axle_shift};
use super::road::{Carried, CaseLoads, ball_on_level};
use super::wheels::stations;
use crate::mechanics::frame::{
    AxleForce, Force, Hung, Motion, Rails, Spread, axles_on_rails, bend_rails, bending_stress, clamp_forces,
    tongue_moment,
};
use crate::mechanics::tow::Bars;
use crate::mechanics::{Body, GroundPoint, PerAxle};
use crate::quantity::{Length, Moment, Pressure, Quantity, Share, Weight};
use crate::rig::inputs::{
    TRAILER_LENGTH, TRAILER_RAILS_SECTION_MODULUS, TRAILER_SUSPENSION_EYE_HEIGHT, TRAILER_SUSPENSION_KIND,
    TRAILER_SUSPENSION_SPRING_LENGTH, TRAILER_TONGUE_CLAMPS, TRAILER_TONGUE_HELD_FROM,
    TRAILER_TONGUE_SECTION_MODULUS,
};
use crate::rig::{RadiusRods, Setup, SuspensionKind};

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

/// What bends the rails: at rest, with the bars of a weight distribution hitch or without, whichever bends them more; and in a
/// stop, which no check compares.
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
    /// Whether the bars are on there.
    pub with_bars: bool,
    /// In a stop on the level, the bars off.
    pub stop: Known<RailsInStop>,
}

/// What bends the rails in a stop.
#[derive(Debug, Clone, PartialEq)]
pub struct RailsInStop {
    /// The greatest bending moment of both together; positive where they sag.
    pub moment: Moment,
    /// Where, behind the ball.
    pub station: Length,
    /// The bending stress of the rail on the heavier side.
    pub stress: Known<Pressure>,
    /// The moment that the loads leave at the tail.
    pub left: Moment,
}

impl Model<'_> {
    /// What bends the frame in a case; what the bunks carry is asked for only where the file describes rails.
    pub(super) fn frame(
        &self,
        case: &CaseLoads,
        on_bunks: impl FnOnce() -> BunkLoads,
        stop: Known<&Stop>,
    ) -> FrameLoads {
        let setup = self.proposed();
        let rails = if setup.trailer.rails.are_described() {
            self.rails(case, &on_bunks(), stop)
        } else {
            Err(Missing::key(TRAILER_RAILS_SECTION_MODULUS.key()))
        };
        FrameLoads { tongue: tongue(setup, case), rails }
    }

    /// Both rails as one beam, and the rail on the heavier side.
    fn rails(&self, case: &CaseLoads, on_bunks: &BunkLoads, stop: Known<&Stop>) -> Known<RailLoads> {
        let setup = self.proposed();
        let sprung = both(stations(setup), hung(setup));
        let frame = both(self.trailer().clone(), need(setup, TRAILER_LENGTH));
        let level = case.level.as_ref().map_err(Clone::clone);
        let known = both(both(boat_on_rails(on_bunks), sprung), both(frame, both(level, case.bars.clone())));
        let ((boat, (stations, hung)), ((trailer, length), (level, bars))) = known?;
        let moved = axle_shift(setup);
        let tail = length - setup.shift.tongue.unwrap_or_default();
        let stations = stations.iter().map(|station| *station + moved).collect();
        let beam = Beam { setup, boat, trailer, stations, hung, tail, gross: case.gross.clone()? };
        let off = beam.bent(&State::at_rest(level, None))?;
        let on = bars.map(|bars| beam.bent(&State::at_rest(level, Some(bars)))).transpose()?;
        let with_bars = on.as_ref().is_some_and(|on| on.moment.si().abs() > off.moment.si().abs());
        let Rails { moment, station, left, .. } = on.filter(|_| with_bars).unwrap_or(off);
        // The side moment stays, so that axles which carry less lean more.
        let all = level.stance.on_axles();
        let half = Share::from_si(0.5);
        let share = |on_axles: Weight| {
            level.heavier_side.clone().map(|share| half + (share - half) * (all / on_axles).si())
        };
        let stress = |moment: Moment, share: Known<Share>| {
            both(share, need(setup, TRAILER_RAILS_SECTION_MODULUS))
                .map(|(share, modulus)| bending_stress(moment * share.si(), modulus))
        };
        let stop = stop.and_then(|stop| {
            let Rails { moment, station, left, .. } = beam.bent(&State::in_stop(stop))?;
            let stress = stress(moment, share(stop.trailer.stance.on_axles()));
            Ok(RailsInStop { moment, station, stress, left })
        });
        let moved = bars.filter(|_| !with_bars).map(|bars| bars.moved).unwrap_or_default();
        let share = share(all - moved);
        let stress = stress(moment, share.clone());
        Ok(RailLoads { moment, station, share: share.map(Quantity::si), stress, left, with_bars, stop })
    }
}

/// The rails as one beam, and what lies and hangs on it.
struct Beam<'a> {
    setup: &'a Setup,
    boat: Vec<Loaded>,
    trailer: Body,
    stations: PerAxle<Length>,
    hung: Hung,
    tail: Length,
    gross: Weight,
}

/// A trailer at rest or slowing down.
struct State<'a> {
    /// What the axles' springs press with, and where they are.
    springs: &'a PerAxle<Weight>,
    hubs: &'a PerAxle<GroundPoint>,
    motion: Motion,
    tongue_weight: Weight,
    /// The bars of a weight distribution hitch, where they are on.
    bars: Option<Bars>,
    stop: Option<&'a Stop>,
}

impl<'a> State<'a> {
    fn at_rest(level: &'a Carried, bars: Option<Bars>) -> Self {
        let stance = &level.stance;
        Self {
            springs: &level.by_rates,
            hubs: &stance.hubs,
            motion: Motion { pitch: stance.pitch, deceleration: Share::default() },
            tongue_weight: stance.tongue_weight,
            bars,
            stop: None,
        }
    }

    fn in_stop(stop: &'a Stop) -> Self {
        let stance = &stop.trailer.stance;
        Self {
            springs: &stance.spring_forces,
            hubs: &stance.hubs,
            motion: Motion { pitch: stance.pitch, deceleration: Share::from_si(STOP) },
            tongue_weight: stance.tongue_weight,
            bars: None,
            stop: Some(stop),
        }
    }
}

impl Beam<'_> {
    /// The beam in one state.
    fn bent(&self, state: &State<'_>) -> Known<Rails> {
        let pitch = state.motion.pitch;
        let (axles, from_ball) = self.axles(state)?;
        // What the frame itself weighs lies evenly about its centre of gravity, from the nearer of ball and tail.
        let at = self.trailer.at;
        let reach = at.x.min(self.tail - at.x);
        if reach.si() <= 0.0 {
            return Err(Missing::default());
        }
        let own = Spread {
            weight: state.motion.presses(self.trailer.weight),
            from: at.x - reach,
            to: at.x + reach,
        };
        let turned = state.motion.turns(self.trailer.weight, at.z);
        let leaning = Force { station: at.x, up: Weight::default(), couple: turned };
        let boat = self.boat.iter().map(|load| load.on_rails(state.motion));
        let height = if state.stop.is_some() { ball_on_level(self.setup)?.z } else { Length::default() };
        let sprung = axles_on_rails(&axles, self.hung, pitch, height);
        let forces: Vec<Force> = [from_ball, leaning].into_iter().chain(sprung).chain(boat).collect();
        let bent = bend_rails(&forces, own);
        let mean = self.stations.iter().copied().sum::<Length>() / self.stations.len() as f64;
        let weight = self.gross.si();
        let balances = bent.left.si().abs() <= BALANCED * weight * mean.si().abs()
            && bent.unbalanced.si().abs() <= BALANCED * weight;
        // No key would change that.
        if balances { Ok(bent) } else { Err(Missing::default()) }
    }

    /// What the axles press on the beam with, and the ball.
    ///
    /// Bars turn the tongue up by `M_w`, which is all of it aft of where their chains hang: ahead of that they bend it less. They
    /// move `M_w / X̄` from the ball to the axles, as much to each.
    fn axles(&self, state: &State<'_>) -> Known<(Vec<AxleForce>, Force)> {
        let (sin, cos) = state.motion.pitch.si().sin_cos();
        let hubs: PerAxle<Length> = match state.hubs.len() {
            // Where only the loads are known the frame is level.
            0 => self.stations.clone(),
            _ => state.hubs.iter().map(|hub| hub.x).collect(),
        };
        let count = hubs.len() as f64;
        let couple = state.bars.map(|bars| bars.moment).unwrap_or_default();
        let moved = Weight::from_si(couple.si() / (hubs.iter().copied().sum::<Length>() / count).si());
        let slowing = state.stop.map(|stop| &stop.trailer);
        let held_at = if slowing.is_some() { held_at(self.setup)? } else { Length::default() };
        let of_axle = |i: usize| AxleForce {
            station: self.stations[i],
            hub: hubs[i],
            spring: state.springs[i] + moved * (cos / count),
            brake: slowing.map(|slowing| slowing.brakes[i]).unwrap_or_default(),
            held_at,
        };
        // V cos φ + F sin φ: the push goes through the ball.
        let push = slowing.map(|slowing| slowing.push).unwrap_or_default();
        let up = (state.tongue_weight - moved) * cos + push * sin;
        let axles = (0..hubs.len()).map(of_axle).collect();
        Ok((axles, Force { station: Length::default(), up, couple }))
    }
}

/// How the axles hang on the rails.
fn hung(setup: &Setup) -> Known<Hung> {
    let kind = known(setup.trailer.suspension.kind, TRAILER_SUSPENSION_KIND.key())?;
    if kind == SuspensionKind::Torsion {
        return Ok(Hung::AtTubes);
    }
    let length = need(setup, TRAILER_SUSPENSION_SPRING_LENGTH)?;
    Ok(Hung::OnLeaves { length, equalized: kind == SuspensionKind::LeafEqualized })
}

/// The height at which springs are held against their brakes; none where a torsion tube or a pair of radius rods takes the couple.
fn held_at(setup: &Setup) -> Known<Length> {
    let suspension = setup.trailer.suspension;
    let by_rods = suspension.radius_rods == Some(RadiusRods::Pair);
    if by_rods || suspension.kind == Some(SuspensionKind::Torsion) {
        return Ok(Length::default());
    }
    need(setup, TRAILER_SUSPENSION_EYE_HEIGHT)
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

/// What a crossmember brings to the rails of the boat.
struct Loaded {
    station: Length,
    /// Of both bunks.
    down: Weight,
    /// How high above the frame line the boat's weight lies.
    height: Length,
}

impl Loaded {
    /// The boat's weight along the rails, and what slows it, enter by its crossmembers, as they carry it.
    fn on_rails(&self, motion: Motion) -> Force {
        let couple = motion.turns(self.down, self.height);
        Force { station: self.station, up: -motion.presses(self.down), couple }
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
