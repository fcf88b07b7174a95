//! Source: Hicks, Civil Engineering Formulas, table 2.1: reactions and moments of a uniformly loaded beam on
//! two to four equal spans. Read in the source. Five and six spans: derived, by the equation of three moments
//! solved here. Largest deflections: manual of the American Institute of Steel Construction, from memory.
//! A beam with two overhangs: quoted, and plain statics.
//!
//! Tolerances: fractions are exact, so floating-point arithmetic only, 1e-12; decimals to half of their last
//! digit.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::mechanics::bunks::beam::{Beam, Bent, Holding, SpreadLoad, Support, bend};
use bunkline::quantity::{BendingStiffness, Length, LineLoad, Quantity};

/// Load a length, span and stiffness: any will do, so odd ones.
const W: f64 = 730.0;
const L: f64 = 1.7;
const EI: f64 = 8800.0;

fn uniform(length: f64, stations: &[f64]) -> Bent {
    let w = LineLoad::from_si(W);
    let beam = Beam {
        length: Length::from_si(length),
        stiffness: BendingStiffness(EI),
        supports: stations.iter().map(|x| Support::rigid(Length::from_si(*x))).collect(),
        loads: vec![SpreadLoad {
            from: Length::from_si(0.0),
            to: Length::from_si(length),
            at_from: w,
            at_to: w,
        }],
        holding: Holding::BothWays,
    };
    bend(&beam).expect("a beam at rest")
}

fn equal_spans(spans: usize) -> Bent {
    let stations: Vec<f64> = (0..=spans).map(|i| i as f64 * L).collect();
    uniform(spans as f64 * L, &stations)
}

/// Reactions over wL.
fn reactions(bent: &Bent) -> Vec<f64> {
    bent.reactions.iter().map(|reaction| reaction.si() / (W * L)).collect()
}

/// Moment at a station, in spans, over wL².
fn moment(bent: &Bent, station: f64) -> f64 {
    bent.moment_at(Length::from_si(station * L)).value / (W * L * L)
}

/// The greatest sagging moment within a span, over wL²: where the shear from its left support is used up.
fn span_moment(bent: &Bent, span: usize) -> f64 {
    let shear = bent.shear_after(Length::from_si(span as f64 * L)).si();
    moment(bent, span as f64 + shear / (W * L))
}

fn assert_all(found: &[f64], published: &[f64]) {
    assert_eq!(found.len(), published.len());
    for (found, published) in found.iter().zip(published) {
        assert_relative_eq!(found, published, max_relative = 1e-12);
    }
}

#[test]
fn reactions_on_equal_spans() {
    let eighths = [3.0, 10.0, 3.0].map(|r| r / 8.0);
    assert_all(&reactions(&equal_spans(2)), &eighths);
    let tenths = [4.0, 11.0, 11.0, 4.0].map(|r| r / 10.0);
    assert_all(&reactions(&equal_spans(3)), &tenths);
    let twenty_eighths = [11.0, 32.0, 26.0, 32.0, 11.0].map(|r| r / 28.0);
    assert_all(&reactions(&equal_spans(4)), &twenty_eighths);
}

#[test]
fn moments_over_the_supports_of_equal_spans() {
    for (spans, published) in
        [(2, &[1.0 / 8.0][..]), (3, &[0.1, 0.1]), (4, &[3.0 / 28.0, 2.0 / 28.0, 3.0 / 28.0])]
    {
        let bent = equal_spans(spans);
        for (i, published) in published.iter().enumerate() {
            assert_relative_eq!(moment(&bent, (i + 1) as f64), -published, max_relative = 1e-12);
        }
    }
}

#[test]
fn moments_within_equal_spans() {
    // Published to three or four decimals.
    for (spans, published) in [(2, &[0.0703][..]), (3, &[0.080, 0.025]), (4, &[0.0772, 0.0364])] {
        let bent = equal_spans(spans);
        for (span, published) in published.iter().enumerate() {
            assert_abs_diff_eq!(span_moment(&bent, span), published, epsilon = 0.5e-4);
        }
        // The greatest of all is over the first inner support.
        assert!(bent.moment.value.value < 0.0);
    }
}

/// Equal spans by the equation of three moments, `M_{i−1} + 4 M_i + M_{i+1} = −wL²/2`, swept forward and back.
fn three_moments(spans: usize) -> Vec<f64> {
    let inner = spans - 1;
    let (mut upper, mut right) = (vec![0.0; inner], vec![0.0; inner]);
    for i in 0..inner {
        let before = if i > 0 { (upper[i - 1], right[i - 1]) } else { (0.0, 0.0) };
        let pivot = 4.0 - before.0;
        upper[i] = 1.0 / pivot;
        right[i] = (-0.5 - before.1) / pivot;
    }
    let mut moments = vec![0.0; spans + 1];
    for i in (0..inner).rev() {
        moments[i + 1] = right[i] - upper[i] * moments[i + 2];
    }
    moments
}

#[test]
fn five_and_six_spans_by_three_moments() {
    // The sweep itself gives the published ones.
    assert_relative_eq!(three_moments(4)[2], -2.0 / 28.0, max_relative = 1e-12);
    for spans in 2..=6 {
        let moments = three_moments(spans);
        let bent = equal_spans(spans);
        for (i, expected) in moments.iter().enumerate() {
            assert_abs_diff_eq!(moment(&bent, i as f64), *expected, epsilon = 1e-12);
        }
        // R_i = wL (half a span from each side) + differences of moments.
        let side = |here: f64, there: f64| 0.5 + (there - here);
        let expected: Vec<f64> = (0..=spans)
            .map(|i| {
                let left = if i > 0 { side(moments[i], moments[i - 1]) } else { 0.0 };
                let right = if i < spans { side(moments[i], moments[i + 1]) } else { 0.0 };
                left + right
            })
            .collect();
        assert_all(&reactions(&bent), &expected);
    }
    // Five spans: 15/38, 43/38, 37/38 and so on.
    let found = reactions(&equal_spans(5));
    assert_all(&found, &[15.0, 43.0, 37.0, 37.0, 43.0, 15.0].map(|r| r / 38.0));
}

#[test]
fn largest_deflections_of_equal_spans() {
    // From memory, to four decimals of wL⁴/EI. One span: 5/384, halfway.
    for (spans, published) in [(2, 0.0054), (3, 0.0069), (4, 0.0065)] {
        let found = equal_spans(spans).deflection.value.si() * EI / (W * L.powi(4));
        assert_abs_diff_eq!(found, published, epsilon = 0.5e-4);
    }
    let one = equal_spans(1).deflection;
    assert_relative_eq!(one.value.si(), 5.0 / 384.0 * W * L.powi(4) / EI, max_relative = 1e-12);
    // The slope is flat there, so its root is found to about the rounding of the slope over the curvature.
    assert_relative_eq!(one.station.si(), L / 2.0, max_relative = 1e-12);
}

#[test]
fn two_overhangs() {
    for (a, b, c) in [(0.4, 1.9, 0.7), (0.0, 2.0, 1.0), (1.2, 1.5, 0.1), (0.0, 1.0, 1.5)] {
        let total = a + b + c;
        let bent = uniform(total, &[a, a + b]);
        // R1 = wL (L − 2c) / 2b and R2 = wL (L − 2a) / 2b; with a long overhang the far support pulls.
        let expected = [W * total * (total - 2.0 * c) / (2.0 * b), W * total * (total - 2.0 * a) / (2.0 * b)];
        for (found, expected) in bent.reactions.iter().zip(expected) {
            assert_abs_diff_eq!(found.si(), expected, epsilon = 1e-12 * W * total);
        }
        // M = −wa²/2 and −wc²/2
        for (station, arm) in [(a, a), (a + b, c)] {
            let found = bent.moment_at(Length::from_si(station)).value;
            assert_abs_diff_eq!(found, -W * arm * arm / 2.0, epsilon = 1e-12 * W * total * total);
        }
    }
}
