//! What a setup says of its axles: where they stand, and what presses their wheels to the ground.

use super::known::{Known, both, each, known};
use crate::mechanics::road::level::Sharing;
use crate::mechanics::road::settle::MeasuredAxle;
use crate::mechanics::{PerAxle, Spring};
use crate::quantity::{Length, Quantity, Rate, Weight};
use crate::rig::inputs::{
    TRAILER_AXLES_RATING, TRAILER_AXLES_STATION, TRAILER_AXLES_TIRES_RADIUS, TRAILER_AXLES_TIRES_RATE,
    TRAILER_SUSPENSION_KIND,
};
use crate::rig::{Setup, SuspensionKind};

/// End travel of every equalizer; zero where the suspension has none.
pub fn equalizer_travel(setup: &Setup) -> Known<Length> {
    let suspension = setup.trailer.suspension;
    let kind = known(suspension.kind, TRAILER_SUSPENSION_KIND.key())?;
    let equalized = kind == SuspensionKind::LeafEqualized;
    Ok(suspension.equalizer_travel.filter(|_| equalized).unwrap_or_default())
}

/// The axles as they stood when the rig was measured.
pub fn axles(setup: &Setup) -> Known<PerAxle<MeasuredAxle>> {
    each((0..setup.trailer.axles.len()).map(|i| {
        let radius = known(setup.trailer.axles[i].tires.radius, TRAILER_AXLES_TIRES_RADIUS.of(i));
        let ((station, wheel_radius), spring) = both(both(station(setup, i), radius), spring(setup, i))?;
        Ok(MeasuredAxle { station, wheel_radius, spring })
    }))
}

/// Where the axles stood then, behind the ball.
pub fn stations(setup: &Setup) -> Known<PerAxle<Length>> {
    each((0..setup.trailer.axles.len()).map(|i| station(setup, i)))
}

fn station(setup: &Setup, axle: usize) -> Known<Length> {
    known(setup.trailer.axles[axle].station, TRAILER_AXLES_STATION.of(axle))
}

fn spring(setup: &Setup, i: usize) -> Known<Spring> {
    let (axle, suspension) = (&setup.trailer.axles[i], setup.trailer.suspension);
    // The measured setup has the file's rating, whatever rating is proposed.
    let rating = known(axle.spring_rating.or(axle.rating), TRAILER_AXLES_RATING.of(i));
    let rate = known(axle.tires.rate, TRAILER_AXLES_TIRES_RATE.of(i));
    // Both default by the suspension's kind.
    let deflection = known(suspension.deflection_at_rating, TRAILER_SUSPENSION_KIND.key());
    let bump = known(suspension.bump, TRAILER_SUSPENSION_KIND.key());
    let ((rating, rate), (deflection, bump)) = both(both(rating, rate), both(deflection, bump))?;
    let suspension = suspension_rate_of(rating, deflection);
    let tires = rate * f64::from(axle.tires.count.unwrap_or(2));
    Ok(Spring::new(suspension, tires, bump))
}

/// The rate of an axle's suspension alone.
pub fn suspension_rate(setup: &Setup, i: usize) -> Known<Rate> {
    let axle = &setup.trailer.axles[i];
    let rating = known(axle.spring_rating.or(axle.rating), TRAILER_AXLES_RATING.of(i));
    let deflection = known(setup.trailer.suspension.deflection_at_rating, TRAILER_SUSPENSION_KIND.key());
    both(rating, deflection).map(|(rating, deflection)| suspension_rate_of(rating, deflection))
}

fn suspension_rate_of(rating: Weight, deflection: Length) -> Rate {
    // k_s = rating of the springs / deflection at rating
    Rate::from_si(rating.si() / deflection.si())
}

/// How the axles share a load while the frame is level: by their springs; where these are not known evenly, if they are
/// equalized, or alike and nothing says how they are sprung.
pub fn sharing(setup: &Setup) -> Known<Sharing> {
    let axles = setup.trailer.axles.len();
    let springs = each((0..axles).map(|i| spring(setup, i)));
    match (both(springs, equalizer_travel(setup)), setup.trailer.suspension.kind) {
        (Ok((springs, equalizer_travel)), _) => Ok(Sharing { springs, equalizer_travel }),
        (Err(_), Some(SuspensionKind::LeafEqualized)) => Ok(Sharing::even(axles)),
        (Err(_), _) if axles == 1 => Ok(Sharing::even(axles)),
        (Err(_), None) if setup.trailer.has_axles_alike() => Ok(Sharing::even(axles)),
        // Where it is equalized nothing more is asked for.
        (Err(_), None) => known(None, TRAILER_SUSPENSION_KIND.key()),
        (Err(missing), Some(_)) => Err(missing),
    }
}
