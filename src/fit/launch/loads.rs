//! What happens as the boat is backed into the water.

use super::home::{Home, home};
use super::hull::{HullBy, bow_eye, deadrise, hull, taped_afloat};
use super::slipway::{Event, Means, NoLaunch, Pose, Slipway, Spot, Watched, has_rollers, no_shape};
use crate::fit::bunks::{contact, steepest};
use crate::fit::known::{Known, Missing, both, known, need};
use crate::fit::model::Model;
use crate::fit::placement::{BoatPoint, Placement, stop_station, transom_station};
use crate::fit::ramp::{grade_at_water, ground, hitch_spring, tow_shape, waters_edge};
use crate::mechanics::launch::ProfilePoint;
use crate::mechanics::launch::backing::{Events, Immersion, Launch as OnRamp, Stopped, Unsteady};
use crate::mechanics::launch::floating::{FloatingBoat, Supports};
use crate::mechanics::launch::hull::{HullLines, Waterline};
use crate::mechanics::road::balance::together;
use crate::mechanics::winch::wedged;
use crate::mechanics::{Body, FramePoint, Unsettled};
use crate::quantity::{Length, Quantity, Share, Slope, Weight, unit};
use crate::rig::inputs::{
    POLICY_PUSH, RAMPS_WATER_LEVEL, TRAILER_BOW_BUNKS_FORWARD_END, TRAILER_BOW_STOP_HEIGHT,
    TRAILER_BUNKS_FRICTION, TRAILER_KEEL_ROLLERS_AFT_END, TRAILER_KEEL_ROLLERS_FORWARD_END, TRAILER_LENGTH,
};
use crate::rig::{Fluid, Ramp, Setup, Water, density};

/// So much line is held in hand: 10 ft, in metres. Common practice, no source.
const LINE_TO_SPARE: f64 = 120.0 * unit::INCH;
/// So much farther than its profile goes a ramp is tried at its last grade, to find how long it would have to be: 100 ft,
/// in metres.
const BEYOND_THE_END: f64 = 1200.0 * unit::INCH;

/// The events of what should stay dry.
const WET: [Event; 5] = [Event::TowTire, Event::TowHub, Event::Tailpipe, Event::Guides, Event::Lamps];

/// What happens on one ramp in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct Launch {
    /// What the hull's shape is known by.
    pub hull: HullBy,
    /// How the boat floats by herself.
    pub afloat: Waterline,
    /// What happens, in the order in which it does, some of it beyond the ramp's end.
    pub events: Vec<(Event, Spot)>,
    /// How everything lies where the first of these happens: the stern lifts, she slides, she floats.
    pub mark: Option<(Event, Pose)>,
    /// The stern lifting with the strap taut, which holds the bow down: what the trailer carries is the strap's pull.
    pub taut: Known<Option<Spot>>,
    /// From the water's edge along the ramp to its end.
    pub ramp_end: Length,
    /// The radius of the trailer's rear wheels.
    pub wheel_radius: Length,
    /// The least clearance of each of the boat's low points over the ramp as she comes off.
    pub clearances: Vec<Known<Length>>,
    /// Between which depths she comes home.
    pub home: Known<Home>,
    /// Whether the trailer's own buoyancy comes near its weight with the boat off.
    pub trailer_nearly_floats: bool,
}

impl Launch {
    /// Where something happens first.
    pub fn at(&self, event: Event) -> Option<&Spot> {
        self.events.iter().find(|(which, _)| *which == event).map(|(_, spot)| spot)
    }

    /// Whether she slides off by herself on the dry ramp, once she is unhooked.
    pub fn slides_dry(&self) -> bool {
        self.at(Event::Slides).is_some_and(|spot| spot.virtual_gm.is_none())
    }

    /// What ends the launch first, and where: the tow vehicle's rear hubs or its tailpipe get wet, or the ramp ends.
    pub fn must_stop(&self) -> Option<(Event, &Spot)> {
        let stops = [Event::TowHub, Event::Tailpipe, Event::Ends];
        self.events.iter().find(|(event, _)| stops.contains(event)).map(|(event, spot)| (*event, spot))
    }

    /// Where the boat comes off: at a push once she is wet, or by floating free, whichever is sooner.
    pub fn comes_off(&self) -> Option<&Spot> {
        let comes_off = |(event, spot): &&(Event, Spot)| match event {
            Event::Slides => spot.virtual_gm.is_some(),
            event => *event == Event::Floats,
        };
        self.events.iter().find(comes_off).map(|(_, spot)| spot)
    }

    /// Where the stern lifts, if that is before the boat comes off.
    pub fn lifts(&self) -> Option<&Spot> {
        let off = self.comes_off();
        let lifts = self.at(Event::SternLifts);
        lifts.filter(|lifts| off.is_none_or(|off| lifts.position < off.position))
    }

    /// Whether the launch has to stop before the boat is off.
    pub fn stops_too_soon(&self) -> bool {
        let off = self.comes_off();
        self.must_stop().is_some_and(|(_, stop)| off.is_none_or(|off| stop.position < off.position))
    }
}

/// Launching on one ramp in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct LaunchLoads {
    /// The ramp.
    pub ramp: usize,
    /// The case, counted among those asked for.
    pub case: usize,
    /// What happens.
    pub launch: Known<Result<Launch, NoLaunch>>,
    /// The line that one person needs from the bow eye to the winch's post: a tape alone gives it.
    pub line: Known<Length>,
    /// The ramp's grade at the water's edge.
    pub grade: Known<Slope>,
}

impl LaunchLoads {
    /// What happens on a ramp in one of the cases asked for, and what needs no launching.
    pub(in crate::fit) fn of(
        setup: &Setup,
        ramp: usize,
        case: usize,
        launch: Known<Result<Launch, NoLaunch>>,
    ) -> Self {
        let (line, grade) = (launch_line(setup), grade_at_water(setup, Some(ramp)));
        Self { ramp, case, launch, line, grade }
    }

    /// What happens, where there is launching.
    ///
    /// # Errors
    /// The keys that are missing; none where there is no launching.
    pub fn found(&self) -> Known<&Launch> {
        match &self.launch {
            Ok(Ok(launch)) => Ok(launch),
            Ok(Err(_)) => Err(Missing::default()),
            Err(missing) => Err(missing.clone()),
        }
    }
}

impl Slipway {
    /// Every event of backing in, and where each of what should stay [dry](WET) does not.
    fn looked_for(
        &self,
        on_ramp: &OnRamp<'_>,
        beyond: Length,
    ) -> Result<(Events, Vec<Option<Immersion>>), Stopped> {
        let or_never = |depth: Known<Length>| depth.map_or(f64::NEG_INFINITY, Quantity::si);
        let (limit, radius) = (&self.watched.tire_wet_limit, &self.watched.tire_radius);
        let dry = |dry: Known<Length>| or_never(dry.map(|dry| -dry));
        let values: [&dyn Fn(&Immersion) -> f64; WET.len()] = [
            &|at| or_never(limit.clone().map(|limit| self.spot(at).tow_tire - limit)),
            &|at| or_never(radius.clone().map(|radius| self.tow_hub(at, radius))),
            &|at| dry(self.spot(at).tailpipe),
            &|at| dry(self.spot(at).guides),
            &|at| dry(self.spot(at).lamps),
        ];
        on_ramp.events_beyond(self.end, beyond, &values)
    }

    /// Backs the rig into the water.
    ///
    /// # Errors
    /// Why there is no launching.
    pub fn launch(&self) -> Result<Launch, NoLaunch> {
        let beyond = self.end + Length::from_si(BEYOND_THE_END);
        let on_ramp = self.backing(self.supports)?;
        let (found, wet) = self.looked_for(&on_ramp, beyond)?;
        let seen = [
            (Event::HubsWet, &found.hubs_wet),
            (Event::SternLifts, &found.stern_lifts),
            (Event::BowLifts, &found.bow_lifts),
            (Event::Slides, &found.slides),
            (Event::Floats, &found.floats_free),
            (Event::Ends, &found.end),
        ];
        let seen = seen.into_iter().chain(WET.into_iter().zip(&wet));
        let spot = |(event, at): (Event, &Option<Immersion>)| Some((event, self.spot(at.as_ref()?)));
        let mut events: Vec<(Event, Spot)> = seen.filter_map(spot).collect();
        events.sort_by(|(_, a), (_, b)| a.position.si().total_cmp(&b.position.si()));
        if self.taped_afloat.is_some() {
            // Without a shape nothing is known of her before she floats free; the tow vehicle stands where it does.
            let free = found.floats_free.as_ref().map_or(f64::INFINITY, |at| at.instant.position.si());
            let of_tow = [Event::TowTire, Event::TowHub, Event::Tailpipe, Event::Ends];
            events.retain(|(event, spot)| spot.position.si() >= free || of_tow.contains(event));
        }
        // She comes off between the first and the last of these.
        let places: Vec<&Immersion> =
            [&found.stern_lifts, &found.slides, &found.floats_free].into_iter().flatten().collect();
        Ok(Launch {
            hull: self.hull,
            afloat: on_ramp.afloat().waterline,
            mark: [
                (Event::SternLifts, &found.stern_lifts),
                (Event::Slides, &found.slides),
                (Event::Floats, &found.floats_free),
            ]
            .into_iter()
            .find_map(|(event, at)| Some((event, Pose::at(&on_ramp, at.as_ref()?)))),
            taut: self.taut(beyond)?,
            ramp_end: self.ramp_end(),
            wheel_radius: self.wheels.axles.last().map_or_else(Length::default, |axle| axle.wheel_radius),
            clearances: self.clearances(&on_ramp, &places),
            home: match no_shape(self.hull) {
                Some(missing) => Err(missing),
                None => home(self, &on_ramp, beyond, &events)?,
            },
            trailer_nearly_floats: self.nearly_floats(),
            events,
        })
    }
}

impl Model<'_> {
    /// Backs the rig into the water on a ramp in a case.
    ///
    /// # Errors
    /// The keys that are missing; inside, why there is no launching.
    pub fn launching(&self, ramp: usize, case: usize) -> Known<Result<Launch, NoLaunch>> {
        Ok(self.slipway(ramp, case)?.and_then(|slipway| slipway.launch()))
    }

    pub(in crate::fit) fn slipway(&self, ramp: usize, case: usize) -> Known<Result<Slipway, NoLaunch>> {
        let setup = self.proposed();
        let runs = &setup.ramps[ramp];
        let has_water = known(runs.has_water().then_some(()), RAMPS_WATER_LEVEL.of(ramp));
        let shape = both(both(hull(setup), taped_afloat(setup)), both(bow_eye(setup), supports(setup)));
        let bodies = both(both(self.trailer().clone(), self.boat(case)), Placement::of(setup));
        let rolling = both(self.undercarriage().as_ref().map_err(Clone::clone), tow_shape(setup));
        let bears = both(friction(setup), need(setup, POLICY_PUSH));
        let needed =
            both(both(both(ground(runs, ramp), has_water), shape), both(both(bodies, rolling), bears))?;
        let ((((terrain, end), ()), shape), ((bodies, (wheels, tow)), (friction, push))) = needed;
        let (((lines, taped_afloat), (bow_eye, supports)), ((trailer, boat), placement)) = (shape, bodies);
        let wheels = match wheels {
            Ok(wheels) => wheels,
            Err(why) => return Ok(Err(unsettled(*why))),
        };
        let hitch = hitch_spring(setup, together([trailer, boat]), wheels)?;
        let transom = placement.frame(BoatPoint::default());
        Ok(edge_of_water(runs, end).and_then(|edge| {
            Ok(Slipway {
                friction,
                terrain,
                edge,
                end,
                wheels: wheels.clone(),
                trailer,
                boat: floating(setup, ramp, lines?, boat, transom),
                transom,
                supports,
                bow_eye,
                push,
                tow,
                taped_afloat,
                hitch: hitch.map_err(unsettled)?,
                hull: HullBy::of(setup),
                watched: Watched::of(setup),
                home: Means::of(setup),
            })
        }))
    }
}

fn unsettled(why: Unsettled) -> NoLaunch {
    NoLaunch::Stopped(Stopped { position: Length::default(), why: Unsteady::Unsettled(why) })
}

/// Where the water begins, past the first break.
fn edge_of_water(ramp: &Ramp, end: Length) -> Result<Length, NoLaunch> {
    match waters_edge(ramp) {
        Some(edge) if edge < end => Ok(edge),
        _ => Err(NoLaunch::WaterBelowEnd),
    }
}

/// The boat as a floating body.
fn floating(setup: &Setup, ramp: usize, hull: HullLines, boat: Body, transom: FramePoint) -> FloatingBoat {
    let centre = ProfilePoint { station: transom.x - boat.at.x, height: boat.at.z - transom.z };
    let fluid = match setup.ramps[ramp].water {
        Some(Water::Sea) => Fluid::SeaWater,
        Some(Water::Fresh) | None => Fluid::FreshWater,
    };
    // A boat without a shape is left out until she floats.
    let weight = if no_shape(HullBy::of(setup)).is_some() { Weight::default() } else { boat.weight };
    FloatingBoat { hull, weight, centre, water: density(fluid).0 }
}

/// Friction, with what the wedge of the vee makes of it.
fn friction(setup: &Setup) -> Known<Share> {
    let deadrise = steepest(setup).or_else(|_| deadrise(setup));
    both(need(setup, TRAILER_BUNKS_FRICTION), deadrise).map(|(friction, deadrise)| wedged(friction, deadrise))
}

/// Where the trailer bears the boat's keel line: on rollers along the keel, else from the main bunks' contact
/// to the bow bunks, where these are said to bear.
fn supports(setup: &Setup) -> Known<Supports> {
    let transom = transom_station(setup);
    // A tongue drawn in brings what stays with the frame nearer the ball.
    let drawn_in = setup.shift.tongue.unwrap_or_default();
    let keel = |station: Length| ProfilePoint { station, ..ProfilePoint::default() };
    let at = |x: Known<Length>| both(transom.clone(), x).map(|(transom, x)| keel(transom - (x - drawn_in)));
    if has_rollers(setup) {
        let aft = at(need(setup, TRAILER_KEEL_ROLLERS_AFT_END));
        return both(aft, at(need(setup, TRAILER_KEEL_ROLLERS_FORWARD_END)))
            .map(|(aft, forward)| Supports { aft, forward });
    }
    let (transom, contact) = both(transom.clone(), contact(setup))?;
    // The boat does not lie on its bunks.
    let contact = contact.ok_or_else(Missing::default)?;
    let forward = match setup.trailer.bow_bunks.bears {
        Some(true) => at(need(setup, TRAILER_BOW_BUNKS_FORWARD_END))?,
        Some(false) | None => keel(transom - contact.forward),
    };
    Ok(Supports { aft: keel(transom - contact.aft), forward })
}

/// From the bow stop to the trailer's tail, twice the stop's height and 10 ft more. Common practice, no source.
fn launch_line(setup: &Setup) -> Known<Length> {
    let ends = both(need(setup, TRAILER_LENGTH), stop_station(setup));
    both(ends, need(setup, TRAILER_BOW_STOP_HEIGHT))
        .map(|((tail, stop), height)| tail - stop + height * 2.0 + Length::from_si(LINE_TO_SPARE))
}
