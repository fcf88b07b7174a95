//! Values that stand where a file is silent, each with its reason.

use super::input::Key;
use super::setup::{
    Case, Fluid, Gripping, Lay, LevelMeasured, Service, Setup, Shift, SuspensionKind, TireKind, Units,
};
use crate::quantity::{Density, Kind, Length, Pressure, Quantity, Rate, Share, unit};

/// A value the file does not give, and why this one stands in.
#[derive(Debug, Clone, PartialEq)]
pub struct Assumed {
    /// The key, as a change would name it.
    pub key: String,
    /// The value.
    pub value: AssumedValue,
    /// Why this value.
    pub why: &'static str,
}

/// What is assumed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AssumedValue {
    /// A quantity of a kind, in SI.
    Quantity(f64, Kind),
    /// A band of shares.
    Band(Share, Share),
    /// A word.
    Word(&'static str),
}

const LEAF_DEFLECTION: (f64, &str) = (2.25, "leaf spring, common practice, no source");
const TORSION_DEFLECTION: (f64, &str) =
    (2.3, "torsion axle with a 6 in arm, from a published articulation table");
const LEAF_BUMP: f64 = 1.4;
const TORSION_BUMP: f64 = 1.45;
const EQUALIZER_TRAVEL: f64 = 1.5;
const TIRE_RATE: f64 = 2000.0;
/// A loaded tire's hub stands this share of its unloaded radius above the ground.
const LOADED_RADIUS: f64 = 0.94;
const CG_ABOVE_HUBS: f64 = 8.0;
const WET_RAMP_FRICTION: f64 = 0.3;
const TOW_CG_HEIGHT: f64 = 28.0;

/// The default band for tongue weight, as shares of gross trailer weight.
pub const TONGUE_SHARE: (f64, f64) = (0.07, 0.12);

fn inches(number: f64) -> Length {
    Length::from_si(number * 0.0254)
}

fn pounds_per_inch(number: f64) -> Rate {
    Rate::from_si(number * unit::find("lb/in").map_or(0.0, |unit| unit.factor))
}

/// Density of a fluid, and where the figure comes from.
pub fn density(fluid: Fluid) -> (Density, &'static str) {
    let of =
        |name: &str, number: f64| Density::from_si(number * unit::find(name).map_or(0.0, |unit| unit.factor));
    match fluid {
        Fluid::Gasoline => (of("lb/gal", 6.1), "gasoline, US DOE AFDC gives 6.0 to 6.5 lb/gal"),
        Fluid::Diesel => (of("lb/gal", 7.1), "diesel, US DOE AFDC gives 6.7 to 7.4 lb/gal"),
        Fluid::FreshWater => (of("kg/m3", 1000.0), "fresh water"),
        Fluid::SeaWater => (of("kg/m3", 1025.0), "sea water"),
    }
}

/// Fills every default into a setup; returns those that a report must name.
pub(super) fn resolve(setup: &mut Setup) -> Vec<Assumed> {
    plain(setup);
    let mut assumed = Vec::new();
    tanks(setup, &mut assumed);
    measured_body(setup, &mut assumed);
    ball_heights(setup, &mut assumed);
    suspension(setup, &mut assumed);
    tires(setup, &mut assumed);
    trailer_cg_height(setup, &mut assumed);
    tongue_share(setup, &mut assumed);
    low_points(setup);
    ramps(setup, &mut assumed);
    bunks(setup, &mut assumed);
    assumed
}

/// What goes without saying.
fn plain(setup: &mut Setup) {
    setup.units.get_or_insert(Units::Us);
    setup.trailer.level_measured.get_or_insert(LevelMeasured::Loaded);
    setup.policy.thin_margin.get_or_insert(Share::from_si(0.10));
    for item in &mut setup.boat.weights {
        item.side.get_or_insert(inches(0.0));
    }
    for tank in &mut setup.boat.tanks {
        tank.side.get_or_insert(inches(0.0));
        tank.fill.get_or_insert(Share::from_si(1.0));
    }
    for axle in &mut setup.trailer.axles {
        axle.tires.count.get_or_insert(2);
    }
    if setup.cases.is_empty() {
        setup.cases.push(Case::default());
    }
    let tanks = setup.boat.tanks.len();
    for (i, case) in setup.cases.iter_mut().enumerate() {
        case.name.get_or_insert_with(|| format!("case {}", i + 1));
        case.fill.resize(tanks, None);
    }
    stay(&mut setup.shift);
}

/// What is not said to move stays.
pub(super) fn stay(shift: &mut Shift) {
    for move_aft in [&mut shift.boat, &mut shift.axles, &mut shift.tongue, &mut shift.bunks] {
        move_aft.get_or_insert(inches(0.0));
    }
}

/// A tank's density follows its fluid, which may still be changed; so it is only named here.
fn tanks(setup: &Setup, assumed: &mut Vec<Assumed>) {
    for (i, tank) in setup.boat.tanks.iter().enumerate() {
        if let (Some(fluid), None) = (tank.fluid, tank.density) {
            let (density, why) = density(fluid);
            let element = tank.id.clone().unwrap_or_else(|| (i + 1).to_string());
            let key = format!("boat.tanks.{element}.density");
            assumed.push(Assumed { key, value: AssumedValue::Quantity(density.si(), Kind::Density), why });
        }
    }
}

fn measured_body(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    if setup.known_from_scales() && setup.boat.cg_side.is_none() {
        setup.boat.cg_side = Some(inches(0.0));
        let (key, value) = ("boat.cg_side".to_string(), AssumedValue::Quantity(0.0, Kind::Length));
        assumed.push(Assumed { key, value, why: "a scale does not tell the side: taken on the centreline" });
    }
}

/// The frame sits level as towed, or it is towed as it sits level.
fn ball_heights(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let (trailer, tow) = (&mut setup.trailer.level_ball_height, &mut setup.tow.ball_height);
    let (key, height, why) = match (*trailer, *tow) {
        (None, Some(height)) => {
            *trailer = Some(height);
            ("trailer.level_ball_height", height, "the frame is taken to sit level as towed")
        }
        (Some(height), None) => {
            *tow = Some(height);
            ("tow.ball_height", height, "the ball is taken at the height where the frame sits level")
        }
        _ => return,
    };
    let value = AssumedValue::Quantity(height.si(), Kind::Length);
    assumed.push(Assumed { key: key.to_string(), value, why });
}

fn suspension(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let more_than_one = setup.trailer.axles.len() > 1;
    let suspension = &mut setup.trailer.suspension;
    let Some(kind) = suspension.kind else { return };
    let torsion = kind == SuspensionKind::Torsion;
    let mut assume = |slot: &mut Option<Length>, key: &str, length: Length, why| {
        if slot.is_none() {
            *slot = Some(length);
            let key = format!("trailer.suspension.{key}");
            assumed.push(Assumed { key, value: AssumedValue::Quantity(length.si(), Kind::Length), why });
        }
    };
    let (deflection, why) = if torsion { TORSION_DEFLECTION } else { LEAF_DEFLECTION };
    assume(&mut suspension.deflection_at_rating, "deflection_at_rating", inches(deflection), why);
    if let Some(deflection) = suspension.deflection_at_rating {
        let (factor, why) = if torsion {
            (TORSION_BUMP, "1.45 times the deflection at rating, common practice, no source")
        } else {
            (LEAF_BUMP, "1.4 times the deflection at rating, common practice, no source")
        };
        assume(&mut suspension.bump, "bump", deflection * factor, why);
    }
    if kind == SuspensionKind::LeafEqualized && more_than_one {
        let travel = inches(EQUALIZER_TRAVEL);
        assume(&mut suspension.equalizer_travel, "equalizer_travel", travel, "common practice, no source");
    }
}

fn tires(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let axles = &mut setup.trailer.axles;
    let mut kinds = Vec::new();
    let mut radii = Vec::new();
    let mut rates = Vec::new();
    for axle in axles.iter_mut() {
        let tires = &mut axle.tires;
        let size = tires.size.as_deref();
        kinds.push(tires.kind.is_none().then(|| size.and_then(marked_kind)).flatten());
        tires.kind = tires.kind.or(kinds.last().copied().flatten()).or(Some(TireKind::Trailer));
        radii.push(tires.radius.is_none().then(|| size.and_then(unloaded_radius)).flatten());
        let loaded = radii.last().copied().flatten().map(|radius| radius * LOADED_RADIUS);
        tires.radius = tires.radius.or(loaded);
        rates.push(tires.rate.is_none().then(|| pounds_per_inch(TIRE_RATE)));
        tires.rate = tires.rate.or(Some(pounds_per_inch(TIRE_RATE)));
    }
    let word = |kind: TireKind| AssumedValue::Word(kind.word());
    per_axle("kind", &kinds, word, "from the letters before the size", assumed);
    let loaded = |radius: Length| AssumedValue::Quantity((radius * LOADED_RADIUS).si(), Kind::Length);
    let why = "0.94 of half the size's nominal outer diameter, common practice, no source";
    per_axle("radius", &radii, loaded, why, assumed);
    let rate = |rate: Rate| AssumedValue::Quantity(rate.si(), Kind::Rate);
    per_axle("rate", &rates, rate, "each tire, common practice, no source", assumed);
}

/// Names what is assumed of each axle's tires; once for all where all are alike.
fn per_axle<T: Copy + PartialEq>(
    key: &str,
    values: &[Option<T>],
    show: impl Fn(T) -> AssumedValue,
    why: &'static str,
    assumed: &mut Vec<Assumed>,
) {
    let alike = values.windows(2).all(|pair| pair[0] == pair[1]);
    for (i, value) in values.iter().enumerate() {
        if let Some(value) = *value {
            let axle = if alike { "all".to_string() } else { (i + 1).to_string() };
            let key = format!("trailer.axles.{axle}.tires.{key}");
            assumed.push(Assumed { key, value: show(value), why });
            if alike {
                return;
            }
        }
    }
}

/// What the letters before a size say that a tire is made for.
fn marked_kind(size: &str) -> Option<TireKind> {
    let letters = size.trim().split(|c: char| !c.is_ascii_alphabetic()).next()?;
    match letters.to_ascii_uppercase().as_str() {
        "P" => Some(TireKind::Passenger),
        "LT" => Some(TireKind::LightTruck),
        _ => None,
    }
}

/// Half the nominal outer diameter of a metric size such as ST225/75R15 or 225/75-15.
///
/// Width in millimetres, height in % of it, rim in inches: diameter = rim + 2 × width × height.
fn unloaded_radius(size: &str) -> Option<Length> {
    let digits = size.trim().trim_start_matches(|c: char| c.is_ascii_alphabetic()).trim_start();
    let (width, rest) = digits.split_once('/')?;
    let aspect_end = rest.find(|c: char| !c.is_ascii_digit())?;
    let (aspect, rest) = rest.split_at(aspect_end);
    let rim = rest.trim_start_matches(|c: char| c.is_ascii_alphabetic() || matches!(c, '-' | ' '));
    let rim_end = rim.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rim.len());
    let number = |text: &str, least: f64, most: f64| {
        text.parse::<f64>().ok().filter(|number| (least..=most).contains(number))
    };
    let width = number(width, 100.0, 500.0)? / 1000.0;
    let aspect = number(aspect, 20.0, 110.0)? / 100.0;
    let rim = inches(number(&rim[..rim_end], 8.0, 30.0)?);
    Some(rim / 2.0 + Length::from_si(width * aspect))
}

fn trailer_cg_height(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    if setup.trailer.cg_height.is_some() {
        return;
    }
    let axles = &setup.trailer.axles;
    let radii: Option<Vec<Length>> = axles.iter().map(|axle| axle.tires.radius).collect();
    let Some(radii) = radii.filter(|radii| !radii.is_empty()) else { return };
    let hubs = radii.iter().copied().sum::<Length>() / radii.len() as f64;
    let height = hubs + inches(CG_ABOVE_HUBS);
    setup.trailer.cg_height = Some(height);
    assumed.push(Assumed {
        key: Key::new("trailer.cg_height").to_string(),
        value: AssumedValue::Quantity(height.si(), Kind::Length),
        why: "8 in above the hubs, common practice, no source",
    });
}

fn tongue_share(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let band = &mut setup.policy.tongue_share;
    if band.min.is_some() && band.max.is_some() {
        return;
    }
    let min = *band.min.get_or_insert(Share::from_si(TONGUE_SHARE.0));
    let max = *band.max.get_or_insert(Share::from_si(TONGUE_SHARE.1));
    assumed.push(Assumed {
        key: "policy.tongue_share".to_string(),
        value: AssumedValue::Band(min, max),
        why: "7 to 12 % for boat trailers, US boat owners' association, trailering article, 2012",
    });
}

fn low_points(setup: &mut Setup) {
    let tow = if setup.tow.low_points.is_empty() { None } else { Some(&mut setup.tow.low_points) };
    let lists = [Some(&mut setup.trailer.low_points), Some(&mut setup.boat.low_points), tow];
    let points = lists.into_iter().flatten().flatten();
    for (i, point) in points.enumerate() {
        point.name.get_or_insert_with(|| format!("low point {}", i + 1));
    }
}

fn ramps(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    if setup.ramps.is_empty() {
        return;
    }
    for (i, ramp) in setup.ramps.iter_mut().enumerate() {
        let n = i + 1;
        ramp.name.get_or_insert_with(|| format!("ramp {n}"));
        if ramp.ease.is_none() {
            ramp.ease = Some(inches(0.0));
            assumed.push(Assumed {
                key: format!("ramps.{n}.ease"),
                value: AssumedValue::Quantity(0.0, Kind::Length),
                why: "sharp breaks; easing them takes 10 to 25 % off the peaks (common practice, no source)",
            });
        }
        if ramp.friction.is_none() {
            ramp.friction = Some(Share::from_si(WET_RAMP_FRICTION));
            assumed.push(Assumed {
                key: format!("ramps.{n}.friction"),
                value: AssumedValue::Quantity(WET_RAMP_FRICTION, Kind::Share),
                why: "a wet ramp with weed, common practice, no source; clean wet concrete gives 50 to 70 %",
            });
        }
    }
    if setup.tow.is_described() {
        setup.tow.parking_brake.get_or_insert(Gripping::Rear);
        if setup.tow.cg_height.is_none() {
            setup.tow.cg_height = Some(inches(TOW_CG_HEIGHT));
            assumed.push(Assumed {
                key: Key::new("tow.cg_height").to_string(),
                value: AssumedValue::Quantity(inches(TOW_CG_HEIGHT).si(), Kind::Length),
                why: "of a pickup, common practice, no source",
            });
        }
    }
}

/// What bunks may press on a hull with, at their peak, in psi. Common practice, no source.
const BUNK_PRESSURE: f64 = 20.0;

fn bunks(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    setup.policy.clearance.get_or_insert(inches(0.0));
    for (i, strake) in setup.boat.hull.strakes.iter_mut().enumerate() {
        strake.name.get_or_insert_with(|| format!("strake {}", i + 1));
    }
    if !setup.trailer.bunks.are_described() {
        return;
    }
    let mut assume = |key: &str, value, why| assumed.push(Assumed { key: key.to_string(), value, why });
    if setup.trailer.keel_height.is_none()
        && let Some(keel) = setup.keel_on_bunks()
    {
        setup.trailer.keel_height = Some(keel);
        let value = AssumedValue::Quantity(keel.si(), Kind::Length);
        assume("trailer.keel_height", value, "by the bunks' height and spacing and the deadrise");
    }
    let bunks = &mut setup.trailer.bunks;
    if bunks.lay.is_none() {
        bunks.lay = Some(Lay::Edge);
        assume("trailer.bunks.lay", AssumedValue::Word("edge"), "common practice, no source");
    }
    if bunks.service.is_none() {
        bunks.service = Some(Service::Wet);
        assume("trailer.bunks.service", AssumedValue::Word("wet"), "the trailer goes into the water");
    }
    bunks.spacer.get_or_insert(inches(0.0));
    if bunks.lift_off.is_none() {
        bunks.lift_off = Some(false);
    }
    setup.boat.hull.support_from.get_or_insert(inches(0.0));
    if setup.policy.bunk_pressure.max.is_none() {
        let psi = unit::find("psi").map_or(0.0, |unit| unit.factor);
        setup.policy.bunk_pressure.max = Some(Pressure::from_si(BUNK_PRESSURE * psi));
        let value = AssumedValue::Quantity(BUNK_PRESSURE * psi, Kind::Pressure);
        assume("policy.bunk_pressure.max", value, "at the peak, common practice, no source");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn metric_sizes_give_half_their_outer_diameter() {
        // ST225/75R15: 15 in + 2 × 225 mm × 0.75 = 381 + 337.5 = 718.5 mm, half 359.25 mm.
        for size in ["ST225/75R15", "225/75-15", "ST 225/75 R15", "225/75R15C", "LT225/75D15"] {
            let radius = unloaded_radius(size).map(|radius| (radius.value * 1e5).round() / 100.0);
            assert_eq!(radius, Some(359.25), "{size}");
        }
        for size in ["4.80-12", "", "tall", "225/75R", "225/75R99", "9999/75R15"] {
            assert_eq!(unloaded_radius(size), None, "{size}");
        }
    }

    #[test]
    fn letters_before_a_size_tell_what_a_tire_is_made_for() {
        assert_eq!(marked_kind("P235/75R15"), Some(TireKind::Passenger));
        assert_eq!(marked_kind("LT235/85R16"), Some(TireKind::LightTruck));
        assert_eq!(marked_kind("ST235/80R16"), None);
    }
}
