//! Reading a rig file, the table of inputs, and the one way to propose.

mod bounds;
mod include;
mod inputs;
mod limits;
mod notation;
mod paths;
mod starter;
mod vary;
