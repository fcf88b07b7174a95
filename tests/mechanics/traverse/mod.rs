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
