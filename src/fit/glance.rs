//! A rig at a glance: which row stands for each group of rows, which rows were left out, and what no case loads.

use super::assess::{Assessment, Row};
use super::check::{Judge, Subject};
use super::facts::Facet;
use super::verdict::Verdict;
use crate::quantity::{Quantity, Share};
use crate::rig::{Part, Setup};

/// Rows that a reader asks about as one: those of a subject; of the road, five groups.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// The gross weight.
    Weight,
    /// The tongue on level ground.
    Tongue,
    /// Axles, springs, tires and wheels on level ground.
    Axles,
    /// The same with the rear axle lifted.
    Lifted,
    /// The frame's rails.
    Rails,
    /// Another subject than the road.
    Of(Subject),
}

impl Group {
    /// Every group, in the order of reports.
    pub fn all() -> impl Iterator<Item = Self> {
        let of_road = [Self::Weight, Self::Tongue, Self::Axles, Self::Lifted, Self::Rails];
        let others = Subject::ALL.into_iter().filter(|subject| *subject != Subject::Road);
        of_road.into_iter().chain(others.map(Self::Of))
    }

    /// The group of a row.
    pub fn of(row: &Row) -> Self {
        match row.check.subject {
            Subject::Road if row.check.load.from == Facet::Lifted => Self::Lifted,
            Subject::Road if row.check.id == "trailer-gvwr" => Self::Weight,
            Subject::Road if row.check.id.starts_with("tongue-") => Self::Tongue,
            Subject::Road if row.check.load.from == Facet::Frame => Self::Rails,
            Subject::Road => Self::Axles,
            subject => Self::Of(subject),
        }
    }

    /// The subject that it belongs to.
    pub fn subject(self) -> Subject {
        match self {
            Self::Of(subject) => subject,
            _ => Subject::Road,
        }
    }
}

impl Assessment {
    /// The row that stands for a group: one that fails, else one that is unsure, else one that advises, else, of those that
    /// can fail, the one that uses most of its limit; the first of equals. None where no row of the group was evaluated.
    pub fn governing(&self, group: Group) -> Option<&Row> {
        let evaluated = |row: &&Row| row.verdict != Verdict::NotChecked && Group::of(row) == group;
        let worse = |one: &Row, other: &Row| stands(other) > stands(one);
        self.rows.iter().filter(evaluated).reduce(|one, other| if worse(one, other) { other } else { one })
    }

    /// Of the ratings that hold and by which the rig can fail, the one that is used most.
    pub fn tightest(&self) -> Option<(&Row, Share)> {
        let rated = self.rows.iter().filter(|row| {
            let holds = matches!(row.verdict, Verdict::Pass | Verdict::Thin);
            row.counts && holds && matches!(row.check.judge, Judge::Rating | Judge::SignedRating)
        });
        let used = rated.filter_map(|row| Some((row, row.used?)));
        used.max_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()))
    }

    /// The rows that could fail, or that the policy moves, and that were not evaluated, of the subjects that are
    /// covered; of a subject of which no row can fail, all of them. What lacks altogether is in [`Self::not_covered`].
    pub fn left_out(&self) -> impl Iterator<Item = &Row> {
        let decides = |subject| self.rows.iter().any(|row| row.check.subject == subject && row.counts);
        self.rows.iter().filter(move |row| {
            let matters = row.counts || row.moved.is_some() || !decides(row.check.subject);
            row.verdict == Verdict::NotChecked && matters && !self.not_covered.contains(&row.check.subject)
        })
    }

    /// How many rows of the subjects that are covered only advise, and were not evaluated either.
    pub fn only_advise_and_left_out(&self) -> usize {
        let not_checked = self.rows.iter().filter(|row| row.verdict == Verdict::NotChecked);
        let covered = not_checked.filter(|row| !self.not_covered.contains(&row.check.subject));
        covered.count() - self.left_out().count()
    }
}

/// How badly a row stands, the worst greatest.
fn stands(row: &Row) -> (u8, f64) {
    let rank = match row.verdict {
        Verdict::Fail => 4,
        Verdict::Unsure => 3,
        Verdict::Advise => 2,
        _ => u8::from(row.counts),
    };
    (rank, row.weight())
}

impl Row {
    /// How much of its limit is used, to compare rows by: past all where a tongue is lifted or what should hold holds nothing.
    pub(super) fn weight(&self) -> f64 {
        let outside = matches!(self.verdict, Verdict::Fail | Verdict::Advise);
        let holds_nothing = outside && self.check.judge == Judge::Rating && self.load.is_some();
        match self.used.map(Quantity::si) {
            Some(used) if used >= 0.0 => used,
            None if !holds_nothing => 0.0,
            _ => f64::INFINITY,
        }
    }

    /// Whether it says, outside its limits, what makes a trailer dangerous: it lifts the tow vehicle, its tongue is too
    /// light, or no axle is braked.
    pub fn is_danger(&self) -> bool {
        let fails = self.verdict == Verdict::Fail;
        let below = |limit: f64| self.load.is_some_and(|load| load.si() < limit);
        match self.check.id {
            "brakes-required" | "tongue-uplift" => fails,
            "tongue-share" => fails && self.fails_below.is_some_and(|least| below(least.si())),
            _ => {
                let outside = matches!(self.verdict, Verdict::Fail | Verdict::Advise);
                outside && self.check.judge == Judge::SignedRating && below(0.0)
            }
        }
    }
}

/// A part of the boat's load that no case loads in full.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeverLoaded {
    /// The part.
    pub part: Part,
    /// How full a tank is at most; none for a weight, which is never aboard.
    pub at_most: Option<Share>,
}

impl NeverLoaded {
    /// What no case of a setup loads in full: weights that are never aboard, tanks that are never full.
    pub fn of(setup: &Setup) -> Vec<Self> {
        let aboard = |part: Part| setup.cases.iter().any(|case| case.carries(part));
        let weights = (0..setup.boat.weights.len()).map(Part::Weight);
        let weights = weights.filter(|part| !aboard(*part)).map(|part| Self { part, at_most: None });
        let tanks = setup.boat.tanks.iter().enumerate().filter_map(|(i, tank)| {
            let part = Part::Tank(i);
            let fills = setup.cases.iter().filter(|case| case.carries(part)).filter_map(|case| {
                let stated = case.fill.get(i).copied().flatten();
                stated.or(tank.fill)
            });
            let fullest = fills.map(Quantity::si).fold(0.0, f64::max);
            (fullest < 1.0).then_some(Self { part, at_most: Some(Share::from_si(fullest)) })
        });
        weights.chain(tanks).collect()
    }
}
