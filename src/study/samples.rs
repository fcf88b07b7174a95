//! How often checks fail when every uncertain input is drawn at random from within its bounds.
//!
//! Each input is uniform within its bounds and independent of the others. That is a convention, not knowledge: scales
//! that all read high together are not independent. A share of samples is no promise; the worst corner is what a bound
//! can do.
//!
//! The draws are those of one generator in a row, sample after sample and input after input in the order of
//! [`Rig::uncertain`]. Each core jumps to where its samples begin, so no result depends on how many there are.

use crate::fit::{Asked, Doubt, Row, Scope};
use crate::rig::{Key, Rig, Varied};
use rand_pcg::Pcg64;
use rand_pcg::rand_core::Rng;
use rayon::prelude::*;
use std::ops::Range;

/// The most samples that may be asked for.
pub const MOST_SAMPLES: u64 = 100_000_000;
/// How many samples a core takes at a time.
const BLOCK: u64 = 1024;
/// The generator's stream: that of its author's demonstration, whose output is published.
const STREAM: u128 = 54;

/// How often something fails among samples.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Rate {
    /// In how many samples it fails.
    pub fails: u64,
    /// In how many it could be evaluated.
    pub of: u64,
}

impl Rate {
    /// The share of samples in which it fails, or `None` where there are none.
    pub fn share(self) -> Option<f64> {
        (self.of > 0).then(|| self.fails as f64 / self.of as f64)
    }

    /// The standard error of the share, √(p (1 − p) / N).
    ///
    /// None where it always fails or never does: the formula gives 0 there, which says nothing. Take
    /// [`Self::within`] then.
    pub fn standard_error(self) -> Option<f64> {
        let share = self.share()?;
        (share > 0.0 && share < 1.0).then(|| (share * (1.0 - share) / self.of as f64).sqrt())
    }

    /// Where it always fails or never does: how far from that the true share may lie, 3/N.
    ///
    /// Source: the rule of three of textbook statistics. A share p shows none in N samples with the probability
    /// (1 − p)^N, which falls to 5 % at p = −ln 0.05 / N = 2.996/N.
    pub fn within(self) -> Option<f64> {
        let share = self.share()?;
        (share == 0.0 || share == 1.0).then(|| (3.0 / self.of as f64).min(1.0))
    }

    fn add(self, other: Self) -> Self {
        Self { fails: self.fails + other.fails, of: self.of + other.of }
    }

    fn count(&mut self, fails: bool) {
        self.of += 1;
        self.fails += u64::from(fails);
    }
}

/// What became of a rig's samples.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Samples {
    /// How many were drawn.
    pub count: u64,
    /// The seed of their draws.
    pub seed: u64,
    /// How often any check that counts fails.
    pub rig: Rate,
    /// How often each row of the assessment is outside its limits, whether it counts or not, or `None` where it was not
    /// evaluated: it cannot be as stated, or it is about ramps and only advises.
    pub rows: Vec<Option<Rate>>,
    /// For each row of the assessment, whether it is past a limit that advises or fails in some sample.
    pub doubts: Vec<Doubt>,
    /// In how many samples the figures contradict each other, so that no rig can have them.
    pub contradictions: u64,
    /// In how many the trailer does not rest on its wheels; no check is evaluated there.
    pub unfit: u64,
}

/// Draws so many samples of a rig's uncertain inputs, at most [`MOST_SAMPLES`], and makes its checks in each.
///
/// `rows` are those of the rig's own assessment. Rows about ramps are evaluated if they count, and then take a
/// crossing of every ramp in every case for each sample. None when no input has a bound, or no sample is asked for.
pub fn samples(rig: &Rig, rows: &[Row], count: u64, seed: u64) -> Option<Samples> {
    let count = count.min(MOST_SAMPLES);
    if rig.uncertain().is_empty() || count == 0 {
        return None;
    }
    let place = |asked: &Asked| {
        let of_row = |row: &Row| row.check == asked.check && row.of == asked.of;
        let is_asked =
            |row: &Row| row.margin.is_some() && (row.counts || !row.check.crosses_ramps(rig.proposed()));
        rows.iter().position(|row| of_row(row) && is_asked(row))
    };
    let scope = Scope::of(rig.proposed(), |asked| place(asked).is_some());

    let blocks = 0..count.div_ceil(BLOCK);
    let tally = blocks
        .into_par_iter()
        .map_init(
            || Varied::new(rig),
            |varied, block| {
                let samples = block * BLOCK..count.min((block + 1) * BLOCK);
                Sampler { inputs: rig.uncertain(), scope: &scope }.draw(varied, seed, samples)
            },
        )
        .reduce(|| Tally::none(scope.rows().len()), Tally::add);

    let mut by_row = vec![None; rows.len()];
    let mut doubts = vec![Doubt::default(); rows.len()];
    for (asked, (rate, may_fail)) in scope.rows().iter().zip(tally.asked) {
        if let Some(row) = place(asked) {
            by_row[row] = Some(rate);
            doubts[row] = Doubt { may_advise: rate.fails > 0, may_fail, may_hold: false };
        }
    }
    let Tally { rig, contradictions, unfit, .. } = tally;
    Some(Samples { count, seed, rig, rows: by_row, doubts, contradictions, unfit })
}

/// Counts of one block, or of several together.
struct Tally {
    rig: Rate,
    /// How often each row is outside its limits, and whether the rig ever fails by it.
    asked: Vec<(Rate, bool)>,
    contradictions: u64,
    unfit: u64,
}

impl Tally {
    fn none(asked: usize) -> Self {
        Self {
            rig: Rate::default(),
            asked: vec![(Rate::default(), false); asked],
            contradictions: 0,
            unfit: 0,
        }
    }

    fn add(mut self, other: Self) -> Self {
        self.rig = self.rig.add(other.rig);
        for ((rate, fails), (other, fails_there)) in self.asked.iter_mut().zip(other.asked) {
            *rate = rate.add(other);
            *fails |= fails_there;
        }
        self.contradictions += other.contradictions;
        self.unfit += other.unfit;
        self
    }
}

struct Sampler<'a> {
    inputs: &'a [(Key, f64)],
    scope: &'a Scope,
}

impl Sampler<'_> {
    fn draw(&self, varied: &mut Varied, seed: u64, samples: Range<u64>) -> Tally {
        let mut draws = Draws::from(seed, samples.start * self.inputs.len() as u64);
        let mut tally = Tally::none(self.scope.rows().len());
        let mut errors: Vec<(Key, f64)> = Vec::with_capacity(self.inputs.len());
        for _ in samples {
            errors.clear();
            errors.extend(self.inputs.iter().map(|(key, bound)| (*key, bound * draws.within_one())));
            self.make(varied, &errors, &mut tally);
        }
        tally
    }

    /// Makes the checks in one sample.
    fn make(&self, varied: &mut Varied, errors: &[(Key, f64)], tally: &mut Tally) {
        let Ok(rig) = varied.with_errors(errors) else {
            tally.contradictions += 1;
            return;
        };
        let Ok(facts) = self.scope.facts(rig, None) else {
            tally.unfit += 1;
            return;
        };
        let folds = self.scope.folds(rig.proposed(), &facts);
        let mut fails = false;
        for (fold, (rate, ever_fails)) in folds.iter().zip(&mut tally.asked) {
            // A row that lacks a key in this sample only is not counted in it.
            let Some(margin) = fold.margin() else { continue };
            rate.count(margin < 0.0);
            let fails_by_it = fold.margin_to_fail().is_some_and(|margin| margin < 0.0);
            *ever_fails |= fails_by_it;
            fails |= fails_by_it;
        }
        tally.rig.count(fails);
    }
}

/// Draws of the generator, from somewhere in its row.
struct Draws(Pcg64);

impl Draws {
    fn from(seed: u64, first: u64) -> Self {
        let mut generator = Pcg64::new(seed.into(), STREAM);
        generator.advance(first.into());
        Self(generator)
    }

    /// A number from −1 up to 1, uniform.
    fn within_one(&mut self) -> f64 {
        // The upper 53 bits, as many as a fraction has: 0 to 1 − 2⁻⁵³.
        let fraction = (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64;
        2.0 * fraction - 1.0
    }
}

#[cfg(test)]
mod tests {
    use super::{Draws, Rng, Sampler, Tally};
    use crate::fit::Scope;
    use crate::rig::{Rig, Varied};

    /// Source: the output of `pcg64-demo` (seed 42, stream 54), as the reference implementation's own test suite has it.
    const PUBLISHED: [u64; 6] = [
        0x86b1_da1d_7206_2b68,
        0x1304_aa46_c985_3d39,
        0xa367_0e9e_0dd5_0358,
        0xf909_0e52_9a7d_ae00,
        0xc85b_9fd8_3799_6f2c,
        0x6061_21f8_e391_9196,
    ];

    #[test]
    fn the_first_draws_are_the_published_ones_wherever_one_begins() {
        for first in 0..PUBLISHED.len() {
            let mut draws = Draws::from(42, first as u64);
            for published in &PUBLISHED[first..] {
                assert_eq!(draws.0.next_u64(), *published);
            }
        }
    }

    #[test]
    fn one_block_of_samples_goes_on_where_the_one_before_ended() {
        let rig = Rig::parse(include_str!("../../demo-data/crab-boat.toml")).expect("the demo reads");
        let scope = Scope::all(rig.proposed());
        let sampler = Sampler { inputs: rig.uncertain(), scope: &scope };
        let mut varied = Varied::new(&rig);
        let mut draw = |samples| sampler.draw(&mut varied, 7, samples);
        let counts = |tally: &Tally| (tally.rig, tally.asked.clone());
        let whole = draw(0..300);
        assert!(whole.rig.fails > 0 && whole.rig.fails < 300);
        let parts = draw(0..150).add(draw(150..300));
        assert_eq!(counts(&whole), counts(&parts));
    }

    #[test]
    fn draws_are_uniform_within_one() {
        // 0x86b1da1d72062b68 / 2⁶⁴ = 0.52615 to five places: 2 · 0.52615 − 1 = 0.0523.
        assert!((Draws::from(42, 0).within_one() - 0.0523).abs() < 1e-4);
        let mut draws = Draws::from(1, 0);
        let drawn: Vec<f64> = (0..100_000).map(|_| draws.within_one()).collect();
        assert!(drawn.iter().all(|draw| (-1.0..1.0).contains(draw)));
        // Mean 0 and variance 1/3; their standard errors are √(1/3/N) = 0.0018 and √((1/5 − 1/9)/N) = 0.0009. Four of
        // each are allowed.
        let mean = drawn.iter().sum::<f64>() / 1e5;
        let variance = drawn.iter().map(|draw| draw * draw).sum::<f64>() / 1e5;
        assert!(mean.abs() < 0.0073, "{mean}");
        assert!((variance - 1.0 / 3.0).abs() < 0.0038, "{variance}");
    }
}
