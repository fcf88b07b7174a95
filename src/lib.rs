//! Finds out whether the boat, trailer, hitch and tow vehicle of a heavy trailerable boat fit each other, and what to
//! change when they do not.
//!
//! [`Rig::parse`] reads the text of a rig file, and [`Rig::with`] proposes a change to it. [`fit::assess`] settles the
//! trailer on its wheels and evaluates every check; [`fit::examine`] also looks for cures.
//! [`study::uncertainty::examine`] takes into account the bounds (±) of the inputs, [`study::place`] finds where the
//! boat must sit, and [`study::sweep`] goes through a range of values. [`report`] turns the results into text, HTML or
//! JSON.
//!
//! ```
//! use bunkline::{Rig, fit};
//!
//! let rig = Rig::parse(
//!     r#"
//! format = 1
//!
//! [boat]
//! bow_eye = { station = "19 ft 2 in", height = "30 in" }
//! [[boat.weights]]
//! weight = "5200 lb"
//! station = "8 ft"
//! height = "26 in"
//!
//! [trailer]
//! weight = "1500 lb"
//! cg = "13 ft 6 in"
//! bow_stop = "4 ft 4 in"
//! keel_height = "22 in"
//! level_ball_height = "19 in"
//! suspension = { kind = "torsion" }
//! [[trailer.axles]]
//! station = "15 ft 2 in"
//! rating = "3500 lb"
//! tires = { size = "ST205/75R15" }
//! [[trailer.axles]]
//! station = "17 ft 10 in"
//! rating = "3500 lb"
//! tires = { size = "ST205/75R15" }
//! "#,
//! )?;
//! let moved = rig.with("shift.boat=-2in")?;
//! let assessment = fit::assess(&moved)?;
//!
//! // Boat: 5200 lb at 52 + 230 − 96 − 2 = 184 in behind the ball; trailer: 1500 lb at 162 in. Together
//! // 6700 lb at (956 800 + 243 000) / 6700 = 179.075 in. Axles at 182 and 214 in, mean 198 in, so with
//! // equal loads the tongue would carry 6700 (1 − 179.075/198) = 640 lb, a share of 0.0956. Torsion axles
//! // share a little otherwise once the boat has moved.
//! let row = assessment.check("tongue-share").expect("every rig has this check");
//! let share = row.load.expect("nothing that it needs is missing").si();
//! assert!((share - 0.0956).abs() < 0.002);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # Limits
//!
//! Everything is a screening calculation: static, on level ground and on ramps, with a rigid trailer frame. Axle loads
//! leave out brake torque. Brakes, winch and flotation are not computed. Confirm the loads on a scale before you tow;
//! placards and local law govern.

#[cfg(feature = "cli")]
pub mod cli;
pub mod fit;
pub mod mechanics;
pub mod numeric;
pub mod quantity;
pub mod report;
pub mod rig;
pub mod study;

pub use rig::Rig;

/// The README's library code, compiled and run as a test.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
