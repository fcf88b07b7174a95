//! What the ranges of assumed values do to a rig's rows.
//!
//! A default that is assumed may carry the values between which the right one may lie ([`Extent`](crate::rig::inputs::Extent)).
//! Every row is evaluated as assumed and at each combination of these ends. Each combination is the rig that reading the
//! file with these values gives. Ramps are crossed only where ends are combined, since a crossing is a thousand times as dear
//! as the level: what goes to its ends alone changes limits of rows about ramps, never a crossing.

use crate::fit::{Amount, Asked, Doubt, Facts, Fold, Range, Row, Scope, Verdict};
use crate::rig::inputs::Going;
use crate::rig::{Key, Rig, Variable};
use rayon::prelude::*;

/// A load or a margin that differs by less than this share has not moved: the worst moments over a ramp are found to a tenth of it.
const MOVED: f64 = 1e-6;

/// Assumed values that go to their ends together.
struct Dimension {
    values: Vec<(Variable, [f64; 2])>,
    going: Going,
}

impl Dimension {
    /// Whether the value of a path goes to its ends with these.
    fn goes_with(&self, going: Going, path: &str) -> bool {
        match going {
            Going::WithRates => self.going == going,
            Going::WithEach => false,
            Going::Alone => self.keys().any(|key| key.path == path),
        }
    }

    fn keys(&self) -> impl Iterator<Item = Key> {
        self.values.iter().flat_map(|(variable, _)| variable.keys())
    }
}

/// What is tried of a rig's assumed values.
pub(super) struct Combinations {
    dimensions: Vec<Dimension>,
    /// Which end each dimension is at, with the rig there: as assumed first, then where ends are combined.
    all: Vec<(Vec<Option<usize>>, Rig)>,
    /// How many of these ramps are crossed at; the others stand on the crossings of one of them.
    crossed: usize,
}

/// How a row stands at one combination.
#[derive(Debug, Clone, Copy)]
struct Stood {
    load: Option<f64>,
    margin: Option<f64>,
    to_fail: Option<f64>,
    verdict: Verdict,
    /// It could not be evaluated, and a limit past which the rig fails is among what could not.
    may_fail: bool,
}

/// What the ranges do to one row.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Ranged {
    /// What became of it at the ends.
    pub doubt: Doubt,
    /// From where to where it goes; `None` where nothing that is assumed moves it.
    pub range: Option<Range>,
    /// The combination that leaves it least, by its place; 0 as assumed.
    pub worst: usize,
}

impl Combinations {
    /// Every combination of the ends of what a rig assumes. Ends that break a rule of the file are left out.
    pub fn of(rig: &Rig) -> Self {
        let dimensions = dimensions(rig);
        let mut ends = vec![vec![None; dimensions.len()]];
        let combined = (0..dimensions.len()).filter(|i| dimensions[*i].going != Going::Alone);
        let mut corners = ends.clone();
        for i in combined {
            corners = corners.into_iter().flat_map(|ends| both_ends(&ends, i)).collect();
        }
        ends.extend(corners.into_iter().filter(|ends| ends.iter().any(Option::is_some)));
        let crossed = ends.len();
        for i in (0..dimensions.len()).filter(|i| dimensions[*i].going == Going::Alone) {
            ends.extend(ends[..crossed].to_vec().iter().flat_map(|ends| both_ends(ends, i)));
        }
        let at = |ends: &Vec<Option<usize>>| {
            let chosen =
                dimensions.iter().zip(ends).filter_map(|(dimension, end)| Some((dimension, (*end)?)));
            let values: Vec<(&Variable, f64)> = chosen
                .flat_map(|(dimension, end)| {
                    dimension.values.iter().map(move |(variable, ends)| (variable, ends[end]))
                })
                .collect();
            if values.is_empty() { Ok(rig.clone()) } else { rig.changed_to(&values) }
        };
        let all: Vec<_> = ends.iter().map(|ends| Some((ends.clone(), at(ends).ok()?))).collect();
        let crossed = all[..crossed].iter().flatten().count();
        Self { dimensions, all: all.into_iter().flatten().collect(), crossed }
    }

    /// The rig at a combination.
    pub fn rig(&self, combination: usize) -> &Rig {
        &self.all[combination].1
    }

    /// What they do to each row of a rig's assessment.
    pub fn ranged(&self, rows: &[Row]) -> Vec<Ranged> {
        let mut ranged = vec![Ranged::default(); rows.len()];
        if self.all.len() > 1 {
            self.look(rows, false, &mut ranged);
            self.look(rows, true, &mut ranged);
        }
        ranged
    }

    /// The combination at which ramps are crossed for this one: the same without what goes to its ends alone.
    fn base(&self, combination: usize) -> usize {
        let alone = |i: usize| self.dimensions[i].going == Going::Alone;
        let ends = self.all[combination].0.iter().enumerate();
        let ends: Vec<_> = ends.map(|(i, end)| end.filter(|_| !alone(i))).collect();
        self.all.iter().position(|(others, _)| *others == ends).unwrap_or_default()
    }

    fn look(&self, rows: &[Row], over_ramps: bool, ranged: &mut [Ranged]) {
        let setup = self.rig(0).proposed();
        let place =
            |asked: &Asked| rows.iter().position(|row| row.check == asked.check && row.of == asked.of);
        let wanted = |asked: &Asked| {
            asked.check.crosses_ramps(setup) == over_ramps
                && place(asked).is_some_and(|row| rows[row].verdict != Verdict::NotChecked)
        };
        let scope = Scope::of(setup, wanted);
        if scope.rows().is_empty() {
            return;
        }
        // A combination at which nothing can be evaluated is left with no answer.
        let stood_at = |at: usize, facts: &Facts| -> Vec<Stood> {
            scope.folds(self.rig(at).proposed(), facts).iter().map(stood).collect()
        };
        let mut found: Vec<Option<Vec<Stood>>> = vec![None; self.all.len()];
        if over_ramps {
            let crossed = |base: usize| {
                let on_base: Vec<usize> = (1..self.all.len()).filter(|at| self.base(*at) == base).collect();
                let facts = if on_base.is_empty() { None } else { scope.facts(self.rig(base), None).ok() };
                let stood = |at: usize| (at, facts.as_ref().map(|facts| stood_at(at, facts)));
                on_base.into_iter().map(stood).collect::<Vec<_>>()
            };
            let all: Vec<_> = (0..self.crossed).into_par_iter().flat_map_iter(crossed).collect();
            all.into_iter().for_each(|(at, stood)| found[at] = stood);
        } else {
            for (at, found) in found.iter_mut().enumerate().skip(1) {
                *found = scope.facts(self.rig(at), None).ok().map(|facts| stood_at(at, &facts));
            }
        }
        for (i, asked) in scope.rows().iter().enumerate() {
            let Some(place) = place(asked) else { continue };
            let unfit = Stood::unknown(rows[place].counts && rows[place].case.is_some());
            let ends = found[1..].iter().map(|stood| stood.as_ref().map_or(unfit, |stood| stood[i]));
            let stood: Vec<Stood> = std::iter::once(Stood::of(&rows[place])).chain(ends).collect();
            ranged[place] = self.sum_up(asked, &rows[place], &stood);
        }
    }

    /// What a row comes to that stands so at each combination.
    fn sum_up(&self, asked: &Asked, row: &Row, stood: &[Stood]) -> Ranged {
        let any = |is: fn(&Stood) -> bool| stood.iter().any(is);
        let doubt = Doubt {
            may_advise: any(|stood| stood.verdict == Verdict::Advise),
            may_fail: any(|stood| stood.verdict == Verdict::Fail || stood.may_fail),
            may_hold: any(|stood| matches!(stood.verdict, Verdict::Pass | Verdict::Thin | Verdict::Advise)),
        };
        let left = |stood: &Stood| if row.counts { stood.to_fail } else { stood.margin };
        let mut worst = 0;
        for (i, next) in stood.iter().enumerate() {
            if let (Some(least), Some(next)) = (left(&stood[worst]), left(next))
                && next < least - MOVED * least.abs()
            {
                worst = i;
            }
        }
        Ranged { doubt, range: self.range(asked, row, stood), worst }
    }

    fn range(&self, asked: &Asked, row: &Row, stood: &[Stood]) -> Option<Range> {
        let moves = |i: &usize| {
            let differ = |(one, ends): (usize, &Vec<Option<usize>>)| {
                self.all.iter().enumerate().skip(one + 1).any(|(other, (others, _))| {
                    let alike = |j: usize| j == *i || ends[j] == others[j];
                    (0..ends.len()).all(alike) && is_moved(&stood[one], &stood[other])
                })
            };
            self.all.iter().map(|(ends, _)| ends).enumerate().any(differ)
        };
        let moving: Vec<usize> = (0..self.dimensions.len()).filter(moves).collect();
        let keys: Vec<Key> = moving.into_iter().flat_map(|i| self.dimensions[i].keys()).collect();
        let loads = || stood.iter().filter_map(|stood| stood.load);
        let (low, high) = (loads().reduce(f64::min)?, loads().reduce(f64::max)?);
        let known = stood.iter().all(|stood| stood.to_fail.is_some());
        let least = stood.iter().filter_map(|stood| stood.to_fail).reduce(f64::min);
        let least = least.filter(|least| row.counts && (known || *least < 0.0));
        (!keys.is_empty()).then(|| Range {
            low: asked.amount(low),
            high: asked.amount(high),
            margin_to_fail: least.map(|least| asked.amount(least)),
            keys,
        })
    }
}

/// The ends of a dimension, the others as they are.
fn both_ends(ends: &[Option<usize>], dimension: usize) -> [Vec<Option<usize>>; 2] {
    [0, 1].map(|end| {
        let mut ends = ends.to_vec();
        ends[dimension] = Some(end);
        ends
    })
}

/// Everything that a rig assumes and of which other values are tried; what makes a rate goes together.
fn dimensions(rig: &Rig) -> Vec<Dimension> {
    let setup = rig.measured();
    let mut dimensions: Vec<Dimension> = Vec::new();
    for key in setup.assumed() {
        let Some(input) = key.input() else { continue };
        let Some(extent) = input.default.and_then(|default| default.extent) else { continue };
        let Some(ends) = input.ends(setup, key.at) else { continue };
        let Ok(variable) = rig.variable(&key.to_string()) else { continue };
        let values = (variable, ends);
        let with = dimensions.iter_mut().find(|one| one.goes_with(extent.going, key.path));
        match with {
            Some(with) => with.values.push(values),
            None => dimensions.push(Dimension { values: vec![values], going: extent.going }),
        }
    }
    dimensions
}

impl Stood {
    fn of(row: &Row) -> Self {
        Self {
            load: row.load.map(Amount::si),
            margin: row.margin.map(Amount::si),
            to_fail: row.margin_to_fail.map(Amount::si),
            verdict: row.verdict,
            may_fail: false,
        }
    }

    /// A row that cannot be evaluated.
    fn unknown(may_fail: bool) -> Self {
        Self { load: None, margin: None, to_fail: None, verdict: Verdict::NotChecked, may_fail }
    }
}

fn stood(fold: &Fold) -> Stood {
    match fold.verdict() {
        Verdict::NotChecked => Stood::unknown(fold.may_fail()),
        verdict => Stood {
            load: fold.governing().and_then(|worst| worst.standing.value),
            margin: fold.margin(),
            to_fail: fold.margin_to_fail(),
            verdict,
            may_fail: false,
        },
    }
}

/// Whether a row's load, or how far it lies inside its limits, is not the same at two combinations.
fn is_moved(one: &Stood, other: &Stood) -> bool {
    let size = |stood: &Stood| stood.load.map_or(0.0, f64::abs).max(stood.margin.map_or(0.0, f64::abs));
    let size = size(one).max(size(other));
    let differ = |one: Option<f64>, other: Option<f64>| match (one, other) {
        (Some(one), Some(other)) => (one - other).abs() > MOVED * size,
        (one, other) => one.is_some() != other.is_some(),
    };
    differ(one.load, other.load) || differ(one.margin, other.margin)
}
