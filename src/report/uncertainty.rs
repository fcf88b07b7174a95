//! What stated bounds do to the checks, for a reader: what is unsure, what to measure first, how often checks fail.

use super::document::{Item, Role, Text};
use super::sections::{
    Report, alternatives, capital, families, more_checks, the, unless_as_before, worst_first,
};
use super::words;
use crate::fit::{Amount, Range, Row, Verdict};
use crate::quantity::show::{brief, decimals};
use crate::quantity::{Quantity, Share};
use crate::rig::Key;
use crate::study::samples::{Rate, Samples};
use crate::study::uncertainty::{Corner, Uncertainty};

/// What is assumed is worth a measurement where it makes this share of a row's doubt.
const WORTH_IT: f64 = 0.1;

/// How many inputs are named.
const INPUTS_NAMED: usize = 3;
/// How many checks are named that fail in samples.
const ROWS_NAMED: usize = 8;

/// A key to measure, so that an unsure row becomes sure.
pub(super) struct Doubtful {
    /// The key.
    pub key: Key,
    /// What it is, what it does to the row, and how to measure it.
    pub why: String,
}

impl<'a> Report<'a> {
    fn uncertainty(&self) -> Option<&'a Uncertainty> {
        self.subject.uncertainty
    }

    /// Every unsure row with its place, the worst first.
    pub fn unsure(&self) -> Vec<(usize, &'a Row)> {
        let rows = self.findings().assessment.rows.iter().enumerate();
        let mut unsure: Vec<_> = rows.filter(|(_, row)| row.verdict == Verdict::Unsure).collect();
        let first = self.uncertainty().and_then(|uncertainty| uncertainty.governing);
        unsure.sort_by(|(i, a), (j, b)| {
            (Some(*j) == first).cmp(&(Some(*i) == first)).then_with(|| worst_first(a, b))
        });
        unsure
    }

    /// Why a rig is unsure, in one sentence; and how many more checks are.
    pub fn why_unsure(&self) -> String {
        // What is unsure for another reason is explained with that reason.
        let unrest = self.uncertainty().is_some_and(|uncertainty| uncertainty.unfit.is_some());
        let mut unsure = self.unsure();
        unsure.retain(|(i, _)| unrest || self.corner(*i).is_some_and(Corner::is_in_doubt));
        // One that does not hold as stated says more than one that does.
        let fails_as_stated =
            |(_, row): &&(usize, &Row)| row.margin_to_fail.is_some_and(|margin| margin.si() < 0.0);
        let Some((i, row)) = unsure.iter().find(fails_as_stated).or(unsure.first()) else {
            return String::new();
        };
        let cases = words::all_cases(self.findings().assessment.cases.len());
        let there = match self.worst(*i, row) {
            Some(margin) if margin.si() < 0.0 => {
                let name = row.name();
                let [is, its] =
                    [("is", "are"), ("its", "their")].map(|(one, all)| words::agreeing(&name, one, all));
                format!("{} {is} {} outside {its} limits", the(row), self.shown(words::size(margin)))
            }
            _ => format!("{} cannot be computed", the(row)),
        };
        let at_worst = match (&row.range, self.uncertainty()) {
            (None, _) => "every stated ± at its worst",
            (Some(_), None) => "what is assumed at the worst end of its range",
            (Some(_), Some(_)) => "every stated ± and what is assumed at their worst",
        };
        let more = more_checks(unsure.len() - 1, "is unsure", "are unsure");
        if row.margin_to_fail.is_some_and(|margin| margin.si() < 0.0) {
            let (check, name) = (the(row), row.name());
            let [fails, holds] =
                [("fails", "fail"), ("holds", "hold")].map(|(one, all)| words::agreeing(&name, one, all));
            return format!(
                "It passes in {cases} but for {check}, which {fails} as assumed and {holds} at an end of the range of what is assumed.{more}"
            );
        }
        format!("It passes as stated in {cases}, but with {at_worst} {there}.{more}")
    }

    /// How many checks are unsure, beside a graver verdict.
    pub fn also_unsure(&self) -> String {
        match self.unsure().len() {
            0 => String::new(),
            1 => " 1 check is unsure.".to_string(),
            n => format!(" {n} checks are unsure."),
        }
    }

    fn corner(&self, row: usize) -> Option<&'a Corner> {
        self.uncertainty()?.corners.get(row)?.as_ref()
    }

    /// An unsure row's margin to what fails, at its worst.
    fn worst(&self, place: usize, row: &Row) -> Option<Amount> {
        match self.corner(place) {
            Some(corner) => corner.margin_to_fail,
            None => row.range.as_ref()?.margin_to_fail,
        }
    }

    /// What to measure for each unsure row, the worst first: what is assumed and moves it, then the input behind most of
    /// the doubt where the rest does not make all of it. Each key once; of alike axles the first.
    pub fn to_measure(&self) -> Vec<Doubtful> {
        let mut found: Vec<Doubtful> = Vec::new();
        for (i, row) in self.unsure().into_iter().filter(|(_, row)| self.is_about(row)) {
            let range = row.range.as_ref().filter(|range| self.makes_doubt(i, row, range));
            let assumed = range
                .iter()
                .flat_map(|range| range.keys.iter().map(|key| self.assumed_key(*key, row, range)));
            let mut doubtful: Vec<Doubtful> = assumed.collect();
            let fails_by_itself =
                |range: &&Range| range.margin_to_fail.is_none_or(|margin| margin.si() < 0.0);
            if !range.as_ref().is_some_and(fails_by_itself) {
                doubtful.extend(self.bounded_key(i, row));
            }
            for doubtful in doubtful {
                let alike = |known: &Doubtful| known.key.path == doubtful.key.path && row.range.is_some();
                if !found.iter().any(|known| known.key == doubtful.key || alike(known)) {
                    found.push(doubtful);
                }
            }
        }
        found
    }

    /// Whether what is assumed makes a part of a row's doubt that is worth a measurement, beside the ± in the file.
    fn makes_doubt(&self, place: usize, row: &Row, range: &Range) -> bool {
        let worst = self.corner(place).and_then(|corner| corner.margin_to_fail);
        let (Some(stated), Some(assumed), Some(worst)) = (row.margin_to_fail, range.margin_to_fail, worst)
        else {
            return true;
        };
        let (stated, assumed, worst) = (stated.si(), assumed.si(), worst.si());
        stated - assumed >= WORTH_IT * (stated - worst)
    }

    fn assumed_key(&self, key: Key, row: &Row, range: &Range) -> Doubtful {
        let (meaning, how) = key.input().map_or(("", ""), |input| (input.meaning, input.how));
        let (low, high) = (self.shown(range.low), self.shown(range.high));
        let why =
            format!(" ({meaning}, assumed): {} may be {low} to {high}. {how} See `explain {key}`.", the(row));
        Doubtful { key, why }
    }

    fn bounded_key(&self, place: usize, row: &Row) -> Option<Doubtful> {
        let (key, bound, share) = self.uncertainty()?.ranked(place).first().copied()?;
        let (called, bound, part) = (self.called(key), self.bound(key, bound), words::used(share));
        let (check, how) = (the(row), row.check.measuring);
        let why = format!(" ({called}, now {bound}): {part} of the doubt about {check}. {how}");
        Some(Doubtful { key, why })
    }

    /// The margin at its worst of a row that is unsure or advises, to the limit that makes it so.
    pub fn at_worst(&self, row: &Row) -> Option<String> {
        let place = self.findings().assessment.rows.iter().position(|other| std::ptr::eq(other, row))?;
        let margin = match self.corner(place) {
            Some(corner) if row.verdict != Verdict::Unsure => corner.margin,
            _ => self.worst(place, row),
        };
        margin.map(|margin| self.shown(margin))
    }

    fn shown(&self, amount: Amount) -> String {
        words::amount(amount, self.subject.units)
    }

    /// A row's margin at its worst, where that is outside its limits and differs from what is shown as stated.
    pub fn outside_at_worst(&self, row: &Row) -> Option<String> {
        let place = self.findings().assessment.rows.iter().position(|other| std::ptr::eq(other, row))?;
        let corner = self.corner(place)?;
        // Beside the limits that decide the verdict.
        let decides = matches!(row.verdict, Verdict::Unsure | Verdict::Fail);
        let margin = if decides { corner.margin_to_fail } else { corner.margin };
        let Some(margin) = margin else { return Some("not known".to_string()) };
        let (worst, stated) = (self.shown(margin), row.deciding().margin.map(|margin| self.shown(margin)));
        (margin.si() < 0.0 && Some(&worst) != stated.as_ref()).then_some(worst)
    }

    /// For each unsure row, what to measure.
    pub fn doubts(&mut self) {
        let mut unsure = self.unsure();
        unsure.retain(|(_, row)| self.is_about(row));
        if unsure.is_empty() {
            return;
        }
        self.document.heading("What is unsure, and what would make it sure");
        let mut last: Option<(String, Vec<Text>)> = None;
        let items: Vec<Item> = unsure
            .into_iter()
            .map(|(i, row)| {
                let ways = self.ways(i, row);
                Item {
                    text: Text::of(Role::Key, &row.id()).then(&format!(": {}", self.doubt(i, row))),
                    below: unless_as_before(&mut last, row.id(), ways),
                }
            })
            .collect();
        self.document.list(items);
    }

    /// How far inside its limits an unsure row is, and how far outside at the worst.
    pub fn doubt(&self, i: usize, row: &Row) -> String {
        let stated = row.deciding().margin.map(|margin| self.shown(margin)).unwrap_or_default();
        let worst = match self.worst(i, row) {
            Some(margin) if margin.si() < 0.0 => {
                format!("{} outside its limits at the worst", self.shown(words::size(margin)))
            }
            // Its own margin holds wherever there are loads.
            Some(_) => "not known where the trailer does not rest on its wheels".to_string(),
            None => "not known at the worst".to_string(),
        };
        format!("a margin of {stated} as stated, {worst}")
    }

    /// What makes a row sure: what it lacks filled in, its weakest input measured better; and how it is measured.
    fn ways(&self, i: usize, row: &Row) -> Vec<Text> {
        let mut ways: Vec<String> = Vec::new();
        let range = row.range.iter().filter(|range| self.makes_doubt(i, row, range));
        for key in range.flat_map(|range| &range.keys) {
            ways.push(format!("fill in {key}: it is assumed, and the check moves over its range"));
        }
        for key in self.corner(i).map(|corner| corner.missing.as_slice()).unwrap_or_default() {
            ways.push(format!("fill in {key}: without it the check cannot be evaluated at every corner"));
        }
        let ranked = self.uncertainty().map(|uncertainty| uncertainty.ranked(i)).unwrap_or_default();
        if let Some((key, bound, share)) = ranked.first() {
            let (part, bound) = (words::used(*share), self.bound(*key, *bound));
            ways.push(format!("measure {key} more closely than {bound}: it causes {part} of the doubt"));
        }
        let mut lines = alternatives(ways.into_iter());
        lines.push(format!("How to measure it: {}", row.check.measuring).into());
        lines
    }

    /// An input's bound: `± 3 in`.
    fn bound(&self, key: Key, bound: f64) -> String {
        let bound = self.rig().kind(key).map(|kind| brief(bound, kind, self.subject.units));
        format!("± {}", bound.unwrap_or_default())
    }

    /// What an input is, in the file's own words where it has any.
    fn called(&self, key: Key) -> String {
        let boat = &self.rig().proposed().boat;
        let own = match key.path {
            path if path.starts_with("boat.weights.") => {
                boat.weights.get(key.at[0]).and_then(|part| part.item.as_ref().or(part.id.as_ref()))
            }
            path if path.starts_with("boat.tanks.") => {
                boat.tanks.get(key.at[0]).and_then(|part| part.item.as_ref().or(part.id.as_ref()))
            }
            _ => None,
        };
        let meaning = key.input().map_or("", |input| input.meaning);
        own.cloned().unwrap_or_else(|| meaning.to_string())
    }

    /// The inputs that make most of the governing row's uncertainty.
    pub fn measure_first(&mut self) {
        let Some(uncertainty) = self.uncertainty() else { return };
        let rows = &self.findings().assessment.rows;
        let beyond = uncertainty.beyond_doubt.map(|i| the(&rows[i]));
        let corner = uncertainty.governing.and_then(|i| Some((&rows[i], self.corner(i)?)));
        if beyond.is_some() || corner.is_some() {
            self.document.heading("Which measurement to improve first");
        }
        if let Some(beyond) = &beyond {
            self.document.paragraph(format!(
                "No closer measurement changes the verdict on {beyond}: the check fails even with every ± in its favour."
            ));
        }
        if let Some((row, corner)) = corner {
            let worst = corner.margin.map(|margin| self.shown(margin)).unwrap_or_default();
            let (check, name) = (the(row), row.name());
            let [has, its] =
                [("has", "have"), ("its", "their")].map(|(one, all)| words::agreeing(&name, one, all));
            let from = format!("What {its} uncertainty comes from:");
            self.document.paragraph(match beyond {
                None => format!("{} {has} the smallest margin at the worst ({worst}). {from}", capital(&check)),
                Some(_) if corner.is_in_doubt() => {
                    format!("A closer measurement can decide {check} (margin at the worst: {worst}). {from}")
                }
                Some(_) => format!(
                    "Of the checks that pass, {check} {has} the smallest margin at the worst ({worst}). {from}"
                ),
            });
            self.contributions(&uncertainty.ranking());
        }
        let mut remarks: Vec<String> = Vec::new();
        match uncertainty.contradictions {
            0 => {}
            1 => remarks.push(
                "1 of the corners looked at was drawn back: its figures contradict each other.".to_string(),
            ),
            n => remarks.push(format!(
                "{n} of the corners looked at were drawn back: their figures contradict each other."
            )),
        }
        if let Some(unfit) = &uncertainty.unfit {
            let unfit = capital(&unfit.to_string());
            remarks
                .push(format!("{unfit}, at one corner at least: nothing that depends on the loads is sure."));
        }
        if uncertainty.governing.is_none() && !remarks.is_empty() {
            self.document.heading("Within the stated ±");
        }
        for remark in remarks {
            self.document.paragraph(remark);
        }
    }

    /// What each input adds to the uncertainty, the most first.
    fn contributions(&mut self, ranking: &[(Key, f64, Share)]) {
        let matters = ranking.iter().filter(|(_, _, share)| share.si() >= 0.005);
        let mut items: Vec<Text> = Vec::new();
        for (key, bound, share) in matters.clone().take(INPUTS_NAMED) {
            let (part, bound) = (words::used(*share), self.bound(*key, *bound));
            let rest = format!(" {bound} ({})", self.called(*key));
            items.push(Text::from(format!("{part}: ")).and(Role::Key, &key.to_string()).then(&rest));
        }
        let others: Vec<f64> = matters.skip(INPUTS_NAMED).map(|(_, _, share)| share.si()).collect();
        if !others.is_empty() {
            let part = words::used(Share::from_si(others.iter().sum()));
            items.push(format!("{part}: {} more", others.len()).into());
        }
        self.document.list(items);
    }

    /// How often checks fail among samples.
    pub fn samples(&mut self) {
        let Some(samples) = self.uncertainty().and_then(|uncertainty| uncertainty.samples.as_ref()) else {
            return;
        };
        self.document.heading("Random samples within the stated ±");
        let (count, seed) = (samples.count, samples.seed);
        let counting = often(samples.rig);
        self.document.paragraph(format!(
            "{count} samples, seed {seed}; every input is uniform within its ± and independent of the others. A check that counts fails in {counting}."
        ));
        self.document.list(self.failing(samples));
        let left_out = [
            (samples.contradictions, "the figures contradict each other"),
            (samples.unfit, "the trailer does not rest on its wheels"),
        ];
        for (count, why) in left_out {
            if count > 0 {
                self.document.paragraph(format!("In {count} of the samples {why}; they are left out."));
            }
        }
    }

    /// The checks that fail in some sample, those that fail most often first.
    fn failing(&self, samples: &Samples) -> Vec<Text> {
        let rows = self.findings().assessment.rows.iter().zip(&samples.rows);
        let mut failing: Vec<(&Row, Rate)> =
            rows.filter_map(|(row, rate)| Some((row, rate.filter(|rate| rate.fails > 0)?))).collect();
        failing.sort_by(|(_, a), (_, b)| b.share().unwrap_or(0.0).total_cmp(&a.share().unwrap_or(0.0)));
        // What fails in every sample says nothing of the ±: it is named last, and together.
        let (always, sometimes): (Vec<_>, Vec<_>) =
            failing.into_iter().partition(|(_, rate)| rate.standard_error().is_none());
        let named = sometimes.iter().take(ROWS_NAMED).map(|(row, rate)| {
            let advises = if row.counts { "" } else { " (only advises)" };
            Text::of(Role::Key, &row.id()).then(&format!(": {}{advises}", often(*rate)))
        });
        let more = sometimes.len().saturating_sub(ROWS_NAMED);
        let more = (more > 0).then(|| format!("and {more} more checks, less often").into());
        let rows: Vec<&Row> = always.iter().map(|(row, _)| *row).collect();
        let rate = always.iter().map(|(_, rate)| *rate).min_by_key(|rate| rate.of);
        let in_all = rate.map(|rate| format!("in {}: {}", often(rate), families(&rows).join(", ")).into());
        named.chain(more).chain(in_all).collect()
    }
}

/// How often something fails, with its sampling error: `12.3 % of them, standard error 0.1 %`.
fn often(rate: Rate) -> String {
    let Some(share) = rate.share() else { return "none that could be computed".to_string() };
    let bound = rate.within().map(|within| format!("{} %", places(100.0 * within, within)));
    match (rate.standard_error(), bound) {
        (Some(error), _) => {
            format!(
                "{} % of them (standard error {} %)",
                places(100.0 * share, error),
                places(100.0 * error, error)
            )
        }
        (None, bound) if share == 0.0 => {
            format!("none of them (so in less than {})", bound.unwrap_or_default())
        }
        (None, bound) => format!("all of them (to within {})", bound.unwrap_or_default()),
    }
}

/// A number with the decimals that an error in it, as a fraction of one, leaves a meaning.
fn places(number: f64, error: f64) -> String {
    // From 0.1 percent on one decimal, from 0.01 on two, and so on.
    let places = (1..6).find(|places| error >= 0.01 * 0.1_f64.powi(*places)).unwrap_or(6);
    decimals(number, usize::try_from(places).unwrap_or(1))
}
