//! Sway: how a trailer that swings behind its tow vehicle comes to rest, single-track, at a constant speed.
//!
//! No driver, no friction at the hitch, no drag and no lag of the tires, on a level road, at small angles. So what comes
//! out is no verdict: it serves to compare one rig with itself a little changed.
//!
//! | symbol | meaning |
//! |---|---|
//! | `m1, I1`, `m2, I2` | mass and yaw inertia of tow vehicle and trailer; `I = m k²` |
//! | `a, b, o` | from the tow vehicle's centre of gravity to its front and its rear axle; from the rear axle to the ball |
//! | `e = b + o` | from its centre of gravity to the ball |
//! | `d, l_i` | from the ball to the trailer's centre of gravity and to each of its axles |
//! | `Cf, Cr, C_i` | cornering stiffness of each axle, both sides |
//! | `v, r, ω, γ` | side speed and yaw rate of the tow vehicle, articulation rate, articulation |
//! | `U` | speed |
//!
//! Source: derived (Newton's law for two bodies joined at a ball, tires linear in their slip angle).

use crate::quantity::{Length, Quantity, STANDARD_GRAVITY, Speed, Weight};
use nalgebra::{Complex, Matrix3, Matrix4, Schur, Vector3};

/// An axle as it holds a vehicle sideways.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cornering {
    /// Its distance: on the tow vehicle from its centre of gravity, on the trailer behind the ball.
    pub distance: Length,
    /// The side force of both sides a radian of slip.
    pub stiffness: Weight,
}

/// A tow vehicle as it steers straight ahead.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Towing {
    /// What it weighs.
    pub weight: Weight,
    /// Its radius of gyration in yaw.
    pub gyration: Length,
    /// Its front axle, ahead of its centre of gravity.
    pub front: Cornering,
    /// Its rear axle, behind it.
    pub rear: Cornering,
    /// From the rear axle to the ball.
    pub overhang: Length,
}

/// A trailer as it follows.
#[derive(Debug, Clone, PartialEq)]
pub struct Towed {
    /// What it weighs.
    pub weight: Weight,
    /// Its radius of gyration in yaw, about its centre of gravity.
    pub gyration: Length,
    /// Its centre of gravity behind the ball.
    pub station: Length,
    /// Its axles.
    pub axles: Vec<Cornering>,
}

/// Looks for eigenvalues end after so many steps; a dozen do.
const MOST_STEPS: usize = 1000;

/// The eigenvalues λ of the motion at a speed, in 1/s: it dies away as `exp(λ t)`. Four of them, in no order; `None` where
/// a mass or the speed is zero.
pub fn modes(towing: &Towing, towed: &Towed, speed: Speed) -> Option<[Complex<f64>; 4]> {
    let mass = |weight: Weight| weight.si() / STANDARD_GRAVITY;
    let (m1, m2) = (mass(towing.weight), mass(towed.weight));
    let (i1, i2) = (m1 * towing.gyration.si().powi(2), m2 * towed.gyration.si().powi(2));
    let (a, b, d) = (towing.front.distance.si(), towing.rear.distance.si(), towed.station.si());
    let (e, u) = (b + towing.overhang.si(), speed.si());
    let (n1, n2, n3) = (Vector3::x(), Vector3::y(), Vector3::z());

    // j = (1, −(e + d), −d): side speed of the trailer's centre of gravity
    let j = Vector3::new(1.0, -(e + d), -d);
    // M = m1 n1 n1ᵀ + I1 n2 n2ᵀ + I2 (n2 + n3)(n2 + n3)ᵀ + m2 j jᵀ
    let square = |vector: Vector3<f64>| vector * vector.transpose();
    let m: Matrix3<f64> = m1 * square(n1) + i1 * square(n2) + i2 * square(n2 + n3) + m2 * square(j);
    // h = m1 n1 + m2 j
    let h = m1 * n1 + m2 * j;

    // g_f = (1, a, 0), g_r = (1, −b, 0), g_i = (1, −(e + l_i), −l_i): side speed of each axle
    let of_trailer = towed.axles.iter().map(|axle| {
        let l = axle.distance.si();
        (axle.stiffness.si(), Vector3::new(1.0, -(e + l), -l))
    });
    let own = [
        (towing.front.stiffness.si(), Vector3::new(1.0, a, 0.0)),
        (towing.rear.stiffness.si(), Vector3::new(1.0, -b, 0.0)),
    ];
    let steering: Vector3<f64> = of_trailer.clone().map(|(c, g)| c * g).sum();
    let damping: Matrix3<f64> = own.into_iter().chain(of_trailer).map(|(c, g)| c * square(g)).sum();

    // M ṗ = −(U h n2ᵀ + (Cf g_f g_fᵀ + Cr g_r g_rᵀ + Σ C_i g_i g_iᵀ) / U) p + γ Σ C_i g_i, γ̇ = ω
    let inverse = m.try_inverse()?;
    let of_rates = -inverse * (u * h * n2.transpose() + damping / u);
    let of_angle = inverse * steering;
    let mut matrix = Matrix4::zeros();
    matrix.fixed_view_mut::<3, 3>(0, 0).copy_from(&of_rates);
    matrix.fixed_view_mut::<3, 1>(0, 3).copy_from(&of_angle);
    matrix[(3, 2)] = 1.0;
    if matrix.iter().any(|value| !value.is_finite()) {
        return None;
    }
    Some(Schur::try_new(matrix, f64::EPSILON, MOST_STEPS)?.complex_eigenvalues().into())
}

/// The share ζ of critical damping of the swing that dies away most slowly, negative where it grows; `None` where nothing
/// swings.
pub fn damping(towing: &Towing, towed: &Towed, speed: Speed) -> Option<f64> {
    // ζ = −Re λ / |λ| of the complex pair that has the least
    let swinging = modes(towing, towed, speed)?.into_iter().filter(|mode| mode.im.abs() > 1e-9 * mode.norm());
    swinging.map(|mode| -mode.re / mode.norm()).reduce(f64::min)
}
