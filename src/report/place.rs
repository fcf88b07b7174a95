//! The report of a place: where a part must sit, what says so, and what it comes to there.

use super::text::{Page, Palette, capital, wrap_under};
use super::{Subject, words};
use crate::fit::{Gap, Limit, Row, Side, Verdict};
use crate::quantity::show::{UnitSystem, percent, written};
use crate::quantity::{Kind, Length, Quantity, Uncertain};
use crate::study::interval::Interval;
use crate::study::place::{Closer, Conflict, Held, Part, Placing, Spot};
use std::fmt::Write;

/// Columns of a bar.
const BAR: usize = 18;

/// What a tape can set, and what is printed where that is too coarse: a sixteenth of an inch or a millimetre,
/// and a ten-thousandth of an inch or a millimetre.
pub fn grains(units: UnitSystem) -> [Length; 2] {
    let (unit, parts) = match units {
        UnitSystem::Us => (0.0254, 16.0),
        UnitSystem::Metric => (0.001, 1.0),
    };
    [Length::from_si(unit / parts), Length::from_si(unit / 10_000.0)]
}

/// The report of a place; the subject is the rig at the spot recommended, or as it stands where there is none.
pub fn report(subject: &Subject<'_>, placing: &Placing, palette: &Palette) -> String {
    let page = Page::new(subject, palette, |_| true);
    let mut place = Place { page, placing, palette, units: subject.units };
    place.advice();
    place.windows();
    place.conflict();
    place.unmendable();
    place.table(true, "Limits that count");
    place.at_the_spot();
    place.table(false, "Limits that only advise");
    place.page.not_checked();
    place.page.assumed();
    place.page.cautions();
    place.page.out
}

struct Place<'a> {
    page: Page<'a>,
    placing: &'a Placing,
    palette: &'a Palette,
    units: UnitSystem,
}

/// What a part is called.
fn name(part: Part) -> &'static str {
    match part {
        Part::Boat => "boat",
        Part::Axles => "axles",
        Part::Tongue => "tongue",
        Part::Bunks => "bunks",
    }
}

/// The words for a move back and forth.
fn ways(part: Part) -> [&'static str; 2] {
    match part {
        Part::Tongue => ["out", "in"],
        Part::Boat | Part::Axles | Part::Bunks => ["forward", "aft"],
    }
}

fn is_are(part: Part) -> &'static str {
    match part {
        Part::Boat | Part::Tongue => "is",
        Part::Axles | Part::Bunks => "are",
    }
}

impl Place<'_> {
    fn wrapped(&mut self, text: &str, first: usize, indent: usize) {
        self.page.out.push_str(&wrap_under(text, first, indent));
    }

    /// A shift as a move from where the part stands.
    fn by(&self, shift: Length) -> Length {
        shift - self.placing.now
    }

    /// A shift as a file states it.
    fn stated(&self, spot: &Spot) -> String {
        if spot.finer { self.fine(spot.shift) } else { self.units.distance(spot.shift) }
    }

    fn fine(&self, length: Length) -> String {
        written(Uncertain { value: length.si(), bound: 0.0 }, Kind::Length, self.units)
    }

    /// An interval of shifts as moves that a tape can set, rounded to lie inside; finer where none does.
    fn rounded(&self, interval: Interval) -> [String; 2] {
        let (from, to) = (self.by(interval.from), self.by(interval.to));
        let [tape, _] = grains(self.units);
        // A hair is forgiven: a whole sixteenth that arithmetic left beside itself stays.
        let steps = |length: Length| length.si() / tape.si();
        let (low, high) = ((steps(from) - 1e-6).ceil(), (steps(to) + 1e-6).floor());
        if low <= high {
            [low, high].map(|steps| self.units.distance(tape * steps))
        } else {
            [from, to].map(|length| self.fine(length))
        }
    }

    /// A length already in words with the way it goes: `4 3/4 in forward`.
    fn with_way(&self, shown: &str) -> String {
        let [back, on] = ways(self.placing.part);
        match shown.strip_prefix('-') {
            Some(size) => format!("{size} {back}"),
            None if shown.starts_with("0 ") => "where it stands".to_string(),
            None => format!("{shown} {on}"),
        }
    }

    /// An interval in words: `3 1/2 in to 6 in forward`.
    fn window_words(&self, interval: Interval) -> String {
        let [from, to] = self.rounded(interval);
        if from == to {
            return self.with_way(&from);
        }
        match (from.strip_prefix('-'), to.strip_prefix('-')) {
            // The nearer end is told first.
            (Some(far), Some(near)) => format!("{near} to {far} {}", ways(self.placing.part)[0]),
            (None, None) if !from.starts_with("0 ") => {
                format!("{from} to {to} {}", ways(self.placing.part)[1])
            }
            _ => format!("{} to {}", self.with_way(&from), self.with_way(&to)),
        }
    }

    fn advice(&mut self) {
        let title = self.page.rig().proposed.title.as_deref().unwrap_or(self.page.subject.path).to_string();
        let part = name(self.placing.part);
        let (word, mark) = if self.placing.answers() {
            ("WINDOW", &self.palette.good)
        } else {
            ("NO WINDOW", &self.palette.bad)
        };
        let head = format!("{}{word}{}  {title}: where the {part} can sit", mark.0, mark.1);
        self.page.line(&head);
        let advice = self.advice_words();
        self.wrapped(&advice, 2, 2);
        if let Some(spot) = &self.placing.spot {
            let line = format!("      {} = \"{}\"", self.placing.part.path(), self.stated(spot));
            self.page.line(&line);
        }
    }

    fn advice_words(&self) -> String {
        let placing = self.placing;
        let part = name(placing.part);
        let mut out = String::new();
        let unmendable = self.rows_no_move_mends(true);
        if !unmendable.is_empty() {
            let range = if placing.stated { "within its travel" } else { "within the range looked at" };
            let _ = write!(out, "No move of the {part} {range} mends {}. ", few(&unmendable));
        }
        match (&placing.spot, placing.window()) {
            (Some(spot), Some(window)) => {
                let by = self.by(spot.shift);
                let shown = if spot.finer { self.fine(by) } else { self.units.distance(by) };
                let window = self.window_words(window.interval);
                let aim = match spot.preferred {
                    Some(share) => format!("the tongue share is nearest to the {} preferred", percent(share)),
                    None => "the middle of the window".to_string(),
                };
                let rest = if unmendable.is_empty() { "" } else { "For the rest: " };
                let there = if shown.starts_with("0 ") {
                    format!("leave the {part} where it {}; {aim} (window {window}).", is_are(placing.part))
                } else if placing.windows.iter().any(|window| window.interval.holds(placing.now)) {
                    format!("the {part} may stay; {aim} is {} (window {window}).", self.with_way(&shown))
                } else {
                    let verb = if placing.part == Part::Tongue { "draw" } else { "move" };
                    format!("{verb} the {part} {} (window {window}).", self.with_way(&shown))
                };
                let _ = write!(out, "{rest}{}", if rest.is_empty() { capital(&there) } else { there });
                if placing.windows.len() > 1 {
                    let _ = write!(out, " There are {} windows.", placing.windows.len());
                }
                if spot.finer {
                    out.push_str(" The window is narrower than a tape can set.");
                }
                if placing.now.si() != 0.0 {
                    let now = self.units.distance(placing.now);
                    let _ = write!(
                        out,
                        " Moves are from where the file's shift of {now} puts it; the value below is the whole shift."
                    );
                }
            }
            _ => {
                let _ = write!(out, "{}", capital(&self.conflict_words()));
            }
        }
        let core = placing.unknown.iter().filter(|unknown| unknown.core || unknown.counts).count();
        if !placing.held.iter().any(|held| held.limit.counts && held.moves) {
            out.push_str(
                " Nothing that the move changes could be checked: the keys to fill in are listed below.",
            );
        } else if core > 0 {
            let checks = if core == 1 { "check that counts was" } else { "checks that count were" };
            let _ = write!(out, " {core} {checks} not made: as far as the rest tells.");
        }
        out
    }

    /// Ids of the rows that no move mends, each once.
    fn rows_no_move_mends(&self, counting: bool) -> Vec<String> {
        let mut ids = Vec::new();
        for held in self.placing.held.iter().filter(|held| held.never() && held.limit.counts == counting) {
            let id = held.limit.id();
            if !ids.contains(&id) {
                ids.push(id);
            }
        }
        ids
    }

    fn windows(&mut self) {
        if self.placing.windows.is_empty() {
            return;
        }
        self.page.heading("What closes it");
        let [back, on] = ways(self.placing.part);
        let mut lines = Vec::new();
        for window in &self.placing.windows {
            lines.push((2, format!("window {}:", self.window_words(window.interval))));
            let shown = self.rounded(window.interval);
            for ((closer, way), end) in window.closed_by.iter().zip([back, on]).zip(&shown) {
                lines.push((4, format!("{way}, at {}: {}", self.with_way(end), self.closer(*closer))));
            }
        }
        for (indent, line) in lines {
            self.wrapped(&line, indent, indent + 2);
        }
        if !self.placing.stated {
            let range = self.units.distance(self.placing.range.to);
            let path = self.placing.part.path().replace("shift", "travel");
            let line = format!("Looked at {range} each way: the file states no {path} (assumed).");
            self.wrapped(&line, 2, 4);
        }
    }

    fn closer(&self, closer: Closer) -> String {
        match closer {
            Closer::Limit(i) => self.limit_words(&self.placing.held[i].limit),
            Closer::Range if self.placing.stated => "the travel that the file allows".to_string(),
            Closer::Range => "as far as was looked".to_string(),
            Closer::Refused => {
                "beyond it a rule of the file is broken, or the trailer does not rest on its wheels"
                    .to_string()
            }
        }
    }

    /// The row that a limit belongs to.
    fn row(&self, limit: &Limit) -> Option<&Row> {
        let rows = &self.page.findings().assessment.rows;
        rows.iter().find(|row| row.check == limit.check && row.of == limit.of)
    }

    /// `from 7.0 %`, `up to 4400 lb`.
    fn bound(&self, limit: &Limit) -> String {
        let row = self.row(limit);
        let (word, end) = match limit.side {
            Side::Min => ("from", row.and_then(|row| row.min)),
            Side::Max => ("up to", row.and_then(|row| row.max)),
        };
        end.map(|end| format!("{word} {}", words::amount(end, self.units))).unwrap_or_default()
    }

    fn limit_words(&self, limit: &Limit) -> String {
        let place = self.place_words(limit);
        format!("{}, {}{place}", limit.id(), self.bound(limit))
    }

    fn place_words(&self, limit: &Limit) -> String {
        let setup = &self.page.rig().proposed;
        let case = limit.case.filter(|_| setup.cases.len() > 1);
        let ramp = limit.ramp.filter(|_| setup.ramps.len() > 1);
        let case = case.map(|case| format!(" [case {}]", case + 1)).unwrap_or_default();
        let ramp = ramp.map(|ramp| format!(" [{}]", words::ramp(self.page.rig(), ramp))).unwrap_or_default();
        case + &ramp
    }

    fn conflict(&mut self) {
        if self.placing.conflict.is_none() {
            return;
        }
        self.page.heading("What conflicts");
        let text = capital(&self.conflict_words());
        self.wrapped(&text, 2, 4);
    }

    fn conflict_words(&self) -> String {
        match self.placing.conflict {
            Some(Conflict::Pair { limits: [one, other], ends }) => {
                let limit = |i: usize| self.limit_words(&self.placing.held[i].limit);
                let end = |at: Length| self.with_way(&self.units.distance(self.by(at)));
                let apart = self.units.distance((ends[1] - ends[0]).abs());
                format!(
                    "two limits conflict by {apart}: {} holds to {} at the nearest, and {} to {}.",
                    limit(one),
                    end(ends[0]),
                    limit(other),
                    end(ends[1])
                )
            }
            Some(Conflict::Together) => {
                "any two limits hold somewhere together, but not all: see the table.".to_string()
            }
            None => String::new(),
        }
    }

    fn unmendable(&mut self) {
        let never = self.placing.held.iter().filter(|held| held.never() && held.limit.counts);
        let lines: Vec<String> = never.map(|held| self.never_words(held)).collect();
        if lines.is_empty() {
            return;
        }
        self.page.heading("What no move mends");
        for line in lines {
            self.wrapped(&line, 2, 4);
        }
        let set = self
            .placing
            .spot
            .as_ref()
            .map(|spot| format!(" --set {}=\"{}\"", self.placing.part.path(), self.stated(spot)));
        let line = format!(
            "Their whole rows are left out of the windows. What else would cure them: bunkline check{}",
            set.unwrap_or_default()
        );
        self.wrapped(&line, 2, 4);
    }

    fn never_words(&self, held: &Held) -> String {
        let limit = self.limit_words(&held.limit);
        let Some(best) = held.best else { return format!("{limit}: nothing holds anywhere") };
        let over = crate::fit::Amount::from_si(held.limit.check.measure, -best.si());
        let miss = words::amount(over, self.units);
        let way = if held.limit.side == Side::Max { "over" } else { "under" };
        if held.moves {
            let at = self.with_way(&self.units.distance(self.by(held.best_at)));
            format!("{limit}: at best {miss} {way}, at {at}")
        } else {
            format!("{limit}: {miss} {way}, wherever it sits")
        }
    }

    /// Limits that hold in part of the range, each with its intervals and a bar; those of all cases together.
    fn table(&mut self, counting: bool, heading: &str) {
        let placing = self.placing;
        let of_kind: Vec<&Held> = placing.held.iter().filter(|held| held.limit.counts == counting).collect();
        let mut told: Vec<&Limit> = Vec::new();
        let mut lines: Vec<String> = Vec::new();
        let mut always: Vec<String> = Vec::new();
        for held in &of_kind {
            if told.iter().any(|limit| limit.is_like(&held.limit)) {
                continue;
            }
            told.push(&held.limit);
            let alike: Vec<&Held> =
                of_kind.iter().copied().filter(|other| other.limit.is_like(&held.limit)).collect();
            if alike.iter().all(|held| held.always(placing.range)) {
                if !always.contains(&held.limit.id()) {
                    always.push(held.limit.id());
                }
            } else if held.moves {
                lines.extend(self.table_lines(&alike));
            } else if !counting {
                lines.push(self.never_words(held));
            }
        }
        if lines.is_empty() {
            return;
        }
        self.page.heading(heading);
        let [back, on] = ways(placing.part);
        let unit = self.units.length_unit();
        let signs = format!(
            "Where each holds, in {unit} from where the {} {}: {on} is +, {back} is -.",
            name(placing.part),
            if placing.part == Part::Axles || placing.part == Part::Bunks { "stand" } else { "stands" }
        );
        self.wrapped(&signs, 2, 4);
        let ruler = format!("{back:<width$}{on}", width = BAR - on.len());
        self.page.line(&columns("", "limit", "holds", "case", &ruler));
        if counting {
            for line in self.together_lines() {
                self.page.line(&line);
            }
        }
        for line in lines {
            if line.chars().count() > 80 {
                self.wrapped(&line, 2, 4);
            } else {
                self.page.line(&line);
            }
        }
        // A row with one side in the table is not told to hold all over.
        always.retain(|id| !told.iter().any(|limit| limit.id() == *id && self.is_partial(limit)));
        if !always.is_empty() {
            let line = format!("All over the range: {}.", always.join(", "));
            self.wrapped(&line, 2, 4);
        }
    }

    fn is_partial(&self, limit: &Limit) -> bool {
        let of_row = |held: &&Held| held.limit.check == limit.check && held.limit.of == limit.of;
        self.placing.held.iter().filter(of_row).any(|held| !held.always(self.placing.range))
    }

    fn together_lines(&self) -> Vec<String> {
        let windows: Vec<Interval> = self.placing.windows.iter().map(|window| window.interval).collect();
        if windows.is_empty() {
            return Vec::new();
        }
        let all = if self.placing.answers() { "together" } else { "the rest" };
        let mut bar = self.bar(&windows, '#');
        if let Some(spot) = &self.placing.spot {
            let at = self.column(spot.shift);
            bar = bar.chars().enumerate().map(|(i, cell)| if i == at { 'X' } else { cell }).collect();
        }
        let mut lines = Vec::new();
        for (i, window) in windows.iter().enumerate() {
            let (label, drawn) = if i == 0 { (all, bar.as_str()) } else { ("", "") };
            lines.push(columns(label, "", &self.signed(*window), "", drawn));
        }
        lines
    }

    fn table_lines(&self, alike: &[&Held]) -> Vec<String> {
        let limit = &alike[0].limit;
        let range = self.placing.range;
        let together = alike
            .iter()
            .fold(vec![range], |together, held| crate::study::interval::meet(&together, &held.holds));
        let bar = self.bar(&together, '=');
        let cases = self.closing_cases(alike, &together);
        let shown: Vec<String> = if together.is_empty() {
            vec!["nowhere".to_string()]
        } else {
            together.iter().map(|interval| self.signed(*interval)).collect()
        };
        let bound = self.bound(limit);
        let line = |(i, shown): (usize, &String)| {
            if i == 0 {
                columns(&limit.id(), &bound, shown, &cases, &bar)
            } else {
                columns("", "", shown, "", "")
            }
        };
        shown.iter().enumerate().map(line).collect()
    }

    /// The cases whose limits end where all of them together do.
    fn closing_cases(&self, alike: &[&Held], together: &[Interval]) -> String {
        if self.page.rig().proposed.cases.len() < 2 {
            return String::new();
        }
        let ends = |interval: &Interval| [interval.from, interval.to];
        let range = ends(&self.placing.range);
        let closing: Vec<Length> =
            together.iter().flat_map(ends).filter(|end| !range.contains(end)).collect();
        let closes = |held: &&&Held| {
            held.never() || held.holds.iter().flat_map(ends).any(|end| closing.contains(&end))
        };
        let mut cases: Vec<String> = Vec::new();
        for case in alike.iter().filter(closes).filter_map(|held| held.limit.case) {
            let case = (case + 1).to_string();
            if !cases.contains(&case) {
                cases.push(case);
            }
        }
        if cases.len() > 2 { "all".to_string() } else { cases.join(",") }
    }

    /// An interval with signs, an end that is the range's left open.
    fn signed(&self, interval: Interval) -> String {
        let [from, to] = self.rounded(interval).map(|shown| {
            shown.strip_suffix(self.units.length_unit()).unwrap_or(&shown).trim_end().to_string()
        });
        let range = self.placing.range;
        match (interval.from == range.from, interval.to == range.to) {
            (true, true) => "everywhere".to_string(),
            (true, false) => format!("up to {to}"),
            (false, true) => format!("from {from}"),
            (false, false) => format!("{from} to {to}"),
        }
    }

    fn bar(&self, intervals: &[Interval], mark: char) -> String {
        let at = |column: usize| {
            let share = (column as f64 + 0.5) / BAR as f64;
            self.placing.range.from + self.placing.range.width() * share
        };
        let cell = |column: usize| {
            let holds = intervals.iter().any(|interval| interval.holds(at(column)));
            if holds { mark } else { '.' }
        };
        (0..BAR).map(cell).collect()
    }

    /// The column of a bar in which a shift lies.
    fn column(&self, shift: Length) -> usize {
        let range = self.placing.range;
        let share = if range.width().si() > 0.0 { (shift - range.from) / range.width() } else { 0.0.into() };
        // A share is at most one, a bar a few columns.
        usize::try_from((share.si() * BAR as f64) as i64).unwrap_or(0).min(BAR - 1)
    }

    fn at_the_spot(&mut self) {
        let Some(spot) = &self.placing.spot else { return };
        let findings = self.page.findings();
        let units = self.units;
        self.page.heading("At that spot, level ground");
        let mut lines = Vec::new();
        for (i, loads) in findings.assessment.cases.iter().enumerate() {
            let name = words::case(self.page.rig(), i);
            lines.push((2, format!("case {}: {name}", i + 1)));
            if let Ok(level) = &loads.level {
                let stance = &level.stance;
                let share = loads.tongue_share().map(percent).unwrap_or_default();
                let axles: Vec<String> = stance.axle_loads.iter().map(|load| units.weight(*load)).collect();
                let word = if axles.len() == 1 { "axle" } else { "axles" };
                let tongue = units.weight(stance.tongue_weight);
                lines.push((4, format!("tongue {tongue}, {share} of gross; {word} {}", axles.join(", "))));
            }
            if let Some(Some((limit, gap))) = spot.tightest.get(i) {
                lines.push((4, self.tightest_words(limit, gap)));
            }
        }
        let outside = |verdict: Verdict| -> Vec<String> {
            let rows = findings.assessment.rows.iter().filter(|row| row.verdict == verdict);
            rows.map(Row::id).collect()
        };
        let (fails, advises) = (outside(Verdict::Fail), outside(Verdict::Advise));
        let verdict = words::rig_verdict(findings.assessment.verdict).to_uppercase();
        let mut line = format!("All checks made there: {verdict}");
        if !fails.is_empty() {
            let _ = write!(line, "; {} fail", few(&fails));
        }
        if !advises.is_empty() {
            let _ = write!(line, "; also outside there, but only advising: {}", few(&advises));
        }
        lines.push((2, line + "."));
        for (indent, line) in lines {
            self.wrapped(&line, indent, indent + 2);
        }
    }

    fn tightest_words(&self, limit: &Limit, gap: &Gap) -> String {
        let amount =
            |si: f64| words::amount(crate::fit::Amount::from_si(limit.check.measure, si), self.units);
        format!(
            "tightest of what the move changes: {}, {} left",
            self.limit_words_in_case(limit),
            amount(gap.inside)
        )
    }

    fn limit_words_in_case(&self, limit: &Limit) -> String {
        format!("{}, {}", limit.id(), self.bound(limit))
    }
}

/// A line of the table; a long id has a line of its own.
fn columns(id: &str, limit: &str, holds: &str, case: &str, bar: &str) -> String {
    let rest = format!("{limit:<14}{holds:<22}{case:<5}{bar}");
    let line = if id.chars().count() < 19 {
        format!("  {id:<19}{rest}")
    } else {
        format!("  {id}\n{:21}{rest}", "")
    };
    line.trim_end().to_string()
}

/// A list of ids, cut where it is long.
fn few(ids: &[String]) -> String {
    match ids {
        [] => String::new(),
        [one] => one.clone(),
        _ if ids.len() <= 5 => {
            let (last, others) = (&ids[ids.len() - 1], &ids[..ids.len() - 1]);
            format!("{} and {last}", others.join(", "))
        }
        _ => format!("{} and {} more", ids[..4].join(", "), ids.len() - 4),
    }
}
