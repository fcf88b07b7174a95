//! x
pub mod mechanics;
pub mod quantity;
