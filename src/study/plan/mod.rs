//! What to change so that a rig which fails holds: the one list that an owner can follow.

mod result;

pub use result::{Action, After, Alternative, Conflict, Figure, Item, Plan, Room, Setting, Step};
