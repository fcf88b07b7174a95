//! Random rigs, sketched in numbers and written as rig files.
//!
//! Lengths are in eighths of an inch and weights in pounds, so that a file in millimetres and kilograms can
//! say exactly the same.

use proptest::prelude::*;
use std::fmt::Write;

/// In which units a file's texts are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Texts {
    Us,
    Metric,
}

/// A rig in numbers.
#[derive(Debug, Clone)]
pub struct Sketch {
    pub kind: &'static str,
    pub axles: Vec<Axle>,
    pub deflection: i64,
    pub bump: i64,
    pub travel: i64,
    pub trailer_weight: i64,
    pub trailer_cg: i64,
    pub bow_stop: i64,
    pub bow_eye: i64,
    pub items: Vec<Item>,
    pub tanks: Vec<Tank>,
    /// Each case after the first: the fill of every tank in percent, and the item left out.
    pub cases: Vec<(Vec<i64>, Option<usize>)>,
    /// Tow ball over the ball height at which the frame is level.
    pub ball_over_level: i64,
    /// Ratings, as percent of what is near the load.
    pub limits: Vec<i64>,
    /// A boat known from scales: tongue weight in thousandths of the gross weight. Its items then only make
    /// up that gross.
    pub weighed: Option<i64>,
    /// Multiplies every weight, rating, density and spring rate.
    pub scale: i64,
}

#[derive(Debug, Clone)]
pub struct Axle {
    pub station: i64,
    pub rating: i64,
    pub radius: i64,
    pub tires: i64,
    pub tire_rate: i64,
    pub weight: Option<i64>,
}

#[derive(Debug, Clone)]
pub struct Item {
    pub weight: i64,
    /// Forward of the transom.
    pub station: i64,
    pub height: i64,
    pub side: i64,
}

#[derive(Debug, Clone)]
pub struct Tank {
    pub gallons: i64,
    pub tenths_of_pound_a_gallon: i64,
    pub fill: i64,
    pub station: i64,
    pub height: i64,
}

/// How many there are, as whole pounds are counted.
fn count<T>(of: &[T]) -> i64 {
    of.iter().fold(0, |count, _| count + 1)
}

pub const LEVEL: i64 = 20 * 8;
pub const SUSPENSIONS: [&str; 3] = ["leaf-equalized", "leaf-separate", "torsion"];

impl Sketch {
    /// Mean axle station in eighths of an inch.
    pub fn mean_station(&self) -> i64 {
        self.axles.iter().map(|axle| axle.station).sum::<i64>() / count(&self.axles)
    }

    /// Gross weight of the first case in pounds, near enough for ratings.
    pub fn gross(&self) -> i64 {
        let items: i64 = self.items.iter().map(|item| item.weight).sum();
        let tanks: i64 = self
            .tanks
            .iter()
            .map(|tank| tank.gallons * tank.tenths_of_pound_a_gallon * tank.fill / 1000)
            .sum();
        items + tanks + self.trailer_weight
    }

    /// The rig as a file.
    pub fn write(&self, texts: Texts) -> String {
        let pen = Pen { texts, scale: self.scale };
        let mut out = String::from("format = 1\n");
        let mut line = |text: String| {
            let _ = writeln!(out, "{text}");
        };
        let limit = |i: usize, of: i64| pen.pounds(of * self.limits[i % self.limits.len()] / 100);
        let gross = self.gross();
        line("[boat]".into());
        line(format!("bow_eye = {{ station = {}, height = {} }}", pen.length(self.bow_eye), pen.length(240)));
        if let Some(thousandths) = self.weighed {
            line(format!("cg_height = {}", pen.length(220)));
            line("[measured]".into());
            line(format!("gross_trailer_weight = {}", pen.pounds(gross)));
            line(format!("tongue_weight = {}", pen.pounds(gross * thousandths / 1000)));
        } else {
            for (i, item) in self.items.iter().enumerate() {
                line("[[boat.weights]]".into());
                line(format!("id = \"item{i}\""));
                line(format!("weight = {}", pen.pounds(item.weight)));
                line(format!("station = {}", pen.length(item.station)));
                line(format!("height = {}", pen.length(item.height)));
                line(format!("side = {}", pen.length(item.side)));
            }
        }
        for (i, tank) in self.tanks.iter().enumerate() {
            line("[[boat.tanks]]".into());
            line(format!("id = \"tank{i}\""));
            line(format!("density = {}", pen.density(tank.tenths_of_pound_a_gallon)));
            line(format!("capacity = {}", pen.volume(tank.gallons)));
            line(format!("fill = \"{} %\"", tank.fill));
            line(format!("station = {}", pen.length(tank.station)));
            line(format!("height = {}", pen.length(tank.height)));
        }
        line("[trailer]".into());
        line(format!("weight = {}", pen.pounds(self.trailer_weight)));
        line(format!("cg = {}", pen.length(self.trailer_cg)));
        line(format!("cg_height = {}", pen.length(170)));
        line(format!("gvwr = {}", limit(0, gross)));
        line(format!("bow_stop = {}", pen.length(self.bow_stop)));
        line(format!("bow_stop_height = {}", pen.length(430 + self.limits[1] % 40)));
        line(format!("keel_height = {}", pen.length(190)));
        line(format!("level_ball_height = {}", pen.length(LEVEL)));
        line(format!("track = {}", pen.length(85 * 8)));
        line(format!(
            "coupler = {{ rating = {}, tongue_rating = {} }}",
            limit(2, gross),
            limit(3, gross / 10)
        ));
        line(format!("jack = {{ rating = {}, station = {} }}", limit(4, gross / 9), pen.length(200)));
        line("[trailer.suspension]".into());
        line(format!("kind = \"{}\"", self.kind));
        line(format!("deflection_at_rating = {}", pen.length(self.deflection)));
        line(format!("bump = {}", pen.length(self.bump)));
        if self.kind == "leaf-equalized" {
            line(format!("equalizer_travel = {}", pen.length(self.travel)));
        }
        for (i, axle) in self.axles.iter().enumerate() {
            let each = gross * 9 / 10 / count(&self.axles);
            line("[[trailer.axles]]".into());
            line("braked = true".into());
            line(format!("station = {}", pen.length(axle.station)));
            line(format!("rating = {}", pen.pounds(axle.rating)));
            if let Some(weight) = axle.weight {
                line(format!("weight = {}", pen.pounds(weight)));
            }
            line(format!(
                "tires = {{ count = {}, rating = {}, radius = {}, rate = {} }}",
                axle.tires,
                limit(5 + i, each / axle.tires),
                pen.length(axle.radius),
                pen.rate(axle.tire_rate)
            ));
            if i != 1 {
                line(format!("wheels = {{ rating = {} }}", limit(6 + i, each / axle.tires)));
            }
        }
        line("[hitch]".into());
        line(format!(
            "receiver = {{ rating = {}, tongue_rating = {} }}",
            limit(7, gross),
            limit(8, gross / 10)
        ));
        line("[tow]".into());
        line(format!("front_axle_load = {}", pen.pounds(3000)));
        line(format!("rear_axle_load = {}", pen.pounds(2900)));
        line(format!("wheelbase = {}", pen.length(1120)));
        line(format!("ball_overhang = {}", pen.length(360)));
        line(format!("ball_height = {}", pen.length(LEVEL + self.ball_over_level)));
        line(format!("gvwr = {}", limit(9, 6500)));
        line(format!("rear_gawr = {}", limit(10, 4000)));
        line(format!("front_gawr = {}", limit(11, 3000)));
        if !self.cases.is_empty() {
            line("[[cases]]".into());
        }
        for (fills, left_out) in &self.cases {
            line("[[cases]]".into());
            let fills = fills.iter().zip(&self.tanks).enumerate();
            let fills: Vec<String> = fills.map(|(i, (fill, _))| format!("tank{i} = \"{fill} %\"")).collect();
            line(format!("fill = {{ {} }}", fills.join(", ")));
            if let Some(item) = left_out.filter(|_| self.weighed.is_none()) {
                line(format!("without = [\"item{item}\"]"));
            }
        }
        out
    }
}

/// Writes quantities as texts of one system; the conversions are exact, or correct to the last digit.
struct Pen {
    texts: Texts,
    scale: i64,
}

impl Pen {
    fn length(&self, eighths: i64) -> String {
        match self.texts {
            Texts::Us => format!("\"{} in\"", eighths as f64 / 8.0),
            // An eighth of an inch is 3.175 mm.
            Texts::Metric => format!("\"{}.{:03} mm\"", Sign(eighths), (eighths.abs() * 3175) % 1000),
        }
    }

    fn pounds(&self, pounds: i64) -> String {
        let pounds = pounds * self.scale;
        match self.texts {
            Texts::Us => format!("\"{pounds} lb\""),
            // A pound is 0.453 592 37 kg.
            Texts::Metric => {
                let hundred_millionths = i128::from(pounds) * 45_359_237;
                format!("\"{}.{:08} kg\"", hundred_millionths / 100_000_000, hundred_millionths % 100_000_000)
            }
        }
    }

    fn volume(&self, gallons: i64) -> String {
        match self.texts {
            Texts::Us => format!("\"{gallons} gal\""),
            // A gallon is 3.785 411 784 L.
            Texts::Metric => format!("\"{:.9} L\"", gallons as f64 * 3.785_411_784),
        }
    }

    fn density(&self, tenths: i64) -> String {
        let pounds_a_gallon = (tenths * self.scale) as f64 / 10.0;
        match self.texts {
            Texts::Us => format!("\"{pounds_a_gallon} lb/gal\""),
            Texts::Metric => format!("\"{:.14} kg/L\"", pounds_a_gallon * 0.453_592_37 / 3.785_411_784),
        }
    }

    fn rate(&self, pounds_an_inch: i64) -> String {
        let rate = pounds_an_inch * self.scale;
        match self.texts {
            Texts::Us => format!("\"{rate} lb/in\""),
            Texts::Metric => format!("\"{:.12} N/mm\"", rate as f64 * 0.453_592_37 * 9.806_65 / 25.4),
        }
    }
}

/// The whole millimetres of so many eighths of an inch, with their sign even where there are none.
struct Sign(i64);

impl std::fmt::Display for Sign {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        write!(out, "{sign}{}", self.0.abs() * 3175 / 1000)
    }
}

fn axles(most: usize) -> impl Strategy<Value = Vec<Axle>> {
    let axle = (
        2000i64..8000,
        100i64..125,
        prop_oneof![4 => Just(2i64), 1 => Just(4)],
        1200i64..3000,
        proptest::option::of(150i64..400),
    );
    let alike = any::<bool>();
    (1..=most, 150i64..240, 30usize..42, alike, proptest::collection::vec(axle, most)).prop_map(
        |(count, front, spacing, alike, parts)| {
            let stations = (front..).step_by(spacing);
            let axles = parts.iter().take(count).zip(stations).map(|(part, station)| {
                let (rating, radius, tires, tire_rate, weight) = if alike { parts[0] } else { *part };
                Axle { station: station * 8, rating, radius, tires, tire_rate, weight }
            });
            axles.collect()
        },
    )
}

/// Valid rigs of up to so many axles, loaded well behind the ball, the frame level as towed in the first
/// case.
pub fn sketches(most_axles: usize) -> impl Strategy<Value = Sketch> {
    let shape = (
        proptest::sample::select(SUSPENSIONS.to_vec()),
        axles(most_axles),
        14i64..24,
        12i64..20,
        2i64..20,
        70i64..97,
    );
    // Shares of the axles' rating, and places as percent of the mean axle station.
    let item = (2i64..40, 72i64..104, -40i64..400, -80i64..80);
    let items = proptest::collection::vec(item, 1..5);
    let tank = (5i64..150, 60i64..86, 0i64..=100, 75i64..104, 0i64..300);
    let tanks = proptest::collection::vec(tank, 0..3);
    let case = (proptest::collection::vec(0i64..=100, 2), proptest::option::of(0usize..4));
    let cases = proptest::collection::vec(case, 0..3);
    let limits = proptest::collection::vec(60i64..180, 12);
    (shape, items, tanks, cases, limits).prop_map(|(shape, items, tanks, cases, limits)| {
        let (kind, axles, deflection, bump_tenths, travel, trailer_cg) = shape;
        let rated: i64 = axles.iter().map(|axle| axle.rating).sum();
        let mut sketch = Sketch {
            kind,
            deflection,
            bump: deflection * bump_tenths / 10 + 1,
            travel,
            trailer_weight: rated / 6 + 300 * count(&axles),
            trailer_cg: 0,
            bow_stop: 40 * 8,
            bow_eye: 0,
            items: Vec::new(),
            tanks: Vec::new(),
            cases: Vec::new(),
            ball_over_level: 0,
            limits,
            weighed: None,
            scale: 1,
            axles,
        };
        let mean = sketch.mean_station();
        sketch.trailer_cg = mean * trailer_cg / 100;
        let transom = mean + 50 * 8;
        sketch.bow_eye = transom - sketch.bow_stop;
        let station = |percent: i64| transom - mean * percent / 100;
        sketch.items = items
            .into_iter()
            .map(|(share, percent, height, side)| Item {
                weight: rated * share / 100 + 1,
                station: station(percent),
                height,
                side,
            })
            .collect();
        sketch.tanks = tanks
            .into_iter()
            .map(|(gallons, density, fill, percent, height)| Tank {
                gallons,
                tenths_of_pound_a_gallon: density,
                fill,
                station: station(percent),
                height,
            })
            .collect();
        // Never the only item.
        let count = sketch.items.len();
        let left_out = |item: Option<usize>| item.filter(|item| *item < count && count > 1);
        sketch.cases = cases.into_iter().map(|(fills, item)| (fills, left_out(item))).collect();
        sketch
    })
}

/// As [`sketches`], the boat known from scales: the tongue carries 2 to 30 % of the gross weight.
pub fn weighed(most_axles: usize) -> impl Strategy<Value = Sketch> {
    (sketches(most_axles), 20i64..300).prop_map(|(mut sketch, thousandths)| {
        sketch.weighed = Some(thousandths);
        sketch
    })
}
