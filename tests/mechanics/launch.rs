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
#[allow(unused_imports)]
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
    let supports = Supports { aft: inches(0.0), forward: inches(p) };
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
        assert!((in_inches(before.carried_at) - p).abs() < 1e-4);
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
    let afloat = boat.afloat().expect("it floats");
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
            supports: Supports { aft: inches(0.0), forward: inches(190.0) },
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
            supports: Supports { aft: inches(0.0), forward: inches(p) },
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
        let rig = Backing {
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
        };
        rig.launch().expect("it floats")
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
    printed(in_inches(launch.afloat().draft), 18.154, 3);
    printed(launch.afloat().trim.si().to_degrees(), -0.774, 3);
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
