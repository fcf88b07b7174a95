//! Source: 49 CFR 571.120 S5.1.2: the maximum load ratings of the tires on an axle together are not less
//! than its GAWR, and a passenger-car tire's rating is divided by 1.10 on a trailer. NHTSA letter 77-3.29
//! refused 95 %; letter nht76-1.47 repeats the division. All read in the source. Trailers up to 10 000 lb GVWR
//! have the same two rules in 571.110 S4.2.2 (section number from memory). The 2028 lb tire is from a trade
//! page, quoted; that it carries 2028 / 1.10 = 1843.636 lb on a trailer is derived.
//!
//! Tolerance: ratings, their quotients and sums are exact (1e-6 lb).

use crate::rigs::{POUND, assessed, most, rig, row, weight};
use approx::assert_abs_diff_eq;
use bunkline::Rig;
use bunkline::fit::{Cure, Verdict, examine};
use bunkline::quantity::Quantity;

fn axle(station: f64, rating: &str, tires: &str) -> String {
    format!(
        "station = \"{station} in\"\nrating = \"{rating}\"\ntires = {{ radius = \"14 in\", {tires} }}\nwheels = {{ rating = \"4000 lb\" }}"
    )
}

fn on(axles: &[String], policy: &str) -> String {
    let trailer = "weight = \"1000 lb\"\ncg = \"180 in\"\nsuspension = { kind = \"leaf-equalized\" }";
    rig(&weight(2000.0, 120.0), trailer, axles, policy)
}

#[test]
fn a_passenger_tire_carries_less_on_a_trailer() {
    for passenger in [
        "kind = \"passenger\", rating = \"2028 lb\"",
        // The letter before a size says the same.
        "size = \"P235/75R15\", rating = \"2028 lb\"",
    ] {
        let found = assessed(&on(&[axle(200.0, "3500 lb", passenger)], ""), &[]);
        assert_abs_diff_eq!(most(&found, "tire-1"), 2028.0 / 1.1, epsilon = 1e-6);
        // Both tires together.
        assert_abs_diff_eq!(most(&found, "axle-tires-1"), 2.0 * 2028.0 / 1.1, epsilon = 1e-6);
    }
}

#[test]
fn a_tire_bought_as_the_cure_says_holds() {
    // 2400 lb on each of two tires rated 2028 lb on the sidewall. A passenger tire must say 2640 lb.
    for (kind, sidewall) in [("passenger", 2640.0), ("trailer", 2400.0)] {
        // Boat 3800 lb at 180 in and trailer 1000 lb at 180 in, over an axle at 180 in: nothing on the
        // tongue.
        let tires = format!("kind = \"{kind}\", rating = \"2028 lb\"");
        let text = on(&[axle(180.0, "5000 lb", &tires)], "").replace("2000 lb", "3800 lb");
        let cures = |text: &str| {
            let found =
                examine(&Rig::read("case.toml", text, &[] as &[&str]).expect("a rig")).expect("a stance");
            let of = |id: &str| {
                let (_, cures) = found.cures.iter().find(|(i, _)| found.assessment.rows[*i].id() == id)?;
                cures.first().cloned()
            };
            (of("tire-1"), of("axle-tires-1"))
        };
        let (tire, together) = cures(&text);
        let Some(Cure::Tires { rating, at: None }) = tire else { panic!("no rating cures it: {tire:?}") };
        assert_abs_diff_eq!(rating.si() / POUND, sidewall, epsilon = 1e-6);
        // Each of two tires under an axle of 5000 lb.
        let Some(Cure::RatingOfEach(rating)) = together else { panic!("no rating cures it: {together:?}") };
        assert_abs_diff_eq!(rating.si() / POUND, 2500.0 * sidewall / 2400.0, epsilon = 1e-6);
        let better = text.replace("2028 lb", &format!("{} lb", 2500.0 * sidewall / 2400.0 + 0.001));
        assert_eq!(cures(&better), (None, None));
    }
}

#[test]
fn other_tires_carry_their_rating() {
    for tires in [
        "rating = \"2028 lb\"",
        "kind = \"trailer\", rating = \"2028 lb\"",
        "kind = \"light-truck\", rating = \"2028 lb\"",
        "size = \"ST225/75R15\", rating = \"2028 lb\"",
        "size = \"LT235/75R15\", rating = \"2028 lb\"",
    ] {
        let found = assessed(&on(&[axle(200.0, "3500 lb", tires)], ""), &[]);
        assert_abs_diff_eq!(most(&found, "tire-1"), 2028.0, epsilon = 1e-6);
    }
}

#[test]
fn tires_of_95_per_cent_of_the_axles_rating_were_refused() {
    // Two tires of 2850 lb make 5700 lb, 95 % of 6000 lb.
    let tires = |rating: &str| format!("rating = \"{rating}\"");
    let short = on(&[axle(200.0, "6000 lb", &tires("2850 lb"))], "");
    let found = assessed(&short, &[]);
    // The rule binds the trailer's maker, so to its owner it is advice unless the policy says otherwise.
    assert_eq!(row(&found, "axle-tires-1").verdict, Verdict::Advise);
    let found = assessed(&(short + "[policy]\ncounts = [\"axle-tires-*\"]\n"), &[]);
    assert_eq!(row(&found, "axle-tires-1").verdict, Verdict::Fail);
    // Exactly the rating is enough.
    let found = assessed(&on(&[axle(200.0, "6000 lb", &tires("3000 lb"))], ""), &[]);
    assert_eq!(row(&found, "axle-tires-1").verdict, Verdict::Thin);
    // Duals count four times.
    let found = assessed(&on(&[axle(200.0, "6000 lb", "count = 4, rating = \"1500 lb\"")], ""), &[]);
    assert_eq!(row(&found, "axle-tires-1").verdict, Verdict::Thin);
}

#[test]
fn a_weaker_wheel_limits_its_tire() {
    let axle = axle(200.0, "6000 lb", "rating = \"3420 lb\"").replace("4000 lb", "2900 lb");
    let found = assessed(&on(&[axle], ""), &[]);
    assert_abs_diff_eq!(most(&found, "axle-tires-1"), 5800.0, epsilon = 1e-6);
    assert_eq!(row(&found, "axle-tires-1").verdict, Verdict::Advise);
}

/// Common practice, no source: four tires of 2830 lb on two axles make 11 320 lb, six of 2540 lb on three
/// 15 240 lb.
#[test]
fn what_all_tires_carry_is_the_sum_over_the_axles() {
    for (rating, stations, together) in
        [("2830 lb", &[190.0, 224.0][..], 11_320.0), ("2540 lb", &[180.0, 214.0, 248.0], 15_240.0)]
    {
        let axles: Vec<String> = stations
            .iter()
            .map(|station| axle(*station, "5000 lb", &format!("rating = \"{rating}\"")))
            .collect();
        let found = assessed(&on(&axles, ""), &[]);
        let sum: f64 = (1..=axles.len()).map(|i| most(&found, &format!("axle-tires-{i}"))).sum();
        assert_abs_diff_eq!(sum, together, epsilon = 1e-6);
    }
}
