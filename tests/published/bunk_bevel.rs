//! The drop across a bunk bevelled to the hull.
//!
//! Source: common practice, no source: a beam bunk bevelled to a 24 degree deadrise drops about 2 in, a little
//! less, across its 4 in nominal thickness.

use bunkline::mechanics::bunks::drop;
use bunkline::mechanics::bunks::wood::{Lay, dressed};
use bunkline::quantity::{Angle, Length, Quantity};

#[test]
fn a_bunk_bevelled_to_24_degrees_drops_a_little_less_than_2_inches() {
    let deadrise = Angle::from_si(24.0_f64.to_radians());
    let drop_of = |breadth: Length| drop(breadth, deadrise, Lay::OnEdge).si() / 0.0254;
    // tan 24° = 0.445229: 3.5 in dressed drops 1.5583, 4 in full 1.7809; half of the last digit is allowed.
    let dressed = drop_of(dressed(4).expect("a size of the table"));
    let full = drop_of(Length::from_si(4.0 * 0.0254));
    assert!((dressed - 1.5583).abs() < 5e-5 && (full - 1.7809).abs() < 5e-5, "{dressed} {full}");
}
