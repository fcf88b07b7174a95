//! Stated bounds against hand derivatives, hand-worked corners and shares of samples that are known exactly.
//!
//! Where the frame sits level as measured the statics are exact: an error of what was measured re-levels the frame with
//! it. Tolerances of 1e-6 relative are then the central difference's own rounding: 1e-9 of a load over a bound of at
//! least a hundredth of it, with room.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use bunkline::Rig;
use bunkline::fit::{self, Assessment, RigVerdict, Verdict};
use bunkline::rig::Key;
use bunkline::study::samples::{Rate, samples};
use bunkline::study::uncertainty::{self, Corner, Uncertainty};
use std::process::Command;

const POUND: f64 = 0.453_592_37 * 9.806_65;
const INCH: f64 = 0.0254;

/// One axle at 200 in; the transom at 60 + 200 = 260 in. Boat 2000 lb at 260 − 70 = 190 in; trailer 800 lb at 180 in.
/// M = 380 000 + 144 000 = 524 000 lb·in, W = 2800 lb, N = 2620 lb, V = 180 lb (6.43 %).
fn one_axle(more: &str) -> String {
    format!(
        r#"
        format = 1
        [boat]
        bow_eye = {{ station = "200 in", height = "30 in" }}
        [[boat.weights]]
        weight = "2000 lb"
        station = "70 in"
        height = "25 in"
        [trailer]
        weight = "800 lb"
        cg = "180 in"
        cg_height = "20 in"
        gvwr = "3000 lb"
        bow_stop = "60 in"
        keel_height = "18 in"
        level_ball_height = "18 in"
        track = "72 in"
        suspension = {{ kind = "leaf-separate" }}
        coupler = {{ rating = "3500 lb", tongue_rating = "350 lb" }}
        [[trailer.axles]]
        station = "200 in"
        rating = "3500 lb"
        tires = {{ size = "ST205/75R14", rating = "1760 lb" }}
        [tow]
        ball_height = "18 in"
        [policy]
        tongue_share = {{ min = "6 %", max = "12 %" }}
        {more}
        "#
    )
}

/// Three axles that share equally, at 220, 250 and 280 in, Σx = 750 in; otherwise as [`one_axle`] with 60 in more
/// between ball and boat: boat at 250 in, trailer at 240 in. M = 500 000 + 192 000 = 692 000 lb·in.
fn triple() -> String {
    let axles: String = [220, 250, 280]
        .map(|x| format!("[[trailer.axles]]\nstation = \"{x} in\"\nrating = \"2000 lb\"\ntires = {{ radius = \"13 in\", rating = \"1000 lb\" }}\n"))
        .concat();
    let text = one_axle("").replace("bow_stop = \"60 in\"", "bow_stop = \"120 in\"");
    let text = text.replace("cg = \"180 in\"", "cg = \"240 in\"").replace("leaf-separate", "leaf-equalized");
    let (before, rest) = text.split_once("[[trailer.axles]]").expect("an axle");
    let (_, after) = rest.split_once("[tow]").expect("a tow vehicle");
    format!("{before}{axles}[tow]{after}")
}

fn read(text: &str) -> Rig {
    Rig::read("rig.toml", text, &[] as &[&str]).unwrap_or_else(|problems| panic!("{problems}\n{text}"))
}

fn with_bounds(text: &str, bounds: &[(&str, &str)]) -> Rig {
    let mut text = text.to_string();
    for (value, bound) in bounds {
        assert_eq!(text.matches(value).count(), 1, "{value}");
        text = text.replace(value, &format!("{} ± {bound}\"", value.trim_end_matches('"')));
    }
    read(&text)
}

fn examined(rig: &Rig) -> (Assessment, Uncertainty) {
    let (assessment, uncertainty) = uncertainty::brief(rig).expect("a trailer at rest");
    (assessment, uncertainty.expect("inputs with bounds"))
}

fn corner<'a>(found: &'a (Assessment, Uncertainty), id: &str) -> &'a Corner {
    let row = place(&found.0, id);
    found.1.corners[row].as_ref().expect("the check was made")
}

fn place(found: &Assessment, id: &str) -> usize {
    found.rows.iter().position(|row| row.id() == id).expect("a row")
}

fn worst(found: &(Assessment, Uncertainty), id: &str) -> f64 {
    corner(found, id).margin.expect("a margin").si()
}

fn slope(found: &(Assessment, Uncertainty), id: &str, path: &str) -> f64 {
    let input = found.1.inputs.iter().position(|(key, _)| key.to_string() == path).expect("an input");
    corner(found, id).sensitivities[input]
}

#[test]
fn sensitivities_are_the_hand_derivatives() {
    let rig = with_bounds(&one_axle(""), &[("\"2000 lb\"", "40 lb"), ("\"70 in\"", "2 in")]);
    let found = examined(&rig);
    let (weight, station) = ("boat.weights.1.weight", "boat.weights.1.station");
    // Gross weight and rating: the margin falls one for one, wherever the weight is.
    assert_relative_eq!(slope(&found, "trailer-gvwr", weight), -1.0, max_relative = 1e-9);
    assert_eq!(slope(&found, "trailer-gvwr", station), 0.0);
    // N = Σ w x / x₁ with x = 260 − s: dN/dw = 190/200 = 0.95, dN/ds = −w/x₁ = −10 lb/in.
    assert_relative_eq!(slope(&found, "axle-1", weight), -0.95, max_relative = 1e-6);
    assert_relative_eq!(slope(&found, "axle-1", station), 10.0 * POUND / INCH, max_relative = 1e-6);
    // V = W − N: dV/dw = 1 − 0.95 = 0.05, dV/ds = +10 lb/in; the coupler's margin falls as V rises.
    assert_relative_eq!(slope(&found, "coupler-tongue", weight), -0.05, max_relative = 1e-6);
    assert_relative_eq!(slope(&found, "coupler-tongue", station), -10.0 * POUND / INCH, max_relative = 1e-6);
    // The floor of zero: the margin is V itself.
    assert_relative_eq!(slope(&found, "tongue-uplift", weight), 0.05, max_relative = 1e-6);
    // Two tires carry the axle alike.
    assert_relative_eq!(slope(&found, "tire-1", weight), -0.475, max_relative = 1e-6);
    // The share of 6.43 % is nearer to 6 %: its margin is V/W − 0.06, and per lb of the boat
    // (0.05 W − V)/W² = (140 − 180)/2800² = −5.102e-6. It is rational in w: over ±40 lb of 2800 the central
    // difference is off by (40/2800)² = 2e-4.
    assert_relative_eq!(
        slope(&found, "tongue-share", weight),
        -40.0 / (2800.0 * 2800.0) / POUND,
        max_relative = 3e-4
    );
    assert_relative_eq!(slope(&found, "tongue-share", station), 10.0 / 2800.0 / INCH, max_relative = 1e-6);
}

#[test]
fn axles_that_share_equally_have_the_hand_derivatives() {
    let rig = with_bounds(&triple(), &[("\"70 in\"", "2 in")]);
    let found = examined(&rig);
    // N = M/Σx: dN/ds = −2000/750 = −2.667 lb/in of each axle; V = W − 3 M/Σx: dV/ds = 8 lb/in.
    for axle in ["axle-1", "axle-2", "axle-3"] {
        let per_inch = slope(&found, axle, "boat.weights.1.station") * INCH / POUND;
        assert_relative_eq!(per_inch, 2000.0 / 750.0, max_relative = 1e-6);
    }
    assert_relative_eq!(
        slope(&found, "tongue-uplift", "boat.weights.1.station") * INCH / POUND,
        8.0,
        max_relative = 1e-6
    );
}

#[test]
fn worst_corners_are_the_hand_worked_ones() {
    let rig = with_bounds(
        &one_axle(""),
        &[("\"2000 lb\"", "40 lb"), ("\"70 in\"", "2 in"), ("\"800 lb\"", "10 lb")],
    );
    let found = examined(&rig);
    // 2800 + 40 + 10 of 3000.
    assert_relative_eq!(worst(&found, "trailer-gvwr"), 150.0 * POUND, max_relative = 1e-9);
    // Heavy and aft: (2040·192 + 810·180)/200 = 2687.4 of 3500.
    assert_relative_eq!(worst(&found, "axle-1"), (3500.0 - 2687.4) * POUND, max_relative = 1e-9);
    // Share least: aft. Boat at 192 in brings 1 − 192/200 = 4 %, less than the share: heavy. Trailer brings 10 %:
    // light. V = 2040·0.04 + 790·0.1 = 160.6 of 2830 = 5.6749 %, 0.3251 % under 6 %.
    assert_abs_diff_eq!(worst(&found, "tongue-share"), 160.6 / 2830.0 - 0.06, epsilon = 1e-9);
    assert_eq!(found.0.rows[0].verdict, Verdict::Unsure);
    // tow rating, receiver and more are not stated: the rig stays incomplete, which outranks unsure.
    assert_eq!(found.0.verdict, RigVerdict::Incomplete);
    // Parts of the share's uncertainty: the station 10/2800 · 2 = 7.143e-3; the trailer's weight
    // (0.1 W − V)/W² · 10 = 100/2800² · 10 = 1.276e-4; the boat's 40/2800² · 40 = 2.041e-4. Whole 7.4747e-3.
    let ranking = found.1.ranking();
    let paths: Vec<String> = ranking.iter().map(|(key, ..)| key.to_string()).collect();
    assert_eq!(paths, ["boat.weights.1.station", "boat.weights.1.weight", "trailer.weight"]);
    let shares: Vec<f64> = ranking.iter().map(|(.., share)| share.value).collect();
    for (share, hand) in shares.iter().zip([7.143e-3, 2.041e-4, 1.276e-4]) {
        // Four digits of hand work, and the second order of a rational function as above.
        assert_abs_diff_eq!(*share, hand / 7.4747e-3, epsilon = 2e-4);
    }
}

#[test]
fn a_share_in_the_middle_of_its_band_is_worse_both_ways() {
    // V = 180 + 72 = 252 lb, 9 % of 2800, with the boat 7.2 in farther forward (station 77.2 in): the middle of 6 to 12 %.
    let text = one_axle("").replace("\"70 in\"", "\"77.2 in ± 3 in\"");
    let found = examined(&read(&text));
    // ±3 in move the tongue by 30 lb either way: 3 % − 30/2800.
    assert_abs_diff_eq!(worst(&found, "tongue-share"), 0.03 - 30.0 / 2800.0, epsilon = 1e-9);
    assert_relative_eq!(
        slope(&found, "tongue-share", "boat.weights.1.station").abs(),
        10.0 / 2800.0 / INCH,
        max_relative = 1e-6
    );
}

#[test]
fn gear_that_may_lie_to_either_side_loads_the_tires_of_both() {
    // Two pieces of gear on the centreline, each ± 6 in: worst together to one side, y = 2·100·6/3000 = 0.4 in of the
    // whole; N = (524 000 + 200·190)/200 = 2810, on the track 72 in: 2810/2 + 3000·0.4/72 = 1405 + 16.667.
    let gear = "[[boat.weights]]\nweight = \"100 lb\"\nstation = \"70 in\"\nheight = \"25 in\"\nside = \"0 in ± 6 in\"\n";
    let (before, after) =
        one_axle("").split_once("[trailer]").map(|(a, b)| (a.to_string(), b.to_string())).unwrap();
    let found = examined(&read(&format!("{before}{gear}{gear}[trailer]{after}")));
    assert_relative_eq!(
        worst(&found, "tire-1"),
        (1760.0 - 1405.0 - 200.0 * 6.0 / 72.0) * POUND,
        max_relative = 1e-9
    );
    // One of them 1 in to port: the worst is still all to one side, now port: 16.667 + 100/72 (its own inch is in
    // its ± 6 in already: −1 ± 6 reaches −7).
    let ported = gear.replace("0 in ±", "-1 in ±");
    let found = examined(&read(&format!("{before}{ported}{gear}[trailer]{after}")));
    assert_relative_eq!(
        worst(&found, "tire-1"),
        (1760.0 - 1405.0 - 1300.0 / 72.0) * POUND,
        max_relative = 1e-9
    );
}

/// Where one input's ends mislead: what lies to port makes up for a list to starboard until there is more of it.
#[test]
fn a_list_that_may_change_sides_is_followed_to_both() {
    let gear = |weight: &str, side: &str| {
        format!(
            "[[boat.weights]]\nweight = \"{weight}\"\nstation = \"70 in\"\nheight = \"25 in\"\nside = \"{side}\"\n"
        )
    };
    let aboard = gear("400 lb", "40 in") + &gear("100 lb ± 100 lb", "-40 in").repeat(3);
    let text = one_axle("");
    let (before, after) = text.split_once("[trailer]").unwrap();
    let found = examined(&read(&format!("{before}{aboard}[trailer]{after}")));
    // As stated the list is 16 000 − 12 000 = 4000 lb·in to starboard and N = (524 000 + 700·190)/200 = 3285: the tire
    // carries 1642.5 + 4000/72 = 1698. One more 100 lb to port adds 47.5 and takes 55.6 off; but all three of them make
    // N = 3570 and a list of 8000 to port: 1785 + 8000/72 = 1896. With none of them N = 3000: 1500 + 16 000/72 = 1722.
    assert_relative_eq!(
        worst(&found, "tire-1"),
        (1760.0 - 1785.0 - 8000.0 / 72.0) * POUND,
        max_relative = 1e-9
    );
}

/// Two inputs that each move a share either way, the upper limit a little farther off than the lower one.
#[test]
fn either_end_of_a_band_has_its_own_corner() {
    let item = "[[boat.weights]]\nweight = \"1000 lb\"\nstation = \"77 in ± 3 in\"\nheight = \"25 in\"\n";
    let text = one_axle("");
    let (before, rest) = text.split_once("[[boat.weights]]").unwrap();
    let (_, after) = rest.split_once("[trailer]").unwrap();
    let found = examined(&read(&format!("{before}{item}{item}[trailer]{after}")));
    // V = 180 + 2000·7/200 = 250; both aft by 3 in: 220 of 2800, 1.857 % over 6 %. Both forward leave 2 %.
    assert_abs_diff_eq!(worst(&found, "tongue-share"), 220.0 / 2800.0 - 0.06, epsilon = 1e-9);
}

/// A bunk whose aft end is ± 10 in has the least room to sag 5 in short of where it is stated, not at either end. Each place
/// by reading the file with it.
#[test]
fn the_worst_may_lie_inside_a_bound() {
    let demo = include_str!("../../demo-data/survey-launch-as-changed.toml");
    let (before, ramp) = demo.split_once("[[ramps]]").expect("a ramp");
    let (_, after) = ramp.split_once("\n[").expect("a section");
    let level = format!("{before}[{after}");
    let mut pieces = level.split(" ± ");
    let mut text = pieces.next().expect("a piece").to_string();
    pieces.for_each(|piece| text.push_str(&piece[piece.find('"').expect("a value's end")..]));
    let with = |end: &str| read(&text.replace("aft_end = \"26 ft 11 in\"", &format!("aft_end = \"{end}\"")));
    let left = |aft: f64| {
        let found = fit::assess(&with(&format!("{} in", 323.0 + aft))).expect("at rest");
        found.check("bunk-deflection").expect("a row").margin.expect("a margin").si()
    };
    let [shortest, shorter, stated, longer, longest] = [-10.0, -5.0, 0.0, 5.0, 10.0].map(left);
    assert!([shortest, stated, longer, longest].iter().all(|left| shorter < *left), "{shorter}");
    let rig = with("26 ft 11 in ± 10 in");
    assert_eq!(rig.uncertain().len(), 1);
    assert_relative_eq!(worst(&examined(&rig), "bunk-deflection"), shorter, max_relative = 1e-12);
}

#[test]
fn without_a_track_a_side_that_may_be_off_leaves_the_tires_unsure() {
    let text = one_axle("").replace("track = \"72 in\"\n", "");
    let text = text.replace("height = \"25 in\"\n", "height = \"25 in\"\n        side = \"0 in ± 6 in\"\n");
    let found = examined(&read(&text));
    let tire = &found.0.rows[place(&found.0, "tire-1")];
    assert_eq!(tire.verdict, Verdict::Unsure);
    let corner = corner(&found, "tire-1");
    assert_eq!((corner.margin, &*corner.missing), (None, &[Key::new("trailer.track")][..]));
}

#[test]
fn a_rig_known_from_scales_is_as_sure_as_the_scales() {
    // No items: gross 2800 ± 40 lb and 180 ± 10 lb on the tongue.
    let text = one_axle("");
    let (before, rest) = text.split_once("[[boat.weights]]").unwrap();
    let (_, after) = rest.split_once("[trailer]").unwrap();
    let scales = "cg_height = \"25 in\"\n[measured]\ngross_trailer_weight = \"2800 lb ± 40 lb\"\ntongue_weight = \"180 lb ± 10 lb\"\n";
    let found = examined(&read(&format!("{before}{scales}[trailer]{after}")));
    let (gross, tongue) = ("measured.gross_trailer_weight", "measured.tongue_weight");
    assert_relative_eq!(slope(&found, "trailer-gvwr", gross), -1.0, max_relative = 1e-9);
    assert_abs_diff_eq!(slope(&found, "trailer-gvwr", tongue), 0.0, epsilon = 1e-9);
    // What the scales say of the tongue is what it carries; the axle carries the rest.
    assert_relative_eq!(slope(&found, "coupler-tongue", tongue), -1.0, max_relative = 1e-6);
    assert_abs_diff_eq!(slope(&found, "coupler-tongue", gross), 0.0, epsilon = 1e-6);
    assert_relative_eq!(slope(&found, "axle-1", gross), -1.0, max_relative = 1e-6);
    assert_relative_eq!(slope(&found, "axle-1", tongue), 1.0, max_relative = 1e-6);
    // 170/2840 = 5.986 %: 0.014 % under 6 %.
    assert_abs_diff_eq!(worst(&found, "tongue-share"), 170.0 / 2840.0 - 0.06, epsilon = 1e-9);
}

#[test]
fn bounds_of_zero_change_nothing() {
    let text = one_axle("").replace("\"70 in\"", "\"70 in ± 0 in\"");
    let (found, none) = uncertainty::examine(&read(&text)).unwrap();
    assert!(none.is_none());
    assert_eq!(found, bunkline::fit::examine(&read(&one_axle(""))).unwrap());
    assert!(samples(&read(&text), &found.assessment.rows, 100, 1).is_none());
    // Beside another input's bound it changes nothing either.
    let bounds = [("\"2000 lb\"", "40 lb")];
    let one = examined(&with_bounds(&one_axle(""), &bounds));
    let other = examined(&with_bounds(&one_axle("").replace("\"70 in\"", "\"70 in ± 0 in\""), &bounds));
    assert_eq!(one.0, other.0);
    let margins = |found: &(Assessment, Uncertainty)| {
        found
            .1
            .corners
            .iter()
            .map(|corner| corner.as_ref().and_then(|corner| corner.margin))
            .collect::<Vec<_>>()
    };
    assert_eq!(margins(&one), margins(&other));
}

#[test]
fn an_uncertain_shift_moves_the_boat() {
    let text = one_axle("[shift]\n        boat = \"1 in ± 2 in\"");
    let found = examined(&read(&text));
    // Aft by 3 in at most takes 30 lb off the tongue, less what the frame's pitch adds: nothing beside a single axle's
    // spring, some 1e-3 of it.
    assert_abs_diff_eq!(worst(&found, "tongue-uplift") / POUND, 150.0, epsilon = 0.5);
}

/// Which check the measurements are ranked for, and which fails whatever they say.
#[test]
fn measurements_are_ranked_for_a_check_that_they_can_decide() {
    let weight = ("\"2000 lb\"", "40 lb");
    let ranked = |text: &str, bounds: &[(&str, &str)]| {
        let found = examined(&with_bounds(text, bounds));
        let id = |row: Option<usize>| row.map(|row| found.0.rows[row].id());
        (id(found.1.governing), id(found.1.beyond_doubt))
    };
    let named = |governing: &str, beyond: &str| {
        let some = |id: &str| (!id.is_empty()).then(|| id.to_string());
        (some(governing), some(beyond))
    };
    let of_gvwr = |gvwr: &str| one_axle("").replace("gvwr = \"3000 lb\"", &format!("gvwr = \"{gvwr}\""));
    // Gross 2800 ± 40 lb. Over 2790 lb it may pass: 2760 lb leaves 30.
    let found = examined(&with_bounds(&of_gvwr("2790 lb"), &[weight]));
    assert_relative_eq!(corner(&found, "trailer-gvwr").best.si(), 30.0 * POUND, max_relative = 1e-9);
    assert_eq!(ranked(&of_gvwr("2790 lb"), &[weight]), named("trailer-gvwr", ""));
    // Over 2600 lb it fails by 160 lb at its best. Of the others, all of which hold, the tongue share has least left:
    // V = 182 lb of 2840 leave 0.41 % of the band's 6 %, a fifteenth; the coupler has 660 of 3500 lb left.
    let found = examined(&with_bounds(&of_gvwr("2600 lb"), &[weight]));
    assert_relative_eq!(corner(&found, "trailer-gvwr").best.si(), -160.0 * POUND, max_relative = 1e-9);
    assert_eq!(ranked(&of_gvwr("2600 lb"), &[weight]), named("tongue-share", "trailer-gvwr"));
    // With the boat's place in doubt by 9 in, N = 2620 ± 90 lb and V = 180 ± 90 lb: the share may be 3.2 % of gross or
    // 9.6 %, and the heavier tire may carry 1355 lb. With a rating of 1340 lb for it (2620 lb are 1310 on each) both
    // are unsure; the share lacks more of its band than the tire of its rating.
    let tires = of_gvwr("2600 lb").replace("1760 lb", "1340 lb");
    let found = examined(&with_bounds(&tires, &[weight, ("\"70 in\"", "9 in")]));
    assert_eq!(found.0.rows[place(&found.0, "tire-1")].verdict, Verdict::Unsure);
    let both = ranked(&tires, &[weight, ("\"70 in\"", "9 in")]);
    // The share lacks 2.8 % of a band of 6 %, about half: more than the gross lacks of its 2600 lb, and it may hold.
    assert_eq!(both, named("tongue-share", ""));
    // Over 1500 lb the gross lacks 1340 of 1500 lb, and is beyond doubt.
    let heavy = tires.replace("2600 lb", "1500 lb");
    assert_eq!(ranked(&heavy, &[weight, ("\"70 in\"", "9 in")]), named("tongue-share", "trailer-gvwr"));
    // Where nothing else counts nothing is ranked.
    let alone =
        of_gvwr("2600 lb").replace("[policy]", "[policy]\nadvises = [\"*\"]\ncounts = [\"trailer-gvwr\"]");
    assert_eq!(ranked(&alone, &[weight]), named("", "trailer-gvwr"));
}

#[test]
fn a_check_that_only_advises_stays_and_its_corner_is_told() {
    let advises = one_axle("advises = [\"tongue-share\"]");
    let found = examined(&with_bounds(&advises, &[("\"70 in\"", "2 in")]));
    assert_eq!(found.0.rows[0].verdict, Verdict::Advise);
    assert!(worst(&found, "tongue-share") < 0.0);
}

#[test]
fn a_corner_that_contradicts_itself_is_counted() {
    // The axle may stand ahead of the jack, which no rig can have: it is drawn back to stand beside it.
    let text =
        one_axle("").replace("[tow]", "[trailer.jack]\nstation = \"195 in\"\nrating = \"900 lb\"\n[tow]");
    let text =
        text.replace("station = \"200 in\"\n        rating", "station = \"200 in ± 8 in\"\n        rating");
    let found = examined(&read(&text));
    assert_eq!(found.1.contradictions, 1);
    // At 195 in: N = 524 000/195 = 2687.18 of 3500. The axle stops 1e-9 of its 8 in short of the jack, 4e-11 of N.
    assert_relative_eq!(worst(&found, "axle-1"), (3500.0 - 524_000.0 / 195.0) * POUND, max_relative = 1e-9);
    // The axle aft: N = 524 000/208 = 2519.23, V = 2800 − 2519.23 = 280.77 of the coupler's 350.
    assert_relative_eq!(
        worst(&found, "coupler-tongue"),
        (350.0 - 280.769_230_8) * POUND,
        max_relative = 1e-9
    );
    let rows = &found.0.rows;
    let drawn = samples(&read(&text), rows, 400, 1).unwrap();
    // Ahead of the jack lies 3 of 16 in, 75 of 400 samples; four standard errors, √(400 · 0.1875 · 0.8125) = 7.8.
    assert_abs_diff_eq!(drawn.contradictions as f64, 75.0, epsilon = 31.2);
    assert_eq!(drawn.contradictions + drawn.rig.of, 400);
}

#[test]
fn where_a_trailer_may_not_rest_on_its_wheels_no_load_is_sure() {
    // With the boat 380 in farther forward than stated its centre lies 190 in ahead of the ball: M < 0.
    let rig = with_bounds(&one_axle(""), &[("\"70 in\"", "380 in")]);
    let found = examined(&rig);
    assert!(found.1.unfit.is_some());
    let verdict = |id: &str| found.0.rows[place(&found.0, id)].verdict;
    assert_eq!(verdict("axle-1"), Verdict::Unsure);
    assert_eq!(verdict("tongue-uplift"), Verdict::Unsure);
    assert!(samples(&rig, &found.0.rows, 200, 1).unwrap().unfit > 0);
}

/// A margin that is linear in one uniform input fails in a share that is known exactly.
#[test]
fn samples_fail_as_often_as_they_must() {
    // Gross 2800 ± 400 lb against 3000 lb: over when the boat is over by more than 200 of 400, a quarter of the bound's
    // two sides: p = (400 − 200)/800 = 0.25.
    let rig = with_bounds(&one_axle(""), &[("\"2000 lb\"", "400 lb")]);
    let rows = bunkline::fit::assess(&rig).unwrap().rows;
    let gvwr = rows.iter().position(|row| row.id() == "trailer-gvwr").unwrap();
    let count = 20_000;
    let drawn = samples(&rig, &rows, count, 7).unwrap();
    let rate = drawn.rows[gvwr].unwrap();
    assert_eq!(rate.of, count);
    // Four standard errors of the true share, √(0.25 · 0.75/20 000) = 0.00306: once in 16 000 seeds it is farther off.
    assert_abs_diff_eq!(rate.share().unwrap(), 0.25, epsilon = 4.0 * 0.00306);
    let error = rate.standard_error().unwrap();
    assert_abs_diff_eq!(error, 0.00306, epsilon = 0.0001);
    // The coupler's 3500 lb are never reached.
    let coupler = rows.iter().position(|row| row.id() == "coupler").unwrap();
    let never = drawn.rows[coupler].unwrap();
    assert_eq!(
        (never.share(), never.standard_error(), never.within()),
        (Some(0.0), None, Some(3.0 / 20_000.0))
    );
    // V = 180 + 0.05 d, W = 2800 + d: the share is under 6 % where 180 + 0.05 d < 168 + 0.06 d, so d > 1200: never. With
    // nothing else in doubt the rig fails as often as its gross weight does.
    assert_eq!(drawn.rig, rate);
}

/// Two uniform inputs: the share is an area of the square that they fill.
#[test]
fn two_inputs_fail_together_as_often_as_they_must() {
    // Over 3000 lb where both errors, each ± 400 lb, sum to more than 200 lb: a triangle with legs of
    // 400 + 400 − 200 = 600 lb in a square of 800 lb, p = 600²/2 / 800² = 0.28125.
    let rig = with_bounds(&one_axle(""), &[("\"2000 lb\"", "400 lb"), ("\"800 lb\"", "400 lb")]);
    let rows = bunkline::fit::assess(&rig).unwrap().rows;
    let gvwr = rows.iter().position(|row| row.id() == "trailer-gvwr").unwrap();
    let rate = |count, seed| samples(&rig, &rows, count, seed).unwrap().rows[gvwr].unwrap();
    // Four standard errors, √(0.28125 · 0.71875/20 000) = 0.00318.
    assert_abs_diff_eq!(rate(20_000, 7).share().unwrap(), 0.28125, epsilon = 4.0 * 0.00318);
    // The standard error is by how much shares differ from seed to seed: √(0.28125 · 0.71875/100) = 0.0450. That of
    // 400 seeds is found to 1/√(2 · 400) = 3.5 % of itself; four of these, 14 %.
    let shares: Vec<f64> = (0..400).map(|seed| rate(100, seed).share().unwrap()).collect();
    let mean = shares.iter().sum::<f64>() / 400.0;
    let spread = (shares.iter().map(|share| (share - mean).powi(2)).sum::<f64>() / 399.0).sqrt();
    assert_abs_diff_eq!(spread, 0.0450, epsilon = 0.14 * 0.0450);
    // What one seed reports of itself goes by its own share, which is off by a standard error or two.
    assert_abs_diff_eq!(rate(100, 7).standard_error().unwrap(), spread, epsilon = 0.25 * spread);
}

#[test]
fn what_only_advises_fails_no_sample_of_the_rig() {
    let text = one_axle("").replacen("[policy]", "[policy]\nadvises = [\"trailer-gvwr\"]", 1);
    let rig = with_bounds(&text, &[("\"2000 lb\"", "400 lb")]);
    let rows = bunkline::fit::assess(&rig).unwrap().rows;
    let gvwr = rows.iter().position(|row| row.id() == "trailer-gvwr").unwrap();
    let drawn = samples(&rig, &rows, 400, 7).unwrap();
    // A quarter of them, as above; four standard errors are 0.09.
    assert_abs_diff_eq!(drawn.rows[gvwr].unwrap().share().unwrap(), 0.25, epsilon = 0.09);
    assert_eq!((drawn.rig.fails, drawn.rig.of), (0, 400));
}

#[test]
fn samples_do_not_depend_on_the_number_of_threads() {
    let rig = with_bounds(&one_axle(""), &[("\"2000 lb\"", "300 lb"), ("\"70 in\"", "2 in")]);
    let rows = bunkline::fit::assess(&rig).unwrap().rows;
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("a pool");
        pool.install(|| (samples(&rig, &rows, 5000, 3), uncertainty::examine(&rig).unwrap()))
    };
    assert_eq!(on(1), on(2));
    assert_eq!(on(1), on(5));
    assert_ne!(samples(&rig, &rows, 5000, 3), samples(&rig, &rows, 5000, 4));
    // More samples begin with the same ones.
    let (few, many) = (samples(&rig, &rows, 1000, 3).unwrap(), samples(&rig, &rows, 1001, 3).unwrap());
    assert!(many.rig.fails - few.rig.fails <= 1);
}

#[test]
fn a_rate_of_none_or_all_has_the_rule_of_three() {
    assert_eq!(Rate { fails: 0, of: 300 }.within(), Some(0.01));
    assert_eq!(Rate { fails: 300, of: 300 }.within(), Some(0.01));
    assert_eq!(Rate { fails: 1, of: 300 }.within(), None);
    assert_eq!(Rate { fails: 0, of: 2 }.within(), Some(1.0));
    assert_eq!(Rate { fails: 0, of: 0 }.share(), None);
    // √(0.5 · 0.5/100) = 0.05.
    assert_eq!(Rate { fails: 50, of: 100 }.standard_error(), Some(0.05));
}

#[test]
fn rows_about_ramps_have_corners_and_are_sampled_when_they_count() {
    let text = include_str!("../../demo-data/survey-launch-as-changed.toml");
    let rig = read(text);
    let found = examined(&rig);
    let ramp = corner(&found, "ramp-axle-1");
    let stated = found.0.rows[place(&found.0, "ramp-axle-1")].margin.unwrap().si();
    assert!(ramp.margin.unwrap().si() < stated);
    let rows = &found.0.rows;
    let looked_at =
        |rig: &Rig| samples(rig, rows, 1, 1).unwrap().rows[place(&found.0, "ramp-axle-1")].is_some();
    // They can fail.
    assert!(looked_at(&rig));
    let advising = read(&text.replace("[policy]", "[policy]\nadvises = [\"ramp-axle-*\"]"));
    let rows = bunkline::fit::assess(&advising).unwrap().rows;
    let drawn = samples(&advising, &rows, 2, 1).unwrap();
    assert!(drawn.rows[place(&found.0, "ramp-axle-1")].is_none());
    assert!(drawn.rows[place(&found.0, "ramp-tire-1")].is_some());
}

fn bunkline(arguments: &[&str]) -> (String, String, Option<i32>) {
    let output = Command::new(env!("CARGO_BIN_EXE_bunkline"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(arguments)
        .output()
        .expect("the program runs");
    let text = |bytes| String::from_utf8(bytes).expect("it prints UTF-8");
    (text(output.stdout), text(output.stderr), output.status.code())
}

const CRAB_BOAT: &str = "demo-data/crab-boat.toml";

/// A text without its line ends and indents.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn text_json_and_exit_code_agree_on_unsure() {
    let (text, _, code) = bunkline(&["check", CRAB_BOAT]);
    assert!(text.starts_with("UNSURE  "), "{text}");
    assert_eq!(code, Some(3));
    assert_eq!(bunkline(&["check", CRAB_BOAT, "--allow-incomplete"]).2, Some(0));
    let (document, _, code) = bunkline(&["check", CRAB_BOAT, "--format", "json"]);
    let document: serde_json::Value = serde_json::from_str(&document).expect("JSON");
    assert_eq!((&document["verdict"], code), (&"unsure".into(), Some(3)));
    let check = &document["checks"][0];
    assert_eq!((&check["id"], &check["verdict"]), (&"tongue-share".into(), &"unsure".into()));
    assert!(check["margin"].as_f64() > Some(0.0) && check["corner"]["margin"].as_f64() < Some(0.0));
    let uncertainty = &document["uncertainty"];
    assert_eq!(uncertainty["check"], "tongue-share");
    assert!(uncertainty["samples"].is_null());
    let inputs = uncertainty["inputs"].as_array().expect("a list");
    let whole: f64 = inputs.iter().filter_map(|input| input["share"].as_f64()).sum();
    assert_abs_diff_eq!(whole, 1.0, epsilon = 1e-9);
    let hull =
        inputs.iter().find(|input| input["key"] == "boat.weights.1.station").expect("the hull's place");
    assert_eq!(hull["unit"], "in");
    assert_abs_diff_eq!(hull["bound"].as_f64().unwrap(), 3.0, epsilon = 1e-9);
    // A graver verdict beside it wins.
    let over = bunkline(&["check", CRAB_BOAT, "--full", "--set", "trailer.gvwr=5000 lb"]);
    assert!(over.0.starts_with("FAIL  ") && over.0.contains("1 check is unsure"), "{}", over.0);
    assert_eq!(over.2, Some(1));
    let flat = flat(&over.0);
    assert!(flat.contains("No closer measurement changes the verdict on the trailer GVWR"), "{flat}");
    assert!(flat.contains("A closer measurement can decide the tongue share"), "{flat}");
    // Surely known, it passes.
    let known = [
        "boat.weights.1.station=98 in ± 0 in",
        "boat.weights.1.weight=3300 lb ± 0 lb",
        "boat.weights.3.weight=260 lb ± 0 lb",
    ];
    let sets = known.iter().flat_map(|set| ["--set", set]);
    let (text, _, code) = bunkline(&["check", CRAB_BOAT].into_iter().chain(sets).collect::<Vec<_>>());
    assert!(text.starts_with("PASS  "), "{text}");
    assert_eq!(code, Some(0));
}

#[test]
fn samples_are_told_in_words_and_numbers() {
    let asked = ["check", CRAB_BOAT, "--samples", "3000", "--seed", "9"];
    let (text, _, code) = bunkline(&asked);
    assert_eq!(code, Some(3));
    assert!(text.contains("3000 samples, seed 9"), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    let (document, ..) = bunkline(&[&asked[..], &["--format", "json"]].concat());
    let document: serde_json::Value = serde_json::from_str(&document).expect("JSON");
    let drawn = &document["uncertainty"]["samples"];
    assert_eq!((&drawn["count"], &drawn["seed"]), (&3000.into(), &9.into()));
    let share = document["checks"][0]["fails_in"]["share"].as_f64().expect("a share");
    assert!(share > 0.0 && share < 1.0);
    let error = document["checks"][0]["fails_in"]["standard_error"].as_f64().expect("an error");
    assert_abs_diff_eq!(error, (share * (1.0 - share) / 3000.0).sqrt(), epsilon = 1e-12);
}

#[test]
fn what_cannot_be_sampled_is_told() {
    for (count, said) in [
        ("0", "found 0"),
        ("1000000000000", "found 1000000000000"),
        ("many", "expected a whole number of samples"),
        ("-5", "'-5'"),
    ] {
        let (out, err, code) = bunkline(&["check", CRAB_BOAT, &format!("--samples={count}")]);
        assert_eq!((out.as_str(), code), ("", Some(2)), "{count}");
        assert!(err.contains(said), "{err}");
    }
    assert_eq!(bunkline(&["check", CRAB_BOAT, "--seed", "3"]).2, Some(2));
    let skiff = "demo-data/fishing-skiff.toml";
    let (out, err, code) = bunkline(&["check", skiff, "--samples", "100"]);
    assert_eq!((out, code), (bunkline(&["check", skiff]).0, Some(0)));
    assert!(err.contains("no input has a bound"), "{err}");
}

#[test]
fn a_trailer_that_may_not_rest_is_told() {
    let far = ["check", CRAB_BOAT, "--full", "--set", "boat.weights.1.station=98 in ± 400 in"];
    let (text, _, code) = bunkline(&far);
    assert_eq!(code, Some(3));
    assert!(
        flat(&text).contains(
            "coupler: a margin of 1344 lb as stated, not known where the trailer does not rest on its wheels"
        ),
        "{text}"
    );
    assert!(flat(&text).contains("nothing that depends on the loads is sure"), "{text}");
    let (document, ..) = bunkline(&[&far[..], &["--format", "json", "--samples", "500"]].concat());
    let document: serde_json::Value = serde_json::from_str(&document).expect("JSON");
    assert!(document["uncertainty"]["unfit"].is_string());
    assert!(document["uncertainty"]["samples"]["unfit"].as_u64() > Some(0));
}
