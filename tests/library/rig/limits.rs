//! What is only a limit moves no load.

use super::inputs::{elements, rigs};
use bunkline::rig::Key;
use bunkline::rig::inputs::{INPUTS, TRAILER_AXLES_RATING, TRAILER_GVWR};
use bunkline::{Rig, fit};

/// Whether a key only limits something.
fn is_limit(path: &str) -> bool {
    let last = path.rsplit('.').next().unwrap_or_default();
    // Springs are as stiff as their own rating and their deflection at it say.
    let of_springs = matches!(last, "spring_rating" | "deflection_at_rating");
    (last.ends_with("rating") && !of_springs) || matches!(last, "gvwr" | "gcwr") || last.ends_with("gawr")
}

/// Checks whose loads follow from a rating: of an axle or a winch, from a GVWR or two, or from the torque at a winch's rating.
const GO_BY_RATINGS: [&str; 9] = [
    "axle-tires-*",
    "winch-strap-breaking",
    "safety-chains",
    "winch-battery",
    "surge-ratio",
    "launch-home",
    "coupling-d",
    "coupling-dc",
    "coupling-v",
];

#[test]
fn no_load_depends_on_what_is_only_a_limit() {
    let mut tried = 0;
    for (name, text) in rigs() {
        let rig = Rig::parse(&text).expect(&name);
        let Ok(before) = fit::assess(&rig) else { continue };
        for input in INPUTS.iter().filter(|input| is_limit(input.path)) {
            // A trailer known by its capacity weighs what its GVWR leaves.
            if input.path == TRAILER_GVWR.path() && rig.measured().trailer.capacity.is_some() {
                continue;
            }
            for at in elements(input.path, rig.proposed()) {
                let key = Key { path: input.path, at };
                let Some(value) = input.si(rig.proposed(), at) else { continue };
                let variable = rig.variable(&key.to_string()).expect("a quantity");
                let Ok(changed) = rig.changed(&variable, value * 1.3) else { continue };
                let after = fit::assess(&changed).expect("it rests");
                // V is asked for from a GVWR on: its row may come.
                let rows = before.rows.iter().filter_map(|row| Some((row, after.check(&row.id())?)));
                for (was, now) in rows.filter(|(row, _)| !GO_BY_RATINGS.contains(&row.check.id)) {
                    // Where the limit has moved another case may govern.
                    if was.case == now.case && was.ramp == now.ramp {
                        assert_eq!(was.load, now.load, "{name}: {key}: {}", was.check.id);
                    }
                }
                tried += 1;
            }
        }
    }
    assert!(tried > 100, "{tried}");
}

/// Loads of the axles over the ramp, by the rows that tell them.
fn ramp_loads(rig: &Rig) -> Vec<String> {
    let rows = fit::assess(rig).expect("it rests").rows;
    rows.iter().filter(|row| row.check.id == "ramp-axle-*").map(|row| format!("{:?}", row.load)).collect()
}

#[test]
fn springs_go_by_their_own_rating_and_only_in_its_silence_by_the_axles() {
    let text = include_str!("../../../demo-data/survey-launch-as-changed.toml");
    let rig = Rig::parse(text).expect("it reads");
    let before = ramp_loads(&rig);
    assert!(before.len() > 1);
    let with = |rig: &Rig, change: &str| ramp_loads(&rig.with(change).expect("it fits"));
    assert_eq!(with(&rig, "trailer.axles.1.rating=6000 lb"), before);
    assert_ne!(with(&rig, "trailer.axles.1.spring_rating=6000 lb"), before);
    assert_ne!(with(&rig, "trailer.suspension.deflection_at_rating=2 in"), before);

    // Without it the springs are as stiff as the axles' rating in the file says, whatever is proposed.
    let silent: String = text
        .lines()
        .filter(|line| !line.starts_with("spring_rating"))
        .map(|line| line.to_string() + "\n")
        .collect();
    assert_ne!(silent, text);
    let silent = Rig::parse(&silent).expect("it reads");
    assert_eq!(
        TRAILER_AXLES_RATING.get_of(silent.measured(), 0),
        TRAILER_AXLES_RATING.get_of(rig.measured(), 0)
    );
    assert_eq!(ramp_loads(&silent), before);
    assert_eq!(with(&silent, "trailer.axles.1.rating=6000 lb"), before);
    // A rating stated beside a file that lacks it is the missing part of the measurement.
    let bare = text.replacen("rating = \"5200 lb\"\nspring_rating = \"5200 lb\"\n", "", 1);
    let bare = Rig::parse(&bare).expect("it reads");
    assert_eq!(with(&bare, "trailer.axles.1.rating=5200 lb"), before);
}
