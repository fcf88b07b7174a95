//! What ties the boat down: what it must hold in each direction, and what it does hold.

mod checks;
mod loads;

pub use loads::{Against, TieDownLoads, TiedDown, tied_down};

pub(super) use checks::CHECKS;
