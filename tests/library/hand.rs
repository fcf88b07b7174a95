//! One rig on which every check of the registry is worked by hand or by a second method.
//!
//! Suspension and tires are so stiff that springs give way by less than 1e-3 in: the frame is rigid, and statics
//! alone give every load. What that leaves is less than 1e-6 of the rig's weight, which is allowed, and 1e-4 over ramps, where
//! the second method looks every 0.01 in.
//!
//! Level ground, in lb and in behind the ball (the transom is at 60 + 250 = 310 in):
//!
//! * boat 6000 at 310 − 100 = 210, 2 to starboard; trailer 2000 at 180. W = 8000, W xc = 1 620 000.
//! * axles at 200 and 240 share equally: N = 1 620 000 / 440 = 3681.818, V = 8000 − 2 N = 636.364, 7.954 55 %.
//! * side: y = 12 000 / 7363.636 = 1.629 63; heavier side 1/2 + y/80 = 0.520 370.
//! * rear axle lifted: N = 1 620 000 / 200 = 8100, V = −100; y = 12 000 / 8100, heavier side 0.518 519.
//! * tow vehicle: front 3000 − V 50/140, rear 2800 + V 190/140; jack V 220 / (220 − 24).
//!
//! The winch draws 70 % of the boat; its line and its strap are worked at `on_the_winch`, the tie-downs at `tied_down`.
//!
//! Bunks bear from 160 to 300, their middle at 230, so e = −20: the line load of both falls from 6000/140 (1 + 6/7)
//! to 6000/140 (1 − 6/7) lb/in, and the starboard one carries 1/2 + 2/60 of it. Supports at 180 and 280 carry 2240
//! and 960 of its 3200 lb, from moments.

use crate::ramp_scan::{Found, Scan};
use bunkline::Rig;
use bunkline::fit::{Amount, Assessment, Row, Subject, assess, checks};
use std::collections::BTreeSet;

pub const POUND: f64 = 0.453_592_37 * 9.806_65;
pub const INCH: f64 = 0.0254;
const PSI: f64 = POUND / (INCH * INCH);

pub const RIG: &str = r#"
format = 1
[trip]
bend = "10 deg"
descent = { grade = "8 %", height = "300 ft" }
speed = "60 mph"
curve = "800 ft"
date = "2026-01-01"
wind = "50 mph"
cross_slope = "4 %"
[boat]
length = "300 in"
beam = "100 in"
bow_eye = { station = "250 in", height = "30 in", rating = "5000 lb" }
windage = { area = "100 ft2", station = "100 in", height = "60 in" }
bow_overhang = "20 in"
[boat.hull]
deadrise = "18 deg"
straight_run = "150 in"
chine = { half_breadth = "40 in", height = "14 in" }
strakes = [ { half_breadth = "29.5 in" } ]
[[boat.low_points]]
name = "propeller"
station = "40 in"
height = "-1 in"
side = "10 in"
[[boat.weights]]
weight = "6000 lb"
station = "100 in"
height = "26 in"
side = "2 in"
[trailer]
weight = "2000 lb"
cg = "180 in"
cg_height = "22 in"
gvwr = "8100 lb"
bow_stop = "60 in"
bow_stop_height = "53 in"
bow_stop_rating = "500 lb"
safety_chains = { count = 2, breaking = "7000 lb" }
keel_height = "24 in"
level_ball_height = "20 in"
track = "80 in"
rail_half_spacing = "36 in"
length = "320 in"
tongue = { section_modulus = "4 in3", yield = "36 ksi", held_from = "90 in", clamps = "30 in", clamp_rating = "9000 lb" }
rails = { section_modulus = "12 in3", yield = "46 ksi" }
suspension = { kind = "leaf-equalized", deflection_at_rating = "0.00023 in", bump = "3 in", equalizer_travel = "9 in", spring_length = "26 in", eye_height = "14 in", thrust = "frame" }
[[trailer.axles]]
braked = true
station = "200 in"
rating = "4100 lb"
spring_rating = "4200 lb"
tires = { radius = "14 in", rate = "5000000 lb/in", rating = "2100 lb", construction = "radial", pressure = "50 psi", pressure_max = "50 psi", pressure_exponent = "100 %", speed_symbol = "J", date = "0124", fender = "20 in" }
wheels = { rating = "2200 lb" }
brakes = { kind = "disc", piston = "1.25 in", radius = "4.6 in", friction = "35 %", travel = "0.03 in", weight = "17 lb", caliper_share = "30 %" }
[[trailer.axles]]
station = "240 in"
rating = "4100 lb"
spring_rating = "4200 lb"
tires = { radius = "14 in", rate = "5000000 lb/in", rating = "2150 lb", construction = "radial", pressure = "48 psi", pressure_max = "50 psi", pressure_exponent = "100 %", date = "0123", fender = "21 in" }
wheels = { rating = "2250 lb" }
[trailer.brakes]
kind = "surge"
least_gross = "4000 lb"
greatest_gross = "9000 lb"
tongue_rating = "815 lb"
bore = "1 in"
leverage = 1
efficiency = "100 %"
stroke = "2.25 in"
hose = "4 ft"
preload = "200 lb"
[trailer.coupler]
rating = "8200 lb"
tongue_rating = "810 lb"
ball_size = "2 in"
[trailer.jack]
rating = "820 lb"
station = "24 in"
[trailer.winch]
rating = "4000 lb"
core = "2.5 in"
flange = "8 in"
station = "36 in"
height = "58 in"
afloat = "30 %"
drive = "electric"
gear = 5
handle = "9 in"
efficiency = "75 %"
no_load_current = "18 A"
no_load_speed = "14 ft/min"
rated_current = "150 A"
rated_speed = "6 ft/min"
battery = "75 Ah"
strap = { length = "168 in", thickness = "0.1 in", breaking = "10000 lb", working = "3500 lb" }
post = { station = "38 in", height = "24 in", moment = "90000 lb in" }
[[trailer.tie_downs]]
count = 2
boat = { station = "-4 in", height = "20 in", side = "35 in" }
trailer = { station = "324 in", height = "20 in", side = "41 in" }
working = "2000 lb"
breaking = "6300 lb"
[[trailer.tie_downs]]
kind = "chain"
boat = { station = "250 in", height = "30 in", side = "0 in" }
trailer = { station = "40 in", height = "24 in", side = "0 in" }
working = "2600 lb"
breaking = "9000 lb"
[[trailer.low_points]]
name = "tail"
station = "290 in"
height = "16 in"
[trailer.bunks]
forward_end = "160 in"
aft_end = "300 in"
half_spacing = "30 in"
top = "34 in"
board = "4x8"
bending = "900 psi"
shear = "110 psi"
modulus = "1200000 psi"
friction = "30 %"
bearing = "420 psi"
brackets = { rating = "1300 lb", bolts = 2, bolt_rating = "600 lb", bearing_length = "3 in", foot = "6 in", foot_rating = "1800 lb" }
[[trailer.crossmembers]]
station = "180 in"
top = "24 in"
centre = "20 in"
section_modulus = "2 in3"
yield = "46 ksi"
[[trailer.crossmembers]]
station = "280 in"
top = "24 in"
centre = "21 in"
rating = "1500 lb"
[trailer.fenders]
half_breadth = "44 in"
height = "36 in"
[hitch]
receiver = { rating = "8300 lb", tongue_rating = "830 lb", tube = "2.5 in" }
ball_mount = { rating = "8400 lb", tongue_rating = "840 lb", shank = "2 in" }
ball = { rating = "8500 lb", diameter = "1.875 in" }
[tow]
front_axle_load = "3000 lb"
rear_axle_load = "2800 lb"
wheelbase = "140 in"
ball_overhang = "50 in"
ball_height = "20 in"
cg_height = "27 in"
gvwr = "8600 lb"
front_gawr = "4500 lb"
rear_gawr = "4600 lb"
gcwr = "17000 lb"
tow_rating = "8700 lb"
tongue_rating = "870 lb"
driven = "rear"
parking_brake = "rear"
holds_in_gear = "15 %"
body_aft = { station = "38 in", height = "40 in" }
low_points = [ { name = "spare", station = "30 in", height = "14 in" } ]
[policy]
packing_error = "1/16 in"
[[ramps]]
profile = [ { length = "40 ft", grade = "12 %" } ]
ease = "0 in"
friction = "40 %"
"#;

/// What a row must say: its load, and its lower and upper limit, in pounds, inches, psi or plain shares.
struct Worked {
    id: String,
    load: f64,
    min: Option<f64>,
    max: Option<f64>,
}

fn worked(id: &str, load: f64, min: impl Into<Option<f64>>, max: impl Into<Option<f64>>) -> Worked {
    Worked { id: id.to_string(), load, min: min.into(), max: max.into() }
}

fn on_the_level() -> Vec<Worked> {
    let n = 1_620_000.0 / 440.0;
    let v = 8000.0 - 2.0 * n;
    let tire = n * (0.5 + 12_000.0 / (2.0 * n) / 80.0);
    // The centre lies 43 in up, the ball 20; the lower side of a slope of 4 % carries more.
    let centre = (8000.0 * 43.0 - 20.0 * v) / (2.0 * n);
    let sloping = n * (0.5 + (12_000.0 / (2.0 * n) + 0.04 * centre) / 80.0);
    let lifted_tire = 8100.0 * (0.5 + 12_000.0 / 8100.0 / 80.0);
    vec![
        worked("tongue-share", v / 8000.0, 0.07, 0.12),
        worked("tongue-uplift", v, 0.0, None),
        worked("trailer-gvwr", 8000.0, None, 8100.0),
        worked("axle-1", n, None, 4100.0),
        worked("axle-2", n, None, 4100.0),
        worked("spring-1", n, None, 4200.0),
        worked("spring-2", n, None, 4200.0),
        worked("tire-1", tire, None, 2100.0),
        // A load in proportion to the pressure: 48 of 50 psi.
        worked("tire-2", tire, None, 2064.0),
        worked("wheel-1", tire, None, 2200.0),
        worked("wheel-2", tire, None, 2250.0),
        worked("axle-tires-1", 4100.0, None, 4200.0),
        worked("axle-tires-2", 4100.0, None, 4300.0),
        // 6000 lb lie 2 in to one side, and the axles carry 8000 − 636.4 lb on a track of 80 in.
        worked("side-lift", 0.5 - 12_000.0 / (8000.0 - 140_000.0 / 220.0) / 80.0, 0.0, None),
        worked("lifted-axle-1", 8100.0, None, 4100.0),
        worked("lifted-tire-1", lifted_tire, None, 2100.0),
        worked("lifted-tongue", -100.0, 0.0, 810.0),
        worked("lifted-tires-total", 8100.0, None, 4200.0),
        worked("tire-pressure-1", 50.0, 50.0 * tire / 2100.0, 50.0),
        worked("tire-pressure-2", 48.0, 50.0 * tire / 2150.0, 50.0),
        // 100 km/h; and a trailer tire that has less than 10 psi more than it needs.
        worked("tire-speed-1", 60.0, None, 100.0 / 1.609_344),
        worked("tire-speed-2", 60.0, None, 65.0),
        // From Monday 1 January 2024, and Monday 2 January 2023, to 1 January 2026.
        worked("tire-age-1", 731.0 / 365.25, None, 6.0),
        worked("tire-age-2", 1095.0 / 365.25, None, 6.0),
        worked("tire-fender-1", 20.0 - 14.84 - (3.0 - 0.000_23 * n / 4200.0), 1.0, None),
        worked("tire-fender-2", 21.0 - 14.84 - (3.0 - 0.000_23 * n / 4200.0), 1.0, None),
        worked("axle-spacing-1", 40.0 - 2.0 * 14.84, 1.0, None),
        worked("tire-construction", 1.0, None, 1.0),
        worked("cross-slope-tire-1", sloping, None, 2100.0),
        worked("cross-slope-tire-2", sloping, None, 2064.0),
        // 88 ft/s on 800 ft; 80 in of track over a centre 43 in high.
        worked("curve-tip", 88.0 * 88.0 / (800.0 * 9.806_65 / 0.3048), None, 0.75 * 80.0 / 86.0),
        // The area's middle lies 10 in ahead of the axles' mean of 220: a wind of the same moment about the ground.
        worked(
            "wind-tip",
            50.0,
            None,
            (2.0 * n * 40.0 / (60.0 - 20.0 * 10.0 / 220.0) / (1.2 * 100.0) / 0.002_56).sqrt(),
        ),
        worked("coupler", 8000.0, None, 8200.0),
        worked("coupler-tongue", v, 0.0, 810.0),
        worked("receiver", 8000.0, None, 8300.0),
        worked("receiver-tongue", v, 0.0, 830.0),
        worked("ball-mount", 8000.0, None, 8400.0),
        worked("ball-mount-tongue", v, 0.0, 840.0),
        worked("ball", 8000.0, None, 8500.0),
        worked("ball-size", 1.875, 2.0, 2.0),
        worked("shank-size", 2.0, 2.5, 2.5),
        // A chain of 7000 lb is for as much; the GVWR is more than what it weighs.
        worked("safety-chains", 8100.0, None, 7000.0),
        worked("jack", v * 220.0 / 196.0, 0.0, 820.0),
        worked("tongue-bending", v * 90.0 / 4.0, None, 36_000.0 / 3.3),
        // Held at 90 and 120 in.
        worked("tongue-clamp", v * 120.0 / 30.0, None, 3000.0),
        worked(
            "rail-bending",
            rails(v, n) * (0.5 + 12_000.0 / (2.0 * n) / 80.0) / 12.0,
            None,
            46_000.0 / 2.2,
        ),
        worked("tow-rating", 8000.0, None, 8700.0),
        worked("tow-tongue", v, 0.0, 870.0),
        worked("tow-gvwr", 5800.0 + v, None, 8600.0),
        worked("tow-gcwr", 13_800.0, None, 17_000.0),
        worked("tow-front-axle", 3000.0 - v * 50.0 / 140.0, 0.0, 4500.0),
        worked("tow-rear-axle", 2800.0 + v * 190.0 / 140.0, None, 4600.0),
        worked("tow-front-share", 3000.0 - v * 50.0 / 140.0, 0.2 * 8600.0, None),
        worked("tow-front-loss", v * 50.0 / 140.0 / 3000.0, None, 0.15),
        // One axle of two.
        worked("brakes-required", 0.5, 1.0, None),
        // The bow eye stands 24 + 30 in above ground, two inches either way.
        worked("bow-stop-height", 53.0, 52.0, 56.0),
    ]
}

/// The greatest moment of both rails over the equalizer's pin at 220 in. The boat weighs on the crossmembers as on the
/// starboard bunk, 2240 and 960 lb of 32/60, so with 4200 lb at 180 in; the trailer's 2000 lb are spread 140 in to either side of
/// 180 in, the way to its tail at 320 in; the front spring ends at 187 in. Ahead of the pin the shear is below zero,
/// behind it above: 636 − 1286 − 4200 + 1841 + 3682 lb.
fn rails(tongue: f64, axle: f64) -> f64 {
    let frame = 2000.0 / 280.0 * 180.0 * 180.0 / 2.0;
    (tongue * 220.0 - frame - 4200.0 * 40.0 + axle / 2.0 * 33.0).abs()
}

/// The front axle alone is braked, and no wheel slides.
fn braking() -> Vec<Worked> {
    let disc = std::f64::consts::PI * 1.25 * 1.25 / 4.0;
    let master = std::f64::consts::PI / 4.0;
    // Two wheels of 2 μ A r / R lb a psi.
    let gain = 2.0 * disc * 0.7 * 4.6 / 14.0 / master;
    let push = |force: f64| (force + gain * 200.0) / (1.0 + gain);
    let stop = push(8000.0 * 0.435);
    let brakes = gain * (stop - 200.0);
    // The couple of the front axle's brakes presses the rear end of its spring: N2 − N1 = 2 B h/s. Moments about the ball:
    // the centre lies 23 in above it, the ground 20 in below.
    let apart = 2.0 * brakes * 14.0 / 26.0;
    let moments = 8000.0 * (202.5 - 0.435 * 23.0) - brakes * 20.0;
    let front = (moments - 240.0 * apart) / 440.0;
    let tongue = 8000.0 - 2.0 * front - apart;
    let rear_axle = 2800.0 + tongue * 190.0 / 140.0;
    let pressure = (stop - 200.0) / master;
    let fluid = 2.0 * disc * 0.03 + 0.04 * 4.0 * pressure / 1000.0;
    let sin = 0.08f64.atan().sin();
    let downhill = push(8000.0 * sin);
    let alone = ((5800.0 * sin + downhill) / 5800.0).asin().tan();
    // Two discs of 17 lb take the work of the brakes over the way down; joules and kelvins.
    let joules = gain * (downhill - 200.0) * POUND * (300.0 * 12.0 * INCH) / sin;
    let rise = joules / (2.0 * 17.0 * 0.453_592_37 * 460.0);
    vec![
        worked("brake-actuator", 8000.0, 4000.0, 9000.0),
        worked("brake-actuator-tongue", 8000.0 - 2.0 * 1_620_000.0 / 440.0, 0.0, 815.0),
        worked("surge-ratio", 8100.0 / 8600.0, None, 1.75),
        worked("brake-stroke", fluid / master, None, 2.25),
        worked("brake-stop", 5800.0 * 0.435 + stop, None, 0.6 * (5800.0 + tongue)),
        worked("brake-axle-1", front, None, 6150.0),
        worked("brake-axle-2", front + apart, None, 6150.0),
        worked("brake-grip-1", brakes / front, None, 0.5),
        worked("brake-grip-2", 0.0, None, 0.5),
        worked("brake-bend", stop * 10f64.to_radians().sin(), None, 0.2 * rear_axle),
        worked("brake-descent", alone, None, 0.15),
        worked("brake-heat-lining", 300.0, None, 300.0 * 280.0 / rise),
        worked("brake-heat-fluid", 300.0, None, 300.0 * 120.0 / (0.3 * rise)),
    ]
}

/// The second method for the ramp, with its head at a grade.
pub fn scan(grade: f64) -> Found {
    // Boat's centre 24 + 26 − 20 = 30 in above the frame line, trailer's 2 in: W zc = 184 000 lb in.
    Scan {
        weight: 8000.0,
        centre: [202.5, 23.0],
        axles: [200.0, 240.0],
        radius: 14.0,
        hub_below: 6.0,
        overhang: 50.0,
        ball_height: 20.0,
        wheelbase: 140.0,
        tow_loads: [3000.0, 2800.0],
        tow_centre_height: 27.0,
        grade,
        length: 480.0,
        // Tail, propeller, bow: stations behind the ball and heights above the frame line.
        points: [[290.0, -4.0], [270.0, 3.0], [40.0, 34.0]],
        // Straight from 150 in ahead of the transom, at 60 + 250 in: 24 in above ground.
        keel: [[160.0, 4.0], [310.0, 4.0]],
        // Spare wheel behind the rear axle, above the line of the contacts.
        spare: [30.0, 14.0],
    }
    .run()
}

fn over_the_ramp() -> Vec<Worked> {
    let found = scan(0.12);
    let tire = |axle: usize| found.tires[axle];
    vec![
        worked("ramp-rest", 1.0, 1.0, None),
        worked("ramp-axle-1", found.axles[0], None, 4100.0),
        worked("ramp-axle-2", found.axles[1], None, 4100.0),
        worked("ramp-tire-1", tire(0), None, 2100.0),
        worked("ramp-tire-2", tire(1), None, 2064.0),
        worked("ramp-tongue", found.tongue, 0.0, 810.0),
        worked("ramp-traction-drive", found.friction[2], None, 0.4),
        worked("ramp-traction-steady", found.friction[1], None, 0.4),
        worked("ramp-traction-parked", found.friction[0], None, 0.4),
        worked("ramp-clearance-tail", found.clearances[0], 0.0, None),
        worked("ramp-clearance-propeller", found.clearances[1], 0.0, None),
        worked("ramp-clearance-spare", found.spare, 0.0, None),
        worked("ramp-clearance-keel", found.keel, 0.0, None),
        worked("ramp-bow-clearance", found.bow - 38.0, 0.0, None),
    ]
}

/// Greatest moment, shear and deflection of the starboard bunk, by cuts along it: lb in, lb, in.
fn bent(stiffness: f64) -> [f64; 3] {
    let (ends, cuts) =
        ([6000.0 / 140.0 * (13.0 / 7.0) * (32.0 / 60.0), 6000.0 / 140.0 / 7.0 * (32.0 / 60.0)], 14_000);
    let load = |s: f64| ends[0] + (ends[1] - ends[0]) * s / 140.0;
    let step = 140.0 / f64::from(cuts);
    let (mut shear, mut moment, mut slope, mut sag) = (0.0, 0.0, 0.0, 0.0);
    let (mut most, mut line) = ([0.0_f64; 2], Vec::new());
    for cut in 0..=cuts {
        let s = f64::from(cut) * step;
        line.push(sag);
        most[0] = most[0].max(f64::abs(moment));
        most[1] = most[1].max(f64::abs(shear));
        // The supports stand at 20 and 120 in, on cuts.
        if cut == cuts / 7 {
            shear += 2240.0;
        }
        if cut == cuts * 6 / 7 {
            shear += 960.0;
        }
        most[1] = most[1].max(f64::abs(shear));
        let next_shear = shear - f64::midpoint(load(s), load(s + step)) * step;
        let next_moment = moment + f64::midpoint(shear, next_shear) * step;
        let next_slope = slope + f64::midpoint(moment, next_moment) / stiffness * step;
        sag += f64::midpoint(slope, next_slope) * step;
        (shear, moment, slope) = (next_shear, next_moment, next_slope);
    }
    // Turned so that both supports lie at rest.
    let (first, last) = (line[line.len() / 7], line[line.len() * 6 / 7]);
    let turned = line.iter().enumerate().map(|(cut, sag)| {
        let s = cut as f64 * step;
        (sag - first - (last - first) * (s - 20.0) / 100.0).abs()
    });
    [most[0], most[1], turned.fold(0.0, f64::max)]
}

fn on_bunks() -> Vec<Worked> {
    let slope = 18f64.to_radians().tan();
    // 4x8 on edge, 3.5 by 7.25 in; the bevel takes 3.5 tan 18° = 1.137 in of its inner edge.
    let (b, d) = (3.5, 7.25 - 3.5 * slope);
    let [moment, shear, down] = bent(1.2e6 * b * d * d * d / 12.0);
    let bending = moment / (b * d * d / 6.0) + moment * slope / (d * b * b / 6.0);
    let shear = 1.5 * shear / (b * d * 18f64.to_radians().cos());
    let down = down * (1.0 + (slope * d * d / (b * b)).powi(2)).sqrt();
    vec![
        // The transom at 310 in, the bunks' end at 300.
        worked("bunk-transom-support", 10.0, None, 2.0),
        worked("bunk-contact", -20.0 / 140.0, -1.0 / 6.0, 1.0 / 6.0),
        worked("bunk-pressure", 6000.0 / 140.0 * (13.0 / 7.0) * (32.0 / 60.0) / 3.5, None, 20.0),
        worked("bunk-bending", bending, None, 900.0),
        worked("bunk-bending-vertical", moment / (b * d * d / 6.0), None, 900.0),
        worked("bunk-shear", shear, None, 110.0),
        worked("bunk-shear-vertical", shear * 18f64.to_radians().cos(), None, 110.0),
        worked("bunk-bevel", d, 0.0, None),
        worked("bunk-deflection", down, None, 100.0 / 360.0),
        // Two bolts of 600 lb hold less than the bracket's 1300 lb.
        worked("bunk-bracket", 2240.0 * slope, None, 1200.0),
        // 3.5 by 3 in over a bracket; the wood beside it helps by 0.375 of 3 in.
        worked("bunk-bearing", 2240.0 / 10.5, None, 420.0 * 3.375 / 3.0),
        // On two supports nothing changes where one stands higher.
        worked("bunk-packing", moment / (b * d * d / 6.0), None, 900.0),
        // The thrust acts 10 in above a foot 6 in wide.
        worked("bunk-foot", 2240.0 * (10.0 * slope - 3.0) / 6.0, None, 1800.0),
        worked("bunk-landing", 0.5, -1.0, 1.0),
        // The bunk's middle stands 36 − 28.25 in inside the rail: 2 × 46 000 / 1.67 / 7.75.
        worked("crossmember-1", 2240.0, None, 2.0 * 46_000.0 / 1.67 / 7.75),
        worked("crossmember-2", 960.0, None, 1500.0),
        worked("clearance-keel-1", 4.0, 0.0, None),
        worked("clearance-keel-2", 3.0, 0.0, None),
        // The fender's top lies 2 in below the chine, its edge 4 in outside it.
        worked("clearance-fender", 4.0, 0.0, None),
        // The propeller at 270 in passes the crossmember at 280: 10 of 30 in out it stands 21 + 3/3 = 22 in high.
        worked("clearance-gear-propeller", 1.0, 0.0, None),
    ]
}

/// The pull up a slope of 12 % on bunks that wedge a vee of 18°: the least with which what pulls along them is no less than
/// weight and friction hold, found by halving.
fn dragged(weight: f64, line: f64) -> f64 {
    let slope = 0.12f64.atan();
    let slides = |pull: f64| {
        // Each bunk bears on the vee squarely, so what presses it is more than what it carries.
        let pressed = (weight * slope.cos() - pull * line.sin()) / 18f64.to_radians().cos();
        pull * line.cos() >= weight * slope.sin() + 0.3 * pressed
    };
    let (mut holds, mut moves) = (0.0, 2.0 * weight);
    for _ in 0..100 {
        let pull = f64::midpoint(holds, moves);
        if slides(pull) { moves = pull } else { holds = pull }
    }
    moves
}

fn on_the_winch() -> Vec<Worked> {
    // From the eye at 60 in, 54 above ground, to the drum: 24 in ahead, 4 above.
    let (line, reach) = (4f64.atan2(24.0), 592f64.sqrt());
    let (home, far_out) = (dragged(4200.0, line), dragged(4200.0, 0.0));
    // The strap's own area lies between the drum and its outside.
    let outside = |wound: f64| (wound * 0.1 / std::f64::consts::PI + 1.25 * 1.25).sqrt();
    let (at_home, half) = (outside(168.0 - reach) + 0.05, outside(84.0) + 0.05);
    let torque = home * half / (4000.0 * 1.3);
    let (current, speed) = (18.0 + 132.0 * torque, (14.0 - 8.0 * torque) * half / 1.3);
    vec![
        // It pulls 4000 × 1.3 / 2.5 lb with the eye at the stop, and must break the boat loose.
        worked("winch-pull", home, None, 4000.0 * 1.3 / at_home / 1.3),
        worked("winch-strap", far_out.max(home), None, 3500.0),
        worked("winch-strap-breaking", 6000.0, None, 10_000.0),
        worked("bow-eye", far_out.max(home), None, 5000.0),
        // The drum stands 34 in above the post's foot and 2 ahead of it.
        worked("winch-post", home * (line.cos() * 34.0 - line.sin() * 2.0), None, 90_000.0),
        worked("winch-drum", 2.0 * outside(168.0), None, 8.0),
        worked("winch-hand", home * at_home / (9.0 * 5.0 * 0.75), None, 50.0),
        // 14 ft of strap, in minutes.
        worked("winch-battery", 3.0 * current * (14.0 / speed) / 60.0, None, 75.0),
    ]
}

fn tied_down() -> Vec<Worked> {
    // Straps: from 314 in and 44 above ground to 324 and 20, 6 out. Chain: from 60 and 54 to 40 and 24.
    let (strap, chain) = (712f64.sqrt(), 1300f64.sqrt());
    vec![
        // The straps lead aft; together they hold more than the bow stop.
        worked("tie-down-forward", 2610.0, None, 2.0 * 2000.0 * 10.0 / strap),
        worked("tie-down-rearward", 3000.0, None, 2600.0 * 20.0 / chain),
        // One strap holds each side.
        worked("tie-down-side", 1500.0, None, 2000.0 * 6.0 / strap),
        worked("tie-down-forward-breaking", 4800.0, None, 2.0 * 6300.0 * 10.0 / strap),
        worked("tie-down-rearward-breaking", 3000.0, None, 9000.0 * 20.0 / chain),
        worked("tie-down-side-breaking", 3000.0, None, 6300.0 * 6.0 / strap),
        worked("tie-down-down", 1200.0, None, 4000.0 * 24.0 / strap + 2600.0 * 30.0 / chain),
        worked("tie-down-total", 3000.0, None, 3300.0),
        // 25 ft, and a bow stop with a rating.
        worked("tie-down-number", 3.0, None, 3.0),
    ]
}

pub fn assessed(changes: &[&str]) -> Assessment {
    let rig = Rig::read("hand.toml", RIG, changes).unwrap_or_else(|problems| panic!("{problems}"));
    assess(&rig).expect("a trailer at rest")
}

/// An amount in pounds, inches, psi, pound inches, ampere-hours, miles an hour, kilonewtons, or as a plain number.
pub fn in_us(amount: Amount) -> f64 {
    amount.si()
        / match amount {
            Amount::Weight(_) => POUND,
            Amount::Length(_) | Amount::Deflection(_) => INCH,
            Amount::Stress(_) | Amount::Inflation(_) => PSI,
            Amount::Moment(_) => POUND * INCH,
            Amount::Distance(_) => 12.0 * INCH,
            Amount::Speed(_) => 5280.0 * 12.0 * INCH / 3600.0,
            Amount::Charge(_) => 3600.0,
            Amount::Force(_) => 1000.0,
            Amount::Share(_) | Amount::Number(_) => 1.0,
        }
}

fn compare(row: &Row, worked: &Worked) {
    let id = row.id();
    let load = in_us(row.load.unwrap_or_else(|| panic!("{id} is not made: {:?}", row.missing)));
    let whole = if matches!(row.load, Some(Amount::Weight(_))) { 8000.0 } else { worked.load.abs().max(1.0) };
    let allowed = if row.is_about_ramps() { 1e-4 } else { 1e-6 } * whole;
    assert!((load - worked.load).abs() < allowed, "{id}: {load}, by hand {}", worked.load);
    for (name, found, by_hand) in [("least", row.min, worked.min), ("most", row.max, worked.max)] {
        let found = found.map(in_us);
        let same = match (found, by_hand) {
            (Some(found), Some(by_hand)) => (found - by_hand).abs() < 1e-6 * by_hand.abs().max(1.0),
            (found, by_hand) => found.is_none() && by_hand.is_none(),
        };
        assert!(same, "{id}: at {name} {found:?}, by hand {by_hand:?}");
    }
}

#[test]
fn every_check_says_what_was_worked_by_hand() {
    let found = assessed(&[]);
    let by_hand = on_the_level().into_iter().chain(over_the_ramp()).chain(on_bunks()).chain(braking());
    let by_hand: Vec<Worked> = by_hand.chain(on_the_winch()).chain(tied_down()).collect();
    for row in &found.rows {
        let worked = by_hand.iter().find(|worked| worked.id == row.id());
        compare(
            row,
            worked.unwrap_or_else(|| panic!("{} is not worked by hand: add it to this file", row.id())),
        );
    }
    let ids: BTreeSet<String> = found.rows.iter().map(Row::id).collect();
    for worked in &by_hand {
        assert!(ids.contains(&worked.id), "no row {}", worked.id);
    }
    let made: BTreeSet<&str> = found.rows.iter().map(|row| row.check.id).collect();
    // Launching is worked on a rig of its own, in `launch`, what Europe asks in `europe`, and sizes in `size`.
    let elsewhere = |id: &str| {
        ["coupling-", "nose-", "overall-", "rear-projection"].iter().any(|of| id.starts_with(of))
            || ["ball-tongue", "drawbar-tongue"].contains(&id)
    };
    for check in checks().filter(|check| check.subject != Subject::Launch && !elsewhere(check.id)) {
        assert!(
            made.contains(check.id),
            "{} has no row here: make this rig have one, and work it by hand",
            check.id
        );
    }
}
