//! An itemised boat brought to what scales say of the rig, where the policy trusts them.

use super::bodies::{itemised, trailer_weight};
use super::known::{Known, both, each, known};
use super::placement::{self, Heights, Scaled};
use super::wheels::{sharing, stations};
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::inputs::MEASURED_TONGUE_WEIGHT;
use crate::rig::{Part, Setup};

/// The one factor and the one distance by which the items give back what scales say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scaling {
    /// What every item's weight is multiplied by.
    pub factor: f64,
    /// How far every item's station is moved forward.
    pub forward: Length,
}

/// What brings the items to the scales in the first case, as far as there are scale figures.
pub fn scaled(measured: &Setup) -> Scaled {
    if !is_scaled(measured) {
        return Scaled::as_listed();
    }
    let scales = &measured.measured;
    let factor = scales.gross().map_or(Ok(1.0), |gross| factor(measured, gross));
    let aft = scales.tongue_weight.map_or(Ok(Length::default()), |tongue| aft(measured, &factor, tongue));
    Scaled { factor, aft }
}

/// The factor and the distance, where the items are changed and both are known.
pub fn scaling(measured: &Setup, scaled: &Scaled) -> Option<Scaling> {
    let (factor, aft) = both(scaled.factor.clone(), scaled.aft.clone()).ok()?;
    is_scaled(measured).then_some(Scaling { factor, forward: -aft })
}

fn is_scaled(measured: &Setup) -> bool {
    measured.goes_by_scales() && !measured.boat.weights.is_empty()
}

/// Weight of the items in the first case, as listed.
fn listed(measured: &Setup) -> Known<Weight> {
    let aboard = |i: &usize| measured.cases[0].carries(Part::Weight(*i));
    let items = (0..measured.boat.weights.len()).filter(aboard);
    let as_listed = Scaled::as_listed();
    let weights: Vec<Weight> = each(items.map(|i| placement::item_weight(measured, i, &as_listed)))?;
    // Without any weight there is nothing to scale.
    known(Some(weights.into_iter().sum::<Weight>()).filter(|all| all.si() > 0.0), placement::no_boat_key())
}

fn factor(measured: &Setup, gross: Weight) -> Known<f64> {
    let others = both(trailer_weight(measured), placement::tanks_weight(measured, &measured.cases[0]));
    let ((trailer, tanks), items) = both(others, listed(measured))?;
    // f = (W − trailer − tanks) / Σ items
    Ok((gross - trailer - tanks).si() / items.si())
}

fn aft(measured: &Setup, factor: &Known<f64>, tongue: Weight) -> Known<Length> {
    let scaled = Scaled { factor: factor.clone(), ..Scaled::as_listed() };
    let wheels = both(stations(measured), sharing(measured));
    let body = both(itemised(measured, Heights::Ignored, &scaled), both(factor.clone(), listed(measured)));
    let ((body, (factor, items)), (stations, sharing)) = both(body, wheels)?;
    let station = sharing.station_from_tongue_weight(body.weight, tongue, &stations);
    let by_scales = known(station, MEASURED_TONGUE_WEIGHT.key())?;
    // What moves the whole to where the scales have it: (xc by scales − xc) W / (f Σ items)
    Ok((by_scales - body.at.x) * (body.weight.si() / (factor * items.si())))
}
