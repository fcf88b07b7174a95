//! Crossings and launches that need not be worked out twice.

use super::known::Known;
use super::launch::{Launch, NoLaunch, Slipway};
use super::model::Model;
use super::ramp::{Crossing, Peaks};
use crate::mechanics::Body;
use crate::mechanics::ramp::Stranded;
use crate::quantity::Quantity;
use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

/// Crossings and launches that were worked out, each with all that it read.
///
/// A search tries many rigs of which some cross a ramp alike, as where nothing differs but what a rating says. What is found
/// here is what working it out anew gives, to the last bit.
#[derive(Debug, Default)]
pub struct Recalled {
    crossings: Worked<Crossing, Result<Peaks, Stranded>>,
    launches: Worked<Slipway, Result<Launch, NoLaunch>>,
}

impl Recalled {
    /// As [`Model::peaks`], of a crossing that may have been worked out before.
    ///
    /// # Errors
    /// As [`Model::peaks`].
    pub(super) fn peaks(
        &self,
        model: &Model<'_>,
        ramp: usize,
        case: usize,
    ) -> Known<Result<Peaks, Stranded>> {
        let worked =
            |crossing: Crossing| self.crossings.of(crossing.body(), crossing, Crossing::worst_moments);
        Ok(model.crossing(ramp, case)?.and_then(worked))
    }

    /// As [`Model::launching`], of a launch that may have been worked out before.
    ///
    /// # Errors
    /// As [`Model::launching`].
    pub(super) fn launching(
        &self,
        model: &Model<'_>,
        ramp: usize,
        case: usize,
    ) -> Known<Result<Launch, NoLaunch>> {
        let worked = |slipway: Slipway| self.launches.of(slipway.trailer, slipway, Slipway::launch);
        Ok(model.slipway(ramp, case)?.and_then(worked))
    }
}

/// What was worked out from what, by the weight and the station of a body in it: of two rigs that are tried, the bodies differ first
/// of all.
#[derive(Debug)]
struct Worked<Q, A>(Mutex<HashMap<[u64; 2], Answers<Q, A>>>);

/// What was asked, and what came of it.
type Answers<Q, A> = Vec<(Q, A)>;

impl<Q, A> Default for Worked<Q, A> {
    fn default() -> Self {
        Self(Mutex::default())
    }
}

impl<Q: PartialEq, A: Clone> Worked<Q, A> {
    fn of(&self, body: Body, asked: Q, work: impl FnOnce(&Q) -> A) -> A {
        let key = [body.weight.si(), body.at.x.si()].map(f64::to_bits);
        // A poisoned lock has lost nothing that anybody misses.
        let lock = || self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let alike = |known: &Vec<(Q, A)>| {
            known.iter().find(|(known, _)| *known == asked).map(|known| known.1.clone())
        };
        let known = lock().get(&key).and_then(alike);
        known.unwrap_or_else(|| {
            let found = work(&asked);
            lock().entry(key).or_default().push((asked, found.clone()));
            found
        })
    }
}
