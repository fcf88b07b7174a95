//! The library's beam against finite elements.

use crate::beam::beams::{any_beam, deflection_scale, force_scale, metres, reactions};
use crate::beam::elements::{ELEMENTS, solve};
use crate::cases::cases;
use approx::assert_abs_diff_eq;
use bunkline::mechanics::bunks::beam::bend;
use bunkline::quantity::Quantity;
use proptest::prelude::*;

/// Both answers are exact but for rounding. The library's is of forces over spans, the finest a twenty-fourth
/// of the beam: as in the properties.
const ROUNDING: f64 = 1e-11;

/// The elements' rounding is of deflections. Their equations are some 48⁴ times as stiff in the finest wave as
/// in the longest, each of a few tens of terms is rounded at 1e-16, and two neighbours that hold the whole beam
/// do so by a lever of a twenty-fourth: so are deflections, and forces in units of `EI y / L³`.
const OF_ELEMENTS: f64 = 30.0 * 24.0 * 1.1e-16 * 5.3e6;

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn finite_elements_agree(beam in any_beam(2000.0)) {
        let bent = bend(&beam).expect("a beam at rest");
        let all: Vec<usize> = (0..beam.supports.len()).collect();
        let nodes = solve(&beam, &all);
        let length = beam.length.si();
        let deflection = deflection_scale(&beam, &bent);
        let stiff = beam.stiffness.0 * deflection / length.powi(3);
        let force = ROUNDING * force_scale(&beam, &bent) + OF_ELEMENTS * stiff;
        let deflection = OF_ELEMENTS * deflection;
        for (found, expected) in reactions(&bent).iter().zip(&nodes.reactions) {
            assert_abs_diff_eq!(found, expected, epsilon = force);
        }
        for node in 0..=ELEMENTS {
            let at = metres(length * node as f64 / ELEMENTS as f64);
            assert_abs_diff_eq!(
                bent.deflection_at(at).si(), nodes.deflection[node], epsilon = deflection
            );
            assert_abs_diff_eq!(
                bent.moment_at(at).value, nodes.moment[node], epsilon = force * length
            );
            // A node is on one side of a support by a hair: look a little further, where the shear differs
            // by the load on the way.
            if node < ELEMENTS {
                let near = at + metres(1e-13 * length);
                assert_abs_diff_eq!(
                    bent.shear_after(near).si(), nodes.shear[node], epsilon = 2.0 * force
                );
            }
        }
        // What is called greatest is at least what any node has.
        let most = |values: &[f64]| values.iter().fold(0.0, |most: f64, value| most.max(value.abs()));
        prop_assert!(bent.deflection.value.si().abs() >= most(&nodes.deflection) - deflection);
        prop_assert!(bent.moment.value.value.abs() >= most(&nodes.moment) - force * length);
        prop_assert!(bent.shear.value.si().abs() >= most(&nodes.shear) - force);
    }
}
