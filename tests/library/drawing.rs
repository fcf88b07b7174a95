//! What is drawn lies where the file says.

use bunkline::Rig;
use bunkline::fit::{Drawing, Role, Shape, View, assess};
use bunkline::quantity::Quantity;

/// The lines of a role in a side view, in inches behind the ball and above ground.
fn lines(text: &str, role: Role) -> Vec<Vec<[f64; 2]>> {
    let rig = Rig::parse(text).expect("it reads");
    let drawings = Drawing::of(View::Side, &rig, &assess(&rig).expect("it rests")).expect("it is drawn");
    let inches = |(x, z): &(_, _)| [*x, *z].map(|length: bunkline::quantity::Length| length.si() / 0.0254);
    let lines = drawings[0].shapes.iter().filter_map(|shape| match shape {
        Shape::Line(its, points) if *its == role => Some(points.iter().map(inches).collect()),
        _ => None,
    });
    lines.collect()
}

fn same(found: &[[f64; 2]], worked: &[[f64; 2]]) {
    let near = |(one, other): (&[f64; 2], &[f64; 2])| (0..2).all(|i| (one[i] - other[i]).abs() < 1e-9);
    assert!(
        found.len() == worked.len() && found.iter().zip(worked).all(near),
        "{found:?}, worked {worked:?}"
    );
}

/// A length that a proposal moves leads to where the part is drawn, and keeps what the file states.
#[test]
fn a_length_leads_to_what_is_drawn() {
    let text = include_str!("../../demo-data/survey-launch-as-changed.toml");
    let rig = Rig::parse(text).expect("it reads");
    let drawings = Drawing::of(View::Side, &rig, &assess(&rig).expect("it rests")).expect("it is drawn");
    let inches = |length: bunkline::quantity::Length| length.si() / 0.0254;
    let of = |key: &str| {
        let dimension = drawings[0].dimensions.iter().find(|dimension| dimension.key.to_string() == key);
        dimension.map(|found| [inches(found.stated), inches(found.drawn)]).expect("its length")
    };
    // The boat and its stop 13 in forward, the axles where they were.
    let post = &lines(text, Role::BowStop)[0];
    same(&[of("trailer.bow_stop")], &[[62.0, 49.0]]);
    assert!((post[0][0] - 49.0).abs() < 1e-9, "{post:?}");
    same(&[of("trailer.axles.1.station")], &[[216.0, 216.0]]);
}

/// The launch as found: bow stop at 62 in and bow eye at 274 by 33 in, so the transom lies at 336; keel 21 in above ground.
#[test]
fn a_hull_by_tape_is_drawn_through_its_bow_eye() {
    let text = include_str!("../../demo-data/survey-launch-as-found.toml");
    // Straight run 168 in, chine 16 in up at the transom.
    let hull = lines(text, Role::Hull);
    same(&hull[0], &[[336.0, 21.0], [168.0, 21.0]]);
    same(&hull[1], &[[336.0, 21.0], [336.0, 37.0]]);
    // 304 in long, so the stem stands 33 × (304 − 168) / (274 − 168) above the keel line.
    let stem = [32.0, 21.0 + 33.0 * 136.0 / 106.0];
    let guessed = lines(text, Role::Unknown);
    same(&guessed[0], &[[168.0, 21.0], stem]);
    same(&guessed[1], &[[336.0, 37.0], [168.0, 37.0], stem]);
    // Without its straight run it is a line as long as the boat.
    let short = text.replacen("straight_run = \"14 ft\"\n", "", 1);
    assert!(lines(&short, Role::Hull).is_empty());
    same(&lines(&short, Role::Unknown)[0], &[[336.0, 21.0], [32.0, 21.0]]);
}
