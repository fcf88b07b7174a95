//! Bunks, from a rig file to what is told of them: each result worked by hand once, then properties.

mod command;
mod hand;
mod properties;
mod rigs;
mod rows;
mod twist;
