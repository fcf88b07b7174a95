//! The traverse, proved from outside: geometry, closed forms, hand statics, traction, a second opinion of
//! every position, events and properties.

mod closed_forms;
mod events;
mod geometry;
mod hand_statics;
mod properties;
mod rigs;
mod second_opinion;
mod traction;

// Trailers, hub lines and energies of the settling's own proof; not all of each is needed here.
#[allow(dead_code)]
#[path = "../settling/energy.rs"]
mod energy;
#[allow(dead_code)]
#[path = "../settling/statics.rs"]
mod statics;
#[allow(dead_code)]
#[path = "../settling/trailers.rs"]
mod trailers;
