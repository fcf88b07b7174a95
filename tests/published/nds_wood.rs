//! Sources: American Softwood Lumber Standard PS 20 (dressed sizes, quoted); National Design Specification for
//! Wood Construction and its Supplement 2018, tables 4A and 4B (design values and factors: quoted, but for
//! western cedars, southern pine 4 and 12 in wide, and load durations other than two months, which are from memory).
//! Worked example: a wet 2 × 8 of Douglas fir-larch No. 1 under a load of two months, from a university
//! course in timber design, CE 479; quoted.
//!
//! Tolerances: the example's stresses to half a psi, its last digit; products of factors are exact, so 1e-12.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::mechanics::bunks::wood::{
    Adjusted, Adjustment, Board, DesignValues, Lay, LoadDuration, Lumber, NotDimensionLumber, Service, Use,
    allowed, dressed,
};
use bunkline::quantity::{Length, Pressure, Quantity};

const INCH: f64 = 0.0254;
const PSI: f64 = 6_894.757_293_168_361;

fn psi(value: f64) -> Pressure {
    Pressure::from_si(value * PSI)
}

fn in_psi(adjusted: &Adjusted) -> f64 {
    adjusted.value().si() / PSI
}

fn nominal(one: u32, other: u32) -> Board {
    Board::nominal(one, other).expect("nominal sizes")
}

fn inches(thickness: f64, width: f64) -> Board {
    Board { thickness: Length::from_si(thickness * INCH), width: Length::from_si(width * INCH) }
}

fn factor(adjusted: &Adjusted, which: Adjustment) -> Option<f64> {
    adjusted.factors.iter().find(|(adjustment, _)| *adjustment == which).map(|(_, factor)| *factor)
}

const STORED_WET: Use = Use { duration: LoadDuration::Permanent, service: Service::Wet };

#[test]
fn lumber_is_smaller_than_its_name() {
    for (nominal, inches) in [(2, 1.5), (4, 3.5), (6, 5.5), (8, 7.25), (10, 9.25), (12, 11.25)] {
        let found = dressed(nominal).expect("a nominal size");
        assert_relative_eq!(found.si() / INCH, inches, max_relative = 1e-12);
    }
    for other in [0, 1, 3, 5, 7, 9, 11, 14] {
        assert_eq!(dressed(other), None, "{other}");
    }
    assert_eq!(Board::nominal(10, 2), Board::nominal(2, 10));
    assert_eq!(Board::nominal(2, 7), None);
}

#[test]
fn a_worked_example_closes() {
    // No. 1: Fb 1000 psi; Fv is 180 psi for every grade. 1000 × 1.15 × 0.85 × 1.2 = 1173, 180 × 1.15 × 0.97 = 201.
    let no_1 = DesignValues {
        bending: psi(1000.0),
        shear: psi(180.0),
        bearing: psi(625.0),
        elasticity: psi(1.7e6),
        for_its_width: false,
    };
    let how = Use { duration: LoadDuration::TwoMonths, ..STORED_WET };
    let found = allowed(no_1, nominal(2, 8), how).expect("dimension lumber");
    assert_abs_diff_eq!(in_psi(&found.bending), 1173.0, epsilon = 0.5);
    assert_abs_diff_eq!(in_psi(&found.shear), 201.0, epsilon = 0.5);
    let expected =
        [(Adjustment::LoadDuration, 1.15), (Adjustment::WetService, 0.85), (Adjustment::Size, 1.2)];
    assert_eq!(found.bending.factors.as_slice(), expected);
    // Bearing and stiffness know no load duration.
    assert_relative_eq!(in_psi(&found.bearing), 625.0 * 0.67, max_relative = 1e-12);
    assert_relative_eq!(in_psi(&found.elasticity), 1.7e6 * 0.9, max_relative = 1e-12);
}

#[test]
fn design_values_of_the_supplement() {
    let cases = [
        (Lumber::DouglasFirLarch2, 6, [900.0, 180.0, 625.0, 1.6e6]),
        (Lumber::DouglasFirLarch2, 10, [900.0, 180.0, 625.0, 1.6e6]),
        (Lumber::SouthernPine2, 6, [1000.0, 175.0, 565.0, 1.4e6]),
        (Lumber::SouthernPine2, 8, [925.0, 175.0, 565.0, 1.4e6]),
        (Lumber::SouthernPine2, 10, [800.0, 175.0, 565.0, 1.4e6]),
        // 4 and 12 in wide: from memory.
        (Lumber::SouthernPine2, 4, [1100.0, 175.0, 565.0, 1.4e6]),
        (Lumber::SouthernPine2, 12, [750.0, 175.0, 565.0, 1.4e6]),
        (Lumber::WesternCedar2, 8, [700.0, 155.0, 425.0, 1.0e6]),
    ];
    for (lumber, width, published) in cases {
        let values = lumber.design_values(nominal(2, width)).expect("dimension lumber");
        let found = [values.bending, values.shear, values.bearing, values.elasticity];
        for (found, published) in found.iter().zip(published) {
            assert_relative_eq!(found.si() / PSI, published, max_relative = 1e-12);
        }
    }
}

#[test]
fn size_factors_of_table_4a() {
    for (board, published) in [
        (nominal(2, 6), 1.3),
        (nominal(2, 8), 1.2),
        (nominal(2, 10), 1.1),
        (nominal(4, 10), 1.2),
        // Other sizes: from memory.
        (nominal(2, 4), 1.5),
        (nominal(4, 4), 1.5),
        (nominal(2, 12), 1.0),
        (nominal(4, 8), 1.3),
        (nominal(4, 12), 1.1),
        // Between two sizes the wider one's holds, and millimetres meet inches.
        (inches(1.5, 6.0), 1.2),
        (Board { thickness: Length::from_si(0.038), width: Length::from_si(0.184) }, 1.2),
    ] {
        let values = Lumber::DouglasFirLarch2.design_values(board).expect("dimension lumber");
        let found = allowed(values, board, STORED_WET).expect("dimension lumber");
        assert_eq!(factor(&found.bending, Adjustment::Size), Some(published), "{board:?}");
    }
}

#[test]
fn southern_pine_is_tabled_by_width() {
    for width in [6, 8, 10] {
        let board = nominal(2, width);
        let values = Lumber::SouthernPine2.design_values(board).expect("dimension lumber");
        let found = allowed(values, board, STORED_WET).expect("dimension lumber");
        assert_eq!(factor(&found.bending, Adjustment::Size), Some(1.0));
        // At most 1150 psi, so wet service takes nothing.
        assert_eq!(factor(&found.bending, Adjustment::WetService), Some(1.0));
    }
}

#[test]
fn wet_service_spares_weak_bending_values() {
    let wet = |bending: f64, board: Board| {
        let values = Lumber::DouglasFirLarch2.design_values(board).expect("dimension lumber");
        let values = DesignValues { bending: psi(bending), ..values };
        let found = allowed(values, board, STORED_WET).expect("dimension lumber");
        factor(&found.bending, Adjustment::WetService)
    };
    // 900 × 1.3 = 1170, 900 × 1.2 = 1080.
    assert_eq!(wet(900.0, nominal(2, 6)), Some(0.85));
    assert_eq!(wet(900.0, nominal(2, 8)), Some(1.0));
    // The limit itself still is spared: 1150 × 1.0.
    assert_eq!(wet(1150.0, nominal(2, 12)), Some(1.0));
    assert_eq!(wet(1150.1, nominal(2, 12)), Some(0.85));
}

#[test]
fn dry_wood_of_ten_years_keeps_its_values_but_for_size() {
    let how = Use { duration: LoadDuration::TenYears, service: Service::Dry };
    for lumber in Lumber::ALL {
        let board = nominal(2, 12);
        let values = lumber.design_values(board).expect("dimension lumber");
        let found = allowed(values, board, how).expect("dimension lumber");
        for adjusted in [found.bending, found.shear, found.bearing, found.elasticity] {
            assert_eq!(adjusted.value(), adjusted.reference);
        }
    }
}

#[test]
fn load_durations() {
    for (duration, published) in [
        (LoadDuration::Permanent, 0.9),
        (LoadDuration::TenYears, 1.0),
        (LoadDuration::TwoMonths, 1.15),
        (LoadDuration::SevenDays, 1.25),
        (LoadDuration::TenMinutes, 1.6),
        (LoadDuration::Impact, 2.0),
    ] {
        assert_eq!(duration.factor(), published);
    }
}

#[test]
fn flat_boards_bend_the_other_way() {
    // 2 × 8: A 10.875 in², S 13.14 and 2.719 in³, I 47.63 and 2.039 in⁴ (from memory, and b d³ / 12).
    let board = nominal(2, 8);
    for (lay, modulus, second_moment) in [(Lay::OnEdge, 13.14, 47.63), (Lay::Flat, 2.719, 2.039)] {
        let section = board.section(lay);
        assert_relative_eq!(section.area.value / INCH.powi(2), 10.875, max_relative = 1e-12);
        assert_relative_eq!(section.modulus.si() / INCH.powi(3), modulus, max_relative = 5e-4);
        assert_relative_eq!(section.second_moment.0 / INCH.powi(4), second_moment, max_relative = 5e-4);
    }
}

#[test]
fn other_wood_is_not_dimension_lumber() {
    let nan = f64::NAN;
    // Thin boards, timbers, too wide ones, sides mixed up, no numbers.
    for board in [
        inches(0.75, 5.5),
        nominal(6, 6),
        inches(1.5, 13.25),
        inches(3.5, 1.5),
        inches(nan, 3.5),
        inches(1.5, nan),
    ] {
        for lumber in Lumber::ALL {
            assert_eq!(lumber.design_values(board), Err(NotDimensionLumber), "{board:?}");
        }
        let values = Lumber::WesternCedar2.design_values(nominal(2, 8)).expect("dimension lumber");
        assert_eq!(allowed(values, board, STORED_WET), Err(NotDimensionLumber));
    }
}
