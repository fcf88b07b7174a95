//! Crossings that need not be worked out twice.

use super::loads::{Crossing, Peaks};
use crate::fit::known::Known;
use crate::fit::model::Model;
use crate::mechanics::ramp::Stranded;
use crate::quantity::Quantity;
use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

/// Crossings that were worked out, each with all that it read.
///
/// A search tries many rigs of which some cross a ramp alike, as where nothing differs but what a rating says. What is found
/// here is what working it out anew gives, to the last bit.
#[derive(Debug, Default)]
pub struct Crossings {
    worked: Mutex<HashMap<[u64; 2], Vec<Worked>>>,
}

type Worked = (Crossing, Result<Peaks, Stranded>);

impl Crossings {
    /// As [`Model::peaks`], of a crossing that may have been worked out before.
    ///
    /// # Errors
    /// As [`Model::peaks`].
    pub(in crate::fit) fn peaks(
        &self,
        model: &Model<'_>,
        ramp: usize,
        case: usize,
    ) -> Known<Result<Peaks, Stranded>> {
        Ok(model.crossing(ramp, case)?.and_then(|crossing| self.recall(crossing)))
    }

    fn recall(&self, crossing: Crossing) -> Result<Peaks, Stranded> {
        // Of two rigs that are tried, the bodies differ first of all.
        let body = crossing.body();
        let key = [body.weight.si(), body.at.x.si()].map(f64::to_bits);
        if let Some(peaks) = self.known(key, &crossing) {
            return peaks;
        }
        let peaks = crossing.worst_moments();
        let mut worked = self.worked.lock().unwrap_or_else(PoisonError::into_inner);
        worked.entry(key).or_default().push((crossing, peaks.clone()));
        peaks
    }

    fn known(&self, key: [u64; 2], crossing: &Crossing) -> Option<Result<Peaks, Stranded>> {
        let worked = self.worked.lock().unwrap_or_else(PoisonError::into_inner);
        let alike = worked.get(&key)?.iter().find(|(known, _)| known == crossing)?;
        Some(alike.1.clone())
    }
}
