//! Reading a rig file, the table of inputs, and the one way to propose.

mod inputs;
mod vary;
