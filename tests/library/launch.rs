//! Launching, from a rig file to its rows.
//!
//! The worked rig is all but rigid and stands wholly on a ramp of 14 %, so that the trailer is parallel to it. Its hull is
//! a prismatic vee; here it is cut into slices, and every event found by halving: a second method for the hull, for its
//! balance and for the search. Lengths are in inches, weights in pounds, `u` runs along the ramp from the water's edge to
//! the trailer's wheels.

use crate::cases::cases;
use crate::hand::in_us;
use bunkline::Rig;
use bunkline::fit::{
    Assessment, Caution, Closes, Event, Home, Launch, NoLaunch, RigVerdict, Row, Spot, Subject, Verdict,
    assess, checks, examine,
};
use bunkline::quantity::show::UnitSystem;
use bunkline::quantity::unit::{INCH, POUND};
use bunkline::quantity::{Length, Quantity, STANDARD_GRAVITY, Weight};
use bunkline::report::check::PAGE;
use bunkline::report::{self, Extent, text};
use bunkline::study::launch::{Marks, launching};
use bunkline::study::ramp::Choice;
use bunkline::study::uncertainty;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// Springs and tires give way by less than 1e-3 in.
const RIG: &str = r#"
format = 1
[boat]
length = "264 in"
bow_eye = { station = "258 in", height = "31 in", rating = "5000 lb" }
hull = { deadrise = "20 deg", straight_run = "240 in" }
low_points = [ { name = "skeg", station = "-10 in", height = "-2 in" } ]
[[boat.sections]]
station = "0 in"
keel = "0 in"
chine = { half_breadth = "44 in", height = "16 in" }
sheer = { half_breadth = "44 in", height = "60 in" }
[[boat.sections]]
station = "264 in"
keel = "0 in"
chine = { half_breadth = "44 in", height = "16 in" }
sheer = { half_breadth = "44 in", height = "60 in" }
[[boat.weights]]
weight = "8000 lb"
station = "110 in"
height = "30 in"
[trailer]
weight = "2000 lb"
cg = "200 in"
cg_height = "22 in"
length = "320 in"
lamps_height = "70 in"
skipper = { station = "60 in", height = "16 in" }
transom = "320 in"
bow_stop_height = "53 in"
keel_height = "22 in"
level_ball_height = "20 in"
suspension = { kind = "torsion", deflection_at_rating = "0.00023 in" }
coupler = { tongue_rating = "3000 lb" }
[[trailer.axles]]
station = "280 in"
rating = "9000 lb"
tires = { radius = "14 in", rate = "5000000 lb/in" }
[trailer.bunks]
forward_end = "152 in"
aft_end = "320 in"
friction = "30 %"
[[trailer.crossmembers]]
station = "160 in"
rating = "1500 lb"
[trailer.guides]
station = "290 in"
top = "70 in"
[trailer.winch]
rating = "20000 lb"
core = "3 in"
station = "40 in"
height = "60 in"
strap = { length = "20 ft", thickness = "0.1 in", breaking = "12000 lb", working = "4000 lb" }
[hitch]
receiver = { tongue_rating = "2000 lb" }
ball_mount = { tongue_rating = "2000 lb" }
[tow]
wheelbase = "172 in"
ball_overhang = "51 in"
ball_height = "20 in"
tongue_rating = "2000 lb"
tailpipe = { station = "40 in", height = "15 in" }
[[ramps]]
name = "long"
profile = [ { length = "3000 in", grade = "14 %" } ]
water_from_top = "900 in"
water = "sea-water"
"#;

/// Bow bunks that bear up to station 230, the worked vee's other forward support.
const BOW_BUNKS: &str = "[trailer.bow_bunks]\nforward_end = \"90 in\"\naft_end = \"120 in\"\nbears = true\n";

#[test]
fn bow_bunks_that_bear_press_on_the_crossmember_under_them() {
    let bears = RIG.to_string() + BOW_BUNKS;
    // The file's one crossmember stands under the main bunks.
    let found = assessed(&bears, &[]);
    let row = found.check("launch-support").expect("a row");
    assert_eq!((row.verdict, row.missing.len()), (Verdict::NotChecked, 1));
    assert_eq!(row.missing[0].to_string(), "trailer.crossmembers.2.station");
    let member = "[[trailer.crossmembers]]\n";
    let under =
        bears.replace(member, &format!("{member}station = \"100 in\"\nrating = \"1250 lb\"\n{member}"));
    let found = assessed(&under, &[]);
    let carried = Worked::carried((Worked::draft(Worked::lifts(230.0)), Worked::T));
    near("support", load(&found, "launch-support"), carried / 2.0, FORCE);
    near("its rating", limit(&found, "launch-support"), 1250.0, 1e-6);
}

const ROLLERS: &str = "[trailer.keel_rollers]\nforward_end = \"90 in\"\naft_end = \"320 in\"\n";

fn assessed(text: &str, changes: &[&str]) -> Assessment {
    let rig =
        Rig::read("launch.toml", text, changes).unwrap_or_else(|problems| panic!("{changes:?}: {problems}"));
    assess(&rig).expect("a trailer at rest")
}

fn launched(found: &Assessment) -> &Launch {
    found.launches[0].found().expect("it is launched")
}

fn inches(length: Length) -> f64 {
    length.si() / INCH
}

fn pounds(weight: Weight) -> f64 {
    weight.si() / POUND
}

/// A row's load in inches or pounds.
fn load(found: &Assessment, id: &str) -> f64 {
    let row = found.check(id).unwrap_or_else(|| panic!("no row {id}"));
    let load = row.load.unwrap_or_else(|| panic!("{id} is not made: {:?}", row.missing));
    let feet = matches!(load, bunkline::fit::Amount::Distance(_));
    if feet { 12.0 * in_us(load) } else { in_us(load) }
}

/// The worked rig.
struct Worked;

/// How the boat lies: its draft at the transom normal to the keel, and its trim's tangent.
type Lies = (f64, f64);

/// Volume, its moments about the transom and about the keel, and the waterplane's second moment across.
struct Below {
    volume: f64,
    along: f64,
    up: f64,
    across: f64,
}

impl Worked {
    const T: f64 = 0.14;
    const WEIGHT: f64 = 8000.0;
    const CENTRE: (f64, f64) = (110.0, 30.0);
    const SLICES: u32 = 3000;

    /// Pounds in a cubic inch of sea water, 1025 kg/m³.
    fn water() -> f64 {
        1025.0 * STANDARD_GRAVITY * INCH.powi(3) / POUND
    }

    fn theta() -> f64 {
        Self::T.atan()
    }

    fn below(d: f64, t: f64) -> Below {
        let (b, chine, length) = (44.0, 16.0, 264.0);
        let ds = length / f64::from(Self::SLICES);
        let mut sum = Below { volume: 0.0, along: 0.0, up: 0.0, across: 0.0 };
        for i in 0..Self::SLICES {
            let s = (f64::from(i) + 0.5) * ds;
            let h = d - t * s;
            if h <= 0.0 {
                continue;
            }
            // A vee to the chine, a box above it.
            let (vee, box_) = (h.min(chine), (h - chine).max(0.0));
            let area = vee * vee * b / chine + 2.0 * b * box_;
            let up = 2.0 / 3.0 * vee.powi(3) * b / chine + 2.0 * b * box_ * (chine + box_ / 2.0);
            sum.volume += area * ds;
            sum.along += area * s * ds;
            sum.up += up * ds;
            sum.across += 2.0 / 3.0 * (vee * b / chine).powi(3) * ds;
        }
        sum
    }

    /// What turns the boat bow down about its keel at a station, over the cosine of its trim.
    fn bow_down(q: f64, (d, t): Lies) -> f64 {
        let (s, z) = Self::CENTRE;
        let below = Self::below(d, t);
        let moment = |w: f64, s: f64, z: f64| w * (s - q - z * t);
        let buoyed = Self::water() * (below.along - q * below.volume - t * below.up);
        moment(Self::WEIGHT, s, z) - buoyed
    }

    fn carried((d, t): Lies) -> f64 {
        Self::WEIGHT - Self::water() * Self::below(d, t).volume
    }

    /// The water over the seated keel at the transom, normal to it: `(u + x_transom − x_n) t − h_k`.
    fn draft(u: f64) -> f64 {
        (u + 40.0) * Self::T - 22.0
    }

    /// How the boat lies afloat: a trim at which it balances, at the draft at which it weighs nothing.
    fn afloat() -> Lies {
        let draft = |t: f64| halve(0.0, 80.0, |d| Self::carried((d, t)) > 0.0);
        let t = halve(-0.05, 0.3, |t| Self::bow_down(0.0, (draft(t), t)) > 0.0);
        (draft(t), t)
    }

    /// Where the stern lifts off with the boat turning on a station.
    fn lifts(p: f64) -> f64 {
        halve(100.0, 600.0, |u| Self::bow_down(p, (Self::draft(u), Self::T)) < 0.0)
    }

    /// How the boat lies with its stern lifted and its own station `q` on a support that is `p` ahead of the seated transom.
    fn turned(u: f64, p: f64, q: f64) -> Lies {
        // The support's depth straight down.
        let depth = (Self::draft(u) - p * Self::T) * Self::theta().cos();
        let lies = |t: f64| (depth * t.hypot(1.0) + q * t, t);
        lies(halve(-0.05, Self::T, |t| Self::bow_down(q, lies(t)) > 0.0))
    }

    /// What pushes it off: `P (μ' cos φ − sin φ)`.
    fn push(p: f64, u: f64) -> f64 {
        let friction = 0.3 / 20f64.to_radians().cos();
        let hold = friction * Self::theta().cos() - Self::theta().sin();
        Self::carried(Self::turned(u, p, p)) * hold
    }

    /// Where it slides off at a push of 100 lb.
    fn slides(p: f64) -> f64 {
        halve(Self::lifts(p), 700.0, |u| Self::push(p, u) > 100.0)
    }

    /// Where it floats free of the support: `d = (T − p tan τ) cos τ / cos θ + p t`.
    fn floats(p: f64) -> f64 {
        let (d, tau) = Self::afloat();
        let free = (d - p * tau) / tau.hypot(1.0) / Self::theta().cos() + p * Self::T;
        (free + 22.0) / Self::T - 40.0
    }

    /// How far it sits down short of its stop, coming home: `g = h_e tan δ − a (1 / cos δ − 1)`, with the boat aft by it.
    fn short(p: f64, u: f64) -> f64 {
        let mut short = 0.0;
        for _ in 0..40 {
            let (_, t) = Self::turned(u, p, p + short);
            let delta = Self::theta() - t.atan();
            short = 31.0 * delta.tan() - (258.0 - p) * (1.0 / delta.cos() - 1.0);
        }
        short
    }

    /// Tongue weight: the wheel's force is normal to the ramp, and the trailer balances about the ball.
    fn tongue(u: f64, p: f64) -> f64 {
        let carried = Self::carried(Self::turned(u, p, p));
        let (sin, cos) = Self::theta().sin_cos();
        // The trailer 2 above the ball, the keel likewise.
        let wheel = (2000.0 * (200.0 * cos + 2.0 * sin) + carried * ((320.0 - p) * cos + 2.0 * sin)) / 280.0;
        2000.0 + carried - wheel * cos
    }

    /// How deep straight down a point lies that is `x` behind the ball and `h` above the ground.
    fn depth(u: f64, x: f64, h: f64) -> f64 {
        (u - 280.0 + x) * Self::theta().sin() - h * Self::theta().cos()
    }
}

/// Where something ends that holds at the low end.
fn halve(from: f64, to: f64, test: impl Fn(f64) -> bool) -> f64 {
    let (mut holds, mut ends) = if test(from) { (from, to) } else { (to, from) };
    for _ in 0..50 {
        let middle = f64::midpoint(holds, ends);
        if test(middle) { holds = middle } else { ends = middle }
    }
    holds
}

/// Slices of 0.09 in miss the vee's volume by less than 1e-7 of it, and springs give way by 1e-3 in, which is 7e-3 in along
/// a ramp of 14 %.
#[track_caller]
fn near(what: &str, found: f64, worked: f64, within: f64) {
    assert!((found - worked).abs() < within, "{what}: found {found}, by hand {worked}");
}

const ALONG: f64 = 0.02;
const HEIGHT: f64 = 0.005;
/// The waterplane of some 12,000 in² takes 450 lb an inch.
const FORCE: f64 = 3.0;

#[test]
fn every_row_is_what_was_worked_by_hand() {
    let (found, rolls) = (assessed(RIG, &[]), assessed(&(RIG.to_string() + ROLLERS), &[]));
    let p = 168.0;
    let (lifts, off) = (Worked::lifts(p), Worked::slides(p));
    assert!(lifts < off && off < Worked::floats(p));
    // Where the boat comes off, and the ramp's end: 2100 in on the level from the water's edge.
    near("comes off", load(&found, "launch-ramp-end"), off, ALONG);
    let end = 2100.0 * Worked::T.hypot(1.0);
    let row = found.check("launch-ramp-end").expect("a row");
    near("advises", 12.0 * in_us(row.max.expect("a limit")), end - 14.0 - 12.0, 1e-6);
    near("fails", 12.0 * in_us(row.fails_above.expect("a limit")), end, 1e-6);
    // As the stern lifts.
    near("tongue", load(&found, "launch-tongue"), Worked::tongue(lifts, p), FORCE);
    let carried = Worked::carried((Worked::draft(lifts), Worked::T));
    near("support", load(&found, "launch-support"), carried / 2.0, FORCE);
    near("its rating", limit(&found, "launch-support"), 1500.0, 1e-6);
    near("the least tongue rating", limit(&found, "launch-tongue"), 2000.0, 1e-6);
    // The eye at (258, 31) holds her straight above the keel's station 258 − 31 t.
    let taut = Worked::carried((Worked::draft(Worked::lifts(258.0 - 31.0 * Worked::T)), Worked::T));
    near("strap", load(&found, "launch-strap"), taut, FORCE);
    near("the strap's limit", limit(&found, "launch-strap"), 4000.0, 1e-6);
    // As she comes off; the tow vehicle's rear axle is 51 ahead of the ball.
    near("tow tire", load(&found, "launch-tow-tire"), Worked::depth(off, -51.0, 0.0), HEIGHT);
    near("tailpipe", load(&found, "launch-tailpipe"), -Worked::depth(off, -11.0, 15.0), HEIGHT);
    near("guides", load(&found, "launch-guides"), -Worked::depth(off, 290.0, 70.0), HEIGHT);
    // The stern only rises from where it lifts: the skeg is lowest there, 20 above the ramp normal to it.
    near("skeg", load(&found, "launch-clearance-skeg"), 20.0 / Worked::theta().cos(), HEIGHT);
    // On keel rollers whose first is 230 in ahead of the transom: KM w Vol / W − KG.
    let on_rollers = Worked::draft(Worked::lifts(230.0));
    let below = Worked::below(on_rollers, Worked::T);
    let metacentre = (below.up + below.across) / below.volume;
    let height = metacentre * Worked::water() * below.volume / Worked::WEIGHT - 30.0;
    near("heel", load(&rolls, "launch-heel"), height, HEIGHT);
    // The winch draws all of her up the dry ramp; the band ends where she would sit down 1 in short.
    let home = halve(lifts, off, |u| Worked::short(p, u) < 1.0);
    near("home", load(&found, "launch-home"), home, 2.0 * ALONG);
    assert_eq!(launched(&found).home.as_ref().expect("known").to.0, Closes::SitsShort);
    let made: BTreeSet<&str> = found.rows.iter().chain(&rolls.rows).map(|row| row.check.id).collect();
    for check in checks().filter(|check| check.subject == Subject::Launch) {
        assert!(made.contains(check.id), "{} has no row here: work it by hand", check.id);
    }
}

fn limit(found: &Assessment, id: &str) -> f64 {
    in_us(found.check(id).and_then(|row| row.max).expect("a limit"))
}

#[test]
fn every_event_is_where_it_was_worked() {
    let found = assessed(RIG, &[]);
    let launch = launched(&found);
    let at = |event| launch.at(event).unwrap_or_else(|| panic!("{event:?} does not happen"));
    let p = 168.0;
    near("lifts", inches(at(Event::SternLifts).along), Worked::lifts(p), ALONG);
    near("slides", inches(at(Event::Slides).along), Worked::slides(p), ALONG);
    near("floats", inches(at(Event::Floats).along), Worked::floats(p), ALONG);
    // The hub, 14 in above the ground normal to it, gets wet where u t = 14.
    near("hubs", inches(at(Event::HubsWet).along), 14.0 / Worked::T, ALONG);
    // What is so far behind the ball and above the ramp gets wet; the tow vehicle's rear axle is 51 ahead of the ball, its hub
    // 16 in up, and its tires may stand 8 in deep.
    let wet = |x: f64, h: f64, depth: f64| halve(0.0, 900.0, |u| Worked::depth(u, x, h) < depth);
    near("tow tires", inches(at(Event::TowTire).along), wet(-51.0, 0.0, 8.0), ALONG);
    near("tow hubs", inches(at(Event::TowHub).along), wet(-51.0, 16.0, 0.0), ALONG);
    near("tailpipe", inches(at(Event::Tailpipe).along), wet(-11.0, 15.0, 0.0), ALONG);
    near("guides", inches(at(Event::Guides).along), wet(290.0, 70.0, 0.0), ALONG);
    near("lamps", inches(at(Event::Lamps).along), wet(320.0, 70.0, 0.0), ALONG);
    let (draft, trim) = Worked::afloat();
    near("draft", inches(launch.afloat.draft), draft, HEIGHT);
    near("trim", launch.afloat.trim.si().tan(), trim, 1e-5);
    let off = launch.comes_off().expect("she comes off");
    let u = Worked::slides(p);
    near("lamps", inches(off.lamps.clone().expect("known")), -Worked::depth(u, 320.0, 70.0), HEIGHT);
    let deep = Worked::depth(u, 60.0, 16.0);
    near("skipper", inches(off.skipper.clone().expect("known")), deep, HEIGHT);
    near("wheels", inches(off.wheel_depth), u * Worked::theta().sin(), HEIGHT);
    near("carried", pounds(off.carried), Worked::carried(Worked::turned(u, p, p)), FORCE);
    // From the stop, 62 in behind the ball, to the tail; twice the stop's height; 10 ft.
    near(
        "line",
        inches(found.launches[0].line.clone().expect("known")),
        320.0 - 62.0 + 2.0 * 53.0 + 120.0,
        1e-6,
    );
    assert!(!launch.slides_dry() && !launch.trailer_nearly_floats);
}

/// What closes the band is the first of what can, each where it was worked.
#[test]
fn the_band_for_coming_home_ends_with_the_first_of_what_ends_it() {
    let ends = |changes: &[&str]| {
        let found = assessed(RIG, changes);
        let (closes, spot) = launched(&found).home.clone().expect("known").to;
        (closes, inches(spot.along))
    };
    let far = ["policy.home_gap=90 in"];
    let with = |more: &[&'static str]| -> Vec<&'static str> { far.iter().chain(more).copied().collect() };
    let t = Worked::T;
    // Where a point h above the ground is awash: (u − x_n + x) t = h.
    for (changes, closes, u) in [
        (with(&[]), Closes::Tailpipe, 15.0 / t + 280.0 + 11.0),
        (with(&["tow.tailpipe.height=40 in"]), Closes::TowHub, 16.0 / t + 280.0 + 51.0),
        (with(&["tow.tailpipe.height=40 in", "trailer.guides.top=50 in"]), Closes::Guides, 50.0 / t - 10.0),
        (with(&["ramps.1.profile.1.length=1200 in"]), Closes::RampEnds, 300.0 * t.hypot(1.0)),
    ] {
        let (found, at) = ends(&changes);
        assert_eq!(found, closes, "{changes:?}");
        // The ramp's end is found by the rearmost hub, 14 in above the ramp and so nearer by 14 sin θ.
        let within = if closes == Closes::RampEnds { 14.0 * Worked::theta().sin() + ALONG } else { ALONG };
        near("the end", at, u, within);
    }
    // A winch that pulls less than half of what she weighs draws her home once she floats so far.
    let found = assessed(RIG, &["trailer.winch.rating=3000 lb"]);
    let home = launched(&found).home.clone().expect("known");
    let from = home.from.as_ref().expect("it can somewhere");
    assert!(from.along.si() > 0.0);
    near("width", load(&found, "launch-home"), inches(home.to.1.along) - inches(from.along), 1e-6);
}

/// The ramp ends 300 in below the water's edge on the level, and she slides off farther down: the row says where, as if the
/// ramp went on.
#[test]
fn a_ramp_that_ends_too_soon_is_told_how_far_it_would_have_to_reach() {
    let found = assessed(RIG, &["ramps.1.profile.1.length=1200 in"]);
    let (off, end) = (Worked::slides(168.0), 300.0 * Worked::T.hypot(1.0));
    // Several feet, so that a short look beyond the end would not do.
    assert!(off > end + 36.0, "{off} and {end}");
    near("comes off", load(&found, "launch-ramp-end"), off, ALONG);
    let row = found.check("launch-ramp-end").expect("a row");
    near("fails", 12.0 * in_us(row.fails_above.expect("a limit")), end, 1e-6);
    assert_eq!(row.verdict, Verdict::Fail);
}

#[test]
fn no_launch_says_why() {
    let why = |water: &str, changes: &[&str]| {
        let found = assessed(&RIG.replace("water_from_top = \"900 in\"", water), changes);
        let launch = found.launches[0].launch.clone().expect("nothing is missing");
        (launch.expect_err("no launch"), found)
    };
    let (end, found) = why("water_from_top = \"3001 in\"", &[]);
    assert_eq!(end, NoLaunch::WaterBelowEnd);
    let row = found.check("launch-ramp-end").expect("a row");
    assert!(row.load.is_none() && row.verdict == Verdict::Fail, "{row:?}");
    // All of the hull to its sheer holds 264 (16 × 44 + 88 × 44) in³, some 44,800 lb.
    let (sinks, found) = why("water_from_top = \"900 in\"", &["boat.weights.1.weight=46000 lb"]);
    assert!(matches!(sinks, NoLaunch::Sinks(_)), "{sinks:?}");
    assert_eq!(found.check("launch-ramp-end").expect("a row").verdict, Verdict::Fail);
}

#[test]
fn a_boat_that_is_known_afloat_alone_floats_free_where_its_tape_says() {
    let (_, sections) = RIG.split_once("[[boat.sections]]").expect("sections");
    let (_, rest) = sections.split_once("[[boat.weights]]").expect("weights");
    let (before, _) = RIG.split_once("[[boat.sections]]").expect("sections");
    let (d, t) = Worked::afloat();
    // s_e sin τ + h_e cos τ = T cos τ + f.
    let (sin, cos) = t.atan().sin_cos();
    let eye = 258.0 * sin + (31.0 - d) * cos;
    let text = format!(
        "{before}afloat = {{ draft = \"{:.6} in\", eye = \"{eye:.6} in\" }}\n[[boat.weights]]{rest}",
        d * cos
    );
    let found = assessed(&text, &[]);
    let launch = launched(&found);
    for event in [Event::HubsWet, Event::SternLifts, Event::Slides] {
        assert!(
            launch
                .at(event)
                .is_none_or(|spot| launch.at(Event::Floats).is_some_and(|free| spot.along >= free.along))
        );
    }
    // Where the tow vehicle gets wet needs no boat.
    assert!(launch.must_stop().is_some_and(|(event, _)| event == Event::Tailpipe));
    near("floats", inches(launch.comes_off().expect("afloat").along), Worked::floats(168.0), ALONG);
    // Nothing is guessed of what her shape decides.
    for id in ["launch-tongue", "launch-support", "launch-strap", "launch-home"] {
        let row = found.check(id).expect("a row");
        assert_eq!(row.verdict, Verdict::NotChecked, "{id}");
        assert!(
            row.missing.iter().any(|key| key.path == "boat.hull.chine.half_breadth"),
            "{id}: {:?}",
            row.missing
        );
    }
}

/// Her sections and weights give a draft of `d cos τ` at the transom; a tape that finds it is believed, one 2.5 in off is doubted.
#[test]
fn a_draft_taped_beside_a_hull_is_compared_with_it() {
    let (d, t) = Worked::afloat();
    let computed = d * t.atan().cos();
    let doubted = |draft: f64| {
        let afloat = format!("afloat = {{ draft = \"{draft:.6} in\", eye = \"20 in\" }}\n[[boat.sections]]");
        let rig = Rig::parse(&RIG.replacen("[[boat.sections]]", &afloat, 1)).expect("it reads");
        let cautions = examine(&rig).expect("it rests").cautions;
        cautions.into_iter().find_map(|caution| match caution {
            Caution::FloatsOtherwise { taped, computed } => Some([taped, computed].map(inches)),
            _ => None,
        })
    };
    for off in [-1.9, 0.0, 1.9] {
        assert_eq!(doubted(computed + off), None, "{off}");
    }
    let [taped, found] = doubted(computed + 2.5).expect("a caution");
    near("taped", taped, computed + 2.5, 1e-5);
    near("computed", found, computed, HEIGHT);
    assert!(doubted(computed - 2.5).is_some());
}

#[test]
fn a_boat_that_slides_dry_comes_off_by_floating() {
    // Slick rollers: μ' cos θ < sin θ.
    let found = assessed(RIG, &["trailer.bunks.friction=5 %"]);
    let launch = launched(&found);
    assert!(launch.slides_dry());
    let off = launch.comes_off().expect("she comes off");
    assert_eq!(Some(off), launch.at(Event::Floats));
}

#[test]
fn measures_that_make_no_hull_by_tape_ask_for_sections() {
    let (before, rest) = RIG.split_once("[[boat.sections]]").expect("sections");
    let (_, rest) = rest.split_once("[[boat.weights]]").expect("weights");
    let text = format!("{before}[[boat.weights]]{rest}").replace(
        "straight_run = \"240 in\"",
        "straight_run = \"260 in\", chine = { half_breadth = \"44 in\" }",
    );
    let found = assessed(&text, &[]);
    let row = found.check("launch-ramp-end").expect("a row");
    assert!(row.missing.iter().any(|key| key.path == "boat.sections.*.station"), "{:?}", row.missing);
    assert!(
        assessed(&text.replace("260 in", "230 in"), &[])
            .check("launch-ramp-end")
            .expect("a row")
            .load
            .is_some()
    );
}

/// Where only launching fails, the road bears the rig.
#[test]
fn a_rig_that_fails_at_launching_alone_may_be_towed() {
    let text = include_str!("../../demo-data/survey-launch-as-changed.toml");
    let found = assessed(text, &["ramps.1.profile.2.length=55 ft"]);
    let fails: Vec<&Row> = found.rows.iter().filter(|row| row.verdict == Verdict::Fail).collect();
    assert!(fails.iter().all(|row| row.check.subject == Subject::Launch) && !fails.is_empty(), "{fails:?}");
    assert_eq!(found.verdict, RigVerdict::Fail);
    let rig = Rig::read("launch.toml", text, &["ramps.1.profile.2.length=55 ft"]).expect("it reads");
    let page = crate::reasons::page_of(&rig);
    assert!(page.contains("Do not launch there as it is.") && !page.contains("Do not tow it"), "{page}");
}

/// Report and card of a demo, as text.
fn printed(demo: &str, changes: &[&str]) -> [String; 2] {
    printed_of(&demo_text(demo), changes)
}

fn demo_text(demo: &str) -> String {
    let path = format!("{}/demo-data/{demo}.toml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("a demo")
}

/// Report and card of a rig, as text.
fn printed_of(text: &str, changes: &[&str]) -> [String; 2] {
    let rig = Rig::read("rig.toml", text, changes).expect("it reads");
    let (findings, uncertainty) = uncertainty::examine(&rig).expect("it settles");
    let subject = report::Subject {
        path: "rig.toml",
        rig: &rig,
        findings: &findings,
        uncertainty: uncertainty.as_ref(),
        as_stated: false,
        units: UnitSystem::Us,
    };
    let found = launching(&rig, Choice::default(), &findings);
    [report::launch::report(&subject, &found, Extent::Page), report::launch::card(&subject, &found)]
        .map(|document| text::render(&document, text::WIDTH, false))
}

/// The tow vehicle's tailpipe is under water before the boat comes off: neither page nor card sends anybody there.
#[test]
fn where_the_tow_vehicle_drowns_first_nobody_is_told_to_launch() {
    let [page, card] = printed("survey-launch-on-two-ramps", &[])
        .map(|text| text.split_whitespace().collect::<Vec<_>>().join(" "));
    assert!(page.contains("At \"river landing\" do not launch: the tailpipe gets wet at 35 in;"), "{page}");
    let (_, river) = card.split_once("At \"river landing\"").expect("its ramp");
    assert!(
        river.contains("Do not launch here: the tailpipe gets wet at 35 in over the rear wheels"),
        "{card}"
    );
    assert!(!river.contains("Back in to") && !river.contains("push her off"), "{card}");
}

/// Tongue weight holds as stated, 1372 lb of 1400, and not at the ends of the hull's ±.
#[test]
fn what_holds_as_stated_is_not_reported_as_past_its_limit() {
    let [page, _] =
        printed("survey-launch-on-two-ramps", &["tow.tire_wet_limit=40 in", "tow.tailpipe.height=60 in"]);
    let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        flat.contains("1372 lb as stated, past its limit only at the worst of what is uncertain"),
        "{page}"
    );
}

#[test]
fn a_boat_that_does_not_float_is_said_not_to() {
    let [page, _] = printed("survey-launch-as-changed", &["boat.weights.hull.weight=40000 lb"]);
    let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.starts_with("FAIL At \"harbour slip\" she does not float"), "{page}");
}

#[test]
fn page_and_card_keep_their_length() {
    for demo in ["survey-launch-on-two-ramps", "fishing-skiff-by-tape", "survey-launch-as-changed"] {
        let [page, card] = printed(demo, &[]);
        assert!(page.lines().count() <= PAGE, "{page}");
        assert!(card.lines().count() <= report::launch::CARD, "{card}");
    }
}

/// The starter file for launching, filled in with what a tape, a sidewall and the boat's papers give: no scale, no label of
/// the trailer's, no place of the boat's weight.
const BY_TAPE: &str = r#"
format = 1
title = "my boat on my trailer"
units = "us"
[boat]
length = "24 ft"
bow_eye.station = "21 ft 6 in"
bow_eye.height = "31 in"
[[boat.weights]]
id = "hull"
weight = "6000 lb"
[trailer]
length = "27 ft"
bow_stop = "3 ft 10 in"
bow_stop_height = "53 in"
keel_height = "22 in"
level_ball_height = "19 in"
[trailer.suspension]
kind = "leaf-equalized"
[[trailer.axles]]
station = "16 ft 8 in"
tires.size = "ST225/75R15"
[[trailer.axles]]
station = "19 ft 3 in"
tires.size = "ST225/75R15"
[trailer.coupler]
[hitch]
[tow]
wheelbase = "12 ft 2 in"
ball_overhang = "4 ft 1 in"
ball_height = "19 in"
tailpipe.station = "38 in"
tailpipe.height = "17 in"
tire_radius = "15 1/2 in"
tire_wet_limit = "10 in"
[[ramps]]
name = "harbour slip"
profile = [ { length = "30 ft", grade = "2 %" }, { length = "110 ft", grade = "9 %" } ]
water_level = "-3 ft"
water = "sea-water"
[boat.hull]
deadrise = "18 deg"
chine.half_breadth = "41 in" # from the centreline, over the bunks
straight_run = "15 ft"
[trailer.bunks]
forward_end = "11 ft"
aft_end = "25 ft 3 in"
[[trailer.crossmembers]]
station = "12 ft 6 in"
[[trailer.crossmembers]]
station = "16 ft"
[[trailer.crossmembers]]
station = "20 ft"
[[trailer.crossmembers]]
station = "24 ft 6 in"
[trailer.guides]
station = "24 ft"
top = "72 in"
[trailer.winch]
station = "28 in"
height = "57 in"
strap.length = "16 ft"
strap.thickness = "0.1 in"
"#;

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Nothing stands in for where her weight lies: without it there is no depth; the card says what is missing, and the length
/// of line that a tape gives.
#[test]
fn a_card_of_what_a_tape_gives_says_what_it_lacks() {
    let text = BY_TAPE;
    let [page, card] = printed_of(text, &[]).map(|text| flat(&text));
    assert!(card.contains("At \"harbour slip\", 9.0 % at the water, boat at 6000 lb"), "{card}");
    let lacks = "How deep to back in is not known without boat.weights.1.station and boat.weights.1.height.";
    assert!(card.contains(lacks), "{card}");
    let asks = "are never assumed: estimate boat.weights.1.station and boat.weights.1.height, with ±";
    // Tail at 27 ft, bow stop at 3 ft 10 in and 53 in up: 324 − 46 + 2 × 53 + 120 = 504 in.
    for said in [&page, &card] {
        assert!(said.contains(asks), "{said}");
        assert!(said.contains("Line: 42 ft from the bow eye to the winch's post."), "{said}");
    }
    assert!(page.contains("an estimate with its ± will do"), "{page}");

    // With these estimated, all but coming home is known, since the winch is not.
    let estimated = [
        "trailer.weight=1900 lb",
        "trailer.tongue_weight=210 lb",
        "boat.weights.1.station=9 ft",
        "boat.weights.1.height=28 in",
        "trailer.axles.all.rating=5200 lb",
    ];
    let [_, card] = printed_of(text, &estimated).map(|text| flat(&text));
    assert!(card.contains("Do not launch here: the tailpipe gets wet"), "{card}");
    assert!(card.contains("Home: not known without trailer.winch.rating and trailer.winch.core."), "{card}");
    assert!(!card.contains("The tailpipe is not in the file"), "{card}");
    let dry = text.replace("tailpipe.height", "#tailpipe.height");
    let [_, card] = printed_of(&dry, &estimated).map(|text| flat(&text));
    assert!(card.contains("The tailpipe is not in the file: watch where it gets wet."), "{card}");
}

/// Where her weight lies is enough for an estimate: it says what it is made from, no check goes by it, and page and card tell
/// the same bands.
#[test]
fn a_tape_and_an_estimate_of_the_boat_give_depths_in_bands() {
    let demo = demo_text("launching/by-tape-alone");
    let rig = Rig::parse(&demo).expect("it reads");
    let found = assess(&rig).expect("nothing unfit");
    assert!(found.rows.iter().all(|row| row.check.subject != Subject::Launch || row.load.is_none()));
    // 2,900 lb of boat: the trailer 20 to 50 % of that; its tongue 5 to 20 % of the middle, 1,015 lb; each of two axles'
    // springs 0.75 to 1.75 times half of 3,915 lb.
    let [page, card] = printed_of(&demo, &[]).map(|text| flat(&text));
    assert!(page.starts_with("ESTIMATE At \"reed slip\" the stern lifts with "), "{page}");
    for said in [
        "the file lacks trailer.weight, trailer.tongue_weight and trailer.axles.all.rating.",
        "the trailer weighs 580 to 1450 lb, its tongue without the boat weighs 51 to 203 lb and each axle's springs are rated for 1468 to 3426 lb",
        "To narrow the depths most, measure boat.weights.1.station.",
    ] {
        assert!(page.contains(said), "{said}\n{page}");
    }
    let marks = marks(&demo, &[]);
    let [soonest, latest] = marks[0].between(Launch::lifts).expect("it lifts");
    // No band is printed narrower than it is.
    let lifts =
        format!("{} to {} in", inches(soonest.wheel_depth).floor(), inches(latest.wheel_depth).ceil());
    assert!(page.contains(&format!("the stern lifts with {lifts} over")), "{lifts}\n{page}");
    assert!(card.contains(&format!("Back in to {lifts} over the rear wheels")), "{lifts}\n{card}");
    assert!(card.contains("An estimate, for want of trailer.weight"), "{card}");
    // Posts 22.5 in lower stand dry at one end of the band in which she comes off, and under water at the other: 24 to 21 in.
    let [_, card] = printed_of(&demo, &["trailer.guides.top-=22.5 in"]).map(|text| flat(&text));
    let off = card.split(" - ").find(|line| line.contains("push her off")).expect("a mark");
    assert!(off.contains("in dry to ") && off.contains("in under: push her off"), "{off}");
    // Without its ± it is asked for.
    let [page, _] = printed_of(&demo.replace(" ± 5 in", ""), &[]).map(|text| flat(&text));
    assert!(page.contains("state boat.weights.1.station with its ±"), "{page}");
}

/// The marks at the ends of what is uncertain, ramp by ramp.
fn marks(text: &str, changes: &[&str]) -> Vec<Marks> {
    let rig = Rig::read("launch.toml", text, changes).expect("it reads");
    let findings = examine(&rig).expect("it settles");
    launching(&rig, Choice::default(), &findings).marks.into_iter().flatten().collect()
}

/// Lines of a rig file left out.
fn without(text: &str, lines: &[&str]) -> String {
    lines.iter().fold(text.to_string(), |text, line| {
        assert!(text.contains(line), "{line}");
        text.replace(line, "")
    })
}

/// On springs that do not give nothing of what is assumed moves a mark: every end is what was worked by hand.
#[test]
fn on_a_rigid_rig_every_end_is_what_was_worked() {
    let lacks = without(RIG, &["weight = \"2000 lb\"\n", "cg = \"200 in\"\n", "rating = \"9000 lb\"\n"]);
    assert!(assessed(&lacks, &[]).launches[0].found().is_err());
    let marks = marks(&lacks, &[]);
    let p = 168.0;
    assert!(marks[0].tried.len() > 6 && !marks[0].may_fail);
    for spot in marks[0].between(Launch::lifts).expect("it lifts") {
        near("lifts", inches(spot.along), Worked::lifts(p), ALONG);
    }
    for spot in marks[0].between(Launch::comes_off).expect("she comes off") {
        near("comes off", inches(spot.along), Worked::slides(p), ALONG);
    }
}

/// A ± gives the marks of the file that states its ends.
#[test]
fn a_stated_bound_moves_the_marks_to_its_ends() {
    let marks = marks(RIG, &["boat.weights.1.station=110 in ± 4 in"]);
    let [soonest, latest] = marks[0].between(Launch::lifts).expect("it lifts");
    let at = |station: &str| {
        let found = assessed(RIG, &[&format!("boat.weights.1.station={station}")]);
        inches(launched(&found).lifts().expect("it lifts").along)
    };
    // Weight farther forward lets the stern lift sooner.
    near("soonest", inches(soonest.along), at("114 in"), 1e-3);
    near("latest", inches(latest.along), at("106 in"), 1e-3);
}

/// Whatever trailer the boat lies on within what is assumed, the bands hold its marks; and they are narrow: tires and springs
/// twice or half as stiff move her lift by some inches, friction between 15 and 45 % where she slides.
#[test]
fn the_bands_hold_the_marks_of_every_trailer_that_is_assumed() {
    let demo = demo_text("fishing-skiff-by-tape");
    let keys = ["weight = \"640 lb\"\n", "tongue_weight = \"70 lb\"\n", "spring_rating = \"3500 lb\"\n"];
    let tandem = BY_TAPE
        .replace("weight = \"6000 lb\"", "weight = \"6000 lb\"\nstation = \"9 ft\"\nheight = \"28 in\"");
    // 24 gal of gasoline at 6.1 lb make 146 lb of the skiff's 1,946.
    for (text, boat, axles) in [(without(&demo, &keys), 1946.0, 1.0), (tandem, 6000.0, 2.0)] {
        let marks = marks(&text, &[]);
        for (trailer, tongue, springs) in
            [(0.33, 0.11, 1.35), (0.22, 0.18, 0.8), (0.48, 0.06, 1.7), (0.3, 0.15, 1.0), (0.45, 0.19, 1.5)]
        {
            let weight = trailer * boat;
            let changes = [
                format!("trailer.weight={weight} lb"),
                format!("trailer.tongue_weight={} lb", tongue * weight),
                format!("trailer.axles.all.spring_rating={} lb", springs * (boat + weight) / axles),
            ];
            let changes: Vec<&str> = changes.iter().map(String::as_str).collect();
            let found = assessed(&text, &changes);
            let launch = launched(&found);
            for (mark, narrow) in
                [(Launch::lifts as fn(&Launch) -> Option<&Spot>, 6.0), (Launch::comes_off, 12.0)]
            {
                let [soonest, latest] =
                    marks[0].between(mark).expect("it happens").map(|at| inches(at.wheel_depth));
                let truly = inches(mark(launch).expect("it happens").wheel_depth);
                assert!(soonest <= truly && truly <= latest, "{changes:?}: {soonest} {truly} {latest}");
                assert!(latest - soonest < narrow, "{soonest} to {latest}");
            }
        }
    }
}

/// Friction that is assumed may lie anywhere in its range: the bands hold the marks at each, and depths to come home by hold at
/// all.
#[test]
fn the_bands_hold_the_marks_at_any_friction_that_is_assumed() {
    let demo = demo_text("fishing-skiff-by-tape");
    let marks = marks(&demo, &[]);
    let [soonest, latest] = marks[0].between(|launch| launch.at(Event::Slides)).expect("she slides");
    let depths = ["15 %", "30 %", "45 %"].map(|friction| {
        let found = assessed(&demo, &[&format!("trailer.bunks.friction={friction}")]);
        let launch = launched(&found);
        let home = launch.home.as_ref().expect("she comes home");
        let worst = marks[0].worst_home(home);
        let from = |home: &Home| inches(home.from.as_ref().expect("the winch draws her").wheel_depth);
        assert!(from(&worst) >= from(home) && worst.to.1.wheel_depth <= home.to.1.wheel_depth);
        inches(launch.at(Event::Slides).expect("she slides").wheel_depth)
    });
    // The grippier the bunks, the deeper.
    assert!(depths[0] + 1.0 < depths[1] && depths[1] + 1.0 < depths[2], "{depths:?}");
    assert!(
        inches(soonest.wheel_depth) <= depths[0] && depths[2] <= inches(latest.wheel_depth),
        "{depths:?}"
    );
}

/// A card never breaks off in the middle of a ramp: what has no room is named.
#[test]
fn a_ramp_without_room_on_the_card_is_named() {
    let third = "\n[[ramps]]\nname = \"quarry slip\"\nprofile = [ { length = \"20 ft\", grade = \"4 %\" }, { length = \"90 ft\", grade = \"15 %\" } ]\nwater_level = \"-5 ft\"\n";
    let [_, card] = printed_of(&(demo_text("survey-launch-on-two-ramps") + third), &[]);
    assert!(card.lines().count() <= report::launch::CARD, "{card}");
    assert!(card.contains("No room for another ramp: --ramp \"quarry slip\"."), "{card}");
    assert!(!card.contains("At \"quarry slip\""), "{card}");
    assert_eq!(card.matches("- Home:").count(), 2, "{card}");
}

/// Pages and the card of a rig with a figure that no such rig has ask for it, whatever they find.
#[test]
fn a_misread_figure_is_named_wherever_it_was_used() {
    let changes = ["boat.weights.hull.height=20 ft"];
    for printed in self::printed("fishing-skiff-by-tape", &changes) {
        let said = printed.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains("Is a digit or a unit wrong? boat.weights.1.height is 240 in"), "{printed}");
    }
    for printed in self::printed("fishing-skiff-by-tape", &[]) {
        assert!(!printed.contains("digit or a unit"), "{printed}");
    }
}

/// At one end of what is uncertain the tailpipe gets wet before she is off: no row compares that, and the page does not begin with
/// a pass. On a tailpipe that stays dry it does.
#[test]
fn a_launch_that_may_have_to_stop_does_not_begin_with_a_pass() {
    let [page, _] = printed("fishing-skiff-by-tape", &[]);
    assert!(page.starts_with("ADVISE  ") && page.contains("before she is off"), "{page}");
    let [page, _] = printed("fishing-skiff-by-tape", &["tow.tailpipe.height=40 in", "tow.tire_radius=20 in"]);
    assert!(page.starts_with("PASS  ") && !page.contains("before she is off"), "{page}");
}

/// As found, she comes home over a band of 2 ft whatever the springs, but over another band with each: the row holds, and the
/// page does not say that nothing suits.
#[test]
fn a_band_that_no_one_depth_suits_is_told_from_none() {
    let found = assessed(&demo_text("survey-launch-as-found"), &[]);
    assert!(
        launched(&found).home.as_ref().is_ok_and(|home| home.width().is_some_and(|width| width.si() > 0.0))
    );
    let [page, card] = printed("survey-launch-as-found", &[]);
    let said = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("Coming home: no one depth suits all that is uncertain."), "{page}");
    assert!(card.contains("Home: no one depth surely suits the winch."), "{card}");
}

/// The tow vehicle's hubs are as high as its tires: where nobody taped these the card says so.
#[test]
fn a_card_says_that_the_height_of_the_hubs_is_assumed() {
    for (changes, assumed) in [(&[][..], true), (&["tow.tire_radius=14 in"], false)] {
        let [_, card] = printed("fishing-skiff-by-tape", changes);
        assert_eq!(card.contains("hubs are taken to lie 16 in up"), assumed, "{card}");
    }
}

/// A random rig for launching, and the same in millimetres and kilograms, in numbers that both state exactly.
#[derive(Debug, Clone)]
struct Sketch {
    weight: i64,
    station: i64,
    grade: i64,
    water: i64,
    friction: i64,
    forward: i64,
    rate: i64,
}

fn sketches() -> impl Strategy<Value = Sketch> {
    (3000_i64..14_000, 60_i64..160, 6_i64..22, 100_i64..900, 10_i64..45, 120_i64..220, 300_i64..5000)
        .prop_map(|(weight, station, grade, water, friction, forward, rate)| Sketch {
            weight,
            station,
            grade,
            water,
            friction,
            forward,
            rate,
        })
}

impl Sketch {
    fn write(&self) -> String {
        let Self { weight, station, grade, water, friction, forward, rate } = self;
        RIG.replace(
            "weight = \"8000 lb\"\nstation = \"110 in\"",
            &format!("weight = \"{weight} lb\"\nstation = \"{station} in\""),
        )
        .replace("grade = \"14 %\"", &format!("grade = \"{grade} %\""))
        .replace("water_from_top = \"900 in\"", &format!("water_from_top = \"{water} in\""))
        .replace("friction = \"30 %\"", &format!("friction = \"{friction} %\""))
        .replace("forward_end = \"152 in\"", &format!("forward_end = \"{forward} in\""))
        .replace("deflection_at_rating = \"0.00023 in\"", "deflection_at_rating = \"2.5 in\"")
        .replace("rate = \"5000000 lb/in\"", &format!("rate = \"{rate} lb/in\""))
    }
}

/// A text with its inches in millimetres and its pounds in kilograms.
fn metric(text: &str) -> String {
    let parts = text.split('"').enumerate().map(|(i, part)| match part.split_once(' ') {
        Some((number, unit)) if i % 2 == 1 => {
            let scaled = |by: f64, unit| number.parse::<f64>().map(|n| format!("{:.9} {unit}", n * by));
            let other = match unit {
                "in" => scaled(25.4, "mm"),
                "ft" => scaled(304.8, "mm"),
                "lb" => scaled(0.453_592_37, "kg"),
                _ => return part.to_string(),
            };
            other.unwrap_or_else(|_| part.to_string())
        }
        _ => part.to_string(),
    });
    parts.collect::<Vec<_>>().join("\"")
}

fn along(found: &Assessment, event: Event) -> Option<f64> {
    Some(inches(found.launches[0].found().ok()?.at(event)?.along))
}

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn units_do_not_matter(sketch in sketches()) {
        let (us, mm) = (assessed(&sketch.write(), &[]), assessed(&metric(&sketch.write()), &[]));
        for (us, mm) in us.rows.iter().zip(&mm.rows) {
            prop_assert_eq!(us.id(), mm.id());
            let apart = us.load.map(in_us).zip(mm.load.map(in_us)).map(|(us, mm)| (us - mm).abs());
            prop_assert_eq!(us.load.is_some(), mm.load.is_some());
            // Texts hold nine digits after the point; searches stop within 4e-6 in.
            prop_assert!(apart.is_none_or(|apart| apart < 2e-3), "{}: {:?} {:?}", us.id(), us.load, mm.load);
        }
    }

    /// What is heavier at the stern lifts it later, by statics: its weight presses on the trailer behind the support.
    #[test]
    fn a_heavier_stern_never_lifts_sooner(sketch in sketches(), more in 50_i64..900) {
        let weight = format!("\n[[boat.weights]]\nweight = \"{more} lb\"\nstation = \"0 in\"\nheight = \"20 in\"\n");
        let (less, more) = (assessed(&sketch.write(), &[]), assessed(&(sketch.write() + &weight), &[]));
        if let (Some(less), Some(more)) = (along(&less, Event::SternLifts), along(&more, Event::SternLifts)) {
            // Where it has lifted on the dry ramp already, that is where the search begins.
            prop_assert!(more > less - 1e-4 || less < 0.0, "{less} {more}");
        }
    }

    #[test]
    fn a_longer_ramp_never_worsens_its_row(sketch in sketches()) {
        let margin = |length: &str| {
            let text = sketch.write().replace("length = \"3000 in\"", &format!("length = \"{length} in\""));
            assessed(&text, &[]).check("launch-ramp-end").and_then(|row| row.margin).map(in_us)
        };
        if let (Some(short), Some(long)) = (margin("1500"), margin("2000")) {
            prop_assert!(long >= short - 1e-6, "{short} {long}");
        }
    }

    /// Whatever else is in the file, a case's launch is the same, and its events stand in the order in which they happen.
    #[test]
    fn cases_do_not_disturb_each_other(sketch in sketches()) {
        let tank = "\n[[boat.tanks]]\nid = \"fuel\"\nfluid = \"diesel\"\ncapacity = \"90 gal\"\nstation = \"20 in\"\nheight = \"12 in\"\n";
        let case = |name: &str, fill: i64| format!("\n[[cases]]\nname = \"{name}\"\nfill = {{ fuel = \"{fill} %\" }}\n");
        let base = sketch.write() + tank + "\n[[cases]]\nname = \"as measured\"\n";
        let one = assessed(&(base.clone() + &case("full", 100) + &case("low", 20)), &[]);
        let other = assessed(&(base + &case("low", 20) + &case("full", 100)), &[]);
        prop_assert_eq!(&one.launches[1].launch, &other.launches[2].launch);
        prop_assert_eq!(&one.launches[2].launch, &other.launches[1].launch);
        for loads in &one.launches {
            let Ok(launch) = loads.found() else { continue };
            prop_assert!(launch.events.is_sorted_by(|(_, a), (_, b)| a.position <= b.position));
        }
    }

    /// Sections may be anything that reads; what comes of it is a launch or a reason.
    #[test]
    fn any_sections_end_soundly(
        keel in -20_i64..60, chine in (0_i64..60, -20_i64..60), sheer in (0_i64..70, -20_i64..90), station in 1_i64..400,
    ) {
        let (before, last) = RIG.rsplit_once("[[boat.sections]]").expect("sections");
        let (_, rest) = last.split_once("[[boat.weights]]").expect("weights");
        let section = format!(
            "station = \"{station} in\"\nkeel = \"{keel} in\"\nchine = {{ half_breadth = \"{} in\", height = \"{} in\" }}\nsheer = {{ half_breadth = \"{} in\", height = \"{} in\" }}\n",
            chine.0, chine.1, sheer.0, sheer.1
        );
        let text = format!("{before}[[boat.sections]]\n{section}[[boat.weights]]{rest}");
        match Rig::parse(&text) {
            Err(problems) => prop_assert!(sheer.1 < chine.1.max(keel), "{problems}"),
            Ok(rig) => {
                prop_assert!(sheer.1 >= chine.1.max(keel));
                let found = assess(&rig).expect("a trailer at rest");
                let launch = found.launches[0].launch.as_ref().expect("nothing is missing");
                prop_assert!(!matches!(launch, Err(NoLaunch::NoHull(_))), "{launch:?}");
            }
        }
    }
}

/// The rear tires stand as deep as they may before anything else stops the tow vehicle: the card says where.
#[test]
fn the_card_heeds_the_wet_limit_of_the_tow_vehicles_tires() {
    let of = |limit: &str| {
        let [_, card] = printed("fishing-skiff-by-tape", &[&format!("tow.tire_wet_limit={limit}")]);
        card.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let says = "the tow vehicle's rear tires stand as deep as they may.";
    assert!(of("4 in").contains(says), "{}", of("4 in"));
    // So deep that the tailpipe is wet long before.
    assert!(!of("40 in").contains(says), "{}", of("40 in"));
}
