//! The whole rig backed into the water, and the places where something happens.
//!
//! | symbol | meaning |
//! |---|---|
//! | `φ` | pitch of the trailer |
//! | `x_T`, `z_k` | the keel at the transom, in the trailer frame |
//! | `d`, `t` | height of the water over the seated keel line at the transom, normal to it; tangent of the pitch |
//! | `P` | what the trailer still carries of the boat |
//! | `p`, `s_e`, `h_e` | station of the forward support; station and height of the bow eye |
//! | `δ` | how far the boat is turned bow down against the trailer |
//! | `μ'` | friction of the wedged vee |
//! | `u` | from the water's edge to where the rear wheels stand |
//!
//! The trailer rests on its springs under what is left of the boat, and what is left depends on how deep the trailer lies.
//! A trailer that is deeper carries less and so comes to rest higher, so its pitch about a held ball is the root of a rising
//! function: the pitch in the water less that at which it rests under what that water leaves.

use super::ProfilePoint;
use super::floating::{Afloat, FloatingBoat, Launched, Rests, Sinks, Supports, TipsOver, clearance};
use super::hull::{Displacement, Surface, Waterline};
use crate::mechanics::ramp::{Convoy, HitchSpring, Instant, Near, TowShape};
use crate::mechanics::road::balance::together;
use crate::mechanics::{Body, FramePoint, GroundPoint, Stance, Terrain, Undercarriage, Unsettled, settle};
use crate::numeric::root::{Bracket, edge};
use crate::quantity::{Angle, Length, Quantity, Share, Weight};
use std::cell::Cell;

/// The pitch in the water and the pitch at rest agree within this, in radians.
const PITCH_WITHIN: f64 = 1e-11;
/// A bracket of the pitch this narrow holds a step.
const PITCH_STEP_WITHIN: f64 = 1e-14;
/// A trailer pitched beyond this is not resting on its wheels.
const PITCH_LIMIT: f64 = 0.78;
/// The boat's place while it is drawn home is found this closely, in metres.
const HOME_WITHIN: f64 = 1e-11;
/// Far more steps than halving that range takes.
const MOST_STEPS: usize = 200;
/// The tow vehicle's rear axle goes so far between two looks for events, in metres.
const LOOK: f64 = 0.5;
/// The places of two events among those that are looked for.
const FLOATS: usize = 0;
const ENDS: usize = 1;
/// An event is found this closely, in metres.
const EVENT_WITHIN: f64 = 1e-7;

/// A rig that is backed into the water.
#[derive(Debug, Clone, Copy)]
pub struct Backing<'a> {
    /// The tow vehicle.
    pub tow: TowShape,
    /// How its hitch gives; none for a stiff one.
    pub hitch: Option<HitchSpring>,
    /// The trailer's axles.
    pub wheels: &'a Undercarriage,
    /// The ramp.
    pub terrain: &'a Terrain,
    /// Where the ramp meets the water: horizontally, past the first break.
    pub waters_edge: Length,
    /// The trailer alone.
    pub trailer: Body,
    /// The boat.
    pub boat: &'a FloatingBoat,
    /// Where the keel at the transom lies while the boat is seated.
    pub transom: FramePoint,
    /// Where the trailer bears the keel line.
    pub supports: Supports,
    /// The bow eye, which lies at the bow stop while the boat is seated.
    pub bow_eye: ProfilePoint,
    /// Friction of the boat on its bunks, wedged by its vee.
    pub friction: Share,
    /// The push at which the boat slides off.
    pub push: Weight,
}

/// A rig on the ramp, and how its boat floats by itself.
#[derive(Debug, Clone, Copy)]
pub struct Launch<'a> {
    rig: Backing<'a>,
    afloat: Afloat,
    surface: GroundPoint,
    is_homecoming: bool,
}

/// Trailer and boat in the water at a trial pose.
#[derive(Clone, Copy)]
struct InWater {
    trailer: Waterline,
    boat: Launched,
    /// How far aft of its seat the boat lies, in metres.
    aft: f64,
    clearance: Length,
    /// How the pitch looked for less that at which the trailer rests rises with it; none where it was not found out.
    rises: Option<f64>,
}

/// Where a pose is looked for first: a good guess saves steps and changes nothing else.
#[derive(Clone, Copy)]
struct Guess {
    rig: Near,
    /// The boat's trim in radians; none before she was looked at.
    trim: Option<f64>,
    /// How the pitch looked for less that at which the trailer rests rises with it.
    rises: Option<f64>,
}

/// Why the rig comes to no rest in the water.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Unsteady {
    /// The trailer does not rest on its wheels.
    #[error(transparent)]
    Unsettled(#[from] Unsettled),
    /// The boat tips over an end of its supports.
    #[error(transparent)]
    TipsOver(#[from] TipsOver),
    /// The pitch at which the trailer rests changes in a step with what the water carries.
    #[error("no pitch of the trailer agrees with what the water carries there")]
    NoPitch,
}

/// A position at which the rig comes to no rest.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{why}")]
pub struct Stopped {
    /// The trailer's last known position.
    pub position: Length,
    /// What happens.
    pub why: Unsteady,
}

/// The rig at one position.
#[derive(Debug, Clone, PartialEq)]
pub struct Immersion {
    /// Pose, axle loads and tongue weight.
    pub instant: Instant,
    /// The boat.
    pub boat: Launched,
    /// How the trailer lies in the water: the water over the seated keel line.
    pub trailer: Waterline,
    /// How deep the ground under the rear wheels lies; negative ahead of the water's edge.
    pub wheel_depth: Length,
    /// `u`, straight from the water's edge to where the rear wheels stand; negative ahead of it.
    pub past_edge: Length,
    /// How deep the deepest hub lies; negative while all are dry.
    pub hub_depth: Length,
    /// The force along the keel that pushes the boat off; negative where it slides by itself.
    pub push_off: Weight,
    /// How far the bow eye hangs below the bow stop, and short of it once it is drawn home; `None` unless the stern has
    /// lifted.
    pub eye: Option<EyeOff>,
    /// How far the boat lies aft of its seat; zero unless it comes home with its stern lifted.
    pub boat_aft: Length,
    /// The boat as it floats by itself lies this far clear of its supports; negative while it touches.
    pub clearance: Length,
    /// The water's surface.
    surface: Length,
    /// How far the bow stop lies below the eye of the boat as it floats by itself.
    stop_below_eye: Length,
    /// As in [`InWater`].
    rises: Option<f64>,
}

/// Where the bow eye lies while the stern has lifted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EyeOff {
    /// Below the bow stop, normal to the frame: so far it drops when the strap is let go.
    pub drop: Length,
    /// Short of the bow stop along the frame, when the eye was drawn to it and the stern sits down.
    pub short: Length,
}

/// Where the events of a launch occur; `None` for what does not happen before the ramp ends.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Events {
    /// The first hub gets wet.
    pub hubs_wet: Option<Immersion>,
    /// The stern lifts.
    pub stern_lifts: Option<Immersion>,
    /// The bow lifts: the trailer is pitched less than the boat trims afloat.
    pub bow_lifts: Option<Immersion>,
    /// The boat slides off at the push.
    pub slides: Option<Immersion>,
    /// The boat floats free.
    pub floats_free: Option<Immersion>,
    /// The eye of the floating boat is level with the bow stop.
    pub eye_level: Option<Immersion>,
    /// The end of the ramp.
    pub end: Option<Immersion>,
}

impl Immersion {
    /// How deep a point of the trailer frame lies, straight down; negative above the surface.
    pub fn depth(&self, point: FramePoint) -> Length {
        self.surface - self.instant.trailer_point(point).z
    }
}

impl<'a> Backing<'a> {
    /// The rig with its boat's own floating found.
    ///
    /// # Errors
    /// [`Sinks`] when the boat does not float.
    pub fn launch(self) -> Result<Launch<'a>, Sinks> {
        let afloat = self.boat.afloat()?;
        Ok(self.floating(afloat))
    }

    /// The rig with a boat of which only is known how it floats.
    pub fn taped_afloat(self, waterline: Waterline) -> Launch<'a> {
        self.floating(Afloat { waterline, displaced: Displacement::default() })
    }

    fn floating(self, afloat: Afloat) -> Launch<'a> {
        let surface = GroundPoint { x: self.waters_edge, z: self.terrain.height(self.waters_edge) };
        Launch { rig: self, afloat, surface, is_homecoming: false }
    }
}

impl Launch<'_> {
    /// How the boat floats by itself.
    pub fn afloat(&self) -> Afloat {
        self.afloat
    }

    /// The same rig with the boat coming home: its eye is drawn to the bow stop, so that a boat whose stern has lifted lies
    /// aft of its seat.
    #[must_use]
    pub fn coming_home(self) -> Self {
        Self { is_homecoming: true, ..self }
    }

    /// The rig with its tow vehicle's rear axle at a place, `near` a pitch of the trailer.
    ///
    /// # Errors
    /// [`Unsteady`] when the rig comes to no rest there.
    pub fn at(&self, rear_axle: Length, near: Angle) -> Result<Immersion, Unsteady> {
        self.at_about(rear_axle, Guess { rig: Near::pitched(near), trim: None, rises: None })
    }

    fn at_about(&self, rear_axle: Length, near: Guess) -> Result<Immersion, Unsteady> {
        let rig = &self.rig;
        let convoy = Convoy { tow: rig.tow, hitch: rig.hitch, body: rig.trailer, wheels: rig.wheels };
        // The last that is looked at is how the rig rests.
        let last = Cell::new(None);
        let settled = |ball, pitch| {
            let (stance, water) = self.settled(ball, pitch, near)?;
            last.set(Some(water));
            Ok::<_, Unsteady>(stance)
        };
        let instant = convoy.resting(rig.terrain, rear_axle, near.rig, settled)?;
        let water = last.take().ok_or(Unsteady::NoPitch)?;
        Ok(self.immersion(instant, water))
    }

    /// Where a point of the boat lies at a place, in ground axes. A boat that floats free lies over the support that she
    /// left last.
    pub fn boat_point(&self, at: &Immersion, point: ProfilePoint) -> GroundPoint {
        let (q, surface) = (at.boat.carried_at, Surface::of(at.boat.waterline));
        let foot = at.instant.trailer_point(self.on_frame(q));
        let (sin, cos) = at.boat.waterline.trim.si().sin_cos();
        let (along, up) = ((point.station - q.station).si(), (point.height - q.height).si());
        GroundPoint {
            // Forward along the keel line is (−cos τ, sin τ), up from it (sin τ, cos τ).
            x: foot.x + Length::from_si(up * sin - along * cos),
            z: at.surface - Length::from_si(surface.depth(point.station.si(), point.height.si())),
        }
    }

    /// How the trailer rests with its ball at a point, near a pitch and the boat as guessed, and how both lie in the water.
    fn settled(&self, ball: GroundPoint, near: Angle, guess: Guess) -> Result<(Stance, InWater), Unsteady> {
        let mut bracket = Bracket::new(-PITCH_LIMIT, PITCH_LIMIT);
        let (mut phi, mut trim, mut rises) = (near.si(), guess.trim, guess.rises);
        let mut last: Option<(f64, f64)> = None;
        for _ in 0..MOST_STEPS {
            let water = self.in_water(ball, phi, trim)?;
            trim = Some(water.boat.waterline.trim.si());
            let body = together([self.rig.trailer, self.left(&water)]);
            let near = Angle::from_si(phi);
            let stance = settle(body, self.rig.wheels, ball, self.rig.terrain, near)?;
            let miss = phi - stance.pitch.si();
            if miss.abs() <= PITCH_WITHIN {
                return Ok((stance, InWater { rises, ..water }));
            }
            bracket.look(phi, miss);
            if bracket.width() <= PITCH_STEP_WITHIN {
                break;
            }
            let secant = last.map(|(x, y)| (miss - y) / (phi - x)).filter(|rises| rises.is_finite());
            rises = secant.or(rises);
            last = Some((phi, miss));
            let Some(next) = bracket.next(Some(phi - miss / rises.unwrap_or(1.0))) else { break };
            phi = next;
        }
        Err(Unsteady::NoPitch)
    }

    /// How trailer and boat lie in the water with the ball at a point, at a pitch, the boat near a trim if one is known.
    fn in_water(&self, ball: GroundPoint, phi: f64, near: Option<f64>) -> Result<InWater, Unsteady> {
        let (xt, zk) = (self.rig.transom.x.si(), self.rig.transom.z.si());
        let t = phi.tan();
        // d = (Z − Zb) / cos φ + x_T tan φ − z_k
        let d = (self.surface.z - ball.z).si() / phi.cos() + xt * t - zk;
        let (mut aft, mut near) = (0.0, near);
        let mut last: Option<(f64, f64)> = None;
        for _ in 0..MOST_STEPS {
            let (supports, from_transom) = self.moved(aft, Surface { d, t });
            let boat = self.rig.boat.on_trailer_near(supports, self.afloat, from_transom, near)?;
            let trim = boat.waterline.trim.si();
            let turned = (phi - trim).max(0.0);
            let short = if self.is_homecoming { self.eye(turned).short.si() } else { 0.0 };
            let miss = short - aft;
            if miss.abs() <= HOME_WITHIN {
                let clearance = clearance(self.afloat, from_transom, supports);
                let trailer = Surface { d, t }.waterline();
                return Ok(InWater { trailer, boat, aft, clearance, rises: None });
            }
            // How far aft it lies hardly changes how far aft it comes to lie: the miss itself is a good step, the secant's better.
            let secant = last.map(|(x, y)| miss * (aft - x) / (y - miss)).filter(|step| step.is_finite());
            (last, near) = (Some((aft, miss)), Some(trim));
            aft += secant.unwrap_or(miss);
        }
        Err(Unsteady::NoPitch)
    }

    /// Where the trailer bears the boat, and how it lies in the water, from a transom that lies so far aft of its seat.
    fn moved(&self, aft: f64, trailer: Surface) -> (Supports, Waterline) {
        let by = Length::from_si(aft);
        let farther = |seated: ProfilePoint| ProfilePoint { station: seated.station + by, ..seated };
        let seated = self.rig.supports;
        let supports = Supports { aft: farther(seated.aft), forward: farther(seated.forward) };
        (supports, Surface { d: trailer.at(-aft), ..trailer }.waterline())
    }

    /// What is left of the boat on the trailer: vertical, where it is carried.
    fn left(&self, water: &InWater) -> Body {
        let at = water.boat.carried_at;
        let at = ProfilePoint { station: at.station - Length::from_si(water.aft), ..at };
        Body { weight: water.boat.carried, at: self.on_frame(at) }
    }

    /// A point of the seated boat in the trailer frame.
    fn on_frame(&self, point: ProfilePoint) -> FramePoint {
        let transom = self.rig.transom;
        FramePoint { x: transom.x - point.station, z: transom.z + point.height, y: transom.y }
    }

    fn immersion(&self, instant: Instant, water: InWater) -> Immersion {
        let InWater { trailer, boat, aft, clearance, rises } = water;
        let rig = &self.rig;
        let phi = instant.stance.pitch.si();
        let stands = self.rear_contact(&instant);
        let away = (stands.x - self.surface.x).si().hypot((stands.z - self.surface.z).si());
        let hubs = instant.stance.hubs.iter().map(|hub| self.surface.z - hub.z);
        let stop = instant.trailer_point(self.on_frame(rig.bow_eye)).z - self.surface.z;
        let (s_e, h_e) = (rig.bow_eye.station.si(), rig.bow_eye.height.si());
        let floating = Length::from_si(-Surface::of(self.afloat.waterline).depth(s_e, h_e));
        // F = P (μ' cos φ − sin φ)
        let push_off = boat.carried * (rig.friction.si() * phi.cos() - phi.sin());
        Immersion {
            wheel_depth: self.surface.z - stands.z,
            past_edge: Length::from_si(away.copysign((stands.x - self.surface.x).si())),
            hub_depth: hubs.fold(Length::from_si(f64::NEG_INFINITY), Length::max),
            push_off,
            eye: (boat.rests == Rests::SternLifted).then(|| self.eye(phi - boat.waterline.trim.si())),
            clearance,
            boat_aft: Length::from_si(aft),
            surface: self.surface.z,
            stop_below_eye: floating - stop,
            rises,
            instant,
            boat,
            trailer,
        }
    }

    /// Where the rear wheels stand: a radius below their hub, along their ground force or, while they hang, the slope there.
    fn rear_contact(&self, instant: &Instant) -> GroundPoint {
        let last = instant.stance.hubs.len() - 1;
        let (hub, force) = (instant.stance.hubs[last], instant.stance.ground_forces[last]);
        let radius = self.rig.wheels.axles[last].wheel_radius.si();
        let (aft, up) = (force.aft.si(), force.up.si());
        let size = aft.hypot(up);
        let ground = self.rig.terrain.at(hub.x.si());
        let (nx, nz) = if size > 0.0 { (aft / size, up / size) } else { (-ground.sin, ground.cos) };
        GroundPoint { x: hub.x - Length::from_si(radius * nx), z: hub.z - Length::from_si(radius * nz) }
    }

    /// Where the bow eye lies with the boat turned bow down on its forward support.
    fn eye(&self, delta: f64) -> EyeOff {
        let pivot = self.rig.supports.forward;
        let a = (self.rig.bow_eye.station - pivot.station).si();
        let h = (self.rig.bow_eye.height - pivot.height).si();
        let (tan, over) = (delta.tan(), 1.0 / delta.cos() - 1.0);
        EyeOff {
            // a tan δ − h_e (1 / cos δ − 1)
            drop: Length::from_si(a * tan - h * over),
            // g = h_e tan δ − a (1 / cos δ − 1)
            short: Length::from_si(h * tan - a * over),
        }
    }

    /// Backs the rig until its rearmost hub is `end` past the first break, and returns where each event first occurs.
    ///
    /// # Errors
    /// [`Stopped`] where the rig comes to no rest.
    pub fn events(&self, end: Length) -> Result<Events, Stopped> {
        Ok(self.events_until(end, end, |_| false, &[])?.0)
    }

    /// The same of a ramp that would go on at its last grade until the boat floats free, as far as `beyond` at most; and
    /// where each of these values first is zero or more on the way.
    ///
    /// # Errors
    /// [`Stopped`] where the rig comes to no rest.
    pub fn events_beyond(
        &self,
        end: Length,
        beyond: Length,
        values: &[&dyn Fn(&Immersion) -> f64],
    ) -> Result<(Events, Vec<Option<Immersion>>), Stopped> {
        let enough = |found: &[Option<Immersion>]| found[FLOATS].is_some() && found[ENDS].is_some();
        self.events_until(end, beyond, enough, values)
    }

    fn events_until(
        &self,
        end: Length,
        beyond: Length,
        enough: impl Fn(&[Option<Immersion>]) -> bool,
        values: &[&dyn Fn(&Immersion) -> f64],
    ) -> Result<(Events, Vec<Option<Immersion>>), Stopped> {
        let push = self.rig.push;
        let events: [&dyn Fn(&Immersion) -> f64; 7] = [
            &|at| at.clearance.si(),
            &|at| (at.instant.position - end).si(),
            &|at| at.hub_depth.si(),
            &|at| self.lifts(at, Rests::SternLifted),
            &|at| self.lifts(at, Rests::BowLifted),
            &|at| (push - at.push_off).si(),
            &|at| at.stop_below_eye.si(),
        ];
        let mut found = self.firsts(beyond, enough, &[&events, values].concat())?.into_iter();
        let mut next = || found.next().flatten();
        let (floats_free, end, hubs_wet) = (next(), next(), next());
        let (stern_lifts, bow_lifts, slides, eye_level) = (next(), next(), next(), next());
        // Whatever it does afloat, nothing lifts any more.
        let is_held = |at: &Immersion| {
            floats_free.as_ref().is_none_or(|free: &Immersion| at.instant.position < free.instant.position)
        };
        let others = found.collect();
        let events = Events {
            hubs_wet,
            stern_lifts: stern_lifts.filter(is_held),
            bow_lifts: bow_lifts.filter(is_held),
            slides,
            eye_level,
            end,
            floats_free,
        };
        Ok((events, others))
    }

    /// Where the stern lifts, if it does before the boat floats free or the rearmost hub is `end` past the first break.
    ///
    /// # Errors
    /// [`Stopped`] where the rig comes to no rest.
    pub fn stern_lifts(&self, end: Length) -> Result<Option<Immersion>, Stopped> {
        let enough = |found: &[Option<Immersion>]| found.iter().any(Option::is_some);
        let lifts = |at: &Immersion| self.lifts(at, Rests::SternLifted);
        let mut found = self.firsts(end, enough, &[&lifts, &|at| at.clearance.si()])?;
        let [lifts, floats] = [found[0].take(), found[1].take()];
        let first =
            |at: &Immersion| floats.as_ref().is_none_or(|free| at.instant.position < free.instant.position);
        Ok(lifts.filter(first))
    }

    /// Backs the rig from where its rearmost hub is a little ahead of the water until it is `end` past the first break, or
    /// until enough is found, and returns where each of these values first is zero or more; `None` for one that stays below.
    ///
    /// A look every half metre shows which lie before it; each is then closed in on. What comes and goes within half a metre
    /// is not seen.
    ///
    /// # Errors
    /// [`Stopped`] where the rig comes to no rest.
    pub fn firsts(
        &self,
        end: Length,
        enough: impl Fn(&[Option<Immersion>]) -> bool,
        values: &[&dyn Fn(&Immersion) -> f64],
    ) -> Result<Vec<Option<Immersion>>, Stopped> {
        let mut found = vec![None; values.len()];
        let Some(last) = self.rig.wheels.axles.last() else { return Ok(found) };
        // Everything is dry while the rearmost wheel has more than its own radius to go to the water.
        let reach = (self.rig.tow.overhang + last.station + last.wheel_radius).si();
        let mut rear = self.surface.x.si() - reach - LOOK;
        let slope = self.rig.terrain.at(self.surface.x.si());
        let first = self.at(Length::from_si(rear), Angle::from_si((-slope.sin).atan2(slope.cos)));
        let mut before = first.map_err(|why| Stopped { position: Length::default(), why })?;
        self.note(&mut found, values, &before, &before)?;
        while before.instant.position < end && !enough(&found) {
            rear += LOOK;
            let mut after = self.look(rear, &before)?;
            if after.instant.position >= end {
                after = self.first(&before, &after, |at| (at.instant.position - end).si())?;
            }
            self.note(&mut found, values, &before, &after)?;
            before = after;
        }
        Ok(found)
    }

    /// Closes in on every value that is zero or more for the first time at a look.
    fn note(
        &self,
        found: &mut [Option<Immersion>],
        values: &[&dyn Fn(&Immersion) -> f64],
        before: &Immersion,
        after: &Immersion,
    ) -> Result<(), Stopped> {
        for (found, value) in found.iter_mut().zip(values) {
            if found.is_none() && value(after) >= 0.0 {
                *found = Some(self.first(before, after, value)?);
            }
        }
        Ok(())
    }

    /// Zero or more where an end of the boat has lifted: by how far it is turned, or how far what it is carried at lies
    /// from the support that it would turn on.
    fn lifts(&self, at: &Immersion, lifted: Rests) -> f64 {
        let turned = (at.trailer.trim - at.boat.waterline.trim).si();
        let supports = self.rig.supports;
        let t = at.trailer.trim.si().tan();
        // The keel line straight below a support, which is where that would carry her.
        let below = |support: ProfilePoint| support.station - support.height * t;
        let (short, turned) = match lifted {
            Rests::SternLifted => (below(supports.forward) - at.boat.carried_at.station, turned),
            _ => (at.boat.carried_at.station - below(supports.aft), -turned),
        };
        if at.boat.rests == Rests::Seated { -short.si() } else { turned }
    }

    fn look(&self, rear: f64, near: &Immersion) -> Result<Immersion, Stopped> {
        let trim = Some(near.boat.waterline.trim.si());
        let guess = Guess { rig: Near::to(&near.instant), trim, rises: near.rises };
        let there = self.at_about(Length::from_si(rear), guess);
        there.map_err(|why| Stopped { position: near.instant.position, why })
    }

    /// The first place between two looks where a value is zero or more, as it is at the second.
    fn first(
        &self,
        before: &Immersion,
        after: &Immersion,
        value: impl Fn(&Immersion) -> f64,
    ) -> Result<Immersion, Stopped> {
        let known = |at: &Immersion| (at.instant.rear.at.x.si(), value(at));
        if known(before).1 >= 0.0 {
            return Ok(before.clone());
        }
        let (mut stopped, mut last, mut found) = (None, before.clone(), after.clone());
        edge(known(after), known(before), EVENT_WITHIN, |rear| match self.look(rear, &last) {
            Ok(there) => {
                let value = value(&there);
                if value >= 0.0 {
                    found = there.clone();
                }
                last = there;
                value
            }
            Err(why) => {
                stopped = Some(why);
                f64::NAN
            }
        });
        stopped.map_or(Ok(found), Err)
    }
}
