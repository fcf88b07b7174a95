//! Coming home: between which depths the winch can draw the boat to her stop and she sits down on her marks.

use super::slipway::{Event, Means, Slipway, Spot};
use crate::fit::known::{Known, Missing};
use crate::mechanics::launch::backing::{Immersion, Launch as OnRamp, Stopped};
use crate::mechanics::winch::pull_needed;
use crate::quantity::{Length, Quantity, Slope};

/// What ends the band of depths at which the boat comes home.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Closes {
    /// With her stern afloat she sits down short of the stop.
    SitsShort,
    /// The guides are awash.
    Guides,
    /// The tow vehicle's rear hubs get wet.
    TowHub,
    /// Its tailpipe gets wet.
    Tailpipe,
    /// The ramp ends.
    RampEnds,
}

/// The band of depths at which the boat comes home.
#[derive(Debug, Clone, PartialEq)]
pub struct Home {
    /// Where the winch can first draw her to the stop; `None` where it cannot.
    pub from: Option<Spot>,
    /// What ends the band, and where.
    pub to: (Closes, Spot),
}

impl Home {
    /// Its width along the ramp, from the water's edge at the most, negative where it is empty; `None` where the winch
    /// cannot draw her home at all.
    pub fn width(&self) -> Option<Length> {
        // Where the winch can draw her up the dry ramp the band begins at the water's edge.
        Some(self.to.1.along - self.from.as_ref()?.along.max(Length::default()))
    }
}

/// The band of depths for coming home, of a rig whose ramp ends at one of its events.
///
/// # Errors
/// Where the rig comes to no rest; inside, the keys that are missing.
pub(super) fn home(
    rig: &Slipway,
    on_ramp: &OnRamp<'_>,
    beyond: Length,
    events: &[(Event, Spot)],
) -> Result<Known<Home>, Stopped> {
    let Means { gap, radius, angle, pull } = match &rig.home {
        Ok(means) => means,
        Err(missing) => return Ok(Err(missing.clone())),
    };
    let winch_can = |at: &Immersion| {
        let slope = Slope::from_si(at.instant.stance.pitch.si().tan());
        let needed = pull_needed(at.boat.carried, slope, rig.friction, *angle);
        needed.map_or(f64::NEG_INFINITY, |needed| (*pull - needed).si())
    };
    let sits_short = |at: &Immersion| (at.eye.map_or(Length::default(), |eye| eye.short) - *gap).si();
    let hub_wet = |at: &Immersion| rig.tow_hub(at, *radius).si();
    let guides = |at: &Immersion| rig.spot(at).guides.map_or(f64::NEG_INFINITY, |dry| -dry.si());
    let tailpipe = |at: &Immersion| rig.spot(at).tailpipe.map_or(f64::NEG_INFINITY, |dry| -dry.si());
    // Enough is known where the winch can draw her home and something ends the band.
    let enough = |found: &[Option<Immersion>]| {
        let (can, ends) = found.split_at(1);
        can[0].is_some() && ends.iter().any(Option::is_some)
    };
    let values: [&dyn Fn(&Immersion) -> f64; 5] = [&winch_can, &sits_short, &guides, &hub_wet, &tailpipe];
    let found = on_ramp.coming_home().firsts(beyond, enough, &values)?;
    let mut spots = found.iter().map(|at| at.as_ref().map(|at| rig.spot(at)));
    let from = spots.next().flatten();
    let closes = [Closes::SitsShort, Closes::Guides, Closes::TowHub, Closes::Tailpipe];
    let ends = events.iter().filter(|(event, _)| *event == Event::Ends);
    let ends = ends.map(|(_, spot)| (Closes::RampEnds, spot.clone()));
    let all = closes.into_iter().zip(spots).filter_map(|(which, spot)| Some((which, spot?))).chain(ends);
    let to = all.reduce(|first, next| if next.1.along < first.1.along { next } else { first });
    // The ramp ends somewhere.
    Ok(to.map(|to| Home { from, to }).ok_or_else(Missing::default))
}
