//! Every way of writing a quantity that the format promises, and what it refuses.

use approx::assert_relative_eq;
use bunkline::quantity::{Kind, parse::parse_si};

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const POUND: f64 = 0.453_592_37 * 9.806_65;
const KILOGRAM: f64 = 9.806_65;
const GALLON: f64 = 3.785_411_784e-3;
const DEGREE: f64 = std::f64::consts::PI / 180.0;
const PSI: f64 = POUND / (INCH * INCH);

#[test]
fn what_the_format_promises_is_read() {
    use Kind::*;
    let cases: &[(Kind, &str, f64, f64)] = &[
        (Length, "11 ft 8 in", 140.0 * INCH, 0.0),
        (Length, "140 in", 140.0 * INCH, 0.0),
        (Length, "62 1/4 in", 62.25 * INCH, 0.0),
        (Length, "62-1/4 in", 62.25 * INCH, 0.0),
        (Length, "5' 10 1/2\"", 70.5 * INCH, 0.0),
        (Length, "3.556 m", 3.556, 0.0),
        (Length, "3556 mm", 3.556, 0.0),
        (Length, "356 cm", 3.56, 0.0),
        (Weight, "9000 lb", 9000.0 * POUND, 0.0),
        (Weight, "4082 kg", 4082.0 * KILOGRAM, 0.0),
        (Weight, "4.1 t", 4100.0 * KILOGRAM, 0.0),
        (Weight, "9000 lbf", 9000.0 * POUND, 0.0),
        (Weight, "4082 kgf", 4082.0 * KILOGRAM, 0.0),
        (Weight, "4082 N", 4082.0, 0.0),
        (Weight, "40.82 kN", 40_820.0, 0.0),
        (Angle, "21 deg", 21.0 * DEGREE, 0.0),
        (Slope, "15 %", 0.15, 0.0),
        (Slope, "8.5 deg", (8.5 * DEGREE).tan(), 0.0),
        (Share, "12 %", 0.12, 0.0),
        (Pressure, "80 psi", 80.0 * PSI, 0.0),
        (Pressure, "550 kPa", 550e3, 0.0),
        (Pressure, "5.5 bar", 550e3, 0.0),
        (Volume, "120 gal", 120.0 * GALLON, 0.0),
        (Volume, "450 L", 0.45, 0.0),
        (Volume, "0.45 m3", 0.45, 0.0),
        (Density, "7.1 lb/gal", 7.1 * 0.453_592_37 / GALLON, 0.0),
        (Density, "0.85 kg/L", 850.0, 0.0),
        (Density, "64 lb/ft3", 64.0 * 0.453_592_37 / (FOOT * FOOT * FOOT), 0.0),
        (Density, "1025 kg/m3", 1025.0, 0.0),
        (Rate, "800 lb/in", 800.0 * POUND / INCH, 0.0),
        (Rate, "140 N/mm", 140e3, 0.0),
        (SectionModulus, "8.4 in3", 8.4 * INCH * INCH * INCH, 0.0),
        (SectionModulus, "138 cm3", 138e-6, 0.0),
        (SectionModulus, "137600 mm3", 137_600e-9, 0.0),
        (Stress, "36 ksi", 36_000.0 * PSI, 0.0),
        (Stress, "250 MPa", 250e6, 0.0),
        (Stress, "900 psi", 900.0 * PSI, 0.0),
        // Uncertain, the unit once or twice.
        (Weight, "6350 lb ± 200 lb", 6350.0 * POUND, 200.0 * POUND),
        (Weight, "6350 lb +/- 200 lb", 6350.0 * POUND, 200.0 * POUND),
        (Weight, "6350 lb ± 3 %", 6350.0 * POUND, 190.5 * POUND),
        (Weight, "6350 lb ± 200", 6350.0 * POUND, 200.0 * POUND),
        (Weight, "6350 ± 200 lb", 6350.0 * POUND, 200.0 * POUND),
        (Length, "50 in +/- 1", 50.0 * INCH, INCH),
        (Length, "50 ± 1 in", 50.0 * INCH, INCH),
        (Length, "-50 +/- 1/2 in", -50.0 * INCH, 0.5 * INCH),
        (Length, "5 ft 10 in ± 1", 70.0 * INCH, INCH),
        (Length, "-2 in ± ½", -2.0 * INCH, 0.5 * INCH),
        (Share, "12 ± 1 %", 0.12, 0.01),
        (Share, "12 % ± 1", 0.12, 0.01),
        // Also read.
        (Length, "4½ in", 4.5 * INCH, 0.0),
        (Length, "4 ½ in", 4.5 * INCH, 0.0),
        (Length, "½ in", 0.5 * INCH, 0.0),
        (Length, "3⅝\"", 3.625 * INCH, 0.0),
        (Length, "11'-8\"", 140.0 * INCH, 0.0),
        (Length, "11'-8½\"", 140.5 * INCH, 0.0),
        (Length, "11'8\"", 140.0 * INCH, 0.0),
        (Length, "11 ft-8 in", 140.0 * INCH, 0.0),
        (Length, "11′-8″", 140.0 * INCH, 0.0),
        (Length, "11’-8”", 140.0 * INCH, 0.0),
        // Spaces that do not break, as word processors put them.
        (Length, "62\u{a0}1/4\u{a0}in", 62.25 * INCH, 0.0),
        (Length, "62\u{202f}¼ in", 62.25 * INCH, 0.0),
        (Length, "4ft2in", 50.0 * INCH, 0.0),
        (Length, "4ft2 1/2in", 50.5 * INCH, 0.0),
        (Length, "4FT2IN", 50.0 * INCH, 0.0),
        (Length, "5′ 10″", 70.0 * INCH, 0.0),
        (Length, "5’ 10”", 70.0 * INCH, 0.0),
        (Angle, "21°", 21.0 * DEGREE, 0.0),
        (Weight, "9000 lbs", 9000.0 * POUND, 0.0),
        (Weight, "9000 pounds", 9000.0 * POUND, 0.0),
        (Length, "5 feet 10 inches", 70.0 * INCH, 0.0),
        (Length, "1 foot 1 inch", 13.0 * INCH, 0.0),
        (Weight, "9000 LB", 9000.0 * POUND, 0.0),
        (Weight, "4082 Kg", 4082.0 * KILOGRAM, 0.0),
        (Length, "50 IN", 50.0 * INCH, 0.0),
        (Pressure, "80 PSI", 80.0 * PSI, 0.0),
        (Rate, "800 LBS/IN", 800.0 * POUND / INCH, 0.0),
        (Stress, "250 mpa", 250e6, 0.0),
        (Volume, "0.45 M3", 0.45, 0.0),
        (Volume, "450 l", 0.45, 0.0),
        (Density, "64 lbs/ft3", 64.0 * 0.453_592_37 / (FOOT * FOOT * FOOT), 0.0),
        (SectionModulus, "8.4 IN3", 8.4 * INCH * INCH * INCH, 0.0),
    ];
    for (kind, text, value, bound) in cases {
        let read = parse_si(text, *kind).unwrap_or_else(|error| panic!("{text}: {error}"));
        // A few roundings of the last bit.
        assert_relative_eq!(read.value, *value, max_relative = 1e-14);
        assert_relative_eq!(read.bound, *bound, max_relative = 1e-14);
    }
}

#[test]
fn what_is_refused_says_what_to_write() {
    use Kind::*;
    for (kind, text, says, helps) in [
        (Length, "7,925 m", "a comma in `7,925`", "write 7.925 m"),
        (Length, "7,9 m", "a comma in `7,9`", "write 7.9 m"),
        (Length, "3,556 mm", "a comma in `3,556`", "write 3556 mm"),
        (Weight, "10,400 lb", "a comma in `10,400`", "write 10400 lb"),
        (Weight, "1,250 t", "a comma in `1,250`", "write 1.250 t"),
        (Weight, "10,400.5 lb", "a comma in `10,400.5`", "write 10400.5 lb"),
        (Weight, "10,400", "a comma in `10,400`", "write 10400"),
        (Weight, "10.400,5 lb", "a comma in `10.400,5`", "write 10400.5 lb"),
        (Weight, "6350 ± 2,5 kg", "a comma in `2,5`", "write 2.5 kg"),
        (Weight, "6350 kg ± 2,5 kg", "a comma in `2,5`", "write 2.5 kg"),
        (Weight, "6350 lb +- 200 lb", "found `+- 200 lb`", "write ± or +/-"),
        (Weight, "9000 lbs.", "expected the end of the value, found `.`", "without a point"),
        (Length, "26 ft 14 in", "less than 12 in after the feet, found `14 in`", "write 27 ft 2 in"),
        (Length, "-26 ft 12 in", "found `12 in`", "write -27 ft 0 in"),
        (Length, "1.5 1/2 in", "found both in `1.5 1/2`", "write 1.5 or 1 1/2"),
        (Length, "1.5½ in", "found both in `1.5½`", "write 1.5 or 1 ½"),
        (Length, "140", "expected a unit after `140`, found none", "write for example"),
        (Length, "11 ft 8", "expected a unit after `8`, found none", "did you mean \"11 ft 8 in\"?"),
        (Length, "11 feet 8", "expected a unit after `8`, found none", "did you mean"),
        (Length, "5 ft -2 in", "expected the end of the value, found `-2 in`", ""),
        (Length, "4 ft2", "expected a unit after `2`, found none", "did you mean"),
        (Weight, "6350 ± 3 %", "expected a unit after `6350`, found none", "write for example"),
        (Length, "50 ± 1", "expected a unit after `50`, found none", "write for example"),
        (Length, "50 in ± -1", "expected a bound of zero or more after ±", ""),
        (Weight, "3 tons", "expected a unit of weight, found `tons`", "metric tonne"),
        (Weight, "3 in", "expected a weight, found a length", "units that fit: lb"),
    ] {
        let error = parse_si(text, kind).expect_err(text);
        assert!(error.to_string().contains(says), "{text}: {error}");
        let help = error.fault.help().unwrap_or_default();
        assert!(help.contains(helps), "{text}: {help}");
    }
}
