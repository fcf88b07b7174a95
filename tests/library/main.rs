//! The library, from a rig file to its findings: worked by hand, tried on random rigs, and held to its own structure.

mod architecture;
mod bunks;
mod example_rig;
mod faults;
mod no_panic;
mod place;
mod properties;
mod registry;
mod rig;
mod sound;
mod sweep;
mod uncertainty;
