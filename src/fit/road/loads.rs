//! The loads of a case on level ground, coupled, and with the rear axle lifted.

use crate::fit::hitch::jack_load;
use crate::fit::known::{Known, both, need};
use crate::fit::model::{Model, Unfit, trailer_weight};
use crate::fit::tow::{combination, tow_vehicle};
use crate::mechanics::road::sides;
use crate::mechanics::tow::{Coupled, coupled};
use crate::mechanics::{Body, GroundPoint, PerAxle, Stance, Terrain, Undercarriage, Unsettled, settle};
use crate::quantity::{Angle, Length, Quantity, Share, Weight};
use crate::rig::inputs::{TOW_BALL_HEIGHT, TRAILER_TRACK};
use crate::rig::{Case, Setup};

/// The loads of one case.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseLoads {
    /// Boat and trailer.
    pub gross: Known<Weight>,
    /// The boat with all that is aboard.
    pub boat: Known<Weight>,
    /// Boat and trailer as one body.
    pub body: Known<Body>,
    /// On level ground, coupled.
    pub level: Known<Carried>,
    /// On level ground with the rear axle lifted; none on a single axle.
    pub lifted: Option<Known<Carried>>,
    /// The tow vehicle's axles, coupled.
    pub tow: Known<Coupled>,
    /// Tow vehicle and trailer together.
    pub combination: Known<Weight>,
    /// What the tongue jack lifts.
    pub jack: Known<Weight>,
}

impl CaseLoads {
    /// Tongue weight as a share of the gross trailer weight.
    ///
    /// # Errors
    /// The keys that are missing.
    pub fn tongue_share(&self) -> Known<Share> {
        let tongue = self.level.as_ref().map(|level| level.stance.tongue_weight).map_err(Clone::clone);
        both(tongue, self.gross.clone()).map(|(tongue, gross)| tongue / gross)
    }
}

/// A trailer at rest, and what each tire carries.
#[derive(Debug, Clone, PartialEq)]
pub struct Carried {
    /// The trailer at rest.
    pub stance: Stance,
    /// The share of every axle's load on its heavier side.
    pub heavier_side: Known<Share>,
    /// Whether the heavier side is the starboard one; so also where both carry the same.
    pub leans_to_starboard: bool,
    /// The load of each tire on the heavier side, by axle.
    pub tire_loads: Known<PerAxle<Weight>>,
}

impl Model<'_> {
    /// The loads of every case.
    ///
    /// # Errors
    /// [`Unfit`] when the trailer tips over its ball, or no wheel reaches the ground.
    pub fn loads(&self) -> Result<Vec<CaseLoads>, Unfit> {
        self.proposed().cases.iter().map(|case| self.case_loads(case, true)).collect()
    }

    pub(in crate::fit) fn case_loads(&self, case: &Case, lifted: bool) -> Result<CaseLoads, Unfit> {
        let setup = self.proposed();
        let boat = self.boat_weight(case);
        let gross = both(boat.clone(), trailer_weight(setup)).map(|(boat, trailer)| boat + trailer);
        let body = self.body(case);
        let unfit = |why| Unfit { case: case.name.clone().unwrap_or_default(), why };

        let lifted = lifted && setup.trailer.axles.len() > 1;
        let level = self.at_rest(self.undercarriage(), &body).map_err(unfit)?;
        let lifted =
            lifted.then(|| self.at_rest(self.without_rear_axle(), &body)).transpose().map_err(unfit)?;
        let tongue = level.as_ref().map(|level| level.stance.tongue_weight).map_err(Clone::clone);
        let coupled = both(tow_vehicle(setup), tongue.clone()).map(|(tow, tongue)| coupled(tow, tongue));
        let combination = combination(setup, gross.clone());
        let jack = tongue.map(|tongue| jack_load(setup, tongue));
        Ok(CaseLoads { gross, boat, body, level, lifted, tow: coupled, combination, jack })
    }

    /// A body on level ground, on these wheels.
    fn at_rest(
        &self,
        wheels: &Known<Result<Undercarriage, Unsettled>>,
        body: &Known<Body>,
    ) -> Result<Known<Carried>, Unsettled> {
        let setup = self.proposed();
        let on_wheels = both(wheels.as_ref().map_err(Clone::clone), body.clone());
        match both(on_wheels, ball_on_level(setup)) {
            Ok(((wheels, body), ball)) => {
                carried(setup, body, wheels.as_ref().map_err(|why| *why)?, ball).map(Ok)
            }
            Err(missing) => Ok(Err(missing)),
        }
    }
}

/// Settles a body and shares its axles' loads among the tires.
fn carried(
    setup: &Setup,
    body: Body,
    wheels: &Undercarriage,
    ball: GroundPoint,
) -> Result<Carried, Unsettled> {
    let stance = settle(body, wheels, ball, &Terrain::level(), Angle::from_si(0.0))?;
    let offset = sides::effective_offset(body.weight, body.at.y, stance.on_axles());
    let heavier_side = if offset.si() == 0.0 {
        Ok(Share::from_si(0.5))
    } else {
        need(setup, TRAILER_TRACK).map(|track| sides::heavier_side(offset, track))
    };
    let tire_loads = heavier_side.clone().map(|share| {
        let axles = stance.axle_loads.iter().zip(&setup.trailer.axles);
        // Half of the axle's tires stand on its heavier side.
        axles.map(|(load, axle)| *load * share * 2.0 / f64::from(axle.tires.count.unwrap_or(2))).collect()
    });
    Ok(Carried { stance, heavier_side, leans_to_starboard: offset.si() >= 0.0, tire_loads })
}

/// The ball on level ground.
pub(in crate::fit) fn ball_on_level(setup: &Setup) -> Known<GroundPoint> {
    let z = need(setup, TOW_BALL_HEIGHT)?;
    Ok(GroundPoint { x: Length::from_si(0.0), z })
}
