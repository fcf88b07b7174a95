//! The chart of a place: what the loads come to wherever the part may sit.

use super::{Place, is_are, name, ways};
use crate::fit::Amount;
use crate::quantity::{Kind, Length, Quantity};
use crate::report::document::Picture;
use crate::report::plot::{Chart, Line, Panel, Scale, Window};
use crate::report::sections::axle_ratings;
use crate::report::words;
use crate::study::place::Sample;

impl Place<'_> {
    /// Tongue share and axle loads against the move, as a picture.
    pub(super) fn chart(&mut self) {
        let placing = self.placing;
        let (units, part) = (self.units, name(placing.part));
        let rig = self.page.report.rig();
        let moves = |shift: Length| self.by(shift).si();
        let span = [moves(placing.range.from), moves(placing.range.to)];
        let samples = || placing.samples.iter().map(|sample| (moves(sample.shift), sample));
        let several = rig.proposed().cases.len() > 1;
        // Of several cases the worst one both ways: a window is where all of them hold.
        let of_all = |of: &str, which: &str| {
            if several { format!("{of} ({which} of all cases)") } else { of.to_string() }
        };
        let share = |end: usize| {
            let at = |sample: &Sample| sample.tongue_share.map(|ends| ends[end].si());
            samples().map(|(x, sample)| (x, at(sample))).collect()
        };
        let mut shares =
            vec![Line::load(if several { "greatest of all cases" } else { "tongue share" }, share(1))];
        if several {
            shares.push(Line::load("least of all cases", share(0)));
        }
        shares.extend(self.share_limits(span));
        let axles = samples().map(|(_, sample)| sample.axle_loads.len()).max().unwrap_or(0);
        let axle = |i: usize| {
            let at = |sample: &Sample| sample.axle_loads.get(i).map(|load| load.si());
            let points = samples().map(|(x, sample)| (x, at(sample))).collect();
            Line::load(format!("axle {}", i + 1), points)
        };
        let ratings = axle_ratings(rig.proposed(), units);
        let ratings = ratings.into_iter().map(|(name, rating)| Line::limit(name, rating.si(), span));
        let windows = placing.windows.iter().map(|window| Window {
            ends: [moves(window.interval.from), moves(window.interval.to)],
            name: "window".to_string(),
        });
        let now = if placing.range.holds(placing.now) { vec![(0.0, "now".to_string())] } else { Vec::new() };
        let spot = placing.spot.as_ref().map(|spot| moves(spot.shift));
        let posts = match spot {
            Some(0.0) => vec![(0.0, "now, and the spot".to_string())],
            spot => now.into_iter().chain(spot.map(|at| (at, "the spot".to_string()))).collect(),
        };
        let [back, on] = ways(placing.part);
        let (is, verb) = if part == "tongue" { ("is", "drawn") } else { (is_are(placing.part), "moved") };
        let across = format!("how far the {part} {is} {verb}, {on} +, {back} -");
        let [from, to] =
            [placing.range.from, placing.range.to].map(|end| self.with_way(&units.distance(self.by(end))));
        let chart = Chart {
            title: format!("Tongue share and axle loads against the place of the {part}"),
            said: format!(
                "With the {part} from {from} to {to}. {}",
                self.advice_words().first().cloned().unwrap_or_default()
            ),
            across: Scale::of(&across, Kind::Length, span[1] - span[0], units),
            span,
            windows: windows.collect(),
            posts,
            panels: vec![
                Panel { up: Scale::of("tongue share", Kind::Share, 0.0, units), lines: shares },
                Panel {
                    up: Scale::of(&of_all("axle load", "greatest"), Kind::Weight, 0.0, units),
                    lines: (0..axles).map(axle).chain(ratings).collect(),
                },
            ],
        };
        if let Some(svg) = chart.drawn() {
            let caption = format!(
                "Tongue share and axle loads on level ground, against how far the {part} {is} {verb}; shaded where \
                 everything that a move can fix holds"
            );
            self.page.report.document.pictures(&[Picture { caption: caption.into(), svg }]);
        }
    }

    /// The limits of the tongue's share, by name.
    fn share_limits(&self, span: [f64; 2]) -> Vec<Line> {
        let Some(row) = self.page.report.findings().assessment.check("tongue-share") else {
            return Vec::new();
        };
        let bounds = [
            ("fails above", row.fails_above),
            ("at most", row.max.filter(|max| Some(*max) != row.fails_above)),
            ("at least", row.min.filter(|min| Some(*min) != row.fails_below)),
            ("fails below", row.fails_below),
        ];
        let limit = |(name, bound): (&str, Option<Amount>)| {
            let bound = bound?;
            Some(Line::limit(format!("{name} {}", words::amount(bound, self.units)), bound.si(), span))
        };
        bounds.into_iter().filter_map(limit).collect()
    }
}
