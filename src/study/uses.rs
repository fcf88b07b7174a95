//! Which checks use a key of the rig file: those that compare something else once the key has another value.

use crate::fit::{Check, Known, Recalled, Scope, Severity, Side, Standing, Unfit, Verdict, checks, find};
use crate::rig::{Input, Key, Rig, starter};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

/// The checks that use a key, in the order of reports.
#[derive(Debug, Clone, PartialEq)]
pub struct Uses {
    /// On the rig of the starter file.
    pub plainly: Vec<&'static Check>,
    /// Only where scales alone give the boat's weight, or the file states something else in another way.
    pub otherwise: Vec<&'static Check>,
}

/// The checks that use a key.
///
/// On the rigs of the starter file the key is taken away and given other values, in each element of its list; what then
/// differs in any case, or over a ramp in the last case, uses it; so does a check that has a row no longer. Where nothing
/// does, the values are proposed instead: a spacer that was measured decides nothing, one that is put in raises the boat. A
/// key that decides something on other rigs only, such as whether bunks can lift off, is not found out.
///
/// ```
/// use bunkline::{rig::inputs::TRAILER_JACK_RATING, study::uses::uses};
///
/// let uses = uses(TRAILER_JACK_RATING.input());
/// assert_eq!(uses.plainly.iter().map(|check| check.id).collect::<Vec<_>>(), ["jack"]);
/// assert!(uses.otherwise.is_empty());
/// ```
pub fn uses(input: &Input) -> Uses {
    let mut used = EXAMPLES.iter().map(|(rig, before)| used_in(rig, before, input));
    let plainly = used.next().unwrap_or_default();
    let otherwise = used.flatten().filter(|check| !plainly.contains(check)).collect();
    Uses { plainly, otherwise }
}

/// The rigs of the starter file with what is compared in each, found once for all keys: it takes long over a ramp.
static EXAMPLES: LazyLock<Vec<(Rig, Rows)>> = LazyLock::new(|| {
    let with_rows = |rig| shown(&rig, true).ok().map(|rows| (rig, rows));
    starter::examples().into_iter().filter_map(with_rows).collect()
});

/// The crossings and launches of those rigs and of what was tried on them: most keys change none.
static RECALLED: LazyLock<Recalled> = LazyLock::new(Recalled::default);

/// The checks that use a key in one rig: as it was measured, or else where other values are proposed.
fn used_in(rig: &Rig, before: &Rows, input: &Input) -> Vec<&'static Check> {
    let used = differing(rig, before, input, Rig::measured_otherwise);
    if used.is_empty() { differing(rig, before, input, Rig::proposed_otherwise) } else { used }
}

/// Over a ramp, which takes long to cross, only so many other values of a key are tried.
const OVER_RAMPS: usize = 3;

/// The checks that differ once a key has other values.
fn differing(
    rig: &Rig,
    before: &Rows,
    input: &Input,
    otherwise: fn(&Rig, Key) -> Vec<Rig>,
) -> Vec<&'static Check> {
    let (keys, setup) = (rig.keys(input), rig.proposed());
    let others: Vec<(usize, Rig)> =
        keys.into_iter().flat_map(|key| otherwise(rig, key).into_iter().enumerate()).collect();
    let after = others.par_iter().filter_map(|(i, other)| {
        let with_ramps = *i < OVER_RAMPS;
        Some((with_ramps, shown(other, with_ramps).ok()?))
    });
    let after: Vec<(bool, Rows)> = after.collect();
    let mut differing: BTreeSet<&str> = BTreeSet::new();
    for (with_ramps, after) in &after {
        for (row, shown) in after {
            if before.get(row).is_none_or(|before| !before.is_like(shown)) {
                differing.insert(row.0);
            }
        }
        // Where no ramp was crossed nothing is known of a row over one.
        let is_looked_at =
            |id: &str| *with_ramps || !find(id).is_some_and(|check| check.crosses_ramps(setup));
        let gone = before.keys().filter(|row| !after.contains_key(row));
        differing.extend(gone.map(|(id, _)| *id).filter(|id| is_looked_at(id)));
    }
    checks().filter(|check| differing.contains(check.id)).collect()
}

/// What is compared in each row, by the check's id and the place of what it is about in its list.
type Rows = BTreeMap<(&'static str, usize), Shown>;

/// What a row comes to.
#[derive(Default)]
struct Shown {
    verdict: Option<Verdict>,
    comparisons: Vec<Compared>,
}

/// A comparison without the names of what it is about.
#[derive(PartialEq)]
struct Compared {
    case: Option<usize>,
    ramp: Option<usize>,
    side: Side,
    severity: Severity,
    standing: Known<Standing>,
}

impl Shown {
    fn is_like(&self, other: &Self) -> bool {
        let pairs = self.comparisons.iter().zip(&other.comparisons);
        self.verdict == other.verdict
            && self.comparisons.len() == other.comparisons.len()
            && pairs.into_iter().all(|(one, other)| one.is_like(other))
    }
}

impl Compared {
    fn is_like(&self, other: &Self) -> bool {
        let same = (self.case, self.ramp, self.side, self.severity)
            == (other.case, other.ramp, other.side, other.severity);
        same && match (&self.standing, &other.standing) {
            (Ok(one), Ok(other)) => {
                let values = one.value.zip(other.value);
                near(one.limit, other.limit)
                    && one.value.is_some() == other.value.is_some()
                    && values.is_none_or(|(one, other)| near(one, other))
            }
            (one, other) => one == other,
        }
    }
}

/// Whether two values in SI differ by no more than the rounding of a search for a ramp's worst moment.
pub(super) fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-7 * one.abs().max(other.abs()).max(1e-3)
}

/// What is compared for a rig, on the level and, where asked for, over its ramps.
fn shown(rig: &Rig, with_ramps: bool) -> Result<Rows, Unfit> {
    let setup = rig.proposed();
    let on_ramps = Scope::of(setup, |asked| with_ramps && asked.check.crosses_ramps(setup));
    let elsewhere = Scope::of(setup, |asked| !asked.check.crosses_ramps(setup));
    // The last case has what sets a case apart.
    let last = setup.cases.len().checked_sub(1);
    let mut rows = Rows::new();
    for scope in [elsewhere, on_ramps.in_case(last)] {
        let facts = scope.facts_recalling(rig, &RECALLED)?;
        let row = |i: usize| (scope.rows()[i].check.id, scope.rows()[i].of.element());
        for (i, fold) in scope.folds(setup, &facts).iter().enumerate() {
            rows.entry(row(i)).or_default().verdict = Some(fold.verdict());
        }
        scope.compare(setup, &facts, |i, comparison| {
            let (case, ramp, side) = (comparison.case, comparison.ramp, comparison.side);
            let (severity, standing) = (comparison.severity, comparison.standing);
            let compared = Compared { case, ramp, side, severity, standing };
            rows.entry(row(i)).or_default().comparisons.push(compared);
        });
    }
    Ok(rows)
}
