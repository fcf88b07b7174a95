//! Beams without an answer, one mistake each.

use crate::beam::beams::{metres, plain, spread};
use bunkline::mechanics::bunks::beam::{Beam, BeamError, bend};
use bunkline::quantity::{BendingStiffness, Quantity, Rate};

fn good() -> Beam {
    plain(4.0, &[0.5, 2.0, 3.5])
}

/// The error of a good beam after a change.
fn error(change: impl Fn(&mut Beam)) -> Option<BeamError> {
    let mut beam = good();
    change(&mut beam);
    bend(&beam).err()
}

#[test]
fn the_beam_that_is_changed_is_good() {
    assert_eq!(error(|_| {}), None);
}

#[test]
fn numbers_that_are_none() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let not_finite = Some(BeamError::NotFinite);
        assert_eq!(error(|beam| beam.length = metres(bad)), not_finite);
        assert_eq!(error(|beam| beam.stiffness = BendingStiffness(bad)), not_finite);
        assert_eq!(error(|beam| beam.supports[1].station = metres(bad)), not_finite);
        assert_eq!(error(|beam| beam.supports[1].settlement = metres(bad)), not_finite);
        assert_eq!(error(|beam| beam.supports[1].rate = Some(Rate::from_si(bad))), not_finite);
        assert_eq!(error(|beam| beam.loads[0].at_to = Rate::from_si(bad)), not_finite);
    }
}

#[test]
fn no_beam_at_all() {
    for bad in [0.0, -1.0] {
        assert_eq!(error(|beam| beam.length = metres(bad)), Some(BeamError::NoLength));
        assert_eq!(error(|beam| beam.stiffness = BendingStiffness(bad)), Some(BeamError::NoStiffness));
        let no_rate = Some(BeamError::NoRate { support: 2 });
        assert_eq!(error(|beam| beam.supports[2].rate = Some(Rate::from_si(bad))), no_rate);
    }
}

#[test]
fn too_few_supports() {
    for found in [0, 1] {
        assert_eq!(error(|beam| beam.supports.truncate(found)), Some(BeamError::Unstable { found }));
    }
}

#[test]
fn supports_and_loads_beside_the_beam() {
    for bad in [-0.001, 4.001] {
        let off = Some(BeamError::SupportOffBeam { support: 0 });
        assert_eq!(error(|beam| beam.supports[0].station = metres(bad)), off);
    }
    let off = Some(BeamError::LoadOffBeam { load: 1 });
    assert_eq!(error(|beam| beam.loads.push(spread(-0.1, 1.0, 1.0, 1.0))), off);
    assert_eq!(error(|beam| beam.loads.push(spread(1.0, 4.1, 1.0, 1.0))), off);
    let backward = Some(BeamError::Backward { load: 1 });
    assert_eq!(error(|beam| beam.loads.push(spread(2.0, 1.0, 1.0, 1.0))), backward);
    // Rounding is forgiven, and a load on no length is none.
    assert_eq!(error(|beam| beam.loads[0].to = metres(4.0 + 1e-12)), None);
    assert_eq!(error(|beam| beam.loads.push(spread(1.0, 1.0, 1.0, 1.0))), None);
}

#[test]
fn two_supports_at_one_station() {
    let coincident = Some(BeamError::Coincident { first: 1, second: 2 });
    assert_eq!(error(|beam| beam.supports[2].station = metres(2.0)), coincident);
    assert_eq!(error(|beam| beam.supports[2].station = metres(2.0 + 3e-6)), coincident);
    // A hundred thousandth of the beam is apart.
    assert_eq!(error(|beam| beam.supports[2].station = metres(2.0 + 4e-5)), None);
}

#[test]
fn numbers_too_far_apart() {
    let beyond = Some(BeamError::BeyondPrecision);
    assert_eq!(error(|beam| beam.loads[0].at_to = Rate::from_si(1e308)), beyond);
    assert_eq!(error(|beam| beam.stiffness = BendingStiffness(1e-320)), beyond);
}
