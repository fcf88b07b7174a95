//! The rig on its ramp, ready to be backed into the water, and what is seen of it at each place.

use super::hull::HullBy;
use crate::fit::known::{Known, Missing, both, known, need};
use crate::fit::winch::{line, pull_home};
use crate::mechanics::launch::ProfilePoint;
use crate::mechanics::launch::backing::{Backing, Immersion, Launch as OnRamp, Stopped};
use crate::mechanics::launch::floating::{FloatingBoat, Sinks, Supports};
use crate::mechanics::launch::hull::{BadHull, Waterline};
use crate::mechanics::ramp::{HitchSpring, TowShape};
use crate::mechanics::{Body, FramePoint, GroundPoint, PerAxle, Terrain, Undercarriage};
use crate::quantity::{Angle, Length, Quantity, Share, Weight, unit};
use crate::rig::inputs::{
    BOAT_HULL_CHINE_HALF_BREADTH, BOAT_LOW_POINTS_HEIGHT, BOAT_LOW_POINTS_STATION, Handle, POLICY_HOME_GAP,
    TOW_TAILPIPE_HEIGHT, TOW_TAILPIPE_STATION, TOW_TIRE_RADIUS, TOW_TIRE_WET_LIMIT, TRAILER_GUIDES_STATION,
    TRAILER_GUIDES_TOP, TRAILER_LAMPS_HEIGHT, TRAILER_LENGTH, TRAILER_LEVEL_BALL_HEIGHT,
    TRAILER_SKIPPER_HEIGHT, TRAILER_SKIPPER_STATION,
};
use crate::rig::{KeelRollers, Material, Setup};

/// What a tire of [`TIRE_OF_THAT`] displaces, in newtons: 130 lb. Derived from the sizes of invented trailers.
const BUOYANT_TIRE: f64 = 130.0 * unit::POUND;
/// The radius of a tire that displaces that: 13.2 in, in metres.
const TIRE_OF_THAT: f64 = 13.2 * unit::INCH;
/// What a steel frame displaces of its weight: water over steel.
const STEEL_FLOATS: f64 = 0.13;
/// The same of aluminium.
const ALUMINIUM_FLOATS: f64 = 0.38;
/// A trailer that floats by so much of its weight may slip on the ramp. Common practice, no source.
const NEARLY: f64 = 0.75;
/// The rig at one moment of launching.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// The trailer's rearmost hub past the first break.
    pub position: Length,
    /// From the water's edge along the ramp to where the trailer's rear wheels stand.
    pub along: Length,
    /// How deep the rear wheels stand.
    pub wheel_depth: Length,
    /// What the trailer still carries of the boat.
    pub carried: Weight,
    /// Tongue weight.
    pub tongue: Weight,
    /// The axles' loads, front to rear.
    pub axles: PerAxle<Weight>,
    /// How deep the tow vehicle's rear tires stand; negative while they are dry.
    pub tow_tire: Length,
    /// The tow vehicle's tailpipe above the water.
    pub tailpipe: Known<Length>,
    /// The tops of the guides' posts above the water.
    pub guides: Known<Length>,
    /// The trailer's lamps above the water.
    pub lamps: Known<Length>,
    /// How deep the water is where the skipper stands, over the skipper's feet.
    pub skipper: Known<Length>,
    /// The height of the boat's metacentre over its centre of gravity, less what the support takes of it; `None` while
    /// the boat is dry.
    pub virtual_gm: Option<Length>,
}

/// How trailer, tow vehicle and boat lie at one moment, in ground axes.
#[derive(Debug, Clone, PartialEq)]
pub struct Pose {
    /// The ball.
    pub ball: GroundPoint,
    /// The frame's pitch, positive nose up.
    pub pitch: Angle,
    /// The hubs of the trailer's wheels.
    pub hubs: PerAxle<GroundPoint>,
    /// Where the tow vehicle's front and rear wheels stand.
    pub tow: [GroundPoint; 2],
    /// The keel at the transom.
    pub transom: GroundPoint,
    /// The keel line's trim, positive bow up.
    pub trim: Angle,
}

/// A moment at which something happens, and where that is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Event {
    /// The trailer's hubs get wet.
    HubsWet,
    /// The stern lifts.
    SternLifts,
    /// The bow lifts.
    BowLifts,
    /// The boat slides off at a push.
    Slides,
    /// The boat floats free.
    Floats,
    /// The tow vehicle's rear tires stand as deep as they may.
    TowTire,
    /// The tow vehicle's rear hubs get wet.
    TowHub,
    /// Its tailpipe gets wet.
    Tailpipe,
    /// The guides are awash.
    Guides,
    /// The trailer's lamps get wet.
    Lamps,
    /// The ramp ends.
    Ends,
}

/// Why there is no launching on a ramp.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NoLaunch {
    /// The water does not reach up to the ramp.
    #[error("the water lies below the end of the ramp")]
    WaterBelowEnd,
    /// The boat does not float.
    #[error(transparent)]
    Sinks(#[from] Sinks),
    /// The sections make no hull.
    #[error(transparent)]
    NoHull(#[from] BadHull),
    /// The rig does not rest there.
    #[error(transparent)]
    Stopped(#[from] Stopped),
}

/// A rig made ready to be backed into the water: all that its launch reads, so that of two alike one need not be worked out.
#[derive(Debug, PartialEq)]
pub(in crate::fit) struct Slipway {
    pub friction: Share,
    pub terrain: Terrain,
    pub edge: Length,
    /// Where the profile ends, past the first break.
    pub end: Length,
    pub wheels: Undercarriage,
    pub trailer: Body,
    pub boat: FloatingBoat,
    pub transom: FramePoint,
    pub supports: Supports,
    pub bow_eye: ProfilePoint,
    pub push: Weight,
    pub tow: TowShape,
    pub hitch: Option<HitchSpring>,
    /// How the boat floats, where nothing else is known of her shape.
    pub taped_afloat: Option<Waterline>,
    pub hull: HullBy,
    pub watched: Watched,
    pub home: Known<Means>,
}

/// What is watched as a rig goes in, beside how it lies.
#[derive(Debug, PartialEq)]
pub(in crate::fit) struct Watched {
    /// The tow vehicle's rear tires: their radius, and how deep they may stand.
    pub tire_radius: Known<Length>,
    pub tire_wet_limit: Known<Length>,
    /// Behind the rear axle, and above the ground.
    tailpipe: Known<(Length, Length)>,
    guides: Known<FramePoint>,
    lamps: Known<FramePoint>,
    skipper: Known<FramePoint>,
    low_points: Vec<Known<ProfilePoint>>,
    /// By axle.
    tire_counts: PerAxle<f64>,
    material: Option<Material>,
}

impl Watched {
    /// What a setup says of them.
    pub fn of(setup: &Setup) -> Self {
        let low_points = setup.boat.low_points.iter().enumerate().map(|(i, point)| {
            let station = known(point.station, BOAT_LOW_POINTS_STATION.of(i));
            let (station, height) = both(station, known(point.height, BOAT_LOW_POINTS_HEIGHT.of(i)))?;
            Ok(ProfilePoint { station, height })
        });
        let axles = setup.trailer.axles.iter();
        Self {
            tire_radius: need(setup, TOW_TIRE_RADIUS),
            tire_wet_limit: need(setup, TOW_TIRE_WET_LIMIT),
            tailpipe: both(need(setup, TOW_TAILPIPE_STATION), need(setup, TOW_TAILPIPE_HEIGHT)),
            guides: on_trailer(setup, TRAILER_GUIDES_STATION, TRAILER_GUIDES_TOP),
            lamps: on_trailer(setup, TRAILER_LENGTH, TRAILER_LAMPS_HEIGHT),
            skipper: on_trailer(setup, TRAILER_SKIPPER_STATION, TRAILER_SKIPPER_HEIGHT),
            low_points: low_points.collect(),
            tire_counts: axles.map(|axle| f64::from(axle.tires.count.unwrap_or(2))).collect(),
            material: setup.trailer.material,
        }
    }
}

/// What draws the boat home, and what has to stay dry meanwhile.
#[derive(Debug, PartialEq)]
pub(in crate::fit) struct Means {
    /// How far short of the stop she may sit down.
    pub gap: Length,
    /// Of the tow vehicle's rear wheels.
    pub radius: Length,
    /// The line's angle, and the pull, with the eye at the stop.
    pub angle: Angle,
    pub pull: Weight,
}

impl Means {
    /// What a setup says of them.
    ///
    /// # Errors
    /// The keys that are missing.
    pub fn of(setup: &Setup) -> Known<Self> {
        let asked = both(need(setup, POLICY_HOME_GAP), need(setup, TOW_TIRE_RADIUS));
        let ((gap, radius), ((angle, _), pull)) = both(asked, both(line(setup), pull_home(setup)))?;
        Ok(Self { gap, radius, angle, pull })
    }
}

impl Pose {
    /// How everything lies at a place.
    pub(super) fn at(on_ramp: &OnRamp<'_>, at: &Immersion) -> Self {
        let instant = &at.instant;
        Self {
            ball: instant.ball,
            pitch: instant.stance.pitch,
            hubs: instant.stance.hubs.clone(),
            tow: [instant.front.at, instant.rear.at],
            transom: on_ramp.boat_point(at, ProfilePoint::default()),
            trim: at.boat.waterline.trim,
        }
    }
}

impl Slipway {
    /// The rig on its ramp, the boat turning on the forward end of these supports.
    pub fn backing(&self, supports: Supports) -> Result<OnRamp<'_>, Sinks> {
        let rig = Backing {
            tow: self.tow,
            hitch: self.hitch,
            wheels: &self.wheels,
            terrain: &self.terrain,
            waters_edge: self.edge,
            trailer: self.trailer,
            boat: &self.boat,
            transom: self.transom,
            supports,
            bow_eye: self.bow_eye,
            friction: self.friction,
            push: self.push,
        };
        match self.taped_afloat {
            Some(afloat) => Ok(rig.taped_afloat(afloat)),
            None => rig.launch(),
        }
    }

    /// All that is shown of the rig at a place.
    pub fn spot(&self, at: &Immersion) -> Spot {
        let surface = self.terrain.height(self.edge);
        let known = |point: &Known<FramePoint>| point.as_ref().map(|point| *point).map_err(Clone::clone);
        let dry = |point| known(point).map(|point| -at.depth(point));
        let Watched { tailpipe, guides, lamps, skipper, .. } = &self.watched;
        Spot {
            position: at.instant.position,
            along: at.past_edge,
            wheel_depth: at.wheel_depth,
            carried: at.boat.carried,
            tongue: at.instant.stance.tongue_weight,
            axles: at.instant.stance.axle_loads.clone(),
            tow_tire: surface - at.instant.rear.at.z,
            tailpipe: tailpipe.clone().map(|(aft, up)| at.instant.tow_point(aft, up).z - surface),
            guides: dry(guides),
            lamps: dry(lamps),
            skipper: dry(skipper).map(|dry| -dry),
            virtual_gm: self.virtual_gm(at),
        }
    }

    /// How deep the tow vehicle's rear hubs lie, on wheels of this radius.
    pub fn tow_hub(&self, at: &Immersion, radius: Length) -> Length {
        self.terrain.height(self.edge) - at.instant.tow_point(Length::default(), radius).z
    }

    /// `KM w Vol / W − KG`
    fn virtual_gm(&self, at: &Immersion) -> Option<Length> {
        let displaced = at.boat.displaced.filter(|_| self.taped_afloat.is_none())?;
        let borne = (self.boat.weight - at.boat.carried) / self.boat.weight;
        Some(displaced.metacentre * borne - self.boat.centre.height)
    }

    /// The least clearance of each of the boat's low points over the ramp at these places.
    pub fn clearances(&self, on_ramp: &OnRamp<'_>, places: &[&Immersion]) -> Vec<Known<Length>> {
        let points = self.watched.low_points.iter().cloned().map(|point| {
            let point = point?;
            let clear = places.iter().map(|at| {
                let lies = on_ramp.boat_point(at, point);
                lies.z - self.terrain.height(lies.x)
            });
            clear.reduce(Length::min).ok_or_else(Missing::default)
        });
        points.collect()
    }

    /// From the water's edge along the ramp to its end.
    pub fn ramp_end(&self) -> Length {
        let fall = self.terrain.height(self.edge) - self.terrain.height(self.end);
        (self.end - self.edge).hypot(fall)
    }

    /// Whether the trailer's own buoyancy, with the boat off, comes near its weight.
    pub fn nearly_floats(&self) -> bool {
        let tires = self.wheels.axles.iter().zip(&self.watched.tire_counts).map(|(wheel, count)| {
            // 130 lb (R / 13.2 in)³ a tire
            count * BUOYANT_TIRE * (wheel.wheel_radius.si() / TIRE_OF_THAT).powi(3)
        });
        let metal = match self.watched.material {
            Some(Material::Aluminium) => ALUMINIUM_FLOATS,
            Some(Material::Steel) | None => STEEL_FLOATS,
        };
        let weight = self.trailer.weight.si();
        tires.sum::<f64>() + metal * weight > NEARLY * weight
    }

    /// The stern lifting with the strap taut.
    pub fn taut(&self, beyond: Length) -> Result<Known<Option<Spot>>, NoLaunch> {
        if let Some(missing) = no_shape(self.hull) {
            return Ok(Err(missing));
        }
        let strap = Supports { forward: self.bow_eye, ..self.supports };
        let lifts = self.backing(strap)?.stern_lifts(beyond)?;
        Ok(Ok(lifts.map(|at| self.spot(&at))))
    }
}

/// What is missing where only how the boat floats is known.
pub(super) fn no_shape(hull: HullBy) -> Option<Missing> {
    let by_afloat = hull == HullBy::Afloat;
    by_afloat.then(|| Missing::key(BOAT_HULL_CHINE_HALF_BREADTH.key()))
}

/// Whether the boat rests on rollers along her keel.
pub(super) fn has_rollers(setup: &Setup) -> bool {
    setup.trailer.keel_rollers != KeelRollers::default()
}

/// A point of the trailer, stated behind the ball and above level ground.
fn on_trailer(setup: &Setup, station: Handle<Length>, height: Handle<Length>) -> Known<FramePoint> {
    let at = both(need(setup, station), need(setup, height));
    let ((station, height), level) = both(at, need(setup, TRAILER_LEVEL_BALL_HEIGHT))?;
    let drawn_in = setup.shift.tongue.unwrap_or_default();
    Ok(FramePoint { x: station - drawn_in, z: height - level, y: Length::default() })
}
