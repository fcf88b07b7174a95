//! Values that stand where a file is silent, each with its reason.

use super::inputs::{
    At, BOAT_CG_SIDE, BOAT_HULL_SUPPORT_FROM, BOAT_TANKS_DENSITY, BOAT_TANKS_FILL, BOAT_TANKS_SIDE,
    BOAT_WEIGHTS_SIDE, Fallback, Handle, Key, POLICY_BUNK_PRESSURE_MAX, POLICY_CLEARANCE, POLICY_HOME_GAP,
    POLICY_PUSH, POLICY_RULES, POLICY_THIN_MARGIN, POLICY_TONGUE_SHARE_MAX, POLICY_TONGUE_SHARE_MIN,
    POLICY_TRUST, Preset, RAMPS_EASE, RAMPS_FRICTION, RAMPS_WATER, SHIFT_ASHORE, SHIFT_AXLES, SHIFT_BOAT,
    SHIFT_BUNKS, SHIFT_TONGUE, Slot, TOW_BALL_HEIGHT, TOW_CG_HEIGHT, TOW_PARKING_BRAKE, TOW_TIRE_RADIUS,
    TOW_TIRE_WET_LIMIT, TRAILER_AXLES_BRAKES_CALIPER, TRAILER_AXLES_BRAKES_CALIPER_SHARE,
    TRAILER_AXLES_BRAKES_FACTOR, TRAILER_AXLES_BRAKES_FORCE, TRAILER_AXLES_BRAKES_FRICTION,
    TRAILER_AXLES_BRAKES_ONE_PIECE, TRAILER_AXLES_BRAKES_PISTONS, TRAILER_AXLES_BRAKES_TRAVEL,
    TRAILER_AXLES_BRAKES_WEIGHT, TRAILER_AXLES_TIRES_COUNT, TRAILER_AXLES_TIRES_KIND,
    TRAILER_AXLES_TIRES_PRESSURE, TRAILER_AXLES_TIRES_PRESSURE_EXPONENT, TRAILER_AXLES_TIRES_PRESSURE_MAX,
    TRAILER_AXLES_TIRES_RADIUS, TRAILER_AXLES_TIRES_RATE, TRAILER_BRAKES_EFFICIENCY, TRAILER_BRAKES_FLUID,
    TRAILER_BRAKES_HOSE, TRAILER_BRAKES_LEVERAGE, TRAILER_BRAKES_PRELOAD_SHARE, TRAILER_BRAKES_SETTING,
    TRAILER_BUNKS_FRICTION, TRAILER_BUNKS_LAY, TRAILER_BUNKS_LIFT_OFF, TRAILER_BUNKS_SERVICE,
    TRAILER_BUNKS_SPACER, TRAILER_CG_HEIGHT, TRAILER_JACK_STATION, TRAILER_KEEL_HEIGHT,
    TRAILER_LEVEL_BALL_HEIGHT, TRAILER_LEVEL_MEASURED, TRAILER_MATERIAL, TRAILER_RAILS_YIELD,
    TRAILER_SUSPENSION_ARM, TRAILER_SUSPENSION_BUMP, TRAILER_SUSPENSION_DEFLECTION_AT_RATING,
    TRAILER_SUSPENSION_EQUALIZER_TRAVEL, TRAILER_SUSPENSION_EYE_HEIGHT, TRAILER_SUSPENSION_KIND,
    TRAILER_SUSPENSION_PIN_ARM, TRAILER_SUSPENSION_PIN_DROP, TRAILER_SUSPENSION_PIVOT_HEIGHT,
    TRAILER_SUSPENSION_RADIUS_RODS, TRAILER_SUSPENSION_SPRING_LENGTH, TRAILER_TIE_DOWNS_COUNT,
    TRAILER_TIE_DOWNS_KIND, TRAILER_TIE_DOWNS_OVER, TRAILER_TIE_DOWNS_STRETCH, TRAILER_TONGUE_YIELD,
    TRAILER_WINCH_AFLOAT, TRAILER_WINCH_EFFICIENCY, TRAILER_WINCH_STRAP_KIND, TRAILER_WINCH_STRAP_WORKING,
    UNITS,
};
use super::setup::{
    BrakeSystem, Case, Fluid, Material, RadiusRods, Rules, Setup, SuspensionKind, Thrust, TieDown, TireKind,
    WheelBrakeKind,
};
use crate::quantity::{Density, Kind, Length, Pressure, Quantity, Rate, Share, Weight, unit};

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
    /// A plain number.
    Number(f64),
    /// A band of shares.
    Band(Share, Share),
    /// A word.
    Word(&'static str),
}

const LEAF_DEFLECTION: (f64, &str) = (2.25, "leaf spring, common practice, no source");
const TORSION_DEFLECTION: (f64, &str) =
    (2.3, "torsion axle with a 6 in (152 mm) arm, from a published articulation table");
const LEAF_BUMP: f64 = 1.4;
const TORSION_BUMP: f64 = 1.45;
/// A loaded tire's hub stands this share of its unloaded radius above the ground.
const LOADED_RADIUS: f64 = 0.94;
const TIRE_KIND: &str = "by the size's letters: ST, LT or C, P or none; trailer where there is no size";
const CG_ABOVE_HUBS: f64 = 8.0;
const AT_HUBS: &str = "the height of the hubs, common practice, no source";
const BRAKE_FORCE: &str =
    "0.435 of half the axle's rating: the share of weight that 49 CFR 393.52(d) asks for, from memory";
const BRAKE_FACTOR: &str = "by the kind of drum, from memory";
const BRAKE_TRAVEL: &str = "disc 0.030 in (0.76 mm), drum 0.06 in (1.5 mm), common practice, no source";

fn inches(number: f64) -> Length {
    Length::from_si(number * unit::INCH)
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
    let mut assumed = Vec::new();
    plain(setup);
    tanks(setup, &mut assumed);
    if setup.known_from_scales() {
        fill(setup, BOAT_CG_SIDE, [0, 0], &mut assumed);
    }
    ball_heights(setup, &mut assumed);
    suspension(setup, &mut assumed);
    even_shares(setup, &mut assumed);
    tires(setup, &mut assumed);
    jack(setup, &mut assumed);
    trailer_cg_height(setup, &mut assumed);
    brakes(setup, &mut assumed);
    frame(setup, &mut assumed);
    tongue_share(setup, &mut assumed);
    low_points(setup);
    ramps(setup, &mut assumed);
    bunks(setup, &mut assumed);
    winch(setup, &mut assumed);
    launch(setup, &mut assumed);
    tie_downs(setup, &mut assumed);
    assumed
}

/// Puts the default of a key's row where a setup is silent, and lists it where it is assumed.
fn fill<T>(setup: &mut Setup, handle: Handle<T>, at: At, assumed: &mut Vec<Assumed>) {
    let input = handle.input();
    let Some(Fallback { preset, basis, .. }) = input.default else { return };
    let value = match (input.slot(setup, at), preset, input.kind()) {
        (Slot::Quantity(field), Preset::Value(si), Some(kind)) if field.si().is_none() => {
            field.put(Some(si));
            AssumedValue::Quantity(si, kind)
        }
        (Slot::Factor(field), Preset::Value(number), _) if field.is_none() => {
            *field = Some(number);
            AssumedValue::Number(number)
        }
        (Slot::Choice(choice), Preset::Word(word), _) if choice.chosen().is_none() => {
            choice.choose(word);
            AssumedValue::Word(word)
        }
        (Slot::Flag(flag), Preset::Word(word), _) if flag.is_none() => {
            *flag = Some(word == "true");
            AssumedValue::Word(word)
        }
        (Slot::Count(count), Preset::Count(number), _) => {
            count.get_or_insert(number);
            return;
        }
        _ => return,
    };
    setup.assumed.push(handle.at(at));
    if let Some(why) = basis {
        assumed.push(Assumed { key: handle.at(at).to_string(), value, why });
    }
}

/// What goes without saying: no row of these lists its default as assumed.
fn plain(setup: &mut Setup) {
    let unlisted = &mut Vec::new();
    fill(setup, UNITS, [0, 0], unlisted);
    fill(setup, TRAILER_LEVEL_MEASURED, [0, 0], unlisted);
    fill(setup, POLICY_THIN_MARGIN, [0, 0], unlisted);
    fill(setup, POLICY_CLEARANCE, [0, 0], unlisted);
    fill(setup, POLICY_TRUST, [0, 0], unlisted);
    fill(setup, POLICY_RULES, [0, 0], unlisted);
    for i in 0..setup.boat.weights.len() {
        fill(setup, BOAT_WEIGHTS_SIDE, [i, 0], unlisted);
    }
    for i in 0..setup.boat.tanks.len() {
        fill(setup, BOAT_TANKS_SIDE, [i, 0], unlisted);
        fill(setup, BOAT_TANKS_FILL, [i, 0], unlisted);
    }
    for i in 0..setup.trailer.axles.len() {
        fill(setup, TRAILER_AXLES_TIRES_COUNT, [i, 0], unlisted);
    }
    if setup.cases.is_empty() {
        setup.cases.push(Case::default());
    }
    let tanks = setup.boat.tanks.len();
    for (i, case) in setup.cases.iter_mut().enumerate() {
        case.name.get_or_insert_with(|| format!("case {}", i + 1));
        case.fill.resize(tanks, None);
    }
    stay(setup);
}

/// What is not said to move stays.
pub(super) fn stay(setup: &mut Setup) {
    let known = setup.assumed.len();
    for part in [SHIFT_BOAT, SHIFT_AXLES, SHIFT_TONGUE, SHIFT_BUNKS] {
        fill(setup, part, [0, 0], &mut Vec::new());
    }
    fill(setup, SHIFT_ASHORE, [0, 0], &mut Vec::new());
    // That nothing moves is no assumption.
    setup.assumed.truncate(known);
}

/// A tank's density follows its fluid, which may still be changed; so it is only named here.
fn tanks(setup: &Setup, assumed: &mut Vec<Assumed>) {
    for (i, tank) in setup.boat.tanks.iter().enumerate() {
        if let (Some(fluid), None) = (tank.fluid, tank.density) {
            let (density, why) = density(fluid);
            let key = match tank.id.as_deref().filter(|id| id.parse::<usize>().is_err()) {
                Some(id) => BOAT_TANKS_DENSITY.path().replace('*', id),
                None => BOAT_TANKS_DENSITY.of(i).to_string(),
            };
            assumed.push(Assumed { key, value: AssumedValue::Quantity(density.si(), Kind::Density), why });
        }
    }
}

/// The frame sits level as towed, or it is towed as it sits level.
fn ball_heights(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let loaded = setup.is_loaded();
    let (trailer, tow) = (&mut setup.trailer.level_ball_height, &mut setup.tow.ball_height);
    let (key, height, why) = match (*trailer, *tow) {
        (None, Some(height)) => {
            *trailer = Some(height);
            (TRAILER_LEVEL_BALL_HEIGHT, height, "the frame is taken to sit level as towed")
        }
        (Some(height), None) => {
            *tow = Some(height);
            (TOW_BALL_HEIGHT, height, "the ball is taken at the height where the frame sits level")
        }
        (None, None) if loaded => {
            let (value, why) =
                (AssumedValue::Word("level frame"), "the frame is taken to sit level as towed");
            assumed.push(Assumed { key: TOW_BALL_HEIGHT.key().to_string(), value, why });
            return;
        }
        _ => return,
    };
    setup.assumed.push(key.key());
    let value = AssumedValue::Quantity(height.si(), Kind::Length);
    assumed.push(Assumed { key: key.key().to_string(), value, why });
}

fn suspension(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let more_than_one = setup.trailer.axles.len() > 1;
    let Setup { trailer, assumed: keys, .. } = setup;
    let suspension = &mut trailer.suspension;
    let Some(kind) = suspension.kind else { return };
    let torsion = kind == SuspensionKind::Torsion;
    let mut assume = |slot: &mut Option<Length>, handle: Handle<Length>, length: Length, why| {
        if slot.is_none() {
            *slot = Some(length);
            keys.push(handle.key());
            let key = handle.key().to_string();
            assumed.push(Assumed { key, value: AssumedValue::Quantity(length.si(), Kind::Length), why });
        }
    };
    let (deflection, why) = if torsion { TORSION_DEFLECTION } else { LEAF_DEFLECTION };
    assume(
        &mut suspension.deflection_at_rating,
        TRAILER_SUSPENSION_DEFLECTION_AT_RATING,
        inches(deflection),
        why,
    );
    if let Some(deflection) = suspension.deflection_at_rating {
        let (factor, why) = if torsion {
            (TORSION_BUMP, "1.45 times the deflection at rating, common practice, no source")
        } else {
            (LEAF_BUMP, "1.4 times the deflection at rating, common practice, no source")
        };
        assume(&mut suspension.bump, TRAILER_SUSPENSION_BUMP, deflection * factor, why);
    }
    if kind == SuspensionKind::LeafEqualized && more_than_one {
        fill(setup, TRAILER_SUSPENSION_EQUALIZER_TRAVEL, [0, 0], assumed);
    }
}

/// Nothing says that the axles of a loaded trailer share its load unevenly. The kind itself stays unknown: over a ramp
/// it matters.
fn even_shares(setup: &Setup, assumed: &mut Vec<Assumed>) {
    let trailer = &setup.trailer;
    let weighed_apart = setup.known_from_scales() && !setup.measured.axles.is_empty();
    let silent = trailer.suspension.kind.is_none() && trailer.has_axles_alike() && !weighed_apart;
    if silent && trailer.axles.len() > 1 && setup.is_loaded() {
        assumed.push(Assumed {
            key: TRAILER_SUSPENSION_KIND.key().to_string(),
            value: AssumedValue::Word("even shares"),
            why: "axles that are alike are taken to carry the same with the frame level, common practice, no source",
        });
    }
}

fn tires(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    tires_as_built(setup, assumed);
    inflation(setup, assumed);
}

/// At what pressure tires carry how much. Each axle's own values are silent or not; alike ones are named once.
fn inflation(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let kinds: Vec<bool> =
        (0..setup.trailer.axles.len()).map(|i| setup.is_assumed(TRAILER_AXLES_TIRES_KIND.of(i))).collect();
    let Setup { trailer, assumed: keys, .. } = setup;
    let (mut pressures, mut tabled, mut usual, mut exponents) =
        (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for (i, axle) in trailer.axles.iter_mut().enumerate() {
        let tires = &mut axle.tires;
        let rated = tires.sidewall().is_some();
        let (most, is_tabled) = tires.silent_pressure_max();
        let silent = tires.pressure_max.is_none().then_some(most);
        // Without a pressure nothing depends on what the greatest is taken for, and without either nothing on the exponent.
        let silent = silent.filter(|_| tires.pressure.is_some());
        tabled.push(silent.filter(|_| is_tabled));
        usual.push(silent.filter(|_| !is_tabled));
        pressures.push((tires.pressure.is_none() && rated).then_some("tires.pressure_max"));
        let exponent = tires.silent_exponent(kinds[i]);
        let is_asked = tires.pressure.is_some() || tires.pressure_max.is_some();
        exponents.push((tires.pressure_exponent.is_none() && is_asked).then_some(exponent));
        tires.pressure_max = tires.pressure_max.or(tabled[i]).or(usual[i]);
        tires.pressure_exponent = tires.pressure_exponent.or(exponents[i]);
        keys.extend(pressures[i].map(|_| TRAILER_AXLES_TIRES_PRESSURE.of(i)));
        keys.extend(tabled[i].or(usual[i]).map(|_| TRAILER_AXLES_TIRES_PRESSURE_MAX.of(i)));
        keys.extend(exponents[i].map(|_| TRAILER_AXLES_TIRES_PRESSURE_EXPONENT.of(i)));
    }
    let at_most = |_: &'static str| AssumedValue::Word("pressure_max");
    let why = "a tire is taken to be at the pressure of its rating; with a gauge it may show less";
    per_axle_of(TRAILER_AXLES_TIRES_PRESSURE.path(), &pressures, at_most, why, assumed);
    let inflation = |most: Pressure| AssumedValue::Quantity(most.si(), Kind::Pressure);
    let path = TRAILER_AXLES_TIRES_PRESSURE_MAX.path();
    per_axle_of(path, &tabled, inflation, "the published row of this size that has the rating", assumed);
    per_axle_of(
        path,
        &usual,
        inflation,
        "50 to 80 psi (3.4 to 5.5 bar), of passenger tires 35 to 44 psi (2.4 to 3.0 bar), common practice, no source",
        assumed,
    );
    let exponent = |share: Share| AssumedValue::Quantity(share.si(), Kind::Share);
    let why =
        "the power of the pressure with which the load falls, from published tables of this kind of tire";
    per_axle_of(TRAILER_AXLES_TIRES_PRESSURE_EXPONENT.path(), &exponents, exponent, why, assumed);
}

fn tires_as_built(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let Setup { trailer, assumed: keys, .. } = setup;
    let mut kinds = Vec::new();
    let mut radii = Vec::new();
    let mut rates = Vec::new();
    let rate = TRAILER_AXLES_TIRES_RATE.default();
    for (i, axle) in trailer.axles.iter_mut().enumerate() {
        let tires = &mut axle.tires;
        let size = tires.size.as_deref();
        kinds.push(tires.kind.is_none().then(|| silent_kind(size)));
        tires.kind = tires.kind.or(kinds.last().copied().flatten());
        radii.push(tires.radius.is_none().then(|| size.and_then(unloaded_radius)).flatten());
        let loaded = radii.last().copied().flatten().map(|radius| radius * LOADED_RADIUS);
        tires.radius = tires.radius.or(loaded);
        rates.push(tires.rate.is_none().then_some(rate).flatten());
        tires.rate = tires.rate.or(rate);
        keys.extend(kinds[i].map(|_| TRAILER_AXLES_TIRES_KIND.of(i)));
        keys.extend(radii[i].map(|_| TRAILER_AXLES_TIRES_RADIUS.of(i)));
        keys.extend(rates[i].map(|_| TRAILER_AXLES_TIRES_RATE.of(i)));
    }
    let word = |kind: TireKind| AssumedValue::Word(kind.word());
    per_axle(TRAILER_AXLES_TIRES_KIND, &kinds, word, TIRE_KIND, assumed);
    let loaded = |radius: Length| AssumedValue::Quantity((radius * LOADED_RADIUS).si(), Kind::Length);
    let why = "0.94 of half the size's nominal outer diameter, common practice, no source";
    per_axle(TRAILER_AXLES_TIRES_RADIUS, &radii, loaded, why, assumed);
    let rate = |rate: Rate| AssumedValue::Quantity(rate.si(), Kind::Rate);
    per_axle(TRAILER_AXLES_TIRES_RATE, &rates, rate, TRAILER_AXLES_TIRES_RATE.basis(), assumed);
}

/// Names what is assumed of each element of a list, as of each axle's tires; once for all where all are alike.
fn per_axle<T: Copy + PartialEq>(
    handle: Handle<T>,
    values: &[Option<T>],
    show: impl Fn(T) -> AssumedValue,
    why: &'static str,
    assumed: &mut Vec<Assumed>,
) {
    per_axle_of(handle.path(), values, show, why, assumed);
}

fn per_axle_of<T: Copy + PartialEq>(
    path: &str,
    values: &[Option<T>],
    show: impl Fn(T) -> AssumedValue,
    why: &'static str,
    assumed: &mut Vec<Assumed>,
) {
    let alike = values.windows(2).all(|pair| pair[0] == pair[1]);
    for (i, value) in values.iter().enumerate() {
        if let Some(value) = *value {
            let element = if alike { "all".to_string() } else { (i + 1).to_string() };
            let key = path.replace('*', &element);
            assumed.push(Assumed { key, value: show(value), why });
            if alike {
                return;
            }
        }
    }
}

/// What a tire is taken to be for where the file does not say it.
fn silent_kind(size: Option<&str>) -> TireKind {
    let unmarked = |size| marked_kind(size).unwrap_or(TireKind::Passenger);
    size.map_or(TireKind::Trailer, unmarked)
}

/// What a tire is for by the letters before its size, or else by those right after its rim; `None` where they do not say.
pub(super) fn marked_kind(size: &str) -> Option<TireKind> {
    let size = size.trim().to_ascii_uppercase();
    let letter = |c: char| c.is_ascii_alphabetic();
    let kind = |letters: &str| match letters {
        "ST" => Some(TireKind::Trailer),
        "LT" => Some(TireKind::LightTruck),
        "P" => Some(TireKind::Passenger),
        _ => None,
    };
    let leading = |text: &str| text.split(|c: char| !letter(c)).next().unwrap_or_default().to_string();
    let before = kind(&leading(&size));
    // The rim's number follows R, B, D or -, as in 225/75R15, 4.80-12, 185 R 14 C.
    let number = size.trim_start_matches(letter);
    let rim = number.split_once(['R', 'B', 'D', '-']).map(|(_, rim)| rim.trim_start_matches(['R', ' ']));
    let digit = |c: char| c.is_ascii_digit() || c == '.';
    let after = rim.map(|rim| leading(rim.trim_start_matches(digit).trim_start()));
    before.or_else(|| match after?.as_str() {
        "C" => Some(TireKind::LightTruck),
        letters => kind(letters),
    })
}

/// Half the nominal outer diameter of a metric size such as ST225/75R15 or 225/75-15.
///
/// Width in millimetres, height in % of it, rim in inches: diameter = rim + 2 × width × height.
pub fn unloaded_radius(size: &str) -> Option<Length> {
    let [width, aspect, rim] = metric_size(size)?;
    Some(inches(rim) / 2.0 + Length::from_si(width / 1000.0 * (aspect / 100.0)))
}

/// Width in millimetres, height in % of it and rim in inches of a metric size.
pub(super) fn metric_size(size: &str) -> Option<[f64; 3]> {
    let digits = size.trim().trim_start_matches(|c: char| c.is_ascii_alphabetic()).trim_start();
    let (width, rest) = digits.split_once('/')?;
    let aspect_end = rest.find(|c: char| !c.is_ascii_digit())?;
    let (aspect, rest) = rest.split_at(aspect_end);
    let rim = rest.trim_start_matches(|c: char| c.is_ascii_alphabetic() || matches!(c, '-' | ' '));
    let rim_end = rim.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rim.len());
    let number = |text: &str, least: f64, most: f64| {
        text.parse::<f64>().ok().filter(|number| (least..=most).contains(number))
    };
    Some([number(width, 100.0, 500.0)?, number(aspect, 20.0, 110.0)?, number(&rim[..rim_end], 8.0, 30.0)?])
}

/// Where the jack's station is not stated, what it lifts is no less than at the ball; that is no station, so none stands.
fn jack(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let jack = &setup.trailer.jack;
    if jack.rating.is_some() && jack.station.is_none() {
        setup.assumed.push(TRAILER_JACK_STATION.key());
        assumed.push(Assumed {
            key: TRAILER_JACK_STATION.key().to_string(),
            value: AssumedValue::Word("at the ball"),
            why: "up to 4 ft (1.2 m) behind it is tried, common practice, no source",
        });
    }
}

/// What nothing says of brakes that the file describes.
fn brakes(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let brakes = &setup.trailer.brakes;
    let Some(kind) = brakes.kind.filter(|kind| *kind != BrakeSystem::None) else { return };
    let (hydraulic, by_gain) = (brakes.are_hydraulic(), brakes.gain.is_some());
    let push = kind == BrakeSystem::Surge;
    if push && brakes.preload.is_none() {
        fill(setup, TRAILER_BRAKES_PRELOAD_SHARE, [0, 0], assumed);
    }
    if push && !by_gain {
        fill(setup, TRAILER_BRAKES_LEVERAGE, [0, 0], assumed);
        fill(setup, TRAILER_BRAKES_EFFICIENCY, [0, 0], assumed);
        fill(setup, TRAILER_BRAKES_HOSE, [0, 0], assumed);
    }
    if !push {
        fill(setup, TRAILER_BRAKES_SETTING, [0, 0], assumed);
    }
    if hydraulic {
        fill(setup, TRAILER_BRAKES_FLUID, [0, 0], assumed);
    }
    let mut of_axles = Vec::new();
    for i in 0..setup.trailer.axles.len() {
        axle_brakes(setup, i, (push && !by_gain, !push), &mut of_axles);
    }
    assumed.extend(once_for_all(&of_axles, setup.trailer.axles.len()));
    couples(setup, assumed);
}

/// What is assumed of each axle; once for all where all are alike.
fn once_for_all(of_axles: &[Assumed], axles: usize) -> Vec<Assumed> {
    let general = |assumed: &Assumed| {
        let mut parts: Vec<&str> = assumed.key.split('.').collect();
        parts[2] = "all";
        Assumed { key: parts.join("."), ..assumed.clone() }
    };
    let mut listed: Vec<Assumed> = Vec::new();
    for assumed in of_axles {
        let for_all = general(assumed);
        let alike = of_axles.iter().filter(|other| general(other) == for_all).count();
        let entry = if alike == axles { for_all } else { assumed.clone() };
        if !listed.contains(&entry) {
            listed.push(entry);
        }
    }
    listed
}

/// The same of the brakes of one axle: of those that a push works by parts, and of those that current works.
fn axle_brakes(
    setup: &mut Setup,
    i: usize,
    (by_parts, by_current): (bool, bool),
    assumed: &mut Vec<Assumed>,
) {
    use WheelBrakeKind::{Disc, Drum, DrumServo, DrumServoForward, Electric};
    let axle = &setup.trailer.axles[i];
    let half_load = axle.rating.map(|rating| rating * 0.435 / 2.0);
    let is_braked = setup.trailer.is_braked(i);
    let Some(kind) = axle.brakes.kind.filter(|_| is_braked) else {
        if by_current && is_braked {
            assume(setup, TRAILER_AXLES_BRAKES_FORCE, i, half_load, BRAKE_FORCE, assumed);
        }
        return;
    };
    let at = [i, 0];
    fill(setup, TRAILER_AXLES_BRAKES_ONE_PIECE, at, assumed);
    if kind == Disc {
        fill(setup, TRAILER_AXLES_BRAKES_CALIPER_SHARE, at, assumed);
    }
    if by_current {
        assume(setup, TRAILER_AXLES_BRAKES_FORCE, i, half_load, BRAKE_FORCE, assumed);
    }
    let factor = match kind {
        Drum => Some(2.0),
        DrumServo => Some(4.5),
        DrumServoForward => Some(3.5),
        Disc | Electric => None,
    };
    if by_parts && kind != Electric {
        fill(setup, TRAILER_AXLES_BRAKES_PISTONS, at, assumed);
        if kind == Disc {
            fill(setup, TRAILER_AXLES_BRAKES_CALIPER, at, assumed);
            fill(setup, TRAILER_AXLES_BRAKES_FRICTION, at, assumed);
        }
        if let (Some(factor), None) = (factor, setup.trailer.axles[i].brakes.factor) {
            setup.trailer.axles[i].brakes.factor = Some(factor);
            note(
                setup,
                TRAILER_AXLES_BRAKES_FACTOR.of(i),
                AssumedValue::Number(factor),
                BRAKE_FACTOR,
                assumed,
            );
        }
        let travel = inches(if kind == Disc { 0.030 } else { 0.06 });
        assume(setup, TRAILER_AXLES_BRAKES_TRAVEL, i, Some(travel), BRAKE_TRAVEL, assumed);
    }
    let disc_diameter = setup.trailer.axles[i].brakes.diameter;
    let mass = match kind {
        Disc => disc_diameter.and_then(|diameter| {
            let upto = |most| diameter <= inches(most);
            if upto(10.0) { Some(5.0) } else { upto(12.0).then_some(8.0) }
        }),
        _ => Some(10.0),
    };
    let weight = mass.map(|kilograms| Weight::from_si(kilograms * unit::STANDARD_GRAVITY));
    assume(setup, TRAILER_AXLES_BRAKES_WEIGHT, i, weight, "common practice, no source", assumed);
}

/// Yield stress of a frame's metal, and where the figure comes from; a weld softens aluminium.
pub fn yield_stress(material: Option<Material>, weld: Option<bool>) -> (Pressure, &'static str) {
    let (ksi, why) = match (material, weld) {
        (Some(Material::Aluminium), Some(true)) => (15.0, "aluminium 6061-T6 beside a weld, from memory"),
        (Some(Material::Aluminium), _) => (35.0, "aluminium 6061-T6, from memory"),
        _ => (36.0, "common steel shapes, from memory"),
    };
    (Pressure::from_si(ksi * 1000.0 * unit::POUND / (unit::INCH * unit::INCH)), why)
}

/// What nothing says of a tongue and rails that the file describes. A yield stress follows the metal, which may still be
/// changed; so it is only named here.
fn frame(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let (tongue, rails) = (setup.trailer.tongue, setup.trailer.rails);
    if tongue.bends() || rails.are_described() {
        fill(setup, TRAILER_MATERIAL, [0, 0], assumed);
    }
    let suspension = setup.trailer.suspension;
    let sprung_on_leaves = !matches!(suspension.kind, None | Some(SuspensionKind::Torsion));
    if rails.are_described() && sprung_on_leaves {
        fill(setup, TRAILER_SUSPENSION_SPRING_LENGTH, [0, 0], assumed);
        // What a stop bends them with.
        if setup.trailer.brakes.kind.is_some() && suspension.radius_rods != Some(RadiusRods::Pair) {
            assume(setup, TRAILER_SUSPENSION_EYE_HEIGHT, 0, hubs(setup), AT_HUBS, assumed);
        }
    }
    let members = [
        (tongue.bends(), tongue.yield_stress, tongue.weld, TRAILER_TONGUE_YIELD),
        (rails.are_described(), rails.yield_stress, rails.weld, TRAILER_RAILS_YIELD),
    ];
    for (_, _, weld, handle) in members.into_iter().filter(|(there, stated, ..)| *there && stated.is_none()) {
        let (stress, why) = yield_stress(setup.trailer.material, weld);
        let value = AssumedValue::Quantity(stress.si(), Kind::Stress);
        assumed.push(Assumed { key: handle.key().to_string(), value, why });
    }
}

/// How high the hubs are above ground, on the mean.
fn hubs(setup: &Setup) -> Option<Length> {
    let radii: Vec<Length> = setup.trailer.axles.iter().filter_map(|axle| axle.tires.radius).collect();
    (!radii.is_empty()).then(|| radii.iter().copied().sum::<Length>() / radii.len() as f64)
}

/// How the springs take what brakes do to them.
fn couples(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let hubs = hubs(setup);
    let suspension = setup.trailer.suspension;
    match suspension.kind {
        Some(SuspensionKind::LeafEqualized) if setup.trailer.axles.len() > 1 => {
            fill(setup, TRAILER_SUSPENSION_RADIUS_RODS, [0, 0], assumed);
            if setup.trailer.suspension.radius_rods == Some(RadiusRods::Pair) {
                return;
            }
            fill(setup, TRAILER_SUSPENSION_SPRING_LENGTH, [0, 0], assumed);
            assume(setup, TRAILER_SUSPENSION_EYE_HEIGHT, 0, hubs, AT_HUBS, assumed);
            if suspension.thrust != Some(Thrust::Frame) {
                fill(setup, TRAILER_SUSPENSION_PIN_DROP, [0, 0], assumed);
                fill(setup, TRAILER_SUSPENSION_PIN_ARM, [0, 0], assumed);
            }
        }
        Some(SuspensionKind::Torsion) => {
            fill(setup, TRAILER_SUSPENSION_ARM, [0, 0], assumed);
            assume(setup, TRAILER_SUSPENSION_PIVOT_HEIGHT, 0, hubs, AT_HUBS, assumed);
        }
        _ => {}
    }
}

/// Puts a value that depends on other keys where a setup is silent, and lists it as assumed.
fn assume<Q: Quantity>(
    setup: &mut Setup,
    handle: Handle<Q>,
    element: usize,
    value: Option<Q>,
    why: &'static str,
    assumed: &mut Vec<Assumed>,
) {
    let key = handle.of(element);
    let input = handle.input();
    let Some(value) = value.filter(|_| input.si(setup, key.at).is_none()) else { return };
    input.slot(setup, key.at).put(Some(value.si()));
    note(setup, key, AssumedValue::Quantity(value.si(), Q::KIND), why, assumed);
}

fn note(setup: &mut Setup, key: Key, value: AssumedValue, why: &'static str, assumed: &mut Vec<Assumed>) {
    setup.assumed.push(key);
    assumed.push(Assumed { key: key.to_string(), value, why });
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
    setup.assumed.push(TRAILER_CG_HEIGHT.key());
    assumed.push(Assumed {
        key: TRAILER_CG_HEIGHT.key().to_string(),
        value: AssumedValue::Quantity(height.si(), Kind::Length),
        why: "8 in (203 mm) above the hubs, common practice, no source",
    });
}

/// The band of tongue shares where a file states none, and where the figures come from.
pub fn usual_tongue_share(rules: Option<Rules>) -> ([Share; 2], &'static str) {
    let (least, most, why) = match rules {
        Some(Rules::Europe) => (
            4.0,
            10.0,
            "Europe: from 4 % by national rules, to 10 % by an ISO term, read on pages that quote them",
        ),
        _ => {
            (7.0, 12.0, "7 to 12 % for boat trailers, US boat owners' association, trailering article, 2012")
        }
    };
    ([least, most].map(|percent| Share::from_si(percent / 100.0)), why)
}

fn tongue_share(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let ([least, most], why) = usual_tongue_share(setup.policy.rules);
    let band = &mut setup.policy.tongue_share;
    if band.min.is_some() && band.max.is_some() {
        return;
    }
    let ends =
        [(&mut band.min, least, POLICY_TONGUE_SHARE_MIN), (&mut band.max, most, POLICY_TONGUE_SHARE_MAX)];
    for (end, usual, handle) in ends {
        if end.is_none() {
            *end = Some(usual);
            setup.assumed.push(handle.key());
        }
    }
    if let (Some(min), Some(max)) = (band.min, band.max) {
        assumed.push(Assumed {
            key: "policy.tongue_share".to_string(),
            value: AssumedValue::Band(min, max),
            why,
        });
    }
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
    for i in 0..setup.ramps.len() {
        setup.ramps[i].name.get_or_insert_with(|| format!("ramp {}", i + 1));
        fill(setup, RAMPS_EASE, [i, 0], assumed);
        fill(setup, RAMPS_FRICTION, [i, 0], assumed);
    }
    if setup.tow.is_described() {
        fill(setup, TOW_PARKING_BRAKE, [0, 0], assumed);
        fill(setup, TOW_CG_HEIGHT, [0, 0], assumed);
    }
}

fn bunks(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    for (i, strake) in setup.boat.hull.strakes.iter_mut().enumerate() {
        strake.name.get_or_insert_with(|| format!("strake {}", i + 1));
    }
    if !setup.trailer.bunks.are_described() {
        return;
    }
    if setup.trailer.keel_height.is_none()
        && let Some(keel) = setup.keel_on_bunks()
    {
        setup.trailer.keel_height = Some(keel);
        setup.assumed.push(TRAILER_KEEL_HEIGHT.key());
        assumed.push(Assumed {
            key: TRAILER_KEEL_HEIGHT.key().to_string(),
            value: AssumedValue::Quantity(keel.si(), Kind::Length),
            why: "by the bunks' height and spacing and the deadrise",
        });
    }
    fill(setup, TRAILER_BUNKS_LAY, [0, 0], assumed);
    fill(setup, TRAILER_BUNKS_SERVICE, [0, 0], assumed);
    fill(setup, TRAILER_BUNKS_SPACER, [0, 0], assumed);
    fill(setup, TRAILER_BUNKS_LIFT_OFF, [0, 0], assumed);
    fill(setup, BOAT_HULL_SUPPORT_FROM, [0, 0], assumed);
    fill(setup, POLICY_BUNK_PRESSURE_MAX, [0, 0], assumed);
}

fn winch(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    let winch = setup.trailer.winch;
    if !winch.is_described() {
        return;
    }
    fill(setup, TRAILER_BUNKS_FRICTION, [0, 0], assumed);
    fill(setup, TRAILER_WINCH_AFLOAT, [0, 0], assumed);
    fill(setup, TRAILER_WINCH_STRAP_KIND, [0, 0], assumed);
    if winch.has_handle() {
        fill(setup, TRAILER_WINCH_EFFICIENCY, [0, 0], assumed);
    }
    // It follows the breaking strength, which may still be changed; so it is only named here.
    if let (None, Some(working)) = (winch.strap.working, winch.strap.working()) {
        assumed.push(Assumed {
            key: TRAILER_WINCH_STRAP_WORKING.key().to_string(),
            value: AssumedValue::Quantity(working.si(), Kind::Weight),
            why: "a third of the breaking strength, common practice, no source",
        });
    }
}

/// What launching takes for granted, where a ramp has water and the boat a shape.
fn launch(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    if !setup.launches() {
        return;
    }
    for i in 0..setup.ramps.len() {
        if setup.ramps[i].has_water() {
            fill(setup, RAMPS_WATER, [i, 0], assumed);
        }
    }
    fill(setup, TRAILER_BUNKS_FRICTION, [0, 0], assumed);
    fill(setup, TOW_TIRE_RADIUS, [0, 0], assumed);
    fill(setup, TOW_TIRE_WET_LIMIT, [0, 0], assumed);
    fill(setup, POLICY_PUSH, [0, 0], assumed);
    fill(setup, POLICY_HOME_GAP, [0, 0], assumed);
}

fn tie_downs(setup: &mut Setup, assumed: &mut Vec<Assumed>) {
    for i in 0..setup.trailer.tie_downs.len() {
        setup.trailer.tie_downs[i].name.get_or_insert_with(|| format!("tie-down {}", i + 1));
        fill(setup, TRAILER_TIE_DOWNS_KIND, [i, 0], assumed);
        fill(setup, TRAILER_TIE_DOWNS_COUNT, [i, 0], assumed);
        fill(setup, TRAILER_TIE_DOWNS_OVER, [i, 0], assumed);
    }
    // It follows the kind, which may still be changed; of one alone it does not matter.
    let tie_downs = &setup.trailer.tie_downs;
    if tie_downs.len() > 1 {
        let silent = |one: &TieDown| one.stretch.is_none().then(|| one.stretch());
        let stretches: Vec<Option<Share>> = tie_downs.iter().map(silent).collect();
        let show = |stretch: Share| AssumedValue::Quantity(stretch.si(), Kind::Share);
        let why = "as usual of its kind, common practice, no source";
        per_axle(TRAILER_TIE_DOWNS_STRETCH, &stretches, show, why, assumed);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_of_a_size_say_what_the_tire_is_for() {
        let kinds = [
            (Some(TireKind::Trailer), &["ST225/75R15", "st 205/75D14 C", "ST4.80-12", "7.00-15ST"][..]),
            (Some(TireKind::LightTruck), &["LT235/85R16", "185R14C", "185 R 14 C", "31x10.50R15LT"]),
            (Some(TireKind::Passenger), &["P235/75R15", "P205/75R14 C"]),
            (
                None,
                &["205/75R14", "205/75R15 107/103Q", "4.80-12 LRC", "225/75R15 E", "20.5x8.0-10", "tall", ""],
            ),
        ];
        for (kind, sizes) in kinds {
            for size in sizes {
                assert_eq!(marked_kind(size), kind, "{size}");
            }
        }
        assert_eq!(silent_kind(Some("205/75R14")), TireKind::Passenger);
        assert_eq!(silent_kind(None), TireKind::Trailer);
    }

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
}
