//! The beam, proved from outside: a second opinion by finite elements, properties, errors.
//!
//! Published cases stand among the published ones.

mod beams;
mod elements;
mod errors;
mod lifting;
mod properties;
mod reference_library;
mod second_opinion;
