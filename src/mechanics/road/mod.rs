//! The trailer on its wheels: weights in balance, springs that share them, and the rest at which they settle.

pub mod balance;
pub mod jack;
pub mod level;
pub mod roll;
pub mod settle;
pub mod sides;
pub mod springs;
pub mod tires;
