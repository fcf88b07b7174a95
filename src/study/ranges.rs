//! What the ranges of assumed values do to a rig's rows.
//!
//! A default that is assumed may carry the values between which the right one may lie ([`Extent`](crate::rig::inputs::Extent)).
//! Every row is evaluated as assumed and at each combination of the ends of rates, travel and what else goes with them.
//! Any other range raises or lowers a row: it is tried by itself, and at its worse and its better ends all such ranges
//! together are combined with the rest. Each combination is the rig that reading the file with these values gives. Ramps
//! are crossed only where ends are combined, since a crossing is a thousand times as dear as the level: what goes to its
//! ends by itself changes limits of rows about ramps, never a crossing.

use crate::fit::{Amount, Asked, Doubt, Facts, Fold, Range, Row, Scope, Verdict};
use crate::rig::inputs::Going;
use crate::rig::{Key, Rig, Variable};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// A load or a margin that differs by less than this share has not moved: the worst moments over a ramp are found to a
/// tenth of it.
const MOVED: f64 = 1e-6;

/// Assumed values that go to their ends together.
struct Dimension {
    values: Vec<(Variable, [f64; 2])>,
    going: Going,
}

impl Dimension {
    fn keys(&self) -> impl Iterator<Item = Key> {
        self.values.iter().flat_map(|(variable, _)| variable.keys())
    }
}

/// What is tried of a rig's assumed values.
pub(super) struct Combinations {
    dimensions: Vec<Dimension>,
    /// Which end each dimension is at, with the rig there: as assumed first, then where ends are combined, then with one
    /// range at an end by itself.
    all: Vec<(Ends, Rig)>,
    /// How many of these ramps are crossed at; rows about ramps stand at the others on the crossings of one of them.
    over_ramps: usize,
    /// How many of these are combined.
    combined: usize,
}

/// Which end each dimension is at; `None` as assumed.
type Ends = Vec<Option<usize>>;

/// How a row stands at the combinations at which it was evaluated.
type StoodAt = Vec<(usize, Stood)>;

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
        let combine = |corners: Vec<Vec<Option<usize>>>, is: &dyn Fn(Going) -> bool| {
            let combined = (0..dimensions.len()).filter(|i| is(dimensions[*i].going));
            combined.fold(corners, |corners, i| corners.iter().flat_map(|ends| both_ends(ends, i)).collect())
        };
        let rates = |going| matches!(going, Going::WithRates | Going::WithEach);
        let corners = combine(ends.clone(), &rates);
        ends.extend(corners.iter().filter(|ends| ends.iter().any(Option::is_some)).cloned());
        let over_ramps = ends.len();
        let braking = combine(corners, &|going| going == Going::WhileBraking);
        ends.extend(braking.into_iter().filter(|corner| !ends.contains(corner)).collect::<Vec<_>>());
        let combined = ends.len();
        for i in (0..dimensions.len()).filter(|i| dimensions[*i].going == Going::Alone) {
            let ends_alone = both_ends(&ends[0], i);
            ends.extend(ends_alone);
        }
        let mut combinations = Self { dimensions, all: Vec::new(), over_ramps: 0, combined: 0 };
        for (i, ends) in ends.into_iter().enumerate() {
            combinations.all.extend(combinations.at(rig, &ends).map(|rig| (ends, rig)));
            if i + 1 == over_ramps {
                combinations.over_ramps = combinations.all.len();
            }
            if i + 1 == combined {
                combinations.combined = combinations.all.len();
            }
        }
        combinations
    }

    /// The rig with its dimensions at these ends, if that breaks no rule of the file.
    fn at(&self, rig: &Rig, ends: &Ends) -> Option<Rig> {
        let chosen =
            self.dimensions.iter().zip(ends).filter_map(|(dimension, end)| Some((dimension, (*end)?)));
        let values: Vec<(&Variable, f64)> = chosen
            .flat_map(|(dimension, end)| {
                dimension.values.iter().map(move |(variable, ends)| (variable, ends[end]))
            })
            .collect();
        if values.is_empty() { Some(rig.clone()) } else { rig.changed_to(&values).ok() }
    }

    /// The rig at a combination.
    pub fn rig(&self, combination: usize) -> &Rig {
        &self.all[combination].1
    }

    /// The rigs at every combination that rows about ramps need, as assumed first.
    pub fn over_ramps(&self) -> &[(Vec<Option<usize>>, Rig)] {
        &self.all[..self.over_ramps]
    }

    /// What they do to each row of a rig's assessment.
    pub fn ranged(&mut self, rows: &[Row]) -> Vec<Ranged> {
        let setup = self.rig(0).proposed();
        let crosses: Vec<bool> = rows.iter().map(|row| row.check.crosses_ramps(setup)).collect();
        let mut stood: Vec<StoodAt> = rows.iter().map(|row| vec![(0, Stood::of(row))]).collect();
        let crossings = self.crossings(&crosses, rows);
        let tried = self.all.len();
        let (level, ramp) = (|place: usize| !crosses[place], |place: usize| crosses[place]);
        let at: Vec<usize> = (1..tried).collect();
        let over_ramps: Vec<usize> = (1..self.over_ramps).chain(self.combined..tried).collect();
        self.look(rows, &level, (&at, None), &mut stood);
        self.look(rows, &ramp, (&over_ramps, Some(&crossings)), &mut stood);
        for (ends, places) in self.sides(&stood) {
            let (mut at, mut over_ramps) = (Vec::new(), Vec::new());
            for i in 0..self.combined {
                let with: Ends = self.all[i].0.iter().zip(&ends).map(|(one, other)| one.or(*other)).collect();
                let Some(rig) = self.at(self.rig(0), &with) else { continue };
                at.push(self.all.len());
                if i < self.over_ramps {
                    over_ramps.push(self.all.len());
                }
                self.all.push((with, rig));
            }
            self.look(rows, &|place| level(place) && places.contains(&place), (&at, None), &mut stood);
            let of_ramps = |place| ramp(place) && places.contains(&place);
            self.look(rows, &of_ramps, (&over_ramps, Some(&crossings)), &mut stood);
        }
        let each = rows.iter().zip(&stood);
        each.map(|(row, stood)| self.sum_up(row, stood, tried)).collect()
    }

    /// The ramps crossed at each combination at which that is done; `None` where the trailer does not rest.
    fn crossings(&self, crosses: &[bool], rows: &[Row]) -> Vec<Option<Facts>> {
        let is_one = |asked: &Asked| {
            let mut of_rows = rows.iter().zip(crosses);
            let is_made = |row: &Row| row.verdict != Verdict::NotChecked;
            of_rows.any(|(row, crosses)| {
                *crosses && is_made(row) && row.check == asked.check && row.of == asked.of
            })
        };
        let scope = Scope::of(self.rig(0).proposed(), is_one);
        if scope.rows().is_empty() || self.all.len() < 2 {
            return Vec::new();
        }
        (0..self.over_ramps).into_par_iter().map(|at| scope.facts(self.rig(at), None).ok()).collect()
    }

    /// The combination at which ramps are crossed for this one: the same without what changes no crossing.
    fn base(&self, combination: usize) -> usize {
        let stays = |i: usize| !matches!(self.dimensions[i].going, Going::Alone | Going::WhileBraking);
        let ends = self.all[combination].0.iter().enumerate();
        let ends: Ends = ends.map(|(i, end)| end.filter(|_| stays(i))).collect();
        self.all[..self.over_ramps].iter().position(|(others, _)| *others == ends).unwrap_or_default()
    }

    /// For each row that ranges move by themselves, their worse ends and their better ends; rows that go by the same
    /// ends together.
    fn sides(&self, stood: &[StoodAt]) -> BTreeMap<Ends, Vec<usize>> {
        let mut sides: BTreeMap<Ends, Vec<usize>> = BTreeMap::new();
        for (place, stood) in stood.iter().enumerate() {
            let left = |combination: usize| {
                stood.iter().find(|(at, _)| *at == combination).and_then(|(_, stood)| stood.left())
            };
            let Some(as_assumed) = left(0) else { continue };
            let mut ends: [Ends; 2] = [vec![None; self.dimensions.len()], vec![None; self.dimensions.len()]];
            for (at, (alone, _)) in self.all.iter().enumerate().skip(self.combined) {
                let moved = alone.iter().position(Option::is_some).zip(left(at));
                let Some((dimension, left)) = moved else { continue };
                let by = left - as_assumed;
                if by.abs() > MOVED * as_assumed.abs() {
                    ends[usize::from(by > 0.0)][dimension] = alone[dimension];
                }
            }
            let moves = |ends: &Ends| ends.iter().flatten().count();
            for ends in ends {
                // One range alone was tried as assumed.
                if moves(&ends) > 1 || (moves(&ends) == 1 && self.combined > 1) {
                    sides.entry(ends).or_default().push(place);
                }
            }
        }
        sides
    }

    /// Evaluates some rows at some combinations; rows about ramps on these crossings.
    fn look(
        &self,
        rows: &[Row],
        wanted: &dyn Fn(usize) -> bool,
        (combinations, crossings): (&[usize], Option<&[Option<Facts>]>),
        stood: &mut [StoodAt],
    ) {
        let setup = self.rig(0).proposed();
        let place = |asked: &Asked| {
            let row = rows.iter().position(|row| row.check == asked.check && row.of == asked.of)?;
            (rows[row].verdict != Verdict::NotChecked && wanted(row)).then_some(row)
        };
        let scope = Scope::of(setup, |asked| place(asked).is_some());
        if scope.rows().is_empty() || combinations.is_empty() {
            return;
        }
        let at = |combination: &usize| -> Option<Vec<Stood>> {
            let rig = self.rig(*combination);
            let stand = |facts: &Facts| scope.folds(rig.proposed(), facts).iter().map(stood_so).collect();
            match crossings {
                Some(crossings) => crossings.get(self.base(*combination))?.as_ref().map(stand),
                None => scope.facts(rig, None).ok().as_ref().map(stand),
            }
        };
        let found: Vec<Option<Vec<Stood>>> = combinations.iter().map(at).collect();
        for (i, asked) in scope.rows().iter().enumerate() {
            let Some(place) = place(asked) else { continue };
            let unfit = Stood::unknown(rows[place].counts && rows[place].case.is_some());
            let ends = found.iter().map(|stood| stood.as_ref().map_or(unfit, |stood| stood[i]));
            stood[place].extend(combinations.iter().copied().zip(ends));
        }
    }

    /// What a row comes to that stands so; `tried` combinations were the same for all rows.
    fn sum_up(&self, row: &Row, stood: &StoodAt, tried: usize) -> Ranged {
        let any = |is: fn(&Stood) -> bool| stood.iter().any(|(_, stood)| is(stood));
        let doubt = Doubt {
            may_advise: any(|stood| stood.verdict == Verdict::Advise),
            may_fail: any(|stood| stood.verdict == Verdict::Fail || stood.may_fail),
            may_hold: any(|stood| matches!(stood.verdict, Verdict::Pass | Verdict::Thin | Verdict::Advise)),
        };
        let mut worst = stood[0];
        for next in stood {
            if let (Some(least), Some(left)) = (worst.1.left(), next.1.left())
                && left < least - MOVED * least.abs()
            {
                worst = *next;
            }
        }
        Ranged { doubt, range: self.range(row, stood, tried), worst: worst.0 }
    }

    fn range(&self, row: &Row, stood: &StoodAt, tried: usize) -> Option<Range> {
        let in_all: Vec<(&Ends, &Stood)> =
            stood.iter().filter(|(at, _)| *at < tried).map(|(at, stood)| (&self.all[*at].0, stood)).collect();
        let moves = |i: &usize| {
            let differ = |(n, (ends, one)): (usize, &(&Ends, &Stood))| {
                in_all[n + 1..].iter().any(|(others, other)| {
                    let alike = |j: usize| j == *i || ends[j] == others[j];
                    (0..ends.len()).all(alike) && is_moved(one, other)
                })
            };
            in_all.iter().enumerate().any(differ)
        };
        let moving: Vec<usize> = (0..self.dimensions.len()).filter(moves).collect();
        let keys: Vec<Key> = moving.into_iter().flat_map(|i| self.dimensions[i].keys()).collect();
        let loads = || stood.iter().filter_map(|(_, stood)| stood.load);
        let (low, high) = (loads().reduce(f64::min)?, loads().reduce(f64::max)?);
        let known = stood.iter().all(|(_, stood)| stood.to_fail.is_some());
        let least = stood.iter().filter_map(|(_, stood)| stood.to_fail).reduce(f64::min);
        let least = least.filter(|least| row.counts && (known || *least < 0.0));
        (!keys.is_empty()).then(|| Range {
            low: Amount::from_si(row.check.measure, low),
            high: Amount::from_si(row.check.measure, high),
            margin_to_fail: least.map(|least| Amount::from_si(row.check.measure, least)),
            keys,
        })
    }
}

/// Whether a rig assumes anything of which other values are tried.
pub(super) fn any(rig: &Rig) -> bool {
    !dimensions(rig).is_empty()
}

/// What a rig assumes and a launch may depend on: values that go to their ends together, each with its ends in SI.
pub(super) fn of_launching(rig: &Rig) -> Vec<Vec<(Variable, [f64; 2])>> {
    let rolls = |dimension: &Dimension| dimension.going != Going::WhileBraking;
    dimensions(rig).into_iter().filter(rolls).map(|dimension| dimension.values).collect()
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
        let Some(variable) = rig.number(*key) else { continue };
        // What makes a rate goes together; so does one key of several axles, brakes or tires.
        let together = |one: &&mut Dimension| {
            one.going == extent.going
                && match one.going {
                    Going::WithRates => true,
                    Going::Alone => one.keys().any(|other| other.path == key.path),
                    Going::WithEach | Going::WhileBraking => false,
                }
        };
        match dimensions.iter_mut().find(together) {
            Some(with) => with.values.push((variable, ends)),
            None => dimensions.push(Dimension { values: vec![(variable, ends)], going: extent.going }),
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

    /// What is left to the limits past which the rig fails, or of a row that never fails to its limits.
    fn left(&self) -> Option<f64> {
        self.to_fail.or(self.margin)
    }

    /// A row that cannot be evaluated.
    fn unknown(may_fail: bool) -> Self {
        Self { load: None, margin: None, to_fail: None, verdict: Verdict::NotChecked, may_fail }
    }
}

fn stood_so(fold: &Fold) -> Stood {
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
