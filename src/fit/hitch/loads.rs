//! What the tongue jack lifts.

use crate::fit::known::{Known, both, need};
use crate::fit::model::{Model, axle_shift};
use crate::fit::wheels::stations;
use crate::mechanics::Body;
use crate::mechanics::road::balance;
use crate::mechanics::road::jack::jacked;
use crate::quantity::{Length, Quantity, Weight, unit};
use crate::rig::SuspensionKind;
use crate::rig::inputs::TRAILER_LEVEL_BALL_HEIGHT;

/// A jack lifts the coupler so far above its height on the ball to clear it. Common practice, no source.
const LIFT: f64 = 4.0 * unit::INCH;

impl Model<'_> {
    /// What the jack lifts; without its station, the tongue weight, which is a lower bound.
    ///
    /// Equalizers share the load evenly whatever the pitch: a lever about the mean axle station. Axles sprung apart take it
    /// unevenly as the coupler rises, so the trailer is settled on its jack.
    pub(in crate::fit) fn jack_load(&self, tongue: Known<Weight>, body: &Known<Body>) -> Known<Weight> {
        let setup = self.proposed();
        let Some(jack) = setup.trailer.jack.station else { return tongue };
        let apart = matches!(
            setup.trailer.suspension.kind,
            Some(SuspensionKind::Torsion | SuspensionKind::LeafSeparate)
        );
        if apart && setup.trailer.axles.len() > 1 {
            let wheels = self.undercarriage().as_ref().map_err(Clone::clone);
            let level = need(setup, TRAILER_LEVEL_BALL_HEIGHT);
            let (wheels, (body, level)) = both(wheels, both(body.clone(), level))?;
            let raised = level + Length::from_si(LIFT);
            // A trailer that tips over its jack is left to the lever, which says of a jack that it carries too much.
            let settled = wheels.as_ref().ok().and_then(|wheels| jacked(body, wheels, jack, raised).ok());
            if let Some(settled) = settled {
                return Ok(settled);
            }
        }
        let (tongue, stations) = both(tongue, stations(setup))?;
        let mean = stations.iter().copied().sum::<Length>() / stations.len() as f64 + axle_shift(setup);
        Ok(balance::jack_load(tongue, mean, jack).unwrap_or(tongue))
    }
}
