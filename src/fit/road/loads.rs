//! The loads of a case on level ground, coupled, and with the rear axle lifted.

use super::tires::OnTires;
use crate::fit::known::{Known, both, need};
use crate::fit::model::{Model, Unfit};
use crate::fit::tow::{bars, combination, tow_vehicle};
use crate::mechanics::road::sides;
use crate::mechanics::tow::{Bars, Coupled, coupled};
use crate::mechanics::{Body, GroundPoint, PerAxle, Stance, Terrain, Undercarriage, Unsettled, settle};
use crate::quantity::{Angle, Length, Quantity, Share, Weight};
use crate::rig::inputs::{MEASURED_TONGUE_WEIGHT, TOW_BALL_HEIGHT, TRAILER_TRACK};
use crate::rig::{Case, Measured, Setup};

/// The loads of one case.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseLoads {
    /// Boat and trailer.
    pub gross: Known<Weight>,
    /// The boat with all that is aboard.
    pub boat: Known<Weight>,
    /// Boat and trailer as one body.
    pub body: Known<Body>,
    /// What the ball carries on level ground.
    pub tongue: Known<Weight>,
    /// On level ground, coupled.
    pub level: Known<Carried>,
    /// What the tires carry and may carry there, by axle.
    pub tires: PerAxle<OnTires>,
    /// What bars that distribute weight do there; none without them.
    pub bars: Known<Option<Bars>>,
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
        both(self.tongue.clone(), self.gross.clone()).map(|(tongue, gross)| tongue / gross)
    }
}

/// A trailer at rest, and what each tire carries.
#[derive(Debug, Clone, PartialEq)]
pub struct Carried {
    /// The trailer at rest.
    pub stance: Stance,
    /// Force of each axle's springs by their rates alone, whatever scales say of each and without the bars of a weight
    /// distribution hitch: these balance with the tongue weight.
    pub by_rates: PerAxle<Weight>,
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
        let gross = self.gross(case, &boat);
        let body = self.body(case);
        let unfit = |why| Unfit { case: case.name.clone().unwrap_or_default(), why };

        let lifted = lifted && setup.trailer.axles.len() > 1;
        let mut level = self.at_rest(self.undercarriage(), &body).map_err(unfit)?;
        if level.is_err() && self.is_level(case) {
            level = self.with_frame_level().map_err(unfit)?;
        }
        let lifted =
            lifted.then(|| self.at_rest(self.without_rear_axle(), &body)).transpose().map_err(unfit)?;
        let tongue = match &level {
            Ok(level) => Ok(level.stance.tongue_weight),
            Err(_) if self.is_as_weighed(case) => need(setup, MEASURED_TONGUE_WEIGHT),
            Err(missing) => Err(missing.clone()),
        };
        let bars = bars(setup, tongue.clone());
        let level = both(level, bars.clone()).map(|(level, bars)| level.with_bars(setup, bars));
        let on_tires = level.as_ref().map_err(Clone::clone).and_then(|level| level.tire_loads.clone());
        let tires = OnTires::of(setup, &on_tires);
        let coupled = both(both(tow_vehicle(setup), tongue.clone()), bars.clone())
            .map(|((tow, tongue), bars)| coupled(tow, tongue, bars));
        let combination = combination(setup, gross.clone());
        let jack = self.jack_load(tongue.clone(), &body);
        Ok(CaseLoads {
            gross,
            boat,
            body,
            tongue,
            level,
            tires,
            bars,
            lifted,
            tow: coupled,
            combination,
            jack,
        })
    }

    /// A body on level ground, on these wheels.
    fn at_rest(
        &self,
        wheels: &Known<Result<Undercarriage, Unsettled>>,
        body: &Known<Body>,
    ) -> Result<Known<Carried>, Unsettled> {
        let setup = self.proposed();
        let on_wheels = both(wheels.as_ref().map_err(Clone::clone), body.clone());
        let ((wheels, body), ball) = match both(on_wheels, ball_on_level(setup)) {
            Ok(known) => known,
            Err(missing) => return Ok(Err(missing)),
        };
        let wheels = wheels.as_ref().map_err(|why| *why)?;
        let stance = settle(body, wheels, ball, &Terrain::level(), Angle::from_si(0.0))?;
        Ok(Ok(carried(setup, stance, body.weight, Ok(body.at.y))))
    }
}

/// Shares the axles' loads of a trailer at rest among its tires; `side` is how far its weight lies to starboard.
pub(super) fn carried(setup: &Setup, stance: Stance, weight: Weight, side: Known<Length>) -> Carried {
    let by_rates = stance.spring_forces.clone();
    let stance = shared_as_weighed(&setup.measured, stance);
    let offset = side.map(|side| sides::effective_offset(weight, side, stance.on_axles()));
    let heavier_side = offset.clone().and_then(|offset| {
        if offset.si() == 0.0 {
            return Ok(Share::from_si(0.5));
        }
        need(setup, TRAILER_TRACK).map(|track| sides::heavier_side(offset, track))
    });
    let leans_to_starboard = offset.is_ok_and(|offset| offset.si() >= 0.0);
    Carried::of(setup, stance, by_rates, heavier_side, leans_to_starboard)
}

impl Carried {
    fn of(
        setup: &Setup,
        stance: Stance,
        by_rates: PerAxle<Weight>,
        heavier_side: Known<Share>,
        leans_to_starboard: bool,
    ) -> Self {
        let tire_loads = heavier_side.clone().map(|share| {
            let axles = stance.axle_loads.iter().zip(&setup.trailer.axles);
            // Half of the axle's tires stand on its heavier side.
            axles.map(|(load, axle)| *load * share * 2.0 / f64::from(axle.tires.count.unwrap_or(2))).collect()
        });
        Self { stance, by_rates, heavier_side, leans_to_starboard, tire_loads }
    }

    /// The same with what bars that distribute weight put on the axles, each in proportion to what it carries without them.
    /// The side moment stays, so that a heavier axle leans less.
    fn with_bars(mut self, setup: &Setup, bars: Option<Bars>) -> Self {
        let Some(bars) = bars else { return self };
        let without = self.stance.on_axles();
        // (ΣN + M_w / x̄) / ΣN
        let more = (without + bars.moved) / without;
        let loads = [&mut self.stance.axle_loads, &mut self.stance.spring_forces];
        loads.into_iter().flatten().for_each(|load| *load *= more.si());
        let half = Share::from_si(0.5);
        let heavier_side = self.heavier_side.map(|share| half + (share - half) / more);
        Self::of(setup, self.stance, self.by_rates, heavier_side, self.leans_to_starboard)
    }
}

/// The same with each axle carrying the share of all that scales have shown; with one of the axles lifted, the springs'.
fn shared_as_weighed(measured: &Measured, mut stance: Stance) -> Stance {
    let together = measured.on_axles().filter(|_| measured.axles.len() == stance.axle_loads.len());
    let Some(together) = together else { return stance };
    for loads in [&mut stance.axle_loads, &mut stance.spring_forces] {
        let all: Weight = loads.iter().copied().sum();
        for (load, weighed) in loads.iter_mut().zip(&measured.axles) {
            *load = all * (weighed.unwrap_or_default() / together);
        }
    }
    stance
}

/// The ball on level ground.
pub(in crate::fit) fn ball_on_level(setup: &Setup) -> Known<GroundPoint> {
    let z = need(setup, TOW_BALL_HEIGHT)?;
    Ok(GroundPoint { x: Length::from_si(0.0), z })
}
