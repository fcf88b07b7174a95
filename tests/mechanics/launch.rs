//! Launching against closed forms of a prismatic vee, worked figures, a polyhedron's volume; and what must hold of any boat.

use crate::cases::cases;
use bunkline::mechanics::launch::ProfilePoint;
use bunkline::mechanics::launch::backing::{Backing, Events, Immersion, Launch};
use bunkline::mechanics::launch::floating::{FloatingBoat, Launched, Rests, Sinks, Supports};
use bunkline::mechanics::launch::hull::{
    BadHull, Displacement, HalfPoint, HullByTape, HullLines, HullSection, Waterline,
};
use bunkline::mechanics::ramp::{HitchSpring, TowShape};
use bunkline::mechanics::road::balance::together;
use bunkline::mechanics::road::settle::MeasuredAxle;
use bunkline::mechanics::terrain::RampRun;
use bunkline::mechanics::{Body, FramePoint, GroundPoint, Spring, Terrain, Undercarriage, settle};
use bunkline::quantity::unit::{INCH, POUND};
use bunkline::quantity::{Angle, Density, Length, Quantity, Rate, STANDARD_GRAVITY, Share, Slope, Weight};
use proptest::prelude::*;

fn inches(number: f64) -> Length {
    Length::from_si(number * INCH)
}

fn pounds(number: f64) -> Weight {
    Weight::from_si(number * POUND)
}

fn point(station: f64, height: f64) -> ProfilePoint {
    ProfilePoint { station: inches(station), height: inches(height) }
}

fn half(half_breadth: f64, height: f64) -> HalfPoint {
    HalfPoint { half_breadth: inches(half_breadth), height: inches(height) }
}

/// Water of 64 lb in a cubic foot.
fn salt() -> Density {
    Density::from_si(64.0 * POUND / STANDARD_GRAVITY / (12.0 * INCH).powi(3))
}

/// What a cubic inch of it weighs, in pounds.
const SALT: f64 = 64.0 / 1728.0;

fn water(draft: f64, tangent: f64) -> Waterline {
    Waterline { draft: inches(draft), trim: Angle::from_si(tangent.atan()) }
}

/// Whether a number is the printed one, to half of its last digit.
#[track_caller]
fn printed(found: f64, worked: f64, digits: i32) {
    let half = 0.5 * 10f64.powi(-digits) * (1.0 + 1e-9);
    assert!((found - worked).abs() <= half, "found {found}, worked {worked}");
}

/// The worked vee: 264 in long, deadrise 20°, chine 16 in up, walls above.
struct Vee;

impl Vee {
    const CHINE: f64 = 16.0;
    const LENGTH: f64 = 264.0;

    fn tan_beta() -> f64 {
        20f64.to_radians().tan()
    }

    fn hull() -> HullLines {
        let b = Self::CHINE / Self::tan_beta();
        let at = |station| HullSection {
            station: inches(station),
            keel: inches(0.0),
            chine: half(b, Self::CHINE),
            sheer: half(b, 60.0),
        };
        HullLines::new(&[at(0.0), at(Self::LENGTH)]).expect("a hull")
    }

    fn boat() -> FloatingBoat {
        FloatingBoat { hull: Self::hull(), weight: pounds(8000.0), centre: point(110.0, 30.0), water: salt() }
    }

    /// Volume and station of its centre, while the wet length is within the hull.
    fn volume_and_station(d: f64, t: f64) -> (f64, f64) {
        let c = (d - Self::CHINE).max(0.0);
        let cubes = d.powi(3) - c.powi(3);
        (cubes / (3.0 * t * Self::tan_beta()), (d.powi(4) - c.powi(4)) / (4.0 * t * cubes))
    }

    /// Height of the volume's centre, and of the metacentre, by the same difference of two wedges: below the chine at d/2,
    /// and for the part that is missing above it the like wedge of depth c, raised by the chine's height.
    fn heights(d: f64, t: f64) -> (f64, f64) {
        let c = (d - Self::CHINE).max(0.0);
        let wedge = |d: f64| d.powi(3) / (3.0 * t * Self::tan_beta());
        let volume = wedge(d) - wedge(c);
        let height = (wedge(d) * d / 2.0 - wedge(c) * (Self::CHINE + c / 2.0)) / volume;
        // I_T = 2/3 ∫ b³ ds: the vee's waterline tapers over the length that is wet to below the chine, and is the chine's
        // breadth aft of it.
        let b = Self::CHINE / Self::tan_beta();
        let tapers = d.min(Self::CHINE);
        let across = 2.0 / 3.0 * (tapers.powi(4) / (4.0 * t * Self::tan_beta().powi(3)) + b.powi(3) * c / t);
        (height, height + across / volume)
    }
}

fn cubic_inches(displaced: &Displacement) -> f64 {
    displaced.volume.si() / INCH.powi(3)
}

fn in_inches(length: Length) -> f64 {
    length.si() / INCH
}

fn in_pounds(weight: Weight) -> f64 {
    weight.si() / POUND
}

#[test]
fn a_prismatic_vee_displaces_what_its_closed_form_gives() {
    let t = 0.14;
    for d in [3.0, 12.0, 15.9, 16.1, 28.0, 36.9] {
        let below = Vee::hull().below(water(d, t)).expect("wet");
        let (volume, station) = Vee::volume_and_station(d, t);
        let (height, metacentre) = Vee::heights(d, t);
        let pairs = [
            (cubic_inches(&below), volume),
            (in_inches(below.centre.station), station),
            (in_inches(below.centre.height), height),
            (in_inches(below.metacentre), metacentre),
        ];
        for (found, closed) in pairs {
            assert!((found - closed).abs() <= 1e-12 * closed, "{d}: {found}, closed form {closed}");
        }
    }
    let below = Vee::hull().below(water(12.0, t)).expect("wet");
    printed(cubic_inches(&below), 11_303.9, 1);
    printed(in_inches(below.centre.station), 21.429, 3);
    printed(in_inches(below.centre.height), 6.0, 3);
    printed(in_inches(below.metacentre), 51.29, 2);
    let below = Vee::hull().below(water(28.0, t)).expect("wet");
    printed(cubic_inches(&below), 132_297.6, 1);
    printed(in_inches(below.centre.station), 52.441, 3);
    printed(in_inches(below.centre.height), 13.316, 3);
}

/// The draft on the trailer at which the moment about the forward support vanishes, by halving the closed form.
fn vee_lifts(p: f64, t: f64) -> f64 {
    let moment = |d: f64| {
        let (volume, station) = Vee::volume_and_station(d, t);
        let (height, _) = Vee::heights(d, t);
        8000.0 * (p - 110.0 + 30.0 * t) - SALT * volume * (p - station + height * t)
    };
    let (mut holds, mut lifts) = (1.0, t * Vee::LENGTH);
    for _ in 0..100 {
        let middle = f64::midpoint(holds, lifts);
        if moment(middle) > 0.0 { holds = middle } else { lifts = middle }
    }
    holds
}

fn vee_on_trailer(p: f64, d: f64) -> Launched {
    let boat = Vee::boat();
    let supports = Supports { aft: point(0.0, 0.0), forward: point(p, 0.0) };
    let afloat = boat.afloat().expect("it floats");
    boat.on_trailer(supports, afloat, water(d, 0.14)).expect("it does not tip")
}

#[test]
fn a_vees_stern_lifts_where_moments_balance() {
    for (p, draft, carried) in [(168.0, 26.216, 3893.0), (230.0, 29.532, 2360.0)] {
        let d = vee_lifts(p, 0.14);
        printed(d, draft, 3);
        let before = vee_on_trailer(p, d - 1e-6);
        let after = vee_on_trailer(p, d + 1e-6);
        assert_eq!((before.rests, after.rests), (Rests::Seated, Rests::SternLifted));
        printed(in_pounds(before.carried), carried, 0);
        // Nothing jumps: over 2e-6 in the load changes by that much of the waterplane's 670 lb/in.
        assert!((in_pounds(before.carried) - in_pounds(after.carried)).abs() < 2e-2);
        assert!((in_inches(before.carried_at.station) - p).abs() < 1e-4);
    }
    // The virtual metacentre of the boat on keel rollers: KM w Vol / W − KG.
    let lifted = vee_on_trailer(230.0, vee_lifts(230.0, 0.14));
    let displaced = lifted.displaced.expect("wet");
    printed(in_inches(displaced.metacentre), 60.49, 2);
    let afloat_share = cubic_inches(&displaced) * SALT / 8000.0;
    printed(in_inches(displaced.metacentre) * afloat_share - 30.0, 12.64, 2);
}

#[test]
fn a_vee_floats_at_its_worked_draft_and_free_of_its_support() {
    let boat = Vee::boat();
    let afloat = boat.afloat().expect("it floats").waterline;
    printed(in_inches(afloat.draft), 22.177, 3);
    printed(afloat.trim.si().to_degrees(), 2.136, 3);
    // d = (T − p tan τ) cos τ / cos θ + p t
    let (theta, tau) = (0.14f64.atan(), afloat.trim.si());
    let free = (in_inches(afloat.draft) - 168.0 * tau.tan()) * tau.cos() / theta.cos() + 168.0 * 0.14;
    printed(free, 39.575, 3);
    let (before, after) = (vee_on_trailer(168.0, free - 1e-6), vee_on_trailer(168.0, free + 1e-6));
    assert_eq!((before.rests, after.rests), (Rests::SternLifted, Rests::Afloat));
    assert!(in_pounds(before.carried) > 0.0 && in_pounds(before.carried) < 1e-2);
    assert_eq!(after.carried, pounds(0.0));
    assert!((before.waterline.trim - afloat.trim).si().abs() < 1e-6);
}

/// A rig in inches and pounds.
struct Worked {
    boat: FloatingBoat,
    supports: Supports,
    wheels: Undercarriage,
    terrain: Terrain,
    trailer: Body,
    transom: FramePoint,
    bow_eye: ProfilePoint,
    hitch: Option<HitchSpring>,
}

fn frame(x: f64, z: f64) -> FramePoint {
    FramePoint { x: inches(x), z: inches(z), ..FramePoint::default() }
}

/// A ramp of one grade, so long that the whole rig stands on it before anything gets wet.
fn long_ramp(grade: f64) -> Terrain {
    let run = RampRun { length: inches(3000.0), grade: Slope(grade) };
    Terrain::ramp(&[run], Length::default()).expect("a ramp")
}

/// Axles without bump, of this rate each in pounds an inch, half of it from the tires' side.
fn axles(stations: &[f64], rate: f64, radius: f64) -> bunkline::mechanics::PerAxle<MeasuredAxle> {
    let twice = Rate::from_si(2.0 * rate * POUND / INCH);
    let axle = |station: &f64| MeasuredAxle {
        station: inches(*station),
        wheel_radius: inches(radius),
        spring: Spring::new(twice, twice, inches(1000.0)),
    };
    stations.iter().map(axle).collect()
}

fn keel(boat: &FloatingBoat, transom: FramePoint) -> Body {
    let at = FramePoint {
        x: transom.x - boat.centre.station,
        z: transom.z + boat.centre.height,
        ..FramePoint::default()
    };
    Body { weight: boat.weight, at }
}

impl Worked {
    /// The hull of six sections on a sprung triple.
    fn sprung(rate: f64) -> Self {
        let boat = FloatingBoat {
            hull: HullLines::new(&six_sections()).expect("a hull"),
            weight: pounds(8333.0),
            centre: point(120.0, 31.0),
            water: salt(),
        };
        // 23 above the ground where the ball is 21 above it.
        let trailer = Body { weight: pounds(3050.0), at: frame(206.0, 2.0) };
        let transom = frame(354.0, 2.0);
        let body = together([trailer, keel(&boat, transom)]);
        let measured = axles(&[221.0, 255.0, 289.0], rate, 14.4);
        let wheels =
            Undercarriage::level_under(body, &measured, inches(1.5), inches(21.0)).expect("it rests");
        Self {
            boat,
            supports: Supports { aft: point(0.0, 0.0), forward: point(190.0, 0.0) },
            wheels,
            terrain: long_ramp(0.14),
            trailer,
            transom,
            bow_eye: point(284.0, 34.0),
            hitch: None,
        }
    }

    /// The vee on a trailer of one axle, all but rigid: keel 22 above the ground, transom 40 behind the hub at 280.
    fn rigid_vee(p: f64) -> Self {
        let boat = Vee::boat();
        let trailer = Body { weight: pounds(2000.0), at: frame(200.0, 2.0) };
        let transom = frame(320.0, 2.0);
        let body = together([trailer, keel(&boat, transom)]);
        // A rate of 1e9 lb/in: 1e-5 in of give under all of it.
        let wheels = Undercarriage::level_under(body, &axles(&[280.0], 1e9, 14.0), inches(0.0), inches(20.0));
        Self {
            boat,
            supports: Supports { aft: point(0.0, 0.0), forward: point(p, 0.0) },
            wheels: wheels.expect("it rests"),
            terrain: long_ramp(0.14),
            trailer,
            transom,
            // At a stop 62 behind the ball, 53 above the ground.
            bow_eye: point(258.0, 31.0),
            hitch: None,
        }
    }

    fn launch(&self, ball_height: f64) -> Launch<'_> {
        self.backing(ball_height).launch().expect("it floats")
    }

    fn backing(&self, ball_height: f64) -> Backing<'_> {
        Backing {
            tow: TowShape {
                wheelbase: inches(172.0),
                overhang: inches(51.0),
                ball_height: inches(ball_height),
            },
            hitch: self.hitch,
            wheels: &self.wheels,
            terrain: &self.terrain,
            waters_edge: inches(900.0),
            trailer: self.trailer,
            boat: &self.boat,
            transom: self.transom,
            supports: self.supports,
            bow_eye: self.bow_eye,
            friction: Share::from_si(0.3),
            push: pounds(100.0),
        }
    }

    fn events(&self, ball_height: f64) -> Events {
        self.launch(ball_height).events(inches(1800.0)).expect("it rests all the way")
    }
}

fn six_sections() -> Vec<HullSection> {
    let stations = [0.0, 130.0, 205.0, 258.0, 300.0, 324.0];
    let keels = [0.0, 0.0, 0.0, 6.0, 24.0, 44.0];
    let chines = [(42.0, 15.0), (44.0, 17.0), (40.0, 20.0), (24.0, 28.0), (6.0, 42.0), (0.5, 54.0)];
    let sheers = [(47.0, 46.0), (50.0, 48.0), (48.0, 52.0), (36.0, 57.0), (15.0, 61.0), (1.5, 63.0)];
    let at = |i: usize| HullSection {
        station: inches(stations[i]),
        keel: inches(keels[i]),
        chine: half(chines[i].0, chines[i].1),
        sheer: half(sheers[i].0, sheers[i].1),
    };
    (0..6).map(at).collect()
}

/// The place of the tow vehicle's rear axle at which the rear wheels stand so far past the edge.
fn at_past_edge(launch: &Launch<'_>, u: f64) -> Immersion {
    let (mut low, mut high) = (0.0, 1500.0);
    let at = |x: f64| launch.at(inches(x), Angle::from_si(0.14)).expect("it rests");
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if in_inches(at(middle).past_edge) < u { low = middle } else { high = middle }
    }
    at(low)
}

#[test]
fn a_rigid_vee_lifts_at_its_worked_place_on_the_ramp() {
    let events = Worked::rigid_vee(230.0).events(20.0);
    let lift = events.stern_lifts.expect("it lifts");
    printed(in_inches(lift.past_edge), 328.1, 1);
    printed(in_inches(lift.wheel_depth), 45.5, 1);
    // d = (u + x_T − x_n) tan θ − h_k, but for what the axle gives.
    let draft = (in_inches(lift.past_edge) + 40.0) * 0.14 - 22.0;
    assert!((in_inches(lift.trailer.draft) - draft).abs() < 1e-4);
    assert!((draft - vee_lifts(230.0, 0.14)).abs() < 1e-4);
    // A floating eye level with the stop: u = (x_n − x_s) + (h_s cos θ − f) / sin θ.
    let theta = 0.14f64.atan();
    let level = |f: f64| (280.0 - 62.0) + (53.0 * theta.cos() - f) / theta.sin();
    printed(level(14.0), 495.6, 1);
    let (draft, tau) = (22.177, 2.136f64.to_radians());
    let freeboard = (31.0 - (draft - 258.0 * tau.tan())) * tau.cos();
    let found = in_inches(events.eye_level.expect("it comes level").past_edge);
    // The draft is rounded to 5e-4 in and the trim to 5e-4°, 2e-3 in at the eye: by 1 / sin θ = 7.2 that is 2e-2.
    assert!((found - level(freeboard)).abs() < 2e-2, "{found}, closed form {}", level(freeboard));
}

#[test]
fn a_sprung_triple_launches_at_its_worked_places() {
    let rig = Worked::sprung(1600.0);
    let body = together([rig.trailer, keel(&rig.boat, rig.transom)]);
    let ball = GroundPoint { x: inches(0.0), z: inches(21.0) };
    let level = settle(body, &rig.wheels, ball, &Terrain::level(), Angle::from_si(0.0)).expect("it rests");
    printed(in_pounds(level.tongue_weight), 1272.0, 0);
    let launch = rig.launch(21.0);
    printed(in_inches(launch.afloat().waterline.draft), 18.154, 3);
    printed(launch.afloat().waterline.trim.si().to_degrees(), -0.774, 3);
    let events = rig.events(21.0);
    let lift = events.stern_lifts.expect("it lifts");
    printed(in_inches(lift.past_edge), 301.2, 1);
    printed(in_inches(lift.wheel_depth), 41.8, 1);
    printed(in_pounds(lift.boat.carried), 3955.0, 0);
    printed(in_pounds(lift.instant.stance.tongue_weight), 2084.0, 0);
    for load in &lift.instant.stance.axle_loads {
        printed(in_pounds(*load), 1656.0, 0);
    }
    let free = events.floats_free.expect("it floats");
    printed(in_inches(free.past_edge), 446.1, 1);
    printed(in_inches(free.wheel_depth), 61.9, 1);
    printed(in_pounds(free.instant.stance.tongue_weight), 629.0, 0);
    let home = at_past_edge(&launch.coming_home(), 360.0).eye.expect("the stern has lifted");
    printed(in_inches(home.drop), 5.72, 2);
    printed(in_inches(home.short), 1.92, 2);
    assert!(events.bow_lifts.is_none());
}

#[test]
fn stiff_springs_give_the_rigid_figures() {
    let lift = Worked::sprung(1e8).events(21.0).stern_lifts.expect("it lifts");
    printed(in_inches(lift.past_edge), 292.2, 1);
    printed(in_pounds(lift.boat.carried), 3979.0, 0);
}

#[test]
fn springs_tend_to_a_rigid_trailer_as_they_get_stiffer() {
    let lift = |rate| in_inches(Worked::sprung(rate).events(21.0).stern_lifts.expect("it lifts").past_edge);
    let rigid = lift(1e9);
    let (soft, stiff) = (lift(1.6e5) - rigid, lift(1.6e6) - rigid);
    // What springs give falls with the rate: ten times as stiff, a tenth of the way, less 0.2 % for what is of second order.
    assert!((soft / stiff - 10.0).abs() < 0.05 && stiff > 0.0, "{soft} and {stiff}");
}

/// Balance of the whole trailer in ground axes: every weight, the water's lift and the wheels' forces about the ball, and all
/// that is vertical, as shares of the weight and its lever.
fn imbalance(rig: &Worked, at: &Immersion) -> [f64; 2] {
    let (pitch, ball) = (at.instant.stance.pitch.si(), at.instant.ball);
    // The boat turns about the trailer's point at the forward support, by the angle between the two.
    let pivot = at
        .instant
        .trailer_point(FramePoint { x: rig.transom.x - rig.supports.forward.station, ..rig.transom });
    let on_pivot = rig.supports.forward.station + at.boat_aft;
    let tau = at.boat.waterline.trim.si();
    let place = |point: ProfilePoint| {
        let (s, z) = ((point.station - on_pivot).si(), point.height.si());
        // Forward is (−cos τ, sin τ), up (sin τ, cos τ).
        pivot.x.si() - s * tau.cos() + z * tau.sin()
    };
    let afloat = at.boat.rests == Rests::Afloat;
    let weight = rig.boat.weight.si();
    let lift =
        at.boat.displaced.map_or(0.0, |below| below.volume.si() * rig.boat.water.si() * STANDARD_GRAVITY);
    let mut forces = vec![(rig.trailer.weight.si(), at.instant.trailer_point(rig.trailer.at).x.si())];
    if !afloat {
        let centre = at.boat.displaced.map_or(ProfilePoint::default(), |below| below.centre);
        forces.push((weight, place(rig.boat.centre)));
        forces.push((-lift, place(centre)));
    }
    let down: f64 = forces.iter().map(|(force, _)| force).sum();
    let mut moment: f64 = forces.iter().map(|(force, x)| force * (x - ball.x.si())).sum();
    let mut up = at.instant.stance.tongue_weight.si();
    for (hub, force) in at.instant.stance.hubs.iter().zip(&at.instant.stance.ground_forces) {
        let (dx, dz) = ((hub.x - ball.x).si(), (hub.z - ball.z).si());
        moment -= force.up.si() * dx - force.aft.si() * dz;
        up += force.up.si();
    }
    assert!(pitch.is_finite());
    let whole = weight + rig.trailer.weight.si();
    [moment / (whole * rig.trailer.at.x.si()), (down - up) / whole]
}

#[test]
fn the_rig_is_in_balance_wherever_it_stands() {
    let soft = HitchSpring { rate: Rate::from_si(500.0 * POUND / INCH), level_tongue_weight: pounds(1272.0) };
    for hitch in [None, Some(soft)] {
        let rig = Worked { hitch, ..Worked::sprung(1600.0) };
        let launch = rig.launch(21.0);
        let mut seen = Vec::new();
        for launch in [launch, launch.coming_home()] {
            for inch in (200..1500).step_by(10) {
                let at = launch.at(inches(f64::from(inch)), Angle::default()).expect("it rests");
                let [moment, vertical] = imbalance(&rig, &at);
                // The pitch is found to 1e-11, worth 1e-9 of the boat's weight at its waterplane's 500 lb/in.
                assert!(moment.abs() < 1e-9 && vertical.abs() < 1e-9, "{inch}: {moment} {vertical}");
                if seen.last() != Some(&at.boat.rests) {
                    seen.push(at.boat.rests);
                }
                if let (Some(hitch), stance) = (hitch, &at.instant.stance) {
                    // Normal to the tow vehicle's line: h = h0 − (V − V0) / c.
                    let sunk = (stance.tongue_weight - hitch.level_tongue_weight).si() / hitch.rate.si();
                    let line = launch_ball(&at);
                    assert!((line - (21.0 * INCH - sunk)).abs() < 2e-9, "{inch}: {line}, sunk {sunk}");
                }
            }
        }
        let once = [Rests::Seated, Rests::SternLifted, Rests::Afloat];
        assert_eq!(seen, [once, once].concat());
    }
}

/// The ball above the line of the tow vehicle's contact points, normal to it.
fn launch_ball(at: &Immersion) -> f64 {
    let (front, rear, ball) = (at.instant.front.at, at.instant.rear.at, at.instant.ball);
    let (dx, dz) = ((rear.x - front.x).si(), (rear.z - front.z).si());
    ((ball.z - rear.z).si() * dx - (ball.x - rear.x).si() * dz) / dx.hypot(dz)
}

fn happened(events: &Events) -> [Option<&Immersion>; 6] {
    [
        events.hubs_wet.as_ref(),
        events.stern_lifts.as_ref(),
        events.bow_lifts.as_ref(),
        events.slides.as_ref(),
        events.floats_free.as_ref(),
        events.eye_level.as_ref(),
    ]
}

#[test]
fn events_lie_where_they_do_however_they_are_looked_for() {
    let rig = Worked::sprung(1600.0);
    let events = rig.events(21.0);
    let (wet, lifts) = (events.hubs_wet.as_ref().expect("wet"), events.stern_lifts.as_ref().expect("lifts"));
    let (slides, free) =
        (events.slides.as_ref().expect("slides"), events.floats_free.as_ref().expect("free"));
    // Wet where the hub's height normal to the ramp is covered: R cos θ = u sin θ.
    let hub = 14.4 * 0.14f64.atan().cos() / 0.14f64.atan().sin();
    assert!((in_inches(wet.past_edge) - hub).abs() < 1e-4, "{}", in_inches(wet.past_edge));
    assert!((in_pounds(slides.push_off) - 100.0).abs() < 1e-2, "{}", in_pounds(slides.push_off));
    assert!(free.boat.carried.si() < 1e-2);
    // Each lies at a sign's change, and the loads do not jump there.
    let launch = rig.launch(21.0);
    for event in happened(&events).into_iter().flatten() {
        let rear = event.instant.rear.at.x;
        let beside = |by: f64| launch.at(rear + Length::from_si(by), Angle::default()).expect("it rests");
        let (before, after) = (beside(-2e-6), beside(2e-6));
        // The load on axles and ball changes by at most 600 lb for each foot of the way here: 9 N for each millimetre.
        let jump = (before.boat.carried - after.boat.carried).si().abs();
        assert!(jump < 4e-6 * 1e4, "{jump} N");
        let jump = (before.instant.stance.tongue_weight - after.instant.stance.tongue_weight).si().abs();
        assert!(jump < 4e-6 * 1e4, "{jump} N");
    }
    let rests = |by: f64| {
        let at = |event: &Immersion| {
            let near = event.instant.stance.pitch;
            launch.at(event.instant.rear.at.x + Length::from_si(by), near).expect("it rests").boat.rests
        };
        (at(lifts), at(free))
    };
    assert_eq!(rests(-1e-6), (Rests::Seated, Rests::SternLifted));
    assert_eq!(rests(1e-6), (Rests::SternLifted, Rests::Afloat));
    // The same water farther down the same ramp: the looks lie elsewhere, the events do not.
    for shift in [0.01, 3.3, 11.7] {
        let mut farther = rig.backing(21.0);
        farther.waters_edge += inches(shift);
        let other = farther.launch().expect("it floats").events(inches(1800.0)).expect("it rests");
        for (here, there) in happened(&events).into_iter().zip(happened(&other)) {
            assert_eq!(here.is_some(), there.is_some());
            let (Some(here), Some(there)) = (here, there) else { continue };
            assert!((here.past_edge - there.past_edge).si().abs() < 1e-6);
        }
    }
}

#[test]
fn a_ramp_that_ends_too_soon_shows_what_does_not_happen() {
    let rig = Worked::sprung(1600.0);
    let end = |past_edge: f64| inches(900.0 + past_edge);
    let short = rig.launch(21.0).events(end(350.0)).expect("it rests");
    assert!(short.stern_lifts.is_some() && short.floats_free.is_none() && short.eye_level.is_none());
    let end = short.end.expect("the end");
    assert!((in_inches(end.instant.position) - 1250.0).abs() < 1e-4);
}

#[test]
fn the_bow_lifts_first_where_the_ramp_is_flatter_than_the_boat_trims() {
    let mut rig = Worked::rigid_vee(230.0);
    rig.terrain = long_ramp(0.025);
    // Afloat 2.136°, the ramp 1.432°.
    let events = rig.launch(20.0).events(inches(2900.0)).expect("it rests");
    let bow = events.bow_lifts.expect("the bow lifts");
    assert!(events.stern_lifts.is_none());
    let free = events.floats_free.expect("it floats");
    assert!(bow.past_edge < free.past_edge);
    // Free of its transom: d = T cos τ / cos θ.
    let theta = 0.025f64.atan();
    let draft = 22.177 * 2.136f64.to_radians().cos() / theta.cos();
    assert!((in_inches(free.trailer.draft) - draft).abs() < 1e-3);
}

#[test]
fn what_makes_no_hull_or_no_boat_is_refused() {
    let good = six_sections();
    let with = |i: usize, change: &dyn Fn(&mut HullSection)| {
        let mut sections = good.clone();
        change(&mut sections[i]);
        HullLines::new(&sections).expect_err("no hull")
    };
    assert_eq!(HullLines::new(&good[..1]), Err(BadHull::TooFewSections(1)));
    assert_eq!(HullLines::new(&good[1..]), Err(BadHull::NoTransom));
    assert_eq!(with(2, &|section| section.station = inches(130.0)), BadHull::NotForward(3));
    assert_eq!(with(2, &|section| section.station = inches(f64::NAN)), BadHull::NotForward(3));
    assert_eq!(with(1, &|section| section.chine = half(-1.0, 17.0)), BadHull::NoBreadth(2));
    assert_eq!(with(4, &|section| section.keel = inches(70.0)), BadHull::LowSheer(5));
    let boat = |weight, station| FloatingBoat {
        hull: HullLines::new(&good).expect("a hull"),
        weight: pounds(weight),
        centre: point(station, 31.0),
        water: salt(),
    };
    assert_eq!(boat(60_000.0, 120.0).afloat(), Err(Sinks::TooHeavy));
    assert_eq!(boat(0.0, 120.0).afloat(), Err(Sinks::TooHeavy));
    assert_eq!(boat(8333.0, -20.0).afloat(), Err(Sinks::TrimsUnder));
    // Over its supports' forward end it tips on the dry ramp.
    let heavy_bow = boat(8333.0, 195.0);
    let supports = Supports { aft: point(0.0, 0.0), forward: point(190.0, 0.0) };
    let afloat = boat(8333.0, 120.0).afloat().expect("it floats");
    assert!(heavy_bow.on_trailer(supports, afloat, water(-100.0, 0.0)).is_err());
}

/// The hull of six sections as a tape takes it: its transom's deadrise and its chine there.
fn taped() -> HullByTape {
    HullByTape {
        length: inches(324.0),
        chine_half_breadth: inches(42.0),
        deadrise: Angle::from_si((15.0f64 / 42.0).atan()),
        straight_run: inches(205.0),
        bow_eye: point(284.0, 34.0),
    }
}

#[test]
fn a_hull_by_tape_launches_near_the_whole_hull() {
    let hull = HullLines::by_tape(&taped()).expect("a hull");
    let mut rig = Worked::sprung(1600.0);
    rig.boat.hull = hull;
    let lift = rig.events(21.0).stern_lifts.expect("it lifts");
    // The worked hull lifts at 301.2 with 3,955; of 40 invented hulls 5 to 95 % lie within −9 to +3 in and −4 to 0 %.
    let (later, lighter) = (in_inches(lift.past_edge) - 301.2, in_pounds(lift.boat.carried) / 3955.0 - 1.0);
    assert!((-9.0..3.0).contains(&later) && (-0.04..0.0).contains(&lighter), "{later} in, {lighter}");
}

#[test]
fn a_tape_out_of_order_makes_no_hull() {
    let with = |change: &dyn Fn(&mut HullByTape)| {
        let mut tape = taped();
        change(&mut tape);
        HullLines::by_tape(&tape).expect_err("no hull")
    };
    assert_eq!(with(&|tape| tape.straight_run = inches(290.0)), BadHull::TapeOutOfOrder);
    assert_eq!(with(&|tape| tape.length = inches(280.0)), BadHull::TapeOutOfOrder);
    assert_eq!(with(&|tape| tape.bow_eye.height = inches(0.0)), BadHull::TapeOutOfOrder);
    assert_eq!(with(&|tape| tape.deadrise = Angle::from_si(1.6)), BadHull::NoBottom);
    assert_eq!(with(&|tape| tape.chine_half_breadth = inches(-1.0)), BadHull::NoBottom);
}

/// A section in metres: station, keel, chine and sheer as half-breadth and height.
type Plain = (f64, f64, (f64, f64), (f64, f64));

/// Random hulls: thin, flat, without breadth, the keel above the chine.
fn hulls() -> impl Strategy<Value = Vec<Plain>> {
    let breadth = || prop_oneof![1 => Just(0.0), 6 => 0.0..1.6f64];
    let height = || prop_oneof![1 => Just(0.0), 6 => 0.0..1.2f64];
    let section = (0.02..2.0f64, height(), breadth(), height(), breadth(), height());
    proptest::collection::vec(section, 2..7).prop_map(|drawn| {
        let mut at = 0.0;
        let mut plain = Vec::new();
        for (i, (gap, keel, chine, chine_height, sheer, above)) in drawn.into_iter().enumerate() {
            at += if i == 0 { 0.0 } else { gap };
            plain.push((at, keel, (chine, chine_height), (sheer, chine_height.max(keel) + above)));
        }
        plain
    })
}

fn built(plain: &[Plain]) -> HullLines {
    let metres =
        |(y, z): (f64, f64)| HalfPoint { half_breadth: Length::from_si(y), height: Length::from_si(z) };
    let section = |(station, keel, chine, sheer): &Plain| HullSection {
        station: Length::from_si(*station),
        keel: Length::from_si(*keel),
        chine: metres(*chine),
        sheer: metres(*sheer),
    };
    HullLines::new(&plain.iter().map(section).collect::<Vec<_>>()).expect("a hull")
}

/// Area and first moment of the part of a polygon below a height: its corners clipped, then the shoelace.
fn clipped(corners: &[(f64, f64)], h: f64) -> (f64, f64) {
    let mut under = Vec::new();
    for (i, &(y, z)) in corners.iter().enumerate() {
        let (ny, nz) = corners[(i + 1) % corners.len()];
        if z <= h {
            under.push((y, z));
        }
        if (z <= h) != (nz <= h) {
            under.push((y + (ny - y) * (h - z) / (nz - z), h));
        }
    }
    let (mut area, mut moment) = (0.0, 0.0);
    for (i, &(y, z)) in under.iter().enumerate() {
        let (ny, nz) = under[(i + 1) % under.len()];
        let cross = y * nz - ny * z;
        area += cross / 2.0;
        moment += cross * (z + nz) / 6.0;
    }
    (area, moment)
}

/// Volume and its moments about the transom and the keel line, by strips of whole polygons.
fn by_strips(plain: &[Plain], d: f64, t: f64) -> [f64; 3] {
    const STRIPS: u32 = 2000;
    let mut sums = [0.0; 3];
    for pair in plain.windows(2) {
        let (aft, fore) = (pair[0], pair[1]);
        for i in 0..STRIPS {
            let share = (f64::from(i) + 0.5) / f64::from(STRIPS);
            let mix = |from: f64, to: f64| from + share * (to - from);
            let s = mix(aft.0, fore.0);
            let chine = (mix(aft.2.0, fore.2.0), mix(aft.2.1, fore.2.1));
            let sheer = (mix(aft.3.0, fore.3.0), mix(aft.3.1, fore.3.1));
            let port = [(-sheer.0, sheer.1), (-chine.0, chine.1)];
            let corners = [(0.0, mix(aft.1, fore.1)), chine, sheer, port[0], port[1]];
            let (area, moment) = clipped(&corners, d - t * s);
            let ds = (fore.0 - aft.0) / f64::from(STRIPS);
            sums[0] += area * ds;
            sums[1] += area * s * ds;
            sums[2] += moment * ds;
        }
    }
    sums
}

fn metres(d: f64, t: f64) -> Waterline {
    Waterline { draft: Length::from_si(d), trim: Angle::from_si(t.atan()) }
}

/// Volume and moments as the library has them.
fn moments(hull: &HullLines, d: f64, t: f64) -> [f64; 3] {
    hull.below(metres(d, t)).map_or([0.0; 3], |below| {
        let volume = below.volume.si();
        assert!(below.metacentre.si().is_finite());
        [volume, volume * below.centre.station.si(), volume * below.centre.height.si()]
    })
}

proptest! {
    #![proptest_config(cases(150))]

    #[test]
    fn a_hull_displaces_what_its_strips_do(plain in hulls(), d in -0.2..1.5f64, t in -0.4..0.4f64) {
        let hull = built(&plain);
        let whole = by_strips(&plain, 1e3, 0.0)[0];
        let length = hull.length().si();
        let found = moments(&hull, d, t);
        let strips = by_strips(&plain, d, t);
        // Strips miss by a share of some 1/2000² where the water crosses a corner: of the section there times its stretch.
        let within = 1e-6 * whole.max(1e-6);
        for (found, strips, lever) in [
            (found[0], strips[0], 1.0),
            (found[1], strips[1], length),
            (found[2], strips[2], 2.0),
        ] {
            prop_assert!((found - strips).abs() <= within * lever, "{} {}", found, strips);
        }
    }

    #[test]
    fn a_hull_displaces_more_the_deeper_it_lies(plain in hulls(), d in -0.5..2.0f64, t in -1.0..1.0f64, more in 0.0..0.5f64) {
        let hull = built(&plain);
        let (less, more) = (moments(&hull, d, t)[0], moments(&hull, d + more, t)[0]);
        prop_assert!(less >= 0.0 && more >= less * (1.0 - 1e-12), "{} {}", less, more);
    }

    /// A boat made to float at a waterline does, and what it displaces weighs as much and lies under its centre.
    #[test]
    fn a_boat_floats_where_it_was_made_to(plain in hulls(), share in 0.1..0.6f64, t in -0.1..0.1f64, low in 0.0..0.3f64) {
        let hull = built(&plain);
        let top = plain.iter().map(|section| section.3.1).fold(0.0, f64::max);
        let made = metres(share * top, t);
        let Some(below) = hull.below(made) else { return Ok(()) };
        let density = 1025.0;
        let weight = below.volume.si() * density * STANDARD_GRAVITY;
        // Weight below the buoyancy's centre: it is stable, so it floats in no other way.
        let height = below.centre.height.si() - low;
        let station = below.centre.station.si() - t * (below.centre.height.si() - height);
        let boat = FloatingBoat {
            hull,
            weight: Weight::from_si(weight),
            centre: ProfilePoint { station: Length::from_si(station), height: Length::from_si(height) },
            water: Density::from_si(density),
        };
        let dry = |section: &Plain| share * top - t * section.0 < section.3.1;
        let Ok(afloat) = boat.afloat() else {
            // Water comes over the sheer at the waterline itself.
            prop_assert!(!plain.iter().all(dry), "it sinks");
            return Ok(());
        };
        let floats = boat.hull.below(afloat.waterline).expect("wet");
        prop_assert!((floats.volume.si() / below.volume.si() - 1.0).abs() < 1e-9);
        let tau = afloat.waterline.trim.si().tan();
        let apart = floats.centre.station.si() - station - tau * (floats.centre.height.si() - height);
        prop_assert!(apart.abs() < 1e-9 * boat.hull.length().si().max(1.0), "apart {}", apart);
    }

    /// On a trailer the supports take what is left, where moments ask, and the boat turns away from the support it turns on.
    #[test]
    fn a_boat_on_a_trailer_is_in_balance(plain in hulls(), share in 0.1..0.6f64, d in -0.5..1.5f64, t in -0.3..0.3f64, ends in (0.0..0.4f64, 0.6..1.0f64), eye in -0.5..1.0f64) {
        let hull = built(&plain);
        let (length, top) = (hull.length().si(), plain.iter().map(|section| section.3.1).fold(0.0, f64::max));
        let Some(below) = hull.below(metres(share * top, 0.0)) else { return Ok(()) };
        let boat = FloatingBoat {
            hull,
            weight: Weight::from_si(below.volume.si() * 1025.0 * STANDARD_GRAVITY),
            centre: below.centre,
            water: Density::from_si(1025.0),
        };
        let Ok(afloat) = boat.afloat() else { return Ok(()) };
        // Held on its keel half the time, else by a strap at some height.
        let (aft, forward, eye) = (ends.0 * length, ends.1 * length, eye.max(0.0));
        let metres_at = |station: f64, height: f64| ProfilePoint {
            station: Length::from_si(station),
            height: Length::from_si(height),
        };
        let supports = Supports { aft: metres_at(aft, 0.0), forward: metres_at(forward, eye) };
        let t_trailer = t;
        let Ok(lies) = boat.on_trailer(supports, afloat, metres(d, t)) else {
            // Turned about either end by 45° it still goes on turning.
            let tips = |q: f64, h: f64, t: f64| {
                let depth = (d - t_trailer * q - h) / t_trailer.hypot(1.0);
                let at = moments(&boat.hull, depth * t.hypot(1.0) + t * q + h, t);
                let weight = boat.weight.si() / 1025.0 / STANDARD_GRAVITY;
                let (s, z) = (boat.centre.station.si(), boat.centre.height.si());
                let q = q - t * h;
                weight * (s - t * z - q) - (at[1] - t * at[2] - q * at[0])
            };
            let (forward, aft) = (tips(forward, eye, -1.0), tips(aft, 0.0, 1.0));
            prop_assert!(forward > 0.0 || aft < 0.0, "it tips");
            return Ok(());
        };
        let weight = boat.weight.si();
        let (volume, station, height) = lies.displaced.map_or((0.0, 0.0, 0.0), |below| {
            (below.volume.si(), below.centre.station.si(), below.centre.height.si())
        });
        let lift = volume * 1025.0 * STANDARD_GRAVITY;
        let carried = lies.carried.si();
        prop_assert!(carried >= 0.0);
        prop_assert!((carried + lift - weight).abs() <= 1e-9 * weight, "{} {} {}", carried, lift, weight);
        let tau = lies.waterline.trim.si().tan();
        // Levers of vertical forces, forward of the transom's keel.
        let lever = |s: f64, z: f64| s - tau * z;
        let moment = weight * lever(boat.centre.station.si(), boat.centre.height.si())
            - lift * lever(station, height)
            - carried * lever(lies.carried_at.station.si(), lies.carried_at.height.si());
        prop_assert!(moment.abs() <= 1e-9 * weight * length.max(1.0), "{:?}: {}", lies.rests, moment);
        let turned = t.atan() - lies.waterline.trim.si();
        match lies.rests {
            Rests::Seated => {
                // Between where its supports lie straight below or above the keel line; a strap may stand behind the aft end.
                let (at, most) = (lies.carried_at.station.si(), (forward - t * eye).max(aft));
                prop_assert!(turned.abs() < 1e-12 && at >= aft && at <= most, "{} {} {}", aft, at, most);
            }
            Rests::SternLifted => prop_assert!(turned >= 0.0 && lies.carried_at == supports.forward),
            Rests::BowLifted => prop_assert!(turned <= 0.0 && lies.carried_at == supports.aft),
            Rests::Afloat => prop_assert!(carried == 0.0),
        }
    }
}
