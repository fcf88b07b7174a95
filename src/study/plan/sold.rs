//! What parts are sold: the ratings in which they come, and which of a rig's keys state them.

use super::result::Item;
use crate::quantity::show::UnitSystem;
use crate::quantity::unit::{INCH, POUND};
use crate::quantity::{Length, STANDARD_GRAVITY, Weight};
use crate::rig::inputs::{
    HITCH_BALL_D_VALUE, HITCH_BALL_DIAMETER, HITCH_BALL_MOUNT_RATING, HITCH_BALL_MOUNT_SHANK,
    HITCH_BALL_MOUNT_TONGUE_RATING, HITCH_BALL_RATING, HITCH_BALL_TONGUE_RATING, HITCH_RECEIVER_RATING,
    HITCH_RECEIVER_TONGUE_RATING, Handle, TRAILER_AXLES_RATING, TRAILER_AXLES_SPRING_RATING,
    TRAILER_AXLES_TIRES_RATING, TRAILER_AXLES_WHEELS_RATING, TRAILER_BRAKES_BORE, TRAILER_COUPLER_D_VALUE,
    TRAILER_COUPLER_RATING, TRAILER_COUPLER_TONGUE_RATING, TRAILER_DRAWBAR_D_VALUE, TRAILER_DRAWBAR_DC_VALUE,
    TRAILER_DRAWBAR_TONGUE_RATING, TRAILER_DRAWBAR_V_VALUE, TRAILER_JACK_RATING,
};

/// A figure that a part is bought by.
#[derive(Debug)]
pub(super) struct Sold {
    /// Its key.
    pub path: &'static str,
    /// The part.
    pub item: Item,
    steps: Steps,
}

/// In what steps a figure is sold: common practice, no source.
#[derive(Debug)]
enum Steps {
    /// The usual ratings in pounds, and in kilograms; beyond the last the next 100 lb or 50 kg.
    Ratings([&'static [u32]; 2]),
    /// Forces on plates, by the half kilonewton.
    Forces,
    /// Sizes, of which the right one is sold.
    Sizes,
}

/// Axles with their springs.
const AXLES: [&[u32]; 2] = [
    &[2000, 3500, 4400, 5200, 6000, 7000, 8000, 10000, 12000],
    &[750, 1000, 1350, 1500, 1800, 2000, 2500, 3000, 3500],
];
/// Single tires of the usual sizes and load ranges.
const TIRES: [&[u32]; 2] = [
    &[1100, 1360, 1760, 1820, 2150, 2540, 2830, 3420, 3640, 4080, 4400],
    &[450, 500, 560, 615, 690, 750, 825, 900, 950, 1000, 1060, 1120, 1215, 1320, 1450],
];
/// What gross trailer weight hangs on.
const COUPLINGS: [&[u32]; 2] = [
    &[2000, 3500, 5000, 6000, 7000, 8000, 10000, 12500, 14000, 16000, 18000, 21000, 25000, 30000],
    &[750, 1500, 2000, 2700, 3000, 3500],
];
/// What tongue weight rests on.
const TONGUES: [&[u32]; 2] = [
    &[200, 350, 500, 600, 700, 800, 1000, 1250, 1400, 1600, 1800, 2100, 2500, 3000],
    &[75, 100, 150, 200, 250, 300, 350],
];
const JACKS: [&[u32]; 2] =
    [&[1000, 1200, 1500, 2000, 2500, 3500, 5000, 7000, 8000, 10000, 12000], &[150, 250, 350, 500, 750, 1000]];

/// The bores of master cylinders that are sold, in inches, wherever: common practice, no source.
const BORES: [f64; 6] = [0.625, 0.75, 0.875, 1.0, 1.125, 1.25];

const HALF_KILONEWTON: f64 = 500.0;

/// Every figure that a part is bought by.
pub(super) static SOLD: &[Sold] = &[
    rated(TRAILER_AXLES_RATING, Item::Axles, AXLES),
    rated(TRAILER_AXLES_SPRING_RATING, Item::Axles, AXLES),
    rated(TRAILER_AXLES_TIRES_RATING, Item::Tires, TIRES),
    rated(TRAILER_AXLES_WHEELS_RATING, Item::Tires, TIRES),
    rated(TRAILER_COUPLER_RATING, Item::Coupler, COUPLINGS),
    rated(TRAILER_COUPLER_TONGUE_RATING, Item::Coupler, TONGUES),
    rated(HITCH_RECEIVER_RATING, Item::Receiver, COUPLINGS),
    rated(HITCH_RECEIVER_TONGUE_RATING, Item::Receiver, TONGUES),
    rated(HITCH_BALL_MOUNT_RATING, Item::BallMount, COUPLINGS),
    rated(HITCH_BALL_MOUNT_TONGUE_RATING, Item::BallMount, TONGUES),
    sized(HITCH_BALL_MOUNT_SHANK, Item::BallMount),
    rated(HITCH_BALL_RATING, Item::Ball, COUPLINGS),
    sized(HITCH_BALL_DIAMETER, Item::Ball),
    rated(HITCH_BALL_TONGUE_RATING, Item::Ball, TONGUES),
    plated(HITCH_BALL_D_VALUE, Item::Ball),
    plated(TRAILER_COUPLER_D_VALUE, Item::Coupler),
    plated(TRAILER_DRAWBAR_D_VALUE, Item::Drawbar),
    plated(TRAILER_DRAWBAR_DC_VALUE, Item::Drawbar),
    plated(TRAILER_DRAWBAR_V_VALUE, Item::Drawbar),
    rated(TRAILER_DRAWBAR_TONGUE_RATING, Item::Drawbar, TONGUES),
    rated(TRAILER_JACK_RATING, Item::Jack, JACKS),
    sized(TRAILER_BRAKES_BORE, Item::MasterCylinder),
];

const fn rated(key: Handle<Weight>, item: Item, steps: [&'static [u32]; 2]) -> Sold {
    Sold { path: key.path(), item, steps: Steps::Ratings(steps) }
}

const fn sized(key: Handle<Length>, item: Item) -> Sold {
    Sold { path: key.path(), item, steps: Steps::Sizes }
}

const fn plated(key: Handle<Weight>, item: Item) -> Sold {
    Sold { path: key.path(), item, steps: Steps::Forces }
}

/// The place in [`SOLD`] of a key.
pub(super) fn place(path: &str) -> Option<usize> {
    SOLD.iter().position(|sold| sold.path == path)
}

/// What is sold by a key's path that is at least this, in SI.
pub(in crate::study) fn at_least(path: &str, needed: f64, units: UnitSystem) -> f64 {
    place(path).map_or(needed, |place| SOLD[place].step_up(needed, units))
}

/// The greatest rating by a key's path that is usual wherever it is sold, in SI; what is bought beyond it is made to order.
pub(in crate::study) fn greatest(path: &str) -> Option<f64> {
    let Steps::Ratings([pounds, kilograms]) = SOLD[place(path)?].steps else { return None };
    let pounds = f64::from(*pounds.last()?) * POUND;
    Some(pounds.max(f64::from(*kilograms.last()?) * STANDARD_GRAVITY))
}

/// The other bores that are sold, the one nearest to a bore first, in SI.
pub(super) fn other_bores(now: f64) -> Vec<f64> {
    let off = |bore: &f64| (bore - now).abs();
    let mut bores: Vec<f64> = BORES.iter().map(|bore| bore * INCH).filter(|bore| off(bore) > 1e-5).collect();
    bores.sort_by(|one, other| off(one).total_cmp(&off(other)));
    bores
}

impl Sold {
    /// Whether it is a rating, not a size.
    pub fn is_rating(&self) -> bool {
        !matches!(self.steps, Steps::Sizes)
    }

    /// What is sold that is at least this, in SI.
    pub fn step_up(&self, needed: f64, units: UnitSystem) -> f64 {
        let [pounds, kilograms] = match self.steps {
            Steps::Ratings(steps) => steps,
            Steps::Forces => return (needed / HALF_KILONEWTON - 1e-6).ceil() * HALF_KILONEWTON,
            Steps::Sizes => return needed,
        };
        let (steps, unit, beyond) = match units {
            UnitSystem::Us => (pounds, POUND, 100.0),
            UnitSystem::Metric => (kilograms, STANDARD_GRAVITY, 50.0),
        };
        // A hair over a step is rounding.
        let needed = needed / unit - 1e-6;
        let step = steps.iter().map(|step| f64::from(*step)).find(|step| *step >= needed);
        step.unwrap_or_else(|| (needed / beyond).ceil() * beyond) * unit
    }
}
