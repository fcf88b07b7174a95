//! Values that may be missing, and what is missing.

use crate::quantity::Quantity;
use crate::rig::inputs::Handle;
use crate::rig::{Key, Setup};

/// The keys that would have to be filled in.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Missing(pub Vec<Key>);

/// A value, or the keys it lacks.
pub type Known<T> = Result<T, Missing>;

impl Missing {
    /// One missing key.
    pub fn key(key: Key) -> Self {
        Self(vec![key])
    }

    /// These keys, each once.
    pub(super) fn of(keys: impl IntoIterator<Item = Key>) -> Self {
        let mut missing = Self::default();
        missing.add(keys);
        missing
    }

    /// All that is missing from either, each key once.
    #[must_use]
    pub fn and(mut self, other: Self) -> Self {
        self.add(other.0);
        self
    }

    /// Adds those of these keys that are not there yet.
    pub(super) fn add(&mut self, keys: impl IntoIterator<Item = Key>) {
        for key in keys {
            if !self.0.contains(&key) {
                self.0.push(key);
            }
        }
    }
}

/// What a setup states at a key outside any list.
pub fn need<Q: Quantity>(setup: &Setup, input: Handle<Q>) -> Known<Q> {
    known(input.get(setup), input.key())
}

/// A value, if there is one; this key would give it.
pub fn known<T>(value: Option<T>, key: Key) -> Known<T> {
    value.ok_or_else(|| Missing::key(key))
}

/// Both values, or all that is missing from either.
pub fn both<A, B>(a: Known<A>, b: Known<B>) -> Known<(A, B)> {
    match (a, b) {
        (Ok(a), Ok(b)) => Ok((a, b)),
        (Err(a), Err(b)) => Err(a.and(b)),
        (Err(missing), _) | (_, Err(missing)) => Err(missing),
    }
}

/// All values, or all that is missing from any.
pub fn each<T, C: FromIterator<T>>(values: impl Iterator<Item = Known<T>>) -> Known<C> {
    gathered(values, |values| values.collect())
}

/// A function of all values, or everything that is missing from any.
pub fn gathered<T, R>(
    values: impl Iterator<Item = Known<T>>,
    gather: impl FnOnce(&mut dyn Iterator<Item = T>) -> R,
) -> Known<R> {
    let mut missing = Missing::default();
    let made = gather(&mut values.filter_map(|value| match value {
        Ok(value) => Some(value),
        Err(lacking) => {
            missing = std::mem::take(&mut missing).and(lacking);
            None
        }
    }));
    if missing.0.is_empty() { Ok(made) } else { Err(missing) }
}
