//! Tells the owner of a heavy trailerable boat whether boat, trailer, hitch and tow vehicle fit each other,
//! and what to change when they do not.
//!
//! A rig file becomes a [`Rig`]; [`fit::examine`] settles the trailer on its wheels, makes every check and
//! looks for cures; [`study::uncertainty::examine`] does so too and takes into account what is stated with bounds;
//! [`study::place`] finds where the boat must sit; [`report`] says it in words or JSON.
//!
//! ```
//! let text = r#"
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
//! "#;
//! let rig = bunkline::Rig::read("skiff.toml", text, &["shift.boat=-2in"])?;
//! let found = bunkline::fit::examine(&rig)?;
//!
//! // Boat: 5200 lb at 52 + 230 − 96 − 2 = 184 in behind the ball; trailer: 1500 lb at 162 in. Together
//! // 6700 lb at (956 800 + 243 000) / 6700 = 179.075 in. Axles at 182 and 214 in, mean 198 in, so with
//! // equal loads the tongue would carry 6700 (1 − 179.075/198) = 640 lb, a share of 0.0956. Torsion axles
//! // share a little otherwise once the boat has moved.
//! let share = found.assessment.rows[0].load.map(|load| load.si());
//! assert!((share.unwrap_or_default() - 0.0956).abs() < 0.002);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # Limits
//!
//! All of it is a screening calculation, static, on level ground and on ramps. The trailer's frame is rigid,
//! brake torque is not in the axle loads. Brakes, winch and flotation are not computed. Confirm on a
//! scale before the road; placards and local law govern.

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
