//! The library, from a rig file to its findings: worked by hand, tried on random rigs, and held to its own structure.

mod architecture;
mod brakes;
mod bunks;
#[path = "../shared/cases.rs"]
mod cases;
mod cautions;
mod compare;
mod cures;
mod drawing;
mod europe;
mod example_rig;
mod faults;
mod frame;
mod hand;
mod hand_changed;
mod house;
mod inputs;
mod launch;
mod no_panic;
mod page;
#[path = "../shared/pieces.rs"]
mod pieces;
mod place;
mod plan;
mod properties;
mod ramp_rows;
mod ramp_scan;
mod ranges;
mod reasons;
mod registry;
mod report;
mod rig;
mod silence;
mod size;
mod sound;
mod spec;
mod sway;
mod sweep;
mod tie_downs;
mod tires;
mod uncertainty;
mod uses;
mod weigh;
mod weighed;
mod winch;
