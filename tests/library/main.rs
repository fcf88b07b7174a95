//! The library, from a rig file to its findings: worked by hand, tried on random rigs, and held to its own structure.

mod architecture;
mod bunks;
mod example_rig;
mod no_panic;
mod place;
mod properties;
mod registry;
mod report;
mod sound;
mod sweep;
mod uncertainty;
mod vary;
