//! A trailer on its jack, against the balance of its forces with the coupler's height as what is given.

use bunkline::mechanics::road::jack::jacked;
use bunkline::mechanics::road::settle::MeasuredAxle;
use bunkline::mechanics::{Body, FramePoint, Spring, Undercarriage};
use bunkline::quantity::{Length, Quantity, Rate, Weight};
use proptest::prelude::*;

const RADIUS: f64 = 0.34;
const LEVEL: f64 = 0.5;

fn metres(number: f64) -> Length {
    Length::from_si(number)
}

fn body(weight: f64, x: f64, z: f64) -> Body {
    let at = FramePoint { x: metres(x), z: metres(z), ..FramePoint::default() };
    Body { weight: Weight::from_si(weight), at }
}

/// Axles of one rate, each for itself, their tires as good as rigid, the frame level under this body.
fn wheels(body: Body, stations: &[f64], rate: f64) -> Undercarriage {
    let spring = Spring::new(Rate::from_si(rate), Rate::from_si(rate * 1e9), metres(5.0));
    let axles =
        stations.iter().map(|x| MeasuredAxle { station: metres(*x), wheel_radius: metres(RADIUS), spring });
    Undercarriage::level_under(body, &axles.collect(), metres(0.0), metres(LEVEL)).expect("it rests on them")
}

/// What the jack carries: moments about the coupler, halved to the pitch at which they vanish.
fn by_moments(body: Body, stations: &[f64], rate: f64, jack: f64, coupler: f64) -> f64 {
    let (w, xc, zc) = (body.weight.si(), body.at.x.si(), body.at.z.si());
    // Alike, they are pressed by W xc / k Σx with the frame level.
    let pressed = w * xc / (rate * stations.iter().sum::<f64>());
    let free = LEVEL - RADIUS + pressed;
    let at = |pitch: f64| {
        let (sin, cos) = pitch.sin_cos();
        let (mut moment, mut carried) = (0.0, 0.0);
        for x in stations {
            let down = (coupler - x * sin - RADIUS) / cos;
            let force = rate * (free - down).max(0.0);
            moment += force * (x - down * sin / cos);
            carried += force / cos;
        }
        let jack_load = w - carried;
        (moment + jack_load * jack * cos - w * (xc * cos + zc * sin), jack_load)
    };
    // It grows with the pitch: the nose is up where the springs aft press more.
    let (mut low, mut high) = (-0.2, 0.2);
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        *(if at(middle).0 < 0.0 { &mut low } else { &mut high }) = middle;
    }
    at(low).1
}

proptest! {
    #[test]
    fn a_jack_carries_what_moments_about_the_coupler_say(
        weight in 5e3..6e4,
        centre in 4.6..5.0,
        height in 0.0..0.8,
        apart in 0.7..1.2,
        rate in 1e5..8e5,
        jack in 0.0..1.5,
        raised in 0.0..0.15,
    ) {
        let body = body(weight, centre, height);
        let stations = [5.2, 5.2 + apart];
        let wheels = wheels(body, &stations, rate);
        let coupler = LEVEL + raised;
        let found = jacked(body, &wheels, metres(jack), metres(coupler)).expect("it rests").si();
        let by_moments = by_moments(body, &stations, rate, jack, coupler);
        // Tires a billion times as stiff as springs leave a billionth of the load, the search for the height less.
        prop_assert!((found - by_moments).abs() <= 1e-6 * weight, "{found}, by moments {by_moments}");
    }
}

#[test]
fn a_jack_at_level_height_is_a_lever_on_one_axle() {
    // V x / (x − x_j), with V = W (1 − xc/x); on springs so stiff that the frame stays level.
    let body = body(2e4, 4.8, 0.4);
    let wheels = wheels(body, &[5.2], 4e9);
    let found = jacked(body, &wheels, metres(0.7), metres(LEVEL)).expect("it rests").si();
    let lever = 2e4 * (1.0 - 4.8 / 5.2) * 5.2 / 4.5;
    assert!((found - lever).abs() < 1e-6 * lever, "{found} {lever}");
}
