//! Settling, proved from outside: closed forms, a second opinion, properties and errors.
//!
//! Everything the checks need of ground, springs and forces is worked out again in [`trailers`] and
//! [`statics`], from the definitions and by other methods than the library's.

mod closed_forms;
mod continuity;
mod crossing;
pub mod energy;
mod errors;
mod positions;
mod properties;
mod second_opinion;
pub mod statics;
pub mod trailers;
