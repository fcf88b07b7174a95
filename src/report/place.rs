//! The report of a place: where a part must sit, what says so, and what it comes to there.

mod chart;

use super::document::{Bar, Cell, Document, Holds, Item, Role, Table, Text};
use super::page::{Extent, Page};
use super::sections::{Report, capital, some_of, verdict_title};
use super::words::listed;
use super::{Subject, words};
use crate::fit::{Amount, Judge, Limit, RigVerdict, Row, Side, Standing, Verdict};
use crate::quantity::show::{UnitSystem, exact, percent, written};
use crate::quantity::{Kind, Length, Quantity, Share, Uncertain, parse};
use crate::study::interval::Interval;
use crate::study::place::{Closer, Conflict, Held, Part, Placing, Spot, SureSearch, Window};
use std::fmt::Write;

/// The shift of a spot as a rig file states it: read back, it is the very spot.
pub fn to_write(spot: &Spot, units: UnitSystem) -> String {
    let tape = units.distance(spot.shift);
    if parse::<Length>(&tape).is_ok_and(|read| read.value == spot.shift) {
        return tape;
    }
    exact(spot.shift.si(), Kind::Length, units).unwrap_or(tape)
}

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
pub fn report(subject: &Subject<'_>, placing: &Placing, extent: Extent) -> Document {
    let page = Page::new(Report::new(subject, None));
    let mut place = Place { page, placing, units: subject.units, extent };
    place.advice();
    place.page.stays();
    if placing.lacks.is_empty() {
        place.found();
    }
    if extent == Extent::Full {
        return place.page.whole();
    }
    // What other places lack is named already.
    place.page.keys_to_fill_in(placing.depends() || !placing.lacks.is_empty());
    place.page.fitted()
}

struct Place<'a> {
    page: Page<'a>,
    placing: &'a Placing,
    units: UnitSystem,
    extent: Extent,
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
        Part::Tongue => ["outward", "inward"],
        Part::Boat | Part::Axles | Part::Bunks => ["forward", "aft"],
    }
}

fn is_are(part: Part) -> &'static str {
    match part {
        Part::Boat | Part::Tongue => "is",
        Part::Axles | Part::Bunks => "are",
    }
}

fn stands(part: Part) -> &'static str {
    match part {
        Part::Boat | Part::Tongue => "stands",
        Part::Axles | Part::Bunks => "stand",
    }
}

impl Place<'_> {
    /// Where the part may sit, what says so, and what it comes to there.
    fn found(&mut self) {
        self.windows();
        self.page.stays();
        self.chart();
        self.page.stays();
        self.beyond_moving();
        self.page.stays();
        self.at_the_spot();
        self.page.gives_way(2, "the loads at the spot");
        self.table(true, "Limits that count");
        self.page.stays();
        self.table(false, "Limits that only advise");
        self.page.gives_way(4, "limits that only advise");
    }

    /// A shift as a move from where the part stands.
    fn by(&self, shift: Length) -> Length {
        shift - self.placing.now
    }

    /// A shift as a file states it.
    fn stated(&self, spot: &Spot) -> String {
        to_write(spot, self.units)
    }

    fn fine(&self, length: Length) -> String {
        written(Uncertain { value: length.si(), bound: 0.0 }, Kind::Length, self.units)
    }

    /// An interval of shifts as moves that a tape can set, rounded to lie inside; finer where none does.
    fn rounded(&self, interval: Interval) -> [String; 2] {
        let (from, to) = (self.by(interval.from), self.by(interval.to));
        let [tape, _] = grains(self.units);
        // A whole sixteenth that arithmetic left beside itself stays.
        let steps = |length: Length| length.si() / tape.si();
        let (low, high) = ((steps(from) - 1e-9).ceil(), (steps(to) + 1e-9).floor());
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
            // The nearer end comes first.
            (Some(far), Some(near)) => format!("{near} to {far} {}", ways(self.placing.part)[0]),
            (None, None) if !from.starts_with("0 ") => {
                format!("{from} to {to} {}", ways(self.placing.part)[1])
            }
            _ => format!("{} to {}", self.with_way(&from), self.with_way(&to)),
        }
    }

    fn advice(&mut self) {
        let (role, word) = match () {
            () if self.placing.answers() => (Role::Pass, "WINDOW"),
            () if self.placing.lacks.is_empty() => (Role::Fail, "NO WINDOW"),
            () => (Role::NotChecked, "INCOMPLETE"),
        };
        let advice = self.advice_words();
        // What no move fixes, if anything, and where to move for the rest.
        let answer = if self.rows_no_move_fixes().is_empty() { 1 } else { 2 };
        let (answer, more) = advice.split_at(answer.min(advice.len()));
        let about = self.page.report.subject.name().to_string();
        self.page.report.answer(verdict_title(role, word, &answer.join(" ")), &about);
        if !more.is_empty() {
            self.page.report.document.paragraph(more.join(" "));
        }
        if let Some(spot) = &self.placing.spot {
            let line = format!("{} = \"{}\"", self.placing.part.path(), self.stated(spot));
            self.page.report.document.code(&[line]);
        }
    }

    /// Where the part must sit, the answer first.
    fn advice_words(&self) -> Vec<String> {
        let placing = self.placing;
        let part = name(placing.part);
        if !placing.lacks.is_empty() {
            return vec![format!(
                "Some checks that count could be made only where the {part} {} now. To look at other places, fill in {}.",
                stands(placing.part),
                listed(&words::keys(&placing.lacks))
            )];
        }
        if !placing.depends() {
            return vec![format!(
                "No check that must hold and could be made depends on where the {part} {}.",
                is_are(placing.part)
            )];
        }
        let mut sentences = Vec::new();
        let beyond = self.rows_no_move_fixes();
        if !beyond.is_empty() {
            let range = if placing.stated { "within its travel" } else { "within the range searched" };
            sentences.push(format!("No move of the {part} {range} fixes {}.", few(&beyond)));
        }
        match (&placing.spot, placing.window()) {
            (Some(spot), Some(window)) => {
                let advice = self.spot_words(spot, window);
                sentences.push(if beyond.is_empty() {
                    capital(&advice)
                } else {
                    format!("For the rest: {advice}")
                });
                sentences.extend(self.sure_words(spot));
                sentences.extend(self.remarks(spot));
            }
            _ if placing.windows.is_empty() => sentences.push(capital(&self.conflict_words())),
            _ => {
                let windows: Vec<String> =
                    placing.windows.iter().map(|window| self.window_words(window.interval)).collect();
                sentences.push(format!("Everything that a move can fix holds {}.", windows.join(", and ")));
            }
        }
        // Elsewhere in the range others may not be made: there they count as not holding.
        let rows = self.page.report.findings().assessment.rows.iter();
        let unmade = rows.filter(|row| row.counts && row.verdict == Verdict::NotChecked).count();
        if unmade > 0 {
            let checks = if unmade == 1 { "check that counts was" } else { "checks that count were" };
            sentences.push(format!("{unmade} {checks} not evaluated: this answer rests on the others."));
        }
        sentences
    }

    /// Where the spot is, in a sentence without its capital.
    fn spot_words(&self, spot: &Spot, window: &Window) -> String {
        let placing = self.placing;
        let part = name(placing.part);
        let by = self.by(spot.shift);
        let shown = if spot.finer { self.fine(by) } else { self.units.distance(by) };
        let way = self.with_way(&shown);
        let searched = spot.sureness.as_ref().and_then(|sureness| sureness.search.as_ref());
        let sure_run = searched.is_some_and(|search| search.run.is_some());
        let aim = match spot.preferred {
            Some(share) if sure_run => {
                format!("the sure spot nearest to the preferred tongue share of {}", percent(share))
            }
            Some(share) => format!("nearest to the preferred tongue share of {}", percent(share)),
            None if sure_run => "the middle of the sure spots".to_string(),
            None => match window.clear.filter(|clear| *clear != window.interval) {
                Some(_) => "the middle of where the fewest checks advise".to_string(),
                None => "the middle of the window".to_string(),
            },
        };
        let window = self.closed_window(window);
        let may_stay = if spot.sureness.is_some() {
            format!("as stated the {part} may stay")
        } else {
            format!("the {part} may stay")
        };
        if shown.starts_with("0 ") {
            format!("leave the {part} where it {}: {aim}; window {window}.", is_are(placing.part))
        } else if placing.windows.iter().any(|window| window.interval.holds(placing.now)) {
            format!("{may_stay}; {aim} is {way}; window {window}.")
        } else {
            let verb = if placing.part == Part::Tongue { "draw" } else { "move" };
            format!("{verb} the {part} {way}, {aim}; window {window}.")
        }
    }

    /// What the bounds of inputs and the ranges of what is assumed leave of the spot, where there are any.
    fn sure_words(&self, spot: &Spot) -> Vec<String> {
        let Some(sureness) = &spot.sureness else { return Vec::new() };
        let verdict = self.page.report.findings().assessment.verdict;
        let stamp = words::rig_verdict(verdict).to_uppercase();
        let mut sentences = vec!["Windows are for the values as stated.".to_string()];
        let found = match &sureness.search {
            None if verdict == RigVerdict::Pass => {
                format!("With what is uncertain at its worst the verdict at the spot is {stamp}.")
            }
            None => {
                format!(
                    "With what is uncertain at its worst no check at the spot is unsure, and the verdict there is {stamp}."
                )
            }
            Some(SureSearch { as_stated, unsure, tried, run: Some(run) }) => {
                let first = if spot.preferred.is_some() {
                    "Nearest to that share"
                } else {
                    "At the place chosen by these"
                };
                let at = self.with_way(&self.units.distance(self.by(*as_stated)));
                let (unsure, run_words) = (few(unsure), self.window_words(*run));
                let sure = if run.width().si() > 0.0 {
                    format!("those from {run_words} are sure")
                } else {
                    format!("the one {run_words} is sure")
                };
                format!(
                    "{first}, {at}, the stated ± and what is assumed leave {unsure} unsure. Of {tried} spots tried, {sure}. \
                     With all of it at its worst the verdict at the one chosen is {stamp}."
                )
            }
            Some(SureSearch { unsure, tried, run: None, .. }) => format!(
                "With what is uncertain at its worst the verdict at the spot is {stamp}, with {} unsure. Of {tried} spots \
                 tried, none is sure.",
                few(unsure)
            ),
        };
        sentences.push(found);
        sentences
    }

    /// What else there is to know of the spot.
    fn remarks(&self, spot: &Spot) -> Vec<String> {
        let mut remarks = Vec::new();
        let band = self.page.report.rig().proposed().policy.tongue_share;
        if let (Some(share), Some(min), Some(max)) = (spot.preferred, band.min, band.max)
            && (share < min || share > max)
        {
            let band = format!("{} to {}", percent(min), percent(max));
            remarks.push(format!("The preferred share lies outside the policy's band of {band}."));
        }
        if self.placing.windows.len() > 1 {
            remarks.push(format!("There are {} windows.", self.placing.windows.len()));
        }
        if spot.finer {
            remarks.push("The window is narrower than a tape can measure.".to_string());
        }
        if self.placing.now.si() != 0.0 {
            let now = self.units.distance(self.placing.now);
            remarks.push(format!(
                "Moves are from where the present shift of {now} puts it. The value below is the whole shift."
            ));
        }
        remarks
    }

    /// Ids of the rows that count and that no move fixes, each once.
    fn rows_no_move_fixes(&self) -> Vec<String> {
        let mut ids = Vec::new();
        for held in self.placing.held.iter().filter(|held| held.never() && held.limit.fails()) {
            let id = held.limit.id();
            if !ids.contains(&id) {
                ids.push(id);
            }
        }
        ids
    }

    fn windows(&mut self) {
        let placing = self.placing;
        if placing.windows.is_empty() || !placing.depends() {
            return;
        }
        let [back, on] = ways(placing.part);
        let several = placing.windows.len() > 1;
        let mut items: Vec<Item> = Vec::new();
        for window in &placing.windows {
            let shown = self.rounded(window.interval);
            let ends = window.closed_by.iter().zip([back, on]).zip(&shown);
            let ends = ends.map(|((closer, way), end)| {
                format!("{way} end, {}: {}", self.with_way(end), self.closer(*closer))
            });
            if several {
                let text = format!("window {}:", self.window_words(window.interval)).into();
                items.push(Item { text, below: ends.map(Text::from).collect() });
            } else {
                items.extend(ends.map(Item::from));
            }
        }
        self.page.report.document.heading(if several {
            "What limits the windows"
        } else {
            "What limits the window"
        });
        self.page.report.document.list(items);
        if !placing.stated {
            let path = placing.part.path().replace("shift", "travel");
            let Interval { from, to } = placing.range;
            let searched = if -from == to {
                format!("{} each way", self.units.distance(to))
            } else {
                self.rounded(placing.range).map(|end| self.with_way(&end)).join(" to ")
            };
            self.page
                .report
                .document
                .paragraph(format!("Searched {searched}, because the file states no {path}."));
        }
    }

    /// A window with what closes each end: `3 in forward (the travel) to 5 in aft (tongue-share)`.
    fn closed_window(&self, window: &Window) -> String {
        let by = |closer: Closer| match closer {
            Closer::Limit(i) => self.placing.held[i].limit.id(),
            Closer::Range if self.placing.stated => "the travel".to_string(),
            Closer::Range => "the range searched".to_string(),
            Closer::Ball => "the ball".to_string(),
            Closer::Refused => "a rule of the file".to_string(),
        };
        let ends = self.rounded(window.interval);
        let ends = ends.iter().zip(window.closed_by);
        let ends: Vec<String> =
            ends.map(|(end, closer)| format!("{} ({})", self.with_way(end), by(closer))).collect();
        ends.join(" to ")
    }

    fn closer(&self, closer: Closer) -> String {
        match closer {
            Closer::Limit(i) => self.limit_words(&self.placing.held[i].limit),
            Closer::Range if self.placing.stated => "the travel that the file allows".to_string(),
            Closer::Range => "the end of the range searched".to_string(),
            Closer::Ball => "there the bow stop stands at the ball".to_string(),
            Closer::Refused => {
                "beyond it a rule of the file is broken, or the trailer does not rest on its wheels"
                    .to_string()
            }
        }
    }

    /// The row that a limit belongs to.
    fn row(&self, limit: &Limit) -> Option<&Row> {
        let rows = &self.page.report.findings().assessment.rows;
        rows.iter().find(|row| row.check == limit.check && row.of == limit.of)
    }

    /// `from 7.0 %`, `up to 4400 lb`.
    fn bound(&self, limit: &Limit) -> String {
        let row = self.row(limit);
        let (word, end) = match limit.side {
            Side::Min if limit.fails() => ("from", row.and_then(|row| row.fails_below)),
            Side::Max if limit.fails() => ("up to", row.and_then(|row| row.fails_above)),
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
        self.page.report.place(limit.case, limit.ramp)
    }

    fn conflict_words(&self) -> String {
        match self.placing.conflict {
            Some(Conflict::Pair { limits: [one, other], ends: [at, other_at] }) => {
                let ((low, low_at), (high, high_at)) = if at < other_at {
                    ((one, at), (other, other_at))
                } else {
                    ((other, other_at), (one, at))
                };
                let limit = |i: usize| self.limit_words(&self.placing.held[i].limit);
                // Each end is rounded to where its own limit still holds.
                let [_, low_at] = self.rounded(Interval { from: self.placing.range.from, to: low_at });
                let [high_at, _] = self.rounded(Interval { from: high_at, to: self.placing.range.to });
                let apart = self.units.distance((other_at - at).abs());
                format!(
                    "two limits conflict by {apart}. {} holds no farther {} than {}; {}, no farther {} than {}.",
                    limit(low),
                    ways(self.placing.part)[1],
                    self.with_way(&low_at),
                    limit(high),
                    ways(self.placing.part)[0],
                    self.with_way(&high_at)
                )
            }
            Some(Conflict::Together) => {
                "any two limits hold together somewhere, but not all of them: see the table.".to_string()
            }
            None => String::new(),
        }
    }

    fn beyond_moving(&mut self) {
        let lines = self.never_lines(true);
        if lines.is_empty() {
            return;
        }
        self.page.report.document.heading("What no move fixes");
        self.page.report.document.list(lines);
        let spot = self.placing.spot.as_ref();
        let set = spot.map(|spot| format!(" --set {}=\"{}\"", self.placing.part.path(), self.stated(spot)));
        let path = words::in_a_shell(self.page.report.subject.path);
        let command = format!("bunkline check {path}{}", set.unwrap_or_default());
        self.page.report.document.paragraph(Text::from("What else would fix it: ").and(Role::Key, &command));
    }

    /// One line for each limit that holds nowhere in some case, in the case that is farthest from it; rows of
    /// which the same is said share it.
    fn never_lines(&self, counting: bool) -> Vec<String> {
        let of_kind = |held: &&Held| held.never() && held.limit.fails() == counting;
        let never: Vec<&Held> = self.placing.held.iter().filter(of_kind).collect();
        let mut listed: Vec<&Limit> = Vec::new();
        let mut lines: Vec<(Vec<String>, String)> = Vec::new();
        for held in &never {
            if listed.iter().any(|limit| limit.is_like(&held.limit)) {
                continue;
            }
            listed.push(&held.limit);
            let best = |held: &Held| held.best.map_or(f64::NEG_INFINITY, Amount::si);
            let alike = never.iter().filter(|other| other.limit.is_like(&held.limit));
            let farthest = alike.copied().reduce(|a, b| if best(b) < best(a) { b } else { a });
            let said = self.never_words(farthest.unwrap_or(held));
            match lines.iter_mut().find(|(_, known)| *known == said) {
                Some((ids, _)) => ids.push(held.limit.id()),
                None => lines.push((vec![held.limit.id()], said)),
            }
        }
        lines.into_iter().map(|(ids, said)| format!("{}, {said}", ids.join(", "))).collect()
    }

    fn never_words(&self, held: &Held) -> String {
        let limit = format!("{}{}", self.bound(&held.limit), self.place_words(&held.limit));
        let Some(best) = held.best else { return format!("{limit}: it holds nowhere") };
        let over = Amount::from_si(held.limit.check.measure, -best.si());
        let miss = words::amount(over, self.units);
        let way = if held.limit.side == Side::Max { "over" } else { "under" };
        if held.moves {
            let at = self.with_way(&self.units.distance(self.by(held.best_at)));
            format!("{limit}: at best {miss} {way}, at {at}")
        } else {
            let sits = if self.placing.part == Part::Boat { "sits" } else { "is" };
            format!("{limit}: {miss} {way}, wherever it {sits}")
        }
    }

    /// Limits that hold in part of the range, each with its intervals and a bar; those of all cases together.
    fn table(&mut self, counting: bool, heading: &str) {
        let placing = self.placing;
        let of_kind: Vec<&Held> = placing.held.iter().filter(|held| held.limit.fails() == counting).collect();
        let mut listed: Vec<&Limit> = Vec::new();
        let mut lines: Vec<Line> = Vec::new();
        let mut always: Vec<String> = Vec::new();
        for held in &of_kind {
            if listed.iter().any(|limit| limit.is_like(&held.limit)) {
                continue;
            }
            listed.push(&held.limit);
            let alike: Vec<&Held> =
                of_kind.iter().copied().filter(|other| other.limit.is_like(&held.limit)).collect();
            if alike.iter().all(|held| held.always(placing.range)) {
                always.push(held.limit.id());
            } else if !alike.iter().any(|held| held.never()) {
                let line = self.table_line(&alike);
                match lines.iter_mut().find(|known| known.says_the_same(&line)) {
                    Some(known) => known.more += 1,
                    None => lines.push(line),
                }
            }
        }
        // A row with one side in the table does not hold all over.
        always.retain(|id| !listed.iter().any(|limit| limit.id() == *id && self.is_partial(limit)));
        always.dedup();
        let never = if counting { Vec::new() } else { self.never_lines(false) };
        if lines.is_empty() && never.is_empty() && (always.is_empty() || !counting) {
            return;
        }
        self.page.report.document.heading(heading);
        if !lines.is_empty() {
            self.draw(lines, counting);
        }
        self.page.report.document.list(never);
        if !always.is_empty() {
            let always = match self.extent {
                Extent::Full => always.join(", "),
                Extent::Page => some_of(&always),
            };
            let line = format!("Hold over the whole range: {always}.");
            self.page.report.document.paragraph(line);
        }
        if !counting && !placing.ramps && !self.page.report.rig().proposed().ramps.is_empty() {
            self.page.report.document.paragraph(
                "Checks over ramps were evaluated at the spot only; --no-ramps left them out of the search.",
            );
        }
    }

    fn draw(&mut self, lines: Vec<Line>, counting: bool) {
        let part = self.placing.part;
        let [back, on] = ways(part);
        let unit = match self.units {
            UnitSystem::Us => "inches",
            UnitSystem::Metric => "mm",
        };
        let stands = stands(part);
        self.page.report.document.paragraph(format!(
            "Where each holds, in {unit} from where the {} {stands} ({on} +, {back} -):",
            name(part)
        ));
        let several = lines.iter().any(|line| line.more > 0);
        // The bar runs from the range's lower end to its upper one.
        let ruler = format!("{back} to {on}");
        let mut table = Table::new([
            (Holds::Name, "limit"),
            (Holds::Words, ""),
            (Holds::Words, "holds"),
            (Holds::Words, "case"),
            (Holds::Words, &ruler),
        ]);
        if counting {
            table.rows.extend(self.together_rows());
        }
        table.rows.extend(lines.into_iter().flat_map(Line::rows));
        self.page.report.document.table(table);
        let mut marks = Vec::new();
        if counting && !self.placing.windows.is_empty() {
            marks.push("|: where it stands now");
        }
        if counting && self.placing.spot.is_some() {
            marks.push("X: the spot");
        }
        if several {
            marks.push("+N: the same for N more checks");
        }
        if !marks.is_empty() {
            self.page.report.document.paragraph(format!("{}.", marks.join("; ")));
        }
    }

    fn is_partial(&self, limit: &Limit) -> bool {
        let of_row = |held: &&Held| held.limit.check == limit.check && held.limit.of == limit.of;
        self.placing.held.iter().filter(of_row).any(|held| !held.always(self.placing.range))
    }

    fn together_rows(&self) -> Vec<Vec<Cell>> {
        let windows: Vec<Interval> = self.placing.windows.iter().map(|window| window.interval).collect();
        let all = if self.placing.answers() { "together" } else { "the rest" };
        let mut bar = self.bar(&windows, Role::Pass);
        if self.placing.range.holds(self.placing.now) {
            bar.marks.push((self.share(self.placing.now), '|'));
        }
        bar.marks.extend(self.placing.spot.as_ref().map(|spot| (self.share(spot.shift), 'X')));
        let holds = windows.iter().map(|window| self.signed(*window)).collect();
        rows(all.into(), String::new(), holds, String::new(), bar)
    }

    fn table_line(&self, alike: &[&Held]) -> Line {
        let limit = &alike[0].limit;
        let together = self.placing.common_to(alike);
        let holds = if together.is_empty() {
            vec!["nowhere".to_string()]
        } else {
            together.iter().map(|interval| self.signed(*interval)).collect()
        };
        Line {
            id: limit.id(),
            more: 0,
            bound: self.bound(limit),
            holds,
            cases: self.closing_cases(alike, &together),
            bar: self.bar(&together, Role::Plain),
        }
    }

    /// The cases whose limits end where all of them together do.
    fn closing_cases(&self, alike: &[&Held], together: &[Interval]) -> String {
        if self.page.report.rig().proposed().cases.len() < 2 {
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

    fn bar(&self, intervals: &[Interval], role: Role) -> Bar {
        let filled = intervals.iter().map(|interval| (self.share(interval.from), self.share(interval.to)));
        Bar { role, filled: filled.collect(), ..Bar::default() }
    }

    /// Where in the range a shift lies, from 0 to 1.
    fn share(&self, shift: Length) -> f64 {
        let range = self.placing.range;
        if range.width().si() > 0.0 { (shift - range.from).si() / range.width().si() } else { 0.0 }
    }

    fn at_the_spot(&mut self) {
        let Some(spot) = &self.placing.spot else { return };
        let findings = self.page.report.findings();
        let units = self.units;
        let mut items: Vec<Item> = Vec::new();
        for (i, loads) in findings.assessment.cases.iter().enumerate() {
            let mut below: Vec<Text> = Vec::new();
            if let Ok(level) = &loads.level {
                let stance = &level.stance;
                let share = loads.tongue_share().map(percent).unwrap_or_default();
                let axles: Vec<String> = stance.axle_loads.iter().map(|load| units.weight(*load)).collect();
                let word = if axles.len() == 1 { "axle" } else { "axles" };
                let tongue = units.weight(stance.tongue_weight);
                below.push(format!("tongue {tongue}, {share} of gross; {word} {}", axles.join(", ")).into());
            }
            if let Some(Some((limit, gap))) = spot.most_used.get(i) {
                below.push(self.most_used_words(limit, gap).into());
            }
            if findings.assessment.cases.len() > 1 {
                let text = format!("case {}: {}", i + 1, words::case(self.page.report.rig(), i)).into();
                items.push(Item { text, below });
            } else {
                items.extend(below.into_iter().map(Item::from));
            }
        }
        let outside = |verdict: Verdict| -> Vec<String> {
            let rows = findings.assessment.rows.iter().filter(|row| row.verdict == verdict);
            rows.map(Row::id).collect()
        };
        let (fails, advises) = (outside(Verdict::Fail), outside(Verdict::Advise));
        let verdict = words::rig_verdict(findings.assessment.verdict).to_uppercase();
        let mut line = format!("Verdict there: {verdict}");
        if !fails.is_empty() {
            let _ = write!(line, "; {} {}", few(&fails), if fails.len() == 1 { "fails" } else { "fail" });
        }
        if !advises.is_empty() {
            let _ = write!(line, "; outside their limits, but only advise: {}", few(&advises));
        }
        items.push((line + ".").into());
        self.page.report.document.heading("At that spot, on level ground");
        self.page.report.document.list(items);
    }

    fn most_used_words(&self, limit: &Limit, gap: &Standing) -> String {
        let left = words::amount(Amount::from_si(limit.check.measure, gap.margin), self.units);
        let used = match (limit.check.judge, gap.used) {
            // The place inside a band is no share of a rating.
            (Judge::Band, _) | (_, None) => String::new(),
            (_, Some(used)) => format!(" at {}", words::used(Share::from_si(used))),
        };
        let bound = self.bound(limit);
        format!("most used of what the move changes: {}{used}, {bound}, margin {left}", limit.id())
    }
}

/// One limit of the table.
struct Line {
    id: String,
    /// How many more rows say the same.
    more: usize,
    bound: String,
    holds: Vec<String>,
    cases: String,
    bar: Bar,
}

impl Line {
    fn says_the_same(&self, other: &Self) -> bool {
        let said = |line: &Self| (line.bound.clone(), line.holds.clone(), line.cases.clone());
        said(self) == said(other) && self.bar == other.bar
    }

    fn rows(self) -> Vec<Vec<Cell>> {
        let mut id = Text::of(Role::Key, &self.id);
        if self.more > 0 {
            id = id.then(&format!(" +{}", self.more));
        }
        rows(id, self.bound, self.holds, self.cases, self.bar)
    }
}

/// The rows of one limit: one for each interval in which it holds.
fn rows(id: Text, bound: String, holds: Vec<String>, cases: String, bar: Bar) -> Vec<Vec<Cell>> {
    let mut first = Some([id.into(), bound.into(), Cell::default(), cases.into(), bar.into()]);
    let row = |holds: String| {
        let mut row = first.take().unwrap_or_default();
        row[2] = holds.into();
        row.into()
    };
    holds.into_iter().map(row).collect()
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
