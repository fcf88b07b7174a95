//! Figures that are probably another than what they stand for: in another unit, from another end, of another part. No
//! figure is impossible here, so they are cautions. What is usual is common practice, no source, wherever it is used.

use super::model::Model;
use super::road::CaseLoads;
use crate::quantity::unit::{INCH, POUND};
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::inputs::{BOAT_TANKS_STATION, BOAT_WEIGHTS_STATION, BOAT_WEIGHTS_WEIGHT};
use crate::rig::{Key, Rig, Setup, unloaded_radius};

/// A figure that is probably another than what it stands for.
#[derive(Debug, Clone, PartialEq)]
pub enum Slip {
    /// Something is farther forward than the boat is long, or far behind it: feet for inches, or another unit.
    BeyondHull {
        /// Whose station it is.
        key: Key,
        /// The station.
        station: Length,
        /// The boat's length.
        length: Length,
    },
    /// A weight has a dot before three digits: one of thousands, as some languages write it.
    ThousandsDot {
        /// The weight's key.
        key: Key,
        /// The number as it stands.
        number: String,
        /// What follows it.
        unit: String,
    },
    /// The boat weighs far less or more than others of its length: kilograms for pounds, or an item left out.
    WeightForLength {
        /// What it weighs.
        weight: Weight,
        /// Its length.
        length: Length,
    },
    /// The boat's centre of gravity lies where hardly any boat has it: stations from the bow.
    Centre {
        /// Forward of the transom, in the first case.
        station: Length,
        /// The boat's length.
        length: Length,
    },
    /// The loaded tongue weight is the empty trailer's.
    EmptyTongue(Weight),
    /// The empty trailer's tongue weight is so much of its weight that it is probably the loaded one.
    LoadedTongue(Weight),
    /// An axle and one of its tires have about the same rating: one of them is the other's.
    TireForAxle(usize),
    /// A loaded tire is larger than its size.
    Radius {
        /// The axle, counted from 0.
        axle: usize,
        /// Hub to ground.
        radius: Length,
        /// Half the size's nominal outer diameter.
        nominal: Length,
    },
    /// The GVWR is more than axles and coupler can hold.
    GvwrOverParts {
        /// The GVWR.
        gvwr: Weight,
        /// The ratings of axles and tongue together.
        parts: Weight,
        /// Whether the file is silent of the tongue's, so that the most of the GVWR is taken that any tongue carries.
        tongue_taken: bool,
    },
    /// The GVWR leaves less for the trailer itself, whose weight the file does not say, than any trailer weighs.
    GvwrUnderBoat {
        /// The GVWR.
        gvwr: Weight,
        /// What the boat weighs at most.
        boat: Weight,
    },
}

/// How far behind the transom anything is, as a share of the boat's length: outboards on a bracket.
const BEHIND: f64 = 0.3;
/// From this length on a boat's weight follows its length closely enough: 18 ft.
const LONG: f64 = 18.0 * 12.0 * INCH;
/// What boats weigh by the cube of their length, in newtons for a cubic metre: 0.15 to 1.2 lb for a cubic foot.
const BY_LENGTH: [f64; 2] = [0.15 * POUND / CUBIC_FOOT, 1.2 * POUND / CUBIC_FOOT];
const CUBIC_FOOT: f64 = (12.0 * INCH) * (12.0 * INCH) * (12.0 * INCH);
/// Where a boat's centre of gravity lies, as a share of its length forward of the transom. Beyond 0.55 a station
/// measured from the bow is likelier than a boat so heavy forward.
const MIDDLE: std::ops::RangeInclusive<f64> = 0.25..=0.55;
/// An empty trailer's tongue carries at most this share of its weight.
const MOST_ON_TONGUE: f64 = 0.35;
/// Figures that differ by less than this share are the same figure.
const SAME: f64 = 0.02;
/// Ratings of an axle and of one tire of two that differ by less than this share are about the same.
const ABOUT: f64 = 0.1;

/// Every probable slip, each of its kind once.
pub(super) fn slips(rig: &Rig, model: &Model<'_>, cases: &[CaseLoads]) -> Vec<Slip> {
    let setup = rig.proposed();
    let found = [
        thousands_dot(rig),
        beyond_hull(setup),
        weight_for_length(setup, cases),
        centre(setup, model),
        empty_tongue(setup),
        loaded_tongue(setup),
        tire_for_axle(setup),
        radius(setup),
        gvwr_over_parts(setup),
        gvwr_under_boat(setup, cases),
    ];
    found.into_iter().flatten().collect()
}

/// Of what is aboard: other weights are doubted by their size.
fn thousands_dot(rig: &Rig) -> Option<Slip> {
    let aboard = rig.stated().into_iter().filter(|stated| stated.key.path == BOAT_WEIGHTS_WEIGHT.path());
    aboard.into_iter().find_map(|stated| {
        let (number, rest) = stated.text.split_once(' ')?;
        let (whole, thousandths) = number.split_once('.')?;
        let unit = rest.split([' ', '±']).next()?;
        let is_dotted = thousandths.len() == 3 && !whole.is_empty() && whole != "0" && whole.len() <= 3;
        let [number, unit] = [number, unit].map(str::to_string);
        is_dotted.then_some(Slip::ThousandsDot { key: stated.key, number, unit })
    })
}

fn beyond_hull(setup: &Setup) -> Option<Slip> {
    let length = setup.boat.length?;
    let weights = setup.boat.weights.iter().enumerate();
    let weights = weights.map(|(i, item)| (BOAT_WEIGHTS_STATION.of(i), item.station));
    let tanks = setup.boat.tanks.iter().enumerate();
    let tanks = tanks.map(|(i, tank)| (BOAT_TANKS_STATION.of(i), tank.station));
    let mut stations = weights.chain(tanks).filter_map(|(key, station)| Some((key, station?)));
    let (key, station) = stations.find(|(_, station)| *station > length || *station < -(length * BEHIND))?;
    Some(Slip::BeyondHull { key, station, length })
}

fn weight_for_length(setup: &Setup, cases: &[CaseLoads]) -> Option<Slip> {
    let length = setup.boat.length.filter(|length| length.si() >= LONG)?;
    let weight = cases.iter().filter_map(|case| case.boat.clone().ok()).reduce(Weight::max)?;
    let by_length = weight.si() / length.si().powi(3);
    let usual = (BY_LENGTH[0]..=BY_LENGTH[1]).contains(&by_length);
    (!usual).then_some(Slip::WeightForLength { weight, length })
}

fn centre(setup: &Setup, model: &Model<'_>) -> Option<Slip> {
    let (length, station) = (setup.boat.length?, model.boat_station(setup.cases.first()?)?);
    (!MIDDLE.contains(&(station / length).si())).then_some(Slip::Centre { station, length })
}

fn empty_tongue(setup: &Setup) -> Option<Slip> {
    let (loaded, empty) = (setup.measured.tongue_weight?, setup.trailer.tongue_weight?);
    ((loaded - empty).abs() <= empty * SAME).then_some(Slip::EmptyTongue(loaded))
}

fn loaded_tongue(setup: &Setup) -> Option<Slip> {
    let (empty, weight) = (setup.trailer.tongue_weight?, setup.trailer_weight()?);
    (empty > weight * MOST_ON_TONGUE).then_some(Slip::LoadedTongue(empty))
}

fn tire_for_axle(setup: &Setup) -> Option<Slip> {
    let alike = |axle: &crate::rig::Axle| {
        let (rating, tire) = (axle.rating?, axle.tires.rating?);
        Some((rating - tire).abs() <= tire * ABOUT)
    };
    setup.trailer.axles.iter().position(|axle| alike(axle) == Some(true)).map(Slip::TireForAxle)
}

fn radius(setup: &Setup) -> Option<Slip> {
    let axles = setup.trailer.axles.iter().enumerate();
    let mut tires = axles
        .filter_map(|(axle, of)| Some((axle, of.tires.radius?, unloaded_radius(of.tires.size.as_deref()?)?)));
    let (axle, radius, nominal) = tires.find(|(_, radius, nominal)| radius > nominal)?;
    Some(Slip::Radius { axle, radius, nominal })
}

/// No trailer weighs less than this share of its boat.
const LIGHTEST: f64 = 0.15;

/// A GVWR that boat and trailer cannot keep, where the trailer's own weight is not known.
pub fn gvwr_under_boat(setup: &Setup, cases: &[CaseLoads]) -> Option<Slip> {
    let gvwr = setup.trailer.gvwr.filter(|_| setup.trailer_weight().is_none())?;
    let boat = cases.iter().filter_map(|case| case.boat.clone().ok()).reduce(Weight::max)?;
    (gvwr - boat < boat * LIGHTEST).then_some(Slip::GvwrUnderBoat { gvwr, boat })
}

/// The most of a trailer's gross weight that any band of tongue shares lets the tongue carry. Common practice, no source.
const MOST_SHARE: f64 = 0.15;

/// A GVWR that is more than the ratings of axles and tongue together, GVWR ≤ Σ axle ratings + tongue rating.
pub fn gvwr_over_parts(setup: &Setup) -> Option<Slip> {
    let trailer = &setup.trailer;
    let axles: Option<Weight> = trailer.axles.iter().map(|axle| axle.rating).sum();
    let (gvwr, tongue) = (trailer.gvwr?, trailer.coupler.tongue_rating);
    let parts = axles? + tongue.unwrap_or(gvwr * MOST_SHARE);
    (gvwr > parts).then_some(Slip::GvwrOverParts { gvwr, parts, tongue_taken: tongue.is_none() })
}
