//! What is published of tires: loads by inflation, load indices, date codes; and what is taken where a file is silent.

use super::defaults::{marked_kind, metric_size};
use super::inputs::{
    At, TRAILER_AXLES_TIRES_KIND, TRAILER_AXLES_TIRES_PRESSURE_EXPONENT, TRAILER_AXLES_TIRES_PRESSURE_MAX,
};
use super::setup::{Setup, SpeedSymbol, TireKind, Tires};
use crate::quantity::show::UnitSystem;
use crate::quantity::unit::{INCH, POUND};
use crate::quantity::{Pressure, Quantity, STANDARD_GRAVITY, Share, Speed, Weight};

/// Pounds at pounds a square inch of a published table.
pub type TabledRow = (f64, f64);

/// A metric size, width over aspect and rim, with its rows.
type TabledSize = ([f64; 3], &'static [TabledRow]);

/// Loads of trailer tires (ST) by inflation, from the industry's table, quoted; the last row of 225/75-15 and all of 235/80-16
/// from memory. Of 235/80-16 makers print two ratings at one pressure.
const TABLE: &[TabledSize] = &[
    ([175.0, 80.0, 13.0], &[(1100.0, 35.0), (1360.0, 50.0), (1610.0, 65.0)]),
    ([205.0, 75.0, 14.0], &[(1430.0, 35.0), (1760.0, 50.0), (2100.0, 65.0)]),
    ([205.0, 75.0, 15.0], &[(1480.0, 35.0), (1820.0, 50.0), (2150.0, 65.0)]),
    ([225.0, 75.0, 15.0], &[(2150.0, 50.0), (2540.0, 65.0), (2830.0, 80.0)]),
    ([235.0, 80.0, 16.0], &[(3000.0, 65.0), (3420.0, 80.0), (3520.0, 80.0)]),
];

/// A rating restated in whole kilograms, or a pressure in kilopascals, is off a row by no more than this share.
const SAME_ROW: f64 = 0.01;

/// Kilograms that each load index from [`FIRST_INDEX`] stands for: UN Regulations 30 and 54, annex 4. Those of 70, 75, 80, 85,
/// 90, 95 and of 100 to 130 are quoted, the others from memory.
const LOAD_INDICES: [f64; 71] = [
    250.0, 257.0, 265.0, 272.0, 280.0, 290.0, 300.0, 307.0, 315.0, 325.0, 335.0, 345.0, 355.0, 365.0, 375.0,
    387.0, 400.0, 412.0, 425.0, 437.0, 450.0, 462.0, 475.0, 487.0, 500.0, 515.0, 530.0, 545.0, 560.0, 580.0,
    600.0, 615.0, 630.0, 650.0, 670.0, 690.0, 710.0, 730.0, 750.0, 775.0, 800.0, 825.0, 850.0, 875.0, 900.0,
    925.0, 950.0, 975.0, 1000.0, 1030.0, 1060.0, 1090.0, 1120.0, 1150.0, 1180.0, 1215.0, 1250.0, 1285.0,
    1320.0, 1360.0, 1400.0, 1450.0, 1500.0, 1550.0, 1600.0, 1650.0, 1700.0, 1750.0, 1800.0, 1850.0, 1900.0,
];
/// The least load index of the table.
pub const FIRST_INDEX: u32 = 60;
/// The greatest.
pub const LAST_INDEX: u32 = FIRST_INDEX + LOAD_INDICES.len() as u32 - 1;

/// What a load index stands for, if it stands in the table.
pub fn load_of_index(index: u32) -> Option<Weight> {
    let kilograms = LOAD_INDICES.get(usize::try_from(index.checked_sub(FIRST_INDEX)?).ok()?)?;
    Some(Weight::from_si(kilograms * STANDARD_GRAVITY))
}

/// The least load index that stands for this or more, if one does.
pub fn index_for(load: Weight) -> Option<u32> {
    // A hair over an index is rounding.
    let is_enough =
        |index: &u32| load_of_index(*index).is_some_and(|carries| carries.si() * (1.0 + 1e-9) >= load.si());
    (FIRST_INDEX..=LAST_INDEX).find(is_enough)
}

/// A rating in pounds is the load index's kilograms, rounded to a round number of pounds: of the ratings that are sold the
/// farthest is 0.4 % above its index, and the nearest index below that is 2 % lower. So one that is no more than this share
/// below is the same tire.
const ROUNDED_TO_POUNDS: f64 = 0.005;

/// The least load index of tires that are sold by a rating, in pounds or in kilograms; none past the last index. Kilograms are
/// the index's own.
pub fn index_of_rating(rating: Weight, units: UnitSystem) -> Option<u32> {
    match units {
        UnitSystem::Us => index_for(rating * (1.0 - ROUNDED_TO_POUNDS)),
        UnitSystem::Metric => index_for(rating),
    }
}

/// The speed that a symbol stands for. Source: UN Regulation 30, quoted.
pub fn speed_of_symbol(symbol: SpeedSymbol) -> Speed {
    let kilometres_an_hour = match symbol {
        SpeedSymbol::J => 100.0,
        SpeedSymbol::K => 110.0,
        SpeedSymbol::L => 120.0,
        SpeedSymbol::M => 130.0,
        SpeedSymbol::N => 140.0,
        SpeedSymbol::P => 150.0,
        SpeedSymbol::Q => 160.0,
        SpeedSymbol::R => 170.0,
        SpeedSymbol::S => 180.0,
        SpeedSymbol::T => 190.0,
        SpeedSymbol::U => 200.0,
        SpeedSymbol::H => 210.0,
    };
    Speed::from_si(kilometres_an_hour / 3.6)
}

impl Tires {
    /// What each may carry at its greatest pressure, by the sidewall: the lesser of rating and load index.
    pub fn sidewall(&self) -> Option<Weight> {
        let by_index = self.load_index.and_then(load_of_index);
        self.rating.into_iter().chain(by_index).reduce(Weight::min)
    }

    /// The published rows of their size, where these hold for them: the rating is the row's at the greatest pressure.
    pub fn published(&self) -> &'static [TabledRow] {
        let rows = self.rows_of_size();
        let is_stated = |row: &TabledRow| {
            self.pressure_max.is_some_and(|most| is_near(most.si(), pounds_a_square_inch(row.1)))
        };
        if self.rated_row(rows).is_some_and(|row| is_stated(&row)) { rows } else { &[] }
    }

    /// The published rows of their size, whatever their rating.
    fn rows_of_size(&self) -> &'static [TabledRow] {
        if self.kind != Some(TireKind::Trailer) {
            return &[];
        }
        let size = self.size.as_deref().and_then(metric_size);
        let found = TABLE.iter().find(|(tabled, _)| Some(*tabled) == size);
        found.map_or(&[], |(_, rows)| rows)
    }

    /// The most that tires of their size are made for, where a published table has the size.
    pub fn greatest_of_size(&self) -> Option<Weight> {
        let loads = self.rows_of_size().iter().map(|(load, _)| *load);
        loads.reduce(f64::max).map(|load| Weight::from_si(load * POUND))
    }

    /// The row that has their rating.
    fn rated_row(&self, rows: &[TabledRow]) -> Option<TabledRow> {
        let rating = self.sidewall()?.si();
        rows.iter().copied().find(|row| is_near(rating, row.0 * POUND))
    }

    /// The pressure at which they are taken to carry their rating where the file is silent; and whether a published row
    /// says so.
    pub(super) fn silent_pressure_max(&self) -> (Pressure, bool) {
        let row = self.rated_row(self.rows_of_size());
        let usual = if self.kind == Some(TireKind::Passenger) { 35.0 } else { 65.0 };
        (Pressure::from_si(pounds_a_square_inch(row.map_or(usual, |row| row.1))), row.is_some())
    }

    /// The exponent that is taken where the file is silent.
    pub(super) fn silent_exponent(&self, kind_is_assumed: bool) -> Share {
        let percent = match self.kind {
            _ if self.goes_by_index(kind_is_assumed) => 80.0,
            Some(TireKind::Passenger) => 80.0,
            Some(TireKind::LightTruck) => 75.0,
            _ => 70.0,
        };
        Share::from_si(percent / 100.0)
    }

    /// Whether nothing but a load index says what the tires are for.
    fn goes_by_index(&self, kind_is_assumed: bool) -> bool {
        let unmarked = self.size.as_deref().is_some_and(|size| marked_kind(size).is_none());
        self.load_index.is_some() && unmarked && kind_is_assumed
    }
}

fn is_near(one: f64, other: f64) -> bool {
    (one - other).abs() <= SAME_ROW * other
}

fn pounds_a_square_inch(number: f64) -> f64 {
    number * (POUND / (INCH * INCH))
}

/// The ends of a greatest pressure that is assumed and that no published row gives; none where nothing depends on it.
pub(super) fn silent_pressure_max_ends(setup: &Setup, at: At) -> Option<[f64; 2]> {
    let tires = &setup.trailer.axles[at[0]].tires;
    // Without a pressure of its own a tire is taken to have its greatest.
    tires.pressure?;
    let ends = if tires.kind == Some(TireKind::Passenger) { [35.0, 44.0] } else { [50.0, 80.0] };
    (!tires.silent_pressure_max().1).then(|| ends.map(pounds_a_square_inch))
}

/// To what pressure the tires of an axle may surely be pumped up, and whether their sidewalls say that: what the file or a
/// published row has of these, else the least that is assumed.
pub fn pumped_up(setup: &Setup, axle: usize) -> Option<(Pressure, bool)> {
    let key = TRAILER_AXLES_TIRES_PRESSURE_MAX.of(axle);
    let assumed = silent_pressure_max_ends(setup, key.at).filter(|_| setup.is_assumed(key));
    let least = assumed.map(|[least, _]| (Pressure::from_si(least), false));
    least.or(setup.trailer.axles[axle].tires.pressure_max.map(|most| (most, true)))
}

/// The ends of an exponent that is assumed; none where nothing depends on it.
pub(super) fn silent_exponent_ends(setup: &Setup, at: At) -> Option<[f64; 2]> {
    let tires = &setup.trailer.axles[at[0]].tires;
    let most_is_assumed = setup.is_assumed(TRAILER_AXLES_TIRES_PRESSURE_MAX.at(at));
    let most = silent_pressure_max_ends(setup, at).filter(|_| most_is_assumed).map(|ends| ends[1]);
    let below = tires.pressure?.si() < most.unwrap_or(tires.pressure_max?.si());
    let kind_is_assumed = setup.is_assumed(TRAILER_AXLES_TIRES_KIND.at(at));
    let ends = match tires.kind {
        _ if tires.goes_by_index(kind_is_assumed) => None,
        Some(TireKind::Passenger) => None,
        Some(TireKind::LightTruck) => Some([0.7, 0.8]),
        _ => Some([0.58, 0.75]),
    };
    ends.filter(|_| below && setup.is_assumed(TRAILER_AXLES_TIRES_PRESSURE_EXPONENT.at(at)))
}

/// Days since the first of March of year 0 of a day of the Gregorian calendar.
fn day(year: i64, month: i64, day: i64) -> i64 {
    // The year is counted from March, so that the leap day is its last.
    let (year, month) = if month > 2 { (year, month - 3) } else { (year - 1, month + 9) };
    365 * year + year.div_euclid(4) - year.div_euclid(100)
        + year.div_euclid(400)
        + (153 * month + 2) / 5
        + day
        - 1
}

/// The day that a text like 2026-06-01 names, counted in days; `None` where it names none.
pub fn day_of_date(text: &str) -> Option<i64> {
    let mut parts = text.split('-');
    let mut part = |digits: usize| {
        let part = parts.next()?;
        let plain = part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit());
        if plain { part.parse::<i64>().ok() } else { None }
    };
    let (year, month, of_month) = (part(4)?, part(2)?, part(2)?);
    let is_over = parts.next().is_none();
    let next = if month == 12 { (year + 1, 1) } else { (year, month + 1) };
    let length = day(next.0, next.1, 1) - day(year, month, 1);
    let is_there = is_over && (1..=12).contains(&month) && (1..=length).contains(&of_month);
    is_there.then(|| day(year, month, of_month))
}

/// The Monday of the week that a date code like 3224, week 32 of 2024, stands for, counted in days; `None` where there is no
/// such week. Codes of four digits began in 2000. The first week of a year is the one with its first Thursday.
pub fn day_of_date_code(code: &str) -> Option<i64> {
    if code.len() != 4 || !code.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let (week, year) = (code[..2].parse::<i64>().ok()?, 2000 + code[2..].parse::<i64>().ok()?);
    let first = first_monday(year);
    let monday = first + 7 * (week - 1);
    (week >= 1 && monday < first_monday(year + 1)).then_some(monday)
}

/// The Monday of a year's first week, the one that holds the fourth of January.
fn first_monday(year: i64) -> i64 {
    let fourth = day(year, 1, 4);
    // The first of March of year 0 was a Wednesday.
    fourth - (fourth + 2).rem_euclid(7)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_and_weeks_agree_with_the_calendar() {
        // 1 January 2024 was a Monday, 3 August 2026 is one.
        let of = |text| day_of_date(text).expect("a day");
        assert_eq!(of("2026-08-03") - of("2024-01-01"), 365 + 366 + 31 + 28 + 31 + 30 + 31 + 30 + 31 + 2);
        assert_eq!((of("2026-08-03") - of("2024-01-01")) % 7, 0);
        assert_eq!(day_of_date_code("0124"), day_of_date("2024-01-01"));
        // Week 32 of 2024 began on 5 August; week 1 of 2025 on 30 December 2024; week 53 of 2020 on 28 December.
        assert_eq!(day_of_date_code("3224"), day_of_date("2024-08-05"));
        assert_eq!(day_of_date_code("0125"), day_of_date("2024-12-30"));
        assert_eq!(day_of_date_code("5320"), day_of_date("2020-12-28"));
        for code in ["6024", "0024", "5324", "324", "32244", "3b24", "－224"] {
            assert_eq!(day_of_date_code(code), None, "{code}");
        }
        for date in
            ["2026-02-29", "2026-13-01", "2026-00-10", "2026-6-01", "26-06-01", "2026-06-01-1", "today"]
        {
            assert_eq!(day_of_date(date), None, "{date}");
        }
        assert!(day_of_date("2028-02-29").is_some() && day_of_date("2100-02-29").is_none());
    }
}
