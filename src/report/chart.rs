//! A chart in plain characters: several curves over one axis.

use crate::quantity::show::UnitSystem;
use crate::quantity::{Length, Quantity, Weight};

/// Columns and rows inside the chart's frame.
const COLUMNS: usize = 66;
const ROWS: usize = 12;

/// Curves of weights against a position. Each is drawn with the digit of its place, counted from 1, and with
/// `*` where several meet; `-` marks levels, such as ratings.
pub(super) fn weights(
    positions: &[Length],
    curves: &[Vec<Weight>],
    levels: &[Weight],
    units: UnitSystem,
) -> Vec<String> {
    let (Some(first), Some(last)) = (positions.first(), positions.last()) else { return Vec::new() };
    let span = (*last - *first).si();
    let all = curves.iter().flatten().chain(levels);
    let top = all.map(|weight| weight.si()).fold(0.0, f64::max);
    if span <= 0.0 || top <= 0.0 {
        return Vec::new();
    }
    let mut cells = vec![[' '; COLUMNS]; ROWS];
    let row_of =
        |weight: f64| ((1.0 - weight / top) * (ROWS - 1) as f64).round().clamp(0.0, (ROWS - 1) as f64);
    for level in levels {
        cells[index(row_of(level.si()))] = ['-'; COLUMNS];
    }
    for (curve, digit) in curves.iter().zip('1'..='9') {
        for (position, weight) in positions.iter().zip(curve) {
            let column = index((*position - *first).si() / span * (COLUMNS - 1) as f64);
            let cell = &mut cells[index(row_of(weight.si()))][column.min(COLUMNS - 1)];
            *cell = match *cell {
                ' ' | '-' => digit,
                same if same == digit => digit,
                _ => '*',
            };
        }
    }
    let mut lines: Vec<String> = cells
        .iter()
        .enumerate()
        .map(|(row, cells)| {
            let weight = Weight::from_si(top * (1.0 - row as f64 / (ROWS - 1) as f64));
            let label = if row % 3 == 0 || row == ROWS - 1 { units.weight(weight) } else { String::new() };
            let line: String = cells.iter().collect();
            format!("{label:>10} |{}", line.trim_end())
        })
        .collect();
    let (from, to) = (units.along(*first), units.along(*last));
    lines.push(format!("{:>10} +{}", "", "-".repeat(COLUMNS)));
    lines.push(format!("{:>12}{from}{to:>width$}", "", width = COLUMNS - from.chars().count()));
    lines
}

/// A row or column from a number that lies within the chart.
fn index(number: f64) -> usize {
    // The number is at least zero and below a hundred.
    usize::try_from(number.round() as i64).unwrap_or(0)
}
