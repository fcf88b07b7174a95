//! What a rig's brakes do: in a stop, on a descent, and to themselves.

use crate::fit::known::{Known, both, each, known, need};
use crate::fit::model::Model;
use crate::fit::road::{CaseLoads, ball_on_level};
use crate::fit::tow::tow_vehicle;
use crate::fit::wheels::suspension_rate;
use crate::mechanics::brakes::descent::{Held, Memory, grade_alone, released};
use crate::mechanics::brakes::heat::rise_on_descent;
use crate::mechanics::brakes::hydraulics::{
    Master, WheelBrake, disc_factor, piston_area, to_swell, to_touch,
};
use crate::mechanics::brakes::stop::{Actuation, Couple, Slowing, slow};
use crate::mechanics::tow::rear_coupled;
use crate::mechanics::{Body, PerAxle, Undercarriage};
use crate::quantity::{Angle, Area, Length, Pressure, Quantity, Share, Slope, Volume, Weight};
use crate::rig::inputs::{
    TOW_FRONT_AXLE_LOAD, TOW_REAR_AXLE_LOAD, TRAILER_AXLES_BRAKES_CALIPER_SHARE, TRAILER_AXLES_BRAKES_FACTOR,
    TRAILER_AXLES_BRAKES_FORCE, TRAILER_AXLES_BRAKES_FRICTION, TRAILER_AXLES_BRAKES_KIND,
    TRAILER_AXLES_BRAKES_PISTON, TRAILER_AXLES_BRAKES_PISTONS, TRAILER_AXLES_BRAKES_RADIUS,
    TRAILER_AXLES_BRAKES_TRAVEL, TRAILER_AXLES_BRAKES_WEIGHT, TRAILER_AXLES_TIRES_RADIUS,
    TRAILER_BRAKES_BORE, TRAILER_BRAKES_EFFICIENCY, TRAILER_BRAKES_HOSE, TRAILER_BRAKES_KIND,
    TRAILER_BRAKES_LEVERAGE, TRAILER_BRAKES_PRELOAD_SHARE, TRAILER_BRAKES_SETTING, TRAILER_SUSPENSION_ARM,
    TRAILER_SUSPENSION_EYE_HEIGHT, TRAILER_SUSPENSION_KIND, TRAILER_SUSPENSION_PIN_ARM,
    TRAILER_SUSPENSION_PIN_DROP, TRAILER_SUSPENSION_PIVOT_HEIGHT, TRAILER_SUSPENSION_SPRING_LENGTH,
    TRIP_DESCENT_GRADE, TRIP_DESCENT_HEIGHT,
};
use crate::rig::{BrakeSystem, Caliper, RadiusRods, Setup, SuspensionKind, Thrust, WheelBrakeKind};

/// The deceleration of a stop, over `g`. Source: 49 CFR 393.52(d), 14 ft/s² from 20 mph, from memory.
pub const STOP: f64 = 0.435;

/// What the brakes do in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct BrakeLoads {
    /// A stop on the level.
    pub stop: Known<Stop>,
    /// The same without the trailer's brakes: what the tow vehicle's have to do.
    pub by_tow_alone: Known<Weight>,
    /// The same stop on the descent that the file states.
    pub stop_downhill: Known<Stop>,
    /// Pressure in the line in the stop on the level.
    pub pressure: Known<Pressure>,
    /// Travel of the master piston then.
    pub stroke: Known<Stroke>,
    /// The descent at a steady speed.
    pub descent: Known<Descending>,
    /// How hot that makes the brakes of each braked axle.
    pub heat: Known<Vec<Heat>>,
}

/// A stop.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    /// The trailer.
    pub trailer: Slowing,
    /// What the tow vehicle's brakes have to do.
    pub by_tow: Known<Weight>,
    /// What the tow vehicle's axles carry together.
    pub on_tow: Known<Weight>,
    /// What its rear axle carries.
    pub rear_axle: Known<Weight>,
}

/// How far the master piston goes in a stop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// With pistons that travel as they are stated, or taken, to.
    pub travel: Length,
    /// With those that are assumed at the short end of what they may travel.
    pub least: Length,
}

/// A descent at a steady speed.
#[derive(Debug, Clone, PartialEq)]
pub struct Descending {
    /// The trailer with the tow vehicle's brakes on.
    pub applied: Slowing,
    /// What holds the rig with the tow vehicle's brakes on: its brakes and engine together.
    pub by_tow: Weight,
    /// With the tow vehicle's brakes released.
    pub released: Held,
    /// The grade that the tow vehicle would have to hold alone in gear; `None` where no grade asks so much.
    pub grade_alone: Option<Slope>,
}

/// How hot a braked axle's brakes get.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heat {
    /// The axle.
    pub axle: usize,
    /// The rise of disc or drum over the descent, in kelvins.
    pub rise: f64,
    /// The share of it that the fluid takes; none where there is no caliper.
    pub caliper_share: Option<Share>,
}

impl Model<'_> {
    pub(in crate::fit) fn braking(&self, case: &CaseLoads) -> BrakeLoads {
        let setup = self.proposed();
        let actuation = by_gross(&case.gross, |gross| actuation(setup, gross));
        let moving = Moving { model: self, case };
        let level = Angle::from_si(0.0);
        let stop = moving.stop(&actuation, level);
        let by_tow_alone = moving.stop_by_tow_alone();
        let slope = need(setup, TRIP_DESCENT_GRADE).map(|grade| Angle::from_si(grade.si().atan()));
        let stop_downhill = both(slope.clone(), moving.is_known(&actuation))
            .and_then(|(slope, ())| moving.stop(&actuation, slope));
        let push = stop.as_ref().map(|stop| stop.trailer.push).map_err(Clone::clone);
        let master = by_gross(&case.gross, |gross| master(setup, gross));
        let pressure = both(push, master.clone()).map(|(push, master)| master.pressure(push));
        let stroke = both(touch(setup), both(pressure.clone(), master))
            .and_then(|(touch, (pressure, master))| stroke(setup, &touch, pressure, &master));
        let ready = both(moving.is_known(&actuation), tow_weight(setup));
        let descent = both(both(slope.clone(), actuation.clone()), ready)
            .and_then(|((slope, actuation), _)| moving.descending(&actuation, slope));
        let heat = both(iron(setup), both(slope, both(descent.clone(), actuation))).and_then(
            |(iron, (slope, (descent, actuation)))| heat(setup, &iron, slope, &descent, &actuation),
        );
        BrakeLoads { stop, by_tow_alone, stop_downhill, pressure, stroke, descent, heat }
    }
}

/// A rig in one case, to be slowed.
struct Moving<'m> {
    model: &'m Model<'m>,
    case: &'m CaseLoads,
}

impl Moving<'_> {
    fn trailer(&self) -> Known<(Body, &Undercarriage)> {
        let wheels = self.model.undercarriage().as_ref().map_err(Clone::clone);
        let (body, wheels) = both(self.case.body.clone(), wheels)?;
        // A trailer that does not rest on its wheels is reported before any of this.
        let wheels = wheels.as_ref().map_err(|_| crate::fit::Missing::default())?;
        Ok((body, wheels))
    }

    /// Whether all is known that a stop needs beside its slope.
    fn is_known(&self, actuation: &Known<Actuation>) -> Known<()> {
        let rests = both(self.trailer(), both(ball_on_level(self.model.proposed()), couple(self.model)));
        both(actuation.as_ref().map_err(Clone::clone), rests).map(|_| ())
    }

    fn slow(&self, actuation: &Actuation, deceleration: f64, slope: Angle) -> Known<Slowing> {
        let couple = couple(self.model);
        let ((body, wheels), (ball, couple)) =
            both(self.trailer(), both(ball_on_level(self.model.proposed()), couple))?;
        slow(body, wheels, ball, Share::from_si(deceleration), slope, (actuation, &couple))
            .map_err(|_| crate::fit::Missing::default())
    }

    fn stop(&self, actuation: &Known<Actuation>, slope: Angle) -> Known<Stop> {
        let setup = self.model.proposed();
        self.is_known(actuation)?;
        let trailer = actuation.clone().and_then(|actuation| self.slow(&actuation, STOP, slope))?;
        let (sin, cos) = slope.si().sin_cos();
        let alone = tow_weight(setup);
        // B_t = W_t (a + sin θ) + F
        let by_tow = alone.clone().map(|alone| alone * (STOP + sin) + trailer.push);
        // N_t = W_t cos θ + V
        let on_tow = alone.map(|alone| alone * cos + trailer.stance.tongue_weight);
        let rear_axle = tow_vehicle(setup)
            .map(|tow| rear_coupled(tow.rear, trailer.stance.tongue_weight, tow.overhang / tow.wheelbase));
        Ok(Stop { trailer, by_tow, on_tow, rear_axle })
    }

    /// What the tow vehicle's brakes have to do in a stop on the level where the trailer's do nothing.
    fn stop_by_tow_alone(&self) -> Known<Weight> {
        let unbraked = Ok(Actuation::Current(PerAxle::new()));
        self.is_known(&unbraked)?;
        // B_t = W_t a + F, F = W a
        both(tow_weight(self.model.proposed()), self.case.body.clone())
            .map(|(alone, body)| alone * STOP + body.weight * STOP)
    }

    fn descending(&self, actuation: &Actuation, slope: Angle) -> Known<Descending> {
        let setup = self.model.proposed();
        let (gross, tow) = both(self.case.gross.clone(), tow_weight(setup))?;
        let along = gross * slope.si().sin();
        let applied = match actuation {
            Actuation::Push { .. } => self.slow(actuation, 0.0, slope)?,
            // Turned down until no more is held than the hill asks.
            Actuation::Current(forces) => {
                let all: Weight = forces.iter().copied().sum();
                let share = if all > along { along / all } else { Share::from_si(1.0) };
                let held = forces.iter().map(|force| *force * share).collect();
                self.slow(&Actuation::Current(held), 0.0, slope)?
            }
        };
        let by_tow = tow * slope.si().sin() + applied.push;
        let released = match actuation {
            Actuation::Push { preload, greatest, gains } => {
                let gain = gains.iter().sum::<f64>();
                let most = greatest.map(|greatest| (greatest - *preload) * gain);
                released((gross, tow), slope, (gain, *preload, most), memory(setup))
            }
            // Off with the pedal.
            Actuation::Current(_) => {
                Held { push: along, brakes: Weight::default(), by_tow: tow * slope.si().sin() + along }
            }
        };
        Ok(Descending { applied, by_tow, released, grade_alone: grade_alone(released.by_tow, tow) })
    }
}

/// The tow vehicle alone.
fn tow_weight(setup: &Setup) -> Known<Weight> {
    both(need(setup, TOW_FRONT_AXLE_LOAD), need(setup, TOW_REAR_AXLE_LOAD)).map(|(front, rear)| front + rear)
}

/// What the actuator remembers once the tow vehicle's brakes are released.
fn memory(setup: &Setup) -> Memory {
    let brakes = &setup.trailer.brakes;
    match (brakes.release_push, brakes.slide_friction) {
        (Some(release), _) => Memory::Holds(release),
        (None, Some(friction)) => Memory::Friction(friction),
        (None, None) => Memory::None,
    }
}

/// What works the brakes of a trailer of this gross weight.
fn actuation(setup: &Setup, gross: Weight) -> Known<Actuation> {
    let brakes = &setup.trailer.brakes;
    let axles = || setup.trailer.axles.iter().enumerate();
    match known(brakes.kind, TRAILER_BRAKES_KIND.key())? {
        BrakeSystem::None => Ok(Actuation::Current(axles().map(|_| Weight::default()).collect())),
        BrakeSystem::Electric | BrakeSystem::ElectricHydraulic => {
            let setting = need(setup, TRAILER_BRAKES_SETTING)?;
            let force = |(i, axle): (usize, &crate::rig::Axle)| {
                if !setup.trailer.is_braked(i) {
                    return Ok(Weight::default());
                }
                known(axle.brakes.force, TRAILER_AXLES_BRAKES_FORCE.of(i)).map(|force| force * setting * 2.0)
            };
            each(axles().map(force)).map(Actuation::Current)
        }
        BrakeSystem::Surge => {
            let preload = preload(setup, gross)?;
            if let Some(gain) = brakes.gain {
                let braked = setup.trailer.braked_axles().count().max(1);
                let gains =
                    axles().map(|(i, _)| if setup.trailer.is_braked(i) { gain / braked as f64 } else { 0.0 });
                return Ok(Actuation::Push { preload, greatest: None, gains: gains.collect() });
            }
            let gain = |(i, _): (usize, &crate::rig::Axle)| {
                if setup.trailer.is_braked(i) {
                    wheel_brake(setup, i).map(|wheel| wheel.force_per_pressure() * 2.0)
                } else {
                    Ok(Area::default())
                }
            };
            let (master, areas) = both(master(setup, gross), each::<_, PerAxle<Area>>(axles().map(gain)))?;
            let gains = areas.iter().map(|area| master.gain(*area)).collect();
            Ok(Actuation::Push { preload, greatest: master.greatest_push(), gains })
        }
    }
}

/// What the coupler's spring and friction hold back.
fn preload(setup: &Setup, gross: Weight) -> Known<Weight> {
    match setup.trailer.brakes.preload {
        Some(preload) => Ok(preload),
        None => need(setup, TRAILER_BRAKES_PRELOAD_SHARE).map(|share| gross * share),
    }
}

/// The master cylinder of an actuator that the push works.
fn master(setup: &Setup, gross: Weight) -> Known<Master> {
    let brakes = &setup.trailer.brakes;
    let push = known(brakes.leverage, TRAILER_BRAKES_LEVERAGE.key());
    let cylinder = both(need(setup, TRAILER_BRAKES_BORE), need(setup, TRAILER_BRAKES_EFFICIENCY));
    let (((bore, efficiency), leverage), preload) = both(both(cylinder, push), preload(setup, gross))?;
    Ok(Master { bore, leverage, efficiency, preload, pressure_max: brakes.pressure_max })
}

/// The pistons of one wheel that press one way: one side of a disc, or one end of a wheel cylinder.
fn pistons(setup: &Setup, axle: usize) -> Known<Area> {
    let brakes = &setup.trailer.axles[axle].brakes;
    let count = known(brakes.pistons, TRAILER_AXLES_BRAKES_PISTONS.of(axle));
    let (diameter, count) = both(known(brakes.piston, TRAILER_AXLES_BRAKES_PISTON.of(axle)), count)?;
    Ok(piston_area(diameter) * count)
}

/// A wheel's hydraulic brake.
fn wheel_brake(setup: &Setup, axle: usize) -> Known<WheelBrake> {
    let (brakes, tires) = (&setup.trailer.axles[axle].brakes, &setup.trailer.axles[axle].tires);
    let kind = known(brakes.kind, TRAILER_AXLES_BRAKES_KIND.of(axle));
    let factor = kind.and_then(|kind| match kind {
        WheelBrakeKind::Disc => {
            known(brakes.friction, TRAILER_AXLES_BRAKES_FRICTION.of(axle)).map(disc_factor)
        }
        _ => known(brakes.factor, TRAILER_AXLES_BRAKES_FACTOR.of(axle)),
    });
    let radius = known(brakes.radius, TRAILER_AXLES_BRAKES_RADIUS.of(axle));
    let tire_radius = known(tires.radius, TRAILER_AXLES_TIRES_RADIUS.of(axle));
    let (factor, (area, (radius, tire_radius))) =
        both(factor, both(pistons(setup, axle), both(radius, tire_radius)))?;
    Ok(WheelBrake { area, factor, radius, tire_radius })
}

/// Half of what is assumed: the short end of a piston's travel. Common practice, no source.
const SHORT_TRAVEL: f64 = 0.5;

/// What the pistons of each braked axle take to touch; those of which the travel is assumed at its short end too.
fn touch(setup: &Setup) -> Known<Vec<[Volume; 2]>> {
    let fluid = |i: usize| {
        let brakes = &setup.trailer.axles[i].brakes;
        // Both sides of a fixed caliper, both ends of a wheel cylinder.
        let floats = brakes.kind == Some(WheelBrakeKind::Disc) && brakes.caliper != Some(Caliper::Fixed);
        let both_ways = if floats { 1.0 } else { 2.0 };
        let travel = known(brakes.travel, TRAILER_AXLES_BRAKES_TRAVEL.of(i));
        let (area, travel) = both(pistons(setup, i), travel)?;
        let least = if setup.is_assumed(TRAILER_AXLES_BRAKES_TRAVEL.of(i)) { SHORT_TRAVEL } else { 1.0 };
        let of_axle = to_touch(area * (2.0 * both_ways), travel);
        Ok([of_axle, of_axle * least])
    };
    let braked = setup.trailer.braked_axles();
    each(braked.map(fluid))
}

/// What follows from the gross weight; where that is unknown, all that is missing for it beside.
fn by_gross<T>(gross: &Known<Weight>, of: impl Fn(Weight) -> Known<T>) -> Known<T> {
    both(gross.clone(), of(gross.clone().unwrap_or_default())).map(|(_, found)| found)
}

/// How far the master piston goes at a pressure.
fn stroke(setup: &Setup, touch: &[[Volume; 2]], pressure: Pressure, master: &Master) -> Known<Stroke> {
    let hose = need(setup, TRAILER_BRAKES_HOSE)?;
    let swell = to_swell(hose, pressure);
    let [travel, least] = [0, 1].map(|end| {
        let touch: Volume = touch.iter().map(|ends| ends[end]).sum();
        master.stroke(touch + swell)
    });
    Ok(Stroke { travel, least })
}

/// How the springs take what the brakes do to them.
fn couple(model: &Model<'_>) -> Known<Couple> {
    let setup = model.proposed();
    let suspension = setup.trailer.suspension;
    match known(suspension.kind, TRAILER_SUSPENSION_KIND.key())? {
        SuspensionKind::LeafEqualized
            if setup.trailer.axles.len() > 1 && suspension.radius_rods != Some(RadiusRods::Pair) =>
        {
            let lengths = both(
                need(setup, TRAILER_SUSPENSION_SPRING_LENGTH),
                need(setup, TRAILER_SUSPENSION_EYE_HEIGHT),
            );
            let pin = if suspension.thrust == Some(Thrust::Frame) {
                Ok(0.0)
            } else {
                let pin =
                    both(need(setup, TRAILER_SUSPENSION_PIN_DROP), need(setup, TRAILER_SUSPENSION_PIN_ARM));
                pin.map(|(drop, arm)| (drop / arm).si())
            };
            let ((spring_length, eye_height), pin_lever) = both(lengths, pin)?;
            Ok(Couple::Equalized { spring_length, eye_height, pin_lever })
        }
        SuspensionKind::LeafEqualized | SuspensionKind::LeafSeparate => Ok(Couple::IntoFrame),
        SuspensionKind::Torsion => {
            let lengths =
                both(need(setup, TRAILER_SUSPENSION_ARM), need(setup, TRAILER_SUSPENSION_PIVOT_HEIGHT));
            let rates = each((0..setup.trailer.axles.len()).map(|i| suspension_rate(model.measured(), i)));
            let ((arm, pivot_height), rates) = both(lengths, rates)?;
            Ok(Couple::Torsion { arm, pivot_height, rates })
        }
    }
}

/// What gets hot at each braked axle.
fn iron(setup: &Setup) -> Known<Vec<(usize, Weight)>> {
    let of_axle = |i: usize| {
        let wheel = &setup.trailer.axles[i].brakes;
        let iron = known(wheel.weight, TRAILER_AXLES_BRAKES_WEIGHT.of(i))?;
        // Of hub and drum in one piece half gets hot. Common practice, no source.
        let hot = if wheel.one_piece == Some(true) { 0.5 } else { 1.0 };
        Ok((i, iron * (2.0 * hot)))
    };
    both(need(setup, TRIP_DESCENT_HEIGHT), each(setup.trailer.braked_axles().map(of_axle)))
        .map(|(_, iron)| iron)
}

/// How hot the brakes of each braked axle get over the descent, without cooling.
fn heat(
    setup: &Setup,
    iron: &[(usize, Weight)],
    slope: Angle,
    descent: &Descending,
    actuation: &Actuation,
) -> Known<Vec<Heat>> {
    let height = need(setup, TRIP_DESCENT_HEIGHT)?;
    let of_axle = |(i, iron): (usize, Weight)| {
        let brakes = match actuation {
            // Alike all the way down, by their gains.
            Actuation::Push { gains, .. } => {
                let share = gains[i] / gains.iter().sum::<f64>();
                descent.released.brakes * share
            }
            Actuation::Current(_) => descent.applied.brakes[i],
        };
        let wheel = &setup.trailer.axles[i].brakes;
        let rise = rise_on_descent(brakes, height, slope, iron);
        let caliper_share = match wheel.kind {
            Some(WheelBrakeKind::Disc) => {
                Some(known(wheel.caliper_share, TRAILER_AXLES_BRAKES_CALIPER_SHARE.of(i))?)
            }
            _ => None,
        };
        Ok(Heat { axle: i, rise, caliper_share })
    };
    each(iron.iter().copied().map(of_axle))
}
