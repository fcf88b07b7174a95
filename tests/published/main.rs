//! Published values and worked examples, each taken through the library.
//!
//! One module a source. Its head names the primary source and how sure the value is: read in the source,
//! quoted (read on a page that quotes it), from memory, or derived (exact mathematics, worked beside it).
//! Cases that must fail stand beside those that must hold.

mod rigs;

mod axle_move;
mod bunk_bevel;
mod cargo_securement;
mod couplings;
mod european_plates;
mod fluids;
mod grounding_at_a_break;
mod gvwr_and_gawr;
mod hicks_beams;
mod jack_scale;
mod lever_check;
mod load_index;
mod master_cylinder_pressures;
mod middle_third;
mod nds_wood;
mod safety_chains;
mod scale_check;
mod stability_factor;
mod surge_brakes;
mod tire_inflation;
mod tires_and_axles;
mod tongue_share;
mod torsion_ball_height;
mod unit_factors;
mod weight_by_sliding;
