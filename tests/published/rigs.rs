//! Small rigs as text, and what a case reads off an assessment, in pounds and inches.

use bunkline::Rig;
use bunkline::fit::{Assessment, Row, assess};
use bunkline::quantity::Quantity;

/// Newtons in a pound: 0.453 592 37 kg under 9.806 65 m/s², both exact by definition.
pub const POUND: f64 = 0.453_592_37 * 9.806_65;
/// Metres in an inch, exact by definition.
pub const INCH: f64 = 0.0254;

/// A rig whose frame sits level with the ball at 20 in, its transom 300 in behind the ball, its keel 4 in
/// and its trailer's centre of gravity 1 in above the frame line.
pub fn rig(boat: &str, trailer: &str, axles: &[String], rest: &str) -> String {
    let axles: Vec<String> = axles.iter().map(|axle| format!("[[trailer.axles]]\n{axle}\n")).collect();
    let axles = axles.concat();
    format!(
        r#"
format = 1
{boat}
[trailer]
transom = "300 in"
keel_height = "24 in"
level_ball_height = "20 in"
cg_height = "21 in"
{trailer}
{axles}
{rest}
"#
    )
}

/// One weight aboard: pounds, inches forward of the transom, 26 in above the keel.
pub fn weight(pounds: f64, station: f64) -> String {
    format!(
        "[[boat.weights]]\nweight = \"{pounds} lb\"\nstation = \"{station} in\"\nheight = \"26 in\"\nside = \"0 in\"\n"
    )
}

/// An axle of 7000 lb, its hub 6 in below the ball.
pub fn axle(station: f64) -> String {
    format!("station = \"{station} in\"\nrating = \"7000 lb\"\ntires = {{ radius = \"14 in\" }}")
}

/// A rig file's assessment with changes made beside it.
pub fn assessed(text: &str, changes: &[&str]) -> Assessment {
    let rig = Rig::read("case.toml", text, changes).unwrap_or_else(|problems| panic!("{problems}\n{text}"));
    assess(&rig).unwrap_or_else(|unfit| panic!("{unfit}\n{text}"))
}

/// The row with this id.
pub fn row<'a>(found: &'a Assessment, id: &str) -> &'a Row {
    found.rows.iter().find(|row| row.id() == id).unwrap_or_else(|| panic!("no row {id}"))
}

/// A row's upper limit in pounds.
pub fn most(found: &Assessment, id: &str) -> f64 {
    row(found, id).max.unwrap_or_else(|| panic!("{id} has no upper limit")).si() / POUND
}

/// A row's load in pounds.
pub fn load(found: &Assessment, id: &str) -> f64 {
    row(found, id).load.unwrap_or_else(|| panic!("{id} has no load")).si() / POUND
}

/// Tongue weight of the first case in pounds.
pub fn tongue(found: &Assessment) -> f64 {
    found.cases[0].level.as_ref().expect("a trailer at rest").stance.tongue_weight.si() / POUND
}

/// How far behind the ball boat and trailer together have their centre of gravity, in inches.
pub fn centre(found: &Assessment) -> f64 {
    found.cases[0].body.as_ref().expect("a body").at.x.si() / INCH
}
