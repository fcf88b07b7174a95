//! The energy of a trailer over its pitch, and where it is least.

use crate::settling::statics::Held;
use crate::settling::trailers::Position;

/// The energy of a position over pitch, the equalizers settled.
pub struct Energy<'a> {
    position: &'a Position,
    free_lengths: Vec<f64>,
    /// Where the energy of the weight is counted from, so that its digits are not spent on a constant.
    datum: f64,
    /// The equalizers of the last pitch, to begin the next from.
    equalizers: Vec<f64>,
}

impl<'a> Energy<'a> {
    /// The energy counted from that at a pitch.
    pub fn new(position: &'a Position, datum: f64) -> Self {
        let equalizers = vec![0.0; position.trailer.axles.len() - 1];
        Self { position, free_lengths: position.trailer.free_lengths(), datum, equalizers }
    }

    /// The springs with the frame held at a pitch.
    pub fn held_at(&mut self, pitch: f64) -> Held {
        let held = Held::at(self.position, &self.free_lengths, pitch, self.equalizers.clone());
        self.equalizers.clone_from(&held.equalizers);
        held
    }

    fn at(&mut self, pitch: f64) -> f64 {
        let held = self.held_at(pitch);
        let trailer = &self.position.trailer;
        // W (zc cos φ − xc sin φ), less the same at the datum: sums of sines and cosines as products.
        let (half, mean) = ((pitch - self.datum) / 2.0, f64::midpoint(pitch, self.datum));
        let risen = -2.0 * half.sin() * (trailer.zc * mean.sin() + trailer.xc * mean.cos());
        let weight = trailer.weight * risen;
        let springs = trailer.axles.iter().zip(held.compressions).map(|(axle, c)| axle.energy(c));
        weight + springs.sum::<f64>()
    }

    /// The pitch of least energy between two, by golden section.
    pub fn least_between(&mut self, mut low: f64, mut high: f64) -> f64 {
        let golden = (5f64.sqrt() - 1.0) / 2.0;
        let (mut a, mut b) = (high - golden * (high - low), low + golden * (high - low));
        let (mut at_a, mut at_b) = (self.at(a), self.at(b));
        while high - low > 1e-11 {
            if at_a < at_b {
                (high, b, at_b) = (b, a, at_a);
                a = high - golden * (high - low);
                at_a = self.at(a);
            } else {
                (low, a, at_a) = (a, b, at_b);
                b = low + golden * (high - low);
                at_b = self.at(b);
            }
        }
        f64::midpoint(low, high)
    }
}
