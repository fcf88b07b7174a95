//! The units a rig file may use, with their exact factors.
//!
//! Sources: the pound (0.453 592 37 kg), the inch (25.4 mm), standard gravity (9.806 65 m/s²) and
//! the US gallon (3.785 411 784 L, which is 231 in³) are exact by definition, NIST SP 811
//! appendix B. The others follow from them by multiplication.

/// Standard gravity, m/s²: turns a mass in kilograms into its weight in newtons.
pub const STANDARD_GRAVITY: f64 = 9.806_65;

/// An inch, m.
pub const INCH: f64 = 0.0254;
const FOOT: f64 = 12.0 * INCH;
const POUND_MASS: f64 = 0.453_592_37;
/// A pound as a weight, N.
pub const POUND: f64 = POUND_MASS * STANDARD_GRAVITY;
/// A litre, m³.
pub const LITRE: f64 = 1e-3;
/// A US gallon, m³.
pub const GALLON: f64 = 231.0 * INCH * INCH * INCH;

/// A mile an hour, m/s.
pub const MILE_AN_HOUR: f64 = 5280.0 * FOOT / HOUR;
/// A minute, s.
const MINUTE: f64 = 60.0;
/// An hour, s.
const HOUR: f64 = 60.0 * MINUTE;

/// What a quantity measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A distance.
    Length,
    /// A weight or a rating.
    Weight,
    /// An angle.
    Angle,
    /// A slope of the ground.
    Slope,
    /// A share of a whole.
    Share,
    /// A pressure.
    Pressure,
    /// A volume.
    Volume,
    /// A density.
    Density,
    /// A spring's rate.
    Rate,
    /// A stress in a material, or what it may bear.
    Stress,
    /// A section modulus: bending moment over stress.
    SectionModulus,
    /// A distance along a road, or the height of a hill.
    Distance,
    /// A pressure in a brake line.
    LinePressure,
    /// A bending moment.
    Moment,
    /// A speed.
    Speed,
    /// An electric current.
    Current,
    /// An electric charge: what a battery holds.
    Charge,
    /// An area.
    Area,
    /// A force on a coupling's plate, which is no weight of anything.
    Force,
}

impl Kind {
    /// The kind in words, with its article: "a length".
    pub fn name(self) -> &'static str {
        match self {
            Kind::Length => "a length",
            Kind::Weight => "a weight",
            Kind::Angle => "an angle",
            Kind::Slope => "a slope",
            Kind::Share => "a share",
            Kind::Pressure => "a pressure",
            Kind::Volume => "a volume",
            Kind::Density => "a density",
            Kind::Rate => "a spring rate",
            Kind::Stress => "a stress",
            Kind::SectionModulus => "a section modulus",
            Kind::Distance => "a distance",
            Kind::LinePressure => "a pressure in a brake line",
            Kind::Moment => "a moment",
            Kind::Speed => "a speed",
            Kind::Current => "a current",
            Kind::Charge => "a charge",
            Kind::Area => "an area",
            Kind::Force => "a force",
        }
    }

    /// The largest value that can be meant, in SI and in words.
    pub fn largest(self) -> (f64, &'static str) {
        match self {
            Kind::Length => (100.0, "100 m"),
            Kind::Weight => (100e3 * STANDARD_GRAVITY, "100 t"),
            Kind::Angle => (std::f64::consts::FRAC_PI_2, "90 deg"),
            Kind::Slope | Kind::Share => (1.0, "100 %"),
            Kind::Pressure => (2e6, "2 MPa"),
            Kind::Volume => (100.0, "100000 L"),
            Kind::Density => (25e3, "25 kg/L"),
            Kind::Rate => (1e9, "1000000 N/mm"),
            // Ten times steel's stiffness, which is the largest of these that anything has.
            Kind::Stress => (2e12, "2000000 MPa"),
            Kind::SectionModulus => (1.0, "1000000 cm3"),
            Kind::Distance => (5e3, "5 km"),
            Kind::LinePressure => (40e6, "40 MPa"),
            Kind::Moment => (1e7, "10000000 N m"),
            Kind::Speed => (100.0, "100 m/s"),
            Kind::Current => (1e4, "10000 A"),
            Kind::Charge => (1e4 * HOUR, "10000 Ah"),
            Kind::Area => (1e4, "10000 m2"),
            Kind::Force => (1e6, "1000 kN"),
        }
    }

    /// The largest value in words, and beside it in the unit that a text ends in, where that is another.
    pub fn largest_as(self, text: &str) -> String {
        let (largest, most) = self.largest();
        let word = text.split_whitespace().next_back().unwrap_or_default();
        let word = word.trim_start_matches(|letter: char| letter.is_ascii_digit() || ".,-±".contains(letter));
        let is_in_it = |unit: &&Unit| most.ends_with(&format!(" {}", unit.name));
        // An angle is no multiple of a slope, and a quote mark is no word.
        let other = find(word).filter(|unit| unit.measures(self) && !is_in_it(unit));
        let other = other.filter(|unit| unit.kind != Kind::Angle && !matches!(unit.name, "'" | "\""));
        other.map_or(most.to_string(), |unit| {
            format!("{most} ({} {})", (largest / unit.factor).floor(), unit.name)
        })
    }

    /// How a value of the kind is written, for messages.
    pub fn example(self) -> &'static str {
        match self {
            Kind::Length => "\"11 ft 8 in\", \"140 in\" or \"3556 mm\"",
            Kind::Weight => "\"9000 lb\" or \"4082 kg\"",
            Kind::Angle => "\"21 deg\"",
            Kind::Slope => "\"15 %\" or \"8.5 deg\"",
            Kind::Share => "\"12 %\"",
            Kind::Pressure => "\"80 psi\" or \"550 kPa\"",
            Kind::Volume => "\"120 gal\" or \"450 L\"",
            Kind::Density => "\"7.1 lb/gal\" or \"0.85 kg/L\"",
            Kind::Rate => "\"800 lb/in\" or \"140 N/mm\"",
            Kind::Stress => "\"900 psi\", \"36 ksi\" or \"6.2 MPa\"",
            Kind::SectionModulus => "\"2.4 in3\" or \"39 cm3\"",
            Kind::Distance => "\"700 ft\" or \"210 m\"",
            Kind::LinePressure => "\"1600 psi\" or \"110 bar\"",
            Kind::Moment => "\"20690 lb in\", \"1500 lb ft\" or \"2300 N m\"",
            Kind::Speed => "\"62 mph\", \"100 km/h\" or \"6 ft/min\"",
            Kind::Current => "\"18 A\"",
            Kind::Charge => "\"75 Ah\"",
            Kind::Area => "\"120 ft2\" or \"11 m2\"",
            Kind::Force => "\"15.9 kN\"",
        }
    }
}

/// One unit: its spelling, what it measures, and its size in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// The whole word that stands in a file.
    pub name: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// Its size in the SI unit of the kind.
    pub factor: f64,
}

const fn unit(name: &'static str, kind: Kind, factor: f64) -> Unit {
    Unit { name, kind, factor }
}

/// Every unit of the rig file. Percent and degrees are slopes too, lengths are distances, pressures are
/// stresses, also those in a brake line, and some weights are forces; [`Unit::measures`]
/// knows.
pub const UNITS: &[Unit] = &[
    unit("in", Kind::Length, INCH),
    unit("\"", Kind::Length, INCH),
    unit("ft", Kind::Length, FOOT),
    unit("'", Kind::Length, FOOT),
    unit("mm", Kind::Length, 1e-3),
    unit("cm", Kind::Length, 1e-2),
    unit("m", Kind::Length, 1.0),
    unit("lb", Kind::Weight, POUND),
    unit("lbf", Kind::Weight, POUND),
    unit("kg", Kind::Weight, STANDARD_GRAVITY),
    unit("kgf", Kind::Weight, STANDARD_GRAVITY),
    unit("t", Kind::Weight, 1000.0 * STANDARD_GRAVITY),
    unit("N", Kind::Weight, 1.0),
    unit("kN", Kind::Weight, 1000.0),
    unit("deg", Kind::Angle, std::f64::consts::PI / 180.0),
    unit("%", Kind::Share, 0.01),
    unit("psi", Kind::Pressure, POUND / (INCH * INCH)),
    unit("kPa", Kind::Pressure, 1e3),
    unit("bar", Kind::Pressure, 1e5),
    unit("gal", Kind::Volume, GALLON),
    unit("L", Kind::Volume, LITRE),
    unit("m3", Kind::Volume, 1.0),
    unit("lb/gal", Kind::Density, POUND_MASS / GALLON),
    unit("kg/L", Kind::Density, 1.0 / LITRE),
    unit("lb/ft3", Kind::Density, POUND_MASS / (FOOT * FOOT * FOOT)),
    unit("kg/m3", Kind::Density, 1.0),
    unit("lb/in", Kind::Rate, POUND / INCH),
    unit("N/mm", Kind::Rate, 1e3),
    unit("ksi", Kind::Stress, 1000.0 * POUND / (INCH * INCH)),
    unit("MPa", Kind::Stress, 1e6),
    unit("in3", Kind::SectionModulus, INCH * INCH * INCH),
    unit("cm3", Kind::SectionModulus, 1e-6),
    unit("mm3", Kind::SectionModulus, 1e-9),
    unit("lb in", Kind::Moment, POUND * INCH),
    unit("lb ft", Kind::Moment, POUND * FOOT),
    unit("N m", Kind::Moment, 1.0),
    unit("kN m", Kind::Moment, 1e3),
    unit("mph", Kind::Speed, MILE_AN_HOUR),
    unit("km/h", Kind::Speed, 1e3 / HOUR),
    unit("ft/min", Kind::Speed, FOOT / MINUTE),
    unit("m/min", Kind::Speed, 1.0 / MINUTE),
    unit("m/s", Kind::Speed, 1.0),
    unit("A", Kind::Current, 1.0),
    unit("Ah", Kind::Charge, HOUR),
    unit("ft2", Kind::Area, FOOT * FOOT),
    unit("m2", Kind::Area, 1.0),
];

/// Other spellings of units, in lower case.
const SPELLINGS: &[(&str, &str)] = &[
    ("inch", "in"),
    ("inches", "in"),
    ("″", "in"),
    ("”", "in"),
    ("“", "in"),
    ("foot", "ft"),
    ("feet", "ft"),
    ("′", "ft"),
    ("’", "ft"),
    ("‘", "ft"),
    ("lbs", "lb"),
    ("pound", "lb"),
    ("pounds", "lb"),
    ("°", "deg"),
    ("nm", "n m"),
    ("in lb", "lb in"),
    ("ft lb", "lb ft"),
    ("kph", "km/h"),
];

/// The unit that a word spells, in any case, if there is one: `lbs/IN` is `lb/in`.
pub fn find(word: &str) -> Option<&'static Unit> {
    let exact = UNITS.iter().find(|unit| unit.name == word);
    exact.or_else(|| {
        let lower = word.to_lowercase();
        let parts = lower.split('/').map(|part| {
            let spelling = SPELLINGS.iter().find(|(spelled, _)| *spelled == part);
            spelling.map_or(part, |(_, name)| name)
        });
        let name = parts.collect::<Vec<_>>().join("/");
        UNITS.iter().find(|unit| unit.name.to_lowercase() == name)
    })
}

/// The names of the units that fit a kind, in the table's order, without the quote marks.
pub fn names(kind: Kind) -> impl Iterator<Item = &'static str> {
    UNITS
        .iter()
        .filter(move |unit| unit.measures(kind) && !matches!(unit.name, "'" | "\""))
        .map(|unit| unit.name)
}

impl Unit {
    /// Whether the unit can express a value of the kind.
    pub fn measures(&self, kind: Kind) -> bool {
        self.kind == kind
            || match kind {
                Kind::Slope => matches!(self.kind, Kind::Share | Kind::Angle),
                Kind::Stress => self.kind == Kind::Pressure,
                Kind::Distance => self.kind == Kind::Length,
                Kind::LinePressure => self.kind == Kind::Pressure || self.name == "MPa",
                // A mass beside it on the plate is another figure.
                Kind::Force => matches!(self.name, "N" | "kN" | "kgf" | "lbf"),
                _ => false,
            }
    }

    /// The SI value of `number` such units, read as the kind: degrees of slope become rise over run.
    pub fn to_si(&self, number: f64, kind: Kind) -> f64 {
        let si = number * self.factor;
        match (kind, self.kind) {
            (Kind::Slope, Kind::Angle) => si.tan(),
            _ => si,
        }
    }

    /// How many such units make an SI value of the kind: undoes [`Self::to_si`].
    ///
    /// A number of at most six decimals is given as that, though rounding on the way made it another.
    pub fn number(&self, si: f64, kind: Kind) -> f64 {
        let number = match (kind, self.kind) {
            (Kind::Slope, Kind::Angle) => si.atan() / self.factor,
            _ => si / self.factor,
        };
        let short = (number * 1e6).round() / 1e6;
        if (short - number).abs() <= 4.0 * f64::EPSILON * number.abs() { short } else { number }
    }
}

/// The unit of a kind that a misspelt word most likely means.
pub fn nearest(word: &str, kind: Kind) -> Option<&'static str> {
    let lower = word.to_lowercase();
    let known = match lower.as_str() {
        "#" => "lb",
        "ins" => "in",
        "meter" | "meters" | "metre" | "metres" => "m",
        "millimeter" | "millimeters" | "millimetre" | "millimetres" => "mm",
        "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" => "kg",
        "ton" | "tons" | "tonne" | "tonnes" => "t",
        "gallon" | "gallons" | "gals" => "gal",
        "liter" | "liters" | "litre" | "litres" | "ltr" => "L",
        "degree" | "degrees" => "deg",
        "percent" | "pct" => "%",
        _ => "",
    };
    if !known.is_empty() {
        return names(kind).find(|name| *name == known);
    }
    names(kind).filter(|name| name.len() > 1).find(|name| strsim::osa_distance(name, word) == 1)
}
