//! The normal distribution: how far from its mean a value lies that so few lie beyond.

use super::root::edge;

/// The share of a normal distribution within z standard deviations of its mean, either side of it.
///
/// `P(|Z| < z) = 2 φ(z) (z + z³/3 + z⁵/(3·5) + …)`: every term is positive, so nothing cancels.
pub fn within(z: f64) -> f64 {
    let (mut term, mut sum, mut odd) = (z, 0.0, 1.0);
    // Sums that no longer change are as good as they get; the terms fall once the odd number is above z².
    while sum + term > sum {
        sum += term;
        odd += 2.0;
        term *= z * z / odd;
    }
    2.0 * sum * (-z * z / 2.0).exp() / (2.0 * std::f64::consts::PI).sqrt()
}

/// How many standard deviations the farthest of so many values lies from its mean no oftener than this, whatever ties the
/// values to each other.
///
/// `P(|Z_1| < z, …, |Z_n| < z) ≥ P(|Z| < z)^n` for normal values however they are correlated (Šidák 1967, from memory;
/// the tests try it), so z is where that is 1 − `rarely`.
pub fn farthest_of(values: usize, rarely: f64) -> f64 {
    /// Beyond it a share of one in 10¹² lies.
    const MOST: f64 = 7.0;
    let share = (1.0 - rarely).powf(1.0 / values.max(1) as f64);
    edge((MOST, 1.0 - share), (0.0, -share), 1e-9, |z| within(z) - share)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Tabled: 68.27, 95.45 and 99.73 % lie within one, two and three; 95 and 99 % within 1.959964 and 2.575829.
    #[test]
    fn shares_within_whole_deviations_are_those_of_tables() {
        for (z, share) in [
            (0.0, 0.0),
            (1.0, 0.682_689_492),
            (2.0, 0.954_499_736),
            (3.0, 0.997_300_204),
            (6.0, 0.999_999_998),
        ] {
            // The tables have nine digits.
            assert!((within(z) - share).abs() < 1e-9, "{z}: {}", within(z));
        }
        // To the digits of the tables.
        assert!((farthest_of(1, 0.05) - 1.959_964).abs() < 1e-6);
        assert!((farthest_of(1, 0.01) - 2.575_829).abs() < 1e-6);
    }

    /// A second method: the middle rule over the density.
    #[test]
    fn shares_are_those_of_the_area_under_the_curve() {
        for z in [0.3, 1.7, 2.9, 4.4] {
            let steps = 20_000;
            let width = z / f64::from(steps);
            let height = |i: i32| (-((f64::from(i) + 0.5) * width).powi(2) / 2.0).exp();
            let area =
                2.0 * width * (0..steps).map(height).sum::<f64>() / (2.0 * std::f64::consts::PI).sqrt();
            // The rule's error is z width² / 24 times the slope, below 1e-8.
            assert!((within(z) - area).abs() < 1e-8, "{z}");
        }
    }

    /// Of three independent values the farthest passes z in 1 − P³ of all draws.
    #[test]
    fn more_values_lie_farther_out() {
        for values in [1, 3, 12, 1000] {
            let z = farthest_of(values, 0.05);
            // The search ends within 1e-9 of z, where the share rises by less than 0.06 to the unit.
            assert!((within(z).powf(values as f64) - 0.95).abs() < 1e-7, "{values}: {z}");
        }
        assert!(farthest_of(12, 0.05) > farthest_of(3, 0.05) && farthest_of(0, 0.05) == farthest_of(1, 0.05));
    }
}
