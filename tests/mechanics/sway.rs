//! Sway against its characteristic polynomial, its closed forms, and the rigs that were worked for it.

use bunkline::mechanics::sway::{Cornering, Towed, Towing, damping, modes};
use bunkline::quantity::{Length, Quantity, STANDARD_GRAVITY, Speed, Weight};
use nalgebra::Complex;

/// Figures of record have five digits.
const FIVE_DIGITS: f64 = 6e-6;

fn length(metres: f64) -> Length {
    Length::from_si(metres)
}

fn kilograms(mass: f64) -> Weight {
    Weight::from_si(mass * STANDARD_GRAVITY)
}

fn axle(distance: f64, kilonewtons: f64) -> Cornering {
    Cornering { distance: length(distance), stiffness: Weight::from_si(kilonewtons * 1000.0) }
}

fn trailer(mass: f64, inertia: f64, d: f64, axles: &[(f64, f64)]) -> Towed {
    Towed {
        weight: kilograms(mass),
        gyration: length((inertia / mass).sqrt()),
        station: length(d),
        axles: axles.iter().map(|(l, c)| axle(*l, *c)).collect(),
    }
}

/// One axle behind a car.
fn light(d: f64, rear: f64) -> (Towing, Towed) {
    let towing = Towing {
        weight: kilograms(1500.0),
        gyration: length((2500.0_f64 / 1500.0).sqrt()),
        front: axle(1.2, 80.0),
        rear: axle(1.5, rear),
        overhang: length(0.9),
    };
    (towing, trailer(1200.0, 2500.0, d, &[(4.0, 70.0)]))
}

/// Three axles behind a truck.
fn heavy(d: f64, inertia: f64) -> (Towing, Towed) {
    let towing = Towing {
        weight: kilograms(3500.0),
        gyration: length((8000.0_f64 / 3500.0).sqrt()),
        front: axle(1.75, 140.0),
        rear: axle(2.25, 150.0),
        overhang: length(1.27),
    };
    (towing, trailer(4700.0, inertia, d, &[(5.486, 90.0), (6.299, 90.0), (7.112, 90.0)]))
}

fn at((towing, towed): &(Towing, Towed), speed: f64) -> [Complex<f64>; 4] {
    modes(towing, towed, Speed::from_si(speed)).expect("it moves")
}

fn zeta((towing, towed): &(Towing, Towed), speed: f64) -> f64 {
    damping(towing, towed, Speed::from_si(speed)).expect("it swings")
}

/// The real part of the swing that dies away most slowly.
fn growth(rig: &(Towing, Towed), speed: f64) -> f64 {
    at(rig, speed).into_iter().filter(|mode| mode.im != 0.0).map(|mode| mode.re).fold(f64::MIN, f64::max)
}

#[test]
fn one_axle_behind_a_car() {
    let rig = light(3.8, 90.0);
    let found = at(&rig, 27.78);
    for (re, im) in [(-0.25923, 3.46576), (-4.31526, 1.95658)] {
        for im in [im, -im] {
            let near = found.iter().any(|mode| (mode - Complex::new(re, im)).norm() < 2.0 * FIVE_DIGITS);
            assert!(near, "{re} {im}: {found:?}");
        }
    }
    assert!((zeta(&rig, 27.78) - 0.0746).abs() < 6e-5);
    assert!((zeta(&rig, 20.0) - 0.2142).abs() < 6e-5);
    assert!(growth(&rig, 34.352) < 0.0 && growth(&rig, 34.354) > 0.0);
    for (d, speed) in [(3.95, 27.898), (4.0, 26.514), (4.05, 25.339)] {
        let rig = light(d, 90.0);
        assert!(growth(&rig, speed - 0.001) < 0.0 && growth(&rig, speed + 0.001) > 0.0, "{d}");
    }
}

/// Π (λ − λ_i), its coefficients from the sums of the eigenvalues' products.
#[test]
fn the_characteristic_polynomial() {
    let mut polynomial = vec![Complex::new(1.0, 0.0)];
    for mode in at(&light(3.8, 90.0), 27.78) {
        let shifted = polynomial.iter().map(|c| -mode * c);
        let mut next: Vec<Complex<f64>> = polynomial.clone();
        next.push(Complex::new(0.0, 0.0));
        for (place, c) in shifted.enumerate() {
            next[place + 1] += c;
        }
        polynomial = next;
    }
    // Each figure is rounded in its last digit.
    let figures = [(1.0, 1e-9), (9.14898, 6e-6), (39.0029, 6e-5), (115.885, 6e-4), (271.163, 6e-4)];
    for (found, (figure, digit)) in polynomial.iter().zip(figures) {
        assert!(found.im.abs() < 1e-9 && (found.re - figure).abs() < digit, "{found} {figure}");
    }
}

/// With the tow vehicle's rear axle too soft a real eigenvalue crosses zero at U² = −ℓ_t/K, K = F_f/Cf − F_r/Cr.
#[test]
fn a_real_mode_crosses_zero_where_the_tow_vehicle_oversteers() {
    let (m1, m2, a, b, o, l, d) = (1500.0, 1200.0, 1.2, 1.5, 0.9, 4.0, 3.6);
    let (wheelbase, share): (f64, f64) = (a + b, 1.0 - d / l);
    let front = (m1 * b - share * m2 * o) / wheelbase;
    let rear = m1 * a / wheelbase + share * m2 * (1.0 + o / wheelbase);
    let k = front / 80e3 - rear / 60e3;
    let crossing = (-wheelbase / k).sqrt();
    assert!((k + 0.003_861_1).abs() < 6e-8 && (crossing - 26.444).abs() < 6e-4, "{k} {crossing}");
    let rig = light(3.6, 60.0);
    let real = |speed| {
        let real = at(&rig, speed).into_iter().filter(|mode| mode.im == 0.0);
        real.map(|mode| mode.re).fold(f64::MIN, f64::max)
    };
    assert!(real(crossing - 0.001) < 0.0 && real(crossing + 0.001) > 0.0);
}

#[test]
fn three_axles_behind_a_truck() {
    for (d, inertia, speed, figure) in [
        (5.745, 22748.0, 29.06, 0.2470),
        (5.86, 22748.0, 29.06, 0.151),
        (5.97, 22748.0, 29.06, 0.068),
        (5.86, 31772.0, 29.06, 0.008),
    ] {
        // As many digits as the figure has.
        let digit = if figure == 0.2470 { 6e-5 } else { 6e-4 };
        let found = zeta(&heavy(d, inertia), speed);
        assert!((found - figure).abs() < digit, "{d}: {found}");
    }
    let rig = heavy(5.97, 31772.0);
    assert!(growth(&rig, 25.64) < 0.0 && growth(&rig, 25.66) > 0.0);
}

/// The ball held: `ω_n² = Σ C l / I_h`, `ζ = Σ C l² / (2 U √(I_h Σ C l))`, `I_h = I2 + m2 d²`. A tow vehicle of a million
/// times the mass holds it, to six digits or so.
#[test]
fn a_ball_that_is_held() {
    let (mut towing, towed) = heavy(5.745, 22748.0);
    towing.weight *= 1e7;
    let speed = 25.0;
    let held = 22748.0 + 4700.0 * 5.745_f64.powi(2);
    let arms = [5.486, 6.299, 7.112];
    let stiffness: f64 = arms.iter().map(|l| 90e3 * l).sum();
    let squares: f64 = arms.iter().map(|l| 90e3 * l * l).sum();
    let (natural, ratio) = ((stiffness / held).sqrt(), squares / (2.0 * speed * (held * stiffness).sqrt()));
    assert!((natural - 3.0922).abs() < 6e-5 && (ratio - 0.39388).abs() < FIVE_DIGITS, "{natural} {ratio}");
    let found = at(&(towing, towed), speed);
    let pair = found.into_iter().find(|mode| (mode.norm() - natural).abs() < 1e-4 && mode.im != 0.0);
    let pair = pair.expect("it swings as held");
    assert!((-pair.re / pair.norm() - ratio).abs() < 1e-4, "{pair}");
}
